package check

import (
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/strength"
)

var weldSize = &Check{
	ID:       "weld-size",
	Severity: diag.Error,
	strength: true,
	Title:    "a fillet weld is too small for the plate, or too short",
	Meaning: "A small weld on thick plate is chilled and cracks; one shorter than a few legs is all start and crater. The ends that do not count are " +
		"taken off first: one leg each where `ends:` says nothing.",
	Formula: "aisc 360: leg >= Table J2.4 by the plate (1/8 in up to 1/4 in, 3/16 up to 1/2, 1/4 up to 3/4, then 5/16; 3, 5, 6, 8 mm up to 6, 13, 19 mm and over); length >= 4 legs\n" +
		"en 1993-1-8: throat >= 3 mm; length >= 30 mm and 6 throats",
	Source: "AISC 360-22 J2.2b and Table J2.4; EN 1993-1-8:2005 4.5.1(2), 4.5.2(2)",
	Limits: "The thinner of the parts joined counts, and only this plate is known: on thinner metal a smaller leg may be right. The largest leg of AISC is " +
		"for welds along the edge of a lap, and a plate that stands on its edge has none.",
	Run: func(c *Context) {
		from := len(c.held)
		for i := range c.Blank.Welds {
			c.weldSizes(&c.Blank.Welds[i])
		}
		c.tellHeld(from, func(h *held) []Change {
			if h.limit.Kind == strength.Length && h.longer {
				return c.longer(h)
			}
			return c.legFor(h)
		})
	},
}

func (c *Context) weldSizes(w *blank.Weld) {
	run := w.Run()
	add := func(l strength.Limit, longer bool) {
		h := ofWeld(w, nil)
		h.set += " " + l.What
		h.limit, h.v, h.longer = &l, limitShare(&l), longer
		c.weigh(h)
	}
	if c.method.eurocode {
		throat, long := c.method.en.WeldLimits(strength.Throat(w.Leg), run)
		add(throat, false)
		add(long, true)
		return
	}
	l := c.method.aisc.FilletLimits(strength.Fillet{Leg: w.Leg, Length: run, FEXX: w.FEXX}, c.Blank.Thickness, math.Inf(1))
	add(l.Least, false)
	add(l.Length, true)
}

// legFor suggests a larger leg for one weld.
func (c *Context) legFor(h *held) []Change {
	return c.leg(h.set, 0, 2*c.Blank.Thickness+c.legStep(), func(to float64) Change {
		return Change{Kind: WeldLeg, Hole: h.name, To: to, Text: "make the leg of " + quoted(h.name) + " " + c.len(to)}
	})
}

// longer suggests to weld along the whole edge, or else less of a leg.
func (c *Context) longer(h *held) []Change {
	for i := range c.Blank.Welds {
		w := &c.Blank.Welds[i]
		if w.Name != h.name {
			continue
		}
		ch := Change{Kind: WeldWhole, Hole: w.Name, Text: "weld the whole edge: leave the length of " + quoted(w.Name) + " out"}
		if w.Asked > 0 && c.after(ch, h.set) && c.sound(ch) {
			return []Change{ch}
		}
		for to := math.Floor(w.Leg/c.legStep()) * c.legStep(); to > 0; to -= c.legStep() {
			ch := Change{Kind: WeldLeg, Hole: w.Name, To: to, Text: "make the leg of " + quoted(w.Name) + " " + c.len(to) +
				", or weld a longer edge"}
			if c.after(ch, h.set) && c.sound(ch) {
				return []Change{ch}
			}
		}
	}
	return nil
}
