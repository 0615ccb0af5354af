package check

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/profiles"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plateOf is a plate 160 wide and 180 high with a bolt at 0, 0, and what else is
// written; a key written again replaces the one here.
func plateOf(t testing.TB, more string) *blank.Blank {
	t.Helper()
	keys := map[string]string{
		"plate:":   "{thickness: 8, material: S275}",
		"process:": "fibre laser",
		"rules:":   "aisc 360 lrfd",
		"holes:":   "{p: {at: [0, 0], bolt: M16 8.8}}",
		"outline:": "{rectangle: {at: [0, 50], width: 160, height: 180}}",
	}
	text := "part: plate\nunits: mm\n"
	for _, k := range []string{"plate:", "process:", "rules:", "holes:", "outline:"} {
		if !strings.Contains("\n"+more, "\n"+k) {
			text += k + " " + keys[k] + "\n"
		}
	}
	return partOf(t, text+more)
}

const cutCorner = "outline: {corners: [[-60, -80], [60, -80], [60, 10], [0, 40], [-60, 10]]}\n"

// Utilisations worked out by hand, each where a shortcut would tell less.
func TestUtilisationCases(t *testing.T) {
	for _, r := range []struct {
		name, text, rule, place string
		want                    float64
	}{
		// EN 1993-1-8 3.6.1(10): 1.5 x 430 x 20 x 8/1.25 = 82.6 kN.
		{"one row in single shear", "rules: en 1993-1-8\nholes: {p: {at: [0, 0], bolt: M20 10.9}}\noutline: {rectangle: {width: 160, height: 180}}\n" +
			"loads: [{at: p, force: 90 kN, direction: 90 deg}]\n", "bearing", "p", 90 / 82.56},
		{"the same in double shear", "rules: en 1993-1-8\nholes: {p: {at: [0, 0], bolt: M20 10.9}}\noutline: {rectangle: {width: 160, height: 180}}\n" +
			"loads: [{at: p, force: 90 kN, direction: 90 deg, shear: double}]\n", "bearing", "p", 90 / 137.6},

		// Both outer strips torn off, two lines sheared; holes count 2 mm wider here:
		// 0.60 Fu 2 x 3.74 x 3/8 + Fu 2 x 0.742 x 3/8, over 2.
		{"outer strips", "plate: {thickness: 3/8 in, material: A572-50}\nrules: aisc 360 asd\n" +
			"holes: {g: {grid: {at: [0, 0], columns: 3, rows: 2, pitch: [2.34 in, 8 in]}, bolt: 7/8 A490, fit: standard, standard: aisc j3.3}}\n" +
			"outline: {corners: [[-12 in, -5.25 in], [3.94 in, -5.25 in], [3.94 in, 5.25 in], [-12 in, 5.25 in]]}\n" +
			"loads: [{group: [g], force: 78 kip, direction: 0 deg, threads: out}]\n", "block-shear", "g", 78 / 72.78},

		// A load in two parts is the load.
		{"a row as one load", "holes: {f: {row: {from: [-40, 100], to: [40, 100], count: 2}, bolt: M16 8.8}}\n" +
			"loads: [{group: [f], force: 60 kN, direction: 90 deg}]\n", "net-section", "f", 60 / (0.75 * (160 - 2*19.5) * 8 * 430 / 1000)},
		{"a row as two loads", "holes: {f: {row: {from: [-40, 100], to: [40, 100], count: 2}, bolt: M16 8.8}}\n" +
			"loads: [{group: [f], force: 30 kN, direction: 90 deg, case: a}, {group: [f], force: 30 kN, direction: 90 deg, case: a}]\n", "net-section", "f", 60 / (0.75 * (160 - 2*19.5) * 8 * 430 / 1000)},
		{"a row as two loads", "holes: {f: {row: {from: [-40, 100], to: [40, 100], count: 2}, bolt: M16 8.8}}\n" +
			"loads: [{group: [f], force: 30 kN, direction: 90 deg, case: a}, {group: [f], force: 30 kN, direction: 90 deg, case: a}]\n", "block-shear", "f", 0.255},
		{"a row hole by hole", "holes: {f: {row: {from: [-40, 100], to: [40, 100], count: 2}, bolt: M16 8.8}}\n" +
			"loads: [{at: f.1, force: 30 kN, direction: 90 deg, case: a}, {at: f.2, force: 30 kN, direction: 90 deg, case: a}]\n", "block-shear", "f", 0.255},
		{"two holes, each its load", "plate: {thickness: 4, material: S275}\nholes: {a: {at: [0, 0], bolt: M16 8.8}, b: {at: [0, 50], bolt: M16 8.8}}\n" +
			"outline: {rectangle: {at: [-40, 25], width: 150, height: 90}}\n" +
			"loads: [{at: a, force: 45 kN, direction: 0 deg, case: x}, {at: b, force: 45 kN, direction: 0 deg, case: x}]\n", "net-section", "a", 1.368},
		{"two holes, each its load", "plate: {thickness: 4, material: S275}\nholes: {a: {at: [0, 0], bolt: M16 8.8}, b: {at: [0, 50], bolt: M16 8.8}}\n" +
			"outline: {rectangle: {at: [-40, 25], width: 150, height: 90}}\n" +
			"loads: [{at: a, force: 45 kN, direction: 0 deg, case: x}, {at: b, force: 45 kN, direction: 0 deg, case: x}]\n", "block-shear", "a", 90 / (0.75 * (2*35*0.6*275 + 2*(20-9.75)*430) * 4 / 1000)},

		// 40 kN along x and along y on one hole are 56.6 kN askew.
		{"a load in its two parts", "outline: {disc: {diameter: 60}}\nplate: {thickness: 6, material: S275}\n" +
			"loads: [{at: p, force: 40 kN, direction: 0 deg, case: a}, {at: p, force: 40 kN, direction: 90 deg, case: a}]\n",
			"net-section", "p", 56.5685 / (0.75 * (60 - 19.5) * 6 * 430 / 1000)},

		// The bolt is 16 mm wide: one of its shear planes runs into the hole beside its
		// middle line, 21.05 - 3.54 mm ahead.
		{"a hole just off the line", "holes: {p: {at: [0, 0], bolt: M16 8.8}, k: {at: [9.1, 30], diameter: 18}}\n" +
			"loads: [{at: p, force: 50 kN, direction: 90 deg}]\n", "tear-out", "p", 0.921},
		// From the slot's end the edge is 23.1 mm ahead.
		{"a slot under an askew edge", "holes: {p: {at: [0, 0], bolt: M16 8.8, slot: {length: 50}}}\n" + cutCorner +
			"loads: [{at: p, force: 40 kN, direction: 90 deg}]\n", "tear-out", "p", 0.671},

		// The weaker weld: 0.75 x 0.6 x 60 ksi x 6/sqrt 2 = 790 N/mm.
		{"weld of the weaker electrode", "holes: {p: {at: [0, 0], bolt: M20 10.9}}\noutline: {corners: [[-50, -100], [50, -100], [50, 60], [-50, 60]]}\n" +
			"loads: [{at: p, force: 90 kN, direction: 90 deg}]\n" +
			"welds: [{from: [-50, -100], to: [-5, -100], leg: 5, electrode: e110}, {from: [-5, -100], to: [50, -100], leg: 6, electrode: e60}]\n",
			"weld-strength", "weld-2", 1.47},

		// A bracket on four bolts, 370 mm out: F11 over the whole depth, elastic.
		{"bolted cantilever", "plate: {thickness: 4, material: S275}\nholes: {g: {grid: {at: [0, 0], columns: 2, rows: 2, pitch: [60, 60]}, bolt: M16 8.8}}\n" +
			"outline: {rectangle: {at: [180, 0], width: 500, height: 110}}\n" +
			"loads: [{at: [400, 0], on: [g], force: 9 kN, direction: -90 deg}]\n", "section-bending", "g", 3.071},

		// 27 mm is more than the 26 mm of EN 1090-2: 0.8 of the bearing.
		{"oversize by EN 1090-2", "rules: en 1993-1-8\nplate: {thickness: 10, material: S275}\nholes: {p: {at: [0, 0], bolt: M24 8.8, standard: aisc j3.3}}\noutline: {rectangle: {width: 300, height: 300}}\n" +
			"loads: [{at: p, force: 80 kN, direction: 90 deg, shear: double}]\n", "bearing", "p", 80 / (0.8 * 2.5 * 430 * 24 * 10 / 1.25 / 1000)},
		// EN 3.6.1(5): 0.85 of 0.6 x 800 x 84.3/1.25.
		{"M12 in a hole of 13.5 mm", "rules: en 1993-1-8\nholes: {p: {at: [0, 0], bolt: M12 8.8}}\n" +
			"loads: [{at: p, force: 20 kN, direction: 90 deg}]\n", "bolt-shear", "p", 20 / (0.85 * 0.6 * 800 * 84.3 / 1.25 / 1000)},

		// EN 3.8: 1 - (420 - 240)/(200 x 16) = 0.94375.
		{"long joint", "rules: en 1993-1-8\nplate: {thickness: 12, material: S275}\nholes: {r: {row: {from: [0, 0], to: [420, 0], count: 8}, bolt: M16 8.8}}\n" +
			"outline: {rectangle: {at: [150, 0], width: 640, height: 160}}\nloads: [{group: [r], force: 470 kN, direction: 0 deg}]\n",
			"bolt-shear", "r", 470.0 / 8 / (0.94375 * 0.6 * 800 * 157 / 1.25 / 1000)},
		{"long joint, aisc", "plate: {thickness: 12, material: S275}\nholes: {r: {row: {from: [0, 0], to: [1000, 0], count: 11}, bolt: M16 8.8}}\n" +
			"outline: {rectangle: {at: [500, 0], width: 1200, height: 160}}\nloads: [{group: [r], force: 440 kN, direction: 0 deg}]\n",
			"bolt-shear", "r", 40 / (0.75 * 0.833 * 0.450 * 800 * 3.14159265 / 4 * 256 / 1000)},
	} {
		b := plateOf(t, r.text)
		assert.InEpsilon(t, r.want, taken(t, b, r.rule, r.place).Value, 0.01, "%s: %s", r.name, r.rule)
	}
}

