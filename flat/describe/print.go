package describe

import (
	"math"
	"strconv"
	"strings"

	"blankwright/flat/unit"
)

// Print writes a part as canonical text: keys in the order of the reference,
// one line a hole, every length with its unit. What Parse reads from it has the
// same values as p to the last bit; let names and comments are gone.
func Print(p *Part) []byte {
	w := &printer{units: p.Units}
	w.line("part", "as drawn", p.Name, true)
	w.line("revision", "", p.Revision, false)
	if p.Quantity.Set || p.Quantity.N > 1 {
		w.text("quantity: ", strconv.Itoa(p.Quantity.N), "\n")
	}
	w.line("hand", "as drawn", p.Hand, false)
	switch p.Units {
	case unit.Inch:
		w.text("units: in\n")
	case unit.Millimetre:
		w.text("units: mm\n")
	}
	w.text("plate: ")
	w.open("{")
	w.length("thickness", p.Plate.Thickness, true)
	w.word("material", p.Plate.Material, true)
	w.text("}\n")
	w.line("process", "", p.Process, true)
	w.line("profile", "", p.Profile, false)
	w.line("rules", ruleSets[0], p.Rules, false)
	w.line("edges", "cut", p.Edges, false)
	w.holes(p.Holes)
	if p.Formed == nil {
		w.text("outline:\n  ")
		w.outline(&p.Outline)
	}
	w.formed(p.Formed)
	w.bends(p.Bends)
	w.bendReliefLine("relief", p.Relief)
	w.bendReliefLine("corner relief", p.Corner)
	w.flanges(p.Flanges)
	w.inLine(p.InLine)
	w.pieces("add", p.Add)
	w.pieces("cutouts", p.Cutouts)
	w.tabs(p.Tabs)
	w.tabSlots(p.TabSlots)
	w.marks(p.Marks)
	w.joints(p.Joints)
	w.coating(p.Coating)
	w.axle(p.Axle)
	w.loads(p.Loads)
	w.welds(p.Welds)
	w.waivers(p.Waivers)
	w.line("note", "", p.Note, false)
	return w.b
}

// printer writes flow mappings and lists: open begins one, key and item put the
// commas.
type printer struct {
	b     []byte
	units unit.System
	first bool // nothing in the mapping or list yet
}

func (w *printer) text(parts ...string) {
	for _, s := range parts {
		w.b = append(w.b, s...)
	}
}

func (w *printer) open(bracket string) {
	w.text(bracket)
	w.first = true
}

func (w *printer) close(bracket string) {
	w.text(bracket)
	w.first = false
}

func (w *printer) item() {
	if !w.first {
		w.text(", ")
	}
	w.first = false
}

func (w *printer) key(key string) {
	w.item()
	w.text(key, ": ")
}

// line writes a word as a line of the top mapping, unless it says no more than
// is understood.
func (w *printer) line(key, usual string, v Word, must bool) {
	if must || v.Set || v.Text != "" && v.Text != usual {
		w.text(key, ": ", scalarText(v.Text), "\n")
	}
}

func (w *printer) word(key string, v Word, must bool) {
	if must || v.Set {
		w.key(key)
		w.text(scalarText(v.Text))
	}
}

// scalarText writes a text so that it reads back as itself.
func scalarText(s string) string {
	if plainWord(s) {
		return s
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		if c == '"' || c == '\\' {
			b.WriteByte('\\')
		}
		b.WriteRune(c)
	}
	b.WriteByte('"')
	return b.String()
}

// plainWord reports whether a text can stand without quotes anywhere.
func plainWord(s string) bool {
	if s == "" || !letter(s[0]) && !digit(s[0]) || s[len(s)-1] == ' ' {
		return false
	}
	for i := 0; i < len(s); i++ {
		if c := s[i]; !letter(c) && !digit(c) && !strings.ContainsRune(" ./+-", rune(c)) {
			return false
		}
	}
	n := node{text: s}
	return !n.empty()
}

func (w *printer) length(key string, l Length, must bool) {
	if must || l.Set {
		w.key(key)
		w.value(l)
	}
}

// value writes a length: in inches in an inch file where that reads back as the
// very same value and is no longer, else in millimetres.
func (w *printer) value(l Length) {
	mm := number(l.MM)
	if w.units == unit.Inch {
		in := number(l.MM / unit.MM)
		if len(in) <= len(mm) {
			if back, err := unit.Length(in+" in", nil, unit.Unset); err == nil && back == l.MM {
				w.text(in, " in")
				return
			}
		}
	}
	w.text(mm, " mm")
}

