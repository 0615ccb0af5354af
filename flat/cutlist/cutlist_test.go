package cutlist_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/cutlist"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/profiles"
	"blankwright/samples"
)

func made(t *testing.T, text string) []*blank.Blank {
	t.Helper()
	p, err := describe.Parse("part.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	bs, err := blank.Make(p)
	if err != nil {
		t.Fatal(err)
	}
	return bs
}

func sampleBlanks(t *testing.T) []*blank.Blank {
	t.Helper()
	var bs []*blank.Blank
	for _, s := range samples.List() {
		bs = append(bs, made(t, string(s.Text))...)
	}
	return bs
}

// Everything that is cut is in the list once, kind after kind, small to large,
// the outline last; every loop is the blank's own, begun elsewhere.
func TestOrderHoldsEverythingOnce(t *testing.T) {
	for _, b := range sampleBlanks(t) {
		cuts := cutlist.Order(b)
		seen := map[string]bool{}
		for i, c := range cuts {
			seen[c.Kind.String()+c.Name] = true
			if i > 0 && c.Kind < cuts[i-1].Kind {
				t.Errorf("%s: %s %s comes after a %s", b.Name, c.Kind, c.Name, cuts[i-1].Kind)
			}
			own := b.Outline
			switch c.Kind {
			case cutlist.Hole, cutlist.Slot:
				own = b.Holes[c.Index].AsCut()
				if i > 0 && cuts[i-1].Kind == c.Kind && b.Holes[cuts[i-1].Index].CutDia > b.Holes[c.Index].CutDia+1e-7 {
					t.Errorf("%s: %s is smaller than the one before", b.Name, c.Name)
				}
			case cutlist.Cutout:
				own = b.Cutouts[c.Index].Loop
			}
			at := slices.Index(c.Loop, own[0])
			if at < 0 || !slices.Equal(append(slices.Clone(c.Loop[at:]), c.Loop[:at]...), own) {
				t.Errorf("%s: the loop of %s is another", b.Name, c.Name)
			}
			if c.Round {
				if d := c.Start.Dist(c.Circle.C.Polar(c.Circle.R, c.Angle)); d > 1e-9 {
					t.Errorf("%s: start of %s is off its angle by %v", b.Name, c.Name, d)
				}
			} else if c.Start.Dist(c.Loop[0].A) > 1e-12 {
				t.Errorf("%s: %s does not begin at its start", b.Name, c.Name)
			}
		}
		n := 1 + len(b.Cutouts)
		for _, h := range b.Holes {
			if h.CutDia != 0 {
				n++
			}
		}
		if len(seen) != n || len(cuts) != n || cuts[n-1].Kind != cutlist.Outline {
			t.Errorf("%s: %d cuts, %d of them different, wanted %d", b.Name, len(cuts), len(seen), n)
		}
	}
}

const plate = `part: plate
quantity: 2
hand: pair
units: mm
plate: {thickness: 6, material: S235JR}
process: air plasma
holes:
  bolt: {at: [30, 40], diameter: 14}
  west: {at: [-85, 0], diameter: 20}
  wide: {at: [20, -20], diameter: 14, slot: {length: 30}}
outline:
  rectangle: {width: 240, height: 120, radius: 10}
cutouts:
  - corners: [[60, -40], [90, -40], [90, -10], [60, -10]]
`

// Each start stands where it is wanted: a hole's away from the nearest edge, the
// outline's at the end of a long side far from the holes.
func TestStarts(t *testing.T) {
	b := made(t, plate)[0]
	cuts := map[string]cutlist.Cut{}
	for _, c := range cutlist.Order(b) {
		cuts[c.Name] = c
	}
	// The bolt hole's nearest edge is above it, the west hole's on its left.
	if a := cuts["bolt"].Angle; math.Abs(a-3*math.Pi/2) > 1e-9 {
		t.Errorf("bolt starts at %v", a)
	}
	if a := cuts["west"].Angle; math.Abs(a) > 1e-9 {
		t.Errorf("west starts at %v", a)
	}
	// Long sides run from -110 to 110 at y = ±60; far from all holes is the
	// lower right end.
	if s := cuts["outline"].Start; s.Dist(geom.Point{X: 110, Y: -60}) > 1e-9 {
		t.Errorf("outline starts at %v", s)
	}
	if r := cuts["wide"].Room; r != 7 {
		t.Errorf("a slot 14 mm wide has room of %v", r)
	}
	if r := cuts["bolt"].Room; r != 7 {
		t.Errorf("a hole of 14 mm has room of %v", r)
	}
	if r := cuts["cutout-1"].Room; math.Abs(r-15*math.Sqrt2) > 1e-9 {
		t.Errorf("the corner of a window of 30 mm has room of %v", r)
	}
	if r := cuts["outline"].Room; !math.IsInf(r, 1) {
		t.Errorf("outside the outline there is room of %v", r)
	}
}

// In a narrow strip, away from one long edge would be towards the other: a hole
// begins along the strip.
func TestStartsInStrip(t *testing.T) {
	b := made(t, `
part: strip
units: mm
plate: {thickness: 6, material: S235}
process: fibre laser
holes:
  a: {at: [-30, 0.5], diameter: 9}
  b: {at: [30, 0], diameter: 12}
outline:
  rectangle: {width: 140, height: 26}
`)[0]
	for _, c := range cutlist.Order(b) {
		if c.Kind != cutlist.Hole {
			continue
		}
		if math.Abs(math.Sin(c.Angle)) > 1e-9 {
			t.Errorf("hole %s begins at %.1f deg, wanted along the strip", c.Name, c.Angle*180/math.Pi)
		}
	}
}

// A mirrored part is cut in the same order from the images of the starts.
func TestMirroredStarts(t *testing.T) {
	texts := []string{plate}
	for _, s := range samples.List() {
		if strings.Contains(string(s.Text), "hand: pair") {
			texts = append(texts, string(s.Text))
		}
	}
	if len(texts) < 3 {
		t.Fatalf("%d pairs", len(texts))
	}
	for _, text := range texts {
		bs := made(t, text)
		a, b := cutlist.Order(bs[0]), cutlist.Order(bs[1])
		for i := range a {
			if a[i].Name != b[i].Name || a[i].Start.X != -b[i].Start.X || a[i].Start.Y != b[i].Start.Y || a[i].Room != b[i].Room {
				t.Errorf("%s: %s starts at %v, its twin %s at %v", bs[0].Name, a[i].Name, a[i].Start, b[i].Name, b[i].Start)
			}
			if !a[i].Round && b[i].Loop[0].A != b[i].Start {
				t.Errorf("%s: the mirrored %s begins at %v, wanted %v", bs[0].Name, b[i].Name, b[i].Loop[0].A, b[i].Start)
			}
		}
	}
}

// The outline of a bent part is not begun on metal that is bent: here both ends of
// the longest edge would be.
func TestStartsOffBends(t *testing.T) {
	for _, b := range made(t, `part: apron
hand: pair
quantity: 2
units: mm
plate: {thickness: 3, material: S355MC}
process: fibre laser
holes:
  bolt: {at: [0, -30], diameter: 14}
outline: {rectangle: {width: 100, height: 80}}
bends: {radius: 3, rule: k 0.42}
flanges:
  a: {edge: back, height: 34, taper: 45 deg}
`) {
		cuts := cutlist.Order(b)
		out := cuts[len(cuts)-1]
		zone := b.Formed.Flat.Bends[0].Zone
		on := 0
		for _, s := range b.Outline {
			if zone.Contains(s.A) != geom.Outside {
				on++
			}
		}
		if on == 0 {
			t.Fatal("no corner lies on the bend")
		}
		if zone.Contains(out.Start) != geom.Outside {
			t.Errorf("%s: the outline begins on a bend, at %v", b.Hand, out.Start)
		}
	}
}

// Equal holes of a grid are gone through without a long way, few or many.
func TestRoute(t *testing.T) {
	for _, n := range []int{4, 15, 30} {
		b := made(t, fmt.Sprintf(`part: grid
units: mm
plate: {thickness: 3, material: S235JR}
process: fibre laser
holes:
  g: {grid: {at: [0, 0], columns: %d, rows: %d, pitch: [20, 20]}, diameter: 8}
outline:
  rectangle: {width: %d, height: %d}
`, n, n, 20*n+20, 20*n+20))[0]
		cuts := cutlist.Order(b)
		way := 0.0
		for i := 1; i < len(cuts)-1; i++ {
			way += cuts[i].Circle.C.Dist(cuts[i-1].Circle.C)
		}
		if least := float64(20 * (n*n - 1)); way > 1.3*least {
			t.Errorf("%d x %d holes: a way of %v, the least is %v", n, n, way, least)
		}
	}
}

// A ring begins between its holes, and where an outline folds back the room is
// half of the gap.
func TestRoom(t *testing.T) {
	ring := made(t, `part: ring
units: mm
plate: {thickness: 6, material: S235JR}
process: air plasma
holes:
  f: {circle: {at: [0, 0], diameter: 160, count: 4}, diameter: 12}
outline:
  ring: {outside: 200, inside: 60}
`)[0]
	for _, c := range cutlist.Order(ring) {
		if c.Kind == cutlist.Outline && math.Abs(c.Angle-math.Pi/4) > 1e-9 {
			t.Errorf("the ring begins at %v", c.Angle)
		}
	}
	// A disc with a gap 6 mm wide cut in from its side has its only straight edges
	// along the gap.
	rim := geom.Circle{R: math.Hypot(50, 3)}
	at := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	fork := &blank.Blank{Thickness: 6, Process: profiles.Process{Name: "air plasma"}, Outline: geom.Loop{
		geom.Arc(rim, at(50, 3), at(-50, -3), true), geom.Arc(rim, at(-50, -3), at(50, -3), true),
		geom.Line(at(50, -3), at(0, -3)), geom.Arc(geom.Circle{R: 3}, at(0, -3), at(0, 3), false), geom.Line(at(0, 3), at(50, 3))}}
	cuts := cutlist.Order(fork)
	tight, lead := cutlist.Tight(fork, cuts)
	if lead != 5 || len(tight) != 1 || tight[0].Start != at(0, -3) || math.Abs(tight[0].Room-3) > 1e-9 {
		t.Errorf("tight cuts %v, lead-in %v", tight, lead)
	}
	small := made(t, strings.Replace(plate, "diameter: 14", "diameter: 9.5", 1))[0]
	tight, _ = cutlist.Tight(small, cutlist.Order(small))
	if len(tight) != 1 || tight[0].Name != "bolt" || tight[0].Room != 4.75 {
		t.Errorf("tight cuts %v", tight)
	}
}

// Closed forms: a rectangle with round corners, a hole, a slot and a window.
func TestFigures(t *testing.T) {
	b := made(t, plate)[0]
	f := cutlist.Measure(b)
	length := 2*(220+100) + 2*math.Pi*10 + math.Pi*14 + math.Pi*20 + 2*16 + math.Pi*14 + 4*30
	area := 240*120 - (4-math.Pi)*100 - math.Pi*49 - math.Pi*100 - (16*14 + math.Pi*49) - 900
	if math.Abs(f.CutLength-length) > 1e-9 || math.Abs(f.Area-area) > 1e-8 || f.Pierces != 5 {
		t.Errorf("length %v, wanted %v; area %v, wanted %v; %d pierces", f.CutLength, length, f.Area, area, f.Pierces)
	}
	if want := area * 6 * 7850e-9; math.Abs(f.Mass-want) > 1e-12 {
		t.Errorf("mass %v, wanted %v", f.Mass, want)
	}
	r, _ := profiles.Default().Cutting("air plasma").Rate(6)
	if want := length/r.Feed*60 + 5*r.Pierce; math.Abs(f.Seconds-want) > 1e-9 || f.Source.Text == "" {
		t.Errorf("%v s, wanted %v", f.Seconds, want)
	}
	// Drilled holes are not cut, and no rates mean no time.
	b.Holes[0].CutDia, b.Process.Name = 0, "saw and drill"
	if g := cutlist.Measure(b); math.Abs(f.CutLength-g.CutLength-math.Pi*14) > 1e-9 || g.Area != f.Area || g.Pierces != 4 || g.Seconds != 0 {
		t.Errorf("with a drilled hole: %+v", g)
	}
}

// Two bosses of radius 30 and 15, 80 apart, with holes of 20 and 10 in 8 mm:
// worked out by hand from the belt's closed form.
func TestLinkPlate(t *testing.T) {
	f := cutlist.Measure(made(t, `part: link
units: mm
plate: {thickness: 8, material: S235JR}
process: fibre laser
holes:
  big: {at: [0, 0], diameter: 20}
  small: {at: [80, 0], diameter: 10}
outline:
  tangent:
    - {hole: big, radius: 30}
    - {hole: small, radius: 15}
`)[0])
	if math.Abs(f.CutLength-398.4403) > 5e-5 || math.Abs(f.Mass-0.31638) > 5e-6 || math.Abs(f.Area-5037.9154) > 5e-5 || f.Pierces != 3 {
		t.Errorf("%+v", f)
	}
}

func BenchmarkOrder(b *testing.B) {
	p, err := describe.Parse("part.yaml", []byte(plate))
	if err != nil {
		b.Fatal(err)
	}
	bs, err := blank.Make(p)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		cutlist.Order(bs[0])
	}
}
