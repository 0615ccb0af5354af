package cope

import (
	"fmt"
	"math"

	"blankwright/flat/num"
)

// TwoCuts stands for a saddle by two mitre cuts with a straight saw. They meet
// in a line across the tube from ear to ear; each runs from there up to a
// throat.
type TwoCuts struct {
	// Planes are the heel's and the toe's cut; New(tube, Planes[0], Planes[1]) is
	// the end so cut.
	Planes [2]Plate
	// Mitre is the angle of each cut from a square one, rad.
	Mitre [2]float64
	// Ears is where the cuts meet, mm along the tube from the working point.
	Ears float64
	// Gap is the largest gap along the tube between the cut and the line at
	// which the whole wall would drop on, mm.
	Gap float64
}

// TwoStraightCuts gives the two straight cuts for an end that meets one main
// with no offset, placed so that no part of the wall fouls and the gap is least.
//
// At w = r cos q the wall, over all its radii, needs Z to be at least E(w):
// √(R²-ri²+w²), from its inside, for |w| <= ri, and R beyond. A
// straight cut is a line over |w|; E being hollow between 0 and ri, the lowest
// line above it there is its chord, of slope b = tan(β/2) with sin β = ri/R, and
// the gap is m(1-√(1-b²)) with m = √(R²-ri²).
func (c *Cope) TwoStraightCuts() (TwoCuts, error) {
	if len(c.cuts) != 1 || c.cuts[0].plate {
		return TwoCuts{}, fmt.Errorf("two straight cuts stand for the saddle on one main; this end meets something else (%d in all), use the template", len(c.cutters))
	}
	k := &c.cuts[0]
	if k.e != 0 {
		return TwoCuts{}, fmt.Errorf("two straight cuts stand for a saddle without offset, this one has %s mm; use the template", short(k.e))
	}
	if high, _ := k.margin(c.ro); high < 0 {
		return TwoCuts{}, fmt.Errorf("tube of %s mm is wider than its main of %s mm; use the template", short(c.Tube.OD), short(2*k.R))
	}
	beta := math.Asin(min(1, c.ri/k.R))
	m, b := k.R*math.Cos(beta), math.Tan(beta/2)
	t := TwoCuts{Ears: k.station + m/k.sin}
	t.Gap = max(m*(1-math.Sqrt(1-b*b)), b*(c.ro-c.ri)) / k.sin
	// s = station + (m + b|w| - w cos θ)/sin θ
	for i, rise := range [2]float64{b - k.cos, -b - k.cos} {
		p := Plate{
			Name:    [2]string{"heel cut", "toe cut"}[i],
			Angle:   math.Atan2(k.sin, math.Abs(rise)),
			Turn:    k.turn,
			Station: t.Ears,
		}
		if rise > 0 {
			p.Turn += halfTurn
		}
		if !num.AtLeast(p.Angle, LeastAngle) {
			return TwoCuts{}, fmt.Errorf("%s would lie at %s degrees to the tube, wanted %s or more; use the template", p.Name, degrees(p.Angle), degrees(LeastAngle))
		}
		t.Planes[i], t.Mitre[i] = p, quarterTurn-p.Angle
	}
	return t, nil
}
