package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blankwright/export/dxf"
	"blankwright/export/paper"
	"blankwright/export/pdf"
	"blankwright/export/platemap"
	"blankwright/export/stroke"
	"blankwright/export/svg"
	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/cutlist"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/layout"
	"blankwright/flat/num"
)

// laid is one sheet with what lies on it, in cutting order.
type laid struct {
	number int // from 1
	stock  *plateStock
	places []layout.Placement
	left   []geom.Region
	report sheetReport
}

// leastLeft is the least width and height of what goes back to the rack, mm: what
// is smaller is scrap to most shops (common practice).
const leastLeft = 100.0

// render turns the layout of a group into files in memory.
func (l *layouter) render(g *group) error {
	if err := l.prepare(g); err != nil {
		return err
	}
	base := l.freeName(g.base(l.name, l.system()))
	g.report = l.newGroupReport(g, base)
	var pages []*paper.Sheet
	for i := range g.result.Sheets {
		s := l.laid(g, i)
		name := fmt.Sprintf("%s-sheet-%d", base, s.number)
		data, err := l.drawing(g, s)
		if err != nil {
			return err
		}
		l.add(&s.report, name+".dxf", data)
		picture, err := l.picture(g, s)
		if err != nil {
			return err
		}
		pages = append(pages, picture...)
		for k, p := range picture {
			ending := ".svg"
			if k > 0 {
				ending = fmt.Sprintf("-%d.svg", k+1)
			}
			l.add(&s.report, name+ending, svg.Render(p))
		}
		for k, r := range s.left {
			ending := "-leftover"
			if k > 0 {
				ending = fmt.Sprintf("-leftover-%d", k+1)
			}
			if data, err = l.leftover(g, s, r); err != nil { // the layout is as good without
				l.say("warning: what is left of sheet %d cannot be drawn: %v", s.number, err)
				continue
			}
			l.add(&s.report, name+ending+".dxf", data)
		}
		g.report.Sheets = append(g.report.Sheets, s.report)
	}
	if len(pages) > 0 {
		book, lost := pdf.Render(pages)
		if lost != "" {
			l.say("warning: %s.pdf: the letters of a PDF do not have %s; question marks stand for them, the SVG shows them", base, spaced(lost))
		}
		l.files = append(l.files, file{base + ".pdf", book})
		g.report.Picture = base + ".pdf"
	}
	l.report.Groups = append(l.report.Groups, g.report)
	return nil
}

// freeName is a name that no other group of this call has.
func (l *layouter) freeName(base string) string {
	name := base
	for n := 2; slices.ContainsFunc(l.report.Groups, func(r groupReport) bool { return r.Name == name }); n++ {
		name = fmt.Sprintf("%s-%d", base, n)
	}
	return name
}

// add keeps a file of a sheet.
func (l *layouter) add(r *sheetReport, name string, data []byte) {
	l.files = append(l.files, file{name, data})
	r.Files = append(r.Files, name)
}

// prepare works out, once for each kind, what is marked and cut, and moves edges
// for the kerf where that was asked for.
func (l *layouter) prepare(g *group) (err error) {
	for i := range g.kinds {
		k := &g.kinds[i]
		k.drawn = k.blank
		if g.kerf != 0 {
			if k.drawn, err = blank.Compensate(k.blank, g.kerf); err != nil {
				return fmt.Errorf("%s: %w", k.file, err)
			}
		}
		k.cuts = cutlist.Order(k.drawn)
		if l.noMarks {
			continue
		}
		k.marks = stroke.Place(k.blank)
		for _, u := range unmarked(k.marks) {
			l.say("%s: warning: %s (%s): %s; mark it by hand", k.file, k.blank.Name, k.blank.Hand, u)
		}
	}
	l.warnLeadIn(g)
	return nil
}

// warnLeadIn tells where the gap is too narrow for the lead-in of an outline.
func (l *layouter) warnLeadIn(g *group) {
	lead := g.kinds[0].blank.Profile.Cutting(g.process.Name).LeadIn
	if lead > 0 && !num.AtLeast(g.gap, lead+max(g.kerf, g.process.Kerf)) {
		l.say("warning: %s: a gap of %s mm does not take the lead-in of %s mm that %s wants: use a shorter one, or a wider --gap",
			g.words(l.system()), num.Short(g.gap, 2), num.Short(lead, 2), g.process.Name)
	}
}

