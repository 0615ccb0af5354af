package drawing

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/num"
)

// gap is a pair of loose ends: d mm apart.
type gap struct {
	e, f int32
	d    float64
}

// looseEnds knows, of the ends that are joined to nothing, where the line that
// begins there ends (-1 for other ends) and how long it is.
type looseEnds struct {
	far []int32
	len []float64
}

// gapNeighbours is how many loose ends near another are thought of at a time.
const gapNeighbours = 6

// joinGaps joins loose ends within the tolerance, the nearest first, those of
// one layer before others. Then it finds gaps that are wider.
func (a *assembler) joinGaps() {
	a.measureLoose()
	for range 4 {
		if !a.joinRound() {
			break
		}
	}
	a.findWideGaps()
}

// measureLoose finds the loose ends and their lines.
func (a *assembler) measureLoose() {
	n := len(a.mate)
	a.loose = looseEnds{make([]int32, n), make([]float64, n)}
	const tied, unknown = -1, -2
	far := a.loose.far
	for e := range far {
		far[e] = tied
		if a.mate[e] < 0 && !a.pieces[e>>1].gone {
			far[e] = unknown
		}
	}
	for _, k := range a.knots {
		for _, e := range k {
			far[e] = tied
		}
	}
	for e := range int32(n) {
		if far[e] != unknown {
			continue
		}
		l, f := a.measure(e)
		if far[f] == unknown {
			far[f], a.loose.len[f] = e, l
		}
		far[e], a.loose.len[e] = f, l
	}
}

// measure walks from a loose end to the other end of its line.
func (a *assembler) measure(e int32) (length float64, far int32) {
	for {
		length += a.pieces[e>>1].seg.Length()
		f := e ^ 1
		m := a.mate[f]
		if m < 0 {
			return length, f
		}
		e = m
	}
}

// list gives the loose ends in the order of their pieces.
func (l *looseEnds) list() []int32 {
	var es []int32
	for e, f := range l.far {
		if f >= 0 {
			es = append(es, int32(e))
		}
	}
	return es
}

func (a *assembler) joinRound() bool {
	ends := a.loose.list()
	if len(ends) < 2 {
		return false
	}
	tree := newKDTree(slices.Clone(ends), a.at)
	var found []gap
	var buf [gapNeighbours]neighbour
	for _, e := range ends {
		near := tree.nearest(a.at(e), a.tol, gapNeighbours, buf[:0], func(f int32) bool { return f != e })
		for _, n := range near {
			if g := (gap{e, n.id, math.Sqrt(n.d2)}); (e < n.id || len(near) == gapNeighbours) && a.mayClose(g) {
				found = append(found, g)
			}
		}
	}
	a.sortGaps(found)
	joined := false
	for _, g := range found {
		if a.mate[g.e] < 0 && a.mate[g.f] < 0 && a.mayClose(g) {
			a.closeGap(g)
			joined = true
		}
	}
	return joined
}

func (a *assembler) sortGaps(gs []gap) {
	layers := func(g gap) int {
		if a.layerOf(g.e>>1) == a.layerOf(g.f>>1) {
			return 0
		}
		return 1
	}
	slices.SortFunc(gs, func(g, h gap) int {
		return cmp.Or(layers(g)-layers(h), compare(g.d, h.d), cmp.Compare(g.e, h.e), cmp.Compare(g.f, h.f))
	})
}

// mayClose reports whether a gap within the tolerance may be closed: a line
// closes on itself only where it is long against the gap.
func (a *assembler) mayClose(g gap) bool {
	return a.loose.far[g.e] != g.f || a.loose.len[g.e] >= num.OwnGap*g.d
}

// closeGap joins two loose ends.
func (a *assembler) closeGap(g gap) {
	a.join(g.e, g.f)
	a.gaps = append(a.gaps, g)
	l := &a.loose
	x, y, length := l.far[g.e], l.far[g.f], l.len[g.e]+l.len[g.f]
	l.far[g.e], l.far[g.f] = -1, -1
	if x == g.f {
		return // closed on itself
	}
	if l.far[x] >= 0 {
		l.far[x], l.len[x] = y, length
	}
	if l.far[y] >= 0 {
		l.far[y], l.len[y] = x, length
	}
}

// findWideGaps pairs loose ends that are each other's nearest and not so far
// apart that the lines have nothing to do with each other: of one layer first.
func (a *assembler) findWideGaps() {
	byLayer := map[int][]int32{}
	var layers []int
	for _, e := range a.loose.list() {
		l := a.layerOf(e >> 1)
		if byLayer[l] == nil {
			layers = append(layers, l)
		}
		byLayer[l] = append(byLayer[l], e)
	}
	for _, l := range layers {
		a.pairNearest(byLayer[l])
	}
	if len(layers) > 1 {
		a.pairNearest(a.loose.list())
	}
}

// pairNearest notes the wide gaps among ends.
func (a *assembler) pairNearest(ends []int32) {
	if len(ends) < 2 {
		return
	}
	tree := newKDTree(slices.Clone(ends), a.at)
	best := map[int32]gap{}
	var buf [2]neighbour
	for _, e := range ends {
		fits := func(f int32) bool {
			return f != e && (a.loose.far[e] != f || a.at(e).Dist(a.at(f)) <= num.GapShare*a.loose.len[e])
		}
		reach := num.GapShare * a.loose.len[e]
		if near := tree.nearest(a.at(e), reach, 1, buf[:0], fits); len(near) > 0 {
			best[e] = gap{e, near[0].id, math.Sqrt(near[0].d2)}
		}
	}
	for _, e := range ends {
		g, ok := best[e]
		if h, back := best[g.f]; ok && back && h.f == e && e < g.f {
			a.apart = append(a.apart, g)
			a.loose.far[g.e], a.loose.far[g.f] = -1, -1
		}
	}
}
