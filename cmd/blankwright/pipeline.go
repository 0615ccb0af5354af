package main

import (
	"fmt"
	"io"

	"blankwright/export/dxf"
	"blankwright/export/svg"
	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// order is what a run is asked to do with each description.
type order struct {
	dxf, svg     bool
	joined       bool
	units        unit.System // of the drawing; Unset follows the file
	acceptFailed bool
}

// outcome is what became of one description.
type outcome struct {
	path   string
	err    error // diag.Problems for a wrong description, else cannot read or compute
	blanks []checked
}

// checked is one blank (one hand of a part) with its findings and, where the
// findings allow it, its rendered files.
type checked struct {
	blank    *blank.Blank
	findings []diag.Finding
	failed   bool
	base     string // file name without ending
	files    []file
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
	out.path = name
	part, err := describe.Parse(name, text)
	if err != nil {
		out.err = err
		return out
	}
	blanks, err := blank.Make(part)
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

// failedNote marks the drawings of a part whose failed checks were accepted.
const failedNote = "FAILED CHECKS ACCEPTED BY THE PERSON WHO MADE THIS FILE"

func render(b *blank.Blank, sys unit.System, o order) (c checked, err error) {
	c = checked{blank: b, findings: check.Run(b), base: blank.FileBase(b, sys)}
	c.failed = check.Failed(c.findings)
	note := ""
	if c.failed {
		if !o.acceptFailed {
			return c, nil
		}
		note = failedNote
		c.base += "-failed-checks"
	}
	if o.dxf {
		data, err := dxf.Write(b, dxf.Options{Joined: o.joined, Unit: sys, Note: note})
		if err != nil {
			return c, err
		}
		c.files = append(c.files, file{c.base + ".dxf", data})
	}
	if o.svg {
		data, err := svg.Write(b, c.findings, svg.Options{Unit: sys, Note: note})
		if err != nil {
			return c, err
		}
		c.files = append(c.files, file{c.base + ".svg", data})
	}
	return c, nil
}
