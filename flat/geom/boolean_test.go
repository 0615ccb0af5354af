package geom

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"sync"
	"testing"
)

// parseShape reads regions, one a line.
func parseShape(tb testing.TB, text string) []Region {
	tb.Helper()
	var rs []Region
	for _, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		r, err := ParseRegion(line)
		if err != nil {
			tb.Fatal(err)
		}
		rs = append(rs, r)
	}
	return rs
}

func holesOf(rs []Region) int {
	n := 0
	for _, r := range rs {
		n += len(r.Holes)
	}
	return n
}

func TestBoolean(t *testing.T) {
	const (
		square = "0 0; 10 0; 10 10; 0 10"
		disc   = "9 5 1; 1 5 1" // radius 4 about the square's middle
		frame  = "0 0; 10 0; 10 10; 0 10 | 2 2; 2 8; 8 8; 8 2"
	)
	type count struct{ regions, holes int }
	for _, c := range []struct {
		kind, a, b                        string
		union, intersection, difference   float64
		unionN, intersectionN, differentN count
	}{
		{"crossing", square, "5 5; 15 5; 15 15; 5 15", 175, 25, 75, count{1, 0}, count{1, 0}, count{1, 0}},
		{"containment", square, disc, 100, 16 * math.Pi, 100 - 16*math.Pi, count{1, 0}, count{1, 0}, count{1, 1}},
		{"contained", disc, square, 100, 16 * math.Pi, 0, count{1, 0}, count{1, 0}, count{0, 0}},
		{"equal", square, square, 100, 100, 0, count{1, 0}, count{1, 0}, count{0, 0}},
		{"equal discs, begun elsewhere", disc, "5 9 1; 5 1 1", 16 * math.Pi, 16 * math.Pi, 0, count{1, 0}, count{1, 0}, count{0, 0}},
		{"apart", square, "20 0; 30 0; 30 10; 20 10", 200, 0, 100, count{2, 0}, count{0, 0}, count{1, 0}},
		{"touching along a side", square, "10 0; 20 0; 20 10; 10 10", 200, 0, 100, count{1, 0}, count{0, 0}, count{1, 0}},
		{"touching along part of a side", square, "10 2; 20 2; 20 4; 10 4", 120, 0, 100, count{1, 0}, count{0, 0}, count{1, 0}},
		{"touching at a corner", square, "10 10; 20 10; 20 20; 10 20", 200, 0, 100, count{2, 0}, count{0, 0}, count{1, 0}},
		{"disc tangent inside", square, "10 5 1; 0 5 1", 100, 25 * math.Pi, 100 - 25*math.Pi, count{1, 0}, count{1, 0}, count{4, 0}},
		{"disc tangent outside", square, "12 5 1; 10 5 1", 100 + math.Pi, 0, 100, count{2, 0}, count{0, 0}, count{1, 0}},
		{"one side shared from inside", square, "0 0; 10 0; 10 3; 0 3", 100, 30, 70, count{1, 0}, count{1, 0}, count{1, 0}},
		{"notch cut at a side", square, "4 0; 6 0; 6 5; 4 5", 100, 10, 90, count{1, 0}, count{1, 0}, count{1, 0}},
		{"cut in two", square, "4 -1; 6 -1; 6 11; 4 11", 104, 20, 80, count{1, 0}, count{1, 0}, count{2, 0}},
		{"island in an opening", frame, "4 4; 6 4; 6 6; 4 6", 68, 0, 64, count{2, 1}, count{0, 0}, count{1, 1}},
		{"opening filled exactly", frame, "2 2; 8 2; 8 8; 2 8", 100, 0, 64, count{1, 0}, count{0, 0}, count{1, 1}},
		{"opening bridged", frame, "0 4; 10 4; 10 6; 0 6", 76, 8, 56, count{1, 2}, count{2, 0}, count{2, 0}},
		{"opening reached by a corner", frame, "5 5; 8 8; 5 8", 68.5, 0, 64, count{1, 1}, count{0, 0}, count{1, 1}},
		{"nested islands", frame + "\n3 3; 7 3; 7 7; 3 7 | 4 4; 4 6; 6 6; 6 4", "4.5 4.5; 5.5 4.5; 5.5 5.5; 4.5 5.5", 77, 0, 76, count{3, 2}, count{0, 0}, count{2, 2}},
		{"lens of two discs", "2 0 1; -2 0 1", "4 0 1; 0 0 1", 8*math.Pi - (8*math.Pi/3 - 2*math.Sqrt(3)), 8*math.Pi/3 - 2*math.Sqrt(3), 4*math.Pi - (8*math.Pi/3 - 2*math.Sqrt(3)), count{1, 0}, count{1, 0}, count{1, 0}},
		{"half discs on one circle", "2 0 1; -2 0", "-2 0 1; 2 0", 4 * math.Pi, 0, 2 * math.Pi, count{1, 0}, count{0, 0}, count{1, 0}},
		{"saddle: plate meets tube", "-20 0; 20 0; 20 30; -20 30", "25 0 1; -25 0 1", 1200 + 625*math.Pi/2 + 0.0, 0, 0, count{1, 0}, count{1, 0}, count{1, 0}},
		{"nothing and something", "", square, 100, 0, 0, count{1, 0}, count{0, 0}, count{0, 0}},
	} {
		a, b := parseShape(t, c.a), parseShape(t, c.b)
		if strings.HasPrefix(c.kind, "saddle") {
			// Plate area above the tube: the middle of the disc's upper half goes.
			over := 2 * (10*math.Sqrt(625-400) + 625.0/2*math.Asin(20.0/25))
			c.intersection = over
			c.difference = 1200 - over
			c.union = 1200 + 625*math.Pi - over
			c.differentN = count{1, 0}
		}
		for _, op := range []struct {
			name string
			f    func(a, b []Region) ([]Region, error)
			a, b []Region
			want float64
			n    count
		}{
			{"union", Union, a, b, c.union, c.unionN},
			{"union, swapped", Union, b, a, c.union, c.unionN},
			{"intersection", Intersection, a, b, c.intersection, c.intersectionN},
			{"intersection, swapped", Intersection, b, a, c.intersection, c.intersectionN},
			{"difference", Difference, a, b, c.difference, c.differentN},
			{"difference, reversed", Difference, reversed(a), reversed(b), c.difference, c.differentN},
		} {
			got, err := op.f(op.a, op.b)
			if err != nil {
				t.Errorf("%s, %s: %v", c.kind, op.name, err)
				continue
			}
			if math.Abs(areaOf(got)-op.want) > 1e-9*max(1, op.want) {
				t.Errorf("%s, %s: area %.12g, want %.12g", c.kind, op.name, areaOf(got), op.want)
			}
			if n := (count{len(got), holesOf(got)}); n != op.n {
				t.Errorf("%s, %s: regions and openings %v, want %v", c.kind, op.name, n, op.n)
			}
			if err := auditShape(got); err != nil {
				t.Errorf("%s, %s: %v", c.kind, op.name, err)
			}
		}
		x, err := SymmetricDifference(a, b)
		if err != nil || math.Abs(areaOf(x)-(c.union-c.intersection)) > 1e-9*c.union {
			t.Errorf("%s, symmetric difference: area %.12g, %v, want %.12g", c.kind, areaOf(x), err, c.union-c.intersection)
		}
	}
}

