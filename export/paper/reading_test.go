package paper_test

import (
	"math"
	"strings"
	"testing"

	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
)

func TestParseReading(t *testing.T) {
	for in, want := range map[string]paper.Reading{
		"99.4x100.2":         {X: 99.4, Y: 100.2},
		" 99.4 X 100.25 ":    {X: 99.4, Y: 100.25},
		"99,4 mm × 100,2 mm": {X: 99.4, Y: 100.2},
		"95x105":             {X: 95, Y: 105},
		"100x100":            {X: 100, Y: 100},
	} {
		got, err := paper.ParseReading(in)
		if err != nil || got != want {
			t.Errorf("%q is %v (%v), want %v", in, got, err, want)
		}
	}
	for in, want := range map[string]string{
		"":                               "not two lengths",
		"99.4":                           "not two lengths",
		"99.4 100.2":                     "not two lengths",
		"94.9x100":                       "more than 5 % off",
		"100x105.1":                      "more than 5 % off",
		"3.97x3.98":                      "more than 5 % off",
		"-99x100":                        "more than 5 % off",
		"NaNx100":                        "not a length",
		"Infx100":                        "not a length",
		"1e2x100":                        "not a length",
		"99.4xx100":                      "not a length",
		"0x1p6x100":                      "more than 5 % off",
		"99.4x100x100":                   "not a length",
		"a x b":                          "not a length",
		"1_00x100":                       "not a length",
		"99.4 cm x 100.2":                "not a length",
		strings.Repeat("9", 1000) + "x1": "not two lengths",
	} {
		if got, err := paper.ParseReading(in); err == nil || !strings.Contains(err.Error(), want) || len(err.Error()) > 300 {
			t.Errorf("%q is %v, error %v; want one with %q", in, got, err, want)
		}
	}
}

func TestReadingWords(t *testing.T) {
	r := paper.Reading{X: 99.4, Y: 100.25}
	if r.String() != "99.4 x 100.25" || r.FileWord() != "corrected-99.4x100.25" || !r.Off() {
		t.Errorf("reading says %q, %q, %v", r, r.FileWord(), r.Off())
	}
	for _, r := range []paper.Reading{{}, {X: 100, Y: 100}} {
		if r.Off() || r.FileWord() != "" {
			t.Errorf("%v is off: %q", r, r.FileWord())
		}
	}
}

// A corrected sheet is larger or smaller by what the printer is off, keeps its
// margin, and every page of it says so; the drawing itself is at true scale.
func TestCorrectedSheets(t *testing.T) {
	r := paper.Reading{X: 99.4, Y: 100.2}
	b := papertest.BatteryTray()
	const says = "Corrected for a printer that draws 99.4 x 100.2 for 100 x 100 mm. True on that printer alone."
	for _, page := range []string{"A4", "tabloid"} {
		set := print(t, b, nil, paper.Options{Page: page, Measured: r})
		for _, s := range append(set.Pages, set.Full) {
			if x, y := s.Scale(); math.Abs(x-100/99.4) > 1e-12 || math.Abs(y-100/100.2) > 1e-12 {
				t.Errorf("%s: scaled by %v, %v", s.Title, x, y)
			}
			if math.Abs(s.Width*100/99.4-s.Page.Width) > 1e-9 || math.Abs(s.Height*100/100.2-s.Page.Height) > 1e-9 {
				t.Errorf("%s: drawing %v x %v on %v x %v", s.Title, s.Width, s.Height, s.Page.Width, s.Page.Height)
			}
			if !strings.Contains(words(s), says) {
				t.Errorf("%s does not say that it is corrected", s.Title)
			}
			for _, c := range s.Layers[paper.Openings].Circles {
				if c.R != 6 && c.R != 3.3 && c.R != 10 {
					t.Errorf("%s: a hole of radius %v", s.Title, c.R)
				}
			}
		}
	}
	s := compose(t, papertest.AxleTab(), nil, paper.Options{Measured: paper.Reading{X: 100, Y: 100}})
	if strings.Contains(words(s), "orrected") {
		t.Error("a true printer was corrected")
	}
	for _, bad := range []paper.Reading{{X: 90, Y: 100}, {X: 100}, {X: math.NaN(), Y: 100}, {Y: math.Inf(1), X: 100}} {
		if _, err := paper.Compose(papertest.AxleTab(), nil, paper.Options{Measured: bad}); err == nil {
			t.Errorf("reading %v was taken", bad)
		}
	}
}
