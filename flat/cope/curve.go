package cope

import (
	"fmt"
	"math"
	"slices"

	"blankwright/flat/num"
)

// Curve is one line on the tube's end as a function of q. It is smooth but for
// its kinks.
type Curve struct {
	c      *Cope
	kind   Kind
	r      float64 // of the line, OD and ID only
	pieces []piece // in order, from the first kink round to it again
	smooth bool    // no kink at all; one piece from 0
	ear    Extreme
	throat Extreme
}

// Extreme is the place where a curve has its least or greatest s.
type Extreme struct{ Q, S float64 }

// wallRadius says at which radius of the wall a piece of a curve lies.
type wallRadius int8

const (
	fixed  wallRadius = iota // the curve's own
	outer                    // drop-on: the outside governs
	inner                    // drop-on: the inside governs
	within                   // drop-on: a radius between governs
)

// regime is what governs a curve at some q.
type regime struct {
	cut  int8 // index in Cope.cuts; -1 for nothing
	rad  wallRadius
	free bool // a wall trimmed beside the main
}

var nothing = regime{cut: -1}

// piece is a smooth part of a curve, a <= q <= b.
type piece struct {
	a, b float64
	by   regime
}

// Ear is the place of the least s, where the tube is longest; of several equal
// ones that with the least q.
func (u *Curve) Ear() Extreme { return u.ear }

// Throat is the place of the greatest s, where the tube is shortest; of several
// equal ones that with the least q.
func (u *Curve) Throat() Extreme { return u.throat }

// Kind says which line this is.
func (u *Curve) Kind() Kind { return u.kind }

// Radius is where on the wall the line is drawn, mm: the inside for ID, else the
// outside.
func (u *Curve) Radius() float64 {
	if u.kind == ID {
		return u.c.ri
	}
	return u.c.ro
}

// At is s at generator q, mm from the working point into the tube.
func (u *Curve) At(q float64) float64 {
	s, _ := u.c.govern(u, q)
	return s
}

// AtRadius is s at generator q and at any radius r of the wall, mm: where a cut
// through the wall along the mains' own surfaces leaves the metal. Minus infinity
// where nothing cuts.
func (c *Cope) AtRadius(q, r float64) float64 {
	s, _ := c.govern(&Curve{c: c, kind: ID, r: r}, q)
	return s
}

// Kinks are the places where the line has a corner or where what governs it
// changes, in order, each in [0, a full turn).
func (u *Curve) Kinks() []float64 {
	if u.smooth {
		return nil
	}
	var qs []float64
	for i := range u.pieces {
		qs = append(qs, turned(u.pieces[i].a))
	}
	slices.Sort(qs)
	return qs
}

// Slope is ds/dq at q, mm per rad, from the side of growing q; infinite where
// the line runs along the tube.
func (u *Curve) Slope(q float64) float64 {
	q = turned(q)
	for i := range u.pieces {
		p := &u.pieces[i]
		for _, x := range [2]float64{q, q + fullTurn} {
			if x >= p.a && x < p.b {
				den, n := u.c.slope(u, p, x)
				return n / den
			}
		}
	}
	p := &u.pieces[len(u.pieces)-1]
	den, n := u.c.slope(u, p, p.b)
	return n / den
}

// govern gives the curve's s at q and what makes it. Of cuts that agree within
// num.CutTie the first governs.
func (c *Cope) govern(u *Curve, q float64) (float64, regime) {
	best, by := math.Inf(-1), nothing
	take := func(s float64, g regime) {
		if s > best+num.CutTie {
			best, by = s, g
		}
	}
	for i := range c.cuts {
		k := &c.cuts[i]
		p := k.spot(q)
		if u.kind != DropOn {
			if s, free, ok := k.height(u.r, p); ok {
				take(s, regime{int8(i), fixed, free})
			}
			continue
		}
		if s, free, ok := k.height(c.ro, p); ok {
			take(s, regime{int8(i), outer, free})
		}
		if s, free, ok := k.height(c.ri, p); ok {
			take(s, regime{int8(i), inner, free})
		}
		if k.plate {
			continue
		}
		if r := k.ridge(p); r > c.ri && r < c.ro {
			if s, free, ok := k.height(r, p); ok && !free {
				take(s, regime{int8(i), within, false})
			}
		}
	}
	return best, by
}

// radius is where on the wall the piece lies on the generator p.
func (c *Cope) radius(u *Curve, by regime, p spot) float64 {
	switch by.rad {
	case outer:
		return c.ro
	case inner:
		return c.ri
	case within:
		return min(max(c.ri, c.cuts[by.cut].ridge(p)), c.ro)
	}
	return u.r
}

// height is s on a piece, at its ends too, where another piece may govern.
func (c *Cope) height(u *Curve, p *piece, q float64) float64 {
	k := &c.cuts[p.by.cut]
	sp := k.spot(q)
	r := c.radius(u, p.by, sp)
	if k.plate || p.by.free {
		return k.rise(0, r, sp)
	}
	z, _ := k.depth(r, sp)
	return k.rise(z, r, sp)
}

