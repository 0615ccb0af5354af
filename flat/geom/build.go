package geom

import (
	"fmt"
	"math"

	"blankwright/flat/num"
)

// Slot is a straight slot with full-round ends, counter-clockwise: a and b are
// the centres of its ends, width its width, mm. With a and b in one place it is
// a circle. It is nil unless width is positive.
func Slot(a, b Point, width float64) Loop {
	if !(width > 0) {
		return nil
	}
	r := width / 2
	d := b.Sub(a)
	l := d.Len()
	if num.Zero(l) {
		return CircleLoop(Circle{a, r})
	}
	n := Point{-d.Y / l * r, d.X / l * r}
	a1, a2, b1, b2 := a.Sub(n), a.Add(n), b.Sub(n), b.Add(n)
	return Loop{
		Line(a1, b1),
		{A: b1, B: b2, Bulge: 1, circ: Circle{b, r}},
		Line(b2, a2),
		{A: a2, B: a1, Bulge: 1, circ: Circle{a, r}},
	}
}

// Polygon is the closed run of straight segments through the points, in the
// order given.
func Polygon(pts ...Point) Loop {
	l := make(Loop, len(pts))
	for i, p := range pts {
		l[i] = Line(p, pts[(i+1)%len(pts)])
	}
	return l
}

// Corner is a corner of an outline: where its two straight edges would meet,
// and what is done to it. Radius rounds it, tangent to both edges; Chamfer cuts
// it off straight, that many mm back along both edges. At most one of the two
// is set.
type Corner struct {
	P       Point
	Radius  float64 // mm
	Chamfer float64 // mm along each edge
}

// CornerError tells what is wrong with a corner.
type CornerError struct {
	Index  int // in the order given; -1 for the outline as a whole
	Reason string

	// Where a radius or a chamfer does not fit: the length of edge, mm, that it
	// takes and the length that is free for it. Both 0 otherwise.
	Needed, Available float64
}

func (e *CornerError) Error() string {
	if e.Index < 0 {
		return e.Reason
	}
	return fmt.Sprintf("corner %d: %s", e.Index+1, e.Reason)
}

// Corners is the outline with these corners, rounded or cut as they ask, always
// counter-clockwise. Where two roundings meet exactly, as at a full-round end,
// nothing is left between them, and arcs of one circle become one arc.
//
// The error is a *CornerError where a corner cannot be made, or an
// *InvalidError where the outline crosses or touches itself.
func Corners(corners []Corner) (Loop, error) {
	if len(corners) < 3 {
		return nil, &CornerError{Index: -1, Reason: fmt.Sprintf("an outline needs 3 corners or more, got %d", len(corners))}
	}
	run := orderedCorners(corners)
	for i := range run {
		if err := run[i].cut(run.at(i-1).P, run.at(i+1).P); err != nil {
			return nil, err
		}
	}
	for i := range run {
		if err := run.fit(i); err != nil {
			return nil, err
		}
	}
	l := joinArcs(run.loop())
	if err := l.Validate(); err != nil {
		return nil, err
	}
	return l, nil
}

// cornerCut is a corner and what it makes of the outline there.
type cornerCut struct {
	Corner
	index   int // in the order given
	takes   float64
	in, out Point // where the outline reaches and leaves the cut
	circ    Circle
	ccw     bool
}

type cornerRun []cornerCut

func (r cornerRun) at(i int) *cornerCut { return &r[(i+len(r))%len(r)] }

// orderedCorners is the run of corners in counter-clockwise order.
func orderedCorners(corners []Corner) cornerRun {
	run := make(cornerRun, len(corners))
	var twice float64
	for i, c := range corners {
		run[i] = cornerCut{Corner: c, index: i, in: c.P, out: c.P}
		o := corners[0].P
		twice += c.P.Sub(o).Cross(corners[(i+1)%len(corners)].P.Sub(o))
	}
	if twice < 0 {
		for i, j := 0, len(run)-1; i < j; i, j = i+1, j-1 {
			run[i], run[j] = run[j], run[i]
		}
	}
	return run
}

