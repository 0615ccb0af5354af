package check

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
	"blankwright/profiles"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var bolts = []struct {
	name string
	dia  float64
}{{"M10 8.8", 11}, {"M12 8.8", 14.5}, {"M16 8.8", 18}, {"1/2", 9.0 / 16 * in}, {"3/4", 15.0 / 16 * in}}

// genBlank is a plate with up to seven openings of all kinds, near each other
// and near the edges, by any rule set.
func genBlank(t *rapid.T) *blank.Blank {
	proc, err := profiles.FindProcess(rapid.SampledFrom([]string{"air plasma", "fibre laser", "oxy-fuel"}).Draw(t, "process"))
	if err != nil {
		t.Fatal(err)
	}
	b := &blank.Blank{Part: &describe.Part{}, Process: proc}
	b.Thickness = rapid.SampledFrom([]float64{3, 6, 10}).Draw(t, "thickness")
	b.Part.Rules.Text = rapid.SampledFrom(RuleSets()).Draw(t, "rules")
	b.Part.Edges.Text = rapid.SampledFrom([]string{"cut", "sheared"}).Draw(t, "edges")
	b.Part.Units = rapid.SampledFrom([]unit.System{unit.Millimetre, unit.Inch}).Draw(t, "units")
	b.Hand = rapid.SampledFrom([]blank.Hand{blank.AsDrawn, blank.Mirrored}).Draw(t, "hand")
	b.Outline = genOutline(t)
	for i := range rapid.IntRange(1, 7).Draw(t, "holes") {
		b.Holes = append(b.Holes, genHole(t, i))
	}
	for i := range rapid.IntRange(0, 2).Draw(t, "cutouts") {
		b.Cutouts = append(b.Cutouts, genCutout(t, i))
	}
	return b
}

// genCutout is a rectangle at any angle, sharp or rounded, a disc or a hollow moon.
func genCutout(t *rapid.T, i int) blank.Cutout {
	c := blank.Cutout{Name: "c" + strconv.Itoa(i), Purpose: blank.CutoutOpening}
	w, h := rapid.Float64Range(4, 50).Draw(t, "width"), rapid.Float64Range(4, 50).Draw(t, "height")
	switch rapid.IntRange(0, 3).Draw(t, "shape") {
	case 0:
		c.Loop = geom.CircleLoop(geom.Circle{R: w / 2})
	case 1:
		c.Loop = geom.Loop{geom.BulgeSeg(geom.Point{X: -w / 2}, geom.Point{X: w / 2}, 0.9), geom.BulgeSeg(geom.Point{X: w / 2}, geom.Point{X: -w / 2}, -0.4)}
	default:
		r := rapid.SampledFrom([]float64{0, 0.4, 1.9}).Draw(t, "radius")
		l, err := geom.Corners([]geom.Corner{{P: geom.Point{X: -w / 2, Y: -h / 2}, Radius: r}, {P: geom.Point{X: w / 2, Y: -h / 2}, Radius: r},
			{P: geom.Point{X: w / 2, Y: h / 2}, Radius: r}, {P: geom.Point{X: -w / 2, Y: h / 2}, Radius: r}})
		if err != nil {
			t.Fatal(err)
		}
		c.Loop = l
	}
	at := geom.Translate(rapid.Float64Range(-80, 80).Draw(t, "cutout x"), rapid.Float64Range(-80, 80).Draw(t, "cutout y"))
	c.Loop = c.Loop.Transform(geom.Rotate(rapid.Float64Range(0, 6).Draw(t, "cutout turn")).Then(at))
	c.Fixed = rapid.IntRange(0, 4).Draw(t, "fixed") == 0
	return c
}

func genHole(t *rapid.T, i int) blank.Hole {
	at := func(what string) float64 {
		return rapid.OneOf(
			rapid.Float64Range(-90, 90),
			rapid.Map(rapid.IntRange(-6, 6), func(n int) float64 { return float64(n) * 10 }),
		).Draw(t, what)
	}
	h := blank.Hole{Centre: geom.Point{X: at("x"), Y: at("y")}, Dia: rapid.Float64Range(2, 30).Draw(t, "dia")}
	h.Set = rapid.SampledFrom([]string{"", "row", "ring"}).Draw(t, "set")
	h.Name = h.Set + "." + strconv.Itoa(i)
	if h.Set == "" {
		h.Name = "h" + strconv.Itoa(i)
		h.Set = h.Name
	}
	if rapid.Bool().Draw(t, "bolted") {
		k := rapid.SampledFrom(bolts).Draw(t, "bolt")
		bolt, err := profiles.FindBolt(k.name)
		if err != nil {
			t.Fatal(err)
		}
		h.Purpose, h.Bolt, h.Dia = blank.BoltHole, &bolt, k.dia
	}
	h.CutDia = h.Dia
	switch rapid.IntRange(0, 5).Draw(t, "kind") {
	case 0:
		h.Method, h.CutDia = blank.Drill, 0
	case 1, 2:
		h.Length = h.Dia + rapid.Float64Range(0.5, 30).Draw(t, "longer")
		h.Angle = rapid.OneOf(rapid.Float64Range(0, math.Pi), rapid.Just(0.0)).Draw(t, "angle")
	}
	return h
}

