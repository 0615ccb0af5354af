// Package wrap draws the wrap templates of a tube: the outline of the paper that
// is cut out and laid round the tube, with all lines on it, as a drawing for
// export/paper and for DXF; and the page of figures that goes with them.
//
// A template is drawn as it is seen from outside, the joint up. Unit: mm.
package wrap

import (
	"fmt"
	"math"
	"sort"
	"strconv"

	"blankwright/export/paper"
	"blankwright/flat/blank"
	"blankwright/flat/cope"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/tube"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

const degree = math.Pi / 180

// hatchPitch is the distance between two strokes of the hatching, level, mm.
const hatchPitch = 6.0

// Template is one end's wrap template as paper takes it: Blank is the paper that
// is cut out, its curve within num.PaperFit; Wrap all other lines.
type Template struct {
	End   int
	Blank *blank.Blank
	Wrap  *paper.Wrap
}

// Of gives the templates of a tube; none for a square end.
func Of(t *tube.Tube) []Template {
	var out []Template
	for i := range t.Ends {
		if t.Ends[i].Template != nil {
			out = append(out, template(t, i))
		}
	}
	return out
}

func template(t *tube.Tube, end int) Template {
	e := &t.Ends[end]
	k := e.Template
	pts, _ := k.Polyline(t.Line)
	b := sheetOf(t, end)
	b.Outline = keep(pts)
	w := &paper.Wrap{Entries: entries(t, end), Waste: hatch(pts, k.Top)}
	w.Waste = append(w.Waste, rim(pts, k.Top)...)
	if t.Line == cope.OD {
		inner, _ := k.Polyline(cope.ID)
		w.Grind = path(inner)
	}
	if tab := k.TabLoop(); tab != nil {
		w.Tab = tab[:len(tab)-1] // but the edge it hangs on
	}
	w.Guides = guides(t, end, k)
	w.Arrows = arrows(t, end, k, w.Guides)
	w.Labels = labels(t, k)
	return Template{end, b, w}
}

// Outline is an end's template as a DXF writer takes it: the curve as arcs within
// num.ArcFit, nothing else.
func Outline(t *tube.Tube, end int) *blank.Blank {
	b := sheetOf(t, end)
	b.Outline = t.Ends[end].Template.Keep(t.Line)
	return b
}

// sheetOf is a blank of paper with the head of its title block.
func sheetOf(t *tube.Tube, end int) *blank.Blank {
	d := t.Desc
	return &blank.Blank{
		Part: &describe.Part{File: d.File, Name: d.Name, Units: d.Units, Hand: d.Hand, Note: d.Note},
		Name: t.Name + ", " + t.Ends[end].Word + " end", Revision: t.Revision, Hand: t.Hand, Quantity: t.Quantity,
		Thickness: t.Paper.Thickness, Material: profiles.Material{Name: "paper"}, Process: profiles.Process{Name: "scissors"},
		Notes: notes(t, end),
	}
}

// keep is the outline of the paper that stays, counter-clockwise.
func keep(pts []geom.Point) geom.Loop {
	left, right := pts[0], pts[len(pts)-1]
	l := geom.Loop{geom.Line(geom.Point{}, geom.Point{X: right.X}), geom.Line(geom.Point{X: right.X}, right)}
	for i := len(pts) - 1; i > 0; i-- {
		l = append(l, geom.Line(pts[i], pts[i-1]))
	}
	return append(l, geom.Line(left, geom.Point{}))
}

func path(pts []geom.Point) []geom.Seg {
	out := make([]geom.Seg, 0, len(pts)-1)
	for i := 1; i < len(pts); i++ {
		out = append(out, geom.Line(pts[i-1], pts[i]))
	}
	return out
}

// rim is the edge of the waste above the curve.
func rim(pts []geom.Point, top float64) []geom.Seg {
	a, b := pts[0], pts[len(pts)-1]
	p, q := geom.Point{X: a.X, Y: top}, geom.Point{X: b.X, Y: top}
	return []geom.Seg{geom.Line(a, p), geom.Line(p, q), geom.Line(q, b)}
}

// hatch is strokes at 45 degrees over what lies above the curve.
func hatch(pts []geom.Point, top float64) []geom.Seg {
	right := pts[len(pts)-1]
	ring := append(append([]geom.Point(nil), pts...), geom.Point{X: right.X, Y: top}, geom.Point{X: pts[0].X, Y: top})
	low := top
	for _, p := range pts {
		low = min(low, p.Y)
	}
	var out []geom.Seg
	// Strokes run along x - y = c.
	for c := math.Ceil((pts[0].X-top)/hatchPitch) * hatchPitch; c < right.X-low; c += hatchPitch {
		var xs []float64
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			u, v := a.X-a.Y-c, b.X-b.Y-c
			if (u < 0) != (v < 0) {
				xs = append(xs, a.X+(b.X-a.X)*u/(u-v))
			}
		}
		sort.Float64s(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			if a, b := xs[i]+hatchOff, xs[i+1]-hatchOff; b-a > shortest {
				out = append(out, geom.Line(geom.Point{X: a, Y: a - c}, geom.Point{X: b, Y: b - c}))
			}
		}
	}
	return out
}

