package dxf

import (
	"strconv"

	"blankwright/flat/bend"
	"blankwright/flat/blank"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
)

// bendMark is how long the mark at each end of a bend line is, mm (common
// practice): enough to lay a straight edge by, and short of the middle of the
// shortest line.
const bendMark = 6.0

// bendLines draws the bend lines of a formed part, whole or their ends alone, where
// a motion takes them.
func (s *sheet) bendLines(b *blank.Blank, m geom.Motion, ends bool) {
	if b.Formed == nil {
		return
	}
	for i := range b.Formed.Flat.Bends {
		l := b.Formed.Flat.Bends[i].Line.Transform(m)
		if long := l.Length(); ends && long > 3*bendMark {
			in := l.DirA().Mul(bendMark)
			s.line(bends, l.A, l.A.Add(in))
			s.line(bends, l.B.Sub(in), l.B)
		} else {
			s.line(bends, l.A, l.B)
		}
	}
}

// bendsHead says what the layer of bend lines is for.
func (s *sheet) bendsHead() {
	s.out.remark("layer ", s.frame.names[bends].name, ": bend lines, not to be cut; directions as seen from this side")
}

// bendRemarks tells what is done at each bend line.
func (s *sheet) bendRemarks(b *blank.Blank) {
	if b.Formed == nil {
		return
	}
	_, short := s.unitName()
	s.bendsHead()
	for _, st := range b.Plan().Steps {
		k := st.Bend
		at := func(p geom.Point) string { return s.size(p.X-s.origin.X) + ", " + s.size(p.Y-s.origin.Y) }
		s.out.remarks("bend "+strconv.Itoa(st.No)+": ", s.bendWords(k)+", from "+at(k.Line.A)+" to "+at(k.Line.B)+" "+short)
	}
}

// bendWords says what is done at a bend line.
func (s *sheet) bendWords(k *fold.Bend) string {
	_, short := s.unitName()
	return k.Name + ", " + k.Direction() + " " + bend.Degrees(k.Bend.A) + ", inside radius " + s.size(k.Bend.R) + " " + short
}

// plateBends tells once for each kind of part what is done at its bend lines.
func (s *sheet) plateBends(parts []Placed) {
	seen := map[*blank.Blank]bool{}
	for i := range parts {
		b := parts[i].Blank
		if b.Formed == nil || seen[b] {
			continue
		}
		if len(seen) == 0 {
			s.bendsHead()
		}
		seen[b] = true
		for _, st := range b.Plan().Steps {
			s.out.remarks("bend "+strconv.Itoa(st.No)+" of "+b.Name+" ("+b.Hand.String()+"): ", s.bendWords(st.Bend))
		}
	}
}
