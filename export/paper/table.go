package paper

import (
	"strconv"

	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// table is the hole table, in as many columns as make it low. Where holes are
// numbered, a table of their places follows.
type table struct {
	rows   [][]string // lines of words for each group
	wide   float64    // of one column
	cols   int
	high   float64 // of the groups
	places *places // nil where the figures along the edges say it
	note   string  // below the places
}

// leftNote stands with the table where letters may have been left out.
const leftNote = "A hole without a letter had no room for it: find it by its place."

const (
	rowLead    = 1.6  // between two rows, beside the lines
	tagColumn  = 9.0  // letter
	sumColumn  = 11.0 // count
	wordsMost  = 92.0 // widest words before they take a second line
	tableLow   = 8    // rows that a table may have before it takes another column
	columnsGap = 6.0
	headRow    = 4.5 // height of the names of columns
)

func (j *job) table(w float64, k kit) *table {
	t := &table{cols: 1}
	for i := range j.groups {
		words := j.groupLines(i, w)
		t.rows = append(t.rows, words)
		for _, l := range words {
			t.wide = max(t.wide, tagColumn+sumColumn+Width(l, ValueText))
		}
	}
	most := max(1, int((w+columnsGap)/(t.wide+columnsGap)))
	t.cols = min(most, (len(t.rows)+tableLow-1)/tableLow)
	for c := range t.cols {
		t.high = max(t.high, t.columnHeight(c))
	}
	if k.numbered {
		t.places = j.placesTable(w, k)
	}
	if k.leave {
		t.note = leftNote
		t.wide = max(t.wide, min(w, Width(leftNote, ValueText)))
	}
	return t
}

// groupLines are the words of one group of holes, for a table w wide.
func (j *job) groupLines(i int, w float64) []string {
	g := &j.groups[i]
	room := min(wordsMost, w-tagColumn-sumColumn)
	words := g.words
	if g.byHand != "" {
		words += "; " + g.byHand
	}
	return sensible(words, ValueText, room, 4)
}

func (t *table) width() float64 {
	w := float64(t.cols)*(t.wide+columnsGap) - columnsGap
	if t.places != nil {
		w = max(w, t.places.width())
	}
	return w
}

// height is that of the groups and of the places below them.
func (t *table) height() float64 {
	h := t.high
	if t.places != nil {
		h += blockGap + t.places.height(t.places.rows())
	}
	if t.note != "" {
		h += valuePitch + 1
	}
	return h
}

func (t *table) column(c int) (from, to int) {
	n := (len(t.rows) + t.cols - 1) / t.cols
	return min(c*n, len(t.rows)), min((c+1)*n, len(t.rows))
}

func (t *table) columnHeight(c int) float64 {
	h := headRow
	from, to := t.column(c)
	for _, r := range t.rows[from:to] {
		h += float64(len(r))*valuePitch + rowLead
	}
	return h
}

// holeTable draws the table with its upper left corner at x, y.
func (s *Sheet) holeTable(j *job, t *table, x, y float64) {
	left := x
	for c := range t.cols {
		s.groupHead(x, y)
		from, to := t.column(c)
		at := y - 4
		for i := from; i < to; i++ {
			at = s.groupRow(&j.groups[i], t.rows[i], t.wide, x, at)
		}
		s.rule(Frame, x, at, x+t.wide, at)
		x += t.wide + columnsGap
	}
	if t.places != nil {
		s.placesRows(t.places, left, y-t.high-blockGap, 0, t.places.rows())
	}
	if t.note != "" {
		s.write(Values, left, y-t.height()+1, fit(t.note, ValueText, t.width()))
	}
}

func (s *Sheet) groupHead(x, y float64) {
	s.write(Labels, x, y-2.6, "hole")
	s.write(Labels, x+tagColumn, y-2.6, "count")
	s.write(Labels, x+tagColumn+sumColumn, y-2.6, "what to do")
}

// groupRow draws a line across and one group below it, and gives where the next
// one goes.
func (s *Sheet) groupRow(g *group, lines []string, wide, x, y float64) float64 {
	s.rule(Frame, x, y, x+wide, y)
	y -= valuePitch
	s.write(Strong, x, y, g.letter)
	s.write(Values, x+tagColumn, y, strconv.Itoa(len(g.holes)))
	for i, l := range lines {
		s.write(Values, x+tagColumn+sumColumn, y-float64(i)*valuePitch, l)
	}
	return y - float64(len(lines)-1)*valuePitch - rowLead
}

// places is the table of where the holes are punched, counted from the left and
// the lower edge, column by column.
type places struct {
	heads [3]string
	lines [][3]string // tag, across, up
	wide  [3]float64  // of the three columns
	cols  int         // how many such columns stand side by side
}

const (
	placePitch = 4.7 // between two rows
	placeGap   = 3.0 // between the columns of a row
	placeRule  = 5   // rows between two lines across
)

// placeHeads are the names of the columns.
func (j *job) placeHeads() [3]string {
	if j.sys == unit.Inch {
		return [3]string{"hole", "in from left", "in from below"}
	}
	return [3]string{"hole", "mm from left", "mm from below"}
}

func (j *job) placesTable(w float64, k kit) *places {
	t := &places{heads: j.placeHeads()}
	for i, h := range t.heads {
		t.wide[i] = Width(h, LabelText)
	}
	for gi := range j.groups {
		g := &j.groups[gi]
		for n, i := range g.holes {
			ps, count := punched(&j.b.Holes[i])
			for _, p := range ps[:count] { // a long slot has a row for each end
				row := j.placeLine(g.tag(n, k), p)
				t.lines = append(t.lines, row)
				t.wide[0] = max(t.wide[0], Width(row[0], StrongText))
				t.wide[1] = max(t.wide[1], Width(row[1], ValueText))
				t.wide[2] = max(t.wide[2], Width(row[2], ValueText))
			}
		}
	}
	t.cols = max(1, int((w+columnsGap)/(t.one()+columnsGap)))
	t.cols = min(t.cols, max(1, len(t.lines)))
	return t
}

func (j *job) placeLine(tag string, p geom.Point) [3]string {
	return [3]string{tag, ordinateWords(p.X-j.bounds.Min.X, j.sys), ordinateWords(p.Y-j.bounds.Min.Y, j.sys)}
}

// one is the width of a single column of rows.
func (t *places) one() float64 { return t.wide[0] + t.wide[1] + t.wide[2] + 2*placeGap }

func (t *places) width() float64 { return float64(t.cols)*(t.one()+columnsGap) - columnsGap }

// rows is how many rows all lines make.
func (t *places) rows() int { return (len(t.lines) + t.cols - 1) / t.cols }

func (t *places) height(rows int) float64 { return headRow + float64(rows)*placePitch + 1 }

// placesRows draws rows of lines, from one line on, column by column, and gives
// the line after the last.
func (s *Sheet) placesRows(t *places, x, y float64, from, rows int) int {
	for range t.cols {
		if from >= len(t.lines) {
			break
		}
		at := x
		for i, h := range t.heads {
			if i == 0 {
				s.write(Labels, at, y-2.6, h)
			} else {
				s.text(Labels, Text{At: pt(at+t.wide[i], y-2.6), Anchor: End, S: h})
			}
			at += t.wide[i] + placeGap
		}
		down := y - 4
		for r := 0; r < rows && from < len(t.lines); r++ {
			if r == 0 || r%placeRule == 0 && rows > 2*placeRule {
				s.rule(Frame, x, down, x+t.one(), down)
			}
			l := &t.lines[from]
			base := down - 3.5
			s.write(Strong, x, base, l[0])
			s.text(Values, Text{At: pt(x+t.wide[0]+placeGap+t.wide[1], base), Anchor: End, S: l[1]})
			s.text(Values, Text{At: pt(x+t.one(), base), Anchor: End, S: l[2]})
			down -= placePitch
			from++
		}
		s.rule(Frame, x, down, x+t.one(), down)
		x += t.one() + columnsGap
	}
	return from
}
