package cope

import (
	"math"

	"blankwright/flat/num"
)

// order is the highest multiple of the angle in a trig.
const order = 4

// trig is a function round the tube: the sum of c[n] cos nq + s[n] sin nq.
type trig struct{ c, s [order + 1]float64 }

func constant(v float64) trig {
	var t trig
	t.c[0] = v
	return t
}

// wave is a cos(q-turn) + b sin(q-turn).
func wave(a, b, turn float64) trig {
	sin, cos := num.Sincos(turn)
	var t trig
	t.c[1] = a*cos - b*sin
	t.s[1] = a*sin + b*cos
	return t
}

func (t trig) plus(u trig) trig {
	for n := range t.c {
		t.c[n] += u.c[n]
		t.s[n] += u.s[n]
	}
	return t
}

func (t trig) times(k float64) trig {
	for n := range t.c {
		t.c[n] *= k
		t.s[n] *= k
	}
	return t
}

func (t trig) minus(u trig) trig { return t.plus(u.times(-1)) }

// by is the product; what both orders make together must not exceed order.
func (t trig) by(u trig) trig {
	var r trig
	add := func(n int, c, s float64) {
		if n < 0 {
			n, s = -n, -s
		}
		if n <= order {
			r.c[n] += c / 2
			r.s[n] += s / 2
		}
	}
	for i := range t.c {
		if t.c[i] == 0 && t.s[i] == 0 {
			continue
		}
		for j := range u.c {
			cc, ss := t.c[i]*u.c[j], t.s[i]*u.s[j]
			sc, cs := t.s[i]*u.c[j], t.c[i]*u.s[j]
			add(i+j, cc-ss, sc+cs)
			add(i-j, cc+ss, sc-cs)
		}
	}
	r.s[0] = 0
	return r
}

func (t trig) squared() trig { return t.by(t) }

// at gives the value and the derivative at q.
func (t *trig) at(q float64) (v, dv float64) {
	s1, c1 := math.Sincos(q)
	s, c := 0.0, 1.0
	v = t.c[0]
	for n := 1; n <= order; n++ {
		s, c = s*c1+c*s1, c*c1-s*s1
		v += t.c[n]*c + t.s[n]*s
		dv += float64(n) * (t.s[n]*c - t.c[n]*s)
	}
	return v, dv
}

// appendZeros appends every q in [0, a full turn) at which the function is
// zero, and perhaps some at which it is only as good as zero: places that touch
// zero come with an error of num.DoubleTurn, sometimes twice. size is the size
// of the terms that the function was made of; a function that is nothing but
// their rounding has no zeros here.
//
// Method: halving with a bound. On q±h the function leaves zero out where
// |f| > |f'|h + bh²/2, and has one zero at most where |f'| > bh, with b a bound
// on the second derivative: the sum of n² times the amplitudes. No zero is
// missed.
func (t *trig) appendZeros(qs []float64, size float64) []float64 {
	var most, bend float64
	for n := range t.c {
		a := math.Hypot(t.c[n], t.s[n])
		most = max(most, a)
		bend += float64(n*n) * a
	}
	if most <= num.NoFunction*size {
		return qs
	}
	const parts = 16
	z := zeros{t: t, bend: bend, noise: num.ZeroNoise * size, out: qs}
	for i := range parts {
		z.look((float64(i)+0.5)*fullTurn/parts, fullTurn/(2*parts))
	}
	return z.out
}

type zeros struct {
	t     *trig
	bend  float64
	noise float64
	out   []float64
}

func (z *zeros) look(m, h float64) {
	v, dv := z.t.at(m)
	if math.Abs(v) > math.Abs(dv)*h+z.bend*h*h/2+z.noise {
		return
	}
	if math.Abs(dv) > z.bend*h {
		z.single(m-h, m+h)
		return
	}
	if h < num.DoubleTurn {
		z.out = append(z.out, m)
		return
	}
	z.look(m-h/2, h/2)
	z.look(m+h/2, h/2)
}

// single finds the zero between a and b, where the function only rises or only
// falls, if there is one: Newton's steps kept inside the bracket.
func (z *zeros) single(a, b float64) {
	fa, _ := z.t.at(a)
	fb, _ := z.t.at(b)
	switch {
	case math.Abs(fa) <= z.noise: // as good as zero at an end
		z.out = append(z.out, a)
		return
	case math.Abs(fb) <= z.noise:
		z.out = append(z.out, b)
		return
	case fa > 0 == (fb > 0):
		return
	}
	rises := fb > fa
	q := (a + b) / 2
	for range 60 {
		v, dv := z.t.at(q)
		if v == 0 {
			break
		}
		if v > 0 == rises {
			b = q
		} else {
			a = q
		}
		next := q - v/dv
		if !(next > a && next < b) {
			next = (a + b) / 2
		}
		if next == q || b-a < num.SameTurn/16 {
			break
		}
		q = next
	}
	z.out = append(z.out, q)
}
