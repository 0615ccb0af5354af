package stock

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func best(t require.TestingT, pieces []Piece, bars []Bar, saw Saw) *Plan {
	p, err := Best(pieces, bars, saw)
	require.NoError(t, err)
	checkPlan(t, p, pieces, bars, saw)
	return p
}

// checkPlan saws the plan: every piece wanted comes out, once, inside its bar and
// clear of the others by a kerf, no bar is used more often than it is there, and
// the sums are right.
func checkPlan(t require.TestingT, p *Plan, pieces []Piece, bars []Bar, saw Saw) {
	const grain = 0.0015 // lengths are whole micrometres
	wanted, made := map[string]int{}, map[string]int{}
	length := map[string]float64{}
	for _, x := range pieces {
		if x.Count > 0 {
			wanted[x.Name] += x.Count
			length[x.Name] = x.Length
		}
	}
	used := map[string]int{}
	var all, bought, cost, kept float64
	count := 0
	for _, l := range p.Layouts {
		used[l.Bar] += l.Count
		all += float64(l.Count) * l.Length
		if !l.OnHand {
			count += l.Count
			bought += float64(l.Count) * l.Length
		}
		at := saw.TrimStart
		for i, c := range l.Cuts {
			if i > 0 {
				at += saw.Kerf
			}
			require.InDelta(t, at, c.From, grain*float64(i+2))
			require.InDelta(t, c.Length, c.To-c.From, 1e-9)
			at = c.To
			require.Len(t, c.Names, l.Count)
			for _, n := range c.Names {
				made[n]++
				require.InDelta(t, length[n], c.Length, grain)
				require.GreaterOrEqual(t, c.Length, length[n]-1e-6, "never short")
			}
		}
		require.LessOrEqual(t, at, l.Length-saw.TrimEnd+grain, "inside the bar")
		require.InDelta(t, max(0, l.Length-at-saw.Kerf), l.Left, grain)
		require.Equal(t, saw.Keep > 0 && l.Left >= saw.Keep-1e-6, l.Kept)
		if l.Kept {
			kept += float64(l.Count) * l.Left
		}
		require.Positive(t, len(l.Cuts))
	}
	require.Equal(t, wanted, made)
	for _, b := range bars {
		if b.Count > 0 {
			require.LessOrEqual(t, used[b.Name], b.Count, "bars %q", b.Name)
		}
		if !b.OnHand {
			price := b.Price
			if price == 0 {
				price = b.Length
			}
			cost += float64(used[b.Name]) * price
		}
	}
	require.Equal(t, count, p.Bars)
	require.InDelta(t, bought, p.Length, 1e-6)
	require.InDelta(t, cost, p.Cost, 1e-3*float64(count+1))
	require.InDelta(t, kept, p.Kept, 1e-6)
	require.InDelta(t, all, p.Wanted+p.Kerfs+p.Trims+p.Kept+p.Scrap, 1e-3*float64(len(bars)+len(p.Layouts)+1)*(1+all/1e6))
	require.LessOrEqual(t, p.Bound, p.Cost+1e-9)
	if p.Proven {
		require.InDelta(t, p.Cost, p.Bound, 1e-9)
	}
}

// The anti-wrap link of the orchard cart "Medlar": 9 blanks of 617.1 come out of
// 6 m with a kerf of 3, 10 do not.
func TestNineBlanksFromSixMetres(t *testing.T) {
	bars := []Bar{{Name: "6 m", Length: 6000}}
	p := best(t, []Piece{{"link", 617.1, 9}}, bars, Saw{Kerf: 3})
	require.Equal(t, 1, p.Bars)
	require.True(t, p.Proven)
	require.InDelta(t, 6000-9*617.1-9*3, p.Layouts[0].Left, 0.001)
	p = best(t, []Piece{{"link", 617.1, 10}}, bars, Saw{Kerf: 3})
	require.Equal(t, 2, p.Bars)
	require.True(t, p.Proven)
}

