package bend

import (
	"fmt"
	"strings"

	"blankwright/flat/num"
)

// Grain is how the bend line lies to the direction of rolling.
type Grain int8

// How the bend line lies to the direction of rolling.
const (
	Unknown Grain = iota // taken as along, the worse
	Across               // bend line square to rolling
	Along                // bend line parallel to rolling
)

// Least is a least inside radius, mm, and who says so.
type Least struct {
	R      float64
	Source Source
}

// radiusRow is one thickness range of EN 10025-2.
type radiusRow struct {
	over, to      float64 // mm: over < t <= to
	across, along [3]float64
}

// en10025 are the recommended least inside radii for cold flanging, mm, for
// S235, S275 and S355 in this order.
var en10025 = [...]radiusRow{
	{1, 1.5, [3]float64{1.6, 2, 2.5}, [3]float64{1.6, 2, 2.5}},
	{1.5, 2.5, [3]float64{2.5, 3, 4}, [3]float64{2.5, 3, 4}},
	{2.5, 3, [3]float64{3, 4, 5}, [3]float64{3, 4, 5}},
	{3, 4, [3]float64{5, 5, 6}, [3]float64{6, 6, 8}},
	{4, 5, [3]float64{6, 8, 8}, [3]float64{8, 10, 10}},
	{5, 6, [3]float64{8, 10, 10}, [3]float64{10, 12, 12}},
	{6, 7, [3]float64{10, 12, 12}, [3]float64{12, 16, 16}},
	{7, 8, [3]float64{12, 16, 16}, [3]float64{16, 20, 20}},
	{8, 10, [3]float64{16, 20, 20}, [3]float64{20, 25, 25}},
	{10, 12, [3]float64{20, 25, 25}, [3]float64{25, 32, 32}},
	{12, 14, [3]float64{25, 28, 32}, [3]float64{28, 36, 36}},
	{14, 16, [3]float64{28, 32, 36}, [3]float64{32, 40, 40}},
	{16, 18, [3]float64{36, 40, 45}, [3]float64{40, 45, 50}},
	{18, 20, [3]float64{40, 45, 50}, [3]float64{45, 50, 63}},
}

var en10025Steels = [...]string{"s235", "s275", "s355"}

var en10025Source = Source{"EN 10025-2, recommended least inside radii for cold flanging, grades with suffix C", FromMemory}

// multipleRow is a least radius as a multiple of the thickness, up to a
// thickness.
type multipleRow struct{ to, times float64 }

// multiples are least radii as multiples of the thickness.
var multiples = [...]struct {
	materials []string
	rows      []multipleRow
	along     float64 // by which they grow where the bend line is along the grain
	source    Source
}{
	{[]string{"a36", "a572-42"}, []multipleRow{{2 * inch, 1.5}, {inf, 2}}, 1.5, astmA6},
	{[]string{"a572-50", "a588"}, []multipleRow{{1 * inch, 1.5}, {2 * inch, 2}, {inf, 2.5}}, 1.5, astmA6},
	{[]string{"s355mc"}, []multipleRow{{3, 0.25}, {6, 0.5}, {20, 1}}, 1, mcSource},
	{[]string{"s420mc"}, []multipleRow{{3, 0.5}, {6, 1}, {20, 1.5}}, 1, mcSource},
	{[]string{"s500mc"}, []multipleRow{{3, 1}, {6, 1.5}, {16, 2}}, 1, mcSource},
	{[]string{"s700mc"}, []multipleRow{{3, 1.5}, {6, 2}, {10, 2.5}}, 1, mcSource},
	{[]string{"6061-t6", "6061-t6 extrusion"}, []multipleRow{{inch / 16, 1.5}, {inch / 8, 2.5}, {inch / 4, 3.5}}, 1,
		Source{"aluminium sheet guide for cold bends of 90 degrees, doubtful: many shops ask 3 to 4 T or refuse 6061-T6", FromMemory}},
}

const inch = 25.4 // mm

var (
	astmA6   = Source{"ASTM A6 Appendix X4 as in AISC Manual Table 10-13; along the grain 1.5 times as much, and more for bends over 36 in long", FromMemory}
	mcSource = Source{"EN 10149-2, least inside radii for bends across or along the grain", FromMemory}
)

// LeastRadius is the least inside radius for a material by its name (`S355`,
// `A36`, `6061-T6`), a thickness, mm, and the lie of the grain. The error tells
// that no table has it; see CommonRadius.
func LeastRadius(material string, t float64, g Grain) (Least, error) {
	name := strings.ToLower(strings.TrimSpace(material))
	for i, m := range en10025Steels {
		if m == name {
			return leastEN(i, material, t, g)
		}
	}
	for _, m := range multiples {
		for _, n := range m.materials {
			if n == name {
				return leastOf(m.rows, m.along, m.source, material, t, g)
			}
		}
	}
	return Least{}, fmt.Errorf("no table of least bend radii has %s", material)
}

func leastEN(steel int, material string, t float64, g Grain) (Least, error) {
	if t > 0 && t <= en10025[0].over {
		return Least{en10025[0].pick(steel, g), en10025Source}, nil
	}
	for i := range en10025 {
		if t > 0 && num.AtMost(t, en10025[i].to) {
			return Least{en10025[i].pick(steel, g), en10025Source}, nil
		}
	}
	return Least{}, noRow(material, t)
}

func (r *radiusRow) pick(steel int, g Grain) float64 {
	if g == Across {
		return r.across[steel]
	}
	return r.along[steel]
}

func leastOf(rows []multipleRow, along float64, s Source, material string, t float64, g Grain) (Least, error) {
	for _, r := range rows {
		if t > 0 && num.AtMost(t, r.to) {
			k := r.times
			if g != Across {
				k *= along
			}
			return Least{k * t, s}, nil
		}
	}
	return Least{}, noRow(material, t)
}

func noRow(material string, t float64) error {
	return fmt.Errorf("the table of least bend radii for %s has no row for %s mm", material, short(t))
}

// CommonRadius is the least inside radius that shops keep to where no table has
// the material, from its family, yield strength (MPa, 0 where unknown) and
// thickness, mm: the thickness for mild and stainless steel, one and a half for
// thick or stronger steel, twice for steel of 420 MPa and more, the thickness
// for soft aluminium and three times for hard (from 200 MPa). Common practice.
func CommonRadius(f Family, fy, t float64) Least {
	k := 1.0
	switch {
	case f == Aluminium && fy >= hardAluminium:
		k = 3
	case f == Steel && fy >= strongSteel:
		k = 2
	case f == Steel && (fy >= mediumSteel || t > thickPlate):
		k = 1.5
	}
	return Least{k * t, Source{"least inside radius " + num.Short(k, 1) + " T", CommonPractice}}
}

const (
	hardAluminium = 200.0 // MPa
	mediumSteel   = 300.0 // MPa
	strongSteel   = 420.0 // MPa
	thickPlate    = 10.0  // mm
)
