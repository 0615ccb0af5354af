package link

import (
	"fmt"
	"math"

	"blankwright/flat/cope"
	"blankwright/flat/num"
)

// Sleeve is a sleeve or bush housing at a pivot; its axis runs through the pivot,
// its middle is at the pivot.
type Sleeve struct {
	Name    string
	OD      float64 // mm
	Length  float64 // mm; 0 where it does not matter
	Axis    Vec     // direction of the bore, of any length
	Partial bool    // the tube may be wider than the sleeve (see cope.Main)
}

// TubeBetween is the tube from the pivot at from to the pivot at to, coped to the
// sleeves there. The datum generator of each end is its heel: the side of the
// obtuse angle; at a square sleeve, whose two sides are alike, that of the first
// end where its Axis points away from, and that of the second which asks for the
// smaller turn.
func TubeBetween(t cope.Tube, from, to Vec, first, second Sleeve) (cope.Piece, error) {
	d := to.Sub(from)
	if !num.Finite(d.X, d.Y, d.Z) || num.Zero(d.Len()) {
		return cope.Piece{}, fmt.Errorf("pivots of the tube are one place; they have to lie apart")
	}
	a, fa, err := MainAt(from, d, first)
	if err != nil {
		return cope.Piece{}, fmt.Errorf("first end: %w", err)
	}
	b, fb, err := MainAt(to, d.Mul(-1), second)
	if err != nil {
		return cope.Piece{}, fmt.Errorf("second end: %w", err)
	}
	turn := math.Atan2(fb.X.Dot(fa.Y), fb.X.Dot(fa.X))
	if num.SameAngle(b.Angle, math.Pi/2) {
		turn = math.Remainder(turn, math.Pi)
	}
	return cope.Piece{Tube: t, First: []cope.Cutter{a}, Second: []cope.Cutter{b}, Centres: d.Len(), Turn: turn}, nil
}

// MainAt is the sleeve at the pivot at as the end of a tube meets it that runs
// from there along into, and the frame of that end: its datum is the heel. The
// error is for a sleeve along the tube.
func MainAt(at, into Vec, s Sleeve) (cope.Main, cope.Frame, error) {
	name := s.Name
	if name == "" {
		name = "the sleeve"
	}
	f, ok := cope.EndFrame(at, into, across(into))
	if !ok {
		return cope.Main{}, cope.Frame{}, fmt.Errorf("%s: the tube has no direction", name)
	}
	m, err := cope.MainAlong(s.OD, Vec{}, f.DirFrom(s.Axis))
	if err != nil {
		return cope.Main{}, cope.Frame{}, fmt.Errorf("%s: %w", name, err)
	}
	f = f.Turned(m.Turn)
	m.Name, m.Turn, m.Offset, m.Length, m.Partial = s.Name, 0, 0, s.Length, s.Partial
	return m, f, nil
}

// across is a direction well away from d.
func across(d Vec) Vec {
	switch x, y, z := math.Abs(d.X), math.Abs(d.Y), math.Abs(d.Z); {
	case x <= y && x <= z:
		return Vec{X: 1}
	case y <= z:
		return Vec{Y: 1}
	}
	return Vec{Z: 1}
}
