package cope

import (
	"math"

	"blankwright/flat/num"
)

// Nodes and weights of the 7-point Gauss and 15-point Kronrod rules on [-1, 1]:
// R. Piessens and others, QUADPACK (1983), qk15; for x >= 0.
var (
	kronrodX = [8]float64{
		0.991455371120812639206854697526329, 0.949107912342758524526189684047851,
		0.864864423359769072789712788640926, 0.741531185599394439863864773280788,
		0.586087235467691130294144691693013, 0.405845151377397166906606412076961,
		0.207784955007898467600689403773245, 0,
	}
	kronrodW = [8]float64{
		0.022935322010529224963732008058970, 0.063092092629978553290700663189204,
		0.104790010322250183839876322541518, 0.140653259715525918745189590510238,
		0.169004726639267902826583426598550, 0.190350578064785409913256402421014,
		0.204432940075298892414161999234649, 0.209482141084727828012999174891714,
	}
	gaussW = [4]float64{
		0.129484966168869693270611432679082, 0.279705391489276667901467771423780,
		0.381830050505118944950369775488975, 0.417959183673469387755102040816327,
	}
)

// integrate is the integral of f over [a, b]. The variable is bent so that a
// root-like start or end, as where a line begins to run along the tube, does no
// harm: q = a + (b-a)(3t²-2t³).
func integrate(f func(float64) float64, a, b float64) float64 {
	g := func(t float64) float64 {
		w := 6 * t * (1 - t) * (b - a)
		if w == 0 {
			return 0
		}
		return w * f(a+(b-a)*t*t*(3-2*t))
	}
	return adapt(g, 0, 1, 0, 12)
}

// adapt halves the interval until both rules agree. floor is what has been found
// negligible so far.
func adapt(g func(float64) float64, a, b, floor float64, levels int) float64 {
	m, h := (a+b)/2, (b-a)/2
	middle := g(m)
	k, gs := kronrodW[7]*middle, gaussW[3]*middle
	for i := range 7 {
		v := g(m-h*kronrodX[i]) + g(m+h*kronrodX[i])
		k += kronrodW[i] * v
		if i%2 == 1 {
			gs += gaussW[i/2] * v
		}
	}
	k, gs = k*h, gs*h
	floor = max(floor, num.QuadratureShare*math.Abs(k))
	if math.Abs(k-gs) <= floor || levels == 0 {
		return k
	}
	return adapt(g, a, m, floor/2, levels-1) + adapt(g, m, b, floor/2, levels-1)
}
