package cope

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// sheet carries a curve to paper: x = x0 + kx·q, y = y0 + ky·s. One turn of it
// runs between x = 0 and x = width.
type sheet struct{ x0, kx, y0, ky, width float64 }

// edges are the x of the beginning and of the end of one turn, to the last bit.
func (m sheet) edges() (begin, end float64) {
	if m.kx < 0 {
		return m.width, 0
	}
	return 0, m.width
}

func (m sheet) point(u *Curve, p *piece, q float64) geom.Point {
	return geom.Point{X: m.x0 + m.kx*q, Y: m.y0 + m.ky*u.c.height(u, p, q)}
}

// dir is the unit tangent towards growing q.
func (m sheet) dir(u *Curve, p *piece, q float64) geom.Point {
	den, n := u.c.slope(u, p, q)
	x, y := m.kx*den, m.ky*n
	l := math.Hypot(x, y)
	return geom.Point{X: x / l, Y: y / l}
}

// from gives the pieces of one turn that begins at seam, in order.
func (u *Curve) from(seam float64) []piece {
	seam = turned(seam)
	end := seam + fullTurn
	if u.smooth {
		return []piece{{seam, end, u.pieces[0].by}}
	}
	out := make([]piece, 0, len(u.pieces)+1)
	for shift := -fullTurn; shift <= fullTurn; shift += fullTurn {
		for _, p := range u.pieces {
			a, b := max(p.a+shift, seam), min(p.b+shift, end)
			if b-a > num.SameTurn {
				out = append(out, piece{a, b, p.by})
			}
		}
	}
	out[0].a, out[len(out)-1].b = seam, end
	return out
}

// Fit is a curve drawn: the arcs and lines in order, and the largest distance
// (mm) measured between the curve and them.
type Fit struct {
	Segs  []geom.Seg
	Worst float64
}

// measureAt are the places, as shares of a fitted stretch, where it is measured.
const measureAt = 10

// stretch is a part of a piece that one fitted element stands for.
type stretch struct {
	a, b     float64 // q
	at, to   geom.Point
	dir, end geom.Point // unit tangents at both
	mid      [measureAt - 1]geom.Point
}

// element is a way to draw a stretch: try fits it and gives the largest distance
// measured, keep takes what try made last. The distance grows with the power of
// the length.
type element struct {
	power float64
	try   func(*stretch) float64
	keep  func(*stretch)
}

// walk lays elements along one turn of the curve from seam, each as long as
// allow (mm) lets it be. The last ends at the height where the first began.
func (u *Curve) walk(m sheet, seam, allow float64, e element) (worst float64) {
	allow *= num.FitShare
	ps := u.from(seam)
	begin, finish := m.edges()
	first := m.point(u, &ps[0], ps[0].a)
	first.X = begin
	at := first
	for i := range ps {
		p := &ps[i]
		end := m.point(u, p, p.b)
		if i == len(ps)-1 {
			end = geom.Point{X: finish, Y: first.Y}
		}
		worst = max(worst, u.walkPiece(m, p, at, end, allow, e))
		at = end
	}
	return worst
}

func (u *Curve) walkPiece(m sheet, p *piece, start, end geom.Point, allow float64, e element) (worst float64) {
	s := stretch{a: p.a, at: start, dir: m.dir(u, p, p.a)}
	step := p.b - p.a
	for s.a < p.b {
		if s.a+step > p.b-step/64 {
			step = p.b - s.a
			s.b, s.to = p.b, end
		} else {
			s.b = s.a + step
			s.to = m.point(u, p, s.b)
		}
		s.end = m.dir(u, p, s.b)
		for i := range s.mid {
			s.mid[i] = m.point(u, p, s.a+(s.b-s.a)*float64(i+1)/measureAt)
		}
		got := e.try(&s)
		if got > allow && step > num.SameTurn {
			step *= max(0.2, 0.95*math.Pow(allow/got, 1/e.power))
			continue
		}
		e.keep(&s)
		worst = max(worst, got)
		s.a, s.at, s.dir = s.b, s.to, s.end
		step *= min(4, 0.95*math.Pow(allow/max(got, allow/256), 1/e.power))
	}
	return worst
}

