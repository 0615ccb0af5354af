package geom

import (
	"cmp"
	"math"
	"slices"
)

// Index answers which of many loops are near: built once in n log n, each
// question then costs about log n. It may be used from several goroutines. The
// loops must not change meanwhile.
//
// All distances are between boundaries, as LoopLoop gives them.
type Index struct {
	loops []indexed
	items []indexItem
	tree  *tree
}

// indexed is a loop with what is asked of it again and again.
type indexed struct {
	loop  Loop
	box   Box
	circ  Circle
	round bool // the loop is the whole circle circ
}

// indexItem is what the tree finds: a short loop as a whole (seg < 0) or one
// segment of a long one.
type indexItem struct{ loop, seg int32 }

// wholeLoop is how many segments a loop may have to be looked at as a whole.
const wholeLoop = 8

func (x *indexed) small() bool { return x.round || len(x.loop) <= wholeLoop }

// Hit is an indexed loop and its distance from what was asked about: P lies on
// that, Q on the loop.
type Hit struct {
	Loop int // its place among the loops given to NewIndex
	Near
}

// Pair is two indexed loops, I < J, and their distance: P lies on loop I, Q on
// loop J.
type Pair struct {
	I, J int
	Near
}

// NewIndex makes an index of the loops, numbered as given. Empty loops are
// never found.
func NewIndex(loops ...Loop) *Index {
	x := &Index{loops: make([]indexed, len(loops)), items: make([]indexItem, 0, len(loops))}
	for i, l := range loops {
		x.loops[i] = look(l)
		if len(l) == 0 {
			continue
		}
		if x.loops[i].small() {
			x.items = append(x.items, indexItem{int32(i), -1})
			continue
		}
		for j := range l {
			x.items = append(x.items, indexItem{int32(i), int32(j)})
		}
	}
	x.tree = newTree(len(x.items), func(k int) Box {
		it := x.items[k]
		if it.seg < 0 {
			return x.loops[it.loop].box
		}
		return x.loops[it.loop].loop[it.seg].Bounds()
	})
	return x
}

func look(l Loop) indexed {
	c, round := l.Circle()
	if round {
		return indexed{l, Box{Point{c.C.X - c.R, c.C.Y - c.R}, Point{c.C.X + c.R, c.C.Y + c.R}, true}, c, true}
	}
	return indexed{l, l.Bounds(), c, false}
}

// NearestPoint is the indexed loop whose boundary is nearest to p, among those
// that keep accepts (nil accepts all). ok is false if there is none.
func (x *Index) NearestPoint(p Point, keep func(loop int) bool) (h Hit, ok bool) {
	h = Hit{-1, Near{math.Inf(1), p, p}}
	q := box4{p.X, p.Y, p.X, p.Y}
	x.tree.nearest(&q, math.Inf(1), func(k int, limit2 float64) float64 {
		it := x.items[k]
		if keep != nil && !keep(int(it.loop)) {
			return limit2
		}
		var n Near
		switch l := &x.loops[it.loop]; {
		case l.round:
			n = pointCircle(p, l.circ)
		case it.seg < 0:
			n = PointLoop(p, l.loop)
		default:
			n = PointSeg(p, l.loop[it.seg])
		}
		h.take(int(it.loop), n)
		return h.D * h.D
	})
	return h, h.Loop >= 0
}

// take keeps the nearer, of equally near loops the first.
func (h *Hit) take(loop int, n Near) {
	if n.D < h.D || n.D == h.D && loop < h.Loop {
		*h = Hit{loop, n}
	}
}

// Nearest is the indexed loop nearest to l among those that keep accepts (nil
// accepts all). ok is false if there is none.
func (x *Index) Nearest(l Loop, keep func(loop int) bool) (h Hit, ok bool) {
	q := look(l)
	h = Hit{-1, Near{D: math.Inf(1)}}
	x.nearest(&q, keep, &h)
	return h, h.Loop >= 0
}

// nearest betters h by the loop nearest to q. A long loop asks segment by
// segment, so that boxes stay small.
func (x *Index) nearest(q *indexed, keep func(loop int) bool, h *Hit) {
	if q.small() {
		x.nearestPart(q, keep, h)
		return
	}
	for i := range q.loop {
		part := q.part(i)
		x.nearestPart(&part, keep, h)
	}
}

func (x *Index) nearestPart(q *indexed, keep func(loop int) bool, h *Hit) {
	if len(q.loop) == 0 {
		return
	}
	r := q.box.box4()
	x.tree.nearest(&r, h.D*h.D, func(k int, limit2 float64) float64 {
		it := x.items[k]
		if keep != nil && !keep(int(it.loop)) {
			return limit2
		}
		h.take(int(it.loop), x.distance(q, it))
		return min(limit2, h.D*h.D)
	})
}

// part is segment i as a loop of its own.
func (x *indexed) part(i int) indexed {
	return indexed{loop: x.loop[i : i+1], box: x.loop[i].Bounds()}
}

func (x *Index) distance(q *indexed, it indexItem) Near {
	l := &x.loops[it.loop]
	if it.seg < 0 {
		return q.near(l)
	}
	part := indexed{loop: l.loop[it.seg : it.seg+1]}
	return q.near(&part)
}

// Within are all indexed loops no farther than d mm from l that keep accepts
// (nil accepts all), in the order of their numbers.
func (x *Index) Within(l Loop, d float64, keep func(loop int) bool) []Hit {
	q := look(l)
	return x.within(&q, d, keep)
}

