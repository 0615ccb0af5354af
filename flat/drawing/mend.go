package drawing

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Mended is a clean copy of a drawing.
type Mended struct {
	// Regions are the outlines with their openings, fit to be cut: each is valid
	// by geom's rules and apart from the others. Unit mm; in the drawing's
	// place; in the order of the file.
	Regions []geom.Region
	Marks   []Path   // as they were drawn
	On      [][]Path // by region: of the marks, what lies on its metal
	Changes []Change // everything that differs from the drawing
	Left    []Fault  // what was not mended, and why regions were left out
}

// Mend makes a clean copy of an assembled drawing. Doubled lines and pieces of
// no length are dropped; gaps within the assembly's tolerance are closed by
// moving ends, arcs staying arcs; a tiny segment within the tolerance between
// longer ones is taken out; segments along one line or one circle become one;
// circles drawn in arcs or in num.LeastChords or more equal chords become
// circles. Nothing is guessed: an outline that is open, crosses itself or touches
// another is left out, and said to be.
func Mend(a *Assembly) *Mended {
	m := &mender{a: a, d: a.Drawing, limit: Limits{Faults: a.Drawing.faults.limit}.filled().Faults}
	m.out.Marks = a.Marks
	m.out.Changes = append(m.out.Changes, a.changes...)
	m.untold = a.untold
	for _, f := range a.Faults {
		if !f.Mends && f.Kind != Tiny && f.Severity > diag.Note {
			m.out.Left = append(m.out.Left, f)
		}
	}
	m.flattened()
	if !a.tangled {
		cs := m.contours()
		m.keepSound(cs)
	}
	m.keepMarks()
	if m.untold > 0 {
		m.out.Changes = append(m.out.Changes, Change{Message: fmt.Sprintf("and %d more changes", m.untold)})
	}
	return &m.out
}

type mender struct {
	a      *Assembly
	d      *Drawing
	out    Mended
	limit  int // of faults of a kind
	untold int
	tiny   int
}

func (m *mender) change(c *Contour, at geom.Point, message string, args ...any) {
	if m.untold > 0 || len(m.out.Changes) >= changesEach*m.limit {
		m.untold++
		return
	}
	m.out.Changes = append(m.out.Changes, Change{at, c.Line, fmt.Sprintf(message, args...)})
}

// flattened tells what reading has changed: heights taken off, and curves turned
// into arcs.
func (m *mender) flattened() {
	for _, f := range m.a.Faults {
		if f.Kind == NotLevel {
			m.out.Changes = append(m.out.Changes, Change{f.At, f.Line, "took the height off: " + f.Message})
		}
	}
	for i := range m.d.Shapes {
		s := &m.d.Shapes[i]
		if s.Deviation == 0 {
			continue
		}
		c := Contour{Line: s.Line}
		m.change(&c, s.Segs[0].A, "turned the %s at %s into %d lines and arcs, which stay within %s of it", s.Kind,
			m.d.Unit.Place(s.Segs[0].A), len(s.Segs), m.d.Unit.Length(s.Deviation))
	}
}

// contours are the assembly's, each cleaned.
func (m *mender) contours() []Contour {
	cs := append([]Contour(nil), m.a.Contours...)
	for i := range cs {
		m.clean(&cs[i])
	}
	return cs
}

// clean takes out of a contour what no table needs.
func (m *mender) clean(c *Contour) {
	turn := c.Loop.Area() < 0
	if round, how := circleOf(c.Loop, m.a.Tolerance); how != "" {
		l := geom.CircleLoop(round)
		if turn {
			l = turned(l)
		}
		m.change(c, round.C, "made one circle of diameter %s at %s out of %s, whose ends lie within %s of it",
			m.d.Unit.Length(2*round.R), m.d.Unit.Place(round.C), how, m.d.Unit.Length(offLoop(round, c.Loop)))
		c.Loop = l
		return
	}
	if _, ok := c.Loop.Circle(); ok {
		return
	}
	m.merge(c)
	if n := len(c.Loop); len(m.dropTiny(c)) < n {
		m.merge(c)
	}
}

