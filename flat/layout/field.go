package layout

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// field tells for two shapes, each with its turn, how deep the second lies in
// the first for every place of the second relative to the first: the distance to
// the nearest place where they only touch (the penetration depth). Those places
// are the border of their no-fit region, the Minkowski sum of the first and the
// mirrored second (R. C. Art, IBM Cambridge Scientific Center report 36-Y08
// (1966); J. A. Bennell, J. F. Oliveira, "The geometry of nesting problems: a
// tutorial", European Journal of Operational Research 184 (2008)).
//
// A grid over the region lists for each cell the border's sides that can be
// nearest to a place in it, so that the depth is exact and costs a few sides.
type field struct {
	x0, y0, x1, y1 float64
	sx, sy         float64 // cells per mm
	nx, ny         int
	start          []int32 // by cell, into list; empty: the whole cell is outside
	list           []int16
	sides          []fieldSide
}

// fieldSide is a side of the border, from a in direction u over length l; the
// region lies on its left.
type fieldSide struct{ ax, ay, ux, uy, l float64 }

// newField makes the field for parts of a fixed and of a moving shape, whose
// boxes begin at the origin, with about so many cells.
func newField(fixed, moving [][]geom.Point, size float64, cells int) *field {
	eps := size * num.LayoutTouch
	sums := make([]sum, 0, len(fixed)*len(moving))
	for _, a := range fixed {
		for _, b := range moving {
			sums = append(sums, newSum(a, b, eps))
		}
	}
	f := &field{sides: border(sums, eps)}
	if len(f.sides) > math.MaxInt16 { // far more than any pair of parts has: their hulls
		return newField([][]geom.Point{hullOf(fixed)}, [][]geom.Point{hullOf(moving)}, size, cells)
	}
	f.x0, f.y0, f.x1, f.y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i := range sums {
		s := &sums[i]
		f.x0, f.y0 = math.Min(f.x0, s.x0), math.Min(f.y0, s.y0)
		f.x1, f.y1 = math.Max(f.x1, s.x1), math.Max(f.y1, s.y1)
	}
	w, h := f.x1-f.x0, f.y1-f.y0
	f.nx = min(max(int(math.Sqrt(float64(cells)*w/h)), 2), cells/2)
	f.ny = min(max(cells/f.nx, 2), cells/2)
	f.sx, f.sy = float64(f.nx)/w, float64(f.ny)/h
	f.fill()
	return f
}

func hullOf(parts [][]geom.Point) []geom.Point {
	var all []geom.Point
	for _, p := range parts {
		all = append(all, p...)
	}
	return convexHull(all)
}

// sum is the Minkowski sum of one convex part and a mirrored other.
type sum struct {
	sides          []fieldSide // counter-clockwise
	x0, y0, x1, y1 float64
}

func newSum(a, b []geom.Point, eps float64) sum {
	m := make([]geom.Point, len(b))
	for i := range b {
		m[i] = geom.Point{X: -b[i].X, Y: -b[i].Y}
	}
	i0, j0 := lowest(a), lowest(m)
	pts := make([]geom.Point, 0, len(a)+len(m))
	at := a[i0].Add(m[j0])
	for i, j := 0, 0; i < len(a) || j < len(m); {
		pts = append(pts, at)
		da := a[(i0+i+1)%len(a)].Sub(a[(i0+i)%len(a)])
		db := m[(j0+j+1)%len(m)].Sub(m[(j0+j)%len(m)])
		c := da.Cross(db)
		if ha, hb := lowerHalf(da), lowerHalf(db); ha != hb {
			if c = 1; ha {
				c = -1
			}
		}
		switch {
		case j == len(m) || i < len(a) && c > 0:
			at = at.Add(da)
			i++
		case i == len(a) || c < 0:
			at = at.Add(db)
			j++
		default:
			at = at.Add(da).Add(db)
			i++
			j++
		}
	}
	box := geom.BoxOf(pts...)
	s := sum{make([]fieldSide, 0, len(pts)), box.Min.X, box.Min.Y, box.Max.X, box.Max.Y}
	for k, p := range pts {
		d := pts[(k+1)%len(pts)].Sub(p)
		if l := d.Len(); l > eps {
			s.sides = append(s.sides, fieldSide{p.X, p.Y, d.X / l, d.Y / l, l})
		}
	}
	return s
}

