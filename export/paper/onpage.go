package paper

import (
	"fmt"
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// onPaper draws the part on one kind of paper, upright or turned, with the first
// of the kits that does. Otherwise left tells how many labels found no place at
// best, 0 where the part itself does not fit.
func (j *job) onPaper(p Page, kits []kit) (s *Sheet, left int) {
	if p.Roll {
		return j.onRoll(p, kits)
	}
	turns := [2]Page{p, p.turned()}
	if j.bounds.Width() > j.bounds.Height() {
		turns[0], turns[1] = turns[1], turns[0]
	}
	var takes [2][2]bool // what each turn has room for: without dimensions, and with
	for i, q := range turns {
		takes[i] = [2]bool{j.hasRoom(q, kit{rooms: bareRooms}), j.hasRoom(q, kit{dims: true, rooms: j.rooms})}
	}
	for _, k := range kits {
		for i, q := range turns {
			room := &takes[i][0]
			if k.dims {
				room = &takes[i][1]
			}
			if !*room {
				continue
			}
			s, n := j.onPage(q, k)
			switch {
			case s != nil:
				return s, 0
			case n == 0 && k.tagged: // not even with letters, whatever their size
				*room = false
			case n > 0:
				left = fewer(left, n)
			}
		}
	}
	return nil, left
}

// fewer is the smaller of two counts of labels, of which 0 is none yet.
func fewer(a, b int) int {
	if a == 0 || b == 0 {
		return max(a, b)
	}
	return min(a, b)
}

// hasRoom reports whether the page takes the part beside the title block, when
// there is neither table nor list.
func (j *job) hasRoom(p Page, k kit) bool {
	w, h := j.need(k)
	u := j.area(p)
	if u.Width() < w+columnWidth || u.Height() < h+checkHeight {
		return false
	}
	title := j.titleHeight(len(j.entries(p, k)), u.Width()-checkWidth-blockGap, k)
	_, notes := j.asideNotes(title, k)
	foot := float64(len(j.foot(u.Width(), k, notes))) * valuePitch
	high := max(checkHeight, title)
	return u.Height() >= foot+2+high+blockGap+h
}

// onPage draws the part on the page as it is turned; nil when it does not fit, or
// when labels are left and the kit does not leave them out.
func (j *job) onPage(p Page, k kit) (s *Sheet, left int) {
	w, h := j.need(k)
	for _, beside := range [2]bool{false, true} {
		l := j.lay(p, k, beside)
		if l.area.Width() < w || l.area.Height() < h || l.column > l.room || l.band.Width() < leastWidth {
			continue
		}
		s := newSheet(p, j.o.Measured, j.title())
		s.Shows = j.shows()
		n := draw(s, j, l.area, k, nil)
		if n == 0 || k.leave {
			s.furnish(j, l)
			return s, 0
		}
		s.Release()
		left = fewer(left, n)
		if l.table == nil && l.list == nil {
			break // nothing to put beside
		}
	}
	return nil, left
}

// need is the area that the part takes with its dimensions.
func (j *job) need(k kit) (w, h float64) {
	r := k.rooms
	return j.bounds.Width() + r.X0 + r.X1, j.bounds.Height() + r.Y0 + r.Y1
}

// area is where a page may be printed on, in the drawing's own mm.
func (j *job) area(p Page) Rect {
	x, y := j.o.Measured.scale()
	return Rect{margin, margin, p.Width/x - margin, p.Height/y - margin}
}

// step is what lengths of paper are rounded up to, mm.
func (p Page) step() float64 {
	if p.Inch {
		return unit.MM / 2
	}
	return 10
}

// up rounds a length up to one that can be cut, mm.
func (p Page) up(v float64) float64 { return math.Ceil(v/p.step()-num.Coincident) * p.step() }

// ownSizeTries is how often a page of its own size is made a step higher.
const ownSizeTries = 3

// onOwnSize draws the part on a page made for it.
func (j *job) onOwnSize() (*Sheet, error) {
	p := Page{Name: "custom", Inch: j.sys == unit.Inch}
	sx, sy := j.o.Measured.scale()
	kits := append(j.kits(), j.lastKits()...)
	// The page's own size stands in the title block and may take a line more there.
	for higher := range ownSizeTries {
		for _, k := range kits {
			w, h := j.need(k)
			p.Width = p.up(max(w+columnWidth+2*margin, 420) * sx)
			p.Height = p.up(20)
			l := j.lay(p, k, false)
			used := p.Height/sy - 2*margin - l.room
			p.Height = p.up((used+2*margin+max(l.column, h+l.under))*sy) + float64(higher)*p.step()
			if s, _ := j.onPage(p, k); s != nil {
				return s, nil
			}
		}
	}
	return nil, fmt.Errorf("part %q, %s x %s mm, finds no place on a page of its own size", j.b.Name,
		num.Short(j.bounds.Width(), 2), num.Short(j.bounds.Height(), 2))
}

// longestRoll is the longest page that is cut from a roll, mm. The size of a
// PDF page ends at 14,400 units of 1/72 in (ISO 32000-1:2008, Annex C.2).
const longestRoll = 5000

// onRoll draws the part on a piece of a roll, along it or across, whichever
// takes less paper.
func (j *job) onRoll(p Page, kits []kit) (s *Sheet, left int) {
	for _, k := range kits {
		w, h := j.need(k)
		for _, along := range [2]bool{false, true} {
			q := p
			q.Height = p.Width
			least := w + columnWidth + 2*margin
			if !along {
				least = h + 2*margin + checkHeight
			}
			for length := p.up(max(least, leastWidth+2*margin)); length <= longestRoll; length = p.up(length * 1.04) {
				if along {
					q.Width = length
				} else {
					q.Height = length
				}
				if s != nil && max(s.Page.Width, s.Page.Height) <= length || !j.hasRoom(q, k) && length > 4*least {
					break
				}
				t, n := j.onPage(q, k)
				if t != nil {
					s.Release()
					s = t
					break
				}
				left = fewer(left, n)
				if n > hopeless {
					break
				}
			}
		}
		if s != nil {
			return s, 0
		}
	}
	return nil, left
}

func (j *job) title() string {
	t := or(clean(j.b.Name), "part without a name")
	if r := clean(j.b.Revision); r != "" {
		t += ", rev " + r
	}
	if j.b.Hand == blank.Mirrored {
		t += ", mirrored"
	}
	return fit(t, ValueText, 200)
}

// layout tells what goes where on a page.
type layout struct {
	kit     kit
	area    Rect // of the drawing
	band    Rect // check bars and title block
	foot    []string
	aside   []string // notes below the check bars
	entries []entry
	table   *table
	list    *list
	tableAt geom.Point // upper left corners
	listAt  geom.Point
	room    float64 // height above the band
	column  float64 // what the upright bars need of it
	under   float64 // what table and list take of it
}

// leastWidth is the narrowest printed area that takes the check bars beside a
// title block, mm.
const leastWidth = checkWidth + blockGap + 58

// besideLeast is the narrowest room beside the part that a table is put in, mm.
const besideLeast = 56.0

const blockGap = 4.0 // between drawing, table, list and band

// lay shares out the page: cautions and notes at the foot, above them the band,
// above it on the left the upright bars and beside them the drawing. Table and
// list go under the drawing or on its right; the table goes into the band, below
// the level bars, where that leaves more room.
func (j *job) lay(p Page, k kit, beside bool) *layout {
	u := j.area(p)
	l := &layout{kit: k, entries: j.entries(p, k), column: columnHeight}
	title := j.titleHeight(len(l.entries), u.Width()-checkWidth-blockGap, k)
	var notes int
	l.aside, notes = j.asideNotes(title, k)
	l.foot = j.foot(u.Width(), k, notes)
	l.area = Rect{u.X0 + columnWidth, 0, u.X1, u.Y1}
	foot := u.Y0 + float64(len(l.foot))*valuePitch + 2
	high := max(checkHeight, title)
	w := l.area.Width()
	if beside { // what the part leaves
		wide, _ := j.need(k)
		w = min(w-wide-blockGap, wordsMost+tagColumn+sumColumn)
		if w < besideLeast {
			l.area.X1 = l.area.X0
			return l
		}
	}
	inBand := false
	if k.tagged && len(j.groups) > 0 {
		l.table = j.table(w, k)
		t := j.table(checkWidth, k)
		if full := checkHeight + blockGap + t.height(); !beside && t.width() <= checkWidth && full < high+l.table.height() {
			l.table, inBand = t, true
			high = max(high, full)
		}
		if beside && len(j.marks) == 0 {
			w = l.table.width()
		}
	}
	l.band = Rect{u.X0, foot, u.X1, foot + high}
	l.area.Y0 = l.band.Y1 + blockGap
	l.room = u.Y1 - l.band.Y1
	if len(j.marks) > 0 {
		l.list = j.list(w)
		if left := w - 2*columnsGap; l.table != nil && !inBand && !beside && left-l.table.width() >= listWords {
			l.list = j.list(left - l.table.width())
		}
	}
	switch {
	case beside:
		l.stackDown(l.area.X1-w, l.area.Y1)
		l.area.X1 -= w + blockGap
	case inBand:
		l.tableAt = pt(l.band.X0, l.band.Y1-checkHeight-blockGap)
		table := l.table
		l.table = nil
		l.stackUp(l.area.X0, l.area.Y0)
		l.table = table
	default:
		l.stackUp(l.area.X0, l.area.Y0)
	}
	l.area.Y0 += l.under
	return l
}

// stackDown puts table and list one below the other from x, y down. Where they
// are too long the drawing gets no room at all.
func (l *layout) stackDown(x, y float64) {
	if l.table != nil {
		l.tableAt = pt(x, y)
		y -= l.table.height() + blockGap
	}
	if l.list != nil {
		l.listAt = pt(x, y)
		y -= l.list.high
	}
	if y < l.area.Y0 {
		l.area.Y0 = l.area.Y1
	}
}

// stackUp puts table and list side by side above y, or one above the other
// where the width does not take both.
func (l *layout) stackUp(x, y float64) {
	if l.table == nil && l.list == nil {
		return
	}
	switch {
	case l.table == nil:
		l.under = l.list.high
		l.listAt = pt(x, y+l.under)
	case l.list == nil:
		l.under = l.table.height()
		l.tableAt = pt(x, y+l.under)
	case l.list.wide < l.area.Width():
		l.under = max(l.list.high, l.table.height())
		l.tableAt = pt(x, y+l.under)
		l.listAt = pt(x+l.table.width()+2*columnsGap, y+l.under)
	default:
		l.under = l.list.high + blockGap + l.table.height()
		l.listAt = pt(x, y+l.list.high)
		l.tableAt = pt(x, y+l.under)
	}
	l.under += blockGap
}

// furnish draws all that is not the part.
func (s *Sheet) furnish(j *job, l *layout) {
	s.Checks = pt(l.band.X0, l.band.Y1)
	s.titleBlock(j, l.entries, l.kit, l.band.X0+checkWidth+blockGap, l.band.Y1, l.band.X1)
	if l.table != nil {
		s.holeTable(j, l.table, l.tableAt.X, l.tableAt.Y)
	}
	if l.list != nil {
		s.findings(j, l.list, l.listAt.X, l.listAt.Y)
	}
	y := l.band.Y1 - checkHeight - valuePitch + 0.2
	for _, n := range l.aside {
		s.write(Values, l.band.X0, y, n)
		y -= valuePitch
	}
	y = l.band.Y0 - valuePitch
	for _, c := range l.foot {
		s.write(Values, l.band.X0, y, c)
		y -= valuePitch
	}
}