// Whatever the part, every finding suggests a change, and each change that it
// suggests makes it go.
func TestEveryFixHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := genBlank(t)
		for _, r := range Results(b) {
			if len(r.Changes) == 0 {
				t.Fatalf("%s: %s: no change suggested: %s", r.Rule, r.Message, r.Fix)
			}
			for _, ch := range r.Changes {
				after, err := ch.Apply(b)
				if err != nil {
					t.Fatalf("%s: %v", ch.Text, err)
				}
				before, left := matters(b, r, ch), matters(after, r, ch)
				if left >= before {
					t.Fatalf("%s: %s\nis not mended by: %s", r.Rule, r.Message, ch.Text)
				}
				if ch.Kind == Move {
					t.Logf("%s %s", r.Message, ch.Text)
					assertInside(t, after, ch.Hole)
				}
			}
		}
	})
}

func matters(b *blank.Blank, r Result, ch Change) int {
	n := 0
	for _, q := range Results(b) {
		if sameMatter(q, r, ch.Kind == Spread) {
			n++
		}
	}
	return n
}

// assertInside looks whether a hole that a suggestion moved lies in the plate.
func assertInside(t *rapid.T, b *blank.Blank, name string) {
	t.Helper()
	for i := range b.Holes {
		if h := &b.Holes[i]; h.Name == name && b.Outline.Contains(h.Centre) != geom.Inside {
			t.Fatalf("%q was moved out of the plate to %v: %v", name, h.Centre, b.Outline)
		}
	}
}

// Turning and shifting the part changes no measured value.
func TestFindingsTurnWithThePart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := genBlank(t)
		a := rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")
		m := geom.Rotate(a).Then(geom.Translate(37, -11))
		turned := *b
		turned.Outline = b.Outline.Transform(m)
		turned.Holes = nil
		for _, h := range b.Holes {
			h.Centre, h.Angle = m.Apply(h.Centre), h.Angle+a
			turned.Holes = append(turned.Holes, h)
		}
		turned.Cutouts = nil
		for _, c := range b.Cutouts {
			c.Loop = c.Loop.Transform(m)
			turned.Cutouts = append(turned.Cutouts, c)
		}
		want, got := Run(b), Run(&turned)
		if len(want) != len(got) {
			t.Fatalf("%d findings, turned %d:\n%s\n%s", len(want), len(got), AppendText(nil, want), AppendText(nil, got))
		}
		// Findings of a rule stand in the order of their places, which turn as well.
		for _, fs := range [][]diag.Finding{want, got} {
			slices.SortStableFunc(fs, func(a, b diag.Finding) int {
				return cmp.Or(cmp.Compare(a.Rule, b.Rule), cmp.Compare(a.Want, b.Want), cmp.Compare(a.Got, b.Got))
			})
		}
		for i := range want {
			if want[i].Rule != got[i].Rule || math.Abs(want[i].Got-got[i].Got) > 1e-7 || want[i].Want != got[i].Want {
				t.Fatalf("%s: %g of %g, turned %s: %g of %g", want[i].Rule, want[i].Got, want[i].Want, got[i].Rule, got[i].Got, got[i].Want)
			}
		}
	})
}

// More plate all round never brings a finding on edges that was not there.
func TestMorePlateNeverHarms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := genBlank(t)
		d := rapid.Float64Range(0.1, 30).Draw(t, "more")
		more, err := geom.Hull([]geom.Circle{
			{C: geom.Point{X: -130, Y: -130}, R: d}, {C: geom.Point{X: 130, Y: -130}, R: d},
			{C: geom.Point{X: 130, Y: 130}, R: d}, {C: geom.Point{X: -130, Y: 130}, R: d},
		})
		if err != nil {
			t.Fatal(err)
		}
		larger := *b
		larger.Outline = more
		before := map[string]bool{}
		for _, f := range Run(b) {
			if len(f.Features) > 0 {
				before[f.Rule+f.Features[0]] = true
			}
		}
		for _, f := range Run(&larger) {
			// What lies outside the plate is not measured to edges.
			if len(f.Features) == 0 || before[openingOutside.ID+f.Features[0]] {
				continue
			}
			if (f.Rule == edgeDistance.ID || f.Rule == openingOutside.ID) && !before[f.Rule+f.Features[0]] {
				t.Fatalf("new in the larger plate: %s", f.Message)
			}
		}
	})
}

