package strength

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// The load-deformation curve of one bolt in shear: R = Rult (1 - e^(-mu D))^lambda,
// with D in inches and the most stressed bolt at its largest deformation.
//
// S. F. Crawford and G. L. Kulak, Eccentrically Loaded Bolted Connections, Journal of
// the Structural Division, ASCE, 97(ST3), 1971; AISC Manual Part 7, eq. 7-1.
const (
	curveMu     = 10.0 // per inch
	curveLambda = 0.55
	curveMost   = 0.34                // in
	curveDecay  = curveMu * curveMost // of deformations as a share of the largest
)

// CurveEnd is the share of Rult that a bolt holds at the largest deformation of
// that curve, (1 - e^-3.4)^0.55 = 0.9815. The tables of the AISC Manual have it in
// their C, and so has InstantCentre: without eccentricity C is CurveEnd times the
// number of bolts. A load through the centroid needs no such analysis: there every
// bolt counts whole.
const CurveEnd = 0.9815046020787588

// Centre is the ultimate state of an eccentrically loaded group of equal bolts that
// turns about its instantaneous centre.
type Centre struct {
	// C is how many times the strength of one bolt the load may be: the AISC
	// Manual's C, by which the group holds C rn. 0 where there is a couple only.
	C float64

	// CMoment is the same of a couple, mm: the group holds CMoment rn. Of any load
	// it is its moment about the centroid in this measure.
	CMoment float64

	// Needed is the strength that one bolt needs under this very load, N.
	Needed float64

	// At is the instantaneous centre, mm. Shift says that it is at infinity: the
	// group moves without turning.
	At    geom.Point
	Shift bool

	// Forces are the forces on the bolts under this load, N, in the proportions of
	// the ultimate state. They add up to the load.
	Forces []geom.Point
	MostAt int // the bolt that deforms most
	Steps  int // how many steps the search took
}

// InstantCentre finds the ultimate state of a group of equal bolts under a load of
// any direction, in its plane. Forces is appended to buf, which may be nil.
//
// AISC Manual Part 7, instantaneous centre of rotation method, eq. 7-1 (from
// memory). The plate turns stiffly about a centre; each bolt resists square to its
// radius with the force that the curve gives for its deformation, which grows with
// the radius to 0.34 in at the farthest bolt. The centre is right where forces and
// moment balance the load, here to 1e-9 of the group's strength.
//
// The motion of the plate, two shifts and a turn, is the unknown, up to its scale;
// a centre at infinity is then no special case. Each step solves the tangent
// equations for the motion and the size of the load together and scales the farthest
// bolt to its largest deformation again; where that does not lead on, one step with
// secant stiffness does, which is the elastic method repeated with what each bolt
// still holds (G. D. Brandt, Rapid Determination of Ultimate Strength of
// Eccentrically Loaded Bolt Groups, AISC Engineering Journal 19(2), 1982).
//
// Limits: bolts of one size, bearing-type joint, plate stiff and not governing
// (bearing and tear-out are checked per bolt with Forces). It is an error where
// there is no bolt or no load, or where bolts in one place shall hold a moment.
func InstantCentre(bolts []geom.Point, load PlaneLoad, buf []geom.Point) (Centre, error) {
	if err := checkGroup(bolts, &load); err != nil {
		return Centre{}, err
	}
	c, j := polar(bolts)
	moment := load.About(c)
	if load.F == (geom.Point{}) && moment == 0 {
		return Centre{}, errNoLoad
	}
	if onePlace(j) {
		if !noArm(&load, moment) {
			return Centre{}, errNoArm
		}
		j, moment = 1, 0
	}
	scale := math.Sqrt(j / float64(len(bolts))) // radius of gyration: makes turns comparable with shifts
	s := search{bolts: bolts, c: c, inv: 1 / scale}
	g := vec{load.F.X, load.F.Y, moment * s.inv}
	size := g.len()
	s.load = g.times(1 / size)
	ok := s.find()
	if !ok {
		return Centre{}, errNotFound
	}
	return s.centre(size, scale, load, moment, buf), nil
}

