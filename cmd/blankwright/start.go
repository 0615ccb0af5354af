package main

import (
	"strings"

	"blankwright/samples"

	"github.com/urfave/cli/v2"
)

// answersTo reports whether a person who writes word means the sample: by its
// name, or a starter by the last word of it, as in `start coupon`.
func answersTo(s samples.Sample, word string) bool {
	return s.Name == word || s.Variant == samples.Starter && strings.HasSuffix(s.Name, "-"+word)
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
			for _, s := range samples.List() {
				if s.Variant == samples.Trap {
					continue
				}
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
