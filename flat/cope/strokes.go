package cope

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Bezier is a cubic: start, two handles, end.
type Bezier [4]geom.Point

// At is the place at t, 0 to 1.
func (z Bezier) At(t float64) geom.Point {
	u := 1 - t
	return z[0].Mul(u * u * u).Add(z[1].Mul(3 * u * u * t)).Add(z[2].Mul(3 * u * t * t)).Add(z[3].Mul(t * t * t))
}

// line is one turn of the curve from seam as a polyline within num.PaperFit, and
// the largest distance measured.
func (u *Curve) line(m sheet, seam float64) (pts []geom.Point, worst float64) {
	worst = u.walk(m, seam, num.PaperFit, element{
		power: 2,
		try: func(s *stretch) float64 {
			chord, worst := geom.Line(s.at, s.to), 0.0
			for _, c := range s.mid {
				worst = max(worst, geom.PointSeg(c, chord).D)
			}
			return worst
		},
		keep: func(s *stretch) {
			if pts == nil {
				pts = append(pts, s.at)
			}
			pts = append(pts, s.to)
		},
	})
	return pts, worst
}

// beziers is one turn of the curve from seam as cubics within num.PaperFit that
// share their tangents but at corners, and the largest distance measured.
func (u *Curve) beziers(m sheet, seam float64) (out []Bezier, worst float64) {
	var z Bezier
	worst = u.walk(m, seam, num.PaperFit, element{
		power: 4,
		try: func(s *stretch) float64 {
			z = hermite(s)
			worst := 0.0
			for i, c := range s.mid {
				worst = max(worst, z.distance(c, float64(i+1)/measureAt))
			}
			return worst
		},
		keep: func(*stretch) { out = append(out, z) },
	})
	return out, worst
}

// hermite is the cubic with the ends and tangents of the stretch and handles of
// a third of its length.
func hermite(s *stretch) Bezier {
	l, before := 0.0, s.at
	for _, c := range s.mid {
		l += c.Dist(before)
		before = c
	}
	l += s.to.Dist(before)
	return Bezier{s.at, s.at.Add(s.dir.Mul(l / 3)), s.to.Sub(s.end.Mul(l / 3)), s.to}
}

// distance is how far c lies from the cubic near t.
func (z Bezier) distance(c geom.Point, t float64) float64 {
	best := z.At(t).Dist(c)
	for range 8 {
		u := 1 - t
		d1 := z[1].Sub(z[0]).Mul(3 * u * u).Add(z[2].Sub(z[1]).Mul(6 * u * t)).Add(z[3].Sub(z[2]).Mul(3 * t * t))
		l := d1.Dot(d1)
		if l == 0 {
			break
		}
		t = min(1, max(0, t-z.At(t).Sub(c).Dot(d1)/l))
		d := z.At(t).Dist(c)
		if math.Abs(d-best) < num.Coincident {
			return min(d, best)
		}
		best = min(d, best)
	}
	return best
}
