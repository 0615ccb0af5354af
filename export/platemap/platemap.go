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
	tableMost = 0.4 // of the page's height, before the table has pages of its own
	columnMin = 82.0
	leastRoom = 60.0  // of the picture, mm, before the table gives way
	mostNotes = 6     // on the first page
	leastPage = 148.0 // the narrow side of A5
)

// scales are the denominators of the scales that are chosen from.
var scales = [...]float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 25, 30, 35, 40, 50, 60, 80, 100, 150, 200, 300, 400, 500, 1000}

// Draw makes the picture on a page, upright or turned, whichever shows the sheet
// larger; where the table is long it has pages of its own. Where parts of several
// kinds are too small for their numbers, close-ups follow. It is an error where the sheet has no size or is larger than any scale shows.
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
	fixed int           // notes that stand before the drawing is made
	aside bool          // the picture's notes have pages of their own
	spots []spot        // of the kinds' numbers
	discs map[look]disc // the kinds' roomiest places
	small []Part        // parts without a number
	close []*paper.Sheet
	s     *paper.Sheet
}

func newSpread(p *Picture, page paper.Page) *spread {
	d := &spread{p: p, page: page, box: p.Sheet.Bounds(), here: make([]int, len(p.Kinds)), discs: map[look]disc{}}
	for _, q := range p.Parts {
		d.here[q.Kind]++
	}
	for k, n := range d.here {
		if n > 0 {
			d.rows = append(d.rows, k)
		}
	}
	d.notes = p.Notes
	if d.aside = len(p.Notes) > mostNotes; d.aside {
		d.notes = append(p.Notes[:mostNotes-1:mostNotes-1], fmt.Sprintf("and %d more: all are listed at the end", len(p.Notes)-mostNotes+1))
	}
	d.fixed = len(d.notes)
	wide := page.Width - 2*margin
	d.cols = max(1, int((wide+between)/(columnMin+between)))
	d.cols = min(d.cols, max(1, (len(d.rows)+3)/4))
	most := int((page.Height*tableMost - tableHead) / rowHigh)
	if d.first = (len(d.rows) + d.cols - 1) / d.cols; d.first > most {
		d.first = 0 // the table goes on pages of its own, and the picture has the whole of this one
	}
	if d.fit(); d.first > 0 && d.room.Height() < leastRoom {
		d.first = 0
		d.fit()
	}
	return d
}

// fit gives the picture what the head, the table and the notes leave of the page.
func (d *spread) fit() {
	top := d.page.Height - margin - headRow - float64(d.factRows())*factRow - between
	bottom := margin + d.notesHigh() + d.tableHigh(d.first) + between
	d.room = paper.Rect{X0: margin + edgeRoom, Y0: bottom + edgeRoom, X1: d.page.Width - margin, Y1: top}
	d.fits = min(d.room.Width()/d.box.Width(), d.room.Height()/d.box.Height())
}

// Takes reports whether a paper takes the picture of any sheet.
func Takes(page paper.Page) bool {
	a, b := min(page.Width, page.Height), max(page.Width, page.Height)
	return num.AtLeast(a, leastPage) && num.AtLeast(b, leastPage*math.Sqrt2-1)
}

func (d *spread) newPage() *paper.Sheet { return d.newPageBeside(0) }

// newPageBeside is a page whose title leaves so many mm on its right.
func (d *spread) newPageBeside(right float64) *paper.Sheet {
	whole := func(s string) string { return paper.Fit(s, paper.TitleText, math.Inf(1)) }
	s := &paper.Sheet{Page: d.page, Name: d.p.Name, Part: whole(d.p.Job), Title: whole(d.p.Job + ", " + d.p.Title),
		Width: d.page.Width, Height: d.page.Height, CheckBlock: paper.NoBlock, Shows: "Sheet at scale " + d.words}
	write(s, paper.Title, geom.Point{X: margin, Y: d.page.Height - margin - 6}, paper.Start,
		paper.Fit(d.p.Job+": "+d.p.Title, paper.TitleText, d.page.Width-2*margin-right))
	return s
}

func (d *spread) draw() []*paper.Sheet {
	d.s = d.newPage()
	d.facts()
	d.plate()
	if d.first == 0 && len(d.rows) > 0 {
		d.note("what the numbers stand for: see the table on the next page")
	}
	d.foot()
	rest := d.rows
	if d.first > 0 {
		rest = d.table(rest, margin+d.notesHigh()+d.tableHigh(d.first), d.first)
	}
	pages := []*paper.Sheet{d.s}
	for len(rest) > 0 {
		d.s = d.newPage()
		y := d.page.Height - margin - headRow
		high := int((y - margin - tableHead) / rowHigh)
		d.cols = min(d.cols, (len(rest)+high-1)/high)
		rest = d.table(rest, y, high)
		pages = append(pages, d.s)
	}
	pages = append(pages, d.close...)
	if d.aside {
		pages = d.notePages(pages)
	}
	for i, s := range pages[1:] {
		s.Name += "-" + strconv.Itoa(i+2)
	}
	return pages
}
