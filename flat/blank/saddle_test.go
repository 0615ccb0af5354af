package blank

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// A saddle in a straight edge: area and wrap by closed forms, one arc or two on
// the tube's own circle.
func TestSaddle(t *testing.T) {
	for _, c := range []struct {
		at, gap   string
		y, radius float64
	}{
		{"[0, 30]", "", 0, 30.15 + 0.8},
		{"[0, 45]", ", gap: 0.5", 15, 30.15 + 0.5},
		{"[0, 45]", ", gap: 0", 15, 30.15},
		{"[0, 55]", ", gap: 1", 25, 30.15 + 1},
		{"[0, 25]", "", -5, 30.15 + 0.8},
	} {
		b := described(t, "outline: {rectangle: {width: 100, height: 60}}\ncutouts:\n  - {name: axle, saddle: {tube: 60.3, at: "+c.at+c.gap+"}}\n")
		area, wrap := segment(c.radius, c.y)
		near(t, "area", b.Outline.Area(), 6000-area, 1e-8)
		if len(b.Cutouts) != 0 || len(b.Edges) != 1 || len(b.Notes) != 1 {
			t.Fatalf("%d cutouts, %d edges, notes %q", len(b.Cutouts), len(b.Edges), b.Notes)
		}
		e := b.Edges[0]
		if e.Name != "axle" || e.Role != SaddleEdge || e.Pos.Line != 7 || e.Saddle.Tube != 60.3 || e.Saddle.Circle.R != c.radius {
			t.Errorf("edge %+v of %+v", e, e.Saddle)
		}
		near(t, "wrap", e.Saddle.Wrap, wrap, 1e-9)
		length := 0.0
		for k, i := range e.Segs {
			s := b.Outline[i]
			length += s.Length()
			if s.Circle() != e.Saddle.Circle || s.Bulge >= 0 {
				t.Errorf("segment %d, %s, is no edge of the saddle", i, s)
			}
			if k > 0 && b.Outline[e.Segs[k-1]].B != s.A {
				t.Errorf("segments %v do not follow each other", e.Segs)
			}
			if b.EdgeAt(i).Name != "axle" {
				t.Errorf("segment %d belongs to %+v", i, b.EdgeAt(i))
			}
		}
		near(t, "length", length, wrap*c.radius, 1e-9)
		if said := strings.Contains(b.Notes[0], "taken for paint"); said != (c.gap == "") {
			t.Errorf("the note says %q", b.Notes[0])
		}
	}
}

// The axle link tab: a hole 95 mm below an axle tube of 60.3 mm, base 90 mm wide
// and 16.2 mm below the tube's middle.
func TestAxleLinkTab(t *testing.T) {
	b := described(t, `holes:
  pivot: {at: [0, -95], diameter: 13.5}
outline:
  tangent: [{hole: pivot, radius: 25.4}, {at: [-37, -24.2], radius: 8}, {at: [37, -24.2], radius: 8}]
cutouts:
  - {name: axle, saddle: {tube: 60.3, at: [0, 0], wrap: 115 deg}}
`)
	s := b.Edges[0].Saddle
	near(t, "radius", s.Circle.R, 30.95, 1e-12)
	near(t, "wrap", s.Wrap*180/math.Pi, 2*math.Acos(16.2/30.95)*180/math.Pi, 1e-9)
	box := b.Outline.Bounds()
	near(t, "base", box.Width(), 90, 1e-9)
	near(t, "metal between hole and saddle", geom.LoopLoop(b.Holes[0].Finished(), b.Outline).D, 25.4-6.75, 1e-9)
}

