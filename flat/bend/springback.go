package bend

import (
	"fmt"

	"blankwright/flat/num"
)

// ElasticModulus of a family of materials, MPa: steel 200 000 to 210 000,
// stainless steel 193 000, aluminium 70 000 (handbook values, from memory).
func ElasticModulus(f Family) float64 {
	switch f {
	case StainlessSteel:
		return 193_000
	case Aluminium:
		return 70_000
	}
	return 205_000
}

// SpringbackSource is where the estimate comes from.
var SpringbackSource = Source{"S. Kalpakjian and S. Schmid, Manufacturing Engineering and Technology, bending, approximate formula", FromMemory}

// largestSpring is the value of Ri fy/(E T) up to which the formula is used:
// beyond it most of the bend springs back and the estimate says nothing.
const largestSpring = 0.3

// Springback estimates the bend to make under load so that b is left once the
// part is let go: a smaller radius and a larger angle. With Ri under load and Rf
// afterwards, Ri/Rf = 4 x^3 - 3 x + 1 where x = Ri fy/(E T), and the middle of
// the plate keeps its length. fy is the yield strength and e the elastic
// modulus, MPa. An estimate: the press and the batch decide. The error is for
// bends that are mostly elastic.
func Springback(b Bend, fy, e float64) (Bend, error) {
	if err := b.Validate(); err != nil {
		return Bend{}, err
	}
	if !num.Finite(fy, e) || fy <= 0 || e <= 0 {
		return Bend{}, fmt.Errorf("yield strength %s MPa and elastic modulus %s MPa: wanted both above nothing", short(fy), short(e))
	}
	c := fy / (e * b.T)
	left := func(r float64) float64 { // the radius left of one under load
		x := c * r
		return r / (4*x*x*x - 3*x + 1)
	}
	lo, hi := 0.0, largestSpring/c
	if left(hi) < b.R {
		return Bend{}, fmt.Errorf("inside radius %s mm in %s mm plate with a yield strength of %s MPa is mostly elastic: springback cannot be estimated; make a trial bend", short(b.R), short(b.T), short(fy))
	}
	for range num.RootSteps {
		if mid := (lo + hi) / 2; left(mid) < b.R {
			lo = mid
		} else {
			hi = mid
		}
	}
	r := (lo + hi) / 2
	return Bend{b.T, r, b.A * (b.R + b.T/2) / (r + b.T/2)}, nil
}
