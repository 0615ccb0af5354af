package describe

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"blankwright/flat/unit"
)

var holeKeys = mapping[HoleSet]{"a hole", []field[HoleSet]{
	{"at", false, func(r *reader, n *node, h *HoleSet) { p := r.point(n); h.At = &p }},
	{"row", false, func(r *reader, n *node, h *HoleSet) { h.Row = r.row(n) }},
	{"grid", false, func(r *reader, n *node, h *HoleSet) { h.Grid = r.grid(n) }},
	{"circle", false, func(r *reader, n *node, h *HoleSet) { h.Circle = r.boltCircle(n) }},
	{"mirror", false, func(r *reader, n *node, h *HoleSet) { h.Mirror = r.choice(n, "x", "y", "both") }},
	{"bolt", false, func(r *reader, n *node, h *HoleSet) { h.Bolt = r.word(n) }},
	{"diameter", false, func(r *reader, n *node, h *HoleSet) { h.Diameter = r.positive(n) }},
	{"drill", false, func(r *reader, n *node, h *HoleSet) { h.Drill = r.word(n) }},
	{"bore", false, func(r *reader, n *node, h *HoleSet) { h.Bore = r.positive(n) }},
	{"fit", false, func(r *reader, n *node, h *HoleSet) { h.Fit = r.choice(n, fits[:]...) }},
	{"standard", false, func(r *reader, n *node, h *HoleSet) { h.Standard = r.choice(n, holeStandards[:]...) }},
	{"allow", false, func(r *reader, n *node, h *HoleSet) { h.Allow = r.allow(n) }},
	{"slot", false, func(r *reader, n *node, h *HoleSet) { h.Slot = r.slot(n) }},
	{"how", false, func(r *reader, n *node, h *HoleSet) { h.How = r.choice(n, "cut", "drill", "ream") }},
	{"for", false, func(r *reader, n *node, h *HoleSet) { h.For = r.choice(n, "lightening") }},
}}

var (
	fits          = [...]string{"close", "normal", "loose", "standard", "oversized"}
	holeStandards = [...]string{"iso 273", "asme b18.2.8", "aisc j3.3", "en 1090-2"}
	allowances    = [...]string{"press", "slip", "shell", "none"}
)

// holes reads the mapping of hole names to holes.
func (r *reader) holes(n *node) []HoleSet {
	if n.kind == brokenKind || n.empty() {
		return nil
	}
	if n.kind != mappingKind {
		r.addHint(r.pos(n), "write each as name: {at: [x, y], diameter: ...}", "holes is %s, wanted a mapping of names to holes", met(n))
		return nil
	}
	if n.kids == 0 {
		return nil
	}
	sets := make([]HoleSet, n.kids/2)
	i := 0
	for key := n.first; key != nil; key = key.next.next {
		h := &sets[i]
		h.Name = r.name(key, "a hole")
		r.hole(key, h)
		i++
	}
	return sets
}

// name reads what the file calls one of its things: letters, digits, - and _.
func (r *reader) name(n *node, of string) Word {
	w := Word{Pos: r.pos(n)}
	if n.kind == brokenKind {
		return w
	}
	if n.kind != scalarKind {
		r.add(w.Pos, "%s stands for the name of %s", met(n), of)
		return w
	}
	bad := strings.IndexFunc(n.text, func(c rune) bool {
		return !unicode.IsLetter(c) && !unicode.IsMark(c) && !unicode.IsDigit(c) && c != '-' && c != '_'
	})
	if n.text == "" || bad >= 0 || utf8.RuneCountInString(n.text) > maxName {
		hint := "write it with - for blanks and points"
		if n.text == "" || bad < 0 {
			hint = ""
		}
		r.addHint(w.Pos, hint, "%s cannot name %s, wanted letters, digits, - and _, at most %d", quote(n.text), of, maxName)
		return w
	}
	w.Text, w.Set = n.text, true
	return w
}

func (r *reader) hole(key *node, h *HoleSet) {
	n := key.next
	h.Pos = r.pos(n)
	r.key, r.keyNode = "hole "+key.text, nil
	found, ok := readMapping(r, n, &holeKeys, h)
	if !ok {
		return
	}
	if !found.has("at") || !r.plainSize(&found) {
		r.holeRules(n, "hole "+key.text, h, &found)
	}
	if h.Bolt.Set {
		setWord(&h.Fit, "normal")
	}
	if h.Bore.Set && !h.Allow.Amount.Set {
		setWord(&h.Allow.Kind, "none")
	}
}

// plainSize reports whether a hole has the two keys that a hole must have and
// no other: nothing is left to check then.
func (r *reader) plainSize(found *seen) bool {
	return found.n == 2 && (found.has("diameter") || found.has("bolt") || found.has("drill") || found.has("bore"))
}

