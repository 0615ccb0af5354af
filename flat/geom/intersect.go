package geom

import (
	"math"
	"slices"

	"blankwright/flat/num"
)

// edge is a segment prepared for contact tests. An arc of at most half a turn
// holds exactly the points of its circle that lie no farther from its middle m
// than its ends do: one well-conditioned test, without angles.
type edge struct {
	a, b  Point
	c     Point   // centre of an arc
	r     float64 // radius of an arc
	m     Point   // middle of an arc
	m2    float64 // squared distance from m to the ends
	l     float64 // length of the chord
	bulge float64
	na    int32 // node of a
	nb    int32 // node of b
	src   int32 // source segment, where the caller needs it
	turn  int8  // 0 line, 1 counter-clockwise, -1 clockwise
	own   int8  // operand
}

// makeEdge is s prepared for tests at resolution eps.
func makeEdge(s *Seg, eps float64) (e edge) {
	e.set(s.A, s.B, s.Bulge, &s.circ, eps)
	return e
}

// set prepares the edge for tests at resolution eps. An arc that is flat within
// eps becomes a line. An arc whose ends do not lie on the circle that it
// carries gets the circle through its ends.
func (e *edge) set(a, b Point, bulge float64, circ *Circle, eps float64) {
	dx, dy := b.X-a.X, b.Y-a.Y
	e.a, e.b, e.l = a, b, math.Sqrt(dx*dx+dy*dy)
	e.bulge, e.turn = 0, 0
	if bulge == 0 || math.Abs(bulge)*e.l <= 2*eps {
		return
	}
	e.bulge, e.turn = bulge, 1
	if bulge < 0 {
		e.turn = -1
	}
	e.c, e.r = circ.C, circ.R
	if off := 2 * e.r * eps; e.r <= 0 || math.Abs(dist2(a, e.c)-e.r*e.r) > off || math.Abs(dist2(b, e.c)-e.r*e.r) > off {
		k := BulgeSeg(a, b, bulge).circ
		e.c, e.r = k.C, k.R
	}
	if math.Abs(bulge) > num.DeepBulge {
		k := float64(e.turn) * e.r / e.l
		e.m = Point{e.c.X + k*dy, e.c.Y - k*dx}
	} else {
		e.m = Point{(a.X+b.X)/2 + bulge/2*dy, (a.Y+b.Y)/2 - bulge/2*dx}
	}
	e.m2 = (dist2(a, e.m) + dist2(b, e.m)) / 2
}

// dist2 is the squared distance between two points.
func dist2(p, q Point) float64 {
	dx, dy := p.X-q.X, p.Y-q.Y
	return dx*dx + dy*dy
}

// hit is one contact of two edges: where, and at which end of each (0 inside
// the edge, 1 at a, 2 at b).
type hit struct {
	p    Point
	e, f uint8
}

// hits collects the contacts of one pair: at most four at ends and two inside.
type hits struct {
	n int
	h [8]hit
}

func (o *hits) add(p Point, e, f uint8) {
	if o.n == len(o.h) {
		return // more than two edges can have: they are all within reach of each other
	}
	o.h[o.n] = hit{p, e, f}
	o.n++
}

// has reports whether an end of e or f is already in a contact.
func (o *hits) has(e, f uint8) bool {
	for i := range o.h[:o.n] {
		h := &o.h[i]
		if e != 0 && h.e == e || f != 0 && h.f == f {
			return true
		}
	}
	return false
}

// repeats reports whether the edges, which cross at p, run within reach of each
// other from there to an end already in a contact. At a small angle rounding
// moves a crossing at an end far along; it is the end all the same.
func (o *hits) repeats(p Point, e, f *edge, eps float64) bool {
	for i := range o.h[:o.n] {
		if h := &o.h[i]; (h.e != 0 || h.f != 0) && f.holds(e.midBetween(p, h.p), num.Fuse*eps) {
			return true
		}
	}
	return false
}

// meet finds all contacts of e and f within eps. Ends come before computed
// crossings. Along an overlap it finds the ends of the overlap.
func meet(e, f *edge, eps float64, out *hits) {
	out.n = 0
	switch {
	case e.turn == 0 && f.turn == 0:
		meetLines(e, f, eps, out)
	case e.turn == 0:
		meetLineArc(e, f, eps, out)
	case f.turn == 0:
		meetLineArc(f, e, eps, out)
		for i := range out.h[:out.n] {
			h := &out.h[i]
			h.e, h.f = h.f, h.e
		}
	default:
		meetArcs(e, f, eps, out)
	}
}

