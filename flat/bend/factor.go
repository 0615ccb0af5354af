package bend

import (
	"fmt"
	"math"

	"blankwright/flat/num"
)

// FactorBand is one row of a table of K-factors: K for inside radii from From
// times the thickness up to To times the thickness.
type FactorBand struct {
	From, To float64 // multiples of the thickness; To +Inf for the last
	K        float64
}

// FactorTable is a table of K-factors by radius to thickness: starting values
// that a shop should replace by its own test bends.
type FactorTable struct {
	Name    string
	Bands   []FactorBand // without gaps, from 0 up; a limit belongs to the band above
	ToLimit bool         // a radius on a limit belongs to the band below instead
	Source  Source
}

var inf = math.Inf(1)

// factorTables are the tables by name.
var factorTables = [...]FactorTable{
	{string(Steel), []FactorBand{{0, 1, 0.33}, {1, 3, 0.42}, {3, inf, 0.5}}, false,
		Source{"air bends in mild steel: 0.33 below R = T, 0.42 from there, 0.5 from R = 3 T", CommonPractice}},
	{string(StainlessSteel), []FactorBand{{0, 1, 0.40}, {1, 3, 0.45}, {3, inf, 0.5}}, false,
		Source{"air bends in hard sheet, from memory: 0.40 below R = T, 0.45 from there, 0.5 from R = 3 T", CommonPractice}},
	{string(Aluminium), []FactorBand{{0, 1, 0.33}, {1, 3, 0.40}, {3, inf, 0.5}}, false,
		Source{"air bends in soft sheet, from memory: 0.33 below R = T, 0.40 from there, 0.5 from R = 3 T", CommonPractice}},
	{"workshop", []FactorBand{{0, 2, 0.33}, {2, 4, 0.40}, {4, inf, 0.5}}, true,
		Source{"workshop rule: neutral line at 0.33 T below R = 2 T, 0.4 T for R = 2 T to 4 T, 0.5 T above", CommonPractice}},
}

// FactorTables gives all tables of K-factors.
func FactorTables() []FactorTable {
	out := make([]FactorTable, len(factorTables))
	for i, t := range factorTables {
		t.Bands = append([]FactorBand(nil), t.Bands...)
		out[i] = t
	}
	return out
}

// Factors gives a table of K-factors by its name: a family of materials, or
// `workshop`.
func Factors(name string) (FactorTable, error) {
	for _, t := range FactorTables() {
		if t.Name == name {
			return t, nil
		}
	}
	return FactorTable{}, fmt.Errorf("no table of K-factors for %q; give a K-factor, or a test bend", name)
}

// For is the table of a family of materials; that of steel where the family is
// none of those known.
func For(f Family) FactorTable {
	for _, t := range FactorTables() {
		if t.Name == string(f) {
			return t
		}
	}
	return FactorTables()[0]
}

// Factor is the K-factor for an inside radius in plate of thickness t, mm.
func (f FactorTable) Factor(r, t float64) (float64, error) {
	for i, band := range f.Bands {
		last := i == len(f.Bands)-1
		within := !num.AtLeast(r, band.To*t) // a radius on the limit, give or take rounding, is beyond it
		if f.ToLimit && i > 0 {
			within = num.AtMost(r, band.To*t)
		}
		if last || within {
			return band.K, nil
		}
	}
	return 0, fmt.Errorf("table of K-factors %q has no rows", f.Name)
}

// Allowance is A (R + K T) with K of the table.
func (f FactorTable) Allowance(b Bend) (Allowance, error) {
	if err := b.Validate(); err != nil {
		return Allowance{}, err
	}
	k, err := f.Factor(b.R, b.T)
	if err != nil {
		return Allowance{}, err
	}
	return Allowance{b.Arc(k), k, "K-factor " + short(k) + " of the table for " + f.Name, f.Source}, nil
}
