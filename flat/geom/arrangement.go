package geom

import (
	"errors"
	"math"
	"slices"
	"sync"

	"blankwright/flat/num"
)

// An arrangement is the planar graph that boolean operations and offsets work
// on: edges cut at all contacts, with shared nodes. It holds the scratch memory
// of one operation and is used again by the next.
//
// The steps: add edges; cut (find contacts, fuse nodes, make pieces); join
// pieces into chains between contact nodes; let the operation choose chains;
// trace the chosen ones into loops.
type arrangement struct {
	eps     float64
	careful bool       // see cutAtNodes
	area    [2]float64 // of each operand, its loops added up
	edges   []edge
	boxes   []box4
	runs    []run     // of edges, loop by loop
	spans   []stretch // runs of edges that follow each other
	pos     []Point   // of each node
	up      []int32   // union-find over nodes; the root is the oldest
	hot     []bool    // node takes part in a contact (valid at roots)

	cuts    []cut
	cutHead []int32 // per edge, -1 for none

	grid  grid
	found hits

	pieces []piece
	chains []chain

	// rings of half-edges round contact nodes
	ringAt  []int32 // per node: start in ring, or -1
	ringLen []int32 // per node
	ring    []spoke
	ringTmp []spoke
	doubt   []int32 // chains that leave a node in nearly the direction of another
	halfIn  []int32 // per node: list of half-edges
	halfNx  []int32 // per half-edge
	hotList []int32

	bal tally // scratch of the labelling
	win windings
	out tracer
	off offsetScratch
}

// stretch is a run of edges or pieces: the last is followed by the first if it is
// closed.
type stretch struct {
	from, to int32
	closed   bool
}

// run is the edges of one loop, and their box.
type run struct {
	from, to int32
	box      box4
}

// cut is a place where an edge is divided.
type cut struct {
	t    float64
	node int32
	next int32
}

// piece is an edge between two neighbouring nodes.
type piece struct{ edge, n0, n1 int32 }

// chain is a run of pieces between contact nodes, or a whole loop without any.
// Pieces from..to of the stretch, going round its end where wrap is set.
type chain struct {
	from, count int32
	stretch     int32
	n0, n1      int32 // n0 == -1: a loop without contacts
	rep         int32 // chain that stands for all that coincide with it
	dir         int8  // direction against rep
	own         int8
}

// box4 is a bounding box.
type box4 struct{ x0, y0, x1, y1 float64 }

func (b *box4) meets(c *box4) bool {
	return b.x0 <= c.x1 && c.x0 <= b.x1 && b.y0 <= c.y1 && c.y0 <= b.y1
}

func (b *box4) join(c box4) {
	b.x0, b.y0 = min(b.x0, c.x0), min(b.y0, c.y0)
	b.x1, b.y1 = max(b.x1, c.x1), max(b.y1, c.y1)
}

func (b *box4) holds(p Point) bool {
	return p.X >= b.x0 && p.X <= b.x1 && p.Y >= b.y0 && p.Y <= b.y1
}

// reaches reports whether p lies in b grown by tol.
func (b *box4) reaches(p Point, tol float64) bool {
	return p.X >= b.x0-tol && p.X <= b.x1+tol && p.Y >= b.y0-tol && p.Y <= b.y1+tol
}

// covers reports whether c lies in b, but for tol.
func (b *box4) covers(c *box4, tol float64) bool {
	return b.x0 <= c.x0+tol && b.y0 <= c.y0+tol && b.x1 >= c.x1-tol && b.y1 >= c.y1-tol
}

