package unit

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"blankwright/flat/num"
)

const quarterTurn = math.Pi / 2

// env has names of each dimension.
func env() map[string]Quantity {
	return map[string]Quantity{
		"drop": {95.25, LengthDim}, "nose": {1, Plain}, "w": {101.6, LengthDim}, "tilt": {quarterTurn / 3, AngleDim},
		"pull": {8500, ForceDim}, "twist": {95000, TorqueDim}, "x_2": {3, Plain}, "F": {5, LengthDim}, "fy": {250, StressDim},
	}
}

func TestLiterals(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
		dim  Dim
	}{
		// inches
		{"1/2 in", 12.7, LengthDim},
		{"1/2in", 12.7, LengthDim},
		{`1/2"`, 12.7, LengthDim},
		{"1-3/4 in", 44.45, LengthDim},
		{`1-3/4"`, 44.45, LengthDim},
		{`1 3/4"`, 44.45, LengthDim},
		{"1 3/4 in", 44.45, LengthDim},
		{"1  3/4  in", 44.45, LengthDim},
		{"1.75in", 44.45, LengthDim},
		{"1.75 inches", 44.45, LengthDim},
		{"1 inch", 25.4, LengthDim},
		{"1 IN", 25.4, LengthDim},
		{"2″", 50.8, LengthDim},
		{"2”", 50.8, LengthDim},
		{"2''", 50.8, LengthDim},
		{".5 in", 12.7, LengthDim},
		{"5. in", 127, LengthDim},
		{"17/32 in", 13.49375, LengthDim},
		{"10/4 in", 63.5, LengthDim},
		{"-1-3/4 in", -44.45, LengthDim},
		{"+1 in", 25.4, LengthDim},
		{"15 thou", 0.381, LengthDim},
		// fraction signs
		{"½ in", 12.7, LengthDim},
		{"½\"", 12.7, LengthDim},
		{"1½\"", 38.1, LengthDim},
		{"1 ½ in", 38.1, LengthDim},
		{"1-½ in", 38.1, LengthDim},
		{"¼ in", 6.35, LengthDim},
		{"¾ in", 19.05, LengthDim},
		{"⅛ in", 3.175, LengthDim},
		{"2⅜ in", 60.325, LengthDim},
		{"⅝ in", 15.875, LengthDim},
		{"⅞ in", 22.225, LengthDim},
		{"⅓ ft", 101.6, LengthDim},
		{"⅔ ft", 203.2, LengthDim},
		{"⅙ ft", 50.8, LengthDim},
		{"1⁄2 in", 12.7, LengthDim},
		// feet
		{"2'", 609.6, LengthDim},
		{"2 ft", 609.6, LengthDim},
		{"2.5 ft", 762, LengthDim},
		{"1/2 ft", 152.4, LengthDim},
		{`2'-3"`, 685.8, LengthDim},
		{`2'3"`, 685.8, LengthDim},
		{`2' 3"`, 685.8, LengthDim},
		{`2'-3-1/2"`, 698.5, LengthDim},
		{`2' 3-1/2"`, 698.5, LengthDim},
		{`2' 3 1/2"`, 698.5, LengthDim},
		{`2'-3½"`, 698.5, LengthDim},
		{`2′ 3½″`, 698.5, LengthDim},
		{`2’-3”`, 685.8, LengthDim},
		{`2'-0.75"`, 628.65, LengthDim},
		{`-2'-3"`, -685.8, LengthDim},
		{"2 ft 3 in", 685.8, LengthDim},
		{"2ft-3in", 685.8, LengthDim},
		{"2 feet 3 inches", 685.8, LengthDim},
		{"1 foot", 304.8, LengthDim},
		{"2 ft - 3 in", 533.4, LengthDim},
		{"2 ft + 3 in", 685.8, LengthDim},
		{"5 ft-3 mm", 1521, LengthDim},
		{"5 ft * 2", 3048, LengthDim},
		// metric
		{"44.5 mm", 44.5, LengthDim},
		{"44.5mm", 44.5, LengthDim},
		{"44.5 MM", 44.5, LengthDim},
		{"4.45 cm", 44.5, LengthDim},
		{"0.0445 m", 44.5, LengthDim},
		{"250 µm", 0.25, LengthDim},
		{"250 um", 0.25, LengthDim},
		{"44.5\u00a0mm", 44.5, LengthDim},
		{"1e2 mm", 100, LengthDim},
		{"1.5E-1 mm", 0.15, LengthDim},
		{"0.1234567890123456789 mm", 0.1234567890123456789, LengthDim},
		{"000000000000000000012 mm", 12, LengthDim},
		// gauges and drills
		{"11 ga steel sheet", 0.1196 * MM, LengthDim},
		{"11ga steel sheet", 0.1196 * MM, LengthDim},
		{"11 gauge galvanised", 0.1233 * MM, LengthDim},
		{"11 GA stainless", 0.125 * MM, LengthDim},
		{"11 gage aluminum", 0.0907 * MM, LengthDim},
		{"11 ga tube", 0.12 * MM, LengthDim},
		{"11 ga tube * 2", 0.24 * MM, LengthDim},
		{"2 * 11 ga steel sheet + 1 mm", 2*0.1196*MM + 1, LengthDim},
		{"#7 drill", 0.201 * MM, LengthDim},
		{"F drill", 0.257 * MM, LengthDim},
		{"f drill", 0.257 * MM, LengthDim},
		// angles
		{"15 deg", math.Pi / 12, AngleDim},
		{"15°", math.Pi / 12, AngleDim},
		{"90 deg", quarterTurn, AngleDim},
		{"22½ deg", math.Pi / 8, AngleDim},
		{"0.5 rad", 0.5, AngleDim},
		{"-15 deg", -math.Pi / 12, AngleDim},
		// forces
		{"8500 N", 8500, ForceDim},
		{"8.5 kN", 8500, ForceDim},
		{"8.5kn", 8500, ForceDim},
		{"1 lbf", 4.4482216152605, ForceDim},
		{"2500 lbf", 11120.55403815125, ForceDim},
		{"2.5 kip", 11120.55403815125, ForceDim},
		{"1 kgf", 9.80665, ForceDim},
		{"10 daN", 100, ForceDim},
		// torques
		{"95 N·m", 95000, TorqueDim},
		{"95 N⋅m", 95000, TorqueDim},
		{"95 N.m", 95000, TorqueDim},
		{"95 Nm", 95000, TorqueDim},
		{"95 N m", 95000, TorqueDim},
		{"95 N*m", 95000, TorqueDim},
		{"95 N-m", 95000, TorqueDim},
		{"0.095 kN.m", 95000, TorqueDim},
		{"0.095 kN m", 95000, TorqueDim},
		{"95000 N.mm", 95000, TorqueDim},
		{"95000 N mm", 95000, TorqueDim},
		{"70 lbf-ft", 70 * 4.4482216152605 * 304.8, TorqueDim},
		{"70 lbf·ft", 70 * 4.4482216152605 * 304.8, TorqueDim},
		{"70 ft-lbf", 70 * 4.4482216152605 * 304.8, TorqueDim},
		{"70 LBF-FT", 70 * 4.4482216152605 * 304.8, TorqueDim},
		{"840 lbf·in", 70 * 4.4482216152605 * 304.8, TorqueDim},
		// stresses and areas
		{"355 MPa", 355, StressDim},
		{"355 N/mm2", 355, StressDim},
		{"355 N/mm²", 355, StressDim},
		{"36 ksi", 248.21126255406, StressDim},
		{"36000 psi", 248.21126255406, StressDim},
		{"210 GPa", 210000, StressDim},
		{"250 mm2", 250, AreaDim},
		{"250 mm²", 250, AreaDim},
		{"2.5 cm²", 250, AreaDim},
		{"1 in2", 645.16, AreaDim},
		{"1 m2", 1e6, AreaDim},
		{"1 ft²", 144 * 645.16, AreaDim},
		{"(2) mm2", 2, AreaDim},
		{"0.21 kN/mm²", 210, StressDim},
		{"36 KSI", 248.21126255406, StressDim},
		{"355 mpa", 355, StressDim},
		{"210 gpa", 210000, StressDim},
		// rarer forces and torques
		{"1 MN", 1e6, ForceDim},
		{"1 kgf.m", 9806.65, TorqueDim},
		{"1 kgf·cm", 98.0665, TorqueDim},
		{"1 kip-ft", 1000 * 4.4482216152605 * 304.8, TorqueDim},
		{"1 kip-in", 1000 * 4.4482216152605 * 25.4, TorqueDim},
		{"1 KN.M", 1e6, TorqueDim},
		{"12 Lbf-In", 4.4482216152605 * 304.8, TorqueDim},
		{"95 N•m", 95000, TorqueDim},
		// plain
		{"4", 4, Plain},
		{"1-3/4", 1.75, Plain},
		{"1 3/4", 1.75, Plain},
		{"3/4", 0.75, Plain},
		{"1½", 1.5, Plain},
		{" 4 ", 4, Plain},
		{"-0", 0, Plain},
	} {
		q, err := Eval(c.text, env(), Unset)
		if err != nil {
			t.Errorf("Eval(%q): %v", c.text, err)
			continue
		}
		if !close(q.V, c.want) || q.Dim != c.dim {
			t.Errorf("Eval(%q) = %v (%s), want %v (%s)", c.text, q.V, q.Dim, c.want, c.dim)
		}
		if q.V == 0 && math.Signbit(q.V) {
			t.Errorf("Eval(%q) is -0", c.text)
		}
	}
}

