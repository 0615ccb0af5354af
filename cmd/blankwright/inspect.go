package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"blankwright/export/dxf"
	"blankwright/export/stroke"
	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/drawing"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"

	"github.com/urfave/cli/v2"
)

func inspectCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "inspect",
		Usage:     "say what a cutting table would refuse in a DXF from elsewhere; mend it on request",
		ArgsUsage: "DRAWING.dxf",
		Description: "Prints every fault with its place, and what a clean copy would hold. With --plate\n" +
			"and --process the rules for openings, webs and edges are applied too.\n" +
			"--mend writes the clean copy and says each thing that it changed; a drawing of\n" +
			"several parts becomes OUT-1.dxf, OUT-2.dxf and so on.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "plate", Usage: "thickness of the plate, like 1/4 in or 6mm (a bare number takes the drawing's unit)"},
			&cli.StringFlag{Name: "process", Usage: "cutting process, like \"air plasma\""},
			&cli.StringFlag{Name: "units", Usage: "unit of the drawing's coordinates: in or mm (default: as the drawing says)"},
			&cli.StringFlag{Name: "tolerance", Usage: "how far apart ends may lie and be joined, like 0.1mm"},
			&cli.StringFlag{Name: "mend", Usage: "write a clean copy to this file"},
			jsonFlag(),
		},
		Action: func(c *cli.Context) error {
			if c.NArg() != 1 {
				return usage("inspect takes one DRAWING.dxf, got %d", c.NArg())
			}
			q := inspection{talk: t, path: c.Args().First(), json: c.Bool("json"), mend: c.String("mend")}
			if err := q.fill(c); err != nil {
				return err
			}
			return q.run()
		},
	}
}

// inspection is one drawing from elsewhere being looked at.
type inspection struct {
	*talk
	path      string
	json      bool
	mend      string
	plate     string
	thickness float64 // mm; 0 where not given
	process   profiles.Process
	tolerance float64
	options   drawing.Options

	drawing *drawing.Drawing
	joined  *drawing.Assembly
	clean   *drawing.Mended
	boxes   map[boxKey]int // lines of the file by what they enclose
	report  inspectReport
}

// inspectReport is what --json prints. Lengths are mm, in the drawing's place.
type inspectReport struct {
	File     string          `json:"file"`
	Version  string          `json:"version,omitempty"`
	Unit     string          `json:"unit,omitempty"`
	UnitFrom string          `json:"unit_from,omitempty"`
	Errors   []problemReport `json:"errors,omitempty"`
	Faults   []diag.Finding  `json:"faults"`
	Parts    []sketchReport  `json:"parts"`
	Changes  []string        `json:"changes,omitempty"` // of the clean copy
	Left     []string        `json:"left,omitempty"`    // what the clean copy does not mend
	Files    []string        `json:"files,omitempty"`
}

// sketchReport is one outline of the drawing with its openings.
type sketchReport struct {
	Name     string         `json:"name"`
	Width    float64        `json:"width_mm"`
	Height   float64        `json:"height_mm"`
	Area     float64        `json:"area_mm2"`
	Circles  int            `json:"circles"`
	Openings int            `json:"other_openings"`
	Findings []diag.Finding `json:"findings"`
}

// fill reads the flags.
func (q *inspection) fill(c *cli.Context) error {
	switch u := c.String("units"); u {
	case "":
	case "in":
		q.options.Unit = unit.Inch
	case "mm":
		q.options.Unit = unit.Millimetre
	default:
		return usage("--units %q; it takes in or mm", u)
	}
	if s := c.String("tolerance"); s != "" {
		mm, err := unit.Length(s, nil, unit.Unset)
		if err != nil || !num.Finite(mm) || mm <= 0 || mm > mostGap {
			return usage("--tolerance %q; it takes a length with its unit, up to %v mm", s, mostGap)
		}
		q.tolerance = mm
	}
	if s := c.String("process"); s != "" {
		p, err := profiles.FindProcess(s)
		if err != nil {
			return usage("--process: %v", err)
		}
		q.process = p
	}
	q.plate = c.String("plate")
	if (q.plate == "") != (q.process.Name == "") {
		return usage("--plate and --process go together: the rules need both")
	}
	return nil
}

// mostGap is the widest gap, mm, that --tolerance may close: a wider one is part
// of a shape sooner than a slip.
const mostGap = 5.0

