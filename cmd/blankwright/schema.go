package main

import (
	_ "embed"

	"github.com/urfave/cli/v2"
)

// reportSchema is the published schema (JSON Schema, draft 2020-12) of what check
// and make print with --json.
//
//go:embed schema/report.json
var reportSchema []byte

func schemaCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:  "schema",
		Usage: "print the JSON schema of what check --json prints",
		Action: func(c *cli.Context) error {
			if c.NArg() > 0 {
				return usage("schema takes no argument, got %d", c.NArg())
			}
			t.print(reportSchema)
			return nil
		},
	}
}
