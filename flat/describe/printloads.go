package describe

import "strconv"

// bare writes a number so that it reads back as the same value.
func bare(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func (w *printer) force(key string, f Force) {
	if f.Set {
		w.key(key)
		w.text(bare(f.N), " N")
	}
}

func (w *printer) torque(key string, t Torque) {
	if t.Set {
		w.key(key)
		w.text(bare(t.NMM), " N.mm")
	}
}

func (w *printer) number(key string, n Number) {
	if n.Set {
		w.key(key)
		w.text(bare(n.V))
	}
}

func (w *printer) flag(key string, f Flag) {
	if f.Set || f.Yes {
		w.key(key)
		w.text(map[bool]string{true: "yes", false: "no"}[f.Yes])
	}
}

func (w *printer) axle(a *Axle) {
	if a == nil {
		return
	}
	w.text("axle: ")
	w.open("{")
	w.torque("motor", a.Motor)
	w.number("ratio", a.Ratio)
	w.number("efficiency", a.Efficiency)
	w.length("tyre", a.Tyre, false)
	w.force("load", a.Load)
	w.number("grip", a.Grip)
	if k := a.Link; k != nil {
		w.key("link")
		w.open("{")
		w.length("arm", k.Arm, false)
		w.length("above", k.Above, false)
		w.length("below", k.Below, false)
		w.close("}")
	}
	w.close("}\n")
}

func (w *printer) loads(ls []Load) {
	if len(ls) == 0 {
		return
	}
	w.text("loads:\n")
	for i := range ls {
		l := &ls[i]
		w.text("  - ")
		w.open("{")
		w.word("at", l.Hole, false)
		if l.Point != nil {
			w.point("at", *l.Point)
		}
		w.words("group", l.Group)
		w.word("edge", l.Edge, false)
		w.force("force", l.Force)
		w.word("from", l.From, false)
		w.word("link", l.Link, false)
		w.angle("direction", l.Direction)
		w.torque("moment", l.Moment)
		w.force("tension", l.Tension)
		w.word("shear", l.Shear, false)
		w.word("threads", l.Threads, false)
		w.word("as", l.As, false)
		w.flag("repeated", l.Repeated)
		w.number("factor", l.Factor)
		w.word("case", l.Case, false)
		w.close("}\n")
	}
}

func (w *printer) words(key string, ws []Word) {
	if len(ws) == 0 {
		return
	}
	w.key(key)
	w.open("[")
	for _, v := range ws {
		w.item()
		w.text(scalarText(v.Text))
	}
	w.close("]")
}

func (w *printer) welds(ws []Weld) {
	if len(ws) == 0 {
		return
	}
	w.text("welds:\n")
	for i := range ws {
		k := &ws[i]
		w.text("  - ")
		w.open("{")
		w.word("name", k.Name, false)
		w.word("edge", k.Edge, false)
		if k.From != nil {
			w.point("from", *k.From)
		}
		if k.To != nil {
			w.point("to", *k.To)
		}
		w.length("leg", k.Leg, true)
		w.flag("both sides", k.Both)
		w.length("length", k.Length, false)
		w.word("electrode", k.Electrode, false)
		w.length("ends", k.Ends, false)
		w.close("}\n")
	}
}
