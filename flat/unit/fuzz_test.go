package unit

import (
	"errors"
	"math"
	"testing"
	"unicode/utf8"

	"blankwright/flat/num"
)

// FuzzUnit: whatever is read is either an error with a place inside the text,
// or a finite value that reads back the same from its own writing.
func FuzzUnit(f *testing.F) {
	for _, s := range []string{
		"1-3/4", "1 3/4\"", "1.75in", "44.5 mm", "2'-3-1/2\"", "2' 3½\"", "1 - 3/4", "1 -3/4", "w/2-1/2",
		"11 ga steel sheet", "#7 drill", "F drill", "15 deg", "95 N·m", "70 lbf-ft", "355 N/mm²", "8.5 kN",
		"sqrt(a*a + b*b)", "sin(30 deg) * 2 in", "(3/8 + 1/16) in", "-(2+3)*-4/5", "1e999", "1/0", "tan(90 deg)",
		"((((((((((1))))))))))", "----1", "1−2", "3 × 4 ÷ 5", "5 µm", "2′ 3″", "1⁄2", "\xff", "\xc2", "\xe2\x85", "0x10", "1e", "..", "''",
	} {
		f.Add(s, byte(len(s)))
	}
	names := map[string]Quantity{
		"a": {3, LengthDim}, "b": {4, LengthDim}, "w": {100, LengthDim}, "n": {7, Plain}, "q": {1, AngleDim}, "p": {100, ForceDim},
	}
	f.Fuzz(func(t *testing.T, text string, system byte) {
		sys := System(system % 3)
		q, err := Eval(text, names, sys)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) {
				t.Fatalf("%q: the error is no *Error: %v", text, err)
			}
			if e.Offset < 0 || e.Offset > utf8.RuneCountInString(text) || e.Msg == "" {
				t.Fatalf("%q: offset %d, message %q", text, e.Offset, e.Msg)
			}
			return
		}
		if math.IsNaN(q.V) || math.IsInf(q.V, 0) || q.V == 0 && math.Signbit(q.V) || q.Dim < Plain || q.Dim > StressDim {
			t.Fatalf("%q gives %v (%d)", text, q.V, q.Dim)
		}
		back, err := Eval(q.String(), nil, Unset)
		if err != nil || back != q {
			t.Fatalf("%q gives %v, written %q, read back as %v, %v", text, q, q.String(), back, err)
		}
		mm, err := Length(text, names, sys)
		if err == nil {
			if !(Quantity{mm, LengthDim}).within() {
				t.Fatalf("%q is a length of %v mm", text, mm)
			}
			if s, exact := Fraction(mm); exact {
				again, err := Length(s, nil, Inch)
				if err != nil || !num.AtMost(math.Abs(again-mm), num.Coincident) {
					t.Fatalf("%v mm is written %q and read as %v, %v", mm, s, again, err)
				}
			}
		}
	})
}
