package geom

import (
	"errors"
	"math"

	"blankwright/flat/num"
)

// Join is how an offset goes round a corner that it opens.
type Join int8

const (
	Round Join = iota // an arc about the corner: every place within the distance
	Mitre             // the sides run on until they meet, as far as num.MitreLimit distances from the corner; beyond that round
)

func (j Join) String() string {
	if j == Mitre {
		return "mitre"
	}
	return "round"
}

var errDistance = errors.New("the offset distance is not a finite number, or too large")

// Offset moves the boundary of the regions by d, mm: d > 0 adds material
// (outers grow, openings shrink), d < 0 takes it away, whichever way the loops
// run. With round joins the result for d > 0 is every place within d of the
// regions; for d < 0 every place inside that is at least -d from the outside.
// Loops split, join and vanish as they must; arcs stay arcs about the same
// centres. Regions must each be valid (Validate); several are united first.
//
// Method: every segment is moved sideways, corners are joined, all contacts of
// the moved pieces are found, and what lies exactly |d| from the source is kept
// (after the pair-wise offset of Liu et al., An offset algorithm for polyline
// curves, Computers in Industry 58 (2007), doi:10.1016/j.compind.2006.06.002,
// with selection by distance on the cut pieces, so that no loop has to be told
// true from false by its turning). Results are certified as those of Union, and
// the distance is measured again along each loop. The error is an *OpError.
func Offset(rs []Region, d float64, join Join) ([]Region, error) {
	fail := func(err error) ([]Region, error) {
		return nil, &OpError{Op: "offset " + num.Signed(d) + " " + join.String(), Reason: err.Error(), A: rs}
	}
	size, err := extent(rs)
	if err == nil && !(math.Abs(d) <= num.MaxCoordinate) {
		err = errDistance
	}
	if err != nil {
		return fail(err)
	}
	src := rs
	if len(rs) > 1 || d == 0 {
		if src, err = Union(rs, nil); err != nil {
			return fail(errUnsure)
		}
		if d == 0 {
			return src, nil
		}
	}
	out, err := attempt(size+math.Abs(d), func(t trial) ([]Region, error) { return offsetAt(src, d, join, t) })
	if err == nil {
		return out, nil
	}
	return fail(err)
}

func offsetAt(rs []Region, d float64, join Join, t trial) ([]Region, error) {
	src := borrow(t)
	defer src.release()
	n := segments(rs)
	src.reserve(n)
	src.addRegions(rs, 0)
	if len(src.edges) == 0 {
		return nil, nil
	}
	a := borrow(t)
	defer a.release()
	a.reserve(n + n/2)
	o := &a.off
	o.on, o.source, o.d, o.join = true, src, d, join
	for i := range src.spans {
		a.raise(src.spans[i])
	}
	a.cutAll()
	if !a.prune() || !a.decide() {
		return nil, errUnsure
	}
	rs, err := a.trace()
	if err != nil {
		return nil, err
	}
	got := 0.0
	for i := range a.out.loops {
		got += a.out.loops[i].area
	}
	grown := got - src.area[0]
	if d < 0 {
		grown = -grown
	}
	slack := num.AreaSlack*(math.Abs(got)+src.area[0]) + 4*num.Sliver*o.length
	if grown < -slack || grown > o.swept+slack {
		return nil, errUnsure
	}
	return rs, nil
}

// offsetScratch is what an offset adds to an arrangement.
type offsetScratch struct {
	on     bool
	source *arrangement // its edges are the boundary to be offset
	d      float64
	join   Join
	swept  float64 // not less than the area between source and result
	length float64 // of all raw pieces
	wedges []wedge
	wboxes []box4
	wgrid  grid
	dead   []bool  // per chain
	in     []int32 // per node: chains in play that end here
	out    []int32 // per node: chains in play that begin here
	ringed []bool  // per node: has a ring
	todo   []int32
	list   []int32
}

func (o *offsetScratch) reset() {
	o.on, o.source = false, nil
	o.swept, o.length = 0, 0
	o.wedges, o.wgrid.on = o.wedges[:0], false
}

// wedge is the corner of a mitre: the kite of vertex v, the moved ends p and q,
// and the tip.
type wedge struct{ v, p, tip, q Point }

