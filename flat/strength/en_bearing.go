package strength

import "math"

// ENBearing is one bolt pressing on its hole. Distances that do not occur are 0:
// a bolt with E1 and P1 takes the smaller alpha_d of both, an inner bolt has no
// E1, and likewise across the force.
type ENBearing struct {
	D, D0  float64 // bolt and hole, mm
	T      float64 // plate, mm
	Fu     float64 // tensile strength of the PLATE, MPa
	Fub    float64 // tensile strength of the bolt, MPa
	E1, P1 float64 // end distance and pitch along the force, mm
	E2, P2 float64 // edge distance and spacing across it, mm
	Hole   HoleKind

	// SingleLap is one bolt row in single shear: 3.6.1(10) caps the resistance at
	// 1.5 fu d t/gM2 and asks for washers under head and nut.
	SingleLap bool
}

var (
	enBearing     = enClause(true, "3.6.1, Table 3.4, Fb,Rd")
	enBearingLap  = enClause(false, "3.6.1(10), eq. 3.2")
	enBearingBoth = Clause{"Multi-Storey Steel Buildings, Part 5, 3.4 (after EN 1993-1-8 Table 3.4)", true}
)

// AlphaB is alpha_b of Table 3.4 and in words what it comes from.
func (b *ENBearing) AlphaB() (v float64, from string) {
	v, from = 1, "bearing at the hole"
	take := func(x float64, words string) {
		if x < v {
			v, from = x, words
		}
	}
	if b.Fub > 0 {
		take(b.Fub/b.Fu, "bearing at the hole, by the bolt's strength")
	}
	if b.E1 > 0 {
		take(b.E1/(3*b.D0), "bearing at the hole, by the end distance")
	}
	if b.P1 > 0 {
		take(b.P1/(3*b.D0)-0.25, "bearing at the hole, by the pitch")
	}
	return v, from
}

// K1 is k1 of Table 3.4.
func (b *ENBearing) K1() float64 {
	k := 2.5
	if b.E2 > 0 {
		k = min(k, 2.8*b.E2/b.D0-1.7)
	}
	if b.P2 > 0 {
		k = min(k, 1.4*b.P2/b.D0-1.7)
	}
	return k
}

// Bearing is the bearing resistance of one bolt in its hole, N:
// Fb,Rd = k1 alpha_b fu d t/gM2, of it 0.8 in an oversized hole and 0.6 in a slot
// across the force. fu is that of the plate; the bolt's enters through fub/fu
// only.
//
// EN 1993-1-8 Table 3.4; tear-out is in alpha_b. Limits: distances within Table
// 3.3; slots along the force are not treated by the table and count as round
// holes here; of single lap joints with one bolt row 3.6.1(10).
func (e EN1993) Bearing(b ENBearing) Result {
	f := e.m2()
	alpha, mode := b.AlphaB()
	k1 := b.K1()
	c := 1.0
	switch b.Hole {
	case OversizedHole:
		c = 0.8
	case ShortSlotAcross, LongSlotAcross:
		c = 0.6
	}
	dtf := pos(b.D) * pos(b.T) * b.Fu
	r := enResult(c*pos(k1)*pos(alpha)*dtf, f, Force, mode, enBearing,
		put("Fb,Rd = c k1 alpha_b fu d t / gM2 = {n} x {n} x {n} x {s} x {l} x {l} / {n}", c, k1, alpha, b.Fu, b.D, b.T, f.V))
	if b.SingleLap {
		r = Least(r, enResult(1.5*dtf, f, Force, "bearing of a single lap joint with one bolt", enBearingLap,
			put("Fb,Rd = 1.5 fu d t / gM2 = 1.5 x {s} x {l} x {l} / {n}", b.Fu, b.D, b.T, f.V)))
	}
	return r
}

// BearingBothWays holds the two components of a bolt's force, along and across,
// N, against its bearing resistance for each direction:
// (F1/Fb1)^2 + (F2/Fb2)^2 <= 1.
//
// Multi-Storey Steel Buildings, Part 5, section 3.4: EN 1993-1-8 leaves open how
// components combine.
func (e EN1993) BearingBothWays(f1, f2 float64, fb1, fb2 Result) Ratio {
	u, w := fb1.Utilisation(f1), fb2.Utilisation(f2)
	return Ratio{V: sq(u) + sq(w), Mode: "bearing along and across the row together", Clause: enBearingBoth,
		formula: put("(F1/Fb1)^2 + (F2/Fb2)^2 = {n}^2 + {n}^2", u, w)}
}

var (
	enTear1 = enClause(false, "3.10.2(2), eq. 3.9")
	enTear2 = enClause(true, "3.10.2(3), eq. 3.10")
)

// BlockTearing is what a block holds, N: Veff,1,Rd = fu Ant/gM2 + fy Anv/(sqrt 3
// gM0) of a group loaded through its middle, half of the first term where the
// load is eccentric (Uneven).
//
// EN 1993-1-8 3.10.2, eqs. 3.9 and 3.10. Holes count with d0 (no allowance).
// Nominal is the value with all factors 1.
func (e EN1993) BlockTearing(b Block) Result {
	m0, m2 := e.m0(), e.m2()
	k, c := 1.0, enTear1
	if b.Uneven {
		k, c = 0.5, enTear2
	}
	ant, anv := b.NetTension(), b.NetShear()
	tear, shear := k*b.Fu*ant, b.Fy*anv/math.Sqrt(3)
	r := enResult(tear+shear, m2, Force, "block tearing: yielding of the sides, rupture of the end", c,
		put("Veff,Rd = k fu Ant / gM2 + fy Anv / (sqrt(3) gM0) = {n} x {s} x {a} / {n} + {s} x {a} / (1.732 x {n})",
			k, b.Fu, ant, m2.V, b.Fy, anv, m0.V))
	r.Design = pos(tear/m2.V + shear/m0.V)
	return r
}
