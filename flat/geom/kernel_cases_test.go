package geom

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/num"
)

// caseBytes deals small choices from bytes; when they run out it deals zeros.
type caseBytes struct{ b []byte }

func (c *caseBytes) deal(n int) int {
	if len(c.b) == 0 {
		return 0
	}
	v := int(c.b[0]) % n
	c.b = c.b[1:]
	return v
}

// coordinate is a whole number from 0 to 8, now and then moved by one unit in
// the last place or by num.Coincident.
func (c *caseBytes) coordinate() float64 {
	v := c.deal(256)
	x := float64(v % 9)
	switch v / 9 {
	case 26:
		return math.Nextafter(x, 100)
	case 27:
		return math.Nextafter(x, -100)
	case 28:
		return x + num.Coincident*float64(1-2*(v&1))
	}
	return x
}

func (c *caseBytes) point() Point { return Point{c.coordinate(), c.coordinate()} }

// caseBulges are bulges that make arcs tangent to each other and to the grid.
var caseBulges = [...]float64{
	0, 0, 0, 0, 0, 1, -1, math.Sqrt2 - 1, 1 - math.Sqrt2, 0.5, -0.5, 0.25, -1.0 / 3, 1e-4, -1e-3, 0.999999,
}

// loop is a loop of one of the kinds that parts are made of, or any polygon of
// lines and arcs, which may cross itself.
func (c *caseBytes) loop() Loop {
	switch c.deal(8) {
	case 0:
		p, q := c.point(), c.point()
		return Polygon(p, Point{q.X, p.Y}, q, Point{p.X, q.Y})
	case 1:
		return CircleLoop(Circle{c.point(), max(1, c.coordinate()/2)})
	case 2:
		p, q := c.point(), c.point()
		if p.Dist(q) < 1 {
			q.X += 2
		}
		return Slot(p, q, float64(1+c.deal(4)))
	case 3:
		p := c.point()
		w, h := float64(2+c.deal(5)), float64(2+c.deal(5))
		r := []float64{0.5, 1, min(w, h) / 2}[c.deal(3)]
		l, err := Corners([]Corner{{P: p, Radius: r}, {P: Point{p.X + w, p.Y}, Radius: r},
			{P: Point{p.X + w, p.Y + h}, Radius: r}, {P: Point{p.X, p.Y + h}}})
		if err == nil {
			return l
		}
		return Polygon(p, Point{p.X + w, p.Y}, Point{p.X + w, p.Y + h}, Point{p.X, p.Y + h})
	}
	n := 3 + c.deal(5)
	pts := make([]Point, n)
	for i := range pts {
		pts[i] = c.point()
	}
	l := make(Loop, 0, n)
	for i, p := range pts {
		if q := pts[(i+1)%n]; p != q {
			l = append(l, BulgeSeg(p, q, caseBulges[c.deal(len(caseBulges))]))
		}
	}
	return l
}

// shape is one to three loops, each a region by itself; they may overlap.
func (c *caseBytes) shape() []Region {
	rs := make([]Region, 1+c.deal(3))
	for i := range rs {
		rs[i].Outer = c.loop()
	}
	return rs
}

// areaSlack is by how much the area of a shape may be out: its outlines each by
// num.Sliver, and rounding.
func areaSlack(rs ...[]Region) float64 {
	sum := num.AreaSlack
	for _, r := range rs {
		for i := range r {
			sum += 4*num.Sliver*r[i].Perimeter() + num.AreaSlack*math.Abs(r[i].Area())
		}
	}
	return sum
}

// auditShape checks what every result promises: closed loops of two segments
// or more on their circles, the right way round, that neither cross nor run
// along each other, and openings inside their outer loops.
func auditShape(rs []Region) error {
	type placed struct {
		s         *Seg
		loop, seg int
		n         int
	}
	var all []placed
	loops := 0
	for i := range rs {
		for k, l := range append([]Loop{rs[i].Outer}, rs[i].Holes...) {
			if len(l) < 2 {
				return fmt.Errorf("a loop of %d segments", len(l))
			}
			if a := l.Area(); (k == 0) != (a > 0) {
				return fmt.Errorf("loop %d of region %d has area %g", k, i, a)
			}
			for j := range l {
				s := &l[j]
				if s.B != l[(j+1)%len(l)].A {
					return fmt.Errorf("loop open at %v", s.B)
				}
				if s.A == s.B || math.Abs(s.Bulge) > 1 {
					return fmt.Errorf("bad segment %v", *s)
				}
				if s.Bulge != 0 {
					for _, p := range []Point{s.A, s.B, s.Mid()} {
						if off := math.Abs(p.Dist(s.circ.C) - s.circ.R); off > num.Coincident {
							return fmt.Errorf("segment %v leaves its circle by %g", *s, off)
						}
					}
				}
				all = append(all, placed{s, loops, j, len(l)})
			}
			if k > 0 && !loopInside(rs[i].Outer, l) {
				return fmt.Errorf("opening %d of region %d lies outside", k, i)
			}
			loops++
		}
	}
	for i := range all {
		for j := i + 1; j < len(all); j++ {
			p, q := &all[i], &all[j]
			m := intersectAt(*p.s, *q.s, num.Contact/4096)
			for _, o := range m.Overlaps {
				if o.Length() > num.Stub {
					return fmt.Errorf("segments %v and %v overlap", *p.s, *q.s)
				}
			}
			for _, x := range m.Points {
				if x.Dist(p.s.A) > num.ShortEdge && x.Dist(p.s.B) > num.ShortEdge && x.Dist(q.s.A) > num.ShortEdge && x.Dist(q.s.B) > num.ShortEdge &&
					!sameMeeting(p.s, q.s, x) {
					return fmt.Errorf("segments %v and %v meet at %v", *p.s, *q.s, x)
				}
			}
		}
	}
	return nil
}

