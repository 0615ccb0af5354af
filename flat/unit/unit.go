// Package unit reads lengths, angles, forces and torques from text as people in
// the trade write them, and writes lengths back for people.
package unit

// System is the unit system that a file speaks.
type System int

const (
	// Unset is a file that gives every length its own unit.
	Unset System = iota
	// Millimetre is units: mm.
	Millimetre
	// Inch is units: in.
	Inch
)

// MM is one inch in millimetres (exact; international inch of 1959).
const MM = 25.4
