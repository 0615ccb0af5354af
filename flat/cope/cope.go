// Package cope works out the end of a round tube (the branch) that is cut to
// sit on what it meets: a main tube or a sleeve at any angle and offset,
// several of them at once, a plate. It gives the cut lines unwrapped, wrap
// templates with their marks, both ends of a tube together, hole-saw settings
// and tables for marking by hand.
//
// Unit: mm; angles in radians.
//
// The convention, for one end. s is measured along the branch's axis from the
// end's working point into the tube; the tube keeps s >= s(q). The generators
// (lines along the tube's wall) are told apart by q: looking at the tube's open
// end from the joint, q grows counter-clockwise from the datum generator, the
// one to be marked "top". The end's frame in space is right-handed: x at q = 0,
// y at q = 90 degrees, z out of the tube's end, so that z = -s.
//
// Derivation. The main's axis runs along X, its surface is Y²+Z² = R². The
// branch's axis lies in the plane Y = e and leans by the angle θ between the
// axes. On the generator at q, counted from the heel (the obtuse side), at
// radius r, Y = e + r sin q and Z = s sin θ + r cos q cos θ; the outer crossing
// is Z = +√(R²-Y²), so
//
//	s(q) = (√(R²-(e+r sin q)²) - r cos q cos θ) / sin θ
//
// with s from the foot of the common perpendicular of both axes. With several
// cuts the tube keeps what all of them leave: the largest s of all.
package cope

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/num"
)

const (
	quarterTurn = math.Pi / 2
	halfTurn    = math.Pi
	fullTurn    = 2 * math.Pi
	degree      = math.Pi / 180
)

// LeastAngle is the smallest angle between the axes (rad) that is worked out:
// 5 degrees, where the saddle is already 23 branch diameters long.
const LeastAngle = 5 * degree

// Tube is the branch: outside diameter and wall, mm. A wall of half the
// diameter is a solid bar.
type Tube struct{ OD, Wall float64 }

// Outer is the outside radius, mm.
func (t Tube) Outer() float64 { return t.OD / 2 }

// Inner is the inside radius, mm; 0 for a solid bar.
func (t Tube) Inner() float64 { return max(0, t.OD/2-t.Wall) }

// Girth is the length once round the outside, mm.
func (t Tube) Girth() float64 { return math.Pi * t.OD }

func (t Tube) check() error {
	switch {
	case !num.Finite(t.OD, t.Wall) || t.OD <= 0:
		return fmt.Errorf("tube has outside diameter %s mm, wanted more than 0", short(t.OD))
	case t.Wall <= 0:
		return fmt.Errorf("tube has wall %s mm, wanted more than 0", short(t.Wall))
	case !num.AtMost(t.Wall, t.OD/2):
		return fmt.Errorf("tube of %s mm outside diameter has wall %s mm, wanted at most half the diameter", short(t.OD), short(t.Wall))
	}
	return nil
}

// Kind says which line on the tube's end is meant.
type Kind int

const (
	// OD is the cut line: where the outside of the wall meets the main.
	OD Kind = iota
	// ID is where the inside of the wall meets the main: grind or bevel to it.
	ID
	// DropOn is the line for a cut square through the wall: at each generator
	// the largest s that any radius of the wall needs, so that the end drops on
	// without grinding. An inner radius can govern where the angle is not square.
	DropOn
)

// String names the kind.
func (k Kind) String() string {
	switch k {
	case OD:
		return "outside"
	case ID:
		return "inside"
	}
	return "drop-on"
}

// Cope is one worked-out end of a tube.
type Cope struct {
	Tube     Tube
	cutters  []Cutter
	cuts     []cut
	ri, ro   float64
	curves   [3]*Curve
	overruns []Overrun
}

// New works out the end of a tube cut by all the cutters given. The error says
// in words what is out of range, which main is missed, and where nothing cuts
// the tube.
func New(t Tube, cutters ...Cutter) (*Cope, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	if len(cutters) == 0 {
		return nil, errors.New("tube end meets nothing; give a main tube, a sleeve or a plate")
	}
	c := &Cope{Tube: t, cutters: cutters, ri: t.Inner(), ro: t.Outer()}
	for i, k := range cutters {
		resolved, err := k.resolve(t, i, len(cutters))
		if err != nil {
			return nil, err
		}
		if !c.has(resolved) {
			c.cuts = append(c.cuts, resolved)
		}
	}
	for k := range c.curves {
		curve, err := c.curve(Kind(k))
		if err != nil {
			return nil, err
		}
		c.curves[k] = curve
	}
	c.overruns = c.findOverruns()
	return c, nil
}

// has reports whether the same cut is there already: two that are one would
// take turns at governing by rounding.
func (c *Cope) has(k cut) bool {
	for _, o := range c.cuts {
		if o.same(k) {
			return true
		}
	}
	return false
}

// Curve is the line of the given kind.
func (c *Cope) Curve(k Kind) *Curve { return c.curves[k] }

// Cutters are what the end meets, as given.
func (c *Cope) Cutters() []Cutter { return c.cutters }

// Point is the place in the end's frame at generator q, radius r and s along
// the tube.
func Point(q, r, s float64) Vec {
	sin, cos := math.Sincos(q)
	return Vec{r * cos, r * sin, -s}
}

func short(v float64) string { return num.Short(v, 3) }

func degrees(a float64) string { return num.Short(a/degree, 1) }

// turned brings an angle into [0, a full turn).
func turned(q float64) float64 {
	q = math.Mod(q, fullTurn)
	if q < 0 {
		q += fullTurn
	}
	if q >= fullTurn-num.SameTurn {
		q = 0
	}
	return q
}
