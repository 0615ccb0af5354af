package bend

import (
	"math"
	"strconv"
	"strings"

	"blankwright/flat/num"
)

// Table is a table for printing.
type Table struct {
	Name, Title string
	Columns     []string
	Rows        [][]string
	Source      Source
}

// Tables gives all tables of this package for printing: K-factors, least radii
// and dies.
func Tables() []Table {
	return append(append([]Table{factorsTable()}, radiusTables()...), diesTable())
}

func factorsTable() Table {
	t := Table{Name: "bend-k-factors", Title: "K-factor by inside radius R and thickness T, for air bends",
		Columns: []string{"table", "R from", "R below", "K", "source"},
		Source:  Source{"starting values; replace them by a test bend", CommonPractice}}
	for _, f := range factorTables {
		for i, b := range f.Bands {
			below := num.Short(b.To, 2) + " T"
			switch {
			case math.IsInf(b.To, 1):
				below = "-"
			case f.ToLimit && i > 0:
				below += ", included"
			}
			t.Rows = append(t.Rows, []string{f.Name, num.Short(b.From, 2) + " T", below, num.Short(b.K, 3), f.Source.Text})
		}
	}
	return t
}

func radiusTables() []Table {
	en := Table{Name: "bend-radii-en-10025-2", Title: "least inside radius, mm: across the grain (along it)",
		Columns: []string{"t over", "t to", "S235", "S275", "S355"}, Source: en10025Source}
	for _, r := range en10025 {
		row := []string{num.Short(r.over, 1), num.Short(r.to, 1)}
		for i := range r.across {
			row = append(row, num.Short(r.across[i], 1)+" ("+num.Short(r.along[i], 1)+")")
		}
		en.Rows = append(en.Rows, row)
	}
	by := Table{Name: "bend-radii", Title: "least inside radius as a multiple of the thickness",
		Columns: []string{"material", "t to, mm", "R across the grain", "R along the grain", "source"},
		Source:  Source{"each row names its own", FromMemory}}
	for _, m := range multiples {
		names := strings.ToUpper(strings.Join(m.materials, ", "))
		for _, r := range m.rows {
			to := num.Short(r.to, 2)
			if math.IsInf(r.to, 1) {
				to = "-"
			}
			by.Rows = append(by.Rows, []string{names, to, num.Short(r.times, 2) + " T", num.Short(r.times*m.along, 3) + " T", m.source.Text})
		}
	}
	return []Table{en, by}
}

func diesTable() Table {
	t := Table{Name: "v-dies", Title: "V-dies for air bends", Columns: []string{"opening, mm", "inside radius about, mm", "least flange, 90 degrees, mm"}, Source: DieSource}
	for _, v := range dies {
		t.Rows = append(t.Rows, []string{strconv.Itoa(int(v)), num.Short(v.Radius(), 1), num.Short(v.LeastFlange(math.Pi/2), 1)})
	}
	return t
}
