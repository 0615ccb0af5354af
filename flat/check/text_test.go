package check

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func fileSample(t *testing.T, name string) *blank.Blank {
	t.Helper()
	for _, s := range samples(t) {
		if s.file == name {
			return s.blanks[0]
		}
	}
	require.Fail(t, "no such sample", name)
	return nil
}

// made gives the findings of a description as text.
func made(t *testing.T, text string) string {
	t.Helper()
	p, err := describe.Parse("part.yaml", []byte(text))
	require.NoError(t, err)
	bs, err := blank.Make(p)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, Print(&b, Run(bs[0])))
	return b.String()
}

// What a finding suggests, typed into the file, mends it.
func TestFixTypedIntoTheFile(t *testing.T) {
	for _, r := range []struct{ file, fix, old, new string }{
		{"edge-en-slot.yaml", `move "s2" by y +2.25 mm`, "at: [70, 18]", "at: [70, 18 + 2.25]"},
		{"edge-aisc-inch.yaml", `move "near" by x +0.050 in (1.27 mm)`, "at: [0.95, 4]", "at: [0.95 + 0.050, 4]"},
		{"axle-tab-short-nose.yaml", `give the round end about "pivot" a radius of 0.750 in`, "radius: 5/8", "radius: 0.750"},
		{"clevis-tight-row.yaml", `from "adjust.1" to "adjust.2" 33.87 mm instead of 22.2`,
			"from: [0, -7/8 in], to: [0, 7/8 in]", "from: [0, -33.87], to: [0, 33.87]"},
		{"shackle-keeper.yaml", "give \"keeper\" `how: drill`", "diameter: 5 mm", "diameter: 5 mm, how: drill"},
		{"slot-narrow.yaml", `make "tab" 6.00 mm wide and longer by as much`, "diameter: 5, slot: {length: 30}", "diameter: 6, slot: {length: 31}"},
		{"web-ring.yaml", `make the diameter of the ring's opening 48.00 mm`, "inside: 50", "inside: 48"},
		{"web-row.yaml", `from "vent.1" to "vent.2" 16.00 mm instead of 14.00 mm`, "pitch: 14", "pitch: 16"},
	} {
		text, err := os.ReadFile("testdata/samples/" + r.file)
		require.NoError(t, err)
		before := made(t, string(text))
		assert.Contains(t, before, r.fix, r.file)
		mended := strings.Replace(string(text), r.old, r.new, 1)
		require.NotEqual(t, string(text), mended, r.file)
		after := made(t, mended)
		assert.Equal(t, strings.Count(before, ": error: ")-1, strings.Count(after, ": error: "), "%s\n%s", r.file, after)
		assert.NotContains(t, after, r.fix, r.file)
	}
}

func TestPrint(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Print(&b, Run(fileSample(t, "waivers.yaml"))))
	want, err := os.ReadFile("testdata/waivers.txt")
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String())
}

// A file cannot steer the terminal through names and reasons.
func TestPrintShowsControlCharacters(t *testing.T) {
	got := string(AppendText([]byte("before\n"), []diag.Finding{{
		Pos: diag.Pos{File: "a\x1b[2J.yaml", Line: 1, Col: 2}, Rule: "least-web", Severity: diag.Note,
		Message: "hole \"a\nb\"", Fix: "move \u202eit\r", Waived: "x\x00",
	}}))
	assert.Equal(t, "before\n"+
		`a\x1b[2J.yaml:1:2: note (waived): least-web: hole "a\nb"`+"\n"+
		`a\x1b[2J.yaml:1:2: fix: move \u202eit\r`+"\n"+
		`a\x1b[2J.yaml:1:2: waived: x\x00`+"\n", got)
	assert.Empty(t, AppendText(nil, nil))
}

func TestJSON(t *testing.T) {
	rs := Results(fileSample(t, "edge-en-slot.yaml"))
	require.NotEmpty(t, rs)
	text, err := json.Marshal(rs[0])
	require.NoError(t, err)
	var m map[string]any
	require.NoError(t, json.Unmarshal(text, &m))
	assert.Equal(t, "edge-distance", m["rule"])
	assert.Equal(t, "error", m["severity"])
	assert.Equal(t, "mm", m["unit"])
	assert.InDelta(t, 19, m["got"], 1e-9)
	assert.InDelta(t, 20.25, m["want"], 1e-9)
	assert.Equal(t, []any{"s1"}, m["features"])
	assert.NotContains(t, m, "waived")
	changes := m["changes"].([]any)
	first := changes[0].(map[string]any)
	assert.Equal(t, "move", first["kind"])
	assert.Equal(t, "s1", first["hole"])
	assert.NotContains(t, first, "outline")
}

// Measured and needed can always be told apart.
func TestShortByAHair(t *testing.T) {
	b := perforated(t, 1, 100)
	b.Outline = rectangle(200, 200)
	b.Holes[0].Centre = geom.Point{X: 17.9999, Y: 100}
	fs := Run(b)
	require.Len(t, fs, 1)
	assert.Contains(t, fs[0].Message, "17.9999 mm from the left edge, needs 18 mm")
	b.Holes[0].Centre.X = 18 - 1e-7
	assert.Empty(t, Run(b), "on the limit but for rounding")
}

