package bend

import (
	"fmt"
	"math"

	"blankwright/flat/num"
)

// DIN6935 is the rule of DIN 6935, cold bending of flat rolled steel: the
// correction k of the neutral line's place by radius and thickness, and the
// compensation v for all opening angles.
type DIN6935 struct{}

// The formula of v is what is from memory.
var dinSource = Source{"DIN 6935, correction factor k and compensation value v", FromMemory}

// dinRatio is the radius in thicknesses above which k is 1.
const dinRatio = 5

// dinFlat is the opening angle (degrees) above which v is nothing.
const dinFlat = 165

// K is the correction factor k of DIN 6935: 0.65 + 0.5 lg(r/s) up to r/s = 5, 1
// above. The K-factor is half of it. The error is for radii so small that the
// formula leaves the plate (r/s about 0.05).
func (DIN6935) K(b Bend) (float64, error) {
	if err := b.Validate(); err != nil {
		return 0, err
	}
	if num.AtLeast(b.R, dinRatio*b.T) {
		return 1, nil
	}
	k := 0.65 + 0.5*math.Log10(b.R/b.T)
	if !(k > 0) {
		return 0, fmt.Errorf("DIN 6935 has no factor for inside radius %s mm in %s mm plate; give a larger radius, or use another rule", short(b.R), short(b.T))
	}
	return k, nil
}

// Compensation is v of DIN 6935, mm (negative; tables print it without its
// sign): the flat length is a + b + v with the legs measured outside.
//
//	0 < beta <= 90:    v = pi (180-beta)/180 (r + s k/2) - 2 (r+s)
//	90 < beta <= 165:  v = pi (180-beta)/180 (r + s k/2) - 2 (r+s) tan((180-beta)/2)
//	165 < beta <= 180: v = 0
//
// A hem (beta = 0) is taken by the first.
func (d DIN6935) Compensation(b Bend) (float64, error) {
	k, err := d.K(b)
	if err != nil {
		return 0, err
	}
	if b.nearlyFlat() {
		return 0, nil
	}
	return b.Arc(k/2) - 2*b.Setback(Outside), nil
}

// nearlyFlat reports whether DIN 6935 takes nothing off for the bend.
func (b Bend) nearlyFlat() bool { return inDegrees(b.Opening()) > dinFlat+num.LimitSlack }

// Allowance is v and twice the setback.
func (d DIN6935) Allowance(b Bend) (Allowance, error) {
	k, err := d.K(b)
	if err != nil {
		return Allowance{}, err
	}
	if b.nearlyFlat() {
		return b.allowance(2*b.Setback(Outside), "DIN 6935, v = 0 for an opening angle above 165 degrees", dinSource), nil
	}
	return Allowance{b.Arc(k / 2), k / 2, "DIN 6935, k = " + num.Short(k, 4), dinSource}, nil
}

func inDegrees(rad float64) float64 { return rad * 180 / math.Pi }
