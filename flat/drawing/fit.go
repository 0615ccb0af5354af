package drawing

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// curve is a smooth curve in the plane, mm.
type curve interface {
	// at gives the place and the derivative at t.
	at(t float64) (p, d geom.Point)
	// spans is how many pieces of different make lie between two parameters.
	spans(t0, t1 float64) int
	// pieces gives the control points of each of them from t0 to t1, t0 < t1, by
	// way of b.
	pieces(t0, t1 float64, b *control, each func(*control))
}

// fitter puts arcs in place of curves: pairs of arcs that meet smoothly (biarcs)
// and share place and direction with the curve at their ends; where a pair lies
// too far from the curve, the piece is cut.
//
// D. S. Meek and D. J. Walton, "Approximating smooth planar curves by arc
// splines", Journal of Computational and Applied Mathematics 59 (1995),
// DOI 10.1016/0377-0427(94)00029-Z; the pair is the one with two tangents of
// equal length (K. M. Bolton, "Biarc curves", Computer-Aided Design 7 (1975)).
type fitter struct {
	tol   float64
	steps *int    // points of curves still allowed
	worst float64 // bound on how far the curve lies from what stands for it
	moved float64 // what making one arc of two may add to it
	pts   []geom.Point
	first int     // of the segments that belong to the entity's curve
	way   float64 // -1 where the parameter runs backwards

	gauge   gauge
	control control
}

// start begins a shape.
func (f *fitter) start(tol float64, steps *int) {
	f.tol, f.steps, f.worst, f.moved, f.first = tol, steps, 0, 0, 0
}

// deviation bounds how far the curves since start lie from the segments.
func (f *fitter) deviation() float64 { return f.worst + f.moved }

// curve appends arcs and lines for c from t0 to t1.
func (f *fitter) curve(segs []geom.Seg, c curve, t0, t1 float64) []geom.Seg {
	f.way = math.Copysign(1, t1-t0)
	return f.piece(segs, c, f.end(c, t0), f.end(c, t1), 0)
}

func (f *fitter) end(c curve, t float64) end {
	p, d := c.at(t)
	return end{t, p, d.Mul(f.way)}
}

// end is one end of a piece of a curve; d is the derivative the way it is run.
type end struct {
	t    float64
	p, d geom.Point
}

func (f *fitter) piece(segs []geom.Seg, c curve, a, b end, depth int) []geom.Seg {
	if *f.steps < 0 {
		return segs
	}
	chord := b.p.Sub(a.p)
	l := chord.Len()
	tiny := l <= 4*f.tol
	line := geom.Line(a.p, b.p)
	parts := 2
	if f.sample(c, a, b, chord, l, tiny) {
		limit := num.StraightRise
		if tiny {
			limit = max(limit, f.tol)
		}
		if off := f.off(c, a, b, limit, &line, nil); off <= limit {
			return f.straight(segs, a, b, off)
		}
		stall := num.Stall * l / math.Abs(b.t-a.t)
		if s, t, ok := biarc(a.p, f.leaving(a, stall), b.p, f.arriving(b, stall)); ok {
			off := f.off(c, a, b, f.tol, &s, &t)
			if off <= f.tol {
				f.worst = max(f.worst, off)
				return f.join(f.join(segs, s), t)
			}
			parts = partsFor(off / f.tol)
		}
	}
	if depth >= num.CurveHalvings {
		return f.straight(segs, a, b, f.off(c, a, b, math.Inf(1), &line, nil))
	}
	for k := 1; k < parts; k++ {
		m := f.end(c, a.t+(b.t-a.t)/float64(parts-k+1))
		segs = f.piece(segs, c, a, m, depth+1)
		a = m
	}
	return f.piece(segs, c, a, b, depth+1)
}

// partsFor is in how many parts a piece is cut whose arcs lie so many times too
// far off: the distance goes with the cube of the length (Meek and Walton).
func partsFor(excess float64) int {
	const most = 8
	return int(max(2, min(most, math.Ceil(math.Cbrt(excess)))))
}

// straight appends the chord of a piece.
func (f *fitter) straight(segs []geom.Seg, a, b end, off float64) []geom.Seg {
	f.worst = max(f.worst, off)
	if a.p == b.p {
		return segs
	}
	return append(segs, geom.Line(a.p, b.p))
}

// sample takes points of the curve between a and b. It reports whether the piece
// runs on along its chord all the way, so that arcs are worth a try.
func (f *fitter) sample(c curve, a, b end, chord geom.Point, l float64, tiny bool) bool {
	n := max(num.CurveSamples, num.SpanSamples*c.spans(a.t, b.t))
	f.pts = f.pts[:0]
	last := a.p
	for i := 1; i < n; i++ {
		p, _ := c.at(a.t + (b.t-a.t)*(float64(i)/float64(n)))
		if *f.steps--; *f.steps < 0 {
			return false
		}
		if !tiny && !onward(p.Sub(last), chord, l) {
			return false
		}
		f.pts = append(f.pts, p)
		last = p
	}
	return tiny || onward(b.p.Sub(last), chord, l)
}

