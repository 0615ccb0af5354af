package blank

import (
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/strength"
	"blankwright/flat/unit"
)

// Load is what acts on the plate, factor included: N, N·mm, mm.
type Load struct {
	Pos      diag.Pos
	Name     string     // `load 2` by its place in the file
	Case     string     // "" where the file has one load and names no case
	Holes    []string   // names of the holes that hold it, in the order of Blank.Holes; none where it acts on an edge
	Placed   bool       // At was written: the load may miss the middle of its holes
	At       geom.Point // where it acts: a place, the middle of an edge, or of its holes
	Force    geom.Point // on the plate, in its plane
	Moment   float64    // counter-clockwise positive
	Tension  float64    // along the bolts, pulling the plate off; of all of them together
	Planes   int        // shear planes of each bolt
	Threads  bool       // threads lie in the shear planes
	Pin      bool       // one pin instead of bolts
	Repeated bool
	Factor   float64
	Factored bool     // the factor was written
	Derived  string   // "drive", "traction", "braking" where the force was worked out; "" where it was written
	Assumed  []string // what had to be taken for granted, with the formulas of what was worked out
}

// Weld is a fillet weld along an edge of the plate.
type Weld struct {
	Pos       diag.Pos
	Name      string     // as the file names it, or `weld-1` by its place in the list
	Edge      string     // of a saddle or a tab; "" of a straight stretch
	Line      []geom.Seg // the whole edge, in the outline's direction: metal lies left of it
	Segs      []geom.Seg // what of it counts, ends taken off
	Leg       float64    // mm
	Sides     int        // of the plate: 1 or 2
	Electrode string     // `e70`
	FEXX      float64    // MPa
	Ends      float64    // taken off at each end, mm
	Asked     float64    // length written, mm; 0 where it is the whole edge
}

// Run is the length that counts on one side, mm.
func (w *Weld) Run() float64 { return pathLength(w.Segs) }

// WithLeg is the weld with another leg; where its ends are taken off by the leg
// they follow.
func (w Weld) WithLeg(leg float64) Weld {
	if num.Same(w.Ends, w.Leg) {
		w.Ends = leg
	}
	w.Leg = leg
	w.count()
	return w
}

// Whole is the weld along all of its edge.
func (w Weld) Whole() Weld {
	w.Asked = 0
	w.count()
	return w
}

// count works out what of the edge counts.
func (w *Weld) count() {
	total := pathLength(w.Line)
	off := w.Ends
	if w.Asked > 0 && w.Asked < total {
		off += (total - w.Asked) / 2
	}
	w.Segs = part(w.Line, off, total-off)
}

// part is what of a path lies between two lengths along it, mm.
func part(path []geom.Seg, from, to float64) []geom.Seg {
	var out []geom.Seg
	at := 0.0
	for i := range path {
		s := path[i]
		l := s.Length()
		a, b := max(0, from-at), min(l, to-at)
		at += l
		if b-a <= num.Coincident {
			continue
		}
		if a > 0 || b < l {
			s = sub(s, a/l, b/l)
		}
		out = append(out, s)
	}
	return out
}

// sub is the stretch of a segment between two shares of its length.
func sub(s geom.Seg, a, b float64) geom.Seg {
	if !s.IsArc() {
		return geom.Line(s.At(a), s.At(b))
	}
	return geom.Arc(s.Circle(), s.At(a), s.At(b), s.Bulge > 0)
}

// ksi in MPa: 1000 lbf/in2.
const ksi = 1000 * 4.4482216152605 / (unit.MM * unit.MM)

// loads works out what acts on the plate.
func (m *maker) loads(b *Blank) {
	list := m.part.Loads
	for i := range list {
		if l, ok := m.load(b, &list[i], i); ok {
			b.Loads = append(b.Loads, l)
		}
	}
}

func (m *maker) load(b *Blank, d *describe.Load, i int) (Load, bool) {
	l := Load{Pos: d.Pos, Name: "load " + strconv.Itoa(i+1), Case: d.Case.Text, Planes: 1, Factor: 1,
		Threads: d.Threads.Text != "out", Repeated: d.Repeated.Yes, Moment: d.Moment.NMM, Tension: d.Tension.N}
	if d.Shear.Text == "double" {
		l.Planes = 2
	}
	if d.Factor.Set {
		l.Factor, l.Factored = d.Factor.V, true
	}
	if !m.bear(b, d, &l) {
		return l, false
	}
	force := d.Force.N
	if d.From.Set {
		f, ok := m.derive(d, &l)
		if !ok {
			return l, false
		}
		force = f
	}
	l.Derived = d.From.Text
	l.Force = direction(d.Direction.Rad).Mul(force * l.Factor)
	l.Moment *= l.Factor
	l.Tension *= l.Factor
	return l, m.onOne(b, d, &l)
}

