package profiles

import (
	"strings"
	"testing"
)

func TestFindBolt(t *testing.T) {
	for _, c := range []struct {
		text, name, size string
		d, pitch         float64 // in the unit of the size
		grade            string
	}{
		// inch
		{"1/2", "1/2", "1/2", 0.5, 0, ""},
		{"1/2-13", "1/2-13", "1/2", 0.5, 1.0 / 13, ""},
		{"1/2-20", "1/2-20", "1/2", 0.5, 1.0 / 20, ""},
		{"1/2-13 grade 8", "1/2-13 grade 8", "1/2", 0.5, 1.0 / 13, "grade 8"},
		{"1/2-13 gr8", "1/2-13 grade 8", "1/2", 0.5, 1.0 / 13, "grade 8"},
		{"1/2-13 Gr. 8", "1/2-13 grade 8", "1/2", 0.5, 1.0 / 13, "grade 8"},
		{"1/2-13 SAE grade 5", "1/2-13 grade 5", "1/2", 0.5, 1.0 / 13, "grade 5"},
		{"1/2 grade 2", "1/2 grade 2", "1/2", 0.5, 0, "grade 2"},
		{"1/2-13, grade 8", "1/2-13 grade 8", "1/2", 0.5, 1.0 / 13, "grade 8"},
		{"1/2 UNC", "1/2-13", "1/2", 0.5, 1.0 / 13, ""},
		{"1/2 UNF grade 8", "1/2-20 grade 8", "1/2", 0.5, 1.0 / 20, "grade 8"},
		{"1/2-20 unf", "1/2-20", "1/2", 0.5, 1.0 / 20, ""},
		{"½-13", "1/2-13", "1/2", 0.5, 1.0 / 13, ""},
		{`5/8"`, "5/8", "5/8", 0.625, 0, ""},
		{"5/8 in gr5", "5/8 grade 5", "5/8", 0.625, 0, "grade 5"},
		{"3/4-10 A325", "3/4-10 A325", "3/4", 0.75, 0.1, "A325"},
		{"3/4 ASTM A490", "3/4 A490", "3/4", 0.75, 0, "A490"},
		{"0.5-13", "1/2-13", "1/2", 0.5, 1.0 / 13, ""},
		{"1", "1", "1", 1, 0, ""},
		{"1-8", "1-8", "1", 1, 1.0 / 8, ""},
		{"1-14 gr8", "1-14 grade 8", "1", 1, 1.0 / 14, "grade 8"},
		{"1-1/4", "1-1/4", "1-1/4", 1.25, 0, ""},
		{"1 1/4", "1-1/4", "1-1/4", 1.25, 0, ""},
		{"1¼", "1-1/4", "1-1/4", 1.25, 0, ""},
		{"1-1/4-7 A325", "1-1/4-7 A325", "1-1/4", 1.25, 1.0 / 7, "A325"},
		{"#10-24", "#10-24", "#10", 0.19, 1.0 / 24, ""},
		{"10-24", "#10-24", "#10", 0.19, 1.0 / 24, ""},
		{"#10", "#10", "#10", 0.19, 0, ""},
		{"no. 8", "#8", "#8", 0.164, 0, ""},
		{"6-32", "#6-32", "#6", 0.138, 1.0 / 32, ""},
		// metric
		{"M14", "M14", "M14", 14, 0, ""},
		{"m14", "M14", "M14", 14, 0, ""},
		{"M 14", "M14", "M14", 14, 0, ""},
		{"M14 10.9", "M14 10.9", "M14", 14, 0, "10.9"},
		{"M14-10.9", "M14 10.9", "M14", 14, 0, "10.9"},
		{"M14 class 10.9", "M14 10.9", "M14", 14, 0, "10.9"},
		{"M14 grade 8.8", "M14 8.8", "M14", 14, 0, "8.8"},
		{"M12x1.25 8.8", "M12x1.25 8.8", "M12", 12, 1.25, "8.8"},
		{"M12 x 1.25 8.8", "M12x1.25 8.8", "M12", 12, 1.25, "8.8"},
		{"M12×1.75", "M12x1.75", "M12", 12, 1.75, ""},
		{"M12-1.75 8.8", "M12x1.75 8.8", "M12", 12, 1.75, "8.8"},
		{"M16x2", "M16x2", "M16", 16, 2, ""},
		{"M20 A325M", "M20 A325", "M20", 20, 0, "A325"},
		{"M8 A2-70", "M8 A2-70", "M8", 8, 0, "A2-70"},
		{"M8 a4 80", "M8 A4-80", "M8", 8, 0, "A4-80"},
		{"M3.5", "M3.5", "M3.5", 3.5, 0, ""},
	} {
		b, err := FindBolt(c.text)
		if err != nil {
			t.Errorf("FindBolt(%q): %v", c.text, err)
			continue
		}
		unit := inch
		if b.Metric {
			unit = 1
		}
		if b.Name != c.name || b.Size != c.size || b.Grade != c.grade || b.Metric != (c.size[0] == 'M') || b.Source.Text == "" {
			t.Errorf("FindBolt(%q) = %+v, want %q, %q, %q", c.text, b, c.name, c.size, c.grade)
		}
		same(t, c.text+" diameter", b.D/unit, c.d)
		same(t, c.text+" pitch", b.Pitch/unit, c.pitch)
		// Its own name finds it again.
		if again, err := FindBolt(b.Name); err != nil || again != b {
			t.Errorf("FindBolt(%q) = %+v, %v; want %+v", b.Name, again, err, b)
		}
	}
}

