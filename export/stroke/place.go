package stroke

import (
	"container/heap"
	"fmt"
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// heights are the heights of capitals that are tried, mm, largest first: 6 mm is
// read at arm's length, under 4 a marker's line closes the letters (common
// practice).
var heights = [...]float64{6, 5, 4}

// leastClear is the least distance between a mark and anything that is cut or
// drilled, mm; the process's least web where that is more (common practice).
const leastClear = 3

// Clear is how far every stroke on b stays from all edges and openings, mm. On
// edges that were moved for the kerf it counts from where the finished edge
// will be.
func Clear(b *blank.Blank) float64 {
	return max(leastClear, b.Process.LeastWeb(b.Thickness)) + b.Kerf/2
}

// Mark is one of a blank's texts with its place.
type Mark struct {
	blank.MarkText
	Height  float64     // of capitals, mm
	Upright bool        // it reads from the right: turned a quarter to the left
	From    geom.Point  // where the base line begins
	Strokes []geom.Loop // not closed; in the part's coordinates
	// Err says why the mark has no place and is to be made by hand; then nothing
	// above but the text is set.
	Err error
}

// Place finds the places of a blank's marks, in their order. A text with a place
// of its own keeps it and is only made smaller where it must be; an automatic
// one goes where most room is left round it, on a mirrored blank to the mirror
// image of that place. No mark comes nearer than Clear to an edge, an opening, a
// hole to be drilled, metal that is bent or another mark, nor stands on both sides
// of a bend. b is not modified.
func Place(b *blank.Blank) []Mark {
	if len(b.Marks) == 0 {
		return nil
	}
	p := &placer{clear: Clear(b)}
	p.look(b)
	marks := make([]Mark, len(b.Marks))
	// Given places come first, so that automatic ones keep clear of them.
	for _, auto := range []bool{false, true} {
		for i, t := range b.Marks {
			if t.Auto == auto {
				marks[i] = p.place(t)
			}
		}
	}
	return marks
}

// placer works on the part as drawn: what it finds is turned over for a mirrored
// blank, so that both hands have their marks on the same metal.
type placer struct {
	clear    float64
	mirrored bool
	metal    geom.Region
	loops    []geom.Loop // all that is to be kept clear of
	zones    []geom.Loop // of them, the metal that is bent
	inside   []geom.Point
	box      geom.Box
	index    *geom.Index
	welds    []seam
}

// seam is an edge that is welded: the bead covers the plate beside it as far as
// its leg reaches, and what is marked there is gone.
type seam struct {
	edge *geom.Index
	leg  float64
}

func (p *placer) look(b *blank.Blank) {
	p.mirrored = b.Hand == blank.Mirrored
	turn := func(l geom.Loop) geom.Loop {
		if p.mirrored {
			return l.Transform(geom.MirrorY())
		}
		return l
	}
	p.metal.Outer = turn(b.Outline)
	p.loops = append(p.loops, p.metal.Outer)
	for i := range b.Holes {
		p.opening(turn(b.Holes[i].Finished()))
	}
	for i := range b.Cutouts {
		p.opening(turn(b.Cutouts[i].Loop))
	}
	for i := range b.Welds {
		w := &b.Welds[i]
		p.welds = append(p.welds, seam{geom.NewIndex(turn(geom.Loop(w.Line))), w.Leg})
	}
	if b.Formed != nil {
		for i := range b.Formed.Flat.Bends {
			zone := turn(b.Formed.Flat.Bends[i].Zone.Outer)
			p.zones = append(p.zones, zone)
			p.opening(zone)
		}
	}
	p.box = p.metal.Outer.Bounds()
	p.index = geom.NewIndex(p.loops...)
}

func (p *placer) opening(l geom.Loop) {
	p.loops = append(p.loops, l)
	p.metal.Holes = append(p.metal.Holes, l)
	p.inside = append(p.inside, l[0].A)
}

// keepOff makes a placed mark something to keep clear of.
func (p *placer) keepOff(r geom.Loop) {
	p.opening(r)
	p.index = geom.NewIndex(p.loops...)
}

func (p *placer) place(t blank.MarkText) Mark {
	m := Mark{MarkText: t}
	if m.Err = Check(t.Text); m.Err != nil {
		return m
	}
	for _, h := range heights {
		for _, upright := range []bool{false, true} {
			if upright && !t.Auto {
				continue
			}
			ink, err := inkOf(t.Text, h, upright)
			if err != nil {
				m.Err = err
				return m
			}
			at, ok := p.find(t, ink)
			if ok {
				return p.put(m, h, upright, ink, at)
			}
		}
	}
	least := heights[len(heights)-1]
	what, one := "edges, welds, holes", "an edge, a weld, a hole"
	if len(p.zones) > 0 {
		what, one = what+", bends", one+", a bend"
	}
	if t.Auto {
		m.Err = fmt.Errorf("no room for it: %v mm high it is %s mm long, and stays %s mm clear of %s and other marks",
			least, num.Short(Width(t.Text, least), 1), num.Short(p.clear, 2), what)
	} else {
		m.Err = fmt.Errorf("even %v mm high it comes nearer than %s mm to %s or another mark where it is placed",
			least, num.Short(p.clear, 2), one)
	}
	return m
}

// ink is a text's strokes round their own middle, and half the size of the box
// that holds them.
type ink struct {
	strokes []geom.Loop
	half    geom.Point
	origin  geom.Point // of the base line, from the middle
	width   float64    // along the base line
}

func inkOf(text string, height float64, upright bool) (ink, error) {
	strokes, err := Write(text, height)
	if err != nil {
		return ink{}, err
	}
	turn := geom.Rotate(0)
	if upright {
		turn = geom.Rotate(math.Pi / 2)
	}
	for i := range strokes {
		strokes[i] = strokes[i].Transform(turn)
	}
	box := boundsOf(strokes)
	c := box.Centre()
	for i := range strokes {
		strokes[i] = strokes[i].Transform(geom.Translate(-c.X, -c.Y))
	}
	return ink{strokes, geom.Point{X: box.Width() / 2, Y: box.Height() / 2}, geom.Point{}.Sub(c), Width(text, height)}, nil
}

// find gives the middle of the place for the ink, in the part as drawn.
func (p *placer) find(t blank.MarkText, k ink) (geom.Point, bool) {
	if t.Auto {
		return p.search(k)
	}
	begin := t.At
	if t.FromRight {
		begin.X -= k.width
	}
	c := begin.Sub(k.origin)
	if p.mirrored {
		c.X = -c.X
	}
	return c, p.fits(k, c)
}

// fits asks of every stroke whether it is clear, exactly, and of the text as a
// whole whether a bend leaves it alone. In the part as drawn the strokes of a
// mirrored blank are turned over.
func (p *placer) fits(k ink, c geom.Point) bool {
	whole := rectangle(c, k.half)
	box := whole.Bounds()
	for _, z := range p.zones {
		if box.Holds(z[0].A) || z.Contains(c) != geom.Outside || !num.AtLeast(geom.LoopLoop(whole, z).D, p.clear) {
			return false
		}
	}
	for _, s := range k.strokes {
		if p.mirrored {
			s = s.Transform(geom.MirrorY())
		}
		s = s.Transform(geom.Translate(c.X, c.Y))
		if p.metal.Contains(s[0].A) != geom.Inside {
			return false
		}
		if !num.AtLeast(p.distance(s), p.clear) {
			return false
		}
	}
	return true
}

// distance is how far l is from all that marks keep clear of; less than 0 where it
// would lie under a bead.
func (p *placer) distance(l geom.Loop) float64 {
	d := math.Inf(1)
	if n, ok := p.index.Nearest(l, nil); ok {
		d = n.D
	}
	for i := range p.welds {
		if n, ok := p.welds[i].edge.Nearest(l, nil); ok {
			d = min(d, n.D-p.welds[i].leg)
		}
	}
	return d
}

// put writes the mark at a middle that was found.
func (p *placer) put(m Mark, h float64, upright bool, k ink, c geom.Point) Mark {
	p.keepOff(rectangle(c, k.half))
	if p.mirrored {
		c.X = -c.X
	}
	m.Height, m.Upright, m.From = h, upright, c.Add(k.origin)
	m.Strokes = make([]geom.Loop, len(k.strokes))
	for i, s := range k.strokes {
		m.Strokes[i] = s.Transform(geom.Translate(c.X, c.Y))
	}
	return m
}

func rectangle(c, half geom.Point) geom.Loop {
	return geom.Polygon(geom.Point{X: c.X - half.X, Y: c.Y - half.Y}, geom.Point{X: c.X + half.X, Y: c.Y - half.Y},
		geom.Point{X: c.X + half.X, Y: c.Y + half.Y}, geom.Point{X: c.X - half.X, Y: c.Y + half.Y})
}

// room is how far the box of the ink, with its middle at c, is from all that it
// keeps clear of; nothing where it is not wholly on free metal.
func (p *placer) room(c, half geom.Point) float64 {
	box := geom.Box{}.Extend(c.Sub(half)).Extend(c.Add(half))
	for _, q := range p.inside {
		if box.Holds(q) {
			return 0
		}
	}
	if p.metal.Contains(c) != geom.Inside {
		return 0
	}
	return max(p.distance(rectangle(c, half)), 0)
}

const (
	// fine is by how much the room found may fall short of the most there is, mm.
	fine = 0.25
	// mostLooks is the most places that are looked at for one text of one height.
	mostLooks = 3000
)

// search looks for the middle with most room. Moving the box by d changes its
// room by no more than d, so that a square of places can be judged from its
// centre: the most promising square is cut in four, until none can be better
// than the best by more than fine.
func (p *placer) search(k ink) (geom.Point, bool) {
	w, h := p.box.Width()/2-k.half.X-p.clear, p.box.Height()/2-k.half.Y-p.clear
	if w < 0 || h < 0 {
		return geom.Point{}, false
	}
	side := max(min(w, h), max(w, h)/64, fine)
	var q squares
	best := square{room: -1}
	looks := 0
	look := func(c geom.Point, half float64) {
		looks++
		s := square{c: c, half: half, room: p.room(c, k.half)}
		s.most = s.room + half*math.Sqrt2
		if s.room > best.room {
			best = s
		}
		if s.most > best.enough() && num.AtLeast(s.most, p.clear) {
			s.turn = looks
			heap.Push(&q, s)
		}
	}
	mid := p.box.Centre()
	nx, ny := math.Ceil(w/side), math.Ceil(h/side)
	for i := -nx; i <= nx; i++ {
		for j := -ny; j <= ny; j++ {
			look(geom.Point{X: mid.X + i*side, Y: mid.Y + j*side}, side/2)
		}
	}
	for len(q) > 0 && looks < mostLooks {
		s := heap.Pop(&q).(square)
		if s.most <= best.enough() {
			break
		}
		d := s.half / 2
		for _, by := range [...]geom.Point{{X: -d, Y: -d}, {X: d, Y: -d}, {X: -d, Y: d}, {X: d, Y: d}} {
			look(s.c.Add(by), d)
		}
	}
	return best.c, num.AtLeast(best.room, p.clear)
}

// square is a square of places for a box's middle.
type square struct {
	c          geom.Point
	half       float64
	room, most float64 // at its centre; the most that any place of it can have
	turn       int
}

// squares is a heap, the most promising first, of equals the first looked at.
type squares []square

func (q squares) Len() int      { return len(q) }
func (q squares) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q squares) Less(i, j int) bool {
	return q[i].most > q[j].most || q[i].most == q[j].most && q[i].turn < q[j].turn
}

// Push and Pop are for the heap.

// Push puts a square last.
func (q *squares) Push(x any) { *q = append(*q, x.(square)) }

// Pop takes the last square off.
func (q *squares) Pop() any {
	s := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return s
}

// enough is the room that another place must offer to be worth looking at.
func (s *square) enough() float64 { return s.room + max(fine, s.room/4) }
