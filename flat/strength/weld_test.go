package strength

import (
	"math"
	"testing"

	"blankwright/flat/geom"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func straight(p ...float64) []geom.Seg {
	var out []geom.Seg
	for i := 0; i+3 < len(p); i += 4 {
		out = append(out, geom.Line(pt(p[i], p[i+1]), pt(p[i+2], p[i+3])))
	}
	return out
}

// The line properties of Blodgett, Design of Welded Structures, and Shigley's Tables
// 9-1 (torsion) and 9-2 (bending): from memory.
func TestWeldLineTable(t *testing.T) {
	const b, d, r = 70.0, 110.0, 45.0
	tee := d * d / (b + 2*d) // of the inverted U: from the closed end
	circle := []geom.Seg(geom.CircleLoop(geom.Circle{C: pt(9, 8), R: r}))
	for _, c := range []struct {
		shape    string
		welds    []geom.Seg
		length   float64
		centroid geom.Point // from the lower left corner of the figure
		j, ix    float64    // 0: the table does not give it
	}{
		{"one vertical line", straight(0, 0, 0, d), d, pt(0, d/2), d * d * d / 12, d * d * d / 12},
		{"two vertical lines", straight(0, 0, 0, d, b, 0, b, d), 2 * d, pt(b/2, d/2), d * (3*b*b + d*d) / 6, d * d * d / 6},
		{"two horizontal lines", straight(0, 0, b, 0, 0, d, b, d), 2 * b, pt(b/2, d/2), b * (3*d*d + b*b) / 6, b * d * d / 2},
		{"angle", straight(0, 0, b, 0, 0, 0, 0, d), b + d, pt(b*b/(2*(b+d)), d*d/(2*(b+d))),
			(math.Pow(b+d, 4) - 6*b*b*d*d) / (12 * (b + d)), 0},
		{"channel", straight(0, 0, b, 0, 0, 0, 0, d, 0, d, b, d), 2*b + d, pt(b*b/(2*b+d), d/2),
			(8*b*b*b+6*b*d*d+d*d*d)/12 - math.Pow(b, 4)/(2*b+d), d * d * (6*b + d) / 12},
		{"inverted U", straight(0, 0, 0, d, 0, d, b, d, b, d, b, 0), b + 2*d, pt(b/2, d-tee), 0,
			2*d*d*d/3 - 2*d*d*tee + (b+2*d)*tee*tee},
		{"box", straight(0, 0, b, 0, b, 0, b, d, b, d, 0, d, 0, d, 0, 0), 2 * (b + d), pt(b/2, d/2), math.Pow(b+d, 3) / 6, d * d * (3*b + d) / 6},
		{"circle", circle, 2 * math.Pi * r, pt(9, 8), 2 * math.Pi * r * r * r, math.Pi * r * r * r},
		{"half circle", circle[:1], math.Pi * r, pt(9, 8+2*r/math.Pi), 0, r * r * r * (math.Pi/2 - 4/math.Pi)},
	} {
		w := LineProperties(c.welds)
		require.InEpsilon(t, c.length, w.Length, 1e-12, c.shape)
		require.InDelta(t, c.centroid.X, w.Centroid.X, 1e-9, c.shape)
		require.InDelta(t, c.centroid.Y, w.Centroid.Y, 1e-9, c.shape)
		if c.j > 0 {
			require.InEpsilon(t, c.j, w.J(), 1e-12, c.shape)
		}
		if c.ix > 0 {
			require.InEpsilon(t, c.ix, w.Ix, 1e-12, c.shape)
		}
	}
}

// drawWelds draws a few segments, straight ones and arcs from flat to half round.
func drawWelds(t *rapid.T) []geom.Seg {
	n := rapid.IntRange(1, 5).Draw(t, "segments")
	out := make([]geom.Seg, n)
	for i := range out {
		a := pt(rapid.Float64Range(-100, 100).Draw(t, "ax"), rapid.Float64Range(-100, 100).Draw(t, "ay"))
		b := a.Polar(rapid.Float64Range(5, 150).Draw(t, "chord"), rapid.Float64Range(0, 6.28).Draw(t, "angle"))
		bulge := 0.0
		if rapid.Bool().Draw(t, "arc") {
			bulge = math.Pow(10, rapid.Float64Range(-5, 0).Draw(t, "log bulge"))
			if rapid.Bool().Draw(t, "clockwise") {
				bulge = -bulge
			}
		}
		out[i] = geom.BulgeSeg(a, b, bulge)
	}
	return out
}

// Integration along the segments gives the same.
func TestLinePropertiesAgainstQuadrature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		welds := drawWelds(t)
		w := LineProperties(welds)
		sum := func(f func(p geom.Point) float64) (total float64) {
			const n = 200
			for _, s := range welds {
				part := f(s.At(0)) + f(s.At(1))
				for i := 1; i < n; i++ {
					part += float64(2+2*(i%2)) * f(s.At(float64(i)/n))
				}
				total += part * s.Length() / (3 * n)
			}
			return total
		}
		l := sum(func(geom.Point) float64 { return 1 })
		close9(t, l, w.Length, l, "length")
		size := 300.0
		close9(t, sum(func(p geom.Point) float64 { return p.X })/l, w.Centroid.X, size, "x")
		close9(t, sum(func(p geom.Point) float64 { return p.Y })/l, w.Centroid.Y, size, "y")
		c := w.Centroid
		close9(t, sum(func(p geom.Point) float64 { return sq(p.Y - c.Y) }), w.Ix, l*size*size, "Ix")
		close9(t, sum(func(p geom.Point) float64 { return sq(p.X - c.X) }), w.Iy, l*size*size, "Iy")
		close9(t, sum(func(p geom.Point) float64 { return (p.X - c.X) * (p.Y - c.Y) }), w.Ixy, l*size*size, "Ixy")
	})
}

