package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// place and length write for people in the unit of the drawing.
func (a *assembler) place(p geom.Point) string   { return a.d.Unit.Place(p) }
func (a *assembler) length(mm float64) string    { return a.d.Unit.Length(mm) }
func (a *assembler) layerName(s *Shape) string   { return a.d.Layers[s.Layer].Name }
func (a *assembler) unlisted(k Kind) (full bool) { return a.faults.full(k) }

// changesEach is how many changes are told of for one fault that may be listed.
const changesEach = 10

func (a *assembler) change(c Change) {
	if a.out.untold > 0 || len(a.out.changes) >= changesEach*a.faults.limit {
		a.out.untold++
		return
	}
	a.out.changes = append(a.out.changes, c)
}

// fault begins a fault of a shape.
func (a *assembler) fault(k Kind, sev diag.Severity, s *Shape, at geom.Point) Fault {
	f := newFault(k, sev, at)
	f.Layer, f.Line = a.layerName(s), s.Line
	return f
}

// add takes a fault whose words, made only where it is listed, are message and
// fix.
func (a *assembler) add(f Fault, fix, message string, args ...any) {
	if !a.unlisted(f.Kind) {
		f.Message, f.Fix = fmt.Sprintf(message, args...), fix
	}
	a.faults.add(f)
}

func (a *assembler) tellNoLength(s *Shape, at geom.Point) {
	f := a.fault(NoLength, diag.Warning, s, at)
	f.Mends = true
	what := s.Kind
	if len(s.Segs) > 1 {
		what = "segment of " + s.Kind
	}
	a.add(f, "delete it", "%s of no length at %s", what, a.place(at))
	a.change(Change{at, s.Line, fmt.Sprintf("dropped a %s of no length at %s", what, a.place(at))})
}

// tellDoubles reports lines drawn twice; segments of two polylines that follow
// each other are told of together.
func (a *assembler) tellDoubles() {
	slices.SortStableFunc(a.doubles, func(d, e double) int {
		return cmp.Or(cmp.Compare(d.loser, e.loser), cmp.Compare(d.b0, e.b0))
	})
	for i := 0; i < len(a.doubles); {
		d := a.doubles[i]
		n := 1
		for i+n < len(a.doubles) && a.goesOn(a.doubles[i+n-1], a.doubles[i+n]) {
			n++
		}
		run := a.doubles[i : i+n]
		i += n
		length, off := 0.0, 0.0
		for _, r := range run {
			length += (r.b1 - r.b0) * a.pieces[r.loser].seg.Length()
			off = max(off, r.off)
		}
		kind, how := Doubled, "drawn twice"
		if off > num.Coincident {
			kind, how = NearDouble, fmt.Sprintf("drawn twice, %s apart", a.length(off))
		}
		loser, keeper := a.shapeOf(d.loser), a.shapeOf(d.keeper)
		if loser.whole() && keeper.whole() && n == 2 {
			a.tellDoubledCircle(kind, how, loser, keeper, off)
			continue
		}
		s, t := &a.pieces[d.loser].seg, &a.pieces[run[n-1].loser].seg
		f := a.fault(kind, diag.Error, loser, s.At(d.b0))
		f.To, f.Size, f.Mends = t.At(run[n-1].b1), length, true
		if kind == NearDouble {
			f.Size = off
		}
		stretch := fmt.Sprintf("from %s to %s", a.place(f.At), a.place(f.To))
		if close2(f.At, f.To, num.Coincident) {
			stretch = fmt.Sprintf("all round from %s", a.place(f.At))
		}
		a.add(f, "delete one of them", "%s %s %s, over %s (lines %d and %d of the file)", loser.Kind, how,
			stretch, a.length(length), keeper.Line, loser.Line)
		a.change(Change{f.At, loser.Line, fmt.Sprintf("dropped the second of two lines %s %s", how, stretch)})
	}
}

// goesOn reports whether two doubled stretches follow each other along the same
// two shapes.
func (a *assembler) goesOn(d, e double) bool {
	p, q := &a.pieces[d.loser], &a.pieces[e.loser]
	return p.shape == q.shape && a.pieces[d.keeper].shape == a.pieces[e.keeper].shape && e.loser == d.loser+1 &&
		close2(p.seg.B, q.seg.A, num.Coincident) && d.b1 == 1 && e.b0 == 0
}

func (a *assembler) tellDoubledCircle(kind Kind, how string, loser, keeper *Shape, off float64) {
	c := loser.Segs[0].Circle()
	f := a.fault(kind, diag.Error, loser, c.C)
	f.Size, f.Mends = 2*c.R, true
	if kind == NearDouble {
		f.Size = off
	}
	a.add(f, "delete one of them", "circle of diameter %s %s at %s (lines %d and %d of the file)", a.length(2*c.R), how,
		a.place(c.C), keeper.Line, loser.Line)
	a.change(Change{c.C, loser.Line, fmt.Sprintf("dropped the second of two circles of diameter %s %s at %s",
		a.length(2*c.R), how, a.place(c.C))})
}

