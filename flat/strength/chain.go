package strength

import (
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// ChainHole is a hole that a net section may run through: its centre and the
// width, mm, that it takes off the section (for AISC with HoleWidth, for EN d0).
type ChainHole struct {
	C     geom.Point
	Width float64
}

// Chain is a section across the force through some of the holes.
type Chain struct {
	Net    float64 // width that is left, mm, the stagger terms added
	Holes  []int   // the holes it runs through, in order across the force
	Taken  float64 // what the holes take, mm
	Raised float64 // what the stagger gives back, mm
}

// chainRoom is how many holes are looked at without asking for memory.
const chainRoom = 32

type chainLink struct {
	across, along float64
	best          float64 // least sum of stagger terms less widths, of all chains that end here
	least         float64 // the same of all chains that end here or before
	hole, prev    int32
}

// WeakestChain finds the section with the least net width, of all that cross a
// plate of the given width (mm) from edge to edge through the holes. The force
// runs along dir, of any length. Every hole takes its width off; every step from
// one hole to the next that goes s along and g across the force gives s^2/(4 g)
// back. Holes is appended to buf, which may be nil.
//
// V. H. Cochrane, Rules for Rivet Hole Deductions in Tension Members, Engineering
// News-Record 89, 1922; AISC 360 B4.3b (s^2/4g, from memory); EN 1993-1-1
// 6.2.2.2(4), eq. 6.3. All chains are compared, by dynamic programming over the
// holes in their order across the force. Limits: plate of one thickness, the whole
// force taken to cross the section (bolts nearer the end are not credited); holes
// straight behind one another along the force are not in one chain.
func WeakestChain(dir geom.Point, width float64, holes []ChainHole, buf []int) Chain {
	none := Chain{Net: width, Holes: buf}
	l := dir.Len()
	if !(l > 0) || len(holes) == 0 {
		return none
	}
	u := dir.Mul(1 / l)
	var room [chainRoom]chainLink
	links := room[:0]
	for i := range holes {
		links = append(links, chainLink{across: u.Cross(holes[i].C), along: u.Dot(holes[i].C), hole: int32(i)})
	}
	slices.SortFunc(links, func(a, b chainLink) int {
		switch {
		case a.across < b.across:
			return -1
		case a.across > b.across:
			return 1
		}
		return int(a.hole - b.hole)
	})
	end := -1
	least := 0.0
	for j := range links {
		k := &links[j]
		k.prev = -1
		before := 0.0 // straight from the edge
		// Backwards, until no chain that ends before can be better even without
		// stagger.
		for i := j - 1; i >= 0 && links[i].least < before; i-- {
			p := &links[i]
			g := k.across - p.across
			if p.best >= before || g <= num.Coincident {
				continue
			}
			if v := p.best + sq(k.along-p.along)/(4*g); v < before {
				before, k.prev = v, int32(i)
			}
		}
		k.best = before - holes[k.hole].Width
		if k.best < least {
			least, end = k.best, j
		}
		k.least = least
	}
	c := none
	c.Net = width + least
	for i := int32(end); i >= 0; i = links[i].prev {
		c.Holes = append(c.Holes, int(links[i].hole))
		c.Taken += holes[links[i].hole].Width
	}
	slices.Reverse(c.Holes[len(buf):])
	c.Raised = c.Taken + least
	return c
}

// Formula is the net width with the numbers put in; width is that of the plate.
func (c *Chain) Formula(width float64, u Units) string {
	f := put("wn = w - sum dh + sum s^2/(4 g) = {l} - {l} + {l}", width, c.Taken, math.Abs(c.Raised))
	b := append(f.append(nil, u), " = "...)
	return string(Length.Append(b, c.Net, u))
}
