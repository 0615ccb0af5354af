package check

import (
	"math"
	"strings"

	"blankwright/flat/bend"
	"blankwright/flat/diag"
	"blankwright/flat/num"
)

// leastSpring is the angle (rad) under which nobody sets a press differently:
// half a degree (common practice).
const leastSpring = 0.5 * math.Pi / 180

var springback = &Check{
	ID:       "springback",
	Severity: diag.Note,
	tells:    true,
	Title:    "bends spring back",
	Meaning: "Let go of the press, a bend opens again a little: the stronger the material and the larger the radius against the thickness, the more. " +
		"The note estimates how far to bend under load so that the angle asked for is left.",
	Formula: "Ri/Rf = 4 x^3 - 3 x + 1, x = Ri Fy/(E T), Ri under load, Rf left; the angle grows by (Rf + T/2)/(Ri + T/2)",
	Source:  bendSource(bend.SpringbackSource),
	Limits:  "An approximate formula: the press, the die and the batch decide. Bend a test piece. Nothing is told of hems.",
	Run: func(c *Context) {
		bs := c.bends()
		m := &c.Blank.Material
		if len(bs) == 0 || m.Fy == 0 {
			return
		}
		var texts, names []string
		whose := map[string][]string{}
		for i := range bs {
			b := &bs[i]
			names = append(names, b.Name)
			under, err := bend.Springback(b.Bend, m.Fy, bend.ElasticModulus(c.family()))
			text := ""
			switch {
			case err != nil:
				text = "how much cannot be estimated for " + bend.Degrees(b.Bend.A)
			case under.A > math.Pi:
				continue
			case under.A-b.Bend.A < leastSpring:
				text = "by less than half a degree at " + bend.Degrees(b.Bend.A)
			default:
				text = "bend to " + num.Short(under.A*180/math.Pi, 1) + " degrees under load to be left with " + bend.Degrees(b.Bend.A)
			}
			if whose[text] == nil {
				texts = append(texts, text)
			}
			whose[text] = append(whose[text], b.Name)
		}
		if len(texts) == 0 {
			return
		}
		if len(texts) > 1 {
			for i, text := range texts {
				texts[i] = strings.Join(whose[text], ", ") + ": " + text
			}
		}
		f := c.bendFinding(&bs[0])
		f.Features = names
		f.Message = "bends in " + material(c.Blank) + " spring back: " + strings.Join(texts, "; ") + " (estimated)"
		f.Fix = "bend a test piece of the same plate first, and measure it"
		c.Report(f)
	},
}
