package dxf_test

import (
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/export/dxf"
	"blankwright/flat/cutlist"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

func shopLayers(t *testing.T, text string) *profiles.Set {
	t.Helper()
	s, err := profiles.ReadProfile("shop.yaml", []byte("layers: {"+text+"}"))
	require.NoError(t, err)
	return s
}

// TestProfileLayers: the profile's names and colours are on the entities, in the
// table of layers and in the comments, in every flavour; nothing else changes.
func TestProfileLayers(t *testing.T) {
	set := shopLayers(t, "marks: {name: SCRIBE, colour: 6}, holes: {name: bore-1}, outline: {name: CUT_OUTER, colour: 255}")
	for name, o := range flavours() {
		for i, b := range parts(t) {
			ours, err := dxf.Write(b, o)
			require.NoError(t, err)
			own := *b
			own.Profile = set
			data, err := dxf.Write(&own, o)
			require.NoError(t, err)
			assert.NoError(t, dxf.Verify(data, &own, o), "%s %d", name, i)
			text := string(data)
			for _, gone := range []string{"MARKS", "HOLES", "OUTLINE"} {
				assert.NotContains(t, strings.ReplaceAll(text, b.Name, ""), gone, "%s %d", name, i)
			}
			assert.Contains(t, text, "layers in cutting order: SCRIBE, bore-1, SLOTS, CUTOUTS, CUT_OUTER\r\n")
			assert.Contains(t, text, "  2\r\nCUT_OUTER\r\n 70\r\n0\r\n 62\r\n255\r\n")
			assert.Equal(t, strings.Count(string(ours), "\n"), strings.Count(text, "\n"))
			if len(b.Holes) > 0 && b.Holes[0].CutDia > 0 {
				assert.Error(t, dxf.Verify(data, b, o), "read as ours it is on other layers")
			}
		}
	}
}

// TestManyFrames writes with more sets of layers at once than are kept.
func TestManyFrames(t *testing.T) {
	b := plate("gusset", saddle(), cut("a", 12, 38, 13.5))
	o := dxf.Options{Unit: unit.Millimetre}
	var wg sync.WaitGroup
	for i := range 200 {
		set := shopLayers(t, "holes: {name: H"+strings.Repeat("x", i%20)+string(rune('A'+i/20))+"}")
		wg.Go(func() {
			own := *b
			own.Profile = set
			data, err := dxf.Write(&own, o)
			if assert.NoError(t, err) {
				assert.NoError(t, dxf.Verify(data, &own, o))
				assert.Contains(t, string(data), "\r\n"+set.Layer(profiles.LayerHoles).Name+"\r\n")
			}
		})
	}
	wg.Wait()
}

// TestGivenCuts: cuts that were asked for already give the same bytes; wrong ones
// do not pass for the part, even where the drawing was made from them.
func TestGivenCuts(t *testing.T) {
	b := plate("gusset", saddle(), cut("a", 12, 38, 13.5), cut("b", 50, 30, 9), slot("s", 30, 20, 9, 24, 0.5))
	o := dxf.Options{Unit: unit.Millimetre}
	want, err := dxf.Write(b, o)
	require.NoError(t, err)
	cuts := cutlist.Order(b)
	o.Cuts = cuts
	got, err := dxf.Write(b, o)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got))
	assert.NoError(t, dxf.Verify(got, b, o))

	moved := append([]cutlist.Cut{}, cuts...)
	moved[0].Circle.C.X += 0.01
	other := append([]cutlist.Cut{}, cuts...)
	other[0].Index = 7
	for name, wrong := range map[string][]cutlist.Cut{
		"one lost":     cuts[1:],
		"one twice":    append([]cutlist.Cut{cuts[0]}, cuts...),
		"one moved":    moved,
		"of no hole":   other,
		"outline lost": cuts[:len(cuts)-1],
	} {
		o.Cuts = wrong
		data, err := dxf.Write(b, o)
		require.NoError(t, err)
		assert.Error(t, dxf.Verify(data, b, o), name)
	}
}
