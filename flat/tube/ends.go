package tube

import (
	"math"
	"strconv"

	"blankwright/flat/check"
	"blankwright/flat/cope"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// text writes a length in the units of the tube's file.
func (t *Tube) text(mm float64) string { return unit.Text(mm, t.Desc.Units) }

func deg(a float64) string { return num.Short(a/degree, 1) + " deg" }

// FilletAngle is the least angle between the axes (rad) at which a fillet still
// reaches the root at the toe: 30 degrees, AWS D1.1, prequalified tubular joints
// (from memory, verify).
const FilletAngle = 30 * degree

var angleRule = &Rule{check.Check{
	ID: "tube-angle", Severity: diag.Warning,
	Title: "a tube meets another at a sharp angle",
	Meaning: "Under 30 degrees the torch no longer reaches the root at the toe, where both walls close up: that part of the " +
		"bead counts for nothing, and it is the part that cracks. The saddle is long, too, and a hole saw does not hold it.",
	Formula: "angle between the axes >= 30 deg",
	Source:  "AWS D1.1, prequalified tubular joints (from memory, verify)",
	Limits:  "Round tubes. The angle is that between the axes; at the sides of a wide tube the walls meet at others.",
}, func(c *run) {
	for i := range c.t.Ends {
		for _, k := range c.t.Cut.Ends[i].Cutters() {
			m, ok := k.(cope.Main)
			if !ok || num.AtLeast(m.Angle, FilletAngle) {
				continue
			}
			e := &c.t.Ends[i]
			c.report(diag.Finding{Pos: c.pos(i), Features: []string{e.Word + " end"}, Got: m.Angle / degree, Want: 30, Unit: "deg",
				Message: e.Word + " end: the axes lie at " + deg(m.Angle) + ", a fillet needs 30 deg: its toe cannot be welded to the root",
				Fix:     "bring the tube in more steeply, or have the weld procedure tried and sectioned"}, diag.Warning)
		}
	}
}}

// pos is the place of an end in the file.
func (c *run) pos(end int) diag.Pos {
	if end == 0 {
		return c.t.Desc.First.Pos
	}
	return c.t.Desc.Second.Pos
}

var overrunRule = &Rule{check.Check{
	ID: "sleeve-overrun", Severity: diag.Error,
	Title:   "a tube reaches past the end of its sleeve",
	Meaning: "Where the outside of the tube runs past the sleeve's end there is nothing to weld it to, and the bush bears on air.",
	Formula: "length of the sleeve >= twice the farthest reach of the outside line from the sleeve's middle",
	Source:  "common practice: the whole of the cut lies on the sleeve",
	Limits:  "Measured on the outside line; the weld needs its leg beside it.",
}, func(c *run) {
	for i := range c.t.Ends {
		for _, o := range c.t.Cut.Ends[i].Overruns() {
			most := max(o.Toe, o.Heel)
			length := 0.0
			for _, k := range c.t.Cut.Ends[i].Cutters() {
				if m, ok := k.(cope.Main); ok && m.Length > 0 && (m.Name == o.Main || len(c.t.Cut.Ends[i].Cutters()) == 1) {
					length = m.Length
				}
			}
			e := &c.t.Ends[i]
			c.report(diag.Finding{Pos: c.pos(i), Features: []string{e.Word + " end", o.Main}, Got: length, Want: length + 2*most, Unit: "mm",
				Message: e.Word + " end: the tube reaches " + c.t.text(most) + " past the end of " + o.Main,
				Fix:     "a sleeve " + c.t.text(length+2*most) + " long, its middle where it is"}, diag.Error)
		}
	}
}}

// FilletGap is the gap that a fillet bridges as drawn, MostGap the one beyond
// which the parts are not welded, mm: AWS D1.1, fit-up of fillet welds, 1/16 in
// and 3/16 in (from memory, verify).
const (
	FilletGap = 1.6
	MostGap   = 4.8
)

const gapSource = "AWS D1.1, fit-up of fillet welds: 1/16 in without more leg, 3/16 in at most (from memory, verify)"

// looks is how many generators are looked at for the largest difference of two
// lines: every half degree.
const looks = 720

// apart is the largest distance along the tube by which line a lies farther in
// than line b, and where.
func apart(e *cope.Cope, a, b cope.Kind) (most, at float64) {
	u, v := e.Curve(a), e.Curve(b)
	for i := range looks {
		q := 2 * math.Pi * float64(i) / looks
		if d := u.At(q) - v.At(q); d > most {
			most, at = d, q
		}
	}
	return most, at
}

// Grind is how far the inside line lies behind the outside line of an end at
// most, mm along the tube, and at which generator: what a cut square through
// the wall fouls by on the inside.
func (t *Tube) Grind(end int) (mm, at float64) { return apart(t.Cut.Ends[end], cope.ID, cope.OD) }

var insideRule = &Rule{check.Check{
	ID: "tube-inside", Severity: diag.Note,
	Title: "a tube cut on its outside line fouls on the inside of its wall",
	Meaning: "A torch or a saw held square to the tube cuts inside and outside of the wall at the same place. At the sides of " +
		"the saddle the inside then touches first and the outside stands off. Cut on the outside line, then grind to the inside line.",
	Formula: "foul = largest of (inside line - outside line), along the tube",
	Source:  gapSource,
	Limits:  "Told from 1.6 mm on. Looked at every half degree.",
}, func(c *run) {
	if c.t.Line != cope.OD {
		return
	}
	for i := range c.t.Ends {
		foul, at := c.t.Grind(i)
		if num.AtMost(foul, FilletGap) {
			continue
		}
		e := &c.t.Ends[i]
		c.report(diag.Finding{Pos: c.pos(i), Features: []string{e.Word + " end"}, Got: foul, Want: FilletGap, Unit: "mm",
			Message: e.Word + " end: cut square through the wall it fouls on the inside by up to " + c.t.text(foul) + ", at " + deg(at),
			Fix:     "grind to the inside line of the template"}, diag.Note)
	}
}}

var gapRule = &Rule{check.Check{
	ID: "tube-gap", Severity: diag.Error,
	Title: "a tube cut square through its wall leaves too wide a gap outside",
	Meaning: "Cut on the line that drops on, the inside of the wall touches at the sides of the saddle and the outside stands off. " +
		"What a fillet has to bridge adds to its leg; beyond 4.8 mm it is no weld.",
	Formula: "gap = largest of (drop-on line - outside line), along the tube\ngap <= 1.6 mm: as drawn; gap <= 4.8 mm: leg + gap (warning)",
	Source:  gapSource,
	Limits:  "Measured along the tube, which is no less than square to the walls. Of cut: square alone.",
}, func(c *run) {
	if c.t.Line != cope.DropOn {
		return
	}
	for i := range c.t.Ends {
		gap, at := apart(c.t.Cut.Ends[i], cope.DropOn, cope.OD)
		if num.AtMost(gap, FilletGap) {
			continue
		}
		e := &c.t.Ends[i]
		f := diag.Finding{Pos: c.pos(i), Features: []string{e.Word + " end"}, Got: gap, Want: FilletGap, Unit: "mm",
			Message: e.Word + " end: the outside of the wall stands off by up to " + c.t.text(gap) + ", at " + deg(at),
			Fix:     "write cut: ground, and grind to the inside line"}
		severity := diag.Warning
		if !num.AtMost(gap, MostGap) {
			severity, f.Want = diag.Error, MostGap
		} else {
			f.Fix += "; or make the leg longer by the gap"
		}
		c.report(f, severity)
	}
}}

// seamSlip is how far round the tube a seam may slip when it is glued (rad), and
// seamWorth what another place has to be better by to be told, mm.
const (
	seamSlip  = 15 * degree
	seamWorth = 1.0
)

// moves is how far an end's line moves along the tube within a slip of q.
func moves(u *cope.Curve, q float64) (worst float64) {
	s := u.At(q)
	for i := -4; i <= 4; i++ {
		worst = max(worst, math.Abs(u.At(q+seamSlip*float64(i)/4)-s))
	}
	return worst
}

var seamRule = &Rule{check.Check{
	ID: "tube-seam", Severity: diag.Warning,
	Title:   "the template's seam lies where the cut is steep",
	Meaning: "Where the seam slips a little round the tube, a steep cut is off along the tube at once. A quarter where it runs level does not mind.",
	Formula: "move(seam) <= move(best quarter) + 1 mm, move = largest change of the line within 15 deg",
	Source:  "common practice: the seam at the least critical quarter",
	Limits:  "Of a seam that the file places.",
}, func(c *run) {
	for i := range c.t.Ends {
		e := &c.t.Ends[i]
		if e.Template == nil {
			continue
		}
		u, best := c.t.Cut.Ends[i].Curve(c.t.Line), c.t.Cut.Ends[i].BestSeam()
		got, want := moves(u, e.Template.Seam), moves(u, best)
		if num.AtMost(got, want+seamWorth) {
			continue
		}
		c.report(diag.Finding{Pos: c.t.Desc.Paper.Seam.Pos, Features: []string{e.Word + " end"}, Got: got, Want: want, Unit: "mm",
			Message: e.Word + " end: within 15 deg of the seam the cut moves by " + c.t.text(got) + ", at " + deg(best) + " by " + c.t.text(want),
			Fix:     "put the seam at " + deg(best) + ", or leave seam out"}, diag.Warning)
	}
}}

var clampRule = &Rule{check.Check{
	ID: "tube-short", Severity: diag.Warning,
	Title:   "the templates of both ends lie over each other",
	Meaning: "The straight edge of each template has to lie on whole tube, clear of the other end's template, or neither can be set by the other.",
	Formula: "distance between the straight edges >= 0",
	Source:  "common practice",
	Limits:  "Of tubes with a template at both ends.",
}, func(c *run) {
	a, b := c.t.Ends[0].Template, c.t.Ends[1].Template
	if a == nil || b == nil {
		return
	}
	if gap := c.t.Cut.EdgeGap(a, b); !num.AtLeast(gap, 0) {
		margin := c.t.Paper.Margin + gap/2
		fix := "mark one end, cut it, then the other"
		if margin > FilletGap {
			fix = "write paper: {margin: " + unit.Typed(math.Floor(margin), c.t.Desc.Units) + "}"
		}
		c.report(diag.Finding{Pos: c.t.Desc.Pos, Got: gap, Want: 0, Unit: "mm", Features: []string{"both ends"},
			Message: "the templates of both ends lie over each other by " + c.t.text(-gap), Fix: fix}, diag.Warning)
	}
}}

// Unchecked lists what was not looked at, and why: one line each.
func Unchecked(t *Tube) []string {
	var out []string
	add := func(s string) { out = append(out, s) }
	if len(t.Loads) == 0 {
		add("stress, buckling, weld and sleeve: the file gives no loads")
	} else {
		if _, ok := t.Steel(); !ok {
			add("stress, buckling, weld and sleeve: the rules used are for carbon steel, " + t.Material.Name + " is " + string(t.Material.Group))
		}
		if t.Desc.Weld == nil {
			add("weld at the ends: the file gives none")
		}
		for i := range t.Ends {
			if !t.Ends[i].Square && len(t.Ends[i].Sleeves) == 0 {
				add("wall of what the " + t.Ends[i].Word + " end meets: the file gives no sleeve with length and bore")
			}
		}
		add("bending of the tube by its own weight, by a blow, by bushes that do not turn freely: loads are taken along its axis")
		add("fatigue: loads that come again and again crack welds far below what is computed here")
	}
	add("material: no certificate was seen; section and strength of " + t.Material.Name + " are taken as written, a tube's weld seam and its bent state are not known")
	add("distortion by welding: sleeves pull in and turn; tack, measure, then weld")
	add("accuracy of hand cutting, of paper that was not measured, of a tube that is not round")
	return out
}

// Assumptions lists what was taken for granted, one line each.
func Assumptions(t *Tube) []string {
	var out []string
	add := func(s string) {
		for _, o := range out {
			if o == s {
				return
			}
		}
		out = append(out, s)
	}
	for i := range t.Loads {
		for _, a := range t.Loads[i].Assumed {
			add(a)
		}
	}
	if len(t.Loads) == 0 {
		return out
	}
	for i := range t.Loads {
		if !t.Loads[i].Factored {
			add("loads without a factor are taken as " + map[bool]string{true: "service loads", false: "loads already factored"}[t.asd()])
		}
	}
	add("loads run along the tube's axis from working point to working point, with pins at both ends (length factor 1)")
	add("modulus of elasticity " + strconv.Itoa(ElasticModulus/1000) + " GPa (AISC 360)")
	for i := range t.Ends {
		for _, s := range t.Ends[i].Sleeves {
			add("material of " + s.Name + ": that of the tube")
		}
	}
	if t.Desc.Weld != nil {
		add("the weld counts only where the walls meet at 60 to 120 degrees, evenly loaded")
	}
	return out
}
