package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/num"
)

func seg(t require.TestingT, text string) Seg {
	l := parse(t, text)
	require.Len(t, l, 1, text)
	return l[0]
}

func TestPointSeg(t *testing.T) {
	for _, c := range []struct {
		p    Point
		seg  string
		d    float64
		q    Point
		what string
	}{
		{Point{5, 3}, "0 0 > 10 0", 3, Point{5, 0}, "foot inside"},
		{Point{-3, 4}, "0 0 > 10 0", 5, Point{0, 0}, "before the start"},
		{Point{13, -4}, "0 0 > 10 0", 5, Point{10, 0}, "behind the end"},
		{Point{5, 0}, "0 0 > 10 0", 0, Point{5, 0}, "on it"},
		{Point{3, 4}, "0 0 > 0 0", 5, Point{0, 0}, "no length"},
		{Point{0, 8}, "5 0 1 > -5 0", 3, Point{0, 5}, "outside the arc"},
		{Point{0, 2}, "5 0 1 > -5 0", 3, Point{0, 5}, "inside the arc"},
		{Point{0, 0}, "5 0 1 > -5 0", 5, Point{5, 0}, "at the centre"},
		{Point{0, -12}, "5 0 1 > -5 0", 13, Point{5, 0}, "behind the arc"},
		{Point{-1, -1}, "5 0 1 > -5 0", math.Sqrt(17), Point{-5, 0}, "behind, nearer to the end"},
		{Point{0, -12}, "5 0 -1 > -5 0", 7, Point{0, -5}, "clockwise"},
		{Point{8, 0}, "5 0 1 > -5 0", 3, Point{5, 0}, "level with the end"},
	} {
		n := PointSeg(c.p, seg(t, c.seg))
		require.InDelta(t, c.d, n.D, 1e-12, c.what)
		requirePoint(t, c.q, n.Q)
		require.Equal(t, c.p, n.P)
	}
}

func TestSegSeg(t *testing.T) {
	for _, c := range []struct {
		a, b string
		d    float64
		what string
	}{
		// lines
		{"0 0 > 10 0", "0 3 > 10 3", 3, "parallel"},
		{"0 0 > 10 0", "12 3 > 20 3", math.Sqrt(13), "parallel, shifted"},
		{"0 0 > 10 0", "5 -5 > 5 5", 0, "cross"},
		{"0 0 > 10 0", "5 0 > 5 5", 0, "touch inside"},
		{"0 0 > 10 0", "10 0 > 15 5", 0, "end to end"},
		{"0 0 > 10 0", "5 0 > 15 0", 0, "overlap"},
		{"0 0 > 10 0", "12 0 > 15 0", 2, "in one line"},
		{"0 0 > 10 0", "5 2 > 5 5", 2, "end over the middle"},
		// line and arc
		{"-10 8 > 10 8", "5 0 1 > -5 0", 3, "line passes the arc"},
		{"-10 5 > 10 5", "5 0 1 > -5 0", 0, "tangent"},
		{"-10 4 > 10 4", "5 0 1 > -5 0", 0, "cross twice"},
		{"0 0 > 0 10", "5 0 1 > -5 0", 0, "cross once"},
		{"-1 2 > 1 2", "5 0 1 > -5 0", 5 - math.Sqrt(5), "line inside the circle"},
		{"-10 -3 > 10 -3", "5 0 1 > -5 0", 3, "behind the arc"},
		{"-10 -3 > 10 -3", "5 0 -1 > -5 0", 0, "clockwise arc crosses"},
		// arcs
		{"5 0 1 > -5 0", "8 0 1 > -8 0", 3, "concentric"},
		{"5 0 1 > -5 0", "8 0 -1 > -8 0", 3, "concentric, opposite halves: ends face ends"},
		{"5 0 1 > -5 0", "4.9 -2 0.2 > 4.4 -2.5", math.Hypot(0.1, 2), "ends nearest"},
		{"5 0 1 > -5 0", "3 4 0.3 > -3 4", 0, "on one circle's chord: ends on it"},
		{"5 0 1 > -5 0", "5 12 -1 > -5 12", 2, "apart on the line of centres"},
		{"5 0 1 > -5 0", "5 10 -1 > -5 10", 0, "tangent outside"},
		{"5 0 1 > -5 0", "5 8 -1 > -5 8", 0, "cross"},
		{"5 0 1 > -5 0", "3 1 1 > -1 1", 3 - math.Sqrt2, "nested off centre"},
	} {
		a, b := seg(t, c.a), seg(t, c.b)
		for _, n := range []Near{SegSeg(a, b), SegSeg(b, a).turned(), SegSeg(a.Reverse(), b), SegSeg(a, b.Reverse())} {
			require.InDelta(t, c.d, n.D, 1e-12, "%s: %v", c.what, n)
			require.InDelta(t, n.D, n.P.Dist(n.Q), 1e-9, c.what)
			require.True(t, a.closeTo(n.P), "%s: %v on a", c.what, n)
			require.True(t, b.closeTo(n.Q), "%s: %v on b", c.what, n)
		}
	}
}

