package check

import (
	"slices"

	"blankwright/flat/diag"
	"blankwright/flat/strength"
)

var boltGroup = &Check{
	ID:       "bolt-group",
	Severity: diag.Error,
	strength: true,
	Title:    "a group of bolts holds less than a load beside its middle",
	Meaning: "A load that misses the middle of its bolts (`at: [x, y]` with `on:`, or `moment:`) turns the plate as well: the bolts far out " +
		"take more than their part. Under a load through the middle every bolt counts whole, and bolt-shear tells.",
	Formula: "aisc 360: instantaneous centre of rotation, P <= C phi rn, R = Rult (1 - e^(-10 D))^0.55, D up to 0.34 in at the farthest bolt\n" +
		"en 1993-1-8: elastic, F/n and M r/sum r^2 on each bolt; the largest <= Fv,Rd",
	Source: "AISC Manual Part 7, eq. 7-1; EN 1993-1-8:2005 3.12; Shigley's Mechanical Engineering Design, 9th ed., 8-12, for the elastic method",
	Limits: "Bolts of one size, bearing-type joint, a plate stiff beside its bolts. Bearing and tear-out are asked of each bolt with its part of the load.",
	Run: func(c *Context) {
		from := len(c.held)
		for i := range c.groups {
			g := &c.groups[i]
			if !g.offset || g.load.Pin {
				continue
			}
			c.groupOf(g)
		}
		c.tellHeld(from, func(h *held) []Change { return remedies(c.stronger(h), c.larger(h)) })
	},
}

func (c *Context) groupOf(g *group) {
	load := g.centre.Needed
	if c.method.eurocode {
		load = g.shared.Most
	}
	if g.err != nil {
		c.cannotShare(g, g.err)
		return
	}
	// The first of the weakest bolts stands for all of them.
	var d demand
	var r strength.Result
	found := false
	long := 0.0
	if size := g.load.Force.Len(); size > 0 {
		long = spread(g.os, g.load.Force.Mul(1/size))
	}
	for _, o := range g.os {
		k := demand{o: o, in: g.in, planes: g.load.Planes, threads: g.load.Threads, long: long}
		if q, ok := c.shearOf(&k); ok && (!found || q.Design < r.Design) {
			d, r, found = k, q, true
		}
	}
	if !found {
		return
	}
	h := ofHole(&d)
	h.title = "the group of " + list(g.os)
	h.load, h.result, h.v = load, r, r.Utilisation(load)
	if !c.method.eurocode {
		h.result.Mode = "the bolt farthest from the instantaneous centre (the most that a bolt gets, over the 0.9815 of its strength that it reaches at 0.34 in)"
	} else {
		h.result.Mode = "the bolt that the elastic method gives most"
	}
	for i := range c.demands {
		if k := &c.demands[i]; k.in == g.in && slices.Contains(g.os, k.o) {
			k.seen = true
		}
	}
	c.weigh(h)
}

// cannotShare notes that a load could not be shared among its bolts.
func (c *Context) cannotShare(g *group, err error) {
	h := ofHole(&demand{o: g.os[0], in: g.in})
	h.title, h.d = g.load.Name+" on "+list(g.os), nil
	h.pos, h.at = g.load.Pos, g.plane.At
	c.cannot(h, err)
}
