package geom

import (
	"math"
	"math/bits"

	"blankwright/flat/num"
)

// grid is a flat index of boxes: square cells, each with a list of the boxes
// that reach into it. The cell is sized by the number of boxes and by their
// mean size, so that a box lies in a few cells and a cell holds a few boxes.
// Where boxes fill little of the plane (an outline of many short edges), cells
// of their size would be too many: then cells share lists by a hash.
type grid struct {
	on     bool
	x0, y0 float64
	inv    float64 // cells per mm
	nx, ny int
	mask   uint32  // not 0: lists are shared, by hash
	head   []int32 // per list, -1 for empty
	ent    []entry
	mark   []int32 // per box: last visit
	visit  int32
}

type entry struct{ id, next int32 }

// lay sizes the grid for the boxes and clears it. No cell is smaller than
// least. If dense is set every cell has a list of its own.
func (g *grid) lay(boxes []box4, least float64, dense bool) {
	all := noBox
	mean := 0.0
	for i := range boxes {
		b := &boxes[i]
		all.join(*b)
		mean += max(b.x1-b.x0, b.y1-b.y0)
	}
	n := len(boxes)
	w, h := all.x1-all.x0, all.y1-all.y0
	small := max(mean/float64(n), least, max(w, h)/num.MaxCells)
	cell := max(small, math.Sqrt(w*h/float64(num.CellsPerEdge*n)), max(w, h)/float64(2*n+16))
	g.mask = 0
	if !dense && cell > num.SparseCell*small {
		cell = 2 * small
		g.mask = uint32(1)<<bits.Len(uint(2*n)) - 1
	}
	if !(cell > 0) {
		cell = 1
	}
	// Off the round numbers that drawings are made of.
	g.x0, g.y0 = all.x0-num.GridSkewX*cell, all.y0-num.GridSkewY*cell
	g.inv = 1 / cell
	g.nx, g.ny = int((all.x1-g.x0)*g.inv)+1, int((all.y1-g.y0)*g.inv)+1
	lists := g.nx * g.ny
	if g.mask != 0 {
		lists = int(g.mask) + 1
	}
	g.head = resize(g.head, lists)
	for i := range g.head {
		g.head[i] = -1
	}
	g.ent = g.ent[:0]
	g.mark = resize(g.mark, n)
	for i := range g.mark {
		g.mark[i] = -1
	}
	g.visit = 0
	g.on = true
}

// list is the number of the list of a cell.
func (g *grid) list(c, r int) int {
	if g.mask == 0 {
		return r*g.nx + c
	}
	// Cells that lie side by side have lists side by side.
	return int((uint32(c) + uint32(r)*num.GridStride) & g.mask)
}

func (g *grid) col(x float64) int { return clampInt(int((x-g.x0)*g.inv), g.nx) }
func (g *grid) row(y float64) int { return clampInt(int((y-g.y0)*g.inv), g.ny) }

func clampInt(i, n int) int {
	if i < 0 {
		return 0
	}
	if i >= n {
		return n - 1
	}
	return i
}

// pairs enters the boxes one by one and calls f once for every two boxes that
// meet, the earlier one first.
func (g *grid) pairs(boxes []box4, f func(i, j int32)) {
	for k := range boxes {
		b := &boxes[k]
		j := int32(k)
		g.mark[j] = j
		i0, i1 := g.col(b.x0), g.col(b.x1)
		r0, r1 := g.row(b.y0), g.row(b.y1)
		for r := r0; r <= r1; r++ {
			for c := i0; c <= i1; c++ {
				head := &g.head[g.list(c, r)]
				for q := *head; q >= 0; q = g.ent[q].next {
					i := g.ent[q].id
					if g.mark[i] == j {
						continue
					}
					g.mark[i] = j
					if b.meets(&boxes[i]) {
						f(i, j)
					}
				}
				g.ent = append(g.ent, entry{j, *head})
				*head = int32(len(g.ent) - 1)
			}
		}
	}
	for i := range boxes {
		g.mark[i] = -1
	}
}

// fill enters the boxes without looking for pairs.
func (g *grid) fill(boxes []box4) {
	for k := range boxes {
		b := &boxes[k]
		i0, i1 := g.col(b.x0), g.col(b.x1)
		r0, r1 := g.row(b.y0), g.row(b.y1)
		for r := r0; r <= r1; r++ {
			for c := i0; c <= i1; c++ {
				head := &g.head[g.list(c, r)]
				g.ent = append(g.ent, entry{int32(k), *head})
				*head = int32(len(g.ent) - 1)
			}
		}
	}
}