func (q *inspection) run() error {
	if err := q.read(); err != nil {
		q.report = inspectReport{File: q.path, Errors: q.explain(err), Faults: []diag.Finding{}, Parts: []sketchReport{}}
		if q.json {
			q.printJSON(q.report)
		}
		return nil
	}
	if err := q.measurePlate(); err != nil {
		return err
	}
	q.joined = drawing.Assemble(q.drawing, q.tolerance)
	q.clean = drawing.Mend(q.joined)
	q.report = inspectReport{File: q.path, Version: q.drawing.Version, Unit: q.drawing.Unit.Name,
		UnitFrom: q.drawing.Unit.From.String(), Faults: []diag.Finding{}, Parts: []sketchReport{}}
	q.faults()
	parts := q.parts()
	if q.mend != "" {
		q.writeClean(parts)
	}
	if q.json {
		q.printJSON(q.report)
	}
	return nil
}

func (q *inspection) read() (err error) {
	r := q.in
	name := "stdin"
	if q.path != "-" {
		f, err := os.Open(q.path)
		if err != nil {
			return err
		}
		defer f.Close()
		r, name = f, q.path
	}
	q.drawing, err = drawing.ReadFrom(name, r, q.options)
	return err
}

// system is the unit of what is written for this drawing.
func (q *inspection) system() unit.System {
	switch q.drawing.Unit.Name {
	case "in", "ft", "yd", "mil":
		return unit.Inch
	}
	return unit.Millimetre
}

func (q *inspection) measurePlate() error {
	if q.plate == "" {
		return nil
	}
	mm, err := unit.Length(q.plate, nil, q.system())
	if err != nil || !num.Finite(mm) || mm <= num.Coincident {
		return usage("--plate %q; it takes a thickness like 1/4 in or 6mm", q.plate)
	}
	q.thickness = mm
	return nil
}