// Arcs stay arcs on the very circles that they came with; a hole stays a hole.
func TestBooleanKeepsCircles(t *testing.T) {
	c, d := Circle{Point{3.1, 2.7}, 1.3}, Circle{Point{9.9, 5.1}, 2.2}
	plate := []Region{{Outer: Polygon(Point{0, 0}, Point{10, 0}, Point{10, 8}, Point{0, 8}), Holes: []Loop{CircleLoop(c).Reverse()}}}
	got, err := Difference(plate, []Region{{Outer: CircleLoop(d)}})
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 1 || len(got[0].Holes) != 1 {
		t.Fatalf("got %v", got)
	}
	if h, ok := got[0].Holes[0].Circle(); !ok || h != c {
		t.Errorf("the hole is %v, %v, want %v", h, ok, c)
	}
	arcs := 0
	for _, s := range got[0].Outer {
		if s.IsArc() {
			if arcs++; s.Circle() != d {
				t.Errorf("the saddle's circle is %v, want %v", s.Circle(), d)
			}
		}
	}
	if arcs == 0 {
		t.Error("the saddle is no arc")
	}
}

// Vertices where pieces of one line or circle meet again are joined.
func TestBooleanJoinsPieces(t *testing.T) {
	got, err := Union(parseShape(t, "0 0; 10 0; 10 5; 0 5"), parseShape(t, "10 0; 20 0; 20 5; 10 5"))
	if err != nil || len(got) != 1 || len(got[0].Outer) != 4 {
		t.Errorf("two halves of a bar: got %v, %v, want 4 sides", got, err)
	}
	got, err = Union(parseShape(t, "2 0 1; -2 0"), parseShape(t, "-2 0 1; 2 0"))
	if err != nil || len(got) != 1 || len(got[0].Outer) != 2 {
		t.Errorf("two half discs: got %v, %v, want 2 arcs", got, err)
	}
}

