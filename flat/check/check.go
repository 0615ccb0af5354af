// Package check holds the rules that a blank is measured against. A rule is one
// file and one row in the table of all.go; the row says what it asks, by which
// formula, from which source and where it stops being valid.
//
// A finding says where the part falls short, what was measured, what is needed
// and the smallest change that mends it. That change is also kept in a form a
// program can apply, and it was measured again before it was told. A waiver in
// the file marks a finding and never removes it.
//
// Unit: mm, unless a finding names another. The rules are shop rules: what they
// do not look at is listed by Unchecked, and Cautions says what they are not.
package check

import (
	"slices"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
)

// Check is one rule: a row of the table.
type Check struct {
	ID       string        // `edge-distance`: in findings, waivers and on the command line
	Title    string        // what is wrong when it fails
	Meaning  string        // what it asks and why
	Formula  string        // with its symbols named
	Source   string        // standard, year, clause; or "common practice"
	Limits   string        // where the rule stops being valid, what it takes for granted
	Severity diag.Severity // of a finding, unless the rule makes it weigh less
	Firm     bool          // no waiver sets it aside: without it the part cannot be cut at all
	Run      func(*Context)

	strength bool // weighs loads against what there is
	tells    bool // only tells: no change to the part makes it go
}

// Result is a finding together with the changes that mend it, the smallest or
// most usual one first. Each of them alone makes the finding go.
type Result struct {
	diag.Finding
	Changes []Change `json:"changes"`
}

// All gives the rules in the order in which they are run and told.
func All() []*Check { return slices.Clone(rules) }

// Find gives the rule with an id.
func Find(id string) (*Check, bool) {
	for _, k := range rules {
		if k.ID == id {
			return k, true
		}
	}
	return nil, false
}

// Run measures a blank against every rule: findings sorted by place in the
// file, waivers marked. The blank is not changed. No finding does not mean that
// the part will hold: see Unchecked.
func Run(b *blank.Blank) []diag.Finding {
	results := Results(b)
	out := make([]diag.Finding, len(results))
	for i := range results {
		out[i] = results[i].Finding
	}
	return out
}

// Results is Run with the changes that mend each finding.
func Results(b *blank.Blank) []Result {
	c := newContext(b)
	for _, k := range rules {
		c.rule = k
		k.Run(c)
	}
	slices.SortStableFunc(c.results, func(a, b Result) int { return a.Pos.Compare(b.Pos) })
	return c.results
}

// Failed reports whether any finding stops a cutting file: an error that no
// waiver answers for.
func Failed(fs []diag.Finding) bool {
	return slices.ContainsFunc(fs, diag.Finding.Fails)
}

// Explain tells all that the row of a rule says, for a terminal: one labelled
// paragraph each, lines of at most 78 characters.
func Explain(k *Check) string {
	var b strings.Builder
	b.WriteString(k.ID + ": " + k.Title + "\n")
	para := func(label, text string) {
		b.WriteString("\n" + label + ":\n")
		for _, line := range strings.Split(text, "\n") {
			wrap(&b, line, 78, "  ")
		}
	}
	para("asks", k.Meaning)
	para("formula", k.Formula)
	para("source", k.Source)
	para("limits", k.Limits)
	weight := k.Severity.String()
	if k.Firm {
		weight += "; no waiver sets it aside"
	} else {
		weight += "; a waiver with a reason sets it aside, and the finding stays in every report"
	}
	para("weighs", weight)
	return b.String()
}

// wrap writes text in lines no longer than width characters where its words
// allow, each behind the indent.
func wrap(b *strings.Builder, text string, width int, indent string) {
	n := 0
	for _, w := range strings.Fields(text) {
		long := len([]rune(w))
		switch {
		case n == 0:
			b.WriteString(indent)
			n = len(indent)
		case n+1+long > width:
			b.WriteString("\n" + indent)
			n = len(indent)
		default:
			b.WriteByte(' ')
			n++
		}
		b.WriteString(w)
		n += long
	}
	b.WriteByte('\n')
}
