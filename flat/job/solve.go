package job

import (
	"errors"
	"fmt"

	"blankwright/flat/describe"
	"blankwright/flat/link"
	"blankwright/flat/num"
	"blankwright/flat/strength"
	"blankwright/flat/tube"
	"blankwright/flat/unit"
)

// solve finds the forces in the tubes.
func (m *maker) solve() {
	d := m.d
	if len(d.Loads) == 0 || len(d.Tubes) == 0 {
		return
	}
	t := &link.Truss{}
	used := map[string]bool{}
	for i := range d.Tubes {
		k := &d.Tubes[i]
		if num.Zero(m.j.at(k.To.Text).Sub(m.j.at(k.From.Text)).Len()) {
			m.problems.Add(k.Pos, "tube %s has no length: pivots %s and %s are at one place", k.Name.Text, k.From.Text, k.To.Text)
		}
		used[k.From.Text], used[k.To.Text] = true, true
		t.Members = append(t.Members, link.Member{Name: k.Name.Text, From: k.From.Text, To: k.To.Text, EA: m.stiffness(m.tubeDesc[i])})
	}
	for _, p := range m.j.Pivots { // marks that distances were taken from are no joints
		if used[p.Name] {
			t.Pivots = append(t.Pivots, p)
		}
	}
	for i := range d.Supports {
		s := &d.Supports[i]
		var along []link.Vec
		for _, v := range s.Along {
			along = append(along, vec(v))
		}
		if !used[s.At.Text] {
			m.problems.Add(s.At.Pos, "pivot %s has a support and no tube", s.At.Text)
			continue
		}
		t.Supports = append(t.Supports, link.Support{Pivot: s.At.Text, Along: along})
	}
	m.loadCases(used)
	if len(m.problems) > 0 {
		return
	}
	s, err := t.Solve(m.j.Cases)
	if err != nil {
		pos := d.Pos
		var loose *link.MechanismError
		if errors.As(err, &loose) && len(d.Supports) > 0 {
			pos = d.Supports[0].Pos
		}
		m.problems.Add(pos, "%s", m.words(err))
		return
	}
	m.j.Solution = s
	m.assume("pivots turn freely, tubes carry force along themselves only, deflections are small")
	if s.Redundant > 0 {
		m.assume(fmt.Sprintf("%d more tubes or supports than equilibrium needs: stiffness shares the forces out, supports do not give", s.Redundant))
	}
}

func (m *maker) assume(text string) {
	for _, a := range m.j.Assumed {
		if a == text {
			return
		}
	}
	m.j.Assumed = append(m.j.Assumed, text)
}

// stiffness is a tube's section times its modulus, N.
func (m *maker) stiffness(d *describe.Tube) float64 {
	return tube.ElasticModulus * link.SectionOf(tubeOf(d)).Area
}

// loadCases puts the loads together by their cases.
func (m *maker) loadCases(used map[string]bool) {
	at := map[string]int{}
	for i := range m.d.Loads {
		l := &m.d.Loads[i]
		if !used[l.At.Text] {
			m.problems.Add(l.At.Pos, "pivot %s has a load and no tube", l.At.Text)
			continue
		}
		n, ok := m.force(l)
		if !ok {
			continue
		}
		factor := 1.0
		words := ""
		if l.Factor.Set {
			factor = l.Factor.V
			words = fmt.Sprintf(" x %g", factor)
		}
		f := vec(l.Direction).Unit().Mul(n * factor)
		m.assume(fmt.Sprintf("case %q: %s%s on pivot %s along %s", l.Case.Text, kN(n), words, l.At.Text, direction(l.Direction)))
		if !l.Factor.Set {
			m.assume("loads without a factor are taken as they are")
		}
		c, ok := at[l.Case.Text]
		if !ok {
			c = len(m.j.Cases)
			at[l.Case.Text] = c
			m.j.Cases = append(m.j.Cases, link.Case{Name: l.Case.Text})
		}
		m.j.Cases[c].Loads = append(m.j.Cases[c].Loads, link.Load{Pivot: l.At.Text, Force: f})
	}
}

// direction writes a direction in words.
func direction(v describe.Vector) string {
	u := vec(v).Unit()
	for _, a := range [3]struct {
		v        float64
		pos, neg string
	}{{u.X, "forward", "backward"}, {u.Y, "left", "right"}, {u.Z, "up", "down"}} {
		switch {
		case num.SameAngle(a.v, 1):
			return a.pos
		case num.SameAngle(a.v, -1):
			return a.neg
		}
	}
	return fmt.Sprintf("(%s forward, %s left, %s up)", num.Short(u.X, 3), num.Short(u.Y, 3), num.Short(u.Z, 3))
}

func kN(n float64) string { return num.Short(n/1000, 2) + " kN" }

// force is what a load is before its factor, N.
func (m *maker) force(l *describe.JobLoad) (float64, bool) {
	if !l.From.Set {
		return l.Force.N, true
	}
	a := m.d.Axle
	u := strength.Metric
	if m.d.Units == unit.Inch {
		u = strength.Inch
	}
	note := func(v strength.Derived) {
		m.assume(v.What + ": " + v.Formula(u))
		for _, s := range v.Assumptions() {
			m.assume(s)
		}
	}
	var torque strength.Derived
	switch l.From.Text {
	case "drive":
		torque = strength.MotorTorque(a.Motor.NMM, a.Ratio.V, a.Efficiency.V)
		if a.Load.Set && a.Grip.Set && a.Tyre.Set {
			torque = strength.DriveTorque(torque, strength.TractionTorque(a.Grip.V, a.Load.N, a.Tyre.MM))
		}
	case "traction":
		torque = strength.TractionTorque(a.Grip.V, a.Load.N, a.Tyre.MM)
	default:
		torque = strength.BrakeTorque(a.Grip.V, a.Load.N, a.Tyre.MM)
	}
	note(torque)
	var f strength.Derived
	if a.Link.Arm.Set {
		f = strength.OneLink(torque.V, a.Link.Arm.MM)
	} else {
		fx := strength.TyreForce(torque.V, a.Tyre.MM)
		note(fx)
		lower, upper := strength.TwoLinks(fx.V, a.Tyre.MM, a.Link.Above.MM, a.Link.Below.MM)
		if f = lower; l.Link.Text == "upper" {
			f = upper
		}
	}
	note(f)
	if !num.Finite(f.V) || f.V == 0 {
		m.problems.Add(l.From.Pos, "the axle gives no force that can be worked with")
		return 0, false
	}
	return f.V, true
}
