package check

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strconv"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/strength"
)

// mostShare is the largest utilisation that is told: what has no resistance has
// this.
const mostShare = 9999

// held is what a load takes of what there is, at one place in the case that
// governs there.
type held struct {
	rule   *Check
	place  string // as told: a hole, a pattern, a weld, a section
	set    string // findings of one set are told together
	title  string // `bolt hole "pivot"`
	name   string // of the feature
	pos    diag.Pos
	at     geom.Point
	in     *loadCase // nil where it does not hang on a load
	load   float64
	result strength.Result
	ratio  *strength.Ratio // where the standard sums shares
	limit  *strength.Limit // where it bounds a dimension
	v      float64
	d      *demand
	longer bool    // a weld that is too short
	midway float64 // how far to the left a pin's hole has to go to lie midway, mm
	play   float64 // the largest diameter of a pin's hole, mm
	err    error   // why nothing could be computed
}

// met reports whether it holds.
func (h *held) met() bool {
	if h.err != nil {
		return false
	}
	if h.limit != nil {
		return h.limit.Met()
	}
	return num.AtMost(h.v, 1)
}

// limitShare is a dimension as a share of its bound.
func limitShare(l *strength.Limit) float64 {
	a, b := l.Bound, l.Got
	if l.Most {
		a, b = b, a
	}
	switch {
	case b > 0:
		return a / b
	case l.Met():
		return 0
	}
	return math.Inf(1)
}

// Utilisation is how much of what there is a load takes, at one place and by one
// rule, in the case that takes most. It is told whether or not it is too much.
type Utilisation struct {
	Rule    string  `json:"rule"`
	Place   string  `json:"place"` // the hole or pattern, weld or section
	Value   float64 `json:"utilisation"`
	Case    string  `json:"case,omitempty"`
	Mode    string  `json:"governs"` // what would give way, or what is measured
	Formula string  `json:"formula"`
	Source  string  `json:"source"`
	Shape   bool    `json:"shape,omitempty"` // a dimension against its bound, and no load against what there is
}

// Utilisations lists the largest utilisation by every rule on strength at every
// place, in the order of the rules, the largest of a pattern for all of it. It
// says what was computed, and nothing about what was not.
func Utilisations(b *blank.Blank) []Utilisation {
	c := newContext(b)
	c.quiet = true
	for _, k := range rules {
		if k.strength {
			c.rule = k
			k.Run(c)
		}
	}
	out := []Utilisation{}
	for _, h := range c.worstHeld() {
		u := Utilisation{Rule: h.rule.ID, Place: h.place, Value: min(h.v, mostShare), Shape: h.limit != nil && h.err == nil}
		if h.in != nil {
			u.Case = h.in.name
		}
		u.Mode, u.Formula, u.Source = h.words(c.method.units)
		out = append(out, u)
	}
	return out
}

// words are what governs, the formula with its numbers, and the clause.
func (h *held) words(u strength.Units) (mode, formula, source string) {
	switch {
	case h.err != nil:
		return "could not be computed: " + h.err.Error(), "nothing was computed", h.rule.Source
	case h.limit != nil:
		return h.limit.What, h.limit.Text(u), h.limit.Clause.String()
	case h.ratio != nil:
		return h.ratio.Mode, h.ratio.Formula(u), h.ratio.Clause.String()
	}
	return h.result.Mode, h.result.Formula(u) + "; " + h.result.Kind.Text(h.load, u) + " / " +
		h.result.Kind.Text(h.result.Design, u) + " = " + share(h.v), h.result.Clause.String()
}

// share writes a utilisation.
func share(v float64) string {
	if v >= mostShare {
		return "more than " + strconv.Itoa(mostShare)
	}
	return strconv.FormatFloat(v, 'f', 2, 64)
}

// worstHeld keeps of what was weighed the worst of each rule and set, in the
// order in which it came.
func (c *Context) worstHeld() []*held {
	type key struct {
		rule *Check
		set  string
	}
	where := map[key]int{}
	var out []*held
	for i := range c.held {
		h := &c.held[i]
		k := key{h.rule, h.set}
		j, seen := where[k]
		switch {
		case !seen:
			where[k] = len(out)
			out = append(out, h)
		case h.v > out[j].v || !h.met() && out[j].met():
			out[j] = h
		}
	}
	return out
}

// weigh notes what a load takes.
func (c *Context) weigh(h held) {
	h.rule = c.rule
	c.held = append(c.held, h)
}

