package strength

import "math"

var (
	aiscTensionYield   = citeSame(true, "J4.1, eq. J4-1 (D2, eq. D2-1)")
	aiscTensionRupture = citeSame(true, "J4.1, eq. J4-2 (D2, eq. D2-2)")
	aiscShearYield     = citeSame(true, "J4.2, eq. J4-3")
	aiscShearRupture   = citeSame(true, "J4.2, eq. J4-4")
	aiscBlock          = citeSame(true, "J4.3, eq. J4-5")
	aiscStocky         = citeSame(false, "J4.4, eq. J4-6")
	aiscColumn         = citeSame(false, "J4.4 and E3, eqs. E3-1 to E3-4")
)

// HoleWidth is the width that a bolt hole takes off a net section, mm: its
// nominal dimension across the force plus 1/16 in (2 mm) for what punching or
// cutting spoils.
//
// AISC 360-16 B4.3b (360-22 the same), from memory. Not for pin holes (D5).
func (a AISC) HoleWidth(nominal float64) float64 { return nominal + a.pick(2, 1.0/16) }

// SplicePlateNet is the share of the gross area that the net area of a bolted
// splice plate counts for at most (AISC 360 J4.1, from memory).
const SplicePlateNet = 0.85

// TensionYield is what the gross area ag (mm2) holds in tension, N: Rn = Fy Ag.
//
// AISC 360 J4.1, eq. J4-1; phi 0.90, omega 1.67. Limits: the force is spread over
// all of ag; where it enters at few bolts or a short weld only a Whitmore width
// counts.
func (a AISC) TensionYield(fy, ag float64) Result {
	return a.result(fy*pos(ag), Force, onYield, "yielding of the gross section in tension", &aiscTensionYield,
		put("Rn = Fy Ag = {s} x {a}", fy, ag))
}

// TensionRupture is what the effective net area ae (mm2) holds in tension, N:
// Rn = Fu Ae.
//
// AISC 360 J4.1, eq. J4-2; phi 0.75, omega 2.00. Ae is the net area of the
// weakest chain of holes (WeakestChain) with HoleWidth for each, times U of
// Table D3.1 (1 for a flat plate gripped over its whole width); of a bolted
// splice plate at most SplicePlateNet of the gross area.
func (a AISC) TensionRupture(fu, ae float64) Result {
	return a.result(fu*pos(ae), Force, onRupture, "rupture of the net section in tension", &aiscTensionRupture,
		put("Rn = Fu Ae = {s} x {a}", fu, ae))
}

// ShearYield is what the gross area agv (mm2) holds in shear, N:
// Rn = 0.60 Fy Agv.
//
// AISC 360 J4.2, eq. J4-3; phi 1.00, omega 1.50. Limits: connecting plates that do
// not buckle in shear; a plate that may is ShearG.
func (a AISC) ShearYield(fy, agv float64) Result {
	return a.result(0.60*fy*pos(agv), Force, onShearYield, "yielding of the gross section in shear", &aiscShearYield,
		put("Rn = 0.60 Fy Agv = 0.60 x {s} x {a}", fy, agv))
}

// ShearRupture is what the net area anv (mm2) holds in shear, N:
// Rn = 0.60 Fu Anv. It is also the base metal beside a weld of length L in a
// plate t, Anv = t L.
//
// AISC 360 J4.2, eq. J4-4; phi 0.75, omega 2.00.
func (a AISC) ShearRupture(fu, anv float64) Result {
	return a.result(0.60*fu*pos(anv), Force, onRupture, "rupture of the net section in shear", &aiscShearRupture,
		put("Rn = 0.60 Fu Anv = 0.60 x {s} x {a}", fu, anv))
}

// Block is a piece of plate that bolts may pull out whole: sheared along the
// force and torn across it.
type Block struct {
	T            float64 // thickness, mm
	Shear        float64 // gross length of all shear paths, mm
	ShearHoles   float64 // what the holes take off it, mm
	Tension      float64 // gross length of the path across the force, mm
	TensionHoles float64 // what the holes take off it, mm
	Fy, Fu       float64 // of the plate, MPa
	Uneven       bool    // the tension is not uniform: eccentric load, or more than one row of bolts in a coped beam
}

