package paper

import (
	"math"
	"math/rand/v2"
	"testing"

	"blankwright/flat/geom"
)

func TestRectCrossesLine(t *testing.T) {
	r := Rect{0, 0, 10, 5}
	for _, c := range []struct {
		name string
		a, b geom.Point
		want bool
	}{
		{"through", pt(-1, 2), pt(11, 3), true},
		{"inside", pt(1, 1), pt(2, 2), true},
		{"one end inside", pt(5, 2), pt(5, 9), true},
		{"over a corner", pt(-1, 4), pt(2, 7), false},
		{"cuts a corner", pt(-1, 3), pt(3, 7), true},
		{"beside", pt(-1, 6), pt(11, 6), false},
		{"along an edge", pt(-1, 5), pt(11, 5), false},
		{"short of it", pt(-9, 2), pt(-1, 2), false},
		{"upright through", pt(4, -3), pt(4, 8), true},
		{"a point inside", pt(4, 3), pt(4, 3), true},
	} {
		if got := r.Crosses(c.a, c.b); got != c.want {
			t.Errorf("%s: Crosses = %v, want %v", c.name, got, c.want)
		}
		if got := r.Crosses(c.b, c.a); got != c.want {
			t.Errorf("%s, turned round: Crosses = %v, want %v", c.name, got, c.want)
		}
	}
}

func TestRectAndDisc(t *testing.T) {
	c := geom.Circle{C: pt(0, 0), R: 10}
	for _, k := range []struct {
		name            string
		r               Rect
		touches, inside bool
	}{
		{"within", Rect{-5, -5, 5, 5}, true, true},
		{"across the edge", Rect{5, 5, 12, 8}, true, false},
		{"outside", Rect{11, 0, 12, 2}, false, false},
		{"off the round", Rect{7.5, 7.5, 9, 9}, false, false},
		{"round it", Rect{-20, -20, 20, 20}, true, false},
	} {
		if got := k.r.TouchesDisc(c); got != k.touches {
			t.Errorf("%s: TouchesDisc = %v, want %v", k.name, got, k.touches)
		}
		if got := k.r.InsideDisc(c); got != k.inside {
			t.Errorf("%s: InsideDisc = %v, want %v", k.name, got, k.inside)
		}
	}
}

// An arc crosses a rectangle when one of many points along it lies inside.
func TestCrossesArcAgainstPoints(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 11))
	hits := 0
	for range 4000 {
		c := geom.Circle{C: pt(rnd.Float64()*20, rnd.Float64()*20), R: 1 + rnd.Float64()*15}
		from := rnd.Float64() * 2 * math.Pi
		sweep := (0.1 + 0.9*rnd.Float64()) * math.Pi
		ccw := rnd.IntN(2) == 0
		if !ccw {
			sweep = -sweep
		}
		g := geom.Arc(c, c.C.Polar(c.R, from), c.C.Polar(c.R, from+sweep), ccw)
		x, y := rnd.Float64()*20, rnd.Float64()*20
		r := Rect{x, y, x + 1 + rnd.Float64()*8, y + 1 + rnd.Float64()*8}
		inside, near := false, false
		for i := 0; i <= 2000; i++ {
			p := c.C.Polar(c.R, from+sweep*float64(i)/2000)
			inside = inside || r.Grow(-0.02).Has(p)
			near = near || r.Grow(0.02).Has(p)
		}
		got := crossesArc(r, &g)
		if inside && !got || got && !near {
			t.Fatalf("crossesArc(%v, %v) = %v; a point inside: %v, near: %v", r, g, got, inside, near)
		}
		if got {
			hits++
		}
	}
	if hits < 500 {
		t.Errorf("only %d of 4000 arcs crossed: the trial says little", hits)
	}
}

