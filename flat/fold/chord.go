package fold

import (
	"math"
	"slices"

	"blankwright/flat/geom"
)

// span is a stretch of a line, by distance along it.
type span struct{ from, to float64 }

// appendHits appends where the line from q along the unit vector d crosses the
// loop, as distances from q, unsorted. A loop is crossed an even number of
// times: a point of it that lies on the line counts as right of it.
func appendHits(ts []float64, l geom.Loop, q, d geom.Point) []float64 {
	for i := range l {
		s := &l[i]
		ux, uy := s.A.X-q.X, s.A.Y-q.Y
		vx, vy := s.B.X-q.X, s.B.Y-q.Y
		sa := float64(d.X*uy) - float64(d.Y*ux)
		sb := float64(d.X*vy) - float64(d.Y*vx)
		cross := (sa > 0) != (sb > 0)
		switch {
		case s.Bulge != 0:
			ts = appendArcHits(ts, s, q, d, cross)
		case cross:
			ta, tb := d.X*ux+d.Y*uy, d.X*vx+d.Y*vy
			ts = append(ts, ta+(tb-ta)*(sa/(sa-sb)))
		}
	}
	return ts
}

// appendArcHits does it for an arc: once where its ends lie on either side, else
// twice or not at all.
func appendArcHits(ts []float64, s *geom.Seg, q, d geom.Point, cross bool) []float64 {
	c := s.Circle()
	ux, uy := c.C.X-q.X, c.C.Y-q.Y
	h := float64(d.X*uy) - float64(d.Y*ux)
	rest := float64(c.R*c.R) - float64(h*h)
	if rest <= 0 && !cross {
		return ts
	}
	mid, w := d.X*ux+d.Y*uy, math.Sqrt(max(0, rest))
	t1, t2 := mid-w, mid+w
	o1, o2 := offArc(s, q.Add(d.Mul(t1))), offArc(s, q.Add(d.Mul(t2)))
	switch {
	case cross && o1 <= o2:
		return append(ts, t1)
	case cross:
		return append(ts, t2)
	case o1 < 0 && o2 < 0:
		return append(ts, t1, t2)
	}
	return ts
}

// offArc is negative for a point of the arc's circle that lies on the arc, and
// grows with the distance beyond its ends.
func offArc(s *geom.Seg, p geom.Point) float64 {
	k := s.B.Sub(s.A).Cross(p.Sub(s.A))
	if s.Bulge < 0 {
		return -k
	}
	return k
}

// appendSpans appends the stretches of the line that lie inside the loops,
// counted even and odd: one outline and its openings. Its scratch is returned
// for the next call.
func appendSpans(out []span, scratch []float64, q, d geom.Point, loops ...geom.Loop) ([]span, []float64) {
	ts := scratch[:0]
	for _, l := range loops {
		ts = appendHits(ts, l, q, d)
	}
	slices.Sort(ts)
	for i := 0; i+1 < len(ts); i += 2 {
		out = append(out, span{ts[i], ts[i+1]})
	}
	return out, ts
}