// slope is the direction of a piece at q: ds/dq = n/den, den >= 0, never both 0.
// Where the radius changes along the piece it is the one at which s is level, so
// it adds nothing.
func (c *Cope) slope(u *Curve, p *piece, q float64) (den, n float64) {
	k := &c.cuts[p.by.cut]
	sp := k.spot(q)
	r := c.radius(u, p.by, sp)
	if k.plate || p.by.free {
		return 1, r * sp.sin * k.cos / k.sin
	}
	y := k.e + r*sp.sin
	high, low := k.margin(r)
	if high != 0 && low != 0 {
		z, _ := k.depth(r, sp)
		return z * k.sin, -y*r*sp.cos + z*r*sp.sin*k.cos
	}
	// The main is reached just so: Z and cos q are zero together there. Both are
	// divided by what they share, with the sign it has inside the piece.
	mid := k.spot((p.a + p.b) / 2)
	bend := 2.0 // cos q over the shared factor
	z := 1.0    // Z over the size of the shared factor
	if high == 0 {
		bend *= math.Copysign(1, mid.sh)
		z *= math.Sqrt(2 * r)
	} else {
		bend *= sp.sh
		z *= math.Sqrt(high + 2*r*sp.sh*sp.sh)
	}
	if low == 0 {
		bend *= math.Copysign(1, mid.ch)
		z *= math.Sqrt(2 * r)
	} else {
		bend *= sp.ch
		z *= math.Sqrt(low + 2*r*sp.ch*sp.ch)
	}
	return z * k.sin, -y*r*bend + z*r*sp.sin*k.cos
}

// curve works out one line of the end.
func (c *Cope) curve(kind Kind) (*Curve, error) {
	u := &Curve{c: c, kind: kind, r: c.ro}
	if kind == ID {
		u.r = c.ri
	}
	if err := u.split(); err != nil {
		return nil, err
	}
	u.findExtremes()
	return u, nil
}

// stop is a place where a curve may change what governs it.
type stop struct {
	q    float64
	cusp bool // a corner even where the same cut governs on both sides
}

// split finds the pieces.
func (u *Curve) split() error {
	stops := u.stops()
	n := len(stops)
	mids := make([]float64, n)
	bys := make([]regime, n)
	for i := range stops {
		next := stops[(i+1)%n].q
		if i == n-1 {
			next += fullTurn
		}
		mids[i] = (stops[i].q + next) / 2
		_, bys[i] = u.c.govern(u, mids[i])
		if bys[i] == nothing {
			return u.c.bare(u, stops[i].q, next)
		}
	}
	var kinks []kink
	for i := range stops {
		before, m := (i+n-1)%n, mids[(i+n-1)%n]
		if i == 0 {
			m -= fullTurn
		}
		switch {
		case bys[before] != bys[i]:
			kinks = u.changes(kinks, m, bys[before], mids[i], bys[i])
		case stops[i].cusp:
			kinks = append(kinks, kink{stops[i].q, bys[i]})
		}
	}
	kinks = settle(kinks)
	if len(kinks) == 0 {
		u.pieces, u.smooth = []piece{{0, fullTurn, bys[0]}}, true
		return nil
	}
	for i, k := range kinks {
		end := kinks[0].q + fullTurn
		if i+1 < len(kinks) {
			end = kinks[i+1].q
		}
		if k.by == nothing {
			return u.c.bare(u, k.q, end)
		}
		u.pieces = append(u.pieces, piece{k.q, end, k.by})
	}
	return u.checkSteps()
}

// kink is where a piece begins and what governs it.
type kink struct {
	q  float64
	by regime
}

// settle drops pieces of no length, which come where two cuts touch and rounding
// lets them take turns, and kinks that are none without them.
func settle(kinks []kink) []kink {
	out := kinks[:0]
	for i, k := range kinks {
		if i+1 < len(kinks) && kinks[i+1].q-k.q <= num.SameTurn {
			continue
		}
		out = append(out, k)
	}
	return out
}

// changes appends every change of what governs between a and b, each found by
// halving to the last bit: where a line begins to run along the tube, 1e-12 rad
// are a step of some tenths of a micrometre.
func (u *Curve) changes(kinks []kink, a float64, ga regime, b float64, gb regime) []kink {
	if ga == gb {
		return kinks
	}
	m := (a + b) / 2
	if m <= a || m >= b {
		return append(kinks, kink{b, gb})
	}
	_, gm := u.c.govern(u, m)
	return u.changes(u.changes(kinks, a, ga, m, gm), m, gm, b, gb)
}

// checkSteps looks for jumps of the line, which are no line to cut.
func (u *Curve) checkSteps() error {
	n := len(u.pieces)
	for i := range u.pieces {
		p, before := &u.pieces[i], &u.pieces[(i+n-1)%n]
		s1, s0 := u.c.height(u, p, p.a), u.c.height(u, before, before.b)
		if math.Abs(s1-s0) <= num.CutStep {
			continue
		}
		name := u.c.cuts[before.by.cut].name
		if s1 > s0 {
			name = u.c.cuts[p.by.cut].name
		}
		return reachError("%s line steps by %s mm at %s degrees: the tube reaches past the side of %s there; let its free walls be trimmed, or move it",
			u.kind, short(math.Abs(s1-s0)), degrees(turned(p.a)), name)
	}
	return nil
}

// ReachError tells that a branch reaches past the side of what it meets, whose
// Partial would let that be trimmed.
type ReachError struct{ text string }

func (e *ReachError) Error() string { return e.text }

func reachError(format string, args ...any) error { return &ReachError{fmt.Sprintf(format, args...)} }

// bare is the error for generators that nothing cuts.
func (c *Cope) bare(u *Curve, a, b float64) error {
	names := ""
	for i := range c.cuts {
		if k := &c.cuts[i]; !k.plate {
			if names != "" {
				names += ", "
			}
			names += fmt.Sprintf("%s (%s mm, offset %s mm)", k.name, short(2*k.R), short(k.e))
		}
	}
	return reachError("tube of %s mm reaches past the side of %s: on its %s line nothing cuts it from about %s to %s degrees; let its free walls be trimmed, take a wider main, or cut them by a plate",
		short(c.Tube.OD), names, u.kind, degrees(turned(a)), degrees(turned(b)))
}
