package check

import (
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/profiles"
)

var gussetSnipe = &Check{
	ID:       "gusset-snipe",
	Severity: diag.Warning,
	Title:    "a gusset's snipe does not clear the weld in its corner",
	Meaning: "In the corner of the two members runs a weld. A gusset whose corner is not cut back by more than that " +
		"weld is wide rides on the bead and gaps at both legs, and three welds run together in one hot spot.",
	Formula: "snipe >= leg of the widest weld of the file + the limit snipe past weld (3 mm)",
	Source:  "common practice: leg and 3 mm; 10 to 15 mm is usual",
	Limits: "Takes the weld in the corner to be as wide as the widest in the file. Nothing is asked where the file " +
		"has no welds.",
	Run: func(c *Context) {
		leg := 0.0
		for i := range c.Blank.Welds {
			leg = max(leg, c.Blank.Welds[i].Leg)
		}
		if leg == 0 {
			return
		}
		c.eachGusset(func(g *describe.Gusset, item int) {
			if want := leg + c.limit(profiles.SnipePastWeld); short(g.Snipe.MM, want) {
				c.reportSnipe(g, item, leg, want)
			}
		})
	},
}

func (c *Context) reportSnipe(g *describe.Gusset, item int, leg, want float64) {
	got, w := c.gotWant(g.Snipe.MM, want)
	has := "has a snipe of " + got
	if g.Snipe.MM == 0 {
		has = "has no snipe"
	}
	to := c.up(want)
	f := diag.Finding{
		Pos: g.Pos, Where: c.inHand(geom.Point{X: g.At.X.MM, Y: g.At.Y.MM}), Got: g.Snipe.MM, Want: want, Unit: "mm",
		Source:  c.limitSource(profiles.SnipePastWeld),
		Message: "the gusset " + has + ", a weld with a leg of " + c.len(leg) + " in its corner needs " + w,
	}
	ch := Change{Kind: Rewrite, Key: keySnipe, Item: item, To: to, Text: "give it a snipe of " + c.len(to)}
	changes := c.firstThat(ch)
	if len(changes) == 0 {
		f.Fix = ch.Text + ", with longer legs"
	}
	c.Report(f, changes...)
}
