// Package describe turns the text of a part description into typed values,
// each with its place in the file. It is strict: an unknown key, a wrong type,
// a duplicate, a missing or impossible value is a problem with a place, and all
// problems of a file are found in one pass. It knows no geometry. LANGUAGE.md is
// the reference of the language.
package describe

import (
	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// Length is a length in mm with the place it was written. Set says whether the
// file gave it at all.
type Length struct {
	MM  float64
	Pos diag.Pos
	Set bool
}

// Angle is an angle in radians.
type Angle struct {
	Rad float64
	Pos diag.Pos
	Set bool
}

// Count is a whole number.
type Count struct {
	N   int
	Pos diag.Pos
	Set bool
}

// Word is a piece of text.
type Word struct {
	Text string
	Pos  diag.Pos
	Set  bool
}

// Flag is a yes or a no.
type Flag struct {
	Yes bool
	Pos diag.Pos
	Set bool
}

// Point is a place on the plate, in the part's own coordinates.
type Point struct {
	X, Y Length
	Pos  diag.Pos
}

// Part is one description.
type Part struct {
	File     string
	Pos      diag.Pos // of the part: line
	Name     Word
	Revision Word
	Quantity Count       // 1 where not given
	Hand     Word        // "as drawn" (where not given), "mirrored", "pair"
	Units    unit.System // Unset where the file gives every length its unit
	Plate    Plate
	Process  Word
	Profile  Word // a file with a shop's own rows, beside the description; "" where not given
	Rules    Word // "aisc 360" (where not given), "aisc 360 lrfd", "aisc 360 asd", "en 1993-1-8", "shop 1.5d", "shop 2d", "shop"
	Edges    Word // how the edges are made, for old edge tables: "cut" (where not given) or "sheared"
	Holes    []HoleSet
	Outline  Shape
	Formed   *Formed // instead of an outline; nil where not given
	Bends    *Bends  // of a part with bends; nil where not given
	Relief   *BendRelief
	Corner   *BendRelief // where two bends meet
	Flanges  []Flange
	InLine   []InLine
	Add      []Piece // joined to the outline, in order
	Cutouts  []Piece // then taken out of it
	Tabs     []Tab   // then set on its edges
	TabSlots []TabSlot
	Marks    []Mark // nil: the part's name; of no length: none
	Joints   []Joint
	Coating  *Coating // of the finished part; nil where not given
	Axle     *Axle    // what loads are worked out from; nil where not given
	Loads    []Load
	Welds    []Weld
	Waivers  []Waiver
	Note     Word // a free line for the title block
}

// Plate is what the part is cut from.
type Plate struct {
	Pos       diag.Pos
	Thickness Length
	Material  Word
}

// HoleSet is one named entry under holes: one hole, or a pattern of equal ones.
type HoleSet struct {
	Name Word
	Pos  diag.Pos // of the entry's value
	Place
	Size
	How Word // "cut", "drill" (punch mark on the table, drilled by hand), "ream" (cut under size, then reamed); "" where not given
	For Word // "lightening"; "" where not given
}

// Place says where the hole or the holes of a set are. Exactly one of At, Row,
// Grid and Circle is given.
type Place struct {
	At     *Point
	Row    *Row
	Grid   *Grid
	Circle *BoltCircle
	Mirror Word // "", "x" (across the x axis: y changes sign), "y", "both" (three images: across y, across x, across both)
}

// Row is Count holes from From to To, both included, evenly spaced.
type Row struct {
	Pos      diag.Pos
	From, To Point
	Count    Count
}

// Grid is Columns by Rows holes around At (its centre), Pitch apart.
type Grid struct {
	Pos            diag.Pos
	At             Point
	Columns, Rows  Count
	PitchX, PitchY Length
}

// BoltCircle is Count holes evenly spaced on a circle, the first at Start,
// going counter-clockwise.
type BoltCircle struct {
	Pos      diag.Pos
	At       Point
	Diameter Length
	Count    Count
	Start    Angle
}

// Size says how large a hole is. Exactly one of Bolt, Diameter, Bore and Drill
// is given; a Slot may be added to Bolt or Diameter.
type Size struct {
	Bolt     Word   // "1/2-13 grade 8", "M14 10.9", "5/8"
	Fit      Word   // of a bolt: "close", "normal" (where not given), "loose"; of a slotted hole by AISC also "standard", "oversized"
	Standard Word   // "iso 273", "asme b18.2.8", "aisc j3.3", "en 1090-2"; where not given ("") iso 273 for metric bolts, asme b18.2.8 for inch bolts
	Diameter Length // the finished diameter; with a slot its width
	Drill    Word   // "#7", "F", "17/32": a drill's name
	Bore     Length // diameter of what goes in
	Allow    Allow  // of a bore
	Slot     *Slot
}

// Allow is how much larger (negative: smaller) than its bushing a bore is made.
type Allow struct {
	Kind   Word   // "press", "slip", "shell", "none" (where not given), or "" where Amount is given
	Amount Length // signed
	Pos    diag.Pos
}

// Slot is a straight slot around the hole's place.
type Slot struct {
	Pos    diag.Pos
	Length Length // overall, end to end
	Kind   Word   // instead of Length, for a bolt: "short" or "long" (AISC Table J3.3)
	Angle  Angle  // of its long axis, from +x
}

// Shape is an outline. Exactly one of its kinds is given.
type Shape struct {
	Pos       diag.Pos
	Tangent   []Boss
	Corners   []Corner
	Rectangle *Rectangle
	Disc      *Disc
	Ring      *Ring
	Gusset    *Gusset
	LinkPlate *LinkPlate
}

// Boss is a round end of an outline: a circle round a hole or a place.
type Boss struct {
	Pos    diag.Pos
	Hole   Word // name of a hole of one place, or of one hole of a pattern: "adjust.2"
	At     *Point
	Radius Length
	Hollow Flag   // the belt passes on its other side, so that the edge curves in
	Waist  Length // radius of the hollow by which the belt goes on to the next boss
}

// Corner is one corner of an outline, given in order round it, either way.
type Corner struct {
	Pos     diag.Pos
	At      Point
	Radius  Length
	Chamfer Length // cut back along both sides
}

// Rectangle is Width (x) by Height (y) round At.
type Rectangle struct {
	Pos             diag.Pos
	At              Point // its centre; 0,0 where not given
	Width, Height   Length
	Radius, Chamfer Length
}

// Disc is a round plate.
type Disc struct {
	Pos      diag.Pos
	At       Point
	Diameter Length
}

// Ring is a round plate with a round opening at its centre.
type Ring struct {
	Pos             diag.Pos
	At              Point
	Outside, Inside Length
}

// Gusset is a plate in the corner of two members. The corner (root) is at At;
// the first leg runs along +x, the second at Angle from it.
type Gusset struct {
	Pos       diag.Pos
	At        Point
	Legs      [2]Length
	Angle     Angle     // between the legs; a right angle where not given
	Toes      [2]Length // width of the blunt end of each leg, square to the leg; 0 where not given (a sharp point)
	Snipe     Length    // cut back along both legs at the root, to clear the weld
	SnipeKind Word      // "straight" (where not given) or "round" (a quarter circle about the root)
	Hollow    Length    // radius of a hollowed free edge; straight where not given
}

// LinkPlate is a bar with full-round ends through two or more holes in line.
type LinkPlate struct {
	Pos     diag.Pos
	Through []Boss   // Radius is unset where Widths give it
	Widths  []Length // one for all, or one for each boss
}

// Piece is one entry of add or cutouts: a shape of any kind that an outline may
// have; as a cutout also a saddle. Exactly one of them is given.
type Piece struct {
	Pos  diag.Pos
	Name Word
	Shape
	Saddle *Saddle
}

// Saddle is the arc in the edge of a plate that meets a round tube.
type Saddle struct {
	Pos  diag.Pos
	Tube Length // outside diameter
	Wall Length // of the tube
	At   Point  // the tube's centre
	Gap  Length // between tube and plate; by common practice where not given
	Wrap Angle  // the least angle of the tube's round that the plate has to embrace
}

// Tab is a tongue on an edge that goes into a slot of another plate.
type Tab struct {
	Pos    diag.Pos
	Name   Word
	At     Point  // the middle of its root, on the edge
	Width  Length // along the edge
	Height Length // out from the edge; the thickness of the plate it goes into where not given
	Into   Length // thickness of that plate; this plate's where not given
	Angle  Angle  // the direction it points in; straight out from the edge where not given
	Relief
}

// TabSlot is the slot that a tab of another plate goes into.
type TabSlot struct {
	Pos       diag.Pos
	Name      Word
	At        Point  // its centre
	Angle     Angle  // of its long side, from +x
	Tab       Length // width of the tab
	Thickness Length // of the tab's plate, as measured
	Allowance Length // how much wider and longer than the tab it is made; by process where not given
	Relief
}

// Relief is what gives a cut room in an inside corner.
type Relief struct {
	Kind   Word   // "dog-bone" (where not given), "notch", "none"
	Radius Length // by process where not given
}

// Mark is something drawn on the plate.
type Mark struct {
	Pos  diag.Pos
	Text Word   // "name" stands for the part's name
	At   *Point // nil: placed by the program
}

// Waiver sets a finding aside for a reason. The finding stays and says so.
type Waiver struct {
	Pos    diag.Pos
	Rule   Word
	Hole   Word // "" = any feature
	Reason Word
}
