package layout

import (
	"context"
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/geom"
)

// A long piece that fits from corner to corner alone is laid so, within the margins;
// one that fits at no angle is refused, and no turns are advised to it.
func TestFromCornerToCorner(t *testing.T) {
	sheets := []Sheet{plain("sheet", 400, 400, 0)}
	o := Options{Margin: 5, Gap: 7.5}
	// Turned by 45 degrees it needs (480 + 40)/sqrt 2 = 367.7 mm each way.
	pieces := []Piece{{Name: "bar", Region: oblong(480, 40), Quantity: 1}}
	r, err := Plan(context.Background(), pieces, sheets, o)
	require.NoError(t, err)
	require.Len(t, r.Placements, 1)
	box := pieces[0].Region.Transform(r.Placements[0].Motion).Bounds()
	assert.InDelta(t, 520/math.Sqrt2, math.Max(box.Width(), box.Height()), 5)
	var in *InputError
	pieces[0].Region = oblong(520, 40) // (520 + 40)/sqrt 2 = 396 mm
	_, err = Plan(context.Background(), pieces, sheets, o)
	require.True(t, errors.As(err, &in))
	assert.Equal(t, PieceTooLarge, in.Fault)
	assert.NotContains(t, err.Error(), "turns")
	pieces[0].Turns = []float64{0}
	_, err = Plan(context.Background(), pieces, sheets, o)
	assert.ErrorContains(t, err, "or allow other turns")
}

// What is placed counts before sheets, sheets before what is left of the last.
func TestBestFirst(t *testing.T) {
	pieces := []Piece{{Name: "tile", Region: oblong(100, 100), Quantity: 2}}
	sheets := []Sheet{plain("sheet", 1000, 500, 0)}
	at := func(sheet int, x, y float64) Placement {
		return Placement{Sheet: sheet, Motion: geom.Translate(x, y)}
	}
	one, two := []UsedSheet{{}}, []UsedSheet{{}, {}}
	apart := &Result{Sheets: one, Placements: []Placement{at(0, 10, 10), at(0, 800, 10)}}   // leaves 1000 x 385 above
	beside := &Result{Sheets: one, Placements: []Placement{at(0, 10, 10), at(0, 120, 10)}}  // leaves 775 x 500
	stacked := &Result{Sheets: one, Placements: []Placement{at(0, 10, 10), at(0, 10, 120)}} // leaves 885 x 500
	split := &Result{Sheets: two, Placements: []Placement{at(0, 10, 10), at(1, 10, 10)}}    // a sheet more
	missing := &Result{Sheets: one, Placements: []Placement{at(0, 10, 10)}, Unplaced: []Unplaced{{Piece: 0, Count: 1}}}
	again := &Result{Sheets: one, Placements: stacked.Placements}
	got := bestFirst(pieces, sheets, []*Result{missing, split, stacked, apart, beside, again}, 5)
	want := []*Result{again, stacked, beside, apart, split, missing} // 442,500; 387,500; 385,000 mm2
	for i := range want {
		assert.Same(t, want[i], got[i], "%d", i)
	}
}

// While the last sheet is shortened, the utilisation that is told grows.
func TestProgressGrows(t *testing.T) {
	var told []float64
	o := Options{Gap: 6, Margin: 8, Iterations: 60, Progress: func(p Progress) { told = append(told, p.Utilisation) }}
	_, err := Plan(context.Background(), brackets(t, 30), []Sheet{plain("sheet", 2000, 1000, 0)}, o)
	require.NoError(t, err)
	most := 0.0
	for _, u := range told {
		most = math.Max(most, u)
		assert.LessOrEqual(t, u, 1.0)
	}
	assert.Greater(t, most, 1.1*told[0])
}
