package main

import (
	"fmt"
	"path/filepath"
	"slices"

	"blankwright/export/paper"
	"blankwright/export/pdf"
	"blankwright/export/stroke"
	"blankwright/export/svg"
	"blankwright/flat/blank"
	"blankwright/flat/check"
	"blankwright/flat/cutlist"
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
	l.warnRoom(g)
	return nil
}

// warnRoom tells where the gap is too narrow for the lead-in of an outline, and the
// margin for the cut beside it.
func (l *layouter) warnRoom(g *group) {
	if half := max(g.kerf, g.process.Kerf) / 2; !num.AtLeast(g.margin, half) {
		l.say("warning: %s: with a margin of %s mm the cut runs over the edge of the sheet, for it is %s mm wide beside the part: use a wider --margin where the torch would go out",
			g.words(l.system()), num.Short(g.margin, 2), num.Short(half, 2))
	}
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

// write puts all files into the folder and tells what came of it.
func (l *layouter) write() {
	csv, err := l.csv()
	if err == nil {
		l.files = append(l.files, file{l.name + ".csv", csv})
		l.report.List, err = l.put()
	}
	if err != nil {
		l.cannotWrite(err)
		return
	}
	l.blameUnplaced()
	if !l.json {
		l.tell()
	}
	l.warnOld()
	l.say("caution: %s", check.Cautions()[0])
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