// onOne refuses what one hole cannot hold: a moment, or a load beside it.
func (m *maker) onOne(b *Blank, d *describe.Load, l *Load) bool {
	if len(l.Holes) != 1 {
		return true
	}
	if l.Moment != 0 {
		m.problems.AddHint(d.Moment.Pos, "give two holes or more that hold it", "one hole holds no moment")
		return false
	}
	if !l.Placed {
		return true
	}
	i := slices.IndexFunc(b.Holes, func(h Hole) bool { return h.Name == l.Holes[0] })
	lever := l.At.Sub(b.Holes[i].Centre)
	beside := l.Force.Len() > 0 && !num.Zero(lever.Cross(l.Force)/l.Force.Len())
	if beside || l.Tension != 0 && !num.Zero(lever.Len()) {
		m.problems.AddHint(d.Pos, "give the other holes that hold it under on:, or let the load act at the hole",
			"%s acts beside hole %q, and one hole holds no lever", l.Name, l.Holes[0])
		return false
	}
	return true
}

// bear finds what holds a load, and where it acts.
func (m *maker) bear(b *Blank, d *describe.Load, l *Load) bool {
	if d.Edge.Text != "" {
		i := slices.IndexFunc(b.Edges, func(e Edge) bool { return e.Name == d.Edge.Text })
		if i < 0 {
			m.noEdge(b, d.Edge)
			return false
		}
		path := edgePath(b, b.Edges[i].Segs)
		if len(path) == 0 {
			m.problems.Add(d.Edge.Pos, "nothing is left of edge %q for a load to act on", d.Edge.Text)
			return false
		}
		if len(m.part.Welds) == 0 {
			m.problems.AddHint(d.Edge.Pos, "add welds: and the weld that holds it, or name the holes it acts on",
				"%s acts on edge %q, and the file has no weld for it to go into: nothing would be computed", l.Name, d.Edge.Text)
			return false
		}
		l.At = path[len(path)/2].Mid()
		return true
	}
	names := d.Group
	if d.Hole.Text != "" {
		names = append(slices.Clone(names), d.Hole)
	}
	var sum geom.Point
	for i := range b.Holes {
		h := &b.Holes[i]
		if slices.ContainsFunc(names, func(w describe.Word) bool { return w.Text == h.Name || w.Text == h.Set }) {
			l.Holes = append(l.Holes, h.Name)
			sum = sum.Add(h.Centre)
			l.Pin = l.Pin || h.Bolt == nil
		}
	}
	for _, w := range names {
		if !slices.ContainsFunc(b.Holes, func(h Hole) bool { return w.Text == h.Name || w.Text == h.Set }) {
			m.problems.Add(w.Pos, "no hole %q can hold a load", w.Text)
			return false
		}
	}
	if len(l.Holes) == 0 {
		m.problems.Add(l.Pos, "a load acts on nothing")
		return false
	}
	l.At = sum.Mul(1 / float64(len(l.Holes)))
	if d.Point != nil {
		at, ok := m.point(*d.Point, "the place of the load", d.Pos)
		if !ok {
			return false
		}
		l.At, l.Placed = at, true
	}
	switch d.As.Text {
	case "pin":
		l.Pin = true
	case "bolt":
		if l.Pin {
			m.problems.AddHint(d.As.Pos, "give the hole a bolt, or write as: pin", "a load is taken as a bolt's, and its hole takes none")
			return false
		}
	}
	if l.Pin && len(l.Holes) > 1 {
		why := "not all of them take bolts"
		if d.As.Text == "pin" {
			why = "pins share none evenly"
		}
		m.problems.AddHint(d.Pos, "give a load to each pin", "a load is shared by %d holes, and %s", len(l.Holes), why)
		return false
	}
	if l.Pin && d.Tension.Set {
		m.problems.AddHint(d.Tension.Pos, "leave it out, or give the hole a bolt", "a load pulls along a pin, which has no head to hold it")
		return false
	}
	return true
}

