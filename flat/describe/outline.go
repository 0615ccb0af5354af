package describe

import (
	"math"
	"slices"
)

var outlineKeys = mapping[Shape]{"the outline", []field[Shape]{
	{"tangent", false, func(r *reader, n *node, s *Shape) { s.Tangent = r.tangent(n) }},
	{"corners", false, func(r *reader, n *node, s *Shape) { s.Corners = r.corners(n) }},
	{"rectangle", false, func(r *reader, n *node, s *Shape) { s.Rectangle = r.rectangle(n) }},
	{"disc", false, func(r *reader, n *node, s *Shape) { s.Disc = r.disc(n) }},
	{"ring", false, func(r *reader, n *node, s *Shape) { s.Ring = r.ring(n) }},
	{"gusset", false, func(r *reader, n *node, s *Shape) { s.Gusset = r.gusset(n) }},
	{"link plate", false, func(r *reader, n *node, s *Shape) { s.LinkPlate = r.linkPlate(n) }},
}}

func (r *reader) outline(n *node) Shape {
	s := Shape{Pos: r.pos(n)}
	if found, ok := readMapping(r, n, &outlineKeys, &s); ok {
		r.exactlyOne(n, "the outline", &found, outlineKeys.keys()...)
	}
	return s
}

var bossKeys = mapping[Boss]{"a boss", []field[Boss]{
	{"hole", false, func(r *reader, n *node, b *Boss) { b.Hole = r.holeRef(n) }},
	{"at", false, func(r *reader, n *node, b *Boss) { p := r.point(n); b.At = &p }},
	{"radius", false, func(r *reader, n *node, b *Boss) { b.Radius = r.positive(n) }},
	{"hollow", false, func(r *reader, n *node, b *Boss) { b.Hollow = r.flag(n) }},
	{"waist", false, func(r *reader, n *node, b *Boss) { b.Waist = r.positive(n) }},
}}

// holeRef reads a word that names one hole.
func (r *reader) holeRef(n *node) Word {
	w := r.word(n)
	if w.Set {
		r.refs = append(r.refs, ref{w, true})
	}
	return w
}

func (r *reader) tangent(n *node) []Boss {
	if !r.list(n, 2, "bosses like {hole: pivot, radius: 1}") {
		return nil
	}
	bosses := make([]Boss, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		b, found, ok := r.boss(item)
		if b.Hollow.Yes && b.Waist.Set {
			r.addHint(b.Waist.Pos, "keep one of them", "a boss is hollow and has a waist")
		}
		if ok && !found.has("radius") {
			r.addHint(b.Pos, "add radius:", "a boss has no radius")
		}
		bosses = append(bosses, b)
	}
	if len(bosses) > 0 && !slices.ContainsFunc(bosses, func(b Boss) bool { return !b.Hollow.Yes }) {
		r.addHint(r.pos(n), "the belt needs bosses to lie round", "all bosses are hollow")
	}
	return bosses
}

func (r *reader) boss(n *node) (Boss, seen, bool) {
	r.key, r.keyNode = "a boss", nil
	b := Boss{Pos: r.pos(n)}
	found, ok := readMapping(r, n, &bossKeys, &b)
	if ok {
		r.exactlyOne(n, "a boss", &found, "hole", "at")
	}
	return b, found, ok
}

var cornerKeys = mapping[Corner]{"a corner", []field[Corner]{
	{"at", true, func(r *reader, n *node, c *Corner) { c.At = r.point(n) }},
	{"radius", false, func(r *reader, n *node, c *Corner) { c.Radius = r.notNegative(n) }},
	{"chamfer", false, func(r *reader, n *node, c *Corner) { c.Chamfer = r.notNegative(n) }},
}}

func (r *reader) corners(n *node) []Corner {
	if !r.list(n, 3, "corners like {at: [0, 0], radius: 1/4} or [0, 0]") {
		return nil
	}
	corners := make([]Corner, n.kids)
	item := n.first
	for i := range corners {
		c := &corners[i]
		c.Pos = r.pos(item)
		r.key, r.keyNode = "a corner", nil
		if item.kind == listKind {
			c.At = r.point(item)
		} else if found, ok := readMapping(r, item, &cornerKeys, c); ok && found.n > 2 {
			r.atMostOne("a corner", &found, "radius", "chamfer")
		}
		item = item.next
	}
	return corners
}

var rectangleKeys = mapping[Rectangle]{"a rectangle", []field[Rectangle]{
	{"at", false, func(r *reader, n *node, q *Rectangle) { q.At = r.point(n) }},
	{"width", true, func(r *reader, n *node, q *Rectangle) { q.Width = r.positive(n) }},
	{"height", true, func(r *reader, n *node, q *Rectangle) { q.Height = r.positive(n) }},
	{"radius", false, func(r *reader, n *node, q *Rectangle) { q.Radius = r.notNegative(n) }},
	{"chamfer", false, func(r *reader, n *node, q *Rectangle) { q.Chamfer = r.notNegative(n) }},
}}

func (r *reader) rectangle(n *node) *Rectangle {
	q := &Rectangle{Pos: r.pos(n)}
	if found, ok := readMapping(r, n, &rectangleKeys, q); ok {
		r.atMostOne("a rectangle", &found, "radius", "chamfer")
	}
	return q
}

var discKeys = mapping[Disc]{"a disc", []field[Disc]{
	{"at", false, func(r *reader, n *node, d *Disc) { d.At = r.point(n) }},
	{"diameter", true, func(r *reader, n *node, d *Disc) { d.Diameter = r.positive(n) }},
}}

