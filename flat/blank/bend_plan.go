package blank

import (
	"math"

	"blankwright/flat/bend"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// BendPlan is how a formed part is bent: its bends one after the other, and with
// what.
type BendPlan struct {
	Steps []BendStep // in the order in which they are made
	Tool  BendTool
	Die   bend.Die // the usual die for the plate; 0 where there is none
}

// BendTool is the blade that an order of bends was found for.
type BendTool int8

// The tools, the plainest first.
const (
	StraightBlade BendTool = iota
	Gooseneck              // a punch with a throat above its nose
	NoBlade                // no order was found: the bends stand as the file has them
)

// String names the tool.
func (t BendTool) String() string {
	return [...]string{"straight blade", "goosenecked punch", "none found"}[t]
}

// BendStep is one bend.
type BendStep struct {
	No     int // 1 is made first
	Index  int // in fold.Flat.Bends
	Bend   *fold.Bend
	Hook   Hook
	Hooked bool    // Hook says something: there is an edge to hook a tape on
	Force  float64 // N, an estimate for the usual die; 0 where it is not known
}

// Hook is an edge of the flat that runs along a bend line, and how far from it the
// bend lies, measured square to it, mm: something to hook a tape on, or to hold a
// square against.
type Hook struct {
	Edge               geom.Seg // of the outline
	Side               string   // of the flat where it lies: left, right, lower, upper; "" where it leans
	Panel              string   // that it belongs to
	Begins, Line, Ends float64  // to the nearer tangent line, the bend line and the farther tangent line
}

// Name says which edge it is: `left edge, of flange left`.
func (h *Hook) Name() string {
	side := "parallel edge"
	if h.Side != "" {
		side = h.Side + " edge"
	}
	if h.Panel == fold.BaseName {
		return side + ", of the base"
	}
	return side + ", of flange " + h.Panel
}

// hookLeast is the shortest edge (mm) that a tape is hooked on: the width of its
// hook (common practice).
const hookLeast = 20.0

// Plan finds an order of the bends, for a straight blade where that does, else
// for a goosenecked punch, and tells where each bend is marked. An order looks at
// what fold.Folded.Order says, and at nothing else.
func (b *Blank) Plan() *BendPlan {
	if b.Formed == nil {
		return nil
	}
	f := b.Formed.Flat
	p := &BendPlan{}
	g := f.Fold()
	order, err := g.Order()
	if err != nil {
		p.Tool = Gooseneck
		order, err = g.OrderWith(fold.NoseReach)
	}
	if err != nil {
		p.Tool = NoBlade
		order = make([]int, len(f.Bends))
		for i := range order {
			order[i] = i
		}
	}
	die, err := bend.DieFor(b.Thickness)
	if err == nil {
		p.Die = die
	}
	hooks := hooksOf(f)
	for i, k := range order {
		s := BendStep{No: i + 1, Index: k, Bend: &f.Bends[k]}
		s.Hook, s.Hooked = hooks.of(s.Bend)
		if p.Die > 0 && b.Material.Fu > 0 {
			s.Force = p.Die.Load(b.Material.Fu, b.Thickness, s.Bend.Line.Length()).Force
		}
		p.Steps = append(p.Steps, s)
	}
	return p
}

// Looked says for what tool an order was found, by what, and what nobody looked at.
func (p *BendPlan) Looked() (found, looked, not string) {
	switch p.Tool {
	case StraightBlade:
		found = "this order leaves room for a straight blade"
	case Gooseneck:
		found = "this order needs a goosenecked punch with a nose of no more than " + num.Short(fold.NoseReach, 0) + " mm; there is none for a straight blade"
	default:
		found = "no order leaves room for a straight blade or a goosenecked punch; the bends are numbered as the file has them"
	}
	looked = "panels in the way of a blade as thin as a line and as long as the bend, when it begins and when it is done"
	if p.Die > 0 {
		looked += ", heights against the usual V-die of " + num.Short(float64(p.Die), 0) + " mm"
	}
	for _, s := range p.Steps {
		if s.Bend.Bend.A > fold.BladeTurn {
			found += "; what goes beyond " + bend.Degrees(fold.BladeTurn) + " is closed afterwards, without the blade"
			break
		}
	}
	return found, looked, "width and shape of punch and die, back stops, the swing in between"
}

// hookList is the edges of a flat that a tape can be hooked on, and how many bends
// each serves.
type hookList struct {
	flat   *fold.Flat
	edges  []geom.Seg
	serves []int
}

func hooksOf(f *fold.Flat) *hookList {
	l := &hookList{flat: f}
	for _, e := range f.Outline.Outer {
		if e.IsArc() || !num.AtLeast(e.Length(), hookLeast) {
			continue
		}
		n := 0
		for i := range f.Bends {
			if l.reaches(&e, &f.Bends[i]) {
				n++
			}
		}
		if n > 0 {
			l.edges, l.serves = append(l.edges, e), append(l.serves, n)
		}
	}
	return l
}

// inward is the direction from an edge of the outline into the metal.
func inward(e *geom.Seg) geom.Point { return e.DirA().Perp() }

// reaches reports whether a tape hooked on the edge lies over metal all the way to
// the bend line, beside it for the width of its hook.
func (l *hookList) reaches(e *geom.Seg, b *fold.Bend) bool {
	u, in := b.Line.DirA(), inward(e)
	if math.Abs(u.Cross(e.DirA())) > num.Angular {
		return false
	}
	d := b.Line.A.Sub(e.A).Dot(in)
	if min(d, b.Root.A.Sub(e.A).Dot(in), b.Far.A.Sub(e.A).Dot(in)) <= num.Coincident {
		return false
	}
	p, q := e.A.Sub(b.Line.A).Dot(u), e.B.Sub(b.Line.A).Dot(u)
	lo, hi := max(0, min(p, q)), min(b.Line.Length(), max(p, q))
	if hi-lo < min(hookLeast, b.Line.Length()/2) {
		return false
	}
	from := b.Line.A.Add(u.Mul((lo + hi) / 2))
	t, _, ok := geom.RayLoop(from, in.Mul(-1), l.flat.Outline.Outer)
	return ok && num.AtLeast(t, d)
}

// of chooses the edge for a bend: one that serves most bends, so that all are
// measured from it; among equals the left or the lower one, or the nearer one where
// each serves this bend alone.
func (l *hookList) of(b *fold.Bend) (h Hook, ok bool) {
	best := -1
	for i := range l.edges {
		if l.reaches(&l.edges[i], b) && (best < 0 || l.before(i, best, b)) {
			best = i
		}
	}
	if best < 0 {
		return h, false
	}
	e := l.edges[best]
	in := inward(&e)
	h = Hook{Edge: e, Side: sideOf(in.Mul(-1)), Panel: l.panel(&e), Line: b.Line.A.Sub(e.A).Dot(in)}
	h.Begins, h.Ends = b.Root.A.Sub(e.A).Dot(in), b.Far.A.Sub(e.A).Dot(in)
	if h.Begins > h.Ends {
		h.Begins, h.Ends = h.Ends, h.Begins
	}
	return h, true
}

func (l *hookList) before(i, k int, b *fold.Bend) bool {
	if l.serves[i] != l.serves[k] {
		return l.serves[i] > l.serves[k]
	}
	if l.serves[i] == 1 {
		d := func(e *geom.Seg) float64 { return b.Line.A.Sub(e.A).Dot(inward(e)) }
		return d(&l.edges[i]) < d(&l.edges[k])-num.Coincident
	}
	return rank(sideOf(inward(&l.edges[i]).Mul(-1))) < rank(sideOf(inward(&l.edges[k]).Mul(-1)))
}

var sides = [...]string{"left", "lower", "right", "upper"}

func rank(side string) int {
	for i, s := range sides {
		if s == side {
			return i
		}
	}
	return len(sides)
}

// sideOf names an upright or level edge by where it looks; others have no name.
func sideOf(out geom.Point) string {
	switch {
	case math.Abs(out.Y) <= num.Angular && out.X < 0:
		return sides[0]
	case math.Abs(out.X) <= num.Angular && out.Y < 0:
		return sides[1]
	case math.Abs(out.Y) <= num.Angular:
		return sides[2]
	case math.Abs(out.X) <= num.Angular:
		return sides[3]
	}
	return ""
}

// panel is the name of the panel whose edge it is.
func (l *hookList) panel(e *geom.Seg) string {
	best, near := 0, math.Inf(1)
	for i := range l.flat.Panels {
		if d := geom.PointLoop(e.Mid(), l.flat.Panels[i].Region.Outer).D; d < near {
			best, near = i, d
		}
	}
	return l.flat.Panels[best].Name
}
