package drawing_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/drawing"
	"blankwright/flat/geom"
)

// mended reads, assembles and mends a sheet that holds one part.
func mended(t *testing.T, s *sheet, tol float64) (*drawing.Mended, geom.Region) {
	t.Helper()
	m := drawing.Mend(drawing.Assemble(s.read(t), tol))
	require.Len(t, m.Regions, 1, "%v", m.Left)
	require.NoError(t, m.Regions[0].Validate())
	return m, m.Regions[0]
}

func messages(cs []drawing.Change) string {
	var out []string
	for _, c := range cs {
		out = append(out, c.Message)
	}
	return strings.Join(out, "\n")
}

// chords is a circle cut into n chords, the corners on it but for what off says.
func chords(c geom.Circle, n int, off func(i int) float64) geom.Loop {
	var ps []geom.Point
	for i := range n {
		r := c.R
		if off != nil {
			r += off(i)
		}
		ps = append(ps, c.C.Polar(r, float64(i)*2*math.Pi/float64(n)))
	}
	return geom.Polygon(ps...)
}

func TestCirclesRecognised(t *testing.T) {
	c := geom.Circle{C: pt(50, 40), R: 12.5}
	at := func(deg float64) geom.Point { return c.C.Polar(c.R, deg*math.Pi/180) }
	arcs := func(degs ...float64) geom.Loop {
		var l geom.Loop
		for i, d := range degs {
			l = append(l, geom.Arc(c, at(d), at(degs[(i+1)%len(degs)]), true))
		}
		return l
	}
	for _, x := range []struct {
		why  string
		l    geom.Loop
		want bool
		text string
	}{
		{"two arcs", arcs(90, 270), true, ""}, // half arcs: nothing to tell but where they begin
		{"two uneven arcs", append(arcs(0, 100, 200)[:2], geom.Arc(c, at(200), at(0), true)), true, "out of 3 arcs"},
		{"four arcs", arcs(10, 80, 170, 280), true, "out of 4 arcs"},
		{"64 chords", chords(c, 64, nil), true, "out of 64 equal chords"},
		{"16 chords", chords(c, 16, nil), true, "out of 16 equal chords"},
		{"12 chords", chords(c, 12, nil), false, ""},
		{"6 sides", chords(c, 6, nil), false, ""},
		{"chords of coarse numbers", chords(c, 36, func(i int) float64 { return 0.0004 * math.Sin(float64(i)) }), true, "36 equal chords"},
		{"a wavy wheel", chords(c, 36, func(i int) float64 { return 0.05 * float64(i%2) }), false, ""},
		{"a star run round twice", nil, false, ""},
		{"uneven chords", append(chords(c, 40, nil)[1:], geom.Line(at(0), at(4.5)), geom.Line(at(4.5), at(9))), false, ""},
	} {
		if x.l == nil {
			continue
		}
		t.Run(x.why, func(t *testing.T) {
			s := &sheet{}
			s.loop("0", rectangle(0, 0, 100, 80))
			for _, g := range x.l {
				s.seg("0", g)
			}
			m, r := mended(t, s, 0)
			require.Len(t, r.Holes, 1)
			got, ok := r.Holes[0].Circle()
			assert.Equal(t, x.want, ok)
			assert.Contains(t, messages(m.Changes), x.text)
			if !x.want {
				assert.Empty(t, m.Changes)
				return
			}
			assert.InDelta(t, 0, got.C.Dist(c.C), 1e-3)
			assert.InDelta(t, c.R, got.R, 1e-3)
			if x.text != "" {
				assert.Contains(t, messages(m.Changes), "made one circle of diameter 25")
				assert.Contains(t, messages(m.Changes), "at 50, 40")
			}
		})
	}
}

// TestUnlikeArcs makes one circle of two halves that do not quite agree, and
// says by how much.
func TestUnlikeArcs(t *testing.T) {
	s := &sheet{}
	s.loop("0", rectangle(0, 0, 100, 80))
	s.joined("0", geom.Loop{
		geom.BulgeSeg(pt(40, 40), pt(60, 40), 1.0), geom.BulgeSeg(pt(60, 40), pt(40, 40), 0.998),
	})
	m, r := mended(t, s, 0)
	c, ok := r.Holes[0].Circle()
	require.True(t, ok)
	assert.InDelta(t, 10, c.R, 0.02)
	assert.Contains(t, messages(m.Changes), "out of 2 arcs, whose ends lie within ")
}

