package check

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/strength"
)

var blockShear = &Check{
	ID:       "block-shear",
	Severity: diag.Error,
	strength: true,
	Title:    "a block of plate with its bolts holds less than their load",
	Meaning: "Bolts that share a load may pull a piece of plate out whole: sheared along the force beside the bolts and torn across it " +
		"behind them. Looked at are the block between the outer rows and, of bolts in one row, the one from the row to each edge beside it.",
	Formula: "aisc 360: Rn = min(0.60 Fu Anv, 0.60 Fy Agv) + Ubs Fu Ant, Ubs 1, or 0.5 where the load is eccentric; phi 0.75, omega 2.00\n" +
		"en 1993-1-8: Veff,Rd = fu Ant/gM2 + fy Anv/(sqrt 3 gM0), half of the first term where it is eccentric",
	Source: "AISC 360-22 J4.3, eq. J4-5; EN 1993-1-8:2005 3.10.2, eqs. 3.9 and 3.10",
	Limits: "Two and more bolts; of one bolt tear-out tells. Rows run along the force: holes that stand in no rows are taken in rows of their own. " +
		"Blocks bounded by an edge that runs askew are measured along lines through the outer bolts.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() {
			for i := range c.groups {
				c.blocks(&c.groups[i])
			}
		}
		c.tellHeld(from, func(h *held) []Change { return remedies(c.thicker(h), c.wider(h)) })
	},
}

// boltRow is the bolts of a group on one line along the force.
type boltRow struct {
	across      float64  // of the row's first hole
	upTo        float64  // of the one farthest to the left
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
			rows = append(rows, boltRow{g, g, o, o, 1})
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

func (c *Context) blocks(g *group) {
	size := g.load.Force.Len()
	if size == 0 || g.load.Pin {
		return
	}
	u := g.load.Force.Mul(1 / size)
	rows := rowsOf(g.os, u)
	wide := func(o *opening) float64 {
		w := o.widthAcross(u.Perp())
		if !c.method.eurocode {
			w = c.method.aisc.HoleWidth(w)
		}
		return w
	}
	// A row sheared along: gross length and what its holes take.
	shear := func(r *boltRow) (gross, holes float64) {
		metal, _ := c.metalAhead(r.front, u)
		gross = u.Dot(r.front.at) - u.Dot(r.rear.at) + metal + r.front.ray(r.front.at, u)
		return gross, (float64(r.n) - 0.5) * wide(r.front)
	}
	m := &c.Blank.Material
	base := strength.Block{T: c.Blank.Thickness, Fy: m.Fy, Fu: m.Fu, Uneven: g.offset}
	weigh := func(b strength.Block, o *opening) {
		if math.IsInf(b.Shear, 1) || math.IsInf(b.Tension, 1) {
			return
		}
		r := c.method.aisc.BlockShear(b)
		if c.method.eurocode {
			r = c.method.en.BlockTearing(b)
		}
		d := demand{o: o, in: g.in}
		h := ofHole(&d)
		h.place, h.set = setName(g.os[0]), setName(g.os[0])
		h.load, h.result, h.v = size, r, r.Utilisation(size)
		c.weigh(h)
	}
	right, left := &rows[0], &rows[len(rows)-1]
	if len(rows) > 1 {
		b := base
		s1, h1 := shear(right)
		s2, h2 := shear(left)
		b.Shear, b.ShearHoles = s1+s2, h1+h2
		b.Tension = left.upTo - right.across
		for i := range rows {
			if i == 0 || i == len(rows)-1 {
				b.TensionHoles += wide(rows[i].rear) / 2
			} else {
				b.TensionHoles += wide(rows[i].rear)
			}
		}
		weigh(b, right.rear)
	}
	for k, r := range [2]*boltRow{right, left} {
		side := u.Perp().Mul(float64(2*k - 1))
		metal, _ := c.metalAhead(r.rear, side)
		b := base
		b.Shear, b.ShearHoles = shear(r)
		b.Tension, b.TensionHoles = metal+r.rear.ray(r.rear.at, side), wide(r.rear)/2
		if len(rows) == 1 {
			weigh(b, r.rear)
		}
	}
}
