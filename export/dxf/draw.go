package dxf

import (
	"blankwright/flat/blank"
	"blankwright/flat/cutlist"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// draw puts the blank on the sheet in cutting order: punch marks and part marks
// while the plate lies still, bend lines, then all that is cut as cutlist.Order has
// it, each closed line from where its cut begins.
func (s *sheet) draw(b *blank.Blank, o Options) error {
	for i := range b.Holes {
		h := &b.Holes[i]
		if h.CutDia == 0 {
			s.punch(h)
		} else if slotted(h) {
			if err := checkLoop(h.AsCut()); err != nil {
				return err
			}
		}
	}
	for i := range s.texts {
		for _, l := range s.texts[i].Strokes {
			s.open(marks, l)
		}
	}
	s.bendLines(b, geom.Motion{}, o.BendEnds)
	if s.cuts == nil {
		s.cuts = cutlist.Order(b)
	}
	for i := range s.cuts {
		c := &s.cuts[i]
		if c.Round {
			s.circle(layerOf[c.Kind], c.Circle)
		} else {
			s.loop(layerOf[c.Kind], c.Loop, o.Joined)
		}
	}
	return checkSize(s.box)
}

var layerOf = [...]layer{cutlist.Hole: holes, cutlist.Slot: slots, cutlist.Cutout: cutouts, cutlist.Outline: outline}

func slotted(h *blank.Hole) bool { return h.Length != 0 && !num.Same(h.Length, h.Dia) }

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
