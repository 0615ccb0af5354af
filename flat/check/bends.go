package check

import (
	"math"
	"slices"

	"blankwright/flat/bend"
	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// What the rules on bends have in common. A rule that looks at a part without
// bends finds none.

// bends are those of the part.
func (c *Context) bends() []fold.Bend {
	if c.Blank.Formed == nil {
		return nil
	}
	return c.Blank.Formed.Flat.Bends
}

// folded is the part folded in space, worked out once; nil for a flat part.
func (c *Context) folded() *fold.Folded {
	if c.shape == nil && c.Blank.Formed != nil {
		c.shape = c.Blank.Formed.Flat.Fold()
	}
	return c.shape
}

// bendFinding begins a finding on a bend: its place in the file and on the flat.
func (c *Context) bendFinding(b *fold.Bend) diag.Finding {
	return diag.Finding{Pos: c.panelPos(b.Child), Features: []string{b.Name}, Where: at(b.Line.Mid())}
}

// panelPos is the line that made a panel.
func (c *Context) panelPos(panel int) diag.Pos {
	f := c.Blank.Formed
	if panel < len(f.Pos) {
		return f.Pos[panel]
	}
	return f.Pos[0]
}

// panelNamed finds a panel; the base where there is none of the name.
func (c *Context) panelNamed(name string) int {
	return max(0, slices.IndexFunc(c.Blank.Formed.Flat.Panels, func(p fold.Panel) bool { return p.Name == name }))
}

// family is that of the material, for the tables of bends.
func (c *Context) family() bend.Family { return bend.Family(c.Blank.Material.Group) }

// across tells whether a bend line lies across the grain or along it.
func (c *Context) across(b *fold.Bend) bend.Grain {
	f := c.Blank.Formed
	if !f.GrainKnown {
		return bend.Unknown
	}
	s, cos := num.Sincos(f.Grain)
	if math.Abs(b.Line.DirA().Dot(geom.Point{X: cos, Y: s})) > math.Sqrt2/2+num.Angular {
		return bend.Along
	}
	return bend.Across
}

// setBack says how much is left between an opening and a bend of its panel.
type setBack struct {
	bend *fold.Bend
	d    float64    // from the opening's edge to the line where the bend begins, mm; negative beyond it
	dir  geom.Point // away from the bend
	at   geom.Point // on that line
}

// eachBend calls with what lies between an opening and every bend of its panel.
func (c *Context) eachBend(o *opening, do func(setBack)) {
	bs := c.bends()
	for i := range bs {
		b := &bs[i]
		if b.Parent == o.hole.Panel {
			do(c.between(o, b, b.Root, b.Out.Mul(-1)))
		}
		if b.Child == o.hole.Panel {
			do(c.between(o, b, b.Far, b.Out))
		}
	}
}

// between measures from an opening to the line where a bend begins; in is the
// direction from there into the panel.
func (c *Context) between(o *opening, b *fold.Bend, line geom.Seg, in geom.Point) setBack {
	var n geom.Near
	if o.cut == nil {
		if o.half == 0 {
			n = geom.PointSeg(o.at, line)
		} else {
			n = geom.SegSeg(o.axis(o.half), line)
		}
	} else {
		n.D = math.Inf(1)
		back := geom.Line(line.A.Sub(o.by), line.B.Sub(o.by))
		for i := range o.cut.Loop {
			if m := geom.SegSeg(o.cut.Loop[i], back); m.D < n.D {
				n = m
			}
		}
		n.P, n.Q = n.P.Add(o.by), n.Q.Add(o.by)
	}
	s := setBack{bend: b, d: n.D, dir: in, at: n.Q}
	u, to := line.DirA(), o.at.Sub(line.A)
	along := to.Dot(u)
	if along < 0 || along > line.Length() {
		if n.D > num.Coincident {
			s.dir = direction(n.P.Sub(n.Q))
		}
	} else if to.Dot(in) < 0 {
		s.d = -s.d
	}
	s.d -= o.r
	return s
}

// bendRoom is the most that an opening lacks to leave so much metal, mm, before
// each bend of its panel, with more where the radius counts as well.
func (c *Context) bendRoom(o *opening, metal, radii float64) (worst shortfall, near setBack) {
	worst, near = noShortfall(), setBack{d: math.Inf(1)}
	c.eachBend(o, func(s setBack) {
		if by := metal + radii*s.bend.Bend.R - s.d; by > worst.by {
			worst, near = shortfall{by, s.dir}, s
		}
	})
	return worst, near
}

// bendShortfall is what an opening lacks to stay off the bends of its panel.
func (c *Context) bendShortfall(o *opening) shortfall {
	if c.Blank.Formed == nil {
		return noShortfall()
	}
	s, _ := c.bendRoom(o, holeToBendTimes*c.Blank.Thickness, 0)
	return s
}

// inPanel gives a move on the flat in the coordinates that the holes of a panel
// are given in, and how those are called.
func (c *Context) inPanel(h *blank.Hole, m geom.Point) (x, y float64, names [2]string, ok bool) {
	if c.Blank.Formed == nil || h.Panel == 0 {
		return m.X, m.Y, [2]string{"x", "y"}, false
	}
	_, to := c.Blank.Formed.Panel(h)
	return to.Dir(geom.Point{X: 1}).Dot(m), to.Dir(geom.Point{Y: 1}).Dot(m), [2]string{"x", "y"}, true
}

// The keys of changes to a part with bends. Hole is the name of the flange.
const (
	keyHeight      = "flange height" // To
	keyBendRadius  = "bend radius"   // To
	keyReliefWidth = "relief width"  // To
	keyGrain       = "grain"         // To, rad
	keyRemake      = "remake"        // nothing is changed, the blank is made again
)

// bentEdit applies a change to the description of a part with bends. done is
// false for the keys of other changes.
func (ch Change) bentEdit(p *describe.Part) (done bool, err error) {
	switch ch.Key {
	case keyRemake:
		return true, nil
	case keyGrain:
		b := bendsOf(p)
		b.Grain = describe.Angle{Rad: ch.To, Set: true}
		p.Bends = &b
		return true, nil
	case keyHeight, keyBendRadius, keyReliefWidth:
	default:
		return false, nil
	}
	p.Flanges = slices.Clone(p.Flanges)
	f := &describe.Flange{}
	if i := slices.IndexFunc(p.Flanges, func(f describe.Flange) bool { return f.Name.Text == ch.Hole }); i >= 0 {
		f = &p.Flanges[i]
	}
	switch ch.Key {
	case keyHeight:
		if !p.Made(ch.Hole) {
			f.Height.MM = ch.To
			return true, nil
		}
		return true, ch.formHeight(p)
	case keyBendRadius:
		if f.Radius.Set {
			f.Radius.MM = ch.To
			return true, nil
		}
		b := bendsOf(p)
		b.Radius = written(ch.To)
		p.Bends = &b
	case keyReliefWidth:
		r := describe.BendRelief{Shape: describe.Word{Text: "square"}}
		if f.Relief != nil {
			r = *f.Relief
			r.Width = written(ch.To)
			f.Relief = &r
			return true, nil
		}
		if p.Relief != nil {
			r = *p.Relief
		}
		r.Width = written(ch.To)
		p.Relief = &r
	}
	return true, nil
}

func bendsOf(p *describe.Part) describe.Bends {
	if p.Bends == nil {
		return describe.Bends{Rule: describe.BendRule{Kind: describe.Word{Text: "table"}}}
	}
	return *p.Bends
}

// formHeight changes the height of a flange that comes from a form.
func (ch Change) formHeight(p *describe.Part) error {
	if p.Formed == nil {
		return errNoEntry
	}
	f := *p.Formed
	p.Formed = &f
	switch f.Kind.Text + " " + ch.Hole {
	case "u left", "hat left-foot":
		f.Legs[0].MM = ch.To
	case "u right", "hat right-foot", "l leg", "z top":
		f.Legs[1].MM = ch.To
	case "z web", "hat left", "hat right":
		f.Web.MM = ch.To
	default:
		f.Height.MM = ch.To
	}
	return nil
}

// lower suggests a lower flange, in steps, with which nothing is left of what a
// rule tells of it.
func (c *Context) lower(name string, left func(*blank.Blank) bool) []Change {
	bs := c.bends()
	i := slices.IndexFunc(bs, func(b fold.Bend) bool { return b.Name == name })
	if i < 0 {
		return nil
	}
	const steps = 16
	for k := 1; k < steps; k++ {
		to := c.down(bs[i].Height * (1 - float64(k)/steps))
		ch := Change{Kind: Rewrite, Key: keyHeight, Hole: name, To: to, Text: "make flange " + quoted(name) + " " + c.len(to) + " high"}
		if t, err := ch.Apply(c.Blank); err == nil && !left(t) {
			return []Change{ch}
		}
	}
	return nil
}

// relieved reports whether an inside corner of the outline belongs to a relief or
// to the end of a bend, into which nothing has to fit.
func (c *Context) relieved(p geom.Point) bool {
	f := c.Blank.Formed
	if f == nil {
		return false
	}
	for i := range f.Flat.Reliefs {
		if num.Zero(geom.PointLoop(p, f.Flat.Reliefs[i].Loop).D) {
			return true
		}
	}
	for i := range f.Flat.Bends {
		b := &f.Flat.Bends[i]
		for _, q := range [4]geom.Point{b.Root.A, b.Root.B, b.Far.A, b.Far.B} {
			if num.Zero(p.Dist(q)) {
				return true
			}
		}
	}
	return false
}
