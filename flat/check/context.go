package check

import (
	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Context is what a rule works with: the blank, what has been measured on it
// once for all rules, and where findings go.
type Context struct {
	Blank *blank.Blank

	part     *describe.Part
	units    unit.System
	web      float64       // see leastWeb
	set      *ruleSet      // for bolt holes, as chosen in the file
	invalid  *outlineFault // what is wrong with the outline, nil if nothing
	outline  boundary      // only where the outline is whole
	openings []opening     // in the order of Blank.Holes, then of Blank.Cutouts
	places   grid          // of the openings
	edges    []near        // of each opening: its own axis to the outline
	pairs    []pair        // that fall short of something between them
	notes    []pair        // that have enough, and less than is preferred
	reach    float64       // the farthest that the rules look round any opening, mm
	looks    int           // at pairs, for suggestions

	method  method
	cases   []loadCase
	demands []demand // by hole, then in the order of the cases
	groups  []group
	holders map[*blank.Load][]*opening // the holes of each load
	bolt    boltStrength               // looked up last
	held    []held                     // what was weighed
	shape   *fold.Folded               // the part folded; nil until asked for
	crashes fold.Problems              // where it runs into itself
	quiet   bool                       // weigh only, tell nothing
	trials  int                        // of changes, for suggestions
	faults  map[string]bool            // failed checks before any change; nil until asked for

	rule    *Check // the one that runs
	results []Result
	waivers []waiverUse
}

// pair is two neighbouring openings and the distance of their axes, P on the
// first, Q on the second.
type pair struct {
	a, b *opening
	geom.Near
}

// mixed gives the bolt hole and the other opening of a pair of which just one
// takes a bolt, else nil.
func (p *pair) mixed() (bolted, other *opening) {
	switch {
	case p.a.bolted() == p.b.bolted():
		return nil, nil
	case p.a.bolted():
		return p.a, p.b
	}
	return p.b, p.a
}

// gap is the metal left between the two: nothing or less where they meet.
func (p *pair) gap() float64 { return p.D - p.a.r - p.b.r }

// newContext measures once what several rules need.
func newContext(b *blank.Blank) *Context {
	c := prepare(b)
	c.ask()
	if c.whole() {
		c.outline = newBoundary(b.Outline)
		c.edges = make([]near, len(c.openings))
		for i := range c.openings {
			c.edges[i] = c.outline.nearest(&c.openings[i], c.openings[i].half)
		}
	}
	c.locate()
	c.pairUp()
	c.bear()
	return c
}

// locate sorts the openings by place.
func (c *Context) locate() {
	boxes := make([]box, len(c.openings))
	for i := range c.openings {
		boxes[i] = c.openings[i].box()
	}
	c.places = newGrid(boxes)
}

// prepare reads the blank without measuring distances.
func prepare(b *blank.Blank) *Context {
	c := &Context{Blank: b, part: b.Part}
	if c.part == nil {
		c.part = &describe.Part{}
	}
	c.units = c.part.Units
	c.web = b.Process.LeastWeb(b.Thickness)
	if c.set, _ = chosen(c.part); c.set.word == ownWord && b.Profile != nil {
		c.set = ownShop(b.Profile)
	}
	c.method = methodOf(c.set.word, c.units)
	c.waivers = make([]waiverUse, len(c.part.Waivers))
	c.openings = make([]opening, len(b.Holes), len(b.Holes)+len(b.Cutouts))
	for i := range b.Holes {
		c.openings[i] = newOpening(&b.Holes[i], i)
	}
	for i := range b.Cutouts {
		c.openings = append(c.openings, newCutout(&b.Cutouts[i], len(c.openings)))
	}
	c.invalid = validOutline(b.Outline)
	return c
}

// mostPairs bounds the pairs that are told of one part, so that a slip in a
// pattern does not fill memory and terminal. All kept before it fall short.
const mostPairs = 5000

// pairUp finds every two openings that fall short of something between them.
func (c *Context) pairUp() {
	if len(c.openings) < 2 {
		return
	}
	boxes := c.places.boxes
	for i := range c.openings {
		o := &c.openings[i]
		c.places.find(boxes[i].grown(o.reach), func(j int) {
			// Looked at by the one that reaches farther, in a tie by the first.
			p := &c.openings[j]
			if j == i || p.reach > o.reach || p.reach == o.reach && j < i {
				return
			}
			first, second := o, p
			if j < i {
				first, second = p, o
			}
			c.keep(&pair{first, second, between(first, first.half, second)})
		})
		if len(c.pairs) >= mostPairs {
			return
		}
	}
}

// keep notes a pair that falls short of something, or of what is preferred.
func (c *Context) keep(p *pair) {
	gap := p.gap()
	if gap <= num.Coincident || short(gap, c.leastWeb()) {
		c.pairs = append(c.pairs, *p)
		return
	}
	switch o, other := p.mixed(); {
	case o != nil:
		if n := between(o, o.edge.half, other); short(n.D-other.r, o.edge.want) {
			c.pairs = append(c.pairs, *p)
		}
	case p.a.bolted():
		s := c.set.spacing(p.a, p.b)
		switch centres, clear, prefer := p.lacks(&s); {
		case !num.AtLeast(0, max(centres, clear)):
			c.pairs = append(c.pairs, *p)
		case !num.AtLeast(0, prefer) && len(c.notes) < mostPairs:
			c.notes = append(c.notes, *p)
		}
	}
}

// ask looks up what each opening needs round it, once for equal neighbours in
// the file.
func (c *Context) ask() {
	web := c.leastWeb()
	var last *opening
	for i := range c.openings {
		o := &c.openings[i]
		o.reach = web
		if !o.bolted() {
			continue
		}
		if last != nil && last.hole.Bolt == o.hole.Bolt && last.r == o.r && last.half == o.half {
			o.edge, o.reach = last.edge, last.reach
			continue
		}
		o.edge = c.set.edge(c, o)
		s := c.set.spacing(o, o)
		o.reach = max(web, s.centres, s.clear, s.prefer, o.edge.want+max(0, o.edge.half-o.half))
		last = o
	}
	for i := range c.openings {
		c.reach = max(c.reach, c.openings[i].reach)
	}
}

// leastWeb is the least metal that the process leaves standing, mm; 0 where the
// file names no process.
func (c *Context) leastWeb() float64 { return c.web }

// room is what a suggested place leaves between an opening and its neighbours,
// mm: the least web, without a process one plate thickness (common practice),
// and never nothing.
func (c *Context) room() float64 {
	if w := c.leastWeb(); w > 0 {
		return w
	}
	return max(c.Blank.Thickness, c.step())
}

// whole reports whether the outline can be measured from.
func (c *Context) whole() bool { return c.invalid == nil }

// around calls each with the other openings that may come within d mm of o.
func (c *Context) around(o *opening, d float64, each func(*opening)) {
	if len(c.openings) < 2 {
		return
	}
	c.places.find(o.box().grown(d), func(j int) {
		if j != o.i {
			c.looks++
			each(&c.openings[j])
		}
	})
}

// Report notes what the running rule found: it fills in the rule's id and
// severity, the waiver if the file has one, the source where f has none, and
// words for the changes.
func (c *Context) Report(f diag.Finding, changes ...Change) {
	c.ReportAs(c.rule.Severity, f, changes...)
}

// ReportAs is Report for a finding that does not weigh what its rule does.
func (c *Context) ReportAs(s diag.Severity, f diag.Finding, changes ...Change) {
	f.Rule, f.Severity = c.rule.ID, s
	if f.Source == "" {
		f.Source = c.rule.Source
	}
	if f.Features == nil {
		f.Features = []string{}
	}
	if f.Fix == "" {
		f.Fix = c.words(changes)
	}
	if changes == nil {
		changes = []Change{}
	}
	if f.Utilisation == 0 && f.Unit == "mm" && f.Got > 0 && f.Want > 0 {
		f.Utilisation = f.Want / f.Got
	}
	if f.Formula == "" && f.Unit == "mm" && f.Want > 0 && f.Got < f.Want {
		got, want := c.gotWant(f.Got, f.Want)
		f.Formula = got + " >= " + want + " is not so"
	}
	f.Waived = c.waive(&f)
	c.results = append(c.results, Result{Finding: f, Changes: changes})
}

// at is a place of the plate in a finding.
func at(p geom.Point) diag.Place { return diag.Place{X: p.X, Y: p.Y} }

// short reports whether a distance falls short of what is needed.
func short(got, want float64) bool { return !num.AtLeast(got, want) }
