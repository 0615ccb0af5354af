package describe

import (
	"strings"
	"unicode"

	"blankwright/flat/unit"
)

var partKeys = mapping[Part]{"the description", []field[Part]{
	{"part", true, func(r *reader, n *node, p *Part) { p.Name = r.partName(n) }},
	{"revision", false, func(r *reader, n *node, p *Part) { p.Revision = r.word(n) }},
	{"quantity", false, func(r *reader, n *node, p *Part) { p.Quantity = r.count(n, 1, maxCopies) }},
	{"hand", false, func(r *reader, n *node, p *Part) { p.Hand = r.choice(n, "as drawn", "mirrored", "pair") }},
	{"units", false, func(r *reader, n *node, p *Part) { r.choice(n, unitWords[:]...) }}, // readUnits has its value
	{"plate", true, func(r *reader, n *node, p *Part) { r.plate(n, &p.Plate) }},
	{"process", true, func(r *reader, n *node, p *Part) { p.Process = r.word(n) }},
	{"profile", false, func(r *reader, n *node, p *Part) { p.Profile = r.word(n) }},
	{"rules", false, func(r *reader, n *node, p *Part) { p.Rules = r.choice(n, ruleSets[:]...) }},
	{"edges", false, func(r *reader, n *node, p *Part) { p.Edges = r.choice(n, "cut", "sheared") }},
	{"let", false, func(r *reader, n *node, p *Part) {}}, // readLet has been here
	{"holes", false, func(r *reader, n *node, p *Part) { p.Holes = r.holes(n) }},
	{"outline", false, func(r *reader, n *node, p *Part) { p.Outline = r.outline(n) }},
	{"formed", false, func(r *reader, n *node, p *Part) { p.Formed = r.formed(n) }},
	{"bends", false, func(r *reader, n *node, p *Part) { p.Bends = r.bends(n) }},
	{"relief", false, func(r *reader, n *node, p *Part) { p.Relief = r.bendRelief(n, &bendReliefKeys) }},
	{"corner relief", false, func(r *reader, n *node, p *Part) { p.Corner = r.bendRelief(n, &cornerReliefKeys) }},
	{"flanges", false, func(r *reader, n *node, p *Part) { p.Flanges = r.flanges(n) }},
	{"in line", false, func(r *reader, n *node, p *Part) { p.InLine = r.inLine(n) }},
	{"add", false, func(r *reader, n *node, p *Part) { p.Add = r.pieces(n, &addedKeys) }},
	{"cutouts", false, func(r *reader, n *node, p *Part) { p.Cutouts = r.pieces(n, &cutoutKeys) }},
	{"tabs", false, func(r *reader, n *node, p *Part) { p.Tabs = r.tabs(n) }},
	{"tab slots", false, func(r *reader, n *node, p *Part) { p.TabSlots = r.tabSlots(n) }},
	{"marks", false, func(r *reader, n *node, p *Part) { p.Marks = r.marks(n) }},
	{"joints", false, func(r *reader, n *node, p *Part) { p.Joints = r.joints(n) }},
	{"coating", false, func(r *reader, n *node, p *Part) { p.Coating = r.coating(n) }},
	{"axle", false, func(r *reader, n *node, p *Part) { p.Axle = r.axle(n) }},
	{"loads", false, func(r *reader, n *node, p *Part) { p.Loads = r.loads(n) }},
	{"welds", false, func(r *reader, n *node, p *Part) { p.Welds = r.welds(n) }},
	{"waive", false, func(r *reader, n *node, p *Part) { p.Waivers = r.waivers(n) }},
	{"note", false, func(r *reader, n *node, p *Part) { p.Note = r.word(n) }},
}}

var (
	unitWords = [...]string{"in", "mm"}
	ruleSets  = [...]string{"aisc 360", "aisc 360 lrfd", "aisc 360 asd", "en 1993-1-8", "shop 1.5d", "shop 2d", "shop"}
)

// part reads the whole of a description. The units and the let names come
// first, since every value may stand on them; the names of holes come last,
// since they may be used before they are given.
func (r *reader) part(root *node) *Part {
	p := &Part{File: r.file, Pos: r.pos(root)}
	if root.kind == mappingKind {
		p.Units = r.readUnits(valueOf(root, "units"))
		r.units = p.Units
		if n := valueOf(root, "let"); n != nil {
			r.readLet(n)
		}
		if key := keyOf(root, "part"); key != nil {
			p.Pos = r.pos(key)
		}
	}
	r.key, r.keyNode = "the description", nil
	found, ok := readMapping(r, root, &partKeys, p)
	if !ok {
		return nil
	}
	r.formedRules(p, root, &found)
	if p.Formed != nil {
		p.Outline.Pos = p.Formed.Pos
	}
	setWord(&p.Hand, "as drawn")
	setWord(&p.Rules, ruleSets[0])
	setWord(&p.Edges, "cut")
	if !p.Quantity.Set {
		p.Quantity.N = 1
	}
	r.names(p, root)
	r.loadNames(p)
	return p
}

