package check

import (
	"math"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/profiles"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// of gives the findings of one rule.
func of(b *blank.Blank, k *Check) []Result {
	var out []Result
	for _, r := range Results(b) {
		if r.Rule == k.ID {
			out = append(out, r)
		}
	}
	return out
}

// Two plates joined by a strip: the neck is told just where the strip is narrower
// than the least web, with its width, wherever and however the part lies, and the
// change suggested mends it.
func TestNarrowNeckIsTheStrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.Float64Range(0.2, 12).Draw(t, "width")
		long := rapid.Float64Range(8, 60).Draw(t, "long")
		x0, x1 := 40.0, 40+long
		h := width / 2
		l := geom.Polygon(
			geom.Point{}, geom.Point{X: x0}, geom.Point{X: x0, Y: 20 - h}, geom.Point{X: x1, Y: 20 - h},
			geom.Point{X: x1}, geom.Point{X: x1 + 40}, geom.Point{X: x1 + 40, Y: 40}, geom.Point{X: x1, Y: 40},
			geom.Point{X: x1, Y: 20 + h}, geom.Point{X: x0, Y: 20 + h}, geom.Point{X: x0, Y: 40}, geom.Point{Y: 40},
		)
		turn := geom.Rotate(rapid.Float64Range(0, 6).Draw(t, "turn")).Then(geom.Translate(rapid.Float64Range(-500, 500).Draw(t, "dx"), 30))
		b := &blank.Blank{Outline: l.Transform(turn), Thickness: 6}
		b.Process, _ = profiles.FindProcess("air plasma")
		found := of(b, narrowNeck)
		if math.Abs(width-6) < 1e-4 {
			return
		}
		if width > 6 {
			if len(found) != 0 {
				t.Fatalf("a neck of %v mm is told: %s", width, found[0].Message)
			}
			return
		}
		if len(found) != 1 || math.Abs(found[0].Got-width) > 1e-6 {
			t.Fatalf("a neck of %v mm: %v", width, found)
		}
		for _, ch := range found[0].Changes {
			after, err := ch.Apply(b)
			if err != nil {
				t.Fatal(err)
			}
			if left := of(after, narrowNeck); len(left) != 0 {
				t.Fatalf("%s leaves: %s", ch.Text, left[0].Message)
			}
		}
		if len(found[0].Changes) == 0 {
			t.Fatal("no change is suggested")
		}
	})
}

// Rounded corners, sharp tips and a narrow tongue are no necks.
func TestNoNeck(t *testing.T) {
	round, err := geom.Corners([]geom.Corner{
		{P: geom.Point{}, Radius: 1}, {P: geom.Point{X: 60}, Radius: 2}, {P: geom.Point{X: 60, Y: 40}, Radius: 3}, {P: geom.Point{Y: 40}, Radius: 0.5},
	})
	require.NoError(t, err)
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	for name, l := range map[string]geom.Loop{
		"rounded": round,
		"tip":     geom.Polygon(p(0, 0), p(100, 0), p(0, 30)),
		"blunt":   geom.Polygon(p(0, 0), p(100, 0), p(100, 1), p(0, 30)),
		"tongue":  geom.Polygon(p(0, 0), p(60, 0), p(60, 18), p(90, 18), p(90, 20), p(60, 20), p(60, 40), p(0, 40)),
		"notch":   geom.Polygon(p(0, 0), p(60, 0), p(60, 18), p(30, 18), p(30, 20), p(60, 20), p(60, 40), p(0, 40)),
		"disc":    geom.CircleLoop(geom.Circle{R: 30}),
	} {
		assert.Empty(t, of(plate(t, l), narrowNeck), name)
		assert.Empty(t, of(plate(t, l), partTooSmall), name)
	}
}

// The width told of a part that is too small is that of its largest disc.
func TestPartTooSmall(t *testing.T) {
	for _, w := range []float64{0.5, 2, 5.9} {
		found := of(plate(t, rectangle(80, w)), partTooSmall)
		require.Len(t, found, 1)
		assert.InDelta(t, w, found[0].Got, 1e-6)
		assert.InDelta(t, 6, found[0].Want, 1e-9)
	}
	assert.Empty(t, of(plate(t, rectangle(80, 6)), partTooSmall))
	assert.Empty(t, of(plate(t, geom.CircleLoop(geom.Circle{R: 3})), partTooSmall))
	assert.Len(t, of(plate(t, geom.CircleLoop(geom.Circle{R: 2.9})), partTooSmall), 1)
}

