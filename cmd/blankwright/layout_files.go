package main

import (
	"fmt"
	"strings"

	"blankwright/export/dxf"
	"blankwright/export/paper"
	"blankwright/export/platemap"
	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/layout"
	"blankwright/flat/num"
)

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
			{Label: "turns", Words: l.turnWords},
			{Label: "to cut", Words: fmt.Sprintf("%s m, %s", num.Rounded(r.CutLength/1000, 2), counted(r.Pierces, "pierce", "pierces"))},
		},
	}
	if r.Seconds > 0 {
		p.Facts = append(p.Facts, platemap.Fact{Label: "on the table", Words: fmt.Sprintf("about %s min", num.Rounded(r.Seconds/60, 1))})
	}
	if g.failed {
		p.Notes = append(p.Notes, failedNote)
	}
	if len(g.grained) > 0 {
		p.Notes = append(p.Notes, "laid with the grain, as their descriptions ask: "+strings.Join(g.grained, ", "))
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
