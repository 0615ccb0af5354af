package layout

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"sync/atomic"

	"blankwright/flat/num"
)

// spot is where an item lies: its orient and the lower left corner of its box.
type spot struct {
	orient int
	x, y   float64
}

type box struct{ x0, y0, x1, y1 float64 }

// nowhere is the box of an item that does not lie yet: it meets no other.
var nowhere = box{math.Inf(1), math.Inf(1), math.Inf(1), math.Inf(1)}

// lane is one line of search: a layout that may overlap, and what is needed to
// mend it.
type lane struct {
	m      *model
	rng    *rand.Rand
	bins   []bin // may be smaller than the model's
	spots  []spot
	boxes  []box     // of the items, then of the fixed blocks
	on     []int     // orient of each item and block
	weight []float64 // by item, of all pairs; nil while all are 1
	ones   []float64
	size   []float64 // by item and block: what a depth in it counts
	n, all int       // items, items and blocks
	picks  []pick
	hits   []hit
	jumps  []spot
	order  []int
	pairs  []overlap

	finder *finder // nil where there are few items
	found  []int32
}

// pick is a spot and what lies in the way there.
type pick struct {
	spot
	f float64
}

// hit is one item in the way: how deep, the way out, and its weight.
type hit struct {
	j         int
	d, nx, ny float64
	w         float64
}

type overlap struct {
	i, j int
	d    float64
}

// sizeShare is the power of its area that a depth in an item counts: overlaps of
// large items are the harder ones to undo. It was chosen by trial on strips.
const sizeShare = 0.325

func newLane(m *model, seed uint64, stream int) *lane {
	l := &lane{m: m, rng: rand.New(rand.NewPCG(seed, uint64(stream))), n: len(m.items), all: len(m.items) + len(m.fixed)}
	l.bins = append(l.bins, m.bins...)
	l.spots = make([]spot, l.n)
	l.boxes = make([]box, l.all)
	l.on = make([]int, l.all)
	l.ones = make([]float64, l.all)
	l.size = make([]float64, l.all)
	mean := 0.0
	for _, k := range m.items {
		mean += m.kinds[k].outer / float64(l.n)
	}
	for j := range l.size {
		l.size[j] = 1
		if j < l.n {
			l.size[j] = math.Pow(m.kinds[m.items[j]].outer/mean, sizeShare)
		}
	}
	for j := range l.ones {
		l.ones[j] = 1
	}
	for k, b := range m.fixed {
		o := &m.orients[b.orient]
		l.boxes[l.n+k] = box{b.x, b.y, b.x + o.w, b.y + o.h}
		l.on[l.n+k] = b.orient
	}
	return l
}

func (l *lane) put(i int, s spot) {
	o := &l.m.orients[s.orient]
	l.spots[i] = s
	l.on[i] = s.orient
	l.boxes[i] = box{s.x, s.y, s.x + o.w, s.y + o.h}
	if l.finder != nil {
		l.finder.put(i, l.boxes[i])
	}
}

func (l *lane) take(spots []spot) {
	for i, s := range spots {
		l.put(i, s)
	}
}

func (l *lane) saved() []spot { return append([]spot(nil), l.spots...) }

func (l *lane) calm() {
	if l.weight == nil {
		l.weight = make([]float64, l.n*l.all)
	}
	for i := range l.weight {
		l.weight[i] = 1
	}
}

func (l *lane) row(i int) []float64 {
	if l.weight == nil {
		return l.ones
	}
	return l.weight[i*l.all : (i+1)*l.all]
}

// cost is the weighted sum of the depths of item i at a spot in all others; it
// gives up once it is over bound.
func (l *lane) cost(i int, s spot, bound float64) float64 {
	o := &l.m.orients[s.orient]
	n := len(l.m.orients)
	e := costing{l: l, x: s.x, y: s.y, orient: s.orient, row: l.row(i), fields: l.m.fields[s.orient*n : (s.orient+1)*n]}
	size := l.size[i]
	e.bound = bound / size
	a := box{s.x, s.y, s.x + o.w, s.y + o.h}
	if l.finder == nil {
		for _, j := range l.near(i, a) {
			if e.add(int(j)) {
				return math.Max(e.sum*size, bound)
			}
		}
		return e.sum * size
	}
	x0, x1, y0, y1 := l.finder.reach(a)
	for w := range x0 {
		m := x0[w] & x1[w] & y0[w] & y1[w]
		if w == i>>6 {
			m &^= 1 << (i & 63)
		}
		for ; m != 0; m &= m - 1 {
			if e.add(w<<6 + bits.TrailingZeros64(m)) {
				return math.Max(e.sum*size, bound)
			}
		}
	}
	return e.sum * size
}

// costing adds up the depths of an orient at (x, y).
type costing struct {
	l          *lane
	x, y       float64
	orient     int
	row        []float64
	fields     []atomic.Pointer[pairField]
	sum, bound float64
}

// add adds the depth in item j, and reports whether the sum is over the bound.
func (e *costing) add(j int) bool {
	on := e.l.on[j]
	f := e.fields[on].Load()
	if f == nil {
		f = e.l.m.pair(e.orient, on)
	}
	b := &e.l.boxes[j]
	d := f.how(b.x0-e.x, b.y0-e.y)
	if d == 0 {
		return false
	}
	e.sum += d * e.row[j] * e.l.size[j]
	return e.sum >= e.bound
}

// find is cost, with all that lies in the way left in l.hits.
func (l *lane) find(i int, s spot) float64 {
	o := &l.m.orients[s.orient]
	row := l.row(i)
	l.hits = l.hits[:0]
	sum := 0.0
	for _, j := range l.near(i, box{s.x, s.y, s.x + o.w, s.y + o.h}) {
		b := &l.boxes[j]
		if d, nx, ny := l.m.pair(l.on[j], s.orient).deep(s.x-b.x0, s.y-b.y0); d > 0 {
			w := row[j] * l.size[i] * l.size[j]
			sum += d * w
			l.hits = append(l.hits, hit{int(j), d, nx, ny, w})
		}
	}
	return sum
}

// limits are the places that an orient may have in a bin.
func (l *lane) limits(b *bin, orient int) (x0, y0, x1, y1 float64, ok bool) {
	o := &l.m.orients[orient]
	x0, y0 = b.x0-o.trim.x0, b.y0-o.trim.y0
	x1, y1 = b.x1-o.w+o.trim.x1, b.y1-o.h+o.trim.y1
	// What fits to a rounding fits.
	if x1 < x0 && num.Same(x0, x1) {
		x1 = x0
	}
	if y1 < y0 && num.Same(y0, y1) {
		y1 = y0
	}
	return x0, y0, x1, y1, x1 >= x0 && y1 >= y0
}

// binAt is the bin that a spot lies in, the nearest one along x.
func (l *lane) binAt(s spot) int {
	best, at := math.Inf(1), 0
	for k := range l.m.bins {
		b := &l.m.bins[k]
		if d := math.Max(math.Max(b.x0-s.x, s.x-b.x1), 0); d < best {
			best, at = d, k
		}
	}
	return at
}

// clamped is the spot moved into its bin; ok is false if it does not fit.
func (l *lane) clamped(b *bin, s spot) (spot, bool) {
	x0, y0, x1, y1, ok := l.limits(b, s.orient)
	s.x = math.Min(math.Max(s.x, x0), x1)
	s.y = math.Min(math.Max(s.y, y0), y1)
	return s, ok
}
