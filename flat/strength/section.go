package strength

import (
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Piece is a stretch of metal on a cutting line: from A to B, mm along the line's
// direction from its point, A < B.
type Piece struct{ A, B float64 }

// Side says how a line is meant that runs along an edge of the plate, where the
// section jumps.
type Side uint8

// The sides of a cutting line. Away from edges that run along the line all three
// are the same.
const (
	Through   Side = iota // metal counts where it lies on both sides of the line
	FromLeft              // the section just left of the line's direction
	FromRight             // the section just right of it
)

// Cut gives the pieces of metal on the line through at along dir (of any length), in
// order along it, as the true outline and its openings leave them. Pieces is
// appended to buf, which may be nil. Touching points, within num.Coincident, part no
// piece and make none.
func Cut(r geom.Region, at, dir geom.Point, side Side, buf []Piece) []Piece {
	l := dir.Len()
	if !(l > 0) {
		return buf
	}
	c := cutter{at: at, u: dir.Mul(1 / l), side: side}
	var placeRoom [64]float64
	places := c.meet(r.Outer, placeRoom[:0])
	if len(places) == 0 {
		return buf
	}
	var holeRoom [32]geom.Loop
	holes := holeRoom[:0]
	for _, h := range r.Holes {
		n := len(places)
		places = c.meet(h, places)
		if len(places) > n {
			holes = append(holes, h) // another opening holds no point of the line
		}
	}
	slices.Sort(places)
	start := len(buf)
	for i := 1; i < len(places); i++ {
		a, b := places[i-1], places[i]
		if b-a <= num.Coincident || !c.metal(r.Outer, holes, (a+b)/2) {
			continue
		}
		if n := len(buf); n > start && a-buf[n-1].B <= num.Coincident {
			buf[n-1].B = b
		} else {
			buf = append(buf, Piece{a, b})
		}
	}
	return buf
}

type cutter struct {
	at, u geom.Point
	side  Side
}

// meet appends where a loop meets the line: crossings, ends that lie on it, and
// places where an arc touches it.
func (c *cutter) meet(l geom.Loop, to []float64) []float64 {
	for i := range l {
		s := &l[i]
		a, b := s.A.Sub(c.at), s.B.Sub(c.at)
		ha, hb := c.u.Cross(a), c.u.Cross(b)
		ta, tb := c.u.Dot(a), c.u.Dot(b)
		if num.Zero(ha) {
			to = append(to, ta)
		}
		if num.Zero(hb) {
			to = append(to, tb)
		}
		if s.IsArc() {
			to = c.meetArc(s, to)
		} else if ha > 0 != (hb > 0) && ha != hb {
			to = append(to, ta+(tb-ta)*ha/(ha-hb))
		}
	}
	return to
}

func (c *cutter) meetArc(s *geom.Seg, to []float64) []float64 {
	k := s.Circle()
	w := k.C.Sub(c.at)
	h := math.Abs(c.u.Cross(w))
	if h > k.R+num.Coincident {
		return to
	}
	g := math.Sqrt(max(0, (k.R-h)*(k.R+h)))
	chord := s.B.Sub(s.A)
	for _, t := range [2]float64{c.u.Dot(w) - g, c.u.Dot(w) + g} {
		p := c.at.Add(c.u.Mul(t))
		// A point of the circle is on the arc when it lies on its side of the
		// chord: right of it where the arc runs counter-clockwise.
		if s.Bulge > 0 == (chord.Cross(p.Sub(s.A)) < 0) {
			to = append(to, t)
		}
	}
	return to
}

// metal tells whether the stretch of the line round t, free of meetings, counts as
// metal.
func (c *cutter) metal(outer geom.Loop, holes []geom.Loop, t float64) bool {
	p := c.at.Add(c.u.Mul(t))
	switch outer.Contains(p) {
	case geom.Outside:
		return false
	case geom.OnEdge:
		return c.beside(outer, p)
	}
	for _, h := range holes {
		switch h.Contains(p) {
		case geom.Inside:
			return false
		case geom.OnEdge:
			return c.beside(h, p)
		}
	}
	return true
}

// beside tells whether metal lies on the wanted side of an edge that runs along the
// line at p. Metal is on the left of every boundary.
func (c *cutter) beside(l geom.Loop, p geom.Point) bool {
	if c.side == Through {
		return false
	}
	for i := range l {
		if geom.PointSeg(p, l[i]).D <= num.Coincident {
			return tangent(&l[i], p).Dot(c.u) > 0 == (c.side == FromLeft)
		}
	}
	return false
}

// Section is what a cut through a plate holds with: in its plane, bent so that
// stress changes along the cut, and out of it.
type Section struct {
	Width    float64 // metal on the line, mm
	Area     float64 // mm2
	From, To float64 // the outermost ends, mm along the line
	Centroid float64 // mm along the line

	// In the plane of the plate, about the centroid.
	I      float64 // mm4
	SFrom  float64 // elastic modulus to the end at From, mm3
	STo    float64 // elastic modulus to the end at To, mm3
	Z      float64 // plastic modulus, mm3
	Middle float64 // where the plastic neutral axis lies, mm along the line

	// Out of the plane.
	IOut, SOut, ZOut float64 // mm4, mm3, mm3
}

// S is the least elastic modulus in the plane, mm3.
func (s *Section) S() float64 { return min(s.SFrom, s.STo) }

// SectionOf works out the section that pieces of metal, in order and apart, make in a
// plate of thickness t, mm. The zero Section is what no metal makes.
//
// Closed forms of rectangles side by side. Limits: plane sections stay plane, so the
// pieces must be joined stiffly on both sides of the cut.
func SectionOf(pieces []Piece, t float64) Section {
	var s Section
	if len(pieces) == 0 || !(t > 0) {
		return s
	}
	s.From, s.To = pieces[0].A, pieces[len(pieces)-1].B
	var first float64
	for _, p := range pieces {
		w := p.B - p.A
		s.Width += w
		first += w * ((p.A+p.B)/2 - s.From)
	}
	s.Area = s.Width * t
	s.Centroid = s.From + first/s.Width
	for _, p := range pieces {
		w := p.B - p.A
		s.I += t * w * (w*w/12 + sq((p.A+p.B)/2-s.Centroid))
	}
	s.SFrom = s.I / (s.Centroid - s.From)
	s.STo = s.I / (s.To - s.Centroid)
	s.Middle = halfWay(pieces, s.Width/2)
	for _, p := range pieces {
		s.Z += t * (away(p.B, s.Middle) - away(p.A, s.Middle))
	}
	s.IOut = s.Width * t * t * t / 12
	s.SOut = s.Width * t * t / 6
	s.ZOut = s.Width * t * t / 4
	return s
}

// halfWay is where so much metal lies before.
func halfWay(pieces []Piece, metal float64) float64 {
	for _, p := range pieces {
		w := p.B - p.A
		if metal <= w {
			return p.A + metal
		}
		metal -= w
	}
	return pieces[len(pieces)-1].B
}

// away is the integral of the distance from m, up to x.
func away(x, m float64) float64 { return (x - m) * math.Abs(x-m) / 2 }

// On is what a load in the plane does to a section cut through at along dir: the
// moment about the section's centroid, the force along its normal and the shear
// along the line. The load is the one that acts on the part to the left of the
// line; N is positive in tension, M positive counter-clockwise.
func (s *Section) On(load PlaneLoad, at, dir geom.Point) Acting {
	l := dir.Len()
	if !(l > 0) {
		return Acting{}
	}
	u := dir.Mul(1 / l)
	return Acting{M: load.About(at.Add(u.Mul(s.Centroid))), N: u.Cross(load.F), V: u.Dot(load.F)}
}

// Stress is the elastic stress that acting loads make in the plane at the two ends of
// a section, MPa, tension positive, and the mean shear stress.
func (s *Section) Stress(a Acting) (from, to, shear float64) {
	if !(s.Area > 0) {
		return 0, 0, 0
	}
	// A counter-clockwise load on the part to the left opens the far end of the
	// cut and closes the near one.
	return a.N/s.Area - a.M/s.SFrom, a.N/s.Area + a.M/s.STo, math.Abs(a.V) / s.Area
}