// hatchOff is how far, level, the hatching stays off the lines round it, so that
// these can be seen and measured; mm.
const hatchOff = 0.9

// shortest is the length under which a stroke of the hatching is left out, mm.
const shortest = 0.5

var quarters = map[string]string{"top": "top", "90": "90 deg", "180": "180 deg", "270": "270 deg"}

// guides are the quarter lines, and the one where the other end's top lies.
func guides(t *tube.Tube, end int, k *cope.Template) []paper.Guide {
	var out []paper.Guide
	other := t.Ends[1-end].Word + " end's top"
	turn := t.Cut.Piece.Turn
	at := k.X(turn)
	told := t.Ends[1-end].Square // its top is nothing to look for
	line := func(x, q float64) geom.Seg {
		return geom.Line(geom.Point{X: x}, geom.Point{X: x, Y: k.Y(t.Line, q)})
	}
	high := 2.0
	for _, m := range k.Marks {
		g := paper.Guide{Line: line(m.X, m.Q), Name: quarters[m.Name], High: high}
		g.Edge = num.Zero(m.X) || num.Same(m.X, k.Width)
		g.Left = num.Same(m.X, k.Width)
		if !told && num.Zero(around(m.X-at, k.Width)) {
			g.Also = other
			told = true
		}
		out = append(out, g)
	}
	if !told {
		g := paper.Guide{Line: line(at, turn), Name: other, High: high}
		for _, o := range out { // words on the free side
			if d := around(o.Line.A.X-at, k.Width); d > 0 && d < nameRoom && !o.Left {
				g.Left = true
			}
		}
		out = append(out, g)
		for i := range out[:len(out)-1] { // a quarter's name gives way to the left
			if d := around(at-out[i].Line.A.X, k.Width); d > 0 && d < nameRoom && !out[i].Edge {
				out[i].Left = true
			}
		}
	}
	return out
}

// nameRoom is what a guide's name takes beside its line, mm.
const nameRoom = 6.0

// around brings a distance round the tube into half a turn either way.
func around(d, width float64) float64 { return math.Remainder(d, width) }