var noBox = box4{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

// box is the bounding box of the edge, grown by eps.
func (e *edge) box(eps float64) box4 {
	b := box4{e.a.X, e.a.Y, e.b.X, e.b.Y}
	if b.x0 > b.x1 {
		b.x0, b.x1 = b.x1, b.x0
	}
	if b.y0 > b.y1 {
		b.y0, b.y1 = b.y1, b.y0
	}
	if e.turn != 0 {
		// An arc of at most half a turn reaches an extreme of its circle where
		// the tangent changes sign between its ends.
		s := float64(e.turn)
		ax, ay := s*(e.a.X-e.c.X), s*(e.a.Y-e.c.Y)
		bx, by := s*(e.b.X-e.c.X), s*(e.b.Y-e.c.Y)
		half := math.Abs(e.bulge) > num.HalfTurnBulge
		if ay > 0 != (by > 0) || half {
			if e.c.X+e.r > b.x1 && e.between(Point{e.c.X + e.r, e.c.Y}) {
				b.x1 = e.c.X + e.r
			}
			if e.c.X-e.r < b.x0 && e.between(Point{e.c.X - e.r, e.c.Y}) {
				b.x0 = e.c.X - e.r
			}
		}
		if ax > 0 != (bx > 0) || half {
			if e.c.Y+e.r > b.y1 && e.between(Point{e.c.X, e.c.Y + e.r}) {
				b.y1 = e.c.Y + e.r
			}
			if e.c.Y-e.r < b.y0 && e.between(Point{e.c.X, e.c.Y - e.r}) {
				b.y0 = e.c.Y - e.r
			}
		}
	}
	return box4{b.x0 - eps, b.y0 - eps, b.x1 + eps, b.y1 + eps}
}

var arrangements = sync.Pool{New: func() any { return new(arrangement) }}

// borrow takes an empty arrangement of the given resolution from the pool.
func borrow(t trial) *arrangement {
	a := arrangements.Get().(*arrangement)
	a.reset(t.eps)
	a.careful = t.careful
	return a
}

// trial is one way of trying an operation: where outlines nearly touch at one
// resolution, they do or do not at another.
type trial struct {
	eps     float64 // in the table: multiple of num.Resolution
	careful bool
}

var trials = [...]trial{{1, false}, {1, true}, {0.25, true}, {4, true}, {1.0 / 16, true}, {16, true}}

// attempt calls f in one way after the other, until one gives a result.
func attempt(size float64, f func(trial) ([]Region, error)) (rs []Region, err error) {
	for _, t := range trials {
		if t.eps *= num.Resolution(size); t.eps > num.CoarseContact {
			continue
		}
		if rs, err = f(t); err == nil {
			return rs, nil
		}
	}
	return nil, err
}

// reserve makes room for n edges, so that memory for large shapes is not asked
// for again and again.
func (a *arrangement) reserve(n int) {
	a.edges = atLeast(a.edges, n)
	a.boxes = atLeast(a.boxes, n)
	a.pos, a.up, a.hot = atLeast(a.pos, n+n/4), atLeast(a.up, n+n/4), atLeast(a.hot, n+n/4)
	a.pieces = atLeast(a.pieces, n+n/2)
	a.grid.ent = atLeast(a.grid.ent, 3*n)
}

// atLeast gives an empty slice with room for n elements, reusing memory.
func atLeast[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, 0, n)
	}
	return s[:0]
}

// segments counts the segments of the regions.
func segments(rs []Region) int {
	n := 0
	for i := range rs {
		n += len(rs[i].Outer)
		for _, h := range rs[i].Holes {
			n += len(h)
		}
	}
	return n
}

// release gives the arrangement back. The result is the caller's alone.
func (a *arrangement) release() {
	a.out.segs, a.off.source = nil, nil
	arrangements.Put(a)
}

func (a *arrangement) reset(eps float64) {
	a.eps = eps
	a.area = [2]float64{}
	a.edges, a.boxes, a.spans, a.runs = a.edges[:0], a.boxes[:0], a.spans[:0], a.runs[:0]
	a.pos, a.up, a.hot = a.pos[:0], a.up[:0], a.hot[:0]
	a.cuts, a.pieces, a.chains = a.cuts[:0], a.pieces[:0], a.chains[:0]
	a.grid.on = false
	a.win.reset()
	a.off.reset()
}

// node makes a new node at p.
func (a *arrangement) node(p Point) int32 {
	n := int32(len(a.pos))
	a.pos = append(a.pos, p)
	a.up = append(a.up, n)
	a.hot = append(a.hot, false)
	return n
}

// root is the node that stands for all fused with n.
func (a *arrangement) root(n int32) int32 {
	for a.up[n] != n {
		a.up[n] = a.up[a.up[n]]
		n = a.up[n]
	}
	return n
}

// fuse makes two nodes one.
func (a *arrangement) fuse(n, m int32) {
	n, m = a.root(n), a.root(m)
	if n == m {
		return
	}
	if m < n {
		n, m = m, n
	}
	a.up[m] = n
	a.hot[n] = true
}

// What an operation can reject before it begins, or give up on.
var (
	errNotFinite = errors.New("a coordinate is not a finite number")
	errTooBig    = errors.New("a coordinate or radius is too large to be told apart to 1e-7 mm")
	errOpen      = errors.New("a loop is not closed: each segment must begin where the one before ends")
	errShort     = errors.New("a loop has fewer than two segments")
	errBulge     = errors.New("an arc turns through more than half a turn")
	errUnsure    = errors.New("the outlines nearly touch in a way that cannot be told apart")
)

