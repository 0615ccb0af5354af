package check

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// fewSegments is how many segments of an outline are looked through one by one:
// under it an index costs more than it spares.
const fewSegments = 48

// boundary answers how near the outline is to an axis.
type boundary struct {
	loop   geom.Loop
	bounds geom.Box
	index  *geom.Index // of the segments one by one; nil where there are few
}

func newBoundary(l geom.Loop) boundary {
	b := boundary{loop: l, bounds: l.Bounds()}
	if len(l) > fewSegments {
		parts := make([]geom.Loop, len(l))
		for i := range l {
			parts[i] = l[i : i+1 : i+1]
		}
		b.index = geom.NewIndex(parts...)
	}
	return b
}

// near is the shortest distance from an axis (P) to an edge (Q).
type near struct {
	geom.Near // D is negative where P lies outside the plate or in an opening
	seg       int
}

// outward is the unit vector from the axis to the nearest edge; where the axis
// lies on the edge, the edge's own normal away from the plate.
func (b *boundary) outward(n near) geom.Point {
	d := n.Q.Sub(n.P)
	switch l := d.Len(); {
	case l <= num.Coincident:
		return b.normal(n)
	case n.D < 0:
		return d.Mul(-1 / l)
	default:
		return d.Mul(1 / l)
	}
}

// normal is the unit vector away from the plate at the edge place of n, the
// middle direction at a corner.
func (b *boundary) normal(n near) geom.Point {
	in, out := b.tangents(n)
	t := in.Add(out)
	if l := t.Len(); l > num.Coincident {
		t = t.Mul(1 / l)
	} else {
		t = in.Perp().Mul(-1)
	}
	return t.Perp().Mul(-1)
}

// tangents are the directions in which the outline comes to the edge place of n
// and leaves it: two only at a corner.
func (b *boundary) tangents(n near) (in, out geom.Point) {
	s := b.loop[n.seg]
	last := len(b.loop) - 1
	switch {
	case n.Q == s.A:
		before := n.seg - 1
		if before < 0 {
			before = last
		}
		return b.loop[before].DirB(), s.DirA()
	case n.Q == s.B:
		after := n.seg + 1
		if after > last {
			after = 0
		}
		return s.DirB(), b.loop[after].DirA()
	case s.IsArc():
		t := n.Q.Sub(s.Circle().C).Perp().Mul(math.Copysign(1/s.Circle().R, s.Bulge))
		return t, t
	}
	t := s.DirA()
	return t, t
}

// nearest is the shortest distance from the axis of o, taken half long to each
// side of its centre, to the outline: negative where it is outside. A cutout
// counts with its edge; where it breaks through the outline, the distance is how
// far its corners and the middles of its sides reach out.
func (b *boundary) nearest(o *opening, half float64) near {
	if o.cut != nil {
		return b.nearestCutout(o)
	}
	n := near{Near: geom.Near{D: math.Inf(1), P: o.at, Q: o.at}}
	switch {
	case b.index != nil && half == 0:
		h, _ := b.index.NearestPoint(o.at, nil)
		n.Near, n.seg = h.Near, h.Loop
	case b.index != nil:
		h, _ := b.index.Nearest(geom.Loop{o.axis(half)}, nil)
		n.Near, n.seg = h.Near, h.Loop
	case half == 0:
		for i := range b.loop {
			if d := geom.PointSeg(o.at, b.loop[i]); d.D < n.D {
				n.Near, n.seg = d, i
			}
		}
	default:
		axis := o.axis(half)
		for i := range b.loop {
			if d := geom.SegSeg(axis, b.loop[i]); d.D < n.D {
				n.Near, n.seg = d, i
			}
		}
	}
	if !b.inside(n) {
		n.D = -n.D
	}
	return n
}

func (b *boundary) nearestCutout(o *opening) near {
	l := o.cut.Loop
	if o.by != (geom.Point{}) {
		l = l.Transform(geom.Translate(o.by.X, o.by.Y))
	}
	n := near{Near: geom.Near{D: math.Inf(1), P: o.at, Q: o.at}}
	if b.index != nil {
		h, _ := b.index.Nearest(l, nil)
		n.Near, n.seg = h.Near, h.Loop
	} else {
		for i := range b.loop {
			for j := range l {
				if d := geom.SegSeg(l[j], b.loop[i]); d.D < n.D {
					n.Near, n.seg = d, i
				}
			}
		}
	}
	if n.D > num.Coincident {
		if !b.inside(n) {
			n.D = -n.D
		}
		return n
	}
	for i := range l {
		for _, p := range [2]geom.Point{l[i].A, l[i].Mid()} {
			t := opening{at: p}
			if d := b.nearest(&t, 0); d.D < n.D {
				n = d
			}
		}
	}
	return n
}

// inside reports whether the P of a nearest distance lies in the outline, told
// from the edge that is nearest: left of it. At a corner the middle of its two
// directions decides (J. A. Bærentzen and H. Aanæs, Signed distance computation
// using the angle weighted pseudonormal, IEEE Transactions on Visualization and
// Computer Graphics 11, 2005, DOI 10.1109/TVCG.2005.49, brought to the plane).
func (b *boundary) inside(n near) bool {
	s := b.loop[n.seg]
	if n.Q != s.A && n.Q != s.B {
		if !s.IsArc() {
			return s.B.Sub(s.A).Cross(n.P.Sub(s.A)) > 0
		}
		return (n.P.Dist(s.Circle().C) < s.Circle().R) == (s.Bulge > 0)
	}
	in, out := b.tangents(n)
	t := in.Add(out)
	if t.Len() <= num.Angular {
		return b.loop.Contains(n.P) == geom.Inside
	}
	return t.Cross(n.P.Sub(n.Q)) > 0
}
