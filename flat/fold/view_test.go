package fold

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
)

// alongRay gives the stretch of the ray from v along d, d of length 1, that lies
// in the box grown by some room; none where from > to.
func alongRay(b Box3, v, d Vec, room float64) span {
	s := span{0, math.Inf(1)}
	for _, a := range [3][4]float64{{v.X, d.X, b.Min.X, b.Max.X}, {v.Y, d.Y, b.Min.Y, b.Max.Y}, {v.Z, d.Z, b.Min.Z, b.Max.Z}} {
		lo, hi := a[2]-room-a[0], a[3]+room-a[0]
		if math.Abs(a[1]) < 1e-12 {
			if lo > 0 || hi < 0 {
				return span{1, 0}
			}
			continue
		}
		t, u := lo/a[1], hi/a[1]
		s.from, s.to = max(s.from, min(t, u)), min(s.to, max(t, u))
	}
	return s
}

// sight walks from a place towards the eye and tells how deep at most it comes
// into metal, from a little way off.
func sight(g *Folded, v, eye Vec) float64 {
	deepest := math.Inf(-1)
	for i := range len(g.Flat.Panels) + len(g.Flat.Bends) {
		var box Box3
		if i < len(g.Flat.Panels) {
			box = g.panelBox(i)
		} else {
			box = g.bendBox(i - len(g.Flat.Panels))
		}
		s := alongRay(box, v, eye, 1)
		for t := max(s.from, 0.3); t <= s.to; t += 0.15 {
			deepest = max(deepest, depth(g, i, v.Add(eye.Mul(t))))
		}
	}
	return deepest
}

// nearestStroke is the distance from a point to the nearest stroke of a kind.
func nearestStroke(v *View, kind Line, p geom.Point) float64 {
	d := math.Inf(1)
	for _, s := range v.Strokes {
		if s.Line != kind {
			continue
		}
		for i := 1; i < len(s.Points); i++ {
			d = min(d, geom.PointSeg(p, geom.Line(s.Points[i-1], s.Points[i])).D)
		}
	}
	return d
}

// Random places on the cut edges of random parts that plainly can be seen lie on
// a full stroke; those plainly behind metal do not stick out as full strokes of
// their own but are drawn dashed, unless a full stroke covers them.
func TestHiddenLinesAgainstRays(t *testing.T) {
	c := newChance(17)
	seen, covered := 0, 0
	eachPart(t, 30, func(seed uint64, p *Part, f *Flat) {
		g := f.Fold()
		if len(g.Collisions()) > 0 {
			return
		}
		for e := range Eye(eyes) {
			v := g.View(e)
			eye := e.camera().eye
			for range 6 {
				i := c.IntN(len(f.Panels))
				l := f.Panels[i].Region.Outer
				q := l[c.IntN(len(l))].At(c.between(0.1, 0.9))
				if onBend(f, q) {
					continue
				}
				at := g.places[i].at(q, f.T/2*float64(1-2*c.IntN(2)))
				cam := newDrawing(g, e.camera())
				dot := cam.dot(at).Point
				switch d := sight(g, at, eye); {
				case d > 0.15:
					covered++
					line := min(nearestStroke(&v, Hidden, dot), nearestStroke(&v, Full, dot))
					require.Less(t, line, 0.05, "seed %d, %s: covered %v is not drawn", seed, e, at)
				case d < -0.1:
					seen++
					require.Less(t, nearestStroke(&v, Full, dot), 0.05, "seed %d, %s: %v can be seen and is no full line", seed, e, at)
				}
			}
		}
	})
	assert.Greater(t, seen, 50)
	assert.Greater(t, covered, 50)
}

