package fold

import (
	"cmp"
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Eye is where a picture is taken from. Lines of sight are parallel.
type Eye int8

// Where a picture is taken from.
const (
	Isometric Eye = iota // from the front, right and above, all axes alike
	FromAbove            // x to the right, y up: the plan
	FromFront            // x to the right, z up
	FromRight            // y to the right, z up
	eyes      = iota
)

var eyeNames = [...]string{"isometric", "top", "front", "right"}

func (e Eye) String() string { return eyeNames[e] }

// camera is the directions of a picture in space: to its right, up, and to the
// eye.
type camera struct{ right, up, eye Vec }

func (e Eye) camera() camera {
	switch e {
	case FromAbove:
		return camera{Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}}
	case FromFront:
		return camera{Vec{1, 0, 0}, Vec{0, 0, 1}, Vec{0, -1, 0}}
	case FromRight:
		return camera{Vec{0, 1, 0}, Vec{0, 0, 1}, Vec{1, 0, 0}}
	}
	a, b, c := 1/math.Sqrt2, 1/math.Sqrt(6), 1/math.Sqrt(3)
	return camera{Vec{a, a, 0}, Vec{-b, b, 2 * b}, Vec{c, -c, c}}
}

// Line is the kind of a stroke.
type Line int8

// The kinds of strokes.
const (
	Full   Line = iota // an edge, or where a bend turns out of sight: a full line
	Seam               // where a bend begins without an edge: a thin line, or none
	Hidden             // an edge behind metal: dashed
)

// Stroke is one run of a picture.
type Stroke struct {
	Line   Line
	Points []geom.Point
}

// View is a picture of the folded part, at full size in mm; y is up, and the
// place of the base's origin is 0, 0. Arcs are chords within num.ViewChord.
type View struct {
	Eye     Eye
	Strokes []Stroke // edges, then seams, then hidden edges
	Box     geom.Box
}

// View draws the folded part, hidden lines apart.
//
// Every line of the part is parted where the outline of a face crosses it in the
// picture, and each piece is covered if on both sides of it some face lies
// nearer to the eye. After A. Appel, "The notion of quantitative invisibility and
// the machine rendering of solids", Proceedings of the ACM National Conference
// (1967), DOI 10.1145/800196.806007, with faces counted anew for each piece.
func (g *Folded) View(e Eye) View {
	d := newDrawing(g, e.camera())
	for i := range g.Flat.Panels {
		d.panel(i)
	}
	for i := range g.Flat.Bends {
		d.bend(i)
	}
	d.corners()
	v := View{Eye: e, Strokes: d.strokes()}
	for _, s := range v.Strokes {
		for _, p := range s.Points {
			v.Box = v.Box.Extend(p)
		}
	}
	return v
}

// Views are the isometric picture and the views from above, from the front and
// from the right.
func (g *Folded) Views() []View {
	out := make([]View, eyes)
	for i := range out {
		out[i] = g.View(Eye(i))
	}
	return out
}

// Arrange puts views beside each other in third-angle projection: front below
// left, the top over it, the right beside it, the isometric over that, gap mm
// apart. It takes the four of Views.
func Arrange(vs []View, gap float64) []View {
	byEye := func(e Eye) *View {
		for i := range vs {
			if vs[i].Eye == e {
				return &vs[i]
			}
		}
		return &View{Eye: e}
	}
	front, top, right, iso := byEye(FromFront), byEye(FromAbove), byEye(FromRight), byEye(Isometric)
	x := max(front.Box.Max.X, top.Box.Max.X) + gap
	y := max(front.Box.Max.Y, right.Box.Max.Y) + gap
	return []View{
		iso.moved(x-iso.Box.Min.X, y-iso.Box.Min.Y),
		top.moved(0, y-top.Box.Min.Y),
		front.moved(0, 0),
		right.moved(x-right.Box.Min.X, 0),
	}
}

func (v *View) moved(dx, dy float64) View {
	d := geom.Point{X: dx, Y: dy}
	out := View{Eye: v.Eye, Strokes: make([]Stroke, len(v.Strokes))}
	for i, s := range v.Strokes {
		pts := make([]geom.Point, len(s.Points))
		for k, p := range s.Points {
			pts[k] = p.Add(d)
			out.Box = out.Box.Extend(pts[k])
		}
		out.Strokes[i] = Stroke{s.Line, pts}
	}
	return out
}

// dot is a point of the picture with its nearness to the eye.
type dot struct {
	geom.Point
	near float64
}

// drawing gathers the lines and faces of a picture.
type drawing struct {
	g     *Folded
	cam   camera
	lines []stretch
	faces []face

	// Used again for every line.
	index *columns
	found []int32
	over  []*face
	ts    []float64
	parts []part
}

