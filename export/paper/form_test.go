package paper_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// Bend lines are drawn where they are and say which way and how far; welded
// edges have strokes beside the metal. Labels keep clear of both.
func TestBendsAndWelds(t *testing.T) {
	b := papertest.Part("hanger", unit.Millimetre, 4)
	b.Outline = papertest.Rectangle(120, 90, 6)
	papertest.Round(b, "a", -40, 0, 11, "11 mm for M10 8.8")
	papertest.Round(b, "b", 40, 0, 11, "11 mm for M10 8.8")
	o := paper.Options{
		Bends: []paper.Bend{
			{Line: geom.Line(geom.Point{X: -10, Y: -45}, geom.Point{X: -10, Y: 45}), Angle: math.Pi / 2, Radius: 5},
			{Line: geom.Line(geom.Point{X: 10, Y: -45}, geom.Point{X: 10, Y: 45}), Angle: math.Pi / 4, Down: true},
		},
		Welds: []paper.Weld{{Edge: b.Outline[1:3], Words: "3/16 in leg, both sides"}},
	}
	s := compose(t, b, nil, o)
	legible(t, s, b.Name)
	if n := len(s.Layers[paper.Bending].Segs); n != 2 {
		t.Errorf("%d bend lines, want 2", n)
	}
	all := strings.ReplaceAll(words(s), "\n", " ")
	for _, want := range []string{"bend up 90 deg, inside radius 5.00 mm", "bend down 45 deg", "weld 3/16 in leg, both sides"} {
		if !strings.Contains(all, want) {
			t.Errorf("the sheet does not say %q: %s", want, all)
		}
	}
	strokes := s.Layers[paper.Welding].Segs
	if len(strokes) < 10 {
		t.Errorf("only %d strokes along the weld", len(strokes))
	}
	for _, g := range strokes {
		for _, p := range []geom.Point{g.A, g.B} {
			if b.Outline.Contains(p.Sub(s.Offset)) != geom.Outside || geom.PointLoop(p.Sub(s.Offset), b.Outline).D > 3 {
				t.Errorf("a stroke of the weld reaches %v", p.Sub(s.Offset))
			}
		}
	}
	// Where they lie is said, in words that no label has to make room for.
	if want := "bend lines from the left: 1 50, 2 70 mm"; !strings.Contains(all, want) {
		t.Errorf("the sheet does not say %q: %s", want, all)
	}
	// On several pages too.
	b.Outline = papertest.Rectangle(420, 90, 6)
	set := print(t, b, nil, o)
	n := 0
	for _, s := range set.Pages {
		legible(t, s, s.Name)
		n += len(s.Layers[paper.Bending].Segs)
	}
	if len(set.Pages) < 3 || n < 2 {
		t.Errorf("%d pieces of bend lines on %d pages", n, len(set.Pages))
	}
}

// Words stand along a bend line that has room for them, on either side and in
// either direction; else they are led to it. Lines that lean have a note of their
// own.
func TestWordsAlongBends(t *testing.T) {
	b := papertest.Part("tray", unit.Millimetre, 3)
	b.Outline = papertest.Rectangle(160, 120, 6)
	at := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	s := compose(t, b, nil, paper.Options{Bends: []paper.Bend{
		{Name: "back", Line: geom.Line(at(70, 40), at(-70, 40)), Angle: math.Pi / 2, Radius: 3},
		{Name: "left", Line: geom.Line(at(-60, -60), at(-60, 60)), Angle: math.Pi / 2, Radius: 3},
		{Name: "ear", Line: geom.Line(at(40, -60), at(80, -20)), Angle: math.Pi / 3, Down: true},
		{Name: "lip", Line: geom.Line(at(0, -40), at(20, -40)), Angle: math.Pi / 3},
	}})
	legible(t, s, b.Name)
	found := map[string]paper.Text{}
	for _, x := range s.Layers[paper.Callouts].Texts {
		found[x.S] = x
	}
	back, left := found["back: bend up 90 deg, inside radius 3.00 mm"], found["left: bend up 90 deg, inside radius 3.00 mm"]
	if back.S == "" || back.Up || math.Abs(back.At.Y-s.Offset.Y-40) > 6 || left.S == "" || !left.Up || math.Abs(left.At.X-s.Offset.X+60) > 6 {
		t.Errorf("back %+v, left %+v", back, left)
	}
	all := strings.ReplaceAll(words(s), "\n", " ")
	for _, want := range []string{"ear: bend down 60 deg", "lip: bend up 60 deg", "bend lines from the left: left 20 mm",
		"bend lines from below: lip 20, back 100 mm", "bend line ear runs from 120, 0 to 160, 40 mm from lower left"} {
		if !strings.Contains(all, want) {
			t.Errorf("the sheet does not say %q: %s", want, all)
		}
	}
}

func TestBendsAndWeldsThatAreNoNumbers(t *testing.T) {
	b := papertest.Shim()
	nan := geom.Line(geom.Point{X: math.NaN()}, geom.Point{X: 1})
	for i, o := range []paper.Options{
		{Bends: []paper.Bend{{Line: nan}}},
		{Bends: []paper.Bend{{Line: geom.Line(geom.Point{X: 1}, geom.Point{X: 1})}}},
		{Bends: []paper.Bend{{Line: geom.Line(geom.Point{}, geom.Point{X: 1}), Angle: math.Inf(1)}}},
		{Welds: []paper.Weld{{Edge: []geom.Seg{nan}}}},
	} {
		if _, err := paper.Compose(b, nil, o); err == nil {
			t.Error(fmt.Sprint("options ", i, " were taken"))
		}
	}
}
