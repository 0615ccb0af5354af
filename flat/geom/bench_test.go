package geom

import (
	"math"
	"testing"
)

// plate50 is a plate of 110 segments: an outline of ten and 50 holes; slots
// makes every fifth hole a slot of four segments instead.
func plate50(tb testing.TB, slots bool) Region {
	tb.Helper()
	outer, err := Corners([]Corner{
		{P: Point{0, 0}, Radius: 10}, {P: Point{320, 0}, Radius: 10}, {P: Point{320, 170}, Chamfer: 12},
		{P: Point{160, 190}}, {P: Point{0, 170}, Chamfer: 12},
	})
	if err != nil {
		tb.Fatal(err)
	}
	r := Region{Outer: outer}
	for i := range 50 {
		c := Point{20 + 31*float64(i%10), 20 + 32*float64(i/10)}
		h := CircleLoop(Circle{c, 5 + float64(i%3)})
		if slots && i%5 == 0 {
			h = Slot(c.Sub(Point{4, 0}), c.Add(Point{4, 0}), 8)
		}
		r.Holes = append(r.Holes, h.Reverse())
	}
	if err := r.Validate(); err != nil {
		tb.Fatal(err)
	}
	return r
}

var sink float64

func BenchmarkArea(b *testing.B) {
	for _, name := range shapeNames {
		r := loadShape(b, name)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sink += r.Area()
			}
		})
	}
}

func BenchmarkCentroid(b *testing.B) {
	for _, name := range shapeNames {
		r := loadShape(b, name)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sink += r.Centroid().X
			}
		})
	}
}

func BenchmarkMoments(b *testing.B) {
	r := loadShape(b, "link-plate")
	for b.Loop() {
		sink += r.Moments().Ix
	}
}

func BenchmarkLoopLoopLong(b *testing.B) {
	star := loadShape(b, "star-10k").Outer
	for name, l := range map[string]Loop{"slot": Slot(Point{}, Point{100, 0}, 30), "itself": star.Transform(Translate(2000, 0))} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				sink += LoopLoop(l, star).D
			}
		})
	}
}

// BenchmarkEdgeDistance measures each of 50 holes against the outline and, in
// "any", against the nearest edge of all.
func BenchmarkEdgeDistance(b *testing.B) {
	r := plate50(b, false)
	b.Run("outline", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			for _, h := range r.Holes {
				sink += LoopLoop(h, r.Outer).D
			}
		}
	})
	b.Run("any", func(b *testing.B) {
		b.ReportAllocs()
		loops := append([]Loop{r.Outer}, r.Holes...)
		for b.Loop() {
			x := NewIndex(loops...)
			for i, h := range r.Holes {
				hit, _ := x.Nearest(h, func(j int) bool { return j != i+1 })
				sink += hit.D
			}
		}
	})
}

func BenchmarkHolePairs(b *testing.B) {
	for _, slots := range []bool{false, true} {
		r := plate50(b, slots)
		name := "round"
		if slots {
			name = "with slots"
		}
		b.Run(name+" all", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sink += NewIndex(r.Holes...).Pairs(math.Inf(1))[7].D
			}
		})
		b.Run(name+" within 40 mm", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sink += NewIndex(r.Holes...).Pairs(40)[7].D
			}
		})
		b.Run(name+" closest", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				p, _ := NewIndex(r.Holes...).Closest()
				sink += p.D
			}
		})
	}
	r := loadShape(b, "perforated-1000")
	b.Run("thousand holes within 6 mm", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			sink += float64(len(NewIndex(r.Holes...).Pairs(6)))
		}
	})
}

func BenchmarkValidate(b *testing.B) {
	for _, name := range shapeNames {
		r := loadShape(b, name)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := r.Validate(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkContains(b *testing.B) {
	r := loadShape(b, "bracket")
	p := Point{60, 80}
	for b.Loop() {
		sink += float64(r.Contains(p))
	}
}

func BenchmarkHull(b *testing.B) {
	three := []Circle{{Point{0, 0}, 15}, {Point{80, 0}, 12}, {Point{0, 60}, 10}}
	b.Run("3", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			l, err := Hull(three)
			if err != nil {
				b.Fatal(err)
			}
			sink += l[0].A.X
		}
	})
	var ring []Circle
	for i := range 200 {
		ring = append(ring, Circle{Point{}.Polar(100, float64(i)*fullTurn/200), 1})
	}
	b.Run("200", func(b *testing.B) {
		for b.Loop() {
			l, err := Hull(ring)
			if err != nil {
				b.Fatal(err)
			}
			sink += l[0].A.X
		}
	})
}

func BenchmarkCorners(b *testing.B) {
	c := rectangle(60, 40)
	for i := range c {
		c[i].Radius = 5
	}
	b.ReportAllocs()
	for b.Loop() {
		l, err := Corners(c)
		if err != nil {
			b.Fatal(err)
		}
		sink += l[0].A.X
	}
}
