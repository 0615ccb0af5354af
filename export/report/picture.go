package report

import (
	"math"

	"blankwright/export/paper"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/job"
	"blankwright/flat/link"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Size of one view, mm, and the room for words round it.
const (
	viewWide = 165.0
	viewHigh = 95.0
	viewEdge = 16.0
	nameLift = 3.0
	wordHigh = 3.6
	oneLine  = 0.6 // lines nearer to each other than that are one
)

// view is a way to look at the vehicle.
type view struct {
	name   string
	across link.Vec // that runs to the right
	up     link.Vec
}

var views = []view{
	{"from the right side, forward to the right", link.Vec{X: 1}, link.Vec{Z: 1}},
	{"from above, forward to the right", link.Vec{X: 1}, link.Vec{Y: 1}},
}

// Pictures are the views of a job: its tubes, sleeves and brackets, each to a scale
// of its own.
func Pictures(j *job.Job) []*paper.Picture {
	var out []*paper.Picture
	for _, v := range views {
		if p := v.picture(j); p != nil {
			out = append(out, p)
		}
	}
	return out
}

func (v view) flat(p link.Vec) geom.Point { return geom.Point{X: p.Dot(v.across), Y: p.Dot(v.up)} }

func (v view) picture(j *job.Job) *paper.Picture {
	if len(j.Tubes) == 0 {
		return nil
	}
	var box geom.Box
	for i := range j.Pivots {
		box = box.Extend(v.flat(j.Pivots[i].At))
	}
	most := 0.0 // half of what stands round the pivots
	for i := range j.Tubes {
		most = max(most, j.Tubes[i].Hands[0].Cut.Piece.Tube.OD)
	}
	for i := range j.Desc.Pivots {
		if s := j.Desc.Pivots[i].Sleeve; s != nil {
			most = max(most, s.Outside.MM, s.Length.MM)
		}
	}
	plates := bracketsOf(j)
	for _, b := range plates {
		most = max(most, 2*b.reach)
	}
	w, h := box.Width()+most, box.Height()+most
	k := min((viewWide-2*viewEdge)/w, (viewHigh-2*viewEdge)/h)
	p := &paper.Picture{Width: viewWide, Height: min(viewHigh, k*h+2*viewEdge)}
	mid := box.Centre()
	at := func(q link.Vec) geom.Point {
		f := v.flat(q)
		return geom.Point{X: viewWide/2 + k*(f.X-mid.X), Y: p.Height/2 + k*(f.Y-mid.Y)}
	}
	for _, b := range plates {
		v.bracket(p, b, at, k)
	}
	var names, lengths []paper.PictureWords // to be said when all lines are drawn
	for i := range j.Tubes {
		lengths = append(lengths, v.tube(p, j, &j.Tubes[i], at, k)...)
	}
	for i := range j.Pivots {
		names = append(names, v.pivot(p, j, i, at, k))
	}
	p.Words = append(p.Words, paper.PictureWords{At: geom.Point{X: viewWide / 2, Y: 1.5}, S: v.name})
	for _, w := range append(names, lengths...) {
		say(p, w)
	}
	return p
}

// tube draws a tube and gives the words that belong to it; none where it is seen
// from its end.
func (v view) tube(p *paper.Picture, j *job.Job, t *job.Tube, at func(link.Vec) geom.Point, k float64) []paper.PictureWords {
	var ends [2]geom.Point
	for i, name := range [2]string{t.Desc.From.Text, t.Desc.To.Text} {
		for _, q := range j.Pivots {
			if q.Name == name {
				ends[i] = at(q.At)
			}
		}
	}
	a, b := ends[0], ends[1]
	d := b.Sub(a)
	l := d.Len()
	if num.Zero(l) {
		return nil
	}
	u := d.Mul(1 / l)
	half := u.Perp().Mul(k * t.Hands[0].Cut.Piece.Tube.OD / 2)
	share := l / (k * t.Length) // foreshortened
	c := t.Hands[0].Cut
	from := a.Add(u.Mul(k * share * c.Deduction(0, t.Hands[0].Line).Ear))
	to := b.Sub(u.Mul(k * share * c.Deduction(1, t.Hands[0].Line).Ear))
	p.Lines = append(p.Lines, geom.Line(from.Add(half), to.Add(half)), geom.Line(from.Sub(half), to.Sub(half)))
	p.Dashed = append(p.Dashed, geom.Line(a, b))
	words := t.Name + ", " + unit.Text(t.Length, j.Desc.Units)
	return []paper.PictureWords{{At: geom.Point{X: (a.X + b.X) / 2, Y: max((a.Y+b.Y)/2+half.Len()+1.5, 6)}, S: words}}
}

// pivot draws a pivot with its sleeve and gives its name.
func (v view) pivot(p *paper.Picture, j *job.Job, i int, at func(link.Vec) geom.Point, k float64) paper.PictureWords {
	d := &j.Desc.Pivots[i]
	c := at(j.Pivots[i].At)
	reach := 1.0
	if s := d.Sleeve; s != nil {
		axis := link.Vec{X: d.Axis.X, Y: d.Axis.Y, Z: d.Axis.Z}.Unit()
		seen := v.flat(axis)
		r := k * s.Outside.MM / 2
		switch half := k * s.Length.MM / 2 * seen.Len(); {
		case half < r/2: // from its end
			p.Circles = append(p.Circles, geom.Circle{C: c, R: r}, geom.Circle{C: c, R: k * s.Bore.MM / 2})
			reach = r
		default:
			u := seen.Mul(1 / seen.Len())
			a, b, side := c.Sub(u.Mul(half)), c.Add(u.Mul(half)), u.Perp().Mul(r)
			p.Lines = append(p.Lines, geom.Line(a.Add(side), b.Add(side)), geom.Line(b.Add(side), b.Sub(side)),
				geom.Line(b.Sub(side), a.Sub(side)), geom.Line(a.Sub(side), a.Add(side)))
			reach = math.Hypot(half, r)
		}
	} else {
		p.Circles = append(p.Circles, geom.Circle{C: c, R: reach})
	}
	for _, b := range bracketsOf(j) {
		if b.at == j.Pivots[i].At {
			reach = max(reach, k*v.above(b))
		}
	}
	return paper.PictureWords{At: geom.Point{X: c.X, Y: min(c.Y+reach+nameLift-1.5, p.Height-wordHigh)}, S: d.Name.Text}
}

// say writes words with their middle where they ask to be, or as near to it as
// leaves lines and other words alone, or at least these.
func say(p *paper.Picture, w paper.PictureWords) {
	half := paper.Width(w.S, paper.ValueText) / 2
	w.At.X = min(max(w.At.X, half), p.Width-half)
	for _, lines := range [2]bool{true, false} {
		for off := 0.0; off <= sayMost; off += sayStep {
			for n := range sayWays {
				s, c := math.Sincos(math.Pi/2 + 2*math.Pi*float64(n)/sayWays)
				at := w.At.Add(geom.Point{X: c, Y: s}.Mul(off))
				if clear(p, at, w.S, lines) {
					w.At = at
					p.Words = append(p.Words, w)
					return
				}
			}
		}
	}
	p.Words = append(p.Words, w)
}

// How far words are moved, in steps and ways, mm.
const (
	sayMost = 30.0
	sayStep = 1.2
	sayWays = 16
)

// clear reports whether words at a place lie within the picture and over no other
// words, and over no line either where lines count.
func clear(p *paper.Picture, at geom.Point, words string, lines bool) bool {
	box := func(c geom.Point, s string) paper.Rect {
		half := paper.Width(s, paper.ValueText) / 2
		return paper.Rect{X0: c.X - half - 1, Y0: c.Y - 1, X1: c.X + half + 1, Y1: c.Y + wordHigh}
	}
	b := box(at, words)
	if b.X0 < -1 || b.X1 > p.Width+1 || b.Y0 < wordHigh || b.Y1 > p.Height {
		return false
	}
	for _, w := range p.Words {
		if b.Overlaps(box(w.At, w.S)) {
			return false
		}
	}
	if !lines {
		return true
	}
	for _, l := range [3][]geom.Seg{p.Lines, p.Thin, p.Dashed} {
		for i := range l {
			if b.Crosses(l[i].A, l[i].B) {
				return false
			}
		}
	}
	for _, c := range p.Circles {
		r := paper.Rect{X0: c.C.X - c.R, Y0: c.C.Y - c.R, X1: c.C.X + c.R, Y1: c.C.Y + c.R}
		if b.Overlaps(r) {
			return false
		}
	}
	return true
}

// plates is a bracket as it stands on the vehicle: one plate, or the two of a
// joint.
type plates struct {
	at              link.Vec // the pivot
	right, up, side link.Vec
	outline         []geom.Point // from the hole at the pivot
	faces           []float64    // along side, from the pivot
	reach           float64
}

// bracketsOf are the brackets of a job.
func bracketsOf(j *job.Job) []plates {
	var out []plates
	for i := range j.Parts {
		p := &j.Parts[i]
		if p.Bracket == nil || p.Bent() {
			continue // the flat pattern is not what stands at the pivot
		}
		b := plates{right: unitOf(p.Desc.Right), up: unitOf(p.Desc.Up)}
		b.side = b.right.Cross(b.up)
		for _, q := range j.Pivots {
			if q.Name == p.Bracket.Pivot {
				b.at = q.At
			}
		}
		h := p.Hands[0]
		var hole geom.Point
		for k := range h.Holes {
			if h.Holes[k].Name == p.Desc.Hole.Text {
				hole = h.Holes[k].Centre
			}
		}
		for _, g := range h.Outline {
			n := 1
			if g.IsArc() {
				n = 12
			}
			for s := range n {
				q := g.At(float64(s) / float64(n)).Sub(hole)
				b.outline = append(b.outline, q)
				b.reach = max(b.reach, q.Len())
			}
		}
		b.faces = []float64{-h.Thickness / 2, h.Thickness / 2}
		if k := p.Desc.Joint; k != nil {
			g := k.Gap.MM / 2
			b.faces = []float64{g, g + h.Thickness, -g, -g - h.Thickness}
		}
		out = append(out, b)
	}
	return out
}

func unitOf(v describe.Vector) link.Vec { return link.Vec{X: v.X, Y: v.Y, Z: v.Z}.Unit() }

// place is where a point of the outline lies on the vehicle, on one face.
func (b *plates) place(q geom.Point, face float64) link.Vec {
	return b.at.Add(b.right.Mul(q.X)).Add(b.up.Mul(q.Y)).Add(b.side.Mul(face))
}

// above is how high a bracket stands over its pivot in a view, mm on the vehicle.
func (v view) above(b plates) float64 {
	most := 0.0
	for _, q := range b.outline {
		for _, f := range b.faces {
			most = max(most, b.place(q, f).Sub(b.at).Dot(v.up))
		}
	}
	return most
}

// bracket draws the outlines of a bracket's plates, those that fall on one another
// once.
func (v view) bracket(p *paper.Picture, b plates, at func(link.Vec) geom.Point, k float64) {
	var drawn []geom.Point
	for _, f := range b.faces {
		o := at(b.place(geom.Point{}, f))
		seen := false
		for _, d := range drawn {
			seen = seen || o.Dist(d) < oneLine
		}
		if seen {
			continue
		}
		drawn = append(drawn, o)
		for i, q := range b.outline {
			p.Thin = append(p.Thin, geom.Line(at(b.place(q, f)), at(b.place(b.outline[(i+1)%len(b.outline)], f))))
		}
	}
}