// close compares to about one part in a million million, or exactly near zero.
func close(a, b float64) bool {
	return a == b || num.Same(a/b*1e4, 1e4)
}

func TestArithmetic(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
		dim  Dim
	}{
		// mixed numbers and subtractions
		{"1 - 3/4", 0.25, Plain},
		{"1 in - 3/4 in", 6.35, LengthDim},
		{"1in-3/4in", 6.35, LengthDim},
		{"5-2", 3, Plain},
		{"5 -2", 3, Plain},
		{"1-3.5/7", 0.5, Plain},
		{"1-3/4.5", 1 - 3/4.5, Plain},
		{"1.5-3/4", 0.75, Plain},
		{"3-1/2-1/4", 3.25, Plain},
		{"3 1/2 - 1/4", 3.25, Plain},
		{"1/2-1/4", 0.25, Plain},
		{"5-1-3/4", 3.25, Plain},
		{"drop-3/4 in", 76.2, LengthDim},
		{"(2)-3/4", 1.25, Plain},
		{"2 * 1-3/4", 3.5, Plain},
		{"2 + 1-3/4", 3.75, Plain},
		{"(1-3/4)*2", 3.5, Plain},
		{"(+1-3/4)", 1.75, Plain},
		{"1-3/4 * 2", 3.5, Plain},
		{"1-3/4in*2", 88.9, LengthDim},
		{"2 * -1-3/4", -3.5, Plain},
		{"2−1", 1, Plain},
		// precedence and parentheses
		{"2+3*4", 14, Plain},
		{"(2+3)*4", 20, Plain},
		{"2*3-4", 2, Plain},
		{"12/3/2", 2, Plain},
		{"12/4*3", 9, Plain},
		{"2 × 3 ÷ 4", 1.5, Plain},
		{"-(2+3)", -5, Plain},
		{"2--3", 5, Plain},
		{"2*-3", -6, Plain},
		{"((((4))))", 4, Plain},
		{"(3/8 + 1/16) in", 11.1125, LengthDim},
		{"(30 + 15) deg", math.Pi / 4, AngleDim},
		// names
		{"drop", 95.25, LengthDim},
		{"-drop", -95.25, LengthDim},
		{"drop/2", 47.625, LengthDim},
		{"w/2 - 1/2 in", 38.1, LengthDim},
		{"drop + 1 in", 120.65, LengthDim},
		{"2*x_2", 6, Plain},
		{"nose", 1, Plain},
		{"w/4 in", 4.0 / 4, Plain},
		{"F drill", 0.257 * MM, LengthDim},
		{"F", 5, LengthDim},
		// dimensions
		{"2 in * 3", 152.4, LengthDim},
		{"3 * 2 in", 152.4, LengthDim},
		{"2 in * 3 in", 6 * 645.16, AreaDim},
		{"2 in / 1 in", 2, Plain},
		{"6 in2 / 2 in", 76.2, LengthDim},
		{"pull * 100 mm", 850000, TorqueDim},
		{"100 mm * pull", 850000, TorqueDim},
		{"twist / 190 mm", 500, ForceDim},
		{"twist / 500 N", 190, LengthDim},
		{"pull / 85 mm2", 100, StressDim},
		{"fy * 100 mm2", 25000, ForceDim},
		{"pull / fy", 34, AreaDim},
		{"1 kN + 500 N", 1500, ForceDim},
		{"tilt + 30 deg", math.Pi / 3, AngleDim},
		// functions
		{"sqrt(9)", 3, Plain},
		{"sqrt(3 mm * 3 mm + 4 mm * 4 mm)", 5, LengthDim},
		{"sin(30 deg)", 0.5, Plain},
		{"cos(tilt)", math.Cos(math.Pi / 6), Plain},
		{"tan(45°)", 1, Plain},
		{"sin (30 deg)", 0.5, Plain},
		{"10 mm * sin(30 deg)", 5, LengthDim},
		{"sin(2 * (10 deg + 5 deg))", 0.5, Plain},
	} {
		q, err := Eval(c.text, env(), Unset)
		if err != nil {
			t.Errorf("Eval(%q): %v", c.text, err)
			continue
		}
		if !close(q.V, c.want) || q.Dim != c.dim {
			t.Errorf("Eval(%q) = %v (%s), want %v (%s)", c.text, q.V, q.Dim, c.want, c.dim)
		}
	}
}

