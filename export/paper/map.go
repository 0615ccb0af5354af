package paper

import (
	"strconv"

	"blankwright/flat/geom"
)

// pageMap is a small picture of the part with the pages over it.
type pageMap struct {
	t     *tiling
	frame Rect
	scale float64
}

// pageMap fits the map into a rectangle, at its upper right corner.
func (j *job) pageMap(t *tiling, r Rect) *pageMap {
	k := min(r.Width()/t.w, r.Height()/t.h)
	return &pageMap{t, Rect{r.X1 - t.w*k, r.Y1 - t.h*k, r.X1, r.Y1}, k}
}

// at is a place of the drawing on the map.
func (m *pageMap) at(p geom.Point) geom.Point {
	return pt(m.frame.X0+p.X*m.scale, m.frame.Y0+p.Y*m.scale)
}

// draw draws the map of a drawing; the page named here is shaded, those that are
// not printed are crossed out.
func (m *pageMap) draw(s *Sheet, canvas *Sheet, have map[string]bool, here string) {
	t := m.t
	for row := range t.rows.count() {
		for col := range t.cols.count() {
			m.cell(s, col, row, have, here)
		}
	}
	for _, x := range t.cols.cuts {
		v := m.at(pt(x, 0)).X
		s.rule(Frame, v, m.frame.Y0, v, m.frame.Y1)
	}
	for _, y := range t.rows.cuts {
		v := m.at(pt(0, y)).Y
		s.rule(Frame, m.frame.X0, v, m.frame.X1, v)
	}
	for _, g := range canvas.Layers[Outline].Segs {
		s.seg(Frame, geom.BulgeSeg(m.at(g.A), m.at(g.B), g.Bulge))
	}
	for _, g := range canvas.Layers[Bending].Segs {
		s.line(Extensions, m.at(g.A), m.at(g.B))
	}
	for _, c := range canvas.Layers[Outline].Circles {
		s.circle(Frame, m.at(c.C), c.R*m.scale)
	}
}

// cell shades one page, or crosses it out.
func (m *pageMap) cell(s *Sheet, col, row int, have map[string]bool, here string) {
	x0, x1 := m.t.cols.core(col)
	y0, y1 := m.t.rows.core(row)
	a, b := m.at(pt(x0, y0)), m.at(pt(x1, y1))
	r := Rect{a.X, a.Y, b.X, b.Y}
	switch name := m.t.name(col, row); {
	case name == here:
		s.box(Shade, r.Grow(-min(0.5, r.Width()/6, r.Height()/6)))
	case !have[name]:
		s.rule(Frame, r.X0, r.Y0, r.X1, r.Y1)
		s.rule(Frame, r.X0, r.Y1, r.X1, r.Y0)
	}
}

// mapHeads is the room for the letters of the rows and the numbers of the
// columns beside a map.
const mapHeads = 4.0

// heads writes the numbers of the columns above the map and the letters of the
// rows on its left, where they have room.
func (m *pageMap) heads(s *Sheet) {
	t := m.t
	h := styles[SmallText].Size * capHeight
	for col := range t.cols.count() {
		x0, x1 := t.cols.core(col)
		name := strconv.Itoa(col + 1)
		if Width(name, SmallText) < (x1-x0)*m.scale {
			s.text(Small, Text{At: pt(m.at(pt((x0+x1)/2, 0)).X, m.frame.Y1+1), Anchor: Middle, S: name})
		}
	}
	for row := range t.rows.count() {
		y0, y1 := t.rows.core(row)
		if h+1 < (y1-y0)*m.scale {
			y := m.at(pt(0, (y0+y1)/2)).Y - h/2
			s.text(Small, Text{At: pt(m.frame.X0-1, y), Anchor: End, S: letters(t.rows.count() - 1 - row)})
		}
	}
}
