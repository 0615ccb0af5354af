package dxf

import (
	"math"
	"sync"

	"github.com/yofu/dxf/entity"
	"github.com/yofu/dxf/header"

	"blankwright/export/stroke"
	"blankwright/flat/cutlist"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// sheet is one drawing in the making: it takes shapes in the part's own
// coordinates and collects the library's entities in drawing units, moved so
// that the outline's lower left is 0,0. A sheet belongs to one Write at a time;
// it is kept and used again for its memory.
type sheet struct {
	out     formatter
	head    *header.Header
	frame   *frame
	origin  geom.Point // becomes 0,0; mm
	per     float64    // mm in one drawing unit
	box     geom.Box   // of all that is drawn, mm
	all     entity.Entities
	lines   stock[entity.Line]
	arcs    stock[entity.Arc]
	circles stock[entity.Circle]
	light   stock[entity.LwPolyline]
	heavy   stock[entity.Polyline]
	cuts    []cutlist.Cut
	texts   []stroke.Mark
}

var sheets = sync.Pool{New: func() any {
	return &sheet{
		head:    header.New(),
		lines:   stock[entity.Line]{fresh: entity.NewLine},
		arcs:    stock[entity.Arc]{fresh: func() *entity.Arc { return entity.NewArc(nil) }},
		circles: stock[entity.Circle]{fresh: entity.NewCircle},
		light:   stock[entity.LwPolyline]{fresh: func() *entity.LwPolyline { return entity.NewLwPolyline(0) }},
		heavy:   stock[entity.Polyline]{fresh: entity.NewPolyline},
	}
}}

// stock is a store of entities to be used again.
type stock[T any] struct {
	fresh func() *T
	made  []*T
	used  int
}

// take is an entity with whatever its last user left in it.
func (s *stock[T]) take() *T {
	if s.used == len(s.made) {
		s.made = append(s.made, s.fresh())
	}
	s.used++
	return s.made[s.used-1]
}

// largestKept is how many entities a sheet may have drawn and still be kept:
// one huge part must not hold its memory for ever.
const largestKept = 4096

func (s *sheet) putAway() {
	if len(s.all) <= largestKept {
		sheets.Put(s)
	}
}

func (s *sheet) start(fr *frame, sys unit.System, origin geom.Point) {
	s.out.Reset()
	s.out.drop, s.out.err = fr.drop, fr.err
	s.out.SetPrecision(placesLength)
	s.frame, s.origin, s.per, s.box = fr, origin, 1, geom.Box{}
	if sys == unit.Inch {
		s.per = unit.MM
	}
	s.all, s.cuts, s.texts = s.all[:0], nil, nil
	s.lines.used, s.arcs.used, s.circles.used, s.light.used, s.heavy.used = 0, 0, 0, 0, 0
}

// x and y turn the part's coordinates into the drawing's.
func (s *sheet) x(p geom.Point) float64 { return (p.X - s.origin.X) / s.per }
func (s *sheet) y(p geom.Point) float64 { return (p.Y - s.origin.Y) / s.per }

func (s *sheet) at(p geom.Point) geom.Point { return geom.Point{X: s.x(p), Y: s.y(p)} }

// line draws a straight line.
func (s *sheet) line(on layer, a, b geom.Point) {
	l := s.lines.take()
	l.SetLayer(s.frame.layers[on])
	l.SetOwner(s.frame.owner)
	l.Start[0], l.Start[1] = s.x(a), s.y(a)
	l.End[0], l.End[1] = s.x(b), s.y(b)
	s.all = append(s.all, l)
}

// circle draws a whole circle.
func (s *sheet) circle(on layer, c geom.Circle) {
	e := s.circles.take()
	e.SetLayer(s.frame.layers[on])
	e.SetOwner(s.frame.owner)
	e.Center[0], e.Center[1], e.Radius = s.x(c.C), s.y(c.C), c.R/s.per
	s.all = append(s.all, e)
	s.box = s.box.Extend(geom.Point{X: c.C.X - c.R, Y: c.C.Y - c.R}).Extend(geom.Point{X: c.C.X + c.R, Y: c.C.Y + c.R})
}

// arc draws the arc on c from a to b. An ARC always runs counter-clockwise, so
// that one drawn clockwise is given from its end.
func (s *sheet) arc(on layer, c geom.Circle, a, b geom.Point, ccw bool) {
	e := s.arcs.take()
	e.SetLayer(s.frame.layers[on])
	e.SetOwner(s.frame.owner)
	e.Center[0], e.Center[1], e.Radius = s.x(c.C), s.y(c.C), c.R/s.per
	if !ccw {
		a, b = b, a
	}
	e.Angle[0], e.Angle[1] = degrees(a.Sub(c.C)), degrees(b.Sub(c.C))
	s.all = append(s.all, e)
}

// degrees is a direction as a drawing has it: 0 or more, under 360, as rounded
// on writing.
func degrees(v geom.Point) float64 {
	d := math.Atan2(v.Y, v.X) * (180 / math.Pi)
	if d < 0 {
		d += 360
	}
	const scale = 1e13 // placesAngle
	if math.RoundToEven(float64(d*scale)) >= 360*scale {
		return 0
	}
	return d
}

// loop draws a closed boundary that checkLoop found in order: as one circle
// where it is one, else as line and arcs in walking order, or joined.
func (s *sheet) loop(on layer, l geom.Loop, joined bool) {
	if c, ok := l.Circle(); ok {
		s.circle(on, c)
		return
	}
	s.box = s.box.Union(l.Bounds())
	switch {
	case !joined:
		s.loose(on, l)
	case s.frame.old:
		s.heavyPolyline(on, l)
	default:
		s.lightPolyline(on, l)
	}
}

// loose draws each segment by itself. Every corner is taken from one place, the
// start of the segment that leaves it, so that neighbours share it to the last
// digit.
func (s *sheet) loose(on layer, l geom.Loop) {
	for i, seg := range l {
		end := l[(i+1)%len(l)].A
		if seg.IsArc() {
			s.arc(on, circleOf(seg), seg.A, end, seg.Bulge > 0)
		} else {
			s.line(on, seg.A, end)
		}
	}
}

// open draws a stroke that is not closed, segment by segment in every flavour.
func (s *sheet) open(on layer, l geom.Loop) {
	for _, seg := range l {
		if seg.IsArc() {
			s.arc(on, seg.Circle(), seg.A, seg.B, seg.Bulge > 0)
		} else {
			s.line(on, seg.A, seg.B)
		}
	}
}

// lightPolyline draws the loop as a closed LWPOLYLINE.
func (s *sheet) lightPolyline(on layer, l geom.Loop) {
	p := s.light.take()
	p.SetLayer(s.frame.layers[on])
	p.SetOwner(s.frame.owner)
	p.Num, p.Closed = len(l), true
	for len(p.Vertices) < len(l) {
		p.Vertices = append(p.Vertices, make([]float64, 2))
	}
	p.Bulges = p.Bulges[:0]
	for i, seg := range l {
		p.Vertices[i][0], p.Vertices[i][1] = s.x(seg.A), s.y(seg.A)
		p.Bulges = append(p.Bulges, seg.Bulge)
	}
	s.all = append(s.all, p)
}

// heavyPolyline draws the loop as a closed POLYLINE with its VERTEX entities,
// for versions without LWPOLYLINE.
func (s *sheet) heavyPolyline(on layer, l geom.Loop) {
	p := s.heavy.take()
	p.SetLayer(s.frame.layers[on])
	p.Flag = 1 // closed, in the plane
	p.Vertices = p.Vertices[:min(len(l), cap(p.Vertices))]
	for i, v := range p.Vertices {
		if v == nil {
			p.Vertices = p.Vertices[:i]
			break
		}
	}
	for len(p.Vertices) < len(l) {
		p.AddVertex(0, 0, 0)
	}
	for i, seg := range l {
		v := p.Vertices[i]
		v.SetLayer(s.frame.layers[on])
		v.Flag = 0
		v.Coord[0], v.Coord[1], v.Buldge = s.x(seg.A), s.y(seg.A), seg.Bulge
	}
	s.all = append(s.all, p)
}

// circleOf is the circle that an arc is written on: the one it carries, where
// that passes through both its ends, else the one through its ends.
func circleOf(seg geom.Seg) geom.Circle {
	c := seg.Circle()
	if c.R > 0 && offCircle(c, seg.A) <= num.Joined && offCircle(c, seg.B) <= num.Joined {
		return c
	}
	return geom.BulgeSeg(seg.A, seg.B, seg.Bulge).Circle()
}

// offCircle is how far p lies from the circle's line, mm.
func offCircle(c geom.Circle, p geom.Point) float64 { return math.Abs(c.C.Dist(p) - c.R) }