func TestLengthSystems(t *testing.T) {
	for _, c := range []struct {
		text string
		sys  System
		want float64
	}{
		{"1-3/4", Inch, 44.45},
		{"44.5", Millimetre, 44.5},
		{"nose", Inch, 25.4},
		{"nose/2", Inch, 12.7},
		{"nose + 5 mm", Inch, 30.4},
		{"5 mm + nose", Inch, 30.4},
		{"nose + 5 mm", Millimetre, 6},
		{"1/2 - 5 mm", Inch, 7.7},
		{"drop - 1/4", Inch, 88.9},
		{"2*sin(30 deg)", Inch, 25.4},
		{"1 in", Millimetre, 25.4},
		{"0", Unset, 0},
		{"-0", Unset, 0},
		{"1 in - 0", Unset, 25.4},
	} {
		got, err := Length(c.text, env(), c.sys)
		if err != nil || !close(got, c.want) {
			t.Errorf("Length(%q, %d) = %v, %v; want %v", c.text, c.sys, got, err, c.want)
		}
	}
}

func TestOthers(t *testing.T) {
	for _, c := range []struct {
		name string
		f    func(string, map[string]Quantity) (float64, error)
		text string
		want float64
	}{
		{"Angle", Angle, "180 deg - tilt", 5 * math.Pi / 6},
		{"Angle", Angle, "0", 0},
		{"Force", Force, "2 * pull", 17000},
		{"Torque", Torque, "twist", 95000},
		{"Stress", Stress, "fy/2", 125},
		{"Number", Number, "3*x_2 - 1", 8},
	} {
		got, err := c.f(c.text, env())
		if err != nil || !close(got, c.want) {
			t.Errorf("%s(%q) = %v, %v; want %v", c.name, c.text, got, err, c.want)
		}
	}
}

