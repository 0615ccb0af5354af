package geom

import "math"

// Area, centroid and second moments by Green's theorem: the polygon of the
// chords plus, for every arc, the lens between chord and arc in closed form.
// Everything is summed relative to the loop's first point, so that a part far
// from the origin loses nothing.

// Moments are the area moments of a plane shape.
type Moments struct {
	Area     float64 // mm2; negative for a clockwise loop
	Centroid Point
	Ix       float64 // ∫(y-ȳ)² dA about the centroid, mm4
	Iy       float64 // ∫(x-x̄)² dA
	Ixy      float64 // ∫(x-x̄)(y-ȳ) dA
}

// Area is the area inside the loop, mm2: positive counter-clockwise, negative
// clockwise.
func (l Loop) Area() float64 {
	if len(l) == 0 {
		return 0
	}
	o := l[0].A
	var twice, lenses float64
	for i := range l {
		s := &l[i]
		ax, ay := s.A.X-o.X, s.A.Y-o.Y
		bx, by := s.B.X-o.X, s.B.Y-o.Y
		twice += ax*by - ay*bx
		if s.Bulge != 0 {
			lenses += s.lens()
		}
	}
	return twice/2 + lenses
}

// Centroid is the centre of the area inside the loop; the middle of the bounds
// where there is no area.
func (l Loop) Centroid() Point {
	if len(l) == 0 {
		return Point{}
	}
	o := l[0].A
	a, mx, my := l.firstMoments(o)
	if a == 0 {
		return l.Bounds().Centre()
	}
	return Point{o.X + mx/a, o.Y + my/a}
}

// Moments are the loop's area, centroid and second moments, all negative in
// sign for a clockwise loop.
func (l Loop) Moments() Moments {
	if len(l) == 0 {
		return Moments{}
	}
	return l.secondMoments(l[0].A).centred(l[0].A, l.Bounds())
}

// Area is the area of the region less its openings, mm2.
func (r Region) Area() float64 {
	sum := r.Outer.Area()
	for _, h := range r.Holes {
		sum += h.Area()
	}
	return sum
}

// Centroid is the centre of the region's area; the middle of the bounds where
// there is no area.
func (r Region) Centroid() Point {
	if len(r.Outer) == 0 {
		return Point{}
	}
	o := r.Outer[0].A
	a, mx, my := r.Outer.firstMoments(o)
	for _, h := range r.Holes {
		ha, hx, hy := h.firstMoments(o)
		a, mx, my = a+ha, mx+hx, my+hy
	}
	if a == 0 {
		return r.Bounds().Centre()
	}
	return Point{o.X + mx/a, o.Y + my/a}
}

// Moments are the region's area, centroid and second moments, openings taken
// off.
func (r Region) Moments() Moments {
	if len(r.Outer) == 0 {
		return Moments{}
	}
	o := r.Outer[0].A
	sum := r.Outer.secondMoments(o)
	for _, h := range r.Holes {
		sum.add(h.secondMoments(o))
	}
	return sum.centred(o, r.Bounds())
}

// Polar is the polar second moment about the centroid, Ix + Iy, mm4.
func (m Moments) Polar() float64 { return m.Ix + m.Iy }

// About gives the second moments about axes through p, parallel to x and y
// (parallel axis theorem), mm4.
func (m Moments) About(p Point) (ix, iy, ixy float64) {
	dx, dy := m.Centroid.X-p.X, m.Centroid.Y-p.Y
	return m.Ix + m.Area*dy*dy, m.Iy + m.Area*dx*dx, m.Ixy + m.Area*dx*dy
}

// Principal gives the largest and smallest second moment about an axis through
// the centroid, mm4, and the angle (rad, from +x, -π/2 to π/2) of the axis
// about which it is largest.
func (m Moments) Principal() (most, least, angle float64) {
	mid, half := (m.Ix+m.Iy)/2, (m.Ix-m.Iy)/2
	r := math.Hypot(half, m.Ixy)
	return mid + r, mid - r, math.Atan2(-m.Ixy, half) / 2
}