// The other way about: the middle of every full stroke of a view can be seen.
// It is the picture of some place on the part; the nearest of those along the
// line of sight has no metal before it, so the line of sight only grazes metal
// on one side. Looked at a little to both sides, one of them runs past an edge.
func TestFullStrokesAreEdges(t *testing.T) {
	f, err := Flatten(bracket())
	require.NoError(t, err)
	g := f.Fold()
	for e := range Eye(eyes) {
		v := g.View(e)
		cam := e.camera()
		box := g.Box()
		far := box.Max.Sub(box.Min).Len()
		for _, s := range v.Strokes {
			if s.Line != Full || s.Points[0].Dist(s.Points[1]) < 1 {
				continue
			}
			mid := s.Points[0].Add(s.Points[1]).Mul(0.5)
			side := s.Points[1].Sub(s.Points[0]).Perp()
			side = side.Mul(0.3 / side.Len())
			a, b := firstMetal(g, cam, mid.Add(side), far), firstMetal(g, cam, mid.Sub(side), far)
			// The two sides differ in what is seen first, or in how it lies.
			assert.Greater(t, math.Abs(a.near-b.near)+2*math.Abs(1-a.facing.Dot(b.facing)), 0.05, "%s: stroke at %v", e, mid)
		}
	}
}

type glimpse struct {
	near   float64
	facing Vec
}

// firstMetal walks from the eye along a line of sight to the first metal.
func firstMetal(g *Folded, c camera, p geom.Point, far float64) glimpse {
	start := c.right.Mul(p.X).Add(c.up.Mul(p.Y))
	deepest := func(v Vec) float64 {
		d := math.Inf(-1)
		for i := range len(g.Flat.Panels) + len(g.Flat.Bends) {
			d = max(d, depth(g, i, v))
		}
		return d
	}
	for t := far; t > -far; t -= 0.5 {
		v := start.Add(c.eye.Mul(t))
		if deepest(v) <= 0 {
			continue
		}
		lo, hi := t, t+0.5
		for range 30 {
			if mid := (lo + hi) / 2; deepest(start.Add(c.eye.Mul(mid))) > 0 {
				lo = mid
			} else {
				hi = mid
			}
		}
		v = start.Add(c.eye.Mul(lo))
		const h = 1e-3
		grad := Vec{
			deepest(v.Sub(Vec{X: h})) - deepest(v.Add(Vec{X: h})),
			deepest(v.Sub(Vec{Y: h})) - deepest(v.Add(Vec{Y: h})),
			deepest(v.Sub(Vec{Z: h})) - deepest(v.Add(Vec{Z: h})),
		}
		return glimpse{lo, grad.Mul(1 / max(grad.Len(), 1e-9))}
	}
	return glimpse{near: -2 * far}
}

func onBend(f *Flat, q geom.Point) bool {
	for i := range f.Bends {
		if geom.PointSeg(q, f.Bends[i].Root).D < 0.5 || geom.PointSeg(q, f.Bends[i].Far).D < 0.5 {
			return true
		}
	}
	return false
}

// length sums the strokes of a kind.
func length(v View, kind Line) float64 {
	sum := 0.0
	for _, s := range v.Strokes {
		for i := 1; i < len(s.Points); i++ {
			if s.Line == kind {
				sum += s.Points[i].Dist(s.Points[i-1])
			}
		}
	}
	return sum
}

// An angle seen along its bend is its profile; from above it is a rectangle
// parted by the upright leg; nothing is hidden from the front.
func TestViewsOfAnAngle(t *testing.T) {
	s := Section{T: 3, R: 4, Rule: bend.KFactor(0.42), Length: 80}
	f, err := Flatten(L(s, Size{V: 50}, Size{V: 40}))
	require.NoError(t, err)
	vs := f.Fold().Views()
	require.Len(t, vs, 4)
	front, top, right, iso := vs[FromFront], vs[FromAbove], vs[FromRight], vs[Isometric]
	// Straight parts 43 and 33 on both faces, two ends, two quarter circles.
	assert.InDelta(t, 2*(43+33)+2*3+math.Pi/2*(4+7), length(front, Full), 0.05)
	assert.Zero(t, length(front, Hidden))
	assert.InDelta(t, 50, front.Box.Width(), 1e-9)
	assert.InDelta(t, 40, front.Box.Height(), 1e-9)
	// A rectangle 50 x 80, and the inner face of the leg seen from above.
	assert.InDelta(t, 2*(50+80)+80, length(top, Full), 1e-6)
	assert.InDelta(t, 80, length(top, Seam), 1e-6, "where the base begins to bend")
	// From the right the leg's outside: a rectangle; behind it the upper face of
	// the base.
	assert.InDelta(t, 2*(40+80), length(right, Full), 1e-6)
	assert.InDelta(t, 80, length(right, Hidden), 1e-6)
	assert.Greater(t, length(iso, Full), 400.0)
	assert.Equal(t, []string{"isometric", "top", "front", "right"}, []string{iso.Eye.String(), top.Eye.String(), front.Eye.String(), right.Eye.String()})
}

