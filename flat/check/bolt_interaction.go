package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/strength"
)

var boltInteraction = &Check{
	ID:       "bolt-interaction",
	Severity: diag.Error,
	strength: true,
	Title:    "a bolt holds less tension beside its shear than its load",
	Meaning:  "A bolt that is sheared and pulled at once holds less of either. Asked where a load gives both.",
	Formula: "aisc 360: F'nt = 1.3 Fnt - Fnt frv/(phi Fnv) <= Fnt (ASD: omega Fnt frv/Fnv), Rn = F'nt Ab\n" +
		"en 1993-1-8: Fv,Ed/Fv,Rd + Ft,Ed/(1.4 Ft,Rd) <= 1",
	Source: "AISC 360-22 J3.8, eqs. J3-2, J3-3a, J3-3b; EN 1993-1-8:2005 Table 3.4",
	Limits: "Bearing-type joints. Prying is not in the tension. Of several planes the stress of one is taken.",
	Run: func(c *Context) {
		from := len(c.held)
		m := &c.method
		if m.eurocode {
			for i := range c.demands {
				d := &c.demands[i]
				fv, ok := c.shearOf(d)
				ft, _ := c.pullOf(d)
				if !ok || d.pull <= 0 || d.size <= 0 {
					continue
				}
				r := m.en.BoltShearTension(d.size, d.pull, fv, ft)
				d.seen = true
				h := ofHole(d)
				h.ratio, h.v = &r, r.V
				c.weigh(h)
			}
		} else {
			c.eachHole(func(d *demand) (float64, strength.Result, bool) {
				if d.pull <= 0 || d.size <= 0 || !d.o.bolted() {
					return 0, strength.Result{}, false
				}
				k := c.strengthOf(d.o)
				if k.why != "" {
					return 0, strength.Result{}, false
				}
				fnv := k.stress.ShearShank
				if d.threads {
					fnv = k.stress.ShearThread
				}
				long, _ := c.longJoint(d, k.bolt.D)
				fnv *= long
				frv := d.size / (float64(max(1, d.planes)) * strength.Disc(k.bolt.D))
				return d.pull, m.aisc.BoltTensionShear(k.bolt.D, k.stress, fnv, frv), true
			})
		}
		c.tellHeld(from, func(h *held) []Change { return remedies(c.stronger(h), c.larger(h)) })
	},
}