// arcs fits arcs within num.ArcFit to one turn of the curve from seam.
func (u *Curve) arcs(m sheet, seam float64) Fit {
	var f Fit
	var one, two geom.Seg
	single := false // one line, where two arcs would be too short to draw
	f.Worst = u.walk(m, seam, num.ArcFit, element{
		power: 3,
		try: func(s *stretch) float64 {
			if single = s.at.Dist(s.to) < num.ShortPair; single {
				one = geom.Line(s.at, s.to)
				two = one
			} else {
				one, two = biarc(s.at, s.dir, s.to, s.end)
			}
			worst := 0.0
			for _, c := range s.mid {
				worst = max(worst, min(geom.PointSeg(c, one).D, geom.PointSeg(c, two).D))
			}
			return worst
		},
		keep: func(*stretch) {
			f.add(one)
			if !single {
				f.add(two)
			}
		},
	})
	f.dropShort()
	return f
}

// dropShort takes out segments too short to draw, as between a seam and a corner
// beside it: the neighbour is carried to the far end.
func (f *Fit) dropShort() {
	out := f.Segs[:0]
	for i, s := range f.Segs {
		switch {
		case len(out) > 0 && s.A.Dist(s.B) <= num.ShortFit:
			last := out[len(out)-1]
			out[len(out)-1] = geom.BulgeSeg(last.A, s.B, last.Bulge)
		case i+1 < len(f.Segs) && s.A.Dist(s.B) <= num.ShortFit:
			next := f.Segs[i+1]
			f.Segs[i+1] = geom.BulgeSeg(s.A, next.B, next.Bulge)
			continue
		default:
			out = append(out, s)
		}
	}
	f.Segs = out
}

// add appends a segment; one line in two halves becomes one line.
func (f *Fit) add(s geom.Seg) {
	if n := len(f.Segs); n > 0 {
		last := f.Segs[n-1]
		if !s.IsArc() && !last.IsArc() && math.Abs(last.B.Sub(last.A).Cross(s.B.Sub(last.A))) <= num.Collinear*s.B.Dist(last.A) {
			f.Segs[n-1] = geom.Line(last.A, s.B)
			return
		}
	}
	f.Segs = append(f.Segs, s)
}

// biarc joins a to b by two arcs that start along ta, end along tb (unit
// vectors) and share their tangent where they meet. Of the one-parameter family
// it takes the one with equal distances from the ends to the corners of its
// control polygon: K. M. Bolton, "Biarc curves", Computer-Aided Design 7 (1975).
func biarc(a, ta, b, tb geom.Point) (one, two geom.Seg) {
	v, t := b.Sub(a), ta.Add(tb)
	vt, vv := v.Dot(t), v.Dot(v)
	bend := ta.Sub(tb).Len()
	d := vv / (vt + math.Sqrt(vt*vt+bend*bend*vv)) // bend² = 2(1-ta·tb)
	if !num.Finite(d) || d <= 0 {
		m := geom.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
		return geom.Line(a, m), geom.Line(m, b)
	}
	c1, c2 := a.Add(ta.Mul(d)), b.Sub(tb.Mul(d))
	j := geom.Point{X: (c1.X + c2.X) / 2, Y: (c1.Y + c2.Y) / 2}
	return tangentArc(a, ta, j), tangentArc(b, tb.Mul(-1), j).Reverse()
}

// tangentArc is the arc from a along t to b; a line where it leaves its chord by
// less than num.Coincident, or is flatter than drawings take.
func tangentArc(a, t, b geom.Point) geom.Seg {
	chord := b.Sub(a)
	half := math.Atan2(t.Cross(chord), t.Dot(chord)) // half the sweep
	bulge := math.Tan(half / 2)
	l := chord.Len()
	if math.Abs(bulge)*l/2 <= num.Coincident || l*(1+bulge*bulge) > 4*math.Abs(bulge)*num.LargestRadius {
		return geom.Line(a, b)
	}
	return geom.BulgeSeg(a, b, min(1, max(-1, bulge)))
}
