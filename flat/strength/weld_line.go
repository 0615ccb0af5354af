package strength

import (
	"errors"
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var (
	errNoWeld    = errors.New("a weld group needs a weld of some length")
	errThinWeld  = errors.New("the welds run in one line and hold no moment about it; add a weld beside it")
	errOneSpot   = errors.New("the welds have no extent and hold no moment")
	errWeldNoNum = errors.New("a place or a load on the welds is not a finite number")
)

// WeldLines are the properties of a group of welds taken as lines, all of one
// throat: per mm of throat, so lengths stand for areas.
type WeldLines struct {
	Length   float64    // mm
	Centroid geom.Point // mm
	Ix       float64    // about the centroid's x axis, mm3
	Iy       float64    // about its y axis, mm3
	Ixy      float64    // mm3
}

// J is the polar second moment about the centroid, mm3: Ix + Iy.
func (w WeldLines) J() float64 { return w.Ix + w.Iy }

// LineProperties works out a group of welds along the segments, straight ones and
// arcs, in closed form.
//
// Welds as lines: O. W. Blodgett, Design of Welded Structures, 1966; Shigley's
// Mechanical Engineering Design, Tables 9-1 and 9-2.
func LineProperties(welds []geom.Seg) WeldLines {
	var w WeldLines
	var sx, sy float64
	for i := range welds {
		l, c := lineOf(&welds[i])
		w.Length += l
		sx += l * c.X
		sy += l * c.Y
	}
	if !(w.Length > 0) {
		return WeldLines{}
	}
	w.Centroid = geom.Point{X: sx / w.Length, Y: sy / w.Length}
	for i := range welds {
		w.add(&welds[i])
	}
	return w
}

// lineOf is the length of a segment and the centroid of its line.
func lineOf(s *geom.Seg) (float64, geom.Point) {
	l, m := s.Length(), geom.Point{X: (s.A.X + s.B.X) / 2, Y: (s.A.Y + s.B.Y) / 2}
	if !s.IsArc() {
		return l, m
	}
	_, normal, half := arcAxes(s)
	return l, m.Add(normal.Mul(s.Circle().R * arcRise(half)))
}

// arcAxes are the unit vector along an arc's chord, that from the centre through
// its middle, and half its sweep, rad.
func arcAxes(s *geom.Seg) (along, normal geom.Point, half float64) {
	d := s.B.Sub(s.A)
	if l := d.Len(); l > 0 {
		along = d.Mul(1 / l)
	}
	normal = along.Perp()
	if s.Bulge > 0 {
		normal = normal.Mul(-1)
	}
	return along, normal, math.Abs(s.Sweep()) / 2
}

// add adds a segment's second moments about the group's centroid.
func (w *WeldLines) add(s *geom.Seg) {
	l, c := lineOf(s)
	along := s.B.Sub(s.A)
	var tt, nn float64 // second moments of the line along and square to its chord, about its own centroid
	if s.IsArc() {
		var half float64
		along, _, half = arcAxes(s)
		r3 := s.Circle().R * s.Circle().R * s.Circle().R
		tt, nn = r3*arcAlong(half), r3*arcAcross(half)
	} else {
		tt = l * l * l / 12
		if l > 0 {
			along = along.Mul(1 / l)
		}
	}
	d := c.Sub(w.Centroid)
	w.Iy += tt*along.X*along.X + nn*along.Y*along.Y + l*d.X*d.X
	w.Ix += tt*along.Y*along.Y + nn*along.X*along.X + l*d.Y*d.Y
	w.Ixy += (tt-nn)*along.X*along.Y + l*d.X*d.Y
}

// Integrals along an arc of radius 1 and half sweep a. Flat arcs are summed as power
// series, where the closed forms cancel.

// arcRise is how far the centroid of the arc's line stands over its chord:
// sin a/a - cos a.
func arcRise(a float64) float64 {
	if a >= num.FlatHalfSweep {
		return math.Sin(a)/a - math.Cos(a)
	}
	return arcSeries(a, 0, func(k float64) float64 { return -2 * k / (2*k + 1) })
}

// arcAlong is the integral of t^2, t along the chord: a - sin a cos a.
func arcAlong(a float64) float64 {
	if a >= num.FlatHalfSweep {
		return a - math.Sin(2*a)/2
	}
	return arcSeries(2*a, 1, func(k float64) float64 { return -1 / (2 * (2*k + 1)) })
}

// arcAcross is the integral of n^2, n square to the chord from the line's own
// centroid: a + sin a cos a - 2 sin^2 a/a.
func arcAcross(a float64) float64 {
	if a >= num.FlatHalfSweep {
		return a + math.Sin(2*a)/2 - 2*sq(math.Sin(a))/a
	}
	return arcSeries(2*a, 1, func(k float64) float64 { return (k - 1) / (2 * (k + 1) * (2*k + 1)) })
}

// arcSeries sums (-1)^k x^(2k+p)/(2k)! coef(k) from k = 1, to the end of float64
// for x up to 2 FlatHalfSweep.
func arcSeries(x float64, p int, coef func(k float64) float64) float64 {
	term := 1.0
	if p == 1 {
		term = x
	}
	var sum float64
	for k := 1.0; k <= 12; k++ {
		term *= -x * x / ((2*k - 1) * 2 * k)
		sum += term * coef(k)
	}
	return sum
}
