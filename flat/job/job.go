// Package job ties parts and tubes together: pivots on the vehicle, given or
// measured, tubes between them, brackets at them. It holds lengths and turns of
// the tubes against the pivots, solves the link for its load cases, hands the
// forces to tubes and brackets, and makes the lists to buy and to saw by.
//
// Make is the way in, Run the rules. Unit: mm, N; axes of the vehicle: forward,
// left, up.
package job

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/cope"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/link"
	"blankwright/flat/num"
	"blankwright/flat/tube"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// Job is a job worked out.
type Job struct {
	Desc     *describe.Job
	Name     string
	Revision string
	Sets     int
	Pivots   []link.Pivot // in the order of the file
	Survey   *link.Survey // of measured distances; nil where all places are given
	Solution *link.Solution
	Cases    []link.Case // with their loads, factors put in
	Tubes    []Tube
	Parts    []Part
	Stocks   []Stock
	Assumed  []string

	pivot map[string]int
}

// Tube is a tube between two pivots.
type Tube struct {
	Name  string
	Desc  *describe.JobTube
	Hands []*tube.Tube // as its file describes it, loads of the job put in
	// Wanted is the tube that the pivots and their sleeves ask for; nil where an
	// end has no sleeve at its pivot.
	Wanted *cope.Piece
	Length float64 // between the pivots
	within float64 // how far turns and angles may be off, mm round or across the tube
}

// Part is a flat part.
type Part struct {
	Name    string
	Desc    *describe.JobPart
	Hands   []*blank.Blank
	Bracket *Bracket // nil where it is at no pivot
	own     int      // joints that its own file describes
	bolted  int      // walls of one piece that the bolt of its pivot goes through
}

// Bent reports whether the part has bends: what a pivot puts on it is told, and not
// held against it.
func (p *Part) Bent() bool { return p.Hands[0].Part.Bent() }

// Bracket is what the job puts on a part at its pivot.
type Bracket struct {
	Pivot  string
	Forces []Force
}

// Force is what one plate of a bracket takes in a case, N: its share along its own
// x and y, and all that pushes sideways, which one of a pair may get alone.
type Force struct {
	Case       string
	X, Y, Side float64
}

// Open gives the text of a file that a job names, its path from the job's folder.
type Open func(path string) ([]byte, error)

// Make works a job out. open reads the files that it names; set holds a shop's
// own rows. The error is diag.Problems for what is wrong with the job or with a
// file of it.
func Make(d *describe.Job, open Open, set *profiles.Set) (*Job, error) {
	m := &maker{d: d, open: open, set: set}
	m.j = &Job{Desc: d, Name: d.Name.Text, Revision: d.Revision.Text, Sets: d.Quantity.N}
	for _, step := range []func(){m.pivots, m.files, m.solve, m.tubes, m.parts, m.stock} {
		step()
		if err := m.problems.Err(); err != nil {
			return nil, err
		}
	}
	return m.j, nil
}

type maker struct {
	d        *describe.Job
	j        *Job
	open     Open
	set      *profiles.Set
	problems diag.Problems
	tubeDesc []*describe.Tube
	partDesc []*describe.Part
}

func vec(v describe.Vector) link.Vec { return link.Vec{X: v.X, Y: v.Y, Z: v.Z} }

// pivots finds the places.
func (m *maker) pivots() {
	d := m.d
	m.j.pivot = map[string]int{}
	for i := range d.Pivots {
		m.j.pivot[d.Pivots[i].Name.Text] = i
	}
	if len(d.Measured) == 0 {
		for i := range d.Pivots {
			m.j.Pivots = append(m.j.Pivots, link.Pivot{Name: d.Pivots[i].Name.Text, At: vec(d.Pivots[i].At)})
		}
		return
	}
	m.survey()
}

// survey works places out from measured distances.
func (m *maker) survey() {
	d := m.d
	var known []link.Pivot
	var guesses []link.Guess
	based := m.base()
	for i := range d.Pivots {
		p := &d.Pivots[i]
		if at, ok := based[p.Name.Text]; ok {
			if p.At.Set {
				m.problems.AddHint(p.At.Pos, "leave at out, or base", "pivot %s has a place and is one of base", p.Name.Text)
			}
			known = append(known, link.Pivot{Name: p.Name.Text, At: at})
			continue
		}
		if p.At.Set {
			known = append(known, link.Pivot{Name: p.Name.Text, At: vec(p.At)})
			continue
		}
		g := link.Guess{Name: p.Name.Text}
		if p.Near.Set {
			at := vec(p.Near)
			g.Near = &at
		}
		guesses = append(guesses, g)
	}
	var measures []link.Measure
	for i := range d.Measured {
		k := &d.Measured[i]
		measures = append(measures, link.Measure{From: k.From.Text, To: k.To.Text, Distance: k.Distance.MM})
	}
	if len(m.problems) > 0 {
		return
	}
	s, err := link.Locate(known, guesses, measures, d.Within.MM)
	if err != nil {
		m.problems.Add(d.Measured[0].Pos, "%s", m.words(err))
		return
	}
	m.j.Survey = s
	at := map[string]link.Vec{}
	for _, p := range s.Pivots {
		at[p.Name] = p.At
	}
	for i := range d.Pivots {
		name := d.Pivots[i].Name.Text
		m.j.Pivots = append(m.j.Pivots, link.Pivot{Name: name, At: at[name]})
	}
}

