package layout

import (
	"cmp"
	"math"
	"slices"
)

// shrink makes one bin shorter along one axis, step by step: a strip, or the
// used part of the last sheet.
type shrink struct {
	m   *model
	bin int
	up  bool // along y, else along x
}

const (
	firstStep   = 0.02  // share of the length taken off at first
	leastStep   = 0.001 // and about what is taken off later
	exploring   = 0.75  // share of the search before it only compresses
	stepSpread  = 5.0   // how many times smaller or larger the least steps are drawn
	hasty       = 15    // passes without progress, in large steps
	patience    = 100   // passes without progress
	rounds      = 3
	fromPool    = 0.3 // share of tries that begin at a failed layout
	poolSize    = 20
	disturbed   = 0.6 // share of tries that begin with a disturbance
	bigStep     = 0.0005
	smallStep   = 0.00001
	stale       = 20    // tries that fail before a lane begins again
	leastKick   = 0.004 // share of the length given back then, least
	mostKick    = 0.03  // and most
	kickStep    = 0.008 // first share taken off after that
	kickedItems = 12    // one disturbance more for as many items, at most
	swapShare   = 0.75  // of the area: what the larger items make up
)

func (s *shrink) from() float64 {
	if s.up {
		return s.m.bins[s.bin].y0
	}
	return s.m.bins[s.bin].x0
}

// used is how far the items in the bin reach.
func (s *shrink) used(l *lane) float64 {
	reach := s.from()
	for i := range l.n {
		if b := &l.boxes[i]; l.binAt(l.spots[i]) == s.bin {
			if s.up {
				reach = math.Max(reach, b.y1-l.m.orients[l.on[i]].trim.y1)
			} else {
				reach = math.Max(reach, b.x1-l.m.orients[l.on[i]].trim.x1)
			}
		}
	}
	return reach
}

// squeeze brings the layout to a shorter bin: what lies beyond a cut moves back.
// It is false if an item fits nowhere then.
func (s *shrink) squeeze(l *lane, spots []spot, from, to float64) bool {
	l.take(spots)
	b := &l.bins[s.bin]
	if s.up {
		b.y1 = to
	} else {
		b.x1 = to
	}
	start := s.from()
	cut := start + l.rng.Float64()*(from-start)
	for i := range l.n {
		t := l.spots[i]
		if l.binAt(t) != s.bin {
			continue
		}
		if s.up && t.y > cut {
			t.y -= from - to
		} else if !s.up && t.x > cut {
			t.x -= from - to
		}
		if !l.settle(i, t) {
			return false
		}
	}
	return true
}

// settle puts an item into the bin nearest to a spot, in another orient or
// another bin where it does not fit; false if it fits nowhere.
func (l *lane) settle(i int, s spot) bool {
	if t, ok := l.clamped(&l.bins[l.binAt(s)], s); ok {
		l.put(i, t)
		return true
	}
	os := l.m.kinds[l.m.items[i]].orients
	at := l.binAt(s)
	for k := range l.bins {
		b := &l.bins[(at+k)%len(l.bins)]
		for _, o := range os {
			t := s
			t.orient = o
			if t, ok := l.clamped(b, t); ok {
				l.put(i, t)
				return true
			}
		}
	}
	return false
}

// disturb moves some items far: it swaps two larger ones, swaps two of about one
// size, or throws some anywhere.
func (l *lane) disturb() {
	area := func(i int) float64 { return l.m.kinds[l.m.items[i]].area }
	big := make([]int, l.n)
	sum := 0.0
	for i := range big {
		big[i] = i
		sum += area(i)
	}
	slices.SortStableFunc(big, func(a, b int) int { return cmp.Compare(area(b), area(a)) })
	switch l.rng.IntN(3) {
	case 0:
		n, a := 0, 0.0
		for n < len(big) && a < swapShare*sum {
			a += area(big[n])
			n++
		}
		l.swap(big[:n])
	case 1:
		n := max(len(big)/4, 2)
		from := l.rng.IntN(max(len(big)-n, 0) + 1)
		l.swap(big[from:min(from+n, len(big))])
	default:
		for range 1 + l.rng.IntN(3) {
			l.throw(l.rng.IntN(l.n))
		}
	}
}

// swap swaps two items out of a list, of different kinds if it has some.
func (l *lane) swap(list []int) {
	if len(list) < 2 {
		return
	}
	i, j := list[l.rng.IntN(len(list))], list[l.rng.IntN(len(list))]
	for range 20 {
		if l.m.items[i] != l.m.items[j] {
			break
		}
		j = list[l.rng.IntN(len(list))]
	}
	a, b := l.boxes[i], l.boxes[j]
	dx, dy := (a.x0+a.x1-b.x0-b.x1)/2, (a.y0+a.y1-b.y0-b.y1)/2
	si, sj := l.spots[i], l.spots[j]
	si.x, si.y = si.x-dx, si.y-dy
	sj.x, sj.y = sj.x+dx, sj.y+dy
	l.settle(i, si)
	l.settle(j, sj)
}

