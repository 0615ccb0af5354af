package blank

import (
	"math"
	"strconv"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// spot is one place of a set of holes: where, and how its image came there.
type spot struct {
	at  geom.Point
	via flip
}

// spots works out where the holes of a set are, in the order of their numbers:
// a row from its first end, a grid row by row from the lower left, a bolt circle
// counter-clockwise from its start; mirrored copies after all of those.
func (m *maker) spots(s *describe.HoleSet) ([]spot, bool) {
	var places []geom.Point
	ok := true
	switch {
	case s.At != nil:
		p, ok := m.point(*s.At, "the place of the hole", s.Pos)
		if !ok {
			return nil, false
		}
		m.spotBuf[0] = spot{at: p}
		return m.mirror(m.spotBuf[:1:1], s)
	case s.Row != nil:
		places, ok = m.row(s.Row, s.Pos)
	case s.Grid != nil:
		places, ok = m.grid(s.Grid, s.Pos)
	case s.Circle != nil:
		places, ok = m.boltCircle(s.Circle, s.Pos)
	default:
		m.problems.AddHint(s.Pos, "give one of: at, row, grid, circle", "hole %q has no place", s.Name.Text)
		ok = false
	}
	if !ok {
		return nil, false
	}
	spots := make([]spot, len(places), 2*len(places))
	for i, p := range places {
		spots[i].at = p
	}
	return m.mirror(spots, s)
}

// count takes the number of holes of a pattern.
func (m *maker) count(c describe.Count, what string, pos diag.Pos) (int, bool) {
	if c.Pos.Line == 0 {
		c.Pos = pos
	}
	if c.N < 1 || c.N > maxHoles {
		m.problems.Add(c.Pos, "%s is %d, wanted 1 to %d", what, c.N, maxHoles)
		return 0, false
	}
	return c.N, true
}

// row spaces its holes evenly from one end to the other, both included.
func (m *maker) row(r *describe.Row, pos diag.Pos) ([]geom.Point, bool) {
	if r.Pos.Line == 0 {
		r.Pos = pos
	}
	from, ok1 := m.point(r.From, "the start of the row", r.Pos)
	to, ok2 := m.point(r.To, "the end of the row", r.Pos)
	n, ok3 := m.count(r.Count, "the count of a row", r.Pos)
	if !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	switch same := num.Same(from.X, to.X) && num.Same(from.Y, to.Y); {
	case n == 1 && !same:
		m.problems.AddHint(r.Pos, "count both ends, or give the hole's place with at",
			"a row of 1 hole cannot reach from one place to another")
		return nil, false
	case n > 1 && same:
		m.problems.Add(r.Pos, "a row of %d holes starts and ends at one place, wanted two places", n)
		return nil, false
	}
	ps := make([]geom.Point, n)
	step := to.Sub(from)
	for i := range ps {
		ps[i] = from
		if i > 0 {
			ps[i] = from.Add(step.Mul(float64(i) / float64(n-1)))
		}
	}
	return ps, true
}

// grid spaces columns and rows by their pitches round its centre.
func (m *maker) grid(g *describe.Grid, pos diag.Pos) ([]geom.Point, bool) {
	if g.Pos.Line == 0 {
		g.Pos = pos
	}
	at, ok := m.point(g.At, "the centre of the grid", g.Pos)
	cols, ok1 := m.count(g.Columns, "the number of columns", g.Pos)
	rows, ok2 := m.count(g.Rows, "the number of rows", g.Pos)
	px, ok3 := m.pitch(g.PitchX, cols, "the pitch of the columns", g.Pos)
	py, ok4 := m.pitch(g.PitchY, rows, "the pitch of the rows", g.Pos)
	if !ok || !ok1 || !ok2 || !ok3 || !ok4 {
		return nil, false
	}
	if cols*rows > maxHoles {
		m.problems.Add(g.Pos, "a grid of %d by %d makes %d holes, wanted no more than %d", cols, rows, cols*rows, maxHoles)
		return nil, false
	}
	ps := make([]geom.Point, 0, cols*rows)
	for r := range rows {
		y := at.Y + (float64(r)-float64(rows-1)/2)*py
		for c := range cols {
			ps = append(ps, geom.Point{X: at.X + (float64(c)-float64(cols-1)/2)*px, Y: y})
		}
	}
	return ps, true
}

// pitch is needed only where there is more than one to space.
func (m *maker) pitch(l describe.Length, n int, what string, pos diag.Pos) (float64, bool) {
	if n <= 1 {
		return 0, true
	}
	return m.size(l, what, pos)
}

// boltCircle spaces its holes evenly round a circle.
func (m *maker) boltCircle(b *describe.BoltCircle, pos diag.Pos) ([]geom.Point, bool) {
	if b.Pos.Line == 0 {
		b.Pos = pos
	}
	at, ok := m.point(b.At, "the centre of the bolt circle", b.Pos)
	d, ok1 := m.size(b.Diameter, "the diameter of the bolt circle", b.Pos)
	n, ok2 := m.count(b.Count, "the count of a bolt circle", b.Pos)
	start, ok3 := m.angle(b.Start, "the start of the bolt circle", b.Pos)
	if !ok || !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	ps := make([]geom.Point, n)
	for i := range ps {
		ps[i] = at.Add(direction(start + 2*math.Pi*float64(i)/float64(n)).Mul(d / 2))
	}
	return ps, true
}

// mirror adds the mirror images across the axes asked for. A place that falls on
// one that is there already (a hole on the mirror axis, a row that is its own
// image) is not doubled; a slot that would cross itself there is a problem.
func (m *maker) mirror(spots []spot, s *describe.HoleSet) ([]spot, bool) {
	var flips []flip
	switch s.Mirror.Text {
	case "":
		return spots, true
	case "x":
		flips = []flip{acrossX}
	case "y":
		flips = []flip{acrossY}
	case "both":
		flips = []flip{acrossY, acrossX, acrossBoth}
	default:
		m.problems.AddHint(s.Mirror.Pos, "mirror is one of: x, y, both", "unknown mirror %q", s.Mirror.Text)
		return nil, false
	}
	found := finder{spots: spots}
	found.addAll()
	given := len(spots)
	for _, f := range flips {
		for i := range given {
			image := spot{f.point(found.spots[i].at), f}
			there, ok := found.near(image.at)
			switch {
			case !ok:
				found.add(image)
			case s.Slot != nil && !sameAxis(s.Slot.Angle.Rad, there.via, f):
				m.problems.AddHint(s.Pos, "move it off the axis, or turn it along or square to the axis",
					"slot %q lies on the mirror axis and would cross its own mirror image", s.Name.Text)
				return nil, false
			}
		}
	}
	return found.spots, true
}

// sameAxis reports whether a slot's long axis looks the same by two mirrorings.
func sameAxis(angle float64, a, b flip) bool {
	return num.Zero(direction(a.angle(angle)).Cross(direction(b.angle(angle))))
}

// finder finds places that are there already by the square millimetre that they
// lie in.
type finder struct {
	spots []spot
	cells map[[2]int][]int32
}

func cell(p geom.Point) [2]int { return [2]int{int(math.Floor(p.X)), int(math.Floor(p.Y))} }

func (f *finder) addAll() {
	f.cells = make(map[[2]int][]int32, 2*len(f.spots))
	for i, s := range f.spots {
		c := cell(s.at)
		f.cells[c] = append(f.cells[c], int32(i))
	}
}

func (f *finder) add(s spot) {
	c := cell(s.at)
	f.cells[c] = append(f.cells[c], int32(len(f.spots)))
	f.spots = append(f.spots, s)
}

func (f *finder) near(p geom.Point) (spot, bool) {
	c := cell(p)
	for x := c[0] - 1; x <= c[0]+1; x++ {
		for y := c[1] - 1; y <= c[1]+1; y++ {
			for _, i := range f.cells[[2]int{x, y}] {
				if q := f.spots[i]; num.Same(q.at.X, p.X) && num.Same(q.at.Y, p.Y) {
					return q, true
				}
			}
		}
	}
	return spot{}, false
}

// memberName is the name of the k-th hole (from 1) of n: a lone hole has the
// plain name.
func memberName(set string, k, n int) string {
	if n == 1 {
		return set
	}
	return set + "." + strconv.Itoa(k)
}
