package drawing

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// oval is the ellipse c + u cos t + v sin t: u and v are any two conjugate half
// diameters, mm.
type oval struct{ c, u, v geom.Point }

func (e *oval) at(t float64) (p, d geom.Point) {
	sin, cos := math.Sincos(t)
	p = geom.Point{X: e.c.X + e.u.X*cos + e.v.X*sin, Y: e.c.Y + e.u.Y*cos + e.v.Y*sin}
	return p, geom.Point{X: e.v.X*cos - e.u.X*sin, Y: e.v.Y*cos - e.u.Y*sin}
}

func (e *oval) spans(_, _ float64) int { return 1 }

// pieces gives the ellipse from t0 to t1, less than half a turn, as one quotient
// of quadratic polynomials: the outer control points are its ends, the middle one
// is where the tangents meet, its weight the cosine of half the sweep.
func (e *oval) pieces(t0, t1 float64, b *control, each func(*control)) {
	p, _ := e.at(t0)
	q, _ := e.at(t1)
	w := math.Cos((t1 - t0) / 2)
	sin, cos := math.Sincos((t0 + t1) / 2)
	b.n = 3
	b.set(0, p.X, p.Y, 1)
	b.h[1] = [3]float64{e.c.X*w + e.u.X*cos + e.v.X*sin, e.c.Y*w + e.u.Y*cos + e.v.Y*sin, w}
	b.set(2, q.X, q.Y, 1)
	each(b)
}

// flat reports whether the ellipse is so thin that it is a line.
func (e *oval) flat() bool {
	long := math.Max(e.u.Len(), e.v.Len())
	return !(math.Abs(e.u.Cross(e.v)) > num.Coincident*long)
}

// axis is the parameter of one end of the long axis.
func (e *oval) axis() float64 {
	return math.Atan2(2*e.u.Dot(e.v), e.u.Dot(e.u)-e.v.Dot(e.v)) / 2
}

// oval appends arcs for the ellipse from start through sweep (rad). It is cut at
// the ends of its axes, so that a whole one is as symmetric as it was.
func (f *fitter) oval(segs []geom.Seg, e oval, start, sweep float64, whole bool) []geom.Seg {
	const quarter = math.Pi / 2
	axis := e.axis()
	first := len(segs)
	f.first = first
	if whole {
		for i := range 4 {
			segs = f.curve(segs, &e, axis+float64(i)*quarter, axis+float64(i+1)*quarter)
		}
	} else {
		t, stop := math.Mod(start, fullTurn), math.Mod(start, fullTurn)+sweep
		for range 8 { // quarters of a turn, and the parts at its ends
			next := nextQuarter(t, stop, axis)
			segs = f.curve(segs, &e, t, next)
			if t = next; t == stop {
				break
			}
		}
	}
	if whole && len(segs) > first+2 {
		return closeSeam(segs, first)
	}
	return segs
}

// closeSeam brings the end of a closed curve to its start, and makes one arc of
// the last and the first where they are on one circle.
func closeSeam(segs []geom.Seg, first int) []geom.Seg {
	last := len(segs) - 1
	segs[last] = withEnds(segs[last], segs[last].A, segs[first].A)
	if m, ok := oneArc(&segs[last], &segs[first], num.Joined); ok {
		segs[first] = m
		return segs[:last]
	}
	return segs
}

// nextQuarter is the next end of an axis on the way from t to stop, or stop. One
// that is hardly farther than t is passed over, so that no tiny piece is made.
func nextQuarter(t, stop, axis float64) float64 {
	const quarter, least = math.Pi / 2, math.Pi / 180
	way := math.Copysign(1, stop-t)
	k := math.Floor((t-axis)*way/quarter) + 1
	next := axis + way*k*quarter
	if (next-t)*way < least {
		next += way * quarter
	}
	if (stop-next)*way < least {
		return stop
	}
	return next
}