// firstMoments are ∫dA, ∫(x-o.x)dA and ∫(y-o.y)dA, signed as the loop runs.
func (l Loop) firstMoments(o Point) (a, mx, my float64) {
	for i := range l {
		s := &l[i]
		ax, ay := s.A.X-o.X, s.A.Y-o.Y
		bx, by := s.B.X-o.X, s.B.Y-o.Y
		c := ax*by - ay*bx
		a += c / 2
		mx += c * (ax + bx) / 6
		my += c * (ay + by) / 6
		if s.Bulge != 0 {
			ref, area, first := s.lensFirst()
			a += area
			mx += area*(ref.X-o.X) + first.X
			my += area*(ref.Y-o.Y) + first.Y
		}
	}
	return a, mx, my
}

// integrals are signed integrals over a shape relative to some point.
type integrals struct{ a, x, y, xx, yy, xy float64 }

func (t *integrals) add(u integrals) {
	t.a += u.a
	t.x += u.x
	t.y += u.y
	t.xx += u.xx
	t.yy += u.yy
	t.xy += u.xy
}

// centred moves integrals relative to o to the centroid.
func (t integrals) centred(o Point, b Box) Moments {
	if t.a == 0 {
		return Moments{Centroid: b.Centre()}
	}
	x, y := t.x/t.a, t.y/t.a
	return Moments{
		Area:     t.a,
		Centroid: Point{o.X + x, o.Y + y},
		Ix:       t.yy - t.a*y*y,
		Iy:       t.xx - t.a*x*x,
		Ixy:      t.xy - t.a*x*y,
	}
}

func (l Loop) secondMoments(o Point) integrals {
	var t integrals
	for i := range l {
		s := &l[i]
		ax, ay := s.A.X-o.X, s.A.Y-o.Y
		bx, by := s.B.X-o.X, s.B.Y-o.Y
		c := ax*by - ay*bx
		t.add(integrals{
			a:  c / 2,
			x:  c * (ax + bx) / 6,
			y:  c * (ay + by) / 6,
			xx: c * (ax*ax + ax*bx + bx*bx) / 12,
			yy: c * (ay*ay + ay*by + by*by) / 12,
			xy: c * (2*ax*ay + ax*by + bx*ay + 2*bx*by) / 24,
		})
		if s.Bulge != 0 {
			t.add(s.lensSecond(o))
		}
	}
	return t
}

// An arc of less than flatBulge (a sweep of about 56°) is handled by power
// series: there the closed forms in sine and cosine cancel. Both branches agree
// to the last digits at the change.
const flatBulge = 0.25

// lens is the signed area between chord and arc, R²(θ - sin θ)/2, positive for
// a counter-clockwise arc.
func (s *Seg) lens() float64 {
	b := s.Bulge
	if b < 0 {
		b = -b
	}
	var v float64
	if b == 1 {
		v = math.Pi
	} else {
		v = sweepLessSine(b)
	}
	v *= s.circ.R * s.circ.R / 2
	if s.Bulge < 0 {
		return -v
	}
	return v
}

// sweepLessSine is θ - sin θ for the sweep of a bulge b >= 0.
func sweepLessSine(b float64) float64 {
	t := 4 * math.Atan(b)
	if b >= flatBulge {
		k := 1 + b*b
		return t - 4*b*(1-b*b)/(k*k)
	}
	q := t * t
	return t * q / 6 * (1 - q/20*(1-q/42*(1-q/72*(1-q/110*(1-q/156*(1-q/210*(1-q/272*(1-q/342))))))))
}

// lensFirst is the lens' signed area and its signed first moment about ref,
// which is the circle's centre, or the middle of the chord in a flat arc whose
// centre is far away.
func (s *Seg) lensFirst() (ref Point, area float64, first Point) {
	area = s.lens()
	dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
	d2 := dx*dx + dy*dy
	if math.Abs(s.Bulge) >= flatBulge {
		return s.circ.C, area, Point{dy * d2 / 12, -dx * d2 / 12}
	}
	ref = Point{(s.A.X + s.B.X) / 2, (s.A.Y + s.B.Y) / 2}
	if d2 == 0 {
		return ref, area, Point{}
	}
	r := s.circ.R
	k := r * r * r * flatFirst(2*math.Atan(math.Abs(s.Bulge))) / math.Sqrt(d2)
	return ref, area, Point{dy * k, -dx * k}
}

