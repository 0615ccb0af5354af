package cope

import (
	"math"
	"slices"

	"blankwright/flat/num"
)

// looks is how many places round the tube are looked at, besides those found
// exactly, for the drop-on line of several cuts: where two cuts take turns at
// different radii there is no closed form. What governs for less than this share
// of a turn between two looks changes no value, only where the fit of arcs may
// put its ends.
const looks = 360

// stops are the places in [0, a full turn), in order, between which the same cut
// governs: where cuts cross, where they graze the wall, cusps, and for the
// drop-on line where the governing radius changes. Some may be no change at all.
func (u *Curve) stops() []stop {
	c := u.c
	var buf [64]float64
	qs := buf[:0]
	var cusps []float64
	radii := [2]float64{u.r, c.ri}
	n := 1
	if u.kind == DropOn {
		n = 2
	}
	for _, r := range radii[:n] {
		for i := range c.cuts {
			qs, cusps = c.cuts[i].appendSides(qs, cusps, r)
		}
		qs = c.appendCrossings(qs, r)
	}
	if u.kind == DropOn {
		qs = c.appendRadiusStops(qs)
	}
	stops := make([]stop, 0, len(qs)+len(cusps)+4)
	for _, q := range qs {
		stops = append(stops, stop{turned(q), false})
	}
	for _, q := range cusps {
		stops = append(stops, stop{turned(q), true})
	}
	for i := range 4 { // some, so that there is an interval, and none is long
		stops = append(stops, stop{turned(c.cuts[0].turn + float64(i)*quarterTurn), false})
	}
	return thin(stops)
}

// thin sorts stops and keeps one of those that are one.
func thin(stops []stop) []stop {
	slices.SortFunc(stops, func(a, b stop) int {
		switch {
		case a.q < b.q:
			return -1
		case a.q > b.q:
			return 1
		}
		return 0
	})
	out := stops[:1]
	for _, s := range stops[1:] {
		if last := &out[len(out)-1]; s.q-last.q <= num.SameTurn {
			if s.cusp {
				*last = s
			}
			continue
		}
		out = append(out, s)
	}
	return out
}

// appendSides appends where generators of radius r begin or end to meet the
// main, and where they reach its side just so.
func (k *cut) appendSides(qs, cusps []float64, r float64) ([]float64, []float64) {
	if k.plate || r == 0 {
		return qs, cusps
	}
	high, low := k.margin(r)
	for i, m := range [2]float64{high, low} {
		side := 1 - 2*float64(i) // the generator at 90 or at 270 degrees
		switch {
		case m == 0:
			cusps = append(cusps, k.turn+side*quarterTurn)
		case m < 0:
			if sin := (side*k.R - k.e) / r; math.Abs(sin) <= 1 {
				a := math.Asin(sin)
				qs = append(qs, k.turn+a, k.turn+halfTurn-a)
			}
		}
	}
	return qs, cusps
}

// surface is one sheet of a cut at one radius: s = a + √b, all over the tube's
// outside radius.
type surface struct {
	a, b trig
	flat bool // b is nothing
}

// appendSurfaces appends the sheets that the cut has at radius r.
func (c *Cope) appendSurfaces(out []surface, k *cut, r float64) []surface {
	unit := c.ro
	a := constant(k.station / unit).minus(wave(r/unit*k.cos/k.sin, 0, k.turn))
	if k.plate {
		return append(out, surface{a: a, flat: true})
	}
	y := constant(k.e / unit).plus(wave(0, r/unit, k.turn))
	b := constant(k.R * k.R / (unit * unit)).minus(y.squared()).times(1 / (k.sin * k.sin))
	out = append(out, surface{a: a, b: b})
	if high, low := k.margin(r); k.partial && (high < 0 || low < 0) {
		out = append(out, surface{a: a, flat: true})
	}
	return out
}

// appendCrossings appends where lines of different cuts at radius r cross. With
// a = a2 - a1 that is √b1 - √b2 = a; squared twice, (b1+b2-a²)² = 4 b1 b2, which
// holds wherever any signs of the roots do.
func (c *Cope) appendCrossings(qs []float64, r float64) []float64 {
	if len(c.cuts) < 2 {
		return qs
	}
	var buf [8]surface
	for i := range c.cuts {
		ours := c.appendSurfaces(buf[:0], &c.cuts[i], r)
		for j := i + 1; j < len(c.cuts); j++ {
			theirs := c.appendSurfaces(nil, &c.cuts[j], r)
			for _, f := range ours {
				for _, g := range theirs {
					qs = appendMeetings(qs, f, g)
				}
			}
		}
	}
	return qs
}

func appendMeetings(qs []float64, f, g surface) []float64 {
	a := g.a.minus(f.a)
	size := f.a.size() + g.a.size()
	if f.flat && g.flat {
		return a.appendZeros(qs, size)
	}
	a2 := a.squared()
	size = size*size + f.b.size() + g.b.size()
	if f.flat || g.flat {
		t := f.b.plus(g.b).minus(a2)
		return t.appendZeros(qs, size)
	}
	apart := f.b.minus(g.b)
	if apart.size() <= num.NoFunction*size { // mains alike: √b1 = √b2 everywhere
		return a.appendZeros(qs, math.Sqrt(size))
	}
	if a2.size() <= num.NoFunction*size {
		return apart.appendZeros(qs, size)
	}
	t := f.b.plus(g.b).minus(a2).squared().minus(f.b.by(g.b).times(4))
	return t.appendZeros(qs, size*size)
}

// size bounds the function.
func (t *trig) size() float64 {
	sum := 0.0
	for n := range t.c {
		sum += math.Hypot(t.c[n], t.s[n])
	}
	return sum
}

