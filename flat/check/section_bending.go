package check

import (
	"math"
	"slices"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/strength"
)

var sectionBending = &Check{
	ID:       "section-bending",
	Severity: diag.Error,
	strength: true,
	Title:    "the plate holds less at a section through a hole than its loads",
	Meaning: "Between the weld and the loads every opening weakens the plate. The section is cut parallel to the weld through the middle of each opening, " +
		"from the true outline, with all openings that it meets. A plate that bolts hold against a load beside them (`at: [x, y]` with `on:`) is cut through each of " +
		"their rows and each opening out to the load, square to the way from the bolts' middle to it.",
	Formula: "as weld-line-bending, with the net section: Mc of Fy Z <= 1.5 Fy S, of Fu Z (phi 0.75) and, from edge to edge, of F11; Vc the lesser of 0.60 Fy A (phi 1.00) and 0.60 Fu A (phi 0.75)",
	Source:  "AISC 360-22 J4.1, J4.2, J4.5; B. Dowswell, AISC Engineering Journal 52(1), 2015; EN 1993-1-1:2005 6.2.1(5), eq. 6.1",
	Limits: "Needs welds along one line, or bolts that hold a load at a place, to know where the plate is held and loaded. At an inner row of bolts what the rows before it " +
		"have taken counts. Sections at other angles and through necks without an opening are not looked at; nor is a moment on bolts without a place.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() && len(c.cases) > 0 && len(c.Blank.Welds) > 0 {
			if at, dir, ok := c.heldAt(); ok {
				c.sections(at, dir)
			}
		}
		if c.steel() && c.whole() {
			for i := range c.groups {
				if g := &c.groups[i]; g.offset && g.load.Placed && !g.load.Pin {
					c.cantilever(g)
				}
			}
		}
		c.tellHeld(from, c.thicker)
	},
}

// cantilever weighs the sections of a plate between the bolts that hold it and a load
// beside them.
func (c *Context) cantilever(g *group) {
	if g.err != nil {
		return // bolt-group tells
	}
	var mid geom.Point
	for _, p := range g.bolts {
		mid = mid.Add(p.Mul(1 / float64(len(g.bolts))))
	}
	out := g.load.At.Sub(mid)
	l := out.Len()
	if num.Zero(l) {
		return
	}
	u := out.Mul(1 / l)
	dir := u.Perp().Mul(-1) // the load to its left
	region := c.metal()
	var done []float64
	near := math.Inf(1)
	for _, p := range g.bolts {
		near = min(near, u.Dot(p))
	}
	for i := range c.openings {
		o := &c.openings[i]
		v := u.Dot(o.at)
		if v < near-num.OnEdge || v > u.Dot(g.load.At)-num.OnEdge ||
			slices.ContainsFunc(done, func(w float64) bool { return math.Abs(w-v) <= num.OnEdge }) {
			continue
		}
		done = append(done, v)
		load, away := c.beyondBolts(g, u, v)
		h := held{title: "the section through " + hole(o), name: o.hole.Name, place: setName(o), set: setName(o), pos: o.hole.Pos, at: o.at, in: g.in}
		k := c.cutAt(region, o.at, dir)
		if !(k.s.Area > 0) {
			c.cannot(h, errNoMetal)
			continue
		}
		r := c.bendUnder(&k, load, away)
		h.ratio, h.v = &r, c.bendShare(&r)
		c.weigh(h)
	}
}

// beyondBolts is what acts on a plate beyond a line v along u: the loads of the case that
// the bolts of a group hold there, less what the bolts beyond the line take of them; and
// how far the farthest of the loads lies from the line.
func (c *Context) beyondBolts(g *group, u geom.Point, v float64) (sum strength.PlaneLoad, away float64) {
	for i := range c.groups {
		k := &c.groups[i]
		if k.err != nil || k.in != g.in || !k.load.Placed || k.load.Pin || !slices.Equal(k.os, g.os) {
			continue
		}
		far := u.Dot(k.load.At) - v
		if far <= num.OnEdge {
			continue
		}
		away = max(away, far)
		sum.F = sum.F.Add(k.plane.F)
		sum.M += k.plane.At.Cross(k.plane.F) + k.plane.M
		forces := k.forces(c.method.eurocode)
		for j, p := range k.bolts {
			if u.Dot(p) > v+num.OnEdge {
				sum.M -= p.Cross(forces[j])
				sum.F = sum.F.Sub(forces[j])
			}
		}
	}
	return sum, away
}

// sections weighs the sections through openings, one for those on one line.
func (c *Context) sections(at, dir geom.Point) {
	region := c.metal()
	var done []float64 // how far from the weld
	for i := range c.openings {
		o := &c.openings[i]
		d := dir.Cross(o.at.Sub(at))
		if d <= 0 || num.Zero(d) {
			continue
		}
		// One section for openings whose lines lie within num.OnEdge.
		if slices.ContainsFunc(done, func(v float64) bool { return math.Abs(v-d) <= num.OnEdge }) {
			continue
		}
		done = append(done, d)
		k := c.cutAt(region, o.at, dir)
		for j := range c.cases {
			r, ok := c.bend(&k, &c.cases[j])
			if !ok || !(k.s.Area > 0) {
				continue
			}
			h := held{title: "the section through " + hole(o), name: o.hole.Name, place: o.hole.Name, set: o.hole.Name, pos: o.hole.Pos,
				at: o.at, in: &c.cases[j], ratio: &r, v: c.bendShare(&r)}
			c.weigh(h)
		}
	}
}
