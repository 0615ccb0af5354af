package num

import "strconv"

// Constants of the geometry kernel. The kernel resolves far finer than
// Coincident: shapes that differ by a Coincident are told apart cleanly and
// only rounding noise is merged, so that no decision falls on the border
// between "same" and "apart" for values that people or files produce.
const (
	// Contact is the distance (mm) under which two curves count as touching
	// inside one operation. Rounding in a contact of parts of a few metres is
	// about 1e-12 mm; 1e-10 is well above it and a thousandth of Coincident.
	Contact = 1e-10

	// CoarseContact is the largest Contact ever used: fused nodes then stay within
	// Coincident of where they were.
	CoarseContact = Coincident / 8

	// ContactGrain scales Contact up for large coordinates and radii: a value v
	// carries a rounding error of about 1.1e-16 v, a contact a dozen of them.
	ContactGrain = 2e-15

	// Fuse is how many Contacts apart two split points of one edge may lie and
	// still be one node: two crossings of one place each err by one Contact on
	// either side.
	Fuse = 4

	// Depth is the share of a Contact that an offset may lie nearer to its
	// source than asked, in the test that selects it. Under Fuse, so that a lens
	// thinner than Fuse is merged and a thicker one is decided.
	Depth = 0.5

	// Parallel is the sine of the angle under which two directions at a node are
	// ordered by where the edges go instead of by their tangents.
	Parallel = 0.02

	// ShortEdge is the length (mm) under which the tangent of a flat edge is taken
	// from its end points: they may lie a Contact off its circle.
	ShortEdge = 1e-6

	// Sliver is the mean width (mm) under which a loop is no shape but the trace
	// of two outlines meant to be one.
	Sliver = Coincident

	// Collinear is the distance (mm) by which a vertex may leave the line or
	// circle of its neighbours and still be dropped when edges are joined again.
	Collinear = 1e-9

	// AreaSlack is the relative error allowed between areas that must balance:
	// the rounding of a sum over a hundred thousand segments.
	AreaSlack = 1e-9

	// MaxCoordinate is the largest coordinate (mm) the kernel takes: 100 m. At
	// this size the rounding of a contact is still below Coincident.
	MaxCoordinate = 1e5

	// MitreLimit is how many offset distances a mitred corner may reach out from
	// its vertex before it is rounded instead: common practice, the value that
	// SVG 1.1 (11.4, stroke-miterlimit) has as its default.
	MitreLimit = 4.0
)

// Resolution is the Contact for shapes whose coordinates and radii reach up to
// size mm.
func Resolution(size float64) float64 { return max(Contact, ContactGrain*size) }

// Sizes of the kernel's spatial index: no tolerances, but kept here with the
// other numbers that were chosen by measurement.
const (
	// FewEdges is how many edges are compared each with each; more use a grid.
	FewEdges = 64

	// CellsPerEdge is how many cells of the grid there are for one edge, where
	// edges are small.
	CellsPerEdge = 4

	// SparseCell is how many times larger than an edge the cells may get before
	// small cells with shared lists are used instead.
	SparseCell = 20.0

	// GridStride is how far apart the shared lists of cells in neighbouring rows
	// lie: 2^32 over the golden ratio, odd, which spreads rows evenly.
	GridStride = 0x9E3779B1

	// MaxCells is the largest number of cells in a row.
	MaxCells = 1e6

	// GridSkewX and GridSkewY move the grid (in cells) off the round coordinates
	// that drawings are made of, so that no cell's reference point lies on an
	// edge by design.
	GridSkewX = 0.3819660112501051
	GridSkewY = 0.2360679774997897
)

const (
	// FlatBulge2 is the squared bulge under which the area of an arc's cap comes
	// from its series: the first term left out is below 1e-16 of the result.
	FlatBulge2 = 1e-2

	// NearCells is how many cells a search of an offset's distance reaches over, on
	// either side, at most.
	NearCells = 4.0

	// LabelTries is how many pieces of a chain are looked at for a long one, to
	// find the winding at its middle.
	LabelTries = 8
)

// HalfTurnBulge is the bulge from which an arc may reach both extremes of an
// axis: tan(π/4), less a margin, is 1 for half a turn.
const HalfTurnBulge = 0.999

const (
	// CuspSine is the sine of the angle under which two directions that point
	// against each other make a cusp.
	CuspSine = 1e-9

	// Stub is the length (mm) from which a piece of a raw offset that is left out
	// must be seen to be covered. A stub of this length at a corner lies deeper
	// than a Contact for distances up to some metres.
	Stub = 1e-3

	// OffsetSamples is how many places of a result's loop are measured against
	// the source; a longer loop is measured at every so many segments.
	OffsetSamples = 64
)

// Signed writes v with its sign, so that it reads back to the same bits.
func Signed(v float64) string {
	s := strconv.FormatFloat(v, 'g', -1, 64)
	if v >= 0 {
		s = "+" + s
	}
	return s
}

// DeepBulge is the bulge from which the middle of an arc is taken from its
// circle rather than from its chord: there the circle is the better known.
const DeepBulge = 0.25

// OffMiddle is the share of an edge at which a sample is taken that must not
// fall on a place of symmetry: the golden section.
const OffMiddle = 0.3819660112501051

// SmoothSine is the sine of the angle under which two sides make no corner to be
// rounded or cut: it would move the outline by less than a Coincident for radii
// up to a metre.
const SmoothSine = 1e-8
