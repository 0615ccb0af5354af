package num

// Constants for formed parts: flat patterns, folding and pictures of what is
// folded.
const (
	// OverlapArea is the area (mm2) from which two parts of a flat pattern cover
	// the same metal: a strip of 1 m that is 1e-7 mm wide. The areas that are
	// compared round to about 1e-9.
	OverlapArea = 1e-4

	// SharedLength is the length (mm) by which the outline of a flat pattern may
	// miss the sum of its parts' outlines less what they share. A shared edge
	// that nobody asked for is far longer, rounding about 1e-10.
	SharedLength = 1e-5

	// LeastStep is how far (mm) an offset or a taper has to move a flange's end for
	// it to be one: a micron, far under what any table cuts. Less is taken as none,
	// so that no edge leaves another by less than shapes are told apart.
	LeastStep = 1e-3

	// JustInside is how far (mm) inside a tangent line the metal is looked at, so
	// that an edge of the plate that lies on the line does not count.
	JustInside = Coincident

	// Clearance is how deep (mm) two folded parts may reach into each other and
	// only touch: what a height given to a micron's thousandth leaves.
	Clearance = 1e-6

	// ParallelPlates is the sine of the angle under which two plates are compared
	// as parallel: over a metre one leaves the other by a micron.
	ParallelPlates = 1e-6

	// ViewChord is how far (mm) the chords of a picture may lie from their arc: a
	// fifth of a thin stroke.
	ViewChord = 0.02

	// SideStep is how far (mm) beside a line of a picture it is asked whether
	// something covers it: on both sides, so that a seam of two faces in front of
	// the line does not let it through.
	SideStep = 1e-6

	// InFront is how far (mm) nearer to the eye a face must lie to cover a line:
	// far below the thickness of any plate, far above what a face of ViewEdgeOn
	// gains over a SideStep.
	InFront = 1e-2

	// ViewEdgeOn is the sine of the angle to the eye under which a face covers
	// nothing: one that is seen along its own plane. A metre of it then stands for
	// a millimetre of the picture.
	ViewEdgeOn = 1e-3

	// ViewContour is the sine of the angle to the eye under which the seam of a
	// bend and a face is where the part ends to the eye: rounding of a right
	// angle is 1e-16.
	ViewContour = 1e-9

	// ViewCrease is the sine of the angle from which the corner between two cut
	// faces is drawn as a line through the thickness.
	ViewCrease = 0.05

	// ViewSame is how far (mm) apart two lines of a picture may lie and be one.
	ViewSame = 1e-3
)