// mustSay checks an error's words.
func mustSay(t *testing.T, what string, err error, words string) {
	t.Helper()
	if err == nil {
		t.Errorf("%s: no error, want one with %q", what, words)
		return
	}
	if !strings.Contains(err.Error(), words) || strings.HasSuffix(err.Error(), ".") {
		t.Errorf("%s: error %q, want one with %q", what, err, words)
	}
}

func TestFindBoltErrors(t *testing.T) {
	for text, words := range map[string]string{
		"":                       "no bolt named",
		"bolt":                   "cannot read bolt",
		"M":                      "cannot read bolt",
		"#":                      "cannot read bolt",
		"1/0":                    "cannot read bolt",
		"1/2/3":                  "cannot read bolt",
		"15/32":                  "the nearest known are 7/16 and 1/2",
		"1/8":                    "the number size of that diameter is #5",
		"3/16":                   "the nearest known are #8 and #10",
		"10":                     "write #10 or M10",
		"1/16":                   "the smallest known is #4",
		"2":                      "the largest known is 1-1/2",
		"M13":                    "the nearest known are M12 and M14",
		"M2":                     "the smallest known is M3",
		"M99":                    "the largest known is M36",
		"#11":                    "number sizes known are #4 to #12",
		"11-24":                  "number sizes known are #4 to #12",
		"1/2-14":                 "1/2 has no such thread; it has 1/2-13 and 1/2-20",
		"1/2-0":                  "it has 1/2-13 and 1/2-20",
		"1/2-":                   "it has 1/2-13 and 1/2-20",
		"10-25":                  "#10 has no such thread; it has #10-24 and #10-32",
		"1/2-13 UNF":             "1/2-13 is not UNF",
		"M12x1.3":                "M12 has no such pitch; it has M12x1.75, M12x1.25, M12x1.5 and M12x1",
		"M12x":                   "M12 has no such pitch",
		"M12x40":                 "looks like a length",
		"M12x1.25x40":            "looks like a length",
		"1/2-13 x 2":             "looks like a length",
		"1/2-13 grade 7":         `unknown bolt grade "grade 7"; known are grade 2, grade 5, grade 8, A307, A325 and A490`,
		"1/2 10.9":               "class of metric bolts; an inch bolt has a grade",
		"M14 grade 8":            "grade of inch bolts; a metric bolt has a class",
		"M14 11.9":               "known are A325, A490, 4.6",
		strings.Repeat("1", 100): "longer than 80",
	} {
		_, err := FindBolt(text)
		mustSay(t, text, err, words)
	}
}

