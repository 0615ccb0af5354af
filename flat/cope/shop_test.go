package cope

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestHoleSaw(t *testing.T) {
	c := must(t, Tube{38.1, 4.78}, Main{Name: "sleeve", OD: 44.45, Angle: deg(60), Offset: 2, Turn: deg(30)})
	s := c.HoleSaw(Saws{})[0]
	require.True(t, s.OK(), "%v", s.Refused)
	require.Equal(t, "sleeve", s.Main)
	require.Equal(t, 44.45, s.Diameter)
	require.Equal(t, -2.0, s.Offset) // the tube 2 mm towards Turn + 90 degrees, so the arbor on the other side
	require.InDelta(t, deg(60), s.Angle, 1e-12)
	require.InDelta(t, c.Curve(OD).Ear().S, s.Centre, 1e-12)
	require.Empty(t, s.Reminders)

	s = c.HoleSaw(Saws{Diameters: []float64{38, 44.4, 46, 45}, Cup: 40, LeastAngle: deg(30)})[0]
	require.Equal(t, 45.0, s.Diameter)
	require.Equal(t, []string{"the saw is 0.55 mm wider than the main: the throat gapes by 0.275 mm"}, s.Reminders)
	require.Equal(t, []string{"it has to travel " + short(s.Depth) + " mm, the cup cuts 40 mm deep"}, s.Refused)

	s = c.HoleSaw(Saws{Diameters: []float64{38, 44.4, 46}, LeastAngle: deg(75)})[0]
	require.Equal(t, []string{"the arbor lies at 60 degrees to the tube, the jig holds 75 or more", "there is no saw of 44.45 mm to 45.45 mm on hand"}, s.Refused)
	require.False(t, s.OK())

	s = must(t, Tube{50.8, 3}, Main{OD: 50.8, Angle: deg(90)}).HoleSaw(Saws{})[0]
	require.True(t, s.OK())
	require.Contains(t, s.Reminders[0], "feather edge")
	require.InDelta(t, 50.8, s.Depth, 1e-9)

	s = must(t, Tube{50.8, 3}, Main{OD: 40, Angle: deg(90), Partial: true}).HoleSaw(Saws{})[0]
	require.Contains(t, s.Refused[0], "what is beside it stays standing")

	many := must(t, Tube{38.1, 3}, Main{OD: 60, Angle: deg(90)}, Plate{Angle: deg(80)}, Main{OD: 60, Angle: deg(45), Turn: deg(90)})
	require.Len(t, many.HoleSaw(Saws{}), 2, "a plate is for another saw")
}

// The saw's travel is the reach of the whole cut along the main, looked at
// densely over the wall.
func TestHoleSawDepth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		m := drawMain(t, tube, "main")
		c := must(t, tube, m)
		foot, dir := m.Axis()
		lo, hi := math.Inf(1), math.Inf(-1)
		for i := range 720 {
			q := float64(i) * deg(0.5)
			for j := range 5 {
				r := c.ri + (c.ro-c.ri)*float64(j)/4
				s, _ := c.govern(&Curve{c: c, kind: ID, r: r}, q)
				x := Point(q, r, s).Sub(foot).Dot(dir)
				lo, hi = min(lo, x), max(hi, x)
			}
		}
		got := c.HoleSaw(Saws{})[0].Depth
		require.GreaterOrEqual(t, got, hi-lo-1e-9)
		require.InDelta(t, hi-lo, got, 1e-3*(m.OD+tube.OD)/math.Sin(m.Angle))
	})
}

