package tube

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/flat/blank"
	"blankwright/flat/cope"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
)

// antiWrap is the anti-wrap link of the orchard cart "Medlar" at Brackenholt
// Farm.
const antiWrap = `tube: anti-wrap link
revision: B
quantity: 2
hand: pair
units: mm
section: {outside: 38.1, wall: 4.78, material: S355}
centres: 640
turn: 15 deg
first:  {name: front sleeve, main: 44.45, length: 60, bore: 31.75}
second: {name: rear sleeve, main: 44.45, length: 60, bore: 31.75}
saw: {kerf: 3, bar: 6 m, keep: 300}
weld: {leg: 5}
loads:
  - {compression: 8.5 kN, factor: 2, case: drive}
  - {tension: 8.5 kN, factor: 2, case: back}
`

func made(t testing.TB, text string) []*Tube {
	t.Helper()
	d, err := describe.ParseTube("tube.yaml", []byte(text))
	require.NoError(t, err)
	ts, err := Make(d, nil)
	require.NoError(t, err)
	return ts
}

func TestAntiWrapLink(t *testing.T) {
	ts := made(t, antiWrap)
	require.Len(t, ts, 2)
	a, b := ts[0], ts[1]
	require.Equal(t, blank.Mirrored, b.Hand)
	require.Equal(t, 1, a.Quantity)
	require.InDelta(t, 617.1, a.Blank(), 0.05)
	require.InDelta(t, 605.9, a.Cut.Blank(cope.ID), 0.05)
	require.InDelta(t, 640-44.45, a.Cut.Throats(cope.OD), 1e-9)
	require.InDelta(t, 4.99, a.Cut.Clocking(), 0.005)
	require.InDelta(t, -4.99, b.Cut.Clocking(), 0.005)
	require.InDelta(t, a.Blank(), b.Blank(), 1e-9)
	require.Equal(t, 9, a.PerBar)
	require.InDelta(t, math.Pi*38.2, a.Ends[0].Template.Width, 1e-9)
	grind, _ := a.Grind(0)
	require.InDelta(t, 5.591, grind, 1e-3) // √(22.225²-14.27²) - √(22.225²-19.05²)
	// 500.3 mm2 x 0.6 m, less what the saddles take out.
	require.InDelta(t, 500.3*0.617*7850e-6, a.Mass, 0.06)
	require.Equal(t, "anti-wrap-link-rev-b-od38.1mm", FileBase(a, a.System()))
	require.Equal(t, "anti-wrap-link-rev-b-od38.1mm-mirrored", FileBase(b, b.System()))
}

func TestAntiWrapLinkHolds(t *testing.T) {
	a := made(t, antiWrap)[0]
	fs := Run(a)
	for _, f := range fs {
		require.Equal(t, "tube-inside", f.Rule, f.Message)
		require.Equal(t, diag.Note, f.Severity)
	}
	require.Len(t, fs, 2)
	share := map[string]float64{}
	for _, u := range Utilisations(a) {
		share[u.Rule+" "+u.Place] = u.Value
		require.NotEmpty(t, u.Formula)
	}
	// 17 kN on 0.9 x 355 MPa x 500.3 mm2.
	require.InDelta(t, 17/(0.9*355*0.50034), share["member-tension tube"], 1e-3)
	// L/r = 640/11.9, Fe = pi2 E/(L/r)2 = 682 MPa, Fcr = 0.658^(355/682) 355 = 285.5 MPa.
	require.InDelta(t, 17/(0.9*285.5*0.50034), share["member-buckling tube"], 1e-3)
	require.Contains(t, share, "sleeve-wall rear sleeve")
	for _, u := range Utilisations(a) {
		if u.Rule == "member-buckling" {
			// Fy - (Fy L/r / 2 pi)2 / E, times the section.
			slender := 640 / a.Section.Gyr
			johnson := (355 - math.Pow(355*slender/(2*math.Pi), 2)/ElasticModulus) * a.Section.Area / 1000
			require.Contains(t, u.Mode, fmt.Sprintf("Johnson %.2f kN, Euler ", johnson))
		}
	}
	require.Contains(t, share, "cope-weld first end")
	require.NotEmpty(t, Unchecked(a))
	require.NotEmpty(t, Assumptions(a))
}

// A given length overall keeps its word, whatever the line that is cut.
func TestLengthOverall(t *testing.T) {
	for _, how := range []string{"ground", "square"} {
		a := made(t, "tube: a\nunits: mm\nsection: {outside: 38.1, wall: 4.78, material: S355}\ncut: "+how+"\nlength: 600\nfirst: {main: 50, angle: 40 deg}\nsecond: {main: 44.45}\n")[0]
		require.InDelta(t, 600, a.Blank(), 1e-9)
	}
}

