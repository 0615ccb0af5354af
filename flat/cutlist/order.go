// Package cutlist says in which order the table cuts a blank, where each cut
// begins, and how long it takes.
//
// Order: holes from small to large, equal ones on a short way; slots; cutouts;
// the outline last, while everything else still holds the plate. A cut begins
// where a pierce or its tail does least harm (common practice): a hole at the
// side that faces away from the nearest edge or opening, the outline at an end
// of a long straight edge far from the bolt holes. A mirrored blank is cut in
// the mirror image of the other hand's order, from the images of its starts.
//
// Unit: mm, rad.
package cutlist

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Kind is what is cut.
type Kind int8

// What is cut, in cutting order.
const (
	Hole Kind = iota
	Slot
	Cutout
	Outline
)

func (k Kind) String() string { return [...]string{"hole", "slot", "cutout", "outline"}[k] }

// Cut is one closed line with one pierce.
type Cut struct {
	Kind  Kind
	Name  string
	Index int       // in the blank's Holes or Cutouts; 0 for the outline
	Loop  geom.Loop // counter-clockwise; begins at Start but for a whole circle. Do not change it
	Start geom.Point
	// Round says that the cut is the whole circle Circle; Angle is then where on
	// it Start lies, from +x, in [0, 2π).
	Round  bool
	Circle geom.Circle
	Angle  float64
	// Room is how much of the waste there is for a lead-in at Start: half the way
	// across, at right angles to the edge. Infinite outside an outline that does
	// not come back.
	Room float64

	a, b float64 // size, by which cuts of a kind are sorted
	mid  geom.Point
	loop geom.Loop // of the part as drawn
	at   int       // the vertex of loop where it starts
}

// Order gives the cuts of b in their order. Its outline and openings have to be
// closed; b is not modified.
func Order(b *blank.Blank) []Cut {
	p := planner{b: b, mirrored: b.Hand == blank.Mirrored, cuts: make([]Cut, 0, len(b.Holes)+len(b.Cutouts)+1)}
	p.collect()
	p.look()
	for i := range p.cuts {
		p.start(i)
	}
	p.sort()
	if p.mirrored {
		for i := range p.cuts {
			p.cuts[i].turnOver()
		}
	}
	return p.cuts
}

// planner works on the part as drawn, whichever hand it is asked for.
type planner struct {
	b        *blank.Blank
	mirrored bool
	cuts     []Cut
	index    *geom.Index // nil where there are few segments
}

// fewSegs is how many segments are looked at one by one; more get an index.
const fewSegs = 64

// look makes an index of what is cut, where it is worth it.
func (p *planner) look() {
	n := 0
	for i := range p.cuts {
		n += len(p.cuts[i].loop)
	}
	if n <= fewSegs {
		return
	}
	loops := make([]geom.Loop, len(p.cuts))
	for i := range p.cuts {
		loops[i] = p.cuts[i].loop
	}
	p.index = geom.NewIndex(loops...)
}

// nearest is the place nearest to q on all that is cut but cut i; infinitely far
// where there is nothing else.
func (p *planner) nearest(q geom.Point, i int) geom.Near {
	best := geom.Near{D: math.Inf(1), P: q, Q: q}
	if p.index != nil {
		if h, ok := p.index.NearestPoint(q, func(k int) bool { return k != i }); ok {
			best = h.Near
		}
		return best
	}
	for k := range p.cuts {
		if k == i {
			continue
		}
		if n := geom.PointLoop(q, p.cuts[k].loop); n.D < best.D {
			best = n
		}
	}
	return best
}

func (p *planner) drawn(l geom.Loop) geom.Loop {
	if p.mirrored {
		return l.Transform(geom.MirrorY())
	}
	return l
}

func (p *planner) place(q geom.Point) geom.Point {
	if p.mirrored {
		q.X = 0 - q.X
	}
	return q
}

func slotted(h *blank.Hole) bool { return h.Length != 0 && !num.Same(h.Length, h.Dia) }

