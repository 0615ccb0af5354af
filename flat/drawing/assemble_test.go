package drawing_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/diag"
	"blankwright/flat/drawing"
	"blankwright/flat/geom"
)

func kinds(fs []drawing.Fault) []string {
	var out []string
	for _, f := range fs {
		out = append(out, f.Kind.String())
	}
	return out
}

// TestNesting finds parts in openings of parts, several parts, and who lies
// directly in whom, in whatever order they are drawn.
func TestNesting(t *testing.T) {
	loops := []geom.Loop{
		geom.CircleLoop(geom.Circle{C: pt(50, 50), R: 5}), // opening of the innermost part
		rectangle(0, 0, 100, 100),
		rectangle(200, 0, 100, 100),
		rectangle(30, 30, 40, 40), // part in the opening
		rectangle(10, 10, 80, 80), // opening
		geom.CircleLoop(geom.Circle{C: pt(220, 20), R: 5}),
		geom.CircleLoop(geom.Circle{C: pt(280, 20), R: 5}),
	}
	parents := []int{3, -1, -1, 4, 1, 2, 2}
	depths := []int{3, 0, 0, 2, 1, 1, 1}
	for shift := range loops {
		for _, mirrored := range []bool{false, true} {
			s := &sheet{}
			for i := range loops {
				l := loops[(i+shift)%len(loops)]
				if mirrored {
					l = l.Reverse()
				}
				s.loop("0", l)
			}
			a := drawing.Assemble(s.read(t), 0)
			require.Empty(t, a.Faults)
			require.Len(t, a.Contours, len(loops))
			for i, c := range a.Contours {
				k := (i + shift) % len(loops)
				assert.Equal(t, depths[k], c.Depth, "loop %d", k)
				want := parents[k]
				if want >= 0 {
					want = (want - shift + len(loops)) % len(loops)
				}
				assert.Equal(t, want, c.Parent, "loop %d", k)
				assert.Equal(t, c.Depth%2 == 0, c.Loop.Area() > 0)
				assert.InDelta(t, math.Abs(loops[k].Area()), math.Abs(c.Loop.Area()), 1e-9)
			}
			rs := a.Regions()
			require.Len(t, rs, 3)
			for _, r := range rs {
				assert.NoError(t, r.Validate())
			}
		}
	}
}

// TestLevelChords nests where places lie exactly on the chords of arcs and level
// with corners.
func TestLevelChords(t *testing.T) {
	s := &sheet{}
	s.circle("0", pt(0, 0), 60)
	s.circle("0", pt(0, 0), 40)
	s.circle("0", pt(0, 0), 20)
	s.circle("0", pt(50, 0), 5)
	s.circle("0", pt(-50, 0), 5)
	s.circle("0", pt(200, 0), 5)
	s.circle("0", pt(-200, 0), 5)
	s.joined("0", geom.Slot(pt(-10, 0), pt(10, 0), 6))
	s.joined("0", geom.Slot(pt(0, 80), pt(0, -80), 180)) // round all in the middle
	a := drawing.Assemble(s.read(t), 0)
	var depths []int
	for _, c := range a.Contours {
		depths = append(depths, c.Depth)
	}
	assert.Equal(t, []int{1, 2, 3, 2, 2, 0, 0, 4, 0}, depths)
}

// TestMarks parts marks from outlines: layers for marks by name or by the
// caller's word, and layers with open lines inside outlines alone.
func TestMarks(t *testing.T) {
	build := func() *sheet {
		s := &sheet{}
		s.loop("OUTLINE", rectangle(0, 0, 100, 60))
		s.line("Bend lines", pt(30, 0), pt(30, 60)) // corner to corner of the outline
		s.line("Bend lines", pt(0, 0), pt(100, 60))
		s.line("TAGS", pt(50, 10), pt(60, 10))
		s.line("TAGS", pt(55, 5), pt(55, 15)) // crosses, like a letter
		return s
	}
	d := build().read(t)
	a := drawing.Assemble(d, 0)
	require.Len(t, a.Contours, 1)
	assert.Empty(t, a.Open)
	assert.Len(t, a.Marks, 4)
	assert.Equal(t, []string{"mark"}, kinds(a.Faults))
	assert.Equal(t, diag.Note, a.Faults[0].Severity)
	m := drawing.Mend(a)
	assert.Len(t, m.Regions, 1)
	assert.Len(t, m.Marks, 4)
	assert.Empty(t, m.Left)
	assert.Empty(t, m.Changes)

	// The caller says that the layer is to be cut, and which one holds marks.
	d = build().read(t)
	for i := range d.Layers {
		d.Layers[i].Marks = d.Layers[i].Name == "TAGS"
	}
	a = drawing.Assemble(d, 0)
	assert.Contains(t, kinds(a.Faults), "touching")
	assert.Empty(t, drawing.Mend(a).Regions)
}