// What a saddle asks and the plate does not give.
func TestSaddleProblems(t *testing.T) {
	base := "outline: {rectangle: {width: 100, height: 60}}\ncutouts:\n"
	for _, c := range []struct{ name, text, want string }{
		{"inside", "  - {name: axle, saddle: {tube: 20, at: [0, 0]}}\n",
			"3: saddle \"axle\" lies inside the plate and breaks no edge of it | for a tube that goes through the plate write disc: {at: ..., diameter: 21.60 mm}"},
		{"outside", "  - saddle: {tube: 20, at: [0, 50]}\n",
			"3: saddle \"cutout-1\" takes nothing off the plate: it lies 9.20 mm from it, at x 0.00 mm, y 39.20 mm | move it onto the plate, or leave it out"},
		{"swallows", "  - saddle: {tube: 300, at: [0, 0]}\n", "3: saddle \"cutout-1\" leaves nothing of the plate | make it smaller, or move it"},
		{"in two", "  - {name: axle, saddle: {tube: 70, at: [0, 0]}}\n",
			"3: saddle \"axle\" cuts the plate into 2 pieces: one of 30.46 mm by 60.00 mm falls off at x -34.77 mm, y 0.00 mm | make it smaller, move it, or leave metal beside it"},
		{"wrap", "  - {name: axle, saddle: {tube: 40, gap: 0, at: [0, 40], wrap: 150 deg}}\n",
			"3: saddle \"axle\" wraps 120 deg of the tube, wanted 150 deg or more | let the plate reach x -19.32 mm, y 34.82 mm and x 19.32 mm, y 34.82 mm, or move the tube's centre to x 0.00 mm, y 35.18 mm"},
		{"wrap beside a corner", "  - {name: axle, saddle: {tube: 40, gap: 0, at: [50, 40], wrap: 100 deg}}\n",
			"3: saddle \"axle\" wraps 60 deg of the tube, wanted 100 deg or more | let the plate reach x 30.30 mm, y 36.53 mm and x 56.84 mm, y 21.21 mm"},
		{"nothing left", "  - {name: axle, saddle: {tube: 20, at: [0, 30]}}\n  - disc: {at: [0, 30], diameter: 30}\n",
			"3: nothing is left of the edge of saddle \"axle\": other cutouts take it, or it meets the edge from inside | leave one of them out"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := said(t, base+c.text); got != c.want {
				t.Errorf("said\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

// The wrap that is told to be missing is there where the hint is followed.
func TestWrapHintHolds(t *testing.T) {
	b := described(t, "outline: {rectangle: {width: 100, height: 60}}\ncutouts:\n  - {name: axle, saddle: {tube: 40, gap: 0, at: [0, 35.176], wrap: 150 deg}}\n")
	near(t, "wrap", b.Edges[0].Saddle.Wrap*180/math.Pi, 150, 0.01)
}

// A notch in the middle of a saddle leaves two stretches of one edge; its wrap is
// from end to end. Wrap of more than half a turn is said.
func TestSaddleInTwoStretches(t *testing.T) {
	b := described(t, `outline: {rectangle: {width: 100, height: 60}}
cutouts:
  - {name: axle, saddle: {tube: 40, gap: 0, at: [0, 30]}}
  - {name: relief, rectangle: {at: [0, 10], width: 6, height: 8}}
`)
	e := b.Edges[0]
	near(t, "wrap", e.Saddle.Wrap, math.Pi, 1e-9)
	length := 0.0
	for _, i := range e.Segs {
		length += b.Outline[i].Length()
	}
	near(t, "length", length, 20*(math.Pi-2*math.Asin(3.0/20)), 1e-9)

	b = described(t, "outline: {rectangle: {width: 100, height: 60}}\ncutouts:\n  - {name: axle, saddle: {tube: 40, gap: 0, at: [0, 20]}}\n")
	near(t, "wrap", b.Edges[0].Saddle.Wrap, 2*math.Pi/3*2, 1e-9)
	if !strings.Contains(b.Notes[0], "more than half the tube") {
		t.Errorf("the note says %q", b.Notes[0])
	}
}

// Whatever the tube and where: the plate loses just the cap that the chord of its
// straight edge cuts off, and the mirrored hand has the same saddle mirrored.
func TestSaddleProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := rapid.Float64Range(10, 120).Draw(t, "tube")
		gap := rapid.Float64Range(0, 2).Draw(t, "gap")
		r := tube/2 + gap
		depth := rapid.Float64Range(-0.9, 0.9).Draw(t, "depth") * r
		x := rapid.Float64Range(-60, 60).Draw(t, "x")
		p := plate(describe.Shape{Rectangle: &describe.Rectangle{Pos: at(101), Width: mm(400), Height: mm(300)}})
		p.Hand, p.Quantity = word("pair"), n(2)
		p.Cutouts = []describe.Piece{{Pos: at(50), Saddle: &describe.Saddle{Pos: at(50), Tube: mm(tube), Gap: mm(gap), At: xy(x, 150+depth)}}}
		bs, err := Make(p)
		if err != nil {
			t.Fatal(err)
		}
		if !num.Same(bs[0].Edges[0].Saddle.Circle.R, r) {
			t.Fatalf("radius %g, want %g", bs[0].Edges[0].Saddle.Circle.R, r)
		}
		r = bs[0].Edges[0].Saddle.Circle.R // a gap of next to nothing is none
		area, wrap := segment(r, depth)
		for _, b := range bs {
			s := b.Edges[0].Saddle
			if d := b.Outline.Area() - (400*300 - area); math.Abs(d) > num.Coincident*b.Outline.Perimeter() {
				t.Fatalf("area is off by %g", d)
			}
			if math.Abs(s.Wrap-wrap)*r > 2*num.Coincident {
				t.Fatalf("wrap %g, want %g", s.Wrap, wrap)
			}
			length := 0.0
			for k, i := range b.Edges[0].Segs {
				g := b.Outline[i]
				length += g.Length()
				if g.Circle() != s.Circle || k > 0 && b.Outline[b.Edges[0].Segs[k-1]].B != g.A {
					t.Fatalf("%s hand: segments %v of %s", b.Hand, b.Edges[0].Segs, b.Outline)
				}
			}
			if math.Abs(length-wrap*r) > 2*num.Coincident {
				t.Fatalf("%s hand: length %g, want %g", b.Hand, length, wrap*r)
			}
		}
		if a, m := bs[0].Edges[0].Saddle.Circle.C, bs[1].Edges[0].Saddle.Circle.C; m.X != -a.X || m.Y != a.Y {
			t.Fatalf("the tube is at %v, mirrored at %v", a, m)
		}
	})
}
