package layout

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"sync/atomic"
)

// Greedy filling is quick, and how well it does depends on the order of the
// items: it is done in several orders, of which the best is kept.

const (
	fillings    = 40      // orders tried, most
	fillingWork = 4000000 // crossings of no-fit regions in all fillings together, about
	shuffled    = 0.25    // spread of the logarithm of what a random order goes by
)

// filling is one way of greedy filling.
type filling struct {
	order   []int
	leading float64 // as in greedy
}

// measures are what items are put in order by, the largest first.
var measures = []func(m *model, k *kind) float64{
	func(_ *model, k *kind) float64 { return k.outer },
	func(m *model, k *kind) float64 { o := &m.orients[k.orients[0]]; return math.Max(o.w, o.h) },
	func(m *model, k *kind) float64 { o := &m.orients[k.orients[0]]; return math.Min(o.w, o.h) },
	func(m *model, k *kind) float64 { o := &m.orients[k.orients[0]]; return o.w * o.h },
}

// filling is the n-th way: by each measure with each way to choose among turns,
// then by measures that are shuffled a little, by kind or item by item.
func (m *model) filling(n int, seed uint64) filling {
	f := filling{leading: 1}
	if n%2 == 1 {
		f.leading = 0.5
	}
	by := measures[n/2%len(measures)]
	key := make([]float64, len(m.kinds))
	for k := range m.kinds {
		key[k] = by(m, &m.kinds[k])
	}
	f.order = make([]int, len(m.items))
	value := make([]float64, len(m.items))
	r := rand.New(rand.NewPCG(seed, uint64(n)))
	round := n / (2 * len(measures)) // the first as they are, then by kind and item by item
	if round%2 == 1 {
		for k := range key {
			key[k] *= math.Exp(shuffled * r.NormFloat64())
		}
	}
	for i, k := range m.items {
		f.order[i], value[i] = i, key[k]
		if round > 0 && round%2 == 0 {
			value[i] *= math.Exp(shuffled * r.NormFloat64())
		}
	}
	slices.SortStableFunc(f.order, func(a, b int) int { return cmp.Compare(value[b], value[a]) })
	return f
}

// fillBest fills in several orders, on all workers, and keeps the best: how many
// depends on the work of the first, not on the clock. A ctx that ends leaves what is there.
func (p *planner) fillBest(ctx context.Context) {
	first := *p
	var work atomic.Int64
	if !first.fill(greedyFiller(ctx, 1, &work), p.m.bySize()) {
		return
	}
	p.keepBetter(&first)
	p.tell()
	n := min(int(fillingWork/max(work.Load(), 1)), fillings)
	tries := make([]*planner, max(n, 1))
	var next atomic.Int64
	var wait sync.WaitGroup
	for range p.o.workers() {
		wait.Go(func() {
			for k := int(next.Add(1)); k < len(tries); k = int(next.Add(1)) {
				q, f := *p, p.m.filling(k, p.o.Seed)
				if q.fill(greedyFiller(ctx, f.leading, new(atomic.Int64)), f.order) {
					tries[k] = &q
				}
			}
		})
	}
	wait.Wait()
	for _, q := range tries {
		if q != nil {
			p.keepBetter(q)
		}
	}
	p.tell()
}

// keepBetter takes the other layout of the same job over unless it is worse.
func (p *planner) keepBetter(q *planner) {
	if c := q.score().compare(p.score()); c <= 0 {
		p.used, p.left = q.used, q.left
	}
}

// score is how good a layout is; less is better.
type score struct {
	left   float64 // area of what has no place, mm2
	sheets int
	reach  float64 // how far the last sheet is used, share of its length
}

func (s score) compare(t score) int {
	return cmp.Or(cmp.Compare(s.left, t.left), cmp.Compare(s.sheets, t.sheets), cmp.Compare(s.reach, t.reach))
}

func (p *planner) score() score {
	s := score{left: p.m.area(p.left), sheets: len(p.used)}
	if len(p.used) == 0 {
		return s
	}
	f := &p.used[len(p.used)-1]
	b := p.plates[f.kind].bin
	for i := range f.items {
		t := f.spots[i]
		o := &p.m.orients[t.orient]
		if b.tall() {
			s.reach = math.Max(s.reach, (t.y+o.h-o.trim.y1-b.y0)/(b.y1-b.y0))
		} else {
			s.reach = math.Max(s.reach, (t.x+o.w-o.trim.x1-b.x0)/(b.x1-b.x0))
		}
	}
	return s
}

// tall bins are used from below, others from the left.
func (b bin) tall() bool { return b.y1-b.y0 > b.x1-b.x0 }
