package strength

// MachineDesign computes joints the way textbooks of machine design do, with one
// design factor n on the strength of the material and the distortion-energy shear
// strength of 0.577 times it.
//
// Shigley's Mechanical Engineering Design, 9th ed. (2010), section 8-11. Limits:
// steady load shared evenly by the bolts; no standard's edge distances or hole
// deductions are in it.
type MachineDesign struct{ N float64 }

const shearShare = 0.577 // distortion energy: 1/sqrt(3)

var shigleyJoint = Clause{"Shigley, Mechanical Engineering Design, 9th ed., 8-11 and Example 8-6", true}

func (m MachineDesign) result(nominal float64, mode string, form formula) Result {
	nominal = pos(nominal)
	return Result{Nominal: nominal, Design: nominal / m.N, Kind: Force, Mode: mode, Clause: shigleyJoint,
		Factor: Factor{"n", m.N}, formula: form}
}

// Bearing is the force, N, of bolts of diameter d on members of thickness t: n bolts,
// t d S/nd each; strength is that of the bolt (its proof strength) or of the member
// (its yield strength), whichever is asked about, MPa.
func (m MachineDesign) Bearing(d, t, strength float64, bolts int) Result {
	n := float64(bolts)
	return m.result(n*pos(t)*pos(d)*strength, "bearing of bolts and members",
		put("F = n t d S / nd = {n} x {l} x {l} x {s} / {n}", n, t, d, strength, m.N))
}

// BoltShear is the force, N, that planes shear planes of area (mm2: shank, or minor
// area through threads) hold: 0.577 Sp A/nd each.
func (m MachineDesign) BoltShear(area, proof float64, planes int) Result {
	n := float64(planes)
	return m.result(shearShare*n*pos(area)*proof, "shear of the bolts",
		put("F = 0.577 n A Sp / nd = 0.577 x {n} x {a} x {s} / {n}", n, area, proof, m.N))
}

// EdgeShear is the force, N, at which bolts shear out to an edge at the distance a
// from their centres, two planes each: 2 n a t 0.577 Sy/nd.
func (m MachineDesign) EdgeShear(a, t, yield float64, bolts int) Result {
	n := float64(bolts)
	return m.result(2*n*pos(a)*pos(t)*shearShare*yield, "shear of the members out to the edge",
		put("F = 2 n a t 0.577 Sy / nd = 2 x {n} x {l} x {l} x 0.577 x {s} / {n}", n, a, t, yield, m.N))
}

// Tension is the force, N, that an area of plate (mm2), gross or net, holds:
// A Sy/nd.
func (m MachineDesign) Tension(area, yield float64) Result {
	return m.result(pos(area)*yield, "yielding of the members in tension",
		put("F = A Sy / nd = {a} x {s} / {n}", area, yield, m.N))
}
