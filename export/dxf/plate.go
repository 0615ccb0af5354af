package dxf

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"blankwright/export/stroke"
	"blankwright/flat/blank"
	"blankwright/flat/cutlist"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Plate is what is cut from one sheet: many blanks, each in its place.
type Plate struct {
	// Name says for people which sheet it is, Zero what the coordinates count
	// from: lines in the comment at the head of the file.
	Name, Zero string
	Parts      []Placed // in cutting order
	// Gap is what the drawn edges of different parts keep between them at least,
	// mm: VerifyPlate measures it in what it reads back.
	Gap float64
}

// Placed is a blank in its place on a sheet.
type Placed struct {
	Blank *blank.Blank
	// Label names this piece for people, before the names of what is cut: `3`.
	Label string
	// Motion takes the blank's own coordinates to the sheet's. It turns and
	// shifts; it does not mirror, for each hand is a blank of its own.
	Motion geom.Motion
	// Marks are the blank's part marks with their places, Cuts its cuts in their
	// order, both in the blank's own coordinates; nil where nobody has asked
	// stroke.Place and cutlist.Order yet.
	Marks []stroke.Mark
	Cuts  []cutlist.Cut
}

// fill asks for what the caller has not asked for, and looks at what is there.
func (p *Placed) fill(o Options) error {
	if p.Blank == nil {
		return errors.New("there is no blank to draw")
	}
	if p.Motion.Mirrored() {
		return fmt.Errorf("%q is to be mirrored: its other hand is a blank of its own", p.Blank.Name)
	}
	if err := checkBlank(p.Blank); err != nil {
		return fmt.Errorf("%q: %w", p.Blank.Name, err)
	}
	if p.Marks == nil && !o.NoMarks {
		p.Marks = stroke.Place(p.Blank)
	}
	if o.NoMarks {
		p.Marks = nil
	}
	if p.Cuts == nil {
		p.Cuts = cutlist.Order(p.Blank)
	}
	return nil
}

// filled is the plate's parts with all that is drawn of them.
func (p *Plate) filled(o Options) ([]Placed, error) {
	if p == nil || len(p.Parts) == 0 {
		return nil, errors.New("there is no part on the sheet to draw")
	}
	parts := append([]Placed(nil), p.Parts...)
	for i := range parts {
		if err := parts[i].fill(o); err != nil {
			return nil, err
		}
	}
	return parts, nil
}

// WritePlate gives the bytes of the drawing of a sheet with its parts: the marks
// and bend lines of all parts first, while the plate lies still, then one whole part after the
// other in their order, each from its holes to its outline. Coordinates are the
// sheet's. Layers are those of the first part's tables; Marks, Cuts and the like
// of the options are those of the parts. Errors are those of Write.
func WritePlate(p *Plate, o Options) ([]byte, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	parts, err := p.filled(o)
	if err != nil {
		return nil, fmt.Errorf("drawing of a sheet: %w", err)
	}
	s := sheets.Get().(*sheet)
	defer s.putAway()
	s.start(frameOf(o.Version, layersOf(parts[0].Blank).used(bent(parts))), o.Unit, geom.Point{})
	for i := range parts {
		s.placedMarks(&parts[i])
	}
	for i := range parts {
		s.bendLines(parts[i].Blank, parts[i].Motion, o.BendEnds)
	}
	for i := range parts {
		if err := s.placedCuts(&parts[i], o.Joined); err != nil {
			return nil, fmt.Errorf("drawing of %s: %w", p.Name, err)
		}
	}
	if err := checkSize(s.box); err != nil {
		return nil, fmt.Errorf("drawing of %s: %w", p.Name, err)
	}
	s.finish(o, func() { s.plateComments(p, parts, o) })
	if s.out.err != nil {
		return nil, fmt.Errorf("drawing of %s: %w", p.Name, s.out.err)
	}
	return bytes.Clone(s.out.buf), nil
}

// bent tells whether one of the parts is.
func bent(parts []Placed) bool {
	return slices.ContainsFunc(parts, func(p Placed) bool { return p.Blank.Formed != nil })
}