// angle writes degrees where they read back as the very same value, else
// radians.
func (w *printer) angle(key string, a Angle) {
	if !a.Set {
		return
	}
	w.key(key)
	deg := strconv.FormatFloat(math.Round(a.Rad*180/math.Pi*1e6)/1e6, 'f', -1, 64) + " deg"
	if back, err := unit.Angle(deg, nil); err == nil && back == a.Rad {
		w.text(deg)
		return
	}
	w.text(number(a.Rad), " rad")
}

// number writes the shortest decimal text of a value, with an exponent where
// that is shorter, as it is for a row of zeros.
func number(v float64) string {
	plain := strconv.FormatFloat(v, 'f', -1, 64)
	if short := strconv.FormatFloat(v, 'e', -1, 64); len(short) < len(plain) {
		return short
	}
	return plain
}

func (w *printer) point(key string, p Point) {
	w.key(key)
	w.pair(p.X, p.Y)
}

func (w *printer) pair(a, b Length) {
	w.text("[")
	w.value(a)
	w.text(", ")
	w.value(b)
	w.text("]")
}

func (w *printer) count(key string, c Count) {
	w.key(key)
	w.text(strconv.Itoa(c.N))
}

func (w *printer) holes(sets []HoleSet) {
	if len(sets) == 0 {
		return
	}
	w.text("holes:\n")
	for i := range sets {
		h := &sets[i]
		w.text("  ", scalarText(h.Name.Text), ": ")
		w.open("{")
		w.place(h)
		w.size(h)
		w.word("how", h.How, false)
		w.word("for", h.For, false)
		w.close("}\n")
	}
}

func (w *printer) place(h *HoleSet) {
	switch {
	case h.At != nil:
		w.point("at", *h.At)
	case h.Row != nil:
		w.key("row")
		w.open("{")
		w.point("from", h.Row.From)
		w.point("to", h.Row.To)
		w.count("count", h.Row.Count)
		w.close("}")
	case h.Grid != nil:
		w.key("grid")
		w.open("{")
		w.point("at", h.Grid.At)
		w.count("columns", h.Grid.Columns)
		w.count("rows", h.Grid.Rows)
		w.key("pitch")
		w.pair(h.Grid.PitchX, h.Grid.PitchY)
		w.close("}")
	case h.Circle != nil:
		w.key("circle")
		w.open("{")
		w.point("at", h.Circle.At)
		w.length("diameter", h.Circle.Diameter, true)
		w.count("count", h.Circle.Count)
		w.angle("start", h.Circle.Start)
		w.close("}")
	}
	w.word("mirror", h.Mirror, false)
}

func (w *printer) size(h *HoleSet) {
	w.word("bolt", h.Bolt, false)
	w.length("diameter", h.Diameter, false)
	w.word("drill", h.Drill, false)
	w.length("bore", h.Bore, false)
	w.word("fit", h.Fit, false)
	w.word("standard", h.Standard, false)
	w.length("allow", h.Allow.Amount, false)
	w.word("allow", h.Allow.Kind, false)
	if s := h.Slot; s != nil {
		w.key("slot")
		w.open("{")
		w.length("length", s.Length, false)
		w.word("kind", s.Kind, false)
		w.angle("angle", s.Angle)
		w.close("}")
	}
}

func (w *printer) outline(s *Shape) {
	w.text(s.kindName(), ":")
	switch {
	case s.Tangent != nil:
		for i := range s.Tangent {
			w.text("\n    - ")
			w.boss(&s.Tangent[i])
		}
	case s.Corners != nil:
		w.corners(s.Corners)
	case s.Rectangle != nil:
		q := s.Rectangle
		w.open(" {")
		w.centre(q.At)
		w.length("width", q.Width, true)
		w.length("height", q.Height, true)
		w.length("radius", q.Radius, false)
		w.length("chamfer", q.Chamfer, false)
		w.close("}")
	case s.Disc != nil:
		w.open(" {")
		w.centre(s.Disc.At)
		w.length("diameter", s.Disc.Diameter, true)
		w.close("}")
	case s.Ring != nil:
		w.open(" {")
		w.centre(s.Ring.At)
		w.length("outside", s.Ring.Outside, true)
		w.length("inside", s.Ring.Inside, true)
		w.close("}")
	case s.Gusset != nil:
		w.gusset(s.Gusset)
	case s.LinkPlate != nil:
		w.linkPlate(s.LinkPlate)
	}
	w.text("\n")
}

// centre writes a place that is 0,0 where not given.
func (w *printer) centre(p Point) {
	if p.X.Set || p.Y.Set || p.X.MM != 0 || p.Y.MM != 0 {
		w.point("at", p)
	}
}

