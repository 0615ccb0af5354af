package link

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/num"
)

// Solution is a truss solved for its load cases.
type Solution struct {
	// Redundant is how many members or held directions there are beyond what
	// equilibrium needs; 0 means that the forces follow from equilibrium alone.
	Redundant int
	Cases     []CaseForces
	Worst     []Worst // by member, in order
	Weakest   Weak
	truss     *indexed
}

// CaseForces are the forces of one case.
type CaseForces struct {
	Name      string
	Members   []float64  // N, tension positive, in the order of the members
	Reactions []Reaction // in the order of the supports
	// Residual is the largest force left over at any pivot, N: what rounding
	// makes of 0.
	Residual float64
}

// Reaction is the force that a support puts on its pivot, N. A bracket there
// carries the opposite.
type Reaction struct {
	Pivot string
	Force Vec
}

// Worst is the largest tension and the largest compression of a member over all
// cases, N, both 0 or more, each with its case ("" where there is none).
type Worst struct {
	Member                       string
	Tension, Compression         float64
	TensionCase, CompressionCase string
	Length                       float64 // between pivots, mm
}

// Weak tells how much the geometry magnifies: Force is the largest member force
// that a load of 1 can make, the load acting on Pivot along the axis Along. Over
// num.NearlyFree (100) the link is nearly a mechanism and a small error of
// measurement changes everything.
type Weak struct {
	Member, Pivot string
	Along         Vec
	Force         float64
}

// Nearly reports whether the link is nearly a mechanism.
func (w Weak) Nearly() bool { return w.Force > num.NearlyFree }

// String says so in words.
func (w Weak) String() string {
	return fmt.Sprintf("a load of 1 N on pivot %q %s makes %s N in member %q", w.Pivot, way(w.Along), num.Short(w.Force, 1), w.Member)
}

// MechanismError is for pivots that nothing holds.
type MechanismError struct {
	Pivot string // that moves most
	Along Vec    // the way it can move, of length 1
	Whole bool   // the link moves as one body: supports are missing
	Free  int    // independent ways to move
	local bool
}

func (e *MechanismError) Error() string {
	s := fmt.Sprintf("pivot %q is free to move %s: ", e.Pivot, way(e.Along))
	switch {
	case e.local:
		s += "none of its members or supports holds it that way; add one that does"
	case e.Whole:
		s += fmt.Sprintf("the link as a whole is held in too few ways (%d missing); support it there", e.Free)
	default:
		s += fmt.Sprintf("other pivots move with it (%d such motions); add a member or a support that stops it", e.Free)
	}
	return s
}

// Solve finds the force in every member and support for every case. Pivots turn
// freely, members carry force along themselves only, deflections are small.
//
// Where members and held directions are as many as equilibrium needs the forces
// follow from it exactly. Where there are more, stiffness shares them out (the
// force method of Maxwell, 1864, and Mohr, 1874; supports do not give), and every
// member needs its EA.
//
// Errors: *MechanismError, which names the pivot that can move and the way;
// names that are not there; an EA that is missing.
func (t *Truss) Solve(cases []Case) (*Solution, error) {
	x, err := t.index()
	if err != nil {
		return nil, err
	}
	loads, err := x.loads(cases)
	if err != nil {
		return nil, err
	}
	a := x.equilibrium()
	b := takeApart(a)
	if b.rank < a.rows {
		return nil, x.mechanism(a, a.rows-b.rank)
	}
	s := &Solution{Redundant: a.cols - a.rows, truss: x}
	forces := func(p []float64) []float64 { return b.solve(negative(p)) }
	if s.Redundant > 0 {
		spare, err := x.sharing(a, &b)
		if err != nil {
			return nil, err
		}
		forces = func(p []float64) []float64 { return spare.share(b.solve(negative(p))) }
	}
	for i, c := range cases {
		f := x.settle(a, &b, loads[i], forces(loads[i]))
		s.Cases = append(s.Cases, x.caseForces(c.Name, a, loads[i], f))
	}
	s.Worst = x.worst(s.Cases)
	s.Weakest = x.weakest(forces)
	return s, nil
}

func negative(p []float64) []float64 {
	out := make([]float64, len(p))
	for i, v := range p {
		out[i] = -v
	}
	return out
}

