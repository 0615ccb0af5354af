package geom

import (
	"cmp"
	"slices"
)

// fan is how many boxes a node of a tree holds: eight keep a node in a few
// cache lines.
const fan = 8

// tree is a packed tree of boxes: items in Hilbert order, each level the boxes
// of fan neighbours of the level below. Built once, never changed.
//
// I. Kamel and C. Faloutsos, "On packing R-trees", CIKM 1993, DOI
// 10.1145/170088.170403.
type tree struct {
	boxes []box4  // all levels, items first, root last
	start []int   // where each level starts in boxes, and the end
	items []int32 // the item of each box of the first level
}

func (b *Box) box4() box4 { return box4{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y} }

// gap2 is the square of the distance between two boxes.
func (r *box4) gap2(q *box4) float64 {
	var dx, dy float64
	if d := q.x0 - r.x1; d > 0 {
		dx = d
	} else if d := r.x0 - q.x1; d > 0 {
		dx = d
	}
	if d := q.y0 - r.y1; d > 0 {
		dy = d
	} else if d := r.y0 - q.y1; d > 0 {
		dy = d
	}
	return dx*dx + dy*dy
}

// newTree packs n items, whose boxes must hold something.
func newTree(n int, box func(i int) Box) *tree {
	t := &tree{}
	if n == 0 {
		return t
	}
	total := 0
	for m := n; ; m = (m + fan - 1) / fan {
		t.start = append(t.start, total)
		total += m
		if m == 1 {
			break
		}
	}
	t.start = append(t.start, total)
	t.boxes = make([]box4, n, total)
	t.items = make([]int32, n)
	t.order(n, box)
	for level := 0; level+2 < len(t.start); level++ {
		from, to := t.start[level], t.start[level+1]
		for ; from < to; from += fan {
			r := t.boxes[from]
			for _, c := range t.boxes[from+1 : min(from+fan, to)] {
				r.join(c)
			}
			t.boxes = append(t.boxes, r)
		}
	}
	return t
}

// order fills the first level in Hilbert order of the boxes' middles.
func (t *tree) order(n int, box func(i int) Box) {
	type keyed struct {
		key  uint32
		item int32
		box  box4
	}
	all := make([]keyed, n)
	whole := noBox
	for i := range all {
		b := box(i)
		r := b.box4()
		all[i].item, all[i].box = int32(i), r
		whole.join(r)
	}
	if n > fan {
		size := max(whole.x1-whole.x0, whole.y1-whole.y0)
		k := 0.0
		if size > 0 {
			k = 65535 / size
		}
		for i := range all {
			r := &all[i].box
			all[i].key = hilbert(uint32(((r.x0+r.x1)/2-whole.x0)*k), uint32(((r.y0+r.y1)/2-whole.y0)*k))
		}
		slices.SortFunc(all, func(a, b keyed) int {
			if a.key != b.key {
				return cmp.Compare(a.key, b.key)
			}
			return cmp.Compare(a.item, b.item)
		})
	}
	for i := range all {
		t.boxes[i], t.items[i] = all[i].box, all[i].item
	}
}

// hilbert is the place of (x, y), each below 2^16, on the Hilbert curve.
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
		d += s * s * ((3 * rx) ^ ry)
		if ry == 0 {
			if rx == 1 {
				x, y = 65535-x, 65535-y
			}
			x, y = y, x
		}
	}
	return d
}

// treeStack is deep enough for any tree: a level leaves at most fan-1 nodes
// waiting, and 11 levels hold more items than an int32 counts.
const treeStack = 12 * fan

// search visits all items whose boxes lie within d of the box q.
func (t *tree) search(q *Box, d float64, visit func(item int)) {
	r := q.box4()
	t.nearest(&r, d*d, func(item int, _ float64) float64 {
		visit(item)
		return d * d
	})
}

// nearest visits the items whose boxes lie within a distance of q whose square
// is limit2, nearer boxes first at each node. visit gives the limit, squared,
// from there on.
func (t *tree) nearest(q *box4, limit2 float64, visit func(item int, limit2 float64) float64) {
	if len(t.boxes) == 0 {
		return
	}
	type entry struct {
		box, level int
		d2         float64
	}
	var stack [treeStack]entry
	stack[0] = entry{len(t.boxes) - 1, len(t.start) - 2, t.boxes[len(t.boxes)-1].gap2(q)}
	for n := 1; n > 0; {
		n--
		e := stack[n]
		if e.d2 > limit2 {
			continue
		}
		if e.level == 0 {
			limit2 = visit(int(t.items[e.box]), limit2)
			continue
		}
		below, end := t.start[e.level-1], t.start[e.level]
		first := below + (e.box-end)*fan
		bottom := n
		for c := first; c < min(first+fan, end); c++ {
			d2 := t.boxes[c].gap2(q)
			if d2 > limit2 {
				continue
			}
			k := n
			for ; k > bottom && stack[k-1].d2 < d2; k-- {
				stack[k] = stack[k-1]
			}
			stack[k] = entry{c, e.level - 1, d2}
			n++
		}
	}
}
