package cope

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/geom"
)

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// drawEnd draws an end of any sort that works: one main, several, a partial
// saddle, a plate.
func drawEnd(t *rapid.T) *Cope {
	tube := drawTube(t)
	switch rapid.IntRange(0, 3).Draw(t, "sort") {
	case 0:
		return must(t, tube, drawMain(t, tube, "main"))
	case 1:
		return must(t, tube, drawMain(t, tube, "a"), drawMain(t, tube, "b"))
	case 2:
		return must(t, tube, Plate{Angle: deg(rapid.Float64Range(5, 90).Draw(t, "angle")), Turn: deg(anyTurn.Draw(t, "turn"))})
	}
	return must(t, tube, drawPartial(t, tube))
}

// drawPartial draws a main that the branch reaches past.
func drawPartial(t *rapid.T, tube Tube) Main {
	m := drawMain(t, tube, "main")
	m.OD = tube.OD * rapid.Float64Range(0.2, 1.5).Draw(t, "small ratio")
	m.Offset = (m.OD + tube.OD) / 2 * rapid.Float64Range(-0.9, 0.9).Draw(t, "far offset")
	m.Partial = true
	return m
}

// The fits keep what they promise, looked at far more densely than they were
// made, in both directions; they close at the seam and neighbours meet.
func TestFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawEnd(t)
		tpl, err := c.Template(PlainPaper(), deg(anyTurn.Draw(t, "seam")))
		require.NoError(t, err)
		k := Kind(rapid.IntRange(0, 2).Draw(t, "kind"))
		dense := denseLine(tpl, k)

		fit := tpl.Arcs(k)
		require.LessOrEqual(t, fit.Worst, 0.02)
		checkChain(t, tpl, fit.Segs)
		require.LessOrEqual(t, farthest(dense, fit.Segs), 0.02, "curve from the arcs")
		require.LessOrEqual(t, farthest(alongSegs(fit.Segs), asLines(dense)), 0.02+0.001, "arcs from the curve")

		pts, worst := tpl.Polyline(k)
		require.LessOrEqual(t, worst, 0.01)
		lines := asLines(pts)
		checkChain(t, tpl, lines)
		require.LessOrEqual(t, farthest(dense, lines), 0.01, "curve from the line")

		curves, worst := tpl.Beziers(k)
		require.LessOrEqual(t, worst, 0.01)
		var flat []geom.Point
		for i, z := range curves {
			if i > 0 {
				require.Equal(t, curves[i-1][3], z[0])
			}
			for j := range 257 {
				flat = append(flat, z.At(float64(j)/256))
			}
		}
		require.Equal(t, 0.0, curves[0][0].X)
		require.Equal(t, pt(tpl.Width, curves[0][0].Y), curves[len(curves)-1][3])
		require.LessOrEqual(t, farthest(flat, asLines(dense)), 0.01+0.001, "cubics from the curve")
		require.LessOrEqual(t, farthest(dense, asLines(flat)), 0.01+0.001, "curve from the cubics")
	})
}

// denseLine is the curve itself as points whose chords leave it by less than
// 0.0005 mm.
func denseLine(tpl *Template, k Kind) []geom.Point {
	u := tpl.c.Curve(k)
	var out []geom.Point
	for _, p := range u.from(tpl.Seam) {
		at := func(t float64) geom.Point {
			q := bent(&p, t)
			return pt((q-tpl.Seam)/fullTurn*tpl.Width, tpl.EdgeAt-u.c.height(u, &p, q))
		}
		var refine func(t0 float64, a geom.Point, t1 float64, b geom.Point, levels int)
		refine = func(t0 float64, a geom.Point, t1 float64, b geom.Point, levels int) {
			m := at((t0 + t1) / 2)
			if levels == 0 || geom.PointSeg(m, geom.Line(a, b)).D < 4e-4 {
				out = append(out, m, b)
				return
			}
			refine(t0, a, (t0+t1)/2, m, levels-1)
			refine((t0+t1)/2, m, t1, b, levels-1)
		}
		const n = 300
		before := at(0)
		out = append(out, before)
		for i := 1; i <= n; i++ {
			next := at(float64(i) / n)
			refine(float64(i-1)/n, before, float64(i)/n, next, 20)
			before = next
		}
	}
	return out
}

func asLines(pts []geom.Point) []geom.Seg {
	var out []geom.Seg
	for i := 1; i < len(pts); i++ {
		out = append(out, geom.Line(pts[i-1], pts[i]))
	}
	return out
}

func alongSegs(segs []geom.Seg) []geom.Point {
	var out []geom.Point
	for _, s := range segs {
		for i := range 33 {
			out = append(out, s.At(float64(i)/32))
		}
	}
	return out
}

// farthest is the largest distance of points from a chain that runs alongside
// them, both by growing x: each point is compared with what lies near its x.
func farthest(pts []geom.Point, segs []geom.Seg) float64 {
	const near = 0.05
	worst, from := 0.0, 0
	for _, p := range pts {
		for from+1 < len(segs) && max(segs[from].A.X, segs[from].B.X) < p.X-near {
			from++
		}
		d := math.Inf(1)
		for i := from; i < len(segs) && min(segs[i].A.X, segs[i].B.X) <= p.X+near; i++ {
			d = min(d, geom.PointSeg(p, segs[i]).D)
		}
		worst = max(worst, d)
	}
	return worst
}

