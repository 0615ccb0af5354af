package profiles_test

import (
	"testing"

	"blankwright/profiles"
)

// Rates fall and pierces grow with thickness, for every process that pierces;
// a process by hand has neither.
func TestRates(t *testing.T) {
	known := 0
	for _, p := range profiles.Processes() {
		row := profiles.Default().Cutting(p.Name)
		lead, src := row.LeadIn, row.Source
		last, ok := row.Rate(1)
		if !ok {
			if lead != 0 {
				t.Errorf("%s has a lead-in and no rate", p.Name)
			}
			continue
		}
		known++
		if lead < p.Kerf || src.Prov != profiles.CommonPractice {
			t.Errorf("%s: lead-in %v, kerf %v, %s", p.Name, lead, p.Kerf, src.Prov)
		}
		for thick := 1.0; ; thick += 0.5 {
			r, ok := row.Rate(thick)
			if !ok {
				if thick < 25 {
					t.Errorf("%s ends at %v mm", p.Name, thick)
				}
				break
			}
			if r.Feed <= 0 || r.Feed > last.Feed || r.Pierce < last.Pierce || r.MaxT < thick {
				t.Errorf("%s at %v mm: %+v after %+v", p.Name, thick, r, last)
			}
			last = r
		}
	}
	if known != 5 {
		t.Errorf("%d processes have rates", known)
	}
	// On the row's edge it is the row's, as for 6.5 mm and the inch plate under it.
	row := profiles.Default().Cutting("air plasma")
	a, _ := row.Rate(6.5)
	b, _ := row.Rate(6.35)
	if a != b || a.MaxT != 6.5 {
		t.Errorf("%+v, %+v", a, b)
	}
}
