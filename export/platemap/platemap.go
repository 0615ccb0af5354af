// Package platemap draws a picture of one sheet of plate with the parts that are
// cut from it: at a smaller scale, which it states, with the parts' numbers, a
// table of what they are, and what is left of the sheet. It hands over sheets of
// package paper, which the writers render as they are.
//
// Unit: mm; of the plate in the sheet's own coordinates, of the picture on paper.
package platemap

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blankwright/export/paper"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Kind is one kind of part on the sheets of a layout. Its number is its place in
// the list, counted from 1.
type Kind struct {
	Name   string
	Hand   string
	Region geom.Region // in its own coordinates
	Total  int         // pieces on all sheets
}

// words are its name and its hand on a line of w mm; of a long name the end is cut
// off, never the hand.
func (k *Kind) words(w float64) string {
	hand := ", " + k.Hand
	return paper.Fit(k.Name, paper.ValueText, w-paper.Width(hand, paper.ValueText)) + hand
}

// Part is one piece in its place.
type Part struct {
	Kind   int // its place in Picture.Kinds
	Motion geom.Motion
}

// Fact is something that stands at the head of the picture.
type Fact struct{ Label, Words string }

// Picture is what is shown.
type Picture struct {
	Job   string // of the whole layout
	Title string // of this sheet
	Name  string // of this page among others, short
	Sheet geom.Region
	Kinds []Kind
	Parts []Part
	Facts []Fact
	Left  []geom.Region // what goes back to the rack
	Notes []string
	Unit  unit.System
	// Grain says that the plate's grain runs along x.
	Grain bool
	// Nested says that parts may lie in openings of others: then none is left out.
	Nested bool
}

const (
	margin    = 10.0 // of the page that stays blank (as on every other sheet)
	headRow   = 11.0 // the title
	factRow   = 8.8
	factWide  = 44.0 // least width of a fact's cell
	rowHigh   = 4.7
	tableHead = 5.5
	between   = 4.0
	edgeRoom  = 6.0 // beside the picture, for its sizes
	tableMost = 0.4 // of the page's height, before the table goes on on the next page
	columnMin = 82.0
)

// scales are the denominators of the scales that are chosen from.
var scales = [...]float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 25, 30, 35, 40, 50, 60, 80, 100, 150, 200, 300, 400, 500, 1000}

// Draw makes the picture on a page, upright or turned, whichever shows the sheet
// larger; where the table is long it goes on on further pages. It is an error
// where the sheet has no size or is larger than any scale shows.
func Draw(p *Picture, page paper.Page) ([]*paper.Sheet, error) {
	box := p.Sheet.Bounds()
	if !(box.Width() > 0 && box.Height() > 0) {
		return nil, fmt.Errorf("picture of %q: the sheet has no size", p.Title)
	}
	turned := page
	turned.Width, turned.Height = page.Height, page.Width
	best := newSpread(p, page)
	if t := newSpread(p, turned); t.fits > best.fits {
		best = t
	}
	for _, d := range scales {
		if num.AtMost(1/d, best.fits) {
			best.scale, best.words = 1/d, "1:"+num.Short(d, 1)
			return best.draw(), nil
		}
	}
	return nil, fmt.Errorf("picture of %q: a sheet of %s x %s mm is larger than any scale shows", p.Title, num.Short(box.Width(), 0), num.Short(box.Height(), 0))
}

// spread is a picture being laid out on one page.
type spread struct {
	p     *Picture
	page  paper.Page
	box   geom.Box // of the sheet
	here  []int    // pieces of each kind on this sheet
	rows  []int    // kinds that are on this sheet
	first int      // rows of the table on the first page
	cols  int      // columns of the table
	room  paper.Rect
	fits  float64 // the scale that just fits
	scale float64
	words string
	notes []string
	s     *paper.Sheet
}

func newSpread(p *Picture, page paper.Page) *spread {
	d := &spread{p: p, page: page, box: p.Sheet.Bounds(), here: make([]int, len(p.Kinds)), notes: p.Notes}
	for _, q := range p.Parts {
		d.here[q.Kind]++
	}
	for k, n := range d.here {
		if n > 0 {
			d.rows = append(d.rows, k)
		}
	}
	wide := page.Width - 2*margin
	d.cols = max(1, int((wide+between)/(columnMin+between)))
	d.cols = min(d.cols, max(1, (len(d.rows)+3)/4))
	most := int((page.Height*tableMost - tableHead) / rowHigh)
	d.first = min((len(d.rows)+d.cols-1)/d.cols, most)
	top := page.Height - margin - headRow - float64(d.factRows())*factRow - between
	bottom := margin + d.notesHigh() + d.tableHigh(d.first) + between
	d.room = paper.Rect{X0: margin + edgeRoom, Y0: bottom + edgeRoom, X1: page.Width - margin, Y1: top}
	d.fits = min(d.room.Width()/d.box.Width(), d.room.Height()/d.box.Height())
	return d
}