// appendRadiusStops appends where another radius of the wall begins to govern
// one cut: where s is level in the radius at the outside or at the inside, that
// is where Y sin q = -Z cos q cos θ. Flat cuts change over at 90 degrees from
// their turn.
func (c *Cope) appendRadiusStops(qs []float64) []float64 {
	partial := false
	for i := range c.cuts {
		k := &c.cuts[i]
		partial = partial || k.partial
		if k.plate || k.partial {
			qs = append(qs, k.turn+quarterTurn, k.turn-quarterTurn)
		}
		if k.plate {
			continue
		}
		qs = append(qs, k.turn, k.turn+halfTurn) // an axis that crosses: Y and sin q are zero together
		for _, r := range [2]float64{c.ro, c.ri} {
			qs = c.appendLevelAcross(qs, k, r)
		}
	}
	if len(c.cuts) > 1 || partial {
		for i := range looks {
			qs = append(qs, float64(i)*fullTurn/looks)
		}
	}
	return qs
}

// reach gives Y² and Z² of a cut at radius r, over the outside radius squared.
func (c *Cope) reach(k *cut, r float64) (y2, z2 trig) {
	unit := c.ro
	y2 = constant(k.e / unit).plus(wave(0, r/unit, k.turn)).squared()
	return y2, constant(k.R * k.R / (unit * unit)).minus(y2)
}

// appendLevelRound appends where s is level round the tube at radius r, that is
// Y cos q = Z cos θ sin q; squared. The quarters of a turn, where that holds for
// an axis that crosses or is square, are the caller's.
func (c *Cope) appendLevelRound(qs []float64, k *cut, r float64) []float64 {
	across := k.e == 0
	switch {
	case k.plate || r == 0 || k.cos == 0 && across:
		return qs
	case k.cos == 0: // Y = 0
		y := constant(k.e / c.ro).plus(wave(0, r/c.ro, k.turn))
		return y.appendZeros(qs, y.size())
	}
	y2, z2 := c.reach(k, r)
	right := z2.times(k.cos * k.cos)
	left := wave(1, 0, k.turn).squared()
	if across { // sin² q divided out
		left = left.times(r * r / (c.ro * c.ro))
	} else {
		left = left.by(y2)
		right = right.by(wave(0, 1, k.turn).squared())
	}
	return appendEqual(qs, left, right)
}

// appendLevelAcross appends where s is level along the radius at radius r, that
// is Y sin q = -Z cos θ cos q; squared.
func (c *Cope) appendLevelAcross(qs []float64, k *cut, r float64) []float64 {
	if k.plate || k.cos == 0 && k.e == 0 {
		return qs
	}
	if k.cos == 0 {
		y := constant(k.e / c.ro).plus(wave(0, r/c.ro, k.turn))
		return y.appendZeros(qs, y.size())
	}
	y2, z2 := c.reach(k, r)
	return appendEqual(qs, y2.by(wave(0, 1, k.turn).squared()), z2.by(wave(k.cos, 0, k.turn).squared()))
}

// appendLevelAlong appends where the line at radius r is level along the main's
// axis, that is Y cos θ cos q = Z sin q; squared. The quarters are the caller's.
func (c *Cope) appendLevelAlong(qs []float64, k *cut, r float64) []float64 {
	if k.plate || k.cos == 0 {
		return qs
	}
	y2, z2 := c.reach(k, r)
	left := wave(k.cos, 0, k.turn).squared()
	if k.e == 0 { // sin² q divided out
		return appendEqual(qs, left.times(r*r/(c.ro*c.ro)), z2)
	}
	return appendEqual(qs, left.by(y2), z2.by(wave(0, 1, k.turn).squared()))
}

func appendEqual(qs []float64, left, right trig) []float64 {
	t := left.minus(right)
	return t.appendZeros(qs, left.size()+right.size())
}

// findExtremes finds the least and the greatest s of the curve. They are where
// some cut is level round the tube at the outside or inside radius, or at a
// kink: s has no level place within the wall unless the axes are square, and
// there it is level along a whole line that ends on the wall's faces or at a
// kink.
func (u *Curve) findExtremes() {
	c := u.c
	var buf [64]float64
	qs := buf[:0]
	for i := range c.cuts {
		k := &c.cuts[i]
		for j := range 4 {
			qs = append(qs, turned(k.turn+float64(j)*quarterTurn))
		}
		if k.plate {
			continue
		}
		radii := [2]float64{u.r, c.ri}
		n := 1
		if u.kind == DropOn {
			n = 2
		}
		for _, r := range radii[:n] {
			qs = c.appendLevelRound(qs, k, r)
		}
	}
	for i := range u.pieces {
		qs = append(qs, turned(u.pieces[i].a))
	}
	for i := range qs {
		qs[i] = turned(qs[i])
	}
	slices.Sort(qs)
	at := make([]Extreme, len(qs))
	for i, q := range qs {
		at[i] = Extreme{q, u.At(q)}
	}
	u.ear, u.throat = extreme(at, -1), extreme(at, 1)
}

// extreme is the greatest of sign·s of the places, which are in order: of equal
// ones the first, and of the places found for that one the best.
func extreme(at []Extreme, sign float64) Extreme {
	best := at[0]
	for _, e := range at {
		if sign*e.S > sign*best.S {
			best = e
		}
	}
	var first *Extreme
	for i := range at {
		e := &at[i]
		switch {
		case sign*e.S < sign*best.S-num.CutTie:
		case first == nil:
			first = e
		case math.Abs(math.Remainder(e.Q-first.Q, fullTurn)) < onePlace && sign*e.S > sign*first.S:
			first = e
		}
	}
	return *first
}

// onePlace is how near (rad) two places of the same height have to be to stand
// for one: half a degree.
const onePlace = degree / 2
