package check

import (
	"strconv"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var edgeDistance = &Check{
	ID:       "edge-distance",
	Severity: diag.Error,
	Title:    "a bolt hole is too near an edge",
	Meaning: "From the centre of a bolt hole to the nearest edge there has to be enough metal for the bolt not " +
		"to tear out and for the edge not to bulge. The nearest edge is the true one, straight or round, of " +
		"the outline or of an opening that takes no bolt. Between two bolt holes bolt-spacing asks instead. " +
		"The file chooses whose distances hold: `rules: aisc 360` (where it says nothing), `en 1993-1-8`, " +
		"`shop 1.5d` or `shop 2d`.",
	Formula: "aisc 360: Table J3.4 or J3.4M by bolt diameter, plus C2 of Table J3.5 for oversized holes; " +
		"with `edges: sheared` the sheared column of the 2005 edition\n" +
		"en 1993-1-8: 1.2 d0, of a slot 1.5 d0 from its axis (d0: diameter of the hole, width of the slot)\n" +
		"shop 1.5d, shop 2d: 1.5 d, 2 d (d: diameter of the bolt)\n" +
		"aisc 360 and shop rules measure a slot from wherever the bolt may sit along it: up to C2, " +
		"or half of what the slot is longer than the bolt, from its middle",
	Source: "AISC 360-16 Tables J3.4, J3.4M and J3.5; AISC 360-05 Table J3.4 and J3.4M for sheared edges; " +
		"EN 1993-1-8:2005, 3.5, Table 3.3; common practice for the shop rules",
	Limits: "Says nothing about strength: a hole that meets it may still tear out under its load. C2 is tabulated " +
		"for slots square to or along an edge; between those, and for slots longer than the table's, the place of the " +
		"bolt is our reading. Which of e1 and e2 an edge is depends on the load; both ask the same. AISC asks for " +
		"the engineer's consent where a distance is less than the bolt's diameter. Holes without a bolt and " +
		"bores are left to least-web.",
	Run: runEdgeDistance,
}

// edgeHit is the edge nearest to a bolt hole: of the outline, or of other.
type edgeHit struct {
	near
	other *opening
}

func runEdgeDistance(c *Context) {
	if !c.whole() {
		return
	}
	hits := make([]edgeHit, len(c.openings))
	for i := range c.openings {
		if o := &c.openings[i]; o.bolted() {
			hits[i].near = c.edges[i]
			if o.edge.half != o.half {
				hits[i].near = c.outline.nearest(o, o.edge.half)
			}
		}
	}
	for i := range c.pairs {
		o, other := c.pairs[i].mixed()
		if o == nil {
			continue
		}
		hits[o.i].take(o, other)
	}
	for i := range hits {
		o, h := &c.openings[i], &hits[i]
		// Out of the plate or into an opening: other rules tell.
		if o.bolted() && (min(c.edges[i].D, h.D) <= num.Coincident || !short(h.D, o.edge.want)) {
			h.other, h.D = nil, o.edge.want
		}
	}
	done := c.tellRingEdges(hits)
	for i := range hits {
		if o, h := &c.openings[i], &hits[i]; o.bolted() && !done[i] && short(h.D, o.edge.want) {
			c.reportEdge(o, h)
		}
	}
}

// tellRingEdges tells together the holes of one pattern that are too near to one
// other opening, where opening the pattern up mends all of it, and says which those
// were.
func (c *Context) tellRingEdges(hits []edgeHit) []bool {
	done := make([]bool, len(hits))
	r := pairRule{lacks: func(p *pair) float64 {
		o, other := p.mixed()
		if o == nil {
			return 0
		}
		return o.edge.want - (between(o, o.edge.half, other).D - other.r)
	}}
	for i := range hits {
		o, other := &c.openings[i], hits[i].other
		if other == nil || done[i] || o.hole.Set == "" || o.hole.Set == o.hole.Name {
			continue
		}
		k := clash{set: o.hole.Set, other: other.i}
		worst := i
		for j := i; j < len(hits); j++ {
			if hits[j].other == other && c.openings[j].hole.Set == k.set {
				k.faults = append(k.faults, j)
				if hits[j].D < hits[worst].D && !num.Same(hits[j].D, hits[worst].D) {
					worst = j
				}
			}
		}
		if len(k.faults) < 2 {
			continue
		}
		ch, ok := c.openRing(&k, r)
		if !ok || !c.ringFits(k.set, ch.To) {
			continue
		}
		f := c.edgeFinding(&c.openings[worst], &hits[worst])
		f.Message += "; " + strconv.Itoa(len(k.faults)) + " holes of " + quoted(k.set) + " are concerned"
		for _, j := range k.faults {
			done[j] = true
			if j != worst {
				f.Features = append(f.Features, c.openings[j].hole.Name)
			}
		}
		c.Report(f, ch)
	}
	return done
}

// take keeps the other opening where its edge is nearer.
func (h *edgeHit) take(o, other *opening) {
	n := between(o, o.edge.half, other)
	if d := n.D - other.r; d < h.D {
		if n.D > num.Coincident {
			n.Q = n.Q.Add(n.P.Sub(n.Q).Mul(other.r / n.D))
		}
		n.D = d
		h.Near, h.other = n, other
	}
}

// nearestEdge is the edge nearest to the places of a bolt in a hole that may
// have been moved.
func (c *Context) nearestEdge(o *opening) edgeHit {
	h := edgeHit{near: c.outline.nearest(o, o.edge.half)}
	c.around(o, o.reach, func(p *opening) {
		if !p.bolted() {
			h.take(o, p)
		}
	})
	return h
}

// edgeShortfall is what a bolt hole lacks to its nearest edge.
func (c *Context) edgeShortfall(o *opening) shortfall {
	if !c.whole() {
		return noShortfall()
	}
	h := c.nearestEdge(o)
	if h.other != nil {
		n := between(o, o.edge.half, h.other)
		return shortfall{o.edge.want - h.D, away(o, h.other, n)}
	}
	return shortfall{o.edge.want - h.D, c.outline.outward(h.near).Mul(-1)}
}

// ringFits reports whether every hole of an opened pattern keeps its distance to all
// edges.
func (c *Context) ringFits(set string, to float64) bool {
	mid := middle(c.Blank.Holes, set)
	for i := range c.openings {
		if o := &c.openings[i]; o.hole.Set == set && o.bolted() {
			if t := o.moved(o.at.Sub(mid).Mul(to - 1)); !c.edgeShortfall(&t).met() {
				return false
			}
		}
	}
	return true
}

func (c *Context) reportEdge(o *opening, h *edgeHit) {
	c.Report(c.edgeFinding(o, h), c.edgeChanges(o, h)...)
}

func (c *Context) edgeFinding(o *opening, h *edgeHit) diag.Finding {
	edge := "the edge of "
	if h.other != nil {
		edge += hole(h.other)
	} else {
		edge = c.edgeOf(o, h.near)
	}
	from := ": its centre is "
	if o.edge.half > 0 {
		from = ": the bolt's centre comes to "
	}
	got, want := c.gotWant(h.D, o.edge.want)
	features := []string{o.hole.Name}
	if h.other != nil {
		features = append(features, h.other.hole.Name)
	}
	return diag.Finding{
		Pos: o.hole.Pos, Features: features, Where: at(h.Q),
		Got: h.D, Want: o.edge.want, Unit: "mm", Source: o.edge.cite(),
		Message: hole(o) + from + got + " from " + edge + ", needs " + want + " (" + c.set.edgeWords(c, o) + ")",
	}
}

// edgeChanges are the ways to give a bolt hole its edge distance: elsewhere,
// more plate round it, or a smaller opening beside it.
func (c *Context) edgeChanges(o *opening, h *edgeHit) []Change {
	var changes []Change
	if !c.tied(o) {
		if ch, ok := c.relocate(o, c.edgeShortfall); ok {
			changes = append(changes, ch)
		}
	}
	others := 0
	c.around(o, o.reach, func(p *opening) {
		if p.bolted() {
			return
		}
		if n := between(o, o.edge.half, p); short(n.D-p.r, o.edge.want) {
			others++
		}
	})
	outline := short(c.outline.nearest(o, o.edge.half).D, o.edge.want)
	switch {
	case outline && others == 0 && !c.fillsSaddle(o, o.edge.half, o.edge.want):
		changes = c.smallestFirst(changes, c.reachOut(o, h.near, o.edge.half, o.edge.want), o.edge.want-h.D)
	case !outline && others == 1:
		if ch, ok := c.shrink(h.other, o.edge.want-h.D); ok {
			changes = append(changes, ch)
		}
	}
	if len(changes) == 0 {
		changes = append(changes, c.leaveOut(o))
	}
	return changes
}

// farMove is how many times as far as the edge would have to go a hole may be
// moved, for the move to be told first: two edges that meet at right angles ask
// for up to 1.4 times.
const farMove = 2

// smallestFirst adds the change that moves an edge by so much: before a move of
// the hole that is much longer, else after it.
func (c *Context) smallestFirst(moves []Change, edge Change, by float64) []Change {
	if len(moves) > 0 && length(moves[0].By) > farMove*by+c.step() {
		return append([]Change{edge}, moves...)
	}
	return append(moves, edge)
}

// reachOut is the change that gives an opening so much plate on every side of
// its axis, taken half long to each side of its centre.
func (c *Context) reachOut(o *opening, n near, half, want float64) Change {
	to := c.up(want)
	ch := Change{Kind: Reach, Hole: o.hole.Name, To: to, Half: half}
	switch {
	case half > 0:
		ch.Text = "let the plate reach " + c.len(to) + " from " + name(o.hole) + " on every side, measured from up to " +
			c.len(half) + " either way along the slot from its middle"
	case c.roundEnd(o, n):
		ch.Text = "give the round end about " + name(o.hole) + " a radius of " + c.len(to)
	default:
		ch.Text = "let the plate reach " + c.len(to) + " from the centre of " + name(o.hole) + " on every side"
	}
	return ch
}

// fillsSaddle reports whether plate added round an opening would come where a tube
// is to sit.
func (c *Context) fillsSaddle(o *opening, half, to float64) bool {
	for i := range c.Blank.Edges {
		e := &c.Blank.Edges[i]
		if e.Role != blank.SaddleEdge {
			continue
		}
		for _, k := range e.Segs {
			if short(geom.SegSeg(o.axis(half), c.Blank.Outline[k]).D, to) {
				return true
			}
		}
	}
	return false
}

// shrink is the change that makes an opening smaller by so much all round. Only
// openings that nothing has to fit into may get smaller.
func (c *Context) shrink(o *opening, by float64) (Change, bool) {
	switch o.hole.Purpose {
	case blank.PlainHole, blank.RingOpening, blank.Lightening:
	default:
		return Change{}, false
	}
	to := c.down(2*o.r - 2*by)
	if to <= 0 || o.hole.CutDia > 0 && short(to-o.hole.Dia+o.hole.CutDia, c.leastCut(o)) {
		return Change{}, false
	}
	what := "diameter"
	if o.half > 0 {
		what = "width"
	}
	return Change{Kind: Resize, Hole: o.hole.Name, To: to,
		Text: "make the " + what + " of " + name(o.hole) + " " + c.len(to)}, true
}

// isRing reports whether an opening is what makes a disc a ring: its place is
// the disc's.
func isRing(o *opening) bool { return o.hole.Purpose == blank.RingOpening }

// reach adds plate to an outline where it does not come as far as to from an
// axis.
func reach(l geom.Loop, o opening, half, to float64) (geom.Loop, error) {
	more := geom.CircleLoop(geom.Circle{C: o.at, R: to})
	if half > 0 {
		axis := o.axis(half)
		more = geom.Slot(axis.A, axis.B, 2*to)
	}
	joined, err := geom.Union([]geom.Region{{Outer: l}}, []geom.Region{{Outer: more}})
	if err != nil {
		return nil, err
	}
	if len(joined) != 1 {
		return nil, errApart
	}
	return joined[0].Outer, nil
}
