package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/num"
)

var boltSpacing = &Check{
	ID:       "bolt-spacing",
	Severity: diag.Error,
	Title:    "two bolt holes are too near each other",
	Meaning: "Between two bolt holes there has to be room for the heads and a spanner, and enough metal for the " +
		"plate not to tear from hole to hole. The larger of two bolts governs. The file chooses whose distances " +
		"hold: `rules: aisc 360` (where it says nothing), `en 1993-1-8`, `shop 1.5d` or `shop 2d`. Holes of one " +
		"pattern are told together, by the pair that falls short most.",
	Formula: "aisc 360: centres 2 2/3 d apart, and d of metal between the holes; 3 d preferred (a note)\n" +
		"en 1993-1-8: centres 2.4 d0 apart (d0: diameter of the hole)\n" +
		"shop 1.5d, shop 2d: centres 2.5 d, 3 d apart (d: diameter of the bolt)\n" +
		"en 1993-1-8 and shop rules measure slots between their axes where these are nearest",
	Source: "AISC 360-16 J3.3; EN 1993-1-8:2005, 3.5, Table 3.3; common practice for the shop rules",
	Limits: "EN 1993-1-8 asks 2.2 d0 along the load and 2.4 d0 across it; the direction of the load is not known " +
		"here, so the larger one is asked. Its lesser p2 for staggered rows keeps holes of neighbouring rows " +
		"2.4 d0 apart as well, so it changes nothing between two holes. The metal of d between holes came into AISC with the " +
		"2016 edition. Largest spacings, which keep water out of joints, are not looked at.",
	Run: runBoltSpacing,
}

func runBoltSpacing(c *Context) {
	var faults, notes []pairFault
	for i := range c.pairs {
		p := &c.pairs[i]
		if !p.a.bolted() || !p.b.bolted() || num.Zero(p.a.at.Dist(p.b.at)) {
			continue
		}
		s := c.set.spacing(p.a, p.b)
		if centres, clear, _ := p.lacks(&s); !num.AtLeast(0, max(centres, clear)) {
			faults = append(faults, c.spacingFault(p, &s, centres, clear))
		}
	}
	for i := range c.notes {
		p := &c.notes[i]
		s := c.set.spacing(p.a, p.b)
		_, _, prefer := p.lacks(&s)
		notes = append(notes, c.preferNote(p, &s, prefer))
	}
	lacks := func(p *pair, preferred bool) float64 {
		if !p.a.bolted() || !p.b.bolted() {
			return 0
		}
		s := c.set.spacing(p.a, p.b)
		centres, clear, prefer := p.lacks(&s)
		if preferred {
			return max(centres, clear, prefer)
		}
		return max(centres, clear)
	}
	c.reportPairs(faults, pairRule{
		severity: c.rule.Severity,
		lacks:    func(p *pair) float64 { return lacks(p, false) },
		mend:     func(f *pairFault) []Change { return c.moveApart(f, false) },
	})
	c.reportPairs(notes, pairRule{
		severity: diag.Note,
		lacks:    func(p *pair) float64 { return lacks(p, true) },
		mend:     func(f *pairFault) []Change { return c.moveApart(f, true) },
	})
}

// apart is the distance that counts as one between centres, mm.
func (p *pair) apart(s *spacingAsk) float64 {
	if s.axes {
		return p.D
	}
	return p.a.at.Dist(p.b.at)
}

// lacks is what a pair lacks between centres, of clear metal, and to what is
// preferred; nothing or less where it has enough.
func (p *pair) lacks(s *spacingAsk) (centres, clear, prefer float64) {
	d := p.apart(s)
	return s.centres - d, s.clear - p.gap(), s.prefer - d
}

func (c *Context) spacingFault(p *pair, s *spacingAsk, centres, clear float64) pairFault {
	f := pairFault{pair: p, more: max(centres, clear), source: cite(s.source)}
	pairName := hole(p.b) + " and " + hole(p.a)
	if clear > centres {
		f.got, f.want = p.gap(), s.clear
		got, want := c.gotWant(f.got, f.want)
		f.message = pairName + ": " + got + " of metal between them, need " + want + " (" + s.basis + " " + c.len(s.of) + ")"
		return f
	}
	f.got, f.want = p.apart(s), s.centres
	got, want := c.gotWant(f.got, f.want)
	f.message = pairName + ": their centres are " + got + " apart, need " + want + " (" + c.basis(s, 0) + ")"
	if s.axes && p.a.half+p.b.half > 0 {
		f.message = pairName + ": their axes come to " + got + " of each other, need " + want + " (" + c.basis(s, 0) + ")"
	}
	if s.why != "" {
		f.message += "; " + s.why
	}
	return f
}

func (c *Context) preferNote(p *pair, s *spacingAsk, prefer float64) pairFault {
	f := pairFault{pair: p, got: p.apart(s), want: s.prefer, more: prefer, source: cite(s.source)}
	got, want := c.gotWant(f.got, f.want)
	f.message = hole(p.b) + " and " + hole(p.a) + ": their centres are " + got + " apart, which is enough; " +
		want + " (" + c.basis(s, 1) + ") is preferred"
	return f
}

// basis writes a factor with what it multiplies: `2.67 d, d 12.70 mm`.
func (c *Context) basis(s *spacingAsk, i int) string {
	return num.Short(s.factor[i], 2) + " " + s.basis + ", " + s.basis + " " + c.len(s.of)
}

// moveApart moves one of two bolt holes away: from all its neighbours where
// that can be done, else from the other one.
func (c *Context) moveApart(f *pairFault, preferred bool) []Change {
	if ch := c.shorterMove(f, func(o *opening) shortfall {
		s := c.spacingShortfall(o)
		if preferred {
			s.worse(c.spacingOf(o, f.partner(o), true))
		}
		return s
	}); len(ch) > 0 {
		return ch
	}
	return c.shorterMove(f, func(o *opening) shortfall { return c.spacingOf(o, f.partner(o), preferred) })
}

// spacingShortfall is the most that a bolt hole lacks to any other.
func (c *Context) spacingShortfall(o *opening) shortfall {
	worst := noShortfall()
	c.around(o, c.reach, func(p *opening) {
		if p.bolted() {
			worst.worse(c.spacingOf(o, p, false))
		}
	})
	return worst
}

// spacingOf is what a bolt hole lacks to another one.
func (c *Context) spacingOf(o, p *opening, preferred bool) shortfall {
	s := c.set.spacing(o, p)
	q := pair{o, p, between(o, o.half, p)}
	centres, clear, prefer := q.lacks(&s)
	if preferred {
		centres = max(centres, prefer)
	}
	if s.axes || clear > centres {
		return shortfall{max(centres, clear), away(o, p, q.Near)}
	}
	return shortfall{centres, direction(o.at.Sub(p.at))}
}
