package strength

import (
	"math"

	"blankwright/flat/num"
)

// Units says which of two systems a person reads, and which of the two printed
// values counts where a standard states a length in both: AISC 360 has 1/16 in
// and 2 mm side by side, which are not the same.
type Units uint8

// The two systems.
const (
	Metric Units = iota // mm, kN, MPa
	Inch                // in, kip, ksi
)

// Kind is what a number measures and so in which unit it is kept.
type Kind uint8

// What a number may measure.
const (
	Number  Kind = iota // without a unit
	Length              // mm
	Area                // mm2
	Modulus             // mm3
	Inertia             // mm4
	Force               // N
	PerMM               // N/mm
	Moment              // N·mm, of a section
	Torque              // N·mm, of a shaft
	Stress              // MPa
)

const inch = 25.4 // mm

// pound is one pound-force in newton: the pound of 0.45359237 kg under standard
// gravity, 9.80665 m/s2, all exact by definition.
const pound = 0.45359237 * StandardGravity

// StandardGravity is the standard acceleration of free fall, m/s2 (3rd General
// Conference on Weights and Measures, 1901).
const StandardGravity = 9.80665

// printed is how each kind is written: the size of one printed unit and its
// name.
var printed = [...][2]struct {
	size float64
	name string
}{
	Number:  {{1, ""}, {1, ""}},
	Length:  {{1, " mm"}, {inch, " in"}},
	Area:    {{1, " mm2"}, {inch * inch, " in2"}},
	Modulus: {{1, " mm3"}, {inch * inch * inch, " in3"}},
	Inertia: {{1, " mm4"}, {inch * inch * inch * inch, " in4"}},
	Force:   {{1000, " kN"}, {1000 * pound, " kip"}},
	PerMM:   {{1, " N/mm"}, {1000 * pound / inch, " kip/in"}},
	Moment:  {{1e6, " kN m"}, {1000 * pound * inch, " kip in"}},
	Torque:  {{1000, " N m"}, {12 * pound * inch, " lbf ft"}},
	Stress:  {{1, " MPa"}, {1000 * pound / (inch * inch), " ksi"}},
}

// Append appends v, kept in the unit of its kind, as people of the system read
// it: four figures and the unit.
func (k Kind) Append(b []byte, v float64, u Units) []byte {
	p := &printed[k][u]
	b = append(b, figures(v/p.size)...)
	return append(b, p.name...)
}

// Text is what Append appends.
func (k Kind) Text(v float64, u Units) string { return string(k.Append(nil, v, u)) }

// figures writes v with four significant figures, whole digits never dropped.
func figures(v float64) string {
	decimals := 0
	if a := math.Abs(v); a > 0 && !math.IsInf(a, 0) {
		decimals = max(0, min(9, 3-int(math.Floor(math.Log10(a)))))
	}
	return num.Short(v, decimals)
}

// formula is a line of text with places for numbers, and the numbers: {s} is a
// stress, {l} a length and so on, filled in order.
type formula struct {
	text string
	v    [9]float64
}

func put(text string, v ...float64) formula {
	f := formula{text: text}
	copy(f.v[:], v)
	return f
}

func kindOf(letter byte) Kind {
	switch letter {
	case 'l':
		return Length
	case 'a':
		return Area
	case 'w':
		return Modulus
	case 'f':
		return Force
	case 'm':
		return Moment
	case 't':
		return Torque
	case 's':
		return Stress
	}
	return Number
}

func (f *formula) append(b []byte, u Units) []byte {
	k := 0
	for i := 0; i < len(f.text); i++ {
		if f.text[i] != '{' {
			b = append(b, f.text[i])
			continue
		}
		b = kindOf(f.text[i+1]).Append(b, f.v[k], u)
		k++
		i += 2
	}
	return b
}
