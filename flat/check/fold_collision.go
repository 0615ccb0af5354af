package check

import (
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
)

var foldCollision = &Check{
	ID:       "fold-collision",
	Severity: diag.Error,
	Firm:     true,
	Title:    "the folded part runs into itself",
	Meaning:  "Folded in space, two flanges, or a flange and a bend, need the same place. The part cannot be bent to its last angle.",
	Formula:  "no panel or bend reaches into another one",
	Source:   "geometry: the flat pattern folded about its bend lines",
	Limits:   "Faces that only touch do not count. Bends are taken as flats of at most 5 degrees. The way from flat to folded is looked at by `bend-order`.",
	Run: func(c *Context) {
		if g := c.folded(); g != nil {
			c.crashes = g.Collisions()
			for _, p := range c.crashes {
				c.reportFold(c.rule.Severity, &p, func(b *blank.Blank) bool { return told(b.Formed.Flat.Fold().Collisions(), p.Panel) })
			}
		}
	},
}

// told reports whether problems name a panel.
func told(ps fold.Problems, panel string) bool {
	return slices.ContainsFunc(ps, func(p fold.Problem) bool { return p.Panel == panel })
}

// reportFold tells what is wrong with the folded part, and suggests a lower
// flange where one mends it.
func (c *Context) reportFold(s diag.Severity, p *fold.Problem, left func(*blank.Blank) bool) {
	panel := c.panelNamed(p.Panel)
	where := p.At
	if !p.Placed {
		where = c.Blank.Formed.Flat.Panels[panel].Region.Bounds().Centre()
	}
	f := diag.Finding{Pos: c.panelPos(panel), Features: []string{p.Panel}, Where: at(geom.Point{X: where.X, Y: where.Y}), Message: p.Message}
	changes := c.lower(p.Panel, left)
	if len(changes) == 0 {
		f.Fix = p.Hint
	}
	c.ReportAs(s, f, changes...)
}