// raise adds the moved pieces of one source loop.
func (a *arrangement) raise(sp stretch) {
	o := &a.off
	src := o.source.edges[sp.from:sp.to]
	d := o.d
	sign := 1.0
	if d < 0 {
		sign = -1
	}
	near2 := a.eps * a.eps
	from := int32(len(a.edges))
	last := int32(-1) // node at the end of the piece before, -1 for none
	var lastAt Point
	firstEdge := from
	n := len(src)
	var tip Point                  // where the sides of a corner meet
	wait := false                  // the next line begins at the tip
	cutStart, cutFirst := 0.0, 0.0 // how much this edge lost at its start, the first at its end
	for i := range src {
		e := &src[i]
		f := &src[(i+1)%n]
		id := sp.from + int32(i)
		o.length += e.l
		// The piece itself.
		nx, ny := e.normalA()
		p := Point{e.a.X + d*nx, e.a.Y + d*ny}
		mx, my := e.normalB()
		q := Point{e.b.X + d*mx, e.b.Y + d*my}
		alive := true
		r := 0.0
		if e.turn != 0 {
			r = e.r + float64(e.turn)*d
			if r <= num.Fuse*a.eps {
				alive = false
				o.swept += 2 * e.bulge * float64(e.turn) * e.r * e.r
				if r > -num.Fuse*a.eps {
					p, q = e.c, e.c
				}
			} else {
				o.swept += 2 * e.bulge * float64(e.turn) * math.Abs(r*r-e.r*e.r)
			}
		} else {
			o.swept += e.l * math.Abs(d)
		}
		start := p
		if wait {
			start = tip
		}
		wait = false
		// The corner after it.
		gx, gy := f.normalA()
		w := Point{f.a.X + d*gx, f.a.Y + d*gy}
		cross := mx*gy - my*gx
		dot := mx*gx + my*gy
		smooth := dist2(q, w) <= near2
		opens := !smooth && cross*sign > 0
		if dot < 0 {
			// A cusp, if the sides part by their curvature before they do by their
			// angle: a spike of the inside where the boundary comes back to the
			// right of where it went, a notch where it does so to the left. Where the
			// angle says otherwise the sides cross once more; that is noise, or too
			// thin a lens to count.
			bend := e.curvature() + f.curvature()
			if 2*cross*cross <= a.eps*math.Abs(bend) || math.Abs(cross) <= num.CuspSine || thinLens(e, f, cross, bend) {
				opens = bend*sign < 0
			}
		}
		end := q
		var mitre bool
		if opens && o.join == Mitre && 1+dot > 2/(num.MitreLimit*num.MitreLimit) {
			mitre = true
			k := d / (1 + dot)
			tip = Point{e.b.X + k*(mx+gx), e.b.Y + k*(my+gy)}
			o.wedges = append(o.wedges, wedge{e.b, q, tip, w})
			o.swept += d * d * math.Sqrt((1-dot)/(1+dot)) // the kite
			if e.turn == 0 {
				end = tip
			}
		}
		meet := false // the sides are cut where they cross
		if !smooth && !opens && e.turn == 0 && f.turn == 0 && dot > -1+num.Parallel {
			c := math.Abs(d*cross) / (1 + dot)
			room := f.l
			if i == n-1 {
				room -= cutFirst
			}
			if c < e.l-cutStart-num.Coincident && c < room-num.Coincident {
				meet = true
				k := d / (1 + dot)
				tip = Point{e.b.X + k*(mx+gx), e.b.Y + k*(my+gy)}
				end = tip
				if i == 0 {
					cutFirst = c
				}
				cutStart = c
			}
		}
		if !meet {
			cutStart = 0
		}
		if alive {
			if last >= 0 && dist2(lastAt, start) > near2 {
				last = a.bare(last)
			}
			var c Circle
			if e.turn != 0 {
				c = Circle{e.c, r}
			}
			last = a.addPiece(Seg{A: start, B: end, Bulge: e.bulge, circ: c}, last, id)
			lastAt = end
		} else if last >= 0 && dist2(lastAt, p) <= near2 && p == q {
			lastAt = q // an arc shrunk to its centre: its neighbours meet there
		} else {
			last = a.bare(last)
		}
		switch {
		case smooth:
		case meet:
			wait = true
			if i == n-1 {
				a.stretchFirst(firstEdge, tip)
			}
		case mitre:
			if e.turn != 0 {
				last = a.addPiece(Seg{A: q, B: tip}, last, id)
			}
			lastAt = tip
			if f.turn == 0 {
				wait = true
				if i == n-1 {
					// The first piece of the loop is already there.
					a.stretchFirst(firstEdge, tip)
				}
			} else {
				last = a.addPiece(Seg{A: tip, B: w}, last, id)
				lastAt = w
			}
		case opens:
			if cross*sign < 0 {
				// More than half a turn: over the tip, in two arcs.
				tx, ty := gy-my, mx-gx
				k := sign * d / math.Sqrt(tx*tx+ty*ty)
				top := Point{e.b.X + k*tx, e.b.Y + k*ty}
				last = a.addJoin(e.b, q, top, sign > 0, last, id)
				q = top
			}
			last = a.addJoin(e.b, q, w, sign > 0, last, id)
			lastAt = w
		default:
			last = a.bare(last)
		}
	}
	to := int32(len(a.edges))
	if to == from {
		return
	}
	// Close the loop where its last piece ends at the first one's start.
	f := &a.edges[from]
	if last >= 0 && last != f.na && dist2(lastAt, f.a) <= near2 {
		e := &a.edges[to-1]
		e.b, e.nb = f.a, f.na
		a.hot[f.na] = false
	} else {
		a.bare(last)
	}
	a.closeRun(from)
}

