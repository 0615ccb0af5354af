package geom

import (
	"fmt"
	"math"

	"blankwright/flat/num"
)

// Fillet rounds the corner where segment i begins (segment i-1 ends) with an arc
// of radius r, mm, tangent to both, lines or arcs, in a convex or a concave
// corner. The segments are trimmed to the tangent points and keep their lines
// and circles; one that is used up to its far end is left out.
//
// The centre lies on the curves at distance r from both sides; of the possible
// ones that is taken which trims least. The error is a *CornerError if there is
// no corner, the radius does not fit, or the result would not be a valid loop.
func (l Loop) Fillet(i int, r float64) (Loop, error) {
	prev, next, err := l.corner(i)
	if err != nil {
		return nil, err
	}
	if !(r > num.Coincident) || !num.Finite(r) {
		return nil, &CornerError{Index: i, Reason: fmt.Sprintf("the radius is %s mm, wanted more than 0", short(r))}
	}
	t, u := prev.DirB(), next.DirA()
	side := 1.0 // the fillet turns left
	if t.Cross(u) < 0 {
		side = -1
	}
	e, f := makeEdge(&prev, num.Contact), makeEdge(&next, num.Contact)
	best := math.Inf(1)
	var c, p, q Point
	for _, m := range pathsMeet(e.beside(side*r), f.beside(side*r)) {
		a, b := e.foot(m), f.foot(m)
		if !e.trims(a) || !f.trims(b) {
			continue
		}
		if d := a.Dist(prev.B) + b.Dist(next.A); d < best {
			best, c, p, q = d, m, a, b
		}
	}
	if math.IsInf(best, 1) {
		return nil, &CornerError{Index: i, Reason: fmt.Sprintf("a radius of %s mm does not fit at %s: no arc touches both sides within their length; make it smaller", short(r), place(next.A))}
	}
	return l.replaceCorner(i, p, q, arcs(Circle{c, r}, p, q, side > 0))
}

// Chamfer cuts the corner where segment i begins straight, at the distance
// set mm from it along both sides. See Fillet.
func (l Loop) Chamfer(i int, set float64) (Loop, error) {
	prev, next, err := l.corner(i)
	if err != nil {
		return nil, err
	}
	if !(set > num.Coincident) || !num.Finite(set) {
		return nil, &CornerError{Index: i, Reason: fmt.Sprintf("the chamfer is %s mm, wanted more than 0", short(set))}
	}
	a, b := prev.Length(), next.Length()
	if free := min(a, b); set > free+num.Contact {
		return nil, &CornerError{Index: i, Needed: set, Available: free,
			Reason: fmt.Sprintf("a chamfer of %s mm does not fit at %s: a side is %s mm long; make it smaller", short(set), place(next.A), short(free))}
	}
	p, q := prev.At(max(0, 1-set/a)), next.At(min(1, set/b))
	return l.replaceCorner(i, p, q, Loop{Line(p, q)})
}

// corner gives the two sides of the corner where segment i begins.
func (l Loop) corner(i int) (prev, next Seg, err error) {
	if i < 0 || i >= len(l) || len(l) < 2 {
		return prev, next, &CornerError{Index: i, Reason: fmt.Sprintf("there is no such corner in a loop of %d", len(l))}
	}
	prev, next = l[(i+len(l)-1)%len(l)], l[i]
	t, u := prev.DirB(), next.DirA()
	if math.Abs(t.Cross(u)) <= num.SmoothSine {
		what := "the sides run on smoothly"
		if t.Dot(u) < 0 {
			what = "the sides fold back on each other"
		}
		return prev, next, &CornerError{Index: i, Reason: "no corner at " + place(next.A) + ": " + what}
	}
	return prev, next, nil
}

