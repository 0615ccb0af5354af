package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/profiles"
)

var tabWall = &Check{
	ID:       "tab-wall",
	Severity: diag.Warning,
	Title:    "the plate is too thick for the wall of its tube",
	Meaning: "A stiff tab on a thin tube brings all of its load into the wall along two lines: the wall tears beside the " +
		"weld long before the tab bends. A thinner tab, or a doubler wrapped round the tube, spreads it.",
	Formula: "thickness of the plate / wall of the tube <= limit wall ratio (2)",
	Source:  "common practice: no more than 2",
	Limits: "Asked where a saddle gives the wall of its tube. It is no substitute for a check of the tube's wall under the " +
		"load.",
	Run: func(c *Context) {
		most := c.limit(profiles.WallRatio)
		for i := range c.Blank.Edges {
			e := &c.Blank.Edges[i]
			if e.Saddle == nil || e.Saddle.Wall <= 0 {
				continue
			}
			ratio := c.Blank.Thickness / e.Saddle.Wall
			if num.AtMost(ratio, most) {
				continue
			}
			to := c.down(most * e.Saddle.Wall)
			ch := Change{Kind: Rewrite, Key: keyThickness, To: to, Text: "use plate of at most " + c.len(to) + ", or weld a doubler round the tube first"}
			c.Report(diag.Finding{
				Pos: e.Pos, Features: []string{e.Name}, Where: at(e.Saddle.Circle.C), Got: ratio, Want: most,
				Source: c.limitSource(profiles.WallRatio),
				Message: "the plate of " + c.len(c.Blank.Thickness) + " is " + num.Short(ratio, 2) + " times as thick as the tube's wall of " +
					c.len(e.Saddle.Wall) + " at saddle " + quoted(e.Name) + ", at most " + num.Short(most, 2),
			}, c.firstThat(ch)...)
		}
	},
}
