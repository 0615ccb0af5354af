package geom

import (
	"math"

	"blankwright/flat/num"
)

// step is a chain run in one direction.
type step struct {
	chain int32
	back  bool
}

// tracer joins chosen chains into loops and loops into regions.
type tracer struct {
	use   []int8  // per chain: 0 left out, 1 forwards, -1 backwards
	seen  []bool  // per chain: already traced
	meets []int32 // per contact node: chosen chains that begin there
	onWay []int32
	way   []step
	segs  []Seg
	src   []int32 // per segment: edge it came from
	open  []bool  // per segment: starts at a contact, may be joined with the one before
	loops []traced
}

// traced is one loop of the result.
type traced struct {
	from, to int32 // in segs
	area     float64
	box      box4
	host     int32
}

// trace joins the chains chosen in out.use into simple loops and gives the
// regions they bound. The inside lies to the left of every chosen chain. Where
// outlines touch at a node, each loop keeps to its own sector of the inside,
// and a loop that comes back to a node is parted there.
func (a *arrangement) trace() ([]Region, error) {
	t := &a.out
	t.loops = t.loops[:0]
	n := 0
	for i := range a.chains {
		if t.use[i] != 0 {
			n += int(a.chains[i].count)
		}
	}
	if n == 0 {
		return nil, nil
	}
	t.seen = resize(t.seen, len(a.chains))
	clear(t.seen)
	t.onWay = resize(t.onWay, len(a.pos))
	t.meets = resize(t.meets, len(a.pos))
	for _, v := range a.hotList {
		t.onWay[v], t.meets[v] = -1, 0
	}
	for i := range a.chains {
		if c := &a.chains[i]; c.n0 >= 0 && t.use[i] > 0 {
			t.meets[c.n0]++
		} else if c.n0 >= 0 && t.use[i] < 0 {
			t.meets[c.n1]++
		}
	}
	t.segs = make([]Seg, 0, n)
	t.src, t.open = t.src[:0], t.open[:0]
	for i := range a.chains {
		if t.use[i] == 0 || t.seen[i] {
			continue
		}
		first := step{int32(i), t.use[i] < 0}
		if a.chains[i].n0 < 0 {
			t.way = append(t.way[:0], first)
			t.seen[i] = true
			if !a.finish(t.way) {
				return nil, errUnsure
			}
			continue
		}
		if !a.walk(first) {
			return nil, errUnsure
		}
	}
	return a.nest()
}

// walk follows chosen chains from the first until it comes round to it again,
// and takes out a loop whenever the way comes back to a node.
func (a *arrangement) walk(first step) bool {
	t := &a.out
	s := first
	t.way = t.way[:0]
	for {
		if t.seen[s.chain] {
			return false
		}
		t.seen[s.chain] = true
		c := &a.chains[s.chain]
		from, to, half := c.n0, c.n1, 2*s.chain+1
		if s.back {
			from, to, half = to, from, 2*s.chain
		}
		t.onWay[from] = int32(len(t.way))
		t.way = append(t.way, s)
		if k := t.onWay[to]; k >= 0 {
			loop := t.way[k:]
			if !a.finish(loop) {
				return false
			}
			for _, p := range loop {
				c := &a.chains[p.chain]
				v := c.n0
				if p.back {
					v = c.n1
				}
				t.onWay[v] = -1
			}
			t.way = t.way[:k]
		}
		var ok bool
		if s, ok = a.next(to, half); !ok {
			return false
		}
		if s == first {
			return len(t.way) == 0
		}
	}
}

// next is the chosen chain that goes on from node v along the inside, for one
// who arrived by half-edge half.
func (a *arrangement) next(v, half int32) (step, bool) {
	if a.off.on && !a.off.ringed[v] {
		return a.onlyWay(v)
	}
	r := a.ring[a.ringAt[v] : a.ringAt[v]+a.ringLen[v]]
	at := -1
	for i := range r {
		if r[i].half == half {
			at = i
			break
		}
	}
	if at < 0 {
		return step{}, false
	}
	for i := 1; i < len(r); i++ {
		k := at - i
		if k < 0 {
			k += len(r)
		}
		h := r[k].half
		u := a.out.use[h/2]
		if u == 0 {
			continue
		}
		back := h&1 == 1
		return step{h / 2, back}, back == (u < 0)
	}
	return step{}, false
}

// finish takes a closed loop of chains into the result.
func (a *arrangement) finish(loop []step) bool {
	if a.off.on {
		keep, ok := a.measured(loop)
		if !ok || !keep {
			return ok
		}
	}
	a.emit(loop)
	return true
}

