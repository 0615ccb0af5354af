package check

import (
	"math"
	"slices"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var sectionBending = &Check{
	ID:       "section-bending",
	Severity: diag.Error,
	strength: true,
	Title:    "the plate holds less at a section through a hole than its loads",
	Meaning: "Between the weld and the loads every opening weakens the plate. The section is cut parallel to the weld through the middle of each opening, " +
		"from the true outline, with all openings that it meets.",
	Formula: "as weld-line-bending, with the net section: Mc of Fy Z <= 1.5 Fy S and of Fu Z (phi 0.75), Vc the lesser of 0.60 Fy A (phi 1.00) and 0.60 Fu A (phi 0.75)",
	Source:  "AISC 360-22 J4.1, J4.2, J4.5; B. Dowswell, AISC Engineering Journal 52(1), 2015; EN 1993-1-1:2005 6.2.1(5), eq. 6.1",
	Limits: "Needs welds along one line, to know where the plate is held: a plate that is bolted on at its other end is not looked at. " +
		"Sections at other angles and through necks without an opening are not looked at.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() && len(c.cases) > 0 && len(c.Blank.Welds) > 0 {
			if at, dir, ok := c.heldAt(); ok {
				c.sections(at, dir)
			}
		}
		c.tellHeld(from, c.thicker)
	},
}

// sections weighs the sections through openings, one for those on one line.
func (c *Context) sections(at, dir geom.Point) {
	region := c.metal()
	var done []float64 // how far from the weld
	for i := range c.openings {
		o := &c.openings[i]
		d := dir.Cross(o.at.Sub(at))
		if d <= 0 || num.Zero(d) {
			continue
		}
		// One section for openings whose lines lie within num.OnEdge.
		if slices.ContainsFunc(done, func(v float64) bool { return math.Abs(v-d) <= num.OnEdge }) {
			continue
		}
		done = append(done, d)
		k := c.cutAt(region, o.at, dir)
		for j := range c.cases {
			r, ok := c.bend(&k, &c.cases[j])
			if !ok {
				continue
			}
			h := held{title: "the section through " + hole(o), name: o.hole.Name, place: o.hole.Name, set: o.hole.Name, pos: o.hole.Pos,
				at: o.at, in: &c.cases[j], ratio: &r, v: c.bendShare(&r)}
			c.weigh(h)
		}
	}
}