// replaceCorner puts new segments from p to q in place of the corner where
// segment i begins.
func (l Loop) replaceCorner(i int, p, q Point, between Loop) (Loop, error) {
	n := len(l)
	out := make(Loop, 0, n+len(between))
	add := func(s Seg) {
		if s.A.Dist(s.B) > num.Coincident {
			out = append(out, s)
		}
	}
	k := (i + n - 1) % n
	for j, s := range l {
		e := makeEdge(&s, num.Contact)
		switch {
		case j == i && j == k:
			add(e.part(q, p))
		case j == i:
			add(e.part(q, s.B))
		case j == k:
			add(e.part(s.A, p))
		default:
			add(s)
		}
		if j == k {
			for _, b := range between {
				add(b)
			}
		}
	}
	for j := range out {
		out[j].B = out[(j+1)%len(out)].A
	}
	if err := out.Validate(); err != nil {
		return nil, &CornerError{Index: i, Reason: "the corner cut at " + place(l[i].A) + " runs into the rest of the outline: " + err.Error()}
	}
	return out, nil
}

// path is an unbounded line (r == 0: through c along d) or a whole circle.
type path struct {
	c, d Point
	r    float64
	none bool
}

// beside is the path at distance d to the left of the edge's line or circle.
func (e *edge) beside(d float64) path {
	if e.turn == 0 {
		u := Point{(e.b.X - e.a.X) / e.l, (e.b.Y - e.a.Y) / e.l}
		return path{c: e.a.Add(u.Perp().Mul(d)), d: u}
	}
	r := e.r - float64(e.turn)*d
	return path{c: e.c, r: r, none: !(r > num.Contact)}
}

// foot is the point of the edge's line or circle nearest to p.
func (e *edge) foot(p Point) Point {
	if e.turn == 0 {
		u := Point{(e.b.X - e.a.X) / e.l, (e.b.Y - e.a.Y) / e.l}
		return e.a.Add(u.Mul(p.Sub(e.a).Dot(u)))
	}
	v := p.Sub(e.c)
	return e.c.Add(v.Mul(e.r / v.Len()))
}

// trims reports whether p, on the edge's line or circle, lies on the edge.
func (e *edge) trims(p Point) bool { return e.end(p, num.Coincident) != 0 || e.between(p) }

// pathsMeet finds the common points of two paths.
func pathsMeet(a, b path) []Point {
	if a.none || b.none {
		return nil
	}
	if a.r == 0 && b.r == 0 {
		k := a.d.Cross(b.d)
		if k == 0 {
			return nil
		}
		return []Point{a.c.Add(a.d.Mul(b.c.Sub(a.c).Cross(b.d) / k))}
	}
	if a.r == 0 {
		a, b = b, a
	}
	if b.r == 0 {
		// Circle a and line b.
		m := b.c.Add(b.d.Mul(a.c.Sub(b.c).Dot(b.d)))
		return acrossFrom(m, b.d, a.r, m.Dist(a.c))
	}
	v := b.c.Sub(a.c)
	d := v.Len()
	if d == 0 {
		return nil
	}
	u := v.Mul(1 / d)
	x := (d + (a.r-b.r)*(a.r+b.r)/d) / 2
	return acrossFrom(a.c.Add(u.Mul(x)), u.Perp(), a.r, math.Abs(x))
}

// acrossFrom gives the two points on a chord of middle m and direction u, at
// distance h from the centre of a circle of radius r: one if it is a tangent,
// none if it passes outside.
func acrossFrom(m, u Point, r, h float64) []Point {
	switch {
	case h > r+num.Contact:
		return nil
	case h > r-num.Contact:
		return []Point{m}
	}
	s := math.Sqrt((r - h) * (r + h))
	return []Point{m.Add(u.Mul(s)), m.Sub(u.Mul(s))}
}

// arcs is the arc on circle c from p to q in one or two segments.
func arcs(c Circle, p, q Point, ccw bool) Loop {
	a, b := p.Sub(c.C), q.Sub(c.C)
	sweep := math.Atan2(a.Cross(b), a.Dot(b))
	if !ccw {
		sweep = -sweep
	}
	if sweep >= -num.TurnNoise {
		return Loop{Arc(c, p, q, ccw)}
	}
	// More than half a turn: by way of the middle.
	sweep += 2 * math.Pi
	if !ccw {
		sweep = -sweep
	}
	m := c.C.Polar(c.R, math.Atan2(a.Y, a.X)+sweep/2)
	return Loop{Arc(c, p, m, ccw), Arc(c, m, q, ccw)}
}
