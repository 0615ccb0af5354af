package check

import (
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/strength"
)

var loadUnclear = &Check{
	ID:       "load-unclear",
	Severity: diag.Warning,
	tells:    true,
	Title:    "a load may not be meant as it is written",
	Meaning: "A force worked out from the axle is what really comes, not one with a load factor: AISC 360 LRFD and EN 1993-1-8 want it multiplied first. " +
		"And a bolt that goes through this plate, a sleeve and a twin of this plate has one plane at each plate: where the force is what this plate gets, " +
		"`shear: double` halves it once too often.",
	Formula: "none: what is written is held against what it is used for",
	Source:  "AISC 360-22 B3.1 and EN 1990:2002 6.4.3.2 for factored loads (from memory); statics for the planes",
	Limits: "Only the two slips named. `factor: 1` says that a load is meant as it is; `shear: single` or no joint with a sleeve settles the other. Nothing to change on " +
		"the part makes it go.",
	Run: func(c *Context) {
		for i := range c.Blank.Loads {
			l := &c.Blank.Loads[i]
			if l.Derived != "" && !l.Factored && (c.method.eurocode || c.method.aisc.Method == strength.LRFD) {
				c.unclear(l, l.Name+" is worked out from "+l.Derived+" and has no factor, and "+c.method.String()+" is for factored loads: it was taken as it is",
					"write factor: with the load factor, times that for shock where it comes as a blow; factor: 1 where it is meant as it is")
			}
			if l.Planes == 2 && slices.ContainsFunc(c.Blank.Joints, func(j blank.Joint) bool {
				return j.Sleeve != nil && slices.Contains(l.Holes, j.Hole)
			}) {
				c.unclear(l, l.Name+" is on a plate of a pair with a sleeve between them, and its bolt counts with two shear planes: each plate's share of the force has one",
					"write shear: single where the force is what this plate gets; leave it where the force is all of the bolt's")
			}
		}
	},
}

func (c *Context) unclear(l *blank.Load, message, fix string) {
	c.Report(diag.Finding{Pos: l.Pos, Features: slices.Clone(l.Holes), Where: at(l.At), Case: l.Case, Message: message, Fix: fix})
}
