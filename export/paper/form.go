package paper

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Bend is a line along which the flat part is bent, in the part's own
// coordinates.
type Bend struct {
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

// words say how the part is bent.
func (b *Bend) words(sys unit.System) string {
	way := "up"
	if b.Down {
		way = "down"
	}
	s := "bend " + way + " " + num.Short(b.Angle*180/math.Pi, 1) + " deg"
	if b.Radius > 0 {
		s += ", inside radius " + unit.Text(b.Radius, sys)
	}
	return s
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
		labels = append(labels, newCallout(g.At(0.4), nobody, shape{}, b.words(d.sys)))
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