// A load in parts takes as much as whole, at every place by every rule that looks at
// sections and blocks.
func TestLoadInParts(t *testing.T) {
	const plate = "holes: {g: {grid: {at: [0, 60], columns: 2, rows: 2, pitch: [60, 50]}, bolt: M16 8.8}}\n"
	whole := plateOf(t, plate+"loads: [{group: [g], force: 80 kN, direction: 90 deg}]\n")
	parts := plateOf(t, plate+"loads: ["+strings.Join([]string{
		"{at: g.1, force: 20 kN, direction: 90 deg, case: a}", "{at: g.2, force: 20 kN, direction: 90 deg, case: a}",
		"{at: g.3, force: 20 kN, direction: 90 deg, case: a}", "{at: g.4, force: 20 kN, direction: 90 deg, case: a}"}, ", ")+"]\n")
	before, after := values(whole), values(parts)
	for k, v := range before {
		assert.InDelta(t, v, after[k], 1e-9, k)
	}
}

// A bracket on bolts under its load in two halves takes as much as under it whole.
func TestArmLoadInHalves(t *testing.T) {
	const arm = "plate: {thickness: 4, material: S275}\nholes: {g: {grid: {at: [0, 0], columns: 2, rows: 2, pitch: [60, 60]}, bolt: M16 8.8}}\n" +
		"outline: {rectangle: {at: [180, 0], width: 500, height: 110}}\n"
	for _, rules := range []string{"en 1993-1-8", "aisc 360"} {
		whole := plateOf(t, "rules: "+rules+"\n"+arm+"loads: [{at: [400, 0], on: [g], force: 9 kN, direction: -90 deg}]\n")
		halves := plateOf(t, "rules: "+rules+"\n"+arm+"loads: [{at: [400, 0], on: [g], force: 4.5 kN, direction: -90 deg, case: a}, {at: [400, 0], on: [g], force: 4.5 kN, direction: -90 deg, case: a}]\n")
		want := taken(t, whole, "section-bending", "g").Value
		assert.InEpsilon(t, want, taken(t, halves, "section-bending", "g").Value, 1e-6, rules)
	}
}

