package dxf

import (
	"strconv"

	"blankwright/flat/bend"
	"blankwright/flat/blank"
	"blankwright/flat/geom"
)

// bendMark is how long the mark at each end of a bend line is, mm (common
// practice): enough to lay a straight edge by, and short of the middle of the
// shortest line.
const bendMark = 6.0

// bendLines draws the bend lines of a formed part, whole or their ends alone.
func (s *sheet) bendLines(b *blank.Blank, ends bool) {
	if b.Formed == nil {
		return
	}
	for i := range b.Formed.Flat.Bends {
		l := b.Formed.Flat.Bends[i].Line
		if long := l.Length(); ends && long > 3*bendMark {
			in := l.DirA().Mul(bendMark)
			s.line(bends, l.A, l.A.Add(in))
			s.line(bends, l.B.Sub(in), l.B)
		} else {
			s.line(bends, l.A, l.B)
		}
	}
}

// bendRemarks tells what is done at each bend line.
func (s *sheet) bendRemarks(b *blank.Blank) {
	if b.Formed == nil {
		return
	}
	_, short := s.unitName()
	s.out.remark("layer BENDS: bend lines, not to be cut; directions as seen from this side")
	for _, st := range b.Plan().Steps {
		k := st.Bend
		at := func(p geom.Point) string { return s.size(p.X-s.origin.X) + ", " + s.size(p.Y-s.origin.Y) }
		s.out.remarks("bend "+strconv.Itoa(st.No)+": ", k.Name+", "+k.Direction()+" "+bend.Degrees(k.Bend.A)+", inside radius "+s.size(k.Bend.R)+
			" "+short+", from "+at(k.Line.A)+" to "+at(k.Line.B)+" "+short)
	}
}