func (m *maker) noEdge(b *Blank, w describe.Word) {
	var known []string
	for i := range b.Edges {
		known = append(known, b.Edges[i].Name)
	}
	hint := "the part has no saddle and no tab"
	if len(known) > 0 {
		hint = "there are " + strings.Join(known, ", ")
	}
	if near := diag.Nearest(w.Text, known); near != "" {
		hint = "write " + near
	}
	m.problems.AddHint(w.Pos, hint, "no edge is named %q", w.Text)
}

// derive works a force out from the axle.
func (m *maker) derive(d *describe.Load, l *Load) (float64, bool) {
	a := m.part.Axle
	if a == nil || a.Link == nil {
		m.problems.Add(d.From.Pos, "from: %s needs an axle with a link", d.From.Text)
		return 0, false
	}
	u := strength.Metric
	if m.part.Units == unit.Inch {
		u = strength.Inch
	}
	note := func(v strength.Derived) {
		l.Assumed = append(l.Assumed, v.What+": "+v.Formula(u))
		l.Assumed = append(l.Assumed, v.Assumptions()...)
	}
	var torque strength.Derived
	r := a.Tyre.MM
	switch d.From.Text {
	case "drive":
		torque = strength.MotorTorque(a.Motor.NMM, a.Ratio.V, a.Efficiency.V)
		if a.Load.Set && a.Grip.Set && a.Tyre.Set {
			slip := strength.TractionTorque(a.Grip.V, a.Load.N, r)
			if slip.V < torque.V {
				l.Assumed = append(l.Assumed, "the drive could give more: "+torque.Formula(u))
			}
			torque = strength.DriveTorque(torque, slip)
		}
	case "traction":
		torque = strength.TractionTorque(a.Grip.V, a.Load.N, r)
	default:
		torque = strength.BrakeTorque(a.Grip.V, a.Load.N, r)
	}
	note(torque)
	var f strength.Derived
	if a.Link.Arm.Set {
		f = strength.OneLink(torque.V, a.Link.Arm.MM)
	} else {
		fx := strength.TyreForce(torque.V, r)
		note(fx)
		lower, upper := strength.TwoLinks(fx.V, r, a.Link.Above.MM, a.Link.Below.MM)
		f = lower
		if d.Link.Text == "upper" {
			f = upper
		}
	}
	note(f)
	if !num.Finite(f.V) || f.V == 0 {
		m.problems.Add(d.From.Pos, "the axle gives no force that can be worked with")
		return 0, false
	}
	return f.V, true
}

// edgePath is a stretch of the outline.
func edgePath(b *Blank, segs []int) []geom.Seg {
	path := make([]geom.Seg, len(segs))
	for i, k := range segs {
		path[i] = b.Outline[k]
	}
	return path
}

// welds works out the welds along the outline.
func (m *maker) welds(b *Blank) {
	list := m.part.Welds
	for i := range list {
		d := &list[i]
		w := Weld{Pos: d.Pos, Name: "weld-" + strconv.Itoa(i+1), Leg: d.Leg.MM, Sides: 1, Electrode: d.Electrode.Text,
			Edge: d.Edge.Text, Ends: d.Leg.MM, Asked: d.Length.MM}
		if d.Name.Text != "" {
			w.Name = d.Name.Text
		}
		if d.Both.Yes {
			w.Sides = 2
		}
		if d.Ends.Set {
			w.Ends = d.Ends.MM
		}
		strong, _ := strconv.ParseFloat(strings.TrimPrefix(w.Electrode, "e"), 64)
		w.FEXX = strong * ksi
		if !m.weldLine(b, d, &w) {
			continue
		}
		if long := pathLength(w.Line); w.Asked > 0 && !num.AtMost(w.Asked, long) {
			m.problems.AddHint(d.Length.Pos, "leave length: out to weld all of it", "%s is %s long, and its edge %s", w.Name, m.text(w.Asked), m.text(long))
			continue
		}
		w.count()
		if len(w.Segs) == 0 {
			m.problems.AddHint(d.Pos, "a longer edge, or a smaller leg", "nothing is left of %s after %s is taken off each end", w.Name, m.text(w.Ends))
			continue
		}
		if i := slices.IndexFunc(b.Welds, func(k Weld) bool { return runAlong(k.Segs, w.Segs) }); i >= 0 {
			m.problems.AddHint(d.Pos, "keep one of them; a weld on either side of the plate is both sides: yes",
				"%s runs where %s runs, and would be counted twice", w.Name, b.Welds[i].Name)
			continue
		}
		b.Welds = append(b.Welds, w)
	}
}

