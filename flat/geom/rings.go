package geom

import (
	"math"

	"blankwright/flat/num"
)

// spoke is a half-edge seen from the node it leaves.
type spoke struct {
	half int32   // 2*chain, or 2*chain+1 for the chain run backwards
	pc   int32   // its first piece
	end  int32   // node at the far end of that piece
	ang  float64 // diamond angle of its direction, 0..4 (beyond 4 after a rotation)
	len2 float64 // squared chord of the piece
	back bool    // leaves against the direction of the piece
	same bool    // runs along the spoke before it
}

// makeRings lists, round every contact node, the half-edges that leave it,
// counter-clockwise, and merges chains that coincide: of those only the
// representative stays in the ring.
func (a *arrangement) makeRings() {
	a.attachAll()
	a.ring, a.doubt = atLeast(a.ring, 2*len(a.chains)), a.doubt[:0]
	merged := false
	for _, v := range a.hotList {
		if a.sortRing(v) {
			merged = true
		}
	}
	if merged {
		a.mergeChains()
	}
}

// attachAll lists the half-edges at every contact node.
func (a *arrangement) attachAll() {
	n := len(a.pos)
	a.halfIn = resize(a.halfIn, n)
	for i := range a.halfIn {
		a.halfIn[i] = -1
	}
	a.halfNx = resize(a.halfNx, 2*len(a.chains))
	a.ringAt, a.ringLen = resize(a.ringAt, n), resize(a.ringLen, n)
	a.hotList = a.hotList[:0]
	for i := range a.chains {
		c := &a.chains[i]
		if c.n0 < 0 {
			continue
		}
		a.attach(c.n0, int32(2*i))
		a.attach(c.n1, int32(2*i+1))
	}
}

func (a *arrangement) attach(v, half int32) {
	if a.halfIn[v] < 0 {
		a.hotList = append(a.hotList, v)
	}
	a.halfNx[half] = a.halfIn[v]
	a.halfIn[v] = half
}

// sortRing appends the sorted ring of node v and reports whether any spokes in
// it coincide. In an offset only chains still in play are taken.
func (a *arrangement) sortRing(v int32) bool {
	a.ringAt[v], a.ringLen[v] = int32(len(a.ring)), 0
	t := a.ringTmp[:0]
	for h := a.halfIn[v]; h >= 0; h = a.halfNx[h] {
		if a.off.on && a.off.dead[h/2] {
			continue
		}
		s := a.makeSpoke(v, h)
		i := len(t)
		t = append(t, s)
		for ; i > 0 && (t[i-1].ang > s.ang || t[i-1].ang == s.ang && t[i-1].half > s.half); i-- {
			t[i] = t[i-1]
		}
		t[i] = s
	}
	a.ringTmp = t
	if len(t) == 0 {
		return false
	}
	a.ringLen[v] = int32(len(t))
	k := len(t)
	close := t[0].ang+4-t[k-1].ang < num.Parallel
	for i := 1; i < k && !close; i++ {
		close = t[i].ang-t[i-1].ang < num.Parallel
	}
	if !close {
		a.ring = append(a.ring, t...)
		return false
	}
	for i := range t {
		a.doubt = append(a.doubt, t[i].half/2)
	}
	// Cut the ring open where it gapes widest, so that near directions are
	// neighbours.
	cutAt, wide := 0, t[0].ang+4-t[k-1].ang
	for i := 1; i < k; i++ {
		if g := t[i].ang - t[i-1].ang; g > wide {
			cutAt, wide = i, g
		}
	}
	base := len(a.ring)
	for i := range t {
		s := t[(cutAt+i)%k]
		if cutAt+i >= k {
			s.ang += 4
		}
		a.ring = append(a.ring, s)
	}
	r := a.ring[base:]
	merged := false
	for i := 1; i < k; i++ {
		for j := i; j > 0 && r[j].ang-r[j-1].ang < num.Parallel; j-- {
			o := a.compare(v, &r[j-1], &r[j])
			if o == 0 {
				r[j].same, merged = true, true
			}
			if o <= 0 {
				break
			}
			r[j-1], r[j] = r[j], r[j-1]
			// A run of coincident spokes moves as one.
			if r[j].same {
				r[j].same = false
				r[j-1].same = false
				if j+1 < k {
					r[j+1].same = false
				}
			}
		}
	}
	if merged {
		for i := 1; i < k; i++ {
			r[i].same = r[i].ang-r[i-1].ang < num.Parallel && a.compare(v, &r[i-1], &r[i]) == 0
		}
	}
	return merged
}

