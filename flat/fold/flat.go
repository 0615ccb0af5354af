package fold

import (
	"blankwright/flat/bend"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Flat is a flat pattern. Its coordinates are those of the base, mm.
type Flat struct {
	T       float64
	Outline geom.Region // with the openings of the base and the reliefs; without the holes
	Panels  []Panel     // the base first, then the flanges in their order
	Bends   []Bend      // in the order of the flanges
	Holes   []FlatHole  // of the base first, then of the flanges in their order
	Reliefs []FlatRelief
	InLine  []Pair
}

// Panel is a straight part of the flat, between tangent lines and cut edges.
type Panel struct {
	Name   string
	Bend   int         // that it hangs on; -1 for the base
	Region geom.Region // without the holes
	Motion geom.Motion // from the coordinates that its holes were given in to the flat
}

// Bend is a bend of the flat.
type Bend struct {
	Name      string // of the flange that it turns
	Parent    int    // panels
	Child     int
	Bend      bend.Bend
	Allowance bend.Allowance // with the rule in words
	Down      bool
	Line      geom.Seg    // bend line: the middle of the zone, from left to right across the metal
	Root, Far geom.Seg    // tangent lines, as far as the metal hangs together, on the parent's and on the flange's side
	Zone      geom.Region // the metal that is bent
	Out       geom.Point  // unit vector square to the line, from the parent to the flange

	// What was asked, for holding the folded part against it.
	Height   float64
	From, At bend.Reference
	Edge     geom.Seg // the edge that the flange stands on, in the parent's plane, from left to right
	OnEnd    bool     // that edge is the free end of a flange
}

// Direction is which way the bend turns, seen on the upper side: `up` or `down`.
func (b *Bend) Direction() string {
	if b.Down {
		return "down"
	}
	return "up"
}

// FlatHole is a hole in the flat: a circle is still one.
type FlatHole struct {
	Name  string
	Panel int
	Loop  geom.Loop  // counter-clockwise
	Given geom.Point // its centre as it was given, on its panel
	At    geom.Point // its centre in the flat
	// The bend whose tangent line is nearest to its edge, and how near, mm; -1 for
	// a panel without bends.
	Bend    int
	Tangent float64
}

// FlatRelief is a relief in the flat, as far as it was cut.
type FlatRelief struct {
	Bend   int
	Corner bool // where two bends meet
	Loop   geom.Loop
}

// Flatten makes the flat pattern. The error is Problems, each with its place:
// numbers that cannot be, no room, a flat that overlaps itself, reliefs and holes
// in each other's way.
func Flatten(p *Part) (*Flat, error) {
	m := &maker{part: p}
	m.tree()
	if err := m.problems.err(); err != nil {
		return nil, err
	}
	for n := range m.nodes {
		m.roots(n)
		m.cutsOf(n)
	}
	for k := range m.joints {
		m.width(&m.joints[k])
	}
	if err := m.problems.err(); err != nil {
		return nil, err
	}
	for n := range m.nodes {
		m.trim(n)
	}
	m.placeHoles()
	m.pairs()
	if err := m.problems.err(); err != nil {
		return nil, err
	}
	f := m.flat()
	m.unite(f)
	if err := m.problems.err(); err != nil {
		return nil, err
	}
	return f, nil
}

// width checks that reliefs leave something of a bend.
func (m *maker) width(j *joint) {
	if r := j.root(); r.B.Sub(r.A).Dot(j.u) <= num.Coincident {
		m.problems.add(NoRoom, j.name(), "make the flange wider or its reliefs smaller", "the bend of flange %s has no width left between its reliefs", j.name()).
			at(m.flatPoint(j.parent, r.A))
	}
}

// trim cuts a panel back to its tangent lines.
func (m *maker) trim(n int) {
	d := &m.nodes[n]
	d.piece = d.region
	if len(d.cuts) == 0 {
		return
	}
	off := make([]geom.Region, len(d.cuts))
	for i, c := range d.cuts {
		off[i].Outer = c.loop
	}
	left, err := geom.Difference([]geom.Region{d.region}, off)
	switch {
	case err != nil:
		m.problems.add(NoRoom, d.name, "", "panel %s cannot be cut back to its bends: %s", d.name, err.Error())
	case len(left) == 0:
		m.problems.add(NoRoom, d.name, "make it larger, or the radii smaller", "nothing of panel %s is left between its bends and reliefs", d.name).
			at(m.flatPoint(n, d.region.Bounds().Centre()))
	case len(left) > 1:
		m.problems.add(Cut, d.name, "move flanges or reliefs apart", "bends and reliefs cut panel %s into %d pieces", d.name, len(left)).
			at(m.flatPoint(n, left[1].Bounds().Centre()))
	default:
		d.piece = left[0]
	}
}

// flat puts everything in its place.
func (m *maker) flat() *Flat {
	f := &Flat{T: m.part.T, InLine: m.part.InLine}
	f.Panels = make([]Panel, len(m.nodes))
	f.Bends = make([]Bend, len(m.joints))
	holes := 0
	for n := range m.nodes {
		holes += len(m.nodes[n].holes)
	}
	f.Holes = make([]FlatHole, 0, holes)
	for n := range m.nodes {
		d := &m.nodes[n]
		f.Panels[n] = Panel{Name: d.name, Bend: d.up, Region: d.piece.Transform(d.toFlat), Motion: geom.Translate(0, -d.shift).Then(d.toFlat)}
		for i := range d.holes {
			f.Holes = append(f.Holes, m.flatHole(n, &d.holes[i], f.Panels[n].Motion))
		}
		for _, c := range d.cuts {
			if !c.strip {
				f.Reliefs = append(f.Reliefs, FlatRelief{c.joint, c.corner, c.loop.Transform(d.toFlat)})
			}
		}
	}
	for k := range m.joints {
		j := &m.joints[k]
		to := m.nodes[j.parent].toFlat
		f.Bends[k] = Bend{
			Name: j.name(), Parent: j.parent, Child: j.child, Bend: j.bend, Allowance: j.allow, Down: j.flange.Down,
			Line: j.middle().Transform(to), Root: j.root().Transform(to), Far: j.far().Transform(to),
			Zone: j.zone().Transform(to), Out: to.Dir(j.out),
			Height: j.flange.Height, From: j.flange.From, At: j.flange.At,
			Edge:  geom.Line(j.at(0, j.set), j.at(j.length, j.set)).Transform(to),
			OnEnd: j.parent > 0 && j.flange.Edge == EndEdge,
		}
	}
	return f
}

// Region is the flat as it is cut: outline, openings and holes.
func (f *Flat) Region() geom.Region {
	r := geom.Region{Outer: f.Outline.Outer, Holes: make([]geom.Loop, 0, len(f.Outline.Holes)+len(f.Holes))}
	r.Holes = append(r.Holes, f.Outline.Holes...)
	for _, h := range f.Holes {
		r.Holes = append(r.Holes, h.Loop.Reverse())
	}
	return r
}

// Transform moves the flat pattern, perhaps mirrored. A mirrored flat is folded
// the same way up: what turned up still does. Its lines start at the image of the
// left end, and its holes keep the places that they were given.
func (f *Flat) Transform(t geom.Motion) *Flat {
	g := *f
	g.Outline = f.Outline.Transform(t)
	g.Panels = make([]Panel, len(f.Panels))
	for i, p := range f.Panels {
		p.Region, p.Motion = p.Region.Transform(t), p.Motion.Then(t)
		g.Panels[i] = p
	}
	g.Bends = make([]Bend, len(f.Bends))
	for i, b := range f.Bends {
		b.Line, b.Root, b.Far, b.Edge = b.Line.Transform(t), b.Root.Transform(t), b.Far.Transform(t), b.Edge.Transform(t)
		b.Zone, b.Out = b.Zone.Transform(t), t.Dir(b.Out)
		g.Bends[i] = b
	}
	g.Holes = make([]FlatHole, len(f.Holes))
	for i, h := range f.Holes {
		h.Loop, h.At = h.Loop.Transform(t), t.Apply(h.At)
		g.Holes[i] = h
	}
	g.Reliefs = make([]FlatRelief, len(f.Reliefs))
	for i, r := range f.Reliefs {
		r.Loop = r.Loop.Transform(t)
		g.Reliefs[i] = r
	}
	return &g
}

// Hole gives a hole by its name.
func (f *Flat) Hole(name string) (*FlatHole, bool) {
	for i := range f.Holes {
		if f.Holes[i].Name == name {
			return &f.Holes[i], true
		}
	}
	return nil, false
}
