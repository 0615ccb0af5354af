package check

import (
	"math"

	"blankwright/flat/bend"
	"blankwright/flat/diag"
)

var foldBack = &Check{
	ID:       "fold-back",
	Severity: diag.Error,
	Firm:     true,
	Title:    "the flat does not fold to the dimensions given",
	Meaning: "The flat is folded back in space from nothing but itself, and every dimension that the file gives is measured there: the angle and " +
		"height of each flange, the edge that it stands on, the width between flanges that face each other, the place of each hole.",
	Formula: "measured - given = 0, to a millionth of a millimetre",
	Source:  "geometry: the flat pattern folded about its bend lines",
	Limits:  "That the plate takes the flat length that the rule says is for a test bend to show.",
	Run: func(c *Context) {
		g := c.folded()
		if g == nil {
			return
		}
		for _, d := range g.Dims() {
			if d.Holds() {
				continue
			}
			panel := c.panelNamed(d.Panel)
			f := diag.Finding{Pos: c.panelPos(panel), Features: []string{d.Panel}, Got: d.Got, Want: d.Want,
				Where: at(g.Flat.Panels[panel].Region.Bounds().Centre())}
			got, want := c.gotWant(d.Got, d.Want)
			if d.Angle {
				got, want = bend.Degrees(d.Got), bend.Degrees(d.Want)
			}
			f.Message = "folded, the " + d.Name + " is " + got + " instead of " + want
			if math.IsNaN(d.Got) {
				f.Got = 0
			}
			c.Report(f, Change{Kind: Rewrite, Key: keyRemake, Text: "make the flat again from its description"})
			return // one wrong length shifts all others
		}
	},
}
