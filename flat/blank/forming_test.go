package blank

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
)

func bentPart(t testing.TB, text string) []*Blank {
	t.Helper()
	p, err := describe.Parse("bent.yaml", []byte(text))
	require.NoError(t, err, text)
	bs, err := Make(p)
	require.NoError(t, err, text)
	return bs
}

const hanger = `part: formed u hanger
units: in
plate: {thickness: 3/16, material: S355MC}
process: air plasma
formed: {u: {inside width: 67.5 mm, legs: 3, length: 80 mm}}
bends: {radius: 3/16, rule: %s}
flanges:
  left:  {holes: {a: {at: [40 mm, 28 mm], bolt: 1/2, fit: close}}}
  right: {holes: {b: {at: [40 mm, 28 mm], bolt: 1/2, fit: close}}}
in line: [[a, b]]
`

// The hanger's flat is 212.57 mm long by K 0.42, by hand: two legs of 76.2 less
// R + T, an inside of 67.5 less two radii, and two arcs of pi/2 (R + K T); hole to
// hole 116.2 mm. A typed deduction of 8.427 mm gives the same.
func TestFlatOfTheHanger(t *testing.T) {
	const in = 25.4
	T := 3.0 / 16 * in
	ba := math.Pi / 2 * (T + 0.42*T)
	for rule, want := range map[string]float64{
		"k 0.42":             2*(76.2-2*T) + 67.5 - 2*T + 2*ba,
		"table":              2*(76.2-2*T) + 67.5 - 2*T + 2*ba,
		"deduction 8.427 mm": 2*76.2 + 67.5 + 2*T - 2*8.427,
		"allowance 10 mm":    2*(76.2-2*T) + 67.5 - 2*T + 20,
		"din 6935":           2*(76.2-2*T) + 67.5 - 2*T + math.Pi*(T+0.65/2*T),
		"aircraft":           2*(76.2-2*T) + 67.5 - 2*T + 2*90*(0.01743*T+0.0078*T),
	} {
		b := bentPart(t, fmt.Sprintf(hanger, rule))[0]
		box := b.Outline.Bounds()
		assert.InDelta(t, want, box.Width(), 1e-9, rule)
		assert.InDelta(t, 80, box.Height(), 1e-9, rule)
		if rule == "k 0.42" {
			assert.InDelta(t, 212.57, box.Width(), 0.005)
			assert.InDelta(t, 116.2, b.Holes[0].Centre.Dist(b.Holes[1].Centre), 0.05)
		}
		for _, d := range b.Formed.Flat.Fold().Dims() {
			assert.True(t, d.Holds(), "%s: %s %v, want %v", rule, d.Name, d.Got, d.Want)
		}
		for _, l := range b.Formed.Flat.Fold().InLine() {
			assert.True(t, l.Holds(), "%s: %+v", rule, l)
		}
		notes := strings.Join(b.Notes, "\n")
		assert.Contains(t, notes, "bends of flanges left, right: up 90 degrees")
	}
}

// A hole of a flange stays a circle, and lies where its flange's coordinates say.
func TestFlangeHolesAreCarriedExactly(t *testing.T) {
	b := bentPart(t, fmt.Sprintf(hanger, "k 0.42"))[0]
	for i, h := range b.Holes {
		c, ok := h.Finished().Circle()
		require.True(t, ok)
		assert.Equal(t, h.Centre, c.C)
		assert.Equal(t, i+1, h.Panel)
		name, to := b.Formed.Panel(&h)
		assert.Equal(t, []string{"left", "right"}[i], name)
		assert.InDelta(t, 0, to.Apply(geom.Point{X: 40, Y: 28}).Dist(h.Centre), 1e-12)
		flat, ok := b.Formed.Flat.Hole(h.Name)
		require.True(t, ok)
		assert.Equal(t, flat.At, h.Centre)
	}
}

// A slot on a flange is turned along with it.
func TestSlotOnAFlange(t *testing.T) {
	b := bentPart(t, "part: a\nunits: mm\nplate: {thickness: 3, material: S355MC}\nprocess: fibre laser\n"+
		"outline: {rectangle: {width: 80, height: 60}}\nbends: {radius: 3}\nflanges:\n"+
		"  f: {edge: left, height: 40, holes: {s: {at: [30, 25], diameter: 8, slot: {length: 20}}}}\n")[0]
	h := b.Holes[0]
	assert.InDelta(t, math.Pi/2, h.Angle, 1e-12, "along the edge, which runs upright in the flat")
	flat, _ := b.Formed.Flat.Hole("s")
	assert.InDelta(t, 0, geom.LoopLoop(flat.Loop, h.Finished()).D, 1e-9)
	assert.InDelta(t, math.Abs(flat.Loop.Area()), h.Finished().Area(), 1e-9)
	assert.InDelta(t, flat.Loop.Bounds().Width(), h.Finished().Bounds().Width(), 1e-9)
}

