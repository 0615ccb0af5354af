package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"blankwright/export/dxf"
	"blankwright/export/paper"
	"blankwright/export/pdf"
	"blankwright/export/svg"
	"blankwright/export/wrap"
	"blankwright/flat/check"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/tube"
	"blankwright/flat/unit"
)

// product is what is made of a tube or a job: findings, and files where the
// findings allow them.
type product struct {
	kind      string // "tube", "job"
	name      string
	hand      string // of a tube
	quantity  int
	findings  []diag.Finding
	used      []check.Utilisation
	method    string
	assumed   []string
	unchecked []string
	lines     []string // more for check to tell
	failed    bool
	folder    string // of its files, below the one asked for; "" for that
	base      string // file name without ending
	files     []file
	talk      []string
	plates    []checked // of a job: its parts, for one set
}

// title names a product in messages.
func (p *product) title() string {
	if p.hand == "" {
		return p.name
	}
	return p.name + " (" + p.hand + ")"
}

// workTube takes the text of a tube's description to rendered files.
func workTube(name string, text []byte, o order) (out outcome) {
	out.path = name
	d, err := describe.ParseTube(name, text)
	if err != nil {
		out.err = err
		return out
	}
	set, err := profileFor(d.File, d.Profile, o.profile)
	if err != nil {
		out.err = err
		return out
	}
	tubes, err := tube.Make(d, set)
	if err != nil {
		out.err = err
		return out
	}
	for _, t := range tubes {
		p, err := renderTube(t, o)
		if err != nil {
			out.err, out.products = fmt.Errorf("%s: %w", name, err), nil
			return out
		}
		out.products = append(out.products, p)
	}
	return out
}

// systemFor is the unit system of a drawing: the one asked for, or the file's.
func (o *order) systemFor(file unit.System) unit.System {
	switch {
	case o.units != unit.Unset:
		return o.units
	case file != unit.Unset:
		return file
	}
	return unit.Millimetre
}

func renderTube(t *tube.Tube, o order) (p product, err error) {
	p = product{kind: "tube", name: t.Name, hand: t.Hand.String(), quantity: t.Quantity, findings: tube.Run(t), used: tube.Utilisations(t),
		method: t.Method(), assumed: tube.Assumptions(t), unchecked: tube.Unchecked(t), base: tube.FileBase(t, o.systemFor(t.Desc.Units)) + o.suffix}
	p.failed = check.Failed(p.findings)
	p.lines = tubeLines(t)
	note := ""
	if p.failed {
		if !o.acceptFailed {
			return p, nil
		}
		note = failedNote
		p.base += failedSuffix
	}
	if o.dxf {
		if err := p.outlines(t, note, o); err != nil {
			return p, err
		}
	}
	if o.any() {
		return p, p.onPaper(t, note, o)
	}
	return p, nil
}

// tubeLines are the lengths that check tells of a tube.
func tubeLines(t *tube.Tube) []string {
	sys := t.Desc.Units
	out := []string{
		"saw to " + unit.Text(t.Blank(), sys) + ", " + unit.Text(t.Cut.Piece.Centres, sys) + " between the working points, " +
			unit.Text(t.Cut.Throats(t.Line), sys) + " between the shortest points",
	}
	for i := range t.Ends {
		if !t.Ends[i].Square {
			out = append(out, t.Ends[i].Word+" end "+wrap.Deduction(t, i))
		}
	}
	if !t.Ends[0].Square && !t.Ends[1].Square {
		out = append(out, strings.ToLower(strings.TrimSuffix(wrap.TurnWords(t), ".")))
	}
	if t.PerBar > 0 {
		out = append(out, fmt.Sprintf("%d pieces from a bar of %s", t.PerBar, unit.Text(t.Desc.Saw.Bar.MM, sys)))
	}
	return out
}

