package svg

import (
	"math"
	"strconv"

	"blankwright/flat/geom"
)

// place is a point in the file, in units of the last decimal written, y down.
type place struct{ x, y int64 }

func (w *writer) place(p geom.Point) place {
	return place{int64(math.Round(p.X * 1e4)), int64(math.Round((w.height - p.Y) * 1e4))}
}

// longArc is the bulge of an arc of 90 degrees. An arc that turns through more
// is written as two: a reader finds its centre from its ends and radius, and
// near half a turn the last decimal of these would move the centre by the root
// of what was cut off.
var longArc = math.Tan(math.Pi / 8)

// pathData writes runs of segments as path data: M, L and A, and Z where a run
// comes back to its start. The text is good until the next call.
func (w *writer) pathData(segs []geom.Seg) string {
	b := w.path[:0]
	var start, at place
	drawing := false
	for i := range segs {
		g := &segs[i]
		from, to := w.place(g.A), w.place(g.B)
		if !drawing || from != at {
			b = appendPlace(append(b, 'M'), from)
			start, drawing = from, true
		}
		closes := to == start
		switch {
		case !g.IsArc():
			if !closes {
				b = appendPlace(append(b, 'L'), to)
			}
		case math.Abs(g.Bulge) > longArc:
			b = w.appendArc(b, g, w.place(top(g)))
			b = w.appendArc(b, g, to)
		default:
			b = w.appendArc(b, g, to)
		}
		if closes {
			b = append(b, 'Z')
			drawing = false
		}
		at = to
	}
	w.path = b
	return string(b)
}

// top is the middle of an arc.
func top(g *geom.Seg) geom.Point {
	half := g.B.Sub(g.A).Mul(g.Bulge / 2)
	return geom.Point{X: (g.A.X+g.B.X)/2 + half.Y, Y: (g.A.Y+g.B.Y)/2 - half.X}
}

// appendArc writes an arc of less than half a turn. With y pointing down, an
// arc that is counter-clockwise on the plate has the sweep flag 0.
func (w *writer) appendArc(b []byte, g *geom.Seg, to place) []byte {
	r := int64(math.Round(g.Circle().R * 1e4))
	b = appendFixed(append(b, 'A'), r)
	b = appendFixed(append(b, ' '), r)
	if g.Bulge > 0 {
		b = append(b, " 0 0 0 "...)
	} else {
		b = append(b, " 0 0 1 "...)
	}
	return appendPlace(b, to)
}

func appendPlace(b []byte, p place) []byte {
	return appendFixed(append(appendFixed(b, p.x), ' '), p.y)
}

// appendFixed writes n ten-thousandths without needless zeros.
func appendFixed(b []byte, n int64) []byte {
	if n < 0 {
		b = append(b, '-')
		n = -n
	}
	b = strconv.AppendInt(b, n/1e4, 10)
	rest := n % 1e4
	if rest == 0 {
		return b
	}
	b = append(b, '.')
	for unit := int64(1e3); rest > 0; unit /= 10 {
		b = append(b, byte('0'+rest/unit))
		rest %= unit
	}
	return b
}
