package check

import (
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/profiles"
)

var coatingGap = &Check{
	ID:       "coating-gap",
	Severity: diag.Warning,
	Title:    "the coating fills a hole or a saddle",
	Meaning: "A coating lies on every face: a hole gets narrower by two of them, a saddle and its tube come closer by one " +
		"each. What is left has to let the bolt through and the plate sit down.",
	Formula: "hole - bolt - 2 c >= limit coated clearance (0.2 mm); gap of a saddle - 2 c >= limit coated saddle gap (0.2 mm); " +
		"c on one face by the file, or by the table coatings",
	Source: "ISO 1461, Table 3 for galvanising (from memory); common practice for paint, powder and what is left",
	Limits: "Mean thickness: runs and drops come thicker. The bolt's own coating is within its thread's tolerance. Bores and " +
		"slots for tabs are to be kept clear of it, and are not looked at. A saddle that is welded before it is coated is " +
		"sealed by the weld: waive it.",
	Run: func(c *Context) {
		if c.Blank.Coat == nil {
			return
		}
		two := 2 * c.Blank.Coat.Thickness
		for i := range c.openings {
			o := &c.openings[i]
			if !o.bolted() {
				continue
			}
			if want := o.hole.Bolt.D + two + c.limit(profiles.CoatedClearance); short(o.hole.Dia, want) {
				c.reportCoatedHole(o, want)
			}
		}
		for i := range c.Blank.Edges {
			e := &c.Blank.Edges[i]
			if want := two + c.limit(profiles.CoatedSaddleGap); e.Saddle != nil && short(e.Saddle.Gap, want) {
				c.reportCoatedSaddle(e, want)
			}
		}
	},
}

// coat names the coating with its thickness.
func (c *Context) coat() string {
	k := c.Blank.Coat
	return map[string]string{"galvanised": "galvanising"}[k.Kind] + map[bool]string{true: k.Kind}[k.Kind != "galvanised"] + " of " + c.len(k.Thickness) + " on each face"
}

func (c *Context) reportCoatedHole(o *opening, want float64) {
	g, w := c.gotWant(o.hole.Dia, want)
	to := c.up(want)
	c.Report(diag.Finding{
		Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(o.at), Got: o.hole.Dia, Want: want, Unit: "mm",
		Source:  cite(c.Blank.Coat.Source) + "; " + c.limitSource(profiles.CoatedClearance),
		Message: hole(o) + " of " + g + " for a bolt of " + c.len(o.hole.Bolt.D) + " is narrowed by " + c.coat() + ", needs " + w,
	}, Change{Kind: Resize, Hole: o.hole.Name, To: to, Text: "make the diameter of " + name(o.hole) + " " + c.len(to) + " (a looser fit)"})
}

func (c *Context) reportCoatedSaddle(e *blank.Edge, want float64) {
	s := e.Saddle
	where := s.Circle.C
	if len(e.Segs) > 0 {
		where = c.Blank.Outline[e.Segs[len(e.Segs)/2]].Mid()
	}
	g, w := c.gotWant(s.Gap, want)
	to := max(c.up(want), c.limit(profiles.SaddleGapUsual))
	ch := Change{Kind: Widen, Hole: e.Name, To: to, Text: "give it a gap of " + c.len(to)}
	f := diag.Finding{
		Pos: e.Pos, Features: []string{e.Name}, Where: at(where), Got: s.Gap, Want: want, Unit: "mm",
		Source:  cite(c.Blank.Coat.Source) + "; " + c.limitSource(profiles.CoatedSaddleGap),
		Message: "the gap of " + g + " of the saddle " + quoted(e.Name) + " is filled by " + c.coat() + " and on the tube, needs " + w,
	}
	changes := c.firstThat(ch)
	if len(changes) == 0 {
		f.Fix = ch.Text + ", with the plate to match"
	}
	c.Report(f, changes...)
}
