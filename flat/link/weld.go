package link

import (
	"fmt"
	"math"

	"blankwright/flat/cope"
	"blankwright/flat/num"
)

// Weld is a fillet all round a cope: leg (mm) and the filler's tensile strength
// FEXX (MPa; 482 for 70 ksi).
type Weld struct{ Leg, FEXX float64 }

// CopeWeld is what a fillet weld along a cope's outside line carries.
type CopeWeld struct {
	Length   float64    // of the line in space, mm
	Bands    cope.Bands // the same by the angle between the walls
	Throat   float64    // mm
	PerMM    Strength   // N for each mm
	All      Strength   // with the whole length that meets something
	OfFillet Strength   // with the part alone whose walls meet at 60 to 120 degrees
}

// WeldOf works the weld of a coped end out: length of the line in space times
// throat times 0.60 FEXX, whichever way the force runs. The force is taken to be
// even along the line; in a short or slanting joint it is not.
//
// Source: AISC 360-22, J2.4, Eq. J2-3 and Table J2.5: Fnw = 0.60 FEXX, phi 0.75,
// omega 2.00, without the directional increase; effective throat 0.707 leg for
// walls at 90 degrees (J2.2a). Where walls meet at another angle a fillet's
// throat differs, so OfFillet leaves those parts out (see cope.Bands).
func WeldOf(c *cope.Cope, w Weld) (CopeWeld, error) {
	if !num.Finite(w.Leg, w.FEXX) || w.Leg <= 0 || w.FEXX <= 0 {
		return CopeWeld{}, fmt.Errorf("weld has leg %s mm and filler strength %s MPa, wanted more than 0", short(w.Leg), short(w.FEXX))
	}
	out := CopeWeld{Length: c.Curve(cope.OD).Length(), Bands: c.Bands(), Throat: w.Leg / math.Sqrt2}
	each := out.Throat * 0.60 * w.FEXX
	of := func(l float64) Strength { return strength(each*l, 0.75, 2.00) }
	out.PerMM, out.All, out.OfFillet = of(1), of(out.Bands.Total()), of(out.Bands.Fillet)
	return out, nil
}
