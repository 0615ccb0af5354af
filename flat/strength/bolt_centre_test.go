package strength

import (
	"math"
	"testing"

	"blankwright/flat/geom"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Two bolts above one another, the load square to their line: both hold CurveEnd,
// and the balance of forces and moments has a closed form. With half pitch b and
// eccentricity e the centre lies at x = b^2/e and C = 2 CurveEnd x/sqrt(x^2 + b^2).
func TestTwoBoltsInClosedForm(t *testing.T) {
	const b, e = 40.0, 90.0
	c, err := InstantCentre(line(2, 2*b), PlaneLoad{F: pt(0, -1), At: pt(e, 0)}, nil)
	require.NoError(t, err)
	x := b * b / e
	require.InEpsilon(t, 2*CurveEnd*x/math.Hypot(x, b), c.C, 1e-9)
	require.InDelta(t, -x, c.At.X, 1e-6)
	require.InDelta(t, 0, c.At.Y, 1e-6)
	require.False(t, c.Shift)
	require.InEpsilon(t, 1/c.C, c.Needed, 1e-12)
}

// Through the centroid the group shifts without turning and every bolt holds the same.
func TestCentreOfConcentricLoad(t *testing.T) {
	require.InDelta(t, math.Pow(1-math.Exp(-10*0.34), 0.55), CurveEnd, 1e-15)
	bolts := grid(3, 4, 70, 80)
	for _, a := range []float64{0, 0.3, math.Pi / 2, 2} {
		c, err := InstantCentre(bolts, PlaneLoad{F: pt(0, 0).Polar(5000, a), At: pt(0, 0).Polar(300, a)}, nil)
		require.NoError(t, err)
		require.InEpsilon(t, 12*CurveEnd, c.C, 1e-9)
		require.True(t, c.Shift)
	}
	// And C falls towards it as the load comes in from far.
	last := 0.0
	for _, e := range []float64{1000, 300, 100, 30, 10, 3, 1, 0.1} {
		c, err := InstantCentre(bolts, PlaneLoad{F: pt(0, -1), At: pt(e, 0)}, nil)
		require.NoError(t, err)
		require.Greater(t, c.C, last)
		last = c.C
	}
	require.InEpsilon(t, 12*CurveEnd, last, 1e-4)
}

// Under a couple a symmetrical group turns about its centroid: C' is the sum of
// radius times what each bolt holds. The bolt on the centre holds nothing.
func TestCentreOfCouple(t *testing.T) {
	for _, bolts := range [][]geom.Point{grid(3, 3, 70, 80), grid(2, 4, 76.2, 76.2), line(5, 60)} {
		far, want := 0.0, 0.0
		for _, p := range bolts {
			far = max(far, p.Len())
		}
		for _, p := range bolts {
			r, _, _ := hold(p.Len() / far)
			want += r * p.Len()
		}
		for _, m := range []float64{1e6, -1e6} {
			c, err := InstantCentre(bolts, PlaneLoad{M: m}, nil)
			require.NoError(t, err)
			require.InEpsilon(t, math.Copysign(want, m), c.CMoment, 1e-9)
			require.Zero(t, c.C)
			require.InEpsilon(t, math.Abs(m)/want, c.Needed, 1e-9)
			require.InDelta(t, 0, c.At.Len(), 1e-6)
		}
	}
}

// A far load is as good as a couple: C e comes to C'.
func TestFarLoadIsACouple(t *testing.T) {
	bolts := grid(2, 4, 76.2, 76.2)
	couple, err := InstantCentre(bolts, PlaneLoad{M: 1}, nil)
	require.NoError(t, err)
	c, err := InstantCentre(bolts, PlaneLoad{F: pt(0, 1), At: pt(1e6, 0)}, nil)
	require.NoError(t, err)
	require.InEpsilon(t, couple.CMoment, c.CMoment, 1e-3)
	require.InEpsilon(t, c.C*1e6, c.CMoment, 1e-9)
}

// Forces balance the load to 1e-9, each is square to its radius about the centre,
// and each is what the curve gives for its radius.
func TestCentreBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bolts := drawGroup(t)
		load := drawLoad(t, bolts)
		c, err := InstantCentre(bolts, load, nil)
		require.NoError(t, err)
		centroid, _ := polar(bolts)
		balanced(t, bolts, c.Forces, load, centroid)
		require.Less(t, c.Steps, 200)
		if c.Shift || c.At.Dist(centroid) > 1e5 {
			return
		}
		far := 0.0
		for _, p := range bolts {
			far = max(far, p.Dist(c.At))
		}
		for i, p := range bolts {
			r := p.Sub(c.At)
			close9(t, 0, c.Forces[i].Dot(r), 100*c.Needed*far, "square to the radius")
			if d := r.Len() / far; d > 1e-3 {
				want, _, _ := hold(d)
				require.InEpsilon(t, want*c.Needed, c.Forces[i].Len(), 1e-6)
			}
		}
		require.InDelta(t, far, bolts[c.MostAt].Dist(c.At), 1e-6*far)
	})
}

