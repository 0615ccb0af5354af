package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// byQuadrature integrates f over the inside of the loop by Green's theorem with
// Simpson's rule along every segment: ∫f dA = ∮ F dy with F = ∫f dx. It is the
// oracle for the closed forms.
func byQuadrature(l Loop, o Point, f func(x, y float64) float64) float64 {
	const n = 400
	var sum float64
	for _, s := range l {
		g := func(k float64) float64 {
			p := s.At(k).Sub(o)
			dy := s.B.Y - s.A.Y
			if s.IsArc() {
				dy = (p.X + o.X - s.circ.C.X) * s.Sweep()
			}
			return f(p.X, p.Y) * dy
		}
		part := g(0) + g(1)
		for i := 1; i < n; i++ {
			part += float64(2+2*(i%2)) * g(float64(i)/n)
		}
		sum += part / (3 * n)
	}
	return sum
}

func requireClose(t require.TestingT, want, got, scale float64, what string) {
	require.InDelta(t, want, got, 1e-9*scale, what)
}

// Area, centroid and second moments agree with numerical integration round the
// boundary.
func TestMomentsAgainstQuadrature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var l Loop
		if rapid.Bool().Draw(t, "lens") { // chord and arc, flat to half round
			b := math.Pow(10, rapid.Float64Range(-4, 0).Draw(t, "log bulge"))
			s := BulgeSeg(Point{3, 4}, Point{-20, 17}, b)
			l = Loop{s, Line(s.B, s.A)}
		} else {
			l = drawLoop(t, "l")
		}
		o := l[0].A
		a := byQuadrature(l, o, func(x, _ float64) float64 { return x })
		mx := byQuadrature(l, o, func(x, _ float64) float64 { return x * x / 2 })
		my := byQuadrature(l, o, func(x, y float64) float64 { return x * y })
		xx := byQuadrature(l, o, func(x, _ float64) float64 { return x * x * x / 3 })
		yy := byQuadrature(l, o, func(x, y float64) float64 { return x * y * y })
		xy := byQuadrature(l, o, func(x, y float64) float64 { return x * x * y / 2 })
		size := max(l.Bounds().Width(), l.Bounds().Height())
		requireClose(t, a, l.Area(), size*size, "area")
		m := l.Moments()
		requireClose(t, a, m.Area, size*size, "area of the moments")
		requireClose(t, mx, m.Area*(m.Centroid.X-o.X), size*size*size, "x")
		requireClose(t, my, m.Area*(m.Centroid.Y-o.Y), size*size*size, "y")
		ix, iy, ixy := m.About(o)
		requireClose(t, yy, ix, size*size*size*size, "Ix")
		requireClose(t, xx, iy, size*size*size*size, "Iy")
		requireClose(t, xy, ixy, size*size*size*size, "Ixy")
		requirePoint(t, m.Centroid, l.Centroid())
	})
}

// Where the series for flat arcs hand over to the closed forms both agree.
func TestFlatArcBranches(t *testing.T) {
	for _, b := range []float64{flatBulge, 0.2, 0.1} {
		al := 2 * math.Atan(b)
		sin, cos := math.Sincos(al)
		require.InEpsilon(t, 2*al-math.Sin(2*al), sweepLessSine(b*(1-1e-16)), 1e-13/b)
		require.InEpsilon(t, 0.75*sin+math.Sin(3*al)/12-al*cos, flatFirst(al), 1e-13/(b*b*b*b))
		require.InEpsilon(t, (3*al-2*math.Sin(2*al)+math.Sin(4*al)/4)/12, flatAlong(al), 1e-13/(b*b*b*b))
		require.InEpsilon(t, 0.75*al-7.0/12*math.Sin(2*al)-math.Sin(4*al)/48+al*math.Cos(2*al)/2, flatAcross(al), 1e-13/math.Pow(b, 6))
	}
	below := BulgeSeg(Point{}, Point{10, 0}, math.Nextafter(flatBulge, 0))
	above := BulgeSeg(Point{}, Point{10, 0}, flatBulge)
	for _, f := range []func(Seg) float64{
		func(s Seg) float64 { return Loop{s, Line(s.B, s.A)}.Moments().Area },
		func(s Seg) float64 { return Loop{s, Line(s.B, s.A)}.Moments().Centroid.Y },
		func(s Seg) float64 { return Loop{s, Line(s.B, s.A)}.Moments().Ix },
		func(s Seg) float64 { return Loop{s, Line(s.B, s.A)}.Moments().Iy },
	} {
		require.InEpsilon(t, f(above), f(below), 1e-12)
	}
}

// An arc so flat that its centre lies 10 km away is measured as well as any
// other: its lens is 2/3 of chord times rise, its centroid 2/5 of the rise up.
func TestVeryFlatArc(t *testing.T) {
	const chord, b = 100.0, 2.5e-6
	s := BulgeSeg(Point{}, Point{chord, 0}, -b) // rises to +y
	require.InEpsilon(t, 1e7, s.Circle().R, 1e-9)
	l := Loop{s, Line(s.B, s.A)}.Reverse()
	rise := b * chord / 2
	require.InEpsilon(t, 2.0/3*chord*rise, l.Area(), 1e-9)
	c := l.Centroid()
	require.InDelta(t, chord/2, c.X, 1e-9)
	require.InEpsilon(t, 0.4*rise, c.Y, 1e-8)
	require.InEpsilon(t, chord*rise*chord*chord/30, l.Moments().Iy, 1e-8) // parabola: ∫t²y = h c³/30
}