// thinLens reports whether edges e and f, of which f goes back from e's end at
// an angle of the given sine, cross once more on their way, and lie no farther
// apart up to there than num.Coincident: such a loop counts as valid. bend is
// the sum of their curvatures.
func thinLens(e, f *edge, sine, bend float64) bool {
	sine, bend = math.Abs(sine), math.Abs(bend)
	// At a distance of t they are sine·t - bend·t²/2 apart: sine²/(2·bend) at
	// most. Twice num.Coincident, so that no valid loop falls on the border.
	return sine*sine <= 4*num.Coincident*bend && 2*sine < bend*min(e.l, f.l)
}

// stretchFirst moves the start of a loop's first piece to the tip of the mitre
// before it.
func (a *arrangement) stretchFirst(i int32, tip Point) {
	if int(i) >= len(a.edges) {
		return
	}
	e := &a.edges[i]
	na, nb, src := e.na, e.nb, e.src
	*e = makeEdge(&Seg{A: tip, B: e.b}, a.eps)
	e.na, e.nb, e.src = na, nb, src
	a.pos[na] = tip
}

// bare marks node n, if there is one, as the bare end of a run of pieces.
func (a *arrangement) bare(n int32) int32 {
	if n >= 0 {
		a.hot[n] = true
	}
	return -1
}

// addPiece adds a moved piece that goes on from node last, or from a bare end
// if last is negative, and gives the node at its end.
func (a *arrangement) addPiece(s Seg, last, src int32) int32 {
	if last < 0 {
		last = a.node(s.A)
		a.hot[last] = true // a bare end, unless the loop closes here
	}
	s.A = a.pos[last]
	if dist2(s.A, s.B) <= a.eps*a.eps {
		return last
	}
	n := a.node(s.B)
	e := a.newEdge()
	e.set(s.A, s.B, s.Bulge, &s.circ, a.eps)
	e.na, e.nb, e.src, e.own = last, n, src, 0
	return n
}

// addJoin adds the arc about corner v from p to q.
func (a *arrangement) addJoin(v, p, q Point, ccw bool, last, src int32) int32 {
	d := math.Abs(a.off.d)
	chord := math.Sqrt(dist2(p, q))
	mx, my := p.X+q.X-2*v.X, p.Y+q.Y-2*v.Y
	b := min(1, chord/(2*d+math.Sqrt(mx*mx+my*my)))
	a.off.swept += 2 * b * d * d
	if !ccw {
		b = -b
	}
	return a.addPiece(Seg{A: p, B: q, Bulge: b, circ: Circle{v, d}}, last, src)
}

// normalA is the unit normal to the right of the edge where it begins.
func (e *edge) normalA() (x, y float64) { return e.normalAt(e.a) }

// normalB is the unit normal to the right of the edge where it ends.
func (e *edge) normalB() (x, y float64) { return e.normalAt(e.b) }

func (e *edge) normalAt(p Point) (x, y float64) {
	if e.turn == 0 {
		return (e.b.Y - e.a.Y) / e.l, (e.a.X - e.b.X) / e.l
	}
	x, y = p.X-e.c.X, p.Y-e.c.Y
	k := float64(e.turn) / math.Sqrt(x*x+y*y)
	return x * k, y * k
}