// placedMarks draws what is marked on one part.
func (s *sheet) placedMarks(p *Placed) {
	turn := turnOf(p.Motion)
	for i := range p.Blank.Holes {
		if h := p.Blank.Holes[i]; h.CutDia == 0 {
			h.Centre = p.Motion.Apply(h.Centre)
			h.Angle += turn
			s.punch(&h)
		}
	}
	for i := range p.Marks {
		for _, l := range p.Marks[i].Strokes {
			l = l.Transform(p.Motion)
			s.box = s.box.Union(l.Bounds())
			s.open(marks, l)
		}
	}
}

// placedCuts draws what is cut of one part.
func (s *sheet) placedCuts(p *Placed, joined bool) error {
	for i := range p.Cuts {
		c := &p.Cuts[i]
		if c.Round {
			s.circle(layerOf[c.Kind], c.Circle.Transform(p.Motion))
			continue
		}
		l := c.Loop.Transform(p.Motion)
		if err := checkLoop(l); err != nil {
			return fmt.Errorf("%s %q of %q: %w", c.Kind, c.Name, p.Blank.Name, err)
		}
		s.loop(layerOf[c.Kind], l, joined)
	}
	return nil
}

// turnOf is the angle that a motion turns by, rad.
func turnOf(m geom.Motion) float64 {
	x := m.Dir(geom.Point{X: 1})
	return math.Atan2(x.Y, x.X)
}

// plateComments heads the file of a sheet.
func (s *sheet) plateComments(p *Plate, parts []Placed, o Options) {
	f := &s.out
	long, short := s.unitName()
	b := parts[0].Blank
	f.remark("blankwright")
	f.remarks("sheet: ", p.Name)
	f.remarks("material: ", b.Material.Name)
	if b.Thickness > 0 {
		f.remark("thickness: ", num.Short(b.Thickness, 3), " mm (", num.Short(b.Thickness/unit.MM, 4), " in)")
	}
	f.remark("parts: ", strconv.Itoa(len(parts)))
	f.remark("coordinates in ", long, ": table must show ",
		s.size(s.box.Width()), " x ", s.size(s.box.Height()), " ", short)
	f.remarks("zero: ", p.Zero)
	s.edges(b)
	f.remark("cut in the order of the file: all marks, then one whole part after the other, inside before outside")
	for i := range parts {
		s.partLine(&parts[i])
	}
	for i := range parts {
		for k := range parts[i].Cuts {
			if c := &parts[i].Cuts[k]; c.Round {
				s.out.remarks("start: ", parts[i].Label+" "+c.Name+" at "+num.Short(degrees(p.Parts[i].Motion.Dir(c.Start.Sub(c.Circle.C))), 1)+" deg")
			}
		}
	}
	s.plateHandwork(parts)
	s.plateBends(parts)
	for line := range bytes.Lines([]byte(o.Note)) {
		f.remarks("note: ", string(bytes.TrimRight(line, "\r\n")))
	}
}

// partLine says which part lies where.
func (s *sheet) partLine(p *Placed) {
	_, short := s.unitName()
	at := p.Blank.Outline.Transform(p.Motion).Bounds().Min
	text := p.Label + ": " + p.Blank.Name
	if p.Blank.Revision != "" {
		text += " rev " + p.Blank.Revision
	}
	text += " (" + p.Blank.Hand.String() + "), lower left at " + s.size(at.X) + ", " + s.size(at.Y) + " " + short +
		", turned " + num.Short(degrees(p.Motion.Dir(geom.Point{X: 1})), 4) + " deg"
	s.out.remarks("part ", text)
}