// loads are the outside forces by pivot, x y z each.
func (x *indexed) loads(cases []Case) ([][]float64, error) {
	at := make(map[string]int, len(x.Pivots))
	for i, p := range x.Pivots {
		at[p.Name] = i
	}
	out := make([][]float64, len(cases))
	for i, c := range cases {
		p := make([]float64, 3*len(x.Pivots))
		for _, l := range c.Loads {
			j, ok := at[l.Pivot]
			if !ok {
				return nil, fmt.Errorf("case %q loads pivot %q, which is not there; the pivots are %s", c.Name, l.Pivot, x.pivotNames())
			}
			if !num.Finite(l.Force.X, l.Force.Y, l.Force.Z) {
				return nil, fmt.Errorf("case %q has a load on pivot %q that is no finite force", c.Name, l.Pivot)
			}
			p[3*j] += l.Force.X
			p[3*j+1] += l.Force.Y
			p[3*j+2] += l.Force.Z
		}
		out[i] = p
	}
	return out, nil
}

// equilibrium is the matrix of what members (first) and held directions of force
// 1 put on the pivots, three rows each.
func (x *indexed) equilibrium() matrix {
	a := newMatrix(3*len(x.Pivots), len(x.Members)+len(x.held))
	put := func(pivot, col int, d Vec) {
		a.row(3 * pivot)[col] = d.X
		a.row(3*pivot + 1)[col] = d.Y
		a.row(3*pivot + 2)[col] = d.Z
	}
	for j, e := range x.ends {
		put(e[0], j, x.dirs[j])
		put(e[1], j, x.dirs[j].Mul(-1))
	}
	for j, h := range x.held {
		put(h.pivot, len(x.Members)+j, h.along)
	}
	return a
}

// settle takes what rounding left over at the pivots out of the forces f.
func (x *indexed) settle(a matrix, b *basis, p, f []float64) []float64 {
	for range 2 {
		left := a.times(f)
		for i := range left {
			left[i] = -left[i] - p[i]
		}
		for i, d := range b.solve(left) {
			f[i] += d
		}
	}
	return f
}

// sharing is what a truss with spare members needs besides equilibrium: the
// states of self-stress, one for each spare column, and the equations that fit
// them together.
type sharing struct {
	states [][]float64 // forces in members and held directions, scaled
	give   []float64   // of members, mm for 1 N; 0 for held directions
	fit    basis
}

// sharing works out the states of self-stress: each spare column of A with force
// 1 and the basis columns in equilibrium with it.
func (x *indexed) sharing(a matrix, b *basis) (*sharing, error) {
	s := &sharing{give: make([]float64, a.cols)}
	for j, m := range x.Members {
		if m.EA == 0 {
			return nil, fmt.Errorf("link has more members or supports than equilibrium needs, so stiffness shares the force; give the section of member %q", m.Name)
		}
		s.give[j] = x.length[j] / m.EA
	}
	for _, spare := range b.cols[b.rank:] {
		column := make([]float64, a.rows)
		for i := range column {
			column[i] = -a.row(i)[spare]
		}
		state := b.solve(column)
		state[spare] = 1
		size := math.Sqrt(s.work(state, state))
		for i := range state {
			state[i] /= size
		}
		s.states = append(s.states, state)
	}
	n := len(s.states)
	m := newMatrix(n, n)
	for i := range n {
		for j := range n {
			m.row(i)[j] = s.work(s.states[i], s.states[j])
		}
	}
	s.fit = takeApart(m)
	if s.fit.rank < n {
		return nil, errors.New("sections of the members differ too much to share the force; leave out the weakest or give the sections again")
	}
	return s, nil
}

// work is the work of forces f on the stretch that forces g make.
func (s *sharing) work(f, g []float64) float64 {
	w := 0.0
	for i, v := range s.give {
		w += f[i] * g[i] * v
	}
	return w
}

// share adds to the forces f, in equilibrium, as much of every state of
// self-stress as makes all members fit together.
func (s *sharing) share(f []float64) []float64 {
	gap := make([]float64, len(s.states))
	for i, state := range s.states {
		gap[i] = -s.work(state, f)
	}
	for i, k := range s.fit.solve(gap) {
		for j, v := range s.states[i] {
			f[j] += k * v
		}
	}
	return f
}