// Where the series for flat arcs hand over to the closed forms both agree.
func TestFlatWeldArcs(t *testing.T) {
	for _, a := range []float64{0.499999, 0.3, 0.1} {
		require.InEpsilon(t, math.Sin(a)/a-math.Cos(a), arcRise(a), 1e-13/(a*a))
		require.InEpsilon(t, a-math.Sin(2*a)/2, arcAlong(a), 1e-13/(a*a*a))
		require.InEpsilon(t, a+math.Sin(2*a)/2-2*sq(math.Sin(a))/a, arcAcross(a), 1e-13/math.Pow(a, 5))
	}
	require.InEpsilon(t, arcAcross(0.5), arcAcross(0.4999999999), 1e-8)
}

// The forces on the welds add up to the load, force and moment alike.
func TestWeldBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		welds := drawWelds(t)
		load := drawSpaceLoad(t)
		w, err := ElasticWeld(welds, load)
		if err != nil {
			require.ErrorIs(t, err, errThinWeld)
			return
		}
		var in geom.Point
		var out, mx, my, mz, size float64
		const n = 400
		for _, s := range welds {
			for i := 0; i <= n; i++ {
				k := float64(2+2*(i%2)) / (3 * n) * s.Length()
				if i == 0 || i == n {
					k = s.Length() / (3 * n)
				}
				p := s.At(float64(i) / n)
				f, r := w.At(p), p.Sub(w.Lines.Centroid)
				in = in.Add(f.In.Mul(k))
				out += f.Out * k
				mx += r.Y * f.Out * k
				my -= r.X * f.Out * k
				mz += r.Cross(f.In) * k
				size += f.Len() * k
			}
		}
		close9(t, load.F.X, in.X, 10*size, "force x")
		close9(t, load.F.Y, in.Y, 10*size, "force y")
		close9(t, load.Out, out, 10*size, "force z")
		close9(t, w.Mx, mx, 3000*size, "moment x")
		close9(t, w.My, my, 3000*size, "moment y")
		close9(t, w.Mz, mz, 3000*size, "moment z")
	})
}

// Nowhere on the welds is there more than at the peak.
func TestWeldPeakIsThePeak(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		welds := drawWelds(t)
		w, err := ElasticWeld(welds, drawSpaceLoad(t))
		if err != nil {
			return
		}
		p := w.Peak(welds)
		seen := 0.0
		for _, s := range welds {
			for i := range 401 {
				f := w.At(s.At(float64(i) / 400))
				seen = max(seen, f.Len())
			}
		}
		require.LessOrEqual(t, seen, p.Most*(1+1e-9))
		require.GreaterOrEqual(t, seen, p.Most*(1-1e-3), "the peak lies on the welds")
		require.LessOrEqual(t, geom.PointSeg(p.At, welds[p.Seg]).D, 1e-6)
		require.InDelta(t, p.Most, math.Sqrt(sq(p.Along)+sq(p.Across)+sq(p.Force.Out)), 1e-9*p.Most)
	})
}

