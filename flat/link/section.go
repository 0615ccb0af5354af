package link

import (
	"fmt"
	"math"

	"blankwright/flat/cope"
	"blankwright/flat/num"
)

// Section is what a round tube or bar is worth, by its measured diameter and
// wall.
//
// AISC 360-22, B4.2, takes 0.93 of the nominal wall for electric-resistance-
// welded hollow sections made to ASTM A500 (from memory, verify); a wall that was
// measured is taken as it is.
type Section struct {
	Tube cope.Tube
	Area float64 // mm²
	I    float64 // second moment, mm⁴
	Gyr  float64 // radius of gyration, mm
}

// SectionOf works a tube's section out.
func SectionOf(t cope.Tube) Section {
	o2, i2 := t.Outer()*t.Outer(), t.Inner()*t.Inner()
	return Section{Tube: t, Area: math.Pi * (o2 - i2), I: math.Pi / 4 * (o2 - i2) * (o2 + i2), Gyr: math.Sqrt(o2+i2) / 2}
}

// Steel is what a material is worth, MPa: modulus of elasticity, yield and
// tensile strength.
type Steel struct{ E, Fy, Fu float64 }

func (s Steel) check() error {
	if !num.Finite(s.E, s.Fy, s.Fu) || s.E <= 0 || s.Fy <= 0 {
		return fmt.Errorf("material has E %s and Fy %s MPa, wanted more than 0", short(s.E), short(s.Fy))
	}
	return nil
}

// Strength is a nominal strength with its design (LRFD) and allowable (ASD)
// value, N.
type Strength struct{ Nominal, LRFD, ASD float64 }

// strength divides a nominal strength up by resistance and safety factors.
func strength(nominal, phi, omega float64) Strength {
	return Strength{nominal, nominal * phi, nominal / omega}
}

// TensionYield is the strength of the gross section in tension.
//
// Source: AISC 360-22, D2(a), Eq. D2-1: Pn = Fy Ag, phi 0.90, omega 1.67.
func TensionYield(s Section, m Steel) (Strength, error) {
	if err := m.check(); err != nil {
		return Strength{}, err
	}
	return strength(m.Fy*s.Area, 0.90, 1.67), nil
}
