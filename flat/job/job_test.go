package job

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/flat/check"
	"blankwright/flat/cope"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/flat/tube"
)

// files are the anti-wrap link of the orchard cart "Medlar" at Brackenholt Farm,
// with a tab at each end.
var files = map[string]string{
	"link.yaml": `tube: anti-wrap link
units: mm
section: {outside: 38.1, wall: 4.78, material: S355}
centres: 640
turn: 15 deg
first:  {main: 44.45, length: 60, bore: 31.75}
second: {main: 44.45, length: 60, bore: 31.75}
weld: {leg: 5}
`,
	"tab.yaml": `part: axle tab
quantity: 2
hand: pair
units: in
plate: {thickness: 1/4, material: A36}
process: air plasma
rules: shop 1.5d
holes:
  pivot: {at: [0, -95 mm], bolt: 1/2-13 grade 8, fit: close}
outline:
  tangent:
    - {hole: pivot, radius: 1}
    - {at: [-1.5, -0.9], radius: 1/4}
    - {at: [1.5, -0.9], radius: 1/4}
`,
}

const linkJob = `job: anti-wrap link
revision: B
units: mm
pivots:
  axle:
    at: [0, 0, 255]
    axis: [0, 1, 0]
    sleeve: {outside: 44.45, bore: 31.75, length: 60}
    bush: {outside: 31.75, bore: 13, length: 63}
  frame:
    at: [640, 0, 255]
    axis: [0, 0.9659258263, -0.2588190451]
    sleeve: {outside: 44.45, bore: 31.75, length: 60}
tubes:
  link: {file: link.yaml, from: axle, to: frame}
parts:
  tab: {file: tab.yaml, at: axle, hole: pivot, right: [1, 0, 0], up: [0, 0, 1], joint: {gap: 63.8, nut: lock}}
supports:
  - {at: frame}
  - {at: axle, along: [[0, 1, 0], [0, 0, 1]]}
axle: {motor: 95 N.m, ratio: 11.2, efficiency: 0.9, tyre: 300 mm, load: 540 kg, grip: 0.8, link: {arm: 150 mm}}
loads:
  - {at: axle, from: traction, direction: [1, 0, 0], factor: 2, repeated: yes, case: drive}
  - {at: axle, force: 8.5 kN, direction: [-1, 0, 0], factor: 2, case: back}
stock: {bars: [6 m], kerf: 3, keep: 300}
`

func open(path string) ([]byte, error) {
	text, ok := files[path]
	if !ok {
		return nil, errors.New("no such file")
	}
	return []byte(text), nil
}

func make1(t testing.TB, text string, open Open) (*Job, error) {
	t.Helper()
	d, err := describe.ParseJob("cart/job.yaml", []byte(text))
	require.NoError(t, err)
	return Make(d, open, nil)
}

func made(t testing.TB, text string) *Job {
	t.Helper()
	j, err := make1(t, text, open)
	require.NoError(t, err)
	return j
}

func TestAntiWrapJob(t *testing.T) {
	j := made(t, linkJob)
	require.Empty(t, Run(j))
	require.Len(t, j.Tubes, 1)
	link := j.Tubes[0]
	require.InDelta(t, 640, link.Length, 1e-9)
	require.InDelta(t, 15*degree, link.Wanted.Turn, 1e-9)
	off, ok := link.TurnOff()
	require.True(t, ok)
	require.InDelta(t, 0, off, 1e-9)

	// mu W r / h = 0.8 x 540 x 9.80665 x 300 / 150 = 8473 N, twice; the axle pushed
	// forward, towards the frame, presses the link.
	want := 2 * 0.8 * 540 * 9.80665 * 300 / 150
	require.InDelta(t, -want, j.Solution.Cases[0].Members[0], 1e-6)
	require.InDelta(t, 17000, j.Solution.Cases[1].Members[0], 1e-6)
	h := link.Hands[0]
	require.Len(t, h.Loads, 2)
	require.InDelta(t, -want, h.Loads[0].Force, 1e-6)
	require.InDelta(t, 17000, h.Loads[1].Force, 1e-6)
	require.NotEmpty(t, h.Loads[0].Assumed)
	require.False(t, check.Failed(tube.Run(h)))

	tab := j.Parts[0]
	require.Len(t, tab.Hands, 2)
	for _, f := range tab.Bracket.Forces {
		require.InDelta(t, 0, f.Side, 1e-6)
	}
	// The pressed link pushes the tabs backward, each with half of its force.
	require.InDelta(t, -want/2, tab.Bracket.Forces[0].X, 1e-6)
	b := tab.Hands[0]
	require.Len(t, b.Loads, 2)
	require.InDelta(t, -want/2, b.Loads[0].Force.X, 1e-6)
	require.InDelta(t, want/2, tab.Hands[1].Loads[0].Force.X, 1e-6)
	require.Equal(t, 1, b.Loads[0].Planes)
	require.Equal(t, `load "drive" of the job`, b.Loads[0].Name)
	require.Contains(t, check.Assumptions(b), "each plate at pivot axle takes half of its force, through one shear plane of the bolt: the plates stand alike on both sides of the tube")
	for _, f := range check.Run(b) {
		require.Equal(t, diag.Note, f.Severity, f.Message) // nothing that the job cannot settle
	}
	require.True(t, b.Loads[0].Repeated)
	require.Contains(t, strings.Join(check.Assumptions(b), "\n"), "8.47 kN x 2 on pivot axle along forward")
	require.False(t, check.Failed(check.Run(b)), "%v", check.Run(b))
	require.Len(t, b.Joints, 1)
	require.InDelta(t, 63+2*6.35, b.Joints[0].Stack.Grip, 1e-9)
}

