package fold

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// side tells the ends of a bend apart.
type side int8

const (
	atLeft side = iota
	atRight
)

func (s side) String() string {
	if s == atLeft {
		return "left"
	}
	return "right"
}

// roots finds how far every bend of a panel reaches along its tangent line, and
// what happens at its ends.
func (m *maker) roots(n int) {
	kids := m.nodes[n].kids
	for _, k := range kids {
		m.reach(n, k)
	}
	for _, k := range kids {
		j := &m.joints[k]
		m.meet(j, &j.left, atLeft)
		m.meet(j, &j.right, atRight)
	}
	for _, k := range kids {
		j := &m.joints[k]
		if j.zb-j.za <= num.Coincident {
			m.problems.add(NoRoom, j.name(), "make its neighbours narrower", "the bend of flange %s has no width left between its neighbours", j.name()).
				at(m.flatPoint(n, j.at((j.a+j.b)/2, 0)))
		}
	}
}

// flatPoint carries a point of a panel to the flat.
func (m *maker) flatPoint(n int, p geom.Point) geom.Point { return m.nodes[n].toFlat.Apply(p) }

// reach measures the panel's metal along the tangent line of one bend.
func (m *maker) reach(n, k int) {
	j := &m.joints[k]
	j.za, j.zb = j.a, j.b
	mid := (j.a + j.b) / 2
	metal, ok := m.metalAt(n, j, mid)
	if !ok {
		m.problems.add(NoRoom, j.name(), "make "+m.nodes[n].name+" larger there, or the radius smaller", "flange %s: no metal of %s is left where its bend begins, %s in from the edge", j.name(), m.nodes[n].name, mm(j.set)).
			at(m.flatPoint(n, j.at(mid, 0)))
		return
	}
	left, right := -1, -1
	for _, s := range m.nodes[n].kids {
		if s == k {
			continue
		}
		taken, ok := m.strip(&m.joints[s], j)
		switch {
		case !ok:
		case taken.to <= mid && taken.to > metal.from:
			metal.from, left = taken.to, s
		case taken.from >= mid && taken.from < metal.to:
			metal.to, right = taken.from, s
		case taken.from < mid && taken.to > mid:
			m.problems.add(NoRoom, j.name(), "make "+m.nodes[n].name+" larger, or the radius smaller",
				"the bends of flanges %s and %s need the same metal of %s", j.name(), m.joints[s].name(), m.nodes[n].name).
				at(m.flatPoint(n, j.at(mid, 0)))
			return
		}
	}
	for _, s := range m.nodes[n].kids {
		switch {
		case s == k:
		case left < 0 && m.joints[s].begins(j.at(metal.from, 0)):
			left = s
		case right < 0 && m.joints[s].begins(j.at(metal.to, 0)):
			right = s
		}
	}
	m.endAt(n, j, &j.left, atLeft, j.a-metal.from, left)
	m.endAt(n, j, &j.right, atRight, metal.to-j.b, right)
}

// begins reports whether the flange of a bend that begins at its edge covers a
// point of that edge.
func (j *joint) begins(p geom.Point) bool {
	x := j.along(p)
	return j.set <= num.Coincident && math.Abs(p.Sub(j.o).Dot(j.out)) <= num.LimitSlack &&
		x >= j.a-num.LimitSlack && x <= j.b+num.LimitSlack
}

// metalAt is the stretch of the tangent line of a joint, just inside it, that
// lies in the panel and holds the place x.
func (m *maker) metalAt(n int, j *joint, x float64) (span, bool) {
	q := j.at(0, -num.JustInside)
	r := &m.nodes[n].region
	m.hits = appendHits(m.hits[:0], r.Outer, q, j.u)
	for _, h := range r.Holes {
		m.hits = appendHits(m.hits, h, q, j.u)
	}
	return holding(m.hits, x)
}

// holding is the stretch between crossings that holds x: with an odd number of
// them on either side it is inside.
func holding(ts []float64, x float64) (span, bool) {
	s := span{math.Inf(-1), math.Inf(1)}
	below := 0
	for _, t := range ts {
		if t <= x {
			below++
			s.from = max(s.from, t)
		} else {
			s.to = min(s.to, t)
		}
	}
	return s, below%2 == 1
}

// strip is the stretch of j's tangent line that lies in the metal of which the
// bend of s is made.
func (m *maker) strip(s, j *joint) (span, bool) {
	if s.set <= num.Coincident {
		return span{}, false
	}
	l := geom.Polygon(s.at(s.a, 0), s.at(s.b, 0), s.at(s.b, s.set), s.at(s.a, s.set))
	m.hits = appendHits(m.hits[:0], l, j.at(0, -num.JustInside), j.u)
	if len(m.hits) < 2 {
		return span{}, false
	}
	return span{min(m.hits[0], m.hits[1]), max(m.hits[0], m.hits[1])}, true
}

// endAt decides what happens at one end of a bend beside which the panel's metal
// goes on for land (negative: ends short of it), up to the bend of another
// joint or, -1, to its boundary.
func (m *maker) endAt(n int, j *joint, e *end, s side, land float64, other int) {
	switch {
	case other >= 0 && land <= num.LimitSlack:
		e.corner = other
	case land > num.LimitSlack:
		e.land = land
	case land < -num.LimitSlack:
		x := j.a
		if s == atRight {
			x = j.b
		}
		m.problems.add(NoRoom, j.name(), "let its "+s.String()+" end stand off the end of the edge",
			"flange %s is wider than %s at its bend: its %s end reaches %s beyond the metal", j.name(), m.nodes[n].name, s, beyondWords(-land)).
			at(m.flatPoint(n, j.at(x, 0)))
	}
}

// beyondWords writes a length of which hundredths may show nothing.
func beyondWords(d float64) string {
	if d < 0.01 {
		return "less than 0.01 mm"
	}
	return mm(d)
}

// meet moves the end of a bend to where its tangent line crosses that of the
// bend it meets.
func (m *maker) meet(j *joint, e *end, s side) {
	if e.corner < 0 {
		return
	}
	c, ok := crossing(j, &m.joints[e.corner])
	if !ok {
		e.corner = -1
		return
	}
	if s == atLeft {
		j.za = j.along(c)
	} else {
		j.zb = j.along(c)
	}
}

// crossing is where the tangent lines of two joints of one panel cross. ok is
// false where they run alongside.
func crossing(j, k *joint) (geom.Point, bool) {
	sin := j.u.Cross(k.u)
	if math.Abs(sin) <= num.Angular {
		return geom.Point{}, false
	}
	p := j.at(0, 0)
	t := k.at(0, 0).Sub(p).Cross(k.u) / sin
	return p.Add(j.u.Mul(t)), true
}