// Nothing jumps where an opening slides past the line of force.
func TestTearOutDoesNotJump(t *testing.T) {
	last := 0.0
	for x := 4.0; x < 30; x += 0.25 {
		b := plateOf(t, "loads: [{at: p, force: 50 kN, direction: 90 deg}]\n")
		k := b.Holes[0]
		k.Name, k.Set, k.Bolt, k.Dia, k.CutDia, k.Purpose = "k", "k", nil, 18, 18, blank.PlainHole
		k.Centre.X, k.Centre.Y = x, 30
		b.Holes = append(b.Holes, k)
		v := taken(t, b, "tear-out", "p").Value
		if x > 17 {
			break // past the bolt's side
		}
		if last > 0 {
			assert.InEpsilon(t, last, v, 0.12, "%g", x)
		}
		last = v
	}
}

func findingsOf(b *blank.Blank, rule string) (out []diag.Finding) {
	for _, f := range Run(b) {
		if f.Rule == rule {
			out = append(out, f)
		}
	}
	return out
}

// What cannot be computed is an error that says so, and no utilisation.
func TestWhatCannotBeComputedIsAnError(t *testing.T) {
	// Bolts in one place hold no lever.
	b := plateOf(t, "holes: {f: {row: {from: [-40, 100], to: [40, 100], count: 2}, bolt: M16 8.8}}\n"+
		"loads: [{at: [200, 100], on: [f], force: 20 kN, direction: 90 deg}]\n")
	b.Holes[1].Centre = b.Holes[0].Centre
	fs := findingsOf(b, "bolt-group")
	require.Len(t, fs, 1)
	assert.Equal(t, diag.Error, fs[0].Severity)
	assert.Contains(t, fs[0].Message, "could not be computed: bolts in one place hold no moment")
	assert.NotEmpty(t, fs[0].Source)
	assert.NotEmpty(t, fs[0].Formula)
	assert.True(t, Failed(Run(b)))

	// A pull beside a row of bolts turns the plate about it.
	b = plateOf(t, "holes: {f: {row: {from: [-40, 100], to: [40, 100], count: 2}, bolt: M16 8.8}}\n"+
		"loads: [{at: [0, 60], on: [f], tension: 20 kN}]\n")
	fs = findingsOf(b, "bolt-tension")
	require.NotEmpty(t, fs)
	assert.Contains(t, fs[0].Message, "could not be computed: the bolts stand in one line")

	// A weld of no length.
	b = plateOf(t, "loads: [{at: p, force: 20 kN, direction: 90 deg}]\nwelds: [{name: foot, from: [-80, -40], to: [80, -40], leg: 5}]\n")
	b.Welds[0].Segs = nil
	fs = findingsOf(b, "weld-strength")
	require.Len(t, fs, 1)
	assert.Contains(t, fs[0].Message, `the weld "foot": could not be computed: a weld group needs a weld`)

	// A hole outside the plate.
	for _, rules := range []string{"aisc 360", "en 1993-1-8"} {
		b = plateOf(t, "rules: "+rules+"\nholes: {p: {at: [0, 0], bore: 20}}\nloads: [{at: p, force: 20 kN, direction: 90 deg}]\n")
		b.Holes[0].Centre.Y = 900
		b.Loads[0].At.Y = 900
		fs = findingsOf(b, "pin-plate")
		require.Len(t, fs, 1)
		assert.Contains(t, fs[0].Message, "could not be computed")
	}
	b = plateOf(t, "loads: [{at: p, force: 20 kN, direction: 90 deg}]\n")
	b.Holes[0].Centre.X = 900
	fs = findingsOf(b, "net-section")
	require.Len(t, fs, 1)
	assert.Contains(t, fs[0].Message, "could not be computed")
}

