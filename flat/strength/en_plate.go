package strength

import "math"

var (
	enTension   = enPlateClause(false, "6.2.3(2)a, eq. 6.6")
	enNet       = enPlateClause(true, "6.2.3(2)b, eq. 6.7")
	enCompress  = enPlateClause(false, "6.2.4, eq. 6.10")
	enShear     = enPlateClause(false, "6.2.6, eq. 6.18")
	enFinShear  = Clause{"Multi-Storey Steel Buildings, Part 5, 3.4, sheet 6 (EN 1993-1-1 6.2.6 with a factor for bending)", true}
	enShearNet  = Clause{"Multi-Storey Steel Buildings, Part 5, 3.4, sheet 6", true}
	enBendPlast = enPlateClause(false, "6.2.5, eq. 6.13")
	enBendElast = enPlateClause(false, "6.2.5, eq. 6.14")
	enBendHoles = enPlateClause(false, "6.2.5(4), eq. 6.16")
	enMises     = enPlateClause(false, "6.2.1(5), eq. 6.1")
	enTogether  = enPlateClause(false, "6.2.8, 6.2.9.1(3) and 6.2.10")
)

// finBending is what the bending that goes with a fin plate takes off its shear.
const finBending = 1.27

// TensionYield is the plastic resistance of the gross area, N: Npl,Rd = A fy/gM0.
//
// EN 1993-1-1 6.2.3, eq. 6.6.
func (e EN1993) TensionYield(fy, area float64) Result {
	f := e.m0()
	return enResult(fy*pos(area), f, Force, "yielding of the gross section in tension", enTension,
		put("Npl,Rd = A fy / gM0 = {a} x {s} / {n}", area, fy, f.V))
}

// TensionRupture is the ultimate resistance of the net area, N:
// Nu,Rd = 0.9 Anet fu/gM2. Holes count with d0; of staggered ones the net area is
// that of the weakest chain, 6.2.2.2(4) (WeakestChain).
//
// EN 1993-1-1 6.2.3, eq. 6.7.
func (e EN1993) TensionRupture(fu, net float64) Result {
	f := e.m2()
	return enResult(0.9*fu*pos(net), f, Force, "rupture of the net section in tension", enNet,
		put("Nu,Rd = 0.9 Anet fu / gM2 = 0.9 x {a} x {s} / {n}", net, fu, f.V))
}

// Compression is the resistance of the area in compression, N: Nc,Rd = A fy/gM0.
//
// EN 1993-1-1 6.2.4, eq. 6.10. Limits: no buckling (6.3.1 is not computed), free
// widths within Outstand, holes filled by bolts.
func (e EN1993) Compression(fy, area float64) Result {
	f := e.m0()
	return enResult(fy*pos(area), f, Force, "yielding of the gross section in compression", enCompress,
		put("Nc,Rd = A fy / gM0 = {a} x {s} / {n}", area, fy, f.V))
}

// Shear is the plastic shear resistance of a plate's area, N:
// Vpl,Rd = Av fy/(sqrt 3 gM0).
//
// EN 1993-1-1 6.2.6, eq. 6.18, Av the whole area of a plate. Limits: h/t at most 72
// eps (else EN 1993-1-5).
func (e EN1993) Shear(fy, area float64) Result {
	f := e.m0()
	return enResult(fy*pos(area)/math.Sqrt(3), f, Force, "yielding of the gross section in shear", enShear,
		put("Vpl,Rd = Av fy / (sqrt(3) gM0) = {a} x {s} / (1.732 x {n})", area, fy, f.V))
}

// FinShear is the shear resistance of a plate that carries the moment of a fin
// plate beside it, N: VRd,g = h t fy/(1.27 sqrt 3 gM0).
//
// Multi-Storey Steel Buildings, Part 5, section 3.4: 1.27 takes in the bending that
// goes with such a connection. Limits: fin plates of usual proportions.
func (e EN1993) FinShear(fy, h, t float64) Result {
	f := e.m0()
	return enResult(pos(h)*pos(t)*fy/(finBending*math.Sqrt(3)), f, Force, "yielding of the gross section in shear beside bending", enFinShear,
		put("VRd,g = h t fy / (1.27 sqrt(3) gM0) = {l} x {l} x {s} / (1.27 x 1.732 x {n})", h, t, fy, f.V))
}

// ShearNet is the shear resistance of the net area, N:
// VRd,n = Av,net fu/(sqrt 3 gM2).
//
// Multi-Storey Steel Buildings, Part 5, section 3.4; EN 1993-1-1 6.2.6(7) leaves
// fastener holes out where they meet bearing resistance, which is less severe.
func (e EN1993) ShearNet(fu, net float64) Result {
	f := e.m2()
	return enResult(pos(net)*fu/math.Sqrt(3), f, Force, "rupture of the net section in shear", enShearNet,
		put("VRd,n = Av,net fu / (sqrt(3) gM2) = {a} x {s} / (1.732 x {n})", net, fu, f.V))
}