func (a *assembler) tellTwin(c, round *Contour, off float64) {
	at := c.Loop[0].A
	f := newFault(NearDouble, diag.Error, at)
	f.Layer, f.Line, f.Size, f.Mends = a.d.Layers[c.Layer].Name, c.Line, off, true
	a.add(f, "delete one of them", "outline drawn twice, %s apart, at %s (lines %d and %d of the file)", a.length(off), a.place(at),
		round.Line, c.Line)
	a.change(Change{at, c.Line, fmt.Sprintf("dropped the inner one of two outlines drawn twice, %s apart, at %s", a.length(off),
		a.place(at))})
}

// tellGaps reports the gaps: those that were closed, and those that are too
// wide. Gaps of lines that are marks do not count.
func (a *assembler) tellGaps() {
	fine, worst := 0, gap{}
	for _, g := range a.gaps {
		if g.d <= num.SilentGap || a.isMark(g.e) {
			continue
		}
		if g.d <= num.FineGap {
			fine++
			if g.d > worst.d {
				worst = g
			}
			continue
		}
		f := a.gapFault(g, diag.Warning)
		f.Mends = true
		a.add(f, "join the ends", "open gap of %s between %s and %s; within the tolerance of %s, so it was closed",
			a.length(g.d), a.place(f.At), a.place(f.To), a.length(a.tol))
	}
	if fine > 0 {
		f := a.gapFault(worst, diag.Warning)
		f.Mends = true
		a.add(f, "save the drawing with more decimals", "%d ends miss their neighbours by up to %s, most at %s",
			fine, a.length(worst.d), a.place(f.At))
	}
	dropped := a.droppedEnds()
	for _, g := range a.apart {
		if a.isMark(g.e) && a.isMark(g.f) {
			continue
		}
		f := a.gapFault(g, diag.Error)
		if dropped[f.At] && dropped[f.To] {
			f.Kind = Touching
			a.add(f, "part the outlines, or draw one", "an outline shares the line from %s to %s with another, and is open without it",
				a.place(f.At), a.place(f.To))
			continue
		}
		a.add(f, "draw what is missing, or join with a larger tolerance if the ends belong together",
			"open gap of %s between %s and %s", a.length(g.d), a.place(f.At), a.place(f.To))
	}
}

// droppedEnds are the ends of the lines that were dropped as doubles of others: no
// one drew a gap there.
func (a *assembler) droppedEnds() map[geom.Point]bool {
	ends := map[geom.Point]bool{}
	for _, d := range a.doubles {
		if s := &a.pieces[d.loser].seg; d.b0 == 0 && d.b1 == 1 {
			ends[s.A], ends[s.B] = true, true
		}
	}
	return ends
}

func (a *assembler) gapFault(g gap, s diag.Severity) Fault {
	f := a.fault(Gap, s, a.shapeOf(g.e>>1), a.at(g.e))
	f.To, f.Size = a.at(g.f), g.d
	return f
}

func (a *assembler) isMark(e int32) bool { return a.chains[a.chainOf[e>>1]].mark }

// tellClosed notes what closing a gap changed.
func (a *assembler) tellClosed(s, t *geom.Seg, at geom.Point, how string, piece int32) {
	d := s.B.Dist(t.A)
	if d <= num.FineGap {
		return // told of together
	}
	text := fmt.Sprintf("closed a gap of %s at %s by %s", a.length(d), a.place(at), how)
	for _, m := range [2][2]geom.Seg{{*s, withEnds(*s, s.A, at)}, {*t, withEnds(*t, at, t.B)}} {
		if before, after := m[0].Circle().R, m[1].Circle().R; abs(before-after) > num.LimitSlack {
			text += fmt.Sprintf("; the radius of an arc went from %s to %s", a.length(before), a.length(after))
		}
	}
	a.change(Change{at, a.shapeOf(piece).Line, text})
}

// tellKnot reports a place where several lines end.
func (a *assembler) tellKnot(k Kind, e int32, n int) {
	at := a.at(e)
	f := a.fault(k, diag.Error, a.shapeOf(e>>1), at)
	if k == Touching {
		a.add(f, "part the outlines, or draw one", "%d lines meet at %s: an outline touches itself or another there", n, a.place(at))
		return
	}
	a.add(f, "leave two of them", "%d lines end at %s: no one can tell which two belong together", n, a.place(at))
}

