package strength

// EN1993 computes by EN 1993-1-8:2005 (joints) and EN 1993-1-1:2005 (plates) with
// these partial factors; 0 stands for the value that the standards recommend.
// National annexes may set others. Loads are factored ones (EN 1990).
type EN1993 struct {
	M0    float64 // yielding; 1.0
	M2    float64 // rupture, bolts, welds; 1.25
	M6ser float64 // pins that shall be replaceable, at service load; 1.0
}

// Recommended gives the factors with the recommended values in place of 0.
func (e EN1993) Recommended() EN1993 {
	return EN1993{e.m0().V, e.m2().V, e.m6().V}
}

func or(v, recommended float64) float64 {
	if v > 0 {
		return v
	}
	return recommended
}

func (e *EN1993) m0() Factor { return Factor{"gM0", or(e.M0, 1.0)} }
func (e *EN1993) m2() Factor { return Factor{"gM2", or(e.M2, 1.25)} }
func (e *EN1993) m6() Factor { return Factor{"gM6,ser", or(e.M6ser, 1.0)} }

// EN1993E is the modulus of elasticity of steel by EN 1993-1-1 3.2.6, MPa.
const EN1993E = 210000

// enResult divides by a partial factor.
func enResult(nominal float64, f Factor, k Kind, mode string, c Clause, form formula) Result {
	nominal = pos(nominal)
	return Result{Nominal: nominal, Design: nominal / f.V, Kind: k, Mode: mode, Clause: c, Factor: f, formula: form}
}

func enClause(read bool, where string) Clause { return Clause{"EN 1993-1-8:2005 " + where, read} }

func enPlateClause(read bool, where string) Clause { return Clause{"EN 1993-1-1:2005 " + where, read} }
