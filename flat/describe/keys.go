package describe

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"blankwright/flat/diag"
)

// field is one key of a mapping: its word, whether it must be there, and how
// its value is read into a T.
type field[T any] struct {
	key  string
	must bool
	read func(*reader, *node, *T)
}

// mapping is a kind of mapping of the language with the keys it knows. The
// tables of mappings are the one place that says which words there are; the
// reference in LANGUAGE.md is held against them.
type mapping[T any] struct {
	what   string // "a hole", for messages
	fields []field[T]
}

func (m *mapping[T]) name() string { return m.what }

// keys lists the words of the mapping in the order of its table.
func (m *mapping[T]) keys() []string {
	ks := make([]string, len(m.fields))
	for i := range m.fields {
		ks[i] = m.fields[i].key
	}
	return ks
}

// musts lists the words that must be there.
func (m *mapping[T]) musts() []string {
	var ks []string
	for i := range m.fields {
		if m.fields[i].must {
			ks = append(ks, m.fields[i].key)
		}
	}
	return ks
}

// vocabulary is a mapping without its type.
type vocabulary interface {
	name() string
	keys() []string
	musts() []string
}

// vocabularies lists every mapping of the language. It is filled by init, since
// the readers in the tables look into it for hints.
var vocabularies []vocabulary

func init() {
	vocabularies = []vocabulary{
		&partKeys, &plateKeys, &holeKeys, &rowKeys, &gridKeys, &circleKeys, &slotKeys,
		&outlineKeys, &bossKeys, &cornerKeys, &rectangleKeys, &discKeys, &ringKeys, &gussetKeys, &linkKeys,
		&addedKeys, &cutoutKeys, &saddleKeys, &tabKeys, &tabSlotKeys, &markKeys, &jointKeys, &sleeveKeys, &coatingKeys, &axleKeys, &linksKeys, &loadKeys, &weldKeys, &waiverKeys,
		&bendsKeys, &bendReliefKeys, &cornerReliefKeys, &flangeKeys, &flangeCornerKeys, &formedKeys, &lKeys, &uKeys, &zKeys, &hatKeys, &boxKeys,
		&tubeKeys, &sectionKeys, &meetKeys, &wrapPaperKeys, &sawKeys, &holeSawKeys, &tubeWeldKeys, &tubeLoadKeys, &plainWaiverKeys,
		&jobKeys, &pivotKeys, &pivotTubeKeys, &measuredKeys, &jobTubeKeys, &jobPartKeys, &jobJointKeys, &supportKeys, &jobLoadKeys, &stockKeys,
	}
}

// seen holds the keys that a mapping was found to have.
type seen struct {
	key   [36]*node
	n     int
	meant []string // keys that unknown ones most likely stand for
}

func (s *seen) get(key string) *node {
	for _, k := range s.key[:s.n] {
		if k.text == key {
			return k
		}
	}
	return nil
}

func (s *seen) has(key string) bool { return s.get(key) != nil }

// readMapping reads the mapping n into p by the table m. It reports unknown,
// repeated and missing keys and gives those that are there. ok is false where n
// is no mapping at all.
func readMapping[T any](r *reader, n *node, m *mapping[T], p *T) (found seen, ok bool) {
	if !r.want(n, mappingKind, m) {
		return found, false
	}
	var before *node
	for key := n.first; key != nil; before, key = key, key.next.next {
		f := m.find(key)
		if f == nil && r.cutText(before, key, m) {
			continue
		}
		if f == nil {
			found.meant = append(found.meant, r.unknownKey(key, m))
			continue
		}
		if before := found.get(f.key); before != nil {
			r.repeated(key, before)
			continue
		}
		found.key[found.n] = key
		found.n++
		r.key, r.keyNode = f.key, key
		f.read(r, key.next, p)
	}
	for i := range m.fields {
		if f := &m.fields[i]; f.must && !found.has(f.key) && !slices.Contains(found.meant, f.key) {
			r.addHint(r.pos(n), "add "+f.key+":", "%s has no %s", m.what, f.key)
		}
	}
	return found, true
}

