package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// tiling says how the drawing is cut into pages.
type tiling struct {
	paper      Page // as it was asked for
	page       Page // as it is turned
	dims       bool // figures and overall dimensions are on the drawing
	rooms      Rect // round the part
	lines      int  // of words at the foot of each page
	tables     int  // more covers, for a table of places
	cols, rows axis // from the left, from below
	hits       int  // holes that a seam goes through
	w, h       float64
	marks      []seamMark
}

// seamMark is an alignment mark on the seam between two pages, by column and
// row.
type seamMark struct {
	Mark
	between [2][2]int
}

const (
	mostPages = 400 // a person does not join more
	stripGap  = 1.5 // between the bars and the drawing, mm
	stripLeft = 2*barHalf + stripGap
	// placesAPage is about how many lines of a table of places a cover takes.
	placesAPage = 150
)

// ErrTooMany is what Print gives for a part that would take more pages than a
// person joins.
var ErrTooMany = fmt.Errorf("more than %d pages", mostPages)

// pages is how many there are, cover and empty ones included.
func (t *tiling) pages() int { return t.cols.count()*t.rows.count() + 1 }

// better reports whether t is to be preferred to u: it leaves more holes whole,
// takes less paper, or has its dimensions on it.
func (t *tiling) better(u *tiling) bool {
	switch {
	case u == nil:
		return true
	case t.hits != u.hits:
		return t.hits < u.hits
	case t.pages()+t.tables != u.pages()+u.tables:
		return t.pages()+t.tables < u.pages()+u.tables
	case t.dims != u.dims:
		return t.dims
	}
	return t.page.Width*t.page.Height < u.page.Width*u.page.Height
}

// foot is the height of the strip below the drawing.
func (t *tiling) foot() float64 { return stripHeight + float64(t.lines)*valuePitch + stripGap }

// name is what the page in a column (from the left) and a row (from below) is
// called: A1 is at the upper left.
func (t *tiling) name(col, row int) string {
	return letters(t.rows.count()-1-row) + strconv.Itoa(col+1)
}

// tile finds the best way to cut the drawing into pages of the paper, upright or
// turned, with its dimensions or without. spare is added to the room round the
// part.
func (j *job) tile(p Page, spare float64) (*tiling, error) {
	turns := []Page{p, p.turned()}
	if p.Roll {
		turns[1].Height, turns[1].Width = p.Width, 0
	}
	// With dimensions; where holes are to be located there is a table instead.
	var best *tiling
	small := 0
	for i, rooms := range [2]Rect{j.rooms, bareRooms} {
		if i == 1 && j.o.Wrap != nil {
			break
		}
		for _, q := range turns {
			t := &tiling{paper: p, page: q, dims: i == 0, lines: j.footLines()}
			if !t.dims || !j.located {
				t.tables = len(j.b.Holes) / placesAPage
			}
			t.rooms = Rect{rooms.X0 + spare, rooms.Y0 + spare, rooms.X1 + spare, rooms.Y1 + spare}
			if !j.cut(t) {
				small++
			} else if t.better(best) {
				best = t
			}
		}
	}
	switch {
	case best == nil:
		return nil, fmt.Errorf("paper %s, %s, takes no check bars beside a piece of the part; it must be %s x %s mm or larger",
			p.Name, p.sides(), num.Short(math.Ceil(leastWidth+2*margin), 0), num.Short(math.Ceil(columnHeight+stripHeight+5*valuePitch+2*margin), 0))
	case best.pages() > mostPages:
		return nil, fmt.Errorf("part %q would take %w of %s; use a larger paper or a roll", j.b.Name, ErrTooMany, p.Name)
	}
	return best, nil
}

// footLines is how many lines of words each page of several has at its foot.
func (j *job) footLines() int {
	n := 2 // what a line is and how to join, or which holes are cut through
	if j.o.Measured.Off() {
		n++
	}
	if j.anyFailed() {
		n++
	}
	if clean(j.o.Note) != "" {
		n++
	}
	return n
}