// The grid answers as a look through all things does.
func TestFieldGridAgreesWithScan(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 5))
	at := func() geom.Point { return pt(rnd.Float64()*320-60, rnd.Float64()*260-30) }
	near := func(p geom.Point, d float64) geom.Point {
		return p.Add(pt((rnd.Float64()-0.5)*d, (rnd.Float64()-0.5)*d))
	}
	for trial := range 20 {
		var grid, scan field
		grid.clear(Rect{0, 0, 200, 200})
		scan.clear(Rect{0, 0, 200, 200})
		for i := range crowd + 60 {
			p := at()
			switch i % 4 {
			case 0:
				q := near(p, 150)
				grid.addLine(p, q, true, i)
				scan.addLine(p, q, true, i)
			case 1:
				r := centred(p, 1+rnd.Float64()*9, 1+rnd.Float64()*9)
				grid.addBox(r)
				scan.addBox(r)
			case 2:
				c := geom.Circle{C: p, R: 1 + rnd.Float64()*6}
				grid.addRing(c, i)
				scan.addRing(c, i)
			case 3:
				g := geom.BulgeSeg(p, near(p, 40), rnd.Float64()*2-1)
				grid.addEdge(g)
				scan.addEdge(g)
			}
			scan.cells = nil
		}
		if grid.cells == nil {
			t.Fatal("no grid was laid")
		}
		free, open := 0, 0
		for range 2000 {
			r := centred(at(), 6, 3)
			if f := grid.free(r); f != scan.free(r) {
				t.Fatalf("trial %d: free(%v) = %v with the grid, %v without", trial, r, f, !f)
			} else if f {
				free++
			}
			a := at()
			b := near(a, 30)
			if f := grid.open(a, b, nobody); f != scan.open(a, b, nobody) {
				t.Fatalf("trial %d: open(%v, %v) = %v with the grid, %v without", trial, a, b, f, !f)
			} else if f {
				open++
			}
		}
		if free == 0 || open == 0 {
			t.Errorf("trial %d: %d boxes and %d leaders were free: the trial says little", trial, free, open)
		}
		grid.cut(40)
		scan.cut(40)
		if len(grid.things) != 40 || grid.cells != nil {
			t.Fatalf("after cut(40): %d things, grid %v", len(grid.things), grid.cells != nil)
		}
	}
}

func TestFieldOwnHoleDoesNotBar(t *testing.T) {
	var f field
	f.clear(Rect{0, 0, 100, 100})
	f.addRing(geom.Circle{C: pt(50, 50), R: 10}, 3)
	if f.open(pt(50, 50), pt(90, 90), 1) {
		t.Error("a leader went through another hole")
	}
	if !f.open(pt(50, 50), pt(90, 90), 3) {
		t.Error("a hole barred its own leader")
	}
	if f.free(Rect{55, 48, 65, 52}) || !f.free(Rect{48, 48, 52, 52}) || !f.free(Rect{70, 70, 80, 75}) {
		t.Error("a label may lie inside a ring or outside, and not across it")
	}
	if f.free(Rect{95, 95, 105, 99}) {
		t.Error("a label went off the sheet")
	}
}

func TestShapeReach(t *testing.T) {
	for _, s := range []shape{
		{r: 5}, {r: 4, half: 10, dir: pt(1, 0)}, {r: 4, half: 10, dir: geom.Point{}.Polar(1, 0.7)}, {r: 6, half: 0.5, dir: pt(0, 1)},
	} {
		ends := s.ends(pt(0, 0))
		for i := range 72 {
			u := geom.Point{}.Polar(1, float64(i)*math.Pi/36)
			p := u.Mul(s.reach(u))
			if d := toLine(p, ends[0], ends[1]); math.Abs(d-s.r) > 1e-9 {
				t.Errorf("%v at %d deg: the edge point is %v from the middle line, want %v", s, 5*i, d, s.r)
			}
		}
	}
}

func TestCircleThrough(t *testing.T) {
	want := geom.Circle{C: pt(3, -2), R: 7.5}
	got, ok := through(want.C.Polar(want.R, 0.3), want.C.Polar(want.R, 2.9), want.C.Polar(want.R, 4))
	if !ok || got.C.Dist(want.C) > 1e-9 || math.Abs(got.R-want.R) > 1e-9 {
		t.Errorf("through = %v, %v; want %v", got, ok, want)
	}
	if _, ok := through(pt(0, 0), pt(1, 1), pt(2, 2)); ok {
		t.Error("three points in line gave a circle")
	}
}
