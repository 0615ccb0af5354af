package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/profiles"
)

var tabSlotGap = &Check{
	ID:       "tab-slot-gap",
	Severity: diag.Error,
	Title:    "a tab has no room in its slot",
	Meaning: "A slot as wide as the tab's plate is thick does not take the tab: both are cut a little off, their " +
		"edges are tapered, and plate comes thicker than its name. With some clearance, but less than usual for the " +
		"process, the plates have to be forced or filed, which is a warning.",
	Formula: "width of the slot - thickness of the tab's plate, and length - width of the tab: more than 0, and at " +
		"least what the table tab-slots gives for the process",
	Source: "common practice; the table tab-slots names its figures",
	Limits: "Goes by the thickness in the file: measure the plate. Too much clearance, which the weld has to fill, " +
		"is not looked at.",
	Run: func(c *Context) {
		fit := c.Blank.Profile.TabFitFor(c.Blank.Process)
		for i := range c.openings {
			if o := &c.openings[i]; o.cut != nil && o.cut.Slot != nil && short(o.cut.Slot.Clearance(), fit.Least) {
				c.reportTight(o, fit)
			}
		}
	},
}

func (c *Context) reportTight(o *opening, fit profiles.TabFit) {
	s := o.cut.Slot
	clear := s.Clearance()
	weight, has := diag.Warning, c.len(clear)+" of clearance"
	if num.AtMost(clear, 0) {
		weight, has = diag.Error, "no clearance"
	}
	// The process of a file without one is taken as the coarsest.
	by := c.Blank.Process.Name
	if by == "" {
		by = fit.Process
	}
	to := c.up(fit.Usual)
	c.ReportAs(weight, diag.Finding{
		Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(o.at),
		Got: clear, Want: fit.Least, Unit: "mm", Source: cite(fit.Source),
		Message: hole(o) + " has " + has + ": " + c.len(s.Width) + " by " + c.len(s.Length) + " for a tab " + c.len(s.Tab) + " wide of " +
			c.len(s.Thickness) + " plate, " + by + " needs " + c.len(fit.Least) + " more both ways",
	}, Change{Kind: Loosen, Hole: o.hole.Name, To: to, Text: c.loosenWords(o, to)})
}
