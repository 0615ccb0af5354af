package drawing_test

import (
	"math"
	"testing"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/profiles"
	"blankwright/samples"
)

// Parts of the orchard cart "Medlar" and shapes that try the reader.

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func hull(tb testing.TB, cs ...geom.Circle) geom.Loop {
	tb.Helper()
	l, err := geom.Hull(cs)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

func cutHole(name string, x, y, dia float64) blank.Hole {
	return blank.Hole{Name: name, Centre: pt(x, y), Dia: dia, CutDia: dia}
}

func drilled(name string, x, y, dia float64) blank.Hole {
	return blank.Hole{Name: name, Centre: pt(x, y), Dia: dia, Method: blank.Drill}
}

func slotHole(name string, x, y, width, length, angle float64) blank.Hole {
	return blank.Hole{Name: name, Centre: pt(x, y), Dia: width, CutDia: width, Length: length, Angle: angle}
}

func plate(name string, outline geom.Loop, hs ...blank.Hole) *blank.Blank {
	return &blank.Blank{
		Name: name, Quantity: 2, Thickness: 6.35, Outline: outline, Holes: hs,
		Material: profiles.Material{Name: "A36"},
	}
}

// cradle is a plate with a concave arc, where a tube sits, and rounded corners.
func cradle() geom.Loop {
	tube := geom.Circle{C: pt(45, 70), R: 30.95}
	half := math.Sqrt(30.95*30.95 - 20*20)
	in, out := pt(45+half, 50), pt(45-half, 50)
	corner := func(x, y float64) geom.Circle { return geom.Circle{C: pt(x, y), R: 10} }
	return geom.Loop{
		geom.Line(pt(10, 0), pt(80, 0)),
		geom.Arc(corner(80, 10), pt(80, 0), pt(90, 10), true),
		geom.Line(pt(90, 10), pt(90, 50)),
		geom.Line(pt(90, 50), in),
		geom.Arc(tube, in, out, false),
		geom.Line(out, pt(0, 50)),
		geom.Line(pt(0, 50), pt(0, 10)),
		geom.Arc(corner(10, 10), pt(0, 10), pt(10, 0), true),
	}
}

// ownParts are blanks that our writer draws.
func ownParts(tb testing.TB) []*blank.Blank {
	tb.Helper()
	tab := plate("axle link tab",
		hull(tb, geom.Circle{C: pt(0, -95), R: 25.4}, geom.Circle{C: pt(-45, 0), R: 6.35}, geom.Circle{C: pt(45, 0), R: 6.35}),
		cutHole("pivot", 0, -95, 13.5), cutHole("lightening", 0, -30, 22), drilled("keeper", 30, -8, 4))
	cross := plate("crossmember plate", cradle(),
		slotHole("adjust", 30, 20, 9, 24, 0.5), slotHole("upright", 70, 30, 7.15, 12, math.Pi/2),
		slotHole("level", 45, 12, 9, 18, 0), cutHole("bolt", 12, 38, 13.5), cutHole("small", 82, 40, 8))
	ring := plate("flange ring", geom.CircleLoop(geom.Circle{C: pt(7, -3), R: 110}),
		blank.Hole{Name: "opening", Purpose: blank.RingOpening, Centre: pt(7, -3), Dia: 120, CutDia: 120})
	for i := range 6 {
		c := pt(7, -3).Polar(85, float64(i)*math.Pi/3)
		ring.Holes = append(ring.Holes, cutHole("flange", c.X, c.Y, 10.5))
	}
	moon := plate("crescent", geom.Loop{
		geom.BulgeSeg(pt(-30, 5), pt(30, 5), 0.9), geom.BulgeSeg(pt(30, 5), pt(-30, 5), -0.4),
	})
	far := plate("hanger plate", hull(tb, geom.Circle{C: pt(-1000.123456789, 2000.987654321), R: 20.111},
		geom.Circle{C: pt(-700.3333333, 2100.7777777), R: 35.9}), cutHole("a", -1000.123456789, 2000.987654321, 25.0/3))
	all := []*blank.Blank{tab, cross, ring, moon, far}
	for _, s := range samples.List() {
		p, err := describe.Parse(s.Path, s.Text)
		if err != nil {
			tb.Fatal(err)
		}
		made, err := blank.Make(p)
		if err != nil {
			tb.Fatal(err)
		}
		all = append(all, made...)
	}
	return all
}
