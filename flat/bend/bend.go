// Package bend holds what is known of one bend in plate: how much flat length
// it takes, by every rule in common use, what its heights are measured to, the
// least radius that a material stands, and what a press brake needs for it.
// Pure functions; each rule and each row of a table names its source.
//
// Lengths are mm, angles rad, stresses MPa, forces N. The angle of a bend is
// the one turned through: 0 is flat, a quarter turn makes a square corner, half
// a turn a hem.
package bend

import (
	"errors"
	"math"

	"blankwright/flat/num"
)

// Bend is one bend.
type Bend struct {
	T float64 // thickness of the plate, mm
	R float64 // inside radius, mm; 0 is a sharp bend
	A float64 // angle turned through, rad: above 0, at most half a turn
}

// Validate tells what makes the bend impossible.
func (b Bend) Validate() error {
	switch {
	case !num.Finite(b.T, b.R, b.A):
		return errors.New("thickness, radius or angle of the bend is no finite number")
	case b.T <= 0:
		return errors.New("thickness is " + num.Short(b.T, 4) + " mm, wanted more than nothing")
	case b.R < 0:
		return errors.New("inside radius is " + num.Short(b.R, 4) + " mm, wanted 0 or more")
	case b.A <= 0 || b.A > math.Pi+num.Angular:
		return errors.New("bend angle is " + Degrees(b.A) + ", wanted above 0 and at most 180 degrees")
	}
	return nil
}

// Opening is the angle left between the two legs, rad: what a drawing often
// shows, and what DIN 6935 calls beta.
func (b Bend) Opening() float64 { return math.Pi - b.A }

// Arc is the length of the arc that the bend makes at the share k of the
// thickness from its inside, mm: A (R + k T). At the neutral line, which keeps
// its length, it is the bend allowance (general shop formula).
func (b Bend) Arc(k float64) float64 { return b.A * (b.R + float64(k*b.T)) }

// Factor is the share k of the thickness at which the neutral line must lie for
// the bend to take so much flat length, mm; the inverse of Arc.
func (b Bend) Factor(allowance float64) float64 { return (allowance/b.A - b.R) / b.T }

// Deduction is what the two legs of the bend, both measured to the reference,
// are longer together than the flat: twice the setback less the allowance, mm
// (general shop formula). It may be negative.
func (b Bend) Deduction(to Reference, allowance float64) float64 {
	return 2*b.Setback(to) - allowance
}

// tanHalf is tan(A/2), exactly 1 for a square bend and infinite for a hem.
func (b Bend) tanHalf() float64 {
	switch {
	case math.Abs(b.A-math.Pi/2) <= num.TurnNoise:
		return 1
	case b.folded():
		return math.Inf(1)
	}
	return math.Tan(b.A / 2)
}

// folded reports whether the bend is turned right back on itself.
func (b Bend) folded() bool { return b.A >= math.Pi-num.Angular }

// square reports whether the bend turns through at most a quarter turn.
func (b Bend) square() bool { return b.A <= math.Pi/2+num.TurnNoise }

// Degrees writes an angle for people: `45 degrees`.
func Degrees(rad float64) string { return num.Short(rad*180/math.Pi, 4) + " degrees" }
