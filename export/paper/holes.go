package paper

import (
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
)

// shape is the outline of an opening about its centre: a circle of radius r, or
// the r-wide band about the straight line of length 2*half along dir.
type shape struct {
	r, half float64
	dir     geom.Point
}

func shapeOf(h *blank.Hole, dia float64) shape {
	s := shape{r: dia / 2}
	if h.Length > 0 {
		s.half = max(0, (h.Length-h.Dia)/2)
		s.dir = geom.Point{}.Polar(1, h.Angle)
	}
	return s
}

// reach is how far the edge is from the centre in the direction of the unit
// vector u.
func (s shape) reach(u geom.Point) float64 {
	if s.half == 0 {
		return s.r
	}
	along, across := math.Abs(u.Dot(s.dir)), math.Abs(u.Cross(s.dir))
	if across*s.half >= along*s.r { // through a straight side
		return s.r / across
	}
	// Through a round end: the farther crossing with its circle.
	return along*s.half + math.Sqrt(max(0, s.r*s.r-across*across*s.half*s.half))
}

// ends are the middles of the round ends of a slot; of a round hole they are
// one.
func (s shape) ends(c geom.Point) [2]geom.Point {
	d := s.dir.Mul(s.half)
	return [2]geom.Point{c.Sub(d), c.Add(d)}
}

const (
	punchGap  = 0.5 // from the centre to where the cross starts: 1 mm stays open for the punch
	overshoot = 2.0 // of a centre-line beyond its edge
	smallR    = 9.0 // up to here a cross runs on as the centre-line
	crossArm  = 5.0 // of a punch cross in a larger opening
	shortSlot = 4.0 // a slot whose ends are no farther apart is drilled once
	keepOff   = 0.4 // labels stay this far from an opening's edge, beside their own gap
)

// opening draws one hole: edges, punch crosses and centre-lines.
func (d *drawing) opening(i int) {
	h := &d.b.Holes[i]
	c := h.Centre.Add(d.s.Offset)
	sh := shapeOf(h, h.Dia)
	if h.CutDia > 0 {
		d.edge(Openings, h, h.CutDia, c)
	}
	if h.Method != blank.Cut && apart(h) {
		d.edge(Drilled, h, h.Dia, c)
	}
	ends := sh.ends(c)
	u := geom.Point{X: 1}
	if sh.half > 0 {
		u = sh.dir
	}
	v := u.Perp()
	if 2*sh.half < shortSlot { // drilled at its middle
		d.arms(c, sh.r, i, v, v.Mul(-1))
		d.arms(c, sh.r+sh.half, i, u, u.Mul(-1))
	} else { // drilled at both ends
		d.arms(ends[0], sh.r, i, v, v.Mul(-1), u.Mul(-1))
		d.arms(ends[1], sh.r, i, v, v.Mul(-1), u)
		d.s.line(Punches, ends[0].Add(u.Mul(punchGap)), ends[1].Sub(u.Mul(punchGap)))
		d.f.addLine(ends[0], ends[1], false, i)
	}
	d.f.addRing(geom.Circle{C: ends[0], R: sh.r + keepOff}, i)
	if sh.half > 0 {
		d.f.addRing(geom.Circle{C: ends[1], R: sh.r + keepOff}, i)
		side := v.Mul(sh.r + keepOff)
		d.f.addLine(ends[0].Add(side), ends[1].Add(side), true, i)
		d.f.addLine(ends[0].Sub(side), ends[1].Sub(side), true, i)
	}
}

// apart reports whether the finished edge can be told on paper from the one
// that is cut.
func apart(h *blank.Hole) bool { return (h.Dia-h.CutDia)/2 >= 2*LineWidth }

func (d *drawing) edge(id LayerID, h *blank.Hole, dia float64, c geom.Point) {
	if h.Length == 0 {
		d.s.circle(id, c, dia/2)
		return
	}
	sh := shapeOf(h, dia)
	half := sh.dir.Mul(sh.half)
	for _, g := range geom.Slot(c.Sub(half), c.Add(half), dia) {
		d.s.seg(id, g)
	}
}

// arms draws arms of a punch cross at p, a centre of an opening whose edge is r
// away, in the given directions.
func (d *drawing) arms(p geom.Point, r float64, hole int, dirs ...geom.Point) {
	far := r + overshoot
	for _, u := range dirs {
		if r > smallR {
			d.s.line(Punches, p.Add(u.Mul(punchGap)), p.Add(u.Mul(crossArm)))
			d.s.line(Punches, p.Add(u.Mul(r-overshoot)), p.Add(u.Mul(far)))
		} else {
			d.s.line(Punches, p.Add(u.Mul(punchGap)), p.Add(u.Mul(far)))
		}
		d.f.addLine(p, p.Add(u.Mul(far)), false, hole)
	}
}