// Run changes nothing in the blank, and neither does applying a change.
func TestBlankIsLeftAlone(t *testing.T) {
	for _, s := range samples(t) {
		for _, b := range s.blanks {
			outline := append(geom.Loop{}, b.Outline...)
			holes := append([]blank.Hole{}, b.Holes...)
			part := *b.Part
			for _, r := range Results(b) {
				for _, ch := range r.Changes {
					_, err := ch.Apply(b)
					require.NoError(t, err)
				}
			}
			assert.Equal(t, outline, b.Outline, s.file)
			assert.Equal(t, holes, b.Holes, s.file)
			assert.Equal(t, part, *b.Part, s.file)
		}
	}
}

func TestChangeThatDoesNotFit(t *testing.T) {
	b := ordinaryBracket(t)
	for _, ch := range []Change{
		{Kind: Move, Hole: "nobody"},
		{Kind: Spread, Hole: "nobody", To: 2},
		{Kind: "polish", Hole: "h1"},
		{Kind: Redraw, Outline: "0 0"},
		{Kind: DropWaive, Waiver: 1},
		{Kind: Reach, Hole: "h1", To: math.NaN()},
	} {
		_, err := ch.Apply(b)
		assert.Error(t, err, "%+v", ch)
	}
	b.Holes[0].Centre = geom.Point{X: 900, Y: 900}
	_, err := Change{Kind: Reach, Hole: "h1", To: 10}.Apply(b)
	assert.ErrorIs(t, err, errApart)
}

// A hole in a corner of 90 degrees is moved by just what both edges ask.
func TestMoveIsTheShortest(t *testing.T) {
	b := perforated(t, 1, 100)
	b.Outline = rectangle(200, 200)
	b.Holes[0].Centre = geom.Point{X: 16, Y: 15}
	rs := Results(b)
	require.Len(t, rs, 1, "%s", AppendText(nil, Run(b)))
	assert.Equal(t, edgeDistance.ID, rs[0].Rule)
	want := rs[0].Want
	assert.InDelta(t, want-16, rs[0].Changes[0].By.X, 1e-9)
	assert.InDelta(t, want-15, rs[0].Changes[0].By.Y, 1e-9)
	assert.Equal(t, `move "h.1" by x +2.00 mm, y +3.00 mm, or let the plate reach 18.00 mm from the centre of "h.1" on every side`, rs[0].Fix)
}

// On the mirrored hand the move is told in the coordinates of the file and kept
// in those of the blank.
func TestMoveOnTheMirroredHand(t *testing.T) {
	b := perforated(t, 1, 100)
	b.Outline = rectangle(200, 200)
	b.Holes[0].Centre = geom.Point{X: 16, Y: 100}
	b.Hand = blank.Mirrored
	rs := Results(b)
	require.Len(t, rs, 1)
	assert.Equal(t, diag.Place{X: 2}, rs[0].Changes[0].By)
	assert.Contains(t, rs[0].Fix, `move "h.1" by x -2.00 mm in the file (this is the mirrored hand)`)
}

// In inches a move to the left or down has its sign on both figures.
func TestMoveInInchesHasItsSignTwice(t *testing.T) {
	b := perforated(t, 1, 100)
	b.Part.Units = unit.Inch
	b.Outline = rectangle(200, 200)
	b.Holes[0].Centre = geom.Point{X: 184, Y: 100}
	rs := Results(b)
	require.Len(t, rs, 1)
	assert.Contains(t, rs[0].Fix, `move "h.1" by x -0.079 in (-2.01 mm)`)
}

// A round end that was drawn about its hole comes along where the hole goes, so
// that only its radius mends it.
func TestRoundEndIsMadeLarger(t *testing.T) {
	for _, s := range samples(t) {
		if s.file != "axle-tab-short-nose.yaml" {
			continue
		}
		rs := Results(s.blanks[0])
		require.Len(t, rs, 1)
		assert.Equal(t, `give the round end about "pivot" a radius of 0.750 in (19.05 mm)`, rs[0].Fix)
		assert.InDelta(t, 15.875, rs[0].Got, 1e-9)
		assert.InDelta(t, 19.05, rs[0].Want, 1e-9)
	}
}

// Thousands of holes on top of each other neither fill memory nor take long,
// and the report says that it is cut short.
func TestHolesHeapedUp(t *testing.T) {
	b := perforated(t, 10000, 40)
	for i := range b.Holes {
		b.Holes[i].Set = b.Holes[i].Name
		b.Holes[i].Centre = geom.Point{X: 200 + float64(i%7), Y: 200}
	}
	fs := Run(b)
	assert.Greater(t, len(fs), 1000)
	assert.Less(t, len(fs), 40000)
	assert.True(t, Failed(fs))
	cut := 0
	for _, f := range fs {
		if f.Rule == openingsOverlap.ID && len(f.Message) > 0 && f.Message[len(f.Message)-4:] == "here" {
			cut++
		}
	}
	assert.Equal(t, 1, cut)
}
