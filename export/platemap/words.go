package platemap

import (
	"strconv"

	"blankwright/export/paper"
	"blankwright/flat/geom"
)

// ownNotes is how many notes may be found to be needed while drawing.
const ownNotes = 2

// notesHigh is the room at the foot of the page.
func (d *spread) notesHigh() float64 {
	n := d.fixed + ownNotes
	if d.first == 0 { // where the table is, is one more
		n++
	}
	return float64(n) * rowHigh
}

func (d *spread) tableHigh(rows int) float64 {
	if rows == 0 {
		return 0
	}
	return tableHead + float64(rows)*rowHigh
}

func (d *spread) factCols() int { return max(1, int((d.page.Width-2*margin)/factWide)) }

// factRows counts the rows of facts; the scale is one more fact.
func (d *spread) factRows() int { return (len(d.p.Facts) + d.factCols()) / d.factCols() }

// notePages adds pages with all notes.
func (d *spread) notePages(pages []*paper.Sheet) []*paper.Sheet {
	for rest := d.p.Notes; len(rest) > 0; {
		d.s = d.newPage()
		y := d.page.Height - margin - headRow
		n := min(len(rest), int((y-margin)/rowHigh))
		for i, words := range rest[:n] {
			write(d.s, paper.Values, geom.Point{X: margin, Y: y - float64(i+1)*rowHigh}, paper.Start,
				paper.Fit(words, paper.ValueText, d.page.Width-2*margin))
		}
		pages = append(pages, d.s)
		rest = rest[n:]
	}
	return pages
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

func (d *spread) note(words string) { d.notes = append(d.notes[:len(d.notes):len(d.notes)], words) }

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
