package tube

import (
	"math"

	"blankwright/flat/check"
	"blankwright/flat/diag"
	"blankwright/flat/link"
	"blankwright/flat/num"
)

// asd reports whether loads are held to allowable strengths.
func (t *Tube) asd() bool { return t.Desc.Rules.Text == "aisc 360 asd" }

// Method names the design method that loads are held to; "" without loads.
func (t *Tube) Method() string {
	switch {
	case len(t.Loads) == 0:
		return ""
	case t.asd():
		return "AISC 360-22 ASD"
	}
	return "AISC 360-22 LRFD"
}

// of gives the design or the allowable value of a strength, and its factor in
// words.
func (t *Tube) of(s link.Strength, phi, omega string) (v float64, factor string) {
	if t.asd() {
		return s.ASD, "1/" + omega
	}
	return s.LRFD, phi
}

// kN writes a force.
func kN(n float64) string { return num.Short(n/1000, 2) + " kN" }

func mpa(v float64) string { return num.Short(v, 1) + " MPa" }

// each gives every load to a rule that wants steel.
func (c *run) each(do func(l *Load, steel link.Steel)) {
	steel, ok := c.t.Steel()
	if !ok {
		return
	}
	for i := range c.t.Loads {
		if l := &c.t.Loads[i]; l.Force != 0 {
			do(l, steel)
		}
	}
}

var stressRule = &Rule{check.Check{
	ID: "member-tension", Severity: diag.Error,
	Title:   "a tube yields in tension",
	Meaning: "The tension along the tube is held to the yield strength of its section.",
	Formula: "T <= 0.90 Fy A (LRFD), Fy A / 1.67 (ASD)",
	Source:  "AISC 360-22, D2(a), Eq. D2-1",
	Limits:  "Carbon steel, the nominal section, no bending. Shear lag at the saddle is left out: the whole round is welded.",
}, func(c *run) {
	c.each(func(l *Load, steel link.Steel) {
		if l.Force < 0 {
			return
		}
		s, err := link.TensionYield(c.t.Section, steel)
		if err != nil {
			return
		}
		holds, factor := c.t.of(s, "0.90", "1.67")
		c.use(l, check.Utilisation{Place: "tube", Value: l.Force / holds, Mode: "yield in tension, " + mpa(l.Force/c.t.Section.Area),
			Formula: kN(l.Force) + " / (" + factor + " x " + mpa(steel.Fy) + " x " + num.Short(c.t.Section.Area, 1) + " mm2 = " + kN(holds) + ")"},
			"a thicker wall or a stronger material")
	})
}}

// unfactored is what the column carries by the older formulas, no factor in it: in
// words.
func (c *run) unfactored(steel link.Steel, slenderness, length float64) string {
	words := "Euler " + kN(link.Euler(steel, c.t.Section, 1, length))
	if b, err := link.EulerJohnson(steel, slenderness); err == nil && b.Johnson {
		words = "Johnson " + kN(b.Stress*c.t.Section.Area) + ", " + words
	}
	return words
}

var bucklingRule = &Rule{check.Check{
	ID: "member-buckling", Severity: diag.Error,
	Title:   "a tube buckles",
	Meaning: "The compression along the tube is held to what it carries as a column with pins at both ends before it bows out.",
	Formula: "C <= 0.90 Fcr A (LRFD), Fcr A / 1.67 (ASD); Fcr by E3, Fe = pi2 E / (L/r)2",
	Source:  "AISC 360-22, E3, Eq. E3-2 to E3-4; E7.2 for thin walls",
	Limits:  "Carbon steel, a straight tube, length factor 1, load along the axis. A tube that is bent, or that a stiff bush bends, carries less.",
}, func(c *run) {
	c.each(func(l *Load, steel link.Steel) {
		if l.Force > 0 {
			return
		}
		force, length := -l.Force, c.t.Cut.Piece.Centres
		k, err := link.AISCCompression(c.t.Section, steel, 1, length)
		if err != nil {
			c.report(diag.Finding{Pos: l.Pos, Features: []string{"tube"}, Message: err.Error(), Fix: "a thicker wall"}, diag.Error)
			return
		}
		holds, factor := c.t.of(k.Strength, "0.90", "1.67")
		c.use(l, check.Utilisation{Place: "tube", Value: force / holds,
			Mode:    "buckling, slenderness " + num.Short(k.Slenderness, 0) + "; " + c.unfactored(steel, k.Slenderness, length),
			Formula: kN(force) + " / (" + factor + " x " + mpa(k.Fcr) + " x " + num.Short(k.AreaUsed, 1) + " mm2 = " + kN(holds) + ")"},
			"a wider tube, or pivots nearer to each other")
		if k.Advice != "" {
			c.report(diag.Finding{Pos: l.Pos, Features: []string{"tube"}, Got: k.Slenderness, Want: 200, Message: k.Advice, Fix: "a wider tube"}, diag.Warning)
		}
	})
}}

