package paper

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// For drawings and holes made at random the seams
//  1. leave no piece longer than a page shows, nor any shorter than nothing;
//  2. are as few as can be, or one more;
//  3. go through no hole where a search of all places on a fine grid finds as
//     many seams that do not;
//  4. do not change when the holes come in another order.
func TestSeams(t *testing.T) {
	through := 0
	for seed := range uint64(2000) {
		rnd := rand.New(rand.NewPCG(seed, 7))
		window := 100 + rnd.Float64()*200
		length := window * (0.5 + rnd.Float64()*6)
		holes := make([]span, rnd.IntN(40))
		for i := range holes {
			lo := rnd.Float64() * length
			holes[i] = span{lo, lo + 3 + rnd.Float64()*rnd.Float64()*80}
		}
		a, hit := cutAxis(length, window, holes)
		for i := range a.count() {
			lo, hi := a.window(i)
			if core0, core1 := a.core(i); core1-core0 <= 0 || hi-lo > window+1e-5 {
				t.Fatalf("seed %d: page %d shows %v to %v, the window is %v", seed, i, lo, hi, window)
			}
		}
		if a.cuts[0] != 0 || a.cuts[a.count()] != length {
			t.Fatalf("seed %d: pages go from %v to %v", seed, a.cuts[0], a.cuts[a.count()])
		}
		least := 1
		if length > window {
			least = int(math.Ceil((length + overlap) / (window - overlap)))
		}
		if n := a.count(); n != least && n != least+1 {
			t.Fatalf("seed %d: %d pages, %d are enough", seed, n, least)
		}
		if got := hits(a.inner(), holes); got != hit {
			t.Fatalf("seed %d: %d holes are cut, %d told", seed, got, hit)
		}
		if hit > 0 {
			through++
			if cleanSeams(length, window-overlap, least+1, holes) {
				t.Fatalf("seed %d: seams cut %d holes, and there are %d pages that cut none", seed, hit, least+1)
			}
		}
		slices.Reverse(holes)
		if b, _ := cutAxis(length, window, holes); !slices.Equal(a.cuts, b.cuts) {
			t.Fatalf("seed %d: seams at %v, with the holes turned round at %v", seed, a.cuts, b.cuts)
		}
	}
	if through < 20 || through > 1900 {
		t.Errorf("%d of 2000 have holes across seams: the trial says little", through)
	}
}

func hits(seams []float64, holes []span) (n int) {
	for _, s := range seams {
		for _, h := range holes {
			if h.lo < s && s < h.hi {
				n++
			}
		}
	}
	return n
}

// cleanSeams reports whether n pages can be had without a hole across a seam,
// by going from the start as far as each page allows: no other choice gets
// farther.
func cleanSeams(length, pitch float64, n int, holes []span) bool {
	at := -overlap / 2
	for range n {
		if end := length + overlap/2 - at; end <= pitch {
			return end >= leastEnd
		}
		next := at + pitch
		for moved := true; moved; {
			moved = false
			for _, h := range holes {
				if h.lo < next && next < h.hi {
					next, moved = h.lo, true
				}
			}
		}
		if next-at < leastGap {
			return false
		}
		at = next
	}
	return false
}

// Seams keep 2 mm off the edges of holes where there is room, so that their
// crosses stay whole.
func TestSeamsKeepOff(t *testing.T) {
	for gap := 4.2; gap < 40; gap += 0.7 {
		var holes []span
		for at := 20.0; at < 600; at += 30 + gap {
			holes = append(holes, span{at, at + 30})
		}
		a, hit := cutAxis(620, 200, holes)
		if hit != 0 {
			t.Errorf("gap %v: %d holes are cut", gap, hit)
		}
		for _, s := range a.inner() {
			for _, h := range holes {
				if d := max(h.lo-s, s-h.hi); d < seamOff {
					t.Errorf("gap %v: a seam at %v is %v mm from the hole %v", gap, s, d, h)
				}
			}
		}
	}
}

func BenchmarkSeamsThousandHoles(b *testing.B) {
	rnd := rand.New(rand.NewPCG(1, 1))
	holes := make([]span, 1000)
	for i := range holes {
		lo := rnd.Float64() * 2000
		holes[i] = span{lo, lo + 8}
	}
	for b.Loop() {
		cutAxis(2000, 177, holes)
	}
}
