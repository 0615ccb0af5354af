package drawing_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/drawing"
	"blankwright/flat/geom"
)

// damaged is a sound drawing in the hands of a damage: its loops as lists of
// segments to be drawn one by one, circles among them.
type damaged struct {
	r     *rand.Rand
	loops []geom.Loop
	extra sheet // drawn after the loops
	z     map[int]float64
}

// fresh is a sheet with two parts: one of lines and arcs with openings, one plain
// with a part in its opening.
func fresh(r *rand.Rand) *damaged {
	turn := geom.Rotate(r.Float64() * 6).Then(geom.Translate(r.Float64()*300-150, r.Float64()*300-150))
	d := &damaged{r: r, z: map[int]float64{}}
	for _, l := range []geom.Loop{
		cradle(),
		geom.Slot(pt(20, 20), pt(35, 28), 9),
		geom.CircleLoop(geom.Circle{C: pt(12, 38), R: 6.75}),
		rectangle(60, 8, 14, 9),
		rectangle(120, 0, 80, 60),
		rectangle(130, 10, 60, 40),
		geom.CircleLoop(geom.Circle{C: pt(160, 30), R: 15}),
		geom.CircleLoop(geom.Circle{C: pt(160, 30), R: 5}),
	} {
		d.loops = append(d.loops, l.Transform(turn))
	}
	return d
}

// edge picks a segment that is no circle's: its loop and place in it.
func (d *damaged) edge(want func(geom.Seg) bool) (loop, at int) {
	for {
		loop = d.r.IntN(len(d.loops))
		if _, ok := d.loops[loop].Circle(); ok {
			continue
		}
		at = d.r.IntN(len(d.loops[loop]))
		if want == nil || want(d.loops[loop][at]) {
			return loop, at
		}
	}
}

func straight(s geom.Seg) bool { return !s.IsArc() && s.Length() > 5 }
func curved(s geom.Seg) bool   { return s.IsArc() && s.Length() > 5 }

func (d *damaged) between(lo, hi float64) float64 { return lo + d.r.Float64()*(hi-lo) }

// away is a step of length l in a random direction.
func (d *damaged) away(l float64) geom.Point { return geom.Point{}.Polar(l, d.r.Float64()*7) }

// sheet draws what the damage left.
func (d *damaged) sheet() *sheet {
	s := &sheet{}
	for _, l := range d.loops {
		s.loop("0", l)
	}
	s.entities.WriteString(d.extra.entities.String())
	return s
}

// seeded is what a damage must be found as.
type seeded struct {
	kind   drawing.Kind
	at     geom.Point
	within float64 // mm, of At or To, or of the stretch between them
	size   float64 // 0: not looked at
	mends  bool    // the clean copy has the regions of the sound drawing
}

