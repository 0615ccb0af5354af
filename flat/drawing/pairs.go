package drawing

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// What a search for neighbours may cost: for each line this many neighbours, and
// some for small drawings. Sound drawings have two to six.
const (
	hitsEach   = 10
	hitsSome   = 1_000_000
	boxesEach  = 2000
	boxesSome  = 20_000_000
	mostMeets  = 100_000 // meetings that are kept
	mostInNode = 64      // ends in one place that are sorted out
)

func newBudget(n int) budget {
	return budget{boxes: boxesSome + boxesEach*n, hits: hitsSome + hitsEach*n}
}

// dropCopies takes away lines that are drawn again with the very same numbers,
// in either direction.
func (a *assembler) dropCopies() {
	size := 4
	for size < 2*len(a.pieces) {
		size *= 2
	}
	table := make([]int32, size)
	for i := range table {
		table[i] = -1
	}
	for i := range a.pieces {
		p, q, bulge := canonical(&a.pieces[i].seg)
		h := hash4(p, q, bulge)
		for k := h & uint64(size-1); ; k = (k + 1) & uint64(size-1) {
			j := table[k]
			if j < 0 {
				table[k] = int32(i)
				break
			}
			p2, q2, bulge2 := canonical(&a.pieces[j].seg)
			if p == p2 && q == q2 && bulge == bulge2 {
				loser, keeper := int32(i), j
				if a.better(loser, keeper) {
					loser, keeper = keeper, loser
					table[k] = keeper
				}
				a.pieces[loser].gone = true
				a.doubles = append(a.doubles, double{loser: loser, keeper: keeper, b0: 0, b1: 1})
				break
			}
		}
	}
}

// canonical is the segment the same way round whichever way it is drawn.
func canonical(s *geom.Seg) (p, q geom.Point, bulge float64) {
	if s.A.X < s.B.X || s.A.X == s.B.X && s.A.Y < s.B.Y {
		return s.A, s.B, s.Bulge
	}
	return s.B, s.A, -s.Bulge + 0
}

func hash4(p, q geom.Point, bulge float64) uint64 {
	const prime = 0x9E3779B97F4A7C15
	h := uint64(0)
	for _, v := range [5]float64{p.X, p.Y, q.X, q.Y, bulge} {
		h = (h ^ math.Float64bits(v+0)) * prime
		h ^= h >> 29
	}
	return h
}

// lookAtPairs finds lines that run alongside each other and lines that meet
// elsewhere than at their ends.
func (a *assembler) lookAtPairs() {
	a.wear = map[int32]*wear{}
	n := len(a.pieces)
	a.search = newBudget(n)
	const grow = num.NearDouble / 2
	t := newBoxTree(n, func(i int) (rect, bool) { return rectOf(&a.pieces[i].seg, grow), !a.pieces[i].gone })
	for k, i := range t.ids {
		if a.search.spent() {
			break
		}
		t.find(&t.levels[0][k], &a.search, func(j int32) {
			if j > i {
				a.lookAtPair(i, j)
			}
		})
	}
	if a.search.spent() {
		a.out.tangled = true
	}
}

func (a *assembler) lookAtPair(i, j int32) {
	s, t := &a.pieces[i].seg, &a.pieces[j].seg
	if l, ok := alongside(s, t); ok {
		a.keepDouble(i, j, l)
		if len(a.doubles) > len(a.pieces)+mostMeets {
			a.search.hits = -1
		}
		return
	}
	a.meet(i, j)
}

// contact is a place where two pieces meet that are not joined there.
type contact struct {
	i, j int32
	p    geom.Point
	kind Kind // Crossing or Touching
}

func (a *assembler) keepContact(i, j int32, p geom.Point, k Kind) {
	a.contact = append(a.contact, contact{i, j, p, k})
	if len(a.contact) >= mostMeets {
		a.search.hits = -1 // no drawing fit to be cut has as many
	}
}

func close2(p, q geom.Point, d float64) bool {
	x, y := p.X-q.X, p.Y-q.Y
	return x*x+y*y <= d*d
}