// stretch is a run of straight pieces of one line.
type stretch struct {
	line Line
	dots []dot
	bare bool // left out where it is covered
}

func newDrawing(g *Folded, c camera) *drawing { return &drawing{g: g, cam: c} }

func (d *drawing) dot(v Vec) dot {
	return dot{geom.Point{X: v.Dot(d.cam.right), Y: v.Dot(d.cam.up)}, v.Dot(d.cam.eye)}
}

func (d *drawing) draw(line Line, bare bool, vs ...Vec) {
	s := stretch{line: line, bare: bare, dots: make([]dot, len(vs))}
	for i, v := range vs {
		s.dots[i] = d.dot(v)
	}
	d.lines = append(d.lines, s)
}

// chords gives points along a segment, both ends among them, so near each other
// that the chords stay within num.ViewChord of an arc.
func chords(s geom.Seg) []geom.Point {
	n := 1
	if s.Bulge != 0 {
		n = arcSteps(s.Circle().R, math.Abs(s.Sweep()))
	}
	out := make([]geom.Point, n+1)
	for i := range out {
		out[i] = s.At(float64(i) / float64(n))
	}
	return out
}

func arcSteps(r, sweep float64) int {
	step := math.Pi / 4
	if r > num.ViewChord {
		step = min(step, 2*math.Acos(1-num.ViewChord/r))
	}
	return max(1, int(math.Ceil(sweep/step-num.Angular)))
}

func polygonOf(l geom.Loop) []geom.Point {
	var out []geom.Point
	for _, s := range l {
		c := chords(s)
		out = append(out, c[:len(c)-1]...)
	}
	return out
}

// panel draws the faces, walls and edges of a panel.
func (d *drawing) panel(i int) {
	f := d.g.Flat
	p := &d.g.places[i]
	h := f.T / 2
	loops := append([]geom.Loop{f.Panels[i].Region.Outer}, f.Panels[i].Region.Holes...)
	for k := range f.Holes {
		if f.Holes[k].Panel == i {
			loops = append(loops, f.Holes[k].Loop)
		}
	}
	var joints []geom.Seg
	for k := range f.Bends {
		if f.Bends[k].Parent == i {
			joints = append(joints, f.Bends[k].Root)
		}
		if f.Bends[k].Child == i {
			joints = append(joints, f.Bends[k].Far)
		}
	}
	polys := make([][]geom.Point, len(loops))
	for k, l := range loops {
		polys[k] = polygonOf(l)
		for _, s := range l {
			for _, t := range freeParts(s, joints) {
				d.rim(p, t, h)
			}
		}
	}
	for _, side := range [2]float64{h, -h} {
		d.face(polys, func(q geom.Point) Vec { return p.at(q, side) })
	}
	for _, s := range loops[0] {
		if s.Bulge > 0 {
			d.turnOfArc(p, s, h, true)
		}
	}
	if math.Abs(p.n.Dot(d.cam.eye)) <= num.ViewContour { // from its side a hole shows as two dashed lines
		for _, l := range loops[1:] {
			for _, s := range l {
				if s.IsArc() {
					d.turnOfArc(p, s, h, false)
				}
			}
		}
	}
}

// rim draws a cut edge of a panel: its line on both sides and the wall between.
func (d *drawing) rim(p *plane, s geom.Seg, h float64) {
	c := chords(s)
	upper, lower := make([]Vec, len(c)), make([]Vec, len(c))
	for i, q := range c {
		upper[i], lower[i] = p.at(q, h), p.at(q, -h)
	}
	d.wall(upper, lower)
}

func (d *drawing) wall(upper, lower []Vec) {
	d.draw(Full, false, upper...)
	d.draw(Full, false, lower...)
	for i := 0; i+1 < len(upper); i++ {
		d.quad(upper[i], upper[i+1], lower[i+1], lower[i])
	}
}

// turnOfArc draws where the wall of a rounded corner, or of a hole, turns out of
// sight; bare where it is left out behind metal.
func (d *drawing) turnOfArc(p *plane, s geom.Seg, h float64, bare bool) {
	e := p.flatDir(d.cam.eye)
	l := e.Len()
	if l <= num.ViewContour {
		return
	}
	c := s.Circle()
	for _, k := range [2]float64{1, -1} {
		q := c.C.Add(e.Perp().Mul(k * c.R / l))
		// At its very end too, where a straight wall goes on along the line of sight.
		if offArc(&s, q) <= num.Coincident {
			d.draw(Full, bare, p.at(q, h), p.at(q, -h))
		}
	}
}

