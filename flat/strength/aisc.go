package strength

// AISC computes by AISC 360, Specification for Structural Steel Buildings. The
// zero value is LRFD by the edition of 2022 with the lengths that it prints in
// mm.
//
// The editions of 2016 and 2022 agree in every formula here but one (the cap of
// F11 on the plastic moment). What changed is where things stand: section J3 of
// 2022 has one more paragraph at its head, so J3.6 of 2016 (strength of bolts)
// is J3.7, J3.7 (tension with shear) J3.8, J3.8 (slip) J3.9 and J3.10 (bearing
// and tear-out) J3.11; the directional factor of fillet welds is eq. J2-5 in
// both but by itself (kds) in 2022; F11 has its equations numbered one further.
// Groups A, B and C of bolts are Groups 120, 150 and 200 in 2022. The numbers of
// 2022 are from memory.
type AISC struct {
	Method  Method
	Edition Edition
	Units   Units // which of the lengths printed side by side counts
}

// Method is which of the two ways of AISC 360 to hold load and resistance apart.
type Method uint8

// The two methods.
const (
	LRFD Method = iota // factored loads against phi Rn
	ASD                // service loads against Rn/omega
)

func (m Method) String() string {
	if m == ASD {
		return "ASD"
	}
	return "LRFD"
}

// Edition is the edition of AISC 360.
type Edition uint8

// The editions.
const (
	AISC2022 Edition = iota
	AISC2016
)

// SteelE is the modulus of elasticity of steel by AISC 360, MPa (29 000 ksi is
// printed as 200 000 MPa beside it).
const SteelE = 200000

// factors are the resistance factor of LRFD and the safety factor of ASD.
type factors struct{ phi, omega float64 }

var (
	onYield      = factors{0.90, 1.67}
	onRupture    = factors{0.75, 2.00}
	onShearYield = factors{1.00, 1.50} // J4.2 only
)

// editions is one clause in both editions.
type editions [2]Clause

func cite(read bool, in2022, in2016 string) editions {
	return editions{AISC2022: {"AISC 360-22 " + in2022, read}, AISC2016: {"AISC 360-16 " + in2016, read}}
}

func citeSame(read bool, where string) editions { return cite(read, where, where) }

// result applies the method's factor.
func (a AISC) result(nominal float64, k Kind, f factors, mode string, c *editions, form formula) Result {
	nominal = pos(nominal)
	r := Result{Nominal: nominal, Kind: k, Mode: mode, Clause: c[a.Edition], formula: form}
	if a.Method == ASD {
		r.Factor = Factor{"omega", f.omega}
		r.Design = nominal / f.omega
	} else {
		r.Factor = Factor{"phi", f.phi}
		r.Design = nominal * f.phi
	}
	return r
}

// raise puts the method's factor on a required stress instead of on the
// resistance: divided by phi, times omega.
func (f factors) raise(m Method, required float64) float64 {
	if m == ASD {
		return required * f.omega
	}
	return required / f.phi
}

// pick is the length that is printed in inches or the one in mm beside it, mm.
func (a AISC) pick(mm, inches float64) float64 {
	if a.Units == Inch {
		return inches * inch
	}
	return mm
}
