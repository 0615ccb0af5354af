package profiles

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"blankwright/flat/diag"
)

const shopProfile = `profile: orchard workshop
processes:
  Air Plasma: {kerf: 1/16 in, tolerance: 0.8 mm, hole times: 1.2}
  old table: {like: air plasma, kerf: 2.2 mm, tab clearance: 1.2 mm}
materials:
  yard plate: {like: S275, fy: 235 MPa}
  hot stuff: {fy: 50 ksi, fu: 65 ksi, group: steel, up to: 1/2 in}
shop: {toe: 9 mm, usual toe: 9 mm, wall ratio: 1.5}
fits:
  shell: [{to: 40 mm, allowance: -0.08 mm}, {to: 90 mm, allowance: -0.12 mm}]
coatings: {paint: 0.2 mm}
`

func TestProfile(t *testing.T) {
	s, err := ReadProfile("shop.yaml", []byte(shopProfile))
	if err != nil {
		t.Fatal(err)
	}
	p, err := s.FindProcess("plasma, air")
	if err == nil {
		t.Errorf("%+v", p)
	}
	p, err = s.FindProcess("hand plasma")
	if err != nil || p.Name != "air plasma" || math.Abs(p.Kerf-inch/16) > 1e-12 || p.Tolerance != 0.8 || p.MinHoleT != 1.2 || p.MinWeb != 3 || p.Source.Prov != ShopsOwn {
		t.Errorf("%+v %v", p, err)
	}
	old, err := s.FindProcess("old table")
	if err != nil || old.Kerf != 2.2 || old.MinWeb != 3 || s.TabFitFor(old).Least != 1.2 || s.TabFitFor(old).Usual != 1.2 {
		t.Errorf("%+v %v %+v", old, err, s.TabFitFor(old))
	}
	m, err := s.FindMaterial("Yard Plate")
	if err != nil || m.Fy != 235 || m.Fu != 430 {
		t.Errorf("%+v %v", m, err)
	}
	m, err = s.FindMaterial("hot stuff")
	if err != nil || math.Abs(m.Fy-50*ksi) > 1e-9 || m.MaxT != inch/2 || m.Density != steelDensity {
		t.Errorf("%+v %v", m, err)
	}
	if s.Limit(ToeLeast) != 9 || s.Limit(WallRatio) != 1.5 || s.LimitRow(WallRatio).Source.Prov != ShopsOwn || s.Limit(HoleToWeld) != 6 {
		t.Error("limits are not those of the profile")
	}
	if f, _ := s.FitFor("shell", 35); f.Allowance != -0.08 {
		t.Errorf("%+v", f)
	}
	if c, _ := s.CoatingFor("paint", 6); c.Mean != 0.2 {
		t.Errorf("%+v", c)
	}
	if tb, err := s.FindTable("shop-limits"); err != nil || !strings.Contains(fmt.Sprint(tb.Rows), "profile shop.yaml") {
		t.Errorf("%v %v", tb, err)
	}
	if s.String() != "the embedded tables with shop.yaml on top" {
		t.Errorf("%s", s)
	}
	// A second one goes on top of the first.
	two, err := s.With("farm.yaml", []byte("shop: {toe: 7 mm}\n"))
	if err != nil || two.Limit(ToeLeast) != 7 || two.Limit(WallRatio) != 1.5 || s.Limit(ToeLeast) != 9 {
		t.Errorf("%v %g", err, two.Limit(ToeLeast))
	}
}

// A profile never changes the embedded tables, nor those of another run.
func TestProfileLeavesTheRestAlone(t *testing.T) {
	before := fmt.Sprint(Tables())
	a, err := ReadProfile("shop.yaml", []byte(shopProfile))
	if err != nil {
		t.Fatal(err)
	}
	first := fmt.Sprint(a.Tables())
	if _, err := a.With("b.yaml", []byte("processes:\n  air plasma: {kerf: 3 mm}\n  third: {like: old table}\nfits:\n  press: [{to: 9 mm, allowance: 0 mm}]\n")); err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(Tables()) != before {
		t.Error("the embedded tables have changed")
	}
	if fmt.Sprint(a.Tables()) != first {
		t.Error("a profile on top changed the set under it")
	}
}

