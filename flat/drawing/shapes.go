package drawing

import (
	"fmt"
	"math"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// seen is where a place lies, seen from above.
func (f *frame) seen(p vector) geom.Point {
	q := f.at(p)
	return geom.Point{X: q[0], Y: q[1]}
}

// point is seen, with a note of how high the place lies.
func (fl *flattener) point(f *frame, p vector) geom.Point {
	q := f.at(p)
	if math.Abs(q[2]) > math.Abs(fl.height) {
		fl.height = q[2]
	}
	return geom.Point{X: q[0], Y: q[1]}
}

// extent is how far out the shape in hand reaches, mm; +Inf or NaN where it has
// numbers that cannot be drawn.
func (fl *flattener) extent() float64 {
	far := 0.0
	for i := range fl.segs {
		s := &fl.segs[i]
		if !num.Finite(s.A.X, s.A.Y, s.B.X, s.B.Y, s.Bulge) || !(s.Circle().R <= num.LargestRadius) {
			return math.Inf(1)
		}
		b := s.Bounds()
		far = max(far, -b.Min.X, -b.Min.Y, b.Max.X, b.Max.Y)
	}
	return far
}

// room takes n pieces off those that are left; false where too few are.
func (fl *flattener) room(n int, w dress) bool {
	fl.pieces -= n
	if fl.pieces < 0 {
		fl.doc.in.fail(int(w.line), fmt.Sprintf("the drawing has more than %d lines and arcs", fl.o.Limits.Pieces),
			"split it: a drawing of one job has far fewer")
	}
	return fl.doc.in.err == nil
}

// shape gives the lines and arcs of one entity.
func (fl *flattener) shape(r *raw, vals []float64, f *frame, normal vector, w dress) {
	fl.segs, fl.height = fl.segs[:0], 0
	fl.fit.start(fl.o.CurveError, &fl.steps)
	s := Shape{Layer: int(w.layer), Colour: w.colour, Line: int(w.line), Closed: r.closed}
	level := f.level()
	switch r.kind {
	case rawLine:
		s.Kind = kindLine
		fl.add(geom.Line(fl.point(f, vector(vals)), fl.point(f, vector(vals[3:]))))
		level = true
	case rawCircle, rawArc:
		s.Kind = kindCircle
		turn := [2]float64{0, 360}
		if r.kind == rawArc {
			s.Kind, turn = kindArc, [2]float64{vals[4], vals[5]}
		}
		s.Closed = fl.arc(f, vector(vals), vals[3], turn)
		if s.Closed {
			s.Kind = kindCircle
		}
	case rawLight, rawHeavy:
		s.Kind = kindLight
		if r.kind == rawHeavy {
			s.Kind = kindHeavy
		}
		fl.polyline(f, vals, r.closed)
	case rawSpatial:
		s.Kind = kindHeavy
		fl.spatial(f, vals, r.closed)
		level = true
	case rawEllipse:
		s.Kind = kindEllipse
		s.Closed, level = fl.ellipse(f, vals, normal)
	case rawSpline:
		s.Kind = kindSpline
		if reason := fl.spline(f, vals, r.closed); reason != "" {
			fl.fault(Unreadable, diag.Error, w, fl.firstPlace(r, vals, f), "a spline that makes no sense: "+reason, "draw it anew", false)
			return
		}
		level = true
	}
	if fl.steps < 0 {
		fl.spend(0, r.line)
		return
	}
	fl.close(r, s, w, level)
}

func (fl *flattener) add(s geom.Seg) { fl.segs = append(fl.segs, s) }

// firstPlace is where an entity begins, for messages.
func (fl *flattener) firstPlace(r *raw, vals []float64, f *frame) geom.Point {
	switch {
	case len(fl.segs) > 0:
		return fl.segs[0].A
	case r.kind == rawSpline:
		return f.seen(splineStart(vals))
	}
	return f.seen(vector{})
}

// close takes the shape in hand into the drawing, with what is wrong with it.
func (fl *flattener) close(r *raw, s Shape, w dress, level bool) {
	n := len(fl.segs)
	if n == 0 || !fl.room(n, w) {
		return
	}
	at := fl.segs[0].A
	what := s.Kind
	far := fl.extent()
	switch {
	case !(far <= num.MaxCoordinate):
		if !(at.Len() <= farthest) {
			at = geom.Point{}
		}
		fl.fault(OutOfRange, diag.Error, w, at, fmt.Sprintf("%s reaches farther than %s from the origin and is left out, met", what,
			fl.d.Unit.Length(num.MaxCoordinate)), "move the drawing to the origin, or mend its unit", false)
		return
	case !level:
		fl.fault(Tilted, diag.Error, w, at, what+" is drawn in a plane that leans; it is taken as seen from above", "draw it flat, in true size", false)
	case math.Abs(fl.height) > num.Level:
		fl.fault(NotLevel, diag.Warning, w, at, fmt.Sprintf("%s lies at z = %s, not 0; it is taken as seen from above", what,
			fl.d.Unit.Length(fl.height)), "move it to z = 0", true)
	}
	if r.wide {
		fl.fault(Wide, diag.Note, w, at, what+" has a width: its middle is taken", "draw the edges of what is to be cut", true)
	}
	s.Deviation = fl.fit.deviation()
	fl.d.Deviation = max(fl.d.Deviation, s.Deviation)
	s.Segs = fl.stored()
	fl.d.Layers[s.Layer].Shapes++
	fl.d.Shapes = append(fl.d.Shapes, s)
}

// farthest is the largest distance (mm) that a message gives a place for.
const farthest = 1_000_000_000

// chunk is how many segments are kept in one piece of memory.
const chunk = 4096

// stored copies the segments in hand to where they stay.
func (fl *flattener) stored() []geom.Seg {
	n := len(fl.segs)
	if cap(fl.arena)-len(fl.arena) < n {
		fl.arena = make([]geom.Seg, 0, max(chunk, n))
	}
	at := len(fl.arena)
	fl.arena = append(fl.arena, fl.segs...)
	return fl.arena[at : at+n : at+n]
}

// arc gives a circle or an arc from turn[0] to turn[1] (degrees,
// counter-clockwise in its own system), and reports whether it is a whole
// circle.
func (fl *flattener) arc(f *frame, c vector, r float64, turn [2]float64) bool {
	sweep := sweepOf(turn[0], turn[1])
	whole := sweep == 360
	centre := fl.point(f, c)
	fl.point(f, vector{c[0] + r, c[1], c[2]})
	k, round := f.scale()
	switch {
	case !(r > 0) || sweep == 0 || num.Zero(r*k) && round:
		sin, cos := num.Sincos(radians(turn[0]))
		p := f.seen(vector{c[0] + max(r, 0)*cos, c[1] + max(r, 0)*sin, c[2]})
		fl.add(geom.Line(p, p))
		return false
	case !round:
		e := oval{c: centre, u: f.flat(r, 0), v: f.flat(0, r)}
		fl.oval(e, radians(turn[0]), radians(sweep), whole)
		return whole
	case whole:
		fl.segs = append(fl.segs, geom.CircleLoop(geom.Circle{C: centre, R: r * k})...)
		return true
	}
	fl.roundArc(geom.Circle{C: centre, R: r * k}, f.mirrored(), sweep > 180+num.HalfTurnNoise, func(share float64) geom.Point {
		sin, cos := num.Sincos(radians(turn[0] + share*sweep))
		return f.seen(vector{c[0] + r*cos, c[1] + r*sin, c[2]})
	})
	return false
}

// sweepOf is how far (degrees) an arc turns from one angle to the other,
// counter-clockwise: 0 where they are the same, 360 where they differ by whole
// turns.
func sweepOf(from, to float64) float64 {
	d := to - from
	if math.Abs(d) <= num.FullTurnNoise {
		return 0
	}
	s := math.Mod(d, 360)
	if s < 0 {
		s += 360
	}
	if s <= num.FullTurnNoise || s >= 360-num.FullTurnNoise {
		return 360
	}
	return s
}

// roundArc gives an arc of a circle, of which at is the place at a share of its
// sweep; one of more than half a turn comes in two.
func (fl *flattener) roundArc(c geom.Circle, mirrored, long bool, at func(share float64) geom.Point) {
	a, b := at(0), at(1)
	if long {
		m := at(0.5)
		fl.add(geom.Arc(c, a, m, !mirrored))
		fl.add(geom.Arc(c, m, b, !mirrored))
		return
	}
	fl.add(arcOrLine(geom.Arc(c, a, b, !mirrored)))
}

// arcOrLine is the arc, or its chord where it is too flat to be one.
func arcOrLine(s geom.Seg) geom.Seg {
	rise := math.Abs(s.Bulge) * s.A.Dist(s.B) / 2
	if r := s.Circle().R; rise <= num.Contact || !(r <= num.LargestRadius) {
		return geom.Line(s.A, s.B)
	}
	return s
}

// polyline gives a polyline of its elevation and x, y, bulge of each vertex.
func (fl *flattener) polyline(f *frame, vals []float64, closed bool) {
	z, vs := vals[0], vals[1:]
	n := len(vs) / 3
	fl.points = fl.points[:0]
	for i := range n {
		fl.points = append(fl.points, fl.point(f, vector{vs[3*i], vs[3*i+1], z}))
	}
	_, round := f.scale()
	mirrored := f.mirrored()
	last := n - 1
	if closed && n > 1 {
		last = n
	}
	for i := range max(last, 0) {
		j := (i + 1) % n
		bulge := vs[3*i+2]
		switch {
		case bulge == 0 || fl.points[i] == fl.points[j]:
			fl.add(geom.Line(fl.points[i], fl.points[j]))
		case round:
			if mirrored {
				bulge = -bulge
			}
			fl.bulge(fl.points[i], fl.points[j], bulge)
		default:
			fl.squeezedBulge(f, vs[3*i:3*i+3], vs[3*j:3*j+3], z, fl.points[i], fl.points[j])
		}
	}
}

// bulge gives the arc from a to b with this bulge, in two where it is more than
// half a turn.
func (fl *flattener) bulge(a, b geom.Point, bulge float64) {
	if math.Abs(bulge) <= 1 {
		fl.add(arcOrLine(geom.BulgeSeg(a, b, bulge)))
		return
	}
	d := b.Sub(a)
	m := geom.Point{X: (a.X+b.X)/2 + d.Y*(bulge/2), Y: (a.Y+b.Y)/2 - d.X*(bulge/2)}
	c := bulgeCircle(a, b, bulge)
	fl.add(geom.Arc(c, a, m, bulge > 0))
	fl.add(geom.Arc(c, m, b, bulge > 0))
}

// bulgeCircle is the circle of the arc from a to b with this bulge, which may be
// of more than half a turn.
func bulgeCircle(a, b geom.Point, bulge float64) geom.Circle {
	d := b.Sub(a)
	h := (1/bulge - bulge) / 4
	return geom.Circle{
		C: geom.Point{X: (a.X+b.X)/2 - d.Y*h, Y: (a.Y+b.Y)/2 + d.X*h},
		R: d.Len() * (1/math.Abs(bulge) + math.Abs(bulge)) / 4,
	}
}

// squeezedBulge gives the arc between two vertices in a frame that makes an
// ellipse of its circle.
func (fl *flattener) squeezedBulge(f *frame, v, w []float64, z float64, from, to geom.Point) {
	a, b := geom.Point{X: v[0], Y: v[1]}, geom.Point{X: w[0], Y: w[1]}
	c := bulgeCircle(a, b, v[2])
	e := oval{c: fl.point(f, vector{c.C.X, c.C.Y, z}), u: f.flat(c.R, 0), v: f.flat(0, c.R)}
	if rise := math.Abs(v[2]) * from.Dist(to) / 2; rise <= num.Contact {
		fl.add(geom.Line(from, to))
		return
	}
	start := math.Atan2(a.Y-c.C.Y, a.X-c.C.X)
	n := len(fl.segs)
	fl.oval(e, start, 4*math.Atan(v[2]), false)
	if len(fl.segs) > n {
		fl.segs[n] = withEnds(fl.segs[n], from, fl.segs[n].B)
		last := len(fl.segs) - 1
		fl.segs[last] = withEnds(fl.segs[last], fl.segs[last].A, to)
	}
}

// spatial gives a polyline of x y z of each vertex.
func (fl *flattener) spatial(f *frame, vs []float64, closed bool) {
	n := len(vs) / 3
	fl.points = fl.points[:0]
	for i := range n {
		fl.points = append(fl.points, fl.point(f, vector(vs[3*i:])))
	}
	for i := 1; i < n; i++ {
		fl.add(geom.Line(fl.points[i-1], fl.points[i]))
	}
	if closed && n > 1 {
		fl.add(geom.Line(fl.points[n-1], fl.points[0]))
	}
}

// ellipse gives an ELLIPSE; whole tells whether it is a whole one, level whether
// it lies in a level plane.
func (fl *flattener) ellipse(f *frame, vals []float64, normal vector) (whole, level bool) {
	centre, major, ratio := vector(vals), vector(vals[3:]), vals[6]
	normal = normal.scaled(1 / normal.length())
	minor := normal.cross(major).scaled(ratio)
	plane := frame{x: f.dir(major), y: f.dir(minor)}
	level = plane.level()
	e := oval{c: fl.point(f, centre), u: plane.flat(1, 0), v: plane.flat(0, 1)}
	tip := vector{centre[0] + major[0], centre[1] + major[1], centre[2] + major[2]}
	fl.point(f, tip)
	sweep := sweepOf(vals[7]*(180/math.Pi), vals[8]*(180/math.Pi))
	whole = sweep == 360
	if sweep == 0 {
		p := f.seen(tip)
		fl.add(geom.Line(p, p))
		return false, level
	}
	start := vals[7]
	if k, round := plane.scale(); round {
		c := geom.Circle{C: e.c, R: k}
		if whole {
			fl.segs = append(fl.segs, geom.CircleLoop(c)...)
			return true, level
		}
		fl.roundArc(c, plane.mirrored(), sweep > 180+num.HalfTurnNoise, func(share float64) geom.Point {
			p, _ := e.at(start + share*radians(sweep))
			return p
		})
		return false, level
	}
	fl.oval(e, start, radians(sweep), whole)
	return whole, level
}

// oval gives arcs for an ellipse from the angle start (rad) through sweep. One
// that is seen edge on is the line that is seen; one too large has a point that
// is too far.
func (fl *flattener) oval(e oval, start, sweep float64, whole bool) {
	if !(e.u.Len() <= num.LargestRadius && e.v.Len() <= num.LargestRadius && num.Finite(e.c.X, e.c.Y, start)) {
		far := geom.Point{X: math.Inf(1)}
		fl.add(geom.Line(far, far))
		return
	}
	if e.flat() {
		a, _ := e.at(e.axis())
		b, _ := e.at(e.axis() + math.Pi)
		if !whole {
			a, _ = e.at(start)
			b, _ = e.at(start + sweep)
		}
		fl.add(geom.Line(a, b))
		return
	}
	fl.segs = fl.fit.oval(fl.segs, e, start, sweep, whole)
}
