package check

import (
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/profiles"
)

var sleeveFit = &Check{
	ID:       "sleeve-fit",
	Severity: diag.Error,
	Title:    "a sleeve does not suit its bolt or its hole",
	Meaning: "The bolt has to go through the sleeve, without much play, and the sleeve has to bear on plate all round the " +
		"hole: one hardly wider than the hole is pulled into it, and the joint works loose.",
	Formula: "bore >= diameter of the bolt; bore - diameter <= limit sleeve bore (1 mm); " +
		"outside - diameter of the hole >= limit sleeve land (2 mm)",
	Source: "common practice",
	Limits: "Of a slotted hole the width counts. A sleeve that the bolt does not go through is an error, the others are " +
		"warnings. Whether the sleeve is strong enough to be clamped is not looked at.",
	Run: func(c *Context) {
		for i := range c.Blank.Joints {
			if j := &c.Blank.Joints[i]; j.Sleeve != nil {
				c.checkSleeve(j)
			}
		}
	},
}

func (c *Context) checkSleeve(j *blank.Joint) {
	d, bore, outside := j.Stack.Bolt.D, j.Sleeve.Bore.MM, j.Sleeve.Outside.MM
	f := diag.Finding{Pos: j.Pos, Features: []string{j.Hole}, Where: at(c.holeAt(j.Hole)), Unit: "mm"}
	most := c.limit(profiles.SleeveBoreMost)
	rebore := Change{Kind: Rewrite, Key: keySleeveBore, Item: j.Index, To: c.up(d + most/2)}
	rebore.Text = "give the sleeve a bore of " + c.len(rebore.To)
	switch {
	case bore == 0:
	case short(bore, d):
		g, w := c.gotWant(bore, d)
		f.Got, f.Want, f.Source = bore, d, c.limitSource(profiles.SleeveBoreMost)
		f.Message = "the sleeve at " + quoted(j.Hole) + " has a bore of " + g + ", the bolt needs " + w
		c.Report(f, c.firstThat(rebore)...)
	case !num.AtMost(bore-d, most):
		f.Got, f.Want, f.Source = d, bore-most, c.limitSource(profiles.SleeveBoreMost)
		f.Message = "the bolt of " + c.len(d) + " at " + quoted(j.Hole) + " has " + c.len(bore-d) + " of play in its sleeve, at most " + c.len(most)
		c.ReportAs(diag.Warning, f, c.firstThat(rebore)...)
	}
	if outside == 0 {
		return
	}
	for i := range c.Blank.Holes {
		h := &c.Blank.Holes[i]
		want := h.Dia + c.limit(profiles.SleeveLand)
		if h.Name != j.Hole || !short(outside, want) {
			continue
		}
		g, w := c.gotWant(outside, want)
		f.Got, f.Want, f.Source = outside, want, c.limitSource(profiles.SleeveLand)
		f.Message = "the sleeve at " + quoted(j.Hole) + " is " + g + " across, bearing round a hole of " + c.len(h.Dia) + " it needs " + w
		c.ReportAs(diag.Warning, f, Change{Kind: Rewrite, Key: keySleeveWide, Item: j.Index, To: c.up(want),
			Text: "take a sleeve " + c.len(c.up(want)) + " across, or put a washer under it"})
	}
}
