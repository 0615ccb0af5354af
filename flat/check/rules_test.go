package check

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// byHand are failing blanks that no description gives, because blanks are
// looked at while they are made: for drawings that come from elsewhere.
func byHand(t testing.TB) map[string][]*blank.Blank {
	t.Helper()
	outline := func(pts ...geom.Point) *blank.Blank { return plate(t, geom.Polygon(pts...)) }
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

	open := outline(p(0, 0), p(60, 0), p(60, 40), p(0, 40))
	open.Outline[1].A.X += 0.3

	nothing := outline(p(0, 0), p(60, 0), p(60, 40), p(0, 40))
	nothing.Outline = append(nothing.Outline[:2:2], append(geom.Loop{geom.Line(p(60, 40), p(60, 40))}, nothing.Outline[2:]...)...)

	unknown := outline(p(0, 0), p(60, 0), p(60, 40), p(0, 40))
	unknown.Part = &describe.Part{Rules: describe.Word{Text: "en 1993-1-9", Set: true, Pos: diag.Pos{File: "a.yaml", Line: 3, Col: 8}}}

	p2, err := describe.Parse("bent.yaml", []byte("part: angle\nunits: mm\nplate: {thickness: 3, material: S355MC}\nprocess: fibre laser\n"+
		"formed: {l: {legs: [40, 50], length: 60}}\nbends: {radius: 3, rule: k 0.42}\n"))
	require.NoError(t, err)
	bent, err := blank.Make(p2)
	require.NoError(t, err)
	wrong := *bent[0].Formed.Flat
	wrong.Bends = slices.Clone(wrong.Bends)
	wrong.Bends[0].Height += 0.5
	formed := *bent[0].Formed
	formed.Flat = &wrong
	bent[0].Formed = &formed

	return map[string][]*blank.Blank{
		foldBack.ID: {bent[0]},
		outlineBroken.ID: {
			open,
			nothing,
			outline(p(0, 0), p(60, 0), p(90, 0), p(60, 0), p(60, 40), p(0, 40)),                         // runs back
			outline(p(0, 0), p(60, 40), p(60, 0), p(0, 40)),                                             // crosses itself
			outline(p(0, 0), p(60, 0), p(0, 40), p(60, 40), p(60, 70), p(0, 100), p(60, 100), p(0, 70)), // twice
			plate(t, rectangle(60, 40).Reverse()),
		},
		rulesUnknown.ID: {unknown},
	}
}

func TestRuleTable(t *testing.T) {
	failing, passing := map[string]bool{}, map[string]bool{}
	seen := func(b *blank.Blank) {
		found := map[string]bool{}
		for _, f := range Run(b) {
			found[f.Rule] = true
		}
		for _, k := range All() {
			switch {
			case found[k.ID]:
				failing[k.ID] = true
			case !k.strength:
				passing[k.ID] = true
			}
		}
		for _, u := range Utilisations(b) { // a rule that weighed something and found it held
			if !found[u.Rule] {
				passing[u.Rule] = true
			}
		}
	}
	for _, s := range samples(t) {
		for _, b := range s.blanks {
			seen(b)
		}
	}
	for _, bs := range byHand(t) {
		for _, b := range bs {
			seen(b)
		}
	}
	ids := map[string]bool{}
	for _, k := range All() {
		assert.False(t, ids[k.ID], "two rules are called %s", k.ID)
		ids[k.ID] = true
		assert.Regexp(t, `^[a-z]+(-[a-z]+)*$`, k.ID)
		assert.NotNil(t, k.Run, k.ID)
		for _, text := range []string{k.Title, k.Meaning, k.Formula, k.Source, k.Limits} {
			assert.NotEmpty(t, strings.TrimSpace(text), k.ID)
		}
		assert.True(t, failing[k.ID], "%s has no failing sample", k.ID)
		assert.True(t, passing[k.ID], "%s has no passing sample", k.ID)
		same, ok := Find(k.ID)
		assert.True(t, ok)
		assert.Same(t, k, same)
		assert.NotContains(t, strings.ToLower(Explain(k)), "safe")
	}
	_, ok := Find("no-such-rule")
	assert.False(t, ok)
}

func TestAllIsACopy(t *testing.T) {
	all := All()
	all[0] = nil
	assert.NotNil(t, All()[0])
}

func TestExplain(t *testing.T) {
	text := Explain(edgeDistance)
	assert.True(t, strings.HasPrefix(text, "edge-distance: a bolt hole is too near an edge\n"))
	for _, label := range []string{"asks:", "formula:", "source:", "limits:", "weighs:"} {
		assert.Contains(t, text, "\n"+label+"\n")
	}
	for _, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, len([]rune(line)), 78, line)
		assert.NotRegexp(t, regexp.MustCompile(`\s$`), line)
	}
	assert.Contains(t, Explain(outlineBroken), "no waiver sets it aside")
}

func TestHandMadeFaultsAreMended(t *testing.T) {
	for id, bs := range byHand(t) {
		for _, b := range bs {
			whole := func(b *blank.Blank) []Result { // without what only tells
				return slices.DeleteFunc(Results(b), func(r Result) bool { k, _ := Find(r.Rule); return k.tells })
			}
			rs := whole(b)
			require.Len(t, rs, 1, "%s", AppendText(nil, Run(b)))
			r := rs[0]
			assert.Equal(t, id, r.Rule)
			assert.Equal(t, diag.Error, r.Severity)
			require.Len(t, r.Changes, 1, r.Message)
			after, err := r.Changes[0].Apply(b)
			require.NoError(t, err)
			assert.Empty(t, whole(after), "%s: %s", r.Message, r.Fix)
		}
	}
}

// What no small change mends says so, and suggests none.
func TestOutlineBeyondRepair(t *testing.T) {
	for _, l := range []geom.Loop{
		nil,
		{geom.Line(geom.Point{}, geom.Point{X: 10})},
		geom.Polygon(geom.Point{}, geom.Point{X: math.NaN()}, geom.Point{X: 10, Y: 10}),
		geom.Polygon(geom.Point{}, geom.Point{X: 10}, geom.Point{X: 20}),
	} {
		rs := Results(plate(t, l))
		require.Len(t, rs, 1)
		assert.Equal(t, outlineBroken.ID, rs[0].Rule)
		assert.Empty(t, rs[0].Changes)
		assert.NotNil(t, rs[0].Changes)
		assert.Contains(t, rs[0].Fix, "no small change")
	}
}

// Where the outline is broken nothing is measured to it; holes are still
// measured to each other.
func TestBrokenOutlineStopsOnlyEdges(t *testing.T) {
	b := perforated(t, 2, 20)
	b.Holes[0].Centre = geom.Point{X: 1, Y: 1}
	b.Holes[1].Centre = geom.Point{X: 10, Y: 1}
	b.Outline = b.Outline[:3]
	var got []string
	for _, f := range Run(b) {
		got = append(got, f.Rule)
	}
	assert.Contains(t, got, outlineBroken.ID)
	assert.Contains(t, got, openingsOverlap.ID)
	assert.NotContains(t, got, openingOutside.ID)
	assert.NotContains(t, got, edgeDistance.ID)
	assert.Contains(t, strings.Join(Unchecked(b), "\n"), "the outline is broken")
}

// A blank without a description is measured by the first rule set.
func TestWithoutDescription(t *testing.T) {
	b := ordinaryBracket(t)
	b.Part = nil
	assert.Empty(t, Run(b))
	assert.NotEmpty(t, Unchecked(b))
}