// What was not looked at is named, load by load and pin by pin; what was is not.
func TestUncheckedNamesLoadsAndPins(t *testing.T) {
	said := func(b *blank.Blank) string { return strings.Join(Unchecked(b), "\n") }

	b := plateOf(t, "holes: {p: {at: [0, 0], diameter: 20}}\nplate: {thickness: 8, material: 6061-T6}\nloads: [{at: p, force: 2 kN, direction: 0 deg}]\n")
	assert.Contains(t, said(b), "load 1: nothing was computed")
	b = plateOf(t, "loads: [{at: p, force: 2 kN, direction: 0 deg}]\n")
	assert.NotContains(t, said(b), "nothing was computed")

	b = plateOf(t, "holes: {p: {at: [0, 0], diameter: 20}}\nloads: [{at: p, force: 2 kN, direction: 0 deg}]\n")
	assert.Contains(t, said(b), `pins in "p": their own shear and bending`)
	assert.Contains(t, said(b), `play of the pins in "p"`)
	b = plateOf(t, "loads: [{at: p, force: 2 kN, direction: 0 deg, as: pin}]\n")
	assert.Contains(t, said(b), `bending of the pins in "p": AISC 360 has no rule for it`)

	for _, rules := range []string{"en 1993-1-8", "aisc 360"} {
		b = plateOf(t, "rules: "+rules+"\nloads: [{at: p, tension: 4 kN}]\nwelds: [{from: [-80, -40], to: [80, -40], leg: 5}]\n")
		assert.Contains(t, said(b), "under what pulls out of the plane (load 1)")
		assert.Equal(t, rules == "en 1993-1-8", strings.Contains(said(b), "Bp,Rd"))
		assert.Len(t, findingsOf(b, "weld-strength"), 1)
		for _, u := range Utilisations(b) {
			assert.NotContains(t, []string{"weld-line-bending", "weld-strength"}, u.Rule, "an empty line looks held")
		}
	}
	b = plateOf(t, "rules: en 1993-1-8\nloads: [{at: p, force: 2 kN, direction: 0 deg}]\n")
	assert.NotContains(t, said(b), "the direction is not known")
	assert.Contains(t, said(b), "buckling of the plate, in bending too")
}

