package check

import (
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/num"
	"blankwright/flat/strength"
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
	asd := !m.eurocode && m.aisc.Method == strength.ASD
	for i := range b.Loads {
		l := &b.Loads[i]
		switch {
		case !l.Factored && asd:
			add("loads without a factor are taken as they are, as service loads")
		case !l.Factored && l.Derived != "":
			add(l.Name + " was worked out and has no factor: it is taken as it is, and " + m.String() + " is for factored loads")
		case !l.Factored:
			add("loads without a factor are taken as they are, as loads already factored")
		case asd && l.Factor != 1:
			add(l.Name + " has the factor " + num.Short(l.Factor, 3) + " on it, and " + m.String() + " is for service loads: it is taken to be one for shock")
		}
	}
	if len(b.Loads) > 0 {
		add("a load's direction is the way in which the plate is pushed; loads of one case act together, cases one at a time")
		add("a load is what this plate gets: of a pair of plates each has its share")
	}
	if slices.ContainsFunc(b.Loads, func(l blank.Load) bool { return l.Planes == 2 }) {
		add("shear: double divides this plate's force by two planes of the bolt: right for the middle plate of three; a plate of a pair has one plane for its share")
	}
	if f := b.Formed; f != nil {
		for i := range f.Flat.Bends {
			k := &f.Flat.Bends[i]
			add("the bend of flange " + quoted(k.Name) + " takes " + num.Short(k.Allowance.Length, 3) + " mm of flat length: " + k.Allowance.By + " [" + bendSource(k.Allowance.Source) + "]")
		}
	}
	return out
}
