package geom

import (
	"math"

	"blankwright/flat/num"
)

// Near is a shortest distance: D mm between P on the first thing and Q on the
// second. D is 0, and P is Q, where they touch or cross.
type Near struct {
	D    float64
	P, Q Point
}

// turned is the same distance seen from the other thing.
func (n Near) turned() Near { return Near{n.D, n.Q, n.P} }

// PointSeg is the distance from p to the segment.
func PointSeg(p Point, s Seg) Near {
	d, q := s.nearest(p)
	return Near{d, p, q}
}

// nearest is the distance from p to the segment and where it is met. From the
// centre of an arc, where all of it is equally near, it is met at A.
func (s *Seg) nearest(p Point) (float64, Point) {
	if s.Bulge != 0 {
		return s.nearestOnArc(p)
	}
	dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
	ux, uy := p.X-s.A.X, p.Y-s.A.Y
	t, l2 := ux*dx+uy*dy, dx*dx+dy*dy
	switch {
	case t <= 0:
		return norm(ux, uy), s.A
	case t >= l2:
		return norm(p.X-s.B.X, p.Y-s.B.Y), s.B
	}
	t /= l2
	return abs(dx*uy-dy*ux) / math.Sqrt(l2), Point{s.A.X + dx*t, s.A.Y + dy*t}
}

func (s *Seg) nearestOnArc(p Point) (float64, Point) {
	ux, uy := p.X-s.circ.C.X, p.Y-s.circ.C.Y
	if s.faces(ux, uy) {
		n := norm(ux, uy)
		if n == 0 {
			return s.circ.R, s.A
		}
		k := s.circ.R / n
		return abs(n - s.circ.R), Point{s.circ.C.X + ux*k, s.circ.C.Y + uy*k}
	}
	da, db := norm(p.X-s.A.X, p.Y-s.A.Y), norm(p.X-s.B.X, p.Y-s.B.Y)
	if da <= db {
		return da, s.A
	}
	return db, s.B
}

// faces reports whether the direction (ux, uy) from the arc's centre points at
// the arc, ends included.
func (s *Seg) faces(ux, uy float64) bool {
	ax, ay := s.A.X-s.circ.C.X, s.A.Y-s.circ.C.Y
	bx, by := s.B.X-s.circ.C.X, s.B.Y-s.circ.C.Y
	a, b := ax*uy-ay*ux, ux*by-uy*bx
	if s.Bulge < 0 {
		a, b = -a, -b
	}
	if s.Bulge == 1 || s.Bulge == -1 {
		// Half a turn: both signs say the same; the ends lie opposite each
		// other but for rounding.
		return a >= 0 || b >= 0
	}
	return a >= 0 && b >= 0
}

func norm(x, y float64) float64 { return math.Sqrt(x*x + y*y) }

// SegSeg is the shortest distance between two segments. Exact for lines and
// arcs in every arrangement; of several equally short places it gives one.
func SegSeg(a, b Seg) Near { return a.near(&b) }

func (s *Seg) near(t *Seg) Near {
	var best Near
	d, q := t.nearest(s.A)
	best = Near{d, s.A, q}
	if d, q := t.nearest(s.B); d < best.D {
		best = Near{d, s.B, q}
	}
	if d, q := s.nearest(t.A); d < best.D {
		best = Near{d, q, t.A}
	}
	if d, q := s.nearest(t.B); d < best.D {
		best = Near{d, q, t.B}
	}
	if best.D == 0 {
		return best
	}
	switch {
	case s.Bulge != 0 && t.Bulge != 0:
		s.arcArc(t, &best)
	case s.Bulge != 0:
		s.arcLine(t, &best)
	case t.Bulge != 0:
		u := best.turned()
		t.arcLine(s, &u)
		best = u.turned()
	}
	if p, ok := s.crosses(t); ok {
		return Near{0, p, p}
	}
	return best
}

// arcLine betters best by the foot of the perpendicular from the arc's centre
// on the line.
func (s *Seg) arcLine(t *Seg, best *Near) {
	c := s.circ.C
	dx, dy := t.B.X-t.A.X, t.B.Y-t.A.Y
	k, l2 := (c.X-t.A.X)*dx+(c.Y-t.A.Y)*dy, dx*dx+dy*dy
	if k <= 0 || k >= l2 {
		return
	}
	k /= l2
	foot := Point{t.A.X + dx*k, t.A.Y + dy*k}
	ux, uy := foot.X-c.X, foot.Y-c.Y
	h := norm(ux, uy)
	d := abs(h - s.circ.R)
	if h == 0 || d >= best.D || !s.faces(ux, uy) {
		return
	}
	k = s.circ.R / h
	*best = Near{d, Point{c.X + ux*k, c.Y + uy*k}, foot}
}

// arcArc betters best by the places on the line through both centres.
func (s *Seg) arcArc(t *Seg, best *Near) {
	c, e := s.circ, t.circ
	ux, uy := e.C.X-c.C.X, e.C.Y-c.C.Y
	d := norm(ux, uy)
	if d == 0 {
		return // concentric: the ends have told
	}
	ux, uy = ux/d, uy/d
	for _, i := range [2]float64{1, -1} {
		if !s.faces(i*ux, i*uy) {
			continue
		}
		for _, j := range [2]float64{-1, 1} {
			g := abs(d + j*e.R - i*c.R)
			if g < best.D && t.faces(j*ux, j*uy) {
				*best = Near{g,
					Point{c.C.X + i*c.R*ux, c.C.Y + i*c.R*uy},
					Point{e.C.X + j*e.R*ux, e.C.Y + j*e.R*uy}}
			}
		}
	}
}