func (m *mapping[T]) find(key *node) *field[T] {
	if key.kind != scalarKind {
		return nil
	}
	for i := range m.fields {
		if m.fields[i].key == key.text {
			return &m.fields[i]
		}
	}
	return nil
}

// want reports whether a node is of the kind wanted, and says so where it is
// not. v, where not nil, names the keys of a mapping.
func (r *reader) want(n *node, k kind, v vocabulary) bool {
	if n.kind == k {
		return true
	}
	if n.kind == brokenKind || r.full() {
		return false
	}
	what := map[kind]string{scalarKind: "a single value", listKind: "a list", mappingKind: "a mapping"}[k]
	if v != nil {
		what += " with the keys " + strings.Join(v.keys(), ", ")
	}
	if n.empty() {
		r.nothing(n, what)
	} else {
		r.add(r.pos(n), "%s is %s, wanted %s", r.key, met(n), what)
	}
	return false
}

// met says in a word what a node is.
func met(n *node) string {
	switch n.kind {
	case listKind:
		return "a list"
	case mappingKind:
		return "a mapping"
	}
	return quote(n.text)
}

// quote puts a text in quotes for a message, on one line and not too long.
func quote(s string) string {
	const most = 40
	short := []rune(s)
	if len(short) > most {
		s = string(short[:most]) + "..."
	}
	return fmt.Sprintf("%q", s)
}

func (r *reader) repeated(key, before *node) {
	r.addHint(r.pos(key), fmt.Sprintf("the first is at line %d; keep one of them", before.line), "%s is given twice", quote(key.text))
}

// otherWords are words that people use for ours; a hint names ours where the
// place knows it.
var otherWords = map[string][]string{
	"name": {"part"}, "title": {"part"}, "rev": {"revision"}, "qty": {"quantity"}, "number": {"count", "quantity"},
	"dia": {"diameter"}, "d": {"diameter"}, "size": {"diameter", "bolt"}, "od": {"outside", "tube", "diameter"}, "id": {"inside", "diameter"},
	"rad": {"radius"}, "r": {"radius"}, "fillet": {"radius"}, "bevel": {"chamfer"}, "gauge": {"thickness"}, "thk": {"thickness"},
	"center": {"at"}, "centre": {"at"}, "position": {"at"}, "place": {"at"}, "pos": {"at"}, "where": {"at"}, "point": {"at"},
	"hole": {"holes"}, "shape": {"outline"}, "profile": {"outline"}, "contour": {"outline"}, "variables": {"let"}, "unit": {"units"},
	"rule": {"rules"}, "mark": {"marks"}, "waiver": {"waive"}, "waivers": {"waive"}, "cutting": {"process"}, "cut": {"process", "how"},
	"thread": {"bolt"}, "screw": {"bolt"}, "clearance": {"fit", "allowance", "gap"}, "tolerance": {"allow"}, "spacing": {"pitch"}, "cols": {"columns"},
	"number of holes": {"count"}, "first": {"start"}, "edge": {"edges"}, "comment": {"note"}, "notes": {"note"}, "why": {"reason"},
	"because": {"reason"}, "label": {"text"}, "link": {"link plate"}, "outer": {"outside"}, "inner": {"inside"}, "length": {"width", "tab"},
	"cutout": {"cutouts"}, "cut out": {"cutouts"}, "added": {"add"}, "tab": {"tabs"}, "slots": {"tab slots"}, "tab slot": {"tab slots"},
	"purpose": {"for"}, "use": {"for"}, "direction": {"angle"}, "long": {"width"}, "depth": {"height"}, "concave": {"hollow", "waist"},
}

