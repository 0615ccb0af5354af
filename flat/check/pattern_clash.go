package check

import (
	"math"
	"strconv"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// partThem suggests to move both openings of a pair, each by half of what they
// lack, where neither can go alone.
func (c *Context) partThem(f *pairFault, r pairRule) []Change {
	if c.looks > mostLooks || twins(f.pair) || f.a.pinned() || f.b.pinned() || !c.whole() {
		return nil
	}
	dir := away(f.a, f.b, f.Near)
	for _, share := range [...]float64{1, 1.5, 2} {
		half := c.up(f.more * share / 2)
		m := geom.Point{X: c.up(dir.X * half), Y: c.up(dir.Y * half)}
		a, b := f.a.moved(m), f.b.moved(m.Mul(-1))
		p := pair{&a, &b, between(&a, a.half, &b)}
		if !num.AtLeast(0, r.lacks(&p)) || !c.edgeRoom(&a, num.Coincident).met() || !c.edgeRoom(&b, num.Coincident).met() {
			continue
		}
		text := "move them apart, " + c.moveBy(f.a, m).Text + " and " + c.moveBy(f.b, m.Mul(-1)).Text
		if c.closer(&a, f.a, f.b) || c.closer(&b, f.b, f.a) {
			text += ", with the plate and their neighbours to match"
		}
		return []Change{{Kind: Part, Hole: f.a.hole.Name, Other: f.b.hole.Name, By: at(m), Text: text}}
	}
	return nil
}

// closer reports whether a moved opening falls farther short of anything but
// its partner than it did.
func (c *Context) closer(t, o, partner *opening) bool {
	fault := func(t *opening) float64 {
		s := c.edgeRoom(t, c.leastWeb())
		if t.bolted() {
			s.worse(c.edgeShortfall(t))
		}
		c.around(t, c.reach, func(p *opening) {
			if p.i != partner.i {
				s.worse(openingRoom(t, p, c.leastWeb()))
			}
		})
		return s.by
	}
	after := fault(t)
	return !num.AtLeast(0, after) && after > fault(o)
}

// clash is the members of one pattern that fall short to one other opening.
type clash struct {
	set    string
	other  int
	faults []int
}

// tellRings tells together what members of a pattern all lack to one other
// opening, where opening the pattern up mends all of it, and says which of the
// faults that were.
func (c *Context) tellRings(faults []pairFault, r pairRule) []bool {
	done := make([]bool, len(faults))
	var clashes []clash
	index := map[[2]string]int{}
	for i := range faults {
		f := &faults[i]
		if f.pattern() != "" {
			continue
		}
		for _, o := range [2]*opening{f.a, f.b} {
			p := f.partner(o)
			if o.hole.Set == "" || o.cut != nil || o.hole.Set == o.hole.Name || o.hole.Set == p.hole.Set {
				continue
			}
			k := [2]string{o.hole.Set, p.hole.Name}
			j, ok := index[k]
			if !ok {
				j = len(clashes)
				index[k] = j
				clashes = append(clashes, clash{set: o.hole.Set, other: p.i})
			}
			clashes[j].faults = append(clashes[j].faults, i)
		}
	}
	for _, k := range clashes {
		if len(k.faults) < 2 || done[k.faults[0]] {
			continue
		}
		to, ok := c.openRing(&k, r)
		if !ok {
			continue
		}
		worst := &faults[k.faults[0]]
		var members []*opening
		for _, i := range k.faults {
			f := &faults[i]
			done[i] = true
			members = append(members, f.partner(&c.openings[k.other]))
			if f.more > worst.more {
				worst = f
			}
		}
		told := *worst
		told.message += "; " + strconv.Itoa(len(members)) + " holes of " + quoted(k.set) + " are concerned"
		features := append([]*opening{}, members...)
		c.tellClash(r, &told, features, []Change{to})
	}
	return done
}

// tellClash reports the worst pair of a clash together with all its members.
func (c *Context) tellClash(r pairRule, f *pairFault, members []*opening, changes []Change) {
	c.tellPair(r.severity, f, nil, changes)
	last := &c.results[len(c.results)-1]
	for _, o := range members {
		if o.i != f.a.i && o.i != f.b.i {
			last.Features = append(last.Features, o.hole.Name)
		}
	}
}

// mostOpen is how many times as wide a pattern may become.
const mostOpen = 4

// openRing is the least opening up of a pattern after which none of it falls
// short to the other opening.
func (c *Context) openRing(k *clash, r pairRule) (Change, bool) {
	mid := middle(c.Blank.Holes, k.set)
	other := &c.openings[k.other]
	far := 0.0
	var members []*opening
	for i := range c.openings {
		if o := &c.openings[i]; o.hole.Set == k.set && o.cut == nil {
			members = append(members, o)
			far = max(far, o.at.Dist(mid))
		}
	}
	if far <= num.Coincident {
		return Change{}, false
	}
	mends := func(f float64) bool {
		for _, o := range members {
			t := o.moved(o.at.Sub(mid).Mul(f - 1))
			p := pair{&t, other, between(&t, t.half, other)}
			if t.i > other.i {
				p = pair{other, &t, between(other, other.half, &t)}
			}
			if !num.AtLeast(0, r.lacks(&p)) {
				return false
			}
		}
		return true
	}
	// In whole steps of the diameter that goes through the farthest of them.
	step := c.step() / (2 * far)
	low, high := math.Floor(1/step), math.Ceil(mostOpen/step)
	if !mends(high * step) {
		return Change{}, false
	}
	for high-low > 1 {
		if n := math.Floor((low + high) / 2); mends(n * step) {
			high = n
		} else {
			low = n
		}
	}
	to := high * step
	text := "space the holes of " + quoted(k.set) + " wider, " + num.Short(to, 3) + " times as far from their middle"
	if d := c.circleOf(k.set); d > 0 {
		text = "make the diameter of the circle of " + quoted(k.set) + " at least " + c.len(d*to)
	}
	ch := Change{Kind: Spread, Hole: k.set, To: to, Text: text}
	if c.spreadHarms(k.set, to) {
		ch.Text += ", with the plate and its neighbours to match"
	}
	return ch, true
}

// circleOf is the diameter of the bolt circle that a set was described by, mm; 0
// where it was none.
func (c *Context) circleOf(set string) float64 {
	s := c.setOf(set)
	if s.Circle == nil {
		return 0
	}
	return s.Circle.Diameter.MM
}