func meetLines(e, f *edge, eps float64, out *hits) {
	ex, ey := e.b.X-e.a.X, e.b.Y-e.a.Y
	fx, fy := f.b.X-f.a.X, f.b.Y-f.a.Y
	tf := eps * f.l
	d1 := fx*(e.a.Y-f.a.Y) - fy*(e.a.X-f.a.X)
	d2 := fx*(e.b.Y-f.a.Y) - fy*(e.b.X-f.a.X)
	if d1 > tf && d2 > tf || d1 < -tf && d2 < -tf {
		return
	}
	te := eps * e.l
	d3 := ex*(f.a.Y-e.a.Y) - ey*(f.a.X-e.a.X)
	d4 := ex*(f.b.Y-e.a.Y) - ey*(f.b.X-e.a.X)
	if d3 > te && d4 > te || d3 < -te && d4 < -te {
		return
	}
	close := math.Abs(d1) <= tf || math.Abs(d2) <= tf || math.Abs(d3) <= te || math.Abs(d4) <= te
	if close {
		meetEnds(e, f, eps, out)
		if out.n > 0 {
			return
		}
	}
	if (d1 < 0) != (d2 < 0) && (d3 < 0) != (d4 < 0) {
		t := d1 / (d1 - d2)
		p := Point{e.a.X + t*ex, e.a.Y + t*ey}
		if close {
			// Signs of noise: on one line, but apart.
			crossing(p, e, f, eps, out)
		} else {
			out.add(p, 0, 0)
		}
	}
}

// meetEnds finds the contacts at the ends of either edge.
func meetEnds(e, f *edge, eps float64, out *hits) {
	q := eps * eps
	var ea, eb, fa, fb bool
	if dist2(e.a, f.a) <= q {
		out.add(e.a, 1, 1)
		ea, fa = true, true
	}
	if dist2(e.a, f.b) <= q {
		out.add(e.a, 1, 2)
		ea, fb = true, true
	}
	if dist2(e.b, f.a) <= q {
		out.add(e.b, 2, 1)
		eb, fa = true, true
	}
	if dist2(e.b, f.b) <= q {
		out.add(e.b, 2, 2)
		eb, fb = true, true
	}
	if !ea && f.holds(e.a, eps) {
		out.add(e.a, 1, 0)
	}
	if !eb && f.holds(e.b, eps) {
		out.add(e.b, 2, 0)
	}
	if !fa && e.holds(f.a, eps) {
		out.add(f.a, 0, 1)
	}
	if !fb && e.holds(f.b, eps) {
		out.add(f.b, 0, 2)
	}
}

// holds reports whether p lies on the edge, between its ends, within eps.
func (e *edge) holds(p Point, eps float64) bool {
	if e.turn == 0 {
		dx, dy := e.b.X-e.a.X, e.b.Y-e.a.Y
		px, py := p.X-e.a.X, p.Y-e.a.Y
		if math.Abs(dx*py-dy*px) > eps*e.l {
			return false
		}
		t := dx*px + dy*py
		return t > 0 && t < e.l*e.l
	}
	return math.Abs(dist2(p, e.c)-e.r*e.r) <= 2*e.r*eps && dist2(p, e.m) < e.m2
}

// end tells at which end of the edge p lies (0: at none).
func (e *edge) end(p Point, eps float64) uint8 {
	if dist2(p, e.a) <= eps*eps {
		return 1
	}
	if dist2(p, e.b) <= eps*eps {
		return 2
	}
	return 0
}

// between reports whether p, known to lie on the edge's line or circle, lies
// between its ends.
func (e *edge) between(p Point) bool {
	if e.turn == 0 {
		dx, dy := e.b.X-e.a.X, e.b.Y-e.a.Y
		t := dx*(p.X-e.a.X) + dy*(p.Y-e.a.Y)
		return t > 0 && t < e.l*e.l
	}
	return dist2(p, e.m) < e.m2
}

// crossing adds a computed meeting of the two carriers if both edges reach it,
// and names the ends that it falls on.
func crossing(p Point, e, f *edge, eps float64, out *hits) {
	i, j := e.end(p, eps), f.end(p, eps)
	if i == 0 && !e.between(p) || j == 0 && !f.between(p) {
		return
	}
	if i == 0 && j == 0 && out.repeats(p, e, f, eps) {
		return
	}
	if i != 0 || j != 0 {
		if out.has(i, j) {
			return
		}
		if i != 0 {
			p = e.a
			if i == 2 {
				p = e.b
			}
		} else if j == 1 {
			p = f.a
		} else {
			p = f.b
		}
	}
	out.add(p, i, j)
}

