package geom

import (
	"fmt"
	"math"
	"slices"

	"blankwright/flat/num"
)

// The rules of a valid shape, by name.
const (
	RuleFinite    = "finite"     // every number can be drawn
	RuleClosed    = "closed"     // each segment ends where the next one starts
	RuleLength    = "length"     // no segment shorter than num.Coincident
	RuleArc       = "arc"        // an arc is at most half a turn and lies on its circle
	RuleSpike     = "spike"      // the boundary does not run back over itself
	RuleSimple    = "simple"     // no two segments touch but at shared ends
	RuleTurn      = "turn"       // outer counter-clockwise, openings clockwise
	RuleInside    = "inside"     // openings lie inside the outer loop
	RuleApart     = "apart"      // loops do not touch each other
	RuleNotNested = "not nested" // no opening lies in another
)

// InvalidError tells which rule a shape breaks and where. It carries the shape.
type InvalidError struct {
	Rule   string
	Reason string
	At     Point
	Shape  string // the whole input in its lossless text form
}

// printedShape is the longest text form that an error prints in full; the whole
// is in its Shape.
const printedShape = 600

func (e *InvalidError) Error() string {
	s := fmt.Sprintf("rule %q broken at %s: %s", e.Rule, place(e.At), e.Reason)
	if len(e.Shape) <= printedShape {
		s += "; shape " + e.Shape
	}
	return s
}

// fault is an InvalidError before it is given its shape.
type fault struct {
	rule, reason string
	at           Point
}

func (f *fault) err(shape fmt.Stringer) error {
	return &InvalidError{f.rule, f.reason, f.at, shape.String()}
}

// Validate checks that the loop is a simple closed boundary: the rules finite,
// closed, length, arc, spike and simple. Either way round is right. The error
// is an *InvalidError for the first rule broken. An empty loop is not valid.
//
// Segments that only follow each other may close up to a zero angle (a cusp)
// as long as they do not run along each other.
func (l Loop) Validate() error {
	f := l.checkSegments()
	if f == nil {
		f = l.checkJoints()
	}
	if f != nil {
		return f.err(l)
	}
	var buf [smallSweep]span
	spans := appendSpans(buf[:0], l, 0)
	if f := checkContacts(spans, func(int32) Loop { return l }); f != nil {
		return f.err(l)
	}
	return nil
}

// Validate checks that the region is sound: every loop is valid, the outer loop
// runs counter-clockwise and the openings clockwise, and the openings lie
// strictly inside the outer loop, apart from it and from each other, none in
// another. The error is an *InvalidError. The empty region is valid.
func (r Region) Validate() error {
	if len(r.Outer) == 0 && len(r.Holes) == 0 {
		return nil
	}
	if f := r.check(); f != nil {
		return f.err(r)
	}
	return nil
}

func (r Region) check() *fault {
	var buf [smallSweep]span
	spans := buf[:0]
	for i := range len(r.Holes) + 1 {
		l := r.loop(int32(i))
		f := l.checkSegments()
		if f == nil {
			f = l.checkJoints()
		}
		if f != nil {
			return f.of(i)
		}
		spans = appendSpans(spans, l, int32(i))
	}
	if f := checkContacts(spans, r.loop); f != nil {
		return f
	}
	for i := range len(r.Holes) + 1 {
		l := r.loop(int32(i))
		if a := l.Area(); i == 0 && a <= 0 {
			return &fault{RuleTurn, "the outer loop runs clockwise, wanted counter-clockwise; reverse it", l[0].A}
		} else if i > 0 && a >= 0 {
			return (&fault{RuleTurn, "runs counter-clockwise, wanted clockwise; reverse it", l[0].A}).of(i)
		}
	}
	return r.checkNesting()
}

// loop is loop i of the region: 0 the outer one, then the openings.
func (r Region) loop(i int32) Loop {
	if i == 0 {
		return r.Outer
	}
	return r.Holes[i-1]
}

// of names the opening in a fault's reason.
func (f *fault) of(loop int) *fault {
	if f != nil && loop > 0 {
		f.reason = fmt.Sprintf("opening %d: %s", loop, f.reason)
	}
	return f
}

