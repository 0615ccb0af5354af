package fold

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// eachPart calls with random parts that have a flat pattern, until count of them
// were met.
func eachPart(t *testing.T, count int, each func(seed uint64, p *Part, f *Flat)) {
	t.Helper()
	met := 0
	for seed := uint64(0); met < count; seed++ {
		require.Less(t, seed, uint64(20*count), "too few of the random parts can be made")
		p := newChance(seed).part()
		f, err := Flatten(p)
		if err != nil {
			require.IsType(t, Problems{}, err)
			continue
		}
		met++
		each(seed, p, f)
	}
}

// Properties of a thousand random parts:
//  1. the outline is sound, and with the holes in it so is what is cut,
//  2. every dimension that was given comes back from the folded flat,
//  3. the volume developed at the neutral line is that of the flat,
//  4. every hole is carried exactly: a circle is one of the same radius,
//  5. pieces add up: no metal twice, none lost.
func TestRandomPartsFoldBack(t *testing.T) {
	eachPart(t, 1000, func(seed uint64, p *Part, f *Flat) {
		require.NoError(t, f.Region().Validate(), "seed %d", seed)
		g := f.Fold()
		for _, d := range g.Dims() {
			require.InDelta(t, d.Want, d.Got, 1e-6, "seed %d: %s", seed, d.Name)
			require.True(t, d.Holds())
		}
		flat := f.Region().Area() * f.T
		require.InDelta(t, flat, g.Volume(), 1e-9*flat, "seed %d", seed)
		area := 0.0
		for _, q := range f.pieces() {
			area += q.region.Area()
		}
		require.InDelta(t, f.Outline.Area(), area, 1e-9*area, "seed %d", seed)
		k := 0
		for _, h := range append(p.Base.Holes, flangeHoles(p)...) {
			require.Equal(t, h.Name, f.Holes[k].Name)
			c, round := h.Loop.Circle()
			d, still := f.Holes[k].Loop.Circle()
			require.Equal(t, round, still, "seed %d: hole %s", seed, h.Name)
			require.Equal(t, c.R, d.R)
			require.InDelta(t, h.Loop.Perimeter(), f.Holes[k].Loop.Perimeter(), 1e-9)
			k++
		}
		require.Len(t, f.Holes, k)
	})
}

func flangeHoles(p *Part) []Hole {
	var all []Hole
	for _, f := range p.Flanges {
		all = append(all, f.Holes...)
	}
	return all
}

// mirrored is the description of the mirror image in the y axis: left is right
// all through. lengths are those of the edges that the flanges stand on.
func mirrored(p *Part, lengths []float64) *Part {
	m := *p
	m.Base.Region = p.Base.Region.Transform(geom.MirrorY())
	m.Base.Edges = nil
	for _, e := range p.Base.Edges {
		m.Base.Edges = append(m.Base.Edges, Edge{e.Name, geom.MirrorY().Apply(e.A), geom.MirrorY().Apply(e.B)})
	}
	m.Base.Holes = nil
	for _, h := range p.Base.Holes {
		m.Base.Holes = append(m.Base.Holes, Hole{h.Name, h.Loop.Transform(geom.MirrorY())})
	}
	m.Flanges = nil
	for i, f := range p.Flanges {
		if f.On != "" {
			switch f.Edge {
			case LeftEdge:
				f.Edge = RightEdge
			case RightEdge:
				f.Edge = LeftEdge
			}
		}
		f.Left, f.Right = f.Right, f.Left
		f.TaperLeft, f.TaperRight = f.TaperRight, f.TaperLeft
		f.CornerLeft, f.CornerRight = f.CornerRight, f.CornerLeft
		holes := f.Holes
		f.Holes = nil
		for _, h := range holes {
			f.Holes = append(f.Holes, Hole{h.Name, h.Loop.Transform(geom.MirrorY().Then(geom.Translate(lengths[i], 0)))})
		}
		m.Flanges = append(m.Flanges, f)
	}
	return &m
}

// moved is the description with its base elsewhere.
func moved(p *Part, t geom.Motion) *Part {
	m := *p
	m.Base.Region = p.Base.Region.Transform(t)
	m.Base.Edges, m.Base.Holes = nil, nil
	for _, e := range p.Base.Edges {
		m.Base.Edges = append(m.Base.Edges, Edge{e.Name, t.Apply(e.A), t.Apply(e.B)})
	}
	for _, h := range p.Base.Holes {
		m.Base.Holes = append(m.Base.Holes, Hole{h.Name, h.Loop.Transform(t)})
	}
	return &m
}

