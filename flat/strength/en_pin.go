package strength

import "math"

// PinJoint is a pin in double shear: a middle plate between two outer ones.
type PinJoint struct {
	Pin    float64 // d, mm
	Hole   float64 // d0, mm
	Middle float64 // b: thickness of the middle plate, mm
	Outer  float64 // a: thickness of each outer plate, mm
	Gap    float64 // c: between middle and outer plate, mm
	PinFy  float64 // fyp, MPa
	PinFu  float64 // fup, MPa
	Fy     float64 // of the plates, MPa
	E      float64 // MPa; EN1993E where not given

	// Replaceable pins are held at service load as well, so that they come out
	// again.
	Replaceable bool
}

// ENPin is what Table 3.10 and 3.13.2(3) say about a pin.
type ENPin struct {
	Shear          Result // of the pin, one plane
	BearingMiddle  Result // of the middle plate and the pin, at its whole force
	BearingOuter   Result // of one outer plate, at half the force
	Bending        Result // of the pin
	BearingService Result // of the middle plate at service load; only where replaceable
	BendingService Result
	ContactService Result // largest contact stress at service load; only where replaceable

	joint PinJoint
}

var (
	enPinShear   = enClause(true, "3.13.2, Table 3.10, Fv,Rd")
	enPinBearing = enClause(true, "3.13.2, Table 3.10, Fb,Rd")
	enPinBending = enClause(true, "3.13.2, Table 3.10, MRd")
	enPinBoth    = enClause(true, "3.13.2, Table 3.10, combined shear and bending")
	enPinBearSer = enClause(true, "3.13.2, Table 3.10, Fb,Rd,ser")
	enPinBendSer = enClause(true, "3.13.2, Table 3.10, MRd,ser")
	enPinContact = enClause(true, "3.13.2(3), eqs. 3.14 to 3.16")
	enPinTypeA   = enClause(true, "3.13.1, Table 3.9, type A")
	enPinTypeB   = enClause(false, "3.13.1, Table 3.9, type B")
	enPinNoBends = enClause(false, "3.13.1(3)")
)

// Pin is the resistance of a pin and of the plates that bear on it.
//
// EN 1993-1-8 3.13.2: Fv,Rd = 0.6 A fup/gM2 per plane; Fb,Rd = 1.5 t d fy/gM0, fy
// the lower of pin and plate; MRd = 1.5 Wel fyp/gM0; for replaceable pins also
// Fb,Rd,ser = 0.6 t d fy/gM6,ser, MRd,ser = 0.8 Wel fyp/gM6,ser and contact stress
// at most 2.5 fy/gM6,ser. Limits: double shear, gap and plates symmetrical, solid
// round pin. A pin shorter than three diameters and loaded over its length may be
// taken as a bolt (3.13.1(3), from memory).
func (e EN1993) Pin(p PinJoint) ENPin {
	m0, m2, m6 := e.m0(), e.m2(), e.m6()
	d := pos(p.Pin)
	area, wel := Disc(d), math.Pi*d*d*d/32
	fy := min(p.Fy, p.PinFy)
	bearing := func(t float64, mode string) Result {
		return enResult(1.5*pos(t)*d*fy, m0, Force, mode, enPinBearing,
			put("Fb,Rd = 1.5 t d fy / gM0 = 1.5 x {l} x {l} x {s} / {n}", t, d, fy, m0.V))
	}
	r := ENPin{
		joint: p,
		Shear: enResult(0.6*area*p.PinFu, m2, Force, "shear of the pin", enPinShear,
			put("Fv,Rd = 0.6 A fup / gM2 = 0.6 x {a} x {s} / {n}", area, p.PinFu, m2.V)),
		BearingMiddle: bearing(p.Middle, "bearing of the pin on the middle plate"),
		BearingOuter:  bearing(p.Outer, "bearing of the pin on an outer plate"),
		Bending: enResult(1.5*wel*p.PinFy, m0, Moment, "bending of the pin", enPinBending,
			put("MRd = 1.5 Wel fyp / gM0 = 1.5 x {w} x {s} / {n}", wel, p.PinFy, m0.V)),
	}
	if p.Replaceable {
		r.BearingService = enResult(0.6*pos(p.Middle)*d*fy, m6, Force, "bearing of the pin on the middle plate at service load", enPinBearSer,
			put("Fb,Rd,ser = 0.6 t d fy / gM6,ser = 0.6 x {l} x {l} x {s} / {n}", p.Middle, d, fy, m6.V))
		r.BendingService = enResult(0.8*wel*p.PinFy, m6, Moment, "bending of the pin at service load", enPinBendSer,
			put("MRd,ser = 0.8 Wel fyp / gM6,ser = 0.8 x {w} x {s} / {n}", wel, p.PinFy, m6.V))
		r.ContactService = enResult(2.5*fy, m6, Stress, "contact stress under the pin at service load", enPinContact,
			put("fh,Rd = 2.5 fy / gM6,ser = 2.5 x {s} / {n}", fy, m6.V))
	}
	return r
}