// laid puts what lies on sheet i into cutting order and works out what is left.
func (l *layouter) laid(g *group, i int) *laid {
	s := &laid{number: i + 1, stock: g.stock[g.result.Sheets[i].Kind]}
	for _, p := range g.result.Placements {
		if p.Sheet == i {
			s.places = append(s.places, p)
		}
	}
	regions := make([]geom.Region, len(s.places))
	for k, p := range s.places {
		regions[k] = g.pieces[p.Piece].Region.Transform(p.Motion)
	}
	order := cutlist.Spread(regions, s.stock.Region.Bounds().Min)
	spread := make([]layout.Placement, len(order))
	for n, k := range order {
		spread[n] = s.places[k]
	}
	s.places = spread
	left, err := layout.Leftover(g.pieces, s.stock.Sheet, s.places, g.gap)
	if err != nil { // the layout is as good without
		l.say("warning: what is left of sheet %d cannot be worked out: %v", s.number, err)
	}
	for _, r := range left {
		if b := r.Bounds(); min(b.Width(), b.Height()) >= leastLeft {
			s.left = append(s.left, r)
		}
	}
	s.report = l.newSheetReport(g, s)
	return s
}

// label names a piece: the number of its kind and of the copy.
func label(p layout.Placement) string { return fmt.Sprintf("%d.%d", p.Piece+1, p.Copy+1) }

// drawing gives the DXF of a sheet, read back before it gets its name.
func (l *layouter) drawing(g *group, s *laid) ([]byte, error) {
	p := &dxf.Plate{
		Name: fmt.Sprintf("%d of %d, %s", s.number, len(g.result.Sheets), s.stock.Name),
		Zero: s.stock.zero(),
		Gap:  g.gap - g.kerf,
	}
	for _, q := range s.places {
		k := &g.kinds[q.Piece]
		p.Parts = append(p.Parts, dxf.Placed{Blank: k.drawn, Label: label(q), Motion: q.Motion, Marks: k.marks, Cuts: k.cuts})
	}
	o := dxf.Options{Joined: l.joined, Version: l.version, NoMarks: l.noMarks, BendEnds: l.bendEnds, Unit: l.system()}
	if g.failed {
		o.Note = failedNote
	}
	if l.inside {
		o.Note = strings.TrimPrefix(o.Note+"\nparts may lie in openings of others: keep the order of the file, do not cut layer by layer", "\n")
	}
	data, err := dxf.WritePlate(p, o)
	if err == nil {
		err = dxf.VerifyPlate(data, p, o)
	}
	return data, err
}

// picture draws a sheet with the numbers of its parts.
func (l *layouter) picture(g *group, s *laid) ([]*paper.Sheet, error) {
	sys := l.system()
	r := &s.report
	box := s.stock.Region.Bounds()
	p := &platemap.Picture{
		Job:   fmt.Sprintf("%s, %s", l.name, g.words(sys)),
		Title: fmt.Sprintf("sheet %d of %d, %s", s.number, len(g.result.Sheets), s.stock.Name),
		Name:  fmt.Sprint(s.number),
		Sheet: s.stock.Region, Left: s.left, Unit: sys, Grain: l.grain != "" || len(g.grained) > 0, Nested: l.inside,
		Facts: []platemap.Fact{
			{Label: "sheet", Words: l.sizes(box.Width(), box.Height())},
			{Label: "process", Words: g.process.Name},
			{Label: "parts", Words: fmt.Sprint(len(s.places))},
			{Label: "used", Words: used(r)},
			{Label: "gap; margin", Words: l.length(g.gap) + "; " + l.length(g.margin)},
			{Label: "turns", Words: l.turnsTold(g)},
			{Label: "to cut", Words: fmt.Sprintf("%s m, %s", num.Rounded(r.CutLength/1000, 2), counted(r.Pierces, "pierce", "pierces"))},
		},
	}
	if r.Seconds > 0 {
		p.Facts = append(p.Facts, platemap.Fact{Label: "on the table", Words: fmt.Sprintf("about %s min", num.Rounded(r.Seconds/60, 1))})
	}
	if g.failed {
		p.Notes = append(p.Notes, failedNote)
	}
	if s.number == 1 {
		for _, u := range g.report.Unplaced {
			p.Notes = append(p.Notes, fmt.Sprintf("not placed: %d of %s (%s): %s", u.Count, u.Part, u.Hand, u.Why))
		}
	}
	for i := range g.kinds {
		k := &g.kinds[i]
		p.Kinds = append(p.Kinds, platemap.Kind{Name: k.blank.Name, Hand: k.blank.Hand.String(), Region: g.pieces[i].Region, Total: g.pieces[i].Quantity})
	}
	for _, q := range s.places {
		p.Parts = append(p.Parts, platemap.Part{Kind: q.Piece, Motion: q.Motion})
	}
	page := l.page
	if page.Width == 0 {
		page = paper.Pages(sys)[0]
	}
	return platemap.Draw(p, page)
}

