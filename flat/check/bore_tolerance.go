package check

import (
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/profiles"
)

var boreTolerance = &Check{
	ID:       "bore-tolerance",
	Severity: diag.Warning,
	Title:    "a bore is left to the cut, which is not true enough for its fit",
	Meaning: "A cut bore comes out larger or smaller than drawn by the process's tolerance, and its wall leans. What goes in " +
		"is sure to go in only where the bore is wider than both take up; a press fit cannot be cut at all. Such a bore is " +
		"cut under size, drilled or bored, and reamed.",
	Formula: "bore - what goes in >= T + 2 u; T the larger of the tolerance of the process's row and the limit deviation of its " +
		"class (table cut-deviation-iso-9013), u the angularity of its range (table cut-angularity-iso-9013)",
	Source: "ISO 9013:2017 for deviations and angularity; common practice for the process's row",
	Limits: "Worst case: a table in good order does better. Bores that are drilled or reamed are not looked at, nor is what a " +
		"fit puts on the metal round it.",
	Run: func(c *Context) {
		for i := range c.openings {
			if o := &c.openings[i]; o.hole.Purpose == blank.Bore && o.hole.Method == blank.Cut && o.cut == nil {
				c.checkBore(o)
			}
		}
	},
}

func (c *Context) checkBore(o *opening) {
	p, t, h := &c.Blank.Process, c.Blank.Thickness, o.hole
	tol, source := p.Tolerance, cite(p.Source)
	if d, src, ok := profiles.CutDeviation(p.Class, t, h.Dia); ok && d > tol {
		tol, source = d, cite(src)
	}
	lean := 2 * profiles.Angularity(p.Range, t)
	want := tol + lean
	got := h.Dia - h.Nominal
	if want <= 0 || !short(got, want) {
		return
	}
	has := "is " + c.len(got) + " wider than"
	switch {
	case num.Zero(got):
		has = "is as wide as"
	case got < 0:
		has = "is " + c.len(-got) + " narrower than"
	}
	f := diag.Finding{
		Pos: h.Pos, Features: []string{h.Name}, Where: at(o.at), Got: got, Want: want, Unit: "mm", Source: source,
		Message: hole(o) + " " + has + " what goes in, and " + p.Name + " cuts to +/- " + c.len(tol) + " with a wall that leans by " +
			c.len(lean) + " across: as cut it needs " + c.len(want),
	}
	ch := Change{Kind: Rewrite, Key: keyHow, Hole: h.Set, Word: "ream"}
	ch.Text = "give " + name(h) + " `how: ream`"
	if after, err := ch.Apply(c.Blank); err == nil {
		for i := range after.Holes {
			if k := &after.Holes[i]; k.Name == h.Name && k.CutDia > 0 {
				ch.Text += ": cut under size and ream (cut " + c.len(k.CutDia) + ", drill or bore " + c.len(k.DrillDia) + ", ream " + c.len(k.Dia) + ")"
			}
		}
		c.Report(f, ch)
		return
	}
	ch.Word = "drill"
	ch.Text = "give " + name(h) + " `how: drill`"
	c.Report(f, c.firstThat(ch)...)
}
