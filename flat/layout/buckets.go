package layout

import "math"

// buckets tell which items lie near a box: square cells over the plane, each with
// the items whose boxes reach into it. What lies beyond the outermost cells counts
// to them.
type buckets struct {
	x0, y0, perMM float64
	nx, ny        int
	cells         [][]int32
	spans         []cellSpan // by item; none where it is in no cell
}

type cellSpan struct{ x0, y0, x1, y1 int32 }

const (
	manyItems   = 40 // fewer are gone through one by one
	cellsPerOne = 4  // cells for each item, at most
)

func newBuckets(all int, area box, size float64) *buckets {
	w, h := area.x1-area.x0, area.y1-area.y0
	size = math.Max(size, math.Sqrt(w*h/float64(cellsPerOne*all)))
	b := &buckets{x0: area.x0, y0: area.y0, perMM: 1 / size, nx: int(w/size) + 1, ny: int(h/size) + 1}
	b.cells = make([][]int32, b.nx*b.ny)
	b.spans = make([]cellSpan, all)
	for i := range b.spans {
		b.spans[i].x1 = -1
	}
	return b
}

func (b *buckets) span(a box) cellSpan {
	return cellSpan{cellAt((a.x0-b.x0)*b.perMM, b.nx), cellAt((a.y0-b.y0)*b.perMM, b.ny), cellAt((a.x1-b.x0)*b.perMM, b.nx), cellAt((a.y1-b.y0)*b.perMM, b.ny)}
}

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
func (b *buckets) put(i int, a box) {
	s := b.span(a)
	old := b.spans[i]
	if s == old {
		return
	}
	if old.x1 >= 0 {
		for y := old.y0; y <= old.y1; y++ {
			for x := old.x0; x <= old.x1; x++ {
				c := b.cells[int(y)*b.nx+int(x)]
				for k := range c {
					if c[k] == int32(i) {
						c[k] = c[len(c)-1]
						b.cells[int(y)*b.nx+int(x)] = c[:len(c)-1]
						break
					}
				}
			}
		}
	}
	for y := s.y0; y <= s.y1; y++ {
		for x := s.x0; x <= s.x1; x++ {
			c := &b.cells[int(y)*b.nx+int(x)]
			*c = append(*c, int32(i))
		}
	}
	b.spans[i] = s
}

// near lists in l.found the items and blocks other than i whose boxes overlap a.
func (l *lane) near(i int, a box) []int32 {
	found := l.found[:0]
	if l.buckets == nil {
		for j := range l.boxes {
			b := &l.boxes[j]
			if b.x0 < a.x1 && b.x1 > a.x0 && b.y0 < a.y1 && b.y1 > a.y0 && j != i {
				found = append(found, int32(j))
			}
		}
		l.found = found
		return found
	}
	s := l.buckets.span(a)
	for y := s.y0; y <= s.y1; y++ {
		row := l.buckets.cells[int(y)*l.buckets.nx:]
		for x := s.x0; x <= s.x1; x++ {
			for _, j := range row[x] {
				b := &l.boxes[j]
				if b.x0 >= a.x1 || b.x1 <= a.x0 || b.y0 >= a.y1 || b.y1 <= a.y0 || int(j) == i {
					continue
				}
				// Once, in the first cell that both reach into.
				if t := &l.buckets.spans[j]; x == max(s.x0, t.x0) && y == max(s.y0, t.y0) {
					found = append(found, j)
				}
			}
		}
	}
	l.found = found
	return found
}

// sort puts the items of the lane into buckets, where there are many.
func (l *lane) sort() {
	l.buckets = nil
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
	l.buckets = newBuckets(l.all, area, size)
	for i, b := range l.boxes {
		l.buckets.put(i, b)
	}
}
