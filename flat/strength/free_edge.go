package strength

import "math"

var (
	aashtoEdge = Clause{"AASHTO LRFD Bridge Design Specifications, 6th ed., 6.14.2.8", false}
	enOutstand = Clause{"EN 1993-1-1:2005 Table 5.2, sheet 2, outstand part in compression, class 3", false}
)

// FreeEdgeFactor is the figure of FreeEdge that AASHTO gives.
const FreeEdgeFactor = 2.06

// FreeEdge bounds the length of a gusset's unsupported edge, mm, between the
// places where it is held: k sqrt(E/Fy) times the thickness t, k FreeEdgeFactor or a
// shop's own.
//
// AASHTO LRFD Bridge Design Specifications, 6th ed., 6.14.2.8, from memory: bridge
// practice, taken over widely as a rule of the shop. AISC 360 has no such rule.
// Beyond it the edge wants a stiffener or a bend; it is a rule of shape and says
// nothing about strength.
func FreeEdge(length, t, fy, e, k float64) Limit {
	return Limit{What: "the free edge of the plate", Clause: aashtoEdge, Kind: Length,
		Got: length, Bound: k * math.Sqrt(e/fy) * t, Most: true,
		formula: put("k sqrt(E/Fy) t = {n} x sqrt({s}/{s}) x {l}", k, e, fy, t)}
}

// Outstand bounds how far a compressed plate may stand out from where it is held,
// c, mm: 14 eps t, eps = sqrt(235 MPa/fy).
//
// EN 1993-1-1:2005 Table 5.2, sheet 2, class 3, from memory. Limits: uniform
// compression along the free edge; beyond it EN 1993-1-5 reduces the width.
func Outstand(c, t, fy float64) Limit {
	return Limit{What: "the plate's free width", Clause: enOutstand, Kind: Length,
		Got: c, Bound: 14 * math.Sqrt(235/fy) * t, Most: true,
		formula: put("14 sqrt(235 MPa/fy) t = 14 x sqrt(235 MPa/{s}) x {l}", fy, t)}
}