// Shigley's bracket on two lines: torsion and direct shear at the far corner, by
// hand. 50 kN down, 300 mm from the centroid of two welds 200 long, 150 apart.
func TestWeldByHand(t *testing.T) {
	welds := straight(0, 0, 0, 200, 150, 0, 150, 200)
	w, err := ElasticWeld(welds, SpaceLoad{F: pt(0, -50000), At: pt(75+300, 100)})
	require.NoError(t, err)
	j := 200 * (3*150*150.0 + 200*200) / 6
	k := 50000.0 * 300 / j
	x, y := k*100, 50000.0/400+k*75
	p := w.Peak(welds)
	require.InEpsilon(t, math.Hypot(x, y), p.Most, 1e-12)
	require.InEpsilon(t, y, p.Along, 1e-12)
	require.InEpsilon(t, x, p.Across, 1e-12)
	require.Equal(t, 150.0, p.At.X)
	r := AISC{}.FilletWeld(Fillet{Leg: 6, Length: 24, FEXX: 480})
	r.Design /= 24
	require.InEpsilon(t, p.Most/(0.75*0.6*480*6/math.Sqrt2), p.Utilisation(r), 1e-12)
	// Bending out of the plane about x.
	w, err = ElasticWeld(welds, SpaceLoad{F: pt(0, -50000), At: pt(75, 100), Height: 80})
	require.NoError(t, err)
	require.InEpsilon(t, 50000*80*100/(200*200*200/6.0), w.At(pt(0, 200)).Out, 1e-12)
	require.InEpsilon(t, -50000*80*100/(200*200*200/6.0), w.At(pt(150, 0)).Out, 1e-12)
}

// Round a tube the peak lies between the ends of the arcs.
func TestPeakInsideAnArc(t *testing.T) {
	welds := []geom.Seg(geom.CircleLoop(geom.Circle{R: 30}))
	const f, e = 8000.0, 120.0
	w, err := ElasticWeld(welds, SpaceLoad{F: pt(0, 0).Polar(f, deg(70)), At: pt(0, 0).Polar(e, deg(-20))})
	require.NoError(t, err)
	p := w.Peak(welds)
	// Direct force and torsion pull the same way on the side where the load is.
	require.InEpsilon(t, f/(2*math.Pi*30)+f*e*30/(2*math.Pi*30*30*30), p.Most, 1e-12)
	at := pt(0, 0).Polar(30, deg(-20))
	require.InDelta(t, 0, p.At.Dist(at), 1e-6)
}

func TestWeldErrors(t *testing.T) {
	_, err := ElasticWeld(nil, SpaceLoad{})
	require.ErrorIs(t, err, errNoWeld)
	one := straight(0, 0, 0, 100)
	_, err = ElasticWeld(one, SpaceLoad{My: 1})
	require.ErrorIs(t, err, errThinWeld)
	_, err = ElasticWeld(one, SpaceLoad{Mx: 1, Torsion: 5, Out: 3})
	require.NoError(t, err)
	_, err = ElasticWeld(one, SpaceLoad{Out: math.NaN()})
	require.ErrorIs(t, err, errWeldNoNum)
	require.Equal(t, -1, (&WeldForces{}).Peak(nil).Seg)
}

// Every change of sign of a polynomial with known roots is found.
func TestQuarticRoots(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roots := rapid.SliceOfN(rapid.IntRange(-9, 9), 1, 4).Draw(t, "roots")
		p := quartic{1}
		odd := map[int]int{}
		for i, r := range roots {
			x := float64(r) / 10
			odd[r]++
			for k := i + 1; k > 0; k-- {
				p[k] = p[k-1] - x*p[k]
			}
			p[0] *= -x
		}
		found := p.roots(-1, 1)
		got := found.at[:found.n]
		for r, n := range odd {
			if n != 1 {
				continue
			}
			near := math.Inf(1)
			for _, g := range got {
				near = min(near, math.Abs(g-float64(r)/10))
			}
			require.Less(t, near, 1e-3, "root %v of %v, got %v", float64(r)/10, roots, got)
		}
	})
}