// tellOpen reports lines that close nothing and are no marks. Those that hang on
// an outline by one end, and short of a gap, are strays.
func (a *assembler) tellOpen() {
	gapped := map[int32]bool{}
	for _, g := range a.apart {
		gapped[g.e], gapped[g.f] = true, true
	}
	for i := range a.chains {
		c := &a.chains[i]
		if c.closed || c.mark {
			continue
		}
		ls := a.linksOf(c)
		first, last := endOf(ls[0], 0), endOf(ls[len(ls)-1], 1)
		if gapped[first] && gapped[last] {
			a.leaveOut(c, first)
			continue
		}
		a.tellStray(c, first, last, gapped)
	}
}

// endOf is the end of a link where it starts (0) or ends (1).
func endOf(l link, end int32) int32 {
	if l.back {
		end = 1 - end
	}
	return 2*l.piece + end
}

// tellStray reports an open line by its loose ends: both, or the one that has no
// gap of its own and hangs on nothing.
func (a *assembler) tellStray(c *chain, first, last int32, gapped map[int32]bool) {
	at, to := first, last
	stuck := func(e int32) bool { return a.stuck[e] }
	if gapped[at] || stuck(at) && !stuck(to) {
		at, to = to, at
	}
	length := 0.0
	for _, l := range a.linksOf(c) {
		length += a.pieces[l.piece].seg.Length()
	}
	f := a.fault(Stray, diag.Error, a.shapeOf(at>>1), a.at(at))
	f.To, f.Size, f.Mends = a.at(to), length, stuck(first) || stuck(last)
	what := "stray end at %s of a line of %s that goes to %s and closes nothing"
	if f.Mends {
		what = "stray end at %s of a line of %s that hangs on an outline at %s"
	}
	a.add(f, "delete the line, or close its outline", what, a.place(f.At), a.length(length), a.place(f.To))
	a.leaveOut(c, first)
}

// leaveOut notes that an open line is in no region.
func (a *assembler) leaveOut(c *chain, first int32) {
	length := 0.0
	for _, l := range a.linksOf(c) {
		length += a.pieces[l.piece].seg.Length()
	}
	a.change(Change{a.at(first), a.shapeOf(first >> 1).Line,
		fmt.Sprintf("left out a line of %s that begins at %s and closes nothing", a.length(length), a.place(a.at(first)))})
}

func (a *assembler) tellMarks(layer, n int, at geom.Point) {
	f := newFault(Mark, diag.Note, at)
	f.Layer = a.d.Layers[layer].Name
	a.add(f, "say which layers are marks, or delete them", "layer %q holds %s inside outlines and nothing closed: taken as marks, not cut",
		f.Layer, counted(n, "open line"))
}

// tellContacts reports lines that cross or touch, of those that are left.
func (a *assembler) tellContacts() {
	heir := map[int32]int32{} // of pieces that were split
	for i := range a.pieces {
		if p := &a.pieces[i]; !p.gone && p.origin != int32(i) {
			if _, known := heir[p.origin]; !known {
				heir[p.origin] = int32(i)
			}
		}
	}
	told := map[contact]bool{}
	for _, c := range a.contact {
		i, okI := a.left(c.i, c.p, heir)
		j, okJ := a.left(c.j, c.p, heir)
		if !okI || !okJ || a.isMark(2*i) && a.isMark(2*j) {
			continue
		}
		if k := a.sameContact(c); !told[k] {
			told[k] = true
			a.tellContact(c.kind, c.i, c.j, c.p)
		}
	}
	for _, s := range a.shared {
		if a.isContour(s.end) && a.isContour(s.other) && a.chainOf[s.end>>1] != a.chainOf[s.other>>1] {
			a.tellContact(Touching, s.end>>1, s.other>>1, a.at(s.end))
		}
	}
}

// sameContact is the same for all meetings of two shapes in one place: where the
// corner of one touches the other, two of its segments do.
func (a *assembler) sameContact(c contact) contact {
	i, j := a.pieces[c.i].shape, a.pieces[c.j].shape
	grid := func(v float64) float64 { return math.Round(v / num.Coincident) }
	return contact{min(i, j), max(i, j), geom.Point{X: grid(c.p.X), Y: grid(c.p.Y)}, c.kind}
}

// left gives the piece, or a part of it, that a meeting at p is about; ok is
// false where that part is gone.
func (a *assembler) left(i int32, p geom.Point, heir map[int32]int32) (int32, bool) {
	if !a.pieces[i].gone {
		return i, true
	}
	j, ok := heir[i]
	return j, ok && !a.covered(i, p)
}

func (a *assembler) isContour(e int32) bool { return a.chains[a.chainOf[e>>1]].contour >= 0 }

