package dxf

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"

	"blankwright/flat/num"
)

// groupReader goes through the groups of a drawing. It makes nothing: values lie
// in the text.
type groupReader struct {
	text  []byte
	at    int
	code  int
	value []byte
}

var errNoEnd = errors.New("a line has no end")

// next takes the next group; false at the end of the file.
func (r *groupReader) next() (bool, error) {
	t, i := r.text, r.at
	if i == len(t) {
		return false, nil
	}
	for i < len(t) && t[i] == ' ' {
		i++
	}
	first, code := i, 0
	for i < len(t) && t[i] >= '0' && t[i] <= '9' && i-first < 4 {
		code = 10*code + int(t[i]-'0')
		i++
	}
	if i == first || i+1 >= len(t) || t[i] != '\r' || t[i+1] != '\n' {
		return false, r.wrongCode()
	}
	r.code = code
	t = t[i+2:]
	n := bytes.IndexByte(t, '\n')
	if n < 1 || t[n-1] != '\r' {
		return false, errNoEnd
	}
	r.value = t[:n-1]
	r.at = i + 2 + n + 1
	return true, nil
}

func (r *groupReader) wrongCode() error {
	line, _, whole := bytes.Cut(r.text[r.at:], []byte(lineEnd))
	if !whole {
		return errNoEnd
	}
	return fmt.Errorf("group code %q", line)
}

func (r *groupReader) is(code int, value string) bool {
	return r.code == code && string(r.value) == value
}

// powers are those of ten that a float64 holds exactly.
var powers = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// number is the value as a finite number. Up to fifteen digits make a whole number
// that a float64 holds exactly, so that one division rounds the value correctly;
// all else goes the long way.
func (r *groupReader) number() (float64, bool) {
	v := r.value
	i, neg := 0, false
	if len(v) > 0 && v[0] == '-' {
		i, neg = 1, true
	}
	digits, places := 0, -1
	var whole int64
	for ; i < len(v); i++ {
		switch c := v[i]; {
		case c >= '0' && c <= '9' && digits < len(powers)-1:
			whole = 10*whole + int64(c-'0')
			digits++
		case c == '.' && places < 0:
			places = digits
		default:
			x, err := strconv.ParseFloat(string(v), 64)
			return x, err == nil && num.Finite(x)
		}
	}
	if digits == 0 {
		return 0, false
	}
	x := float64(whole)
	if places >= 0 {
		x /= powers[digits-places]
	}
	if neg {
		x = -x
	}
	return x, true
}
