package check

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/strength"
)

var blockShear = &Check{
	ID:       "block-shear",
	Severity: diag.Error,
	strength: true,
	Title:    "a block of plate with its bolts holds less than their load",
	Meaning: "Bolts that share a load may pull a piece of plate out whole: sheared along the force beside the bolts and torn across it " +
		"behind them. Between every two rows and between the outer rows and the edges beside them the plate is either torn across or stays; of all " +
		"these ways the weakest is told. The bolts of loads of one case that pull the same way are looked at together as well.",
	Formula: "aisc 360: Rn = min(0.60 Fu Anv, 0.60 Fy Agv) + Ubs Fu Ant, Ubs 1, or 0.5 where the load is eccentric; phi 0.75, omega 2.00\n" +
		"en 1993-1-8: Veff,Rd = fu Ant/gM2 + fy Anv/(sqrt 3 gM0), half of the first term where it is eccentric",
	Source: "AISC 360-22 J4.3, eq. J4-5; EN 1993-1-8:2005 3.10.2, eqs. 3.9 and 3.10",
	Limits: "Two and more bolts; of one bolt tear-out tells. Rows run along the force: holes that stand in no rows are taken in rows of their own. " +
		"Each row goes with a piece of plate that is torn off on one side of it at least: of a row that goes alone tear-out tells. " +
		"Blocks bounded by an edge that runs askew are measured along lines through the outer bolts. Of staggered rows the way across counts straight.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() {
			for i := range c.groups {
				if g := &c.groups[i]; !g.load.Pin {
					c.blocks(&puller{in: g.in, os: g.os, force: g.load.Force, uneven: g.offset})
				}
			}
			for k := range c.cases {
				c.pulledTogether(&c.cases[k])
			}
		}
		c.tellHeld(from, func(h *held) []Change { return remedies(c.thicker(h), c.wider(h)) })
	},
}

// puller is bolts and what pulls on them.
type puller struct {
	in     *loadCase
	os     []*opening
	force  geom.Point
	uneven bool // not evenly, or past their middle
}

// pulledTogether looks at the bolts of several loads of one case: of all that pull the
// way of one of them, within an eighth of a turn, and of those near it.
func (c *Context) pulledTogether(in *loadCase) {
	if len(in.loads) < 2 {
		return
	}
	var done [][]int
	for i, l := range in.loads {
		size := l.Force.Len()
		if l.Pin || size == 0 || len(c.holders[l]) == 0 {
			continue
		}
		u := l.Force.Mul(1 / size)
		var all []int
		for j, m := range in.loads {
			if n := m.Force.Len(); !m.Pin && n > 0 && len(c.holders[m]) > 0 && m.Force.Dot(u) >= n*math.Sqrt2/2 {
				all = append(all, j)
			}
		}
		for _, set := range [2][]int{all, c.nearBy(in, i, all)} {
			if len(set) < 2 || slices.ContainsFunc(done, func(d []int) bool { return slices.Equal(d, set) }) {
				continue
			}
			done = append(done, set)
			c.blocks(c.together(in, set))
		}
	}
}

// nearBy is what of a set of loads hangs together with load i by holes that lie within
// the reach of a chain of one another.
func (c *Context) nearBy(in *loadCase, i int, all []int) []int {
	near := []int{i}
	left := slices.DeleteFunc(slices.Clone(all), func(j int) bool { return j == i })
	for k := 0; k < len(near); k++ {
		rest := left[:0]
		for _, j := range left {
			if c.beside(c.holders[in.loads[near[k]]], c.holders[in.loads[j]]) {
				near = append(near, j)
			} else {
				rest = append(rest, j)
			}
		}
		left = rest
	}
	slices.Sort(near)
	return near
}

// beside reports whether two sets of holes come within the reach of a chain.
func (c *Context) beside(a, b []*opening) bool {
	for _, o := range a {
		for _, p := range b {
			if o.at.Dist(p.at) <= chainNear*2*max(o.r, p.r) {
				return true
			}
		}
	}
	return false
}

