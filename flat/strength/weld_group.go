package strength

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// WeldForces is how a group of welds, taken as lines of one throat, shares a load:
// the force on each mm of weld at every place.
type WeldForces struct {
	Lines      WeldLines
	Mx, My, Mz float64 // moments about the group's centroid, N·mm

	direct geom.Point // N/mm everywhere
	out    float64    // N/mm everywhere, along z
	turn   float64    // in-plane force per mm of radius, N/mm2
	slope  geom.Point // gradient of the force along z, N/mm2
}

// WeldForce is the force on one mm of weld, N/mm.
type WeldForce struct {
	In  geom.Point // in the plane
	Out float64    // along z
}

// Len is the resultant, N/mm.
func (f WeldForce) Len() float64 { return math.Sqrt(f.In.Dot(f.In) + f.Out*f.Out) }

// ElasticWeld shares a load among welds by the elastic method: the force evenly
// over the length, torsion in proportion to the distance from the centroid and square
// to it, bending in proportion to the distance from the axis it turns about.
//
// AISC Manual Part 8, elastic method (from memory); O. W. Blodgett, Design of Welded
// Structures, 1966; Shigley's Mechanical Engineering Design, 9th ed., 9-3 to 9-4.
// Limits: welds of one throat on stiff parts; the compressed side takes part through
// the welds and not by contact. It is an error where there is no weld, or where the
// welds have no width in a direction that a moment asks for.
func ElasticWeld(welds []geom.Seg, load SpaceLoad) (WeldForces, error) {
	w := WeldForces{Lines: LineProperties(welds)}
	l := &w.Lines
	if !(l.Length > 0) {
		return WeldForces{}, errNoWeld
	}
	if !num.Finite(l.Length, l.Centroid.X, l.Centroid.Y, l.J(), load.F.X, load.F.Y, load.Out,
		load.At.X, load.At.Y, load.Height, load.Mx, load.My, load.Torsion) {
		return WeldForces{}, errWeldNoNum
	}
	w.Mx, w.My, w.Mz = load.about(l.Centroid)
	w.direct = load.F.Mul(1 / l.Length)
	w.out = load.Out / l.Length
	if w.Mz != 0 {
		if !(l.J() > 0) {
			return WeldForces{}, errOneSpot
		}
		w.turn = w.Mz / l.J()
	}
	slope, ok := tilt(l.Ix, l.Iy, l.Ixy, w.Mx, w.My)
	if !ok {
		return WeldForces{}, errThinWeld
	}
	w.slope = slope
	return w, nil
}

// At is the force on one mm of weld at the place p.
func (w *WeldForces) At(p geom.Point) WeldForce {
	r := p.Sub(w.Lines.Centroid)
	return WeldForce{In: w.direct.Add(r.Perp().Mul(w.turn)), Out: w.out + w.slope.Dot(r)}
}

// WeldPeak is the place where a group of welds is stressed most.
type WeldPeak struct {
	At    geom.Point
	Seg   int       // of the segments given
	Force WeldForce // N/mm
	Most  float64   // its resultant, N/mm

	// Along and Across are the force's parts along the weld and square to it in
	// the plane, N/mm, both without sign.
	Along, Across float64
}

// Peak finds the place of the largest resultant on the segments, the same that the
// forces were worked out for: on straight ones an end, on arcs the largest of the
// ends and of every stationary point.
func (w *WeldForces) Peak(welds []geom.Seg) WeldPeak {
	best := WeldPeak{Seg: -1}
	for i := range welds {
		s := &welds[i]
		// On a line the force changes linearly and its square is convex.
		w.higher(&best, i, s.A)
		w.higher(&best, i, s.B)
		if s.IsArc() {
			r := w.stationary(s)
			for _, t := range r.at[:r.n] {
				w.higher(&best, i, arcPoint(s, t))
			}
		}
	}
	if best.Seg >= 0 {
		u := tangent(&welds[best.Seg], best.At)
		best.Along = math.Abs(u.Dot(best.Force.In))
		best.Across = math.Abs(u.Cross(best.Force.In))
	}
	return best
}