// emit writes a loop of chains as segments. Pieces of one edge that follow each
// other become one segment again.
func (a *arrangement) emit(way []step) {
	t := &a.out
	from := len(t.segs)
	t.src, t.open = t.src[:0], t.open[:0]
	edge, back := int32(-1), false
	var p, q Point
	hot := false
	for _, s := range way {
		c := &a.chains[s.chain]
		sp := &a.spans[c.stretch]
		k := c.from
		if s.back {
			k = a.at(c, c.count-1)
		}
		for i := int32(0); i < c.count; i++ {
			pc := &a.pieces[k]
			n0, n1 := pc.n0, pc.n1
			if s.back {
				n0, n1 = n1, n0
				if k--; k < sp.from {
					k = sp.to - 1
				}
			} else if k++; k == sp.to {
				k = sp.from
			}
			free := i == 0 && c.n0 >= 0 && t.meets[n0] == 1
			if pc.edge == edge && s.back == back && (free || i > 0) {
				q = a.pos[n1]
				continue
			}
			if edge >= 0 {
				a.write(edge, back, p, q, hot)
			}
			edge, back = pc.edge, s.back
			p, q, hot = a.pos[n0], a.pos[n1], free
		}
	}
	a.write(edge, back, p, q, hot)
	if n := len(t.segs); n-from > 2 && t.src[0] == t.src[n-1-from] && (t.segs[from].Bulge >= 0) == (t.segs[n-1].Bulge >= 0) && t.open[0] {
		// The walk began inside an edge.
		e := &a.edges[t.src[0]]
		if !back {
			t.segs[from] = e.part(t.segs[n-1].A, t.segs[from].B)
		} else {
			t.segs[from] = e.part(t.segs[from].B, t.segs[n-1].A).Reverse()
		}
		t.open[0] = t.open[n-1-from]
		t.segs = t.segs[:n-1]
	}
	t.segs = t.segs[:from+joinAlong(t.segs[from:], t.open, a.eps)]
	l := Loop(t.segs[from:])
	if len(l) < 2 {
		t.segs = t.segs[:from]
		return
	}
	area, length := l.quickMeasure()
	if math.Abs(area) <= num.Sliver*length/2 && math.Abs(area) <= num.Sliver*l.Perimeter()/2 {
		t.segs = t.segs[:from]
		return
	}
	t.loops = append(t.loops, traced{from: int32(from), to: int32(len(t.segs)), area: area})
}

// write adds the part of an edge from p to q to the result.
func (a *arrangement) write(edge int32, back bool, p, q Point, hot bool) {
	t := &a.out
	e := &a.edges[edge]
	if back {
		t.segs = append(t.segs, e.part(q, p).Reverse())
	} else {
		t.segs = append(t.segs, e.part(p, q))
	}
	t.src = append(t.src, edge)
	t.open = append(t.open, hot)
}

// joinAlong joins segments that go on along one line or circle at a contact,
// in place, and gives the number left. The first start is never moved past.
func joinAlong(l []Seg, open []bool, eps float64) int {
	k := 0
	for i := range l {
		if k > 1 && open[i] {
			if s, ok := joined(&l[k-1], &l[i]); ok {
				l[k-1] = s
				continue
			}
		}
		l[k], open[k] = l[i], open[i]
		k++
	}
	if k > 2 && open[0] {
		if s, ok := joined(&l[k-1], &l[0]); ok {
			l[0] = s
			k--
		}
	}
	return k
}

// joined is s and t as one segment, if they go on along one line or circle.
func joined(s, t *Seg) (Seg, bool) {
	if (s.Bulge == 0) != (t.Bulge == 0) {
		return Seg{}, false
	}
	if s.Bulge == 0 {
		dx, dy := t.B.X-s.A.X, t.B.Y-s.A.Y
		l := math.Sqrt(dx*dx + dy*dy)
		px, py := s.B.X-s.A.X, s.B.Y-s.A.Y
		if along := dx*px + dy*py; !(along > 0 && along < l*l) || math.Abs(dx*py-dy*px) > num.Collinear*l {
			return Seg{}, false
		}
		return Seg{A: s.A, B: t.B}, true
	}
	if (s.Bulge > 0) != (t.Bulge > 0) || !sameCircle(&s.circ, &t.circ) {
		return Seg{}, false
	}
	d := 1 - s.Bulge*t.Bulge
	b := (s.Bulge + t.Bulge) / d
	if !(d > 0) || math.Abs(b) > 1+num.Angular {
		return Seg{}, false
	}
	return Seg{A: s.A, B: t.B, Bulge: max(-1, min(1, b)), circ: s.circ}, true
}

func sameCircle(c, d *Circle) bool {
	return *c == *d || math.Abs(c.R-d.R) <= num.Collinear && math.Abs(c.C.X-d.C.X) <= num.Collinear && math.Abs(c.C.Y-d.C.Y) <= num.Collinear
}

