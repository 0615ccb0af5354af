package check

import (
	"math"

	"blankwright/flat/bend"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
)

var grain = &Check{
	ID:       "grain",
	Severity: diag.Warning,
	Title:    "a bend lies along the grain and is too tight for that",
	Meaning: "Plate is rolled in one direction. A bend whose line runs along it opens the grain and cracks at a radius that a bend across it " +
		"stands. `bends: {grain: ANGLE}` says how the part lies on the plate; where nothing is said the note asks for it.",
	Formula: "bend line within 45 degrees of the direction of rolling: R >= the least radius along the grain",
	Source:  "EN 10025-2, ASTM A6 as in the table of bend radii; common practice: bend across the grain",
	Limits:  "Asked where a table has two radii for the material. A part with bends both ways is laid at 45 degrees, or given the larger radius.",
	Run: func(c *Context) {
		bs := c.bends()
		for i := range bs {
			c.checkGrain(&bs[i])
		}
	},
}

func (c *Context) checkGrain(b *fold.Bend) {
	lie := c.across(b)
	want, _, tabled := c.leastRadius(bend.Along)
	if across, _, _ := c.leastRadius(bend.Across); !tabled || lie == bend.Across || !short(b.Bend.R, want.R) || short(b.Bend.R, across.R) {
		return
	}
	f := c.bendFinding(b)
	g, w := c.gotWant(b.Bend.R, want.R)
	f.Got, f.Want, f.Unit, f.Source = b.Bend.R, want.R, "mm", bendSource(want.Source)
	square := math.Mod(math.Atan2(b.Out.Y, b.Out.X)+math.Pi, math.Pi)
	turn := Change{Kind: Rewrite, Key: keyGrain, Hole: b.Name, To: square,
		Text: "lay the part so that the grain runs across the bend: grain " + bend.Degrees(square)}
	to := c.up(want.R)
	wider := c.firstThat(Change{Kind: Rewrite, Key: keyBendRadius, Hole: b.Name, To: to, Text: "give it an inside radius of " + c.len(to)})
	if lie == bend.Unknown {
		f.Message = "the bend of flange " + quoted(b.Name) + " has an inside radius of " + g + ", enough across the grain; along it needs " + w + ", and the file does not say how the grain runs"
		c.ReportAs(diag.Note, f, append([]Change{turn}, wider...)...)
		return
	}
	f.Message = "the bend of flange " + quoted(b.Name) + " runs along the grain with an inside radius of " + g + ", needs " + w
	c.Report(f, append([]Change{turn}, wider...)...)
}
