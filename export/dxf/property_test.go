package dxf_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"blankwright/export/dxf"
	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// star draws an outline round a centre: straight edges and arcs of either
// direction, never near to closing early.
func star(t *rapid.T) geom.Loop {
	n := rapid.IntRange(3, 30).Draw(t, "corners")
	size := rapid.Float64Range(5, 2000).Draw(t, "size")
	c := pt(rapid.Float64Range(-3000, 3000).Draw(t, "x"), rapid.Float64Range(-3000, 3000).Draw(t, "y"))
	ps := make([]geom.Point, n)
	for i := range ps {
		turn := (float64(i) + rapid.Float64Range(-0.2, 0.2).Draw(t, "turn")) * 2 * math.Pi / float64(n)
		ps[i] = c.Polar(size*rapid.Float64Range(0.6, 1).Draw(t, "radius"), turn)
	}
	l := make(geom.Loop, n)
	for i, p := range ps {
		bulge := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0.0001, 0.3), rapid.Float64Range(-0.3, -0.0001),
			rapid.SampledFrom([]float64{math.Sqrt2 - 1, 1 - math.Sqrt2})).Draw(t, "bulge")
		l[i] = geom.BulgeSeg(p, ps[(i+1)%n], bulge)
	}
	return l
}

func randomBlank(t *rapid.T) *blank.Blank {
	b := plate(rapid.String().Draw(t, "name"), star(t))
	if rapid.IntRange(0, 5).Draw(t, "disc") == 0 {
		b.Outline = geom.CircleLoop(geom.Circle{C: b.Outline[0].A, R: rapid.Float64Range(1, 500).Draw(t, "r")})
	}
	box := b.Outline.Bounds()
	for range rapid.IntRange(0, 8).Draw(t, "holes") {
		h := cut("h", rapid.Float64Range(box.Min.X, box.Max.X).Draw(t, "hx"), rapid.Float64Range(box.Min.Y, box.Max.Y).Draw(t, "hy"),
			rapid.OneOf(rapid.Float64Range(0.5, 60), rapid.SampledFrom([]float64{13.5, 17.0 / 32 * 25.4})).Draw(t, "d"))
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			h.CutDia, h.Method = 0, blank.Drill
		case 1:
			h.Length = h.Dia + rapid.Float64Range(0.5, 50).Draw(t, "longer")
			h.Angle = rapid.Float64Range(-7, 7).Draw(t, "angle")
		case 2:
			h.CutDia = h.Dia * 0.9
		}
		b.Holes = append(b.Holes, h)
	}
	b.Marks = []blank.MarkText{{Text: rapid.String().Draw(t, "mark")}}
	return b
}

// TestDrawingIsTheBlank: any part in any flavour, read back, is the part.
func TestDrawingIsTheBlank(t *testing.T) {
	all := flavours()
	names := make([]string, 0, len(all))
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names)
	rapid.Check(t, func(t *rapid.T) {
		b := randomBlank(t)
		o := all[rapid.SampledFrom(names).Draw(t, "flavour")]
		o.Note = rapid.String().Draw(t, "note")
		data, err := dxf.Write(b, o)
		if err != nil {
			t.Fatal(err)
		}
		if err := compare(b, o, data); err != nil {
			t.Fatal(err)
		}
	})
}

// FuzzWrite: whatever the texts and numbers, it is an error without bytes or a
// drawing that the strict reader takes, with the entities of the part and no
// others.
func FuzzWrite(f *testing.F) {
	f.Add("axle tab", "note", 0.0, 0.0, 90.0, 0.0, 45.0, 80.0, 0.0, 13.5, 0.0, uint8(0))
	f.Add("a\n  0\nLINE", "\r\n  0\r\nEOF", -3.0, 5.0, 90.0, 0.0, 45.0, 80.0, 0.4, 13.5, 22.0, uint8(7))
	f.Add(`\U+000A^J`, "\u2028", 1e7, 5.0, 1e8, 0.0, 45.0, 80.0, -1.0, 4.0, 0.0, uint8(10))
	f.Add("é", "\xff", math.NaN(), math.Inf(1), 1e308, -1e308, 5e-324, 1.0, 1e-9, 0.0, -1.0, uint8(5))
	f.Fuzz(func(t *testing.T, name, note string, ax, ay, bx, by, cx, cy, bulge, dia, length float64, flags uint8) {
		p, q, r := pt(ax, ay), pt(bx, by), pt(cx, cy)
		h := blank.Hole{Name: name, Centre: pt((ax+bx)/2, (ay+cy)/2), Dia: dia, CutDia: dia, Length: length, Angle: bulge}
		if flags&8 != 0 {
			h.CutDia = 0
		}
		b := plate(name, geom.Loop{geom.Line(p, q), geom.BulgeSeg(q, r, bulge), geom.Line(r, p)}, h)
		o := dxf.Options{Joined: flags&1 != 0, Unit: unit.Millimetre, Version: dxf.Version(flags >> 1 & 1), Note: note}
		if flags&4 != 0 {
			o.Unit = unit.Inch
		}
		data, err := dxf.Write(b, o)
		if err != nil {
			if data != nil {
				t.Fatal("bytes beside an error")
			}
			return
		}
		d, err := read(data, o.Version == dxf.R12)
		if err != nil {
			t.Fatalf("%v\n%s", err, data)
		}
		want := expect(b, o).counts
		got := map[string]int{}
		for _, e := range d.entities {
			if e.kind != "VERTEX" && e.kind != "SEQEND" {
				got[e.text(8)+" "+e.kind]++
			}
		}
		delete(want, "SLOTS CIRCLE")
		for k, n := range want {
			if got[k] != n {
				t.Fatalf("%d of %s, wanted %d\n%s", got[k], k, n, data)
			}
		}
		hi := d.header["$EXTMAX"].point(10)
		if !(hi.X >= 0 && hi.X <= 1e7 && hi.Y >= 0 && hi.Y <= 1e7) {
			t.Fatalf("extents to %v", hi)
		}
	})
}
