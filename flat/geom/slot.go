package geom

import "math"

// Slot reports whether the loop is a straight slot with round ends to within tol
// (mm): two lines and two half circles in turn. It gives the centres of the ends
// and the width.
func (l Loop) Slot(tol float64) (a, b Point, width float64, ok bool) {
	if len(l) != 4 {
		return a, b, 0, false
	}
	first := 0
	if !l[0].IsArc() {
		first = 1
	}
	p, q := &l[first], &l[first+2]
	if l[(first+1)%4].IsArc() || l[(first+3)%4].IsArc() || !p.IsArc() || !q.IsArc() || p.Bulge > 0 != (q.Bulge > 0) {
		return a, b, 0, false
	}
	a, b, width = p.circ.C, q.circ.C, p.circ.R+q.circ.R
	if !(a.Dist(b) > tol) || !(width > 2*tol) {
		return a, b, 0, false
	}
	return a, b, width, Slot(a, b, width).Apart(l) <= tol
}

// Apart is how far the ends and the middles of m's segments lie from l at most,
// mm.
func (l Loop) Apart(m Loop) float64 {
	d := 0.0
	for _, s := range m {
		d = math.Max(d, math.Max(PointLoop(s.A, l).D, PointLoop(s.Mid(), l).D))
	}
	return d
}