func atEnd(s *geom.Seg, p geom.Point, d float64) bool { return close2(s.A, p, d) || close2(s.B, p, d) }

// meet looks for meetings of two pieces that do not run alongside each other.
func (a *assembler) meet(i, j int32) {
	s, t := &a.pieces[i].seg, &a.pieces[j].seg
	if atEnd(s, t.A, num.Coincident) || atEnd(s, t.B, num.Coincident) {
		if s.IsArc() || t.IsArc() {
			a.meetAgain(i, j)
		}
		return
	}
	if !mayMeet(s, t) {
		return
	}
	near := geom.SegSeg(*s, *t)
	if near.D > num.Coincident {
		return
	}
	m := geom.Intersect(*s, *t)
	for _, p := range m.Points {
		a.judge(i, j, p)
	}
	for _, o := range m.Overlaps {
		a.keepContact(i, j, o.Mid(), Touching)
	}
	if m.Empty() {
		a.keepContact(i, j, near.P, Touching)
	}
}

// mayMeet is a quick test for two straight lines: whether neither lies wholly on
// one side of the other.
func mayMeet(s, t *geom.Seg) bool {
	if s.IsArc() || t.IsArc() {
		return true
	}
	return !apartFrom(s, t) && !apartFrom(t, s)
}

func apartFrom(s, t *geom.Seg) bool {
	d := s.B.Sub(s.A)
	u, v := d.Cross(t.A.Sub(s.A)), d.Cross(t.B.Sub(s.A))
	slack := num.Coincident * (abs(d.X) + abs(d.Y))
	return u > slack && v > slack || u < -slack && v < -slack
}

// judge tells what a meeting of two pieces is.
func (a *assembler) judge(i, j int32, p geom.Point) {
	s, t := &a.pieces[i].seg, &a.pieces[j].seg
	if atEnd(s, p, a.tol) && atEnd(t, p, a.tol) {
		return // two ends that overshoot each other: a gap like another
	}
	kind := Crossing
	if a.endsAt(i, p) || a.endsAt(j, p) ||
		abs(direction(s, p).Cross(direction(t, p))) <= num.Tangent {
		kind = Touching
	}
	a.keepContact(i, j, p, kind)
}

// endsAt reports whether a piece ends at p; a whole circle has no ends, though it is
// kept in two halves.
func (a *assembler) endsAt(i int32, p geom.Point) bool {
	return atEnd(&a.pieces[i].seg, p, num.Coincident) && !a.shapeOf(i).whole()
}

// direction is the direction of the segment at a place on it.
func direction(s *geom.Seg, p geom.Point) geom.Point {
	if !s.IsArc() {
		return unit2(s.B.Sub(s.A))
	}
	return unit2(p.Sub(s.Circle().C).Perp())
}

// meetAgain looks for a second meeting of two pieces that share an end, one of
// which is an arc.
func (a *assembler) meetAgain(i, j int32) {
	s, t := &a.pieces[i].seg, &a.pieces[j].seg
	for _, p := range geom.Intersect(*s, *t).Points {
		v, ok := sharedEnd(s, t, p)
		if !ok {
			continue
		}
		// Where they stay together all the way from the joint, as at a tangent
		// one, it is the joint itself.
		if geom.PointSeg(between(s, p, v).Mid(), *t).D <= num.Coincident {
			continue
		}
		a.judge(i, j, p)
	}
}

// sharedEnd is an end that both share; ok is false where p is one itself.
func sharedEnd(s, t *geom.Seg, p geom.Point) (v geom.Point, ok bool) {
	for _, e := range [2]geom.Point{s.A, s.B} {
		if !atEnd(t, e, num.Coincident) {
			continue
		}
		if close2(e, p, 2*num.Coincident) {
			return e, false
		}
		v, ok = e, true
	}
	return v, ok
}

// between is the part of a segment, or of its line or circle, from p to q.
func between(s *geom.Seg, p, q geom.Point) geom.Seg {
	if !s.IsArc() {
		return geom.Line(p, q)
	}
	c := s.Circle()
	return geom.Arc(c, p, q, p.Sub(c.C).Cross(q.Sub(c.C)) > 0)
}
