package pdf

import (
	"math"
	"strconv"

	"blankwright/export/paper"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// content is what is drawn on one page, in mm, y up.
type content struct {
	out  []byte
	lost []rune
}

func (c *content) begin(lost []rune) {
	c.out, c.lost = c.out[:0], lost
	c.add("1 j\n") // round joins
}

func (c *content) add(s string) { c.out = append(c.out, s...) }

// scale makes the unit of the drawing as long as told, in units of the page.
func (c *content) scale(x, y float64) {
	c.add(num.Short(x, 9) + " 0 0 " + num.Short(y, 9) + " 0 0 cm\n")
}

// block draws a check block at a place.
func (c *content) block(id paper.BlockID, at geom.Point) {
	c.add("q 1 0 0 1 ")
	c.point(placeOf(at))
	c.add("cm /B")
	c.out = strconv.AppendInt(c.out, int64(id), 10)
	c.add(" Do Q\n")
}

// layer draws lines, circles and texts of a layer with its pen and face.
func (c *content) layer(id paper.LayerID, l *paper.Layer) {
	spec := id.Spec()
	if len(l.Segs)+len(l.Circles) > 0 {
		c.pen(&spec.Pen)
		c.path(l.Segs)
		for i := range l.Circles {
			c.circle(l.Circles[i])
		}
		c.paint(&spec.Pen)
	}
	if len(l.Texts) > 0 {
		c.texts(spec.Style.Font(), l.Texts)
	}
}

func (c *content) pen(p *paper.Pen) {
	if p.Width > 0 {
		c.add(num.Short(p.Width, 4) + " w\n")
	}
	if d := p.Dash; d[0] > 0 {
		c.add("[" + num.Short(d[0], 4) + " " + num.Short(d[1], 4) + " " + num.Short(d[2], 4) + " " + num.Short(d[3], 4) + "] 0 d\n")
	}
	if p.Fill == paper.White {
		c.add("1 g\n")
	}
}

// paint ends a path and puts back what its pen changed.
func (c *content) paint(p *paper.Pen) {
	switch {
	case p.Fill == paper.NoFill:
		c.add("S\n")
	case p.Width > 0:
		c.add("B\n")
	default:
		c.add("f\n")
	}
	if p.Dash[0] > 0 {
		c.add("[] 0 d\n")
	}
	if p.Fill == paper.White {
		c.add("0 g\n")
	}
}

// place is a point in units of the last decimal written, 0.1 µm.
type place struct{ x, y int64 }

func placeOf(p geom.Point) place {
	return place{int64(math.Round(p.X * 1e4)), int64(math.Round(p.Y * 1e4))}
}

// point writes a place and a space.
func (c *content) point(p place) {
	c.out = append(appendFixed(c.out, p.x), ' ')
	c.out = append(appendFixed(c.out, p.y), ' ')
}

// path writes runs of segments, closed where one comes back to its start.
func (c *content) path(segs []geom.Seg) {
	var start, at place
	drawing := false
	for i := range segs {
		g := &segs[i]
		from, to := placeOf(g.A), placeOf(g.B)
		if !drawing || from != at {
			c.point(from)
			c.add("m\n")
			start, drawing = from, true
		}
		closes := to == start
		switch {
		case g.IsArc():
			c.arc(g)
		case !closes:
			c.point(to)
			c.add("l\n")
		}
		if closes {
			c.add("h\n")
			drawing = false
		}
		at = to
	}
}

// stray is how far a curve may lie from its arc, mm. What decimals cut off adds
// less than 0.0001 mm.
const stray = 0.003

// pieces is into how many cubic curves an arc of radius r and of that sweep is
// cut. With handles of 4/3 tan(θ/4) the curve of an arc of sweep θ lies outside
// it by 2/27 sin⁶(θ/4)/cos²(θ/4) of its radius at most (Dokken, Dæhlen, Lyche
// and Mørken, Good approximation of circles by curvature-continuous Bézier
// curves, Computer Aided Geometric Design 7, 1990,
// doi:10.1016/0167-8396(90)90019-N).
func pieces(r, sweep float64) int {
	n := int(math.Ceil(sweep/(math.Pi/2) - num.Angular))
	for n = max(n, 1); ; n++ {
		sin, cos := math.Sincos(sweep / float64(4*n))
		s2 := sin * sin
		if r*2/27*s2*s2*s2/(cos*cos) <= stray {
			return n
		}
	}
}

// arc writes the curves of an arc from where the path is.
func (c *content) arc(g *geom.Seg) {
	sweep := g.Sweep()
	circle := g.Circle()
	c.curves(circle.C, g.A.Sub(circle.C), sweep, pieces(circle.R, math.Abs(sweep)), g.B)
}

// circle writes a whole circle as a path of its own.
func (c *content) circle(k geom.Circle) {
	start := geom.Point{X: k.C.X + k.R, Y: k.C.Y}
	c.point(placeOf(start))
	c.add("m\n")
	c.curves(k.C, geom.Point{X: k.R}, 2*math.Pi, pieces(k.R, 2*math.Pi), start)
	c.add("h\n")
}

// curves writes n curves about a centre, from the end of a radius to the point
// where the last ends.
func (c *content) curves(centre, radius geom.Point, sweep float64, n int, end geom.Point) {
	each := sweep / float64(n)
	handle := 4.0 / 3 * math.Tan(each/4)
	sin, cos := math.Sincos(each)
	for i := 1; i <= n; i++ {
		next := geom.Point{X: radius.X*cos - radius.Y*sin, Y: radius.X*sin + radius.Y*cos}
		c.point(placeOf(centre.Add(radius).Add(radius.Perp().Mul(handle))))
		c.point(placeOf(centre.Add(next).Sub(next.Perp().Mul(handle))))
		if i == n {
			c.point(placeOf(end))
		} else {
			c.point(placeOf(centre.Add(next)))
		}
		c.add("c\n")
		radius = next
	}
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
