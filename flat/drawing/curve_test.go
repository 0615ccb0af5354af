package drawing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/drawing"
	"blankwright/flat/geom"
)

// readOne reads a drawing with one entity.
func readOne(tb require.TestingT, s *sheet, allowed float64) (*drawing.Drawing, []geom.Seg) {
	d, err := drawing.Read("d.dxf", s.text(), drawing.Options{CurveError: allowed})
	require.NoError(tb, err)
	require.Len(tb, d.Shapes, 1)
	return d, d.Shapes[0].Segs
}

// rounding is what numbers of some hundreds of mm are sure of, mm.
const rounding = 1e-10

// checkCurve holds segments against the curve they stand for: every place of the
// curve lies within allowed of them, and they run along it smoothly, within the
// deviation that was reported.
func checkCurve(tb require.TestingT, d *drawing.Drawing, segs []geom.Seg, allowed float64, at func(u float64) geom.Point) (worst float64) {
	const n = 4000
	for i := range n + 1 {
		p := at(float64(i) / n)
		best := math.Inf(1)
		for _, s := range segs {
			best = math.Min(best, geom.PointSeg(p, s).D)
		}
		worst = math.Max(worst, best)
	}
	require.LessOrEqual(tb, worst, allowed)
	require.LessOrEqual(tb, worst, d.Deviation+rounding)
	length := 0.0
	for i := range segs {
		length += segs[i].Length()
		if i > 0 {
			require.Equal(tb, segs[i-1].B, segs[i].A)
		}
	}
	chords := 0.0
	for i := range n {
		chords += at(float64(i) / n).Dist(at(float64(i+1) / n))
	}
	// A line beside one that turns once round is longer by a turn of their distance.
	require.InDelta(tb, 1, length/chords, 0.01+2*math.Pi*allowed/chords, "neither a loop nor a hairpin")
	return worst
}

func TestEllipseWithinError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(1, 2000).Draw(t, "a")
		ratio := rapid.Float64Range(0.02, 1).Draw(t, "ratio")
		turn := rapid.Float64Range(0, 6.3).Draw(t, "turn")
		from := rapid.Float64Range(-7, 7).Draw(t, "from")
		sweep := rapid.Float64Range(0.05, 2*math.Pi).Draw(t, "sweep")
		allowed := rapid.SampledFrom([]float64{0.05, 0.01, 0.001}).Draw(t, "allowed")
		u := geom.Point{}.Polar(a, turn)
		s := &sheet{}
		s.add("ELLIPSE", "0", 10, 3.0, 20, 4.0, 11, u.X, 21, u.Y, 40, ratio, 41, from, 42, from+sweep)
		d, segs := readOne(t, s, allowed)
		checkCurve(t, d, segs, allowed, func(x float64) geom.Point {
			sin, cos := math.Sincos(from + x*sweep)
			return pt(3, 4).Add(u.Mul(cos)).Add(u.Perp().Mul(ratio * sin))
		})
	})
}

// bezier is a rational cubic in Bernstein form.
func bezier(p []geom.Point, w []float64, t float64) geom.Point {
	b := [4]float64{(1 - t) * (1 - t) * (1 - t), 3 * t * (1 - t) * (1 - t), 3 * t * t * (1 - t), t * t * t}
	var sum geom.Point
	div := 0.0
	for i := range b {
		sum = sum.Add(p[i].Mul(b[i] * w[i]))
		div += b[i] * w[i]
	}
	return sum.Mul(1 / div)
}

func TestBezierWithinError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p []geom.Point
		var w []float64
		for range 4 {
			p = append(p, pt(rapid.Float64Range(0, 200).Draw(t, "x"), rapid.Float64Range(0, 200).Draw(t, "y")))
			w = append(w, rapid.Float64Range(0.2, 5).Draw(t, "w"))
		}
		if p[0].Dist(p[3])+p[0].Dist(p[1])+p[0].Dist(p[2]) < 1 {
			t.Skip("hardly a curve")
		}
		checkBezier(t, p, w, rapid.SampledFrom([]float64{0.05, 0.01}).Draw(t, "allowed"), 2000)
	})
}

// TestSharpBezier reads a curve that turns so fast at its tip that the places
// tried one by one miss the greatest deviation.
func TestSharpBezier(t *testing.T) {
	p := []geom.Point{{X: 0.001953125, Y: 1}, {X: 0.0009765625, Y: 4.5}, {X: 0.125, Y: 200}, {X: 0.0009765625, Y: 3.96875}}
	checkBezier(t, p, []float64{1.875, 5, 1, 0.3046875}, 0.05, 100_000)
}

