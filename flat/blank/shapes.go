package blank

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// draw makes the region of a shape: a loop, and the opening of a ring. what is
// how messages call it. ok is false where something is wrong with it; else its
// loops keep the kernel's rules: closed, no edge without length, simple.
func (m *maker) draw(s *describe.Shape, what string) (r geom.Region, ok bool) {
	m.shape, m.what = s, what
	before := len(m.problems)
	r, ok = m.kind(s)
	if !ok || len(m.problems) > before {
		return geom.Region{}, false
	}
	if s.Gusset != nil { // the kernel checks what it makes; the gusset is ours
		if err := r.Outer.Validate(); err != nil {
			m.brokenOutline(err)
			return geom.Region{}, false
		}
	}
	return r, true
}

// kind makes the region of whichever kind of shape is given.
func (m *maker) kind(s *describe.Shape) (r geom.Region, ok bool) {
	switch {
	case s.Tangent != nil:
		r.Outer, ok = m.tangent(s.Tangent, s.Pos)
	case s.Corners != nil:
		r.Outer, ok = m.corners(s.Corners, s.Pos)
	case s.Rectangle != nil:
		r.Outer, ok = m.rectangle(s.Rectangle)
	case s.Disc != nil:
		r.Outer, ok = m.disc(s.Disc)
	case s.Ring != nil:
		return m.ring(s.Ring)
	case s.Gusset != nil:
		r.Outer, ok = m.gusset(s.Gusset)
	case s.LinkPlate != nil:
		r.Outer, ok = m.linkPlate(s.LinkPlate)
	default:
		m.problems.AddHint(s.Pos, "give one of: tangent, corners, rectangle, disc, ring, gusset, link plate", "%s has no shape", m.what)
	}
	return r, ok
}

// brokenOutline says why and where an outline is no simple loop: at the corner
// at fault where there is one, else at the shape.
func (m *maker) brokenOutline(err error) {
	s := m.shape
	var bad *geom.InvalidError
	if !errors.As(err, &bad) {
		m.problems.Add(s.Pos, "%s cannot be made: %s", m.what, err.Error())
		return
	}
	at := m.text(bad.At.X) + ", " + m.text(bad.At.Y)
	if bad.Rule != geom.RuleSimple && bad.Rule != geom.RuleSpike {
		m.problems.Add(s.Pos, "%s is no closed loop at %s: %s", m.what, at, bad.Reason)
		return
	}
	pos, hint := s.Pos, ""
	n := len(s.Corners)
	if k := cornerAt(s.Corners, bad.At); k >= 0 {
		pos = s.Corners[k].Pos
		hint = fmt.Sprintf("corner %d lies on another side: move it away", k+1)
	} else if i, j, ok := nearestSides(s.Corners, bad.At); ok {
		pos = s.Corners[j].Pos
		hint = fmt.Sprintf("look at the sides from corner %d to %d and from corner %d to %d, and at the order of the corners",
			i+1, (i+1)%n+1, j+1, (j+1)%n+1)
	}
	m.problems.AddHint(pos, hint, "%s touches or crosses itself at %s", m.what, at)
}

// cornerAt gives the corner that lies at a place, -1 where none does.
func cornerAt(cs []describe.Corner, at geom.Point) int {
	return slices.IndexFunc(cs, func(c describe.Corner) bool {
		return num.Same(c.At.X.MM, at.X) && num.Same(c.At.Y.MM, at.Y)
	})
}

// nearestSides finds the two sides of an outline of corners that pass nearest to
// a place; side i runs from corner i to the next.
func nearestSides(cs []describe.Corner, at geom.Point) (int, int, bool) {
	if len(cs) < 3 {
		return 0, 0, false
	}
	first, second := -1, -1
	var d1, d2 float64
	for i := range cs {
		a, b := cs[i].At, cs[(i+1)%len(cs)].At
		side := geom.Line(geom.Point{X: a.X.MM, Y: a.Y.MM}, geom.Point{X: b.X.MM, Y: b.Y.MM})
		switch d := geom.PointSeg(at, side).D; {
		case first < 0 || d < d1:
			first, second, d1, d2 = i, first, d, d1
		case second < 0 || d < d2:
			second, d2 = i, d
		}
	}
	return min(first, second), max(first, second), true
}

// tangent is the belt round its bosses.
func (m *maker) tangent(bosses []describe.Boss, pos diag.Pos) (geom.Loop, bool) {
	circles, ok := m.bosses(bosses, nil)
	if !ok {
		return nil, false
	}
	if slices.ContainsFunc(bosses, func(b describe.Boss) bool { return b.Hollow.Yes || b.Waist.Set }) {
		return m.hollowBelt(bosses, circles, pos)
	}
	return m.belt(circles, pos)
}

