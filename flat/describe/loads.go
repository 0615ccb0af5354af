package describe

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// Force is a force in N. Given as a mass its weight under standard gravity
// stands.
type Force struct {
	N   float64
	Pos diag.Pos
	Set bool
}

// Torque is a couple in N·mm.
type Torque struct {
	NMM float64
	Pos diag.Pos
	Set bool
}

// Number is a bare number.
type Number struct {
	V   float64
	Pos diag.Pos
	Set bool
}

// Load is one entry of loads: what acts on the plate, as the plate feels it.
type Load struct {
	Pos       diag.Pos
	Hole      Word   // at: one hole
	Group     []Word // holes or patterns that share it
	Edge      Word   // a saddle or a tab: at its middle
	Point     *Point // at: [x, y], with On, or with Group
	Force     Force
	From      Word // "drive", "traction", "braking": worked out from axle
	Link      Word // "lower", "upper": which of two links
	Direction Angle
	Moment    Torque // counter-clockwise positive
	Tension   Force  // along the bolts' axes, pulling the plate off
	Shear     Word   // "single" (where not given), "double"
	Threads   Word   // "in" (where not given), "out" of the shear plane
	As        Word   // "bolt", "pin"; "" where the hole tells
	Repeated  Flag
	Factor    Number
	Case      Word
}

// Axle is what loads are worked out from.
type Axle struct {
	Pos        diag.Pos
	Motor      Torque
	Ratio      Number
	Efficiency Number
	Tyre       Length // radius under load
	Load       Force  // on the axle
	Grip       Number
	Link       *Links
}

// Links hold the axle's torque: one at Arm from the springs' line, or two,
// Above and Below the axle.
type Links struct {
	Pos               diag.Pos
	Arm, Above, Below Length
}

// Weld is a fillet weld along an edge: all of a saddle or a tab's root, or from
// place to place along a straight edge.
type Weld struct {
	Pos       diag.Pos
	Name      Word
	Edge      Word
	From, To  *Point
	Leg       Length
	Both      Flag   // both sides of the plate
	Length    Length // in the middle of the edge; all of it where not given
	Electrode Word   // "e60" to "e110"; "e70" where not given
	Ends      Length // what counts for nothing at each end; one leg where not given
}

// mostLoads is the largest number of loads and of welds, each.
const mostLoads = 200

// standardGravity (m/s2) makes a weight of a mass: 3rd General Conference on
// Weights and Measures, 1901.
const standardGravity = 9.80665

// Bounds of what may be written: far beyond what plate of this kind carries.
const (
	maxForce  = 1e9  // N
	maxTorque = 1e12 // N·mm
)

var electrodes = [...]string{"e60", "e70", "e80", "e90", "e100", "e110"}

var loadKeys = mapping[Load]{"a load", []field[Load]{
	{"at", false, func(r *reader, n *node, l *Load) {
		if n.kind == listKind {
			p := r.point(n)
			l.Point = &p
			return
		}
		l.Hole = r.holeRef(n)
	}},
	{"on", false, func(r *reader, n *node, l *Load) { l.Group = append(l.Group, r.holeRefs(n)...) }},
	{"group", false, func(r *reader, n *node, l *Load) { l.Group = append(l.Group, r.holeRefs(n)...) }},
	{"edge", false, func(r *reader, n *node, l *Load) { l.Edge = r.edgeRef(n) }},
	{"force", false, func(r *reader, n *node, l *Load) { l.Force = r.force(n, false) }},
	{"from", false, func(r *reader, n *node, l *Load) { l.From = r.choice(n, "drive", "traction", "braking") }},
	{"link", false, func(r *reader, n *node, l *Load) { l.Link = r.choice(n, "lower", "upper") }},
	{"direction", false, func(r *reader, n *node, l *Load) { l.Direction = r.angle(n, -360, 360) }},
	{"moment", false, func(r *reader, n *node, l *Load) { l.Moment = r.torque(n) }},
	{"tension", false, func(r *reader, n *node, l *Load) { l.Tension = r.force(n, false) }},
	{"shear", false, func(r *reader, n *node, l *Load) { l.Shear = r.choice(n, "single", "double") }},
	{"threads", false, func(r *reader, n *node, l *Load) { l.Threads = r.choice(n, "in", "out") }},
	{"as", false, func(r *reader, n *node, l *Load) { l.As = r.choice(n, "bolt", "pin") }},
	{"repeated", false, func(r *reader, n *node, l *Load) { l.Repeated = r.flag(n) }},
	{"factor", false, func(r *reader, n *node, l *Load) { l.Factor = r.ranged(n, 0, 100) }},
	{"case", false, func(r *reader, n *node, l *Load) { l.Case = r.word(n) }},
}}

