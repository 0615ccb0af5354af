package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"blankwright/export/dxf"
	"blankwright/flat/check"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/flat/unit"

	"github.com/urfave/cli/v2"
)

func outFlag() cli.Flag {
	return &cli.StringFlag{Name: "out", Aliases: []string{"o"}, Value: "out", Usage: "folder for the files; - prints the one file to standard output"}
}

func unitsFlag() cli.Flag {
	return &cli.StringFlag{Name: "units", Usage: "units of the drawing: in or mm (default: those of the description)"}
}

func outlineFlag() cli.Flag {
	return &cli.StringFlag{Name: "outline", Value: "loose", Usage: "outline in the DXF: loose (lines and arcs in walking order) or joined (closed polylines with bulges)"}
}

func formatFlag() cli.Flag {
	return &cli.StringFlag{Name: "dxf", Value: "r2000", Usage: "version of the DXF: r2000, or r12 for the oldest tables (which carries no unit but in a comment)"}
}

func noMarksFlag() cli.Flag {
	return &cli.BoolFlag{Name: "no-marks", Usage: "leave the part marks out of the DXF; marks for holes to be drilled stay"}
}

func bendsFlag() cli.Flag {
	return &cli.StringFlag{Name: "bends", Value: "lines", Usage: "bend lines in the DXF: lines, or ends (a mark at either end)"}
}

func kerfFlag() cli.Flag {
	return &cli.StringFlag{Name: "kerf", Usage: "compensate the DXF for the kerf: auto (that of the process) or a length like 1.5mm; without it edges are nominal"}
}

func acceptFlag() cli.Flag {
	return &cli.BoolFlag{Name: "accept-failed", Usage: "write files although a check failed; they say so in name and text"}
}

func jsonFlag() cli.Flag {
	return &cli.BoolFlag{Name: "json", Usage: "print results as JSON"}
}

func makeCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "make",
		Usage:     "check, then write the DXF, and PDF and SVG at true scale",
		ArgsUsage: "FILE...",
		Flags:     []cli.Flag{outFlag(), unitsFlag(), outlineFlag(), bendsFlag(), formatFlag(), noMarksFlag(), kerfFlag(), paperFlag(), acceptFlag(), profileFlag(), jsonFlag()},
		Action: func(c *cli.Context) error {
			return produce(t, c, order{dxf: true, paperOrder: paperOrder{svg: true, pdf: true}})
		},
	}
}

func cutCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "cut",
		Usage:     "check, then write the DXF for the cutting table",
		ArgsUsage: "FILE...",
		Flags:     []cli.Flag{outFlag(), unitsFlag(), outlineFlag(), bendsFlag(), formatFlag(), noMarksFlag(), kerfFlag(), acceptFlag(), profileFlag(), jsonFlag()},
		Action:    func(c *cli.Context) error { return produce(t, c, order{dxf: true}) },
	}
}

func printCommand(t *talk) *cli.Command {
	return &cli.Command{
		Name:      "print",
		Usage:     "check, then write PDF and SVG at true scale for paper",
		ArgsUsage: "FILE...",
		Flags:     []cli.Flag{outFlag(), unitsFlag(), paperFlag(), measuredFlag(), pagesFlag(), asFlag(), acceptFlag(), profileFlag(), jsonFlag()},
		Action: func(c *cli.Context) error {
			return produce(t, c, order{paperOrder: paperOrder{svg: true, pdf: true}})
		},
	}
}

// leastKerf and mostKerf bound what --kerf takes, mm: from a fine laser's to that
// of the thickest flame cut (common practice), so that a slip of the unit is told.
const (
	leastKerf = 0.01
	mostKerf  = 12
)

