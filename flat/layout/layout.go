// Package layout places flat pieces on plate: many pieces on whole sheets or on
// odd-shaped remnants, with room for the cut between them. Unit: mm, rad.
//
// The search works on polygons that only err outward; what it finds is proven on
// the true lines and arcs by the kernel (Prove) before it is handed out.
package layout

import (
	"time"

	"blankwright/flat/geom"
)

// Piece is one kind of blank to place, Quantity times. A part in both hands is
// two pieces, the second with its region mirrored.
type Piece struct {
	Name     string      // for messages and pictures
	Region   geom.Region // mm, true lines and arcs
	Quantity int
	// Turns are the allowed turns, rad, from the region as it is given; nil
	// allows any angle. The caller turns grain into Turns: with the grain of the
	// sheet along x, a piece with grain has 0 and π, measured so that its own
	// grain runs along x.
	Turns []float64
}

// Sheet is plate to cut from: a whole rectangle or an irregular remnant with
// openings. Sheets are used in the order given, so remnants that are to go first
// come first.
type Sheet struct {
	Name   string
	Region geom.Region // mm
	Count  int         // how many there are; 0 = as many as needed
}

// Options say how pieces may lie and how long to search.
type Options struct {
	Gap    float64 // mm: least distance between two pieces
	Margin float64 // mm: least distance between a piece and the edges of the sheet, its openings' too

	// InsideOpenings lets pieces lie in large openings of others.
	InsideOpenings bool

	Seed uint64
	// Iterations bounds the search by its effort, in passes over all pieces: with
	// the same seed the same count gives the same layout, on any machine with
	// the same arithmetic and for any number of workers. 0 searches until Time is
	// over. With both set, the first to be reached ends the search.
	Iterations int
	Time       time.Duration // 0 with Iterations 0 stops at the best filling
	Workers    int           // 0 = one for each processor

	// Progress, if set, is told of every better layout, from one goroutine at a
	// time.
	Progress func(Progress)

	clock func() time.Time // nil = time.Now
}

func (o *Options) now() time.Time {
	if o.clock != nil {
		return o.clock()
	}
	return time.Now()
}

// Progress is how far a search has come.
type Progress struct {
	Sheets, Placed, Total int
	// Utilisation is as in Result; while the last sheet is being shortened, what is
	// left of it does not count as used.
	Utilisation float64
	Elapsed     time.Duration
}

// Placement is one copy of a piece on one sheet: Motion moves the piece's
// region to its place, in the coordinates of the sheet's region.
type Placement struct {
	Piece  int // index of the pieces given
	Copy   int // from 0, below the piece's Quantity
	Sheet  int // index of Result.Sheets
	Motion geom.Motion
}

// UsedSheet is one sheet that pieces lie on.
type UsedSheet struct {
	Kind        int // index of the sheets given
	Utilisation float64
}

// Unplaced is a piece of which some copies have no place.
type Unplaced struct {
	Piece, Count int
	Why          string
}

// Result is a valid layout.
type Result struct {
	Sheets     []UsedSheet
	Placements []Placement // by sheet, then piece, then copy
	Unplaced   []Unplaced
	// Utilisation is the area of the pieces over the area of the sheets used, 0
	// to 1; openings count as neither.
	Utilisation float64
}

// StripResult is a layout on a strip: x from 0 to Length, y from 0 to the
// height.
type StripResult struct {
	Length     float64 // mm
	Density    float64 // area of the pieces over height and length, 0 to 1
	Placements []Placement
}
