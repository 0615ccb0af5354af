package drawing

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"blankwright/flat/diag"
)

// scanner cuts a drawing into groups: a line with a code, a line with a value.
// The first thing wrong stops it.
type scanner struct {
	file string
	text []byte
	pos  int
	sep  byte // ends a line: \n, or \r in files of very old machines

	line int // of the code of the group in hand, from 1
	code int
	val  []byte // without blanks around it

	err diag.Problems
}

func newScanner(file string, text []byte) *scanner {
	s := &scanner{file: file, text: text, sep: '\n', line: -1}
	if bytes.IndexByte(text, '\n') < 0 {
		s.sep = '\r'
	}
	return s
}

// next takes the next group in hand; false at the end of the text or after an
// error.
func (s *scanner) next() bool {
	if s.err != nil || s.pos >= len(s.text) {
		return false
	}
	s.line += 2
	code := s.readLine()
	n, ok := parseCode(code)
	if !ok {
		return s.fail(s.line, fmt.Sprintf("%s is not a group code: wanted a whole number", quoted(code)),
			"the file is damaged or is no DXF drawing: save it again as ASCII DXF")
	}
	if s.pos >= len(s.text) {
		return s.fail(s.line, "the file ends after a group code: the rest of it is missing",
			"copy or save the file again")
	}
	s.code, s.val = n, s.readLine()
	return true
}

func (s *scanner) readLine() []byte {
	rest := s.text[s.pos:]
	i := bytes.IndexByte(rest, s.sep)
	if i < 0 {
		s.pos = len(s.text)
	} else {
		s.pos += i + 1
		rest = rest[:i]
	}
	for len(rest) > 0 && blank(rest[len(rest)-1]) {
		rest = rest[:len(rest)-1]
	}
	for len(rest) > 0 && blank(rest[0]) {
		rest = rest[1:]
	}
	return rest
}

func blank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' }

// parseCode reads a group code; codes have at most four digits.
func parseCode(b []byte) (int, bool) {
	neg := len(b) > 0 && b[0] == '-'
	if neg {
		b = b[1:]
	}
	if len(b) == 0 || len(b) > 5 {
		return 0, false
	}
	n := 0
	for _, c := range b {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = 10*n + int(c-'0')
	}
	if neg {
		n = -n
	}
	return n, true
}

// fail notes what is wrong at a line; it always gives false.
func (s *scanner) fail(line int, message, hint string) bool {
	if s.err == nil {
		s.err.AddHint(diag.Pos{File: s.file, Line: line, Col: 1}, hint, "%s", message)
	}
	return false
}

// is reports whether the group in hand is this one.
func (s *scanner) is(code int, val string) bool { return s.code == code && string(s.val) == val }

// float reads the value in hand as a number.
func (s *scanner) float() float64 {
	v, ok := parseFloat(s.val)
	if !ok {
		s.fail(s.line+1, fmt.Sprintf("group %d holds %s: wanted a number", s.code, quoted(s.val)),
			"the file is damaged: save it again")
	}
	return v
}

// int reads the value in hand as a whole number; one written with a point is
// cut off, one that no drawing can mean is brought within 32 bits.
func (s *scanner) int() int {
	return int(max(math.MinInt32, min(math.MaxInt32, s.float())))
}

var tens = [...]float64{
	1, 10, 100, 1000, 10000, 100000, 1000000, 10000000, 100000000, 1000000000, 10000000000,
	100000000000, 1000000000000, 10000000000000, 100000000000000, 1000000000000000,
}

// parseFloat reads a finite decimal number: directly where digits and decimals
// are so few that one division rounds it right, else by strconv.
func parseFloat(b []byte) (float64, bool) {
	m, decimals, digits := uint64(0), 0, 0
	neg, point := false, false
	for i, c := range b {
		switch {
		case c >= '0' && c <= '9' && digits < 15:
			m = 10*m + uint64(c-'0')
			digits++
			if point {
				decimals++
			}
		case c == '.' && !point:
			point = true
		case i == 0 && (c == '-' || c == '+'):
			neg = c == '-'
		default:
			return parseLongFloat(b)
		}
	}
	if digits == 0 {
		return parseLongFloat(b)
	}
	v := float64(m) / tens[decimals]
	if neg {
		v = -v
	}
	return v + 0, true
}

// longestNumber is how many characters a number may have.
const longestNumber = 400

func parseLongFloat(b []byte) (float64, bool) {
	if len(b) == 0 || len(b) > longestNumber {
		return 0, false
	}
	for _, c := range b {
		if (c < '0' || c > '9') && c != '.' && c != '-' && c != '+' && c != 'e' && c != 'E' {
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(string(b), 64)
	return v, err == nil
}

// longestQuoted is how much of a value a message repeats.
const longestQuoted = 40

// quoted is a value for a message: short, and nothing in it that a terminal
// might obey.
func quoted(b []byte) string {
	if len(b) > longestQuoted {
		return strconv.QuoteToASCII(string(b[:longestQuoted])) + "..."
	}
	return strconv.QuoteToASCII(string(b))
}
