package layout

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// orient is a shape in one of its turns: a polygon that holds the piece and half
// the gap round it, its box beginning at the origin.
type orient struct {
	turn     float64    // rad
	off      geom.Point // the turned region moved by off is inside the polygon
	rings    [][]geom.Point
	parts    [][]geom.Point // convex, covering the polygon
	w, h     float64
	trim     box // how far the polygon's box reaches out past what must lie in a bin
	opposite int // the same shape turned by half a turn, or -1
}

// newOrient turns the polygon.
func newOrient(rings [][]geom.Point, turn float64) orient {
	m := geom.Rotate(turn)
	o := orient{turn: turn, opposite: -1, rings: make([][]geom.Point, len(rings))}
	var box geom.Box
	for i, r := range rings {
		o.rings[i] = make([]geom.Point, len(r))
		for k, p := range r {
			o.rings[i][k] = m.Apply(p)
			box = box.Extend(o.rings[i][k])
		}
	}
	o.off = geom.Point{X: -box.Min.X, Y: -box.Min.Y}
	for _, r := range o.rings {
		for k := range r {
			r[k] = r[k].Add(o.off)
		}
	}
	o.w, o.h = box.Width(), box.Height()
	return o
}

// motion brings the piece to a spot.
func (o *orient) motion(s spot) geom.Motion {
	return geom.Rotate(o.turn).Then(geom.Translate(s.x+o.off.X, s.y+o.off.Y))
}

// like reports whether two turns of one shape are the same polygon.
func (o *orient) like(p *orient, eps float64) bool {
	if math.Abs(o.w-p.w) > eps || math.Abs(o.h-p.h) > eps {
		return false
	}
	for i := range o.rings {
		for _, a := range o.rings[i] {
			if !slices.ContainsFunc(p.rings[i], func(b geom.Point) bool {
				return math.Abs(a.X-b.X) <= eps && math.Abs(a.Y-b.Y) <= eps
			}) {
				return false
			}
		}
	}
	return true
}

// pairOpposites finds the orients, beginning with one, that are each other turned
// by half a turn.
func pairOpposites(os []orient, from int, eps float64) {
	for i := from; i < len(os); i++ {
		for j := from; j < len(os); j++ {
			if o := newOrient(os[i].rings, math.Pi); i != j && o.like(&os[j], eps) {
				os[i].opposite = j
			}
		}
	}
}

func ringArea(r []geom.Point) float64 {
	a := 0.0
	for i := range r {
		a += r[i].Cross(r[(i+1)%len(r)])
	}
	return a / 2
}

// thin leaves out corners of a ring whose material lies on its left, so that the
// polygon only grows: hollow corners are filled, short sides between two corners
// give way to the point where their neighbours meet. It stops when the next step
// would bring what is added over budget (mm2), unless more than enough corners
// are left and it stays below the larger one.
func thin(r []geom.Point, budget, larger float64, enough int) []geom.Point {
	r = append([]geom.Point(nil), r...)
	spent := 0.0
	for len(r) > 3 {
		best, at, tip, hollow := math.Inf(1), -1, geom.Point{}, false
		for i := range r {
			n := len(r)
			a, b, c, d := r[(i+n-1)%n], r[i], r[(i+1)%n], r[(i+2)%n]
			turn := orient2(a, b, c)
			if turn <= 0 { // hollow or straight at b
				if v := -turn / 2; v < best && clear(r, a, b, c) {
					best, at, hollow = v, i, true
				}
				continue
			}
			if orient2(b, c, d) <= 0 || n < 4 {
				continue
			}
			u, w := b.Sub(a), c.Sub(d)
			k := u.Cross(w)
			if k >= 0 { // the neighbours do not meet beyond the side
				continue
			}
			x := b.Add(u.Mul(c.Sub(b).Cross(w) / k))
			if v := math.Abs(orient2(b, x, c)) / 2; v < best && clear(r, b, x, c) {
				best, at, tip, hollow = v, i, x, false
			}
		}
		limit := budget
		if len(r) > enough {
			limit = larger
		}
		if at < 0 || spent+best > limit {
			break
		}
		spent += best
		if !hollow {
			r[(at+1)%len(r)] = tip
		}
		r = slices.Delete(r, at, at+1)
	}
	return r
}

// clear reports whether no corner of the ring but its own lies in a triangle.
func clear(r []geom.Point, a, b, c geom.Point) bool {
	for _, p := range r {
		if p != a && p != b && p != c && inTriangle(a, b, c, p) {
			return false
		}
	}
	return true
}

