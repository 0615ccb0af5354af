package geom

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"blankwright/flat/num"
)

const (
	halfTurn = math.Pi
	fullTurn = 2 * math.Pi
)

// Hull is the convex hull of discs, the belt round them: counter-clockwise,
// arcs on the very circles given, joined by their common outer tangents. A disc
// of radius 0 is a point and makes a sharp corner; discs inside others are
// dropped, and so are those that only reach the belt (their protrusion is under
// num.Collinear). One disc alone gives its whole circle. Arcs of more than half
// a turn come in two.
//
// The error, which carries the input, is for no disc at all, a negative or
// infinite number, or points that span no area.
//
// Method: gift wrapping over the direction of the outward normal. Disc j
// overtakes disc i where (Cj-Ci)·n = ri-rj. R. A. Jarvis, "On the
// identification of the convex hull of a finite set of points in the plane",
// Information Processing Letters 2 (1973), DOI 10.1016/0020-0190(73)90020-3;
// for discs D. Rappaport, "A convex hull algorithm for discs, and
// applications", Computational Geometry 1 (1992), DOI
// 10.1016/0925-7721(92)90015-K.
func Hull(circles []Circle) (Loop, error) {
	for i, c := range circles {
		if !num.Finite(c.C.X, c.C.Y, c.R) {
			return nil, hullError(circles, fmt.Sprintf("circle %d is not of finite numbers", i+1))
		}
		if c.R < 0 {
			return nil, hullError(circles, fmt.Sprintf("circle %d has radius %s, wanted 0 or more", i+1, short(c.R)))
		}
	}
	discs := notSwallowed(circles)
	if len(discs) == 0 {
		return nil, errors.New("hull of no circles; give one or more")
	}
	if len(discs) == 1 {
		if num.Zero(discs[0].R) {
			return nil, hullError(circles, "the hull is a single point; give a radius")
		}
		return CircleLoop(discs[0]), nil
	}
	belt, ok := wrap(discs)
	if !ok {
		return nil, hullError(circles, "the walk round the discs does not close")
	}
	l := beltLoop(discs, belt)
	if err := l.Validate(); err != nil {
		return nil, hullError(circles, err.Error())
	}
	return l, nil
}

func hullError(circles []Circle, what string) error {
	var b strings.Builder
	for i, c := range circles {
		if i > 0 {
			b.WriteString("; ")
		}
		b.Write(appendNumbers(nil, c.C.X, c.C.Y, c.R))
	}
	return fmt.Errorf("hull of circles: %s; circles (x y r) are %s", what, b.String())
}

// notSwallowed are the discs that no other disc holds, within num.Coincident;
// of equal ones the first.
func notSwallowed(circles []Circle) []Circle {
	bySize := slices.Clone(circles)
	slices.SortStableFunc(bySize, func(a, b Circle) int {
		switch {
		case a.R > b.R:
			return -1
		case a.R < b.R:
			return 1
		}
		return 0
	})
	kept := bySize[:0]
	for _, c := range bySize {
		if !slices.ContainsFunc(kept, func(k Circle) bool { return k.C.Dist(c.C)+c.R <= k.R+num.Coincident }) {
			kept = append(kept, c)
		}
	}
	return kept
}

// beltEdge is a stretch of belt from disc i to disc j with outward normal n at
// angle a (rad, 0 to 2π).
type beltEdge struct {
	i, j int
	n    Point
	a    float64
}

// wrap walks once round the discs, of which none holds another. ok is false if
// the walk does not come back.
func wrap(discs []Circle) (belt []beltEdge, ok bool) {
	cur, a := firstDisc(discs), 0.0
	for range 4*len(discs) + 4 { // the belt has fewer than 2n edges
		e := nextEdge(discs, cur, a)
		if k := slices.IndexFunc(belt, func(f beltEdge) bool { return f.i == e.i && f.j == e.j }); k >= 0 {
			return belt[k:], true
		}
		belt = append(belt, e)
		cur, a = e.j, e.a
	}
	return nil, false
}

// firstDisc is the disc reaching farthest right, of several the topmost.
func firstDisc(discs []Circle) int {
	reach := math.Inf(-1)
	for _, c := range discs {
		reach = max(reach, c.C.X+c.R)
	}
	first := -1
	for i, c := range discs {
		if c.C.X+c.R >= reach-num.Collinear && (first < 0 || c.C.Y > discs[first].C.Y) {
			first = i
		}
	}
	return first
}