// leastSampled is the distance between two segments by trying many places, then
// closing in: an upper bound that is nearly right.
func leastSampled(a, b Seg) float64 {
	const n = 160
	best, bi, bj := math.Inf(1), 0.0, 0.0
	for i := range n + 1 {
		p := a.At(float64(i) / n)
		for j := range n + 1 {
			if d := dist2(p, b.At(float64(j)/n)); d < best {
				best, bi, bj = d, float64(i)/n, float64(j)/n
			}
		}
	}
	for step := 1.0 / n; step > 1e-9; step /= 1.5 {
		for range 4 {
			for _, d := range [][2]float64{{step, 0}, {-step, 0}, {0, step}, {0, -step}, {step, step}, {-step, -step}, {step, -step}, {-step, step}} {
				i, j := min(1, max(0, bi+d[0])), min(1, max(0, bj+d[1]))
				if e := dist2(a.At(i), b.At(j)); e < best {
					best, bi, bj = e, i, j
				}
			}
		}
	}
	return math.Sqrt(best)
}

// SegSeg is never more than any two points are apart, is reached by its own
// two points, and is the same from either side.
func TestSegSegProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawSeg(t, "a"), drawSeg(t, "b")
		n := SegSeg(a, b)
		require.True(t, a.closeTo(n.P))
		require.True(t, b.closeTo(n.Q))
		require.InDelta(t, n.D, n.P.Dist(n.Q), 1e-9)
		require.InDelta(t, n.D, SegSeg(b, a).D, 1e-9)
		least := leastSampled(a, b)
		require.LessOrEqual(t, n.D, least+1e-9)
		// the sampled value errs upwards alone, by what a local minimum may miss
		require.GreaterOrEqual(t, n.D, least-0.05*(1+a.Length()+b.Length())/10, "%v %v", a, b)
		if n.D == 0 {
			require.False(t, least > num.Coincident && Intersect(a, b).Empty())
		} else {
			require.True(t, n.D <= num.Contact*10 || Intersect(a, b).Empty(), "%v %v", n, Intersect(a, b))
		}
	})
}

func TestPointLoop(t *testing.T) {
	l := Slot(Point{0, 0}, Point{30, 0}, 10)
	require.Equal(t, Near{5, Point{10, 0}, Point{10, -5}}, PointLoop(Point{10, 0}, l), "inside counts too")
	require.InDelta(t, 3, PointLoop(Point{38, 0}, l).D, 1e-12)
	require.True(t, math.IsInf(PointLoop(Point{}, nil).D, 1))
}

