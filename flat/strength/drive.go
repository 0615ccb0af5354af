package strength

import (
	"math"
	"slices"
)

// Derived is a load worked out from something else, with what had to be taken for
// granted.
type Derived struct {
	V       float64 // N, or N·mm for a torque
	Kind    Kind
	What    string // in words
	formula formula
	assumed *[4]string // unused ones are ""
}

// Formula is the formula with the numbers put in.
func (d Derived) Formula(u Units) string {
	b := append(d.formula.append(nil, u), " = "...)
	return string(d.Kind.Append(b, d.V, u))
}

// Assumptions are the things taken for granted, one sentence each.
func (d Derived) Assumptions() []string {
	if d.assumed == nil {
		return nil
	}
	n := slices.Index(d.assumed[:], "")
	if n < 0 {
		n = len(d.assumed)
	}
	return slices.Clone(d.assumed[:n])
}

var (
	fromMotor = [4]string{
		"the motor gives its stated torque at standstill and the torque is not limited by its controller",
		"the efficiency covers all losses between motor and axle",
		"the tyres hold this torque; where they do not, traction is the limit",
	}
	fromGrip = [4]string{
		"the axle carries its static load on level ground; no weight shifts on to it under drive or braking",
		"the friction between tyre and ground is that of both wheels of the axle together",
		"shock from a wheel that hops and grips again is not in it",
	}
	fromBraking = [4]string{
		"both wheels of the axle brake to the limit of the ground",
		"the brakes sit on the axle, so its brackets hold their whole torque",
		"the axle carries its static load on level ground; no weight shifts on to it or off it",
	}
	fromTorque = [4]string{
		"the whole torque reaches the ground through tyres of this radius under load",
	}
	byOneLink = [4]string{
		"the springs push back at the distance h from the link and hold none of the couple by their own stiffness",
		"the link runs parallel to the ground",
		"both ends of the link turn freely",
	}
	byTwoLinks = [4]string{
		"both links are parallel to the ground, one over and one under the axle",
		"the springs carry weight only and hold neither thrust nor torque",
		"the torque acts on the axle and is held by the links alone",
		"both ends of the links turn freely",
	}
	bySidePull = [4]string{
		"the link pulls along the line between its pivots",
		"nothing else takes the sideways part; give it once for each bracket that has to",
	}
	byShock = [4]string{
		"the factor stands for shock and is common practice, 2 to 3; it is no measurement",
	}
)

// Weight is the weight of a mass in kg under standard gravity, N.
func Weight(mass float64) float64 { return mass * StandardGravity }

// MotorTorque is the torque on the driven axle, N·mm, of a motor or an engine of
// torque motor, N·mm: motor x ratio x efficiency (0 to 1).
func MotorTorque(motor, ratio, efficiency float64) Derived {
	return Derived{V: motor * ratio * efficiency, Kind: Torque, What: "torque of the drive at the axle", assumed: &fromMotor,
		formula: put("T = Tm i eff = {t} x {n} x {n}", motor, ratio, efficiency)}
}

// TractionTorque is the most torque that the ground takes from the driven axle,
// N·mm: mu W r, W the weight on the axle, N, r the tyre's radius under load, mm.
func TractionTorque(mu, weight, radius float64) Derived {
	return Derived{V: mu * weight * radius, Kind: Torque, What: "torque at which the tyres slip", assumed: &fromGrip,
		formula: put("T = mu W r = {n} x {f} x {l}", mu, weight, radius)}
}

// DriveTorque is what the axle can see in driving: the smaller of motor and
// traction.
func DriveTorque(motor, traction Derived) Derived {
	if traction.V < motor.V {
		return traction
	}
	return motor
}

// BrakeForce is the most force between ground and tyres of an axle in braking, N:
// mu W. It can be more than the drive ever gives.
func BrakeForce(mu, weight float64) Derived {
	return Derived{V: mu * weight, Kind: Force, What: "braking force at the ground", assumed: &fromBraking,
		formula: put("Fx = mu W = {n} x {f}", mu, weight)}
}

// BrakeTorque is the torque of that force about the axle, N·mm: mu W r.
func BrakeTorque(mu, weight, radius float64) Derived {
	return Derived{V: mu * weight * radius, Kind: Torque, What: "braking torque at the axle", assumed: &fromBraking,
		formula: put("T = mu W r = {n} x {f} x {l}", mu, weight, radius)}
}

// TyreForce is the force at the ground, N, of a torque on the axle, N·mm: T/r.
func TyreForce(torque, radius float64) Derived {
	return Derived{V: torque / radius, Kind: Force, What: "force of the tyres on the ground", assumed: &fromTorque,
		formula: put("Fx = T/r = {t} / {l}", torque, radius)}
}

// OneLink is the force in a single link that keeps an axle on leaf springs from
// winding up, N: T/h, h from the link's line to that of the springs, mm.
//
// Statics of a couple.
func OneLink(torque, h float64) Derived {
	return Derived{V: torque / h, Kind: Force, What: "force in the link", assumed: &byOneLink,
		formula: put("F = T/h = {t} / {l}", torque, h)}
}

// TwoLinks are the forces in two links that hold an axle, N: the lower one, below
// the axle by below, Fx (r + above)/S, and the upper one, over it by above,
// Fx (r - below)/S the other way, S = above + below; Fx is the force at the ground,
// r the tyre's radius, mm. The lower link pushes the cart on in driving and the upper
// one pulls it back; in braking both turn round.
//
// Statics: forces along the ground and moments about the axle.
func TwoLinks(fx, radius, above, below float64) (lower, upper Derived) {
	s := above + below
	lower = Derived{V: fx * (radius + above) / s, Kind: Force, What: "force in the lower link", assumed: &byTwoLinks,
		formula: put("F = Fx (r + hu)/(hu + hl) = {f} x ({l} + {l})/({l} + {l})", fx, radius, above, above, below)}
	upper = Derived{V: fx * (radius - below) / s, Kind: Force, What: "force in the upper link", assumed: &byTwoLinks,
		formula: put("F = Fx (r - hl)/(hu + hl) = {f} x ({l} - {l})/({l} + {l})", fx, radius, below, above, below)}
	return lower, upper
}

// SidePull is the sideways part, N, of the force in a link that stands at an angle
// (rad) to the plane in which its bracket was drawn: F sin angle.
func SidePull(force, angle float64) Derived {
	sin := math.Abs(math.Sin(angle))
	return Derived{V: math.Abs(force) * sin, Kind: Force, What: "sideways pull of the link", assumed: &bySidePull,
		formula: put("F sin(angle) = {f} x {n}", math.Abs(force), sin)}
}

// Shock multiplies a load by a factor for shock. Common practice: 2 to 3.
func Shock(load Derived, factor float64) Derived {
	f := put("k F = {n} x {f}", factor, load.V)
	if load.Kind == Torque {
		f = put("k T = {n} x {t}", factor, load.V)
	}
	return Derived{V: load.V * factor, Kind: load.Kind, What: load.What, assumed: &byShock, formula: f}
}