// lowerHalf reports whether a direction points down, or straight back.
func lowerHalf(d geom.Point) bool { return d.Y < 0 || d.Y == 0 && d.X < 0 }

func lowest(p []geom.Point) int {
	k := 0
	for i := range p {
		if p[i].Y < p[k].Y || p[i].Y == p[k].Y && p[i].X < p[k].X {
			k = i
		}
	}
	return k
}

// border gives the sides of the union of convex polygons: of each side what lies
// in no other polygon.
func border(sums []sum, eps float64) []fieldSide {
	var out []fieldSide
	var free, next [][2]float64
	for i := range sums {
		for k := range sums[i].sides {
			e := &sums[i].sides[k]
			bx, by := e.ax+e.l*e.ux, e.ay+e.l*e.uy
			x0, y0, x1, y1 := min(e.ax, bx)-eps, min(e.ay, by)-eps, max(e.ax, bx)+eps, max(e.ay, by)+eps
			free = append(free[:0], [2]float64{0, e.l})
			for j := range sums {
				s := &sums[j]
				if j == i || x0 > s.x1 || x1 < s.x0 || y0 > s.y1 || y1 < s.y0 {
					continue
				}
				t0, t1 := s.covers(e, j < i, eps)
				if t1-t0 <= eps {
					continue
				}
				next = next[:0]
				for _, f := range free {
					if t0 >= f[1] || t1 <= f[0] {
						next = append(next, f)
						continue
					}
					if t0-f[0] > eps {
						next = append(next, [2]float64{f[0], t0})
					}
					if f[1]-t1 > eps {
						next = append(next, [2]float64{t1, f[1]})
					}
				}
				free, next = next, free
				if len(free) == 0 {
					break
				}
			}
			for _, f := range free {
				out = append(out, fieldSide{e.ax + e.ux*f[0], e.ay + e.uy*f[0], e.ux, e.uy, f[1] - f[0]})
			}
		}
	}
	return out
}

// covers gives the stretch of a side that lies in the polygon. A side that runs
// along one of the polygon's own counts as inside where the polygon lies on its
// other side, and otherwise for the later of the two.
func (s *sum) covers(e *fieldSide, earlier bool, eps float64) (t0, t1 float64) {
	t0, t1 = 0, e.l
	for k := range s.sides {
		c := &s.sides[k]
		h := c.ux*(e.ay-c.ay) - c.uy*(e.ax-c.ax) // positive on the inside
		g := c.ux*e.uy - c.uy*e.ux
		if h <= eps && h >= -eps {
			if end := h + g*e.l; end <= eps && end >= -eps {
				if c.ux*e.ux+c.uy*e.uy > 0 && !earlier {
					return 0, 0
				}
				continue
			}
		}
		switch {
		case g > 0:
			if t := -h / g; t > t0 {
				t0 = t
			}
		case g < 0:
			if t := -h / g; t < t1 {
				t1 = t
			}
		case h <= 0:
			return 0, 0
		}
		if t1-t0 <= eps {
			return 0, 0
		}
	}
	return t0, t1
}

// fill lists the sides that can be nearest, cell by cell, halving the grid.
func (f *field) fill() {
	d := divider{f: f, cells: make([][2]int32, f.nx*f.ny), far: make([]float64, len(f.sides))}
	all := make([]int16, len(f.sides))
	for i := range all {
		all[i] = int16(i)
	}
	d.divide(0, 0, f.nx, f.ny, all)
	f.start = make([]int32, len(d.cells)+1)
	n := int32(0)
	for i, c := range d.cells {
		f.start[i] = n
		n += c[1] - c[0]
	}
	f.start[len(d.cells)] = n
	f.list = make([]int16, 0, n)
	for _, c := range d.cells {
		f.list = append(f.list, d.lists[c[0]:c[1]]...)
	}
}

// divider halves a field's grid.
type divider struct {
	f     *field
	cells [][2]int32 // by cell, into lists
	lists []int16    // of the cells done
	stack []int16    // of the halves above the one that is divided
	far   []float64
}

