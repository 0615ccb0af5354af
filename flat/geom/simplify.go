package geom

import (
	"math"

	"blankwright/flat/num"
)

// Simplify is the loop with as few segments as draw the same line: lines that go
// on along each other become one (within num.Collinear), arcs on one circle
// become one up to half a turn, and segments whose ends lie no more than sliver
// mm apart are left out, their neighbours drawn together. A sliver of 0 leaves
// out those shorter than num.Coincident alone. A full circle stays two halves.
// If the result would not be valid the error says so (*InvalidError).
func (l Loop) Simplify(sliver float64) (Loop, error) {
	out := dropShort(append(Loop(nil), l...), max(sliver, num.Coincident))
	out = joinNeighbours(out)
	if err := out.Validate(); err != nil {
		return nil, err
	}
	return out, nil
}

// Simplify simplifies every loop of the region, and leaves out openings whose
// mean width (area over half the perimeter) is no more than sliver mm. An outer
// loop as thin as that gives the empty region.
func (r Region) Simplify(sliver float64) (Region, error) {
	var out Region
	if thin(r.Outer, sliver) {
		return out, nil
	}
	var err error
	if out.Outer, err = r.Outer.Simplify(sliver); err != nil {
		return Region{}, err
	}
	for _, h := range r.Holes {
		if thin(h, sliver) {
			continue
		}
		s, err := h.Simplify(sliver)
		if err != nil {
			return Region{}, err
		}
		out.Holes = append(out.Holes, s)
	}
	if err := out.Validate(); err != nil {
		return Region{}, err
	}
	return out, nil
}

func thin(l Loop, width float64) bool {
	return len(l) < 2 || 2*math.Abs(l.Area()) <= max(width, num.Sliver)*l.Perimeter()
}

// dropShort leaves out short segments, in place. The neighbours meet where their
// lines cross, if that is near, or at the middle, or on the circle where one of
// them is an arc.
func dropShort(l Loop, sliver float64) Loop {
	for i := 0; i < len(l) && len(l) > 2; {
		s := l[i]
		if s.A.Dist(s.B) > sliver || math.Abs(s.Bulge) > num.DeepBulge {
			i++
			continue
		}
		n := len(l)
		p, q := &l[(i+n-1)%n], &l[(i+1)%n]
		at := s.Mid()
		switch {
		case p.Bulge != 0:
			at = s.A
		case q.Bulge != 0:
			at = s.B
		default:
			e, f := makeEdge(p, num.Contact), makeEdge(q, num.Contact)
			if x := pathsMeet(e.beside(0), f.beside(0)); len(x) == 1 && x[0].Dist(at) <= sliver {
				at = x[0] // the corner that was cut off
			}
		}
		moveEnd(p, p.A, at)
		moveEnd(q, at, q.B)
		l = append(l[:i], l[i+1:]...)
	}
	return l
}

// moveEnd gives a segment new ends; an arc whose circle they leave keeps its
// bulge and gets the circle through them.
func moveEnd(s *Seg, a, b Point) {
	if a == s.A && b == s.B {
		return
	}
	if s.Bulge == 0 {
		s.A, s.B = a, b
		return
	}
	*s = BulgeSeg(a, b, s.Bulge)
}

// joinNeighbours joins all segments that go on along each other, in place.
func joinNeighbours(l Loop) Loop {
	for i := 0; i < len(l) && len(l) > 2; {
		j := (i + 1) % len(l)
		s, ok := joined(&l[i], &l[j])
		if !ok {
			i++
			continue
		}
		if j > i {
			l[i] = s
			l = append(l[:j], l[j+1:]...)
		} else {
			// The last runs on into the first.
			l[0] = s
			l = l[:i]
		}
	}
	return l
}
