package check

import (
	"slices"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
)

var fatigue = &Check{
	ID:       "fatigue",
	Severity: diag.Note,
	tells:    true,
	Title:    "a load comes again and again, and fatigue is not computed",
	Meaning: "A part that holds a load once may crack when it comes back: at the toes of welds, at holes and at rough cut edges first. `repeated: true` says that a load " +
		"comes back; this note then stays with the part.",
	Formula: "none is computed: AISC 360 Appendix 3 and EN 1993-1-9 hold the range of stress against the number of times it comes and the kind of detail",
	Source:  "AISC 360-22 Appendix 3; EN 1993-1-9:2005",
	Limits:  "A note whatever the size of the load. Nothing to change on the part makes it go: it wants a look by somebody who knows how often the load comes.",
	Run: func(c *Context) {
		var first *blank.Load
		var names, holes []string
		for i := range c.Blank.Loads {
			l := &c.Blank.Loads[i]
			if !l.Repeated {
				continue
			}
			if first == nil {
				first = l
			}
			names = append(names, l.Name)
			for _, h := range l.Holes {
				if !slices.Contains(holes, h) {
					holes = append(holes, h)
				}
			}
		}
		if first == nil {
			return
		}
		verb := " is repeated"
		if len(names) > 1 {
			verb = " are repeated"
		}
		c.Report(diag.Finding{Pos: first.Pos, Features: holes, Where: at(first.At), Case: first.Case,
			Message: strings.Join(names, ", ") + verb + ", and fatigue is not computed; weld toes, holes and cut edges crack first",
			Fix:     "have the range of stress held against the number of loads (AISC 360 Appendix 3, EN 1993-1-9), or keep it far under what the plate holds once"})
	},
}
