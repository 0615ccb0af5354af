package strength

// HoleKind is the shape of a bolt hole and how it lies to the force.
type HoleKind uint8

// The kinds of bolt holes.
const (
	RoundHole HoleKind = iota // standard (AISC), normal (EN)
	OversizedHole
	ShortSlotAlong // its long axis along the force
	ShortSlotAcross
	LongSlotAlong
	LongSlotAcross
)

// HoleBearing is one bolt pressing on the edge of its hole.
type HoleBearing struct {
	D  float64 // nominal diameter of the bolt, mm
	T  float64 // thickness of the plate, mm
	Fu float64 // tensile strength of the plate, not of the bolt, MPa

	// Clear is lc, mm: from the edge of the hole to the next edge of metal in the
	// direction of the force, be it the plate's, a hole's or an opening's.
	// +Inf where there is none.
	Clear float64

	Hole HoleKind

	// Elongates accepts that the hole grows by more than 1/4 in before its
	// strength is reached: deformation at service load is no design
	// consideration. Not so unless somebody says so.
	Elongates bool
}

var (
	aiscBearing = cite(false, "J3.11, eqs. J3-6a, J3-6b, J3-6e", "J3.10, eqs. J3-6a, J3-6b, J3-6e")
	aiscTearOut = cite(false, "J3.11, eqs. J3-6c, J3-6d, J3-6f", "J3.10, eqs. J3-6c, J3-6d, J3-6f")
)

// Bearing is what the plate holds before the bolt crushes its hole, N:
// Rn = 2.4 d t Fu, 3.0 d t Fu where the hole may elongate, 2.0 d t Fu in a long
// slot across the force.
//
// AISC 360-22 J3.11, eqs. J3-6a, J3-6b, J3-6e (360-16 J3.10; up to 360-10 one
// equation with tear-out); phi 0.75, omega 2.00. Limits: bolted parts pressed
// together; a plain pin is J7, not this.
func (a AISC) Bearing(h HoleBearing) Result {
	c := 2.4
	switch {
	case h.Hole == LongSlotAcross:
		c = 2.0
	case h.Elongates:
		c = 3.0
	}
	return a.result(c*pos(h.D)*pos(h.T)*h.Fu, Force, onRupture, "bearing at the hole", &aiscBearing,
		put("Rn = c d t Fu = {n} x {l} x {l} x {s}", c, h.D, h.T, h.Fu))
}

// TearOut is what the plate holds before the bolt tears out along the force, N:
// Rn = 1.2 lc t Fu, 1.5 lc t Fu where the hole may elongate, 1.0 lc t Fu in a
// long slot across the force.
//
// AISC 360-22 J3.11, eqs. J3-6c, J3-6d, J3-6f (360-16 J3.10); phi 0.75, omega
// 2.00. Limits as Bearing.
func (a AISC) TearOut(h HoleBearing) Result {
	c := 1.2
	switch {
	case h.Hole == LongSlotAcross:
		c = 1.0
	case h.Elongates:
		c = 1.5
	}
	return a.result(c*pos(h.Clear)*pos(h.T)*h.Fu, Force, onRupture, "tear-out along the force", &aiscTearOut,
		put("Rn = c lc t Fu = {n} x {l} x {l} x {s}", c, h.Clear, h.T, h.Fu))
}

// BoltHole is the lower of Bearing and TearOut. The strength of a joint is the
// sum over its bolts of the lower of this and BoltShear (J3.7 user note in
// 360-22, J3.6 in 360-16).
func (a AISC) BoltHole(h HoleBearing) Result { return Least(a.Bearing(h), a.TearOut(h)) }
