package geom

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"blankwright/flat/num"
)

func TestLoopValidate(t *testing.T) {
	for _, c := range []struct{ what, loop, rule string }{
		{"square", "0 0; 10 0; 10 10; 0 10", ""},
		{"clockwise square", "0 10; 10 10; 10 0; 0 0", ""},
		{"triangle", "0 0; 10 0; 0 1e-3", ""},
		{"circle", "5 0 1; -5 0 1", ""},
		{"half disc", "5 0 1; -5 0", ""},
		{"thin lens", "0 0 0.001; 10 0 0.001", ""},
		{"vertex on a straight edge", "0 0; 5 0; 10 0; 10 10; 0 10", ""},
		{"quarter arcs of one circle", "5 0 0.41421356237309503; 0 5 0.41421356237309503; -5 0 0.41421356237309503; 0 -5 0.41421356237309503", ""},
		{"cusp between a line and a tangent arc", "0 0; 10 0 -0.41421356237309503; 5 5", ""},

		{"nothing", "", RuleClosed},
		{"one segment", "0 0", RuleClosed},
		{"gap", "0 0 > 10 0.001; 10 0; 10 10; 0 10", RuleClosed},
		{"gap at the end", "0 0; 10 0; 10 10 > 0 9; 0 10", RuleClosed},
		{"not a number", "0 0; NaN 0; 10 10; 0 10", RuleFinite},
		{"infinite", "0 0; 10 Inf; 10 10; 0 10", RuleFinite},
		{"bulge not a number", "0 0 NaN; 10 0; 10 10; 0 10", RuleFinite},
		{"no length", "0 0; 10 0; 10 0; 10 10; 0 10", RuleLength},
		{"no length within tolerance", "0 0; 10 0; 10 1e-8; 10 10; 0 10", RuleLength},
		{"more than half a turn", "0 0 1.5; 10 0; 10 10; 0 10", RuleArc},
		{"circle elsewhere", "0 0; 10 0 1 10 5.1 5; 10 10; 0 10", RuleArc},
		{"radius wrong", "0 0; 10 0 1 10 5 5.1; 10 10; 0 10", RuleArc},
		{"no circle", "0 0; 10 0 1 0 0 0; 10 10; 0 10", RuleArc},
		{"bulge wrong for its circle", "0 0; 10 0 0.9 10 5 5; 10 10; 0 10", RuleArc},
		{"other arc of its circle", "4 3 -0.5 0 0 5; -4 3; 0 -20", RuleArc},

		{"there and back", "0 0; 10 0", RuleSpike},
		{"arc there and back", "0 0 0.5; 10 0 -0.5", RuleSpike},
		{"spike on a corner", "0 0; 15 0; 10 0; 10 10; 0 10", RuleSpike},
		{"spike along an arc", "5 0 1; -5 0 -0.41421356237309503; 0 5; 0 20; 10 20", RuleSpike},
		{"edge runs back to the start of the one before", "0 0; 10 0; -5 0; 0 10", RuleSpike},

		{"bow tie", "0 0; 10 10; 10 0; 0 10", RuleSimple},
		{"vertex touches an edge", "0 0; 10 0; 10 10; 5 0; 0 10", RuleSimple},
		{"vertex touches a vertex", "0 0; 10 0; 5 5; 10 10; 0 10; 5 5", RuleSimple},
		{"touch within tolerance", "0 0; 10 0; 10 10; 5 5e-8; 0 10", RuleSimple},
		{"clear of a touch", "0 0; 10 0; 10 10; 5 2e-7; 0 10", ""},
		{"two edges run along each other", "0 0; 10 0; 10 10; 8 10; 8 0; 2 0; 2 10; 0 10", RuleSimple},
		{"arc dips through an edge", "0 0; 10 0; 10 4 -1; 0 4", RuleSimple},
		{"arc touches an edge", "0 0; 10 0; 10 5 -1; 0 5", RuleSimple},
		{"arc clear of an edge", "0 0; 10 0; 10 5.000001 -1; 0 5.000001", ""},
		{"neighbour ends on the one before", "0 0; 10 0 -1; 4 0; 4 -5; 0 -5", RuleSimple},
		{"neighbours cross again: line and arc", "0 0; 10 0 1; 4 -1; 4 -5", RuleSimple},
		{"neighbours cross again: line and arc, other end", "0 0; 10 0 -1; 4 0; 4 5", RuleSimple},
		{"neighbours cross again: two arcs", "0 0 1; 10 0 -0.9; 3.77 -2.7; 3 20", RuleSimple},
		{"circle run round twice", "5 0 1; -5 0 1; 5 0 1; -5 0 1", RuleSimple},
	} {
		l := parse(t, c.loop)
		for i := range max(1, len(l)) { // whichever segment comes first
			turned := append(append(Loop{}, l[i:]...), l[:i]...)
			for _, l := range []Loop{turned, turned.Reverse(), turned.Transform(MirrorX().Then(Rotate(0.3)))} {
				err := l.Validate()
				if c.rule == "" {
					require.NoError(t, err, c.what)
					continue
				}
				var ie *InvalidError
				require.ErrorAs(t, err, &ie, c.what)
				require.Equal(t, c.rule, ie.Rule, "%s: %v", c.what, err)
				require.Equal(t, l.String(), ie.Shape, c.what)
			}
		}
	}
}

