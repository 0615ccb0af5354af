package drawing

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// withEnds is the segment moved to new ends. An arc stays on its circle where
// both ends lie on it; else it keeps its sweep and gets the circle through its
// new ends.
func withEnds(s geom.Seg, a, b geom.Point) geom.Seg {
	if a == s.A && b == s.B {
		return s
	}
	if !s.IsArc() {
		return geom.Line(a, b)
	}
	c := s.Circle()
	if offCircle(c, a) <= num.Coincident && offCircle(c, b) <= num.Coincident && sameWay(&s, a, b) {
		return geom.Arc(c, a, b, s.Bulge > 0)
	}
	return arcOrLine(geom.BulgeSeg(a, b, s.Bulge))
}

// sameWay reports whether the arc from a to b on the circle of s runs the same
// way round as s, by half a turn at most.
func sameWay(s *geom.Seg, a, b geom.Point) bool {
	c := s.Circle()
	u, v := a.Sub(c.C), b.Sub(c.C)
	turn := math.Atan2(u.Cross(v), u.Dot(v))
	if math.Abs(turn) > math.Pi-num.CuspSine {
		return math.Abs(s.Bulge) > num.HalfTurnBulge
	}
	return turn > 0 == (s.Bulge > 0) && turn != 0
}
