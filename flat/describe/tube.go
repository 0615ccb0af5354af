package describe

import (
	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// Tube is the description of one round tube with both its ends.
type Tube struct {
	File     string
	Pos      diag.Pos // of the tube: line
	Name     Word
	Revision Word
	Quantity Count // 1 where not given
	Hand     Word  // "as drawn" (where not given), "mirrored", "pair"
	Units    unit.System
	Profile  Word
	Rules    Word // "aisc 360" (where not given), "aisc 360 lrfd", "aisc 360 asd"
	Section  Section
	Cut      Word   // "ground" (where not given): cut on the outside line, then ground to the inside line; "square": cut square through the wall
	Centres  Length // between the working points; or
	Length   Length // overall, by the longest points
	Turn     Angle  // of the second end's datum, as the first end counts
	First    TubeEnd
	Second   TubeEnd
	Paper    *WrapPaper
	Saw      *Saw
	HoleSaws *HoleSaws
	Stations Count // lines of the marking table; 24 where not given
	Weld     *TubeWeld
	Loads    []TubeLoad
	Waivers  []Waiver
	Note     Word
}

// Section is what a tube is made of.
type Section struct {
	Pos           diag.Pos
	Outside, Wall Length
	Material      Word
}

// TubeEnd is one end: square, or all that it meets.
type TubeEnd struct {
	Pos    diag.Pos
	Square bool
	Meets  []Meet
}

// Meet is one thing that a tube's end is cut to sit on. Exactly one of Main and
// Plate is given.
type Meet struct {
	Pos    diag.Pos
	Name   Word
	Main   Length // outside diameter of a tube or sleeve
	Plate  Flag
	Angle  Angle // between the axes, or between the axis and the plate's face; a right angle where not given
	Offset Length
	Turn   Angle  // of the heel, the longest side of a plate's cut
	At     Length // along the axis, from the working point into the tube
	Long   Length // of a sleeve; without end where not given
	Middle Length // of a sleeve, along its axis from where the axes pass, towards the toe
	Bore   Length // of a sleeve
	Beside Flag   // the tube may be wider than what it meets
}

// WrapPaper is what wrap templates are printed on.
type WrapPaper struct {
	Pos                    diag.Pos
	Thickness, Tab, Margin Length
	Seam                   Angle // generator of the seam; the best quarter where not given
}

// Saw is what sawing bars takes, and what there is to saw.
type Saw struct {
	Pos                   diag.Pos
	Kerf, Bar, Trim, Keep Length
}

// HoleSaws is what there is to cope with a hole saw.
type HoleSaws struct {
	Pos       diag.Pos
	Diameters []Length
	Cup       Length
	Least     Angle // between saw and tube that the jig holds
}

// TubeWeld is a fillet weld all round both ends.
type TubeWeld struct {
	Pos       diag.Pos
	Leg       Length
	Electrode Word // "e70" where not given
}

// TubeLoad is a force along the tube. Exactly one of Tension and Compression is
// given.
type TubeLoad struct {
	Pos                  diag.Pos
	Tension, Compression Force
	Factor               Number
	Case                 Word
}

var (
	tubeRules = [...]string{"aisc 360", "aisc 360 lrfd", "aisc 360 asd"}
	wallCuts  = [...]string{"ground", "square"}
)

const (
	maxMeets    = 20
	maxHoleSaws = 100
	leastCope   = 5.0 // degrees between the axes
)

var tubeKeys = mapping[Tube]{"a tube", []field[Tube]{
	{"tube", true, func(r *reader, n *node, t *Tube) { t.Name = r.partName(n) }},
	{"revision", false, func(r *reader, n *node, t *Tube) { t.Revision = r.word(n) }},
	{"quantity", false, func(r *reader, n *node, t *Tube) { t.Quantity = r.count(n, 1, maxCopies) }},
	{"hand", false, func(r *reader, n *node, t *Tube) { t.Hand = r.choice(n, "as drawn", "mirrored", "pair") }},
	{"units", false, func(r *reader, n *node, _ *Tube) { r.choice(n, unitWords[:]...) }},
	{"profile", false, func(r *reader, n *node, t *Tube) { t.Profile = r.word(n) }},
	{"rules", false, func(r *reader, n *node, t *Tube) { t.Rules = r.choice(n, tubeRules[:]...) }},
	{"let", false, func(*reader, *node, *Tube) {}},
	{"section", true, func(r *reader, n *node, t *Tube) { r.section(n, &t.Section) }},
	{"cut", false, func(r *reader, n *node, t *Tube) { t.Cut = r.choice(n, wallCuts[:]...) }},
	{"centres", false, func(r *reader, n *node, t *Tube) { t.Centres = r.positive(n) }},
	{"length", false, func(r *reader, n *node, t *Tube) { t.Length = r.positive(n) }},
	{"turn", false, func(r *reader, n *node, t *Tube) { t.Turn = r.angle(n, -360, 360) }},
	{"first", true, func(r *reader, n *node, t *Tube) { t.First = r.tubeEnd(n) }},
	{"second", true, func(r *reader, n *node, t *Tube) { t.Second = r.tubeEnd(n) }},
	{"paper", false, func(r *reader, n *node, t *Tube) { t.Paper = r.wrapPaper(n) }},
	{"saw", false, func(r *reader, n *node, t *Tube) { t.Saw = r.saw(n) }},
	{"hole saws", false, func(r *reader, n *node, t *Tube) { t.HoleSaws = r.holeSaws(n) }},
	{"stations", false, func(r *reader, n *node, t *Tube) { t.Stations = r.stations(n) }},
	{"weld", false, func(r *reader, n *node, t *Tube) { t.Weld = r.tubeWeld(n) }},
	{"loads", false, func(r *reader, n *node, t *Tube) { t.Loads = r.tubeLoads(n) }},
	{"waive", false, func(r *reader, n *node, t *Tube) { t.Waivers = r.plainWaivers(n) }},
	{"note", false, func(r *reader, n *node, t *Tube) { t.Note = r.word(n) }},
}}

var sectionKeys = mapping[Section]{"a section", []field[Section]{
	{"outside", true, func(r *reader, n *node, s *Section) { s.Outside = r.positive(n) }},
	{"wall", true, func(r *reader, n *node, s *Section) { s.Wall = r.positive(n) }},
	{"material", true, func(r *reader, n *node, s *Section) { s.Material = r.word(n) }},
}}

var meetKeys = mapping[Meet]{"what a tube meets", []field[Meet]{
	{"name", false, func(r *reader, n *node, m *Meet) { m.Name = r.word(n) }},
	{"main", false, func(r *reader, n *node, m *Meet) { m.Main = r.positive(n) }},
	{"plate", false, func(r *reader, n *node, m *Meet) { m.Plate = r.flag(n) }},
	{"angle", false, func(r *reader, n *node, m *Meet) { m.Angle = r.angle(n, leastCope, 90) }},
	{"offset", false, func(r *reader, n *node, m *Meet) { m.Offset, _ = r.length(n) }},
	{"turn", false, func(r *reader, n *node, m *Meet) { m.Turn = r.angle(n, -360, 360) }},
	{"at", false, func(r *reader, n *node, m *Meet) { m.At, _ = r.length(n) }},
	{"length", false, func(r *reader, n *node, m *Meet) { m.Long = r.positive(n) }},
	{"middle", false, func(r *reader, n *node, m *Meet) { m.Middle, _ = r.length(n) }},
	{"bore", false, func(r *reader, n *node, m *Meet) { m.Bore = r.positive(n) }},
	{"beside", false, func(r *reader, n *node, m *Meet) { m.Beside = r.flag(n) }},
}}

var wrapPaperKeys = mapping[WrapPaper]{"the paper", []field[WrapPaper]{
	{"thickness", false, func(r *reader, n *node, p *WrapPaper) { p.Thickness = r.notNegative(n) }},
	{"tab", false, func(r *reader, n *node, p *WrapPaper) { p.Tab = r.notNegative(n) }},
	{"margin", false, func(r *reader, n *node, p *WrapPaper) { p.Margin = r.positive(n) }},
	{"seam", false, func(r *reader, n *node, p *WrapPaper) { p.Seam = r.angle(n, -360, 360) }},
}}

var sawKeys = mapping[Saw]{"the saw", []field[Saw]{
	{"kerf", true, func(r *reader, n *node, s *Saw) { s.Kerf = r.notNegative(n) }},
	{"bar", true, func(r *reader, n *node, s *Saw) { s.Bar = r.positive(n) }},
	{"trim", false, func(r *reader, n *node, s *Saw) { s.Trim = r.notNegative(n) }},
	{"keep", false, func(r *reader, n *node, s *Saw) { s.Keep = r.notNegative(n) }},
}}

var holeSawKeys = mapping[HoleSaws]{"the hole saws", []field[HoleSaws]{
	{"diameters", false, func(r *reader, n *node, s *HoleSaws) { s.Diameters = r.lengths(n, maxHoleSaws) }},
	{"cup", false, func(r *reader, n *node, s *HoleSaws) { s.Cup = r.positive(n) }},
	{"least angle", false, func(r *reader, n *node, s *HoleSaws) { s.Least = r.angle(n, 0, 90) }},
}}

var tubeWeldKeys = mapping[TubeWeld]{"a tube's weld", []field[TubeWeld]{
	{"leg", true, func(r *reader, n *node, w *TubeWeld) { w.Leg = r.positive(n) }},
	{"electrode", false, func(r *reader, n *node, w *TubeWeld) { w.Electrode = r.choice(n, electrodes[:]...) }},
}}

var tubeLoadKeys = mapping[TubeLoad]{"a tube's load", []field[TubeLoad]{
	{"tension", false, func(r *reader, n *node, l *TubeLoad) { l.Tension = r.force(n, false) }},
	{"compression", false, func(r *reader, n *node, l *TubeLoad) { l.Compression = r.force(n, false) }},
	{"factor", false, func(r *reader, n *node, l *TubeLoad) { l.Factor = r.ranged(n, 0, 100) }},
	{"case", false, func(r *reader, n *node, l *TubeLoad) { l.Case = r.word(n) }},
}}

var plainWaiverKeys = mapping[Waiver]{"a waiver of a tube or a job", []field[Waiver]{
	{"rule", true, func(r *reader, n *node, w *Waiver) { w.Rule = r.word(n) }},
	{"reason", true, func(r *reader, n *node, w *Waiver) { w.Reason = r.word(n) }},
}}

// ParseTube reads the description of a tube. file is the name for messages. The
// error is diag.Problems with everything that is wrong with the text, in the
// order of the file; the tube is nil then.
func ParseTube(file string, text []byte) (*Tube, error) {
	return parseAs(file, text, (*reader).tube)
}

func (r *reader) tube(root *node) *Tube {
	t := &Tube{File: r.file}
	r.head(root, "tube", &t.Pos)
	t.Units = r.units
	found, ok := readMapping(r, root, &tubeKeys, t)
	if !ok {
		return nil
	}
	r.exactlyOne(root, "a tube", &found, "centres", "length")
	setWord(&t.Hand, "as drawn")
	setWord(&t.Rules, tubeRules[0])
	setWord(&t.Cut, wallCuts[0])
	if !t.Quantity.Set {
		t.Quantity.N = 1
	}
	if !t.Stations.Set {
		t.Stations.N = usualStations
	}
	if t.Hand.Text == "pair" && t.Quantity.Set && t.Quantity.N%2 != 0 {
		r.addHint(t.Quantity.Pos, "quantity counts both hands", "quantity is %d for a pair, wanted an even number", t.Quantity.N)
	}
	return t
}

const usualStations = 24

func (r *reader) section(n *node, s *Section) {
	s.Pos = r.pos(n)
	if found, ok := readMapping(r, n, &sectionKeys, s); ok && found.has("outside") && found.has("wall") &&
		s.Outside.MM > 0 && s.Wall.MM > s.Outside.MM/2 {
		r.addHint(s.Wall.Pos, "half the outside diameter is a solid bar", "wall is %s, more than half the outside diameter", quote(valueOf(n, "wall").text))
	}
}

// tubeEnd reads `square`, what the end meets, or a list of all that it meets.
func (r *reader) tubeEnd(n *node) TubeEnd {
	e := TubeEnd{Pos: r.pos(n)}
	switch n.kind {
	case scalarKind:
		w := r.choice(n, "square")
		e.Square = w.Set
	case listKind:
		if r.list(n, 1, "mains and plates") {
			e.Meets = items(r, n, "what a tube meets", "mains and plates", maxMeets, (*reader).meet)
		}
	default:
		var m Meet
		r.meet(n, &m)
		e.Meets = []Meet{m}
	}
	return e
}

func (r *reader) meet(n *node, m *Meet) {
	m.Pos = r.pos(n)
	found, ok := readMapping(r, n, &meetKeys, m)
	if !ok {
		return
	}
	r.exactlyOne(n, "what a tube meets", &found, "main", "plate")
	if k := found.get("plate"); k != nil && m.Plate.Set && !m.Plate.Yes {
		r.addHint(m.Plate.Pos, "leave it out", "plate is no, wanted yes")
	}
	for _, key := range [...]string{"offset", "length", "middle", "bore", "beside"} {
		if !found.has("main") && !found.has("plate") {
			break
		}
		r.goesWith("what a tube meets", &found, key, "main")
	}
	r.goesWith("what a tube meets", &found, "middle", "length")
	if m.Bore.Set && m.Main.Set && m.Bore.MM > 0 && m.Main.MM > 0 && m.Bore.MM >= m.Main.MM {
		r.addHint(m.Bore.Pos, "both are diameters", "the bore is no smaller than the outside of the sleeve")
	}
}

func (r *reader) wrapPaper(n *node) *WrapPaper {
	p := &WrapPaper{Pos: r.pos(n)}
	readMapping(r, n, &wrapPaperKeys, p)
	return p
}

func (r *reader) saw(n *node) *Saw {
	s := &Saw{Pos: r.pos(n)}
	readMapping(r, n, &sawKeys, s)
	return s
}

func (r *reader) holeSaws(n *node) *HoleSaws {
	s := &HoleSaws{Pos: r.pos(n)}
	readMapping(r, n, &holeSawKeys, s)
	return s
}

// lengths reads a list of lengths over nothing.
func (r *reader) lengths(n *node, most int) []Length {
	if !r.list(n, 1, "lengths") {
		return nil
	}
	if int(n.kids) > most {
		r.add(r.pos(n), "%s is a list of %d, at most %d are read", r.key, n.kids, most)
		return nil
	}
	ls := make([]Length, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		ls = append(ls, r.positive(item))
	}
	return ls
}

// stations reads how many lines the marking table has.
func (r *reader) stations(n *node) Count {
	c := r.count(n, 4, 360)
	if c.Set && c.N%4 != 0 {
		r.addHint(c.Pos, "12, 24 and 36 are usual", "stations is %d, wanted a multiple of 4", c.N)
	}
	return c
}

func (r *reader) tubeWeld(n *node) *TubeWeld {
	w := &TubeWeld{Pos: r.pos(n)}
	readMapping(r, n, &tubeWeldKeys, w)
	setWord(&w.Electrode, electrodes[1])
	return w
}

func (r *reader) tubeLoads(n *node) []TubeLoad {
	ls := items(r, n, "a tube's load", "loads like {compression: 17 kN}", mostLoads, func(r *reader, n *node, l *TubeLoad) {
		l.Pos = r.pos(n)
		if found, ok := readMapping(r, n, &tubeLoadKeys, l); ok {
			r.exactlyOne(n, "a tube's load", &found, "tension", "compression")
		}
	})
	if len(ls) > 1 {
		for i := range ls {
			if !ls[i].Case.Set {
				r.addHint(ls[i].Pos, "give each load a case of its own", "a load has no case, and there are %d loads", len(ls))
			}
		}
	}
	return ls
}

func (r *reader) plainWaivers(n *node) []Waiver {
	return items(r, n, "a waiver of a tube or a job", "waivers like {rule: tube-inside, reason: ...}", mostLoads, func(r *reader, n *node, w *Waiver) {
		w.Pos = r.pos(n)
		readMapping(r, n, &plainWaiverKeys, w)
	})
}
