package layout

import (
	"context"
	"slices"

	"blankwright/flat/geom"
)

const (
	fewItems   = 300  // items of the last sheets that are searched together
	fullest    = 0.93 // density that is not tried to be reached
	emptyShare = 0.4  // of the effort: emptying the last sheet
	earlyShare = 0.5  // of the effort: filling the earlier of many sheets
	addShare   = 0.3  // of the effort: placing what has no place
)

// improve makes a valid layout better: places more, empties the last sheet, and
// makes what is used of the last one shorter, so that most is left of it.
func (p *planner) improve(ctx context.Context, e effort) {
	if len(p.used) == 0 {
		return
	}
	if len(p.left) > 0 {
		part := e.share(addShare)
		p.addLeft(ctx, part)
		e = e.less(part)
	}
	for more := true; more && len(p.used) > 1; {
		part := e.share(emptyShare)
		if !p.mayEmpty() {
			break
		}
		more = p.emptyLast(ctx, part)
		e = e.less(part)
		p.tell()
	}
	p.shortenAll(ctx, e)
	p.tell()
}

// window is some of the sheets, side by side in one plane.
type window struct {
	at    []int // which, the last of all last
	items []int
	spots []spot
	bins  []bin
	fixed []block
	shift []geom.Point // from a sheet's region to the plane
}

// last are the last sheets, as many as have few items together, two at least.
func (p *planner) last() []int {
	from, n := len(p.used), 0
	for from > 0 {
		n += len(p.used[from-1].items)
		if len(p.used)-from >= 2 && n > fewItems {
			break
		}
		from--
	}
	var at []int
	for k := from; k < len(p.used); k++ {
		at = append(at, k)
	}
	return at
}

func (p *planner) window(at []int) window {
	w := window{at: at}
	x := 0.0
	for _, k := range at {
		f := &p.used[k]
		l := &p.plates[f.kind]
		s := geom.Point{X: x - l.bin.x0, Y: -l.bin.y0}
		b, blocks := l.moved(s.X, s.Y)
		x = b.x1 + 4*p.m.size
		w.bins = append(w.bins, b)
		w.fixed = append(w.fixed, blocks...)
		w.shift = append(w.shift, s)
		for i, it := range f.items {
			t := f.spots[i]
			t.x += s.X
			t.y += s.Y
			w.items = append(w.items, it)
			w.spots = append(w.spots, t)
		}
	}
	return w
}

func (w *window) model(m *model) *model { return m.part(w.items, w.bins, w.fixed) }

// put takes the spots of a window back to the sheets.
func (p *planner) put(w window, m *model, spots []spot) {
	l := &lane{m: m}
	for k := range w.bins {
		f := &p.used[w.at[k]]
		f.items, f.spots = nil, nil
		for i, it := range w.items {
			if l.binAt(spots[i]) == k {
				s := spots[i]
				s.x -= w.shift[k].X
				s.y -= w.shift[k].Y
				f.items = append(f.items, it)
				f.spots = append(f.spots, s)
			}
		}
	}
	p.used = slices.DeleteFunc(p.used, func(f filled) bool { return len(f.items) == 0 })
}

// area is the area of the polygons of some items.
func (m *model) area(items []int) float64 {
	count := make([]int, len(m.kinds)) // so that their order does not count
	for _, it := range items {
		count[m.items[it]]++
	}
	a := 0.0
	for k, n := range count {
		a += float64(n) * m.kinds[k].area
	}
	return a
}

// free is the area of bins, blocked or not.
func (m *model) free(bins []bin) float64 {
	a := 0.0
	for _, b := range bins {
		a += (b.x1 - b.x0) * (b.y1 - b.y0)
	}
	return a
}

// mayEmpty reports whether the other last sheets have the area for the items of
// the last one.
func (p *planner) mayEmpty() bool {
	w := p.window(p.last())
	n := len(w.bins) - 1
	return n > 0 && p.m.area(w.items) <= fullest*p.m.free(w.bins[:n])
}