// cut chooses the seams for one way of turning the paper; false when the paper
// is too small for anything.
func (j *job) cut(t *tiling) bool {
	t.w = j.bounds.Width() + t.rooms.X0 + t.rooms.X1
	t.h = j.bounds.Height() + t.rooms.Y0 + t.rooms.Y1
	sx, sy := j.o.Measured.scale()
	if t.page.Roll { // as long as it has to be
		if t.page.Height == 0 {
			t.page.Height = min(longestRoll, t.page.up(max(t.h+t.foot(), columnHeight+t.foot())+2*margin)*sy)
		} else {
			t.page.Width = min(longestRoll, t.page.up(max(t.w+stripLeft, leastWidth)+2*margin)*sx)
		}
	}
	u := j.area(t.page)
	w, h := u.Width()-stripLeft, u.Height()-t.foot()
	if u.Width() < leastWidth || h < columnHeight-stripGap {
		return false
	}
	if (t.w/w)*(t.h/h) > 100*mostPages { // so many that counting them is enough
		n := int(math.Sqrt(100 * mostPages))
		t.cols, t.rows = axis{make([]float64, n+1)}, axis{make([]float64, n+1)}
		return true
	}
	all := j.openings(t)
	xs, ys := make([]span, len(all)), make([]span, len(all))
	for i := range all {
		xs[i], ys[i] = all[i].x, all[i].y
	}
	var hx, hy int
	t.cols, hx = cutAxis(t.w, w, xs)
	t.rows, hy = cutAxis(t.h, h, ys)
	t.hits = hx + hy
	return true
}

// cutoutMost is the size of cutouts that seams keep clear of, mm; a larger one is
// cut along, like the outline, rather than punched.
const cutoutMost = 60.0

// openingSpan is what a hole or a small cutout covers of the drawing.
type openingSpan struct {
	name string
	x, y span
}

// openings are those that seams keep clear of, in the order of the part.
func (j *job) openings(t *tiling) []openingSpan {
	all := make([]openingSpan, 0, len(j.b.Holes)+len(j.b.Cutouts))
	x, y := t.rooms.X0-j.bounds.Min.X, t.rooms.Y0-j.bounds.Min.Y
	for i := range j.b.Holes {
		h := &j.b.Holes[i]
		sh := shapeOf(h, h.Dia)
		ends := sh.ends(h.Centre)
		all = append(all, openingSpan{h.Name,
			span{min(ends[0].X, ends[1].X) - sh.r + x, max(ends[0].X, ends[1].X) + sh.r + x},
			span{min(ends[0].Y, ends[1].Y) - sh.r + y, max(ends[0].Y, ends[1].Y) + sh.r + y}})
	}
	for i := range j.b.Cutouts {
		c := &j.b.Cutouts[i]
		if b := c.Loop.Bounds(); max(b.Width(), b.Height()) <= cutoutMost {
			all = append(all, openingSpan{c.Name, span{b.Min.X + x, b.Max.X + x}, span{b.Min.Y + y, b.Max.Y + y}})
		}
	}
	return all
}

// Straddle is a hole or a small cutout that a seam goes through.
type Straddle struct {
	Hole    string
	Between [2]string // names of the pages
}

// String says it for people.
func (s Straddle) String() string {
	return fmt.Sprintf("opening %q lies across the seam between %s and %s", s.Hole, s.Between[0], s.Between[1])
}

// straddles lists the holes that seams go through, in the order of the part.
func (j *job) straddles(t *tiling) []Straddle {
	if t.hits == 0 {
		return nil
	}
	var all []Straddle
	for _, o := range j.openings(t) {
		mx, my := (o.x.lo+o.x.hi)/2, (o.y.lo+o.y.hi)/2
		name := clean(o.name)
		for k, at := range t.cols.inner() {
			if o.x.lo < at && at < o.x.hi {
				row := t.rows.holds(my)
				all = append(all, Straddle{name, [2]string{t.name(k, row), t.name(k+1, row)}})
			}
		}
		for k, at := range t.rows.inner() {
			if o.y.lo < at && at < o.y.hi {
				col := t.cols.holds(mx)
				all = append(all, Straddle{name, [2]string{t.name(col, k+1), t.name(col, k)}})
			}
		}
	}
	return all
}