// Moment is the bending moment in the pin under the force f of the joint, N·mm:
// MEd = f/8 (b + 4 c + 2 a).
//
// EN 1993-1-8 3.13.2, figure 3.11: the plates press evenly over their thickness.
func (p *ENPin) Moment(f float64) float64 {
	return math.Abs(f) / 8 * (p.joint.Middle + 4*p.joint.Gap + 2*p.joint.Outer)
}

// Together holds bending and shear of the pin under the force f of the joint, N,
// together: (MEd/MRd)^2 + (Fv,Ed/Fv,Rd)^2 <= 1, half of f in each plane.
func (p *ENPin) Together(f float64) Ratio {
	m, v := p.Bending.Utilisation(p.Moment(f)), p.Shear.Utilisation(f/2)
	return Ratio{V: sq(m) + sq(v), Mode: "bending and shear of the pin together", Clause: enPinBoth,
		formula: put("(MEd/MRd)^2 + (Fv,Ed/Fv,Rd)^2 = {n}^2 + {n}^2", m, v)}
}

// Contact is the contact stress between pin and middle plate at the service force
// f, MPa: 0.591 sqrt(E f (d0 - d)/(d^2 t)). It is held against ContactService.
func (p *ENPin) Contact(f float64) float64 {
	j := &p.joint
	return 0.591 * math.Sqrt(or(j.E, EN1993E)*math.Abs(f)*pos(j.Hole-j.Pin)/(sq(j.Pin)*j.Middle))
}

// PinEndA are the least dimensions of a pin plate of given thickness (type A)
// under the force f, N: a >= f gM0/(2 t fy) + 2 d0/3 beyond the hole along the
// force and c >= f gM0/(2 t fy) + d0/3 beside it; end and side are what the plate
// has, from the edge of the hole, mm.
//
// EN 1993-1-8 3.13.1, Table 3.9. Limits: tension in the plate's plane, hole on its
// middle line.
func (e EN1993) PinEndA(f, t, fy, d0, end, side float64) (a, c Limit) {
	m0 := e.m0().V
	need := math.Abs(f) * m0 / (2 * pos(t) * fy)
	a = Limit{What: "the metal beyond the pin hole, along the force", Clause: enPinTypeA, Kind: Length,
		Got: end, Bound: need + 2*d0/3,
		formula: put("FEd gM0/(2 t fy) + 2 d0/3 = {f} x {n}/(2 x {l} x {s}) + 2 x {l}/3", math.Abs(f), m0, t, fy, d0)}
	c = Limit{What: "the metal beside the pin hole", Clause: enPinTypeA, Kind: Length,
		Got: side, Bound: need + d0/3,
		formula: put("FEd gM0/(2 t fy) + d0/3 = {f} x {n}/(2 x {l} x {s}) + {l}/3", math.Abs(f), m0, t, fy, d0)}
	return a, c
}

// PinEndB are the bounds on thickness and hole of a pin plate of the standard
// shape (type B) under the force f, N: t >= 0.7 sqrt(f gM0/fy) and d0 <= 2.5 t.
//
// EN 1993-1-8 3.13.1, Table 3.9, type B. The shape itself: the plate 2.5 d0 wide and
// its end 1.6 d0 from the centre of the hole; those two proportions are from
// memory, the figure was not seen whole.
func (e EN1993) PinEndB(f, t, fy, d0 float64) (thick, hole Limit) {
	m0 := e.m0().V
	thick = Limit{What: "the thickness of the pin plate", Clause: enPinTypeB, Kind: Length,
		Got: t, Bound: 0.7 * math.Sqrt(math.Abs(f)*m0/fy),
		formula: put("0.7 sqrt(FEd gM0/fy) = 0.7 x sqrt({f} x {n}/{s})", math.Abs(f), m0, fy)}
	hole = Limit{What: "the pin hole", Clause: enPinTypeB, Kind: Length,
		Got: d0, Bound: 2.5 * t, Most: true, formula: put("2.5 t = 2.5 x {l}", t)}
	return thick, hole
}

// PinAsBolt bounds the length of a pin that may be designed as a bolt, without
// its bending: three diameters, where the pin is not to turn.
//
// EN 1993-1-8 3.13.1(3), from memory.
func PinAsBolt(length, d float64) Limit {
	return Limit{What: "the length of the pin", Clause: enPinNoBends, Kind: Length,
		Got: length, Bound: 3 * d, Most: true, formula: put("3 d = 3 x {l}", d)}
}
