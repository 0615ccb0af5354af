package cope

import "math"

// Length is how long the line is in space, mm: the bead of a weld along it.
func (u *Curve) Length() float64 {
	r := u.Radius()
	sum := 0.0
	for i := range u.pieces {
		p := &u.pieces[i]
		sum += integrate(func(q float64) float64 {
			den, n := u.c.slope(u, p, q)
			return math.Hypot(r, n/den)
		}, p.a, p.b)
	}
	return sum
}

// Mean is the mean of s round the tube, mm.
func (u *Curve) Mean() float64 {
	sum := 0.0
	for i := range u.pieces {
		p := &u.pieces[i]
		sum += integrate(func(q float64) float64 { return u.c.height(u, p, q) }, p.a, p.b)
	}
	return sum / fullTurn
}

// wallShells is how many radii of the wall a volume is summed over.
const wallShells = 8

// Gauss's 8 nodes and weights on [-1, 1], for x > 0 (Abramowitz and Stegun,
// Handbook of Mathematical Functions, table 25.4; from memory).
var (
	shellX = [wallShells / 2]float64{0.183434642495649804939, 0.525532409916328985818, 0.796666477413626739592, 0.960289856497536231684}
	shellW = [wallShells / 2]float64{0.362683783378361982965, 0.313706645877887287338, 0.222381034453374470544, 0.101228536290376259153}
)

// Volume is the metal (mm³) between the end, cut to sit on its mains at every
// radius of the wall, and a square section at s = station: with it, the mass of
// a tube. Metal beyond the section counts as negative. Right to about a
// hundred-thousandth.
func (c *Cope) Volume(station float64) (float64, error) {
	m, h := (c.ro+c.ri)/2, (c.ro-c.ri)/2
	sum := 0.0
	for i := range shellX {
		for _, x := range [2]float64{-shellX[i], shellX[i]} {
			u := &Curve{c: c, kind: ID, r: m + h*x}
			if err := u.split(); err != nil {
				return 0, err
			}
			sum += shellW[i] * h * u.r * fullTurn * (station - u.Mean())
		}
	}
	return sum, nil
}

// Bands tells how long the outside line is, in space, by the angle between the
// branch's outside and the surface that it meets, mm. A fillet weld has its full
// worth between 60 and 120 degrees; under 60 the root is hard to reach, over 120
// the throat of equal legs is thin (AWS D1.1, clause 4 and the notes to
// prequalified tubular joints; from memory, verify).
type Bands struct {
	Acute  float64 // under 60 degrees: the toe of a slanting branch
	Fillet float64 // 60 to 120 degrees
	Obtuse float64 // over 120 degrees: the heel, and the sides of a branch nearly as wide as its main
	Free   float64 // trimmed walls that meet nothing
}

// Total is the length of all bands that meet something, mm.
func (b Bands) Total() float64 { return b.Acute + b.Fillet + b.Obtuse }

// Dihedral is the angle (rad) at generator q between the branch's outside and
// the surface that its outside line meets there, measured through the side where
// a weld lies. ok is false on a trimmed wall, which meets nothing.
func (c *Cope) Dihedral(q float64) (angle float64, ok bool) {
	u := c.curves[OD]
	_, by := u.c.govern(u, q)
	return c.dihedral(by, q)
}

func (c *Cope) dihedral(by regime, q float64) (angle float64, ok bool) {
	if by.free {
		return 0, false
	}
	k := &c.cuts[by.cut]
	p := k.spot(q)
	dot := p.cos * k.cos
	if !k.plate {
		z, _ := k.depth(c.ro, p)
		dot = p.cos*k.cos*z/k.R + p.sin*(k.e+c.ro*p.sin)/k.R
	}
	return math.Acos(min(1, max(-1, -dot))), true
}

// bandSteps is how many steps a piece of the line is cut in to sort it by angle.
const bandSteps = 256

// Bands sorts the outside line by the angle at which the walls meet. The length
// of each band is right to about 0.1 %, their sum is the length of the line.
func (c *Cope) Bands() Bands {
	const least, most = 60 * degree, 120 * degree
	u := c.curves[OD]
	var b Bands
	sum := 0.0
	for i := range u.pieces {
		p := &u.pieces[i]
		before := u.at3(p, 0)
		a0, ok := c.dihedral(p.by, p.a)
		for j := 1; j <= bandSteps; j++ {
			t := float64(j) / bandSteps
			next := u.at3(p, t)
			l := next.Sub(before).Len()
			before = next
			sum += l
			if !ok {
				b.Free += l
				continue
			}
			a1, _ := c.dihedral(p.by, bent(p, t))
			lo, hi := min(a0, a1), max(a0, a1)
			under, over := share(lo, hi, least), 1-share(lo, hi, most)
			b.Acute += l * under
			b.Obtuse += l * over
			b.Fillet += l * (1 - under - over)
			a0 = a1
		}
	}
	k := u.Length() / sum
	return Bands{b.Acute * k, b.Fillet * k, b.Obtuse * k, b.Free * k}
}

// share is how much of [lo, hi] lies under x.
func share(lo, hi, x float64) float64 {
	switch {
	case hi <= x:
		return 1
	case lo >= x:
		return 0
	}
	return (x - lo) / (hi - lo)
}

// bent is a place on a piece, close to its ends where t is close to 0 or 1.
func bent(p *piece, t float64) float64 { return p.a + (p.b-p.a)*t*t*(3-2*t) }

func (u *Curve) at3(p *piece, t float64) Vec {
	q := bent(p, t)
	return Point(q, u.Radius(), u.c.height(u, p, q))
}
