package check

import (
	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/profiles"
)

var gussetToe = &Check{
	ID:       "gusset-toe",
	Severity: diag.Warning,
	Title:    "a gusset ends in a point",
	Meaning: "The end of a gusset takes the weld's stop and the sharpest stress. A knife point melts away under the " +
		"arc and leaves a notch, where the crack begins. A blunt end of 6 to 10 mm lets the weld go round it.",
	Formula: "width of the blunt end of each leg >= the limit toe (6 mm)",
	Source:  "common practice: 6 to 10 mm",
	Limits:  "Goes by the toes that the file gives the gusset, before anything is added or cut out.",
	Run: func(c *Context) {
		c.eachGusset(func(g *describe.Gusset, item int) {
			want := c.limit(profiles.ToeLeast)
			if got := min(g.Toes[0].MM, g.Toes[1].MM); short(got, want) {
				c.reportToe(g, item, got, want)
			}
		})
	},
}

// eachGusset goes through the gussets of the part: 0 is the outline, what comes
// after are the added shapes.
func (c *Context) eachGusset(do func(g *describe.Gusset, item int)) {
	if g := c.part.Outline.Gusset; g != nil {
		do(g, 0)
	}
	for i := range c.part.Add {
		if g := c.part.Add[i].Gusset; g != nil {
			do(g, i+1)
		}
	}
}

func (c *Context) reportToe(g *describe.Gusset, item int, got, want float64) {
	which := 0
	if g.Toes[1].MM < g.Toes[0].MM {
		which = 1
	}
	gt, w := c.gotWant(got, want)
	how := "is " + gt + " wide"
	if got <= 0 {
		how = "is a knife point"
	}
	to := c.limit(profiles.ToeUsual)
	end := geom.Point{X: g.Legs[0].MM}
	if which == 1 {
		end = geom.Point{}.Polar(g.Legs[1].MM, g.Angle.Rad)
	}
	f := diag.Finding{
		Pos: g.Pos, Where: c.inHand(end.Add(geom.Point{X: g.At.X.MM, Y: g.At.Y.MM})), Got: got, Want: want, Unit: "mm",
		Source:  c.limitSource(profiles.ToeLeast),
		Message: "the toe of the gusset's " + [2]string{"first", "second"}[which] + " leg " + how + ", needs " + w,
	}
	ch := Change{Kind: Rewrite, Key: keyToes, Item: item, To: to, Text: "make the toes " + c.len(to) + " wide"}
	changes := c.firstThat(ch)
	if len(changes) == 0 {
		f.Fix = ch.Text + ", with longer legs"
	}
	c.Report(f, changes...)
}

// inHand is a place of the part as drawn, as it lies on this blank.
func (c *Context) inHand(p geom.Point) diag.Place {
	if c.Blank.Hand == blank.Mirrored {
		p.X = -p.X
	}
	return at(p)
}
