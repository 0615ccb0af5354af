package fold

import (
	"math"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// BladeTurn is the angle (rad) up to which a bend is made with the blade in it;
// what goes further is closed afterwards without it (common practice).
const BladeTurn = 3 * math.Pi / 4

// bladeReach is how far (mm) the blade, and the beam behind it, reach up from
// the bend: more than any part.
const bladeReach = 10_000.0

// NoseReach is how far (mm) the nose of a goosenecked punch reaches up from the
// bend before its throat makes room (common practice, from memory: 40 to 60 mm).
const NoseReach = 50.0

// Order finds an order in which all bends can be made with a straight blade:
// bends by their number in Flat.Bends. The outermost come first where it is
// free to choose.
//
// The blade stands on the inside of the bend along its whole length, as thin as
// a line and as high as the press, and halves the angle between the two sides.
// When a bend begins, and when it is done, no panel that is not part of the bend
// may stand in the blade's way, nor may the part have run into itself. That is
// all that is tested: not the die, the stops, the width or the shape of a
// punch, nor the swing in between. A part that passes may still need a tool of
// its own; where it does not pass, a straight tool cannot make it.
//
// The error is Problems of kind Blocked: each bend that could not be made with
// the largest set of others done, and what is in its way.
func (g *Folded) Order() ([]int, error) { return g.OrderWith(bladeReach) }

// OrderWith is Order for a blade that reaches only so far up from the bend, mm:
// with NoseReach, for a punch whose throat makes room beyond that.
func (g *Folded) OrderWith(reach float64) ([]int, error) {
	n := len(g.Flat.Bends)
	o := orderer{g: &Folded{Flat: g.Flat, places: make([]plane, len(g.places)), bends: make([]bow, len(g.bends))}, dead: make([]bool, 1<<uint(n)), reach: reach}
	if o.search(0, make([]int, 0, n)) {
		return o.found, nil
	}
	return nil, o.blocked(o.best)
}

type orderer struct {
	g     *Folded
	m     meeter
	reach float64
	dead  []bool // sets of bends from which the rest cannot be made
	best  uint   // the largest set that was reached
	count int
	found []int
}

func (o *orderer) search(done uint, way []int) bool {
	n := len(o.g.Flat.Bends)
	if len(way) == n {
		o.found = append([]int(nil), way...)
		return true
	}
	if len(way) > o.count {
		o.best, o.count = done, len(way)
	}
	for i := n - 1; i >= 0; i-- {
		next := done | 1<<uint(i)
		if next == done || o.dead[next] {
			continue
		}
		if _, ok := o.hindrance(done, i); ok {
			continue
		}
		if o.search(next, append(way, i)) {
			return true
		}
		o.dead[next] = true
	}
	return false
}

// hindrance is the panel that stands in the way of a bend when others are done.
func (o *orderer) hindrance(done uint, i int) (int, bool) {
	for _, turned := range [2]uint{done, done | 1<<uint(i)} {
		o.g.pose(turned, i)
		blade := o.g.blade(i, o.reach)
		b := &o.g.Flat.Bends[i]
		for k := range o.g.Flat.Panels {
			if k == b.Parent || k == b.Child {
				continue
			}
			s := slab{plane: o.g.places[k], half: o.g.Flat.T / 2, loops: []geom.Loop{o.g.Flat.Panels[k].Region.Outer}}
			if _, hit := o.m.meet(&s, &blade); hit {
				return k, true
			}
		}
	}
	return 0, false
}

// blade is the tool in a bend as it stands.
func (g *Folded) blade(i int, reach float64) slab {
	w := g.bends[i]
	half := w.angle / 2
	foot := w.axis.Add(w.in.Mul(-w.r))
	up := w.in
	if w.angle > 0 {
		s, c := num.Sincos(half)
		foot = w.round(0, half, w.r)
		up = w.in.Mul(c).Sub(w.out.Mul(s))
	} else {
		// Still flat: over the middle of the zone.
		foot = foot.Add(w.out.Mul(w.allow / 2))
	}
	p := plane{o: foot, x: w.along, y: up, n: w.along.Cross(up)}
	return slab{plane: p, half: 2 * num.Clearance, loops: []geom.Loop{
		geom.Polygon(geom.Point{}, geom.Point{X: w.length}, geom.Point{X: w.length, Y: reach}, geom.Point{Y: reach})}}
}

// blocked tells what is in the way of every bend that is left.
func (o *orderer) blocked(done uint) error {
	var ps Problems
	f := o.g.Flat
	for i := range f.Bends {
		if done>>uint(i)&1 == 1 {
			continue
		}
		if k, hit := o.hindrance(done, i); hit {
			b := &f.Bends[i]
			ps.add(Blocked, b.Name, "make the part of two, or ask the shop for a tool that reaches in",
				"no order of bends leaves room for a straight blade: %s stands in the way of the bend of flange %s, %s",
				f.panelName(k), b.Name, bend.Degrees(b.Bend.A)).at(b.Line.Mid())
		}
	}
	return ps.err()
}
