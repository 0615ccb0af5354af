package drawing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/diag"
	"blankwright/flat/drawing"
	"blankwright/flat/geom"
)

// TestLost tells of bare circles that would become parts of their own, and of no
// others: discs alone, rings, parts that are nested in openings.
func TestLost(t *testing.T) {
	plate := rectangle(0, 0, 100, 80)
	for why, x := range map[string]struct {
		draw func(s *sheet)
		kind string
		at   geom.Point
	}{
		"hole beside the plate": {func(s *sheet) {
			s.loop("0", plate)
			s.circle("0", pt(150, 40), 8)
		}, "outside", pt(150, 40)},
		"thread": {func(s *sheet) {
			s.loop("0", plate)
			s.circle("0", pt(50, 40), 5)
			s.circle("0", pt(50, 40), 4.2)
		}, "island", pt(50, 40)},
		"hole over an edge": {func(s *sheet) {
			s.loop("0", plate)
			s.circle("0", pt(102, 40), 8)
		}, "crossing", pt(100, 40-math.Sqrt(60))},
		"discs": {func(s *sheet) {
			s.circle("0", pt(0, 0), 30)
			s.circle("0", pt(80, 0), 30)
		}, "", pt(0, 0)},
		"ring": {func(s *sheet) {
			s.loop("0", plate)
			s.circle("0", pt(200, 40), 30)
			s.circle("0", pt(200, 40), 20)
		}, "", pt(0, 0)},
		"disc in an opening": {func(s *sheet) {
			s.loop("0", plate)
			s.loop("0", rectangle(10, 10, 60, 60))
			s.circle("0", pt(30, 30), 10)
		}, "", pt(0, 0)},
	} {
		s := &sheet{}
		x.draw(s)
		a := drawing.Assemble(s.read(t), 0)
		if x.kind == "" {
			assert.Empty(t, a.Faults, why)
			continue
		}
		if x.kind == "crossing" {
			require.Equal(t, []string{"crossing", "crossing"}, kinds(a.Faults), why)
			for _, f := range a.Faults {
				assert.InDelta(t, x.at.X, f.At.X, 1e-6, why)
				assert.InDelta(t, math.Abs(x.at.Y-40), math.Abs(f.At.Y-40), 1e-6, why)
			}
			continue
		}
		require.Equal(t, []string{x.kind}, kinds(a.Faults), why)
		assert.Equal(t, diag.Warning, a.Faults[0].Severity, why)
		assert.InDelta(t, 0, a.Faults[0].At.Dist(x.at), 1e-9, why)
		assert.Len(t, drawing.Mend(a).Left, 1, why)
	}
}

// TestNothingToCut notes what is not read though it cuts nothing, each kind once.
func TestNothingToCut(t *testing.T) {
	s := &sheet{}
	s.loop("0", rectangle(0, 0, 100, 80))
	s.add("HATCH", "0", 10, 0.0, 20, 0.0)
	s.add("DIMENSION", "0", 10, 0.0, 20, 0.0)
	s.add("DIMENSION", "0", 10, 9.0, 20, 0.0)
	s.add("VIEWPORT", "0", 67, 1)
	s.add("LINE", "0", 67, 1, 10, 0.0, 20, 0.0, 11, 9.0, 21, 0.0)
	s.add("TEXT", "0", 10, 130.0, 20, 7.0, 40, 5.0, 1, "sheet 1")
	s.add("TEXT", "0", 10, 130.0, 20, 20.0, 40, 5.0, 1, "of 2")
	a := drawing.Assemble(s.read(t), 0)
	require.Equal(t, []string{"not-cut", "not-cut", "not-cut", "not-cut"}, kinds(a.Faults))
	for i, want := range []string{"1 of the kind HATCH", "2 of the kind DIMENSION", "entities in paper space (1) are not read", "2 texts outside of all outlines, the first at 130, 7"} {
		assert.Contains(t, a.Faults[i].Message, want)
		assert.Equal(t, diag.Note, a.Faults[i].Severity)
	}
	assert.Empty(t, drawing.Mend(a).Left)
}

// TestToldOnce tells of a place once where two segments of a shape meet another
// there, and of a near double of a circle as of one.
func TestToldOnce(t *testing.T) {
	s := &sheet{}
	s.loop("0", rectangle(0, 0, 100, 80))
	s.circle("0", pt(10, 40), 10)
	a := drawing.Assemble(s.read(t), 0)
	require.Equal(t, []string{"touching"}, kinds(a.Faults))
	assert.InDelta(t, 0, a.Faults[0].At.Dist(pt(0, 40)), 1e-6)

	s = &sheet{}
	s.joined("0", rectangle(0, 0, 100, 80))
	s.joined("0", rectangle(0, 0, 100, 80))
	a = drawing.Assemble(s.read(t), 0)
	require.Equal(t, []string{"doubled"}, kinds(a.Faults))
	assert.Contains(t, a.Faults[0].Message, "LWPOLYLINE drawn twice all round from 0, 0, over 360 mm")

	// Two outlines 0.005 mm apart: no gap was drawn where the second is open
	// without the line that was taken as a double.
	s = &sheet{}
	s.joined("0", rectangle(0, 0, 100, 80))
	s.joined("0", rectangle(100.005, 0, 100, 80))
	a = drawing.Assemble(s.read(t), 0)
	require.Equal(t, []string{"near-double", "touching"}, kinds(a.Faults))
	assert.Contains(t, a.Faults[1].Message, "shares the line from 100.005, 0 to 100.005, 80 with another")

	// A circle has no ends: where an edge goes through its halves' joints, they cross.
	s = &sheet{}
	s.loop("0", rectangle(0, 0, 100, 80))
	s.circle("0", pt(50, 80), 10)
	a = drawing.Assemble(s.read(t), 0)
	require.Equal(t, []string{"crossing", "crossing"}, kinds(a.Faults))
	for _, f := range a.Faults {
		assert.InDelta(t, 80, f.At.Y, 1e-6)
		assert.InDelta(t, 10, math.Abs(f.At.X-50), 1e-6)
	}

	s = &sheet{}
	s.loop("0", rectangle(0, 0, 100, 80))
	s.circle("0", pt(50, 40), 10)
	s.circle("0", pt(50.012, 40), 10)
	a = drawing.Assemble(s.read(t), 0)
	require.Equal(t, []string{"near-double"}, kinds(a.Faults))
	assert.InDelta(t, 0.012, a.Faults[0].Size, 1e-6)
	assert.Contains(t, a.Faults[0].Message, "circle of diameter 20 mm drawn twice, 0.012 mm apart")
}

// TestScaleFactor gives a factor that no rounding spoils.
func TestScaleFactor(t *testing.T) {
	s := &sheet{header: "9\n$ACADVER\n1\nAC1015\n9\n$INSUNITS\n70\n1\n"}
	s.loop("0", rectangle(0, 0, 150, 100))
	s.circle("0", pt(30, 30), 6)
	d := s.read(t)
	require.Equal(t, []string{"unit-doubt"}, kinds(d.Faults))
	assert.Contains(t, d.Faults[0].Fix, "scale it by 1/25.4")
}