func TestProfileProblems(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "1:1: error: the profile is empty"},
		{"- a\n", "1:1: error: the profile is no mapping"},
		{"shop: [\n", "1:1: error: the profile cannot be read as YAML"},
		{"a: 1\n---\nb: 1\n", "a second document begins here"},
		{"shp: {toe: 8 mm}\n", "1:1: error: unknown key \"shp\" in the profile\np.yaml:1:1: hint: write shop"},
		{"shop: {tow: 8 mm}\n", "1:8: error: unknown key \"tow\" in shop\np.yaml:1:8: hint: write toe"},
		{"shop: {toe: 8}\n", "1:13: error: \"8\" has no unit that is known here"},
		{"shop: {toe: 8 mm, toe: 9 mm}\n", "1:19: error: \"toe\" is given twice in shop"},
		{"shop: {wall ratio: 2 mm}\n", "1:20: error: \"2 mm\" is not a number"},
		{"shop: {toe: -8 mm}\n", "is out of reach"},
		{"shop: {toe: .nan mm}\n", "is not a number with its unit"},
		{"shop: {toe: 12 mm}\n", "toe (12 mm) is more than usual toe (8 mm)"},
		{"shop: 5\n", "shop is no mapping"},
		{"processes:\n  lightsabre: {kerf: 1 mm}\n", "2:3: error: process \"lightsabre\" is not in the tables and is like none of them"},
		{"processes:\n  x: {like: air plasmo}\n", "unknown process \"air plasmo\"; did you mean \"air plasma\""},
		{"processes:\n  waterjet: {range: 6}\n", "\"6\" is out of reach, wanted 0 to 5"},
		{"processes:\n  waterjet: {class: 1.5}\n", "\"1.5\" is no whole number"},
		{"materials:\n  x: {fy: 300 MPa}\n", "material \"x\" has no fy or no fu"},
		{"materials:\n  x: {fy: 300 MPa, fu: 200 MPa}\n", "has fu under its fy"},
		{"materials:\n  x: {like: S275, group: stell}\n", "write steel"},
		{"fits:\n  pres: [{to: 1 mm, allowance: 0 mm}]\n", "write press"},
		{"fits:\n  press: 5\n", "wanted a list of rows"},
		{"fits:\n  press: [{to: 5 mm}]\n", "needs to and allowance"},
		{"fits:\n  press: [{to: 5 mm, allowance: 0 mm}, {to: 5 mm, allowance: 0 mm}]\n", "do not rise"},
		{"coatings: {paints: 1 mm}\n", "write paint"},
		{"shop: &a {toe: 8 mm}\n", "no anchors"},
		{"profile: \"\xff\"\n", "is not UTF-8"},
		{strings.Repeat("#", MaxProfile+1), "more than 65536 bytes"},
	} {
		s, err := ReadProfile("p.yaml", []byte(c.text))
		if err == nil || s != nil {
			t.Errorf("%q is taken", c.text)
			continue
		}
		if _, ok := err.(diag.Problems); !ok || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v\nwant %s", c.text, err, c.want)
		}
	}
}

func FuzzProfile(f *testing.F) {
	f.Add([]byte(shopProfile))
	f.Add([]byte("processes: {air plasma: {kerf: 1e9 mm}}\nfits: {press: []}\n"))
	f.Add([]byte("a: {{{{{{{{"))
	f.Add([]byte("test bends: {one: {thickness: 3 mm, radius: 3 mm, angle: 90, flat: 100 mm, legs: [52 mm, 53 mm], measured: inside}}\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := ReadProfile("f.yaml", text)
		if (s == nil) == (err == nil) {
			t.Fatal("either a set or an error")
		}
		if s != nil {
			for _, tb := range s.Tables() {
				if len(tb.Rows) == 0 {
					t.Fatalf("nothing is left of the table %s", tb.Name)
				}
			}
		}
	})
}
