package dxf

import (
	"strconv"

	"blankwright/flat/num"
)

const (
	// placesLength is the number of decimals of coordinates and radii, in the
	// drawing's unit. An arc's end, worked out by a reader from rounded centre,
	// radius and angle, must meet the rounded end of its neighbour: with nine
	// decimals the two differ by some 2e-9, far under the 1e-6 at which strict
	// readers call an outline open; six would just miss.
	placesLength = 9
	// placesAngle is the number of decimals of an angle in degrees, about what a
	// float64 holds: on the largest radius half a unit of the last is 1e-8 mm.
	placesAngle = 13
	// placesBulge is the number of decimals of a bulge; it is at most 1, so that
	// fifteen are all that a float64 has to give.
	placesBulge = 15
)

// mostPlaces is the largest number of decimals that a formatter takes.
const mostPlaces = 15

// appendNumber appends v with at most the given number of decimals, trailing
// zeros dropped but one, never as -0 and never with an exponent. v must be
// finite.
func appendNumber(b []byte, v float64, decimals int) []byte {
	if v == 0 {
		return append(b, "0.0"...)
	}
	b = num.Append(b, v, decimals)
	if decimals == 0 {
		return append(b, ".0"...)
	}
	for b[len(b)-1] == '0' && b[len(b)-2] != '.' {
		b = b[:len(b)-1]
	}
	return b
}

func appendInt(b []byte, v int) []byte { return strconv.AppendInt(b, int64(v), 10) }
