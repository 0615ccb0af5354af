package check

import (
	"math"

	"blankwright/flat/bend"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
)

var flangeLength = &Check{
	ID:       "flange-length",
	Severity: diag.Error,
	Title:    "a flange is too short for the press",
	Meaning: "In the press both sides of a bend lie on the shoulders of the die until the end. A flange that is too short slips into its opening: " +
		"the bend comes out crooked and the edge is marked. Make it longer and cut it back after bending, or have it folded.",
	Formula: "outside height >= 0.7 V for a right angle, V the usual opening of the die (8 T, above 12 mm plate 10 T); by the slope of the leg for other angles; and >= 4 T + R",
	Source:  "press-brake charts, common practice; 4 T + R, common practice",
	Limits:  "For air bends in the usual die. Shops with a narrower die, or a folding machine, bend shorter flanges: then a waiver says so. Less than 4 T + R alone is a warning.",
	Run: func(c *Context) {
		bs := c.bends()
		if len(bs) == 0 {
			return
		}
		die, err := bend.DieFor(c.Blank.Thickness)
		for i := range bs {
			c.checkHeight(&bs[i], die, err == nil)
		}
	},
}

func (c *Context) checkHeight(b *fold.Bend, die bend.Die, known bool) {
	// As the die sees it: to where the outer faces meet, however the height was given.
	outside := b.Bend
	outside.A = min(outside.A, math.Pi/2)
	got := b.Bend.Convert(b.Height, b.From, bend.Tangent) + outside.Setback(bend.Outside)
	f := c.bendFinding(b)
	f.Got, f.Unit = got, "mm"
	common := 4*c.Blank.Thickness + b.Bend.R
	severity := c.rule.Severity
	switch {
	case known && short(got, die.LeastFlange(b.Bend.A)):
		f.Want = max(die.LeastFlange(b.Bend.A), common)
		f.Source = bendSource(bend.DieSource)
	case short(got, common):
		f.Want, severity = common, diag.Warning
		f.Source = "common practice: 4 T + R"
	default:
		return
	}
	g, w := c.gotWant(got, f.Want)
	f.Message = "flange " + quoted(b.Name) + " is " + g + " high outside, needs " + w
	if severity == c.rule.Severity {
		f.Message += " not to slip into a die of " + c.len(float64(die))
	}
	to := c.up(b.Height + f.Want - got)
	c.ReportAs(severity, f, c.firstThat(Change{Kind: Rewrite, Key: keyHeight, Hole: b.Name, To: to, Text: "make flange " + quoted(b.Name) + " " + c.len(to) + " high"})...)
}
