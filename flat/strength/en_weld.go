package strength

import "math"

var (
	enWeldDirectional = enClause(false, "4.5.3.2, eq. 4.1")
	enWeldSimple      = enClause(false, "4.5.3.3, eqs. 4.2 to 4.4")
	enWeldLength      = enClause(false, "4.5.1(2)")
	enWeldThroat      = enClause(false, "4.5.2(2)")
)

// BetaW is the correlation factor of fillet welds by the steel's grade, EN
// 1993-1-8 Table 4.1 (from memory): 0.8 for S235, 0.85 for S275, 0.9 for S355, 1.0
// for S420 and S460. ok is false for others.
func BetaW(grade string) (v float64, ok bool) {
	switch grade {
	case "S235":
		return 0.8, true
	case "S275":
		return 0.85, true
	case "S355":
		return 0.9, true
	case "S420", "S460":
		return 1.0, true
	}
	return 0, false
}

// Throat is the effective throat of a fillet weld of equal legs, mm: leg/sqrt 2
// (EN 1993-1-8 4.5.2, AISC 360 J2.2a).
func Throat(leg float64) float64 { return leg / math.Sqrt2 }

// WeldStress is what acts on the throat of a fillet weld, MPa: normal to the
// throat, shear across the weld's axis, shear along it.
type WeldStress struct{ Normal, Across, Along float64 }

// OnThroat turns the force on a mm of fillet weld, N/mm, into stresses on its
// throat of a mm: along the weld, across it in the plane of the plate on whose
// face it lies, and out of that plane. The throat stands at 45 degrees to both
// faces; which way depends on the side of the member, so the worse of the two is
// given.
//
// EN 1993-1-8 4.5.3.2, figure 4.5: force resolved on the throat at its place.
func OnThroat(along, across, out, a float64) WeldStress {
	x, z := math.Abs(across), math.Abs(out)
	k := 1 / (math.Sqrt2 * a)
	// On one side of the member the sum is normal to the throat and the
	// difference shear, on the other the reverse. Shear weighs three times, so
	// the sum as shear is worse; nor can the cap of 0.9 fu on the sum as normal
	// stress govern then, as sqrt 3 beta_w is more than 1/0.9.
	return WeldStress{Normal: math.Abs(x-z) * k, Across: (x + z) * k, Along: math.Abs(along) / a}
}

// Equivalent is sqrt(normal^2 + 3 (across^2 + along^2)), MPa.
func (s WeldStress) Equivalent() float64 {
	return math.Sqrt(sq(s.Normal) + 3*(sq(s.Across)+sq(s.Along)))
}

// WeldPoint is the directional method at one place of a fillet weld: the
// equivalent stress at most fu/(beta_w gM2) and the normal stress at most
// 0.9 fu/gM2; the larger share is given. fu is that of the weaker part, MPa.
//
// EN 1993-1-8 4.5.3.2, eq. 4.1.
func (e EN1993) WeldPoint(s WeldStress, fu, betaW float64) Ratio {
	m2 := e.m2().V
	eq := share(s.Equivalent(), fu/(betaW*m2))
	normal := share(s.Normal, 0.9*fu/m2)
	if normal > eq {
		return Ratio{V: normal, Mode: "normal stress on the throat of the fillet weld", Clause: enWeldDirectional,
			formula: put("s / (0.9 fu / gM2) = {s} / (0.9 x {s} / {n})", s.Normal, fu, m2)}
	}
	return Ratio{V: eq, Mode: "stress on the throat of the fillet weld", Clause: enWeldDirectional,
		formula: put("sqrt(s^2 + 3 (t1^2 + t2^2)) / (fu / (bw gM2)) = sqrt({s}^2 + 3 x ({s}^2 + {s}^2)) / ({s} / ({n} x {n}))",
			s.Normal, s.Across, s.Along, fu, betaW, m2)}
}

// WeldSimple is the simplified method: what one mm of fillet weld of throat a
// holds in any direction, N/mm: Fw,Rd = fu/sqrt 3/(beta_w gM2) a.
//
// EN 1993-1-8 4.5.3.3, eqs. 4.2 to 4.4. Limits: a at least 3 mm, length at least 30
// mm and 6 a (WeldLimits); lap joints longer than 150 a hold LongLap of it.
func (e EN1993) WeldSimple(a, fu, betaW float64) Result {
	m2 := e.m2()
	return enResult(fu/math.Sqrt(3)/betaW*pos(a), m2, PerMM, "shear through the throat of the fillet weld", enWeldSimple,
		put("Fw,Rd = fu/(sqrt(3) bw gM2) a = {s}/(1.732 x {n} x {n}) x {l}", fu, betaW, m2.V, a))
}

// WeldLimits are the least throat and length of a fillet weld that carries load.
//
// EN 1993-1-8 4.5.2(2), 3 mm; 4.5.1(2), 30 mm and 6 a; from memory.
func (e EN1993) WeldLimits(a, length float64) (throat, long Limit) {
	throat = Limit{What: "the weld's throat", Clause: enWeldThroat, Kind: Length, Got: a, Bound: 3, formula: put("least throat")}
	long = Limit{What: "the weld's length", Clause: enWeldLength, Kind: Length, Got: length, Bound: max(30, 6*a),
		formula: put("max(30 mm, 6 a) = max(30 mm, 6 x {l})", a)}
	return throat, long
}

// LongLap is the share of its resistance that a fillet weld of a lap joint longer
// than 150 throats holds: 1.2 - 0.2 Lj/(150 a), at most 1.
//
// EN 1993-1-8 4.11(2), eq. 4.9, from memory.
func LongLap(l, a float64) float64 { return max(0, min(1, 1.2-0.2*l/(150*a))) }
