// Package fold makes the flat pattern of a formed part, folds it back and draws
// what comes of it.
//
// A part is a base panel, a region of the plane, with flanges on straight edges
// of it and of other flanges. Flatten makes the flat pattern: outline, bend
// lines, reliefs and holes as lines and true arcs. Flat.Fold lays the flat
// pattern in space, from nothing but the flat pattern, so that what it measures
// there can be held against what was asked. Folded.View draws it with hidden
// lines apart.
//
// Lengths are mm, angles rad. The base lies in the x-y plane, its middle at
// z = 0 and its upper side towards +z; a flange turns up unless Down is set.
package fold

import (
	"blankwright/flat/bend"
	"blankwright/flat/geom"
)

// MaxBends is the most bends that a part may have.
const MaxBends = 8

// Part is a formed part as a person describes it.
type Part struct {
	T        float64   // thickness of the plate, mm
	Rule     bend.Rule // how much flat length a bend takes
	MaxAngle float64   // the largest bend angle that the shop allows, rad; 0 for half a turn
	Base     Base
	Flanges  []Flange // each after the one it stands on
	Relief   Relief   // beside a bend whose edge goes on
	Corner   Relief   // where two bends meet; its Width counts from tangent line to cut
	InLine   []Pair   // holes meant for one bolt
}

// Base is the panel that the rest hangs on.
type Base struct {
	Name   string      // `base` where empty
	Region geom.Region // its outline and openings, in coordinates of its own
	Edges  []Edge      // the edges that flanges stand on
	Holes  []Hole
}

// Edge is a straight edge of the base by its ends: where its neighbours would
// meet it if no corner were rounded.
type Edge struct {
	Name string
	A, B geom.Point
}

// Hole is an opening in a panel: a circle, a slot, any loop of the kernel. On
// the base it is in the base's coordinates. On a flange x runs along the edge
// that the flange stands on, from the edge's left end as seen from the panel
// below with its upper side in front; y is the height over what the flange's own
// height is measured from.
type Hole struct {
	Name string
	Loop geom.Loop
}

// Pair is two holes by name.
type Pair struct{ A, B string }

// Flange is a panel that stands on an edge of another one.
type Flange struct {
	Name string // no two panels have the same
	On   string // the panel it stands on; the base where empty
	Edge string // of that panel; a flange has edges `end`, `left` and `right`
	// At says what that edge is in the folded part: the outer face of this flange
	// (Outside), its inner face (Inside), where the outer faces meet (Apex), or
	// where the bend begins (Tangent). The flat is cut back there as needed.
	At bend.Reference

	Height float64        // mm
	From   bend.Reference // what the height is measured from
	Angle  float64        // turned through, rad
	Radius float64        // inside, mm
	Down   bool
	Rule   bend.Rule // nil for the part's

	// How far its ends stay off the edge's ends, mm. Negative reaches beyond,
	// which the flange can do where another bend meets its own there: its bend
	// then ends at the corner and the flange is wider than it.
	Left, Right           float64
	TaperLeft, TaperRight float64 // how far its sides lean in, rad; negative out
	CornerLeft            Corner  // at its free end
	CornerRight           Corner
	Relief                *Relief // nil for the part's
	Holes                 []Hole
}

// Corner is what is done to a corner: rounded or cut off, at most one of both.
type Corner struct{ Radius, Chamfer float64 }

// Shape is the shape of a relief.
type Shape int8

// The shapes of a relief.
const (
	Square Shape = iota
	Round
	None
)

func (s Shape) String() string {
	switch s {
	case Square:
		return "square"
	case Round:
		return "round"
	}
	return "none"
}

// Relief is metal cut away so that a bend does not tear what is beside it.
//
// Beside a bend it is a slot of Width that reaches Past beyond the tangent line
// into the panel, square or with a round end. Where 0 stands, Width is the
// thickness and Past half of it, so that the slot reaches at least R + T in from
// the outside of the flange, and a round end has its full width at the tangent
// line (common practice: width at least T, depth at least R + T).
//
// Where two bends meet it is a square notch that reaches Past beyond both
// tangent lines, or a round one of that radius about the point where they cross;
// half the thickness where 0 stands (common practice). Its Width does not count.
type Relief struct {
	Shape       Shape
	Width, Past float64 // mm
}

// width is the width for plate of thickness t.
func (r Relief) width(t float64) float64 {
	if r.Width > 0 {
		return r.Width
	}
	return t
}

// past is the depth beyond the tangent line for plate of thickness t.
func (r Relief) past(t float64) float64 {
	if r.Past > 0 {
		return r.Past
	}
	return t / 2
}

// BaseName is what a base without a name is called.
const BaseName = "base"

func (b *Base) name() string {
	if b.Name == "" {
		return BaseName
	}
	return b.Name
}
