package paper

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Options says how a sheet is made. The zero value asks for the smallest usual
// paper and the file's own units.
type Options struct {
	Unit     unit.System // of dimensions and paper; Unset: the file's, millimetre where it has none
	Page     string      // name of the paper; "": the smallest usual one that takes the part
	Note     string      // a free line for the foot of the sheet
	Cautions []string    // printed after the one that every sheet carries
}

// job is all that is known before a page is chosen.
type job struct {
	b      *blank.Blank
	sys    unit.System
	bounds geom.Box
	sides  sides // of the overall dimensions
	rooms  Rect  // round the part on its four sides, mm
	groups []group
	marks  []mark
	feet   []string
}

// mostReach is the largest coordinate taken, mm: no plate and no roll of paper
// is longer than this (common practice).
const mostReach = 50_000

// Compose draws the blank on one page at scale 1:1, with the findings that
// failed, were waived or warn.
//
// The page is the smallest usual paper of the unit system that takes the part
// with its dimensions, labels and title block, upright or turned; a part too
// large for all of them gets a page of its own size. It is an error when the
// blank has no outline, when a coordinate is not a number or is out of reach,
// when the paper asked for is unknown or too small.
func Compose(b *blank.Blank, findings []diag.Finding, o Options) (*Sheet, error) {
	if err := drawable(b); err != nil {
		return nil, err
	}
	j := &job{b: b, sys: o.Unit, bounds: bounds(b), feet: feet(b, o)}
	if j.sys == unit.Unset && b.Part != nil {
		j.sys = b.Part.Units
	}
	if j.sys == unit.Unset {
		j.sys = unit.Millimetre
	}
	j.sides = sidesOf(extremesOf(b.Outline), j.bounds)
	j.rooms = j.sides.rooms(j.bounds.Width(), j.bounds.Height(), j.sys)
	j.groups = grouped(b, j.sys)
	j.marks = shown(findings)
	papers := Pages(j.sys)
	if o.Page != "" {
		p, err := FindPage(o.Page)
		if err != nil {
			return nil, err
		}
		papers = []Page{p}
	}
	for _, p := range papers {
		if s := j.onPaper(p); s != nil {
			return s, nil
		}
	}
	if o.Page != "" {
		w, h := j.need()
		return nil, fmt.Errorf("part %q needs %s x %s mm beside the title block, too much for %s; use a larger paper",
			b.Name, num.Short(w, 0), num.Short(h, 0), papers[0].Name)
	}
	return j.onOwnSize()
}

// bounds is what the part covers: its outline, and any opening that reaches
// beyond it.
func bounds(b *blank.Blank) geom.Box {
	r := b.Outline.Bounds()
	for i := range b.Holes {
		h := &b.Holes[i]
		sh := shapeOf(h, h.Dia)
		for _, p := range sh.ends(h.Centre) {
			r = r.Extend(pt(p.X-sh.r, p.Y-sh.r)).Extend(pt(p.X+sh.r, p.Y+sh.r))
		}
	}
	for i := range b.Cutouts {
		r = r.Union(b.Cutouts[i].Loop.Bounds())
	}
	return r
}

// drawable reports what is wrong with a blank that cannot be drawn.
func drawable(b *blank.Blank) error {
	if b == nil || len(b.Outline) == 0 {
		return errors.New("blank has no outline to draw")
	}
	if k := beyond(b.Outline); k >= 0 {
		return fmt.Errorf("outline of %q: segment %d has a coordinate that is not a number or is over %d mm", b.Name, k+1, mostReach)
	}
	for i := range b.Cutouts {
		if k := beyond(b.Cutouts[i].Loop); k >= 0 {
			return fmt.Errorf("cutout %q: segment %d has a coordinate that is not a number or is over %d mm", b.Cutouts[i].Name, k+1, mostReach)
		}
	}
	for i := range b.Holes {
		h := &b.Holes[i]
		if !within(h.Centre.X, h.Centre.Y, h.Dia, h.CutDia, h.Length, h.Angle) {
			return fmt.Errorf("hole %q has a coordinate or size that is not a number or is over %d mm", h.Name, mostReach)
		}
		if h.Dia <= 0 || h.CutDia < 0 || h.Length < 0 {
			return fmt.Errorf("hole %q is %s mm across, wanted more than nothing", h.Name, num.Short(h.Dia, 3))
		}
	}
	for i := range b.Marks {
		if !within(b.Marks[i].At.X, b.Marks[i].At.Y) {
			return fmt.Errorf("mark %q has a coordinate that is not a number or is over %d mm", b.Marks[i].Text, mostReach)
		}
	}
	return nil
}

// beyond is the first segment that cannot be drawn, or nobody.
func beyond(l geom.Loop) int {
	for i := range l {
		g := &l[i]
		c := g.Circle()
		if !within(g.A.X, g.A.Y, g.B.X, g.B.Y, g.Bulge, c.C.X, c.C.Y, c.R) {
			return i
		}
	}
	return nobody
}

func within(vs ...float64) bool {
	for _, v := range vs {
		if !(math.Abs(v) <= mostReach) {
			return false
		}
	}
	return true
}