func meetLineArc(e, f *edge, eps float64, out *hits) {
	ux, uy := (e.b.X-e.a.X)/e.l, (e.b.Y-e.a.Y)/e.l
	cx, cy := f.c.X-e.a.X, f.c.Y-e.a.Y
	h := ux*cy - uy*cx
	if math.Abs(h) > f.r+eps {
		return
	}
	t := ux*cx + uy*cy
	if math.Abs(h) >= f.r-eps {
		meetEnds(e, f, eps, out)
		crossing(Point{e.a.X + t*ux, e.a.Y + t*uy}, e, f, eps, out)
		return
	}
	s := math.Sqrt((f.r - h) * (f.r + h))
	meetEnds(e, f, eps, out)
	for _, v := range [2]float64{t - s, t + s} {
		if v >= -eps && v <= e.l+eps {
			crossing(Point{e.a.X + v*ux, e.a.Y + v*uy}, e, f, eps, out)
		}
	}
}

func meetArcs(e, f *edge, eps float64, out *hits) {
	dx, dy := f.c.X-e.c.X, f.c.Y-e.c.Y
	d2 := dx*dx + dy*dy
	sum, dif := e.r+f.r, e.r-f.r
	if d2 > (sum+eps)*(sum+eps) {
		return
	}
	gap := math.Abs(dif)
	if gap > eps && d2 < (gap-eps)*(gap-eps) {
		return
	}
	meetEnds(e, f, eps, out)
	d := math.Sqrt(d2)
	if d+gap <= eps {
		return // one circle: an overlap begins and ends at ends
	}
	if d < eps*eps {
		return
	}
	ux, uy := dx/d, dy/d
	switch {
	case d >= sum-eps:
		crossing(Point{e.c.X + ux*e.r, e.c.Y + uy*e.r}, e, f, eps, out)
	case d <= gap+eps:
		k := e.r
		if dif < 0 {
			k = -k
		}
		crossing(Point{e.c.X + ux*k, e.c.Y + uy*k}, e, f, eps, out)
	default:
		// From the centre of the smaller circle, for the figures it holds.
		c, r, k := e.c, e.r, dif
		if dif > 0 {
			c, r, k = f.c, f.r, -dif
			ux, uy = -ux, -uy
		}
		a := (d + k*sum/d) / 2
		h := math.Sqrt(max(0, (r-a)*(r+a)))
		px, py := c.X+ux*a, c.Y+uy*a
		crossing(Point{px - uy*h, py + ux*h}, e, f, eps, out)
		crossing(Point{px + uy*h, py - ux*h}, e, f, eps, out)
	}
}

// along is a measure of how far p, a point of the edge, lies from a: 0 at a, 1
// at b, growing all the way on lines and on arcs of up to half a turn.
func (e *edge) along(p Point) float64 {
	da, db := math.Sqrt(dist2(p, e.a)), math.Sqrt(dist2(p, e.b))
	if da+db == 0 {
		return 0
	}
	return da / (da + db)
}

// side is how far p lies to the left of the edge's line or circle, mm.
func (e *edge) side(p Point) float64 {
	if e.turn == 0 {
		return ((e.b.X-e.a.X)*(p.Y-e.a.Y) - (e.b.Y-e.a.Y)*(p.X-e.a.X)) / e.l
	}
	return float64(e.turn) * (e.r - math.Sqrt(dist2(p, e.c)))
}

// midBetween is a point of the edge half way (for nearly half a turn: about
// half way) between two of its points.
func (e *edge) midBetween(p, q Point) Point {
	mx, my := (p.X+q.X)/2, (p.Y+q.Y)/2
	if e.turn == 0 {
		return Point{mx, my}
	}
	vx, vy := mx-e.c.X, my-e.c.Y
	l := math.Sqrt(vx*vx + vy*vy)
	if l < e.r*num.Parallel {
		return e.m // nearly half a turn, so nearly the whole arc
	}
	return Point{e.c.X + vx/l*e.r, e.c.Y + vy/l*e.r}
}

