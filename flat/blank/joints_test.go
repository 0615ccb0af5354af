package blank

import (
	"strings"
	"testing"

	"blankwright/flat/describe"
	"blankwright/flat/num"
	"blankwright/profiles"
)

func madeOf(t *testing.T, text string) []*Blank {
	t.Helper()
	p, err := describe.Parse("a.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	bs, err := Make(p)
	if err != nil {
		t.Fatal(err)
	}
	return bs
}

const joined = "part: a\nunits: mm\nhand: pair\nplate: {thickness: 6, material: S275}\nprocess: air plasma\n" +
	"holes: {a: {at: [10, 0], bolt: M12}, b: {at: [-40, 0], diameter: 9}}\noutline: {disc: {diameter: 140}}\n"

// Plate, sleeve and plate are what the bolt clamps; the bolt that does is told.
func TestJoint(t *testing.T) {
	for _, b := range madeOf(t, joined+"joints:\n  - {hole: a, sleeve: {width: 60}, gap: 60.8}\n") {
		if len(b.Joints) != 1 {
			t.Fatalf("%s: %d joints", b.Hand, len(b.Joints))
		}
		j := b.Joints[0]
		// 72 of grip, washer 2.5, nut 10.8, two pitches of 1.75: 88.8 mm
		if j.Stack.Grip != 72 || !j.Chosen || j.Choice.Length != 90 || j.Washers != 1 {
			t.Errorf("%+v", j)
		}
		if text := strings.Join(b.Notes, "\n"); !strings.Contains(text, `joint "a": grip 72.00 mm, M12 bolt 90.00 mm long, plain nut, 1 washer under the nut`) {
			t.Errorf("%s", text)
		}
	}
	b := madeOf(t, joined+"joints:\n  - {hole: a, plies: [6, 10, 8], nut: lock, threads: out}\ncoating: {kind: galvanised}\n")[0]
	if j := b.Joints[0]; j.Stack.Grip != 24 || j.Stack.Last != 8 || !j.Stack.Out || j.Stack.Nut != profiles.LockNut {
		t.Errorf("%+v", j)
	}
	if b.Coat == nil || b.Coat.Thickness != 0.085 {
		t.Errorf("%+v", b.Coat)
	}
}

func TestJointsThatCannotBe(t *testing.T) {
	for text, want := range map[string]string{
		"joints:\n  - {hole: b, sleeve: {width: 60}}\n":    "a joint needs a bolt, and hole \"b\" takes none",
		"joints:\n  - {hole: a, sleeve: {width: 30000}}\n": "out of reach",
	} {
		p, err := describe.Parse("a.yaml", []byte(joined+text))
		if err == nil {
			_, err = Make(p)
		}
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// The words of the language are those of the tables.
func TestWordsOfTheTables(t *testing.T) {
	for _, nut := range profiles.NutKinds() {
		madeOf(t, joined+"joints:\n  - {hole: a, sleeve: {width: 60}, nut: "+nut+"}\n")
	}
	for _, kind := range profiles.CoatingKinds() {
		madeOf(t, joined+"coating: {kind: "+kind+"}\n")
	}
	for _, kind := range profiles.FitKinds() {
		madeOf(t, strings.Replace(joined, "diameter: 9", "bore: 30, allow: "+kind, 1))
	}
}

// Between cut and reamer there is always a size between theirs.
func TestReamStepsRise(t *testing.T) {
	for d := 4.0; d < 80; d += 0.37 {
		for _, units := range []string{"in", "mm"} {
			text := strings.Replace(joined, "units: mm", "units: "+units, 1)
			text = strings.NewReplacer("[10, 0]", "[10 mm, 0 mm]", "[-40, 0]", "[-20 mm, 0 mm]", "thickness: 6", "thickness: 6 mm", "diameter: 140", "diameter: 400 mm",
				"diameter: 9", "diameter: "+num.Short(d, 2)+" mm, how: ream").Replace(text)
			for _, h := range madeOf(t, text)[0].Holes {
				if h.Method == Ream && (h.DrillDia < h.CutDia || h.DrillDia >= h.Dia) {
					t.Errorf("cut %g, drill %g, ream %g", h.CutDia, h.DrillDia, h.Dia)
				}
			}
		}
	}
}
