package stock

import (
	"fmt"
	"slices"
	"sort"
)

// merged joins equal uses and orders them: bars on hand last, longer bars first,
// then by their pieces, the longest first.
func (s *solution) merged() []use {
	var out []use
	for _, u := range s.uses {
		i := slices.IndexFunc(out, func(o use) bool { return o.kind == u.kind && slices.Equal(o.pieces, u.pieces) })
		if i < 0 {
			out = append(out, u)
			continue
		}
		out[i].times += u.times
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].kind != out[j].kind {
			return out[i].kind < out[j].kind
		}
		return slices.Compare(out[i].pieces, out[j].pieces) > 0
	})
	return out
}

// spareDrops leaves bars on hand alone whose pieces fit into what is free in
// other bars, the longest first. It changes no cost. Where drops are kept, what is
// left over is then gathered in one bar.
func (p *problem) spareDrops(s *solution) {
	var bars []use
	for _, u := range s.uses {
		for range u.times {
			bars = append(bars, use{u.kind, slices.Clone(u.pieces), 1})
		}
	}
	order := make([]int, len(bars))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return p.kinds[bars[order[i]].kind].room > p.kinds[bars[order[j]].kind].room })
	for _, i := range order {
		if p.kinds[bars[i].kind].bar.OnHand {
			p.empty(bars, i)
		}
	}
	if p.saw.Keep > 0 {
		p.gather(bars)
	}
	s.uses = slices.DeleteFunc(bars, func(u use) bool {
		return !slices.ContainsFunc(u.pieces, func(n int) bool { return n > 0 })
	})
}

// gather moves pieces out of the bar with most left over into what is free in
// the others, so that one long drop is kept instead of several short ones. It
// changes no cost.
func (p *problem) gather(bars []use) {
	free := p.free(bars)
	from := -1
	for j, f := range free {
		if f >= 0 && !p.kinds[bars[j].kind].bar.OnHand && (from < 0 || f > free[from]) {
			from = j
		}
	}
	if from < 0 {
		return
	}
	for k := range p.items {
		for bars[from].pieces[k] > 0 {
			to := p.bestFit(free, from, k)
			if to < 0 {
				break
			}
			free[to] -= p.items[k].width
			bars[from].pieces[k]--
			bars[to].pieces[k]++
		}
	}
}

// free is the room left in each bar; -1 in bars that are not used.
func (p *problem) free(bars []use) []int64 {
	free := make([]int64, len(bars))
	for j, u := range bars {
		free[j] = p.kinds[u.kind].room
		used := false
		for k, n := range u.pieces {
			free[j] -= int64(n) * p.items[k].width
			used = used || n > 0
		}
		if !used {
			free[j] = -1
		}
	}
	return free
}

// bestFit is the bar but one that item k fits with least left over; -1 for none.
func (p *problem) bestFit(free []int64, but, k int) int {
	to := -1
	for j, f := range free {
		if j != but && f >= p.items[k].width && (to < 0 || f < free[to]) {
			to = j
		}
	}
	return to
}

// empty moves the pieces of bar i into the others, best fit first, if they all
// go.
func (p *problem) empty(bars []use, i int) {
	free := p.free(bars)
	type move struct{ item, to int }
	var moves []move
	for k, n := range bars[i].pieces {
		for range n {
			to := p.bestFit(free, i, k)
			if to < 0 {
				return
			}
			free[to] -= p.items[k].width
			moves = append(moves, move{k, to})
		}
	}
	for _, m := range moves {
		bars[i].pieces[m.item]--
		bars[m.to].pieces[m.item]++
	}
}

// lacking is the error for bars that do not suffice.
func (p *problem) lacking(sure bool) error {
	room, want, pieces := int64(0), int64(0), 0
	for _, k := range p.kinds {
		room += int64(max(0, k.count)) * max(0, k.room)
	}
	for _, it := range p.items {
		want += int64(it.want) * it.width
		pieces += it.want
	}
	word := "no plan was found that gets"
	if sure || want > room {
		word = "the bars do not suffice for"
	}
	return fmt.Errorf("%s %d pieces out of the bars given: with their cuts they need %s m, the bars give %s m; add bars, or let some be bought as wanted",
		word, pieces, short(float64(want)/micron/1000), short(float64(room)/micron/1000))
}