// TestHairpinBezier reads a curve that goes out and comes back, all but closed.
func TestHairpinBezier(t *testing.T) {
	p := []geom.Point{{X: 4.5e-13, Y: 4.5e-13}, {X: 1, Y: 16.5}, {X: 4.5e-13, Y: 5.7e-13}, {X: 9.1e-13, Y: 1.8e-11}}
	checkBezier(t, p, []float64{0.4375, 0.75, 0.390625, 0.2}, 0.01, 100_000)
}

// checkBezier holds the arcs read for a rational cubic against n places of it.
func checkBezier(tb require.TestingT, p []geom.Point, w []float64, allowed float64, n int) {
	s := &sheet{}
	groups := []any{71, 3, 40, 0, 40, 0, 40, 0, 40, 0, 40, 1, 40, 1, 40, 1, 40, 1}
	for i := range p {
		groups = append(groups, 41, w[i], 10, p[i].X, 20, p[i].Y)
	}
	s.add("SPLINE", "0", groups...)
	d, segs := readOne(tb, s, allowed)
	off := 0.0
	for i := range n + 1 {
		x := bezier(p, w, float64(i)/float64(n))
		best := math.Inf(1)
		for _, g := range segs {
			best = math.Min(best, geom.PointSeg(x, g).D)
		}
		off = math.Max(off, best)
	}
	require.LessOrEqual(tb, off, d.Deviation+rounding)
	require.LessOrEqual(tb, d.Deviation, allowed)
	require.InDelta(tb, 0, p[0].Dist(segs[0].A), 1e-9)
	require.InDelta(tb, 0, p[3].Dist(segs[len(segs)-1].B), 1e-9)
	require.Less(tb, len(segs), 2000)
}

// TestSmooth wants arcs that meet without a corner along a smooth curve.
func TestSmooth(t *testing.T) {
	s := &sheet{}
	s.add("ELLIPSE", "0", 11, 100.0, 40, 0.4)
	d, segs := readOne(t, s, 0.01)
	worst := checkCurve(t, d, segs, 0.01, func(u float64) geom.Point {
		sin, cos := math.Sincos(2 * math.Pi * u)
		return pt(100*cos, 40*sin)
	})
	assert.LessOrEqual(t, d.Deviation, 1.05*worst+0.0001, "nor is it stated too large")
	for i := range segs {
		next := segs[(i+1)%len(segs)]
		assert.InDelta(t, 0, segs[i].DirB().Cross(next.DirA()), 1e-6, "joint %d", i)
	}
	assert.LessOrEqual(t, len(segs), 64)
	l := geom.Loop(segs)
	assert.NoError(t, l.Validate())
	assert.InDelta(t, math.Pi*100*40, l.Area(), 0.01*l.Perimeter())
	b := l.Bounds()
	assert.InDelta(t, 200, b.Width(), 1e-9, "the ends of the axes are kept")
	assert.InDelta(t, 80, b.Height(), 1e-9)
}

// TestSplineOfQuarters reads a whole circle made of four rational quarters as
// arcs of that circle, and mending makes it one.
func TestSplineOfQuarters(t *testing.T) {
	r := math.Sqrt(0.5)
	s := &sheet{}
	groups := []any{70, 1, 71, 2}
	for _, k := range []int{0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4} {
		groups = append(groups, 40, k)
	}
	for i, p := range []geom.Point{{X: 1}, {X: 1, Y: 1}, {Y: 1}, {X: -1, Y: 1}, {X: -1}, {X: -1, Y: -1}, {Y: -1}, {X: 1, Y: -1}, {X: 1}} {
		w := 1.0
		if i%2 == 1 {
			w = r
		}
		groups = append(groups, 10, 50+30*p.X, 20, 20+30*p.Y, 41, w)
	}
	s.add("SPLINE", "0", groups...)
	d, segs := readOne(t, s, 0.01)
	assert.Less(t, d.Deviation, 1e-9)
	for _, g := range segs {
		assert.InDelta(t, 30, g.Circle().R, 1e-7)
		assert.InDelta(t, 0, g.Circle().C.Dist(pt(50, 20)), 1e-7)
	}
	m := drawing.Mend(drawing.Assemble(d, 0))
	require.Len(t, m.Regions, 1)
	c, ok := m.Regions[0].Outer.Circle()
	require.True(t, ok)
	assert.InDelta(t, 30, c.R, 1e-7)
}

