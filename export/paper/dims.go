package paper

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

const (
	dimOff    = 8.5 // from the part to a dimension line
	dimGap    = 1.0 // between the part and an extension line
	dimPast   = 1.5 // of an extension line beyond the dimension line
	dimText   = 1.5 // between a dimension line and its text
	arrowLong = 3.0
	stub      = 15.0 // of a dimension line that runs over several pages
	arrowWide = 1.0
)

// reach is what an outline reaches to on one side: the two ends, along that
// side, of the points that go farthest.
type reach struct{ first, last geom.Point }

// extremes are those of the four sides; first is the lower or the left one.
type extremes struct{ left, right, bottom, top reach }

func extremesOf(l geom.Loop) extremes {
	p := reach{l[0].A, l[0].A}
	e := extremes{p, p, p, p}
	for i := range l {
		e.take(l[i].A)
		if l[i].IsArc() {
			c := l[i].Circle()
			for _, q := range [4]geom.Point{
				{X: c.C.X + c.R, Y: c.C.Y}, {X: c.C.X - c.R, Y: c.C.Y},
				{X: c.C.X, Y: c.C.Y + c.R}, {X: c.C.X, Y: c.C.Y - c.R},
			} {
				if onArc(&l[i], q) {
					e.take(q)
				}
			}
		}
	}
	return e
}

func (e *extremes) take(p geom.Point) {
	e.left.take(p, e.left.first.X-p.X, p.Y-e.left.first.Y, p.Y-e.left.last.Y)
	e.right.take(p, p.X-e.right.first.X, p.Y-e.right.first.Y, p.Y-e.right.last.Y)
	e.bottom.take(p, e.bottom.first.Y-p.Y, p.X-e.bottom.first.X, p.X-e.bottom.last.X)
	e.top.take(p, p.Y-e.top.first.Y, p.X-e.top.first.X, p.X-e.top.last.X)
}

// take notes a point that goes farther by more than the side reached before, or
// as far; pastFirst and pastLast tell how far along the side it lies beyond the
// first and the last point.
func (r *reach) take(p geom.Point, more, pastFirst, pastLast float64) {
	switch {
	case num.Zero(more):
		if pastFirst < 0 {
			r.first = p
		}
		if pastLast > 0 {
			r.last = p
		}
	case more > 0:
		r.first, r.last = p, p
	}
}

// Room in mm that the drawing needs round the part: above and on the right for
// the overall dimensions, on a side that has nothing, and on all sides of a part
// that has no dimensions.
const (
	roomBeside = dimOff + dimText + 4.2 + 0.5
	roomAlong  = dimOff + dimPast + 0.5
	roomOther  = 4.0
	roomBare   = 2.5
)

// roomsFor is the room needed on each side of a part w by h: figures below and
// on the left, overall dimensions above and on the right.
func (j *job) roomsFor(w, h float64) Rect {
	r := Rect{j.up.room(), j.across.room(), max(roomAlong, j.across.over+1), max(roomBeside, j.up.over+1)}
	// Words that are longer than their line stand beyond its right or upper end.
	if long := Width(unit.Text(w, j.sys), CalloutText); long+2*dimText > w {
		r.X1 = max(r.X1, wordsFrom+long+1)
	}
	if long := Width(unit.Text(h, j.sys), CalloutText); long+2*dimText > h {
		r.Y1 = max(r.Y1, wordsOver+long+1)
	}
	return r
}

// Where words beyond the end of a dimension line begin: those of the height
// above those of the width.
const (
	wordsFrom = 2*arrowLong - dimText
	wordsOver = dimOff + dimText + 4.2 + 3
)

// overall draws the part's overall width above it and its height on its right.
func (d *drawing) overall() {
	e := extremesOf(d.outline)
	w := dim{out: geom.Point{Y: 1}, fromA: e.left.last, fromB: e.right.last, beyond: wordsFrom, seams: d.seamsX}
	y := d.part.Y1 + dimOff
	w.a, w.b = geom.Point{X: e.left.first.X, Y: y}, geom.Point{X: e.right.first.X, Y: y}
	w.words = unit.Text(w.b.X-w.a.X, d.sys)
	if d.wrapped { // words stand above it
		w.out, w.fromA, w.fromB = geom.Point{Y: -1}, e.left.first, e.right.first
		w.a.Y = d.part.Y0 - dimOff
		w.b.Y = w.a.Y
	}
	d.dimension(w)

	h := dim{up: true, out: geom.Point{X: 1}, fromA: e.bottom.last, fromB: e.top.last, beyond: wordsOver, seams: d.seamsY}
	x := d.part.X1 + dimOff
	h.a, h.b = geom.Point{X: x, Y: e.bottom.first.Y}, geom.Point{X: x, Y: e.top.first.Y}
	h.words = unit.Text(h.b.Y-h.a.Y, d.sys)
	d.dimension(h)
}