// within is a point of the edge well inside the piece from p to q, and at no
// place of symmetry.
func (e *edge) within(p, q Point) Point {
	k := num.OffMiddle
	if e.turn == 0 {
		return Point{p.X + k*(q.X-p.X), p.Y + k*(q.Y-p.Y)}
	}
	k *= 2
	q = e.midBetween(p, q)
	vx, vy := p.X+k*(q.X-p.X)-e.c.X, p.Y+k*(q.Y-p.Y)-e.c.Y
	k = e.r / math.Sqrt(vx*vx+vy*vy)
	return Point{e.c.X + k*vx, e.c.Y + k*vy}
}

// part is the piece of the edge from p to q, in its own direction. The circle
// is carried; the bulge follows from chord and half chords without angles:
// tan(θ/4) = sin(θ/2) / (1+cos(θ/2)).
func (e *edge) part(p, q Point) Seg {
	if e.turn == 0 {
		return Seg{A: p, B: q}
	}
	if p == e.a && q == e.b {
		return Seg{A: p, B: q, Bulge: e.bulge, circ: Circle{e.c, e.r}}
	}
	chord := math.Sqrt(dist2(p, q))
	mx, my := p.X+q.X-2*e.c.X, p.Y+q.Y-2*e.c.Y
	b := chord / (2*e.r + math.Sqrt(mx*mx+my*my))
	return Seg{A: p, B: q, Bulge: math.Copysign(min(b, 1), float64(e.turn)), circ: Circle{e.c, e.r}}
}

// Meeting tells where two segments meet: single points, and stretches that
// both run along. An end of an overlap is not repeated among the points.
type Meeting struct {
	Points   []Point
	Overlaps []Seg // in the direction of the first segment
}

// Empty reports whether the segments do not meet.
func (m Meeting) Empty() bool { return len(m.Points) == 0 && len(m.Overlaps) == 0 }

// Intersect finds where segments a and b meet, within num.Resolution of their
// size (1e-10 mm for parts of up to some metres). A meeting at an end gives
// that end's own coordinates, a's before b's. Points and overlaps are in the
// order in which a runs.
func Intersect(a, b Seg) Meeting {
	return intersectAt(a, b, num.Resolution(max(segSize(&a), segSize(&b))))
}

// intersectAt is Intersect within eps.
func intersectAt(a, b Seg, eps float64) Meeting {
	e, f := makeEdge(&a, eps), makeEdge(&b, eps)
	var m Meeting
	if e.l == 0 || f.l == 0 {
		return meetPoint(&e, &f, eps)
	}
	var h hits
	meet(&e, &f, eps, &h)
	if h.n == 0 {
		return m
	}
	hs := h.h[:h.n]
	for i := range hs {
		switch hs[i].e {
		case 1:
			hs[i].p = a.A
		case 2:
			hs[i].p = a.B
		}
	}
	slices.SortFunc(hs, func(x, y hit) int {
		tx, ty := e.along(x.p), e.along(y.p)
		if tx < ty {
			return -1
		}
		if tx > ty {
			return 1
		}
		return 0
	})
	joined := false // the previous stretch ended at this point
	for i := range hs {
		p := hs[i].p
		if i > 0 && dist2(p, hs[i-1].p) <= eps*eps {
			continue
		}
		next := i + 1
		for next < len(hs) && dist2(p, hs[next].p) <= eps*eps {
			next++
		}
		if next < len(hs) {
			q := hs[next].p
			mid := e.midBetween(p, q)
			if f.holds(mid, num.Fuse*eps) {
				m.Overlaps = append(m.Overlaps, e.part(p, q))
				joined = true
				continue
			}
		}
		if !joined {
			m.Points = append(m.Points, p)
		}
		joined = false
	}
	return m
}

// meetPoint is Intersect where a segment has no length.
func meetPoint(e, f *edge, eps float64) Meeting {
	var m Meeting
	switch {
	case e.l == 0 && (f.end(e.a, eps) != 0 || f.l > 0 && f.holds(e.a, eps)):
		m.Points = append(m.Points, e.a)
	case f.l == 0 && e.l > 0 && e.end(f.a, eps) == 1:
		m.Points = append(m.Points, e.a)
	case f.l == 0 && e.l > 0 && e.end(f.a, eps) == 2:
		m.Points = append(m.Points, e.b)
	case f.l == 0 && e.l > 0 && e.holds(f.a, eps):
		m.Points = append(m.Points, f.a)
	}
	return m
}

// segSize is the largest number in a segment's coordinates and circle.
func segSize(s *Seg) float64 {
	v := max(math.Abs(s.A.X), math.Abs(s.A.Y), math.Abs(s.B.X), math.Abs(s.B.Y))
	if s.Bulge != 0 {
		v = max(v, s.circ.R)
	}
	return v
}