// curvature is one over the radius, positive if the edge turns left.
func (e *edge) curvature() float64 {
	if e.turn == 0 {
		return 0
	}
	return float64(e.turn) / e.r
}

// nearness tells how a place lies to the source: covered if it is nearer than
// the offset distance by more than rounding (or inside a mitre's corner), held
// if some of the source lies at the distance.
func (a *arrangement) nearness(p Point) (covered, held bool) {
	o := &a.off
	s := o.source
	d := math.Abs(o.d)
	lo, hi := d-num.Depth*a.eps, d+num.Fuse*a.eps
	lo2, hi2 := lo*lo, hi*hi
	if lo < 0 {
		lo2 = 0
	}
	if len(o.wedges) > 0 && a.inWedge(p) {
		return true, false
	}
	b := box4{p.X - hi, p.Y - hi, p.X + hi, p.Y + hi}
	if len(s.edges) <= num.FewEdges {
		for i := range s.edges {
			if s.boxes[i].meets(&b) {
				q := s.edges[i].distance2(p)
				if q < lo2 {
					return true, false
				}
				held = held || q <= hi2
			}
		}
		return false, held
	}
	g := &s.grid
	if !g.on {
		g.lay(s.boxes, hi/num.NearCells, false)
		g.fill(s.boxes)
	}
	c0, c1, r0, r1 := g.col(b.x0), g.col(b.x1), g.row(b.y0), g.row(b.y1)
	for r := r0; r <= r1; r++ {
		for c := c0; c <= c1; c++ {
			for q := g.head[g.list(c, r)]; q >= 0; q = g.ent[q].next {
				i := g.ent[q].id
				if s.boxes[i].meets(&b) {
					q := s.edges[i].distance2(p)
					if q < lo2 {
						return true, false
					}
					held = held || q <= hi2
				}
			}
		}
	}
	return false, held
}

// inWedge reports whether p lies inside the corner of a mitre.
func (a *arrangement) inWedge(p Point) bool {
	o := &a.off
	tol := num.Depth * a.eps
	if len(o.wedges) <= num.FewEdges {
		for i := range o.wedges {
			if o.wedges[i].covers(p, tol) {
				return true
			}
		}
		return false
	}
	g := &o.wgrid
	if !g.on {
		o.wboxes = o.wboxes[:0]
		for i := range o.wedges {
			w := &o.wedges[i]
			b := noBox
			for _, q := range [4]Point{w.v, w.p, w.tip, w.q} {
				b.join(box4{q.X - a.eps, q.Y - a.eps, q.X + a.eps, q.Y + a.eps})
			}
			o.wboxes = append(o.wboxes, b)
		}
		g.lay(o.wboxes, 0, false)
		g.fill(o.wboxes)
	}
	for q := g.head[g.list(g.col(p.X), g.row(p.Y))]; q >= 0; q = g.ent[q].next {
		if i := g.ent[q].id; o.wboxes[i].holds(p) && o.wedges[i].covers(p, tol) {
			return true
		}
	}
	return false
}

// distance2 is the squared distance from p to the edge.
func (e *edge) distance2(p Point) float64 {
	if e.turn == 0 {
		dx, dy := e.b.X-e.a.X, e.b.Y-e.a.Y
		px, py := p.X-e.a.X, p.Y-e.a.Y
		t := dx*px + dy*py
		l2 := dx*dx + dy*dy
		if t > 0 && t < l2 {
			c := dx*py - dy*px
			return c * c / l2
		}
		return min(px*px+py*py, dist2(p, e.b))
	}
	vx, vy := p.X-e.c.X, p.Y-e.c.Y
	l := math.Sqrt(vx*vx + vy*vy)
	if l > 0 {
		if q := (Point{e.c.X + vx/l*e.r, e.c.Y + vy/l*e.r}); e.between(q) {
			return (l - e.r) * (l - e.r)
		}
	}
	return min(dist2(p, e.a), dist2(p, e.b))
}

