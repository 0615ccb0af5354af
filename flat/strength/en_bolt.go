package strength

import (
	"math"

	"blankwright/flat/num"
)

// ENBolt is a bolt as EN 1993-1-8 computes with it.
type ENBolt struct {
	D      float64 // nominal diameter, mm
	As     float64 // tensile stress area, mm2
	Fub    float64 // nominal tensile strength, MPa: 800 for 8.8 (Table 3.1)
	AlphaV float64 // through the threads, Table 3.4: see AlphaV

	// Countersunk heads hold 0.63 instead of 0.9 in tension.
	Countersunk bool
}

// AlphaV is the factor of Table 3.4 on the shear of a bolt through its threads:
// 0.6 for the classes 4.6, 5.6 and 8.8, 0.5 for 4.8, 5.8, 6.8 and 10.9. ok is
// false for any other class: EN 1993-1-8 does not provide for it.
func AlphaV(class string) (v float64, ok bool) {
	switch class {
	case "4.6", "5.6", "8.8":
		return 0.6, true
	case "4.8", "5.8", "6.8", "10.9":
		return 0.5, true
	}
	return 0, false
}

// NominalFub is the nominal tensile strength of a bolt class, MPa: EN 1993-1-8
// Table 3.1. It is lower than the least values of ISO 898-1 in some classes.
func NominalFub(class string) (fub float64, ok bool) {
	switch class {
	case "4.6", "4.8":
		return 400, true
	case "5.6", "5.8":
		return 500, true
	case "6.8":
		return 600, true
	case "8.8":
		return 800, true
	case "10.9":
		return 1000, true
	}
	return 0, false
}

var (
	enBoltShear   = enClause(true, "3.6.1, Table 3.4, Fv,Rd")
	enBoltTension = enClause(true, "3.6.1, Table 3.4, Ft,Rd")
	enPunching    = enClause(true, "3.6.1, Table 3.4, Bp,Rd")
	enBoltBoth    = enClause(false, "3.6.1, Table 3.4, combined shear and tension")
)

// BoltShear is the shear resistance of one bolt, N: Fv,Rd = alpha_v fub As/gM2 for
// every plane through the threads, 0.6 fub A/gM2 through the shank.
//
// EN 1993-1-8 Table 3.4. Limits: holes of normal clearance; joints longer than
// 15 d hold LongJoint of it; fillers thicker than d/3 Packing of it.
func (e EN1993) BoltShear(b ENBolt, p Planes) Result {
	f := e.m2()
	n, x := float64(p.Thread), float64(p.Shank)
	a := Disc(pos(b.D))
	mode := "shear of the bolt through its threads"
	switch {
	case p.Thread <= 0:
		mode = "shear of the bolt through its shank"
	case p.Shank > 0:
		mode = "shear of the bolt through threads and shank"
	}
	return enResult(b.Fub*(n*b.AlphaV*pos(b.As)+x*0.6*a), f, Force, mode, enBoltShear,
		put("Fv,Rd = fub (alpha_v As n + 0.6 A n) / gM2 = {s} x ({n} x {a} x {n} + 0.6 x {a} x {n}) / {n}",
			b.Fub, b.AlphaV, b.As, n, a, x, f.V))
}

// BoltTension is the tension resistance of one bolt, N: Ft,Rd = 0.9 fub As/gM2,
// 0.63 instead of 0.9 for countersunk ones.
//
// EN 1993-1-8 Table 3.4. Limits: prying (6.2.4) is in the load to compare with and
// not worked out here.
func (e EN1993) BoltTension(b ENBolt) Result {
	f, k := e.m2(), 0.9
	if b.Countersunk {
		k = 0.63
	}
	return enResult(k*b.Fub*pos(b.As), f, Force, "tension of the bolt", enBoltTension,
		put("Ft,Rd = k2 fub As / gM2 = {n} x {s} x {a} / {n}", k, b.Fub, b.As, f.V))
}

// Punching is what a plate of thickness t holds, N, before the bolt's head or nut
// is pulled through it: Bp,Rd = 0.6 pi dm tp fu/gM2. dm is the mean of the
// distances across corners and across flats of head or nut, the smaller, mm.
//
// EN 1993-1-8 Table 3.4.
func (e EN1993) Punching(dm, t, fu float64) Result {
	f := e.m2()
	return enResult(0.6*math.Pi*pos(dm)*pos(t)*fu, f, Force, "the head or nut pulled through the plate", enPunching,
		put("Bp,Rd = 0.6 pi dm tp fu / gM2 = 0.6 x 3.142 x {l} x {l} x {s} / {n}", dm, t, fu, f.V))
}

// BoltShearTension holds shear and tension of one bolt together, N:
// Fv,Ed/Fv,Rd + Ft,Ed/(1.4 Ft,Rd) <= 1.
//
// EN 1993-1-8 Table 3.4. The tension by itself is still to be checked.
func (e EN1993) BoltShearTension(shear, tension float64, fv, ft Result) Ratio {
	v, t := fv.Utilisation(shear), ft.Utilisation(tension)
	return Ratio{V: v + t/1.4, Mode: "shear and tension of the bolt together", Clause: enBoltBoth,
		formula: put("Fv,Ed/Fv,Rd + Ft,Ed/(1.4 Ft,Rd) = {n} + {n}/1.4", v, t)}
}

// LongJoint is the share of the shear resistance of its bolts that a joint of
// length l (first to last bolt along the force) holds, both mm:
// 1 - (Lj - 15 d)/(200 d), from 0.75 to 1.
//
// EN 1993-1-8 3.8, eq. 3.5, from memory.
func LongJoint(l, d float64) (share float64) { return max(0.75, min(1, 1-(l-15*d)/(200*d))) }

// LongJointClause is where LongJoint stands, SmallClearanceClause where
// SmallBoltClearance does.
var (
	LongJointClause      = enClause(false, "3.8, eq. 3.5")
	SmallClearanceClause = enClause(false, "3.6.1(5)")
)

// SmallBoltClearance is the share of the shear resistance that a bolt of 12 or 14 mm
// holds in a hole of 2 mm clearance: 0.85; 1 for others, and for up to 1 mm.
//
// EN 1993-1-8 3.6.1(5), from memory. It asks for it of the classes 4.8, 5.8, 6.8, 8.8
// and 10.9; of the others here too, which is no less. d and hole mm.
func SmallBoltClearance(d, hole float64) (share float64) {
	if d >= 12 && d <= 14 && !num.AtMost(hole, d+1) {
		return 0.85
	}
	return 1
}

// NormalHole is the diameter up to which a round hole of a bolt counts as a normal one,
// mm: 1 mm over under M12, 2 mm up to M24, 3 mm beyond. Of bolts of 12 and 14 mm the
// table has 1 mm; with more SmallBoltClearance is put on their shear. A larger hole is
// an oversize one.
//
// EN 1090-2, Table 11, from memory.
func NormalHole(d float64) float64 {
	switch {
	case d < 12:
		return d + 1
	case num.AtMost(d, 24):
		return d + 2
	}
	return d + 3
}

// Packing is the share of its shear resistance that a bolt through packing of
// thickness t holds: 9 d/(8 d + 3 t), at most 1; it counts where t > d/3.
//
// EN 1993-1-8 3.6.1(12), eq. 3.3, from memory.
func Packing(t, d float64) float64 {
	if t <= d/3 {
		return 1
	}
	return min(1, 9*d/(8*d+3*t))
}
