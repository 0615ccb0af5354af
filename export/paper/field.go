package paper

import (
	"math"

	"blankwright/flat/geom"
)

// field knows what is on the sheet already, so that labels and their leaders
// find room. Labels keep clear of everything in it; leaders may cross edges and
// centre-lines, but no label, no opening and no line that bars them.
type field struct {
	bounds Rect // labels lie within
	boxes  []Rect
	things []thing // boxes[i] bounds things[i]
	cells  [][]int32
	side   float64 // of a cell, mm
	nx, ny int
	found  []int32 // scratch
}

type kind uint8

const (
	isBox kind = iota
	isLine
	isArc
	isRing
)

// thing is one obstacle.
type thing struct {
	kind  kind
	bars  bool // leaders may not cross it either
	owner int  // index of the hole it belongs to, or nobody
	seg   geom.Seg
	ring  geom.Circle
}

const nobody = -1

const (
	// cell is the least side of a square of the grid over a crowded field, mm:
	// about the size of a hole with its letter. mostCells bounds the grid of a
	// field that is very large.
	cell      = 16.0
	mostCells = 1 << 14
	// crowd is how many things are looked through one by one before the grid is
	// laid; below it a plain scan is quicker (measured).
	crowd = 96
)

// clear empties the field and gives it new bounds.
func (f *field) clear(bounds Rect) {
	f.bounds, f.cells = bounds, nil
	f.boxes, f.things = f.boxes[:0], f.things[:0]
}

func (f *field) addBox(r Rect) { f.add(r, thing{kind: isBox, bars: true, owner: nobody}) }

func (f *field) addLine(a, b geom.Point, bars bool, owner int) {
	r := Rect{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}
	f.add(r, thing{kind: isLine, bars: bars, owner: owner, seg: geom.Seg{A: a, B: b}})
}

// addEdge adds a segment of an outline.
func (f *field) addEdge(g geom.Seg) {
	if !g.IsArc() {
		f.addLine(g.A, g.B, false, nobody)
		return
	}
	b := g.Bounds()
	f.add(Rect{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y}, thing{kind: isArc, owner: nobody, seg: g})
}

func (f *field) addRing(c geom.Circle, owner int) {
	r := Rect{c.C.X - c.R, c.C.Y - c.R, c.C.X + c.R, c.C.Y + c.R}
	f.add(r, thing{kind: isRing, bars: true, owner: owner, ring: c})
}

func (f *field) add(r Rect, t thing) {
	f.boxes = append(f.boxes, r)
	f.things = append(f.things, t)
	n := len(f.boxes)
	switch {
	case f.cells != nil:
		f.enter(n - 1)
	case n > crowd:
		f.lay()
	}
}

// lay lays the grid and enters all things. Things beyond the bounds go into the
// outermost cells.
func (f *field) lay() {
	w, h := max(0, f.bounds.Width()), max(0, f.bounds.Height())
	f.side = max(cell, (w+h)/math.Sqrt(mostCells), math.Sqrt(w*h/mostCells))
	f.nx, f.ny = 1+int(w/f.side), 1+int(h/f.side)
	f.cells = make([][]int32, f.nx*f.ny)
	for i := range f.boxes {
		f.enter(i)
	}
}

func (f *field) column(x float64) int { return gridded((x-f.bounds.X0)/f.side, f.nx) }
func (f *field) row(y float64) int    { return gridded((y-f.bounds.Y0)/f.side, f.ny) }

func gridded(v float64, n int) int { return int(min(max(v, 0), float64(n-1))) }

// enter notes thing i in the cells that it reaches: a line in those along it,
// anything else in all that its box covers.
func (f *field) enter(i int) {
	r, t := &f.boxes[i], &f.things[i]
	y0, y1 := f.row(r.Y0), f.row(r.Y1)
	for y := y0; y <= y1; y++ {
		from, to := r.X0, r.X1
		if t.kind == isLine && y1 > y0 {
			lo, hi := r.Y0, r.Y1
			if y > y0 {
				lo = f.bounds.Y0 + float64(y)*f.side
			}
			if y < y1 {
				hi = f.bounds.Y0 + float64(y+1)*f.side
			}
			from, to = along(&t.seg, lo), along(&t.seg, hi)
			from, to = max(min(from, to), r.X0), min(max(from, to), r.X1)
		}
		for x := f.column(from); x <= f.column(to); x++ {
			f.cells[y*f.nx+x] = append(f.cells[y*f.nx+x], int32(i))
		}
	}
}

// along is where a line that is not level is at height y.
func along(g *geom.Seg, y float64) float64 {
	return g.A.X + (g.B.X-g.A.X)*((y-g.A.Y)/(g.B.Y-g.A.Y))
}

