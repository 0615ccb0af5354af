package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/strength"
)

var boltShear = &Check{
	ID:       "bolt-shear",
	Severity: diag.Error,
	strength: true,
	Title:    "a bolt holds less in shear than its load",
	Meaning: "The bolt through a loaded hole is sheared in one plane, or in two where it sits between two plates. " +
		"`shear: double` and `threads: out` on the load say so; where they say nothing it is one plane through the threads.",
	Formula: "aisc 360: Rn = Fnv Ab for each plane, Fnv of Table J3.2 or 0.450 Fu (threads in) and 0.563 Fu (out); phi 0.75, omega 2.00\n" +
		"en 1993-1-8: Fv,Rd = alpha_v fub As/gM2 through threads, 0.6 fub A/gM2 through the shank\n" +
		"long joints: aisc 360 0.833 of it beyond 38 in (965 mm) along the force; en 1993-1-8 1 - (Lj - 15 d)/(200 d) of it, at least 0.75; " +
		"M12 and M14 in holes of more than 1 mm clearance 0.85 (en 1993-1-8)",
	Source: "AISC 360-22 J3.7, eq. J3-1, Table J3.2; EN 1993-1-8:2005 Table 3.4, 3.6.1(5), 3.8",
	Limits: "Parts in contact, no packing, no bending of the bolt across gaps; a bolt in single shear on a sleeve bends. The force of a load is what this plate gets, and two planes share it. " +
		"Bolts without a grade, and for EN 1993-1-8 those of inch grades, are not looked at. Of holes that share a load through " +
		"their middle each takes an equal part.",
	Run: func(c *Context) {
		from := len(c.held)
		c.eachHole(func(d *demand) (float64, strength.Result, bool) {
			r, ok := c.shearOf(d)
			return d.size, r, ok && d.size > 0 && !(d.offset && d.loads == 1)
		})
		c.tellHeld(from, func(h *held) []Change { return remedies(c.stronger(h), c.larger(h)) })
	},
}
