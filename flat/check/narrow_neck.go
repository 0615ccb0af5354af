package check

import (
	"math"
	"slices"
	"strconv"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var narrowNeck = &Check{
	ID:       "narrow-neck",
	Severity: diag.Error,
	Title:    "the plate has a neck too narrow to be cut",
	Meaning: "Where two stretches of the outline come close to each other with metal between them, the cut burns " +
		"that neck away, and what hangs on it moves while it is cut. The neck counts where it joins two parts of " +
		"the plate that are both wide enough.",
	Formula: "the outline moved inwards by half the least web stays in one piece; least web = max(k t, least) by the " +
		"process's row, t the plate's thickness. The width told is the shortest chord that parts two pieces",
	Source: "common practice; the row of the process names its figures",
	Limits: "Looks at the outline, saddles and cutouts that break it included. A tongue that is narrow to its very " +
		"end parts nothing and is not looked at, nor is a neck between an opening and the outline (least-web). It " +
		"is about cutting, not about strength.",
	Run: runNarrowNeck,
}

// chord is a shortest line between two stretches of the outline, i before j.
type chord struct {
	i, j int
	geom.Near
}

func runNarrowNeck(c *Context) {
	want := c.leastWeb()
	if want <= 0 || !c.whole() {
		return
	}
	chords := c.chords(want)
	if len(chords) == 0 {
		return
	}
	pieces, err := geom.Offset([]geom.Region{{Outer: c.Blank.Outline}}, -want/2, geom.Round)
	if err != nil {
		c.reportCannot(diag.Finding{Pos: c.part.Outline.Pos, Where: at(chords[0].P)}, "the necks of the plate", err)
		return
	}
	if len(pieces) < 2 {
		return
	}
	slices.SortStableFunc(chords, func(a, b chord) int {
		switch {
		case a.D < b.D:
			return -1
		case a.D > b.D:
			return 1
		}
		return 0
	})
	for i := range chords {
		if parts(c.Blank.Outline, &chords[i], pieces) {
			c.reportNeck(&chords[i], pieces, want)
			return
		}
	}
}

// chords are the places where stretches of the outline that do not follow each
// other come closer than so much. Where each side of such a chord is to hold a disc
// of that diameter, the outline goes at least (pi - 1) diameters round it.
func (c *Context) chords(want float64) []chord {
	l := c.Blank.Outline
	n := len(l)
	if n < 4 {
		return nil
	}
	var buf [64]box
	boxes := buf[:0]
	for i := range l {
		b := l[i].Bounds()
		boxes = append(boxes, box{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y})
	}
	var found []chord
	var along []float64 // to the start of each segment
	look := func(i, j int) {
		if j < i+2 || i == 0 && j == n-1 {
			return
		}
		d := geom.SegSeg(l[i], l[j])
		if d.D <= num.Coincident || !short(d.D, want) || !leadsIn(l, i, d.P, d.Q) || !leadsIn(l, j, d.Q, d.P) {
			return
		}
		if along == nil {
			along = make([]float64, n+1)
			for k := range l {
				along[k+1] = along[k] + l[k].Length()
			}
		}
		path := along[j] + upTo(l[j], d.Q) - along[i] - upTo(l[i], d.P)
		if least := (math.Pi - 1) * want; short(path, least) || short(along[n]-path, least) {
			return
		}
		found = append(found, chord{i, j, d})
	}
	if n <= fewSegments {
		for i := range boxes {
			near := boxes[i].grown(want)
			for j := i + 2; j < n; j++ {
				if near.meets(&boxes[j]) {
					look(i, j)
				}
			}
		}
		return found
	}
	g := newGrid(boxes)
	for i := range boxes {
		g.find(boxes[i].grown(want), func(j int) {
			if len(found) < mostPairs {
				look(i, j)
			}
		})
	}
	return found
}

// leadsIn reports whether the way from a place on a segment to another place
// begins into the plate, which lies left of its outline.
func leadsIn(l geom.Loop, i int, from, to geom.Point) bool {
	d, s := to.Sub(from), &l[i]
	var in, out geom.Point
	switch {
	case from == s.A:
		in, out = l[(i+len(l)-1)%len(l)].DirB(), s.DirA()
	case from == s.B:
		in, out = s.DirB(), l[(i+1)%len(l)].DirA()
	case s.IsArc():
		return (from.Sub(s.Circle().C).Dot(d) < 0) == (s.Bulge > 0)
	default:
		return s.B.Sub(s.A).Cross(d) > 0
	}
	if in.Cross(out) > 0 {
		return in.Cross(d) > 0 && out.Cross(d) > 0
	}
	return in.Cross(d) > 0 || out.Cross(d) > 0
}

// upTo is the length of a segment from its start to a place on it.
func upTo(s geom.Seg, p geom.Point) float64 {
	if !s.IsArc() || p == s.A {
		return p.Dist(s.A)
	}
	k := s.Circle()
	u, v := s.A.Sub(k.C), p.Sub(k.C)
	turn := math.Atan2(u.Cross(v), u.Dot(v)) * math.Copysign(1, s.Bulge)
	if turn < 0 {
		turn += 2 * math.Pi
	}
	return k.R * turn
}

// parts reports whether a chord lies in the plate and has a piece on each side.
func parts(l geom.Loop, k *chord, pieces []geom.Region) bool {
	if l.Contains(k.P.Add(k.Q).Mul(0.5)) != geom.Inside {
		return false
	}
	var side geom.Loop
	edge := func(s geom.Seg) {
		if s.A.Dist(s.B) > num.Coincident {
			side = append(side, s)
		}
	}
	edge(stretch(l[k.i], k.P, l[k.i].B))
	for m := k.i + 1; m < k.j; m++ {
		edge(l[m])
	}
	edge(stretch(l[k.j], l[k.j].A, k.Q))
	edge(geom.Line(k.Q, k.P))
	if len(side) < 2 {
		return false
	}
	in, out := false, false
	for i := range pieces {
		if side.Contains(pieces[i].Outer[0].A) == geom.Outside {
			out = true
		} else {
			in = true
		}
	}
	return in && out
}

// stretch is what of a segment lies between two places on it.
func stretch(s geom.Seg, a, b geom.Point) geom.Seg {
	if !s.IsArc() || a.Dist(b) <= num.Coincident {
		return geom.Line(a, b)
	}
	return geom.Arc(s.Circle(), a, b, s.Bulge > 0)
}

func (c *Context) reportNeck(k *chord, pieces []geom.Region, want float64) {
	g, w := c.gotWant(k.D, want)
	mid := k.P.Add(k.Q).Mul(0.5)
	f := diag.Finding{
		Pos: c.part.Outline.Pos, Where: at(mid), Got: k.D, Want: want, Unit: "mm", Source: c.webSource(),
		Message: "the plate narrows to " + g + " at " + c.place(mid) + ", " + c.processNeeds() + " " + w,
	}
	if n := len(pieces); n > 2 {
		f.Message += "; it falls into " + strconv.Itoa(n) + " pieces there and at other necks"
	}
	l, from, to, ok := c.bridged(pieces, want)
	if !ok {
		f.Fix = "make the neck " + w + " wide"
		c.Report(f)
		return
	}
	c.Report(f, Change{Kind: Redraw, Outline: l.String(),
		Text: "make the neck " + c.len(c.up(want)) + " wide: let the plate reach " + c.len(c.up(want)/2) + " to both sides of the line from " +
			c.place(from) + " to " + c.place(to)})
}

// place writes a place for people.
func (c *Context) place(p geom.Point) string { return "x " + c.len(p.X) + ", y " + c.len(p.Y) }

// bridged is the outline with plate added on the shortest ways between the pieces
// that it falls into, so wide that they hold together; from and to are the ends of
// the first way.
func (c *Context) bridged(pieces []geom.Region, want float64) (l geom.Loop, from, to geom.Point, ok bool) {
	joined := []int{0}
	var more []geom.Region
	for len(joined) < len(pieces) {
		best, next := geom.Near{D: math.Inf(1)}, -1
		for i := range pieces {
			if slices.Contains(joined, i) {
				continue
			}
			for _, k := range joined {
				if d := geom.LoopLoop(pieces[k].Outer, pieces[i].Outer); d.D < best.D {
					best, next = d, i
				}
			}
		}
		if next < 0 || best.D <= num.Coincident {
			return nil, from, to, false
		}
		if len(more) == 0 {
			from, to = best.P, best.Q
		}
		joined = append(joined, next)
		more = append(more, geom.Region{Outer: geom.Slot(best.P, best.Q, c.up(want)+2*c.step())})
	}
	rs, err := geom.Union([]geom.Region{{Outer: c.Blank.Outline}}, more)
	if err != nil || len(rs) != 1 || validOutline(rs[0].Outer) != nil {
		return nil, from, to, false
	}
	left, err := geom.Offset([]geom.Region{{Outer: rs[0].Outer}}, -want/2, geom.Round)
	if err != nil || len(left) != 1 {
		return nil, from, to, false
	}
	return rs[0].Outer, from, to, true
}
