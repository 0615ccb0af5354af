package paper

import (
	"math"
	"sort"

	"blankwright/flat/num"
)

// A drawing that is larger than its paper is cut into pages along seams that run
// straight across it.

const (
	overlap  = 12.0 // of two neighbours' pictures, mm, the seam in its middle (10 to 15 is common practice)
	seamOff  = 2.0  // labels, edges of holes and their crosses stay this far from a seam
	leastGap = 30.0 // between two seams
	leastEnd = 10.0 // from the last seam to half an overlap beyond the drawing's end
)

// axis is one direction of the drawing: its two ends and the seams between.
type axis struct{ cuts []float64 }

// inner are the seams alone.
func (a *axis) inner() []float64 { return a.cuts[1 : len(a.cuts)-1] }

// count is the number of pages along the axis.
func (a *axis) count() int { return len(a.cuts) - 1 }

// core is what page i shows between its seams.
func (a *axis) core(i int) (lo, hi float64) { return a.cuts[i], a.cuts[i+1] }

// window is all that page i shows: beyond its seams half of the overlap.
func (a *axis) window(i int) (lo, hi float64) {
	lo, hi = a.core(i)
	if i > 0 {
		lo -= overlap / 2
	}
	if i < a.count()-1 {
		hi += overlap / 2
	}
	return lo, hi
}

// span is what a hole covers of an axis.
type span struct{ lo, hi float64 }

// cutAxis chooses the seams of a drawing that is so long, for pages that show so
// much of it, such that no seam goes through a hole where that can be had with
// one page more than needed at most; hit is how many it goes through all the
// same. Among equal choices pages are as equal as can be.
func cutAxis(length, window float64, holes []span) (a axis, hit int) {
	if length <= window {
		return axis{[]float64{0, length}}, 0
	}
	// Both ends get half an overlap more, so that all pages are alike.
	pitch := window - overlap
	least := int(math.Ceil((length + overlap) / pitch))
	best := -1
	for n := least; n <= least+1; n++ {
		for _, chains := range [2]bool{false, true} {
			if chains && len(holes) > chainsMost {
				continue // so many leave no gap that only a chain would find
			}
			cuts, h := seamsFor(length, pitch, n, holes, chains)
			if cuts != nil && (best < 0 || h < best) {
				a, best = axis{cuts}, h
			}
			if best == 0 {
				return a, 0
			}
		}
	}
	return a, best
}

// chainsMost is for how many holes chains are tried.
const chainsMost = 200

// Costs of a seam: far apart, so that a hole less outweighs everything else.
const (
	costHit  = 1e6 // through a hole
	costNear = 1e3 // nearer to one than it should be
)

// place is where a seam may go.
type seamPlace struct {
	at   float64
	cost float64
	hits int
}

// seamsFor finds the n-1 seams of least cost, each no farther than pitch from
// the one before: dynamic programming over the places where the cost changes;
// with chains also over those as far from such a place as pages reach.
func seamsFor(length, pitch float64, n int, holes []span, chains bool) (cuts []float64, hits int) {
	from, to := -overlap/2, length+overlap/2
	each := (to - from) / float64(n)
	gap := min(leastGap, each/2)
	ps := seamPlaces(from, to, pitch, n, holes, chains)
	type step struct {
		cost float64
		back int
	}
	layers := make([][]step, n-1)
	for k := range layers {
		ideal := from + float64(k+1)*each
		layer := make([]step, len(ps))
		// The cheapest place in reach of the layer before, from a queue that is
		// kept in rising order of cost.
		queue := make([]int, 0, len(ps))
		next := 0
		for i := range ps {
			p := &ps[i]
			off := (p.at - ideal) / pitch
			layer[i] = step{math.Inf(1), -1}
			before := 0.0
			if k == 0 {
				if !num.AtMost(p.at-from, pitch) || p.at-from < gap {
					continue
				}
			} else {
				prev := layers[k-1]
				for ; next < i && p.at-ps[next].at >= gap; next++ {
					for len(queue) > 0 && prev[queue[len(queue)-1]].cost > prev[next].cost {
						queue = queue[:len(queue)-1]
					}
					queue = append(queue, next)
				}
				for len(queue) > 0 && !num.AtMost(p.at-ps[queue[0]].at, pitch) {
					queue = queue[1:]
				}
				if len(queue) == 0 {
					continue
				}
				layer[i].back = queue[0]
				before = prev[queue[0]].cost
			}
			layer[i].cost = before + p.cost + off*off
		}
		layers[k] = layer
	}
	last := -1
	for i := range ps {
		if c := layers[n-2][i].cost; num.AtMost(to-ps[i].at, pitch) && to-ps[i].at >= leastEnd && !math.IsInf(c, 1) && (last < 0 || c < layers[n-2][last].cost) {
			last = i
		}
	}
	if last < 0 {
		return nil, 0
	}
	cuts = make([]float64, n+1)
	cuts[n] = length
	for k := n - 2; k >= 0; k-- {
		cuts[k+1] = ps[last].at
		hits += ps[last].hits
		last = layers[k][last].back
	}
	return cuts, hits
}

// seamPlaces are the places worth a try, in order, with what they cost: where
// all pages are alike, as far as a page reaches, and beside every hole.
func seamPlaces(from, to, pitch float64, n int, holes []span, chains bool) []seamPlace {
	at := make([]float64, 0, 3*n+4*len(holes))
	each := (to - from) / float64(n)
	for k := 1; k < n; k++ {
		at = append(at, from+float64(k)*each, from+float64(k)*pitch, to-float64(k)*pitch)
	}
	los, his := make([]float64, len(holes)), make([]float64, len(holes))
	for i, h := range holes {
		at = append(at, h.lo, h.hi, h.lo-seamOff-ordSame, h.hi+seamOff+ordSame)
		los[i], his[i] = h.lo, h.hi
		for k := 1; chains && k < n; k++ {
			at = append(at, h.lo+float64(k)*pitch)
		}
	}
	sort.Float64s(at)
	sort.Float64s(los)
	sort.Float64s(his)
	ps := make([]seamPlace, 0, len(at))
	for i, v := range at {
		if v <= from || v >= to || i > 0 && v == at[i-1] {
			continue
		}
		// Holes that begin before the place, less those that end before it.
		hits := sort.SearchFloat64s(los, v) - upTo(his, v)
		near := sort.SearchFloat64s(los, v+seamOff) - upTo(his, v-seamOff)
		ps = append(ps, seamPlace{v, float64(hits)*costHit + float64(near)*costNear, hits})
	}
	return ps
}

// upTo is how many of the ordered values are not above v.
func upTo(vs []float64, v float64) int {
	return sort.Search(len(vs), func(i int) bool { return vs[i] > v })
}