// BendingPlastic is the moment that a section of plastic modulus wpl (mm3) holds,
// N·mm: Mc,Rd = Wpl fy/gM0.
//
// EN 1993-1-1 6.2.5, eq. 6.13. Limits: classes 1 and 2; no lateral-torsional
// buckling (6.3.2 is not computed: brace the plate or use AISC F11). For net
// sections see HolesCount.
func (e EN1993) BendingPlastic(fy, wpl float64) Result {
	f := e.m0()
	return enResult(fy*pos(wpl), f, Moment, "yielding of the section in bending", enBendPlast,
		put("Mc,Rd = Wpl fy / gM0 = {w} x {s} / {n}", wpl, fy, f.V))
}

// BendingElastic is BendingPlastic with the elastic modulus wel, for class 3.
//
// EN 1993-1-1 6.2.5, eq. 6.14.
func (e EN1993) BendingElastic(fy, wel float64) Result {
	f := e.m0()
	return enResult(fy*pos(wel), f, Moment, "first yield of the section in bending", enBendElast,
		put("Mc,Rd = Wel fy / gM0 = {w} x {s} / {n}", wel, fy, f.V))
}

// HolesCount is the share that says whether bolt holes on the tension side lower
// the bending resistance: A fy/gM0 over 0.9 Anet fu/gM2 of that side. Where it is
// met (at most 1) the holes may be left out.
//
// EN 1993-1-1 6.2.5(4), eq. 6.16.
func (e EN1993) HolesCount(fy, fu, gross, net float64) Ratio {
	m0, m2 := e.m0().V, e.m2().V
	return Ratio{V: share(gross*fy/m0, 0.9*net*fu/m2), Mode: "holes on the tension side", Clause: enBendHoles,
		formula: put("(A fy / gM0) / (0.9 Anet fu / gM2) = ({a} x {s} / {n}) / (0.9 x {a} x {s} / {n})", gross, fy, m0, net, fu, m2)}
}

// Bending is the moment that a rectangular plate of depth h and thickness t (mm)
// holds in its plane beside a normal force and a shear, N·mm:
// M = (1 - rho) Wpl fy/gM0 (1 - (N/((1 - rho) Npl))^2), rho = (2 V/Vpl - 1)^2 where V
// is more than half of Vpl, else 0.
//
// EN 1993-1-1 6.2.8(3), 6.2.9.1(3) eq. 6.32 and 6.2.10(3), the whole section being
// the shear area. Limits as BendingPlastic; solid rectangle without holes.
func (e EN1993) Bending(fy, h, t float64, act Acting) Result {
	f := e.m0()
	area := pos(h) * pos(t)
	wpl := area * pos(h) / 4
	v := share(act.V, area*fy/math.Sqrt(3)/f.V)
	rho := 0.0
	if v > 0.5 {
		rho = min(1, sq(2*v-1))
	}
	n := share(act.N, (1-rho)*area*fy/f.V)
	left := 0.0
	if n < 1 {
		left = 1 - n*n
	}
	return enResult((1-rho)*wpl*fy*left, f, Moment, "yielding of the section in bending beside normal force and shear", enTogether,
		put("MN,V,Rd = (1 - rho) Wpl fy / gM0 (1 - n^2) = (1 - {n}) x {w} x {s} / {n} x (1 - {n}^2)", rho, wpl, fy, f.V, min(n, 1)))
}

// Mises holds normal stresses along and across and a shear stress at one point,
// MPa, together: (sx^2 + sz^2 - sx sz + 3 t^2)/(fy/gM0)^2 <= 1.
//
// EN 1993-1-1 6.2.1(5), eq. 6.1: elastic, for any section; conservative where parts
// of it may yield.
func (e EN1993) Mises(fy, sx, sz, tau float64) Ratio {
	fyd := fy / e.m0().V
	v := math.Inf(1)
	if fyd > 0 {
		v = (sq(sx) + sq(sz) - sx*sz + 3*sq(tau)) / sq(fyd)
	}
	return Ratio{V: v, Mode: "stresses at one point together", Clause: enMises,
		formula: put("(sx^2 + sz^2 - sx sz + 3 t^2) / (fy/gM0)^2 = ({s}^2 + {s}^2 - {s} x {s} + 3 x {s}^2) / {s}^2", sx, sz, sx, sz, tau, fyd)}
}
