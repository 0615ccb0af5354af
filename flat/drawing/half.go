package drawing

import (
	"blankwright/flat/geom"
)

// keepHalf keeps an open line, its ends joined straight, to tell what lies
// inside.
func (a *assembler) keepHalf(p Path) {
	n := len(p.Segs)
	if first, last := p.Segs[0].A, p.Segs[n-1].B; n > 1 && first != last {
		l := append(append(make(geom.Loop, 0, n+1), p.Segs...), geom.Line(last, first))
		a.out.half = append(a.out.half, Contour{Loop: l})
	}
}

// boxHalves keeps the boxes of open lines that wide gaps part: the halves of one
// outline.
func (a *assembler) boxHalves() {
	group := make([]int32, len(a.chains))
	for i := range group {
		group[i] = int32(i)
	}
	root := func(i int32) int32 {
		for group[i] != i {
			group[i] = group[group[i]]
			i = group[i]
		}
		return i
	}
	joined := map[int32]bool{}
	for _, g := range a.apart {
		c, d := root(a.chainOf[g.e>>1]), root(a.chainOf[g.f>>1])
		if c != d {
			group[max(c, d)] = min(c, d)
			joined[min(c, d)] = true
		}
	}
	boxes := map[int32]geom.Box{}
	var order []int32
	for i := range a.chains {
		c := &a.chains[i]
		r := root(int32(i))
		if c.closed || c.mark || !joined[r] {
			continue
		}
		if _, known := boxes[r]; !known {
			order = append(order, r)
		}
		b := boxes[r]
		for _, l := range a.linksOf(c) {
			b = b.Union(a.pieces[l.piece].seg.Bounds())
		}
		boxes[r] = b
	}
	for _, r := range order {
		a.out.boxes = append(a.out.boxes, boxes[r])
	}
}

// openTest tells what lies inside outlines that are open.
type openTest struct {
	half  *insideTest
	boxes []geom.Box
	tree  *boxTree
}

func newOpenTest(a *Assembly) *openTest {
	t := &openTest{half: newInsideTest(a.half), boxes: a.boxes}
	t.tree = newBoxTree(len(a.boxes), func(i int) (rect, bool) {
		b := a.boxes[i]
		return rect{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y}, true
	})
	return t
}

// holds reports whether a region lies inside an outline that is open.
func (t *openTest) holds(r geom.Region) bool {
	p := r.Outer[0].A
	if len(t.half.round(p, -1)) > 0 {
		return true
	}
	inside := false
	b := r.Bounds()
	at := rect{p.X, p.Y, p.X, p.Y}
	t.tree.find(&at, &t.half.search, func(i int32) {
		inside = inside || t.boxes[i].Holds(b.Min) && t.boxes[i].Holds(b.Max)
	})
	return inside || t.half.search.spent()
}