// Two straight cuts foul nowhere, and their gap is what they say.
func TestTwoStraightCuts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := drawTube(t)
		m := drawMain(t, tube, "main")
		m.Offset = 0
		c := must(t, tube, m)
		cuts, err := c.TwoStraightCuts()
		if err != nil {
			require.ErrorContains(t, err, "wanted 5 or more")
			return
		}
		sawn := must(t, tube, cuts.Planes[0], cuts.Planes[1])
		worst := 0.0
		for i := range 720 {
			q := float64(i) * deg(0.5)
			for j := range 9 {
				r := c.ri + (c.ro-c.ri)*float64(j)/8
				u := &Curve{kind: ID, r: r}
				need, _ := c.govern(u, q)
				got, _ := sawn.govern(u, q)
				require.GreaterOrEqual(t, got, need-1e-7, "fouls at %v degrees", float64(i)/2)
			}
		}
		// Against the lowest line that the whole wall needs at one w = r cos q.
		for i := range 401 {
			w := c.ro * (float64(i)/200 - 1)
			r := max(c.ri, math.Abs(w))
			q := m.Turn + math.Acos(max(-1, min(1, w/r)))
			u := &Curve{kind: ID, r: r}
			need, _ := c.govern(u, q)
			got, _ := sawn.govern(u, q)
			worst = max(worst, got-need)
		}
		require.LessOrEqual(t, worst, cuts.Gap+1e-7)
		require.InDelta(t, cuts.Gap, worst, 1e-3*c.ro/math.Sin(m.Angle))
	})
	_, err := must(t, Tube{38.1, 3}, Main{OD: 60, Angle: deg(90), Offset: 3}).TwoStraightCuts()
	require.ErrorContains(t, err, "without offset, this one has 3 mm")
	_, err = must(t, Tube{38.1, 3}, Plate{Angle: deg(90)}).TwoStraightCuts()
	require.ErrorContains(t, err, "something else")
	_, err = must(t, Tube{38.1, 3}, Main{OD: 30, Angle: deg(90), Partial: true}).TwoStraightCuts()
	require.ErrorContains(t, err, "wider than its main")
}

func TestTwoStraightCutsSquare(t *testing.T) {
	// 38.1 x 4.78 on a 44.45 sleeve: both cuts alike, ears where the inside's are.
	c := must(t, Tube{38.1, 4.78}, Main{OD: 44.45, Angle: deg(90)})
	cuts, err := c.TwoStraightCuts()
	require.NoError(t, err)
	require.InDelta(t, cuts.Mitre[0], cuts.Mitre[1], 1e-12)
	require.InDelta(t, c.Curve(ID).Ear().S, cuts.Ears, 1e-9)
	require.InDelta(t, 19.97, cuts.Mitre[0]/degree, 0.01)
	require.InDelta(t, 1.74, cuts.Gap, 0.01)
}

func TestStations(t *testing.T) {
	c := must(t, Tube{38.1, 4.78}, Main{OD: 44.45, Angle: deg(50), Offset: 1})
	for _, n := range []int{12, 24, 36} {
		rows, err := c.Stations(n, 60)
		require.NoError(t, err)
		require.Len(t, rows, n)
		for k := OD; k <= DropOn; k++ {
			for _, r := range rows {
				require.Equal(t, c.Curve(k).At(r.Q), r.S[k])
				require.Equal(t, 60-r.S[k], r.FromEdge[k])
				require.GreaterOrEqual(t, r.AboveLeast[k], -1e-12)
			}
		}
		require.InDelta(t, c.Tube.Girth()/4, rows[n/4].Around, 1e-12)
	}
	for _, n := range []int{0, 3, 10, 4000} {
		_, err := c.Stations(n, 60)
		require.ErrorContains(t, err, "multiple of 4")
	}
}

func TestOverruns(t *testing.T) {
	// A 38.1 tube square on a sleeve 30 long hangs over by 4.05 on both sides.
	c := must(t, Tube{38.1, 3}, Main{Name: "bush", OD: 44.45, Angle: deg(90), Length: 30})
	require.Equal(t, "bush", c.Overruns()[0].Main)
	require.InDelta(t, 4.05, c.Overruns()[0].Toe, 1e-9)
	require.InDelta(t, 4.05, c.Overruns()[0].Heel, 1e-9)
	// At an angle the saddle reaches (R cos a ± r)/sin a along the main.
	a := deg(30)
	toe, heel := (22.225*math.Cos(a)+19.05)/math.Sin(a), (22.225*math.Cos(a)-19.05)/math.Sin(a)
	m := Main{OD: 44.45, Angle: a, Length: 80, Middle: 30}
	c = must(t, Tube{38.1, 3}, m)
	require.InDelta(t, toe-70, c.Overruns()[0].Toe, 1e-9)
	require.Zero(t, c.Overruns()[0].Heel)
	require.Greater(t, heel, -10.0)
	m.Length, m.Middle = toe-heel, (toe+heel)/2
	require.Empty(t, must(t, Tube{38.1, 3}, m).Overruns(), "just long enough")
}
