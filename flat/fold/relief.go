package fold

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// cut is metal taken from a panel, in its local coordinates.
type cut struct {
	loop   geom.Loop // counter-clockwise
	joint  int       // the bend it is made for
	strip  bool      // the metal that the bend itself is made of
	corner bool      // where two bends meet
	side   side      // of the bend
}

// cutsOf lists what is taken from a panel.
func (m *maker) cutsOf(n int) {
	for _, k := range m.nodes[n].kids {
		j := &m.joints[k]
		if j.set > num.Coincident {
			m.cut(n, cut{joint: k, strip: true, loop: j.strip()})
		}
		m.endCut(n, k, &j.left, atLeft)
		m.endCut(n, k, &j.right, atRight)
	}
}

func (m *maker) cut(n int, c cut) { m.nodes[n].cuts = append(m.nodes[n].cuts, c) }

// strip is the metal beyond the tangent line in which the bend takes its place,
// up to the end of the edge where another bend meets it there.
func (j *joint) strip() geom.Loop {
	a, b := j.a, j.b
	if j.left.corner >= 0 {
		a = min(a, 0)
	}
	if j.right.corner >= 0 {
		b = max(b, j.length)
	}
	return geom.Polygon(j.at(a, 0), j.at(b, 0), j.at(b, j.set), j.at(a, j.set))
}

// endCut makes the relief at one end of a bend.
func (m *maker) endCut(n, k int, e *end, s side) {
	switch {
	case e.corner >= 0:
		m.cornerCut(n, k, e, s)
	case e.land > num.LimitSlack:
		m.sideCut(n, k, s)
	}
}

// sideCut makes a slot beside a bend.
func (m *maker) sideCut(n, k int, s side) {
	j := &m.joints[k]
	r := m.part.Relief
	if j.flange.Relief != nil {
		r = *j.flange.Relief
	}
	if r.Shape == None {
		if j.set > num.Coincident {
			x := j.a
			if s == atRight {
				x = j.b
			}
			m.problems.add(Cut, j.name(), "give it a square or round one, or let the bend begin at the edge (tangent)",
				"flange %s has no relief at its %s end, where %s goes on beside its bend", j.name(), s, m.nodes[n].name).
				at(m.flatPoint(n, j.at(x, 0)))
		}
		return
	}
	w, past := r.width(m.part.T), r.past(m.part.T)
	from, to := j.a-w, j.a
	if s == atRight {
		from, to = j.b, j.b+w
	}
	m.cut(n, cut{joint: k, side: s, loop: j.slot(from, to, past, r.Shape)})
}

// slot is the outline of a relief from one place along the edge to another,
// from past beyond the tangent line out to the edge. A round one reaches at
// least its radius beyond, so that its straight side parts the whole end of the
// bend from the panel.
func (j *joint) slot(from, to, past float64, shape Shape) geom.Loop {
	if shape == Square {
		return geom.Polygon(j.at(from, -past), j.at(to, -past), j.at(to, j.set), j.at(from, j.set))
	}
	r := (to - from) / 2
	past = max(past, r)
	c := geom.Circle{C: j.at((from+to)/2, r-past), R: r}
	a, b := j.at(from, r-past), j.at(to, r-past)
	if j.set+past-r <= num.Coincident {
		return geom.Loop{geom.Arc(c, a, b, true), geom.Line(b, a)}
	}
	p, q := j.at(to, j.set), j.at(from, j.set)
	return geom.Loop{geom.Arc(c, a, b, true), geom.Line(b, p), geom.Line(p, q), geom.Line(q, a)}
}

// cornerCut makes the notch where two bends meet, and draws the bend's own end
// back from it. The panel is cut once, by the first of the two.
func (m *maker) cornerCut(n, k int, e *end, s side) {
	j := &m.joints[k]
	r := m.part.Corner
	if r.Shape == None {
		return
	}
	q := r.past(m.part.T)
	x, inward := j.za, 1.0
	if s == atRight {
		x, inward = j.zb, -1
	}
	c := j.at(x, 0)
	if r.Shape == Round {
		e.round = q
		if q >= j.allow.Length-num.Coincident && !m.cornerSaid {
			m.cornerSaid = true
			m.problems.add(Cut, j.name(), "make it smaller",
				"the corner relief of %s at the %s end of flange %s is larger than its bend of %s", mm(q), s, j.name(), mm(j.allow.Length)).
				at(m.flatPoint(n, c))
		}
	} else if s == atLeft {
		j.za += q
	} else {
		j.zb -= q
	}
	o := &m.joints[e.corner]
	if e.corner < k && o.meets(k) {
		return
	}
	loop := geom.CircleLoop(geom.Circle{C: c, R: q})
	if r.Shape == Square {
		away := o.u
		if o.along(c) > (o.a+o.b)/2 {
			away = away.Mul(-1)
		}
		p, d := j.u.Mul(inward*q), away.Mul(q)
		loop = geom.Polygon(c, c.Add(p), c.Add(p).Add(d), c.Add(d))
		if p.Cross(d) < 0 {
			loop = loop.Reverse()
		}
	}
	m.cut(n, cut{joint: k, side: s, corner: true, loop: loop})
}

// meets reports whether a bend meets the joint k at one of its ends.
func (j *joint) meets(k int) bool { return j.left.corner == k || j.right.corner == k }

// zone is the metal of the bend in its parent's local coordinates: a rectangle
// from tangent line to tangent line, with the corners bitten off that round
// corner reliefs take.
func (j *joint) zone() geom.Region {
	w := j.allow.Length
	p, q := j.at(j.zb, w), j.at(j.za, w)
	l := make(geom.Loop, 0, 6)
	a, b := j.at(j.za+j.left.round, 0), j.at(j.zb-j.right.round, 0)
	l = append(l, geom.Line(a, b))
	last := b
	if r := j.right.round; r > 0 {
		up := j.at(j.zb, r)
		l = append(l, geom.Arc(geom.Circle{C: j.at(j.zb, 0), R: r}, b, up, false))
		last = up
	}
	l = append(l, geom.Line(last, p), geom.Line(p, q))
	last = q
	if r := j.left.round; r > 0 {
		up := j.at(j.za, r)
		l = append(l, geom.Line(q, up))
		last = up
		l = append(l, geom.Arc(geom.Circle{C: j.at(j.za, 0), R: r}, up, a, false))
	} else {
		l = append(l, geom.Line(last, a))
	}
	return geom.Region{Outer: l}
}

// root is the stretch of the tangent line where the bend hangs on its parent,
// and far the one where the flange hangs on the bend, in the parent's local
// coordinates, from left to right.
func (j *joint) root() geom.Seg {
	return geom.Line(j.at(j.za+j.left.round, 0), j.at(j.zb-j.right.round, 0))
}

func (j *joint) far() geom.Seg {
	return geom.Line(j.at(j.za, j.allow.Length), j.at(j.zb, j.allow.Length))
}

// middle is the bend line: the centre of the bend zone from edge to edge.
func (j *joint) middle() geom.Seg {
	h := j.allow.Length / 2
	bite := func(r float64) float64 {
		if r <= h {
			return 0
		}
		return math.Sqrt(float64(r*r) - float64(h*h))
	}
	return geom.Line(j.at(j.za+bite(j.left.round), h), j.at(j.zb-bite(j.right.round), h))
}