// V. Chvátal, Linear Programming (1983), chapter 13 (from memory): raws of 100 in,
// 97 finals of 45, 610 of 36, 395 of 31, 211 of 14; 452.25 raws with fractions,
// 453 whole.
func TestChvatal(t *testing.T) {
	pieces := []Piece{{"45", 45, 97}, {"36", 36, 610}, {"31", 31, 395}, {"14", 14, 211}}
	p := best(t, pieces, []Bar{{Name: "raw", Length: 100}}, Saw{})
	require.Equal(t, 453, p.Bars)
	require.True(t, p.Proven)
	q, err := newProblem(pieces, []Bar{{Name: "raw", Length: 100}}, Saw{})
	require.NoError(t, err)
	s := q.newMaster()
	for {
		c, ok := s.priceOut(s.prices())
		if !ok || !s.enter(c) {
			break
		}
	}
	require.InDelta(t, 452.25, s.value()/100/micron, 1e-9)
	require.InDelta(t, 452.25, s.low/100/micron, 1e-3)
}

// A paper machine of 5600 mm, thirteen widths (a worked example much reprinted,
// from memory): 73 rolls, 0.401 % waste.
func TestPaperRolls(t *testing.T) {
	var pieces []Piece
	for _, x := range [][2]float64{{1380, 22}, {1520, 25}, {1560, 12}, {1710, 14}, {1820, 18}, {1880, 18}, {1930, 20},
		{2000, 10}, {2050, 12}, {2100, 14}, {2140, 16}, {2150, 18}, {2200, 20}} {
		pieces = append(pieces, Piece{fmt.Sprint(x[0]), x[0], int(x[1])})
	}
	p := best(t, pieces, []Bar{{Name: "roll", Length: 5600}}, Saw{})
	require.Equal(t, 73, p.Bars)
	require.True(t, p.Proven)
	require.InDelta(t, 0.401, 100*p.Scrap/p.Length, 0.0005)
}

// A small instance without the integer round-up property (known from the papers
// of Scheithauer and Terno; from memory): 259/132 bars with fractions, 3 whole.
func TestOneMoreThanTheBound(t *testing.T) {
	pieces := []Piece{{"44", 44, 2}, {"33", 33, 3}, {"12", 12, 6}}
	p := best(t, pieces, []Bar{{Name: "132", Length: 132}}, Saw{})
	require.Equal(t, 3, p.Bars)
	require.True(t, p.Proven, "all plans with two bars are ruled out")
}

// Triplets (as in E. Falkenauer, "A hybrid grouping genetic algorithm for bin
// packing", Journal of Heuristics 2 (1996)): three pieces to a bar without any
// waste, so the best is known.
func TestTriplets(t *testing.T) {
	for _, n := range []int{4, 8, 12, 20} {
		r := rand.New(rand.NewSource(int64(n)))
		var pieces []Piece
		for i := range n {
			a := 380 + r.Intn(110)
			b := 250 + r.Intn((1000-a)/2-250)
			for j, l := range []int{a, b, 1000 - a - b} {
				pieces = append(pieces, Piece{fmt.Sprintf("%d-%d", i, j), float64(l), 1})
			}
		}
		p := best(t, pieces, []Bar{{Name: "bar", Length: 1000}}, Saw{})
		require.Equal(t, n, p.Bars)
		require.True(t, p.Proven)
	}
}

// Small random jobs against a search of all ways to share the pieces out.
func TestAgainstAllPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		saw := Saw{Kerf: float64(rapid.IntRange(0, 5).Draw(t, "kerf")), TrimStart: float64(rapid.SampledFrom([]int{0, 10}).Draw(t, "trim"))}
		bars := []Bar{{Name: "long", Length: 1000}}
		if rapid.Bool().Draw(t, "short too") {
			bars = append(bars, Bar{Name: "short", Length: 700})
		}
		if n := rapid.IntRange(0, 2).Draw(t, "drops"); n > 0 {
			bars = append(bars, Bar{Name: "drop", Length: float64(rapid.IntRange(200, 900).Draw(t, "drop")), Count: n, OnHand: true})
		}
		if rapid.Bool().Draw(t, "prices") {
			for i := range bars {
				if !bars[i].OnHand {
					bars[i].Price = float64(rapid.IntRange(1, 20).Draw(t, "price"))
				}
			}
		}
		var pieces []Piece
		for i := range rapid.IntRange(1, 7).Draw(t, "pieces") {
			pieces = append(pieces, Piece{fmt.Sprint(i), float64(rapid.IntRange(50, 900).Draw(t, "length")), 1})
		}
		p := best(t, pieces, bars, saw)
		require.True(t, p.Proven)
		require.InDelta(t, cheapest(pieces, bars, saw), p.Cost, 1e-6)
	})
}