// outlines are the templates' outlines as DXF, for a plotter or a table that
// cuts paper or sheet.
func (p *product) outlines(t *tube.Tube, note string, o order) error {
	for i := range t.Ends {
		if t.Ends[i].Square {
			continue
		}
		b := wrap.Outline(t, i)
		lines := "wrap template of a tube, seen from outside, joint up: of paper or thin sheet, not a part"
		if note != "" {
			lines += "\n" + note
		}
		options := dxf.Options{Joined: o.joined, Version: o.version, NoMarks: true, Unit: o.systemFor(t.Desc.Units), Note: lines}
		data, err := dxf.Write(b, options)
		if err == nil {
			err = dxf.Verify(data, b, options)
		}
		if err != nil {
			return err
		}
		p.files = append(p.files, file{p.base + "-" + t.Ends[i].Word + "-wrap.dxf", data})
	}
	return nil
}

// onPaper draws the templates and the pages of figures: one PDF of all, and each
// template as an SVG.
func (p *product) onPaper(t *tube.Tube, note string, o order) error {
	sheets, svgs, err := p.sheets(t, note, o)
	if err != nil {
		return err
	}
	if o.pdf {
		data, _ := pdf.Render(sheets)
		p.files = append(p.files, file{p.printed(o) + ".pdf", data})
	}
	p.files = append(p.files, svgs...)
	return nil
}

// printed is the name of what is made for one printer.
func (p *product) printed(o order) string {
	if w := o.measured.FileWord(); w != "" {
		return p.base + "-" + w
	}
	return p.base
}

// sheets draws the templates of a tube, tiled where they are long, and its pages
// of figures.
func (p *product) sheets(t *tube.Tube, note string, o order) (sheets []*paper.Sheet, svgs []file, err error) {
	sys := o.systemFor(t.Desc.Units)
	for _, k := range wrap.Of(t) {
		word := t.Ends[k.End].Word
		set, err := p.template(k, word, paper.Options{Unit: sys, Page: o.page, Measured: o.measured, Note: note, Wrap: k.Wrap}, o)
		if err != nil {
			return nil, nil, err
		}
		for _, s := range set.Pages {
			s.Name = strings.TrimSpace(word + " " + s.Name)
		}
		if o.svg {
			svgs = append(svgs, file{p.printed(o) + "-" + word + "-wrap.svg", svg.Render(set.Full)})
		}
		if o.pages && len(set.Pages) > 1 {
			for _, s := range set.Pages {
				svgs = append(svgs, file{p.printed(o) + "-" + strings.ReplaceAll(s.Name, " ", "-") + ".svg", svg.Render(s)})
			}
		}
		sheets = append(sheets, set.Pages...)
	}
	title := t.Name
	if t.Revision != "" {
		title += ", rev " + t.Revision
	}
	b := paper.Book{Title: title + ", " + t.Hand.String(), Unit: sys, Page: o.page}
	if note != "" {
		b.Foot = append(b.Foot, note)
	}
	wrap.Figures(&b, t, p.findings)
	pages, err := b.Sheets()
	if err != nil {
		return nil, nil, err
	}
	for i, s := range pages {
		s.Name = fmt.Sprintf("figures %d", i+1)
	}
	return append(sheets, pages...), svgs, nil
}

// template draws one end: on pages of the paper asked for, or where these would be
// too many on one sheet for a large printer.
func (p *product) template(k wrap.Template, word string, po paper.Options, o order) (*paper.Set, error) {
	if o.pdf || o.pages {
		set, err := paper.Print(k.Blank, failing(p.findings), po)
		if err == nil {
			if n := len(set.Pages); n > 1 {
				p.talk = append(p.talk, fmt.Sprintf("%s end: %d pages of %s; the whole template on one sheet is %s", word, n, set.Paper.Name, set.Full.Page.Name))
			}
			return set, nil
		}
		if !errors.Is(err, paper.ErrTooMany) {
			return nil, err
		}
		p.talk = append(p.talk, "warning: "+word+" end: "+err.Error())
	}
	s, err := paper.Compose(k.Blank, failing(p.findings), po)
	if err != nil {
		return nil, err
	}
	set := &paper.Set{Full: s}
	switch {
	case !o.pdf:
	case pdf.Fits(s):
		set.Pages = []*paper.Sheet{s}
	default:
		p.talk = append(p.talk, "warning: "+word+" end: the PDF has no template, whose one sheet would be too large for one")
	}
	return set, nil
}

// failing are the findings that every template says: those that stop it.
func failing(fs []diag.Finding) (out []diag.Finding) {
	for _, f := range fs {
		if f.Fails() {
			out = append(out, f)
		}
	}
	return out
}

