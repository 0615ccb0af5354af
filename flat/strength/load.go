package strength

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// PlaneLoad is a force in the plane of the plate and, in addition, a couple.
type PlaneLoad struct {
	F  geom.Point // N
	At geom.Point // a point on its line of action, mm
	M  float64    // N·mm, counter-clockwise positive
}

// About is the moment of the load about p, N·mm, counter-clockwise positive.
func (l PlaneLoad) About(p geom.Point) float64 { return l.At.Sub(p).Cross(l.F) + l.M }

// SpaceLoad is a force in space that acts at a height over the plane of bolts or
// welds, and couples. z points out of the plane, towards the reader.
type SpaceLoad struct {
	F       geom.Point // in the plane, N
	Out     float64    // along z, N
	At      geom.Point // mm
	Height  float64    // of the point of action over the plane, mm
	Mx, My  float64    // couples about x and y, right-handed, N·mm
	Torsion float64    // couple about z, N·mm
}

// about gives the moments about the axes through p in the plane.
func (l *SpaceLoad) about(p geom.Point) (mx, my, mz float64) {
	r := l.At.Sub(p)
	mx = l.Mx + r.Y*l.Out - l.Height*l.F.Y
	my = l.My + l.Height*l.F.X - r.X*l.Out
	return mx, my, l.Torsion + r.Cross(l.F)
}

// tilt is the gradient, over the plane, of forces along z that hold the moments
// mx and my on a figure with second moments ix = sum y^2, iy = sum x^2 and ixy about
// its centroid: a bolt at r from the centroid gets gradient·r. ok is false where
// the figure has no width in a direction that a moment asks for.
func tilt(ix, iy, ixy, mx, my float64) (gradient geom.Point, ok bool) {
	if mx == 0 && my == 0 {
		return geom.Point{}, true
	}
	most, least, angle := geom.Moments{Ix: ix, Iy: iy, Ixy: ixy}.Principal()
	if !(most > 0) {
		return geom.Point{}, false
	}
	sin, cos := num.Sincos(angle)
	axis := geom.Point{X: cos, Y: sin}
	// Along either principal axis a moment makes forces that grow with the
	// distance to the left of it; left of the second one is against the first.
	strong, weak := mx*cos+my*sin, my*cos-mx*sin
	gradient = axis.Perp().Mul(strong / most)
	if least <= num.Slender*most {
		return gradient, math.Abs(weak) <= num.BalanceKept*math.Abs(strong)
	}
	return gradient.Sub(axis.Mul(weak / least)), true
}
