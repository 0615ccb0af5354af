package unit

import (
	"math"
	"testing"
)

func TestText(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		sys  System
		want string
	}{
		{19.05, Inch, "0.750 in (19.05 mm)"},
		{19.05, Millimetre, "19.05 mm"},
		{19.05, Unset, "19.05 mm"},
		{0, Inch, "0.000 in (0.00 mm)"},
		{-0.001, Millimetre, "0.00 mm"},
		{-25.4, Inch, "-1.000 in (-25.40 mm)"},
		{13.49375, Inch, "0.531 in (13.49 mm)"},
	} {
		if got := Text(c.mm, c.sys); got != c.want {
			t.Errorf("Text(%v, %d) = %q, want %q", c.mm, c.sys, got, c.want)
		}
	}
}

func TestFraction(t *testing.T) {
	for _, c := range []struct {
		mm    float64
		want  string
		exact bool
	}{
		{13.49375, "17/32", true},
		{44.45, "1-3/4", true},
		{50.8, "2", true},
		{0, "0", true},
		{12.7, "1/2", true},
		{-12.7, "-1/2", true},
		{-44.45, "-1-3/4", true},
		{25.4 / 64, "1/64", true},
		{13.5, "17/32", false},
		{0.1, "0", false},
		{25.3, "1", false},
		{6, "15/64", false},
		{1e9, "3.9370078740157485e+07", false},
		{math.Inf(1), "+Inf", false},
	} {
		got, exact := Fraction(c.mm)
		if got != c.want || exact != c.exact {
			t.Errorf("Fraction(%v) = %q, %v; want %q, %v", c.mm, got, exact, c.want, c.exact)
		}
	}
}

// Every fraction up to 20 inches reads back as what was written.
func TestFractionReadsBack(t *testing.T) {
	for n := -64 * 20; n <= 64*20; n++ {
		mm := float64(n) / 64 * MM
		s, exact := Fraction(mm)
		got, err := Length(s, nil, Inch)
		if err != nil || !exact || !close(got, mm) {
			t.Fatalf("%d/64 in is written %q (exact %v) and read as %v, %v", n, s, exact, got, err)
		}
	}
}

func TestQuantityString(t *testing.T) {
	for _, c := range []struct {
		q    Quantity
		want string
	}{
		{Quantity{19.05, LengthDim}, "19.05 mm"},
		{Quantity{0.5, AngleDim}, "0.5 rad"},
		{Quantity{8500, ForceDim}, "8500 N"},
		{Quantity{95000, TorqueDim}, "95000 N.mm"},
		{Quantity{355, StressDim}, "355 MPa"},
		{Quantity{250, AreaDim}, "250 mm2"},
		{Quantity{0.1, Plain}, "0.1"},
		{Quantity{1e-300, LengthDim}, "1e-300 mm"},
	} {
		if got := c.q.String(); got != c.want {
			t.Errorf("%v is written %q, want %q", c.q.V, got, c.want)
		}
		if back, err := Eval(c.q.String(), nil, Unset); err != nil || back != c.q {
			t.Errorf("%q reads back as %v, %v", c.q.String(), back, err)
		}
	}
}

// What is written for a file reads back as the length, to its last digit.
func TestTyped(t *testing.T) {
	for _, row := range []struct {
		mm   float64
		sys  System
		want string
	}{{44.45, Inch, "1.750 in"}, {44.45, Millimetre, "44.45 mm"}, {44.45, Unset, "44.45 mm"}, {0, Inch, "0.000 in"}} {
		if got := Typed(row.mm, row.sys); got != row.want {
			t.Errorf("%g: %q, wanted %q", row.mm, got, row.want)
		}
	}
}

func TestWords(t *testing.T) {
	for _, row := range []struct {
		sys        System
		said, want string
	}{
		{Inch, "tube of 38.1 mm and -25.4 mm of wall", "tube of 1.500 in (38.10 mm) and -1.000 in (-25.40 mm) of wall"},
		{Inch, "1.500 in (38.10 mm) stays", "1.500 in (38.10 mm) stays"},
		{Inch, "40 mmHg, 3 kN", "40 mmHg, 3 kN"},
		{Inch, "", ""},
		{Millimetre, "tube of 38.1 mm", "tube of 38.1 mm"},
	} {
		if got := Words(row.said, row.sys); got != row.want {
			t.Errorf("%q: %q, wanted %q", row.said, got, row.want)
		}
	}
}
