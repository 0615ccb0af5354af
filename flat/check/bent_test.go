package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/fold"
)

const bentHead = "part: a\nunits: mm\nplate: {thickness: 4, material: S355MC}\nprocess: fibre laser\n"

// Whatever the bent part, each change that a finding suggests makes it go, on
// both hands.
func TestEveryFixHoldsOnBentParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(from, to float64, what string) float64 {
			return math.Round(rapid.Float64Range(from, to).Draw(t, what)*10) / 10
		}
		var b strings.Builder
		fmt.Fprintf(&b, "part: a\nunits: mm\nhand: pair\nplate: {thickness: %v, material: %s}\nprocess: fibre laser\n", f(1.5, 8, "thickness"), rapid.SampledFrom([]string{"S355MC", "S275", "A36", "304"}).Draw(t, "material"))
		fmt.Fprintf(&b, "outline: {rectangle: {width: %v, height: %v}}\n", f(120, 200, "width"), f(120, 160, "depth"))
		fmt.Fprintf(&b, "bends: {radius: %v, rule: k 0.4, grain: %v deg}\nholes: {base: {at: [%v, %v], diameter: %v}}\n", f(0, 10, "radius"), f(-90, 90, "grain"), f(-40, 40, "x"), f(-40, 40, "y"), f(8, 14, "hole"))
		if rapid.Bool().Draw(t, "relief") {
			fmt.Fprintf(&b, "relief: {width: %v}\n", f(0.5, 5, "relief width"))
		}
		angle := rapid.SampledFrom([]float64{90, 90, f(30, 100, "angle")}).Draw(t, "which angle")
		b.WriteString("flanges:\n")
		for _, edge := range []string{"front", "right", "left"} {
			fmt.Fprintf(&b, "  %s: {edge: %s, height: %v, angle: %v deg, offset: [%v, %v], holes: {%s-hole: {at: [%v, %v], bolt: M10}}}\n",
				edge, edge, f(20, 90, "height"), angle, f(25, 35, "left"), f(25, 35, "right"), edge, f(55, 65, "hole x"), f(10, 60, "hole y"))
		}
		b.WriteString("in line: [[left-hole, right-hole]]\n")
		p, err := describe.Parse("bent.yaml", []byte(b.String()))
		if err != nil {
			t.Fatal(err, b.String())
		}
		bs, err := blank.Make(p)
		if err != nil {
			return // a hole over an edge, a flange without room: told by the maker
		}
		for _, k := range bs {
			for _, r := range Results(k) {
				for _, ch := range r.Changes {
					after, err := ch.Apply(k)
					if err != nil {
						t.Fatalf("%s: %v\n%s", ch.Text, err, b.String())
					}
					if before, left := matters(k, r, ch), matters(after, r, ch); left >= before {
						t.Fatalf("%s: %s\nis not mended by: %s\n%s", r.Rule, r.Message, ch.Text, b.String())
					}
				}
			}
		}
	})
}

// The hole of the hanger is 3.7 mm from the bend at 20 mm, 11.7 at 28.
func TestHoleToBendOfTheHanger(t *testing.T) {
	for up, want := range map[string]float64{"20": 3.73, "28": 11.73} {
		b := read(t, "part: a\nunits: mm\nplate: {thickness: 3/16 in, material: S355MC}\nprocess: fibre laser\n"+
			"formed: {u: {inside width: 67.5, legs: 3 in, length: 80}}\nbends: {radius: 3/16 in, rule: k 0.42}\n"+
			"flanges: {left: {holes: {a: {at: [40, "+up+"], bolt: 1/2, fit: close}}}}\n", "")[0]
		c := newContext(b)
		_, near := c.bendRoom(&c.openings[0], 0, 0)
		assert.InDelta(t, want, near.d, 0.005)
		assert.Equal(t, "left", near.bend.Name)
	}
}

// An opening beside the end of a bend is measured to that end, and one on the far
// side of the line is worse than one on it.
func TestSetBackIsSigned(t *testing.T) {
	b := read(t, bentHead+"outline: {rectangle: {width: 120, height: 100}}\nbends: {radius: 4}\n"+
		"holes:\n  beside: {at: [-52, 45], diameter: 4}\n  inside: {at: [0, 0], diameter: 10}\nflanges: {f: {edge: left, height: 40, offset: [20, 20]}}\n", "")[0]
	c := newContext(b)
	root := b.Formed.Flat.Bends[0].Root
	_, near := c.bendRoom(&c.openings[0], 0, 0)
	want := math.Hypot(-52-root.A.X, 45-math.Max(root.A.Y, root.B.Y)) - 2
	assert.InDelta(t, want, near.d, 1e-9)
	_, near = c.bendRoom(&c.openings[1], 0, 0)
	assert.InDelta(t, -root.A.X-5, near.d, 1e-9)
	over := c.openings[1].moved(root.Mid().Sub(c.openings[1].at).Add(b.Formed.Flat.Bends[0].Out.Mul(3)))
	_, near = c.bendRoom(&over, 0, 0)
	assert.InDelta(t, -8, near.d, 1e-9)
}

