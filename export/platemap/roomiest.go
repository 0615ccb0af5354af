package platemap

import (
	"math"

	"blankwright/flat/geom"
)

// disc is a place in a region, and how far its edges are from it.
type disc struct {
	c geom.Point
	r float64
}

const (
	// near is the part of the radius by which the disc found may be smaller than
	// the largest there is: a number stands well enough there.
	near = 0.05
	// mostLooks is the most places that are looked at for one region.
	mostLooks = 4000
)

// roomiest is about the largest disc that lies in the metal of a region. Moving
// its middle by d changes its radius by no more than d, so that a square of
// places can be judged from its middle: in rounds, the squares that may hold a
// better place than the best by more than near are cut in four.
func roomiest(r geom.Region) disc {
	box := r.Bounds()
	side := min(box.Width(), box.Height())
	if !(side > 0) {
		return disc{}
	}
	index := geom.NewIndex(append([]geom.Loop{r.Outer}, r.Holes...)...)
	best := disc{c: box.Centre(), r: math.Inf(-1)}
	look := func(c geom.Point) float64 {
		d := 0.0
		if n, ok := index.NearestPoint(c, nil); ok {
			d = n.D
		}
		if r.Contains(c) != geom.Inside {
			d = -d
		}
		if d > best.r {
			best = disc{c, d}
		}
		return d
	}
	side = max(side, max(box.Width(), box.Height())/mostLooks)
	var squares []disc // by their middles; r is what their middles have
	for x := box.Min.X + side/2; x-side/2 < box.Max.X; x += side {
		for y := box.Min.Y + side/2; y-side/2 < box.Max.Y; y += side {
			c := geom.Point{X: x, Y: y}
			squares = append(squares, disc{c, look(c)})
		}
	}
	for looks := 0; looks < mostLooks && len(squares) > 0; side /= 2 {
		var next []disc
		for _, s := range squares {
			if s.r+side/2*math.Sqrt2 <= best.r*(1+near) {
				continue
			}
			for _, by := range [...]geom.Point{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: 1}} {
				c := s.c.Add(by.Mul(side / 4))
				next = append(next, disc{c, look(c)})
			}
		}
		squares = next
		looks += len(next)
	}
	return best
}