// setWord gives a word its value where the file gives none.
func setWord(w *Word, text string) {
	if !w.Set {
		w.Text = text
	}
}

func keyOf(n *node, key string) *node {
	for k := n.first; k != nil; k = k.next.next {
		if k.kind == scalarKind && k.text == key {
			return k
		}
	}
	return nil
}

func valueOf(n *node, key string) *node {
	if k := keyOf(n, key); k != nil {
		return k.next
	}
	return nil
}

// readUnits gives the file's unit system. Where units is there but wrong, which
// is reported in its turn, millimetres stand in, so that not every bare number
// of the file is reported as well.
func (r *reader) readUnits(n *node) unit.System {
	switch {
	case n == nil:
		return unit.Unset
	case n.kind == scalarKind && strings.EqualFold(strings.TrimSpace(n.text), "in"):
		return unit.Inch
	}
	return unit.Millimetre
}

// partName reads the name of the part, which also names its files.
func (r *reader) partName(n *node) Word {
	w := r.word(n)
	if w.Set && strings.IndexFunc(w.Text, func(c rune) bool { return unicode.IsLetter(c) || unicode.IsDigit(c) }) < 0 {
		r.add(w.Pos, "part is %s, wanted a name with at least one letter or digit", quote(w.Text))
	}
	return w
}

// maxThickness (mm) lies above the plate that any thermal process cuts in one
// pass on a table.
const maxThickness = 300

var plateKeys = mapping[Plate]{"plate", []field[Plate]{
	{"thickness", true, func(r *reader, n *node, p *Plate) { p.Thickness = r.thickness(n) }},
	{"material", true, func(r *reader, n *node, p *Plate) { p.Material = r.word(n) }},
}}

func (r *reader) plate(n *node, p *Plate) {
	p.Pos = r.pos(n)
	readMapping(r, n, &plateKeys, p)
}

func (r *reader) thickness(n *node) Length {
	l := r.positive(n)
	if l.MM > maxThickness {
		r.addHint(l.Pos, "is the unit right?", "thickness is %s, wanted at most %d mm", quote(n.text), maxThickness)
	}
	return l
}

var markKeys = mapping[Mark]{"a mark", []field[Mark]{
	{"text", true, func(r *reader, n *node, m *Mark) { m.Text = r.word(n) }},
	{"at", false, func(r *reader, n *node, m *Mark) {
		if n.kind == scalarKind && n.text == "auto" {
			return
		}
		if n.kind != listKind && n.kind != brokenKind && !n.empty() {
			r.add(r.pos(n), "at is %s, wanted [x, y] or auto", met(n))
			return
		}
		p := r.point(n)
		m.At = &p
	}},
}}

func (r *reader) marks(n *node) []Mark {
	if n.empty() || !r.list(n, 0, "marks like {text: name}") {
		return []Mark{} // not nil: none are wanted
	}
	marks := make([]Mark, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = "a mark", nil
		m := Mark{Pos: r.pos(item)}
		readMapping(r, item, &markKeys, &m)
		marks = append(marks, m)
	}
	return marks
}

var waiverKeys = mapping[Waiver]{"a waiver", []field[Waiver]{
	{"rule", true, func(r *reader, n *node, w *Waiver) { w.Rule = r.word(n) }},
	{"hole", false, func(r *reader, n *node, w *Waiver) {
		if w.Hole = r.word(n); w.Hole.Set {
			r.refs = append(r.refs, ref{w.Hole, false})
		}
	}},
	{"reason", true, func(r *reader, n *node, w *Waiver) { w.Reason = r.word(n) }},
}}

func (r *reader) waivers(n *node) []Waiver {
	if n.empty() || !r.list(n, 0, "waivers like {rule: edge-distance, reason: ...}") || n.kids == 0 {
		return nil
	}
	ws := make([]Waiver, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = "a waiver", nil
		w := Waiver{Pos: r.pos(item)}
		readMapping(r, item, &waiverKeys, &w)
		ws = append(ws, w)
	}
	return ws
}