func TestLists(t *testing.T) {
	j := made(t, strings.Replace(linkJob, "revision: B", "quantity: 10", 1))
	require.Equal(t, 9, j.PerBar(j.Tubes[0].Hands[0].Blank()))
	require.Len(t, j.Stocks, 2)
	require.Equal(t, 10, j.Stocks[0].Pieces[0].Count)
	require.Equal(t, 2, j.Stocks[0].Plan.Bars)
	require.Len(t, j.Stocks[1].Pieces, 2)
	require.InDelta(t, 6.35, j.Stocks[1].Wall, 1e-9)
	plates := j.Plates()
	require.Len(t, plates, 2)
	require.Equal(t, 10, plates[0].Count)
	count := map[string]int{}
	for _, i := range j.Bill() {
		count[i.What] += i.Count
		require.NotEmpty(t, i.Size)
	}
	require.Equal(t, 10, count["bolt 1/2-13 grade 8"])
	require.Equal(t, 10, count["nut, lock"])
	require.Equal(t, 10, count["bush"])
	require.Equal(t, 3, count["bar"])
	require.Equal(t, 10, count["sleeve of axle"])
}

// A share that is written is handed on as it is; a plate without a joint gets all
// of the force, its bolt two planes.
func TestShares(t *testing.T) {
	full := 2 * 0.8 * 540 * 9.80665 * 300 / 150
	for _, row := range []struct {
		joint  string
		share  float64
		planes int
		words  string
	}{
		{"joint: {gap: 63.8, nut: lock}", 0.5, 1, "takes half of its force, through one shear plane of the bolt: the plates"},
		{"share: 1, joint: {gap: 63.8, nut: lock}", 1, 1, "takes all of its force, through one shear plane"},
		{"share: 0.6, joint: {gap: 63.8, nut: lock}", 0.6, 1, "takes 0.6 of its force, through one shear plane"},
		{"share: 1", 1, 2, "takes all of its force, through two shear planes"},
		{"share: 1/2, shear: single", 0.5, 1, "takes half of its force, through one shear plane of the bolt"},
	} {
		text := strings.Replace(linkJob, "joint: {gap: 63.8, nut: lock}", row.joint, 1)
		b := made(t, text).Parts[0].Hands[0]
		require.InDelta(t, -row.share*full, b.Loads[0].Force.X, 1e-6, row.joint)
		require.Equal(t, row.planes, b.Loads[0].Planes, row.joint)
		require.Contains(t, strings.Join(check.Assumptions(b), "\n"), row.words)
	}
}

