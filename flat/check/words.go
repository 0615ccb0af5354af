package check

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// len writes a length for people in the file's own units.
func (c *Context) len(mm float64) string { return unit.Text(mm, c.units) }

// gotWant writes what was measured and what is needed so that the two can be
// told apart.
func (c *Context) gotWant(got, want float64) (string, string) {
	g, w := c.len(got), c.len(want)
	if g == w {
		return num.Short(got, 6) + " mm", num.Short(want, 6) + " mm"
	}
	return g, w
}

// words joins the changes that mend a finding.
func (c *Context) words(changes []Change) string {
	if len(changes) == 0 {
		return "no small change mends it"
	}
	texts := make([]string, len(changes))
	for i, ch := range changes {
		texts[i] = ch.Text
	}
	return strings.Join(texts, ", or ")
}

// name is a hole by the name that the file gives it.
func name(h *blank.Hole) string {
	if h.Purpose == blank.RingOpening {
		return "the ring's opening"
	}
	return strconv.Quote(h.Name)
}

// hole names a hole by its kind: `bolt hole "h2"`.
func hole(o *opening) string {
	kind := o.hole.Purpose.String()
	if o.hole.Purpose == blank.RingOpening {
		return name(o.hole)
	}
	if o.half > 0 {
		kind = strings.Replace(kind, "hole", "slot", 1)
	}
	return kind + " " + name(o.hole)
}

// tied reports whether the outline was drawn round the hole, so that it comes
// along where the hole goes: a boss of a tangent outline or of a link plate.
func (c *Context) tied(o *opening) bool {
	of := func(b describe.Boss) bool { return b.Hole.Text != "" && b.Hole.Text == o.hole.Name }
	round := func(shape *describe.Shape) bool {
		return slices.ContainsFunc(shape.Tangent, of) ||
			shape.LinkPlate != nil && slices.ContainsFunc(shape.LinkPlate.Through, of)
	}
	return round(&c.part.Outline) ||
		slices.ContainsFunc(c.part.Add, func(p describe.Piece) bool { return round(&p.Shape) })
}

// roundEnd reports whether the edge nearest to a hole is the round end that was
// drawn about it.
func (c *Context) roundEnd(o *opening, n near) bool {
	return c.tied(o) && slices.ContainsFunc(c.outline.loop, func(s geom.Seg) bool {
		k := s.Circle()
		return s.Bulge > 0 && num.Same(k.R, n.D) && num.Zero(k.C.Dist(o.at))
	})
}

// edgeOf names the edge nearest to an opening.
func (c *Context) edgeOf(o *opening, n near) string {
	if c.roundEnd(o, n) {
		return "the round end about it"
	}
	return c.edgeName(n)
}

// edgeName names the edge that a nearest distance met: by the side of the part
// where it lies, an arc by its radius.
func (c *Context) edgeName(n near) string {
	s := c.outline.loop[n.seg]
	if e := c.Blank.EdgeAt(n.seg); e != nil {
		return "the " + e.Role.String() + " " + quoted(e.Name)
	}
	side := compass(c.outline.normal(n))
	switch {
	case s.IsArc() && n.Q != s.A && n.Q != s.B:
		return "the round edge of radius " + c.len(s.Circle().R) + " at the " + side
	case n.Q == s.A || n.Q == s.B:
		in, out := c.outline.tangents(n)
		if math.Abs(in.Cross(out)) > num.Angular {
			return "the corner at the " + side
		}
	}
	return "the " + side + " edge"
}

// compass names a direction as one sees it on the drawing: the four sides
// within an eighth of a turn.
func compass(d geom.Point) string {
	switch octant := int(math.Round(math.Atan2(d.Y, d.X) / (math.Pi / 4))); octant {
	case 0:
		return "right"
	case 1:
		return "upper right"
	case 2:
		return "top"
	case 3:
		return "upper left"
	case -1:
		return "lower right"
	case -2:
		return "bottom"
	case -3:
		return "lower left"
	}
	return "left"
}

func quoted(s string) string { return strconv.Quote(s) }

// direction is the unit vector along d; nothing for nothing.
func direction(d geom.Point) geom.Point {
	l := d.Len()
	if l == 0 {
		return geom.Point{}
	}
	return d.Mul(1 / l)
}
