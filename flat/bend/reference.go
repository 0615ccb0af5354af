package bend

import (
	"fmt"
	"math"
)

// Reference is what a leg's length, or the height of a flange, is measured
// from, across the bend.
type Reference int8

const (
	// Outside is the way of most drawings: from where the two outer faces would
	// meet for bends up to a square one; for sharper bends from the plane that
	// touches the outside of the bend, square to the leg (as DIN 6935 has it).
	Outside Reference = iota
	// Inside is the same for the inner faces: up to a square bend from where they
	// would meet, for sharper ones from the plane that touches the inside of the
	// bend. It is shorter than Outside by the thickness from a square bend on.
	Inside
	// Apex is always from where the two outer faces would meet, the mold line of
	// the outside, however far out that is. A hem has none.
	Apex
	// Tangent is from where the leg's own straight part begins.
	Tangent
)

var referenceNames = [...]string{"outside", "inside", "apex", "tangent"}

func (r Reference) String() string {
	if r < 0 || int(r) >= len(referenceNames) {
		return "unknown reference"
	}
	return referenceNames[r]
}

// ParseReference reads `outside`, `inside`, `apex` (also `mold line`) or
// `tangent`.
func ParseReference(word string) (Reference, error) {
	switch word {
	case "outside":
		return Outside, nil
	case "inside":
		return Inside, nil
	case "apex", "mold line", "mould line":
		return Apex, nil
	case "tangent":
		return Tangent, nil
	}
	return 0, fmt.Errorf("%q is no way to measure a leg; write outside, inside, apex or tangent", word)
}

// Setback is how far the tangent line lies from the reference, along the leg,
// mm: what is taken from a leg to leave its straight part. For Outside up to a
// square bend, and for Apex, it is (R + T) tan(A/2) (general shop formula; apex
// of a hem: +Inf), beyond that R + T (DIN 6935).
func (b Bend) Setback(to Reference) float64 {
	switch to {
	case Outside:
		if b.square() {
			return (b.R + b.T) * b.tanHalf()
		}
		return b.R + b.T
	case Inside:
		if b.square() {
			return b.R * b.tanHalf()
		}
		return b.R
	case Apex:
		return (b.R + b.T) * b.tanHalf()
	}
	return 0
}

// Convert gives the length of a leg measured to one reference in terms of
// another.
func (b Bend) Convert(length float64, from, to Reference) float64 {
	return length - b.Setback(from) + b.Setback(to)
}

// FlatLength is the length of the flat, mm, of a strip with these bends, one
// between each leg and the next: the sum of the legs' straight parts and the
// allowances. Every leg is measured to the reference at each bend that it has.
// The error is of a rule that has no answer, or of a leg too short.
func FlatLength(legs []float64, bends []Bend, to Reference, rule Rule) (float64, error) {
	if len(legs) != len(bends)+1 {
		return 0, fmt.Errorf("%d legs and %d bends: wanted one leg more than bends", len(legs), len(bends))
	}
	sum := 0.0
	for i, leg := range legs {
		straight := leg
		if i > 0 {
			straight -= bends[i-1].Setback(to)
		}
		if i < len(bends) {
			straight -= bends[i].Setback(to)
		}
		if !(straight >= 0) || math.IsInf(straight, 0) {
			return 0, fmt.Errorf("leg %d has no straight part left: its bends take more than its %s mm", i+1, short(leg))
		}
		sum += straight
	}
	for i, b := range bends {
		a, err := rule.Allowance(b)
		if err != nil {
			return 0, fmt.Errorf("bend %d: %w", i+1, err)
		}
		sum += a.Length
	}
	return sum, nil
}
