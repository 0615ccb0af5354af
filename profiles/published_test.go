package profiles

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// published is one table of published values, in testdata.
type published struct {
	ID, Source, Prov string
	Columns          []string
	Rows             [][]any
}

// load reads one table of a file in testdata.
func load(t *testing.T, file, id string) published {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", file))
	if err != nil {
		t.Fatal(err)
	}
	var all []published
	if err := json.Unmarshal(b, &all); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	for _, p := range all {
		if p.ID == id {
			if p.Source == "" || len(p.Rows) == 0 {
				t.Fatalf("%s: table %s has no source or no rows", file, id)
			}
			return p
		}
	}
	t.Fatalf("%s has no table %s", file, id)
	return published{}
}

// same compares lengths (mm) to a nanometre.
func same(t *testing.T, what string, got, want float64) {
	t.Helper()
	if nano(got) != nano(want) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// seen checks the provenance of a row against that of its published table.
func seen(t *testing.T, what string, src Source, want Prov) {
	t.Helper()
	if src.Prov != want || src.Text == "" {
		t.Errorf("%s names the source %q (%s), want one that is %s", what, src.Text, src.Prov, want)
	}
}

func bolt(t *testing.T, name string) Bolt {
	t.Helper()
	b, err := FindBolt(name)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// factorOf reads 1.25*d.
func factorOf(t *testing.T, v any) float64 {
	t.Helper()
	f, rest, ok := readDecimal(v.(string))
	if !ok || rest != "*d" {
		t.Fatalf("cannot read the factor %v", v)
	}
	return f
}

func TestEdgeDistances(t *testing.T) {
	for _, c := range []struct {
		id     string
		metric bool
		column int
		edge   func(float64, bool) (float64, Source)
		prov   Prov
		over   float64 // a bolt beyond the last row, in the table's unit
	}{
		{"j3.4", false, 1, MinEdgeAISC, Standard, 1.5},
		{"j3.4m", true, 1, MinEdgeAISC, Standard, 42},
		{"j3.4m 2005", true, 2, MinEdgeAISC, Standard, 42},
		{"j3.4m 2005", true, 1, MinEdgeAISCSheared, Standard, 42},
		{"j3.4 2005 sheared", false, 1, MinEdgeAISCSheared, FromMemory, 0},
	} {
		unit := inch
		if c.metric {
			unit = 1
		}
		for _, r := range load(t, "edge-distances.json", c.id).Rows {
			d, ok := r[0].(float64)
			want := 0.0
			if ok {
				want = r[c.column].(float64)
			} else {
				d = c.over
				want = factorOf(t, r[c.column]) * d
			}
			got, src := c.edge(d*unit, c.metric)
			same(t, c.id+" at "+short(d, 3), got/unit, want)
			seen(t, c.id, src, c.prov)
		}
	}
}

func TestEdgeIncrements(t *testing.T) {
	sizes := map[string][]float64{"<= 7/8": {0.5, 0.875}, "1": {1}, ">= 1-1/8": {1.125, 1.5}}
	for _, r := range load(t, "edge-distances.json", "j3.5").Rows {
		ds := sizes[r[0].(string)]
		if len(ds) == 0 {
			t.Fatalf("no sizes for row %v", r[0])
		}
		for _, d := range ds {
			for kind, want := range map[HoleKind]float64{
				OversizedHole: r[1].(float64), ShortSlotAcross: r[2].(float64),
				LongSlotAcross: factorOf(t, r[3]) * d, SlotAlong: r[4].(float64),
			} {
				got, src := EdgeIncrementAISC(d*inch, false, kind)
				same(t, r[0].(string), got/inch, want)
				seen(t, "j3.5", src, FromMemory)
			}
		}
	}
}

func TestSpacing(t *testing.T) {
	a, am, e := AISCSpacing(false), AISCSpacing(true), EN1993Spacing()
	seen(t, "aisc spacing", a.Source, Standard)
	seen(t, "en spacing", e.Source, Standard)
	seen(t, "en most", e.SourceMost, FromMemory)
	values := map[string]float64{
		"least spacing / d": a.Least, "preferred spacing / d": a.Preferred, "clear between holes / d": a.Clear,
		"most edge / t": a.EdgeT, "most edge in": a.EdgeMost / inch,
		"most pitch painted / t": a.PitchT, "most pitch painted in": a.PitchMost / inch,
		"most pitch bare / t": a.BarePitchT, "most pitch bare in": a.BarePitchMost / inch,
		"most edge mm": am.EdgeMost, "most pitch painted mm": am.PitchMost, "most pitch bare mm": am.BarePitchMost,
		"e1 / d0": e.E1, "e2 / d0": e.E2, "e3 / d0": e.E3, "e4 / d0": e.E4, "p1 / d0": e.P1, "p2 / d0": e.P2,
		"p2 staggered / d0": e.P2Staggered, "L / d0": e.StaggerL,
		"most edge plus mm": e.EdgePlus, "most pitch / t": e.PitchT, "most pitch mm": e.PitchMost,
	}
	for _, id := range []string{"aisc spacing", "en spacing"} {
		for _, r := range load(t, "edge-distances.json", id).Rows {
			rule := r[0].(string)
			got, ok := values[rule]
			if id == "en spacing" && rule == "most edge / t" {
				got, ok = e.EdgeT, true
			}
			if !ok {
				t.Fatalf("%s: nothing to compare %q with", id, rule)
			}
			same(t, id+": "+rule, got, r[1].(float64))
		}
	}
	for _, r := range load(t, "edge-distances.json", "en evaluated").Rows {
		d0 := r[1].(float64)
		for i, f := range []float64{e.E1, e.P1, e.P2} {
			same(t, r[0].(string), f*d0, r[2+i].(float64))
		}
	}
}

func TestISO273(t *testing.T) {
	for _, r := range load(t, "bolt-holes.json", "iso 273").Rows {
		b := bolt(t, r[0].(string))
		for i, fits := range [][]string{{"close", "fine"}, {"normal", "medium", ""}, {"loose", "coarse"}} {
			for _, fit := range fits {
				c, err := ClearanceFor(b, "ISO 273", fit)
				if err != nil {
					t.Fatal(err)
				}
				same(t, b.Size+" "+fit, c.Dia, r[i+1].(float64))
				seen(t, b.Size, c.Source, Standard)
			}
		}
	}
}

func TestASME(t *testing.T) {
	for _, r := range load(t, "bolt-holes.json", "asme b18.2.8").Rows {
		b := bolt(t, r[0].(string))
		for i, fit := range []string{"close", "normal", "loose"} {
			c, err := ClearanceFor(b, "", fit)
			if err != nil {
				t.Fatal(err)
			}
			// The standard prints drills rounded to 0.001 in, halves either way.
			if got, want := math.Round(c.Dia/inch*1e4), math.Round(r[i+1].(float64)*1e4); math.Abs(got-want) > 5 {
				t.Errorf("%s %s is %v in, want %v", b.Size, fit, c.Dia/inch, r[i+1])
			}
			if want := strings.Replace(r[i+4].(string), " ", "-", 1); c.Drill != want {
				t.Errorf("%s %s has drill %s, want %s", b.Size, fit, c.Drill, want)
			}
			d, _, err := Drill(c.Drill)
			if err != nil {
				t.Fatal(err)
			}
			same(t, b.Size+" drill "+c.Drill, c.Dia, d)
		}
	}
}

func TestAISCHoles(t *testing.T) {
	for _, id := range []string{"j3.3", "j3.3m"} {
		for _, r := range load(t, "bolt-holes.json", id).Rows {
			b := bolt(t, r[0].(string))
			unit := inch
			if b.Metric {
				unit = 1
			}
			for i, fits := range [][]string{{"standard", "normal", ""}, {"oversized"}} {
				for _, fit := range fits {
					c, err := ClearanceFor(b, "aisc j3.3", fit)
					if err != nil {
						t.Fatal(err)
					}
					same(t, b.Size+" "+fit, c.Dia/unit, r[i+1].(float64))
				}
			}
			for i, kind := range []string{"short", "long"} {
				w, l, src, err := SlotFor(b, kind)
				if err != nil {
					t.Fatal(err)
				}
				want := r[i+3].([]any)
				same(t, b.Size+" "+kind+" slot width", w/unit, want[0].(float64))
				same(t, b.Size+" "+kind+" slot length", l/unit, want[1].(float64))
				if b.Metric {
					seen(t, b.Size, src, Standard)
				}
			}
		}
	}
}

func TestEN1090(t *testing.T) {
	for _, r := range load(t, "bolt-holes.json", "en 1090-2").Rows {
		b := bolt(t, r[0].(string))
		c, err := ClearanceFor(b, "EN 1090-2", "")
		if err != nil {
			t.Fatal(err)
		}
		same(t, b.Size, c.Dia-b.D, r[1].(float64))
		seen(t, b.Size, c.Source, FromMemory)
	}
}

func TestBoltStresses(t *testing.T) {
	for _, r := range load(t, "bolts.json", "j3.2").Rows {
		for _, c := range []struct {
			size   string
			column int
			unit   float64
		}{{"1/2 ", 1, ksi}, {"M20 ", 4, 1}} {
			if r[0] == "A307" && c.unit == 1 {
				continue // A307 bolts are inch bolts
			}
			s, err := StrengthOf(bolt(t, c.size+r[0].(string)))
			if err != nil {
				t.Fatal(err)
			}
			for i, got := range []float64{s.Fnt, s.FnvN, s.FnvX} {
				if c.column+i == 3 && r[0] == "A307" {
					same(t, "A307 X as N", got/c.unit, r[2].(float64))
					continue
				}
				same(t, r[0].(string), got/c.unit, r[c.column+i].(float64))
			}
			seen(t, r[0].(string), s.SourceAISC, Standard)
		}
	}
	f := load(t, "bolts.json", "j3.2 threaded").Rows[0]
	for _, name := range []string{"1/2 grade 8", "M16 8.8"} {
		s, err := StrengthOf(bolt(t, name))
		if err != nil {
			t.Fatal(err)
		}
		for i, got := range []float64{s.Fnt, s.FnvN, s.FnvX} {
			same(t, name, got, f[i].(float64)*s.Tensile)
		}
	}
}

func TestBoltGrades(t *testing.T) {
	for _, c := range []struct {
		id, word string
		unit     float64
		prov     Prov
	}{{"j429", "grade ", ksi, Standard}, {"iso 898-1", "", 1, FromMemory}} {
		for _, r := range load(t, "bolts.json", c.id).Rows {
			for _, size := range r[1].([]any) {
				name := size.(string) + " " + c.word + r[0].(string)
				s, err := StrengthOf(bolt(t, name))
				if err != nil {
					t.Fatal(err)
				}
				for i, got := range []float64{s.Proof, s.Yield, s.Tensile} {
					same(t, name, got/c.unit, r[2+i].(float64))
				}
				seen(t, name, s.Source, c.prov)
			}
		}
	}
}

func TestStressAreas(t *testing.T) {
	for _, r := range load(t, "bolts.json", "stress areas").Rows {
		a, src := StressArea(bolt(t, r[0].(string)))
		same(t, r[0].(string), a, r[1].(float64))
		seen(t, r[0].(string), src, Standard)
	}
	// ISO 898-1 prints the formula's value to three figures.
	for _, th := range metricSizes {
		f := quarterPi * sq(th.d-0.9382*th.pitches[0])
		if round3(f) != round3(th.area) {
			t.Errorf("%s: the formula gives %v, the table %v", th.size, f, th.area)
		}
	}
	// Load tables: force = stress x area.
	for _, r := range load(t, "bolts.json", "load tables").Rows {
		b := bolt(t, r[0].(string))
		s, err := StrengthOf(b)
		if err != nil {
			t.Fatal(err)
		}
		a, _ := StressArea(b)
		stress := s.Proof
		if r[1] == "tensile" {
			stress = s.Tensile
		}
		// The standard rounds its loads to three figures, up or down.
		if got, want := stress*a, r[2].(float64); math.Abs(got-want) > want/round3(want) {
			t.Errorf("%s %s: %v N, want %v", b.Name, r[1], stress*a, r[2])
		}
	}
}

// round3 rounds to three figures.
func round3(v float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v))-2)
	return math.Round(v / p)
}

