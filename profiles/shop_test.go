package profiles

import (
	"math"
	"strings"
	"testing"
)

// ISO 9013:2017, perpendicularity or angularity tolerance: values of a chart for
// ranges 1 to 5.
func TestAngularityPublished(t *testing.T) {
	for _, r := range []struct {
		a float64
		u [5]float64
	}{
		{3, [5]float64{0.059, 0.171, 0.43, 0.86, 1.305}},
		{6, [5]float64{0.068, 0.192, 0.46, 0.92, 1.41}},
		{12.7, [5]float64{0.0881, 0.2389, 0.527, 1.054, 1.6445}},
		{25.4, [5]float64{0.1262, 0.3278, 0.654, 1.308, 2.089}},
	} {
		for i, want := range r.u {
			if got := Angularity(i+1, r.a); math.Abs(got-want) > 1e-9 {
				t.Errorf("range %d, %g mm: %g, want %g", i+1, r.a, got, want)
			}
		}
	}
	if Angularity(0, 6) != 0 || Angularity(6, 6) != 0 {
		t.Error("a range that there is not has an angularity")
	}
}

// ISO 9013:2017, limit deviations of classes 1 and 2, as reprinted by a fabricator.
func TestDeviationPublished(t *testing.T) {
	for _, r := range []struct {
		class   int
		t, size float64
		want    float64
	}{
		{2, 6.3, 2, 0.7}, {2, 6, 10, 0.8}, {2, 3.2, 35, 0.9}, {2, 6, 100, 0.9}, {2, 6, 315, 1.1}, {2, 6, 1000, 1.2},
		{1, 3.15, 3, 0.1}, {1, 2, 8, 0.15}, {1, 2, 30, 0.2}, {1, 2, 100, 0.25}, {1, 2, 300, 0.25}, {1, 2, 800, 0.35},
	} {
		got, src, ok := CutDeviation(r.class, r.t, r.size)
		if !ok || got != r.want || src.Prov != Standard {
			t.Errorf("class %d, %g mm plate, %g mm: %g %v %v, want %g", r.class, r.t, r.size, got, src, ok, r.want)
		}
	}
	for _, r := range [][3]float64{{2, 200, 50}, {1, 6, 2000}, {2, 8, 2}, {0, 6, 20}} {
		if got, _, ok := CutDeviation(int(r[0]), r[1], r[2]); ok {
			t.Errorf("%v: %g, want none", r, got)
		}
	}
}

// ISO 286-2, from memory: H7 and p6, H7 and g6 for 30 to 50 mm.
func TestFits(t *testing.T) {
	var s *Set
	press, _ := s.FitFor("press", 40)
	if want := -((0.042+0.026)/2 - 0.025/2); math.Abs(press.Allowance-want) > 1e-12 {
		t.Errorf("press fit of 40 mm is %g, want %g", press.Allowance, want)
	}
	slip, _ := s.FitFor("slip", 40)
	if want := (0.009+0.025)/2 + 0.025/2; math.Abs(slip.Allowance-want) > 1e-12 {
		t.Errorf("slip fit of 40 mm is %g, want %g", slip.Allowance, want)
	}
	for _, kind := range FitKinds() {
		last := 0.0
		for d := 1.0; d < 300; d++ {
			r, ok := s.FitFor(kind, d)
			if !ok || math.Abs(r.Allowance) < last {
				t.Fatalf("%s fit of %g mm is %g, one of less takes %g", kind, d, r.Allowance, last)
			}
			last = math.Abs(r.Allowance)
		}
	}
	if _, ok := s.FitFor("shrink", 40); ok {
		t.Error("there is no shrink fit in the table")
	}
}

func TestCoatings(t *testing.T) {
	var s *Set
	for plate, want := range map[float64]float64{1: 0.045, 2: 0.055, 3: 0.07, 5.99: 0.07, 6: 0.085, 40: 0.085} {
		if c, ok := s.CoatingFor("galvanised", plate); !ok || c.Mean != want {
			t.Errorf("galvanising of %g mm is %g, want %g", plate, c.Mean, want)
		}
	}
}

func stack(t *testing.T, bolt string, grip, last float64) Stack {
	t.Helper()
	b, err := FindBolt(bolt)
	if err != nil {
		t.Fatal(err)
	}
	return Stack{Bolt: b, Grip: grip, Last: last, Washers: 1, Threads: 2}
}

// M12, grip 72 mm, one washer of 2.5, nut of 10.8, two pitches of 1.75: 88.8 mm.
func TestBoltLength(t *testing.T) {
	k := stack(t, "M12 8.8", 72, 6)
	f, washers, ok, err := k.Choose()
	if err != nil || !ok || f.Length != 90 || washers != 1 || math.Abs(f.Past-1.2) > 1e-9 {
		t.Errorf("%+v %d %v %v", f, washers, ok, err)
	}
	// 2 d + 6 = 30 mm of thread from 60 on: 60 of shank would end in the sleeve.
	if l := ThreadLength(k.Bolt, 90); l != 30 {
		t.Errorf("thread is %g, want 30", l)
	}
	if l := ThreadLength(k.Bolt, 130); l != 36 {
		t.Errorf("thread is %g, want 36", l)
	}
	if l := ThreadLength(k.Bolt, 220); l != 49 {
		t.Errorf("thread is %g, want 49", l)
	}
	half := stack(t, "1/2-13 grade 8", 3*inch, inch/4)
	if l := ThreadLength(half.Bolt, 4*inch); math.Abs(l-1.25*inch) > 1e-9 {
		t.Errorf("thread is %g in, want 1-1/4", l/inch)
	}
	if l := ThreadLength(half.Bolt, 7*inch); math.Abs(l-1.5*inch) > 1e-9 {
		t.Errorf("thread is %g in, want 1-1/2", l/inch)
	}
	if f, _, _, _ := half.Choose(); math.Abs(f.Length-3.75*inch) > 1e-9 { // 3 + 0.132 + 0.448 + 2/13 = 3.734
		t.Errorf("length is %g in, want 3-3/4", f.Length/inch)
	}
}

// The bolt chosen does what is asked of it, and no shorter usual one does.
func TestChosenLengthIsTheShortest(t *testing.T) {
	lengths, _ := BoltLengths(true)
	for grip := 8.0; grip < 200; grip += 3.7 {
		for _, out := range []bool{false, true} {
			k := stack(t, "M12 8.8", grip, 6)
			k.Out = out
			f, washers, ok, err := k.Choose()
			if err != nil {
				t.Fatal(err)
			}
			if !ok {
				continue
			}
			k.Washers = washers
			if !k.Good(f) {
				t.Errorf("grip %g: %+v was chosen and does not do", grip, f)
			}
			for _, l := range lengths {
				if g, _ := k.Fit(l); l < f.Length && k.Good(g) {
					t.Errorf("grip %g: %g does, %g was chosen", grip, l, f.Length)
				}
			}
		}
	}
}

func TestNoSuchNut(t *testing.T) {
	k := stack(t, "M18", 40, 8)
	k.Nut = LockNut
	if _, _, _, err := k.Choose(); err == nil || !strings.Contains(err.Error(), "no lock nut of M18") {
		t.Errorf("%v", err)
	}
}

func TestLimitsAreNamedOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, l := range limits {
		if l.Key == "" || l.Title == "" || l.Source.Text == "" || l.Source.Prov == "" || seen[l.Key] {
			t.Errorf("%+v", l)
		}
		seen[l.Key] = true
	}
}