// faults tells what is wrong with the drawing itself.
func (q *inspection) faults() {
	for _, f := range q.joined.Faults {
		q.report.Faults = append(q.report.Faults, f.Finding(q.path))
		if f.Severity == diag.Error {
			q.worst(exitFailed)
		}
	}
	if q.json {
		return
	}
	q.print(check.AppendText(nil, q.report.Faults))
	q.result(fmt.Sprintf("%s: %s, coordinates in %s (%s): %s", q.path, q.drawing.Version, q.drawing.Unit.Name,
		q.drawing.Unit.From, counted(len(q.report.Faults), "fault", "faults")))
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// parts makes a blank of each outline that is fit to be cut, and applies the
// rules to it where plate and process are known.
func (q *inspection) parts() (bs []*blank.Blank) {
	for i, r := range q.clean.Regions {
		b := q.blank(i, r)
		bs = append(bs, b)
		box := r.Bounds()
		s := sketchReport{Name: b.Name, Width: box.Width(), Height: box.Height(), Area: r.Area(),
			Circles: len(b.Holes), Openings: len(b.Cutouts), Findings: []diag.Finding{}}
		if q.thickness > 0 {
			s.Findings = append(s.Findings, check.Run(b)...)
		}
		if check.Failed(s.Findings) {
			q.worst(exitFailed)
		}
		q.report.Parts = append(q.report.Parts, s)
		if q.json {
			continue
		}
		q.print(check.AppendText(nil, s.Findings))
		q.result(fmt.Sprintf("%s: %s: %s x %s mm, %s, %s of another shape", q.path, b.Name,
			num.Short(s.Width, 3), num.Short(s.Height, 3), counted(s.Circles, "round hole", "round holes"),
			counted(s.Openings, "opening", "openings")))
		if q.thickness > 0 {
			q.result(cutLine(b))
		}
	}
	if len(bs) == 0 {
		q.worst(exitFailed)
		q.say("%s: error: there is no outline that could be cut; the faults say why", q.path)
	}
	if q.thickness == 0 && !q.json {
		q.result("  not checked: smallest hole, webs and edges: give --plate and --process")
	}
	return bs
}

// blank takes an outline with its openings as a part: whole circles as holes,
// all else as cutouts.
func (q *inspection) blank(i int, r geom.Region) *blank.Blank {
	base := strings.TrimSuffix(filepath.Base(q.path), filepath.Ext(q.path))
	if q.path == "-" {
		base = "drawing"
	}
	if len(q.clean.Regions) > 1 {
		base = fmt.Sprintf("%s-%d", base, i+1)
	}
	pos := q.lineOf(r.Outer)
	b := &blank.Blank{
		Part: &describe.Part{File: q.path, Pos: pos, Units: q.system()},
		Name: base, Quantity: 1, Thickness: q.thickness, Process: q.process, Outline: r.Outer,
	}
	b.Part.Name = describe.Word{Text: base, Pos: pos}
	for _, l := range r.Holes {
		at := q.lineOf(l)
		if c, ok := l.Circle(); ok {
			b.Holes = append(b.Holes, blank.Hole{Name: fmt.Sprintf("circle-%d", len(b.Holes)+1), Pos: at,
				Centre: c.C, Dia: 2 * c.R, CutDia: 2 * c.R})
			continue
		}
		b.Cutouts = append(b.Cutouts, blank.Cutout{Name: fmt.Sprintf("opening-%d", len(b.Cutouts)+1), Pos: at,
			Purpose: blank.CutoutOpening, Loop: l.Reverse(), Fixed: true})
	}
	return b
}

// lineOf is the line of the file that the loop begins with: that of the contour
// that fills the same box.
func (q *inspection) lineOf(l geom.Loop) diag.Pos {
	if q.boxes == nil {
		q.boxes = map[boxKey]int{}
		for i := range q.joined.Contours {
			q.boxes[keyOf(q.joined.Contours[i].Loop)] = q.joined.Contours[i].Line
		}
	}
	if line := q.boxes[keyOf(l)]; line > 0 {
		return diag.Pos{File: q.path, Line: line, Col: 1}
	}
	return diag.Pos{File: q.path}
}

// boxKey is a box in whole micrometres: contours that the mending moved further
// have no line.
type boxKey [4]int64

func keyOf(l geom.Loop) boxKey {
	b := l.Bounds()
	um := func(v float64) int64 { return int64(math.Round(v * 1000)) }
	return boxKey{um(b.Min.X), um(b.Min.Y), um(b.Max.X), um(b.Max.Y)}
}

// writeClean writes the clean copy, one file for each part, and says what was
// changed.
func (q *inspection) writeClean(parts []*blank.Blank) {
	if len(parts) == 0 {
		q.say("%s: nothing to write", q.path)
		return
	}
	var files []file
	for i, b := range parts {
		o := dxf.Options{Unit: q.system(), Marks: q.marksIn(b), Note: "clean copy of " + filepath.Base(q.path)}
		data, err := dxf.Write(b, o)
		if err == nil {
			err = dxf.Verify(data, b, o)
		}
		if err != nil {
			q.explain(err)
			return
		}
		name := filepath.Base(q.mend)
		if len(parts) > 1 {
			ext := filepath.Ext(name)
			name = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ext), i+1, ext)
		}
		files = append(files, file{name, data})
	}
	paths, err := writeAll(filepath.Dir(q.mend), files)
	if err != nil {
		q.worst(exitCannot)
		q.say("%s: error: cannot write: %v", q.path, plainError(err))
		return
	}
	q.report.Files = paths
	q.changes(parts)
	if !q.json {
		for _, p := range paths {
			q.result(p)
		}
	}
}

func (q *inspection) changes(parts []*blank.Blank) {
	for _, c := range q.clean.Changes {
		q.report.Changes = append(q.report.Changes, c.Message)
	}
	for _, f := range q.clean.Left {
		q.report.Left = append(q.report.Left, f.Message)
	}
	for _, b := range parts {
		if at := b.Outline.Bounds().Min; at.Len() > num.Coincident {
			q.report.Changes = append(q.report.Changes, fmt.Sprintf("moved %s so that its lower left, at %s, %s mm, is 0, 0",
				b.Name, num.Short(at.X, 3), num.Short(at.Y, 3)))
		}
	}
	q.report.Changes = append(q.report.Changes, "put every line on a layer by its meaning, in cutting order; texts and other layers are left out")
	for _, c := range q.report.Changes {
		q.say("%s: changed: %s", q.path, c)
	}
	for _, l := range q.report.Left {
		q.say("%s: left as it is: %s", q.path, l)
	}
}

// marksIn are the drawing's marks that begin on the part, as strokes.
func (q *inspection) marksIn(b *blank.Blank) []stroke.Mark {
	marks := []stroke.Mark{} // none, and none to be looked for
	var lines []geom.Loop
	for _, m := range q.clean.Marks {
		if len(m.Segs) > 0 && b.Outline.Contains(m.Segs[0].A) == geom.Inside {
			lines = append(lines, geom.Loop(m.Segs))
		}
	}
	if lines != nil {
		marks = append(marks, stroke.Mark{MarkText: blank.MarkText{Text: "the drawing's own marks"}, Strokes: lines})
	}
	return marks
}
