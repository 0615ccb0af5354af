package drawing

import (
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// node is a place where ends meet: within num.Coincident of the first of them.
type node struct {
	first int32 // end; the others follow by assembler.next
	count int32
}

// sharing is a node where lines of several layers pass through.
type sharing struct{ end, other int32 }

// ends calls f with the ends at a node.
func (a *assembler) ends(n *node, f func(e int32)) {
	for e := n.first; e >= 0; e = a.next[e] {
		f(e)
	}
}

// findNodes gathers ends that lie in one place.
func (a *assembler) findNodes() {
	n := 2 * len(a.pieces)
	a.next = make([]int32, n)
	a.nodes = make([]node, 0, len(a.pieces)+1)
	last := make([]int32, 0, len(a.pieces)+1) // the end that was added last, by node
	h := newPlaceHash(len(a.pieces) + 1)
	for e := range int32(n) {
		a.next[e] = -1
		if a.pieces[e>>1].gone {
			continue
		}
		p := a.at(e)
		k := h.find(p, func(id int32) bool { return close2(a.at(a.nodes[id].first), p, num.Coincident) })
		if k < 0 {
			h.add(p, int32(len(a.nodes)))
			a.nodes = append(a.nodes, node{e, 1})
			last = append(last, e)
			continue
		}
		a.next[last[k]] = e
		last[k] = e
		a.nodes[k].count++
	}
}

// placeHash finds what was put within num.Coincident of a place. Its cells are
// a few times as wide, so that one cell mostly is enough.
type placeHash struct {
	heads []int32
	cells []placeCell
}

type placeCell struct {
	x, y     int64
	id, next int32
}

const cellWidth = 8 * num.Coincident

func newPlaceHash(n int) *placeHash {
	size := 8
	for size < 2*n {
		size *= 2
	}
	h := &placeHash{heads: make([]int32, size), cells: make([]placeCell, 0, n)}
	for i := range h.heads {
		h.heads[i] = -1
	}
	return h
}

func cellOf(v float64) int64 { return int64(math.Floor(v / cellWidth)) }

func (h *placeHash) slot(x, y int64) *int32 {
	k := uint64(x)*0x9E3779B97F4A7C15 ^ uint64(y)*0xC2B2AE3D27D4EB4F
	k ^= k >> 31
	k *= 0x9E3779B97F4A7C15
	return &h.heads[(k>>20)&uint64(len(h.heads)-1)]
}

func (h *placeHash) add(p geom.Point, id int32) {
	x, y := cellOf(p.X), cellOf(p.Y)
	slot := h.slot(x, y)
	h.cells = append(h.cells, placeCell{x, y, id, *slot})
	*slot = int32(len(h.cells) - 1)
}

// find gives what was put near p and is accepted; -1 for nothing.
func (h *placeHash) find(p geom.Point, accept func(id int32) bool) int32 {
	x0, x1 := cellOf(p.X-num.Coincident), cellOf(p.X+num.Coincident)
	y0, y1 := cellOf(p.Y-num.Coincident), cellOf(p.Y+num.Coincident)
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			for k := *h.slot(x, y); k >= 0; k = h.cells[k].next {
				if c := &h.cells[k]; c.x == x && c.y == y && accept(c.id) {
					return c.id
				}
			}
		}
	}
	return -1
}

// mateNodes joins the ends at each node where it is plain which belong together:
// two at a node, or two of one layer among more. What is left at a node is a
// loose end, or a knot of three or more.
func (a *assembler) mateNodes() {
	a.mate = make([]int32, 2*len(a.pieces))
	for i := range a.mate {
		a.mate[i] = -1
	}
	var at []int32
	for i := range a.nodes {
		n := &a.nodes[i]
		switch n.count {
		case 1:
		case 2:
			a.join(n.first, a.next[n.first])
		default:
			at = at[:0]
			a.ends(n, func(e int32) { at = append(at, e) })
			a.mateLayers(at)
		}
	}
}

func (a *assembler) join(e, f int32) { a.mate[e], a.mate[f] = f, e }

// mateLayers joins the ends at a node layer by layer; ends that are left over
// are pooled.
func (a *assembler) mateLayers(at []int32) {
	slices.SortStableFunc(at, func(e, f int32) int { return a.layerOf(e>>1) - a.layerOf(f>>1) })
	var pool []int32
	pairs := int32(-1)
	for len(at) > 0 {
		n := 1
		for n < len(at) && a.layerOf(at[n]>>1) == a.layerOf(at[0]>>1) {
			n++
		}
		group := at[:n]
		at = at[n:]
		switch {
		case n == 2:
			a.join(group[0], group[1])
			if pairs >= 0 {
				a.shared = append(a.shared, sharing{pairs, group[0]})
			}
			pairs = group[0]
		case n%2 == 1:
			pool = append(pool, group...)
		default:
			a.knots = append(a.knots, slices.Clone(group))
		}
	}
	switch {
	case len(pool) == 2:
		a.join(pool[0], pool[1])
	case len(pool) > 2:
		a.knots = append(a.knots, pool)
	}
}