// A tangent joint whose circle is off by what a drawing's decimals lose is no
// crossing.
func TestValidateTangentJoints(t *testing.T) {
	for _, decimals := range []float64{1e3, 1e4, 1e6, 1e9} {
		for a := 0.1; a < 3; a += 0.07 {
			round := func(v float64) float64 { return math.Round(v*decimals) / decimals }
			c, err := Corners([]Corner{{P: Point{0, 0}}, {P: Point{60, 0}, Radius: 7.3}, {P: Point{}.Polar(60, a)}})
			if err != nil {
				continue
			}
			l := make(Loop, len(c))
			at := func(p Point) Point { return Point{round(p.X), round(p.Y)} }
			for i, s := range c {
				l[i] = BulgeSeg(at(s.A), at(s.B), s.Bulge)
			}
			require.NoError(t, l.Validate(), "%g decimals, angle %g", decimals, a)
		}
	}
}

func TestRegionValidate(t *testing.T) {
	const plate = "0 0; 60 0; 60 40; 0 40"
	for _, c := range []struct{ what, holes, rule, says string }{
		{"one hole", "25 20 -1; 15 20 -1", "", ""},
		{"holes side by side", "25 20 -1; 15 20 -1 | 36 20 -1; 26 20 -1", "", ""},
		{"counter-clockwise hole", "25 20 1; 15 20 1", RuleTurn, "opening 1: runs counter-clockwise"},
		{"broken hole", "25 20 -1; 15 20 -1 | 30 30; 40 30; 30 35; 40 35", RuleSimple, "opening 2: segments 2 and 4"},
		{"open hole", "25 20 -1 > 15 21; 15 20 -1", RuleClosed, "opening 1: segment 1 ends 1 mm from"},
		{"hole over the edge", "65 20 -1; 55 20 -1", RuleApart, "opening 1 touches or crosses the outer loop"},
		{"hole touching the edge", "60 20 -1; 50 20 -1", RuleApart, "opening 1 touches or crosses the outer loop"},
		{"hole outside", "85 20 -1; 75 20 -1", RuleInside, "opening 1 lies outside the outer loop"},
		{"holes touching", "25 20 -1; 15 20 -1 | 35 20 -1; 25 20 -1", RuleApart, "openings 1 and 2 touch or cross"},
		{"holes crossing", "25 20 -1; 15 20 -1 | 30 20 -1; 20 20 -1", RuleApart, "openings 1 and 2 touch or cross"},
		{"hole twice", "25 20 -1; 15 20 -1 | 25 20 -1; 15 20 -1", RuleApart, "openings 1 and 2 touch or cross"},
		{"hole in a hole", "25 20 -1; 15 20 -1 | 22 20 -1; 18 20 -1", RuleNotNested, "opening 2 lies in opening 1"},
		{"hole in a hole, other order", "22 20 -1; 18 20 -1 | 25 20 -1; 15 20 -1", RuleNotNested, "opening 1 lies in opening 2"},
		{"boxes nested, holes not", "10 10; 10 30; 12 30; 12 12; 40 12; 40 10 | 30 20 -1; 20 20 -1", "", ""},
		{"hole round the plate", "-10 -10; -10 50; 70 50; 70 -10", RuleInside, "opening 1 lies outside the outer loop"},
	} {
		r := Region{Outer: parse(t, plate)}
		for h := range strings.SplitSeq(c.holes, "|") {
			r.Holes = append(r.Holes, parse(t, h))
		}
		err := r.Validate()
		if c.rule == "" {
			require.NoError(t, err, c.what)
			continue
		}
		var ie *InvalidError
		require.ErrorAs(t, err, &ie, c.what)
		require.Equal(t, c.rule, ie.Rule, "%s: %v", c.what, err)
		require.Contains(t, ie.Reason, c.says, c.what)
		require.Equal(t, r.String(), ie.Shape)
	}
	require.NoError(t, Region{}.Validate())
	err := Region{Outer: parse(t, plate).Reverse()}.Validate()
	require.ErrorContains(t, err, `rule "turn" broken at (0, 0): the outer loop runs clockwise, wanted counter-clockwise; reverse it; shape 0 0; 0 40; 60 40; 60 0`)
	require.Error(t, Region{Holes: []Loop{parse(t, "25 20 -1; 15 20 -1")}}.Validate())
}

