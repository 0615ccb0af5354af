package geom

import (
	"math"
	"strconv"
	"strings"

	"blankwright/flat/num"
)

// OpError is an operation that could not be done, or whose result could not be
// certified. Its text form of the inputs is lossless: it can be fed back.
type OpError struct {
	Op     string // "union", "offset +0.75 round", ...
	Reason string
	A, B   []Region
}

// printedInput is the longest input that an error message shows in full; Input
// always has all of it.
const printedInput = 2000

// Input is the operation's input in the lossless text form, one region a line,
// operands parted by an empty line.
func (e *OpError) Input() string {
	var b strings.Builder
	for i := range e.A {
		b.WriteString(e.A[i].String())
		b.WriteByte('\n')
	}
	if len(e.B) > 0 {
		b.WriteByte('\n')
		for i := range e.B {
			b.WriteString(e.B[i].String())
			b.WriteByte('\n')
		}
	}
	return b.String()
}

func (e *OpError) Error() string {
	in := e.Input()
	if len(in) > printedInput {
		in = in[:printedInput] + "... (" + strconv.Itoa(len(in)) + " bytes in all)"
	}
	return e.Op + ": " + e.Reason + "; input:\n" + in
}

// operator tells which places belong to a result.
type operator uint8

const (
	opUnion operator = iota
	opIntersection
	opDifference
	opSymmetric
)

var operatorNames = [...]string{"union", "intersection", "difference", "symmetric difference"}

// holds reports whether a place with these windings belongs to the result.
func (o operator) holds(w lab) bool {
	a, b := w.a > 0, w.b > 0
	switch o {
	case opUnion:
		return a || b
	case opIntersection:
		return a && b
	case opDifference:
		return a && !b
	}
	return a != b
}

// Union is the set of places in a or b.
//
// Each operand is a list of regions; what they cover together counts, so they
// may overlap and nest. Inside is where loops wind round a place at least once:
// outers counter-clockwise, openings clockwise. Arcs stay on the very circles
// they came with. Results are regions that do not overlap, outers
// counter-clockwise and openings clockwise; loops may touch in single points.
// Outlines that agree within num.Resolution (1e-10 mm for parts of up to some
// metres) count as one; loops thinner than num.Sliver are dropped.
//
// The same inputs give the same result, and inputs are not changed. The error
// is an *OpError: a loop is open or out of range, or the result could not be
// certified.
func Union(a, b []Region) ([]Region, error) { return boolean(opUnion, a, b) }

// Intersection is the set of places in both a and b. See Union.
func Intersection(a, b []Region) ([]Region, error) { return boolean(opIntersection, a, b) }

// Difference is the set of places in a and not in b. See Union.
func Difference(a, b []Region) ([]Region, error) { return boolean(opDifference, a, b) }

// SymmetricDifference is the set of places in one of a and b. See Union.
func SymmetricDifference(a, b []Region) ([]Region, error) { return boolean(opSymmetric, a, b) }

func boolean(op operator, a, b []Region) ([]Region, error) {
	size, err := extent(a)
	if err == nil {
		var s float64
		s, err = extent(b)
		size = max(size, s)
	}
	if err == nil {
		var out []Region
		if out, err = attempt(size, func(t trial) ([]Region, error) { return booleanAt(op, a, b, t) }); err == nil {
			return out, nil
		}
	}
	return nil, &OpError{Op: operatorNames[op], Reason: err.Error(), A: a, B: b}
}

func booleanAt(op operator, ra, rb []Region, t trial) ([]Region, error) {
	a := borrow(t)
	defer a.release()
	a.reserve(segments(ra) + segments(rb))
	a.addRegions(ra, 0)
	a.addRegions(rb, 1)
	if len(a.edges) == 0 {
		return nil, nil
	}
	a.cutAll()
	a.makeRings()
	if !a.label() {
		return nil, errUnsure
	}
	use := resize(a.out.use, len(a.chains))
	a.out.use = use
	for i := range a.chains {
		use[i] = 0
		if a.chains[i].rep != int32(i) {
			continue
		}
		l := a.bal.left[i]
		in, out := op.holds(l), op.holds(l.sub(a.bal.delta[i]))
		if in && !out {
			use[i] = 1
		} else if out && !in {
			use[i] = -1
		}
	}
	rs, err := a.trace()
	if err != nil {
		return nil, err
	}
	if !a.balanced(op) {
		return nil, errUnsure
	}
	return rs, nil
}

// tally holds the winding numbers of the chains.
type tally struct {
	left  []lab // left of each representative chain
	delta []lab // left less right
	known []bool
	done  []bool // per node
	todo  []int32
}

