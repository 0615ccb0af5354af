package drawing

import (
	"sort"

	"blankwright/flat/geom"
)

// cubic is a cubic spline through points with continuous curvature: at knot t
// the place p and the derivative d.
type cubic struct {
	t    []float64
	p, d []geom.Point
}

// newCubic has the chords' lengths as parameters and no derivatives yet.
func newCubic(pts []geom.Point) *cubic {
	c := &cubic{t: make([]float64, len(pts)), p: pts, d: make([]geom.Point, len(pts))}
	for i := 1; i < len(pts); i++ {
		c.t[i] = c.t[i-1] + pts[i].Dist(pts[i-1])
	}
	return c
}

func (c *cubic) span(t float64) int {
	n := len(c.t) - 2
	return sort.Search(n, func(i int) bool { return c.t[i+1] > t })
}

func (c *cubic) spans(t0, t1 float64) int { return c.span(t1) - c.span(t0) + 1 }

func (c *cubic) at(t float64) (p, d geom.Point) {
	i := c.span(t)
	h := c.t[i+1] - c.t[i]
	u := (t - c.t[i]) / h
	// Hermite form: places p0 and p1, derivatives m0 and m1.
	p0, p1, m0, m1 := c.p[i], c.p[i+1], c.d[i].Mul(h), c.d[i+1].Mul(h)
	w := p1.Sub(p0)
	p = p0.Add(w.Mul(u * u * (3 - 2*u))).Add(m0.Mul(u * (1 - u) * (1 - u))).Add(m1.Mul(u * u * (u - 1)))
	d = w.Mul(6 * u * (1 - u)).Add(m0.Mul((1 - u) * (1 - 3*u))).Add(m1.Mul(u * (3*u - 2)))
	return p, d.Mul(1 / h)
}

func (c *cubic) pieces(t0, t1 float64, b *control, each func(*control)) {
	for i := c.span(t0); i < len(c.t)-1 && c.t[i] < t1; i++ {
		from, to := max(t0, c.t[i]), min(t1, c.t[i+1])
		if from >= to {
			continue
		}
		p, u := c.at(from)
		q, v := c.at(to)
		third := (to - from) / 3
		b.n = 4
		for j, at := range [...]geom.Point{p, p.Add(u.Mul(third)), q.Sub(v.Mul(third)), q} {
			b.set(j, at.X, at.Y, 1)
		}
		each(b)
	}
}

// right is the right side of the condition of continuous curvature at knot i,
// between the steps before and after it.
func (c *cubic) right(i, before, after int) (h0, h1 float64, r geom.Point) {
	h0, h1 = c.t[before+1]-c.t[before], c.t[after+1]-c.t[after]
	s0, s1 := c.p[before+1].Sub(c.p[before]).Mul(1/h0), c.p[after+1].Sub(c.p[after]).Mul(1/h1)
	return h0, h1, s0.Mul(3 * h1).Add(s1.Mul(3 * h0))
}

// solve finds the derivatives between given ones at both ends: h1 d(i-1) +
// 2 (h0+h1) d(i) + h0 d(i+1) = right, a tridiagonal system.
func (c *cubic) solve() {
	n := len(c.p)
	over := make([]float64, n)
	for i := 1; i < n-1; i++ {
		h0, h1, r := c.right(i, i-1, i)
		k := 1 / (2*(h0+h1) - h1*over[i-1])
		over[i] = h0 * k
		c.d[i] = r.Sub(c.d[i-1].Mul(h1)).Mul(k)
	}
	for i := n - 2; i > 0; i-- {
		c.d[i] = c.d[i].Sub(c.d[i+1].Mul(over[i]))
	}
}

// closeUp finds the derivatives of a closed spline, whose last point is its
// first. The derivative x at the seam enters all others linearly: two solutions
// of the open system, for no derivative at the seam and for one of length 1 with
// no points, give the one that has the same curvature on both sides.
func (c *cubic) closeUp() {
	n := len(c.p)
	c.d[0], c.d[n-1] = geom.Point{}, geom.Point{}
	c.solve()
	unitAt := &cubic{t: c.t, p: make([]geom.Point, n), d: make([]geom.Point, n)}
	unitAt.d[0], unitAt.d[n-1] = geom.Point{X: 1}, geom.Point{X: 1}
	unitAt.solve()
	h0, h1, r := c.right(0, n-2, 0)
	rest := r.Sub(c.d[n-2].Mul(h1)).Sub(c.d[1].Mul(h0))
	x := rest.Mul(1 / (2*(h0+h1) + h1*unitAt.d[n-2].X + h0*unitAt.d[1].X))
	for i := range c.d {
		c.d[i] = c.d[i].Add(x.Mul(unitAt.d[i].X))
	}
}

// endDirections estimates the directions at both ends of an open run of three or
// more points from five chords each; those that are missing are continued from
// the ones there are.
func endDirections(pts []geom.Point) (first, last geom.Point) {
	n := len(pts)
	q := func(k int) geom.Point { return pts[k].Sub(pts[k-1]) }
	// Chords before the first and after the last, each continuing its two
	// neighbours evenly.
	on := func(a, b geom.Point) geom.Point { return a.Mul(2).Sub(b) }
	q0 := on(q(1), q(2))
	qBefore := on(q0, q(1))
	first = direction5(qBefore, q0, q(1), q(2))
	qn := on(q(n-1), q(n-2))
	qAfter := on(qn, q(n-1))
	last = direction5(q(n-2), q(n-1), qn, qAfter)
	return first, last
}

// direction5 is the direction at the point between chords b and c, of which a
// and d are the neighbours; unit length.
func direction5(a, b, c, d geom.Point) geom.Point {
	v, w := abs(a.Cross(b)), abs(c.Cross(d))
	k := 0.5
	if v+w > 0 {
		k = v / (v + w)
	}
	return unit2(b.Mul(1 - k).Add(c.Mul(k)))
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
