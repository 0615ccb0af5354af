package geom

import "blankwright/flat/num"

// same reports whether two circles are one within num.Coincident.
func (c Circle) same(d Circle) bool {
	return c == d || num.Same(c.R, d.R) && num.Zero(c.C.Dist(d.C))
}
