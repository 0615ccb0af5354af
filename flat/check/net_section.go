package check

import (
	"math"

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
		"of a group through its first and its last row, straight or in steps from hole to hole, whichever leaves less.",
	Formula: "net width = width - sum of hole widths + sum of s^2/(4 g)\n" +
		"aisc 360: Pn = Fu Ae, phi 0.75, omega 2.00; Pn = Fy Ag, phi 0.90, omega 1.67; holes count 1/16 in (2 mm) wider\n" +
		"en 1993-1-8: Nu,Rd = 0.9 Anet fu/gM2; Npl,Rd = A fy/gM0",
	Source: "AISC 360-22 J4.1, eqs. J4-1 and J4-2, B4.3b; EN 1993-1-1:2005 6.2.3, eqs. 6.6 and 6.7, 6.2.2.2(4)",
	Limits: "The whole load of the holes is taken to cross the section in tension, whichever way it pushes; what one row has passed on before " +
		"the next is not credited. The force is taken to spread over the whole width at the hole: in wide plate it does not, and the " +
		"section is weaker than told. Pins are left to pin-plate. Loads of one case on several groups are not added up.",
	Run: func(c *Context) {
		from := len(c.held)
		if c.steel() && c.whole() {
			for k := range c.cases {
				for _, l := range c.cases[k].loads {
					if l.Pin {
						continue // pin-plate tells
					}
					c.netSections(&c.cases[k], c.holders[l], l.Force)
				}
			}
		}
		c.tellHeld(from, func(h *held) []Change { return remedies(c.thicker(h), c.wider(h)) })
	},
}

// netSections weighs the sections through the first and the last row of holes that
// share a force.
func (c *Context) netSections(in *loadCase, os []*opening, force geom.Point) {
	size := force.Len()
	if size == 0 || len(os) == 0 {
		return
	}
	u := force.Mul(1 / size)
	set := setName(os[0])
	first, last := os[0], os[0]
	for _, o := range os {
		if u.Dot(o.at) < u.Dot(first.at) {
			first = o
		}
		if u.Dot(o.at) > u.Dot(last.at) {
			last = o
		}
	}
	c.netAt(in, set, first, u, size)
	if num.Coincident < u.Dot(last.at)-u.Dot(first.at) {
		c.netAt(in, set, last, u, size)
	}
}

// chainNear is how many hole diameters along the force a hole may lie from the
// section and still be part of a chain: beyond it its stagger gives back more than
// it takes in all usual pitches.
const chainNear = 5

// netAt weighs the section through one hole, square to a unit vector.
func (c *Context) netAt(in *loadCase, set string, o *opening, u geom.Point, size float64) {
	across := u.Perp()
	var room [16]strength.Piece
	var span strength.Piece
	for _, p := range strength.Cut(geom.Region{Outer: c.outline.loop}, o.at, across, strength.Through, room[:0]) {
		if p.A < 0 && p.B > 0 {
			span = p
		}
	}
	width := span.B - span.A
	if width <= 0 {
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
