// Package num is the only home of tolerances and of the comparisons and the
// number format that depend on them. Callers ask by intent (Same, AtLeast) and
// never compare against an epsilon of their own.
//
// Unit: millimetre for lengths, radian for angles, unless a function says
// otherwise.
package num

import (
	"math"
	"strconv"
)

const (
	// Coincident is the distance (mm) under which two points count as one
	// point. A part has at most a few metres, so float64 arithmetic on it errs by
	// about 1e-12 mm; a cutting table resolves about 1e-2 mm. 1e-7 lies well
	// between both, and is a tenth of the last decimal written to a drawing.
	Coincident = 1e-7

	// Joined is how far (mm) the end of an arc, worked out from its circle, may
	// lie from the corner that it was made for and still be drawn on that
	// circle. Readers of drawings join within 1e-6; what decimals cut off adds
	// less than 1e-8.
	Joined = 5e-8

	// LimitSlack is how far (in the unit compared) a measured value may fall
	// short of a limit and still meet it, so that a hole placed exactly on its
	// minimum distance passes whichever way the last bit was rounded.
	LimitSlack = 1e-6

	// Angular is the angle (rad) under which two directions count as one.
	Angular = 1e-10
)

// Same reports whether two lengths or coordinates (mm) are equal.
func Same(a, b float64) bool { return math.Abs(a-b) <= Coincident }

// Zero reports whether a length (mm) is nothing.
func Zero(a float64) bool { return math.Abs(a) <= Coincident }

// SameAngle reports whether two angles (rad) are equal; it does not reduce
// them to one turn.
func SameAngle(a, b float64) bool { return math.Abs(a-b) <= Angular }

// AtLeast reports whether a measured value meets a lower limit. A value on the
// limit meets it.
func AtLeast(got, limit float64) bool { return got >= limit-LimitSlack }

// AtMost reports whether a measured value meets an upper limit. A value on the
// limit meets it.
func AtMost(got, limit float64) bool { return got <= limit+LimitSlack }

// Finite reports whether every value is a number that can be drawn.
func Finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// Append appends v to b with the given number of decimals, never as -0.
func Append(b []byte, v float64, decimals int) []byte {
	n := len(b)
	b = strconv.AppendFloat(b, v, 'f', decimals, 64)
	if b[n] == '-' {
		for _, c := range b[n+1:] {
			if c != '0' && c != '.' {
				return b
			}
		}
		b = append(b[:n], b[n+1:]...)
	}
	return b
}

// Format writes v with a fixed number of decimals, never as -0.
func Format(v float64, decimals int) string {
	var buf [32]byte
	return string(Append(buf[:0], v, decimals))
}

// Rounded writes v with a fixed number of decimals for people: a value on the
// half of the last digit goes away from zero whichever way its last bit fell
// (9.525 is 9.53).
func Rounded(v float64, decimals int) string {
	return Format(v+math.Copysign(Coincident, v), decimals)
}

// Short writes v with at most the given number of decimals, trailing zeros
// dropped: for people, not for drawings.
func Short(v float64, decimals int) string {
	var buf [32]byte
	b := Append(buf[:0], v, decimals)
	if decimals > 0 {
		for b[len(b)-1] == '0' {
			b = b[:len(b)-1]
		}
		if b[len(b)-1] == '.' {
			b = b[:len(b)-1]
		}
	}
	return string(b)
}
