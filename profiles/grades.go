package profiles

import (
	"fmt"
	"strings"
)

// grade is one strength class over a range of sizes. Stresses as published:
// ksi for inch bolts, MPa for metric ones.
type grade struct {
	name                  string
	metric, inch          bool
	from, to              float64 // nominal diameter, mm, both included
	proof, yield, tensile float64 // least values
	source                Source
}

const (
	j429    = "SAE J429"
	iso898  = "ISO 898-1"
	iso3506 = "ISO 3506-1"
	f3125   = "ASTM F3125/F3125M"
)

var grades = []grade{
	{"grade 2", false, true, inch / 4, 3 * inch / 4, 55, 57, 74, Source{j429, FromMemory}},
	{"grade 2", false, true, 3 * inch / 4, 3 * inch / 2, 33, 36, 60, Source{j429, FromMemory}},
	{"grade 5", false, true, inch / 4, inch, 85, 92, 120, Source{j429, Standard}},
	{"grade 5", false, true, inch, 3 * inch / 2, 74, 81, 105, Source{j429, Standard}},
	{"grade 8", false, true, inch / 4, 3 * inch / 2, 120, 130, 150, Source{j429, Standard}},
	{"A307", false, true, inch / 4, 3 * inch / 2, 0, 0, 60, Source{"ASTM A307, Grade A", FromMemory}},
	{"A325", false, true, inch / 2, 3 * inch / 2, 85, 92, 120, Source{f3125 + ", Grade A325", FromMemory}},
	{"A490", false, true, inch / 2, 3 * inch / 2, 120, 130, 150, Source{f3125 + ", Grade A490", FromMemory}},
	{"A325", true, false, 12, 36, 600, 660, 830, Source{f3125 + ", Grade A325M", FromMemory}},
	{"A490", true, false, 12, 36, 830, 940, 1040, Source{f3125 + ", Grade A490M", FromMemory}},
	{"4.6", true, false, 3, 36, 225, 240, 400, Source{iso898, FromMemory}},
	{"4.8", true, false, 3, 36, 310, 340, 420, Source{iso898, FromMemory}},
	{"5.6", true, false, 3, 36, 280, 300, 500, Source{iso898, FromMemory}},
	{"5.8", true, false, 3, 36, 380, 420, 520, Source{iso898, FromMemory}},
	{"6.8", true, false, 3, 36, 440, 480, 600, Source{iso898, FromMemory}},
	{"8.8", true, false, 3, 16, 580, 640, 800, Source{iso898, FromMemory}},
	{"8.8", true, false, 16, 36, 600, 660, 830, Source{iso898, FromMemory}},
	{"9.8", true, false, 3, 16, 650, 720, 900, Source{iso898, FromMemory}},
	{"10.9", true, false, 3, 36, 830, 940, 1040, Source{iso898, FromMemory}},
	{"12.9", true, false, 3, 36, 970, 1100, 1220, Source{iso898, FromMemory}},
	{"A2-70", true, false, 3, 24, 0, 450, 700, Source{iso3506, FromMemory}},
	{"A4-70", true, false, 3, 24, 0, 450, 700, Source{iso3506, FromMemory}},
	{"A4-80", true, false, 3, 24, 0, 600, 800, Source{iso3506, FromMemory}},
}

// fits reports whether the grade is made for bolts of this system.
func (g *grade) fits(metric bool) bool { return metric && g.metric || !metric && g.inch }

// findGrade reads a grade as people write it after the size: grade 8, gr8,
// gr. 8, class 10.9, 10.9, A325. It gives the grade's own name.
func findGrade(text string, metric bool) (string, error) {
	want := gradeKey(text)
	for i := range grades {
		g := &grades[i]
		if g.fits(metric) && gradeKey(g.name) == want {
			return g.name, nil
		}
	}
	for i := range grades { // of the other system?
		if g := &grades[i]; !g.fits(metric) && gradeKey(g.name) == want {
			if metric {
				return "", fmt.Errorf("%s is a grade of inch bolts; a metric bolt has a class: %s", strings.TrimSpace(text), list(gradeNames(true)))
			}
			return "", fmt.Errorf("%s is a class of metric bolts; an inch bolt has a grade: %s", strings.TrimSpace(text), list(gradeNames(false)))
		}
	}
	return "", fmt.Errorf("unknown bolt grade %q; known are %s", strings.TrimSpace(text), list(gradeNames(metric)))
}

