package geom

import (
	"fmt"
	"math"

	"blankwright/flat/num"
)

// BeltDisc is a disc that a belt runs round.
type BeltDisc struct {
	Circle
	// Outside: the belt passes with the disc on its outer side, so that it is
	// hollow there.
	Outside bool
	// Waist is the radius, mm, of the hollow arc by which the belt goes on to the
	// next disc, tangent to both; 0 for the straight tangent.
	Waist float64
}

// BeltError tells why no belt runs round the discs.
type BeltError struct {
	From, To int // the discs, from 0, between which it cannot run; -1 if it is the whole
	Reason   string
	err      error
}

func (e *BeltError) Error() string {
	if e.From < 0 {
		return "belt: " + e.Reason
	}
	return fmt.Sprintf("belt: disc %d to %d: %s", e.From+1, e.To+1, e.Reason)
}

// Unwrap is the *InvalidError of an outline that is not valid, or nil.
func (e *BeltError) Unwrap() error { return e.err }

// Belt is the outline that goes round the discs in the order given
// (counter-clockwise) and is tangent to each: straight from one to the next, or
// hollow where a disc lies outside the belt or a waist is asked for. Unlike
// Hull it leaves none out and need not be convex. The arcs carry the very
// circles given. A disc of radius 0 is a corner.
//
// It needs two discs or more. The error is a *BeltError: a disc that lies within
// the next, a waist too small to reach both, or an outline that would cross
// itself (then with an *InvalidError in it).
func Belt(discs []BeltDisc) (Loop, error) {
	n := len(discs)
	if n < 2 {
		return nil, &BeltError{From: -1, To: -1, Reason: fmt.Sprintf("got %d discs, wanted 2 or more", n)}
	}
	leave, arrive := make([]Point, n), make([]Point, n)
	waists := make([]Circle, n)
	for i := range discs {
		j := (i + 1) % n
		var err error
		if leave[i], arrive[j], waists[i], err = beltStep(&discs[i], &discs[j]); err != nil {
			return nil, &BeltError{From: i, To: j, Reason: err.Error()}
		}
	}
	var l Loop
	for i := range discs {
		d := &discs[i]
		if arrive[i].Dist(leave[i]) > num.Coincident {
			l = append(l, arcs(d.Circle, arrive[i], leave[i], !d.Outside)...)
		}
		to := arrive[(i+1)%n]
		switch {
		case leave[i].Dist(to) <= num.Coincident:
		case d.Waist > 0:
			l = append(l, arcs(waists[i], leave[i], to, false)...)
		default:
			l = append(l, Line(leave[i], to))
		}
	}
	for i := range l {
		l[i].B = l[(i+1)%len(l)].A
	}
	if err := l.Validate(); err != nil {
		return nil, &BeltError{From: -1, To: -1, Reason: "the outline is not valid: " + err.Error(), err: err}
	}
	if l.Area() <= 0 {
		return nil, &BeltError{From: -1, To: -1, Reason: "the discs run clockwise, wanted counter-clockwise; give them in the other order"}
	}
	return l, nil
}

// beltStep finds where the belt leaves disc a and arrives at disc b.
func beltStep(a, b *BeltDisc) (p, q Point, waist Circle, err error) {
	for _, d := range []*BeltDisc{a, b} {
		if !num.Finite(d.C.X, d.C.Y, d.R, d.Waist) || d.R < 0 || d.Waist < 0 {
			return p, q, waist, fmt.Errorf("a radius of %s mm and a waist of %s mm, wanted 0 or more", short(d.R), short(d.Waist))
		}
	}
	v := b.C.Sub(a.C)
	dist := v.Len()
	if a.Waist > 0 {
		if a.Outside || b.Outside {
			return p, q, waist, fmt.Errorf("a waist needs both discs inside the belt")
		}
		x := pathsMeet(path{c: a.C, r: a.R + a.Waist}, path{c: b.C, r: b.R + a.Waist})
		if len(x) < 2 {
			return p, q, waist, fmt.Errorf("a waist of %s mm does not reach both: the gap between the discs is %s mm; make it larger", short(a.Waist), short(dist-a.R-b.R))
		}
		c := x[1] // to the right of the way from a to b, where the outside is
		waist = Circle{c, a.Waist}
		return a.C.Add(c.Sub(a.C).Mul(a.R / (a.R + a.Waist))), b.C.Add(c.Sub(b.C).Mul(b.R / (b.R + a.Waist))), waist, nil
	}
	ra, rb := a.R, b.R
	if a.Outside {
		ra = -ra
	}
	if b.Outside {
		rb = -rb
	}
	k := ra - rb
	if !(dist > math.Abs(k)) {
		what := "one disc lies within the other"
		if a.Outside != b.Outside {
			what = "the discs overlap"
		}
		return p, q, waist, fmt.Errorf("no straight line touches both: %s (centres %s mm apart, radii %s and %s)", what, short(dist), short(a.R), short(b.R))
	}
	s := math.Sqrt((dist - k) * (dist + k))
	u := v.Mul(s / (dist * dist)).Add(v.Perp().Mul(k / (dist * dist)))
	normal := Point{u.Y, -u.X}
	return a.C.Add(normal.Mul(ra)), b.C.Add(normal.Mul(rb)), waist, nil
}
