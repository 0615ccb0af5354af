package stock

import (
	"slices"
	"sort"
)

// Steps after which the search of all plans ends: for what rounding leaves over,
// and for the whole.
const (
	restEffort  = 500000
	wholeEffort = 2000000
)

// nodeNumbers bounds what is kept at one node: fillings times items.
const nodeNumbers = 20000

// noPlan is a cost that no plan has: 10^5 bars of 10^9.
const noPlan = 1 << 50

// remembered is the largest number of states that are remembered.
const remembered = 200000

// exhaust looks for a plan for what is left over that costs less than ceiling,
// the cheapest there is. whole says that all plans were looked at, so that there
// is none cheaper than the one found, or none at all.
//
// Every bar in turn gets the longest piece left over and is filled so that
// nothing more fits; bars with the same longest piece come in falling order. With
// the prices of the bound each filling wastes a certain part of what a plan under
// the ceiling may waste in all; fillings that waste more are left out, and the
// rest tried by growing waste.
func (p *problem) exhaust(lp *relaxed, left rest, ceiling int64, effort int) (uses []use, whole, ok bool) {
	e := exhaustion{p: p, lp: lp, left: left.copied(), ceiling: ceiling, effort: effort, step: p.step(), seen: map[string]int64{}}
	e.rates()
	e.node(0, -1, nil)
	return e.best, e.effort > 0 && !e.partial, e.found
}

type exhaustion struct {
	p       *problem
	lp      *relaxed
	left    rest
	ceiling int64 // a plan has to cost less
	effort  int
	partial bool // some node had more fillings than were kept
	step    int64
	path    []use
	best    []use
	found   bool
	seen    map[string]int64
	rate    []float64 // largest worth for length of the items from i on
	key     []byte
}

func (e *exhaustion) rates() {
	e.rate = make([]float64, len(e.p.items)+1)
	for i := len(e.p.items) - 1; i >= 0; i-- {
		e.rate[i] = max(e.rate[i+1], float64(e.lp.worth[i])/float64(e.p.items[i].width))
	}
}

// spare is how much waste, in 1/scale of a cost, a plan under the ceiling can
// still have after cost; negative where there is none.
func (e *exhaustion) spare(cost int64) int64 {
	if e.ceiling > noPlan {
		return 1 << 62
	}
	// The ceiling itself is not under it: one step less is.
	s := (e.ceiling - e.step - cost) * scale
	for i, n := range e.left.want {
		s -= int64(n) * e.lp.worth[i]
	}
	for k, n := range e.left.counts {
		if n > 0 {
			s += int64(n) * e.lp.toll[k]
		}
	}
	return s
}

// filling is a way to fill the next bar.
type filling struct {
	use
	waste int64
}

func (e *exhaustion) node(cost int64, before int, last *use) {
	first := slices.IndexFunc(e.left.want, func(n int) bool { return n > 0 })
	if first < 0 {
		if cost < e.ceiling {
			e.ceiling, e.found = cost, true
			e.best = slices.Clone(e.path)
		}
		return
	}
	if e.effort <= 0 || e.spare(cost) < 0 {
		return
	}
	if first != before {
		last = nil
		if !e.fresh(cost) {
			return
		}
	}
	for _, f := range e.fillings(first, cost, last) {
		if e.effort <= 0 {
			return
		}
		next := cost + e.p.kinds[f.kind].cost
		if f.waste > e.spare(cost) || next >= e.ceiling { // the ceiling may have come down
			continue
		}
		e.left.take(f.use)
		e.path = append(e.path, f.use)
		e.node(next, first, &f.use)
		e.path = e.path[:len(e.path)-1]
		undo := f.use
		undo.times = -1
		e.left.take(undo)
	}
}

