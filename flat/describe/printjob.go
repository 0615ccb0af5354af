package describe

// PrintJob writes a job as canonical text, as Print does a part.
func PrintJob(j *Job) []byte {
	w := &printer{units: j.Units}
	w.line("job", "as drawn", j.Name, true)
	w.head(j.Revision, j.Quantity, Word{}, j.Units)
	w.line("profile", "", j.Profile, false)
	w.pivots(j.Pivots)
	if len(j.Measured) > 0 {
		w.text("measured:\n")
		for i := range j.Measured {
			m := &j.Measured[i]
			w.text("  - ")
			w.open("{")
			w.word("from", m.From, true)
			w.word("to", m.To, true)
			w.length("distance", m.Distance, true)
			w.close("}\n")
		}
	}
	if len(j.Base) > 0 {
		w.first = true
		w.words("base", j.Base)
		w.text("\n")
	}
	w.row("within", j.Within)
	if len(j.Tubes) > 0 {
		w.text("tubes:\n")
		for i := range j.Tubes {
			t := &j.Tubes[i]
			w.text("  ", scalarText(t.Name.Text), ": ")
			w.open("{")
			w.word("file", t.File, true)
			w.word("from", t.From, true)
			w.word("to", t.To, true)
			w.close("}\n")
		}
	}
	w.jobParts(j.Parts)
	w.supports(j.Supports)
	w.axle(j.Axle)
	w.jobLoads(j.Loads)
	if s := j.Stock; s != nil {
		w.text("stock: ")
		w.open("{")
		w.lengths("bars", s.Bars)
		w.length("kerf", s.Kerf, true)
		w.length("trim", s.Trim, false)
		w.length("keep", s.Keep, false)
		w.close("}\n")
	}
	w.waivers(j.Waivers)
	w.line("note", "", j.Note, false)
	return w.b
}

func (w *printer) pivots(ps []JobPivot) {
	if len(ps) == 0 {
		return
	}
	w.text("pivots:\n")
	for i := range ps {
		p := &ps[i]
		w.text("  ", scalarText(p.Name.Text), ": ")
		w.open("{")
		w.place3("at", p.At)
		w.place3("near", p.Near)
		w.direction3("axis", p.Axis)
		w.pivotTube("sleeve", p.Sleeve)
		w.pivotTube("bush", p.Bush)
		w.close("}\n")
	}
}

func (w *printer) place3(key string, v Vector) {
	if !v.Set {
		return
	}
	w.key(key)
	w.open("[")
	for _, f := range [3]float64{v.X, v.Y, v.Z} {
		w.item()
		w.value(Length{MM: f})
	}
	w.close("]")
}

func (w *printer) direction3(key string, v Vector) {
	if v.Set {
		w.key(key)
		w.parts3(v)
	}
}

func (w *printer) parts3(v Vector) {
	w.open("[")
	for _, f := range [3]float64{v.X, v.Y, v.Z} {
		w.item()
		w.text(bare(f))
	}
	w.close("]")
}

func (w *printer) pivotTube(key string, s *PivotTube) {
	if s == nil {
		return
	}
	w.key(key)
	w.open("{")
	w.length("outside", s.Outside, true)
	w.length("bore", s.Bore, true)
	w.length("length", s.Length, true)
	w.word("material", s.Material, false)
	w.close("}")
}

func (w *printer) jobParts(ps []JobPart) {
	if len(ps) == 0 {
		return
	}
	w.text("parts:\n")
	for i := range ps {
		p := &ps[i]
		w.text("  ", scalarText(p.Name.Text), ": ")
		w.open("{")
		w.word("file", p.File, true)
		w.word("at", p.At, false)
		w.word("hole", p.Hole, false)
		w.direction3("right", p.Right)
		w.direction3("up", p.Up)
		w.number("share", p.Share)
		w.word("shear", p.Shear, false)
		if k := p.Joint; k != nil {
			w.key("joint")
			w.open("{")
			w.length("gap", k.Gap, true)
			w.word("held", k.Held, false)
			w.length("spacer", k.Spacer, false)
			if k.Washers.Set {
				w.count("washers", k.Washers)
			}
			w.word("nut", k.Nut, false)
			w.word("threads", k.Threads, false)
			w.length("length", k.Length, false)
			w.close("}")
		}
		w.close("}\n")
	}
}

func (w *printer) supports(ss []JobSupport) {
	if len(ss) == 0 {
		return
	}
	w.text("supports:\n")
	for i := range ss {
		w.text("  - ")
		w.open("{")
		w.word("at", ss[i].At, true)
		if len(ss[i].Along) > 0 {
			w.key("along")
			w.open("[")
			for _, v := range ss[i].Along {
				w.item()
				w.parts3(v)
			}
			w.close("]")
		}
		w.close("}\n")
	}
}

func (w *printer) jobLoads(ls []JobLoad) {
	if len(ls) == 0 {
		return
	}
	w.text("loads:\n")
	for i := range ls {
		l := &ls[i]
		w.text("  - ")
		w.open("{")
		w.word("at", l.At, true)
		w.force("force", l.Force)
		w.word("from", l.From, false)
		w.word("link", l.Link, false)
		w.direction3("direction", l.Direction)
		w.number("factor", l.Factor)
		w.flag("repeated", l.Repeated)
		w.word("case", l.Case, true)
		w.close("}\n")
	}
}
