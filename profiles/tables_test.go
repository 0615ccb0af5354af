package profiles

import (
	"math"
	"sort"
	"strings"
	"testing"
)

// awgInches is the American Wire Gage by its formula.
func awgInches(n int) float64 { return 0.005 * math.Pow(92, float64(36-n)/39) }

func TestTables(t *testing.T) {
	ts := Tables()
	var names []string
	for _, tb := range ts {
		names = append(names, tb.Name)
		if tb.Title == "" || tb.Source.Text == "" || len(tb.Rows) == 0 {
			t.Errorf("%s lacks a title, a source or rows", tb.Name)
		}
		if tb.Name != strings.ToLower(tb.Name) || strings.Contains(tb.Name, " ") {
			t.Errorf("%q is no name to type", tb.Name)
		}
		hasColumn := tb.Columns[len(tb.Columns)-1] == founded
		if hasColumn == (tb.Source.Prov != "") && tb.Name != "gauges" {
			t.Errorf("%s says %q for all rows, yet has a column for each: %v", tb.Name, tb.Source.Prov, hasColumn)
		}
		for i, r := range tb.Rows {
			if len(r) != len(tb.Columns) {
				t.Errorf("%s row %d has %d cells, want %d", tb.Name, i, len(r), len(tb.Columns))
			}
			for j, cell := range r {
				if cell == "" {
					t.Errorf("%s row %d, %s is empty", tb.Name, i, tb.Columns[j])
				}
			}
		}
		again, err := FindTable(strings.ToUpper(tb.Name))
		if err != nil || again.Name != tb.Name {
			t.Errorf("FindTable(%q): %v", tb.Name, err)
		}
	}
	if !sort.StringsAreSorted(names) {
		t.Errorf("not sorted: %v", names)
	}
	for i := 1; i < len(names); i++ {
		if names[i] == names[i-1] {
			t.Errorf("two tables are named %s", names[i])
		}
	}
	_, err := FindTable("bolt-holes-iso-237")
	mustSay(t, "misspelt table", err, `did you mean "bolt-holes-iso-273"`)
	_, err = FindTable(strings.Repeat("x", 100))
	mustSay(t, "long name", err, "longer than 80")
}

// A printed row is what the look-up gives.
func TestTableCells(t *testing.T) {
	for _, c := range []struct{ table, row, column, want string }{
		{"bolt-holes-iso-273", "M12", "normal (medium) mm", "13.5"},
		{"bolt-holes-iso-273", "M12", founded, "standard"},
		{"bolt-holes-iso-273", "M14", founded, "from memory, verify"},
		{"bolt-holes-asme-b18.2.8", "1/2", "close in", "0.5313"},
		{"bolt-holes-asme-b18.2.8", "9/16", founded, "common practice"},
		{"bolt-holes-aisc-j3.3", "1", "standard in", "1-1/8"},
		{"bolt-holes-aisc-j3.3", "3/4", "short slot in", "13/16 x 1"},
		{"bolt-holes-aisc-j3.3m", "M20", "long slot mm", "22 x 50"},
		{"edge-distance-aisc-j3.4", "1/2", "edge distance in", "3/4"},
		{"edge-distance-aisc-2005-sheared-metric", "16", "edge distance mm", "28"},
		{"gauges", "11", "steel sheet", "0.1196"},
		{"gauges", "11", "tube", "0.1200"},
		{"gauges", "1", "steel sheet", "-"},
		{"drills-number", "#7", "mm", "5.105"},
		{"drills-fraction", "17/32", "in", "0.5313"},
		{"materials", "A36", "Fy MPa", "248"},
		{"materials", "A36", founded, "standard"},
		{"processes", "air plasma", "least hole", "1.5 t and 5 mm"},
		{"papers", "A4", "height mm", "297"},
		{"threads-inch", "1/2", "threads", "1/2-13 and 1/2-20"},
		{"threads-metric", "M10", "stress area mm2, coarse", "58"},
		{"kerf-oxy-fuel", "1/2", "kerf in", "0.06"},
		{"bolt-grades", "8.8", "tensile MPa", "800"},
		{"spacing-en-1993-1-8", "p1, least along the load", "value", "2.2 d0"},
	} {
		tb, err := FindTable(c.table)
		if err != nil {
			t.Fatal(err)
		}
		got := "no such cell"
		for j, col := range tb.Columns {
			if col != c.column {
				continue
			}
			for _, r := range tb.Rows {
				if r[0] == c.row {
					got = r[j]
					break
				}
			}
		}
		if got != c.want {
			t.Errorf("%s, %s, %s is %q, want %q", c.table, c.row, c.column, got, c.want)
		}
	}
}

