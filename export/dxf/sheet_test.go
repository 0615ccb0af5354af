package dxf

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

func TestDegrees(t *testing.T) {
	for _, r := range []struct {
		v    geom.Point
		want string
	}{
		{geom.Point{X: 1}, "0.0"},
		{geom.Point{X: 1, Y: math.Copysign(0, -1)}, "0.0"},
		{geom.Point{X: 1, Y: -1e-18}, "0.0"},
		{geom.Point{X: 1, Y: -5e-16}, "0.0"},
		{geom.Point{X: 1, Y: -1e-14}, "359.9999999999994"},
		{geom.Point{Y: 3}, "90.0"},
		{geom.Point{X: -2}, "180.0"},
		{geom.Point{X: -2, Y: math.Copysign(0, -1)}, "180.0"},
		{geom.Point{Y: -4}, "270.0"},
		{geom.Point{X: 1, Y: -1}, "315.0"},
	} {
		assert.Equal(t, r.want, string(appendNumber(nil, degrees(r.v), placesAngle)), "%v", r.v)
	}
}

// TestCircleOf: the carried circle is used to the last bit where it meets the
// ends; where it misses them by what the kernel still takes for the same point,
// the arc goes through its ends instead.
func TestCircleOf(t *testing.T) {
	a, b := geom.Point{X: 10}, geom.Point{Y: 10}
	good := geom.Circle{R: 10}
	assert.Equal(t, good, circleOf(geom.Arc(good, a, b, true)))
	near := geom.Circle{R: 10 + num.Coincident*0.9}
	seg := geom.Arc(near, a, b, true)
	assert.NoError(t, checkSeg(&seg))
	c := circleOf(seg)
	assert.NotEqual(t, near, c)
	assert.InDelta(t, c.R, c.C.Dist(a), 1e-14)
	assert.InDelta(t, c.R, c.C.Dist(b), 1e-14)
	bare := geom.Seg{A: a, B: b, Bulge: math.Sqrt2 - 1}
	assert.InDelta(t, 10, circleOf(bare).R, 1e-12)
}

func TestStartAngle(t *testing.T) {
	for a, want := range map[float64]string{
		0: "0", math.Pi: "180", 2*math.Pi - 1e-9: "0", 2*math.Pi - 0.01: "359.4", math.Pi / 3: "60",
	} {
		assert.Equal(t, want, startAngle(a), "%v", a)
	}
}
