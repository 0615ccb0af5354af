package check

import (
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/strength"
)

var weldStrength = &Check{
	ID:       "weld-strength",
	Severity: diag.Error,
	strength: true,
	Title:    "a weld holds less than what the loads put on it",
	Meaning: "All welds together hold what acts on the plate, as lines of one throat: the force evenly over the length, the moment in proportion to " +
		"the distance from the middle of the welds. The place that gets most is held against the weld's throat and against the plate beside it.",
	Formula: "f = F/L + M r/J at the worst place, L and J of the welds that count, both sides\n" +
		"aisc 360: Rn = 0.60 FEXX leg/sqrt 2 per mm, phi 0.75, omega 2.00; the plate beside it 0.60 Fu t against the force along the weld\n" +
		"en 1993-1-8: Fw,Rd = fu/sqrt 3/(beta_w gM2) a per mm, the simplified method",
	Source: "AISC 360-22 J2.4, eq. J2-4, J4.2, eq. J4-4; EN 1993-1-8:2005 4.5.3.3; AISC Manual Part 8, elastic method; O. W. Blodgett, Design of Welded Structures, 1966",
	Limits: "Loads in the plane of the plate only: what pulls out of it is not put on the welds, and a warning says so. Of welds that are not alike the one " +
		"that holds least by leg and electrode stands for all. No credit " +
		"for force across a weld. The part that the plate is welded to, heat, distortion and the weld's quality are not looked at. For a plate of no EN grade " +
		"beta_w is that of the grade next in strength.",
	Run: func(c *Context) {
		from := len(c.held)
		if len(c.Blank.Welds) > 0 && c.steel() {
			for k := range c.cases {
				c.weldCase(&c.cases[k])
			}
		}
		c.tellHeld(from, c.moreWeld)
	},
}

// moreWeld suggests a larger leg, the other side of the plate, both together, and the
// same of every weld; thicker plate where that is what gives way.
func (c *Context) moreWeld(h *held) []Change {
	w, _ := c.weakestWeld()
	most := max(2*w.Leg, 1.5*c.Blank.Thickness)
	changes := c.leg(h.set, w.Leg, most, func(to float64) Change {
		return Change{Kind: WeldLeg, Hole: w.Name, To: to, Text: "make the leg of " + quoted(w.Name) + " " + c.len(to)}
	})
	oneSided := false
	for i := range c.Blank.Welds {
		w := &c.Blank.Welds[i]
		if w.Sides == 2 {
			continue
		}
		oneSided = true
		ch := Change{Kind: WeldBoth, Hole: w.Name, Text: "weld " + quoted(w.Name) + " on both sides"}
		if c.after(ch, h.set) && c.sound(ch) {
			changes = append(changes, ch)
			break
		}
	}
	if len(changes) == 0 && len(c.Blank.Welds) > 1 {
		changes = c.leg(h.set, w.Leg, most, func(to float64) Change {
			return Change{Kind: WeldLeg, To: to, Text: "make the leg of every weld " + c.len(to)}
		})
	}
	if len(changes) == 0 && oneSided {
		name, of := "", "every weld"
		if len(c.Blank.Welds) == 1 {
			name, of = w.Name, quoted(w.Name)
		}
		changes = c.leg(h.set, w.Leg, most, func(to float64) Change {
			return Change{Kind: WeldLeg, Hole: name, To: to, Word: bothSides, Text: "make the leg of " + of + " " + c.len(to) + " and weld on both sides"}
		})
	}
	if len(changes) == 0 {
		return c.thicker(h)
	}
	return changes
}

func (c *Context) weldCase(in *loadCase) {
	lines := c.weldLines()
	w, throat := c.weakestWeld()
	if out := pullOf(in); out != nil {
		c.pulledOut(in, out, w)
	}
	if in.all.F == (geom.Point{}) && in.all.M == 0 {
		return
	}
	h := ofWeld(w, in)
	f, err := strength.ElasticWeld(lines, strength.SpaceLoad{F: in.all.F, Torsion: in.all.M})
	if err != nil {
		c.cannot(h, err)
		return
	}
	in.seen = true
	peak := f.Peak(lines)
	sides := 0
	for i := range c.Blank.Welds {
		sides = max(sides, c.Blank.Welds[i].Sides)
	}
	t, m := c.Blank.Thickness, &c.Blank.Material
	plate := c.method.aisc.ShearRupture(m.Fu, t)
	if c.method.eurocode {
		plate = c.method.en.ShearNet(m.Fu, t)
	}
	plate.Kind = strength.PerMM
	plate.Mode = "shear rupture of the plate beside the weld, per mm"
	h.at = peak.At
	h.load, h.result, h.v = peak.Most, throat, throat.Utilisation(peak.Most)
	if both := peak.Along * float64(sides); plate.Utilisation(both) > h.v {
		h.load, h.result, h.v = both, plate, plate.Utilisation(both)
	}
	c.weigh(h)
}

// pullOf is the first load of a case that pulls the plate out of its plane.
func pullOf(in *loadCase) *blank.Load {
	for _, l := range in.loads {
		if l.Tension != 0 {
			return l
		}
	}
	return nil
}

// pulledOut warns that welds and plate are not held against what pulls out of the plane.
func (c *Context) pulledOut(in *loadCase, l *blank.Load, w *blank.Weld) {
	if c.quiet {
		return
	}
	u := c.method.units
	f := diag.Finding{Pos: l.Pos, Features: []string{w.Name}, Where: at(l.At), Case: in.name,
		Message: l.Name + " pulls the plate out of its plane by " + strength.Force.Text(l.Tension, u) +
			", and neither the welds nor the plate beside them were held against that: bent that way a plate is weakest",
		Fix: "have the bending out of the plane and its welds computed by hand, or brace the plate against it"}
	c.ReportAs(diag.Warning, f)
}

// perMM is the resistance of a run of weld for each mm of it.
func perMM(r strength.Result, run float64) strength.Result {
	r.Nominal, r.Design, r.Kind = r.Nominal/run, r.Design/run, strength.PerMM
	r.Mode += ", per mm"
	return r
}

// betaW is the correlation factor of a plate's grade; for other grades that of the
// EN grade that is no weaker.
func betaW(name string, fu float64) float64 {
	for _, g := range [...]string{"S235", "S275", "S355", "S420", "S460"} {
		if strings.HasPrefix(name, g) {
			if v, ok := strength.BetaW(g); ok {
				return v
			}
		}
	}
	grade := "S460"
	switch {
	case fu <= 360:
		grade = "S235"
	case fu <= 430:
		grade = "S275"
	case fu <= 510:
		grade = "S355"
	}
	v, _ := strength.BetaW(grade)
	return v
}
