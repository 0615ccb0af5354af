package strength

import "blankwright/flat/num"

// BoltStress are the nominal stresses of AISC 360 Table J3.2, on the area of the
// shank, MPa.
type BoltStress struct {
	Tension     float64 // Fnt
	ShearThread float64 // Fnv, threads in the shear plane (N)
	ShearShank  float64 // Fnv, threads outside it (X)
}

// ThreadedPart gives the nominal stresses of a bolt or a threaded part that
// Table J3.2 does not name, from its least tensile strength fu, MPa: 0.75 Fu,
// 0.450 Fu, 0.563 Fu.
//
// AISC 360-16 Table J3.2 (AISC 360-22 the same), "threaded parts". Limits: fu as
// the bolt's own standard gives it; the shear stresses allow for a joint of up
// to 38 in (965 mm) in the direction of the force, longer end-loaded ones hold
// 0.833 of it (footnote b).
func ThreadedPart(fu float64) BoltStress {
	return BoltStress{0.75 * fu, 0.450 * fu, 0.563 * fu}
}

// LongPattern is the share of its shear strength that a bolt has in an end-loaded
// pattern of length l along the force, mm: 0.833 beyond 38 in (965 mm), else 1.
//
// AISC 360-16 Table J3.2, footnote b (360-22 the same), from memory.
func (a AISC) LongPattern(l float64) (share float64, c Clause) {
	if num.AtMost(l, a.pick(965, 38)) {
		return 1, Clause{}
	}
	return 0.833, aiscLong[a.Edition]
}

// Planes counts the shear planes of one bolt: through its threads and through
// its shank. Double shear is two planes.
type Planes struct{ Thread, Shank int }

var (
	aiscBolt = cite(true, "J3.7, eq. J3-1 and Table J3.2", "J3.6, eq. J3-1 and Table J3.2")
	aiscBoth = cite(false, "J3.8, eqs. J3-2 and J3-3", "J3.7, eqs. J3-2 and J3-3")
	aiscLong = citeSame(false, "Table J3.2, footnote b")
	aiscSlip = cite(true, "J3.9, eq. J3-4", "J3.8, eq. J3-4")
)

// BoltShear is the shear strength of one bolt, N: Rn = Fnv Ab for every plane.
// d is its nominal diameter, mm.
//
// AISC 360-22 J3.7, eq. J3-1 (360-16 J3.6); phi 0.75, omega 2.00. Limits: parts
// in contact (no filler over 1/4 in, J5.2), pattern not longer than 38 in
// (965 mm), no bending of the bolt across gaps.
func (a AISC) BoltShear(d float64, s BoltStress, p Planes) Result {
	mode := "shear of the bolt through its threads"
	switch {
	case p.Thread <= 0:
		mode = "shear of the bolt through its shank"
	case p.Shank > 0:
		mode = "shear of the bolt through threads and shank"
	}
	n, x := float64(p.Thread), float64(p.Shank)
	ab := Disc(pos(d))
	return a.result(ab*(n*s.ShearThread+x*s.ShearShank), Force, onRupture, mode, &aiscBolt,
		put("Rn = Ab (Fnv,N n + Fnv,X n) = {a} x ({s} x {n} + {s} x {n})", ab, s.ShearThread, n, s.ShearShank, x))
}

// BoltTension is the tensile strength of one bolt, N: Rn = Fnt Ab.
//
// AISC 360-22 J3.7, eq. J3-1 (360-16 J3.6); phi 0.75, omega 2.00. Limits: the
// load to compare with includes prying (J3.7), which nothing here works out; no
// repeated load (Appendix 3).
func (a AISC) BoltTension(d float64, s BoltStress) Result {
	ab := Disc(pos(d))
	return a.result(s.Tension*ab, Force, onRupture, "tension of the bolt", &aiscBolt,
		put("Rn = Fnt Ab = {s} x {a}", s.Tension, ab))
}

// BoltTensionShear is the tensile strength, N, that one bolt has left beside a
// shear stress: Rn = F'nt Ab, F'nt = 1.3 Fnt - Fnt frv/(phi Fnv) <= Fnt (ASD:
// omega Fnt frv/Fnv). frv is the required shear stress on Ab, MPa, from the same
// load combination that the method asks for; fnv is the nominal shear stress of
// its plane, MPa.
//
// AISC 360-22 J3.8, eqs. J3-2, J3-3a, J3-3b (360-16 J3.7); phi 0.75, omega 2.00.
// Where the shear takes 30 % or less of its strength nothing is lost. Limits:
// bearing-type joints; the shear is still to be checked by itself.
func (a AISC) BoltTensionShear(d float64, s BoltStress, fnv, frv float64) Result {
	ab := Disc(pos(d))
	taken := share(onRupture.raise(a.Method, frv), fnv)
	fnt := pos(min(1.3*s.Tension-s.Tension*taken, s.Tension))
	mode := "tension of the bolt beside its shear"
	if fnt >= s.Tension {
		mode = "tension of the bolt, its shear too small to matter"
	}
	return a.result(fnt*ab, Force, onRupture, mode, &aiscBoth,
		put("Rn = min(1.3 Fnt - Fnt r, Fnt) Ab = min(1.3 x {s} - {s} x {n}, {s}) x {a}", s.Tension, s.Tension, taken, s.Tension, ab))
}

// SlipJoint is what one bolt of a slip-critical joint holds by friction.
type SlipJoint struct {
	Mu      float64 // mean slip coefficient: 0.30 Class A, 0.50 Class B
	Du      float64 // ratio of mean to specified pretension; 1.13 where not given
	Filler  float64 // hf; 1.0 where not given
	Tension float64 // least pretension Tb, N (Table J3.1)
	Planes  int     // slip planes
	Hole    HoleKind
}

// Slip is the resistance of one bolt to slip, N: Rn = mu Du hf Tb ns.
//
// AISC 360-22 J3.9, eq. J3-4 (360-16 J3.8). phi 1.00, omega 1.50 for round
// standard holes and short slots across the force; 0.85, 1.76 for oversized
// holes and short slots along it; 0.70, 2.14 for long slots (factors from
// memory). Limits: pretensioned bolts on prepared surfaces; shear and bearing are
// still to be checked.
func (a AISC) Slip(j SlipJoint) Result {
	if j.Du == 0 {
		j.Du = 1.13
	}
	if j.Filler == 0 {
		j.Filler = 1
	}
	f := factors{1.00, 1.50}
	switch j.Hole {
	case OversizedHole, ShortSlotAlong:
		f = factors{0.85, 1.76}
	case LongSlotAlong, LongSlotAcross:
		f = factors{0.70, 2.14}
	}
	n := float64(j.Planes)
	return a.result(j.Mu*j.Du*j.Filler*j.Tension*n, Force, f, "slip", &aiscSlip,
		put("Rn = mu Du hf Tb ns = {n} x {n} x {n} x {f} x {n}", j.Mu, j.Du, j.Filler, j.Tension, n))
}
