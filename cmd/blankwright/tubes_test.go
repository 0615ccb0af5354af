package main

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/flat/diag"
)

// randomTube describes some tube: any size and wall, each end square or on one or
// two mains or plates at any angle, with offset, reaching past the main or not.
func randomTube(r *rand.Rand) string {
	od := 8 + r.Float64()*r.Float64()*200
	wall := od * (0.02 + 0.48*r.Float64()*r.Float64())
	meet := func() string {
		if r.IntN(6) == 0 {
			return fmt.Sprintf("{plate: yes, angle: %g deg, turn: %g deg}", 5+85*r.Float64(), 360*r.Float64())
		}
		main := od * (0.5 + 2*r.Float64())
		s := fmt.Sprintf("{main: %g, angle: %g deg, turn: %g deg, offset: %g", main, 5+85*r.Float64(), 360*r.Float64(), od*(r.Float64()-0.5)*0.6)
		if main < od*1.3 {
			s += ", beside: yes"
		}
		if r.IntN(3) == 0 {
			s += fmt.Sprintf(", length: %g, bore: %g", main*3, main*0.7)
		}
		return s + "}"
	}
	end := func() string {
		switch r.IntN(8) {
		case 0:
			return "square"
		case 1, 2:
			return "[" + meet() + ", " + meet() + "]"
		}
		return meet()
	}
	cut := [2]string{"ground", "square"}[r.IntN(2)]
	return fmt.Sprintf("tube: random\nunits: mm\nhand: pair\nquantity: 2\nsection: {outside: %g, wall: %g, material: S355}\ncut: %s\ncentres: 6000\nturn: %g deg\nfirst: %s\nsecond: %s\n"+
		"weld: {leg: 3}\nstations: 12\nloads: [{tension: 5 kN, case: a}, {compression: 5 kN, case: b}]\n", od, wall, cut, r.Float64()*720-360, end(), end())
}

// Whatever the tube, either it is told at its place what is wrong with it, or both
// hands are drawn whole: outlines read back, templates and figures.
func TestRandomTubes(t *testing.T) {
	o := everything
	o.acceptFailed = true
	made := 0
	const seeds = 80
	for seed := range uint64(seeds) {
		text := randomTube(rand.New(rand.NewPCG(seed, 7)))
		out := workText("t.yaml", []byte(text), o)
		if out.err != nil {
			var ps diag.Problems
			require.ErrorAs(t, out.err, &ps, text)
			require.Positive(t, ps[0].Pos.Line)
			continue
		}
		made++
		require.Len(t, out.products, 2)
		for _, p := range out.products {
			require.NotEmpty(t, p.files)
		}
		require.Len(t, out.products[1].files, len(out.products[0].files))
	}
	require.Greater(t, made, seeds*3/4)
}
