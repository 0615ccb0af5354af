package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var openingOutside = &Check{
	ID:       "opening-outside",
	Severity: diag.Error,
	Firm:     true,
	Title:    "an opening is not inside the metal",
	Meaning: "Every hole, slot and bore has to lie wholly inside the outline, with metal all round. One that " +
		"touches or breaks the outer edge is a notch: the table would cut a shape that nobody drew.",
	Formula: "distance from the opening's axis to the outline - half its width > 0, at its finished size",
	Source:  "common practice: what a cutting table's drawing reader needs",
	Limits:  "Asks only that some metal is left; how much is asked by least-web and edge-distance.",
	Run: func(c *Context) {
		if !c.whole() {
			return
		}
		for i := range c.openings {
			if o, n := &c.openings[i], c.edges[i]; n.D-o.r <= num.Coincident {
				c.reportOutside(o, n)
			}
		}
	},
}

func (c *Context) reportOutside(o *opening, n near) {
	gap := n.D - o.r
	what := hole(o) + " touches " + c.edgeName(n)
	switch {
	case o.cut != nil && gap < -num.Coincident && geom.LoopLoop(o.cut.Loop, c.outline.loop).D <= num.Coincident:
		what = hole(o) + " breaks through " + c.edgeName(n) + " by " + c.len(-gap)
	case gap < -2*o.r:
		what = hole(o) + " lies outside the plate, " + c.len(-gap-2*o.r) + " past " + c.edgeName(n)
	case gap < -num.Coincident:
		what = hole(o) + " breaks through " + c.edgeName(n) + " by " + c.len(-gap)
	}
	var changes []Change
	room := c.room()
	if !o.pinned() && !c.tied(o) {
		if ch, ok := c.relocate(o, func(t *opening) shortfall { return c.edgeRoom(t, room) }); ok {
			changes = append(changes, ch)
		}
	}
	if n.D > num.Coincident && o.cut == nil && !c.fillsSaddle(o, o.half, o.r+room) {
		changes = c.smallestFirst(changes, c.reachOut(o, n, o.half, o.r+room), room-gap)
	}
	if len(changes) == 0 {
		changes = append(changes, c.leaveOut(o))
	}
	c.Report(diag.Finding{
		Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(n.Q),
		Got: gap, Want: 0, Unit: "mm", Message: what + "; wanted metal all round",
	}, changes...)
}
