package drawing

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// chain is a run of pieces joined end to end.
type chain struct {
	from, to int32 // its links
	closed   bool
	contour  int32 // its place in Assembly.Contours, -1
	mark     bool
}

// link is a piece of a chain; back means that it is run from B to A.
type link struct {
	piece int32
	back  bool
}

// makeChains follows the joints, beginning with the first piece in the file.
func (a *assembler) makeChains() {
	a.chainOf = make([]int32, len(a.pieces))
	for i := range a.chainOf {
		a.chainOf[i] = -1
	}
	a.links = make([]link, 0, len(a.pieces))
	for i := range int32(len(a.pieces)) {
		if a.pieces[i].gone || a.chainOf[i] >= 0 {
			continue
		}
		start := 2 * i // an end is left towards the other end of its piece
		closed := a.mate[a.far(start)] == start
		if !closed {
			start = a.far(start + 1)
		}
		a.follow(start, closed)
	}
}

// follow makes a chain of the line that leaves at an end.
func (a *assembler) follow(start int32, closed bool) {
	c := chain{from: int32(len(a.links)), closed: closed, contour: -1}
	id := int32(len(a.chains))
	for e := start; ; {
		a.links = append(a.links, link{e >> 1, e&1 == 1})
		a.chainOf[e>>1] = id
		m := a.mate[e^1]
		if m < 0 || m == start {
			break
		}
		e = m
	}
	c.to = int32(len(a.links))
	a.chains = append(a.chains, c)
}

func (a *assembler) linksOf(c *chain) []link { return a.links[c.from:c.to] }

// seg is the segment of a link the way it is run.
func (a *assembler) seg(l link) geom.Seg {
	s := a.pieces[l.piece].seg
	if l.back {
		return s.Reverse()
	}
	return s
}

// exactAt reports whether the link's start (0) or end (1) is a coordinate of the
// file.
func (a *assembler) exactAt(l link, end int) bool {
	if l.back {
		end = 1 - end
	}
	return a.pieces[l.piece].exact[end]
}

// joints moves the ends of the links of a chain together and gives its
// segments. Parts of one piece that follow each other become one again.
func (a *assembler) joints(c *chain) []geom.Seg {
	ls := a.linksOf(c)
	n := len(ls)
	segs := make([]geom.Seg, n)
	for i, l := range ls {
		segs[i] = a.seg(l)
	}
	starts, ends := make([]geom.Point, n), make([]geom.Point, n)
	for i := range segs {
		starts[i], ends[i] = segs[i].A, segs[i].B
	}
	last := n
	if !c.closed {
		last = n - 1
	}
	for i := range last {
		j := (i + 1) % n
		p := a.joint(&segs[i], &segs[j], a.exactAt(ls[i], 1), a.exactAt(ls[j], 0), ls[i].piece)
		ends[i], starts[j] = p, p
	}
	out := segs[:0]
	for i := range segs {
		s := withEnds(segs[i], starts[i], ends[i])
		if k := len(out); k > 0 && a.pieces[ls[i].piece].origin == a.pieces[ls[i-1].piece].origin {
			if m, ok := rejoined(&out[k-1], &s); ok {
				out[k-1] = m
				continue
			}
		}
		out = append(out, s)
	}
	if k := len(out); c.closed && k > 2 && a.pieces[ls[0].piece].origin == a.pieces[ls[n-1].piece].origin {
		if m, ok := rejoined(&out[k-1], &out[0]); ok {
			out[0] = m
			out = out[:k-1]
		}
	}
	return out
}

// rejoined is the one segment that two parts of one segment make.
func rejoined(s, t *geom.Seg) (geom.Seg, bool) {
	if s.IsArc() || t.IsArc() {
		return oneArc(s, t, num.Coincident)
	}
	m := geom.Line(s.A, t.B)
	return m, geom.PointSeg(s.B, m).D <= num.Coincident && s.A != t.B
}

