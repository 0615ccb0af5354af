package drawing_test

import (
	"runtime"
	"testing"

	"blankwright/flat/drawing"
	"blankwright/flat/geom"
)

// nestOfPlates is a drawing of n entities: plates of lines and arcs with holes,
// side by side. step lays them out; places are the decimals.
func nestOfPlates(n, places int) *sheet {
	s := &sheet{places: places}
	hole := geom.CircleLoop(geom.Circle{C: pt(12, 38), R: 6.75})
	slot := geom.Slot(pt(20, 20), pt(35, 28), 9)
	per := len(cradle()) + len(slot) + 1
	for i := 0; i*per < n; i++ {
		m := geom.Translate(float64(i%100)*100, float64(i/100)*60)
		s.loop("OUTLINE", cradle().Transform(m))
		s.loop("SLOTS", slot.Transform(m))
		s.loop("HOLES", hole.Transform(m))
	}
	return s
}

// grille is one plate with n holes.
func grille(n int) *sheet {
	s := &sheet{}
	s.loop("0", rectangle(0, 0, 6000, 3000))
	for i := range n {
		s.circle("0", pt(5+float64(i%500)*11.9, 5+float64(i/500)*13), 4)
	}
	return s
}

func benchmarkInspect(b *testing.B, text []byte) {
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	var regions int
	for b.Loop() {
		d, err := drawing.Read("bench.dxf", text, drawing.Options{})
		if err != nil {
			b.Fatal(err)
		}
		m := drawing.Mend(drawing.Assemble(d, 0))
		regions = len(m.Regions)
	}
	b.ReportMetric(float64(regions), "regions")
}

func BenchmarkInspect100k(b *testing.B)       { benchmarkInspect(b, nestOfPlates(100_000, 0).text()) }
func BenchmarkInspect100kCoarse(b *testing.B) { benchmarkInspect(b, nestOfPlates(100_000, 5).text()) }
func BenchmarkInspect100kGrille(b *testing.B) { benchmarkInspect(b, grille(100_000).text()) }

func BenchmarkRead100k(b *testing.B) {
	text := nestOfPlates(100_000, 0).text()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := drawing.Read("bench.dxf", text, drawing.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAssemble100k(b *testing.B) {
	d, err := drawing.Read("bench.dxf", nestOfPlates(100_000, 0).text(), drawing.Options{})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		drawing.Assemble(d, 0)
	}
}

func BenchmarkMend100k(b *testing.B) {
	d, err := drawing.Read("bench.dxf", nestOfPlates(100_000, 0).text(), drawing.Options{})
	if err != nil {
		b.Fatal(err)
	}
	a := drawing.Assemble(d, 0)
	b.ReportAllocs()
	for b.Loop() {
		drawing.Mend(a)
	}
}

func BenchmarkBracket(b *testing.B) { benchmarkInspect(b, nestOfPlates(10, 0).text()) }

// BenchmarkPeak100k reports the memory that is in use at the end of the work.
func BenchmarkPeak100k(b *testing.B) {
	text := nestOfPlates(100_000, 0).text()
	var live uint64
	for b.Loop() {
		d, err := drawing.Read("bench.dxf", text, drawing.Options{})
		if err != nil {
			b.Fatal(err)
		}
		a := drawing.Assemble(d, 0)
		m := drawing.Mend(a)
		var s runtime.MemStats
		runtime.ReadMemStats(&s)
		live = max(live, s.Sys)
		runtime.KeepAlive(m)
		runtime.KeepAlive(a)
	}
	b.ReportMetric(float64(live)/(1<<20), "MiB-from-system")
}
