package blank

import (
	"math"
	"slices"

	"blankwright/flat/geom"
)

// pieces says how many of each hand are wanted.
type pieces struct{ drawn, mirrored int }

// hands reads hand: and quantity:. A pair splits its quantity evenly; a pair
// without a quantity is one of each.
func (m *maker) hands() pieces {
	p := m.part
	n := p.Quantity.N
	if p.Quantity.Set && n < 1 {
		m.problems.Add(p.Quantity.Pos, "quantity is %d, wanted 1 or more", n)
	}
	if n < 1 {
		n = 1
	}
	switch p.Hand.Text {
	case "", "as drawn":
		return pieces{drawn: n}
	case "mirrored":
		return pieces{mirrored: n}
	case "pair":
		if !p.Quantity.Set {
			return pieces{1, 1}
		}
		if n%2 != 0 {
			m.problems.AddHint(p.Quantity.Pos, "quantity counts pieces, not pairs",
				"quantity is %d, and a pair needs as many mirrored as drawn: wanted an even number", n)
		}
		return pieces{n / 2, n / 2}
	}
	m.problems.AddHint(p.Hand.Pos, "hand is one of: as drawn, mirrored, pair", "unknown hand %q", p.Hand.Text)
	return pieces{}
}

// twins gives the blank for each hand that is wanted.
func (b *Blank) twins(n pieces) []*Blank {
	var all []*Blank
	if n.mirrored > 0 {
		t := b.mirrored()
		t.Quantity = n.mirrored
		all = append(all, t)
	}
	if n.drawn > 0 {
		b.Quantity = n.drawn
		all = append([]*Blank{b}, all...)
	}
	return all
}

// mirrored is the blank's image across the y axis: new coordinates, nothing
// left for a reader of the drawing to turn over. Names and order of the holes
// are kept, circles are carried exactly.
func (b *Blank) mirrored() *Blank {
	t := *b
	t.Hand = Mirrored
	if b.Formed != nil {
		t.Formed = b.Formed.mirrored()
		t.Notes = slices.Clone(b.Notes)
		for i, n := range t.Notes {
			if n == b.Formed.grainNote() {
				t.Notes[i] = t.Formed.grainNote()
			}
		}
	}
	t.Outline = b.Outline.Transform(geom.MirrorY())
	t.Holes = make([]Hole, len(b.Holes))
	for i, h := range b.Holes {
		h.move(acrossY.point(h.Centre), acrossY.angle(h.Angle))
		h.trace()
		t.Holes[i] = h
	}
	t.Cutouts = make([]Cutout, len(b.Cutouts))
	for i := range b.Cutouts {
		t.Cutouts[i] = b.Cutouts[i].mirrored()
	}
	t.Edges = make([]Edge, len(b.Edges))
	for i := range b.Edges {
		t.Edges[i] = b.Edges[i].mirrored(len(b.Outline))
	}
	t.Loads = make([]Load, len(b.Loads))
	for i := range b.Loads {
		t.Loads[i] = b.Loads[i].mirrored()
	}
	t.Welds = make([]Weld, len(b.Welds))
	for i := range b.Welds {
		t.Welds[i] = b.Welds[i].mirrored()
	}
	t.Marks = make([]MarkText, len(b.Marks))
	for i, k := range b.Marks {
		k.At, k.FromRight = acrossY.point(k.At), !k.FromRight
		t.Marks[i] = k
	}
	return &t
}

// move puts a hole elsewhere, with a slot's long axis at an angle of its own.
func (h *Hole) move(to geom.Point, angle float64) {
	h.Centre = to
	if h.Length != 0 {
		h.Angle = angle
		h.Callout = h.words.at(angle)
	}
}

// flip is a mirroring across one axis or both.
type flip struct{ x, y bool } // which coordinates change sign

var (
	acrossX    = flip{y: true}
	acrossY    = flip{x: true}
	acrossBoth = flip{x: true, y: true}
)

// point mirrors a place; nothing stays plain nothing.
func (f flip) point(p geom.Point) geom.Point {
	if f.x {
		p.X = 0 - p.X
	}
	if f.y {
		p.Y = 0 - p.Y
	}
	return p
}

// angle mirrors a slot's long axis, which looks the same after half a turn. A
// mirrored angle lies in [0, π).
func (f flip) angle(a float64) float64 {
	if f.x == f.y {
		return a // mirrored twice: half a turn
	}
	a = math.Mod(0-a, math.Pi)
	if a < 0 {
		a += math.Pi
	}
	if a >= math.Pi {
		a = 0
	}
	return a
}
