package blank

import (
	"math"
	"slices"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// tabShape is a tab on its edge.
type tabShape struct {
	name, title string
	pos         diag.Pos
	root        geom.Point // middle of the root, on the edge
	out         geom.Point // unit vector away from the plate
	width       float64
	height      float64
	feet        [2]geom.Point // where its sides meet the edge: right and left, looking out
	back        float64       // how far into the plate the shape that is added reaches
	relief      *describe.Relief
	angled      bool
	note        string
}

// side is the unit vector along the root, to the left looking out.
func (t *tabShape) side() geom.Point { return t.out.Perp() }

// at is a place on the tab: along the root from its middle, and out from it.
func (t *tabShape) at(along, out float64) geom.Point {
	return t.root.Add(t.side().Mul(along)).Add(t.out.Mul(out))
}

// loop is the tab as it is added to the plate, counter-clockwise.
func (t *tabShape) loop() geom.Loop {
	w := t.width / 2
	return geom.Polygon(t.at(-w, -t.back), t.at(-w, t.height), t.at(w, t.height), t.at(w, -t.back))
}

// segs are the segments of an outline that lie on the tab's sides and its end.
func (t *tabShape) segs(l geom.Loop) []int {
	w := t.width / 2
	round := geom.Loop{
		geom.Line(t.feet[0], t.at(-w, t.height)),
		geom.Line(t.at(-w, t.height), t.at(w, t.height)),
		geom.Line(t.at(w, t.height), t.feet[1]),
	}
	var segs []int
	for i := range l {
		s := &l[i]
		if !s.IsArc() && num.Zero(geom.PointLoop(s.A, round).D) && num.Zero(geom.PointLoop(s.B, round).D) {
			segs = append(segs, i)
		}
	}
	if n := len(segs); n > 1 && segs[0] == 0 && segs[n-1] == len(l)-1 { // across the loop's start
		k := 1
		for segs[k] == segs[k-1]+1 {
			k++
		}
		segs = append(segs[k:], segs[:k]...)
	}
	return segs
}

// setTabs sets the tabs on the plate's edges and relieves the inside corners at
// their feet.
func (w *body) setTabs() bool {
	list := w.part.Tabs
	if len(list) == 0 {
		return true
	}
	before := len(w.problems)
	for i := range list {
		t, ok := w.tab(&list[i], i)
		if ok {
			w.tabs = append(w.tabs, t)
		}
	}
	w.clashes()
	if len(w.problems) > before {
		return false
	}
	shapes := make([]geom.Region, len(w.tabs))
	for i := range w.tabs {
		shapes[i].Outer = w.tabs[i].loop()
	}
	joined, err := geom.Union([]geom.Region{w.region}, shapes)
	if err != nil || len(joined) != 1 || len(joined[0].Holes) != len(w.region.Holes) {
		if err == nil {
			err = errTabs
		}
		w.cannot(w.tabs[0].pos, "the tabs cannot be set on the plate", err)
		return false
	}
	return w.settle(joined[0]) && w.relieve()
}

// settle takes over the plate with its tabs.
func (w *body) settle(r geom.Region) bool {
	r, err := tidy(r)
	if err != nil {
		w.cannot(w.tabs[0].pos, "the tabs make an outline that touches itself", err)
		return false
	}
	w.region = r
	return true
}

type plainError string

func (e plainError) Error() string { return string(e) }

const errTabs = plainError("the plate with its tabs is not one piece, or they close an opening in")

// tab works out where a tab stands.
func (w *body) tab(d *describe.Tab, i int) (t tabShape, ok bool) {
	t = tabShape{name: w.nameOf(d.Name, "tab", i), pos: d.Pos, relief: &d.Relief, angled: d.Angle.Set}
	t.title = "tab " + quoted(t.name)
	at, ok := w.point(d.At, "the root of the tab", d.Pos)
	var okWidth, okHeight bool
	t.width, okWidth = w.size(d.Width, "the width of the tab", d.Pos)
	into, from := w.thickness, ", as thick as this plate"
	t.height, okHeight = into, into > 0
	switch {
	case d.Height.Set:
		t.height, okHeight = w.size(d.Height, "the height of the tab", d.Pos)
		from = ""
	case d.Into.Set:
		t.height, okHeight = w.size(d.Into, "the thickness of the plate that the tab goes into", d.Pos)
		from = ", as thick as the plate it goes into"
	}
	if !ok || !okWidth || !okHeight {
		return t, false
	}
	t.note = t.title + ": " + w.text(t.width) + " wide, " + w.text(t.height) + " high" + from
	t.back = w.thickness / 2
	if !w.stand(&t, d, at) || !w.reachDown(&t, d) {
		return t, false
	}
	return t, w.backed(&t)
}

// stand finds the edge that the tab stands on, and the direction it points in.
func (w *body) stand(t *tabShape, d *describe.Tab, at geom.Point) bool {
	pos := d.At.Pos
	if pos.Line == 0 {
		pos = d.Pos
	}
	best, seg := geom.Near{D: math.Inf(1)}, -1
	for i := range w.region.Outer {
		s := &w.region.Outer[i]
		if s.IsArc() && !d.Angle.Set {
			continue
		}
		if n := geom.PointSeg(at, *s); n.D < best.D {
			best, seg = n, i
		}
	}
	switch {
	case seg < 0:
		w.problems.AddHint(pos, "give the direction that it points in: angle", "%s has no straight edge to stand on", t.title)
		return false
	case best.D > num.OnEdge:
		w.problems.AddHint(pos, "write at: ["+w.text(best.Q.X)+", "+w.text(best.Q.Y)+"]",
			"the root of %s lies %s from the nearest edge that it could stand on", t.title, w.text(best.D))
		return false
	}
	t.root = best.Q
	normal := outwardAt(w.region.Outer[seg], best.Q)
	if !d.Angle.Set {
		t.out = normal
		return true
	}
	a, ok := w.angle(d.Angle, "the angle of the tab", d.Pos)
	if !ok {
		return false
	}
	t.out = direction(a)
	if t.out.Dot(normal) < 1.0/2 {
		out := math.Atan2(normal.Y, normal.X)
		w.problems.AddHint(anglePos(d.Angle, d.Pos), "straight out from the edge is "+degrees(out),
			"%s points %s, more than 60 deg away from straight out of its edge", t.title, degrees(a))
		return false
	}
	return true
}

// outwardAt is the unit vector away from the plate at a place on a segment of its
// outline.
func outwardAt(s geom.Seg, p geom.Point) geom.Point {
	if !s.IsArc() {
		return s.DirA().Perp().Mul(-1)
	}
	d := p.Sub(s.Circle().C)
	return d.Mul(math.Copysign(1/d.Len(), s.Bulge))
}

// reachDown finds where the sides of the tab meet the plate. They may not meet it
// before they come to the root.
func (w *body) reachDown(t *tabShape, d *describe.Tab) bool {
	outer := w.region.Outer
	half := t.width / 2
	end := geom.Loop{geom.Line(t.at(-half, t.height), t.at(half, t.height))}
	if n := geom.LoopLoop(end, outer); num.Zero(n.D) {
		w.problems.AddHint(t.pos, "make it shorter or move it", "%s runs into the plate at %s", t.title, w.whereText(n.P))
		return false
	}
	deepest := 0.0
	for i, along := range [2]float64{-half, half} {
		tip := t.at(along, t.height)
		far, foot, ok := geom.RayLoop(tip, t.out.Mul(-1), outer)
		deep := far - t.height
		switch {
		case outer.Contains(tip) != geom.Outside || ok && deep < -num.OnEdge && !t.angled:
			w.problems.AddHint(t.pos, "make it shorter or move it", "%s runs into the plate at %s", t.title, w.whereText(foot))
			return false
		case !ok || deep > num.OnEdge && !t.angled || deep > t.width:
			w.problems.AddHint(t.pos, "make it narrower, or move it along the edge",
				"the root of %s, %s wide, runs past the end of its edge at %s", t.title, w.text(t.width), w.whereText(t.at(along, 0)))
			return false
		}
		t.feet[i] = foot
		deepest = max(deepest, deep)
	}
	t.back += deepest
	return true
}

// backed asks for metal behind the root as deep as the shape that is added
// reaches: else that would come out on another side, or fill an opening.
func (w *body) backed(t *tabShape) bool {
	half := t.width/2 - num.OnEdge // a tab may stand at the very end of its edge
	under := t.side().Mul(num.OnEdge).Sub(t.out.Mul(num.OnEdge))
	right, left := t.feet[0].Add(under), t.feet[1].Add(under.Sub(t.side().Mul(2*num.OnEdge)))
	l := geom.Loop{
		geom.Line(right, t.at(-half, -t.back)),
		geom.Line(t.at(-half, -t.back), t.at(half, -t.back)),
		geom.Line(t.at(half, -t.back), left),
	}
	n := geom.LoopLoop(l, w.region.Outer)
	for _, h := range w.region.Holes {
		if d := geom.LoopLoop(l, h); d.D < n.D {
			n = d
		}
		if t.loop().Contains(h[0].A) != geom.Outside {
			n = geom.Near{P: h[0].A}
		}
	}
	for i := range w.inside {
		h := w.inside[i].region.Outer
		if d := geom.LoopLoop(l, h); d.D < n.D {
			n = d
		}
		if t.loop().Contains(h[0].A) != geom.Outside {
			n = geom.Near{P: h[0].A}
		}
	}
	if num.Zero(n.D) || w.region.Contains(t.at(0, -t.back)) != geom.Inside {
		w.problems.AddHint(t.pos, "leave more metal behind it", "%s has less than half the plate's thickness of metal behind its root, at %s",
			t.title, w.whereText(n.P))
		return false
	}
	return true
}

// clashes tells of tabs that run into each other.
func (w *body) clashes() {
	for i := range w.tabs {
		t := &w.tabs[i]
		for j := range i {
			o := &w.tabs[j]
			if d := t.root.Dist(o.root); d > t.width+t.height+t.back+o.width+o.height+o.back {
				continue
			}
			a, b := t.loop(), o.loop()
			if num.Zero(geom.LoopLoop(a, b).D) || a.Contains(b[0].A) == geom.Inside || b.Contains(a[0].A) == geom.Inside {
				w.problems.AddHint(t.pos, "move them apart, or make one of them of both", "%s runs into %s", t.title, o.title)
			}
		}
	}
}

// relieve takes the bites out of the inside corners at the tabs' feet. Where a tab
// stands at the end of its edge there is no inside corner on that side.
func (w *body) relieve() bool {
	var bites []geom.Region
	before := len(w.problems)
	for i := range w.tabs {
		t := &w.tabs[i]
		for _, foot := range t.feet {
			c, room, ok := corner(w.region.Outer, foot, t.out)
			if !ok {
				continue
			}
			if w.isFoot(c.p.Add(c.off.Mul(room[1]))) { // shared with the next tab
				room[1] /= 2
			}
			bite, ok := w.bite(t, c, room)
			if !ok {
				break // the other corner asks for the same
			}
			if bite != nil {
				bites = append(bites, geom.Region{Outer: bite})
			}
		}
	}
	if len(w.problems) > before {
		return false
	}
	if len(bites) == 0 {
		return true
	}
	left, err := geom.Difference([]geom.Region{w.region}, bites)
	if err == nil && (len(left) != 1 || len(left[0].Holes) != len(w.region.Holes)) {
		err = plainError("they cut the plate apart or run into an opening")
	}
	if err != nil {
		w.cannot(w.tabs[0].pos, "the reliefs of the tabs cannot be made", err)
		return false
	}
	return w.settle(left[0])
}

// isFoot reports whether a tab's side meets the plate at a place.
func (w *body) isFoot(p geom.Point) bool {
	return slices.ContainsFunc(w.tabs, func(t tabShape) bool {
		return num.Zero(t.feet[0].Dist(p)) || num.Zero(t.feet[1].Dist(p))
	})
}

// footCorner is an inside corner at a tab's foot: up along the tab's side, off
// along the edge away from it.
type footCorner struct{ p, up, off geom.Point }

// corner finds the inside corner of an outline at a place, between the side of a
// tab that points out and the edge beside it. room is how long those two are.
func corner(l geom.Loop, at, out geom.Point) (c footCorner, room [2]float64, ok bool) {
	i := slices.IndexFunc(l, func(s geom.Seg) bool { return num.Zero(s.A.Dist(at)) })
	if i < 0 {
		return c, room, false
	}
	in, next := l[(i+len(l)-1)%len(l)], l[i]
	a, b := in.DirB(), next.DirA()
	if a.Cross(b) >= -num.Angular { // straight on, or an outside corner
		return c, room, false
	}
	c.p = l[i].A
	if b.Dot(out) > -a.Dot(out) { // up the tab's side
		c.up, c.off = b, a.Mul(-1)
		return c, [2]float64{next.Length(), in.Length()}, true
	}
	c.up, c.off = a.Mul(-1), b
	return c, [2]float64{in.Length(), next.Length()}, true
}

// bite is the disc that relieves a corner; nil where none is asked for.
func (w *body) bite(t *tabShape, c footCorner, room [2]float64) (geom.Loop, bool) {
	d := *t.relief
	if d.Kind.Pos.Line == 0 {
		d.Kind.Pos = t.pos
	}
	halving := c.up.Add(c.off)
	cosHalf := halving.Len() / 2 // of half the angle between the sides
	r, ok := w.relief(&d, t.title, func(k reliefKind) float64 {
		if k == notch {
			return room[1] / 2
		}
		return min(room[0], room[1]) / (2 * cosHalf)
	})
	switch {
	case !ok:
		return nil, false
	case r.kind == noRelief:
		return nil, true
	case r.kind == notch && !num.SameAngle(c.up.Dot(c.off), 0):
		w.problems.AddHint(d.Kind.Pos, "write relief: dog-bone, or leave angle out", "%s is not square to its edge, and a notch needs that", t.title)
		return nil, false
	case r.kind == notch:
		return geom.CircleLoop(geom.Circle{C: c.p.Add(c.off.Mul(r.radius)), R: r.radius}), true
	}
	return geom.CircleLoop(geom.Circle{C: c.p.Add(halving.Mul(r.radius / halving.Len())), R: r.radius}), true
}