var axleKeys = mapping[Axle]{"the axle", []field[Axle]{
	{"motor", false, func(r *reader, n *node, a *Axle) { a.Motor = r.torque(n) }},
	{"ratio", false, func(r *reader, n *node, a *Axle) { a.Ratio = r.ranged(n, 0, 10_000) }},
	{"efficiency", false, func(r *reader, n *node, a *Axle) { a.Efficiency = r.ranged(n, 0, 1) }},
	{"tyre", false, func(r *reader, n *node, a *Axle) { a.Tyre = r.positive(n) }},
	{"load", false, func(r *reader, n *node, a *Axle) { a.Load = r.force(n, true) }},
	{"grip", false, func(r *reader, n *node, a *Axle) { a.Grip = r.ranged(n, 0, 5) }},
	{"link", false, func(r *reader, n *node, a *Axle) { a.Link = r.links(n) }},
}}

var linksKeys = mapping[Links]{"the link", []field[Links]{
	{"arm", false, func(r *reader, n *node, k *Links) { k.Arm = r.positive(n) }},
	{"above", false, func(r *reader, n *node, k *Links) { k.Above = r.positive(n) }},
	{"below", false, func(r *reader, n *node, k *Links) { k.Below = r.positive(n) }},
}}

var weldKeys = mapping[Weld]{"a weld", []field[Weld]{
	{"name", false, func(r *reader, n *node, w *Weld) { w.Name = r.ownName(n, "a weld") }},
	{"edge", false, func(r *reader, n *node, w *Weld) { w.Edge = r.edgeRef(n) }},
	{"from", false, func(r *reader, n *node, w *Weld) { p := r.point(n); w.From = &p }},
	{"to", false, func(r *reader, n *node, w *Weld) { p := r.point(n); w.To = &p }},
	{"leg", true, func(r *reader, n *node, w *Weld) { w.Leg = r.positive(n) }},
	{"both sides", false, func(r *reader, n *node, w *Weld) { w.Both = r.flag(n) }},
	{"length", false, func(r *reader, n *node, w *Weld) { w.Length = r.positive(n) }},
	{"electrode", false, func(r *reader, n *node, w *Weld) { w.Electrode = r.choice(n, electrodes[:]...) }},
	{"ends", false, func(r *reader, n *node, w *Weld) { w.Ends = r.notNegative(n) }},
}}

// quantity reads a value of one kind up to most; of nothing it is told that over is
// wanted.
func (r *reader) quantity(n *node, wanted, over string, most float64, read func(string) (float64, error)) (v float64, set bool) {
	text, ok := r.value(n, wanted)
	if !ok {
		return 0, false
	}
	v, err := read(text)
	switch {
	case err != nil:
		r.unitProblem(n, err)
		return 0, false
	case v == 0:
		r.add(r.pos(n), "%s is %s, wanted %s", r.key, quote(n.text), over)
	case !(math.Abs(v) <= most):
		r.addHint(r.pos(n), "is the unit right?", "%s is %s, which is out of reach", r.key, quote(n.text))
		return 0, false
	}
	return v, true
}

// force reads a force over nothing; where a mass may stand, that of a mass in kg.
func (r *reader) force(n *node, mass bool) Force {
	f := Force{Pos: r.pos(n)}
	f.N, f.Set = r.quantity(n, "a force like 8.5 kN", "more than 0", maxForce, func(text string) (float64, error) {
		if kg, ok := strings.CutSuffix(strings.TrimSpace(text), "kg"); ok && mass {
			v, err := unit.Number(kg, r.env)
			return v * standardGravity, err
		}
		return unit.Force(text, r.env)
	})
	if f.Set && f.N < 0 {
		if r.key == "force" {
			r.addHint(f.Pos, "turn its direction round", "%s is %s, wanted more than 0", r.key, quote(n.text))
		} else {
			r.add(f.Pos, "%s is %s, wanted more than 0", r.key, quote(n.text))
		}
	}
	return f
}

