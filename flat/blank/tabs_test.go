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

// bite is what a dog-bone of radius r takes out of a square corner: two caps of a
// quarter turn each.
func bite(r float64) float64 { return r * r * (math.Pi/2 - 1) }

// Tabs add their area and lose their reliefs; the edge between them stays.
func TestTabs(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       float64
		segs       int // of the outline
	}{
		{"dog-bones of a kerf", "tabs:\n  - {at: [0, -30], width: 30}\n", 6000 + 30*6 - 2*bite(1.5), 4 + 4 + 2},
		{"own radius", "tabs:\n  - {at: [0, -30], width: 30, relief radius: 2}\n", 6000 + 30*6 - 2*bite(2), 4 + 4 + 2},
		{"notches", "tabs:\n  - {at: [0, -30], width: 30, relief: notch}\n", 6000 + 30*6 - math.Pi*1.5*1.5, 4 + 4 + 2},
		{"no relief", "tabs:\n  - {at: [0, -30], width: 30, relief: none}\n", 6000 + 30*6, 4 + 4},
		{"height", "tabs:\n  - {at: [0, -30], width: 30, height: 8, relief: none}\n", 6000 + 30*8, 4 + 4},
		{"into", "tabs:\n  - {at: [0, -30], width: 30, into: 10, relief: none}\n", 6000 + 30*10, 4 + 4},
		{"other edges", "tabs:\n  - {at: [50, 5], width: 20, relief: none}\n  - {at: [3, 30], width: 20, relief: none}\n  - {at: [-50, 0], width: 20, relief: none}\n", 6000 + 3*20*6, 4 + 3*4},
		{"beside the edge by what people write", "tabs:\n  - {at: [0, -29.99], width: 30, relief: none}\n", 6000 + 30*6, 4 + 4},
		{"at the end of its edge", "tabs:\n  - {at: [35, -30], width: 30}\n", 6000 + 30*6 - bite(1.5), 4 + 2 + 1},
		{"the whole edge", "tabs:\n  - {at: [0, -30], width: 100}\n", 6000 + 600, 4},
		{"on an edge that a cutout left", "cutouts:\n  - rectangle: {at: [0, -30], width: 60, height: 20}\ntabs:\n  - {at: [0, -20], width: 30, relief: none}\n", 6000 - 600 + 30*6, 8 + 4},
		{"narrow shoulder between two", "tabs:\n  - {at: [-20, -30], width: 30}\n  - {at: [18, -30], width: 40}\n",
			6000 + 70*6 - 2*bite(1.5) - 2*bite(0.75*1.5/math.Sqrt2), 4 + 8 + 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := described(t, rectangle+c.text)
			near(t, "area", b.Outline.Area(), c.want, 1e-8)
			if len(b.Outline) != c.segs {
				t.Errorf("the outline has %d edges, want %d: %s", len(b.Outline), c.segs, b.Outline)
			}
			for i := range b.Edges {
				if e := &b.Edges[i]; e.Role != TabEdge || len(e.Segs) < 2 && c.name != "the whole edge" {
					t.Errorf("edge %+v", e)
				}
			}
		})
	}
}

