package check

import (
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var smallestHole = &Check{
	ID:       "smallest-hole",
	Severity: diag.Error,
	Title:    "a round hole is too small to be cut",
	Meaning: "A hole much smaller than the plate is thick comes out tapered, out of round, or as a pierce that " +
		"blows back. Such a hole is marked on the table and drilled. A drilled hole is exempt; of a reamed one " +
		"the smaller cut counts.",
	Formula: "cut diameter >= max(k t, least) with k and least from the process's row, t the plate's thickness",
	Source:  "common practice; the row of the process names its figures",
	Limits: "A starting value for a process in good order: shops should put in their own. Many a table does better " +
		"with hole settings, none does better unasked. Nothing is asked where the file names no process.",
	Run: func(c *Context) {
		for i := range c.openings {
			o := &c.openings[i]
			if want := c.leastCut(o); o.half == 0 && o.hole.CutDia > 0 && short(o.hole.CutDia, want) {
				c.reportSmall(o, want)
			}
			if o.cut != nil {
				c.smallCutout(o)
			}
		}
	},
}

// leastCut is the smallest diameter of a round hole, or width of a slot, that
// the process cuts, mm; 0 where the file names no process.
func (c *Context) leastCut(o *opening) float64 {
	if o.half > 0 {
		return c.leastWeb()
	}
	return c.Blank.Process.LeastHole(c.Blank.Thickness)
}

func (c *Context) reportSmall(o *opening, want float64) {
	h := o.hole
	g, w := c.gotWant(h.CutDia, want)
	cut := " is "
	if h.Method == blank.Ream {
		cut = " is cut "
	}
	var changes []Change
	if !isRing(o) {
		changes = append(changes, Change{Kind: DrillIt, Hole: h.Name,
			Text: "mark it and drill it: give " + name(h) + " `how: drill`"})
	}
	if h.Bolt == nil && h.Purpose != blank.Bore { // a bore is as large as what goes in
		to := c.up(want + h.Dia - h.CutDia)
		changes = append(changes, Change{Kind: Resize, Hole: h.Name, To: to,
			Text: "make the diameter of " + name(h) + " " + c.len(to)})
	}
	c.Report(diag.Finding{
		Pos: h.Pos, Features: []string{h.Name}, Where: at(o.at),
		Got: h.CutDia, Want: want, Unit: "mm", Source: c.holeSource(),
		Message: hole(o) + cut + g + " in diameter" + thicknesses(c, h.CutDia) + ", " + c.processNeeds() + " " + w,
	}, changes...)
}

// thicknesses says how many plate thicknesses a size is.
func thicknesses(c *Context, mm float64) string {
	if c.Blank.Thickness <= 0 {
		return ""
	}
	return " (" + num.Short(mm/c.Blank.Thickness, 2) + " t)"
}

// smallCutout looks at a round cutout as at a hole.
func (c *Context) smallCutout(o *opening) {
	k, round := o.cut.Loop.Circle()
	want := c.Blank.Process.LeastHole(c.Blank.Thickness)
	if !round || !short(2*k.R, want) {
		return
	}
	g, w := c.gotWant(2*k.R, want)
	to := c.up(want)
	wider := geom.CircleLoop(geom.Circle{C: k.C, R: to / 2})
	c.Report(diag.Finding{
		Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(o.at),
		Got: 2 * k.R, Want: want, Unit: "mm", Source: c.holeSource(),
		Message: hole(o) + " is " + g + " in diameter" + thicknesses(c, 2*k.R) + ", " + c.processNeeds() + " " + w,
		Fix:     "write it as a hole with `how: drill`, or make its diameter " + c.len(to),
	}, Change{Kind: Recut, Hole: o.hole.Name, Outline: wider.String(), Text: "make its diameter " + c.len(to)})
}
