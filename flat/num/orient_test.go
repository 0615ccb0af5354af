package num

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

func TestOrient(t *testing.T) {
	for _, c := range []struct {
		kind                   string
		ax, ay, bx, by, cx, cy float64
		sign                   int
	}{
		{"left", 0, 0, 1, 0, 0, 1, 1},
		{"right", 0, 0, 1, 0, 0, -1, -1},
		{"on the line", 0.1, 0.1, 0.3, 0.3, 0.7, 0.7, 0},
		{"one unit in the last place left", 0, 0, 1, 1, 0.5, math.Nextafter(0.5, 1), 1},
		{"one unit in the last place right", 0, 0, 1, 1, 0.5, math.Nextafter(0.5, 0), -1},
		{"far out, one unit left", 1e5, 1e5, 2e5, 2e5, 3e5, math.Nextafter(3e5, 1e9), 1},
		{"smallest number", 0, 0, 1, 0, 0.5, math.SmallestNonzeroFloat64, 1},
		{"no line", 3, 4, 3, 4, 5, 6, 0},
		{"at an end", 3, 4, 7, 9, 7, 9, 0},
	} {
		if got := Orient(c.ax, c.ay, c.bx, c.by, c.cx, c.cy); sign(got) != c.sign {
			t.Errorf("%s: got %g, want sign %d", c.kind, got, c.sign)
		}
	}
}

// The sign agrees with exact arithmetic on points that nearly lie on one line,
// does not change when the three are taken in turn, and turns over when two are
// exchanged.
func TestOrientConsistency(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 3))
	for range 20000 {
		ax, ay, bx, by := rng.Float64()*100, rng.Float64()*100, rng.Float64()*100, rng.Float64()*100
		k := rng.Float64()*3 - 1
		cx, cy := ax+k*(bx-ax), ay+k*(by-ay)
		for range rng.IntN(3) {
			cy = math.Nextafter(cy, 200*rng.Float64()-50)
		}
		got := sign(Orient(ax, ay, bx, by, cx, cy))
		if want := exactSign(ax, ay, bx, by, cx, cy); got != want {
			t.Fatalf("(%v %v) (%v %v) (%v %v): sign %d, want %d", ax, ay, bx, by, cx, cy, got, want)
		}
		if sign(Orient(bx, by, cx, cy, ax, ay)) != got || sign(Orient(bx, by, ax, ay, cx, cy)) != -got {
			t.Fatalf("(%v %v) (%v %v) (%v %v): the sign depends on the order", ax, ay, bx, by, cx, cy)
		}
	}
}

func sign(v float64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

func exactSign(ax, ay, bx, by, cx, cy float64) int {
	f := func(v float64) *big.Float { return new(big.Float).SetPrec(600).SetFloat64(v) }
	sub := func(p, q float64) *big.Float { return new(big.Float).SetPrec(600).Sub(f(p), f(q)) }
	l := new(big.Float).SetPrec(600).Mul(sub(bx, ax), sub(cy, ay))
	r := new(big.Float).SetPrec(600).Mul(sub(by, ay), sub(cx, ax))
	return l.Cmp(r)
}
