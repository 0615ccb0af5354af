package cope

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A branch that reaches past its main: where it meets the main its line lies on
// it, elsewhere on the plane through the main's axis and the common
// perpendicular, and the line has no step.
func TestPartialSaddle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		m := drawPartial(t, tube)
		c := must(t, tube, m)
		foot, dir := m.Axis()
		across := Vec{-math.Sin(m.Turn), math.Cos(m.Turn), 0} // the common perpendicular
		plane := dir.Cross(across)
		for k := OD; k <= ID; k++ {
			u := c.Curve(k)
			for range 20 {
				q := rapid.Float64Range(0, fullTurn).Draw(t, "q")
				p := Point(q, u.Radius(), u.At(q))
				d := p.Sub(foot)
				if math.Abs(d.Dot(across)) <= m.OD/2 {
					require.InDelta(t, m.OD/2, axisDistance(p, foot, dir), 1e-6)
				} else {
					require.InDelta(t, 0, d.Dot(plane), 1e-6)
				}
			}
			checkLine(t, u)
		}
		checkLine(t, c.Curve(DropOn))
	})
}

// A plate's line lies on the plate.
func TestPlate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Plate{Angle: deg(rapid.Float64Range(5, 90).Draw(t, "angle")), Turn: deg(anyTurn.Draw(t, "turn")), Station: 3}
		c := must(t, drawTube(t), p)
		q := rapid.Float64Range(0, fullTurn).Draw(t, "q")
		for k := OD; k <= ID; k++ {
			u := c.Curve(k)
			require.InDelta(t, 0, planeGap(Point(q, u.Radius(), u.At(q)), p), 1e-9)
		}
		require.InDelta(t, max(c.Curve(OD).At(q), c.Curve(ID).At(q)), c.Curve(DropOn).At(q), 1e-9)
		if p.Angle < deg(89) {
			require.InDelta(t, 0, math.Remainder(p.Turn-c.Curve(OD).Ear().Q, fullTurn), 1e-6)
		}
	})
}

// What a wide branch needs besides: another cut for the walls that pass beside.
func TestWallsBesideTheMain(t *testing.T) {
	tube := Tube{38.1, 3}
	small := Main{Name: "rod", OD: 25.4, Angle: deg(90)}
	_, err := New(tube, small)
	require.EqualError(t, err, "tube of 38.1 mm reaches past the side of rod (25.4 mm, offset 0 mm): on its outside line nothing cuts it from about 41.8 to 90 degrees; "+
		"let its free walls be trimmed, take a wider main, or cut them by a plate")
	_, err = New(tube, small, Plate{Angle: deg(90), Station: -5})
	require.ErrorContains(t, err, "outside line steps by 5 mm at 41.8 degrees: the tube reaches past the side of rod there")
	c, err := New(tube, small, Plate{Angle: deg(90), Station: 0})
	require.NoError(t, err, "the plate through the axis meets the saddle's ends")
	partial := must(t, tube, Main{OD: 25.4, Angle: deg(90), Partial: true})
	for i := range 360 {
		q := float64(i) * degree
		require.InDelta(t, partial.Curve(OD).At(q), c.Curve(OD).At(q), 1e-7)
	}
	_, err = New(tube, small, Plate{Angle: deg(90), Station: 5})
	require.NoError(t, err, "a plate further in covers them")
}

func TestErrors(t *testing.T) {
	tube := Tube{38.1, 3}
	cases := []struct {
		name string
		tube Tube
		cut  Cutter
		want string
	}{
		{"no diameter", Tube{0, 3}, Main{OD: 50, Angle: deg(90)}, "tube has outside diameter 0 mm, wanted more than 0"},
		{"no wall", Tube{38.1, 0}, Main{OD: 50, Angle: deg(90)}, "tube has wall 0 mm, wanted more than 0"},
		{"wall too thick", Tube{38.1, 20}, Main{OD: 50, Angle: deg(90)}, "wanted at most half the diameter"},
		{"not a number", Tube{math.NaN(), 2}, Main{OD: 50, Angle: deg(90)}, "tube has outside diameter NaN mm"},
		{"too slanting", tube, Main{OD: 50, Angle: deg(4.9)}, "the main lies at 4.9 degrees to the tube, wanted 5 to 90; measure the smaller angle between the axes"},
		{"obtuse", tube, Main{OD: 50, Angle: deg(100)}, "lies at 100 degrees"},
		{"main without diameter", tube, Main{Name: "sleeve", Angle: deg(90)}, "sleeve has outside diameter 0 mm"},
		{"negative length", tube, Main{OD: 50, Angle: deg(90), Length: -1}, "has length -1 mm"},
		{"missed", tube, Main{OD: 50, Angle: deg(90), Offset: -44.05}, "tube of 38.1 mm passes beside the main: the offset is 44.05 mm and the radii make only 44.05"},
		{"infinite", tube, Main{OD: 50, Angle: deg(90), Station: math.Inf(1)}, "no finite number"},
		{"plate too slanting", tube, Plate{Angle: deg(2)}, "the plate lies at 2 degrees"},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			_, err := New(tc.tube, tc.cut)
			require.ErrorContains(t, err, tc.want)
		})
	}
	_, err := New(tube)
	require.ErrorContains(t, err, "meets nothing")
	_, err = New(tube, Main{OD: 60, Angle: deg(90)}, Main{OD: 60, Angle: deg(1)})
	require.ErrorContains(t, err, "main 2 lies at 1 degrees")
	for _, a := range []float64{5, 90} {
		_, err = New(tube, Main{OD: 50, Angle: deg(a)})
		require.NoError(t, err, "the limits themselves are fine")
	}
}

// The same cut given twice changes nothing.
func TestSameCutTwice(t *testing.T) {
	m := Main{OD: 50, Angle: deg(60), Offset: 3}
	a, b := must(t, Tube{38.1, 3}, m), must(t, Tube{38.1, 3}, m, m)
	require.Equal(t, a.Curve(OD).Ear(), b.Curve(OD).Ear())
	require.Len(t, b.cuts, 1)
}

// A solid bar has an inside of no radius.
func TestSolidBar(t *testing.T) {
	c := must(t, Tube{20, 10}, Main{OD: 30, Angle: deg(50), Offset: 2})
	require.Zero(t, c.ri)
	require.InDelta(t, c.Curve(ID).At(0), c.Curve(ID).At(2), 1e-9)
	require.GreaterOrEqual(t, c.Curve(DropOn).At(1), c.Curve(OD).At(1))
}

// No zero round the tube is missed: against sign changes looked at densely, and
// roots known by construction.
func TestZeros(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 4).Draw(t, "zeros over two")
		f := constant(1)
		var want []float64
		for range n { // cos(q-a) - cos b is zero at a±b
			a, b := rapid.Float64Range(0, fullTurn).Draw(t, "a"), rapid.Float64Range(0, math.Pi).Draw(t, "b")
			f = f.by(wave(1, 0, a).minus(constant(math.Cos(b))))
			want = append(want, turned(a+b), turned(a-b))
		}
		got := f.appendZeros(nil, 1)
		for _, w := range want {
			near := math.Inf(1)
			for _, g := range got {
				near = min(near, math.Abs(math.Remainder(g-w, fullTurn)))
			}
			require.Less(t, near, 0.01, "zero at %v is missing from %v", w, got)
			v, _ := f.at(w)
			require.InDelta(t, 0, v, 1e-12)
		}
	})
}