// A bolt that is a pin between this plate and its twin bends: EN 1993-1-8 Table 3.10,
// MEd = F/8 (b + 4 c + 2 a), F twice this plate's.
func TestPinBends(t *testing.T) {
	b := plateOf(t, "rules: en 1993-1-8\njoints: [{hole: p, sleeve: {width: 60, outside: 30, bore: 16.5}, gap: 61}]\n"+
		"loads: [{at: p, force: 10 kN, direction: 90 deg, as: pin, shear: single}]\n")
	var bent *held
	c := newContext(b)
	c.rule = pinPlate
	c.quiet = true
	pinPlate.Run(c)
	for i := range c.held {
		if strings.HasSuffix(c.held[i].set, "bending") {
			bent = &c.held[i]
		}
	}
	require.NotNil(t, bent)
	m := 20e3 / 8 * (60 + 4*0.5 + 2*8) / (1.5 * 3.14159265 / 32 * 4096 * 640)
	v := 10e3 / (0.6 * 3.14159265 / 4 * 256 * 800 / 1.25)
	assert.InEpsilon(t, m*m+v*v, bent.v, 0.001)
	assert.NotContains(t, strings.Join(Unchecked(b), "\n"), "bending of the pins")
}

// Suggestions combine what alone does not do, and bring no failed check with them.
func TestSuggestionsBringNoFault(t *testing.T) {
	b := plateOf(t, "outline: {corners: [[-50, -100], [50, -100], [30, 30], [-30, 30]]}\nloads: [{at: p, force: 20 kN, direction: 0 deg}]\n"+
		"welds: [{from: [-50, -100], to: [50, -100], leg: 4}]\n")
	fs := findingsOf(b, "weld-strength")
	require.Len(t, fs, 1)
	assert.Contains(t, fs[0].Fix, `make the leg of "weld-1" 5.00 mm and weld on both sides`)

	b = plateOf(t, "plate: {thickness: 20, material: S275}\nwelds: [{from: [-80, -40], to: [-60, -40], leg: 3}]\n")
	fs = findingsOf(b, "weld-size")
	require.NotEmpty(t, fs)
	for _, f := range fs {
		assert.NotContains(t, f.Fix, "8.00 mm", "it leaves 4 mm of weld")
	}

	for _, text := range []string{
		"plate: {thickness: 4, material: S275}\nloads: [{at: p, force: 60 kN, direction: 90 deg}]\nwelds: [{from: [-80, -40], to: [80, -40], leg: 3, both sides: yes}]\n",
		"plate: {thickness: 5, material: S275}\nholes: {p: {at: [0, 0], bolt: M12 8.8}}\nloads: [{at: p, force: 60 kN, direction: 90 deg, shear: double}]\n",
	} {
		b = plateOf(t, text)
		before := faultsOf(b)
		n := 0
		for _, r := range Results(b) {
			for _, ch := range r.Changes {
				if k, _ := Find(r.Rule); !k.strength {
					continue
				}
				n++
				assert.NotContains(t, ch.Text, "12.9")
				if ch.Kind == Thicken {
					assert.Contains(t, []float64{5, 6, 8, 10, 12, 15, 20}, ch.To, "plate that one can buy")
				}
				after, err := ch.Apply(b)
				require.NoError(t, err)
				for k := range faultsOf(after) {
					assert.True(t, before[k], "%s brings %s", ch.Text, k)
				}
			}
		}
		assert.NotZero(t, n)
	}
}

