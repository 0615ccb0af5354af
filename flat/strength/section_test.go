package strength

import (
	"math"
	"testing"

	"blankwright/flat/geom"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func hole(x, y, d float64) geom.Loop {
	return geom.CircleLoop(geom.Circle{C: pt(x, y), R: d / 2}).Reverse()
}

// drilled is a plate of 200 by 60 with three holes of 20 on its middle line.
func drilled() geom.Region {
	return geom.Region{
		Outer: geom.Polygon(pt(0, 0), pt(200, 0), pt(200, 60), pt(0, 60)),
		Holes: []geom.Loop{hole(50, 30, 20), hole(100, 30, 20), hole(150, 30, 20)},
	}
}

func TestCutByHand(t *testing.T) {
	r := drilled()
	along := func(y float64, side Side) []Piece { return Cut(r, pt(-10, y), pt(2, 0), side, nil) }
	require.Equal(t, []Piece{{10, 50}, {70, 100}, {120, 150}, {170, 210}}, along(30, Through))
	c := along(25, Through) // off the middle: chords of 2 sqrt(100 - 25)
	h := math.Sqrt(75)
	require.Len(t, c, 4)
	require.InDelta(t, 60-h, c[0].B, 1e-9)
	require.InDelta(t, 60+h, c[1].A, 1e-9)
	require.Equal(t, []Piece{{10, 210}}, along(40, Through), "a line that only touches the holes is whole")
	require.Equal(t, []Piece{{10, 210}}, along(45, Through))
	require.Empty(t, along(61, Through))
	// Along the lower edge: metal on the left of the line only.
	require.Empty(t, along(0, Through))
	require.Empty(t, along(0, FromRight))
	require.Equal(t, []Piece{{10, 210}}, along(0, FromLeft))
	require.Empty(t, along(60, FromLeft))
	require.Equal(t, []Piece{{10, 210}}, along(60, FromRight))
	require.Nil(t, Cut(r, pt(0, 0), geom.Point{}, Through, nil))
	// Across, through a hole.
	require.Equal(t, []Piece{{9, 9}, {0, 20}, {40, 60}}, Cut(r, pt(50, 0), pt(0, 1), Through, []Piece{{9, 9}}))
}

// A step: at its height the section jumps, and each side has its own.
func TestCutAtAStep(t *testing.T) {
	r := geom.Region{Outer: geom.Polygon(pt(0, 0), pt(100, 0), pt(100, 30), pt(60, 30), pt(60, 80), pt(0, 80))}
	cut := func(side Side) []Piece { return Cut(r, pt(0, 30), pt(1, 0), side, nil) }
	require.Equal(t, []Piece{{0, 60}}, cut(Through))
	require.Equal(t, []Piece{{0, 60}}, cut(FromLeft))
	require.Equal(t, []Piece{{0, 100}}, cut(FromRight))
	// A slot with straight sides along the line.
	slot := geom.Slot(pt(30, 40), pt(70, 40), 20).Reverse()
	r = geom.Region{Outer: geom.Polygon(pt(0, 0), pt(100, 0), pt(100, 80), pt(0, 80)), Holes: []geom.Loop{slot}}
	cut = func(side Side) []Piece { return Cut(r, pt(0, 50), pt(1, 0), side, nil) }
	require.Equal(t, []Piece{{0, 30}, {70, 100}}, cut(Through))
	require.Equal(t, []Piece{{0, 100}}, cut(FromLeft))
	require.Equal(t, []Piece{{0, 30}, {70, 100}}, cut(FromRight))
	// Through corners of the outline: a diamond's own diagonal.
	d := geom.Region{Outer: geom.Polygon(pt(0, -50), pt(50, 0), pt(0, 50), pt(-50, 0))}
	require.Equal(t, []Piece{{-50, 50}}, Cut(d, pt(0, 0), pt(1, 0), Through, nil))
	require.Empty(t, Cut(d, pt(0, 50), pt(1, 0), FromRight, nil), "a corner touched is no section")
}

func drawPlate(t *rapid.T) geom.Region {
	r := geom.Region{Outer: geom.Polygon(pt(0, 0), pt(120, 0), pt(120, 40), pt(160, 40), pt(160, 100), pt(0, 100))}
	if rapid.Bool().Draw(t, "round") {
		l, err := geom.Corners([]geom.Corner{{P: pt(0, 0), Radius: 30}, {P: pt(160, 0), Chamfer: 20}, {P: pt(160, 100), Radius: 50}, {P: pt(0, 100)}})
		require.NoError(t, err)
		r.Outer = l
	}
	r.Holes = append(r.Holes, hole(30, 50, 24), hole(100, 70, 30), geom.Slot(pt(50, 20), pt(90, 20), 14).Reverse())
	return r.Transform(drawMotion(t))
}

// Points along the line are metal where a piece says so, and nowhere else.
func TestCutAgainstPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawPlate(t)
		b := r.Bounds()
		at := b.Min.Add(pt(b.Width()*rapid.Float64Range(0, 1).Draw(t, "x"), b.Height()*rapid.Float64Range(0, 1).Draw(t, "y")))
		if rapid.Bool().Draw(t, "corner") { // through a corner, along an edge, or tangent
			s := rapid.SampledFrom(append(append(geom.Loop{}, r.Outer...), r.Holes[2]...)).Draw(t, "segment")
			at = s.A
		}
		u := pt(0, 0).Polar(1, rapid.Float64Range(0, 6.3).Draw(t, "angle"))
		pieces := Cut(r, at, u, Through, nil)
		for i, p := range pieces {
			require.Less(t, p.A, p.B)
			require.True(t, i == 0 || pieces[i-1].B < p.A)
		}
		for i := range 300 {
			x := -250 + 500*(float64(i)+0.37)/300
			p := at.Add(u.Mul(x))
			near := geom.PointLoop(p, r.Outer).D
			for _, h := range r.Holes {
				near = min(near, geom.PointLoop(p, h).D)
			}
			if near < 1e-5 {
				continue // a line along an edge may be taken on either side of it
			}
			in := false
			for _, c := range pieces {
				in = in || x > c.A && x < c.B
			}
			require.Equal(t, r.Contains(p) == geom.Inside, in, "at %v", x)
		}
	})
}

