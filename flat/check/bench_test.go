package check

import (
	"math"
	"strconv"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/profiles"
)

// ordinaryBracket has an outline of 24 segments, 8 of them arcs, and 4 bolt
// holes, and meets all rules.
func ordinaryBracket(tb testing.TB) *blank.Blank {
	tb.Helper()
	corners := []geom.Corner{}
	at := func(x, y, r, ch float64) {
		corners = append(corners, geom.Corner{P: geom.Point{X: x, Y: y}, Radius: r, Chamfer: ch})
	}
	at(0, 0, 10, 0)
	at(60, 0, 0, 0)
	at(70, 4, 0, 0)
	at(90, 4, 0, 0)
	at(100, 0, 0, 0)
	at(160, 0, 10, 0)
	at(160, 60, 10, 0)
	at(130, 60, 10, 0)
	at(130, 120, 0, 8)
	at(100, 130, 0, 0)
	at(60, 130, 0, 0)
	at(30, 120, 0, 8)
	at(30, 60, 10, 0)
	at(15, 66, 0, 0)
	at(8, 66, 0, 0)
	at(0, 60, 10, 0)
	l, err := geom.Corners(corners)
	if err != nil {
		tb.Fatal(err)
	}
	bolt, err := profiles.FindBolt("M12 8.8")
	if err != nil {
		tb.Fatal(err)
	}
	if len(l) != 24 {
		tb.Fatalf("outline has %d segments, wanted 24", len(l))
	}
	b := plate(tb, l)
	for i, p := range []geom.Point{{X: 30, Y: 30}, {X: 130, Y: 30}, {X: 50, Y: 100}, {X: 110, Y: 100}} {
		b.Holes = append(b.Holes, boltHole("h"+strconv.Itoa(i+1), p, &bolt, 13.5))
	}
	return b
}

// plate is a blank of 6 mm steel on air plasma with the given outline.
func plate(tb testing.TB, l geom.Loop) *blank.Blank {
	tb.Helper()
	proc, err := profiles.FindProcess("air plasma")
	if err != nil {
		tb.Fatal(err)
	}
	return &blank.Blank{Part: &describe.Part{}, Name: "test plate", Thickness: 6, Process: proc, Outline: l}
}

func boltHole(name string, at geom.Point, bolt *profiles.Bolt, dia float64) blank.Hole {
	return blank.Hole{Name: name, Set: name, Purpose: blank.BoltHole, Centre: at, Dia: dia, CutDia: dia, Bolt: bolt}
}

func rectangle(w, h float64) geom.Loop {
	return geom.Polygon(geom.Point{}, geom.Point{X: w}, geom.Point{X: w, Y: h}, geom.Point{Y: h})
}

// perforated has n holes in a square grid at the given pitch; every other one
// takes a bolt.
func perforated(tb testing.TB, n int, pitch float64) *blank.Blank {
	tb.Helper()
	bolt, err := profiles.FindBolt("M12 8.8")
	if err != nil {
		tb.Fatal(err)
	}
	side := int(math.Ceil(math.Sqrt(float64(n))))
	size := float64(side+1) * pitch
	b := plate(tb, rectangle(size, size))
	for i := range n {
		h := boltHole("h."+strconv.Itoa(i+1), geom.Point{X: float64(i%side+1) * pitch, Y: float64(i/side+1) * pitch}, &bolt, 13.5)
		h.Set = "h"
		if i%2 == 1 {
			h.Purpose, h.Bolt = blank.PlainHole, nil
		}
		b.Holes = append(b.Holes, h)
	}
	return b
}

func BenchmarkBracket(b *testing.B) {
	part := ordinaryBracket(b)
	if got := len(Run(part)); got != 0 {
		b.Fatalf("%d findings, wanted none", got)
	}
	b.ReportAllocs()
	for b.Loop() {
		Run(part)
	}
}

func BenchmarkThousandHoles(b *testing.B) {
	part := perforated(b, 1000, 40)
	if got := len(Run(part)); got != 0 {
		b.Fatalf("%d findings, wanted none", got)
	}
	b.ReportAllocs()
	for b.Loop() {
		Run(part)
	}
}

// Every hole of the plate falls short by two rules.
func BenchmarkThousandHolesAllFailing(b *testing.B) {
	part := perforated(b, 1000, 16)
	for i := range part.Holes {
		part.Holes[i].Set = part.Holes[i].Name
	}
	if got := len(Run(part)); got < 1000 {
		b.Fatalf("%d findings, wanted 1000 and more", got)
	}
	b.ReportAllocs()
	for b.Loop() {
		Run(part)
	}
}

// A bracket with every hole too near an edge: the price of suggestions.
func BenchmarkBracketFailing(b *testing.B) {
	part := ordinaryBracket(b)
	for i := range part.Holes {
		part.Holes[i].Centre.Y += 22 - math.Mod(part.Holes[i].Centre.Y, 100)
	}
	b.ReportAllocs()
	for b.Loop() {
		Run(part)
	}
}

// An outline of 2,000 segments round 1,000 holes.
func BenchmarkLongOutline(b *testing.B) {
	part := perforated(b, 1000, 40)
	side := part.Outline[0].Length()
	var pts []geom.Point
	for _, s := range part.Outline {
		in := s.DirA().Perp().Mul(side / 200)
		for k := range 500 {
			p := s.At(float64(k) / 500)
			if k%2 == 1 {
				p = p.Sub(in)
			}
			pts = append(pts, p)
		}
	}
	part.Outline = geom.Polygon(pts...)
	part.Process.Kerf = 0 // each of its teeth is an inside corner
	if got := len(Run(part)); got != 0 {
		b.Fatalf("%d findings, wanted none", got)
	}
	b.ReportAllocs()
	for b.Loop() {
		Run(part)
	}
}
