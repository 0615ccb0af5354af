package check

import (
	"errors"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
)

var bendOrder = &Check{
	ID:       "bend-order",
	Severity: diag.Error,
	Title:    "no order of bends leaves room for a straight blade",
	Meaning: "A press pushes a blade into the bend from the inside. Whatever order the bends are made in, a flange that stands already is in the " +
		"way of the blade for another one. Such a part needs a goosenecked punch, another tool of its own, or is made of two.",
	Formula: "for some order: no panel crosses the blade, thin as a line and halving the angle, when each bend begins and when it is done",
	Source:  "geometry: the part folded bend by bend",
	Limits:  "A note where a punch whose straight nose is 50 mm high (common practice for goosenecks) finds an order. Not the die, the back stops, the width of the punch nor the swing in between: a part that passes may still need a tool of its own. Ask the shop; where it has a tool that reaches in, a waiver says so.",
	Run: func(c *Context) {
		g := c.folded()
		if g == nil || len(c.crashes) > 0 { // no order helps a part that runs into itself
			return
		}
		if ps := blocked(g.Order); len(ps) > 0 {
			nose := func(g *fold.Folded) fold.Problems {
				return blocked(func() ([]int, error) { return g.OrderWith(fold.NoseReach) })
			}
			severity, find := c.rule.Severity, nose
			if hard := nose(g); len(hard) > 0 {
				ps = hard
			} else {
				severity, find = diag.Note, func(g *fold.Folded) fold.Problems { return blocked(g.Order) }
			}
			for i := range ps {
				p := &ps[i]
				if severity == diag.Note {
					p.Message += "; a goosenecked punch makes room"
				}
				c.reportFold(severity, p, func(b *blank.Blank) bool { return told(find(b.Formed.Flat.Fold()), p.Panel) })
			}
		}
	},
}

// blocked are the bends for which a search finds no order.
func blocked(order func() ([]int, error)) fold.Problems {
	_, err := order()
	var ps fold.Problems
	errors.As(err, &ps)
	return ps
}
