package check

import (
	"blankwright/flat/bend"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
)

var bendRadius = &Check{
	ID:       "bend-radius",
	Severity: diag.Error,
	Title:    "a bend is tighter than its plate stands",
	Meaning: "On the outside of a bend the plate is stretched, the more the smaller the inside radius is against the thickness. Under the " +
		"radius that the material stands it cracks there, at once or in use.",
	Formula: "inside radius R >= the least radius of the table for material and thickness, bend line across the grain; " +
		"where no table has the material: T, 1.5 T for thick or stronger steel, 2 T from 420 MPa, 3 T for hard aluminium",
	Source: "EN 10025-2, EN 10149-2, ASTM A6 as in the table of bend radii; common practice elsewhere",
	Limits: "Recommended values for cold bends of 90 degrees: between them and what is common practice it is a warning. Deburr the outside of " +
		"the bend; rough cut edges crack first. The grain is looked at by the rule `grain`.",
	Run: func(c *Context) {
		bs := c.bends()
		for i := range bs {
			c.checkRadius(&bs[i])
		}
	},
}

// leastRadius is what a bend must have, and the floor under which it is an
// error.
func (c *Context) leastRadius(g bend.Grain) (want bend.Least, floor float64, tabled bool) {
	m, t := &c.Blank.Material, c.Blank.Thickness
	common := bend.CommonRadius(c.family(), m.Fy, t)
	least, err := bend.LeastRadius(m.Name, t, g)
	if err != nil {
		return common, common.R, false
	}
	return least, min(least.R, common.R), true
}

func (c *Context) checkRadius(b *fold.Bend) {
	want, floor, _ := c.leastRadius(bend.Across)
	if !short(b.Bend.R, want.R) {
		return
	}
	s := c.rule.Severity
	if !short(b.Bend.R, floor) {
		s = diag.Warning
	}
	f := c.bendFinding(b)
	g, w := c.gotWant(b.Bend.R, want.R)
	f.Got, f.Want, f.Unit, f.Source = b.Bend.R, want.R, "mm", bendSource(want.Source)
	f.Message = "the bend of flange " + quoted(b.Name) + " has an inside radius of " + g + ", " + material(c.Blank) + " of " + c.len(c.Blank.Thickness) + " needs " + w
	to := c.up(want.R)
	c.ReportAs(s, f, c.firstThat(Change{Kind: Rewrite, Key: keyBendRadius, Hole: b.Name, To: to, Text: "give it an inside radius of " + c.len(to)})...)
}

// bendSource writes a source with how well it is founded.
func bendSource(s bend.Source) string {
	if s.Prov == bend.Published || s.Prov == bend.Typed {
		return s.Text
	}
	return s.Text + " (" + string(s.Prov) + ")"
}
