package geom

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestFillet(t *testing.T) {
	const (
		square = "0 0; 10 0; 10 10; 0 10"
		ell    = "0 0; 10 0; 10 4; 4 4; 4 10; 0 10"
		half   = "5 0 1; -5 0"                           // half a disc: line to arc, both corners
		lens   = "3 0 0.5; -3 0 0.5"                     // arc to arc
		keyed  = "5 0 1; -5 0; -1 0; -1 3; 1 3; 1 0"     // half a disc with a key way
		bitten = "0 0; 10 0; 10 10; 7 10 -1; 3 10; 0 10" // line to hollow arc
	)
	for _, c := range []struct {
		kind, loop string
		corner     int
		r          float64
	}{
		{"convex, line to line", square, 1, 2},
		{"convex, the first corner", square, 0, 2},
		{"concave, line to line", ell, 3, 1.5},
		{"a side used up", ell, 2, 4},
		{"line to arc", half, 0, 1},
		{"arc to line", half, 1, 1},
		{"arc to arc", lens, 0, 0.5},
		{"arc to arc, the other end", lens, 1, 0.5},
		{"line to hollow arc", bitten, 3, 0.5},
		{"hollow arc to line", bitten, 4, 0.5},
		{"concave beside arcs", keyed, 3, 0.5},
	} {
		l, err := ParseLoop(c.loop)
		if err != nil {
			t.Fatal(err)
		}
		got, err := l.Fillet(c.corner, c.r)
		if err != nil {
			t.Errorf("%s: %v", c.kind, err)
			continue
		}
		found := false
		n := len(got)
		for i, s := range got {
			if math.Abs(s.Circle().R-c.r) > 1e-9 || !s.IsArc() || math.Abs(s.Circle().R) == 5 {
				continue
			}
			found = true
			in, out := got[(i+n-1)%n].DirB(), got[(i+1)%n].DirA()
			if c.kind == "a side used up" {
				in = s.DirA() // the corner before it stays
			}
			if in.Cross(s.DirA()) > 1e-9 || in.Dot(s.DirA()) < 0 || out.Cross(s.DirB()) > 1e-9 || out.Dot(s.DirB()) < 0 {
				t.Errorf("%s: the fillet %v is not tangent", c.kind, s)
			}
		}
		if !found {
			t.Errorf("%s: no arc of radius %g in %v", c.kind, c.r, got)
		}
		// Rounding a convex corner takes area away, a concave one adds.
		v := l[c.corner].A
		turn := l[(c.corner+len(l)-1)%len(l)].DirB().Cross(l[c.corner].DirA())
		if grown := got.Area() - l.Area(); (grown < 0) != (turn > 0) {
			t.Errorf("%s: area changed by %g at a corner %v that turns %g", c.kind, grown, v, turn)
		}
	}
	// Known area: a quarter of the difference of square and disc.
	l, _ := ParseLoop(square)
	got, err := l.Fillet(2, 3)
	if want := 100 - (9 - 9*math.Pi/4); err != nil || math.Abs(got.Area()-want) > 1e-12 {
		t.Errorf("square: area %v, %v, want %v", got.Area(), err, want)
	}
	for _, c := range []struct {
		kind, loop string
		corner     int
		r          float64
	}{
		{"larger than the sides", square, 1, 11},
		{"no radius", square, 1, 0},
		{"negative", square, 1, -1},
		{"not a number", square, 1, math.NaN()},
		{"no such corner", square, 4, 1},
		{"smooth joint", "5 0 1; -5 0 1", 0, 1},
		{"larger than the lens", lens, 0, 50},
		{"runs into the far side", "0 0; 20 0; 20 20; 2 20; 1.2 1.2; 1 20; 0 20", 0, 7},
	} {
		l, err := ParseLoop(c.loop)
		if err != nil {
			t.Fatal(err)
		}
		var e *CornerError
		if _, err := l.Fillet(c.corner, c.r); !errors.As(err, &e) {
			t.Errorf("%s: got %v, want a *CornerError", c.kind, err)
		}
	}
}