func TestBooleanLeavesInputsAlone(t *testing.T) {
	r := loadShape(t, "bracket")
	s := shifted(r)
	before := []string{r.String(), s.String()}
	first, err := Union([]Region{r}, []Region{s})
	if err != nil {
		t.Fatal(err)
	}
	if r.String() != before[0] || s.String() != before[1] {
		t.Error("an operand was changed")
	}
	kept := first[0].String()
	for range 50 {
		again, err := Union([]Region{r}, []Region{s})
		if err != nil || !reflect.DeepEqual(again, first) {
			t.Fatal("the same operands gave another result")
		}
		if _, err := Offset(again, 1, Round); err != nil {
			t.Fatal(err)
		}
	}
	if first[0].String() != kept {
		t.Error("a later operation changed an earlier result")
	}
}

func TestOperationErrors(t *testing.T) {
	open := Loop{Line(Point{0, 0}, Point{1, 0}), Line(Point{1, 0}, Point{1, 1}), Line(Point{1, 1}, Point{5, 5})}
	good := Polygon(Point{0, 0}, Point{1, 0}, Point{0, 1})
	for _, c := range []struct {
		kind, says string
		l          Loop
	}{
		{"open loop", "not closed", open},
		{"one segment", "fewer than two", open[:1]},
		{"not a number", "not a finite", Polygon(Point{0, 0}, Point{math.NaN(), 0}, Point{0, 1})},
		{"infinite", "not a finite", Polygon(Point{0, 0}, Point{math.Inf(1), 0}, Point{0, 1})},
		{"too far away", "too large", Polygon(Point{0, 0}, Point{1e9, 0}, Point{0, 1})},
		{"bulge over half a turn", "half a turn", Loop{BulgeSeg(Point{0, 0}, Point{1, 0}, 1.5), Line(Point{1, 0}, Point{0, 0})}},
		{"arc of a huge circle", "too large", Loop{BulgeSeg(Point{0, 0}, Point{1000, 0}, 1e-8), Line(Point{1000, 0}, Point{0, 9}), Line(Point{0, 9}, Point{0, 0})}},
	} {
		in := []Region{{Outer: c.l}}
		_, err1 := Union(in, []Region{{Outer: good}})
		_, err2 := Difference([]Region{{Outer: good, Holes: []Loop{c.l}}}, nil)
		_, err3 := Offset(in, 0.75, Round)
		for i, err := range []error{err1, err2, err3} {
			var e *OpError
			if !errors.As(err, &e) {
				t.Errorf("%s, %d: got %v, want an *OpError", c.kind, i, err)
				continue
			}
			if !strings.Contains(e.Reason, c.says) || !strings.Contains(err.Error(), e.A[0].String()) {
				t.Errorf("%s, %d: got %q, want %q and the input", c.kind, i, err, c.says)
			}
		}
	}
	if _, err := Offset([]Region{{Outer: good}}, math.NaN(), Round); err == nil || !strings.Contains(err.Error(), "offset +NaN") && !strings.Contains(err.Error(), "offset NaN") {
		t.Errorf("offset by NaN: got %v", err)
	}
}

// The input in an error reads back to the same bits.
func TestOperationErrorIsLossless(t *testing.T) {
	r := loadShape(t, "link-plate").Transform(Rotate(0.3))
	e := &OpError{Op: "union", Reason: "for the test", A: []Region{r}, B: []Region{shifted(r)}}
	parts := strings.Split(e.Input(), "\n\n")
	if len(parts) != 2 {
		t.Fatalf("got %d operands", len(parts))
	}
	for i, want := range []Region{r, shifted(r)} {
		got := parseShape(t, parts[i])
		if len(got) != 1 || !reflect.DeepEqual(got[0], want) {
			t.Errorf("operand %d does not read back", i)
		}
	}
}

// Operations share no state that callers could see.
func TestOperationsInParallel(t *testing.T) {
	names := []string{"bracket", "link-plate", "flange-12", "scallop-40"}
	want := make([]string, len(names))
	work := func(i int) string {
		r := []Region{loadShape(t, names[i])}
		u, err := Union(r, []Region{shifted(r[0])})
		if err != nil {
			return err.Error()
		}
		o, err := Offset(u, -0.75, Round)
		if err != nil {
			return err.Error()
		}
		return u[0].String() + o[0].String()
	}
	for i := range names {
		want[i] = work(i)
	}
	var wait sync.WaitGroup
	for k := range 32 {
		wait.Go(func() {
			if got := work(k % len(names)); got != want[k%len(names)] {
				t.Errorf("%s: another result in parallel", names[k%len(names)])
			}
		})
	}
	wait.Wait()
}
