package dxf_test

import (
	"math"
	"strconv"
	"testing"

	"blankwright/export/dxf"
	"blankwright/flat/blank"
	"blankwright/flat/cutlist"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// bracket has an outline of 24 segments, every other one an arc, and four
// holes.
func bracket() *blank.Blank {
	const n = 24
	l := make(geom.Loop, n)
	at := func(i int) geom.Point {
		return pt(0, 0).Polar(100+20*float64(i%3), float64(i)*2*math.Pi/n)
	}
	for i := range l {
		l[i] = geom.BulgeSeg(at(i), at((i+1)%n), 0.2*float64(i%2))
	}
	return plate("axle tab", l, cut("a", 30, 30, 13.5), cut("b", -30, 30, 13.5), cut("c", 0, -30, 17.5), cut("d", 0, 0, 22))
}

func BenchmarkWrite(b *testing.B) {
	part := bracket()
	for name, o := range flavours() {
		o.Note = ""
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			size := 0
			for b.Loop() {
				data, err := dxf.Write(part, o)
				if err != nil {
					b.Fatal(err)
				}
				size = len(data)
			}
			b.ReportMetric(float64(size), "bytes/file")
		})
	}
}

func BenchmarkWriteParallel(b *testing.B) {
	part := bracket()
	b.RunParallel(func(pb *testing.PB) {
		for pb.Next() {
			if _, err := dxf.Write(part, dxf.Options{Unit: unit.Millimetre}); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkBareTags appends the same groups as BenchmarkWrite/mm-r2000-loose
// with strconv at six decimals, as a measure of what is possible.
func BenchmarkBareTags(b *testing.B) {
	data, err := dxf.Write(bracket(), dxf.Options{Unit: unit.Millimetre})
	if err != nil {
		b.Fatal(err)
	}
	gs, err := readGroups(data)
	if err != nil {
		b.Fatal(err)
	}
	numbers := make([]float64, len(gs))
	for i, g := range gs {
		if g.code >= 10 && g.code < 60 {
			if numbers[i], err = strconv.ParseFloat(g.value, 64); err != nil {
				b.Fatal(err)
			}
		}
	}
	var buf []byte
	for b.Loop() {
		buf = buf[:0]
		for i, g := range gs {
			buf = strconv.AppendInt(buf, int64(g.code), 10)
			buf = append(buf, '\r', '\n')
			if g.code >= 10 && g.code < 60 {
				buf = strconv.AppendFloat(buf, numbers[i], 'f', 6, 64)
			} else {
				buf = append(buf, g.value...)
			}
			buf = append(buf, '\r', '\n')
		}
	}
	b.ReportMetric(float64(len(buf)), "bytes/file")
}

// A sheet of 200 brackets, written and read back.
func BenchmarkPlate(b *testing.B) {
	part := bracket()
	part.Trace()
	p := &dxf.Plate{Name: "sheet", Gap: 5}
	cuts, box := cutlist.Order(part), part.Outline.Bounds()
	for i := range 200 {
		m := geom.Translate(float64(i%20)*(box.Width()+5), float64(i/20)*(box.Height()+5))
		p.Parts = append(p.Parts, dxf.Placed{Blank: part, Label: "1", Motion: m, Cuts: cuts})
	}
	o := dxf.Options{Unit: unit.Millimetre, NoMarks: true}
	for b.Loop() {
		data, err := dxf.WritePlate(p, o)
		if err == nil {
			err = dxf.VerifyPlate(data, p, o)
		}
		if err != nil {
			b.Fatal(err)
		}
	}
}