// cut works out the rounding or the chamfer between the corner's neighbours.
func (c *cornerCut) cut(prev, next Point) error {
	fail := func(format string, args ...any) error {
		return &CornerError{Index: c.index, Reason: fmt.Sprintf(format, args...)}
	}
	switch {
	case !num.Finite(c.P.X, c.P.Y, c.Radius, c.Chamfer):
		return fail("a coordinate, radius or chamfer is not a finite number")
	case c.Radius < 0 || c.Chamfer < 0:
		return fail("radius %s and chamfer %s must not be negative", short(c.Radius), short(c.Chamfer))
	case c.Radius > 0 && c.Chamfer > 0:
		return fail("has a radius (%s) and a chamfer (%s); give one of them", short(c.Radius), short(c.Chamfer))
	}
	u, v := prev.Sub(c.P), next.Sub(c.P)
	lu, lv := u.Len(), v.Len()
	if num.Zero(lu) || num.Zero(lv) {
		return fail("lies on its neighbour at %s; leave one of them out", place(c.P))
	}
	u, v = u.Mul(1/lu), v.Mul(1/lv)
	cross, dot := u.Cross(v), u.Dot(v)
	if abs(cross) <= num.Angular {
		switch {
		case dot > 0:
			return fail("the outline turns straight back on itself at %s", place(c.P))
		case c.Radius > 0:
			return fail("radius %s asked where the outline runs straight on at %s; move the corner or drop the radius", short(c.Radius), place(c.P))
		case c.Chamfer > 0:
			return fail("chamfer %s asked where the outline runs straight on at %s; move the corner or drop the chamfer", short(c.Chamfer), place(c.P))
		}
		return nil
	}
	switch {
	case c.Chamfer > 0:
		c.takes = c.Chamfer
	case c.Radius > 0:
		// radius over the tangent of half the angle between the edges, in the
		// form that does not cancel
		if dot > 0 {
			c.takes = c.Radius * (1 + dot) / abs(cross)
		} else {
			c.takes = c.Radius * abs(cross) / (1 - dot)
		}
		c.ccw = cross < 0
		side := u.Perp() // from the edge towards the centre
		if cross < 0 {
			side = side.Mul(-1)
		}
		c.circ = Circle{c.P.Add(u.Mul(c.takes)).Add(side.Mul(c.Radius)), c.Radius}
	}
	c.in, c.out = c.P.Add(u.Mul(c.takes)), c.P.Add(v.Mul(c.takes))
	return nil
}

// fit checks the edge from corner i to the next and closes it up where nothing
// of it is left.
func (r cornerRun) fit(i int) error {
	a, b := r.at(i), r.at(i+1)
	length := a.P.Dist(b.P)
	left := length - a.takes - b.takes
	if left > num.Coincident {
		return nil
	}
	if left >= -num.Coincident {
		switch { // a sharp corner stays where it is
		case b.takes == 0:
			a.out = b.P
		default:
			b.in = a.out
		}
		return nil
	}
	if b.takes > a.takes {
		a, b = b, a
	}
	what, size := "radius", a.Radius
	if a.Chamfer > 0 {
		what, size = "chamfer", a.Chamfer
	}
	free := max(0, length-b.takes)
	return &CornerError{
		Index: a.index, Needed: a.takes, Available: free,
		Reason: fmt.Sprintf("%s %s takes %s mm of the edge to corner %d, where %s mm are free; make the %s %s or less",
			what, short(size), short(a.takes), b.index+1, short(free), what, num.Short(fitting(size*free/a.takes), 4)),
	}
}

// fitting is the largest size of four decimals that is not more than v.
func fitting(v float64) float64 { return math.Floor((v+num.Coincident)*1e4) / 1e4 }

// loop is the outline itself.
func (r cornerRun) loop() Loop {
	l := make(Loop, 0, 2*len(r))
	for i := range r {
		c, next := r.at(i), r.at(i+1)
		if c.in != c.out {
			if c.Radius > 0 {
				l = append(l, Arc(c.circ, c.in, c.out, c.ccw))
			} else {
				l = append(l, Line(c.in, c.out))
			}
		}
		if c.out != next.in {
			l = append(l, Line(c.out, next.in))
		}
	}
	return l
}

// joinArcs makes one arc of neighbours on one circle, up to half a turn.
func joinArcs(l Loop) Loop {
	out := l[:0]
	for _, s := range l {
		if n := len(out); n > 0 && s.Bulge != 0 {
			if j, ok := joined(&out[n-1], &s); ok {
				out[n-1] = j
				continue
			}
		}
		out = append(out, s)
	}
	if n := len(out); n > 2 && out[0].Bulge != 0 {
		if j, ok := joined(&out[n-1], &out[0]); ok {
			out[0] = j
			out = out[:n-1]
		}
	}
	return out
}

// short writes a length for people.
func short(v float64) string { return num.Short(v, 4) }

// place writes a point for people.
func place(p Point) string { return "(" + short(p.X) + ", " + short(p.Y) + ")" }