// vec is a motion (shift x, shift y, turn times the radius of gyration) or what it
// works against (force x, force y, moment over the radius of gyration).
type vec [3]float64

func (a vec) dot(b vec) float64         { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vec) len() float64              { return math.Sqrt(a.dot(a)) }
func (a vec) times(k float64) vec       { return vec{a[0] * k, a[1] * k, a[2] * k} }
func (a vec) plus(k float64, b vec) vec { return vec{a[0] + k*b[0], a[1] + k*b[1], a[2] + k*b[2]} }

// sym is a symmetric 3 by 3 matrix.
type sym struct{ xx, xy, xz, yy, yz, zz float64 }

// add adds the stiffness of a spring at (x, y): along n by kn, across by kt.
func (m *sym) add(x, y, nx, ny, kn, kt float64) {
	xx := kn*nx*nx + kt*ny*ny
	xy := (kn - kt) * nx * ny
	yy := kn*ny*ny + kt*nx*nx
	// A turn moves the place by (-y, x).
	tx, ty := xx*-y+xy*x, xy*-y+yy*x
	m.xx += xx
	m.xy += xy
	m.yy += yy
	m.xz += tx
	m.yz += ty
	m.zz += tx*-y + ty*x
}

// solve is the solution of m v = b for a positive definite m (Cholesky).
func (m *sym) solve(b vec) vec {
	l00 := math.Sqrt(m.xx)
	l10, l20 := m.xy/l00, m.xz/l00
	l11 := math.Sqrt(m.yy - l10*l10)
	l21 := (m.yz - l20*l10) / l11
	l22 := math.Sqrt(m.zz - l20*l20 - l21*l21)
	y0 := b[0] / l00
	y1 := (b[1] - l10*y0) / l11
	y2 := (b[2] - l20*y0 - l21*y1) / l22
	z := y2 / l22
	y := (y1 - l21*z) / l11
	return vec{(y0 - l10*y - l20*z) / l00, y, z}
}

// search is the state of the iteration.
type search struct {
	bolts []geom.Point
	c     geom.Point
	inv   float64
	load  vec // of length 1

	motion  vec // the farthest bolt moves by 1
	force   vec // what the bolts hold at that motion, of Rult 1
	tangent sym
	secant  sym
	off     float64 // how far the force is from the load's direction
	far     int
	steps   int
}

func (s *search) place(i int) (x, y float64) {
	return (s.bolts[i].X - s.c.X) * s.inv, (s.bolts[i].Y - s.c.Y) * s.inv
}

// scaled is the motion scaled so that the farthest bolt moves by 1, and that bolt.
func (s *search) scaled(q vec) (vec, int) {
	most, far := 0.0, 0
	for i := range s.bolts {
		x, y := s.place(i)
		dx, dy := q[0]-q[2]*y, q[1]+q[2]*x
		if d := dx*dx + dy*dy; d > most {
			most, far = d, i
		}
	}
	return q.times(1 / math.Sqrt(most)), far
}

// take moves the group: forces and stiffness at the motion q.
func (s *search) take(q vec) {
	s.motion, s.far = s.scaled(q)
	q = s.motion
	s.force, s.tangent, s.secant = vec{}, sym{}, sym{}
	for i := range s.bolts {
		x, y := s.place(i)
		dx, dy := q[0]-q[2]*y, q[1]+q[2]*x
		d := math.Sqrt(dx*dx + dy*dy)
		r, sec, tan := hold(d)
		nx, ny := 1.0, 0.0
		if d > 0 {
			nx, ny = dx/d, dy/d
		}
		fx, fy := r*nx, r*ny
		s.force[0] += fx
		s.force[1] += fy
		s.force[2] += x*fy - y*fx
		s.secant.add(x, y, nx, ny, sec, sec)
		s.tangent.add(x, y, nx, ny, tan, sec)
	}
	s.off = s.force.plus(-s.force.dot(s.load), s.load).len()
}

