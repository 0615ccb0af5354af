package fold

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
)

// Where the hanger's legs stand in space: inner faces 67.5 apart, upper sides
// facing each other.
func TestPlacesInSpace(t *testing.T) {
	f := flatten(t, uHanger(28))
	g := f.Fold()
	const s = 4.7625
	for i, side := range []float64{-1, 1} {
		assert.InDelta(t, -side, g.Normal(i+1).X, 1e-12)
		at := g.At(i+1, f.Holes[i].At, f.T/2)
		assert.InDelta(t, side*67.5/2, at.X, 1e-9, "the upper side is the inner face")
		assert.InDelta(t, 28-s/2, at.Z, 1e-9, "28 over the outside of the base, whose middle is at 0")
		axis, dir := g.HoleAxis(&f.Holes[i])
		assert.InDelta(t, side*(67.5/2+s/2), axis.X, 1e-9)
		assert.InDelta(t, 1, math.Abs(dir.X), 1e-12)
	}
	assert.Equal(t, Vec{Z: 1}, g.Normal(0))
}

// The developed volume is that of the flat; the solid's bends count at the
// middle of the plate.
func TestVolumes(t *testing.T) {
	s := Section{T: 3, R: 4, Rule: bend.KFactor(0.5), Length: 80}
	f := flatten(t, L(s, Size{V: 50}, Size{V: 40}))
	g := f.Fold()
	assert.InDelta(t, g.Volume(), g.Solid(), 1e-9, "one and the same with the neutral line in the middle")
	s.Rule = bend.KFactor(0.4)
	p := L(s, Size{V: 50}, Size{V: 40})
	p.Base.Holes = []Hole{hole("h", 0, 0, 10)}
	g = flatten(t, p).Fold()
	assert.InDelta(t, math.Pi/2*0.1*3*80*3, g.Solid()-g.Volume(), 1e-9)
	assert.InDelta(t, ((43+33+math.Pi/2*(4+0.4*3))*80-math.Pi*25)*3, g.Volume(), 1e-9)
}

func TestStraightened(t *testing.T) {
	l := geom.Polygon(geom.Point{X: 5}, geom.Point{X: 10}, geom.Point{X: 10, Y: 4}, geom.Point{X: 10, Y: 8}, geom.Point{Y: 8}, geom.Point{})
	got := straightened(l)
	assert.Len(t, got, 4)
	require.NoError(t, got.Validate())
	assert.InDelta(t, 80, got.Area(), 1e-12)
	slot := geom.Slot(geom.Point{}, geom.Point{X: 9}, 4)
	assert.Equal(t, slot, straightened(slot))
}

func TestWords(t *testing.T) {
	assert.Equal(t, "square round none", Square.String()+" "+Round.String()+" "+None.String())
	b := Rectangle(10, 10)
	assert.Equal(t, "base", b.name())
	b.Name = "floor"
	assert.Equal(t, "floor", b.name())
	assert.NoError(t, Problems(nil).err())
	var ps Problems
	ps.add(BadValue, "a", "", "first")
	ps.add(NoRoom, "b", "do so", "second").at(geom.Point{X: 1, Y: 2.345})
	assert.Equal(t, "first\nsecond at (1, 2.35) of the flat; do so", ps.Error())
}

// The crossings of a line and a loop come in pairs wherever the line runs:
// through corners, along edges, touching arcs.
func TestHitsComeInPairs(t *testing.T) {
	c := newChance(3)
	loops := []geom.Loop{
		geom.CircleLoop(geom.Circle{R: 10}),
		geom.Slot(geom.Point{X: -5, Y: -5}, geom.Point{X: 5, Y: 5}, 8),
		geom.Polygon(geom.Point{X: -10, Y: -10}, geom.Point{X: 10, Y: -10}, geom.Point{X: 10, Y: 10}, geom.Point{Y: 5}, geom.Point{X: -10, Y: 10}),
	}
	for range 3000 {
		q := geom.Point{X: math.Round(c.between(-12, 12)), Y: math.Round(c.between(-12, 12))}
		d := geom.Point{}.Polar(1, deg(15*float64(c.IntN(24))))
		for _, l := range loops {
			require.Zero(t, len(appendHits(nil, l, q, d))%2, "%v from %v along %v", l, q, d)
			spans, _ := appendSpans(nil, nil, q, d, l)
			for _, s := range spans {
				if s.to-s.from > 1e-6 {
					require.NotEqual(t, geom.Outside, l.Contains(q.Add(d.Mul((s.from+s.to)/2))), "%v from %v along %v", l, q, d)
				}
			}
		}
	}
}