// The message of a huge shape stays readable; the shape itself is carried.
func TestInvalidErrorOfAHugeShape(t *testing.T) {
	r := loadShape(t, "star-10k")
	l := append(Loop{}, r.Outer...)
	l[5000].B = l[5000].B.Add(Point{1, 0})
	err := l.Validate()
	var ie *InvalidError
	require.True(t, errors.As(err, &ie))
	require.Equal(t, RuleClosed, ie.Rule)
	require.Less(t, len(err.Error()), 200)
	back, perr := ParseLoop(ie.Shape)
	require.NoError(t, perr)
	require.Equal(t, l, back)
}

// Any one vertex of a big shape pulled across it is found.
func TestValidateFindsOneFault(t *testing.T) {
	for _, name := range []string{"star-10k", "comb-500", "scallop-40", "perforated-1000"} {
		r := loadShape(t, name)
		require.NoError(t, r.Validate(), name)
		for _, k := range []int{0, len(r.Outer) / 3, len(r.Outer) - 1} {
			l := append(Loop{}, r.Outer...)
			far := l[(k+len(l)/2)%len(l)].Mid()
			before := &l[(k+len(l)-1)%len(l)]
			*before = Line(before.A, far)
			l[k] = Line(far, l[k].B)
			broken := Region{l, r.Holes}
			require.Error(t, broken.Validate(), "%s %d", name, k)
		}
		if len(r.Holes) > 0 {
			h := append([]Loop{}, r.Holes...)
			d := h[701][0].A.Sub(h[700][0].A)
			h[700] = h[700].Transform(Translate(d.X, d.Y+3))
			var ie *InvalidError
			require.ErrorAs(t, Region{r.Outer, h}.Validate(), &ie)
			require.Equal(t, RuleApart, ie.Rule)
		}
	}
}

// simpleByDefinition looks at every two segments: they may meet at a joint
// alone.
func simpleByDefinition(l Loop) bool {
	for i := range l {
		for j := i + 1; j < len(l); j++ {
			m := Intersect(l[i], l[j])
			if len(m.Overlaps) > 0 {
				return false
			}
			for _, p := range m.Points {
				joint := j == i+1 && p.Dist(l[i].B) <= num.Coincident || i == 0 && j == len(l)-1 && p.Dist(l[0].A) <= num.Coincident
				if !joint {
					return false
				}
			}
		}
	}
	return true
}

// On whole-number coordinates, where touches and overlaps come often, Validate
// agrees with the definition.
func TestValidateAgainstDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 7).Draw(t, "n")
		pts := make([]Point, n)
		for i := range pts {
			pts[i] = Point{float64(rapid.IntRange(0, 6).Draw(t, "x")), float64(rapid.IntRange(0, 6).Draw(t, "y"))}
		}
		l := Polygon(pts...)
		for i, s := range l {
			if s.A == s.B {
				return
			}
			l[i] = BulgeSeg(s.A, s.B, rapid.SampledFrom([]float64{0, 0, 0, 1, -1, 1 - math.Sqrt2, 0.5}).Draw(t, "bulge"))
		}
		err := l.Validate()
		require.Equal(t, simpleByDefinition(l), err == nil, "%s: %v", l, err)
	})
}

// Whatever a loop's text says, Validate gives an answer, and a valid loop
// measures sensibly.
func FuzzValidate(f *testing.F) {
	for _, s := range []string{"0 0; 10 0; 10 10; 0 10", "5 0 1; -5 0 1", "0 0 0.5; 10 0 -0.5", "0 0; 10 0 1 10 5 5; 10 10; 0 10",
		"0 0 1e-300; 1 0; 1e9 1e9", "0 0 NaN; 1 1", "0 0 > 1 1; 1e-7 3 1 0 0 -5", "0 0; 10 0 -0.41421356237309503; 5 5"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ParseLoop(text)
		if err != nil || l.Validate() != nil {
			return
		}
		if err := l.Reverse().Validate(); err != nil {
			t.Fatalf("%s is valid, its reverse is not: %v", l, err)
		}
		b := l.Bounds()
		size := b.Width() + b.Height()
		if size > num.MaxCoordinate || max(abs(b.Min.X), abs(b.Min.Y), abs(b.Max.X), abs(b.Max.Y)) > num.MaxCoordinate {
			return // beyond what the promises are for
		}
		slack := num.Coincident * size
		if a := abs(l.Area()); a > b.Width()*b.Height()+slack {
			t.Fatalf("%s: area %v in a box %v", l, a, b)
		}
		if p := l.Perimeter(); p < size {
			t.Fatalf("%s: perimeter %v round a box %v", l, p, b)
		}
		if abs(l.Area()) > slack && !b.Grow(num.Coincident).Holds(l.Centroid()) {
			t.Fatalf("%s: centroid %v outside %v", l, l.Centroid(), b)
		}
		if l.Contains(l[0].A) != OnEdge || l.Contains(b.Max.Add(Point{1, 1})) != Outside {
			t.Fatalf("%s: sides wrong", l)
		}
	})
}