// near lists the things whose boxes reach r; one may come more than once. The
// list is good until the next call.
func (f *field) near(r Rect) []int32 {
	f.found = f.found[:0]
	if f.cells == nil {
		for i := range f.boxes {
			if touches(&f.boxes[i], &r) {
				f.found = append(f.found, int32(i))
			}
		}
		return f.found
	}
	x0, x1 := f.column(r.X0), f.column(r.X1)
	for y := f.row(r.Y0); y <= f.row(r.Y1); y++ {
		for x := x0; x <= x1; x++ {
			for _, i := range f.cells[y*f.nx+x] {
				if touches(&f.boxes[i], &r) {
					f.found = append(f.found, i)
				}
			}
		}
	}
	return f.found
}

// touches is Overlaps for boxes that may be lines, thus without any width.
func touches(p, q *Rect) bool {
	return p.X0 <= q.X1 && q.X0 <= p.X1 && p.Y0 <= q.Y1 && q.Y0 <= p.Y1
}

// free reports whether a label may lie on r.
func (f *field) free(r Rect) bool {
	if !f.bounds.Holds(r) {
		return false
	}
	for _, i := range f.near(r) {
		t := &f.things[i]
		switch t.kind {
		case isBox:
			if f.boxes[i].Overlaps(r) {
				return false
			}
		case isLine:
			if r.Crosses(t.seg.A, t.seg.B) {
				return false
			}
		case isArc:
			if crossesArc(r, &t.seg) {
				return false
			}
		case isRing:
			if r.TouchesDisc(t.ring) && !r.InsideDisc(t.ring) {
				return false
			}
		}
	}
	return true
}

// open reports whether a leader may run from a to b. The opening of the owner
// does not stand in its way.
func (f *field) open(a, b geom.Point, owner int) bool {
	r := Rect{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}
	if !f.bounds.Holds(r) {
		return false
	}
	for _, i := range f.near(r) {
		t := &f.things[i]
		if !t.bars || owner != nobody && t.owner == owner {
			continue
		}
		switch t.kind {
		case isBox:
			if f.boxes[i].Crosses(a, b) {
				return false
			}
		case isLine:
			if linesCross(a, b, t.seg.A, t.seg.B) {
				return false
			}
		case isRing:
			if toLine(t.ring.C, a, b) < t.ring.R {
				return false
			}
		}
	}
	return true
}

// toLine is the distance from p to the straight line from a to b.
func toLine(p, a, b geom.Point) float64 {
	d := b.Sub(a)
	l2 := d.Dot(d)
	if l2 == 0 {
		return p.Dist(a)
	}
	t := min(max(p.Sub(a).Dot(d)/l2, 0), 1)
	return p.Dist(a.Add(d.Mul(t)))
}

func linesCross(a, b, c, d geom.Point) bool {
	ab, cd := b.Sub(a), d.Sub(c)
	return ab.Cross(c.Sub(a))*ab.Cross(d.Sub(a)) < 0 && cd.Cross(a.Sub(c))*cd.Cross(b.Sub(c)) < 0
}

// onArc reports whether p, a point of the arc's circle, belongs to the arc. An
// arc is half a turn at most, so it is all that lies on its own side of its
// chord.
func onArc(g *geom.Seg, p geom.Point) bool {
	return g.B.Sub(g.A).Cross(p.Sub(g.A))*g.Bulge <= 0
}

// crossesArc reports whether any of the arc lies within r: an end of it does,
// or it meets a side.
func crossesArc(r Rect, g *geom.Seg) bool {
	if r.Has(g.A) || r.Has(g.B) {
		return true
	}
	c := g.Circle()
	return meetsSide(r.X0, r.Y0, r.Y1, c, g, false) || meetsSide(r.X1, r.Y0, r.Y1, c, g, false) ||
		meetsSide(r.Y0, r.X0, r.X1, c, g, true) || meetsSide(r.Y1, r.X0, r.X1, c, g, true)
}

// meetsSide reports whether the arc meets the upright line at x = v, from y = lo
// to hi; with level set the level line at y = v, from x = lo to hi.
func meetsSide(v, lo, hi float64, c geom.Circle, g *geom.Seg, level bool) bool {
	u, w := c.C.X, c.C.Y
	if level {
		u, w = w, u
	}
	h2 := c.R*c.R - (v-u)*(v-u)
	if h2 < 0 {
		return false
	}
	h := math.Sqrt(h2)
	for _, q := range [2]float64{w - h, w + h} {
		if q < lo || q > hi {
			continue
		}
		p := geom.Point{X: v, Y: q}
		if level {
			p = geom.Point{X: q, Y: v}
		}
		if onArc(g, p) {
			return true
		}
	}
	return false
}

// cut forgets all things but the first n.
func (f *field) cut(n int) {
	f.boxes, f.things = f.boxes[:n], f.things[:n]
	if f.cells == nil {
		return
	}
	f.cells = nil
	if n > crowd {
		f.lay()
	}
}
