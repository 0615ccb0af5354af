package fold

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// piece is one part of the flat: a panel, or with panel -1 the metal of a bend.
type piece struct {
	region geom.Region
	panel  int
	bend   int
	box    geom.Box
}

// pieces are all parts of the flat: panels, then bends.
func (f *Flat) pieces() []piece {
	ps := make([]piece, 0, len(f.Panels)+len(f.Bends))
	for i := range f.Panels {
		r := f.Panels[i].Region
		ps = append(ps, piece{r, i, -1, r.Bounds()})
	}
	for i := range f.Bends {
		r := f.Bends[i].Zone
		ps = append(ps, piece{r, -1, i, r.Bounds()})
	}
	return ps
}

func (f *Flat) pieceName(p *piece) string {
	if p.panel >= 0 {
		return f.panelName(p.panel)
	}
	return "the bend of flange " + f.Bends[p.bend].Name
}

func (f *Flat) panelName(n int) string {
	if n == 0 {
		return f.Panels[0].Name
	}
	return "flange " + f.Panels[n].Name
}

// owner is the panel that is to be changed where a piece is in the way.
func (f *Flat) owner(p *piece) int {
	if p.panel >= 0 {
		return p.panel
	}
	return f.Bends[p.bend].Child
}

// unite makes the outline of the flat, and holds it against its pieces: every
// bend hangs on its panels along all its width, the areas add up, and so do the
// boundaries less what neighbours share. Then no two pieces cover the same
// metal, and none touch that should not.
func (m *maker) unite(f *Flat) {
	if m.hanging(f); len(m.problems) > 0 {
		return
	}
	ps := f.pieces()
	rs := make([]geom.Region, len(ps))
	var area, perimeter float64
	for i := range ps {
		rs[i] = ps[i].region
		area += rs[i].Area()
		perimeter += rs[i].Perimeter()
	}
	for i := range f.Bends {
		perimeter -= 2 * (f.Bends[i].Root.Length() + f.Bends[i].Far.Length())
	}
	whole := rs
	if len(rs) > 1 {
		var err error
		if whole, err = geom.Union(rs, nil); err != nil {
			m.problems.add(Overlap, m.part.Base.name(), "", "the outline of the flat cannot be made: %s", err.Error())
			return
		}
	}
	var gotArea, gotPerimeter float64
	for i := range whole {
		gotArea += whole[i].Area()
		gotPerimeter += whole[i].Perimeter()
	}
	if len(whole) == 1 && math.Abs(gotArea-area) <= num.OverlapArea+num.AreaSlack*area &&
		math.Abs(gotPerimeter-perimeter) <= num.SharedLength+num.AreaSlack*perimeter {
		f.Outline = whole[0]
		f.Outline.Outer = straightened(f.Outline.Outer)
		m.sound(f)
		return
	}
	m.overlaps(f, ps)
	if len(m.problems) == 0 {
		m.problems.add(Unsound, m.part.Base.name(), "move an edge, a relief or a flange's end by a hundredth, or make the reliefs a little wider",
			"the outline of the flat cannot be made exact: edges of its panels and bends all but meet (%d pieces, area %s for %s mm2, boundary %s for %s)", len(whole),
			num.Short(gotArea, 4), num.Short(area, 4), mm(gotPerimeter), mm(perimeter))
	}
}

// sound checks that the outline does not touch itself in single points.
func (m *maker) sound(f *Flat) {
	var bad *geom.InvalidError
	if err := f.Outline.Validate(); errors.As(err, &bad) {
		m.problems.add(Cut, m.part.Base.name(), "let flanges stand farther off the ends of their edges, or make the reliefs there wider",
			"the outline of the flat touches itself").at(bad.At)
	}
}

// hanging finds bends that do not hang on their panels along all their width.
func (m *maker) hanging(f *Flat) {
	for i := range f.Bends {
		b := &f.Bends[i]
		for _, s := range [2]struct {
			panel int
			line  geom.Seg
		}{{b.Parent, b.Root}, {b.Child, b.Far}} {
			if free := s.line.Length() - shared(f.Panels[s.panel].Region, s.line); free > num.SharedLength {
				m.problems.add(Cut, b.Name, "move the flange, its neighbours or their reliefs so that its whole width stays attached",
					"the bend of flange %s hangs free of %s over %s of its %s", b.Name, f.panelName(s.panel), mm(free), mm(s.line.Length())).
					at(s.line.Mid())
			}
		}
	}
}

