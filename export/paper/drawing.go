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
	seamsX  []float64 // where pages meet, if it is cut into several
	seamsY  []float64
	ways    []way  // centre-lines that are still to be drawn
	gaps    []span // scratch
	wrapped bool   // it is a template that goes round a tube
	quick   bool   // no closer search for labels: something else is tried next
}

// kit says what is drawn with the part.
type kit struct {
	tagged   bool // letters at the holes, their words in a table
	numbered bool // letters with numbers: a table tells where each hole is
	dims     bool // overall dimensions, and figures along the edges
	lines    bool // labels keep clear of the centre-lines that lead from holes to figures
	small    bool // small letters
	leave    bool // what finds no clear place is left out, and the sheet says so
	cover    bool // there is no part on the page, only what is said of it
	rooms    Rect // round the part on its four sides, mm
}

// bareRooms are those of a part without dimensions.
var bareRooms = Rect{roomBare, roomBare, roomBare, roomBare}

// kits are tried one after the other until the part fits and no label covers
// anything. Words stand beside few holes, more get letters. Where figures along
// the edges take too much room, or would stand too close, a table takes their
// place.
func (j *job) kits() []kit {
	ks := make([]kit, 0, 7)
	dim := kit{dims: true, rooms: j.rooms}
	bare := kit{rooms: bareRooms}
	if j.o.Wrap != nil {
		return append(ks, dim)
	}
	if len(j.b.Holes) == 0 {
		return append(ks, dim, bare)
	}
	dim.numbered, bare.numbered, bare.tagged = !j.located, true, true
	if j.located {
		dim.lines = true
		if len(j.b.Holes) <= few {
			ks = append(ks, dim)
			dim.lines = false
			ks = append(ks, dim)
			dim.lines = true
		}
		dim.tagged = true
		ks = append(ks, dim)
		dim.lines = false
	}
	dim.tagged = true
	ks = append(ks, dim)
	dim.small = true
	ks = append(ks, dim, bare)
	bare.small = true
	return append(ks, bare)
}

// lastKits are for parts on which not every label finds a clear place.
func (j *job) lastKits() []kit {
	k := kit{dims: true, leave: true, rooms: j.rooms}
	if len(j.b.Holes) > 0 {
		k.tagged, k.numbered, k.small = true, true, true
	}
	if j.o.Wrap != nil {
		return []kit{k}
	}
	bare := k
	bare.dims, bare.rooms = false, bareRooms
	return []kit{k, bare}
}

// draw puts the part into the area, with everything that belongs to it. It
// tells how many labels found no clear place. Where the drawing is to be cut into
// pages, t tells where.
func draw(s *Sheet, j *job, area Rect, k kit, t *tiling) (left int) {
	w, h := j.need(k)
	r := k.rooms
	s.Offset = geom.Point{
		X: area.X0 + (area.Width()-w)/2 + r.X0 - j.bounds.Min.X,
		Y: area.Y0 + (area.Height()-h)/2 + r.Y0 - j.bounds.Min.Y,
	}
	s.field.clear(area)
	d := &drawing{s: s, f: &s.field, b: j.b, sys: j.sys, quick: k.lines, wrapped: j.o.Wrap != nil}
	if t != nil {
		d.seamsX, d.seamsY = t.cols.inner(), t.rows.inner()
	}
	d.place(j)
	for i := range d.b.Holes {
		d.opening(i)
	}
	d.axes()
	if k.dims {
		d.overall()
		d.ordinates(j, k.lines)
	}
	d.plateMarks()
	if t != nil {
		d.crosses(t)
	}
	d.formWork(j)
	d.wrapWork(j)
	if k.tagged {
		d.tags(j.groups, k)
	} else {
		d.callouts(j.groups)
	}
	d.balloons(j.marks)
	d.lead()
	return len(s.Left)
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
	put(d *drawing) bool  // a quick search
	seek(d *drawing) bool // a closer one
	name() string
}

const (
	// manyLabels is how many are placed without a second try.
	manyLabels = 200
	// hopeless is how many labels without a place show that no other order of
	// placing them helps, nor larger paper: the holes stand too close.
	hopeless = 12
)

// spread places labels one after the other. Where one finds no place, all are
// taken up again with that one first; after a few rounds the ones left over are
// sought a place for more closely, and left out where there is none.
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
		if round >= rounds || failed == 0 || len(left) > hopeless {
			for _, l := range left {
				if d.quick || len(left) > hopeless || !l.seek(d) {
					d.s.Left = append(d.s.Left, l.name())
				}
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
