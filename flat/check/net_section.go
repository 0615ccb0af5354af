package check

import (
	"math"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/strength"
)

var netSection = &Check{
	ID:       "net-section",
	Severity: diag.Error,
	strength: true,
	Title:    "the plate holds less across its holes than its load",
	Meaning: "The plate is torn across the force where holes leave least of it. The section runs from edge to edge through the loaded hole, " +
		"of a group through its first and its last row, straight or in steps from hole to hole, whichever leaves less. What all loads of the case put across it counts.",
	Formula: "net width = width - sum of hole widths + sum of s^2/(4 g)\n" +
		"aisc 360: Pn = Fu Ae, phi 0.75, omega 2.00; Pn = Fy Ag, phi 0.90, omega 1.67; holes count 1/16 in (2 mm) wider\n" +
		"en 1993-1-8: Nu,Rd = 0.9 Anet fu/gM2; Npl,Rd = A fy/gM0",
	Source: "AISC 360-22 J4.1, eqs. J4-1 and J4-2, B4.3b; EN 1993-1-1:2005 6.2.3, eqs. 6.6 and 6.7, 6.2.2.2(4)",
	Limits: "The whole load of the holes is taken to cross the section in tension, whichever way it pushes; what one row has passed on before " +
		"the next is not credited. Of the other loads of the case all that pull the same way count, where one of their holes lies in the strip along the force " +
		"that the section crosses, before it or behind it. The force is taken to spread over the whole width at the hole: in wide plate it does not, and the " +
		"section is weaker than told. Pins are left to pin-plate.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() {
			for k := range c.cases {
				for _, l := range c.cases[k].loads {
					if l.Pin {
						continue // pin-plate tells
					}
					c.netSections(&c.cases[k], l)
				}
			}
		}
		c.tellHeld(from, func(h *held) []Change { return remedies(c.thicker(h), c.wider(h)) })
	},
}

// netSections weighs the sections through the first and the last row of the holes of
// a load.
func (c *Context) netSections(in *loadCase, l *blank.Load) {
	os := c.holders[l]
	size := l.Force.Len()
	if size == 0 || len(os) == 0 {
		return
	}
	u := l.Force.Mul(1 / size)
	first, last := ends(os, u)
	c.netThrough(in, l, first, u)
	if num.Coincident < u.Dot(last.at)-u.Dot(first.at) {
		c.netThrough(in, l, last, u)
	}
}

// ends are the first and the last of holes along a unit vector.
func ends(os []*opening, u geom.Point) (first, last *opening) {
	first, last = os[0], os[0]
	for _, o := range os {
		if u.Dot(o.at) < u.Dot(first.at) {
			first = o
		}
		if u.Dot(o.at) > u.Dot(last.at) {
			last = o
		}
	}
	return first, last
}

// netThrough weighs the section through one hole square to a load, and, where other
// loads of the case cross it too, the one square to all of them.
func (c *Context) netThrough(in *loadCase, l *blank.Load, o *opening, u geom.Point) {
	all := l.Force
	if len(in.loads) > 1 {
		if span, ok := c.spanAt(o, u); ok {
			all = c.crossing(in, l, o, u, span)
		}
	}
	c.netAt(in, setName(c.holders[l][0]), o, u, all.Dot(u))
	if n := all.Len(); n > 0 && math.Abs(u.Cross(all)) > num.Angular*n {
		v := all.Mul(1 / n)
		first, last := ends(c.holders[l], v)
		for _, o := range [2]*opening{first, last} {
			c.netAt(in, setName(c.holders[l][0]), o, v, n)
		}
	}
}

// spanAt is the metal from edge to edge of the outline across a unit vector through a
// hole, as the hole's own place sees it.
func (c *Context) spanAt(o *opening, u geom.Point) (span strength.Piece, ok bool) {
	var room [16]strength.Piece
	for _, p := range strength.Cut(geom.Region{Outer: c.outline.loop}, o.at, u.Perp(), strength.Through, room[:0]) {
		if p.A < 0 && p.B > 0 {
			return p, true
		}
	}
	return span, false
}

// crossing is the sum of a load and of all others of its case that pull the same way,
// or square to it, on a hole in the strip along u that a section crosses.
func (c *Context) crossing(in *loadCase, l *blank.Load, o *opening, u geom.Point, span strength.Piece) geom.Point {
	sum := l.Force
	across := u.Perp()
	for _, m := range in.loads {
		if m == l || m.Force.Dot(u) < -num.Angular*m.Force.Len() {
			continue
		}
		if slices.ContainsFunc(c.holders[m], func(p *opening) bool {
			s := across.Dot(p.at.Sub(o.at))
			return s > span.A && s < span.B
		}) {
			sum = sum.Add(m.Force)
		}
	}
	return sum
}

// chainNear is how many hole diameters along the force a hole may lie from the
// section and still be part of a chain: beyond it its stagger gives back more than
// it takes in all usual pitches.
const chainNear = 5

// netAt weighs the section through one hole, square to a unit vector.
func (c *Context) netAt(in *loadCase, set string, o *opening, u geom.Point, size float64) {
	across := u.Perp()
	span, _ := c.spanAt(o, u)
	width := span.B - span.A
	if width <= 0 {
		c.cannot(ofHole(&demand{o: o, in: in}), errOutside)
		return
	}
	var buf [32]strength.ChainHole
	holes := buf[:0]
	mid := o.at.Add(across.Mul((span.A + span.B) / 2))
	reach := chainNear * 2 * o.r
	add := func(p *opening) {
		w, s := p.at.Sub(o.at), 0.0
		if s = across.Dot(w); s <= span.A || s >= span.B || math.Abs(u.Dot(w)) > reach {
			return
		}
		d := p.widthAcross(across)
		if !c.method.eurocode {
			d = c.method.aisc.HoleWidth(d)
		}
		holes = append(holes, strength.ChainHole{C: p.at, Width: d})
	}
	add(o)
	if len(c.openings) > 1 {
		ends := [2]geom.Point{mid.Sub(across.Mul(width / 2)), mid.Add(across.Mul(width / 2))}
		q := box{min(ends[0].X, ends[1].X), min(ends[0].Y, ends[1].Y), max(ends[0].X, ends[1].X), max(ends[0].Y, ends[1].Y)}.grown(reach)
		c.places.find(q, func(j int) {
			if j != o.i {
				add(&c.openings[j])
			}
		})
	}
	chain := strength.WeakestChain(u, width, holes, nil)
	t, m := c.Blank.Thickness, &c.Blank.Material
	var r strength.Result
	if c.method.eurocode {
		r = worstOf(size, c.method.en.TensionRupture(m.Fu, chain.Net*t), c.method.en.TensionYield(m.Fy, width*t))
	} else {
		r = worstOf(size, c.method.aisc.TensionRupture(m.Fu, chain.Net*t), c.method.aisc.TensionYield(m.Fy, width*t))
	}
	d := demand{o: o, in: in}
	h := ofHole(&d)
	h.place, h.set = set, set
	h.load, h.result, h.v = size, r, r.Utilisation(size)
	c.weigh(h)
}

// widthAcross is how wide an opening is along a unit vector, mm.
func (o *opening) widthAcross(v geom.Point) float64 {
	if o.cut == nil {
		return 2 * (o.r + o.half*math.Abs(o.dir.Dot(v)))
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i := range o.cut.Loop {
		s := o.cut.Loop[i]
		for _, p := range [2]geom.Point{s.A, s.Mid()} {
			low, high = min(low, v.Dot(p)), max(high, v.Dot(p))
		}
	}
	return high - low
}
