package fold

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// facetTurn is the largest turn (rad) of one of the flats that stand for a bend
// in the test for collisions: 5 degrees, which leave the true bend by less than
// a thousandth of its radius and a fortieth of the thickness.
const facetTurn = math.Pi / 36

// slab is a flat piece of metal in space: loops in the plane's flat coordinates,
// counted even and odd, and half its thickness.
type slab struct {
	plane plane
	loops []geom.Loop
	half  float64
	box   Box3
}

// body is a panel or a bend as slabs.
type body struct {
	slabs []slab
	box   Box3
}

// bodies are the panels, then the bends.
func (g *Folded) bodies() []body {
	f := g.Flat
	all := make([]body, len(f.Panels)+len(f.Bends))
	for i := range f.Panels {
		s := slab{plane: g.places[i], half: f.T / 2, box: g.panelBox(i)}
		s.loops = make([]geom.Loop, 0, 1+len(f.Panels[i].Region.Holes)+len(f.Holes))
		s.loops = append(append(s.loops, f.Panels[i].Region.Outer), f.Panels[i].Region.Holes...)
		for k := range f.Holes {
			if f.Holes[k].Panel == i {
				s.loops = append(s.loops, f.Holes[k].Loop)
			}
		}
		all[i] = body{[]slab{s}, s.box}
	}
	for i := range f.Bends {
		all[len(f.Panels)+i] = body{nil, g.bendBox(i)}
	}
	return all
}

// facets makes the slabs of a bend.
func (w *bow) facets() []slab {
	n := int(math.Ceil(w.angle/facetTurn - num.Angular))
	out := make([]slab, max(n, 1))
	step := w.angle / float64(len(out))
	mid := w.r + w.t/2
	for i := range out {
		a, b := w.round(0, float64(i)*step, mid), w.round(0, float64(i+1)*step, mid)
		y := b.Sub(a)
		chord := y.Len()
		y = y.Mul(1 / chord)
		p := plane{o: a, x: w.along, y: y, n: w.along.Cross(y)}
		s := slab{plane: p, half: w.t / 2, box: noBox(), loops: []geom.Loop{
			geom.Polygon(geom.Point{}, geom.Point{X: w.length}, geom.Point{X: w.length, Y: chord}, geom.Point{Y: chord})}}
		for _, c := range s.loops[0] {
			s.box.extend(p.at(c.A, s.half))
			s.box.extend(p.at(c.A, -s.half))
		}
		out[i] = s
	}
	return out
}

// Collisions finds where the folded part runs into itself: panels and bends
// that reach into each other by more than num.Clearance. Faces that only touch
// do not collide. A bend is taken as flats of at most 5 degrees; two bends of
// one panel are not held against each other, nor are a bend and the panels that
// hang on it. The way from flat to folded is not looked at here; see Order.
func (g *Folded) Collisions() Problems {
	var found Problems
	f := g.Flat
	all := g.bodies()
	for i := range all {
		for k := range i {
			if g.belong(k, i) || !all[i].box.overlap(&all[k].box, num.Clearance) {
				continue
			}
			a, b := g.slabs(all, k), g.slabs(all, i)
			if at, on, ok := reachInto(a, b); ok {
				p := found.add(Collision, f.Panels[max(g.ownerOf(k), g.ownerOf(i))].Name, "make it shorter or narrower, taper it, or bend it less",
					"folded, %s runs into %s, at (%s, %s, %s) in space", g.bodyName(i), g.bodyName(k),
					num.Short(at.X, 1), num.Short(at.Y, 1), num.Short(at.Z, 1))
				if k < len(f.Panels) {
					p.at(on)
				}
			}
		}
	}
	return found
}

func (g *Folded) slabs(all []body, i int) []slab {
	if all[i].slabs == nil {
		all[i].slabs = g.bends[i-len(g.Flat.Panels)].facets()
	}
	return all[i].slabs
}

// belong reports whether two bodies are joined, or meet by design.
func (g *Folded) belong(i, k int) bool {
	f := g.Flat
	n := len(f.Panels)
	switch {
	case k < n: // two panels
		b := f.Panels[k].Bend
		return f.Bends[b].Parent == i
	case i < n:
		b := &f.Bends[k-n]
		return b.Parent == i || b.Child == i
	}
	a, b := &f.Bends[i-n], &f.Bends[k-n]
	return a.Parent == b.Parent || a.Child == b.Parent || b.Child == a.Parent
}

func (g *Folded) ownerOf(i int) int {
	if n := len(g.Flat.Panels); i >= n {
		return g.Flat.Bends[i-n].Child
	}
	return i
}

func (g *Folded) bodyName(i int) string {
	if n := len(g.Flat.Panels); i >= n {
		return "the bend of flange " + g.Flat.Bends[i-n].Name
	}
	return g.Flat.panelName(i)
}