// lensSecond are the lens' signed integrals relative to o. In the lens' own
// axes, t along the chord and n from the centre through the middle of the arc:
//
//	∫t² = R⁴/12 (3α - 2 sin 2α + ¼ sin 4α), ∫n² = R⁴/4 (α - ¼ sin 4α),
//
// α half the sweep, n from the centre.
func (s *Seg) lensSecond(o Point) integrals {
	ref, area, first := s.lensFirst()
	d := s.B.Sub(s.A)
	l := d.Len()
	if l == 0 {
		return integrals{}
	}
	tx, ty := d.X/l, d.Y/l
	nx, ny := ty, -tx
	al := 2 * math.Atan(math.Abs(s.Bulge))
	r4 := s.circ.R * s.circ.R * s.circ.R * s.circ.R
	var tt, nn float64
	if math.Abs(s.Bulge) >= flatBulge {
		sin4 := math.Sin(4 * al)
		tt = r4 / 12 * (3*al - 2*math.Sin(2*al) + sin4/4)
		nn = r4 / 4 * (al - sin4/4)
	} else {
		tt, nn = r4*flatAlong(al), r4*flatAcross(al)
	}
	if s.Bulge < 0 {
		tt, nn = -tt, -nn
	}
	x, y := ref.X-o.X, ref.Y-o.Y
	return integrals{
		a:  area,
		x:  area*x + first.X,
		y:  area*y + first.Y,
		xx: area*x*x + 2*x*first.X + nn*nx*nx + tt*tx*tx,
		yy: area*y*y + 2*y*first.Y + nn*ny*ny + tt*ty*ty,
		xy: area*x*y + x*first.Y + y*first.X + nn*nx*ny + tt*tx*ty,
	}
}

// The power series of a flat arc's lens in α, each over its first power of α:
// coefficients of 1, α², α⁴ ...; ten terms reach float64's last digit at
// flatBulge. R⁴ and R³ times such a power of α are powers of the chord, so
// nothing cancels however far away the centre is.
var (
	// ¾ sin α + sin 3α / 12 - α cos α, over α⁵
	flatFirstSeries = [...]float64{
		2.0 / 15, -11.0 / 315, 17.0 / 3780, -461.0 / 1247400, 8303.0 / 389188800,
		-24911.0 / 27243216000, 168151.0 / 5557616064000, -1513361.0 / 1900704693888000,
		7913.0 / 463788509184000, -98065811.0 / 323150209236062208000,
	}
	// (3α - 2 sin 2α + ¼ sin 4α)/12, over α⁵
	flatAlongSeries = [...]float64{
		2.0 / 15, -4.0 / 63, 2.0 / 135, -68.0 / 31185, 124.0 / 552825, -8.0 / 467775,
		10922.0 / 10854718875, -1028.0 / 21837140325, 292.0 / 162820783125,
		-10168.0 / 179304759208575,
	}
	// ¾α - 7/12 sin 2α - 1/48 sin 4α + ½α cos 2α, over α⁷
	flatAcrossSeries = [...]float64{
		4.0 / 105, -4.0 / 315, 4.0 / 1925, -64.0 / 289575, 1208.0 / 70945875,
		-404.0 / 402026625, 29116.0 / 618718975875, -12944.0 / 7218388051875,
		6904.0 / 121750145141625,
	}
)

// powers sums c[0] + c[1] x + c[2] x² + ...
func powers(c []float64, x float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = sum*x + c[i]
	}
	return sum
}

// flatFirst is the first moment of a lens about its chord over R³.
func flatFirst(al float64) float64 {
	q := al * al
	return q * q * al * powers(flatFirstSeries[:], q)
}

// flatAlong is ∫t² over R⁴.
func flatAlong(al float64) float64 {
	q := al * al
	return q * q * al * powers(flatAlongSeries[:], q)
}

// flatAcross is ∫n² over R⁴ with n from the chord.
func flatAcross(al float64) float64 {
	q := al * al
	return q * q * q * al * powers(flatAcrossSeries[:], q)
}
