package geom

import (
	"math"

	"blankwright/flat/num"
)

// grid is a flat index of boxes: square cells, each with a list of the boxes
// that reach into it. The cell is sized by the number of boxes and by their
// mean size, so that a box lies in a few cells and a cell holds a few boxes.
type grid struct {
	on     bool
	x0, y0 float64
	inv    float64 // cells per mm
	nx, ny int
	head   []int32 // per cell, -1 for empty
	ent    []entry
	mark   []int32 // per box: last visit
	visit  int32
}

type entry struct{ id, next int32 }

// lay sizes the grid for the boxes and clears it.
func (g *grid) lay(boxes []box4) {
	all := noBox
	mean := 0.0
	for i := range boxes {
		b := &boxes[i]
		all.join(*b)
		mean += max(b.x1-b.x0, b.y1-b.y0)
	}
	n := len(boxes)
	w, h := all.x1-all.x0, all.y1-all.y0
	cell := max(mean/float64(n), math.Sqrt(w*h/float64(num.CellsPerEdge*n)), max(w, h)/float64(2*n+16))
	if !(cell > 0) {
		cell = 1
	}
	// Off the round numbers that drawings are made of.
	g.x0, g.y0 = all.x0-num.GridSkewX*cell, all.y0-num.GridSkewY*cell
	g.inv = 1 / cell
	g.nx, g.ny = int((all.x1-g.x0)*g.inv)+1, int((all.y1-g.y0)*g.inv)+1
	g.head = resize(g.head, g.nx*g.ny)
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
		i0, i1 := g.col(b.x0), g.col(b.x1)
		r0, r1 := g.row(b.y0), g.row(b.y1)
		for r := r0; r <= r1; r++ {
			row := g.head[r*g.nx+i0 : r*g.nx+i1+1]
			for c := range row {
				for q := row[c]; q >= 0; q = g.ent[q].next {
					i := g.ent[q].id
					if g.mark[i] == j {
						continue
					}
					g.mark[i] = j
					if b.meets(&boxes[i]) {
						f(i, j)
					}
				}
				g.ent = append(g.ent, entry{j, row[c]})
				row[c] = int32(len(g.ent) - 1)
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
			row := g.head[r*g.nx+i0 : r*g.nx+i1+1]
			for c := range row {
				g.ent = append(g.ent, entry{int32(k), row[c]})
				row[c] = int32(len(g.ent) - 1)
			}
		}
	}
}
