package unit

import (
	"math"
	"strconv"

	"blankwright/flat/num"
)

// Decimals of lengths written for people.
const (
	mmDecimals   = 2
	inchDecimals = 3
)

// Text writes a length (mm) for people: `0.750 in (19.05 mm)` where the file
// speaks inches, else `19.05 mm`.
func Text(mm float64, sys System) string {
	if sys != Inch {
		return num.Rounded(mm, mmDecimals) + " mm"
	}
	return num.Rounded(mm/MM, inchDecimals) + " in (" + num.Rounded(mm, mmDecimals) + " mm)"
}

// Fraction writes a length (mm) as the nearest 64th of an inch, as shops do:
// `17/32`, `1-3/4`, `2`, `-1/2`; exact says whether the length is that
// fraction. A length beyond 1 km is written in decimals of an inch and is not
// exact.
func Fraction(mm float64) (text string, exact bool) {
	if !(Quantity{mm, LengthDim}).within() {
		return strconv.FormatFloat(mm/MM, 'g', -1, 64), false
	}
	n := int(math.Round(mm / MM * 64))
	exact = num.Same(float64(n)*MM/64, mm)
	var b []byte
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	whole, up, down := n/64, n%64, 64
	if whole > 0 || up == 0 {
		b = strconv.AppendInt(b, int64(whole), 10)
	}
	if up == 0 {
		return string(b), exact
	}
	if whole > 0 {
		b = append(b, '-')
	}
	for up%2 == 0 {
		up, down = up/2, down/2
	}
	b = strconv.AppendInt(b, int64(up), 10)
	b = append(b, '/')
	b = strconv.AppendInt(b, int64(down), 10)
	return string(b), exact
}
