package check

import (
	"math"
	"strconv"

	"blankwright/flat/bend"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
	"blankwright/flat/num"
)

// radiusMatters is the error of the flat length at one bend (mm) up to which
// nobody asks for another radius: what an air bend repeats within (common
// practice: a few tenths).
const radiusMatters = 0.3

var airBendRadius = &Check{
	ID:       "air-bend-radius",
	Severity: diag.Note,
	tells:    true,
	Title:    "the usual die bends another radius than the flat was made for",
	Meaning: "In an air bend the opening of the die makes the inside radius, not the nose of the punch. Where that is another radius than the " +
		"flat pattern was worked out for, the bend takes another length and the legs come out long or short. Take the die that makes the radius, " +
		"give the radius that your tools make, or bend a strip and let its test bend say.",
	Formula: "deduction 2 (R + T) tan(A/2) - A (R + K T), above 90 degrees 2 (R + T) - A (R + K T), with the R of the file and with that of the die, K kept: they differ by no more than 0.3 mm",
	Source:  bendSource(bend.DieSource),
	Limits: "Only for air bends in the usual die, 8 T, above 12 mm plate 10 T; the radius that a die leaves is an estimate by the family of the material. " +
		"Bends that go by a test bend, or by a deduction or an allowance that was typed, are passed over: there the tools speak. So are hems.",
	Run: func(c *Context) {
		die, err := bend.DieFor(c.Blank.Thickness)
		if err != nil {
			return
		}
		bs := c.bends()
		done := map[bend.Bend]bool{}
		for i := range bs {
			if b := &bs[i]; !done[b.Bend] && c.radiusOff(b, die) > radiusMatters+num.LimitSlack {
				done[b.Bend] = true
				c.tellRadius(b, die)
			}
		}
	},
}

// radiusOff is how far the flat length of a bend is off, mm, where the die makes
// its radius and legs measured outside are kept.
func (c *Context) radiusOff(b *fold.Bend, die bend.Die) float64 {
	return math.Abs(c.radiusError(b, die))
}

// radiusError is positive where the flat is too long.
func (c *Context) radiusError(b *fold.Bend, die bend.Die) float64 {
	if b.Allowance.Tooled() || b.Bend.A > fold.BladeTurn {
		return 0
	}
	made := b.Bend
	made.R = die.RadiusIn(c.family())
	return made.Deduction(bend.Outside, made.Arc(b.Allowance.K)) - b.Bend.Deduction(bend.Outside, b.Allowance.Length)
}

func (c *Context) tellRadius(b *fold.Bend, die bend.Die) {
	var names []string
	bs := c.bends()
	for i := range bs {
		if bs[i].Bend == b.Bend && c.radiusOff(&bs[i], die) > radiusMatters+num.LimitSlack {
			names = append(names, bs[i].Name)
		}
	}
	f := c.bendFinding(b)
	f.Features = names
	off := c.radiusError(b, die)
	way := "long"
	if off < 0 {
		way = "short"
	}
	f.Message = "the flat is made for an inside radius of " + c.len(b.Bend.R) + "; an air bend in the usual V-die of " + num.Short(float64(die), 0) + " mm takes about " +
		num.Short(die.RadiusIn(c.family()), 1) + " mm, and then the flat is " + num.Short(math.Abs(off), 1) + " mm too " + way + " at the bend of flange " + quoted(b.Name)
	if n := len(names) - 1; n > 0 {
		f.Message += " and at " + strconv.Itoa(n) + " more"
	}
	f.Message += " (estimated)"
	best, ok := bend.DieForRadius(c.family(), c.Blank.Thickness, b.Bend.R)
	own := "give the radius that your tools make, or a test bend"
	switch {
	case ok && best != die && c.radiusOff(b, best) < c.radiusOff(b, die):
		f.Fix = "take a V-die of " + num.Short(float64(best), 0) + " mm, which leaves about " + num.Short(best.RadiusIn(c.family()), 1) + " mm; or " + own
	default:
		f.Fix = own
	}
	c.Report(f)
}
