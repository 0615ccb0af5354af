package link

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func solve(t require.TestingT, truss Truss, cases ...Case) *Solution {
	s, err := truss.Solve(cases)
	require.NoError(t, err)
	checkEquilibrium(t, truss, s, cases)
	return s
}

// checkEquilibrium adds up the forces at every pivot, and force and moment on
// the whole, by names and places alone.
func checkEquilibrium(t require.TestingT, truss Truss, s *Solution, cases []Case) {
	at := map[string]Vec{}
	for _, p := range truss.Pivots {
		at[p.Name] = p.At
	}
	for i, c := range cases {
		left := map[string]Vec{}
		var sum, moment Vec
		size := 0.0
		outside := func(pivot string, f Vec) {
			left[pivot] = left[pivot].Add(f)
			sum, moment = sum.Add(f), moment.Add(at[pivot].Cross(f))
			size = max(size, f.Len())
		}
		for _, l := range c.Loads {
			outside(l.Pivot, l.Force)
		}
		for _, r := range s.Cases[i].Reactions {
			outside(r.Pivot, r.Force)
		}
		far := 1.0
		for _, p := range at {
			far = max(far, p.Len())
		}
		for j, m := range truss.Members {
			d := at[m.To].Sub(at[m.From]).Unit().Mul(s.Cases[i].Members[j])
			left[m.From], left[m.To] = left[m.From].Add(d), left[m.To].Sub(d)
			size = max(size, d.Len())
		}
		for p, f := range left {
			require.LessOrEqual(t, f.Len(), 1e-9*max(1, size), "pivot %s of case %s", p, c.Name)
		}
		require.LessOrEqual(t, sum.Len(), 1e-9*max(1, size), "whole of case %s", c.Name)
		require.LessOrEqual(t, moment.Len(), 1e-9*max(1, size)*far, "moment of case %s", c.Name)
		require.LessOrEqual(t, s.Cases[i].Residual, 1e-9*max(1, size))
	}
}

func force(t require.TestingT, truss Truss, s *Solution, c int, name string) float64 {
	for i, m := range truss.Members {
		if m.Name == name {
			return s.Cases[c].Members[i]
		}
	}
	require.Fail(t, "no member "+name)
	return 0
}

// R. C. Hibbeler, Engineering Mechanics: Statics, Example 6.8 (space truss; from
// memory, the places from its direction cosines): A carries 4 kN, B 2 kN and a
// short link at 45 degrees. FAB 4 T, FAC = FAE = 0, FBE = RB = 5.66 T, FBD 2 C.
func TestHibbelerExample68(t *testing.T) {
	truss := Truss{
		Pivots: []Pivot{{"A", v3(0, 0, 2)}, {"B", v3(0, 2, 2)}, {"C", v3(0, 0, 0)}, {"D", v3(0, 2, 0)}, {"E", v3(2, 2, 0)}},
		Members: []Member{
			{Name: "AB", From: "A", To: "B"}, {Name: "AC", From: "A", To: "C"}, {Name: "AE", From: "A", To: "E"},
			{Name: "BD", From: "B", To: "D"}, {Name: "BE", From: "B", To: "E"},
		},
		Supports: []Support{{Pivot: "B", Along: []Vec{v3(-1, 1, 0)}}, {Pivot: "C"}, {Pivot: "D"}, {Pivot: "E"}},
	}
	s := solve(t, truss, Case{"printed", []Load{{"A", v3(0, -4000, 0)}, {"B", v3(0, 0, 2000)}}})
	require.Zero(t, s.Redundant)
	want := map[string]float64{"AB": 4000, "AC": 0, "AE": 0, "BE": 4000 * math.Sqrt2, "BD": -2000}
	for name, f := range want {
		require.InDelta(t, f, force(t, truss, s, 0, name), 1e-8, name)
	}
	require.InDelta(t, 5660, s.Cases[0].Reactions[0].Force.Len(), 5, "RB as printed")

	pull, err := s.EndForce(0, "BE", "E")
	require.NoError(t, err)
	require.InDelta(t, 0, pull.Sub(v3(-4000, 0, 4000)).Len(), 1e-8, "tension pulls the bracket at E towards B")
	other, err := s.EndForce(0, "BE", "B")
	require.NoError(t, err)
	require.InDelta(t, 0, pull.Add(other).Len(), 1e-12)
}

