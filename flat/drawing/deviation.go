package drawing

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// A polynomial, or a quotient of two with positive weights below, lies between
// the least and the greatest of its coefficients in Bernstein form, and halving
// the piece brings these to it with the square of the length (G. Farin, Curves
// and Surfaces for CAGD, 5th ed., 2002, 6.10 and 13.4). So the distance of a piece
// of a curve from an arc has a bound that no place between samples can exceed.

// control is the control points of one polynomial piece of a curve: n of them,
// each x w, y w, w, with w more than 0.
type control struct {
	n int
	h [mostDegree + 1][3]float64
}

func (b *control) set(i int, x, y, w float64) { b.h[i] = [3]float64{x * w, y * w, w} }

func (b *control) at(i int) geom.Point {
	h := &b.h[i]
	return geom.Point{X: h[0] / h[2], Y: h[1] / h[2]}
}

// halve cuts the piece in the middle of its parameter (P. de Casteljau).
func (b *control) halve(first, second *control) {
	first.n, second.n = b.n, b.n
	copy(second.h[:b.n], b.h[:b.n])
	for i := range b.n {
		first.h[i] = second.h[0]
		for j := range b.n - 1 - i {
			p, q := &second.h[j], &second.h[j+1]
			p[0], p[1], p[2] = (p[0]+q[0])/2, (p[1]+q[1])/2, (p[2]+q[2])/2
		}
	}
}

// least is the least place of the control points along the unit vector u, seen
// from p: none of the piece lies farther back.
func (b *control) least(p, u geom.Point) float64 {
	v := math.Inf(1)
	for i := range b.n {
		v = min(v, b.at(i).Sub(p).Dot(u))
	}
	return v
}

// gauge bounds how far a curve lies from one segment, or from a pair that meets
// smoothly and of which each turns by less than half a turn.
type gauge struct {
	steps *int // halvings still allowed
	s, t  *geom.Seg
	known float64 // a distance that the curve reaches
	slack float64 // what the bound may exceed it by
	limit float64 // a distance that is too far in any case
	most  float64 // the bound
}

// take widens the bound by a piece of the curve.
func (g *gauge) take(b *control) { g.halving(b, 0) }

func (g *gauge) halving(b *control, depth int) {
	d := g.bound(b)
	if d <= max(g.most, min(g.limit, g.known*(1+num.DeviationShare)+g.slack)) {
		g.most = max(g.most, d)
		return
	}
	if *g.steps--; *g.steps < 0 || depth == num.DeviationHalvings || g.known > g.limit || g.most > g.limit {
		g.most = max(g.most, d)
		return
	}
	var first, second control
	b.halve(&first, &second)
	mid := second.at(0)
	d = geom.PointSeg(mid, *g.s).D
	if g.t != nil {
		d = min(d, geom.PointSeg(mid, *g.t).D)
	}
	g.known = max(g.known, d)
	g.halving(&first, depth+1)
	g.halving(&second, depth+1)
}

// bound is a distance that no place of the piece exceeds.
func (g *gauge) bound(b *control) float64 {
	if g.t == nil && !g.s.IsArc() {
		return b.offLine(g.s)
	}
	if g.t == nil {
		return b.beyond(g.s, g.s, b.radial(g.s))
	}
	// Each side of the normal at the joint belongs to one of the pair.
	u := g.s.DirB()
	d := 0.0
	if b.least(g.s.B, u) < 0 {
		d = b.radial(g.s)
	}
	if b.least(g.s.B, u.Mul(-1)) < 0 {
		d = max(d, b.radial(g.t))
	}
	return b.beyond(g.s, g.t, d)
}

// beyond widens d, the distance from the circles, where the piece runs out behind
// the start of s or past the end of t: there the distance from that end counts.
func (b *control) beyond(s, t *geom.Seg, d float64) float64 {
	behind := -b.least(s.A, s.DirA())
	past := -b.least(t.B, t.DirB().Mul(-1))
	return max(d, fromEnd(s, behind, d), fromEnd(t, past, d))
}

// fromEnd bounds the distance from an end of s of a place by v beyond it and by d
// off the circle. Along the normal at the end it lies within d and what the circle
// of radius r bends away in v, which is less than v and than v²/(r - d).
func fromEnd(s *geom.Seg, v, d float64) float64 {
	if v <= 0 {
		return d
	}
	bend := 0.0
	if s.IsArc() {
		bend = v
		if r := s.Circle().R - d; r > v {
			bend = v * v / r
		}
	}
	return math.Hypot(v, d+bend)
}

// offLine bounds the distance from a straight segment. Distance from a convex set
// is greatest at a control point.
func (b *control) offLine(s *geom.Seg) float64 {
	d := 0.0
	for i := range b.n {
		d = max(d, geom.PointSeg(b.at(i), *s).D)
	}
	return d
}

// radial bounds the distance from the circle, or the line, that s lies on. With q
// from the start of s, n the unit normal there towards the centre and r the
// radius, a place that is off the circle by d has (d² + 2 r d) / 2 r = q²/2r - q n,
// which is a quotient of polynomials of twice the degree.
func (b *control) radial(s *geom.Seg) float64 {
	n := s.DirA().Perp()
	if !s.IsArc() {
		return max(-b.least(s.A, n), -b.least(s.A, n.Mul(-1)))
	}
	if s.Bulge < 0 {
		n = n.Mul(-1)
	}
	r := s.Circle().R
	var x, y, w, v [mostDegree + 1]float64 // times the binomials
	binomial := 1.0
	for i := range b.n {
		h := &b.h[i]
		x[i], y[i], w[i] = (h[0]-s.A.X*h[2])*binomial, (h[1]-s.A.Y*h[2])*binomial, h[2]*binomial
		v[i] = x[i]*n.X + y[i]*n.Y
		binomial = binomial * float64(b.n-1-i) / float64(i+1)
	}
	least, most := math.Inf(1), math.Inf(-1)
	for k := range 2*b.n - 1 {
		above, below := 0.0, 0.0
		for i := max(0, k-b.n+1); i <= min(k, b.n-1); i++ {
			j := k - i
			above += (x[i]*x[j]+y[i]*y[j])/(2*r) - v[i]*w[j]
			below += w[i] * w[j]
		}
		least, most = min(least, above/below), max(most, above/below)
	}
	off := func(m float64) float64 { return 2 * m / (1 + math.Sqrt(max(0, 1+2*m/r))) }
	return max(-off(least), off(most))
}
