package check

import "blankwright/flat/diag"

var smallestSlot = &Check{
	ID:       "smallest-slot",
	Severity: diag.Error,
	Title:    "a slot is too narrow to be cut",
	Meaning: "The cut has to go down one side of a slot and up the other with its round ends between. Narrower " +
		"than the process allows, the second side burns into the first, and the piece between jams or fuses.",
	Formula: "width >= max(k t, least) with k and least of the process's web, t the plate's thickness",
	Source:  "common practice; the row of the process names its figures",
	Limits: "A starting value for a process in good order: shops should put in their own. Whether the slot is wide " +
		"enough for what goes in is not looked at. Nothing is asked where the file names no process.",
	Run: func(c *Context) {
		for i := range c.openings {
			o := &c.openings[i]
			if want := c.leastCut(o); o.half > 0 && o.hole.CutDia > 0 && short(o.hole.CutDia, want) {
				c.reportNarrow(o, want)
			}
		}
	},
}

func (c *Context) reportNarrow(o *opening, want float64) {
	h := o.hole
	g, w := c.gotWant(h.CutDia, want)
	to := c.up(want + h.Dia - h.CutDia)
	c.Report(diag.Finding{
		Pos: h.Pos, Features: []string{h.Name}, Where: at(o.at),
		Got: h.CutDia, Want: want, Unit: "mm", Source: cite(c.Blank.Process.Source),
		Message: hole(o) + " is " + g + " wide" + thicknesses(c, h.CutDia) + ", " + c.processNeeds() + " " + w,
	}, Change{Kind: Resize, Hole: h.Name, To: to,
		Text: "make " + name(h) + " " + c.len(to) + " wide and longer by as much"})
}