// checkSegments checks each segment alone and its joint with the next.
func (l Loop) checkSegments() *fault {
	if len(l) < 2 {
		return &fault{RuleClosed, fmt.Sprintf("a loop needs 2 segments or more, got %d", len(l)), Point{}}
	}
	for i := range l {
		s := &l[i]
		if !num.Finite(s.A.X, s.A.Y, s.B.X, s.B.Y, s.Bulge) {
			return &fault{RuleFinite, fmt.Sprintf("segment %d has a number that is not finite", i+1), s.A}
		}
		next := &l[0]
		if i+1 < len(l) {
			next = &l[i+1]
		}
		if s.B != next.A && !(norm(s.B.X-next.A.X, s.B.Y-next.A.Y) <= num.Coincident) {
			return &fault{RuleClosed, fmt.Sprintf("segment %d ends %s mm from the start of the next one",
				i+1, short(s.B.Dist(next.A))), s.B}
		}
		if norm(s.B.X-s.A.X, s.B.Y-s.A.Y) <= num.Coincident {
			return &fault{RuleLength, fmt.Sprintf("segment %d has no length", i+1), s.A}
		}
		if s.Bulge != 0 {
			if reason := s.checkArc(); reason != "" {
				return &fault{RuleArc, fmt.Sprintf("segment %d %s", i+1, reason), s.A}
			}
		}
	}
	return nil
}

// checkArc tells what is wrong with an arc, "" if nothing.
func (s *Seg) checkArc() string {
	if s.Bulge > 1 || s.Bulge < -1 {
		return fmt.Sprintf("turns by more than half a turn (bulge %g); split it", s.Bulge)
	}
	c := s.circ
	if !num.Finite(c.C.X, c.C.Y, c.R) || c.R <= 0 {
		return fmt.Sprintf("has no true circle (radius %g)", c.R)
	}
	// The allowance of a very large circle is what its own numbers can hold.
	allow := num.Coincident + num.Resolution(c.R)
	for _, p := range [3]Point{s.A, s.Mid(), s.B} {
		if off := abs(norm(p.X-c.C.X, p.Y-c.C.Y) - c.R); !(off <= allow) {
			return fmt.Sprintf("leaves its circle (centre %s, radius %s) by %g mm at %s", place(c.C), short(c.R), off, place(p))
		}
	}
	// The right circle, but the other of its two arcs over the chord: the
	// centre lies left of the chord in a counter-clockwise arc.
	h := s.B.Sub(s.A).Cross(c.C.Sub(s.A))
	if s.Bulge < 0 {
		h = -h
	}
	if h < -allow*s.A.Dist(s.B) {
		return "has its centre on the wrong side of its chord"
	}
	return ""
}

// smallSweep is how many segments are swept without asking for memory.
const smallSweep = 48

// span is the box of one segment, with its place in the shape.
type span struct {
	lo, hi    float64 // along the sweep
	lo2, hi2  float64 // across it
	loop, seg int32
}

func appendSpans(spans []span, l Loop, loop int32) []span {
	for i := range l {
		b := l[i].Bounds()
		spans = append(spans, span{b.Min.X, b.Max.X, b.Min.Y, b.Max.Y, loop, int32(i)})
	}
	return spans
}

// checkContacts looks at all pairs of segments whose boxes come within
// num.Coincident of each other, by a sweep along the axis on which they overlap
// less.
func checkContacts(spans []span, loop func(int32) Loop) *fault {
	if overlapMoreAlong(spans) {
		for i := range spans {
			s := &spans[i]
			s.lo, s.hi, s.lo2, s.hi2 = s.lo2, s.hi2, s.lo, s.hi
		}
	}
	sortSpans(spans)
	for i := range spans {
		s := &spans[i]
		hi, lo2, hi2 := s.hi+num.Coincident, s.lo2-num.Coincident, s.hi2+num.Coincident
		for j := i + 1; j < len(spans) && spans[j].lo <= hi; j++ {
			t := &spans[j]
			if t.lo2 > hi2 || t.hi2 < lo2 {
				continue
			}
			if f := checkPair(s, t, loop); f != nil {
				return f
			}
		}
	}
	return nil
}