// base lays the three pivots of base out by the distances between them.
func (m *maker) base() map[string]link.Vec {
	d := m.d
	if len(d.Base) != 3 {
		return nil
	}
	between := func(a, b describe.Word) float64 {
		for i := range d.Measured {
			k := &d.Measured[i]
			if k.From.Text == a.Text && k.To.Text == b.Text || k.From.Text == b.Text && k.To.Text == a.Text {
				return k.Distance.MM
			}
		}
		m.problems.Add(a.Pos, "base: there is no distance between %s and %s", a.Text, b.Text)
		return 0
	}
	ab, ac, bc := between(d.Base[0], d.Base[1]), between(d.Base[0], d.Base[2]), between(d.Base[1], d.Base[2])
	if len(m.problems) > 0 {
		return nil
	}
	a, b, c, err := link.Base(ab, ac, bc)
	if err != nil {
		m.problems.Add(d.Base[0].Pos, "base: %s", m.words(err))
		return nil
	}
	return map[string]link.Vec{d.Base[0].Text: a, d.Base[1].Text: b, d.Base[2].Text: c}
}

// at is the place of a pivot.
func (j *Job) at(name string) link.Vec { return j.Pivots[j.pivot[name]].At }

// described is what the file says of a pivot.
func (j *Job) described(name string) *describe.JobPivot { return &j.Desc.Pivots[j.pivot[name]] }

// file reads a file that the job names. Messages call it by its path as seen from
// where the job was named.
func (m *maker) file(w describe.Word) (name string, text []byte, ok bool) {
	rel := filepath.FromSlash(w.Text)
	if !filepath.IsLocal(rel) {
		m.problems.AddHint(w.Pos, "put it in the folder of the job, or below", "file %q lies outside the folder of the job", w.Text)
		return "", nil, false
	}
	text, err := m.open(rel)
	if err != nil {
		m.problems.AddHint(w.Pos, "it is looked for in the folder of the job", "file %q cannot be read", w.Text)
		return "", nil, false
	}
	return filepath.Join(filepath.Dir(m.d.File), rel), text, true
}

// take notes the problems of a file of the job. Of several at one place the first
// is told: the others follow from it.
func (m *maker) take(pos diag.Pos, err error) {
	switch ps, ok := err.(diag.Problems); {
	case err == nil:
	case ok:
		for _, p := range ps {
			if !slices.ContainsFunc(m.problems, func(o diag.Problem) bool { return o.Pos == p.Pos }) {
				m.problems = append(m.problems, p)
			}
		}
	default:
		m.problems.Add(pos, "%s", err)
	}
}

// words are those of an error, in the units of the job.
func (m *maker) words(err error) string { return unit.Words(err.Error(), m.d.Units) }

func (m *maker) noProfile(w describe.Word) {
	if w.Text != "" {
		m.problems.AddHint(w.Pos, "name it in the job: one for all", "profile %q in a file of a job", w.Text)
	}
}

// files reads all that the job names, so that all that is missing is told at once.
func (m *maker) files() {
	m.readTubes()
	m.readParts()
}

func (m *maker) readTubes() {
	for i := range m.d.Tubes {
		t := &m.d.Tubes[i]
		name, text, ok := m.file(t.File)
		if !ok {
			continue
		}
		if describe.KindOf(text) != describe.TubeFile {
			m.problems.Add(t.File.Pos, "file %q describes no tube: it does not begin with tube:", t.File.Text)
			continue
		}
		d, err := describe.ParseTube(name, text)
		if err != nil {
			m.take(t.Pos, err)
			continue
		}
		m.noProfile(d.Profile)
		m.tubeDesc = append(m.tubeDesc, d)
		if t.From.Text == t.To.Text {
			m.problems.Add(t.To.Pos, "tube %s runs from pivot %s to itself", t.Name.Text, t.To.Text)
		}
	}
}

func (m *maker) readParts() {
	for i := range m.d.Parts {
		p := &m.d.Parts[i]
		name, text, ok := m.file(p.File)
		if !ok {
			continue
		}
		if describe.KindOf(text) != describe.PartFile {
			m.problems.Add(p.File.Pos, "file %q describes no part: it does not begin with part:", p.File.Text)
			continue
		}
		d, err := describe.Parse(name, text)
		if err != nil {
			m.take(p.Pos, err)
			continue
		}
		m.noProfile(d.Profile)
		m.partDesc = append(m.partDesc, d)
	}
}

