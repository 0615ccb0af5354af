package link

import (
	"fmt"
	"math"

	"blankwright/flat/cope"
	"blankwright/flat/num"
)

// SleeveWall is a sleeve that a branch is welded to on one side and a bush or a
// pin fills on the inside.
type SleeveWall struct {
	OD, Bore, Length float64 // mm
	Branch           cope.Tube
	Angle            float64 // between the axes, rad
	Force            float64 // of the branch along its axis, N, either way
}

// SleeveStress is how the sleeve's wall is loaded, and what AISC gives for a
// hollow chord. Stresses in MPa.
type SleeveStress struct {
	Wall float64 // mm
	// Hoop is the tension in the two walls beside a bush that fills the bore, the
	// branch pulling it away: F sin θ / (2 t L).
	Hoop float64
	// Bearing is the pressure of the bush on the bore: F sin θ / (bore · L).
	Bearing float64
	// RingBending is the bending stress of an empty sleeve taken as a thin ring
	// that two opposite forces squeeze, over the length that the branch covers
	// (Spread): largest moment F R/π under the force. A bush that fits bears most
	// of it, so this is a bound.
	RingBending float64
	Spread      float64 // mm of sleeve that carry the ring bending
	// Punch and Plastify are a hollow chord's strengths along the branch's axis:
	// shear of the wall round the branch and a mechanism of yield lines. Punch is
	// zero where the branch is as wide as the bore and cannot punch through.
	Punch, Plastify Strength
	// Outside lists what puts the joint outside the limits of those formulas; they
	// are then no more than a comparison.
	Outside []string
}

// SleeveWallOf works a sleeve's wall out.
//
// Sources: thin ring under two opposite forces: Roark's Formulas for Stress and
// Strain, table of ring formulas, case 1 (M = F R/π; from memory). Chord wall:
// AISC 360-22, K3, Table K3.1 (360-16 numbering; from memory, verify), T- and
// Y-connections of round sections: shear yielding Pn = 0.6 Fy t π Db (1+sin θ)/(2
// sin²θ), phi 0.95, omega 1.58 (Eq. K3-1); chord plastification Pn sin θ = Fy
// t²(3.1+15.6 β²) γ^0.2 Qf, phi 0.90, omega 1.67 (Eq. K3-2), with β = Db/D, γ =
// D/2t and Qf = 1 for a chord with no force of its own.
func SleeveWallOf(s SleeveWall, m Steel) (SleeveStress, error) {
	if err := m.check(); err != nil {
		return SleeveStress{}, err
	}
	switch {
	case !num.Finite(s.OD, s.Bore, s.Length, s.Force, s.Angle) || s.OD <= 0 || s.Length <= 0:
		return SleeveStress{}, fmt.Errorf("sleeve is %s mm wide and %s long, wanted more than 0", short(s.OD), short(s.Length))
	case s.Bore <= 0 || !num.AtLeast(s.OD-s.Bore, 0) || num.Same(s.OD, s.Bore):
		return SleeveStress{}, fmt.Errorf("sleeve of %s mm has a bore of %s mm, wanted more than 0 and less than the sleeve", short(s.OD), short(s.Bore))
	case !num.AtLeast(s.Angle, cope.LeastAngle) || !num.AtMost(s.Angle, math.Pi/2):
		return SleeveStress{}, fmt.Errorf("tube lies at %s degrees to the sleeve, wanted %s to 90", num.Short(s.Angle*180/math.Pi, 1), num.Short(cope.LeastAngle*180/math.Pi, 1))
	case s.Branch.OD <= 0 || s.Branch.Wall <= 0:
		return SleeveStress{}, fmt.Errorf("tube is %s x %s mm, wanted more than 0", short(s.Branch.OD), short(s.Branch.Wall))
	}
	t, sin := (s.OD-s.Bore)/2, math.Sin(s.Angle)
	across := math.Abs(s.Force) * sin
	out := SleeveStress{Wall: t, Hoop: across / (2 * t * s.Length), Bearing: across / (s.Bore * s.Length)}
	out.Spread = min(s.Length, s.Branch.OD/sin)
	out.RingBending = across * (s.OD - t) / 2 / math.Pi / (out.Spread * t * t / 6)

	beta, gamma := s.Branch.OD/s.OD, s.OD/(2*t)
	if s.Branch.OD < s.Bore {
		out.Punch = strength(0.6*m.Fy*t*math.Pi*s.Branch.OD*(1+sin)/(2*sin*sin), 0.95, 1.58)
	}
	out.Plastify = strength(m.Fy*t*t*(3.1+15.6*beta*beta)*math.Pow(gamma, 0.2)/sin, 0.90, 1.67)
	out.Outside = chordLimits(s, m, beta, gamma)
	return out, nil
}

// chordLimits lists the limits of Table K3.1A that a sleeve breaks.
func chordLimits(s SleeveWall, m Steel, beta, gamma float64) []string {
	var out []string
	miss := func(ok bool, format string, args ...any) {
		if !ok {
			out = append(out, fmt.Sprintf(format, args...))
		}
	}
	miss(num.AtLeast(s.Angle, math.Pi/6), "the tube lies at %s degrees to the sleeve, the formulas begin at 30", num.Short(s.Angle*180/math.Pi, 1))
	miss(num.AtMost(2*gamma, 50), "the sleeve's diameter is %s walls, the formulas end at 50", num.Short(2*gamma, 1))
	miss(num.AtMost(s.Branch.OD/s.Branch.Wall, 50), "the tube's diameter is %s walls, the formulas end at 50", num.Short(s.Branch.OD/s.Branch.Wall, 1))
	miss(num.AtLeast(beta, 0.2) && num.AtMost(beta, 1), "the tube is %s of the sleeve's width, the formulas hold from 0.2 to 1", num.Short(beta, 2))
	miss(num.AtMost(m.Fy, 360), "yield is %s MPa, the formulas end at 360", num.Short(m.Fy, 0))
	end := s.OD * (1.25 - beta/2)
	miss(num.AtLeast((s.Length-s.Branch.OD/math.Sin(s.Angle))/2, end), "the sleeve ends %s mm beside the tube, the formulas ask for %s", num.Short((s.Length-s.Branch.OD/math.Sin(s.Angle))/2, 1), num.Short(end, 1))
	return out
}
