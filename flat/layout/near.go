package layout

import (
	"math"
	"math/bits"
)

// finder tells which items lie near a box. Along each axis it keeps for every
// cell the set of the items that begin no later, and of those that end no
// earlier: what reaches into a box is what four such sets have in common.
type finder struct {
	x0, y0, perX, perY float64
	nx, ny             int
	words              int         // of a set
	sets               [4][]uint64 // by axis and end, then by cell
	spans              []cellSpan  // by item
}

type cellSpan struct{ x0, y0, x1, y1 int32 }

const (
	manyItems   = 20  // fewer are gone through one by one
	cellsAcross = 8   // cells across an item of middle size
	mostAcross  = 400 // cells along an axis
)

func newFinder(all int, area box, size float64) *finder {
	f := &finder{x0: area.x0, y0: area.y0, words: (all + 63) / 64}
	f.nx, f.perX = cellsAlong(area.x1-area.x0, size)
	f.ny, f.perY = cellsAlong(area.y1-area.y0, size)
	for k, n := range [4]int{f.nx, f.nx, f.ny, f.ny} {
		f.sets[k] = make([]uint64, n*f.words)
	}
	f.spans = make([]cellSpan, all)
	for i := range f.spans { // in no cell
		f.spans[i] = cellSpan{int32(f.nx), int32(f.ny), -1, -1}
	}
	return f
}

func cellsAlong(length, size float64) (n int, perMM float64) {
	if !(length > 0) || !(size > 0) {
		return 1, 1
	}
	n = int(math.Min(length/size*cellsAcross, mostAcross-1)) + 1
	return n, float64(n) / length
}

func (f *finder) span(a box) cellSpan {
	return cellSpan{cellAt((a.x0-f.x0)*f.perX, f.nx), cellAt((a.y0-f.y0)*f.perY, f.ny), cellAt((a.x1-f.x0)*f.perX, f.nx), cellAt((a.y1-f.y0)*f.perY, f.ny)}
}

// cellAt is the cell of a place; what lies beyond the outermost cells counts to
// them.
func cellAt(v float64, n int) int32 {
	if !(v > 0) {
		return 0
	}
	if v >= float64(n) {
		return int32(n - 1)
	}
	return int32(v)
}

// put brings an item to where its box is now.
func (f *finder) put(i int, a box) {
	s, old := f.span(a), f.spans[i]
	if s == old {
		return
	}
	w, bit := i>>6, uint64(1)<<(i&63)
	f.flip(f.sets[0], w, bit, s.x0, old.x0)
	f.flip(f.sets[1], w, bit, s.x1+1, old.x1+1)
	f.flip(f.sets[2], w, bit, s.y0, old.y0)
	f.flip(f.sets[3], w, bit, s.y1+1, old.y1+1)
	f.spans[i] = s
}

// flip takes an item into the sets between two cells, or out of them.
func (f *finder) flip(sets []uint64, w int, bit uint64, a, b int32) {
	for c := min(a, b); c < max(a, b); c++ {
		sets[int(c)*f.words+w] ^= bit
	}
}

// reach gives the four sets for a box: word by word, what they have in common
// may lie in the box.
func (f *finder) reach(a box) (x0, x1, y0, y1 []uint64) {
	s := f.span(a)
	n := f.words
	x0 = f.sets[0][int(s.x1)*n:][:n]
	x1 = f.sets[1][int(s.x0)*n:][:n]
	y0 = f.sets[2][int(s.y1)*n:][:n]
	y1 = f.sets[3][int(s.y0)*n:][:n]
	return x0, x1, y0, y1
}

// near lists in l.found the items and blocks other than i whose boxes overlap a.
func (l *lane) near(i int, a box) []int32 {
	found := l.found[:0]
	if l.finder == nil {
		for j := range l.boxes {
			b := &l.boxes[j]
			if b.x0 < a.x1 && b.x1 > a.x0 && b.y0 < a.y1 && b.y1 > a.y0 && j != i {
				found = append(found, int32(j))
			}
		}
		l.found = found
		return found
	}
	x0, x1, y0, y1 := l.finder.reach(a)
	for w := range x0 {
		for m := x0[w] & x1[w] & y0[w] & y1[w]; m != 0; m &= m - 1 {
			j := w<<6 + bits.TrailingZeros64(m)
			b := &l.boxes[j]
			if b.x0 < a.x1 && b.x1 > a.x0 && b.y0 < a.y1 && b.y1 > a.y0 && j != i {
				found = append(found, int32(j))
			}
		}
	}
	l.found = found
	return found
}

// sort makes the finder for the items of the lane as they lie, where there are
// many.
func (l *lane) sort() {
	l.finder = nil
	if l.all < manyItems {
		return
	}
	area := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, b := range l.bins {
		area = box{min(area.x0, b.x0), min(area.y0, b.y0), max(area.x1, b.x1), max(area.y1, b.y1)}
	}
	size := 0.0
	for i := range l.n {
		b := &l.boxes[i]
		size += math.Sqrt((b.x1-b.x0)*(b.y1-b.y0)) / float64(l.n)
	}
	l.finder = newFinder(l.all, area, size)
	for i, b := range l.boxes {
		l.finder.put(i, b)
	}
}
