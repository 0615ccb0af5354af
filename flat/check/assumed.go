package check

import (
	"slices"

	"blankwright/flat/blank"
)

// Method names the design method that loads are held to, "" where the file gives
// neither loads nor welds.
func Method(b *blank.Blank) string {
	if len(b.Loads)+len(b.Welds) == 0 {
		return ""
	}
	m := prepare(b).method
	return m.String()
}

// Assumptions lists what was taken for granted of the loads, one line each: how
// those that were worked out came about, and what they are taken to be.
func Assumptions(b *blank.Blank) []string {
	out := []string{}
	add := func(text string) {
		if !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	m := prepare(b).method
	for i := range b.Loads {
		l := &b.Loads[i]
		for _, a := range l.Assumed {
			add(a)
		}
	}
	for i := range b.Loads {
		l := &b.Loads[i]
		switch {
		case !l.Factored && !m.eurocode && m.aisc.Method != 0:
			add("loads without a factor are taken as they are, as service loads")
		case !l.Factored:
			add("loads without a factor are taken as they are, as loads already factored")
		}
	}
	if len(b.Loads) > 0 {
		add("a load's direction is the way in which the plate is pushed; loads of one case act together, cases one at a time")
	}
	return out
}