// shared is how much of a line is boundary of a region.
func shared(r geom.Region, line geom.Seg) float64 {
	d := line.DirA()
	l := line.Length()
	sum := 0.0
	for i := -1; i < len(r.Holes); i++ {
		loop := r.Outer
		if i >= 0 {
			loop = r.Holes[i]
		}
		for k := range loop {
			s := &loop[k]
			u, v := s.A.Sub(line.A), s.B.Sub(line.A)
			if s.Bulge != 0 || !num.Zero(d.Cross(u)) || !num.Zero(d.Cross(v)) {
				continue
			}
			ta, tb := d.Dot(u), d.Dot(v)
			sum += max(0, min(l, max(ta, tb))-max(0, min(ta, tb)))
		}
	}
	return sum
}

// overlaps finds pieces that cover the same metal, or touch without belonging
// together.
func (m *maker) overlaps(f *Flat, ps []piece) {
	for i := range ps {
		for k := range i {
			a, b := &ps[k], &ps[i]
			if f.neighbours(a, b) || !a.box.Grow(num.Coincident).Meets(b.box) {
				continue
			}
			m.overlap(f, a, b)
		}
	}
}

// neighbours reports whether a bend hangs on a panel.
func (f *Flat) neighbours(a, b *piece) bool {
	if b.panel >= 0 {
		a, b = b, a
	}
	if a.panel < 0 || b.panel >= 0 {
		return false
	}
	bend := &f.Bends[b.bend]
	return bend.Parent == a.panel || bend.Child == a.panel
}

func (m *maker) overlap(f *Flat, a, b *piece) {
	name := f.Panels[max(f.owner(a), f.owner(b))].Name
	same, err := geom.Intersection([]geom.Region{a.region}, []geom.Region{b.region})
	if err == nil {
		for _, r := range same {
			if r.Area() > num.OverlapArea {
				box := r.Bounds()
				m.problems.add(Overlap, name, "make one of them shorter or narrower, or taper it",
					"the flat overlaps itself: %s and %s need the same %s of metal", f.pieceName(a), f.pieceName(b), byBy(box)).at(box.Centre())
				return
			}
		}
	}
	if n := geom.LoopLoop(a.region.Outer, b.region.Outer); n.D <= num.Coincident && alongside(a.region, b.region) > num.SharedLength {
		m.problems.add(Touch, name, "leave a gap for the cut between them",
			"%s and %s touch in the flat: nothing parts them", f.pieceName(a), f.pieceName(b)).at(n.P)
	}
}

// alongside is the length of straight boundary that two regions share.
func alongside(a, b geom.Region) float64 {
	sum := 0.0
	for _, s := range a.Outer {
		if s.Bulge == 0 {
			sum += shared(b, s)
		}
	}
	return sum
}

func byBy(b geom.Box) string {
	return fmt.Sprintf("%s x %s mm", num.Short(b.Width(), 2), num.Short(b.Height(), 2))
}

// straightened is the loop without the vertices at which it runs straight on.
func straightened(l geom.Loop) geom.Loop {
	out := make(geom.Loop, 0, len(l))
	for _, s := range l {
		if n := len(out); n > 0 && runsOn(&out[n-1], &s) {
			out[n-1] = geom.Line(out[n-1].A, s.B)
			continue
		}
		out = append(out, s)
	}
	if n := len(out); n > 3 && runsOn(&out[n-1], &out[0]) {
		out[0] = geom.Line(out[n-1].A, out[0].B)
		out = out[:n-1]
	}
	return out
}

// runsOn reports whether two straight segments are one.
func runsOn(s, t *geom.Seg) bool {
	if s.Bulge != 0 || t.Bulge != 0 {
		return false
	}
	d := geom.Line(s.A, t.B)
	return geom.PointSeg(s.B, d).D <= num.Collinear && s.DirA().Dot(t.DirA()) > 0
}