func (x *Index) within(q *indexed, d float64, keep func(loop int) bool) []Hit {
	var hits []Hit
	if q.small() {
		hits = x.withinPart(q, d, keep, hits)
	} else {
		for i := range q.loop {
			part := q.part(i)
			hits = x.withinPart(&part, d, keep, hits)
		}
	}
	slices.SortStableFunc(hits, func(a, b Hit) int {
		return cmp.Or(cmp.Compare(a.Loop, b.Loop), cmp.Compare(a.D, b.D))
	})
	return slices.CompactFunc(hits, func(a, b Hit) bool { return a.Loop == b.Loop })
}

func (x *Index) withinPart(q *indexed, d float64, keep func(loop int) bool, hits []Hit) []Hit {
	if len(q.loop) == 0 || !(d >= 0) {
		return hits
	}
	x.tree.search(&q.box, d, func(k int) {
		it := x.items[k]
		if keep != nil && !keep(int(it.loop)) {
			return
		}
		if n := x.distance(q, it); n.D <= d {
			hits = append(hits, Hit{int(it.loop), n})
		}
	})
	return hits
}

// Pairs are all pairs of indexed loops no farther than d mm from each other, in
// the order of their numbers. With d = +Inf it is every pair there is.
func (x *Index) Pairs(d float64) []Pair {
	var pairs []Pair
	if math.IsInf(d, 1) {
		return x.allPairs()
	}
	for i := range x.loops {
		q := &x.loops[i]
		// Each pair is asked about once, by its shorter loop.
		after := func(j int) bool {
			m, n := len(q.loop), len(x.loops[j].loop)
			return m < n || m == n && i < j
		}
		for _, h := range x.within(q, d, after) {
			if h.Loop > i {
				pairs = append(pairs, Pair{i, h.Loop, h.Near})
			} else {
				pairs = append(pairs, Pair{h.Loop, i, h.turned()})
			}
		}
	}
	slices.SortFunc(pairs, func(a, b Pair) int {
		return cmp.Or(cmp.Compare(a.I, b.I), cmp.Compare(a.J, b.J))
	})
	return pairs
}

func (x *Index) allPairs() []Pair {
	n := len(x.loops)
	pairs := make([]Pair, 0, n*(n-1)/2)
	for i := range x.loops {
		for j := i + 1; j < n; j++ {
			if a, b := &x.loops[i], &x.loops[j]; len(a.loop) > 0 && len(b.loop) > 0 {
				pairs = append(pairs, Pair{i, j, a.near(b)})
			}
		}
	}
	return pairs
}

// Closest is the pair of indexed loops with the least distance. ok is false
// with fewer than two loops.
func (x *Index) Closest() (p Pair, ok bool) {
	best := Pair{-1, -1, Near{D: math.Inf(1)}}
	for i := range x.loops {
		h := Hit{-1, Near{D: best.D}}
		x.nearest(&x.loops[i], func(j int) bool { return j > i }, &h)
		if h.Loop >= 0 && (h.D < best.D || best.I < 0) {
			best = Pair{i, h.Loop, h.Near}
		}
	}
	return best, best.I >= 0
}

// near is LoopLoop for loops already looked at.
func (x *indexed) near(y *indexed) Near {
	switch {
	case x.round && y.round:
		return circleCircle(x.circ, y.circ)
	case x.round:
		return circleLoop(x, y.loop)
	case y.round:
		return circleLoop(y, x.loop).turned()
	}
	return segmentsNear(x.loop, y.loop)
}

// circleLoop is the distance from the whole circle c to the loop.
func circleLoop(c *indexed, l Loop) Near {
	n := PointLoop(c.circ.C, l)
	if n.D < c.circ.R {
		return segmentsNear(c.loop, l) // part of l lies in the disc
	}
	k := c.circ.R / n.D
	return Near{n.D - c.circ.R, Point{
		c.circ.C.X + (n.Q.X-c.circ.C.X)*k,
		c.circ.C.Y + (n.Q.Y-c.circ.C.Y)*k,
	}, n.Q}
}

// pointCircle is the distance from p to the circle's line.
func pointCircle(p Point, c Circle) Near {
	ux, uy := p.X-c.C.X, p.Y-c.C.Y
	n := norm(ux, uy)
	if n == 0 {
		return Near{c.R, p, Point{c.C.X + c.R, c.C.Y}}
	}
	k := c.R / n
	return Near{abs(n - c.R), p, Point{c.C.X + ux*k, c.C.Y + uy*k}}
}

// circleCircle is the distance between the lines of two circles.
func circleCircle(a, b Circle) Near {
	ux, uy := b.C.X-a.C.X, b.C.Y-a.C.Y
	d := norm(ux, uy)
	if d == 0 {
		ux, uy = 1, 0
	} else {
		ux, uy = ux/d, uy/d
	}
	switch {
	case d >= a.R+b.R: // apart
		return Near{d - a.R - b.R,
			Point{a.C.X + ux*a.R, a.C.Y + uy*a.R},
			Point{b.C.X - ux*b.R, b.C.Y - uy*b.R}}
	case d <= a.R-b.R: // b in a
		return Near{a.R - b.R - d,
			Point{a.C.X + ux*a.R, a.C.Y + uy*a.R},
			Point{b.C.X + ux*b.R, b.C.Y + uy*b.R}}
	case d <= b.R-a.R: // a in b
		return Near{b.R - a.R - d,
			Point{a.C.X - ux*a.R, a.C.Y - uy*a.R},
			Point{b.C.X - ux*b.R, b.C.Y - uy*b.R}}
	}
	x := (d + (a.R-b.R)*(a.R+b.R)/d) / 2
	y := math.Sqrt(max(0, (a.R-x)*(a.R+x)))
	p := Point{a.C.X + x*ux - y*uy, a.C.Y + x*uy + y*ux}
	return Near{0, p, p}
}