// tellHeld reports what the running rule weighed and found too much, one finding
// a set, with the changes that options finds for the worst of it.
func (c *Context) tellHeld(from int, options func(h *held) []Change) {
	if c.quiet {
		return
	}
	type told struct {
		worst *held
		names []string
	}
	var order []*told
	index := map[string]*told{}
	for i := from; i < len(c.held); i++ {
		h := &c.held[i]
		if h.met() {
			continue
		}
		t := index[h.set]
		if t == nil {
			t = &told{worst: h}
			index[h.set] = t
			order = append(order, t)
		}
		if h.v > t.worst.v {
			t.worst = h
		}
		if !slices.Contains(t.names, h.name) {
			t.names = append(t.names, h.name)
		}
	}
	for _, t := range order {
		h := *t.worst
		mode, formula, source := h.words(c.method.units)
		f := diag.Finding{Pos: h.pos, Where: at(h.at), Formula: formula, Source: source, Utilisation: min(h.v, mostShare)}
		f.Features = []string{h.name}
		for _, n := range t.names {
			if n != h.name {
				f.Features = append(f.Features, n)
			}
		}
		u := c.method.units
		switch {
		case h.err != nil:
			f.Message, f.Fix = h.title+": "+mode, settle
		case h.limit != nil:
			f.Got, f.Want, f.Unit = h.limit.Got, h.limit.Bound, "mm"
			f.Message = h.title + ": " + h.limit.Text(u)
		case h.ratio != nil:
			f.Got, f.Want = min(h.v, mostShare), 1
			f.Message = h.title + ": " + mode + ": utilisation " + share(h.v)
		default:
			f.Got, f.Want, f.Unit = si(h.result.Kind, h.load), si(h.result.Kind, h.result.Design), siUnit(h.result.Kind)
			f.Message = h.title + ": " + mode + ": " + h.result.Kind.Text(h.load, u) + " on it, holds " +
				h.result.Kind.Text(h.result.Design, u) + " by " + c.method.String() + ", utilisation " + share(h.v)
		}
		if h.in != nil && h.in.name != "" {
			f.Case = h.in.name
			f.Message += ", case " + quoted(h.in.name)
		}
		if n := len(t.names); n > 1 {
			f.Message += "; " + strconv.Itoa(n) + " of " + quoted(h.place) + " are concerned"
		}
		if h.err != nil {
			c.ReportAs(diag.Error, f)
			continue
		}
		changes := options(&h)
		if len(changes) == 0 {
			f.Fix = c.noneFound()
		}
		c.Report(f, changes...)
	}
}

// settle is what to do about what could not be computed.
const settle = "settle what stands in the way, or have it computed by hand: nothing is known of it here"

// cannot notes that something could not be computed: told as an error, whatever the
// rule weighs.
func (c *Context) cannot(h held, err error) {
	h.err, h.v = err, math.Inf(1)
	h.set += " error"
	c.weigh(h)
}

// reportCannot is cannot for a rule that weighs no load.
func (c *Context) reportCannot(f diag.Finding, what string, err error) {
	f.Message, f.Fix = what+": could not be computed: "+err.Error(), settle
	c.ReportAs(diag.Error, f)
}

// errOutside is why nothing is computed at a hole from which no edge is met.
var errOutside = errors.New("no edge of the plate lies ahead of the hole; it has to lie in the plate")

// si brings a value to the unit it is told in: kN, kN·m, N/mm.
func si(k strength.Kind, v float64) float64 {
	switch k {
	case strength.Force:
		return v / 1e3
	case strength.Moment, strength.Torque:
		return v / 1e6
	}
	return v
}

func siUnit(k strength.Kind) string {
	switch k {
	case strength.Force:
		return "kN"
	case strength.Moment, strength.Torque:
		return "kN·m"
	case strength.PerMM:
		return "N/mm"
	case strength.Stress:
		return "MPa"
	}
	return ""
}

// ofHole begins what is weighed at a hole.
func ofHole(d *demand) held {
	h := held{title: hole(d.o), name: d.o.hole.Name,
		pos: d.o.hole.Pos, at: d.o.at, in: d.in, d: d}
	h.place, h.set = setName(d.o), setName(d.o)
	return h
}

// setName is the entry of the file that a hole came from, or the hole's own name.
func setName(o *opening) string {
	if o.hole.Set == "" {
		return o.hole.Name
	}
	return o.hole.Set
}

// eachHole weighs, for every hole that takes a load, the case that governs.
func (c *Context) eachHole(holds func(d *demand) (load float64, r strength.Result, ok bool)) {
	for i := 0; i < len(c.demands); {
		var worst held
		j := i
		for ; j < len(c.demands) && c.demands[j].o == c.demands[i].o; j++ {
			d := &c.demands[j]
			load, r, ok := holds(d)
			if !ok {
				continue
			}
			d.seen = true
			v := r.Utilisation(load)
			if worst.d == nil || v > worst.v {
				worst = held{d: d, load: load, result: r, v: v}
			}
		}
		if worst.d != nil {
			h := ofHole(worst.d)
			h.load, h.result, h.v = worst.load, worst.result, worst.v
			c.weigh(h)
		}
		i = j
	}
}

// worstOf is the result that a load takes most of.
func worstOf(load float64, rs ...strength.Result) strength.Result {
	return slices.MaxFunc(rs, func(a, b strength.Result) int {
		return cmp.Compare(a.Utilisation(load), b.Utilisation(load))
	})
}