// Two parts that are not alike clamp one bush with one bolt.
func TestTwoPartsOneBolt(t *testing.T) {
	text := strings.Replace(linkJob, "parts:\n", "parts:\n  other: {file: other.yaml, at: axle, hole: pivot, right: [1, 0, 0], up: [0, 0, 1], joint: {gap: 63.8, nut: lock}}\n", 1)
	j, err := make1(t, text, func(path string) ([]byte, error) {
		switch path {
		case "other.yaml":
			return []byte(strings.NewReplacer("axle tab", "other tab", "quantity: 2\nhand: pair\n", "").Replace(files["tab.yaml"])), nil
		case "tab.yaml":
			return []byte(strings.Replace(files[path], "quantity: 2\nhand: pair\n", "", 1)), nil
		}
		return open(path)
	})
	require.NoError(t, err)
	require.Empty(t, Run(j))
	bolts := 0
	for _, i := range j.Bill() {
		if strings.HasPrefix(i.What, "bolt") {
			bolts += i.Count
		}
	}
	require.Equal(t, 1, bolts)
	j.Parts[0].Hands[0].Thickness = 3.0 / 8 * 25.4
	require.Len(t, Run(j), 1)
	require.Contains(t, Run(j)[0].Message, "the grip is worked out for two alike")
}

// Each row changes one thing of a good job and names the rule that has to speak.
func TestRules(t *testing.T) {
	for _, row := range []struct {
		rule, file, from, to string
		severity             diag.Severity
		text                 string
	}{
		{"job-length", "", "at: [640, 0, 255]", "at: [643, 0, 255]", diag.Error, "pivots axle and frame are 643.00 mm apart"},
		{"job-length", "link.yaml", "centres: 640", "length: 605.92", diag.Error, "is 628.82 mm between its working points"},
		{"job-turn", "link.yaml", "turn: 15 deg", "turn: -15 deg", diag.Error, "9.97 mm off round the tube"},
		{"job-turn", "link.yaml", "turn: 15 deg\n", "", diag.Error, "ask for 15 deg: 4.99 mm off"},
		{"job-sleeve", "", "44.45, bore: 31.75, length: 60}\n    bush", "50, bore: 31.75, length: 60}\n    bush", diag.Error, "is cut for 44.45 mm, the sleeve of pivot axle is 50.00 mm"},
		{"job-sleeve", "link.yaml", "first:  {main: 44.45, length: 60", "first:  {main: 44.45, length: 70", diag.Error, "counts on a sleeve 70.00 mm long"},
		{"job-sleeve", "link.yaml", "second: {main: 44.45, length: 60, bore: 31.75}", "second: {main: 44.45, length: 60, bore: 25}", diag.Error, "counts on a sleeve of 25.00 mm bore, that of pivot frame has 31.75 mm"},
		{"job-angle", "link.yaml", "first:  {main: 44.45,", "first:  {main: 44.45, angle: 80 deg,", diag.Error, "is cut at 80 deg, pivot axle asks for 90 deg"},
		{"job-middle", "link.yaml", "first:  {main: 44.45,", "first:  {main: 44.45, offset: -1,", diag.Error, "first end of tube link misses the middle"},
		{"job-middle", "link.yaml", "second: {main: 44.45,", "second: {main: 44.45, at: 5,", diag.Error, "sleeve of pivot frame: at is 5.00 mm"},
		{"job-middle", "link.yaml", "second: {main: 44.45,", "second: {main: 44.45, middle: 3,", diag.Error, "middle is 3.00 mm"},
		{"job-share", "", "joint: {gap: 63.8, nut: lock}", "share: 1/4, joint: {gap: 63.8, nut: lock}", diag.Error, "the plates at pivot axle take 0.5 of its force"},
		{"job-bush", "", "bush: {outside: 31.75", "bush: {outside: 30", diag.Error, "a bush of 30.00 mm in a bore of 31.75 mm"},
		{"job-proud", "", "length: 63}", "length: 60}", diag.Error, "does not stand proud"},
		{"job-sideways", "", "right: [1, 0, 0], up: [0, 0, 1]", "right: [0, 1, 0], up: [0, 0, 1]", diag.Warning, "17 kN sideways beside 0 kN"},
		{"job-plate-square", "", "right: [1, 0, 0], up: [0, 0, 1]", "right: [1, 0.02, 0], up: [0, 0, 1]", diag.Error, "bracket tab leans by 1.15 deg off square to the axis of pivot axle"},
		{"job-pair", "tab.yaml", "quantity: 2\nhand: pair\n", "", diag.Error, "pivot axle has one plate with a joint"},
		{"job-pair", "tab.yaml", "quantity: 2\nhand: pair\n", "quantity: 3\n", diag.Error, "pivot axle has 3 plates with a joint"},
		{"waiver-unused", "", "revision: B", "waive: [{rule: job-turn, reason: none}]", diag.Warning, "answers for nothing"},
		{"waiver-unused", "", "revision: B", "waive: [{rule: job-tun, reason: none}]", diag.Warning, "names no rule; did you mean job-turn"},
	} {
		text := linkJob
		changed := row.file == ""
		if changed {
			text = strings.Replace(linkJob, row.from, row.to, 1)
			require.NotEqual(t, linkJob, text, row.rule)
		}
		j, err := make1(t, text, func(path string) ([]byte, error) {
			if path == row.file {
				s := strings.Replace(files[path], row.from, row.to, 1)
				require.NotEqual(t, files[path], s)
				return []byte(s), nil
			}
			return open(path)
		})
		require.NoError(t, err, row.rule)
		found := false
		for _, f := range Run(j) {
			if f.Rule == row.rule {
				found = true
				require.Equal(t, row.severity, f.Severity)
				require.Contains(t, f.Message, row.text)
				require.NotEmpty(t, f.Fix)
				require.Positive(t, f.Pos.Line)
			}
		}
		require.True(t, found, "%s: %v", row.rule, Run(j))
	}
}

