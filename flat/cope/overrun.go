package cope

import (
	"math"

	"blankwright/flat/num"
)

// Overrun tells that the branch's outside line runs past an end of a sleeve: the
// wall beyond it meets nothing.
type Overrun struct {
	Main string  // name of the main
	Toe  float64 // mm past the end on the toe's (acute) side, 0 for none
	Heel float64 // mm past the end on the heel's side, 0 for none
}

// Overruns lists the sleeves that are too short for their cut, in the order in
// which they were given.
func (c *Cope) Overruns() []Overrun { return c.overruns }

func (c *Cope) findOverruns() []Overrun {
	var out []Overrun
	for i := range c.cuts {
		k := &c.cuts[i]
		if k.plate || k.length == 0 {
			continue
		}
		lo, hi, ok := c.alongMain(i)
		if !ok {
			continue
		}
		o := Overrun{Main: k.name}
		if end := k.middle + k.length/2; !num.AtMost(hi, end) {
			o.Toe = hi - end
		}
		if end := k.middle - k.length/2; !num.AtLeast(lo, end) {
			o.Heel = end - lo
		}
		if o.Toe > 0 || o.Heel > 0 {
			out = append(out, o)
		}
	}
	return out
}

// alongMain is how far the outside line reaches along the axis of cut i, from
// the foot, positive towards the toe, where that cut governs; ok is false where
// it never does.
func (c *Cope) alongMain(i int) (lo, hi float64, ok bool) {
	k, u := &c.cuts[i], c.curves[OD]
	lo, hi = math.Inf(1), math.Inf(-1)
	take := func(p *piece, q float64) {
		sp := k.spot(q)
		x := (c.height(u, p, q)-k.station)*k.cos - c.ro*sp.cos*k.sin
		lo, hi, ok = min(lo, x), max(hi, x), true
	}
	qs := c.appendLevelAlong(nil, k, c.ro)
	for j := range 4 {
		qs = append(qs, k.turn+float64(j)*quarterTurn)
	}
	for j := range u.pieces {
		p := &u.pieces[j]
		if int(p.by.cut) != i || p.by.free {
			continue
		}
		take(p, p.a)
		take(p, p.b)
		for _, q := range qs {
			if q = turned(q); q < p.a {
				q += fullTurn
			}
			if q <= p.b {
				take(p, q)
			}
		}
	}
	return lo, hi, ok
}
