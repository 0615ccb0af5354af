package cope

import (
	"math"

	"blankwright/flat/num"
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
func (a Vec) Dot(b Vec) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross is the vector product.
func (a Vec) Cross(b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Len is the length, mm.
func (a Vec) Len() float64 { return math.Hypot(math.Hypot(a.X, a.Y), a.Z) }

// Unit is the vector of length 1 in the same direction; the zero vector stays
// zero.
func (a Vec) Unit() Vec {
	l := a.Len()
	if l == 0 {
		return a
	}
	return a.Mul(1 / l)
}

func (a Vec) finite() bool { return num.Finite(a.X, a.Y, a.Z) }

// Frame is a right-handed set of axes of length 1 about an origin.
type Frame struct{ O, X, Y, Z Vec }

// EndFrame is the frame of a tube's end: the origin at the end's working point,
// z along the tube's axis out of its end (towards what the tube meets), x at the
// datum generator (q = 0), y at q = 90 degrees. into points from the working
// point into the tube; datum is any direction not along it, and x is the part of
// it square to the axis. ok is false where both run along one line.
func EndFrame(workingPoint, into, datum Vec) (f Frame, ok bool) {
	z := into.Unit().Mul(-1)
	x := datum.Sub(z.Mul(datum.Dot(z)))
	if !z.finite() || !x.finite() || z.Len() == 0 || x.Len() <= num.Angular*datum.Len() {
		return Frame{}, false
	}
	x = x.Unit()
	return Frame{O: workingPoint, X: x, Y: z.Cross(x), Z: z}, true
}

// Turned is the frame with its datum moved to the generator q.
func (f Frame) Turned(q float64) Frame {
	sin, cos := math.Sincos(q)
	f.X, f.Y = f.X.Mul(cos).Add(f.Y.Mul(sin)), f.Y.Mul(cos).Sub(f.X.Mul(sin))
	return f
}

// To gives a place of the frame in the outer axes.
func (f Frame) To(p Vec) Vec {
	return f.O.Add(f.X.Mul(p.X)).Add(f.Y.Mul(p.Y)).Add(f.Z.Mul(p.Z))
}

// From gives a place of the outer axes in the frame.
func (f Frame) From(p Vec) Vec {
	d := p.Sub(f.O)
	return Vec{d.Dot(f.X), d.Dot(f.Y), d.Dot(f.Z)}
}

// DirFrom gives a direction of the outer axes in the frame.
func (f Frame) DirFrom(d Vec) Vec { return Vec{d.Dot(f.X), d.Dot(f.Y), d.Dot(f.Z)} }
