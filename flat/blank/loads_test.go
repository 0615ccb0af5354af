package blank

import (
	"testing"

	"blankwright/flat/describe"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// loaded is a plate of 160 x 180 with a bolt, a bore, a row and whatever else.
func loaded(t *testing.T, more string) error {
	t.Helper()
	p, err := describe.Parse("part.yaml", []byte(`part: plate
units: mm
plate: {thickness: 8, material: S275}
process: fibre laser
holes:
  p: {at: [0, 0], bolt: M16 8.8}
  b: {at: [0, 40], bore: 20}
  f: {row: {from: [-40, 90], to: [40, 90], count: 2}, bolt: M16 8.8}
outline: {rectangle: {at: [0, 50], width: 160, height: 180}}
cutouts:
  - {name: axle, saddle: {tube: 60, wall: 4, at: [0, 170]}}
`+more))
	require.NoError(t, err)
	_, err = Make(p)
	return err
}

// What a load or a weld asks for and cannot be worked out is refused, with the
// reason; its neighbour that can be is taken.
func TestLoadProblems(t *testing.T) {
	const weld = "welds: [{from: [-80, -40], to: [80, -40], leg: 5}]\n"
	for _, r := range []struct{ text, want string }{
		{"loads: [{at: [300, 0], on: [p], force: 20 kN, direction: 90 deg}]\n", `load 1 acts beside hole "p", and one hole holds no lever`},
		{"loads: [{at: [0, 300], on: [p], force: 20 kN, direction: 90 deg}]\n", ""},
		{"loads: [{at: [0, 300], on: [p], force: 20 kN, direction: 90 deg, tension: 2 kN}]\n", "one hole holds no lever"},
		{"loads: [{at: [300, 0], on: [p, f], force: 20 kN, direction: 90 deg}]\n", ""},
		{"loads: [{group: [p], force: 20 kN, direction: 90 deg, moment: 3 kN.m}]\n", "one hole holds no moment"},
		{"loads: [{group: [f], force: 20 kN, direction: 90 deg, as: pin}]\n", "a load is shared by 2 holes, and pins share none evenly"},
		{"loads: [{group: [f, b], force: 20 kN, direction: 90 deg}]\n", "a load is shared by 3 holes, and not all of them take bolts"},
		{"loads: [{at: p, tension: 3 kN, as: pin}]\n", "pulls along a pin, which has no head"},
		{"loads: [{at: b, tension: 3 kN}]\n", "pulls along a pin, which has no head"},
		{"loads: [{edge: axle, force: 500 kN, direction: 90 deg}]\n", `load 1 acts on edge "axle", and the file has no weld for it to go into: nothing would be computed`},
		{weld + "loads: [{edge: axle, force: 5 kN, direction: 90 deg}]\n", ""},
		{weld, ""},
		{"welds: [{from: [-80, -40], to: [80, -40], leg: 5}, {name: again, from: [80, -40], to: [-80, -40], leg: 5}]\n", "again runs where weld-1 runs, and would be counted twice"},
		{"welds: [{from: [-80, -40], to: [10, -40], leg: 5}, {from: [0, -40], to: [80, -40], leg: 5, ends: 0}]\n", "weld-2 runs where weld-1 runs"},
		{"welds: [{from: [-80, -40], to: [0, -40], leg: 5, ends: 0}, {from: [0, -40], to: [80, -40], leg: 5, ends: 0}]\n", ""},
		{"welds: [{edge: axle, leg: 4}, {edge: axle, leg: 5}]\n", "weld-2 runs where weld-1 runs"},
		{"welds: [{from: [-80, -40], to: [80, -40], leg: 5, length: 500}]\n", "weld-1 is 500.00 mm long, and its edge 160.00 mm"},
		{"welds: [{from: [-80, -40], to: [80, -40], leg: 5, length: 160}]\n", ""},
	} {
		err := loaded(t, r.text)
		if r.want == "" {
			assert.NoError(t, err, r.text)
		} else if assert.Error(t, err, r.text) {
			assert.Contains(t, err.Error(), r.want, r.text)
		}
	}
}