// EdgeBlock is the block between one row of bolts and the edge beside it: sheared
// along the row and torn out to that edge. end is from the last bolt to the end
// of the plate along the force, edge from the row to the edge beside it, hole
// the width of a hole as it counts for areas; mm.
func EdgeBlock(t, end, pitch float64, bolts int, edge, hole float64) Block {
	n := float64(bolts)
	return Block{T: t, Shear: end + (n-1)*pitch, ShearHoles: (n - 0.5) * hole, Tension: edge, TensionHoles: hole / 2}
}

// MiddleBlock is the block between the outer of several rows of bolts: sheared
// along both and torn between them. gauge is the distance from one row to the
// next; the rest is as in EdgeBlock.
func MiddleBlock(t, end, pitch float64, bolts, rows int, gauge, hole float64) Block {
	n, m := float64(bolts), float64(rows-1)
	return Block{T: t, Shear: 2 * (end + (n-1)*pitch), ShearHoles: 2 * (n - 0.5) * hole, Tension: m * gauge, TensionHoles: m * hole}
}

// GrossShear is Agv, mm2.
func (b Block) GrossShear() float64 { return pos(b.T) * pos(b.Shear) }

// NetShear is Anv, mm2.
func (b Block) NetShear() float64 { return pos(b.T) * pos(b.Shear-b.ShearHoles) }

// NetTension is Ant, mm2.
func (b Block) NetTension() float64 { return pos(b.T) * pos(b.Tension-b.TensionHoles) }

// BlockShear is what a block holds, N: Rn = min(0.60 Fu Anv, 0.60 Fy Agv) +
// Ubs Fu Ant, Ubs 1.0, or 0.5 where the tension is uneven.
//
// AISC 360 J4.3, eq. J4-5; phi 0.75, omega 2.00. Limits: one block; the caller
// looks for the worst one. A single bolt's tear-out is TearOut.
func (a AISC) BlockShear(b Block) Result {
	ubs := 1.0
	if b.Uneven {
		ubs = 0.5
	}
	agv, anv, ant := b.GrossShear(), b.NetShear(), b.NetTension()
	rupture, yield := 0.60*b.Fu*anv, 0.60*b.Fy*agv
	mode := "block shear: rupture of the sides and of the end"
	if yield < rupture {
		mode = "block shear: yielding of the sides, rupture of the end"
	}
	return a.result(min(rupture, yield)+ubs*b.Fu*ant, Force, onRupture, mode, &aiscBlock,
		put("Rn = min(0.60 Fu Anv, 0.60 Fy Agv) + Ubs Fu Ant = min(0.60 x {s} x {a}, 0.60 x {s} x {a}) + {n} x {s} x {a}",
			b.Fu, anv, b.Fy, agv, ubs, b.Fu, ant))
}

// PlateCompression is what a plate of gross area ag (mm2) holds in compression,
// N. slenderness is Lc/r, r = t/sqrt(12) of a plate that buckles out of its
// plane; e is its modulus of elasticity.
//
// AISC 360 J4.4: Fy Ag up to Lc/r = 25 (eq. J4-6), else E3 (eqs. E3-1 to E3-4):
// Fcr = 0.658^(Fy/Fe) Fy while Fy/Fe <= 2.25, 0.877 Fe beyond, Fe = pi^2
// E/(Lc/r)^2; phi 0.90, omega 1.67. Limits: no local buckling of a free edge
// (FreeEdge), no bending beside the force.
func (a AISC) PlateCompression(fy, e, ag, slenderness float64) Result {
	if slenderness <= 25 {
		return a.result(fy*pos(ag), Force, onYield, "yielding of the gross section in compression", &aiscStocky,
			put("Pn = Fy Ag = {s} x {a}", fy, ag))
	}
	fe := math.Pi * math.Pi * e / sq(slenderness)
	fcr := 0.877 * fe
	if fy <= 2.25*fe {
		fcr = math.Pow(0.658, fy/fe) * fy
	}
	return a.result(fcr*pos(ag), Force, onYield, "buckling of the plate out of its plane", &aiscColumn,
		put("Pn = Fcr Ag = {s} x {a}", fcr, ag))
}

// WhitmoreWidth is the width over which a force that enters along a joint of
// length l between rows width w apart has spread at its end, mm: w + 2 l tan 30
// degrees.
//
// R. E. Whitmore, Experimental Investigation of Stresses in Gusset Plates,
// University of Tennessee, 1952; AISC Manual, Part 9 (from memory). Only what
// lies on the plate counts.
func WhitmoreWidth(w, l float64) float64 { return w + 2*l/math.Sqrt(3) }
