package describe

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/flat/diag"
)

const everyJob = `job: 'link "1"'
revision: "#7"
quantity: 3
units: in
profile: shop.yaml
let: {l: 25}
pivots:
  axle: {at: [0, -1/3, 10], axis: [0, 1, 0], sleeve: {outside: 1-3/4, bore: 1-1/4, length: 60 mm, material: S355}, bush: {outside: 1-1/4, bore: 0.51, length: 2.5}}
  frame: {at: [l, 0, 10], axis: [0, 0.966, -1/3]}
  upper: {near: [l, 3, 20]}
measured:
  - {from: axle, to: upper, distance: 30}
  - {from: frame, to: upper, distance: 12}
base: [axle, frame, upper]
within: 1 mm
tubes:
  link: {file: link.yaml, from: axle, to: frame}
parts:
  tab: {file: tabs/tab.yaml, at: axle, hole: pivot, right: [1, 0, 0], up: [0, 0, 1], share: 1/2, joint: {gap: 64.8 mm, held: bolted, spacer: 1 mm, washers: 2, nut: lock, threads: out, length: 4}}
  base: {file: base.yaml}
supports:
  - {at: frame}
  - {at: axle, along: [[0, 1, 0], [0, 0, 1]]}
  - {at: upper, along: [0, 0, 1]}
axle: {motor: 95 N.m, ratio: 11.2, efficiency: 0.9, tyre: 300 mm, load: 540 kg, grip: 0.8, link: {arm: 150 mm}}
loads:
  - {at: axle, from: traction, direction: [1, 0, 0], factor: 2, repeated: yes, case: drive}
  - {at: upper, force: 1 kip, direction: [-1, 0.5, 0], case: "a: b"}
stock: {bars: [6 m, 3 m], kerf: 1/8, trim: 0, keep: 12}
waive: [{rule: job-turn, reason: trial}]
note: "null"
`

func TestJobPrintReadsBack(t *testing.T) {
	j, err := ParseJob("job.yaml", []byte(everyJob))
	require.NoError(t, err)
	reprinted(t, j, PrintJob, ParseJob)
	require.Len(t, j.Pivots, 3)
	require.Equal(t, "double", JobPart{Shear: Word{Text: "double"}}.Shear.Text)
	require.InDelta(t, 635, j.Pivots[1].At.X, 1e-9)
	require.Len(t, j.Supports[2].Along, 1)
}

// Each row changes one line of a good job and tells what is said of it.
func TestJobMessages(t *testing.T) {
	for _, row := range [][3]string{
		{"from: axle, to: frame}", "from: axel, to: frame}", `there is no pivot "axel"`},
		{"at: axle, hole: pivot,", "at: axle,", "a part of a job has at, which belongs to hole"},
		{"up: [0, 0, 1],", "up: [1, 0, 1],", "up is not square to right"},
		{"up: [0, 0, 1],", "up: [0, 1],", "up is a list of 2, wanted [forward, left, up] in bare numbers"},
		{"axis: [0, 1, 0], sleeve", "axis: [0, 0, 0], sleeve", "axis has no length"},
		{"axis: [0, 1, 0], sleeve", "sleeve", "pivot axle has a sleeve or a bush and no axis"},
		{"bore: 1-1/4, length", "bore: 2, length", "the bore is no smaller than the outside"},
		{"at: [l, 0, 10]", "at: [l, 0, 10 deg]", "at: "},
		{"grip: 0.8, link", "link", "the axle has load, which belongs to grip"},
		{"from: traction, direction", "direction", "a job's load has none of force, from"},
		{"base: [axle, frame, upper]", "base: [axle, frame]", "base is a list of 2"},
		{"share: 1/2", "share: 2", `share is "2", wanted more than 0 and at most 1`},
		{", case: drive}", "}", "a job's load has no case"},
		{"  base: {file: base.yaml}", "  tab: {file: base.yaml}", "tab is given twice"},
		{"stock: {bars: [6 m, 3 m]", "stock: {bars: []", "bars is a list of 0"},
		{"  - {at: axle, from: traction", "  - {}\n  - {at: axle, from: traction", "a job's load has no at"},
		{"tubes:\n  link: {file: link.yaml, from: axle, to: frame}", "tubes:", "tubes is empty, wanted a mapping of names to values"},
		{"tubes:\n  link: {file: link.yaml, from: axle, to: frame}", "tubes: {}", "tubes has no entries"},
		{"share: 1/2,", "shear: single,", "shear goes with a plate without joint"},
		{"pivots:", "pivot:", `unknown key "pivot" in a job`},
	} {
		text := strings.Replace(everyJob, row[0], row[1], 1)
		require.NotEqual(t, everyJob, text, row[0])
		j, err := ParseJob("j.yaml", []byte(text))
		require.Nil(t, j)
		ps, ok := err.(diag.Problems)
		require.True(t, ok, "%v: %v", row, err)
		all := ""
		for _, p := range ps {
			all += p.Message + "\n"
			require.Positive(t, p.Pos.Line, fmt.Sprint(p))
		}
		require.Contains(t, all, row[2])
	}
}

// A pivot that is misnamed is told once, not wherever it is used.
func TestMisnamedPivotIsToldOnce(t *testing.T) {
	_, err := ParseJob("j.yaml", []byte(strings.ReplaceAll(everyJob, "axle,", "rear axle,")+"  "))
	require.ErrorContains(t, err, "there is no pivot")
	_, err = ParseJob("j.yaml", []byte(strings.Replace(everyJob, "  axle: {at", "  rear axle: {at", 1)))
	require.ErrorContains(t, err, `"rear axle" cannot name a pivot`)
	require.NotContains(t, err.Error(), "there is no pivot")
}

func FuzzParseJob(f *testing.F) {
	f.Add([]byte(everyJob))
	f.Add([]byte("job: a\npivots: {a: {at: [1 mm, 2 mm, 3 mm]}}\ntubes: {b: {file: c, from: a, to: a}}\n"))
	f.Add([]byte("job: a\npivots: [1]\nloads: [{}, 1]\nsupports: [{along: 3}]\nbase: [a, {}, []]\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		j, err := ParseJob("f", text)
		if err != nil {
			if _, ok := err.(diag.Problems); !ok {
				t.Fatalf("the error is %T", err)
			}
			return
		}
		reprinted(t, j, PrintJob, ParseJob)
	})
}
