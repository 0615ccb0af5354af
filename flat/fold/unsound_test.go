package fold

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
)

// Reliefs of any width and depth, tapers and offsets down to nothing: a part is
// made, or refused with a reason that names what to change; its outline never
// falls short of its panels and bends.
func TestOutlineAlwaysAddsUp(t *testing.T) {
	made := 0
	for seed := uint64(0); seed < 4000; seed++ {
		c := newChance(seed)
		p := c.part()
		relief := func() Relief {
			return Relief{Shape: Shape(c.IntN(2)), Width: c.round(0.2, 3) * p.T, Past: c.round(0, 2) * p.T}
		}
		p.Relief = relief()
		for i := range p.Flanges {
			f := &p.Flanges[i]
			tiny := func() float64 { return math.Pow(10, c.between(-10, -1)) * float64(1-2*c.IntN(2)) }
			if c.one(2) {
				f.TaperLeft, f.TaperRight = deg(tiny()), deg(tiny())
			}
			if c.one(8) {
				f.Left, f.Right = math.Abs(tiny()), math.Abs(tiny())
			}
			if c.one(3) {
				r := relief()
				f.Relief = &r
			}
		}
		f, err := Flatten(p)
		if err == nil {
			made++
			require.NoError(t, f.Region().Validate(), "seed %d", seed)
			continue
		}
		var ps Problems
		require.True(t, errors.As(err, &ps), "seed %d: %v", seed, err)
		for _, q := range ps {
			assert.NotEqual(t, Unsound, q.Kind, "seed %d: %s", seed, q.Message)
			assert.False(t, strings.Contains(q.Message, "cannot be made"), "seed %d: %s", seed, q.Message)
		}
	}
	assert.Greater(t, made, 800)
}

// A taper of next to nothing is none: the flat is the same as without it, even
// where another flange stands on the tapered one.
func TestTinyTaperIsNone(t *testing.T) {
	part := func(taper float64) *Part {
		return &Part{T: 3, Rule: bend.KFactor(0.4), Base: Rectangle(100, 80), Flanges: []Flange{
			{Name: "a", Edge: Right, Height: 50, Angle: deg(90), Radius: 3, TaperLeft: taper, TaperRight: taper},
			{Name: "b", On: "a", Edge: EndEdge, Height: 30, Angle: deg(90), Radius: 3, Down: true},
		}}
	}
	plain := flatten(t, part(0))
	for _, taper := range []float64{1e-12, 1.5e-9, deg(1e-7), deg(1e-6), deg(1.5e-5), deg(1e-3)} {
		assert.Equal(t, plain.Outline, flatten(t, part(taper)).Outline, "%g rad", taper)
	}
	assert.NotEqual(t, plain.Outline, flatten(t, part(deg(0.01))).Outline)
}

// An end offset of next to nothing leaves no sliver of metal beside the bend.
func TestTinyOffsetLeavesNoSliver(t *testing.T) {
	for _, off := range []float64{0, 1e-10, 1e-8, 1e-7, 3e-7, 9e-7} {
		f := flatten(t, &Part{T: 3, Rule: bend.KFactor(0.4), Base: Rectangle(100, 80), Flanges: []Flange{
			{Name: "a", Edge: Right, Height: 50, Angle: deg(90), Radius: 3, Left: off, Right: off}}})
		assert.InDelta(t, 80, f.Outline.Bounds().Height(), 1e-9)
		assert.LessOrEqual(t, len(f.Outline.Outer), 8, "%g", off)
		holds(t, f)
	}
}

// Seen from the side a hole shows as two dashed lines through the plate, a
// diameter apart.
func TestHolesAreDashedFromTheSide(t *testing.T) {
	const r, up = 4.5, 30.0
	f := flatten(t, &Part{T: 3, Rule: bend.KFactor(0.4), Base: Rectangle(100, 80), Flanges: []Flange{
		{Name: "a", Edge: Right, Height: 50, Angle: deg(90), Radius: 3, Holes: []Hole{{"h", geom.CircleLoop(geom.Circle{C: geom.Point{X: 40, Y: up}, R: r})}}}}})
	want := map[float64]bool{up - 1.5 - r: false, up - 1.5 + r: false} // the origin is in the middle of the base
	for _, s := range f.Fold().View(FromFront).Strokes {
		a, b := s.Points[0], s.Points[len(s.Points)-1]
		for z := range want {
			if s.Line == Hidden && math.Abs(a.Y-z) < 1e-6 && math.Abs(b.Y-z) < 1e-6 && math.Abs(a.Dist(b)-3) < 1e-6 {
				want[z] = true
			}
		}
	}
	for z, ok := range want {
		assert.True(t, ok, "no dashed line at height %v", z)
	}
}
