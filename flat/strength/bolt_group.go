package strength

import (
	"errors"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Errors of groups of bolts and welds.
var (
	errNoBolts  = errors.New("a group of bolts needs a bolt")
	errNoArm    = errors.New("bolts in one place hold no moment; the load's line must pass through them")
	errNoLoad   = errors.New("there is no load on the group")
	errNotFound = errors.New("the instantaneous centre was not found; check the places of the bolts")
	errNoWidth  = errors.New("the bolts stand in one line and hold no moment about it; add a second row")
	errNotANum  = errors.New("a place or a load is not a finite number")
)

// GroupForces is how a group of equal bolts shares a load in its plane.
type GroupForces struct {
	Centroid geom.Point   // mm
	J        float64      // sum of squared distances from the centroid, mm2
	Moment   float64      // of the load about the centroid, N·mm, counter-clockwise positive
	Forces   []geom.Point // on each bolt, N: they add up to the load
	Most     float64      // the largest of them, N
	MostAt   int          // the bolt that has it
}

// ElasticGroup shares a load among equal bolts by the elastic (vector) method: each
// gets an equal part of the force and, of the moment, a part square to its radius
// and in proportion to it, M r/J. Forces is appended to buf, which may be nil.
//
// AISC Manual Part 7, elastic method (from memory); Shigley's Mechanical
// Engineering Design, 9th ed., 8-12. Limits: bolts of one size, stiff plates, no
// friction; conservative beside the instantaneous centre. It is an error where
// there is no bolt, or where bolts in one place shall hold a moment.
func ElasticGroup(bolts []geom.Point, load PlaneLoad, buf []geom.Point) (GroupForces, error) {
	if err := checkGroup(bolts, &load); err != nil {
		return GroupForces{}, err
	}
	c, j := polar(bolts)
	g := GroupForces{Centroid: c, J: j, Moment: load.About(c)}
	if onePlace(j) {
		if !noArm(&load, g.Moment) {
			return GroupForces{}, errNoArm
		}
		j, g.J = 1, 0
		g.Moment = 0
	}
	n := float64(len(bolts))
	direct := load.F.Mul(1 / n)
	start := len(buf)
	for i, p := range bolts {
		f := direct.Add(p.Sub(c).Perp().Mul(g.Moment / j))
		buf = append(buf, f)
		if l := f.Len(); l > g.Most {
			g.Most, g.MostAt = l, i
		}
	}
	g.Forces = buf[start:]
	return g, nil
}

func checkGroup(bolts []geom.Point, load *PlaneLoad) error {
	if len(bolts) == 0 {
		return errNoBolts
	}
	for _, p := range bolts {
		if !num.Finite(p.X, p.Y) {
			return errNotANum
		}
	}
	if !num.Finite(load.F.X, load.F.Y, load.At.X, load.At.Y, load.M) {
		return errNotANum
	}
	return nil
}

// polar gives the centroid of equal bolts and the sum of their squared distances
// from it.
func polar(bolts []geom.Point) (c geom.Point, j float64) {
	for _, p := range bolts {
		c = c.Add(p)
	}
	c = c.Mul(1 / float64(len(bolts)))
	for _, p := range bolts {
		r := p.Sub(c)
		j += r.Dot(r)
	}
	return c, j
}

// onePlace reports whether bolts of this J all stand in one place.
func onePlace(j float64) bool { return j <= sq(num.Coincident) }

// noArm reports whether a moment is nothing: the force passes within
// num.Coincident.
func noArm(load *PlaneLoad, moment float64) bool {
	return sq(moment) <= sq(num.Coincident)*load.F.Dot(load.F)
}

// GroupTension is how a group of equal bolts shares a load out of its plane.
type GroupTension struct {
	Centroid geom.Point
	Forces   []float64 // on each bolt, N, positive along z: pulling the plate off
	Most     float64   // the largest pull, N; 0 where none is pulled
	MostAt   int
}

// TensionGroup shares what a load in space does out of the plane: Out/n to each
// bolt, and the moments in proportion to the distance from the centroid's axes.
// The part in the plane is for ElasticGroup or InstantCentre, with Torsion as M.
// Forces is appended to buf.
//
// AISC Manual Part 7, eccentricity normal to the plane of the faying surface, Case II
// (neutral axis at the centroid), from memory. Limits: NO PRYING is included, which
// can raise the tension much where the plate is thin; the compressed side is taken
// to act at the bolts, which is conservative. It is an error where the bolts have
// no width in a direction that a moment asks for.
func TensionGroup(bolts []geom.Point, load SpaceLoad, buf []float64) (GroupTension, error) {
	plane := PlaneLoad{F: load.F, At: load.At, M: load.Torsion}
	if err := checkGroup(bolts, &plane); err != nil {
		return GroupTension{}, err
	}
	if !num.Finite(load.Out, load.Height, load.Mx, load.My) {
		return GroupTension{}, errNotANum
	}
	c, _ := polar(bolts)
	var ix, iy, ixy float64
	for _, p := range bolts {
		r := p.Sub(c)
		ix += r.Y * r.Y
		iy += r.X * r.X
		ixy += r.X * r.Y
	}
	mx, my, _ := load.about(c)
	slope, ok := tilt(ix, iy, ixy, mx, my)
	if !ok {
		return GroupTension{}, errNoWidth
	}
	g := GroupTension{Centroid: c}
	start := len(buf)
	for i, p := range bolts {
		f := load.Out/float64(len(bolts)) + slope.Dot(p.Sub(c))
		buf = append(buf, f)
		if f > g.Most {
			g.Most, g.MostAt = f, i
		}
	}
	g.Forces = buf[start:]
	return g, nil
}
