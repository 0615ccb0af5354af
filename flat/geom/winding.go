package geom

import (
	"math"

	"blankwright/flat/num"
)

// lab is how often each operand's boundary winds round a place.
type lab struct{ a, b int32 }

func (l lab) plus(own int8, k int32) lab {
	if own == 0 {
		l.a += k
	} else {
		l.b += k
	}
	return l
}

func (l lab) add(m lab) lab { return lab{l.a + m.a, l.b + m.b} }
func (l lab) sub(m lab) lab { return lab{l.a - m.a, l.b - m.b} }

// windings finds winding numbers. A closed curve of lines and arcs winds round
// p as its chords do, corrected by the arcs between whose chord and curve p
// lies: no angles, no square roots, and vertices need no special case as chords
// share exact ends.
//
// With many edges the numbers at one reference point per grid cell are worked
// out a row at a time, when first asked for; the way from there to p stays
// within the cell.
type windings struct {
	g    *grid // the arrangement's, or the one below
	own  grid  // if the arrangement's cells share lists
	w    []lab
	done []bool
}

func (w *windings) reset() { w.g, w.done = nil, w.done[:0] }

// chordRay counts the crossing of a ray in +x (in +y if rayY is set) with the
// chord, which lies astride its line; left is positive if the ray starts to the
// left of the chord.
func (e *edge) chordRay(left float64, rayY bool) int32 {
	up := e.b.Y > e.a.Y
	if rayY {
		up = e.b.X < e.a.X
	}
	switch {
	case up && left > 0:
		return 1
	case !up && left < 0:
		return -1
	}
	return 0
}

// chordRayAt is chordRay for the ray from p, whether the chord lies astride it
// or not.
func (e *edge) chordRayAt(p Point, rayY bool) int32 {
	if rayY {
		if (e.a.X > p.X) == (e.b.X > p.X) {
			return 0
		}
	} else if (e.a.Y > p.Y) == (e.b.Y > p.Y) {
		return 0
	}
	return e.chordRay(e.offChord(p, rayY), rayY)
}

// chordLeft is positive if p lies to the left of the chord, exactly so.
func (e *edge) chordLeft(p Point) float64 {
	return num.Orient(e.a.X, e.a.Y, e.b.X, e.b.Y, p.X, p.Y)
}

// offChord is chordLeft for a point just off p to that side to which the rays
// take it: a ray in +x counts p as a little to the right of where it is and
// less so above, one in +y the other way about. So a point on the chord of an
// arc is on one side of it for all arcs.
func (e *edge) offChord(p Point, rayY bool) float64 {
	left := e.chordLeft(p)
	if left != 0 {
		return left
	}
	dx, dy := e.b.X-e.a.X, e.b.Y-e.a.Y
	if rayY && dx != 0 || dy == 0 {
		return dx
	}
	return -dy
}

// capHolds reports whether p, if it lies on the arc's side of the chord, lies
// between both. That all lies no farther from the middle of the arc than its
// ends do: told so that a chord a little off its circle does no harm far away.
func (e *edge) capHolds(p Point) bool {
	return dist2(p, e.c) < e.r*e.r && dist2(p, e.m) <= e.m2
}

// cap counts p if it lies between chord and arc.
func (e *edge) cap(left float64, inside bool) int32 {
	switch {
	case !inside:
		return 0
	case e.turn > 0 && left < 0:
		return 1
	case e.turn < 0 && left > 0:
		return -1
	}
	return 0
}

// leftOfEdge is the winding just to the left of p, which lies on some edge of
// the arrangement running in direction t. Edges that pass through p count as
// that one does.
func (a *arrangement) leftOfEdge(p, t Point) lab {
	flatRun := math.Abs(t.X) > math.Abs(t.Y)
	var w lab
	if !a.grid.on {
		tol := num.Fuse * a.eps
		q := box4{p.X - tol, p.Y - tol, math.Inf(1), p.Y + tol} // what the ray may meet
		if flatRun {
			q = box4{p.X - tol, p.Y - tol, p.X + tol, math.Inf(1)}
		}
		for i := range a.runs {
			r := &a.runs[i]
			if !r.box.meets(&q) {
				continue
			}
			for k := r.from; k < r.to; k++ {
				if a.boxes[k].meets(&q) {
					w = a.count(w, k, p, t, flatRun)
				}
			}
		}
		return w
	}
	g := a.windGrid()
	c, r := g.col(p.X), g.row(p.Y)
	w = a.cellWinding(c, r)
	// From the reference point to p by way of the corner k, the last leg square
	// to the edge through p.
	ref := g.ref(c, r)
	k := Point{ref.X, p.Y}
	if flatRun {
		k = Point{p.X, ref.Y}
	}
	for q := g.head[r*g.nx+c]; q >= 0; q = g.ent[q].next {
		i := g.ent[q].id
		e := &a.edges[i]
		if k := e.chordRayAt(k, !flatRun) - e.chordRayAt(ref, !flatRun) - e.chordRayAt(k, flatRun); k != 0 {
			w = w.plus(e.own, k)
		}
		w = a.count(w, i, p, t, flatRun)
	}
	return w
}

