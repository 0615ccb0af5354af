package describe

import (
	"math"
	"reflect"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// withoutPlaces gives a deep copy of a part in which every place in the file is
// gone, so that two parts can be compared by their values.
func withoutPlaces[T any](p *T) *T {
	v := reflect.ValueOf(p)
	out := reflect.New(v.Type().Elem())
	copyWithoutPlaces(out.Elem(), v.Elem())
	out.Elem().FieldByName("File").SetString("")
	return out.Interface().(*T)
}

func copyWithoutPlaces(to, from reflect.Value) {
	if from.Type() == reflect.TypeFor[diag.Pos]() {
		return
	}
	switch from.Kind() {
	case reflect.Pointer:
		if !from.IsNil() {
			to.Set(reflect.New(from.Type().Elem()))
			copyWithoutPlaces(to.Elem(), from.Elem())
		}
	case reflect.Struct:
		for i := range from.NumField() {
			copyWithoutPlaces(to.Field(i), from.Field(i))
		}
	case reflect.Slice:
		if !from.IsNil() {
			to.Set(reflect.MakeSlice(from.Type(), from.Len(), from.Len()))
		}
		for i := range from.Len() {
			copyWithoutPlaces(to.Index(i), from.Index(i))
		}
	case reflect.Array:
		for i := range from.Len() {
			copyWithoutPlaces(to.Index(i), from.Index(i))
		}
	default:
		to.Set(from)
	}
}

// reprints fails where what Print writes of a part is not read back as the same
// values, or is printed differently the second time.
func reprints(t *testing.T, p *Part) {
	t.Helper()
	text := Print(p)
	q, err := Parse("printed", text)
	if err != nil {
		t.Fatalf("the printed text is refused: %v\n%s", err, text)
	}
	if a, b := withoutPlaces(p), withoutPlaces(q); !reflect.DeepEqual(a, b) {
		t.Fatalf("the printed text has other values\n%s\n%+v\n%+v", text, a, b)
	}
	if again := Print(q); string(again) != string(text) {
		t.Fatalf("printed twice, two texts\n%s\n%s", text, again)
	}
}

const everyKind = `part: 'medlar "no 2": plate'
revision: "#7"
quantity: 2 * n
hand: Pair
units: in
plate: {thickness: 11 ga steel sheet, material: A36}
process: air plasma
rules: EN 1993-1-8
edges: sheared
let: {n: 3, drop: 3-3/4, nose: 1, tilt: 10 deg + 0.1 rad}
note: "null"
holes:
  pivot: {at: [0, -drop], bolt: 1/2-13 grade 8, fit: close, standard: asme b18.2.8}
  keeper: {at: [1/3, -1], diameter: 5 mm, how: drill}
  adjust: {row: {from: [0, 0], to: [0, 4], count: n}, bolt: 1/2, slot: {kind: long, angle: tilt}}
  flange: {circle: {at: [9, 0], diameter: 4, count: 6, start: 30 deg}, bolt: M10, mirror: y}
  feet: {grid: {at: [0, 20], columns: 4, rows: 2, pitch: [1/3, 2 mm]}, drill: "#7", mirror: both}
  bore: {at: [2, 0], bore: 1.375, allow: press, how: ream}
  pin: {at: [2, 1], bore: 3/4, allow: -0.05 mm}
  -odd: {at: [2, 2], diameter: 1, slot: {length: 3, angle: -45 deg}}
  null: {at: [2, 2], diameter: 1}
  größe: {at: [2, 2], bore: 1}
  light: {at: [2, 3], diameter: 1, for: lightening}
add:
  - {name: ear, disc: {at: [0, 1/3], diameter: 2}}
  - corners: [[0, 0], {at: [1, 0], radius: 1/3}, [1, 1]]
  - {ring: {outside: 8, inside: 4}}
cutouts:
  - name: axle
    saddle: {tube: 60.3 mm, at: [0, 1/3], gap: 1 mm, wrap: 97.3 deg}
  - saddle: {tube: 2-3/8, at: [0, 0]}
  - tangent: [{hole: pivot, radius: 1}, {at: [3, 3], radius: 1/3, hollow: true}, {at: [9, 9], radius: 1, hollow: NO}]
  - {name: slit, gusset: {legs: 4}}
  - link plate: {through: [pivot, [0, 4]], width: 1.5}
tabs:
  - {name: left, at: [1/3, 2], width: 1, height: 6 mm, angle: tilt, relief: notch, relief radius: 1/32}
  - {at: [1, 2], width: 1, into: 11 ga steel sheet, relief: dog-bone}
  - {at: [1, 2], width: 1, relief: none}
tab slots:
  - {name: right, at: [1/3, 2], angle: -tilt, tab: 1, thickness: 6.4 mm, allowance: 0, relief: None}
  - {at: [1/3, 2], tab: 1, thickness: 1/4, relief radius: 1 mm}
axle: {motor: 70 lbf-ft, ratio: 11.2, efficiency: 1/3, tyre: 11.8, load: 540 kg, grip: 0.8, link: {arm: 150 mm}}
loads:
  - {at: pivot, from: drive, direction: tilt, shear: double, threads: out, as: pin, repeated: yes, factor: 1.6, case: "a: b"}
  - {at: [1/3, 2], on: [flange, feet.2], force: 1/3 kip, moment: -1 kip-in, direction: 1 rad, case: c}
  - {group: pivot, tension: 300 N, case: d, repeated: no}
  - {edge: axle, force: 2 kN, direction: 0 deg, case: d}
welds:
  - {name: seam, edge: axle, leg: 3/16, both sides: true, length: 2, electrode: E80, ends: 0}
  - {from: [0, 1/3], to: [2, 2], leg: 5 mm, both sides: No}
waive:
  - {rule: edge-distance, hole: adjust.2, reason: "a \\ and a \" and # and: more"}
  - {rule: spacing, hole: feet, reason: tested}
marks:
  - {text: name, at: auto}
  - {text: "this side: up", at: [1, 2]}
  - {text: auto}
outline:
`

var outlines = []string{
	"  tangent: [{hole: pivot, radius: nose}, {at: [-1.75, 0], radius: 1/4}, {hole: adjust.3, radius: 0.1}]",
	"  tangent: [{hole: pivot, radius: nose, hollow: no}, {at: [-1.75, 0], radius: 1/4, hollow: Yes}, {hole: adjust.3, radius: 0.1, waist: 1/3}]",
	"  corners: [[0, 0], {at: [1, 0], radius: 1/3}, {at: [1, 1], chamfer: 1/7}, {at: [0, 1], radius: 0}]",
	"  rectangle: {width: 10, height: 200 mm, radius: 1/3}",
	"  rectangle: {at: [1, 1], width: 10, height: 200 mm, chamfer: 0.3}",
	"  rectangle: {at: [0, 0], width: 10, height: 200 mm}",
	"  disc: {diameter: 8}",
	"  disc: {at: [1, 2], diameter: 8}",
	"  ring: {outside: 8, inside: 101.6001 mm}",
	"  gusset: {legs: 4}",
	"  gusset: {at: [1, 1], legs: [60 mm, 35 mm], angle: 77.7 deg, toes: [1/8, 0], snipe: 12 mm, snipe kind: round, hollow: 10}",
	"  link plate: {through: [pivot, [0, 4], adjust.2], width: 1.5}",
	"  link plate: {through: [pivot, {hole: bore}], width: [1, 2]}",
	"  link plate: {through: [{hole: pivot, radius: 1}, {at: [0, 4], radius: 2}]}",
}

func TestPrintReadsBack(t *testing.T) {
	for _, o := range outlines {
		p, err := Parse("part.yaml", []byte(everyKind+o+"\n"))
		if err != nil {
			t.Fatalf("%s\n%v", o, err)
		}
		reprints(t, p)
	}
}

// A part made by a program, without places and marks of what was given, prints
// as well.
func TestPrintOfAPartMadeByHand(t *testing.T) {
	p := &Part{
		Name: Word{Text: "tab"}, Process: Word{Text: "waterjet"},
		Plate:   Plate{Thickness: Length{MM: 6}, Material: Word{Text: "S355"}},
		Outline: Shape{Disc: &Disc{Diameter: Length{MM: 100.1}}},
	}
	want := `part: tab
plate: {thickness: 6 mm, material: S355}
process: waterjet
outline:
  disc: {diameter: 100.1 mm}
`
	if got := string(Print(p)); got != want {
		t.Errorf("printed\n%swanted\n%s", got, want)
	}
	if _, err := Parse("tab", Print(p)); err != nil {
		t.Error(err)
	}
}

// Any length and any angle prints as a text that reads back to the last bit, in
// files of either unit and of none.
func TestPrintIsLossless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.OneOf(
			rapid.Float64Range(-maxLength, maxLength),
			rapid.Map(rapid.IntRange(-64*500, 64*500), func(n int) float64 { return float64(n) / 64 * unit.MM }),
			rapid.Map(rapid.IntRange(-300, 0), func(n int) float64 { return math.Pow(10, float64(n)) }),
		).Draw(t, "length") + 0
		angle := rapid.OneOf(
			rapid.Float64Range(-2*math.Pi, 2*math.Pi),
			rapid.Map(rapid.IntRange(-360, 360), func(n int) float64 { return float64(n) * math.Pi / 180 }),
		).Draw(t, "angle") + 0
		units := rapid.SampledFrom([]unit.System{unit.Unset, unit.Millimetre, unit.Inch}).Draw(t, "units")
		p := &Part{
			Name: Word{Text: "tab"}, Process: Word{Text: "waterjet"}, Units: units,
			Plate: Plate{Thickness: Length{MM: 6}, Material: Word{Text: "S355"}},
			Holes: []HoleSet{{
				Name: Word{Text: "h"},
				Place: Place{Circle: &BoltCircle{
					At: Point{X: Length{MM: length}}, Diameter: Length{MM: 9}, Count: Count{N: 3},
					Start: Angle{Rad: angle, Set: true},
				}},
				Size: Size{Diameter: Length{MM: 3, Set: true}},
			}},
			Outline: Shape{Disc: &Disc{Diameter: Length{MM: 100}}},
		}
		text := Print(p)
		q, err := Parse("printed", text)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if c := q.Holes[0].Circle; c.At.X.MM != length || c.Start.Rad != angle {
			t.Fatalf("%v mm and %v rad came back as %v and %v\n%s", length, angle, c.At.X.MM, c.Start.Rad, text)
		}
	})
}

// Readings share nothing: many at once give what one alone gives.
func TestParseInParallel(t *testing.T) {
	want := string(Print(parse(t, axleTab)))
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 50 {
				if p, err := Parse("f", []byte(axleTab)); err != nil || string(Print(p)) != want {
					t.Error("another reading", err)
				}
				if _, err := Parse("f", []byte("pat: 1")); err == nil {
					t.Error("no error")
				}
			}
		})
	}
	wg.Wait()
}
