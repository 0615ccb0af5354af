package cutlist

import (
	"math"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// start chooses where a cut begins, and measures the room there.
func (p *planner) start(i int) {
	c := &p.cuts[i]
	switch {
	case c.Round && c.Kind == Outline:
		c.from(p.discStart(c.Circle))
		c.Room = math.Inf(1)
		return
	case c.Round:
		c.from(p.roundStart(c.Circle, i))
		c.Room = c.Circle.R
		return
	case c.Kind == Outline:
		c.begin(p.outlineStart(c.loop), p.mirrored)
	default:
		c.begin(farthest(c.loop, all(len(c.loop)), func(q geom.Point) float64 { return p.nearest(q, i).D }), p.mirrored)
	}
	c.Room = room(c)
}

const (
	// roomy is how many times the web at the nearest edge the web at the start has
	// to be, to be taken as it is.
	roomy = 2
	// eighths are the turns that are tried where it is less.
	eighths = 8
	// mostTurned is for how many cuts they are tried: more are a drawing of a grid,
	// where every start has an edge before it.
	mostTurned = 4096
)

// roundStart is the direction in which a circle begins, seen from its centre:
// away from the nearest edge; where that leads to another edge about as near, as
// across a narrow strip, the one of eight that has most metal before it.
func (p *planner) roundStart(c geom.Circle, i int) geom.Point {
	near := p.nearest(c.C, i)
	away := c.C.Sub(near.Q)
	if n := away.Len(); n > 0 {
		away = away.Mul(c.R / n)
	}
	web := func(v geom.Point) float64 { return p.nearest(c.C.Add(v), i).D }
	most := web(away)
	if away == (geom.Point{}) || len(p.cuts) > mostTurned || num.AtLeast(most, roomy*(near.D-c.R)) {
		return away
	}
	best := away
	for k := 1; k < eighths; k++ {
		v := geom.Rotate(float64(k) * 2 * math.Pi / eighths).Dir(away)
		if w := web(v); w > most && !num.Same(w, most) {
			best, most = v, w
		}
	}
	return best
}

// from puts the start of a circle where v points from its centre.
func (c *Cut) from(v geom.Point) {
	n := v.Len()
	if n == 0 {
		v, n = geom.Point{X: 1}, 1
	}
	c.Start = c.Circle.C.Add(v.Mul(c.Circle.R / n))
	c.Angle = turnOf(v)
}

// begin makes vertex at of the part as drawn the first: of the blank's own loop,
// which for a mirrored one runs through the images the other way.
func (c *Cut) begin(at int, mirrored bool) {
	c.at, c.Start = at, c.loop[at].A
	if n := len(c.loop); mirrored {
		at = (n - at) % n
	}
	if at == 0 {
		return
	}
	l := make(geom.Loop, 0, len(c.Loop))
	c.Loop = append(append(l, c.Loop[at:]...), c.Loop[:at]...)
}

func all(n int) []int {
	v := make([]int, n)
	for i := range v {
		v[i] = i
	}
	return v
}

// farthest is the vertex, of those named, that is farthest away by a measure; of
// equal ones the lowest, then the one farthest left.
func farthest(l geom.Loop, vertices []int, away func(geom.Point) float64) int {
	best, most := vertices[0], math.Inf(-1)
	for _, v := range vertices {
		d := away(l[v].A)
		if d > most && !num.Same(d, most) || (d == most || num.Same(d, most)) && lower(l[v].A, l[best].A) {
			best, most = v, d
		}
	}
	return best
}

func lower(p, q geom.Point) bool {
	if num.Same(p.Y, q.Y) {
		return p.X < q.X && !num.Same(p.X, q.X)
	}
	return p.Y < q.Y
}

// longEnough is the part of the longest straight edge that another must have to
// be as good to start on.
const longEnough = 0.5

// outlineStart is the end of a long straight free edge that is farthest from
// the bolt holes; of an outline without one, the farthest of all vertices. Metal
// that is bent is left alone where there is another place.
func (p *planner) outlineStart(l geom.Loop) int {
	taken := p.purposeful(len(l))
	longest := 0.0
	for i, s := range l {
		if !s.IsArc() && !taken[i] {
			longest = max(longest, s.Length())
		}
	}
	ends := make([]int, 0, 2*len(l))
	for i, s := range l {
		if longest > 0 && !s.IsArc() && !taken[i] && num.AtLeast(s.Length(), longEnough*longest) {
			ends = append(ends, i, (i+1)%len(l))
		}
	}
	if len(ends) == 0 {
		ends = all(len(l))
	}
	slices.Sort(ends)
	ends = p.offBends(l, slices.Compact(ends))
	return farthest(l, ends, p.toBolts(len(ends)))
}

// offBends leaves out the vertices on metal that is bent, where a notch of the
// pierce would open; all of them stay where there are no others.
func (p *planner) offBends(l geom.Loop, vertices []int) []int {
	if p.b.Formed == nil {
		return vertices
	}
	bends := p.b.Formed.Flat.Bends
	var off []int
	for _, v := range vertices {
		q := p.place(l[v].A)
		if !slices.ContainsFunc(bends, func(d fold.Bend) bool { return d.Zone.Contains(q) != geom.Outside }) {
			off = append(off, v)
		}
	}
	if len(off) == 0 {
		return vertices
	}
	return off
}

// purposeful tells which segments of the outline, as drawn, meet a tube or
// another plate.
func (p *planner) purposeful(n int) []bool {
	taken := make([]bool, n)
	for i := range p.b.Edges {
		for _, k := range p.b.Edges[i].Segs {
			if p.mirrored {
				k = n - 1 - k
			}
			if k >= 0 && k < n {
				taken[k] = true
			}
		}
	}
	return taken
}

// mostLooks is how many pairs of a place and a hole are looked at one by one; more
// get an index.
const mostLooks = 1 << 18

// toBolts measures how far a place is from the nearest hole that carries load;
// where there is none, from the nearest of all holes. It is to be asked of so many
// places.
func (p *planner) toBolts(places int) func(geom.Point) float64 {
	loaded := func(h *blank.Hole) bool { return h.Purpose == blank.BoltHole || h.Purpose == blank.Bore }
	var some bool
	for i := range p.b.Holes {
		some = some || loaded(&p.b.Holes[i])
	}
	counts := func(h *blank.Hole) bool { return !some || loaded(h) }
	if places*len(p.b.Holes) > mostLooks {
		var loops []geom.Loop
		for i := range p.b.Holes {
			if h := &p.b.Holes[i]; counts(h) {
				loops = append(loops, p.drawn(h.Finished()))
			}
		}
		return away(geom.NewIndex(loops...))
	}
	return func(q geom.Point) float64 {
		least := math.Inf(1)
		for i := range p.b.Holes {
			h := &p.b.Holes[i]
			switch {
			case !counts(h):
			case slotted(h):
				least = min(least, geom.PointLoop(p.place(q), h.Finished()).D)
			default:
				least = min(least, math.Abs(q.Dist(p.place(h.Centre))-h.Dia/2))
			}
		}
		return least
	}
}

// away measures how far a place is from the nearest loop of an index.
func away(x *geom.Index) func(geom.Point) float64 {
	return func(q geom.Point) float64 {
		if h, ok := x.NearestPoint(q, nil); ok {
			return h.D
		}
		return math.Inf(1)
	}
}

// discStart is the direction on a round outline that lies in the widest gap
// between the directions of its holes.
func (p *planner) discStart(c geom.Circle) geom.Point {
	var turns []float64
	for i := range p.b.Holes {
		if v := p.place(p.b.Holes[i].Centre).Sub(c.C); !num.Zero(v.Len()) {
			turns = append(turns, turnOf(v))
		}
	}
	if len(turns) == 0 {
		return geom.Point{X: 1}
	}
	slices.Sort(turns)
	at, widest := 0.0, -1.0
	for i, t := range turns {
		next := turns[0] + 2*math.Pi
		if i+1 < len(turns) {
			next = turns[i+1]
		}
		if w := next - t; w > widest && !num.SameAngle(w, widest) {
			at, widest = t+w/2, w
		}
	}
	return geom.Point{}.Polar(1, at)
}

// room looks from the start across the waste: in an opening to its other side,
// outside an outline to where that comes back.
func room(c *Cut) float64 {
	if c.Kind == Slot {
		return c.a / 2
	}
	n := len(c.loop)
	u := c.loop[(c.at+n-1)%n].DirB().Add(c.loop[c.at].DirA()).Perp() // to the left: inwards
	if u.Len() <= num.NearDouble {
		return 0 // the edge turns back on itself
	}
	u = u.Mul(1 / u.Len())
	if c.Kind == Outline {
		u = u.Mul(-1)
	}
	// Off the edge itself, by what no table resolves.
	t, _, ok := geom.RayLoop(c.Start.Add(u.Mul(num.NearDouble)), u, c.loop)
	if !ok {
		return math.Inf(1)
	}
	return (t + num.NearDouble) / 2
}
