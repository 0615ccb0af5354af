package unit

import "strings"

// Eval reads a value: numbers with their units, names from env, + - * / and
// parentheses, sqrt, sin, cos and tan.
//
//	1-3/4   1 3/4"   1.75in   1½"   44.5 mm   2'-3-1/2"   2 ft 3 in   15 thou
//	11 ga steel sheet   #7 drill   F drill
//	15 deg   15°   0.26 rad   8.5 kN   2500 lbf   95 N·m   70 lbf-ft   355 MPa
//	drop/2 + 1/4   (3/8 + 1/16) in   sqrt(a*a + b*b)   a*sin(15 deg)
//
// 1-3/4 without spaces is a mixed number, 1 - 3/4 with spaces a subtraction,
// 1 3/4 a mixed number; where both might be meant (1 -3/4, 2*1-3/4, w/2-1/2) it
// is an error that says how to write either. A fraction without spaces is one
// number, so 1/2 in is half an inch.
//
// A number without a unit stays plain; beside a length, in a sum, it takes the
// unit of sys. The error, if there is one, is an *Error.
func Eval(text string, env map[string]Quantity, sys System) (Quantity, error) {
	q, err := eval(text, env, sys)
	if err != nil {
		return Quantity{}, err
	}
	return q, nil
}

// Length reads a length in mm. A plain number takes the unit of sys; with sys
// Unset it is an error, but for 0. The error, if there is one, is an *Error.
func Length(text string, env map[string]Quantity, sys System) (mm float64, err error) {
	q, e := eval(text, env, sys)
	switch {
	case e != nil:
		return 0, e
	case q.Dim == LengthDim:
		return q.V, nil
	case q.Dim != Plain:
		return 0, wrongDim(text, q, LengthDim)
	}
	mm, e = plainLength(q.V, sys)
	switch {
	case e != nil:
		e.Offset = blanksBefore(text)
		e.Msg = cut(strings.TrimSpace(text)) + " has no unit, and the file sets none"
		return 0, e
	case !(Quantity{mm, LengthDim}).within():
		return 0, &Error{Msg: "the length is too large", Hint: "the most is 1000000 mm"}
	}
	return mm, nil
}

// plainLength gives a number the unit of the system, in mm.
func plainLength(v float64, sys System) (float64, *Error) {
	switch {
	case sys == Millimetre || v == 0:
		return v, nil
	case sys == Inch:
		return v * MM, nil
	}
	return 0, &Error{Hint: "write in or mm after it, or set units: in or units: mm for the whole file"}
}

// Angle reads an angle in radians. A plain number is an error that asks for
// deg, but for 0. The error, if there is one, is an *Error.
func Angle(text string, env map[string]Quantity) (rad float64, err error) {
	return read(text, env, AngleDim)
}

// Force reads a force in N. The error, if there is one, is an *Error.
func Force(text string, env map[string]Quantity) (newtons float64, err error) {
	return read(text, env, ForceDim)
}

// Torque reads a torque in N·mm. The error, if there is one, is an *Error.
func Torque(text string, env map[string]Quantity) (nmm float64, err error) {
	return read(text, env, TorqueDim)
}

// Stress reads a stress in MPa. The error, if there is one, is an *Error.
func Stress(text string, env map[string]Quantity) (mpa float64, err error) {
	return read(text, env, StressDim)
}

// Number reads a plain number. The error, if there is one, is an *Error.
func Number(text string, env map[string]Quantity) (float64, error) {
	return read(text, env, Plain)
}

// read reads a value that must have a dimension.
func read(text string, env map[string]Quantity, want Dim) (float64, error) {
	q, e := eval(text, env, Unset)
	switch {
	case e != nil:
		return 0, e
	case q.Dim == want || q.Dim == Plain && q.V == 0:
		return q.V, nil
	}
	return 0, wrongDim(text, q, want)
}

// wrongDim is the error for a value that measures something else.
func wrongDim(text string, q Quantity, want Dim) *Error {
	t := cut(strings.TrimSpace(text))
	e := &Error{Offset: blanksBefore(text)}
	switch {
	case q.Dim != Plain:
		e.Msg = t + " is " + q.Dim.String() + ", where " + want.String() + " is wanted"
		e.Hint = "write " + want.String() + " such as " + dims[want].example
	case want == AngleDim:
		e.Msg = t + " is an angle without a unit"
		e.Hint = "write deg after it: " + dims[want].example
	default:
		e.Msg = t + " has no unit, where " + want.String() + " is wanted"
		e.Hint = "write the unit after it, such as " + dims[want].example
	}
	return e
}

// blanksBefore counts the blanks that a text begins with.
func blanksBefore(text string) int {
	n := 0
	for _, r := range text {
		if r != ' ' && r != '\t' && r != '\u00a0' && r != '\u2009' && r != '\u202f' {
			break
		}
		n++
	}
	return n
}