// A tripod by hand: legs of height h and foot radius a, load P down, sideways H.
// Each leg takes P L/(3h); H along x is taken by the leg in front and the two
// behind as ±H L/a · (2/3, -1/3, -1/3).
func TestTripod(t *testing.T) {
	const h, a, P, H = 500.0, 300.0, 9000.0, 2000.0
	l := math.Hypot(h, a)
	truss := Truss{Pivots: []Pivot{{"top", v3(0, 0, h)}}}
	for i := range 3 {
		sin, cos := math.Sincos(float64(i) * 2 * math.Pi / 3)
		foot := fmt.Sprintf("foot %d", i)
		truss.Pivots = append(truss.Pivots, Pivot{foot, v3(a*cos, a*sin, 0)})
		truss.Members = append(truss.Members, Member{Name: foot, From: foot, To: "top"})
		truss.Supports = append(truss.Supports, Support{Pivot: foot})
	}
	s := solve(t, truss, Case{"down", []Load{{"top", v3(0, 0, -P)}}}, Case{"side", []Load{{"top", Vec{X: -H}}}})
	for i := range 3 {
		require.InDelta(t, -P*l/(3*h), s.Cases[0].Members[i], 1e-8)
		share := []float64{2.0 / 3, -1.0 / 3, -1.0 / 3}[i] // pushed back, the front leg pulls
		require.InDelta(t, share*H*l/a, s.Cases[1].Members[i], 1e-8)
	}
	require.Equal(t, Worst{Member: "foot 0", Length: l, Tension: s.Cases[1].Members[0], TensionCase: "side",
		Compression: -s.Cases[0].Members[0], CompressionCase: "down"}, s.Worst[0])
}

// A regular octahedron pulled at two opposite corners: every edge carries
// P/(2√2), the slanting ones in tension, the others in compression.
func TestOctahedron(t *testing.T) {
	truss, P := Truss{}, 1000.0
	corners := map[string]Vec{"up": {Z: 1}, "down": {Z: -1}, "front": {X: 1}, "back": {X: -1}, "left": {Y: 1}, "right": {Y: -1}}
	names := []string{"up", "down", "front", "left", "back", "right"}
	for i, n := range names {
		truss.Pivots = append(truss.Pivots, Pivot{n, corners[n].Mul(400)})
		for _, m := range names[:i] {
			if corners[n].Add(corners[m]).Len() > 0 {
				truss.Members = append(truss.Members, Member{Name: m + " " + n, From: m, To: n})
			}
		}
	}
	require.Len(t, truss.Members, 12)
	truss.Supports = []Support{{"down", []Vec{{X: 1}, {Y: 1}, {Z: 1}}}, {"front", []Vec{{Y: 1}, {Z: 1}}}, {"left", []Vec{{Z: 1}}}}
	s := solve(t, truss, Case{"pull", []Load{{"up", Vec{Z: P}}, {"down", Vec{Z: -P}}}})
	for i, m := range truss.Members {
		want := -P / (2 * math.Sqrt2)
		if strings.Contains(m.Name, "up") || strings.Contains(m.Name, "down") {
			want = -want
		}
		require.InDelta(t, want, s.Cases[0].Members[i], 1e-9, m.Name)
	}
}

