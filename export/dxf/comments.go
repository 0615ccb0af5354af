package dxf

import (
	"math"
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// commentCode is the group of a comment, which readers pass over.
const commentCode = 999

// remark writes one comment line.
func (f *formatter) remark(words ...string) {
	b := appendCode(f.buf, commentCode)
	for _, w := range words {
		b = appendText(b, w)
	}
	f.keep(append(b, lineEnd...))
}

// remarks writes free text as one line after the label, or as many as it needs.
// Nothing is written for no text.
func (f *formatter) remarks(label, text string) {
	for text != "" {
		var line string
		line, text = wrap(text)
		f.remark(label, line)
	}
}

// size writes a length in drawing units for people.
func (s *sheet) size(mm float64) string {
	if s.per == unit.MM {
		return num.Format(mm/unit.MM, 4)
	}
	return num.Format(mm, 3)
}

// unitName is the drawing unit's name and its short form.
func (s *sheet) unitName() (long, short string) {
	if s.per == unit.MM {
		return "inches", "in"
	}
	return "millimetres", "mm"
}

// comments heads the file with what the person at the table wants to know.
func (s *sheet) comments(b *blank.Blank, o Options) {
	f := &s.out
	long, short := s.unitName()
	f.remark("blankwright")
	f.remarks("part: ", b.Name)
	f.remarks("revision: ", b.Revision)
	f.remark("hand: ", b.Hand.String())
	f.remark("quantity: ", strconv.Itoa(b.Quantity))
	f.remarks("material: ", b.Material.Name)
	if b.Thickness > 0 { // of a drawing from elsewhere it may not be known
		f.remark("thickness: ", num.Short(b.Thickness, 3), " mm (", num.Short(b.Thickness/unit.MM, 4), " in)")
	}
	f.remark("coordinates in ", long, ": table must show ",
		s.size(s.box.Width()), " x ", s.size(s.box.Height()), " ", short)
	s.edges(b)
	f.remark(s.frame.order)
	s.starts()
	s.handwork(b)
	s.bendRemarks(b)
	for _, n := range b.Notes {
		f.remarks("note: ", n)
	}
	for line := range strings.Lines(o.Note) {
		f.remarks("note: ", strings.TrimRight(line, "\r\n"))
	}
}

// edges says whether the drawn edges are those of the finished part.
func (s *sheet) edges(b *blank.Blank) {
	if b.Kerf == 0 {
		s.out.remark("nominal edges: no kerf compensation")
		return
	}
	_, short := s.unitName()
	s.out.remark("edges compensated for a kerf of ", s.size(b.Kerf), " ", short, ": outline ", s.size(b.Kerf/2),
		" outside, openings ", s.size(b.Kerf/2), " inside")
	s.out.remark("switch the table's own kerf compensation off")
}

// starts says where on each circle the cut is best begun, which a CIRCLE itself
// cannot say. Every other line of the drawing begins where its cut does.
func (s *sheet) starts() {
	for i := range s.cuts {
		if c := &s.cuts[i]; c.Round {
			s.out.remarks("start: ", c.Name+" at "+startAngle(c.Angle)+" deg")
		}
	}
}

// handwork lists what the table does not do: holes to drill or ream, texts to
// stamp.
func (s *sheet) handwork(b *blank.Blank) {
	punched := false
	for i := range b.Holes {
		switch h := &b.Holes[i]; {
		case h.CutDia == 0:
			s.drillLine(h)
			punched = true
		case h.Method == blank.Ream:
			s.out.remarks("ream after cutting: ", s.holeText(h, " from "+s.size(h.CutDia)+" to "+s.size(h.Dia)))
		}
	}
	written := false
	for i := range s.texts {
		if m := &s.texts[i]; m.Err == nil {
			s.out.remarks("marked: ", m.Text)
			written = true
		}
	}
	if punched || written {
		s.out.remark("layer ", s.frame.names[marks].name, ": with a marker, a scribe or a pulse, never at cutting power")
	}
	for i := range s.texts {
		if m := &s.texts[i]; m.Err != nil {
			s.out.remarks("mark by hand: ", m.Text)
		}
	}
}

func (s *sheet) drillLine(h *blank.Hole) {
	what := " diameter " + s.size(h.Dia)
	if slotted(h) {
		what = " slot " + s.size(h.Dia) + " x " + s.size(h.Length) + ", both ends marked,"
	}
	s.out.remarks("drill by hand: ", s.holeText(h, what))
	_, short := s.unitName()
	s.out.remark("punch mark there: open cross, ", s.size(2*reach(h)), " ", short, " across")
}

// holeText names a hole, what is done to it and where it is on the drawing.
func (s *sheet) holeText(h *blank.Hole, what string) string {
	_, short := s.unitName()
	at := s.size(h.Centre.X-s.origin.X) + ", " + s.size(h.Centre.Y-s.origin.Y)
	text := h.Name + what + " at " + at + " " + short
	if h.Callout != "" {
		text += ": " + h.Callout
	}
	return text
}

// startAngle writes the direction (rad) of a start in degrees, to a tenth: 0 or
// more, under 360, as rounded.
func startAngle(a float64) string {
	if text := num.Short(a*180/math.Pi, 1); text != "360" {
		return text
	}
	return "0"
}
