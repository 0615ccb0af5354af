package check

import (
	"math"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/strength"
)

var pinPlate = &Check{
	ID:       "pin-plate",
	Severity: diag.Error,
	strength: true,
	Title:    "a plate on a pin holds less than its load, or is not shaped for it",
	Meaning: "A single pin or a pivot that turns (`as: pin` on the load, or a bore) is not pressed into the plate by a head and a nut. The " +
		"plate is torn beside the pin, sheared beyond it or crushed under it, and the standards ask for its shape as well.",
	Formula: "aisc 360: rupture Fu 2 t be, be = min(2 t + 0.63 in (16 mm), metal beside the hole); shear 0.6 Fu 2 t (a + d/2); bearing 1.8 Fy d t; " +
		"shape a >= 1.33 be, w >= 2 be + d, hole midway between the sides\n" +
		"en 1993-1-8: a >= F gM0/(2 t fy) + 2 d0/3, c >= F gM0/(2 t fy) + d0/3; bearing 1.5 t d fy/gM0",
	Source: "AISC 360-22 D5.1, D5.2, J7; EN 1993-1-8:2005 3.13, Tables 3.9 and 3.10",
	Limits: "One pin, the force in the plane of the plate. The pin's own shear and bending are not worked out beyond bolt-shear. Where the metal beside the " +
		"hole is not the same on both sides, the lesser counts. D5.2's play of 1/32 in is asked of a bore.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() {
			for i := range c.demands {
				if d := &c.demands[i]; d.pin && d.size > 0 {
					c.pin(d)
				}
			}
		}
		c.tellHeld(from, func(h *held) []Change { return remedies(c.wider(h), c.thicker(h)) })
	},
}

// pinOf is the diameter of what goes through a hole, mm.
func pinOf(o *opening) float64 {
	switch {
	case o.hole.Bolt != nil:
		return o.hole.Bolt.D
	case o.hole.Nominal > 0:
		return min(o.hole.Nominal, o.hole.Dia)
	}
	return o.hole.Dia
}

func (c *Context) pin(d *demand) {
	u := d.force.Mul(1 / d.size)
	b := c.Blank
	side := func(v geom.Point) float64 { metal, _ := c.metalAhead(d.o, v); return metal }
	p := strength.PinPlate{T: b.Thickness, Pin: pinOf(d.o), Hole: d.o.hole.Dia, End: d.clear,
		Side1: side(u.Perp()), Side2: side(u.Perp().Mul(-1)), Fy: b.Material.Fy, Fu: b.Material.Fu}
	p.Width = p.Side1 + p.Side2 + p.Hole
	if math.IsInf(p.Width+p.End, 1) {
		return
	}
	if c.method.eurocode {
		a, k := c.method.en.PinEndA(d.size, p.T, p.Fy, p.Hole, p.End, min(p.Side1, p.Side2))
		c.weighLimit(d, a)
		c.weighLimit(d, k)
		pin := c.method.en.Pin(strength.PinJoint{Pin: p.Pin, Hole: p.Hole, Middle: p.T, Outer: p.T, PinFy: p.Fy, PinFu: p.Fu, Fy: p.Fy})
		c.weighPin(d, pin.BearingMiddle)
		return
	}
	r := c.method.aisc.PinPlate(p)
	c.weighPin(d, worstOf(d.size, r.Rupture, r.Shear, r.Bearing, r.Yield))
	// Wider than it has to be is no fault: the shape is asked of the width that the load needs.
	needs := needed(r.Rupture, d.size) * r.EffectiveWidth
	r.End.Bound = min(r.End.Bound, 1.33*needs)
	r.Wide.Bound = min(r.Wide.Bound, 2*needs+p.Pin)
	c.weighLimit(d, r.End)
	c.weighLimit(d, r.Wide)
}

// needed is the share of a resistance that a load needs, at most all of it.
func needed(r strength.Result, load float64) float64 { return min(1, r.Utilisation(load)) }

func (c *Context) weighPin(d *demand, r strength.Result) {
	h := ofHole(d)
	h.set += " strength"
	h.load, h.result, h.v = d.size, r, r.Utilisation(d.size)
	c.weigh(h)
}

func (c *Context) weighLimit(d *demand, l strength.Limit) {
	h := ofHole(d)
	h.set += " " + l.What
	h.limit, h.v = &l, limitShare(&l)
	c.weigh(h)
}