// damages seed one fault each.
var damages = map[string]func(d *damaged) []seeded{
	"small gap at a line": func(d *damaged) []seeded {
		i, k := d.edge(straight)
		g := d.between(0.002, 0.045)
		s := &d.loops[i][k]
		p := s.B
		*s = geom.Line(s.A, s.B.Add(d.away(g)))
		return []seeded{{drawing.Gap, p, 0.05, g, true}}
	},
	"small gap at an arc": func(d *damaged) []seeded {
		i, k := d.edge(curved)
		g := d.between(0.002, 0.045)
		s := &d.loops[i][k]
		p := s.B
		*s = geom.Arc(s.Circle(), s.A, s.At(1-g/s.Length()), s.Bulge > 0)
		return []seeded{{drawing.Gap, p, 0.05, g, true}}
	},
	"overshoot": func(d *damaged) []seeded {
		i, k := d.edge(straight)
		g := d.between(0.002, 0.045)
		s := &d.loops[i][k]
		p := s.B
		*s = geom.Line(s.A, s.At(1).Add(s.DirB().Mul(g)))
		return []seeded{{drawing.Gap, p, 0.05, g, true}}
	},
	"wide gap": func(d *damaged) []seeded {
		i, k := d.edge(straight)
		g := d.between(0.3, 3)
		s := &d.loops[i][k]
		p := s.B
		*s = geom.Line(s.A, s.At(1-g/s.Length()))
		return []seeded{{drawing.Gap, p, 1e-6, g, false}}
	},
	"missing piece": func(d *damaged) []seeded {
		i, k := d.edge(func(s geom.Seg) bool { return s.Length() > 3 && s.Length() < 30 })
		l := d.loops[i]
		p, q := l[k].A, l[k].B
		d.loops[i] = nil
		for j := range l {
			if j != k {
				d.extra.seg("0", l[j])
			}
		}
		if p.Dist(q) > (l.Perimeter()-l[k].Length())/2 {
			return []seeded{{drawing.Stray, p, 1e-6, 0, false}}
		}
		return []seeded{{drawing.Gap, p, 1e-6, p.Dist(q), false}}
	},
	"line twice": func(d *damaged) []seeded {
		i, k := d.edge(nil)
		s := d.loops[i][k]
		if d.r.IntN(2) == 0 {
			s = s.Reverse()
		}
		d.extra.seg("0", s)
		return []seeded{{drawing.Doubled, s.A, 1e-6, s.Length(), true}}
	},
	"line twice in another file order": func(d *damaged) []seeded {
		i, k := d.edge(nil)
		s := d.loops[i][k]
		l := d.loops[i]
		d.loops[i] = nil
		d.extra.seg("0", s)
		d.extra.loop("0", l)
		return []seeded{{drawing.Doubled, s.A, 1e-6, s.Length(), true}}
	},
	"near double of a line": func(d *damaged) []seeded {
		i, k := d.edge(straight)
		s := d.loops[i][k]
		off := d.between(0.001, 0.018)
		d.extra.line("0", s.A.Add(s.DirA().Perp().Mul(off)), s.B.Add(s.DirA().Perp().Mul(off)))
		return []seeded{{drawing.NearDouble, s.Mid(), 0.03, off, true}}
	},
	"near double of an arc": func(d *damaged) []seeded {
		i, k := d.edge(curved)
		s := d.loops[i][k]
		off := d.between(0.001, 0.018)
		c := s.Circle()
		c.R += off
		d.extra.seg("0", geom.Arc(c, c.C.Add(s.A.Sub(c.C).Mul(c.R/(c.R-off))), c.C.Add(s.B.Sub(c.C).Mul(c.R/(c.R-off))), s.Bulge > 0))
		return []seeded{{drawing.NearDouble, s.A, 0.03, off, true}}
	},
	"part of a line twice": func(d *damaged) []seeded {
		i, k := d.edge(nil)
		s := d.loops[i][k]
		if s.Length() < 3 {
			return nil
		}
		a, b := d.between(0.1, 0.4), d.between(0.6, 0.9)
		p := geom.Line(s.At(a), s.At(b))
		if s.IsArc() {
			p = geom.Arc(s.Circle(), s.At(a), s.At(b), s.Bulge > 0)
		}
		d.extra.seg("0", p)
		return []seeded{{drawing.Doubled, p.A, 1e-6, p.Length(), true}}
	},
	"line in two parts that overlap": func(d *damaged) []seeded {
		i, k := d.edge(straight)
		s := d.loops[i][k]
		a, b := d.between(0.2, 0.4), d.between(0.6, 0.8)
		d.loops[i][k] = geom.Line(s.A, s.At(b))
		d.extra.line("0", s.At(a), s.B)
		return []seeded{{drawing.Doubled, s.At((a + b) / 2), 1e-6, (b - a) * s.Length(), true}}
	},
	"line twice and longer": func(d *damaged) []seeded {
		// Longer at both ends than an edge of the plain outline.
		s := d.loops[4][d.r.IntN(4)]
		d.extra.line("0", s.At(0).Sub(s.DirA().Mul(7)), s.B.Add(s.DirA().Mul(5)))
		return []seeded{{drawing.Doubled, s.A, 1e-6, s.Length(), true}}
	},
	"circle twice": func(d *damaged) []seeded {
		c, _ := d.loops[2].Circle()
		d.extra.circle("0", c.C, c.R)
		return []seeded{{drawing.Doubled, c.C, 1e-6, 2 * c.R, true}}
	},
	"circle nearly twice": func(d *damaged) []seeded {
		c, _ := d.loops[6].Circle()
		d.extra.circle("0", c.C.Add(d.away(0.008)), c.R+0.006)
		return []seeded{{drawing.NearDouble, c.C, 0.02, 0, true}}
	},
	"arc over a circle": func(d *damaged) []seeded {
		c, _ := d.loops[6].Circle()
		a := d.r.Float64() * 6
		d.extra.arc("0", c, c.C.Polar(c.R, a), c.C.Polar(c.R, a+2), true)
		return []seeded{{drawing.Doubled, c.C.Polar(c.R, a+1), c.R, 0, true}}
	},
	"polyline over an outline": func(d *damaged) []seeded {
		d.extra.joined("0", d.loops[0])
		return []seeded{{drawing.Doubled, d.loops[0][0].Mid(), 1e-6, 0, true}}
	},
	"outline of short chords twice": func(d *damaged) []seeded {
		c, _ := d.loops[6].Circle()
		d.loops[6] = nil
		d.extra.joined("0", chords(c, 2000, nil))
		c.R -= d.between(0.001, 0.018)
		d.extra.joined("0", chords(c, 1999, nil))
		return []seeded{{drawing.NearDouble, c.C.Add(pt(c.R, 0)), 0.1, 0, true}}
	},
	"hole across the edge": func(d *damaged) []seeded {
		s := d.loops[4][d.r.IntN(4)]
		c := geom.Circle{C: s.At(d.between(0.3, 0.7)), R: 3}
		d.extra.circle("0", c.C, c.R)
		return []seeded{
			{drawing.Crossing, c.C.Add(s.DirA().Mul(3)), 1e-6, 0, false},
			{drawing.Crossing, c.C.Sub(s.DirA().Mul(3)), 1e-6, 0, false},
		}
	},
	"line across a slot": func(d *damaged) []seeded {
		s := d.loops[1][0]
		if s.IsArc() {
			s = d.loops[1][1]
		}
		p, n := s.At(d.between(0.2, 0.8)), s.DirA().Perp()
		d.extra.line("0", p.Sub(n.Mul(2)), p.Add(n.Mul(2)))
		return []seeded{{drawing.Crossing, p, 1e-6, 0, true}, {drawing.Stray, p.Add(n.Mul(2)), 1e-6, 4, true}}
	},
	"outline that crosses itself": func(d *damaged) []seeded {
		l := d.loops[5]
		x := l[0].At(0.5).Add(l[2].At(0.5)).Mul(0.5)
		d.loops[5] = geom.Polygon(l[0].A, l[2].A, l[1].A, l[3].A)
		return []seeded{{drawing.Crossing, x, 60, 0, false}}
	},
	"corner on an edge": func(d *damaged) []seeded {
		s := d.loops[4][0]
		p := s.At(d.between(0.3, 0.7))
		in := s.DirA().Perp()
		d.extra.joined("0", geom.Polygon(p, p.Add(in.Mul(5)).Add(s.DirA().Mul(-2)), p.Add(in.Mul(5)).Add(s.DirA().Mul(2))))
		return []seeded{{drawing.Touching, p, 1e-6, 0, false}}
	},
	"corner on a corner": func(d *damaged) []seeded {
		p := d.loops[4][1].A
		mid := d.loops[4][0].A.Add(d.loops[4][2].A).Mul(0.5)
		u := p.Sub(mid).Mul(5 / p.Dist(mid))
		d.extra.joined("0", geom.Polygon(p, p.Add(u).Add(u.Perp().Mul(0.3)), p.Add(u).Sub(u.Perp().Mul(0.3))))
		return []seeded{{drawing.Touching, p, 1e-6, 0, false}}
	},
	"circle that touches an edge": func(d *damaged) []seeded {
		s := d.loops[5][0]
		p := s.At(d.between(0.2, 0.3))
		d.extra.circle("0", p.Add(s.DirA().Perp().Mul(4)), 4)
		return []seeded{{drawing.Touching, p, 1e-3, 0, false}}
	},
	"tiny segment": func(d *damaged) []seeded {
		l := d.loops[4]
		k := d.r.IntN(4)
		w := d.between(0.005, 0.03)
		p := l[k].B
		a, b := l[k].At(1-w/l[k].Length()), l[(k+1)%4].At(w/l[(k+1)%4].Length())
		d.loops[4] = nil
		for j := range 4 {
			s := l[j]
			if j == k {
				s = geom.Line(s.A, a)
			}
			if j == (k+1)%4 {
				s = geom.Line(b, s.B)
			}
			d.extra.line("0", s.A, s.B)
		}
		d.extra.line("0", a, b)
		return []seeded{{drawing.Tiny, p, 0.05, a.Dist(b), true}}
	},
	"line of no length": func(d *damaged) []seeded {
		i, k := d.edge(nil)
		p := d.loops[i][k].A
		d.extra.line("0", p, p)
		return []seeded{{drawing.NoLength, p, 1e-6, 0, true}}
	},
	"circle of no size": func(d *damaged) []seeded {
		p := d.loops[4][0].Mid()
		d.extra.circle("0", p, 0)
		return []seeded{{drawing.NoLength, p, 1e-6, 0, true}}
	},
	"corner given twice": func(d *damaged) []seeded {
		l := d.loops[0]
		k := d.r.IntN(len(l))
		twice := append(append(append(geom.Loop{}, l[:k+1]...), geom.Line(l[k].B, l[k].B)), l[k+1:]...)
		d.loops[0] = nil
		d.extra.joined("0", twice)
		return []seeded{{drawing.NoLength, l[k].B, 1e-6, 0, true}}
	},
	"stray line outside": func(d *damaged) []seeded {
		p := d.loops[4][0].A.Add(pt(400, 400))
		q := p.Add(d.away(20))
		d.extra.line("0", p, q)
		return []seeded{{drawing.Stray, p, 1e-6, 20, true}}
	},
	"stray line on a corner": func(d *damaged) []seeded {
		l := d.loops[4]
		k := d.r.IntN(4)
		p := l[k].A
		q := p.Add(p.Sub(l[(k+2)%4].A).Mul(0.2))
		d.extra.line("0", p, q)
		return []seeded{{drawing.Stray, q, 1e-6, p.Dist(q), true}}
	},
	"branch": func(d *damaged) []seeded {
		l := d.loops[4]
		out := l[0].Mid().Sub(l[0].DirA().Perp().Mul(9))
		d.extra.line("0", l[0].A, out)
		d.extra.line("0", out, l[1].A)
		return []seeded{{drawing.Branch, l[0].A, 1e-6, 0, false}, {drawing.Branch, l[1].A, 1e-6, 0, false}}
	},
	"line at a height": func(d *damaged) []seeded {
		l := d.loops[4]
		d.loops[4] = nil
		k := d.r.IntN(4)
		for j, s := range l {
			z := 0.0
			if j == k {
				z = 12.5
			}
			d.extra.add("LINE", "0", 10, s.A.X, 20, s.A.Y, 30, z, 11, s.B.X, 21, s.B.Y, 31, z)
		}
		return []seeded{{drawing.NotLevel, l[k].A, 1e-6, 0, true}}
	},
	"text in the metal": func(d *damaged) []seeded {
		p := d.loops[4][0].At(0.5).Add(d.loops[4][0].DirA().Perp().Mul(5))
		d.extra.add("TEXT", "0", 10, p.X, 20, p.Y, 40, 5.0, 1, "T1")
		return []seeded{{drawing.TextInside, p, 1e-6, 0, true}}
	},
	"closed line round nothing": func(d *damaged) []seeded {
		p := pt(500, 500)
		d.extra.joined("0", geom.Polygon(p, p.Add(pt(20, 0)), p.Add(pt(20, 0.0001)), p.Add(pt(0, 0.0001))))
		return []seeded{{drawing.NearDouble, p, 20, 0, true}}
	},
}