// The isometric axes are alike: a cube-like box of plate shows equal edges.
func TestIsometricScale(t *testing.T) {
	c := Isometric.camera()
	for _, v := range []Vec{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}} {
		assert.InDelta(t, math.Sqrt(2.0/3), math.Hypot(v.Dot(c.right), v.Dot(c.up)), 1e-15)
	}
	for e := range Eye(eyes) {
		c := e.camera()
		assert.InDelta(t, 1, c.right.Cross(c.up).Dot(c.eye), 1e-15, "right, up and eye make right-handed axes")
	}
}

// No stroke is drawn twice, and none is left without length.
func TestStrokesOnce(t *testing.T) {
	f, err := Flatten(bracket())
	require.NoError(t, err)
	for _, v := range f.Fold().Views() {
		var segs []geom.Seg
		for _, s := range v.Strokes {
			require.GreaterOrEqual(t, len(s.Points), 2)
			for i := 1; i < len(s.Points); i++ {
				segs = append(segs, geom.Line(s.Points[i-1], s.Points[i]))
			}
		}
		for i := range segs {
			for k := range i {
				require.Less(t, shared(geom.Region{Outer: geom.Loop{segs[i]}}, segs[k]), 0.01, "%s: %v and %v", v.Eye, segs[i], segs[k])
			}
		}
	}
}

func TestArrange(t *testing.T) {
	f, err := Flatten(bracket())
	require.NoError(t, err)
	vs := f.Fold().Views()
	placed := Arrange(vs, 10)
	require.Len(t, placed, 4)
	for i := range placed {
		for k := range i {
			assert.False(t, placed[i].Box.Meets(placed[k].Box), "%s and %s", placed[i].Eye, placed[k].Eye)
		}
	}
	front, top, right := placed[2], placed[1], placed[3]
	assert.InDelta(t, front.Box.Min.X, top.Box.Min.X, 1e-9, "the top stands over the front")
	assert.InDelta(t, front.Box.Min.Y, right.Box.Min.Y, 1e-9, "the right beside it")
	for i := range vs {
		assert.InDelta(t, length(vs[i], Full), length(placed[i], Full), 1e-6)
	}
}

// A plate with rounded corners is closed at both ends when it is looked at along
// its ends: the wall that runs along the line of sight is drawn.
func TestRoundedCornersAreClosed(t *testing.T) {
	l, err := geom.Corners([]geom.Corner{
		{P: geom.Point{X: -30, Y: -20}, Radius: 5}, {P: geom.Point{X: 30, Y: -20}, Radius: 5},
		{P: geom.Point{X: 30, Y: 20}, Radius: 5}, {P: geom.Point{X: -30, Y: 20}, Radius: 5},
	})
	require.NoError(t, err)
	f, err := Flatten(&Part{T: 3, Rule: bend.KFactor(0.42), Base: Base{Region: geom.Region{Outer: l}}})
	require.NoError(t, err)
	for _, eye := range []Eye{FromFront, FromRight} {
		v := f.Fold().View(eye)
		for _, x := range []float64{v.Box.Min.X, v.Box.Max.X} {
			found := false
			for _, s := range v.Strokes {
				a, b := s.Points[0], s.Points[len(s.Points)-1]
				found = found || s.Line == Full && math.Abs(a.X-x) < 1e-6 && math.Abs(b.X-x) < 1e-6 && math.Abs(a.Y-b.Y) > 2.9
			}
			assert.True(t, found, "%s: no line at x %v", eye, x)
		}
	}
}
