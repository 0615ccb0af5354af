package layout

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// checkInput finds what no layout can be made from.
func checkInput(pieces []Piece, sheets []Sheet, o Options) error {
	if len(pieces) == 0 {
		return &InputError{Fault: NoPieces}
	}
	if len(sheets) == 0 {
		return &InputError{Fault: NoSheets}
	}
	if err := checkOptions(o); err != nil {
		return err
	}
	if err := checkPieces(pieces, o.Gap); err != nil {
		return err
	}
	for i := range sheets {
		s := &sheets[i]
		if err := s.Region.Validate(); err != nil {
			return &InputError{Fault: SheetInvalid, Name: s.Name, Err: err}
		}
		if len(s.Region.Outer) == 0 {
			return &InputError{Fault: SheetInvalid, Name: s.Name, Err: errEmpty}
		}
		if s.Count < 0 {
			return &InputError{Fault: OptionInvalid, Name: "the count of sheet " + s.Name, Got: float64(s.Count)}
		}
	}
	return nil
}

func checkOptions(o Options) error {
	for _, v := range []struct {
		name string
		v    float64
	}{{"the gap", o.Gap}, {"the margin", o.Margin}, {"the number of iterations", float64(o.Iterations)}, {"the time", o.Time.Seconds()}, {"the number of workers", float64(o.Workers)}} {
		if !(v.v >= 0) || math.IsInf(v.v, 1) {
			return &InputError{Fault: OptionInvalid, Name: v.name, Got: v.v}
		}
	}
	return nil
}

func checkPieces(pieces []Piece, gap float64) error {
	for i := range pieces {
		p := &pieces[i]
		if err := p.Region.Validate(); err != nil {
			return &InputError{Fault: PieceInvalid, Name: p.Name, Err: err}
		}
		if len(p.Region.Outer) == 0 {
			return &InputError{Fault: PieceInvalid, Name: p.Name, Err: errEmpty}
		}
		if p.Quantity < 1 {
			return &InputError{Fault: QuantityInvalid, Name: p.Name, Got: float64(p.Quantity)}
		}
		if !num.Finite(p.Turns...) {
			return &InputError{Fault: TurnsInvalid, Name: p.Name}
		}
		if w := leastWidth(p.Region); gap > w {
			return &InputError{Fault: GapTooLarge, Name: p.Name, Got: gap, Want: w}
		}
	}
	return nil
}

// leastWidth is the smallest distance, mm, between two parallel lines that hold
// the piece between them, by its circumscribed polygon.
func leastWidth(r geom.Region) float64 { return ringWidth(outerPoints(r.Outer, num.LayoutArc)) }

// ringWidth is the smallest distance between two parallel lines that hold the
// points between them: along one side of their hull (H. Freeman, R. Shapira,
// "Determining the minimum-area encasing rectangle for an arbitrary closed
// curve", Communications of the ACM 18 (1975)).
func ringWidth(pts []geom.Point) float64 {
	h := convexHull(pts)
	best := math.Inf(1)
	for i := range h {
		a, b := h[i], h[(i+1)%len(h)]
		d := b.Sub(a)
		l := d.Len()
		if l == 0 {
			continue
		}
		w := 0.0
		for _, p := range h {
			w = math.Max(w, d.Cross(p.Sub(a))/l)
		}
		best = math.Min(best, w)
	}
	return best
}
