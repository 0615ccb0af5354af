package fold

import (
	"math"

	"blankwright/flat/geom"
)

// depth is how deep a place lies in a panel or a bend of the folded part, mm:
// negative outside. It is worked out from the true shapes, bends as parts of
// hollow cylinders, and from nothing that collide.go or view.go use.
func depth(g *Folded, body int, v Vec) float64 {
	f := g.Flat
	if body < len(f.Panels) {
		p := g.places[body]
		d := v.Sub(p.o)
		q := geom.Point{X: d.Dot(p.x), Y: d.Dot(p.y)}
		r := geom.Region{Outer: f.Panels[body].Region.Outer, Holes: append([]geom.Loop{}, f.Panels[body].Region.Holes...)}
		for _, h := range f.Holes {
			if h.Panel == body {
				r.Holes = append(r.Holes, h.Loop)
			}
		}
		return min(f.T/2-math.Abs(d.Dot(p.n)), inRegion(r, q))
	}
	w := &g.bends[body-len(f.Panels)]
	d := v.Sub(w.axis)
	x, a, b := d.Dot(w.along), d.Dot(w.out), -d.Dot(w.in)
	turn, r := math.Atan2(a, b), math.Hypot(a, b)
	if turn < 0 {
		turn += 2 * math.Pi
	}
	if turn > w.angle {
		return -math.Min(turn-w.angle, 2*math.Pi-turn) * r
	}
	q := w.root.Add(w.rootDir.Mul(x)).Add(w.outDir.Mul(turn / w.angle * w.allow))
	return min(w.t/2-math.Abs(r-w.r-w.t/2), inRegion(f.Bends[body-len(f.Panels)].Zone, q), turn*r, (w.angle-turn)*r)
}

// inRegion is the distance from the boundary, negative outside.
func inRegion(r geom.Region, q geom.Point) float64 {
	d := geom.PointLoop(q, r.Outer).D
	for _, h := range r.Holes {
		d = min(d, geom.PointLoop(q, h).D)
	}
	if r.Contains(q) == geom.Inside {
		return d
	}
	return -d
}

// somewhere is a random place in a body.
func somewhere(c chance, g *Folded, body int) (Vec, bool) {
	f := g.Flat
	var r geom.Region
	if body < len(f.Panels) {
		r = f.Panels[body].Region
	} else {
		r = f.Bends[body-len(f.Panels)].Zone
	}
	box := r.Bounds()
	for range 50 {
		q := geom.Point{X: c.between(box.Min.X, box.Max.X), Y: c.between(box.Min.Y, box.Max.Y)}
		if r.Contains(q) != geom.Inside {
			continue
		}
		if body < len(f.Panels) {
			return g.places[body].at(q, c.between(-f.T/2, f.T/2)), true
		}
		w := &g.bends[body-len(f.Panels)]
		v := q.Sub(w.root)
		return w.round(v.Dot(w.rootDir), v.Dot(w.outDir)/w.allow*w.angle, w.r+c.between(0, w.t)), true
	}
	return Vec{}, false
}
