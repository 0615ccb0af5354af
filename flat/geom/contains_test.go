package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/num"
)

func parse(t require.TestingT, text string) Loop {
	l, err := ParseLoop(text)
	require.NoError(t, err)
	return l
}

func TestContains(t *testing.T) {
	for _, c := range []struct {
		loop string
		p    Point
		want Side
	}{
		// a square
		{"0 0; 10 0; 10 10; 0 10", Point{5, 5}, Inside},
		{"0 0; 10 0; 10 10; 0 10", Point{-5, 5}, Outside},
		{"0 0; 10 0; 10 10; 0 10", Point{15, 5}, Outside},
		{"0 0; 10 0; 10 10; 0 10", Point{-5, 0}, Outside}, // level with an edge
		{"0 0; 10 0; 10 10; 0 10", Point{-5, 10}, Outside},
		{"0 0; 10 0; 10 10; 0 10", Point{0, 0}, OnEdge},
		{"0 0; 10 0; 10 10; 0 10", Point{10, 10}, OnEdge},
		{"0 0; 10 0; 10 10; 0 10", Point{5, 10 + 0.9*num.Coincident}, OnEdge},
		{"0 0; 10 0; 10 10; 0 10", Point{5, 10 - 0.9*num.Coincident}, OnEdge},
		{"0 0; 10 0; 10 10; 0 10", Point{5, 10 + 1.1*num.Coincident}, Outside},
		{"0 0; 10 0; 10 10; 0 10", Point{5, 10 - 1.1*num.Coincident}, Inside},
		// a diamond: rays through its corners
		{"0 -5; 5 0; 0 5; -5 0", Point{0, 0}, Inside},
		{"0 -5; 5 0; 0 5; -5 0", Point{-6, 0}, Outside},
		{"0 -5; 5 0; 0 5; -5 0", Point{-6, 5}, Outside},
		{"0 -5; 5 0; 0 5; -5 0", Point{-6, -5}, Outside},
		// a circle: level with its centre, its top (tangent ray), its bottom
		{"5 0 1; -5 0 1", Point{0, 0}, Inside}, // on both chords
		{"5 0 1; -5 0 1", Point{4, 0}, Inside},
		{"5 0 1; -5 0 1", Point{-6, 0}, Outside},
		{"5 0 1; -5 0 1", Point{6, 0}, Outside},
		{"5 0 1; -5 0 1", Point{-6, 5}, Outside},
		{"5 0 1; -5 0 1", Point{-6, -5}, Outside},
		{"5 0 1; -5 0 1", Point{0, 5}, OnEdge},
		{"5 0 1; -5 0 1", Point{3, 4}, OnEdge},
		{"5 0 1; -5 0 1", Point{3, 4.0000001}, OnEdge},
		{"5 0 1; -5 0 1", Point{3, 4.000001}, Outside},
		{"0 5 1; 0 -5 1", Point{0, 0}, Inside}, // upright chords
		{"0 5 1; 0 -5 1", Point{0, 3}, Inside},
		{"3 4 1; -3 -4 1", Point{0, 0}, Inside}, // slanted chords
		{"3 4 1; -3 -4 1", Point{-1.5, -2}, Inside},
		{"3 4 1; -3 -4 1", Point{-6, 4}, Outside},
		// clockwise
		{"5 0 -1; -5 0 -1", Point{0, 0}, Inside},
		{"5 0 -1; -5 0 -1", Point{4, 1}, Inside},
		{"5 0 -1; -5 0 -1", Point{4, 4}, Outside},
		// a hollow half disc out of a square: points on the arc's chord
		{"0 0; 10 0 -1; 10 10; 0 10", Point{10, 5}, Outside},
		{"0 0; 10 0 -1; 10 10; 0 10", Point{7, 5}, Outside},
		{"0 0; 10 0 -1; 10 10; 0 10", Point{4, 5}, Inside},
		{"0 0; 10 0 -1; 10 10; 0 10", Point{5, 5}, OnEdge},
		{"0 0 -1; 10 0; 10 10; 0 10", Point{5, 0}, Outside}, // level chord
		{"0 0 -1; 10 0; 10 10; 0 10", Point{5, 4}, Outside},
		{"0 0 -1; 10 0; 10 10; 0 10", Point{5, 7}, Inside},
		// a swelling half disc: points on its chord are inside
		{"0 0; 10 0 1; 10 10; 0 10", Point{10, 5}, Inside},
		{"0 0; 10 0 1; 10 10; 0 10", Point{14, 5}, Inside},
		{"0 0; 10 0 1; 10 10; 0 10", Point{14, 9}, Outside},
		{"0 0 1; 10 0; 10 10; 0 10", Point{5, 0}, Inside},
		{"0 0 1; 10 0; 10 10; 0 10", Point{-1, 0}, Outside},
		// nothing
		{"", Point{0, 0}, Outside},
	} {
		l := parse(t, c.loop)
		require.Equal(t, c.want, l.Contains(c.p), "%s contains %v", c.loop, c.p)
		if len(l) > 0 {
			require.Equal(t, c.want, l.Reverse().Contains(c.p), "%s reversed contains %v", c.loop, c.p)
			far := Translate(1e5, -1e5)
			if c.want != OnEdge {
				require.Equal(t, c.want, l.Transform(far).Contains(far.Apply(c.p)), "%s far away", c.loop)
			}
		}
	}
	require.Equal(t, "inside on edge outside", Inside.String()+" "+OnEdge.String()+" "+Outside.String())
}

