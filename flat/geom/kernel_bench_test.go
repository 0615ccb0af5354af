package geom

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// benchmarkCPU runs f as a benchmark and reports, beside the time on the clock,
// the processor time of the whole process per call where the system tells it:
// what .ci/kernel-ratios.sh compares.
func benchmarkCPU(b *testing.B, f func() error) {
	b.ReportAllocs()
	start := cpuTime()
	for b.Loop() {
		if err := f(); err != nil {
			b.Fatal(err.(*OpError).Reason)
		}
	}
	if start > 0 {
		b.ReportMetric(float64(cpuTime()-start)/float64(b.N), "cpu-ns/op")
	}
}

func BenchmarkBoolean(b *testing.B) {
	for _, name := range shapeNames {
		r := []Region{loadShape(b, name)}
		s := []Region{shifted(r[0])}
		for _, op := range []string{"union", "difference"} {
			b.Run(name+"/"+op, func(b *testing.B) {
				benchmarkCPU(b, func() error { _, err := booleanOps[op](r, s); return err })
			})
		}
	}
}

func BenchmarkOffset(b *testing.B) {
	for _, name := range shapeNames {
		r := []Region{loadShape(b, name)}
		for _, o := range offsetAnswers[:2] {
			b.Run(name+"/"+strings.ReplaceAll(o.key, " ", ""), func(b *testing.B) {
				benchmarkCPU(b, func() error { _, err := Offset(r, o.d, Round); return err })
			})
		}
	}
}

// BenchmarkScaling takes shapes from a thousand to a hundred thousand segments:
// a plate with holes in rows, and a wavy ring of short lines.
func BenchmarkScaling(b *testing.B) {
	for _, n := range []int{1000, 3000, 10000, 30000, 100000} {
		for _, shape := range []struct {
			name string
			r    Region
		}{{"holes", holedPlate(n)}, {"ring", wavyRing(n)}} {
			r := []Region{shape.r}
			s := []Region{shifted(shape.r)}
			for _, op := range []struct {
				name string
				f    func() error
			}{
				{"union", func() error { _, err := Union(r, s); return err }},
				{"difference", func() error { _, err := Difference(r, s); return err }},
				{"offset+0.75", func() error { _, err := Offset(r, 0.75, Round); return err }},
				{"offset-0.75", func() error { _, err := Offset(r, -0.75, Round); return err }},
			} {
				b.Run(fmt.Sprintf("%s/%s/%d", shape.name, op.name, n), func(b *testing.B) { benchmarkCPU(b, op.f) })
			}
		}
	}
}

// holedPlate is a plate of n segments: holes of 8 mm, 13 mm apart, in rows.
func holedPlate(n int) Region {
	holes := (n - 4) / 2
	across := int(math.Ceil(math.Sqrt(float64(holes))))
	down := (holes + across - 1) / across
	w, h := float64(across)*13+7, float64(down)*13+7
	r := Region{Outer: Polygon(Point{0, 0}, Point{w, 0}, Point{w, h}, Point{0, h})}
	for i := range holes {
		c := Point{10 + 13*float64(i%across), 10 + 13*float64(i/across)}
		r.Holes = append(r.Holes, CircleLoop(Circle{c, 4}).Reverse())
	}
	return r
}

// wavyRing is a ring of n lines of about 2 mm, its radius waving by 5 mm.
func wavyRing(n int) Region {
	pts := make([]Point, n)
	radius := float64(n) / math.Pi
	for i := range pts {
		a := 2 * math.Pi * float64(i) / float64(n)
		pts[i] = Point{}.Polar(radius+5*math.Sin(a*float64(n)/40), a)
	}
	return Region{Outer: Polygon(pts...)}
}
