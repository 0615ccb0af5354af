package layout

import (
	"context"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/geom"
)

func oblong(w, h float64) geom.Region { return rectangle(geom.Box{Max: geom.Point{X: w, Y: h}}) }

func ring(outer, inner float64) geom.Region {
	return geom.Region{Outer: geom.CircleLoop(geom.Circle{R: outer}), Holes: []geom.Loop{geom.CircleLoop(geom.Circle{R: inner}).Reverse()}}
}

// The same seed and count of iterations give the same layout, whatever the
// number of workers.
func TestPlanIsRepeatable(t *testing.T) {
	pieces := brackets(t, 40)
	sheets := []Sheet{plain("sheet", 900, 500, 0)}
	o := Options{Gap: 6, Margin: 8, InsideOpenings: true, Seed: 3, Iterations: 20, Workers: 1}
	first, err := Plan(context.Background(), pieces, sheets, o)
	require.NoError(t, err)
	for _, workers := range []int{1, 2, 5} {
		o.Workers = workers
		again, err := Plan(context.Background(), pieces, sheets, o)
		require.NoError(t, err)
		assert.Equal(t, first, again)
	}
	o.Seed = 4
	other, err := Plan(context.Background(), pieces, sheets, o)
	require.NoError(t, err)
	assert.NotEqual(t, first.Placements, other.Placements)
}

// More effort never gives more sheets, nor a longer used part of the last one.
func TestSearchImproves(t *testing.T) {
	pieces := brackets(t, 60)
	sheets := []Sheet{plain("sheet", 1000, 500, 0)}
	length := func(r *Result) float64 {
		x := 0.0
		for _, p := range r.Placements {
			if p.Sheet == len(r.Sheets)-1 {
				x = math.Max(x, pieces[p.Piece].Region.Transform(p.Motion).Bounds().Max.X)
			}
		}
		return float64(len(r.Sheets))*1000 + x
	}
	greedy, err := Plan(context.Background(), pieces, sheets, Options{Gap: 6, Margin: 8})
	require.NoError(t, err)
	searched, err := Plan(context.Background(), pieces, sheets, Options{Gap: 6, Margin: 8, Iterations: 100})
	require.NoError(t, err)
	assert.Less(t, length(searched), length(greedy))
	assert.GreaterOrEqual(t, searched.Utilisation, greedy.Utilisation)
}

// A search that is stopped hands out a valid layout, soon.
func TestPlanStops(t *testing.T) {
	pieces := brackets(t, 40)
	ctx, cancel := context.WithCancel(context.Background())
	placed := false
	o := Options{Gap: 6, Margin: 8, Time: time.Hour, Progress: func(p Progress) {
		if p.Placed == p.Total {
			placed = true
			cancel()
		}
	}}
	r, err := Plan(ctx, pieces, []Sheet{plain("sheet", 1000, 800, 0)}, o)
	require.NoError(t, err)
	assert.True(t, placed)
	assert.Len(t, r.Placements, 40)

	gone, stop := context.WithCancel(context.Background())
	stop()
	r, err = Plan(gone, pieces, []Sheet{plain("sheet", 1000, 800, 0)}, Options{Gap: 6, Margin: 8, Time: time.Hour})
	require.NoError(t, err)
	assert.Len(t, r.Placements, 40)
}

// A part goes into the opening of another only where that is asked for.
func TestInsideOpenings(t *testing.T) {
	pieces := []Piece{{Name: "ring", Region: ring(100, 80), Quantity: 1}, {Name: "disc", Region: geom.Region{Outer: geom.CircleLoop(geom.Circle{R: 70})}, Quantity: 1}}
	sheets := []Sheet{plain("sheet", 210, 210, 0)}
	for _, inside := range []bool{false, true} {
		r, err := Plan(context.Background(), pieces, sheets, Options{Gap: 5, Margin: 5, InsideOpenings: inside})
		require.NoError(t, err)
		assert.Len(t, r.Sheets, map[bool]int{false: 2, true: 1}[inside])
	}
}

