package fold

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// face is a flat piece of a surface in the picture: its outline, counted even
// and odd, and how near it is: at + x·slope.
type face struct {
	loops [][]geom.Point
	slope geom.Point
	at    float64
	near  float64 // of its nearest place
	box   rect
}

// face adds a face whose points are placed in space by a function that keeps it
// flat. A face seen along its own plane covers nothing.
func (d *drawing) face(loops [][]geom.Point, place func(geom.Point) Vec) {
	f := face{loops: make([][]geom.Point, len(loops)), near: math.Inf(-1), box: noRect}
	var outer []Vec
	for i, l := range loops {
		f.loops[i] = make([]geom.Point, len(l))
		for k, q := range l {
			v := place(q)
			if i == 0 {
				outer = append(outer, v)
			}
			t := d.dot(v)
			f.loops[i][k] = t.Point
			f.near = max(f.near, t.near)
			f.box.extend(t.Point)
		}
	}
	d.add(f, outer)
}

func (d *drawing) quad(a, b, c, e Vec) {
	f := face{loops: make([][]geom.Point, 1), near: math.Inf(-1), box: noRect}
	outer := []Vec{a, b, c, e}
	f.loops[0] = make([]geom.Point, 4)
	for i, v := range outer {
		t := d.dot(v)
		f.loops[0][i] = t.Point
		f.near = max(f.near, t.near)
		f.box.extend(t.Point)
	}
	d.add(f, outer)
}

// add finds how near a face is from its area vector (M. E. Newell's normal).
func (d *drawing) add(f face, outer []Vec) {
	var n Vec
	for i, v := range outer {
		w := outer[(i+1)%len(outer)]
		n = n.Add(v.Sub(outer[0]).Cross(w.Sub(outer[0])))
	}
	l := n.Len()
	if l == 0 {
		return
	}
	n = n.Mul(1 / l)
	facing := n.Dot(d.cam.eye)
	if math.Abs(facing) <= num.ViewEdgeOn {
		return
	}
	f.slope = geom.Point{X: -n.Dot(d.cam.right) / facing, Y: -n.Dot(d.cam.up) / facing}
	f.at = outer[0].Dot(d.cam.eye) - f.slope.Dot(f.loops[0][0])
	d.faces = append(d.faces, f)
}

// nearness is how near the face is to the eye at a point of the picture.
func (f *face) nearness(p geom.Point) float64 { return f.at + f.slope.Dot(p) }

// holds reports whether the face covers a point of the picture.
func (f *face) holds(p geom.Point) bool {
	in := false
	for _, l := range f.loops {
		q := l[len(l)-1]
		for _, r := range l {
			if (r.Y > p.Y) != (q.Y > p.Y) && p.X < (q.X-r.X)*(p.Y-r.Y)/(q.Y-r.Y)+r.X {
				in = !in
			}
			q = r
		}
	}
	return in
}

// part is a straight piece of the finished picture, with its place among the
// lines so that neighbours can be joined again.
type part struct {
	a, b        geom.Point
	line        Line
	stretch, no int
}

// strokes parts all lines into seen and covered and joins what belongs together.
func (d *drawing) strokes() []Stroke {
	var seen, seams, covered []part
	whole := noRect
	for i := range d.lines {
		for _, t := range d.lines[i].dots {
			whole.extend(t.Point)
		}
	}
	d.index = newColumns(whole)
	for i := range d.faces {
		d.index.add(d.faces[i].box)
	}
	for i := range d.lines {
		s := &d.lines[i]
		no := 0
		for k := 1; k < len(s.dots); k++ {
			d.parts = d.split(d.parts[:0], s.dots[k-1], s.dots[k])
			for _, p := range d.parts {
				p.stretch, p.no = i, no
				no++
				switch {
				case p.line != Hidden && s.line == Seam:
					p.line = Seam
					seams = append(seams, p)
				case p.line != Hidden:
					seen = append(seen, p)
				case !s.bare:
					covered = append(covered, p)
				}
			}
		}
	}
	return joinParts(dropDoubles(append(append(seen, seams...), covered...), whole))
}

