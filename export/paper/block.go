package paper

import (
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/unit"
)

// entry is one cell of the title block.
type entry struct {
	label, words string
	strong       bool
}

// entries is what the title block says beside the name.
func (j *job) entries(p Page) []entry {
	b := j.b
	hand := b.Hand.String()
	if b.Part != nil && b.Part.Hand.Text == "pair" {
		hand += ", of a pair"
	}
	units := "millimetre"
	if j.sys == unit.Inch {
		units = "inch (mm beside)"
	}
	size := sizeWord(p.Width, p) + " x " + sizeWord(p.Height, p)
	if p.Inch {
		size += " in"
	} else {
		size += " mm"
	}
	es := []entry{
		{label: "material", words: or(clean(b.Material.Name), "not given")},
		{label: "thickness", words: unit.Text(b.Thickness, j.sys)},
		{label: "quantity", words: strconv.Itoa(b.Quantity)},
		{label: "hand", words: hand, strong: b.Hand == blank.Mirrored},
		{label: "units", words: units},
		{label: "process", words: or(clean(b.Process.Name), "not given")},
		{label: "paper", words: p.Name + ", " + size},
	}
	if hands := drilledBy(b); hands != "" {
		es = append(es, entry{label: "dashed edge", words: hands})
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

// statement is what holds for every sheet.
var statement = []string{"This side up. Edge = centre of line.", "Printed scale 1:1."}

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
func saying(w float64) []string {
	if whole := strings.Join(statement, " "); Width(whole, StrongText) <= w-2*cellPad {
		return []string{whole}
	}
	return statement
}

func sayingHeight(w float64) float64 { return lineHeight + float64(len(saying(w))-1)*valuePitch }

// titleHeight is the height that the title block needs when it is w wide.
func titleHeight(n int, w float64) float64 {
	_, rows := cells(n, w)
	return headHeight + sayingHeight(w) + float64(rows)*cellHeight
}

// titleBlock draws the name, the statement and the entries, from the upper left
// corner at x0, y as far as x1.
func (s *Sheet) titleBlock(j *job, es []entry, x0, y, x1 float64) {
	w := x1 - x0
	s.rule(Frame, x0, y, x1, y)
	s.name(j, Rect{x0, y - headHeight, x1, y})
	bottom := y - titleHeight(len(es), w)
	s.rule(Frame, x0, y, x0, bottom)
	s.rule(Frame, x1, y, x1, bottom)
	y -= headHeight
	s.rule(Frame, x0, y, x1, y)
	for i, l := range saying(w) {
		s.write(Strong, x0+cellPad, y-valuePitch*float64(1+i), l)
	}
	y -= sayingHeight(w)
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

// table is the hole table, in as many columns as make it low.
type table struct {
	rows [][]string // lines of words for each group
	wide float64    // of one column
	cols int
	high float64
}

const (
	rowLead    = 1.6  // between two rows, beside the lines
	tagColumn  = 9.0  // letter
	sumColumn  = 11.0 // count
	wordsMost  = 92.0 // widest words before they take a second line
	tableLow   = 8    // rows that a table may have before it takes another column
	columnsGap = 6.0
)

func (j *job) table(w float64) *table {
	t := &table{cols: 1}
	lines := 0
	for _, g := range j.groups {
		words := wrap(g.words, ValueText, min(wordsMost, w-tagColumn-sumColumn), 3)
		t.rows = append(t.rows, words)
		lines += len(words)
		for _, l := range words {
			t.wide = max(t.wide, tagColumn+sumColumn+Width(l, ValueText))
		}
	}
	most := max(1, int((w+columnsGap)/(t.wide+columnsGap)))
	t.cols = min(most, (len(t.rows)+tableLow-1)/tableLow)
	for c := range t.cols {
		t.high = max(t.high, t.columnHeight(c))
	}
	return t
}

func (t *table) width() float64 { return float64(t.cols)*(t.wide+columnsGap) - columnsGap }

func (t *table) column(c int) (from, to int) {
	n := (len(t.rows) + t.cols - 1) / t.cols
	return min(c*n, len(t.rows)), min((c+1)*n, len(t.rows))
}

func (t *table) columnHeight(c int) float64 {
	h := 4.5
	from, to := t.column(c)
	for _, r := range t.rows[from:to] {
		h += float64(len(r))*valuePitch + rowLead
	}
	return h
}

// holeTable draws the table with its upper left corner at x, y.
func (s *Sheet) holeTable(j *job, t *table, x, y float64) {
	for c := range t.cols {
		s.write(Labels, x, y-2.6, "hole")
		s.write(Labels, x+tagColumn, y-2.6, "count")
		s.write(Labels, x+tagColumn+sumColumn, y-2.6, "what to do")
		from, to := t.column(c)
		at := y - 4
		for i := from; i < to; i++ {
			s.rule(Frame, x, at, x+t.wide, at)
			at -= valuePitch
			s.write(Strong, x, at, j.groups[i].letter)
			s.write(Values, x+tagColumn, at, strconv.Itoa(len(j.groups[i].holes)))
			for k, l := range t.rows[i] {
				s.write(Values, x+tagColumn+sumColumn, at-float64(k)*valuePitch, l)
			}
			at -= float64(len(t.rows[i])-1)*valuePitch + rowLead
		}
		s.rule(Frame, x, at, x+t.wide, at)
		x += t.wide + columnsGap
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
		head = "Checks failed: do not cut or drill by this sheet."
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
	for _, h := range l.head {
		y -= valuePitch
		s.write(Strong, x, y+1, h)
	}
	y -= 2
	for i, r := range l.rows {
		h := rowHeight(r)
		m := &j.marks[i]
		s.balloon(pt(x+balloonR, y-h/2), m.number, m.failed)
		at := y - h/2 + float64(len(r)-2)*valuePitch/2 + valuePitch/2 - capHeight*styles[ValueText].Size/2
		for _, words := range r {
			s.write(Values, x+listIndent, at, words)
			at -= valuePitch
		}
		y -= h
	}
}

// caution is printed on every sheet.
const caution = "Checks are shop rules, applied as far as the description tells; they certify nothing about strength. " +
	"Whoever cuts, welds and fits the part answers for it."

// foot is what stands under the band: cautions, then notes.
func (j *job) foot(w float64) []string {
	var lines []string
	for _, c := range j.feet {
		lines = append(lines, wrap(c, ValueText, w, 3)...)
	}
	return lines
}

// mostNotes is how many of a blank's own notes stand on a sheet.
const mostNotes = 12

// feet collects the cautions and notes of a sheet.
func feet(b *blank.Blank, o Options) []string {
	all := []string{caution}
	for _, c := range o.Cautions {
		if c = clean(c); c != "" {
			all = append(all, c)
		}
	}
	notes := slices.Clone(b.Notes)
	if more := len(notes) - mostNotes; more > 0 {
		notes = append(notes[:mostNotes], strconv.Itoa(more)+" more notes stand at the head of the drawing for the table.")
	}
	if b.Part != nil {
		notes = append(notes, b.Part.Note.Text)
	}
	for _, n := range append(notes, o.Note) {
		if n = clean(n); n != "" {
			all = append(all, "Note: "+n)
		}
	}
	return all
}