// belt is the outline pulled tight round circles.
func (m *maker) belt(circles []geom.Circle, pos diag.Pos) (geom.Loop, bool) {
	l, err := geom.Hull(circles)
	if err != nil {
		m.problems.Add(pos, "the bosses make no outline: %s", err.Error())
		return nil, false
	}
	return l, true
}

// bosses finds the circles of the round bosses. radii, where given, are used
// instead of those of the bosses.
func (m *maker) bosses(bosses []describe.Boss, radii []float64) ([]geom.Circle, bool) {
	circles := make([]geom.Circle, len(bosses))
	all := true
	for i := range bosses {
		b := &bosses[i]
		c, ok := m.bossCentre(b)
		r := 0.0
		if radii != nil {
			r = radii[i]
		} else {
			var okR bool
			r, okR = m.size(b.Radius, "the radius of the boss", b.Pos)
			ok = ok && okR
		}
		circles[i] = geom.Circle{C: c, R: r}
		all = all && ok
	}
	return circles, all
}

// bossCentre is the centre of the hole that the boss goes round, or its place.
func (m *maker) bossCentre(b *describe.Boss) (geom.Point, bool) {
	switch {
	case b.Hole.Text != "" && b.At != nil:
		m.problems.Add(b.Pos, "a boss has both a hole and a place, wanted one of them")
		return geom.Point{}, false
	case b.Hole.Text != "":
		return m.holeCentre(b.Hole)
	case b.At != nil:
		return m.point(*b.At, "the place of the boss", b.Pos)
	}
	m.problems.AddHint(b.Pos, "give hole or at", "a boss has neither a hole nor a place")
	return geom.Point{}, false
}

// holeCentre finds a hole by its name.
func (m *maker) holeCentre(w describe.Word) (geom.Point, bool) {
	if i, ok := m.named[w.Text]; ok && i >= 0 {
		return m.holes[i].Centre, true
	} else if n, many := m.patterns[w.Text]; many {
		m.problems.AddHint(w.Pos, "name one of them: "+w.Text+".1 to "+w.Text+"."+strconv.Itoa(n),
			"hole %q is a pattern of %d holes", w.Text, n)
		return geom.Point{}, false
	} else if ok {
		return geom.Point{}, false // its own problem is noted already
	}
	if dot := strings.LastIndexByte(w.Text, '.'); dot > 0 {
		if i, ok := m.named[w.Text[:dot]]; ok {
			return m.member(w, i, w.Text[:dot], w.Text[dot:])
		}
	}
	hint := "name a hole that is listed under holes, or give the boss a place with at"
	var sets []string
	for i := range m.part.Holes {
		sets = append(sets, m.part.Holes[i].Name.Text)
	}
	if near := diag.Nearest(w.Text, sets); near != "" {
		hint = "did you mean " + quoted(near) + "?"
	}
	m.problems.AddHint(w.Pos, hint, "there is no hole %q", w.Text)
	return geom.Point{}, false
}

// member finds one hole of a set by a name that no hole has: `pivot.1` of a set
// of one. index is that of the set's own name.
func (m *maker) member(w describe.Word, index int, set, suffix string) (geom.Point, bool) {
	n, many := m.patterns[set]
	switch {
	case many:
		m.problems.AddHint(w.Pos, "they are named "+set+".1 to "+set+"."+strconv.Itoa(n),
			"there is no hole %q: %q has %d holes", w.Text, set, n)
	case index < 0: // its own problem is noted already
	case suffix == ".1":
		return m.holes[index].Centre, true
	default:
		m.problems.AddHint(w.Pos, "write hole: "+set, "there is no hole %q: %q is one hole", w.Text, set)
	}
	return geom.Point{}, false
}

// corners is the outline through its corners, in the order given, either way
// round.
func (m *maker) corners(cs []describe.Corner, pos diag.Pos) (geom.Loop, bool) {
	if len(cs) < 3 {
		m.problems.Add(pos, "an outline of %d corners encloses nothing, wanted 3 or more", len(cs))
		return nil, false
	}
	gs := make([]geom.Corner, len(cs))
	all := true
	for i := range cs {
		c := &cs[i]
		p, ok := m.point(c.At, "the corner", c.Pos)
		r, ch, okE := m.easing(c.Radius, c.Chamfer, c.Pos)
		gs[i] = geom.Corner{P: p, Radius: r, Chamfer: ch}
		all = all && ok && okE
	}
	if !all {
		return nil, false
	}
	return m.polygon(gs, func(i int) diag.Pos { return easingPos(cs[i].Radius, cs[i].Chamfer, cs[i].Pos) })
}

