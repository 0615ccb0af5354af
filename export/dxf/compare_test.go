package dxf_test

import (
	"fmt"
	"math"

	"blankwright/export/dxf"
	"blankwright/flat/blank"
	"blankwright/flat/cutlist"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

const (
	joinTol  = 1e-7 // of the ends of neighbours, drawing units
	placeTol = 2e-9 // of a written coordinate, drawing units
)

// flavours are all the ways to write a drawing.
func flavours() map[string]dxf.Options {
	m := map[string]dxf.Options{}
	for _, sys := range []unit.System{unit.Millimetre, unit.Inch} {
		for _, v := range []dxf.Version{dxf.R2000, dxf.R12} {
			for _, joined := range []bool{false, true} {
				name := fmt.Sprintf("%s-%s-%s", map[unit.System]string{unit.Millimetre: "mm", unit.Inch: "in"}[sys],
					map[dxf.Version]string{dxf.R2000: "r2000", dxf.R12: "r12"}[v], map[bool]string{false: "loose", true: "joined"}[joined])
				// Half of them have the ends of bend lines only.
				m[name] = dxf.Options{BendEnds: joined == (sys == unit.Inch), Unit: sys, Version: v, Joined: joined, Note: "checked by the shop\n  0\nLINE\nsecond line"}
			}
		}
	}
	return m
}

func per(o dxf.Options) float64 {
	if o.Unit == unit.Inch {
		return 25.4
	}
	return 1
}

// want is what a drawing of b must show, in drawing units.
type want struct {
	per     float64
	origin  geom.Point
	circles []geom.Circle // on HOLES, in order
	slots   []geom.Loop   // part coordinates, mm
	cutouts []geom.Loop   // likewise
	crosses []geom.Point
	outline geom.Loop
}

func (w want) at(p geom.Point) geom.Point {
	return geom.Point{X: (p.X - w.origin.X) / w.per, Y: (p.Y - w.origin.Y) / w.per}
}

func wanted(b *blank.Blank, o dxf.Options) want {
	w := want{per: per(o), origin: b.Outline.Bounds().Min}
	for _, h := range b.Holes {
		switch {
		case h.CutDia == 0 && h.Length == 0:
			w.crosses = append(w.crosses, w.at(h.Centre))
		case h.CutDia == 0:
			d := (h.Length - h.Dia) / 2
			w.crosses = append(w.crosses, w.at(h.Centre.Polar(-d, h.Angle)), w.at(h.Centre.Polar(d, h.Angle)))
		}
	}
	for _, c := range cutlist.Order(b) {
		switch c.Kind {
		case cutlist.Hole:
			h := b.Holes[c.Index]
			w.circles = append(w.circles, geom.Circle{C: w.at(h.Centre), R: h.CutDia / 2 / w.per})
		case cutlist.Slot:
			w.slots = append(w.slots, c.Loop)
		case cutlist.Cutout:
			w.cutouts = append(w.cutouts, c.Loop)
		case cutlist.Outline:
			w.outline = c.Loop
		}
	}
	return w
}

var layerRank = map[string]int{"MARKS": 1, "BENDS": 2, "HOLES": 3, "SLOTS": 4, "CUTOUTS": 5, "OUTLINE": 6}

// compare reads a drawing back and holds it against the blank it was made from.
func compare(b *blank.Blank, o dxf.Options, data []byte) error {
	d, err := read(data, o.Version == dxf.R12)
	if err != nil {
		return err
	}
	rank := 0
	for i, e := range d.entities {
		if r := layerRank[e.text(8)]; r < rank && e.kind != "SEQEND" {
			return fmt.Errorf("entity %d on %s comes too late", i+1, e.text(8))
		} else if r > 0 {
			rank = r
		}
	}
	rs, err := d.rings(joinTol)
	if err != nil {
		return err
	}
	w := wanted(b, o)
	on := map[string][]ring{}
	for _, r := range rs {
		on[r.layer] = append(on[r.layer], r)
		if g := r.gap(); g > joinTol {
			return fmt.Errorf("gap of %g on %s", g, r.layer)
		}
	}
	if err := compareCircles(w.circles, on["HOLES"]); err != nil {
		return err
	}
	if len(on["SLOTS"]) != len(w.slots) || len(on["CUTOUTS"]) != len(w.cutouts) || len(on["OUTLINE"]) != 1 ||
		len(rs) != len(w.circles)+len(w.slots)+len(w.cutouts)+1 {
		return fmt.Errorf("%d slots, %d cutouts, %d outlines, %d rings", len(on["SLOTS"]), len(on["CUTOUTS"]), len(on["OUTLINE"]), len(rs))
	}
	for i, l := range w.cutouts {
		if err := compareLoop(w, l, on["CUTOUTS"][i]); err != nil {
			return fmt.Errorf("cutout %d: %w", i+1, err)
		}
	}
	for i, l := range w.slots {
		if err := compareLoop(w, l, on["SLOTS"][i]); err != nil {
			return fmt.Errorf("slot %d: %w", i+1, err)
		}
	}
	if err := compareLoop(w, w.outline, on["OUTLINE"][0]); err != nil {
		return fmt.Errorf("outline: %w", err)
	}
	if err := compareCrosses(w, d.crosses(len(w.crosses))); err != nil {
		return err
	}
	if err := compareBends(b, w, o, d); err != nil {
		return err
	}
	return compareHeader(d, o, rs, len(w.crosses))
}

// compareBends holds the layer of bend lines against the blank: whole lines, or a
// mark at either end; no such layer for a flat part.
func compareBends(b *blank.Blank, w want, o dxf.Options, d *drawing) error {
	var got []piece
	for _, e := range d.entities {
		if e.text(8) != "BENDS" {
			continue
		}
		if e.kind != "LINE" {
			return fmt.Errorf("a %s on BENDS", e.kind)
		}
		got = append(got, pieceOf(e, false))
	}
	if b.Formed == nil {
		if len(got) > 0 {
			return fmt.Errorf("%d bend lines of a flat part", len(got))
		}
		return nil
	}
	for i := range b.Formed.Flat.Bends {
		l := b.Formed.Flat.Bends[i].Line
		n := 1
		if o.BendEnds && l.Length() > 18 {
			n = 2
		}
		if len(got) < n {
			return fmt.Errorf("bend line %d is missing", i+1)
		}
		first, last := got[0], got[n-1]
		got = got[n:]
		if first.a.Dist(w.at(l.A)) > placeTol || last.b.Dist(w.at(l.B)) > placeTol {
			return fmt.Errorf("bend line %d runs %v to %v, wanted %v to %v", i+1, first.a, last.b, w.at(l.A), w.at(l.B))
		}
		if n == 2 && (math.Abs(first.b.Dist(first.a)*w.per-6) > 1e-6 || math.Abs(last.b.Dist(last.a)*w.per-6) > 1e-6 ||
			math.Abs(first.b.Dist(last.a)*w.per-l.Length()+12) > 1e-6) {
			return fmt.Errorf("bend line %d is marked %v and %v", i+1, first, last)
		}
	}
	if len(got) > 0 {
		return fmt.Errorf("%d bend lines too many", len(got))
	}
	return nil
}

func compareCircles(want []geom.Circle, got []ring) error {
	if len(got) != len(want) {
		return fmt.Errorf("%d circles, wanted %d", len(got), len(want))
	}
	for i, c := range want {
		p := got[i].pieces[0]
		if !got[i].circle() || p.c.Dist(c.C) > placeTol || math.Abs(p.r-c.R) > placeTol {
			return fmt.Errorf("circle %d is %v, wanted %v", i+1, p, c)
		}
	}
	return nil
}

// compareLoop holds every piece against its segment: places to the last
// decimal, sweep, circle, and the area of the whole.
func compareLoop(w want, l geom.Loop, r ring) error {
	if c, ok := l.Circle(); ok {
		return compareCircles([]geom.Circle{{C: w.at(c.C), R: c.R / w.per}}, []ring{r})
	}
	if len(l) != len(r.pieces) {
		return fmt.Errorf("%d pieces, wanted %d", len(r.pieces), len(l))
	}
	length := 0.0
	for i, s := range l {
		p := r.pieces[i]
		// An arc's ends come from rounded centre, radius and angle.
		if p.a.Dist(w.at(s.A)) > joinTol || p.b.Dist(w.at(s.B)) > joinTol {
			return fmt.Errorf("piece %d runs %v to %v, wanted %v to %v", i+1, p.a, p.b, w.at(s.A), w.at(s.B))
		}
		chord := s.A.Dist(s.B) / w.per
		length += chord
		if math.Abs(p.sweep-s.Sweep()) > 4*joinTol/chord {
			return fmt.Errorf("piece %d sweeps %g, wanted %g", i+1, p.sweep, s.Sweep())
		}
	}
	if got, want := r.area(), l.Area()/w.per/w.per; math.Abs(got-want) > joinTol*2*length {
		return fmt.Errorf("area %g, wanted %g", got, want)
	}
	return nil
}

func compareCrosses(w want, crosses [][]piece) error {
	if len(crosses) != len(w.crosses) {
		return fmt.Errorf("%d punch marks, wanted %d", len(crosses), len(w.crosses))
	}
	for i, c := range w.crosses {
		for _, p := range crosses[i] {
			along := p.b.Sub(p.a)
			off := c.Sub(p.a).Cross(along) / along.Len()
			if near := p.b.Dist(c); near <= 0 || p.a.Dist(c) <= near || p.a.Dist(c) > 2.5/w.per+placeTol || math.Abs(off) > placeTol {
				return fmt.Errorf("punch mark line %v does not point at %v", p, c)
			}
		}
		sum := geom.Point{}
		for _, p := range crosses[i] {
			sum = sum.Add(p.a.Sub(c))
		}
		if sum.Len() > 4*placeTol {
			return fmt.Errorf("punch mark at %v is not even", c)
		}
	}
	return nil
}

func compareHeader(d *drawing, o dxf.Options, rs []ring, crosses int) error {
	var box geom.Box
	outlineBox := geom.Box{}
	for _, r := range rs {
		box = box.Union(r.bounds())
		if r.layer == "OUTLINE" {
			outlineBox = r.bounds()
		}
	}
	for _, c := range d.crosses(crosses) {
		for _, p := range c {
			box = box.Extend(p.a)
		}
	}
	if outlineBox.Min.Dist(geom.Point{}) > joinTol {
		return fmt.Errorf("lower left of the outline is %v", outlineBox.Min)
	}
	lo, hi := d.header["$EXTMIN"].point(10), d.header["$EXTMAX"].point(10)
	if lo.Dist(box.Min) > joinTol || hi.Dist(box.Max) > joinTol {
		return fmt.Errorf("extents %v to %v, drawn %v to %v", lo, hi, box.Min, box.Max)
	}
	if d.header["$LIMMIN"].point(10) != lo || d.header["$LIMMAX"].point(10) != hi {
		return fmt.Errorf("limits differ from extents")
	}
	if err := compareSizeComment(d, o, hi.Sub(lo)); err != nil {
		return err
	}
	units, measurement := "4", "1"
	if o.Unit == unit.Inch {
		units, measurement = "1", "0"
	}
	if o.Version == dxf.R12 {
		units, measurement = "", ""
	}
	if got := d.header["$INSUNITS"].text(70); got != units {
		return fmt.Errorf("$INSUNITS %q", got)
	}
	if got := d.header["$MEASUREMENT"].text(70); got != measurement {
		return fmt.Errorf("$MEASUREMENT %q", got)
	}
	if got := d.header["$DWGCODEPAGE"].text(3); got != "ANSI_1252" {
		return fmt.Errorf("$DWGCODEPAGE %q", got)
	}
	return nil
}

// compareSizeComment holds the size that the table must show, as told to people,
// against the drawing's.
func compareSizeComment(d *drawing, o dxf.Options, size geom.Point) error {
	form, last := "coordinates in millimetres: table must show %f x %f mm", 1e-3
	if o.Unit == unit.Inch {
		form, last = "coordinates in inches: table must show %f x %f in", 1e-4
	}
	for _, c := range d.comments {
		var w, h float64
		if n, err := fmt.Sscanf(c, form, &w, &h); n == 2 && err == nil {
			if math.Abs(w-size.X) > last*0.501 || math.Abs(h-size.Y) > last*0.501 {
				return fmt.Errorf("comment %q, drawn %v", c, size)
			}
			return nil
		}
	}
	return fmt.Errorf("no comment like %q in %q", form, d.comments)
}

func (r ring) bounds() geom.Box {
	var box geom.Box
	for _, p := range r.pieces {
		if p.r == 0 {
			box = box.Extend(p.a)
			continue
		}
		start := math.Atan2(p.a.Y-p.c.Y, p.a.X-p.c.X)
		if r.circle() {
			start = 0
		} else {
			box = box.Extend(p.a)
		}
		for k := range 4 {
			t := math.Mod(float64(k)*math.Pi/2-start, 2*math.Pi)
			if p.sweep < 0 {
				t = -t
			}
			for t < 0 {
				t += 2 * math.Pi
			}
			if t <= math.Abs(p.sweep) {
				box = box.Extend(p.c.Polar(p.r, float64(k)*math.Pi/2))
			}
		}
	}
	return box
}