// arrows are the one to the other end and the one that draws the sign of turns,
// each in a gap between the lines along the tube, the widest first, or beside the
// template where they are too near each other.
func arrows(t *tube.Tube, end int, k *cope.Template, gs []paper.Guide) []paper.Arrow {
	xs := []float64{0, k.Width}
	for _, g := range gs {
		xs = append(xs, g.Line.A.X)
	}
	sort.Float64s(xs)
	type gap struct{ mid, wide float64 }
	var gaps []gap
	for i := 1; i < len(xs); i++ {
		gaps = append(gaps, gap{(xs[i] + xs[i-1]) / 2, xs[i] - xs[i-1]})
	}
	sort.SliceStable(gaps, func(i, j int) bool { return gaps[i].wide > gaps[j].wide })
	y := k.Paper.Margin
	down := func(x float64) geom.Seg { return geom.Line(geom.Point{X: x, Y: 0.8 * y}, geom.Point{X: x, Y: 0.2 * y}) }
	over := func(x, half float64) geom.Seg {
		a, b := geom.Point{X: x - half, Y: y / 2}, geom.Point{X: x + half, Y: y / 2}
		if end == 1 { // seen from the second end everything runs the other way round
			a, b = b, a
		}
		return geom.Line(a, b)
	}
	other := paper.Arrow{Words: "to the " + t.Ends[1-end].Word + " end"}
	turn := paper.Arrow{Words: "turn +"}
	for i, g := range gaps {
		other.Places = append(other.Places, down(g.mid))
		if g.wide > 2*nameRoom { // clear of the name, too
			other.Places = append(other.Places, down(g.mid+nameRoom/2))
		}
		// Clear of the name on the left of the gap; the widest is the other arrow's.
		if half := min(7, (g.wide-nameRoom)/2-1); half > leastArrow/2 && i > 0 {
			turn.Places = append(turn.Places, over(g.mid+nameRoom/2, half))
		}
	}
	other.Places = append(other.Places, down(-nameRoom))
	turn.Places = append(turn.Places, over(-2*nameRoom-7, 7), over(k.Width+k.Paper.Tab+2*nameRoom+7, 7))
	out := []paper.Arrow{other}
	if !t.Ends[1-end].Square {
		out = append(out, turn)
	}
	return out
}

// leastArrow is the least length of an arrow that can be seen as one, mm.
const leastArrow = 6.0

// labels are the words on a template, those first that must not be missed, each
// with all the places that it may point to.
func labels(t *tube.Tube, k *cope.Template) []paper.Label {
	on := func(kind cope.Kind, share float64) geom.Point {
		x := k.Width * share
		return geom.Point{X: x, Y: k.Y(kind, k.Q(x))}
	}
	label := func(words string, places ...geom.Point) paper.Label {
		return paper.Label{At: places[0], Or: places[1:], Words: words}
	}
	var edge, seam, cut []geom.Point
	for _, share := range [...]float64{0.8, 0.65, 0.35, 0.2, 0.93, 0.5, 0.07} {
		cut = append(cut, on(t.Line, 1-share))
	}
	const places = 25
	for i := range places { // from the right
		edge = append(edge, geom.Point{X: k.Width * (1 - float64(i+1)/(places+1))})
	}
	for _, share := range [...]float64{0.6, 0.75, 0.45, 0.3, 0.9} {
		y := k.Y(t.Line, k.Q(0)) * share
		seam = append(seam, geom.Point{Y: y}, geom.Point{X: k.Width, Y: y})
	}
	straight := label("straight edge: must meet itself", edge...)
	straight.Over = "must meet itself"
	var out []paper.Label
	if tab := k.TabLoop(); tab != nil {
		b := tab.Bounds()
		var places []geom.Point
		for _, share := range [...]float64{0.5, 0.7, 0.3, 0.85} {
			places = append(places, geom.Point{X: (b.Min.X + b.Max.X) / 2, Y: b.Min.Y + share*(b.Max.Y-b.Min.Y)})
		}
		glue := label("glue tab", places...)
		glue.Over, glue.Up = glue.Words, true
		out = append(out, glue)
	}
	out = append(out, straight, label("seam: the edges meet", seam...))
	if t.Line == cope.OD {
		out = append(out, label("cut: outside of the wall", cut...))
		var grind []geom.Point
		apart := func(share float64) float64 {
			return math.Abs(on(cope.OD, share).Y - on(cope.ID, share).Y)
		}
		worst := 0.0
		const looks = 48
		for i := 1; i < looks; i++ {
			worst = max(worst, apart(float64(i)/looks))
		}
		for i := 1; i < looks; i++ {
			if share := float64(i) / looks; num.AtLeast(apart(share), worst/2) {
				grind = append(grind, on(cope.ID, share))
			}
		}
		out = append(out, label("grind: inside of the wall", grind...))
	} else {
		out = append(out, label("cut square through the wall", cut...))
	}
	var waste []geom.Point
	for i := 1; i < 12; i++ {
		if p := on(t.Line, float64(i)/12); k.Top-p.Y > wasteRoom {
			waste = append(waste, geom.Point{X: p.X, Y: k.Top - wasteRoom/2})
		}
	}
	out = append(out, label("waste", append(waste, geom.Point{X: k.Width / 2, Y: k.Top - 1})...))
	return out
}

