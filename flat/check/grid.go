package check

import "math"

// fewBoxes is how many boxes are looked through one by one: under it a grid
// costs more than it spares.
const fewBoxes = 12

// grid finds boxes by place: square cells over all of them, each with the list
// of the boxes that reach into it.
type grid struct {
	boxes      []box
	x0, y0     float64
	inv        float64 // cells per mm
	cols, rows int
	start      []int32 // first entry of each cell in list, and the end of the last
	list       []int32
}

func newGrid(boxes []box) grid {
	g := grid{boxes: boxes}
	if len(boxes) <= fewBoxes {
		return g
	}
	all := boxes[0]
	for _, b := range boxes[1:] {
		all = box{min(all.x0, b.x0), min(all.y0, b.y0), max(all.x1, b.x1), max(all.y1, b.y1)}
	}
	w, h := all.x1-all.x0, all.y1-all.y0
	// About as many cells as boxes, whatever the shape of the whole, and none
	// smaller than the mean box, so that the lists stay short.
	n, mean := float64(len(boxes)), 0.0
	for _, b := range boxes {
		mean += max(b.x1-b.x0, b.y1-b.y0) / n
	}
	side := max(math.Sqrt(w*h/n), max(w, h)/n, mean)
	if !(side > 0) || math.IsInf(side, 1) {
		return g
	}
	g.x0, g.y0, g.inv = all.x0, all.y0, 1/side
	g.cols, g.rows = int(w/side)+1, int(h/side)+1
	g.start = make([]int32, g.cols*g.rows+1)
	for i := range boxes {
		g.cells(&boxes[i], func(c int) { g.start[c+1]++ })
	}
	for c := 1; c < len(g.start); c++ {
		g.start[c] += g.start[c-1]
	}
	g.list = make([]int32, g.start[len(g.start)-1])
	next := make([]int32, g.cols*g.rows)
	copy(next, g.start)
	for i := range boxes {
		g.cells(&boxes[i], func(c int) {
			g.list[next[c]] = int32(i)
			next[c]++
		})
	}
	return g
}

// cell is the column and row that a place lies in, taken to the nearest one
// where it lies outside the grid.
func (g *grid) cell(x, y float64) (col, row int) {
	return clamp((x-g.x0)*g.inv, g.cols), clamp((y-g.y0)*g.inv, g.rows)
}

func clamp(v float64, n int) int {
	if !(v > 0) {
		return 0
	}
	if v >= float64(n) {
		return n - 1
	}
	return int(v)
}

func (g *grid) cells(b *box, each func(int)) {
	c0, r0 := g.cell(b.x0, b.y0)
	c1, r1 := g.cell(b.x1, b.y1)
	for r := r0; r <= r1; r++ {
		for c := c0; c <= c1; c++ {
			each(r*g.cols + c)
		}
	}
}

// find calls each with the index of every box that meets q, once.
func (g *grid) find(q box, each func(int)) {
	if g.start == nil {
		for i := range g.boxes {
			if g.boxes[i].meets(&q) {
				each(i)
			}
		}
		return
	}
	c0, r0 := g.cell(q.x0, q.y0)
	c1, r1 := g.cell(q.x1, q.y1)
	for r := r0; r <= r1; r++ {
		for c := c0; c <= c1; c++ {
			k := r*g.cols + c
			for _, i := range g.list[g.start[k]:g.start[k+1]] {
				b := &g.boxes[i]
				if !b.meets(&q) {
					continue
				}
				// Told in the first cell that the box and q share.
				if bc, br := g.cell(b.x0, b.y0); c == max(bc, c0) && r == max(br, r0) {
					each(int(i))
				}
			}
		}
	}
}
