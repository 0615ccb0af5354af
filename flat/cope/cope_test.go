package cope

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

type saddleTable struct {
	Name   string
	SmallR float64 `json:"r"`
	R      float64
	Angle  float64 `json:"angle_deg"`
	Offset float64
	Girth  float64
	Least  float64
	Most   float64
	Mean   float64
	Rows   [][5]float64
}

func readTables(t *testing.T) []saddleTable {
	text, err := os.ReadFile("testdata/saddle_tables.json")
	require.NoError(t, err)
	var file struct{ Tables []saddleTable }
	// encoding/json matches names without case: keep r and R apart by hand.
	require.NoError(t, json.Unmarshal(text, &file))
	var raw struct{ Tables []map[string]json.RawMessage }
	require.NoError(t, json.Unmarshal(text, &raw))
	for i := range file.Tables {
		require.NoError(t, json.Unmarshal(raw.Tables[i]["r"], &file.Tables[i].SmallR))
		require.NoError(t, json.Unmarshal(raw.Tables[i]["R"], &file.Tables[i].R))
	}
	require.Len(t, file.Tables, 3)
	return file.Tables
}

// Every value of the tables, as printed: to the half of the last decimal and a
// rounding.
func TestSaddleTables(t *testing.T) {
	const printed = 0.5e-4 + 1e-6
	for _, tab := range readTables(t) {
		t.Run(tab.Name, func(t *testing.T) {
			m := Main{OD: 2 * tab.R, Angle: deg(tab.Angle), Offset: tab.Offset}
			c := must(t, Tube{2 * tab.SmallR, 1}, m)
			u := c.Curve(OD)
			require.InDelta(t, tab.Girth, c.Tube.Girth(), printed)
			require.InDelta(t, tab.Least, u.Ear().S, printed)
			require.InDelta(t, tab.Most, u.Throat().S, printed)
			require.InDelta(t, tab.Mean, u.Mean(), printed)
			rows, err := c.Stations(len(tab.Rows), 100)
			require.NoError(t, err)
			for i, want := range tab.Rows {
				got := rows[i]
				require.Equal(t, int(want[0]), got.Index)
				require.InDelta(t, want[1], got.Q/degree, 1e-9)
				require.InDelta(t, want[2], got.Around, printed)
				require.InDelta(t, want[3], got.S[OD], printed, "at %v degrees", want[1])
				require.InDelta(t, want[4], got.AboveLeast[OD], printed, "at %v degrees", want[1])
				require.InDelta(t, 100-got.S[OD], got.FromEdge[OD], 1e-12)
				// The same place by a second way, to 1e-6 and better.
				require.InDelta(t, bisected(m, got.Q, tab.SmallR), got.S[OD], 1e-6, "at %v degrees", want[1])
			}
		})
	}
}