// Cutouts, saddles and tabs of the base keep their place and their edges.
func TestBaseKeepsItsEdges(t *testing.T) {
	bs := bentPart(t, `part: tab
units: mm
hand: pair
plate: {thickness: 4, material: S355MC}
process: fibre laser
outline: {rectangle: {width: 120, height: 100}}
cutouts:
  - {name: axle, saddle: {tube: 60.3, at: [0, 50], gap: 0.8}}
  - {name: window, rectangle: {at: [0, -10], width: 20, height: 12, radius: 2}}
tabs: [{name: tongue, at: [0, -50], width: 30, height: 4}]
bends: {radius: 4}
flanges:
  side: {edge: left, height: 30, offset: [15, 15]}
welds: [{name: seam, edge: axle, leg: 3}]
`)
	require.Len(t, bs, 2)
	for _, b := range bs {
		require.Len(t, b.Cutouts, 1)
		require.Len(t, b.Edges, 2)
		for _, e := range b.Edges {
			require.NotEmpty(t, e.Segs, e.Name)
			for _, k := range e.Segs {
				s := b.Outline[k]
				if e.Role == SaddleEdge {
					assert.InDelta(t, 0, s.Circle().C.Dist(e.Saddle.Circle.C), 1e-9)
				}
			}
		}
		require.NoError(t, b.Region().Validate())
		assert.Len(t, b.Welds, 1)
	}
}

// Random brackets by their descriptions: what is folded has the dimensions that
// were given, the volume at the neutral line is that of the flat, and the mirrored
// hand is the image of the one as drawn and folds as well.
func TestRandomBracketsFoldBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(from, to float64, what string) float64 { return rapid.Float64Range(from, to).Draw(t, what) }
		thick := f(1, 6, "thickness")
		var b strings.Builder
		fmt.Fprintf(&b, "part: a\nunits: mm\nhand: pair\nplate: {thickness: %v, material: S355MC}\nprocess: fibre laser\n", thick)
		fmt.Fprintf(&b, "outline: {rectangle: {at: [%v, %v], width: %v, height: %v}}\n", f(-50, 50, "x"), f(-50, 50, "y"), f(150, 250, "width"), f(120, 200, "depth"))
		rule := rapid.SampledFrom([]string{"table", "k 0.38", "din 6935", "aircraft"}).Draw(t, "rule")
		fmt.Fprintf(&b, "bends: {radius: %v, rule: %s}\nflanges:\n", f(1, 10, "radius"), rule)
		refs := []string{"outside", "inside", "tangent"}
		for _, edge := range []string{"front", "right", "back", "left"} {
			if edge != "front" && !rapid.Bool().Draw(t, edge) {
				continue
			}
			fmt.Fprintf(&b, "  %s: {edge: %s, edge is: %s, height: %v, measured: %s, angle: %v deg, turn: %s, offset: [%v, %v], taper: %v deg, holes: {%s-hole: {at: [60, %v], diameter: 7}}}\n",
				edge, edge, rapid.SampledFrom(refs).Draw(t, "edge is"), f(50, 70, "height"), rapid.SampledFrom(refs).Draw(t, "measured"), f(5, 110, "angle"),
				rapid.SampledFrom([]string{"up", "down"}).Draw(t, "turn"), f(35, 45, "left"), f(35, 45, "right"), f(-5, 10, "taper"), edge, f(36, 38, "hole"))
		}
		p, err := describe.Parse("bent.yaml", []byte(b.String()))
		if err != nil {
			t.Fatal(err, b.String())
		}
		if len(p.Flanges) == 0 {
			return
		}
		bs, err := Make(p)
		if err != nil {
			t.Fatal(err, b.String())
		}
		for _, k := range bs {
			g := k.Formed.Flat.Fold()
			for _, d := range g.Dims() {
				if math.Abs(d.Got-d.Want) > 1e-6 {
					t.Fatalf("%s: %s is %v, want %v\n%s", k.Hand, d.Name, d.Got, d.Want, b.String())
				}
			}
			flat := k.Outline.Area()
			for i := range k.Holes {
				flat -= k.Holes[i].Finished().Area()
			}
			if v := g.Volume(); math.Abs(v-flat*thick) > 1e-6*v {
				t.Fatalf("volume %v, flat %v\n%s", v, flat*thick, b.String())
			}
		}
		image := bs[0].Outline.Transform(geom.MirrorY())
		for i := range image {
			if image[i].A != bs[1].Outline[i].A {
				t.Fatalf("the mirrored flat is no image at %v", image[i].A)
			}
		}
	})
}

