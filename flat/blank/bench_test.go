package blank

import (
	"testing"

	"blankwright/flat/describe"
)

// bracket is a plate of 24 edges with four bolt holes: twelve corners, each
// rounded.
func bracket() *describe.Part {
	var cs []describe.Corner
	for i, p := range [][2]float64{
		{0, 0}, {120, 0}, {120, 40}, {90, 50}, {90, 80}, {80, 110},
		{40, 110}, {30, 80}, {30, 50}, {0, 40}, {-10, 30}, {-10, 10},
	} {
		cs = append(cs, describe.Corner{Pos: at(101 + i), At: xy(p[0], p[1]), Radius: mm(3)})
	}
	base := place(15, 20)
	return plate(describe.Shape{Corners: cs},
		hole("left", base, bolt("M12 8.8")),
		hole("right", place(100, 20), bolt("M12 8.8")),
		hole("pivot", place(60, 85), bolt("1/2-13 grade 8")),
		hole("keeper", place(60, 40), dia(11)))
}

func BenchmarkMakeBracket(b *testing.B) {
	p := bracket()
	bs, err := Make(p)
	if err != nil {
		b.Fatal(err)
	}
	if edges := len(bs[0].Outline); edges != 24 {
		b.Fatalf("the bracket has %d edges, want 24", edges)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMakePair(b *testing.B) {
	p := bracket()
	p.Hand, p.Quantity = word("pair"), n(2)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRegion(b *testing.B) {
	bs, err := Make(bracket())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		bs[0].Region()
	}
}

func BenchmarkFileBase(b *testing.B) {
	bs, err := Make(bracket())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		FileBase(bs[0], 0)
	}
}

// The axle link tab with its saddle, and the same with tabs on its base: one step
// of the kernel, and three.
func BenchmarkMakeSaddle(b *testing.B) {
	benchmarkDescribed(b, "")
}

func BenchmarkMakeSaddleAndTabs(b *testing.B) {
	benchmarkDescribed(b, "tabs:\n  - {at: [-36, -16], width: 5}\n  - {at: [36, -16], width: 5}\n")
}

func benchmarkDescribed(b *testing.B, tabs string) {
	p, err := describe.Parse("part.yaml", []byte(head+`holes:
  pivot: {at: [0, -95], bolt: 1/2-13 grade 8}
outline:
  tangent: [{hole: pivot, radius: 25.4}, {at: [-41, -20], radius: 4}, {at: [41, -20], radius: 4}]
cutouts:
  - {name: axle, saddle: {tube: 60.3, at: [0, 0], wrap: 110 deg}}
`+tabs))
	if err != nil {
		b.Fatal(err)
	}
	if _, err := Make(p); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(p); err != nil {
			b.Fatal(err)
		}
	}
}
