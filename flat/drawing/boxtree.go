package drawing

import (
	"slices"

	"blankwright/flat/geom"
)

// rect is an upright box, mm.
type rect struct{ x0, y0, x1, y1 float64 }

func rectOf(s *geom.Seg, grow float64) rect {
	b := s.Bounds()
	return rect{b.Min.X - grow, b.Min.Y - grow, b.Max.X + grow, b.Max.Y + grow}
}

func (r *rect) meets(q *rect) bool {
	return r.x0 <= q.x1 && q.x0 <= r.x1 && r.y0 <= q.y1 && q.y0 <= r.y1
}

func (r *rect) join(q *rect) {
	r.x0, r.y0, r.x1, r.y1 = min(r.x0, q.x0), min(r.y0, q.y0), max(r.x1, q.x1), max(r.y1, q.y1)
}

// fanOut is how many boxes share one box of the level above.
const fanOut = 8

// boxTree is a packed R-tree: boxes in the order of a Hilbert curve through
// their middles, eight to a box of the next level. I. Kamel and C. Faloutsos,
// "On packing R-trees", CIKM 1993, DOI 10.1145/170088.170403.
type boxTree struct {
	ids    []int32  // of the boxes, in the tree's order
	levels [][]rect // the boxes themselves first
}

// newBoxTree makes a tree of n boxes; box gives the i-th, and false to leave it
// out.
func newBoxTree(n int, box func(i int) (rect, bool)) *boxTree {
	rects := make([]rect, 0, n)
	ids := make([]int32, 0, n)
	var all rect
	for i := range n {
		r, ok := box(i)
		if !ok {
			continue
		}
		if len(rects) == 0 {
			all = r
		}
		all.join(&r)
		rects, ids = append(rects, r), append(ids, int32(i))
	}
	t := &boxTree{ids: make([]int32, len(ids))}
	leaves := make([]rect, len(rects))
	for to, from := range hilbertOrder(rects, all) {
		leaves[to], t.ids[to] = rects[from], ids[from]
	}
	t.levels = [][]rect{leaves}
	for len(leaves) > 1 {
		up := make([]rect, (len(leaves)+fanOut-1)/fanOut)
		for i := range up {
			up[i] = leaves[i*fanOut]
			for j := i*fanOut + 1; j < min(len(leaves), (i+1)*fanOut); j++ {
				up[i].join(&leaves[j])
			}
		}
		t.levels = append(t.levels, up)
		leaves = up
	}
	return t
}

// hilbertOrder lists the boxes along the curve.
func hilbertOrder(rects []rect, all rect) []uint32 {
	const side = 1 << 16
	scale := func(lo, hi float64) float64 {
		if hi > lo {
			return (side - 1) / (hi - lo)
		}
		return 0
	}
	kx, ky := scale(all.x0, all.x1), scale(all.y0, all.y1)
	keys := make([]uint64, len(rects))
	for i := range rects {
		r := &rects[i]
		x, y := ((r.x0+r.x1)/2-all.x0)*kx, ((r.y0+r.y1)/2-all.y0)*ky
		keys[i] = uint64(hilbert(uint32(x), uint32(y)))<<32 | uint64(i)
	}
	slices.Sort(keys)
	order := make([]uint32, len(keys))
	for i, k := range keys {
		order[i] = uint32(k)
	}
	return order
}

// hilbert is how far along the Hilbert curve a cell of 2^16 by 2^16 lies. The
// quadrants are entered one by one, each turned so that the curve in it runs the
// same way (D. Hilbert, Mathematische Annalen 38 (1891)).
func hilbert(x, y uint32) uint32 {
	var d uint32
	for s := uint32(1 << 15); s > 0; s >>= 1 {
		var rx, ry uint32
		if x&s != 0 {
			rx = 1
		}
		if y&s != 0 {
			ry = 1
		}
		d = d<<2 | (3*rx ^ ry)
		if ry == 0 {
			if rx == 1 {
				x, y = ^x, ^y
			}
			x, y = y, x
		}
	}
	return d
}

// budget bounds a search.
type budget struct {
	boxes int // that may still be looked at
	hits  int // that may still be found
}

func (b *budget) spent() bool { return b.boxes < 0 || b.hits < 0 }

// find calls f with each box that meets r, until the budget is spent.
func (t *boxTree) find(r *rect, b *budget, f func(id int32)) {
	if len(t.ids) > 0 {
		t.walk(len(t.levels)-1, 0, r, b, f)
	}
}

func (t *boxTree) walk(level, i int, r *rect, b *budget, f func(id int32)) {
	if level == 0 {
		if t.levels[0][i].meets(r) {
			b.hits--
			f(t.ids[i])
		}
		return
	}
	below := t.levels[level-1]
	end := min(len(below), (i+1)*fanOut)
	b.boxes -= fanOut
	if b.spent() {
		return
	}
	for j := i * fanOut; j < end; j++ {
		if below[j].meets(r) {
			t.walk(level-1, j, r, b, f)
		}
	}
}
