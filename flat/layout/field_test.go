package layout

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/geom"
)

// star is a simple polygon about a centre, hollow corners and all.
func star(r *rand.Rand, n int, size float64) []geom.Point {
	pts := make([]geom.Point, n)
	for i := range pts {
		a := 2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n)
		pts[i] = geom.Point{}.Polar(size*(0.3+0.7*r.Float64()), a)
	}
	return pts
}

func partsArea(parts [][]geom.Point) float64 {
	a := 0.0
	for _, p := range parts {
		a += ringArea(p)
	}
	return a
}

// Convex parts cover the polygon, openings left out, and nothing else.
func TestConvexParts(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 500 {
		outer := star(r, 4+r.IntN(20), 50)
		rings := [][]geom.Point{outer}
		want := ringArea(outer)
		for k := range 3 { // openings near the middle, where every star is solid
			h := star(r, 3+r.IntN(6), 4)
			for i := range h {
				h[i] = h[i].Add(geom.Point{}.Polar(6, 2*math.Pi*float64(k)/3))
			}
			for i, j := 0, len(h)-1; i < j; i, j = i+1, j-1 {
				h[i], h[j] = h[j], h[i]
			}
			if l := geom.Polygon(outer...); geom.LoopLoop(l, geom.Polygon(h...)).D > 0.1 && l.Contains(h[0]) == geom.Inside {
				rings = append(rings, h)
				want += ringArea(h)
			}
		}
		parts := convexParts(rings)
		require.InEpsilon(t, want, partsArea(parts), 1e-9)
		for _, p := range parts {
			for i := range p {
				require.GreaterOrEqual(t, orient2(p[i], p[(i+1)%len(p)], p[(i+2)%len(p)]), 0.0)
			}
		}
	}
}

// The depth of a field is 0 where the kernel finds no common area; elsewhere the
// shape moved out by it is clear, and no move shorter by a share is.
func TestFieldDepth(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 1))
	inside := 0
	for range 60 {
		m := &model{}
		turns := []float64{0, math.Pi}
		for _, size := range []float64{40, 30} {
			s := star(r, 4+r.IntN(12), size)
			m.addKind(geom.Region{Outer: geom.Polygon(s...)}, 0, [][]geom.Point{s}, turns, 1e-7)
		}
		m.ready()
		for range 30 {
			a, b := r.IntN(4), r.IntN(4)
			oa, ob := &m.orients[a], &m.orients[b]
			at := geom.Point{X: -ob.w + r.Float64()*(oa.w+ob.w), Y: -ob.h + r.Float64()*(oa.h+ob.h)}
			common := func(p geom.Point) float64 {
				got, err := geom.Intersection([]geom.Region{{Outer: geom.Polygon(oa.rings[0]...)}},
					[]geom.Region{{Outer: geom.Polygon(ob.rings[0]...).Transform(geom.Translate(p.X, p.Y))}})
				require.NoError(t, err)
				return total(got)
			}
			d, nx, ny := m.pair(a, b).deep(at.X, at.Y)
			if d == 0 {
				assert.Zero(t, common(at))
				continue
			}
			inside++
			assert.Positive(t, common(at))
			out := geom.Point{X: nx, Y: ny}
			assert.InDelta(t, 1, out.Len(), 1e-9)
			assert.InDelta(t, 0, common(at.Add(out.Mul(d+1e-6))), 1e-6)
			for k := range 32 {
				assert.Positive(t, common(at.Add(geom.Point{}.Polar(d*0.999, float64(k)*math.Pi/16))))
			}
		}
	}
	assert.Greater(t, inside, 300)
}
