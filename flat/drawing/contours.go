package drawing

import (
	"math"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// makeContours makes loops of the closed chains, counter-clockwise for now.
func (a *assembler) makeContours() {
	for i := range a.chains {
		c := &a.chains[i]
		if !c.closed {
			continue
		}
		first := a.linksOf(c)[0].piece
		s := a.shapeOf(first)
		l := geom.Loop(a.joints(c))
		area := l.Area()
		if thin(l) {
			a.tellNoArea(s, l)
			continue
		}
		if area < 0 {
			l = turned(l)
		}
		c.contour = int32(len(a.out.Contours))
		a.out.Contours = append(a.out.Contours, Contour{Loop: l, Layer: s.Layer, Line: s.Line, Parent: -1})
	}
}

// thin reports whether a loop encloses nothing that could be cut.
func thin(l geom.Loop) bool { return !(math.Abs(l.Area()) > num.ThinLoop*l.Perimeter()/2) }

// turned is the loop run the other way that still begins with the same segment.
func turned(l geom.Loop) geom.Loop {
	r := l.Reverse()
	n := len(r)
	return append(append(make(geom.Loop, 0, n), r[n-1]), r[:n-1]...)
}

// nest finds which contours lie in which, and turns openings clockwise.
func (a *assembler) nest() {
	cs := a.out.Contours
	a.inside = newInsideTest(cs)
	areas := make([]float64, len(cs))
	for i := range cs {
		areas[i] = math.Abs(cs[i].Loop.Area())
	}
	for i := range cs {
		c := &cs[i]
		c.Depth, c.Parent = 0, -1
		for _, j := range a.inside.round(c.Loop[0].A, int32(i)) {
			c.Depth++
			if c.Parent < 0 || areas[j] < areas[c.Parent] {
				c.Parent = int(j)
			}
		}
	}
	for i := range cs {
		if cs[i].Depth%2 == 1 == (cs[i].Loop.Area() > 0) {
			cs[i].Loop = turned(cs[i].Loop)
		}
	}
}

// dropTwins drops contours that follow the one round them all the way within
// num.NearDouble: outlines drawn twice in chords so short that no two of them
// run alongside each other for long. It reports whether there are any.
func (a *assembler) dropTwins() bool {
	cs := a.out.Contours
	twin := make([]bool, len(cs))
	found := false
	for i := range cs {
		if p := cs[i].Parent; p >= 0 && !a.out.tangled {
			if off, ok := alongLoop(cs[i].Loop, cs[p].Loop); ok {
				twin[i], found = true, true
				a.tellTwin(&cs[i], &cs[p], off)
			}
		}
	}
	if !found {
		return false
	}
	place := make([]int32, len(cs))
	kept := cs[:0]
	for i := range cs {
		place[i] = -1
		if !twin[i] {
			place[i] = int32(len(kept))
			kept = append(kept, cs[i])
		}
	}
	a.out.Contours = kept
	for i := range a.chains {
		if c := &a.chains[i]; c.contour >= 0 {
			c.contour = place[c.contour]
		}
	}
	return true
}

// alongLoop tells how far at most a loop strays from the one round it, where
// that is no more than num.NearDouble.
func alongLoop(l, round geom.Loop) (off float64, ok bool) {
	if math.Abs(round.Area())-math.Abs(l.Area()) > num.NearDouble*round.Perimeter() {
		return 0, false
	}
	index := geom.NewIndex(round)
	for i := range l {
		for _, p := range [2]geom.Point{l[i].A, l[i].Mid()} {
			h, found := index.NearestPoint(p, nil)
			if !found || h.D > num.NearDouble {
				return 0, false
			}
			off = max(off, h.D)
		}
	}
	return off, true
}

// insideTest tells which contours lie round a place: by the boxes of contours,
// then by how often the contour crosses the way to the right.
type insideTest struct {
	cs     []Contour
	tree   *boxTree
	inner  []*boxTree // of the segments of long contours, made when needed
	found  []int32
	search budget
}

// longContour is from how many segments on a contour has a tree of its own.
const longContour = 48

func newInsideTest(cs []Contour) *insideTest {
	n := 0
	t := &insideTest{cs: cs, inner: make([]*boxTree, len(cs))}
	t.tree = newBoxTree(len(cs), func(i int) (rect, bool) {
		n += len(cs[i].Loop)
		b := cs[i].Loop.Bounds()
		return rect{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y}, true
	})
	t.search = newBudget(n)
	return t
}

// round lists the contours round p but for one, in no order that matters. The
// list holds until the next call.
func (t *insideTest) round(p geom.Point, but int32) []int32 {
	t.found = t.found[:0]
	at := rect{p.X, p.Y, p.X, p.Y}
	t.tree.find(&at, &t.search, func(i int32) {
		if i != but && t.turns(i, p) != 0 {
			t.found = append(t.found, i)
		}
	})
	return t.found
}

// turns is how often contour i winds round p.
func (t *insideTest) turns(i int32, p geom.Point) int32 {
	l := t.cs[i].Loop
	var n int32
	if len(l) < longContour {
		for k := range l {
			n += crossings(&l[k], p)
		}
		return n
	}
	if t.inner[i] == nil {
		t.inner[i] = newBoxTree(len(l), func(k int) (rect, bool) { return rectOf(&l[k], 0), true })
	}
	ray := rect{p.X, p.Y, math.Inf(1), p.Y}
	t.inner[i].find(&ray, &t.search, func(k int32) { n += crossings(&l[k], p) })
	return n
}

// crossings counts, with sign, how often the way from p to the right crosses the
// segment: its chord, the lower end counting and the upper one not, and once
// more the closed line of arc and chord where p lies between them. A point on
// the chord lies just right of it, on a level one just above it, for both.
func crossings(s *geom.Seg, p geom.Point) int32 {
	d := s.B.Sub(s.A)
	c := d.Cross(p.Sub(s.A))
	left := c > 0 || c == 0 && (d.Y < 0 || d.Y == 0 && d.X > 0)
	var n int32
	switch {
	case s.A.Y <= p.Y && p.Y < s.B.Y && left:
		n = 1
	case s.B.Y <= p.Y && p.Y < s.A.Y && !left:
		n = -1
	}
	if s.IsArc() && close2(p, s.Circle().C, s.Circle().R) {
		switch {
		case s.Bulge > 0 && !left:
			n++
		case s.Bulge < 0 && left:
			n--
		}
	}
	return n
}

// tell reports all that was found, and parts marks from lines that close nothing.
func (a *assembler) tell() {
	a.tellDoubles()
	a.findMarks()
	a.tellGaps()
	a.tellOpen()
	a.tellContacts()
	a.tellTiny()
	a.tellLost()
	a.tellTexts()
	if a.out.tangled = a.out.tangled || a.inside.search.spent(); a.out.tangled {
		f := newFault(Tangled, diag.Error, a.d.Bounds().Min)
		f.Message = "lines meet so often that not all of their meetings were looked at; no outlines can be told from it"
		f.Fix = "leave only the lines that are to be cut, each once"
		a.faults.add(f)
	}
}

// findMarks parts open lines: those on layers that hold open lines alone, inside
// an outline, are marks.
func (a *assembler) findMarks() {
	closes := make([]bool, len(a.d.Layers))
	for i := range a.out.Contours {
		closes[a.out.Contours[i].Layer] = true
	}
	count := make([]int, len(a.d.Layers))
	at := make([]geom.Point, len(a.d.Layers))
	for i := range a.chains {
		c := &a.chains[i]
		if c.closed {
			continue
		}
		ls := a.linksOf(c)
		s := a.shapeOf(ls[0].piece)
		p, q := a.seg(ls[0]).A, a.seg(ls[len(ls)-1]).B
		if !closes[s.Layer] && a.inMetal(p) && a.inMetal(q) {
			c.mark = true
			if count[s.Layer] == 0 {
				at[s.Layer] = p
			}
			count[s.Layer]++
		}
		path := Path{s.Layer, s.Line, a.joints(c)}
		if c.mark {
			a.out.Marks = append(a.out.Marks, path)
		} else {
			a.out.Open = append(a.out.Open, path)
			a.keepHalf(path)
		}
	}
	a.boxHalves()
	for i, n := range count {
		if n > 0 {
			a.tellMarks(i, n, at[i])
		}
	}
}

// inMetal reports whether p lies inside an outline and in no opening of it.
func (a *assembler) inMetal(p geom.Point) bool { return len(a.inside.round(p, -1))%2 == 1 }