// untieKnots joins the ends at places where three or more meet. Lines that lead
// nowhere from there are left aside; of the others, two that come back to each
// other belong together, then neighbours in the file.
func (a *assembler) untieKnots() {
	if len(a.knots) == 0 {
		return
	}
	core := a.core()
	for _, k := range a.knots {
		var in, out []int32
		for _, e := range k {
			if core[e>>1] {
				in = append(in, e)
			} else {
				out = append(out, e)
			}
		}
		switch {
		case len(k) > mostInNode:
			a.tellKnot(Branch, k[0], len(k))
			a.setStuck(k)
		case len(in) >= 2:
			if len(in)%2 == 1 {
				a.tellKnot(Branch, in[0], len(in))
			} else if len(in) > 2 {
				a.tellKnot(Touching, in[0], len(in))
			}
			a.pairUp(in)
			a.setStuck(out)
		default:
			if len(k) > 2 {
				a.tellKnot(Branch, k[0], len(k))
			}
			a.pairUp(k)
		}
	}
}

// core finds the pieces that are left when, again and again, pieces with an end
// that nothing else shares are taken away: those that may close outlines.
func (a *assembler) core() []bool {
	place := make([]int32, len(a.mate)) // of each end
	var degree []int32
	visit := func(ends ...int32) {
		for _, e := range ends {
			place[e] = int32(len(degree))
		}
		degree = append(degree, int32(len(ends)))
	}
	for i := range place {
		place[i] = -1
	}
	for _, k := range a.knots {
		visit(k...)
	}
	for e := range int32(len(a.mate)) {
		if a.pieces[e>>1].gone || place[e] >= 0 {
			continue
		}
		if m := a.mate[e]; m >= 0 {
			visit(e, m)
		} else {
			visit(e)
		}
	}
	core := make([]bool, len(a.pieces))
	at := make([][]int32, len(a.knots)) // pieces at knots, others by mate
	copy(at, a.knots)
	var leaves []int32
	for i := range a.pieces {
		core[i] = !a.pieces[i].gone
		if core[i] && (degree[place[2*i]] == 1 || degree[place[2*i+1]] == 1) {
			leaves = append(leaves, int32(i))
		}
	}
	for len(leaves) > 0 {
		i := leaves[len(leaves)-1]
		leaves = leaves[:len(leaves)-1]
		if !core[i] {
			continue
		}
		core[i] = false
		for _, e := range [2]int32{2 * i, 2*i + 1} {
			p := place[e]
			degree[p]--
			if degree[p] != 1 {
				continue
			}
			if m := a.mate[e]; m >= 0 {
				leaves = append(leaves, m>>1)
			} else if int(p) < len(at) {
				for _, f := range at[p] {
					if core[f>>1] {
						leaves = append(leaves, f>>1)
					}
				}
			}
		}
	}
	return core
}

// pairUp joins ends in one place two by two.
func (a *assembler) pairUp(ends []int32) {
	left := slices.Clone(ends)
	remove := func(e, f int32) {
		a.join(e, f)
		left = slices.DeleteFunc(left, func(g int32) bool { return g == e || g == f })
	}
	for _, e := range ends {
		if f := a.follower(e); a.mate[e] < 0 && f >= 0 && slices.Contains(left, f) {
			remove(e, f)
		}
	}
	for _, e := range ends {
		if a.mate[e] >= 0 {
			continue
		}
		if f := a.far(e); f != e && a.mate[f] < 0 && slices.Contains(left, f) {
			remove(e, f)
		}
	}
	for len(left) > 1 {
		e, f := a.nearestInFile(left)
		remove(e, f)
	}
	a.setStuck(left)
}

// setStuck notes ends that hang on lines that go on without them.
func (a *assembler) setStuck(ends []int32) {
	for _, e := range ends {
		a.stuck[e] = true
	}
}

// follower is the end that its own shape says follows on e: -1 for none.
func (a *assembler) follower(e int32) int32 {
	f := e - 1
	if e&1 == 1 {
		f = e + 1
	}
	if f < 0 || int(f) >= len(a.mate) || a.pieces[f>>1].gone || a.pieces[f>>1].shape != a.pieces[e>>1].shape || a.mate[f] >= 0 {
		return -1
	}
	return f
}

// far is the end at which one arrives going away from e.
func (a *assembler) far(e int32) int32 {
	for start := e; ; {
		f := e ^ 1
		m := a.mate[f]
		if m < 0 || m == start {
			return f
		}
		e = m
	}
}

// nearestInFile are the two ends whose pieces are nearest in the file, of one
// layer before of two.
func (a *assembler) nearestInFile(ends []int32) (e, f int32) {
	best := math.MaxInt
	for i, x := range ends {
		for _, y := range ends[i+1:] {
			d := int(x>>1) - int(y>>1)
			if d < 0 {
				d = -d
			}
			if a.layerOf(x>>1) != a.layerOf(y>>1) {
				d += len(a.pieces)
			}
			if d < best {
				best, e, f = d, x, y
			}
		}
	}
	return e, f
}
