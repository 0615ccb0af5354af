package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/geom"
)

var partTooSmall = &Check{
	ID:       "part-too-small",
	Severity: diag.Error,
	Title:    "the part is nowhere wide enough to be cut",
	Meaning: "A part narrower than the cut, or than the metal that the process leaves standing, falls through the " +
		"table, melts, or is not there at all. Often a unit is wrong: inches meant, millimetres written.",
	Formula: "diameter of the largest disc that lies in the outline >= the larger of least web and kerf of the process's row",
	Source:  "common practice; the row of the process names its figures",
	Limits: "Looks at the widest place only; see narrow-neck and least-web for others. Nothing is asked where the file " +
		"names no process.",
	Run: func(c *Context) {
		want := max(c.leastWeb(), c.kerf())
		if want <= 0 || !c.whole() || c.holds(want) {
			return
		}
		c.reportTooSmall(want)
	},
}

// holds reports whether a disc of a diameter lies in the outline. Two discs are
// tried before the edge is moved in: that about the middle of the part, and one as
// wide as area and perimeter tell there to be, since no place of a plate is farther
// from its edge than the largest disc's radius: area <= perimeter * radius.
func (c *Context) holds(dia float64) bool {
	l := c.Blank.Outline
	if l.Area() >= l.Perimeter()*dia/2 {
		return true
	}
	if m := l.Centroid(); l.Contains(m) == geom.Inside && !short(2*geom.PointLoop(m, l).D, dia) {
		return true
	}
	// What is just wide enough keeps a step of leave.
	return fitsDisc(l, dia-c.step()/10)
}

func fitsDisc(l geom.Loop, dia float64) bool {
	if dia <= 0 {
		return true
	}
	rs, err := geom.Offset([]geom.Region{{Outer: l}}, -dia/2, geom.Round)
	return err == nil && len(rs) > 0
}

// sizings is how often the width of a part that is too small is bisected.
const sizings = 30

func (c *Context) reportTooSmall(want float64) {
	l := c.Blank.Outline
	low, high := 0.0, want
	for range sizings {
		mid := (low + high) / 2
		if fitsDisc(l, mid) {
			low = mid
		} else {
			high = mid
		}
	}
	g, w := c.gotWant(low, want)
	if low < c.step() {
		g = "next to nothing"
	}
	f := diag.Finding{
		Pos: c.part.Outline.Pos, Where: at(l.Centroid()), Got: low, Want: want, Unit: "mm", Source: c.webSource(),
		Message: "the part is nowhere wider than " + g + ", " + c.processNeeds() + " " + w,
	}
	by := c.up((want-low)/2) + c.step()
	rs, err := geom.Offset([]geom.Region{{Outer: l}}, by, geom.Mitre)
	if err != nil || len(rs) != 1 || !fitsDisc(rs[0].Outer, want) {
		f.Fix = "make it " + w + " wide somewhere; are the units right"
		c.Report(f)
		return
	}
	c.Report(f, Change{Kind: Redraw, Outline: rs[0].Outer.String(), Text: "make it " + c.len(by) + " larger all round; are the units right"})
}
