package geom_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"blankwright/flat/geom"
)

// A slot is known as one, whichever way it runs and wherever it begins, and its
// measures come back.
func TestSlotIsKnown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		a := geom.Point{X: draw("x", -500, 500), Y: draw("y", -500, 500)}
		b := a.Polar(draw("long", 0.1, 300), draw("angle", 0, 2*math.Pi))
		width := draw("width", 0.1, 60)
		l := geom.Slot(a, b, width)
		n := rapid.IntRange(0, 3).Draw(t, "first")
		l = append(append(geom.Loop{}, l[n:]...), l[:n]...)
		if rapid.Bool().Draw(t, "clockwise") {
			l = l.Reverse()
		}
		p, q, w, ok := l.Slot(1e-6)
		if !ok || math.Abs(w-width) > 1e-9 {
			t.Fatalf("%v: %v, width %v", l, ok, w)
		}
		if p.Dist(a)+q.Dist(b) > 1e-9 && p.Dist(b)+q.Dist(a) > 1e-9 {
			t.Fatalf("%v: from %v to %v", l, p, q)
		}
		if d := geom.Slot(p, q, w).Apart(l); d > 1e-9 {
			t.Fatalf("%v: %v apart", l, d)
		}
	})
}

func TestNoSlot(t *testing.T) {
	pt := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	line, arc := geom.Line, geom.BulgeSeg
	for name, l := range map[string]geom.Loop{
		"rectangle":    geom.Polygon(pt(0, 0), pt(30, 0), pt(30, 10), pt(0, 10)),
		"circle":       geom.CircleLoop(geom.Circle{C: pt(3, 4), R: 5}),
		"pear":         {line(pt(0, 0), pt(30, 0)), arc(pt(30, 0), pt(30, 10), 1), line(pt(30, 10), pt(0, 12)), arc(pt(0, 12), pt(0, 0), 1)},
		"shallow ends": {line(pt(0, 0), pt(30, 0)), arc(pt(30, 0), pt(30, 10), 0.8), line(pt(30, 10), pt(0, 10)), arc(pt(0, 10), pt(0, 0), 0.8)},
		"bitten end":   {line(pt(0, 0), pt(30, 0)), arc(pt(30, 0), pt(30, 10), 1), line(pt(30, 10), pt(0, 10)), arc(pt(0, 10), pt(0, 0), -1)},
		"arcs beside":  {arc(pt(0, 0), pt(30, 0), 1), arc(pt(30, 0), pt(30, 10), 1), line(pt(30, 10), pt(0, 10)), line(pt(0, 10), pt(0, 0))},
		"empty":        nil,
	} {
		if a, b, w, ok := l.Slot(0.005); ok {
			t.Errorf("%s is a slot from %v to %v of width %v", name, a, b, w)
		}
	}
	// Within the tolerance and beyond.
	near := geom.Loop{line(pt(0, 0), pt(30, 0)), arc(pt(30, 0), pt(30, 10.002), 1), line(pt(30, 10.002), pt(0, 10)), arc(pt(0, 10), pt(0, 0), 1)}
	if _, _, _, ok := near.Slot(0.005); !ok {
		t.Error("a slot drawn with few decimals is not known")
	}
	if _, _, _, ok := near.Slot(0.0001); ok {
		t.Error("a slot that is off by more is taken")
	}
}
