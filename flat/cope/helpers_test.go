package cope

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func deg(v float64) float64 { return v * degree }

// must works out an end that has to work.
func must(t require.TestingT, tube Tube, cutters ...Cutter) *Cope {
	c, err := New(tube, cutters...)
	require.NoError(t, err)
	return c
}

// axisDistance is the distance of p from the line through foot along dir.
func axisDistance(p, foot, dir Vec) float64 { return p.Sub(foot).Cross(dir).Len() / dir.Len() }

// planeGap is how far p lies from a plate's face, positive on the tube's side,
// from three points of the face.
func planeGap(p Vec, plate Plate) float64 {
	at := func(q, r float64) Vec {
		return Point(q, r, plate.Station-r*math.Cos(q-plate.Turn)/math.Tan(plate.Angle))
	}
	a, b, c := at(0, 10), at(2, 10), at(4, 10)
	n := b.Sub(a).Cross(c.Sub(a)).Unit()
	if n.Z > 0 { // z points out of the tube
		n = n.Mul(-1)
	}
	return p.Sub(a).Dot(n)
}

// bisected is s on a generator by a second way: the place where the distance
// from the main's axis is its radius, halved from outside in, in space.
func bisected(m Main, q, r float64) float64 {
	foot, dir := m.Axis()
	out := 1e4 // surely outside
	in := lowestOnLine(m, q, r)
	for range 200 {
		s := (in + out) / 2
		if axisDistance(Point(q, r, s), foot, dir) < m.OD/2 {
			in = s
		} else {
			out = s
		}
	}
	return (in + out) / 2
}

// lowestOnLine is the s at which the generator is nearest to the main's axis, by
// ternary search.
func lowestOnLine(m Main, q, r float64) float64 {
	foot, dir := m.Axis()
	a, b := -1e4, 1e4
	for range 300 {
		x, y := a+(b-a)/3, b-(b-a)/3
		if axisDistance(Point(q, r, x), foot, dir) < axisDistance(Point(q, r, y), foot, dir) {
			b = y
		} else {
			a = x
		}
	}
	return (a + b) / 2
}

var anyTurn = rapid.OneOf(rapid.SampledFrom([]float64{0, 90, 180, 270, 45}), rapid.Float64Range(-360, 360))

func drawTube(t *rapid.T) Tube {
	od := rapid.OneOf(rapid.SampledFrom([]float64{38.1, 50.8, 25.4}), rapid.Float64Range(6, 120)).Draw(t, "od")
	wall := od * rapid.OneOf(rapid.SampledFrom([]float64{0.1, 0.25}), rapid.Float64Range(0.02, 0.49)).Draw(t, "wall over od")
	return Tube{od, wall}
}

// drawMain draws a main that a tube fits on entirely.
func drawMain(t *rapid.T, tube Tube, label string) Main {
	m := Main{
		Angle:   deg(rapid.OneOf(rapid.SampledFrom([]float64{5, 10, 30, 45, 60, 90}), rapid.Float64Range(5, 90)).Draw(t, label+" angle")),
		Turn:    deg(anyTurn.Draw(t, label+" turn")),
		Station: rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(-20, 20)).Draw(t, label+" station"),
	}
	m.OD = tube.OD * rapid.OneOf(rapid.SampledFrom([]float64{1, 7.0 / 6, 2}), rapid.Float64Range(1, 4)).Draw(t, label+" ratio")
	room := (m.OD - tube.OD) / 2
	m.Offset = room * rapid.OneOf(rapid.SampledFrom([]float64{0, 1, -1}), rapid.Float64Range(-1, 1)).Draw(t, label+" offset")
	return m
}

func eachKind(t *testing.T, f func(t *testing.T, k Kind)) {
	for k := OD; k <= DropOn; k++ {
		t.Run(k.String(), func(t *testing.T) { f(t, k) })
	}
}
