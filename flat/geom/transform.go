package geom

import "blankwright/flat/num"

// Motion is a rigid motion of the plane, perhaps with a mirroring: shapes keep
// their size. The zero Motion leaves everything where it is. Quarter turns,
// mirrorings and shifts are exact but for the rounding of the sum.
type Motion struct {
	mirrored bool // first of all, y changes sign
	turned   bool // then a turn by sin, cos
	sin, cos float64
	shift    Point // last
}

// Translate shifts by dx, dy, mm.
func Translate(dx, dy float64) Motion { return Motion{shift: Point{dx, dy}} }

// Rotate turns about the origin by angle, rad, counter-clockwise positive.
func Rotate(angle float64) Motion {
	sin, cos := num.Sincos(angle)
	return turn(sin, cos)
}

// RotateAbout turns about the point c by angle, rad, counter-clockwise
// positive.
func RotateAbout(c Point, angle float64) Motion {
	return Translate(-c.X, -c.Y).Then(Rotate(angle)).Then(Translate(c.X, c.Y))
}

func turn(sin, cos float64) Motion {
	if sin == 0 && cos == 1 {
		return Motion{}
	}
	return Motion{turned: true, sin: sin, cos: cos}
}

// MirrorX mirrors in the x axis: y changes sign.
func MirrorX() Motion { return Motion{mirrored: true} }

// MirrorY mirrors in the y axis: x changes sign.
func MirrorY() Motion {
	return Motion{mirrored: true, turned: true, sin: 0, cos: -1}
}

// Then is the motion m followed by n.
func (m Motion) Then(n Motion) Motion {
	r := Motion{mirrored: m.mirrored != n.mirrored, shift: n.Apply(m.shift)}
	sin, cos := m.sinCos()
	if n.mirrored { // a turn seen in a mirror runs the other way
		sin = -sin
	}
	ns, nc := n.sinCos()
	t := turn(sin*nc+cos*ns, cos*nc-sin*ns)
	r.turned, r.sin, r.cos = t.turned, t.sin, t.cos
	return r
}

func (m Motion) sinCos() (sin, cos float64) {
	if !m.turned {
		return 0, 1
	}
	return m.sin, m.cos
}

// Mirrored reports whether the motion turns left hand into right.
func (m Motion) Mirrored() bool { return m.mirrored }

// Apply moves a point.
func (m Motion) Apply(p Point) Point {
	q := m.Dir(p)
	return Point{q.X + m.shift.X, q.Y + m.shift.Y}
}

// Dir moves a direction: it turns and mirrors, but does not shift.
func (m Motion) Dir(p Point) Point {
	if m.mirrored {
		p.Y = -p.Y
	}
	if m.turned {
		p = Point{p.X*m.cos - p.Y*m.sin, p.X*m.sin + p.Y*m.cos}
	}
	return Point{p.X + 0, p.Y + 0} // no -0
}

// Transform moves a circle.
func (c Circle) Transform(m Motion) Circle { return Circle{m.Apply(c.C), c.R} }

// Transform moves the segment: from the image of A to the image of B. Under a
// mirroring an arc runs the other way round.
func (s Seg) Transform(m Motion) Seg {
	t := Seg{A: m.Apply(s.A), B: m.Apply(s.B), Bulge: s.Bulge}
	if s.Bulge == 0 {
		return t
	}
	t.circ = s.circ.Transform(m)
	if m.mirrored {
		t.Bulge = -s.Bulge
	}
	return t
}

// Transform moves the loop. A mirrored loop is run backwards from the image of
// its first point, so that a counter-clockwise loop stays counter-clockwise.
func (l Loop) Transform(m Motion) Loop {
	if l == nil {
		return nil
	}
	r := make(Loop, len(l))
	for i := range l {
		s := l[i].Transform(m)
		if m.mirrored {
			r[len(l)-1-i] = s.Reverse()
		} else {
			r[i] = s
		}
	}
	return r
}

// Transform moves the region.
func (r Region) Transform(m Motion) Region {
	t := Region{Outer: r.Outer.Transform(m)}
	if r.Holes != nil {
		t.Holes = make([]Loop, len(r.Holes))
		for i, h := range r.Holes {
			t.Holes[i] = h.Transform(m)
		}
	}
	return t
}
