package check

import (
	"strings"

	"blankwright/flat/diag"
)

var waiverUnused = &Check{
	ID:       "waiver-unused",
	Severity: diag.Warning,
	Firm:     true,
	Title:    "a waiver that nothing needed",
	Meaning: "A waiver that answers for no finding is left over from an earlier state of the part, misspelt, or " +
		"meant for another hole. Left in, it would hide the next finding of its kind without anyone having " +
		"decided so.",
	Formula: "each waiver answers for one finding or more, and gives a reason",
	Source:  "the table of rules",
	Limits:  "A waiver that also answers for findings its writer did not mean is not noticed: name the hole.",
	Run: func(c *Context) {
		for i := range c.part.Waivers {
			w := &c.part.Waivers[i]
			k, known := Find(w.Rule.Text)
			if c.waivers[i] != unused || known && k.Firm {
				continue
			}
			why := "answers for no finding"
			switch {
			case !known:
				why = "names no rule"
				if near := diag.Nearest(w.Rule.Text, ids()); near != "" {
					why += "; did you mean " + near
				}
			case strings.TrimSpace(w.Reason.Text) == "":
				why = "gives no reason, so it sets nothing aside"
			}
			c.Report(diag.Finding{
				Pos: w.Pos, Message: waiverWords(w) + " " + why,
			}, dropWaiver(i))
		}
	},
}

// ids are the ids of all rules.
func ids() []string {
	all := make([]string, len(rules))
	for i, k := range rules {
		all[i] = k.ID
	}
	return all
}