// used says how much of a sheet is parts, and how much of what is not left of it.
func used(r *sheetReport) string {
	if len(r.Left) == 0 {
		return percent(r.Utilisation)
	}
	return percent(r.Utilisation) + "; " + percent(r.Net) + " net"
}

func percent(v float64) string { return num.Rounded(100*v, 1) + " %" }

// leftover gives the drawing of what goes back to the rack: one that --remnant
// takes.
func (l *layouter) leftover(g *group, s *laid, r geom.Region) ([]byte, error) {
	first := g.kinds[0].blank
	b := &blank.Blank{
		Part: &describe.Part{Units: l.system()}, Name: fmt.Sprintf("leftover of sheet %d, %s", s.number, s.stock.Name), Quantity: 1,
		Thickness: g.thickness, Material: first.Material, Process: g.process, Profile: first.Profile, Outline: r.Outer,
	}
	b.Part.Name = describe.Word{Text: b.Name}
	for i, h := range r.Holes {
		b.Cutouts = append(b.Cutouts, blank.Cutout{Name: fmt.Sprintf("opening-%d", i+1), Purpose: blank.CutoutOpening, Loop: h.Reverse(), Fixed: true})
	}
	b.Trace()
	o := dxf.Options{Unit: l.system(), NoMarks: true, Note: "outline of a leftover for the rack; moved so that its lower left is 0, 0"}
	data, err := dxf.Write(b, o)
	if err == nil {
		err = dxf.Verify(data, b, o)
	}
	return data, err
}

// write puts all files into the folder and tells what came of it.
func (l *layouter) write() {
	csv, err := l.csv()
	if err == nil {
		l.files = append(l.files, file{l.name + ".csv", csv})
		l.report.List, err = l.put()
	}
	if err != nil {
		l.report.Errors = append(l.report.Errors, problemReport{Message: plainError(err).Error()})
		l.worst(exitCannot)
		l.say("blankwright: error: cannot write: %v", plainError(err))
		return
	}
	l.blameUnplaced()
	if !l.json {
		l.tell()
	}
	l.warnOld()
	l.say("caution: %s", check.Cautions()[0])
}

// blameUnplaced lets the exit code tell of parts without a place.
func (l *layouter) blameUnplaced() {
	for i := range l.report.Groups {
		if len(l.report.Groups[i].Unplaced) > 0 {
			l.worst(exitFailed)
		}
	}
}

// sayUnplaced is all there is to tell where nothing found a place.
func (l *layouter) sayUnplaced() {
	l.blameUnplaced()
	for i := range l.report.Groups {
		for _, u := range l.report.Groups[i].Unplaced {
			l.say("not placed: %d of %s (%s): %s", u.Count, u.Part, u.Hand, u.Why)
		}
	}
	l.say("no part found a place; nothing written")
}

// put writes the files; the reports then name them with their folder. It gives the
// path of the list.
func (l *layouter) put() (list string, err error) {
	paths, err := writeAll(l.folder, l.files)
	if err != nil {
		return "", err
	}
	at := func(name string) string { return filepath.Join(l.folder, name) }
	for i := range l.report.Groups {
		g := &l.report.Groups[i]
		if g.Picture != "" {
			g.Picture = at(g.Picture)
		}
		for k := range g.Sheets {
			for n, name := range g.Sheets[k].Files {
				g.Sheets[k].Files[n] = at(name)
			}
		}
	}
	return paths[len(paths)-1], nil
}