// TestStraightSpline reads straight splines as straight lines.
func TestStraightSpline(t *testing.T) {
	s := &sheet{}
	s.add("SPLINE", "0", 71, 3, 40, 0, 40, 0, 40, 0, 40, 0, 40, 1, 40, 1, 40, 1, 40, 1,
		10, 0.0, 20, 0.0, 10, 10.0, 20, 5.0, 10, 20.0, 20, 10.0, 10, 60.0, 20, 30.0)
	_, segs := readOne(t, s, 0.01)
	assert.Equal(t, []geom.Seg{geom.Line(pt(0, 0), pt(60, 30))}, segs)
	s = &sheet{}
	s.add("SPLINE", "0", 71, 1, 40, 0, 40, 0, 40, 1, 40, 2, 40, 2, 10, 0.0, 20, 0.0, 10, 50.0, 20, 0.0, 10, 50.0, 20, 40.0)
	_, segs = readOne(t, s, 0.01)
	assert.Equal(t, []geom.Seg{geom.Line(pt(0, 0), pt(50, 0)), geom.Line(pt(50, 0), pt(50, 40))}, segs)
}

// TestClosedFitPoints runs a closed spline through its points, smoothly over the
// seam.
func TestClosedFitPoints(t *testing.T) {
	s := &sheet{}
	groups := []any{70, 1, 71, 3}
	var on []geom.Point
	for i := range 12 {
		p := pt(100, 100).Polar(40+8*float64(i%2), float64(i)*math.Pi/6)
		on = append(on, p)
		groups = append(groups, 11, p.X, 21, p.Y)
	}
	s.add("SPLINE", "0", groups...)
	_, segs := readOne(t, s, 0.01)
	for _, p := range on {
		best := math.Inf(1)
		for _, g := range segs {
			best = math.Min(best, geom.PointSeg(p, g).D)
		}
		assert.Less(t, best, 0.01)
	}
	last := segs[len(segs)-1]
	assert.Equal(t, segs[0].A, last.B)
	assert.InDelta(t, 0, last.DirB().Cross(segs[0].DirA()), 1e-6)
	assert.NoError(t, geom.Loop(segs).Validate())
	// The same whichever point is the first: the seam is not seen.
	area := geom.Loop(segs).Area()
	s = &sheet{}
	groups = []any{70, 1, 71, 3}
	for i := range on {
		p := on[(i+5)%12]
		groups = append(groups, 11, p.X, 21, p.Y)
	}
	s.add("SPLINE", "0", groups...)
	_, segs = readOne(t, s, 0.01)
	assert.InDelta(t, area, geom.Loop(segs).Area(), 0.5)
}

// TestHardCurves reads curves with cusps, loops and points that stand still.
func TestHardCurves(t *testing.T) {
	cubic := func(p ...float64) *sheet {
		s := &sheet{}
		groups := []any{71, 3, 40, 0, 40, 0, 40, 0, 40, 0, 40, 1, 40, 1, 40, 1, 40, 1}
		for i := 0; i < len(p); i += 2 {
			groups = append(groups, 10, p[i], 20, p[i+1])
		}
		s.add("SPLINE", "0", groups...)
		return s
	}
	for why, s := range map[string]*sheet{
		"cusp":            cubic(0, 0, 100, 100, 0, 100, 100, 0),
		"loop":            cubic(0, 0, 150, 100, -50, 100, 100, 0),
		"stands at start": cubic(0, 0, 0, 0, 50, 80, 100, 0),
		"stands at end":   cubic(0, 0, 50, 80, 100, 0, 100, 0),
		"closed":          cubic(0, 0, 100, 100, -100, 100, 0, 0),
		"there and back":  cubic(0, 0, 150, 0, -50, 0, 100, 0),
	} {
		t.Run(why, func(t *testing.T) {
			d, segs := readOne(t, s, 0.01)
			assert.LessOrEqual(t, d.Deviation, 0.01)
			assert.Less(t, len(segs), 200)
			for i := 1; i < len(segs); i++ {
				assert.Equal(t, segs[i-1].B, segs[i].A)
			}
		})
	}
	// A point, however it is written.
	_, segs := readOne(t, cubic(5, 5, 5, 5, 5, 5, 5, 5), 0.01)
	require.Len(t, segs, 1)
	assert.Equal(t, segs[0].A, segs[0].B)
}

// TestSplineWithoutPoints is told of, wherever its numbers end.
func TestSplineWithoutPoints(t *testing.T) {
	for _, groups := range [][]any{
		{40, 0, 40, 0, 40, 0},
		{40, 0, 40, 0, 40, 0, 41, 1, 41, 1, 41, 1},
		{40, 0, 40, 0, 40, 0, 41, 1, 11, 7.0, 21, 9.0},
		{},
	} {
		s := &sheet{}
		s.add("SPLINE", "0", groups...)
		d := s.read(t)
		require.Equal(t, []string{"unreadable"}, kinds(d.Faults), "%v", groups)
		assert.Contains(t, d.Faults[0].Message, "neither control points nor fit points")
		if len(groups) == 14 {
			assert.Equal(t, pt(7, 9), d.Faults[0].At)
		}
	}
}