// A tab is three edges of the outline, up, along and down, and is found again on
// the mirrored hand.
func TestTabEdges(t *testing.T) {
	p, err := describe.Parse("part.yaml", []byte(head+"hand: pair\nquantity: 2\n"+rectangle+
		"tabs:\n  - {name: left, at: [-30, -30], width: 20}\n  - {at: [50, 10], width: 20, relief: notch}\n"))
	if err != nil {
		t.Fatal(err)
	}
	bs, err := Make(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range bs {
		checkSound(t, b)
		for i, name := range []string{"left", "tab-2"} {
			e := b.Edges[i]
			if e.Name != name || len(e.Segs) != 3 {
				t.Fatalf("%s: edge %+v", b.Hand, e)
			}
			for k := 1; k < 3; k++ {
				if s, u := b.Outline[e.Segs[k-1]], b.Outline[e.Segs[k]]; s.B != u.A || s.DirB().Cross(u.DirA()) < 0.999 {
					t.Errorf("%s: %s and %s are no corner of tab %q", b.Hand, s, u, e.Name)
				}
			}
			near(t, "end", b.Outline[e.Segs[1]].Length(), 20, 1e-9)
		}
	}
}

// A tab on a round edge, and one that points askew.
func TestTabsByAngle(t *testing.T) {
	b := described(t, "outline: {disc: {diameter: 100}}\ntabs:\n  - {at: [0, 50], width: 20, height: 6, angle: 90 deg, relief: none}\n")
	near(t, "on a disc", b.Outline.Area(), math.Pi*2500+tabOnDisc(50, 10, 6), 1e-8)
	b = described(t, "outline: {disc: {diameter: 100}}\ntabs:\n  - {at: [0, 50], width: 20, height: 6, angle: 90 deg}\n")
	theta := math.Pi/2 - math.Asin(10.0/50) // of each cap, but for the curve of the edge
	want := 2 * 1.5 * 1.5 * (theta - math.Sin(theta))
	if got := tabOnDisc(50, 10, 6) + math.Pi*2500 - b.Outline.Area(); math.Abs(got-want) > 0.05*want {
		t.Errorf("the reliefs take %g", got)
	}
	b = described(t, rectangle+"tabs:\n  - {at: [0, -30], width: 20, height: 10, angle: -60 deg, relief: none}\n")
	near(t, "askew", b.Outline.Area(), 6000+20*10, 1e-8)
	b = described(t, rectangle+"tabs:\n  - {at: [0, -30], width: 20, height: 14, angle: -60 deg}\n")
	if n := arcsOf(b.Outline); n != 2 {
		t.Errorf("a tab askew has %d reliefs", n)
	}
}

// tabOnDisc is what a tab of half the width w and a height h over the top of a
// disc of radius r adds to it.
func tabOnDisc(r, w, h float64) float64 {
	top := w*math.Sqrt(r*r-w*w) + r*r*math.Asin(w/r) // under the arc, from -w to w
	return 2*w*(r+h) - top
}

// arcsOf counts the arcs of a loop, those that go on in one circle once.
func arcsOf(l geom.Loop) int {
	n := 0
	for i, s := range l {
		if s.IsArc() && l[(i+len(l)-1)%len(l)].Circle() != s.Circle() {
			n++
		}
	}
	return n
}

func TestTabProblems(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"off the edge", "tabs:\n  - {name: left, at: [0, -31], width: 30}\n  - {at: [0, 0], width: 30}\n",
			"3: the root of tab \"left\" lies 1.00 mm from the nearest edge that it could stand on | write at: [0.00 mm, -30.00 mm]\n" +
				"4: the root of tab \"tab-2\" lies 30.00 mm from the nearest edge that it could stand on | write at: [0.00 mm, -30.00 mm]"},
		{"past the end", "tabs:\n  - {at: [40, -30], width: 30}\n",
			"3: the root of tab \"tab-1\", 30.00 mm wide, runs past the end of its edge at x 55.00 mm, y -30.00 mm | make it narrower, or move it along the edge"},
		{"into the plate", "cutouts:\n  - rectangle: {at: [45, -22], width: 30, height: 6}\ntabs:\n  - {at: [40, -25], width: 10}\n",
			"5: tab \"tab-1\" runs into the plate at x 45.00 mm, y -19.00 mm | make it shorter or move it"},
		{"one corner into the plate", "cutouts:\n  - rectangle: {at: [45, -22], width: 30, height: 6}\ntabs:\n  - {at: [40, -25], width: 18, height: 5}\n  - {at: [33, -25], width: 10, height: 5}\n",
			"6: tab \"tab-2\" runs into the plate at x 30.00 mm, y -20.00 mm | make it shorter or move it"},
		{"each other", "tabs:\n  - {at: [0, -30], width: 30}\n  - {at: [25, -30], width: 30}\n", "4: tab \"tab-2\" runs into tab \"tab-1\" | move them apart, or make one of them of both"},
		{"no metal behind", "cutouts:\n  - disc: {at: [0, -26], diameter: 4}\ntabs:\n  - {at: [0, -30], width: 30}\n",
			"5: tab \"tab-1\" has less than half the plate's thickness of metal behind its root, at x -1.73 mm, y -27.00 mm | leave more metal behind it"},
		{"points inwards", "tabs:\n  - {at: [0, -30], width: 30, angle: 0 deg}\n",
			"3: tab \"tab-1\" points 0 deg, more than 60 deg away from straight out of its edge | straight out from the edge is -90 deg"},
		{"relief too large", "tabs:\n  - {at: [0, -30], width: 30, height: 2, relief radius: 2}\n", "3: a relief of radius 2.00 mm does not fit tab \"tab-1\" | make it 1.41 mm or less"},
		{"no room for a relief", "tabs:\n  - {at: [0, -30], width: 30, height: 1}\n",
			"3: tab \"tab-1\" has no room for a relief: radius 0.71 mm at most, and the kerf of air plasma needs 0.75 mm | make it larger, leave more room beside it, or write relief: none and file the corners out"},
		{"notch askew", "tabs:\n  - {at: [0, -30], width: 20, height: 14, angle: -60 deg, relief: notch}\n",
			"3: tab \"tab-1\" is not square to its edge, and a notch needs that | write relief: dog-bone, or leave angle out"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := said(t, rectangle+c.text)
			if got != c.want {
				t.Errorf("said\n%s\nwant\n%s", got, c.want)
			}
		})
	}
	if got := said(t, "outline: {disc: {diameter: 100}}\ntabs:\n  - {at: [0, 50], width: 20}\n"); got != "3: tab \"tab-1\" has no straight edge to stand on | give the direction that it points in: angle" {
		t.Error(got)
	}
}