func (s *shrink) run(l *lane, seat *seat) {
	s.explore(l, seat)
	s.compress(l, seat)
}

// failed is a layout that still overlaps, and by how much.
type failed struct {
	left  float64
	spots []spot
}

// explore takes steps as large as succeed. Where the smallest of those fails it
// goes on with small steps of many sizes, from the lane's layout or from a failed
// one that overlapped little, squeezed or disturbed in another way each time.
// Where that has failed for long, the lane loosens and disturbs the best layout
// and begins again from there.
func (s *shrink) explore(l *lane, seat *seat) {
	more := func() bool { return seat.pass() && seat.phase() < exploring }
	w := walk{step: firstStep}
	w.length, w.spots = seat.best()
	for !seat.over() && seat.phase() < exploring && w.length > s.from() {
		if w.fails >= stale {
			s.kick(l, seat, &w, more)
			continue
		}
		small := w.step <= leastStep
		now := w.step
		if small {
			now = leastStep * math.Pow(stepSpread, 2*l.rng.Float64()-1)
		}
		// A failed layout lies in a shorter bin already: what lies beyond the cut moves
		// further than it has to, which stirs it.
		spots, again := w.spots, false
		if len(w.pool) > 0 && l.rng.Float64() < fromPool {
			spots, again = w.pool[pickBiased(l.rng, len(w.pool))].spots, true
		}
		if !s.squeeze(l, spots, w.length, w.length-(w.length-s.from())*now) {
			if w.step /= 2; w.step < leastStep {
				return
			}
			continue
		}
		if again || small && l.rng.Float64() < disturbed {
			l.disturb()
		}
		wait, times := patience, rounds
		if !small { // a smaller step is soon tried
			wait, times = hasty, 1
		}
		left, ok := l.separate(wait, times, more)
		switch {
		case ok:
			w.begin(s.used(l), l.saved())
			seat.offer(w.length, w.spots)
		case !small:
			w.step = math.Max(w.step/2, leastStep)
		default:
			w.keep(failed{left, l.saved()})
		}
	}
}

// walk is where a lane's exploring stands.
type walk struct {
	length float64
	spots  []spot
	step   float64
	fails  int      // since the last success
	pool   []failed // tries from this layout, the least overlapping first
}

func (w *walk) begin(length float64, spots []spot) {
	w.length, w.spots, w.fails, w.pool = length, spots, 0, w.pool[:0]
}

func (w *walk) keep(f failed) {
	k, _ := slices.BinarySearchFunc(w.pool, f.left, func(f failed, v float64) int { return cmp.Compare(f.left, v) })
	w.pool = slices.Insert(w.pool, k, f)
	w.pool = w.pool[:min(len(w.pool), poolSize)]
	w.fails++
}

// kick begins again from the best layout, loosened and disturbed.
func (s *shrink) kick(l *lane, seat *seat, w *walk, more func() bool) {
	length, spots := seat.best()
	loose := length + (length-s.from())*(leastKick+(mostKick-leastKick)*l.rng.Float64())
	if !s.squeeze(l, spots, length, s.within(loose)) {
		return
	}
	for range 1 + l.rng.IntN(2+l.n/kickedItems) {
		l.disturb()
	}
	if _, ok := l.separate(patience, rounds, more); ok {
		w.begin(s.used(l), l.saved())
		w.step = kickStep
	}
}

// within is a length that the bin has.
func (s *shrink) within(length float64) float64 {
	if s.up {
		return math.Min(length, s.m.bins[s.bin].y1)
	}
	return math.Min(length, s.m.bins[s.bin].x1)
}

// compress takes ever smaller steps from the best layout.
func (s *shrink) compress(l *lane, seat *seat) {
	x0 := s.from()
	for !seat.over() {
		p := math.Min(math.Max((seat.phase()-exploring)/(1-exploring), 0), 1)
		step := bigStep + (smallStep-bigStep)*p
		length, spots := seat.best()
		if length <= x0 {
			return
		}
		target := x0 + (length-x0)*(1-step)
		if !s.squeeze(l, spots, length, target) {
			return
		}
		if _, ok := l.separate(patience/2, rounds, func() bool { return seat.pass() && seat.shortest() > target }); ok {
			seat.offer(s.used(l), l.saved())
		}
	}
}