// easing is what takes the sharpness off a corner: a radius or a chamfer.
func (m *maker) easing(radius, chamfer describe.Length, pos diag.Pos) (r, c float64, ok bool) {
	r, ok1 := m.measure(radius, "the radius of the corner", pos)
	c, ok2 := m.measure(chamfer, "the chamfer of the corner", pos)
	if r != 0 && c != 0 {
		m.problems.Add(easingPos(chamfer, radius, pos), "a corner has both a radius and a chamfer, wanted one of them")
		return 0, 0, false
	}
	return r, c, ok1 && ok2
}

func easingPos(a, b describe.Length, pos diag.Pos) diag.Pos {
	switch {
	case a.Set && a.Pos.Line != 0:
		return a.Pos
	case b.Set && b.Pos.Line != 0:
		return b.Pos
	}
	return pos
}

// polygon makes the loop of the corners; at says where corner i was written.
func (m *maker) polygon(cs []geom.Corner, at func(int) diag.Pos) (geom.Loop, bool) {
	l, err := geom.Corners(cs)
	if err == nil {
		return l, true
	}
	var ce *geom.CornerError
	if !errors.As(err, &ce) || ce.Index < 0 || ce.Index >= len(cs) {
		m.brokenOutline(err)
		return nil, false
	}
	c := cs[ce.Index]
	if ce.Needed <= 0 {
		m.problems.Add(at(ce.Index), "corner %d: %s", ce.Index+1, ce.Reason)
		return nil, false
	}
	what, size := "radius", c.Radius
	if c.Chamfer > 0 {
		what, size = "chamfer", c.Chamfer
	}
	hint := "move the corners apart"
	if most := size * ce.Available / ce.Needed; !num.Zero(most) {
		hint = "make it " + m.text(most) + " or less, or " + hint
	}
	m.problems.AddHint(at(ce.Index), hint, "corner %d: a %s of %s takes %s of an edge that has %s free",
		ce.Index+1, what, m.text(size), m.text(ce.Needed), m.text(ce.Available))
	return nil, false
}

// rectangle is width by height round its centre.
func (m *maker) rectangle(d *describe.Rectangle) (geom.Loop, bool) {
	at, ok := m.point(d.At, "the centre of the rectangle", d.Pos)
	w, ok1 := m.size(d.Width, "the width of the rectangle", d.Pos)
	h, ok2 := m.size(d.Height, "the height of the rectangle", d.Pos)
	r, c, ok3 := m.easing(d.Radius, d.Chamfer, d.Pos)
	if !ok || !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	pos := easingPos(d.Radius, d.Chamfer, d.Pos)
	if most := min(w, h) / 2; max(r, c) > most && !num.Same(max(r, c), most) {
		what := "radius"
		if c > 0 {
			what = "chamfer"
		}
		m.problems.AddHint(pos, "make it "+m.text(most)+" or less",
			"a corner %s of %s does not fit a rectangle of %s by %s", what, m.text(max(r, c)), m.text(w), m.text(h))
		return nil, false
	}
	cs := make([]geom.Corner, 4)
	for i, q := range [4]geom.Point{{X: -w / 2, Y: -h / 2}, {X: w / 2, Y: -h / 2}, {X: w / 2, Y: h / 2}, {X: -w / 2, Y: h / 2}} {
		cs[i] = geom.Corner{P: at.Add(q), Radius: r, Chamfer: c}
	}
	return m.polygon(cs, func(int) diag.Pos { return pos })
}

// disc is a round plate.
func (m *maker) disc(d *describe.Disc) (geom.Loop, bool) {
	at, ok := m.point(d.At, "the centre of the disc", d.Pos)
	dia, ok1 := m.size(d.Diameter, "the diameter of the disc", d.Pos)
	if !ok || !ok1 {
		return nil, false
	}
	return geom.CircleLoop(geom.Circle{C: at, R: dia / 2}), true
}

// ring is a disc with a round opening at its centre.
func (m *maker) ring(d *describe.Ring) (r geom.Region, ok bool) {
	at, ok := m.point(d.At, "the centre of the ring", d.Pos)
	out, ok1 := m.size(d.Outside, "the outside diameter of the ring", d.Pos)
	in, ok2 := m.size(d.Inside, "the inside diameter of the ring", d.Pos)
	if !ok || !ok1 || !ok2 {
		return r, false
	}
	if in > out || num.Same(in, out) {
		m.problems.Add(ringPos(d), "the inside diameter of the ring is %s, wanted less than its outside diameter (%s)", m.text(in), m.text(out))
		return r, false
	}
	r.Outer = geom.CircleLoop(geom.Circle{C: at, R: out / 2})
	r.Holes = []geom.Loop{geom.CircleLoop(geom.Circle{C: at, R: in / 2}).Reverse()}
	return r, true
}

