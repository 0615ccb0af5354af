package check

import "blankwright/flat/diag"

var bendRelief = &Check{
	ID:       "bend-relief",
	Severity: diag.Warning,
	Title:    "a relief beside a bend is too narrow",
	Meaning: "Where the edge goes on beside a flange the metal tears at the end of the bend, unless it is cut free there. The cut has to be as wide as " +
		"the plate is thick to leave the bend room, and no narrower than the process cuts.",
	Formula: "width of the relief >= max(T, kerf)",
	Source:  "common practice: width at least T, depth R + T",
	Limits:  "Reliefs are made as wide as they have to be where the file does not say, and always reach beyond the line where the bend begins.",
	Run: func(c *Context) {
		f := c.Blank.Formed
		if f == nil {
			return
		}
		told := map[int]bool{}
		for i := range f.Flat.Reliefs {
			k := f.Flat.Reliefs[i].Bend
			if f.Flat.Reliefs[i].Corner || told[k] {
				continue
			}
			told[k] = true
			got, want := f.Reliefs[k].Width, max(c.Blank.Thickness, c.kerf())
			if !short(got, want) {
				continue
			}
			b := &f.Flat.Bends[k]
			g, w := c.gotWant(got, want)
			d := c.bendFinding(b)
			d.Got, d.Want, d.Unit, d.Where = got, want, "mm", at(f.Flat.Reliefs[i].Loop.Centroid())
			d.Message = "the relief beside the bend of flange " + quoted(b.Name) + " is " + g + " wide, needs " + w
			to := c.up(want)
			c.Report(d, c.firstThat(Change{Kind: Rewrite, Key: keyReliefWidth, Hole: b.Name, To: to, Text: "make the relief " + c.len(to) + " wide"})...)
		}
	},
}
