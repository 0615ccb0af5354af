package check

import (
	"errors"

	"blankwright/flat/diag"
)

// errNoMetal is why a section holds nothing.
var errNoMetal = errors.New("the section meets no metal")

var weldLineBending = &Check{
	ID:       "weld-line-bending",
	Severity: diag.Error,
	strength: true,
	Title:    "the plate holds less beside its weld than its loads",
	Meaning: "Where the plate is welded on, all that acts on it bends, shears and pulls it at once. The section is cut from the true outline along the weld, " +
		"at a saddle across its deepest place.",
	Formula: "aisc 360: M/Mc + (N/Nc)^2 + (V/Vc)^4 <= 1; Mc of Fy Z <= 1.5 Fy S and of F11 with the load's distance as unbraced length, phi 0.90; Vc 0.60 Fy A, phi 1.00\n" +
		"en 1993-1-8: (s^2 + 3 t^2)/(fy/gM0)^2 <= 1 at the edge of the section, elastic, with the mean shear",
	Source: "B. Dowswell, AISC Engineering Journal 52(1), 2015, with AISC 360-22 F11, J4.1, J4.2 and J4.5; EN 1993-1-1:2005 6.2.1(5), eq. 6.1",
	Limits: "Plate held along one line of welds; held along several it is not looked at. Plane sections stay plane. Only loads on the far side of the line count. " +
		"Loads out of the plane bend the plate far more easily, and are not in it. EN 1993-1-1 6.3.2, buckling of a plate bent in its plane, is not computed.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() && len(c.cases) > 0 && len(c.Blank.Welds) > 0 {
			if at, dir, ok := c.heldAt(); ok {
				w := &c.Blank.Welds[0]
				k := c.cutAt(c.metal(), at, dir)
				if !(k.s.Area > 0) {
					c.cannot(ofWeld(w, nil), errNoMetal)
				}
				for i := range c.cases {
					if r, ok := c.bend(&k, &c.cases[i]); ok && k.s.Area > 0 {
						c.cases[i].seen = true
						h := ofWeld(w, &c.cases[i])
						h.title = "the plate along the weld " + quoted(w.Name)
						h.ratio, h.v, h.at = &r, c.bendShare(&r), at
						c.weigh(h)
					}
				}
			}
		}
		c.tellHeld(from, c.thicker)
	},
}
