package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/strength"
)

var tearOut = &Check{
	ID:       "tear-out",
	Severity: diag.Error,
	strength: true,
	Title:    "a bolt tears out of the plate under its load",
	Meaning: "The metal between a hole and the next edge in the direction of the force is sheared out by the bolt. " +
		"The edge is the true one: straight or round, of the outline, of another hole, a slot or a cutout, where the line of force meets it.",
	Formula: "aisc 360: Rn = 1.2 lc t Fu, lc from the edge of the hole to the next edge along the force, the least over the width of the bolt; phi 0.75, omega 2.00",
	Source:  "AISC 360-22 J3.11, eqs. J3-6c, J3-6d, J3-6f (360-16 J3.10)",
	Limits: "Three lines along the force, through the middle and both sides of the bolt, and in a slot from wherever it may sit: the shortest counts on both sides. " +
		"EN 1993-1-8 has no separate check: there bearing takes the end distance in. Pins are left to pin-plate.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() && !c.method.eurocode {
			c.eachHole(func(d *demand) (float64, strength.Result, bool) {
				if d.size <= 0 || d.pin || !d.o.bolted() {
					return 0, strength.Result{}, false
				}
				b := c.Blank
				return d.size, c.method.aisc.TearOut(strength.HoleBearing{D: d.o.hole.Bolt.D, T: b.Thickness, Fu: b.Material.Fu,
					Clear: d.clear, Hole: c.holeKind(d.o, d.force.Mul(1/d.size))}), true
			})
		}
		c.tellHeld(from, func(h *held) []Change { return remedies(c.wider(h), c.thicker(h)) })
	},
}
