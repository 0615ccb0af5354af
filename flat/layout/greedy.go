package layout

import (
	"cmp"
	"context"
	"math"
	"slices"

	"blankwright/flat/num"
)

// greedy fills the one bin of a model with the largest items first, each as far
// left and then as low as it goes among those that lie already (bottom-left
// filling: E. K. Burke et al., "A new bottom-left-fill heuristic algorithm for
// the two-dimensional irregular packing problem", Operations Research 54 (2006)).
type greedy struct {
	m     *model
	l     *lane
	lies  []int     // items and blocks in the bin
	from  []float64 // by orient: no place further left
	full  []bool    // by kind: no place left
	cuts  []float64
	spans [][2]float64

	// leading is what chooses among turns: the one whose box, at this share of its
	// width, lies furthest left.
	leading   float64
	crossings int // of no-fit regions worked out
}

const greedySteps = 400 // lines tried across a bin

func newGreedy(m *model) *greedy {
	g := &greedy{m: m, l: newLane(m, 0, 0), full: make([]bool, len(m.kinds)), leading: 1}
	for i := range g.l.n {
		g.l.boxes[i] = nowhere
	}
	for j := range m.fixed {
		g.lies = append(g.lies, g.l.n+j)
	}
	for range m.orients {
		g.from = append(g.from, math.Inf(-1))
	}
	return g
}

// bySize are the items, largest first, by what they enclose.
func (m *model) bySize() []int {
	order := make([]int, len(m.items))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(m.kinds[m.items[b]].outer, m.kinds[m.items[a]].outer)
	})
	return order
}

// place lays item i, if there is room for it.
func (g *greedy) place(ctx context.Context, i int) bool {
	k := g.m.items[i]
	if g.full[k] {
		return false
	}
	best, found := spot{}, false
	lead := math.Inf(1)
	for _, o := range g.m.kinds[k].orients {
		if ctx.Err() != nil {
			return false
		}
		w := g.m.orients[o].w - g.m.orients[o].trim.x1
		s, ok := g.leftmost(i, o, lead+(1-g.leading)*w)
		if !ok {
			continue
		}
		if r := s.x + g.leading*w; r < lead || r == lead && s.y < best.y {
			best, found, lead = s, true, r
		}
	}
	if !found {
		g.full[k] = true
		return false
	}
	g.l.put(i, best)
	g.lies = append(g.lies, i)
	return true
}

// leftmost finds the place of an orient that reaches no further right
// than reach.
func (g *greedy) leftmost(i, o int, reach float64) (spot, bool) {
	b := &g.m.bins[0]
	x0, y0, x1, y1, ok := g.l.limits(b, o)
	if !ok {
		return spot{}, false
	}
	step := math.Min(x1-x0, b.y1-b.y0) / greedySteps
	step = math.Max(step, g.m.size/greedySteps)
	x1 = math.Min(x1, reach-g.m.orients[o].w+g.m.orients[o].trim.x1)
	start := math.Max(g.from[o], x0)
	if x1 < start {
		return spot{}, false
	}
	for x := start; x < x1+step; x += step {
		at := math.Min(x, x1)
		if s, ok := g.lowest(i, spot{o, at, y0}, y1); ok {
			return g.pushLeft(i, s, math.Max(x-step, x0)), true
		}
		if x == at {
			g.from[o] = x
		}
	}
	return spot{}, false
}

// pushLeft moves a free spot left, no further than to x0.
func (g *greedy) pushLeft(i int, s spot, x0 float64) spot {
	low, high := x0, s.x
	for range 12 {
		t := s
		t.x = (low + high) / 2
		if g.l.cost(i, t, math.Inf(1)) == 0 {
			high = t.x
		} else {
			low = t.x
		}
	}
	s.x = high
	return s
}

// lowest finds the lowest free place on the line through s, up to y1.
func (g *greedy) lowest(i int, s spot, y1 float64) (spot, bool) {
	o := &g.m.orients[s.orient]
	g.spans = g.spans[:0]
	for _, j := range g.lies {
		b := &g.l.boxes[j]
		if b.x0 >= s.x+o.w || b.x1 <= s.x {
			continue
		}
		f := g.m.pair(g.l.on[j], s.orient)
		g.cross(f, s.x-b.x0, b.y0)
		g.crossings++
	}
	slices.SortFunc(g.spans, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	eps := g.m.size * num.LayoutTouch
	for _, p := range g.spans {
		if s.y <= p[0] {
			if g.l.cost(i, s, math.Inf(1)) == 0 {
				return s, true
			}
		}
		s.y = math.Max(s.y, p[1]+eps)
		if s.y > y1 {
			return s, false
		}
	}
	return s, g.l.cost(i, s, math.Inf(1)) == 0
}

// cross adds the stretches of the line at dx that lie in a no-fit region, moved
// up by y.
func (g *greedy) cross(f *pairField, dx, y float64) {
	x := f.sign*dx + f.cx
	if x <= f.x0 || x >= f.x1 {
		return
	}
	g.cuts = g.cuts[:0]
	for i := range f.sides {
		s := &f.sides[i]
		if bx := s.ax + s.ux*s.l; (s.ax <= x) != (bx <= x) {
			g.cuts = append(g.cuts, f.sign*(s.ay+(x-s.ax)/s.ux*s.uy-f.cy)+y)
		}
	}
	n := len(g.cuts)
	if n == 0 {
		return
	}
	slices.Sort(g.cuts)
	if n%2 == 1 {
		g.spans = append(g.spans, [2]float64{g.cuts[0], g.cuts[n-1]})
		return
	}
	for i := 0; i < n; i += 2 {
		g.spans = append(g.spans, [2]float64{g.cuts[i], g.cuts[i+1]})
	}
}
