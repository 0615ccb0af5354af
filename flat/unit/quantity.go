package unit

import (
	"math"
	"strconv"
)

// Dim says what a quantity measures.
type Dim int8

// The dimensions known. A Plain number carries no unit.
const (
	Plain Dim = iota
	LengthDim
	AreaDim
	AngleDim
	ForceDim
	TorqueDim
	StressDim
)

// dims holds for each dimension its word, the unit of V, an example for
// messages and the largest value that makes sense (a length of 1 km, and what
// goes with it).
var dims = [...]struct {
	word, unit, example string
	most                float64
}{
	Plain:     {"a plain number", "", "4", 1e9},
	LengthDim: {"a length", " mm", "1-3/4 in or 44.5 mm", 1e6},
	AreaDim:   {"an area", " mm2", "250 mm2", 1e12},
	AngleDim:  {"an angle", " rad", "15 deg", 1e4},
	ForceDim:  {"a force", " N", "8.5 kN or 2500 lbf", 1e12},
	TorqueDim: {"a torque", " N.m", "95 N.m or 70 lbf-ft", 1e18},
	StressDim: {"a stress", " MPa", "355 MPa or 36 ksi", 1e9},
}

// String gives the dimension with its article: "a length".
func (d Dim) String() string {
	if d < 0 || int(d) >= len(dims) {
		return "a quantity"
	}
	return dims[d].word
}

// Quantity is a value with its dimension: Plain as written, lengths mm, areas
// mm2, angles rad, forces N, torques N·mm, stresses MPa.
type Quantity struct {
	V   float64
	Dim Dim
}

// String writes the quantity so that Eval reads the same value back.
func (q Quantity) String() string {
	var buf [40]byte
	b := strconv.AppendFloat(buf[:0], q.V, 'g', -1, 64)
	if q.Dim == TorqueDim {
		return string(append(b, " N.mm"...))
	}
	if q.Dim > Plain && int(q.Dim) < len(dims) {
		b = append(b, dims[q.Dim].unit...)
	}
	return string(b)
}

// within reports whether the value is a number and not absurdly large.
func (q Quantity) within() bool { return math.Abs(q.V) <= dims[q.Dim].most }

// Error is what is wrong with a text. Offset counts characters from the start
// of the text, from 0. Msg says what was met, Hint what would be right.
type Error struct {
	Offset int
	Msg    string
	Hint   string
}

func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Msg
	}
	return e.Msg + "; " + e.Hint
}
