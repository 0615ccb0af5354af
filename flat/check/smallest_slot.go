package check

import (
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var smallestSlot = &Check{
	ID:       "smallest-slot",
	Severity: diag.Error,
	Title:    "a slot is too narrow to be cut",
	Meaning: "The cut has to go down one side of a slot and up the other with its round ends between. Narrower " +
		"than the process allows, the second side burns into the first, and the piece between jams or fuses.",
	Formula: "width >= max(k t, least) with k and least of the process's web, t the plate's thickness; of a cutout " +
		"that is no circle where it is narrowest: moved inwards by half of that, its edge leaves one opening",
	Source: "common practice; the row of the process names its figures",
	Limits: "A starting value for a process in good order: shops should put in their own. Whether the slot is wide " +
		"enough for what goes in is not looked at. Nothing is asked where the file names no process.",
	Run: func(c *Context) {
		for i := range c.openings {
			o := &c.openings[i]
			if want := c.leastCut(o); o.half > 0 && o.hole.CutDia > 0 && short(o.hole.CutDia, want) {
				c.reportNarrow(o, want)
			}
			if want := c.leastWeb(); o.cut != nil && o.cut.Slot != nil && short(o.cut.Slot.Width, want) {
				c.reportNarrowTab(o, want)
			}
			if o.cut != nil && o.cut.Slot == nil {
				c.narrowCutout(o)
			}
		}
	},
}

func (c *Context) reportNarrow(o *opening, want float64) {
	h := o.hole
	g, w := c.gotWant(h.CutDia, want)
	to := c.up(want + h.Dia - h.CutDia)
	c.Report(diag.Finding{
		Pos: h.Pos, Features: []string{h.Name}, Where: at(o.at),
		Got: h.CutDia, Want: want, Unit: "mm", Source: c.webSource(),
		Message: hole(o) + " is " + g + " wide" + thicknesses(c, h.CutDia) + ", " + c.processNeeds() + " " + w,
	}, Change{Kind: Resize, Hole: h.Name, To: to,
		Text: "make " + name(h) + " " + c.len(to) + " wide and longer by as much"})
}

// reportNarrowTab tells of a slot for a tab that is too thin for this plate and
// process: its width is the tab's plate and the allowance.
func (c *Context) reportNarrowTab(o *opening, want float64) {
	s := o.cut.Slot
	g, w := c.gotWant(s.Width, want)
	to := c.up(want - s.Thickness)
	c.Report(diag.Finding{
		Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(o.at),
		Got: s.Width, Want: want, Unit: "mm", Source: c.webSource(),
		Message: hole(o) + " is " + g + " wide" + thicknesses(c, s.Width) + ", " + c.processNeeds() + " " + w,
		Fix:     "cut it by another process, make the tab of thicker plate, or " + c.loosenWords(o, to),
	}, Change{Kind: Loosen, Hole: o.hole.Name, To: to, Text: c.loosenWords(o, to)})
}

// loosenWords asks for an allowance of a tab slot.
func (c *Context) loosenWords(o *opening, to float64) string {
	s := o.cut.Slot
	return "give " + name(o.hole) + " an allowance of " + c.len(to) + ", which makes it " + c.len(s.Thickness+to) + " wide"
}

// narrowCutout looks for a place of a cutout that is too narrow. A round one is
// for smallest-hole.
func (c *Context) narrowCutout(o *opening) {
	want := c.leastWeb()
	if _, round := o.cut.Loop.Circle(); round || want <= 0 {
		return
	}
	width, ok, err := narrowest(o.cut.Loop, want)
	if err != nil {
		c.reportCannot(diag.Finding{Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(o.at)}, "how narrow "+hole(o)+" is", err)
		return
	}
	if !ok {
		return
	}
	g, w := c.gotWant(width, want)
	c.Report(diag.Finding{
		Pos: o.hole.Pos, Features: []string{o.hole.Name}, Where: at(o.at),
		Got: width, Want: want, Unit: "mm", Source: c.webSource(),
		Message: hole(o) + " is " + g + " wide" + thicknesses(c, width) + " where it is narrowest, " + c.processNeeds() + " " + w,
		Fix:     "make it " + w + " wide there, or leave " + name(o.hole) + " out",
	}, c.leaveOut(o))
}

// narrowest is how wide an opening is where it is narrowest, if that is less than
// so much: up to that width, moving its edge inwards by half of it leaves one
// opening.
func narrowest(l geom.Loop, want float64) (width float64, ok bool, err error) {
	passes := func(w float64) bool {
		rs, fault := geom.Offset([]geom.Region{{Outer: l}}, -w/2, geom.Round)
		if fault != nil {
			err = fault
		}
		return len(rs) == 1
	}
	if passes(want-4*num.LimitSlack) || err != nil {
		return 0, false, err
	}
	low, high := 0.0, want
	for range halvings {
		if mid := (low + high) / 2; passes(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low, true, err
}

// halvings finds a width of some mm to a thousandth.
const halvings = 14