// emptyLast tries to bring the items of the last sheet to the others.
func (p *planner) emptyLast(ctx context.Context, e effort) bool {
	w := p.window(p.last())
	n := len(w.bins) - 1
	gone := len(p.used[len(p.used)-1].items)
	cut := w
	cut.bins, cut.shift = w.bins[:n], w.shift[:n]
	cut.fixed = slices.DeleteFunc(slices.Clone(w.fixed), func(b block) bool { return b.x > cut.bins[n-1].x1+2*p.m.size })
	m := cut.model(p.m)
	b := newBoard(ctx, p.o, e, 1, w.spots)
	b.search(func(s *seat) {
		l := newLane(m, p.o.Seed, s.lane+1)
		for !s.over() && s.shortest() > 0 {
			l.take(w.spots)
			for i := len(w.items) - gone; i < len(w.items); i++ {
				if !l.throw(i) {
					return
				}
			}
			if _, ok := l.separate(100, 3, func() bool { return s.pass() && s.shortest() > 0 }); ok {
				s.offer(0, l.saved())
			}
		}
	})
	if b.length > 0 {
		return false
	}
	p.used = p.used[:len(p.used)-1]
	p.put(cut, m, b.spots)
	return true
}

// throw puts an item anywhere; false if it fits nowhere.
func (l *lane) throw(i int) bool {
	os := l.m.kinds[l.m.items[i]].orients
	type place struct{ o, k int }
	var places []place
	for _, o := range os {
		for k := range l.bins {
			if _, _, _, _, ok := l.limits(&l.bins[k], o); ok {
				places = append(places, place{o, k})
			}
		}
	}
	if len(places) == 0 {
		return false
	}
	q := places[l.rng.IntN(len(places))]
	x0, y0, x1, y1, _ := l.limits(&l.bins[q.k], q.o)
	l.put(i, spot{q.o, x0 + l.rng.Float64()*(x1-x0), y0 + l.rng.Float64()*(y1-y0)})
	return true
}

// addLeft tries to place copies that have no place, the largest first.
func (p *planner) addLeft(ctx context.Context, e effort) {
	left := p.m.bySize()
	left = slices.DeleteFunc(left, func(it int) bool { return !slices.Contains(p.left, it) })
	failed := map[int]bool{}
	for _, it := range left {
		if failed[p.m.items[it]] || ctx.Err() != nil {
			continue
		}
		w := p.window(p.last())
		w.items = append(w.items, it)
		if p.m.area(w.items) > fullest*p.m.free(w.bins) {
			failed[p.m.items[it]] = true
			continue
		}
		m := w.model(p.m)
		b := newBoard(ctx, p.o, e.share(1/float64(len(p.pieces))), 1, nil)
		b.search(func(s *seat) {
			l := newLane(m, p.o.Seed, s.lane+1)
			for !s.over() && s.shortest() > 0 {
				l.take(w.spots)
				if !l.throw(len(w.items) - 1) {
					return
				}
				if _, ok := l.separate(50, 2, func() bool { return s.pass() && s.shortest() > 0 }); ok {
					s.offer(0, l.saved())
				}
			}
		})
		if b.length > 0 {
			failed[p.m.items[it]] = true
			continue
		}
		p.put(w, m, b.spots)
		p.left = slices.DeleteFunc(p.left, func(i int) bool { return i == it })
		p.tell()
	}
}

// shortenAll shortens the last sheet: first together with each of the sheets
// before the last ones, which may take something from it, then with those.
func (p *planner) shortenAll(ctx context.Context, e effort) {
	early := p.last()[0]
	for k := 0; k < early && k < len(p.used)-1; k++ {
		part := e.share(earlyShare / float64(early))
		p.shorten(ctx, part, []int{k, len(p.used) - 1})
		e = e.less(part)
	}
	p.shorten(ctx, e.share(1), p.last())
}

// shorten makes the used part of the last sheet of a window shorter, along its
// longer side.
func (p *planner) shorten(ctx context.Context, e effort, at []int) {
	w := p.window(at)
	m := w.model(p.m)
	n := len(w.bins) - 1
	last := w.bins[n]
	s := &shrink{m: m, bin: n, up: last.tall()}
	l := newLane(m, 0, 0)
	l.take(w.spots)
	b := newBoard(ctx, p.o, e, s.used(l), w.spots)
	whole := max(last.x1-last.x0, last.y1-last.y0)
	b.report = func(length float64, _ []spot) { p.tellShort(at[n], min((length-s.from())/whole, 1)) }
	b.search(func(seat *seat) { s.run(newLane(m, p.o.Seed, seat.lane+1), seat) })
	p.put(w, m, b.spots)
}
