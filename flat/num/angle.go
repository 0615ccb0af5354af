package num

import "math"

// TurnNoise is how far (rad) an angle may lie from a whole quarter turn and
// still be meant as one: what is left by turning degrees into radians and by a
// few sums (one rounding of an angle of some turns is about 1e-15). At a
// distance of 10 m it moves a point by 1e-10 mm.
const TurnNoise = 1e-14

// Sincos is the sine and cosine of a (rad), exactly 0 and ±1 at whole quarter
// turns, so that a part turned by 90 degrees keeps its straight edges straight.
func Sincos(a float64) (sin, cos float64) {
	q := math.Round(a / (math.Pi / 2))
	if !(math.Abs(a-q*(math.Pi/2)) <= TurnNoise) {
		return math.Sincos(a)
	}
	switch int64(math.Mod(q, 4)) {
	case 1, -3:
		return 1, 0
	case 2, -2:
		return 0, -1
	case 3, -1:
		return -1, 0
	}
	return 0, 1
}
