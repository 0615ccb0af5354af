package blank

import (
	"math"
	"slices"
	"strconv"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/profiles"
)

// punch works out every set of holes. A set whose size is at fault still takes
// its places, so that an outline round it raises no second problem.
func (m *maker) punch() {
	sets := m.part.Holes
	m.named = make(map[string]int, len(sets))
	m.holes = make([]Hole, 0, len(sets)+1)
	m.punchSets(sets)
}

// punchSets works out some sets of holes.
func (m *maker) punchSets(sets []describe.HoleSet) {
	for i := range sets {
		s := &sets[i]
		if s.Name.Text == "" {
			m.problems.Add(s.Pos, "a hole has no name")
			continue
		}
		hole := m.opening(s)
		spots, ok := m.spots(s)
		if !ok {
			m.claim(s.Name.Text, -1, s.Name.Pos)
			continue
		}
		if len(m.holes)+len(spots) > maxHoles {
			m.problems.Add(s.Pos, "the part has more than %d holes", maxHoles)
			m.claim(s.Name.Text, -1, s.Name.Pos)
			continue
		}
		m.place(hole, spots, s)
	}
}

// place puts a set's hole on each of its places.
func (m *maker) place(h Hole, spots []spot, s *describe.HoleSet) {
	angle := h.Angle
	for k, at := range spots {
		h.Name = memberName(s.Name.Text, k+1, len(spots))
		h.move(at.at, at.via.angle(angle))
		m.claim(h.Name, len(m.holes), s.Name.Pos)
		m.holes = append(m.holes, h)
	}
	if len(spots) > 1 {
		m.claim(s.Name.Text, -1, s.Name.Pos) // no hole is named like a pattern
		if m.patterns == nil {
			m.patterns = make(map[string]int)
		}
		m.patterns[s.Name.Text] = len(spots)
	}
}

// claim gives a name to a hole; each name serves once.
func (m *maker) claim(name string, index int, pos diag.Pos) {
	if _, taken := m.named[name]; taken {
		m.problems.AddHint(pos, "give one of them another name", "two holes are named %q", name)
		return
	}
	m.named[name] = index
}

// opening works out the hole of a set without its place.
func (m *maker) opening(s *describe.HoleSet) Hole {
	h := Hole{Set: s.Name.Text, Pos: s.Pos}
	if s.Name.Pos.Line != 0 {
		h.Pos = s.Name.Pos
	}
	var w words
	ok := false
	switch {
	case s.Bolt.Text != "":
		w, ok = m.boltHole(&h, s)
	case s.Diameter.Set:
		w, ok = m.plainHole(&h, s)
	case s.Drill.Text != "":
		w, ok = m.drilledHole(&h, s)
	case s.Bore.Set:
		w, ok = m.bore(&h, s)
	default:
		m.problems.AddHint(s.Pos, "give one of: bolt, diameter, drill, bore", "hole %q has no size", s.Name.Text)
	}
	if !ok {
		return h
	}
	if s.For.Text != "" {
		if !m.lightening(&h, s) {
			return h
		}
		w.lead = "lightening "
	}
	if s.Slot != nil && !m.slot(&h, s) {
		return h
	}
	if m.method(&h, s) {
		w.finish(&h, m.part.Units)
	}
	return h
}

// boltHole takes its size from the clearance table for the bolt.
func (m *maker) boltHole(h *Hole, s *describe.HoleSet) (words, bool) {
	bolt, err := m.findBolt(s.Bolt.Text)
	if err != nil {
		m.noteErr(s.Bolt.Pos, err)
		return words{}, false
	}
	h.Purpose, h.Bolt = BoltHole, bolt
	w := words{tail: " for " + bolt.Name}
	if s.Slot != nil && s.Slot.Kind.Text != "" {
		return w, m.standardSlot(h, s)
	}
	c, err := profiles.ClearanceFor(*bolt, s.Standard.Text, s.Fit.Text)
	if err != nil {
		m.noteErr(firstPos(s.Fit, s.Standard, s.Bolt), err)
		return w, false
	}
	h.Dia, h.Source = c.Dia, sourceText(c.Source)
	w.drill = c.Drill
	return w, true
}