func TestClearanceErrors(t *testing.T) {
	half, m12, m5, six, m10 := bolt(t, "1/2"), bolt(t, "M12"), bolt(t, "M5"), bolt(t, "#6"), bolt(t, "M10")
	for _, c := range []struct {
		b             Bolt
		standard, fit string
		words         string
	}{
		{half, "iso 273", "", "iso 273:1979 has no row for 1/2; it holds metric bolts; choose the standard asme b18.2.8"},
		{half, "din 1", "", "unknown hole standard"},
		{half, "iso 237", "", `did you mean "iso 273"`},
		{half, "", "tight", `unknown fit "tight"; known are close, normal and loose`},
		{half, "", "oversized", "has no oversized fit; write close, normal or loose"},
		{half, "", "standard", "has no standard fit; write close, normal or loose"},
		{half, "aisc", "close", "has no close fit; write standard or oversized"},
		{half, "aisc", "huge", `unknown fit "huge"`},
		{six, "aisc", "", "has no row for #6; it holds 1/2, 5/8, 3/4, 7/8, 1 and all from 1-1/8 up; choose the standard asme b18.2.8"},
		{m12, "aisc", "", "has no row for M12; it holds M16, M20, M22, M24, M27, M30 and all from M36 up; choose the standard iso 273"},
		{m5, "en 1090-2", "", "has no row for M5; it holds metric bolts from M12"},
		{half, "en 1090-2", "", "has no row for 1/2"},
		{m10, strings.Repeat("x", 100), "", "longer than 80"},
		{Bolt{Size: "M200", Metric: true, D: 200}, "", "", "has no row for M200; it holds M3 to M36"},
		{Bolt{Size: "3", D: 76.2}, "", "", "has no row for 3; it holds #4 to 1-1/2"},
	} {
		_, err := ClearanceFor(c.b, c.standard, c.fit)
		words := strings.Replace(c.words, "iso 273:1979 has", "ISO 273:1979 has", 1)
		mustSay(t, c.b.Size+" "+c.standard+" "+c.fit, err, words)
	}
}

func TestClearanceCall(t *testing.T) {
	for _, c := range []struct{ bolt, standard, fit, drill, call string }{
		{"1/2-13 grade 8", "", "close", "17/32", "17/32 in drill (13.5 mm)"},
		{"1/2", "", "", "9/16", "9/16 in drill (14.3 mm)"},
		{"#10", "", "normal", "#2", "#2 drill (5.6 mm)"},
		{"#10", "", "loose", "B", "B drill (6 mm)"},
		{"1", "aisc", "standard", "1-1/8", "1-1/8 in drill (28.6 mm)"},
		{"1-1/4", "aisc", "oversized", "1-9/16", "1-9/16 in drill (39.7 mm)"},
		{"M12", "", "", "", "13.5 mm drill"},
		{"M20", "aisc", "", "", "22 mm drill"},
		{"M20", "asme", "", "", "22 mm drill"},
		{"M16", "en 1090-2", "oversized", "", "20 mm drill"},
	} {
		got, err := ClearanceFor(bolt(t, c.bolt), c.standard, c.fit)
		if err != nil || got.Drill != c.drill || got.Call != c.call {
			t.Errorf("ClearanceFor(%s, %q, %q) = %+v, %v; want %q, %q", c.bolt, c.standard, c.fit, got, err, c.drill, c.call)
		}
	}
}

// Every known bolt has a hole in its own standard, larger than itself, the
// looser fit the larger; each inch hole is its drill's size.
func TestEveryBoltHasHoles(t *testing.T) {
	for _, metric := range []bool{false, true} {
		for _, size := range BoltSizes(metric) {
			b := bolt(t, size)
			last := b.D
			for _, fit := range []string{"close", "normal", "loose"} {
				c, err := ClearanceFor(b, "", fit)
				if err != nil {
					t.Fatal(err)
				}
				if c.Dia <= last || c.Dia > 1.5*b.D+0.5 || c.Source.Text == "" || c.Source.Prov == "" || c.Call == "" {
					t.Errorf("%s %s: %+v after %v", size, fit, c, last)
				}
				last = c.Dia
				if !metric {
					d, _, err := Drill(c.Drill)
					if err != nil {
						t.Fatal(err)
					}
					same(t, size+" "+fit, d, c.Dia)
				}
			}
		}
	}
}

