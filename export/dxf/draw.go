package dxf

import (
	"cmp"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// draw puts the blank on the sheet in cutting order: punch marks, round holes
// from small to large, slots from narrow to wide and short to long, cutouts from
// small to large, the outline last. Equals stay in the order of the description.
func (s *sheet) draw(b *blank.Blank, joined bool) error {
	for i := range b.Holes {
		if h := &b.Holes[i]; h.CutDia == 0 {
			s.punch(h)
		}
	}
	s.pick(b.Holes, round)
	for _, i := range s.order {
		h := &b.Holes[i]
		s.circle(holes, geom.Circle{C: h.Centre, R: h.CutDia / 2})
	}
	s.pick(b.Holes, slotted)
	for _, i := range s.order {
		l := b.Holes[i].AsCut()
		if err := checkLoop(l); err != nil {
			return err
		}
		s.loop(slots, l, joined)
	}
	s.pickCutouts(b.Cutouts)
	for _, i := range s.order {
		s.loop(cutouts, b.Cutouts[i].Loop, joined)
	}
	s.loop(outline, b.Outline, joined)
	return checkSize(s.box)
}

// pick puts the holes of one kind that are cut into s.order, small to large.
func (s *sheet) pick(hs []blank.Hole, kind func(*blank.Hole) bool) {
	s.order = s.order[:0]
	for i := range hs {
		if hs[i].CutDia != 0 && kind(&hs[i]) {
			s.order = append(s.order, i)
		}
	}
	slices.SortStableFunc(s.order, func(i, j int) int {
		return cmp.Or(cmp.Compare(hs[i].CutDia, hs[j].CutDia), cmp.Compare(hs[i].Length, hs[j].Length))
	})
}

// pickCutouts puts the cutouts into s.order, small to large.
func (s *sheet) pickCutouts(cs []blank.Cutout) {
	s.order = s.order[:0]
	for i := range cs {
		s.order = append(s.order, i)
	}
	slices.SortStableFunc(s.order, func(i, j int) int { return cmp.Compare(cs[i].Loop.Area(), cs[j].Loop.Area()) })
}

func slotted(h *blank.Hole) bool { return h.Length != 0 && !num.Same(h.Length, h.Dia) }
func round(h *blank.Hole) bool   { return !slotted(h) }

const (
	// crossReach is how far a punch mark's lines go from its centre, mm: long
	// enough to find with a centre punch, and over a hole smaller than the cross
	// no further than the hole's edge, so that the drill takes the mark away.
	crossReach = 2.5
	// crossOpen is the part of the reach that stays open round the centre, so
	// that the punch finds metal there.
	crossOpen = 0.2
)

// reach is how far the hole's punch mark goes, mm.
func reach(h *blank.Hole) float64 { return min(crossReach, h.Dia/2) }

// punch marks the place of a hole that is drilled by hand; of a slot, the
// places of its two end holes.
func (s *sheet) punch(h *blank.Hole) {
	if !slotted(h) {
		s.cross(h.Centre, reach(h))
		return
	}
	half := (h.Length - h.Dia) / 2
	s.cross(h.Centre.Polar(-half, h.Angle), reach(h))
	s.cross(h.Centre.Polar(half, h.Angle), reach(h))
}

// cross draws four short lines towards a centre that stays open.
func (s *sheet) cross(at geom.Point, reach float64) {
	for _, d := range [...]geom.Point{{X: -1}, {X: 1}, {Y: -1}, {Y: 1}} {
		tip := at.Add(d.Mul(reach))
		s.line(marks, tip, at.Add(d.Mul(reach*crossOpen)))
		s.box = s.box.Extend(tip)
	}
}
