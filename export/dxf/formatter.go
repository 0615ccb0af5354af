package dxf

import (
	"fmt"
	"io"
	"math"

	"github.com/yofu/dxf/format"
)

// formatter turns the library's groups (a code and a value) into the lines of
// an ASCII drawing. All entities, tables and sections go through it: it is the
// one place that decides on decimals, refuses what is no number, escapes text
// and leaves out groups that the drawing's version has no use for.
//
// Lines end in CR LF and codes are right-aligned to three places, as drawings
// commonly have them.
type formatter struct {
	buf    []byte
	places int     // decimals of lengths
	drop   *groups // left out
	kind   string  // value of the last group 0, for messages
	err    error   // the first value that could not be written
}

var _ format.Formatter = (*formatter)(nil)

// groups is a set of group codes.
type groups [1072]bool

func setOf(codes ...int) *groups {
	var g groups
	for _, c := range codes {
		g[c] = true
	}
	return &g
}

func (g *groups) has(code int) bool { return g != nil && uint(code) < uint(len(g)) && g[code] }

const lineEnd = "\r\n"

// Reset empties the formatter and forgets its error.
func (f *formatter) Reset() { f.buf, f.kind, f.err = f.buf[:0], "", nil }

// WriteTo writes what was formatted, and nothing where a value was refused.
func (f *formatter) WriteTo(w io.Writer) (int64, error) {
	if f.err != nil {
		return 0, f.err
	}
	n, err := w.Write(f.buf)
	return int64(n), err
}

// SetPrecision sets the number of decimals of lengths, 0 to 15.
func (f *formatter) SetPrecision(p int) { f.places = min(max(p, 0), mostPlaces) }

// Output hands over what was formatted and empties the formatter.
func (f *formatter) Output() string {
	s := string(f.buf)
	f.buf = f.buf[:0]
	return s
}

// String, Hex, Int and Float give one group as text.

// String is a group with a text.
func (f *formatter) String(code int, v string) string {
	return f.alone(func(g *formatter) { g.WriteString(code, v) })
}

// Hex is a group with a handle.
func (f *formatter) Hex(code int, v int) string {
	return f.alone(func(g *formatter) { g.WriteHex(code, v) })
}

// Int is a group with a whole number.
func (f *formatter) Int(code int, v int) string {
	return f.alone(func(g *formatter) { g.WriteInt(code, v) })
}

// Float is a group with a number.
func (f *formatter) Float(code int, v float64) string {
	return f.alone(func(g *formatter) { g.WriteFloat(code, v) })
}

func (f *formatter) alone(write func(*formatter)) string {
	g := formatter{places: f.places, drop: f.drop, kind: f.kind}
	write(&g)
	if f.err == nil {
		f.err = g.err
	}
	return string(g.buf)
}

// WriteString appends a group with a text.
func (f *formatter) WriteString(code int, v string) {
	if f.drop.has(code) {
		return
	}
	if code == 0 {
		f.kind = v
	}
	f.keep(append(appendText(appendCode(f.buf, code), v), lineEnd...))
}

// WriteHex appends a group with a handle.
func (f *formatter) WriteHex(code int, v int) {
	if f.drop.has(code) {
		return
	}
	b := appendCode(f.buf, code)
	shift := 0
	for v>>shift > 15 {
		shift += 4
	}
	for ; shift >= 0; shift -= 4 {
		b = append(b, hex[v>>shift&15])
	}
	f.keep(append(b, lineEnd...))
}

// WriteInt appends a group with a whole number.
func (f *formatter) WriteInt(code int, v int) {
	if f.drop.has(code) {
		return
	}
	f.keep(append(appendInt(appendCode(f.buf, code), v), lineEnd...))
}

// WriteFloat appends a group with a number; NaN and the infinities are refused.
func (f *formatter) WriteFloat(code int, v float64) {
	if f.drop.has(code) {
		return
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		f.refuse(code, v)
		return
	}
	f.keep(append(appendNumber(appendCode(f.buf, code), v, f.decimals(code)), lineEnd...))
}

// keep takes over f.buf with something appended. Where it did not have to grow
// only its length is stored: a pointer stored for every group would cost more,
// while the collector runs, than the group itself.
func (f *formatter) keep(b []byte) {
	if cap(b) == cap(f.buf) {
		f.buf = f.buf[:len(b)]
		return
	}
	f.buf = b
}

// decimals is how many a group's number gets. Groups 50 to 58 are angles, 42 is
// a bulge (DXF Reference, group codes in numerical order); the rest are lengths
// or factors.
func (f *formatter) decimals(code int) int {
	switch {
	case code >= 50 && code <= 58:
		return placesAngle
	case code == 42:
		return placesBulge
	}
	return f.places
}

func (f *formatter) refuse(code int, v float64) {
	if f.err == nil {
		f.err = fmt.Errorf("group %d of %s is %v: a drawing holds finite numbers only", code, f.kind, v)
	}
}

// appendCode appends the line with the group code.
func appendCode(b []byte, code int) []byte {
	switch {
	case code < 10:
		b = append(b, ' ', ' ', byte('0'+code))
	case code < 100:
		b = append(b, ' ', byte('0'+code/10), byte('0'+code%10))
	default:
		b = appendInt(b, code)
	}
	return append(b, lineEnd...)
}
