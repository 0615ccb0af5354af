package describe

var tabKeys = mapping[Tab]{"a tab", append([]field[Tab]{
	{"name", false, func(r *reader, n *node, t *Tab) { t.Name = r.ownName(n, "a tab") }},
	{"at", true, func(r *reader, n *node, t *Tab) { t.At = r.point(n) }},
	{"width", true, func(r *reader, n *node, t *Tab) { t.Width = r.positive(n) }},
	{"height", false, func(r *reader, n *node, t *Tab) { t.Height = r.positive(n) }},
	{"into", false, func(r *reader, n *node, t *Tab) { t.Into = r.positive(n) }},
	{"angle", false, func(r *reader, n *node, t *Tab) { t.Angle = r.angle(n, -360, 360) }},
}, reliefFields(func(t *Tab) *Relief { return &t.Relief })...)}

var tabSlotKeys = mapping[TabSlot]{"a tab slot", append([]field[TabSlot]{
	{"name", false, func(r *reader, n *node, s *TabSlot) { s.Name = r.ownName(n, "a tab slot") }},
	{"at", true, func(r *reader, n *node, s *TabSlot) { s.At = r.point(n) }},
	{"angle", false, func(r *reader, n *node, s *TabSlot) { s.Angle = r.angle(n, -360, 360) }},
	{"tab", true, func(r *reader, n *node, s *TabSlot) { s.Tab = r.positive(n) }},
	{"thickness", true, func(r *reader, n *node, s *TabSlot) { s.Thickness = r.thickness(n) }},
	{"allowance", false, func(r *reader, n *node, s *TabSlot) { s.Allowance = r.notNegative(n) }},
}, reliefFields(func(s *TabSlot) *Relief { return &s.Relief })...)}

var reliefs = [...]string{"dog-bone", "notch", "none"}

// reliefFields are the keys for the relief of inside corners.
func reliefFields[T any](of func(*T) *Relief) []field[T] {
	return []field[T]{
		{"relief", false, func(r *reader, n *node, t *T) { of(t).Kind = r.choice(n, reliefs[:]...) }},
		{"relief radius", false, func(r *reader, n *node, t *T) { of(t).Radius = r.positive(n) }},
	}
}

// relief checks which keys of a relief go together, and fills in the usual one.
func (r *reader) relief(what string, v *Relief) {
	if v.Kind.Text == "none" && v.Radius.Set {
		r.addHint(v.Radius.Pos, "leave it out, or ask for a dog-bone or a notch", "%s has no relief, but a radius for it", what)
	}
	setWord(&v.Kind, reliefs[0])
}

func (r *reader) tabs(n *node) []Tab {
	if !r.pieceList(n, "tabs like {at: [0, 0], width: 30}") {
		return nil
	}
	ts := make([]Tab, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = "a tab", nil
		t := Tab{Pos: r.pos(item)}
		if found, ok := readMapping(r, item, &tabKeys, &t); ok {
			r.atMostOne("a tab", &found, "height", "into")
		}
		r.relief("the tab", &t.Relief)
		ts = append(ts, t)
	}
	return ts
}

func (r *reader) tabSlots(n *node) []TabSlot {
	if !r.pieceList(n, "slots for tabs like {at: [0, 0], tab: 30, thickness: 6}") {
		return nil
	}
	ss := make([]TabSlot, 0, n.kids)
	for item := n.first; item != nil; item = item.next {
		r.key, r.keyNode = "a tab slot", nil
		s := TabSlot{Pos: r.pos(item)}
		readMapping(r, item, &tabSlotKeys, &s)
		r.relief("the tab slot", &s.Relief)
		ss = append(ss, s)
	}
	return ss
}
