package strength

import (
	"math"
	"testing"

	"blankwright/flat/geom"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// grid is columns by rows of bolts about the origin.
func grid(columns, rows int, px, py float64) []geom.Point {
	var out []geom.Point
	for i := range columns {
		for j := range rows {
			out = append(out, pt(px*(float64(i)-float64(columns-1)/2), py*(float64(j)-float64(rows-1)/2)))
		}
	}
	return out
}

// drawGroup draws bolts anywhere, on a grid (where symmetry puts bolts on the
// centre) or in one line; not all in one place.
func drawGroup(t *rapid.T) []geom.Point {
	n := rapid.IntRange(2, 12).Draw(t, "bolts")
	kind := rapid.SampledFrom([]string{"anywhere", "grid", "line"}).Draw(t, "kind")
	out := make([]geom.Point, n)
	for i := range out {
		x := rapid.IntRange(0, 5).Draw(t, "x")
		switch kind {
		case "anywhere":
			out[i] = pt(rapid.Float64Range(-200, 200).Draw(t, "fx"), rapid.Float64Range(-200, 200).Draw(t, "fy"))
		case "grid":
			out[i] = pt(float64(x)*50, float64(rapid.IntRange(0, 5).Draw(t, "y"))*50)
		default:
			out[i] = pt(float64(x)*40, float64(x)*30)
		}
	}
	if _, j := polar(out); j < 100 {
		out[0] = out[0].Add(pt(80, 60))
	}
	return out
}

func drawLoad(t *rapid.T, near []geom.Point) PlaneLoad {
	l := PlaneLoad{At: pt(float64(rapid.IntRange(-20, 20).Draw(t, "ax"))*25, float64(rapid.IntRange(-20, 20).Draw(t, "ay"))*25)}
	if rapid.IntRange(0, 5).Draw(t, "on a bolt") == 0 {
		l.At = near[0]
	}
	switch rapid.SampledFrom([]string{"force", "force", "square", "couple", "both"}).Draw(t, "load") {
	case "force":
		l.F = pt(0, 0).Polar(1e4, rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle"))
	case "square":
		l.F = pt(0, 0).Polar(1e4, math.Pi/4*float64(rapid.IntRange(0, 7).Draw(t, "eighths")))
	case "couple":
		l.M = rapid.SampledFrom([]float64{-1e6, 1e6}).Draw(t, "couple")
	case "both":
		l.F = pt(0, 0).Polar(1e4, rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle"))
		l.M = rapid.Float64Range(-1e6, 1e6).Draw(t, "m")
	}
	return l
}

// balanced holds forces on the bolts against the load.
func balanced(t require.TestingT, bolts, forces []geom.Point, load PlaneLoad, c geom.Point) {
	var f geom.Point
	var m, size, arm float64
	for i, p := range bolts {
		f = f.Add(forces[i])
		m += p.Sub(c).Cross(forces[i])
		size += forces[i].Len()
		arm = max(arm, p.Dist(c))
	}
	close9(t, load.F.X, f.X, size, "force x")
	close9(t, load.F.Y, f.Y, size, "force y")
	close9(t, load.About(c), m, size*arm, "moment")
}

func TestElasticGroupBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bolts := drawGroup(t)
		load := drawLoad(t, bolts)
		g, err := ElasticGroup(bolts, load, nil)
		require.NoError(t, err)
		balanced(t, bolts, g.Forces, load, g.Centroid)
		for _, f := range g.Forces {
			require.LessOrEqual(t, f.Len(), g.Most)
		}
		require.Equal(t, g.Most, g.Forces[g.MostAt].Len())
	})
}

// drawMotion draws how plate and load are moved together.
func drawMotion(t *rapid.T) geom.Motion {
	m := geom.Rotate(rapid.Float64Range(-4, 4).Draw(t, "turn"))
	if rapid.Bool().Draw(t, "mirrored") {
		m = geom.MirrorX().Then(m)
	}
	return m.Then(geom.Translate(rapid.Float64Range(-500, 500).Draw(t, "dx"), rapid.Float64Range(-500, 500).Draw(t, "dy")))
}

func movedGroup(m geom.Motion, bolts []geom.Point, l PlaneLoad) ([]geom.Point, PlaneLoad) {
	out := make([]geom.Point, len(bolts))
	for i, p := range bolts {
		out[i] = m.Apply(p)
	}
	l.F, l.At = m.Dir(l.F), m.Apply(l.At)
	if m.Mirrored() {
		l.M = -l.M
	}
	return out, l
}

// Turning and mirroring group and load together changes nothing but the directions.
func TestElasticGroupTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bolts := drawGroup(t)
		load := drawLoad(t, bolts)
		m := drawMotion(t)
		g, err := ElasticGroup(bolts, load, nil)
		require.NoError(t, err)
		bolts, load = movedGroup(m, bolts, load)
		h, err := ElasticGroup(bolts, load, nil)
		require.NoError(t, err)
		close9(t, g.Most, h.Most, g.Most, "largest force")
		for i := range g.Forces {
			w := m.Dir(g.Forces[i])
			close9(t, w.X, h.Forces[i].X, g.Most, "x")
			close9(t, w.Y, h.Forces[i].Y, g.Most, "y")
		}
	})
}

