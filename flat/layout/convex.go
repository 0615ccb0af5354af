package layout

import (
	"math"
	"sort"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// convexParts cuts a polygon with openings (outer counter-clockwise, openings
// clockwise) into convex polygons that cover it. Ears are cut off (G. H. Meisters,
// "Polygons have ears", American Mathematical Monthly 82 (1975)) after each
// opening is joined to the outside by a cut; then cuts that are not needed are
// taken out again (S. Hertel, K. Mehlhorn, "Fast triangulation of simple
// polygons", FCT 1983). Where no ear is found, which takes a polygon that is not
// simple, what is left comes as its hull: that errs outward.
func convexParts(rings [][]geom.Point) [][]geom.Point {
	ring := rings[0]
	holes := append([][]geom.Point(nil), rings[1:]...)
	sort.SliceStable(holes, func(i, j int) bool { return holes[i][rightmost(holes[i])].X > holes[j][rightmost(holes[j])].X })
	for _, h := range holes {
		ring = bridge(ring, h)
	}
	return mergeConvex(cutEars(ring))
}

func rightmost(h []geom.Point) int {
	k := 0
	for i := range h {
		if h[i].X > h[k].X {
			k = i
		}
	}
	return k
}

// bridge joins an opening to the ring round it by a cut from its rightmost point
// to a point of the ring that can be seen from there.
func bridge(ring, hole []geom.Point) []geom.Point {
	k := rightmost(hole)
	p := hole[k]
	n := len(ring)
	at, hit := -1, math.Inf(1)
	for i := range ring {
		a, b := ring[i], ring[(i+1)%n]
		if a.Y > p.Y || b.Y < p.Y || a.Y == b.Y { // upward sides alone face left
			continue
		}
		x := a.X + (p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
		if x >= p.X && x < hit {
			hit = x
			at = i
			if b.X > a.X {
				at = (i + 1) % n
			}
		}
	}
	if at < 0 {
		return ring
	}
	// A corner in the triangle of p, the hit and the end taken hides that end: the
	// one nearest in angle to the ray is seen.
	q, h := ring[at], geom.Point{X: hit, Y: p.Y}
	best := math.Inf(1)
	pick := at
	for i, v := range ring {
		if v.X < p.X || !inTriangle(p, h, q, v) {
			continue
		}
		slope := math.Abs(v.Y-p.Y) / math.Max(v.X-p.X, num.Coincident)
		if (slope < best || slope == best && v.X < ring[pick].X) && opensTo(ring, i, p) {
			best, pick = slope, i
		}
	}
	out := make([]geom.Point, 0, n+len(hole)+2)
	out = append(out, ring[:pick+1]...)
	for i := 0; i <= len(hole); i++ {
		out = append(out, hole[(k+i)%len(hole)])
	}
	return append(out, ring[pick:]...)
}

// opensTo reports whether the corner at i of the ring has p in its inside angle.
func opensTo(ring []geom.Point, i int, p geom.Point) bool {
	n := len(ring)
	a, v, b := ring[(i+n-1)%n], ring[i], ring[(i+1)%n]
	if orient2(a, v, b) >= 0 {
		return orient2(a, v, p) >= 0 && orient2(v, b, p) >= 0
	}
	return orient2(a, v, p) >= 0 || orient2(v, b, p) >= 0
}

func orient2(a, b, c geom.Point) float64 { return num.Orient(a.X, a.Y, b.X, b.Y, c.X, c.Y) }

func inTriangle(a, b, c, p geom.Point) bool {
	x, y, z := orient2(a, b, p), orient2(b, c, p), orient2(c, a, p)
	return x >= 0 && y >= 0 && z >= 0 || x <= 0 && y <= 0 && z <= 0
}

// cutEars cuts a ring into triangles.
func cutEars(ring []geom.Point) [][]geom.Point {
	r := append([]geom.Point(nil), ring...)
	var out [][]geom.Point
	for len(r) > 3 {
		k, best := -1, -1.0
		for i := range r {
			if q, ok := ear(r, i); ok && q > best {
				k, best = i, q
			}
		}
		if k < 0 {
			if flat := flatCorner(r); flat >= 0 {
				r = append(r[:flat], r[flat+1:]...)
				continue
			}
			if h := convexHull(r); len(h) > 2 {
				out = append(out, h)
			}
			return out
		}
		n := len(r)
		out = append(out, []geom.Point{r[(k+n-1)%n], r[k], r[(k+1)%n]})
		r = append(r[:k], r[k+1:]...)
	}
	if len(r) == 3 && orient2(r[0], r[1], r[2]) > 0 {
		out = append(out, r)
	}
	return out
}

func flatCorner(r []geom.Point) int {
	n := len(r)
	for i := range r {
		if orient2(r[(i+n-1)%n], r[i], r[(i+1)%n]) == 0 {
			return i
		}
	}
	return -1
}

// ear reports whether the corner can be cut off, and how far its triangle is from
// thin.
func ear(r []geom.Point, i int) (quality float64, ok bool) {
	n := len(r)
	a, b, c := r[(i+n-1)%n], r[i], r[(i+1)%n]
	area := orient2(a, b, c)
	if area <= 0 {
		return 0, false
	}
	for _, p := range r {
		if p != a && p != b && p != c && inTriangle(a, b, c, p) {
			return 0, false
		}
	}
	l := c.Sub(a)
	return area / (l.Dot(l) + b.Sub(a).Dot(b.Sub(a)) + c.Sub(b).Dot(c.Sub(b))), true
}

// mergeConvex joins neighbours as long as they stay convex.
func mergeConvex(parts [][]geom.Point) [][]geom.Point {
	type side struct{ a, b geom.Point }
	owner := map[side]int{}
	for i, p := range parts {
		for k := range p {
			owner[side{p[k], p[(k+1)%len(p)]}] = i
		}
	}
	for i := range parts {
		for again := true; again && parts[i] != nil; {
			again = false
			p := parts[i]
			for k := range p {
				a, b := p[k], p[(k+1)%len(p)]
				j, ok := owner[side{b, a}]
				if !ok || j == i {
					continue
				}
				m := joinAlong(p, parts[j], a, b)
				if m == nil {
					continue
				}
				delete(owner, side{a, b})
				delete(owner, side{b, a})
				for n := range m {
					owner[side{m[n], m[(n+1)%len(m)]}] = i
				}
				parts[i], parts[j] = m, nil
				again = true
				break
			}
		}
	}
	out := parts[:0]
	for _, p := range parts {
		if p != nil {
			out = append(out, p)
		}
	}
	return out
}

// joinAlong is p and q joined along the side from a to b of p, or nil if that is
// not convex.
func joinAlong(p, q []geom.Point, a, b geom.Point) []geom.Point {
	m := make([]geom.Point, 0, len(p)+len(q)-2)
	i := index(p, b)
	for k := range p { // b ... a
		m = append(m, p[(i+k)%len(p)])
	}
	j := index(q, a)
	for k := 1; k < len(q)-1; k++ { // after a, before b
		m = append(m, q[(j+k)%len(q)])
	}
	n := len(m)
	for k := range m {
		if orient2(m[(k+n-1)%n], m[k], m[(k+1)%n]) < 0 {
			return nil
		}
	}
	return m
}

func index(p []geom.Point, a geom.Point) int {
	for i := range p {
		if p[i] == a {
			return i
		}
	}
	return 0
}