// reachInto finds a place that lies in both bodies: in space, and on the first's
// flat coordinates.
func reachInto(a, b []slab) (Vec, geom.Point, bool) {
	var m meeter
	for i := range a {
		for k := range b {
			if !a[i].box.overlap(&b[k].box, num.Clearance) {
				continue
			}
			if at, ok := m.meet(&a[i], &b[k]); ok {
				return at, a[i].plane.flat(at), true
			}
		}
	}
	return Vec{}, geom.Point{}, false
}

// meeter keeps what the test of two slabs works with.
type meeter struct {
	hits []float64
	a, b []span
}

// meet finds a place in both slabs. Inside both of them the planes at any two
// depths cross in a line; the line is in both slabs where the stretches that lie
// in either's outline overlap. Depths are tried from face to face, so close that
// the lines are at most half the thickness apart.
func (m *meeter) meet(a, b *slab) (Vec, bool) {
	w := a.plane.n.Cross(b.plane.n)
	sin := w.Len()
	if sin <= num.ParallelPlates {
		return alongsideSlabs(a, b)
	}
	w = w.Mul(1 / sin)
	steps := 2
	for sin*float64(steps) < 2 && steps < mostDepths {
		steps *= 2
	}
	for _, i := range [3]float64{0, -1, 1} {
		for k := 0; k <= steps; k++ {
			ha := i * (a.half - num.Clearance)
			hb := (2*float64(k)/float64(steps) - 1) * (b.half - num.Clearance)
			if at, ok := m.line(a, b, w, ha, hb); ok {
				return at, true
			}
		}
	}
	return Vec{}, false
}

// mostDepths bounds the depths that are tried for plates at a small angle.
const mostDepths = 256

// line tests one pair of depths.
func (m *meeter) line(a, b *slab, w Vec, ha, hb float64) (Vec, bool) {
	na, nb := a.plane.n, b.plane.n
	c := na.Dot(nb)
	da, db := na.Dot(a.plane.o)+ha, nb.Dot(b.plane.o)+hb
	k := 1 / (1 - c*c)
	p := na.Mul((da - c*db) * k).Add(nb.Mul((db - c*da) * k))
	m.a, m.hits = appendSpans(m.a[:0], m.hits, a.plane.flat(p), a.plane.flatDir(w), a.loops...)
	if len(m.a) == 0 {
		return Vec{}, false
	}
	m.b, m.hits = appendSpans(m.b[:0], m.hits, b.plane.flat(p), b.plane.flatDir(w), b.loops...)
	for i, k := 0, 0; i < len(m.a) && k < len(m.b); {
		from, to := max(m.a[i].from, m.b[k].from), min(m.a[i].to, m.b[k].to)
		if to-from > num.Clearance {
			return p.Add(w.Mul((from + to) / 2)), true
		}
		if m.a[i].to < m.b[k].to {
			i++
		} else {
			k++
		}
	}
	return Vec{}, false
}

// alongsideSlabs tests two slabs that lie parallel: by the area that their
// outlines share where their depths overlap.
func alongsideSlabs(a, b *slab) (Vec, bool) {
	off := b.plane.o.Sub(a.plane.o).Dot(a.plane.n)
	low, high := max(-a.half, off-b.half), min(a.half, off+b.half)
	if high-low <= num.Clearance {
		return Vec{}, false
	}
	same, err := geom.Intersection(evenOdd(a.loops, geom.Motion{}), evenOdd(b.loops, onto(&a.plane, &b.plane)))
	if err != nil {
		return Vec{}, false
	}
	for _, r := range same {
		if r.Area() > num.OverlapArea {
			p := r.Bounds().Centre()
			if r.Contains(p) != geom.Inside {
				p = r.Outer[0].Mid()
			}
			return a.plane.at(p, (low+high)/2), true
		}
	}
	return Vec{}, false
}

// onto carries the flat coordinates of plane b to those of a, which lies
// parallel.
func onto(a, b *plane) geom.Motion {
	x := a.flatDir(b.x)
	t := geom.Motion{}
	if a.n.Dot(b.n) < 0 {
		t = geom.MirrorX()
	}
	o := a.flat(b.o)
	return t.Then(geom.Rotate(math.Atan2(x.Y, x.X))).Then(geom.Translate(o.X, o.Y))
}

// evenOdd is the first loop less the others, moved.
func evenOdd(loops []geom.Loop, t geom.Motion) []geom.Region {
	r := geom.Region{Outer: loops[0].Transform(t)}
	for _, l := range loops[1:] {
		h := l.Transform(t)
		if h.Area() > 0 {
			h = h.Reverse()
		}
		r.Holes = append(r.Holes, h)
	}
	return []geom.Region{r}
}