// split parts a line where faces begin and end over it.
func (d *drawing) split(out []part, p, q dot) []part {
	run := q.Point.Sub(p.Point)
	l := run.Len()
	if l <= num.ViewSame {
		return out
	}
	box := rectOf(p.Point, q.Point, num.SideStep)
	least := min(p.near, q.near) + num.InFront
	d.found = d.index.find(d.found[:0], &box)
	d.over = d.over[:0]
	ts := append(d.ts[:0], 0, 1)
	for _, i := range d.found {
		if f := &d.faces[i]; f.near > least {
			d.over = append(d.over, f)
			ts = f.crossings(ts, p, q, run)
		}
	}
	d.ts = ts
	slices.Sort(ts)
	side := run.Perp().Mul(num.SideStep / l)
	for i := 1; i < len(ts); i++ {
		a, b := ts[i-1], ts[i]
		if (b-a)*l <= num.ViewSame/8 {
			if i+1 < len(ts) {
				ts[i] = a // too short to be seen: let the next one have it
			} else if n := len(out); n > 0 {
				out[n-1].b = q.Point
			}
			continue
		}
		t := (a + b) / 2
		mid := p.Point.Add(run.Mul(t))
		near := p.near + (q.near-p.near)*t + num.InFront
		line := Full
		if coveredAt(d.over, mid.Add(side), near) && coveredAt(d.over, mid.Sub(side), near) {
			line = Hidden
		}
		from, to := p.Point.Add(run.Mul(a)), p.Point.Add(run.Mul(b))
		if n := len(out); n > 0 && out[n-1].line == line {
			out[n-1].b = to
		} else {
			out = append(out, part{a: from, b: to, line: line})
		}
	}
	return out
}

// crossings appends the shares of the way from p to q at which the face's
// outline crosses it, or the face comes in front.
func (f *face) crossings(ts []float64, p, q dot, run geom.Point) []float64 {
	for _, l := range f.loops {
		c := l[len(l)-1]
		hc := run.Cross(c.Sub(p.Point))
		for _, e := range l {
			he := run.Cross(e.Sub(p.Point))
			if (hc > 0) != (he > 0) {
				x := c.Add(e.Sub(c).Mul(hc / (hc - he)))
				if t := x.Sub(p.Point).Dot(run) / run.Dot(run); t > 0 && t < 1 {
					ts = append(ts, t)
				}
			}
			c, hc = e, he
		}
	}
	a, b := f.nearness(p.Point)-p.near-num.InFront, f.nearness(q.Point)-q.near-num.InFront
	if (a > 0) != (b > 0) {
		ts = append(ts, a/(a-b))
	}
	return ts
}

func coveredAt(over []*face, p geom.Point, near float64) bool {
	for _, f := range over {
		if f.near > near && f.nearness(p) > near && f.box.holds(p) && f.holds(p) {
			return true
		}
	}
	return false
}

// dropDoubles takes out what an earlier part draws already.
func dropDoubles(all []part, whole rect) []part {
	var out []part
	index := newColumns(whole)
	var found []int32
	var taken []span
	for _, p := range all {
		run := p.b.Sub(p.a)
		l := run.Len()
		if l <= num.ViewSame {
			continue
		}
		run = run.Mul(1 / l)
		box := rectOf(p.a, p.b, num.ViewSame)
		found = index.find(found[:0], &box)
		taken = taken[:0]
		for _, i := range found {
			u, v := out[i].a.Sub(p.a), out[i].b.Sub(p.a)
			if math.Abs(run.Cross(u)) > num.ViewSame || math.Abs(run.Cross(v)) > num.ViewSame {
				continue
			}
			a, b := run.Dot(u), run.Dot(v)
			if a, b = max(0, min(a, b)), min(l, max(a, b)); b-a > num.ViewSame {
				taken = append(taken, span{a, b})
			}
		}
		slices.SortFunc(taken, func(a, b span) int { return cmp.Compare(a.from, b.from) })
		from := 0.0
		for _, t := range append(taken, span{l, l}) {
			if t.from-from > num.ViewSame {
				left := p
				left.a, left.b = p.a.Add(run.Mul(from)), p.a.Add(run.Mul(t.from))
				out = append(out, left)
				index.add(rectOf(left.a, left.b, num.ViewSame))
			}
			from = max(from, t.to)
		}
	}
	return out
}

// joinParts makes strokes of parts that follow each other on one line.
func joinParts(all []part) []Stroke {
	var out []Stroke
	for i, p := range all {
		if i > 0 {
			q := &all[i-1]
			last := &out[len(out)-1]
			if q.stretch == p.stretch && q.line == p.line && q.b.Dist(p.a) <= num.ViewSame {
				last.Points = append(last.Points, p.b)
				continue
			}
		}
		out = append(out, Stroke{p.line, []geom.Point{p.a, p.b}})
	}
	return out
}
