package paper

import (
	"math"
	"math/rand/v2"
	"testing"

	"blankwright/flat/geom"
)

// What is left of a line, an arc or a circle in a window is all of it that lies
// within, and nothing else; arcs stay on their circle.
func TestClip(t *testing.T) {
	partly := 0
	for seed := range uint64(3000) {
		rnd := rand.New(rand.NewPCG(seed, 3))
		w := Rect{0, 0, 20 + rnd.Float64()*60, 20 + rnd.Float64()*60}
		p := func() geom.Point { return pt(rnd.Float64()*160-40, rnd.Float64()*160-40) }
		var from Layers
		switch seed % 3 {
		case 0:
			from.line(Outline, p(), p())
		case 1:
			from.seg(Outline, geom.BulgeSeg(p(), p(), rnd.Float64()*2-1))
		default:
			from.circle(Outline, p(), 1+rnd.Float64()*70)
		}
		shift := pt(rnd.Float64()*100, -rnd.Float64()*100)
		var got Layers
		got.CopyWindow(&from, w, shift)
		source := append([]geom.Seg(nil), from[Outline].Segs...)
		for _, c := range from[Outline].Circles {
			source = append(source, geom.CircleLoop(c)...)
		}
		pieces := append([]geom.Seg(nil), got[Outline].Segs...)
		for _, c := range got[Outline].Circles {
			pieces = append(pieces, geom.CircleLoop(c)...)
		}
		long := 0.0
		for _, g := range pieces {
			long += g.Length()
			for i := 0.0; i <= 1; i += 0.05 {
				q := g.At(i).Sub(shift)
				if !w.Grow(1e-7).Has(q) {
					t.Fatalf("seed %d: %v lies outside %v", seed, q, w)
				}
				if d := geom.PointLoop(q, source).D; d > 1e-7 {
					t.Fatalf("seed %d: %v lies %v mm off", seed, q, d)
				}
			}
			if g.IsArc() && math.Abs(g.A.Dist(g.Circle().C)-g.Circle().R) > 1e-7 {
				t.Fatalf("seed %d: an arc begins off its circle", seed)
			}
		}
		want, all := 0.0, 0.0
		for _, g := range source {
			const n = 4000
			for i := range n {
				all += g.Length() / n
				if w.Has(g.At((float64(i) + 0.5) / n)) {
					want += g.Length() / n
				}
			}
		}
		if want > 0 && want < all {
			partly++
		}
		if math.Abs(long-want) > all/500 {
			t.Fatalf("seed %d: %v mm are left, want %v", seed, long, want)
		}
	}
	if partly < 500 {
		t.Errorf("only %d of 3000 were cut: the trial says little", partly)
	}
}

// Texts and filled shapes are taken whole or not at all.
func TestClipWhole(t *testing.T) {
	var from Layers
	for _, x := range []float64{5, 19} {
		from.line(Arrows, pt(x, 5), pt(x+3, 4))
		from.line(Arrows, pt(x+3, 4), pt(x+3, 6))
		from.line(Arrows, pt(x+3, 6), pt(x, 5))
		from.circle(Discs, pt(x, 12), 2.9)
		from.text(Tags, Text{At: pt(x, 17), Anchor: Middle, S: "A1"})
	}
	var got Layers
	got.CopyWindow(&from, Rect{0, 0, 20, 30}, pt(100, 0))
	if n := len(got[Arrows].Segs); n != 3 || got[Arrows].Segs[0].A != pt(105, 5) {
		t.Errorf("%d lines of arrowheads are left, want those of the first: %v", n, got[Arrows].Segs)
	}
	if len(got[Discs].Circles) != 1 || len(got[Tags].Texts) != 1 || got[Tags].Texts[0].At != pt(105, 17) {
		t.Errorf("left are %v and %v", got[Discs].Circles, got[Tags].Texts)
	}
}
