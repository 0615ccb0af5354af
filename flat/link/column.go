package link

import (
	"fmt"
	"math"

	"blankwright/flat/num"
)

// Euler is the load (N) at which a straight column of length l (mm) and length
// factor k buckles elastically: π² E I / (k l)². k is 1 for pins at both ends.
//
// Source: L. Euler (1744), in the form of Shigley's Mechanical Engineering
// Design, 9th ed., 4-12, Eq. 4-43 (from memory).
func Euler(m Steel, s Section, k, l float64) float64 {
	return math.Pi * math.Pi * m.E * s.I / (k * l * k * l)
}

// Slenderness is k l over the radius of gyration.
func Slenderness(s Section, k, l float64) float64 { return k * l / s.Gyr }

// Buckling is the stress at which a straight column gives way, MPa.
type Buckling struct {
	Slenderness float64
	Stress      float64
	Johnson     bool // the parabola governs, else Euler
}

// EulerJohnson is the critical stress by Euler above the slenderness
// √(2π²E/Fy), where it is half of Fy, and by J. B. Johnson's parabola
// Fy - (Fy/2π · slenderness)²/E below.
//
// Source: Shigley's Mechanical Engineering Design, 9th ed., 4-12 and 4-13, Eq.
// 4-43 to 4-48 (from memory). No factor is in it.
func EulerJohnson(m Steel, slenderness float64) (Buckling, error) {
	if err := checkSlender(m, slenderness); err != nil {
		return Buckling{}, err
	}
	b := Buckling{Slenderness: slenderness}
	if slenderness > math.Sqrt(2*math.Pi*math.Pi*m.E/m.Fy) {
		b.Stress = math.Pi * math.Pi * m.E / (slenderness * slenderness)
		return b, nil
	}
	x := m.Fy * slenderness / (2 * math.Pi)
	b.Johnson, b.Stress = true, m.Fy-x*x/m.E
	return b, nil
}

func checkSlender(m Steel, slenderness float64) error {
	if err := m.check(); err != nil {
		return err
	}
	if !num.Finite(slenderness) || slenderness < 0 {
		return fmt.Errorf("slenderness is %s, wanted 0 or more", short(slenderness))
	}
	return nil
}

// Compression is a member's strength in compression by AISC 360.
type Compression struct {
	Slenderness float64
	Fe, Fcr     float64 // elastic buckling stress and critical stress, MPa
	AreaUsed    float64 // mm², less than the gross area for a thin wall
	Strength
	// Advice is "" or what the standard advises against.
	Advice string
}

// CriticalStress is Fcr (MPa) by flexural buckling.
//
// Source: AISC 360-22, E3, Eq. E3-2 to E3-4: Fe = π²E/(Lc/r)²; for Fy/Fe <= 2.25
// Fcr = 0.658^(Fy/Fe) Fy, else 0.877 Fe.
func CriticalStress(m Steel, slenderness float64) (fe, fcr float64, err error) {
	if err := checkSlender(m, slenderness); err != nil {
		return 0, 0, err
	}
	if slenderness == 0 {
		return math.Inf(1), m.Fy, nil
	}
	fe = math.Pi * math.Pi * m.E / (slenderness * slenderness)
	if m.Fy/fe <= 2.25 {
		return fe, math.Pow(0.658, m.Fy/fe) * m.Fy, nil
	}
	return fe, 0.877 * fe, nil
}

// AISCCompression is the strength in compression of a round tube or bar of
// length l with length factor k.
//
// Source: AISC 360-22, E1 (phi 0.90, omega 1.67), E3 and, for walls with
// D/t > 0.11 E/Fy (Table B4.1a, round HSS), E7.2 (Eq. E7-6, E7-7): the area is
// taken times 0.038 E/(Fy D/t) + 2/3; D/t over 0.45 E/Fy is outside the standard
// and an error. From memory, verify.
func AISCCompression(s Section, m Steel, k, l float64) (Compression, error) {
	if !num.Finite(k, l) || k <= 0 || l <= 0 {
		return Compression{}, fmt.Errorf("column has length %s mm and length factor %s, wanted more than 0", short(l), short(k))
	}
	c := Compression{Slenderness: Slenderness(s, k, l), AreaUsed: s.Area}
	var err error
	if c.Fe, c.Fcr, err = CriticalStress(m, c.Slenderness); err != nil {
		return Compression{}, err
	}
	if s.Tube.Inner() > 0 {
		ratio := s.Tube.OD / s.Tube.Wall
		switch limit := m.E / m.Fy; {
		case ratio > 0.45*limit:
			return Compression{}, fmt.Errorf("wall is too thin: diameter over wall is %s, the standard ends at %s", short(ratio), short(0.45*limit))
		case ratio > 0.11*limit:
			c.AreaUsed = s.Area * (0.038*limit/ratio + 2.0/3)
		}
	}
	if c.Slenderness > 200 {
		c.Advice = fmt.Sprintf("slenderness %s is over 200, which AISC 360-22, E2, advises against", num.Short(c.Slenderness, 0))
	}
	c.Strength = strength(c.Fcr*c.AreaUsed, 0.90, 1.67)
	return c, nil
}

// Capacity is everything that a member can carry, beside what it has to.
type Capacity struct {
	Worst
	Section      Section
	TensionMPa   float64 // stress by the largest tension
	CompressMPa  float64 // stress by the largest compression
	Yield        Strength
	Euler        float64 // N
	EulerJohnson Buckling
	AISC         Compression
}

// CapacityOf sets a member's worst forces against what its tube carries: tension
// yield, Euler, Euler or Johnson, AISC E3. k is the length factor, 1 for pins.
// The ends (cope, weld, sleeve) are for CopeWeld and SleeveWall.
func CapacityOf(w Worst, s Section, m Steel, k float64) (Capacity, error) {
	c := Capacity{Worst: w, Section: s, TensionMPa: w.Tension / s.Area, CompressMPa: w.Compression / s.Area}
	var err error
	if c.Yield, err = TensionYield(s, m); err != nil {
		return Capacity{}, fmt.Errorf("member %q: %w", w.Member, err)
	}
	if c.AISC, err = AISCCompression(s, m, k, w.Length); err != nil {
		return Capacity{}, fmt.Errorf("member %q: %w", w.Member, err)
	}
	c.Euler = Euler(m, s, k, w.Length)
	if c.EulerJohnson, err = EulerJohnson(m, c.AISC.Slenderness); err != nil {
		return Capacity{}, fmt.Errorf("member %q: %w", w.Member, err)
	}
	return c, nil
}
