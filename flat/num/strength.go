package num

// Numbers of the strength computations that are chosen for arithmetic, not
// taken from a standard.
const (
	// Balance is the share of a group's strength by which the forces of its
	// bolts may miss the load when the instantaneous centre counts as found. A
	// bolt that all but sits on the centre cannot be told better than to 5e-11:
	// see LeastDeformation. Elsewhere the last step leaves far less.
	Balance = 1e-10

	// BalanceKept is what is promised: where rounding keeps the iteration from
	// Balance, a centre that meets this is still taken.
	BalanceKept = 1e-9

	// CentreSteps is how many steps the search for an instantaneous centre may
	// take. Most groups need less than ten; of 200 000 drawn ones, many with a bolt
	// on the centre, the worst took 71.
	CentreSteps = 400

	// CentreHalvings is how often one step of that search is halved before the
	// step that always leads on, if slowly, is taken instead.
	CentreHalvings = 6

	// StillBolt is the share of the largest deformation under which a bolt counts
	// as sitting on the instantaneous centre: the search then takes its secant
	// stiffness for its tangent, which grows without bound and overshoots.
	StillBolt = 1e-6

	// LeastDeformation is the share of the largest deformation up to which a bolt
	// is taken to be linear. The curve is infinitely steep at its start, where the
	// rounding of a motion, 1e-16 of it, would be 3e-9 of a bolt's strength; so it
	// is 5e-11. The bolt reaches 5e-7 of its strength there.
	LeastDeformation = 1e-12

	// Slender is the ratio of two principal second moments of a group of bolts or
	// a line figure under which it has no width and resists nothing about its own
	// line: a row that leaves its line by 1e-4 of its length.
	Slender = 1e-8

	// FlatHalfSweep is the half sweep (rad) of an arc under which its integrals
	// as a line come from power series: there the closed forms cancel. Both
	// agree to the last digits at the change.
	FlatHalfSweep = 0.5

	// RootSteps is how many bisections bring an interval of length 2 down to the
	// spacing of float64.
	RootSteps = 60
)
