package paper

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Wrap is what a template that is wrapped round a tube has beside the outline of
// the paper that stays: all in the outline's own coordinates.
type Wrap struct {
	Entries []Entry    // of the title block, in place of those of a plate; the first five stand before the paper
	Grind   []geom.Seg // a second line, drawn dashed
	Waste   []geom.Seg // hatching of what is cut off
	Tab     []geom.Seg // the glue tab beyond the outline
	Guides  []Guide
	Arrows  []Arrow
	Labels  []Label
}

// Entry is one cell of the title block.
type Entry struct {
	Label, Words string
	Strong       bool
}

// Guide is a line along the tube with its name beside its lower end, and again
// along a long one.
type Guide struct {
	Line geom.Seg // from below
	Name string
	Also string // what else it is, behind the name or where there is room
	Left bool   // the name stands on its left
	Edge bool   // it lies on an edge of the paper and is not drawn
	High float64
}

// Arrow is a straight arrow, at the first of its places where it and its words along
// it cover nothing; else where its words find a place nearby. Where there is none
// both are left out: notes have to say the same.
type Arrow struct {
	Places []geom.Seg
	Words  string
}

// Label is words with a leader to a place, or to another one that does as well:
// the one with the shortest leader. Over is words that stand above one of the
// places, below it, or upright on it, without a leader, where there is room. Where they find none that is clear
// they are left out: notes have to say the same.
type Label struct {
	At    geom.Point
	Or    []geom.Point
	Words string
	Over  string
	Up    bool // Over is written upwards
}

// reachable reports what of a wrap lies out of reach.
func (w *Wrap) reachable() bool {
	if w == nil {
		return true
	}
	for _, l := range [3][]geom.Seg{w.Grind, w.Waste, w.Tab} {
		if beyond(l) != nobody {
			return false
		}
	}
	for i := range w.Guides {
		l := &w.Guides[i].Line
		if !within(l.A.X, l.A.Y, l.B.X, l.B.Y) {
			return false
		}
	}
	for i := range w.Arrows {
		for _, p := range w.Arrows[i].Places {
			if !within(p.A.X, p.A.Y, p.B.X, p.B.Y) || num.Zero(p.A.Dist(p.B)) {
				return false
			}
		}
	}
	for i := range w.Labels {
		for _, p := range append([]geom.Point{w.Labels[i].At}, w.Labels[i].Or...) {
			if !within(p.X, p.Y) {
				return false
			}
		}
	}
	return true
}

// covers is the box with what the wrap adds to it.
func (w *Wrap) covers(r geom.Box) geom.Box {
	if w == nil {
		return r
	}
	for _, l := range [3][]geom.Seg{w.Grind, w.Waste, w.Tab} {
		for i := range l {
			r = r.Union(l[i].Bounds())
		}
	}
	return r
}

// entries are the cells of the title block, that of the paper among them.
func (w *Wrap) entries() []entry {
	es := make([]entry, 0, len(w.Entries)+1)
	for i, e := range w.Entries {
		if i == paperEntry {
			es = append(es, entry{label: "paper"})
		}
		es = append(es, entry{clean(e.Label), clean(e.Words), e.Strong})
	}
	for len(es) <= paperEntry {
		es = append(es, entry{label: map[bool]string{true: "paper"}[len(es) == paperEntry]})
	}
	return es
}

// first is the first cell of the title block in one line.
func (w *Wrap) first() string {
	if len(w.Entries) == 0 {
		return ""
	}
	return clean(w.Entries[0].Label + " " + w.Entries[0].Words)
}

// shows is what the sheets are of.
func (j *job) shows() string {
	if j.o.Wrap != nil {
		return "Wrap template"
	}
	return "Flat part"
}

// thing is what the sheets show, in a word.
func (j *job) thing() string {
	if j.o.Wrap != nil {
		return "template"
	}
	return "part"
}

// Room below a template for its width, and above it for words, mm.
const (
	wrapBelow = dimOff + dimPast + 1.5
	wrapAbove = 34.0
)

// guideName is how far a guide's name stands from its line, and guideAgain from
// where to where a long line has its name, mm: one on each page of several.
const (
	guideName  = 1.2
	guideAgain = 90.0
)

// wrapWork draws what a template has beside its outline.
func (d *drawing) wrapWork(j *job) {
	w := j.o.Wrap
	if w == nil {
		return
	}
	m := geom.Translate(d.s.Offset.X, d.s.Offset.Y)
	d.strokesOn(GrindLines, w.Grind, m)
	d.strokesOn(Hatching, w.Waste, m)
	d.strokesOn(TabEdges, w.Tab, m)
	var labels []label
	for i := range w.Guides {
		if l := w.Guides[i].Line.Transform(m); !w.Guides[i].Edge {
			d.s.seg(Guides, l)
			d.f.addEdge(l)
		}
	}
	for i := range w.Guides {
		labels = append(labels, d.named(w.Guides[i], m)...)
	}
	d.spread(labels)
	for i := range w.Arrows {
		d.wrapArrow(&w.Arrows[i])
	}
	for i := range w.Labels {
		l := &w.Labels[i]
		places := append([]geom.Point{l.At}, l.Or...)
		if !d.over(clean(l.Over), places, l.Up) {
			d.nearest(clean(l.Words), places)
		}
	}
	for i := range w.Guides {
		d.again(w.Guides[i], m)
	}
}

