package dxf

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// A drawing that is open or self-contradictory stops the table at best, so that
// everything is looked at before a line is written. Whether the part is a good
// one is for the checks to say.

// largest is the largest size and radius that a drawing is made for, mm. Far
// beyond any plate, it is where nine decimals come to an end of a float64, and
// where an arc's angles can no longer place its ends to 1e-7.
const largest = 1e7

// checkBlank looks at all that is to be drawn.
func checkBlank(b *blank.Blank) error {
	if err := checkLoop(b.Outline); err != nil {
		return fmt.Errorf("outline: %w", err)
	}
	for i := range b.Holes {
		if err := checkHole(&b.Holes[i]); err != nil {
			return fmt.Errorf("hole %q: %w", b.Holes[i].Name, err)
		}
	}
	for i := range b.Cutouts {
		if err := checkLoop(b.Cutouts[i].Loop); err != nil {
			return fmt.Errorf("cutout %q: %w", b.Cutouts[i].Name, err)
		}
	}
	if b.Formed == nil {
		return nil
	}
	for i := range b.Formed.Flat.Bends {
		d := &b.Formed.Flat.Bends[i]
		if err := checkSeg(&d.Line); err != nil {
			return fmt.Errorf("bend line %q: %w", d.Name, err)
		}
	}
	return nil
}

func checkHole(h *blank.Hole) error {
	if !num.Finite(h.Centre.X, h.Centre.Y, h.Dia, h.CutDia, h.Length, h.Angle) {
		return errors.New("its place or size is not a finite number")
	}
	if num.Zero(h.Dia) || h.Dia < 0 {
		return fmt.Errorf("its diameter is %v mm: wanted more than 0", h.Dia)
	}
	if h.CutDia != 0 && (num.Zero(h.CutDia) || h.CutDia < 0) {
		return fmt.Errorf("its diameter as cut is %v mm: wanted more than 0, or 0 for a punch mark", h.CutDia)
	}
	if h.Length != 0 && h.Length < h.Dia && !num.Same(h.Length, h.Dia) {
		return fmt.Errorf("it is %v mm long and %v mm wide: a slot is no shorter than wide", h.Length, h.Dia)
	}
	return nil
}

// checkSize asks that all that was drawn has a size that can be written.
func checkSize(box geom.Box) error {
	if w, h := box.Width(), box.Height(); w > largest || h > largest {
		return fmt.Errorf("it measures %g x %g mm: a drawing holds up to %g", w, h, float64(largest))
	}
	return nil
}

// checkLoop asks that the loop is closed, that every segment has a length and
// that every arc lies on the circle it carries.
func checkLoop(l geom.Loop) error {
	if len(l) < 2 {
		return fmt.Errorf("it has %d segments: a closed line needs two or more", len(l))
	}
	for i := range l {
		if err := checkSeg(&l[i]); err != nil {
			return fmt.Errorf("segment %d, from %v, %v: %w", i+1, l[i].A.X, l[i].A.Y, err)
		}
	}
	for i := range l {
		next := l[(i+1)%len(l)].A
		if gap := l[i].B.Dist(next); !num.Zero(gap) {
			return fmt.Errorf("open at %v, %v: the next segment starts %v mm away", l[i].B.X, l[i].B.Y, gap)
		}
	}
	return nil
}

func checkSeg(s *geom.Seg) error {
	if !num.Finite(s.A.X, s.A.Y, s.B.X, s.B.Y, s.Bulge) {
		return errors.New("not all of it is a finite number")
	}
	d := s.B.Sub(s.A)
	if num.Zero(d.Len()) {
		return errors.New("it has no length")
	}
	if !s.IsArc() {
		return nil
	}
	if math.Abs(s.Bulge) > 1 {
		return fmt.Errorf("its bulge is %v: an arc over half a turn is to be given in parts", s.Bulge)
	}
	c := s.Circle()
	if c.R == 0 {
		// It carries none: it is drawn on the one that its bulge gives.
		c = geom.BulgeSeg(s.A, s.B, s.Bulge).Circle()
	}
	if c.R > largest {
		return fmt.Errorf("its radius is %g mm: draw a line where it is over %g", c.R, float64(largest))
	}
	mid := s.A.Add(d.Mul(0.5)).Sub(d.Perp().Mul(s.Bulge / 2))
	off := max(offCircle(c, s.A), offCircle(c, s.B), offCircle(c, mid))
	if !num.Zero(off) {
		return fmt.Errorf("it misses the circle it carries (centre %v, %v, radius %v) by %v mm", c.C.X, c.C.Y, c.R, off)
	}
	return nil
}
