// Package paper draws a blank on a page at true scale: it chooses the page,
// places the part, its dimensions, hole callouts and check bars so that nothing
// covers anything else, and hands over a Sheet of lines, arcs, circles and
// measured texts. It knows no file format; a writer renders the Sheet as it is.
//
// Unit: mm on paper, scale 1:1; origin at the page's lower left corner, y up,
// angles counter-clockwise. Nothing here depends on the date, the machine or
// the order of a map: the same blank gives the same sheet.
package paper

import (
	"sync"

	"blankwright/flat/geom"
)

// LineWidth is the stroke of an edge in mm. The edge is the centre of the
// stroke. 0.15 to 0.25 mm is common practice for templates: thin enough to cut
// or punch to, thick enough for every printer; the widest of them tells edges
// from all other lines.
const LineWidth = 0.25

// fine is the stroke of everything that is not an edge, mm: the thin line of
// ISO 128-2's 0.25 mm line group (from memory, verify).
const fine = 0.13

// Pen is how the lines of a layer are drawn.
type Pen struct {
	Width float64    // mm; 0 draws no line
	Dash  [4]float64 // on, off, on, off in mm; all zero for a full line
	Fill  Fill       // of what the lines enclose
}

// Fill is how an area is filled.
type Fill uint8

// Fills.
const (
	NoFill Fill = iota
	Black
	White
)

// Style is a way of writing: one size and weight.
type Style uint8

// Styles. A layer of lines has no texts, and no style.
const (
	NoText       Style = iota
	TitleText          // the part's name
	CalloutText        // what to do at a hole, and dimensions
	TagText            // a letter at a hole
	SmallText          // the same where holes stand close, and words on the page map
	ValueText          // an entry in the title block, the hole table or the list of findings
	StrongText         // the same, heavy
	LabelText          // the name of an entry
	NumberText         // a number in a finding's ring
	ReversedText       // the same, white on black
	numStyles
)

// Font is the size (mm) and weight of a style. Capitals are 0.72 of the size.
type Font struct {
	Size  float64
	Bold  bool
	White bool
}

// styles: callouts have capitals of 3 mm, for reading at arm's length; nothing
// is below 2.5 mm (7 point).
var styles = [numStyles]Font{
	TitleText:    {Size: 6, Bold: true},
	CalloutText:  {Size: 4.2},
	TagText:      {Size: 4.2, Bold: true},
	SmallText:    {Size: 2.5, Bold: true},
	ValueText:    {Size: 3.5},
	StrongText:   {Size: 3.5, Bold: true},
	LabelText:    {Size: 2.5},
	NumberText:   {Size: 3.5, Bold: true},
	ReversedText: {Size: 3.5, Bold: true, White: true},
}

// Font gives the style's size and weight.
func (s Style) Font() Font { return styles[s] }

// Anchor tells which point of a text its place is.
type Anchor uint8

// Anchors, all on the base line.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of writing.
type Text struct {
	At     geom.Point
	Anchor Anchor
	Up     bool  // written upwards, turned a quarter turn counter-clockwise
	Style  Style // its layer's
	S      string
}

// Box is the room that the text takes, on the generous side.
func (t Text) Box() Rect {
	w, h := Width(t.S, t.Style), styles[t.Style].Size
	x0 := 0.0
	switch t.Anchor {
	case Middle:
		x0 = -w / 2
	case End:
		x0 = -w
	}
	if t.Up {
		return Rect{t.At.X - capHeight*h, t.At.Y + x0, t.At.X + descent*h, t.At.Y + x0 + w}
	}
	return Rect{t.At.X + x0, t.At.Y - descent*h, t.At.X + x0 + w, t.At.Y + capHeight*h}
}

// LayerID names a layer. Layers are drawn in this order.
type LayerID uint8

// Layers. Those before Frame belong to the part and lie on it at true scale.
const (
	Outline    LayerID = iota // the part's outer edge
	Openings                  // edges of the openings that are cut
	Drilled                   // edges of the holes that are drilled or reamed by hand
	Bending                   // bend lines
	Welding                   // strokes along the edges that are welded
	GrindLines                // of a wrap template: what is ground to
	TabEdges                  // of a wrap template: the glue tab
	Guides                    // of a wrap template: lines along the tube
	Hatching                  // of a wrap template: what is cut off
	Centres                   // centre-lines
	Punches                   // crosses at hole centres, open in the middle
	PlateMarks                // texts marked on the plate
	Extensions                // lines from the part to dimensions and figures
	Dimensions                // dimension lines
	Arrows                    // arrowheads
	Figures                   // dimension texts
	Leaders                   // lines from callouts, tags and findings to their places
	Callouts                  // callouts
	Tags                      // hole letters
	SmallTags                 // hole letters where there is little room
	Seams                     // where pages are trimmed and laid on each other
	SeamWords                 // what to do there
	Crosses                   // alignment marks that neighbouring pages share
	Rings                     // rings of waived findings and warnings
	RingNumbers
	Discs // discs of failed findings
	DiscNumbers
	Shade // the page itself on the page map
	Frame // lines of the title block and of tables
	Bars  // check bars
	Title
	Values
	Strong
	Labels
	Small
	Reversed
	FoldedEdges  // of the folded part: edges,
	FoldedSeams  // where its bends begin and end,
	FoldedHidden // and edges behind metal
	PlateEdge    // of a picture of a whole sheet: the sheet's own edges
	PlateParts   // on it, the parts' outlines
	PlateInside  // and their openings
	PlateLeft    // what is left of the sheet
	PlateNumbers // of the parts
	numLayers
)

