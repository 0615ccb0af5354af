package paper

import (
	"strconv"
)

// covers draws the first pages of several: the map of the pages, how they are
// joined, hole table, places of the holes, findings, and on each of them check
// bars and title block. There are as many as the tables need.
func (j *job) covers(t *tiling, canvas *Sheet, k kit, tiles []*Sheet, all []Straddle) []*Sheet {
	have := make(map[string]bool, len(tiles))
	for _, s := range tiles {
		have[s.Name] = true
	}
	p := j.coverPaper(t)
	join := &joinBlock{t: t, canvas: canvas, have: have, lines: j.joinLines(t, k, len(tiles), all)}
	blocks := []block{join}
	if k.tagged && len(j.groups) > 0 {
		blocks = append(blocks, &groupBlock{})
	}
	if k.numbered {
		blocks = append(blocks, &placeBlock{k: k})
	}
	if len(j.marks) > 0 {
		blocks = append(blocks, &findingBlock{})
	}
	if len(j.notes) > 0 {
		blocks = append(blocks, &noteBlock{})
	}
	join.rest = blocks[1:]
	var pages []*Sheet
	for {
		s := newSheet(p, j.o.Measured, j.title())
		s.Shows = j.shows()
		s.Name = "cover"
		if len(pages) > 0 {
			s.Name += " " + strconv.Itoa(len(pages)+1)
		}
		s.Title += ", " + s.Name
		blocks = j.coverPage(s, p, k, blocks)
		pages = append(pages, s)
		if len(blocks) == 0 || len(pages) > mostPages {
			return pages
		}
	}
}

// coverPaper is the paper of the covers, upright where it is wide enough.
func (j *job) coverPaper(t *tiling) Page {
	p := t.paper
	if p.Roll {
		p.Height = p.up(max(p.Width, 2*(checkHeight+columnHeight)))
	}
	q := p.turned()
	if p.Width > p.Height {
		p, q = q, p
	}
	if j.area(p).Width() < leastWidth {
		return q
	}
	return p
}

// block is something that fills a cover from above. put draws as much of it as
// fits into the room below y and gives the height used and whether it is done;
// height is what all of it takes.
type block interface {
	put(s *Sheet, j *job, x, y, w, room float64) (used float64, done bool)
	height(j *job, w float64) float64
}

// coverPage fills one cover and gives the blocks that are left.
func (j *job) coverPage(s *Sheet, p Page, k kit, blocks []block) []block {
	l := j.lay(p, kit{dims: k.dims, cover: true}, false)
	if len(j.marks) > 0 { // a list of findings is a block of its own here
		l.area.Y0 -= l.under
		l.list = nil
	}
	s.furnish(j, l)
	y := l.area.Y1
	for len(blocks) > 0 {
		used, done := blocks[0].put(s, j, l.area.X0, y, l.area.Width(), y-l.area.Y0)
		y -= used
		if !done {
			return blocks
		}
		y -= blockGap
		blocks = blocks[1:]
	}
	return nil
}

// joinLines says what pages there are and how they are joined.
func (j *job) joinLines(t *tiling, k kit, n int, all []Straddle) []line {
	first, last := t.name(0, t.rows.count()-1), t.name(t.cols.count()-1, 0)
	ls := []line{{Strong, "The " + j.thing() + " is on page " + first + "."}}
	if t.pages() > 2 {
		ls = []line{{Strong, strconv.Itoa(n) + " pages, " + first + " to " + last + ", show the " + j.thing() + "."}}
		if n < t.pages()-1 {
			ls = append(ls, line{Values, "Those crossed out have nothing on them and are not printed."})
		}
		ls = append(ls,
			line{Values, "Measure the bars of every page. Trim each page on its lines at the right and above, lay these edges on the " +
				"dashed lines of its neighbours so that the crosses meet, and tape them."})
	}
	if j.anyFailed() && k.tagged { // else it stands right below, over the findings
		ls = append(ls, line{Strong, checksFailed})
	}
	if w := across(all, ""); w != "" {
		ls = append(ls, line{Strong, w})
	}
	if k.leave {
		ls = append(ls, line{Values, leftNote})
	}
	return ls
}

// joinBlock is the map and what is said of it.
type joinBlock struct {
	t      *tiling
	canvas *Sheet
	have   map[string]bool
	lines  []line
	rest   []block // what comes after it
}

// Heights of the map on the cover, mm: the most, and what is left of it where
// that brings everything on one cover.
const (
	mapMost  = 75.0
	mapLeast = 35.0
)