func TestChamfer(t *testing.T) {
	l, _ := ParseLoop("0 0; 10 0; 10 10; 0 10")
	got, err := l.Chamfer(1, 2)
	if err != nil || math.Abs(got.Area()-98) > 1e-12 || len(got) != 5 {
		t.Errorf("square: got %v, %v", got, err)
	}
	l, _ = ParseLoop("5 0 1; -5 0")
	got, err = l.Chamfer(0, math.Pi*5/2)
	if err != nil || len(got) != 3 || got[0].A.Dist(Point{5 - math.Pi*5/2, 0}) > 1e-12 && got[1].A.Dist(Point{5 - math.Pi*5/2, 0}) > 1e-12 && got[2].A.Dist(Point{5 - math.Pi*5/2, 0}) > 1e-12 {
		t.Errorf("half disc: got %v, %v", got, err)
	}
	for _, set := range []float64{11, 0, -1, math.Inf(1)} {
		l, _ := ParseLoop("0 0; 10 0; 10 10; 0 10")
		var e *CornerError
		if _, err := l.Chamfer(1, set); !errors.As(err, &e) {
			t.Errorf("set %g: got %v, want a *CornerError", set, err)
		}
	}
}

func TestBelt(t *testing.T) {
	disc := func(x, y, r float64) Circle { return Circle{Point{x, y}, r} }
	// Two equal discs: a slot.
	l, err := Belt([]BeltDisc{{Circle: disc(0, 0, 2)}, {Circle: disc(10, 0, 2)}})
	if want := 40 + 4*math.Pi; err != nil || math.Abs(l.Area()-want) > 1e-12 {
		t.Errorf("slot: %v, %v, want %v", l.Area(), err, want)
	}
	// The same with both sides waisted: tangent hollow arcs.
	w := []BeltDisc{{Circle: disc(0, 0, 2), Waist: 20}, {Circle: disc(10, 0, 2), Waist: 20}}
	l, err = Belt(w)
	if err != nil {
		t.Fatal(err)
	}
	hollow := 0
	for i, s := range l {
		next := l[(i+1)%len(l)]
		if s.DirB().Dist(next.DirA()) > 1e-9 {
			t.Errorf("waist: a kink at %v", next.A)
		}
		if s.Bulge < 0 && math.Abs(s.Circle().R-20) < 1e-12 {
			hollow++
		}
	}
	// Neck of a waist: centre distance over both arcs less their radii.
	neck := 2 * (math.Sqrt(22*22-25) - 20)
	if hollow != 2 || math.Abs(l.Bounds().Height()-4) > 1e-12 || l.Contains(Point{5, neck/2 - 1e-6}) != Inside || l.Contains(Point{5, neck/2 + 1e-6}) != Outside {
		t.Errorf("waist: %d hollow arcs, %v", hollow, l)
	}
	// Three discs and one that presses in from outside.
	l, err = Belt([]BeltDisc{{Circle: disc(0, 0, 2)}, {Circle: disc(20, 0, 2)}, {Circle: disc(20, 12, 2)}, {Circle: disc(10, 12, 4), Outside: true}, {Circle: disc(0, 12, 2)}})
	if err != nil {
		t.Fatal(err)
	}
	pressed := false
	for i, s := range l {
		pressed = pressed || s.Bulge < 0 && s.Circle() == disc(10, 12, 4)
		if s.DirB().Dist(l[(i+1)%len(l)].DirA()) > 1e-9 {
			t.Errorf("pressed: a kink at %v", s.B)
		}
	}
	if !pressed || l.Contains(Point{10, 8.1}) != Outside || l.Contains(Point{10, 7.9}) != Inside {
		t.Errorf("pressed: %v", l)
	}
	// A convex belt is the hull.
	cs := []Circle{disc(0, 0, 2), disc(12, 1, 3), disc(5, 9, 1)}
	h, err := Hull(cs)
	b, err2 := Belt([]BeltDisc{{Circle: cs[0]}, {Circle: cs[1]}, {Circle: cs[2]}})
	if err != nil || err2 != nil || math.Abs(h.Area()-b.Area()) > 1e-10 {
		t.Errorf("hull %v, %v, belt %v, %v", h.Area(), err, b.Area(), err2)
	}
	for _, c := range []struct {
		kind     string
		from, to int
		discs    []BeltDisc
	}{
		{"one disc", -1, -1, []BeltDisc{{Circle: disc(0, 0, 1)}}},
		{"within the other", 0, 1, []BeltDisc{{Circle: disc(0, 0, 5)}, {Circle: disc(1, 0, 2)}}},
		{"overlap, crossing", 0, 1, []BeltDisc{{Circle: disc(0, 0, 5)}, {Circle: disc(6, 0, 5), Outside: true}}},
		{"waist too small", 0, 1, []BeltDisc{{Circle: disc(0, 0, 2), Waist: 1}, {Circle: disc(30, 0, 2)}}},
		{"waist too small on the way back", 2, 0, []BeltDisc{{Circle: disc(0, 0, 2)}, {Circle: disc(30, 0, 2)}, {Circle: disc(15, 30, 2), Waist: 1}}},
		{"clockwise corners", -1, -1, []BeltDisc{{Circle: disc(0, 0, 0)}, {Circle: disc(0, 10, 0)}, {Circle: disc(10, 0, 0)}}},
		{"clockwise: crosses itself", -1, -1, []BeltDisc{{Circle: disc(0, 0, 1)}, {Circle: disc(0, 10, 1)}, {Circle: disc(10, 0, 1)}}},
		{"negative radius", 0, 1, []BeltDisc{{Circle: disc(0, 0, -1)}, {Circle: disc(10, 0, 1)}}},
		{"waist to outside", 0, 1, []BeltDisc{{Circle: disc(0, 0, 1), Waist: 9}, {Circle: disc(10, 0, 1), Outside: true}, {Circle: disc(5, 9, 1)}}},
		{"crosses itself", -1, -1, []BeltDisc{{Circle: disc(0, 0, 1)}, {Circle: disc(20, 20, 1)}, {Circle: disc(20, 0, 1)}, {Circle: disc(0, 20, 1)}}},
	} {
		l, err := Belt(c.discs)
		var e *BeltError
		if !errors.As(err, &e) {
			t.Errorf("%s: got %v, %v, want a *BeltError", c.kind, l, err)
			continue
		}
		if e.From != c.from || e.To != c.to || e.Reason == "" || !strings.HasPrefix(e.Error(), "belt: ") || !strings.HasSuffix(e.Error(), e.Reason) {
			t.Errorf("%s: got discs %d to %d, %q, want %d to %d", c.kind, e.From, e.To, e, c.from, c.to)
		}
		var bad *InvalidError
		if got := errors.As(err, &bad); got != strings.HasSuffix(c.kind, "crosses itself") {
			t.Errorf("%s: an *InvalidError in it: %v", c.kind, got)
		}
	}
}