// Layer is a set of lines drawn with one pen, and of texts. A run of segments
// that each start where the one before ends is one path; a path that comes back
// to its start is closed.
type Layer struct {
	Segs    []geom.Seg
	Circles []geom.Circle
	Texts   []Text
}

// Spec is what all things on a layer have in common.
type Spec struct {
	Name  string // unique; small letters and hyphens
	Pen   Pen
	Style Style // of the texts
}

var specs = [numLayers]Spec{
	Outline:     {Name: "outline", Pen: Pen{Width: LineWidth}},
	Openings:    {Name: "openings", Pen: Pen{Width: LineWidth}},
	Drilled:     {Name: "drilled", Pen: Pen{Width: LineWidth, Dash: [4]float64{2, 0.8, 2, 0.8}}},
	Bending:     {Name: "bend-lines", Pen: Pen{Width: LineWidth, Dash: [4]float64{8, 1.2, 8, 1.2}}},
	Welding:     {Name: "weld-edges", Pen: Pen{Width: LineWidth}},
	GrindLines:  {Name: "grind-lines", Pen: Pen{Width: LineWidth, Dash: [4]float64{3, 1, 3, 1}}},
	TabEdges:    {Name: "glue-tab", Pen: Pen{Width: fine}},
	Guides:      {Name: "guides", Pen: Pen{Width: fine, Dash: [4]float64{9, 1.5, 2, 1.5}}},
	Hatching:    {Name: "waste", Pen: Pen{Width: fine}},
	Centres:     {Name: "centre-lines", Pen: Pen{Width: fine, Dash: [4]float64{6, 1, 1, 1}}},
	Punches:     {Name: "punch-crosses", Pen: Pen{Width: fine}},
	PlateMarks:  {Name: "marks", Style: CalloutText},
	Extensions:  {Name: "extension-lines", Pen: Pen{Width: fine, Dash: [4]float64{1.2, 1, 1.2, 1}}},
	Dimensions:  {Name: "dimensions", Pen: Pen{Width: fine}},
	Arrows:      {Name: "arrowheads", Pen: Pen{Fill: Black}},
	Figures:     {Name: "figures", Style: CalloutText},
	Leaders:     {Name: "leaders", Pen: Pen{Width: fine}},
	Callouts:    {Name: "callouts", Style: CalloutText},
	Tags:        {Name: "tags", Style: TagText},
	SmallTags:   {Name: "small-tags", Style: SmallText},
	Seams:       {Name: "seams", Pen: Pen{Width: fine, Dash: [4]float64{10, 1.5, 1.5, 1.5}}},
	SeamWords:   {Name: "seam-words", Style: SmallText},
	Crosses:     {Name: "alignment-marks", Pen: Pen{Width: LineWidth}},
	Rings:       {Name: "finding-rings", Pen: Pen{Width: LineWidth, Fill: White}},
	RingNumbers: {Name: "finding-ring-numbers", Style: NumberText},
	Discs:       {Name: "finding-discs", Pen: Pen{Fill: Black}},
	DiscNumbers: {Name: "finding-disc-numbers", Style: ReversedText},
	Shade:       {Name: "this-page", Pen: Pen{Fill: Black}},
	Frame:       {Name: "frame", Pen: Pen{Width: fine}},
	Bars:        {Name: "check-bars", Pen: Pen{Width: fine}},
	Title:       {Name: "title", Style: TitleText},
	Values:      {Name: "values", Style: ValueText},
	Strong:      {Name: "strong", Style: StrongText},
	Labels:      {Name: "labels", Style: LabelText},
	Small:       {Name: "map-names", Style: SmallText},
	Reversed:    {Name: "this-page-name", Style: ReversedText},

	// Widths of ISO 128-2's 0.35 mm line group (from memory, verify).
	FoldedEdges:  {Name: "folded-edges", Pen: Pen{Width: 0.35}},
	FoldedSeams:  {Name: "folded-bend-limits", Pen: Pen{Width: fine}},
	FoldedHidden: {Name: "folded-hidden-edges", Pen: Pen{Width: 0.18, Dash: [4]float64{2, 1, 2, 1}}},
	PlateEdge:    {Name: "sheet-edge", Pen: Pen{Width: 2 * LineWidth}},
	PlateParts:   {Name: "parts", Pen: Pen{Width: LineWidth}},
	PlateInside:  {Name: "openings-of-parts", Pen: Pen{Width: fine}},
	PlateLeft:    {Name: "leftover", Pen: Pen{Width: fine, Dash: [4]float64{3, 1.5, 3, 1.5}}},
	PlateNumbers: {Name: "part-numbers", Style: SmallText},
}