// The limit cases of the saddle.
func TestLimitCases(t *testing.T) {
	const R, thin = 25.4, 1.0
	qs := make([]float64, 0, 721)
	for i := range 721 {
		qs = append(qs, float64(i)*fullTurn/720)
	}
	t.Run("equal tubes square", func(t *testing.T) { // s = R|cos q|, cusps at 90 and 270
		c := must(t, Tube{2 * R, thin}, Main{OD: 2 * R, Angle: deg(90)})
		u := c.Curve(OD)
		for _, q := range qs {
			require.InDelta(t, R*math.Abs(math.Cos(q)), u.At(q), 1e-12*R)
		}
		require.Equal(t, []float64{quarterTurn, 3 * quarterTurn}, u.Kinks())
		require.InDelta(t, 0, u.Ear().S, 1e-12)
		require.Equal(t, R, u.Throat().S)
		require.InDelta(t, R, u.Slope(quarterTurn), 1e-12, "rising out of the cusp")
		require.InDelta(t, -R, u.Slope(quarterTurn-1e-9), 1e-6, "falling into it")
		require.InDelta(t, 2*R/math.Pi, u.Mean(), 1e-9)
	})
	t.Run("square depth", func(t *testing.T) { // R - √(R²-r²)
		for _, r := range []float64{3, 12.7, 19.05, 25, 25.399999} {
			u := must(t, Tube{2 * r, r / 10}, Main{OD: 2 * R, Angle: deg(90)}).Curve(OD)
			require.InDelta(t, R-math.Sqrt(R*R-r*r), u.Throat().S-u.Ear().S, 1e-10)
		}
	})
	t.Run("heel to toe", func(t *testing.T) { // s(180)-s(0) = 2r/tan θ
		for _, a := range []float64{5, 10, 33, 60, 90} {
			u := must(t, Tube{38.1, 3}, Main{OD: 2 * R, Angle: deg(a)}).Curve(OD)
			require.InDelta(t, 38.1/math.Tan(deg(a)), u.At(math.Pi)-u.At(0), 1e-10)
		}
	})
	t.Run("wide main is a plate", func(t *testing.T) {
		const wide = 1e8
		r, a := 19.05, deg(55)
		u := must(t, Tube{2 * r, 3}, Main{OD: 2 * wide, Angle: a, Station: -wide / math.Sin(a)}).Curve(OD)
		p := must(t, Tube{2 * r, 3}, Plate{Angle: a}).Curve(OD)
		for _, q := range qs {
			require.InDelta(t, -r*math.Cos(q)/math.Tan(a), p.At(q), 1e-12)
			require.InDelta(t, p.At(q), u.At(q), 1e-5)
		}
	})
	t.Run("mean of equal tubes", func(t *testing.T) { // 2R/(π sin θ)
		for _, a := range []float64{5, 20, 45, 90} {
			u := must(t, Tube{2 * R, 3}, Main{OD: 2 * R, Angle: deg(a)}).Curve(OD)
			require.InDelta(t, 2*R/(math.Pi*math.Sin(deg(a))), u.Mean(), 1e-8)
		}
	})
	t.Run("symmetry", func(t *testing.T) {
		even := must(t, Tube{38.1, 3}, Main{OD: 2 * R, Angle: deg(37)})
		square := must(t, Tube{30, 3}, Main{OD: 2 * R, Angle: deg(90), Offset: 7})
		plus := must(t, Tube{30, 3}, Main{OD: 2 * R, Angle: deg(37), Offset: 7})
		minus := must(t, Tube{30, 3}, Main{OD: 2 * R, Angle: deg(37), Offset: -7})
		eachKind(t, func(t *testing.T, k Kind) {
			for _, q := range qs {
				require.InDelta(t, even.Curve(k).At(q), even.Curve(k).At(-q), 1e-9)
				require.InDelta(t, square.Curve(k).At(q), square.Curve(k).At(math.Pi-q), 1e-9)
				require.InDelta(t, plus.Curve(k).At(q), minus.Curve(k).At(-q), 1e-9)
			}
		})
	})
}

// Every place of the lines, put back on the tube in space, lies on the main's
// surface, by the distance from the main's axis, and it is the outer crossing.
func TestLinesLieOnTheMain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		m := drawMain(t, tube, "main")
		c := must(t, tube, m)
		foot, dir := m.Axis()
		require.InDelta(t, 1, dir.Len(), 1e-12)
		require.InDelta(t, m.Angle, math.Acos(-dir.Z), 1e-7, "the angle between the axes")
		paper := Paper{Thickness: rapid.Float64Range(0, 0.3).Draw(t, "paper"), Margin: 20, Waste: 5}
		tpl, err := c.Template(paper, deg(anyTurn.Draw(t, "seam")))
		require.NoError(t, err)
		for _, k := range []Kind{OD, ID} {
			r := c.Curve(k).Radius()
			for range 20 {
				x := rapid.Float64Range(0, tpl.Width).Draw(t, "x")
				q := tpl.Q(x)
				y := tpl.Y(k, q)
				p := tpl.Back(pt(x, y), r)
				require.InDelta(t, r, math.Hypot(p.X, p.Y), 1e-9, "on the wall")
				require.InDelta(t, m.OD/2, axisDistance(p, foot, dir), 1e-6, "on the main")
				require.Greater(t, axisDistance(Point(q, r, tpl.EdgeAt-y+1e-3), foot, dir), m.OD/2-1e-9, "the tube is kept outside the main")
			}
			// What is drawn on paper starts and ends there too.
			line, _ := tpl.Polyline(k)
			for _, at := range line {
				require.InDelta(t, m.OD/2, axisDistance(tpl.Back(at, r), foot, dir), 1e-6, "on the main")
			}
		}
	})
}

// Several mains at once: each place of the line lies on one of them and outside
// or on all the others.
func TestSeveralMains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		n := rapid.IntRange(2, 4).Draw(t, "mains")
		var mains []Main
		var cutters []Cutter
		for i := range n {
			m := drawMain(t, tube, "main "+string(rune('a'+i)))
			mains, cutters = append(mains, m), append(cutters, m)
		}
		c := must(t, tube, cutters...)
		for k := OD; k <= ID; k++ {
			u := c.Curve(k)
			for range 20 {
				q := rapid.Float64Range(0, fullTurn).Draw(t, "q")
				p := Point(q, u.Radius(), u.At(q))
				nearest := math.Inf(1)
				for _, m := range mains {
					foot, dir := m.Axis()
					d := axisDistance(p, foot, dir) - m.OD/2
					require.Greater(t, d, -1e-6, "inside no main")
					nearest = min(nearest, d)
				}
				require.InDelta(t, 0, nearest, 1e-6, "on one of them")
			}
			checkLine(t, u)
		}
		checkDropOn(t, c)
	})
}