// TestMerge takes corners out of straight lines and of arcs, keeps real corners,
// and begins where the drawing began.
func TestMerge(t *testing.T) {
	s := &sheet{}
	p := pt(0, 0)
	for _, q := range []geom.Point{pt(10, 0), pt(30, 0.00001), pt(100, 0), pt(100, 60), pt(50, 60), pt(0, 60), pt(0, 30), pt(0, 0)} {
		s.line("0", p, q)
		p = q
	}
	m, r := mended(t, s, 0)
	assert.Equal(t, rectangle(0, 0, 100, 60), r.Outer)
	assert.Contains(t, messages(m.Changes), "took 4 corners out of straight lines and arcs of the outline that begins at 0, 0, the first at 10, 0")

	// Across the start, and arcs.
	s = &sheet{}
	c := geom.Circle{C: pt(90, 30), R: 30}
	s.line("0", pt(40, 0), pt(90, 0))
	for _, d := range []float64{-90, -60, -20, 30, 60} {
		to := map[float64]float64{-90: -60, -60: -20, -20: 30, 30: 60, 60: 90}[d]
		s.arc("0", c, c.C.Polar(30, d*math.Pi/180), c.C.Polar(30, to*math.Pi/180), true)
	}
	s.line("0", pt(90, 60), pt(0, 60))
	s.line("0", pt(0, 60), pt(0, 0))
	s.line("0", pt(0, 0), pt(40, 0))
	_, r = mended(t, s, 0)
	require.Len(t, r.Outer, 4)
	assert.InDelta(t, 0, r.Outer[0].A.Dist(pt(0, 0)), 1e-9)
	assert.InDelta(t, 30, r.Outer[1].Circle().R, 1e-9)

	// Corners that lean by more than the allowance stay.
	s = &sheet{}
	s.joined("0", geom.Polygon(pt(0, 0), pt(50, 0.001), pt(100, 0), pt(100, 60), pt(0, 60)))
	m, r = mended(t, s, 0)
	assert.Len(t, r.Outer, 5)
	assert.Empty(t, m.Changes)
}

// TestMergeDoesNotDrift keeps a flat arc of many chords: none of its corners lies
// farther from the mended outline than the allowance.
func TestMergeDoesNotDrift(t *testing.T) {
	var ps []geom.Point
	c := geom.Circle{C: pt(0, -50_000), R: 50_000}
	for i := range 2001 {
		ps = append(ps, c.C.Polar(c.R, math.Pi/2+0.01-float64(i)*1e-5))
	}
	l := geom.Polygon(append(ps, pt(0, -300))...)
	s := &sheet{}
	s.joined("0", l)
	_, r := mended(t, s, 0)
	assert.Less(t, len(r.Outer), 2001)
	assert.Greater(t, len(r.Outer), 50)
	for _, p := range ps {
		assert.LessOrEqual(t, geom.PointLoop(p, r.Outer).D, 1.01e-4)
	}
}

// TestArcsStayTrue closes gaps at fillets: the line's end comes to the arc's, and
// the arc keeps its circle; two arcs are refitted through the new ends and the
// new radius is told.
func TestArcsStayTrue(t *testing.T) {
	s := &sheet{}
	l := cradle()
	for i, g := range l {
		if i == 0 {
			g = geom.Line(g.A, g.B.Add(pt(-0.02, 0.01))) // tangent to the fillet
		}
		s.seg("0", g)
	}
	m, r := mended(t, s, 0)
	require.Len(t, m.Changes, 1)
	assert.Contains(t, m.Changes[0].Message, "by moving the end of the line to that of the arc")
	for i, g := range r.Outer {
		assert.InDelta(t, l[i].Circle().R, g.Circle().R, 1e-9)
		assert.InDelta(t, 0, l[i].Circle().C.Dist(g.Circle().C), 1e-9)
	}

	// Two arcs that meet smoothly, one of them short of the other.
	s = &sheet{}
	a, b := geom.Circle{C: pt(30, 30), R: 30}, geom.Circle{C: pt(90, 30), R: 30}
	s.arc("0", a, pt(30, 0), a.C.Polar(30, -0.001), true)
	s.arc("0", b, pt(60, 30), pt(90, 60), false)
	s.line("0", pt(90, 60), pt(90, 90))
	s.line("0", pt(90, 90), pt(0, 90))
	s.line("0", pt(0, 90), pt(0, 0))
	s.line("0", pt(0, 0), pt(30, 0))
	m, _ = mended(t, s, 0)
	assert.Regexp(t, `closed a gap of 0\.03 mm at 60, 29\.985 by moving both ends to the middle; the radius of an arc went from 30 mm to (29|30)\.\d+ mm`,
		messages(m.Changes))
}

// TestRunOnToCrossing closes a corner by running both lines on.
func TestRunOnToCrossing(t *testing.T) {
	s := &sheet{}
	s.line("0", pt(0, 0), pt(99.97, 0))
	s.line("0", pt(100, 0.02), pt(100, 60))
	s.line("0", pt(100, 60), pt(0, 60))
	s.line("0", pt(0, 60), pt(0, 0))
	m, r := mended(t, s, 0)
	assert.Contains(t, messages(m.Changes), "by running both on, or back, to where they cross")
	assert.Equal(t, rectangle(0, 0, 100, 60), r.Outer)
}

