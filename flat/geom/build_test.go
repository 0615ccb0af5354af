package geom

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestSlot(t *testing.T) {
	s := Slot(Point{10, 5}, Point{40, 45}, 12)
	require.NoError(t, s.Validate())
	require.InEpsilon(t, 50*12+36*math.Pi, s.Area(), 1e-13)
	require.Equal(t, Circle{Point{40, 45}, 6}, s[1].Circle())
	require.Equal(t, Circle{Point{10, 5}, 6}, s[3].Circle())

	round := Slot(Point{10, 5}, Point{10, 5}, 12)
	c, ok := round.Circle()
	require.True(t, ok)
	require.Equal(t, Circle{Point{10, 5}, 6}, c)
	for _, w := range []float64{0, -1, math.NaN()} {
		require.Nil(t, Slot(Point{}, Point{1, 0}, w))
	}
}

func TestPolygon(t *testing.T) {
	l := Polygon(Point{0, 0}, Point{0, 10}, Point{10, 0})
	require.Equal(t, -50.0, l.Area(), "the order given is kept")
	require.NoError(t, l.Validate())
	require.Empty(t, Polygon())
}

// rectangle is the corners of a w by h plate.
func rectangle(w, h float64) []Corner {
	return []Corner{{P: Point{0, 0}}, {P: Point{w, 0}}, {P: Point{w, h}}, {P: Point{0, h}}}
}

func TestCorners(t *testing.T) {
	sharp, err := Corners(rectangle(60, 40))
	require.NoError(t, err)
	require.Equal(t, Polygon(Point{0, 0}, Point{60, 0}, Point{60, 40}, Point{0, 40}), sharp)

	c := rectangle(60, 40)
	c[1].Radius, c[2].Chamfer = 10, 5
	l, err := Corners(c)
	require.NoError(t, err)
	require.Equal(t, Circle{Point{50, 10}, 10}, l[1].Circle())
	require.Equal(t, Line(Point{60, 10}, Point{60, 35}), l[2])
	require.Equal(t, Line(Point{60, 35}, Point{55, 40}), l[3])
	require.InEpsilon(t, 2400-(1-math.Pi/4)*100-12.5, l.Area(), 1e-14)

	// the other order gives the same shape, counter-clockwise
	back := []Corner{c[3], c[2], c[1], c[0]}
	r, err := Corners(back)
	require.NoError(t, err)
	require.Equal(t, l.Area(), r.Area())
}

// An inside corner is rounded with material, by a clockwise arc.
func TestCornersConcave(t *testing.T) {
	l, err := Corners([]Corner{
		{P: Point{0, 0}}, {P: Point{40, 0}}, {P: Point{40, 20}}, {P: Point{20, 20}, Radius: 6}, {P: Point{20, 50}}, {P: Point{0, 50}},
	})
	require.NoError(t, err)
	var arc Seg
	for _, s := range l {
		if s.IsArc() {
			arc = s
		}
	}
	require.Negative(t, arc.Bulge)
	require.Equal(t, Circle{Point{26, 26}, 6}, arc.Circle())
	require.InEpsilon(t, 40*20+20*30+(1-math.Pi/4)*36, l.Area(), 1e-14)

	l, err = Corners([]Corner{
		{P: Point{0, 0}}, {P: Point{40, 0}}, {P: Point{40, 20}}, {P: Point{20, 20}, Chamfer: 6}, {P: Point{20, 50}}, {P: Point{0, 50}},
	})
	require.NoError(t, err)
	require.InEpsilon(t, 40*20+20*30+18, l.Area(), 1e-14)
}