func TestRegionContains(t *testing.T) {
	r, err := ParseRegion("0 0; 60 0; 60 40; 0 40 | 25 20 -1; 15 20 -1")
	require.NoError(t, err)
	for p, want := range map[Point]Side{
		{20, 20}: Outside, {25, 20}: OnEdge, {30, 20}: Inside, {60, 20}: OnEdge, {61, 20}: Outside, {1, 1}: Inside,
	} {
		require.Equal(t, want, r.Contains(p), "%v", p)
	}
	require.Equal(t, Outside, Region{}.Contains(Point{}))
}

// turnsAbout is the winding number of the loop about p, by adding up angles: an
// oracle that has no special cases.
func turnsAbout(l Loop, p Point) int {
	var sum float64
	for _, s := range l {
		const n = 64
		last := s.A.Sub(p)
		for i := 1; i <= n; i++ {
			q := s.At(float64(i) / n).Sub(p)
			sum += math.Atan2(last.Cross(q), last.Dot(q))
			last = q
		}
	}
	return int(math.Round(sum / fullTurn))
}

// Inside is where the loop winds about the point. The points are chosen to be
// awkward: on the levels of vertices, centres and quarter points, and on
// chords.
func TestContainsProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var l Loop
		if rapid.Bool().Draw(t, "grid") {
			n := rapid.IntRange(3, 6).Draw(t, "n")
			pts := make([]Point, n)
			for i := range pts {
				pts[i] = Point{float64(rapid.IntRange(-5, 5).Draw(t, "x")), float64(rapid.IntRange(-5, 5).Draw(t, "y"))}
			}
			l = Polygon(pts...)
			for i, s := range l {
				if b := rapid.SampledFrom([]float64{0, 0, 1, -1, 0.5, -0.5}).Draw(t, "bulge"); b != 0 && s.A != s.B {
					l[i] = BulgeSeg(s.A, s.B, b)
				}
			}
		} else {
			l = drawLoop(t, "l")
		}
		xs, ys := []float64{-20, 0, 20}, []float64{-20, 0, 20}
		for _, s := range l {
			xs = append(xs, s.A.X, (s.A.X+s.B.X)/2, s.circ.C.X, s.circ.C.X+s.circ.R)
			ys = append(ys, s.A.Y, (s.A.Y+s.B.Y)/2, s.circ.C.Y, s.circ.C.Y-s.circ.R)
		}
		p := Point{rapid.SampledFrom(xs).Draw(t, "px"), rapid.SampledFrom(ys).Draw(t, "py")}
		got := l.Contains(p)
		if d := PointLoop(p, l).D; d <= num.Coincident {
			require.Equal(t, OnEdge, got)
			return
		} else if d < 0.05 {
			return // too near for the oracle's chords
		}
		want := Outside
		if turnsAbout(l, p) != 0 {
			want = Inside
		}
		require.Equal(t, want, got, "%s contains %v", l, p)
	})
}