// holds is the page of an axis that a place lies on.
func (a *axis) holds(v float64) int {
	for i := range a.count() - 1 {
		if v < a.cuts[i+1] {
			return i
		}
	}
	return a.count() - 1
}

// across says which holes are cut through on a page, or on all with name "".
func across(all []Straddle, page string) string {
	var names []string
	for _, s := range all {
		if page == "" || s.Between[0] == page || s.Between[1] == page {
			names = append(names, s.Hole)
		}
	}
	if len(names) == 0 {
		return ""
	}
	const most = 6
	more := ""
	if len(names) > most {
		more = " and " + strconv.Itoa(len(names)-most) + " more"
		names = names[:most]
	}
	return "Across a seam: " + strings.Join(names, ", ") + more + ". Join the pages before you punch."
}

// Alignment marks are crosses in a circle.
const (
	markArm   = 5.0
	markR     = 2.5
	markShift = 3.0  // step in the search for a clear place
	markBoth  = 40.0 // shortest side that gets two
)

// crosses chooses the places of alignment marks on every seam, twice along each
// page, where nothing else is drawn if that can be had. From here on labels keep
// clear of them and of the seams.
func (d *drawing) crosses(t *tiling) {
	t.marks = t.marks[:0]
	along := func(of *axis, add func(i int, v float64), clear func(v, lo, hi float64) float64) {
		for i := range of.count() {
			lo, hi := of.core(i)
			shares := []float64{0.22, 0.78}
			if hi-lo < markBoth {
				shares = []float64{0.5}
			}
			for _, s := range shares {
				add(i, clear(lo+s*(hi-lo), lo+markArm+1, hi-markArm-1))
			}
		}
	}
	mark := func(p geom.Point, a, b [2]int) {
		t.marks = append(t.marks, seamMark{Mark{len(t.marks) + 1, p}, [2][2]int{a, b}})
	}
	for k, x := range t.cols.inner() {
		place := func(v float64) geom.Point { return pt(x, v) }
		along(&t.rows,
			func(i int, v float64) { mark(pt(x, v), [2]int{k, i}, [2]int{k + 1, i}) },
			func(v, lo, hi float64) float64 { return d.clearMark(v, lo, hi, place) })
	}
	for k, y := range t.rows.inner() {
		place := func(v float64) geom.Point { return pt(v, y) }
		along(&t.cols,
			func(i int, v float64) { mark(pt(v, y), [2]int{i, k}, [2]int{i, k + 1}) },
			func(v, lo, hi float64) float64 { return d.clearMark(v, lo, hi, place) })
	}
	for _, m := range t.marks {
		d.f.addBox(centred(m.At, 2*markArm, 2*markArm))
	}
	for _, x := range t.cols.inner() {
		d.f.addLine(pt(x, 0), pt(x, t.h), false, nobody)
	}
	for _, y := range t.rows.inner() {
		d.f.addLine(pt(0, y), pt(t.w, y), false, nobody)
	}
}

// clearMark looks along a seam, from v both ways, for a place for a mark that is
// clear of everything; where there is none it stays at v.
func (d *drawing) clearMark(v, lo, hi float64, place func(along float64) geom.Point) float64 {
	for off := 0.0; off < (hi-lo)/3; off += markShift {
		for _, w := range [2]float64{v + off, v - off} {
			if w < lo || w > hi {
				continue
			}
			if r := centred(place(w), 2*markArm, 2*markArm); d.f.free(r.Grow(labelGap)) {
				return w
			}
		}
	}
	return min(max(v, lo), hi)
}