const (
	fewCorners = 24     // more than these are thinned harder
	thinLittle = 0.0001 // share of the area that thinning may always add
	thinMore   = 0.0015 // and while there are more than fewCorners
	roundShare = 0.002  // of a piece's size: how far a polygon may reach past an arc
	anyTurns   = 64     // turns tried for pieces that may lie at any angle, all kinds together, beyond quarter turns
	longSide   = 0.3    // share of a piece's size from which a side is worth turning to an axis
	sameTurn   = 0.01   // rad: turns no further apart are one
	mostTurns  = 400    // turns of all kinds together
	manyKinds  = 32     // more than these are drawn with fewer corners
)

// grow is how far, mm, polygons hold a piece's surroundings.
func (o *Options) grow() float64 {
	if o.Gap == 0 {
		return 0
	}
	return o.Gap/2 + num.LayoutHair
}

// trimTo measures how far the polygon's box reaches out past the grown box of
// the piece itself: polygons for arcs reach out a little, and must not keep a
// piece from the edge of the plate.
func (o *orient) trimTo(r geom.Region, grow float64) {
	b := r.Transform(geom.Rotate(o.turn)).Bounds().Grow(grow)
	o.trim = box{
		max(b.Min.X+o.off.X, 0), max(b.Min.Y+o.off.Y, 0),
		max(o.w-b.Max.X-o.off.X, 0), max(o.h-b.Max.Y-o.off.Y, 0),
	}
}

// outline is the polygon that stands for a piece: it holds every place within
// half the gap of it.
func outline(r geom.Region, o Options, kinds int) ([][]geom.Point, error) {
	if !o.InsideOpenings {
		r.Holes = nil
	}
	area := math.Abs(r.Outer.Area())
	tol := math.Min(num.LayoutArc, roundShare*math.Sqrt(area))
	grown := []geom.Region{r}
	if o.Gap > 0 {
		var err error
		if grown, err = geom.Offset([]geom.Region{r}, o.grow(), geom.Round); err != nil {
			return nil, err
		}
	}
	rings := [][]geom.Point{outerPoints(grown[0].Outer, tol)}
	for _, h := range grown[0].Holes {
		rings = append(rings, outerPoints(h, tol))
	}
	for i, ring := range rings {
		enough, more := fewCorners, thinMore
		if kinds > manyKinds {
			enough, more = fewCorners/2, 4*thinMore
		}
		rings[i] = thin(ring, thinLittle*area, more*area, enough)
	}
	return rings, nil
}

// turnsOf are the turns that are tried for one of so many kinds of pieces. A
// piece that may lie at any angle is tried by quarter turns and along its longer
// sides, less of them where there are many kinds: what the search loses on
// angles it gains on time.
func turnsOf(p *Piece, rings [][]geom.Point, kinds int) []float64 {
	var turns turnSet
	if len(p.Turns) > 0 {
		for _, a := range p.Turns {
			turns.add(a)
		}
		return turns.few(kinds)
	}
	h := convexHull(rings[0])
	type side struct{ l, a float64 }
	var sides []side
	for i := range h {
		d := h[(i+1)%len(h)].Sub(h[i])
		sides = append(sides, side{d.Len(), math.Atan2(d.Y, d.X)})
	}
	slices.SortStableFunc(sides, func(a, b side) int { return cmp.Compare(b.l, a.l) })
	if 4*kinds > mostTurns { // along the longest side, and back
		turns.add(-sides[0].a)
		turns.add(math.Pi - sides[0].a)
		return turns.few(kinds)
	}
	for k := range 4 {
		turns.add(float64(k) * math.Pi / 2)
	}
	box := geom.BoxOf(rings[0]...)
	for _, s := range sides {
		if len(turns)*kinds >= anyTurns || s.l < longSide*math.Max(box.Width(), box.Height()) {
			break
		}
		for k := range 4 {
			turns.add(float64(k)*math.Pi/2 - s.a)
		}
	}
	return turns
}

// turnSet is a list of turns, each once.
type turnSet []float64

func (t *turnSet) add(a float64) {
	if t.find(a) < 0 {
		*t = append(*t, a)
	}
}

// find is the place of a turn in the list, or -1.
func (t turnSet) find(a float64) int {
	return slices.IndexFunc(t, func(b float64) bool { return math.Abs(math.Remainder(a-b, 2*math.Pi)) < sameTurn })
}

// few leaves only one turn, and the one back if that is allowed, where there are
// too many kinds for all.
func (t turnSet) few(kinds int) []float64 {
	if len(t)*kinds <= mostTurns || len(t) < 2 {
		return t
	}
	if k := t.find(t[0] + math.Pi); k > 0 {
		return []float64{t[0], t[k]}
	}
	return t[:1]
}
