package fold

import (
	"errors"
	"math"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// node is a panel while the flat is made. Local coordinates of the base are the
// person's; those of a flange have x along its edge from the edge's left end
// and y from the tangent line where it begins.
type node struct {
	name   string
	up     int // the joint that it hangs on, -1 for the base
	region geom.Region
	shift  float64 // what the person's y is more than the local one
	edges  []Edge
	holes  []Hole
	kids   []int // joints that hang on it
	cuts   []cut
	piece  geom.Region // what is left of the region between the bends
	toFlat geom.Motion
}

// joint is a bend while the flat is made: one for each flange, in its order.
type joint struct {
	flange        *Flange
	bend          bend.Bend
	allow         bend.Allowance
	parent, child int // nodes

	// The edge in the parent's local coordinates: its left end, the directions
	// along it and out of the parent, its length.
	o, u, out geom.Point
	length    float64
	set       float64 // from the tangent line out to the edge
	from      float64 // from what the height is measured from to the flange's tangent line
	straight  float64 // height of the flange over its tangent line

	a, b   float64 // the flange's ends along the edge
	za, zb float64 // the bend's own ends
	left   end
	right  end
}

// end is what happens at one end of a bend.
type end struct {
	corner int     // the joint that it meets there, -1 if none
	land   float64 // how far the parent's metal goes on beside it
	round  float64 // radius of a round corner relief that cuts into the bend
}

// at is a point in the parent's local coordinates: x along the edge from its
// left end, y out from the tangent line.
func (j *joint) at(x, y float64) geom.Point {
	y -= j.set
	return geom.Point{X: j.o.X + j.u.X*x + j.out.X*y, Y: j.o.Y + j.u.Y*x + j.out.Y*y}
}

// motion carries the flange's local coordinates to its parent's.
func (j *joint) motion() geom.Motion {
	p := j.at(0, j.allow.Length)
	return geom.Rotate(math.Atan2(j.u.Y, j.u.X)).Then(geom.Translate(p.X, p.Y))
}

// along is the distance of a point of the parent from the edge's left end.
func (j *joint) along(p geom.Point) float64 { return p.Sub(j.o).Dot(j.u) }

func (j *joint) name() string { return j.flange.Name }

// maker carries what is known so far about the flat being made.
type maker struct {
	part     *Part
	nodes    []node
	joints   []joint
	problems Problems
	hits     []float64

	cornerSaid bool // a corner relief that is too large was told of
}

// tree reads the part into nodes and joints.
func (m *maker) tree() {
	p := m.part
	if !num.Finite(p.T) || p.T <= 0 {
		m.problems.add(BadValue, p.Base.name(), "", "plate thickness is %s, wanted more than nothing", mm(p.T))
		return
	}
	if len(p.Flanges) > MaxBends {
		m.problems.add(BadValue, p.Flanges[MaxBends].Name, "make it of two parts", "%d bends, wanted at most %d", len(p.Flanges), MaxBends)
		return
	}
	if err := p.Base.Region.Validate(); err != nil || len(p.Base.Region.Outer) == 0 {
		m.badBase(err)
		return
	}
	m.nodes = make([]node, 1, len(p.Flanges)+1)
	m.joints = make([]joint, 0, len(p.Flanges))
	m.nodes[0] = node{name: p.Base.name(), up: -1, region: p.Base.Region, edges: p.Base.Edges, holes: p.Base.Holes}
	m.reliefValues(p.Relief, p.Base.name(), "relief")
	m.reliefValues(p.Corner, p.Base.name(), "corner relief")
	for i := range p.Flanges {
		m.flange(&p.Flanges[i])
	}
}

func (m *maker) badBase(err error) {
	name := m.part.Base.name()
	var bad *geom.InvalidError
	switch {
	case errors.As(err, &bad):
		m.problems.add(BadValue, name, "", "outline of %s: %s", name, bad.Reason).at(bad.At)
	default:
		m.problems.add(BadValue, name, "", "%s has no outline", name)
	}
}

// flange adds one flange and its bend.
func (m *maker) flange(f *Flange) {
	before := len(m.problems)
	parent := m.find(f.On)
	switch {
	case f.Name == "" || m.find(f.Name) >= 0:
		m.problems.add(BadValue, f.Name, "", "flange name %q is empty or taken, wanted one of its own", f.Name)
		return
	case parent < 0:
		m.problems.add(BadValue, f.Name, "name a flange that stands before it in the list, or the base", "flange %s stands on %q, which there is not", f.Name, f.On)
		return
	}
	j := joint{flange: f, parent: parent, child: len(m.nodes), left: end{corner: -1}, right: end{corner: -1}}
	m.values(&j)
	if len(m.problems) > before || !m.edge(&j) || !m.sizes(&j) {
		return
	}
	region, ok := m.panel(&j)
	if !ok {
		return
	}
	m.nodes = append(m.nodes, node{
		name: f.Name, up: len(m.joints), region: region, shift: j.from,
		edges: flangeEdges(&j), holes: f.Holes, toFlat: j.motion().Then(m.nodes[parent].toFlat),
	})
	m.nodes[parent].kids = append(m.nodes[parent].kids, len(m.joints))
	m.joints = append(m.joints, j)
}

// find gives the node of a name, -1 if there is none.
func (m *maker) find(name string) int {
	if name == "" {
		return 0
	}
	for i := range m.nodes {
		if m.nodes[i].name == name {
			return i
		}
	}
	return -1
}

// values checks the numbers of a flange and finds its allowance.
func (m *maker) values(j *joint) {
	f := j.flange
	bad := func(hint, format string, args ...any) {
		m.problems.add(BadValue, f.Name, hint, "flange "+f.Name+": "+format, args...)
	}
	if !num.Finite(f.Height, f.Angle, f.Radius, f.Left, f.Right, f.TaperLeft, f.TaperRight) {
		bad("", "a number is not finite")
		return
	}
	j.bend = bend.Bend{T: m.part.T, R: f.Radius, A: f.Angle}
	if err := j.bend.Validate(); err != nil {
		bad("", "%s", err.Error())
		return
	}
	if most := m.part.MaxAngle; most > 0 && f.Angle > most+num.Angular {
		bad("bend it less, or have it bent elsewhere", "bend angle is %s, the shop bends at most %s", bend.Degrees(f.Angle), bend.Degrees(most))
	}
	if lean := math.Max(math.Abs(f.TaperLeft), math.Abs(f.TaperRight)); lean >= math.Pi/2 {
		bad("", "taper is %s, wanted less than 90 degrees", bend.Degrees(lean))
	}
	if f.Relief != nil {
		m.reliefValues(*f.Relief, f.Name, "relief")
	}
	rule := f.Rule
	if rule == nil {
		rule = m.part.Rule
	}
	if rule == nil {
		bad("give a K-factor, a deduction or a test bend", "nothing says how much flat length its bend takes")
		return
	}
	allow, err := rule.Allowance(j.bend)
	if err != nil {
		bad("", "%s", err.Error())
	} else if !num.Finite(allow.Length) || allow.Length <= num.Coincident {
		bad("", "its bend takes %s of flat length, wanted more than nothing", mm(allow.Length))
	}
	j.allow = allow
}

func (m *maker) reliefValues(r Relief, panel, what string) {
	if !num.Finite(r.Width, r.Past) || r.Width < 0 || r.Past < 0 {
		m.problems.add(BadValue, panel, "", "%s of %s: width %s and depth %s, wanted 0 or more", what, panel, mm(r.Width), mm(r.Past))
	}
}

// edge finds the edge that the flange stands on.
func (m *maker) edge(j *joint) bool {
	f := j.flange
	n := &m.nodes[j.parent]
	for _, e := range n.edges {
		if e.Name != f.Edge {
			continue
		}
		if j.parent == 0 {
			var ok bool
			if e, ok = alongOutline(e, n.region); !ok {
				m.problems.add(BadValue, f.Name, "", "flange %s: edge %q of %s runs along no straight part of its outline", f.Name, f.Edge, n.name).at(e.A)
				return false
			}
		}
		// Counter-clockwise the outline runs from the right end to the left.
		d := e.A.Sub(e.B)
		j.length = d.Len()
		j.o = e.B
		j.u = geom.Point{X: d.X / j.length, Y: d.Y / j.length}
		j.out = j.u.Perp()
		return true
	}
	m.problems.add(BadValue, f.Name, "edges of "+n.name+": "+edgeNames(n.edges), "flange %s stands on edge %q of %s, which there is not", f.Name, f.Edge, n.name)
	return false
}

func edgeNames(edges []Edge) string {
	s := ""
	for i, e := range edges {
		if i > 0 {
			s += ", "
		}
		s += e.Name
	}
	return s
}

// alongOutline turns an edge so that it runs as the outline does, with metal on
// its left. ok is false where no straight part of the outline lies on it.
func alongOutline(e Edge, r geom.Region) (Edge, bool) {
	d := e.B.Sub(e.A)
	l := d.Len()
	if !num.Finite(l) || num.Zero(l) {
		return e, false
	}
	d = d.Mul(1 / l)
	for i := -1; i < len(r.Holes); i++ {
		loop := r.Outer
		if i >= 0 {
			loop = r.Holes[i]
		}
		for k := range loop {
			s := &loop[k]
			u, v := s.A.Sub(e.A), s.B.Sub(e.A)
			if s.Bulge != 0 || !num.Zero(u.Cross(d)) || !num.Zero(v.Cross(d)) {
				continue
			}
			tu, tv := u.Dot(d), v.Dot(d)
			if min(l, max(tu, tv))-max(0, min(tu, tv)) <= num.Coincident {
				continue
			}
			if tv < tu {
				e.A, e.B = e.B, e.A
			}
			return e, true
		}
	}
	return e, false
}

// sizes works out what the references mean at this bend.
func (m *maker) sizes(j *joint) bool {
	f := j.flange
	j.set, j.from = j.bend.Setback(f.At), j.bend.Setback(f.From)
	if math.IsInf(j.set, 0) || math.IsInf(j.from, 0) {
		m.problems.add(BadValue, f.Name, "measure it outside, inside or from the tangent", "flange %s is turned back on itself: its outer faces meet nowhere", f.Name)
		return false
	}
	j.straight = f.Height - j.from
	if j.straight <= num.Coincident {
		m.problems.add(NoRoom, f.Name, "make it higher, or the radius smaller", "flange %s is %s high, of which the bend takes %s: no straight part is left", f.Name, mm(f.Height), mm(j.from))
		return false
	}
	j.a, j.b = something(f.Left), j.length-something(f.Right)
	if j.b-j.a <= num.Coincident {
		m.problems.add(NoRoom, f.Name, "make it wider", "flange %s has no width left: its ends take %s and %s of an edge of %s", f.Name, mm(f.Left), mm(f.Right), mm(j.length)).
			at(m.flatPoint(j.parent, j.at(j.length/2, j.set)))
		return false
	}
	return true
}

// freeEnd is from where to where the flange's free end reaches along its edge.
func (j *joint) freeEnd() (a, b float64) {
	return j.a + something(j.straight*math.Tan(j.flange.TaperLeft)), j.b - something(j.straight*math.Tan(j.flange.TaperRight))
}

// something is a length, or 0 where it is too little to be one.
func something(d float64) float64 {
	if math.Abs(d) < num.LeastStep {
		return 0
	}
	return d
}

// panel is the region of a flange in its local coordinates.
func (m *maker) panel(j *joint) (geom.Region, bool) {
	f := j.flange
	a, b := j.freeEnd()
	if b-a <= num.Coincident {
		m.problems.add(NoRoom, f.Name, "taper it less, or make it lower", "flange %s: its sides lean in so far that they meet below its %s", f.Name, mm(f.Height))
		return geom.Region{}, false
	}
	p := [4]geom.Point{{X: j.a}, {X: j.b}, {X: b, Y: j.straight}, {X: a, Y: j.straight}}
	if f.CornerLeft == (Corner{}) && f.CornerRight == (Corner{}) {
		return geom.Region{Outer: geom.Polygon(p[:]...)}, true
	}
	l, err := geom.Corners([]geom.Corner{
		{P: p[0]}, {P: p[1]},
		{P: p[2], Radius: f.CornerRight.Radius, Chamfer: f.CornerRight.Chamfer},
		{P: p[3], Radius: f.CornerLeft.Radius, Chamfer: f.CornerLeft.Chamfer},
	})
	if err != nil {
		which, reason := "", err.Error()
		var bad *geom.CornerError
		if errors.As(err, &bad) {
			reason = bad.Reason
			which = map[int]string{2: " right", 3: " left"}[bad.Index]
		}
		m.problems.add(BadValue, f.Name, "", "flange %s,%s corner of its free end: %s", f.Name, which, reason)
		return geom.Region{}, false
	}
	return geom.Region{Outer: l}, true
}

// The edges of every flange.
const (
	EndEdge   = "end"   // the free one
	LeftEdge  = "left"  // the side at the edge's left end
	RightEdge = "right" // the side at its right end
)

// flangeEdges are the edges of a flange in its local coordinates, running
// counter-clockwise.
func flangeEdges(j *joint) []Edge {
	a, b := j.freeEnd()
	p := [4]geom.Point{{X: j.a}, {X: j.b}, {X: b, Y: j.straight}, {X: a, Y: j.straight}}
	return []Edge{{EndEdge, p[2], p[3]}, {LeftEdge, p[3], p[0]}, {RightEdge, p[1], p[2]}}
}