func (x *indexed) caseForces(name string, a matrix, p, f []float64) CaseForces {
	c := CaseForces{Name: name, Members: f[:len(x.Members):len(x.Members)]}
	for i, v := range a.times(f) {
		c.Residual = max(c.Residual, math.Abs(v+p[i]))
	}
	for j, h := range x.held {
		r := h.along.Mul(f[len(x.Members)+j])
		if n := len(c.Reactions); n > 0 && c.Reactions[n-1].Pivot == x.Pivots[h.pivot].Name {
			c.Reactions[n-1].Force = c.Reactions[n-1].Force.Add(r)
			continue
		}
		c.Reactions = append(c.Reactions, Reaction{x.Pivots[h.pivot].Name, r})
	}
	return c
}

func (x *indexed) worst(cases []CaseForces) []Worst {
	out := make([]Worst, len(x.Members))
	for i, m := range x.Members {
		w := Worst{Member: m.Name, Length: x.length[i]}
		for _, c := range cases {
			if f := c.Members[i]; f > w.Tension {
				w.Tension, w.TensionCase = f, c.Name
			} else if -f > w.Compression {
				w.Compression, w.CompressionCase = -f, c.Name
			}
		}
		out[i] = w
	}
	return out
}

// weakest loads every pivot along every axis.
func (x *indexed) weakest(forces func([]float64) []float64) Weak {
	var w Weak
	p := make([]float64, 3*len(x.Pivots))
	for i := range p {
		p[i] = 1
		for j, f := range forces(p)[:len(x.Members)] {
			if f = math.Abs(f); f > w.Force {
				w = Weak{x.Members[j].Name, x.Pivots[i/3].Name, axis(i % 3), f}
			}
		}
		p[i] = 0
	}
	return w
}

func axis(i int) Vec { return [3]Vec{{X: 1}, {Y: 1}, {Z: 1}}[i] }

// EndForce is the force that a member puts on one of its pivots in case c, N:
// what a bracket there carries from this member.
func (s *Solution) EndForce(c int, member, pivot string) (Vec, error) {
	if c < 0 || c >= len(s.Cases) {
		return Vec{}, fmt.Errorf("case %d of %d", c+1, len(s.Cases))
	}
	for j, m := range s.truss.Members {
		if m.Name != member {
			continue
		}
		pull := s.truss.dirs[j].Mul(s.Cases[c].Members[j])
		switch pivot {
		case m.From:
			return pull, nil
		case m.To:
			return pull.Mul(-1), nil
		}
		return Vec{}, fmt.Errorf("member %q runs from %q to %q, not to %q", member, m.From, m.To, pivot)
	}
	return Vec{}, fmt.Errorf("there is no member %q", member)
}

// mechanism names what can move.
func (x *indexed) mechanism(a matrix, free int) error {
	for i := range x.Pivots {
		if d, loose := x.loose(i); loose {
			return &MechanismError{Pivot: x.Pivots[i].Name, Along: d, Free: free, local: true}
		}
	}
	y := idle(a)
	e := &MechanismError{Free: free, Whole: x.rigid(y)}
	most := 0.0
	for i, p := range x.Pivots {
		u := Vec{X: y[3*i], Y: y[3*i+1], Z: y[3*i+2]}
		if l := u.Len(); l > most {
			most, e.Pivot, e.Along = l, p.Name, u.Unit()
		}
	}
	return e
}

// loose reports whether the directions that hold pivot i leave one free, and
// which.
func (x *indexed) loose(i int) (Vec, bool) {
	var base []Vec
	add := func(d Vec) {
		for _, b := range base {
			d = d.Sub(b.Mul(d.Dot(b)))
		}
		if len(base) < 3 && d.Len() > num.FreePivot {
			base = append(base, d.Unit())
		}
	}
	for j, e := range x.ends {
		if e[0] == i || e[1] == i {
			add(x.dirs[j])
		}
	}
	for _, h := range x.held {
		if h.pivot == i {
			add(h.along)
		}
	}
	held := len(base)
	if held == 3 {
		return Vec{}, false
	}
	add(Vec{Z: 1})
	add(Vec{X: 1})
	add(Vec{Y: 1})
	return base[held], true
}

// rigid reports whether the motion y leaves every distance as it is.
func (x *indexed) rigid(y []float64) bool {
	for i, p := range x.Pivots {
		for j := range i {
			d := p.At.Sub(x.Pivots[j].At)
			u := Vec{X: y[3*i] - y[3*j], Y: y[3*i+1] - y[3*j+1], Z: y[3*i+2] - y[3*j+2]}
			if math.Abs(u.Dot(d.Unit())) > math.Sqrt(num.FreePivot) {
				return false
			}
		}
	}
	return true
}
