package num

// Numbers of the search for a layout. None decides whether a layout is right:
// that the kernel proves.
const (
	// LayoutArc is how far (mm) the polygon that stands for an arc in a layout
	// may reach past it: what the search may lose on each round edge, far below
	// the web that is left between pieces.
	LayoutArc = 0.1

	// LayoutTouch is the share of the pieces' size under which the search takes
	// two edges for one, and by which it lays pieces apart that are to touch: a
	// thousandfold of the rounding of positions.
	LayoutTouch = 1e-11

	// LayoutHair is by how much (mm) pieces are drawn larger than half the gap
	// asks, so that no rounding of the search takes from the gap.
	LayoutHair = 1e-6

	// LayoutTie is the share of a squared distance under which two sides of a
	// no-fit region count as equally near.
	LayoutTie = 1e-9

	// LayoutParallel is the sine of the angle under which the search takes two
	// sides as parallel: where they would meet is too far off to be of use.
	LayoutParallel = 1e-6

	// LayoutGain is the share by which a place must be better than another to
	// be moved to.
	LayoutGain = 1e-6

	// LayoutSame is the share of a piece's size by which two of its turns may
	// differ and be one.
	LayoutSame = 1e-9
)
