package fold

import (
	"math"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Dim is one dimension of the folded part: what was asked, and what is measured
// on the flat pattern folded back. Lengths mm, angles rad.
type Dim struct {
	Name      string // `height of flange left, outside`
	Panel     string // the panel that it belongs to
	Hole      string // the hole, where it is one's place
	Want, Got float64
	Angle     bool
}

// Holds reports whether the dimension came back.
func (d Dim) Holds() bool { return num.AtMost(math.Abs(d.Got-d.Want), 0) }

// Dims measures every dimension that the person gave: angle and height of each
// flange, the width between flanges that face each other, the place of each
// hole on a flange. Heights are taken from where the faces meet in space, or
// from the planes that touch the bends, by what they were given to.
func (g *Folded) Dims() []Dim {
	f := g.Flat
	dims := make([]Dim, 0, 3*len(f.Bends)+2*len(f.Holes))
	for i := range f.Bends {
		b := &f.Bends[i]
		name := "flange " + b.Name
		dims = append(dims,
			Dim{Name: "angle of " + name, Panel: b.Name, Want: b.Bend.A, Got: g.angle(b), Angle: true},
			Dim{Name: "height of " + name + ", " + b.From.String(), Panel: b.Name, Want: b.Height, Got: g.height(i)},
			Dim{Name: "place of the edge under " + name + ", " + b.At.String(), Panel: b.Name, Want: 0, Got: g.edgeMiss(i)})
	}
	for i := range f.Bends {
		for k := range i {
			if want, got, ok := g.width(k, i); ok {
				dims = append(dims, Dim{
					Name:  "width from flange " + f.Bends[k].Name + " to flange " + f.Bends[i].Name + ", " + f.Bends[i].At.String(),
					Panel: f.Bends[i].Name, Want: want, Got: got,
				})
			}
		}
	}
	for i := range f.Holes {
		h := &f.Holes[i]
		up := f.Panels[h.Panel].Bend
		if up < 0 {
			continue
		}
		x, y := g.holePlace(h, up)
		dims = append(dims,
			Dim{Name: "hole " + h.Name + " along the edge", Panel: f.Panels[h.Panel].Name, Hole: h.Name, Want: h.Given.X, Got: x},
			Dim{Name: "height of hole " + h.Name + ", " + f.Bends[up].From.String(), Panel: f.Panels[h.Panel].Name, Hole: h.Name, Want: h.Given.Y, Got: y})
	}
	return dims
}

// angle is the angle between the upper sides of a bend's panels.
func (g *Folded) angle(b *Bend) float64 {
	m, n := g.places[b.Parent].n, g.places[b.Child].n
	return math.Atan2(m.Cross(n).Len(), m.Dot(n))
}

// mark is a place on the reference line of a bend, and the direction in which
// heights over it are measured: on the child's side along the flange, on the
// parent's along its plane and out of it.
func (g *Folded) mark(i int, to bend.Reference, onChild bool) (at, dir Vec) {
	b, w := &g.Flat.Bends[i], &g.bends[i]
	p, c := &g.places[b.Parent], &g.places[b.Child]
	down := c.dir(b.Out)
	if !onChild {
		down = p.dir(b.Out)
	}
	if to == bend.Tangent {
		if onChild {
			return c.at(b.Far.A, 0), down
		}
		return p.at(b.Root.A, 0), down
	}
	if to != bend.Apex && b.Bend.A > math.Pi/2+num.TurnNoise {
		// The plane that touches the bend.
		r := w.r
		if to == bend.Outside {
			r += w.t
		}
		if onChild {
			r = -r
		}
		return w.axis.Add(down.Mul(r)), down
	}
	// Where the faces meet: outer faces lie away from the axis.
	h := g.Flat.T / 2 * w.up
	if to != bend.Inside {
		h = -h
	}
	onParent, onFlange := p.at(b.Root.A, h), c.at(b.Far.A, h)
	out := p.dir(b.Out)
	return onParent.Add(out.Mul(onFlange.Sub(onParent).Dot(c.n) / out.Dot(c.n))), down
}

// height is that of a flange: from its reference to its free end or, where
// another flange stands there, to the reference of that.
func (g *Folded) height(i int) float64 {
	f := g.Flat
	b := &f.Bends[i]
	from, up := g.mark(i, b.From, true)
	for k := range f.Bends {
		if f.Bends[k].Parent == b.Child && f.Bends[k].OnEnd {
			to, _ := g.mark(k, f.Bends[k].At, false)
			return to.Sub(from).Dot(up)
		}
	}
	most := math.Inf(-1)
	p := &g.places[b.Child]
	for _, s := range f.Panels[b.Child].Region.Outer {
		most = max(most, p.at(s.A, 0).Sub(from).Dot(up))
		if s.Bulge != 0 {
			most = max(most, p.at(farthest(&s, b.Out), 0).Sub(from).Dot(up))
		}
	}
	return most
}

// farthest is the point of an arc that lies farthest along a direction.
func farthest(s *geom.Seg, d geom.Point) geom.Point {
	c := s.Circle()
	p := c.C.Add(d.Mul(c.R))
	if offArc(s, p) < 0 {
		return p
	}
	if s.B.Sub(s.A).Dot(d) > 0 {
		return s.B
	}
	return s.A
}

// edgeMiss is how far the reference of a bend lies from the edge that its flange
// was to stand on, out of the parent.
func (g *Folded) edgeMiss(i int) float64 {
	b := &g.Flat.Bends[i]
	at, out := g.mark(i, b.At, false)
	return at.Sub(g.places[b.Parent].at(b.Edge.A, 0)).Dot(out)
}

// width is the distance between the references of two bends on one panel whose
// flanges face each other, where both were given to the same reference.
func (g *Folded) width(i, k int) (want, got float64, ok bool) {
	a, b := &g.Flat.Bends[i], &g.Flat.Bends[k]
	if a.Parent != b.Parent || a.At != b.At || !num.Zero(a.Out.Add(b.Out).Len()) {
		return 0, 0, false
	}
	p, out := g.mark(i, a.At, false)
	q, _ := g.mark(k, b.At, false)
	return a.Edge.A.Sub(b.Edge.A).Dot(a.Out), p.Sub(q).Dot(out), true
}

// holePlace is the place of a hole on its flange: along the edge from its left
// end, and its height.
func (g *Folded) holePlace(h *FlatHole, up int) (x, y float64) {
	b := &g.Flat.Bends[up]
	at := g.places[h.Panel].at(h.At, 0)
	from, dir := g.mark(up, b.From, true)
	parent := &g.places[b.Parent]
	return at.Sub(parent.at(b.Edge.A, 0)).Dot(parent.dir(b.Edge.DirA())), at.Sub(from).Dot(dir)
}

// Alignment is how well two holes meant for one bolt lie in line.
type Alignment struct {
	Pair
	Offset float64 // the largest distance between their axes where the metal is, mm
	Tilt   float64 // the angle between their axes, rad
	// Shift is where the second hole should go in its panel of the flat to be in
	// line with the first, as a move in the flat's coordinates.
	Shift geom.Point
}

// Holds reports whether the holes are in line.
func (a Alignment) Holds() bool {
	return num.AtMost(a.Offset, 0) && a.Tilt <= num.Clearance
}

// InLine measures the pairs of holes that are meant for one bolt.
func (g *Folded) InLine() []Alignment {
	var all []Alignment
	for _, p := range g.Flat.InLine {
		a, okA := g.Flat.Hole(p.A)
		b, okB := g.Flat.Hole(p.B)
		if okA && okB {
			all = append(all, g.Align(a, b))
		}
	}
	return all
}

// Align measures two holes against each other. The offset is how far the axis of
// the first, run on to the plane of the second, misses the second's centre; for
// panels square to each other it is the distance of the second's centre from
// that axis.
func (g *Folded) Align(a, b *FlatHole) Alignment {
	p, n := g.HoleAxis(a)
	q, m := g.HoleAxis(b)
	out := Alignment{Pair: Pair{a.Name, b.Name}}
	cos := math.Abs(n.Dot(m))
	out.Tilt = math.Atan2(n.Cross(m).Len(), cos)
	d := p.Sub(q)
	if cos > num.ParallelPlates {
		d = p.Add(n.Mul(q.Sub(p).Dot(m) / n.Dot(m))).Sub(q)
	} else {
		d = d.Sub(n.Mul(d.Dot(n)))
	}
	out.Offset = d.Len()
	out.Shift = g.places[b.Panel].flatDir(d)
	return out
}
