package drawing

import (
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// lap is a stretch over which two segments run alongside each other: from a0 to
// a1 of the first (shares of its length, growing) and from b0 to b1 of the
// second, which may run the other way.
type lap struct {
	a0, a1, b0, b1 float64
	off            float64 // the largest distance, mm
}

// share is how far along the segment p, a place on it, lies: 0 at A, 1 at B.
func share(s *geom.Seg, p geom.Point) float64 {
	if !s.IsArc() {
		d := s.B.Sub(s.A)
		return max(0, min(1, p.Sub(s.A).Dot(d)/d.Dot(d)))
	}
	c := s.Circle().C
	u, v := s.A.Sub(c), p.Sub(c)
	turn := math.Atan2(u.Cross(v), u.Dot(v))
	if s.Bulge < 0 {
		turn = -turn
	}
	if turn < -math.Pi/2 {
		turn += fullTurn // just past half a turn
	}
	return max(0, min(1, turn/abs(s.Sweep())))
}

// lapSamples is how many places of a stretch are measured between its ends.
const lapSamples = 7

// alongside finds the stretch over which two segments stay within
// num.NearDouble of each other, if it is at least num.LeastDouble long or all of
// both.
func alongside(s, t *geom.Seg) (lap, bool) {
	if steep(s, t) {
		return lap{}, false
	}
	var l lap
	n := 0
	note := func(on, off *geom.Seg, p geom.Point, swap bool) {
		near := geom.PointSeg(p, *off)
		if near.D > num.NearDouble {
			return
		}
		x, y := share(on, p), share(off, near.Q)
		if swap {
			x, y = y, x
		}
		if n == 0 || x < l.a0 {
			l.a0, l.b0 = x, y
		}
		if n == 0 || x > l.a1 {
			l.a1, l.b1 = x, y
		}
		l.off = max(l.off, near.D)
		n++
	}
	note(s, t, s.A, false)
	note(s, t, s.B, false)
	note(t, s, t.A, true)
	note(t, s, t.B, true)
	length := s.Length()
	if n < 2 || (l.a1-l.a0)*length < num.LeastDouble && !sameEnds(s, t) {
		return lap{}, false
	}
	for i := 1; i <= lapSamples; i++ {
		p := s.At(l.a0 + (l.a1-l.a0)*float64(i)/(lapSamples+1))
		d := geom.PointSeg(p, *t).D
		if d > num.NearDouble {
			return lap{}, false
		}
		l.off = max(l.off, d)
	}
	return l, true
}

// steep reports, quickly, that two straight lines meet at such an angle that
// they do not stay together for long.
func steep(s, t *geom.Seg) bool {
	if s.IsArc() || t.IsArc() {
		return false
	}
	d, e := s.B.Sub(s.A), t.B.Sub(t.A)
	c := d.Cross(e)
	return 4*c*c > d.Dot(d)*e.Dot(e)
}

// sameEnds reports whether two segments share both ends.
func sameEnds(s, t *geom.Seg) bool {
	return close2(s.A, t.A, num.Coincident) && close2(s.B, t.B, num.Coincident) ||
		close2(s.A, t.B, num.Coincident) && close2(s.B, t.A, num.Coincident)
}

// double is a stretch of the loser, from b0 to b1 of its length, that the keeper
// draws as well.
type double struct {
	loser, keeper int32
	b0, b1        float64
	off           float64
}

// better reports whether piece i is the one to keep of two that are drawn over
// each other: that of a closed shape, the longer one, the first one.
func (a *assembler) better(i, j int32) bool {
	if c, d := a.shapeOf(i).Closed, a.shapeOf(j).Closed; c != d {
		return c
	}
	if d := a.pieces[i].seg.Length() - a.pieces[j].seg.Length(); abs(d) > num.NearDouble {
		return d > 0
	}
	return i < j
}

// wear is what doubling does to a piece: stretches that another draws, and
// places where a line that it takes over ends.
type wear struct {
	covers []cover
	cuts   []cut
}

// cover is a stretch that another piece draws, and where that one ends.
type cover struct {
	t0, t1 float64
	p0, p1 geom.Point
}

type cut struct {
	t float64
	p geom.Point
}

func (a *assembler) wearOf(i int32) *wear {
	w := a.wear[i]
	if w == nil {
		w = &wear{}
		a.wear[i] = w
	}
	return w
}

// keepDouble notes that pieces i and j run alongside each other.
func (a *assembler) keepDouble(i, j int32, l lap) {
	if !a.better(i, j) {
		i, j = j, i
		l.a0, l.a1, l.b0, l.b1 = l.b0, l.b1, l.a0, l.a1
	}
	if l.b0 > l.b1 {
		l.a0, l.a1, l.b0, l.b1 = l.a1, l.a0, l.b1, l.b0
	}
	k, s := &a.pieces[i].seg, &a.pieces[j].seg
	length := s.Length()
	// What would be left of the loser beyond its ends is nothing.
	if l.b0*length <= num.NearDouble {
		l.b0 = 0
	}
	if (1-l.b1)*length <= num.NearDouble {
		l.b1 = 1
	}
	a.doubles = append(a.doubles, double{j, i, l.b0, l.b1, l.off})
	a.wearOf(j).covers = append(a.wearOf(j).covers, cover{l.b0, l.b1, keeperEnd(k, l.a0), keeperEnd(k, l.a1)})
	for n, t := range [2]float64{l.a0, l.a1} {
		end, other := s.A, l.b0 == 0
		if n == 1 {
			end, other = s.B, l.b1 == 1
		}
		kl := k.Length()
		if other && t*kl > num.NearDouble && (1-t)*kl > num.NearDouble {
			p := geom.PointSeg(end, *k).Q
			if close2(p, end, num.Coincident) {
				p = end
			}
			a.wearOf(i).cuts = append(a.wearOf(i).cuts, cut{t, p})
		}
	}
}

// keeperEnd is the place at a share of a segment, its very end where it is one.
func keeperEnd(s *geom.Seg, t float64) geom.Point {
	switch l := s.Length(); {
	case t*l <= num.NearDouble:
		return s.A
	case (1-t)*l <= num.NearDouble:
		return s.B
	}
	return s.At(t)
}

// split takes away the doubled stretches and cuts pieces where lines that they
// take over end.
func (a *assembler) split() {
	worn := make([]int32, 0, len(a.wear))
	for i := range a.wear {
		worn = append(worn, i)
	}
	slices.Sort(worn)
	for _, i := range worn {
		a.splitPiece(i, a.wear[i])
	}
}

func (a *assembler) splitPiece(i int32, w *wear) {
	old := a.pieces[i]
	a.pieces[i].gone = true
	slices.SortStableFunc(w.covers, func(c, d cover) int { return compare(c.t0, d.t0) })
	slices.SortStableFunc(w.cuts, func(c, d cut) int { return compare(c.t, d.t) })
	from := cut{0, old.seg.A}
	for _, c := range w.covers {
		if c.t0 > from.t {
			a.addParts(&old, from, cut{c.t0, c.p0}, w.cuts)
		}
		if c.t1 > from.t || c.t0 == 0 && from.t == 0 {
			from = cut{c.t1, c.p1}
		}
	}
	if from.t < 1 {
		a.addParts(&old, from, cut{1, old.seg.B}, w.cuts)
	}
}

func compare(x, y float64) int {
	switch {
	case x < y:
		return -1
	case x > y:
		return 1
	}
	return 0
}

// addParts adds what lies between two places of a piece, cut where lines end.
func (a *assembler) addParts(old *piece, from, to cut, cuts []cut) {
	length := old.seg.Length()
	far := func(s, t float64) bool { return (t-s)*length > num.NearDouble }
	for _, c := range cuts {
		if c.t > from.t && c.t < to.t && far(from.t, c.t) && far(c.t, to.t) {
			a.addPart(old, from, c)
			from = c
		}
	}
	if far(from.t, to.t) || from.t == 0 && to.t == 1 {
		a.addPart(old, from, to)
	}
}

func (a *assembler) addPart(old *piece, from, to cut) {
	p := *old
	p.seg = partOf(&old.seg, from, to)
	p.exact = [2]bool{old.exact[0] || from.t != 0, old.exact[1] || to.t != 1}
	if from.p != to.p {
		a.pieces = append(a.pieces, p)
	}
}

// partOf is the part of a segment between two places of it, moved to end in
// their points.
func partOf(s *geom.Seg, from, to cut) geom.Seg {
	if from.t == 0 && to.t == 1 {
		return withEnds(*s, from.p, to.p)
	}
	if !s.IsArc() {
		return geom.Line(from.p, to.p)
	}
	c := s.Circle()
	if offCircle(c, from.p) <= num.Coincident && offCircle(c, to.p) <= num.Coincident {
		return geom.Arc(c, from.p, to.p, s.Bulge > 0)
	}
	return arcOrLine(geom.BulgeSeg(from.p, to.p, math.Tan(s.Sweep()*(to.t-from.t)/4)))
}

// covered reports whether a place of piece i lies on a stretch that another
// piece draws.
func (a *assembler) covered(i int32, p geom.Point) bool {
	w := a.wear[i]
	if w == nil {
		return false
	}
	t := share(&a.pieces[i].seg, p)
	slack := num.NearDouble / a.pieces[i].seg.Length()
	for _, c := range w.covers {
		if t >= c.t0-slack && t <= c.t1+slack {
			return true
		}
	}
	return false
}