// ownNotes is how many notes may be found to be needed while drawing.
const ownNotes = 2

// notesHigh is the room at the foot of the page.
func (d *spread) notesHigh() float64 { return float64(len(d.p.Notes)+ownNotes) * rowHigh }

func (d *spread) tableHigh(rows int) float64 { return tableHead + float64(rows)*rowHigh }

func (d *spread) factCols() int { return max(1, int((d.page.Width-2*margin)/factWide)) }

// factRows counts the rows of facts; the scale is one more fact.
func (d *spread) factRows() int { return (len(d.p.Facts) + d.factCols()) / d.factCols() }

func (d *spread) newPage(name string) *paper.Sheet {
	whole := func(s string) string { return paper.Fit(s, paper.TitleText, math.Inf(1)) }
	s := &paper.Sheet{Page: d.page, Name: name, Part: whole(d.p.Job), Title: whole(d.p.Job + ", " + d.p.Title),
		Width: d.page.Width, Height: d.page.Height, CheckBlock: paper.NoBlock, Shows: "Sheet at scale " + d.words}
	write(s, paper.Title, geom.Point{X: margin, Y: d.page.Height - margin - 6}, paper.Start,
		paper.Fit(d.p.Job+": "+d.p.Title, paper.TitleText, d.page.Width-2*margin))
	return s
}

func (d *spread) draw() []*paper.Sheet {
	d.s = d.newPage(d.p.Name)
	d.facts()
	d.plate()
	d.foot()
	y := margin + d.notesHigh() + d.tableHigh(d.first)
	rest := d.table(d.rows, y, d.first)
	pages := []*paper.Sheet{d.s}
	for n := 2; len(rest) > 0; n++ {
		d.s = d.newPage(d.p.Name + "-" + strconv.Itoa(n))
		y := d.page.Height - margin - headRow
		rest = d.table(rest, y, int((y-margin-tableHead)/rowHigh))
		pages = append(pages, d.s)
	}
	return pages
}

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

func write(s *paper.Sheet, on paper.LayerID, at geom.Point, anchor paper.Anchor, words string) {
	if words != "" {
		s.Layers[on].Texts = append(s.Layers[on].Texts, paper.Text{At: at, Anchor: anchor, Style: on.Spec().Style, S: words})
	}
}

func line(s *paper.Sheet, on paper.LayerID, a, b geom.Point) {
	s.Layers[on].Segs = append(s.Layers[on].Segs, geom.Line(a, b))
}

// facts stand in cells below the title, the scale last.
func (d *spread) facts() {
	n := d.factCols()
	wide := (d.page.Width - 2*margin) / float64(n)
	all := append(append([]Fact(nil), d.p.Facts...), Fact{"scale", d.words + ", not to be measured"})
	for i, f := range all {
		x := margin + float64(i%n)*wide
		y := d.page.Height - margin - headRow - float64(i/n)*factRow
		write(d.s, paper.Labels, geom.Point{X: x, Y: y - 2}, paper.Start, paper.Fit(f.Label, paper.LabelText, wide-2))
		write(d.s, paper.Values, geom.Point{X: x, Y: y - 6}, paper.Start, paper.Fit(f.Words, paper.ValueText, wide-2))
	}
}

// plate draws the sheet, what is cut from it and what is left.
func (d *spread) plate() {
	d.loop(paper.PlateEdge, d.p.Sheet.Outer)
	for _, l := range d.p.Sheet.Holes {
		d.loop(paper.PlateEdge, l)
	}
	spots := make([]spot, len(d.p.Kinds))
	var bare []string
	for _, k := range d.rows {
		if spots[k] = d.spotFor(k); spots[k].bare {
			bare = append(bare, strconv.Itoa(k+1))
		}
	}
	left := 0
	for _, q := range d.p.Parts {
		r := d.p.Kinds[q.Kind].Region.Transform(q.Motion)
		d.loop(paper.PlateParts, r.Outer)
		s := &spots[q.Kind]
		for _, l := range r.Holes {
			if !s.bare {
				d.loop(paper.PlateInside, l)
			}
		}
		if s.style == paper.NoText {
			left++
			continue
		}
		d.number(q.Kind, d.at(q.Motion.Apply(s.c)), s)
	}
	for _, r := range d.p.Left {
		d.leftover(r)
	}
	d.sizes()
	if len(bare) > 0 {
		d.note("openings are left out, for their numbers, of parts " + strings.Join(bare, ", "))
	}
	if left == 1 {
		d.note("1 part is too small here for a number: the CSV tells its place")
	} else if left > 1 {
		d.note(fmt.Sprintf("%d parts are too small here for their numbers: the CSV tells their places", left))
	}
}

