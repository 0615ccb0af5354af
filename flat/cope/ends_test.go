package cope

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// antiWrap is the anti-wrap link of the orchard cart "Medlar" at Brackenholt
// Farm: 38.1 x 4.78 tube, 640 from pin to pin, sleeves 44.45 by 60, the rear one
// turned by 15 degrees.
func antiWrap() Piece {
	sleeve := Main{Name: "sleeve", OD: 44.45, Angle: deg(90), Length: 60}
	return Piece{
		Tube: Tube{38.1, 4.78}, Centres: 640, Turn: deg(15),
		First: []Cutter{sleeve}, Second: []Cutter{sleeve},
	}
}

func TestAntiWrapLink(t *testing.T) {
	c, err := antiWrap().Solve()
	require.NoError(t, err)
	require.InDelta(t, 617.1, c.Blank(OD), 0.05)
	require.InDelta(t, 605.9, c.Blank(ID), 0.05)
	require.InDelta(t, 605.9, c.Blank(DropOn), 0.05)
	require.InDelta(t, 595.55, c.Throats(OD), 1e-9)
	require.InDelta(t, 4.99, c.Clocking(), 0.005)
	require.InDelta(t, 11.45, c.Deduction(0, OD).Ear, 0.005)
	require.InDelta(t, 44.45/2, c.Deduction(1, OD).Throat, 1e-12)
	require.Empty(t, c.Ends[0].Overruns())

	for _, w := range []struct{ wall, ear float64 }{{0.120 * 25.4, 15.42}, {0.188 * 25.4, 17.03}} {
		end := must(t, Tube{38.1, w.wall}, Main{OD: 44.45, Angle: deg(90)})
		require.InDelta(t, w.ear, end.Curve(ID).Ear().S, 0.006)
		require.InDelta(t, w.ear, end.Curve(DropOn).Ear().S, 0.006, "a square cut has to go on to the inside's ear")
	}

	v, err := c.Volume()
	require.NoError(t, err)
	section := math.Pi / 4 * (38.1*38.1 - 28.54*28.54)
	require.Greater(t, v, section*c.Throats(OD))
	require.Less(t, v, section*c.Blank(OD))
}

// A piece put in space: the places of the second end, told by the second end's
// own count and by the first's, are the same places, and lie on the second main.
func TestBothEndsInSpace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		a, b := drawMain(t, tube, "first"), drawMain(t, tube, "second")
		p := Piece{Tube: tube, First: []Cutter{a}, Second: []Cutter{b},
			Centres: 8000, Turn: deg(anyTurn.Draw(t, "turn"))}
		c, err := p.Solve()
		require.NoError(t, err)

		first, ok := EndFrame(Vec{1, 2, 3}, Vec{1, 1, 0}, Vec{0, 0, 1})
		require.True(t, ok)
		into := first.Z.Mul(-1)
		other := first.O.Add(into.Mul(p.Centres))
		sin, cos := math.Sincos(p.Turn)
		second, ok := EndFrame(other, into.Mul(-1), first.X.Mul(cos).Add(first.Y.Mul(sin)))
		require.True(t, ok)

		foot, dir := b.Axis()
		q := rapid.Float64Range(0, fullTurn).Draw(t, "q")
		q2 := c.SecondQ(q)
		onSecond := second.To(Point(q2, tube.Outer(), c.Ends[1].Curve(OD).At(q2)))
		require.InDelta(t, b.OD/2, axisDistance(second.From(onSecond), foot, dir), 1e-6)
		fromFirst := first.To(Point(q, tube.Outer(), p.Centres-c.Ends[1].Curve(OD).At(q2)))
		require.InDelta(t, 0, onSecond.Sub(fromFirst).Len(), 1e-8, "one generator, two names")
		onFirst := first.To(Point(q, tube.Outer(), c.Ends[0].Curve(OD).At(q)))
		require.InDelta(t, onFirst.Sub(onSecond).Len(), c.Wall(OD, q), 1e-8)
	})
}

// The other hand is the mirror image: the same line the other way round, the
// turn reversed, nothing longer or shorter.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		p := Piece{Tube: tube, Centres: 8000, Turn: deg(anyTurn.Draw(t, "turn")),
			First:  []Cutter{drawMain(t, tube, "a"), Plate{Angle: deg(60), Turn: deg(20), Station: -30}},
			Second: []Cutter{drawMain(t, tube, "b")}}
		c, err := p.Solve()
		require.NoError(t, err)
		m, err := p.Mirror().Solve()
		require.NoError(t, err)
		q := rapid.Float64Range(0, fullTurn).Draw(t, "q")
		for k := OD; k <= DropOn; k++ {
			for i := range 2 {
				require.InDelta(t, c.Ends[i].Curve(k).At(q), m.Ends[i].Curve(k).At(-q), 2e-5)
			}
			require.InDelta(t, c.Blank(k), m.Blank(k), 2e-5)
			require.InDelta(t, c.Wall(k, q), m.Wall(k, -q), 4e-5)
		}
		require.Equal(t, -c.Clocking(), m.Clocking())
		back := p.Mirror().Mirror()
		require.Equal(t, p, back)
	})
}

