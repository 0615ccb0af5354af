package check

import (
	"strconv"
	"strings"

	"blankwright/flat/diag"
)

var rulesUnknown = &Check{
	ID:       "rules-unknown",
	Severity: diag.Error,
	Firm:     true,
	Title:    "the file chooses bolt hole rules that there are not",
	Meaning: "`rules:` names whose distances bolt holes are measured against. A name that is not known is never " +
		"passed over: the first set is used, and this finding says so.",
	Formula: "rules: one of the sets that edge-distance and bolt-spacing name",
	Source:  "the table of rule sets",
	Limits:  "Only the name is looked at.",
	Run: func(c *Context) {
		if _, ok := chosen(c.part); ok {
			return
		}
		word := c.part.Rules
		pos := word.Pos
		if pos.Line == 0 {
			pos = c.part.Pos
		}
		use := diag.Nearest(word.Text, RuleSets())
		if use == "" {
			use = c.set.word
		}
		c.Report(diag.Finding{
			Pos: pos,
			Message: "no rule set is called " + strconv.Quote(word.Text) + "; there are " + strings.Join(RuleSets(), ", ") +
				"; " + c.set.word + " was used",
		}, Change{Kind: UseRules, Word: use, Text: "write `rules: " + use + "`"})
	},
}
