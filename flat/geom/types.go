// Package geom is the geometry kernel: outlines made of straight lines and true
// circular arcs. Unit: mm; y up; counter-clockwise positive. Arcs stay arcs and
// circles stay circles through every operation; inputs are never modified; a
// result is right within num's tolerances or it is an error.
package geom

import (
	"math"

	"blankwright/flat/num"
)

// Point is a place or a vector in the plane, mm.
type Point struct{ X, Y float64 }

// Circle is a full circle: centre and radius, mm.
type Circle struct {
	C Point
	R float64
}

// Seg goes from A to B. Bulge is tan(θ/4) with θ the signed sweep,
// counter-clockwise positive (DXF Reference, LWPOLYLINE, group 42); 0 is a
// straight line. |Bulge| <= 1: a longer arc is made of several segments.
//
// An arc carries the circle that it lies on. The circle is kept through split,
// trim and reverse and never recomputed from the bulge.
type Seg struct {
	A, B  Point
	Bulge float64
	circ  Circle
}

// Loop is a closed boundary: segment i ends where i+1 starts, the last where
// the first starts.
type Loop []Seg

// Region is a set of the plane: one outer loop (counter-clockwise) and the
// loops of its openings (clockwise). The zero value is empty.
type Region struct {
	Outer Loop
	Holes []Loop
}

// Line is the straight segment from a to b.
func Line(a, b Point) Seg { return Seg{A: a, B: b} }

// Arc is the arc on circle c from a to b, both taken to lie on it; ccw says
// which way round. Its sweep must not exceed half a turn (a sweep a rounding
// error longer is brought back to half a turn).
func Arc(c Circle, a, b Point, ccw bool) Seg {
	ua, ub := a.Sub(c.C), b.Sub(c.C)
	th := math.Atan2(ua.Cross(ub), ua.Dot(ub)) // (-π, π]
	if ccw && th < 0 || !ccw && th > 0 {
		// Only just past half a turn.
		th = math.Copysign(math.Pi, -th)
	}
	bulge := math.Tan(th / 4)
	if bulge > 1 {
		bulge = 1
	}
	if bulge < -1 {
		bulge = -1
	}
	return Seg{A: a, B: b, Bulge: bulge, circ: c}
}

// BulgeSeg is the segment from a to b with the given bulge, its circle worked
// out once, here. |bulge| must be at most 1.
func BulgeSeg(a, b Point, bulge float64) Seg {
	if bulge == 0 {
		return Line(a, b)
	}
	d := b.Sub(a)
	h := (1 - bulge*bulge) / (4 * bulge)
	c := Point{(a.X+b.X)/2 - d.Y*h, (a.Y+b.Y)/2 + d.X*h}
	r := d.Len() * (1 + bulge*bulge) / (4 * math.Abs(bulge))
	return Seg{A: a, B: b, Bulge: bulge, circ: Circle{c, r}}
}

// CircleLoop is the whole circle as two half arcs, counter-clockwise, starting
// at its rightmost point.
func CircleLoop(c Circle) Loop {
	e, w := Point{c.C.X + c.R, c.C.Y}, Point{c.C.X - c.R, c.C.Y}
	return Loop{{A: e, B: w, Bulge: 1, circ: c}, {A: w, B: e, Bulge: 1, circ: c}}
}

// IsArc reports whether the segment is curved.
func (s Seg) IsArc() bool { return s.Bulge != 0 }

// Circle is the circle an arc lies on; the zero Circle for a line.
func (s Seg) Circle() Circle { return s.circ }

// Sweep is the signed angle that an arc turns through, rad, counter-clockwise
// positive; 0 for a line.
func (s Seg) Sweep() float64 { return 4 * math.Atan(s.Bulge) }

// Reverse runs the segment the other way.
func (s Seg) Reverse() Seg { return Seg{A: s.B, B: s.A, Bulge: -s.Bulge, circ: s.circ} }

// Add, Sub, Mul, Dot, Cross, Len, Dist, Perp: plane vector arithmetic.

// Add is p+q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub is p-q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul is p scaled by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Dot is the scalar product.
func (p Point) Dot(q Point) float64 { return float64(p.X*q.X) + float64(p.Y*q.Y) }

// Cross is the z component of the vector product.
func (p Point) Cross(q Point) float64 { return float64(p.X*q.Y) - float64(p.Y*q.X) }

// Len is the length of the vector, mm.
func (p Point) Len() float64 { return math.Hypot(p.X, p.Y) }

// Dist is the distance between two points, mm.
func (p Point) Dist(q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Perp is p turned a quarter turn counter-clockwise.
func (p Point) Perp() Point { return Point{-p.Y, p.X} }

// Polar is the point at distance r and angle a (rad, from +x) from p.
func (p Point) Polar(r, a float64) Point {
	s, c := num.Sincos(a)
	return Point{p.X + r*c, p.Y + r*s}
}