func TestMaterials(t *testing.T) {
	for _, r := range load(t, "stock.json", "materials").Rows {
		m, err := FindMaterial(r[0].(string))
		if err != nil {
			t.Fatal(err)
		}
		unit := 1.0
		if r[3] == "ksi" {
			unit = ksi
		}
		same(t, m.Name+" Fy", m.Fy/unit, r[1].(float64))
		same(t, m.Name+" Fu", m.Fu/unit, r[2].(float64))
		want := FromMemory
		if r[4] == "read" {
			want = Standard
		}
		seen(t, m.Name, m.Source, want)
	}
	for _, r := range load(t, "stock.json", "density").Rows {
		m, err := FindMaterial(r[0].(string))
		if err != nil {
			t.Fatal(err)
		}
		if m.Density < r[1].(float64) || m.Density > r[2].(float64) {
			t.Errorf("%s has %v kg/m3, want %v to %v", m.Name, m.Density, r[1], r[2])
		}
	}
}

func TestSheetGauges(t *testing.T) {
	for _, r := range load(t, "stock.json", "steel sheet gauges").Rows {
		n := int(r[0].(float64))
		got, src, err := Gauge(n, "steel sheet")
		if err != nil {
			t.Fatal(err)
		}
		same(t, "steel sheet", got/inch, r[1].(float64))
		seen(t, "steel sheet", src, Standard)
		// The gauge is a weight: 41.82 lb/ft2 per inch, thickness to 0.0001 in.
		if w := r[2].(float64) / 41.82; math.Round(w*1e4) != math.Round(r[1].(float64)*1e4) {
			t.Errorf("%d gauge: %v lb/ft2 is %v in, want %v", n, r[2], w, r[1])
		}
	}
}

func TestOxyFuelKerf(t *testing.T) {
	for _, r := range load(t, "stock.json", "oxy-fuel kerf").Rows {
		got, src := OxyFuelKerf(r[0].(float64) * inch)
		same(t, "kerf", got/inch, r[1].(float64))
		seen(t, "kerf", src, FromMemory)
	}
	got, _ := OxyFuelKerf(3 * inch)
	same(t, "kerf beyond the table", got/inch, 0.09)
	got, _ = OxyFuelKerf(0.3 * inch)
	same(t, "kerf between two rows", got/inch, 0.06)
}

func TestPaperSizes(t *testing.T) {
	for _, r := range load(t, "stock.json", "papers").Rows {
		p, err := FindPaper(r[0].(string))
		if err != nil {
			t.Fatal(err)
		}
		unit := 1.0
		if r[3] == "in" {
			unit = inch
		}
		same(t, p.Name+" width", p.W/unit, r[1].(float64))
		same(t, p.Name+" height", p.H/unit, r[2].(float64))
		seen(t, p.Name, p.Source, FromMemory)
	}
}
