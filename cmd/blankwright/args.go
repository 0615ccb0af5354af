package main

import (
	"strings"

	"blankwright/flat/diag"

	"github.com/urfave/cli/v2"
)

// flagsFirst moves a command's flags before its files, so that both
// `make --out cut axle-tab.yaml` and `make axle-tab.yaml --out cut` work; the
// library stops reading flags at the first file. Everything after -- stays.
func flagsFirst(app *cli.App, args []string) []string {
	if len(args) < 3 {
		return args
	}
	cmd := app.Command(args[1])
	if cmd == nil {
		return args
	}
	var flags, files []string
	rest := args[2:]
	for i := 0; i < len(rest); i++ {
		a := rest[i]
		if a == "--" {
			files = append(files, rest[i+1:]...)
			break
		}
		if len(a) < 2 || a[0] != '-' {
			files = append(files, a)
			continue
		}
		flags = append(flags, a)
		if !strings.Contains(a, "=") && takesValue(cmd, strings.TrimLeft(a, "-")) && i+1 < len(rest) {
			i++
			flags = append(flags, rest[i])
		}
	}
	out := append([]string{args[0], args[1]}, flags...)
	if len(files) > 0 {
		out = append(append(out, "--"), files...)
	}
	return out
}

func takesValue(cmd *cli.Command, name string) bool {
	for _, f := range cmd.Flags {
		for _, n := range f.Names() {
			if n == name {
				_, isBool := f.(*cli.BoolFlag)
				return !isBool
			}
		}
	}
	return false
}

func unknownCommand(app *cli.App, name string) error {
	var known []string
	for _, c := range app.Commands {
		known = append(known, c.Name)
	}
	if near := diag.Nearest(name, known); near != "" {
		return usage("no command %q; did you mean %q", name, near)
	}
	return usage("no command %q; there are %s", name, strings.Join(known, ", "))
}
