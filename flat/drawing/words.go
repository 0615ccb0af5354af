package drawing

import (
	"fmt"
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Decimals of what people are told: places in the unit of the drawing, so that
// they find them there; sizes so fine that a gap that matters shows.
const (
	mmPlaces   = 3
	inchPlaces = 4
)

func (u Unit) places() int {
	if u.inches() {
		return inchPlaces
	}
	return mmPlaces
}

// Place writes a place (mm) in the drawing's own coordinates: `12.5, 40`, for a
// message that goes on with the unit or ends there.
func (u Unit) Place(p geom.Point) string {
	n := u.places()
	return num.Short(p.X/u.MM, n) + ", " + num.Short(p.Y/u.MM, n)
}

// Length writes a length (mm) for people: `0.031 mm`, and where the drawing
// speaks inches `0.0012 in (0.031 mm)`.
func (u Unit) Length(mm float64) string {
	text := short(mm) + " mm"
	if u.inches() {
		return num.Short(mm/unit.MM, inchPlaces) + " in (" + text + ")"
	}
	return text
}

// short writes a number with three decimals, or with three figures where it is
// small.
func short(v float64) string {
	const most = 12
	places := mmPlaces
	for w := math.Abs(v); w > 0 && w < 0.1 && places < most; w *= 10 {
		places++
	}
	return num.Short(v, places)
}

// factor writes by how much something is to be scaled: `25.4`, or `1/25.4`, which
// no rounding spoils.
func factor(k float64) string {
	if k < 1 {
		return "1/" + short(1/k)
	}
	return short(k)
}

// counted writes how many there are of something.
func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

func leastAndMedian(vs []float64) (least, median float64) {
	slices.Sort(vs)
	return vs[0], vs[len(vs)/2]
}