// plateHandwork says once for each kind of part what the table does not do.
func (s *sheet) plateHandwork(parts []Placed) {
	seen := map[*blank.Blank]bool{}
	marked := false
	for i := range parts {
		p := &parts[i]
		if seen[p.Blank] {
			continue
		}
		seen[p.Blank] = true
		of := " of " + p.Blank.Name + " (" + p.Blank.Hand.String() + ")"
		for k := range p.Blank.Holes {
			switch h := &p.Blank.Holes[k]; {
			case h.CutDia == 0:
				marked = true
				s.out.remarks("drill by hand: ", h.Name+of+", diameter "+s.size(h.Dia))
			case h.Method == blank.Ream:
				s.out.remarks("ream after cutting: ", h.Name+of+", from "+s.size(h.CutDia)+" to "+s.size(h.Dia))
			}
		}
		for k := range p.Marks {
			if m := &p.Marks[k]; m.Err != nil {
				s.out.remarks("mark by hand: ", m.Text+of)
			} else {
				marked = true
			}
		}
	}
	if marked {
		s.out.remark("layer ", s.frame.names[marks].name, ": with a marker, a scribe or a pulse, never at cutting power")
	}
}

// VerifyPlate reads the drawing of a sheet back and holds it against the parts as
// Verify does against one: every line, arc and circle in its place, in order, and
// nothing besides. Then it measures, between all lines that are cut of different
// parts, that they keep the plate's gap.
func VerifyPlate(data []byte, p *Plate, o Options) error {
	if err := o.check(); err != nil {
		return err
	}
	parts, err := p.filled(o)
	if err != nil {
		return fmt.Errorf("drawing of a sheet: %w", err)
	}
	v := verifiers.Get().(*verifier)
	defer v.putAway()
	v.start(data, layersOf(parts[0].Blank), o)
	if err = v.read(); err == nil {
		err = v.comparePlate(p.Gap, parts)
	}
	if err != nil {
		return fmt.Errorf("drawing of %s, read back: %w", p.Name, err)
	}
	return nil
}

// comparePlate holds what was read against the parts.
func (v *verifier) comparePlate(gap float64, parts []Placed) error {
	if err := v.compareHead(); err != nil {
		return err
	}
	wantMarks, at := 0, 0
	var all []cutlist.Cut
	var lines []geom.Seg
	var owner []int
	for i := range parts {
		p := &parts[i]
		wantMarks += punchLines(p.Blank) + markLines(p.Marks)
		if err := v.complete(p.Blank, p.Cuts); err != nil {
			return fmt.Errorf("part %s: %w", p.Label, err)
		}
		v.motion = p.Motion
		lines = v.appendBends(lines, p.Blank)
		for k := range p.Cuts {
			if at == len(v.contours) {
				return fmt.Errorf("%d closed lines are too few: it ends before part %s is whole", at, p.Label)
			}
			if err := v.compareCut(p.Blank, &p.Cuts[k], &v.contours[at]); err != nil {
				return fmt.Errorf("part %s: %s %q: %w", p.Label, p.Cuts[k].Kind, p.Cuts[k].Name, err)
			}
			owner = append(owner, i)
			at++
		}
		all = append(all, p.Cuts...)
	}
	if at != len(v.contours) {
		return fmt.Errorf("%d closed lines, wanted %d", len(v.contours), at)
	}
	if v.marks != wantMarks {
		return fmt.Errorf("%d lines on %s, wanted %d", v.marks, v.layers[marks].name, wantMarks)
	}
	if err := v.compareBends(lines); err != nil {
		return err
	}
	if err := v.noDoubles(all); err != nil {
		return err
	}
	return v.apart(gap, parts, owner)
}

// apart measures the gap between the lines of different parts.
func (v *verifier) apart(gap float64, parts []Placed, owner []int) error {
	loops := make([]geom.Loop, len(v.contours))
	for i := range loops {
		loops[i] = v.loop(i)
	}
	for _, q := range geom.NewIndex(loops...).Pairs(gap) {
		if owner[q.I] != owner[q.J] && q.D < gap-2*readTol {
			return fmt.Errorf("parts %s and %s come within %s mm of each other at %s, %s, wanted %s", parts[owner[q.I]].Label, parts[owner[q.J]].Label,
				num.Short(q.D, 4), num.Short(q.P.X, 3), num.Short(q.P.Y, 3), num.Short(gap, 4))
		}
	}
	return nil
}
