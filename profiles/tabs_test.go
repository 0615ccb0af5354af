package profiles

import "testing"

// Every process has a row of its own, in the order of the processes; the least
// is no more than the usual.
func TestTabFits(t *testing.T) {
	ps := Processes()
	if len(ps) != len(tabFits) {
		t.Fatalf("%d processes, %d rows", len(ps), len(tabFits))
	}
	for i, p := range ps {
		f := TabFitFor(p)
		if f.Process != p.Name || tabFits[i].Process != p.Name {
			t.Errorf("%s has the row of %s", p.Name, f.Process)
		}
		if !(f.Least > 0 && f.Least <= f.Usual) || f.Source.Text == "" {
			t.Errorf("%+v", f)
		}
	}
	// Common practice: 0.8 mm on plasma, 0.3 to 0.5 mm on a laser.
	for name, want := range map[string]float64{"air plasma": 0.8, "tuned plasma": 0.8, "fibre laser": 0.4} {
		p, err := FindProcess(name)
		if err != nil {
			t.Fatal(err)
		}
		if got := TabFitFor(p).Usual; got != want {
			t.Errorf("%s: %g, want %g", name, got, want)
		}
	}
	if f := TabFitFor(Process{Name: "router"}); f.Process != "oxy-fuel" {
		t.Errorf("a process without a row is taken as %s", f.Process)
	}
}
