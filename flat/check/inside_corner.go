package check

import (
	"math"
	"strconv"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var insideCorner = &Check{
	ID:       "inside-corner",
	Severity: diag.Warning,
	Title:    "an inside corner is sharper than the cut can make it",
	Meaning: "The cut is as wide as the kerf and round in front: in an inside corner it leaves a radius of half a " +
		"kerf. Where a corner is drawn sharper than that, what is to fit into it does not: a tab bears on the " +
		"round instead of on its shoulder. Round such a corner, or relieve it. Sharp corners are also where cracks " +
		"begin. Corners of one shape are told together.",
	Formula: "radius of an inside corner >= half the kerf of the process's row; corners in which the cut leaves less " +
		"than the shortest edge of the row standing are passed over",
	Source: "common practice: geometry of a round cut; the row of the process",
	Limits: "The kerf of the row is a starting value. Outside corners are cut sharp by any process, some with a nick " +
		"or a burn. Nothing is asked where the file names no process.",
	Run: runInsideCorner,
}

// kerf is the width of the cut, mm; 0 where the file names no process.
func (c *Context) kerf() float64 { return c.Blank.Process.Kerf }

func runInsideCorner(c *Context) {
	if c.kerf() <= 0 {
		return
	}
	if c.whole() {
		if s := c.sharpCorners(c.Blank.Outline, -1); s.n > 0 {
			c.reportCorners(&s, nil)
		}
	}
	for i := range c.openings {
		if o := &c.openings[i]; o.cut != nil {
			if s := c.sharpCorners(o.cut.Loop, 1); s.n > 0 {
				c.reportCorners(&s, o)
			}
		}
	}
}

// sharpCorners are the inside corners of a loop that the cut leaves round.
type sharpCorners struct {
	n      int
	first  geom.Point
	radius float64 // of the sharpest, 0 for a corner without one
}

// sharpCorners looks at the corners where a counter-clockwise loop turns to the
// left (turn 1: into an opening) or to the right (turn -1: into the plate).
func (c *Context) sharpCorners(l geom.Loop, turn float64) sharpCorners {
	s := sharpCorners{radius: math.Inf(1)}
	found := func(at geom.Point, r float64) {
		if c.relieved(at) {
			return
		}
		if s.n == 0 {
			s.first = at
		}
		s.n++
		s.radius = min(s.radius, r)
	}
	r := c.kerf() / 2
	in := l[len(l)-1].DirB()
	for i := range l {
		g := &l[i]
		out := g.DirA()
		if cross := in.Cross(out) * turn; cross > num.Angular && c.leaves(r, math.Atan2(cross, in.Dot(out))) {
			found(g.A, 0)
		}
		if !g.IsArc() {
			in = out
			continue
		}
		in = g.DirB()
		if k := g.Circle().R; g.Bulge*turn > 0 && short(k, r) && c.leaves(r-k, math.Abs(g.Sweep())) {
			found(g.Mid(), k)
		}
	}
	return s
}

// leaves reports whether a cut of radius r leaves something to speak of in a
// corner that turns by so much.
func (c *Context) leaves(r, turn float64) bool {
	half := min(turn, math.Pi-num.Angular) / 2
	return !short(r/math.Cos(half)-r, c.Blank.Process.MinSeg)
}

func (c *Context) reportCorners(s *sharpCorners, o *opening) {
	r := c.kerf() / 2
	f := diag.Finding{
		Pos: c.part.Outline.Pos, Where: at(s.first), Got: s.radius, Want: r, Unit: "mm", Source: c.kerfSource(),
	}
	what, loop := "the outline", c.Blank.Outline
	if o != nil {
		f.Pos, f.Features = o.hole.Pos, []string{o.hole.Name}
		what, loop = hole(o), o.cut.Loop
	}
	corners, which := "an inside corner of ", ", at x "
	if s.n > 1 {
		corners, which = strconv.Itoa(s.n)+" inside corners, the sharpest of ", ", the first at x "
	}
	how := "no radius"
	if s.radius > 0 {
		how = "radius " + c.len(s.radius)
	}
	f.Message = what + " has " + corners + how + which + c.len(s.first.X) + ", y " + c.len(s.first.Y) +
		"; the kerf of " + c.Blank.Process.Name + " leaves a radius of " + c.len(r) + " there"
	to := c.up(r)
	them := "them"
	if s.n == 1 {
		them = "it"
	}
	f.Fix = "round " + them + " with a radius of " + c.len(to) + " or more, or relieve " + them
	ch := Change{Text: "round " + them + " with a radius of " + c.len(to)}
	l, closes, ok := rounded(loop, to, o != nil)
	switch {
	case !ok && o != nil: // narrower than the cut is wide
		f.Fix = "make it wider, or leave " + name(o.hole) + " out"
		c.Report(f, c.leaveOut(o))
		return
	case !ok:
		c.Report(f)
		return
	case closes:
		ch.Text += ", and close the notch that is narrower than the cut"
		f.Fix = ch.Text
	}
	ch.Outline = l.String()
	if ch.Kind = Redraw; o != nil {
		ch.Kind, ch.Hole = Recut, o.hole.Name
	}
	c.Report(f, ch)
}

// rounded gives a loop with its inside corners rounded: what a round cut leaves.
// That is moving the edge away from the cut by the radius, and back. closes tells
// that a notch of an outline closed at its mouth on the way.
func rounded(l geom.Loop, r float64, opening bool) (out geom.Loop, closes, ok bool) {
	if opening {
		r = -r
	}
	rs, err := geom.Offset([]geom.Region{{Outer: l}}, r, geom.Round)
	if err != nil || len(rs) != 1 {
		return nil, false, false
	}
	closes = len(rs[0].Holes) > 0
	rs[0].Holes = nil
	rs, err = geom.Offset(rs, -r, geom.Round)
	if err != nil || len(rs) != 1 || len(rs[0].Holes) > 0 {
		return nil, false, false
	}
	return rs[0].Outer, closes, true
}
