package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/num"
)

// drawSeg draws a line or an arc of ordinary size; half turns, flat arcs and
// round numbers come often.
func drawSeg(t *rapid.T, label string) Seg {
	coord := rapid.OneOf(rapid.Float64Range(-100, 100), rapid.Map(rapid.IntRange(-8, 8), func(i int) float64 { return float64(i) }))
	a := Point{coord.Draw(t, label+" ax"), coord.Draw(t, label+" ay")}
	b := Point{coord.Draw(t, label+" bx"), coord.Draw(t, label+" by")}
	if a.Dist(b) < 1 {
		b = a.Add(Point{1 + coord.Draw(t, label+" dx")/200, 0.5})
	}
	bulge := rapid.OneOf(rapid.SampledFrom([]float64{0, 0, 1, -1, math.Sqrt2 - 1, 1 - math.Sqrt2, 1e-3, -1e-3}),
		rapid.Float64Range(-1, 1)).Draw(t, label+" bulge")
	if abs(bulge) < 1e-4 {
		bulge = 0
	}
	return BulgeSeg(a, b, bulge)
}

// drawLoop draws a simple loop: a star about some point, its edges straight or
// curved a little.
func drawLoop(t *rapid.T, label string) Loop {
	n := rapid.IntRange(3, 12).Draw(t, label+" corners")
	c := Point{rapid.Float64Range(-50, 50).Draw(t, label+" x"), rapid.Float64Range(-50, 50).Draw(t, label+" y")}
	pts := make([]Point, n)
	for i := range pts {
		pts[i] = c.Polar(rapid.Float64Range(10, 30).Draw(t, label+" r"), fullTurn*float64(i)/float64(n))
	}
	l := Polygon(pts...)
	for i, s := range l {
		if b := rapid.Float64Range(-0.2, 0.2).Draw(t, label+" bulge"); abs(b) > 0.01 {
			curved := BulgeSeg(s.A, s.B, b)
			l[i] = curved
			if l.Validate() != nil {
				l[i] = s
			}
		}
	}
	return l
}

func TestSegMeasures(t *testing.T) {
	line := Line(Point{1, 1}, Point{4, 5})
	require.Equal(t, 5.0, line.Length())
	require.Equal(t, Point{2.5, 3}, line.Mid())
	require.Equal(t, Point{0.6, 0.8}, line.DirA())
	require.Equal(t, line.DirA(), line.DirB())
	require.Equal(t, BoxOf(line.A, line.B), line.Bounds())

	arc := BulgeSeg(Point{10, 0}, Point{0, 10}, math.Sqrt2-1) // a quarter about the origin
	require.InDelta(t, 5*math.Pi, arc.Length(), 1e-12)
	requirePoint(t, Point{10 * math.Sqrt2 / 2, 10 * math.Sqrt2 / 2}, arc.Mid())
	requirePoint(t, Point{0, 1}, arc.DirA())
	requirePoint(t, Point{-1, 0}, arc.DirB())
	requirePoint(t, Point{0, -1}, arc.Reverse().DirB())
	require.Equal(t, Point{}, Line(Point{1, 2}, Point{1, 2}).DirA())
}

func requirePoint(t require.TestingT, want, got Point) {
	if h, ok := t.(interface{ Helper() }); ok {
		h.Helper()
	}
	require.InDelta(t, want.X, got.X, 1e-9, "x of %v, wanted %v", got, want)
	require.InDelta(t, want.Y, got.Y, 1e-9, "y of %v, wanted %v", got, want)
}