// cheapest tries every way to put the pieces in bars.
func cheapest(pieces []Piece, bars []Bar, saw Saw) float64 {
	type open struct {
		bar  int
		left float64
	}
	best := math.Inf(1)
	var try func(i int, opened []open, used []int, cost float64)
	try = func(i int, opened []open, used []int, cost float64) {
		if cost >= best {
			return
		}
		if i == len(pieces) {
			best = cost
			return
		}
		w := pieces[i].Length + saw.Kerf
		for j := range opened {
			if opened[j].left >= w-1e-9 {
				opened[j].left -= w
				try(i+1, opened, used, cost)
				opened[j].left += w
			}
		}
		for b, bar := range bars {
			left := bar.Length - saw.TrimStart - saw.TrimEnd + saw.Kerf - w
			if left < -1e-9 || bar.Count > 0 && used[b] == bar.Count {
				continue
			}
			price := bar.Price
			if bar.OnHand {
				price = 0
			} else if price == 0 {
				price = bar.Length
			}
			used[b]++
			try(i+1, append(opened[:len(opened):len(opened)], open{b, left}), used, cost+price)
			used[b]--
		}
	}
	try(0, nil, make([]int, len(bars)), 0)
	return best
}

// Shop jobs: up to 40 pieces of up to 12 lengths from 6 m bars are proven best.
func TestShopSizes(t *testing.T) {
	for seed := range 40 {
		r := rand.New(rand.NewSource(int64(seed)))
		var pieces []Piece
		for i := range 3 + r.Intn(10) {
			pieces = append(pieces, Piece{fmt.Sprint(i), 150 + float64(r.Intn(24000))/10, 1 + r.Intn(5)})
		}
		p := best(t, pieces, []Bar{{Name: "6 m", Length: 6000}}, Saw{Kerf: 2.5, TrimStart: 8, TrimEnd: 8, Keep: 500})
		require.True(t, p.Proven, "seed %d: %d bars, bound %v", seed, p.Bars, p.Bound/6000)
	}
}

// Random jobs of 200 pieces come within one bar of the bound.
func TestTwoHundredPieces(t *testing.T) {
	proven := 0
	for seed := range 8 {
		r := rand.New(rand.NewSource(int64(seed)))
		low, span := 50+r.Intn(800), 100+r.Intn(3000)
		var pieces []Piece
		for i := range 200 {
			pieces = append(pieces, Piece{fmt.Sprint(i), float64(low + r.Intn(span)), 1})
		}
		p := best(t, pieces, []Bar{{Name: "6 m", Length: 6000}}, Saw{Kerf: 3, TrimStart: 10})
		require.LessOrEqual(t, p.Cost-p.Bound, 6000.0, "seed %d", seed)
		if p.Proven {
			proven++
		}
		q := best(t, pieces, []Bar{{Name: "6 m", Length: 6000}, {Name: "7.5 m", Length: 7500}, {Name: "drop", Length: 2300, Count: 5, OnHand: true}}, Saw{Kerf: 3, TrimStart: 10})
		require.LessOrEqual(t, q.Cost-q.Bound, 6000.0, "seed %d", seed)
		require.LessOrEqual(t, q.Cost, p.Cost, "longer bars and drops besides cannot make it dearer")
	}
	require.GreaterOrEqual(t, proven, 7)
}

// The same job gives the same plan, whatever was planned before.
func TestSamePlanEveryTime(t *testing.T) {
	var pieces []Piece
	r := rand.New(rand.NewSource(5))
	for i := range 60 {
		pieces = append(pieces, Piece{fmt.Sprint(i), float64(300 + r.Intn(2500)), 1 + i%2})
	}
	bars := []Bar{{Name: "6 m", Length: 6000}, {Name: "drop", Length: 3100, Count: 3, OnHand: true}}
	first := best(t, pieces, bars, Saw{Kerf: 3})
	for range 3 {
		require.Equal(t, first, best(t, pieces, bars, Saw{Kerf: 3}))
	}
}

