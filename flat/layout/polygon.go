package layout

import (
	"errors"
	"math"
	"sort"

	"blankwright/flat/geom"
)

var errEmpty = errors.New("it is empty")

// outerPoints is the polygon round a counter-clockwise loop (or in a clockwise
// opening): it holds all of the loop's material and reaches out past it by tol mm
// at most. Arcs that bulge out are replaced by tangents, arcs that bulge in by
// chords.
func outerPoints(l geom.Loop, tol float64) []geom.Point {
	var pts []geom.Point
	for _, s := range l {
		pts = append(pts, s.A)
		if !s.IsArc() {
			continue
		}
		c, sweep := s.Circle(), s.Sweep()
		n := arcSteps(c.R, sweep, tol)
		step := sweep / float64(n)
		a0 := math.Atan2(s.A.Y-c.C.Y, s.A.X-c.C.X)
		if sweep > 0 {
			r := c.R / math.Cos(step/2)
			for i := range n {
				pts = append(pts, c.C.Polar(r, a0+step*(float64(i)+0.5)))
			}
			continue
		}
		for i := 1; i < n; i++ {
			pts = append(pts, c.C.Polar(c.R, a0+step*float64(i)))
		}
	}
	return pts
}

// arcSteps is the number of equal pieces of an arc whose tangents meet, and
// whose chords pass, within tol of it.
func arcSteps(r, sweep, tol float64) int {
	half := math.Acos(r / (r + tol))
	n := int(math.Ceil(math.Abs(sweep) / 2 / half))
	// A tangent piece of half a turn or more has no corner.
	return max(n, int(math.Ceil(math.Abs(sweep)/(math.Pi/2))), 1)
}

// convexHull is the hull, counter-clockwise, without points on its sides (A. M.
// Andrew, "Another efficient algorithm for convex hulls in two dimensions",
// Information Processing Letters 9 (1979)).
func convexHull(pts []geom.Point) []geom.Point {
	p := append([]geom.Point(nil), pts...)
	sort.Slice(p, func(i, j int) bool { return p[i].X < p[j].X || p[i].X == p[j].X && p[i].Y < p[j].Y })
	h := make([]geom.Point, 0, len(p)+1)
	for pass := range 2 {
		from := len(h)
		for i := range p {
			q := p[i]
			if pass == 1 {
				q = p[len(p)-1-i]
			}
			for len(h) >= from+2 && h[len(h)-1].Sub(h[len(h)-2]).Cross(q.Sub(h[len(h)-1])) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, q)
		}
		h = h[:len(h)-1]
	}
	return h
}