// named writes the name of a line along the tube; what finds no room beside the
// line is given back as a label.
func (d *drawing) named(g Guide, m geom.Motion) []label {
	either := func(words string) bool {
		if d.guide(&g, words, m) {
			return true
		}
		if g.Edge {
			return false
		}
		o := g
		o.Left = !o.Left
		return d.guide(&o, words, m)
	}
	name, also := clean(g.Name), clean(g.Also)
	whole := name
	if also != "" {
		whole += ", " + also
	}
	if either(whole) {
		return nil
	}
	if also == "" || !either(name) {
		also = whole
	}
	return []label{newCallout(g.Line.Transform(m).At(0.5), nobody, shape{}, also)}
}

// again writes the name of a long line along the tube once more where there is
// room, so that each page of several has it.
func (d *drawing) again(g Guide, m geom.Motion) {
	long := g.Line.Length()
	for h := g.High + guideAgain; h < long; h += guideAgain {
		for _, off := range [...]float64{0, 20, -20, 40} {
			at := g
			at.High = h + off
			if at.High < long && d.guide(&at, clean(g.Name), m) {
				break
			}
		}
	}
}

// over writes words above one of the places, or below it, or upright on it; false
// where there is no room.
func (d *drawing) over(words string, places []geom.Point, up bool) bool {
	if words == "" {
		return false
	}
	for _, id := range [...]LayerID{Callouts, SmallTags} {
		for _, p := range places {
			size := styles[specs[id].Style].Size
			t := Text{At: p.Add(d.s.Offset), Anchor: Middle, Up: up, S: words}
			if up {
				t.At.X += (capHeight - descent) * size / 2
			} else {
				t.At.Y += guideName + descent*size
			}
			if d.written(id, t) {
				return true
			}
		}
	}
	if up {
		return false
	}
	for _, p := range places {
		at := p.Add(d.s.Offset)
		at.Y -= guideName + capHeight*styles[specs[Callouts].Style].Size
		if d.written(Callouts, Text{At: at, Anchor: Middle, S: words}) {
			return true
		}
	}
	return false
}

// written writes words where they cover nothing.
func (d *drawing) written(id LayerID, t Text) bool {
	t.Style = specs[id].Style
	if b := t.Box(); d.f.free(b) {
		d.s.text(id, t)
		d.f.addBox(b)
		return true
	}
	return false
}

// beside writes words along an arrow on either side of it; false where there is no
// room.
func (d *drawing) beside(words string, a, b geom.Point) bool {
	mid := a.Add(b).Mul(0.5)
	for _, id := range [...]LayerID{Callouts, SmallTags} {
		size := styles[specs[id].Style].Size
		t := Text{Anchor: Middle, S: words, Up: math.Abs(b.Y-a.Y) > math.Abs(b.X-a.X)}
		near, far := guideName+descent*size, guideName+capHeight*size
		for _, off := range [2]float64{near, -far} {
			if t.At = pt(mid.X, mid.Y+off); t.Up {
				t.At = pt(mid.X-off, mid.Y)
			}
			if d.written(id, t) {
				return true
			}
		}
	}
	return false
}

// nearest writes words with a leader to one of the places: the shortest leader
// that is clear.
func (d *drawing) nearest(words string, places []geom.Point) bool {
	if words == "" {
		return true
	}
	calls := make([]*callout, len(places))
	orders := make([][numBearings]uint8, len(places))
	for i, p := range places {
		calls[i] = newCallout(p.Add(d.s.Offset), nobody, shape{}, words)
		orders[i] = outward(calls[i].at, d.middle)
	}
	for _, reach := range reaches {
		for i, c := range calls {
			for _, k := range orders[i] {
				if c.try(d, bearings[k], reach) {
					return true
				}
			}
		}
	}
	return closely(func(u geom.Point, reach float64) bool {
		for _, c := range calls {
			if c.try(d, u, reach) {
				return true
			}
		}
		return false
	})
}

func (d *drawing) strokesOn(id LayerID, segs []geom.Seg, m geom.Motion) {
	for i := range segs {
		g := segs[i].Transform(m)
		d.s.seg(id, g)
		d.f.addEdge(g)
	}
}

// wrapArrow draws an arrow with its words.
func (d *drawing) wrapArrow(r *Arrow) {
	words := clean(r.Words)
	for _, leader := range [2]bool{false, true} {
		for _, p := range r.Places {
			a, b := p.A.Add(d.s.Offset), p.B.Add(d.s.Offset)
			// Open to a line, and no text under it.
			if !d.f.open(a, b, nobody) || !d.f.free(centred(a.Add(b).Mul(0.5), max(1, math.Abs(a.X-b.X)), max(1, math.Abs(a.Y-b.Y)))) {
				continue
			}
			before := d.mark()
			d.s.line(Leaders, a, b)
			d.arrow(b, b.Sub(a))
			d.f.addLine(a, b, false, nobody)
			at := func(share float64) geom.Point { return p.A.Add(p.B.Sub(p.A).Mul(share)) }
			if !leader && d.beside(words, a, b) || leader && d.nearest(words, []geom.Point{at(0.4), at(0.2), at(0.6)}) {
				return
			}
			d.rewind(before)
		}
	}
}

// guide writes words beside a line along the tube; false where there is no room.
func (d *drawing) guide(g *Guide, words string, m geom.Motion) bool {
	l := g.Line.Transform(m)
	size := styles[TagText].Size
	t := Text{At: pt(l.A.X+guideName+capHeight*size, l.A.Y+g.High), Up: true, Style: TagText, S: words}
	if g.Left {
		t.At.X = l.A.X - guideName
	}
	if words == "" {
		return true
	}
	if t.Box().Y1 > min(l.A.Y, l.B.Y)+l.Length() || !d.f.free(t.Box()) {
		return false
	}
	d.s.text(Tags, t)
	d.f.addBox(t.Box())
	return true
}