// Where two cuts use up an edge exactly, nothing is left between them.
func TestCornersUseUpAnEdge(t *testing.T) {
	stadium := rectangle(100, 40)
	for i := range stadium {
		stadium[i].Radius = 20
	}
	l, err := Corners(stadium)
	require.NoError(t, err)
	require.Len(t, l, 4, "two half rounds and two lines: %v", l)
	require.InEpsilon(t, Slot(Point{20, 20}, Point{80, 20}, 40).Area(), l.Area(), 1e-14)

	disc := rectangle(40, 40)
	for i := range disc {
		disc[i].Radius = 20
	}
	l, err = Corners(disc)
	require.NoError(t, err)
	c, ok := l.Circle()
	require.True(t, ok)
	require.Equal(t, Circle{Point{20, 20}, 20}, c)
	require.Len(t, l, 2)

	diamond := rectangle(40, 40)
	for i := range diamond {
		diamond[i].Chamfer = 20
	}
	l, err = Corners(diamond)
	require.NoError(t, err)
	require.Len(t, l, 4)
	require.InEpsilon(t, 800, l.Area(), 1e-14)

	// a radius that just reaches a sharp corner, from either side
	for _, i := range []int{0, 1} {
		quarter := rectangle(40, 40)
		quarter[i].Radius = 40
		l, err = Corners(quarter)
		require.NoError(t, err)
		require.Len(t, l, 3)
	}

	// a third of a millimetre cannot be held exactly
	third := rectangle(100.0/3, 20.0/3)
	for i := range third {
		third[i].Radius = 10.0 / 3
		third[i].P = RotateAbout(Point{5, 5}, 0.3).Apply(third[i].P)
	}
	l, err = Corners(third)
	require.NoError(t, err)
	require.Len(t, l, 4)
}

func TestCornerErrors(t *testing.T) {
	change := func(i int, f func(*Corner)) []Corner {
		c := rectangle(60, 40)
		f(&c[i])
		return c
	}
	for _, c := range []struct {
		name    string
		corners []Corner
		index   int
		text    string
	}{
		{"too few", rectangle(1, 1)[:2], -1, "an outline needs 3 corners or more, got 2"},
		{"negative", change(1, func(c *Corner) { c.Radius = -1 }), 1, "corner 2: radius -1 and chamfer 0 must not be negative"},
		{"both", change(2, func(c *Corner) { c.Radius, c.Chamfer = 2, 3 }), 2, "corner 3: has a radius (2) and a chamfer (3); give one of them"},
		{"infinite", change(0, func(c *Corner) { c.P.X = math.Inf(1) }), 0, "corner 1: a coordinate, radius or chamfer is not a finite number"},
		{"twice", change(1, func(c *Corner) { c.P = Point{0, 0} }), 0, "corner 1: lies on its neighbour at (0, 0); leave one of them out"},
		{"straight radius", change(1, func(c *Corner) { c.P, c.Radius = Point{60, 20}, 2 }), -2, ""},
		{"straight on", []Corner{{P: Point{0, 0}}, {P: Point{30, 0}, Radius: 4}, {P: Point{60, 0}}, {P: Point{30, 30}}}, 1,
			"corner 2: radius 4 asked where the outline runs straight on at (30, 0); move the corner or drop the radius"},
		{"straight chamfer", []Corner{{P: Point{0, 0}}, {P: Point{30, 0}, Chamfer: 4}, {P: Point{60, 0}}, {P: Point{30, 30}}}, 1,
			"corner 2: chamfer 4 asked where the outline runs straight on at (30, 0); move the corner or drop the chamfer"},
		{"spike", []Corner{{P: Point{0, 0}}, {P: Point{30, 0}}, {P: Point{20, 0}}, {P: Point{10, 30}}}, 1,
			"corner 2: the outline turns straight back on itself at (30, 0)"},
	} {
		_, err := Corners(c.corners)
		if c.index == -2 {
			require.NoError(t, err, c.name) // not straight after all: a triangle with a corner moved
			continue
		}
		var ce *CornerError
		require.ErrorAs(t, err, &ce, c.name)
		require.Equal(t, c.index, ce.Index, c.name)
		require.EqualError(t, err, c.text, c.name)
		require.Zero(t, ce.Needed)
	}
}