func TestSlots(t *testing.T) {
	for _, c := range []struct {
		bolt, kind    string
		width, length float64
		source        string
	}{
		{"M12", "short", 13, 16, "EN 1090-2"},
		{"M12", "long", 13, 30, "EN 1090-2"},
		{"M18", "short", 20, 24, "EN 1090-2"},
		{"M33", "short", 36, 43, "EN 1090-2"},
		{"M16", "long", 18, 40, "J3.3M"},
		{"5/8", "Long", 11.0 / 16 * inch, 25.0 / 16 * inch, "J3.3"},
	} {
		w, l, src, err := SlotFor(bolt(t, c.bolt), c.kind)
		if err != nil || !strings.Contains(src.Text, c.source) {
			t.Errorf("SlotFor(%s, %s): %v, %v", c.bolt, c.kind, src, err)
		}
		same(t, c.bolt+" width", w, c.width)
		same(t, c.bolt+" length", l, c.length)
	}
	for _, c := range []struct{ bolt, kind, words string }{
		{"3/8", "short", "has no slot for 3/8; it holds 1/2"},
		{"9/16", "long", "has no slot for 9/16"},
		{"M8", "short", "has no slot for M8"},
		{"1/2", "medium", `unknown slot "medium"; known are short and long`},
		{"1/2", "shrot", `did you mean "short"`},
		{"1/2", strings.Repeat("x", 100), "longer than 80"},
	} {
		_, _, _, err := SlotFor(bolt(t, c.bolt), c.kind)
		mustSay(t, c.bolt+" "+c.kind, err, c.words)
	}
}

func TestStrengthErrors(t *testing.T) {
	for _, c := range []struct{ bolt, words string }{
		{"1/2", "names no grade; add one of grade 2"},
		{"#10 grade 8", "SAE J429 does not define grade 8 for size #10"},
		{"M20 9.8", "ISO 898-1 does not define 9.8 for size M20"},
		{"3/8 A325", "does not define A325 for size 3/8"},
	} {
		_, err := StrengthOf(bolt(t, c.bolt))
		mustSay(t, c.bolt, err, c.words)
	}
	_, err := StrengthOf(Bolt{Size: "1/2", D: 12.7, Grade: "grade 99"})
	mustSay(t, "made-up grade", err, "unknown bolt grade")
}

func TestStressAreaOfFineThreads(t *testing.T) {
	for _, c := range []struct {
		bolt string
		want float64 // mm2 (in2 for inch bolts), as published to three figures
	}{
		{"M12x1.25", 92.1}, {"M14x1.5", 125}, {"M16x1.5", 167}, {"M10x1.25", 61.2}, {"M24x2", 384}, // ISO 898-1, from memory
		{"1/2-13", 0.1419}, {"1/2-20", 0.1599}, {"5/8-11", 0.226}, {"1-8", 0.606}, {"1/4-20", 0.0318}, // ASME B1.1, from memory
	} {
		b := bolt(t, c.bolt)
		a, src := StressArea(b)
		if !b.Metric {
			a /= inch * inch
		}
		if round3(a) != round3(c.want) || src.Text == "" {
			t.Errorf("%s has %v, want %v", c.bolt, a, c.want)
		}
	}
	if a, _ := StressArea(Bolt{Size: "?"}); a != 0 {
		t.Errorf("an unknown size has an area of %v", a)
	}
	// Where no thread is named the coarse one counts.
	a, _ := StressArea(bolt(t, "1/2"))
	b, _ := StressArea(bolt(t, "1/2-13"))
	same(t, "1/2 and 1/2-13", a, b)
	same(t, "shank of M20", ShankArea(bolt(t, "M20")), 314.159265359)
}

func TestMinEdgeBetweenAndBelow(t *testing.T) {
	for _, c := range []struct {
		d       float64
		metric  bool
		sheared bool
		want    float64
		prov    Prov
	}{
		{9.0 / 16 * inch, false, false, 7.0 / 8 * inch, FromMemory}, // the larger row
		{14, true, false, 21, CommonPractice},
		{12, true, false, 18, CommonPractice},
		{18, true, false, 26, Standard},
		{0.375 * inch, false, false, 0.5625 * inch, CommonPractice},
		{0.375 * inch, false, true, 0.65625 * inch, CommonPractice},
		{33, true, false, 46, FromMemory},
	} {
		edge := MinEdgeAISC
		if c.sheared {
			edge = MinEdgeAISCSheared
		}
		got, src := edge(c.d, c.metric)
		same(t, "edge distance", got, c.want)
		seen(t, "edge distance", src, c.prov)
	}
	// A larger bolt never needs less.
	for _, metric := range []bool{false, true} {
		last := 0.0
		for d := 3.0; d < 60; d += 0.1 {
			e, _ := MinEdgeAISC(d, metric)
			s, _ := MinEdgeAISCSheared(d, metric)
			if e < last || s < e {
				t.Fatalf("edge of %v mm: cut %v (before %v), sheared %v", d, e, last, s)
			}
			last = e
		}
	}
}

