package geom

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/num"
)

func mustHull(t require.TestingT, cs ...Circle) Loop {
	l, err := Hull(cs)
	require.NoError(t, err)
	return l
}

func TestHullCases(t *testing.T) {
	disc := func(x, y, r float64) Circle { return Circle{Point{x, y}, r} }
	for _, c := range []struct {
		name      string
		in        []Circle
		area      float64
		segments  int
		perimeter float64
	}{
		{"one disc", []Circle{disc(3, 4, 5)}, 25 * math.Pi, 2, 10 * math.Pi},
		{"identical discs", []Circle{disc(3, 4, 5), disc(3, 4, 5), disc(3, 4, 5)}, 25 * math.Pi, 2, 10 * math.Pi},
		{"one in another", []Circle{disc(0, 0, 2), disc(1, 0, 5)}, 25 * math.Pi, 2, 10 * math.Pi},
		{"touching from inside", []Circle{disc(0, 0, 5), disc(3, 0, 2)}, 25 * math.Pi, 2, 10 * math.Pi},
		{"point in a disc", []Circle{disc(0, 0, 5), disc(3, 0, 0)}, 25 * math.Pi, 2, 10 * math.Pi},
		{"equal discs", []Circle{disc(0, 0, 5), disc(20, 0, 5)}, 200 + 25*math.Pi, 4, 40 + 10*math.Pi},
		{"equal discs in a row", []Circle{disc(0, 0, 5), disc(10, 0, 5), disc(20, 0, 5)}, 200 + 25*math.Pi, 4, 40 + 10*math.Pi},
		{"smaller disc between", []Circle{disc(0, 0, 5), disc(10, 0, 3), disc(20, 0, 5)}, 200 + 25*math.Pi, 4, 40 + 10*math.Pi},
		{"taper in a row", []Circle{disc(0, 0, 6), disc(10, 0, 4), disc(20, 0, 2)}, mustHull(t, disc(0, 0, 6), disc(20, 0, 2)).Area(), 5, 0},
		{"square of discs", []Circle{disc(0, 0, 1), disc(10, 10, 1), disc(10, 0, 1), disc(0, 10, 1)}, 100 + 40 + math.Pi, 8, 40 + 2*math.Pi},
		{"disc on an edge of four", []Circle{disc(0, 0, 1), disc(10, 10, 1), disc(10, 0, 1), disc(0, 10, 1), disc(5, 0, 1), disc(5, 5, 1)}, 100 + 40 + math.Pi, 8, 40 + 2*math.Pi},
		{"triangle of points", []Circle{disc(0, 0, 0), disc(10, 0, 0), disc(0, 10, 0)}, 50, 3, 20 + 10*math.Sqrt2},
		{"square of points, one on an edge", []Circle{disc(0, 0, 0), disc(10, 0, 0), disc(5, 0, 0), disc(10, 10, 0), disc(0, 10, 0), disc(0, 10, 0)}, 100, 4, 40},
		{"point and disc", []Circle{disc(0, 0, 5), disc(13, 0, 0)}, 12*5 + 25*(math.Pi-math.Atan2(12, 5)), 4, 24 + 10*(math.Pi-math.Atan2(12, 5))},
		{"crossing discs", []Circle{disc(0, 0, 5), disc(4, 0, 5)}, 40 + 25*math.Pi, 4, 8 + 10*math.Pi},
		{"small disc peeping out", []Circle{disc(0, 0, 5), disc(4, 0, 2)}, 0, 5, 0},
	} {
		l := mustHull(t, c.in...)
		require.NoError(t, l.Validate(), c.name)
		require.Len(t, l, c.segments, "%s: %v", c.name, l)
		if c.area > 0 {
			require.InEpsilon(t, c.area, l.Area(), 1e-12, c.name)
		}
		if c.perimeter > 0 {
			require.InEpsilon(t, c.perimeter, l.Perimeter(), 1e-12, c.name)
		}
		requireHull(t, c.in, l)
	}
}

