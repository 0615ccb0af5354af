package profiles

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"blankwright/flat/diag"
)

// inch is one inch in millimetres, ksi one thousand pounds-force per square
// inch in MPa; lbf and inch are exact by definition.
const (
	inch = 25.4
	ksi  = 6.894757293168361
)

// longestName is the most bytes that any look-up here reads.
const longestName = 80

// errTooLong is what a look-up says of a longer name.
var errTooLong = errors.New("the name is longer than 80 characters; give the name alone")

// squeeze gives a name in the form in which names are compared: lower case
// without spaces, hyphens and underscores.
func squeeze(s string) string {
	b := make([]byte, 0, len(s))
	for i := range len(s) {
		switch c := s[i]; {
		case c == ' ' || c == '-' || c == '_' || c == '\t':
		case 'A' <= c && c <= 'Z':
			b = append(b, c+'a'-'A')
		default:
			b = append(b, c)
		}
	}
	return string(b)
}

// unknown is the error for a name that is in none of our tables.
func unknown(what, name string, known []string) error {
	if near := diag.Nearest(name, known); near != "" {
		return fmt.Errorf("unknown %s %q; did you mean %q", what, name, near)
	}
	return fmt.Errorf("unknown %s %q; known are %s", what, name, list(known))
}

// list joins words as a sentence does.
func list(words []string) string {
	switch n := len(words); n {
	case 0:
		return "none"
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
}

// sixtyFourths is the size in 64ths of an inch of a whole number of them, and
// whether it is one. Sizes here are a few inches at most.
func sixtyFourths(in float64) (int, bool) {
	n := int(in*64 + 0.5)
	return n, float64(n) == in*64
}

// fraction writes 64ths of an inch as shops do: 17/32, 1-3/4, 2.
func fraction(n64 int) string {
	whole, n, d := n64/64, n64%64, 64
	if n == 0 {
		return strconv.Itoa(whole)
	}
	for n%2 == 0 {
		n, d = n/2, d/2
	}
	f := strconv.Itoa(n) + "/" + strconv.Itoa(d)
	if whole == 0 {
		return f
	}
	return strconv.Itoa(whole) + "-" + f
}

// short writes a number with at most the given decimals and no trailing zeros.
func short(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}