// Each row changes one thing of a good tube and names the rule that has to
// speak, and how.
func TestRules(t *testing.T) {
	good := "tube: a\nunits: mm\nsection: {outside: 38.1, wall: 2, material: S355}\ncentres: 640\nfirst: {main: 44.45, length: 60, bore: 36}\nsecond: square\n"
	for _, f := range Run(made(t, good)[0]) {
		require.Equal(t, diag.Note, f.Severity, f.Message)
	}
	for _, row := range []struct {
		rule, from, to, also string
		severity             diag.Severity
		text                 string
	}{
		{"tube-angle", "main: 44.45, length: 60, bore: 36", "main: 44.45, angle: 29 deg", "", diag.Warning, "the axes lie at 29 deg"},
		{"sleeve-overrun", "length: 60", "length: 36", "", diag.Error, "reaches 1.05 mm past the end of the main"},
		{"tube-inside", "wall: 2", "wall: 4.78", "", diag.Note, "fouls on the inside by up to 5.59 mm"},
		{"tube-gap", "wall: 2", "wall: 4.78", "cut: square", diag.Error, "stands off by up to 5.59 mm"},
		{"tube-gap", "wall: 2", "wall: 2.5", "cut: square", diag.Warning, "stands off by up to"},
		{"tube-seam", "second: square", "second: square", "paper: {seam: 40 deg}", diag.Warning, "within 15 deg of the seam"},
		{"tube-short", "centres: 640\n", "centres: 80\n", "", diag.Warning, ""},
		{"member-tension", "second: square", "second: square", "loads: [{tension: 100 kN}]", diag.Error, "yield in tension"},
		{"member-buckling", "centres: 640", "centres: 2500", "loads: [{compression: 40 kN}]", diag.Error, "buckling, slenderness"},
		{"member-buckling", "centres: 640", "centres: 3000", "loads: [{compression: 1 kN}]", diag.Warning, "advises against"},
		{"sleeve-wall", "bore: 36", "bore: 43", "loads: [{tension: 50 kN}]", diag.Error, "the sleeve of the first end"},
		{"cope-weld", "second: square", "second: square", "weld: {leg: 2}\nloads: [{tension: 60 kN}]", diag.Error, "fillet of 2.00 mm"},
		{"waiver-unused", "second: square", "second: square", "waive: [{rule: tube-gap, reason: none}]", diag.Warning, "answers for nothing"},
	} {
		text := strings.Replace(good, row.from, row.to, 1)
		if row.also != "" {
			text += row.also + "\n"
		}
		if row.rule == "tube-short" {
			text = strings.Replace(text, "second: square", "second: {main: 44.45}", 1)
		}
		found := false
		for _, f := range Run(made(t, text)[0]) {
			if f.Rule == row.rule {
				found = true
				require.Equal(t, row.severity, f.Severity, f.Message)
				require.Contains(t, f.Message, row.text)
				require.NotEmpty(t, f.Fix)
				require.Positive(t, f.Pos.Line, f.Message)
			}
		}
		require.True(t, found, "%s says nothing on\n%s\n%v", row.rule, text, Run(made(t, text)[0]))
	}
}

func TestWaiver(t *testing.T) {
	text := "tube: a\nunits: mm\nsection: {outside: 38.1, wall: 4.78, material: S355}\ncut: square\ncentres: 640\nfirst: {main: 44.45}\nsecond: square\nwaive: [{rule: tube-gap, reason: filled by hand}]\n"
	fs := Run(made(t, text)[0])
	require.Len(t, fs, 1)
	require.Equal(t, "filled by hand", fs[0].Waived)
	require.False(t, fs[0].Fails())
}

func TestMakeErrors(t *testing.T) {
	base := "tube: a\nunits: mm\nsection: {outside: 38.1, wall: 4.78, material: %s}\ncentres: %s\nfirst: %s\nsecond: square\n"
	for _, row := range [][4]string{
		{"S355", "640", "{main: 30}", "tube.yaml:5:8: error: first end: "},
		{"S355", "640", "{main: 30, offset: 40}", "passes beside"},
		{"S355", "640", "{main: 30}", "tube.yaml:5:8: hint: write beside: yes"},
		{"S355", "10", "{main: 44.45}", "tube.yaml:4:10: error: "},
		{"butter", "640", "{main: 44.45}", "tube.yaml:3:48: error: "},
		{"S355", "640", "{main: 44.45}\nsaw: {kerf: 3, bar: 500}", "tube.yaml:6:21: error: piece"},
	} {
		d, err := describe.ParseTube("tube.yaml", []byte(fmt.Sprintf(base, row[0], row[1], row[2])))
		require.NoError(t, err)
		ts, err := Make(d, nil)
		require.Nil(t, ts)
		require.ErrorContains(t, err, row[3])
		require.IsType(t, diag.Problems{}, err)
	}
}

func TestRuleTable(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		require.False(t, seen[r.ID])
		seen[r.ID] = true
		for _, s := range []string{r.Title, r.Meaning, r.Formula, r.Source, r.Limits} {
			require.NotEmpty(t, s, r.ID)
		}
	}
}

func BenchmarkMake(b *testing.B) {
	d, err := describe.ParseTube("tube.yaml", []byte(antiWrap))
	require.NoError(b, err)
	for b.Loop() {
		if _, err := Make(d, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// A hole saw is told where a jig holds it: from 30 degrees on, unless the file says
// otherwise.
func TestHoleSawAngle(t *testing.T) {
	text := "tube: a\nunits: mm\nsection: {outside: 38.1, wall: 2, material: S355}\ncentres: 640\nfirst: {name: rail, main: 44.45, angle: %s}\nsecond: square\n"
	for _, row := range []struct {
		angle, more string
		ok          bool
	}{{"30 deg", "", true}, {"29 deg", "", false}, {"29 deg", "hole saws: {least angle: 20 deg}\n", true}, {"90 deg", "hole saws: {diameters: [50]}\n", false}} {
		saws := made(t, fmt.Sprintf(text, row.angle)+row.more)[0].Ends[0].Saws
		require.Len(t, saws, 1)
		require.Equal(t, row.ok, saws[0].OK(), row.angle+row.more)
	}
}

// A file in inches is answered in inches.
func TestErrorsInInches(t *testing.T) {
	d, err := describe.ParseTube("tube.yaml", []byte("tube: a\nunits: in\nsection: {outside: 1-1/2, wall: 1/8, material: A36}\ncentres: 24\nfirst: {main: 1}\nsecond: square\n"))
	require.NoError(t, err)
	_, err = Make(d, nil)
	require.ErrorContains(t, err, "tube of 1.500 in (38.10 mm) reaches past the side of the main (1.000 in (25.40 mm), offset 0.000 in (0.00 mm))")
}
