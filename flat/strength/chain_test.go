package strength

import (
	"math"
	"sort"
	"testing"

	"blankwright/flat/geom"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func someHoles() []ChainHole {
	return []ChainHole{{pt(0, 30), 14}, {pt(40, 68), 14}, {pt(0, 110), 14}, {pt(40, 150), 14}, {pt(90, 90), 14}}
}

// Three gauge lines, the middle one staggered: a textbook case worked by hand.
// Straight through the outer holes 200 - 2 x 14 = 172; zigzag through all three
// 200 - 3 x 14 + 2 x 30^2/(4 x 50) = 167.
func TestChainByHand(t *testing.T) {
	holes := []ChainHole{{pt(0, 50), 14}, {pt(30, 100), 14}, {pt(0, 150), 14}}
	c := WeakestChain(pt(5, 0), 200, holes, nil)
	require.InDelta(t, 167, c.Net, 1e-9)
	require.Equal(t, []int{0, 1, 2}, c.Holes)
	require.InDelta(t, 42, c.Taken, 1e-12)
	require.InDelta(t, 9, c.Raised, 1e-9)
	require.Equal(t, "wn = w - sum dh + sum s^2/(4 g) = 200 mm - 42 mm + 9 mm = 167 mm", c.Formula(200, Metric))
	holes[1].C.X = 60 // too far along: 200 - 42 + 36 is more than 172
	c = WeakestChain(pt(5, 0), 200, holes, []int{7})
	require.InDelta(t, 172, c.Net, 1e-9)
	require.Equal(t, []int{7, 0, 2}, c.Holes)
	require.Equal(t, 200.0, WeakestChain(pt(1, 0), 200, nil, nil).Net)
	require.Equal(t, 200.0, WeakestChain(geom.Point{}, 200, holes, nil).Net)
	// In line along the force only the wider one counts.
	c = WeakestChain(pt(1, 0), 100, []ChainHole{{pt(0, 50), 12}, {pt(40, 50), 16}, {pt(80, 50), 14}}, nil)
	require.InDelta(t, 84, c.Net, 1e-9)
	require.Equal(t, []int{1}, c.Holes)
}

// Every subset of the holes tried: the same net width.
func TestChainAgainstAllChains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "n")
		holes := make([]ChainHole, n)
		for i := range holes {
			holes[i] = ChainHole{
				pt(float64(rapid.IntRange(0, 12).Draw(t, "x"))*10, float64(rapid.IntRange(0, 12).Draw(t, "y"))*10),
				float64(rapid.IntRange(5, 20).Draw(t, "d")),
			}
		}
		angle := rapid.Float64Range(0, 2*math.Pi).Draw(t, "direction")
		dir := pt(0, 0).Polar(3, angle)
		width := 200.0
		c := WeakestChain(dir, width, holes, nil)
		u := dir.Mul(1.0 / 3)
		best := width
		for set := range 1 << n {
			var on []int
			for i := range n {
				if set>>i&1 == 1 {
					on = append(on, i)
				}
			}
			best = min(best, netOf(u, width, holes, on))
		}
		require.InDelta(t, best, c.Net, 1e-9)
		require.InDelta(t, c.Net, netOf(u, width, holes, c.Holes), 1e-9, "the chain named is the one counted")
		require.InDelta(t, c.Net, width-c.Taken+c.Raised, 1e-9)
	})
}

func netOf(u geom.Point, width float64, holes []ChainHole, on []int) float64 {
	sort.Slice(on, func(i, j int) bool { return u.Cross(holes[on[i]].C) < u.Cross(holes[on[j]].C) })
	net := width
	for i, h := range on {
		net -= holes[h].Width
		if i > 0 {
			d := holes[h].C.Sub(holes[on[i-1]].C)
			g, s := u.Cross(d), u.Dot(d)
			if g <= 1e-7 {
				return math.Inf(1)
			}
			net += s * s / (4 * g)
		}
	}
	return net
}

// Plate and force turned together, and the force reversed: the same section.
func TestChainTurns(t *testing.T) {
	holes := someHoles()
	c := WeakestChain(pt(1, 0), 200, holes, nil)
	m := geom.Rotate(deg(37)).Then(geom.Translate(500, -300))
	turned := make([]ChainHole, len(holes))
	for i, h := range holes {
		turned[i] = ChainHole{m.Apply(h.C), h.Width}
	}
	d := WeakestChain(m.Dir(pt(1, 0)), 200, turned, nil)
	require.InDelta(t, c.Net, d.Net, 1e-9)
	require.Equal(t, c.Holes, d.Holes)
	require.InDelta(t, c.Net, WeakestChain(pt(-1, 0), 200, holes, nil).Net, 1e-9)
}

// More holes than the room that is kept free.
func TestChainOfManyHoles(t *testing.T) {
	var holes []ChainHole
	for i := range 3 * chainRoom {
		holes = append(holes, ChainHole{pt(float64(i%2)*2, 20*float64(i)), 10})
	}
	c := WeakestChain(pt(1, 0), 20*3*chainRoom, holes, nil)
	require.Len(t, c.Holes, 3*chainRoom, "small steps do not pay for leaving a hole out")
	require.InDelta(t, 10*3*chainRoom+float64(3*chainRoom-1)*4/80, c.Net, 1e-9)
}
