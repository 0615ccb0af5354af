package paper

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Bend is a line along which the flat part is bent, in the part's own
// coordinates.
type Bend struct {
	No     int    // in the order of bending, from 1; 0 where there is none
	Name   string // of what is bent there: `left`; nothing is said of it where empty
	Line   geom.Seg
	Angle  float64 // that the metal is turned through, rad
	Down   bool    // away from the person who looks at this side, else towards them
	Radius float64 // inside, mm; 0 where it is not given
}

// Weld is a run of edges that is welded, in the part's own coordinates, in the
// direction of the outline: metal on the left of each.
type Weld struct {
	Edge  []geom.Seg
	Words string // `3/16 in leg, both sides`
}

// words say what is bent, and how.
func (b *Bend) words(sys unit.System) string {
	way := "up"
	if b.Down {
		way = "down"
	}
	s := "bend " + way + " " + num.Short(b.Angle*180/math.Pi, 1) + " deg"
	if b.Radius > 0 {
		s += ", inside radius " + unit.Text(b.Radius, sys)
	}
	name := clean(b.Name)
	switch {
	case b.No > 0 && name != "":
		s = "bend " + strconv.Itoa(b.No) + ", " + name + ": " + strings.TrimPrefix(s, "bend ")
	case b.No > 0:
		s = "bend " + strconv.Itoa(b.No) + ": " + strings.TrimPrefix(s, "bend ")
	case name != "":
		s = name + ": " + s
	}
	return s
}

// bendTicks are the figures of the upright bend lines, or with up set of the level
// ones, in order.
func (j *job) bendTicks(datum float64, up bool) (ts []tick) {
	for i := range j.o.Bends {
		l := j.o.Bends[i].Line
		t := tick{hole: nobody, bend: true, first: l.A}
		switch {
		case up && level(l):
			t.at = l.A.Y - datum
			if l.B.X < l.A.X {
				t.first = l.B
			}
		case !up && upright(l):
			t.at = l.A.X - datum
			if l.B.Y < l.A.Y {
				t.first = l.B
			}
		default:
			continue
		}
		ts = append(ts, t)
	}
	slices.SortStableFunc(ts, func(a, b tick) int { return cmp.Compare(a.at, b.at) })
	return ts
}

// withBends puts the figures of bend lines among those of holes. A place has one
// figure: that of a hole goes first.
func withBends(holes, bends []tick) []tick {
	all := slices.Concat(bends, holes)
	slices.SortStableFunc(all, func(a, b tick) int { return cmp.Compare(a.at, b.at) })
	n := 0
	for _, t := range all {
		if n > 0 && t.at-all[n-1].at < ordSame {
			if all[n-1].bend && !t.bend {
				all[n-1] = t
			}
			continue
		}
		all[n] = t
		n++
	}
	return all[:n]
}

// bendPlaces say how far the bend lines lie from the outline's leftmost and lowest
// points, so that they can be marked out without the sheet; where a line leans,
// both its ends.
func (j *job) bendPlaces() (notes []string) {
	short := " mm"
	if j.sys == unit.Inch {
		short = " in"
	}
	figure := func(mm float64) string { return ordinateWords(mm, j.sys) }
	type place struct {
		mm   float64
		name string
	}
	var across, up []place
	for i := range j.o.Bends {
		b := &j.o.Bends[i]
		name := clean(b.Name)
		if name == "" {
			name = strconv.Itoa(i + 1)
		}
		from, to := b.Line.A.Sub(j.bounds.Min), b.Line.B.Sub(j.bounds.Min)
		switch {
		case upright(b.Line):
			across = append(across, place{from.X, name})
		case level(b.Line):
			up = append(up, place{from.Y, name})
		default:
			notes = append(notes, "bend line "+name+" runs from "+figure(from.X)+", "+figure(from.Y)+" to "+figure(to.X)+", "+figure(to.Y)+short+" from lower left")
		}
	}
	all := func(side string, ps []place) {
		if len(ps) == 0 {
			return
		}
		slices.SortStableFunc(ps, func(p, q place) int { return cmp.Compare(p.mm, q.mm) })
		words := make([]string, len(ps))
		for i, p := range ps {
			words[i] = p.name + " " + figure(p.mm)
		}
		notes = append(notes, "bend lines from "+side+": "+strings.Join(words, ", ")+short)
	}
	all("the left", across)
	all("below", up)
	return notes
}

