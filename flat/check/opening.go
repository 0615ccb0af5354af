package check

import (
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// opening is a hole as the rules measure it: all points within r of an axis.
// The axis of a slot joins the centres of its round ends; that of a round hole
// is its centre. Sizes are finished sizes, so that a reamed or drilled hole
// counts with the metal it will lose.
//
// A cutout has no axis: it is all points within its boundary, and its r is 0.
type opening struct {
	hole *blank.Hole // of a cutout: its name, place and purpose, and no size
	cut  *blank.Cutout
	rim  *boundary  // of a cutout: its edge, where it lies in the blank
	by   geom.Point // how far a cutout has been moved from there
	i    int        // index in Context.openings
	at   geom.Point // centre
	dir  geom.Point // unit vector along a slot; zero for a round hole
	half float64    // half the length of the axis, mm
	r    float64    // half the width, mm

	edge  edgeAsk // of a bolt hole: its distance to an edge
	reach float64 // how far from its boundary the rules look round it, mm
}

func newOpening(h *blank.Hole, i int) opening {
	o := opening{hole: h, i: i, at: h.Centre, r: h.Dia / 2}
	if h.Length > h.Dia {
		s, c := math.Sincos(h.Angle)
		o.dir, o.half = geom.Point{X: c, Y: s}, (h.Length-h.Dia)/2
	}
	return o
}

// newCutout is a cutout as the rules measure it.
func newCutout(c *blank.Cutout, i int) opening {
	b := newBoundary(c.Loop)
	return opening{
		hole: &blank.Hole{Name: c.Name, Set: c.Name, Pos: c.Pos, Purpose: c.Purpose},
		cut:  c, rim: &b, i: i, at: c.Loop.Centroid(),
	}
}

// pinned reports whether an opening stays where it is, because its place is that
// of something else.
func (o *opening) pinned() bool { return isRing(o) || o.cut != nil && o.cut.Fixed }

// bolted reports whether the rules for bolts look at the opening.
func (o *opening) bolted() bool { return o.hole.Bolt != nil }

// moved is the opening elsewhere.
func (o *opening) moved(by geom.Point) opening {
	t := *o
	t.at = o.at.Add(by)
	if o.cut != nil {
		t.by = o.by.Add(by)
	}
	return t
}

// axis is the line of all places within half of the centre along the slot.
func (o *opening) axis(half float64) geom.Seg {
	d := o.dir.Mul(half)
	return geom.Line(o.at.Sub(d), o.at.Add(d))
}

// box holds the opening, mm.
func (o *opening) box() box {
	if o.cut != nil {
		b := o.rim.bounds
		return box{b.Min.X + o.by.X, b.Min.Y + o.by.Y, b.Max.X + o.by.X, b.Max.Y + o.by.Y}
	}
	x, y := math.Abs(o.dir.X)*o.half+o.r, math.Abs(o.dir.Y)*o.half+o.r
	return box{o.at.X - x, o.at.Y - y, o.at.X + x, o.at.Y + y}
}

// box is an upright rectangle, mm.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) grown(d float64) box { return box{b.x0 - d, b.y0 - d, b.x1 + d, b.y1 + d} }

func (b *box) meets(c *box) bool {
	return b.x0 <= c.x1 && c.x0 <= b.x1 && b.y0 <= c.y1 && c.y0 <= b.y1
}

// between is the shortest distance from the axis of o, taken half long to each
// side of its centre, to the axis of p: P on o's, Q on p's. A cutout is met at its
// edge; the distance is negative where one lies in the other.
func between(o *opening, half float64, p *opening) geom.Near {
	switch {
	case p.cut != nil:
		return p.toCutout(o, half)
	case o.cut != nil:
		n := o.toCutout(p, p.half)
		return geom.Near{D: n.D, P: n.Q, Q: n.P}
	case half == 0 && p.half == 0:
		return geom.Near{D: o.at.Dist(p.at), P: o.at, Q: p.at}
	case half == 0:
		return geom.PointSeg(o.at, p.axis(p.half))
	case p.half == 0:
		n := geom.PointSeg(p.at, o.axis(half))
		return geom.Near{D: n.D, P: n.Q, Q: n.P}
	}
	return geom.SegSeg(o.axis(half), p.axis(p.half))
}

// toCutout is the shortest distance from o, an axis taken half long to each side
// of its centre or another cutout, to the cutout's edge: P on o, Q on the edge.
func (c *opening) toCutout(o *opening, half float64) geom.Near {
	if o.cut != nil {
		// Seen from where o lies in the blank.
		n := o.rim.toLoop(c.cut.Loop, c.by.Sub(o.by))
		return geom.Near{D: n.D, P: n.Q.Add(o.by), Q: n.P.Add(o.by)}
	}
	t := *o
	t.at = o.at.Sub(c.by)
	n := c.rim.nearest(&t, half)
	// Inside its edge is in the opening.
	return geom.Near{D: -n.D, P: n.P.Add(c.by), Q: n.Q.Add(c.by)}
}

// toLoop is the distance between the boundary and a loop shifted by so much, P on
// the loop, Q on the boundary: 0 where they touch or cross, negative where one
// lies in the other.
func (b *boundary) toLoop(l geom.Loop, by geom.Point) geom.Near {
	if by != (geom.Point{}) {
		l = l.Transform(geom.Translate(by.X, by.Y))
	}
	n := geom.LoopLoop(l, b.loop)
	if n.D > num.Coincident && (b.loop.Contains(l[0].A) == geom.Inside || l.Contains(b.loop[0].A) == geom.Inside) {
		n.D = -n.D
	}
	return n
}
