package num

import (
	"math"
	"math/big"
)

// orientBound is the relative rounding error of the plain formula of Orient:
// (3+16u)u with u the unit roundoff 2^-53 (J. R. Shewchuk, Adaptive Precision
// Floating-Point Arithmetic and Fast Robust Geometric Predicates, Discrete &
// Computational Geometry 18 (1997), doi:10.1007/PL00009321).
const orientBound = (3 + 16*0x1p-53) * 0x1p-53

// Orient is positive if c lies to the left of the line from a to b, negative if
// to the right, 0 if exactly on it. The size is twice the area of the triangle,
// rounded; the sign is exact for all finite coordinates that do not overflow.
func Orient(ax, ay, bx, by, cx, cy float64) float64 {
	l := float64((bx - ax) * (cy - ay))
	r := float64((by - ay) * (cx - ax))
	d := l - r
	if math.Abs(d) > orientBound*(math.Abs(l)+math.Abs(r)) {
		return d
	}
	return orientExact(ax, ay, bx, by, cx, cy)
}

// orientExact works with exact rationals.
func orientExact(ax, ay, bx, by, cx, cy float64) float64 {
	if bx == ax && by == ay || cx == ax && cy == ay || cx == bx && cy == by {
		return 0
	}
	if bx == ax && cx == ax || by == ay && cy == ay {
		return 0
	}
	sub := func(p, q float64) *big.Rat {
		return new(big.Rat).Sub(new(big.Rat).SetFloat64(p), new(big.Rat).SetFloat64(q))
	}
	l, r := sub(bx, ax), sub(by, ay)
	l.Mul(l, sub(cy, ay))
	r.Mul(r, sub(cx, ax))
	d, _ := l.Sub(l, r).Float64()
	if s := l.Sign(); s != 0 && d == 0 {
		return float64(s) * math.SmallestNonzeroFloat64
	}
	return d
}
