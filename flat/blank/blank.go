// Package blank turns a description into the flat blank to be cut: outline,
// openings and marks as lines and true arcs, in mm, with every feature knowing
// the line of text it came from.
//
// Make is the way in. Each kind of outline is one function of shapes.go (the
// gusset has a file of its own), places of holes are worked out in patterns.go,
// their sizes in holes.go, the words for the shop in callout.go, mirror twins in
// hands.go and file names in names.go. Shapes are joined and cut out in
// combine.go, with saddles, tabs and tab slots in files of their own;
// compensate.go makes the copy that allows for the kerf.
package blank

import (
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/profiles"
)

// Hand tells the two mirror twins of a part apart.
type Hand int

const (
	// AsDrawn is the part as described.
	AsDrawn Hand = iota
	// Mirrored is its mirror image across the y axis.
	Mirrored
)

func (h Hand) String() string {
	if h == Mirrored {
		return "mirrored"
	}
	return "as drawn"
}

// Purpose is what an opening is for.
type Purpose int

// What an opening is for.
const (
	PlainHole Purpose = iota
	BoltHole
	Bore
	RingOpening // the opening that makes a disc a ring
	Lightening  // nothing goes through it
	CutoutOpening
	TabSlotOpening
)

func (p Purpose) String() string {
	switch p {
	case BoltHole:
		return "bolt hole"
	case Bore:
		return "bore"
	case RingOpening:
		return "ring opening"
	case Lightening:
		return "lightening hole"
	case CutoutOpening:
		return "cutout"
	case TabSlotOpening:
		return "tab slot"
	}
	return "hole"
}

// Method is how an opening gets into the plate.
type Method int

const (
	// Cut on the table to its finished size.
	Cut Method = iota
	// Drill: only a punch mark is cut or marked on the table.
	Drill
	// Ream: cut under size, then opened to size.
	Ream
)

func (m Method) String() string {
	switch m {
	case Drill:
		return "drill"
	case Ream:
		return "ream"
	}
	return "cut"
}

// Hole is a round hole or a straight slot.
type Hole struct {
	Name     string   // unique in its part: `pivot`, or `adjust.2` for one of a pattern
	Set      string   // name of the entry under holes: `adjust`; "" for a ring's opening
	Pos      diag.Pos // of the line that made it
	Purpose  Purpose
	Method   Method
	Centre   geom.Point
	Dia      float64        // finished diameter, or width of a slot, mm
	CutDia   float64        // what the table cuts: 0 where it only marks
	DrillDia float64        // of a hole to be reamed: the drill, or the size bored to, before the reamer
	Length   float64        // overall length of a slot, 0 for a round hole
	Angle    float64        // of a slot's long axis, rad
	Nominal  float64        // of a bore: diameter of what goes in, mm; else 0
	Bolt     *profiles.Bolt // nil unless BoltHole
	Callout  string         // what to do with it, for the paper: `17/32 in (13.49 mm) for 1/2-13 grade 8`
	Panel    int            // of a formed part: the panel that it lies in, 0 for the base
	Source   string         // where its size comes from, with clause or table

	words    words     // the callout without a slot's angle
	finished *boundary // made once by Make
	cut      *boundary
}

// footprint is all that a hole's boundary depends on: half is half the distance
// between the centres of a slot's round ends, 0 for a round hole.
type footprint struct {
	centre           geom.Point
	dia, half, angle float64
}

// boundary is a hole's edge in both directions, with what it was made from.
type boundary struct {
	of      footprint
	ccw, cw geom.Loop
}

func (h *Hole) footprint(dia float64) footprint {
	f := footprint{h.Centre, dia, 0, h.Angle}
	if h.Length != 0 {
		f.half = (h.Length - h.Dia) / 2
	}
	return f
}