func TestLoopLoop(t *testing.T) {
	disc := func(x, y, r float64) Loop { return CircleLoop(Circle{Point{x, y}, r}) }
	square := Polygon(Point{0, 0}, Point{40, 0}, Point{40, 40}, Point{0, 40})
	for _, c := range []struct {
		a, b Loop
		d    float64
		what string
	}{
		{disc(0, 0, 5), disc(20, 0, 5), 10, "discs apart"},
		{disc(0, 0, 5), disc(10, 0, 5), 0, "discs touch"},
		{disc(0, 0, 5), disc(6, 0, 5), 0, "discs cross"},
		{disc(0, 0, 5), disc(1, 0, 2), 2, "disc in disc"},
		{disc(0, 0, 5), disc(0, 0, 2), 3, "concentric"},
		{disc(0, 0, 5), disc(3, 0, 2), 0, "touch from inside"},
		{disc(20, 20, 5), square, 15, "hole in a plate"},
		{disc(20, 4, 4), square, 0, "hole touches the edge"},
		{disc(20, 3, 4), square, 0, "hole breaks the edge"},
		{disc(50, 50, 5), square, 10*math.Sqrt2 - 5, "disc off the corner"},
		{square, disc(20, 20, 60), 60 - 20*math.Sqrt2, "plate in a disc"},
		{Slot(Point{10, 10}, Point{30, 10}, 6), Slot(Point{10, 20}, Point{30, 20}, 6), 4, "slots side by side"},
		{Slot(Point{10, 10}, Point{30, 10}, 6), disc(10, 30, 5), 12, "slot and disc"},
		{Slot(Point{10, 10}, Point{30, 10}, 6), square, 7, "slot in a plate"},
		{square, square, 0, "itself"},
		{square, nil, math.Inf(1), "nothing"},
	} {
		n, m := LoopLoop(c.a, c.b), LoopLoop(c.b, c.a)
		if math.IsInf(c.d, 1) {
			require.True(t, math.IsInf(n.D, 1) && math.IsInf(m.D, 1))
			continue
		}
		require.InDelta(t, c.d, n.D, 1e-12, c.what)
		require.InDelta(t, c.d, m.D, 1e-12, c.what)
		require.InDelta(t, n.D, n.P.Dist(n.Q), 1e-12, c.what)
		require.Equal(t, OnEdge, c.a.Contains(n.P), c.what)
		require.Equal(t, OnEdge, c.b.Contains(n.Q), c.what)
		require.Equal(t, OnEdge, c.b.Contains(m.P), c.what)
		require.Equal(t, OnEdge, c.a.Contains(m.Q), c.what)
	}
}

// allPairsNear is LoopLoop by its definition.
func allPairsNear(a, b Loop) float64 {
	best := math.Inf(1)
	for _, s := range a {
		for _, u := range b {
			best = min(best, SegSeg(s, u).D)
		}
	}
	return best
}

// LoopLoop is the least of all pairs of segments, by whichever short cut.
func TestLoopLoopProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string) Loop {
			switch rapid.IntRange(0, 2).Draw(t, label) {
			case 0:
				return CircleLoop(Circle{Point{rapid.Float64Range(-60, 60).Draw(t, "x"), rapid.Float64Range(-60, 60).Draw(t, "y")},
					rapid.Float64Range(1, 40).Draw(t, "r")})
			case 1:
				return drawLoop(t, label)
			}
			n := rapid.IntRange(60, 90).Draw(t, "corners") // long enough for the tree
			c := Point{rapid.Float64Range(-60, 60).Draw(t, "x"), rapid.Float64Range(-60, 60).Draw(t, "y")}
			pts := make([]Point, n)
			for i := range pts {
				pts[i] = c.Polar(20+float64(i%7), fullTurn*float64(i)/float64(n))
			}
			return Polygon(pts...)
		}
		a, b := draw("a"), draw("b")
		n := LoopLoop(a, b)
		require.InDelta(t, allPairsNear(a, b), n.D, 1e-9)
		require.InDelta(t, n.D, n.P.Dist(n.Q), 1e-9)
		require.Equal(t, OnEdge, a.Contains(n.P))
		require.Equal(t, OnEdge, b.Contains(n.Q))
	})
}