// label finds the winding on the left of every chain: once per connected
// component by counting, and from there round the nodes. It reports false if
// any two ways to the same place disagree: then a contact was missed.
func (a *arrangement) label() bool {
	b := &a.bal
	n := len(a.chains)
	b.left, b.delta, b.known = resize(b.left, n), resize(b.delta, n), resize(b.known, n)
	clear(b.delta)
	clear(b.known)
	for i := range a.chains {
		c := &a.chains[i]
		b.delta[c.rep] = b.delta[c.rep].plus(c.own, int32(c.dir))
	}
	b.done = resize(b.done, len(a.pos))
	for _, v := range a.hotList {
		b.done[v] = false
	}
	// From chains long enough to count at first, then from what is left.
	for _, least := range [2]float64{num.ShortEdge, 0} {
		for i := range a.chains {
			c := &a.chains[i]
			if b.known[i] || c.rep != int32(i) {
				continue
			}
			if _, l2 := a.longest(c); l2 < least*least {
				continue
			}
			if !a.labelFrom(int32(i)) {
				return false
			}
		}
	}
	// Where directions at a node nearly agree, an order that is wrong at both
	// ends agrees with itself: there every label is counted.
	for _, i := range a.doubt {
		if a.chains[i].rep == i && !a.counted(i) {
			return false
		}
	}
	return true
}

// labelFrom counts the winding left of chain i, and carries labels from there
// through its component.
func (a *arrangement) labelFrom(i int32) bool {
	b := &a.bal
	c := &a.chains[i]
	b.left[i], b.known[i] = a.countLeft(c), true
	if c.n0 < 0 {
		return true
	}
	b.todo = append(b.todo[:0], c.n0)
	last := i
	for len(b.todo) > 0 {
		v := b.todo[len(b.todo)-1]
		b.todo = b.todo[:len(b.todo)-1]
		if b.done[v] {
			continue
		}
		b.done[v] = true
		k, ok := a.labelRound(v)
		if !ok {
			return false
		}
		if k >= 0 {
			last = k
		}
	}
	// A second count, far from the first, has to agree.
	return last == i || a.counted(last)
}

// counted reports whether the label of chain i is what counting gives, or the
// chain is too short to tell.
func (a *arrangement) counted(i int32) bool {
	c := &a.chains[i]
	_, l2 := a.longest(c)
	return l2 <= num.ShortEdge*num.ShortEdge || a.countLeft(c) == a.bal.left[i]
}

// labelRound carries labels round node v, one of whose chains has one. It gives
// the last chain newly labelled, or -1.
func (a *arrangement) labelRound(v int32) (int32, bool) {
	b := &a.bal
	r := a.ring[a.ringAt[v] : a.ringAt[v]+a.ringLen[v]]
	at := -1
	for i := range r {
		if b.known[r[i].half/2] {
			at = i
			break
		}
	}
	if at < 0 {
		return -1, false
	}
	last := int32(-1)
	h := r[at].half
	w := b.left[h/2]
	if h&1 == 1 {
		w = w.sub(b.delta[h/2])
	}
	for i := 1; i <= len(r); i++ {
		k := at + i
		if k >= len(r) {
			k -= len(r)
		}
		h := r[k].half
		c := h / 2
		// w is the winding clockwise of this spoke.
		left := w
		if h&1 == 0 {
			left = w.add(b.delta[c])
			w = left
		} else {
			w = w.sub(b.delta[c])
		}
		if b.known[c] {
			if b.left[c] != left {
				return -1, false
			}
		} else {
			b.known[c], b.left[c] = true, left
			last = c
		}
		far := a.chains[c].n1
		if h&1 == 1 {
			far = a.chains[c].n0
		}
		if !b.done[far] {
			b.todo = append(b.todo, far)
		}
	}
	return last, true
}

// countLeft counts the winding left of a chain, at the middle of a long piece.
func (a *arrangement) countLeft(c *chain) lab {
	k, _ := a.longest(c)
	p, t := a.pieceMid(k)
	return a.leftOfEdge(p, t)
}

// pieceMid is the middle of a piece and its direction there.
func (a *arrangement) pieceMid(k int32) (p, t Point) {
	pc := &a.pieces[k]
	e := &a.edges[pc.edge]
	q, r := a.pos[pc.n0], a.pos[pc.n1]
	p = e.midBetween(q, r)
	if e.turn == 0 {
		return p, Point{r.X - q.X, r.Y - q.Y}
	}
	t = Point{e.c.Y - p.Y, p.X - e.c.X}
	if e.turn < 0 {
		t = Point{-t.X, -t.Y}
	}
	return p, t
}

// balanced compares the area of the result with what the areas of the operands
// allow.
func (a *arrangement) balanced(op operator) bool {
	for i := range a.chains {
		if a.chains[i].rep == int32(i) {
			l := a.bal.left[i]
			r := l.sub(a.bal.delta[i])
			if uint32(l.a) > 1 || uint32(l.b) > 1 || uint32(r.a) > 1 || uint32(r.b) > 1 {
				return true // an operand covers places twice: its areas tell nothing
			}
		}
	}
	length := 0.0
	for i := range a.edges {
		length += a.edges[i].l
	}
	got := 0.0
	for i := range a.out.loops {
		got += a.out.loops[i].area
	}
	x, y := a.area[0], a.area[1]
	var lo, hi float64
	switch op {
	case opUnion:
		lo, hi = max(x, y), x+y
	case opIntersection:
		lo, hi = 0, min(x, y)
	case opDifference:
		lo, hi = max(0, x-y), x
	default:
		lo, hi = math.Abs(x-y), x+y
	}
	slack := 4*num.Sliver*length + num.AreaSlack*(math.Abs(x)+math.Abs(y))
	return got >= lo-slack && got <= hi+slack
}
