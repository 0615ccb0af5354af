package layout

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/num"
)

// The search lets pieces overlap and takes the overlap away: items in the way
// are moved, one at a time, to the place where the weighted sum of their depths
// in others is least; pairs that stay in each other gain weight (guided local
// search: C. Voudouris, E. Tsang, EJOR 113 (1999); for packing J. Egeblad, B. K.
// Nielsen, A. Odgaard, EJOR 183 (2007); S. Umetani et al., International
// Transactions in Operational Research 16 (2009)).

const (
	anywhere   = 12   // places tried all over the bins, shared by the orients
	nearby     = 6    // and about where the item lies
	nearReach  = 0.25 // of the item's size
	keepPicks  = 2    // places that are worked out in full
	heavier    = 1.2  // growth of the weight of a pair in each other, least
	heaviest   = 2.0  // and most, for the deepest
	lighter    = 0.95 // decay of the weight of a pair apart
	better     = 0.98 // share of the least overlap that counts as progress
	jumpRounds = 10   // of working out one place
	jumpHits   = 6    // sides looked at in one round
)

// refine moves a spot on: out of what lies in the way, to where the borders of
// no-fit regions (and the sides of the bin) meet, as long as that costs less.
func (l *lane) refine(i int, b *bin, p pick) pick {
	eps := l.m.size * num.LayoutTouch
	for range jumpRounds {
		p.f = l.find(i, p.spot)
		if p.f == 0 {
			return p
		}
		hits := l.hits
		if len(hits) > jumpHits {
			slices.SortFunc(hits, func(a, b hit) int { return cmp.Or(cmp.Compare(b.d*b.w, a.d*a.w), a.j-b.j) })
			hits = hits[:jumpHits]
		}
		x0, y0, x1, y1, _ := l.limits(b, p.orient)
		l.jumps = l.jumps[:0]
		add := func(dx, dy float64) {
			s := p.spot
			s.x = math.Min(math.Max(s.x+dx, x0), x1)
			s.y = math.Min(math.Max(s.y+dy, y0), y1)
			l.jumps = append(l.jumps, s)
		}
		for k := range hits {
			h := &hits[k]
			d := h.d + eps
			dx, dy := h.nx*d, h.ny*d
			add(dx, dy)
			// Along a side of the bin where the way out leaves it.
			if h.ny != 0 {
				if p.x+dx < x0 {
					add(x0-p.x, (d-h.nx*(x0-p.x))/h.ny)
				} else if p.x+dx > x1 {
					add(x1-p.x, (d-h.nx*(x1-p.x))/h.ny)
				}
			}
			if h.nx != 0 {
				if p.y+dy < y0 {
					add((d-h.ny*(y0-p.y))/h.nx, y0-p.y)
				} else if p.y+dy > y1 {
					add((d-h.ny*(y1-p.y))/h.nx, y1-p.y)
				}
			}
			for q := k + 1; q < len(hits); q++ {
				g := &hits[q]
				c := h.nx*g.ny - h.ny*g.nx
				if math.Abs(c) < num.LayoutParallel {
					continue
				}
				e := g.d + eps
				add((d*g.ny-e*h.ny)/c, (e*h.nx-d*g.nx)/c)
			}
		}
		best := pick{p.spot, p.f * (1 - num.LayoutGain)}
		moved := false
		for _, s := range l.jumps {
			if f := l.cost(i, s, best.f); f < best.f {
				best, moved = pick{s, f}, true
			}
		}
		if !moved {
			return p
		}
		p = best
	}
	return p
}

// consider keeps a spot if it is among the best.
func (l *lane) consider(i int, s spot) {
	bound := math.Inf(1)
	if len(l.picks) == keepPicks {
		bound = l.picks[keepPicks-1].f
	}
	f := l.cost(i, s, bound)
	if f >= bound {
		return
	}
	if len(l.picks) < keepPicks {
		l.picks = append(l.picks, pick{})
	}
	k := len(l.picks) - 1
	for k > 0 && l.picks[k-1].f > f {
		l.picks[k] = l.picks[k-1]
		k--
	}
	l.picks[k] = pick{s, f}
}