// Everything that a table or look-up gives out names a source.
func TestSources(t *testing.T) {
	for _, m := range Materials() {
		if m.Source.Text == "" || m.Source.Prov == "" || m.Fy <= 0 || m.Fu <= m.Fy || m.Density < 2000 || m.Group == "" {
			t.Errorf("material %+v", m)
		}
		if again, err := FindMaterial(m.Name); err != nil || again != m {
			t.Errorf("FindMaterial(%q) = %v, %v", m.Name, again, err)
		}
	}
	for _, p := range Processes() {
		if p.Source.Text == "" || p.Source.Prov != CommonPractice {
			t.Errorf("process %+v", p)
		}
	}
	for _, p := range Papers() {
		if p.Source.Text == "" || p.Source.Prov == "" || p.W <= 0 || p.H <= p.W {
			t.Errorf("paper %+v", p)
		}
	}
	for _, g := range grades {
		if g.source.Text == "" || g.source.Prov == "" || g.tensile < g.yield || g.yield < g.proof {
			t.Errorf("grade %+v", g)
		}
	}
}

func TestFraction(t *testing.T) {
	for n, want := range map[int]string{0: "0", 1: "1/64", 32: "1/2", 34: "17/32", 64: "1", 112: "1-3/4", 128: "2"} {
		if got := fraction(n); got != want {
			t.Errorf("fraction(%d) = %q, want %q", n, got, want)
		}
	}
}

// FuzzNames: no look-up panics, and what a bolt's name gives, its own name
// gives again.
func FuzzNames(f *testing.F) {
	for _, s := range []string{"1/2-13 grade 8", "M14 10.9", "M12x1.25 8.8", "#10-24", "1-1/4-7 A325", "½", "17/32", "#7", "F", "6.8 mm",
		"A572 gr 50", "S355J2+N", "air plasma", "letter", "galvanised", "M-", "M12-", "1-", "-", "/", "#", "gr", "1/2 unc unf", "M12x1.25x40"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if b, err := FindBolt(s); err == nil {
			if again, err := FindBolt(b.Name); err != nil || again != b {
				t.Fatalf("%q gives %+v, whose name gives %+v, %v", s, b, again, err)
			}
			if _, err := ClearanceFor(b, "", ""); err != nil {
				t.Fatalf("%q has no hole: %v", s, err)
			}
		}
		if mm, _, err := Drill(s); err == nil && !(mm > 0 && mm <= 100) {
			t.Fatalf("drill %q is %v mm", s, mm)
		}
		FindMaterial(s)
		FindProcess(s)
		FindPaper(s)
		Gauge(11, s)
		ClearanceFor(Bolt{Size: "M12", D: 12, Metric: true}, s, s)
		SlotFor(Bolt{Size: "M12", D: 12, Metric: true}, s)
		FindTable(s)
	})
}

func BenchmarkFindBolt(b *testing.B) {
	for _, name := range []string{"1/2-13 grade 8", "M14 10.9"} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := FindBolt(name); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkClearanceFor(b *testing.B) {
	bolt, err := FindBolt("1/2-13 grade 8")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ClearanceFor(bolt, "", "normal"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFindMaterial(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := FindMaterial("a572 gr 50"); err != nil {
			b.Fatal(err)
		}
	}
}