// overlapMoreAlong reports whether the spans cover their own extent more often
// along the sweep than across it.
func overlapMoreAlong(spans []span) bool {
	var along, across float64
	lo, hi, lo2, hi2 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for i := range spans {
		s := &spans[i]
		along, across = along+s.hi-s.lo, across+s.hi2-s.lo2
		lo, hi, lo2, hi2 = min(lo, s.lo), max(hi, s.hi), min(lo2, s.lo2), max(hi2, s.hi2)
	}
	return along*(hi2-lo2) > across*(hi-lo)
}

func sortSpans(spans []span) {
	if len(spans) <= smallSweep {
		for i := 1; i < len(spans); i++ {
			s := spans[i]
			j := i
			for ; j > 0 && spans[j-1].lo > s.lo; j-- {
				spans[j] = spans[j-1]
			}
			spans[j] = s
		}
		return
	}
	slices.SortStableFunc(spans, func(a, b span) int {
		switch {
		case a.lo < b.lo:
			return -1
		case a.lo > b.lo:
			return 1
		}
		return 0
	})
}

func checkPair(s, t *span, loop func(int32) Loop) *fault {
	l := loop(s.loop)
	if s.loop != t.loop {
		n := l[s.seg].near(&loop(t.loop)[t.seg])
		if n.D > num.Coincident {
			return nil
		}
		a, b := min(s.loop, t.loop), max(s.loop, t.loop)
		if a == 0 {
			return &fault{RuleApart, fmt.Sprintf("opening %d touches or crosses the outer loop", b), n.P}
		}
		return &fault{RuleApart, fmt.Sprintf("openings %d and %d touch or cross", a, b), n.P}
	}
	i, j := min(s.seg, t.seg), max(s.seg, t.seg)
	if j == i+1 || i == 0 && int(j) == len(l)-1 {
		return nil // neighbours: see checkJoints
	}
	if near := l[i].near(&l[j]); near.D <= num.Coincident {
		return (&fault{RuleSimple, fmt.Sprintf("segments %d and %d touch or cross", i+1, j+1), near.P}).of(int(s.loop))
	}
	return nil
}

// checkJoints checks all neighbours.
func (l Loop) checkJoints() *fault {
	if len(l) == 2 {
		return checkTwo(l)
	}
	for i := range l[1:] {
		if f := l.checkJoint(i, i+1); f != nil {
			return f
		}
	}
	return l.checkJoint(len(l)-1, 0)
}

// checkJoint checks two neighbours, segment i and the next one j, of a loop of
// three segments or more: they may meet at their joint alone.
func (l Loop) checkJoint(i, j int) *fault {
	a, b := &l[i], &l[j]
	w, ok := a.A, b.closeTo(a.A)
	switch {
	case ok && b.closeTo(a.Mid()):
		return &fault{RuleSpike, fmt.Sprintf("segment %d runs back over segment %d", j+1, i+1), w}
	case !ok && a.closeTo(b.B):
		if w, ok = b.B, true; a.closeTo(b.Mid()) {
			return &fault{RuleSpike, fmt.Sprintf("segment %d runs back over segment %d", j+1, i+1), w}
		}
	case !ok:
		w, ok = secondMeeting(a, b)
	}
	if ok {
		return &fault{RuleSimple, fmt.Sprintf("segments %d and %d meet again beyond their joint", i+1, j+1), w}
	}
	return nil
}

// checkTwo checks a loop of two segments, which share both ends.
func checkTwo(l Loop) *fault {
	if m := l[0].Mid(); l[1].closeTo(m) {
		return &fault{RuleSpike, "segment 2 runs back over segment 1", m}
	}
	return nil
}

