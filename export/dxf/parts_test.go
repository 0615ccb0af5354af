package dxf_test

import (
	"math"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/profiles"
	"blankwright/samples"
)

// Parts of the orchard cart "Medlar", and shapes that try the writer.

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func hull(tb testing.TB, cs ...geom.Circle) geom.Loop {
	tb.Helper()
	l, err := geom.Hull(cs)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

func cut(name string, x, y, dia float64) blank.Hole {
	return blank.Hole{Name: name, Centre: pt(x, y), Dia: dia, CutDia: dia}
}

func drilled(name string, x, y, dia float64) blank.Hole {
	return blank.Hole{Name: name, Centre: pt(x, y), Dia: dia, Method: blank.Drill, Callout: "drill"}
}

func slot(name string, x, y, width, length, angle float64) blank.Hole {
	return blank.Hole{Name: name, Centre: pt(x, y), Dia: width, CutDia: width, Length: length, Angle: angle}
}

func plate(name string, outline geom.Loop, hs ...blank.Hole) *blank.Blank {
	return &blank.Blank{
		Name: name, Quantity: 2, Thickness: 6.35, Outline: outline, Holes: hs,
		Material: profiles.Material{Name: "A36"},
	}
}

// mirrored is the part's other hand, baked in.
func mirrored(b *blank.Blank) *blank.Blank {
	m := *b
	m.Name, m.Hand = b.Name+" mirrored", blank.Mirrored
	m.Outline = b.Outline.Transform(geom.MirrorY())
	m.Holes = nil
	for _, h := range b.Holes {
		m.Holes = append(m.Holes, blank.Hole{
			Name: h.Name, Method: h.Method, Centre: pt(-h.Centre.X, h.Centre.Y),
			Dia: h.Dia, CutDia: h.CutDia, Length: h.Length, Angle: math.Pi - h.Angle,
		})
	}
	for _, c := range b.Cutouts {
		m.Cutouts = append(m.Cutouts, blank.Cutout{Name: c.Name, Loop: c.Loop.Transform(geom.MirrorY())})
	}
	return &m
}

// windows are openings of any shape: round, with round corners, with bites in the
// corners, and one that curves in.
func windows(tb testing.TB) []blank.Cutout {
	tb.Helper()
	soft, err := geom.Corners([]geom.Corner{{P: pt(10, 10), Radius: 4}, {P: pt(40, 10), Radius: 4}, {P: pt(40, 30), Chamfer: 3}, {P: pt(10, 30)}})
	if err != nil {
		tb.Fatal(err)
	}
	bites := geom.Polygon(pt(60, 10), pt(67.15, 10), pt(67.15, 40), pt(60, 40))
	for i, c := range []geom.Point{pt(60, 10), pt(67.15, 10), pt(67.15, 40), pt(60, 40)} {
		left, err := geom.Union([]geom.Region{{Outer: bites}}, []geom.Region{{Outer: geom.CircleLoop(geom.Circle{C: c, R: 1.5})}})
		if err != nil || len(left) != 1 {
			tb.Fatal(i, err)
		}
		bites = left[0].Outer
	}
	return []blank.Cutout{
		{Name: "window", Loop: soft}, {Name: "tab", Purpose: blank.TabSlotOpening, Loop: bites},
		{Name: "eye", Loop: geom.CircleLoop(geom.Circle{C: pt(82, 25), R: 6})},
		{Name: "moon", Loop: geom.Loop{geom.BulgeSeg(pt(20, 36), pt(30, 36), 0.9), geom.BulgeSeg(pt(30, 36), pt(20, 36), -0.4)}},
	}
}

// saddle is a plate with a concave arc, where a tube sits, and rounded corners.
func saddle() geom.Loop {
	tube := geom.Circle{C: pt(45, 70), R: 30.95}
	half := math.Sqrt(30.95*30.95 - 20*20)
	in, out := pt(45+half, 50), pt(45-half, 50)
	low := pt(45, 70-30.95)
	corner := func(x, y float64) geom.Circle { return geom.Circle{C: pt(x, y), R: 10} }
	return geom.Loop{
		geom.Line(pt(10, 0), pt(80, 0)),
		geom.Arc(corner(80, 10), pt(80, 0), pt(90, 10), true),
		geom.Line(pt(90, 10), pt(90, 50)),
		geom.Line(pt(90, 50), in),
		geom.Arc(tube, in, low, false),
		geom.Arc(tube, low, out, false),
		geom.Line(out, pt(0, 50)),
		geom.Line(pt(0, 50), pt(0, 10)),
		geom.Arc(corner(10, 10), pt(0, 10), pt(10, 0), true),
	}
}

// crescent has an arc of each direction and nothing else.
func crescent() geom.Loop {
	return geom.Loop{
		geom.BulgeSeg(pt(-30, 5), pt(30, 5), 0.9),
		geom.BulgeSeg(pt(30, 5), pt(-30, 5), -0.4),
	}
}

func parts(tb testing.TB) []*blank.Blank {
	tab := plate("axle link tab",
		hull(tb, geom.Circle{C: pt(0, -95), R: 25.4}, geom.Circle{C: pt(-45, 0), R: 6.35}, geom.Circle{C: pt(45, 0), R: 6.35}),
		cut("pivot", 0, -95, 13.5), cut("lightening", 0, -30, 22), drilled("keeper", 30, -8, 4))
	shackle := plate("shackle plate",
		hull(tb, geom.Circle{C: pt(100, 200), R: 22.225}, geom.Circle{C: pt(100, 288.9), R: 22.225}),
		cut("top", 100, 288.9, 15.08), cut("bottom", 100, 200, 13.49), drilled("keeper", 100, 244.45, 5))
	cross := plate("crossmember plate", saddle(),
		slot("adjust", 30, 20, 9, 24, 0.5), slot("upright", 70, 30, 7.15, 12, math.Pi/2),
		slot("level", 45, 12, 9, 18, 0), cut("bolt", 12, 38, 13.5), cut("small", 82, 40, 8))
	cross.Holes = append(cross.Holes, blank.Hole{Name: "bore", Method: blank.Ream, Centre: pt(60, 12), Dia: 12, CutDia: 11.5})
	ring := plate("flange ring", geom.CircleLoop(geom.Circle{C: pt(7, -3), R: 110}),
		blank.Hole{Name: "opening", Purpose: blank.RingOpening, Centre: pt(7, -3), Dia: 120, CutDia: 120})
	for i := range 6 {
		c := pt(7, -3).Polar(85, float64(i)*math.Pi/3)
		ring.Holes = append(ring.Holes, cut("flange", c.X, c.Y, 10.5))
	}
	square := plate("gusset", geom.Loop{
		geom.Line(pt(-1, -1), pt(99, -1)), geom.Line(pt(99, -1), pt(99, 5)), geom.Line(pt(99, 5), pt(5, 89)),
		geom.Line(pt(5, 89), pt(-1, 89)), geom.Line(pt(-1, 89), pt(-1, -1)),
	})
	marked := plate("hanger plate", hull(tb, geom.Circle{C: pt(-1000.123456789, 2000.987654321), R: 20.111},
		geom.Circle{C: pt(-700.3333333, 2100.7777777), R: 35.9}), cut("a", -1000.123456789, 2000.987654321, 1.0/3),
		blank.Hole{Name: "by hand", Method: blank.Drill, Centre: pt(-700.33, 2100), Dia: 8, Length: 20, Angle: 1})
	moon := plate("crescent", crescent())
	frame := plate("battery plate", saddle(), cut("a", 50, 20, 8), slot("b", 50, 34, 7, 12, 0.3))
	frame.Cutouts = windows(tb)
	frame.Notes = []string{"saddle \"axle\": radius 30.95 mm\r\n  0\r\nLINE"}
	return append([]*blank.Blank{tab, mirrored(tab), shackle, cross, mirrored(cross), ring, square, marked, moon, frame, mirrored(frame), hostile()}, sampleParts(tb)...)
}

// sampleParts are the samples that may be cut, on every hand.
func sampleParts(tb testing.TB) []*blank.Blank {
	tb.Helper()
	var all []*blank.Blank
	for _, s := range samples.List() {
		if s.Variant == samples.Trap {
			continue
		}
		p, err := describe.Parse(s.Path, s.Text)
		if err != nil {
			tb.Fatal(err)
		}
		bs, err := blank.Make(p)
		if err != nil {
			tb.Fatal(err)
		}
		all = append(all, bs...)
	}
	if len(all) < 8 {
		tb.Fatalf("%d samples that may be cut", len(all))
	}
	return all
}

// hostile has texts that would add to the drawing if they could.
func hostile() *blank.Blank {
	b := plate("name\r\n  0\r\nLINE\r\n  8\r\n0\r\n 10\r\n0.0", saddle(),
		cut("h\n  0\nENDSEC\n  0\nEOF", 12, 38, 13.5), drilled("d\r\n  0\r\nCIRCLE", 82, 40, 4))
	b.Revision = "\"'`<&>\x00\x1b[31m\x7f\u0085\u2028\ufeff"
	b.Material.Name = `\U+000A  0\U+000ALINE ^J^M %%c \P{\fArial;x}`
	b.Marks = []blank.MarkText{{Text: "M\n  0\nTEXT"}, {Text: "größe ½ Ø 漢字 😀 \xff\xfe"}}
	return b
}
