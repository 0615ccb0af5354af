package drawing

import (
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// metal tells which parts of a mark lie on which region.
type metal struct {
	segs   []geom.Seg // of all outlines and openings
	tree   *boxTree
	inside *insideTest
	region []int32 // by contour
	hole   []bool  // by contour
	search budget
}

func newMetal(rs []geom.Region) *metal {
	t := &metal{}
	var cs []Contour
	for i, r := range rs {
		for k, l := range append([]geom.Loop{r.Outer}, r.Holes...) {
			cs = append(cs, Contour{Loop: l})
			t.segs = append(t.segs, l...)
			t.region, t.hole = append(t.region, int32(i)), append(t.hole, k > 0)
		}
	}
	t.inside = newInsideTest(cs)
	t.tree = newBoxTree(len(t.segs), func(i int) (rect, bool) { return rectOf(&t.segs[i], num.Coincident), true })
	t.search = newBudget(len(t.segs))
	return t
}

func (t *metal) spent() bool { return t.search.spent() || t.inside.search.spent() }

// under is the region on whose metal p lies, -1 for none; an edge is no metal.
func (t *metal) under(p geom.Point) int32 {
	at := int32(-1)
	round := t.inside.round(p, -1)
	for _, c := range round {
		if !t.hole[c] && !slices.ContainsFunc(round, func(h int32) bool { return t.hole[h] && t.region[h] == t.region[c] }) {
			at = t.region[c]
		}
	}
	box := rect{p.X, p.Y, p.X, p.Y}
	t.tree.find(&box, &t.search, func(i int32) {
		if geom.PointSeg(p, t.segs[i]).D <= num.Coincident {
			at = -1
		}
	})
	return at
}

// parts cuts a segment where edges cross it.
func (t *metal) parts(s geom.Seg) []geom.Seg {
	cuts := []cut{{0, s.A}, {1, s.B}}
	box := rectOf(&s, num.Coincident)
	t.tree.find(&box, &t.search, func(i int32) {
		m := geom.Intersect(s, t.segs[i])
		for _, o := range m.Overlaps {
			m.Points = append(m.Points, o.A, o.B)
		}
		for _, p := range m.Points {
			if !atEnd(&s, p, num.Coincident) {
				cuts = append(cuts, cut{share(&s, p), p})
			}
		}
	})
	if len(cuts) == 2 {
		return []geom.Seg{s}
	}
	slices.SortStableFunc(cuts, func(c, d cut) int { return compare(c.t, d.t) })
	var parts []geom.Seg
	for i := 1; i < len(cuts); i++ {
		if !close2(cuts[i-1].p, cuts[i].p, num.Coincident) {
			parts = append(parts, partOf(&s, cuts[i-1], cuts[i]))
		}
	}
	return parts
}

// markRun is a stretch of a mark on the metal of one region, -1 for none.
type markRun struct {
	region int32
	segs   []geom.Seg
}

// runs cuts a mark into stretches that lie on one region, or on none; it is one
// stretch where nothing crosses it.
func (t *metal) runs(mark []geom.Seg) []markRun {
	var out []markRun
	for _, s := range mark {
		for _, p := range t.parts(s) {
			k := t.under(p.Mid())
			if n := len(out); n > 0 && out[n-1].region == k {
				out[n-1].segs = append(out[n-1].segs, p)
				continue
			}
			out = append(out, markRun{k, []geom.Seg{p}})
		}
	}
	return out
}

// keepMarks sorts the marks by the region that they lie on, cut to what is on its
// metal: a table that marks beyond an edge marks its slats, or the next part.
func (m *mender) keepMarks() {
	m.out.On = make([][]Path, len(m.out.Regions))
	if len(m.a.Marks) == 0 || len(m.out.Regions) == 0 {
		return
	}
	t := newMetal(m.out.Regions)
	for _, p := range m.a.Marks {
		if len(p.Segs) == 0 {
			continue
		}
		c, begins := Contour{Line: p.Line}, p.Segs[0].A
		runs := t.runs(p.Segs)
		if t.spent() {
			m.out.On = make([][]Path, len(m.out.Regions))
			m.change(&c, begins, "left out all %d marks: they meet the edges so often that not all of their meetings were looked at", len(m.a.Marks))
			return
		}
		if len(runs) == 1 && runs[0].region >= 0 {
			m.out.On[runs[0].region] = append(m.out.On[runs[0].region], p)
			continue
		}
		kept := 0
		for _, r := range runs {
			if r.region >= 0 && pathLength(r.segs) >= num.TinyEdge {
				m.out.On[r.region] = append(m.out.On[r.region], Path{p.Layer, p.Line, r.segs})
				kept++
			}
		}
		if kept == 0 {
			m.change(&c, begins, "left out a mark that begins at %s: it does not lie on metal", m.d.Unit.Place(begins))
			continue
		}
		m.change(&c, begins, "cut a mark that begins at %s to what lies on metal", m.d.Unit.Place(begins))
	}
}

func pathLength(segs []geom.Seg) float64 {
	n := 0.0
	for i := range segs {
		n += segs[i].Length()
	}
	return n
}