// sameMeeting reports whether the segments stay within rounding of each other
// all the way from x to an end: a meeting at a tiny angle.
func sameMeeting(s, r *Seg, x Point) bool {
	e, f := makeEdge(s, num.Contact), makeEdge(r, num.Contact)
	for _, v := range [4]Point{s.A, s.B, r.A, r.B} {
		m := e.midBetween(x, v)
		if math.Abs(e.side(v)) <= num.Fuse*num.Contact && math.Abs(f.side(v)) <= num.Fuse*num.Contact && math.Abs(f.side(m)) <= num.Fuse*num.Contact {
			return true
		}
	}
	return false
}

// inside tells whether p lies in the shape; sure is false near its boundary.
func inside(rs []Region, p Point) (in, sure bool) {
	for i := range rs {
		for _, l := range append([]Loop{rs[i].Outer}, rs[i].Holes...) {
			if PointLoop(p, l).D < num.ShortEdge {
				return false, false
			}
		}
		if rs[i].Contains(p) == Inside {
			in = true
		}
	}
	return in, true
}

// reversed is the shape with every loop run the other way, begun elsewhere.
func reversed(rs []Region) []Region {
	turn := func(l Loop) Loop {
		l = l.Reverse()
		if len(l) == 0 {
			return l
		}
		return append(append(Loop{}, l[1:]...), l[0])
	}
	out := make([]Region, len(rs))
	for i, r := range rs {
		out[i].Outer = turn(r.Outer)
		for _, h := range r.Holes {
			out[i].Holes = append(out[i].Holes, turn(h))
		}
	}
	return out
}

func moved(rs []Region, m Motion) []Region {
	out := make([]Region, len(rs))
	for i := range rs {
		out[i] = rs[i].Transform(m)
	}
	return out
}

// errRefused marks a case in which an operation gave an error: allowed, but
// counted.
var errRefused = errors.New("refused")

func refused(err error) error { return fmt.Errorf("%w: %w", errRefused, err) }

