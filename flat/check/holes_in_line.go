package check

import (
	"math"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/profiles"
)

var holesInLine = &Check{
	ID:       "holes-in-line",
	Severity: diag.Error,
	Title:    "two holes meant for one bolt are not in line once the part is folded",
	Meaning: "A bolt through both legs of a bracket needs its holes on one axis. The flat is folded in space, and the axis of the first hole " +
		"is held against the second hole.",
	Formula: "how far the axis of the first hole misses the middle of the second, and half a thickness of what their axes lean: at most the limit `in line`",
	Source:  "common practice: a few tenths",
	Limits:  "The part is folded exactly as drawn: what the press and springback add is not in it. Pairs are those under `in line`.",
	Run: func(c *Context) {
		if g := c.folded(); g != nil {
			for i := range g.Flat.InLine {
				c.checkLine(g, &g.Flat.InLine[i])
			}
		}
	},
}

func (c *Context) checkLine(g *fold.Folded, p *fold.Pair) {
	a, b := c.holeNamed(p.A), c.holeNamed(p.B)
	if a == nil || b == nil {
		return
	}
	al := g.Align(&fold.FlatHole{Name: a.Name, Panel: a.Panel, At: a.Centre}, &fold.FlatHole{Name: b.Name, Panel: b.Panel, At: b.Centre})
	lean := c.Blank.Thickness / 2 * math.Tan(min(al.Tilt, math.Pi/4))
	most := c.limit(profiles.InLineMost)
	if num.AtMost(al.Offset+lean, most) {
		return
	}
	f := diag.Finding{Pos: b.Pos, Features: []string{b.Name, a.Name}, Where: at(b.Centre), Got: al.Offset + lean, Want: most, Source: c.limitSource(profiles.InLineMost)}
	f.Message = "holes " + quoted(a.Name) + " and " + quoted(b.Name) + " are for one bolt, and folded their axes miss each other by " + c.len(al.Offset)
	if !num.Zero(lean) {
		f.Message += " and lean by " + num.Short(al.Tilt*180/math.Pi, 2) + " degrees"
		f.Fix = "bend both flanges by the same angle, or put the holes into flanges that face each other"
		c.Report(f)
		return
	}
	f.Message += ", at most " + c.len(most)
	m := al.Shift
	o := &opening{hole: b, at: b.Centre, r: b.Dia / 2}
	c.Report(f, c.firstThat(c.moveBy(o, geom.Point{X: m.X + 0, Y: m.Y + 0}))...)
}

// holeNamed finds a hole; nil where it was left out.
func (c *Context) holeNamed(name string) *blank.Hole {
	if i := slices.IndexFunc(c.Blank.Holes, func(h blank.Hole) bool { return h.Name == name }); i >= 0 {
		return &c.Blank.Holes[i]
	}
	return nil
}
