package geom

import (
	"math"
	"testing"
)

// parseSeg reads one segment: "x y bulge; x y".
func parseSeg(t *testing.T, text string) Seg {
	t.Helper()
	l, err := ParseLoop(text)
	if err != nil || len(l) != 2 {
		t.Fatalf("%q: %v", text, err)
	}
	return l[0]
}

func TestIntersect(t *testing.T) {
	quarter := "1 0 0.41421356237309503; 0 1" // of the unit circle
	for _, c := range []struct {
		kind, a, b string
		points     []Point
		overlaps   int
	}{
		{"lines cross", "0 0; 4 4", "0 4; 4 0", []Point{{2, 2}}, 0},
		{"lines apart", "0 0; 4 4", "5 0; 9 4", nil, 0},
		{"lines would cross beyond their ends", "0 0; 1 1", "0 4; 4 0", nil, 0},
		{"lines on one line, apart", "0 0; 1 1", "2 2; 3 3", nil, 0},
		{"lines on one line, noise between", "4.571428571428571 7; 4 8", "8 1; 5 6.249999999999999", nil, 0},
		{"lines end to end", "0 0; 1 1", "1 1; 3 0", []Point{{1, 1}}, 0},
		{"lines end to end along one line", "0 0; 1 1", "1 1; 3 3", []Point{{1, 1}}, 0},
		{"line ends on line", "0 0; 4 0", "1 0; 2 5", []Point{{1, 0}}, 0},
		{"lines overlap", "0 0; 4 0", "2 0; 6 0", nil, 1},
		{"line within line", "0 0; 4 0", "3 0; 1 0", nil, 1},
		{"equal lines", "0 0; 4 0", "0 0; 4 0", nil, 1},
		{"line crosses arc once", "0.5 0.5; 2 2", quarter, []Point{{math.Sqrt2 / 2, math.Sqrt2 / 2}}, 0},
		{"line crosses arc twice", "1.5 -0.3; -0.3 1.5", quarter, []Point{{0.6 + math.Sqrt(0.14), 0.6 - math.Sqrt(0.14)}, {0.6 - math.Sqrt(0.14), 0.6 + math.Sqrt(0.14)}}, 0},
		{"line through half circle twice", "-2 0.6; 2 0.6", "1 0 1; -1 0", []Point{{-0.8, 0.6}, {0.8, 0.6}}, 0},
		{"line crosses the circle, not the arc", "-2 -0.6; 2 -0.6", "1 0 1; -1 0", nil, 0},
		{"line tangent to arc", "-2 1; 2 1", "1 0 1; -1 0", []Point{{0, 1}}, 0},
		{"line tangent at the arc's end", "1 -2; 1 2", quarter, []Point{{1, 0}}, 0},
		{"line goes on from arc", "0 1; -3 1", quarter, []Point{{0, 1}}, 0},
		{"line inside the circle", "-0.2 0; 0.3 0.1", "1 0 1; -1 0", nil, 0},
		{"line ends on arc", "0 0; 0.6 0.8", "1 0 1; -1 0", []Point{{0.6, 0.8}}, 0},
		{"arcs cross once", "1 0 1; -1 0", "2 0 1; 0 0", []Point{{0.5, math.Sqrt(0.75)}}, 0},
		{"arcs cross twice", "1 0 1; -1 0", "-1 0.5 1; 1 0.5", []Point{{math.Sqrt(15) / 4, 0.25}, {-math.Sqrt(15) / 4, 0.25}}, 0},
		{"arcs tangent outside", "1 0 1; -1 0", "-1 2 1; 1 2", []Point{{0, 1}}, 0},
		{"arcs tangent inside", "2 0 1; -2 0", "1 1 1; -1 1", []Point{{0, 2}}, 0},
		{"circles meet, arcs do not", "1 0 1; -1 0", "1 -0.5 -1; -1 -0.5", nil, 0},
		{"circle within circle", "3 0 1; -3 0", "1 0 1; -1 0", nil, 0},
		{"cocircular, no overlap", quarter, "-1 0 0.41421356237309503; 0 -1", nil, 0},
		{"cocircular, end to end", quarter, "0 1 0.41421356237309503; -1 0", []Point{{0, 1}}, 0},
		{"cocircular, one overlap", "1 0 1; -1 0", "0 1 1; 0 -1", nil, 1},
		{"cocircular halves, two ends", "1 0 1; -1 0", "-1 0 1; 1 0", []Point{{1, 0}, {-1, 0}}, 0},
		{"cocircular, the same run backwards", "1 0 1; -1 0", "-1 0 -1; 1 0", nil, 1},
		{"nearly straight arc crosses line", "0 0 1e-6; 10 0", "5 1; 5 -1", []Point{{5, -5e-6}}, 0},
		{"nearly straight arc over its chord", "0 0 1e-6; 10 0", "0 0; 10 0", []Point{{0, 0}, {10, 0}}, 0},
		{"arc flat within rounding over its chord", "0 0 1e-13; 10 0", "0 0; 10 0", nil, 1},
	} {
		a, b := parseSeg(t, c.a), parseSeg(t, c.b)
		check := func(name string, a, b Seg) {
			m := Intersect(a, b)
			if len(m.Overlaps) != c.overlaps || len(m.Points) != len(c.points) {
				t.Errorf("%s, %s: got %v, want points %v and %d overlaps", c.kind, name, m, c.points, c.overlaps)
				return
			}
			for _, want := range c.points {
				found := false
				for _, p := range m.Points {
					found = found || p.Dist(want) < 1e-9
				}
				if !found {
					t.Errorf("%s, %s: got %v, want %v", c.kind, name, m.Points, want)
				}
			}
		}
		check("as given", a, b)
		check("swapped", b, a)
		check("reversed", a.Reverse(), b)
		check("both reversed", a.Reverse(), b.Reverse())
	}
}

// A meeting at an end gives that end's coordinates, bit by bit.
func TestIntersectReusesEnds(t *testing.T) {
	a := Line(Point{0.1, 0.2}, Point{3.3, 4.7})
	for _, b := range []Seg{
		Line(Point{3.3 + 4e-11, 4.7}, Point{9, 9}),
		Line(Point{3.3 - 1, 4.7 + 1}, Point{3.3 + 1, 4.7 - 1}),
		BulgeSeg(Point{3.3, 4.7 - 4e-11}, Point{2, 9}, 0.3),
	} {
		m := Intersect(a, b)
		if len(m.Points) != 1 || m.Points[0] != a.B {
			t.Errorf("with %v: got %v, want exactly %v", b, m.Points, a.B)
		}
	}
}

// An overlap carries the circle of the first segment.
func TestIntersectOverlapKeepsCircle(t *testing.T) {
	c := Circle{Point{1, 2}, 3}
	a := Arc(c, Point{4, 2}, Point{-2, 2}, true)
	b := Arc(c, Point{1, 5}, Point{1, -1}, true)
	m := Intersect(a, b)
	if len(m.Overlaps) != 1 || m.Overlaps[0].Circle() != c || m.Overlaps[0].A.Dist(Point{1, 5}) > 1e-9 || m.Overlaps[0].B != a.B {
		t.Errorf("got %v, want the quarter of %v from (1, 5) to (-2, 2)", m, c)
	}
}