// fill reads the flags that the writing commands share into the order.
func (o *order) fill(c *cli.Context) error {
	switch u := c.String("units"); u {
	case "":
	case "in":
		o.units = unit.Inch
	case "mm":
		o.units = unit.Millimetre
	default:
		return usage("--units %q; it takes in or mm", u)
	}
	if err := o.fillFlavour(c); err != nil {
		return err
	}
	o.noMarks = c.Bool("no-marks")
	o.acceptFailed = c.Bool("accept-failed")
	if err := o.paperOrder.fill(c); err != nil {
		return err
	}
	if err := o.fillProfile(c.String("profile")); err != nil {
		return err
	}
	return o.fillKerf(c.String("kerf"))
}

// fillFlavour reads which of its forms the DXF is to have.
func (o *order) fillFlavour(c *cli.Context) error {
	switch s := c.String("outline"); s {
	case "", "loose":
	case "joined":
		o.joined = true
	default:
		return usage("--outline %q; it takes loose or joined", s)
	}
	switch s := c.String("dxf"); s {
	case "", "r2000":
	case "r12":
		o.version = dxf.R12
	default:
		return usage("--dxf %q; it takes r2000 or r12", s)
	}
	switch s := c.String("bends"); s {
	case "", "lines":
	case "ends":
		o.bendEnds = true
	default:
		return usage("--bends %q; it takes lines or ends", s)
	}
	return nil
}

// fillKerf reads --kerf.
func (o *order) fillKerf(text string) error {
	switch text {
	case "":
		return nil
	case "auto":
		o.kerfOfProcess = true
		return nil
	}
	mm, err := unit.Length(text, nil, unit.Unset)
	if err != nil {
		return usage("--kerf %q; it takes auto or a length with its unit, like 1.5mm", text)
	}
	if !num.AtLeast(mm, leastKerf) || !num.AtMost(mm, mostKerf) {
		return usage("--kerf %q; wanted %v to %v mm", text, leastKerf, mostKerf)
	}
	o.kerf = mm
	return nil
}

// produce runs the descriptions through to files.
func produce(t *talk, c *cli.Context, o order) error {
	if err := o.fill(c); err != nil {
		return err
	}
	list, err := inputs(c.Args().Slice())
	if err != nil {
		return err
	}
	w := writer{talk: t, folder: c.String("out"), json: c.Bool("json"), taken: map[string]string{}}
	if w.folder == "-" {
		if len(list) != 1 || o.pages || o.dxf && o.any() {
			return usage("--out - prints one drawing; name one description and use cut or print, without --pages")
		}
		o.svg = o.svg && !o.pdf
	}
	t.each(list, o, w.take)
	w.finish()
	return nil
}

// writer takes outcomes in order, writes their files and tells what happened.
type writer struct {
	*talk
	folder string
	json   bool
	taken  map[string]string // file name without ending -> description it came from
	report []fileReport
	made   int // blanks written
	held   int // blanks held back by a failed check
	wrong  int // descriptions that were wrong
	unread int // descriptions that could not be read, or their drawings not written
}

func (w *writer) take(out outcome) {
	rep := fileReport{File: out.path, Parts: []partReport{}}
	defer func() {
		if w.json {
			w.report = append(w.report, rep)
		}
	}()
	if out.err != nil {
		if rep.Errors = w.explain(out.err); isProblems(out.err) {
			w.wrong++
		} else {
			w.unread++
		}
		return
	}
	for _, c := range out.blanks {
		if other, ok := w.taken[c.base]; ok {
			w.wrong++
			w.say("%s: error: its files would be named %s like those of %s; give the parts different names", out.path, c.base, other)
			w.worst(exitWrong)
			return
		}
	}
	w.takeProducts(out, &rep)
	texts := findingsText(out.blanks)
	for i, c := range out.blanks {
		w.taken[c.base] = out.path
		pr := newPartReport(c)
		w.err.Write(texts[i])
		for _, u := range c.unmarked {
			w.say("%s: warning: %s (%s): %s; mark it by hand", out.path, c.blank.Name, c.blank.Hand, u)
		}
		for _, l := range c.tight {
			w.say("%s: warning: %s (%s): %s", out.path, c.blank.Name, c.blank.Hand, l)
		}
		w.put(out.path, c, &pr)
		rep.Parts = append(rep.Parts, pr)
	}
}

