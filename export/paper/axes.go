package paper

import (
	"math"
	"sort"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// stop is a hole on a centre-line: where along it (mm along a line, rad round a
// circle) and how far to stay away, so that the punch's place stays open.
type stop struct{ at, off float64 }

// axes draws the centre-lines that join holes: a link plate's from end to end,
// the line through all holes where they lie in one that is level or upright, and
// else the line or circle of each pattern.
func (d *drawing) axes() {
	holes := d.b.Holes
	if ends := d.linked(); len(ends) > 1 && d.row(ends, true) || len(holes) > 1 && d.row(holes, false) {
		return
	}
	for i := 0; i < len(holes); {
		j := i + 1
		for holes[i].Set != "" && j < len(holes) && holes[j].Set == holes[i].Set {
			j++
		}
		if j-i >= 3 && !d.row(holes[i:j], true) && !d.isGrid(holes[i].Set) {
			d.ring(holes[i:j])
		}
		i = j
	}
}

// linked are the holes that a link plate runs through, nil of another part.
func (d *drawing) linked() (ends []blank.Hole) {
	if d.b.Part == nil || d.b.Part.Outline.LinkPlate == nil {
		return nil
	}
	for _, boss := range d.b.Part.Outline.LinkPlate.Through {
		for i := range d.b.Holes {
			if d.b.Holes[i].Name == boss.Hole.Text {
				ends = append(ends, d.b.Holes[i])
			}
		}
	}
	return ends
}

// row draws the line through the holes; false when they do not lie in one, or
// when it slants and that is not wanted.
func (d *drawing) row(holes []blank.Hole, slanted bool) bool {
	p := holes[0].Centre
	var u geom.Point
	for i := range holes {
		if v := holes[i].Centre.Sub(p); v.Len() > u.Len() {
			u = v
		}
	}
	if num.Zero(u.Len()) {
		return false
	}
	u = u.Mul(1 / u.Len())
	if !slanted && !num.Zero(u.X) && !num.Zero(u.Y) {
		return false
	}
	stops := make([]stop, len(holes))
	for i := range holes {
		v := holes[i].Centre.Sub(p)
		if !num.Zero(u.Cross(v)) {
			return false
		}
		sh := shapeOf(&holes[i], holes[i].Dia)
		stops[i] = stop{v.Dot(u), sh.reach(u) + 2*overshoot}
	}
	p = p.Add(d.s.Offset)
	sort.Slice(stops, func(i, j int) bool { return stops[i].at < stops[j].at })
	for i := 1; i < len(stops); i++ {
		a, b := stops[i-1], stops[i]
		if from, to := a.at+a.off, b.at-b.off; to-from > 2*overshoot {
			d.centreLine(geom.Line(p.Add(u.Mul(from)), p.Add(u.Mul(to))))
		}
	}
	return true
}

// isGrid reports whether the description calls a set of holes a grid: four
// holes of one may lie on a circle and still not belong to it.
func (d *drawing) isGrid(set string) bool {
	if d.b.Part == nil {
		return false
	}
	for i := range d.b.Part.Holes {
		if h := &d.b.Part.Holes[i]; h.Name.Text == set {
			return h.Grid != nil
		}
	}
	return false
}

// ring draws the circle through the holes, if they are spread evenly on one.
func (d *drawing) ring(holes []blank.Hole) {
	n := len(holes)
	c, ok := through(holes[0].Centre, holes[n/3].Centre, holes[2*n/3].Centre)
	if !ok {
		return
	}
	stops := make([]stop, n)
	for i := range holes {
		v := holes[i].Centre.Sub(c.C)
		if !num.Same(v.Len(), c.R) {
			return
		}
		sh := shapeOf(&holes[i], holes[i].Dia)
		stops[i] = stop{math.Atan2(v.Y, v.X), (sh.r + sh.half + overshoot) / c.R}
	}
	sort.Slice(stops, func(i, j int) bool { return stops[i].at < stops[j].at })
	pitch := 2 * math.Pi / float64(n)
	for i := range stops {
		if !num.Same((stops[i].at-stops[0].at)*c.R, float64(i)*pitch*c.R) {
			return
		}
	}
	c.C = c.C.Add(d.s.Offset)
	for i, a := range stops {
		b := stops[(i+1)%n]
		if i == n-1 {
			b.at += 2 * math.Pi
		}
		from, to := a.at+a.off, b.at-b.off
		if (to-from)*c.R <= 2*overshoot {
			continue
		}
		mid := (from + to) / 2
		d.centreLine(geom.Arc(c, c.C.Polar(c.R, from), c.C.Polar(c.R, mid), true))
		d.centreLine(geom.Arc(c, c.C.Polar(c.R, mid), c.C.Polar(c.R, to), true))
	}
}

func (d *drawing) centreLine(g geom.Seg) {
	d.s.seg(Centres, g)
	d.f.addEdge(g)
}

// through is the circle through three points; false when they lie in line.
func through(p, q, r geom.Point) (geom.Circle, bool) {
	a, b := q.Sub(p), r.Sub(p)
	k := 2 * a.Cross(b)
	if num.Zero(k) {
		return geom.Circle{}, false
	}
	m := a.Mul(b.Dot(b)).Sub(b.Mul(a.Dot(a))).Perp().Mul(1 / k)
	return geom.Circle{C: p.Add(m), R: m.Len()}, true
}
