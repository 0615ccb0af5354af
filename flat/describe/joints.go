package describe

import "blankwright/flat/diag"

// Joint is what one bolt holds together: this plate and its twin or others, mostly
// with a sleeve between them.
type Joint struct {
	Pos     diag.Pos
	Hole    Word // one hole that takes a bolt
	Sleeve  *Sleeve
	Gap     Length   // between the plates beside the sleeve
	Held    Word     // "welded" (where not given) or "bolted": how the plates are fixed
	Spacer  Length   // on each side of the sleeve
	Plies   []Length // all that the bolt clamps, from its head to its nut; both plates, spacers and sleeve where not given
	Washers Count    // in all; 1 where not given: under the nut
	Nut     Word     // "plain" (where not given), "lock", "thin"
	Threads Word     // "in" (where not given), "out": whether thread may lie in a shear plane
	Length  Length   // of the bolt; chosen where not given
}

// Sleeve is the tube that the bolt clamps between two plates.
type Sleeve struct {
	Pos                  diag.Pos
	Width, Outside, Bore Length
}

// Coating is what the finished part is covered with.
type Coating struct {
	Pos       diag.Pos
	Kind      Word   // "galvanised", "paint", "powder"
	Thickness Length // on one face; by the table of coatings where not given
}

const (
	maxJoints  = 100
	maxPlies   = 20
	maxWashers = 8
	maxCoat    = 5 // mm
)

var (
	helds        = [...]string{"welded", "bolted"}
	nutKinds     = [...]string{"plain", "lock", "thin"} // those of the tables of nuts
	coatingKinds = [...]string{"galvanised", "paint", "powder"}
)

var sleeveKeys = mapping[Sleeve]{"a sleeve", []field[Sleeve]{
	{"width", true, func(r *reader, n *node, s *Sleeve) { s.Width = r.positive(n) }},
	{"outside", false, func(r *reader, n *node, s *Sleeve) { s.Outside = r.positive(n) }},
	{"bore", false, func(r *reader, n *node, s *Sleeve) { s.Bore = r.positive(n) }},
}}

var jointKeys = mapping[Joint]{"a joint", []field[Joint]{
	{"hole", true, func(r *reader, n *node, j *Joint) { j.Hole = r.holeRef(n) }},
	{"sleeve", false, func(r *reader, n *node, j *Joint) { j.Sleeve = r.sleeve(n) }},
	{"gap", false, func(r *reader, n *node, j *Joint) { j.Gap = r.positive(n) }},
	{"held", false, func(r *reader, n *node, j *Joint) { j.Held = r.choice(n, helds[:]...) }},
	{"spacer", false, func(r *reader, n *node, j *Joint) { j.Spacer = r.notNegative(n) }},
	{"plies", false, func(r *reader, n *node, j *Joint) { j.Plies = r.plies(n) }},
	{"washers", false, func(r *reader, n *node, j *Joint) { j.Washers = r.count(n, 0, maxWashers) }},
	{"nut", false, func(r *reader, n *node, j *Joint) { j.Nut = r.choice(n, nutKinds[:]...) }},
	{"threads", false, func(r *reader, n *node, j *Joint) { j.Threads = r.choice(n, "in", "out") }},
	{"length", false, func(r *reader, n *node, j *Joint) { j.Length = r.positive(n) }},
}}

func (r *reader) sleeve(n *node) *Sleeve {
	s := &Sleeve{Pos: r.pos(n)}
	readMapping(r, n, &sleeveKeys, s)
	if s.Bore.Set && s.Outside.Set && s.Bore.MM > 0 && s.Outside.MM > 0 && s.Bore.MM >= s.Outside.MM {
		r.addHint(s.Bore.Pos, "both are diameters", "the bore of the sleeve is no smaller than its outside")
	}
	return s
}

func (r *reader) plies(n *node) []Length {
	if !r.list(n, 2, "thicknesses, from the bolt's head to its nut") {
		return nil
	}
	if n.kids > maxPlies {
		r.add(r.pos(n), "%s is a list of %d, at most %d are read", r.key, n.kids, maxPlies)
		return nil
	}
	ls := make([]Length, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		ls = append(ls, r.positive(item))
	}
	return ls
}

func (r *reader) joints(n *node) []Joint {
	if n.empty() || !r.list(n, 0, "joints like {hole: pivot, sleeve: {width: 50}}") || n.kids == 0 {
		return nil
	}
	if n.kids > maxJoints {
		r.add(r.pos(n), "%s is a list of %d, at most %d are read", r.key, n.kids, maxJoints)
		return nil
	}
	js := make([]Joint, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = "a joint", nil
		j := Joint{Pos: r.pos(item)}
		if found, ok := readMapping(r, item, &jointKeys, &j); ok {
			r.goesWith("a joint", &found, "gap", "sleeve")
			r.goesWith("a joint", &found, "spacer", "sleeve")
			if !found.has("sleeve") && !found.has("plies") {
				r.addHint(j.Pos, "add sleeve:, or plies:", "the joint has neither a sleeve nor plies")
			}
		}
		setWord(&j.Held, helds[0])
		setWord(&j.Nut, nutKinds[0])
		setWord(&j.Threads, "in")
		if !j.Washers.Set {
			j.Washers.N = 1
		}
		js = append(js, j)
	}
	return js
}

var coatingKeys = mapping[Coating]{"the coating", []field[Coating]{
	{"kind", true, func(r *reader, n *node, c *Coating) { c.Kind = r.choice(n, coatingKinds[:]...) }},
	{"thickness", false, func(r *reader, n *node, c *Coating) {
		if c.Thickness = r.positive(n); c.Thickness.MM > maxCoat {
			r.addHint(c.Thickness.Pos, "is the unit right?", "thickness is %s, wanted at most %d mm", quote(n.text), maxCoat)
		}
	}},
}}

func (r *reader) coating(n *node) *Coating {
	c := &Coating{Pos: r.pos(n)}
	readMapping(r, n, &coatingKeys, c)
	return c
}

func (w *printer) joints(js []Joint) {
	if len(js) == 0 {
		return
	}
	w.text("joints:\n")
	for i := range js {
		j := &js[i]
		w.text("  - ")
		w.open("{")
		w.word("hole", j.Hole, true)
		if s := j.Sleeve; s != nil {
			w.key("sleeve")
			w.open("{")
			w.length("width", s.Width, true)
			w.length("outside", s.Outside, false)
			w.length("bore", s.Bore, false)
			w.close("}")
		}
		w.length("gap", j.Gap, false)
		w.word("held", j.Held, false)
		w.length("spacer", j.Spacer, false)
		if len(j.Plies) > 0 {
			w.key("plies")
			w.open("[")
			for _, l := range j.Plies {
				w.item()
				w.value(l)
			}
			w.close("]")
		}
		if j.Washers.Set {
			w.count("washers", j.Washers)
		}
		w.word("nut", j.Nut, false)
		w.word("threads", j.Threads, false)
		w.length("length", j.Length, false)
		w.close("}\n")
	}
}

func (w *printer) coating(c *Coating) {
	if c == nil {
		return
	}
	w.text("coating: ")
	w.open("{")
	w.word("kind", c.Kind, true)
	w.length("thickness", c.Thickness, false)
	w.close("}\n")
}
