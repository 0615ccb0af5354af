package drawing

import (
	"math"
	"sort"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// nurbs is a B-spline in the plane, with or without weights. Evaluation is by
// de Boor's algorithm (C. de Boor, "On calculating with B-splines", Journal of
// Approximation Theory 6 (1972), DOI 10.1016/0021-9045(72)90080-9) on
// homogeneous coordinates.
type nurbs struct {
	degree int
	knots  []float64
	h      [][3]float64 // x w, y w, w of the control points
	lo, hi int          // spans that are evaluated: knots[lo] to knots[hi+1]
	d      [mostDegree + 1][3]float64
}

// mostDegree is the highest degree that is read; programs stop at 11 or 25.
const mostDegree = 25

// span is the last span from lo to hi that begins at or before t and has a
// length.
func (n *nurbs) span(t float64) int {
	k := n.lo + sort.Search(n.hi-n.lo, func(i int) bool { return n.knots[n.lo+i+1] > t })
	for k > n.lo && n.knots[k] == n.knots[k+1] {
		k--
	}
	return k
}

func (n *nurbs) at(t float64) (p, d geom.Point) {
	k, g := n.span(t), n.degree
	for j := range g + 1 {
		n.d[j] = n.h[k-g+j]
	}
	var slope [3]float64
	for r := 1; r <= g; r++ {
		for j := g; j >= r; j-- {
			i := k - g + j
			wide := n.knots[i+g-r+1] - n.knots[i]
			a := 0.0
			if wide > 0 {
				a = (t - n.knots[i]) / wide
			}
			if r == g && wide > 0 {
				for m := range 3 {
					slope[m] = float64(g) * (n.d[j][m] - n.d[j-1][m]) / wide
				}
			}
			for m := range 3 {
				n.d[j][m] = (1-a)*n.d[j-1][m] + a*n.d[j][m]
			}
		}
	}
	v := n.d[g]
	p = geom.Point{X: v[0] / v[2], Y: v[1] / v[2]}
	d = geom.Point{X: (slope[0] - slope[2]*p.X) / v[2], Y: (slope[1] - slope[2]*p.Y) / v[2]}
	return p, d
}

func (n *nurbs) spans(t0, t1 float64) int { return n.span(t1) - n.span(t0) + 1 }

func (n *nurbs) pieces(t0, t1 float64, b *control, each func(*control)) {
	for k := n.span(t0); k <= n.hi && n.knots[k] < t1; k++ {
		from, to := max(t0, n.knots[k]), min(t1, n.knots[k+1])
		if from >= to {
			continue
		}
		b.n = n.degree + 1
		for i := range b.n {
			b.h[i] = n.polar(k, from, to, n.degree-i)
		}
		each(b)
	}
}

// polar is the polar form of the polynomial on span k, its arguments the given
// number of t0 and the rest t1: control point degree - number of the piece from
// t0 to t1 (L. Ramshaw, "Blossoms are polar forms", Computer Aided Geometric
// Design 6 (1989), DOI 10.1016/0167-8396(89)90032-0).
func (n *nurbs) polar(k int, t0, t1 float64, number int) [3]float64 {
	g := n.degree
	copy(n.d[:g+1], n.h[k-g:k+1])
	for r := 1; r <= g; r++ {
		t := t1
		if r <= number {
			t = t0
		}
		for j := g; j >= r; j-- {
			i := k - g + j
			a := (t - n.knots[i]) / (n.knots[i+g-r+1] - n.knots[i])
			for m := range 3 {
				n.d[j][m] = (1-a)*n.d[j-1][m] + a*n.d[j][m]
			}
		}
	}
	return n.d[g]
}

// check tells what is wrong with the numbers of the spline, "" if nothing.
func (n *nurbs) check(weights int) string {
	points := len(n.h)
	switch {
	case n.degree < 1 || n.degree > mostDegree:
		return "its degree is not 1 to 25"
	case points <= n.degree:
		return "it has too few control points for its degree"
	case len(n.knots) != points+n.degree+1:
		return "the number of its knots does not fit its control points and degree"
	case weights != 0 && weights != points:
		return "it has not one weight for each control point"
	}
	for i := range n.knots {
		if i > 0 && n.knots[i] < n.knots[i-1] {
			return "its knots do not grow"
		}
	}
	if !(n.knots[points] > n.knots[n.degree]) {
		return "its knots leave it no length"
	}
	for _, h := range n.h {
		if !num.Finite(h[0], h[1]) || math.Abs(h[0]) > farthest*h[2] || math.Abs(h[1]) > farthest*h[2] {
			return "a control point is out of range"
		}
	}
	return ""
}

// fitAll appends arcs for the whole spline, smooth piece by smooth piece: it may
// have a corner at a knot that is there as many times as the degree.
func (n *nurbs) fitAll(f *fitter, segs []geom.Seg) []geom.Seg {
	first, end := n.degree, len(n.h) // of the knots
	for first < end {
		next := first + 1
		for next < end && !n.corner(next) {
			next++
		}
		n.lo, n.hi = first, next-1
		if n.knots[next] > n.knots[first] {
			segs = f.curve(segs, n, n.knots[first], n.knots[next])
		}
		first = next
	}
	return segs
}

// corner reports whether the last of a run of equal knots as long as the degree
// is knot i.
func (n *nurbs) corner(i int) bool {
	if n.knots[i+1] == n.knots[i] {
		return false
	}
	run := 1
	for i-run >= 0 && n.knots[i-run] == n.knots[i] {
		run++
	}
	return run >= n.degree
}