// Cuts add up to the plate's area.
func TestCutsAddUpToTheArea(t *testing.T) {
	r := drilled()
	r.Outer[1] = geom.BulgeSeg(pt(200, 0), pt(200, 60), 1) // a round end
	const n = 4000
	var sum float64
	for i := range n {
		y := 60 * (float64(i) + 0.5) / n
		s := SectionOf(Cut(r, pt(0, y), pt(1, 0), Through, nil), 1)
		sum += s.Width * 60 / n
	}
	require.InEpsilon(t, r.Area(), sum, 1e-5)
}

func TestSectionByHand(t *testing.T) {
	// A solid rectangle.
	s := SectionOf([]Piece{{10, 70}}, 8)
	require.InDelta(t, 60, s.Width, 1e-12)
	require.InDelta(t, 480, s.Area, 1e-12)
	require.InDelta(t, 40, s.Centroid, 1e-12)
	require.InDelta(t, 8*60*60*60/12, s.I, 1e-9)
	require.InDelta(t, 8*60*60/6, s.S(), 1e-9)
	require.InDelta(t, 8*60*60/4, s.Z, 1e-9)
	require.InDelta(t, 60*512/12.0, s.IOut, 1e-9)
	require.InDelta(t, 60*64/6.0, s.SOut, 1e-9)
	require.InDelta(t, 60*64/4.0, s.ZOut, 1e-9)
	// With a hole of 20 in the middle: the missing part taken off.
	s = SectionOf([]Piece{{0, 20}, {40, 60}}, 8)
	require.InDelta(t, 8*(60*60*60-20*20*20)/12.0, s.I, 1e-9)
	require.InDelta(t, 8*(60*60-20*20)/4.0, s.Z, 1e-9)
	require.InDelta(t, 30, s.Centroid, 1e-12)
	// Lopsided: 10 and 30 wide, 20 apart. Half of the metal lies 10 into the second.
	s = SectionOf([]Piece{{0, 10}, {30, 60}}, 2)
	require.InDelta(t, 35, s.Centroid, 1e-12)
	require.InDelta(t, 40, s.Middle, 1e-12)
	require.InDelta(t, 2*(10*35+10*5+20*10), s.Z, 1e-9)
	require.InDelta(t, s.I/35, s.SFrom, 1e-9)
	require.InDelta(t, s.I/25, s.STo, 1e-9)
	require.Equal(t, Section{}, SectionOf(nil, 8))
	require.Equal(t, Section{}, SectionOf([]Piece{{0, 1}}, 0))
}

// Moduli against integration in thin strips.
func TestSectionAgainstStrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(t, "pieces")
		var pieces []Piece
		x := rapid.Float64Range(-100, 100).Draw(t, "start")
		for range n {
			w := rapid.Float64Range(1, 50).Draw(t, "metal")
			pieces = append(pieces, Piece{x, x + w})
			x += w + rapid.Float64Range(1, 50).Draw(t, "gap")
		}
		const thick = 7.0
		s := SectionOf(pieces, thick)
		var area, first, second, plastic, half float64
		strips := func(f func(x, w float64)) {
			for _, p := range pieces {
				const k = 2000
				w := (p.B - p.A) / k
				for i := range k {
					f(p.A+w*(float64(i)+0.5), w)
				}
			}
		}
		strips(func(x, w float64) { area += thick * w; first += thick * w * x })
		c := first / area
		strips(func(x, w float64) {
			second += thick * w * sq(x-c)
			plastic += thick * w * math.Abs(x-s.Middle)
			if x < s.Middle {
				half += thick * w
			}
		})
		require.InEpsilon(t, area, s.Area, 1e-9)
		require.InDelta(t, c, s.Centroid, 1e-6)
		require.InEpsilon(t, second, s.I, 1e-4)
		require.InEpsilon(t, plastic, s.Z, 1e-4)
		require.InDelta(t, area/2, half, area*0.002)
		require.LessOrEqual(t, s.S(), s.Z*(1+1e-12), "plastic is never less than elastic")
	})
}

// A cantilever of plate: 1 kN down at its tip, 150 from the section.
func TestSectionUnderLoad(t *testing.T) {
	r := drilled()
	at, dir := pt(40, 0), pt(0, 1) // the tip, x = 0, lies left of a line that runs up
	s := SectionOf(Cut(r, at, dir, Through, nil), 6)
	a := s.On(PlaneLoad{F: pt(-500, -1000), At: pt(-110, 30)}, at, dir)
	require.InDelta(t, 500, a.N, 1e-9)
	require.InDelta(t, -1000, a.V, 1e-9)
	require.InDelta(t, 150000, a.M, 1e-6)
	from, to, shear := s.Stress(a)
	require.InDelta(t, 500/360.0-150000/3600.0, from, 1e-9)
	require.InDelta(t, 500/360.0+150000/3600.0, to, 1e-9, "hung down at the tip, the upper edge is pulled")
	require.InDelta(t, 1000/360.0, shear, 1e-9)
	require.Equal(t, Acting{}, s.On(PlaneLoad{F: pt(1, 1)}, at, geom.Point{}))
	from, to, shear = (&Section{}).Stress(a)
	require.Zero(t, from+to+shear)
}