// unknownKey reports a key that a mapping does not know, and gives the one that
// was most likely meant, or "".
func (r *reader) unknownKey(key *node, v vocabulary) (meant string) {
	if key.kind == brokenKind || r.full() {
		return ""
	}
	if key.kind != scalarKind {
		r.add(r.pos(key), "%s stands for a key in %s, wanted one of %s", met(key), v.name(), strings.Join(v.keys(), ", "))
		return ""
	}
	if key.text == "<<" && key.style == plainStyle {
		r.addHint(r.pos(key), "write the keys out", "a merge key in %s: a description has none", v.name())
		return ""
	}
	meant = meantKey(key.text, v)
	hint := "write " + meant
	if before, after, ok := strings.Cut(key.text, ":"); ok && slices.Contains(v.keys(), before) {
		meant, hint = before, "put a space after the colon: "+before+": "+after
	}
	if meant == "" {
		hint = otherPlace(key.text, v)
	}
	r.addHint(r.pos(key), hint, "unknown key %s in %s", quote(key.text), v.name())
	return meant
}

// cutText reports a text that a comma cut in two: in braces what follows the comma
// reads as a key, one without a colon.
func (r *reader) cutText(before, key *node, v vocabulary) bool {
	if before == nil || key.kind != scalarKind || key.style != plainStyle || !key.next.empty() {
		return false
	}
	text := before.next
	rest := strings.TrimLeft(afterCol(lineText(r.text, int(key.line)), int(key.col)+utf8.RuneCountInString(key.text)), " ")
	if text.kind != scalarKind || text.style != plainStyle || text.text == "" || rest == "" || rest[0] != ',' && rest[0] != '}' {
		return false
	}
	r.addHint(r.pos(key), "a text with a comma needs quotes: "+before.text+": \""+text.text+", "+key.text+"\"",
		"%s stands after a comma in %s and is no key with a value", quote(key.text), v.name())
	return true
}

// meantKey gives the key of a mapping that a word most likely stands for, or "".
func meantKey(word string, v vocabulary) string {
	known := v.keys()
	for _, w := range otherWords[strings.ToLower(word)] {
		if slices.Contains(known, w) {
			return w
		}
	}
	return diag.Nearest(word, known)
}

// otherPlace says where a word is known, and which words are known here.
func otherPlace(word string, v vocabulary) string {
	list := "known here: " + strings.Join(v.keys(), ", ")
	for _, other := range vocabularies {
		if slices.Contains(other.keys(), word) {
			return word + " belongs in " + other.name() + "; " + list
		}
	}
	return list
}

// exactlyOne reports where none, or more than one, of some keys are given.
func (r *reader) exactlyOne(n *node, what string, found *seen, keys ...string) {
	first := r.atMostOne(what, found, keys...)
	meant := slices.ContainsFunc(found.meant, func(k string) bool { return slices.Contains(keys, k) })
	if first == "" && !meant {
		r.addHint(r.pos(n), "add one of: "+strings.Join(keys, ", "), "%s has none of %s", what, strings.Join(keys, ", "))
	}
}

// atMostOne reports where more than one of some keys are given, and gives the
// first that is.
func (r *reader) atMostOne(what string, found *seen, keys ...string) string {
	first := ""
	for _, k := range found.key[:found.n] {
		for _, key := range keys {
			if k.text != key {
				continue
			}
			if first == "" {
				first = key
			} else {
				r.addHint(r.pos(k), "keep one of them", "%s has both %s and %s", what, first, key)
			}
		}
	}
	return first
}

// goesWith reports a key that is given without any of those that it belongs to.
func (r *reader) goesWith(what string, found *seen, key string, to ...string) {
	k := found.get(key)
	if k == nil {
		return
	}
	for _, t := range to {
		if found.has(t) {
			return
		}
	}
	r.addHint(r.pos(k), "leave it out, or give "+strings.Join(to, " or "), "%s has %s, which belongs to %s", what, key, strings.Join(to, " or "))
}