func (w *printer) boss(b *Boss) {
	w.open("{")
	if b.At != nil {
		w.point("at", *b.At)
	} else {
		w.word("hole", b.Hole, true)
	}
	w.length("radius", b.Radius, false)
	if b.Hollow.Set || b.Hollow.Yes {
		w.key("hollow")
		w.text(map[bool]string{true: "yes", false: "no"}[b.Hollow.Yes])
	}
	w.length("waist", b.Waist, false)
	w.close("}")
}

func (w *printer) corners(cs []Corner) {
	for i := range cs {
		c := &cs[i]
		w.text("\n    - ")
		if !c.Radius.Set && !c.Chamfer.Set {
			w.pair(c.At.X, c.At.Y)
			continue
		}
		w.open("{")
		w.point("at", c.At)
		w.length("radius", c.Radius, false)
		w.length("chamfer", c.Chamfer, false)
		w.close("}")
	}
}

func (w *printer) gusset(g *Gusset) {
	w.open(" {")
	w.centre(g.At)
	w.key("legs")
	w.pair(g.Legs[0], g.Legs[1])
	w.angle("angle", g.Angle)
	if g.Toes[0].Set || g.Toes[1].Set {
		w.key("toes")
		w.pair(g.Toes[0], g.Toes[1])
	}
	w.length("snipe", g.Snipe, false)
	w.word("snipe kind", g.SnipeKind, false)
	w.length("hollow", g.Hollow, false)
	w.close("}")
}

func (w *printer) linkPlate(l *LinkPlate) {
	w.open(" {")
	w.key("through")
	w.open("[")
	for i := range l.Through {
		w.item()
		w.boss(&l.Through[i])
	}
	w.close("]")
	switch len(l.Widths) {
	case 0:
	case 1:
		w.length("width", l.Widths[0], true)
	default:
		w.key("width")
		w.open("[")
		for _, v := range l.Widths {
			w.item()
			w.value(v)
		}
		w.close("]")
	}
	w.close("}")
}

func (w *printer) pieces(key string, ps []Piece) {
	if len(ps) == 0 {
		return
	}
	w.text(key, ":\n")
	for i := range ps {
		p := &ps[i]
		w.text("  - ")
		if p.Name.Set {
			w.text("name: ", scalarText(p.Name.Text), "\n    ")
		}
		if p.Saddle == nil {
			w.outline(&p.Shape)
			continue
		}
		w.text("saddle:")
		w.open(" {")
		w.length("tube", p.Saddle.Tube, true)
		w.length("wall", p.Saddle.Wall, false)
		w.point("at", p.Saddle.At)
		w.length("gap", p.Saddle.Gap, false)
		w.angle("wrap", p.Saddle.Wrap)
		w.close("}\n")
	}
}

func (w *printer) tabs(ts []Tab) {
	if len(ts) == 0 {
		return
	}
	w.text("tabs:\n")
	for i := range ts {
		t := &ts[i]
		w.text("  - ")
		w.open("{")
		w.word("name", t.Name, false)
		w.point("at", t.At)
		w.length("width", t.Width, true)
		w.length("height", t.Height, false)
		w.length("into", t.Into, false)
		w.angle("angle", t.Angle)
		w.relief(&t.Relief)
		w.close("}\n")
	}
}

func (w *printer) tabSlots(ss []TabSlot) {
	if len(ss) == 0 {
		return
	}
	w.text("tab slots:\n")
	for i := range ss {
		s := &ss[i]
		w.text("  - ")
		w.open("{")
		w.word("name", s.Name, false)
		w.point("at", s.At)
		w.angle("angle", s.Angle)
		w.length("tab", s.Tab, true)
		w.length("thickness", s.Thickness, true)
		w.length("allowance", s.Allowance, false)
		w.relief(&s.Relief)
		w.close("}\n")
	}
}

func (w *printer) relief(r *Relief) {
	w.word("relief", r.Kind, false)
	w.length("relief radius", r.Radius, false)
}

func (w *printer) marks(ms []Mark) {
	if ms == nil {
		return
	}
	if len(ms) == 0 {
		w.text("marks: []\n")
		return
	}
	w.text("marks:\n")
	for i := range ms {
		w.text("  - ")
		w.open("{")
		w.word("text", ms[i].Text, true)
		if ms[i].At != nil {
			w.point("at", *ms[i].At)
		}
		w.close("}\n")
	}
}

func (w *printer) waivers(ws []Waiver) {
	if len(ws) == 0 {
		return
	}
	w.text("waive:\n")
	for i := range ws {
		w.text("  - ")
		w.open("{")
		w.word("rule", ws[i].Rule, true)
		w.word("hole", ws[i].Hole, false)
		w.word("reason", ws[i].Reason, true)
		w.close("}\n")
	}
}