// crosses gives a point where the two segments cross or touch.
func (s *Seg) crosses(t *Seg) (Point, bool) {
	if b := s.Bounds(); !b.overlaps(t.Bounds()) {
		return Point{}, false
	}
	eps := num.Resolution(max(segSize(s), segSize(t)))
	e, f := makeEdge(s, eps), makeEdge(t, eps)
	if e.l == 0 || f.l == 0 {
		return Point{}, false // a point: the ends have told
	}
	var h hits
	meet(&e, &f, eps, &h)
	return h.h[0].p, h.n > 0
}

// PointLoop is the distance from p to the loop's boundary, whichever side p
// lies on.
func PointLoop(p Point, l Loop) Near {
	best := Near{math.Inf(1), p, p}
	for i := range l {
		if d, q := l[i].nearest(p); d < best.D {
			best.D, best.Q = d, q
		}
	}
	return best
}

// LoopLoop is the shortest distance between the boundaries of two loops, 0 if
// they touch or cross. A loop inside another without touching it has a
// distance: the wall between them. It is +Inf where a loop is empty.
//
// Index is quicker where many loops are asked about.
func LoopLoop(a, b Loop) Near {
	if len(a) == 0 || len(b) == 0 {
		return Near{D: math.Inf(1)}
	}
	x, y := look(a), look(b)
	return x.near(&y)
}

// fewSegments is how many segments are looked at one by one; more are worth a
// tree.
const fewSegments = 32

// segmentsNear is the shortest distance between the segments of two loops that
// are not empty: each of the longer against those of the shorter that might be
// nearer than what is known.
func segmentsNear(a, b Loop) Near {
	if len(a) < len(b) {
		return segmentsNear(b, a).turned()
	}
	best := Near{D: math.Inf(1)}
	if len(b) > fewSegments {
		t := newTree(len(b), func(j int) Box { return b[j].Bounds() })
		for i := range a {
			box := a[i].Bounds()
			r := box.box4()
			t.nearest(&r, best.D*best.D, func(j int, _ float64) float64 {
				best.better(&a[i], &b[j])
				return best.D * best.D
			})
		}
		return best
	}
	var buf [fewSegments]Box
	boxes := buf[:len(b)]
	for j := range b {
		boxes[j] = b[j].Bounds()
	}
	for i := range a {
		box := a[i].Bounds()
		for j := range b {
			if box.gap2(&boxes[j]) < best.D*best.D {
				best.better(&a[i], &b[j])
			}
		}
	}
	return best
}

// better keeps the distance of two segments if it is shorter.
func (n *Near) better(s, t *Seg) {
	if m := s.near(t); m.D < n.D {
		*n = m
	}
}

// RayLoop is the first hit of the ray from p along dir (of any length) with the
// loop: how far from p, mm, and where. A ray that only grazes an arc or passes
// through a corner within num.Coincident hits it. ok is false where nothing is
// hit.
func RayLoop(p, dir Point, l Loop) (t float64, at Point, ok bool) {
	n := dir.Len()
	if n == 0 {
		return 0, p, false
	}
	u := Point{dir.X / n, dir.Y / n}
	t = math.Inf(1)
	for i := range l {
		if d, hit := l[i].ray(p, u); hit && d < t {
			t, ok = d, true
		}
	}
	if !ok {
		return 0, p, false
	}
	return t, p.Add(u.Mul(t)), true
}

// ray is how far along the unit vector u from p the segment is first met.
func (s *Seg) ray(p, u Point) (float64, bool) {
	if s.Bulge != 0 {
		return s.rayArc(p, u)
	}
	a, b := s.A.Sub(p), s.B.Sub(p)
	ha, hb := u.Cross(a), u.Cross(b) // how far left of the ray the ends lie
	ta, tb := u.Dot(a), u.Dot(b)
	if num.Zero(ha) && num.Zero(hb) { // along the ray
		switch {
		case ta > 0 != (tb > 0):
			return 0, true
		case ta < -num.Coincident && tb < -num.Coincident:
			return 0, false
		}
		return max(0, min(ta, tb)), true
	}
	if ha > num.Coincident && hb > num.Coincident || ha < -num.Coincident && hb < -num.Coincident {
		return 0, false
	}
	k := ha / (ha - hb)
	k = max(0, min(1, k))
	t := ta + (tb-ta)*k
	if t < -num.Coincident {
		return 0, false
	}
	return max(0, t), true
}

func (s *Seg) rayArc(p, u Point) (float64, bool) {
	w := s.circ.C.Sub(p)
	k, h := u.Dot(w), abs(u.Cross(w))
	if h > s.circ.R+num.Coincident {
		return 0, false
	}
	g := math.Sqrt(max(0, (s.circ.R-h)*(s.circ.R+h)))
	for _, t := range [2]float64{k - g, k + g} {
		if t < -num.Coincident {
			continue
		}
		t = max(0, t)
		if d, _ := s.nearest(p.Add(u.Mul(t))); d <= num.Coincident {
			return t, true
		}
	}
	return 0, false
}