// ringPos is where the opening of a ring was written.
func ringPos(d *describe.Ring) diag.Pos { return easingPos(d.Inside, d.Inside, d.Pos) }

// ringOpening makes the opening of a ring the last of the part's holes.
func (m *maker) ringOpening(c geom.Circle) {
	h := Hole{
		Name: m.spareName("opening"), Pos: ringPos(m.part.Outline.Ring), Purpose: RingOpening, Method: Cut,
		Centre: c.C, Dia: 2 * c.R, CutDia: 2 * c.R, Source: "as described",
	}
	words{lead: "opening "}.finish(&h, m.part.Units)
	m.named[h.Name] = len(m.holes)
	m.holes = append(m.holes, h)
}

// spareName is a name that the file does not use.
func (m *maker) spareName(name string) string {
	for try, k := name, 2; ; k++ {
		if _, taken := m.named[try]; !taken && !m.taken[try] {
			return try
		}
		try = name + "-" + strconv.Itoa(k)
	}
}

// linkPlate is a bar with full-round ends: the belt round bosses in one line.
func (m *maker) linkPlate(d *describe.LinkPlate) (geom.Loop, bool) {
	if len(d.Through) < 2 {
		m.problems.AddHint(d.Pos, "for a single hole use disc", "a link plate goes through %d holes, wanted 2 or more", len(d.Through))
		return nil, false
	}
	radii, okR := m.linkRadii(d)
	circles, ok := m.bosses(d.Through, radii)
	if !ok || !okR || !m.inLine(d, circles) {
		return nil, false
	}
	return m.belt(circles, d.Pos)
}

// linkRadii gives the end radii by the widths, or nil where the bosses have
// radii of their own.
func (m *maker) linkRadii(d *describe.LinkPlate) ([]float64, bool) {
	n := len(d.Through)
	switch len(d.Widths) {
	case 0:
		return nil, true
	case 1, n:
	default:
		m.problems.Add(d.Pos, "a link plate through %d holes has %d widths, wanted 1 or %d", n, len(d.Widths), n)
		return make([]float64, n), false
	}
	radii := make([]float64, n)
	all := true
	for i := range radii {
		if i < len(d.Widths) {
			w, ok := m.size(d.Widths[i], "the width of the link plate", d.Pos)
			radii[i] = w / 2
			all = all && ok
		} else {
			radii[i] = radii[0]
		}
		if b := d.Through[i]; b.Radius.Set {
			m.problems.Add(easingPos(b.Radius, b.Radius, b.Pos), "a link plate has a width and a boss with a radius, wanted one of them")
			all = false
		}
	}
	return radii, all
}

// inLine holds the bosses of a link plate to one straight line, with a full
// round end at each end of it.
func (m *maker) inLine(d *describe.LinkPlate, cs []geom.Circle) bool {
	a, b := ends(cs)
	axis := cs[b].C.Sub(cs[a].C)
	length := axis.Len()
	if num.Zero(length) {
		m.problems.Add(d.Pos, "the holes of a link plate lie on one another")
		return false
	}
	ok := true
	for i, c := range cs {
		if off := math.Abs(axis.Cross(c.C.Sub(cs[a].C))) / length; !num.Zero(off) {
			m.problems.AddHint(d.Through[i].Pos, "move it into line, or use tangent, which takes bosses anywhere",
				"boss %d of the link plate is %s out of line", i+1, m.text(off))
			ok = false
		}
	}
	for _, e := range [2]int{a, b} {
		for i, c := range cs {
			if i != e && ok && c.C.Dist(cs[e].C)+cs[e].R <= c.R {
				m.problems.Add(d.Through[e].Pos, "the end of the link plate round boss %d is swallowed by boss %d", e+1, i+1)
				return false
			}
		}
	}
	return ok
}

// ends are the two of the circles whose centres lie farthest along their line.
func ends(cs []geom.Circle) (a, b int) {
	far := func(from int) int {
		best := from
		for i, c := range cs {
			if c.C.Dist(cs[from].C) > cs[best].C.Dist(cs[from].C) {
				best = i
			}
		}
		return best
	}
	b = far(0)
	a = far(b)
	if a > b {
		a, b = b, a
	}
	return a, b
}