// The slot of 1/4 in plate on plasma: 6.35 mm and 0.8 mm make 7.15 mm; as long as
// the tab and as much more. Areas with reliefs by closed forms.
func TestTabSlots(t *testing.T) {
	for _, c := range []struct {
		name, text    string
		width, length float64
		relief        float64 // area of the reliefs
		segs          int
	}{
		{"plasma", "{at: [0, 0], tab: 30, thickness: 6.35}", 7.15, 30.8, 4 * bite(1.5), 8},
		{"own allowance", "{at: [0, 0], tab: 30, thickness: 6.35, allowance: 0.4}", 6.75, 30.4, 4 * bite(1.5), 8},
		{"none at all", "{at: [0, 0], tab: 30, thickness: 6.35, allowance: 0, relief: none}", 6.35, 30, 0, 4},
		{"turned", "{at: [7, -3], angle: 30 deg, tab: 30, thickness: 6.35}", 7.15, 30.8, 4 * bite(1.5), 8},
		{"notches", "{at: [0, 0], angle: 90 deg, tab: 30, thickness: 6.35, relief: notch}", 7.15, 30.8, 2 * math.Pi * 7.15 * 7.15 / 16 * 9 / 16, 8},
		{"own radius", "{at: [0, 0], tab: 30, thickness: 6.35, relief radius: 1}", 7.15, 30.8, 4 * bite(1), 8},
		{"thin: less than a kerf", "{at: [0, 0], tab: 30, thickness: 3}", 3.8, 30.8, 4 * bite(0.75*3.8/(2*math.Sqrt2)), 8},
		{"as large as fits", "{at: [0, 0], tab: 30, thickness: 3.2, allowance: 0.8, relief: notch, relief radius: 1}", 4, 30.8, 2 * math.Pi, 6},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := described(t, rectangle+"tab slots:\n  - "+c.text+"\n")
			k := b.Cutouts[0]
			if k.Purpose != TabSlotOpening || k.Slot == nil || k.Name != "tab-slot-1" || k.Purpose.String() != "tab slot" {
				t.Fatalf("%+v", k)
			}
			near(t, "width", k.Slot.Width, c.width, 1e-12)
			near(t, "length", k.Slot.Length, c.length, 1e-12)
			near(t, "area", k.Loop.Area(), c.width*c.length+c.relief, 1e-9)
			if len(k.Loop) != c.segs {
				t.Errorf("%d edges, want %d: %s", len(k.Loop), c.segs, k.Loop)
			}
			nearPoint(t, "middle", k.Loop.Centroid(), [2]float64{k.Slot.Centre.X, k.Slot.Centre.Y}, 1e-9)
			if len(b.Notes) != 1 || strings.Contains(b.Notes[0], "common practice") == strings.Contains(c.text, "allowance") {
				t.Errorf("notes %q", b.Notes)
			}
		})
	}
}

