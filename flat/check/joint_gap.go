package check

import (
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/profiles"
)

var jointGap = &Check{
	ID:       "joint-gap",
	Severity: diag.Error,
	Title:    "the gap between two plates does not suit their sleeve",
	Meaning: "A joint works by its bolt clamping the sleeve between the plates. Welding pulls tabs together: they are " +
		"set wider apart than the sleeve by what it takes, with a spacer bolted in meanwhile. Set apart by the " +
		"sleeve's own width they close on it and it does not go in. Bolted plates keep their gap: where it is wider " +
		"than sleeve and spacers, tightening bends the plates, or leaves the sleeve loose.",
	Formula: "slack = gap - width of the sleeve - 2 spacer\n" +
		"held: welded: limit tab gap (0.5 mm) <= slack <= limit most tab gap (1 mm)\n" +
		"held: bolted: 0 <= slack <= limit bolted gap (0.5 mm)",
	Source: "common practice: 0.5 to 1 mm before welding",
	Limits: "How much a weld pulls in depends on its size, its side and how the plates are held. Too much slack of " +
		"welded tabs is a warning.",
	Run: func(c *Context) {
		for i := range c.Blank.Joints {
			if j := &c.Blank.Joints[i]; j.Sleeve != nil && j.Gap > 0 {
				c.checkGap(j)
			}
		}
	},
}

func (c *Context) checkGap(j *blank.Joint) {
	fill := j.Sleeve.Width.MM + 2*j.Spacer
	slack := j.Gap - fill
	least, most := c.limit(profiles.TabGapLeast), c.limit(profiles.TabGapMost)
	usual, id := c.limit(profiles.TabGapUsual), profiles.TabGapLeast
	if j.Bolted {
		least, most, usual, id = 0, c.limit(profiles.BoltedGapMost), 0, profiles.BoltedGapMost
	}
	f := diag.Finding{Pos: j.Pos, Features: []string{j.Hole}, Where: at(c.holeAt(j.Hole)), Unit: "mm", Source: c.limitSource(id)}
	filled := "its sleeve of " + c.len(j.Sleeve.Width.MM)
	if j.Spacer > 0 {
		filled += " and two spacers of " + c.len(j.Spacer)
	}
	open := Change{Kind: Rewrite, Key: keyGap, Item: j.Index, To: fill + usual}
	open.Text = "set the plates " + c.len(open.To) + " apart"
	switch {
	case short(slack, least):
		f.Got, f.Want = j.Gap, fill+least
		g, w := c.gotWant(f.Got, f.Want)
		f.Message = "the joint at " + quoted(j.Hole) + " has a gap of " + g + " for " + filled + ", needs " + w
		if !j.Bolted {
			f.Message += ": welding pulls the tabs in"
			open.Text += " before welding, with a spacer bolted in"
		}
		c.Report(f, open)
	case !num.AtMost(slack, most):
		f.Got, f.Want = fill, j.Gap-most
		f.Message = "the joint at " + quoted(j.Hole) + " has a gap of " + c.len(j.Gap) + " for " + filled + ": " + c.len(slack) +
			" of slack, at most " + c.len(most) + " is taken up without bending the plates"
		pack := Change{Kind: Rewrite, Key: keySpacer, Item: j.Index, To: c.down((j.Gap - j.Sleeve.Width.MM - usual) / 2)}
		pack.Text = "put a spacer of " + c.len(pack.To) + " on each side of the sleeve"
		if j.Bolted {
			c.Report(f, pack, open)
		} else {
			c.ReportAs(diag.Warning, f, open, pack)
		}
	}
}

// holeAt is where a hole is.
func (c *Context) holeAt(name string) geom.Point {
	for i := range c.Blank.Holes {
		if h := &c.Blank.Holes[i]; h.Name == name {
			return h.Centre
		}
	}
	return geom.Point{}
}