// Whatever the pivots and axes, the tube that they ask for agrees with itself
// when it is written into the file of the tube.
func TestWantedAgrees(t *testing.T) {
	for _, row := range []struct {
		frame, axis string
		turn, angle float64
	}{
		{"[640, 0, 255]", "[0, 1, 0]", 0, 90},
		{"[640, 0, 255]", "[0, 1, 1]", -45, 90},
		{"[600, 0, 300]", "[0, 1, 0]", 0, 90},
	} {
		text := strings.Replace(linkJob, "at: [640, 0, 255]\n    axis: [0, 0.9659258263, -0.2588190451]", "at: "+row.frame+"\n    axis: "+row.axis, 1)
		j := made(t, text)
		require.InDelta(t, row.turn, math.Remainder(j.Tubes[0].Wanted.Turn/degree, 180), 1e-6, row.axis)
	}
}

// Whatever the pivots and their axes: the tube that they ask for, written into its
// file, is what the job wants; turned by a degree more it is not.
func TestWantedReadsBack(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 3))
		v := func(size float64) string {
			return fmt.Sprintf("[%.3f, %.3f, %.3f]", size*(r.Float64()-0.5), size*(r.Float64()-0.5), size*(r.Float64()-0.5))
		}
		text := strings.NewReplacer("at: [640, 0, 255]\n    axis: [0, 0.9659258263, -0.2588190451]", "at: "+v(1200)+"\n    axis: "+v(2),
			"axis: [0, 1, 0]", "axis: "+v(2), "length: 60}", "length: 400}", "length: 63}", "length: 403}").Replace(linkJob)
		text, _, _ = strings.Cut(text, "parts:\n")
		link := "tube: link\nunits: mm\nsection: {outside: 38.1, wall: 4.78, material: S355}\ncentres: 2000\nfirst: {main: 44.45}\nsecond: {main: 44.45}\n"
		make2 := func() (*Job, error) {
			return make1(t, text, func(string) ([]byte, error) { return []byte(link), nil })
		}
		j, err := make2()
		if err != nil {
			require.ErrorContains(t, err, "main lie at") // under 5 degrees
			continue
		}
		w := j.Tubes[0].Wanted
		a, b := w.First[0].(cope.Main), w.Second[0].(cope.Main)
		for _, more := range []float64{0, 1, -1} {
			link = fmt.Sprintf("tube: link\nunits: mm\nsection: {outside: 38.1, wall: 4.78, material: S355}\ncentres: %.9f\nturn: %.9f deg\n"+
				"first: {main: 44.45, angle: %.9f deg, turn: %.9f deg}\nsecond: {main: 44.45, angle: %.9f deg, turn: %.9f deg}\n",
				w.Centres, w.Turn/degree+more*2, a.Angle/degree, a.Turn/degree, b.Angle/degree, b.Turn/degree)
			j, err := make2()
			if err != nil {
				require.ErrorContains(t, err, "run into each other") // too short for both saddles
				break
			}
			var found []string
			for _, f := range Run(j) {
				if f.Severity == diag.Error {
					found = append(found, f.Rule)
				}
			}
			if more == 0 {
				require.Empty(t, found, "%d: %s", seed, link)
			} else {
				require.Equal(t, []string{"job-turn"}, found, "%d: %s", seed, link)
			}
		}
	}
}

