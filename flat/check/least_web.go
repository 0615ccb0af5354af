package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/num"
)

var leastWeb = &Check{
	ID:       "least-web",
	Severity: diag.Error,
	Title:    "the metal between two cuts is too thin",
	Meaning: "Between two openings, and between an opening and the outline, so much metal has to stay that the " +
		"cut does not melt, wash or blow it away and that the strip keeps its shape. The process of the file " +
		"sets how much. Openings count at their finished sizes, drilled and reamed ones too: a thin strip tears " +
		"whichever way it was left. For holes without a bolt this is the only distance asked.",
	Formula: "web >= max(k t, least) with k and least from the process's row, t the plate's thickness; measured " +
		"between edges where they are nearest",
	Source: "common practice; the row of the process names its figures",
	Limits: "A starting value for a process in good order: shops should put in their own. It is about cutting, not " +
		"about strength: a web that can be cut may be far too thin for a load. Where outline runs close to itself " +
		"(a narrow neck) is not looked at. Nothing is asked where the file names no process.",
	Run: runLeastWeb,
}

func runLeastWeb(c *Context) {
	want := c.leastWeb()
	if want <= 0 {
		return
	}
	if c.whole() {
		for i := range c.openings {
			o, n := &c.openings[i], c.edges[i]
			if gap := n.D - o.r; gap > num.Coincident && short(gap, want) {
				c.reportWeb(o, n, gap, want)
			}
		}
	}
	var faults []pairFault
	for i := range c.pairs {
		p := &c.pairs[i]
		if gap := p.gap(); gap > num.Coincident && short(gap, want) {
			faults = append(faults, c.webFault(p, gap, want))
		}
	}
	c.reportPairs(faults, pairRule{
		severity: c.rule.Severity,
		lacks:    func(p *pair) float64 { return want - p.gap() },
		mend:     c.webChanges,
	})
}

func (c *Context) reportWeb(o *opening, n near, gap, want float64) {
	g, w := c.gotWant(gap, want)
	var changes []Change
	if !o.pinned() && !c.tied(o) {
		if ch, ok := c.relocate(o, c.webShortfall); ok {
			changes = append(changes, ch)
		}
	}
	if o.cut == nil && !c.fillsSaddle(o, o.half, want+o.r) {
		changes = c.smallestFirst(changes, c.reachOut(o, n, o.half, want+o.r), want-gap)
	}
	if ch, ok := c.shrink(o, want-gap); ok {
		changes = append(changes, ch)
	}
	if len(changes) == 0 {
		changes = append(changes, c.leaveOut(o))
	}
	c.Report(diag.Finding{
		Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(n.Q),
		Got: gap, Want: want, Unit: "mm", Source: c.webSource(),
		Message: g + " of metal left between " + hole(o) + " and " + c.edgeOf(o, n) + ", " + c.processNeeds() + " " + w,
	}, changes...)
}

// processNeeds begins a sentence on what the process asks.
func (c *Context) processNeeds() string {
	return c.Blank.Process.Name + " in " + c.len(c.Blank.Thickness) + " plate needs"
}

func (c *Context) webFault(p *pair, gap, want float64) pairFault {
	g, w := c.gotWant(gap, want)
	return pairFault{
		pair: p, got: gap, want: want, more: want - gap, source: c.webSource(),
		message: g + " of metal left between " + hole(p.b) + " and " + hole(p.a) + ", " + c.processNeeds() + " " + w,
	}
}

// webChanges are the ways to widen the web between two openings of different
// entries: one of them elsewhere, or one of them smaller.
func (c *Context) webChanges(f *pairFault) []Change {
	changes := c.shorterMove(f, c.webShortfall)
	if len(changes) == 0 {
		changes = c.shorterMove(f, func(o *opening) shortfall { return openingRoom(o, f.partner(o), f.want) })
	}
	for _, o := range [2]*opening{f.b, f.a} {
		if ch, ok := c.shrink(o, f.more); ok {
			return append(changes, ch)
		}
	}
	return changes
}

// webShortfall is the most that an opening lacks to the outline or to any other
// opening.
func (c *Context) webShortfall(o *opening) shortfall {
	want := c.leastWeb()
	worst := c.edgeRoom(o, want)
	c.around(o, want, func(p *opening) { worst.worse(openingRoom(o, p, want)) })
	return worst
}
