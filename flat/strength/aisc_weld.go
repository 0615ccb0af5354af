package strength

import (
	"math"

	"blankwright/flat/num"
)

// Fillet is a run of fillet weld by AISC 360.
type Fillet struct {
	Leg    float64 // w, mm
	Length float64 // effective, after end deductions, mm
	FEXX   float64 // strength of the filler metal, MPa (482.6 for 70 ksi)

	// Angle is between the force and the weld's axis, rad, 0 along it. It counts
	// only where Directional says that the increase may be used: strains of all
	// weld elements go together.
	Angle       float64
	Directional bool

	// EndLoaded says that the weld runs along the force from the end of a part, so
	// that a long one is not stressed evenly.
	EndLoaded bool
}

var (
	aiscWeld       = citeSame(true, "J2.4, eqs. J2-4 and J2-5")
	aiscWeldLeast  = citeSame(false, "J2.2b and Table J2.4")
	aiscWeldMost   = citeSame(true, "J2.2b")
	aiscWeldLength = citeSame(false, "J2.2b")
)

// FilletWeld is the strength of a fillet weld, N: Rn = 0.60 FEXX (1 + 0.50
// sin^1.5 theta) w/sqrt 2 L.
//
// AISC 360 J2.4, eqs. J2-4 and J2-5 (360-22 writes the directional factor as
// kds); phi 0.75, omega 2.00. A weld shorter than four legs counts with a leg of
// a quarter of its length; an end-loaded one longer than 100 legs with
// LongWeld (J2.2b). Limits: matching filler, equal legs, faces at about 90
// degrees, no penetration counted; the base metal is ShearYield and ShearRupture
// of t L.
func (a AISC) FilletWeld(w Fillet) Result {
	leg, length := pos(w.Leg), pos(w.Length)
	mode := "shear through the throat of the fillet weld"
	if 4*leg > length {
		leg = length / 4
		mode = "shear through the throat of a fillet weld too short for its leg"
	}
	if w.EndLoaded {
		length = LongWeld(leg, length)
	}
	k := 1.0
	if w.Directional {
		k = 1 + 0.50*math.Pow(math.Abs(math.Sin(w.Angle)), 1.5)
	}
	return a.result(0.60*w.FEXX*k*leg*math.Sqrt2/2*length, Force, onRupture, mode, &aiscWeld,
		put("Rn = 0.60 FEXX k w/sqrt(2) L = 0.60 x {s} x {n} x {l}/1.414 x {l}", w.FEXX, k, leg, length))
}

// LongWeld is the effective length of an end-loaded fillet weld, mm: all of it up
// to 100 legs, beta = 1.2 - 0.002 L/w of it beyond, 180 legs from 300 on.
//
// AISC 360 J2.2b, eq. J2-1 (from memory).
func LongWeld(leg, length float64) float64 {
	switch {
	case length > 300*leg:
		return 180 * leg
	case length > 100*leg:
		return (1.2 - 0.002*length/leg) * length
	}
	return length
}

// WeldRun is the length of a weld that counts, mm, after one leg taken off for
// the crater at each free end.
//
// Common practice; AISC 360 itself counts the length of full throat only, EN
// 1993-1-8 4.5.1 takes two throats off a weld that is not of full size to its
// ends.
func WeldRun(length, leg float64, freeEnds int) float64 {
	return pos(length - leg*float64(freeEnds))
}

// LeastFillet is the smallest leg of a fillet weld, mm, on the thinner of the
// parts joined, mm.
//
// AISC 360 Table J2.4: up to 1/4 in 1/8 in, 1/2 in 3/16 in, 3/4 in 1/4 in, above
// 5/16 in; beside it in mm up to 6 mm 3 mm, 13 mm 5 mm, 19 mm 6 mm, above 8 mm.
// The first and the third row were read, the others are from memory.
func (a AISC) LeastFillet(thinner float64) float64 {
	switch {
	case num.AtMost(thinner, a.pick(6, 1.0/4)):
		return a.pick(3, 1.0/8)
	case num.AtMost(thinner, a.pick(13, 1.0/2)):
		return a.pick(5, 3.0/16)
	case num.AtMost(thinner, a.pick(19, 3.0/4)):
		return a.pick(6, 1.0/4)
	}
	return a.pick(8, 5.0/16)
}

// MostFillet is the largest leg of a fillet weld along the edge of a part, mm,
// of its thickness, mm: all of it under 1/4 in (6 mm), else 1/16 in (2 mm) less.
//
// AISC 360 J2.2b. A drawing may ask that the weld be built out to full throat.
func (a AISC) MostFillet(edge float64) float64 {
	if !num.AtLeast(edge, a.pick(6, 1.0/4)) {
		return edge
	}
	return edge - a.pick(2, 1.0/16)
}

// FilletLimits are the bounds of J2.2b on a fillet weld.
type FilletLimits struct {
	Least  Limit // leg, by the thinner part
	Most   Limit // leg, by the edge along which it runs
	Length Limit // four legs
}

// FilletLimits holds a fillet weld against the sizes of AISC 360 J2.2b. thinner
// is the thickness of the thinner part joined, edge that of the part along whose
// edge the weld runs, mm; edge is +Inf for a weld on a face.
func (a AISC) FilletLimits(w Fillet, thinner, edge float64) FilletLimits {
	return FilletLimits{
		Least: Limit{What: "the weld's leg", Clause: aiscWeldLeast[a.Edition], Kind: Length,
			Got: w.Leg, Bound: a.LeastFillet(thinner), formula: put("Table J2.4 for a part of {l}", thinner)},
		Most: Limit{What: "the weld's leg along an edge", Clause: aiscWeldMost[a.Edition], Kind: Length,
			Got: w.Leg, Bound: a.MostFillet(edge), Most: true, formula: put("J2.2b for an edge of {l}", edge)},
		Length: Limit{What: "the weld's length", Clause: aiscWeldLength[a.Edition], Kind: Length,
			Got: w.Length, Bound: 4 * w.Leg, formula: put("4 w = 4 x {l}", w.Leg)},
	}
}
