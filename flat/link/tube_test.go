package link

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/cope"
)

// The tube put back in space lies on both sleeves, whatever their directions.
func TestTubeBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.OneOf(rapid.SampledFrom([]float64{0, 0, 1}), rapid.Float64Range(-1, 1))
		vec := func(label string) Vec { return v3(c.Draw(t, label+" x"), c.Draw(t, label+" y"), c.Draw(t, label+" z")) }
		from, to := vec("from").Mul(500), vec("to").Mul(500).Add(v3(2000, 0, 0))
		tube := cope.Tube{OD: 38.1, Wall: 4.78}
		a := Sleeve{Name: "front", OD: 44.45, Length: 60, Axis: vec("first axis")}
		b := Sleeve{Name: "rear", OD: 60.3, Length: 60, Axis: vec("second axis")}
		p, err := TubeBetween(tube, from, to, a, b)
		if err != nil {
			require.Regexp(t, "^(first|second) end: (front|rear): ax", err.Error())
			return
		}
		require.InDelta(t, to.Sub(from).Len(), p.Centres, 1e-9)
		cut, err := p.Solve()
		if err != nil {
			require.ErrorContains(t, err, "run into each other")
			return
		}
		d := to.Sub(from).Unit()
		// The first end's frame: its datum is the heel, the side that the sleeve's
		// axis leans away from.
		heel := a.Axis.Unit()
		heel = heel.Sub(d.Mul(heel.Dot(d)))
		if a.Axis.Dot(d) > 0 {
			heel = heel.Mul(-1)
		}
		first, ok := cope.EndFrame(from, d, heel)
		require.True(t, ok)
		q := rapid.Float64Range(0, 6.28).Draw(t, "q")
		check := func(world Vec, pivot Vec, s Sleeve) {
			off := world.Sub(pivot).Cross(s.Axis.Unit()).Len()
			require.InDelta(t, s.OD/2, off, 1e-6)
		}
		r := tube.Outer()
		if m := p.First[0].(cope.Main); m.Angle < math.Pi/2-1e-6 {
			check(first.To(cope.Point(q, r, cut.Ends[0].Curve(cope.OD).At(q))), from, a)
			check(first.To(cope.Point(q, r, p.Centres-cut.Ends[1].Curve(cope.OD).At(cut.SecondQ(q)))), to, b)
		}
	})
}

// Two square sleeves turned 15 degrees from each other give the turn asked for,
// with its sign.
func TestTurnBetweenSquareSleeves(t *testing.T) {
	tube := cope.Tube{OD: 38.1, Wall: 4.78}
	across := Sleeve{OD: 44.45, Length: 60, Axis: v3(0, 1, 0)}
	for _, turn := range []float64{15, -15, 60, 0, -80} {
		// Looking at the first end from its joint, that is along +x: y is on the
		// left, z up, and counter-clockwise runs from y down to -z.
		sin, cos := math.Sincos(deg(turn))
		for _, sign := range []float64{1, -1} {
			turned := Sleeve{OD: 44.45, Length: 60, Axis: v3(0, cos, -sin).Mul(sign)}
			p, err := TubeBetween(tube, Vec{}, v3(640, 0, 0), across, turned)
			require.NoError(t, err)
			require.InDelta(t, turn, p.Turn/deg(1), 1e-9)
			c, err := p.Solve()
			require.NoError(t, err)
			require.InDelta(t, 617.1, c.Blank(cope.OD), 0.05)
			require.InDelta(t, turn/360*math.Pi*38.1, c.Clocking(), 1e-9)
		}
	}
}

func TestTubeBetweenErrors(t *testing.T) {
	tube := cope.Tube{OD: 38.1, Wall: 4.78}
	s := Sleeve{OD: 44.45, Axis: v3(0, 1, 0)}
	_, err := TubeBetween(tube, Vec{}, Vec{}, s, s)
	require.ErrorContains(t, err, "one place")
	_, err = TubeBetween(tube, Vec{}, v3(0, 300, 0), s, s)
	require.EqualError(t, err, "first end: the sleeve: axes of tube and main lie at 0 degrees, wanted 5 to 90")
	_, err = TubeBetween(tube, Vec{}, v3(300, 0, 0), s, Sleeve{Name: "rear", OD: 40})
	require.EqualError(t, err, "second end: rear: axis of the main has no direction; give two different points on it")
}