// booleanCase builds two shapes from the bytes and checks the laws that hold
// for every pair of shapes. depth of 0 checks the areas; 1 also the structure
// of the results, their points, and the laws of reversal and motion.
func booleanCase(data []byte, deep bool) error {
	c := &caseBytes{data}
	a, err := Union(c.shape(), nil)
	if err != nil {
		return refused(err)
	}
	b, err := Union(nil, c.shape())
	if err != nil {
		return refused(err)
	}
	x, y := areaOf(a), areaOf(b)
	var got [4][]Region
	var area [4]float64
	for i, f := range []func(a, b []Region) ([]Region, error){Union, Intersection, Difference, SymmetricDifference} {
		if got[i], err = f(a, b); err != nil {
			return refused(err)
		}
		area[i] = areaOf(got[i])
	}
	tol := areaSlack(a, b)
	law := func(name string, l, r float64) error {
		if !(math.Abs(l-r) <= tol) {
			return fmt.Errorf("%s: %.15g against %.15g, off by %.3g, allowed %.3g", name, l, r, l-r, tol)
		}
		return nil
	}
	if err := errors.Join(
		law("A+B = union + intersection", x+y, area[0]+area[1]),
		law("difference = A - intersection", x-area[1], area[2]),
		law("symmetric difference = union - intersection", area[0]-area[1], area[3]),
	); err != nil {
		return err
	}
	if !deep {
		return nil
	}
	for i, r := range append([][]Region{a, b}, got[:]...) {
		if err := auditShape(r); err != nil {
			return fmt.Errorf("result %d: %w", i, err)
		}
	}
	for i := range 12 {
		p := Point{float64(i)*0.77 - 0.313, math.Mod(float64(i*i)*1.37+0.291, 9) - 0.5}
		inA, ok1 := inside(a, p)
		inB, ok2 := inside(b, p)
		if !ok1 || !ok2 {
			continue
		}
		for k, want := range [4]bool{inA || inB, inA && inB, inA && !inB, inA != inB} {
			if in, ok := inside(got[k], p); ok && in != want {
				return fmt.Errorf("result %d: point %v in it is %v, want %v", k, p, in, want)
			}
		}
	}
	again := func(name string, f func(a, b []Region) ([]Region, error), a, b []Region, want float64) error {
		r, err := f(a, b)
		if err != nil {
			return refused(err)
		}
		return law(name, areaOf(r), want)
	}
	m := RotateAbout(Point{3, 4}, 0.7).Then(Translate(11.3, -5.9))
	for _, err := range []error{
		again("A union A", Union, a, a, x),
		again("A intersection A", Intersection, a, a, x),
		again("A less A", Difference, a, a, 0),
		again("B union A", Union, b, a, area[0]),
		again("B intersection A", Intersection, b, a, area[1]),
		again("B less A", Difference, b, a, y-area[1]),
		again("reversed union", Union, reversed(a), reversed(b), area[0]),
		again("reversed difference", Difference, reversed(a), b, area[2]),
		again("moved union", Union, moved(a, m), moved(b, m), area[0]),
		again("moved difference", Difference, moved(a, m), moved(b, m), area[2]),
		again("mirrored intersection", Intersection, moved(a, MirrorX()), moved(b, MirrorX()), area[1]),
		again("result less operand", Difference, got[0], a, y-area[1]),
		again("parts union", Union, got[2], got[1], x),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// offsetCase builds a shape and a distance from the bytes and checks the laws
// of offsets.
func offsetCase(data []byte, deep bool) error {
	c := &caseBytes{data}
	d := [...]float64{0.5, -0.5, 1, -1, 0.25, -0.25, 2, -2, 0.3, -0.3, 0.75, -0.75, 1.5, -1.5, 3, -0.1}[c.deal(16)]
	a, err := Union(c.shape(), nil)
	if err != nil {
		return refused(err)
	}
	x := areaOf(a)
	r, err := Offset(a, d, Round)
	if err != nil {
		return refused(err)
	}
	y := areaOf(r)
	tol := areaSlack(a, r)
	if d > 0 && y < x-tol || d < 0 && y > x+tol {
		return fmt.Errorf("offset %g took area %g to %g", d, x, y)
	}
	if d > 0 {
		// Steiner: no more than the strip along the boundary and a disc per loop.
		loops := 0
		for i := range a {
			loops += 1 + len(a[i].Holes)
		}
		if most := x + d*perimeterOf(a) + float64(loops)*math.Pi*d*d; y > most+tol {
			return fmt.Errorf("offset %g: area %g, at most %g possible", d, y, most)
		}
	}
	if !deep {
		return nil
	}
	if err := auditShape(r); err != nil {
		return fmt.Errorf("offset %g: %w", d, err)
	}
	// The boundary of the result lies |d| from the source.
	for i := range r {
		for _, l := range append([]Loop{r[i].Outer}, r[i].Holes...) {
			for j := range l {
				if l[j].Length() < num.ShortEdge {
					continue
				}
				if got := distanceTo(a, l[j].Mid()); math.Abs(got-math.Abs(d)) > num.Coincident {
					return fmt.Errorf("offset %g: boundary at %v lies %.12g from the source", d, l[j].Mid(), got)
				}
			}
		}
	}
	// A place belongs to the result by its distance to the source.
	for i := range 16 {
		p := Point{float64(i)*0.77 - 1.313, math.Mod(float64(i*i)*1.37+0.291, 10) - 1}
		in, ok := inside(a, p)
		got, ok2 := inside(r, p)
		dist := distanceTo(a, p)
		if !ok || !ok2 || len(a) == 0 || math.Abs(dist-math.Abs(d)) < num.ShortEdge {
			continue
		}
		want := in && (d > 0 || dist > -d) || !in && d > 0 && dist < d
		if got != want {
			return fmt.Errorf("offset %g: point %v in it is %v, want %v", d, p, got, want)
		}
	}
	// Out and back covers the source, in and back lies in it.
	back, err := Offset(r, -d, Round)
	if err != nil {
		return refused(err)
	}
	big, small := back, a
	if d < 0 {
		big, small = a, back
	}
	left, err := Difference(small, big)
	if err != nil {
		return refused(err)
	}
	if over := areaOf(left); over > areaSlack(a, r, back) {
		return fmt.Errorf("offset %g and back leaves %g mm2 uncovered", d, over)
	}
	// Rigid motion and reversal.
	for name, s := range map[string][]Region{
		"moved":    moved(a, RotateAbout(Point{2, 1}, 1.1).Then(Translate(-3.7, 8.2))),
		"mirrored": moved(a, MirrorY()),
		"reversed": reversed(a),
	} {
		q, err := Offset(s, d, Round)
		if err != nil {
			return refused(err)
		}
		if z := areaOf(q); math.Abs(z-y) > tol {
			return fmt.Errorf("offset %g of the %s shape has area %.15g, want %.15g", d, name, z, y)
		}
	}
	return nil
}

// distanceTo is the least distance from p to the boundary of the shape.
func distanceTo(rs []Region, p Point) float64 {
	d := math.Inf(1)
	for i := range rs {
		for _, l := range append([]Loop{rs[i].Outer}, rs[i].Holes...) {
			d = min(d, PointLoop(p, l).D)
		}
	}
	return d
}