func (d *divider) divide(i0, j0, i1, j1 int, sides []int16) {
	f := d.f
	x0, x1 := f.x0+float64(i0)/f.sx, f.x0+float64(i1)/f.sx
	y0, y1 := f.y0+float64(j0)/f.sy, f.y0+float64(j1)/f.sy
	cx, cy := (x0+x1)/2, (y0+y1)/2
	half := math.Sqrt((x1-x0)*(x1-x0)+(y1-y0)*(y1-y0)) / 2
	least := math.Inf(1)
	for k, s := range sides {
		d.far[k] = f.sides[s].distance(cx, cy)
		least = min(least, d.far[k])
	}
	top := len(d.stack)
	defer func() { d.stack = d.stack[:top] }()
	for k, s := range sides {
		if d.far[k] <= least+2*half*(1+num.LayoutTouch) {
			d.stack = append(d.stack, s)
		}
	}
	keep := d.stack[top:]
	if least > half {
		if in, _, _ := f.nearest(keep, cx, cy); in <= 0 {
			return // all of it is outside
		}
	}
	switch {
	case i1-i0 == 1 && j1-j0 == 1 || len(keep) == 1 && least > half:
		at := int32(len(d.lists))
		d.lists = append(d.lists, keep...)
		for j := j0; j < j1; j++ {
			for i := i0; i < i1; i++ {
				d.cells[j*f.nx+i] = [2]int32{at, int32(len(d.lists))}
			}
		}
	case i1-i0 >= j1-j0:
		m := (i0 + i1) / 2
		d.divide(i0, j0, m, j1, keep)
		d.divide(m, j0, i1, j1, keep)
	default:
		m := (j0 + j1) / 2
		d.divide(i0, j0, i1, m, keep)
		d.divide(i0, m, i1, j1, keep)
	}
}

func (s *fieldSide) distance(x, y float64) float64 {
	dx, dy := x-s.ax, y-s.ay
	t := min(max(dx*s.ux+dy*s.uy, 0), s.l)
	dx, dy = dx-t*s.ux, dy-t*s.uy
	return math.Sqrt(dx*dx + dy*dy)
}

// depth is how deep the place (x, y) lies in the region, mm, and the way out, a
// unit vector; 0 outside.
func (f *field) depth(x, y float64) (d, nx, ny float64) {
	list := f.listed(x, y)
	if len(list) == 0 {
		return 0, 0, 0
	}
	return f.nearest(list, x, y)
}

// measure is depth without the way out.
func (f *field) measure(x, y float64) float64 {
	list := f.listed(x, y)
	if len(list) == 0 {
		return 0
	}
	d2, _, _ := f.closest(list, x, y)
	return math.Sqrt(d2)
}

// listed are the sides that can be nearest to a place; none outside.
func (f *field) listed(x, y float64) []int16 {
	if !(x > f.x0 && x < f.x1 && y > f.y0 && y < f.y1) {
		return nil
	}
	i, j := int((x-f.x0)*f.sx), int((y-f.y0)*f.sy)
	if i >= f.nx {
		i = f.nx - 1
	}
	if j >= f.ny {
		j = f.ny - 1
	}
	c := j*f.nx + i
	return f.list[f.start[c]:f.start[c+1]]
}

// nearest is depth among the sides listed.
func (f *field) nearest(list []int16, x, y float64) (d, nx, ny float64) {
	d2, vx, vy := f.closest(list, x, y)
	if d2 == 0 {
		return 0, 0, 0
	}
	d = math.Sqrt(d2)
	return d, -vx / d, -vy / d
}

// closest is the square of the depth among the sides listed, and the vector from
// the nearest point of them; 0 outside. Where two sides meet in the nearest
// point, the sum of their normals tells inside from outside (J. A. Baerentzen,
// H. Aanaes, "Signed distance computation using the angle weighted
// pseudonormal", IEEE TVCG 11 (2005)).
func (f *field) closest(list []int16, x, y float64) (d2, vx, vy float64) {
	best := math.Inf(1)
	var mx, my float64
	for _, k := range list {
		s := &f.sides[k]
		dx, dy := x-s.ax, y-s.ay
		t := min(max(dx*s.ux+dy*s.uy, 0), s.l)
		dx -= t * s.ux
		dy -= t * s.uy
		q := dx*dx + dy*dy
		if q < best*(1-num.LayoutTie) {
			best, vx, vy, mx, my = q, dx, dy, s.uy, -s.ux
		} else if q <= best*(1+num.LayoutTie) && dx*vx+dy*vy >= best/2 { // the same point
			mx += s.uy
			my -= s.ux
			if q < best {
				best, vx, vy = q, dx, dy
			}
		}
	}
	if best == 0 || vx*mx+vy*my >= 0 {
		return 0, 0, 0
	}
	return best, vx, vy
}