func TestUnits(t *testing.T) {
	b := perforated(t, 1, 100)
	b.Outline = rectangle(200, 200)
	b.Holes[0].Centre = geom.Point{X: 10, Y: 100}
	b.Part.Units = unit.Inch
	fs := Run(b)
	require.NotEmpty(t, fs)
	assert.Contains(t, fs[0].Message, "0.394 in (10.00 mm)")
	assert.Contains(t, fs[0].Fix, "0.315 in (8.00 mm)")
}

func TestUnchecked(t *testing.T) {
	all := func(b *blank.Blank) string { return strings.Join(Unchecked(b), "\n") }

	text := all(fileSample(t, "edge-en.yaml"))
	assert.Contains(t, text, "the file gives no loads")
	assert.Contains(t, text, "welds")
	assert.Contains(t, text, "fatigue")
	assert.Contains(t, text, "certificate")
	assert.Contains(t, text, `bolts at "h1", "h2"`)
	assert.Contains(t, text, "the direction is not known")
	assert.NotContains(t, text, "without a bolt")
	assert.NotContains(t, text, "outline is broken")

	text = all(fileSample(t, "web-edge.yaml"))
	assert.Contains(t, text, `openings without a bolt ("keeper", "vent", "vent2", "drain", "near")`)
	assert.NotContains(t, text, "bolts at")
	assert.NotContains(t, text, "names no process")
	assert.Contains(t, all(fileSample(t, "web-ring.yaml")), "the ring's opening")

	b := fileSample(t, "edge-aisc-sheared.yaml")
	assert.NotContains(t, all(b), "sheared")
	part := *b.Part
	part.Rules.Text = "shop 2d"
	c := *b
	c.Part = &part
	assert.Contains(t, all(&c), "sheared edges: the rules of shop 2d")

	b = perforated(t, 20, 40)
	for i := range b.Holes {
		b.Holes[i].Set = b.Holes[i].Name
	}
	b.Holes[1].Purpose = blank.Bore
	b.Process.Name, b.Process.MinWebT, b.Process.MinWeb = "", 0, 0
	text = all(b)
	assert.Contains(t, text, "names no process")
	assert.Contains(t, text, `metal round bores ("h.2")`)
	assert.Contains(t, text, "4 more: shear")
}

func TestCautions(t *testing.T) {
	text := strings.Join(Cautions(), "\n")
	assert.Contains(t, text, "not a certificate")
	assert.Contains(t, text, "licensed engineer")
	assert.Contains(t, text, "responsible")
	for _, b := range []*blank.Blank{fileSample(t, "axle-tab.yaml"), fileSample(t, "waivers.yaml")} {
		text += strings.Join(Unchecked(b), "\n")
	}
	assert.NotContains(t, strings.ToLower(text), "safe")
	assert.NotRegexp(t, `(?m)\.$`, text)
}

// A waiver marks and never removes; it answers for a pattern and for one hole
// of it; without a reason, or for another hole, it answers for nothing.
func TestWaivers(t *testing.T) {
	const part = `part: trial plate
units: mm
plate: {thickness: 6, material: S235}
process: air plasma
holes:
  keeper: {row: {from: [9, 20], to: [9, 60], count: 2}, diameter: 10}
outline:
  rectangle: {at: [60, 40], width: 120, height: 80}
waive:
`
	run := func(waiver string) []diag.Finding {
		p, err := describe.Parse("a.yaml", []byte(part+"  - "+waiver+"\n"))
		require.NoError(t, err)
		bs, err := blank.Make(p)
		require.NoError(t, err)
		return Run(bs[0])
	}
	waived := func(fs []diag.Finding) (names []string) {
		for _, f := range fs {
			if f.Waived != "" {
				names = append(names, f.Features...)
			}
		}
		return names
	}
	fs := run(`{rule: least-web, hole: keeper, reason: tried}`)
	assert.Len(t, fs, 2)
	assert.Equal(t, []string{"keeper.1", "keeper.2"}, waived(fs))
	assert.False(t, Failed(fs))

	fs = run(`{rule: least-web, reason: tried}`)
	assert.Equal(t, []string{"keeper.1", "keeper.2"}, waived(fs))

	fs = run(`{rule: least-web, hole: keeper.2, reason: tried}`)
	assert.Equal(t, []string{"keeper.2"}, waived(fs))
	assert.True(t, Failed(fs))

	fs = run(`{rule: edge-distance, hole: keeper, reason: tried}`)
	assert.Empty(t, waived(fs))
	assert.True(t, Failed(fs))
	assert.Equal(t, waiverUnused.ID, fs[len(fs)-1].Rule)
	assert.Equal(t, diag.Warning, fs[len(fs)-1].Severity)

	fs = run(`{rule: leastweb, reason: tried}`)
	assert.Contains(t, fs[len(fs)-1].Message, "did you mean least-web")

	fs = run(`{rule: openings-overlap, reason: tried}`)
	assert.Equal(t, waiverRefused.ID, fs[len(fs)-1].Rule, "told even where the rule found nothing")

	b := fileSample(t, "waivers.yaml")
	p := *b.Part
	p.Waivers = []describe.Waiver{{Rule: describe.Word{Text: "edge-distance"}, Reason: describe.Word{Text: " "}}}
	c := *b
	c.Part = &p
	fs = Run(&c)
	assert.Empty(t, waived(fs))
	assert.Contains(t, string(AppendText(nil, fs)), "gives no reason")
}
