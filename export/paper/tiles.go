package paper

import (
	"strconv"

	"blankwright/flat/geom"
)

// tiles draws the pages that are joined, row by row from the upper left. Pages
// that would show nothing of the part are left out.
func (j *job) tiles(t *tiling, canvas *Sheet, all []Straddle) []*Sheet {
	var pages []*Sheet
	for row := t.rows.count() - 1; row >= 0; row-- {
		for col := range t.cols.count() {
			if s := j.tilePage(t, canvas, col, row); s != nil {
				pages = append(pages, s)
			}
		}
	}
	have := make(map[string]bool, len(pages))
	for _, s := range pages {
		have[s.Name] = true
	}
	for _, s := range pages {
		j.tileSeams(t, canvas, s, have)
		j.tileFoot(t, canvas, s, have, all)
	}
	return pages
}

// partLayers are those that show something of the part.
var partLayers = [...]LayerID{Outline, Openings, Drilled, Bending, Welding, GrindLines, TabEdges, Punches}

// window is what a page shows of the drawing, and what that is moved by.
func (j *job) window(t *tiling, col, row int) (w Rect, shift geom.Point) {
	w.X0, w.X1 = t.cols.window(col)
	w.Y0, w.Y1 = t.rows.window(row)
	u := j.area(t.page)
	return w, pt(u.X0+stripLeft-w.X0, u.Y0+t.foot()-w.Y0)
}

// tilePage draws one page's piece of the part, or gives nil where there is none.
func (j *job) tilePage(t *tiling, canvas *Sheet, col, row int) *Sheet {
	name := t.name(col, row)
	s := newSheet(t.page, j.o.Measured, j.title())
	s.Shows = j.shows()
	s.Title += ", page " + name
	s.Name, s.CheckBlock, s.col, s.row = name, StripBlock, col, row
	w, shift := j.window(t, col, row)
	s.CopyWindow(&canvas.Layers, w, shift)
	if t.pages() > 2 && !s.showsPart() {
		s.Release()
		return nil
	}
	s.Offset = canvas.Offset.Add(shift)
	s.Left = canvas.Left
	return s
}

func (s *Sheet) showsPart() bool {
	for _, id := range partLayers {
		if len(s.Layers[id].Segs)+len(s.Layers[id].Circles) > 0 {
			return true
		}
	}
	for i := range s.Layers {
		if len(s.Layers[i].Texts) > 0 {
			return true
		}
	}
	return false
}

// tileSeams draws seams and alignment marks towards the neighbours that are
// printed, and says what is done there: pages are trimmed at their right and
// upper seams and laid over the neighbours.
func (j *job) tileSeams(t *tiling, canvas, s *Sheet, have map[string]bool) {
	w, shift := j.window(t, s.col, s.row)
	var p seamPen
	p.s, p.f, p.shift = s, &canvas.field, shift
	x0, x1 := t.cols.core(s.col)
	y0, y1 := t.rows.core(s.row)
	if name := t.neighbour(s, 1, 0, have); name != "" {
		p.upright(x1, w, y0, y1, "trim, lay on "+name, seamAside+seamHigh)
	}
	if name := t.neighbour(s, -1, 0, have); name != "" {
		p.upright(x0, w, y0, y1, name+" ends here", -seamAside)
	}
	if name := t.neighbour(s, 0, 1, have); name != "" {
		p.level(y1, w, x0, x1, "trim, lay on "+name, seamAside)
	}
	if name := t.neighbour(s, 0, -1, have); name != "" {
		p.level(y0, w, x0, x1, name+" ends here", -seamAside-seamHigh)
	}
	for _, m := range t.marks {
		other := m.between[0]
		switch here := [2]int{s.col, s.row}; here {
		case m.between[0]:
			other = m.between[1]
		case m.between[1]:
		default:
			continue
		}
		if have[t.name(other[0], other[1])] {
			s.mark(Mark{m.Number, m.At.Add(shift)})
		}
	}
}

// neighbour is the name of a page beside this one, or nothing where none is
// printed.
func (t *tiling) neighbour(s *Sheet, right, up int, have map[string]bool) string {
	col, row := s.col+right, s.row+up
	if col < 0 || row < 0 || col >= t.cols.count() || row >= t.rows.count() || !have[t.name(col, row)] {
		return ""
	}
	return t.name(col, row)
}

// mark draws an alignment mark: a cross in a circle.
func (s *Sheet) mark(m Mark) {
	for _, u := range [4]geom.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
		s.line(Crosses, m.At, m.At.Add(u.Mul(markArm)))
	}
	s.circle(Crosses, m.At, markR)
	s.Marks = append(s.Marks, m)
}

const seamAside = 1.4 // from a seam to its words

var seamHigh = styles[SmallText].Size * capHeight

// seamPen draws the seams of one page.
type seamPen struct {
	s     *Sheet
	f     *field // of the whole drawing
	shift geom.Point
}

// upright draws a seam at x across the window, and words so far aside from it
// between two heights.
func (p *seamPen) upright(x float64, w Rect, lo, hi float64, words string, aside float64) {
	p.s.line(Seams, pt(x, w.Y0).Add(p.shift), pt(x, w.Y1).Add(p.shift))
	p.words(words, func(v float64) geom.Point { return pt(x+aside, v) }, lo, hi, true)
}

// level draws a seam at y.
func (p *seamPen) level(y float64, w Rect, lo, hi float64, words string, aside float64) {
	p.s.line(Seams, pt(w.X0, y).Add(p.shift), pt(w.X1, y).Add(p.shift))
	p.words(words, func(v float64) geom.Point { return pt(v, y+aside) }, lo, hi, false)
}

