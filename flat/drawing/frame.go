package drawing

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// vector is a place or direction in space.
type vector [3]float64

func (a vector) cross(b vector) vector {
	return vector{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func (a vector) scaled(k float64) vector { return vector{a[0] * k, a[1] * k, a[2] * k} }

func (a vector) length() float64 { return math.Sqrt(a[0]*a[0] + a[1]*a[1] + a[2]*a[2]) }

// frame carries a coordinate system into another: x, y and z are where its axes
// go, o is where its origin goes.
type frame struct{ x, y, z, o vector }

// scaleFrame makes everything k times as large.
func scaleFrame(k float64) frame {
	return frame{x: vector{k, 0, 0}, y: vector{0, k, 0}, z: vector{0, 0, k}}
}

// dir carries a direction.
func (f *frame) dir(p vector) vector {
	var q vector
	for i := range q {
		q[i] = f.x[i]*p[0] + f.y[i]*p[1] + f.z[i]*p[2]
	}
	return q
}

// at carries a place.
func (f *frame) at(p vector) vector {
	q := f.dir(p)
	for i := range q {
		q[i] += f.o[i]
	}
	return q
}

// in is the frame g as seen through f: g first, then f.
func (f *frame) in(g frame) frame {
	return frame{f.dir(g.x), f.dir(g.y), f.dir(g.z), f.at(g.o)}
}

// flat carries a vector of the frame's own xy plane and drops its height.
func (f *frame) flat(x, y float64) geom.Point {
	return geom.Point{X: f.x[0]*x + f.y[0]*y, Y: f.x[1]*x + f.y[1]*y}
}

// scale gives the factor by which lengths grow where the frame carries circles
// of its xy plane into circles as seen from above; ok is false where it does
// not.
func (f *frame) scale() (k float64, ok bool) {
	u, v := f.flat(1, 0), f.flat(0, 1)
	k = math.Max(u.Len(), v.Len())
	slack := num.Conformal * k
	return u.Len(), math.Abs(u.Len()-v.Len()) <= slack && math.Abs(u.Dot(v)) <= slack*k
}

// mirrored reports whether the frame turns left hand into right, seen from
// above.
func (f *frame) mirrored() bool { return f.flat(1, 0).Cross(f.flat(0, 1)) < 0 }

// level reports whether the frame's xy plane stays level.
func (f *frame) level() bool {
	n := f.x.cross(f.y)
	return math.Hypot(n[0], n[1]) <= num.Upright*n.length()
}

// ownSystem is the system that an entity with this extrusion direction is drawn
// in. DXF Reference, "Arbitrary Axis Algorithm".
func ownSystem(n vector) frame {
	const near = 1.0 / 64
	l := n.length()
	if l == 0 {
		return scaleFrame(1)
	}
	n = n.scaled(1 / l)
	up := vector{0, 0, 1}
	if math.Abs(n[0]) < near && math.Abs(n[1]) < near {
		up = vector{0, 1, 0}
	}
	x := up.cross(n)
	x = x.scaled(1 / x.length())
	return frame{x: x, y: n.cross(x), z: n}
}

// insertFrame is where an INSERT puts its block: base point to the place, scaled,
// then turned. shift is the offset of a row and column, in the turned system.
func insertFrame(base, place, scale vector, turn float64, shift geom.Point) frame {
	sin, cos := num.Sincos(turn)
	f := frame{
		x: vector{cos * scale[0], sin * scale[0], 0},
		y: vector{-sin * scale[1], cos * scale[1], 0},
		z: vector{0, 0, scale[2]},
	}
	b := f.dir(base)
	f.o = vector{
		place[0] - b[0] + cos*shift.X - sin*shift.Y,
		place[1] - b[1] + sin*shift.X + cos*shift.Y,
		place[2] - b[2],
	}
	return f
}
