package drawing

import (
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// spline gives arcs for a SPLINE; it tells what is wrong with it, "" if nothing.
// Control points come before fit points, as in the programs that write both.
func (fl *flattener) spline(f *frame, vals []float64, closed bool) string {
	knots, control, weights, fit := int(vals[1]), int(vals[2]), int(vals[3]), int(vals[4])
	lists := vals[splineHead:]
	switch {
	case control > 0:
		n := &fl.nurbs
		n.degree = int(vals[0])
		n.knots, lists = lists[:knots], lists[knots:]
		n.h = n.h[:0]
		for i := range control {
			p := fl.point(f, vector(lists[3*i:]))
			w := 1.0
			if weights == control {
				w = lists[3*control+i]
			}
			if !(w > 0) {
				return "a weight is not more than 0"
			}
			n.h = append(n.h, [3]float64{p.X * w, p.Y * w, w})
		}
		if wrong := n.check(weights); wrong != "" {
			return wrong
		}
		fl.segs = n.fitAll(&fl.fit, fl.segs)
		if len(fl.segs) == 0 && fl.steps >= 0 {
			p := geom.Point{X: n.h[0][0] / n.h[0][2], Y: n.h[0][1] / n.h[0][2]}
			fl.add(geom.Line(p, p))
		}
	case fit > 1:
		fl.through(f, vals, lists[knots+weights:], closed)
	default:
		return "it has neither control points nor fit points"
	}
	if n := len(fl.segs); closed && n > 1 && fl.segs[n-1].B.Dist(fl.segs[0].A) <= num.Joined {
		fl.fit.moved += fl.segs[n-1].B.Dist(fl.segs[0].A)
		fl.segs[n-1] = withEnds(fl.segs[n-1], fl.segs[n-1].A, fl.segs[0].A)
	}
	return ""
}

// through gives arcs for a spline that is known by the points on it alone. The
// format does not say which curve that is; taken is the cubic spline with
// continuous curvature, its parameter the length along the chords. Its end
// directions are those given, else estimated from the first and last five points
// (L. Piegl and W. Tiller, The NURBS Book, 2nd ed., 1997, 9.3.1); a closed one
// runs on smoothly.
func (fl *flattener) through(f *frame, vals, lists []float64, closed bool) {
	pts := fl.points[:0]
	for i := range int(vals[4]) {
		p := fl.point(f, vector(lists[3*i:]))
		if len(pts) == 0 || pts[len(pts)-1].Dist(p) > num.Coincident {
			pts = append(pts, p)
		}
	}
	if n := len(pts); closed && n > 2 && pts[n-1].Dist(pts[0]) > num.Coincident {
		pts = append(pts, pts[0])
	}
	fl.points = pts
	switch {
	case len(pts) < 2:
		fl.add(geom.Line(pts[0], pts[0]))
		return
	case len(pts) == 2 && !(vals[5] == 1 && vals[6] == 1):
		fl.add(geom.Line(pts[0], pts[1]))
		return
	}
	for _, p := range pts {
		if !(p.Len() <= farthest) {
			fl.add(geom.Line(p, p)) // out of range
			return
		}
	}
	c := newCubic(pts)
	if closed && len(pts) > 3 {
		c.closeUp()
	} else {
		if len(pts) > 2 {
			c.d[0], c.d[len(pts)-1] = endDirections(pts)
		}
		if vals[5] == 1 {
			c.d[0] = unit2(f.flat3(vector(vals[7:])))
		}
		if vals[6] == 1 {
			c.d[len(pts)-1] = unit2(f.flat3(vector(vals[10:])))
		}
		c.solve()
	}
	fl.segs = fl.fit.curve(fl.segs, c, 0, c.t[len(c.t)-1])
}

// flat3 carries a direction and drops its height.
func (f *frame) flat3(p vector) geom.Point {
	q := f.dir(p)
	return geom.Point{X: q[0], Y: q[1]}
}
