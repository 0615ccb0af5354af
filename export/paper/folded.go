package paper

import (
	"math"
	"strconv"

	"blankwright/flat/bend"
	"blankwright/flat/blank"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Folded draws the bending sheet of a part with bends: how it looks folded, from
// the front, from above and from the right in third-angle projection and in an
// isometric view, hidden edges dashed in the first three and left out of the last,
// at the largest usual scale that the page takes; below that its bends in the order
// in which they are made, each with where it is marked. It is a picture to look at,
// not one to measure: it has no check bars, and no printer's reading changes it.
// The page is the one asked for, on its side, where that is large enough, else A4
// or letter. nil for a flat part.
func Folded(b *blank.Blank, o Options) *Sheet {
	if b.Formed == nil {
		return nil
	}
	j := &job{b: b, sys: o.Unit, bounds: b.Outline.Bounds()}
	if j.sys == unit.Unset && b.Part != nil {
		j.sys = b.Part.Units
	}
	s := newSheet(foldedPage(j.sys, o.Page), Reading{}, j.title())
	s.Name, s.CheckBlock, s.Shows = "folded", NoBlock, "Folded part"
	s.Title += ", folded"
	g := b.Formed.Flat.Fold()
	f := folding{s: s, j: j, g: g, plan: b.Plan(), room: Rect{margin, margin, s.Width - margin, s.Height - margin}}
	f.head(clean(o.Note))
	f.foot()
	f.picture()
	return s
}

// The least sides (mm) of a page that a bending sheet is drawn on, and the most
// that is worth its paper.
const (
	foldedLeast = 200.0
	foldedMost  = 450.0
)

// The lines under the part's name that are not like the first.
const (
	scaleLine = 1
	noteLine  = 2
)

// foldedPage is the page of a bending sheet, on its side.
func foldedPage(sys unit.System, name string) Page {
	p := Pages(sys)[0]
	if q, err := FindPage(name); err == nil && !q.Roll && min(q.Width, q.Height) >= foldedLeast && max(q.Width, q.Height) <= foldedMost {
		p = q
	}
	if p.Height > p.Width {
		p = p.turned()
	}
	return p
}

// folding is a bending sheet while it is drawn. room is what is still free.
type folding struct {
	s    *Sheet
	j    *job
	g    *fold.Folded
	plan *blank.BendPlan
	room Rect

	scale  float64
	scaleY float64 // of the line that tells it
}

// head writes what the part is.
func (f *folding) head(note string) {
	s, r := f.s, &f.room
	b := f.j.b
	name := or(clean(b.Name), "part without a name")
	if rev := clean(b.Revision); rev != "" {
		name += ", rev " + rev
	}
	if b.Hand == blank.Mirrored {
		name += ", mirrored"
	}
	r.Y1 -= 6
	s.write(Title, r.X0, r.Y1, fit(name+", folded", TitleText, r.Width()))
	size := f.g.Box()
	d := size.Max.Sub(size.Min)
	lines := []string{
		or(clean(b.Material.Name), "material not given") + ", " + f.j.thicknessWords() + " thick, make " + strconv.Itoa(b.Quantity) + ". Overall " +
			f.text(d.X) + " wide, " + f.text(d.Y) + " deep, " + f.text(d.Z) + " high.",
		"", // the scale, which is known once the views are laid out
	}
	if note != "" {
		lines = append(lines, "Note: "+note)
	}
	r.Y1 -= 1.5
	for i, l := range lines {
		r.Y1 -= valuePitch
		if i == scaleLine {
			f.scaleY = r.Y1
		}
		id := Values
		if i == noteLine {
			id = Strong
		}
		s.write(id, r.X0, r.Y1, fit(l, specs[id].Style, r.Width()))
	}
	r.Y1 -= blockGap
}

// text writes a length for people.
func (f *folding) text(mm float64) string { return unit.Text(mm, f.j.sys) }

// column is one of the table of bends.
type column struct {
	head  string
	share float64 // of the table's width
}

var bendColumns = [...]column{
	{"bend", 0.04}, {"flange", 0.13}, {"turn", 0.10}, {"inside radius", 0.08}, {"height when folded", 0.16},
	{"hook the tape on the", 0.19}, {"begins", 0.075}, {"bend line", 0.075}, {"ends", 0.075}, {"flat length, K", 0.075},
}

const bendRow = 5.4 // height of a row of the table of bends

// foot writes the table of bends, and what was looked at, from below.
func (f *folding) foot() {
	s, r := f.s, &f.room
	found, looked, not := f.plan.Looked()
	figures := "mm"
	if f.j.sys == unit.Inch {
		figures = "inches"
	}
	words := []string{
		"Bend in this order; up and down as seen on this side of the flat. Figures in " + figures + ", square from the edge named: where the bend begins (tangent), its line, where it ends (tangent).",
		capital(found) + ". Looked at: " + looked + ". Not looked at: " + not + ".",
		f.backWords(),
		caution,
	}
	var lines []string
	for _, w := range words {
		lines = append(lines, wrap(w, ValueText, r.Width(), 3)...)
	}
	for i := len(lines) - 1; i >= 0; i-- {
		s.write(Values, r.X0, r.Y0+1, lines[i])
		r.Y0 += valuePitch
	}
	r.Y0 += 1.5
	low := r.Y0
	high := low + float64(len(f.plan.Steps))*bendRow + headRow
	x := r.X0
	for _, c := range bendColumns {
		s.write(Labels, x+1, high-headRow+1.2, fit(c.head, LabelText, c.share*r.Width()-1.5))
		x += c.share * r.Width()
	}
	y := high - headRow
	s.rule(Frame, r.X0, high, r.X1, high)
	for i := range f.plan.Steps {
		s.rule(Frame, r.X0, y, r.X1, y)
		y -= bendRow
		f.row(&f.plan.Steps[i], y+1.5)
	}
	s.rule(Frame, r.X0, y, r.X1, y)
	r.Y0 = high + blockGap
}

// row writes one bend of the table.
func (f *folding) row(st *blank.BendStep, y float64) {
	b := st.Bend
	figure := func(mm float64) string { return ordinateWords(mm, f.j.sys) }
	cells := [len(bendColumns)]string{
		strconv.Itoa(st.No), clean(b.Name), b.Direction() + " " + degrees(b.Bend.A), figure(b.Bend.R),
		figure(b.Height) + " " + toWords(b.From), "", "", "", "", figure(b.Allowance.Length) + ", " + num.Short(b.Allowance.K, 3),
	}
	if st.Hooked {
		h := &st.Hook
		cells[5], cells[6], cells[7], cells[8] = clean(h.Name()), figure(h.Begins), figure(h.Line), figure(h.Ends)
	} else {
		at := func(p geom.Point) string {
			p = p.Sub(f.j.bounds.Min)
			return figure(p.X) + ", " + figure(p.Y)
		}
		cells[5] = "no edge along it: line " + at(b.Line.A) + " to " + at(b.Line.B) + " from lower left"
	}
	x, w := f.room.X0, f.room.Width()
	for i, c := range cells {
		wide := bendColumns[i].share * w
		if i == 5 && !st.Hooked {
			wide = (bendColumns[5].share + bendColumns[6].share + bendColumns[7].share + bendColumns[8].share) * w
		}
		id := Values
		if i == 0 {
			id = Strong
		}
		style := specs[id].Style
		if Width(c, style) > wide-1.5 {
			f.s.write(Labels, x+1, y+0.3, fit(c, LabelText, wide-1.5))
		} else {
			f.s.write(id, x+1, y, c)
		}
		x += bendColumns[i].share * w
	}
}

// toWords says to what a height is measured.
func toWords(r bend.Reference) string {
	switch r {
	case bend.Tangent:
		return "from tangent"
	case bend.Apex:
		return "to apex"
	}
	return r.String()
}

func degrees(rad float64) string { return num.Short(rad*180/math.Pi, 1) + " deg" }

// backWords say whether what was asked of the folded part came back.
func (f *folding) backWords() string {
	n, off := 0, ""
	for _, d := range f.g.Dims() {
		n++
		if !d.Holds() && off == "" {
			off = d.Name
		}
	}
	words := "Folded back from the flat, all " + strconv.Itoa(n) + " dimensions that were given or follow come back"
	if off != "" {
		words = "Folded back from the flat, this does not come back: " + off
	}
	for _, a := range f.g.InLine() {
		if a.Holds() {
			words += "; " + clean(a.A) + " and " + clean(a.B) + " are in line"
		} else {
			words += "; " + clean(a.A) + " and " + clean(a.B) + " are " + f.text(a.Offset) + " out of line"
		}
	}
	return words + "."
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// foldedScales are so many mm on the page for one of the part, first the largest:
// those of ISO 5455, and as it allows some in between.
var foldedScales = [...]float64{5, 4, 3, 2, 1.5, 1, 1 / 1.5, 1 / 2.0, 1 / 2.5, 1 / 3.0, 1 / 4.0, 1 / 5.0, 1 / 6.0, 1 / 8.0, 1 / 10.0, 1 / 15.0, 1 / 20.0, 1 / 50.0, 1 / 100.0, 1 / 200.0, 1 / 500.0, 1 / 1000.0}

// Room between and round the views on the page, mm: for their names and
// dimensions.
const (
	viewGap  = 17.0
	viewEdge = 9.0
)

// picture draws the views in the room that is left.
func (f *folding) picture() {
	r := Rect{f.room.X0 + viewEdge, f.room.Y0 + viewEdge, f.room.X1 - viewEdge, f.room.Y1 - valuePitch}
	seen := f.g.Views()
	var views []fold.View
	var box geom.Box
	for _, k := range foldedScales {
		f.scale = k
		views = fold.Arrange(seen, viewGap/k)
		box = geom.Box{}
		for i := range views {
			box = box.Union(views[i].Box)
		}
		if box.Width()*k <= r.Width() && box.Height()*k <= r.Height() {
			break
		}
	}
	k := f.scale
	shift := pt((r.X0+r.X1)/2-(box.Min.X+box.Max.X)/2*k, (r.Y0+r.Y1)/2-(box.Min.Y+box.Max.Y)/2*k)
	for i := range views {
		f.view(&views[i], shift)
	}
	f.s.write(Values, f.room.X0, f.scaleY, "A picture, not a template: do not measure from it. Third-angle projection, scale "+scaleWords(k)+".")
}

// strokeLayers are where the lines of a view go.
var strokeLayers = [...]LayerID{fold.Full: FoldedEdges, fold.Seam: FoldedSeams, fold.Hidden: FoldedHidden}

var viewNames = map[fold.Eye]string{fold.Isometric: "isometric", fold.FromAbove: "from above", fold.FromFront: "from the front", fold.FromRight: "from the right"}

// view draws one view, its name over it and its sizes beside it.
func (f *folding) view(v *fold.View, shift geom.Point) {
	at := func(p geom.Point) geom.Point { return p.Mul(f.scale).Add(shift) }
	for _, st := range v.Strokes {
		if v.Eye == fold.Isometric && st.Line == fold.Hidden {
			continue
		}
		for i := 1; i < len(st.Points); i++ {
			f.s.line(strokeLayers[st.Line], at(st.Points[i-1]), at(st.Points[i]))
		}
	}
	lo, hi := at(v.Box.Min), at(v.Box.Max)
	f.s.text(Values, Text{At: pt((lo.X+hi.X)/2, hi.Y+2.2), Anchor: Middle, S: viewNames[v.Eye]})
	wide, high := v.Box.Width(), v.Box.Height()
	switch v.Eye {
	case fold.FromFront:
		f.level(lo.X, hi.X, lo.Y, wide)
		f.upright(lo.Y, hi.Y, lo.X, high)
	case fold.FromRight:
		f.level(lo.X, hi.X, lo.Y, wide)
	}
}

const viewDim = 5.0 // from a view to its dimension lines

// level draws a size below a view, upright one at its left.
func (f *folding) level(x0, x1, y, size float64) {
	y -= viewDim
	f.size(pt(x0, y), pt(x1, y))
	f.s.rule(Dimensions, x0, y+viewDim-1, x0, y-1)
	f.s.rule(Dimensions, x1, y+viewDim-1, x1, y-1)
	f.s.text(Values, Text{At: pt((x0+x1)/2, y-3.6), Anchor: Middle, S: ordinateWords(size, f.j.sys)})
}

func (f *folding) upright(y0, y1, x, size float64) {
	x -= viewDim
	f.size(pt(x, y0), pt(x, y1))
	f.s.rule(Dimensions, x+viewDim-1, y0, x-1, y0)
	f.s.rule(Dimensions, x+viewDim-1, y1, x-1, y1)
	f.s.text(Values, Text{At: pt(x-1.2, (y0+y1)/2), Anchor: Middle, Up: true, S: ordinateWords(size, f.j.sys)})
}

// size draws a dimension line with arrowheads, inside where there is room.
func (f *folding) size(a, b geom.Point) {
	d := drawing{s: f.s}
	long := b.Sub(a)
	f.s.line(Dimensions, a, b)
	if long.Len() >= 3*arrowLong {
		d.arrow(a, long.Mul(-1))
		d.arrow(b, long)
	}
}

func scaleWords(k float64) string {
	if k >= 1 {
		return num.Short(k, 1) + ":1"
	}
	return "1:" + num.Short(1/k, 1)
}