func TestDropsFirst(t *testing.T) {
	bars := []Bar{{Name: "6 m", Length: 6000}, {Name: "drop a", Length: 1300, Count: 1, OnHand: true}, {Name: "drop b", Length: 2600, Count: 1, OnHand: true}}
	p := best(t, []Piece{{"rail", 1250, 1}}, bars, Saw{Kerf: 3})
	require.Zero(t, p.Bars)
	require.Zero(t, p.Cost)
	require.True(t, p.Proven)
	require.Len(t, p.Layouts, 1)
	p = best(t, []Piece{{"rail", 1250, 6}}, bars, Saw{Kerf: 3})
	require.Equal(t, 1, p.Bars)
	require.True(t, p.Proven)
	// A drop that is not needed stays where it is: the new bar has room for all.
	p = best(t, []Piece{{"rail", 2700, 1}, {"stay", 1200, 1}}, bars, Saw{Kerf: 3})
	require.Len(t, p.Layouts, 1)
	require.Equal(t, "6 m", p.Layouts[0].Bar)
}

func TestLeftoverIsGathered(t *testing.T) {
	// 3 x 1900 and 4 x 1000 need two bars; what is left over comes in one piece.
	p := best(t, []Piece{{"long", 1900, 3}, {"short", 1000, 4}}, []Bar{{Name: "6 m", Length: 6000}}, Saw{Keep: 400})
	require.Equal(t, 2, p.Bars)
	most := 0.0
	for _, l := range p.Layouts {
		most = max(most, l.Left)
	}
	require.GreaterOrEqual(t, most, 2000.0)
	require.InDelta(t, p.Kept, most, 1e-6)
}

func TestTrimAndKerf(t *testing.T) {
	// Two pieces of 995 with a kerf of 4 in 2000 less 3 at either end: 995+4+995.
	bars := []Bar{{Name: "bar", Length: 2000}}
	saw := Saw{Kerf: 4, TrimStart: 3, TrimEnd: 3}
	p := best(t, []Piece{{"x", 995, 2}}, bars, saw)
	require.Equal(t, 1, p.Bars, "the last piece needs no kerf of its own")
	require.Equal(t, []Cut{{995, 3, 998, []string{"x"}}, {995, 1002, 1997, []string{"x"}}}, p.Layouts[0].Cuts)
	require.Zero(t, p.Layouts[0].Left, "what is behind it is not as wide as a kerf")
	p = best(t, []Piece{{"x", 995.001, 2}}, bars, saw)
	require.Equal(t, 2, p.Bars)
	// Thirds of an inch-sized bar: rounding never makes a piece short or a bar long.
	p = best(t, []Piece{{"third", 2438.4 / 3, 3}}, []Bar{{Name: "8 ft", Length: 2438.4}}, Saw{})
	require.Equal(t, 1, p.Bars)
	p = best(t, nil, bars, saw)
	require.True(t, p.Proven)
	require.Empty(t, p.Layouts)
}