// S. Timoshenko, Strength of Materials, Part I, art. 6 (from memory): three bars
// of one section hold a load; the middle one takes P/(1+2cos³α).
func TestTimoshenkoThreeBars(t *testing.T) {
	for _, a := range []float64{20, 30, 45, 60} {
		alpha := a * math.Pi / 180
		x := 1000 * math.Tan(alpha)
		truss := Truss{
			Pivots: []Pivot{{"load", Vec{}}, {"middle", Vec{Z: 1000}}, {"left", Vec{Y: x, Z: 1000}}, {"right", Vec{Y: -x, Z: 1000}}},
			Members: []Member{
				{"middle", "load", "middle", 1e8}, {"left", "load", "left", 1e8}, {"right", "load", "right", 1e8},
			},
			Supports: []Support{{Pivot: "load", Along: []Vec{{X: 1}}}, {Pivot: "middle"}, {Pivot: "left"}, {Pivot: "right"}},
		}
		s := solve(t, truss, Case{"hung", []Load{{"load", Vec{Z: -1000}}}})
		require.Equal(t, 1, s.Redundant)
		c := math.Cos(alpha)
		require.InDelta(t, 1000/(1+2*c*c*c), s.Cases[0].Members[0], 1e-8)
		require.InDelta(t, 1000*c*c/(1+2*c*c*c), s.Cases[0].Members[1], 1e-8)
	}
}

// drawTruss draws a truss that needs every member it has: a supported triangle
// and pivots each held by three members to earlier ones.
func drawTruss(t *rapid.T) Truss {
	coord := rapid.Float64Range(-500, 500)
	var truss Truss
	n := rapid.IntRange(4, 12).Draw(t, "pivots")
	for i := range n {
		name := fmt.Sprintf("p%d", i)
		truss.Pivots = append(truss.Pivots, Pivot{name, v3(coord.Draw(t, "x"), coord.Draw(t, "y"), coord.Draw(t, "z"))})
		if i < 3 {
			truss.Supports = append(truss.Supports, Support{Pivot: name})
			continue
		}
		to := rapid.Permutation(seq(i)).Draw(t, "to")[:3]
		for _, j := range to {
			truss.Members = append(truss.Members, Member{Name: fmt.Sprintf("m%d-%d", j, i), From: fmt.Sprintf("p%d", j), To: name, EA: rapid.Float64Range(1e6, 1e8).Draw(t, "ea")})
		}
	}
	return truss
}

func seq(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func drawCases(t *rapid.T, truss Truss) []Case {
	var cases []Case
	f := rapid.Float64Range(-1e4, 1e4)
	for i := range rapid.IntRange(1, 3).Draw(t, "cases") {
		c := Case{Name: fmt.Sprintf("case %d", i)}
		for range rapid.IntRange(1, 4).Draw(t, "loads") {
			p := rapid.SampledFrom(truss.Pivots).Draw(t, "on")
			c.Loads = append(c.Loads, Load{p.Name, v3(f.Draw(t, "fx"), f.Draw(t, "fy"), f.Draw(t, "fz"))})
		}
		cases = append(cases, c)
	}
	return cases
}

// Equilibrium at every pivot and of the whole, to 1e-9 of the largest force, and
// the same forces whichever way members run and pivots are listed.
func TestEquilibrium(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		truss := drawTruss(t)
		cases := drawCases(t, truss)
		s, err := truss.Solve(cases)
		if err != nil || s.Weakest.Force > 1e4 {
			t.Skip("nearly a mechanism")
		}
		checkEquilibrium(t, truss, s, cases)
		require.Zero(t, s.Redundant)

		turned := truss
		turned.Members = append([]Member{}, truss.Members...)
		turned.Pivots = append([]Pivot{}, truss.Pivots...)
		for i := range turned.Members {
			turned.Members[i].From, turned.Members[i].To = turned.Members[i].To, turned.Members[i].From
		}
		for i, j := 0, len(turned.Pivots)-1; i < j; i, j = i+1, j-1 {
			turned.Pivots[i], turned.Pivots[j] = turned.Pivots[j], turned.Pivots[i]
		}
		again := solve(t, turned, cases...)
		for i := range cases {
			for j, f := range s.Cases[i].Members {
				require.InDelta(t, f, again.Cases[i].Members[j], 1e-7*(1+s.Weakest.Force*1e4))
			}
		}
		for j, w := range s.Worst {
			for i := range cases {
				f := s.Cases[i].Members[j]
				require.LessOrEqual(t, f, w.Tension)
				require.LessOrEqual(t, -f, w.Compression)
			}
		}
	})
}

