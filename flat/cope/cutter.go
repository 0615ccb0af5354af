package cope

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/num"
)

// Cutter is something that a tube's end is cut to sit on: a Main or a Plate.
type Cutter interface {
	resolve(t Tube, index, of int) (cut, error)
	mirror() Cutter
}

// Main is a round tube or sleeve that the branch runs up against.
type Main struct {
	Name   string  // for messages; "main 1" and so on where empty
	OD     float64 // outside diameter, mm
	Angle  float64 // between the axes, rad: LeastAngle to 90 degrees
	Offset float64 // of the branch's axis from the main's, mm; positive towards the generator Turn + 90 degrees
	Turn   float64 // q of the heel (the generator on the obtuse side), rad
	// Station is where along the branch's axis the foot of the common
	// perpendicular lies, mm from the working point into the tube: 0 for the one
	// main that the working point belongs to.
	Station float64
	// Length is how long the sleeve is, mm; 0 for a tube without end. Middle is
	// where its middle lies along its axis, mm from the foot, positive towards
	// the toe (the acute side).
	Length, Middle float64
	// Partial allows a branch that reaches past the main's side (a branch wider
	// than the sleeve, or set far off its middle). Walls that pass beside the
	// main are then trimmed at the plane that holds the main's axis and the
	// common perpendicular, where the saddle's line leaves the main.
	Partial bool
}

// Plate is a flat face that cuts the end.
type Plate struct {
	Name    string  // for messages; "plate 1" and so on where empty
	Angle   float64 // between the tube's axis and the face, rad: LeastAngle to 90 degrees (square)
	Turn    float64 // q of the generator left longest (the obtuse side), rad
	Station float64 // where the face cuts the axis, mm from the working point into the tube
}

// cut is a cutter ready to be worked with.
type cut struct {
	name            string
	plate, partial  bool
	R, e            float64
	angle, sin, cos float64 // of the angle between the axes
	turn, station   float64
	length, middle  float64
	index           int // among the cutters given
}

func (m Main) resolve(t Tube, index, of int) (cut, error) {
	name := nameOr(m.Name, "main", index, of)
	if err := checkPlace(name, m.Angle, m.Turn, m.Station, m.OD, m.Offset, m.Length, m.Middle); err != nil {
		return cut{}, err
	}
	if m.OD <= 0 {
		return cut{}, fmt.Errorf("%s has outside diameter %s mm, wanted more than 0", name, short(m.OD))
	}
	if m.Length < 0 {
		return cut{}, fmt.Errorf("%s has length %s mm, wanted more than 0, or 0 for a tube without end", name, short(m.Length))
	}
	R, r, e := m.OD/2, t.Outer(), math.Abs(m.Offset)
	if e-r >= R-num.Coincident {
		return cut{}, fmt.Errorf("tube of %s mm passes beside %s: the offset is %s mm and the radii make only %s mm; bring the axes nearer",
			short(t.OD), name, short(e), short(R+r))
	}
	k := newCut(name, index, m.Angle, m.Turn, m.Station)
	k.R, k.e, k.partial, k.length, k.middle = R, m.Offset, m.Partial, m.Length, m.Middle
	if e <= num.EqualTubes*(R+r) {
		k.e = 0 // axes that cross, but for rounding
	}
	return k, nil
}

func (p Plate) resolve(_ Tube, index, of int) (cut, error) {
	name := nameOr(p.Name, "plate", index, of)
	if err := checkPlace(name, p.Angle, p.Turn, p.Station); err != nil {
		return cut{}, err
	}
	k := newCut(name, index, p.Angle, p.Turn, p.Station)
	k.plate = true
	return k, nil
}

func newCut(name string, index int, angle, turn, station float64) cut {
	k := cut{name: name, index: index, angle: angle, turn: turn, station: station}
	k.sin, k.cos = num.Sincos(angle)
	return k
}

func nameOr(name, kind string, index, of int) string {
	switch {
	case name != "":
		return name
	case of == 1:
		return "the " + kind
	}
	return fmt.Sprintf("%s %d", kind, index+1)
}

func checkPlace(name string, angle float64, others ...float64) error {
	if !num.Finite(angle) || !num.Finite(others...) {
		return errors.New(name + " has a value that is no finite number")
	}
	if !num.AtLeast(angle, LeastAngle) || !num.AtMost(angle, quarterTurn) {
		return fmt.Errorf("%s lies at %s degrees to the tube, wanted %s to 90; measure the smaller angle between the axes",
			name, degrees(angle), degrees(LeastAngle))
	}
	return nil
}

// same reports whether two cuts are one, whatever they are called.
func (k cut) same(o cut) bool {
	k.name, k.index, o.name, o.index = "", 0, "", 0
	return k == o
}