// move looks for a better spot for item i and puts it there.
func (l *lane) move(i int) {
	now := l.spots[i]
	was := l.find(i, now)
	if was == 0 {
		return
	}
	l.picks = l.picks[:0]
	k := &l.m.kinds[l.m.items[i]]
	around := max(anywhere/len(k.orients), anywhere/3)
	for _, o := range k.orients {
		for range around {
			b := &l.bins[0]
			if len(l.bins) > 1 {
				b = &l.bins[l.rng.IntN(len(l.bins))]
			}
			x0, y0, x1, y1, ok := l.limits(b, o)
			if !ok {
				continue
			}
			l.consider(i, spot{o, x0 + l.rng.Float64()*(x1-x0), y0 + l.rng.Float64()*(y1-y0)})
		}
	}
	home := &l.bins[l.binAt(now)]
	ow, oh := l.boxes[i].x1-l.boxes[i].x0, l.boxes[i].y1-l.boxes[i].y0
	reach := nearReach * math.Sqrt(ow*oh)
	for t := range nearby {
		o := now.orient
		if t%3 == 0 && len(k.orients) > 1 {
			o = k.orients[l.rng.IntN(len(k.orients))]
		}
		or := &l.m.orients[o]
		s := spot{o, now.x + (ow-or.w)/2 + l.rng.NormFloat64()*reach, now.y + (oh-or.h)/2 + l.rng.NormFloat64()*reach}
		if s, ok := l.clamped(home, s); ok {
			l.consider(i, s)
		}
	}
	best := l.refine(i, home, pick{now, was})
	for _, p := range l.picks {
		if best.f == 0 {
			break
		}
		if p = l.refine(i, &l.bins[l.binAt(p.spot)], p); p.f < best.f {
			best = p
		}
	}
	if best.f < was {
		l.put(i, best.spot)
	}
}

// overlaps lists the pairs in each other, and gives the sum of their depths.
func (l *lane) overlaps() float64 {
	l.pairs = l.pairs[:0]
	sum := 0.0
	for i := range l.n {
		a := &l.boxes[i]
		for _, k := range l.near(i, *a) {
			j := int(k)
			if j < i {
				continue
			}
			b := &l.boxes[j]
			if d, _, _ := l.m.pair(l.on[j], l.on[i]).deep(a.x0-b.x0, a.y0-b.y0); d > 0 {
				d *= l.size[i] * l.size[j]
				l.pairs = append(l.pairs, overlap{i, j, d})
				sum += d
			}
		}
	}
	return sum
}

// reweigh makes pairs in each other heavier and lets the others grow lighter.
func (l *lane) reweigh() {
	deepest := 0.0
	for _, p := range l.pairs {
		deepest = math.Max(deepest, p.d)
	}
	for i, w := range l.weight {
		if w > 1 {
			l.weight[i] = math.Max(w*lighter, 1)
		}
	}
	for _, p := range l.pairs {
		g := (heavier + (heaviest-heavier)*p.d/deepest) / lighter
		l.weight[p.i*l.all+p.j] *= g
		if p.j < l.n {
			l.weight[p.j*l.all+p.i] = l.weight[p.i*l.all+p.j]
		}
	}
}

// separate takes the overlaps of the layout away. It gives up, with false and
// the least overlapping layout it met, when patience passes in a row brought no
// progress, rounds times.
func (l *lane) separate(patience, rounds int, more func() bool) (left float64, ok bool) {
	l.sort()
	l.calm()
	least := l.overlaps()
	if least == 0 {
		return 0, true
	}
	best := l.saved()
	for range rounds {
		from := least
		for idle := 0; idle < patience; {
			l.order = l.order[:0]
			for i := range l.n {
				l.order = append(l.order, i)
			}
			l.rng.Shuffle(len(l.order), func(a, b int) { l.order[a], l.order[b] = l.order[b], l.order[a] })
			for _, i := range l.order {
				l.move(i)
			}
			sum := l.overlaps()
			if sum == 0 {
				return 0, true
			}
			idle++
			if sum < least {
				if sum < least*better {
					idle = 0
				}
				least = sum
				copy(best, l.spots)
			}
			l.reweigh()
			if !more() {
				l.take(best)
				return least, false
			}
		}
		l.take(best)
		if least > from*better {
			break
		}
	}
	return least, false
}