// extent measures all coordinates and radii of the regions, and rejects what
// no operation can take.
func extent(rs []Region) (float64, error) {
	size := 0.0
	for i := range rs {
		if err := loopExtent(rs[i].Outer, &size); err != nil {
			return 0, err
		}
		for _, h := range rs[i].Holes {
			if err := loopExtent(h, &size); err != nil {
				return 0, err
			}
		}
	}
	return size, nil
}

func loopExtent(l Loop, size *float64) error {
	if len(l) == 0 {
		return nil
	}
	if len(l) == 1 {
		return errShort
	}
	v := *size
	p := &l[len(l)-1].B
	for i := range l {
		s := &l[i]
		x, y := math.Abs(s.A.X), math.Abs(s.A.Y)
		if !(x <= num.MaxCoordinate && y <= num.MaxCoordinate) {
			if num.Finite(x, y) {
				return errTooBig
			}
			return errNotFinite
		}
		v = max(v, x, y)
		if !num.Same(p.X, s.A.X) || !num.Same(p.Y, s.A.Y) {
			return errOpen
		}
		p = &s.B
		if s.Bulge != 0 {
			if !(math.Abs(s.Bulge) <= 1) {
				return errBulge
			}
			r := s.circ.R
			if r == 0 {
				r = BulgeSeg(s.A, s.B, s.Bulge).circ.R
			}
			if !(num.Resolution(r) <= num.CoarseContact) && num.Finite(r) {
				if s.A.Dist(s.B)*math.Abs(s.Bulge) > 2*num.Coincident {
					return errTooBig
				}
				r = 0
			}
			if !num.Finite(r) {
				return errNotFinite
			}
			v = max(v, r)
		}
	}
	*size = v
	return nil
}

// addRegions adds all loops of the regions as operand own, outer loops
// counter-clockwise and openings clockwise whichever way they run.
func (a *arrangement) addRegions(rs []Region, own int8) {
	for i := range rs {
		a.addLoop(rs[i].Outer, own, 1)
		for _, h := range rs[i].Holes {
			a.addLoop(h, own, -1)
		}
	}
}

// addLoop adds a closed loop, turned so that its area has the given sign. A
// segment shorter than the resolution is left out.
func (a *arrangement) addLoop(l Loop, own int8, sign float64) {
	if len(l) == 0 {
		return
	}
	from := int32(len(a.edges))
	o := l[0].A
	area := 0.0
	eps2 := a.eps * a.eps
	for i := range l {
		s := &l[i]
		next := &l[0]
		if i+1 < len(l) {
			next = &l[i+1]
		}
		if dist2(s.A, next.A) <= eps2 {
			continue
		}
		// Ends are the very coordinates of the next start.
		e := a.newEdge()
		e.set(s.A, next.A, s.Bulge, &s.circ, a.eps)
		area += (e.a.X-o.X)*(e.b.Y-o.Y) - (e.a.Y-o.Y)*(e.b.X-o.X)
		if e.turn != 0 {
			area += 2 * capArea(e.bulge, e.l*e.l)
		}
		e.own, e.src = own, int32(i)
	}
	to := int32(len(a.edges))
	if to-from < 2 {
		a.edges = a.edges[:from]
		return
	}
	if area*sign < 0 {
		area = -area
		slices.Reverse(a.edges[from:to])
		for i := from; i < to; i++ {
			e := &a.edges[i]
			e.a, e.b, e.bulge, e.turn = e.b, e.a, -e.bulge, -e.turn
		}
	}
	a.area[own] += area / 2
	first := int32(len(a.pos))
	for i := from; i < to; i++ {
		e := &a.edges[i]
		n := a.node(e.a)
		e.na, e.nb = n, n+1
	}
	a.edges[to-1].nb = first
	if e, f := &a.edges[to-1], &a.edges[from]; e.b != f.a {
		e.b = f.a // a short segment was left out there
	}
	for i := from; i < to-1; i++ {
		a.edges[i].b = a.edges[i+1].a
	}
	a.closeRun(from)
}

// newEdge appends an edge, not cleared.
func (a *arrangement) newEdge() *edge {
	n := len(a.edges)
	if n < cap(a.edges) {
		a.edges = a.edges[:n+1]
	} else {
		a.edges = append(a.edges, edge{})
	}
	return &a.edges[n]
}

// closeRun makes a loop of the edges from the given one on.
func (a *arrangement) closeRun(from int32) {
	to := int32(len(a.edges))
	all := noBox
	for i := from; i < to; i++ {
		b := a.edges[i].box(a.eps)
		all.join(b)
		a.boxes = append(a.boxes, b)
	}
	a.runs = append(a.runs, run{from, to, all})
	a.spans = append(a.spans, stretch{from, to, true})
}

