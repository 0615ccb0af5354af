package num

// Constants for drawings that others made: what a table cares about, what
// drawing programs leave behind, and how closely curves are followed.
const (
	// CurveError is how far (mm) the arcs that stand for an ellipse or a spline
	// may lie from it: a tenth of what the finest cutting process holds (common
	// practice asks for 0.05 or better).
	CurveError = 0.01

	// CurveSamples is how many places of a curve are tried against a pair of
	// arcs; SpanSamples is how many at least in one span of a spline. A pair of
	// arcs swings to and fro about its curve some four times. They only lead to
	// the bound that decides.
	CurveSamples = 12
	SpanSamples  = 4

	// DeviationShare is by which share, and DeviationSlack by which share of the
	// error allowed, the stated deviation of arcs from their curve may exceed one
	// that is reached. A closer bound would say no more about the part.
	DeviationShare = 0.05
	DeviationSlack = 0.01

	// DeviationHalvings is how often a piece of a curve is halved until its bound
	// is that close: each makes it four times closer.
	DeviationHalvings = 12

	// CurveHalvings is how often a curve is halved until arcs fit it.
	CurveHalvings = 30

	// StraightRise is how far (mm) a piece of a curve may rise over its chord
	// and be written as a straight line: a hundredth of a micron, which keeps
	// straight splines straight.
	StraightRise = 1e-5

	// LargestRadius is the largest radius (mm) of an arc; what is flatter is
	// a straight line. A chord of 1 m rises 0.0125 mm over it. At this size a
	// circle's numbers still resolve a Coincident.
	LargestRadius = 1e7

	// Stall is the speed, relative to the mean one, under which a curve counts as
	// standing still, so that its direction is taken from where it goes next.
	Stall = 1e-9

	// JoinEnds is the distance (mm) within which loose ends are joined where the
	// person names none: half of what the finest process holds.
	JoinEnds = 0.05

	// SilentGap is the size (mm) up to which gaps are not told of: the strictest
	// readers join as much.
	SilentGap = 1e-6

	// FineGap is the size (mm) up to which gaps are the rounding of a drawing
	// with few decimals, and are told of together instead of one by one.
	FineGap = 1e-3

	// NearDouble is the distance (mm) under which two lines that run alongside
	// are one line drawn twice (common practice: no kerf is narrower than 0.1).
	NearDouble = 0.02

	// LeastDouble is the length (mm) from which running alongside counts: five
	// times NearDouble, so that two edges meeting at a corner do not.
	LeastDouble = 0.1

	// TinyEdge is the length (mm) under which a table's control may stumble over
	// a segment (common practice).
	TinyEdge = 0.05

	// Flush is how far (mm) a vertex may leave the line or circle of its
	// neighbours and be taken out when a drawing is mended: a hundredth of what a
	// table resolves, above the rounding of six decimals of an inch.
	Flush = 1e-4

	// Level is how far (mm) from z = 0 a drawing may lie and be flat.
	Level = 1e-4

	// Upright is the sine of the angle by which a plane may lean and still be
	// level: over 10 m it shortens nothing that can be measured.
	Upright = 1e-9

	// Conformal is by how much two scales may differ, relative to their size,
	// and still carry a circle into a circle: 1e-6 mm on a radius of a metre.
	Conformal = 1e-9

	// HalfTurnNoise is how far (degrees) beyond half a turn an arc may reach and
	// still be meant as half a turn.
	HalfTurnNoise = 1e-9

	// FullTurnNoise is how far (degrees) an arc may stop short of a whole turn,
	// or of no turn at all, and still be meant as one.
	FullTurnNoise = 1e-9

	// LeastChords is how many equal chords a closed outline needs to count as a
	// circle that was cut into chords: people draw twelve-sided shapes, hardly
	// sixteen-sided ones.
	LeastChords = 16

	// EqualChords is by how much the chords of such a circle may differ, relative
	// to their mean.
	EqualChords = 0.02

	// GapShare is the largest gap, as a share of the open line it belongs to,
	// that is a gap in an outline; a wider one parts two lines.
	GapShare = 0.5

	// OwnGap is how many times its gap a line must be long to close on itself.
	OwnGap = 4

	// ThinLoop is the mean width (mm) under which a closed line encloses nothing
	// that could be cut: its sides are near doubles of each other.
	ThinLoop = NearDouble

	// Tangent is the sine of the angle under which two lines that meet touch
	// instead of crossing.
	Tangent = 1e-4

	// Bend is the sine of the least angle at which the lines or circles of two
	// loose ends are run on to where they cross; flatter ones are moved together.
	Bend = 0.1

	// TrueSlot is how far (mm) the edge of a drawn slot may lie from that of a true
	// one and be taken for it: what four decimals of an inch leave, at both ends.
	TrueSlot = 0.005
)
