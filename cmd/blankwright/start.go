package main

import (
	"strings"

	"blankwright/flat/blank"
	"blankwright/samples"

	"github.com/urfave/cli/v2"
)

// answersTo reports whether a person who writes word means the sample: by its
// name, or a starter by the last word of it, as in `start coupon`.
func answersTo(s samples.Sample, word string) bool {
	return s.Name == word || s.Variant == samples.Starter && strings.HasSuffix(s.Name, "-"+word)
}

// starters are the samples to begin from: parts, then the files of whole jobs, each
// by the name that it gives itself.
func starters() []samples.Sample {
	var list []samples.Sample
	for _, s := range samples.List() {
		if s.Variant != samples.Trap {
			list = append(list, s)
		}
	}
	for _, j := range samples.Jobs() {
		if j.Variant == samples.Trap {
			continue
		}
		for _, f := range j.Files {
			f.Name = blank.SafeName(nameIn(f.Text), 60)
			list = append(list, f)
		}
	}
	return list
}

// nameIn is the name that a description gives what it describes.
func nameIn(text []byte) string {
	for _, line := range strings.Split(string(text), "\n") {
		for _, kind := range [...]string{"part:", "tube:", "job:"} {
			if name, ok := strings.CutPrefix(line, kind); ok {
				return strings.TrimSpace(name)
			}
		}
	}
	return ""
}

func startCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "start",
		Usage:     "print a starter description to save and edit; without KIND list them",
		ArgsUsage: "[KIND]",
		Action: func(c *cli.Context) error {
			if c.NArg() > 1 {
				return usage("start takes one KIND, got %d", c.NArg())
			}
			var known []string
			for _, s := range starters() {
				if c.NArg() == 0 {
					t.result(s.Name)
				} else if answersTo(s, c.Args().First()) {
					t.print(s.Text)
					return nil
				}
				known = append(known, s.Name)
			}
			if c.NArg() == 0 {
				return nil
			}
			return unknownWord("starter", c.Args().First(), known)
		},
	}
}
