package check

import "blankwright/flat/diag"

var waiverRefused = &Check{
	ID:       "waiver-refused",
	Severity: diag.Warning,
	Firm:     true,
	Title:    "a waiver for what no waiver can set aside",
	Meaning: "An outline that is broken, an opening outside the metal or in another one cannot be cut as drawn, " +
		"whatever the reason. A waiver for such a rule changes nothing: the finding stays and the check fails.",
	Formula: "the waiver's rule is not one of those that no waiver sets aside",
	Source:  "the table of rules",
	Limits:  "Told whether or not the rule found anything.",
	Run: func(c *Context) {
		for i := range c.part.Waivers {
			w := &c.part.Waivers[i]
			if k, ok := Find(w.Rule.Text); ok && k.Firm {
				c.Report(diag.Finding{
					Pos:     w.Pos,
					Message: waiverWords(w) + " is refused: no reason makes such a part fit to cut",
				}, dropWaiver(i))
			}
		}
	},
}