// cutAll finds all contacts and divides the edges into pieces.
func (a *arrangement) cutAll() {
	n := len(a.edges)
	a.cutHead = resize(a.cutHead, n)
	for i := range a.cutHead {
		a.cutHead[i] = -1
	}
	if n <= num.FewEdges {
		for i := range a.runs {
			for j := range a.runs[:i+1] {
				if r, q := &a.runs[i], &a.runs[j]; r.box.meets(&q.box) {
					a.pairs(q, r)
				}
			}
		}
	} else {
		a.grid.lay(a.boxes, 0, false)
		a.grid.pairs(a.boxes, a.contact)
	}
	if len(a.cuts) > 0 {
		if a.careful {
			a.cutAtNodes()
		}
		a.sortCuts()
	}
	a.makePieces()
}

// pairs looks for contacts of the edges of two runs, or of one with itself: the
// edges of the longer that reach the shorter's box with all of the shorter.
func (a *arrangement) pairs(q, r *run) {
	if q.to-q.from < r.to-r.from {
		q, r = r, q
	}
	for i := q.from; i < q.to; i++ {
		b := &a.boxes[i]
		if !b.meets(&r.box) {
			continue
		}
		to := r.to
		if q == r {
			to = i
		}
		for j := r.from; j < to; j++ {
			if b.meets(&a.boxes[j]) {
				a.contact(min(i, j), max(i, j))
			}
		}
	}
}

// cutAtNodes cuts every edge at all nodes that it passes within reach, whatever
// edges made them. Without it the order of edges that stay within rounding of
// each other near a node of two of them is left to chance; that is rare enough
// to be done only when the plain way has failed.
func (a *arrangement) cutAtNodes() {
	reach := 2 * a.eps
	near := func(i, n int32) {
		p := a.pos[n]
		b := &a.boxes[i]
		if p.X < b.x0-reach || p.X > b.x1+reach || p.Y < b.y0-reach || p.Y > b.y1+reach {
			return
		}
		if e := &a.edges[i]; e.end(p, reach) == 0 && e.holds(p, reach) {
			a.cut(i, n)
		}
	}
	for n := range a.pos {
		n := int32(n)
		if a.root(n) != n {
			continue
		}
		if !a.grid.on {
			for i := range a.edges {
				near(int32(i), n)
			}
			continue
		}
		g := &a.grid
		for q := g.head[g.list(g.col(a.pos[n].X), g.row(a.pos[n].Y))]; q >= 0; q = g.ent[q].next {
			near(g.ent[q].id, n)
		}
	}
}

// contact records where edges i and j meet.
func (a *arrangement) contact(i, j int32) {
	e, f := &a.edges[i], &a.edges[j]
	if e.turn == 0 && f.turn == 0 {
		// Neighbours that do not fold back on each other meet only at their
		// shared node.
		if e.nb == f.na && cornerOnly(e.a, e.b, f.b) || f.nb == e.na && cornerOnly(f.a, f.b, e.b) {
			return
		}
	}
	h := &a.found
	meet(e, f, a.eps, h)
	for k := range h.h[:h.n] {
		c := &h.h[k]
		var m, n int32 = -1, -1
		switch c.e {
		case 1:
			m = e.na
		case 2:
			m = e.nb
		}
		switch c.f {
		case 1:
			n = f.na
		case 2:
			n = f.nb
		}
		switch {
		case m >= 0 && n >= 0:
			a.fuse(m, n)
		case m >= 0:
			a.cut(j, m)
		case n >= 0:
			a.cut(i, n)
		default:
			x := a.node(c.p)
			a.cut(i, x)
			a.cut(j, x)
		}
	}
}

// cornerOnly reports whether the lines p-q and q-r meet at q alone: they do
// not run back along each other.
func cornerOnly(p, q, r Point) bool {
	ux, uy := q.X-p.X, q.Y-p.Y
	vx, vy := r.X-q.X, r.Y-q.Y
	dot := ux*vx + uy*vy
	if dot >= 0 {
		return true
	}
	return math.Abs(ux*vy-uy*vx) > -num.Parallel*dot
}

// cut divides edge i at node n.
func (a *arrangement) cut(i, n int32) {
	e := &a.edges[i]
	a.hot[a.root(n)] = true
	a.cuts = append(a.cuts, cut{e.along(a.pos[n]), n, a.cutHead[i]})
	a.cutHead[i] = int32(len(a.cuts) - 1)
}

