package describe

import (
	"fmt"
	"strings"
	"testing"

	"blankwright/flat/diag"
)

// bracket is a description of an ordinary size: 24 corners, 4 holes.
func bracket() string {
	var b strings.Builder
	b.WriteString(`part: motor bracket
revision: B
quantity: 2
hand: pair
units: in
plate: {thickness: 1/4, material: A36}
process: air plasma
let: {drop: 3-3/4, nose: 1}
holes:
  pivot:  {at: [0, -drop], bolt: 1/2-13 grade 8, fit: normal}
  keeper: {at: [1-1/4, -1], diameter: 5 mm}
  left:   {at: [-2, 1], bolt: 3/8}
  right:  {at: [2, 1], bolt: 3/8, slot: {length: 1, angle: 15 deg}}
outline:
  corners:
`)
	for i := range 24 {
		fmt.Fprintf(&b, "    - {at: [%d-1/4, -%d.5], radius: 1/4}\n", i+1, i)
	}
	b.WriteString("marks:\n  - {text: name, at: auto}\n")
	return b.String()
}

func BenchmarkParse(b *testing.B) {
	text := []byte(bracket())
	b.ReportAllocs()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := Parse("bracket.yaml", text); err != nil {
			b.Fatal(err)
		}
	}
}

// The steps of a reading: characters, tree, values.

func BenchmarkScreen(b *testing.B) {
	text := []byte(bracket())
	b.ReportAllocs()
	for b.Loop() {
		if _, _, bad := screen("f", text); bad != nil {
			b.Fatal(bad)
		}
	}
}

func BenchmarkTreeQuick(b *testing.B) {
	text := bracket()
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := readQuick(text, true); !ok {
			b.Fatal("not read")
		}
	}
}

func BenchmarkTreeLibrary(b *testing.B) {
	text := bracket()
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := readFull("f", text); problems != nil {
			b.Fatal(problems)
		}
	}
}

func BenchmarkValues(b *testing.B) {
	text := bracket()
	root, _ := readQuick(text, true)
	b.ReportAllocs()
	for b.Loop() {
		r := &reader{file: "f", text: text, ascii: true}
		r.part(root)
		if len(r.problems) > 0 {
			b.Fatal(r.problems)
		}
	}
}

func BenchmarkParseManyHoles(b *testing.B) {
	var t strings.Builder
	t.WriteString("part: plate\nunits: mm\nplate: {thickness: 6, material: S355}\nprocess: waterjet\noutline: {rectangle: {width: 4000, height: 2000}}\nholes:\n")
	for i := range 1000 {
		fmt.Fprintf(&t, "  h%d: {at: [%d, %d], diameter: 12.5}\n", i, i%100*30, i/100*30)
	}
	text := []byte(t.String())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse("f", text); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPrint(b *testing.B) {
	p, err := Parse("f", []byte(bracket()))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		Print(p)
	}
}

func BenchmarkProblems(b *testing.B) {
	text := []byte(strings.ReplaceAll(bracket(), "radius", "raduis"))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse("f", text); err == nil || len(err.(diag.Problems)) != 24 {
			b.Fatal(err)
		}
	}
}