func TestMarkLayer(t *testing.T) {
	for name, want := range map[string]bool{
		"MARKS": true, "marks": true, "Part marking": true, "BEND_UP": true, "Fold-down": true, "ETCH2": true, "scribe": true,
		"OUTLINE": false, "0": false, "HOLES": false, "BENDIX": false, "benchmark": false, "": false,
	} {
		assert.Equal(t, want, drawing.MarkLayer(name), name)
	}
}

// TestOpenOutline makes no parts of the openings of an outline that is open.
func TestOpenOutline(t *testing.T) {
	l := rectangle(0, 0, 100, 60)
	for why, draw := range map[string]func(s *sheet){
		"a gap": func(s *sheet) {
			s.loop("0", l[:3])
			s.line("0", pt(0, 60), pt(0, 5))
		},
		"a long side missing": func(s *sheet) { s.loop("0", l[1:]) },
		"two halves": func(s *sheet) {
			s.line("0", pt(0, 2), pt(0, 60))
			s.line("0", pt(0, 60), pt(98, 60))
			s.line("0", pt(2, 0), pt(100, 0))
			s.line("0", pt(100, 0), pt(100, 58))
		},
		"a branch": func(s *sheet) {
			s.loop("0", l[:3])
			s.line("0", pt(0, 60), pt(0, 5))
			s.line("0", pt(100, 0), pt(120, -20))
		},
	} {
		t.Run(why, func(t *testing.T) {
			s := &sheet{}
			draw(s)
			s.circle("0", pt(30, 30), 8)
			s.loop("0", rectangle(200, 0, 40, 40)) // a sound part besides
			a := drawing.Assemble(s.read(t), 0)
			m := drawing.Mend(a)
			require.Len(t, m.Regions, 1)
			assert.Equal(t, 1600.0, m.Regions[0].Area())
			assert.Contains(t, kinds(m.Left), "left-out")
			assert.True(t, strings.Contains(fmt.Sprint(kinds(m.Left)), "open-gap") || strings.Contains(fmt.Sprint(kinds(m.Left)), "stray-end"))
			said := false
			for _, c := range m.Changes {
				said = said || strings.Contains(c.Message, "it lies inside an outline that is open")
			}
			assert.True(t, said)
		})
	}
}

// TestLayersJoin joins an outline whose lines lie on several layers, and keeps
// lines of other layers that only touch its corners out of it.
func TestLayersJoin(t *testing.T) {
	s := &sheet{}
	l := rectangle(0, 0, 100, 60)
	for i, g := range l {
		s.seg([]string{"A", "B"}[i%2], g)
	}
	a := drawing.Assemble(s.read(t), 0)
	assert.Empty(t, a.Faults)
	require.Len(t, a.Contours, 1)

	s = &sheet{}
	s.loop("A", l)
	s.line("B", pt(0, 0), pt(-20, -20))
	a = drawing.Assemble(s.read(t), 0)
	require.Len(t, a.Contours, 1)
	assert.Len(t, a.Contours[0].Loop, 4)
	assert.Equal(t, []string{"stray-end"}, kinds(a.Faults))
}

// TestTolerance joins on the stated tolerance and not beyond it.
func TestTolerance(t *testing.T) {
	for _, c := range []struct {
		gap, tol float64
		closed   bool
	}{
		{0.049, 0, true}, {0.051, 0, false}, {0.2, 0.25, true}, {0.3, 0.25, false}, {0.002, 0.001, false}, {0.0005, 0.001, true}, {3, 5, true},
	} {
		s := &sheet{}
		s.loop("0", rectangle(0, 0, 100, 60)[:3])
		s.line("0", pt(0, 60), pt(0, c.gap))
		a := drawing.Assemble(s.read(t), c.tol)
		require.Equal(t, []string{"open-gap"}, kinds(a.Faults), "%v", c)
		f := a.Faults[0]
		assert.InDelta(t, c.gap, f.Size, 1e-9)
		assert.Equal(t, c.closed, f.Mends)
		assert.Equal(t, c.closed, len(a.Contours) == 1)
		assert.Equal(t, map[bool]diag.Severity{true: diag.Warning, false: diag.Error}[c.closed], f.Severity)
	}
}