// together sums loads up.
func (c *Context) together(in *loadCase, set []int) *puller {
	p := &puller{in: in}
	at := map[*opening]bool{}
	var mid geom.Point
	for _, j := range set {
		l := in.loads[j]
		p.force = p.force.Add(l.Force)
		for _, o := range c.holders[l] {
			if !at[o] {
				at[o] = true
				p.os = append(p.os, o)
				mid = mid.Add(o.at)
			}
		}
	}
	mid = mid.Mul(1 / float64(len(p.os)))
	moment := 0.0
	for _, j := range set {
		l := in.loads[j]
		moment += l.At.Sub(mid).Cross(l.Force) + l.Moment
		p.uneven = p.uneven || l.Placed && !num.Zero(l.At.Sub(mid).Cross(l.Force)/l.Force.Len())
	}
	p.uneven = p.uneven || !num.Zero(moment/p.force.Len())
	return p
}

// boltRow is the bolts of a group on one line along the force.
type boltRow struct {
	upTo        float64  // how far across the one farthest to the left lies
	front, rear *opening // the farthest along the force, and the first
	n           int
}

// rowsOf sorts the holes of a group into rows along a unit vector, from right to
// left of it.
func rowsOf(os []*opening, u geom.Point) []boltRow {
	sorted := slices.Clone(os)
	slices.SortFunc(sorted, func(a, b *opening) int { return cmp.Compare(u.Cross(a.at), u.Cross(b.at)) })
	var rows []boltRow
	for _, o := range sorted {
		g := u.Cross(o.at)
		k := len(rows) - 1
		if k < 0 || g-rows[k].upTo > o.r {
			rows = append(rows, boltRow{g, o, o, 1})
			continue
		}
		r := &rows[k]
		r.n++
		r.upTo = g
		if u.Dot(o.at) > u.Dot(r.front.at) {
			r.front = o
		}
		if u.Dot(o.at) < u.Dot(r.rear.at) {
			r.rear = o
		}
	}
	return rows
}

// stretchOf is a way across or along the plate: its length and what holes take of it.
type stretchOf struct{ gross, holes float64 }

func (c *Context) blocks(g *puller) {
	size := g.force.Len()
	if size == 0 || len(g.os) < 2 {
		return
	}
	u := g.force.Mul(1 / size)
	rows := rowsOf(g.os, u)
	wide := func(o *opening) float64 {
		w := o.widthAcross(u.Perp())
		if !c.method.eurocode {
			w = c.method.aisc.HoleWidth(w)
		}
		return w
	}
	lines := make([]stretchOf, len(rows))  // along each row, one line
	gaps := make([]stretchOf, len(rows)+1) // across: right of the first row, between rows, left of the last
	for i := range rows {
		r := &rows[i]
		metal, _ := c.metalAhead(r.front, u)
		lines[i] = stretchOf{u.Dot(r.front.at) - u.Dot(r.rear.at) + metal + r.front.ray(r.front.at, u), (float64(r.n) - 0.5) * wide(r.front)}
		if i > 0 {
			p := &rows[i-1]
			gaps[i] = stretchOf{u.Cross(r.rear.at) - u.Cross(p.rear.at), (wide(p.rear)+wide(r.rear))/2 + c.takenBetween(g, p.rear, r.rear, wide)}
		}
	}
	for k, r := range [2]*boltRow{&rows[0], &rows[len(rows)-1]} {
		side := u.Perp().Mul(float64(2*k - 1))
		metal, _ := c.metalAhead(r.rear, side)
		gaps[k*len(rows)] = stretchOf{metal + r.rear.ray(r.rear.at, side), wide(r.rear) / 2}
	}
	d := demand{o: rows[0].rear, in: g.in}
	h := ofHole(&d)
	h.place, h.set = setName(g.os[0]), setName(g.os[0])
	for _, s := range slices.Concat(lines, gaps) {
		if math.IsInf(s.gross, 1) {
			c.cannot(h, errOutside)
			return
		}
	}
	m := &c.Blank.Material
	base := strength.Block{T: c.Blank.Thickness, Fy: m.Fy, Fu: m.Fu, Uneven: g.uneven}
	k := 1.0
	if base.Uneven {
		k = 0.5
	}
	net := func(s stretchOf) float64 { return max(0, s.gross-s.holes) }
	tear := func(s stretchOf) float64 { return k * m.Fu * net(s) }
	weigh := func(torn []bool) {
		b := base
		for i, t := range torn {
			if t {
				b.Tension += gaps[i].gross
				b.TensionHoles += min(gaps[i].holes, gaps[i].gross)
			}
		}
		for i := range lines {
			if torn[i] != torn[i+1] {
				b.Shear += lines[i].gross
				b.ShearHoles += min(lines[i].holes, lines[i].gross)
			}
		}
		r := c.method.aisc.BlockShear(b)
		if c.method.eurocode {
			r = c.method.en.BlockTearing(b)
		}
		h := h
		h.load, h.result, h.v = size, r, r.Utilisation(size)
		c.weigh(h)
	}
	// The lesser of two sums is least where one of the two is.
	if c.method.eurocode {
		e := c.method.en.Recommended()
		weigh(weakestBlock(lines, gaps, func(s stretchOf) float64 { return m.Fy * net(s) / (math.Sqrt(3) * e.M0) },
			func(s stretchOf) float64 { return tear(s) / e.M2 }))
		return
	}
	weigh(weakestBlock(lines, gaps, func(s stretchOf) float64 { return 0.60 * m.Fu * net(s) }, tear))
	weigh(weakestBlock(lines, gaps, func(s stretchOf) float64 { return 0.60 * m.Fy * s.gross }, tear))
}

