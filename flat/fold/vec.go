package fold

import (
	"math"

	"blankwright/flat/geom"
)

// Vec is a place or a vector in space, mm.
type Vec struct{ X, Y, Z float64 }

// Add is a+b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub is a-b.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Mul is a scaled by k.
func (a Vec) Mul(k float64) Vec { return Vec{a.X * k, a.Y * k, a.Z * k} }

// Dot is the scalar product.
func (a Vec) Dot(b Vec) float64 {
	return float64(a.X*b.X) + float64(a.Y*b.Y) + float64(a.Z*b.Z)
}

// Cross is the vector product.
func (a Vec) Cross(b Vec) Vec {
	return Vec{
		float64(a.Y*b.Z) - float64(a.Z*b.Y),
		float64(a.Z*b.X) - float64(a.X*b.Z),
		float64(a.X*b.Y) - float64(a.Y*b.X),
	}
}

// Len is the length, mm.
func (a Vec) Len() float64 { return math.Sqrt(a.Dot(a)) }

// Box3 is an upright box in space, mm.
type Box3 struct{ Min, Max Vec }

// noBox holds nothing and takes anything.
func noBox() Box3 {
	inf := math.Inf(1)
	return Box3{Vec{inf, inf, inf}, Vec{-inf, -inf, -inf}}
}

func (b *Box3) extend(p Vec) {
	b.Min = Vec{min(b.Min.X, p.X), min(b.Min.Y, p.Y), min(b.Min.Z, p.Z)}
	b.Max = Vec{max(b.Max.X, p.X), max(b.Max.Y, p.Y), max(b.Max.Z, p.Z)}
}

// overlap reports whether two boxes share more than a slack in every direction.
func (b *Box3) overlap(c *Box3, slack float64) bool {
	return b.Max.X-c.Min.X > slack && c.Max.X-b.Min.X > slack &&
		b.Max.Y-c.Min.Y > slack && c.Max.Y-b.Min.Y > slack &&
		b.Max.Z-c.Min.Z > slack && c.Max.Z-b.Min.Z > slack
}

// plane is where a piece of the flat lies in space: the place of the flat's
// origin and the directions of its axes, in the middle of the plate, and the
// direction of its upper side.
type plane struct{ o, x, y, n Vec }

// at is the place of a point of the flat, h over the middle of the plate.
func (p *plane) at(q geom.Point, h float64) Vec {
	return Vec{
		p.o.X + p.x.X*q.X + p.y.X*q.Y + p.n.X*h,
		p.o.Y + p.x.Y*q.X + p.y.Y*q.Y + p.n.Y*h,
		p.o.Z + p.x.Z*q.X + p.y.Z*q.Y + p.n.Z*h,
	}
}

// dir is a direction of the flat in space.
func (p *plane) dir(d geom.Point) Vec { return p.x.Mul(d.X).Add(p.y.Mul(d.Y)) }

// flat is the point of the flat under or over a place.
func (p *plane) flat(v Vec) geom.Point {
	d := v.Sub(p.o)
	return geom.Point{X: d.Dot(p.x), Y: d.Dot(p.y)}
}

// flatDir is a direction in space along the plane.
func (p *plane) flatDir(d Vec) geom.Point { return geom.Point{X: d.Dot(p.x), Y: d.Dot(p.y)} }
