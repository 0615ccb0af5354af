package drawing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/drawing"
	"blankwright/flat/geom"
)

// TestMarksOnMetal keeps of the marks what lies on metal, and says what it cut.
func TestMarksOnMetal(t *testing.T) {
	s := &sheet{}
	s.loop("0", rectangle(0, 0, 100, 80))
	s.circle("0", pt(30, 30), 10)
	s.loop("0", rectangle(200, 0, 100, 80))
	s.line("MARKS", pt(10, 70), pt(60, 70))                               // on metal
	s.line("MARKS", pt(50, 40), pt(250, 40))                              // from one part to the next
	s.line("MARKS", pt(10, 30), pt(60, 30))                               // over a hole
	s.line("MARKS", pt(10, -20), pt(20, -20))                             // beside the parts
	s.line("MARKS", pt(0, 10), pt(0, 20))                                 // along an edge
	s.line("MARKS", pt(70, 0), pt(70, 80))                                // from edge to edge
	s.joined("MARKS", geom.CircleLoop(geom.Circle{C: pt(100, 20), R: 5})) // half of it off
	m := drawing.Mend(drawing.Assemble(s.read(t), 0))
	require.Len(t, m.Regions, 2)
	require.Len(t, m.On, 2)
	length := func(ps []drawing.Path) (n float64) {
		for _, p := range ps {
			for i, g := range p.Segs {
				n += g.Length()
				if i > 0 {
					assert.InDelta(t, 0, p.Segs[i-1].B.Dist(g.A), 1e-9)
				}
			}
		}
		return n
	}
	const half = 3.141592653589793 * 5
	assert.InDelta(t, 50+50+10+20+80+half, length(m.On[0]), 1e-6)
	assert.InDelta(t, 50, length(m.On[1]), 1e-6)
	var got []string
	for _, c := range m.Changes {
		got = append(got, c.Message)
	}
	assert.Equal(t, []string{
		"cut a mark that begins at 50, 40 to what lies on metal",
		"cut a mark that begins at 10, 30 to what lies on metal",
		"left out a mark that begins at 10, -20: it does not lie on metal",
		"left out a mark that begins at 0, 10: it does not lie on metal",
		"cut a mark that begins at 105, 20 to what lies on metal",
	}, got)
	assert.Len(t, m.Marks, 7)
}

// TestTooWide leaves out what would reach too far once its lower left is 0, 0.
func TestTooWide(t *testing.T) {
	s := &sheet{}
	s.loop("0", rectangle(-60000, 0, 120000, 50))
	s.loop("0", rectangle(-60000, 100, 90000, 50))
	m := drawing.Mend(drawing.Assemble(s.read(t), 0))
	require.Len(t, m.Regions, 1)
	assert.InDelta(t, 90000, m.Regions[0].Bounds().Width(), 1e-6)
	require.NotEmpty(t, m.Left)
	assert.Contains(t, m.Left[len(m.Left)-1].Message, "more than 100000 mm wide or high")
}