func TestErrors(t *testing.T) {
	length := func(sys System) func(string) error {
		return func(s string) error { _, err := Length(s, env(), sys); return err }
	}
	unset, inch := length(Unset), length(Inch)
	angle := func(s string) error { _, err := Angle(s, env()); return err }
	force := func(s string) error { _, err := Force(s, env()); return err }
	torque := func(s string) error { _, err := Torque(s, env()); return err }
	number := func(s string) error { _, err := Number(s, env()); return err }
	for _, c := range []struct {
		read      func(string) error
		text      string
		offset    int
		msg, hint string // pieces that must be there
	}{
		// no unit
		{unset, "1-3/4", 0, "1-3/4 has no unit, and the file sets none", "units: in or units: mm"},
		{unset, "  12", 2, "12 has no unit", "in or mm"},
		{unset, "drop + nose", 7, "without a unit beside a length", "units: in"},
		{unset, "nose + drop", 0, "without a unit beside a length", "units: in"},
		{angle, "15", 0, "an angle without a unit", "15 deg"},
		{force, "8.5", 0, "no unit, where a force is wanted", "8.5 kN"},
		{torque, "95", 0, "no unit, where a torque is wanted", "95 N.m"},
		// wrong dimension
		{inch, "5 kN", 0, "5 kN is a force, where a length is wanted", "1-3/4 in"},
		{inch, "2 in * 2 in", 0, "is an area", "1-3/4 in"},
		{angle, "5 mm", 0, "5 mm is a length, where an angle is wanted", "15 deg"},
		{number, "5 mm", 0, "is a length, where a plain number is wanted", "4"},
		{inch, "5 mm + 15 deg", 5, "an angle cannot be added to a length", "same"},
		{inch, "5 mm - 1 kN", 5, "a force cannot be subtracted from a length", "same"},
		{angle, "15 deg + 5", 7, "a plain number cannot be added to an angle", "second number its unit"},
		{angle, "5 + 15 deg", 2, "an angle cannot be added to a plain number", "first number its unit"},
		{inch, "1 in * 1 in * 1 in", 12, "an area times a length", "plain number"},
		{inch, "pull * pull", 5, "a force times a force", "plain number"},
		{inch, "1 / 2 in", 2, "a plain number divided by a length", "1/2 in"},
		{inch, "sin(30)", 4, "sin of a plain number", "sin(30 deg)"},
		{inch, "cos(5 mm)", 4, "cos of a length", "cos(30 deg)"},
		{inch, "sqrt(5 mm)", 5, "the square root of a length", "a*a + b*b"},
		{inch, "sqrt(1 - 2)", 5, "negative", "0 or more"},
		{inch, "(5 mm) in", 7, "already has one", "take one"},
		// read two ways
		{inch, "1 -3/4", 2, "mixed number or a subtraction", "1-3/4 for a mixed number, 1 - 3/4 to subtract"},
		{inch, "1- 3/4", 1, "mixed number or a subtraction", "1 - 3/4"},
		{inch, "2*1-3/4", 2, "1-3/4 may be a mixed number or a subtraction", "put spaces round"},
		{inch, "1-3/4*2", 0, "1-3/4 may be a mixed number", "put spaces round"},
		{inch, "1-3/4/2", 0, "1-3/4 may be a mixed number", "put spaces round"},
		{inch, "w/2-1/2", 2, "2-1/2 may be a mixed number", "2 - 1/2 to subtract"},
		{inch, "w/2 1/2", 2, "2 1/2 may be a mixed number", "put spaces round"},
		{inch, "2+1-3/4", 2, "1-3/4 may be a mixed number", "put spaces round"},
		{inch, "2*-1-3/4", 3, "1-3/4 may be a mixed number", "put spaces round"},
		{inch, "w/3/4", 2, "division by the fraction 3/4", "(3/4)"},
		{inch, "w / 3/4", 4, "division by the fraction 3/4", "(3/4)"},
		{inch, "w / -3/4", 5, "division by the fraction 3/4", "(3/4)"},
		{inch, "12-5/4", 0, "not less than one", "12 - 5/4"},
		{inch, "24 12/2", 0, "not less than one", "24 - 12/2"},
		{inch, "2'-3", 3, "without their mark", `2'-3"`},
		{inch, "2' 3", 3, "without their mark", `2'-3"`},
		{inch, `2' -3"`, 3, "feet and inches or a subtraction", "2 ft - 3 in"},
		{inch, `2'- 3"`, 2, "feet and inches or a subtraction", "2 ft - 3 in"},
		{inch, `2.5' 3"`, 0, "whole number", "2.5 ft"},
		{inch, `2'-14"`, 3, "12 inches or more", "carry"},
		{inch, "5 mil", 2, "mil is not known here or may mean two things", "thou"},
		{force, "2500 lb", 5, "lb is not known", "lbf"},
		{torque, "95 nm", 3, "nm is not known", "N.m"},
		{force, "5 kg", 2, "kg is not known", "kgf or N"},
		{force, "5 tons", 2, "tons is not known", "kN or kip"},
		{inch, "5 M", 2, "M is not known", "mm for millimetres"},
		{force, "5 n", 2, "n is not known", "N for newtons"},
		{angle, "5 gon", 2, "gon is not known", "deg"},
		{force, "5 k", 2, "k is not known", "kN"},
		{inch, "5 kPa", 2, "kPa is not known", "MPa, ksi or psi"},
		{inch, "5 N x", 4, "an operator is wanted", "+ - * or /"},
		{inch, "5 averyveryverylongunitword-averylongone", 2, "unknown unit", "mm, cm"},
		{inch, "5 xyzzyxyzzyxyzzyxyzzyxyzzyxyzzy", 2, `unknown unit "xyzzyxyzzyxyzzyxyzzyxyzz..."`, "mm, cm"},
		{inch, "2' 3 qq", 5, `unknown unit "qq"`, "mm, cm"},
		{inch, "2' 1/0", 5, "division by zero", "lower number"},
		{inch, "(2) qq", 4, `unknown unit "qq"`, "mm, cm"},
		{inch, "sin(30 deg]", 10, "an operator is wanted", "+ - * or /"},
		{inch, "1 2/0", 4, "division by zero", "lower number"},
		{force, "5 mN", 2, "mN is not known", "N or MN"},
		{inch, "#7", 0, "#7 may be a drill or a screw", "#7 drill"},
		// gauges
		{inch, "11 ga", 0, "11 gauge differs from stock to stock", "add steel sheet (0.1196 in), galvanised sheet (0.1233 in), stainless sheet (0.125 in), aluminium sheet (0.0907 in) or tube (0.12 in)"},
		{inch, "11 ga brass", 0, `unknown gauge family "brass"`, "known are steel sheet"},
		{inch, "99 ga tube", 0, "tube has no 99 gauge", "from 1 to 26"},
		{inch, "1.5 ga tube", 4, "ga is not known", "whole number"},
		{inch, "#99 drill", 0, "unknown drill", "#1 to #80"},
		// words
		{inch, "5 inchs", 2, `unknown unit "inchs"`, "did you mean inch"},
		{inch, "5 furlong", 2, `unknown unit "furlong"`, "mm, cm, m, in"},
		{inch, "2 drop", 2, "the name drop directly after a number", "*"},
		{inch, "drpo", 0, `unknown name "drpo"`, "did you mean drop"},
		{inch, "qqq", 0, `unknown name "qqq"`, "let:"},
		{inch, "mm", 0, "the unit mm stands without a number", "1 mm"},
		{inch, "sqrt 4", 0, "takes its value in parentheses", "sqrt(...)"},
		{inch, "log(4)", 0, `unknown function "log"`, "sqrt, sin, cos and tan"},
		{inch, "drop(4)", 4, "takes no parenthesis", "drop * (...)"},
		// shape
		{inch, "", 0, "nothing is written", "1-3/4 in"},
		{inch, "   ", 3, "nothing is written", "1-3/4 in"},
		{inch, "5 +", 3, "missing at the end", "number"},
		{inch, "* 5", 0, `a value is wanted before "* 5"`, "number"},
		{inch, "5 mm 3 mm", 5, `an operator is wanted before "3 mm"`, "+ - * or /"},
		{inch, "(5 mm", 0, "not closed", "missing )"},
		{inch, "sin(5 deg", 3, "not closed", "missing )"},
		{inch, "(5 mm]", 5, "an operator is wanted", "+ - * or /"},
		{inch, "5 mm)", 4, "a ) without its (", "take it out"},
		{inch, "44,5 mm", 2, "a comma within a number", "44.5"},
		{inch, "2**3", 2, "a value is wanted before", "number"},
		{inch, "2^3", 1, "an operator is wanted", "a * a"},
		{inch, ".", 0, "a point without digits", "0.5"},
		{inch, "½½", 1, "an operator is wanted", "+ - * or /"},
		{inch, "é", 0, "a value is wanted", "number"},
		// offsets count characters
		{inch, "1½\" + é", 6, "a value is wanted", "number"},
		{inch, "5 µm + qqq", 7, "unknown name", "let:"},
		// size
		{inch, "1/0 in", 2, "division by zero", "lower number"},
		{inch, "1/(2-2)", 1, "division by zero", "nothing"},
		{inch, "1e999", 0, "too large", "can be built"},
		{inch, "1001 m", 0, "too large", "1e+06 mm"},
		{inch, "900 m + 900 m", 0, "too large", "1e+06 mm"},
		{inch, "50000", 0, "too large", "1000000 mm"},
		{inch, "tan(90 deg) mm", 0, "too large", "the most"},
		{inch, strings.Repeat("(", 60) + "1" + strings.Repeat(")", 60), 50, "too many parentheses", "let:"},
		{inch, strings.Repeat("-", 60) + "1", 50, "too many parentheses or signs", "let:"},
		{inch, strings.Repeat("sin(", 60), 203, "too many parentheses", "let:"},
		{inch, strings.Repeat("1", 1001), 0, "longer than 1000 characters", "let:"},
	} {
		err := c.read(c.text)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%.40q: error is %v, want an *Error", c.text, err)
			continue
		}
		if e.Offset != c.offset || !strings.Contains(e.Msg, c.msg) || !strings.Contains(e.Hint, c.hint) {
			t.Errorf("%.40q: error at %d: %q (hint %q)\n want at %d: %q (hint %q)", c.text, e.Offset, e.Msg, e.Hint, c.offset, c.msg, c.hint)
		}
		for _, s := range []string{e.Msg, e.Hint} {
			if strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "...") || !utf8.ValidString(s) {
				t.Errorf("%.40q: message %q ends in a stop or is no text", c.text, s)
			}
		}
		if e.Offset < 0 || e.Offset > utf8.RuneCountInString(c.text) {
			t.Errorf("%.40q: offset %d is outside the text", c.text, e.Offset)
		}
	}
}