// higher takes the place p of segment i where the force there is larger.
func (w *WeldForces) higher(best *WeldPeak, i int, p geom.Point) {
	f := w.At(p)
	if l := f.Len(); best.Seg < 0 || l > best.Most {
		*best = WeldPeak{At: p, Seg: i, Force: f, Most: l}
	}
}

// Utilisation is the share of the design resistance per mm of weld (of a
// FilletWeld of length 1, of WeldSimple) that the peak takes.
func (p WeldPeak) Utilisation(perMM Result) float64 { return perMM.Utilisation(p.Most) }

// tangent is the unit vector along a weld at one of its places.
func tangent(s *geom.Seg, p geom.Point) geom.Point {
	if !s.IsArc() {
		return s.DirA()
	}
	d := p.Sub(s.Circle().C).Perp()
	return d.Mul(1 / d.Len())
}

// arcPoint is the place on an arc whose angle from the arc's middle, seen from the
// centre and counter-clockwise, is 2 atan t.
func arcPoint(s *geom.Seg, t float64) geom.Point {
	_, n, _ := arcAxes(s)
	k := 1 / (1 + t*t)
	cos, sin := (1-t*t)*k, 2*t*k
	d := n.Mul(cos).Add(n.Perp().Mul(sin))
	return s.Circle().C.Add(d.Mul(s.Circle().R))
}

// stationary gives the places on an arc, as t of arcPoint, where the square of
// the force is stationary. That square is a trigonometric polynomial of second
// order in the angle, its derivative in t a polynomial of fourth degree over (1+t^2)^2.
func (w *WeldForces) stationary(s *geom.Seg) turns {
	_, n, half := arcAxes(s)
	m := n.Perp()
	r := s.Circle().R
	mid := w.At(s.Circle().C)
	// Force at the angle q: mid + cos q·c + sin q·d.
	c := WeldForce{In: n.Perp().Mul(w.turn * r), Out: w.slope.Dot(n) * r}
	d := WeldForce{In: m.Perp().Mul(w.turn * r), Out: w.slope.Dot(m) * r}
	dot := func(a, b WeldForce) float64 { return a.In.Dot(b.In) + a.Out*b.Out }
	a1, b1 := 2*dot(mid, c), 2*dot(mid, d)
	a2, b2 := (dot(c, c)-dot(d, d))/2, dot(c, d)
	// d/dq (a1 cos q + b1 sin q + a2 cos 2q + b2 sin 2q), times (1+t^2)^2.
	p := quartic{b1 + 2*b2, -2*a1 - 8*a2, -12 * b2, -2*a1 + 8*a2, 2*b2 - b1}
	edge := math.Tan(half / 2)
	return p.roots(-edge, edge)
}

// quartic is a polynomial of up to fourth degree, constant term first.
type quartic [5]float64

func (p *quartic) at(t float64) float64 {
	return p[0] + t*(p[1]+t*(p[2]+t*(p[3]+t*p[4])))
}

// turns are up to four places in order.
type turns struct {
	at [4]float64
	n  int
}

// roots gives the places between from and to where the polynomial changes sign:
// between the stationary points, themselves found the same way from its derivative,
// it is monotone and has at most one.
func (p *quartic) roots(from, to float64) turns {
	d := quartic{p[1], 2 * p[2], 3 * p[3], 4 * p[4]}
	var between, found turns
	if d != (quartic{}) {
		between = d.roots(from, to)
	}
	a := from
	for i := 0; i <= between.n; i++ {
		b := to
		if i < between.n {
			b = between.at[i]
		}
		if t, ok := p.crossing(a, b); ok && found.n < len(found.at) {
			found.at[found.n] = t
			found.n++
		}
		a = b
	}
	return found
}

// crossing halves an interval in which the polynomial is monotone down to its sign
// change.
func (p *quartic) crossing(a, b float64) (float64, bool) {
	fa, fb := p.at(a), p.at(b)
	if fa == 0 || fa > 0 == (fb > 0) {
		return a, fa == 0 && fb != 0
	}
	for range num.RootSteps {
		m := (a + b) / 2
		if p.at(m) > 0 == (fa > 0) {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2, true
}
