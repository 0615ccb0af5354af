package strength

import (
	"testing"

	"blankwright/flat/geom"
)

var sinkResult Result
var sinkCentre Centre

// A pin plate and its bolt by AISC and EN, all modes.
func BenchmarkPinPlateAndBolt(b *testing.B) {
	p := PinPlate{T: 6.35, Width: 50.8, Pin: 12.7, Hole: 13.5, End: 18.65, Side1: 18.65, Side2: 18.65, Fy: 248, Fu: 400}
	h := HoleBearing{D: 12.7, T: 6.35, Fu: 400, Clear: 18.65}
	s := ThreadedPart(1034)
	a := AISC{Units: Inch}
	var e EN1993
	b.ReportAllocs()
	for b.Loop() {
		pp := a.PinPlate(p)
		r := Least(pp.Governs(), a.BoltHole(h), a.BoltShear(12.7, s, Planes{Thread: 2}), a.BoltTensionShear(12.7, s, s.ShearThread, 100))
		pin := e.Pin(PinJoint{Pin: 12.7, Hole: 13.5, Middle: 50, Outer: 6.35, Gap: 0.5, PinFy: 896, PinFu: 1034, Fy: 248})
		sinkResult = Least(r, pin.Shear, pin.BearingMiddle, pin.BearingOuter)
	}
}

// Twelve bolts under an eccentric load at a slant.
func BenchmarkInstantCentre12(b *testing.B) {
	bolts, forces := grid(3, 4, 76.2, 76.2), make([]geom.Point, 0, 12)
	load := PlaneLoad{F: pt(3000, -9000), At: pt(250, 40)}
	b.ReportAllocs()
	for b.Loop() {
		c, err := InstantCentre(bolts, load, forces)
		if err != nil {
			b.Fatal(err)
		}
		sinkCentre = c
	}
}

// The worst case of the search: a bolt that all but sits on the centre.
func BenchmarkInstantCentreOnABolt(b *testing.B) {
	bolts, forces := grid(3, 5, 76.2, 76.2), make([]geom.Point, 0, 15)
	load := PlaneLoad{F: pt(0, -1e-3), At: pt(250, 40), M: 1e6}
	b.ReportAllocs()
	for b.Loop() {
		c, err := InstantCentre(bolts, load, forces)
		if err != nil {
			b.Fatal(err)
		}
		sinkCentre = c
	}
}

func BenchmarkElasticGroup12(b *testing.B) {
	bolts, forces := grid(3, 4, 76.2, 76.2), make([]geom.Point, 0, 12)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ElasticGroup(bolts, PlaneLoad{F: pt(3000, -9000), At: pt(250, 40)}, forces); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSection(b *testing.B) {
	r := drilled()
	pieces := make([]Piece, 0, 8)
	b.ReportAllocs()
	for b.Loop() {
		SectionOf(Cut(r, pt(0, 30), pt(1, 0), Through, pieces), 6)
	}
}

func BenchmarkWeldPeak(b *testing.B) {
	welds := append(geom.CircleLoop(geom.Circle{R: 30}), straight(-50, 0, -50, 100)...)
	b.ReportAllocs()
	for b.Loop() {
		w, err := ElasticWeld(welds, SpaceLoad{F: pt(3000, -9000), At: pt(250, 40), Height: 30})
		if err != nil {
			b.Fatal(err)
		}
		w.Peak(welds)
	}
}

func BenchmarkChain1000(b *testing.B) {
	var holes []ChainHole
	for i := range 1000 {
		holes = append(holes, ChainHole{pt(float64(i%40)*30, float64(i/40)*30+float64(i%2)*15), 14})
	}
	chain := make([]int, 0, 64)
	b.ReportAllocs()
	for b.Loop() {
		WeakestChain(pt(1, 0), 800, holes, chain)
	}
}

func BenchmarkFormula(b *testing.B) {
	r := AISC{}.BoltHole(HoleBearing{D: 12.7, T: 6.35, Fu: 400, Clear: 18.65})
	buf := make([]byte, 0, 256)
	b.ReportAllocs()
	for b.Loop() {
		r.AppendFormula(buf, Inch)
	}
}
