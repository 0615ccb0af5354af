package blank

import (
	"math"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// maxReach is the largest coordinate or length taken, mm. Plate is rolled no
// longer than about 20 m (common practice), and num.Coincident counts on parts
// of a few metres.
const maxReach = 20_000

// maxHoles is the most holes that one part may have, so that a slip of the pen
// in a pattern's count cannot fill the memory.
const maxHoles = 10_000

// Make builds the blanks that a description asks for: one for each hand, the
// part as drawn before its mirror image. Lengths are mm in the part's own
// coordinates.
//
// What the description asks and neither geometry nor tables can give (a hole
// name that there is not, a radius that does not fit, a bolt that no table
// knows, an outline that crosses itself) is collected in one pass: the error is
// diag.Problems, and no blank is returned.
func Make(p *describe.Part) ([]*Blank, error) { return MakeWith(p, nil) }

// MakeWith is Make with a shop's own rows and limits; nil for the embedded ones.
func MakeWith(p *describe.Part, set *profiles.Set) ([]*Blank, error) {
	m := &maker{part: p, set: set}
	b := m.plate()
	m.process, m.thickness = b.Process, b.Thickness
	m.punch()
	m.form(b)
	if m.bent() {
		m.bends(b)
		m.flatLoads()
	}
	b.Holes = m.holes
	b.Marks = m.marks()
	m.joints(b)
	m.coating(b)
	if len(b.Outline) > 0 && !m.bent() {
		m.loads(b)
	}
	if len(b.Outline) > 0 {
		m.welds(b)
	}
	hands := m.hands()
	if err := m.problems.Err(); err != nil {
		return nil, err
	}
	for i := range b.Holes {
		b.Holes[i].trace()
	}
	return b.twins(hands), nil
}

// maker carries what is known so far about the part being made.
type maker struct {
	part      *describe.Part
	set       *profiles.Set // nil for the embedded tables
	process   profiles.Process
	thickness float64
	problems  diag.Problems
	shape     *describe.Shape // being drawn, and how messages call it
	what      string
	holes     []Hole
	named     map[string]int // name -> index in holes; -1 for a pattern, and where a hole could not be placed
	patterns  map[string]int // entry name -> how many holes it became, where more than one
	bolts     []boltByText
	taken     map[string]bool // names of what is no hole
	spotBuf   [1]spot
}

// plate starts the blank with what the head of the file says.
func (m *maker) plate() *Blank {
	p := m.part
	b := &Blank{Part: p, Name: p.Name.Text, Revision: p.Revision.Text, Quantity: 1, Profile: m.set}
	b.Thickness, _ = m.size(p.Plate.Thickness, "plate thickness", p.Plate.Pos)
	if w := p.Plate.Material; w.Text != "" {
		mat, err := m.set.FindMaterial(w.Text)
		m.noteErr(w.Pos, err)
		b.Material = mat
	}
	if w := p.Process; w.Text != "" {
		proc, err := m.set.FindProcess(w.Text)
		m.noteErr(w.Pos, err)
		b.Process = proc
	}
	return b
}

// noteErr notes a table's answer as a problem at a place.
func (m *maker) noteErr(pos diag.Pos, err error) {
	if err != nil {
		m.problems.Add(pos, "%s", err.Error())
	}
}

// text writes a length for people in the file's own units.
func (m *maker) text(mm float64) string { return unit.Text(mm, m.part.Units) }

// size takes a length that has to be there and above nothing. The place falls
// back to the one given where the length was not written.
func (m *maker) size(l describe.Length, what string, pos diag.Pos) (float64, bool) {
	if l.Pos.Line == 0 {
		l.Pos = pos
	}
	switch {
	case !l.Set:
		m.problems.Add(l.Pos, "%s is missing", what)
	case !num.Finite(l.MM) || math.Abs(l.MM) > maxReach:
		m.tooFar(l.Pos, what)
	case l.MM < 0 || num.Zero(l.MM):
		m.problems.Add(l.Pos, "%s is %s, wanted more than nothing", what, m.text(l.MM))
	default:
		return l.MM, true
	}
	return 0, false
}

// measure takes a length that may be left out or be nothing, but not negative.
func (m *maker) measure(l describe.Length, what string, pos diag.Pos) (float64, bool) {
	if !l.Set || num.Zero(l.MM) {
		return 0, true
	}
	return m.size(l, what, pos)
}

func (m *maker) tooFar(pos diag.Pos, what string) {
	m.problems.AddHint(pos, "check the units: a bare number takes those of the file",
		"%s is out of reach: wanted no more than %s", what, m.text(maxReach))
}

// point takes a place on the plate.
func (m *maker) point(p describe.Point, what string, pos diag.Pos) (geom.Point, bool) {
	if p.Pos.Line == 0 {
		p.Pos = pos
	}
	q := geom.Point{X: p.X.MM, Y: p.Y.MM}
	if !num.Finite(q.X, q.Y) || math.Abs(q.X) > maxReach || math.Abs(q.Y) > maxReach {
		m.tooFar(p.Pos, what)
		return geom.Point{}, false
	}
	return q, true
}

// direction is the unit vector at an angle from +x, rad.
func direction(a float64) geom.Point {
	s, c := num.Sincos(a)
	return geom.Point{X: c, Y: s}
}
