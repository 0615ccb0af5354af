package paper

import (
	"math"
	"strings"

	"blankwright/flat/geom"
)

// Gaps in mm that keep a sheet legible.
const (
	labelGap = 0.9 // round every label
	wordsGap = 1.0 // beside that, round a callout, so that two are not read as one
	shoulder = 2.0 // level piece of a leader beside its callout
	textGap  = 0.8 // between a leader and its words
)

// bearings are the directions in which a label is looked for, from the one it
// should go to. They stay clear of level and upright, where centre-lines run.
const numBearings = 16

var bearings = func() (u [numBearings]geom.Point) {
	for i := range u {
		s, c := math.Sincos((15 + 90*float64(i/4) + 20*float64(i%4)) * math.Pi / 180)
		u[i] = geom.Point{X: c, Y: s}
	}
	return u
}()

// outward orders the bearings by how near they are to the direction away from
// the part's middle, equally near ones counter-clockwise.
func outward(from, middle geom.Point) (order [numBearings]uint8) {
	away := from.Sub(middle)
	if away.Len() < 1 { // a hole at the middle: to the upper right
		away = geom.Point{X: 1, Y: 1}
	}
	var turn [numBearings]float64
	for i, u := range bearings {
		turn[i] = -u.Dot(away)
		j := i
		for ; j > 0 && turn[order[j-1]] > turn[i]; j-- {
			order[j] = order[j-1]
		}
		order[j] = uint8(i)
	}
	return order
}

// reaches are the lengths of leader tried, mm, short ones first.
var reaches = [...]float64{6, 10, 15, 21, 28, 36, 46, 58, 72, 90, 110, 135}

// The closer search, for what finds no place in the quick one: the bearings that
// are left between level and upright, and more lengths.
const (
	closeStep  = 5.0 // between two bearings, deg
	closeReach = 4.0 // between two lengths, mm
	closeMost  = 150.0
)

// closely tries bearings and lengths until one does, those with short leaders
// first.
func closely(try func(u geom.Point, reach float64) bool) bool {
	for reach := closeReach; reach <= closeMost; reach += closeReach {
		for a := closeStep; a < 360; a += closeStep {
			if math.Mod(a, 90) == 0 {
				continue
			}
			s, c := math.Sincos(a * math.Pi / 180)
			if try(geom.Point{X: c, Y: s}, reach) {
				return true
			}
		}
	}
	return false
}

// callout is words with a leader to an opening.
type callout struct {
	at     geom.Point // the middle of what is called out
	hole   int        // index of the hole
	shape  shape
	lines  []string
	width  float64
	height float64
}

// linePitch is the distance between the base lines of a callout, mm.
const linePitch = 5.2

func newCallout(at geom.Point, hole int, sh shape, words string) *callout {
	c := &callout{at: at, hole: hole, shape: sh, lines: calloutLines(words)}
	for _, l := range c.lines {
		c.width = max(c.width, Width(l, CalloutText))
	}
	size := styles[CalloutText].Size
	c.height = size*(capHeight+descent) + linePitch*float64(len(c.lines)-1)
	return c
}

// put finds the callout a place and draws it there; false when there is none.
func (c *callout) put(d *drawing) bool {
	order := outward(c.at, d.middle)
	for _, reach := range reaches {
		for _, k := range order {
			if c.try(d, bearings[k], reach) {
				return true
			}
		}
	}
	return false
}

func (c *callout) seek(d *drawing) bool {
	return closely(func(u geom.Point, reach float64) bool { return c.try(d, u, reach) })
}

func (c *callout) try(d *drawing, u geom.Point, reach float64) bool {
	l := c.lead(u, reach)
	if d.f.free(l.room.Grow(labelGap)) && d.f.open(l.tip, l.knee, c.hole) && d.f.open(l.knee, l.end, c.hole) {
		c.draw(d, l)
		return true
	}
	return false
}

func (c *callout) name() string { return strings.Join(c.lines, " ") }

// lead is a leader with the room of its words.
type lead struct {
	tip, knee, end geom.Point
	side           float64 // 1: words to the right, -1: to the left
	room           Rect
}

// lead is the leader that goes from the opening in direction u.
func (c *callout) lead(u geom.Point, reach float64) lead {
	l := lead{tip: c.at.Add(u.Mul(c.shape.reach(u))), side: math.Copysign(1, u.X)}
	l.knee = l.tip.Add(u.Mul(reach))
	l.end = geom.Point{X: l.knee.X + l.side*shoulder, Y: l.knee.Y}
	x := l.end.X + l.side*textGap
	l.room = Rect{min(x, x+l.side*c.width), l.end.Y - c.height/2, max(x, x+l.side*c.width), l.end.Y + c.height/2}
	return l
}

func (c *callout) draw(d *drawing, l lead) {
	d.arrow(l.tip, l.tip.Sub(l.knee))
	d.s.line(Leaders, l.tip, l.knee)
	d.s.line(Leaders, l.knee, l.end)
	d.f.addLine(l.tip, l.knee, true, nobody)
	d.f.addLine(l.knee, l.end, true, nobody)
	d.f.addBox(l.room.Grow(wordsGap))
	x, anchor := l.room.X0, Start
	if l.side < 0 {
		x, anchor = l.room.X1, End
	}
	y := l.room.Y1 - capHeight*styles[CalloutText].Size
	for _, words := range c.lines {
		d.s.text(Callouts, Text{At: geom.Point{X: x, Y: y}, Anchor: anchor, S: words})
		y -= linePitch
	}
}

