package job

import (
	"fmt"

	"blankwright/flat/check"
	"blankwright/flat/diag"
	"blankwright/flat/num"
)

var shareRule = &Rule{check.Check{
	ID: "job-share", Severity: diag.Error,
	Title: "the plates at a pivot do not take all of its force",
	Meaning: "Each plate is held against its share of what the tubes put on its pivot. Where the shares of all plates there come " +
		"to less than the whole, some of the force is on nothing that was looked at.",
	Formula: "sum of (share x plates) at a pivot >= 1",
	Source:  "equilibrium",
	Limits:  "Of pivots with brackets, in links with loads. More than the whole is to the good: plates may share unevenly.",
}, func(c *run) {
	if c.j.Solution == nil {
		return
	}
	for i := range c.j.Pivots {
		pivot := c.j.Pivots[i].Name
		sum := 0.0
		var last *Part
		for k := range c.j.Parts {
			if p := &c.j.Parts[k]; p.Bracket != nil && p.Bracket.Pivot == pivot && len(p.Bracket.Forces) > 0 {
				sum += shareOf(p.Desc, p.bolted) * float64(p.quantity()*p.bolted)
				if last == nil || p.Desc.Share.Set {
					last = p
				}
			}
		}
		if last == nil || num.AtLeast(sum, 1) || !last.Desc.Share.Set && last.Desc.Joint != nil {
			continue // with a joint and no share it is a plate that is missing
		}
		c.report(diag.Finding{Pos: last.Desc.Pos, Features: []string{pivot, last.Name}, Got: sum, Want: 1,
			Message: fmt.Sprintf("the plates at pivot %s take %s of its force, all together", pivot, num.Short(sum, 3)),
			Fix:     "give the plates shares that come to 1"}, diag.Error)
	}
}}