// With a member too many: equilibrium holds, and the forces fit together: their
// work on the state of self-stress of the spare member is nothing.
func TestRedundantTruss(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := drawTruss(t)
		cases := drawCases(t, base)
		n := len(base.Pivots)
		i := rapid.IntRange(3, n-1).Draw(t, "from")
		j := rapid.IntRange(0, i-1).Draw(t, "to")
		if base.Pivots[i].At.Sub(base.Pivots[j].At).Len() < 1 {
			t.Skip("pivots of one place")
		}
		spare := Member{Name: "spare", From: base.Pivots[i].Name, To: base.Pivots[j].Name, EA: 3e7}
		s0, err := base.Solve(nil)
		if err != nil || s0.Weakest.Force > 1e3 {
			t.Skip("nearly a mechanism")
		}
		truss := base
		truss.Members = append(append([]Member{}, base.Members...), spare)
		s := solve(t, truss, cases...)
		require.Equal(t, 1, s.Redundant)

		d := base.Pivots[j].At.Sub(base.Pivots[i].At).Unit()
		self := solve(t, base, Case{"self", []Load{{spare.From, d}, {spare.To, d.Mul(-1)}}}).Cases[0].Members
		self = append(self, 1)
		for c := range cases {
			work, size := 0.0, 1.0
			for k, m := range truss.Members {
				w := self[k] * s.Cases[c].Members[k] * s.Worst[k].Length / m.EA
				work, size = work+w, max(size, math.Abs(w))
			}
			require.LessOrEqual(t, math.Abs(work), 1e-8*size)
		}
	})
}

func TestMechanisms(t *testing.T) {
	square := Truss{
		Pivots: []Pivot{{"a", Vec{}}, {"b", Vec{X: 300}}, {"c", Vec{X: 300, Z: 200}}, {"d", Vec{Z: 200}}},
		Members: []Member{
			{Name: "ab", From: "a", To: "b"}, {Name: "bc", From: "b", To: "c"}, {Name: "cd", From: "c", To: "d"}, {Name: "da", From: "d", To: "a"},
		},
		Supports: []Support{{Pivot: "a"}, {Pivot: "b"}, {Pivot: "c", Along: []Vec{{Y: 1}}}, {Pivot: "d", Along: []Vec{{Y: 1}}}},
	}
	cases := []struct {
		name string
		edit func(*Truss)
		want string
	}{
		{"square without a diagonal", func(*Truss) {}, `pivot "c" is free to move forward and back: other pivots move with it (1 such motions); add a member or a support that stops it`},
		{"pivot in a flat frame", func(t *Truss) {
			t.Members = append(t.Members, Member{Name: "ac", From: "a", To: "c"})
			t.Supports = t.Supports[:3]
		}, `pivot "d" is free to move left and right: none of its members or supports holds it that way; add one that does`},
		{"too few supports", func(t *Truss) {
			t.Pivots = append(t.Pivots, Pivot{"e", v3(100, 150, 80)})
			t.Members = append(t.Members, Member{Name: "ac", From: "a", To: "c"},
				Member{Name: "ae", From: "a", To: "e"}, Member{Name: "be", From: "b", To: "e"}, Member{Name: "ce", From: "c", To: "e"}, Member{Name: "de", From: "d", To: "e"})
			t.Supports = []Support{{Pivot: "a"}, {Pivot: "b"}}
		}, `the link as a whole is held in too few ways (1 missing); support it there`},
		{"members in one line", func(t *Truss) {
			t.Pivots = []Pivot{{"a", Vec{}}, {"knee", v3(100, 100, 0)}, {"b", v3(200, 200, 0)}}
			t.Members = []Member{{Name: "a knee", From: "a", To: "knee"}, {Name: "knee b", From: "knee", To: "b"}}
			t.Supports = []Support{{Pivot: "a"}, {Pivot: "b"}}
		}, `pivot "knee" is free to move up and down: none of its members`},
		{"slanting freedom", func(t *Truss) {
			t.Pivots = []Pivot{{"a", Vec{}}, {"knee", v3(100, 100, 0)}, {"b", v3(200, 200, 0)}}
			t.Members = []Member{{Name: "a knee", From: "a", To: "knee"}, {Name: "knee b", From: "knee", To: "b"}}
			t.Supports = []Support{{Pivot: "a"}, {Pivot: "b"}, {Pivot: "knee", Along: []Vec{{Z: 1}}}}
		}, `pivot "knee" is free to move along (0.71 forward, -0.71 left, 0 up)`},
		{"floating pivot", func(t *Truss) {
			t.Pivots = append(t.Pivots, Pivot{"lost", v3(1, 2, 3)})
		}, `pivot "lost" is free`},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			truss := square
			truss.Members = append([]Member{}, square.Members...)
			truss.Supports = append([]Support{}, square.Supports...)
			tc.edit(&truss)
			_, err := truss.Solve(nil)
			require.ErrorContains(t, err, tc.want)
			var m *MechanismError
			require.ErrorAs(t, err, &m)
			require.InDelta(t, 1, m.Along.Len(), 1e-9)
		})
	}
}

