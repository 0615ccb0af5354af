package describe

import (
	"strconv"

	"blankwright/flat/unit"
)

// PrintTube writes a tube as canonical text, as Print does a part.
func PrintTube(t *Tube) []byte {
	w := &printer{units: t.Units}
	w.line("tube", "as drawn", t.Name, true)
	w.head(t.Revision, t.Quantity, t.Hand, t.Units)
	w.line("profile", "", t.Profile, false)
	w.line("rules", tubeRules[0], t.Rules, false)
	w.text("section: ")
	w.open("{")
	w.length("outside", t.Section.Outside, true)
	w.length("wall", t.Section.Wall, true)
	w.word("material", t.Section.Material, true)
	w.close("}\n")
	w.line("cut", wallCuts[0], t.Cut, false)
	w.row("centres", t.Centres)
	w.row("length", t.Length)
	w.angleLine("turn", t.Turn)
	w.tubeEnd("first", t.First)
	w.tubeEnd("second", t.Second)
	if p := t.Paper; p != nil {
		w.text("paper: ")
		w.open("{")
		w.length("thickness", p.Thickness, false)
		w.length("tab", p.Tab, false)
		w.length("margin", p.Margin, false)
		w.angle("seam", p.Seam)
		w.close("}\n")
	}
	w.saw("saw", t.Saw)
	if s := t.HoleSaws; s != nil {
		w.text("hole saws: ")
		w.open("{")
		w.lengths("diameters", s.Diameters)
		w.length("cup", s.Cup, false)
		w.angle("least angle", s.Least)
		w.close("}\n")
	}
	if t.Stations.Set {
		w.text("stations: ", strconv.Itoa(t.Stations.N), "\n")
	}
	if k := t.Weld; k != nil {
		w.text("weld: ")
		w.open("{")
		w.length("leg", k.Leg, true)
		w.word("electrode", k.Electrode, false)
		w.close("}\n")
	}
	w.tubeLoads(t.Loads)
	w.waivers(t.Waivers)
	w.line("note", "", t.Note, false)
	return w.b
}

// head writes what tubes and jobs have in common with parts.
func (w *printer) head(revision Word, quantity Count, hand Word, units unit.System) {
	w.line("revision", "", revision, false)
	if quantity.Set || quantity.N > 1 {
		w.text("quantity: ", strconv.Itoa(quantity.N), "\n")
	}
	w.line("hand", "as drawn", hand, false)
	switch units {
	case unit.Inch:
		w.text("units: in\n")
	case unit.Millimetre:
		w.text("units: mm\n")
	}
}

// row writes a length as a line of the top mapping.
func (w *printer) row(key string, l Length) {
	if l.Set {
		w.text(key, ": ")
		w.value(l)
		w.text("\n")
	}
}

func (w *printer) angleLine(key string, a Angle) {
	if a.Set {
		w.first = true
		w.angle(key, a)
		w.text("\n")
	}
}

func (w *printer) tubeEnd(key string, e TubeEnd) {
	if e.Square || len(e.Meets) == 0 {
		w.text(key, ": square\n")
		return
	}
	w.text(key, ":\n")
	for i := range e.Meets {
		m := &e.Meets[i]
		w.text("  - ")
		w.open("{")
		w.word("name", m.Name, false)
		w.length("main", m.Main, false)
		w.flag("plate", m.Plate)
		w.angle("angle", m.Angle)
		w.length("offset", m.Offset, false)
		w.angle("turn", m.Turn)
		w.length("at", m.At, false)
		w.length("length", m.Long, false)
		w.length("middle", m.Middle, false)
		w.length("bore", m.Bore, false)
		w.flag("beside", m.Beside)
		w.close("}\n")
	}
}

func (w *printer) saw(key string, s *Saw) {
	if s == nil {
		return
	}
	w.text(key, ": ")
	w.open("{")
	w.length("kerf", s.Kerf, true)
	w.length("bar", s.Bar, true)
	w.length("trim", s.Trim, false)
	w.length("keep", s.Keep, false)
	w.close("}\n")
}

func (w *printer) lengths(key string, ls []Length) {
	if len(ls) == 0 {
		return
	}
	w.key(key)
	w.open("[")
	for _, l := range ls {
		w.item()
		w.value(l)
	}
	w.close("]")
}

func (w *printer) tubeLoads(ls []TubeLoad) {
	if len(ls) == 0 {
		return
	}
	w.text("loads:\n")
	for i := range ls {
		l := &ls[i]
		w.text("  - ")
		w.open("{")
		w.force("tension", l.Tension)
		w.force("compression", l.Compression)
		w.number("factor", l.Factor)
		w.word("case", l.Case, false)
		w.close("}\n")
	}
}