func TestHullErrors(t *testing.T) {
	for _, c := range []struct {
		in   []Circle
		want string
	}{
		{nil, "hull of no circles; give one or more"},
		{[]Circle{{Point{1, 2}, -3}}, "hull of circles: circle 1 has radius -3, wanted 0 or more; circles (x y r) are 1 2 -3"},
		{[]Circle{{}, {Point{math.NaN(), 2}, 3}}, "hull of circles: circle 2 is not of finite numbers; circles (x y r) are 0 0 0; NaN 2 3"},
		{[]Circle{{Point{1, 2}, 0}}, "hull of circles: the hull is a single point; give a radius; circles (x y r) are 1 2 0"},
	} {
		_, err := Hull(c.in)
		require.EqualError(t, err, c.want)
	}
	_, err := Hull([]Circle{{Point{0, 0}, 0}, {Point{10, 10}, 0}, {Point{5, 5}, 0}})
	require.ErrorContains(t, err, "hull of circles: rule \"spike\" broken")
	require.ErrorContains(t, err, "circles (x y r) are 0 0 0; 10 10 0; 5 5 0")
}

// requireHull checks a hull against its definition: convex and smooth, on the
// very circles, holding every disc, and touched by the circles it runs on.
func requireHull(t require.TestingT, in []Circle, l Loop) {
	for i, s := range l {
		next := l[(i+1)%len(l)]
		require.GreaterOrEqual(t, s.Bulge, 0.0)
		turn := s.DirB().Cross(next.DirA())
		if s.IsArc() != next.IsArc() || s.IsArc() && next.IsArc() {
			require.InDelta(t, 0, turn, 1e-5, "tangent joint %d", i)
			require.Positive(t, s.DirB().Dot(next.DirA()))
		} else {
			require.Greater(t, turn, -1e-9, "convex corner %d", i)
		}
		if s.IsArc() {
			require.Contains(t, in, s.Circle(), "arcs keep the given circles")
		}
	}
	// Every disc reaches no farther than the hull in every direction.
	for k := range 720 {
		u := Point{}.Polar(1, float64(k)*math.Pi/360)
		hull, discs := math.Inf(-1), math.Inf(-1)
		for _, s := range l {
			hull = max(hull, s.A.Dot(u))
			if s.IsArc() && s.faces(u.X, u.Y) {
				hull = max(hull, s.circ.C.Dot(u)+s.circ.R)
			}
		}
		for _, c := range in {
			discs = max(discs, c.C.Dot(u)+c.R)
		}
		require.InDelta(t, discs, hull, num.Coincident, "reach at %d half degrees", k)
	}
}

func drawDiscs(t *rapid.T) []Circle {
	n := rapid.IntRange(1, 12).Draw(t, "n")
	grid := rapid.Bool().Draw(t, "grid") // small whole numbers: ties come often
	cs := make([]Circle, n)
	for i := range cs {
		if grid {
			cs[i] = Circle{Point{float64(rapid.IntRange(-4, 4).Draw(t, "x")), float64(rapid.IntRange(-4, 4).Draw(t, "y"))},
				float64(rapid.IntRange(0, 3).Draw(t, "r"))}
		} else {
			cs[i] = Circle{Point{rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(-50, 50).Draw(t, "y")},
				rapid.Float64Range(0, 20).Draw(t, "r")}
		}
	}
	return cs
}

// The hull of any discs is their hull by definition, is valid, and is no
// smaller than any disc, and no larger than the hull of more discs.
func TestHullProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cs := drawDiscs(t)
		l, err := Hull(cs)
		if err != nil {
			for _, c := range cs { // points that span no area
				require.LessOrEqual(t, c.R, num.Coincident, "%v", err)
			}
			pts := make([]Point, len(cs))
			for i, c := range cs {
				pts[i] = c.C
			}
			for _, p := range pts[1:] {
				for _, q := range pts {
					require.LessOrEqual(t, abs(p.Sub(pts[0]).Cross(q.Sub(pts[0]))), 1e-4, "%v", err)
				}
			}
			return
		}
		require.NoError(t, l.Validate())
		requireHull(t, cs, l)
		for _, c := range cs {
			require.GreaterOrEqual(t, l.Area(), math.Pi*c.R*c.R-1e-6)
			require.NotEqual(t, Outside, l.Contains(c.C))
		}
		if len(cs) > 1 {
			if less, err := Hull(cs[1:]); err == nil {
				require.GreaterOrEqual(t, l.Area(), less.Area()-1e-5)
				require.GreaterOrEqual(t, l.Perimeter(), less.Perimeter()-1e-5)
			}
		}
	})
}

