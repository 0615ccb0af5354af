package layout

import (
	"math"
	"sync/atomic"

	"blankwright/flat/geom"
)

// model is what is to be placed, in the form that the search works on. It does
// not change during the search but for the fields, which are made when first
// asked for.
type model struct {
	orients []orient
	kinds   []kind
	items   []int // kind of each copy
	fixed   []block
	bins    []bin
	size    float64 // of the largest piece, mm
	cells   int     // of a field
	fields  []atomic.Pointer[pairField]
	made    *atomic.Int64 // numbers held by fields
}

const (
	mostCells  = 1024    // of a field
	leastCells = 64      // where there are many fields
	manyPairs  = 3000    // fields that may have most cells
	mostHeld   = 1 << 25 // 4-byte numbers held by fields before all are forgotten
)

// kind is one piece in all its turns.
type kind struct {
	orients []int
	area    float64 // of the polygon, mm2
	outer   float64 // the same with its openings
}

// bin is a rectangle that pieces lie in: a strip, a sheet or the box round a
// remnant. All bins lie in one plane, far enough from each other.
type bin struct{ x0, y0, x1, y1 float64 }

// block is a fixed obstacle: what is not plate.
type block struct {
	orient int
	x, y   float64
}

// pairField is the field of an ordered pair of orients: the field of a pair that
// mirrors it, perhaps, asked at sign*(x,y)+(cx,cy).
type pairField struct {
	field
	sign, cx, cy float64
}

func (m *model) ready() {
	n := len(m.orients)
	m.fields = make([]atomic.Pointer[pairField], n*n)
	m.made = new(atomic.Int64)
	m.cells = min(max(mostCells*manyPairs/max(n*n/4, 1), leastCells), mostCells)
	if m.size > 0 { // blocks were added: they do not count
		return
	}
	for i := range m.orients {
		m.size = math.Max(m.size, math.Max(m.orients[i].w, m.orients[i].h))
	}
}

// pair gives the field of orient b moving about orient a.
func (m *model) pair(a, b int) *pairField {
	p := &m.fields[a*len(m.orients)+b]
	if f := p.Load(); f != nil {
		return f
	}
	f := m.makePair(a, b)
	p.Store(f)
	return f
}

func (m *model) makePair(a, b int) *pairField {
	oa, ob := &m.orients[a], &m.orients[b]
	if a > b {
		f := m.pair(b, a)
		return &pairField{f.field, -f.sign, f.cx, f.cy}
	}
	if a2, b2 := oa.opposite, ob.opposite; a2 >= 0 && b2 >= 0 && min(a2, b2) < a {
		// Both turned by half a turn about the middle of the first one's box.
		f := m.pair(a2, b2)
		cx, cy := oa.w-ob.w, oa.h-ob.h
		return &pairField{f.field, -f.sign, f.cx + f.sign*cx, f.cy + f.sign*cy}
	}
	return &pairField{field: *m.newField(oa, ob), sign: 1}
}

// newField makes a field. Where fields would take too much memory, those made
// so far are forgotten: they are made again when asked for.
func (m *model) newField(a, b *orient) *field {
	f := newField(a.parts, b.parts, m.size, m.cells)
	held := len(f.start) + len(f.list)/2 + 10*len(f.sides) + fieldOverhead
	if m.made.Add(int64(held)) > mostHeld {
		m.made.Store(0)
		for i := range m.fields {
			m.fields[i].Store(nil)
		}
	}
	return f
}

const fieldOverhead = 100 // numbers of a field's own, and of what points at it

// deep is the depth of b at (dx, dy) relative to a, and its way out.
func (f *pairField) deep(dx, dy float64) (d, nx, ny float64) {
	d, nx, ny = f.depth(f.sign*dx+f.cx, f.sign*dy+f.cy)
	return d, f.sign * nx, f.sign * ny
}

// how is deep without the way out.
func (f *pairField) how(dx, dy float64) float64 {
	return f.measure(f.sign*dx+f.cx, f.sign*dy+f.cy)
}

// addKind adds a piece by its region, the polygon that holds it and what lies
// within grow of it, and its turns; turns that give the same
// polygon as an earlier one are left out.
func (m *model) addKind(r geom.Region, grow float64, rings [][]geom.Point, turns []float64, eps float64) int {
	k := kind{}
	from := len(m.orients)
	for _, t := range turns {
		o := newOrient(rings, t)
		same := false
		for i := from; i < len(m.orients); i++ {
			same = same || o.like(&m.orients[i], eps)
		}
		if same {
			continue
		}
		o.parts = convexParts(o.rings)
		o.trimTo(r, grow)
		k.orients = append(k.orients, len(m.orients))
		m.orients = append(m.orients, o)
	}
	pairOpposites(m.orients, from, eps)
	k.outer = ringArea(rings[0])
	for _, r := range rings {
		k.area += ringArea(r)
	}
	m.kinds = append(m.kinds, k)
	return len(m.kinds) - 1
}

// placements are the motions of the items on a strip.
func (m *model) placements(spots []spot) []Placement {
	out := make([]Placement, 0, len(spots))
	copies := make([]int, len(m.kinds))
	for i, s := range spots {
		k := m.items[i]
		out = append(out, Placement{Piece: k, Copy: copies[k], Motion: m.orients[s.orient].motion(s)})
		copies[k]++
	}
	return out
}
