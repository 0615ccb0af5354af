package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestTextForm(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"0 0; 10 0; 10 5", "0 0; 10 0; 10 5"},
		{"0 0 0\n10 0 0\n10 5 0\n", "0 0; 10 0; 10 5"},
		{"  5 0 1 ;\n -5 0 1;", "5 0 1; -5 0 1"},
		{"0.1 1e-7 0; 1e21 -3.5", "0.1 1e-07; 1e+21 -3.5"},
		{"0 0 0.5 3 4 5; 1 1", "0 0 0.5 3 4 5; 1 1"},
		{"0 0 > 3 4; 5 6", "0 0 > 3 4; 5 6"},
		{"", ""},
	} {
		l, err := ParseLoop(c.text)
		require.NoError(t, err, c.text)
		require.Equal(t, c.want, l.String())
	}
}

func TestTextFormErrors(t *testing.T) {
	for text, want := range map[string]string{
		"0 0; x 1":           `loop text line 1: "x" is not a number`,
		"0 0\n1":             `loop text line 2: vertex "1" has 1 numbers, wanted x y, x y bulge or x y bulge cx cy r`,
		"0 0 0 0":            `loop text line 1: vertex "0 0 0 0" has 4 numbers, wanted x y, x y bulge or x y bulge cx cy r`,
		"0 0 > 1":            `loop text line 1: segment end "1" has 1 numbers, wanted x y`,
		"0 0 > y":            `loop text line 1: "y" is not a number`,
		"0 0; 1 0\n\n5 5; 6": `loop text line 3: vertex "6" has 1 numbers, wanted x y, x y bulge or x y bulge cx cy r`,
		"0 0; 1 0 | 5 5;6 6": `loop text holds 2 loops, wanted one`,
	} {
		_, err := ParseLoop(text)
		require.EqualError(t, err, want)
	}
	_, err := ParseRegion("0 0; q")
	require.Error(t, err)
}

// The text form is lossless: the very same segments come back, circles
// included, however the loop was made.
func TestLoopTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLoop(t, "l").Transform(drawMotion(t, "m"))
		if rapid.Bool().Draw(t, "slot") {
			l = Slot(l[0].A, l[1].A, 3)
		}
		if rapid.Bool().Draw(t, "broken") {
			l[1].B = l[1].B.Add(Point{0.1, 0})
		}
		back, err := ParseLoop(l.String())
		require.NoError(t, err)
		require.Equal(t, l, back)
	})
}

func TestRegionText(t *testing.T) {
	r := Region{
		Outer: Polygon(Point{0, 0}, Point{60, 0}, Point{60, 40}, Point{0, 40}),
		Holes: []Loop{CircleLoop(Circle{Point{20, 20}, 5}).Reverse()},
	}
	require.Equal(t, "0 0; 60 0; 60 40; 0 40 | 25 20 -1; 15 20 -1", r.String())
	back, err := ParseRegion(r.String())
	require.NoError(t, err)
	require.Equal(t, r, back)
	turned, err := ParseRegion("0 40; 60 40; 60 0; 0 0\n\n25 20 1; 15 20 1")
	require.NoError(t, err)
	require.NoError(t, turned.Validate(), "loops written the other way round are turned")
	none, err := ParseRegion("")
	require.NoError(t, err)
	require.Equal(t, Region{}, none)
	require.Equal(t, "0 0 > 3 4", Line(Point{}, Point{3, 4}).String())
	require.Equal(t, "5 0 1 > -5 0", CircleLoop(Circle{Point{}, 5})[0].String())
}

// Any text is read or refused without a crash, and what was read prints and
// reads back the same.
func FuzzParseLoop(f *testing.F) {
	for _, s := range []string{"0 0; 10 0; 10 5", "5 0 1; -5 0 1", "0 0 0.5 3 4 5; 1 1", "0 0 > 3 4; 5 6", "1 2 NaN; Inf 3", "0 0\n\n1 1", "|", "-0 0 -0; 1 1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ParseLoop(text)
		if err != nil {
			return
		}
		for _, s := range l {
			if math.IsNaN(s.A.X + s.A.Y + s.B.X + s.B.Y + s.Bulge + s.circ.R + s.circ.C.X + s.circ.C.Y) {
				return // NaN equals nothing
			}
		}
		back, err := ParseLoop(l.String())
		if err != nil || len(back) != len(l) {
			t.Fatalf("%q reads back as %q: %v", l.String(), back.String(), err)
		}
		for i := range l {
			if l[i] != back[i] {
				t.Fatalf("segment %d: %q reads back as %q", i, l.String(), back.String())
			}
		}
	})
}