// The text of an *Error joins message and hint.
func TestErrorText(t *testing.T) {
	e := &Error{Msg: "a", Hint: "b"}
	if e.Error() != "a; b" {
		t.Errorf("got %q", e.Error())
	}
	e.Hint = ""
	if e.Error() != "a" {
		t.Errorf("got %q", e.Error())
	}
}

// The same wrong text gets the same hint whichever way the names are walked.
func TestNearestNameIsSteady(t *testing.T) {
	names := map[string]Quantity{"dropa": {}, "dropb": {}, "dropc": {}, "dropd": {}, "other": {}}
	for range 50 {
		_, err := Eval("dropx", names, Inch)
		var e *Error
		if !errors.As(err, &e) || e.Hint != "did you mean dropa" {
			t.Fatalf("got %v, want the first in the alphabet", err)
		}
	}
}

func TestStrangeEnv(t *testing.T) {
	for name, q := range map[string]Quantity{
		"nan": {math.NaN(), LengthDim}, "inf": {math.Inf(1), Plain}, "huge": {1e300, ForceDim},
		"odd": {1, Dim(99)}, "minus": {1, Dim(-1)},
	} {
		if v, err := Eval(name, map[string]Quantity{name: q}, Inch); err == nil {
			t.Errorf("%s gives %v, want an error", name, v)
		}
	}
}

func TestDimWords(t *testing.T) {
	for d, want := range map[Dim]string{Plain: "a plain number", AreaDim: "an area", StressDim: "a stress", Dim(99): "a quantity", Dim(-1): "a quantity"} {
		if d.String() != want {
			t.Errorf("Dim(%d) is %q, want %q", int(d), d.String(), want)
		}
	}
}

func TestNames(t *testing.T) {
	for name, want := range map[string]bool{
		"drop": true, "x_2": true, "t": true, "L": true, "F": true, "d": true, "Nose": true, "_a": true,
		"": false, "2x": false, "a-b": false, "a b": false, "é": false, "mm": false, "in": false, "m": false,
		"N": false, "sin": false, "sqrt": false, "drill": false, strings.Repeat("a", 41): false,
	} {
		if got := ValidName(name); got != want {
			t.Errorf("ValidName(%q) = %v, want %v", name, got, want)
		}
	}
}
