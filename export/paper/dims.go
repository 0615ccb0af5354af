package paper

import (
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

const (
	dimOff    = 11.0 // from the part to a dimension line
	dimGap    = 1.0  // between the part and an extension line
	dimPast   = 2.0  // of an extension line beyond the dimension line
	dimText   = 1.0  // between a dimension line and its text
	arrowLong = 3.0
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

// sides tells where the overall dimensions stand: the width above or below, the
// height on the right or left, wherever their extension lines are shorter.
type sides struct{ above, right bool }

func sidesOf(e extremes, b geom.Box) sides {
	below := e.left.first.Y + e.right.first.Y - 2*b.Min.Y
	above := 2*b.Max.Y - e.left.last.Y - e.right.last.Y
	left := e.bottom.first.X + e.top.first.X - 2*b.Min.X
	right := 2*b.Max.X - e.bottom.last.X - e.top.last.X
	return sides{above: above+dimPast < below, right: right+dimPast < left}
}

// Room in mm that the drawing needs round the part, with a dimension on that
// side and without.
const (
	roomBeside = dimOff + dimText + 4.2 + 1
	roomAlong  = dimOff + dimPast + 1
	roomOther  = 4.0
)

// rooms is the room needed on each side of a part w by h.
func (s sides) rooms(w, h float64, sys unit.System) (r Rect) {
	r = Rect{roomBeside, roomAlong, roomOther, roomOther}
	if s.above {
		r.Y0, r.Y1 = roomOther, roomBeside
	}
	if s.right {
		r.X0, r.X1 = roomOther, roomAlong
	}
	// Words that are longer than their line stand beyond its upper or right end.
	if long := Width(unit.Text(w, sys), CalloutText); long+2*dimText > w {
		r.X1 = max(r.X1, wordsFrom+long+1)
	}
	if long := Width(unit.Text(h, sys), CalloutText); long+2*dimText > h {
		r.Y1 = max(r.Y1, wordsFrom+long+1)
	}
	return r
}

// wordsFrom is where words beyond the end of a dimension line begin.
const wordsFrom = 2*arrowLong - dimText

// overall draws the part's overall width and height.
func (d *drawing) overall(s sides) {
	e := extremesOf(d.outline)
	w := dim{out: geom.Point{Y: -1}, fromA: e.left.first, fromB: e.right.first}
	y := d.part.Y0 - dimOff
	if s.above {
		w = dim{out: geom.Point{Y: 1}, fromA: e.left.last, fromB: e.right.last}
		y = d.part.Y1 + dimOff
	}
	w.a, w.b = geom.Point{X: e.left.first.X, Y: y}, geom.Point{X: e.right.first.X, Y: y}
	w.words = unit.Text(w.b.X-w.a.X, d.sys)
	d.dimension(w)

	h := dim{up: true, out: geom.Point{X: -1}, fromA: e.bottom.first, fromB: e.top.first}
	x := d.part.X0 - dimOff
	if s.right {
		h = dim{up: true, out: geom.Point{X: 1}, fromA: e.bottom.last, fromB: e.top.last}
		x = d.part.X1 + dimOff
	}
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
}

func (d *drawing) dimension(m dim) {
	u, over := geom.Point{X: 1}, geom.Point{Y: 1} // along the line, and to where its words stand
	if m.up {
		u, over = geom.Point{Y: 1}, geom.Point{X: -1}
	}
	d.dimLine(m.fromA.Add(m.out.Mul(dimGap)), m.a.Add(m.out.Mul(dimPast)), false)
	d.dimLine(m.fromB.Add(m.out.Mul(dimGap)), m.b.Add(m.out.Mul(dimPast)), false)
	long, width := m.a.Dist(m.b), Width(m.words, CalloutText)
	from, to := m.a, m.b
	middle := m.a.Add(m.b).Mul(0.5)
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
		start := m.b.Add(u.Mul(wordsFrom))
		middle = start.Add(u.Mul(width / 2))
		to = start.Add(u.Mul(width))
	}
	d.dimLine(from, to, true)
	t := Text{At: middle.Add(over.Mul(dimText)), Anchor: Middle, Up: m.up, Style: CalloutText, S: m.words}
	d.s.text(Figures, t)
	d.f.addBox(t.Box())
}

// dimLine draws a line of a dimension. Leaders may cross extension lines, but
// not the dimension line itself.
func (d *drawing) dimLine(a, b geom.Point, bars bool) {
	d.s.line(Dimensions, a, b)
	d.f.addLine(a, b, bars, nobody)
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
