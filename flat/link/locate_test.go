package link

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func dist(a, b Vec) float64 { return a.Sub(b).Len() }

func TestBase(t *testing.T) {
	a, b, c, err := Base(400, 300, 500)
	require.NoError(t, err)
	require.Equal(t, Vec{}, a)
	require.Equal(t, v3(400, 0, 0), b)
	require.InDelta(t, 0, dist(v3(0, 300, 0), c), 1e-9)
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(10, 1000)
		ab, ac, bc := x.Draw(t, "ab"), x.Draw(t, "ac"), x.Draw(t, "bc")
		a, b, c, err := Base(ab, ac, bc)
		if err != nil {
			require.GreaterOrEqual(t, 2*max(ab, ac, bc), ab+ac+bc-1e-6)
			return
		}
		require.InDelta(t, ab, dist(a, b), 1e-9)
		require.InDelta(t, ac, dist(a, c), 1e-6)
		require.InDelta(t, bc, dist(b, c), 1e-6)
		require.GreaterOrEqual(t, c.Y, 0.0)
	})
	_, _, _, err = Base(100, 50, 30)
	require.EqualError(t, err, "distances 100 mm, 50 mm and 30 mm make no triangle: the two short ones reach 80 mm of 100 mm; measure again")
	_, _, _, err = Base(100, 0, 30)
	require.ErrorContains(t, err, "distance of 0 mm")
}

var floor = []Pivot{{"left mark", v3(0, 400, 0)}, {"right mark", v3(0, -400, 0)}, {"front mark", v3(900, 50, 0)}}

func measureAll(from []Pivot, to string, at Vec) []Measure {
	var out []Measure
	for _, p := range from {
		out = append(out, Measure{p.Name, to, dist(p.At, at)})
	}
	return out
}

// Three distances leave two places; a rough place or a fourth distance decides.
func TestThreeDistances(t *testing.T) {
	pivot := v3(300, 120, 260)
	ms := measureAll(floor, "pivot", pivot)
	_, err := Locate(floor, []Guess{{Name: "pivot"}}, ms, 1)
	require.EqualError(t, err, `pivot "pivot" could be at (300, 120, 260) or at (300, 120, -260): three distances leave both; give its rough place, or one more distance`)

	near := v3(0, 0, 100)
	s, err := Locate(floor, []Guess{{"pivot", &near}}, ms, 1)
	require.NoError(t, err)
	require.InDelta(t, 0, dist(pivot, s.Pivots[3].At), 1e-7)
	require.Zero(t, s.Spare)
	require.Equal(t, "pivot", s.Pivots[3].Name)

	high := append(append([]Pivot{}, floor...), Pivot{"hook", v3(200, 0, 900)})
	s, err = Locate(high, []Guess{{Name: "pivot"}}, measureAll(high, "pivot", pivot), 1)
	require.NoError(t, err)
	require.InDelta(t, 0, dist(pivot, s.Pivots[4].At), 1e-7)
	require.Equal(t, 1, s.Spare)
	require.Less(t, s.Worst, 1e-7)
	require.Greater(t, s.Spread[0], 0.5)
	require.Less(t, s.Spread[0], 3.0)
}

// Places come back from distances alone, those between pivots included.
func TestLocate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(-500, 500)
		n := rapid.IntRange(1, 4).Draw(t, "pivots")
		var guesses []Guess
		var places []Pivot
		var ms []Measure
		known := append(append([]Pivot{}, floor...), Pivot{"hook", v3(100, 0, 800)})
		for i := range n {
			name := fmt.Sprintf("p%d", i)
			at := v3(c.Draw(t, "x"), c.Draw(t, "y"), rapid.Float64Range(100, 500).Draw(t, "z"))
			from := append(append([]Pivot{}, known...), places...)
			ms = append(ms, measureAll(from, name, at)...)
			for _, p := range from {
				if dist(p.At, at) < 1 {
					t.Skip("places of one")
				}
			}
			places = append(places, Pivot{name, at})
			guesses = append(guesses, Guess{Name: name})
		}
		// Each distance off by up to 0.3 mm.
		for i := range ms {
			ms[i].Distance += rapid.Float64Range(-0.3, 0.3).Draw(t, "error")
		}
		s, err := Locate(known, guesses, ms, 1)
		require.NoError(t, err)
		for i, p := range places {
			require.LessOrEqual(t, dist(p.At, s.Pivots[len(known)+i].At), 0.3*4*s.Spread[i]+1e-6)
			require.Less(t, s.Spread[i], 10.0)
		}
		require.Equal(t, len(ms)-3*n, s.Spare)
		require.LessOrEqual(t, s.RMS, s.Worst+1e-12)
		require.LessOrEqual(t, s.Worst, 0.6+1e-9)
	})
}

