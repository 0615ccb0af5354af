package paper

import (
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// entry is one cell of the title block.
type entry struct {
	label, words string
	strong       bool
}

// entries is what the title block says beside the name.
func (j *job) entries(p Page, k kit) []entry {
	kept := &j.entriesBare
	if k.dims {
		kept = &j.entriesFull
	}
	if *kept == nil {
		*kept = j.allEntries(k)
	}
	es := append([]entry(nil), *kept...)
	es[paperEntry].words = p.words()
	return es
}

// paperEntry is the place of the entry that tells the paper.
const paperEntry = 5

func (j *job) allEntries(k kit) []entry {
	b := j.b
	if j.o.Wrap != nil {
		return j.o.Wrap.entries()
	}
	es := []entry{
		{label: "material", words: or(clean(b.Material.Name), "not given")},
		{label: "thickness", words: j.thicknessWords()},
		{label: "quantity", words: strconv.Itoa(b.Quantity)},
		{label: "hand", words: j.handWords(), strong: b.Hand == blank.Mirrored},
		{label: "process", words: or(clean(b.Process.Name), "not given")},
		paperEntry: {label: "paper"},
	}
	if !k.dims {
		es = append(es, entry{label: "overall size", words: j.overallWords()})
	}
	if hands := drilledBy(b); hands != "" {
		es = append(es, entry{label: "dashed edge", words: hands})
	}
	if len(j.o.Bends) > 0 {
		es = append(es, entry{label: "long dashes", words: "bend there, up or down seen from this side"})
	}
	if len(b.Marks) > 0 {
		words := make([]string, len(b.Marks))
		for i := range b.Marks {
			words[i] = clean(b.Marks[i].Text)
		}
		es = append(es, entry{label: "marked on the plate", words: strings.Join(words, ", ")})
	}
	return es
}

// overallWords is the part's width and height, in short.
func (j *job) overallWords() string {
	w, h := j.bounds.Width(), j.bounds.Height()
	if j.sys == unit.Inch {
		return num.Rounded(w/unit.MM, 3) + " x " + num.Rounded(h/unit.MM, 3) + " in"
	}
	return num.Rounded(w, 2) + " x " + num.Rounded(h, 2) + " mm"
}

func or(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

// drilledBy explains the dashed edges, if there are any.
func drilledBy(b *blank.Blank) string {
	drill, ream := false, false
	for i := range b.Holes {
		drill = drill || b.Holes[i].Method == blank.Drill
		ream = ream || b.Holes[i].Method == blank.Ream && apart(&b.Holes[i])
	}
	switch {
	case drill && ream:
		return "drill, or ream to it"
	case drill:
		return "drill by hand"
	case ream:
		return "ream to it"
	}
	return ""
}

// statement is what holds for every sheet, and whether this one makes up for a
// printer.
func (j *job) statement(k kit) []string {
	scale, figures := "Scale 1:1.", "Figures: mm from lower left."
	if j.o.Measured.Off() {
		scale = "Scale 1:1, corrected for " + j.o.Measured.String() + "."
	}
	if j.sys == unit.Inch {
		figures = "Figures: in from lower left."
	}
	all := []string{"This side up. Edge = centre of line.", scale}
	if j.o.Wrap != nil {
		all[0] = "Printed side out. Cut on the centre of the line."
	}
	if k.dims && len(j.across.ticks)+len(j.up.ticks) > 0 {
		all = append(all, figures)
	}
	return all
}

const (
	headHeight = 11.0 // the name's row
	lineHeight = 6.8  // of a row with one line
	cellHeight = 9.8
	cellLeast  = 36.0 // width of a cell
	cellPad    = 1.6
)

// cells tells how many columns and rows n entries make in a block w wide.
func cells(n int, w float64) (cols, rows int) {
	cols = min(max(1, int(w/cellLeast)), 6)
	rows = (n + cols - 1) / cols
	return (n + rows - 1) / rows, rows
}

// saying breaks the statement into the lines that a block w wide takes.
func (j *job) saying(w float64, k kit) []string {
	all := j.statement(k)
	if whole := strings.Join(all, " "); Width(whole, StrongText) <= w-2*cellPad {
		return []string{whole}
	}
	var lines []string
	for _, l := range all {
		if n := len(lines) - 1; n >= 0 && Width(lines[n]+" "+l, StrongText) <= w-2*cellPad {
			lines[n] += " " + l
			continue
		}
		lines = append(lines, wrap(l, StrongText, w-2*cellPad, 2)...)
	}
	return lines
}

func (j *job) sayingHeight(w float64, k kit) float64 {
	return lineHeight + float64(len(j.saying(w, k))-1)*valuePitch
}

// titleHeight is the height that the title block needs when it is w wide.
func (j *job) titleHeight(n int, w float64, k kit) float64 {
	_, rows := cells(n, w)
	return headHeight + j.sayingHeight(w, k) + float64(rows)*cellHeight
}

// titleBlock draws the name, the statement and the entries, from the upper left
// corner at x0, y as far as x1.
func (s *Sheet) titleBlock(j *job, es []entry, k kit, x0, y, x1 float64) {
	w := x1 - x0
	s.rule(Frame, x0, y, x1, y)
	s.name(j, Rect{x0, y - headHeight, x1, y})
	bottom := y - j.titleHeight(len(es), w, k)
	s.rule(Frame, x0, y, x0, bottom)
	s.rule(Frame, x1, y, x1, bottom)
	y -= headHeight
	s.rule(Frame, x0, y, x1, y)
	for i, l := range j.saying(w, k) {
		s.write(Strong, x0+cellPad, y-valuePitch*float64(1+i), l)
	}
	y -= j.sayingHeight(w, k)
	cols, rows := cells(len(es), w)
	w /= float64(cols)
	for i, e := range es {
		s.cell(e, x0+float64(i%cols)*w+cellPad, y-float64(i/cols)*cellHeight, w-2*cellPad)
	}
	for i := 0; i <= rows; i++ {
		s.rule(Frame, x0, y-float64(i)*cellHeight, x1, y-float64(i)*cellHeight)
	}
	for i := 1; i < cols; i++ {
		s.rule(Frame, x0+float64(i)*w, y, x0+float64(i)*w, bottom)
	}
}

// name writes the part's name large, or smaller where it is long, and the
// revision at the end of the row.
func (s *Sheet) name(j *job, r Rect) {
	room := r.Width() - 2*cellPad
	if rev := clean(j.b.Revision); rev != "" {
		rev = fit("rev "+rev, StrongText, r.Width()/3)
		s.text(Strong, Text{At: pt(r.X1-cellPad, r.Y0+3.4), Anchor: End, Style: StrongText, S: rev})
		room -= Width(rev, StrongText) + 3
	}
	words := or(clean(j.b.Name), "part without a name")
	if len(words) < 200 && Width(words, TitleText) <= room {
		s.write(Title, r.X0+cellPad, r.Y0+3.4, words)
		return
	}
	lines := wrap(words, StrongText, room, 2)
	y := r.Y0 + 2.4 + float64(len(lines)-1)*valuePitch
	for _, l := range lines {
		s.write(Strong, r.X0+cellPad, y, l)
		y -= valuePitch
	}
}

// cell writes one entry below y, smaller and in two lines where it is long.
func (s *Sheet) cell(e entry, x, y, w float64) {
	s.write(Labels, x, y-3.2, e.label)
	id, st := Values, ValueText
	if e.strong {
		id, st = Strong, StrongText
	}
	if len(e.words) < 200 && Width(e.words, st) <= w {
		s.write(id, x, y-7.6, e.words)
		return
	}
	y -= 6.1
	for _, l := range wrap(e.words, LabelText, w, 2) {
		s.write(Labels, x, y, l)
		y -= 2.9
	}
}

// list is the list of findings, wrapped to a width.
type list struct {
	head []string
	rows [][]string
	wide float64
	high float64
}

const (
	listIndent = 2*balloonR + 2
	listMost   = 20 // findings written out; the others are counted
	listLines  = 4  // of one finding
	listWords  = 60.0
)

func (j *job) list(w float64) *list {
	l := &list{wide: w}
	failed := 0
	for i, m := range j.marks {
		if m.failed {
			failed++
		}
		if i >= listMost {
			continue
		}
		l.rows = append(l.rows, wrap(m.words, ValueText, w-listIndent, listLines))
	}
	head := "findings"
	if failed > 0 {
		head = checksFailed
	}
	if n := len(j.marks) - len(l.rows); n > 0 {
		head += " " + strconv.Itoa(n) + " more are not listed here."
	}
	l.head = wrap(head, StrongText, w, 3)
	l.high = float64(len(l.head))*valuePitch + 2
	for _, r := range l.rows {
		l.high += rowHeight(r)
	}
	return l
}

func rowHeight(lines []string) float64 {
	return max(float64(len(lines))*valuePitch+rowLead, 2*balloonR+rowLead)
}

func (s *Sheet) findings(j *job, l *list, x, y float64) {
	y = s.findingHead(l, x, y)
	for i := range l.rows {
		s.finding(j, l, i, x, y)
		y -= rowHeight(l.rows[i])
	}
}

// findingHead writes what stands above the list and gives where the first row
// goes.
func (s *Sheet) findingHead(l *list, x, y float64) float64 {
	for _, h := range l.head {
		y -= valuePitch
		s.write(Strong, x, y+1, h)
	}
	return y - 2
}

// finding writes one row of the list.
func (s *Sheet) finding(j *job, l *list, i int, x, y float64) {
	r, m := l.rows[i], &j.marks[i]
	h := rowHeight(r)
	s.balloon(pt(x+balloonR, y-h/2), m.number, m.failed)
	at := y - h/2 + float64(len(r)-2)*valuePitch/2 + valuePitch/2 - capHeight*styles[ValueText].Size/2
	for _, words := range r {
		s.write(Values, x+listIndent, at, words)
		at -= valuePitch
	}
}

// caution is printed on every sheet.
const caution = "Checks are shop rules, applied as far as the description tells; they certify nothing about strength. " +
	"Whoever cuts, welds and fits the part answers for it."

// foot is what stands under the band: cautions, then notes but for the first few,
// which stand elsewhere; a cover has all those of the part elsewhere.
func (j *job) foot(w float64, k kit, elsewhere int) []string {
	lines := wrapped(j.cautions, w)
	if !k.cover {
		lines = append(lines, wrapped(j.notes[elsewhere:], w)...)
	}
	if n := clean(j.o.Note); n != "" {
		lines = append(lines, wrapped([]string{"Note: " + n}, w)...)
	}
	return lines
}

// asideNotes are the first notes, as many as find room below the check bars,
// where the title block is so much higher than these and no table stands there.
func (j *job) asideNotes(title float64, k kit) (lines []string, notes int) {
	if k.tagged || k.cover {
		return nil, 0
	}
	for _, n := range j.notes {
		more := wrapped([]string{n}, checkWidth)
		if checkHeight+float64(len(lines)+len(more))*valuePitch > title {
			break
		}
		lines = append(lines, more...)
		notes++
	}
	return lines, notes
}

// wrapped breaks texts into lines that are w wide, at most three for each.
func wrapped(texts []string, w float64) (lines []string) {
	for _, c := range texts {
		lines = append(lines, wrap(c, ValueText, w, 3)...)
	}
	return lines
}

// mostNotes is how many of a blank's own notes stand on a sheet.
const mostNotes = 12

// cautions collects what everybody has to know of a sheet.
func cautions(o *Options) []string {
	all := []string{caution}
	for _, c := range o.Cautions {
		if c = clean(c); c != "" {
			all = append(all, c)
		}
	}
	if o.Measured.Off() {
		all = append(all, correctedWords(o.Measured))
	}
	return all
}

// allNotes collects those of the blank and of its description, and where the bend
// lines lie.
func (j *job) allNotes() []string {
	b := j.b
	notes := slices.Clone(b.Notes)
	if more := len(notes) - mostNotes; more > 0 {
		notes = append(notes[:mostNotes], strconv.Itoa(more)+" more notes stand at the head of the drawing for the table.")
	}
	notes = append(notes, j.bendPlaces()...)
	if b.Part != nil {
		notes = append(notes, b.Part.Note.Text)
	}
	var all []string
	for _, n := range notes {
		if n = clean(n); n != "" {
			all = append(all, "Note: "+n)
		}
	}
	return all
}
