package describe

import (
	"fmt"
	"strconv"
	"strings"

	"blankwright/flat/diag"
)

// names checks what can be checked once everything has been read: no name twice,
// not too many holes, and each reference to a hole leads to one.
func (r *reader) names(p *Part, root *node) {
	holes := valueOf(root, "holes")
	all := p.allHoles()
	if len(all) == 0 && len(r.refs) == 0 && len(r.named) == 0 {
		return
	}
	index := holeIndex{sets: all}
	total := 0
	for i := range all {
		h := &all[i]
		if h.Name.Set {
			if before := index.find(h.Name.Text, i); before != nil {
				r.nameTwice(h.Name, "hole", before.Name)
			}
		}
		total += h.Most()
	}
	if total > maxHoles {
		if holes == nil {
			holes = root
		}
		r.add(r.pos(holes), "the part has %d holes, at most %d are made", total, maxHoles)
	}
	others := make(map[string]Word, len(r.named))
	for _, w := range r.named {
		if h := index.find(w.Text, len(all)); h != nil {
			r.nameTwice(w, "the name", h.Name)
		} else if before, taken := others[w.Text]; taken {
			r.nameTwice(w, "the name", before)
		} else {
			others[w.Text] = w
		}
	}
	for i := range p.Flanges {
		if w := p.Flanges[i].Name; others[w.Text].Text == "" {
			others[w.Text] = w
		}
	}
	for _, name := range p.Formed.flanges() {
		others[name] = Word{Text: name}
	}
	for _, ref := range r.refs {
		if _, other := others[ref.word.Text]; !other || ref.single {
			r.resolve(ref, &index)
		}
	}
}

func (r *reader) nameTwice(w Word, what string, before Word) {
	r.addHint(w.Pos, fmt.Sprintf("the first is at line %d; give this one another name", before.Pos.Line),
		"%s %s is given twice", what, w.Text)
}

// holeIndex finds sets by name: by a walk where there are few, by a map where
// there are many.
type holeIndex struct {
	sets  []HoleSet
	known map[string]int
	upTo  int
}

// find gives the first of the sets before index end that has the name.
func (x *holeIndex) find(name string, end int) *HoleSet {
	const few = 12
	if end <= few {
		for i := range x.sets[:end] {
			if x.sets[i].Name.Text == name {
				return &x.sets[i]
			}
		}
		return nil
	}
	if x.known == nil {
		x.known, x.upTo = make(map[string]int, len(x.sets)), 0
	}
	for ; x.upTo < end; x.upTo++ {
		name := x.sets[x.upTo].Name.Text
		if _, ok := x.known[name]; !ok {
			x.known[name] = x.upTo
		}
	}
	if i, ok := x.known[name]; ok {
		return &x.sets[i]
	}
	return nil
}

// resolve checks a reference: `name` of one hole, or `name.3` of one hole of a
// pattern; a waiver may name a whole pattern.
func (r *reader) resolve(f ref, x *holeIndex) {
	text := f.word.Text
	name, number, numbered := strings.Cut(text, ".")
	h := x.find(name, len(x.sets))
	if h == nil {
		r.unknownHole(f, name, x)
		return
	}
	one, most := placed(h), h.Most()
	if one == 0 {
		return // its place is wrong, which has been said
	}
	if !numbered {
		if f.single && one > 1 {
			r.addHint(f.word.Pos, fmt.Sprintf("name one of them: %s.1 to %s.%d", name, name, most), "hole %s is a pattern of %d holes, wanted one hole", name, most)
		}
		return
	}
	k, err := strconv.Atoi(number)
	switch {
	case most == 1:
		r.addHint(f.word.Pos, "write "+name, "there is no hole %s: %s is one hole", quote(text), name)
	case err != nil || k < 1 || k > most || strconv.Itoa(k) != number:
		r.addHint(f.word.Pos, fmt.Sprintf("its holes are %s.1 to %s.%d", name, name, most), "there is no hole %s", quote(text))
	}
}

func (r *reader) unknownHole(f ref, name string, x *holeIndex) {
	if r.full() {
		return
	}
	const most = 20
	names := make([]string, 0, len(x.sets)+len(r.named))
	for i := range x.sets {
		if x.sets[i].Name.Set {
			names = append(names, x.sets[i].Name.Text)
		}
	}
	if !f.single {
		for _, w := range r.named {
			names = append(names, w.Text)
		}
	}
	hint := "the part has no holes"
	switch near := diag.Nearest(name, names); {
	case near != "":
		hint = "write " + near
	case len(names) > most:
		hint = fmt.Sprintf("the part's holes are %s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	case len(names) > 0:
		hint = "the part's holes are " + strings.Join(names, ", ")
	}
	r.addHint(f.word.Pos, hint, "there is no hole %s", quote(f.word.Text))
}

// allHoles are the sets of the base, then those of the flanges.
func (p *Part) allHoles() []HoleSet {
	if len(p.Flanges) == 0 {
		return p.Holes
	}
	all := append([]HoleSet(nil), p.Holes...)
	for i := range p.Flanges {
		all = append(all, p.Flanges[i].Holes...)
	}
	return all
}
