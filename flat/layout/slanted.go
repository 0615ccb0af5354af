package layout

import (
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// slantStep is between the angles at which a piece is tried that fits on no sheet
// the usual ways, rad: a quarter of a degree moves the end of a piece of 2 m by
// 9 mm.
const slantStep = math.Pi / 720

// slant gives pieces that may lie at any angle, but are larger than every sheet in
// the turns that are usually tried, the turns at which they do fit: a long piece
// from corner to corner.
func (p *planner) slant() {
	for i := range p.pieces {
		q := &p.pieces[i]
		if len(q.Turns) > 0 || p.takesUsual(q) {
			continue
		}
		if turns := p.slanted(q.Region); len(turns) > 0 {
			p.pieces = slices.Clone(p.pieces)
			p.pieces[i].Turns = turns
		}
	}
}

// takesUsual reports whether a piece fits on a sheet in one of its usual turns.
func (p *planner) takesUsual(q *Piece) bool {
	rings, err := outline(geom.Region{Outer: q.Region.Outer}, Options{}, len(p.pieces))
	if err != nil {
		return true // the search will tell
	}
	return slices.ContainsFunc(turnsOf(q, rings, len(p.pieces)), func(a float64) bool { return p.takes(q.Region, a) })
}

// takes reports whether the box of a turned region fits on a sheet.
func (p *planner) takes(r geom.Region, turn float64) bool {
	b := r.Transform(geom.Rotate(turn)).Bounds()
	return slices.ContainsFunc(p.sheets, func(s Sheet) bool {
		room := s.Region.Bounds().Grow(-p.o.Margin)
		return num.AtLeast(room.Width(), b.Width()) && num.AtLeast(room.Height(), b.Height())
	})
}

// slanted are turns at which a region fits on a sheet: the middle of each range of
// them, and half a turn from it.
func (p *planner) slanted(r geom.Region) (turns []float64) {
	n := int(math.Round(math.Pi / slantStep))
	first, was := 0, false
	for k := 0; k <= n; k++ {
		fits := k < n && p.takes(r, float64(k)*slantStep)
		if fits && !was {
			first = k
		}
		if was && !fits {
			a := float64(first+k-1) / 2 * slantStep
			turns = append(turns, a, a+math.Pi)
		}
		was = fits
	}
	return turns
}