func (f footprint) boundary() *boundary {
	var l geom.Loop
	if f.half == 0 {
		l = geom.CircleLoop(geom.Circle{C: f.centre, R: f.dia / 2})
	} else {
		half := direction(f.angle).Mul(f.half)
		l = geom.Slot(f.centre.Sub(half), f.centre.Add(half), f.dia)
	}
	return &boundary{of: f, ccw: l, cw: l.Reverse()}
}

// at gives the boundary for a diameter: the one that Make left there where it
// still holds, else a new one.
func (h *Hole) at(dia float64, made *boundary) *boundary {
	if f := h.footprint(dia); made == nil || made.of != f {
		return f.boundary()
	}
	return made
}

// trace makes both boundaries once, so that every later reader shares them.
func (h *Hole) trace() {
	h.finished = h.at(h.Dia, h.finished)
	switch {
	case h.CutDia == 0:
		h.cut = nil
	case h.CutDia == h.Dia:
		h.cut = h.finished
	default:
		h.cut = h.at(h.CutDia, h.cut)
	}
}

// Trace makes the boundaries of all holes once, so that every later reader shares
// them. Make does so itself; it is for a blank made by hand, and holds until a
// hole is changed.
func (b *Blank) Trace() {
	for i := range b.Holes {
		b.Holes[i].trace()
	}
}

// Finished is the hole's boundary at its finished size, counter-clockwise. It
// may be shared: do not change it.
func (h Hole) Finished() geom.Loop { return h.at(h.Dia, h.finished).ccw }

// AsCut is the boundary that the table cuts, counter-clockwise; nil where it
// only marks. It may be shared: do not change it.
func (h Hole) AsCut() geom.Loop {
	if h.CutDia == 0 {
		return nil
	}
	return h.at(h.CutDia, h.cut).ccw
}

// MarkText is a text marked on the plate.
type MarkText struct {
	Pos  diag.Pos
	Text string
	At   geom.Point // left end of the base line
	Auto bool       // At is still to be found
	// FromRight says that At is the right end of the base line instead: on a
	// mirrored part the text runs towards its place from the other side, so that
	// it covers the mirror image of the same metal and can still be read.
	FromRight bool
}

// Blank is one flat part as the table cuts it.
type Blank struct {
	Part      *describe.Part
	Name      string
	Revision  string
	Hand      Hand
	Quantity  int // of this hand
	Thickness float64
	Material  profiles.Material
	Process   profiles.Process
	Outline   geom.Loop // counter-clockwise, simple
	Holes     []Hole    // in the order of the file; a ring's opening last
	Cutouts   []Cutout  // openings of any shape: cutouts and tab slots, in the order of the file
	Edges     []Edge    // stretches of the outline with a purpose of their own
	Marks     []MarkText
	Joints    []Joint
	Coat      *Coat         // of the finished part; nil where the file names none
	Formed    *Formed       // of a part with bends; nil for a flat one
	Profile   *profiles.Set // the tables it was made by; nil for the embedded ones
	Loads     []Load        // what acts on the plate, factors included
	Welds     []Weld
	Notes     []string // what was measured, and what was taken where the file does not say
	Kerf      float64  // what outline and openings are compensated for, mm; 0 for nominal edges
}

// Region is the plate with its openings as the table cuts them (drilled holes
// are still metal): outline counter-clockwise, openings clockwise. Its loops are
// shared with the blank: do not change them.
func (b *Blank) Region() geom.Region {
	r := geom.Region{Outer: b.Outline}
	if n := len(b.Holes) + len(b.Cutouts); n > 0 {
		r.Holes = make([]geom.Loop, 0, n)
	}
	for i := range b.Holes {
		if h := &b.Holes[i]; h.CutDia != 0 {
			r.Holes = append(r.Holes, h.at(h.CutDia, h.cut).cw)
		}
	}
	for i := range b.Cutouts {
		r.Holes = append(r.Holes, b.Cutouts[i].clockwise())
	}
	if len(r.Holes) == 0 {
		r.Holes = nil
	}
	return r
}
