package fold

import (
	"fmt"
	"testing"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
)

// bracket is a box bracket of six bends with twelve holes: four walls that meet
// in relieved corners, and lips on two of them.
func bracket() *Part {
	s := Section{T: 3, R: 3, Rule: bend.KFactor(0.42)}
	p := Box(s, Size{V: 160}, Size{V: 100}, Size{V: 60}, Lapped, 0.5)
	p.Corner.Shape = Round
	for i, edge := range []string{Right, Left} {
		p.Flanges = append(p.Flanges, Flange{
			Name: "lip " + edge, On: edge, Edge: EndEdge, Height: 20, Angle: deg(90), Radius: 3, Down: true, Left: 5, Right: 5,
			Holes: []Hole{{fmt.Sprintf("lip%d", i), geom.CircleLoop(geom.Circle{C: geom.Point{X: 50, Y: 13}, R: 3})}},
		})
	}
	for i := range p.Flanges[:4] {
		for k := range 2 {
			c := geom.Point{X: 40 + 30*float64(k), Y: 25}
			p.Flanges[i].Holes = append(p.Flanges[i].Holes, Hole{fmt.Sprintf("w%d%d", i, k), geom.CircleLoop(geom.Circle{C: c, R: 5})})
		}
	}
	p.Base.Holes = []Hole{
		{"drain", geom.CircleLoop(geom.Circle{R: 8})},
		{"slot", geom.Slot(geom.Point{X: -40}, geom.Point{X: -20}, 9)},
	}
	return p
}

func BenchmarkFlattenAndCheck(b *testing.B) {
	p := bracket()
	b.ReportAllocs()
	for b.Loop() {
		f, err := Flatten(p)
		if err != nil {
			b.Fatal(err)
		}
		g := f.Fold()
		for _, d := range g.Dims() {
			if !d.Holds() {
				b.Fatal(d)
			}
		}
		if c := g.Collisions(); len(c) > 0 {
			b.Fatal(c)
		}
		if _, err := g.Order(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFlatten(b *testing.B) {
	p := bracket()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Flatten(p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkViews(b *testing.B) {
	f, err := Flatten(bracket())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		f.Fold().Views()
	}
}
