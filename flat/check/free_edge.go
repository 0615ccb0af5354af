package check

import (
	"slices"
	"strconv"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/strength"
	"blankwright/profiles"
)

var freeEdge = &Check{
	ID:       "free-edge",
	Severity: diag.Warning,
	strength: true,
	Title:    "a free edge is long for the plate's thickness",
	Meaning: "The free edge of a gusset or a tab under compression leaves its plane before the plate is worked hard. Asked of each straight stretch of the outline that is " +
		"neither welded nor a tab, where the file gives loads and welds along two edges or more.",
	Formula: "length <= k sqrt(E/Fy) t, k the limit free edge (2.06)",
	Source:  "AASHTO LRFD Bridge Design Specifications, 6th ed., 6.14.2.8 (from memory, verify): bridge practice, taken over as a rule of the shop",
	Limits:  "A rule of shape, not of strength: AISC 360 has none like it. Whether an edge is compressed at all is not worked out. Round edges are not looked at.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() && len(c.cases) > 0 && len(c.Blank.Welds) > 1 {
			for i := range c.outline.loop {
				c.edgeLength(i)
			}
		}
		c.tellHeld(from, c.thicker)
	},
}

func (c *Context) edgeLength(i int) {
	s := c.outline.loop[i]
	if s.IsArc() || c.Blank.EdgeAt(i) != nil || c.welded(s) {
		return
	}
	m := &c.Blank.Material
	l := strength.FreeEdge(s.Length(), c.Blank.Thickness, m.Fy, strength.SteelE, c.limit(profiles.FreeEdge))
	l.Clause = strength.Clause{Text: c.limitSource(profiles.FreeEdge), Read: true}
	if 4*l.Got < l.Bound {
		return // far from it, and not worth a line
	}
	set := "edge " + strconv.Itoa(i+1)
	c.weigh(held{title: "the " + compass(s.DirA().Perp().Mul(-1)) + " edge", name: set, place: set, set: set,
		pos: c.part.Outline.Pos, at: s.Mid(), limit: &l, v: limitShare(&l)})
}

// welded reports whether a weld runs along a stretch of the outline.
func (c *Context) welded(s geom.Seg) bool {
	return slices.ContainsFunc(c.weldLines(), func(w geom.Seg) bool { return num.Zero(geom.PointSeg(w.Mid(), s).D) })
}
