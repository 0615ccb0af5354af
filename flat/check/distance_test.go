package check

import (
	"math"
	"os"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/geom"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Least webs of a bracket, from an independent brute-force computation on the
// true arcs in extended precision.
func TestWebsOfBracket(t *testing.T) {
	text, err := os.ReadFile("testdata/bracket.txt")
	require.NoError(t, err)
	r, err := geom.ParseRegion(string(text))
	require.NoError(t, err)
	b := plate(t, r.Outer)
	for i, l := range r.Holes {
		h := blank.Hole{Name: string(rune('a' + i))}
		if k, round := l.Circle(); round {
			h.Centre, h.Dia = k.C, 2*k.R
		} else { // a slot: side, end, side, end
			require.Len(t, l, 4)
			h.Centre, h.Dia = l[0].Mid().Add(l[2].Mid()).Mul(0.5), 2*l[1].Circle().R
			h.Length = l[0].Length() + h.Dia
			d := l[0].DirA()
			h.Angle = math.Atan2(d.Y, d.X)
		}
		h.CutDia = h.Dia
		b.Holes = append(b.Holes, h)
	}
	c := newContext(b)
	edge, web := math.Inf(1), math.Inf(1)
	for i := range c.openings {
		edge = min(edge, c.edges[i].D-c.openings[i].r)
		for j := range i {
			web = min(web, openingGap(&c.openings[i], &c.openings[j]))
		}
	}
	assert.InDelta(t, 9.25, edge, 1e-9)
	assert.InDelta(t, 17.93092365533773, web, 1e-9)
}

func openingGap(o, p *opening) float64 { return between(o, o.half, p).D - o.r - p.r }

// genOutline draws a simple outline: a star about the origin whose sides are
// straight, bulge or hollow, or whose corners are rounded.
func genOutline(t *rapid.T) geom.Loop {
	n := rapid.IntRange(3, 60).Draw(t, "corners")
	pts := make([]geom.Point, n)
	for i := range pts {
		r := rapid.Float64Range(40, 120).Draw(t, "r")
		pts[i] = geom.Point{}.Polar(r, 2*math.Pi*float64(i)/float64(n))
	}
	l := geom.Polygon(pts...)
	for i := range l {
		if k := rapid.Float64Range(-0.3, 0.3).Draw(t, "bulge"); math.Abs(k) > 0.05 {
			bent := append(geom.Loop{}, l...)
			bent[i] = geom.BulgeSeg(l[i].A, l[i].B, k)
			if bent.Validate() == nil {
				l = bent
			}
		}
	}
	if l.Validate() != nil || l.Area() <= 0 {
		t.Skip("outline crosses itself")
	}
	return l
}

func genOpening(t *rapid.T, reach float64) opening {
	h := blank.Hole{
		Centre: geom.Point{X: rapid.Float64Range(-reach, reach).Draw(t, "x"), Y: rapid.Float64Range(-reach, reach).Draw(t, "y")},
		Dia:    rapid.Float64Range(3, 20).Draw(t, "dia"),
	}
	if rapid.Bool().Draw(t, "slot") {
		h.Length = h.Dia + rapid.Float64Range(1, 40).Draw(t, "longer")
		h.Angle = rapid.Float64Range(0, math.Pi).Draw(t, "angle")
	}
	return newOpening(&h, 0)
}

// Signed distance to the outline, with and without the index: as near as any of
// many points of the outline, no nearer than those allow, and positive just
// where the place is inside.
func TestNearestEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := genOutline(t)
		o := genOpening(t, 150)
		few := boundary{loop: l}
		many := newBoundary(append(geom.Loop{}, l...))
		n := few.nearest(&o, o.half)
		if m := many.nearest(&o, o.half); math.Abs(m.D-n.D) > 1e-9 {
			t.Fatalf("index says %g, search %g", m.D, n.D)
		}
		axis := o.axis(o.half)
		const steps = 200
		least := math.Inf(1)
		spacing := 0.0
		for _, s := range l {
			spacing = max(spacing, s.Length()/steps)
			for k := 0; k <= steps; k++ {
				least = min(least, geom.PointSeg(s.At(float64(k)/steps), axis).D)
			}
		}
		if d := math.Abs(n.D); d > least+1e-9 || d < least-spacing {
			t.Fatalf("distance %g, points of the outline come to %g", d, least)
		}
		if math.Abs(n.D) < 1e-6 {
			return
		}
		if side := l.Contains(n.P); (side == geom.Inside) != (n.D > 0) {
			t.Fatalf("distance %g at %v, which lies %v", n.D, n.P, side)
		}
		out := few.outward(n)
		if math.Abs(out.Len()-1) > 1e-9 {
			t.Fatalf("outward %v is not a unit vector", out)
		}
		// A step inward takes the place farther in, a step outward farther out,
		// while the edge stays the nearest one: never by more than the step.
		q := o.moved(out.Mul(-1e-4))
		if m := few.nearest(&q, q.half); m.D < n.D-1e-4-1e-9 {
			t.Fatalf("a step of 1e-4 changes the distance from %g to %g", n.D, m.D)
		}
	})
}

