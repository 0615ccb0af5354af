package stock

import (
	"math"
	"slices"

	"blankwright/flat/num"
)

// use is a filling of a kind of bar, so many times.
type use struct {
	kind   int
	pieces []int
	times  int
}

// solution is a plan in whole numbers.
type solution struct {
	uses   []use
	bound  float64
	proven bool
}

func (s *solution) cost(p *problem) int64 {
	sum := int64(0)
	for _, u := range s.uses {
		sum += int64(u.times) * p.kinds[u.kind].cost
	}
	return sum
}

func (s *solution) costOf(p *problem) float64 { return float64(s.cost(p)) / micron }

// rest is what is still to be done.
type rest struct {
	want   []int
	counts []int // of kinds, -1 for as many as wanted
}

func (p *problem) all() rest {
	r := rest{want: p.wants()}
	for _, k := range p.kinds {
		r.counts = append(r.counts, k.count)
	}
	return r
}

func (r rest) copied() rest { return rest{slices.Clone(r.want), slices.Clone(r.counts)} }

func (r *rest) take(u use) {
	for i, n := range u.pieces {
		r.want[i] -= n * u.times
	}
	if r.counts[u.kind] >= 0 {
		r.counts[u.kind] -= u.times
	}
}

func (r *rest) done() bool {
	for _, n := range r.want {
		if n > 0 {
			return false
		}
	}
	return true
}

// Rounds of filling with corrected prices: from nothing, and for what rounding
// leaves over.
const (
	freshRounds = 24
	restRounds  = 24
)

// search finds the best plan it can and how good that is.
func (p *problem) search() (*solution, error) {
	f := finder{p: p, low: p.quickBound(), dice: 88172645463325252}
	whole := false
	if !f.fresh() {
		whole = f.within(p.relax(f.ceiling()))
	}
	if f.best == nil {
		return nil, p.lacking(whole)
	}
	s := f.best
	if whole {
		f.low = s.cost(p)
	}
	s.bound, s.proven = float64(f.low)/micron, s.cost(p) <= f.low
	return s, nil
}

// finder gathers plans.
type finder struct {
	p    *problem
	low  int64 // no plan costs less
	best *solution
	dice dice
}

// ceiling is the cost that a plan has to stay under to be better.
func (f *finder) ceiling() int64 {
	if f.best == nil {
		return math.MaxInt64
	}
	return f.best.cost(f.p)
}

// done reports whether there is nothing better to be had.
func (f *finder) done() bool { return f.best != nil && f.best.cost(f.p) <= f.low }

// offer keeps a plan that is better.
func (f *finder) offer(uses []use) bool {
	if s := (&solution{uses: uses}); s.cost(f.p) < f.ceiling() {
		f.best = s
	}
	return f.done()
}

// fresh fills bars by length, with corrected prices.
func (f *finder) fresh() bool {
	price := make([]float64, len(f.p.items))
	for i := range price {
		price[i] = float64(f.p.items[i].width) * scale / 8
	}
	return f.corrected(price, nil, f.p.all(), freshRounds)
}

// within uses the solution with fractions: rounded down, the rest filled; then
// all plans within the bound are searched. It reports whether all were.
func (f *finder) within(lp *relaxed) bool {
	p := f.p
	f.low = max(f.low, lp.bound)
	if f.done() {
		return false
	}
	price := make([]float64, len(p.items))
	for _, part := range [2]float64{1, 0.5} { // whole bars of the fractions, or fewer
		kept, left := p.rounded(lp, part)
		for i := range price {
			price[i] = max(float64(lp.worth[i]), float64(p.items[i].width)*scale/64)
		}
		if f.corrected(price, kept, left, restRounds) {
			return false
		}
	}
	kept, left := p.rounded(lp, 1)
	if uses, _, ok := p.exhaust(lp, left, f.ceiling()-spent(p, kept), restEffort); ok && f.offer(append(slices.Clone(kept), uses...)) {
		return false
	}
	uses, whole, ok := p.exhaust(lp, p.all(), f.ceiling(), wholeEffort)
	if ok {
		f.offer(uses)
	}
	return whole
}

// quickBound is a bound that costs nothing to work out: all pieces by length,
// from bars on hand first, then from the bar that gives most length for its cost;
// and where there is one kind of bar, without end, how many bars there have to be
// for pieces that keep each other out of a bar (a dual-feasible function: S.
// Martello and P. Toth, Knapsack Problems (1990), 8.3, bound L2).
func (p *problem) quickBound() int64 {
	need, rate := 0.0, math.Inf(1)
	for _, it := range p.items {
		need += float64(it.width) * float64(it.want)
	}
	for _, k := range p.kinds {
		switch {
		case k.room <= 0:
		case k.cost == 0 && k.count >= 0:
			need -= float64(k.room) * float64(k.count)
		default:
			rate = min(rate, float64(k.cost)/float64(k.room))
		}
	}
	if need <= 0 || math.IsInf(rate, 1) {
		return 0
	}
	bound := need * rate
	if len(p.kinds) == 1 && p.kinds[0].count < 0 {
		bound = max(bound, float64(p.fewest())*float64(p.kinds[0].cost))
	}
	return p.reachable(int64(math.Ceil(bound - num.BoundShare*bound)))
}