// TestDamage seeds each fault at many places and demands that it is found there,
// and that what can be mended is mended.
func TestDamage(t *testing.T) {
	for name, damage := range damages {
		t.Run(name, func(t *testing.T) {
			for seed := range uint64(40) {
				r := rand.New(rand.NewPCG(seed, 4))
				whole := fresh(rand.New(rand.NewPCG(seed, 4)))
				d := fresh(r)
				want := damage(d)
				if want == nil {
					continue
				}
				a := drawing.Assemble(d.sheet().read(t), 0)
				for _, w := range want {
					require.NoError(t, find(a.Faults, w), "seed %d", seed)
				}
				checkMended(t, seed, whole, a, want)
			}
		})
	}
}

// find looks for a seeded fault among those found.
func find(faults []drawing.Fault, w seeded) error {
	var met []string
	for _, f := range faults {
		if len(met) < 20 {
			met = append(met, f.Kind.String()+": "+f.Message)
		}
		d := geom.PointSeg(w.at, geom.Line(f.At, f.To)).D
		if f.At == f.To {
			d = f.At.Dist(w.at)
		}
		if f.Kind == w.kind && d <= w.within && (w.size == 0 || math.Abs(f.Size-w.size) <= 1e-3+w.size*1e-3) {
			return nil
		}
	}
	return fmt.Errorf("no %v at %v of %g among %q", w.kind, w.at, w.size, met)
}

