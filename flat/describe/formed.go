package describe

import (
	"math"
	"strings"

	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

// Bends is what all bends of a part have in common.
type Bends struct {
	Pos    diag.Pos
	Radius Length // inside
	Rule   BendRule
	Grain  Angle // direction of rolling of the plate, from +x of the flat
}

// BendRule says how much flat length a bend takes.
type BendRule struct {
	Kind   Word    // "table" (where not given), "k", "din 6935", "aircraft", "deduction", "allowance", "test bend"
	K      float64 // of kind k
	Length Length  // of a deduction (legs measured outside) or an allowance
	Name   string  // of a test bend in the profile
}

// BendRelief is what is cut away beside a bend, or where two bends meet.
type BendRelief struct {
	Pos   diag.Pos
	Shape Word   // "square" (where not given), "round", "none"
	Width Length // of a relief beside a bend; the thickness, and what the process cuts, where not given
	Depth Length // beyond the line where the bend begins; half the thickness where not given
}

// Flange is a panel bent up or down on an edge of another one.
type Flange struct {
	Name     Word
	Pos      diag.Pos // of the entry's value
	On       Word     // the flange that it stands on; the base where not given
	Edge     Word
	EdgeIs   Word // what that edge is in the folded part: "outside" (where not given), "inside", "apex", "tangent"
	Height   Length
	Measured Word  // "outside" (where not given), "inside", "apex", "tangent"
	Angle    Angle // turned through; a right angle where not given
	Radius   Length
	Rule     BendRule
	Turn     Word // "up" (where not given), "down"
	Offset   [2]Length
	Taper    [2]Angle
	Corners  [2]FlangeCorner // of the free end, left and right
	Relief   *BendRelief
	Holes    []HoleSet // x along the edge from its left end, y the height
}

// FlangeCorner is what is done to a corner: at most one of both.
type FlangeCorner struct {
	Pos             diag.Pos
	Radius, Chamfer Length
}

// InLine is two holes meant for one bolt.
type InLine struct {
	Pos  diag.Pos
	A, B Word
}

// Formed is a bracket of a usual form instead of an outline. Which lengths are
// given depends on the kind.
type Formed struct {
	Pos                diag.Pos
	Kind               Word // "l", "u", "z", "hat", "box"
	Width, InsideWidth Length
	Depth, InsideDepth Length
	Legs               [2]Length // of l and u; the feet of z and hat
	Web                Length    // of z and hat
	Height             Length    // of a box
	Length             Length    // along the bends
	Measured           Word      // what legs, feet, web and height are measured to
	Joint              Word      // of a box: "lapped" (where not given), "corner to corner"
	Gap                Length    // of a box, between its walls
}

// maxFlanges is the most entries that flanges may have.
const maxFlanges = 20

var (
	reliefShapes = [...]string{"square", "round", "none"}
	references   = [...]string{"outside", "inside", "apex", "tangent"}
	turns        = [...]string{"up", "down"}
	boxJoints    = [...]string{"lapped", "corner to corner"}
	bendRules    = [...]string{"table", "k", "din 6935", "aircraft", "deduction", "allowance", "test bend"}
)

var bendsKeys = mapping[Bends]{"bends", []field[Bends]{
	{"radius", false, func(r *reader, n *node, b *Bends) { b.Radius = r.notNegative(n) }},
	{"rule", false, func(r *reader, n *node, b *Bends) { b.Rule = r.bendRule(n) }},
	{"grain", false, func(r *reader, n *node, b *Bends) { b.Grain = r.angle(n, -180, 180) }},
}}

func (r *reader) bends(n *node) *Bends {
	b := &Bends{Pos: r.pos(n)}
	readMapping(r, n, &bendsKeys, b)
	setWord(&b.Rule.Kind, bendRules[0])
	return b
}

// bendRule reads a word, or a word with its figure: `k 0.42`, `deduction 8.4 mm`,
// `test bend hanger`.
func (r *reader) bendRule(n *node) BendRule {
	b := BendRule{Kind: Word{Pos: r.pos(n)}}
	text, ok := r.scalar(n, "table, k 0.42, din 6935, aircraft, a deduction, an allowance or a test bend")
	if !ok {
		return b
	}
	text = strings.Join(strings.Fields(text), " ")
	lower := strings.ToLower(text)
	for _, kind := range bendRules {
		rest, has := strings.CutPrefix(lower, kind)
		bare := kind == "table" || kind == "din 6935" || kind == "aircraft"
		if !has || bare != (rest == "") || !bare && rest[0] != ' ' {
			continue
		}
		rest = text[len(kind):]
		if !bare {
			rest = rest[1:]
		}
		b.Kind.Text = kind
		switch kind {
		case "k":
			v, err := unit.Number(rest, r.env)
			switch {
			case err != nil:
				r.add(b.Kind.Pos, "%s: %s is no K-factor, wanted a number like 0.42", r.key, quote(rest))
				return b
			case !(v > 0 && v < 1):
				r.addHint(b.Kind.Pos, "most bends give 0.25 to 0.5", "a K-factor of %s puts the neutral line outside the plate, wanted more than 0 and less than 1", rest)
				return b
			}
			b.K = v
		case "deduction", "allowance":
			mm, err := unit.Length(rest, r.env, r.units)
			if err != nil {
				r.addHint(b.Kind.Pos, "write "+kind+" with a length, like "+kind+" 8.4 mm", "%s: %s is no length", r.key, quote(rest))
				return b
			}
			if !(math.Abs(mm) <= maxLength) || kind == "allowance" && mm <= 0 {
				r.add(b.Kind.Pos, "%s of %s is out of reach", kind, quote(rest))
				return b
			}
			b.Length = Length{MM: mm + 0, Set: true, Pos: b.Kind.Pos}
		case "test bend":
			b.Name = rest
		}
		b.Kind.Set = true
		return b
	}
	r.addHint(b.Kind.Pos, "write one of: table, k 0.42, din 6935, aircraft, deduction 8.4 mm, allowance 10.6 mm, test bend NAME",
		"%s is %s, wanted a rule for the flat length of a bend", r.key, quote(text))
	return b
}

func bendReliefFields(width bool) []field[BendRelief] {
	fs := []field[BendRelief]{{"shape", false, func(r *reader, n *node, b *BendRelief) { b.Shape = r.choice(n, reliefShapes[:]...) }}}
	if width {
		fs = append(fs, field[BendRelief]{"width", false, func(r *reader, n *node, b *BendRelief) { b.Width = r.positive(n) }})
	}
	return append(fs, field[BendRelief]{"depth", false, func(r *reader, n *node, b *BendRelief) { b.Depth = r.positive(n) }})
}

var (
	bendReliefKeys   = mapping[BendRelief]{"a relief", bendReliefFields(true)}
	cornerReliefKeys = mapping[BendRelief]{"a corner relief", bendReliefFields(false)}
)

func (r *reader) bendRelief(n *node, m *mapping[BendRelief]) *BendRelief {
	b := &BendRelief{Pos: r.pos(n)}
	readMapping(r, n, m, b)
	if b.Shape.Text == "none" && (b.Width.Set || b.Depth.Set) {
		r.addHint(b.Pos, "leave the size out, or ask for square or round", "%s has the shape none and a size", m.what)
	}
	setWord(&b.Shape, reliefShapes[0])
	return b
}

var flangeCornerKeys = mapping[FlangeCorner]{"a flange corner", []field[FlangeCorner]{
	{"radius", false, func(r *reader, n *node, c *FlangeCorner) { c.Radius = r.notNegative(n) }},
	{"chamfer", false, func(r *reader, n *node, c *FlangeCorner) { c.Chamfer = r.notNegative(n) }},
}}

func (r *reader) flangeCorner(n *node) FlangeCorner {
	c := FlangeCorner{Pos: r.pos(n)}
	if found, ok := readMapping(r, n, &flangeCornerKeys, &c); ok {
		r.atMostOne("a flange corner", &found, "radius", "chamfer")
	}
	return c
}

// flangeCorners reads the two corners of a free end, or one for both.
func (r *reader) flangeCorners(n *node) [2]FlangeCorner {
	if n.kind == mappingKind {
		c := r.flangeCorner(n)
		return [2]FlangeCorner{c, c}
	}
	if n.kind != listKind || n.kids != 2 {
		if n.kind != brokenKind {
			r.add(r.pos(n), "%s is %s, wanted {radius: 1/2}, or a list of two: left and right", r.key, met(n))
		}
		return [2]FlangeCorner{}
	}
	return [2]FlangeCorner{r.flangeCorner(n.first), r.flangeCorner(n.first.next)}
}

// anyLength reads a length of any sign.
func (r *reader) anyLength(n *node) Length { l, _ := r.length(n); return l }

// tapers reads one angle for both sides, or a list of two.
func (r *reader) tapers(n *node) [2]Angle {
	const most = 80
	if n.kind != listKind {
		a := r.angle(n, -most, most)
		return [2]Angle{a, a}
	}
	if n.kids != 2 {
		r.add(r.pos(n), "%s is a list of %d, wanted [left, right] or one value for both", r.key, n.kids)
		return [2]Angle{}
	}
	return [2]Angle{r.angle(n.first, -most, most), r.angle(n.first.next, -most, most)}
}

var flangeKeys = mapping[Flange]{"a flange", []field[Flange]{
	{"on", false, func(r *reader, n *node, f *Flange) { f.On = r.word(n) }},
	{"edge", false, func(r *reader, n *node, f *Flange) { f.Edge = r.word(n) }},
	{"edge is", false, func(r *reader, n *node, f *Flange) { f.EdgeIs = r.choice(n, references[:]...) }},
	{"height", false, func(r *reader, n *node, f *Flange) { f.Height = r.positive(n) }},
	{"measured", false, func(r *reader, n *node, f *Flange) { f.Measured = r.choice(n, references[:]...) }},
	{"angle", false, func(r *reader, n *node, f *Flange) { f.Angle = r.angle(n, 1, 180) }},
	{"radius", false, func(r *reader, n *node, f *Flange) { f.Radius = r.notNegative(n) }},
	{"rule", false, func(r *reader, n *node, f *Flange) { f.Rule = r.bendRule(n) }},
	{"turn", false, func(r *reader, n *node, f *Flange) { f.Turn = r.choice(n, turns[:]...) }},
	{"offset", false, func(r *reader, n *node, f *Flange) { f.Offset = r.pair(n, r.anyLength) }},
	{"taper", false, func(r *reader, n *node, f *Flange) { f.Taper = r.tapers(n) }},
	{"corners", false, func(r *reader, n *node, f *Flange) { f.Corners = r.flangeCorners(n) }},
	{"relief", false, func(r *reader, n *node, f *Flange) { f.Relief = r.bendRelief(n, &bendReliefKeys) }},
	{"holes", false, func(r *reader, n *node, f *Flange) { f.Holes = r.holes(n) }},
}}

// flanges reads the mapping of flange names to flanges.
func (r *reader) flanges(n *node) []Flange {
	if n.kind == brokenKind || n.empty() {
		return nil
	}
	if n.kind != mappingKind {
		r.addHint(r.pos(n), "write each as name: {edge: left, height: ...}", "flanges is %s, wanted a mapping of names to flanges", met(n))
		return nil
	}
	if n.kids == 0 {
		return nil
	}
	if n.kids/2 > maxFlanges {
		r.add(r.pos(n), "flanges has %d entries, at most %d are read", n.kids/2, maxFlanges)
		return nil
	}
	fs := make([]Flange, n.kids/2)
	i := 0
	for key := n.first; key != nil; key = key.next.next {
		f := &fs[i]
		i++
		f.Name = r.name(key, "a flange")
		f.Pos = r.pos(key.next)
		for k := range fs[:i-1] {
			if f.Name.Set && fs[k].Name.Text == f.Name.Text {
				r.addHint(f.Name.Pos, "give one of them another name", "flange %s is given twice", f.Name.Text)
			}
		}
		if f.Name.Text == "base" {
			r.addHint(f.Name.Pos, "the base is what the outline makes", "a flange cannot be named base")
		}
		r.key, r.keyNode = "flange "+key.text, nil
		readMapping(r, key.next, &flangeKeys, f)
	}
	return fs
}

// flangesFit checks what flanges need of each other and of the rest: those of a
// usual form are there already, so that an entry with their name only adds to
// them.
func (r *reader) flangesFit(p *Part) {
	made := p.Formed.flanges()
	for i := range p.Flanges {
		f := &p.Flanges[i]
		what := "flange " + f.Name.Text
		if contains(made, f.Name.Text) {
			for _, w := range [...]struct {
				key string
				pos diag.Pos
			}{{"on", f.On.Pos}, {"edge", f.Edge.Pos}, {"edge is", f.EdgeIs.Pos}, {"height", f.Height.Pos}, {"measured", f.Measured.Pos}, {"angle", f.Angle.Pos}, {"turn", f.Turn.Pos}, {"offset", f.Offset[0].Pos}} {
				if w.pos.Line > 0 {
					r.addHint(w.pos, "its holes, taper, corners, radius, rule and relief may be given here", "%s is part of the formed part, which says its %s", what, w.key)
				}
			}
			continue
		}
		if f.Name.Pos.Line == 0 || p.Formed != nil && len(made) == 0 {
			continue // without a name, or of a form that is not known: that was said
		}
		if f.Edge.Pos.Line == 0 {
			hint := "add edge:"
			if len(made) > 0 {
				hint = "add edge: and height:; or take the name of a flange of the formed part to add to that: " + strings.Join(made, ", ")
			}
			r.addHint(f.Pos, hint, "%s has no edge to stand on", what)
			if len(made) > 0 {
				continue
			}
		}
		if f.Height.Pos.Line == 0 {
			r.addHint(f.Pos, "add height:", "%s has no height", what)
		}
		setWord(&f.EdgeIs, references[0])
		setWord(&f.Measured, references[0])
		setWord(&f.Turn, turns[0])
		if !f.Angle.Set {
			f.Angle.Rad = math.Pi / 2
		}
	}
}

func contains(list []string, s string) bool {
	for _, t := range list {
		if t == s {
			return true
		}
	}
	return false
}

// flanges names those that a formed part has.
func (f *Formed) flanges() []string {
	if f == nil {
		return nil
	}
	switch f.Kind.Text {
	case "l":
		return []string{"leg"}
	case "u":
		return []string{"left", "right"}
	case "z":
		return []string{"web", "top"}
	case "hat":
		return []string{"left", "right", "left-foot", "right-foot"}
	case "box":
		return []string{"front", "right", "back", "left"}
	}
	return nil
}

// Made reports whether a flange of the part comes from its form.
func (p *Part) Made(name string) bool { return contains(p.Formed.flanges(), name) }

func formKind(word string, m *mapping[Formed]) field[Formed] {
	return field[Formed]{word, false, func(r *reader, n *node, f *Formed) {
		f.Kind = Word{Text: word, Pos: r.pos(n), Set: true}
		found, ok := readMapping(r, n, m, f)
		if !ok {
			return
		}
		for _, k := range m.keys() {
			if k == "width" || k == "depth" {
				r.exactlyOne(n, m.what, &found, k, "inside "+k)
			}
		}
		setWord(&f.Measured, references[0])
		if word == "box" {
			setWord(&f.Joint, boxJoints[0])
		}
	}}
}

var (
	formWidth       = field[Formed]{"width", false, func(r *reader, n *node, f *Formed) { f.Width = r.positive(n) }}
	formInsideWidth = field[Formed]{"inside width", false, func(r *reader, n *node, f *Formed) { f.InsideWidth = r.positive(n) }}
	formDepth       = field[Formed]{"depth", false, func(r *reader, n *node, f *Formed) { f.Depth = r.positive(n) }}
	formInsideDepth = field[Formed]{"inside depth", false, func(r *reader, n *node, f *Formed) { f.InsideDepth = r.positive(n) }}
	formLegs        = field[Formed]{"legs", true, func(r *reader, n *node, f *Formed) { f.Legs = r.pair(n, r.positive) }}
	formFeet        = field[Formed]{"feet", true, func(r *reader, n *node, f *Formed) { f.Legs = r.pair(n, r.positive) }}
	formWeb         = field[Formed]{"web", true, func(r *reader, n *node, f *Formed) { f.Web = r.positive(n) }}
	formHeight      = field[Formed]{"height", true, func(r *reader, n *node, f *Formed) { f.Height = r.positive(n) }}
	formLength      = field[Formed]{"length", true, func(r *reader, n *node, f *Formed) { f.Length = r.positive(n) }}
	formMeasured    = field[Formed]{"measured", false, func(r *reader, n *node, f *Formed) { f.Measured = r.choice(n, references[:]...) }}
	formJoint       = field[Formed]{"joint", false, func(r *reader, n *node, f *Formed) { f.Joint = r.choice(n, boxJoints[:]...) }}
	formGap         = field[Formed]{"gap", false, func(r *reader, n *node, f *Formed) { f.Gap = r.positive(n) }}

	lKeys   = mapping[Formed]{"an l", []field[Formed]{formLegs, formLength, formMeasured}}
	uKeys   = mapping[Formed]{"a u", []field[Formed]{formWidth, formInsideWidth, formLegs, formLength, formMeasured}}
	zKeys   = mapping[Formed]{"a z", []field[Formed]{formFeet, formWeb, formLength, formMeasured}}
	hatKeys = mapping[Formed]{"a hat", []field[Formed]{formWidth, formInsideWidth, formWeb, formFeet, formLength, formMeasured}}
	boxKeys = mapping[Formed]{"a box", []field[Formed]{formWidth, formInsideWidth, formDepth, formInsideDepth, formHeight, formMeasured, formJoint, formGap}}

	formedKeys = mapping[Formed]{"a formed part", []field[Formed]{
		formKind("l", &lKeys), formKind("u", &uKeys), formKind("z", &zKeys), formKind("hat", &hatKeys), formKind("box", &boxKeys),
	}}
)

func (r *reader) formed(n *node) *Formed {
	f := &Formed{Pos: r.pos(n)}
	if found, ok := readMapping(r, n, &formedKeys, f); ok {
		r.exactlyOne(n, "a formed part", &found, formedKeys.keys()...)
	}
	return f
}

func (r *reader) inLine(n *node) []InLine {
	if n.empty() || !r.list(n, 0, "pairs of holes like [left, right]") || n.kids == 0 {
		return nil
	}
	if n.kids > maxPieces {
		r.add(r.pos(n), "%s is a list of %d, at most %d are read", r.key, n.kids, maxPieces)
		return nil
	}
	var out []InLine
	for item := n.first; item != nil; item = item.next {
		if item.kind != listKind || item.kids != 2 {
			if item.kind != brokenKind {
				r.add(r.pos(item), "in line has %s, wanted two holes like [left, right]", met(item))
			}
			continue
		}
		out = append(out, InLine{r.pos(item), r.holeRef(item.first), r.holeRef(item.first.next)})
	}
	return out
}

// Bent reports whether the part has bends.
func (p *Part) Bent() bool { return p.Formed != nil || len(p.Flanges) > 0 }

// formedRules checks what goes together in a part with bends, and in one without.
func (r *reader) formedRules(p *Part, root *node, found *seen) {
	if found.has("outline") || found.has("formed") {
		r.atMostOne("the description", found, "outline", "formed")
	} else if !contains(found.meant, "outline") && !contains(found.meant, "formed") {
		r.addHint(r.pos(root), "add outline:", "the description has no outline")
	}
	if !p.Bent() {
		for _, k := range [...]string{"bends", "relief", "corner relief", "in line"} {
			if n := found.get(k); n != nil {
				r.addHint(r.pos(n), "leave it out, or give flanges or formed", "the description has %s, and nothing of it is bent", k)
			}
		}
		return
	}
	r.flangesFit(p)
}
