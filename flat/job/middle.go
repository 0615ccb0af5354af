package job

import (
	"fmt"
	"math"

	"blankwright/flat/check"
	"blankwright/flat/diag"
	"blankwright/flat/num"
)

var middleRule = &Rule{check.Check{
	ID: "job-middle", Severity: diag.Error,
	Title: "a tube is cut to miss the middle of its pivot",
	Meaning: "A pivot's sleeve has its middle at the pivot, and the force in a tube runs from pivot to pivot. A tube cut with an " +
		"offset, or for a sleeve before or behind its working point, sits beside that line: it turns its sleeve and bends.",
	Formula: "|offset|, |at| and |middle| of what the end meets <= within (0.5 mm)",
	Source:  "statics; common practice: half a millimetre, what a tape gives",
	Limits:  "Of ends that meet the sleeve of a pivot.",
}, func(c *run) {
	for i := range c.j.Tubes {
		t := &c.j.Tubes[i]
		for end := range 2 {
			have, _, ok := t.mains(end)
			if !ok {
				continue
			}
			for _, off := range [3]struct {
				key string
				mm  float64
			}{{"offset", have.Offset}, {"at", have.Station}, {"middle", have.Middle}} {
				if num.AtMost(math.Abs(off.mm), c.j.Desc.Within.MM) {
					continue
				}
				c.report(diag.Finding{Pos: t.Desc.Pos, Features: []string{t.Name, t.pivotOf(end)}, Got: math.Abs(off.mm), Want: c.j.Desc.Within.MM, Unit: "mm",
					Message: fmt.Sprintf("%s end of tube %s misses the middle of the sleeve of pivot %s: %s is %s", endWords[end], t.Name, t.pivotOf(end), off.key, c.j.text(off.mm)),
					Fix:     "leave " + off.key + " out of " + t.Desc.File.Text + ", or move the pivot"}, diag.Error)
			}
		}
	}
}}