// secondMeeting finds where two segments that share a joint (a's end, b's
// start) meet once more. Both carriers pass through the joint v, so the other
// meeting is the mirror image of v: in the perpendicular from the centre on the
// line, or in the line of centres. That holds its figures where the two are
// nearly tangent. Where they stay within num.Coincident of each other all the
// way there, as at a tangent joint, it is the joint itself.
func secondMeeting(a, b *Seg) (Point, bool) {
	v := a.B
	var w Point
	switch {
	case a.Bulge == 0 && b.Bulge == 0:
		return Point{}, false
	case a.Bulge == 0 || b.Bulge == 0:
		line, arc := a, b
		if b.Bulge == 0 {
			line, arc = b, a
		}
		dx, dy := line.B.X-line.A.X, line.B.Y-line.A.Y
		k := 2 * ((arc.circ.C.X-v.X)*dx + (arc.circ.C.Y-v.Y)*dy) / (dx*dx + dy*dy)
		w = Point{v.X + dx*k, v.Y + dy*k}
	default:
		if a.circ.same(b.circ) {
			return Point{}, false // the ends tell whether they overlap
		}
		ux, uy := b.circ.C.X-a.circ.C.X, b.circ.C.Y-a.circ.C.Y
		k := 2 * ((v.Y-a.circ.C.Y)*ux - (v.X-a.circ.C.X)*uy) / (ux*ux + uy*uy)
		w = Point{v.X + k*uy, v.Y - k*ux}
	}
	if norm(w.X-v.X, w.Y-v.Y) <= num.Coincident || !a.closeTo(w) || !b.closeTo(w) {
		return Point{}, false
	}
	return w, !b.closeTo(a.between(w, v).Mid())
}

// between is the part of the segment, or of its carrier, from p to q.
func (s *Seg) between(p, q Point) Seg {
	if s.Bulge == 0 {
		return Line(p, q)
	}
	return Arc(s.circ, p, q, s.Bulge > 0)
}

// checkNesting checks that every opening lies in the outer loop and in no other
// opening; that none touch has been checked, so one point of each tells.
func (r Region) checkNesting() *fault {
	in := newInsideTest(r.Outer, len(r.Holes))
	for i, h := range r.Holes {
		if !in.inside(h[0].A) {
			return &fault{RuleInside, fmt.Sprintf("opening %d lies outside the outer loop", i+1), h[0].A}
		}
	}
	var buf [smallSweep]span
	spans := buf[:0]
	for i, h := range r.Holes {
		b := h.Bounds()
		spans = append(spans, span{b.Min.X, b.Max.X, b.Min.Y, b.Max.Y, int32(i), 0})
	}
	sortSpans(spans)
	for i := range spans {
		s := &spans[i]
		for j := i + 1; j < len(spans) && spans[j].lo <= s.hi; j++ {
			a, b := s, &spans[j]
			if b.lo == a.lo && (b.hi > a.hi || b.hi2 > a.hi2) {
				a, b = b, a
			}
			if b.hi > a.hi || b.lo2 < a.lo2 || b.hi2 > a.hi2 {
				continue
			}
			p := r.Holes[b.loop][0].A
			if r.Holes[a.loop].Contains(p) == Inside {
				return &fault{RuleNotNested, fmt.Sprintf("opening %d lies in opening %d", b.loop+1, a.loop+1), p}
			}
		}
	}
	return nil
}

// insideTest answers many questions whether a point lies in one loop.
type insideTest struct {
	loop Loop
	tree *tree // nil where the loop is short or the questions are few
}

func newInsideTest(l Loop, questions int) insideTest {
	t := insideTest{loop: l}
	if len(l) > smallSweep && questions > smallSweep {
		t.tree = newTree(len(l), func(i int) Box { return l[i].Bounds() })
	}
	return t
}

// inside tells whether p, which must not be close to the loop, lies in it.
func (t insideTest) inside(p Point) bool {
	if t.tree == nil {
		return t.loop.Contains(p) == Inside
	}
	turns := 0
	ray := Box{p, Point{math.Inf(1), p.Y}, true}
	t.tree.search(&ray, 0, func(i int) { turns += t.loop[i].crossings(p) })
	return turns != 0
}