// Pieces lie in the allowed turns alone.
func TestTurns(t *testing.T) {
	turned := func(m geom.Motion) float64 { d := m.Dir(geom.Point{X: 1}); return math.Atan2(d.Y, d.X) }
	for _, turns := range [][]float64{{0}, {0, math.Pi}, {0.5, -2}, {0, math.Pi / 2, math.Pi, -math.Pi / 2}} {
		pieces := []Piece{{Name: "gusset", Region: geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: 90}, geom.Point{Y: 60})}, Quantity: 20, Turns: turns}}
		r, err := Plan(context.Background(), pieces, []Sheet{plain("sheet", 400, 300, 0)}, Options{Gap: 2, Margin: 3, Iterations: 20})
		require.NoError(t, err)
		for _, p := range r.Placements {
			near := math.Inf(1)
			for _, a := range turns {
				near = math.Min(near, math.Abs(math.Remainder(turned(p.Motion)-a, 2*math.Pi)))
			}
			assert.Less(t, near, 1e-9)
		}
	}
}

// Sheets are used in the order given; what no sheet has room for is listed.
func TestSheetsInOrder(t *testing.T) {
	pieces := []Piece{{Name: "large", Region: oblong(300, 200), Quantity: 2}, {Name: "small", Region: oblong(50, 40), Quantity: 6}}
	drop := Sheet{Name: "drop", Region: geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: 200}, geom.Point{Y: 150})}, Count: 1}
	r, err := Plan(context.Background(), pieces, []Sheet{drop, plain("sheet", 400, 300, 1)}, Options{Gap: 5, Margin: 5})
	require.NoError(t, err)
	require.Len(t, r.Sheets, 2)
	assert.Equal(t, 0, r.Sheets[0].Kind)
	require.Len(t, r.Unplaced, 1)
	assert.Equal(t, 0, r.Unplaced[0].Piece)
	assert.Equal(t, 1, r.Unplaced[0].Count)
	assert.Contains(t, r.Unplaced[0].Why, "no room is left")
}

// A sheet that stands is filled from below as one that lies is from the left, and
// turns mean the same on both.
func TestStandingSheet(t *testing.T) {
	pieces := []Piece{{Name: "plank", Region: oblong(100, 30), Quantity: 12, Turns: []float64{0}}}
	r, err := Plan(context.Background(), pieces, []Sheet{plain("sheet", 230, 900, 0)}, Options{Gap: 5, Margin: 5})
	require.NoError(t, err)
	box := geom.Box{}
	for _, p := range r.Placements {
		b := pieces[0].Region.Transform(p.Motion).Bounds()
		assert.InDelta(t, 100, b.Width(), 1e-9)
		box = box.Union(b)
	}
	assert.InDelta(t, 5+6*30+5*5, box.Max.Y, 1e-3)
}

// A piece that fits the box of a remnant but not the remnant is told of.
func TestRemnantTooOdd(t *testing.T) {
	pieces := []Piece{{Name: "square", Region: oblong(100, 100), Quantity: 1}}
	drop := Sheet{Name: "drop", Region: geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: 150}, geom.Point{Y: 150})}, Count: 1}
	r, err := Plan(context.Background(), pieces, []Sheet{drop}, Options{Gap: 5, Margin: 5, Iterations: 5})
	require.NoError(t, err)
	assert.Empty(t, r.Sheets)
	require.Len(t, r.Unplaced, 1)
	assert.Contains(t, r.Unplaced[0].Why, "even on an empty sheet")
}

