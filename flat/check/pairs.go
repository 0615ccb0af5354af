package check

import (
	"slices"
	"strconv"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// pairFault is two openings that fall short of a distance between them.
type pairFault struct {
	*pair
	got, want float64 // as told, mm
	more      float64 // how much farther apart they have to go, mm
	message   string
	source    string
}

// partner is the other one of a pair, of which o is one that may have been
// moved.
func (p *pair) partner(o *opening) *opening {
	if o.i == p.a.i {
		return p.b
	}
	return p.a
}

// pattern is the entry of the file that both openings came from, "" where they
// came from two.
func (p *pair) pattern() string {
	if p.a.hole.Set != p.b.hole.Set {
		return ""
	}
	return p.a.hole.Set
}

// spread is how much the pattern of a pair has to open up for the pair to get
// so much more between it: distances between axes grow by at least this factor,
// because the sets of places of two slots only shrink beside them. 0 where no
// factor would do.
func (c *Context) spread(p *pair, more float64) float64 {
	if p.pattern() == "" || p.D <= num.Coincident {
		return 0
	}
	return c.up(p.D+more) / p.D
}

// worse tells whether the pattern has to open up more for f than for g, or as much
// with f lacking more.
func (c *Context) worse(f, g *pairFault) bool {
	if k, l := c.spread(f.pair, f.more), c.spread(g.pair, g.more); !num.Same(k, l) {
		return k > l
	}
	return f.more > g.more
}

// pairRule is how a rule tells its pairs.
type pairRule struct {
	severity diag.Severity
	lacks    func(*pair) float64       // how much farther apart a pair has to go, mm; nothing or less where it has enough
	mend     func(*pairFault) []Change // for a pair of two entries
}

// reportPairs tells pairs that fall short. Pairs of one pattern are told
// together by the worst of them, and mended together by opening up the pattern;
// a pair of two entries is mended as the rule says, or where that finds nothing
// by leaving one out.
func (c *Context) reportPairs(faults []pairFault, r pairRule) {
	if len(faults) == 0 {
		return
	}
	told := map[string]bool{}
	done := c.tellRings(faults, r)
	for i := range faults {
		f := &faults[i]
		if done[i] {
			continue
		}
		set := f.pattern()
		if c.spread(f.pair, f.more) == 0 {
			changes := r.mend(f)
			if len(changes) == 0 {
				changes = c.partThem(f, r)
			}
			if len(changes) == 0 {
				changes = []Change{c.leaveOut(f.b)}
			}
			c.tellPair(r.severity, f, nil, changes)
			continue
		}
		if !told[set] {
			told[set] = true
			c.tellPattern(set, faults[i:], r)
		}
	}
	if len(c.pairs) >= mostPairs {
		last := &c.results[len(c.results)-1]
		last.Message += "; more openings lie too near each other than are told here"
	}
}

// tellPattern tells all faults of one pattern as one finding. The pattern is
// opened up until every pair of it has what the rule asks.
func (c *Context) tellPattern(set string, faults []pairFault, r pairRule) {
	var worst *pairFault
	var members []*opening
	for i := range faults {
		f := &faults[i]
		if f.pattern() != set || c.spread(f.pair, f.more) == 0 {
			continue
		}
		members = append(members, f.a, f.b)
		if worst == nil || c.worse(f, worst) {
			worst = f
		}
	}
	slices.SortFunc(members, func(a, b *opening) int { return a.i - b.i })
	members = slices.Compact(members)
	k := c.spread(worst.pair, worst.more)
	for _, pairs := range [2][]pair{c.pairs, c.notes} {
		for i := range pairs {
			if p := &pairs[i]; p.pattern() == set {
				k = max(k, c.spread(p, r.lacks(p)))
			}
		}
	}
	c.tellPair(r.severity, worst, members, []Change{c.openUp(worst, set, k)})
}

// tellPair reports a pair, or the pair that governs a pattern together with all
// members that fall short.
func (c *Context) tellPair(sev diag.Severity, f *pairFault, members []*opening, changes []Change) {
	features := []string{f.a.hole.Name, f.b.hole.Name}
	message := f.message
	if len(members) > 2 {
		for _, o := range members {
			if o != f.a && o != f.b {
				features = append(features, o.hole.Name)
			}
		}
		message += "; " + strconv.Itoa(len(members)) + " holes of " + quoted(f.pattern()) + " are concerned"
	}
	mid := f.P.Add(f.Q).Mul(0.5)
	c.ReportAs(sev, diag.Finding{
		Pos: f.b.hole.Pos, Features: features, Where: at(mid),
		Got: f.got, Want: f.want, Unit: "mm", Source: f.source, Message: message,
	}, changes...)
}

// openUp is the change that spreads a pattern from its middle by a factor.
func (c *Context) openUp(f *pairFault, set string, k float64) Change {
	d := f.a.at.Dist(f.b.at)
	text := "space the holes of " + quoted(set) + " wider: from " + name(f.a.hole) + " to " + name(f.b.hole) + " " +
		c.len(d*k) + " instead of " + c.len(d)
	ch := Change{Kind: Spread, Hole: set, To: k, Text: text}
	if c.spreadHarms(set, k) {
		ch.Text += ", with the plate and its neighbours to match"
	}
	return ch
}

// spreadHarms reports whether opening up a pattern brings one of its holes too
// near to something that is not of the pattern.
func (c *Context) spreadHarms(set string, k float64) bool {
	mid := middle(c.Blank.Holes, set)
	for i := range c.openings {
		o := &c.openings[i]
		if o.hole.Set != set {
			continue
		}
		t := o.moved(o.at.Sub(mid).Mul(k - 1))
		if !c.whole() || !c.edgeRoom(&t, num.Coincident).met() {
			return true
		}
		if t.bolted() {
			if s := c.edgeShortfall(&t); !s.met() && s.by > c.edgeShortfall(o).by {
				return true
			}
		}
		if s := c.edgeRoom(&t, c.leastWeb()); !s.met() && s.by > c.edgeRoom(o, c.leastWeb()).by {
			return true
		}
		near := false
		c.around(&t, o.reach, func(p *opening) {
			if p.hole.Set != set && !openingRoom(&t, p, c.leastWeb()).met() {
				near = true
			}
		})
		if near {
			return true
		}
	}
	return false
}

// shorterMove is the shorter of the moves that free one opening of a pair. What is
// pinned stays where it is.
func (c *Context) shorterMove(f *pairFault, worst func(*opening) shortfall) []Change {
	var best []Change
	for _, o := range [2]*opening{f.b, f.a} {
		if o.pinned() {
			continue
		}
		ch, ok := c.relocate(o, worst)
		if ok && (len(best) == 0 || length(ch.By) < length(best[0].By) && !num.Same(length(ch.By), length(best[0].By))) {
			best = []Change{ch}
		}
	}
	return best
}

func length(p diag.Place) float64 { return geom.Point{X: p.X, Y: p.Y}.Len() }

// leaveOut is the change that takes an opening away.
func (c *Context) leaveOut(o *opening) Change {
	return Change{Kind: LeaveOut, Hole: o.hole.Name, Text: "leave " + name(o.hole) + " out"}
}