// holdsPlace reports whether p, which is not near any edge, lies inside operand
// 0.
func (a *arrangement) holdsPlace(p Point) bool { return a.leftOfEdge(p, Point{}).a > 0 }

// count adds edge i's part in the winding left of p.
func (a *arrangement) count(w lab, i int32, p, t Point, flatRun bool) lab {
	e := &a.edges[i]
	astride := (e.a.Y > p.Y) != (e.b.Y > p.Y)
	if flatRun {
		astride = (e.a.X > p.X) != (e.b.X > p.X)
	}
	inside := false
	if e.turn != 0 {
		inside = e.capHolds(p)
	}
	var k int32
	if tol := num.Fuse * a.eps; a.boxes[i].reaches(p, tol) && math.Abs(e.side(p)) <= tol && e.between(p) {
		// An edge through p: which side is left follows from its direction.
		dx, dy := e.b.X-e.a.X, e.b.Y-e.a.Y
		if e.turn != 0 {
			dx, dy = e.c.Y-p.Y, p.X-e.c.X
			if e.turn < 0 {
				dx, dy = -dx, -dy
			}
		}
		along := dx*t.X+dy*t.Y > 0
		left := -1.0
		if e.turn != 0 {
			left = e.offChord(p, flatRun)
			k = e.cap(left, along == (e.turn > 0))
		} else if along {
			left = 1
		}
		if astride {
			k += e.chordRay(left, flatRun)
		}
	} else if astride || inside {
		left := e.offChord(p, flatRun)
		k = e.cap(left, inside)
		if astride {
			k += e.chordRay(left, flatRun)
		}
	}
	if k == 0 {
		return w
	}
	return w.plus(e.own, k)
}

// ref is the reference point of a cell.
func (g *grid) ref(c, r int) Point {
	return Point{g.x0 + (float64(c)+0.5)/g.inv, g.y0 + (float64(r)+0.5)/g.inv}
}

// windGrid is a grid of all edges whose cells have lists of their own.
func (a *arrangement) windGrid() *grid {
	w := &a.win
	if w.g == nil {
		w.g = &a.grid
		if a.grid.mask != 0 {
			w.g = &w.own
			w.g.lay(a.boxes, 0, true)
			w.g.fill(a.boxes)
		}
	}
	return w.g
}

// cellWinding is the winding of the chords round a cell's reference point.
func (a *arrangement) cellWinding(c, r int) lab {
	g, w := a.win.g, &a.win
	if len(w.done) == 0 {
		w.w = resize(w.w, g.nx*g.ny)
		w.done = resize(w.done, g.ny)
		clear(w.done)
	}
	if !w.done[r] {
		a.fillRow(r)
	}
	return w.w[r*g.nx+c]
}

// fillRow finds the windings of the chords for a row of cells: each crossing
// counts for all reference points to its left.
func (a *arrangement) fillRow(r int) {
	g := a.win.g
	row := a.win.w[r*g.nx : (r+1)*g.nx]
	clear(row)
	g.visit++
	y := g.ref(0, r).Y
	for c := range row {
		for q := g.head[r*g.nx+c]; q >= 0; q = g.ent[q].next {
			i := g.ent[q].id
			if g.mark[i] == g.visit {
				continue
			}
			g.mark[i] = g.visit
			e := &a.edges[i]
			if (e.a.Y > y) == (e.b.Y > y) {
				continue
			}
			x := e.a.X + (y-e.a.Y)*((e.b.X-e.a.X)/(e.b.Y-e.a.Y))
			k := min(int(math.Floor((x-g.x0)*g.inv-0.5)), g.nx-1)
			if k < 0 {
				continue
			}
			up := int32(-1)
			if e.b.Y > e.a.Y {
				up = 1
			}
			row[k] = row[k].plus(e.own, up)
		}
	}
	for c := g.nx - 2; c >= 0; c-- {
		row[c] = row[c].add(row[c+1])
	}
	a.win.done[r] = true
}
