package geom

import "blankwright/flat/num"

// Side tells where a point lies.
type Side int8

// Where a point lies.
const (
	Outside Side = iota
	OnEdge       // within num.Coincident of a boundary
	Inside
)

func (s Side) String() string {
	switch s {
	case Inside:
		return "inside"
	case OnEdge:
		return "on edge"
	}
	return "outside"
}

// Contains tells on which side of the loop p lies, whichever way round the loop
// runs. Points within num.Coincident of the loop are on its edge.
func (l Loop) Contains(p Point) Side {
	turns := 0
	for i := range l {
		s := &l[i]
		if s.closeTo(p) {
			return OnEdge
		}
		turns += s.crossings(p)
	}
	if turns != 0 {
		return Inside
	}
	return Outside
}

// Contains tells whether p lies in the region's material, on one of its edges,
// or outside (an opening is outside).
func (r Region) Contains(p Point) Side {
	side := r.Outer.Contains(p)
	if side != Inside {
		return side
	}
	for _, h := range r.Holes {
		switch h.Contains(p) {
		case OnEdge:
			return OnEdge
		case Inside:
			return Outside
		}
	}
	return Inside
}

// closeTo reports whether p is within num.Coincident of the segment.
func (s *Seg) closeTo(p Point) bool {
	// A cheap box first: the chord's, widened for an arc by its rise over the
	// chord, which is |bulge| times half the chord.
	room := num.Coincident
	if s.Bulge != 0 {
		dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
		room += (abs(dx) + abs(dy)) * abs(s.Bulge) / 2
	}
	if p.X < s.A.X-room && p.X < s.B.X-room || p.X > s.A.X+room && p.X > s.B.X+room ||
		p.Y < s.A.Y-room && p.Y < s.B.Y-room || p.Y > s.A.Y+room && p.Y > s.B.Y+room {
		return false
	}
	d, _ := s.nearest(p)
	return d <= num.Coincident
}

// crossings counts, with sign, how often the ray from p to +x meets the
// segment: its chord by the half-open rule (lower end in, upper end out), plus
// one turn of the closed curve arc-and-chord when p is in the lens between
// them. A point exactly on the chord counts as lying just right of it, or just
// above a level one, in both parts. p must not be close to the segment.
//
// Half-open crossing rule: Hormann and Agathos, "The point in polygon problem
// for arbitrary polygons", Computational Geometry 20 (2001), DOI
// 10.1016/S0925-7721(01)00012-8.
func (s *Seg) crossings(p Point) int {
	up, down := s.A.Y <= p.Y && p.Y < s.B.Y, s.B.Y <= p.Y && p.Y < s.A.Y
	if s.Bulge == 0 {
		switch {
		case up && s.side(p) > 0:
			return 1
		case down && s.side(p) < 0:
			return -1
		}
		return 0
	}
	n := 0
	side := s.side(p)
	if up && side > 0 {
		n = 1
	} else if down && side < 0 {
		n = -1
	}
	ux, uy := p.X-s.circ.C.X, p.Y-s.circ.C.Y
	if ux*ux+uy*uy < s.circ.R*s.circ.R {
		if s.Bulge > 0 && side < 0 {
			n++
		} else if s.Bulge < 0 && side > 0 {
			n--
		}
	}
	return n
}

// side is +1 left of the chord, -1 right of it, never 0: on the chord itself it
// is the side just right of it (just above a level chord).
func (s *Seg) side(p Point) int {
	dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
	c := float64(dx*(p.Y-s.A.Y)) - float64(dy*(p.X-s.A.X))
	switch {
	case c > 0:
		return 1
	case c < 0:
		return -1
	case dy > 0, dy == 0 && dx < 0:
		return -1
	}
	return 1
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