// runAlong reports whether two paths along the outline share more than a point.
func runAlong(p, q []geom.Seg) bool {
	for i := range p {
		for j := range q {
			if overlaps(p[i], q[j]) {
				return true
			}
		}
	}
	return false
}

// overlaps reports whether two segments run along each other for a stretch. Of two
// that lie on one curve, each stretch that they share is met by the middle of one of
// them, or by a place just inside one of its ends.
func overlaps(s, t geom.Seg) bool {
	on := func(a, b geom.Seg) bool {
		l := a.Length()
		in := min(4*num.Coincident/l, 0.5)
		for _, v := range [3]float64{in, 0.5, 1 - in} {
			p := a.At(v)
			if geom.PointSeg(p, b).D > num.Coincident {
				continue
			}
			// Along it there, and not only across.
			if near := min(v+in/2, 1); geom.PointSeg(a.At(near), b).D <= num.Coincident && geom.PointSeg(a.At(max(v-in/2, 0)), b).D <= num.Coincident {
				return sameCurve(a, b)
			}
		}
		return false
	}
	return on(s, t) || on(t, s)
}

// sameCurve reports whether two segments lie on one line or one circle.
func sameCurve(s, t geom.Seg) bool {
	if s.IsArc() != t.IsArc() {
		return false
	}
	if s.IsArc() {
		return num.Same(s.Circle().R, t.Circle().R) && num.Zero(s.Circle().C.Dist(t.Circle().C))
	}
	d := s.DirA()
	return num.Zero(d.Cross(t.A.Sub(s.A))) && num.Zero(d.Cross(t.B.Sub(s.A)))
}

// pathLength is the length of a path, mm.
func pathLength(path []geom.Seg) float64 {
	sum := 0.0
	for i := range path {
		sum += path[i].Length()
	}
	return sum
}

func (m *maker) weldLine(b *Blank, d *describe.Weld, w *Weld) bool {
	if w.Edge != "" {
		i := slices.IndexFunc(b.Edges, func(e Edge) bool { return e.Name == w.Edge })
		if i < 0 {
			m.noEdge(b, d.Edge)
			return false
		}
		w.Line = edgePath(b, b.Edges[i].Segs)
		return len(w.Line) > 0
	}
	if d.From == nil || d.To == nil {
		m.problems.Add(d.Pos, "a weld has no edge")
		return false
	}
	from, ok := m.point(*d.From, "the start of the weld", d.Pos)
	to, ok2 := m.point(*d.To, "the end of the weld", d.Pos)
	if !ok || !ok2 {
		return false
	}
	for i := range b.Outline {
		s := b.Outline[i]
		if s.IsArc() {
			continue
		}
		p, q := geom.PointSeg(from, s), geom.PointSeg(to, s)
		if p.D > num.OnEdge || q.D > num.OnEdge || p.Q.Dist(q.Q) <= num.Coincident {
			continue
		}
		if q.Q.Sub(p.Q).Dot(s.DirA()) < 0 {
			p, q = q, p
		}
		w.Line = []geom.Seg{geom.Line(p.Q, q.Q)}
		return true
	}
	m.problems.AddHint(d.Pos, "both ends have to lie on one straight edge of the outline", "a weld does not run along an edge")
	return false
}

// mirrored is the load on the mirror image of the plate.
func (l Load) mirrored() Load {
	l.At, l.Force, l.Moment = acrossY.point(l.At), acrossY.point(l.Force), 0-l.Moment
	return l
}

// mirrored is the weld on the mirror image of the plate.
func (w Weld) mirrored() Weld {
	w.Line, w.Segs = mirroredPath(w.Line), mirroredPath(w.Segs)
	return w
}

func mirroredPath(path []geom.Seg) []geom.Seg {
	l := make([]geom.Seg, len(path))
	for i := range path {
		l[len(l)-1-i] = path[i].Transform(geom.MirrorY()).Reverse()
	}
	return l
}
