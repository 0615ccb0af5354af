package platemap

import (
	"math"
	"slices"

	"blankwright/export/paper"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

const (
	// mostCloseUps is the most pages of close-ups of one sheet: a person at the
	// table lays out a few pages, not a book.
	mostCloseUps = 6
	// lap is what neighbouring close-ups share, mm on paper: no number is wider,
	// so that each is whole on one of them.
	lap = 12.0
	// edgeShown is how far, mm on paper, a close-up reaches past the edge of the sheet.
	edgeShown = 2.0
	// mapSide is the largest side of the map in the corner of a close-up, mm.
	mapSide = 16.0
)

// closeUp is how the parts that need it are shown larger.
type closeUp struct {
	page   paper.Page
	scale  float64
	words  string
	room   paper.Rect // on the page
	box    geom.Box   // of the parts without a number, on the sheet
	nx, ny int        // windows side by side
}

// closeUps are pages that show the parts without a number as large as their
// numbers need, or as mostCloseUps pages take. There are none where all are of one
// kind, which needs no number, or would not be shown larger.
func (d *spread) closeUps() []*paper.Sheet {
	if len(d.rows) < 2 {
		return nil
	}
	u, ok := d.planCloseUps()
	if !ok {
		return nil
	}
	u.fill(d.box)
	z := *d // the whole sheet at the larger scale, to cut windows from
	z.scale, z.words, z.page, z.notes, z.s = u.scale, u.words, u.page, nil, &paper.Sheet{}
	c := d.box.Centre().Mul(u.scale)
	z.room = paper.Rect{X0: c.X, Y0: c.Y, X1: c.X, Y1: c.Y} // so that the sheet's zero is that of the drawing
	z.parts()
	z.tellBare()
	z.tellCSV(len(z.withoutNumbers()))
	from := &z.s.Layers
	var pages []*paper.Sheet
	for i := range u.nx * u.ny {
		w := u.window(i%u.nx, u.ny-1-i/u.nx)
		if !z.needs(d.small, w) {
			continue
		}
		z.s = z.newPageBeside(mapSide + between)
		z.closeUp(from, w, &u)
		z.foot()
		pages = append(pages, z.s)
	}
	return pages
}

// planCloseUps finds the scale, the page and the windows: the smallest scale at
// which all numbers have room, or the largest that mostCloseUps pages take; then the
// largest for as many pages.
func (d *spread) planCloseUps() (u closeUp, ok bool) {
	var box geom.Box
	for _, q := range d.small {
		box = box.Union(d.p.Kinds[q.Kind].Region.Transform(q.Motion).Bounds())
	}
	wanted := d.numberScale()
	for i := slices.IndexFunc(scales[:], func(s float64) bool { return num.AtMost(1/s, d.scale) }) - 1; i >= 0; i-- {
		t, n := d.closeUpsAt(scales[i], box)
		if n == 0 || n > mostCloseUps || ok && n > u.nx*u.ny && num.AtMost(wanted, u.scale) {
			break
		}
		u, ok = t, true
	}
	return u, ok
}

// closeUpsAt are those at a scale 1:s, on the page that takes fewer of them, and
// their number.
func (d *spread) closeUpsAt(s float64, box geom.Box) (u closeUp, n int) {
	turned := d.page
	turned.Width, turned.Height = d.page.Height, d.page.Width
	for _, page := range [...]paper.Page{d.page, turned} {
		t := closeUp{page: page, scale: 1 / s, words: "1:" + num.Short(s, 1), box: box, room: paper.Rect{
			X0: margin + edgeRoom, Y0: margin + float64(ownNotes)*rowHigh + edgeRoom, X1: page.Width - margin, Y1: page.Height - margin - headRow - between}}
		t.nx, t.ny = windows(box.Width()*t.scale, t.room.Width()), windows(box.Height()*t.scale, t.room.Height())
		if k := t.nx * t.ny; n == 0 || k > 0 && k < n {
			u, n = t, k
		}
	}
	return u, n
}

// numberScale is the scale at which every number has room.
func (d *spread) numberScale() float64 {
	scale := 0.0
	for _, k := range d.rows {
		r := 0.0
		for _, bare := range d.bareness(k) {
			r = max(r, d.roomiest(k, bare).r)
		}
		scale = max(scale, numberRadius(k, paper.PlateNumbers)/r)
	}
	return scale
}

// windows counts the windows of a room that take a length, lapping each other; 0
// where the room is too small for any.
func windows(length, room float64) int {
	if room <= 2*lap {
		return 0
	}
	return max(1, int(math.Ceil((length-lap)/(room-lap))))
}

// fill grows the box to all that the windows can show, so that they show what lies
// about the parts too; not past the sheet's edges.
func (u *closeUp) fill(sheet geom.Box) {
	most := func(n int, room float64) float64 { return (float64(n)*room - float64(n-1)*lap) / u.scale }
	sheet = sheet.Grow(edgeShown / u.scale)
	u.box.Min.X, u.box.Max.X = widened(u.box.Min.X, u.box.Max.X, most(u.nx, u.room.Width()), sheet.Min.X, sheet.Max.X)
	u.box.Min.Y, u.box.Max.Y = widened(u.box.Min.Y, u.box.Max.Y, most(u.ny, u.room.Height()), sheet.Min.Y, sheet.Max.Y)
}

// widened is a stretch made as long as wanted, both ways alike, within limits.
func widened(a, b, wanted, low, high float64) (from, to float64) {
	wanted = min(wanted, high-low)
	if b-a >= wanted {
		return a, b
	}
	from = min(max((a+b-wanted)/2, low), high-wanted)
	return from, from + wanted
}

// window is one of them, on the drawing of the whole sheet; all are of one size.
func (u *closeUp) window(i, k int) paper.Rect {
	along := func(from, length float64, n, i int) (a, b float64) {
		size := (length + float64(n-1)*lap) / float64(n)
		a = from + float64(i)*(size-lap)
		return a, a + size
	}
	x0, x1 := along(u.box.Min.X*u.scale, u.box.Width()*u.scale, u.nx, i)
	y0, y1 := along(u.box.Min.Y*u.scale, u.box.Height()*u.scale, u.ny, k)
	return paper.Rect{X0: x0, Y0: y0, X1: x1, Y1: y1}
}

// closeUp draws one window on its page, in the middle of its room.
func (d *spread) closeUp(from *paper.Layers, w paper.Rect, u *closeUp) {
	to := geom.Point{X: (u.room.X0+u.room.X1)/2 - (w.X0+w.X1)/2, Y: (u.room.Y0+u.room.Y1)/2 - (w.Y0+w.Y1)/2}
	d.s.CopyWindow(from, w, to)
	frame(d.s, paper.Rect{X0: w.X0 + to.X, Y0: w.Y0 + to.Y, X1: w.X1 + to.X, Y1: w.Y1 + to.Y})
	span := func(a, b, low, high float64) string {
		return d.size(max(a/d.scale, low)) + " to " + d.size(min(b/d.scale, high)) + " " + d.unit() + " from zero"
	}
	write(d.s, paper.Values, geom.Point{X: (w.X0+w.X1)/2 + to.X, Y: w.Y0 + to.Y - 4.5}, paper.Middle, "close-up "+d.words+", "+span(w.X0, w.X1, d.box.Min.X, d.box.Max.X))
	d.s.Layers[paper.Values].Texts = append(d.s.Layers[paper.Values].Texts, paper.Text{At: geom.Point{X: w.X0 + to.X - 2, Y: (w.Y0+w.Y1)/2 + to.Y},
		Anchor: paper.Middle, Up: true, Style: paper.Values.Spec().Style, S: span(w.Y0, w.Y1, d.box.Min.Y, d.box.Max.Y)})
	d.whereOnSheet(w)
}

// whereOnSheet is a small map in the corner of the page: the sheet and, filled, the
// window.
func (d *spread) whereOnSheet(w paper.Rect) {
	k := min(mapSide/d.box.Width(), (headRow-1)/d.box.Height())
	at := geom.Point{X: d.page.Width - margin - k*d.box.Width(), Y: d.page.Height - margin - k*d.box.Height()}
	frame(d.s, paper.Rect{X0: at.X, Y0: at.Y, X1: at.X + k*d.box.Width(), Y1: at.Y + k*d.box.Height()})
	place := func(x, y float64) geom.Point {
		return geom.Point{X: at.X + k*(min(max(x/d.scale, d.box.Min.X), d.box.Max.X)-d.box.Min.X),
			Y: at.Y + k*(min(max(y/d.scale, d.box.Min.Y), d.box.Max.Y)-d.box.Min.Y)}
	}
	d.s.Layers[paper.Shade].Segs = append(d.s.Layers[paper.Shade].Segs,
		geom.Polygon(place(w.X0, w.Y0), place(w.X1, w.Y0), place(w.X1, w.Y1), place(w.X0, w.Y1))...)
}

func frame(s *paper.Sheet, r paper.Rect) {
	s.Layers[paper.Frame].Segs = append(s.Layers[paper.Frame].Segs,
		geom.Polygon(geom.Point{X: r.X0, Y: r.Y0}, geom.Point{X: r.X1, Y: r.Y0}, geom.Point{X: r.X1, Y: r.Y1}, geom.Point{X: r.X0, Y: r.Y1})...)
}

// needs reports whether the middle of one of the parts lies in a window.
func (d *spread) needs(parts []Part, w paper.Rect) bool {
	return slices.ContainsFunc(parts, func(q Part) bool {
		return w.Has(d.at(q.Motion.Apply(d.p.Kinds[q.Kind].Region.Bounds().Centre())))
	})
}