// collect lists what is cut, each with its loop as the blank has it and in the
// part as drawn.
func (p *planner) collect() {
	for i := range p.b.Holes {
		h := &p.b.Holes[i]
		if h.CutDia == 0 {
			continue
		}
		c := Cut{Kind: Slot, Name: h.Name, Index: i, Loop: h.AsCut(), a: h.CutDia, b: h.Length, mid: p.place(h.Centre)}
		if !slotted(h) {
			c.Kind, c.Round, c.b = Hole, true, 0
			c.Circle = geom.Circle{C: c.mid, R: h.CutDia / 2}
		}
		c.loop = p.drawn(c.Loop)
		p.cuts = append(p.cuts, c)
	}
	for i := range p.b.Cutouts {
		k := &p.b.Cutouts[i]
		c := Cut{Kind: Cutout, Name: k.Name, Index: i, Loop: k.Loop, loop: p.drawn(k.Loop)}
		c.a, c.mid = c.loop.Area(), c.loop.Bounds().Centre()
		c.Circle, c.Round = c.loop.Circle()
		p.cuts = append(p.cuts, c)
	}
	c := Cut{Kind: Outline, Name: "outline", Loop: p.b.Outline, loop: p.drawn(p.b.Outline)}
	c.Circle, c.Round = c.loop.Circle()
	p.cuts = append(p.cuts, c)
}

// turnOver carries a cut of the part as drawn to its mirror image.
func (c *Cut) turnOver() {
	c.Start.X = 0 - c.Start.X
	c.Circle.C.X = 0 - c.Circle.C.X
	if c.Round {
		c.Angle = turnOf(c.Start.Sub(c.Circle.C))
	}
}

// turnOf is a vector's direction in [0, 2π).
func turnOf(v geom.Point) float64 {
	a := math.Atan2(v.Y, v.X)
	if a < 0 {
		a += 2 * math.Pi
	}
	if a >= 2*math.Pi || a == 0 {
		return 0
	}
	return a
}

// sort puts the cuts in order.
func (p *planner) sort() {
	slices.SortStableFunc(p.cuts, func(x, y Cut) int {
		return cmp.Or(cmp.Compare(x.Kind, y.Kind), cmp.Compare(x.a, y.a), cmp.Compare(x.b, y.b))
	})
	at := p.cuts[len(p.cuts)-1].loop.Bounds().Min
	for i := 0; i < len(p.cuts); {
		j := i + 1
		for j < len(p.cuts) && p.cuts[i].equals(&p.cuts[j]) {
			j++
		}
		route(at, p.cuts[i:j])
		at = p.cuts[j-1].mid
		i = j
	}
}

func (c *Cut) equals(d *Cut) bool {
	return c.Kind == d.Kind && num.Same(c.a, d.a) && num.Same(c.b, d.b)
}

// mostByNearest is how many equal cuts are put in order by always going to the
// nearest; more are gone through in strips to and fro.
const mostByNearest = 400

// route puts equal cuts on a short way that begins near at.
func route(at geom.Point, cs []Cut) {
	if len(cs) > mostByNearest {
		strips(cs)
		return
	}
	for i := range cs {
		best, least := i, math.Inf(1)
		for j := i; j < len(cs); j++ {
			if d := at.Dist(cs[j].mid); d < least-num.Coincident {
				best, least = j, d
			}
		}
		c := cs[best]
		copy(cs[i+1:best+1], cs[i:best])
		cs[i] = c
		at = c.mid
	}
}

// strips goes through cuts in strips along x, to and fro, as many as make a
// square number of places.
func strips(cs []Cut) {
	var box geom.Box
	for i := range cs {
		box = box.Extend(cs[i].mid)
	}
	high := box.Height() / math.Ceil(math.Sqrt(float64(len(cs))))
	strip := func(c *Cut) int {
		if high == 0 {
			return 0
		}
		return int((c.mid.Y - box.Min.Y) / high)
	}
	slices.SortStableFunc(cs, func(c, d Cut) int {
		s, t := strip(&c), strip(&d)
		along := cmp.Compare(c.mid.X, d.mid.X)
		if s%2 == 1 {
			along = -along
		}
		return cmp.Or(cmp.Compare(s, t), along)
	})
}
