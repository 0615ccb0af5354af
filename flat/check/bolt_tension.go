package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/strength"
)

var boltTension = &Check{
	ID:       "bolt-tension",
	Severity: diag.Error,
	strength: true,
	Title:    "a bolt holds less in tension than its load",
	Meaning:  "`tension:` of a load pulls the plate off along its bolts. Each bolt takes an equal part of it, or, where it is written at a place beside their middle, what its lever gives each.",
	Formula: "aisc 360: Rn = Fnt Ab, Fnt of Table J3.2 or 0.75 Fu; phi 0.75, omega 2.00\n" +
		"en 1993-1-8: Ft,Rd = 0.9 fub As/gM2",
	Source: "AISC 360-22 J3.7, eq. J3-1; EN 1993-1-8:2005 Table 3.4; AISC Manual Part 7, Case II, for a pull beside the middle (from memory)",
	Limits: "Prying is not worked out: where the plate bends it adds to the load, often by a third and more. Bending " +
		"and punching of the plate under the bolt's head are not looked at. No repeated load.",
	Run: func(c *Context) {
		from := len(c.held)
		c.eachHole(func(d *demand) (float64, strength.Result, bool) {
			r, ok := c.pullOf(d)
			return d.pull, r, ok && d.pull > 0
		})
		for i := range c.groups {
			if g := &c.groups[i]; g.pulled != nil {
				c.cannotShare(g, g.pulled)
			}
		}
		c.tellHeld(from, func(h *held) []Change { return remedies(c.stronger(h), c.larger(h)) })
	},
}
