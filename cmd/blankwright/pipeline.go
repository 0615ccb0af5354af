package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"blankwright/export/dxf"
	"blankwright/export/stroke"
	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/cutlist"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// order is what a run is asked to do with each description.
type order struct {
	dxf bool
	paperOrder
	joined       bool
	version      dxf.Version
	noMarks      bool
	bendEnds     bool        // mark the ends of bend lines only
	units        unit.System // of the drawing; Unset follows the file
	acceptFailed bool
	suffix       string        // of file names, where a job has two things of one name
	profile      *profiles.Set // nil for the embedded tables

	kerfOfProcess bool    // compensate the DXF for the kerf of the part's process
	kerf          float64 // or for this one, mm; 0 for nominal edges
}

// outcome is what became of one description.
type outcome struct {
	path     string
	err      error // diag.Problems for a wrong description, else cannot read or compute
	blanks   []checked
	products []product // of a tube or a job
}

// checked is one blank (one hand of a part) with its findings and, where the
// findings allow it, its rendered files.
type checked struct {
	blank    *blank.Blank
	findings []diag.Finding
	failed   bool
	cuts     []cutlist.Cut // of the nominal blank, in their order; nil where nobody asked yet
	unmarked []string      // why texts could not be marked
	tight    []string      // where a lead-in has too little room
	base     string        // file name without ending
	files    []file
	talk     []string // about the files
}

// work takes one description from its file to rendered files, all in memory.
func work(path string, stdin io.Reader, o order) outcome {
	name, text, err := read(path, stdin)
	if err != nil {
		return outcome{path: name, err: err}
	}
	return workText(name, text, o)
}

// workText takes the text of one description to rendered files.
func workText(name string, text []byte, o order) (out outcome) {
	switch describe.KindOf(text) {
	case describe.TubeFile:
		return workTube(name, text, o)
	case describe.JobFile:
		return workJob(name, text, o)
	}
	out.path = name
	part, err := describe.Parse(name, text)
	if err != nil {
		out.err = err
		return out
	}
	set, err := profileOf(part, o.profile)
	if err != nil {
		out.err = err
		return out
	}
	blanks, err := blank.MakeWith(part, set)
	if err != nil {
		out.err = err
		return out
	}
	sys := o.units
	if sys == unit.Unset {
		sys = part.Units
	}
	if sys == unit.Unset {
		sys = unit.Millimetre
	}
	for _, b := range blanks {
		c, err := render(b, sys, o)
		if err != nil {
			out.err, out.blanks = fmt.Errorf("%s: %w", name, err), nil
			return out
		}
		out.blanks = append(out.blanks, c)
	}
	return out
}

// The drawings of a part whose failed checks were accepted say so in their text
// and in their names.
const (
	failedNote   = "FAILED CHECKS ACCEPTED BY THE PERSON WHO MADE THIS FILE"
	failedSuffix = "-failed-checks"
	foldedSuffix = "-folded.svg" // of the picture of a formed part
)

func render(b *blank.Blank, sys unit.System, o order) (c checked, err error) {
	c = checked{blank: b, findings: check.Run(b), base: blank.FileBase(b, sys) + o.suffix}
	c.failed = check.Failed(c.findings)
	table := b
	if o.dxf && (o.acceptFailed || !c.failed) {
		if table, err = o.compensated(b); err != nil {
			return c, err
		}
		c.findings = append(c.findings, shortEdges(table)...)
		c.failed = check.Failed(c.findings)
	}
	note := ""
	if c.failed {
		if !o.acceptFailed {
			return c, nil
		}
		note = failedNote
		c.base += failedSuffix
	}
	if o.dxf {
		c.cuts = cutlist.Order(b)
		c.tight = tightLines(b, c.cuts)
		var marks []stroke.Mark
		if !o.noMarks {
			marks = stroke.Place(b)
			c.unmarked = unmarked(marks)
		}
		f, err := c.cut(table, marks, sys, note, o)
		if err != nil {
			return c, err
		}
		c.files = append(c.files, f)
	}
	if o.any() {
		if err := c.onPaper(o.paperOrder, sys, note); err != nil {
			return c, err
		}
	}
	return c, nil
}

// order is how the table cuts the blank.
func (c *checked) order() []cutlist.Cut {
	if c.cuts == nil {
		c.cuts = cutlist.Order(c.blank)
	}
	return c.cuts
}

// unmarked says which of a blank's texts the drawing leaves to be marked by hand,
// and why.
func unmarked(marks []stroke.Mark) (why []string) {
	for _, m := range marks {
		if m.Err != nil {
			why = append(why, fmt.Sprintf("mark %q: %v", m.Text, m.Err))
		}
	}
	return why
}

// shortEdges says what the process cannot follow of edges that were moved for the
// kerf, and that no rule has looked at.
func shortEdges(b *blank.Blank) (findings []diag.Finding) {
	if b.Kerf == 0 {
		return nil
	}
	least := b.Process.MinSeg
	look := func(what string, pos diag.Pos, l geom.Loop) {
		short := slices.MinFunc(l, func(s, t geom.Seg) int { return cmp.Compare(s.Length(), t.Length()) })
		n := short.Length()
		if num.AtLeast(n, least) {
			return
		}
		findings = append(findings, diag.Finding{
			Pos: pos, Rule: "short-edge", Severity: diag.Error, Where: diag.Place{X: short.A.X, Y: short.A.Y}, Got: n, Want: least, Unit: "mm",
			Message: fmt.Sprintf("%s has an edge of %s mm at x %s mm, y %s mm, shorter than the %s mm that %s follows", what, num.Short(n, 3),
				num.Short(short.A.X, 2), num.Short(short.A.Y, 2), num.Short(least, 3), b.Process.Name),
			Fix: "let the table compensate: leave --kerf out; or draw that corner otherwise",
		})
	}
	look("the outline, moved for the kerf,", b.Part.Outline.Pos, b.Outline)
	for i := range b.Cutouts {
		k := &b.Cutouts[i]
		look(fmt.Sprintf("%s %q, moved for the kerf,", k.Purpose, k.Name), k.Pos, k.Loop)
	}
	return findings
}

// compensated is the blank with its edges moved for a kerf, where that was asked
// for.
func (o *order) compensated(b *blank.Blank) (*blank.Blank, error) {
	kerf := o.kerf
	if o.kerfOfProcess {
		if kerf = b.Process.Kerf; kerf == 0 {
			return nil, fmt.Errorf("process %q has no kerf: give it as a length", b.Process.Name)
		}
	}
	if kerf == 0 {
		return b, nil
	}
	return blank.Compensate(b, kerf)
}

// cut renders the drawing for the table, of the blank with its edges moved for the
// kerf where that was asked for. Paper shows the finished edges, whatever the table
// is given.
func (c *checked) cut(b *blank.Blank, marks []stroke.Mark, sys unit.System, note string, o order) (file, error) {
	cuts := c.cuts
	if b != c.blank {
		cuts = nil // it has edges of its own
	}
	options := dxf.Options{Joined: o.joined, Version: o.version, Marks: marks, Cuts: cuts, NoMarks: o.noMarks, BendEnds: o.bendEnds, Unit: sys, Note: note}
	data, err := dxf.Write(b, options)
	if err == nil {
		err = dxf.Verify(data, b, options) // before it gets its name
	}
	name := blank.FileBase(b, sys)
	if note == failedNote {
		name += failedSuffix
	}
	return file{name + ".dxf", data}, err
}