func (b *joinBlock) put(s *Sheet, j *job, x, y, w, room float64) (used float64, done bool) {
	var wrapped []line
	for _, l := range b.lines {
		for _, words := range wrap(l.words, specs[l.layer].Style, w, 4) {
			wrapped = append(wrapped, line{l.layer, words})
		}
	}
	used = float64(len(wrapped)) * valuePitch
	if b.t.pages() > 2 {
		high := b.mapHigh(j, w, room-used-mapHeads-blockGap)
		m := j.pageMap(b.t, Rect{x + mapHeads, y - mapHeads - high, x + w, y - mapHeads})
		// At the left of its room.
		shift := m.frame.X0 - x - mapHeads
		m.frame.X0, m.frame.X1 = m.frame.X0-shift, m.frame.X1-shift
		m.draw(s, b.canvas, b.have, "")
		m.heads(s)
		y = m.frame.Y0 - blockGap
		used += mapHeads + m.frame.Height() + blockGap
	}
	for _, l := range wrapped {
		y -= valuePitch
		s.write(l.layer, x, y, l.words)
	}
	return used, true
}

// mapHigh is the height of the map: less where the tables then find room on the
// same cover.
func (b *joinBlock) mapHigh(j *job, w, room float64) float64 {
	rest := 0.0
	for _, r := range b.rest {
		rest += r.height(j, w) + blockGap
	}
	most := min(mapMost, room)
	if left := room - rest; left >= mapLeast && left < most {
		return left
	}
	return most
}

func (b *joinBlock) height(*job, float64) float64 { return 0 }

// groupBlock is the hole table; from is the first row that is still to come.
type groupBlock struct{ from int }

func (b *groupBlock) put(s *Sheet, j *job, x, y, w, room float64) (used float64, done bool) {
	wide := min(w, wordsMost+tagColumn+sumColumn)
	at := y - 4
	began := false
	for b.from < len(j.groups) {
		lines := j.groupLines(b.from, w)
		high := float64(len(lines))*valuePitch + rowLead
		if y-at+high > room {
			break
		}
		if !began {
			s.groupHead(x, y)
			began = true
		}
		at = s.groupRow(&j.groups[b.from], lines, wide, x, at)
		b.from++
	}
	if began {
		s.rule(Frame, x, at, x+wide, at)
	}
	return y - at + 1, b.from == len(j.groups)
}

func (b *groupBlock) height(j *job, w float64) float64 {
	h := 5.0
	for i := range j.groups {
		h += float64(len(j.groupLines(i, w)))*valuePitch + rowLead
	}
	return h
}

// placeBlock is the table of where the holes are.
type placeBlock struct {
	k    kit
	t    *places
	from int
}

func (b *placeBlock) put(s *Sheet, j *job, x, y, w, room float64) (used float64, done bool) {
	if b.t == nil {
		b.t = j.placesTable(w, b.k)
	}
	left := (len(b.t.lines) - b.from + b.t.cols - 1) / b.t.cols
	rows := min(left, int((room-headRow-1)/placePitch))
	if rows <= 0 {
		return 0, left == 0
	}
	b.from = s.placesRows(b.t, x, y, b.from, rows)
	return b.t.height(rows), b.from == len(b.t.lines)
}

func (b *placeBlock) height(j *job, w float64) float64 {
	t := j.placesTable(w, b.k)
	return t.height(t.rows())
}

// findingBlock is the list of findings.
type findingBlock struct{ from int }

func (b *findingBlock) put(s *Sheet, j *job, x, y, w, room float64) (used float64, done bool) {
	l := j.list(w)
	at := y
	for b.from < len(l.rows) {
		head := 0.0
		if at == y {
			head = float64(len(l.head))*valuePitch + 2
		}
		high := rowHeight(l.rows[b.from])
		if y-at+head+high > room {
			return y - at, false
		}
		if at == y {
			at = s.findingHead(l, x, y)
		}
		s.finding(j, l, b.from, x, at)
		at -= high
		b.from++
	}
	return y - at, true
}

func (b *findingBlock) height(j *job, w float64) float64 { return j.list(w).high }

// noteBlock is the notes; from is the first line that is still to come.
type noteBlock struct{ from int }

func (b *noteBlock) put(s *Sheet, j *job, x, y, w, room float64) (used float64, done bool) {
	lines := wrapped(j.notes, w)
	for b.from < len(lines) && used+valuePitch <= room {
		used += valuePitch
		s.write(Values, x, y-used+1, lines[b.from])
		b.from++
	}
	return used, b.from == len(lines)
}

func (b *noteBlock) height(j *job, w float64) float64 {
	return float64(len(wrapped(j.notes, w))) * valuePitch
}