// The order of the discs does not matter.
func TestHullOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cs := drawDiscs(t)
		l, err := Hull(cs)
		if err != nil {
			return
		}
		r, err := Hull(rapid.Permutation(cs).Draw(t, "permuted"))
		require.NoError(t, err)
		require.InDelta(t, l.Area(), r.Area(), 1e-6)
		require.InDelta(t, l.Perimeter(), r.Perimeter(), 1e-6)
	})
}

func TestHullOfMany(t *testing.T) {
	var cs []Circle
	for i := range 400 { // a ring of small discs round a heap
		a := float64(i) * fullTurn / 400
		cs = append(cs, Circle{Point{}.Polar(100, a), 1}, Circle{Point{}.Polar(50, a*7), 3})
	}
	l := mustHull(t, cs...)
	require.Len(t, l, 800)
	requireHull(t, cs, l)
	chord := 200 * math.Sin(math.Pi/400)
	require.InEpsilon(t, 400*chord+2*math.Pi, l.Perimeter(), 1e-9)
}

// requireOracle runs a script in the system's python3 and reads its JSON
// answer. Without the module it skips, or fails where CI=true.
func requireOracle(t *testing.T, module, script string, input any, answer any) {
	t.Helper()
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import "+module).Run(); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("the oracle %s is missing: %v", module, err)
		}
		t.Skipf("the oracle %s is not installed: %v", module, err)
	}
	in, err := json.Marshal(input)
	require.NoError(t, err)
	cmd := exec.Command(python, "-c", script)
	cmd.Stdin = strings.NewReader(string(in))
	out, err := cmd.Output()
	require.NoError(t, err, "%s", script)
	require.NoError(t, json.Unmarshal(out, answer), "%s", out)
}

// Shapely's convex hull of finely flattened discs has nearly the same area and
// perimeter, from below.
func TestHullAgainstShapely(t *testing.T) {
	var sets [][]Circle
	rng := uint64(12345)
	next := func() float64 { // a fixed sequence: the same sets at every run
		rng = rng*6364136223846793005 + 1442695040888963407
		return float64(rng>>11) / (1 << 53)
	}
	for range 40 {
		var cs []Circle
		for range 1 + int(next()*9) {
			cs = append(cs, Circle{Point{next()*100 - 50, next()*100 - 50}, max(0, next()*25-5)})
		}
		sets = append(sets, append(cs, Circle{Point{next() * 10, 0}, 1}))
	}
	plain := make([][][3]float64, len(sets))
	for i, cs := range sets {
		for _, c := range cs {
			plain[i] = append(plain[i], [3]float64{c.C.X, c.C.Y, c.R})
		}
	}
	const n = 2048
	var answer [][2]float64
	requireOracle(t, "shapely", fmt.Sprintf(`
import json, math, sys
from shapely.geometry import MultiPoint
out = []
for discs in json.load(sys.stdin):
    pts = []
    for x, y, r in discs:
        for k in range(%d):
            a = 2 * math.pi * k / %d
            pts.append((x + r * math.cos(a), y + r * math.sin(a)))
    h = MultiPoint(pts).convex_hull
    out.append((h.area, h.length))
print(json.dumps(out))
`, n, n), plain, &answer)
	require.Len(t, answer, len(sets))
	for i, cs := range sets {
		l := mustHull(t, cs...)
		// a disc of n corners lacks a share of about 2π²/3n² of its area
		slack := 7.0 / (n * n)
		require.InEpsilon(t, answer[i][0], l.Area(), slack, "set %d", i)
		require.InEpsilon(t, answer[i][1], l.Perimeter(), slack, "set %d", i)
		require.GreaterOrEqual(t, l.Area(), answer[i][0]*(1-1e-12), "set %d", i)
	}
}
