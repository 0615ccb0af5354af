package check

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// after is what the running rule says of a set once a change is made.
func (c *Context) after(ch Change, set string) bool {
	b, err := ch.Apply(c.Blank)
	if err != nil {
		return false
	}
	n := newLoaded(b)
	n.rule, n.quiet = c.rule, true
	c.rule.Run(n)
	seen := false
	for i := range n.held {
		if h := &n.held[i]; h.set == set {
			seen = true
			if !h.met() {
				return false
			}
		}
	}
	return seen
}

// newLoaded measures what the rules on strength need, and no distances between
// openings.
func newLoaded(b *blank.Blank) *Context {
	c := prepare(b)
	c.locate()
	if c.whole() {
		c.outline = newBoundary(b.Outline)
	}
	c.bear()
	return c
}

// mostTries is how many sizes are tried on the way to one that mends.
const mostTries = 40

// smallest is the least size, in whole steps above from and up to most, whose
// change mends a set.
func (c *Context) smallest(set string, from, step, most float64, make func(to float64) Change) (Change, bool) {
	at := func(n float64) Change { return make(n * step) }
	low := math.Floor(from / step)
	high, jump := low, 1.0
	found := false
	for range mostTries {
		high = low + jump
		if high*step > most {
			return Change{}, false
		}
		if c.after(at(high), set) {
			found = true
			break
		}
		low = high
		jump *= 2
	}
	if !found {
		return Change{}, false
	}
	for high-low > 1 {
		mid := math.Floor((low + high) / 2)
		if c.after(at(mid), set) {
			high = mid
		} else {
			low = mid
		}
	}
	return at(high), true
}

// stock is the step in which plate and welds come, mm: 1/16 in, 0.5 mm.
func (c *Context) stock() float64 {
	if c.units == unit.Inch {
		return unit.MM / 16
	}
	return 0.5
}

// thicker suggests thicker plate, up to four times as thick.
func (c *Context) thicker(h *held) []Change {
	t := c.Blank.Thickness
	ch, ok := c.smallest(h.set, t, c.stock(), 4*t, func(to float64) Change {
		return Change{Kind: Thicken, To: to, Text: "make the plate " + c.len(to) + " thick"}
	})
	if !ok {
		return nil
	}
	return []Change{ch}
}

// wider suggests more plate round a hole.
func (c *Context) wider(h *held) []Change {
	o := h.d.o
	if o.cut != nil || !c.whole() {
		return nil
	}
	n := c.outline.nearest(o, o.half)
	from := max(o.r, n.D)
	step := c.step() * 10
	ch, ok := c.smallest(h.set, from, step, from+6*o.r+4*c.Blank.Thickness, func(to float64) Change {
		return c.reachOut(o, n, o.half, to)
	})
	if !ok || c.fillsSaddle(o, o.half, ch.To) {
		return nil
	}
	return []Change{ch}
}

// setOf is the description of the hole set that a hole came from; empty where
// there is none.
func (c *Context) setOf(name string) (s describe.HoleSet) {
	for i := range c.part.Holes {
		if c.part.Holes[i].Name.Text == name {
			return c.part.Holes[i]
		}
	}
	return s
}

// rebolt is the change that puts other bolts into the holes of a set.
func (c *Context) rebolt(set, word string) Change {
	return Change{Kind: Rebolt, Hole: set, Word: word, Text: "use " + word + " bolts in " + quoted(set)}
}

// stronger suggests the next grade of bolt that mends.
func (c *Context) stronger(h *held) []Change {
	b := h.d.o.hole.Bolt
	if b == nil {
		return nil
	}
	now, err := profiles.StrengthOf(*b)
	if err != nil {
		return nil
	}
	type grade struct {
		word    string
		tensile float64
	}
	var gs []grade
	words := [...]string{"grade 5", "grade 8", "A490", "8.8", "10.9", "12.9"}
	if c.method.eurocode {
		words = [...]string{"5.6", "8.8", "10.9", "", "", ""}
	}
	for _, w := range words {
		k, err := profiles.FindBolt(b.Size + " " + w)
		if w == "" || err != nil || k.Metric != b.Metric || w[0] == 'A' && b.Grade[0] != 'A' {
			continue
		}
		if s, err := profiles.StrengthOf(k); err == nil && s.Tensile > now.Tensile {
			gs = append(gs, grade{b.Size + " " + w, s.Tensile})
		}
	}
	slices.SortFunc(gs, func(a, b grade) int { return cmp.Compare(a.tensile, b.tensile) })
	for _, g := range gs {
		if ch := c.rebolt(h.set, g.word); c.after(ch, h.set) {
			return []Change{ch}
		}
	}
	return nil
}

// larger suggests the next size of bolt that mends, up to twice the diameter.
func (c *Context) larger(h *held) []Change {
	b := h.d.o.hole.Bolt
	if b == nil {
		return nil
	}
	for _, size := range profiles.BoltSizes(b.Metric) {
		word := size
		if b.Grade != "" {
			word += " " + b.Grade
		}
		k, err := profiles.FindBolt(word)
		if err != nil || k.D <= b.D || k.D > 2*b.D {
			continue
		}
		if ch := c.rebolt(h.set, word); c.after(ch, h.set) {
			return []Change{ch}
		}
	}
	return nil
}

// remedies joins what several kinds of change suggest.
func remedies(lists ...[]Change) []Change { return slices.Concat(lists...) }