// The distance between two openings is that between their boundaries where
// they are apart.
func TestGapBetweenOpenings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o, p := genOpening(t, 60), genOpening(t, 60)
		gap := openingGap(&o, &p)
		if other := openingGap(&p, &o); math.Abs(gap-other) > 1e-9 {
			t.Fatalf("%g one way, %g the other", gap, other)
		}
		want := geom.LoopLoop(o.hole.Finished(), p.hole.Finished()).D
		if gap > 1e-9 && math.Abs(gap-want) > 1e-8 {
			t.Fatalf("gap %g, boundaries are %g apart", gap, want)
		}
	})
}

// The grid finds what a search one by one finds, each box once.
func TestGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 120).Draw(t, "n")
		span := rapid.SampledFrom([]float64{0, 1, 100}).Draw(t, "span")
		draw := func() box {
			x, y := rapid.Float64Range(-span, span).Draw(t, "x"), rapid.Float64Range(-1, span).Draw(t, "y")
			w := rapid.SampledFrom([]float64{0, 1, 5, 300}).Draw(t, "w")
			return box{x, y, x + w, y + rapid.Float64Range(0, w).Draw(t, "h")}
		}
		boxes := make([]box, n)
		for i := range boxes {
			boxes[i] = draw()
		}
		g := newGrid(boxes)
		q := draw()
		found := map[int]int{}
		g.find(q, func(i int) { found[i]++ })
		for i := range boxes {
			want := 0
			if boxes[i].meets(&q) {
				want = 1
			}
			if found[i] != want {
				t.Fatalf("box %d told %d times, wanted %d", i, found[i], want)
			}
		}
	})
}

// The shortest move past straight borders: it lies in all half planes, and none
// of many other moves that do is shorter.
func TestShortest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 6).Draw(t, "n")
		hs := make([]halfPlane, n)
		for i := range hs {
			a := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "a")
			hs[i] = halfPlane{geom.Point{X: math.Cos(a), Y: math.Sin(a)}, rapid.Float64Range(-3, 3).Draw(t, "s")}
		}
		holds := func(m geom.Point, slack float64) bool {
			for _, h := range hs {
				if h.n.Dot(m) < h.s-slack {
					return false
				}
			}
			return true
		}
		m, ok := shortest(hs, 1000)
		if ok && !holds(m, 1e-5) {
			t.Fatalf("%v breaks a border of %v", m, hs)
		}
		for r := 0.0; r < 8; r += 0.25 {
			for a := 0; a < 48; a++ {
				q := geom.Point{}.Polar(r, 2*math.Pi*float64(a)/48)
				if holds(q, 0) && (!ok || q.Len() < m.Len()-1e-9) {
					t.Fatalf("found %v %v, but %v is shorter and holds for %v", m, ok, q, hs)
				}
			}
		}
	})
}
