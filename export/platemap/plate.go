package platemap

import (
	"fmt"
	"strconv"
	"strings"

	"blankwright/export/paper"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// at is a place of the sheet on the page; the picture stands in the middle of its
// room.
func (d *spread) at(q geom.Point) geom.Point {
	c := d.box.Centre()
	return geom.Point{X: (d.room.X0+d.room.X1)/2 + (q.X-c.X)*d.scale, Y: (d.room.Y0+d.room.Y1)/2 + (q.Y-c.Y)*d.scale}
}

// loop draws a closed line of the plate.
func (d *spread) loop(on paper.LayerID, l geom.Loop) {
	if c, ok := l.Circle(); ok {
		d.s.Layers[on].Circles = append(d.s.Layers[on].Circles, geom.Circle{C: d.at(c.C), R: c.R * d.scale})
		return
	}
	for i, g := range l {
		// The very same point for both neighbours, so that the path stays one.
		d.s.Layers[on].Segs = append(d.s.Layers[on].Segs, geom.BulgeSeg(d.at(g.A), d.at(l[(i+1)%len(l)].A), g.Bulge))
	}
}

const closeUpsFollow = "see the close-ups that follow"

// plate draws the sheet, what is cut from it and what is left.
func (d *spread) plate() {
	d.parts()
	for _, r := range d.p.Left {
		d.leftover(r)
	}
	d.sizes()
	d.tellBare()
	if d.small = d.withoutNumbers(); len(d.small) == 0 {
		return
	}
	if d.close = d.closeUps(); len(d.close) > 0 {
		d.tellSmall(len(d.small), closeUpsFollow, closeUpsFollow)
		return
	}
	d.tellCSV(len(d.small))
}

// parts draws the edges of the sheet and what lies on it, with its numbers.
func (d *spread) parts() {
	d.loop(paper.PlateEdge, d.p.Sheet.Outer)
	for _, l := range d.p.Sheet.Holes {
		d.loop(paper.PlateEdge, l)
	}
	d.spots = make([]spot, len(d.p.Kinds))
	for _, k := range d.rows {
		d.spots[k] = d.spotFor(k)
	}
	for _, q := range d.p.Parts {
		r := d.p.Kinds[q.Kind].Region.Transform(q.Motion)
		d.loop(paper.PlateParts, r.Outer)
		s := &d.spots[q.Kind]
		for _, l := range r.Holes {
			if !s.bare {
				d.loop(paper.PlateInside, l)
			}
		}
		if s.style != paper.NoText {
			d.number(q.Kind, d.at(q.Motion.Apply(s.c)), s)
		}
	}
}

// withoutNumbers are the parts whose kinds have no room for their numbers.
func (d *spread) withoutNumbers() (small []Part) {
	for _, q := range d.p.Parts {
		if d.spots[q.Kind].style == paper.NoText {
			small = append(small, q)
		}
	}
	return small
}

// tellBare notes whose openings gave way to their numbers.
func (d *spread) tellBare() {
	var bare []string
	for _, k := range d.rows {
		if d.spots[k].bare {
			bare = append(bare, strconv.Itoa(k+1))
		}
	}
	switch len(bare) {
	case 0:
	case 1:
		d.note("openings are left out, for its number, of part " + bare[0])
	default:
		d.note("openings are left out, for their numbers, of parts " + strings.Join(bare, ", "))
	}
}

// tellSmall notes how many parts have no number, and what helps.
func (d *spread) tellSmall(n int, one, many string) {
	switch n {
	case 0:
	case 1:
		d.note("1 part is too small here for a number: " + one)
	default:
		d.note(fmt.Sprintf("%d parts are too small here for their numbers: %s", n, many))
	}
}

func (d *spread) tellCSV(n int) {
	d.tellSmall(n, "the CSV tells its place", "the CSV tells their places")
}

// leftover is drawn dashed with its size, where that has room.
func (d *spread) leftover(r geom.Region) {
	d.loop(paper.PlateLeft, r.Outer)
	for _, l := range r.Holes {
		d.loop(paper.PlateLeft, l)
	}
	b := r.Bounds()
	words := "left: " + d.size(b.Width()) + " x " + d.size(b.Height()) + " " + d.unit()
	place := roomiest(r)
	c := d.at(place.c)
	t := paper.Text{Anchor: paper.Middle, Style: paper.SmallText, S: words}
	w, h := t.Box().Width(), t.Box().Height()
	switch {
	case d.clear(r, c, w, h):
		write(d.s, paper.PlateNumbers, c.Sub(geom.Point{Y: h / 3}), paper.Middle, words)
	case d.clear(r, c, h, w):
		d.s.Layers[paper.PlateNumbers].Texts = append(d.s.Layers[paper.PlateNumbers].Texts,
			paper.Text{At: c.Add(geom.Point{X: h / 3}), Anchor: paper.Middle, Up: true, Style: paper.SmallText, S: words})
	}
}

// clear reports whether a box of w by h mm on paper about c lies in the region.
func (d *spread) clear(r geom.Region, c geom.Point, w, h float64) bool {
	mid := d.box.Centre()
	back := func(x, y float64) geom.Point {
		return geom.Point{X: mid.X + (x-(d.room.X0+d.room.X1)/2)/d.scale, Y: mid.Y + (y-(d.room.Y0+d.room.Y1)/2)/d.scale}
	}
	l := geom.Polygon(back(c.X-w/2, c.Y-h/2), back(c.X+w/2, c.Y-h/2), back(c.X+w/2, c.Y+h/2), back(c.X-w/2, c.Y+h/2))
	if r.Contains(back(c.X, c.Y)) != geom.Inside {
		return false
	}
	for _, e := range append([]geom.Loop{r.Outer}, r.Holes...) {
		if geom.LoopLoop(l, e).D == 0 {
			return false
		}
	}
	return true
}

func (d *spread) unit() string {
	if d.p.Unit == unit.Inch {
		return "in"
	}
	return "mm"
}

func (d *spread) size(mm float64) string {
	if d.p.Unit == unit.Inch {
		return num.Short(mm/unit.MM, 2)
	}
	return num.Short(mm, 1)
}

// sizes are the sheet's, below it and on its left, where its zero is and which way
// its grain runs.
func (d *spread) sizes() {
	lo, hi := d.at(d.box.Min), d.at(d.box.Max)
	wide := paper.Text{At: geom.Point{X: (lo.X + hi.X) / 2, Y: lo.Y - 4.5}, Anchor: paper.Middle, Style: paper.Values.Spec().Style,
		S: d.size(d.box.Width()) + " " + d.unit()}
	if wide.Box().X0 < lo.X { // where the words for the zero are
		wide.At.X, wide.Anchor = lo.X, paper.Start
	}
	d.s.Layers[paper.Values].Texts = append(d.s.Layers[paper.Values].Texts, wide)
	t := paper.Text{At: geom.Point{X: lo.X - 2, Y: (lo.Y + hi.Y) / 2}, Anchor: paper.Middle, Up: true, Style: paper.Values.Spec().Style,
		S: d.size(d.box.Height()) + " " + d.unit()}
	d.s.Layers[paper.Values].Texts = append(d.s.Layers[paper.Values].Texts, t)
	if zero := d.at(geom.Point{}); d.box.Grow(1 / d.scale).Holds(geom.Point{}) {
		line(d.s, paper.Punches, zero.Sub(geom.Point{X: 2}), zero.Add(geom.Point{X: 2}))
		line(d.s, paper.Punches, zero.Sub(geom.Point{Y: 2}), zero.Add(geom.Point{Y: 2}))
		write(d.s, paper.PlateNumbers, zero.Sub(geom.Point{X: 1, Y: 3}), paper.End, "0,0")
	}
	if d.p.Grain {
		a, b := geom.Point{X: hi.X - 30, Y: lo.Y - 3.2}, geom.Point{X: hi.X - 10, Y: lo.Y - 3.2}
		line(d.s, paper.Dimensions, a, b)
		for _, tip := range [...]struct {
			at  geom.Point
			way float64
		}{{a, 1}, {b, -1}} {
			l := geom.Polygon(tip.at, tip.at.Add(geom.Point{X: 2.5 * tip.way, Y: 0.6}), tip.at.Add(geom.Point{X: 2.5 * tip.way, Y: -0.6}))
			d.s.Layers[paper.Arrows].Segs = append(d.s.Layers[paper.Arrows].Segs, l...)
		}
		write(d.s, paper.Values, geom.Point{X: hi.X - 9, Y: lo.Y - 4.5}, paper.Start, "grain")
	}
}
