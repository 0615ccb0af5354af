package blank

import (
	"math"
	"slices"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/profiles"
)

// saddle draws the disc that a saddle takes out of the plate: the tube with its
// gap.
func (m *maker) saddle(d *describe.Saddle, p *piece) bool {
	tube, ok := m.size(d.Tube, "the diameter of the tube", d.Pos)
	at, okAt := m.point(d.At, "the centre of the tube", d.Pos)
	gap, okGap := m.set.Limit(profiles.SaddleGapUsual), true
	if d.Gap.Set {
		gap, okGap = m.measure(d.Gap, "the gap of the saddle", d.Pos)
	}
	wall, okWall := m.measure(d.Wall, "the wall of the tube", d.Pos)
	ok = ok && okWall
	if d.Wrap.Set {
		if _, okWrap := m.angle(d.Wrap, "the wrap of the saddle", d.Pos); !okWrap {
			ok = false
		} else if d.Wrap.Rad <= 0 || d.Wrap.Rad >= 2*math.Pi {
			m.problems.Add(anglePos(d.Wrap, d.Pos), "the wrap of the saddle is %s, wanted more than 0 and less than a full turn", degrees(d.Wrap.Rad))
			ok = false
		}
	}
	if !ok || !okAt || !okGap {
		return false
	}
	p.asked = d
	p.saddle = &SaddleFit{Tube: tube, Wall: wall, Gap: gap, Circle: geom.Circle{C: at, R: tube/2 + gap}}
	p.region.Outer = geom.CircleLoop(p.saddle.Circle)
	return true
}

func anglePos(a describe.Angle, pos diag.Pos) diag.Pos {
	if a.Pos.Line != 0 {
		return a.Pos
	}
	return pos
}

// onCircle gives the segments of an outline that curve in along a circle, in
// walking order, and how far they reach round it: from one end to the other, the
// longest stretch of the circle between them left out.
func onCircle(l geom.Loop, c geom.Circle) (segs []int, span float64) {
	type stretch struct{ from, to float64 } // counter-clockwise
	var on []stretch
	for i := range l {
		s := &l[i]
		if k := s.Circle(); s.Bulge >= 0 || !num.Same(k.R, c.R) || !num.Zero(k.C.Dist(c.C)) {
			continue
		}
		d := s.B.Sub(c.C) // an edge that curves in is walked clockwise
		from := math.Atan2(d.Y, d.X)
		on = append(on, stretch{from, from - s.Sweep()})
		segs = append(segs, i)
	}
	if len(on) == 0 {
		return nil, 0
	}
	slices.SortFunc(on, func(a, b stretch) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
	left := on[0].from + 2*math.Pi - on[len(on)-1].to // from the last to the first
	for i := 1; i < len(on); i++ {
		left = max(left, on[i].from-on[i-1].to)
	}
	// Walking order begins behind the longest gap.
	start := slices.IndexFunc(segs, func(i int) bool {
		before := l[(i+len(l)-1)%len(l)]
		return before.Circle() != l[i].Circle()
	})
	if start > 0 {
		segs = append(segs[start:], segs[:start]...)
	}
	return segs, 2*math.Pi - left
}

// saddlesFit measures how far the saddles reach round their tubes. whole is the
// plate before the cutouts were taken out.
func (w *body) saddlesFit(whole geom.Region) bool {
	before := len(w.problems)
	for i := range w.crossing {
		p := &w.crossing[i]
		if p.saddle == nil {
			continue
		}
		segs, wrap := onCircle(w.region.Outer, p.saddle.Circle)
		p.saddle.Wrap = wrap
		want := p.asked.Wrap
		switch {
		case len(segs) == 0:
			w.problems.AddHint(p.pos, "leave one of them out", "nothing is left of the edge of %s: other cutouts take it, or it meets the edge from inside", p.title)
		case want.Set && !num.AtLeast(wrap*180/math.Pi, want.Rad*180/math.Pi):
			w.problems.AddHint(anglePos(want, p.pos), w.moreWrap(whole, i, segs), "%s wraps %s of the tube, wanted %s or more",
				p.title, degrees(wrap), degrees(want.Rad))
		}
	}
	return len(w.problems) == before
}

// moreWrap says what would give a saddle the wrap that it is asked for: the
// places on its circle that the plate has to reach, and where the tube would
// have to be.
func (w *body) moreWrap(whole geom.Region, i int, segs []int) string {
	p := &w.crossing[i]
	c, want := p.saddle.Circle, p.asked.Wrap.Rad
	a, b := w.region.Outer[segs[len(segs)-1]].B.Sub(c.C), w.region.Outer[segs[0]].A.Sub(c.C)
	middle := math.Atan2(a.Y, a.X) + p.saddle.Wrap/2
	if turn := math.Atan2(a.Cross(b), a.Dot(b)); turn < 0 {
		turn += 2 * math.Pi
		middle = math.Atan2(a.Y, a.X) + turn/2
	}
	hint := "let the plate reach " + w.whereText(c.C.Polar(c.R, middle-want/2)) + " and " + w.whereText(c.C.Polar(c.R, middle+want/2))
	// Along a straight edge the ends of the arc lie c.R*cos(wrap/2) from the
	// tube's centre.
	deeper := c.R * (math.Cos(p.saddle.Wrap/2) - math.Cos(want/2))
	moved := *p
	fit := *p.saddle
	fit.Circle.C = c.C.Polar(deeper, middle)
	moved.saddle, moved.region.Outer = &fit, geom.CircleLoop(fit.Circle)
	cuts := slices.Clone(w.crossing)
	cuts[i] = moved
	left, err := geom.Difference([]geom.Region{whole}, regions(cuts))
	if err != nil || len(left) != 1 {
		return hint
	}
	if _, wrap := onCircle(left[0].Outer, fit.Circle); num.AtLeast(wrap*180/math.Pi, want*180/math.Pi) {
		hint += ", or move the tube's centre to " + w.whereText(fit.Circle.C)
	}
	return hint
}

// saddleNote tells how a saddle sits.
func (w *body) saddleNote(p *piece) string {
	s := p.saddle
	text := p.title + ": radius " + w.text(s.Circle.R) + " for a tube of " + w.text(s.Tube) + " with a gap of " + w.text(s.Gap)
	if !p.asked.Gap.Set {
		text += " (taken for paint and ovality: common practice, 0.5 to 1 mm)"
	}
	text += ", wraps " + degrees(s.Wrap)
	switch wrap := s.Wrap * 180 / math.Pi; {
	case !num.AtMost(wrap, 180):
		text += ": more than half the tube, so that it goes on over the tube's end only"
	case !num.AtLeast(wrap, 90) || !num.AtMost(wrap, 150):
		text += " (common practice: 90 to 150 deg)"
	}
	return text
}