// findBolt finds a bolt by its text; a part mostly has many holes for few bolts.
func (m *maker) findBolt(text string) (*profiles.Bolt, error) {
	for i := range m.bolts {
		if m.bolts[i].text == text {
			return m.bolts[i].bolt, nil
		}
	}
	bolt, err := profiles.FindBolt(text)
	if err != nil {
		return nil, err
	}
	if len(m.bolts) < fewBolts {
		m.bolts = append(m.bolts, boltByText{text, &bolt})
	}
	return &bolt, nil
}

// fewBolts is how many bolts a part remembers.
const fewBolts = 8

type boltByText struct {
	text string
	bolt *profiles.Bolt
}

// standardSlot takes width and length from the table of slotted holes.
func (m *maker) standardSlot(h *Hole, s *describe.HoleSet) bool {
	width, length, src, err := profiles.SlotFor(*h.Bolt, s.Slot.Kind.Text)
	if err != nil {
		m.noteErr(s.Slot.Kind.Pos, err)
		return false
	}
	h.Dia, h.Length, h.Source = width, length, sourceText(src)
	return true
}

func (m *maker) plainHole(h *Hole, s *describe.HoleSet) (words, bool) {
	d, ok := m.size(s.Diameter, "the diameter of the hole", s.Pos)
	h.Dia, h.Source = d, "as described"
	return words{}, ok
}

// drilledHole takes its size from a drill's name.
func (m *maker) drilledHole(h *Hole, s *describe.HoleSet) (words, bool) {
	d, src, err := profiles.Drill(s.Drill.Text)
	if err != nil {
		m.noteErr(s.Drill.Pos, err)
		return words{}, false
	}
	h.Dia, h.Source = d, sourceText(src)
	return words{drill: drillName(s.Drill.Text, d)}, true
}

// bore takes its size from what goes in, and from how tight.
func (m *maker) bore(h *Hole, s *describe.HoleSet) (words, bool) {
	d, ok := m.size(s.Bore, "the bore", s.Pos)
	if !ok {
		return words{}, false
	}
	h.Purpose, h.Nominal = Bore, d
	allow, fit := 0.0, "no allowance, "
	switch a := s.Allow; {
	case a.Amount.Set:
		if !num.Finite(a.Amount.MM) || math.Abs(a.Amount.MM) > maxReach {
			m.tooFar(a.Amount.Pos, "the allowance of the bore")
			return words{}, false
		}
		allow = a.Amount.MM
		fit = allowanceText(allow, m.part.Units) + ", "
		h.Source = "allowance as described"
	case fitKind(a.Kind.Text):
		row, _ := m.set.FitFor(a.Kind.Text, d)
		allow, fit = row.Allowance, a.Kind.Text+" fit "
		h.Source = fit + "by the table bore-fits: " + sourceText(row.Source)
	case a.Kind.Text == "none" || a.Kind.Text == "":
		h.Source = "as described, no allowance"
	default:
		m.problems.AddHint(a.Kind.Pos, "allow is one of: press, slip, shell, none, or an amount", "unknown allowance %q", a.Kind.Text)
		return words{}, false
	}
	h.Dia = d + allow
	if h.Dia < 0 || num.Zero(h.Dia) {
		m.problems.Add(firstPos(describe.Word{Pos: s.Allow.Pos, Set: true}), "an allowance of %s leaves nothing of a bore of %s",
			m.text(allow), m.text(d))
		return words{}, false
	}
	return words{lead: "bore ", tail: ", " + fit + "for " + string(appendLength(nil, d, m.part.Units))}, true
}

// fitKind reports whether a word is a kind of fit from the table of bore fits.
func fitKind(word string) bool { return slices.Contains(profiles.FitKinds(), word) }

// lightening marks a hole that only saves weight.
func (m *maker) lightening(h *Hole, s *describe.HoleSet) bool {
	switch {
	case s.For.Text != "lightening":
		m.problems.AddHint(s.For.Pos, "for is one of: lightening", "hole %q is for %q", s.Name.Text, s.For.Text)
		return false
	case h.Purpose != PlainHole:
		m.problems.AddHint(s.For.Pos, "leave for: out, or give diameter or drill", "hole %q is for lightening and for what goes through it", s.Name.Text)
		return false
	}
	h.Purpose = Lightening
	return true
}

