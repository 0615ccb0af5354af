package paper

import (
	"math"

	"blankwright/flat/geom"
)

// Rect is an upright rectangle on the page, mm. It is empty where X1 <= X0 or
// Y1 <= Y0.
type Rect struct{ X0, Y0, X1, Y1 float64 }

// Width is its extent in x.
func (r Rect) Width() float64 { return r.X1 - r.X0 }

// Height is its extent in y.
func (r Rect) Height() float64 { return r.Y1 - r.Y0 }

// Grow moves every side out by d.
func (r Rect) Grow(d float64) Rect { return Rect{r.X0 - d, r.Y0 - d, r.X1 + d, r.Y1 + d} }

// Overlaps reports whether the rectangles share more than an edge.
func (r Rect) Overlaps(q Rect) bool {
	return r.X0 < q.X1 && q.X0 < r.X1 && r.Y0 < q.Y1 && q.Y0 < r.Y1
}

// Holds reports whether q lies within r.
func (r Rect) Holds(q Rect) bool {
	return r.X0 <= q.X0 && q.X1 <= r.X1 && r.Y0 <= q.Y0 && q.Y1 <= r.Y1
}

// Has reports whether p lies within r.
func (r Rect) Has(p geom.Point) bool {
	return r.X0 <= p.X && p.X <= r.X1 && r.Y0 <= p.Y && p.Y <= r.Y1
}

// TouchesDisc reports whether any of r lies within the circle.
func (r Rect) TouchesDisc(c geom.Circle) bool {
	dx := max(r.X0-c.C.X, 0, c.C.X-r.X1)
	dy := max(r.Y0-c.C.Y, 0, c.C.Y-r.Y1)
	return dx*dx+dy*dy < c.R*c.R
}

// InsideDisc reports whether all of r lies within the circle.
func (r Rect) InsideDisc(c geom.Circle) bool {
	dx := max(math.Abs(r.X0-c.C.X), math.Abs(r.X1-c.C.X))
	dy := max(math.Abs(r.Y0-c.C.Y), math.Abs(r.Y1-c.C.Y))
	return dx*dx+dy*dy < c.R*c.R
}

// Crosses reports whether any of the straight line from a to b lies within r
// (Liang and Barsky, A new concept and method for line clipping, ACM
// Transactions on Graphics 3(1), 1984).
func (r Rect) Crosses(a, b geom.Point) bool {
	t0, t1 := 0.0, 1.0
	dx, dy := b.X-a.X, b.Y-a.Y
	return clip(-dx, a.X-r.X0, &t0, &t1) && clip(dx, r.X1-a.X, &t0, &t1) &&
		clip(-dy, a.Y-r.Y0, &t0, &t1) && clip(dy, r.Y1-a.Y, &t0, &t1)
}

// clip narrows t0..t1 to where p*t <= q; false when nothing is left.
func clip(p, q float64, t0, t1 *float64) bool {
	if p == 0 {
		return q > 0
	}
	t := q / p
	if p < 0 {
		*t0 = max(*t0, t)
	} else {
		*t1 = min(*t1, t)
	}
	return *t0 < *t1
}
