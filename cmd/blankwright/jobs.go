package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"

	"blankwright/export/paper"
	"blankwright/export/pdf"
	"blankwright/export/report"
	"blankwright/export/svg"
	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/describe"
	"blankwright/flat/job"
	"blankwright/flat/num"
	"blankwright/flat/tube"
	"blankwright/flat/unit"
)

// workJob takes the text of a job, and the files that it names, to rendered
// files: those of its parts and tubes, a traveller, a report and the plate list.
func workJob(name string, text []byte, o order) (out outcome) {
	out.path = name
	p, err := makeJob(name, text, o)
	if err != nil {
		out.err = err
		return out
	}
	out.products = []product{p}
	return out
}

func makeJob(name string, text []byte, o order) (p product, err error) {
	d, err := describe.ParseJob(name, text)
	if err != nil {
		return p, err
	}
	set, err := profileFor(d.File, d.Profile, o.profile)
	if err != nil {
		return p, err
	}
	root, err := os.OpenRoot(filepath.Dir(name))
	if err != nil {
		return p, err
	}
	defer root.Close()
	j, err := job.Make(d, func(path string) ([]byte, error) { return below1(root, path) }, set)
	if err != nil {
		return p, err
	}
	if p, err = renderJob(j, o); err != nil {
		return p, fmt.Errorf("%s: %w", name, err)
	}
	return p, nil
}

// below1 reads one ordinary file below a folder, at most a byte more than a
// description may have.
func below1(root *os.Root, path string) ([]byte, error) {
	// Looked at before it is opened: a pipe would wait for its other end.
	if info, err := root.Stat(path); err != nil || !info.Mode().IsRegular() {
		return nil, errors.New("no such file")
	}
	f, err := root.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, describe.MaxSize+1))
}

// jobWork is a job with its rendered parts and tubes.
type jobWork struct {
	j     *job.Job
	parts []checked
	tubes []product
	told  []report.Told
}

func renderJob(j *job.Job, o order) (p product, err error) {
	p = product{kind: "job", name: j.Name, quantity: j.Sets, assumed: report.Assumed(j), unchecked: report.Unchecked(j), base: blank.SafeName(j.Name, 60)}
	if j.Revision != "" {
		p.base += "-rev-" + blank.SafeName(j.Revision, 20)
	}
	k := jobWork{j: j}
	if err := k.render(o); err != nil {
		return p, err
	}
	for _, t := range k.told {
		for _, f := range t.Findings {
			if t.Of != "job" {
				f.Message = t.Of + ": " + f.Message
			}
			p.findings = append(p.findings, f)
		}
	}
	p.plates = k.parts
	p.failed = check.Failed(p.findings)
	for _, c := range k.parts {
		p.failed = p.failed || c.failed
	}
	for _, t := range k.tubes {
		p.failed = p.failed || t.failed
	}
	p.lines, p.used, p.method = k.lines(), k.used(), k.method()
	note := ""
	if p.failed {
		if !o.acceptFailed {
			return p, nil
		}
		note = failedNote
		p.base += failedSuffix
	}
	p.folder = p.base
	if !o.dxf && !o.any() {
		return p, nil
	}
	for _, c := range k.parts {
		p.files = append(p.files, c.files...)
		for _, line := range c.talk {
			p.talk = append(p.talk, c.blank.Name+" ("+c.blank.Hand.String()+"): "+line)
		}
		for _, line := range append(c.unmarked, c.tight...) {
			p.talk = append(p.talk, "warning: "+c.blank.Name+" ("+c.blank.Hand.String()+"): "+line)
		}
	}
	for _, t := range k.tubes {
		p.files = append(p.files, t.files...)
		for _, line := range t.talk {
			p.talk = append(p.talk, t.title()+": "+line)
		}
	}
	if o.any() {
		if err := p.traveller(&k, note, o); err != nil {
			return p, err
		}
	}
	return p, p.twice()
}

