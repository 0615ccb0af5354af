package check

import (
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/profiles"
)

var holeToWeld = &Check{
	ID:       "hole-to-weld",
	Severity: diag.Warning,
	Title:    "a hole is too near the toe of a weld",
	Meaning: "Welding pulls a hole beside it out of round, and no washer or nut sits flat on the bead. Between the edge " +
		"of a hole and the toe of the weld some metal has to stay as it was.",
	Formula: "distance from the hole's edge to the welded edge - leg of the weld >= the larger of the limit hole to weld " +
		"(6 mm) and one plate thickness",
	Source: "common practice: 6 mm, or one plate thickness",
	Limits: "Takes the bead to lie on this plate's face, as wide as its leg. Slots for tabs are welded themselves and " +
		"are left out. Holes that are drilled or reamed after welding may come nearer: waive it.",
	Run: func(c *Context) {
		if len(c.Blank.Welds) == 0 {
			return
		}
		want := c.toWeld()
		for i := range c.openings {
			o := &c.openings[i]
			if o.cut != nil && o.cut.Slot != nil {
				continue
			}
			if k := c.nearestWeld(o); k.weld != nil && short(k.gap, want) {
				c.reportToWeld(o, k, want)
			}
		}
	},
}

// toWeld is the metal asked for between a hole and the toe of a weld, mm.
func (c *Context) toWeld() float64 {
	return max(c.limit(profiles.HoleToWeld), c.Blank.Thickness)
}

// weldNear is the weld nearest to an opening.
type weldNear struct {
	weld *blank.Weld
	gap  float64 // from the opening's edge to the toe, mm
	geom.Near
}

func (c *Context) nearestWeld(o *opening) weldNear {
	best := weldNear{gap: math.Inf(1)}
	for i := range c.Blank.Welds {
		w := &c.Blank.Welds[i]
		for _, s := range w.Line {
			n := o.toSeg(s)
			if gap := n.D - o.r - w.Leg; gap < best.gap {
				best = weldNear{w, gap, n}
			}
		}
	}
	return best
}

// toSeg is the shortest distance from the axis of an opening, of a cutout from its
// edge, to a segment.
func (o *opening) toSeg(s geom.Seg) geom.Near {
	if o.cut == nil {
		if o.half == 0 {
			return geom.PointSeg(o.at, s)
		}
		return geom.SegSeg(o.axis(o.half), s)
	}
	l := o.cut.Loop
	if o.by != (geom.Point{}) {
		l = l.Transform(geom.Translate(o.by.X, o.by.Y))
	}
	return geom.LoopLoop(l, geom.Loop{s})
}

// weldRoom is what an opening lacks to the nearest weld, or to what else governs
// its place.
func (c *Context) weldRoom(o *opening) shortfall {
	k := c.nearestWeld(o)
	worst := shortfall{c.toWeld() - k.gap, direction(k.P.Sub(k.Q))}
	worst.worse(c.webShortfall(o))
	if o.bolted() {
		worst.worse(c.edgeShortfall(o))
	}
	return worst
}

func (c *Context) reportToWeld(o *opening, k weldNear, want float64) {
	g, w := c.gotWant(k.gap, want)
	if k.gap < 0 {
		g = "nothing"
	}
	var changes []Change
	if !o.pinned() && !c.tied(o) && c.whole() {
		if ch, ok := c.relocate(o, c.weldRoom); ok {
			changes = append(changes, ch)
		}
	}
	if len(changes) == 0 {
		changes = append(changes, c.leaveOut(o))
	}
	c.Report(diag.Finding{
		Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(k.Q), Got: k.gap, Want: want, Unit: "mm",
		Source:  c.limitSource(profiles.HoleToWeld),
		Message: g + " of metal left between " + hole(o) + " and the toe of weld " + quoted(k.weld.Name) + " (leg " + c.len(k.weld.Leg) + "), needs " + w,
	}, changes...)
}
