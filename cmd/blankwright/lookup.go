package main

import (
	"fmt"
	"strings"

	"blankwright/flat/check"
	"blankwright/flat/diag"
	"blankwright/flat/job"
	"blankwright/flat/tube"
	"blankwright/profiles"

	"github.com/urfave/cli/v2"
)

func ruleCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "rule",
		Usage:     "explain a rule: what it asks, formula, source, limits; without ID list them",
		ArgsUsage: "[ID]",
		Action: func(c *cli.Context) error {
			if c.NArg() > 1 {
				return usage("rule takes one ID, got %d", c.NArg())
			}
			if c.NArg() == 0 {
				for _, k := range allRules() {
					t.result(fmt.Sprintf("%-22s %s", k.ID, k.Title))
				}
				return nil
			}
			id := c.Args().First()
			k, ok := findRule(id)
			if !ok {
				var known []string
				for _, k := range allRules() {
					known = append(known, k.ID)
				}
				return unknownWord("rule", id, known)
			}
			t.result(strings.TrimRight(check.Explain(k), "\n"))
			return nil
		},
	}
}

func tableCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "table",
		Usage:     "print a handbook table with its source, all of bends by the name bends; without NAME list them",
		ArgsUsage: "[NAME]",
		Flags:     []cli.Flag{profileFlag()},
		Action: func(c *cli.Context) error {
			if c.NArg() > 1 {
				return usage("table takes one NAME, got %d", c.NArg())
			}
			set, err := profileAt(c.String("profile"))
			if err != nil {
				return err
			}
			tables := allTables(set)
			if c.NArg() == 0 {
				for _, tb := range tables {
					t.result(fmt.Sprintf("%-28s %s", tb.Name, tb.Title))
				}
				return nil
			}
			word := strings.ReplaceAll(c.Args().First(), " ", "-")
			if word == bendTables {
				t.printBendTables(tables)
				return nil
			}
			var found, known []string
			var last profiles.Table
			for _, tb := range tables {
				if tb.Name == word {
					t.print(appendTable(nil, tb))
					return nil
				}
				if strings.Contains(tb.Name, word) {
					found, last = append(found, tb.Name), tb
				}
				known = append(known, tb.Name)
			}
			switch len(found) {
			case 0:
				return unknownWord("table", c.Args().First(), known)
			case 1:
				t.print(appendTable(nil, last))
				return nil
			}
			return usage("%q is in the names of several tables: %s", word, strings.Join(found, ", "))
		},
	}
}

// bendTables is a name for all that is tabled of bends, the shop's own test bends
// included.
const bendTables = "bends"

func (t *talk) printBendTables(tables []profiles.Table) {
	var text []byte
	for _, tb := range tables {
		if strings.Contains(tb.Name, "bend") || tb.Name == "v-dies" {
			if len(text) > 0 {
				text = append(text, '\n')
			}
			text = appendTable(text, tb)
		}
	}
	t.print(text)
}

func unknownWord(kind, word string, known []string) error {
	if near := diag.Nearest(word, known); near != "" {
		return usage("no %s %q; did you mean %q", kind, word, near)
	}
	return usage("no %s %q; there are %s", kind, word, strings.Join(known, ", "))
}

// appendTable lays a table out in columns for a terminal.
func appendTable(b []byte, tb profiles.Table) []byte {
	width := make([]int, len(tb.Columns))
	for i, c := range tb.Columns {
		width[i] = len([]rune(c))
	}
	for _, r := range tb.Rows {
		for i, c := range r {
			width[i] = max(width[i], len([]rune(c)))
		}
	}
	row := func(cells []string) {
		var line strings.Builder
		for i, c := range cells {
			line.WriteString(c)
			line.WriteString(strings.Repeat(" ", width[i]-len([]rune(c))+2))
		}
		b = append(b, strings.TrimRight(line.String(), " ")...)
		b = append(b, '\n')
	}
	b = append(b, tb.Title+"\n"...)
	row(tb.Columns)
	for _, r := range tb.Rows {
		row(r)
	}
	b = append(b, "source: "+tb.Source.Text...)
	if tb.Source.Prov != "" {
		b = append(b, " ("+string(tb.Source.Prov)+")"...)
	}
	return append(b, '\n')
}

// allRules are the rules for parts, then those for tubes and for jobs.
func allRules() []*check.Check { return append(append(check.All(), tube.Rules()...), job.Rules()...) }

func findRule(id string) (*check.Check, bool) {
	for _, k := range allRules() {
		if k.ID == id {
			return k, true
		}
	}
	return nil, false
}