// nextEdge is the edge by which the belt leaves disc i after its normal has
// reached the angle a.
func nextEdge(discs []Circle, i int, a float64) beltEdge {
	best, least := beltEdge{}, math.Inf(1)
	for j := range discs {
		if j == i {
			continue
		}
		e := tangentEdge(discs, i, j)
		if turn := turnTo(a, e.a); turn < least {
			best, least = e, turn
		}
	}
	// Of discs that touch the same tangent the farthest ends it: one that lies
	// on beyond far, on an edge over which nothing reaches.
	far := best
	reach := best.reach(discs, best.j)
	for j := range discs {
		if j == i || j == best.j {
			continue
		}
		// How far disc j stays under the tangent, times reach over its own reach,
		// is how far best.j would stand out over j's.
		if -best.above(discs, j)*reach > 2*num.Collinear*(reach+best.reach(discs, j)) {
			continue
		}
		e := tangentEdge(discs, i, j)
		if turnTo(best.a, e.a) >= halfTurn {
			continue
		}
		if r := e.reach(discs, far.j); r >= 0 && r < e.reach(discs, j) && e.holds(discs) {
			far = e
		}
	}
	return far
}

// tangentEdge is the outer tangent from disc i to disc j that has both on its
// left.
func tangentEdge(discs []Circle, i, j int) beltEdge {
	d := discs[j].C.Sub(discs[i].C)
	l, diff := d.Len(), discs[i].R-discs[j].R
	u := d.Mul(1 / l)
	c, s := diff/l, math.Sqrt(max(0, (l-diff)*(l+diff)))/l
	n := Point{c*u.X + s*u.Y, c*u.Y - s*u.X}
	return beltEdge{i, j, n, turnTo(0, math.Atan2(n.Y, n.X))}
}

// turnTo is the counter-clockwise turn from angle a to b, 0 <= turn < 2π.
func turnTo(a, b float64) float64 {
	t := b - a
	if t < 0 {
		t += fullTurn
	}
	if t >= fullTurn {
		t -= fullTurn
	}
	return t
}

// reach is how far along the edge's direction the disc k touches its tangent.
func (e beltEdge) reach(discs []Circle, k int) float64 {
	return e.n.Perp().Dot(discs[k].C.Sub(discs[e.i].C))
}

// above is how far disc k reaches beyond the edge's line.
func (e beltEdge) above(discs []Circle, k int) float64 {
	return e.n.Dot(discs[k].C.Sub(discs[e.i].C)) + discs[k].R - discs[e.i].R
}

// holds reports whether no disc reaches beyond the edge's line.
func (e beltEdge) holds(discs []Circle) bool {
	for k := range discs {
		if e.above(discs, k) > num.Collinear {
			return false
		}
	}
	return true
}

// beltLoop draws the belt.
func beltLoop(discs []Circle, belt []beltEdge) Loop {
	type stretch struct{ p, q Point }
	lines := make([]stretch, len(belt))
	for k, e := range belt {
		a, b := discs[e.i], discs[e.j]
		lines[k] = stretch{a.C.Add(e.n.Mul(a.R)), b.C.Add(e.n.Mul(b.R))}
	}
	l := make(Loop, 0, 3*len(belt))
	for k := range lines {
		m := (k + 1) % len(lines)
		if c := discs[belt[k].j]; tooSmall(c, turnTo(belt[k].a, belt[m].a)) {
			p := lines[k].q
			if num.Zero(c.R) {
				p = c.C
			}
			lines[k].q, lines[m].p = p, p
		}
	}
	for k := range lines {
		m := (k + 1) % len(lines)
		l = append(l, Line(lines[k].p, lines[k].q))
		if lines[k].q != lines[m].p {
			l = appendArc(l, discs[belt[k].j], lines[k].q, lines[m].p, belt[k].a, belt[m].a)
		}
	}
	return l
}

// tooSmall reports whether the arc of so many rad on c is a mere corner: its
// pieces, of half a turn at most, have chords not longer than num.Coincident.
func tooSmall(c Circle, turn float64) bool {
	if turn > halfTurn+num.TurnNoise {
		turn /= 2
	}
	return 2*c.R*math.Sin(turn/2) <= num.Coincident
}

// appendArc appends the counter-clockwise arc from p to q, which lie at the
// angles a and b, in two pieces if it is longer than half a turn.
func appendArc(l Loop, c Circle, p, q Point, a, b float64) Loop {
	turn := turnTo(a, b)
	if turn <= halfTurn+num.TurnNoise {
		return append(l, Arc(c, p, q, true))
	}
	mid := c.C.Polar(c.R, a+turn/2)
	return append(l, Arc(c, p, mid, true), Arc(c, mid, q, true))
}
