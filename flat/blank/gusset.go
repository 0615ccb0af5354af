package blank

import (
	"math"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// gussetPlan is a gusset with its root corner at 0,0 and its first leg along
// +x, all in mm and rad.
type gussetPlan struct {
	legs, toes [2]float64
	angle      float64
	snipe      float64
	round      bool // the snipe is an arc about the root
	hollow     float64
}

// gusset is a plate in the corner of two members: two legs from the root, the
// blunt end (toe) of each square to its leg, the root sniped off to clear the
// weld, and a free edge from toe to toe, straight or hollowed out.
func (m *maker) gusset(d *describe.Gusset) (geom.Loop, bool) {
	at, ok := m.point(d.At, "the root corner of the gusset", d.Pos)
	g, okG := m.gussetPlan(d)
	if !ok || !okG {
		return nil, false
	}
	l, ok := m.gussetLoop(d, g)
	if !ok {
		return nil, false
	}
	return l.Transform(geom.Translate(at.X, at.Y)), true
}

// gussetPlan reads the lengths and checks those that one look can check.
func (m *maker) gussetPlan(d *describe.Gusset) (gussetPlan, bool) {
	g := gussetPlan{angle: math.Pi / 2}
	all := true
	take := func(v float64, ok bool) float64 { all = all && ok; return v }
	for i, which := range [2]string{"first", "second"} {
		g.legs[i] = take(m.size(d.Legs[i], "the "+which+" leg of the gusset", d.Pos))
		g.toes[i] = take(m.measure(d.Toes[i], "the "+which+" toe of the gusset", d.Pos))
	}
	if d.Angle.Set {
		g.angle = take(m.angle(d.Angle, "the angle of the gusset", d.Pos))
		if all && (g.angle <= num.Angular || g.angle >= math.Pi-num.Angular) {
			m.problems.Add(d.Angle.Pos, "the angle between the legs is %s deg, wanted more than 0 and less than 180",
				num.Short(g.angle*180/math.Pi, 3))
			all = false
		}
	}
	g.snipe = take(m.measure(d.Snipe, "the snipe of the gusset", d.Pos))
	g.hollow = take(m.measure(d.Hollow, "the hollow of the gusset", d.Pos))
	switch d.SnipeKind.Text {
	case "", "straight":
	case "round":
		g.round = true
	default:
		m.problems.AddHint(d.SnipeKind.Pos, "a snipe is one of: straight, round", "unknown snipe %q", d.SnipeKind.Text)
		all = false
	}
	if short := min(g.legs[0], g.legs[1]); all && g.snipe > 0 && (g.snipe > short || num.Same(g.snipe, short)) {
		m.problems.Add(easingPos(d.Snipe, d.Snipe, d.Pos), "a snipe of %s leaves nothing of a leg of %s", m.text(g.snipe), m.text(short))
		all = false
	}
	return g, all
}

// gussetLoop walks round the gusset counter-clockwise: first leg, its toe, the
// free edge, the other toe, the second leg, the snipe.
func (m *maker) gussetLoop(d *describe.Gusset, g gussetPlan) (geom.Loop, bool) {
	u := direction(g.angle)           // along the second leg
	in := geom.Point{X: u.Y, Y: -u.X} // from the second leg into the plate
	leg1, leg2 := geom.Point{X: g.legs[0]}, u.Mul(g.legs[1])
	toe1, toe2 := geom.Point{X: g.legs[0], Y: g.toes[0]}, leg2.Add(in.Mul(g.toes[1]))
	cut1, cut2 := geom.Point{X: g.snipe}, u.Mul(g.snipe)
	if num.Zero(cut1.Dist(cut2)) { // nothing to cut off
		g.snipe, cut1, cut2 = 0, geom.Point{}, geom.Point{}
	}

	// Seen from the root, first toe before second toe and both between the legs:
	// then the plate is star-shaped about its root, and so simple.
	if toe1.Cross(toe2) <= 0 || num.Zero(toe1.Dist(toe2)) || toe1.Cross(u) <= 0 || toe2.Y <= 0 {
		m.problems.AddHint(easingPos(d.Toes[0], d.Toes[1], d.Pos), "make the toes narrower or the legs longer",
			"toes of %s and %s on legs of %s and %s leave no free edge between them",
			m.text(g.toes[0]), m.text(g.toes[1]), m.text(g.legs[0]), m.text(g.legs[1]))
		return nil, false
	}
	free, ok := m.freeEdge(d, g, toe1, toe2)
	if !ok {
		return nil, false
	}
	l := make(geom.Loop, 0, 6)
	edge := func(s geom.Seg) {
		if !num.Zero(s.A.Dist(s.B)) {
			l = append(l, s)
		}
	}
	edge(geom.Line(cut1, leg1))
	edge(geom.Line(leg1, toe1))
	l = append(l, free)
	edge(geom.Line(toe2, leg2))
	edge(geom.Line(leg2, cut2))
	if g.snipe > 0 {
		snipe := geom.Line(cut2, cut1)
		if g.round {
			snipe = geom.Arc(geom.Circle{R: g.snipe}, cut2, cut1, false)
		}
		if num.Zero(geom.SegSeg(snipe, free).D) {
			m.problems.AddHint(easingPos(d.Snipe, d.Snipe, d.Pos), "make the snipe smaller or the legs longer",
				"a snipe of %s reaches the free edge", m.text(g.snipe))
			return nil, false
		}
		l = append(l, snipe)
	}
	return l, true
}

// freeEdge is the edge from toe to toe: straight, or an arc of the hollow's
// radius that curves in towards the root.
func (m *maker) freeEdge(d *describe.Gusset, g gussetPlan, from, to geom.Point) (geom.Seg, bool) {
	if g.hollow == 0 {
		return geom.Line(from, to), true
	}
	pos := easingPos(d.Hollow, d.Hollow, d.Pos)
	chord := to.Sub(from)
	half := chord.Len() / 2
	if g.hollow < half && !num.Same(g.hollow, half) {
		m.problems.AddHint(pos, "make it "+m.text(half)+" or more",
			"a hollow of radius %s does not span the %s from toe to toe", m.text(g.hollow), m.text(2*half))
		return geom.Seg{}, false
	}
	// The centre lies outside the plate, to the right of the way from toe to toe.
	back := math.Sqrt(max(0, (g.hollow-half)*(g.hollow+half)))
	centre := from.Add(chord.Mul(0.5)).Sub(chord.Perp().Mul(back / (2 * half)))
	arc := geom.Arc(geom.Circle{C: centre, R: g.hollow}, from, to, false)
	if !hollowClears(arc) {
		m.problems.AddHint(pos, "make the radius larger, or the toes wider",
			"a hollow of radius %s cuts into a leg, a toe or the root", m.text(g.hollow))
		return geom.Seg{}, false
	}
	return arc, true
}

// hollowClears reports whether the hollowed edge stays inside the plate: seen
// from the root it only ever turns from the first toe towards the second. The
// near side of a circle does so between the two tangents from the root, so both
// ends of the arc decide.
func hollowClears(arc geom.Seg) bool {
	turns := func(p, dir geom.Point) bool {
		sine := p.Cross(dir) / p.Len()
		return sine > 0 && !num.SameAngle(sine, 0)
	}
	return turns(arc.A, arc.DirA()) && turns(arc.B, arc.DirB())
}