// covers reports whether p lies in the kite, deeper than tol under its two
// outer sides.
func (w *wedge) covers(p Point, tol float64) bool {
	s := 1.0
	if (w.p.X-w.v.X)*(w.tip.Y-w.v.Y)-(w.p.Y-w.v.Y)*(w.tip.X-w.v.X) < 0 {
		s = -1
	}
	in := func(a, b Point, tol float64) bool {
		dx, dy := b.X-a.X, b.Y-a.Y
		return s*(dx*(p.Y-a.Y)-dy*(p.X-a.X)) > tol*math.Sqrt(dx*dx+dy*dy)
	}
	return in(w.v, w.p, -tol) && in(w.p, w.tip, tol) && in(w.tip, w.q, tol) && in(w.q, w.v, -tol)
}

// prune takes out chains that lead nowhere: a boundary goes on at both ends. A
// chain of any length so taken out has to be covered; one that is not shows
// that a contact was missed, and false is returned.
func (a *arrangement) prune() bool {
	o := &a.off
	a.attachAll()
	a.ring = a.ring[:0]
	n := len(a.pos)
	o.in, o.out, o.ringed = resize(o.in, n), resize(o.out, n), resize(o.ringed, n)
	o.dead = resize(o.dead, len(a.chains))
	clear(o.dead)
	for _, v := range a.hotList {
		o.in[v], o.out[v], o.ringed[v] = 0, 0, false
	}
	for i := range a.chains {
		if c := &a.chains[i]; c.n0 >= 0 {
			o.out[c.n0]++
			o.in[c.n1]++
		}
	}
	o.todo = o.todo[:0]
	for i := range a.chains {
		if c := &a.chains[i]; c.n0 >= 0 && (o.in[c.n0] == 0 || o.out[c.n1] == 0) {
			o.todo = append(o.todo, int32(i))
		}
	}
	return a.wither(true)
}

// wither takes out the chains on the list, and those that then lead nowhere.
func (a *arrangement) wither(test bool) bool {
	o := &a.off
	for len(o.todo) > 0 {
		i := o.todo[len(o.todo)-1]
		o.todo = o.todo[:len(o.todo)-1]
		if o.dead[i] {
			continue
		}
		if test && !a.coveredChain(i) {
			return false
		}
		a.kill(i)
	}
	return true
}

// kill takes out chain i and lists the neighbours that it leaves without a way
// on.
func (a *arrangement) kill(i int32) {
	o := &a.off
	c := &a.chains[i]
	o.dead[i] = true
	if o.out[c.n0]--; o.out[c.n0] == 0 {
		a.listHalves(c.n0, 1)
	}
	if o.in[c.n1]--; o.in[c.n1] == 0 {
		a.listHalves(c.n1, 0)
	}
}

// listHalves lists the living chains that end (odd 1) or begin (odd 0) at v.
func (a *arrangement) listHalves(v, odd int32) {
	for h := a.halfIn[v]; h >= 0; h = a.halfNx[h] {
		if h&1 == odd && !a.off.dead[h/2] {
			a.off.todo = append(a.off.todo, h/2)
		}
	}
}

// coveredChain reports whether chain i is covered by the source at its middle,
// or too short to tell.
func (a *arrangement) coveredChain(i int32) bool {
	c := &a.chains[i]
	k, l2 := a.longest(c)
	if l2 <= num.Stub*num.Stub {
		return true
	}
	p := a.sample(k)
	if a.coveredNearby(p, a.edges[a.pieces[k].edge].src) {
		return true
	}
	covered, _ := a.nearness(p)
	return covered || a.wrongSide(p)
}

// coveredNearby reports whether p is covered by one of the source segments next
// to segment src: a quick answer that is nearly always yes for a piece that
// leads nowhere.
func (a *arrangement) coveredNearby(p Point, src int32) bool {
	s := a.off.source
	lo := math.Abs(a.off.d) - num.Depth*a.eps
	for _, by := range [...]int32{1, -1, 0, 2, -2} {
		i := src + by
		if i >= 0 && int(i) < len(s.edges) && lo > 0 && s.edges[i].distance2(p) < lo*lo {
			return true
		}
	}
	return false
}

// sample is a place on piece k.
func (a *arrangement) sample(k int32) Point {
	pc := &a.pieces[k]
	return a.edges[pc.edge].within(a.pos[pc.n0], a.pos[pc.n1])
}

// wrongSide reports whether p, no nearer to the source than the distance, lies
// on the side away from the offset. That happens where loops touch at a vertex
// only: the way from the vertex to p then leads through another loop.
func (a *arrangement) wrongSide(p Point) bool {
	return a.off.source.holdsPlace(p) == (a.off.d > 0)
}