func TestMetricIncrements(t *testing.T) {
	for _, c := range []struct {
		d    float64
		kind HoleKind
		want float64
	}{
		{22, OversizedHole, 2}, {24, OversizedHole, 3}, {27, OversizedHole, 3},
		{22, ShortSlotAcross, 3}, {24, ShortSlotAcross, 3}, {27, ShortSlotAcross, 5},
		{20, LongSlotAcross, 15}, {20, SlotAlong, 0},
	} {
		got, _ := EdgeIncrementAISC(c.d, true, c.kind)
		same(t, "increment", got, c.want)
	}
}

func TestDrill(t *testing.T) {
	for _, c := range []struct {
		name string
		want float64
		set  DrillSet
	}{
		{"#7", 0.201 * inch, NumberDrill},
		{"# 7", 0.201 * inch, NumberDrill},
		{"no. 7", 0.201 * inch, NumberDrill},
		{"#7 drill", 0.201 * inch, NumberDrill},
		{"#1", 0.228 * inch, NumberDrill},
		{"#80", 0.0135 * inch, NumberDrill},
		{"F", 0.257 * inch, LetterDrill},
		{"f", 0.257 * inch, LetterDrill},
		{"Z", 0.413 * inch, LetterDrill},
		{"17/32", 13.49375, FractionDrill},
		{`17/32"`, 13.49375, FractionDrill},
		{"17/32 in", 13.49375, FractionDrill},
		{"1-1/16", 26.9875, FractionDrill},
		{"1 1/16", 26.9875, FractionDrill},
		{"1/2 drill", 12.7, FractionDrill},
		{"0.5 in", 12.7, FractionDrill},
		{"1", 25.4, FractionDrill},
		{"6.8 mm", 6.8, MetricDrill},
		{"6.8mm", 6.8, MetricDrill},
	} {
		got, src, err := Drill(c.name)
		if err != nil {
			t.Errorf("Drill(%q): %v", c.name, err)
			continue
		}
		same(t, c.name, got, c.want)
		if src != drillSources[c.set] {
			t.Errorf("Drill(%q) is from %q", c.name, src.Text)
		}
	}
	for name, words := range map[string]string{
		"":                      "a drill is a number such as #7",
		"#81":                   "#1 to #80",
		"#0":                    "#1 to #80",
		"#":                     "#1 to #80",
		"7":                     "write #7 or 7 mm",
		"17/33":                 "the nearest is 33/64",
		"5/2":                   "1/64 to 2",
		"0 in":                  "1/64 to 2",
		"0.5 cm":                "a drill is a number",
		"nan mm":                "0.1 to 100 mm",
		"-1 mm":                 "0.1 to 100 mm",
		"AA":                    "a drill is a number",
		"17/32/2":               "a drill is a number",
		"17/32 ft":              "a drill is a number",
		"1-49/64":               "go by 32nds, the nearest are 1-3/4 and 1-25/32",
		"200 mm":                "0.1 to 100 mm",
		"0.0001 in":             "the nearest is 1/64",
		strings.Repeat("#", 90): "longer than 80",
	} {
		_, _, err := Drill(name)
		mustSay(t, name, err, words)
	}
}

func TestNearestDrills(t *testing.T) {
	for _, c := range []struct {
		mm           float64
		sets         []DrillSet
		above, below string
	}{
		{13.49375, nil, "17/32", "17/32"},
		{13.5, nil, "35/64", "17/32"},
		{13.4, nil, "17/32", "33/64"},
		{0.25 * inch, nil, "1/4", "1/4"}, // E is as large; the fraction is named first
		{0.25 * inch, []DrillSet{LetterDrill}, "E", "E"},
		{5.1, nil, "#7", "#8"},
		{6.35, []DrillSet{MetricDrill}, "6.4 mm", "6.3 mm"},
		{13.5, []DrillSet{MetricDrill}, "13.5 mm", "13.5 mm"},
		{40.1, []DrillSet{MetricDrill}, "", "40 mm"},
		{0.1, nil, "#80", ""},
		{51, nil, "", "2"},
	} {
		a, okA := DrillAtOrAbove(c.mm, c.sets...)
		b, okB := DrillAtOrBelow(c.mm, c.sets...)
		if a.Name != c.above || okA != (c.above != "") || b.Name != c.below || okB != (c.below != "") {
			t.Errorf("%v mm: above %q %v, below %q %v; want %q, %q", c.mm, a.Name, okA, b.Name, okB, c.above, c.below)
		}
	}
}

