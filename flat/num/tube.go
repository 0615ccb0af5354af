package num

// Constants for tubes: copes, links and bars cut to length.
const (
	// EqualTubes is the share of the radii by which a branch may fall short of,
	// or reach past, the side of its main and still be taken to reach it just
	// so: the rounding of a radius read from text and halved is about 1e-16 of
	// it, a difference of three such values a few times that. A thousandfold
	// margin still moves the cut by less than 1e-4 mm at the cusp itself.
	EqualTubes = 1e-13

	// CutTie is by how much (mm) one cut must reach past another to govern. Two
	// cuts that are one by design differ by rounding, about 1e-13 mm.
	CutTie = 1e-10

	// CutStep is how far (mm) a cut line may jump where another cut takes over
	// and still be one line. A jump is either rounding at a place found to 1e-15
	// of a turn (under a steep line about 1e-7 mm) or millimetres long.
	CutStep = 1e-4

	// SameTurn is the angle (rad) round a tube under which two places are one:
	// 1e-12 of a radius of 100 mm is 1e-10 mm.
	SameTurn = 1e-12

	// DoubleTurn is the half width (rad) at which the search for the zeros of a
	// function round the tube stops dividing and takes the middle: two zeros
	// that touch are found no nearer than the root of the rounding (1e-8). Where
	// the middle is off by this much, an extreme is off by its square.
	DoubleTurn = 1e-8

	// NoFunction is the size, against the terms that made it, under which a
	// function round the tube is nothing but rounding.
	NoFunction = 1e-13

	// ZeroNoise is the value, against the terms that made it, that a function
	// round the tube may keep at a place where it touches zero: the rounding of
	// a dozen products of four terms each.
	ZeroNoise = 4e-15

	// ArcFit is the largest distance (mm) between a cope's curve and the arcs
	// that stand for it in a drawing: a fifth of what a good table holds.
	ArcFit = 0.02

	// PaperFit is the largest distance (mm) between a cope's curve and the line
	// printed for it: a tenth of a thin stroke.
	PaperFit = 0.01

	// FitShare is the share of an allowed distance that a fit may use, measured
	// at some places of each piece; the rest covers the places between.
	FitShare = 0.8

	// ShortFit is the length (mm) under which a piece of a fitted curve is left
	// out, its neighbour carried on over it: what that moves is within what
	// FitShare leaves.
	ShortFit = 0.002

	// ShortPair is the distance (mm) over which one line stands for a pair of
	// arcs in a fitted curve, where it fits: half of it is the shortest piece that
	// a cutting table takes (0.05 mm, common practice).
	ShortPair = 0.1

	// NearlyFree is how large a member's force may grow for one unit of load
	// before the geometry is called nearly a mechanism: at 100 a pivot measured
	// 1 mm out over 100 mm changes the force by itself.
	NearlyFree = 100.0

	// FreePivot is the pivot element (directions are of length 1) under which a
	// set of members does not hold its pivots. Measured positions leave angles
	// far larger than 1e-9, rounding far smaller ones.
	FreePivot = 1e-9

	// SameSpring is the squared share of its length that a place may move
	// between two steps of a fit to measured distances and be called settled.
	SameSpring = 1e-26

	// BetterFill is the share of a bar's cost by which another way to fill it has
	// to be better to be worth a step towards the bound: far above the rounding
	// of some hundred steps.
	BetterFill = 1e-9

	// BoundShare is the share of a bound on cost that is given up for the
	// rounding of the sums it was made of.
	BoundShare = 1e-12

	// QuadratureShare is the relative error allowed in lengths and volumes of
	// copes, far below what they are used for (weld, mass).
	QuadratureShare = 1e-9
)
