package blank

import (
	"errors"
	"math"
	"slices"
	"strconv"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// piece is one added shape or cutout, drawn.
type piece struct {
	name   string
	title  string // for messages: `cutout "window"`
	pos    diag.Pos
	region geom.Region
	saddle *SaddleFit // of a saddle
	asked  *describe.Saddle
}

// body is the metal while shapes are joined to it and taken out of it.
type body struct {
	*maker
	region   geom.Region // one piece; its openings clockwise
	rims     *geom.Index // of the loops of the plate before the cutouts
	inside   []piece     // cutouts that lie in the metal by themselves
	crossing []piece     // cutouts that meet an edge or one another
	added    []piece
	tabs     []tabShape
	slots    []Cutout
	ring     geom.Circle     // opening of a ring that was drawn; radius 0 without one
	used     map[string]bool // names of openings
}

// form makes the outline, and the openings and edges that shapes, saddles, tabs
// and tab slots make. The outline is nil where something is wrong.
func (m *maker) form(b *Blank) {
	p := m.part
	base, ok := m.base()
	if len(p.Add)+len(p.Cutouts)+len(p.Tabs)+len(p.TabSlots) == 0 {
		if ok {
			b.Outline = base.Outer
			m.keepRing(&base)
		}
		return
	}
	w := body{maker: m, region: base}
	m.takeNames()
	var okAdd, okCut, okSlots bool
	w.added, okAdd = m.pieces(p.Add, "added shape", "added-shape")
	cuts, okCut := m.pieces(p.Cutouts, "cutout", "cutout")
	w.slots, okSlots = m.tabSlots()
	if !ok || !okAdd || !okCut || !okSlots {
		return
	}
	if len(base.Holes) > 0 {
		w.ring, _ = base.Holes[0].Circle()
	}
	if w.join() && w.cut(cuts) && w.setTabs() {
		w.finish(b)
	}
}

// keepRing makes a hole of the opening that a drawn ring has.
func (m *maker) keepRing(r *geom.Region) {
	for _, l := range r.Holes {
		if c, ok := l.Circle(); ok {
			m.ringOpening(c)
		}
	}
}

// takeNames notes the names that the file gives to what is no hole.
func (m *maker) takeNames() {
	p := m.part
	m.taken = make(map[string]bool)
	take := func(w describe.Word) {
		if w.Text == "" {
			return
		}
		if _, hole := m.named[w.Text]; hole || m.taken[w.Text] {
			m.problems.AddHint(w.Pos, "give one of them another name", "two things are named %q", w.Text)
		}
		m.taken[w.Text] = true
	}
	for _, list := range [][]describe.Piece{p.Add, p.Cutouts} {
		for i := range list {
			take(list[i].Name)
		}
	}
	for i := range p.Tabs {
		take(p.Tabs[i].Name)
	}
	for i := range p.TabSlots {
		take(p.TabSlots[i].Name)
	}
}

// nameOf is the name that the file gives, or a spare one by the place in the
// list.
func (m *maker) nameOf(w describe.Word, kind string, i int) string {
	if w.Text != "" {
		return w.Text
	}
	name := m.spareName(kind + "-" + strconv.Itoa(i+1))
	m.taken[name] = true
	return name
}

// pieces draws the entries of a list.
func (m *maker) pieces(list []describe.Piece, what, kind string) ([]piece, bool) {
	if len(list) == 0 {
		return nil, true
	}
	ps := make([]piece, len(list))
	all := true
	for i := range list {
		d, p := &list[i], &ps[i]
		p.pos, p.name = d.Pos, m.nameOf(d.Name, kind, i)
		p.title = what + " " + quoted(p.name)
		ok := false
		if d.Saddle != nil {
			p.title = "saddle " + quoted(p.name)
			ok = m.saddle(d.Saddle, p)
		} else {
			if d.Shape.Pos.Line == 0 {
				d.Shape.Pos = d.Pos
			}
			p.region, ok = m.draw(&d.Shape, "the "+p.title)
		}
		all = all && ok
	}
	return ps, all
}

func regions(ps []piece) []geom.Region {
	rs := make([]geom.Region, len(ps))
	for i := range ps {
		rs[i] = ps[i].region
	}
	return rs
}

// cannot notes that the kernel could not do a step, or could not vouch for its
// result.
func (m *maker) cannot(pos diag.Pos, what string, err error) {
	m.problems.AddHint(pos, "move it a little, so that its edges do not almost fall on others", "%s: %s", what, reason(err))
}

// join adds the added shapes. Together with the outline they have to be one
// piece.
func (w *body) join() bool {
	if len(w.added) == 0 {
		return true
	}
	outline := w.region.Outer
	joined, err := geom.Union([]geom.Region{w.region}, regions(w.added))
	if err != nil {
		w.cannot(w.added[0].pos, "the added shapes cannot be joined to the outline", err)
		return false
	}
	home := slices.IndexFunc(joined, func(r geom.Region) bool { return r.Outer.Contains(outline[0].A) != geom.Outside })
	if home < 0 {
		w.problems.Add(w.added[0].pos, "the outline is lost among the added shapes")
		return false
	}
	for i := range joined {
		if i != home {
			w.apart(&joined[i], &joined[home])
		}
	}
	w.region = joined[home]
	return len(joined) == 1 && w.sound(w.added)
}

// apart tells of added shapes that make a piece of their own.
func (w *body) apart(lone, home *geom.Region) {
	n := geom.LoopLoop(lone.Outer, home.Outer)
	for i := range w.added {
		p := &w.added[i]
		if lone.Outer.Contains(p.region.Outer[0].A) == geom.Outside {
			continue
		}
		if num.Zero(n.D) {
			w.problems.AddHint(p.pos, "let it overlap the plate", "%s only touches the plate, at %s", p.title, w.whereText(n.P))
		} else {
			w.problems.AddHint(p.pos, "move it, or add what joins them", "%s does not touch the plate: it lies %s from it, at %s",
				p.title, w.text(n.D), w.whereText(n.P))
		}
		return
	}
}

func (m *maker) whereText(p geom.Point) string { return "x " + m.text(p.X) + ", y " + m.text(p.Y) }

// tidy draws together the ends of edges too short to be told from nothing, which
// are left where edges almost fall on each other, and holds all loops to the
// kernel's rules.
func tidy(r geom.Region) (geom.Region, error) {
	var err error
	if r.Outer, err = r.Outer.Simplify(0); err != nil {
		return r, err
	}
	holes := make([]geom.Loop, len(r.Holes))
	for i, h := range r.Holes {
		if holes[i], err = h.Simplify(0); err != nil {
			return r, err
		}
	}
	r.Holes = holes
	return r, nil
}

// sound tidies the plate up and tells which shape made an edge touch itself.
func (w *body) sound(made []piece) bool {
	r, err := tidy(w.region)
	if err == nil {
		w.region = r
		return true
	}
	var bad *geom.InvalidError
	if !errors.As(err, &bad) {
		w.problems.Add(made[0].pos, "the outline cannot be made: %s", err.Error())
		return false
	}
	near := slices.MinFunc(made, func(p, q piece) int {
		a, b := geom.PointLoop(bad.At, p.region.Outer).D, geom.PointLoop(bad.At, q.region.Outer).D
		switch {
		case a < b:
			return -1
		case a > b:
			return 1
		}
		return 0
	})
	w.problems.AddHint(near.pos, "make it a little larger or smaller, so that metal is left there or none",
		"%s makes the outline touch itself at %s", near.title, w.whereText(bad.At))
	return false
}

// cut takes the cutouts out. What is left has to be one piece, and each of them
// has to take something.
func (w *body) cut(cuts []piece) bool {
	if len(cuts) == 0 {
		return true
	}
	before := len(w.problems)
	w.sortOut(cuts)
	if len(w.problems) > before {
		return false
	}
	if len(w.crossing) == 0 {
		return true
	}
	left, ok := w.takeOut()
	if !ok {
		return false
	}
	w.idle(left)
	whole := w.region
	w.region = left
	if len(w.problems) > before || !w.sound(w.crossing) {
		return false
	}
	return w.saddlesFit(whole)
}

// sortOut parts the cutouts: those that lie in the metal by themselves become
// openings as they are, the others meet an edge or one another.
func (w *body) sortOut(cuts []piece) {
	boxes := make([]geom.Box, len(cuts))
	for i := range cuts {
		boxes[i] = cuts[i].region.Outer.Bounds()
	}
	w.rims = geom.NewIndex(append([]geom.Loop{w.region.Outer}, w.region.Holes...)...)
	for i := range cuts {
		c := &cuts[i]
		meets := len(c.region.Holes) > 0
		for j := range cuts {
			meets = meets || j != i && overlap(boxes[i], boxes[j])
		}
		switch where, n := w.lies(c.region.Outer); {
		case where == geom.Outside:
			w.problems.AddHint(c.pos, "move it onto the plate, or leave it out", "%s takes nothing off the plate: it lies %s from it, at %s",
				c.title, w.text(n.D), w.whereText(n.P))
		case where == geom.Inside && c.saddle != nil:
			w.problems.AddHint(c.pos, "for a tube that goes through the plate write disc: {at: ..., diameter: "+w.text(2*c.saddle.Circle.R)+"}",
				"%s lies inside the plate and breaks no edge of it", c.title)
		case where == geom.Inside && !meets:
			w.inside = append(w.inside, *c)
		default:
			w.crossing = append(w.crossing, *c)
		}
	}
}

func overlap(a, b geom.Box) bool {
	return a.Min.X <= b.Max.X+num.Coincident && b.Min.X <= a.Max.X+num.Coincident &&
		a.Min.Y <= b.Max.Y+num.Coincident && b.Min.Y <= a.Max.Y+num.Coincident
}

// lies tells where a loop lies that is taken out of the plate: inside the metal,
// outside it, or across an edge. With it comes the distance to the nearest edge.
func (w *body) lies(l geom.Loop) (geom.Side, geom.Near) {
	h, _ := w.rims.Nearest(l, nil)
	if num.Zero(h.D) || w.swallows(l) {
		return geom.OnEdge, h.Near
	}
	return w.region.Contains(l[0].A), h.Near
}

// swallows reports whether a loop that meets no edge of the plate lies round the
// plate, or round an opening of it.
func (w *body) swallows(l geom.Loop) bool {
	in := func(m geom.Loop) bool { return l.Contains(m[0].A) == geom.Inside }
	return in(w.region.Outer) || slices.ContainsFunc(w.region.Holes, in)
}

// mostTold is how many cutouts that cut a plate apart are looked for: each takes
// some steps of the kernel.
const mostTold = 5

// takeOut takes the cutouts that meet an edge out of the plate and tells which of
// them leave nothing, or more than one piece.
func (w *body) takeOut() (geom.Region, bool) {
	cuts := slices.Clone(w.crossing)
	for told := 0; ; told++ {
		left, err := geom.Difference([]geom.Region{w.region}, regions(cuts))
		if err != nil {
			w.cannot(cuts[0].pos, "the cutouts cannot be taken out of the plate", err)
			return geom.Region{}, false
		}
		if len(left) == 1 {
			return left[0], told == 0
		}
		if told == mostTold {
			return geom.Region{}, false
		}
		k, left := w.culprit(cuts, left)
		c := &cuts[k]
		if len(left) == 0 {
			w.problems.AddHint(c.pos, "make it smaller, or move it", "%s leaves nothing of the plate", c.title)
		} else {
			w.fellApart(c, left)
		}
		cuts = slices.Delete(cuts, k, k+1)
	}
}

// culprit finds a cutout that, taken out after all before it, leaves nothing or
// cuts the plate apart: all of them do. It gives what is left then.
func (w *body) culprit(cuts []piece, left []geom.Region) (int, []geom.Region) {
	good, bad := 0, len(cuts) // so many of them leave one piece; so many do not
	for bad-good > 1 {
		mid := (good + bad) / 2
		l, err := geom.Difference([]geom.Region{w.region}, regions(cuts[:mid]))
		if err != nil || len(l) == 1 {
			good = mid
		} else {
			bad, left = mid, l
		}
	}
	return bad - 1, left
}

// fellApart says into how many pieces a cutout parts the plate, and where the
// lesser ones lie.
func (w *body) fellApart(c *piece, left []geom.Region) {
	largest := 0
	for i := range left {
		if left[i].Area() > left[largest].Area() {
			largest = i
		}
	}
	text := ""
	const most = 3
	for i := range left {
		if i == largest {
			continue
		}
		if len(left)-1 > most && text != "" {
			text += ", and more"
			break
		}
		if text != "" {
			text += ", "
		}
		box := left[i].Outer.Bounds()
		text += "one of " + w.text(box.Width()) + " by " + w.text(box.Height()) + " falls off at " +
			w.whereText(box.Min.Add(box.Max).Mul(1.0/2))
	}
	w.problems.AddHint(c.pos, "make it smaller, move it, or leave metal beside it",
		"%s cuts the plate into %d pieces: %s", c.title, len(left), text)
}

// idle tells of cutouts that take nothing: they touch the plate from outside.
func (w *body) idle(left geom.Region) {
	for i := range w.crossing {
		c := &w.crossing[i]
		if w.bitesInto(c.region.Outer) {
			continue
		}
		took := w.region.Area() - left.Area()
		if len(w.crossing) > 1 {
			both, err := geom.Intersection([]geom.Region{w.region}, []geom.Region{c.region})
			if err != nil {
				w.cannot(c.pos, "what the "+c.title+" takes off the plate cannot be told", err)
				return
			}
			took = 0
			for j := range both {
				took += both[j].Area()
			}
		}
		if took <= num.Sliver*c.region.Outer.Perimeter() {
			_, n := w.lies(c.region.Outer)
			w.problems.AddHint(c.pos, "move it onto the plate, or leave it out", "%s takes nothing off the plate: it only touches it, at %s",
				c.title, w.whereText(n.P))
		}
	}
}

// bitesInto reports whether the edge of a cutout runs through the plate, as far as
// its corners and the middles of its sides tell.
func (w *body) bitesInto(l geom.Loop) bool {
	return slices.ContainsFunc(l, func(s geom.Seg) bool {
		return w.region.Contains(s.A) == geom.Inside || w.region.Contains(s.Mid()) == geom.Inside
	})
}

// finish writes the plate into the blank: its outline, its openings, its edges.
func (w *body) finish(b *Blank) {
	b.Outline = w.region.Outer
	for _, l := range w.region.Holes {
		if c, ok := l.Circle(); ok && w.ring.R > 0 && num.Same(c.R, w.ring.R) && num.Zero(c.C.Dist(w.ring.C)) {
			w.ringOpening(c)
			continue
		}
		b.Cutouts = append(b.Cutouts, w.opening(l.Reverse()))
	}
	for i := range w.inside {
		p := &w.inside[i]
		b.Cutouts = append(b.Cutouts, Cutout{Name: p.name, Pos: p.pos, Purpose: CutoutOpening, Loop: p.region.Outer})
	}
	slices.SortStableFunc(b.Cutouts, func(c, d Cutout) int { return c.Pos.Compare(d.Pos) })
	b.Cutouts = append(b.Cutouts, w.slots...)
	for i := range b.Cutouts {
		b.Cutouts[i].trace()
	}
	w.edges(b)
	w.notes(b)
}

// opening names an opening after the first cutout that its edge lies on, or
// after the added shape that encloses it.
func (w *body) opening(l geom.Loop) Cutout {
	c := Cutout{Purpose: CutoutOpening, Loop: l, Fixed: true}
	on := func(p piece) bool {
		return slices.ContainsFunc(l, func(s geom.Seg) bool {
			return num.Zero(geom.PointLoop(s.Mid(), p.region.Outer).D) ||
				slices.ContainsFunc(p.region.Holes, func(h geom.Loop) bool { return num.Zero(geom.PointLoop(s.Mid(), h).D) })
		})
	}
	from := append(slices.Clone(w.crossing), w.added...)
	k := slices.IndexFunc(from, on)
	if k < 0 { // an opening of the outline's own
		c.Pos, c.Name = w.part.Outline.Pos, w.spareName("opening")
		w.maker.taken[c.Name] = true
		return c
	}
	p := &from[k]
	c.Pos, c.Name = p.pos, p.name
	if k >= len(w.crossing) {
		c.Name += "-opening"
	}
	if w.used == nil {
		w.used = make(map[string]bool)
	}
	if w.used[c.Name] || k >= len(w.crossing) {
		c.Name = w.spareName(c.Name)
		w.maker.taken[c.Name] = true
	}
	w.used[c.Name] = true
	return c
}

// edges notes the saddles and tabs of the finished outline.
func (w *body) edges(b *Blank) {
	for i := range w.crossing {
		if p := &w.crossing[i]; p.saddle != nil {
			segs, _ := onCircle(b.Outline, p.saddle.Circle)
			b.Edges = append(b.Edges, Edge{Name: p.name, Pos: p.pos, Role: SaddleEdge, Segs: segs, Saddle: p.saddle})
		}
	}
	for i := range w.tabs {
		t := &w.tabs[i]
		b.Edges = append(b.Edges, Edge{Name: t.name, Pos: t.pos, Role: TabEdge, Segs: t.segs(b.Outline)})
	}
}

// notes tells what was measured and what was taken for granted.
func (w *body) notes(b *Blank) {
	for i := range w.crossing {
		if p := &w.crossing[i]; p.saddle != nil {
			b.Notes = append(b.Notes, w.saddleNote(p))
		}
	}
	for i := range w.tabs {
		b.Notes = append(b.Notes, w.tabs[i].note)
	}
	for i := range w.slots {
		b.Notes = append(b.Notes, w.slotNote(&w.slots[i], &w.part.TabSlots[i]))
	}
}

// degrees writes an angle for people.
func degrees(rad float64) string { return num.Short(rad*180/math.Pi, 2) + " deg" }
