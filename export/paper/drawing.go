package paper

import (
	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// drawing is the part on its sheet while labels are being placed.
type drawing struct {
	s       *Sheet
	f       *field
	b       *blank.Blank
	sys     unit.System
	outline geom.Loop // on the page
	part    Rect      // its bounds
	middle  geom.Point
}

// draw puts the part into the area, with everything that belongs to it. It
// reports whether every label found a place of its own.
func draw(s *Sheet, j *job, area Rect, tagged bool) bool {
	w, h := j.need()
	r := j.rooms
	s.Offset = geom.Point{
		X: area.X0 + (area.Width()-w)/2 + r.X0 - j.bounds.Min.X,
		Y: area.Y0 + (area.Height()-h)/2 + r.Y0 - j.bounds.Min.Y,
	}
	s.field.clear(area)
	d := &drawing{s: s, f: &s.field, b: j.b, sys: j.sys}
	d.place(j)
	for i := range d.b.Holes {
		d.opening(i)
	}
	d.axes()
	d.overall(j.sides)
	d.plateMarks()
	n := len(s.Crowded)
	if tagged {
		d.tags(j.groups)
	} else {
		d.callouts(j.groups)
	}
	d.balloons(j.marks)
	return len(s.Crowded) == n
}

func (d *drawing) place(j *job) {
	m := geom.Translate(d.s.Offset.X, d.s.Offset.Y)
	if c, ok := d.b.Outline.Circle(); ok {
		c = c.Transform(m)
		d.outline = geom.CircleLoop(c)
		d.s.circle(Outline, c.C, c.R)
	} else {
		for _, g := range d.b.Outline {
			d.s.seg(Outline, g.Transform(m))
		}
		d.outline = geom.Loop(d.s.Layers[Outline].Segs)
	}
	for _, g := range d.outline {
		d.f.addEdge(g)
	}
	for i := range d.b.Cutouts {
		d.cutout(d.b.Cutouts[i].Loop.Transform(m))
	}
	o := d.s.Offset
	d.part = Rect{j.bounds.Min.X + o.X, j.bounds.Min.Y + o.Y, j.bounds.Max.X + o.X, j.bounds.Max.Y + o.Y}
	d.middle = geom.Point{X: (d.part.X0 + d.part.X1) / 2, Y: (d.part.Y0 + d.part.Y1) / 2}
}

// cutout draws an opening of any shape: its edge alone, to be cut along.
func (d *drawing) cutout(l geom.Loop) {
	if c, ok := l.Circle(); ok {
		d.s.circle(Openings, c.C, c.R)
	} else {
		for _, g := range l {
			d.s.seg(Openings, g)
		}
	}
	for _, g := range l {
		d.f.addEdge(g)
	}
}

// plateMarks shows the texts that are marked on the plate where their places
// are chosen and on the drawing. The title block tells all of them.
func (d *drawing) plateMarks() {
	for _, m := range d.b.Marks {
		t := Text{At: m.At.Add(d.s.Offset), Style: specs[PlateMarks].Style, S: clean(m.Text)}
		if m.FromRight {
			t.At.X -= Width(t.S, t.Style)
		}
		if r := t.Box(); !m.Auto && d.f.bounds.Holds(r) {
			d.s.text(PlateMarks, t)
			d.f.addBox(r)
		}
	}
}

// label is something that looks for a place.
type label interface {
	put(d *drawing) bool
	force(d *drawing)
	name() string
}

// manyLabels is how many are placed without a second try.
const manyLabels = 200

// spread places labels one after the other. Where one finds no place, all are
// taken up again with that one first; after a few rounds the ones left over are
// drawn at their first choice and noted as crowded.
func (d *drawing) spread(labels []label) {
	rounds := min(len(labels), 4)
	if len(labels) > manyLabels {
		rounds = 0
	}
	for round := 0; ; round++ {
		mark := d.mark()
		failed := -1
		var left []label
		for i, l := range labels {
			if l.put(d) {
				continue
			}
			left = append(left, l)
			if failed < 0 {
				failed = i
			}
		}
		if failed < 0 {
			return
		}
		if round >= rounds || failed == 0 {
			for _, l := range left {
				l.force(d)
				d.s.Crowded = append(d.s.Crowded, l.name())
			}
			return
		}
		d.rewind(mark)
		first := labels[failed]
		copy(labels[1:failed+1], labels[:failed])
		labels[0] = first
	}
}

// state is how much was on the sheet at one moment.
type state struct {
	things int
	segs   [numLayers]int
	rounds [numLayers]int
	texts  [numLayers]int
}

func (d *drawing) mark() (m state) {
	m.things = len(d.f.things)
	for i := range d.s.Layers {
		l := &d.s.Layers[i]
		m.segs[i], m.rounds[i], m.texts[i] = len(l.Segs), len(l.Circles), len(l.Texts)
	}
	return m
}

// rewind takes everything off the sheet that came after the mark.
func (d *drawing) rewind(m state) {
	for i := range d.s.Layers {
		l := &d.s.Layers[i]
		l.Segs, l.Circles, l.Texts = l.Segs[:m.segs[i]], l.Circles[:m.rounds[i]], l.Texts[:m.texts[i]]
	}
	d.f.cut(m.things)
}