// tubes works out the tubes, with what the link puts on them.
func (m *maker) tubes() {
	for i := range m.d.Tubes {
		t, d := &m.d.Tubes[i], m.tubeDesc[i]
		out := Tube{Name: t.Name.Text, Desc: t, Length: m.j.at(t.To.Text).Sub(m.j.at(t.From.Text)).Len(), within: m.d.Within.MM}
		own := len(d.Loads)
		if s := m.j.Solution; s != nil {
			for c := range s.Cases {
				f := s.Cases[c].Members[i]
				l := describe.TubeLoad{Pos: t.Pos, Factor: describe.Number{V: 1, Set: true}, Case: describe.Word{Text: caseName(s.Cases[c].Name), Set: true}}
				if f >= 0 {
					l.Tension = describe.Force{N: f, Set: true}
				} else {
					l.Compression = describe.Force{N: -f, Set: true}
				}
				d.Loads = append(d.Loads, l)
			}
		}
		hands, err := tube.Make(d, m.set)
		if err != nil {
			m.take(t.Pos, err)
			continue
		}
		for _, h := range hands {
			for k := own; k < len(h.Loads); k++ {
				h.Loads[k].Assumed = m.j.Assumed
			}
		}
		out.Hands = hands
		out.Wanted = m.wanted(t, hands[0])
		m.j.Tubes = append(m.j.Tubes, out)
	}
}

// caseName tells a case of the job from the cases that a file has of its own.
func caseName(name string) string { return casePrefix + name }

const casePrefix = "job: "

// wanted is the tube that runs from sleeve to sleeve.
func (m *maker) wanted(t *describe.JobTube, h *tube.Tube) *cope.Piece {
	a, b := m.j.described(t.From.Text), m.j.described(t.To.Text)
	if a.Sleeve == nil || b.Sleeve == nil {
		return nil
	}
	sleeve := func(p *describe.JobPivot) link.Sleeve {
		return link.Sleeve{Name: p.Name.Text, OD: p.Sleeve.Outside.MM, Length: p.Sleeve.Length.MM, Axis: vec(p.Axis), Partial: true}
	}
	p, err := link.TubeBetween(h.Cut.Piece.Tube, m.j.at(t.From.Text), m.j.at(t.To.Text), sleeve(a), sleeve(b))
	if err != nil {
		m.problems.Add(t.Pos, "tube %s: %s", t.Name.Text, m.words(err))
		return nil
	}
	return &p
}

// parts works out the flat parts, with what the link puts on the brackets.
func (m *maker) parts() {
	for i := range m.d.Parts {
		p, d := &m.d.Parts[i], m.partDesc[i]
		out := Part{Name: p.Name.Text, Desc: p, own: len(d.Joints), bolted: 1}
		if slices.ContainsFunc(d.InLine, func(l describe.InLine) bool { return l.A.Text == p.Hole.Text || l.B.Text == p.Hole.Text }) {
			out.bolted = 2 // both legs of one piece
		}
		ownLoads := len(d.Loads)
		if p.At.Set {
			out.Bracket = m.bracket(p, d, out.bolted)
			m.joint(p, d)
		}
		hands, err := blank.MakeWith(d, m.set)
		if err != nil {
			m.take(p.Pos, err)
			continue
		}
		if p.At.Set && !m.hasHole(p, hands[0]) {
			continue
		}
		for _, h := range hands {
			for k := ownLoads; k < len(h.Loads); k++ {
				h.Loads[k].Name = "load " + strconv.Quote(strings.TrimPrefix(h.Loads[k].Case, casePrefix)) + " of the job"
				h.Loads[k].Assumed = append(h.Loads[k].Assumed, m.bracketAssumed(p)...)
			}
		}
		out.Hands = hands
		m.j.Parts = append(m.j.Parts, out)
	}
}

// hasHole reports whether a bracket has the hole that the job puts at a pivot, and
// says so where it has not.
func (m *maker) hasHole(p *describe.JobPart, b *blank.Blank) bool {
	var known []string
	for i := range b.Holes {
		if b.Holes[i].Name == p.Hole.Text {
			return true
		}
		known = append(known, b.Holes[i].Name)
	}
	hint := "part " + p.Name.Text + " has none"
	if near := diag.Nearest(p.Hole.Text, known); near != "" {
		hint = "write " + near
	} else if n := len(known); n > 0 {
		hint = "part " + p.Name.Text + " has " + strings.Join(known[:min(n, 12)], ", ")
		if n > 12 {
			hint += " and others"
		}
	}
	m.problems.AddHint(p.Hole.Pos, hint, "no single hole is named %q", p.Hole.Text)
	return false
}

