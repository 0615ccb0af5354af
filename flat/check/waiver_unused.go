package check

import (
	"slices"
	"strings"

	"blankwright/flat/describe"
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
				why = NoRule(w.Rule.Text, All())
			case strings.TrimSpace(w.Reason.Text) == "":
				why = "gives no reason, so it sets nothing aside"
			}
			c.Report(diag.Finding{
				Pos: w.Pos, Message: waiverWords(w) + " " + why,
			}, dropWaiver(i))
		}
	},
}

// NoRule says that a waiver names none of the rules, and which it may mean.
func NoRule(id string, rules []*Check) string {
	ids := make([]string, len(rules))
	for i, k := range rules {
		ids[i] = k.ID
	}
	why := "names no rule"
	if near := diag.Nearest(id, ids); near != "" {
		why += "; did you mean " + near
	}
	return why
}

// Waived is the reason that the waivers of a tube or a job give for setting a rule's
// findings aside; "" where none does.
func Waived(ws []describe.Waiver, rule string) string {
	for _, w := range ws {
		if w.Rule.Text == rule && w.Reason.Text != "" {
			return w.Reason.Text
		}
	}
	return ""
}

// IdleWaivers are the findings about waivers of a tube or a job that answer for
// none of its findings; rules are those that can be waived there.
func IdleWaivers(ws []describe.Waiver, findings []diag.Finding, rules []*Check) []diag.Finding {
	var out []diag.Finding
	for _, w := range ws {
		is := func(id string) bool { return id == w.Rule.Text }
		if slices.ContainsFunc(findings, func(f diag.Finding) bool { return is(f.Rule) }) {
			continue
		}
		why := "answers for nothing"
		if !slices.ContainsFunc(rules, func(k *Check) bool { return is(k.ID) }) {
			why = NoRule(w.Rule.Text, rules)
		}
		out = append(out, diag.Finding{Pos: w.Rule.Pos, Rule: waiverUnused.ID, Severity: diag.Warning, Features: []string{},
			Message: "the waiver of " + w.Rule.Text + " " + why, Fix: "take it out"})
	}
	return out
}
