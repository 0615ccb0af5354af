package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/num"
)

func drawMotion(t *rapid.T, label string) Motion {
	m := Motion{}
	for range rapid.IntRange(0, 3).Draw(t, label+" steps") {
		switch rapid.IntRange(0, 3).Draw(t, label+" kind") {
		case 0:
			m = m.Then(Translate(rapid.Float64Range(-50, 50).Draw(t, "dx"), rapid.Float64Range(-50, 50).Draw(t, "dy")))
		case 1:
			m = m.Then(Rotate(rapid.Float64Range(-7, 7).Draw(t, "angle")))
		case 2:
			m = m.Then(MirrorX())
		case 3:
			m = m.Then(MirrorY())
		}
	}
	return m
}

func TestMotionExact(t *testing.T) {
	p := Point{3, 5}
	require.Equal(t, p, Motion{}.Apply(p))
	require.Equal(t, Point{4, 3}, Translate(1, -2).Apply(p))
	require.Equal(t, Point{3, -5}, MirrorX().Apply(p))
	require.Equal(t, Point{-3, 5}, MirrorY().Apply(p))
	for deg, want := range map[float64]Point{0: p, 90: {-5, 3}, 180: {-3, -5}, 270: {5, -3}, -90: {5, -3}, 360: p, 450: {-5, 3}, -630: {-5, 3}} {
		require.Equal(t, want, Rotate(deg*math.Pi/180).Apply(p), "%g degrees", deg)
	}
	requirePoint(t, Point{10, 1}, RotateAbout(Point{10, 0}, math.Pi/2).Apply(Point{11, 0}))
	require.Equal(t, p, MirrorX().Then(MirrorX()).Apply(p))
	require.Equal(t, Motion{}, MirrorX().Then(MirrorX()))
	require.Equal(t, Motion{}, Rotate(math.Pi/2).Then(Rotate(-math.Pi/2)))
	require.False(t, math.Signbit(MirrorX().Apply(Point{1, 0}).Y), "no negative zero")
	require.False(t, math.Signbit(MirrorY().Apply(Point{0, 1}).X))
	require.False(t, math.Signbit(Rotate(math.Pi).Apply(Point{0, 0}).X))
	require.True(t, MirrorY().Mirrored())
	require.False(t, MirrorY().Then(MirrorX()).Mirrored())
}

// m.Then(n) moves a point as m and n do one after the other, and distances stay.
func TestMotionThen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n := drawMotion(t, "m"), drawMotion(t, "n")
		p := Point{rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(-50, 50).Draw(t, "y")}
		q := Point{-7, 11}
		requirePoint(t, n.Apply(m.Apply(p)), m.Then(n).Apply(p))
		require.InDelta(t, p.Dist(q), m.Apply(p).Dist(m.Apply(q)), 1e-12*(1+p.Dist(q)))
		requirePoint(t, m.Apply(p).Sub(m.Apply(q)), m.Dir(p.Sub(q)))
	})
}

// A moved segment runs through the moved points, on the moved circle.
func TestSegTransform(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, m := drawSeg(t, "s"), drawMotion(t, "m")
		moved := s.Transform(m)
		k := rapid.Float64Range(0, 1).Draw(t, "k")
		requirePoint(t, m.Apply(s.At(k)), moved.At(k))
		require.Equal(t, s.Circle().R, moved.Circle().R)
		if s.IsArc() {
			require.Equal(t, m.Apply(s.circ.C), moved.circ.C)
			requirePoint(t, m.Dir(s.DirA()), moved.DirA())
		}
	})
}

// A moved loop stays valid, keeps its direction, area and perimeter, and its
// inside moves with it.
func TestLoopTransform(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, m := drawLoop(t, "l"), drawMotion(t, "m")
		moved := l.Transform(m)
		require.NoError(t, moved.Validate())
		require.InEpsilon(t, l.Area(), moved.Area(), 1e-12)
		require.InEpsilon(t, l.Perimeter(), moved.Perimeter(), 1e-12)
		requirePoint(t, m.Apply(l[0].A), moved[0].A)
		requirePoint(t, m.Apply(l.Centroid()), moved.Centroid())
		p := Point{rapid.Float64Range(-80, 80).Draw(t, "x"), rapid.Float64Range(-80, 80).Draw(t, "y")}
		if PointLoop(p, l).D > 2*num.Coincident {
			require.Equal(t, l.Contains(p), moved.Contains(m.Apply(p)))
		}
	})
}

func TestRegionTransform(t *testing.T) {
	r := Region{
		Outer: Polygon(Point{0, 0}, Point{60, 0}, Point{60, 40}, Point{0, 40}),
		Holes: []Loop{CircleLoop(Circle{Point{20, 20}, 5}).Reverse(), Slot(Point{40, 10}, Point{40, 30}, 8).Reverse()},
	}
	require.NoError(t, r.Validate())
	m := r.Transform(MirrorY().Then(Translate(5, 0)))
	require.NoError(t, m.Validate(), "a mirrored region keeps its directions")
	require.Equal(t, r.Area(), m.Area())
	c, ok := m.Holes[0].Circle()
	require.True(t, ok)
	require.Equal(t, Circle{Point{-15, 20}, 5}, c)
	require.Equal(t, r, r.Transform(Motion{}))
	require.Equal(t, Region{}, Region{}.Transform(MirrorX()))
}