func TestMomentsClosedForms(t *testing.T) {
	disc := CircleLoop(Circle{Point{7, -3}, 5}).Moments()
	require.InEpsilon(t, math.Pi*625/4, disc.Ix, 1e-14)
	require.InEpsilon(t, math.Pi*625/4, disc.Iy, 1e-14)
	require.InDelta(t, 0, disc.Ixy, 1e-11)
	require.InEpsilon(t, math.Pi*625/2, disc.Polar(), 1e-14)

	plate := Polygon(Point{0, 0}, Point{30, 0}, Point{30, 20}, Point{0, 20})
	m := plate.Moments()
	require.InEpsilon(t, 30*20*20*20/12.0, m.Ix, 1e-14)
	require.InEpsilon(t, 20*30*30*30/12.0, m.Iy, 1e-14)
	ix, iy, ixy := m.About(Point{})
	require.InEpsilon(t, 30*20*20*20/3.0, ix, 1e-14)
	require.InEpsilon(t, 20*30*30*30/3.0, iy, 1e-14)
	require.InEpsilon(t, 30*30*20*20/4.0, ixy, 1e-14)

	// half disc: (π/8 - 8/(9π)) r⁴ about its own centroid
	half := Loop{BulgeSeg(Point{5, 0}, Point{-5, 0}, 1), Line(Point{-5, 0}, Point{5, 0})}.Moments()
	require.InEpsilon(t, (math.Pi/8-8/(9*math.Pi))*625, half.Ix, 1e-13)
	require.InEpsilon(t, math.Pi/8*625, half.Iy, 1e-14)

	// a hole takes off
	r := Region{Outer: plate, Holes: []Loop{CircleLoop(Circle{Point{15, 10}, 5}).Reverse()}}
	net := r.Moments()
	require.InEpsilon(t, m.Ix-math.Pi*625/4, net.Ix, 1e-13)
	require.InEpsilon(t, 600-25*math.Pi, net.Area, 1e-14)
	require.InEpsilon(t, 600-25*math.Pi, r.Area(), 1e-14)
	requirePoint(t, Point{15, 10}, net.Centroid)
	requirePoint(t, Point{15, 10}, r.Centroid())

	rev := plate.Reverse().Moments()
	require.Equal(t, -m.Area, rev.Area)
	require.Equal(t, -m.Ix, rev.Ix)
	require.Equal(t, m.Centroid, rev.Centroid)
}

// The principal moments of a rectangle turned by an angle are those of the
// rectangle, about axes turned by it.
func TestPrincipal(t *testing.T) {
	plate := Polygon(Point{0, 0}, Point{30, 0}, Point{30, 20}, Point{0, 20})
	for _, a := range []float64{0, 0.3, 1.2, -0.7} {
		most, least, angle := plate.Transform(Rotate(a)).Moments().Principal()
		require.InEpsilon(t, 20*30*30*30/12.0, most, 1e-12)
		require.InEpsilon(t, 30*20*20*20/12.0, least, 1e-12)
		turn := math.Mod(angle-a-math.Pi/2, math.Pi)
		require.InDelta(t, 0, math.Sin(turn), 1e-12)
	}
}

// A shape measures the same wherever it lies, but for what its coordinates can
// hold out there.
func TestMeasuresFarAway(t *testing.T) {
	const far = 1 << 23 // mm, over 8 km: a coordinate there is good to 2e-9
	for _, name := range shapeNames {
		r := loadShape(t, name)
		f := r.Transform(Translate(far, -far))
		ulp := math.Nextafter(far, math.Inf(1)) - far
		require.InDelta(t, r.Area(), f.Area(), ulp*r.Perimeter(), name)
		require.InDelta(t, r.Perimeter(), f.Perimeter(), ulp*float64(4*len(r.Outer)+16*len(r.Holes)), name)
		c, d := r.Centroid(), f.Centroid()
		slack := 4 * ulp * (1 + r.Perimeter()*r.Bounds().Width()/r.Area())
		require.InDelta(t, c.X, d.X-far, slack, name)
		require.InDelta(t, c.Y, d.Y+far, slack, name)
	}
	hole := CircleLoop(Circle{Point{far, far}, 4.1})
	require.InEpsilon(t, math.Pi*4.1*4.1, hole.Area(), 1e-15, "a circle's area does not depend on its place")
	require.InEpsilon(t, 2*math.Pi*4.1, hole.Perimeter(), 1e-15)
	require.Equal(t, Point{far, far}, hole.Centroid())
}

func TestMeasuresOfNothing(t *testing.T) {
	require.Zero(t, Loop(nil).Area())
	require.Zero(t, Loop(nil).Centroid())
	require.Zero(t, Loop(nil).Moments())
	require.Zero(t, Region{}.Area())
	require.Zero(t, Region{}.Centroid())
	require.Zero(t, Region{}.Moments())
	flat := Polygon(Point{2, 2}, Point{6, 2})
	require.Equal(t, Point{4, 2}, flat.Centroid())
	require.Equal(t, Point{4, 2}, flat.Moments().Centroid)
	require.Equal(t, Point{4, 2}, Region{Outer: flat}.Centroid())
}