// TestCoarseDrawing tells of the rounding of a drawing with few decimals in one
// line.
func TestCoarseDrawing(t *testing.T) {
	s := &sheet{places: 4}
	s.loop("0", cradle().Transform(geom.Rotate(0.3)))
	s.loop("0", geom.Slot(pt(20, 20), pt(35, 28), 9).Transform(geom.Rotate(0.3)))
	a := drawing.Assemble(s.read(t), 0)
	require.Len(t, a.Contours, 2)
	require.Len(t, a.Faults, 1)
	assert.Regexp(t, `^\d+ ends miss their neighbours by up to 0\.000\d+ mm, most at `, a.Faults[0].Message)
	assert.True(t, a.Faults[0].Mends)
	m := drawing.Mend(a)
	require.Len(t, m.Regions, 1)
	for _, g := range m.Regions[0].Outer {
		if g.IsArc() {
			assert.Contains(t, []float64{10, 30.95}, math.Round(g.Circle().R*1000)/1000, "arcs stay on their circles")
		}
	}
}

// TestMessages shows the words for a metric and an inch drawing.
func TestMessages(t *testing.T) {
	inch := &sheet{header: "9\n$INSUNITS\n70\n1\n9\n$MEASUREMENT\n70\n0\n"}
	inch.loop("0", rectangle(0, 0, 5, 3)[:3])
	inch.line("0", pt(0, 3), pt(0, 0.0012))
	a := drawing.Assemble(inch.read(t), 0)
	require.Len(t, a.Faults, 1)
	assert.Equal(t, "open gap of 0.0012 in (0.0305 mm) between 0, 0 and 0, 0.0012; within the tolerance of 0.002 in (0.05 mm), so it was closed",
		a.Faults[0].Message)
	f := a.Faults[0].Finding("part.dxf")
	assert.Equal(t, "open-gap", f.Rule)
	assert.Equal(t, "part.dxf:19:1", f.Pos.String())
	assert.InDelta(t, 0.03048, f.Got, 1e-9)
	m := drawing.Mend(a)
	require.Len(t, m.Changes, 1)
	assert.Equal(t, "closed a gap of 0.0012 in (0.0305 mm) at 0, 0 by running both on, or back, to where they cross", m.Changes[0].Message)
	for _, message := range []string{a.Faults[0].Message, a.Faults[0].Fix, m.Changes[0].Message} {
		assert.NotContains(t, message, ".\n")
		assert.Equal(t, strings.ToLower(message[:1]), message[:1])
	}
}

// TestSame gives the same answer every time, and leaves its inputs as they are.
func TestSame(t *testing.T) {
	s := nestOfPlates(500, 5)
	s.loop("0", rectangle(0, 0, 5, 5))
	s.line("0", pt(1, 1), pt(300, 200))
	d := s.read(t)
	first := fmt.Sprint(d.Shapes, d.Faults)
	a := drawing.Assemble(d, 0.1)
	one := fmt.Sprint(a.Contours, a.Faults, drawing.Mend(a))
	for range 3 {
		b := drawing.Assemble(d, 0.1)
		assert.Equal(t, one, fmt.Sprint(b.Contours, b.Faults, drawing.Mend(b)))
		assert.Equal(t, one, fmt.Sprint(a.Contours, a.Faults, drawing.Mend(a)), "mending changes nothing in what it mends")
	}
	assert.Equal(t, first, fmt.Sprint(d.Shapes, d.Faults))
}

// TestTouchAcrossLayers finds outlines of two layers that share a corner.
func TestTouchAcrossLayers(t *testing.T) {
	s := &sheet{}
	s.loop("A", rectangle(0, 0, 40, 40))
	s.loop("B", rectangle(40, 40, 40, 40))
	a := drawing.Assemble(s.read(t), 0)
	assert.Len(t, a.Contours, 2)
	require.Equal(t, []string{"touching"}, kinds(a.Faults))
	assert.Equal(t, pt(40, 40), a.Faults[0].At)
	assert.Empty(t, drawing.Mend(a).Regions)
}

// TestManyCorners joins two outlines that share several corners by their places
// in the file.
func TestManyCorners(t *testing.T) {
	s := &sheet{}
	s.loop("0", geom.Polygon(pt(0, 0), pt(50, -30), pt(100, 0), pt(50, 30)))
	s.loop("0", geom.Polygon(pt(0, 0), pt(50, 60), pt(100, 0), pt(50, 90)))
	a := drawing.Assemble(s.read(t), 0)
	assert.Len(t, a.Contours, 2)
	assert.Equal(t, []string{"touching", "touching"}, kinds(a.Faults))
}