// fewest is the bound L2 on the number of bars of the one kind: for each length
// a, pieces longer than room-a each take a bar of their own, pieces longer than
// half a bar too, and those from a to half share what room the latter leave.
func (p *problem) fewest() int64 {
	room, best := p.kinds[0].room, int64(0)
	for _, a := range p.items {
		if 2*a.width > room {
			continue
		}
		var own, half, free, small int64
		for _, it := range p.items {
			n := int64(it.want)
			switch {
			case it.width > room-a.width:
				own += n
			case 2*it.width > room:
				half += n
				free += n * (room - it.width)
			case it.width >= a.width:
				small += n * it.width
			}
		}
		best = max(best, own+half+max(0, (small-free+room-1)/room))
	}
	return best
}

func spent(p *problem, uses []use) int64 { return (&solution{uses: uses}).cost(p) }

// rounded takes the whole bars of the fractions, times part, and gives what they
// leave over.
func (p *problem) rounded(lp *relaxed, part float64) ([]use, rest) {
	left := p.all()
	var kept []use
	for j, pat := range lp.patterns {
		n := int(lp.times[j]*part + 1.0/1024)
		for i, a := range pat.pieces { // no more than wanted
			if a > 0 {
				n = min(n, left.want[i]/a)
			}
		}
		if c := left.counts[pat.kind]; c >= 0 {
			n = min(n, c)
		}
		if n > 0 {
			u := use{pat.kind, pat.pieces, n}
			left.take(u)
			kept = append(kept, u)
		}
	}
	return kept, left
}

// dice is a small generator of the same numbers every time (G. Marsaglia,
// "Xorshift RNGs", 2003).
type dice uint64

func (d *dice) share() float64 {
	x := *d
	x ^= x << 13
	x ^= x >> 7
	x ^= x << 17
	*d = x
	return float64(x>>11) / (1 << 53)
}

// corrected fills bars one after another for what is left over, several times,
// each time with prices that the time before has corrected: pieces that ended in
// badly filled bars become dearer and are used earlier.
func (f *finder) corrected(price []float64, kept []use, left rest, rounds int) bool {
	p := f.p
	width, worth := p.widths(), make([]int64, len(price))
	for range rounds {
		now := left.copied()
		uses := slices.Clone(kept)
		cost := spent(p, kept)
		for !now.done() && cost < f.ceiling() {
			for i, v := range price {
				worth[i] = int64(min(v, 1<<44))
			}
			u, ok := p.bestBar(width, worth, now)
			if !ok {
				break
			}
			u.times = p.timesOf(u, now)
			now.take(u)
			uses = append(uses, u)
			cost += int64(u.times) * p.kinds[u.kind].cost
			p.correct(price, u, now, 1+8*f.dice.share())
		}
		if now.done() && f.offer(uses) {
			return true
		}
	}
	return false
}

// bestBar fills the bar that is most worth its cost; bars on hand come first,
// the best filled of them.
func (p *problem) bestBar(width, worth []int64, now rest) (use, bool) {
	var best use
	found, bestFree, bestRate := false, false, 0.0
	for k := range p.kinds {
		b := &p.kinds[k]
		if now.counts[k] == 0 {
			continue
		}
		pick, got, _ := fill(width, worth, now.want, b.room, planSteps)
		if got == 0 {
			continue
		}
		free := b.cost == 0
		rate := float64(got) / float64(b.room)
		if !free {
			rate = float64(got) / float64(b.cost)
		}
		if !found || free && !bestFree || free == bestFree && rate > bestRate {
			best, found, bestFree, bestRate = use{kind: k, pieces: pick}, true, free, rate
		}
	}
	return best, found
}

// timesOf is how often a filling is used at once: half as often as it could be,
// so that large numbers go fast and the end stays open.
func (p *problem) timesOf(u use, now rest) int {
	n := math.MaxInt
	for i, a := range u.pieces {
		if a > 0 {
			n = min(n, now.want[i]/a)
		}
	}
	if c := now.counts[u.kind]; c >= 0 {
		n = min(n, c)
	}
	return (n + 1) / 2
}

// correct moves the prices of the pieces used towards their share of the whole
// bar, waste included; inertia says how little.
func (p *problem) correct(price []float64, u use, now rest, inertia float64) {
	used := int64(0)
	for i, a := range u.pieces {
		used += int64(a) * p.items[i].width
	}
	full := float64(p.kinds[u.kind].room) / float64(used)
	for i, a := range u.pieces {
		if a == 0 {
			continue
		}
		w := float64(p.items[i].width)
		target := math.Pow(w/float64(p.kinds[u.kind].room), 1.02) * float64(p.kinds[u.kind].room) * full * scale / 8
		old := inertia * float64(p.items[i].want+now.want[i])
		n := float64(a * u.times)
		price[i] = (old*price[i] + n*target) / (old + n)
	}
}
