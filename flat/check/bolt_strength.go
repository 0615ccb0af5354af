package check

import (
	"blankwright/flat/strength"
	"blankwright/profiles"
)

// boltStrength is what the bolts of one hole hold by the method of the file. why
// says why nothing can be worked out, "" where it can.
type boltStrength struct {
	bolt   *profiles.Bolt
	stress strength.BoltStress
	en     strength.ENBolt
	why    string
}

// strengthOf looks a hole's bolt up, once for equal neighbours.
func (c *Context) strengthOf(o *opening) *boltStrength {
	b := o.hole.Bolt
	if c.bolt.bolt == b {
		return &c.bolt
	}
	c.bolt = boltStrength{bolt: b}
	s, err := profiles.StrengthOf(*b)
	if err != nil {
		c.bolt.why = err.Error()
		return &c.bolt
	}
	c.bolt.stress = strength.BoltStress{Tension: s.Fnt, ShearThread: s.FnvN, ShearShank: s.FnvX}
	if !c.method.eurocode {
		return &c.bolt
	}
	k := strength.ENBolt{D: b.D}
	k.As, _ = profiles.StressArea(*b)
	var ok, okAlpha bool
	k.Fub, ok = strength.NominalFub(b.Grade)
	k.AlphaV, okAlpha = strength.AlphaV(b.Grade)
	if !ok || !okAlpha {
		c.bolt.why = "EN 1993-1-8 does not provide for bolts of " + b.Grade
	}
	c.bolt.en = k
	return &c.bolt
}

// planesOf counts the shear planes of a bolt.
func planesOf(d *demand) strength.Planes {
	if d.threads {
		return strength.Planes{Thread: d.planes}
	}
	return strength.Planes{Shank: d.planes}
}

// shearOf is the shear resistance of the bolt in a hole.
func (c *Context) shearOf(d *demand) (strength.Result, bool) {
	if !d.o.bolted() {
		return strength.Result{}, false
	}
	k := c.strengthOf(d.o)
	if k.why != "" {
		return strength.Result{}, false
	}
	r := c.method.aisc.BoltShear(k.bolt.D, k.stress, planesOf(d))
	if c.method.eurocode {
		r = c.method.en.BoltShear(k.en, planesOf(d))
		if s := strength.SmallBoltClearance(k.bolt.D, d.o.hole.Dia); s < 1 {
			r = r.Reduced(s, "in a hole of more than 1 mm clearance", strength.SmallClearanceClause)
		}
	}
	if s, clause := c.longJoint(d, k.bolt.D); s < 1 {
		r = r.Reduced(s, "in a long joint", clause)
	}
	return r, true
}

// longJoint is the share of its shear strength that a bolt has by the length of its joint.
func (c *Context) longJoint(d *demand, dia float64) (share float64, clause strength.Clause) {
	if !c.method.eurocode {
		return c.method.aisc.LongPattern(d.long)
	}
	return strength.LongJoint(d.long, dia), strength.LongJointClause
}

// pullOf is the tension resistance of the bolt in a hole.
func (c *Context) pullOf(d *demand) (strength.Result, bool) {
	if !d.o.bolted() {
		return strength.Result{}, false
	}
	k := c.strengthOf(d.o)
	switch {
	case k.why != "":
		return strength.Result{}, false
	case c.method.eurocode:
		return c.method.en.BoltTension(k.en), true
	}
	return c.method.aisc.BoltTension(k.bolt.D, k.stress), true
}