// A file of the other hand has its turn written the other way round, and says so.
func TestTurnFixOfMirrored(t *testing.T) {
	for _, row := range []struct{ hand, turn, fix string }{
		{"mirrored", "-15 deg", ""},
		{"mirrored", "15 deg", "write turn: -15 deg"},
		{"as drawn", "-15 deg", "write turn: 15 deg"},
		{"pair", "15 deg", ""},
	} {
		j, err := make1(t, linkJob, func(path string) ([]byte, error) {
			if path != "link.yaml" {
				return open(path)
			}
			return []byte(strings.Replace(files[path], "turn: 15 deg", "hand: "+row.hand+"\nturn: "+row.turn, 1)), nil
		})
		require.NoError(t, err)
		fs := Run(j)
		if row.fix == "" {
			require.Empty(t, fs, row.hand)
			continue
		}
		require.Len(t, fs, 1)
		require.Contains(t, fs[0].Fix, row.fix)
	}
}

// A sleeve that leans by less than anybody measures has no heel.
func TestNearlySquareSleeve(t *testing.T) {
	for _, axis := range []string{"[0.002, 1, 0]", "[-0.002, 1, 0]"} {
		require.Empty(t, Run(made(t, strings.Replace(linkJob, "axis: [0, 1, 0]", "axis: "+axis, 1))), axis)
		text := strings.Replace(linkJob, "axis: [0, 1, 0]", "axis: "+axis, 1)
		j, err := make1(t, text, func(path string) ([]byte, error) {
			return []byte(strings.Replace(string(must(open(path))), "first:  {main: 44.45,", "first:  {main: 44.45, angle: 89.95 deg,", 1)), nil
		})
		require.NoError(t, err)
		require.Empty(t, Run(j), axis)
	}
}

func must(b []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return b
}

// A hole that is not there is told once, whatever would have used it.
func TestOneProblemAtOnePlace(t *testing.T) {
	_, err := make1(t, strings.Replace(linkJob, "hole: pivot", "hole: pivto", 1), open)
	require.Len(t, err, 1)
}

func TestMeasured(t *testing.T) {
	text := strings.Replace(linkJob, "at: [640, 0, 255]", "near: [600, 0, 250]", 1)
	text = strings.Replace(text, "pivots:\n", "pivots:\n  m1: {at: [0, 400, 0]}\n  m2: {at: [0, -400, 0]}\n  m3: {at: [900, 0, 0]}\n", 1)
	d := func(x, y, z float64) float64 { return math.Sqrt((640-x)*(640-x) + y*y + (255-z)*(255-z)) }
	text += "measured:\n"
	for name, v := range map[string]float64{"m1": d(0, 400, 0), "m2": d(0, -400, 0), "m3": d(900, 0, 0), "axle": 640} {
		text += "  - {from: " + name + ", to: frame, distance: " + num4(v) + "}\n"
	}
	j := made(t, text)
	require.InDelta(t, 640, j.Pivots[4].At.X, 0.01)
	require.InDelta(t, 255, j.Pivots[4].At.Z, 0.01)
	require.Empty(t, Run(j))

	_, err := make1(t, strings.Replace(text, "distance: 640.0000", "distance: 655", 1), open)
	require.ErrorContains(t, err, "distances contradict each other")
	_, err = make1(t, strings.Replace(text, "{from: m3", "{from: m1", 1), open)
	require.Error(t, err)
}

func num4(v float64) string { return num.Format(v, 4) }

func TestErrors(t *testing.T) {
	for _, row := range [][3]string{
		{"file: link.yaml", "file: ../link.yaml", `cart/job.yaml:15:16: error: file "../link.yaml" lies outside`},
		{"file: link.yaml", "file: nolink.yaml", `file "nolink.yaml" cannot be read`},
		{"file: link.yaml", "file: tab.yaml", `describes no tube`},
		{"file: tab.yaml", "file: link.yaml", `describes no part`},
		{"hole: pivot", "hole: pivto", `no single hole is named "pivto"`},
		{"  - {at: axle, along: [[0, 1, 0], [0, 0, 1]]}\n", "", "is free to move"},
		{"to: frame}", "to: axle}", "from pivot axle to itself"},
		{"axis: [0, 1, 0]\n", "axis: [1, 0, 0]\n", "main lie at 0 degrees"},
		{"bars: [6 m]", "bars: [0.5 m]", "longest bar gives"},
		{"at: [640, 0, 255]", "at: [0, 0, 255]", "cart/job.yaml:15:9: error: tube link has no length: pivots axle and frame are at one place"},
	} {
		text := strings.Replace(linkJob, row[0], row[1], 1)
		require.NotEqual(t, linkJob, text)
		j, err := make1(t, text, open)
		require.Nil(t, j, row[1])
		require.IsType(t, diag.Problems{}, err, row[1])
		require.ErrorContains(t, err, row[2])
	}
}