// hold is what a bolt holds at the share d of the largest deformation, of Rult 1,
// and its stiffness, secant and tangent.
func hold(d float64) (r, secant, tangent float64) {
	at := max(d, num.LeastDeformation)
	rise := -math.Expm1(-curveDecay * at) // 1 - e^(-mu D)
	r = math.Exp(curveLambda * math.Log(rise))
	secant = r / at
	if at <= num.StillBolt {
		tangent = secant
	} else {
		tangent = curveLambda * curveDecay * (1 - rise) / rise * r
	}
	return secant * d, secant, tangent
}

// find looks for the motion whose forces run along the load.
func (s *search) find() bool {
	n := float64(len(s.bolts))
	// All bolts equally stiff: the elastic method.
	s.take(vec{s.load[0] / n, s.load[1] / n, s.load[2] / n})
	for s.steps = 1; s.steps <= num.CentreSteps; s.steps++ {
		if s.off <= num.Balance*n {
			break
		}
		if !s.newton() {
			s.take(s.secant.solve(s.load))
		}
	}
	// Forces along the load and not against it: the motion works with it.
	return s.off <= num.BalanceKept*n && s.force.dot(s.load) > 0
}

// newton takes a step with the tangent, shortened until it leads nearer, and
// reports whether one did.
func (s *search) newton() bool {
	before := *s
	a, b := s.tangent.solve(s.load), s.tangent.solve(s.force)
	p := s.size(s.motion.plus(-1, b), a)
	if !(p > 0) {
		return false
	}
	step := vec{}.plus(-1, b).plus(p, a)
	for k, part := 0, 1.0; k <= num.CentreHalvings; k, part = k+1, part/2 {
		s.take(before.motion.plus(part, step))
		if s.off < before.off {
			return true
		}
	}
	*s = before
	return false
}

// size is the load p at which the farthest bolt of the motion d + p a moves by 1;
// not positive where there is none.
func (s *search) size(d, a vec) float64 {
	p := math.Inf(1)
	for i := range s.bolts {
		x, y := s.place(i)
		dx, dy := d[0]-d[2]*y, d[1]+d[2]*x
		ax, ay := a[0]-a[2]*y, a[1]+a[2]*x
		aa, da, dd := ax*ax+ay*ay, dx*ax+dy*ay, dx*dx+dy*dy
		if aa == 0 {
			continue
		}
		root := da*da - aa*(dd-1)
		if root < 0 {
			return 0
		}
		p = min(p, (math.Sqrt(root)-da)/aa)
	}
	if math.IsInf(p, 1) {
		return 0
	}
	return p
}

// centre writes down the state found. size is the length of the load as a vec.
func (s *search) centre(size, scale float64, load PlaneLoad, moment float64, buf []geom.Point) Centre {
	p := s.force.dot(s.load) // the load that the group holds, of Rult 1
	r := Centre{
		C: p * load.F.Len() / size, CMoment: p * moment / size, Needed: size / p,
		MostAt: s.far, Steps: s.steps,
	}
	q := s.motion
	if num.Zero(q[2]) {
		r.Shift = true
	} else {
		// Where shift and turn cancel: (-y, x) turn = -(shift).
		r.At = geom.Point{X: s.c.X - q[1]/q[2]*scale, Y: s.c.Y + q[0]/q[2]*scale}
	}
	start := len(buf)
	for i := range s.bolts {
		x, y := s.place(i)
		dx, dy := q[0]-q[2]*y, q[1]+q[2]*x
		_, secant, _ := hold(math.Sqrt(dx*dx + dy*dy))
		k := secant * r.Needed
		buf = append(buf, geom.Point{X: dx * k, Y: dy * k})
	}
	r.Forces = buf[start:]
	return r
}
