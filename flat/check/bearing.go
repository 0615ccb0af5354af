package check

import (
	"math"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/strength"
)

var bearing = &Check{
	ID:       "bearing",
	Severity: diag.Error,
	strength: true,
	Title:    "the plate holds less at a bolt's hole than its load",
	Meaning: "A bolt presses on the edge of its hole. Too thin a plate is crushed there and the hole goes long. For EN 1993-1-8 " +
		"the distances ahead and beside the hole count too, so that tearing out is in it.",
	Formula: "aisc 360: Rn = 2.4 d t Fu; phi 0.75, omega 2.00\n" +
		"en 1993-1-8: Fb,Rd = k1 alpha_b fu d t/gM2, alpha_b = min(e1/(3 d0), p1/(3 d0) - 1/4, fub/fu, 1), k1 = min(2.8 e2/d0 - 1.7, 1.4 p2/d0 - 1.7, 2.5); " +
		"0.8 of it in oversize holes, 0.6 in slots across the force; in single shear by one row of bolts at most 1.5 fu d t/gM2",
	Source: "AISC 360-22 J3.11, eqs. J3-6a, J3-6b, J3-6e; EN 1993-1-8:2005 Table 3.4, 3.6.1(10); oversize holes: EN 1090-2 Table 11",
	Limits: "Bolted parts pressed together; pins are left to pin-plate. The plate on the other side of the bolt is not looked at. " +
		"Deformation of the hole at service load is a design consideration (the lower of AISC's two equations). For EN 1993-1-8 " +
		"distances ahead are measured along the force and beside it square to it, to the true edges, over the bolt's width and from wherever it may " +
		"sit in a slot. 3.6.1(10) asks for washers under head and nut as well.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() {
			c.eachHole(func(d *demand) (float64, strength.Result, bool) {
				if d.size <= 0 || d.pin || !d.o.bolted() {
					return 0, strength.Result{}, false
				}
				return d.size, c.bearingOf(d), true
			})
		}
		c.tellHeld(from, func(h *held) []Change {
			if c.method.eurocode {
				return remedies(c.wider(h), c.thicker(h), c.larger(h))
			}
			return remedies(c.thicker(h), c.larger(h))
		})
	},
}

func (c *Context) bearingOf(d *demand) strength.Result {
	u := d.force.Mul(1 / d.size)
	b := c.Blank
	if !c.method.eurocode {
		return c.method.aisc.Bearing(strength.HoleBearing{D: d.o.hole.Bolt.D, T: b.Thickness, Fu: b.Material.Fu,
			Clear: d.clear, Hole: c.holeKind(d.o, u)})
	}
	k := c.strengthOf(d.o)
	e := strength.ENBearing{D: k.bolt.D, D0: d.o.hole.Dia, T: b.Thickness, Fu: b.Material.Fu, Fub: k.en.Fub, Hole: c.holeKind(d.o, u)}
	if e.Fub == 0 {
		e.Fub = b.Material.Fu
	}
	e.SingleLap = d.lap
	if !c.whole() {
		return c.method.en.Bearing(e)
	}
	// From the bolt's centre, wherever along a slot it sits.
	toBolt, toEdge, bolt := c.apart(d.o, u)
	if bolt != nil {
		e.P1 = toBolt + d.o.r + bolt.r
	}
	if !math.IsInf(toEdge, 1) {
		e.E1 = toEdge + d.o.r
	}
	for _, side := range [2]geom.Point{u.Perp(), u.Perp().Mul(-1)} {
		toBolt, toEdge, bolt := c.apart(d.o, side)
		if p := toBolt + d.o.r; bolt != nil && (e.P2 == 0 || p+bolt.r < e.P2) {
			e.P2 = p + bolt.r
		}
		if p := toEdge + d.o.r; !math.IsInf(p, 1) && (e.E2 == 0 || p < e.E2) {
			e.E2 = p
		}
	}
	return c.method.en.Bearing(e)
}
