package unit

import (
	"math"
	"regexp"
	"strconv"
	"strings"

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

// Typed writes a length (mm) as a file with units: in or units: mm can hold it:
// `1.750 in`, `44.45 mm`.
func Typed(mm float64, sys System) string {
	if sys != Inch {
		return Text(mm, sys)
	}
	return num.Rounded(mm/MM, inchDecimals) + " in"
}

// spoken is a length in a message of a package that knows millimetres alone.
var spoken = regexp.MustCompile(`-?\d+(\.\d+)? mm\b`)

// Words writes the lengths in a message (`12.7 mm`) as Text does, for a file of the
// given system. Lengths that have both units already are left as they are.
func Words(message string, sys System) string {
	if sys != Inch {
		return message
	}
	var b strings.Builder
	done := 0
	for _, m := range spoken.FindAllStringIndex(message, -1) {
		number, _, _ := strings.Cut(message[m[0]:m[1]], " ")
		mm, err := strconv.ParseFloat(number, 64)
		if err != nil || strings.HasSuffix(message[:m[0]], " in (") {
			continue
		}
		b.WriteString(message[done:m[0]])
		b.WriteString(Text(mm, sys))
		done = m[1]
	}
	return b.String() + message[done:]
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
