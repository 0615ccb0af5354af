package cope

import (
	"fmt"
	"math"

	"blankwright/flat/num"
)

// Saws is what there is to cope with a hole saw. Zero values ask for nothing.
type Saws struct {
	Diameters  []float64 // outside diameters on hand, mm
	Cup        float64   // depth that a cup can cut, mm
	LeastAngle float64   // smallest angle between saw and tube that the jig holds, rad
}

// sawOver is how much wider than the main a hole saw may be (mm): the joint then
// gapes by half of it at its throat. Common practice: a gap of half a
// millimetre is filled by the weld.
const sawOver = 1.0

// SawSetting is how to cut one main's saddle with a hole saw. The saw's outside
// makes the surface, so it needs the main's outside diameter, its arbor runs
// along the main's axis, and both the inside and the outside of the wall come
// out right.
type SawSetting struct {
	Main      string
	Wanted    float64  // outside diameter that fits, mm: the main's
	Diameter  float64  // of the saw on hand to take, mm; Wanted where none are listed; 0 where none fits
	Angle     float64  // between arbor and tube, rad; 90 degrees less this from square
	Offset    float64  // of the arbor from the tube's axis, mm, positive towards Turn + 90 degrees
	Turn      float64  // q of the generator on the obtuse side, rad
	Centre    float64  // mm from the blank's square end, sawn at the longest point, out to the arbor's axis; negative inside the blank
	Depth     float64  // mm that the saw travels through the tube, from touching it to leaving it
	Refused   []string // why a hole saw cannot do it; empty where it can
	Reminders []string // what to mind where it can
}

// OK reports whether a hole saw can do it.
func (s SawSetting) OK() bool { return len(s.Refused) == 0 }

// HoleSaw gives the setting for each main of this end, in the order given.
// Plates are for a straight saw and are left out.
func (c *Cope) HoleSaw(saws Saws) []SawSetting {
	var out []SawSetting
	for i := range c.cuts {
		if !c.cuts[i].plate {
			out = append(out, c.sawSetting(i, saws))
		}
	}
	return out
}

func (c *Cope) sawSetting(i int, saws Saws) SawSetting {
	k := &c.cuts[i]
	s := SawSetting{
		Main: k.name, Wanted: 2 * k.R, Angle: k.angle, Offset: k.e, Turn: k.turn,
		Centre: c.curves[OD].ear.S - k.station,
	}
	refuse := func(format string, args ...any) { s.Refused = append(s.Refused, fmt.Sprintf(format, args...)) }
	remind := func(text string) { s.Reminders = append(s.Reminders, text) }

	lo, hi, ok := c.sawTravel(i)
	if ok {
		s.Depth = hi - lo
	}
	high, low := k.margin(c.ro)
	switch {
	case high < 0 || low < 0:
		refuse("saw of %s mm passes inside the wall of a %s mm tube: walls beside it stay standing", short(s.Wanted), short(c.Tube.OD))
	case high == 0 || low == 0:
		remind("the saw runs out on the tube's side: the ears end in a feather edge, clamp the tube near them and feed slowly")
	}
	if !num.AtLeast(k.angle, saws.LeastAngle) {
		refuse("arbor lies at %s degrees to the tube, the jig holds %s or more", degrees(k.angle), degrees(saws.LeastAngle))
	}
	if saws.Cup > 0 && !num.AtMost(s.Depth, saws.Cup) {
		refuse("saw has to travel %s mm, the cup cuts %s mm deep", short(s.Depth), short(saws.Cup))
	}
	s.Diameter = s.Wanted
	if len(saws.Diameters) > 0 {
		s.Diameter = nearestSaw(saws.Diameters, s.Wanted)
		if s.Diameter == 0 {
			refuse("no saw of %s to %s mm on hand", short(s.Wanted), short(s.Wanted+sawOver))
		}
	}
	if !num.Same(s.Diameter, s.Wanted) && s.Diameter > 0 {
		remind(fmt.Sprintf("the saw is %s mm wider than the main: the throat gapes by %s mm", short(s.Diameter-s.Wanted), short((s.Diameter-s.Wanted)/2)))
	}
	return s
}

// sawTravel is how far along the main's axis the saw meets the tube's outside,
// whatever else cuts the end.
func (c *Cope) sawTravel(i int) (lo, hi float64, ok bool) {
	k := &c.cuts[i]
	lo, hi = math.Inf(1), math.Inf(-1)
	qs := c.appendLevelAlong(nil, k, c.ro)
	qs, _ = k.appendSides(qs, nil, c.ro)
	for j := range 4 {
		qs = append(qs, k.turn+float64(j)*quarterTurn)
	}
	for _, q := range qs {
		sp := k.spot(q)
		if z, meets := k.depth(c.ro, sp); meets {
			x := (z*k.cos - c.ro*sp.cos) / k.sin
			lo, hi, ok = min(lo, x), max(hi, x), true
		}
	}
	return lo, hi, ok
}

// nearestSaw is the smallest saw that is not narrower than wanted and at most
// sawOver wider; 0 for none.
func nearestSaw(on []float64, wanted float64) float64 {
	best := 0.0
	for _, d := range on {
		if num.AtLeast(d, wanted) && num.AtMost(d, wanted+sawOver) && (best == 0 || d < best) {
			best = d
		}
	}
	return best
}