func TestInputFaults(t *testing.T) {
	good := []Piece{{Name: "tab", Region: oblong(80, 30), Quantity: 1}}
	sheet := []Sheet{plain("sheet", 500, 300, 0)}
	open := oblong(100, 100)
	open.Outer = open.Outer[:3]
	crossing := geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: 100, Y: 100}, geom.Point{X: 100}, geom.Point{Y: 100})}
	with := func(p Piece) []Piece { return append([]Piece{}, p) }
	for _, c := range []struct {
		name   string
		pieces []Piece
		sheets []Sheet
		o      Options
		fault  Fault
		text   string
	}{
		{"no piece", nil, sheet, Options{}, NoPieces, "no piece"},
		{"no sheet", good, nil, Options{}, NoSheets, "no sheet"},
		{"negative gap", good, sheet, Options{Gap: -1}, OptionInvalid, "the gap is -1"},
		{"margin that is no number", good, sheet, Options{Margin: math.NaN()}, OptionInvalid, "the margin"},
		{"open piece", with(Piece{Name: "tab", Region: open, Quantity: 1}), sheet, Options{}, PieceInvalid, `"tab"`},
		{"none of a piece", with(Piece{Name: "tab", Region: oblong(9, 9)}), sheet, Options{}, QuantityInvalid, "quantity 0"},
		{"turn", with(Piece{Name: "tab", Region: oblong(9, 9), Quantity: 1, Turns: []float64{math.Inf(1)}}), sheet, Options{}, TurnsInvalid, "turn"},
		{"too large", with(Piece{Name: "tab", Region: oblong(600, 30), Quantity: 1}), sheet, Options{Gap: 5, Margin: 10}, PieceTooLarge, "needs 600 mm where the margins leave 480 mm"},
		{"too large as it may lie", with(Piece{Name: "tab", Region: oblong(30, 400), Quantity: 1, Turns: []float64{0}}), sheet, Options{}, PieceTooLarge, "needs 400 mm where the margins leave 300 mm"},
		{"gap", good, sheet, Options{Gap: 31}, GapTooLarge, "which is 30 mm wide"},
		{"open sheet", good, []Sheet{{Name: "drop", Region: open}}, Options{}, SheetInvalid, `"drop"`},
		{"crossing sheet", good, []Sheet{{Name: "drop", Region: crossing}}, Options{}, SheetInvalid, `"drop"`},
		{"margin", good, sheet, Options{Margin: 150}, MarginTooLarge, `"sheet"`},
		{"margin of a disc", good, []Sheet{{Name: "disc", Region: geom.Region{Outer: geom.CircleLoop(geom.Circle{R: 50})}}}, Options{Margin: 60}, MarginTooLarge, `"disc"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Plan(context.Background(), c.pieces, c.sheets, c.o)
			var in *InputError
			require.ErrorAs(t, err, &in)
			assert.Equal(t, c.fault, in.Fault)
			assert.Contains(t, in.Error(), c.text)
			assert.NotContains(t, in.Error(), "\n")
		})
	}
}

// What is left of a sheet is plate that no piece, nor the gap round it, reaches.
func TestLeftover(t *testing.T) {
	pieces := []Piece{{Name: "tab", Region: oblong(100, 100), Quantity: 1}}
	at := []Placement{{Motion: geom.Translate(10, 10)}}
	sheet := plain("sheet", 500, 300, 1)
	got, err := Leftover(pieces, sheet, at, 5)
	require.NoError(t, err)
	require.Len(t, got, 2)
	assert.InDelta(t, 385*300, got[0].Area(), 1e-6)
	assert.InDelta(t, 115*185, got[1].Area(), 1e-6)
	whole, err := Leftover(pieces, sheet, nil, 5)
	require.NoError(t, err)
	assert.Equal(t, []geom.Region{sheet.Region}, whole)
	odd := Sheet{Name: "drop", Region: geom.Region{Outer: geom.Polygon(geom.Point{}, geom.Point{X: 500}, geom.Point{Y: 300})}}
	got, err = Leftover(pieces, odd, at, 5)
	require.NoError(t, err)
	for _, r := range got {
		require.NoError(t, r.Validate())
	}
	assert.InDelta(t, 500*300/2-115*115, total(got), 1e-6)
}

// A strip holds every copy, and its length is what they reach.
func TestStrip(t *testing.T) {
	pieces, height := readStrip(t, "marques")
	r, err := Strip(context.Background(), pieces, height, Options{Iterations: 60, Seed: 1})
	require.NoError(t, err)
	reach := 0.0
	for _, p := range r.Placements {
		reach = math.Max(reach, pieces[p.Piece].Region.Transform(p.Motion).Bounds().Max.X)
	}
	assert.InDelta(t, reach, r.Length, 1e-9)
	assert.Greater(t, r.Density, 0.8)
	again, err := Strip(context.Background(), pieces, height, Options{Iterations: 60, Seed: 1})
	require.NoError(t, err)
	assert.Equal(t, r, again)
	_, err = Strip(context.Background(), pieces, 10, Options{})
	var in *InputError
	require.ErrorAs(t, err, &in)
	assert.Equal(t, PieceTooLarge, in.Fault)
}