func (r *reader) disc(n *node) *Disc {
	d := &Disc{Pos: r.pos(n)}
	readMapping(r, n, &discKeys, d)
	return d
}

var ringKeys = mapping[Ring]{"a ring", []field[Ring]{
	{"at", false, func(r *reader, n *node, g *Ring) { g.At = r.point(n) }},
	{"outside", true, func(r *reader, n *node, g *Ring) { g.Outside = r.positive(n) }},
	{"inside", true, func(r *reader, n *node, g *Ring) { g.Inside = r.positive(n) }},
}}

func (r *reader) ring(n *node) *Ring {
	g := &Ring{Pos: r.pos(n)}
	readMapping(r, n, &ringKeys, g)
	if g.Inside.Set && g.Outside.Set && g.Inside.MM > 0 && g.Outside.MM > 0 && g.Inside.MM >= g.Outside.MM {
		r.addHint(g.Inside.Pos, "both are diameters", "the inside of the ring is no smaller than its outside")
	}
	return g
}

var gussetKeys = mapping[Gusset]{"a gusset", []field[Gusset]{
	{"at", false, func(r *reader, n *node, g *Gusset) { g.At = r.point(n) }},
	{"legs", true, func(r *reader, n *node, g *Gusset) { g.Legs = r.pair(n, r.positive) }},
	{"angle", false, func(r *reader, n *node, g *Gusset) { g.Angle = r.legAngle(n) }},
	{"toes", false, func(r *reader, n *node, g *Gusset) { g.Toes = r.pair(n, r.notNegative) }},
	{"snipe", false, func(r *reader, n *node, g *Gusset) { g.Snipe = r.notNegative(n) }},
	{"snipe kind", false, func(r *reader, n *node, g *Gusset) { g.SnipeKind = r.choice(n, "straight", "round") }},
	{"hollow", false, func(r *reader, n *node, g *Gusset) { g.Hollow = r.positive(n) }},
}}

func (r *reader) gusset(n *node) *Gusset {
	g := &Gusset{Pos: r.pos(n)}
	if found, ok := readMapping(r, n, &gussetKeys, g); ok {
		r.goesWith("a gusset", &found, "snipe kind", "snipe")
	}
	if !g.Angle.Set {
		g.Angle.Rad = math.Pi / 2
	}
	setWord(&g.SnipeKind, "straight")
	return g
}

// legAngle reads the angle between two legs: neither folded together nor in one
// line.
func (r *reader) legAngle(n *node) Angle {
	a := r.angle(n, 0, 180)
	if a.Set && (a.Rad == 0 || a.Rad == math.Pi) {
		r.add(a.Pos, "angle is %s, wanted more than 0 and less than 180 deg", quote(n.text))
	}
	return a
}

var linkKeys = mapping[LinkPlate]{"a link plate", []field[LinkPlate]{
	{"through", true, func(r *reader, n *node, l *LinkPlate) { l.Through = r.through(n) }},
	{"width", false, func(r *reader, n *node, l *LinkPlate) { l.Widths = r.widths(n) }},
}}

func (r *reader) linkPlate(n *node) *LinkPlate {
	l := &LinkPlate{Pos: r.pos(n)}
	found, ok := readMapping(r, n, &linkKeys, l)
	if !ok || !found.has("through") {
		return l
	}
	width := found.get("width")
	if len(l.Widths) > 1 && len(l.Through) > 1 && len(l.Widths) != len(l.Through) {
		r.add(r.pos(width.next), "a link plate through %d holes has %d widths, wanted 1 or %d", len(l.Through), len(l.Widths), len(l.Through))
	}
	for i := range l.Through {
		if b := &l.Through[i]; b.Hollow.Set {
			r.addHint(b.Hollow.Pos, "use tangent", "a link plate has no hollow ends")
		} else if b.Waist.Set {
			r.addHint(b.Waist.Pos, "use tangent", "a link plate has no waist")
		}
		switch b := &l.Through[i]; {
		case width != nil && b.Radius.Pos.Line > 0:
			r.addHint(b.Radius.Pos, "keep one of them", "a link plate has both width and a boss with a radius")
		case width == nil && b.Radius.Pos.Line == 0:
			r.addHint(b.Pos, "add width: to the link plate, or a radius to each boss", "the end of the link plate here has no width")
		}
	}
	return l
}

// through reads the bosses of a link plate: the name of a hole, a place, or a
// mapping as in tangent.
func (r *reader) through(n *node) []Boss {
	if !r.list(n, 2, "hole names or places") {
		return nil
	}
	bosses := make([]Boss, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = "a boss", nil
		b := Boss{Pos: r.pos(item)}
		switch item.kind {
		case listKind:
			p := r.point(item)
			b.At = &p
		case scalarKind:
			b.Hole = r.holeRef(item)
		default:
			b, _, _ = r.boss(item)
		}
		bosses = append(bosses, b)
	}
	return bosses
}

func (r *reader) widths(n *node) []Length {
	if n.kind != listKind {
		return []Length{r.positive(n)}
	}
	if !r.list(n, 1, "widths") {
		return nil
	}
	ws := make([]Length, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		ws = append(ws, r.positive(item))
	}
	return ws
}

// kindName names the kind of an outline.
func (s *Shape) kindName() string {
	switch {
	case s.Tangent != nil:
		return "tangent"
	case s.Corners != nil:
		return "corners"
	case s.Rectangle != nil:
		return "rectangle"
	case s.Disc != nil:
		return "disc"
	case s.Ring != nil:
		return "ring"
	case s.Gusset != nil:
		return "gusset"
	case s.LinkPlate != nil:
		return "link plate"
	}
	return ""
}