// Axis is the main's axis in the end's frame: a point on it (the foot of the
// common perpendicular) and its direction, of length 1, towards the toe.
func (m Main) Axis() (foot, dir Vec) {
	k := newCut("", 0, m.Angle, m.Turn, m.Station)
	st, ct := num.Sincos(m.Turn)
	// At turn 0 the foot is (0, -e, -station), the direction (-sin, 0, -cos).
	return Vec{m.Offset * st, -m.Offset * ct, -m.Station}, Vec{-k.sin * ct, -k.sin * st, -k.cos}
}

// MainAlong is the main tube of the given outside diameter whose axis runs
// through the point p in direction dir, both in the end's frame; the caller sets
// what else a Main holds. The direction may point either way; at 90 degrees it
// then decides which of the two equal sides is called the heel. The error is for
// an axis that runs along the branch within LeastAngle.
func MainAlong(od float64, p, dir Vec) (Main, error) {
	a := dir.Unit()
	if !p.finite() || !a.finite() || a.Len() == 0 {
		return Main{}, errors.New("axis of the main has no direction; give two different points on it")
	}
	if a.Z > 0 { // towards the toe: into the tube
		a = a.Mul(-1)
	}
	sin, cos := math.Hypot(a.X, a.Y), -a.Z
	angle := math.Atan2(sin, cos)
	if math.Abs(cos) <= num.Angular {
		angle = quarterTurn
	}
	if !num.AtLeast(angle, LeastAngle) {
		return Main{}, fmt.Errorf("axes of tube and main lie at %s degrees, wanted %s to 90", degrees(angle), degrees(LeastAngle))
	}
	heel := Vec{-a.X / sin, -a.Y / sin, 0}
	side := Vec{-heel.Y, heel.X, 0} // the generator at heel + 90 degrees
	// The foot on the branch is where p, moved along a, has nothing left along
	// the heel.
	along := p.Dot(heel) / sin // a·heel = -sin
	foot := p.Add(a.Mul(along))
	return Main{OD: od, Angle: angle, Offset: -p.Dot(side), Turn: turned(math.Atan2(heel.Y, heel.X)), Station: -foot.Z}, nil
}

// spot is a generator as one cut sees it: the sine and cosine of q less the
// cut's turn, and of half its distance from 90 degrees, from which 1 - sin and
// 1 + sin come without loss.
type spot struct{ sin, cos, sh, ch float64 }

func (k *cut) spot(q float64) spot {
	sh, ch := math.Sincos(math.Pi/4 - (q-k.turn)/2)
	return spot{sin: (ch - sh) * (ch + sh), cos: 2 * sh * ch, sh: sh, ch: ch}
}

// margin is how far the main reaches past the branch of radius r on the side of
// positive (high) and of negative offset; exactly 0 for tubes that reach it just
// so.
func (k *cut) margin(r float64) (high, low float64) {
	high, low = k.R-k.e-r, k.R+k.e-r
	least := num.EqualTubes * (k.R + r + math.Abs(k.e))
	if math.Abs(high) <= least {
		high = 0
	}
	if math.Abs(low) <= least {
		low = 0
	}
	return high, low
}

// depth is Z on the main's surface at radius r, and whether the generator meets
// it at all; Z is 0 where it does not.
func (k *cut) depth(r float64, p spot) (z float64, meets bool) {
	high, low := k.margin(r)
	high += 2 * r * p.sh * p.sh
	low += 2 * r * p.ch * p.ch
	if high < 0 || low < 0 {
		return 0, false
	}
	return math.Sqrt(high * low), true
}

// rise is s for a given Z.
func (k *cut) rise(z, r float64, p spot) float64 {
	return k.station + (z-r*p.cos*k.cos)/k.sin
}

// height is s at radius r. free says that the generator passes beside the main
// and is trimmed; ok is false where the cut does nothing there.
func (k *cut) height(r float64, p spot) (s float64, free, ok bool) {
	if k.plate {
		return k.rise(0, r, p), false, true
	}
	z, meets := k.depth(r, p)
	if !meets && !k.partial {
		return 0, false, false
	}
	return k.rise(z, r, p), !meets, true
}

// ridge is the radius at which s, as a function of the radius on one generator,
// is level: there Y = -sign(sin q)·R·c/√(sin²q+c²) with c = cos q cos θ. s is
// concave in the radius, so this is its maximum. NaN or infinite where there is
// none.
func (k *cut) ridge(p spot) float64 {
	c := p.cos * k.cos
	y := -math.Copysign(1, p.sin) * c * k.R / math.Hypot(p.sin, c)
	return (y - k.e) / p.sin
}