// sameFlat compares two flat patterns as shapes.
func sameFlat(t *testing.T, want, got *Flat, seed uint64) {
	t.Helper()
	diff, err := geom.SymmetricDifference([]geom.Region{want.Region()}, []geom.Region{got.Region()})
	require.NoError(t, err, "seed %d", seed)
	for _, r := range diff {
		require.Less(t, r.Area(), num.OverlapArea, "seed %d", seed)
	}
	require.InDelta(t, want.Outline.Perimeter(), got.Outline.Perimeter(), 1e-8, "seed %d", seed)
	for i := range want.Bends {
		a, b := want.Bends[i], got.Bends[i]
		require.Equal(t, a.Down, b.Down)
		// Left and right change sides in a mirror.
		near := min(a.Line.A.Dist(b.Line.A)+a.Line.B.Dist(b.Line.B), a.Line.A.Dist(b.Line.B)+a.Line.B.Dist(b.Line.A))
		require.Less(t, near, 1e-8, "seed %d: bend %d", seed, i)
		require.InDelta(t, 1, a.Out.Dot(b.Out), 1e-12)
	}
	for i := range want.Holes {
		require.Less(t, want.Holes[i].At.Dist(got.Holes[i].At), 1e-8)
		require.Equal(t, want.Holes[i].Bend, got.Holes[i].Bend)
		if want.Holes[i].Bend >= 0 {
			require.InDelta(t, want.Holes[i].Tangent, got.Holes[i].Tangent, 1e-8)
		}
	}
}

func TestMirroredDescriptions(t *testing.T) {
	eachPart(t, 1000, func(seed uint64, p *Part, f *Flat) {
		lengths := make([]float64, len(f.Bends))
		for i := range f.Bends {
			lengths[i] = f.Bends[i].Edge.Length()
		}
		got, err := Flatten(mirrored(p, lengths))
		require.NoError(t, err, "seed %d", seed)
		want := f.Transform(geom.MirrorY())
		sameFlat(t, want, got, seed)
		// The mirrored flat itself folds to its dimensions as well.
		for _, d := range want.Fold().Dims() {
			require.InDelta(t, d.Want, d.Got, 1e-6, "seed %d: %s", seed, d.Name)
		}
	})
}

func TestRotatedDescriptions(t *testing.T) {
	c := newChance(99)
	eachPart(t, 1000, func(seed uint64, p *Part, f *Flat) {
		turn := geom.Rotate(c.between(0, 2*math.Pi)).Then(geom.Translate(c.between(-500, 500), 37))
		if c.one(3) {
			turn = geom.Rotate(deg(90))
		}
		got, err := Flatten(moved(p, turn))
		require.NoError(t, err, "seed %d", seed)
		sameFlat(t, f.Transform(turn), got, seed)
		assert.Equal(t, len(f.Fold().Collisions()), len(got.Fold().Collisions()), "seed %d", seed)
	})
}

// A part is not changed by making its flat, and the same part gives the same
// flat to the last bit.
func TestFlattenIsPure(t *testing.T) {
	eachPart(t, 50, func(seed uint64, p *Part, f *Flat) {
		before := newChance(seed).part()
		require.Equal(t, before, p)
		again, err := Flatten(p)
		require.NoError(t, err)
		require.Equal(t, f, again)
	})
}

// Where random places of one body lie deep in another, a collision is found; and
// the place of every collision found lies in both.
func TestCollisionsAgainstPoints(t *testing.T) {
	collided := 0
	c := newChance(5)
	eachPart(t, 400, func(seed uint64, p *Part, f *Flat) {
		g := f.Fold()
		found := g.Collisions()
		if len(found) > 0 {
			collided++
			for _, x := range found {
				assert.Equal(t, Collision, x.Kind)
			}
			return
		}
		bodies := len(f.Panels) + len(f.Bends)
		for i := range bodies {
			for range 60 {
				v, ok := somewhere(c, g, i)
				if !ok {
					break
				}
				for k := range bodies {
					if i == k || g.belong(min(i, k), max(i, k)) {
						continue
					}
					require.Less(t, depth(g, k, v), 0.1, "seed %d: %s reaches into %s at %v", seed, g.bodyName(i), g.bodyName(k), v)
				}
			}
		}
	})
	assert.Greater(t, collided, 10, "the random parts hold some that collide")
}

// The place that a collision names lies in both bodies.
func TestCollisionPlaces(t *testing.T) {
	eachPart(t, 400, func(seed uint64, p *Part, f *Flat) {
		g := f.Fold()
		all := g.bodies()
		for i := range all {
			for k := range i {
				if g.belong(k, i) || !all[i].box.overlap(&all[k].box, num.Clearance) {
					continue
				}
				if at, on, ok := reachInto(g.slabs(all, k), g.slabs(all, i)); ok {
					require.Greater(t, depth(g, i, at), -0.1, "seed %d", seed)
					require.Greater(t, depth(g, k, at), -0.1, "seed %d", seed)
					if k < len(f.Panels) {
						require.NotEqual(t, geom.Outside, f.Panels[k].Region.Contains(on), "seed %d", seed)
					}
				}
			}
		}
	})
}