// freeParts is a segment less what it shares with the lines.
func freeParts(s geom.Seg, lines []geom.Seg) []geom.Seg {
	if s.Bulge != 0 {
		return []geom.Seg{s}
	}
	dir, l := s.DirA(), s.Length()
	taken := []span{}
	for _, t := range lines {
		u, v := t.A.Sub(s.A), t.B.Sub(s.A)
		if !num.Zero(dir.Cross(u)) || !num.Zero(dir.Cross(v)) {
			continue
		}
		a, b := dir.Dot(u), dir.Dot(v)
		if a, b = max(0, min(a, b)), min(l, max(a, b)); b-a > num.Coincident {
			taken = append(taken, span{a, b})
		}
	}
	if len(taken) == 0 {
		return []geom.Seg{s}
	}
	slices.SortFunc(taken, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var out []geom.Seg
	from := 0.0
	for _, t := range append(taken, span{l, l}) {
		if t.from-from > num.Coincident {
			out = append(out, geom.Line(s.At(from/l), s.At(t.from/l)))
		}
		from = max(from, t.to)
	}
	return out
}

// corners draws the lines through the thickness at the corners of the flat's
// outline.
func (d *drawing) corners() {
	f := d.g.Flat
	loops := append([]geom.Loop{f.Outline.Outer}, f.Outline.Holes...)
	for i := range f.Holes {
		loops = append(loops, f.Holes[i].Loop)
	}
	for _, l := range loops {
		for i := range l {
			next := &l[(i+1)%len(l)]
			if a, b := l[i].DirB(), next.DirA(); math.Abs(a.Cross(b)) > num.ViewCrease || a.Dot(b) < 0 {
				if u, v, ok := d.through(next.A); ok {
					d.draw(Full, false, u, v)
				}
			}
		}
	}
}

// through is where a point of the flat's outline lies on both sides of the
// folded plate.
func (d *drawing) through(q geom.Point) (u, v Vec, ok bool) {
	f := d.g.Flat
	for i := range f.Panels {
		if f.Panels[i].Region.Contains(q) != geom.Outside || d.onHole(i, q) {
			p := &d.g.places[i]
			return p.at(q, f.T/2), p.at(q, -f.T/2), true
		}
	}
	for i := range f.Bends {
		if f.Bends[i].Zone.Contains(q) != geom.Outside {
			r := d.roll(i)
			return r.at(q, r.bow.r), r.at(q, r.bow.r+r.bow.t), true
		}
	}
	return u, v, false
}

func (d *drawing) onHole(panel int, q geom.Point) bool {
	f := d.g.Flat
	for i := range f.Holes {
		if f.Holes[i].Panel == panel && f.Holes[i].Loop.Contains(q) == geom.OnEdge {
			return true
		}
	}
	return false
}

// roll is a bend for the picture: turned in steps, flat between them.
type roll struct {
	bow   *bow
	turns []float64 // where the steps end, from 0 to the whole angle
}

func (d *drawing) roll(i int) roll {
	w := &d.g.bends[i]
	n := arcSteps(w.r+w.t, w.angle)
	r := roll{bow: w}
	for k := range n + 1 {
		r.turns = append(r.turns, w.angle*float64(k)/float64(n))
	}
	if turn, ok := d.contour(w); ok {
		r.turns = append(r.turns, turn)
		slices.Sort(r.turns)
		r.turns = slices.CompactFunc(r.turns, func(a, b float64) bool { return math.Abs(b-a) <= num.Angular })
	}
	return r
}

// contour is the turn inside the bend at which it goes out of sight.
func (d *drawing) contour(w *bow) (float64, bool) {
	x, y := w.out.Dot(d.cam.eye), w.in.Dot(d.cam.eye)
	if math.Hypot(x, y) <= num.ViewContour {
		return 0, false
	}
	turn := math.Atan2(y, x)
	if turn < 0 {
		turn += math.Pi
	}
	return turn, turn > num.ViewContour && turn < w.angle-num.ViewContour
}

// at is the place of a point of the flat on the bend at a radius, on the chord
// of its step.
func (r *roll) at(q geom.Point, radius float64) Vec {
	w := r.bow
	v := q.Sub(w.root)
	x, turn := v.Dot(w.rootDir), v.Dot(w.outDir)/w.allow*w.angle
	k := 1
	for k < len(r.turns)-1 && r.turns[k] < turn {
		k++
	}
	a, b := r.turns[k-1], r.turns[k]
	p, s := w.round(x, a, radius), w.round(x, b, radius)
	return p.Add(s.Sub(p).Mul((turn - a) / (b - a)))
}

// height is the distance of a turn from the root in the flat.
func (r *roll) height(turn float64) float64 { return turn / r.bow.angle * r.bow.allow }

// bend draws the faces, walls, edges and seams of a bend.
func (d *drawing) bend(i int) {
	b := &d.g.Flat.Bends[i]
	r := d.roll(i)
	w := r.bow
	zone := polygonOf(b.Zone.Outer)
	for k := 1; k < len(r.turns); k++ {
		lo, hi := r.height(r.turns[k-1]), r.height(r.turns[k])
		strip := r.between(zone, lo, hi)
		if len(strip) < 3 {
			continue
		}
		for _, radius := range [2]float64{w.r, w.r + w.t} {
			d.face([][]geom.Point{strip}, func(q geom.Point) Vec { return r.at(q, radius) })
		}
	}
	for _, s := range b.Zone.Outer {
		if len(freeParts(s, []geom.Seg{b.Root, b.Far})) == 0 {
			continue
		}
		d.bentRim(&r, s)
	}
	d.seams(i, &r)
}

// bentRim draws a cut edge of a bend.
func (d *drawing) bentRim(r *roll, s geom.Seg) {
	var in, out []Vec
	c := chords(s)
	for k, q := range c {
		if k > 0 {
			for _, t := range r.crossings(c[k-1], q) {
				p := c[k-1].Add(q.Sub(c[k-1]).Mul(t))
				in, out = append(in, r.at(p, r.bow.r)), append(out, r.at(p, r.bow.r+r.bow.t))
			}
		}
		in, out = append(in, r.at(q, r.bow.r)), append(out, r.at(q, r.bow.r+r.bow.t))
	}
	d.wall(in, out)
}

// crossings are the shares of the way from p to q at which the steps of the roll
// end.
func (r *roll) crossings(p, q geom.Point) []float64 {
	a, b := p.Sub(r.bow.root).Dot(r.bow.outDir), q.Sub(r.bow.root).Dot(r.bow.outDir)
	var out []float64
	for _, turn := range r.turns[1 : len(r.turns)-1] {
		if h := r.height(turn); h > min(a, b)+num.Coincident && h < max(a, b)-num.Coincident {
			out = append(out, (h-a)/(b-a))
		}
	}
	slices.Sort(out)
	return out
}

// between is the part of a polygon whose height over the root lies between two
// (I. E. Sutherland and G. W. Hodgman, "Reentrant polygon clipping",
// Communications of the ACM 17 (1974), DOI 10.1145/360767.360802).
func (r *roll) between(poly []geom.Point, lo, hi float64) []geom.Point {
	height := func(q geom.Point) float64 { return q.Sub(r.bow.root).Dot(r.bow.outDir) }
	clip := func(poly []geom.Point, inside func(geom.Point) float64) []geom.Point {
		var out []geom.Point
		for i, q := range poly {
			p := poly[(i+len(poly)-1)%len(poly)]
			hp, hq := inside(p), inside(q)
			if (hp >= 0) != (hq >= 0) {
				out = append(out, p.Add(q.Sub(p).Mul(hp/(hp-hq))))
			}
			if hq >= 0 {
				out = append(out, q)
			}
		}
		return out
	}
	poly = clip(poly, func(q geom.Point) float64 { return height(q) - lo + num.Coincident })
	return clip(poly, func(q geom.Point) float64 { return hi - height(q) + num.Coincident })
}

// seams draws the lines along a bend: where it begins and ends, and where it
// turns out of sight.
func (d *drawing) seams(i int, r *roll) {
	b, w := &d.g.Flat.Bends[i], r.bow
	for _, radius := range [2]float64{w.r, w.r + w.t} {
		for _, s := range [2]struct {
			seg  geom.Seg
			turn float64
		}{{b.Root, 0}, {b.Far, w.angle}} {
			line := Seam
			if math.Abs(w.facing(s.turn).Dot(d.cam.eye)) <= num.ViewContour {
				line = Full
			}
			d.draw(line, line == Seam, r.at(s.seg.A, radius), r.at(s.seg.B, radius))
		}
		if turn, ok := d.contour(w); ok {
			q := w.root.Add(w.outDir.Mul(r.height(turn)))
			spans, _ := appendSpans(nil, nil, q, w.rootDir, b.Zone.Outer)
			for _, s := range spans {
				d.draw(Full, false, w.round(s.from, turn, radius), w.round(s.to, turn, radius))
			}
		}
	}
}

// facing is the direction of the bend's outer face at a turn.
func (w *bow) facing(turn float64) Vec {
	s, c := num.Sincos(turn)
	return w.out.Mul(s).Sub(w.in.Mul(c))
}