func TestRayLoop(t *testing.T) {
	square := Polygon(Point{0, 0}, Point{40, 0}, Point{40, 40}, Point{0, 40})
	disc := CircleLoop(Circle{Point{0, 0}, 5})
	for _, c := range []struct {
		l      Loop
		p, dir Point
		t      float64
		at     Point
		ok     bool
		what   string
	}{
		{square, Point{10, 10}, Point{1, 0}, 30, Point{40, 10}, true, "from inside"},
		{square, Point{10, 10}, Point{0, -3}, 10, Point{10, 0}, true, "dir of any length"},
		{square, Point{-10, 10}, Point{1, 0}, 10, Point{0, 10}, true, "first hit from outside"},
		{square, Point{-10, 10}, Point{-1, 0}, 0, Point{-10, 10}, false, "away"},
		{square, Point{-10, -10}, Point{1, 1}, 10 * math.Sqrt2, Point{0, 0}, true, "through a corner"},
		{square, Point{-10, 10}, Point{1, -1}, 10 * math.Sqrt2, Point{0, 0}, true, "grazing a corner"},
		{square, Point{-10, 0}, Point{1, 0}, 10, Point{0, 0}, true, "along an edge"},
		{square, Point{10, 0}, Point{1, 0}, 0, Point{10, 0}, true, "from an edge along it"},
		{square, Point{10, 0}, Point{0, 1}, 0, Point{10, 0}, true, "from an edge inwards"},
		{square, Point{50, 0}, Point{1, 0}, 0, Point{50, 0}, false, "along an edge, away"},
		{square, Point{10, 10}, Point{}, 0, Point{10, 10}, false, "no direction"},
		{disc, Point{0, 0}, Point{3, 4}, 5, Point{3, 4}, true, "from the centre"},
		{disc, Point{-10, 0}, Point{1, 0}, 5, Point{-5, 0}, true, "near side first"},
		{disc, Point{-10, 5}, Point{1, 0}, 10, Point{0, 5}, true, "grazing an arc"},
		{disc, Point{-10, 5 + 0.5*num.Coincident}, Point{1, 0}, 10, Point{0, 5}, true, "grazing within tolerance"},
		{disc, Point{-10, 5.1}, Point{1, 0}, 0, Point{-10, 5.1}, false, "past an arc"},
		{disc, Point{4, 3}, Point{-1, 0}, 0, Point{4, 3}, true, "from the arc"},
		{disc, Point{10, 0}, Point{1, 0}, 0, Point{10, 0}, false, "arc behind"},
		{nil, Point{10, 0}, Point{1, 0}, 0, Point{10, 0}, false, "nothing"},
	} {
		d, at, ok := RayLoop(c.p, c.dir, c.l)
		require.Equal(t, c.ok, ok, c.what)
		require.InDelta(t, c.t, d, 1e-6, c.what)
		require.InDelta(t, c.at.X, at.X, 1e-6, c.what)
		require.InDelta(t, c.at.Y, at.Y, 1e-6, c.what)
	}
}

// From any inside point in any direction a ray hits, the hit is on the loop,
// and the way there is clear.
func TestRayLoopProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLoop(t, "l")
		p := Point{rapid.Float64Range(-80, 80).Draw(t, "x"), rapid.Float64Range(-80, 80).Draw(t, "y")}
		dir := Point{}.Polar(1, rapid.Float64Range(0, fullTurn).Draw(t, "angle"))
		d, at, ok := RayLoop(p, dir, l)
		if l.Contains(p) == Inside {
			require.True(t, ok)
		}
		if !ok {
			for k := range 50 {
				require.NotEqual(t, Inside, l.Contains(p.Add(dir.Mul(float64(5*k)))))
			}
			return
		}
		require.Equal(t, OnEdge, l.Contains(at))
		require.InDelta(t, d, p.Dist(at), 1e-9)
		if d > 1e-3 {
			before := l.Contains(p.Add(dir.Mul(d / 3)))
			require.Equal(t, before, l.Contains(p.Add(dir.Mul(d*0.9))))
		}
	})
}

// Distances are the same wherever both things lie and however they are turned.
func TestDistancesMove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawSeg(t, "a"), drawSeg(t, "b")
		m := drawMotion(t, "m").Then(Translate(2e4, -3e4)) // 20 and 30 m
		n, moved := SegSeg(a, b), SegSeg(a.Transform(m), b.Transform(m))
		require.InDelta(t, n.D, moved.D, num.Coincident)
		require.InDelta(t, moved.D, moved.P.Dist(moved.Q), num.Coincident)
	})
}
