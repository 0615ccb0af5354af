package cope

import (
	"math"

	"blankwright/flat/num"
)

// Saws is what there is to cope with a hole saw. Zero values ask for nothing.
type Saws struct {
	Diameters  []float64 // outside diameters on hand, mm
	Cup        float64   // depth that a cup can cut, mm
	LeastAngle float64   // smallest angle between saw and tube that the jig holds, rad
	// Text writes a length for people; in millimetres where it is nil.
	Text func(mm float64) string
}

func (s Saws) text(mm float64) string {
	if s.Text == nil {
		return short(mm) + " mm"
	}
	return s.Text(mm)
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
		Main: k.name, Wanted: 2 * k.R, Angle: k.angle, Offset: 0 - k.e, Turn: k.turn,
		Centre: c.curves[OD].ear.S - k.station,
	}
	refuse := func(words string) { s.Refused = append(s.Refused, words) }
	text := saws.text
	remind := func(text string) { s.Reminders = append(s.Reminders, text) }

	lo, hi, ok := c.sawTravel(i)
	if ok {
		s.Depth = hi - lo
	}
	high, low := k.margin(c.ro)
	switch {
	case high < 0 || low < 0:
		refuse("a saw of " + text(s.Wanted) + " passes inside the wall of the tube: what is beside it stays standing")
	case high == 0 || low == 0:
		remind("the saw runs out on the tube's side: the ears end in a feather edge, clamp the tube near them and feed slowly")
	}
	if !num.AtLeast(k.angle, saws.LeastAngle) {
		refuse("the arbor lies at " + degrees(k.angle) + " degrees to the tube, the jig holds " + degrees(saws.LeastAngle) + " or more")
	}
	if saws.Cup > 0 && !num.AtMost(s.Depth, saws.Cup) {
		refuse("it has to travel " + text(s.Depth) + ", the cup cuts " + text(saws.Cup) + " deep")
	}
	s.Diameter = s.Wanted
	if len(saws.Diameters) > 0 {
		s.Diameter = nearestSaw(saws.Diameters, s.Wanted)
		if s.Diameter == 0 {
			refuse("there is no saw of " + text(s.Wanted) + " to " + text(s.Wanted+sawOver) + " on hand")
		}
	}
	if !num.Same(s.Diameter, s.Wanted) && s.Diameter > 0 {
		remind("the saw is " + text(s.Diameter-s.Wanted) + " wider than the main: the throat gapes by " + text((s.Diameter-s.Wanted)/2))
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