// slot makes a slot of a hole whose width is known.
func (m *maker) slot(h *Hole, s *describe.HoleSet) bool {
	if h.Purpose == Bore || s.Drill.Text != "" {
		m.problems.AddHint(s.Slot.Pos, "give the slot's width by bolt or diameter", "only a bolt hole or a diameter makes a slot")
		return false
	}
	a, ok := m.angle(s.Slot.Angle, "the angle of the slot", s.Slot.Pos)
	if !ok {
		return false
	}
	h.Angle = a
	if h.Length == 0 {
		if s.Slot.Kind.Text != "" {
			m.problems.AddHint(s.Slot.Kind.Pos, "give its length, or a bolt", "a %s slot is made for a bolt, and hole %q has none",
				s.Slot.Kind.Text, s.Name.Text)
			return false
		}
		if h.Length, ok = m.size(s.Slot.Length, "the length of the slot", s.Slot.Pos); !ok {
			return false
		}
	}
	if h.Length <= h.Dia || num.Same(h.Length, h.Dia) {
		m.problems.AddHint(firstPos(describe.Word{Pos: s.Slot.Length.Pos}, describe.Word{Pos: s.Slot.Pos}),
			"the length is overall, round ends included",
			"a slot %s long is no longer than it is wide (%s)", m.text(h.Length), m.text(h.Dia))
		return false
	}
	return true
}

// method settles how the hole gets into the plate and what the table cuts of it.
func (m *maker) method(h *Hole, s *describe.HoleSet) bool {
	how := s.How.Text
	if how == "" {
		how = "cut"
		if h.Purpose == Bore && !s.Allow.Amount.Set && fitKind(s.Allow.Kind.Text) {
			how = "ream"
		}
	}
	switch how {
	case "cut":
		h.Method, h.CutDia = Cut, h.Dia
	case "drill":
		if h.Length != 0 {
			m.problems.AddHint(s.How.Pos, "cut it, or describe the holes at its ends and drill those", "slot %q cannot be drilled", s.Name.Text)
			return false
		}
		h.Method, h.CutDia = Drill, 0
	case "ream":
		if h.Length != 0 {
			m.problems.AddHint(s.How.Pos, "cut it", "slot %q cannot be reamed", s.Name.Text)
			return false
		}
		under := m.set.Limit(profiles.CutUnder)
		h.Method, h.CutDia = Ream, h.Dia-under
		h.DrillDia = m.reamDrill(h)
		if h.CutDia < under || num.Zero(h.CutDia) {
			m.problems.AddHint(firstPos(s.How, s.Name, describe.Word{Pos: s.Pos}), "drill it: how: drill",
				"hole %q of %s is too small to be cut %s under size and reamed, wanted %s or more",
				s.Name.Text, m.text(h.Dia), m.text(under), m.text(2*under))
			return false
		}
	default:
		m.problems.AddHint(s.How.Pos, "how is one of: cut, drill, ream", "unknown way %q to make hole %q", how, s.Name.Text)
		return false
	}
	return true
}

// angle takes an angle; nothing where it was not given.
func (m *maker) angle(a describe.Angle, what string, pos diag.Pos) (float64, bool) {
	if !num.Finite(a.Rad) || math.Abs(a.Rad) > maxTurn {
		if a.Pos.Line == 0 {
			a.Pos = pos
		}
		m.problems.Add(a.Pos, "%s is out of reach: wanted no more than %d turns", what, maxTurns)
		return 0, false
	}
	return a.Rad, true
}

// maxTurns is the most turns an angle may have: far more than anyone means, few
// enough that no digits of its direction are lost.
const (
	maxTurns = 10
	maxTurn  = 2 * math.Pi * maxTurns
)

// firstPos is the place of the first word that has one.
func firstPos(ws ...describe.Word) diag.Pos {
	for _, w := range ws {
		if w.Pos.Line != 0 {
			return w.Pos
		}
	}
	return ws[len(ws)-1].Pos
}

func quoted(s string) string { return strconv.Quote(s) }

// sourceText writes a source with how well it is founded.
func sourceText(s profiles.Source) string {
	if s.Prov == profiles.Standard || s.Prov == "" {
		return s.Text
	}
	return s.Text + " (" + string(s.Prov) + ")"
}