func (a *assembler) tellContact(k Kind, i, j int32, p geom.Point) {
	s, t := a.shapeOf(i), a.shapeOf(j)
	f := a.fault(k, diag.Error, s, p)
	verb, what := "cross", s.Kind+" and "+t.Kind
	if k == Touching {
		verb = "touch"
	}
	if s == t {
		what = "two segments of one " + s.Kind
	}
	a.add(f, "part the lines, or trim them where they meet", "%s %s at %s (lines %d and %d of the file)", what, verb,
		a.place(p), s.Line, t.Line)
}

// tellTiny reports segments too short for a table.
func (a *assembler) tellTiny() {
	for i := range a.pieces {
		p := &a.pieces[i]
		l := p.seg.Length()
		if p.gone || !(l < num.TinyEdge) || a.chains[a.chainOf[i]].mark {
			continue
		}
		f := a.fault(Tiny, diag.Warning, &a.d.Shapes[p.shape], p.seg.Mid())
		f.Size = l
		a.add(f, "join its neighbours", "segment of only %s at %s; tables may stumble under %s", a.length(l), a.place(f.At),
			a.length(num.TinyEdge))
	}
}

func (a *assembler) tellNoArea(s *Shape, l geom.Loop) {
	at := l[0].A
	f := a.fault(NoArea, diag.Error, s, at)
	f.Size, f.Mends = l.Perimeter(), true
	a.add(f, "delete it", "closed line of %s at %s encloses nothing", a.length(f.Size), a.place(at))
	a.change(Change{at, s.Line, fmt.Sprintf("left out a closed line at %s that encloses nothing", a.place(at))})
}

// tellLost reports bare circles that would become parts of their own though they
// were hardly meant to: outside of all outlines, or round the middle of a hole,
// as threads and countersinks are drawn.
func (a *assembler) tellLost() {
	cs := a.out.Contours
	filled := make([]bool, len(cs))
	for i := range cs {
		if p := cs[i].Parent; p >= 0 {
			filled[p] = true
		}
	}
	bare := func(i int) (c geom.Circle, ok bool) {
		c, ok = cs[i].Loop.Circle()
		return c, ok && cs[i].Depth%2 == 0 && !filled[i]
	}
	meets := a.meetings()
	others := false
	for i := range cs {
		_, is := bare(i)
		others = others || cs[i].Depth == 0 && !is
	}
	for i := range cs {
		c, ok := bare(i)
		switch {
		case !ok || meets[int32(i)]:
		case cs[i].Depth == 0 && others:
			f := a.contourFault(Outside, &cs[i], c.C)
			f.Size = 2 * c.R
			a.add(f, "if it is a hole, draw it where it belongs; else leave it",
				"circle of diameter %s at %s lies outside of all outlines: it becomes a part of its own", a.length(f.Size), a.place(c.C))
		case cs[i].Depth > 0:
			if hole, round := cs[cs[i].Parent].Loop.Circle(); round && close2(hole.C, c.C, a.tol) {
				f := a.contourFault(Island, &cs[i], c.C)
				f.Size = 2 * c.R
				a.add(f, "if it shows a thread or a countersink, delete one of them; else leave it",
					"circle of diameter %s at %s lies round the middle of a hole of diameter %s: it becomes a part of its own",
					a.length(f.Size), a.place(c.C), a.length(2*hole.R))
			}
		}
	}
}

// meetings tells which contours cross or touch others: what lies in what cannot be
// told of them.
func (a *assembler) meetings() map[int32]bool {
	m := map[int32]bool{}
	for _, c := range a.contact {
		for _, i := range [2]int32{c.i, c.j} {
			if !a.pieces[i].gone {
				m[a.chains[a.chainOf[i]].contour] = true
			}
		}
	}
	return m
}

// contourFault begins a fault of a closed line that calls for a look.
func (a *assembler) contourFault(k Kind, c *Contour, at geom.Point) Fault {
	f := newFault(k, diag.Warning, at)
	f.Layer, f.Line = a.d.Layers[c.Layer].Name, c.Line
	return f
}

// tellTexts reports texts inside outlines, and counts those outside.
func (a *assembler) tellTexts() {
	outside := 0
	first := Text{}
	for _, t := range a.d.Texts {
		if len(a.inside.round(t.At, -1)) == 0 {
			if outside++; outside == 1 {
				first = t
			}
			continue
		}
		f := newFault(TextInside, diag.Warning, t.At)
		f.Layer, f.Line = a.d.Layers[t.Layer].Name, t.Line
		a.add(f, "draw it as single lines on a layer for marks, or delete it", "%s inside an outline at %s: a table has no fonts",
			t.Kind, a.place(t.At))
	}
	if outside > 0 {
		f := newFault(NotCut, diag.Note, first.At)
		f.Layer, f.Line, f.Mends = a.d.Layers[first.Layer].Name, first.Line, true
		a.add(f, "delete them", "%s outside of all outlines, the first at %s: nothing to cut, but some tables refuse them",
			counted(outside, "text"), a.place(first.At))
	}
}
