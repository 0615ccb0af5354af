package bend

import (
	"fmt"
	"math"

	"blankwright/flat/num"
)

// Die is the opening of a V-die, mm, for air bends on a press brake.
type Die float64

// dies are usual openings, mm (preferred numbers; common practice).
var dies = [...]Die{4, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250}

// DieSource is where the rules for dies come from.
var DieSource = Source{"press-brake charts: opening 8 T, from 12 mm plate 10 T; radius about a sixth of it; least outside flange about 0.7 of it", CommonPractice}

// Dies gives the usual openings, mm.
func Dies() []Die { return append([]Die(nil), dies[:]...) }

// DieFor is the usual die for plate of thickness t, mm: the smallest opening of
// at least 8 T, above 12 mm plate 10 T. The error tells that there is none.
func DieFor(t float64) (Die, error) {
	want := 8 * t
	if t > 12 {
		want = 10 * t
	}
	for _, v := range dies {
		if t > 0 && num.AtLeast(float64(v), want) {
			return v, nil
		}
	}
	return 0, fmt.Errorf("no usual V-die for %s mm plate: an opening of %s mm is wanted, the widest is %s mm", short(t), short(want), short(float64(dies[len(dies)-1])))
}

// Radius is the inside radius that an air bend in mild steel takes in the die,
// about a sixth of the opening, mm (common practice).
func (v Die) Radius() float64 { return float64(v) / 6 }

// RadiusIn is Radius for a family of materials: a sixth of the opening for mild
// steel, 0.21 of it for stainless steel, 0.14 for aluminium (common practice, from
// memory; no strength of the plate is looked at).
func (v Die) RadiusIn(f Family) float64 {
	switch f {
	case StainlessSteel:
		return 0.21 * float64(v)
	case Aluminium:
		return 0.14 * float64(v)
	}
	return v.Radius()
}

// The openings in which plate is air-bent, as multiples of its thickness: in
// narrower ones it is marked and the press labours, in wider ones the leg slips
// (common practice).
const (
	narrowest = 6.0
	widest    = 12.0
)

// DieForRadius is the usual die in which an air bend in plate of thickness t, mm,
// comes nearest to the inside radius r, mm, among the openings of 6 T to 12 T. ok
// is false where there is none.
func DieForRadius(f Family, t, r float64) (best Die, ok bool) {
	for _, v := range dies {
		if !num.AtLeast(float64(v), narrowest*t) || !num.AtMost(float64(v), widest*t) {
			continue
		}
		if !ok || math.Abs(v.RadiusIn(f)-r) < math.Abs(best.RadiusIn(f)-r) {
			best, ok = v, true
		}
	}
	return best, ok
}

// LeastFlange is the shortest flange, measured outside, whose edge does not slip
// into the die, mm: about 0.7 of the opening for a square bend (common
// practice). For other angles the same by the slope of the leg in the die: half
// the opening over the cosine of half the angle, in the same proportion.
func (v Die) LeastFlange(angle float64) float64 {
	a := min(math.Abs(angle), sharpest)
	return 0.7 * float64(v) * math.Cos(math.Pi/4) / math.Cos(a/2)
}

// sharpest is the angle (rad) up to which a leg is bent in a V-die; what goes
// further is closed afterwards (common practice: dies of 30 degrees).
const sharpest = 150 * math.Pi / 180

// Load is an estimate of the force for a bend.
type Load struct {
	Force  float64 // N
	Tonnes float64 // metric tonnes-force, as presses are rated
	Source Source
}

const tonne = 9806.65 // N, 1000 kg under standard gravity

// Load estimates the force to air-bend a length, mm, of plate of thickness t,
// mm, and tensile strength fu, MPa, in the die: (1 + 4 T/V) fu L T^2 / V.
//
// Common formula, from memory; 15 to 20 % either way, for a square bend with a
// die of 6 to 12 T. Coining needs five to ten times as much.
func (v Die) Load(fu, t, length float64) Load {
	f := (1 + 4*t/float64(v)) * fu * length * t * t / float64(v)
	return Load{f, f / tonne, Source{"common formula (1 + 4 T/V) Fu L T^2 / V for air bends, an estimate within 20 %", CommonPractice}}
}