// dim is a dimension between a and b, on a level line or on an upright one,
// which is read from the right.
type dim struct {
	a, b         geom.Point // a is the left or lower end
	fromA, fromB geom.Point // what is measured
	out          geom.Point // direction from the part to the dimension line
	words        string
	up           bool
	beyond       float64   // where words start past b when there is no room between
	seams        []float64 // places along the line that words keep clear of
}

// middle is where the words stand on their line: at its middle, or as near to it
// as the seams allow.
func (m *dim) middle(a, b, width float64) float64 {
	mid := (a + b) / 2
	best := mid
	for _, s := range m.seams {
		if reach := width/2 + seamOff; math.Abs(s-mid) < reach {
			best = s + math.Copysign(reach, mid-s)
		}
	}
	if best-width/2 < a+dimText || best+width/2 > b-dimText {
		return mid
	}
	return best
}

func (d *drawing) dimension(m dim) {
	u, over := geom.Point{X: 1}, geom.Point{Y: 1} // along the line, and to where its words stand
	if m.up {
		u, over = geom.Point{Y: 1}, geom.Point{X: -1}
	}
	d.extension(m.fromA.Add(m.out.Mul(dimGap)), m.a.Add(m.out.Mul(dimPast)))
	d.extension(m.fromB.Add(m.out.Mul(dimGap)), m.b.Add(m.out.Mul(dimPast)))
	long, width := m.a.Dist(m.b), Width(m.words, CalloutText)
	from, to := m.a, m.b
	middle := geom.Point{X: m.middle(m.a.X, m.b.X, width), Y: m.a.Y}
	if m.up {
		middle = geom.Point{X: m.a.X, Y: m.middle(m.a.Y, m.b.Y, width)}
	}
	switch {
	case long >= 3*arrowLong:
		d.arrow(m.a, u.Mul(-1))
		d.arrow(m.b, u)
	default: // no room between: from outside
		d.arrow(m.a, u)
		d.arrow(m.b, u.Mul(-1))
		from = from.Sub(u.Mul(2 * arrowLong))
		to = to.Add(u.Mul(2 * arrowLong))
	}
	if width+2*dimText > long { // words beside the line
		start := m.b.Add(u.Mul(m.beyond))
		middle = start.Add(u.Mul(width / 2))
		if m.beyond == wordsFrom { // the line goes on below them
			to = start.Add(u.Mul(width))
		}
	}
	if len(m.seams) > 0 && width+2*dimText <= long {
		d.stubs(m, u, middle, width)
	} else {
		d.dimLine(from, to)
	}
	t := Text{At: middle.Add(over.Mul(dimText)), Anchor: Middle, Up: m.up, Style: CalloutText, S: m.words}
	d.s.text(Figures, t)
	d.f.addBox(t.Box())
}

// stubs draws a dimension line that runs over several pages: a piece at each end
// and one under its words, for a whole line on a page of its own would look like
// an edge.
func (d *drawing) stubs(m dim, u, middle geom.Point, width float64) {
	half, piece := width/2+stub, min(stub, m.a.Dist(m.b)/2)
	d.dimLine(m.a, m.a.Add(u.Mul(piece)))
	d.dimLine(m.b.Sub(u.Mul(piece)), m.b)
	before, after := middle.Sub(m.a).Dot(u), m.b.Sub(middle).Dot(u)
	d.dimLine(middle.Sub(u.Mul(min(half, before))), middle.Add(u.Mul(min(half, after))))
}

// dimLine draws a dimension line. Leaders do not cross it.
func (d *drawing) dimLine(a, b geom.Point) {
	d.s.line(Dimensions, a, b)
	d.f.addLine(a, b, true, nobody)
}

// extension draws a line from the part towards a dimension or a figure, dashed,
// so that nobody takes it for an edge. Leaders may cross it.
func (d *drawing) extension(a, b geom.Point) {
	d.s.line(Extensions, a, b)
	d.f.addLine(a, b, false, nobody)
}

// arrow draws an arrowhead with its tip at p, pointing along v.
func (d *drawing) arrow(p, v geom.Point) {
	u := v.Mul(1 / v.Len())
	back := p.Sub(u.Mul(arrowLong))
	w := u.Perp().Mul(arrowWide / 2)
	l, r := back.Add(w), back.Sub(w)
	d.s.line(Arrows, p, l)
	d.s.line(Arrows, l, r)
	d.s.line(Arrows, r, p)
}