// What needs a description says so at its place.
func TestBentProblems(t *testing.T) {
	head := "part: a\nunits: mm\nplate: {thickness: 3, material: S355MC}\nprocess: fibre laser\n"
	for text, want := range map[string]string{
		"formed: {u: {width: 5, legs: 30, length: 40}}\nbends: {radius: 3}\n":                                                                                 "bent.yaml:5:",
		"formed: {u: {width: 50, legs: 30, length: 40}}\n":                                                                                                    "nothing says what inside radius",
		"formed: {u: {width: 50, legs: 30, length: 40}}\nbends: {radius: 3, rule: deduction 90}\n":                                                            "does not fit",
		"outline: {rectangle: {width: 80, height: 60}}\nbends: {radius: 3}\nflanges:\n  a: {edge: left, height: 30}\n  b: {on: c, edge: end, height: 30}\n":   `bent.yaml:9:11: error: flange b stands on "c", which there is not`,
		"outline: {rectangle: {width: 80, height: 60}}\nbends: {radius: 3}\nrelief: {shape: none}\nflanges:\n  a: {edge: left, height: 30, offset: [5, 5]}\n": "has no relief",
		"outline: {rectangle: {width: 80, height: 60}}\nbends: {radius: 3}\nholes: {h: {at: [0, 0], diameter: 5}}\nflanges:\n  a: {edge: left, height: 30, holes: {k: {at: [20, 20], diameter: 5}}}\nin line: [[h, k]]\nwelds: [{name: s, from: [0, 0], to: [1, 1], leg: 3}]\n": "",
	} {
		p, err := describe.Parse("bent.yaml", []byte(head+text))
		require.NoError(t, err, text)
		bs, err := Make(p)
		if want == "" {
			continue
		}
		require.Error(t, err, text)
		assert.Nil(t, bs)
		assert.Contains(t, err.Error(), want, text)
	}
}

func BenchmarkMakeBent(b *testing.B) {
	p, err := describe.Parse("bent.yaml", []byte(fmt.Sprintf(hanger, "k 0.42")))
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(p); err != nil {
			b.Fatal(err)
		}
	}
}

// Every form, by every way to measure it, folds to what was asked, and its own
// measures come back in space: over all for outside ones.
func TestForms(t *testing.T) {
	head := "part: a\nunits: mm\nplate: {thickness: 3, material: S355MC}\nprocess: fibre laser\nbends: {radius: 4, rule: k 0.4}\n"
	for text, over := range map[string][3]float64{
		"l: {legs: [50, 40], length: 60}":                                                        {50, 60, 40},
		"u: {width: 70, legs: [50, 40], length: 60}":                                             {70, 60, 50},
		"u: {inside width: 64, legs: [47, 37], length: 60, measured: inside}":                    {70, 60, 50},
		"u: {width: 70, legs: [43, 33], length: 60, measured: tangent}":                          {70, 60, 50},
		"z: {feet: [30, 25], web: 50, length: 60}":                                               {30 + 25 - 3, 60, 50},
		"hat: {width: 60, web: 45, feet: [25, 30], length: 80}":                                  {60 + 25 + 30 - 6, 80, 45},
		"box: {width: 90, depth: 70, height: 40}":                                                {90, 70, 40},
		"box: {inside width: 84, inside depth: 64, height: 40, joint: corner to corner, gap: 1}": {90, 70, 40},
	} {
		b := bentPart(t, head+"formed: {"+text+"}\n")[0]
		g := b.Formed.Flat.Fold()
		for _, d := range g.Dims() {
			assert.True(t, d.Holds(), "%s: %s is %v, want %v", text, d.Name, d.Got, d.Want)
		}
		assert.Empty(t, g.Collisions(), text)
		box := g.Box()
		s := box.Max.Sub(box.Min)
		assert.InDelta(t, over[0], s.X, 1e-9, text)
		assert.InDelta(t, over[1], s.Y, 1e-9, text)
		assert.InDelta(t, over[2], s.Z, 1e-9, text)
		require.NoError(t, b.Region().Validate())
	}
	for _, corner := range []string{"none", "square", "round"} {
		bentPart(t, head+"formed: {box: {width: 90, depth: 70, height: 40}}\ncorner relief: {shape: "+corner+"}\n")
	}
}

// Each hand is told how to lie on the plate by its own angle.
func TestGrainOfBothHands(t *testing.T) {
	head := "part: a\nunits: mm\nhand: pair\nplate: {thickness: 3, material: S355MC}\nprocess: fibre laser\nformed: {l: {legs: [50, 40], length: 60}}\nbends: {radius: 4, grain: %s deg}\n"
	for grain, want := range map[string][2]string{"30": {"30", "150"}, "-30": {"150", "30"}, "0": {"0", "0"}, "180": {"0", "0"}, "90": {"90", "90"}} {
		for i, b := range bentPart(t, fmt.Sprintf(head, grain)) {
			assert.Contains(t, strings.Join(b.Notes, "\n"), "rolled at "+want[i]+" degrees to the x axis", "%s, %s", grain, b.Hand)
		}
	}
	for _, b := range bentPart(t, strings.Replace(head, ", grain: %s deg", "", 1)) {
		assert.NotContains(t, strings.Join(b.Notes, "\n"), "rolled")
	}
}