func checkChain(t *rapid.T, tpl *Template, segs []geom.Seg) {
	require.NotEmpty(t, segs)
	first, last := segs[0].A, segs[len(segs)-1].B
	require.Equal(t, 0.0, first.X)
	require.Equal(t, tpl.Width, last.X)
	require.Equal(t, first.Y, last.Y, "the wrapped template's ends meet")
	for i := 1; i < len(segs); i++ {
		require.Equal(t, segs[i-1].B, segs[i].A)
	}
}

// Arcs follow each other without a corner, but where the curve has one.
func TestArcsShareTangents(t *testing.T) {
	c := must(t, Tube{38.1, 4.78}, Main{OD: 44.45, Angle: deg(35), Offset: 2})
	tpl, err := c.Template(PlainPaper(), 0)
	require.NoError(t, err)
	segs := tpl.Arcs(OD).Segs
	for i := 1; i < len(segs); i++ {
		require.InDelta(t, 0, segs[i-1].DirB().Cross(segs[i].DirA()), 1e-6)
	}
	require.InDelta(t, 0, segs[len(segs)-1].DirB().Cross(segs[0].DirA()), 1e-6, "over the seam too")
	require.Less(t, len(segs), 60, "a few arcs are enough")
}

// The outlines are sound shapes that share the sheet between them.
func TestOutlines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawEnd(t)
		tpl, err := c.Template(PlainPaper(), c.BestSeam())
		require.NoError(t, err)
		for k := OD; k <= DropOn; k++ {
			keep, waste := tpl.Keep(k), tpl.Waste(k)
			require.NoError(t, keep.Validate())
			require.NoError(t, waste.Validate())
			require.Greater(t, keep.Area(), 0.0)
			require.InEpsilon(t, tpl.Width*tpl.Top, keep.Area()+waste.Area(), 1e-9)
			want := tpl.Width * (tpl.EdgeAt - c.Curve(k).Mean())
			require.InDelta(t, want, keep.Area(), 0.02*keep.Perimeter(), "area under the curve")
		}
		tab := tpl.TabLoop()
		require.NoError(t, tab.Validate())
		require.Greater(t, tab.Area(), 0.0)
		require.Equal(t, tpl.Width, tab.Bounds().Min.X, "outside the true width")
		from, to := tpl.Arrow()
		require.Greater(t, from.Y, to.Y, "away from the joint")
	})
}

func TestTemplateLayout(t *testing.T) {
	tube := Tube{38.1, 4.78}
	c := must(t, tube, Main{OD: 44.45, Angle: deg(90)})
	require.InDelta(t, math.Pi, c.BestSeam(), 0, "throats are flat, and this one is away from the top line")
	tpl, err := c.Template(PlainPaper(), c.BestSeam())
	require.NoError(t, err)
	require.InDelta(t, math.Pi*38.2, tpl.Width, 1e-12)
	require.InDelta(t, 22.225+25, tpl.EdgeAt, 1e-12)
	require.InDelta(t, tpl.EdgeAt-c.Curve(OD).Ear().S+8, tpl.Top, 1e-12)
	var names []string
	for _, m := range tpl.Marks {
		names = append(names, m.Name)
		if m.X < tpl.Width {
			require.InDelta(t, tpl.X(m.Q), m.X, 1e-12)
		}
	}
	require.Equal(t, []string{"180", "270", "top", "90", "180"}, names)
	require.InDelta(t, tpl.Width/2, tpl.X(0), 1e-12)
	require.InDelta(t, 30.03, tube.Girth()-2*math.Pi*tube.Inner(), 0.005, "a template at the inside is 30 mm short")

	steep := must(t, Tube{38.1, 3}, Main{OD: 50.8, Angle: deg(60)})
	require.InDelta(t, 0, steep.BestSeam(), 0, "the heel moves least")

	for _, p := range []Paper{{Margin: 0, Waste: 5}, {Margin: 5}, {Thickness: -1, Margin: 5, Waste: 5}, {Thickness: math.NaN(), Margin: 5, Waste: 5}} {
		_, err = c.Template(p, 0)
		require.ErrorContains(t, err, "paper has")
	}
	_, err = c.Template(PlainPaper(), math.Inf(1))
	require.Error(t, err)
}

// Wrapped printed side out with the joint up, the sheet's x runs the way that q
// does: seen from outside, x to the right.
func TestTemplateIsSeenFromOutside(t *testing.T) {
	c := must(t, Tube{38.1, 3}, Main{OD: 76, Angle: deg(70), Offset: 8})
	tpl, err := c.Template(PlainPaper(), 0)
	require.NoError(t, err)
	for i := range 12 {
		x := tpl.Width * float64(i) / 12
		r := c.ro
		at, right, up := tpl.Back(pt(x, 10), r), tpl.Back(pt(x+0.001, 10), r), tpl.Back(pt(x, 10.001), r)
		outward := Vec{at.X, at.Y, 0}
		turn := right.Sub(at).Cross(up.Sub(at))
		require.Greater(t, turn.Dot(outward), 0.0, "right, up and outward are right-handed")
	}
}