// bendLabel is what stands beside a bend line: its words along the line where
// there is room, else a callout.
type bendLabel struct {
	*callout
	line  geom.Seg // on the page
	words string
}

// put tries the places along the line first.
func (b *bendLabel) put(d *drawing) bool { return b.along(d) || b.callout.put(d) }

const (
	// alongOff is how far words along a bend line stay from it, mm.
	alongOff = 1.6
	// alongTurn is what a line may be off the level or the upright and still count
	// as such, as its direction's other coordinate: a tenth of a line's width in 2 m.
	alongTurn = 1e-5
)

func upright(l geom.Seg) bool { return math.Abs(l.DirA().X) <= alongTurn }
func level(l geom.Seg) bool   { return math.Abs(l.DirA().Y) <= alongTurn }

// alongShares are the places tried along a line, as shares of the room from its
// middle to where the words would reach its end.
var alongShares = [...]float64{0, -0.25, 0.25, -0.5, 0.5, -0.75, 0.75, -0.95, 0.95}

// along writes the words over or under a level line, or beside an upright one.
func (b *bendLabel) along(d *drawing) bool {
	t := Text{Anchor: Middle, Style: CalloutText, S: b.words}
	switch {
	case level(b.line):
	case upright(b.line):
		t.Up = true
	default:
		return false
	}
	room := b.line.Length() - Width(t.S, t.Style)
	if room < 0 {
		return false
	}
	size := styles[t.Style].Size
	for _, share := range alongShares {
		// Over the line or left of it, then under or right of it.
		for _, off := range [...]float64{alongOff + descent*size, -alongOff - capHeight*size} {
			t.At = b.line.Mid().Add(b.line.DirA().Mul(share * room / 2))
			if t.Up {
				t.At.X -= off
			} else {
				t.At.Y += off
			}
			if box := t.Box(); d.f.free(box.Grow(labelGap)) {
				d.s.text(Callouts, t)
				d.f.addBox(box)
				return true
			}
		}
	}
	return false
}

const (
	weldPitch  = 3.0 // between two strokes along a welded edge
	weldStroke = 2.2 // length of one, away from the metal
	weldOff    = 0.5 // from the edge to where it starts
)

// formWork draws bend lines and the strokes along welded edges, with words that
// say what to do there.
func (d *drawing) formWork(j *job) {
	var labels []label
	m := geom.Translate(d.s.Offset.X, d.s.Offset.Y)
	for i := range j.o.Bends {
		b := &j.o.Bends[i]
		g := b.Line.Transform(m)
		d.s.seg(Bending, g)
		d.f.addEdge(g)
		words := b.words(d.sys)
		labels = append(labels, &bendLabel{newCallout(g.At(0.4), nobody, shape{}, words), g, words})
	}
	for i := range j.o.Welds {
		w := &j.o.Welds[i]
		for _, g := range w.Edge {
			d.strokes(g.Transform(m))
		}
		if words := clean(w.Words); words != "" && len(w.Edge) > 0 {
			g := w.Edge[len(w.Edge)/2].Transform(m)
			labels = append(labels, newCallout(g.At(0.5), nobody, shape{}, "weld "+words))
		}
	}
	d.spread(labels)
}

// strokes marks one welded edge: short strokes that lean forward, on the side
// where there is no metal.
func (d *drawing) strokes(g geom.Seg) {
	n := max(1, int(g.Length()/weldPitch))
	for i := range n {
		t := (float64(i) + 0.5) / float64(n)
		p := g.At(t)
		along := g.B.Sub(g.A)
		if g.IsArc() {
			along = p.Sub(g.Circle().C).Perp().Mul(math.Copysign(1, g.Bulge))
		}
		along = along.Mul(1 / along.Len())
		away := along.Perp().Mul(-1)
		a := p.Add(away.Mul(weldOff))
		b := a.Add(away.Mul(weldStroke * math.Sqrt(0.75))).Add(along.Mul(weldStroke / 2))
		d.s.line(Welding, a, b)
		d.f.addLine(a, b, false, nobody)
	}
}
