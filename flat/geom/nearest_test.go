package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawLoops draws a mixture of circles, slots, stars and long outlines.
func drawLoops(t *rapid.T, most int) []Loop {
	n := rapid.IntRange(0, most).Draw(t, "loops")
	ls := make([]Loop, n)
	for i := range ls {
		c := Point{rapid.Float64Range(-200, 200).Draw(t, "x"), rapid.Float64Range(-200, 200).Draw(t, "y")}
		r := rapid.Float64Range(1, 30).Draw(t, "r")
		switch rapid.IntRange(0, 4).Draw(t, "kind") {
		case 0, 1:
			ls[i] = CircleLoop(Circle{c, r})
		case 2:
			ls[i] = Slot(c, c.Polar(2*r, r), r)
		case 3:
			pts := make([]Point, 20) // indexed segment by segment
			for k := range pts {
				pts[k] = c.Polar(r*(1+float64(k%3)), fullTurn*float64(k)/20)
			}
			ls[i] = Polygon(pts...)
		case 4:
			ls[i] = nil
		}
	}
	return ls
}

// Every question is answered as by looking at all loops.
func TestIndexAgainstAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loops := drawLoops(t, 40)
		x := NewIndex(loops...)
		skip := rapid.IntRange(-1, 40).Draw(t, "skip")
		keep := func(i int) bool { return i != skip }
		if skip < 0 {
			keep = nil
		}
		kept := func(i int) bool { return len(loops[i]) > 0 && i != skip }

		p := Point{rapid.Float64Range(-250, 250).Draw(t, "px"), rapid.Float64Range(-250, 250).Draw(t, "py")}
		least := math.Inf(1)
		for i, l := range loops {
			if kept(i) {
				least = min(least, PointLoop(p, l).D)
			}
		}
		h, ok := x.NearestPoint(p, keep)
		require.Equal(t, !math.IsInf(least, 1), ok)
		if ok {
			require.InDelta(t, least, h.D, 1e-9)
			require.InDelta(t, least, PointLoop(p, loops[h.Loop]).D, 1e-9)
			require.InDelta(t, h.D, p.Dist(h.Q), 1e-9)
			require.Equal(t, p, h.P)
		}

		q := drawLoops(t, 1)
		var l Loop
		if len(q) > 0 {
			l = q[0]
		}
		d := rapid.Float64Range(0, 60).Draw(t, "d")
		least = math.Inf(1)
		var surelyWithin []int
		for i := range loops {
			if !kept(i) || len(l) == 0 {
				continue
			}
			g := allPairsNear(l, loops[i])
			least = min(least, g)
			if g <= d-1e-9 { // at the limit the last bit decides
				surelyWithin = append(surelyWithin, i)
			}
		}
		h, ok = x.Nearest(l, keep)
		require.Equal(t, !math.IsInf(least, 1), ok)
		if ok {
			require.InDelta(t, least, h.D, 1e-9)
			require.Equal(t, OnEdge, l.Contains(h.P))
			require.Equal(t, OnEdge, loops[h.Loop].Contains(h.Q))
		}
		found := map[int]bool{}
		last := -1
		for _, h := range x.Within(l, d, keep) {
			require.Greater(t, h.Loop, last, "in order, each once")
			require.True(t, kept(h.Loop))
			require.LessOrEqual(t, h.D, d)
			require.InDelta(t, allPairsNear(l, loops[h.Loop]), h.D, 1e-9)
			found[h.Loop], last = true, h.Loop
		}
		for _, i := range surelyWithin {
			require.True(t, found[i])
		}
	})
}

func TestIndexPairsAgainstAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loops := drawLoops(t, 20)
		x := NewIndex(loops...)
		type ij struct{ i, j int }
		all := map[ij]float64{}
		least := math.Inf(1)
		for i := range loops {
			for j := i + 1; j < len(loops); j++ {
				if len(loops[i]) > 0 && len(loops[j]) > 0 {
					all[ij{i, j}] = allPairsNear(loops[i], loops[j])
					least = min(least, all[ij{i, j}])
				}
			}
		}
		for _, d := range []float64{0, 15, 80, math.Inf(1)} {
			last := ij{-1, -1}
			count := 0
			for _, p := range x.Pairs(d) {
				k := ij{p.I, p.J}
				require.True(t, k.i > last.i || k.i == last.i && k.j > last.j, "in order, each once")
				last = k
				require.InDelta(t, all[k], p.D, 1e-9)
				require.LessOrEqual(t, p.D, d)
				require.Equal(t, OnEdge, loops[p.I].Contains(p.P))
				require.Equal(t, OnEdge, loops[p.J].Contains(p.Q))
				count++
			}
			surely, perhaps := 0, 0 // at the limit the last bit decides
			for _, g := range all {
				if g <= d-1e-9 {
					surely++
				}
				if g <= d+1e-9 {
					perhaps++
				}
			}
			require.True(t, surely <= count && count <= perhaps, "%d pairs within %g, wanted %d to %d", count, d, surely, perhaps)
		}
		p, ok := x.Closest()
		require.Equal(t, len(all) > 0, ok)
		if ok {
			require.InDelta(t, least, p.D, 1e-9)
			require.InDelta(t, least, all[ij{p.I, p.J}], 1e-9)
		}
	})
}

func TestIndexOfNothing(t *testing.T) {
	x := NewIndex()
	_, ok := x.NearestPoint(Point{}, nil)
	require.False(t, ok)
	_, ok = x.Nearest(CircleLoop(Circle{Point{}, 1}), nil)
	require.False(t, ok)
	require.Empty(t, x.Within(CircleLoop(Circle{Point{}, 1}), 10, nil))
	require.Empty(t, x.Pairs(math.Inf(1)))
	_, ok = x.Closest()
	require.False(t, ok)
	require.Empty(t, x.Pairs(-1))
}

// A question costs little even among a thousand holes: a point's nearest hole
// is found by looking at few of them.
func TestIndexLooksAtFew(t *testing.T) {
	r := loadShape(t, "perforated-1000")
	x := NewIndex(r.Holes...)
	looked := 0
	for i, h := range r.Holes {
		c, ok := h.Circle()
		require.True(t, ok)
		_, ok = x.NearestPoint(c.C, func(j int) bool { looked++; return j != i })
		require.True(t, ok)
	}
	require.Less(t, looked, 40*len(r.Holes))
}

func TestTree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SampledFrom([]int{0, 1, 2, 7, 8, 9, 64, 65, 200}).Draw(t, "n")
		boxes := make([]Box, n)
		for i := range boxes {
			p := Point{rapid.Float64Range(-9, 9).Draw(t, "x"), rapid.Float64Range(-9, 9).Draw(t, "y")}
			boxes[i] = BoxOf(p, p.Add(Point{rapid.Float64Range(0, 3).Draw(t, "w"), 1}))
		}
		q := BoxOf(Point{rapid.Float64Range(-9, 9).Draw(t, "qx"), 0}, Point{2, 2})
		d := rapid.Float64Range(0, 3).Draw(t, "d")
		found := map[int]int{}
		newTree(n, func(i int) Box { return boxes[i] }).search(&q, d, func(i int) { found[i]++ })
		for i := range boxes {
			want := 0
			if boxes[i].gap2(&q) <= d*d {
				want = 1
			}
			require.Equal(t, want, found[i])
		}
	})
}

// Points near each other on the Hilbert curve are near each other in the plane:
// the curve visits every cell once, and neighbours on it touch.
func TestHilbert(t *testing.T) {
	const n = 64
	place := map[uint32][2]int{}
	for x := range n {
		for y := range n {
			k := hilbert(uint32(x), uint32(y))
			_, twice := place[k]
			require.False(t, twice)
			place[k] = [2]int{x, y}
		}
	}
	last, seen := [2]int{}, 0
	for k := range uint32(1 << 20) {
		p, ok := place[k]
		if !ok {
			continue
		}
		if seen > 0 {
			require.Equal(t, 1.0, abs(float64(p[0]-last[0]))+abs(float64(p[1]-last[1])))
		}
		last = p
		seen++
	}
	require.Equal(t, n*n, seen)
}