// A wrong distance among good ones is found and named.
func TestWrongDistance(t *testing.T) {
	known := append(append([]Pivot{}, floor...), Pivot{"hook", v3(100, 0, 800)}, Pivot{"post", v3(-300, 200, 500)})
	at := v3(300, 120, 260)
	for wrong := range 5 {
		ms := measureAll(known, "pivot", at)
		right := ms[wrong].Distance
		ms[wrong].Distance += 17
		_, err := Locate(known, []Guess{{Name: "pivot"}}, ms, 1)
		var se *SurveyError
		require.True(t, errors.As(err, &se), "%v", err)
		require.Equal(t, ms[wrong], se.Suspect.Measure)
		require.InDelta(t, 17, se.Suspect.Off, 1e-6)
		require.Less(t, se.Without, 1e-6)
		require.ErrorContains(t, err, fmt.Sprintf("most likely %q to %q, measured %s mm, where the others make it %s mm; measure it again",
			ms[wrong].From, "pivot", short(right+17), short(right)))
		require.Len(t, se.Survey.Residuals, 5)
	}
}

// Pivots that hold each other: none has three distances to known places, together
// they are determined.
func TestPivotsThatHoldEachOther(t *testing.T) {
	a, b := v3(300, 100, 250), v3(600, -80, 310)
	ms := []Measure{
		{"left mark", "a", dist(floor[0].At, a)}, {"right mark", "a", dist(floor[1].At, a)},
		{"front mark", "b", dist(floor[2].At, b)}, {"right mark", "b", dist(floor[1].At, b)},
		{"a", "b", dist(a, b)}, {"left mark", "b", 0},
	}
	ms[5].Distance = dist(floor[0].At, b)
	na, nb := v3(280, 120, 220), v3(580, -60, 330)
	s, err := Locate(floor, []Guess{{"a", &na}, {"b", &nb}}, ms, 1)
	require.NoError(t, err)
	require.InDelta(t, 0, dist(a, s.Pivots[3].At), 1e-5)
	require.InDelta(t, 0, dist(b, s.Pivots[4].At), 1e-5)

	ms[5] = Measure{"front mark", "a", dist(floor[2].At, a)}
	s, err = Locate(floor, []Guess{{"a", &na}, {"b", &nb}}, ms, 1)
	require.NoError(t, err)
	require.InDelta(t, 0, dist(b, s.Pivots[4].At), 1e-5)

	ring := []Measure{ms[0], ms[1], ms[2], ms[3], ms[4], {"a", "c", 100}, {"b", "c", 300}, {"front mark", "c", 300}}
	_, err = Locate(floor, []Guess{{"a", &na}, {"b", &nb}, {Name: "c"}}, ring, 1)
	require.ErrorContains(t, err, `pivot "c" has only 1 distances to places that are known, wanted 3; measure more, or give its rough place`)
}

// A pivot in the plane of the three marks: its height is badly held, and said so.
func TestPivotInThePlaneOfTheMarks(t *testing.T) {
	at := v3(300, 60, 0)
	s, err := Locate(floor, []Guess{{Name: "pivot"}}, measureAll(floor, "pivot", at), 1)
	require.NoError(t, err)
	require.InDelta(t, 0, dist(at, s.Pivots[3].At), 1e-3)
	require.Greater(t, s.Spread[0], 100.0)
}

func TestLocateErrors(t *testing.T) {
	at := v3(300, 120, 260)
	ms := measureAll(floor, "pivot", at)
	line := []Pivot{{"a", v3(0, 0, 0)}, {"b", v3(100, 0, 0)}, {"c", v3(250, 0, 0)}}
	nowhere := v3(math.NaN(), 0, 0)
	cases := []struct {
		name     string
		known    []Pivot
		guesses  []Guess
		measures []Measure
		within   float64
		want     string
	}{
		{"too few", floor, []Guess{{Name: "pivot"}}, ms[:2], 1, `pivot "pivot" has 2 distances, wanted 3 or more`},
		{"in one line", line, []Guess{{Name: "pivot"}}, measureAll(line, "pivot", at), 1, "measured from places in one line only"},
		{"unknown", floor, []Guess{{Name: "pivot"}}, []Measure{{"pivot", "hook", 3}}, 1, `there is no pivot "hook"`},
		{"unknown first", floor, []Guess{{Name: "pivot"}}, []Measure{{"hook", "pivot", 3}}, 1, `there is no pivot "hook"`},
		{"to itself", floor, []Guess{{Name: "pivot"}}, []Measure{{"pivot", "pivot", 3}}, 1, `from "pivot" to itself`},
		{"nothing", floor, []Guess{{Name: "pivot"}}, []Measure{{"left mark", "pivot", 0}}, 1, "is 0 mm, wanted more than 0"},
		{"twice", floor, []Guess{{Name: "left mark"}}, nil, 1, `pivot "left mark" is given twice`},
		{"nowhere", floor, []Guess{{"pivot", &nowhere}}, nil, 1, "no finite place"},
		{"tolerance", floor, nil, nil, -1, "may be off by -1 mm"},
		{"out of reach", floor, []Guess{{Name: "pivot"}}, []Measure{{"left mark", "pivot", 100}, {"right mark", "pivot", 100}, {"front mark", "pivot", 100}}, 1, "distances contradict each other"},
		{"known places apart", floor, nil, []Measure{{"left mark", "right mark", 805}}, 1, `"left mark" to "right mark", measured 805 mm, where the others make it 800 mm`},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			_, err := Locate(tc.known, tc.guesses, tc.measures, tc.within)
			require.ErrorContains(t, err, tc.want)
		})
	}
	s, err := Locate(floor, nil, nil, 1)
	require.NoError(t, err)
	require.Len(t, s.Pivots, 3)
	require.Zero(t, s.RMS)
}
