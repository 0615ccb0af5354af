package check

import (
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
)

// opening is a hole as the rules measure it: all points within r of an axis.
// The axis of a slot joins the centres of its round ends; that of a round hole
// is its centre. Sizes are finished sizes, so that a reamed or drilled hole
// counts with the metal it will lose.
type opening struct {
	hole *blank.Hole
	i    int        // index in Blank.Holes
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

// bolted reports whether the rules for bolts look at the opening.
func (o *opening) bolted() bool { return o.hole.Bolt != nil }

// moved is the opening elsewhere.
func (o *opening) moved(by geom.Point) opening {
	t := *o
	t.at = o.at.Add(by)
	return t
}

// axis is the line of all places within half of the centre along the slot.
func (o *opening) axis(half float64) geom.Seg {
	d := o.dir.Mul(half)
	return geom.Line(o.at.Sub(d), o.at.Add(d))
}

// box holds the opening, mm.
func (o *opening) box() box {
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
// side of its centre, to the axis of p: P on o's, Q on p's.
func between(o *opening, half float64, p *opening) geom.Near {
	switch {
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