// TestLeftOut keeps sound outlines beside those that cannot be mended.
func TestLeftOut(t *testing.T) {
	s := &sheet{}
	s.loop("0", rectangle(0, 0, 40, 40))
	s.joined("0", geom.Polygon(pt(100, 0), pt(140, 40), pt(140, 0), pt(100, 40))) // a bow
	s.loop("0", rectangle(200, 0, 40, 40))
	s.circle("0", pt(240, 20), 5) // across its edge
	s.loop("0", rectangle(300, 0, 40, 40))
	s.circle("0", pt(320, 20), 5)
	m := drawing.Mend(drawing.Assemble(s.read(t), 0))
	require.Len(t, m.Regions, 2)
	assert.Equal(t, 1600.0, m.Regions[0].Area())
	assert.InDelta(t, 1600-25*math.Pi, m.Regions[1].Area(), 1e-9)
	var left []string
	for _, f := range m.Left {
		left = append(left, f.Message)
	}
	text := strings.Join(left, "\n")
	assert.Contains(t, text, "two segments of one LWPOLYLINE cross at 120, 20")
	assert.Contains(t, text, "the outline that begins at 200, 0 is left out: ")
	assert.Contains(t, text, "LINE and CIRCLE cross at 240, 25")
}

// TestNothingToMend changes nothing in a sound drawing.
func TestNothingToMend(t *testing.T) {
	s := &sheet{}
	s.loop("0", cradle())
	s.circle("0", pt(12, 38), 6.75)
	m, r := mended(t, s, 0)
	assert.Empty(t, m.Changes)
	assert.Empty(t, m.Left)
	for i, g := range cradle() {
		assert.InDelta(t, 0, g.A.Dist(r.Outer[i].A), 1e-9)
		assert.InDelta(t, g.Bulge, r.Outer[i].Bulge, 1e-9)
	}
	c, ok := r.Holes[0].Circle()
	assert.True(t, ok)
	assert.Equal(t, geom.Circle{C: pt(12, 38), R: 6.75}, c)
}

// TestEllipseChange says that a curve was turned into arcs, how many and how
// near.
func TestEllipseChange(t *testing.T) {
	s := &sheet{}
	s.add("ELLIPSE", "0", 10, 50.0, 20, 50.0, 11, 40.0, 40, 0.5)
	m, r := mended(t, s, 0)
	assert.InDelta(t, math.Pi*40*20, r.Area(), 0.01*r.Perimeter())
	assert.Regexp(t, `^turned the ELLIPSE at [0-9., ]+ into \d+ lines and arcs, which stay within 0\.00\d+ mm of it$`, messages(m.Changes))
}

// TestTinyStays leaves tiny segments that are wider than the tolerance, or that
// follow each other, and says so.
func TestTinyStays(t *testing.T) {
	s := &sheet{}
	s.joined("0", geom.Polygon(pt(0, 0), pt(100, 0), pt(100.03, 0.03), pt(100, 60), pt(0, 60)))
	m, r := mended(t, s, 0.01)
	assert.Len(t, r.Outer, 5)
	require.Len(t, m.Left, 1)
	assert.Equal(t, drawing.Tiny, m.Left[0].Kind)
	assert.Contains(t, m.Left[0].Message, "segment of only 0.0424 mm at 100.015, 0.015 stays")

	s = &sheet{}
	s.joined("0", geom.Polygon(pt(0, 0), pt(100, 0), pt(100.02, 0.01), pt(99.99, 0.04), pt(100, 60), pt(0, 60)))
	m, r = mended(t, s, 0)
	assert.Len(t, r.Outer, 6)
	assert.Len(t, m.Left, 2)
}

// TestManyChanges tells of so many changes and no more.
func TestManyChanges(t *testing.T) {
	s := &sheet{}
	s.loop("0", rectangle(0, 0, 100, 60))
	for i := range 200 {
		s.line("0", pt(float64(i), 5), pt(float64(i), 5))
	}
	for i := range 40 {
		s.joined("0", chords(geom.Circle{C: pt(2+float64(i)*2, 30), R: 0.8}, 16, nil))
	}
	d, err := drawing.Read("d.dxf", s.text(), drawing.Options{Limits: drawing.Limits{Faults: 15}})
	require.NoError(t, err)
	m := drawing.Mend(drawing.Assemble(d, 0))
	assert.Len(t, m.Changes, 151)
	assert.Equal(t, "and 90 more changes", m.Changes[150].Message)
}