// words writes along a seam where the drawing leaves room, as near to the middle
// as can be; they are left out where there is none.
func (p *seamPen) words(words string, at func(v float64) geom.Point, lo, hi float64, up bool) {
	mid, w := (lo+hi)/2, Width(words, SmallText)
	for off := 0.0; off < (hi-lo-w)/2; off += markShift {
		for _, v := range [2]float64{mid + off, mid - off} {
			x := Text{At: at(v), Anchor: Middle, Up: up, Style: SmallText, S: words}
			if p.f.free(x.Box().Grow(labelGap / 2)) {
				x.At = x.At.Add(p.shift)
				p.s.text(SeamWords, x)
				return
			}
		}
	}
}

// tileFoot draws the strip below a piece of the part: check bars, what the part
// is, where the page belongs and how it is joined.
func (j *job) tileFoot(t *tiling, canvas, s *Sheet, have map[string]bool, all []Straddle) {
	u := j.area(t.page)
	top := u.Y0 + t.foot() - stripGap
	s.Checks = pt(u.X0, top)
	x := u.X0 + checkWidth + blockGap
	right := u.X1
	if t.pages() > 2 {
		m := j.pageMap(t, Rect{u.X1 - 30, top - stripHeight + 2, u.X1, top - 1})
		right = m.frame.X0 - 2
		m.draw(s, canvas, have, s.Name)
	}
	room := right - x
	y := top - 6
	s.write(Title, x, y, s.Name)
	after := x + Width(s.Name, TitleText) + 2
	of := "of " + t.name(0, t.rows.count()-1) + " to " + t.name(t.cols.count()-1, 0)
	if t.pages() > 2 {
		s.write(Values, after, y, fit(of, ValueText, right-after))
	} else {
		s.write(Values, after, y, fit("the whole "+j.thing(), ValueText, right-after))
	}
	y -= valuePitch + 1
	s.write(Strong, x, y, fit(or(clean(j.b.Name), "part without a name"), StrongText, room))
	for _, words := range j.stripWords() {
		y -= valuePitch
		s.write(Values, x, y, fit(words, ValueText, room))
	}
	y = u.Y0 + float64(t.lines-1)*valuePitch + 1
	for _, l := range j.tileLines(t, s, have, all) {
		s.write(l.layer, u.X0, y, fit(l.words, specs[l.layer].Style, u.Width()))
		y -= valuePitch
	}
}

// stripWords are the most important entries of the title block.
func (j *job) stripWords() []string {
	first := j.handWords() + ", make " + strconv.Itoa(j.b.Quantity)
	if rev := clean(j.b.Revision); rev != "" {
		first = "rev " + rev + ", " + first
	}
	if w := j.o.Wrap; w != nil {
		return []string{first, w.first(), "Printed side out. Scale 1:1."}
	}
	return []string{first, or(clean(j.b.Material.Name), "material not given") + ", " + j.thicknessWords(), "This side up. Scale 1:1."}
}

// line is a line of words at the foot of a page.
type line struct {
	layer LayerID
	words string
}

// tileLines are the words at the foot of one page, those that must not be missed
// first.
func (j *job) tileLines(t *tiling, s *Sheet, have map[string]bool, all []Straddle) []line {
	var ls []line
	if j.o.Measured.Off() {
		ls = append(ls, line{Strong, correctedWords(j.o.Measured)})
	}
	if j.anyFailed() {
		ls = append(ls, line{Strong, checksFailed})
	}
	if n := clean(j.o.Note); n != "" {
		ls = append(ls, line{Values, "Note: " + n})
	}
	if w := across(all, s.Name); w != "" {
		ls = append(ls, line{Strong, w})
	}
	if w := t.joinWords(s, have); w != "" {
		ls = append(ls, line{Values, w})
	}
	if j.o.Wrap != nil {
		ls = append(ls, line{Values, wrapWords})
	} else {
		ls = append(ls, line{Values, edgeWords})
	}
	return ls[:min(len(ls), t.lines)]
}

const (
	edgeWords = "Edge = centre of line. Certifies nothing: whoever cuts, welds and fits the part answers for it."
	wrapWords = "Cut on the centre of the line. Certifies nothing: whoever cuts, welds and fits the tube answers for it."
)

// joinWords says how a page is joined to its neighbours on the right and above.
func (t *tiling) joinWords(s *Sheet, have map[string]bool) string {
	right, above := t.neighbour(s, 1, 0, have), t.neighbour(s, 0, 1, have)
	var do string
	switch {
	case right != "" && above != "":
		do = "Trim on the lines at the right and above, lay over " + right + " and " + above
	case right != "":
		do = "Trim on the line at the right, lay over " + right
	case above != "":
		do = "Trim on the line above, lay over " + above
	case t.pages() > 2:
		return "Nothing to trim: the neighbours are laid over this page. Crosses must meet."
	default:
		return ""
	}
	return do + " so that lines and crosses meet."
}

// checksFailed stands on every sheet of a part that fails.
const checksFailed = "Checks failed: do not cut or drill by this sheet."

func (j *job) anyFailed() bool {
	for i := range j.marks {
		if j.marks[i].failed {
			return true
		}
	}
	return false
}

// correctedWords stands on every sheet that makes up for a printer.
func correctedWords(r Reading) string {
	return "Corrected for a printer that draws " + r.String() + " for 100 x 100 mm. True on that printer alone."
}
