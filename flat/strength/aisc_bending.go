package strength

import "math"

var (
	aiscBarYield    = cite(false, "F11.1, eq. F11-1", "F11.1, eq. F11-1")
	aiscBarInelast  = cite(false, "F11.2, eq. F11-3", "F11.2, eq. F11-2")
	aiscBarElastic  = cite(false, "F11.2, eqs. F11-4 and F11-5", "F11.2, eqs. F11-3 and F11-4")
	aiscFlexYield   = citeSame(false, "J4.5 and F11.1, eq. F11-1")
	aiscFlexRupture = citeSame(false, "J4.5; AISC Manual Part 9, Mn = Fu Znet")
	aiscShearG      = citeSame(false, "G2.2, eq. G2-1 with Cv2")
	aiscCombined    = Clause{"AISC Manual, 15th ed., Part 9 (Dowswell, Engineering Journal 52(1), 2015)", false}
)

// Bar is a rectangular bar or plate bent in its plane.
type Bar struct {
	Depth, T float64 // in the plane and out of it, mm
	Unbraced float64 // Lb: between points held against moving sideways or twisting, mm
	Cb       float64 // lateral-torsional buckling modification factor; 1 where not given
	Fy       float64 // MPa
	E        float64 // MPa; SteelE where not given
}

// plasticCap is how many times Fy Sx the plastic moment of a rectangular bar
// counts for at most: 1.5 in AISC 360-22, 1.6 in 360-16, both from memory. It
// bites only where holes make the section other than a whole rectangle.
func (a AISC) plasticCap() float64 {
	if a.Edition == AISC2016 {
		return 1.6
	}
	return 1.5
}

// BarBending is the moment, N·mm, that a rectangular bar or plate holds in its
// plane.
//
// AISC 360 F11, of lambda = Lb d/t^2: up to 0.08 E/Fy Mn = Fy Z <= 1.5 Fy Sx
// (360-16: 1.6), up to 1.9 E/Fy Mn = Cb (1.52 - 0.274 lambda Fy/E) Fy Sx <= Mp,
// beyond it Mn = 1.9 E Cb/lambda Sx <= Mp; phi 0.90, omega 1.67. Limits: solid
// rectangle (net sections are FlexureYield and FlexureRupture), depth constant
// over Lb, load not above the bar on its own.
func (a AISC) BarBending(b Bar) Result {
	if b.Cb == 0 {
		b.Cb = 1
	}
	if b.E == 0 {
		b.E = SteelE
	}
	d, t := pos(b.Depth), pos(b.T)
	s := t * d * d / 6
	my := b.Fy * s
	mp := 1.5 * my // Z is 1.5 S of a whole rectangle, within the cap of either edition
	lambda := pos(b.Unbraced) * d / sq(t)
	ratio := lambda * b.Fy / b.E
	switch {
	case ratio <= 0.08:
		return a.result(mp, Moment, onYield, "yielding of the bar in bending", &aiscBarYield,
			put("Mn = Fy Z = {s} x {l} x {l}^2/4", b.Fy, t, d))
	case ratio <= 1.9:
		return a.result(min(b.Cb*(1.52-0.274*ratio)*my, mp), Moment, onYield, "lateral-torsional buckling of the bar, inelastic", &aiscBarInelast,
			put("Mn = min(Cb (1.52 - 0.274 Lb d/t^2 Fy/E) Fy Sx, Mp) = min({n} x (1.52 - 0.274 x {n}) x {s} x {w}, {m})", b.Cb, ratio, b.Fy, s, mp))
	}
	return a.result(min(1.9*b.E*b.Cb/lambda*s, mp), Moment, onYield, "lateral-torsional buckling of the bar, elastic", &aiscBarElastic,
		put("Mn = min(1.9 E Cb/(Lb d/t^2) Sx, Mp) = min(1.9 x {s} x {n}/{n} x {w}, {m})", b.E, b.Cb, lambda, s, mp))
}

// BarFlat is the moment, N·mm, that a plate of width b and thickness t (mm) holds
// out of its plane: Mn = Fy Z; it cannot buckle sideways.
//
// AISC 360 F11.1, eq. F11-1; phi 0.90, omega 1.67.
func (a AISC) BarFlat(fy, width, t float64) Result {
	t = pos(t)
	return a.result(fy*pos(width)*t*t/4, Moment, onYield, "yielding of the plate in bending out of its plane", &aiscBarYield,
		put("Mn = Fy Z = {s} x {l} x {l}^2/4", fy, width, t))
}