// wasteRoom is how high waste has to be for a label to point into it, mm.
const wasteRoom = 6.0

// entries are the title block of a template.
func entries(t *tube.Tube, end int) []paper.Entry {
	p := t.Cut.Piece.Tube
	hand := t.Hand.String()
	if t.Desc.Hand.Text == "pair" {
		hand += ", of a pair"
	}
	return []paper.Entry{
		{Label: "tube", Words: unit.Typed(p.OD, t.System()) + " x " + unit.Typed(p.Wall, t.System())},
		{Label: "material", Words: t.Material.Name},
		{Label: "quantity", Words: strconv.Itoa(t.Quantity)},
		{Label: "hand", Words: hand, Strong: t.Hand == blank.Mirrored},
		{Label: "saw to", Words: text(t, t.Blank()), Strong: true},
		{Label: "once round", Words: text(t, t.Ends[end].Template.Width)},
		{Label: "pivot to pivot", Words: text(t, t.Cut.Piece.Centres)},
	}
}

func text(t *tube.Tube, mm float64) string { return unit.Text(mm, t.System()) }

func angle(rad float64) string { return num.Short(rad/degree, 2) + " deg" }

// notes are what has to be known at the bench.
func notes(t *tube.Tube, end int) []string {
	k := t.Ends[end].Template
	out := []string{fmt.Sprintf("Wrap it printed side out round %s tube, %s paper. Edges meet and the straight edge meets itself, or the tube is of another size.",
		text(t, t.Cut.Piece.Tube.OD), text(t, t.Paper.Thickness))}
	if t.Line == cope.OD {
		out = append(out, "Cut along the full line: the outside of the wall. Grind back to the dashed line: the inside.")
	} else {
		out = append(out, "Cut along the full line, square through the wall.")
	}
	d := t.Cut.Deduction(end, t.Line)
	out = append(out, fmt.Sprintf("From the working point: longest point %s, shortest %s, straight edge %s.", from(t, d.Ear), from(t, d.Throat), from(t, k.EdgeAt)))
	other := &t.Ends[1-end]
	switch {
	case other.Template != nil:
		out = append(out, fmt.Sprintf("Straight edge to the %s end's straight edge: %s.", other.Word, text(t, t.Cut.EdgeGap(t.Ends[0].Template, t.Ends[1].Template))))
	default:
		out = append(out, fmt.Sprintf("Straight edge to the %s end, square: %s.", other.Word, text(t, t.Cut.Piece.Centres-k.EdgeAt-t.Cut.Ends[1-end].Curve(t.Line).Ear().S)))
	}
	if !other.Square && !t.Ends[end].Square {
		out = append(out, TurnWords(t))
	}
	return out
}

// from is how far a place lies from the working point, into the tube or beyond it.
func from(t *tube.Tube, mm float64) string {
	if mm < 0 && !num.Zero(mm) {
		return text(t, -mm) + " beyond it"
	}
	return text(t, mm)
}

// TurnWords tells how the second end is turned against the first.
func TurnWords(t *tube.Tube) string {
	turn := math.Remainder(t.Cut.Piece.Turn, 2*math.Pi)
	if num.SameAngle(turn, 0) {
		return "Both ends have their top on one line along the tube."
	}
	way := "counter-clockwise"
	if turn < 0 {
		way = "clockwise"
	}
	return fmt.Sprintf("Second end's top: %s %s from the first's, looking at the first end from its joint: %s round the outside.",
		angle(math.Abs(turn)), way, text(t, math.Abs(turn)*t.Cut.Piece.Tube.OD/2))
}
