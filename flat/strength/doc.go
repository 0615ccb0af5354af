// Package strength computes what bolts, pins, welds and flat plates hold and what
// the job puts on them: pure functions of numbers, without a part, a file or a
// table of materials. The rules call it with what they measured.
//
// # Units
//
// mm, mm2, mm3, mm4, N, N·mm, MPa, N/mm; angles rad, counter-clockwise positive; z
// points out of the plate. Units of a printed text are the reader's choice. AISC 360
// prints some lengths in inches and in mm side by side that are not the same; AISC's
// Units field says which of the two counts.
//
// # What comes back
//
// A Result has the nominal and the design resistance, what gives way in words, the
// clause and, when asked, the formula with the numbers put in; nothing is written
// before it is asked for. A Limit is a rule about a dimension, a Ratio one that sums
// shares. What cannot be worked out (a hole beyond the edge, a value that is not a
// number) is no resistance; it is never a wrong one.
//
// # Where it comes from
//
// AISC 360-16 and 360-22, LRFD and ASD; EN 1993-1-8:2005 and EN 1993-1-1:2005; the
// AISC Manual, Parts 7 to 9, for groups; Shigley's Mechanical Engineering Design for
// joints by one design factor and for weld lines. Each function names clause and
// equation. Clause.Read tells what was read, in the standard or inside a published
// worked example; the rest is from memory and says so in print.
//
// # What it does not compute
//
// Prying of bolts, fatigue, lateral-torsional and column buckling by EN 1993-1-1 6.3,
// plates stiffened or curved, welds other than fillets, weld heat, distortion and
// residual stress, slip by EN 1993-1-8 3.9, impact beyond a factor, the wall of a tube
// that a plate is welded to. The standards are for structural steel in buildings; that
// they fit a part on a vehicle is for its designer to judge, and local codes and
// licensed practice come first.
package strength
