package describe

import (
	"fmt"
	"math"
	"strings"

	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// Job is the description of parts and tubes that belong together: a link with
// its brackets.
type Job struct {
	File     string
	Pos      diag.Pos // of the job: line
	Name     Word
	Revision Word
	Quantity Count // sets; 1 where not given
	Units    unit.System
	Profile  Word
	Pivots   []JobPivot
	Base     []Word // three pivots or marks that the distances are laid out from
	Measured []MeasuredDistance
	Within   Length // how far a distance may be off; half a millimetre where not given
	Tubes    []JobTube
	Parts    []JobPart
	Supports []JobSupport
	Axle     *Axle
	Loads    []JobLoad
	Stock    *JobStock
	Waivers  []Waiver
	Note     Word
}

// Vector is three lengths or three bare numbers: forward, left, up.
type Vector struct {
	X, Y, Z float64
	Pos     diag.Pos
	Set     bool
}

// JobPivot is a pin joint, or a mark that distances were measured from.
type JobPivot struct {
	Name   Word
	Pos    diag.Pos
	At     Vector // mm; where it is not given distances tell
	Near   Vector // mm: about where it is
	Axis   Vector // of sleeve and bolt
	Sleeve *PivotTube
	Bush   *PivotTube
}

// PivotTube is a sleeve or a bush at a pivot, its middle at the pivot.
type PivotTube struct {
	Pos                   diag.Pos
	Outside, Bore, Length Length
	Material              Word
}

// MeasuredDistance is a distance taken between two pivots.
type MeasuredDistance struct {
	Pos      diag.Pos
	From, To Word
	Distance Length
}

// JobTube is a tube between two pivots.
type JobTube struct {
	Name     Word
	Pos      diag.Pos
	File     Word
	From, To Word
}

// JobPart is a flat part; at a pivot it is a bracket there.
type JobPart struct {
	Name  Word
	Pos   diag.Pos
	File  Word
	At    Word // the pivot
	Hole  Word // of the part, at the pivot
	Right Vector
	Up    Vector
	Share Number // of the pivot's force that one of them takes; where not given half of it with a joint, else all
	Shear Word   // "double" (where not given), "single"; with a joint always "single": each plate has one plane
	Joint *JobJoint
}

// JobJoint is what the bolt at a bracket's pivot holds together: the pivot's bush,
// or its sleeve, between two of these plates.
type JobJoint struct {
	Pos     diag.Pos
	Gap     Length
	Spacer  Length
	Washers Count // 1 where not given
	Nut     Word  // "plain" (where not given), "lock", "thin"
	Threads Word  // "in" (where not given), "out"
	Length  Length
	Held    Word // "welded" (where not given), "bolted"
}

// JobSupport holds a pivot, along some directions or all three.
type JobSupport struct {
	Pos   diag.Pos
	At    Word
	Along []Vector
}

// JobLoad is an outside force on a pivot. Exactly one of Force and From is given.
type JobLoad struct {
	Pos       diag.Pos
	At        Word
	Force     Force
	From      Word // "drive", "traction", "braking"
	Link      Word
	Direction Vector
	Factor    Number
	Repeated  Flag
	Case      Word
}

// JobStock is what tubes and sleeves are sawn from.
type JobStock struct {
	Pos              diag.Pos
	Kerf, Trim, Keep Length
	Bars             []Length
}

// Bounds of a job.
const (
	maxJobItems = 200
	usualWithin = 0.5 // mm: a tape measure's half millimetre (common practice)
)

var jobKeys = mapping[Job]{"a job", []field[Job]{
	{"job", true, func(r *reader, n *node, j *Job) { j.Name = r.partName(n) }},
	{"revision", false, func(r *reader, n *node, j *Job) { j.Revision = r.word(n) }},
	{"quantity", false, func(r *reader, n *node, j *Job) { j.Quantity = r.count(n, 1, maxCopies) }},
	{"units", false, func(r *reader, n *node, _ *Job) { r.choice(n, unitWords[:]...) }},
	{"profile", false, func(r *reader, n *node, j *Job) { j.Profile = r.word(n) }},
	{"let", false, func(*reader, *node, *Job) {}},
	{"pivots", true, func(r *reader, n *node, j *Job) {
		j.Pivots = named(r, n, "a pivot", maxJobItems, func(r *reader, n *node, p *JobPivot) {
			p.Name, p.Pos = r.lastName, r.pos(n)
			readMapping(r, n, &pivotKeys, p)
		})
	}},
	{"measured", false, func(r *reader, n *node, j *Job) {
		j.Measured = items(r, n, "a measured distance", "distances like {from: a, to: b, distance: 640}", 10*maxJobItems, func(r *reader, n *node, m *MeasuredDistance) {
			m.Pos = r.pos(n)
			readMapping(r, n, &measuredKeys, m)
		})
	}},
	{"base", false, func(r *reader, n *node, j *Job) { j.Base = r.threeNames(n) }},
	{"within", false, func(r *reader, n *node, j *Job) { j.Within = r.positive(n) }},
	{"tubes", false, func(r *reader, n *node, j *Job) {
		j.Tubes = named(r, n, "a tube of a job", maxJobItems, func(r *reader, n *node, t *JobTube) {
			t.Name, t.Pos = r.lastName, r.pos(n)
			readMapping(r, n, &jobTubeKeys, t)
		})
	}},
	{"parts", false, func(r *reader, n *node, j *Job) {
		j.Parts = named(r, n, "a part of a job", maxJobItems, (*reader).jobPart)
	}},
	{"supports", false, func(r *reader, n *node, j *Job) {
		j.Supports = items(r, n, "a support", "supports like {at: frame}", maxJobItems, func(r *reader, n *node, s *JobSupport) {
			s.Pos = r.pos(n)
			readMapping(r, n, &supportKeys, s)
		})
	}},
	{"axle", false, func(r *reader, n *node, j *Job) { j.Axle = r.axle(n) }},
	{"loads", false, func(r *reader, n *node, j *Job) {
		j.Loads = items(r, n, "a job's load", "loads like {at: axle, force: 8.5 kN, direction: [1, 0, 0], case: drive}", mostLoads, (*reader).jobLoad)
	}},
	{"stock", false, func(r *reader, n *node, j *Job) {
		j.Stock = &JobStock{Pos: r.pos(n)}
		readMapping(r, n, &stockKeys, j.Stock)
	}},
	{"waive", false, func(r *reader, n *node, j *Job) { j.Waivers = r.plainWaivers(n) }},
	{"note", false, func(r *reader, n *node, j *Job) { j.Note = r.word(n) }},
}}

var pivotKeys = mapping[JobPivot]{"a pivot", []field[JobPivot]{
	{"at", false, func(r *reader, n *node, p *JobPivot) { p.At = r.place3(n) }},
	{"near", false, func(r *reader, n *node, p *JobPivot) { p.Near = r.place3(n) }},
	{"axis", false, func(r *reader, n *node, p *JobPivot) { p.Axis = r.direction3(n) }},
	{"sleeve", false, func(r *reader, n *node, p *JobPivot) { p.Sleeve = r.pivotTube(n) }},
	{"bush", false, func(r *reader, n *node, p *JobPivot) { p.Bush = r.pivotTube(n) }},
}}

var pivotTubeKeys = mapping[PivotTube]{"a pivot's sleeve or bush", []field[PivotTube]{
	{"outside", true, func(r *reader, n *node, s *PivotTube) { s.Outside = r.positive(n) }},
	{"bore", true, func(r *reader, n *node, s *PivotTube) { s.Bore = r.positive(n) }},
	{"length", true, func(r *reader, n *node, s *PivotTube) { s.Length = r.positive(n) }},
	{"material", false, func(r *reader, n *node, s *PivotTube) { s.Material = r.word(n) }},
}}

var measuredKeys = mapping[MeasuredDistance]{"a measured distance", []field[MeasuredDistance]{
	{"from", true, func(r *reader, n *node, m *MeasuredDistance) { m.From = r.word(n) }},
	{"to", true, func(r *reader, n *node, m *MeasuredDistance) { m.To = r.word(n) }},
	{"distance", true, func(r *reader, n *node, m *MeasuredDistance) { m.Distance = r.positive(n) }},
}}

var jobTubeKeys = mapping[JobTube]{"a tube of a job", []field[JobTube]{
	{"file", true, func(r *reader, n *node, t *JobTube) { t.File = r.word(n) }},
	{"from", true, func(r *reader, n *node, t *JobTube) { t.From = r.word(n) }},
	{"to", true, func(r *reader, n *node, t *JobTube) { t.To = r.word(n) }},
}}

var jobPartKeys = mapping[JobPart]{"a part of a job", []field[JobPart]{
	{"file", true, func(r *reader, n *node, p *JobPart) { p.File = r.word(n) }},
	{"at", false, func(r *reader, n *node, p *JobPart) { p.At = r.word(n) }},
	{"hole", false, func(r *reader, n *node, p *JobPart) { p.Hole = r.word(n) }},
	{"right", false, func(r *reader, n *node, p *JobPart) { p.Right = r.direction3(n) }},
	{"up", false, func(r *reader, n *node, p *JobPart) { p.Up = r.direction3(n) }},
	{"share", false, func(r *reader, n *node, p *JobPart) { p.Share = r.ranged(n, 0, 1) }},
	{"shear", false, func(r *reader, n *node, p *JobPart) { p.Shear = r.choice(n, "double", "single") }},
	{"joint", false, func(r *reader, n *node, p *JobPart) { p.Joint = r.jobJoint(n) }},
}}

var jobJointKeys = mapping[JobJoint]{"a job's joint", []field[JobJoint]{
	{"gap", true, func(r *reader, n *node, j *JobJoint) { j.Gap = r.positive(n) }},
	{"held", false, func(r *reader, n *node, j *JobJoint) { j.Held = r.choice(n, helds[:]...) }},
	{"spacer", false, func(r *reader, n *node, j *JobJoint) { j.Spacer = r.notNegative(n) }},
	{"washers", false, func(r *reader, n *node, j *JobJoint) { j.Washers = r.count(n, 0, maxWashers) }},
	{"nut", false, func(r *reader, n *node, j *JobJoint) { j.Nut = r.choice(n, nutKinds[:]...) }},
	{"threads", false, func(r *reader, n *node, j *JobJoint) { j.Threads = r.choice(n, "in", "out") }},
	{"length", false, func(r *reader, n *node, j *JobJoint) { j.Length = r.positive(n) }},
}}

var supportKeys = mapping[JobSupport]{"a support", []field[JobSupport]{
	{"at", true, func(r *reader, n *node, s *JobSupport) { s.At = r.word(n) }},
	{"along", false, func(r *reader, n *node, s *JobSupport) {
		if !r.list(n, 1, "directions like [1, 0, 0]") {
			return
		}
		if n.first != nil && n.first.kind != listKind {
			s.Along = append(s.Along, r.direction3(n))
			return
		}
		for item := n.first; item != nil; item = item.next {
			s.Along = append(s.Along, r.direction3(item))
		}
	}},
}}

var jobLoadKeys = mapping[JobLoad]{"a job's load", []field[JobLoad]{
	{"at", true, func(r *reader, n *node, l *JobLoad) { l.At = r.word(n) }},
	{"force", false, func(r *reader, n *node, l *JobLoad) { l.Force = r.force(n, false) }},
	{"from", false, func(r *reader, n *node, l *JobLoad) { l.From = r.choice(n, "drive", "traction", "braking") }},
	{"link", false, func(r *reader, n *node, l *JobLoad) { l.Link = r.choice(n, "lower", "upper") }},
	{"direction", true, func(r *reader, n *node, l *JobLoad) { l.Direction = r.direction3(n) }},
	{"factor", false, func(r *reader, n *node, l *JobLoad) { l.Factor = r.ranged(n, 0, 100) }},
	{"repeated", false, func(r *reader, n *node, l *JobLoad) { l.Repeated = r.flag(n) }},
	{"case", true, func(r *reader, n *node, l *JobLoad) { l.Case = r.word(n) }},
}}

var stockKeys = mapping[JobStock]{"the stock", []field[JobStock]{
	{"bars", true, func(r *reader, n *node, s *JobStock) { s.Bars = r.lengths(n, maxJobItems) }},
	{"kerf", true, func(r *reader, n *node, s *JobStock) { s.Kerf = r.notNegative(n) }},
	{"trim", false, func(r *reader, n *node, s *JobStock) { s.Trim = r.notNegative(n) }},
	{"keep", false, func(r *reader, n *node, s *JobStock) { s.Keep = r.notNegative(n) }},
}}

// ParseJob reads the description of a job. file is the name for messages. The
// error is diag.Problems with everything that is wrong with the text.
func ParseJob(file string, text []byte) (*Job, error) { return parseAs(file, text, (*reader).job) }

func (r *reader) job(root *node) *Job {
	j := &Job{File: r.file}
	r.head(root, "job", &j.Pos)
	j.Units = r.units
	found, ok := readMapping(r, root, &jobKeys, j)
	if !ok {
		return nil
	}
	if !j.Quantity.Set {
		j.Quantity.N = 1
	}
	if !j.Within.Set {
		j.Within.MM = usualWithin
	}
	if !found.has("tubes") && !found.has("parts") && len(found.meant) == 0 {
		r.addHint(r.pos(root), "add tubes: or parts:", "a job has neither tubes nor parts")
	}
	r.goesWith("a job", &found, "base", "measured")
	r.goesWith("a job", &found, "loads", "supports")
	r.goesWith("a job", &found, "supports", "tubes")
	r.jobNames(j)
	return j
}

// named reads a mapping of names to things of one kind. The name of the one being
// read is r.lastName.
func named[T any](r *reader, n *node, what string, most int, read func(*reader, *node, *T)) []T {
	switch {
	case n.kind == brokenKind:
		return nil
	case n.empty():
		r.nothing(n, "a mapping of names to values")
		return nil
	case n.kind != mappingKind:
		r.add(r.pos(n), "%s is %s, wanted a mapping of names to values", r.key, met(n))
		return nil
	case n.kids == 0:
		r.add(r.pos(n), "%s has no entries, wanted a mapping of names to values", r.key)
		return nil
	}
	if int(n.kids)/2 > most {
		r.add(r.pos(n), "%s has %d entries, at most %d are read", r.key, n.kids/2, most)
		return nil
	}
	out := make([]T, 0, n.kids/2)
	before := map[string]Word{}
	for key := n.first; key != nil; key = key.next.next {
		name := r.name(key, what)
		if first, twice := before[name.Text]; twice && name.Set {
			r.nameTwice(name, what[strings.Index(what, " ")+1:], first)
		}
		before[name.Text] = name
		r.lastName = name
		r.key, r.keyNode = what, nil
		var v T
		read(r, key.next, &v)
		out = append(out, v)
	}
	return out
}

// vector reads [forward, left, up] by the reader given.
func (r *reader) vector(n *node, wanted string, one func(*node) (float64, bool)) Vector {
	v := Vector{Pos: r.pos(n)}
	if n.kind == brokenKind {
		return v
	}
	if n.kind != listKind || n.kids != 3 {
		switch {
		case n.empty():
			r.nothing(n, wanted)
		case n.kind == listKind:
			r.add(v.Pos, "%s is a list of %d, wanted %s", r.key, n.kids, wanted)
		default:
			r.add(v.Pos, "%s is %s, wanted %s", r.key, met(n), wanted)
		}
		return v
	}
	all := true
	for i, item := 0, n.first; item != nil; i, item = i+1, item.next {
		f, ok := one(item)
		all = all && ok
		*[3]*float64{&v.X, &v.Y, &v.Z}[i] = f
	}
	v.Set = all
	return v
}

// place3 reads [forward, left, up] in lengths.
func (r *reader) place3(n *node) Vector {
	return r.vector(n, "[forward, left, up]", func(n *node) (float64, bool) {
		l, ok := r.length(n)
		return l.MM, ok
	})
}

// largestPart bounds the parts of a direction: a direction has any length, but
// not one that leaves nothing of its smaller parts.
const largestPart = 1e6

// direction3 reads a direction: [forward, left, up] in bare numbers.
func (r *reader) direction3(n *node) Vector {
	v := r.vector(n, "[forward, left, up] in bare numbers", func(n *node) (float64, bool) {
		text, ok := r.value(n, "a number")
		if !ok {
			return 0, false
		}
		f, ok := r.number(n, text)
		if ok && !(math.Abs(f) <= largestPart) {
			r.add(r.pos(n), "%s is %s, wanted at most %g", r.key, quote(n.text), largestPart)
			return 0, false
		}
		return f + 0, ok
	})
	if v.Set && v.X == 0 && v.Y == 0 && v.Z == 0 {
		r.add(v.Pos, "%s has no length, wanted a direction like [0, 1, 0]", r.key)
		v.Set = false
	}
	return v
}

func (r *reader) pivotTube(n *node) *PivotTube {
	s := &PivotTube{Pos: r.pos(n)}
	readMapping(r, n, &pivotTubeKeys, s)
	if s.Bore.Set && s.Outside.Set && s.Bore.MM > 0 && s.Outside.MM > 0 && s.Bore.MM >= s.Outside.MM {
		r.addHint(s.Bore.Pos, "both are diameters", "the bore is no smaller than the outside")
	}
	return s
}

func (r *reader) jobPart(n *node, p *JobPart) {
	p.Name, p.Pos = r.lastName, r.pos(n)
	found, ok := readMapping(r, n, &jobPartKeys, p)
	switch {
	case p.Joint == nil:
		setWord(&p.Shear, "double")
	case p.Shear.Set:
		r.addHint(p.Shear.Pos, "leave it out: two plates clamp the bush, and each has one shear plane for its share", "shear goes with a plate without joint")
	default:
		setWord(&p.Shear, "single")
	}
	if !ok {
		return
	}
	for _, key := range [...]string{"hole", "right", "up", "share", "shear", "joint"} {
		r.goesWith("a part of a job", &found, key, "at")
	}
	for _, key := range [...]string{"hole", "right", "up"} {
		r.goesWith("a part of a job", &found, "at", key)
	}
	if p.Right.Set && p.Up.Set {
		dot := p.Right.X*p.Up.X + p.Right.Y*p.Up.Y + p.Right.Z*p.Up.Z
		if math.Abs(dot) > notSquare*p.Right.size()*p.Up.size() {
			r.addHint(p.Up.Pos, "right is the plate's x, up its y, as seen on the vehicle", "up is not square to right")
		}
	}
}

// notSquare is the cosine of the angle by which two directions may miss a right
// one, about half a degree: directions are written with few digits.
const notSquare = 0.01

func (v Vector) size() float64 { return math.Hypot(math.Hypot(v.X, v.Y), v.Z) }

func (r *reader) jobJoint(n *node) *JobJoint {
	j := &JobJoint{Pos: r.pos(n)}
	readMapping(r, n, &jobJointKeys, j)
	setWord(&j.Held, helds[0])
	setWord(&j.Nut, nutKinds[0])
	setWord(&j.Threads, "in")
	if !j.Washers.Set {
		j.Washers.N = 1
	}
	return j
}

func (r *reader) jobLoad(n *node, l *JobLoad) {
	l.Pos = r.pos(n)
	if found, ok := readMapping(r, n, &jobLoadKeys, l); ok {
		r.exactlyOne(n, "a job's load", &found, "force", "from")
		r.goesWith("a job's load", &found, "link", "from")
	}
}

func (r *reader) threeNames(n *node) []Word {
	if !r.list(n, 3, "three pivots") {
		return nil
	}
	if n.kids != 3 {
		r.add(r.pos(n), "%s is a list of %d, wanted three pivots", r.key, n.kids)
		return nil
	}
	var out []Word
	for item := n.first; item != nil; item = item.next {
		out = append(out, r.word(item))
	}
	return out
}

// jobNames checks that what is named is there.
func (r *reader) jobNames(j *Job) {
	var known []string
	all := true // else what is not known may be one that was misnamed, and is told there
	for i := range j.Pivots {
		name := j.Pivots[i].Name
		all = all && name.Set
		known = append(known, name.Text)
	}
	see := func(w Word) {
		if !w.Set || !all {
			return
		}
		for _, k := range known {
			if k == w.Text {
				return
			}
		}
		hint := "the pivots are " + strings.Join(known, ", ")
		if near := diag.Nearest(w.Text, known); near != "" {
			hint = "write " + near
		}
		if len(known) == 0 {
			hint = ""
		}
		r.addHint(w.Pos, hint, "there is no pivot %s", quote(w.Text))
	}
	for _, w := range j.Base {
		see(w)
	}
	for i := range j.Measured {
		see(j.Measured[i].From)
		see(j.Measured[i].To)
	}
	for i := range j.Tubes {
		see(j.Tubes[i].From)
		see(j.Tubes[i].To)
	}
	for i := range j.Parts {
		see(j.Parts[i].At)
	}
	for i := range j.Supports {
		see(j.Supports[i].At)
	}
	for i := range j.Loads {
		see(j.Loads[i].At)
		r.jobLoadNeeds(j, &j.Loads[i])
	}
	for i := range j.Pivots {
		p := &j.Pivots[i]
		if (p.Sleeve != nil || p.Bush != nil) && !p.Axis.Set && p.Axis.Pos.Line == 0 {
			r.addHint(p.Pos, "add axis: [0, 1, 0] for one across the vehicle", "pivot %s has a sleeve or a bush and no axis", p.Name.Text)
		}
		if !p.At.Set && len(j.Measured) == 0 {
			r.addHint(p.Pos, "add at: [forward, left, up], or measured: with its distances", "pivot %s has no place", p.Name.Text)
		}
	}
}

// jobLoadNeeds reports what the axle lacks for a load that is worked out.
func (r *reader) jobLoadNeeds(j *Job, l *JobLoad) {
	if !l.From.Set {
		return
	}
	p := &Part{Axle: j.Axle, Loads: []Load{{From: l.From, Link: l.Link}}}
	r.loadNames(p)
}

// String writes a vector for messages.
func (v Vector) String() string { return fmt.Sprintf("[%g, %g, %g]", v.X, v.Y, v.Z) }