// quickMeasure is the signed area of the loop, and a length not below its
// perimeter.
func (l Loop) quickMeasure() (area, length float64) {
	o := l[0].A
	px, py := 0.0, 0.0
	for i := range l {
		s := &l[i]
		qx, qy := s.B.X-o.X, s.B.Y-o.Y
		area += px*qy - py*qx
		dx, dy := qx-px, qy-py
		c2 := dx*dx + dy*dy
		if s.Bulge == 0 {
			length += math.Abs(dx) + math.Abs(dy)
		} else {
			area += 2 * capArea(s.Bulge, c2)
			length += math.Sqrt(c2) * math.Pi / 2
		}
		px, py = qx, qy
	}
	return area / 2, length
}

// capArea is the signed area between an arc and its chord, from bulge and
// squared chord length.
func capArea(b, c2 float64) float64 {
	b2 := b * b
	if b2 == 1 {
		return c2 * b * (math.Pi / 8)
	}
	if b2 < num.FlatBulge2 {
		// Series of the formula below, which cancels for flat arcs.
		return c2 * b * (1.0/3 + b2*(1.0/15-b2*(1.0/105-b2*(1.0/315-b2*(1.0/693-b2*(1.0/1287-b2*(1.0/2145)))))))
	}
	k := (1 + b2) / (4 * b) // radius over chord
	th := 4 * math.Atan(b)
	// sin θ = 4b(1-b²)/(1+b²)²
	sin := 4 * b * (1 - b2) / ((1 + b2) * (1 + b2))
	return c2 * k * k / 2 * (th - sin)
}

// nest gives every opening to the smallest outer loop around it. Loops do not
// cross, so a point of the opening decides.
func (a *arrangement) nest() ([]Region, error) {
	t := &a.out
	outers, holes := 0, 0
	for i := range t.loops {
		if t.loops[i].area > 0 {
			outers++
		} else {
			holes++
		}
	}
	if outers == 0 {
		if holes > 0 {
			return nil, errUnsure
		}
		return nil, nil
	}
	out := make([]Region, 0, outers)
	cut := func(i int) Loop { l := &t.loops[i]; return Loop(t.segs[l.from:l.to:l.to]) }
	if outers == 1 || holes == 0 {
		var hs []Loop
		if holes > 0 {
			hs = make([]Loop, 0, holes)
		}
		for i := range t.loops {
			if t.loops[i].area > 0 {
				out = append(out, Region{Outer: cut(i)})
			} else {
				hs = append(hs, cut(i))
			}
		}
		if holes > 0 {
			out[0].Holes = hs
		}
		return out, nil
	}
	for i := range t.loops {
		l := &t.loops[i]
		l.box = noBox
		for k := l.from; k < l.to; k++ {
			l.box.join(segBox(&t.segs[k]))
		}
		if l.area > 0 {
			l.host = int32(len(out))
			out = append(out, Region{Outer: cut(i)})
		}
	}
	for i := range t.loops {
		h := &t.loops[i]
		if h.area > 0 {
			continue
		}
		best := -1
		for k := range t.loops {
			o := &t.loops[k]
			if o.area > 0 && o.area > -h.area && (best < 0 || o.area < t.loops[best].area) &&
				o.box.covers(&h.box, num.Collinear) &&
				loopInside(cut(k), cut(i)) {
				best = k
			}
		}
		if best < 0 {
			return nil, errUnsure
		}
		r := &out[t.loops[best].host]
		r.Holes = append(r.Holes, cut(i))
	}
	return out, nil
}

// segBox is the bounding box of a segment, a little too large for an arc.
func segBox(s *Seg) box4 {
	b := box4{min(s.A.X, s.B.X), min(s.A.Y, s.B.Y), max(s.A.X, s.B.X), max(s.A.Y, s.B.Y)}
	if s.Bulge != 0 {
		e := makeEdge(s, 0)
		b = e.box(0)
	}
	return b
}

// loopInside reports whether h, which does not cross o, lies inside it: by the
// middle of its longest segment.
func loopInside(o, h Loop) bool {
	best, long := 0, -1.0
	for i := range h {
		if d := dist2(h[i].A, h[i].B); d > long {
			best, long = i, d
		}
	}
	return o.winds(h[best].Mid()) > 0
}

// winds is how often the loop winds round p, decided exactly but for places
// within rounding of an arc. It knows no "on the edge", unlike Contains.
func (l Loop) winds(p Point) int {
	w := int32(0)
	for i := range l {
		s := &l[i]
		e := edge{a: s.A, b: s.B, c: s.circ.C, r: s.circ.R}
		inside := false
		if s.Bulge != 0 {
			e.turn = 1
			if s.Bulge < 0 {
				e.turn = -1
			}
			e.m = s.Mid()
			e.m2 = dist2(e.m, e.a)
			inside = e.capHolds(p)
		}
		astride := (e.a.Y > p.Y) != (e.b.Y > p.Y)
		if astride || inside {
			left := e.offChord(p, false)
			w += e.cap(left, inside)
			if astride {
				w += e.chordRay(left, false)
			}
		}
	}
	return int(w)
}