// FlexureYield is the moment, N·mm, at which a section of plastic modulus z and
// least elastic modulus s (mm3) yields: Mn = Fy Z, at most 1.5 Fy S (360-16: 1.6).
//
// AISC 360 J4.5 with the cap of F11.1; phi 0.90, omega 1.67. Limits: no lateral
// buckling.
func (a AISC) FlexureYield(fy, z, s float64) Result {
	k := a.plasticCap()
	return a.result(min(fy*pos(z), k*fy*pos(s)), Moment, onYield, "yielding of the section in bending", &aiscFlexYield,
		put("Mn = min(Fy Z, k Fy S) = min({s} x {w}, {n} x {s} x {w})", fy, z, k, fy, s))
}

// FlexureRupture is the moment, N·mm, at which a section through holes, of net
// plastic modulus znet (mm3), ruptures: Mn = Fu Znet.
//
// AISC 360 J4.5, AISC Manual Part 9; phi 0.75, omega 2.00.
func (a AISC) FlexureRupture(fu, znet float64) Result {
	return a.result(fu*pos(znet), Moment, onRupture, "rupture of the net section in bending", &aiscFlexRupture,
		put("Mn = Fu Znet = {s} x {w}", fu, znet))
}

// Plate buckling coefficients in shear, AISC 360 G2.1 and G3 (from memory).
const (
	KvHeldBothEdges = 5.34 // both edges along the shear held, no stiffeners
	KvOneFreeEdge   = 1.2  // one edge along the shear free, as a leg of an angle
)

// ShearG is the shear strength, N, of a plate of depth h and thickness t (mm)
// that may buckle: Vn = 0.6 Fy h t Cv2.
//
// AISC 360 G2.2: Cv2 = 1 up to h/t = 1.10 sqrt(kv E/Fy), 1.10 sqrt(kv E/Fy)/(h/t)
// up to 1.37 sqrt(kv E/Fy), then 1.51 kv E/((h/t)^2 Fy); phi 0.90, omega 1.67.
// Limits: kv as the edges are held; no tension field.
func (a AISC) ShearG(fy, e, h, t, kv float64) Result {
	h, t = pos(h), pos(t)
	ratio := h / t
	edge := math.Sqrt(kv * e / fy)
	cv, mode := 1.0, "yielding of the plate in shear"
	switch {
	case ratio > 1.37*edge:
		cv, mode = 1.51*sq(edge)/sq(ratio), "buckling of the plate in shear, elastic"
	case ratio > 1.10*edge:
		cv, mode = 1.10*edge/ratio, "buckling of the plate in shear, inelastic"
	}
	return a.result(0.6*fy*h*t*cv, Force, onYield, mode, &aiscShearG,
		put("Vn = 0.6 Fy h t Cv2 = 0.6 x {s} x {l} x {l} x {n}", fy, h, t, cv))
}

// Acting is what acts on a section: moment N·mm, force along the normal and
// shear, N. Signs do not matter to the checks.
type Acting struct{ M, N, V float64 }

// Combined holds moment, normal force and shear together against what the
// section holds of each alone: M/Mc + (N/Nc)^2 + (V/Vc)^4 <= 1.
//
// B. Dowswell, Plastic Strength of Connection Elements, AISC Engineering Journal
// 52(1), 2015; AISC Manual, 15th ed., Part 9 (from memory). Limits: rectangular
// connecting plates of ductile steel, not governed by buckling; AISC 360 itself
// states no such interaction for plates.
func (a AISC) Combined(act Acting, moment, normal, shear Result) Ratio {
	m, n, v := moment.Utilisation(act.M), normal.Utilisation(act.N), shear.Utilisation(act.V)
	return Ratio{
		V: m + sq(n) + sq(sq(v)), Mode: "bending, normal force and shear together", Clause: aiscCombined,
		formula: put("M/Mc + (N/Nc)^2 + (V/Vc)^4 = {n} + {n}^2 + {n}^4", m, n, v),
	}
}