func TestClockingSign(t *testing.T) {
	// Looking at the first end from its joint, the second end's datum stands 15
	// degrees counter-clockwise of the first's: on the strip, seen from outside
	// with the first end up, x grows counter-clockwise, so its line lies to the
	// right by 15/360 of the width.
	c, err := antiWrap().Solve()
	require.NoError(t, err)
	s, err := c.Strip(0.1, deg(270))
	require.NoError(t, err)
	x := func(ms []Mark, name string) float64 {
		for _, m := range ms {
			if m.Name == name {
				return m.X
			}
		}
		return math.NaN()
	}
	require.InDelta(t, s.Width*15/360, x(s.Second, "top")-x(s.First, "top"), 1e-9)
	require.Less(t, x(s.Second, "90"), x(s.Second, "top"), "the second end counts the other way")
}

func TestStrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		p := Piece{Tube: tube, Centres: 6000, Turn: deg(anyTurn.Draw(t, "turn")),
			First: []Cutter{drawMain(t, tube, "a")}, Second: []Cutter{drawMain(t, tube, "b")}}
		c, err := p.Solve()
		require.NoError(t, err)
		s, err := c.Strip(0.1, deg(anyTurn.Draw(t, "seam")))
		require.NoError(t, err)
		k := Kind(rapid.IntRange(0, 2).Draw(t, "kind"))
		first, second := s.Arcs(k)
		for i, f := range []Fit{first, second} {
			require.LessOrEqual(t, f.Worst, 0.02)
			a, b := f.Segs[0].A, f.Segs[len(f.Segs)-1].B
			require.Equal(t, 0.0, a.X)
			require.Equal(t, s.Width, b.X)
			require.Equal(t, a.Y, b.Y)
			for j, seg := range f.Segs {
				if j > 0 {
					require.Equal(t, f.Segs[j-1].B, seg.A)
				}
				q := s.Seam + seg.A.X/s.Width*fullTurn // of the first end
				want := p.Centres - c.Ends[0].Curve(k).At(q)
				u := c.Ends[0].Curve(k)
				if i == 1 {
					want, u = c.Ends[1].Curve(k).At(p.Turn-q), c.Ends[1].Curve(k)
				}
				q2 := q
				if i == 1 {
					q2 = p.Turn - q
				}
				steep := math.Hypot(1, u.Slope(q2)*fullTurn/s.Width)
				require.InDelta(t, want, seg.A.Y, 0.02*steep+0.01, "no farther from the line than a fit may be")
			}
		}
		l, err := s.Outline(k)
		require.NoError(t, err)
		require.Greater(t, l.Area(), 0.0)
		mean := p.Centres - c.Ends[0].Curve(k).Mean() - c.Ends[1].Curve(k).Mean()
		require.InDelta(t, s.Width*mean, l.Area(), 0.02*l.Perimeter())
	})
}

func TestTemplatesOfOnePiece(t *testing.T) {
	c, err := antiWrap().Solve()
	require.NoError(t, err)
	a, err := c.Ends[0].Template(PlainPaper(), 0)
	require.NoError(t, err)
	b, err := c.Ends[1].Template(PlainPaper(), 0)
	require.NoError(t, err)
	require.InDelta(t, 640-2*(22.225+25), c.EdgeGap(a, b), 1e-9)
	require.Equal(t, math.Pi, c.BestSeam(), "15 degrees off a throat is still flat")
}

func TestPieceErrors(t *testing.T) {
	p := antiWrap()
	p.Centres = 0
	_, err := p.Solve()
	require.ErrorContains(t, err, "length between centres is 0 mm")
	p.Centres = 44
	_, err = p.Solve()
	require.ErrorContains(t, err, "run into each other")
	p.Centres = 44.6
	_, err = p.Solve()
	require.NoError(t, err)
	p.Second = nil
	_, err = p.Solve()
	require.ErrorContains(t, err, "second end: tube end meets nothing")
	// Throats on opposite sides pass each other: the generators decide.
	slant := Piece{Tube: Tube{38.1, 3}, Centres: 60, Turn: math.Pi,
		First:  []Cutter{Plate{Angle: deg(30)}},
		Second: []Cutter{Plate{Angle: deg(30)}}}
	c, err := slant.Solve()
	require.NoError(t, err, "parallel faces leave 60 everywhere")
	require.Less(t, c.Throats(OD), 0.0)
	require.InDelta(t, 60, c.Wall(OD, 1), 1e-9)
	slant.Turn = 0
	_, err = slant.Solve()
	require.ErrorContains(t, err, "run into each other")

	ok, err := antiWrap().Solve()
	require.NoError(t, err)
	_, err = ok.Strip(-1, 0)
	require.ErrorContains(t, err, "thickness -1 mm")
}

// A line at any radius of the wall is the outside line at the outside, the inside
// line at the inside, and lies on the main in between.
func TestAtRadius(t *testing.T) {
	m := Main{OD: 50, Angle: deg(40), Offset: 4, Turn: deg(25)}
	c := must(t, Tube{38.1, 4}, m)
	foot, dir := m.Axis()
	for i := range 36 {
		q := deg(10 * float64(i))
		require.Equal(t, c.Curve(OD).At(q), c.AtRadius(q, c.Tube.Outer()))
		require.Equal(t, c.Curve(ID).At(q), c.AtRadius(q, c.Tube.Inner()))
		require.InDelta(t, 25, axisDistance(Point(q, 17, c.AtRadius(q, 17)), foot, dir), 1e-9)
	}
}