func TestNearlyAMechanism(t *testing.T) {
	truss := Truss{
		Pivots:   []Pivot{{"a", Vec{}}, {"knee", v3(100, 0, 0.2)}, {"b", Vec{X: 200}}},
		Members:  []Member{{Name: "rear", From: "a", To: "knee"}, {Name: "front", From: "knee", To: "b"}},
		Supports: []Support{{Pivot: "a"}, {Pivot: "b"}, {Pivot: "knee", Along: []Vec{{Y: 1}}}},
	}
	s := solve(t, truss)
	require.True(t, s.Weakest.Nearly())
	require.InDelta(t, 250, s.Weakest.Force, 0.1)
	require.Contains(t, s.Weakest.String(), `a load of 1 N on pivot "knee" up and down makes 250 N in member`)
	truss.Pivots[1].At.Z = 60
	require.False(t, solve(t, truss).Weakest.Nearly())
}

func TestTrussErrors(t *testing.T) {
	good := Truss{
		Pivots:   []Pivot{{"a", Vec{}}, {"b", Vec{X: 100}}},
		Members:  []Member{{Name: "ab", From: "a", To: "b", EA: 1e6}},
		Supports: []Support{{Pivot: "a"}, {Pivot: "b", Along: []Vec{{Y: 1}, {Z: 1}}}},
	}
	_, err := good.Solve(nil)
	require.NoError(t, err)
	cases := []struct {
		name string
		edit func(*Truss)
		want string
	}{
		{"no pivots", func(t *Truss) { t.Pivots = nil }, "no pivots"},
		{"pivot twice", func(t *Truss) { t.Pivots[1].Name = "a" }, `pivot "a" is given twice`},
		{"nowhere", func(t *Truss) { t.Pivots[1].At.X = math.NaN() }, `pivot "b" is at no finite place`},
		{"unknown pivot", func(t *Truss) { t.Members[0].To = "c" }, `member "ab" names pivot "c", which is not there; the pivots are a, b`},
		{"unknown first pivot", func(t *Truss) { t.Members[0].From = "c" }, `member "ab" names pivot "c"`},
		{"member twice", func(t *Truss) { t.Members = append(t.Members, t.Members[0]) }, `member "ab" is given twice`},
		{"no length", func(t *Truss) { t.Pivots[1].At.X = 0 }, `member "ab" has no length`},
		{"negative section", func(t *Truss) { t.Members[0].EA = -1 }, `member "ab" has EA -1 N`},
		{"unknown support", func(t *Truss) { t.Supports[0].Pivot = "c" }, `a support names pivot "c"`},
		{"support twice", func(t *Truss) { t.Supports[1].Pivot = "a" }, `pivot "a" is supported twice`},
		{"direction twice", func(t *Truss) { t.Supports[1].Along[1] = Vec{Y: 2} }, `holds one direction twice`},
		{"no direction", func(t *Truss) { t.Supports[1].Along[1] = Vec{} }, `has a direction of no length`},
		{"section missing", func(t *Truss) { t.Supports[1].Along = nil; t.Members[0].EA = 0 }, `give the section of member "ab"`},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			truss := Truss{append([]Pivot{}, good.Pivots...), append([]Member{}, good.Members...), append([]Support{}, good.Supports...)}
			truss.Supports[1].Along = append([]Vec{}, good.Supports[1].Along...)
			tc.edit(&truss)
			_, err := truss.Solve(nil)
			require.ErrorContains(t, err, tc.want)
		})
	}
	_, err = good.Solve([]Case{{"pull", []Load{{"c", Vec{X: 1}}}}})
	require.ErrorContains(t, err, `case "pull" loads pivot "c"`)
	_, err = good.Solve([]Case{{"pull", []Load{{"b", Vec{X: math.Inf(1)}}}}})
	require.ErrorContains(t, err, "no finite force")
	s, err := good.Solve([]Case{{"pull", nil}})
	require.NoError(t, err)
	for _, bad := range []struct {
		c             int
		member, pivot string
	}{{1, "ab", "a"}, {0, "ab", "c"}, {0, "zz", "a"}} {
		_, err = s.EndForce(bad.c, bad.member, bad.pivot)
		require.Error(t, err)
	}
}