// torque reads a couple of either sign.
func (r *reader) torque(n *node) Torque {
	t := Torque{Pos: r.pos(n)}
	t.NMM, t.Set = r.quantity(n, "a torque like 95 N.m", "other than 0", maxTorque, func(text string) (float64, error) {
		return unit.Torque(text, r.env)
	})
	return t
}

// ranged reads a bare number above least and up to most.
func (r *reader) ranged(n *node, least, most float64) Number {
	v := Number{Pos: r.pos(n)}
	text, ok := r.value(n, "a number")
	if !ok {
		return v
	}
	f, ok := r.number(n, text)
	if !ok {
		return v
	}
	if !(f > least && f <= most) {
		r.add(v.Pos, "%s is %s, wanted more than %s and at most %s", r.key, quote(text),
			strconv.FormatFloat(least, 'g', -1, 64), strconv.FormatFloat(most, 'g', -1, 64))
		return v
	}
	v.V, v.Set = f, true
	return v
}

// holeRefs reads a list of holes and patterns, or one of them.
func (r *reader) holeRefs(n *node) []Word {
	one := func(n *node) (w Word) {
		if w = r.word(n); w.Set {
			r.refs = append(r.refs, ref{w, false})
		}
		return w
	}
	if n.kind != listKind {
		return []Word{one(n)}
	}
	if !r.list(n, 1, "hole names") {
		return nil
	}
	ws := make([]Word, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		w := one(item)
		if w.Set && slices.ContainsFunc(ws, func(v Word) bool { return v.Text == w.Text }) {
			r.addHint(w.Pos, "name it once", "%q is named twice", w.Text)
			continue
		}
		ws = append(ws, w)
	}
	return ws
}

// edgeRef reads the name of an edge: of a saddle or a tab.
func (r *reader) edgeRef(n *node) Word { return r.word(n) }

func (r *reader) links(n *node) *Links {
	k := &Links{Pos: r.pos(n)}
	found, ok := readMapping(r, n, &linksKeys, k)
	if !ok {
		return k
	}
	switch two := found.has("above") || found.has("below"); {
	case found.has("arm") && two:
		r.addHint(k.Pos, "give arm for one link, above and below for two", "the link has both one arm and two")
	case !found.has("arm") && !(found.has("above") && found.has("below")) && len(found.meant) == 0:
		r.addHint(k.Pos, "give arm for one link, above and below for two", "the link has no arm")
	}
	return k
}

func (r *reader) axle(n *node) *Axle {
	a := &Axle{Pos: r.pos(n)}
	if found, ok := readMapping(r, n, &axleKeys, a); ok {
		r.goesWith("the axle", &found, "ratio", "motor")
		r.goesWith("the axle", &found, "efficiency", "motor")
		r.goesWith("the axle", &found, "motor", "ratio")
		r.goesWith("the axle", &found, "motor", "efficiency")
		r.goesWith("the axle", &found, "grip", "load")
		r.goesWith("the axle", &found, "load", "grip")
	}
	return a
}

// loads reads what acts on the plate. axle is read before, whatever the order in
// the file.
func (r *reader) loads(n *node) []Load {
	if n.empty() || !r.list(n, 0, "loads like {at: pivot, force: 8.5 kN, direction: 90 deg}") || n.kids == 0 {
		return nil
	}
	if n.kids > mostLoads {
		r.add(r.pos(n), "loads is a list of %d, at most %d are taken", n.kids, mostLoads)
		return nil
	}
	ls := make([]Load, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = "a load", nil
		l := Load{Pos: r.pos(item)}
		if found, ok := readMapping(r, item, &loadKeys, &l); ok {
			r.loadRules(item, &l, &found)
		}
		setWord(&l.Shear, "single")
		setWord(&l.Threads, "in")
		ls = append(ls, l)
	}
	if len(ls) > 1 {
		for i := range ls {
			if !ls[i].Case.Set {
				r.addHint(ls[i].Pos, "give each load a case: what acts at the same time has the same case",
					"a load has no case, and there are %d loads", len(ls))
			}
		}
	}
	return ls
}