func TestGroupErrors(t *testing.T) {
	one := []geom.Point{pt(3, 4), pt(3, 4)}
	_, err := ElasticGroup(nil, PlaneLoad{F: pt(1, 0)}, nil)
	require.ErrorIs(t, err, errNoBolts)
	_, err = ElasticGroup(one, PlaneLoad{F: pt(1, 0)}, nil)
	require.ErrorIs(t, err, errNoArm)
	g, err := ElasticGroup(one, PlaneLoad{F: pt(10, 0), At: pt(100, 4)}, nil)
	require.NoError(t, err)
	require.Equal(t, 5.0, g.Most)
	_, err = ElasticGroup(one, PlaneLoad{F: pt(math.NaN(), 0)}, nil)
	require.ErrorIs(t, err, errNotANum)
	_, err = ElasticGroup([]geom.Point{pt(math.Inf(1), 0)}, PlaneLoad{F: pt(1, 0)}, nil)
	require.ErrorIs(t, err, errNotANum)
	_, err = InstantCentre(one, PlaneLoad{F: pt(1, 0)}, nil)
	require.ErrorIs(t, err, errNoArm)
	_, err = InstantCentre(grid(2, 2, 50, 50), PlaneLoad{}, nil)
	require.ErrorIs(t, err, errNoLoad)
	_, err = InstantCentre(nil, PlaneLoad{}, nil)
	require.ErrorIs(t, err, errNoBolts)
	_, err = TensionGroup(nil, SpaceLoad{}, nil)
	require.ErrorIs(t, err, errNoBolts)
	_, err = TensionGroup(one, SpaceLoad{Out: 1}, nil)
	require.ErrorIs(t, err, errNoWidth)
	_, err = TensionGroup(one, SpaceLoad{Out: math.NaN()}, nil)
	require.ErrorIs(t, err, errNotANum)
}

// A bracket on four bolts, 100 wide and 200 high, pulled down 10 kN at 150 out from
// the wall: 10 kN x 150 on two rows 200 apart is 3.75 kN a bolt.
func TestTensionByHand(t *testing.T) {
	bolts := grid(2, 2, 100, 200)
	g, err := TensionGroup(bolts, SpaceLoad{F: pt(0, -10000), Height: 150}, nil)
	require.NoError(t, err)
	for i, p := range bolts {
		require.InDelta(t, math.Copysign(3750, p.Y), g.Forces[i], 1e-9)
	}
	require.InDelta(t, 3750, g.Most, 1e-9)
	require.Equal(t, 1, g.MostAt)
	// Pulled straight off, evenly.
	g, err = TensionGroup(bolts, SpaceLoad{Out: 4000}, nil)
	require.NoError(t, err)
	require.Equal(t, []float64{1000, 1000, 1000, 1000}, g.Forces)
	// A couple about y presses the right side on.
	g, err = TensionGroup(bolts, SpaceLoad{My: 1e6}, nil)
	require.NoError(t, err)
	for i, p := range bolts {
		require.InDelta(t, -math.Copysign(5000, p.X), g.Forces[i], 1e-9)
	}
	// One row holds a moment across it, and none about its own line.
	row := grid(1, 3, 0, 80)
	_, err = TensionGroup(row, SpaceLoad{Mx: 1e5}, nil)
	require.NoError(t, err)
	_, err = TensionGroup(row, SpaceLoad{My: 1e5}, nil)
	require.ErrorIs(t, err, errNoWidth)
}

func drawSpaceLoad(t *rapid.T) SpaceLoad {
	f := func(name string, most float64) float64 { return rapid.Float64Range(-most, most).Draw(t, name) }
	return SpaceLoad{F: pt(f("fx", 1e4), f("fy", 1e4)), Out: f("fz", 1e4), At: pt(f("ax", 300), f("ay", 300)), Height: f("height", 200),
		Mx: f("mx", 1e6), My: f("my", 1e6), Torsion: f("mz", 1e6)}
}

func TestTensionGroupBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bolts := drawGroup(t)
		load := drawSpaceLoad(t)
		g, err := TensionGroup(bolts, load, nil)
		if err != nil {
			require.ErrorIs(t, err, errNoWidth)
			return
		}
		var f, mx, my, size, arm float64
		for i, p := range bolts {
			r := p.Sub(g.Centroid)
			f += g.Forces[i]
			mx += r.Y * g.Forces[i]
			my -= r.X * g.Forces[i]
			size += math.Abs(g.Forces[i])
			arm = max(arm, r.Len())
		}
		wx, wy, _ := load.about(g.Centroid)
		close9(t, load.Out, f, size, "force")
		close9(t, wx, mx, 10*size*arm, "mx")
		close9(t, wy, my, 10*size*arm, "my")
	})
}
