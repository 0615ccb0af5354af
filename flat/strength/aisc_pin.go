package strength

import "math"

// PinPlate is a plate pulled by one pin.
type PinPlate struct {
	T     float64 // thickness, mm
	Width float64 // of the plate at the hole, across the force, mm
	Pin   float64 // diameter of the pin, mm
	Hole  float64 // diameter of the hole, mm

	// End is a: from the edge of the hole to the edge of the plate along the
	// force, shortest, mm.
	End float64

	// Side1 and Side2 are from the edge of the hole to the edges of the plate
	// on either side, across the force, mm.
	Side1, Side2 float64

	// Corner is c: from the edge of the hole to a corner cut at 45 degrees, on
	// the plane at right angles to the cut, mm; 0 where no corner is cut.
	Corner float64

	Fy, Fu float64 // of the plate, MPa
	PinFy  float64 // of the pin, MPa; 0 where the pin is at least as strong as the plate

	// Needs is the effective width that the load needs, mm, where the shape is asked of
	// that; 0 for all that counts.
	Needs float64

	// Within is how far off the middle between the edges still counts as midway, mm.
	Within float64

	// Turns says that the pin must let the parts move under full load.
	Turns bool
}

var (
	aiscPinTension = citeSame(true, "D5.1(a), eq. D5-1")
	aiscPinShear   = citeSame(true, "D5.1(b), eq. D5-2")
	aiscPinBearing = citeSame(true, "J7, eq. J7-1")
	aiscPinYield   = citeSame(true, "D2, eq. D2-1")
	aiscPinShape   = citeSame(true, "D5.2")
)

// AISCPinPlate is what D5 says about a pin plate.
type AISCPinPlate struct {
	EffectiveWidth float64 // be, mm
	Rupture        Result  // across the force, beside the hole
	Shear          Result  // of the end, along the force
	Bearing        Result  // of the pin on the plate
	Yield          Result  // of the gross section

	// What D5.2 asks of the shape.
	Midway   Limit // the hole between its sides
	Fit      Limit // play of the pin in the hole; asked only where the pin turns
	End      Limit // a >= 1.33 be
	Wide     Limit // w >= 2 be + d
	CutBack  Limit // c >= a where a corner is cut
	hasFit   bool
	hasSnipe bool
}

// Governs is the least of the four resistances.
func (p *AISCPinPlate) Governs() Result { return Least(p.Rupture, p.Shear, p.Bearing, p.Yield) }

// AppendLimits appends what D5.2 asks of this plate; what does not concern it is
// left out.
func (p *AISCPinPlate) AppendLimits(to []Limit) []Limit {
	to = append(to, p.Midway)
	if p.hasFit {
		to = append(to, p.Fit)
	}
	to = append(to, p.End, p.Wide)
	if p.hasSnipe {
		to = append(to, p.CutBack)
	}
	return to
}

// PinPlate is the strength and the shape of a plate on one pin.
//
// AISC 360 D5.1: rupture beside the hole Pn = Fu 2 t be, be = 2 t + 0.63 in
// (2 t + 16 mm) but not more than the metal there is (eq. D5-1); shear of the end
// Pn = 0.6 Fu Asf, Asf = 2 t (a + d/2), d of the pin (eq. D5-2); both phi 0.75,
// omega 2.00. Bearing J7: Rn = 1.8 Fy Apb, Apb = d t, Fy the lower of pin and
// plate; phi 0.75, omega 2.00. Yielding D2: Pn = Fy Ag; phi 0.90, omega 1.67.
// D5.2 states the dimensions. Limits: tension only, one pin, plate not stiffened
// out of its plane; the pin's own bending and shear are not here (EN 1993-1-8
// Table 3.10 has them); no repeated load (Appendix 3).
func (a AISC) PinPlate(p PinPlate) AISCPinPlate {
	side := pos(min(p.Side1, p.Side2))
	extra := a.pick(16, 0.63)
	be := min(2*p.T+extra, side)
	fy := p.Fy
	if p.PinFy > 0 {
		fy = min(fy, p.PinFy)
	}
	shape := be
	if p.Needs > 0 {
		shape = min(be, p.Needs)
	}
	t, end := pos(p.T), pos(p.End)
	asf := 2 * t * (end + p.Pin/2)
	r := AISCPinPlate{
		EffectiveWidth: be,
		hasFit:         p.Turns,
		hasSnipe:       p.Corner > 0,
		Rupture: a.result(p.Fu*2*t*be, Force, onRupture, "rupture beside the pin hole", &aiscPinTension,
			put("Pn = Fu 2 t be = {s} x 2 x {l} x min(2 x {l} + {l}, {l})", p.Fu, p.T, p.T, extra, side)),
		Shear: a.result(0.6*p.Fu*asf, Force, onRupture, "shear of the plate's end beyond the pin", &aiscPinShear,
			put("Pn = 0.6 Fu 2 t (a + d/2) = 0.6 x {s} x 2 x {l} x ({l} + {l}/2)", p.Fu, p.T, p.End, p.Pin)),
		Bearing: a.result(1.8*fy*pos(p.Pin)*t, Force, onRupture, "bearing of the pin on the plate", &aiscPinBearing,
			put("Rn = 1.8 Fy d t = 1.8 x {s} x {l} x {l}", fy, p.Pin, p.T)),
		Yield: a.result(p.Fy*pos(p.Width)*t, Force, onYield, "yielding of the gross section in tension", &aiscPinYield,
			put("Pn = Fy w t = {s} x {l} x {l}", p.Fy, p.Width, p.T)),
	}
	c := aiscPinShape[a.Edition]
	play := a.pick(1, 1.0/32)
	r.Midway = Limit{What: "the hole's distance from the middle between the edges", Clause: c, Kind: Length,
		Got: math.Abs(p.Side1-p.Side2) / 2, Bound: p.Within, Most: true, formula: put("midway between the edges, as near as it is cut")}
	r.Fit = Limit{What: "the play of the pin in its hole", Clause: c, Kind: Length,
		Got: p.Hole - p.Pin, Bound: play, Most: true, formula: put("1/32 in (1 mm)")}
	r.End = Limit{What: "the metal beyond the pin hole, along the force", Clause: c, Kind: Length,
		Got: p.End, Bound: 1.33 * shape, formula: put("1.33 be = 1.33 x {l}", shape)}
	r.Wide = Limit{What: "the width at the pin hole", Clause: c, Kind: Length,
		Got: p.Width, Bound: 2*shape + p.Pin, formula: put("2 be + d = 2 x {l} + {l}", shape, p.Pin)}
	r.CutBack = Limit{What: "the metal between the pin hole and the cut corner", Clause: c, Kind: Length,
		Got: p.Corner, Bound: p.End, formula: put("a, the metal beyond the hole along the force")}
	if p.Needs > 0 && r.End.Bound < p.End {
		r.CutBack.Bound, r.CutBack.formula = r.End.Bound, put("a, what is wanted beyond the hole along the force")
	}
	return r
}