var sleeveRule = &Rule{check.Check{
	ID: "sleeve-wall", Severity: diag.Error,
	Title: "a sleeve's wall gives way",
	Meaning: "The tube pulls the sleeve off its bush, which puts the walls beside the bush in tension, and pushes its wall in, which " +
		"a hollow chord resists by yield lines and by shear round the tube.",
	Formula: "hoop = F sin a / (2 t L) <= 0.90 Fy (LRFD), Fy / 1.67 (ASD)\n" +
		"F <= phi Pn: plastification Eq. K3-2, and punching Eq. K3-1 where the tube is narrower than the bore",
	Source: "hoop: equilibrium; chord wall: AISC 360-16, K3, Table K3.1 (from memory, verify)",
	Limits: "The sleeve is of the tube's material, its bush fits. Where the joint lies outside the limits of Table K3.1 the " +
		"formulas are a comparison only; what is told of the utilisation says so.",
}, func(c *run) {
	c.each(func(l *Load, steel link.Steel) {
		for i := range c.t.Ends {
			for j := range c.t.Ends[i].Sleeves {
				c.sleeve(l, steel, &c.t.Ends[i].Sleeves[j])
			}
		}
	})
}}

func (c *run) sleeve(l *Load, steel link.Steel, s *Sleeve) {
	k, err := s.Stress(steel, l.Force)
	if err != nil {
		c.report(diag.Finding{Pos: s.Pos, Features: []string{s.Name}, Message: s.Name + ": " + err.Error(), Fix: "correct the sleeve"}, diag.Error)
		return
	}
	force := math.Abs(l.Force)
	yield, factor := steel.Fy*0.90, "0.90"
	if c.t.asd() {
		yield, factor = steel.Fy/1.67, "1/1.67"
	}
	best := check.Utilisation{Place: s.Name, Value: k.Hoop / yield, Mode: "tension beside the bush, " + mpa(k.Hoop),
		Formula: mpa(k.Hoop) + " / (" + factor + " x " + mpa(steel.Fy) + ")"}
	for _, r := range []struct {
		s          link.Strength
		phi, omega string
		mode       string
	}{{k.Plastify, "0.90", "1.67", "yield lines in the sleeve's wall"}, {k.Punch, "0.95", "1.58", "punching of the sleeve's wall"}} {
		if r.s.Nominal == 0 {
			continue
		}
		holds, factor := c.t.of(r.s, r.phi, r.omega)
		if v := force / holds; v > best.Value {
			best.Value, best.Mode = v, r.mode
			best.Formula = kN(force) + " / (" + factor + " x " + kN(r.s.Nominal) + " = " + kN(holds) + ")"
		}
	}
	if len(k.Outside) > 0 {
		best.Mode += " (outside the formulas' limits: " + k.Outside[0] + ")"
	}
	c.use(l, best, "a thicker or longer sleeve")
}

var weldRule = &Rule{check.Check{
	ID: "cope-weld", Severity: diag.Error,
	Title:   "the weld round a tube's end gives way",
	Meaning: "The force along the tube is held to the fillet round its end, with the length where the walls meet at 60 to 120 degrees.",
	Formula: "F <= 0.75 x 0.60 FEXX x 0.707 leg x length (LRFD), / 2.00 (ASD)",
	Source:  "AISC 360-22, J2.4, Eq. J2-3 and Table J2.5",
	Limits:  "Even along the line, which a slanting joint is not; no directional increase; the base metal beside the weld is not looked at.",
}, func(c *run) {
	if c.t.Desc.Weld == nil {
		return
	}
	c.each(func(l *Load, _ link.Steel) {
		for i := range c.t.Ends {
			w := c.t.Ends[i].Weld
			if c.t.Ends[i].Square || w == nil {
				continue
			}
			holds, factor := c.t.of(w.OfFillet, "0.75", "2.00")
			if holds == 0 {
				c.report(diag.Finding{Pos: l.Pos, Features: []string{c.t.Ends[i].Word + " end"}, Got: 0, Want: math.Abs(l.Force) / 1000, Unit: "kN",
					Message: c.t.Ends[i].Word + " end: nowhere do the walls meet at 60 to 120 degrees, so no weld that counts holds the load",
					Fix:     "bring the tube in more steeply", Case: l.Case}, diag.Error)
				continue
			}
			u := check.Utilisation{Place: c.t.Ends[i].Word + " end", Value: math.Abs(l.Force) / holds, Mode: "fillet of " + c.t.text(c.t.Desc.Weld.Leg.MM) + " along " + c.t.text(w.Bands.Fillet)}
			u.Formula = kN(math.Abs(l.Force)) + " / (" + factor + " x " + kN(w.OfFillet.Nominal) + " = " + kN(holds) + ")"
			c.use(l, u, "a larger leg, or a tube that comes in more steeply")
		}
	})
}}
