package check

import (
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/profiles"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const in = 25.4

// asked gives what a rule set asks of one bolt hole.
func asked(t *testing.T, rules, edges, bolt string, dia, length float64) (edge edgeAsk, spacing spacingAsk) {
	t.Helper()
	b := plate(t, rectangle(500, 500))
	b.Part = &describe.Part{Rules: describe.Word{Text: rules}, Edges: describe.Word{Text: edges}}
	k, err := profiles.FindBolt(bolt)
	require.NoError(t, err)
	h := boltHole("h", geom.Point{X: 250, Y: 250}, &k, dia)
	h.Length = length
	b.Holes = []blank.Hole{h}
	c := newContext(b)
	o := &c.openings[0]
	return o.edge, c.set.spacing(o, o)
}

// AISC 360-16 Table J3.4 (inch) and J3.4M (metric).
func TestEdgeDistanceAISC(t *testing.T) {
	for _, r := range []struct {
		bolt      string
		dia, want float64
	}{
		{"1/2", 9.0 / 16 * in, 0.75 * in},
		{"3/4", 13.0 / 16 * in, 1 * in},
		{"7/8", 15.0 / 16 * in, 1.125 * in},
		{"1-1/8", 1.25 * in, 1.5 * in},
		{"1-1/2", 1.625 * in, 1.25 * 1.5 * in},
		{"M16", 18, 22},
		{"M20", 22, 26},
		{"M24", 27, 30},
		{"M30", 33, 38},
	} {
		got, _ := asked(t, "", "", r.bolt, r.dia, 0)
		assert.InDelta(t, r.want, got.want, 1e-9, r.bolt)
		assert.Zero(t, got.half, r.bolt)
	}
}

// AISC 360-05 Table J3.4M, as reprinted in Structural Steel Designer's Handbook,
// 4th ed., Table 5.13; inch rows from memory.
func TestEdgeDistanceSheared(t *testing.T) {
	for _, r := range []struct {
		bolt      string
		dia, want float64
	}{
		{"M16", 18, 28}, {"M20", 22, 34}, {"M24", 27, 42}, {"M30", 33, 52},
		{"1/2", 9.0 / 16 * in, 0.875 * in}, {"3/4", 13.0 / 16 * in, 1.25 * in},
	} {
		got, _ := asked(t, "aisc 360", "sheared", r.bolt, r.dia, 0)
		assert.InDelta(t, r.want, got.want, 1e-9, r.bolt)
		assert.Contains(t, got.cite(), "360-05", r.bolt)
	}
}

// AISC 360-16 Table J3.5, C2 (from memory): oversized holes add to the
// distance; a slot square to the edge adds C2, one along it nothing. A slot is
// measured from where the bolt may sit: half is what it adds square to the edge.
func TestEdgeIncrementAISC(t *testing.T) {
	for _, r := range []struct {
		what, bolt string
		dia, len   float64
		more, half float64
	}{
		{"standard", "3/4", 13.0 / 16 * in, 0, 0, 0},
		{"oversized", "3/4", 15.0 / 16 * in, 0, in / 16, 0},
		{"oversized", "1", 1.25 * in, 0, in / 8, 0},
		{"oversized", "M20", 24, 0, 2, 0},
		{"short", "3/4", 13.0 / 16 * in, 1 * in, 0, in / 8},
		{"short", "1-1/4", 11.0 / 8 * in, 13.0 / 8 * in, 0, 3 * in / 16},
		{"short, 1/16 in shorter than the table's", "3/4", 13.0 / 16 * in, 15.0 / 16 * in, 0, 3 * in / 32},
		{"long", "3/4", 13.0 / 16 * in, 1.875 * in, 0, 0.75 * 0.75 * in},
		{"long, 1/4 in shorter than the table's", "3/4", 13.0 / 16 * in, 1.625 * in, 0, 0.75*0.75*in - in/8},
		{"longer than any of the table's", "3/4", 13.0 / 16 * in, 3 * in, 0, (3 - 0.75) / 2 * in},
		{"small bolt, clearance of the first row", "M10", 12, 0, 0, 0},
		{"small bolt, more clearance than that", "M10", 12.5, 0, 2, 0},
	} {
		plain, _ := asked(t, "aisc 360", "", r.bolt, 0, 0)
		got, _ := asked(t, "aisc 360", "", r.bolt, r.dia, r.len)
		assert.InDelta(t, plain.want+r.more, got.want, 1e-9, "%s %s", r.bolt, r.what)
		assert.InDelta(t, r.half, got.half, 1e-9, "%s %s", r.bolt, r.what)
	}
}

// EN 1993-1-8:2005 Table 3.3 evaluated: multiples of the hole's diameter.
func TestDistancesEN(t *testing.T) {
	for _, r := range []struct {
		bolt       string
		d0, e1, p2 float64
	}{
		{"M12", 13, 15.6, 31.2}, {"M20", 22, 26.4, 52.8}, {"M24", 26, 31.2, 62.4},
	} {
		edge, spacing := asked(t, "en 1993-1-8", "", r.bolt, r.d0, 0)
		assert.InDelta(t, r.e1, edge.want, 1e-9, r.bolt)
		assert.InDelta(t, r.p2, spacing.centres, 1e-9, r.bolt)
		slot, _ := asked(t, "en 1993-1-8", "", r.bolt, r.d0, 3*r.d0)
		assert.InDelta(t, 1.5*r.d0, slot.want, 1e-9, r.bolt)
		assert.InDelta(t, r.d0, slot.half, 1e-9, r.bolt)
	}
}

// AISC 360-16 J3.3: 2 2/3 d between centres, 3 d preferred, d of clear metal.
func TestSpacingAISC(t *testing.T) {
	_, s := asked(t, "aisc 360", "", "3/4", 13.0/16*in, 0)
	assert.InDelta(t, 2*in, s.centres, 1e-9)
	assert.InDelta(t, 2.25*in, s.prefer, 1e-9)
	assert.InDelta(t, 0.75*in, s.clear, 1e-9)
}

// Common practice: 1.5 d and 2 d to an edge by bolt diameter.
func TestDistancesShop(t *testing.T) {
	edge, spacing := asked(t, "shop 1.5d", "", "1/2", 17.0/32*in, 0)
	assert.InDelta(t, 19.05, edge.want, 1e-9)
	assert.InDelta(t, 2.5*12.7, spacing.centres, 1e-9)
	assert.Contains(t, edge.cite(), "common practice")
	edge, spacing = asked(t, "shop 2d", "", "1/2", 17.0/32*in, 0)
	assert.InDelta(t, 25.4, edge.want, 1e-9)
	assert.InDelta(t, 3*12.7, spacing.centres, 1e-9)
}

// The words that a description may choose rules by are the sets that there are.
func TestRuleSetWords(t *testing.T) {
	assert.Equal(t, []string{"aisc 360", "aisc 360 lrfd", "aisc 360 asd", "en 1993-1-8", "shop 1.5d", "shop 2d", "shop"}, RuleSets())
	for _, word := range RuleSets() {
		_, err := describe.Parse("a.yaml", []byte("part: a\nunits: mm\nplate: {thickness: 6, material: S355}\n"+
			"process: fibre laser\nrules: "+word+"\noutline:\n  disc: {diameter: 50}\n"))
		assert.NoError(t, err, word)
	}
}

// The larger of two bolts governs what lies between them.
func TestLargerBoltGoverns(t *testing.T) {
	b := plate(t, rectangle(200, 100))
	small, err := profiles.FindBolt("M10")
	require.NoError(t, err)
	large, err := profiles.FindBolt("M20")
	require.NoError(t, err)
	b.Holes = []blank.Hole{
		boltHole("small", geom.Point{X: 60, Y: 50}, &small, 11),
		boltHole("large", geom.Point{X: 110, Y: 50}, &large, 22),
	}
	fs := Run(b)
	require.Len(t, fs, 1)
	assert.InDelta(t, 20*8.0/3, fs[0].Want, 1e-9)
	assert.InDelta(t, 50, fs[0].Got, 1e-9)
}
