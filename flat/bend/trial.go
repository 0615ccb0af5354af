package bend

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/num"
)

// Trial is a shop's own test bend: a strip measured before and after. It gives
// the K-factor of that plate, that radius and that die.
type Trial struct {
	Name       string  // what the shop calls it; may be empty
	T, R, A    float64 // as measured: thickness, inside radius, mm; angle turned through, rad
	Flat       float64 // length of the strip before, mm
	LegA, LegB float64 // after, mm
	To         Reference
}

// Bend is the bend that was made.
func (t Trial) Bend() Bend { return Bend{t.T, t.R, t.A} }

// Factor is the K-factor that the measurements give: the legs less the flat are
// the deduction, twice the setback less it the allowance, and that over the
// angle, less the radius, over the thickness K. The error is for measurements
// that cannot be.
func (t Trial) Factor() (float64, error) {
	b := t.Bend()
	if err := b.Validate(); err != nil {
		return 0, fmt.Errorf("%s: %w", t.name(), err)
	}
	if t.To == Apex && b.folded() {
		return 0, fmt.Errorf("%s: %w", t.name(), errNoApex)
	}
	set := b.Setback(t.To)
	switch {
	case !num.Finite(t.Flat, t.LegA, t.LegB) || t.Flat <= 0:
		return 0, errors.New(t.name() + ": the flat length and both legs are needed, more than nothing")
	case t.LegA < set || t.LegB < set:
		return 0, fmt.Errorf("%s: a leg of %s mm has no straight part: the bend alone takes %s mm of it; bend a longer strip",
			t.name(), short(min(t.LegA, t.LegB)), short(set))
	}
	k := b.Factor(2*set - (t.LegA + t.LegB - t.Flat))
	if err := inPlate(k); err != nil {
		return 0, fmt.Errorf("%s: measure again, %w", t.name(), err)
	}
	return k, nil
}

// Doubt is how far off the factor may be when each of the three lengths was
// read within reading mm, in the worst case: 3 reading / (A T).
func (t Trial) Doubt(reading float64) float64 { return 3 * math.Abs(reading) / (t.A * t.T) }

// Unusual tells in words where a measured factor is outside what shops meet
// (0.25 to 0.5, common practice), "" where it is not.
func (t Trial) Unusual() string {
	k, err := t.Factor()
	if err != nil || k >= 0.25-num.LimitSlack && k <= 0.5+num.LimitSlack {
		return ""
	}
	return "K-factor " + short(k) + " is unusual: most bends give 0.25 to 0.5; check the radius, and to what the legs were measured"
}

func (t Trial) name() string {
	if t.Name == "" {
		return "test bend"
	}
	return "test bend " + t.Name
}

// Allowance uses the factor for another bend. It must be in plate of the same
// thickness with the same inside radius; the angle may differ.
func (t Trial) Allowance(b Bend) (Allowance, error) {
	if err := b.Validate(); err != nil {
		return Allowance{}, err
	}
	k, err := t.Factor()
	if err != nil {
		return Allowance{}, err
	}
	if !t.fits(b) {
		return Allowance{}, fmt.Errorf("%s was made in %s mm plate with inside radius %s mm, wanted %s mm with radius %s mm; make one, or use another rule",
			t.name(), short(t.T), short(t.R), short(b.T), short(b.R))
	}
	by := fmt.Sprintf("%s: %s mm flat gave legs of %s and %s mm %s at %s, K-factor %s",
		t.name(), short(t.Flat), short(t.LegA), short(t.LegB), t.To, Degrees(t.A), short(k))
	return Allowance{b.Arc(k), k, by, Source{"the shop's own test bend", Measured}}, nil
}

func (t Trial) fits(b Bend) bool { return num.Same(t.T, b.T) && num.Same(t.R, b.R) }

// Trials are the test bends of a shop. As a rule they use the one in plate of
// the same thickness with the same inside radius whose angle is nearest, the
// first of equals.
type Trials []Trial

// Allowance uses the factor of the nearest test bend.
func (ts Trials) Allowance(b Bend) (Allowance, error) {
	best := -1
	for i, t := range ts {
		if t.fits(b) && (best < 0 || math.Abs(t.A-b.A) < math.Abs(ts[best].A-b.A)) {
			best = i
		}
	}
	if best < 0 {
		return Allowance{}, fmt.Errorf("no test bend in %s mm plate with inside radius %s mm; make one, or use another rule", short(b.T), short(b.R))
	}
	return ts[best].Allowance(b)
}
