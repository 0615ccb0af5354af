package num

import (
	"math"
	"testing"
)

func TestSincosQuarterTurns(t *testing.T) {
	want := [4][2]float64{{0, 1}, {1, 0}, {0, -1}, {-1, 0}}
	for q := -9; q <= 9; q++ {
		for _, a := range []float64{float64(q) * math.Pi / 2, float64(90*q) * math.Pi / 180, float64(q)*math.Pi/2 + 5e-15} {
			sin, cos := Sincos(a)
			w := want[(q%4+4)%4]
			if sin != w[0] || cos != w[1] {
				t.Errorf("Sincos(%v) = %v, %v, wanted %v", a, sin, cos, w)
			}
		}
	}
}

func TestSincosElsewhere(t *testing.T) {
	for a := -10.0; a < 10; a += 0.0137 {
		sin, cos := Sincos(a)
		ws, wc := math.Sincos(a)
		if sin != ws || cos != wc {
			t.Errorf("Sincos(%v) = %v, %v, wanted %v, %v", a, sin, cos, ws, wc)
		}
	}
	if sin, _ := Sincos(1e-13); sin != 1e-13 {
		t.Errorf("a small angle over the noise is kept, got %v", sin)
	}
	for _, a := range []float64{math.NaN(), math.Inf(1)} {
		if sin, cos := Sincos(a); !math.IsNaN(sin) || !math.IsNaN(cos) {
			t.Errorf("Sincos(%v) = %v, %v, wanted NaN", a, sin, cos)
		}
	}
}