// A flat part has no findings on bends, and none of the bend rules looks at it.
func TestFlatPartsHaveNoBends(t *testing.T) {
	b := ordinaryBracket(t)
	for _, k := range []*Check{bendRadius, grain, holeToBend, flangeLength, bendRelief, holesInLine, foldBack, foldCollision, bendOrder, springback, bendForce, airBendRadius} {
		assert.Empty(t, of(b, k), k.ID)
	}
}

// The limits are met on the limit: a radius, a height and a hole exactly there.
func TestBendLimitsAreMet(t *testing.T) {
	make := func(radius, height, hole string) *blank.Blank {
		return read(t, bentHead+"outline: {rectangle: {width: 120, height: 100}}\nbends: {radius: "+radius+"}\n"+
			"flanges: {f: {edge: left, height: "+height+", holes: {h: {at: [50, "+hole+"], diameter: 10}}}}\n", "")[0]
	}
	// S355MC of 4 mm: 0.5 T; a die of 32 mm: 22.4 mm; R + T + 2 T + half the hole.
	assert.Empty(t, of(make("2", "40", "25"), bendRadius))
	assert.Len(t, of(make("1.99", "40", "25"), bendRadius), 1)
	assert.Empty(t, of(make("4", "22.4", "15"), flangeLength))
	assert.Len(t, of(make("4", "22.39", "15"), flangeLength), 1)
	fs := of(make("4", "40", "21"), holeToBend)
	require.Len(t, fs, 1)
	assert.Contains(t, fs[0].Message, "is preferred")
	fs = of(make("4", "40", "20.99"), holeToBend)
	require.Len(t, fs, 1)
	assert.Contains(t, fs[0].Message, "(2 T)")
}

// Holes whose axes lean are told, and no move is suggested.
func TestLeaningAxes(t *testing.T) {
	b := read(t, bentHead+"outline: {rectangle: {width: 120, height: 100}}\nbends: {radius: 4}\nflanges:\n"+
		"  l: {edge: left, height: 40, holes: {a: {at: [50, 25], diameter: 10}}}\n  r: {edge: right, height: 40, angle: 80 deg, holes: {b: {at: [50, 25], diameter: 10}}}\nin line: [[a, b]]\n", "")[0]
	fs := of(b, holesInLine)
	require.Len(t, fs, 1)
	assert.Contains(t, fs[0].Message, "lean by 10 degrees")
	assert.Empty(t, fs[0].Changes)
}

// A waiver may name a flange.
func TestWaiverOfAFlange(t *testing.T) {
	b := read(t, bentHead+"formed: {l: {legs: [60, 12], length: 50}}\nbends: {radius: 4, rule: k 0.4}\nwaive: [{rule: flange-length, hole: leg, reason: folded by hand}]\n", "")[0]
	fs := of(b, flangeLength)
	require.Len(t, fs, 1)
	assert.Equal(t, "folded by hand", fs[0].Waived)
	assert.Contains(t, strings.Join(Assumptions(b), "\n"), `the bend of flange "leg" takes`)
	assert.Contains(t, strings.Join(Unchecked(b), "\n"), "bending:")
}

// Another mistake in the flat is found whatever it is: an allowance, a hole, an
// angle.
func TestFoldBackFindsMistakes(t *testing.T) {
	b := read(t, bentHead+"formed: {u: {width: 80, legs: 40, length: 50}}\nbends: {radius: 4, rule: k 0.4}\nflanges: {left: {holes: {h: {at: [25, 22], diameter: 6}}}}\n", "")[0]
	for name, spoil := range map[string]func(f *fold.Flat){
		"radius": func(f *fold.Flat) { f.Bends[1].Bend.R += 0.1 },
		"hole":   func(f *fold.Flat) { f.Holes[0].At.X += 0.1 },
	} {
		bad := *b
		formed := *b.Formed
		flat := *b.Formed.Flat
		flat.Bends = append([]fold.Bend(nil), flat.Bends...)
		flat.Holes = append([]fold.FlatHole(nil), flat.Holes...)
		spoil(&flat)
		formed.Flat, bad.Formed = &flat, &formed
		assert.NotEmpty(t, of(&bad, foldBack), name)
	}
}