// Along a segment, At(0) is A, At(1) is B, every point lies on the carrier, and
// equal shares are equal lengths.
func TestSegAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeg(t, "s")
		require.Equal(t, s.A, s.At(0))
		require.Equal(t, s.B, s.At(1))
		requirePoint(t, s.Mid(), s.At(0.5))
		requirePoint(t, s.B, s.At(math.Nextafter(1, 0)))
		k := rapid.Float64Range(0, 1).Draw(t, "k")
		p := s.At(k)
		require.True(t, s.closeTo(p))
		if s.IsArc() {
			sub := Arc(s.circ, s.A, p, s.Bulge > 0)
			if k > 1e-6 {
				require.InDelta(t, k*s.Length(), sub.Length(), 1e-7)
			}
		}
		requirePoint(t, s.At(1-k), s.Reverse().At(k))
	})
}

// The bounds hold every point of the segment, and each side is reached.
func TestSegBoundsTight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeg(t, "s")
		b := s.Bounds()
		grown := b.Grow(num.Contact)
		seen := Box{}
		const n = 2000
		for i := range n + 1 {
			p := s.At(float64(i) / n)
			require.True(t, grown.Holds(p), "%v outside %v", p, b)
			seen = seen.Extend(p)
		}
		// between two samples an arc rises by no more than this
		rise := s.circ.R * (1 - math.Cos(s.Sweep()/(2*n)))
		require.LessOrEqual(t, seen.Min.X, b.Min.X+rise+1e-9)
		require.LessOrEqual(t, seen.Min.Y, b.Min.Y+rise+1e-9)
		require.GreaterOrEqual(t, seen.Max.X, b.Max.X-rise-1e-9)
		require.GreaterOrEqual(t, seen.Max.Y, b.Max.Y-rise-1e-9)
	})
}

func TestLoopBounds(t *testing.T) {
	c := CircleLoop(Circle{Point{3, -2}, 5})
	require.Equal(t, BoxOf(Point{-2, -7}, Point{8, 3}), c.Bounds())
	require.True(t, Loop(nil).Bounds().Empty())
	require.True(t, Region{}.Bounds().Empty())
	slot := Slot(Point{}, Point{30, 0}, 10)
	require.Equal(t, BoxOf(Point{-5, -5}, Point{35, 5}), slot.Bounds())
}

func TestLoopCircle(t *testing.T) {
	want := Circle{Point{3, -2}, 5}
	c, ok := CircleLoop(want).Circle()
	require.True(t, ok)
	require.Equal(t, want, c)
	c, ok = CircleLoop(want).Reverse().Circle()
	require.True(t, ok)
	require.Equal(t, want, c)

	var quarters Loop
	for i := range 4 {
		a := float64(i) * math.Pi / 2
		quarters = append(quarters, Arc(want, want.C.Polar(5, a), want.C.Polar(5, a+math.Pi/2), true))
	}
	quarters[3].B = quarters[0].A
	c, ok = quarters.Circle()
	require.True(t, ok)
	require.Equal(t, want, c)

	for name, l := range map[string]Loop{
		"nothing":    nil,
		"slot":       Slot(Point{}, Point{30, 0}, 10),
		"half disc":  {BulgeSeg(Point{5, 0}, Point{-5, 0}, 1), Line(Point{-5, 0}, Point{5, 0})},
		"lens":       {BulgeSeg(Point{5, 0}, Point{-5, 0}, 0.5), BulgeSeg(Point{-5, 0}, Point{5, 0}, 0.5)},
		"two turns":  append(CircleLoop(want), CircleLoop(want)...),
		"there back": {BulgeSeg(Point{5, 0}, Point{-5, 0}, 1), BulgeSeg(Point{-5, 0}, Point{5, 0}, -1)},
	} {
		_, ok := l.Circle()
		require.False(t, ok, name)
	}
}

func TestLoopReverse(t *testing.T) {
	l := Slot(Point{}, Point{30, 0}, 10)
	r := l.Reverse()
	require.Equal(t, l[0].A, r[0].A)
	require.Equal(t, -l.Area(), r.Area())
	require.Equal(t, l, r.Reverse())
	require.NoError(t, r.Validate())
	require.Nil(t, Loop(nil).Reverse())
}
