package bend

import (
	"errors"
	"fmt"

	"blankwright/flat/num"
)

// Rule is a way to find how much flat length a bend takes.
type Rule interface {
	// Allowance is what the bend takes. The error tells what the rule cannot give.
	Allowance(b Bend) (Allowance, error)
}

// Allowance is the flat length of a bend between its tangent lines, and who
// says so.
type Allowance struct {
	Length float64 // mm
	K      float64 // the K-factor that this amounts to
	By     string  // the rule, in words to print: `K-factor 0.42`
	Source Source
}

// Tooled reports whether the tools of the press are in it already: it was measured
// on a bend that they made, or typed as a length for this very bend.
func (a Allowance) Tooled() bool { return a.Source.Prov == Measured || a.Source == typedLength }

// typedLength is the source of a deduction or an allowance that a person typed.
var typedLength = Source{"typed in the description", Typed}

// allowance is the answer of a rule that gives a length.
func (b Bend) allowance(length float64, by string, s Source) Allowance {
	return Allowance{Length: length, K: b.Factor(length), By: by, Source: s}
}

// KFactor is a typed K-factor: the share of the thickness at which the neutral
// line lies, counted from the inside.
type KFactor float64

// Allowance is A (R + K T) (general shop formula).
func (k KFactor) Allowance(b Bend) (Allowance, error) {
	if err := b.Validate(); err != nil {
		return Allowance{}, err
	}
	if err := inPlate(float64(k)); err != nil {
		return Allowance{}, err
	}
	return Allowance{b.Arc(float64(k)), float64(k), "K-factor " + short(float64(k)), Source{"general shop formula A (R + K T)", Typed}}, nil
}

// inPlate checks a factor that a person gave or measured.
func inPlate(k float64) error {
	if !num.Finite(k) || k <= 0 || k >= 1 {
		return fmt.Errorf("a K-factor of %s puts the neutral line outside the plate; wanted between 0 and 1, usually 0.25 to 0.5", short(k))
	}
	return nil
}

// Aircraft is the empirical rule of aircraft sheet work: for every degree
// 0.01743 R + 0.0078 T, a K-factor of 0.4469 (FAA-H-8083-31, chapter 4).
type Aircraft struct{}

// Per degree of bend, on the radius and on the thickness.
const (
	aircraftR = 0.01743
	aircraftT = 0.0078
)

// Allowance is (0.01743 R + 0.0078 T) per degree.
func (Aircraft) Allowance(b Bend) (Allowance, error) {
	if err := b.Validate(); err != nil {
		return Allowance{}, err
	}
	return b.allowance((aircraftR*b.R+aircraftT*b.T)*inDegrees(b.A), "empirical aircraft rule, (0.01743 R + 0.0078 T) a degree",
		Source{"FAA-H-8083-31, chapter 4", Published}), nil
}

// GivenAllowance is a bend allowance that the person typed, mm: the flat length
// between the tangent lines. It is for the very bend it is given to.
type GivenAllowance float64

// Allowance is the typed value.
func (g GivenAllowance) Allowance(b Bend) (Allowance, error) {
	return b.given(float64(g), "bend allowance "+short(float64(g))+" mm ("+short(float64(g)/inch)+" in)")
}

// GivenDeduction is a bend deduction that the person typed: what the two legs
// together, measured to To, are longer than the flat, mm. Charts of deductions
// are for legs measured outside.
type GivenDeduction struct {
	Length float64
	To     Reference
}

// Allowance is twice the setback less the typed deduction.
func (g GivenDeduction) Allowance(b Bend) (Allowance, error) {
	if g.To == Apex && b.folded() {
		return Allowance{}, errNoApex
	}
	return b.given(2*b.Setback(g.To)-g.Length, "bend deduction "+short(g.Length)+" mm ("+short(g.Length/inch)+" in) from legs measured "+g.To.String())
}

var errNoApex = errors.New("the faces of a hem meet nowhere: measure its legs outside, inside or from the tangent instead of to the apex")

// given checks what came of a typed value.
func (b Bend) given(length float64, by string) (Allowance, error) {
	if err := b.Validate(); err != nil {
		return Allowance{}, err
	}
	if err := inPlate(b.Factor(length)); err != nil {
		return Allowance{}, fmt.Errorf("%s does not fit a bend of %s with inside radius %s mm in %s mm plate: %w",
			by, Degrees(b.A), short(b.R), short(b.T), err)
	}
	return b.allowance(length, by, typedLength), nil
}
