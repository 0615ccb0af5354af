package blank

import (
	"errors"
	"fmt"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Compensate gives a copy of a blank whose edges allow for a kerf (mm): the
// outline half a kerf outside, openings half a kerf inside, so that a torch whose
// middle follows them leaves the nominal part. Round holes stay circles about
// their very centres and slots stay slots; corners of the outline that the kerf
// opens stay sharp. Finished sizes (Hole.Dia, Hole.Length) stay as they are: what
// the table cuts changes. Marks stay where they are.
//
// It is an error, which names the opening, where one vanishes, or falls apart
// into several; where the outline closes over itself; for a kerf that is not
// more than nothing; and for a blank that is compensated already.
func Compensate(b *Blank, kerf float64) (*Blank, error) {
	switch {
	case !num.Finite(kerf) || kerf <= 0 || num.Zero(kerf):
		return nil, fmt.Errorf("a kerf of %v mm: wanted more than 0", kerf)
	case b.Kerf != 0:
		return nil, fmt.Errorf("%q is compensated for a kerf already", b.Name)
	}
	t := *b
	t.Kerf = kerf
	if err := t.shrinkHoles(b); err != nil {
		return nil, err
	}
	if err := t.shrinkCutouts(b); err != nil {
		return nil, err
	}
	if err := t.growOutline(b); err != nil {
		return nil, err
	}
	t.moveEdges(b)
	return &t, nil
}

func (t *Blank) shrinkHoles(b *Blank) error {
	t.Holes = slices.Clone(b.Holes)
	for i := range t.Holes {
		h := &t.Holes[i]
		if h.CutDia == 0 {
			continue
		}
		if h.CutDia -= t.Kerf; h.CutDia < 0 || num.Zero(h.CutDia) {
			return fmt.Errorf("%s %q is %s mm across as cut and vanishes at a kerf of %s mm; mark it and drill it: how: drill",
				h.Purpose, h.Name, num.Short(h.CutDia+t.Kerf, 3), num.Short(t.Kerf, 3))
		}
		h.cut = h.at(h.CutDia, nil)
	}
	return nil
}

func (t *Blank) shrinkCutouts(b *Blank) error {
	t.Cutouts = slices.Clone(b.Cutouts)
	for i := range t.Cutouts {
		c := &t.Cutouts[i]
		l, err := shrink(c.Loop, t.Kerf/2)
		if err != nil {
			return fmt.Errorf("%s %q %w at a kerf of %s mm; make it wider, or leave the kerf to the table",
				c.Purpose, c.Name, err, num.Short(t.Kerf, 3))
		}
		c.Loop = l
		c.trace()
	}
	return nil
}

var (
	errVanishes = errors.New("vanishes")
	errSplits   = errors.New("falls apart into several openings")
)

// shrink moves the edge of an opening inwards.
func shrink(l geom.Loop, by float64) (geom.Loop, error) {
	if c, ok := l.Circle(); ok {
		if c.R -= by; c.R < 0 || num.Zero(c.R) {
			return nil, errVanishes
		}
		return geom.CircleLoop(c), nil
	}
	rs, err := geom.Offset([]geom.Region{{Outer: l}}, -by, geom.Mitre)
	switch {
	case err != nil:
		return nil, fmt.Errorf("cannot be offset: %s", reason(err))
	case len(rs) == 0:
		return nil, errVanishes
	case len(rs) > 1 || len(rs[0].Holes) > 0:
		return nil, errSplits
	}
	if l, err = rs[0].Outer.Simplify(0); err != nil {
		return nil, fmt.Errorf("touches itself (%w)", err)
	}
	return l, nil
}

// growOutline moves the outline outwards.
func (t *Blank) growOutline(b *Blank) error {
	by := t.Kerf / 2
	if c, ok := b.Outline.Circle(); ok {
		t.Outline = geom.CircleLoop(geom.Circle{C: c.C, R: c.R + by})
		return nil
	}
	rs, err := geom.Offset([]geom.Region{{Outer: b.Outline}}, by, geom.Mitre)
	if err != nil {
		return fmt.Errorf("the outline cannot be offset for a kerf of %s mm: %s", num.Short(t.Kerf, 3), reason(err))
	}
	if len(rs) != 1 || len(rs[0].Holes) > 0 {
		return fmt.Errorf("the outline closes over itself at a kerf of %s mm: a notch of it is narrower than that at its mouth", num.Short(t.Kerf, 3))
	}
	if t.Outline, err = rs[0].Outer.Simplify(0); err != nil {
		return fmt.Errorf("the outline touches itself at a kerf of %s mm: %w", num.Short(t.Kerf, 3), err)
	}
	if p, ok := lostAt(b.Outline, t.Outline, 2*t.Kerf); ok {
		return fmt.Errorf("a notch of the outline closes at x %s, y %s mm: it is narrower than a kerf of %s mm",
			num.Short(p.X, 2), num.Short(p.Y, 2), num.Short(t.Kerf, 3))
	}
	return nil
}

// lostAt finds a place of an outline from which its offset has gone farther away
// than most: half a kerf is meant, and more is left in an inside corner, the more
// the sharper it is (a kerf at 60 deg, two at 29 deg).
func lostAt(l, offset geom.Loop, most float64) (geom.Point, bool) {
	x := geom.NewIndex(offset)
	for i := range l {
		for _, p := range [2]geom.Point{l[i].A, l[i].Mid()} {
			if h, ok := x.NearestPoint(p, nil); ok && h.D > most {
				return p, true
			}
		}
	}
	return geom.Point{}, false
}

// reason is what the kernel says without its input.
func reason(err error) string {
	var op *geom.OpError
	if errors.As(err, &op) {
		return op.Reason
	}
	return err.Error()
}

// moveEdges finds the edges with a purpose of their own on the compensated
// outline: the segments that lie half a kerf from theirs, and run alike.
func (t *Blank) moveEdges(b *Blank) {
	t.Edges = slices.Clone(b.Edges)
	for i := range t.Edges {
		e := &t.Edges[i]
		if e.Saddle != nil {
			s := *e.Saddle
			s.Circle.R -= t.Kerf / 2
			e.Saddle = &s
			e.Segs, _ = onCircle(t.Outline, s.Circle)
			continue
		}
		var segs []int
		for _, k := range e.Segs {
			segs = append(segs, beside(t.Outline, b.Outline[k], t.Kerf/2)...)
		}
		e.Segs = segs
	}
}

// beside gives the straight segments of an outline that run along a segment at a
// distance to its right.
func beside(l geom.Loop, s geom.Seg, by float64) []int {
	var segs []int
	dir := s.DirA()
	for i := range l {
		if l[i].IsArc() {
			continue
		}
		d := l[i].DirA()
		off := l[i].Mid().Sub(s.A)
		along := off.Dot(dir)
		if d.Dot(dir) > 0 && num.SameAngle(d.Cross(dir), 0) && num.Same(-dir.Cross(off), by) && along > -by && along < s.Length()+by {
			segs = append(segs, i)
		}
	}
	return segs
}