// twice reports files of one name: parts or tubes that are called alike.
func (p *product) twice() error {
	seen := map[string]bool{}
	for _, f := range p.files {
		if seen[f.name] {
			return fmt.Errorf("two files would be named %s; give parts and tubes different names", f.name)
		}
		seen[f.name] = true
	}
	return nil
}

func (k *jobWork) render(o order) error {
	k.told = append(k.told, report.Told{Of: "job", Findings: job.Run(k.j)})
	for _, t := range k.j.Tubes {
		for i, h := range t.Hands {
			o.suffix = k.suffix(h.Name, t.Name)
			p, err := renderTube(h, o)
			if err != nil {
				return err
			}
			p.quantity *= k.j.Sets
			k.tubes = append(k.tubes, p)
			if i == 0 {
				k.told = append(k.told, report.Told{Of: "tube " + t.Name, Findings: p.findings})
			}
		}
	}
	for _, t := range k.j.Parts {
		for i, h := range t.Hands {
			o.suffix = k.suffix(h.Name, t.Name)
			c, err := render(h, o.systemFor(h.Part.Units), o)
			if err != nil {
				return err
			}
			k.parts = append(k.parts, c)
			if i == 0 {
				k.told = append(k.told, report.Told{Of: "part " + t.Name, Findings: c.findings})
			}
		}
	}
	return nil
}

// suffix tells the files of one thing of a job from those of another one that has
// the same name in its description: two tubes alike, between other pivots.
func (k *jobWork) suffix(name, inJob string) string {
	n := 0
	for _, t := range k.j.Tubes {
		if t.Hands[0].Name == name {
			n++
		}
	}
	for _, p := range k.j.Parts {
		if p.Hands[0].Name == name {
			n++
		}
	}
	if n < 2 {
		return ""
	}
	return "-" + blank.SafeName(inJob, 60)
}

// lines are the figures that check tells of a job.
func (k *jobWork) lines() []string {
	sys := k.j.Desc.Units
	var out []string
	for i := range k.j.Tubes {
		t := &k.j.Tubes[i]
		out = append(out, fmt.Sprintf("tube %s: pivots %s apart, saw to %s", t.Name, unit.Text(t.Length, sys), unit.Text(t.Hands[0].Blank(), sys)))
		if n := k.j.PerBar(t.Hands[0].Blank()); n > 0 {
			out = append(out, fmt.Sprintf("tube %s: %d pieces from a bar", t.Name, n))
		}
		if s := k.j.Solution; s != nil {
			for c := range s.Cases {
				f := s.Cases[c].Members[i]
				way := "tension"
				if f < 0 {
					way = "compression"
				}
				out = append(out, fmt.Sprintf("case %q: tube %s has %s kN %s", s.Cases[c].Name, t.Name, num.Short(math.Abs(f)/1000, 2), way))
			}
		}
	}
	for _, b := range k.j.Joints() {
		if b.Length > 0 && b.Count > 0 {
			out = append(out, fmt.Sprintf("joint of %s at %s: %d x %s bolt %s long, grip %s", b.Part, b.Joint.Hole, b.Count, b.Joint.Stack.Bolt.Name, b.LengthText(), unit.Text(b.Grip, sys)))
		}
	}
	return out
}

func (k *jobWork) used() (all []check.Utilisation) {
	take := func(of string, us []check.Utilisation) {
		for _, u := range us {
			u.Place = of + ", " + u.Place
			all = append(all, u)
		}
	}
	for _, t := range k.j.Tubes {
		take("tube "+t.Name, tube.Utilisations(t.Hands[0]))
	}
	for _, p := range k.j.Parts {
		take("part "+p.Name, check.Utilisations(p.Hands[0]))
	}
	return all
}

// method names the methods that loads are held to.
func (k *jobWork) method() string {
	words := ""
	take := func(m string) {
		switch {
		case m == "" || m == words:
		case words == "":
			words = m
		default:
			words = "the methods that each file names"
		}
	}
	for _, t := range k.j.Tubes {
		take(t.Hands[0].Method())
	}
	for _, p := range k.j.Parts {
		take(check.Method(p.Hands[0]))
	}
	return words
}

