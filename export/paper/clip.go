package paper

import (
	"math"
	"sort"

	"blankwright/flat/geom"
)

// CopyWindow draws what lies within a window of another drawing, moved by shift.
// Lines, arcs and circles end at the window's border; texts and filled shapes
// are taken whole or not at all.
func (ls *Layers) CopyWindow(from *Layers, w Rect, shift geom.Point) {
	m := geom.Translate(shift.X, shift.Y)
	for id := range from {
		src, spec := &from[id], &specs[id]
		if spec.Pen.Fill != NoFill {
			ls.copyWhole(LayerID(id), src, w, m)
			continue
		}
		dst := &ls[id]
		for i := range src.Segs {
			dst.Segs = appendWithin(dst.Segs, &src.Segs[i], w, m)
		}
		for _, c := range src.Circles {
			r := Rect{c.C.X - c.R, c.C.Y - c.R, c.C.X + c.R, c.C.Y + c.R}
			switch {
			case w.Holds(r):
				dst.Circles = append(dst.Circles, c.Transform(m))
			case touches(&w, &r):
				for _, g := range geom.CircleLoop(c) {
					dst.Segs = appendWithin(dst.Segs, &g, w, m)
				}
			}
		}
		for i := range src.Texts {
			if t := src.Texts[i]; w.Holds(t.Box()) {
				t.At = t.At.Add(shift)
				dst.Texts = append(dst.Texts, t)
			}
		}
	}
}

// copyWhole takes filled shapes that lie in the window as a whole: circles, and
// runs of segments that come back to their start.
func (ls *Layers) copyWhole(id LayerID, src *Layer, w Rect, m geom.Motion) {
	dst := &ls[id]
	for _, c := range src.Circles {
		if w.Holds(Rect{c.C.X - c.R, c.C.Y - c.R, c.C.X + c.R, c.C.Y + c.R}) {
			dst.Circles = append(dst.Circles, c.Transform(m))
		}
	}
	for i := 0; i < len(src.Segs); {
		k, whole := i, true
		for {
			whole = whole && w.Has(src.Segs[k].A) && w.Has(src.Segs[k].B)
			if k++; k == len(src.Segs) || src.Segs[k-1].B == src.Segs[i].A {
				break
			}
		}
		for ; i < k; i++ {
			if whole {
				dst.Segs = append(dst.Segs, src.Segs[i].Transform(m))
			}
		}
	}
}

// appendWithin adds the pieces of a segment that lie within the window, moved.
func appendWithin(segs []geom.Seg, g *geom.Seg, w Rect, m geom.Motion) []geom.Seg {
	if w.Has(g.A) && w.Has(g.B) && !g.IsArc() {
		return append(segs, g.Transform(m))
	}
	if !g.IsArc() {
		t0, t1 := 0.0, 1.0
		v := g.B.Sub(g.A)
		if clip(-v.X, g.A.X-w.X0, &t0, &t1) && clip(v.X, w.X1-g.A.X, &t0, &t1) &&
			clip(-v.Y, g.A.Y-w.Y0, &t0, &t1) && clip(v.Y, w.Y1-g.A.Y, &t0, &t1) {
			a, b := g.A, g.B
			if t1 < 1 {
				b = a.Add(v.Mul(t1))
			}
			if t0 > 0 {
				a = a.Add(v.Mul(t0))
			}
			segs = append(segs, geom.Line(a, b).Transform(m))
		}
		return segs
	}
	b := g.Bounds()
	r := Rect{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y}
	switch {
	case w.Holds(r):
		return append(segs, g.Transform(m))
	case !touches(&w, &r):
		return segs
	}
	return appendArcWithin(segs, g, w, m)
}

// appendArcWithin cuts an arc where it meets the window's sides and adds the
// pieces that lie inside.
func appendArcWithin(segs []geom.Seg, g *geom.Seg, w Rect, m geom.Motion) []geom.Seg {
	c, sweep := g.Circle(), g.Sweep()
	from := math.Atan2(g.A.Y-c.C.Y, g.A.X-c.C.X)
	turns := []float64{0, math.Abs(sweep)}
	meet := func(angle float64) { // where on the arc a point of its circle lies
		t := math.Mod((angle-from)*math.Copysign(1, sweep)+4*math.Pi, 2*math.Pi)
		if t > 0 && t < math.Abs(sweep) {
			turns = append(turns, t)
		}
	}
	for _, x := range [2]float64{w.X0, w.X1} {
		if k := (x - c.C.X) / c.R; math.Abs(k) < 1 {
			meet(math.Acos(k))
			meet(-math.Acos(k))
		}
	}
	for _, y := range [2]float64{w.Y0, w.Y1} {
		if k := (y - c.C.Y) / c.R; math.Abs(k) < 1 {
			meet(math.Asin(k))
			meet(math.Pi - math.Asin(k))
		}
	}
	sort.Float64s(turns)
	on := func(t float64) geom.Point {
		switch t {
		case 0:
			return g.A
		case turns[len(turns)-1]:
			return g.B
		}
		return c.C.Polar(c.R, from+t*math.Copysign(1, sweep))
	}
	for i := 1; i < len(turns); i++ {
		a, b := turns[i-1], turns[i]
		if b-a > 0 && w.Has(c.C.Polar(c.R, from+(a+b)/2*math.Copysign(1, sweep))) {
			segs = append(segs, geom.Arc(c, on(a), on(b), sweep > 0).Transform(m))
		}
	}
	return segs
}