// productReport is what --json prints for a tube or a job.
type productReport struct {
	Kind      string              `json:"kind"`
	Name      string              `json:"name"`
	Hand      string              `json:"hand,omitempty"`
	Quantity  int                 `json:"quantity"`
	Failed    bool                `json:"failed"`
	Findings  []diag.Finding      `json:"findings"`
	Method    string              `json:"method,omitempty"`
	Used      []check.Utilisation `json:"utilisations"`
	Assumed   []string            `json:"assumptions"`
	Unchecked []string            `json:"not_checked"`
	Cautions  []string            `json:"cautions"`
	Told      []string            `json:"figures"`
	Files     []string            `json:"files,omitempty"`
	Notes     []string            `json:"notes,omitempty"`
}

func newProductReport(p product) productReport {
	return productReport{p.kind, p.name, p.hand, p.quantity, p.failed, append([]diag.Finding{}, p.findings...), p.method,
		append([]check.Utilisation{}, p.used...), append([]string{}, p.assumed...), append([]string{}, p.unchecked...),
		check.Cautions(), append([]string{}, p.lines...), nil, p.talk}
}

// unsaid are the findings of a product but those that its twin of the other hand
// has word for word.
func unsaid(ps []product, i int) []diag.Finding {
	var out []diag.Finding
	for _, f := range ps[i].findings {
		if i == 0 || !slices.ContainsFunc(ps[0].findings, func(o diag.Finding) bool {
			return o.Pos == f.Pos && o.Rule == f.Rule && o.Message == f.Message
		}) {
			out = append(out, f)
		}
	}
	return out
}

// takeProducts prints what check has to say of tubes and jobs.
func (k *checker) takeProducts(out outcome, rep *fileReport) {
	for i, p := range out.products {
		k.parts++
		if p.failed {
			k.worst(exitFailed)
		}
		if k.json {
			rep.Products = append(rep.Products, newProductReport(p))
			continue
		}
		k.print(check.AppendText(nil, unsaid(out.products, i)))
		k.result(summaryOf(out.path, p.title(), p.findings))
		for _, l := range p.lines {
			k.result("  " + l)
		}
		if i > 0 {
			continue // what was not checked is the same for both hands
		}
		k.print(usedText(p.used, p.method))
		for _, a := range p.assumed {
			k.result("  assumed: " + a)
		}
		for _, u := range p.unchecked {
			k.result("  not checked: " + u)
		}
	}
}

// takeProducts writes the files of tubes and jobs, or says why not.
func (w *writer) takeProducts(out outcome, rep *fileReport) {
	for i, p := range out.products {
		key := filepath.Join(p.folder, p.base)
		if other, ok := w.taken[key]; ok {
			w.wrong++
			w.say("%s: error: its files would be named %s like those of %s; give them different names", out.path, key, other)
			w.worst(exitWrong)
			return
		}
		w.taken[key] = out.path
		pr := newProductReport(p)
		w.err.Write(check.AppendText(nil, unsaid(out.products, i)))
		w.putProduct(out.path, p, &pr)
		rep.Products = append(rep.Products, pr)
	}
}

func (w *writer) putProduct(path string, p product, pr *productReport) {
	if p.failed {
		w.worst(exitFailed)
	}
	if len(p.files) == 0 && p.failed {
		w.held++
		w.say("%s: %s: a check failed, nothing written", path, p.title())
		return
	}
	if w.folder == "-" {
		if len(p.files) == 1 {
			w.print(p.files[0].data)
			w.made++
			return
		}
		w.say("%s: error: %s makes %d files; name a folder", path, p.title(), len(p.files))
		w.worst(exitWrong)
		return
	}
	paths, err := writeAll(filepath.Join(w.folder, p.folder), p.files)
	if err != nil {
		w.unread++
		w.say("%s: error: cannot write: %v", path, plainError(err))
		w.worst(exitCannot)
		return
	}
	w.made++
	pr.Files = paths
	if !w.json {
		for _, f := range paths {
			w.result(f)
		}
	}
	for _, line := range p.talk {
		w.say("%s: %s: %s", path, p.title(), line)
	}
}