// tower is a three-legged tower of three storeys with a peak: 30 members.
func tower() (Truss, []Case) {
	var t Truss
	name := func(level, i int) string { return fmt.Sprintf("%d%c", level, 'a'+i%3) }
	for level := range 4 {
		for i := range 3 {
			sin, cos := math.Sincos(float64(i) * 2 * math.Pi / 3)
			r := 300 - 50*float64(level)
			t.Pivots = append(t.Pivots, Pivot{name(level, i), v3(r*cos, r*sin, 400*float64(level))})
			if level == 0 {
				t.Supports = append(t.Supports, Support{Pivot: name(0, i)})
				continue
			}
			for _, m := range [3][2]string{{name(level-1, i), name(level, i)}, {name(level-1, i), name(level, i+1)}, {name(level, i), name(level, i+1)}} {
				t.Members = append(t.Members, Member{Name: m[0] + " " + m[1], From: m[0], To: m[1], EA: 1e7})
			}
		}
	}
	t.Pivots = append(t.Pivots, Pivot{"peak", Vec{Z: 1400}})
	for i := range 3 {
		t.Members = append(t.Members, Member{Name: "peak " + name(3, i), From: "peak", To: name(3, i), EA: 1e7})
	}
	return t, []Case{
		{"drive", []Load{{"peak", v3(6400, 0, 0)}}},
		{"brake", []Load{{"peak", v3(-8500, 0, 0)}}},
		{"bump", []Load{{"peak", v3(0, 1000, -17000)}}},
	}
}

func TestTower(t *testing.T) {
	truss, cases := tower()
	require.Len(t, truss.Members, 30)
	s := solve(t, truss, cases...)
	require.Zero(t, s.Redundant)
}

func BenchmarkSpaceTruss30(b *testing.B) {
	truss, cases := tower()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := truss.Solve(cases); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSpaceTrussRedundant(b *testing.B) {
	truss, cases := tower()
	truss.Members = append(truss.Members, Member{Name: "spare", From: "0a", To: "peak", EA: 1e7})
	b.ReportAllocs()
	for b.Loop() {
		if _, err := truss.Solve(cases); err != nil {
			b.Fatal(err)
		}
	}
}
