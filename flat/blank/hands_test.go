package blank

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
)

// oneSided is a part that differs from its mirror image in every way.
func oneSided() *describe.Part {
	slot := dia(8)
	slot.Slot = &describe.Slot{Pos: at(50), Length: mm(24), Angle: deg(20)}
	p := plate(describe.Shape{Tangent: []describe.Boss{
		{Pos: at(101), Hole: wordAt("pivot", 101), Radius: mm(20)}, boss(60, 0, 12), boss(30, 80, 9),
	}},
		hole("pivot", place(0, 0), bolt("1/2-13 grade 8")),
		hole("adjust", describe.Place{Row: &describe.Row{From: xy(30, 0), To: xy(30, 60), Count: n(3)}}, dia(7)),
		hole("slide", place(15, 25), slot))
	p.Hand = word("pair")
	p.Quantity = n(4)
	p.Marks = []describe.Mark{{Pos: at(70), Text: word("name"), At: place(40, 10).At}}
	return p
}

func TestPair(t *testing.T) {
	bs, err := Make(oneSided())
	if err != nil {
		t.Fatal(err)
	}
	if len(bs) != 2 || bs[0].Hand != AsDrawn || bs[1].Hand != Mirrored {
		t.Fatalf("got %d blanks", len(bs))
	}
	a, b := bs[0], bs[1]
	checkSound(t, a)
	checkSound(t, b)
	if a.Quantity != 2 || b.Quantity != 2 {
		t.Errorf("quantities are %d and %d, want 2 and 2", a.Quantity, b.Quantity)
	}
	near(t, "area", b.Region().Area(), a.Region().Area(), 1e-9)
	near(t, "centroid", b.Region().Centroid().X, -a.Region().Centroid().X, 1e-9)
	if err := b.Region().Validate(); err != nil {
		t.Error(err)
	}
	for i := range a.Holes {
		g, h := a.Holes[i], b.Holes[i]
		if h.Name != g.Name || h.Dia != g.Dia || h.CutDia != g.CutDia || h.Pos != g.Pos || h.Source != g.Source {
			t.Errorf("hole %d is %+v, want the twin of %+v", i+1, h, g)
		}
		if h.Centre != (geom.Point{X: 0 - g.Centre.X, Y: g.Centre.Y}) {
			t.Errorf("hole %q is at %v, its twin at %v", h.Name, h.Centre, g.Centre)
		}
		if math.Signbit(h.Centre.X) && h.Centre.X == 0 {
			t.Errorf("hole %q is at -0", h.Name)
		}
	}
	near(t, "angle of the slot", b.Holes[4].Angle*180/math.Pi, 160, 1e-9)
	if got, want := b.Holes[4].Callout, "slot 8 x 24 mm at 160 deg"; got != want {
		t.Errorf("callout is %q, want %q", got, want)
	}
	if m := b.Marks[0]; m.At != (geom.Point{X: -40, Y: 10}) || !m.FromRight || m.Text != "axle tab" {
		t.Errorf("mark is %+v", m)
	}
	if m := a.Marks[0]; m.FromRight || m.At.X != 40 {
		t.Errorf("mark as drawn is %+v", m)
	}
}

// Every arc of the mirrored outline lies on the mirror image of the very circle
// of its twin: same radius to the last bit, centre with its x turned.
func TestMirroredCirclesAreExact(t *testing.T) {
	bs, err := Make(oneSided())
	if err != nil {
		t.Fatal(err)
	}
	circles := map[geom.Circle]int{}
	for _, s := range bs[0].Outline {
		if s.IsArc() {
			c := s.Circle()
			c.C.X = 0 - c.C.X
			circles[c]++
		}
	}
	for _, s := range bs[1].Outline {
		if s.IsArc() {
			circles[s.Circle()]--
		}
	}
	for c, n := range circles {
		if n != 0 {
			t.Errorf("circle %v is carried %d times too often or too seldom", c, n)
		}
	}
	if len(circles) != 3 {
		t.Errorf("the outline has %d circles, want 3", len(circles))
	}
}

func TestHands(t *testing.T) {
	for _, c := range []struct {
		hand            string
		quantity        describe.Count
		drawn, mirrored int
	}{
		{"", describe.Count{N: 1}, 1, 0},
		{"as drawn", n(3), 3, 0},
		{"mirrored", n(3), 0, 3},
		{"pair", n(2), 1, 1},
		{"pair", n(6), 3, 3},
		{"pair", describe.Count{N: 1}, 1, 1}, // no quantity: one of each
	} {
		p := oneSided()
		p.Hand, p.Quantity = word(c.hand), c.quantity
		bs, err := Make(p)
		if err != nil {
			t.Fatal(err)
		}
		got := map[Hand]int{}
		for _, b := range bs {
			got[b.Hand] += b.Quantity
		}
		if got[AsDrawn] != c.drawn || got[Mirrored] != c.mirrored {
			t.Errorf("%q of %d gives %v, want %d drawn and %d mirrored", c.hand, c.quantity.N, got, c.drawn, c.mirrored)
		}
	}
	p := oneSided()
	p.Quantity = describe.Count{N: 3, Set: true, Pos: at(3)}
	wantProblem(t, p, 3, "even number")
	p.Quantity.N = 0
	ps := refused(t, p)
	if ps[0].Pos != at(3) {
		t.Errorf("problems are %s", ps)
	}
	p.Quantity.N, p.Hand = 2, wordAt("left", 4)
	wantProblem(t, p, 4, "as drawn, mirrored, pair")
}

// Properties of mirroring: twice is nothing for places, half a turn at most for
// the axis of a slot, which stays in [0, π).
func TestMirrorTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom([]flip{acrossX, acrossY, acrossBoth}).Draw(t, "flip")
		p := geom.Point{X: rapid.Float64Range(-maxReach, maxReach).Draw(t, "x"), Y: rapid.Float64Range(-maxReach, maxReach).Draw(t, "y")}
		if q := f.point(f.point(p)); q != p {
			t.Fatalf("mirrored twice, %v is %v", p, q)
		}
		a := rapid.Float64Range(-maxTurn, maxTurn).Draw(t, "angle")
		once := f.angle(a)
		if f != acrossBoth && !(once >= 0 && once < math.Pi) {
			t.Fatalf("mirrored, %g is %g", a, once)
		}
		d, e := direction(a), direction(f.angle(once))
		if math.Abs(d.Cross(e)) > 1e-9 {
			t.Fatalf("mirrored twice, a slot at %g lies at %g", a, f.angle(once))
		}
		if c := f.point(direction(a)).Cross(direction(once)); math.Abs(c) > 1e-9 {
			t.Fatalf("a slot at %g is mirrored to %g", a, once)
		}
	})
}