// sortCuts orders the cuts of every edge from its start, and fuses cuts that
// lie within rounding of each other or of an end.
func (a *arrangement) sortCuts() {
	near := num.Fuse * a.eps
	near *= near
	for i := range a.edges {
		h := a.cutHead[i]
		if h < 0 {
			continue
		}
		// Insertion sort of the list: edges have few cuts.
		var sorted int32 = -1
		for h >= 0 {
			next := a.cuts[h].next
			t := a.cuts[h].t
			if sorted < 0 || a.cuts[sorted].t >= t {
				a.cuts[h].next = sorted
				sorted = h
			} else {
				k := sorted
				for a.cuts[k].next >= 0 && a.cuts[a.cuts[k].next].t < t {
					k = a.cuts[k].next
				}
				a.cuts[h].next = a.cuts[k].next
				a.cuts[k].next = h
			}
			h = next
		}
		a.cutHead[i] = sorted
		e := &a.edges[i]
		prev := e.na
		for k := sorted; k >= 0; k = a.cuts[k].next {
			n := a.cuts[k].node
			if prev != n && dist2(a.pos[prev], a.pos[n]) <= near {
				a.fuse(prev, n)
			}
			prev = n
		}
		if prev != e.nb && dist2(a.pos[prev], a.pos[e.nb]) <= near {
			a.fuse(prev, e.nb)
		}
	}
}

// makePieces lists the edges as divided, stretch by stretch, and the chains between
// contact nodes.
func (a *arrangement) makePieces() {
	a.pieces = atLeast(a.pieces, len(a.edges)+len(a.cuts))
	a.chains = atLeast(a.chains, len(a.cuts)+len(a.runs))
	for s := range a.spans {
		sp := a.spans[s]
		from := int32(len(a.pieces))
		for i := sp.from; i < sp.to; i++ {
			e := &a.edges[i]
			n := a.root(e.na)
			for k := a.cutHead[i]; k >= 0; k = a.cuts[k].next {
				m := a.root(a.cuts[k].node)
				if m != n {
					a.pieces = append(a.pieces, piece{i, n, m})
				}
				n = m
			}
			if m := a.root(e.nb); m != n {
				a.pieces = append(a.pieces, piece{i, n, m})
			}
		}
		a.spans[s] = stretch{from, int32(len(a.pieces)), sp.closed}
		a.markFolds(from)
		a.makeChains(int32(s))
	}
}

// markFolds makes the tips where a run of pieces, from the given one on, turns
// back along itself contacts: chains that coincide must end there.
func (a *arrangement) markFolds(from int32) {
	ps := a.pieces[from:]
	for i := range ps {
		p, q := &ps[i], &ps[0]
		if i+1 < len(ps) {
			q = &ps[i+1]
		}
		if p.n1 != q.n0 || p.n0 != q.n1 || a.hot[p.n1] {
			continue
		}
		e, f := &a.edges[p.edge], &a.edges[q.edge]
		if f.holds(e.midBetween(a.pos[p.n0], a.pos[p.n1]), num.Fuse*a.eps) {
			a.hot[p.n1] = true
		}
	}
}

func (a *arrangement) makeChains(s int32) {
	sp := a.spans[s]
	if sp.from == sp.to {
		return
	}
	own := a.edges[a.pieces[sp.from].edge].own
	// Start at a contact node if there is one.
	start := int32(-1)
	for k := sp.from; k < sp.to; k++ {
		if a.hot[a.pieces[k].n0] {
			start = k
			break
		}
	}
	if start < 0 {
		id := int32(len(a.chains))
		a.chains = append(a.chains, chain{from: sp.from, count: sp.to - sp.from, stretch: s, n0: -1, n1: -1, rep: id, dir: 1, own: own})
		return
	}
	total := sp.to - sp.from
	for done := int32(0); done < total; {
		id := int32(len(a.chains))
		c := chain{from: start, stretch: s, n0: a.pieces[start].n0, rep: id, dir: 1, own: own}
		k := start
		for {
			c.count++
			done++
			c.n1 = a.pieces[k].n1
			if k++; k == sp.to {
				k = sp.from
			}
			if a.hot[c.n1] || done == total {
				break
			}
		}
		start = k
		a.chains = append(a.chains, c)
	}
}

// at is piece number i of a chain.
func (a *arrangement) at(c *chain, i int32) int32 {
	k := c.from + i
	if sp := &a.spans[c.stretch]; k >= sp.to {
		k -= sp.to - sp.from
	}
	return k
}

// resize gives a slice of n elements, reusing memory; the contents are not
// cleared.
func resize[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/4)
	}
	return s[:n]
}
