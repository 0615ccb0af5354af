package check

import (
	"blankwright/flat/diag"
)

// How far the edge of an opening stays off a bend, in thicknesses, and what is
// preferred: so many thicknesses and the radius.
const (
	holeToBendTimes  = 2.0
	holeToBendPrefer = 2.5
)

var holeToBend = &Check{
	ID:       "hole-to-bend",
	Severity: diag.Error,
	Title:    "an opening is too near a bend",
	Meaning: "Metal beside a bend is drawn towards it. An opening whose edge lies too near to the line where the bend begins comes out oval " +
		"and bell-mouthed. Move it away, or drill it after bending.",
	Formula: "from the edge of the opening to the tangent line of the bend: at least 2 T; 2.5 T + R is preferred",
	Source:  "common practice: 2 T, 2.5 T + R preferred",
	Limits:  "Measured on the flat, from the finished edge, to bends of the same panel. Falling short of what is preferred is a note.",
	Run: func(c *Context) {
		if c.Blank.Formed == nil {
			return
		}
		for i := range c.openings {
			c.checkToBend(&c.openings[i])
		}
	},
}

func (c *Context) checkToBend(o *opening) {
	t := c.Blank.Thickness
	severity, times, radii, formula := c.rule.Severity, holeToBendTimes, 0.0, "2 T"
	s, near := c.bendRoom(o, times*t, radii)
	if near.bend == nil {
		return
	}
	if s.met() {
		severity, times, radii, formula = diag.Note, holeToBendPrefer, 1, "2.5 T + R"
		if s, near = c.bendRoom(o, times*t, radii); s.met() {
			return
		}
	}
	want := times*t + radii*near.bend.Bend.R
	g, w := c.gotWant(near.d, want)
	f := diag.Finding{Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(near.at), Got: near.d, Want: want, Unit: "mm"}
	f.Message = hole(o) + ": its edge is " + g + " from where the bend of flange " + quoted(near.bend.Name) + " begins, needs " + w + " (" + formula + ")"
	if severity == diag.Note {
		f.Message = hole(o) + ": its edge is " + g + " from where the bend of flange " + quoted(near.bend.Name) + " begins, which is enough; " + w + " (" + formula + ") is preferred"
	}
	var changes []Change
	if !o.pinned() {
		if ch, ok := c.relocate(o, func(o *opening) shortfall { s, _ := c.bendRoom(o, times*t, radii); return s }); ok {
			changes = append(changes, ch)
		}
	}
	if len(changes) == 0 {
		changes = append(changes, c.leaveOut(o))
	}
	c.ReportAs(severity, f, changes...)
}