func TestErrors(t *testing.T) {
	one := []Piece{{"rail", 1000, 2}}
	bars := []Bar{{Name: "6 m", Length: 6000}}
	cases := []struct {
		name   string
		pieces []Piece
		bars   []Bar
		saw    Saw
		want   string
	}{
		{"too long", []Piece{{"rail", 6001, 1}}, bars, Saw{}, `piece "rail" is 6001 mm long, the longest bar gives 6000 mm; take a longer bar or join two pieces`},
		{"too long for the trim", []Piece{{"rail", 5995, 1}}, bars, Saw{Kerf: 3, TrimStart: 10}, `the longest bar gives 5990`},
		{"no bars", one, nil, Saw{}, "no bars to saw from"},
		{"no length", []Piece{{"rail", 0, 1}}, bars, Saw{}, `piece "rail" has length 0 mm`},
		{"negative count", []Piece{{"rail", 10, -1}}, bars, Saw{}, `wanted -1 times`},
		{"not a number", []Piece{{"rail", math.NaN(), 1}}, bars, Saw{}, `piece "rail" has length NaN`},
		{"too many", []Piece{{"rail", 10, 100001}}, bars, Saw{}, "more than 100000 pieces"},
		{"bar without length", one, []Bar{{Name: "x"}}, Saw{}, `bar "x" has length 0 mm`},
		{"negative bars", one, []Bar{{Name: "x", Length: 6000, Count: -1}}, Saw{}, `bar "x" is there -1 times`},
		{"drop without count", one, []Bar{{Name: "x", Length: 6000, OnHand: true}}, Saw{}, `bar "x" is on hand, but not how many times`},
		{"negative price", one, []Bar{{Name: "x", Length: 6000, Price: -1}}, Saw{}, `bar "x" has price -1`},
		{"half priced", one, []Bar{{Name: "x", Length: 6000, Price: 3}, {Name: "y", Length: 3000}}, Saw{}, `bar "y" has no price`},
		{"negative kerf", one, bars, Saw{Kerf: -1}, "saw has kerf -1"},
		{"too many on hand", one, []Bar{{Name: "x", Length: 6000, Count: 100000, OnHand: true}, {Name: "y", Length: 6000, Count: 1, OnHand: true}}, Saw{}, "100001 bars are on hand"},
		{"not enough", []Piece{{"rail", 1000, 12}}, []Bar{{Name: "x", Length: 5900, Count: 2, OnHand: true}}, Saw{}, "the bars do not suffice for 12 pieces out of the bars given: with their cuts they need 12 m, the bars give 11.8 m; add bars, or let some be bought as wanted"},
		{"not enough in pieces", []Piece{{"rail", 1000, 11}}, []Bar{{Name: "x", Length: 5900, Count: 2, OnHand: true}}, Saw{}, "the bars do not suffice for 11 pieces"},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			_, err := Best(tc.pieces, tc.bars, tc.saw)
			require.ErrorContains(t, err, tc.want)
		})
	}
	p := best(t, []Piece{{"rail", 1000, 10}}, []Bar{{Name: "x", Length: 5900, Count: 2, OnHand: true}}, Saw{})
	require.Zero(t, p.Cost)
	limited := best(t, []Piece{{"rail", 1000, 10}}, []Bar{{Name: "x", Length: 5900, Count: 1}, {Name: "y", Length: 9000}}, Saw{})
	require.InDelta(t, 9000+5900, limited.Cost, 1e-9)
}

// A filling is never worth more than its bound, and the best filling is found
// where the steps suffice.
func TestFill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "items")
		room := int64(rapid.IntRange(10, 200).Draw(t, "room"))
		width, worth, limit := make([]int64, n), make([]int64, n), make([]int, n)
		for i := range n {
			width[i] = int64(rapid.IntRange(1, 120).Draw(t, "width"))
			worth[i] = int64(rapid.IntRange(0, 100).Draw(t, "worth"))
			limit[i] = rapid.IntRange(0, 4).Draw(t, "limit")
		}
		table := make([]int64, room+1) // by dynamic programming
		for i := range n {
			for range limit[i] {
				for w := room; w >= width[i]; w-- {
					table[w] = max(table[w], table[w-width[i]]+worth[i])
				}
			}
		}
		pick, got, bound := fill(width, worth, limit, room, boundSteps)
		require.Equal(t, table[room], got)
		require.GreaterOrEqual(t, bound, got)
		var sum, long int64
		for i, a := range pick {
			require.LessOrEqual(t, a, limit[i])
			sum, long = sum+int64(a)*worth[i], long+int64(a)*width[i]
		}
		require.Equal(t, got, sum)
		require.LessOrEqual(t, long, room)
		_, few, high := fill(width, worth, limit, room, 3)
		require.LessOrEqual(t, few, table[room])
		require.GreaterOrEqual(t, high, table[room])
	})
}

func BenchmarkShopJob(b *testing.B) {
	r := rand.New(rand.NewSource(1))
	var pieces []Piece
	for i := range 10 {
		pieces = append(pieces, Piece{fmt.Sprint(i), 150 + float64(r.Intn(24000))/10, 1 + r.Intn(5)})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Best(pieces, []Bar{{Name: "6 m", Length: 6000}}, Saw{Kerf: 2.5, Keep: 500}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTwoHundredPieces(b *testing.B) {
	r := rand.New(rand.NewSource(3))
	var pieces []Piece
	for i := range 200 {
		pieces = append(pieces, Piece{fmt.Sprint(i), float64(300 + r.Intn(2500)), 1})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Best(pieces, []Bar{{Name: "6 m", Length: 6000}}, Saw{Kerf: 3}); err != nil {
			b.Fatal(err)
		}
	}
}