// put writes the files of one blank, or says why not.
func (w *writer) put(path string, c checked, pr *partReport) {
	if c.failed {
		w.worst(exitFailed)
	}
	if len(c.files) == 0 {
		w.held++
		w.say("%s: %s (%s): a check failed, nothing written", path, c.blank.Name, c.blank.Hand)
		w.warnOld(c.base)
		return
	}
	if w.folder == "-" {
		if len(c.files) > 0 { // the sheet; a picture of the folded part has no place there
			w.print(c.files[0].data)
			w.made++
		}
		return
	}
	paths, err := writeAll(w.folder, c.files)
	if err != nil {
		w.unread++
		w.say("%s: error: cannot write: %v", path, plainError(err))
		w.worst(exitCannot)
		return
	}
	w.made++
	pr.Files, pr.Notes = paths, c.talk
	if c.failed {
		w.warnOld(strings.TrimSuffix(c.base, failedSuffix))
	}
	if !w.json {
		for _, p := range paths {
			w.result(p)
		}
	}
	for _, line := range c.talk {
		w.say("%s: %s (%s): %s", path, c.blank.Name, c.blank.Hand, line)
	}
}

// warnOld speaks of drawings that an earlier run left for a part that fails
// its checks now.
func (w *writer) warnOld(base string) {
	old, _ := filepath.Glob(filepath.Join(w.folder, base+"-kerf*.dxf"))
	for _, ext := range []string{".dxf", ".pdf", ".svg", foldedSuffix} {
		old = append(old, filepath.Join(w.folder, base+ext))
	}
	for _, p := range old {
		if _, err := os.Stat(p); err == nil {
			w.say("%s: warning: left by an earlier run; the description has changed or fails now, do not cut from it", p)
		}
	}
}

// isProblems reports whether an error tells what is wrong with a description.
func isProblems(err error) bool {
	var ps diag.Problems
	return errors.As(err, &ps)
}

// explain prints why a description could not be worked on and sets the exit
// code.
func (t *talk) explain(err error) (reports []problemReport) {
	var ps diag.Problems
	if errors.As(err, &ps) {
		t.worst(exitWrong)
		t.say("%v", ps)
		for i := range ps {
			reports = append(reports, problemReport{&ps[i].Pos, ps[i].Message, ps[i].Hint})
		}
		return reports
	}
	t.worst(exitCannot)
	err = plainError(err)
	t.say("blankwright: error: %v", err)
	return []problemReport{{Message: err.Error()}}
}

// plainError says in plain words what the operating system refused.
func plainError(err error) error {
	var p *fs.PathError
	if !errors.As(err, &p) {
		return err
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no file or folder %s", p.Path)
	case errors.Is(err, fs.ErrPermission) && p.Op == "open":
		if strings.HasPrefix(filepath.Base(p.Path), tempPrefix) {
			return fmt.Errorf("no permission to write in folder %s", filepath.Dir(p.Path))
		}
		return fmt.Errorf("no permission to read %s", p.Path)
	}
	return fmt.Errorf("%s: %v", p.Path, p.Err)
}

func (w *writer) finish() {
	if w.json {
		w.printJSON(w.report)
	}
	line := fmt.Sprintf("%d drawn, %d held back by a failed check, %d with a wrong description", w.made, w.held, w.wrong)
	if w.unread > 0 {
		line += fmt.Sprintf(", %d not read or not written", w.unread)
	}
	w.say("%s", line)
	if w.made > 0 {
		w.say("caution: %s", check.Cautions()[0])
		w.say("caution: `blankwright check FILE` prints all cautions and what was not checked")
	}
}