func (a *arrangement) makeSpoke(v, half int32) spoke {
	c := &a.chains[half/2]
	s := spoke{half: half}
	if half&1 == 0 {
		s.pc = a.at(c, 0)
		s.end = a.pieces[s.pc].n1
	} else {
		s.pc = a.at(c, c.count-1)
		s.end = a.pieces[s.pc].n0
		s.back = true
	}
	p, q := a.pos[v], a.pos[s.end]
	dx, dy := q.X-p.X, q.Y-p.Y
	s.len2 = dx*dx + dy*dy
	e := &a.edges[a.pieces[s.pc].edge]
	if e.turn != 0 && (s.len2 > num.ShortEdge*num.ShortEdge || 16*s.len2 > e.r*e.r) {
		dx, dy = e.c.Y-p.Y, p.X-e.c.X
		if (e.turn > 0) == s.back {
			dx, dy = -dx, -dy
		}
	}
	s.ang = diamond(dx, dy)
	return s
}

// diamond is a measure of direction that grows with the angle: 0 to 4 for a
// full turn.
func diamond(dx, dy float64) float64 {
	t := dy / (math.Abs(dx) + math.Abs(dy))
	switch {
	case dx < 0:
		return 2 - t
	case dy < 0:
		return 4 + t
	}
	return t
}

// compare orders two spokes of node v that leave in nearly one direction: -1 if
// y lies counter-clockwise of x, 1 if clockwise, 0 if they coincide. Where
// they go decides: the shorter one's far end against the other's carrier, or
// its middle if both end at one node. The edges do not cross between nodes, so
// this is the order at the node as well.
func (a *arrangement) compare(v int32, x, y *spoke) int {
	if x.end == y.end {
		s, o, sign := x, y, -1
		if y.pc < x.pc {
			s, o, sign = y, x, 1
		}
		e := &a.edges[a.pieces[s.pc].edge]
		d := a.leftOf(v, o, e.midBetween(a.pos[v], a.pos[s.end]))
		switch {
		case math.Abs(d) <= num.Fuse*a.eps:
			return 0
		case d > 0:
			return -sign
		}
		return sign
	}
	if x.len2 <= y.len2 {
		if a.leftOf(v, y, a.pos[x.end]) > 0 {
			return 1
		}
		return -1
	}
	if a.leftOf(v, x, a.pos[y.end]) > 0 {
		return -1
	}
	return 1
}

// leftOf is how far p lies to the left of spoke s of node v, mm.
func (a *arrangement) leftOf(v int32, s *spoke, p Point) float64 {
	e := &a.edges[a.pieces[s.pc].edge]
	if e.turn == 0 {
		q, w := a.pos[v], a.pos[s.end]
		return ((w.X-q.X)*(p.Y-q.Y) - (w.Y-q.Y)*(p.X-q.X)) / math.Sqrt(s.len2)
	}
	d := e.side(p)
	if s.back {
		return -d
	}
	return d
}

// mergeChains gives all chains that coincide one representative, and takes the
// others out of the rings.
func (a *arrangement) mergeChains() {
	for _, v := range a.hotList {
		r := a.ring[a.ringAt[v] : a.ringAt[v]+a.ringLen[v]]
		for i := 1; i < len(r); i++ {
			if r[i].same {
				x, y := a.repOf(r[i-1].half/2), a.repOf(r[i].half/2)
				if x < y {
					a.chains[y].rep = x
				} else if y < x {
					a.chains[x].rep = y
				}
			}
		}
	}
	for i := range a.chains {
		c := &a.chains[i]
		if c.rep = a.repOf(int32(i)); c.rep != int32(i) && c.n0 != a.chains[c.rep].n0 {
			c.dir = -1
		}
	}
	for _, v := range a.hotList {
		at := a.ringAt[v]
		r := a.ring[at : at+a.ringLen[v]]
		k := int32(0)
		for i := range r {
			if h := r[i].half / 2; a.chains[h].rep == h {
				r[k] = r[i]
				k++
			}
		}
		a.ringLen[v] = k
	}
}

func (a *arrangement) repOf(c int32) int32 {
	for a.chains[c].rep != c {
		c = a.chains[c].rep
	}
	return c
}
