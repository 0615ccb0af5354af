package check

import (
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/strength"
)

// weldLines gives all welds as lines: one that runs on both sides twice.
func (c *Context) weldLines() []geom.Seg {
	var lines []geom.Seg
	for i := range c.Blank.Welds {
		w := &c.Blank.Welds[i]
		for range w.Sides {
			lines = append(lines, w.Segs...)
		}
	}
	return lines
}

// weakestWeld is the weld that holds least for each mm of its length, and what it holds.
func (c *Context) weakestWeld() (*blank.Weld, strength.Result) {
	best, least := &c.Blank.Welds[0], c.perMM(&c.Blank.Welds[0])
	for i := range c.Blank.Welds {
		if r := c.perMM(&c.Blank.Welds[i]); r.Design < least.Design {
			best, least = &c.Blank.Welds[i], r
		}
	}
	return best, least
}

// perMM is what one side of a weld holds for each mm of its length.
func (c *Context) perMM(w *blank.Weld) strength.Result {
	m := &c.Blank.Material
	if c.method.eurocode {
		return c.method.en.WeldSimple(strength.Throat(w.Leg), m.Fu, betaW(m.Name, m.Fu))
	}
	return perMM(c.method.aisc.FilletWeld(strength.Fillet{Leg: w.Leg, Length: w.Run(), FEXX: w.FEXX}), w.Run())
}

// ofWeld begins what is weighed at a weld.
func ofWeld(w *blank.Weld, in *loadCase) held {
	title := "the weld " + quoted(w.Name)
	if w.Edge != "" {
		title += " along " + quoted(w.Edge)
	}
	return held{title: title, name: w.Name, place: w.Name, set: w.Name, pos: w.Pos, in: in, at: w.Line[len(w.Line)/2].Mid()}
}

// section is a cut through the plate: a line with the load's side to its left.
type section struct {
	at, dir geom.Point // dir a unit vector
	s       strength.Section
	solid   bool // one piece, no holes in it
}

// heldAt is the straight line along which the welds hold the plate: the chord of
// a weld, moved to the deepest place of its edge. ok is false where the plate is
// not held along one line.
func (c *Context) heldAt() (at, dir geom.Point, ok bool) {
	for i := range c.Blank.Welds {
		p, d, fine := weldChord(&c.Blank.Welds[i])
		switch {
		case !fine:
			return at, dir, false
		case !ok:
			at, dir, ok = p, d, true
		case math.Abs(d.Cross(dir)) > num.Angular || d.Dot(dir) < 0 || !num.Zero(dir.Cross(p.Sub(at))):
			return at, dir, false
		}
	}
	return at, dir, ok
}

// weldChord is the line of one weld.
func weldChord(w *blank.Weld) (at, dir geom.Point, ok bool) {
	a, b := w.Line[0].A, w.Line[len(w.Line)-1].B
	d := b.Sub(a)
	if d.Len() <= num.Coincident {
		return at, dir, false
	}
	d = d.Mul(1 / d.Len())
	depth := 0.0
	for i := range w.Line {
		s := &w.Line[i]
		for _, p := range [3]geom.Point{s.A, s.B, deepest(s, d.Perp())} {
			depth = max(depth, d.Cross(p.Sub(a)))
		}
	}
	return a.Add(b).Mul(0.5).Add(d.Perp().Mul(depth)), d, true
}

// deepest is the place of a segment farthest along a unit vector.
func deepest(s *geom.Seg, n geom.Point) geom.Point {
	best := s.A
	if s.IsArc() {
		k := s.Circle()
		p := k.C.Add(n.Mul(k.R))
		chord := s.B.Sub(s.A)
		if s.Bulge > 0 == (chord.Cross(p.Sub(s.A)) < 0) {
			best = p
		}
	}
	return best
}

// metal is the plate as finished, with every opening.
func (c *Context) metal() geom.Region {
	r := geom.Region{Outer: c.outline.loop, Holes: make([]geom.Loop, 0, len(c.openings))}
	for i := range c.openings {
		if o := &c.openings[i]; o.cut != nil {
			r.Holes = append(r.Holes, o.cut.Loop)
		} else {
			r.Holes = append(r.Holes, o.hole.Finished())
		}
	}
	return r
}

// cutAt makes the section along a line.
func (c *Context) cutAt(r geom.Region, at, dir geom.Point) section {
	var room [32]strength.Piece
	pieces := strength.Cut(r, at, dir, strength.FromLeft, room[:0])
	k := section{at: at, dir: dir, s: strength.SectionOf(pieces, c.Blank.Thickness), solid: len(pieces) == 1}
	return k
}

// beyond is the sum of a case's loads that act to the left of a line, and how far
// the farthest of them lies from it.
func beyond(in *loadCase, at, dir geom.Point) (sum strength.PlaneLoad, away float64) {
	for _, l := range in.loads {
		d := dir.Cross(l.At.Sub(at))
		if d <= num.Coincident {
			continue
		}
		away = max(away, d)
		sum.F = sum.F.Add(l.Force)
		sum.M += l.At.Cross(l.Force) + l.Moment
	}
	return sum, away
}

// bend holds a section against a case.
func (c *Context) bend(k *section, in *loadCase) (strength.Ratio, bool) {
	load, away := beyond(in, k.at, k.dir)
	if away == 0 || load.F == (geom.Point{}) && load.M == 0 {
		return strength.Ratio{}, false
	}
	return c.bendUnder(k, load, away), true
}

// bendUnder holds a section against a load that acts so far from it.
func (c *Context) bendUnder(k *section, load strength.PlaneLoad, away float64) strength.Ratio {
	act := k.s.On(load, k.at, k.dir)
	m, t := &c.Blank.Material, c.Blank.Thickness
	if c.method.eurocode {
		from, to, shear := k.s.Stress(act)
		return c.method.en.Mises(m.Fy, max(math.Abs(from), math.Abs(to)), 0, shear)
	}
	a := &c.method.aisc
	moment := a.FlexureYield(m.Fy, k.s.Z, k.s.S())
	// The whole plate from its one edge to the other leaves its plane, holes or none.
	moment = strength.Least(moment, a.BarBending(strength.Bar{Depth: k.s.To - k.s.From, T: t, Unbraced: away, Fy: m.Fy}))
	if !k.solid {
		moment = strength.Least(moment, a.FlexureRupture(m.Fu, k.s.Z))
	}
	normal := strength.Least(a.TensionYield(m.Fy, k.s.Area), a.TensionRupture(m.Fu, k.s.Area))
	shear := strength.Least(a.ShearYield(m.Fy, k.s.Area), a.ShearRupture(m.Fu, k.s.Area))
	return a.Combined(act, moment, normal, shear)
}

// bendShare is what a load takes of a section: of stresses, whose squares are
// summed, the root.
func (c *Context) bendShare(r *strength.Ratio) float64 {
	if c.method.eurocode {
		return math.Sqrt(r.V)
	}
	return r.V
}
