package check

import (
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/profiles"
)

var saddleGap = &Check{
	ID:       "saddle-gap",
	Severity: diag.Warning,
	Title:    "a saddle has no room for paint and for a tube that is not round",
	Meaning: "A saddle cut to the tube's own radius bears on two points only: paint, scale and the seam take up room, " +
		"tubes come a little over size and out of round. With a gap it sits down, and the weld gets to the root.",
	Formula: "gap >= limit saddle gap (0.5 mm)",
	Source:  "common practice: 0.5 to 1 mm",
	Limits:  "Goes by the tube in the file: measure the tube. A gap too wide for the weld is not looked at.",
	Run: func(c *Context) {
		least := c.limit(profiles.SaddleGapLeast)
		for i := range c.Blank.Edges {
			if e := &c.Blank.Edges[i]; e.Role == blank.SaddleEdge && e.Saddle != nil && short(e.Saddle.Gap, least) {
				c.reportSaddle(e)
			}
		}
	},
}

func (c *Context) reportSaddle(e *blank.Edge) {
	s := e.Saddle
	leastSaddleGap, usualSaddleGap := c.limit(profiles.SaddleGapLeast), c.limit(profiles.SaddleGapUsual)
	where := s.Circle.C
	if len(e.Segs) > 0 {
		where = c.Blank.Outline[e.Segs[len(e.Segs)/2]].Mid()
	}
	f := diag.Finding{
		Pos: e.Pos, Features: []string{e.Name}, Where: at(where), Got: s.Gap, Want: leastSaddleGap, Unit: "mm",
		Message: "the saddle " + quoted(e.Name) + " leaves a gap of " + c.len(s.Gap) + " to its tube of " + c.len(s.Tube) +
			", needs " + c.len(leastSaddleGap) + " for paint and ovality",
	}
	ch := Change{Kind: Widen, Hole: e.Name, To: usualSaddleGap,
		Text: "give it a gap of " + c.len(usualSaddleGap) + ", which makes its radius " + c.len(s.Tube/2+usualSaddleGap)}
	if _, err := ch.Apply(c.Blank); err != nil {
		f.Fix = ch.Text + ", with the plate to match"
		c.Report(f)
		return
	}
	c.Report(f, ch)
}
