package cutlist_test

import (
	"math"
	"testing"

	"blankwright/flat/cutlist"
	"blankwright/flat/geom"
)

func square(x, y, side float64) geom.Region {
	return geom.Region{Outer: geom.Polygon(geom.Point{X: x, Y: y}, geom.Point{X: x + side, Y: y},
		geom.Point{X: x + side, Y: y + side}, geom.Point{X: x, Y: y + side})}
}

// Every part comes once; the first is the nearest; none lies beside one of the
// four before it while there are others to choose from.
func TestSpreadSkipsAbout(t *testing.T) {
	var parts []geom.Region
	for i := range 10 {
		for j := range 20 {
			parts = append(parts, square(float64(i)*120, float64(j)*120, 100))
		}
	}
	order := cutlist.Spread(parts, geom.Point{})
	if len(order) != len(parts) || order[0] != 0 {
		t.Fatalf("%d of %d parts, the first is %d", len(order), len(parts), order[0])
	}
	seen := make([]bool, len(parts))
	beside := 0
	for n, i := range order {
		if seen[i] {
			t.Fatalf("part %d comes twice", i)
		}
		seen[i] = true
		for _, k := range order[max(0, n-4):n] {
			if parts[i].Bounds().Centre().Dist(parts[k].Bounds().Centre()) < 120*1.5 {
				beside++
			}
		}
	}
	if beside > len(parts)/20 {
		t.Errorf("%d times a part is cut beside a hot one", beside)
	}
}

// What lies in an opening is cut first, through every depth.
func TestSpreadGuestsFirst(t *testing.T) {
	ring := func(x, y, side, wall float64) geom.Region {
		r := square(x, y, side)
		r.Holes = []geom.Loop{square(x+wall, y+wall, side-2*wall).Outer.Reverse()}
		return r
	}
	parts := []geom.Region{ring(0, 0, 400, 20), ring(100, 100, 200, 20), square(150, 150, 50), square(500, 0, 50)}
	place := make([]int, len(parts))
	for n, i := range cutlist.Spread(parts, geom.Point{}) {
		place[i] = n
	}
	if place[2] > place[1] || place[1] > place[0] {
		t.Errorf("places in the order: %v", place)
	}
	if got := cutlist.Spread(nil, geom.Point{X: math.NaN()}); len(got) != 0 {
		t.Errorf("order of nothing: %v", got)
	}
}
