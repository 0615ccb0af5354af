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
	Meaning:  "`tension:` of a load pulls the plate off along its bolts. Each bolt takes an equal part of it.",
	Formula: "aisc 360: Rn = Fnt Ab, Fnt of Table J3.2 or 0.75 Fu; phi 0.75, omega 2.00\n" +
		"en 1993-1-8: Ft,Rd = 0.9 fub As/gM2",
	Source: "AISC 360-22 J3.7, eq. J3-1; EN 1993-1-8:2005 Table 3.4",
	Limits: "Prying is not worked out: where the plate bends it adds to the load, often by a third and more. Bending " +
		"and punching of the plate under the bolt's head are not looked at. No repeated load.",
	Run: func(c *Context) {
		from := len(c.held)
		c.eachHole(func(d *demand) (float64, strength.Result, bool) {
			r, ok := c.pullOf(d)
			return d.pull, r, ok && d.pull > 0
		})
		c.tellHeld(from, func(h *held) []Change { return remedies(c.stronger(h), c.larger(h)) })
	},
}
