package describe

import (
	"fmt"
	"strings"

	"blankwright/flat/unit"
)

// letEntry is one name under let.
type letEntry struct {
	key, value *node
	state      letState
}

type letState uint8

const (
	letWaiting letState = iota
	letRunning
	letDone
)

// lets are the names of a description. A value may use the other names in any
// order, but not itself by way of others.
type lets struct {
	r       *reader
	entries map[string]*letEntry
	chain   []string // names whose values are being worked out
	tooLong bool     // a chain was too long, which has been said
}

// readLet works out the names under let. It runs before everything else is
// read.
func (r *reader) readLet(n *node) {
	r.key, r.keyNode = "let", nil
	if n.kind == brokenKind || n.empty() {
		return
	}
	if n.kind != mappingKind {
		r.add(r.pos(n), "let is %s, wanted a mapping of names and values", met(n))
		return
	}
	ls := &lets{r: r, entries: make(map[string]*letEntry, n.kids/2)}
	r.env = make(map[string]unit.Quantity, n.kids/2)
	order := make([]string, 0, n.kids/2)
	for key := n.first; key != nil; key = key.next.next {
		if !r.letName(key) {
			continue
		}
		if before := ls.entries[key.text]; before != nil {
			r.repeated(key, before.key)
			continue
		}
		ls.entries[key.text] = &letEntry{key: key, value: key.next}
		order = append(order, key.text)
	}
	for _, name := range order {
		ls.work(name)
	}
}

func (r *reader) breakName(name string) {
	if r.broken == nil {
		r.broken = map[string]bool{}
	}
	r.broken[name] = true
}

// letName checks the name that a let entry defines.
func (r *reader) letName(key *node) bool {
	switch {
	case key.kind == brokenKind:
		return false
	case key.kind != scalarKind:
		r.add(r.pos(key), "%s stands for a name under let", met(key))
		return false
	case unit.ValidName(key.text):
		return true
	case unit.Reserved(key.text):
		r.addHint(r.pos(key), "take a longer name", "%s cannot be a let name: it is a unit or a function", quote(key.text))
		return false
	}
	hint := ""
	if strings.ContainsAny(key.text, "- ") {
		hint = "write it with _"
	}
	r.addHint(r.pos(key), hint, "%s cannot be a let name, wanted letters, digits and _, not a digit first, at most 40", quote(key.text))
	return false
}

// work evaluates one name, after those that it uses.
func (ls *lets) work(name string) {
	e := ls.entries[name]
	if e == nil || e.state == letDone {
		return
	}
	r := ls.r
	if e.state == letRunning {
		ls.circle(name)
		return
	}
	e.state = letRunning
	defer func() { e.state = letDone }()
	ls.chain = append(ls.chain, name)
	defer func() { ls.chain = ls.chain[:len(ls.chain)-1] }()
	if len(ls.chain) > maxChain {
		r.key, r.keyNode = name, nil
		if !ls.tooLong {
			r.add(r.pos(ls.entries[ls.chain[0]].key), "let name %s stands on more than %d others, one on the other", ls.chain[0], maxChain)
		}
		ls.tooLong = true
		r.breakName(name)
		return
	}
	if e.value.kind == scalarKind {
		eachName(e.value.text, ls.work)
	}
	r.key, r.keyNode = name, e.key
	text, ok := r.value(e.value, "a value like 3-3/4 or 2 * nose")
	if !ok || r.namesBroken(text) {
		r.breakName(name)
		return
	}
	v, err := unit.Eval(text, r.env, r.units)
	if err != nil {
		r.unitProblem(e.value, err)
		r.breakName(name)
		return
	}
	r.env[name] = v
}

// maxChain is how many let names may stand on each other, one on the other.
const maxChain = 100

// circle reports names that need each other, once for the ring of them.
func (ls *lets) circle(name string) {
	from := 0
	for i, n := range ls.chain {
		if n == name {
			from = i
		}
	}
	ring := append(append([]string{}, ls.chain[from:]...), name)
	for _, n := range ring {
		if ls.r.broken[n] {
			return
		}
	}
	for _, n := range ring {
		ls.r.breakName(n)
	}
	key := ls.entries[name].key
	message := fmt.Sprintf("let names go round in a circle: %s", strings.Join(ring, " needs "))
	if len(ring) == 2 {
		message = fmt.Sprintf("let name %s needs itself", name)
	}
	ls.r.addHint(ls.r.pos(key), "give one of them a value of its own", "%s", message)
}

func letter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' || c == '_' }
func digit(c byte) bool  { return '0' <= c && c <= '9' }

// eachName calls do with every name in the text of a value.
func eachName(text string, do func(string)) {
	for i := 0; i < len(text); {
		if !letter(text[i]) {
			i++
			continue
		}
		start := i
		for i < len(text) && (letter(text[i]) || digit(text[i])) {
			i++
		}
		do(text[start:i])
	}
}
