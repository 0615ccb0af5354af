package layout

import (
	"cmp"
	"math"
	"slices"
)

// shelves fills the one bin of a model with rows of boxes, the highest first: no
// good layout, but one that is there at once. It gives the spots of the items it
// placed, by item.
func shelves(m *model) map[int]spot {
	l := newLane(m, 0, 0)
	for i := range l.n {
		l.boxes[i] = nowhere
	}
	lying := make([]int, len(m.kinds)) // of each kind, the orient that is lowest
	for k := range m.kinds {
		lying[k] = slices.MinFunc(m.kinds[k].orients, func(a, b int) int { return cmp.Compare(m.orients[a].h, m.orients[b].h) })
	}
	order := make([]int, l.n)
	for i := range order {
		order[i] = i
	}
	high := func(i int) float64 { return m.orients[lying[m.items[i]]].h }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(high(b), high(a)) })
	b := &m.bins[0]
	placed := map[int]spot{}
	x, y, top := b.x0, b.y0, b.y0
	full := make([]bool, len(m.kinds))
	for _, i := range order {
		k := m.items[i]
		if full[k] {
			continue
		}
		o := &m.orients[lying[k]]
		_, _, x1, y1, ok := l.limits(b, lying[k])
		step := math.Max(o.w, o.h) / shelfSteps
		for ok {
			if x > x1 { // the next row
				if x == b.x0 || top > y1 {
					ok = false
					break
				}
				x, y = b.x0, math.Max(top, y+step)
				continue
			}
			if s := (spot{lying[k], x, y}); y <= y1 && l.cost(i, s, math.Inf(1)) == 0 {
				placed[i] = s
				x += o.w
				top = math.Max(top, y+o.h)
				break
			}
			if y > y1 {
				ok = false
				break
			}
			x += step
		}
		full[k] = !ok
	}
	return placed
}

const shelfSteps = 8 // steps across a piece past what is in the way