// Each family of drills runs upward, and each drill is found by its name.
func TestDrillFamilies(t *testing.T) {
	count := map[DrillSet]int{NumberDrill: 80, LetterDrill: 26, FractionDrill: 112 + 8, MetricDrill: 131 + 36 + 8}
	for set, want := range count {
		all := Drills(set)
		if len(all) != want {
			t.Errorf("family %d has %d drills, want %d", set, len(all), want)
		}
		last := 0.0
		for _, d := range all {
			if d.D <= last || d.Set != set {
				t.Errorf("%s is %v after %v", d.Name, d.D, last)
			}
			last = d.D
			mm, _, err := Drill(d.Name)
			if err != nil {
				t.Fatal(err)
			}
			same(t, d.Name, mm, d.D)
		}
	}
}

func TestGauge(t *testing.T) {
	for _, c := range []struct {
		n      int
		family string
		want   float64 // in
	}{
		{11, "steel sheet", 0.1196}, {11, "steel", 0.1196}, {11, "Sheet Steel", 0.1196},
		{11, "galvanised sheet", 0.1233}, {11, "galvanized", 0.1233},
		{11, "stainless sheet", 0.125}, {11, "stainless steel", 0.125},
		{11, "aluminium sheet", 0.0907}, {11, "aluminum", 0.0907},
		{11, "tube", 0.12}, {11, "BWG", 0.12},
		{3, "steel", 0.2391}, {30, "steel", 0.0120}, {16, "tube", 0.065}, {30, "galvanised", 0.0157},
	} {
		got, src, err := Gauge(c.n, c.family)
		if err != nil || src.Text == "" {
			t.Errorf("Gauge(%d, %q): %v", c.n, c.family, err)
			continue
		}
		same(t, c.family, got/inch, c.want)
	}
	for _, c := range []struct {
		n      int
		family string
		words  string
	}{
		{11, "", "add steel sheet (0.1196 in), galvanised sheet (0.1233 in), stainless sheet (0.125 in), aluminium sheet (0.0907 in) or tube (0.12 in)"},
		{2, "", "steel sheet, galvanised sheet, stainless sheet, aluminium sheet or tube (0.284 in)"},
		{11, "brass", "known are steel sheet, galvanised sheet, stainless sheet, aluminium sheet and tube"},
		{11, "stainles sheet", `did you mean "stainless sheet"`},
		{2, "steel", "steel sheet has no 2 gauge; it runs from 3 to 30"},
		{-1, "steel", "has no -1 gauge"},
		{31, "steel", "has no 31 gauge"},
		{11, strings.Repeat("x", 100), "longer than 80"},
	} {
		_, _, err := Gauge(c.n, c.family)
		mustSay(t, c.family, err, c.words)
	}
}

// Each gauge system is thinner with every number; the American Wire Gage
// follows its formula.
func TestGaugeSystems(t *testing.T) {
	for _, f := range gaugeFamilies {
		for i := 1; i < len(f.inches); i++ {
			if f.inches[i] >= f.inches[i-1] {
				t.Errorf("%s %d gauge is %v after %v", f.name, f.first+i, f.inches[i], f.inches[i-1])
			}
		}
	}
	awg := gaugeFamilies[3]
	for i, got := range awg.inches {
		if want := awgInches(awg.first + i); short(got, 4) != short(want, 4) {
			t.Errorf("AWG %d is %v, its formula gives %v", awg.first+i, got, want)
		}
	}
}

func TestFindMaterial(t *testing.T) {
	for text, want := range map[string]string{
		"A36": "A36", "a36": "A36", "ASTM A36": "A36", "A36 steel": "A36", "A-36": "A36",
		"A572-50": "A572-50", "a572 gr 50": "A572-50", "A572 Grade 50": "A572-50", "A572 Gr.50": "A572-50", "a572gr50": "A572-50", "A572 gr50": "A572-50",
		"S355": "S355", "s355": "S355", "S355JR": "S355", "S355J2+N": "S355", "S355 J2": "S355", "S235JR": "S235", "S275": "S275",
		"304": "304", "304 stainless": "304", "stainless 304": "304", "304L": "304L", "316": "316", "1.4301": "1.4301",
		"6061-T6": "6061-T6", "6061 t6": "6061-T6", "6061-T6 aluminium": "6061-T6", "6061-T651 plate": "6061-T6", "6061-T6 extrusion": "6061-T6 extrusion",
		"4130": "4130 normalised", "5052-H32": "5052-H32", "A514": "A514", "S700MC": "S700MC",
	} {
		m, err := FindMaterial(text)
		if err != nil || m.Name != want {
			t.Errorf("FindMaterial(%q) = %q, %v; want %q", text, m.Name, err, want)
		}
	}
	for text, words := range map[string]string{
		"":                       "names no grade",
		"steel":                  "names no grade",
		"mild steel":             "names no grade; write one such as A36, S275",
		"aluminium":              "names no grade",
		"A37":                    `did you mean "A36"`,
		"A572":                   "unknown material",
		"unobtainium":            "known are A36, A572-42",
		strings.Repeat("x", 100): "longer than 80",
	} {
		_, err := FindMaterial(text)
		mustSay(t, text, err, words)
	}
}

