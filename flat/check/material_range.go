package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/flat/strength"
)

var materialRange = &Check{
	ID:       "material-range",
	Severity: diag.Error,
	strength: true,
	Title:    "the plate is thicker than its material's strengths are stated for",
	Meaning: "Thick plate yields earlier than thin plate of the same grade: a standard states strengths up to a thickness. Beyond it all that is computed " +
		"from them promises too much. Asked where the file gives loads or welds.",
	Formula: "thickness <= that of the material's row",
	Source:  "the row of the material: blankwright table materials",
	Limits:  "One row a material: for thicker plate a shop puts its own row, with the lower strengths, into a profile.",
	Run: func(c *Context) {
		from := len(c.held)
		m, t := &c.Blank.Material, c.Blank.Thickness
		if m.MaxT > 0 && len(c.Blank.Loads)+len(c.Blank.Welds) > 0 {
			l := strength.ThicknessRange(t, m.MaxT, m.Name+", "+cite(m.Source))
			if 4*l.Got < l.Bound {
				return // far from it, and not worth a line
			}
			c.weigh(held{title: "the plate of " + m.Name, name: "plate", place: "plate", set: "plate", pos: c.part.Plate.Material.Pos,
				at: c.Blank.Outline.Bounds().Min, limit: &l, v: limitShare(&l)})
		}
		c.tellHeld(from, func(h *held) []Change {
			to := c.Blank.Material.MaxT
			if !num.AtMost(to, c.Blank.Thickness) {
				return nil
			}
			return []Change{{Kind: Thicken, To: to, Text: "make the plate " + c.len(to) + " thick, or name a material whose row holds for thicker plate (a profile may add one)"}}
		})
	},
}