// merge makes one of segments that follow one line or circle.
func (m *mender) merge(c *Contour) {
	l, dropped := merged(c.Loop)
	if n := len(dropped); n > 0 {
		m.change(c, dropped[0], "took %s out of straight lines and arcs of the outline that begins at %s, the first at %s",
			counted(n, "corner"), m.d.Unit.Place(c.Loop[0].A), m.d.Unit.Place(dropped[0]))
	}
	c.Loop = l
}

// dropTiny takes out segments shorter than num.TinyEdge, and no longer than the
// tolerance, whose neighbours are longer, and closes the gaps.
func (m *mender) dropTiny(c *Contour) geom.Loop {
	l := append(geom.Loop(nil), c.Loop...)
	for i := 0; i < len(l) && len(l) > 3; i++ {
		n := len(l)
		before, after := (i+n-1)%n, (i+1)%n
		length := l[i].Length()
		if !(length < num.TinyEdge && length <= m.a.Tolerance) ||
			l[before].Length() < num.TinyEdge || l[after].Length() < num.TinyEdge {
			continue
		}
		s, t := l[before], l[after]
		at, _ := closing(&s, &t, m.a.Tolerance)
		m.change(c, l[i].Mid(), "took out a segment of only %s at %s", m.d.Unit.Length(length), m.d.Unit.Place(l[i].Mid()))
		l[before], l[after] = withEnds(s, s.A, at), withEnds(t, at, t.B)
		l = append(l[:i], l[i+1:]...)
		i--
	}
	c.Loop = l
	return l
}

// keepSound makes regions of the contours and keeps those that are valid and
// apart from each other.
func (m *mender) keepSound(cs []Contour) {
	rs, of := regions(cs)
	bad := m.meeting(cs)
	open := newOpenTest(m.a)
	thinned := func(is []int) bool {
		return slices.ContainsFunc(is, func(i int) bool { return thin(cs[i].Loop) })
	}
	for i, r := range rs {
		line, layer := cs[of[i][0]].Line, m.d.Layers[cs[of[i][0]].Layer].Name
		err := r.Validate()
		switch {
		case err != nil:
			m.leave(line, layer, r, reason(err, m.d.Unit))
		case thinned(of[i]):
			m.leave(line, layer, r, "without its tiny segments it encloses nothing")
		case slices.ContainsFunc(of[i], func(k int) bool { return bad[k] }):
			m.leave(line, layer, r, "it meets another outline")
		case open.holds(r):
			m.leave(line, layer, r, "it lies inside an outline that is open")
		case tooWide(r.Bounds()):
			// Its copy begins at 0, 0: what reaches as far to both sides there
			// would be farther out than a drawing is read.
			m.leave(line, layer, r, fmt.Sprintf("it is more than %s wide or high", m.d.Unit.Length(num.MaxCoordinate)))
		default:
			m.out.Regions = append(m.out.Regions, r)
			m.tellTiny(line, layer, r)
		}
	}
}

// tooWide reports whether a box, moved so that its lower left is 0, 0, reaches
// farther than a part can be.
func tooWide(b geom.Box) bool {
	return max(b.Width(), b.Height()) > num.MaxCoordinate-num.Coincident
}

// tellTiny reports the tiny segments that stay.
func (m *mender) tellTiny(line int, layer string, r geom.Region) {
	for _, l := range append([]geom.Loop{r.Outer}, r.Holes...) {
		for i := range l {
			n := l[i].Length()
			if n >= num.TinyEdge {
				continue
			}
			f := newFault(Tiny, diag.Warning, l[i].Mid())
			f.Line, f.Layer, f.Size = line, layer, n
			f.Message = fmt.Sprintf("segment of only %s at %s stays: its neighbours are no longer, or it is wider than the tolerance",
				m.d.Unit.Length(n), m.d.Unit.Place(f.At))
			f.Fix = "draw the outline there anew"
			if m.tiny++; m.tiny <= m.limit {
				m.out.Left = append(m.out.Left, f)
			}
		}
	}
}