// fresh remembers a state and reports whether it was not met before at the same
// cost or less.
func (e *exhaustion) fresh(cost int64) bool {
	e.key = e.key[:0]
	for _, n := range e.left.want {
		e.key = append(e.key, byte(n), byte(n>>8), byte(n>>16))
	}
	for _, n := range e.left.counts {
		e.key = append(e.key, byte(n), byte(n>>8), byte(n>>16))
	}
	if old, met := e.seen[string(e.key)]; met && old <= cost {
		return false
	}
	if len(e.seen) < remembered {
		e.seen[string(e.key)] = cost
	}
	return true
}

// fillings are the ways to fill the next bar with the longest piece, by growing
// waste. Not after last, in falling order, when that is given.
func (e *exhaustion) fillings(first int, cost int64, last *use) []filling {
	n := len(e.p.items)
	f := filler{e: e, first: first, last: last, spare: e.spare(cost), now: make([]int, n), most: max(16, nodeNumbers/n)}
	for k := range e.p.kinds {
		b := &e.p.kinds[k]
		if e.left.counts[k] == 0 || b.room < e.p.items[first].width || last != nil && k < last.kind || sameAsBefore(e.p.kinds, e.left.counts, k) {
			continue
		}
		f.kind = k
		f.waste = b.cost*scale + e.lp.toll[k]
		f.look(first, b.room, f.waste)
	}
	f.sort()
	return f.out
}

// sort orders by growing waste, then bigger pieces first.
func (f *filler) sort() {
	sort.SliceStable(f.out, func(i, j int) bool {
		a, b := &f.out[i], &f.out[j]
		if a.waste != b.waste {
			return a.waste < b.waste
		}
		if a.kind != b.kind {
			return a.kind < b.kind
		}
		return slices.Compare(a.pieces, b.pieces) > 0
	})
}

// sameAsBefore reports whether an earlier kind with bars left is the same.
func sameAsBefore(kinds []kind, counts []int, k int) bool {
	for j := range k {
		if counts[j] != 0 && kinds[j].room == kinds[k].room && kinds[j].cost == kinds[k].cost {
			return true
		}
	}
	return false
}

// filler makes the fillings of one node.
type filler struct {
	e     *exhaustion
	first int
	kind  int
	last  *use
	spare int64
	waste int64
	now   []int
	out   []filling
	most  int // fillings kept
}

// look chooses how many of item i on go in; waste is what is not yet paid for.
func (f *filler) look(i int, room, waste int64) {
	e := f.e
	if e.effort--; e.effort <= 0 {
		return
	}
	if waste > f.spare && float64(waste-f.spare) > e.rate[i]*float64(room)+1 {
		return // the rest of the bar cannot pay for it
	}
	for i < len(f.now) && (e.left.want[i] == 0 || e.p.items[i].width > room) {
		i++
	}
	if i == len(f.now) {
		f.keep(room, waste)
		return
	}
	w := e.p.items[i].width
	most := int(min(int64(e.left.want[i]), room/w))
	least := 0
	if i == f.first {
		least = 1
	}
	for n := most; n >= least; n-- {
		f.now[i] = n
		f.look(i+1, room-int64(n)*w, waste-int64(n)*e.lp.worth[i])
	}
	f.now[i] = 0
}

// keep notes a filling into which nothing more fits.
func (f *filler) keep(room, waste int64) {
	e := f.e
	if waste > f.spare {
		return
	}
	for i := len(f.now) - 1; i >= f.first; i-- {
		if e.p.items[i].width > room {
			break // longer ones do not fit either
		}
		if e.left.want[i] > f.now[i] {
			return
		}
	}
	if f.last != nil && f.kind == f.last.kind && slices.Compare(f.now, f.last.pieces) > 0 {
		return
	}
	e.effort -= len(f.now) / 8
	f.out = append(f.out, filling{use{f.kind, slices.Clone(f.now), 1}, waste})
	if len(f.out) >= 2*f.most { // only the best are kept, worse ones no longer looked for
		f.sort()
		f.out = f.out[:f.most]
		f.spare = f.out[f.most-1].waste
		e.partial = true
	}
}