// onward reports whether a step keeps within 60 degrees of the chord, which is l
// long.
func onward(step, chord geom.Point, l float64) bool { return step.Dot(chord) >= step.Len()*l/2 }

// leaving is the direction in which the curve leaves a.
func (f *fitter) leaving(a end, stall float64) geom.Point {
	if n := a.d.Len(); n > stall {
		return a.d.Mul(1 / n)
	}
	return unit2(f.pts[0].Sub(a.p))
}

// arriving is the direction in which the curve arrives at b.
func (f *fitter) arriving(b end, stall float64) geom.Point {
	if n := b.d.Len(); n > stall {
		return b.d.Mul(1 / n)
	}
	return unit2(b.p.Sub(f.pts[len(f.pts)-1]))
}

// unit2 is v at length 1; the zero vector stays.
func unit2(v geom.Point) geom.Point {
	if n := v.Len(); n > 0 {
		return v.Mul(1 / n)
	}
	return v
}

// off bounds how far the curve from a to b lies from s, or from the pair s and t
// where t is given. More than limit, it may be any distance that is.
func (f *fitter) off(c curve, a, b end, limit float64, s, t *geom.Seg) float64 {
	known := 0.0
	for _, p := range f.pts {
		d := geom.PointSeg(p, *s).D
		if t != nil {
			d = min(d, geom.PointSeg(p, *t).D)
		}
		known = max(known, d)
	}
	if known > limit {
		return known
	}
	f.gauge = gauge{steps: f.steps, s: s, t: t, known: known, slack: min(limit, f.tol) * num.DeviationSlack, limit: limit}
	c.pieces(min(a.t, b.t), max(a.t, b.t), &f.control, f.gauge.take)
	return f.gauge.most
}

// biarc gives the pair of arcs from p leaving along u to q arriving along v (unit
// vectors), with tangents of equal length.
func biarc(p, u, q, v geom.Point) (s, t geom.Seg, ok bool) {
	w := q.Sub(p)
	sum := u.Add(v)
	k := 2 * (1 - u.Dot(v))
	b := w.Dot(sum)
	// d is the tangents' length: k d² + 2 b d - w² = 0.
	root := math.Sqrt(b*b + k*w.Dot(w))
	if !(b+root > 0) {
		return s, t, false
	}
	d := w.Dot(w) / (b + root)
	m := p.Add(q).Add(u.Sub(v).Mul(d)).Mul(0.5)
	s, okS := tangentArc(p, m, u)
	r, okT := tangentArc(q, m, v.Mul(-1))
	// Of a shorter one rounding leaves no direction.
	long := p.Dist(m) > num.Coincident && q.Dist(m) > num.Coincident
	return s, r.Reverse(), okS && okT && long
}

// tangentArc is the arc (or line) from a along the unit vector u to b; ok is
// false where it would turn by more than half a turn.
func tangentArc(a, b, u geom.Point) (geom.Seg, bool) {
	w := b.Sub(a)
	half := math.Atan2(u.Cross(w), u.Dot(w)) // between tangent and chord
	if !(math.Abs(half) < math.Pi/2) {
		return geom.Seg{}, false
	}
	return arcOrLine(geom.BulgeSeg(a, b, math.Tan(half/2))), true
}

// join appends a segment of the curve: to the last one where both are arcs of
// one circle.
func (f *fitter) join(segs []geom.Seg, s geom.Seg) []geom.Seg {
	if s.A == s.B {
		return segs
	}
	if n := len(segs); n > f.first {
		if m, ok := oneArc(&segs[n-1], &s, num.Joined); ok {
			f.moved += offEachOther(segs[n-1].Circle(), s.Circle())
			segs[n-1] = m
			return segs
		}
	}
	return append(segs, s)
}

// offEachOther is how far the lines of two circles lie apart at most.
func offEachOther(c, e geom.Circle) float64 { return c.C.Dist(e.C) + math.Abs(c.R-e.R) }

// oneArc is the arc that two arcs following each other make, where their circles
// agree within tol and it turns by half a turn at most. It lies on the circle of
// the longer one.
func oneArc(s, t *geom.Seg, tol float64) (geom.Seg, bool) {
	if !s.IsArc() || !t.IsArc() || s.Bulge > 0 != (t.Bulge > 0) {
		return geom.Seg{}, false
	}
	c, e := s.Circle(), t.Circle()
	if math.Abs(s.Sweep())+math.Abs(t.Sweep()) > math.Pi+num.Angular {
		return geom.Seg{}, false
	}
	if s.Length() < t.Length() {
		c, e = e, c
	}
	if c.C.Dist(e.C) > tol || math.Abs(c.R-e.R) > tol || offCircle(c, s.A) > tol || offCircle(c, t.B) > tol {
		return geom.Seg{}, false
	}
	return geom.Arc(c, s.A, t.B, s.Bulge > 0), true
}

// offCircle is how far p lies from the circle's line, mm.
func offCircle(c geom.Circle, p geom.Point) float64 { return math.Abs(c.C.Dist(p) - c.R) }
