package cope

import (
	"fmt"
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Paper is what a wrap template is made of and how much of it there is round the
// curve, mm.
type Paper struct {
	Thickness float64 // of the sheet, wrapped once
	Margin    float64 // from the throat to the straight edge, more than 0
	Waste     float64 // above the ear, more than 0
	Tab       float64 // width of the glue tab outside the true width, 0 for none
}

// PlainPaper is office paper (80 g/m², about 0.1 mm thick) with a glue tab of 10
// mm: common practice.
func PlainPaper() Paper { return Paper{Thickness: 0.1, Margin: 25, Waste: 8, Tab: 10} }

func (p Paper) check() error {
	switch {
	case !num.Finite(p.Thickness, p.Margin, p.Waste, p.Tab) || p.Thickness < 0 || p.Tab < 0:
		return fmt.Errorf("paper has thickness %s mm and tab %s mm, wanted 0 or more", short(p.Thickness), short(p.Tab))
	case p.Margin <= num.Coincident || p.Waste <= num.Coincident:
		return fmt.Errorf("paper has margin %s mm and waste %s mm, wanted more than 0", short(p.Margin), short(p.Waste))
	}
	return nil
}

// Template is the wrap template of one end, drawn as it is seen from outside
// with the joint up: x runs from the seam round the tube towards growing q, y
// points out of the tube's end. The straight edge, y = 0, is square to the
// tube's axis and must meet itself when wrapped. The tube keeps what lies under
// the curve; wrap it printed side out.
type Template struct {
	Paper  Paper
	Width  float64 // once round, mm: π(OD + paper thickness)
	Seam   float64 // q at x = 0 and at x = Width, rad
	EdgeAt float64 // s of the straight edge: mm from the working point into the tube
	Top    float64 // y of the upper edge of the paper
	Marks  []Mark
	c      *Cope
}

// Mark is a line along the tube, from edge to edge of the paper.
type Mark struct {
	Name string // "top" at the datum generator, else the degrees "90", "180", "270"
	Q    float64
	X    float64
}

// Template lays out the wrap template with its seam at q = seam; c.BestSeam
// gives the quarter that is asked for by default.
func (c *Cope) Template(p Paper, seam float64) (*Template, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if !num.Finite(seam) {
		return nil, fmt.Errorf("seam is at no finite angle; give one in radians")
	}
	t := &Template{Paper: p, Width: math.Pi * (c.Tube.OD + p.Thickness), Seam: turned(seam), c: c}
	ear, throat := math.Inf(1), math.Inf(-1)
	for _, u := range c.curves {
		ear, throat = min(ear, u.ear.S), max(throat, u.throat.S)
	}
	t.EdgeAt = throat + p.Margin
	t.Top = t.EdgeAt - ear + p.Waste
	t.Marks = quarterMarks(t.Seam, t.Width, func(q float64) float64 { return q })
	return t, nil
}

var quarterNames = [4]string{"top", "90", "180", "270"}

// quarterMarks are the quarter lines of one end by growing x; tube gives the q
// of the sheet for a q of the end. A line on the seam comes at both edges.
func quarterMarks(seam, width float64, tube func(float64) float64) []Mark {
	var out []Mark
	for i, name := range quarterNames {
		q := float64(i) * quarterTurn
		x := turned(tube(q)-seam) / fullTurn * width
		if num.Zero(x) || num.Same(x, width) {
			out = append(out, Mark{name, q, 0}, Mark{name, q, width})
			continue
		}
		out = append(out, Mark{name, q, x})
	}
	for i := 1; i < len(out); i++ {
		for j := i; j > 0 && out[j].X < out[j-1].X; j-- {
			out[j], out[j-1] = out[j-1], out[j]
		}
	}
	return out
}

func (t *Template) sheet() sheet {
	k := t.Width / fullTurn
	return sheet{x0: -t.Seam * k, kx: k, y0: t.EdgeAt, ky: -1, width: t.Width}
}

// X is where generator q lies, 0 <= x < Width.
func (t *Template) X(q float64) float64 { return turned(q-t.Seam) / fullTurn * t.Width }

// Q is the generator at x.
func (t *Template) Q(x float64) float64 { return t.Seam + x/t.Width*fullTurn }

// Y is the height of the curve at generator q.
func (t *Template) Y(k Kind, q float64) float64 { return t.EdgeAt - t.c.curves[k].At(q) }

// Back puts a point of the template back on the tube, at radius r, in the end's
// frame.
func (t *Template) Back(p geom.Point, r float64) Vec { return Point(t.Q(p.X), r, t.EdgeAt-p.Y) }

// Arcs is the curve as arcs and lines from x = 0 to x = Width, within num.ArcFit
// (0.02 mm), ends at the same height. Neighbours share tangents but at corners.
func (t *Template) Arcs(k Kind) Fit { return t.c.curves[k].arcs(t.sheet(), t.Seam) }

// Polyline is the curve as points from x = 0 to x = Width within num.PaperFit
// (0.01 mm), and the largest distance measured.
func (t *Template) Polyline(k Kind) (pts []geom.Point, worst float64) {
	return t.c.curves[k].line(t.sheet(), t.Seam)
}

// Beziers is the curve as cubics from x = 0 to x = Width within num.PaperFit
// (0.01 mm), and the largest distance measured.
func (t *Template) Beziers(k Kind) (curves []Bezier, worst float64) {
	return t.c.curves[k].beziers(t.sheet(), t.Seam)
}

// Keep is the outline of what covers the tube that is kept: the straight edge,
// both seam edges and the curve; counter-clockwise.
func (t *Template) Keep(k Kind) geom.Loop {
	f := t.Arcs(k)
	left, right := f.Segs[0].A, f.Segs[len(f.Segs)-1].B
	l := geom.Loop{
		geom.Line(geom.Point{}, geom.Point{X: right.X}),
		geom.Line(geom.Point{X: right.X}, right),
	}
	for i := len(f.Segs) - 1; i >= 0; i-- {
		l = append(l, f.Segs[i].Reverse())
	}
	return append(l, geom.Line(left, geom.Point{}))
}

// Waste is the outline of what covers the tube that is cut away, up to Top;
// counter-clockwise.
func (t *Template) Waste(k Kind) geom.Loop {
	f := t.Arcs(k)
	left, right := f.Segs[0].A, f.Segs[len(f.Segs)-1].B
	a, b := geom.Point{X: right.X, Y: t.Top}, geom.Point{X: left.X, Y: t.Top}
	l := append(geom.Loop{}, f.Segs...)
	return append(l, geom.Line(right, a), geom.Line(a, b), geom.Line(b, left))
}

// TabLoop is the outline of the glue tab beyond x = Width, counter-clockwise; it
// stays under the curve and off the straight edge. Empty where the paper has no
// tab.
func (t *Template) TabLoop() geom.Loop {
	if t.Paper.Tab == 0 {
		return nil
	}
	low := math.Inf(1)
	for _, u := range t.c.curves {
		low = min(low, t.EdgeAt-u.At(t.Seam))
	}
	cut := min(t.Paper.Tab/2, low/4)
	x := t.Width
	return geom.Polygon(
		geom.Point{X: x}, geom.Point{X: x + t.Paper.Tab, Y: cut},
		geom.Point{X: x + t.Paper.Tab, Y: low - cut}, geom.Point{X: x, Y: low})
}

// Arrow is where an arrow to the tube's other end stands: from, to.
func (t *Template) Arrow() (from, to geom.Point) {
	x := t.Width / 2
	for _, m := range t.Marks { // beside the nearest line, not on it
		if num.Same(m.X, x) {
			x += t.Width / 16
			break
		}
	}
	return geom.Point{X: x, Y: t.Paper.Margin * 0.8}, geom.Point{X: x, Y: t.Paper.Margin * 0.2}
}

// slip is how far round the tube a seam may be off when it is judged: 15
// degrees.
const slip = 15 * degree

// BestSeam is the quarter (0, 90, 180 or 270 degrees from the datum, rad) where
// a seam of the template, or the tube's own weld seam, does least harm: where
// the lines move least along the tube near it. Of equal ones the one farthest
// from the datum.
func (c *Cope) BestSeam() float64 {
	return bestQuarter(c.harm)
}

func bestQuarter(harm func(q float64) float64) float64 {
	best, at := math.Inf(1), 0.0
	for _, i := range [4]float64{2, 3, 1, 0} {
		if h := harm(i * quarterTurn); h < best-num.Coincident {
			best, at = h, i*quarterTurn
		}
	}
	return at
}

// harm is how far the lines move along the tube within slip of q, mm.
func (c *Cope) harm(q float64) float64 {
	worst := 0.0
	for _, u := range c.curves {
		s := u.At(q)
		for i := 1; i <= 4; i++ {
			a := slip * float64(i) / 4
			worst = max(worst, math.Abs(u.At(q+a)-s), math.Abs(u.At(q-a)-s))
		}
	}
	return worst
}
