package main

import (
	_ "embed"
	"strings"

	"github.com/urfave/cli/v2"
)

// reportSchema is the published schema (JSON Schema, draft 2020-12) of what check
// and make print with --json.
//
//go:embed schema/report.json
var reportSchema []byte

// layoutSchema is the same of what layout prints.
//
//go:embed schema/layout.json
var layoutSchema []byte

func schemaCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "schema",
		Usage:     "print the JSON schema of what check --json prints; `schema layout` that of layout --json",
		ArgsUsage: "[layout]",
		Action: func(c *cli.Context) error {
			switch {
			case c.NArg() == 0:
				t.print(reportSchema)
			case c.NArg() == 1 && c.Args().First() == "layout":
				t.print(layoutSchema)
			default:
				return usage("schema takes no argument, or layout; got %q", strings.Join(c.Args().Slice(), " "))
			}
			return nil
		},
	}
}