// tell prints the results: what lies where, and the files.
func (l *layouter) tell() {
	for i := range l.report.Groups {
		r := &l.report.Groups[i]
		g := l.groups[i]
		l.result(fmt.Sprintf("%s: %s on %s, %s used", g.words(l.system()), counted(r.Placed, "part", "parts"),
			counted(len(r.Sheets), "sheet", "sheets"), percent(r.Utilisation)))
		l.result(fmt.Sprintf("  gap %s mm (%s), margin %s mm, turns: %s", num.Short(g.gap, 2), g.gapFrom, num.Short(g.margin, 2), l.turnsTold(g)))
		for k := range r.Sheets {
			s := &r.Sheets[k]
			line := fmt.Sprintf("  sheet %d, %s: %s; used: %s; to cut: %s m, %s", s.Number, s.Stock, counted(len(s.Pieces), "part", "parts"),
				used(s), num.Rounded(s.CutLength/1000, 2), counted(s.Pierces, "pierce", "pierces"))
			if s.Seconds > 0 {
				line += fmt.Sprintf(", about %s min", num.Rounded(s.Seconds/60, 1))
			}
			for _, left := range s.Left {
				line += "; left: " + l.sizes(left.Width, left.Height)
			}
			l.result(line)
		}
		for _, u := range r.Unplaced {
			l.result(fmt.Sprintf("  not placed: %d of %s (%s): %s", u.Count, u.Part, u.Hand, u.Why))
		}
	}
	for i := range l.report.Groups {
		r := &l.report.Groups[i]
		for k := range r.Sheets {
			for _, f := range r.Sheets[k].Files {
				l.result(f)
			}
		}
		if r.Picture != "" {
			l.result(r.Picture)
		}
	}
	l.result(l.report.List)
}

// warnOld speaks of drawings of sheets that an earlier run of this name left and
// this one did not write.
func (l *layouter) warnOld() {
	old, _ := filepath.Glob(filepath.Join(l.folder, l.name+"-*-sheet-*.dxf"))
	slices.Sort(old)
	for _, path := range old {
		name := filepath.Base(path)
		ours := slices.ContainsFunc(l.files, func(f file) bool { return f.name == name })
		if _, err := os.Stat(path); err == nil && !ours && !strings.HasPrefix(name, tempPrefix) {
			l.say("warning: %s was left by an earlier run and is no part of this layout; do not cut from it", path)
		}
	}
}

// newSheetReport sums up what lies on a sheet.
func (l *layouter) newSheetReport(g *group, s *laid) sheetReport {
	box := s.stock.Region.Bounds()
	r := sheetReport{
		Number: s.number, Stock: s.stock.Name, Remnant: s.stock.remnant, Width: box.Width(), Height: box.Height(),
		Utilisation: g.result.Sheets[s.number-1].Utilisation, Left: []leftReport{},
	}
	for n, q := range s.places {
		k := &g.kinds[q.Piece]
		f := cutlist.Measure(k.blank)
		r.CutLength += f.CutLength
		r.Pierces += f.Pierces
		r.Seconds += f.Seconds
		at := g.pieces[q.Piece].Region.Transform(q.Motion).Bounds().Min
		r.Pieces = append(r.Pieces, pieceReport{Order: n + 1, Label: label(q), Part: k.blank.Name, Revision: k.blank.Revision, Hand: k.blank.Hand.String(),
			File: k.file, X: at.X, Y: at.Y, Turn: turnDegrees(q.Motion)})
	}
	whole := s.stock.Region.Area()
	rest := whole
	for _, left := range s.left {
		b := left.Bounds()
		rest -= left.Area()
		r.Left = append(r.Left, leftReport{b.Width(), b.Height(), left.Area()})
	}
	r.Net = r.Utilisation * whole / rest
	return r
}

// newGroupReport begins the report of a group.
func (l *layouter) newGroupReport(g *group, base string) groupReport {
	r := groupReport{
		Name: base, Material: g.material, Thickness: g.thickness, Process: g.process.Name, Gap: g.gap, GapFrom: g.gapFrom,
		Margin: g.margin, Turns: l.turnsTold(g), Placed: len(g.result.Placements), Utilisation: g.result.Utilisation,
		Sheets: []sheetReport{}, Unplaced: []unplacedReport{},
	}
	for _, u := range g.result.Unplaced {
		b := g.kinds[u.Piece].blank
		r.Unplaced = append(r.Unplaced, unplacedReport{Part: b.Name, Revision: b.Revision, Hand: b.Hand.String(), File: g.kinds[u.Piece].file, Count: u.Count, Why: u.Why})
	}
	return r
}