// onPaper draws the part on one kind of paper, or gives nil when it does not
// fit. Callouts beside the holes are tried first, upright and turned, then
// letters with a table. Letters are always taken, however crowded.
func (j *job) onPaper(p Page) *Sheet {
	turns := [2]Page{p, p.turned()}
	if j.bounds.Width() > j.bounds.Height() {
		turns[0], turns[1] = turns[1], turns[0]
	}
	if len(j.b.Holes) <= few {
		for _, q := range turns {
			s, clean := j.onPage(q, false)
			if clean {
				return s
			}
			s.Release()
		}
	}
	var crowded *Sheet
	for _, q := range turns {
		s, clean := j.onPage(q, true)
		if clean {
			return s
		}
		if crowded == nil || s != nil && len(s.Crowded) < len(crowded.Crowded) {
			s, crowded = crowded, s
		}
		s.Release()
	}
	return crowded
}

// onPage draws the part on the page as it is turned; nil when it does not fit.
func (j *job) onPage(p Page, tagged bool) (s *Sheet, clean bool) {
	for _, beside := range [2]bool{false, true} {
		l := j.lay(p, tagged, beside)
		w, h := j.need()
		if l.area.Width() < w || l.area.Height() < h || l.column > l.room || p.Width < leastWidth {
			continue
		}
		t := newSheet(p, j.title())
		ok := draw(t, j, l.area, tagged)
		if s == nil || ok {
			t.furnish(j, l)
			s, t = t, s
		}
		t.Release()
		if ok {
			return s, true
		}
		if l.table == nil && l.list == nil {
			break // nothing to put beside
		}
	}
	return s, false
}

// need is the area that the part takes with its dimensions.
func (j *job) need() (w, h float64) {
	r := j.rooms
	return j.bounds.Width() + r.X0 + r.X1, j.bounds.Height() + r.Y0 + r.Y1
}

// onOwnSize draws the part on a page made for it.
func (j *job) onOwnSize() (*Sheet, error) {
	w, h := j.need()
	step := 10.0
	p := Page{Name: "custom", Inch: j.sys == unit.Inch}
	if p.Inch {
		step = unit.MM / 2
	}
	up := func(v float64) float64 { return math.Ceil(v/step) * step }
	p.Width = up(max(w+columnWidth+2*margin, 420))
	l := j.lay(p, len(j.b.Holes) > few, false)
	used := p.Height - 2*margin - l.room
	p.Height = up(used + 2*margin + max(l.column, h+l.under))
	for _, tagged := range [2]bool{len(j.b.Holes) > few, true} {
		if s, clean := j.onPage(p, tagged); s != nil && (clean || tagged) {
			return s, nil
		}
		l := j.lay(p, true, false)
		p.Height = up(p.Height + l.under)
	}
	return nil, fmt.Errorf("part %q, %s x %s mm, finds no place on a page of its own size", j.b.Name,
		num.Short(j.bounds.Width(), 2), num.Short(j.bounds.Height(), 2))
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
	area    Rect // of the drawing
	band    Rect // check bars and title block
	foot    []string
	entries []entry
	table   *table
	list    *list
	tableAt geom.Point // upper left corners
	listAt  geom.Point
	room    float64 // height above the band
	column  float64 // what the upright bars need of it
	under   float64 // what table and list take of it
}

// leastWidth is the narrowest page that takes the check bars beside a title
// block of two columns, mm.
const leastWidth = 2*margin + checkWidth + blockGap + 2*cellLeast

const blockGap = 4.0 // between drawing, table, list and band

// lay shares out the page: cautions and notes at the foot, above them the band,
// above it on the left the upright bars and beside them the drawing. Table and
// list go under the drawing or on its right; the table goes into the band, below
// the level bars, where that leaves more room.
func (j *job) lay(p Page, tagged, beside bool) *layout {
	u := p.area()
	l := &layout{foot: j.foot(u.Width()), entries: j.entries(p), column: columnHeight}
	l.area = Rect{u.X0 + columnWidth, 0, u.X1, u.Y1}
	foot := u.Y0 + float64(len(l.foot))*valuePitch + 2
	high := max(checkHeight, titleHeight(len(l.entries), u.Width()-checkWidth-blockGap))
	w := l.area.Width()
	if beside {
		w = min(w/2, wordsMost+tagColumn+sumColumn)
	}
	inBand := false
	if tagged && len(j.groups) > 0 {
		l.table = j.table(w)
		t := j.table(checkWidth)
		if full := checkHeight + blockGap + t.high; !beside && t.width() <= checkWidth && full < high+l.table.high {
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
		y -= l.table.high + blockGap
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
		l.under = l.table.high
		l.tableAt = pt(x, y+l.under)
	case l.list.wide < l.area.Width():
		l.under = max(l.list.high, l.table.high)
		l.tableAt = pt(x, y+l.under)
		l.listAt = pt(x+l.table.width()+2*columnsGap, y+l.under)
	default:
		l.under = l.list.high + blockGap + l.table.high
		l.listAt = pt(x, y+l.list.high)
		l.tableAt = pt(x, y+l.under)
	}
	l.under += blockGap
}

// furnish draws all that is not the part.
func (s *Sheet) furnish(j *job, l *layout) {
	s.Checks = pt(l.band.X0, l.band.Y1)
	s.titleBlock(j, l.entries, l.band.X0+checkWidth+blockGap, l.band.Y1, l.band.X1)
	if l.table != nil {
		s.holeTable(j, l.table, l.tableAt.X, l.tableAt.Y)
	}
	if l.list != nil {
		s.findings(j, l.list, l.listAt.X, l.listAt.Y)
	}
	y := l.band.Y0 - valuePitch
	for _, c := range l.foot {
		s.write(Values, l.band.X0, y, c)
		y -= valuePitch
	}
}

// sizeWord is a paper's side in its own unit.
func sizeWord(v float64, p Page) string {
	if p.Inch {
		return num.Short(v/unit.MM, 2)
	}
	return num.Short(v, 1)
}