func TestFindProcess(t *testing.T) {
	for text, want := range map[string]string{
		"air plasma": "air plasma", "Air-Plasma": "air plasma", "tuned plasma": "tuned plasma", "HD plasma": "tuned plasma",
		"fibre laser": "fibre laser", "fiber laser": "fibre laser", "laser": "fibre laser", "waterjet": "waterjet", "water jet": "waterjet",
		"oxy-fuel": "oxy-fuel", "oxyfuel": "oxy-fuel", "flame": "oxy-fuel", "saw and drill": "saw and drill", "by hand": "saw and drill",
	} {
		p, err := FindProcess(text)
		if err != nil || p.Name != want {
			t.Errorf("FindProcess(%q) = %q, %v; want %q", text, p.Name, err, want)
		}
	}
	for text, words := range map[string]string{
		"plasma":                 "air plasma (45 to 105 A, ordinary table) or tuned plasma",
		"air plazma":             `did you mean "air plasma"`,
		"punch":                  "known are air plasma, tuned plasma, fibre laser, waterjet, oxy-fuel and saw and drill",
		strings.Repeat("x", 100): "longer than 80",
	} {
		_, err := FindProcess(text)
		mustSay(t, text, err, words)
	}
}

func TestProcessLimits(t *testing.T) {
	for _, c := range []struct {
		process        string
		t, hole, web   float64
		kerfLo, kerfHi float64 // range of common practice
	}{
		{"air plasma", 6.35, 9.525, 6.35, 1.2, 1.8},
		{"air plasma", 2, 5, 3, 1.2, 1.8},
		{"tuned plasma", 9.525, 11.43, 9.525, 1.5, 2.5},
		{"fibre laser", 6, 6, 4.2, 0.15, 0.4},
		{"waterjet", 10, 5, 5, 0.8, 1.2},
		{"waterjet", 2, 3, 1.5, 0.8, 1.2},
		{"oxy-fuel", 10, 20, 15, 2, 3},
		{"saw and drill", 10, 1.5, 5, 2, 3},
	} {
		p, err := FindProcess(c.process)
		if err != nil {
			t.Fatal(err)
		}
		same(t, c.process+" hole", p.LeastHole(c.t), c.hole)
		same(t, c.process+" web", p.LeastWeb(c.t), c.web)
		if p.Kerf < c.kerfLo || p.Kerf > c.kerfHi || p.Source.Prov != CommonPractice || p.MinSeg <= 0 || p.Tolerance <= 0 {
			t.Errorf("%s: %+v", c.process, p)
		}
	}
}

func TestFindPaper(t *testing.T) {
	for text, want := range map[string]string{
		"A4": "A4", "a4": "A4", "letter": "ANSI A", "ANSI-A": "ANSI A", "tabloid": "ANSI B", "legal": "legal", "US Letter": "ANSI A",
	} {
		p, err := FindPaper(text)
		if err != nil || p.Name != want {
			t.Errorf("FindPaper(%q) = %q, %v; want %q", text, p.Name, err, want)
		}
	}
	for text, words := range map[string]string{
		"A9":                     "did you mean",
		"foolscap":               "known are A5",
		strings.Repeat("x", 100): "longer than 80",
	} {
		_, err := FindPaper(text)
		mustSay(t, text, err, words)
	}
	// ISO 216: each size is the next larger one cut in half, rounded down.
	for i := 1; i < 6; i++ {
		small, large := papers[i-1], papers[i]
		if small.H != large.W || small.W != float64(int(large.H)/2) {
			t.Errorf("%s is not half of %s", small.Name, large.Name)
		}
	}
}