func (d *spread) note(words string) { d.notes = append(d.notes[:len(d.notes):len(d.notes)], words) }

// spot is where the number of a kind stands, in its own coordinates.
type spot struct {
	c     geom.Point
	on    paper.LayerID
	style paper.Style // NoText where it has no room
	bare  bool        // its openings are left out for it
}

// spotFor finds the place for a kind's number: large or small on the metal, else
// on the outline as if it had no openings.
func (d *spread) spotFor(k int) spot {
	whole := d.p.Kinds[k].Region
	for _, bare := range [...]bool{false, true} {
		r := whole
		if bare {
			r.Holes = nil
		}
		place := roomiest(r)
		for _, on := range [...]paper.LayerID{paper.Tags, paper.PlateNumbers} {
			b := paper.Text{Anchor: paper.Middle, Style: on.Spec().Style, S: strconv.Itoa(k + 1)}.Box()
			if math.Hypot(b.Width(), b.Height())/2 <= place.r*d.scale {
				return spot{place.c, on, on.Spec().Style, bare}
			}
		}
		if len(whole.Holes) == 0 || d.p.Nested {
			break
		}
	}
	return spot{}
}

// number writes a kind's number about a place.
func (d *spread) number(k int, at geom.Point, s *spot) {
	t := paper.Text{Anchor: paper.Middle, Style: s.style, S: strconv.Itoa(k + 1)}
	b := t.Box()
	write(d.s, s.on, at.Sub(geom.Point{Y: (b.Y0 + b.Y1) / 2}), paper.Middle, t.S)
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
	write(d.s, paper.Values, geom.Point{X: (lo.X + hi.X) / 2, Y: lo.Y - 4.5}, paper.Middle, d.size(d.box.Width())+" "+d.unit())
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

// foot writes the notes.
func (d *spread) foot() {
	for i, n := range d.notes {
		write(d.s, paper.Values, geom.Point{X: margin, Y: margin + float64(len(d.notes)-1-i)*rowHigh}, paper.Start,
			paper.Fit(n, paper.ValueText, d.page.Width-2*margin))
	}
}

// table writes rows for some kinds below y, in columns of at most high rows, and
// gives the kinds that are left.
func (d *spread) table(kinds []int, y float64, high int) []int {
	wide := (d.page.Width-2*margin+between)/float64(d.cols) - between
	for c := range d.cols {
		if len(kinds) == 0 {
			break
		}
		n := min(high, len(kinds))
		x := margin + float64(c)*(wide+between)
		here, all := x+wide-12, x+wide
		write(d.s, paper.Labels, geom.Point{X: x, Y: y - 3}, paper.Start, "part")
		write(d.s, paper.Labels, geom.Point{X: here, Y: y - 3}, paper.End, "here")
		write(d.s, paper.Labels, geom.Point{X: all, Y: y - 3}, paper.End, "in all")
		line(d.s, paper.Frame, geom.Point{X: x, Y: y - 4}, geom.Point{X: x + wide, Y: y - 4})
		for i, k := range kinds[:n] {
			base := y - tableHead - float64(i)*rowHigh - 2.5
			kind := &d.p.Kinds[k]
			write(d.s, paper.Strong, geom.Point{X: x, Y: base}, paper.Start, strconv.Itoa(k+1))
			write(d.s, paper.Values, geom.Point{X: x + 9, Y: base}, paper.Start, kind.words(wide-9-22))
			write(d.s, paper.Values, geom.Point{X: here, Y: base}, paper.End, strconv.Itoa(d.here[k]))
			write(d.s, paper.Values, geom.Point{X: all, Y: base}, paper.End, strconv.Itoa(kind.Total))
		}
		kinds = kinds[n:]
	}
	return kinds
}