// Spec gives the layer's name and pen.
func (id LayerID) Spec() *Spec { return &specs[id] }

// Layers is a drawing, layer by layer.
type Layers [numLayers]Layer

// Sheet is one page at scale 1:1, unless it has no check block.
type Sheet struct {
	Page  Page
	Name  string // of one page of several: "A1", "cover"; else ""
	Part  string // the part's name and revision, one line
	Title string // the same with the page's name
	Shows string // what is on it: "Flat part", "Wrap template", "Folded part", "Papers", "Sheet at scale 1:7"
	// Width and Height are the size of the drawing, mm. They are the page's,
	// unless the sheet is corrected for a printer that is off: then the drawing
	// is stretched to the page when it is written.
	Width, Height float64
	Measured      Reading // of the printer that the sheet is corrected for
	Layers                // of this sheet alone
	// Checks is where the check block lies: its origin on the page.
	Checks     geom.Point
	CheckBlock BlockID
	// Offset is where the part's own origin lies on the page.
	Offset geom.Point
	// Marks are the middles of the alignment marks on this page. Neighbours
	// share those with the same number.
	Marks []Mark
	// Left holds the labels that found no place clear of everything else, on this
	// sheet or the others of its set. They are left out.
	Left []string

	col, row int   // of one page of several
	field    field // what is on the sheet while it is being drawn
}

// Mark is an alignment mark at its place on a page.
type Mark struct {
	Number int
	At     geom.Point
}

// Texts gives every text of the sheet at its place on the page, those of the
// check block included.
func (s *Sheet) Texts() []Text {
	var all []Text
	for i := range s.Layers {
		all = append(all, s.Layers[i].Texts...)
	}
	for _, l := range s.CheckBlock.Layers() {
		for _, t := range l.Texts {
			t.At = t.At.Add(s.Checks)
			all = append(all, t)
		}
	}
	return all
}

// Scale is what the drawing is multiplied by, across and up, when it is
// written: 1 and 1 unless it is corrected for a printer.
func (s *Sheet) Scale() (x, y float64) { return s.Measured.scale() }

var sheets = sync.Pool{New: func() any { return new(Sheet) }}

// newSheet is an empty sheet, perhaps one released before.
func newSheet(p Page, r Reading, title string) *Sheet {
	s := sheets.Get().(*Sheet)
	s.Page, s.Name, s.Part, s.Title, s.Measured = p, "", title, title, r
	sx, sy := r.scale()
	s.Width, s.Height = p.Width/sx, p.Height/sy
	s.Checks, s.CheckBlock, s.Offset, s.Left = geom.Point{}, FullBlock, geom.Point{}, nil
	s.Shows = "Flat part"
	s.Marks = s.Marks[:0]
	for i := range s.Layers {
		l := &s.Layers[i]
		l.Segs, l.Circles, l.Texts = l.Segs[:0], l.Circles[:0], l.Texts[:0]
	}
	return s
}

// Release gives the sheet's memory back for the next one. The sheet and all
// that it holds must not be used afterwards. Calling it is not needed, but
// quicker where many sheets are made.
func (s *Sheet) Release() {
	if s != nil {
		sheets.Put(s)
	}
}

func (ls *Layers) seg(id LayerID, g geom.Seg) { ls[id].Segs = append(ls[id].Segs, g) }

func (ls *Layers) line(id LayerID, a, b geom.Point) { ls.seg(id, geom.Seg{A: a, B: b}) }

func (ls *Layers) rule(id LayerID, x0, y0, x1, y1 float64) { ls.line(id, pt(x0, y0), pt(x1, y1)) }

func (ls *Layers) circle(id LayerID, c geom.Point, r float64) {
	ls[id].Circles = append(ls[id].Circles, geom.Circle{C: c, R: r})
}

// box draws the four sides of a rectangle.
func (ls *Layers) box(id LayerID, r Rect) {
	ls.rule(id, r.X0, r.Y0, r.X1, r.Y0)
	ls.rule(id, r.X1, r.Y0, r.X1, r.Y1)
	ls.rule(id, r.X1, r.Y1, r.X0, r.Y1)
	ls.rule(id, r.X0, r.Y1, r.X0, r.Y0)
}

func (ls *Layers) text(id LayerID, t Text) {
	if t.S != "" {
		t.Style = specs[id].Style
		ls[id].Texts = append(ls[id].Texts, t)
	}
}

func (ls *Layers) write(id LayerID, x, y float64, words string) {
	ls.text(id, Text{At: pt(x, y), S: words})
}

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
