package describe

import "strings"

func (w *printer) bends(b *Bends) {
	if b == nil {
		return
	}
	w.text("bends: ")
	w.open("{")
	w.length("radius", b.Radius, false)
	w.bendRule(b.Rule)
	w.angle("grain", b.Grain)
	w.close("}\n")
}

func (w *printer) bendRule(b BendRule) {
	if !b.Kind.Set {
		return
	}
	w.key("rule")
	text := b.Kind.Text
	switch text {
	case "k":
		text += " " + number(b.K)
	case "deduction", "allowance":
		v := printer{units: w.units}
		v.value(b.Length)
		text += " " + string(v.b)
	case "test bend":
		text += " " + b.Name
	}
	w.text(scalarText(text))
}

func (w *printer) bendReliefLine(key string, b *BendRelief) {
	if b != nil {
		w.text(key, ": ")
		w.bendRelief(b)
		w.text("\n")
	}
}

func (w *printer) bendRelief(b *BendRelief) {
	w.open("{")
	w.word("shape", b.Shape, false)
	w.length("width", b.Width, false)
	w.length("depth", b.Depth, false)
	w.close("}")
}

func (w *printer) formed(f *Formed) {
	if f == nil {
		return
	}
	w.text("formed:\n  ", f.Kind.Text, ": ")
	w.open("{")
	w.length("width", f.Width, false)
	w.length("inside width", f.InsideWidth, false)
	w.length("depth", f.Depth, false)
	w.length("inside depth", f.InsideDepth, false)
	w.length("web", f.Web, false)
	if legs := "legs"; f.Legs[0].Set {
		if f.Kind.Text == "z" || f.Kind.Text == "hat" {
			legs = "feet"
		}
		w.key(legs)
		w.pair(f.Legs[0], f.Legs[1])
	}
	w.length("height", f.Height, false)
	w.length("length", f.Length, false)
	w.word("measured", f.Measured, false)
	w.word("joint", f.Joint, false)
	w.length("gap", f.Gap, false)
	w.close("}\n")
}

func (w *printer) flanges(fs []Flange) {
	if len(fs) == 0 {
		return
	}
	w.text("flanges:\n")
	for i := range fs {
		f := &fs[i]
		w.text("  ", scalarText(f.Name.Text), ":")
		w.open(" {")
		w.word("on", f.On, false)
		w.word("edge", f.Edge, false)
		w.word("edge is", f.EdgeIs, false)
		w.length("height", f.Height, false)
		w.word("measured", f.Measured, false)
		w.angle("angle", f.Angle)
		w.length("radius", f.Radius, false)
		w.bendRule(f.Rule)
		w.word("turn", f.Turn, false)
		if f.Offset[0].Set || f.Offset[1].Set {
			w.key("offset")
			w.pair(f.Offset[0], f.Offset[1])
		}
		if f.Taper[0].Set || f.Taper[1].Set {
			w.key("taper")
			w.text("[")
			for k := range f.Taper {
				v := printer{units: w.units, first: true}
				v.angle("", f.Taper[k])
				w.text([...]string{"", ", "}[k], strings.TrimPrefix(string(v.b), ": "))
			}
			w.text("]")
		}
		if f.Corners != ([2]FlangeCorner{}) {
			w.key("corners")
			w.open("[")
			for k := range f.Corners {
				w.item()
				w.open("{")
				w.length("radius", f.Corners[k].Radius, false)
				w.length("chamfer", f.Corners[k].Chamfer, false)
				w.close("}")
			}
			w.close("]")
		}
		if f.Relief != nil {
			w.key("relief")
			w.bendRelief(f.Relief)
		}
		if len(f.Holes) > 0 {
			w.key("holes")
			w.open("{")
			for k := range f.Holes {
				h := &f.Holes[k]
				w.key(scalarText(h.Name.Text))
				w.open("{")
				w.place(h)
				w.size(h)
				w.word("how", h.How, false)
				w.word("for", h.For, false)
				w.close("}")
			}
			w.close("}")
		}
		w.close("}\n")
	}
}

func (w *printer) inLine(ls []InLine) {
	if len(ls) == 0 {
		return
	}
	w.text("in line: [")
	for i := range ls {
		if i > 0 {
			w.text(", ")
		}
		w.text("[", scalarText(ls[i].A.Text), ", ", scalarText(ls[i].B.Text), "]")
	}
	w.text("]\n")
}