// tag is the letter of a hole, beside it or with a leader.
type tag struct {
	at     geom.Point
	hole   int
	shape  shape
	letter string
	layer  LayerID
	width  float64
	height float64
}

// diagonals are the directions in which a letter is looked for close to its
// opening: the same for all holes where that can be had.
var diagonals = [...]geom.Point{
	{X: math.Sqrt2 / 2, Y: math.Sqrt2 / 2}, {X: -math.Sqrt2 / 2, Y: math.Sqrt2 / 2},
	{X: math.Sqrt2 / 2, Y: -math.Sqrt2 / 2}, {X: -math.Sqrt2 / 2, Y: -math.Sqrt2 / 2},
}

// tagGap is between an opening and its letter, mm: the gap that labels keep,
// across the corner, and what edges keep off.
const tagGap = keepOff + 0.75*labelGap

// tagReaches are the lengths of leader tried for a letter, mm.
var tagReaches = [...]float64{4, 7, 11, 16, 22, 30, 40}

func (t *tag) put(d *drawing) bool {
	h := t.height
	for _, u := range diagonals {
		if r := t.beside(u, h); d.f.free(r.Grow(labelGap / 2)) {
			t.draw(d, r)
			return true
		}
	}
	order := outward(t.at, d.middle)
	for _, reach := range tagReaches {
		for _, k := range order {
			if t.try(d, bearings[k], reach) {
				return true
			}
		}
	}
	return false
}

func (t *tag) seek(d *drawing) bool {
	return closely(func(u geom.Point, reach float64) bool { return t.try(d, u, reach) })
}

func (t *tag) try(d *drawing, u geom.Point, reach float64) bool {
	tip := t.at.Add(u.Mul(t.shape.reach(u)))
	end := tip.Add(u.Mul(reach))
	r := centred(end.Add(u.Mul(textGap+max(t.width, t.height)/2)), t.width, t.height)
	if d.f.free(r.Grow(labelGap/2)) && d.f.open(tip, end, t.hole) {
		d.s.line(Leaders, tip, end)
		d.f.addLine(tip, end, true, nobody)
		t.draw(d, r)
		return true
	}
	return false
}

func (t *tag) name() string { return t.letter }

// beside is the letter's room close to the opening in direction u.
func (t *tag) beside(u geom.Point, h float64) Rect {
	p := t.at.Add(u.Mul(t.shape.reach(u) + tagGap))
	return centred(geom.Point{
		X: p.X + math.Copysign(t.width/2, u.X),
		Y: p.Y + math.Copysign(h/2, u.Y),
	}, t.width, h)
}

func (t *tag) draw(d *drawing, r Rect) {
	d.f.addBox(r)
	size := styles[specs[t.layer].Style].Size
	d.s.text(t.layer, Text{At: pt((r.X0+r.X1)/2, r.Y0+descent*size), Anchor: Middle, S: t.letter})
}

// balloon is the number of a finding, with a leader to its place. A finding
// about a hole as a whole is shown on the hole's edge, so that the place of the
// punch stays open.
type balloon struct {
	at     geom.Point
	hole   int   // that its place lies in, or nobody
	shape  shape // of that hole where the finding is about all of it
	number string
	failed bool
}

const (
	balloonR = 2.9
	dotR     = 0.55 // at the place itself
)

func (b *balloon) put(d *drawing) bool {
	order := outward(b.at, d.middle)
	for _, reach := range reaches {
		for _, k := range order {
			if b.try(d, bearings[k], reach) {
				return true
			}
		}
	}
	return false
}

func (b *balloon) seek(d *drawing) bool {
	return closely(func(u geom.Point, reach float64) bool { return b.try(d, u, reach) })
}

func (b *balloon) try(d *drawing, u geom.Point, reach float64) bool {
	tip, end, c := b.lead(u, reach)
	if d.f.free(centred(c, 2*balloonR, 2*balloonR).Grow(labelGap/2)) && d.f.open(tip, end, b.hole) {
		b.draw(d, tip, end, c)
		return true
	}
	return false
}

func (b *balloon) lead(u geom.Point, reach float64) (tip, end, c geom.Point) {
	tip = b.at.Add(u.Mul(b.shape.reach(u)))
	end = tip.Add(u.Mul(reach))
	return tip, end, end.Add(u.Mul(balloonR))
}

func (b *balloon) name() string { return b.number }

func (b *balloon) draw(d *drawing, tip, end, c geom.Point) {
	d.s.line(Leaders, tip, end)
	d.f.addLine(tip, end, true, nobody)
	d.f.addBox(centred(c, 2*balloonR, 2*balloonR))
	d.s.circle(Arrows, tip, dotR)
	d.s.balloon(c, b.number, b.failed)
}

// balloon draws a finding's number: white on a black disc when it failed, black
// in a ring when it is waived or a warning.
func (ls *Layers) balloon(c geom.Point, number string, failed bool) {
	ring, num := Rings, RingNumbers
	if failed {
		ring, num = Discs, DiscNumbers
	}
	ls.circle(ring, c, balloonR)
	ls.text(num, Text{
		At:     geom.Point{X: c.X, Y: c.Y - styles[NumberText].Size*capHeight/2},
		Anchor: Middle, S: number,
	})
}

func centred(p geom.Point, w, h float64) Rect {
	return Rect{p.X - w/2, p.Y - h/2, p.X + w/2, p.Y + h/2}
}
