package paper

import (
	"strconv"
	"strings"

	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Writer takes words, tables and pictures, one after the other.
type Writer interface {
	Heading(words string)
	Text(words string)
	Strong(words string)
	Table(head []string, rows [][]string)
	Picture(p *Picture)
}

// Book is words, tables and pictures that fill as many pages as they take. They
// are not to scale and have no check bars.
type Book struct {
	Title string
	Unit  unit.System // chooses the paper where Page is ""
	Page  string      // the paper, as FindPage takes it
	Foot  []string    // under every page, after the caution that every page carries
	items []item
}

// item is one thing in a book. put draws as much as fits into the room below y
// and gives the height used and whether it is done; fresh says that the page has
// nothing on it yet.
type item interface {
	put(s *Sheet, x, y, w, room float64, fresh bool) (used float64, done bool)
}

// Heading begins a section.
func (b *Book) Heading(words string) { b.items = append(b.items, &headItem{clean(words)}) }

// Text adds a paragraph.
func (b *Book) Text(words string) {
	b.items = append(b.items, &textItem{words: clean(words), id: Values})
}

// Strong adds a heavy paragraph.
func (b *Book) Strong(words string) {
	b.items = append(b.items, &textItem{words: clean(words), id: Strong})
}

// Table adds a table. Cells that are too long for their column are broken into
// lines.
func (b *Book) Table(head []string, rows [][]string) {
	if len(rows) > 0 {
		b.items = append(b.items, newTable(head, rows))
	}
}

// Picture is lines and words, Width x Height mm on paper, y up from its lower
// left corner.
type Picture struct {
	Width, Height float64
	Lines         []geom.Seg
	Thin          []geom.Seg
	Dashed        []geom.Seg
	Circles       []geom.Circle
	Words         []PictureWords
}

// PictureWords is a line of words with its middle at At.
type PictureWords struct {
	At geom.Point
	S  string
}

// Picture adds a picture.
func (b *Book) Picture(p *Picture) { b.items = append(b.items, &pictureItem{p}) }

const (
	bookHead  = 13.0 // title and the line under it
	bookGap   = 2.5  // between two items
	listGap   = 0.5  // between two lines of a list: texts that begin with a dash
	headRoom  = 30.0 // what a heading wants below it, or it goes over to the next page
	cellSpace = 3.0  // between two columns
	leastCell = 14.0 // width of a column that is broken
)

// Sheets draws the book. The error is for a paper that is not known or too
// narrow for words.
func (b *Book) Sheets() ([]*Sheet, error) {
	page, err := b.paper()
	if err != nil {
		return nil, err
	}
	u := Rect{margin, margin, page.Width - margin, page.Height - margin}
	foot := wrapped([]string{caution}, u.Width())
	for _, f := range b.Foot {
		foot = append(foot, wrapped([]string{clean(f)}, u.Width())...)
	}
	bottom := u.Y0 + float64(len(foot))*valuePitch + 2
	var pages []*Sheet
	left := b.items
	for len(left) > 0 || len(pages) == 0 {
		s := newSheet(page, Reading{}, b.Title)
		s.CheckBlock, s.Shows = NoBlock, "Papers"
		y := u.Y1 - bookHead
		fresh := true
		for len(left) > 0 {
			used, done := left[0].put(s, u.X0, y, u.Width(), y-bottom, fresh)
			if !done {
				if used == 0 && fresh {
					return nil, errNarrow(page)
				}
				break
			}
			y -= used + bookGap
			if t, ok := left[0].(*textItem); ok && strings.HasPrefix(t.words, "- ") {
				y += bookGap - listGap
			}
			left, fresh = left[1:], false
		}
		s.bookFrame(b.Title, u, bottom, foot)
		pages = append(pages, s)
		if len(pages) > mostPages {
			return nil, ErrTooMany
		}
	}
	for i, s := range pages {
		n := strconv.Itoa(i+1) + " of " + strconv.Itoa(len(pages))
		s.text(Strong, Text{At: pt(u.X1, u.Y1-5), Anchor: End, S: n})
	}
	return pages, nil
}

type errNarrow Page

func (e errNarrow) Error() string {
	return "paper " + Page(e).Name + ", " + Page(e).sides() + ", is too small for a table; take a larger one"
}

func (b *Book) paper() (Page, error) {
	sys := b.Unit
	if sys == unit.Unset {
		sys = unit.Millimetre
	}
	p := Pages(sys)[0]
	if b.Page != "" {
		q, err := FindPage(b.Page)
		if err != nil {
			return Page{}, err
		}
		if !q.Roll {
			p = q
		}
	}
	return p, nil
}

func (s *Sheet) bookFrame(title string, u Rect, bottom float64, foot []string) {
	words := clean(title)
	if room := u.Width() - 22; len(words) < 200 && Width(words, TitleText) <= room {
		s.write(Title, u.X0, u.Y1-6, words)
	} else {
		s.write(Strong, u.X0, u.Y1-5, fit(words, StrongText, room))
	}
	s.rule(Frame, u.X0, u.Y1-9, u.X1, u.Y1-9)
	s.rule(Frame, u.X0, bottom, u.X1, bottom)
	y := bottom - valuePitch
	for _, f := range foot {
		s.write(Values, u.X0, y, f)
		y -= valuePitch
	}
}

type headItem struct{ words string }

func (i *headItem) put(s *Sheet, x, y, w, room float64, fresh bool) (float64, bool) {
	if room < headRoom && !fresh {
		return 0, false
	}
	above := 2.5
	if fresh {
		above = 0
	}
	s.write(Strong, x, y-above-3.5, fit(i.words, StrongText, w))
	s.rule(Frame, x, y-above-5, x+w, y-above-5)
	return above + 5, true
}

type textItem struct {
	words string
	id    LayerID
	from  int
}

const longestText = 60 // lines

func (i *textItem) put(s *Sheet, x, y, w, room float64, _ bool) (used float64, done bool) {
	lines := wrap(i.words, specs[i.id].Style, w, longestText)
	for i.from < len(lines) && used+valuePitch <= room {
		used += valuePitch
		s.write(i.id, x, y-used+1, lines[i.from])
		i.from++
	}
	return used, i.from == len(lines)
}

type pictureItem struct{ p *Picture }

func (i *pictureItem) put(s *Sheet, x, y, w, room float64, fresh bool) (float64, bool) {
	p := i.p
	if p.Height > room && !fresh {
		return 0, false
	}
	k := min(1, room/p.Height, w/p.Width)
	x += (w - k*p.Width) / 2
	y -= k * p.Height
	at := func(q geom.Point) geom.Point { return pt(x+k*q.X, y+k*q.Y) }
	for _, l := range [3]struct {
		id   LayerID
		segs []geom.Seg
	}{{Outline, p.Lines}, {Leaders, p.Thin}, {GrindLines, p.Dashed}} {
		for _, g := range l.segs {
			s.seg(l.id, geom.BulgeSeg(at(g.A), at(g.B), g.Bulge))
		}
	}
	for _, c := range p.Circles {
		s.circle(Outline, at(c.C), k*c.R)
	}
	for _, t := range p.Words {
		s.text(Values, Text{At: at(t.At), Anchor: Middle, S: clean(t.S)})
	}
	return k * p.Height, true
}

// tableItem is a table that goes on from page to page, its head on each.
type tableItem struct {
	head  []string
	rows  [][]string
	wide  []float64 // natural widths of the columns
	words []float64 // widths of their longest words
	from  int
}

func newTable(head []string, rows [][]string) *tableItem {
	t := &tableItem{head: make([]string, len(head)), wide: make([]float64, len(head)), words: make([]float64, len(head))}
	take := func(i int, cell string, st Style) {
		t.wide[i] = max(t.wide[i], Width(cell, st))
		from := 0
		for j := 0; j <= len(cell); j++ {
			if j == len(cell) || cell[j] == ' ' {
				t.words[i] = max(t.words[i], Width(cell[from:j], st))
				from = j + 1
			}
		}
	}
	for i, h := range head {
		t.head[i] = clean(h)
		take(i, t.head[i], LabelText)
	}
	for _, r := range rows {
		cells := make([]string, len(head))
		for i := range cells {
			if i < len(r) {
				cells[i] = clean(r[i])
			}
			take(i, cells[i], ValueText)
		}
		t.rows = append(t.rows, cells)
	}
	return t
}

// columns shares the width out: natural widths where they fit, else the widest
// give way first, down to their longest words where that can be had.
func (t *tableItem) columns(w float64) []float64 {
	ws := append([]float64(nil), t.wide...)
	room := w - cellSpace*float64(len(ws)-1)
	for floor := 0; floor < 2; floor++ {
		for {
			sum, most, second := 0.0, -1, 0.0
			for i, v := range ws {
				sum += v
				if floor == 0 && num.AtMost(v, max(t.words[i], leastCell)) {
					continue
				}
				if most < 0 || v > ws[most] {
					if most >= 0 {
						second = max(second, ws[most])
					}
					most = i
				} else {
					second = max(second, v)
				}
			}
			if sum <= room {
				return ws
			}
			if most < 0 || ws[most] <= leastCell {
				break
			}
			least := leastCell
			if floor == 0 {
				least = max(t.words[most], leastCell)
			}
			ws[most] = max(least, min(ws[most]-1, max(second, ws[most]-(sum-room))))
		}
	}
	return ws
}

func (t *tableItem) put(s *Sheet, x, y, w, room float64, fresh bool) (used float64, done bool) {
	ws := t.columns(w)
	headLines, high := t.broken(t.head, ws, LabelText)
	headHigh := float64(high)*3.4 + 1.5
	at := y
	began := false
	for t.from < len(t.rows) {
		lines, n := t.broken(t.rows[t.from], ws, ValueText)
		h := float64(n)*valuePitch + 1.2
		if need := h + map[bool]float64{true: 0, false: headHigh}[began]; y-at+need > room {
			break
		}
		if !began {
			t.row(s, headLines, ws, x, at, Labels, 3.4)
			at -= headHigh
			s.rule(Frame, x, at, x+w, at)
			began = true
		}
		t.row(s, lines, ws, x, at, Values, valuePitch)
		at -= h
		s.rule(Frame, x, at, x+w, at)
		t.from++
	}
	return y - at, t.from == len(t.rows)
}

// broken breaks each cell of a row into lines.
func (t *tableItem) broken(cells []string, ws []float64, st Style) (lines [][]string, most int) {
	for i, c := range cells {
		l := []string{c}
		if !num.AtMost(Width(c, st), ws[i]) {
			l = wrap(c, st, ws[i], 6)
		}
		lines = append(lines, l)
		most = max(most, len(l))
	}
	return lines, most
}

func (t *tableItem) row(s *Sheet, cells [][]string, ws []float64, x, y float64, id LayerID, pitch float64) {
	for i, lines := range cells {
		for j, words := range lines {
			s.write(id, x, y-pitch*float64(j+1)+0.6, words)
		}
		x += ws[i] + cellSpace
	}
}