// longest is the longest of the first pieces of a chain, and its squared chord.
func (a *arrangement) longest(c *chain) (int32, float64) {
	best, long := int32(0), -1.0
	for i := int32(0); i < c.count && i < num.LabelTries; i++ {
		k := a.at(c, i)
		p := &a.pieces[k]
		if d := dist2(a.pos[p.n0], a.pos[p.n1]); d > long {
			best, long = k, d
		}
	}
	return best, long
}

// decide settles the nodes where several chains go on: covered ones are taken
// out, of those that coincide one is kept if all run one way, and none if they
// run against each other (a gap closed exactly).
func (a *arrangement) decide() bool {
	o := &a.off
	o.list = o.list[:0]
	for i := range a.chains {
		c := &a.chains[i]
		if c.n0 >= 0 && !o.dead[i] && (o.in[c.n0] > 1 || o.out[c.n0] > 1 || o.in[c.n1] > 1 || o.out[c.n1] > 1) {
			o.list = append(o.list, int32(i))
		}
	}
	for _, i := range o.list {
		k, _ := a.longest(&a.chains[i])
		p := a.sample(k)
		if a.coveredNearby(p, a.edges[a.pieces[k].edge].src) {
			a.kill(i)
		} else if covered, _ := a.nearness(p); covered || a.wrongSide(p) {
			a.kill(i)
		}
	}
	if !a.wither(true) {
		return false
	}
	for _, v := range a.hotList {
		if (o.in[v] > 1 || o.out[v] > 1) && a.sortRing(v) {
			a.thin(v)
		}
	}
	if !a.wither(true) {
		return false
	}
	a.ring = a.ring[:0]
	for _, v := range a.hotList {
		if o.in[v] != o.out[v] {
			return false
		}
		if o.in[v] > 1 {
			o.ringed[v] = true
			if a.sortRing(v) {
				return false
			}
		}
	}
	a.out.use = resize(a.out.use, len(a.chains))
	for i := range a.chains {
		a.out.use[i] = 1
		if o.dead[i] {
			a.out.use[i] = 0
		}
	}
	return true
}

// thin leaves at most one of the chains that coincide at node v.
func (a *arrangement) thin(v int32) {
	r := a.ring[a.ringAt[v] : a.ringAt[v]+a.ringLen[v]]
	for i := 0; i < len(r); {
		k := i + 1
		both := false
		for ; k < len(r) && r[k].same; k++ {
			both = both || (r[k].half^r[i].half)&1 == 1
		}
		if k > i+1 {
			for j := i; j < k; j++ {
				if c := r[j].half / 2; (both || j > i) && !a.off.dead[c] {
					a.kill(c)
				}
			}
		}
		i = k
	}
}

// onlyWay is the one living chain that begins at v.
func (a *arrangement) onlyWay(v int32) (step, bool) {
	for h := a.halfIn[v]; h >= 0; h = a.halfNx[h] {
		if h&1 == 0 && !a.off.dead[h/2] {
			return step{h / 2, false}, true
		}
	}
	return step{}, false
}

// measured measures a loop of the result against the source. A loop that is
// covered, or on the wrong side, all along is none (keep is false); one that is
// partly so, or leaves the distance, is not to be trusted (ok is false).
func (a *arrangement) measured(loop []step) (keep, ok bool) {
	total := int32(0)
	for _, s := range loop {
		total += a.chains[s.chain].count
	}
	stride := 1 + total/num.OffsetSamples
	out, free := 0, 0
	ok = a.samples(loop, stride, func(p Point) bool {
		covered, held := a.nearness(p)
		if covered || out+free == 0 && a.wrongSide(p) {
			out++
			return true
		}
		free++
		return held || a.off.join == Mitre
	})
	if !ok || out == 0 || free == 0 {
		return free > 0, ok
	}
	// Only what lies on the wrong side may be free beside covered pieces.
	return false, a.samples(loop, stride, func(p Point) bool {
		covered, _ := a.nearness(p)
		return covered || a.wrongSide(p)
	})
}

// samples calls f for a place on every stride-th piece of the loop, as long as
// it answers true.
func (a *arrangement) samples(loop []step, stride int32, f func(Point) bool) bool {
	at := int32(0)
	for _, s := range loop {
		c := &a.chains[s.chain]
		for ; at < c.count; at += stride {
			if !f(a.sample(a.at(c, at))) {
				return false
			}
		}
		at -= c.count
	}
	return true
}
