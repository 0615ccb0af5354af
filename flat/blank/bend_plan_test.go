package blank

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/describe"
)

func planned(t *testing.T, text string) []*Blank {
	t.Helper()
	p, err := describe.Parse("bent.yaml", []byte("part: a\nunits: mm\nplate: {thickness: 4, material: S355MC}\nprocess: fibre laser\n"+text))
	require.NoError(t, err)
	bs, err := Make(p)
	require.NoError(t, err)
	return bs
}

// A channel is marked from one end: both bends from the left edge. With K 0.42,
// R 4 and T 4 a square bend takes pi/2 (4 + 0.42 x 4) = 8.9221 mm. Legs of 60
// outside are 52 straight; between outer faces 88, so 72 straight between tangents.
func TestPlanOfAChannel(t *testing.T) {
	b := planned(t, "formed: {u: {inside width: 80, legs: 60, length: 70}}\nbends: {radius: 4, rule: k 0.42}\n")[0]
	p := b.Plan()
	assert.Equal(t, StraightBlade, p.Tool)
	assert.EqualValues(t, 32, p.Die)
	require.Len(t, p.Steps, 2)
	takes := math.Pi / 2 * (4 + 0.42*4)
	for i, s := range p.Steps {
		assert.Equal(t, i+1, s.No)
		require.True(t, s.Hooked)
		assert.Equal(t, "left edge, of flange left", s.Hook.Name())
		from := map[string]float64{"left": 52, "right": 52 + takes + 72}[s.Bend.Name]
		assert.InDelta(t, from, s.Hook.Begins, 1e-9)
		assert.InDelta(t, from+takes/2, s.Hook.Line, 1e-9)
		assert.InDelta(t, from+takes, s.Hook.Ends, 1e-9)
		assert.Greater(t, s.Force, 0.0)
	}
	found, looked, not := p.Looked()
	assert.Contains(t, found, "straight blade")
	assert.Contains(t, looked, "V-die of 32 mm")
	assert.Contains(t, not, "back stops")
}

// A deep channel needs a goosenecked punch, a deep and narrow one finds no order;
// the bends are then as the file has them.
func TestPlanNamesItsTool(t *testing.T) {
	deep := planned(t, "formed: {u: {inside width: 60, legs: 75, length: 70}}\nbends: {radius: 4, rule: k 0.42}\n")[0].Plan()
	assert.Equal(t, Gooseneck, deep.Tool)
	narrow := planned(t, "formed: {u: {inside width: 24, legs: 90, length: 70}}\nbends: {radius: 4, rule: k 0.42}\n")[0].Plan()
	assert.Equal(t, NoBlade, narrow.Tool)
	assert.Equal(t, "left", narrow.Steps[0].Bend.Name)
	found, _, _ := deep.Looked()
	assert.Contains(t, found, "needs a goosenecked punch with a nose of no more than 50 mm")
	found, _, _ = narrow.Looked()
	assert.Contains(t, found, "no order leaves room")
	assert.Nil(t, planned(t, "outline: {rectangle: {width: 60, height: 40}}\n")[0].Plan(), "a flat part has none")
}

// A bend at an angle across the plate is marked from an edge that runs along it;
// one whose tape would hang over a notch, or that has no such edge, from none. A
// mirrored hand is marked from the mirrored edge, by the same figures.
func TestPlanHooksOnlyOverMetal(t *testing.T) {
	bs := planned(t, `hand: pair
outline: {corners: [[0, 0], [160, 0], [160, 60], [120, 100], [0, 100]]}
bends: {radius: 4, rule: k 0.42}
flanges:
  slant: {edge: 3-4, height: 40, offset: [10, 10]}
  side: {edge: 5-1, height: 40, offset: [10, 10], taper: [20 deg, 0 deg]}
`)
	for _, b := range bs {
		for _, s := range b.Plan().Steps {
			require.True(t, s.Hooked, s.Bend.Name)
			assert.Equal(t, s.Bend.Name, s.Hook.Panel, "the free end of the flange is the nearest edge over metal alone")
			assert.InDelta(t, 32, s.Hook.Begins, 1e-9)
			if s.Bend.Name == "slant" {
				assert.Equal(t, "parallel edge, of flange slant", s.Hook.Name())
			}
		}
	}
	assert.Equal(t, "left", bs[0].Plan().Steps[1].Hook.Side+bs[0].Plan().Steps[0].Hook.Side)
	assert.Equal(t, "right", bs[1].Plan().Steps[1].Hook.Side+bs[1].Plan().Steps[0].Hook.Side)
	small := planned(t, "formed: {u: {inside width: 80, legs: 60, length: 15}}\nbends: {radius: 4, rule: k 0.42}\n")[0]
	assert.False(t, small.Plan().Steps[0].Hooked, "its ends are shorter than the hook of a tape")
}