// frame is where a plate's x, its y and its thickness point on the vehicle.
func frame(p *describe.JobPart) (right, up, side link.Vec) {
	right = vec(p.Right).Unit()
	up = vec(p.Up)
	up = up.Sub(right.Mul(up.Dot(right))).Unit()
	return right, up, right.Cross(up)
}

// bracket hands a part what the tubes put on its pivot.
func (m *maker) bracket(p *describe.JobPart, d *describe.Part, walls int) *Bracket {
	b := &Bracket{Pivot: p.At.Text}
	s := m.j.Solution
	if s == nil {
		return b
	}
	share := shareOf(p, walls)
	right, up, side := frame(p)
	for c := range s.Cases {
		var sum link.Vec
		for k := range m.d.Tubes {
			t := &m.d.Tubes[k]
			if t.From.Text != p.At.Text && t.To.Text != p.At.Text {
				continue
			}
			f, err := s.EndForce(c, t.Name.Text, p.At.Text)
			if err != nil {
				m.problems.Add(p.Pos, "%s", err)
				return b
			}
			sum = sum.Add(f)
		}
		f := Force{Case: s.Cases[c].Name, X: share * sum.Dot(right), Y: share * sum.Dot(up), Side: sum.Dot(side)}
		b.Forces = append(b.Forces, f)
		size := math.Hypot(f.X, f.Y)
		if size < leastForce || d.Bent() {
			continue
		}
		d.Loads = append(d.Loads, describe.Load{
			Pos: p.Pos, Hole: describe.Word{Text: p.Hole.Text, Pos: p.Hole.Pos, Set: true},
			Force:     describe.Force{N: size, Pos: p.Pos, Set: true},
			Direction: describe.Angle{Rad: math.Atan2(f.Y, f.X), Pos: p.Pos, Set: true},
			Shear:     p.Shear, Threads: describe.Word{Text: "in"}, Repeated: describe.Flag{Yes: m.repeated(f.Case)},
			Factor: describe.Number{V: 1, Set: true}, Case: describe.Word{Text: caseName(f.Case), Set: true},
		})
	}
	return b
}

// leastForce is the force (N) under which a load is nothing: what rounding leaves
// of kilonewtons.
const leastForce = 0.001

func (m *maker) repeated(name string) bool {
	for i := range m.d.Loads {
		if m.d.Loads[i].Case.Text == name && m.d.Loads[i].Repeated.Yes {
			return true
		}
	}
	return false
}

// shareOf is the share of a pivot's force that each plate of a bracket takes.
// walls are how many of one piece its bolt goes through.
func shareOf(p *describe.JobPart, walls int) float64 {
	switch {
	case p.Share.Set:
		return p.Share.V
	case p.Joint != nil, walls == 2:
		return 0.5 // two of them, one on each side of the tube
	}
	return 1
}

// bracketAssumed is what is taken for granted of a bracket's loads.
func (m *maker) bracketAssumed(p *describe.JobPart) []string {
	share := "all"
	switch v := shareOf(p, 1); {
	case num.Same(v, 0.5):
		share = "half"
	case !num.Same(v, 1):
		share = num.Short(v, 3)
	}
	words := fmt.Sprintf("each plate at pivot %s takes %s of its force", p.At.Text, share)
	switch {
	case p.Joint != nil && !p.Share.Set:
		words += ", through one shear plane of the bolt: the plates stand alike on both sides of the tube"
	case p.Shear.Text == "double":
		words += ", through two shear planes of the bolt"
	default:
		words += ", through one shear plane of the bolt"
	}
	return append(append([]string(nil), m.j.Assumed...), words)
}

// joint gives a bracket what its bolt goes through.
func (m *maker) joint(p *describe.JobPart, d *describe.Part) {
	k := p.Joint
	if k == nil {
		return
	}
	pivot := m.j.described(p.At.Text)
	in := pivot.Bush
	if in == nil {
		in = pivot.Sleeve
	}
	if in == nil {
		m.problems.AddHint(k.Pos, "give the pivot a bush or a sleeve", "the joint at pivot %s has nothing to clamp", p.At.Text)
		return
	}
	d.Joints = append(d.Joints, describe.Joint{
		Pos: k.Pos, Hole: describe.Word{Text: p.Hole.Text, Pos: p.Hole.Pos, Set: true},
		Sleeve: &describe.Sleeve{Pos: in.Pos, Width: in.Length, Outside: in.Outside, Bore: in.Bore},
		Gap:    k.Gap, Held: k.Held, Spacer: k.Spacer, Washers: k.Washers, Nut: k.Nut, Threads: k.Threads, Length: k.Length,
	})
}
