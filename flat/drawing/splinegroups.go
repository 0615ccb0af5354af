package drawing

// splineGroups collects the groups of a SPLINE.
type splineGroups struct {
	knots, weights []float64
	control, fit   []float64 // x y z of each
	tangents       [2][3]float64
	given          [2]bool
}

// splineHead is how many numbers come before the lists of a spline: degree, how
// many knots, control points, weights and fit points, whether a start and an end
// tangent is given, and the two tangents.
const splineHead = 7 + 6

// Flags of SPLINE, group 70.
const (
	splineClosed   = 1
	splinePeriodic = 2
)

// spline reads a SPLINE.
func (d *document) spline(g *groups) bool {
	in, s := d.in, &d.scratch
	s.knots, s.weights, s.control, s.fit = s.knots[:0], s.weights[:0], s.control[:0], s.fit[:0]
	s.tangents, s.given = [2][3]float64{}, [2]bool{}
	ok := d.collect(g, func(c int) bool {
		if len(s.knots)+len(s.control)+len(s.weights)+len(s.fit) > numbersEach*d.o.Limits.Pieces {
			return in.fail(in.line, "a spline has more numbers than a drawing may have", "draw it in pieces")
		}
		switch c {
		case 10:
			s.control = append(s.control, in.float(), 0, 0)
		case 20, 30:
			setLast(s.control, c/10-1, in)
		case 11:
			s.fit = append(s.fit, in.float(), 0, 0)
		case 21, 31:
			setLast(s.fit, c/10-1, in)
		case 12, 22, 32, 13, 23, 33:
			s.tangents[c%10-2][c/10-1] = in.float()
			s.given[c%10-2] = true
		case 40:
			s.knots = append(s.knots, in.float())
		case 41:
			s.weights = append(s.weights, in.float())
		case 42, 43, 44:
		default:
			return false
		}
		return true
	})
	g.kind, g.tilted = rawSpline, false
	g.closed = g.n[0]&(splineClosed|splinePeriodic) != 0
	s.store(d, g)
	return ok
}

// setLast sets a coordinate of the last point of a list.
func setLast(list []float64, axis int, in *scanner) {
	if n := len(list); n > 0 {
		list[n-3+axis] = in.float()
	}
}

func (s *splineGroups) store(d *document, g *groups) {
	flag := func(b bool) float64 {
		if b {
			return 1
		}
		return 0
	}
	d.vals = append(d.vals, float64(g.n[1]), float64(len(s.knots)), float64(len(s.control)/3),
		float64(len(s.weights)), float64(len(s.fit)/3), flag(s.given[0]), flag(s.given[1]))
	d.vals = append(d.vals, s.tangents[0][:]...)
	d.vals = append(d.vals, s.tangents[1][:]...)
	d.vals = append(d.vals, s.knots...)
	d.vals = append(d.vals, s.control...)
	d.vals = append(d.vals, s.weights...)
	d.vals = append(d.vals, s.fit...)
	d.finish(g)
}

// splineStart is the first of the control points that vals hold, else of the
// points on the curve; the origin where there are none.
func splineStart(vals []float64) vector {
	knots, control, weights, fit := int(vals[1]), int(vals[2]), int(vals[3]), int(vals[4])
	switch lists := vals[splineHead:]; {
	case control > 0:
		return vector(lists[knots:])
	case fit > 0:
		return vector(lists[knots+weights:])
	}
	return vector{}
}
