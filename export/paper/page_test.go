package paper_test

import (
	"fmt"
	"testing"

	"blankwright/export/paper"
)

func TestFindPage(t *testing.T) {
	for in, want := range map[string]string{
		"A4":               "A4 210 x 297 mm",
		"letter":           "letter 215.9 x 279.4 in",
		"Legal":            "legal 215.9 x 355.6 in",
		"ledger":           "tabloid 279.4 x 431.8 in",
		"ANSI D":           "ANSI D 558.8 x 863.6 in",
		"300 x 500 mm":     "300 x 500 mm 300 x 500 mm",
		"300mm x 500mm":    "300 x 500 mm 300 x 500 mm",
		"30×50 cm":         "300 x 500 mm 300 x 500 mm",
		`8-1/2" x 14"`:     "8.5 x 14 in 215.9 x 355.6 in",
		"8-1/2x14in":       "8.5 x 14 in 215.9 x 355.6 in",
		"12 in x 500 mm":   "304.8 x 500 mm 304.8 x 500 mm",
		"roll 24 in":       "roll 24 in 609.6 x 0 in roll",
		"roll:914mm":       "roll 914 mm 914 x 0 mm roll",
		"36 in roll":       "roll 36 in 914.4 x 0 in roll",
		"  tabloid ":       "tabloid 279.4 x 431.8 in",
		"Roll = 30.5 cm":   "roll 305 mm 305 x 0 mm roll",
		"300.5 x 500.5 mm": "300.5 x 500.5 mm 300.5 x 500.5 mm",
	} {
		p, err := paper.FindPage(in)
		got := fmt.Sprintf("%s %.5g x %.5g", p.Name, p.Width, p.Height)
		if p.Inch {
			got += " in"
		} else {
			got += " mm"
		}
		if p.Roll {
			got += " roll"
		}
		if err != nil || got != want {
			t.Errorf("%q is %q (%v), want %q", in, got, err, want)
		}
	}
}

func FuzzFindPage(f *testing.F) {
	for _, s := range []string{"A4", "8-1/2 x 14 in", "roll 24 in", "300×500 mm", "rollx", "x", "1x", "½ x ½ in", "x1\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := paper.FindPage(s)
		if err != nil {
			if p != (paper.Page{}) && !(p.Width > 0) && p.Name == "" {
				t.Errorf("%q: page %v with error %v", s, p, err)
			}
			return
		}
		if p.Name == "" || !(p.Width >= 50 && p.Width <= 5000) || !p.Roll && !(p.Height >= 50 && p.Height <= 5000) {
			t.Errorf("%q is %v", s, p)
		}
	})
}
