package papertest

import (
	"strconv"

	"blankwright/export/paper"
	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// Coupon is a plate with sharp corners and holes of many sizes, for measuring
// what was printed.
func Coupon(sys unit.System) *blank.Blank {
	b := Part("coupon", sys, 5)
	b.Outline = geom.Polygon(at(-60, -45), at(60, -45), at(60, 45), at(-60, 45))
	for i, h := range [...][3]float64{{-45, -30, 13.5}, {45, -30, 10.5}, {0, 15, 34}, {40, 20, 6}, {-44, 24, 8}} {
		Round(b, "h"+strconv.Itoa(i+1), h[0], h[1], h[2], "hole")
	}
	return b
}

// Measured is one length or place on a printed page, as it was meant and as it
// was found, mm.
type Measured struct {
	What      string
	Got, Want float64
}

// Off is how far it is off, mm.
func (m Measured) Off() float64 {
	if m.Got > m.Want {
		return m.Got - m.Want
	}
	return m.Want - m.Got
}

// lost is what is noted where something was not found at all.
const lost = 1e6

// MeasureBars measures the check bars of a sheet on its picture: their lengths
// between the middles of the first and the last tick. kx and ky are how much
// longer than true they were drawn.
func MeasureBars(p *Picture, s *paper.Sheet, kx, ky float64) (all []Measured) {
	for _, g := range s.CheckBlock.Layers()[paper.Bars].Segs {
		a, b := g.A.Add(s.Checks), g.B.Add(s.Checks)
		if g.Length() < 90 {
			continue
		}
		// 4 mm off the base line only the long ticks reach: those of the 100 mm
		// bar on one side, those of the 4 in bar on the other.
		off, what, ticks := 4.0, "100 mm", 3
		if g.Length() > 101 {
			off, what, ticks = -4, "4 in", 5
		}
		var mids []float64
		k := kx
		if a.Y == b.Y {
			what += " across"
			mids = p.Lines((a.Y+off)*ky, (a.X-2)*kx, (b.X+2)*kx, false)
		} else {
			what += " up"
			k = ky
			mids = p.Lines((a.X-off)*kx, (a.Y-2)*ky, (b.Y+2)*ky, true)
		}
		m := Measured{what, lost, g.Length() * k}
		if len(mids) == ticks {
			m.Got = mids[ticks-1] - mids[0]
		}
		all = append(all, m)
	}
	return all
}

// MeasureCoupon measures the corners of the coupon and the middles and diameters
// of its holes, all by what is drawn of them.
func MeasureCoupon(p *Picture, s *paper.Sheet, b *blank.Blank) (all []Measured) {
	box := b.Outline.Bounds()
	for _, c := range [4]geom.Point{box.Min, {X: box.Max.X, Y: box.Min.Y}, box.Max, {X: box.Min.X, Y: box.Max.Y}} {
		in := box.Centre().Sub(c)
		in = geom.Point{X: in.X / 20, Y: in.Y / 15}
		q := c.Add(s.Offset)
		x, okX := p.Across(geom.Point{X: q.X, Y: q.Y + in.Y}, geom.Point{X: 1}, 0.7)
		y, okY := p.Across(geom.Point{X: q.X + in.X, Y: q.Y}, geom.Point{Y: 1}, 0.7)
		if !okX || !okY {
			x, y = lost, lost
		}
		all = append(all, Measured{"corner x", q.X + x, q.X}, Measured{"corner y", q.Y + y, q.Y})
	}
	for i := range b.Holes {
		h := &b.Holes[i]
		c := h.Centre.Add(s.Offset)
		// Four places on the edge, away from the cross.
		u := geom.Point{}.Polar(1, 0.35)
		v := u.Perp()
		var d [4]float64
		for k, w := range [4]geom.Point{u, u.Mul(-1), v, v.Mul(-1)} {
			off, ok := p.Across(c.Add(w.Mul(h.Dia/2)), w, 0.7)
			if !ok {
				off = lost
			}
			d[k] = off
		}
		mid := u.Mul((d[0] - d[1]) / 2).Add(v.Mul((d[2] - d[3]) / 2))
		all = append(all,
			Measured{h.Name + " x", c.X + mid.X, c.X}, Measured{h.Name + " y", c.Y + mid.Y, c.Y},
			Measured{h.Name + " diameter", h.Dia + (d[0]+d[1]+d[2]+d[3])/2, h.Dia})
	}
	return all
}