func gradeKey(s string) string {
	s = squeeze(s)
	for _, p := range [...]string{"sae", "astm", "propertyclass", "class", "cl.", "grade", "gr."} {
		s = strings.TrimPrefix(s, p)
	}
	if len(s) > 2 && (s[:2] == "gr" || s[:2] == "cl") {
		s = s[2:]
	}
	if s == "a325m" || s == "a490m" || s == "a307a" {
		s = s[:4]
	}
	return s
}

func gradeNames(metric bool) []string {
	var out []string
	for i := range grades {
		g := &grades[i]
		if g.fits(metric) && (len(out) == 0 || out[len(out)-1] != g.name) {
			out = append(out, g.name)
		}
	}
	return out
}

// Strength is what a graded bolt is made to hold. Stresses MPa. Proof and Yield
// are 0 where the standard gives none.
type Strength struct {
	Grade                 string
	Proof, Yield, Tensile float64 // least values
	Source                Source

	// Nominal stresses of AISC 360-16 Table J3.2, on the shank area: tension,
	// shear with threads in the shear plane (N) and outside it (X).
	Fnt, FnvN, FnvX float64
	SourceAISC      Source
}

// structural are the named rows of AISC 360 Table J3.2, as published.
var structural = []struct {
	grade                    string
	fntKsi, fnvNKsi, fnvXKsi float64
	fntMPa, fnvNMPa, fnvXMPa float64
	prov                     Prov
	group                    string
}{
	{"A307", 45, 27, 27, 310, 188, 188, Standard, "A307 bolts"},
	{"A325", 90, 54, 68, 620, 372, 457, Standard, "Group A (A325)"},
	{"A490", 113, 68, 84, 780, 457, 579, FromMemory, "Group B (A490)"},
}

const tableJ32 = "AISC 360-16, Table J3.2, "

// Threaded parts of AISC 360-16 Table J3.2, as multiples of Fu.
const (
	threadedTension  = 0.75
	threadedShearIn  = 0.450
	threadedShearOut = 0.563
)

// StrengthOf gives the strength of a bolt by its grade. It is an error where
// the bolt names no grade, or where the standard does not define the grade for
// its size.
func StrengthOf(b Bolt) (Strength, error) {
	if b.Grade == "" {
		return Strength{}, fmt.Errorf("bolt %s names no grade; add one of %s", b.Name, list(gradeNames(b.Metric)))
	}
	var last *grade
	for i := range grades {
		g := &grades[i]
		if g.name != b.Grade || !g.fits(b.Metric) {
			continue
		}
		last = g
		if nano(b.D) >= nano(g.from) && nano(b.D) <= nano(g.to) {
			return g.strength(b.Metric), nil
		}
	}
	if last == nil {
		return Strength{}, fmt.Errorf("unknown bolt grade %q; known are %s", b.Grade, list(gradeNames(b.Metric)))
	}
	return Strength{}, fmt.Errorf("%s does not define %s for size %s; choose another grade or size", last.source.Text, b.Grade, b.Size)
}

func (g *grade) strength(metric bool) Strength {
	f := 1.0
	if !metric {
		f = ksi
	}
	s := Strength{
		Grade: g.name, Proof: g.proof * f, Yield: g.yield * f, Tensile: g.tensile * f, Source: g.source,
		Fnt: threadedTension * g.tensile * f, FnvN: threadedShearIn * g.tensile * f, FnvX: threadedShearOut * g.tensile * f,
		SourceAISC: Source{tableJ32 + "threaded parts (0.75, 0.450 and 0.563 Fu)", Standard},
	}
	for _, r := range structural {
		if r.grade != g.name {
			continue
		}
		s.SourceAISC = Source{tableJ32 + r.group, r.prov}
		if metric {
			s.Fnt, s.FnvN, s.FnvX = r.fntMPa, r.fnvNMPa, r.fnvXMPa
		} else {
			s.Fnt, s.FnvN, s.FnvX = r.fntKsi*ksi, r.fnvNKsi*ksi, r.fnvXKsi*ksi
		}
	}
	return s
}
