package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/num"
)

var openingsOverlap = &Check{
	ID:       "openings-overlap",
	Severity: diag.Error,
	Firm:     true,
	Title:    "two openings run into each other",
	Meaning: "No two openings may touch, cross, lie in one another or lie on one another. Where they do, the " +
		"piece between them falls out, or the same hole is pierced and cut twice.",
	Formula: "distance between the axes - half of both widths > 0, at finished sizes; of cutouts and tab slots between their edges",
	Source:  "common practice: what a cutting table's drawing reader needs",
	Limits:  "Asks only that some metal is left between them; how much is asked by least-web and bolt-spacing.",
	Run: func(c *Context) {
		var faults []pairFault
		for i := range c.pairs {
			p := &c.pairs[i]
			if gap := p.gap(); gap <= num.Coincident {
				faults = append(faults, pairFault{
					pair: p, got: gap, want: 0, more: c.room() - gap,
					message: c.overlapWords(p) + "; wanted metal between them",
				})
			}
		}
		room := c.room()
		c.reportPairs(faults, pairRule{
			severity: c.rule.Severity,
			lacks:    func(p *pair) float64 { return room - p.gap() },
			mend: func(f *pairFault) []Change {
				if twins(f.pair) {
					return []Change{c.leaveOut(f.b)}
				}
				return c.shorterMove(f, func(o *opening) shortfall { return openingRoom(o, f.partner(o), room) })
			},
		})
	},
}

// twins reports whether two openings are the same hole twice.
func twins(p *pair) bool {
	if p.a.cut != nil || p.b.cut != nil {
		return p.a.cut != nil && p.b.cut != nil && num.Zero(p.a.at.Dist(p.b.at)) &&
			num.Same(p.a.cut.Loop.Perimeter(), p.b.cut.Loop.Perimeter()) && num.Same(p.a.cut.Loop.Area(), p.b.cut.Loop.Area())
	}
	return num.Zero(p.a.at.Dist(p.b.at)) && num.Same(p.a.r, p.b.r) && num.Same(p.a.half, p.b.half) &&
		num.Zero(p.a.half*p.a.dir.Cross(p.b.dir))
}

func (c *Context) overlapWords(p *pair) string {
	both := hole(p.b) + " and " + hole(p.a)
	switch gap := p.gap(); {
	case twins(p):
		return both + " are the same hole twice"
	case p.a.cut != nil && p.b.cut != nil && p.D >= -num.Coincident:
		return both + " touch or cross"
	case (p.a.cut != nil || p.b.cut != nil) && -p.D > p.a.r+p.b.r:
		return both + " lie in one another"
	case gap >= -num.Coincident:
		return both + " touch"
	case p.a.cut == nil && p.b.cut == nil && p.D+min(p.a.r, p.b.r) <= max(p.a.r, p.b.r):
		return both + " lie in one another"
	default:
		return both + " run into each other by " + c.len(-gap)
	}
}