func TestSimplify(t *testing.T) {
	for _, c := range []struct {
		kind, loop string
		sliver     float64
		want       int
		area       float64
	}{
		{"nothing to do", "0 0; 10 0; 10 10; 0 10", 0, 4, 100},
		{"collinear", "0 0; 3 0; 5 0; 10 0; 10 10; 0 10; 0 5", 0, 4, 100},
		{"collinear across the start", "5 0; 10 0; 10 10; 0 10; 0 0", 0, 4, 100},
		{"cocircular", "2 0 0.41421356237309503; 0 2 0.41421356237309503; -2 0; -2 -3; 2 -3", 0, 4, 12 + 2*math.Pi},
		{"circle of four quarters", "2 0 0.41421356237309503; 0 2 0.41421356237309503; -2 0 0.41421356237309503; 0 -2 0.41421356237309503", 0, 2, 4 * math.Pi},
		{"short segment", "0 0; 10 0; 10 9.9995; 9.9995 10; 0 10", 0.001, 4, 100},
		{"short segment kept", "0 0; 10 0; 10 9.99; 9.99 10; 0 10", 0.001, 5, 100 - 0.00005},
	} {
		l, err := ParseLoop(c.loop)
		if err != nil {
			t.Fatal(err)
		}
		before := l.String()
		got, err := l.Simplify(c.sliver)
		if err != nil || len(got) != c.want || math.Abs(got.Area()-c.area) > 1e-2*c.sliver*l.Perimeter()+1e-9 {
			t.Errorf("%s: got %v (area %v), %v, want %d segments and area %v", c.kind, got, got.Area(), err, c.want, c.area)
		}
		if l.String() != before {
			t.Errorf("%s: the loop was changed", c.kind)
		}
	}
	r := Region{Outer: Polygon(Point{0, 0}, Point{10, 0}, Point{10, 10}, Point{0, 10}),
		Holes: []Loop{CircleLoop(Circle{Point{5, 5}, 2}).Reverse(), Polygon(Point{1, 1}, Point{1.001, 9}, Point{1.002, 1}).Reverse()}}
	got, err := r.Simplify(0.01)
	if err != nil || len(got.Holes) != 1 {
		t.Errorf("region: got %v, %v, want the sliver gone", got, err)
	}
}