func (r *reader) loadRules(n *node, l *Load, found *seen) {
	switch {
	case l.Point != nil && len(l.Group) == 0 && !found.has("on") && !found.has("group"):
		r.addHint(l.Pos, "add on: and the holes that hold it", "a load at a place has no holes to act on")
	case l.Point != nil:
		r.atMostOne("a load", found, "on", "group")
		r.atMostOne("a load", found, "at", "edge")
	default:
		r.exactlyOne(n, "a load", found, "at", "group", "edge")
		if k := found.get("on"); k != nil {
			r.addHint(r.pos(k), "write group, or at: [x, y]", "on goes with a place, and the load has none")
		}
	}
	r.atMostOne("a load", found, "force", "from")
	if !found.has("force") && !found.has("from") && !found.has("moment") && !found.has("tension") && len(found.meant) == 0 {
		r.addHint(l.Pos, "add force: or from:", "a load has no force")
	}
	for _, key := range [...]string{"force", "from"} {
		if found.has(key) && !found.has("direction") && !slices.Contains(found.meant, "direction") {
			r.addHint(l.Pos, "add direction: the way the plate is pushed, from +x counter-clockwise", "a load has no direction")
		}
	}
	r.goesWith("a load", found, "direction", "force", "from")
	r.goesWith("a load", found, "link", "from")
	if l.Moment.Set && found.has("at") && l.Hole.Set {
		r.addHint(l.Moment.Pos, "give the holes that hold it: group", "one hole holds no moment")
	}
	for _, key := range [...]string{"tension", "shear", "threads", "as"} {
		if found.has("edge") {
			if k := found.get(key); k != nil {
				r.addHint(r.pos(k), "leave it out, or name the holes", "a load on an edge has %s, which belongs to bolts", key)
			}
		}
	}
}

func (r *reader) welds(n *node) []Weld {
	if n.empty() || !r.list(n, 0, "welds like {edge: axle, leg: 5}") || n.kids == 0 {
		return nil
	}
	if n.kids > mostLoads {
		r.add(r.pos(n), "welds is a list of %d, at most %d are taken", n.kids, mostLoads)
		return nil
	}
	ws := make([]Weld, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = "a weld", nil
		w := Weld{Pos: r.pos(item)}
		if found, ok := readMapping(r, item, &weldKeys, &w); ok {
			r.exactlyOne(item, "a weld", &found, "edge", "from")
			r.goesWith("a weld", &found, "from", "to")
			r.goesWith("a weld", &found, "to", "from")
		}
		setWord(&w.Electrode, electrodes[1])
		ws = append(ws, w)
	}
	return ws
}

// loadNames checks what loads lean on: an axle that says enough.
func (r *reader) loadNames(p *Part) {
	for i := range p.Loads {
		l := &p.Loads[i]
		if !l.From.Set || l.Force.Set {
			continue
		}
		a := p.Axle
		if a == nil {
			r.addHint(l.From.Pos, "add axle: with what the load is worked out from", "from: %s, and the file has no axle", l.From.Text)
			continue
		}
		lack := func(what string) {
			r.addHint(l.From.Pos, "add "+what+": to axle", "from: %s needs the %s of the axle", l.From.Text, what)
		}
		if l.From.Text == "drive" {
			if !a.Motor.Set {
				lack("motor")
			}
		} else {
			if !a.Load.Set {
				lack("load")
			}
			if !a.Tyre.Set {
				lack("tyre")
			}
		}
		switch k := a.Link; {
		case k == nil:
			lack("link")
		case k.Arm.Set && k.Above.Set: // told already
		case k.Above.Set && !l.Link.Set:
			r.addHint(l.From.Pos, "add link: lower or link: upper", "the axle has two links, and the load does not say which")
		case k.Above.Set && !a.Tyre.Set && l.From.Text == "drive":
			lack("tyre")
		case k.Arm.Set && l.Link.Set:
			r.addHint(l.Link.Pos, "leave it out", "the axle has one link")
		}
	}
}
