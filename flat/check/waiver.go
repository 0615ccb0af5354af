package check

import (
	"strings"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
)

// waiverUse says what became of a waiver.
type waiverUse int

const (
	unused  waiverUse = iota
	refused           // it names a finding that no waiver sets aside
	used
)

// waive gives the reason of the waiver that sets a finding aside, "" where none
// does. A finding of a firm rule stays, and its message says that its waiver
// was refused.
func (c *Context) waive(f *diag.Finding) string {
	reason := ""
	for i := range c.part.Waivers {
		w := &c.part.Waivers[i]
		if !answers(w, f) {
			continue
		}
		if c.rule.Firm {
			if c.waivers[i] == unused {
				f.Message += "; its waiver is refused"
			}
			c.waivers[i] = refused
			continue
		}
		c.waivers[i] = used
		if reason == "" {
			reason = w.Reason.Text
		}
	}
	return reason
}

// answers reports whether a waiver is meant for a finding: its rule, and its
// hole or, for a pattern, any hole of it. A waiver without a reason answers for
// nothing.
func answers(w *describe.Waiver, f *diag.Finding) bool {
	if w.Rule.Text != f.Rule || strings.TrimSpace(w.Reason.Text) == "" {
		return false
	}
	if w.Hole.Text == "" {
		return true
	}
	for _, name := range f.Features {
		if name == w.Hole.Text || strings.HasPrefix(name, w.Hole.Text+".") {
			return true
		}
	}
	return false
}

// waiverWords names a waiver: `the waiver of edge-distance for "h2"`.
func waiverWords(w *describe.Waiver) string {
	text := "the waiver of " + quoted(w.Rule.Text)
	if w.Hole.Text != "" {
		text += " for " + quoted(w.Hole.Text)
	}
	return text
}

// dropWaiver is the change that takes a waiver out of the file.
func dropWaiver(i int) Change {
	return Change{Kind: DropWaive, Waiver: i, Text: "take the waiver out"}
}