// checkLine checks a curve against itself looked at densely: pieces join, the
// extremes are extremes, the slope is the derivative.
func checkLine(t *rapid.T, u *Curve) {
	const n = 2000
	ear, throat := u.Ear(), u.Throat()
	require.InDelta(t, ear.S, u.At(ear.Q), 1e-9)
	require.InDelta(t, throat.S, u.At(throat.Q), 1e-9)
	least, most := math.Inf(1), math.Inf(-1)
	for i := range n {
		s := u.At(float64(i) * fullTurn / n)
		least, most = min(least, s), max(most, s)
	}
	require.LessOrEqual(t, ear.S, least+1e-9)
	require.GreaterOrEqual(t, throat.S, most-1e-9)
	steps := 0.0 // the pieces make one turn
	for i := range u.pieces {
		p := &u.pieces[i]
		require.InDelta(t, u.At(p.a), u.c.height(u, p, p.a), 1e-4)
		require.InDelta(t, u.At(p.b), u.c.height(u, p, p.b), 1e-4)
		m := (p.a + p.b) / 2
		require.InDelta(t, u.At(m), u.c.height(u, p, m), 1e-9, "one piece, one governor")
		steps += p.b - p.a
	}
	require.InDelta(t, fullTurn, steps, 1e-9)
}

// The slope is the derivative of s wherever it is finite.
func TestSlope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		c := must(t, tube, drawMain(t, tube, "a"), drawMain(t, tube, "b"))
		for k := OD; k <= DropOn; k++ {
			u := c.Curve(k)
			q := rapid.Float64Range(0, fullTurn).Draw(t, "q")
			const h = 1e-6
			near := false
			for _, x := range u.Kinks() {
				near = near || math.Abs(math.Remainder(x-q, fullTurn)) < 0.02
			}
			if near {
				continue
			}
			require.InDelta(t, (u.At(q+h)-u.At(q-h))/(2*h), u.Slope(q), 1e-3*(1+math.Abs(u.Slope(q))))
		}
	})
}

// checkDropOn compares the drop-on line with the largest s over many radii.
func checkDropOn(t *rapid.T, c *Cope) {
	u := c.Curve(DropOn)
	for range 10 {
		q := rapid.Float64Range(0, fullTurn).Draw(t, "q")
		best := math.Inf(-1)
		const n = 400
		for i := range n + 1 {
			r := c.ri + (c.ro-c.ri)*float64(i)/n
			for j := range c.cuts {
				k := &c.cuts[j]
				if s, _, ok := k.height(r, k.spot(q)); ok {
					best = max(best, s)
				}
			}
		}
		require.GreaterOrEqual(t, u.At(q), best-1e-9)
		require.InDelta(t, best, u.At(q), 0.02*(c.ro-c.ri), "and no larger than it has to be")
	}
	checkLine(t, u)
}

func TestDropOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		checkDropOn(t, must(t, tube, drawMain(t, tube, "main")))
	})
}

// Off square an inner radius can govern: neither face of the wall alone is
// enough.
func TestDropOnWithinTheWall(t *testing.T) {
	c := must(t, Tube{60, 25}, Main{OD: 64, Angle: deg(40)})
	most := 0.0
	for i := range 3600 {
		q := float64(i) * deg(0.1)
		most = max(most, c.Curve(DropOn).At(q)-max(c.Curve(OD).At(q), c.Curve(ID).At(q)))
	}
	require.Greater(t, most, 1.0)
}

// A main given by its axis in space comes back the same, whichever way the axis
// is said to run.
func TestMainAlong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		m := drawMain(t, tube, "main")
		foot, dir := m.Axis()
		along := rapid.Float64Range(-300, 300).Draw(t, "along")
		sign := rapid.SampledFrom([]float64{1, -1, 2.5}).Draw(t, "sign")
		back, err := MainAlong(m.OD, foot.Add(dir.Mul(along)), dir.Mul(sign))
		require.NoError(t, err)
		require.InDelta(t, m.Angle, back.Angle, 1e-9)
		a, b := must(t, tube, m).Curve(OD), must(t, tube, back).Curve(OD)
		for i := range 24 {
			q := float64(i) * deg(15)
			require.InDelta(t, a.At(q), b.At(q), 2e-5, "at %v", q) // a cusp magnifies the rounding of the offset
		}
	})
	_, err := MainAlong(40, Vec{}, Vec{0, 0, 1})
	require.ErrorContains(t, err, "wanted 5 to 90")
	_, err = MainAlong(40, Vec{}, Vec{})
	require.ErrorContains(t, err, "no direction")
}