// All files that are missing are told at once.
func TestMissingFiles(t *testing.T) {
	_, err := make1(t, linkJob, func(path string) ([]byte, error) { return nil, errors.New("no such file") })
	require.ErrorContains(t, err, `file "link.yaml" cannot be read`)
	require.ErrorContains(t, err, `file "tab.yaml" cannot be read`)
}

// Every rule of parts, tubes and jobs has an id of its own and says what it asks.
func TestRuleTable(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range append(append(check.All(), tube.Rules()...), Rules()...) {
		require.False(t, seen[r.ID], r.ID)
		seen[r.ID] = true
		for _, s := range []string{r.Title, r.Meaning, r.Formula, r.Source, r.Limits} {
			require.NotEmpty(t, s, r.ID)
		}
	}
}

func BenchmarkMake(b *testing.B) {
	for b.Loop() {
		d, err := describe.ParseJob("job.yaml", []byte(linkJob))
		if err != nil {
			b.Fatal(err)
		}
		if _, err := Make(d, open, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// A bent part holds a pivot: what it gets is told, and not held against it; both of
// its legs stand on one bolt.
func TestBentBracket(t *testing.T) {
	const hanger = `part: hanger
quantity: 2
units: mm
plate: {thickness: 5, material: S275}
process: air plasma
formed:
  u: {inside width: 67, legs: 80, length: 80}
bends: {radius: 6, rule: k 0.42, grain: 0 deg}
flanges:
  left:  {holes: {a: {at: [40, 40], bolt: 1/2-13 grade 8, fit: close}}}
  right: {holes: {b: {at: [40, 40], bolt: 1/2-13 grade 8, fit: close}}}
in line: [[a, b]]
`
	text := strings.Replace(linkJob, "parts:\n", "parts:\n  hanger: {file: hanger.yaml, at: axle, hole: a, right: [1, 0, 0], up: [0, 0, 1], joint: {gap: 67, held: bolted, spacer: 1.9}}\n", 1)
	text = strings.Replace(text, "  tab: {file: tab.yaml, at: axle, hole: pivot, right: [1, 0, 0], up: [0, 0, 1], joint: {gap: 63.8, nut: lock}}\n", "", 1)
	j, err := make1(t, text, func(path string) ([]byte, error) {
		if path == "hanger.yaml" {
			return []byte(hanger), nil
		}
		return open(path)
	})
	require.NoError(t, err)
	require.Empty(t, Run(j))
	_, err = make1(t, strings.Replace(strings.Replace(text, "hole: a,", "hole: c,", 1), ", joint: {gap: 67, held: bolted, spacer: 1.9}", "", 1), func(path string) ([]byte, error) {
		if path == "hanger.yaml" {
			return []byte(hanger), nil
		}
		return open(path)
	})
	require.ErrorContains(t, err, `no single hole is named "c"`)
	p := j.Parts[0]
	require.True(t, p.Bent())
	require.Empty(t, p.Hands[0].Loads)
	require.InDelta(t, 8500, p.Bracket.Forces[1].X, 1e-6)
	require.Contains(t, strings.Join(Unchecked(j), "\n"), "strength of bracket hanger: it is bent")
	for _, b := range j.Joints() {
		require.Equal(t, 2, b.Count) // two hangers, a bolt in each
	}

	// Without a joint each leg still has half.
	j, err = make1(t, strings.Replace(text, ", joint: {gap: 67, held: bolted, spacer: 1.9}", "", 1), func(path string) ([]byte, error) {
		if path == "hanger.yaml" {
			return []byte(hanger), nil
		}
		return open(path)
	})
	require.NoError(t, err)
	require.InDelta(t, 8500, j.Parts[0].Bracket.Forces[1].X, 1e-6)
}
