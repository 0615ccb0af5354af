package paper

import (
	"math"
	"sort"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Ordinates are figures along the lower and the left edge of the part: how far
// each place to be punched lies from the left and from the lower extreme of the
// outline.

const (
	ordGap      = 2.2   // from the part to where the figures' lines may bend
	ordPitch    = 4.6   // between two figures
	ordJog      = 4.5   // along which a line bends to its figure
	ordTail     = 1.2   // straight piece before a figure
	ordMoved    = 14.0  // farthest that a figure stands from its place
	ordMost     = 16    // figures along an edge, unless most of them serve several holes
	ordSame     = 0.01  // places that differ less share a figure: none shows more
	wayMost     = 250.0 // of a centre-line from a hole to its figure
	ordClear    = 0.6   // between a centre-line and a label
	ordStraight = 0.2   // a line that goes aside by less is drawn straight
)

// tick is one figure.
type tick struct {
	at    float64 // distance from the datum edge
	stand float64 // and that of its figure
	words string
	first geom.Point // the punched place nearest to the figures
	hole  int        // its hole, or nobody of the datum itself and of bend lines
	bend  bool       // it is that of a bend line, and first its end
}

// ordinates are the figures of one edge.
type ordinates struct {
	ticks []tick
	long  float64 // of the longest figure
	jog   float64
	over  float64 // how far the last figure reaches beyond the part's far end
}

// room is what the figures take beside the part.
func (o *ordinates) room() float64 {
	if len(o.ticks) == 0 {
		return roomOther
	}
	return ordGap + o.jog + ordTail + textGap + o.long + 0.5
}

// punched are the places where a hole is punched: its centre, or the two ends
// of a slot that is long enough for two drills.
func punched(h *blank.Hole) (ps [2]geom.Point, n int) {
	sh := shapeOf(h, h.Dia)
	if 2*sh.half < shortSlot {
		return [2]geom.Point{h.Centre}, 1
	}
	return sh.ends(h.Centre), 2
}

// locate works out the figures for both edges, with those of bend lines where they
// are wanted and find room. It reports whether they locate
// every hole; where they do not, a table has to.
func (j *job) locate(lines bool) {
	figures := func(datum, length float64, up bool) (o ordinates, ok bool) {
		if bends := j.bendTicks(datum, up); lines && len(bends) > 0 {
			if o, ok = ordinatesOf(j.b.Holes, datum, length, up, j.sys, bends...); ok {
				return o, ok
			}
		}
		return ordinatesOf(j.b.Holes, datum, length, up, j.sys)
	}
	across, okX := figures(j.bounds.Min.X, j.bounds.Width(), false)
	up, okY := figures(j.bounds.Min.Y, j.bounds.Height(), true)
	j.across, j.up, j.located = across, up, okX && okY
	j.rooms = j.roomsFor(j.bounds.Width(), j.bounds.Height())
	if j.o.Wrap != nil {
		r := j.b.Outline.Bounds()
		j.rooms = j.roomsFor(r.Width(), r.Height())
		j.rooms.Y0, j.rooms.Y1 = wrapBelow, max(j.rooms.Y1, wrapAbove)
	}
}

// ordinatesOf gives no figures at all where they would stand too close.
func ordinatesOf(holes []blank.Hole, datum, length float64, up bool, sys unit.System, bends ...tick) (o ordinates, ok bool) {
	ts := withBends(ticksOf(holes, datum, up), bends)
	if len(ts) == 0 {
		return o, true
	}
	if len(ts) > max(ordMost, len(holes)/2) {
		return o, false
	}
	if ts[0].at >= ordSame {
		ts = append(ts, tick{hole: nobody})
		copy(ts[1:], ts)
		ts[0] = tick{hole: nobody}
	}
	for i := range ts {
		ts[i].words = ordinateWords(ts[i].at, sys)
		o.long = max(o.long, Width(ts[i].words, CalloutText))
	}
	apart := spreadOut(ts)
	if apart > ordMoved {
		return ordinates{}, false
	}
	if apart > ordStraight {
		o.jog = ordJog
	}
	o.ticks = ts
	o.over = max(0, ts[len(ts)-1].stand+ordPitch/2-length)
	return o, true
}

// ticksOf are the places of all holes along an axis, in order, each once.
func ticksOf(holes []blank.Hole, datum float64, up bool) []tick {
	all := make([]tick, 0, len(holes))
	for i := range holes {
		ps, n := punched(&holes[i])
		for _, p := range ps[:n] {
			t := tick{at: p.X - datum, first: p, hole: i}
			if up {
				t.at = p.Y - datum
			}
			all = append(all, t)
		}
	}
	sort.SliceStable(all, func(a, b int) bool { return all[a].at < all[b].at })
	n := 0
	for _, t := range all {
		if n > 0 && t.at-all[n-1].at < ordSame {
			if near, far := t.first.Y, all[n-1].first.Y; up {
				near, far = t.first.X, all[n-1].first.X
				if near < far {
					all[n-1].first, all[n-1].hole = t.first, t.hole
				}
			} else if near < far {
				all[n-1].first, all[n-1].hole = t.first, t.hole
			}
			continue
		}
		all[n] = t
		n++
	}
	return all[:n]
}

// ordinateWords is a figure: a fraction of an inch where it is one, else
// decimals, without its unit.
func ordinateWords(mm float64, sys unit.System) string {
	if sys != unit.Inch {
		return num.Short(mm+num.Coincident, 2)
	}
	if f, exact := unit.Fraction(mm); exact {
		return f
	}
	return num.Short(mm/unit.MM+num.Coincident, 3)
}

// spreadOut gives figures that stand too close places of their own, as near as
// can be to where they belong (least squares under an order: the pool adjacent
// violators of Ayer and others, An Empirical Distribution Function for Sampling
// with Incomplete Information, Annals of Mathematical Statistics 26, 1955,
// doi:10.1214/aoms/1177728423). It tells how far the farthest was moved. The
// first figure does not go beyond the part's end, where the other edge's stand.
func spreadOut(ts []tick) (moved float64) {
	type pool struct {
		sum float64
		n   int
	}
	pools := make([]pool, 0, len(ts))
	for i := range ts {
		p := pool{ts[i].at - float64(i)*ordPitch, 1}
		for k := len(pools) - 1; k >= 0 && pools[k].sum*float64(p.n) >= p.sum*float64(pools[k].n); k-- {
			p.sum, p.n = p.sum+pools[k].sum, p.n+pools[k].n
			pools = pools[:k]
		}
		pools = append(pools, p)
	}
	i := 0
	for _, p := range pools {
		for range p.n {
			ts[i].stand = max(0, p.sum/float64(p.n)) + float64(i)*ordPitch
			moved = max(moved, math.Abs(ts[i].stand-ts[i].at))
			i++
		}
	}
	return moved
}

// ordinates draws the figures of both edges, and the centre-lines from the holes
// to them: at once where lines is set, so that labels keep clear of them, else
// when lead is called, with gaps where labels are.
func (d *drawing) ordinates(j *job, lines bool) {
	e := extremesOf(d.outline)
	d.edgeFigures(&j.across, e.left.first, false)
	d.edgeFigures(&j.up, e.bottom.first, true)
	if lines {
		d.lead()
	}
}

// way is a centre-line that is still to be drawn: from a hole's middle in a
// direction, between two distances.
type way struct {
	p, u     geom.Point
	from, to float64
	hole     int
}

// lead draws the centre-lines that lead from holes to figures.
func (d *drawing) lead() {
	for _, w := range d.ways {
		d.wayClear(w)
	}
	d.ways = d.ways[:0]
}

// edgeFigures draws the figures below the part, or with up set those on its
// left. datum is the outline's extreme that they count from.
func (d *drawing) edgeFigures(o *ordinates, datum geom.Point, up bool) {
	if len(o.ticks) == 0 {
		return
	}
	// at is the place that lies so far along the edge, counted from the datum,
	// and so far out from the part.
	at := func(along, out float64) geom.Point {
		if up {
			return pt(d.part.X0-out, d.part.Y0+along)
		}
		return pt(d.part.X0+along, d.part.Y0-out)
	}
	outward := geom.Point{Y: -1}
	if up {
		outward = geom.Point{X: -1}
	}
	text := CalloutText
	for i := range o.ticks {
		t := &o.ticks[i]
		from := datum
		switch {
		case t.hole != nobody:
			from = d.toEdge(t, outward)
		case t.bend:
			from = t.first.Add(d.s.Offset)
		}
		bend := at(t.at, ordGap)
		d.extension(from.Add(outward.Mul(dimGap)), bend)
		end := at(t.at, ordGap+o.jog)
		if math.Abs(t.stand-t.at) > ordStraight {
			end = at(t.stand, ordGap+o.jog)
		}
		d.dimLine(bend, end)
		tail := end.Add(outward.Mul(ordTail))
		d.dimLine(end, tail)
		figure := Text{Anchor: End, Up: !up, Style: text, S: t.words}
		half := styles[text].Size * capHeight / 2
		if up {
			figure.At = pt(tail.X-textGap, tail.Y-half)
		} else {
			figure.At = pt(tail.X+half, tail.Y-textGap)
		}
		d.s.text(Figures, figure)
		d.f.addBox(figure.Box())
	}
}

// toEdge gives the place where the outline ends, outward from a hole, and notes
// the centre-line that leads there.
func (d *drawing) toEdge(t *tick, outward geom.Point) geom.Point {
	p := t.first.Add(d.s.Offset)
	far := p.Add(outward.Mul(p.Sub(pt(d.part.X0, d.part.Y0)).Dot(outward.Mul(-1)) + 1))
	edge := far.Sub(outward)
	if _, q, ok := geom.RayLoop(far, outward.Mul(-1), d.outline); ok {
		edge = q
	}
	h := &d.b.Holes[t.hole]
	w := way{p, outward, shapeOf(h, h.Dia).r + overshoot + 1, edge.Sub(p).Dot(outward) - dimGap, t.hole}
	if w.to-w.from >= overshoot {
		d.ways = append(d.ways, w)
	}
	return edge
}

// wayClear draws a centre-line as far as the first opening in its way, with gaps
// where labels are.
func (d *drawing) wayClear(w way) {
	w.to = min(w.to, wayMost)
	for i := range d.b.Holes {
		if i == w.hole { // its cross ends before the line starts
			continue
		}
		h := &d.b.Holes[i]
		sh := shapeOf(h, h.Dia)
		v := h.Centre.Add(d.s.Offset).Sub(w.p)
		off := sh.r + sh.half + overshoot + 1
		if along := v.Dot(w.u); math.Abs(v.Cross(w.u)) < off && along+off > w.from && along-off < w.to {
			w.to = along - off
		}
	}
	for i := range d.b.Cutouts {
		from := w.p.Add(w.u.Mul(w.from))
		if t, _, ok := geom.RayLoop(from, w.u, d.b.Cutouts[i].Loop.Transform(geom.Translate(d.s.Offset.X, d.s.Offset.Y))); ok {
			w.to = min(w.to, w.from+t-dimGap)
		}
	}
	gaps := d.gaps[:0]
	end := w.p.Add(w.u.Mul(w.to))
	if w.to-w.from < overshoot {
		return
	}
	r := Rect{min(w.p.X, end.X), min(w.p.Y, end.Y), max(w.p.X, end.X), max(w.p.Y, end.Y)}
	for _, i := range d.f.near(r) {
		b := d.f.boxes[i].Grow(ordClear)
		if d.f.things[i].kind == isBox && b.Crosses(w.p, end) {
			lo, hi := pt(b.X0, b.Y0).Sub(w.p).Dot(w.u), pt(b.X1, b.Y1).Sub(w.p).Dot(w.u)
			gaps = append(gaps, span{min(lo, hi), max(lo, hi)})
		}
	}
	d.gaps = gaps
	sort.Slice(gaps, func(a, b int) bool { return gaps[a].lo < gaps[b].lo })
	from := w.from
	for _, g := range append(gaps, span{w.to, w.to}) {
		if g.lo-from >= overshoot {
			d.centreLine(geom.Line(w.p.Add(w.u.Mul(from)), w.p.Add(w.u.Mul(min(g.lo, w.to)))))
		}
		from = max(from, g.hi)
	}
}