// weakestBlock says across which gaps the plate is torn in the block that costs least.
// Between two gaps that are torn, a row goes with both pieces; between one that is and
// one that is not it is sheared along; no two that follow each other are left. Not all
// are torn: that is a net section. Found gap by gap from the right (dynamic programming
// over whether the last gap is torn, and whether any was left).
func weakestBlock(lines, gaps []stretchOf, shear, tear func(stretchOf) float64) []bool {
	type state struct {
		cost float64
		from int8
	}
	none := state{math.Inf(1), -1}
	const torn, left = 1, 2
	steps := make([][4]state, len(gaps))
	steps[0] = [4]state{none, {tear(gaps[0]), -1}, {0, -1}, none}
	for i := 1; i < len(gaps); i++ {
		steps[i] = [4]state{none, none, none, none}
		for s, before := range steps[i-1] {
			for t := range 2 {
				if math.IsInf(before.cost, 1) || s&torn == 0 && t == 0 {
					continue
				}
				to, cost := s&left|t, before.cost
				if t == 0 {
					to |= left
				} else {
					cost += tear(gaps[i])
				}
				if s&torn != t {
					cost += shear(lines[i-1])
				}
				if cost < steps[i][to].cost {
					steps[i][to] = state{cost, int8(s)}
				}
			}
		}
	}
	last := steps[len(steps)-1]
	at := left
	if last[left|torn].cost < last[left].cost {
		at = left | torn
	}
	out := make([]bool, len(gaps))
	for i := len(gaps) - 1; i >= 0; i-- {
		out[i] = at&torn != 0
		at = int(steps[i][at].from)
	}
	return out
}

// takenBetween is what openings other than the group's own take of the way across
// between the rears of two rows, mm.
func (c *Context) takenBetween(g *puller, a, b *opening, wide func(*opening) float64) float64 {
	sum := 0.0
	q := box{min(a.at.X, b.at.X), min(a.at.Y, b.at.Y), max(a.at.X, b.at.X), max(a.at.Y, b.at.Y)}.grown(a.r)
	c.places.find(q, func(j int) {
		p := &c.openings[j]
		if p.toSeg(geom.Line(a.at, b.at)).D <= p.r && !slices.Contains(g.os, p) {
			sum += wide(p)
		}
	})
	return sum
}
