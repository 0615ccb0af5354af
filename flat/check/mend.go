package check

import (
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// shortfall is how far, mm, and in which direction (a unit vector) an opening
// has to go to meet what governs it; by nothing or less where it meets all.
type shortfall struct {
	by  float64
	dir geom.Point
}

// worse keeps the larger of two shortfalls.
func (s *shortfall) worse(t shortfall) {
	if t.by > s.by {
		*s = t
	}
}

// met reports whether nothing is left to mend.
func (s shortfall) met() bool { return num.AtLeast(0, s.by) }

// noShortfall is where to begin before any is known.
func noShortfall() shortfall { return shortfall{by: math.Inf(-1)} }

// halfPlane holds the moves m with n·m >= s.
type halfPlane struct {
	n geom.Point
	s float64
}

// mostCuts bounds the work on one move; two or three cuts are usual.
const mostCuts = 24

// shortest is the shortest move that lies in all half planes: nothing, the foot
// on one border, or the meeting of two. ok is false where there is none no
// longer than limit, mm.
func shortest(hs []halfPlane, limit float64) (best geom.Point, ok bool) {
	length := limit
	try := func(m geom.Point) {
		if l := m.Len(); l < length {
			for _, h := range hs {
				if !num.AtLeast(h.n.Dot(m), h.s) {
					return
				}
			}
			best, length, ok = m, l, true
		}
	}
	try(geom.Point{})
	for i, h := range hs {
		try(h.n.Mul(h.s))
		for _, k := range hs[:i] {
			// Cramer's rule; parallel borders give no finite point.
			d := h.n.Cross(k.n)
			try(geom.Point{
				X: (float64(h.s*k.n.Y) - float64(k.s*h.n.Y)) / d,
				Y: (float64(h.n.X*k.s) - float64(k.n.X*h.s)) / d,
			})
		}
	}
	return best, ok
}

// nudge finds a short move after which worst finds nothing left to mend: each
// time the worst shortfall at the place reached is taken as a straight border,
// and the shortest move past all borders met so far is tried (cutting planes:
// J. E. Kelley, The cutting-plane method for solving convex programs, Journal of
// the SIAM 8, 1960, DOI 10.1137/0108053). Straight edges and round ends give the
// shortest move there is, inside corners and round openings one a little longer.
// The move is rounded out to a step that can be written in the file, and
// measured again. ok is false where no move was found.
func (c *Context) nudge(o *opening, worst func(*opening) shortfall) (m geom.Point, ok bool) {
	var buf [4]halfPlane
	cuts := buf[:0]
	limit := c.farthest(o)
	for range mostCuts {
		t := o.moved(m)
		s := worst(&t)
		if s.met() {
			return c.rounded(o, m, worst)
		}
		if s.dir == (geom.Point{}) {
			return geom.Point{}, false
		}
		cuts = append(cuts, halfPlane{s.dir, s.dir.Dot(m) + s.by})
		if m, ok = shortest(cuts, limit); !ok {
			return geom.Point{}, false
		}
	}
	return geom.Point{}, false
}

// farthest is how far an opening may have to go to any place of the plate, mm.
func (c *Context) farthest(o *opening) float64 {
	b := c.outline.bounds
	x := max(math.Abs(b.Min.X-o.at.X), math.Abs(b.Max.X-o.at.X))
	y := max(math.Abs(b.Min.Y-o.at.Y), math.Abs(b.Max.Y-o.at.Y))
	return geom.Point{X: x, Y: y}.Len()
}

// rounded is a move near m, in whole steps along both axes, that still mends:
// outward first, else to every side.
func (c *Context) rounded(o *opening, m geom.Point, worst func(*opening) shortfall) (geom.Point, bool) {
	step := c.step()
	mends := func(x, y float64) (geom.Point, bool) {
		p := geom.Point{X: x * step, Y: y * step}
		t := o.moved(p)
		return p, worst(&t).met()
	}
	x, y := m.X/step, m.Y/step
	if p, ok := mends(outward(x), outward(y)); ok {
		return p, true
	}
	best, found := geom.Point{}, false
	for dx := -1.0; dx <= 2; dx++ {
		for dy := -1.0; dy <= 2; dy++ {
			p, ok := mends(math.Floor(x)+dx, math.Floor(y)+dy)
			if ok && (!found || p.Len() < best.Len()) {
				best, found = p, true
			}
		}
	}
	return best, found
}

// outward rounds to a whole number away from nothing; what is whole but for
// rounding errors stays.
func outward(v float64) float64 {
	n := math.Round(v)
	if num.Same(n, v) {
		return n
	}
	return math.Copysign(math.Ceil(math.Abs(v)), v)
}

// step is the last decimal of a length as it is told to people: 0.01 mm, or
// 0.001 in.
func (c *Context) step() float64 {
	if c.units == unit.Inch {
		return unit.MM / 1000
	}
	return 0.01
}

// up rounds a length up to a step, down rounds it down.
func (c *Context) up(mm float64) float64 { return outward(mm/c.step()) * c.step() }

func (c *Context) down(mm float64) float64 {
	n := mm / c.step()
	if r := math.Round(n); num.Same(r, n) {
		return r * c.step()
	}
	return math.Floor(n) * c.step()
}

// mostLooks bounds the pairs looked at for suggestions on one part. A part that
// needs more has thousands of openings on top of each other; those found after
// that are told without a move.
const mostLooks = 4_000_000

// relocate suggests a new place for an opening that falls short by one rule:
// the shortest move that mends all distances round it, else the shortest that
// mends this one, if that leaves no other worse than the worst there was. A suggested place is always inside the plate. ok is false where there
// is no such place, or no whole outline to be inside of.
func (c *Context) relocate(o *opening, worst func(*opening) shortfall) (ch Change, ok bool) {
	if c.looks > mostLooks || !c.whole() {
		return Change{}, false
	}
	inside := func(t *opening) shortfall {
		s := worst(t)
		s.worse(c.edgeRoom(t, num.Coincident))
		return s
	}
	// What all rules on distances ask first, so that two findings on one hole do
	// not send it two ways.
	if m, ok := c.nudge(o, func(t *opening) shortfall {
		s := inside(t)
		s.worse(c.worstRound(t))
		return s
	}); ok {
		return c.moveBy(o, m), true
	}
	m, ok := c.nudge(o, inside)
	if !ok {
		return Change{}, false
	}
	t := o.moved(m)
	if after := c.worstRound(&t); after.met() || num.AtMost(after.by, c.worstRound(o).by) {
		return c.moveBy(o, m), true
	}
	return Change{}, false
}

// worstRound is the worst shortfall of an opening by any rule on distances.
func (c *Context) worstRound(o *opening) shortfall {
	s := c.webShortfall(o)
	s.worse(c.bendShortfall(o))
	if o.bolted() {
		s.worse(c.edgeShortfall(o))
		s.worse(c.spacingShortfall(o))
	}
	return s
}

// edgeRoom is what an opening lacks to leave so much metal to the outline.
func (c *Context) edgeRoom(o *opening, room float64) shortfall {
	if !c.whole() {
		return noShortfall()
	}
	if o.cut != nil {
		c.looks += len(o.cut.Loop)
	}
	n := c.outline.nearest(o, o.half)
	return shortfall{room + o.r - n.D, c.outline.outward(n).Mul(-1)}
}

// openingRoom is what an opening lacks to leave so much metal to another one.
func openingRoom(o, p *opening, room float64) shortfall {
	n := between(o, o.half, p)
	return shortfall{room + o.r + p.r - n.D, away(o, p, n)}
}

// away is the direction in which o goes from p: from the nearest places of
// their axes, where these cross from p's middle, and to the right where even
// the middles fall together.
func away(o, p *opening, n geom.Near) geom.Point {
	d := n.P.Sub(n.Q)
	if d.Len() <= num.Coincident {
		d = o.at.Sub(p.at)
	}
	if d.Len() <= num.Coincident {
		return geom.Point{X: 1}
	}
	return d.Mul(1 / d.Len())
}

// moveBy is the change that moves an opening.
func (c *Context) moveBy(o *opening, m geom.Point) Change {
	text := "move " + name(o.hole) + " by "
	x, y, names, flange := c.inPanel(o.hole, m)
	if !flange && c.Blank.Hand == blank.Mirrored {
		x = -x
	}
	first := true
	for _, p := range [2]struct {
		axis string
		by   float64
	}{{names[0], x}, {names[1], y}} {
		if num.Zero(p.by) {
			continue
		}
		if !first {
			text += ", "
		}
		first = false
		text += p.axis + " "
		if p.by > 0 {
			text += "+"
		}
		text += c.len(p.by)
	}
	if flange {
		text += " on its flange"
	} else if c.Blank.Hand == blank.Mirrored {
		text += " in the file (this is the mirrored hand)"
	}
	return Change{Kind: Move, Hole: o.hole.Name, By: diag.Place{X: m.X, Y: m.Y}, Text: text}
}