// joint is the place where the end of s and the start of t are brought together,
// and notes what that changes.
func (a *assembler) joint(s, t *geom.Seg, exactS, exactT bool, piece int32) geom.Point {
	p, q := s.B, t.A
	if p == q {
		return p
	}
	if close2(p, q, 2*num.Coincident) {
		if exactT && !exactS {
			return q
		}
		return p
	}
	at, how := closing(s, t, a.tol)
	a.tellClosed(s, t, at, how, piece)
	return at
}

// closing is where two ends that do not meet are brought together, and how.
func closing(s, t *geom.Seg, tol float64) (at geom.Point, how string) {
	p, q := s.B, t.A
	m := geom.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}
	if x, ok := meeting(s, t, m); ok && x.Dist(p) <= min(tol, s.Length()/2) && x.Dist(q) <= min(tol, t.Length()/2) {
		return x, "running both on, or back, to where they cross"
	}
	switch {
	case s.IsArc() && !t.IsArc() && t.Length() > num.OwnGap*tol:
		return p, "moving the end of the line to that of the arc"
	case t.IsArc() && !s.IsArc() && s.Length() > num.OwnGap*tol:
		return q, "moving the end of the line to that of the arc"
	}
	return m, "moving both ends to the middle"
}

// meeting is the place nearest to m where the lines or circles of two segments
// cross at an angle.
func meeting(s, t *geom.Seg, m geom.Point) (geom.Point, bool) {
	best, found := geom.Point{}, false
	try := func(p geom.Point) {
		if !num.Finite(p.X, p.Y) || abs(direction(s, p).Cross(direction(t, p))) < num.Bend {
			return
		}
		if !found || p.Dist(m) < best.Dist(m) {
			best, found = p, true
		}
	}
	switch {
	case !s.IsArc() && !t.IsArc():
		try(linesCross(s, t))
	case !s.IsArc():
		lineCircle(s, t.Circle(), try)
	case !t.IsArc():
		lineCircle(t, s.Circle(), try)
	default:
		circles(s.Circle(), t.Circle(), try)
	}
	return best, found
}

// linesCross is where two straight lines cross; upright and level ones keep their
// coordinate to the last digit.
func linesCross(s, t *geom.Seg) geom.Point {
	d, e := s.B.Sub(s.A), t.B.Sub(t.A)
	p := s.A.Add(d.Mul(t.A.Sub(s.A).Cross(e) / d.Cross(e)))
	for _, l := range [2]*geom.Seg{s, t} {
		if l.A.X == l.B.X {
			p.X = l.A.X
		}
		if l.A.Y == l.B.Y {
			p.Y = l.A.Y
		}
	}
	return p
}

// lineCircle calls f with the places where the line of s crosses the circle.
func lineCircle(s *geom.Seg, c geom.Circle, f func(geom.Point)) {
	u := unit2(s.B.Sub(s.A))
	w := c.C.Sub(s.A)
	along, off := u.Dot(w), u.Cross(w)
	if abs(off) > c.R {
		return
	}
	g := math.Sqrt((c.R - off) * (c.R + off))
	f(s.A.Add(u.Mul(along - g)))
	f(s.A.Add(u.Mul(along + g)))
}

// circles calls f with the places where two circles cross.
func circles(c, e geom.Circle, f func(geom.Point)) {
	w := e.C.Sub(c.C)
	d := w.Len()
	if d == 0 || d > c.R+e.R || d < abs(c.R-e.R) {
		return
	}
	u := w.Mul(1 / d)
	along := (d + (c.R-e.R)*(c.R+e.R)/d) / 2
	h := math.Sqrt(max(0, (c.R-along)*(c.R+along)))
	foot := c.C.Add(u.Mul(along))
	f(foot.Add(u.Perp().Mul(h)))
	f(foot.Sub(u.Perp().Mul(h)))
}
