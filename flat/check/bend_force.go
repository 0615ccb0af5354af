package check

import (
	"blankwright/flat/bend"
	"blankwright/flat/diag"
	"blankwright/flat/num"
)

var bendForce = &Check{
	ID:       "bend-force",
	Severity: diag.Note,
	tells:    true,
	Title:    "what the bends ask of the press",
	Meaning:  "The force for an air bend in the usual die, for the longest bend of the part: enough to know whether a press takes it.",
	Formula:  "F = (1 + 4 T/V) Fu L T^2 / V, L the length of the bend, V the opening of the die",
	Source:   "common formula for air bends",
	Limits:   "An estimate within 20 % for a right angle in a die of 6 to 12 T. Coining takes five to ten times as much.",
	Run: func(c *Context) {
		bs := c.bends()
		if len(bs) == 0 || c.Blank.Material.Fu == 0 {
			return
		}
		long := &bs[0]
		for i := range bs {
			if bs[i].Line.Length() > long.Line.Length() {
				long = &bs[i]
			}
		}
		f := c.bendFinding(long)
		f.Fix = "hold it against the press, and against its load by length"
		die, err := bend.DieFor(c.Blank.Thickness)
		if err != nil {
			f.Message = err.Error()
			c.Report(f)
			return
		}
		load := die.Load(c.Blank.Material.Fu, c.Blank.Thickness, long.Line.Length())
		f.Source = bendSource(load.Source)
		f.Message = "the bend of flange " + quoted(long.Name) + ", " + c.len(long.Line.Length()) + " long, takes about " + num.Short(load.Force/1000, 0) + " kN (" +
			num.Short(load.Tonnes, 1) + " t) in a V-die of " + num.Short(float64(die), 0) + " mm, which leaves an inside radius of about " + num.Short(die.RadiusIn(c.family()), 1) + " mm (estimated)"
		c.Report(f)
	},
}