// A bolt group's figure for AISC is more than the force on the bolt, and says why.
func TestGroupFigureIsExplained(t *testing.T) {
	for _, s := range samples(t) {
		if s.file == "load-group-ai.yaml" {
			fs := findingsOf(s.blanks[0], "bolt-group")
			require.Len(t, fs, 1)
			assert.Contains(t, fs[0].Message, "0.9815")
		}
	}
}

// Loads that may not be meant as they are written.
func TestAssumptionsOnFactorsAndPlanes(t *testing.T) {
	const axle = "axle: {tyre: 300, load: 540 kg, grip: 0.8, link: {arm: 150}}\n"
	b := plateOf(t, axle+"loads: [{at: p, from: traction, direction: 90 deg, shear: double}]\n")
	assert.Len(t, findingsOf(b, "load-unclear"), 1)
	said := strings.Join(Assumptions(b), "\n")
	assert.NotContains(t, said, "already factored")
	assert.Contains(t, said, "shear: double divides this plate's force by two planes")
	b = plateOf(t, "rules: aisc 360 asd\n"+axle+"loads: [{at: p, from: traction, direction: 90 deg, factor: 2}]\n")
	assert.Empty(t, findingsOf(b, "load-unclear"))
	assert.Contains(t, strings.Join(Assumptions(b), "\n"), "load 1 has the factor 2 on it, and AISC 360-22 ASD is for service loads")
}

// The figure of the free edge is the shop's to change.
func TestFreeEdgeByProfile(t *testing.T) {
	text, err := os.ReadFile("testdata/samples/load-edge.yaml")
	require.NoError(t, err)
	p, err := describe.Parse("part.yaml", text)
	require.NoError(t, err)
	bs, err := blank.Make(p)
	require.NoError(t, err)
	assert.Contains(t, findingsOf(bs[0], "free-edge")[0].Formula, "2.06 x sqrt")

	set, err := profiles.Default().With("shop.yaml", []byte("profile: shop\nshop: {free edge: 9}\n"))
	require.NoError(t, err)
	bs, err = blank.MakeWith(p, set)
	require.NoError(t, err)
	assert.Empty(t, findingsOf(bs[0], "free-edge"))
}

// A kernel that gives up on a cutout or an outline is told, and not taken for room
// enough.
func TestKernelErrorsAreTold(t *testing.T) {
	c := newContext(plate(t, rectangle(60, 40)))
	c.rule = smallestSlot
	c.reportCannot(diag.Finding{Features: []string{"window"}}, "how narrow it is", errors.New("no answer"))
	require.Len(t, c.results, 1)
	assert.Equal(t, diag.Error, c.results[0].Severity)
	assert.Equal(t, "how narrow it is: could not be computed: no answer", c.results[0].Message)
	assert.True(t, Failed([]diag.Finding{c.results[0].Finding}))

	broken := geom.Loop{geom.Line(geom.Point{}, geom.Point{X: 10}), geom.Line(geom.Point{X: 10}, geom.Point{X: math.NaN()}), geom.Line(geom.Point{X: math.NaN()}, geom.Point{})}
	_, _, err := narrowest(broken, 5)
	assert.Error(t, err)
}