// leave notes a region that is left out.
func (m *mender) leave(line int, layer string, r geom.Region, why string) {
	at := r.Outer[0].A
	f := newFault(LeftOut, diag.Error, at)
	f.Line, f.Layer = line, layer
	f.Message = fmt.Sprintf("the outline that begins at %s is left out: %s", m.d.Unit.Place(at), why)
	f.Fix = "mend it in the drawing"
	m.out.Left = append(m.out.Left, f)
	m.out.Changes = append(m.out.Changes, Change{at, line, f.Message})
}

// reason tells why a region is not valid, without its numbers.
func reason(err error, u Unit) string {
	var e *geom.InvalidError
	if errors.As(err, &e) {
		return fmt.Sprintf("%s, at %s", e.Reason, u.Place(e.At))
	}
	return err.Error()
}

// meeting finds contours that touch or cross others.
func (m *mender) meeting(cs []Contour) map[int]bool {
	bad := map[int]bool{}
	loops := make([]geom.Loop, len(cs))
	for i := range cs {
		loops[i] = cs[i].Loop
	}
	for _, p := range geom.NewIndex(loops...).Pairs(num.Coincident) {
		bad[p.I], bad[p.J] = true, true
	}
	return bad
}

// circleOf tells whether a loop is a circle that is drawn as something else, and
// what as; "" if not. tol is how far, mm, its arcs may leave the circle.
func circleOf(l geom.Loop, tol float64) (c geom.Circle, how string) {
	if c, ok := l.Circle(); ok {
		if len(l) == 2 && l[0].Bulge == l[1].Bulge && math.Abs(l[0].Bulge) == 1 {
			return c, ""
		}
		return c, fmt.Sprintf("%d arcs", len(l))
	}
	if c, ok := circleOfArcs(l, tol); ok {
		return c, fmt.Sprintf("%d arcs", len(l))
	}
	if c, ok := circleOfChords(l, tol); ok {
		return c, fmt.Sprintf("%d equal chords", len(l))
	}
	return geom.Circle{}, ""
}

// offLoop is how far the corners of a loop lie from a circle.
func offLoop(c geom.Circle, l geom.Loop) float64 {
	off := 0.0
	for i := range l {
		off = max(off, offCircle(c, l[i].A))
	}
	return off
}

// circleOfArcs is the circle that a loop of arcs follows within tol.
func circleOfArcs(l geom.Loop, tol float64) (geom.Circle, bool) {
	var c geom.Circle
	longest := 0.0
	for i := range l {
		if l[i].Bulge == 0 || l[i].Bulge > 0 != (l[0].Bulge > 0) {
			return c, false
		}
		if n := l[i].Length(); n > longest {
			longest, c = n, l[i].Circle()
		}
	}
	for i := range l {
		if offCircle(c, l[i].A) > tol || offCircle(c, l[i].Mid()) > tol {
			return c, false
		}
	}
	area := math.Pi * c.R * c.R
	return c, math.Abs(math.Abs(l.Area())-area) <= tol*2*math.Pi*c.R
}

// circleOfChords is the circle that the corners of a loop of equal chords lie
// on, within num.FineGap or a tenth of tol.
func circleOfChords(l geom.Loop, tol float64) (geom.Circle, bool) {
	if len(l) < num.LeastChords {
		return geom.Circle{}, false
	}
	mean := l.Perimeter() / float64(len(l))
	for i := range l {
		if l[i].IsArc() || math.Abs(l[i].Length()-mean) > num.EqualChords*mean {
			return geom.Circle{}, false
		}
	}
	// The middle of corners that are evenly spread is the centre.
	var c geom.Circle
	for i := range l {
		c.C = c.C.Add(l[i].A.Mul(1 / float64(len(l))))
	}
	for i := range l {
		c.R += c.C.Dist(l[i].A) / float64(len(l))
	}
	off := max(num.FineGap, tol/10)
	for i := range l {
		if offCircle(c, l[i].A) > off {
			return c, false
		}
	}
	// Once round: the chords turn by a whole turn together.
	area := float64(len(l)) / 2 * c.R * c.R * math.Sin(fullTurn/float64(len(l)))
	return c, math.Abs(math.Abs(l.Area())-area) <= off*2*math.Pi*c.R
}