// checkMended holds the clean copy against the sound drawing: the same areas
// within what the tolerance may move, and a word on the change.
func checkMended(t *testing.T, seed uint64, whole *damaged, a *drawing.Assembly, want []seeded) {
	t.Helper()
	m := drawing.Mend(a)
	for _, r := range m.Regions {
		require.NoError(t, r.Validate(), "seed %d", seed)
	}
	checkFixed(t, seed, m)
	for _, w := range want {
		if !w.mends {
			assert.NoError(t, find(m.Left, w), "seed %d: left", seed)
			return
		}
	}
	sound := drawing.Mend(drawing.Assemble(whole.sheet().read(t), 0))
	require.Empty(t, sound.Changes)
	require.Empty(t, sound.Left)
	require.Len(t, m.Regions, len(sound.Regions), "seed %d: %v", seed, m.Left)
	if want[0].kind != drawing.TextInside {
		assert.NotEmpty(t, m.Changes, "seed %d", seed)
	}
	for i, r := range sound.Regions {
		found := false
		for _, g := range m.Regions {
			found = found || len(g.Holes) == len(r.Holes) && math.Abs(g.Area()-r.Area()) <= 0.05*r.Perimeter()*0.2 &&
				g.Centroid().Dist(r.Centroid()) < 0.05
		}
		assert.True(t, found, "seed %d: region %d of area %g", seed, i, r.Area())
	}
}

// checkFixed draws a clean copy and looks again: there is nothing more to mend.
func checkFixed(t *testing.T, seed uint64, m *drawing.Mended) {
	t.Helper()
	s := &sheet{}
	for _, r := range m.Regions {
		s.loop("0", r.Outer)
		for _, h := range r.Holes {
			s.loop("0", h)
		}
	}
	again := drawing.Mend(drawing.Assemble(s.read(t), 0))
	assert.Empty(t, again.Changes, "seed %d", seed)
	require.Len(t, again.Regions, len(m.Regions), "seed %d", seed)
	for i, r := range again.Regions {
		assert.InDelta(t, m.Regions[i].Area(), r.Area(), 1e-6*r.Perimeter(), "seed %d", seed)
	}
}