func TestCornerDoesNotFit(t *testing.T) {
	c := rectangle(60, 40)
	c[1].Radius, c[2].Radius = 30, 15
	_, err := Corners(c)
	var ce *CornerError
	require.ErrorAs(t, err, &ce)
	require.Equal(t, CornerError{Index: 1, Reason: ce.Reason, Needed: 30, Available: 25}, *ce)
	require.EqualError(t, err, "corner 2: radius 30 takes 30 mm of the edge to corner 3, where 25 mm are free; make the radius 25 or less")

	// in the order given, also when that is clockwise
	_, err = Corners([]Corner{c[3], c[2], c[1], c[0]})
	require.ErrorAs(t, err, &ce)
	require.Equal(t, 2, ce.Index)

	c = rectangle(60, 40)
	c[0].Chamfer = 41
	_, err = Corners(c)
	require.EqualError(t, err, "corner 1: chamfer 41 takes 41 mm of the edge to corner 4, where 40 mm are free; make the chamfer 40 or less")

	// a sharp corner takes more edge than its radius
	_, err = Corners([]Corner{{P: Point{0, 0}, Radius: 10}, {P: Point{50, 0}}, {P: Point{50, 10}}})
	require.ErrorAs(t, err, &ce)
	require.InDelta(t, 10/math.Tan(math.Atan2(10, 50)/2), ce.Needed, 1e-9)
	require.InDelta(t, 50, ce.Available, 1e-9)

	// the size that the error offers does fit
	bad := []Corner{{P: Point{0, 0}, Radius: 10}, {P: Point{47.3, 0}}, {P: Point{50, 9.7}}}
	for range 2 {
		_, err := Corners(bad)
		if err == nil {
			return
		}
		require.ErrorAs(t, err, &ce)
		offered := strings.Fields(err.Error()[strings.Index(err.Error(), "make the radius "):])[3]
		bad[0].Radius, err = strconv.ParseFloat(offered, 64)
		require.NoError(t, err)
	}
	t.Errorf("the radius offered does not fit: %v", bad[0].Radius)
}

func TestCornersCrossing(t *testing.T) {
	_, err := Corners([]Corner{{P: Point{0, 0}}, {P: Point{60, 0}}, {P: Point{0, 40}}, {P: Point{60, 50}}})
	var ie *InvalidError
	require.ErrorAs(t, err, &ie)
	require.Equal(t, RuleSimple, ie.Rule)
}

// Whatever corners are asked for: the outline is valid and counter-clockwise,
// arcs have the radius asked and run tangent to their edges, and each cut
// changes the area by its closed form.
func TestCornersProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 9).Draw(t, "n")
		cs := make([]Corner, n)
		pts := make([]Point, n)
		for i := range cs {
			pts[i] = Point{}.Polar(rapid.Float64Range(20, 60).Draw(t, "r"), fullTurn*float64(i)/float64(n))
			cs[i].P = pts[i]
			switch rapid.IntRange(0, 2).Draw(t, "kind") {
			case 1:
				cs[i].Radius = rapid.Float64Range(0.5, 8).Draw(t, "radius")
			case 2:
				cs[i].Chamfer = rapid.Float64Range(0.5, 8).Draw(t, "chamfer")
			}
		}
		l, err := Corners(cs)
		var ce *CornerError
		if errors.As(err, &ce) {
			require.Greater(t, ce.Needed, ce.Available, "%v", ce)
			return
		}
		var ie *InvalidError
		if errors.As(err, &ie) {
			return // two cuts crossed beyond the corner between them
		}
		require.NoError(t, err)
		require.NoError(t, l.Validate())
		require.Positive(t, l.Area())
		want := Polygon(pts...).Area()
		for i, c := range cs {
			u, v := pts[(i+n-1)%n].Sub(c.P), pts[(i+1)%n].Sub(c.P)
			cross := v.Cross(u) / u.Len() / v.Len()
			if c.Chamfer > 0 {
				want -= c.Chamfer * c.Chamfer * cross / 2
			}
			if c.Radius > 0 {
				phi := math.Atan2(abs(cross), u.Dot(v)/u.Len()/v.Len())
				want -= math.Copysign(c.Radius*c.Radius*(1/math.Tan(phi/2)-(math.Pi-phi)/2), cross)
			}
		}
		require.InEpsilon(t, want, l.Area(), 1e-9)
		for i, s := range l {
			if !s.IsArc() {
				continue
			}
			for _, pair := range [][2]Point{{l[(i+len(l)-1)%len(l)].DirB(), s.DirA()}, {s.DirB(), l[(i+1)%len(l)].DirA()}} {
				require.InDelta(t, 0, pair[0].Cross(pair[1]), 1e-8)
				require.Positive(t, pair[0].Dot(pair[1]))
			}
		}
	})
}
