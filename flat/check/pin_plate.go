package check

import (
	"math"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/strength"
	"blankwright/profiles"
)

var pinPlate = &Check{
	ID:       "pin-plate",
	Severity: diag.Error,
	strength: true,
	Title:    "a plate on a pin holds less than its load, or is not shaped for it",
	Meaning: "A single pin or a pivot that turns (`as: pin` on the load, or a bore) is not pressed into the plate by a head and a nut. The " +
		"plate is torn beside the pin, sheared beyond it or crushed under it, and the standards ask for its shape as well.",
	Formula: "aisc 360: rupture Fu 2 t be, be = min(2 t + 0.63 in (16 mm), metal beside the hole); shear 0.6 Fu 2 t (a + d/2); bearing 1.8 Fy d t; " +
		"shape a >= 1.33 be, w >= 2 be + d, hole midway between the sides, corners cut back no nearer than a, play of the pin at most 1/32 in (1 mm)\n" +
		"en 1993-1-8: a >= F gM0/(2 t fy) + 2 d0/3, c >= F gM0/(2 t fy) + d0/3; bearing 1.5 t d fy/gM0",
	Source: "AISC 360-22 D5.1, D5.2, J7; EN 1993-1-8:2005 3.13, Tables 3.9 and 3.10",
	Limits: "One pin, the force in the plane of the plate. Of the pin itself only a bolt's shear is worked out (bolt-shear), and by EN 1993-1-8 its bending where a joint " +
		"with a sleeve says what it goes through; Unchecked says which pins were left. A pin without a diameter of its own is taken to fill its hole. Where the metal beside the " +
		"hole is not the same on both sides, the lesser counts. D5.2 asks for the hole midway between the sides: closer than the process cuts is not asked. Its play is asked " +
		"of every pin, as one that turns under load. The shape is asked of the width that the load needs.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() {
			for i := range c.demands {
				if d := &c.demands[i]; d.pin && d.size > 0 {
					c.pin(d)
				}
			}
		}
		c.tellHeld(from, c.pinChanges)
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

// pinChanges suggests what mends a plate on a pin: for its place the middle, for its
// play a smaller hole, else more metal.
func (c *Context) pinChanges(h *held) []Change {
	o := h.d.o
	switch {
	case h.midway != 0 && !c.tied(o) && !o.pinned():
		u := h.d.force.Mul(1 / h.d.size)
		ch := c.moveBy(o, u.Perp().Mul(h.midway))
		if c.after(ch, h.set) && c.sound(ch) {
			return []Change{ch}
		}
	case h.play > 0:
		ch := Change{Kind: Resize, Hole: o.hole.Name, To: c.down(h.play), Text: "make the diameter of " + name(o.hole) + " " + c.len(c.down(h.play))}
		if c.after(ch, h.set) && c.sound(ch) {
			return []Change{ch}
		}
		return nil
	}
	return remedies(c.wider(h), c.thicker(h))
}

func (c *Context) pin(d *demand) {
	d.seen = true
	u := d.force.Mul(1 / d.size)
	b := c.Blank
	toward := func(v geom.Point) float64 { metal, _ := c.metalAhead(d.o, v); return metal }
	left, right := u.Perp(), u.Perp().Mul(-1)
	p := strength.PinPlate{T: b.Thickness, Pin: pinOf(d.o), Hole: d.o.hole.Dia, End: d.clear,
		Side1: toward(left), Side2: toward(right), Fy: b.Material.Fy, Fu: b.Material.Fu, Turns: true}
	p.Width = p.Side1 + p.Side2 + p.Hole
	p.Corner = min(toward(u.Add(left).Mul(math.Sqrt2/2)), toward(u.Add(right).Mul(math.Sqrt2/2)))
	if math.IsInf(p.Width+p.End+p.Corner, 1) {
		c.cannot(ofHole(d), errOutside)
		return
	}
	if c.method.eurocode {
		a, k := c.method.en.PinEndA(d.size, p.T, p.Fy, p.Hole, p.End, min(p.Side1, p.Side2))
		c.weighLimit(d, a)
		c.weighLimit(d, k)
		pin := c.method.en.Pin(strength.PinJoint{Pin: p.Pin, Hole: p.Hole, Middle: p.T, Outer: p.T, PinFy: p.Fy, PinFu: p.Fu, Fy: p.Fy})
		c.weighPin(d, pin.BearingMiddle)
		c.bendPin(d)
		return
	}
	r := c.method.aisc.PinPlate(p)
	c.weighPin(d, worstOf(d.size, r.Rupture, r.Shear, r.Bearing, r.Yield))
	// Wider than it has to be is no fault: the shape is asked of the width that the load needs.
	p.Needs, p.Within = needed(r.Rupture, d.size)*r.EffectiveWidth, b.Process.Tolerance
	r = c.method.aisc.PinPlate(p)
	c.weighLimit(d, r.End)
	c.weighLimit(d, r.Wide)
	if p.Corner > 0 {
		c.weighLimit(d, r.CutBack)
	}
	h := ofLimit(d, r.Midway)
	h.midway = (p.Side1 - p.Side2) / 2
	c.weigh(h)
	h = ofLimit(d, r.Fit)
	h.play = p.Pin + r.Fit.Bound
	c.weigh(h)
}

// pinJoint is what a bolt that is a pin goes through: this plate and its twin on both
// sides of a sleeve. ok is false where the file has no such joint or the bolt no
// strength.
func (c *Context) pinJoint(o *opening) (j strength.PinJoint, ok bool) {
	if !o.bolted() {
		return j, false
	}
	s, err := profiles.StrengthOf(*o.hole.Bolt)
	if err != nil || !(s.Yield > 0) {
		return j, false
	}
	for i := range c.Blank.Joints {
		k := &c.Blank.Joints[i]
		if k.Hole != o.hole.Name || k.Sleeve == nil {
			continue
		}
		gap := k.Spacer
		if k.Gap > 0 {
			gap = max(gap, (k.Gap-k.Sleeve.Width.MM)/2)
		}
		m := &c.Blank.Material
		return strength.PinJoint{Pin: o.hole.Bolt.D, Hole: o.hole.Dia, Middle: k.Sleeve.Width.MM, Outer: c.Blank.Thickness, Gap: gap,
			PinFy: s.Yield, PinFu: s.Tensile, Fy: m.Fy}, true
	}
	return j, false
}

// bendPin weighs bending and shear of a bolt that is a pin between this plate and its
// twin: each has the load that the file gives this one.
func (c *Context) bendPin(d *demand) {
	j, ok := c.pinJoint(d.o)
	if !ok {
		return
	}
	pin := c.method.en.Pin(j)
	r := pin.Together(2 * d.size)
	h := ofHole(d)
	h.set += " bending"
	h.ratio, h.v = &r, r.V
	c.weigh(h)
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
	c.weigh(ofLimit(d, l))
}

// ofLimit begins what is weighed of a dimension at a hole.
func ofLimit(d *demand, l strength.Limit) held {
	h := ofHole(d)
	h.set += " " + l.What
	h.limit, h.v = &l, limitShare(&l)
	return h
}
