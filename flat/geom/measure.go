package geom

import "math"

// Length is the length along the segment, mm.
func (s Seg) Length() float64 {
	if s.Bulge == 0 {
		return s.A.Dist(s.B)
	}
	return s.circ.R * math.Abs(s.Sweep())
}

// Mid is the point half way along the segment.
func (s Seg) Mid() Point {
	// The rise of an arc over its chord is bulge times half the chord.
	h := s.Bulge / 2
	return Point{
		(s.A.X+s.B.X)/2 + (s.B.Y-s.A.Y)*h,
		(s.A.Y+s.B.Y)/2 - (s.B.X-s.A.X)*h,
	}
}

// At is the point at the share t (0 to 1) of the segment's length from A;
// exactly A at 0 and B at 1.
func (s Seg) At(t float64) Point {
	switch {
	case t == 0:
		return s.A
	case t == 1:
		return s.B
	case s.Bulge == 0:
		return Point{s.A.X + (s.B.X-s.A.X)*t, s.A.Y + (s.B.Y-s.A.Y)*t}
	}
	// A turned about the centre, written as a step from A: no cancellation in
	// an arc of large radius.
	sin, cos := math.Sincos(s.Sweep() * t / 2)
	u := s.A.Sub(s.circ.C)
	k, m := -2*sin*sin, 2*sin*cos
	return Point{s.A.X + u.X*k - u.Y*m, s.A.Y + u.Y*k + u.X*m}
}

// DirA is the unit vector along the segment where it leaves A; the zero vector
// for a segment without length.
func (s Seg) DirA() Point { return s.dirAt(s.A) }

// DirB is the unit vector along the segment where it arrives at B.
func (s Seg) DirB() Point { return s.dirAt(s.B) }

func (s Seg) dirAt(p Point) Point {
	d := s.B.Sub(s.A)
	if s.Bulge != 0 {
		d = p.Sub(s.circ.C).Perp()
		if s.Bulge < 0 {
			d = d.Mul(-1)
		}
	}
	l := d.Len()
	if l == 0 {
		return Point{}
	}
	return Point{d.X / l, d.Y / l}
}

// Bounds is the smallest upright box that holds the segment.
func (s Seg) Bounds() Box {
	b := Box{s.A, s.B, true}
	if b.Min.X > b.Max.X {
		b.Min.X, b.Max.X = b.Max.X, b.Min.X
	}
	if b.Min.Y > b.Max.Y {
		b.Min.Y, b.Max.Y = b.Max.Y, b.Min.Y
	}
	if s.Bulge == 0 {
		return b
	}
	// A quarter point of the circle belongs to the arc when it lies on the
	// arc's side of the chord.
	dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
	if s.Bulge < 0 {
		dx, dy = -dx, -dy
	}
	r := s.circ.R
	ux, uy := s.circ.C.X-s.A.X, s.circ.C.Y-s.A.Y
	base := dx*uy - dy*ux
	if v := s.circ.C.X + r; v > b.Max.X && base-dy*r < 0 {
		b.Max.X = v
	}
	if v := s.circ.C.X - r; v < b.Min.X && base+dy*r < 0 {
		b.Min.X = v
	}
	if v := s.circ.C.Y + r; v > b.Max.Y && base+dx*r < 0 {
		b.Max.Y = v
	}
	if v := s.circ.C.Y - r; v < b.Min.Y && base-dx*r < 0 {
		b.Min.Y = v
	}
	return b
}

// Perimeter is the length round the loop, mm.
func (l Loop) Perimeter() float64 {
	var sum float64
	for i := range l {
		s := &l[i]
		if s.Bulge == 0 {
			dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
			sum += math.Sqrt(dx*dx + dy*dy)
		} else {
			sum += s.circ.R * math.Abs(4*math.Atan(s.Bulge))
		}
	}
	return sum
}

// Bounds is the smallest upright box that holds the loop.
func (l Loop) Bounds() Box {
	if len(l) == 0 {
		return Box{}
	}
	b := l[0].Bounds()
	for i := 1; i < len(l); i++ {
		c := l[i].Bounds()
		if c.Min.X < b.Min.X {
			b.Min.X = c.Min.X
		}
		if c.Min.Y < b.Min.Y {
			b.Min.Y = c.Min.Y
		}
		if c.Max.X > b.Max.X {
			b.Max.X = c.Max.X
		}
		if c.Max.Y > b.Max.Y {
			b.Max.Y = c.Max.Y
		}
	}
	return b
}

// Circle tells whether the loop is one whole circle, run round once, and which.
func (l Loop) Circle() (Circle, bool) {
	if len(l) < 2 || l[0].Bulge == 0 {
		return Circle{}, false
	}
	c := l[0].circ
	ccw := l[0].Bulge > 0
	if len(l) == 2 {
		// Two half arcs, by far the commonest.
		if l[0].Bulge == l[1].Bulge && math.Abs(l[0].Bulge) == 1 && l[1].circ == c {
			return c, true
		}
	}
	var sweep float64
	for i := range l {
		s := &l[i]
		if s.Bulge == 0 || s.Bulge > 0 != ccw || !s.circ.same(c) {
			return Circle{}, false
		}
		sweep += s.Sweep()
	}
	// A closed run round one circle is a whole number of turns.
	return c, math.Abs(sweep) < 3*math.Pi
}

// Reverse is the loop run the other way, from the same first point.
func (l Loop) Reverse() Loop {
	if l == nil {
		return nil
	}
	r := make(Loop, len(l))
	for i := range l {
		r[len(l)-1-i] = l[i].Reverse()
	}
	return r
}

// Perimeter is the length of all boundaries of the region, mm: what a table
// cuts.
func (r Region) Perimeter() float64 {
	sum := r.Outer.Perimeter()
	for _, h := range r.Holes {
		sum += h.Perimeter()
	}
	return sum
}

// Bounds is the smallest upright box that holds the region.
func (r Region) Bounds() Box { return r.Outer.Bounds() }