// read makes the blanks of a text by a profile.
func read(t *testing.T, text, profile string) []*blank.Blank {
	t.Helper()
	var set *profiles.Set
	if profile != "" {
		var err error
		set, err = profiles.ReadProfile("shop.yaml", []byte(profile))
		require.NoError(t, err)
	}
	p, err := describe.Parse("a.yaml", []byte(text))
	require.NoError(t, err)
	bs, err := blank.MakeWith(p, set)
	require.NoError(t, err)
	return bs
}

const shopHead = "part: a\nunits: mm\nplate: {thickness: 6, material: S275}\nprocess: air plasma\n"

// A profile's limits reach the rules, and their source is told.
func TestProfileReachesTheRules(t *testing.T) {
	gusset := shopHead + "outline:\n  gusset: {legs: [120, 90], toes: 7, snipe: 15}\n"
	assert.Empty(t, of(read(t, gusset, "")[0], gussetToe))
	found := of(read(t, gusset, "shop: {toe: 8 mm}\n")[0], gussetToe)
	require.Len(t, found, 1)
	assert.Contains(t, found[0].Source, "profile shop.yaml")

	tight := shopHead + "rules: shop\nholes: {a: {at: [20, 20], bolt: M12}}\noutline: {rectangle: {at: [50, 50], width: 100, height: 100}}\n"
	assert.Empty(t, of(read(t, tight, "")[0], edgeDistance), "1.5 d is 18 mm")
	found = of(read(t, tight, "shop: {edge factor: 2}\n")[0], edgeDistance)
	require.Len(t, found, 1)
	assert.InDelta(t, 24, found[0].Want, 1e-9)
	assert.Contains(t, found[0].Source, "the shop's own")

	hole := shopHead + "holes: {a: {at: [0, 0], diameter: 8}}\noutline: {disc: {diameter: 100}}\n"
	assert.Len(t, of(read(t, hole, "")[0], smallestHole), 1)
	assert.Empty(t, of(read(t, hole, "processes:\n  air plasma: {hole times: 1}\n")[0], smallestHole))
}

// A boss is told by its place on both hands.
func TestLostBossOnBothHands(t *testing.T) {
	bs := read(t, shopHead+"hand: pair\nholes:\n  eye: {at: [40, 0], diameter: 12}\n"+
		"outline:\n  tangent:\n    - {hole: eye, radius: 10}\n    - {at: [0, 0], radius: 60}\n    - {at: [-90, 0], radius: 20}\n", "")
	require.Len(t, bs, 2)
	for i, x := range []float64{40, -40} {
		found := of(bs[i], bossLost)
		require.Len(t, found, 1)
		assert.InDelta(t, x, found[0].Where.X, 1e-9)
		assert.Contains(t, found[0].Message, "its radius of 10.00 mm does nothing")
		require.Len(t, found[0].Changes, 2)
	}
}

// What a rewrite asks of a description that has no such entry is refused.
func TestRewriteWithoutAnEntry(t *testing.T) {
	b := read(t, shopHead+"outline: {disc: {diameter: 100}}\n", "")[0]
	for _, key := range []string{keySnipe, keyToes, keyBossRadius, keyBossOut, keyGap, keySpacer, keyLength, keyWashers, keySleeveBore, keySleeveWide, keyHow, "what"} {
		for _, item := range []int{0, 1, -1} {
			_, err := Change{Kind: Rewrite, Key: key, Item: item, To: 5}.Apply(b)
			assert.Error(t, err, "%s %d", key, item)
		}
	}
	b.Part = nil
	_, err := Change{Kind: Rewrite, Key: keyThickness, To: 5}.Apply(b)
	assert.Error(t, err)
}

// A gap on its limit is enough, a hundredth beyond it is told.
func TestJointLimitsAreMet(t *testing.T) {
	for _, c := range []struct {
		joint string
		want  int
	}{
		{"sleeve: {width: 60}, gap: 60.5", 0}, {"sleeve: {width: 60}, gap: 61", 0}, {"sleeve: {width: 60}, gap: 60.49", 1}, {"sleeve: {width: 60}, gap: 61.01", 1},
		{"sleeve: {width: 60}, gap: 60, held: bolted", 0}, {"sleeve: {width: 60}, gap: 60.5, held: bolted", 0},
		{"sleeve: {width: 60}, gap: 59.99, held: bolted", 1}, {"sleeve: {width: 60}, gap: 60.51, held: bolted", 1},
		{"sleeve: {width: 60}, gap: 63.8, spacer: 1.9, held: bolted", 0},
	} {
		b := read(t, shopHead+"holes: {a: {at: [0, 0], bolt: M12}}\noutline: {disc: {diameter: 100}}\njoints:\n  - {hole: a, "+c.joint+"}\n", "")[0]
		assert.Len(t, of(b, jointGap), c.want, c.joint)
	}
}
