package main

import (
	"cmp"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"blankwright/export/dxf"
	"blankwright/export/stroke"
	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/cutlist"
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
			&cli.StringFlag{Name: "mend", Usage: "write a clean copy to this file; - prints it to standard output, and all else as talk"},
			outlineFlag(), formatFlag(), profileFlag(), jsonFlag(),
		},
		Action: func(c *cli.Context) error {
			if c.NArg() != 1 {
				return usage("inspect takes one DRAWING.dxf, got %d", c.NArg())
			}
			q := inspection{talk: t, path: c.Args().First(), json: c.Bool("json"), mend: c.String("mend")}
			if err := q.fill(c); err != nil {
				return err
			}
			if q.mend == "-" {
				return q.toStdout()
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
	profile   *profiles.Set // nil for the embedded tables
	tolerance float64
	options   drawing.Options
	flavour   order // of the clean copy

	drawing *drawing.Drawing
	joined  *drawing.Assembly
	clean   *drawing.Mended
	boxes   map[boxKey]int // lines of the file by what they enclose
	trued   int            // slots that were brought to true ones, and by how much, mm
	by      float64
	text    []byte // of findings
	copy    []byte // the clean copy, where it is to be printed
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
	Slots    int            `json:"slots"`
	Openings int            `json:"other_openings"`
	Findings []diag.Finding `json:"findings"`
	Cutting  *cutReport     `json:"cutting,omitempty"` // with plate and process
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
	var err error
	if q.profile, err = profileAt(c.String("profile")); err != nil {
		return err
	}
	if s := c.String("process"); s != "" {
		p, err := q.profile.FindProcess(s)
		if err != nil {
			return usage("--process: %v", err)
		}
		q.process = p
	}
	if strings.HasSuffix(q.mend, string(filepath.Separator)) {
		return usage("--mend %q is a folder; it takes the name of a file, like %s", q.mend, filepath.Join(q.mend, "clean.dxf"))
	}
	if err := q.flavour.fillFlavour(c); err != nil {
		return err
	}
	q.plate = c.String("plate")
	if (q.plate == "") != (q.process.Name == "") {
		return usage("--plate and --process go together: the rules need both")
	}
	return nil
}

// toStdout prints the clean copy alone as the result.
func (q *inspection) toStdout() error {
	if q.json {
		return usage("--mend - prints the drawing, --json prints JSON: take one")
	}
	to := q.out
	q.out = q.err
	defer func() { q.out = to }()
	err := q.run()
	if q.out = to; q.copy != nil {
		q.print(q.copy)
	}
	return err
}

// mostGap is the widest gap, mm, that --tolerance may close: a wider one is part
// of a shape sooner than a slip.
const mostGap = 5.0

// heapGrowth is how much, in percent, the memory in use may grow before what is no
// longer needed is looked for: half of the usual, since a drawing of a hundred
// thousand lines is to be read on a small machine.
const heapGrowth = 50

func (q *inspection) run() error {
	defer debug.SetGCPercent(debug.SetGCPercent(heapGrowth))
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
	knowLayers(q.drawing, q.profile)
	q.joined = drawing.Assemble(q.drawing, q.tolerance)
	q.clean = drawing.Mend(q.joined)
	q.report = inspectReport{File: q.path, Version: q.drawing.Version, Unit: q.drawing.Unit.Name,
		UnitFrom: q.drawing.Unit.From.String(), Faults: []diag.Finding{}, Parts: []sketchReport{}}
	q.faults()
	parts := q.parts()
	q.joined, q.boxes = nil, nil // of a large drawing they are most of what is held
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
	q.findings(q.report.Faults)
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
func (q *inspection) parts() []checked {
	bs := make([]checked, len(q.clean.Regions))
	for i, r := range q.clean.Regions {
		bs[i].blank = q.blank(i, r)
		q.part(&bs[i], r)
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

// part tells of one outline with its openings.
func (q *inspection) part(c *checked, r geom.Region) {
	b := c.blank
	box := r.Bounds()
	s := sketchReport{Name: b.Name, Width: box.Width(), Height: box.Height(), Area: r.Area(),
		Openings: len(b.Cutouts), Findings: []diag.Finding{}}
	for i := range b.Holes {
		if b.Holes[i].Length != 0 {
			s.Slots++
		} else {
			s.Circles++
		}
	}
	var findings []diag.Finding
	if q.thickness > 0 {
		cuts := make(chan []cutlist.Cut, 1)
		go func() { cuts <- cutlist.Order(b) }()
		findings = check.Run(b)
		c.cuts = <-cuts
	}
	if check.Failed(findings) {
		q.worst(exitFailed)
	}
	if q.json {
		s.Findings = append(s.Findings, findings...)
		if q.thickness > 0 {
			r := newCutReport(b, c.order())
			s.Cutting = &r
		}
		q.report.Parts = append(q.report.Parts, s)
		return
	}
	q.place(findings)
	q.findings(findings)
	q.result(fmt.Sprintf("%s: %s: %s x %s mm, %s, %s, %s of another shape", q.path, b.Name,
		num.Short(s.Width, 3), num.Short(s.Height, 3), counted(s.Circles, "round hole", "round holes"),
		counted(s.Slots, "slot", "slots"), counted(s.Openings, "opening", "openings")))
	if q.thickness > 0 {
		q.result(cutLine(b))
		if l := tightest(b, c.order()); l != "" {
			q.result("  lead-in: " + l)
		}
	}
}

// place adds to what is said of openings where it is, in the drawing's coordinates:
// their names say nothing to a person who has the drawing alone.
func (q *inspection) place(findings []diag.Finding) {
	for i := range findings {
		if f := &findings[i]; len(f.Features) > 0 && !strings.Contains(f.Message, " at x ") {
			f.Message += ", at " + q.drawing.Unit.Place(geom.Point{X: f.Where.X, Y: f.Where.Y})
		}
	}
}

// tightest says in one line where lead-ins have too little room: a drawing may have
// a hundred thousand such places.
func tightest(b *blank.Blank, cuts []cutlist.Cut) string {
	tight, lead := cutlist.Tight(b, cuts)
	if len(tight) == 0 {
		return ""
	}
	least := slices.MinFunc(tight, func(c, d *cutlist.Cut) int { return cmp.Compare(c.Room, d.Room) })
	return fmt.Sprintf("%s less room at the start than the %s mm that %s wants, %s %s the least with %s mm",
		counted(len(tight), "cut has", "cuts have"), num.Short(lead, 2), b.Process.Name, least.Kind, least.Name, num.Rounded(least.Room, 2))
}

// atOnce is how many findings are printed at once: a drawing may have a hundred
// thousand.
const atOnce = 256

func (q *inspection) findings(list []diag.Finding) {
	for len(list) > 0 {
		n := min(atOnce, len(list))
		q.text = check.AppendText(q.text[:0], list[:n])
		q.print(q.text)
		list = list[n:]
	}
}

// blank takes an outline with its openings as a part: whole circles and straight
// slots as holes, all else as cutouts.
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
		Name: base, Quantity: 1, Thickness: q.thickness, Process: q.process, Profile: q.profile, Outline: r.Outer,
	}
	b.Part.Name = describe.Word{Text: base, Pos: pos}
	b.Part.Outline.Pos = pos
	b.Holes = make([]blank.Hole, 0, len(r.Holes))
	for _, l := range r.Holes {
		if h, ok := q.hole(l); ok {
			h.Name = fmt.Sprintf("%s-%d", h.Name, len(b.Holes)+1)
			b.Holes = append(b.Holes, h)
			continue
		}
		b.Cutouts = append(b.Cutouts, blank.Cutout{Name: fmt.Sprintf("opening-%d", len(b.Cutouts)+1), Pos: q.lineOf(l),
			Purpose: blank.CutoutOpening, Loop: l.Reverse(), Fixed: true})
	}
	b.Trace()
	return b
}

// hole takes a whole circle or a straight slot as such.
func (q *inspection) hole(l geom.Loop) (h blank.Hole, ok bool) {
	if c, ok := l.Circle(); ok {
		return blank.Hole{Name: "circle", Pos: q.lineOf(l), Centre: c.C, Dia: 2 * c.R, CutDia: 2 * c.R}, true
	}
	a, b, width, ok := l.Slot(num.TrueSlot)
	if !ok {
		return h, false
	}
	way := b.Sub(a)
	h = blank.Hole{Name: "slot", Pos: q.lineOf(l), Centre: a.Add(way.Mul(0.5)), Dia: width, CutDia: width,
		Length: way.Len() + width, Angle: math.Atan2(way.Y, way.X)}
	if off := geom.Slot(a, b, width).Apart(l); off > num.Coincident {
		q.trued++
		q.by = max(q.by, off)
	}
	return h, true
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
func (q *inspection) writeClean(parts []checked) {
	if len(parts) == 0 {
		q.say("%s: nothing to write", q.path)
		return
	}
	var files []file
	for i := range parts {
		b := parts[i].blank
		o := dxf.Options{Unit: q.system(), Marks: q.marksOn(i), Cuts: parts[i].order(), Note: q.note(),
			Joined: q.flavour.joined, Version: q.flavour.version}
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
	if q.mend == "-" {
		if len(files) > 1 {
			q.worst(exitWrong)
			q.say("%s: error: it holds %d parts; name a file for their copies: --mend OUT.dxf", q.path, len(files))
			return
		}
		q.copy = files[0].data
		q.changes(parts)
		return
	}
	folder := filepath.Dir(q.mend)
	if name := q.itself(folder, files); name != "" {
		q.worst(exitWrong)
		q.say("%s: error: --mend %s would write over the drawing itself; name another file", q.path, name)
		return
	}
	paths, err := writeAll(folder, files)
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

// itself names the file among these that is the drawing, whatever path leads to it;
// "" for none.
func (q *inspection) itself(folder string, files []file) string {
	from, err := os.Stat(q.path)
	if err != nil {
		return "" // standard input
	}
	for _, f := range files {
		path := filepath.Join(folder, f.name)
		if to, err := os.Stat(path); err == nil && os.SameFile(from, to) {
			return path
		}
	}
	return ""
}

// note is for the head of the clean copy: what it is, and that it is not all of the
// drawing where that had errors that are not mended.
func (q *inspection) note() string {
	n := 0
	for _, f := range q.clean.Left {
		if f.Severity == diag.Error {
			n++
		}
	}
	text := "clean copy of " + q.source()
	if n > 0 {
		text += "; not mended: " + counted(n, "error", "errors") + " of the drawing, so that lines may be missing"
	}
	return text
}

func (q *inspection) changes(parts []checked) {
	for _, c := range q.clean.Changes {
		q.report.Changes = append(q.report.Changes, c.Message)
	}
	for _, f := range q.clean.Left {
		q.report.Left = append(q.report.Left, f.Message)
	}
	for i := range parts {
		b := parts[i].blank
		if at := b.Outline.Bounds().Min; at.Len() > num.Coincident {
			q.report.Changes = append(q.report.Changes, fmt.Sprintf("moved %s so that its lower left, at %s, %s mm, is 0, 0",
				b.Name, num.Short(at.X, 3), num.Short(at.Y, 3)))
		}
	}
	q.report.Changes = append(q.report.Changes, q.unitChange()...)
	if q.trued > 0 {
		q.report.Changes = append(q.report.Changes, fmt.Sprintf("made %s true, moving no line by more than %s mm",
			counted(q.trued, "slot", "slots"), num.Rounded(q.by, 4)))
	}
	q.report.Changes = append(q.report.Changes, "put every line on a layer by its meaning, in cutting order; texts and other layers are left out")
	for _, c := range q.report.Changes {
		q.say("%s: changed: %s", q.path, c)
	}
	for _, l := range q.report.Left {
		q.say("%s: left as it is: %s", q.path, l)
	}
}

// unitChange says what the copy says of its unit that the drawing does not.
func (q *inspection) unitChange() []string {
	u := q.drawing.Unit
	to := "mm"
	if q.system() == unit.Inch {
		to = "in"
	}
	switch {
	case u.Name != to:
		return []string{fmt.Sprintf("turned coordinates in %s into %s", u.Name, to)}
	case u.From != drawing.ByTag:
		return []string{fmt.Sprintf("said that coordinates are in %s (%s)", to, u.From)}
	}
	return nil
}

// source names where the drawing comes from, for its copy.
func (q *inspection) source() string {
	if q.path == "-" {
		return "a drawing from standard input"
	}
	return filepath.Base(q.path)
}

// marksOn are the drawing's marks on the metal of a part, as strokes.
func (q *inspection) marksOn(part int) []stroke.Mark {
	marks := []stroke.Mark{} // none, and none to be looked for
	var lines []geom.Loop
	for _, m := range q.clean.On[part] {
		lines = append(lines, geom.Loop(m.Segs))
	}
	if lines != nil {
		marks = append(marks, stroke.Mark{MarkText: blank.MarkText{Text: "the drawing's own marks"}, Strokes: lines})
	}
	return marks
}