// traveller adds the papers that go through the shop with the job.
func (p *product) traveller(k *jobWork, note string, o order) error {
	sys := o.systemFor(k.j.Desc.Units)
	title := k.j.Name
	if k.j.Revision != "" {
		title += ", rev " + k.j.Revision
	}
	book := paper.Book{Title: title, Unit: sys, Page: o.page}
	if note != "" {
		book.Foot = append(book.Foot, note)
	}
	report.Job(&book, k.j, k.told)
	sheets, err := book.Sheets()
	if err != nil {
		return err
	}
	for i, s := range sheets {
		s.Name = "job " + strconv.Itoa(i+1)
	}
	whole := o // the report wants every drawing on one sheet
	whole.svg, whole.pages = true, false
	page := report.NewHTML(title)
	report.Job(page, k.j, k.told)
	page.Heading("Drawings")
	for _, t := range k.j.Tubes {
		for _, h := range t.Hands {
			more, svgs, err := p.tubeSheets(h, note, whole)
			if err != nil {
				return err
			}
			sheets = append(sheets, more...)
			for n, f := range svgs {
				page.Drawing(f.data, fmt.Sprintf("tube %s, %s, template %d; true scale is on the PDF", t.Name, h.Hand, n+1))
			}
		}
	}
	for i := range k.parts {
		c := &k.parts[i]
		own := o.systemFor(c.blank.Part.Units)
		set, err := c.print(whole.paperOrder, paper.Options{Unit: own, Note: note, Page: o.page, Measured: o.measured, Welds: welds(c.blank, own), Bends: bends(c.blank)})
		if err != nil {
			return err
		}
		for _, s := range set.Pages {
			s.Name = c.blank.Name + ", " + c.blank.Hand.String() + " " + s.Name
		}
		sheets = append(sheets, set.Pages...)
		page.Drawing(svg.Render(set.Full), c.blank.Name+", "+c.blank.Hand.String()+"; true scale is on the PDF")
	}
	if o.pdf {
		data, _ := pdf.Render(sheets)
		p.files = append(p.files, file{p.printed(o) + "-traveller.pdf", data})
	}
	plates, err := plateList(k)
	if err != nil {
		return err
	}
	p.files = append(p.files, file{p.base + "-report.html", page.Bytes()})
	if len(k.parts) > 0 {
		p.files = append(p.files, file{p.base + "-plates.csv", plates})
	}
	return nil
}

// tubeSheets are the templates of a tube once more, for the traveller.
func (p *product) tubeSheets(t *tube.Tube, note string, o order) ([]*paper.Sheet, []file, error) {
	q := product{findings: tube.Run(t), base: tube.FileBase(t, o.systemFor(t.Desc.Units))}
	sheets, svgs, err := q.sheets(t, note, o)
	for _, s := range sheets {
		s.Name = t.Name + ", " + t.Hand.String() + " " + s.Name
	}
	return sheets, svgs, err
}

// plateList is the plates of a job as CSV, for a layout or an order.
func plateList(k *jobWork) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	rows := [][]string{{"part", "hand", "pieces", "material", "thickness_mm", "width_mm", "height_mm", "area_mm2", "mass_kg", "drawing", "description"}}
	for i, p := range k.j.Plates() {
		drawing := ""
		for _, f := range k.parts[i].files {
			if filepath.Ext(f.name) == ".dxf" {
				drawing = f.name
			}
		}
		rows = append(rows, []string{cell(p.Name), p.Hand, strconv.Itoa(p.Count), cell(p.Material), num.Short(p.Thickness, 3), num.Rounded(p.Width, 2),
			num.Rounded(p.Height, 2), num.Rounded(p.Area, 1), num.Rounded(p.Mass, 4), drawing, cell(p.File)})
	}
	if err := w.WriteAll(rows); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