// Turning, mirroring and scaling change nothing.
func TestCentreTurnsAndScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bolts := drawGroup(t)
		load := drawLoad(t, bolts)
		a, err := InstantCentre(bolts, load, nil)
		require.NoError(t, err)
		b, err := InstantCentre(first(movedGroup(drawMotion(t), bolts, load)))
		require.NoError(t, err)
		close9(t, 1, b.Needed/a.Needed, 1, "strength needed")
		k := rapid.Float64Range(0.01, 100).Draw(t, "length")
		q := rapid.Float64Range(0.01, 100).Draw(t, "force")
		scaled := make([]geom.Point, len(bolts))
		for i, p := range bolts {
			scaled[i] = p.Mul(k)
		}
		c, err := InstantCentre(scaled, PlaneLoad{F: load.F.Mul(q), At: load.At.Mul(k), M: load.M * k * q}, nil)
		require.NoError(t, err)
		close9(t, q, c.Needed/a.Needed, 10*q, "strength needed at scale")
		close9(t, a.C, c.C, 10*float64(len(bolts)), "C at scale")
	})
}

func first(bolts []geom.Point, load PlaneLoad) ([]geom.Point, PlaneLoad, []geom.Point) {
	return bolts, load, nil
}

// No motion of the plate can be worked with more than all bolts at their end: for
// any centre that one likes to take, the load times its arm is at most the sum of
// CurveEnd times the radii (upper bound of plastic design).
func TestCentreKeepsTheUpperBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bolts := drawGroup(t)
		load := drawLoad(t, bolts)
		c, err := InstantCentre(bolts, load, nil)
		require.NoError(t, err)
		at := c.At
		if c.Shift || rapid.Bool().Draw(t, "elsewhere") {
			at = pt(rapid.Float64Range(-500, 500).Draw(t, "cx"), rapid.Float64Range(-500, 500).Draw(t, "cy"))
		}
		sum := 0.0
		for _, p := range bolts {
			sum += p.Dist(at)
		}
		require.LessOrEqual(t, math.Abs(load.About(at))/c.Needed, sum*CurveEnd*(1+1e-9))
	})
}

// The curve itself, and its slopes against differences.
func TestCurve(t *testing.T) {
	r, _, _ := hold(1)
	require.InDelta(t, CurveEnd, r, 1e-15)
	for _, d := range []float64{1e-5, 0.01, 0.3, 0.9} {
		r, secant, tangent := hold(d)
		require.InEpsilon(t, math.Pow(1-math.Exp(-3.4*d), 0.55), r, 1e-9)
		require.InEpsilon(t, r/d, secant, 1e-12)
		h := d * 1e-5
		up, _, _ := hold(d + h)
		down, _, _ := hold(d - h)
		require.InEpsilon(t, (up-down)/(2*h), tangent, 1e-6)
	}
	r, _, _ = hold(0)
	require.Zero(t, r)
}
