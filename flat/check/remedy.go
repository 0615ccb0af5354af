package check

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// mostTrials bounds the work on suggestions for one part: trials times openings. A part
// that needs more has hundreds of findings; those after that are told without a change.
const mostTrials = 300_000

// tired counts one more trial and reports whether it is one too many.
func (c *Context) tired() bool {
	c.trials += 20 + len(c.openings)
	return c.trials > mostTrials
}

// noneFound is what to do where no change was found.
func (c *Context) noneFound() string {
	if c.trials > mostTrials {
		return "no change was looked for: the part has too many findings; mend the others first"
	}
	return "none of the changes that were tried mends it and leaves the rest as it is: change the shape, the way the load goes, or several things at once"
}

// after reports whether the running rule has nothing left to say of a set once a change
// is made.
func (c *Context) after(ch Change, set string) bool {
	if c.tired() {
		return false
	}
	b, err := ch.Apply(c.Blank)
	if err != nil {
		return false
	}
	n := newLoaded(b)
	n.rule, n.quiet = c.rule, true
	c.rule.Run(n)
	seen := false
	for i := range n.held {
		switch h := &n.held[i]; {
		case h.set == set:
			seen = true
			if !h.met() {
				return false
			}
		case h.err != nil:
			return false
		}
	}
	return seen
}

// sound reports whether a change brings no failed check that was not there, by any rule.
func (c *Context) sound(ch Change) bool {
	if c.tired() {
		return false
	}
	b, err := ch.Apply(c.Blank)
	if err != nil {
		return false
	}
	if c.faults == nil {
		c.faults = faultsOf(c.Blank)
	}
	for k := range faultsOf(b) {
		if !c.faults[k] {
			return false
		}
	}
	return true
}

// faultsOf names the failed checks of a blank, by rule and place.
func faultsOf(b *blank.Blank) map[string]bool {
	n := newContext(b)
	n.quiet = true
	out := map[string]bool{}
	for _, k := range rules {
		if k.tells {
			continue
		}
		n.rule = k
		k.Run(n)
	}
	for i := range n.held {
		if h := &n.held[i]; !h.met() && (h.err != nil || h.rule.Severity == diag.Error) {
			out[h.rule.ID+" "+h.set] = true
		}
	}
	for i := range n.results {
		if f := &n.results[i].Finding; f.Severity == diag.Error && len(f.Features) > 0 {
			out[f.Rule+" "+f.Features[0]] = true
		}
	}
	return out
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

// legStep is the step in which legs of welds are asked for, mm: 1/16 in, 1 mm.
func (c *Context) legStep() float64 {
	if c.units == unit.Inch {
		return unit.MM / 16
	}
	return 1
}

// leg suggests the least leg, in whole steps above from and up to most, that mends a
// set.
func (c *Context) leg(set string, from, most float64, make func(to float64) Change) []Change {
	step := c.legStep()
	for n := math.Floor(from/step + num.LimitSlack); n*step < most+step; n++ {
		if to := n * step; to > from && num.AtMost(to, most) {
			if ch := make(to); c.after(ch, set) && c.sound(ch) {
				return []Change{ch}
			}
		}
	}
	return nil
}

// thicker suggests the next plate that one can buy, up to four times as thick, with
// larger legs where it asks for them.
func (c *Context) thicker(h *held) []Change {
	t := c.Blank.Thickness
	for _, to := range profiles.PlateSizes(c.units != unit.Inch) {
		if num.AtMost(to, t) || to > 4*t {
			continue
		}
		ch := Change{Kind: Thicken, To: to, Text: "make the plate " + c.len(to) + " thick"}
		if !c.after(ch, h.set) {
			if ch = c.withLegs(ch); ch.Leg == 0 || !c.after(ch, h.set) {
				continue
			}
		}
		if c.sound(ch) {
			return []Change{ch}
		}
		if ch = c.withLegs(ch); ch.Leg > 0 && c.after(ch, h.set) && c.sound(ch) {
			return []Change{ch}
		}
	}
	return nil
}

// withLegs is a change to thicker plate together with the least legs that such plate
// asks of its welds.
func (c *Context) withLegs(ch Change) Change {
	if c.method.eurocode {
		return ch
	}
	least := c.method.aisc.LeastFillet(ch.To)
	for i := range c.Blank.Welds {
		if c.Blank.Welds[i].Leg < least {
			ch.Leg = least
			ch.Text = "make the plate " + c.len(ch.To) + " thick and the legs of its welds no less than " + c.len(least)
		}
	}
	return ch
}

// wider suggests more plate round a hole.
func (c *Context) wider(h *held) []Change {
	if h.d == nil {
		return nil
	}
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
	if !ok || c.fillsSaddle(o, o.half, ch.To) || !c.sound(ch) {
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
	words := [...]string{"grade 5", "grade 8", "A490", "8.8", "10.9"}
	if c.method.eurocode {
		words = [...]string{"5.6", "8.8", "10.9", "", ""}
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
		if ch := c.rebolt(h.set, g.word); c.after(ch, h.set) && c.sound(ch) {
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
		if ch := c.rebolt(h.set, word); c.after(ch, h.set) && c.sound(ch) {
			return []Change{ch}
		}
	}
	return nil
}

// remedies joins what several kinds of change suggest.
func remedies(lists ...[]Change) []Change { return slices.Concat(lists...) }