// holeRules checks which keys of a hole go together.
func (r *reader) holeRules(n *node, what string, h *HoleSet, found *seen) {
	r.exactlyOne(n, what, found, "at", "row", "grid", "circle")
	r.exactlyOne(n, what, found, "bolt", "diameter", "drill", "bore")
	r.goesWith(what, found, "fit", "bolt")
	r.goesWith(what, found, "standard", "bolt")
	r.goesWith(what, found, "allow", "bore")
	r.goesWith(what, found, "slot", "bolt", "diameter")
	if h.For.Set && (found.has("bolt") || found.has("bore")) {
		r.addHint(h.For.Pos, "leave for: out, or give diameter or drill", "%s is for lightening and for what goes through it", what)
	}
	if h.Slot == nil {
		return
	}
	if h.Slot.Kind.Set && found.has("diameter") && !found.has("bolt") {
		r.addHint(h.Slot.Kind.Pos, "give the slot's length", "a %s slot is made for a bolt, and %s has none", h.Slot.Kind.Text, what)
	}
	if h.How.Text == "drill" || h.How.Text == "ream" {
		r.addHint(h.How.Pos, "cut it", "slot of %s cannot be made with how: %s", what, h.How.Text)
	}
	if h.Diameter.Set && h.Slot.Length.Set && h.Slot.Length.MM > 0 && h.Slot.Length.MM <= h.Diameter.MM {
		r.addHint(h.Slot.Length.Pos, "the length is overall, from round end to round end",
			"the slot of %s is no longer than it is wide", what)
	}
}

var rowKeys = mapping[Row]{"a row", []field[Row]{
	{"from", true, func(r *reader, n *node, w *Row) { w.From = r.point(n) }},
	{"to", true, func(r *reader, n *node, w *Row) { w.To = r.point(n) }},
	{"count", true, func(r *reader, n *node, w *Row) { w.Count = r.count(n, 1, maxCount) }},
}}

func (r *reader) row(n *node) *Row {
	w := &Row{Pos: r.pos(n)}
	readMapping(r, n, &rowKeys, w)
	return w
}

var gridKeys = mapping[Grid]{"a grid", []field[Grid]{
	{"at", true, func(r *reader, n *node, g *Grid) { g.At = r.point(n) }},
	{"columns", true, func(r *reader, n *node, g *Grid) { g.Columns = r.count(n, 1, maxCount) }},
	{"rows", true, func(r *reader, n *node, g *Grid) { g.Rows = r.count(n, 1, maxCount) }},
	{"pitch", true, func(r *reader, n *node, g *Grid) {
		p := r.pair(n, r.positive)
		g.PitchX, g.PitchY = p[0], p[1]
	}},
}}

func (r *reader) grid(n *node) *Grid {
	g := &Grid{Pos: r.pos(n)}
	readMapping(r, n, &gridKeys, g)
	return g
}

var circleKeys = mapping[BoltCircle]{"a circle", []field[BoltCircle]{
	{"at", true, func(r *reader, n *node, b *BoltCircle) { b.At = r.point(n) }},
	{"diameter", true, func(r *reader, n *node, b *BoltCircle) { b.Diameter = r.positive(n) }},
	{"count", true, func(r *reader, n *node, b *BoltCircle) { b.Count = r.count(n, 1, maxCount) }},
	{"start", false, func(r *reader, n *node, b *BoltCircle) { b.Start = r.angle(n, -360, 360) }},
}}

func (r *reader) boltCircle(n *node) *BoltCircle {
	b := &BoltCircle{Pos: r.pos(n)}
	readMapping(r, n, &circleKeys, b)
	return b
}

var slotKeys = mapping[Slot]{"a slot", []field[Slot]{
	{"length", false, func(r *reader, n *node, s *Slot) { s.Length = r.positive(n) }},
	{"kind", false, func(r *reader, n *node, s *Slot) { s.Kind = r.choice(n, "short", "long") }},
	{"angle", false, func(r *reader, n *node, s *Slot) { s.Angle = r.angle(n, -360, 360) }},
}}

func (r *reader) slot(n *node) *Slot {
	s := &Slot{Pos: r.pos(n)}
	if found, ok := readMapping(r, n, &slotKeys, s); ok {
		r.exactlyOne(n, "a slot", &found, "length", "kind")
	}
	return s
}

// allow reads the allowance of a bore: a word or a signed length.
func (r *reader) allow(n *node) Allow {
	a := Allow{Pos: r.pos(n)}
	text, ok := r.scalar(n, "press, slip, shell, none or a length")
	if !ok {
		return a
	}
	word := strings.ToLower(strings.TrimSpace(text))
	if slices.Contains(allowances[:], word) || unit.ValidName(word) && !r.known(text) {
		a.Kind = r.choice(n, allowances[:]...)
		return a
	}
	a.Amount, _ = r.length(n)
	return a
}

// known reports whether a let name has the text.
func (r *reader) known(text string) bool {
	_, ok := r.env[text]
	return ok || r.broken[text]
}

// copies is how many images a set's mirroring makes of each hole at most, the
// hole itself included.
func copies(h *HoleSet) int {
	switch h.Mirror.Text {
	case "x", "y":
		return 2
	case "both":
		return 4
	}
	return 1
}

// placed is the number of holes that a set's place makes, without mirroring; 0
// where the description does not say it.
func placed(h *HoleSet) int {
	switch {
	case h.At != nil:
		return 1
	case h.Row != nil:
		return h.Row.Count.N
	case h.Grid != nil:
		return h.Grid.Columns.N * h.Grid.Rows.N
	case h.Circle != nil:
		return h.Circle.Count.N
	}
	return 0
}

// Most is the largest number of holes that a set can make: mirroring makes
// fewer where an image falls on a hole that is there already.
func (h *HoleSet) Most() int { return placed(h) * copies(h) }