func TestTabSlotProblems(t *testing.T) {
	for text, want := range map[string]string{
		"{at: [0, 0], tab: 30, thickness: 6, relief radius: 3}":                "3: a relief of radius 3.00 mm does not fit tab slot \"tab-slot-1\" | make it 2.40 mm or less",
		"{at: [0, 0], tab: 30, thickness: 6, relief: notch, relief radius: 2}": "3: a relief of radius 2.00 mm does not fit tab slot \"tab-slot-1\" | make it 1.70 mm or less",
		"{at: [0, 0], tab: 30, thickness: 1}":                                  "3: tab slot \"tab-slot-1\" has no room for a relief: radius 0.64 mm at most, and the kerf of air plasma needs 0.75 mm | make it larger, leave more room beside it, or write relief: none and file the corners out",
		"{name: x, at: [30000, 0], tab: 30, thickness: 6, angle: 90 deg}":      "3: the centre of the tab slot is out of reach: wanted no more than 20000.00 mm | check the units: a bare number takes those of the file",
	} {
		if got := said(t, rectangle+"tab slots:\n  - "+text+"\n"); got != want {
			t.Errorf("%s: said\n%s\nwant\n%s", text, got, want)
		}
	}
}

// A slot that takes a tab: the tab's section, laid into the slot, leaves the
// allowance on every side, reliefs or not; moved, mirrored and loosened slots are
// the same slot elsewhere, turned over and wider.
func TestTabSlotProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tab := rapid.Float64Range(8, 60).Draw(t, "tab")
		thick := rapid.Float64Range(3, 20).Draw(t, "thickness")
		allow := rapid.Float64Range(0.1, 2).Draw(t, "allowance")
		a := rapid.Float64Range(-360, 360).Draw(t, "angle")
		kind := rapid.SampledFrom([]string{"dog-bone", "notch", "none"}).Draw(t, "relief")
		p := plate(big())
		p.TabSlots = []describe.TabSlot{{Pos: at(50), At: xy(10, -20), Angle: deg(a), Tab: mm(tab), Thickness: mm(thick), Allowance: mm(allow), Relief: describe.Relief{Kind: word(kind)}}}
		bs, err := Make(p)
		if err != nil {
			t.Fatal(err)
		}
		c := bs[0].Cutouts[0]
		if err := c.Loop.Validate(); err != nil {
			t.Fatal(err)
		}
		u := direction(a * math.Pi / 180)
		v := u.Perp()
		section := func(x, y float64) geom.Point {
			return geom.Point{X: 10, Y: -20}.Add(u.Mul(x * tab / 2)).Add(v.Mul(y * thick / 2))
		}
		inside := geom.Polygon(section(-1, -1), section(1, -1), section(1, 1), section(-1, 1))
		n := geom.LoopLoop(inside, c.Loop)
		if c.Loop.Contains(section(0, 0)) != geom.Inside || math.Abs(n.D-allow/2) > 1e-9 {
			t.Fatalf("the tab has %g round it, want %g", n.D, allow/2)
		}
		if got := c.Slot.Clearance(); math.Abs(got-allow) > 1e-9 {
			t.Fatalf("clearance %g, want %g", got, allow)
		}
		wide := c.Loosened(allow + 1)
		if math.Abs(geom.LoopLoop(inside, wide.Loop).D-(allow+1)/2) > 1e-9 {
			t.Fatalf("loosened, the tab has %g round it", geom.LoopLoop(inside, wide.Loop).D)
		}
		m := c.mirrored()
		if want := c.Loop.Transform(geom.MirrorY()); math.Abs(m.Loop.Area()-want.Area()) > 1e-9 || m.Loosened(allow).Loop.Centroid().Dist(want.Centroid()) > 1e-9 {
			t.Fatal("the mirrored slot lies elsewhere")
		}
		if both, err := geom.SymmetricDifference([]geom.Region{{Outer: m.Loosened(allow).Loop}}, []geom.Region{{Outer: m.Loop}}); err != nil || total(both) > num.Coincident*c.Loop.Perimeter() {
			t.Fatalf("made anew the mirrored slot differs by %g: %v", total(both), err)
		}
		far := c.Moved(geom.Point{X: 5, Y: 6})
		if far.Loop.Centroid().Dist(c.Loop.Centroid().Add(geom.Point{X: 5, Y: 6})) > 1e-9 || far.Slot.Centre != (geom.Point{X: 15, Y: -14}) {
			t.Fatal("the slot was moved elsewhere")
		}
	})
}

func total(rs []geom.Region) float64 {
	sum := 0.0
	for i := range rs {
		sum += rs[i].Area()
	}
	return sum
}
