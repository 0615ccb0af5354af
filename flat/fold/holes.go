package fold

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// placeHoles checks that every hole lies in the straight part of its panel, apart
// from all others.
func (m *maker) placeHoles() {
	for n := range m.nodes {
		d := &m.nodes[n]
		if len(d.holes) == 0 {
			continue
		}
		local := make([]geom.Loop, len(d.holes))
		boxes := make([]geom.Box, len(d.holes))
		for i := range d.holes {
			local[i] = m.localHole(n, &d.holes[i])
			boxes[i] = local[i].Bounds()
		}
		for i := range local {
			if len(local[i]) == 0 || !m.holeInPanel(n, i, local[i], boxes[i]) {
				continue
			}
			for k := range i {
				if len(local[k]) > 0 && boxes[i].Meets(boxes[k]) && meet(local[i], local[k]) {
					m.holeProblem(n, i, local[i], "move one of them", "hole %s runs into hole %s", d.holes[i].Name, d.holes[k].Name)
					break
				}
			}
		}
	}
}

// localHole is a hole in its panel's local coordinates, nil where it is no sound
// loop.
func (m *maker) localHole(n int, h *Hole) geom.Loop {
	d := &m.nodes[n]
	l := h.Loop
	if c, ok := l.Circle(); !ok || !num.Finite(c.C.X, c.C.Y, c.R) || c.R <= num.Coincident {
		if err := l.Validate(); err != nil {
			m.problems.add(HolePlace, d.name, "", "hole %s of %s has no sound outline", h.Name, d.name).Hole = h.Name
			return nil
		}
	}
	if l.Area() < 0 {
		l = l.Reverse()
	}
	if d.shift == 0 {
		return l
	}
	return l.Transform(geom.Translate(0, -d.shift))
}

// holeInPanel tells what a hole runs into, most helpful first.
func (m *maker) holeInPanel(n, i int, l geom.Loop, box geom.Box) bool {
	d := &m.nodes[n]
	name := d.holes[i].Name
	for _, c := range d.cuts {
		if !c.loop.Bounds().Grow(num.Coincident).Meets(box) || !meet(l, c.loop) {
			continue
		}
		j := &m.joints[c.joint]
		switch {
		case c.strip:
			m.holeProblem(n, i, l, "move it away from the bend", "hole %s of %s runs into the bend of flange %s", name, d.name, j.name())
		case c.corner:
			m.reliefProblem(n, i, l, "the corner relief at the %s end of flange %s cuts hole %s of %s", c.side, j.name(), name, d.name)
		default:
			m.reliefProblem(n, i, l, "the relief at the %s end of flange %s cuts hole %s of %s", c.side, j.name(), name, d.name)
		}
		return false
	}
	if d.up >= 0 && box.Min.Y <= num.Coincident {
		m.holeProblem(n, i, l, "move it away from the bend", "hole %s of %s runs into the bend that it hangs on", name, d.name)
		return false
	}
	if d.piece.Contains(l[0].A) == geom.Inside && !touchesAny(l, d.piece) {
		return true
	}
	m.holeProblem(n, i, l, "move it inwards", "hole %s of %s runs over the edge of the panel", name, d.name)
	return false
}

func touchesAny(l geom.Loop, r geom.Region) bool {
	if geom.LoopLoop(l, r.Outer).D <= num.Coincident {
		return true
	}
	for _, h := range r.Holes {
		if geom.LoopLoop(l, h).D <= num.Coincident || l.Contains(h[0].A) == geom.Inside {
			return true
		}
	}
	return false
}

func (m *maker) holeProblem(n, i int, l geom.Loop, hint, format string, args ...any) {
	d := &m.nodes[n]
	p := m.problems.add(HolePlace, d.name, hint, format, args...).at(m.flatPoint(n, l.Bounds().Centre()))
	p.Hole = d.holes[i].Name
}

func (m *maker) reliefProblem(n, i int, l geom.Loop, format string, args ...any) {
	m.holeProblem(n, i, l, "move the hole or make the relief smaller", format, args...)
	m.problems[len(m.problems)-1].Kind = Cut
}

// meet reports whether the insides of two loops touch.
func meet(a, b geom.Loop) bool {
	return geom.LoopLoop(a, b).D <= num.Coincident || a.Contains(b[0].A) == geom.Inside || b.Contains(a[0].A) == geom.Inside
}

// flatHole carries a hole to the flat and measures it against the bends of its
// panel.
func (m *maker) flatHole(n int, h *Hole, toFlat geom.Motion) FlatHole {
	d := &m.nodes[n]
	l := h.Loop
	if l.Area() < 0 {
		l = l.Reverse()
	}
	given := centre(l)
	out := FlatHole{Name: h.Name, Panel: n, Loop: l.Transform(toFlat), Given: given, At: toFlat.Apply(given), Bend: -1, Tangent: math.Inf(1)}
	near := func(k int, s geom.Seg) {
		if v := distance(out.Loop, s); v < out.Tangent {
			out.Bend, out.Tangent = k, v
		}
	}
	if d.up >= 0 {
		j := &m.joints[d.up]
		near(d.up, j.far().Transform(m.nodes[j.parent].toFlat))
	}
	for _, k := range d.kids {
		near(k, m.joints[k].root().Transform(d.toFlat))
	}
	return out
}

// distance is how far the edge of a hole stays from a line that it does not meet.
func distance(l geom.Loop, s geom.Seg) float64 {
	if c, ok := l.Circle(); ok {
		return geom.PointSeg(c.C, s).D - c.R
	}
	v := math.Inf(1)
	for _, h := range l {
		v = min(v, geom.SegSeg(h, s).D)
	}
	return v
}

// centre is the middle of a hole: of a circle its very centre.
func centre(l geom.Loop) geom.Point {
	if c, ok := l.Circle(); ok {
		return c.C
	}
	return l.Centroid()
}

// pairs checks that the holes meant for one bolt are there.
func (m *maker) pairs() {
	for _, p := range m.part.InLine {
		for _, name := range [2]string{p.A, p.B} {
			if !m.hasHole(name) {
				m.problems.add(BadValue, m.part.Base.name(), "", "hole %q is to be in line with another, and there is none of that name", name).Hole = name
			}
		}
	}
}

func (m *maker) hasHole(name string) bool {
	for n := range m.nodes {
		for i := range m.nodes[n].holes {
			if m.nodes[n].holes[i].Name == name {
				return true
			}
		}
	}
	return false
}
