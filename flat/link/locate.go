package link

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"blankwright/flat/num"
)

// Measure is a distance taken between two pivots or marks, mm.
type Measure struct {
	From, To string
	Distance float64
}

// Guess is a pivot whose place is to be found. Near, where it is given, is its
// rough place: it tells the two mirror images apart that three distances leave.
type Guess struct {
	Name string
	Near *Vec
}

// Residual is a measure and how far off it is: measured less worked out, mm.
type Residual struct {
	Measure
	Off float64
}

// Survey is what measured distances make of the pivots' places.
type Survey struct {
	Pivots    []Pivot // the known ones first, then those found, each as given
	Residuals []Residual
	Worst     float64 // largest |Off|, mm
	RMS       float64 // root mean square of Off, mm
	// Spare is how many more distances there are than places need; with none a
	// wrong one does not show.
	Spare int
	// Spread is, for each pivot found, how many mm its place is uncertain for 1
	// mm of uncertainty in each distance.
	Spread []float64
}

// SurveyError is for distances that contradict each other. Survey holds the best
// places there are, all residuals and the one measure without which the rest
// agree best.
type SurveyError struct {
	Survey  *Survey
	Suspect Residual // how far off it is from where the others put it
	Without float64  // largest residual of the rest without it, mm
	Within  float64  // what was allowed, mm
}

func (e *SurveyError) Error() string {
	return fmt.Sprintf("distances contradict each other by %s mm (%s mm allowed): most likely %q to %q, measured %s mm, where the others make it %s mm; measure it again",
		short(e.Survey.Worst), short(e.Within), e.Suspect.From, e.Suspect.To, short(e.Suspect.Distance), short(e.Suspect.Distance-e.Suspect.Off))
}

// Base gives three marks that were measured only from each other a place each: a
// at the origin, b on the x axis, c in the plane z = 0 with y positive. The error
// is for distances that make no triangle.
func Base(ab, ac, bc float64) (a, b, c Vec, err error) {
	for _, d := range [3]float64{ab, ac, bc} {
		if !num.Finite(d) || d <= num.Coincident {
			return a, b, c, fmt.Errorf("distance of %s mm, wanted more than 0", short(d))
		}
	}
	s := [3]float64{ab, ac, bc}
	slices.Sort(s[:])
	if s[0]+s[1]-s[2] <= num.Coincident {
		return a, b, c, fmt.Errorf("distances %s mm, %s mm and %s mm make no triangle: the two short ones reach %s mm of %s mm; measure again",
			short(ab), short(ac), short(bc), short(s[0]+s[1]), short(s[2]))
	}
	x := (ab*ab + ac*ac - bc*bc) / (2 * ab)
	return Vec{}, Vec{X: ab}, Vec{X: x, Y: math.Sqrt(max(0, ac*ac-x*x))}, nil
}

// Locate finds the places of pivots from distances to known places and to each
// other. Each distance may be off by within mm.
//
// A place that has three distances to places already there follows from them
// (trilateration), more are then used to choose between its two mirror images
// and to check; at last all places found are moved to where the squares of all
// residuals are least (Levenberg's damped Gauss-Newton). Places that hang
// together without one of them having three distances need a rough place each.
//
// Errors: *SurveyError for distances that contradict each other; a pivot with
// too few distances; one that could be in either of two places.
func Locate(known []Pivot, guesses []Guess, measures []Measure, within float64) (*Survey, error) {
	s, err := newSurvey(known, guesses, measures, within)
	if err != nil {
		return nil, err
	}
	if err := s.place(); err != nil {
		return nil, err
	}
	s.fit(s.use)
	return s.report(within)
}

// survey is the work in hand.
type survey struct {
	names  []string
	at     []Vec
	known  int
	placed []bool
	near   []*Vec
	lines  []line
	use    []bool // of lines
	given  []Measure
	within float64
}

// line is a measure by index.
type line struct {
	a, b int
	d    float64
}

func (l line) other(i int) int { return l.a + l.b - i }

func newSurvey(known []Pivot, guesses []Guess, measures []Measure, within float64) (*survey, error) {
	if !num.Finite(within) || within < 0 {
		return nil, fmt.Errorf("distances may be off by %s mm, wanted 0 or more", short(within))
	}
	s := &survey{known: len(known), given: measures, within: within}
	at := make(map[string]int)
	add := func(name string, p Vec, near *Vec) error {
		if _, twice := at[name]; twice {
			return fmt.Errorf("pivot %q is given twice; every pivot needs a name of its own", name)
		}
		if !num.Finite(p.X, p.Y, p.Z) || near != nil && !num.Finite(near.X, near.Y, near.Z) {
			return fmt.Errorf("pivot %q is at no finite place", name)
		}
		at[name] = len(s.names)
		s.names, s.at, s.near = append(s.names, name), append(s.at, p), append(s.near, near)
		return nil
	}
	for _, p := range known {
		if err := add(p.Name, p.At, nil); err != nil {
			return nil, err
		}
	}
	for _, g := range guesses {
		if err := add(g.Name, Vec{}, g.Near); err != nil {
			return nil, err
		}
	}
	s.placed = make([]bool, len(s.names))
	for i := range known {
		s.placed[i] = true
	}
	for _, m := range measures {
		a, oka := at[m.From]
		b, okb := at[m.To]
		switch {
		case !oka || !okb:
			missing := m.From
			if oka {
				missing = m.To
			}
			return nil, fmt.Errorf("distance from %q to %q: there is no pivot %q", m.From, m.To, missing)
		case a == b:
			return nil, fmt.Errorf("distance from %q to itself", m.From)
		case !num.Finite(m.Distance) || m.Distance <= num.Coincident:
			return nil, fmt.Errorf("distance from %q to %q is %s mm, wanted more than 0", m.From, m.To, short(m.Distance))
		}
		s.lines = append(s.lines, line{a, b, m.Distance})
		s.use = append(s.use, true)
	}
	return s, nil
}

// place gives every pivot a first place.
func (s *survey) place() error {
	for {
		// Places that are told from their mirror image come first: the others may
		// get a fourth distance by them.
		best, most, sure := -1, 0, false
		for i := s.known; i < len(s.names); i++ {
			if s.placed[i] {
				continue
			}
			n := len(s.anchors(i))
			told := n > 3 || n == 3 && s.near[i] != nil
			if told && !sure || told == sure && n > most {
				best, most, sure = i, n, told
			}
		}
		switch {
		case best < 0 && s.allPlaced():
			return nil
		case best < 0 || most < 3:
			return s.placeByGuess()
		}
		if err := s.trilaterate(best); err != nil {
			return err
		}
	}
}

func (s *survey) allPlaced() bool { return !slices.Contains(s.placed, false) }

// anchors are the measures from pivot i to places already there.
func (s *survey) anchors(i int) []line {
	var out []line
	for _, l := range s.lines {
		if (l.a == i || l.b == i) && s.placed[l.other(i)] {
			out = append(out, l)
		}
	}
	return out
}

// placeByGuess puts what is left at its rough places.
func (s *survey) placeByGuess() error {
	for i := s.known; i < len(s.names); i++ {
		if s.placed[i] {
			continue
		}
		n := 0
		for _, l := range s.lines {
			if l.a == i || l.b == i {
				n++
			}
		}
		if n < 3 {
			return fmt.Errorf("pivot %q has %d distances, wanted 3 or more to places that are known", s.names[i], n)
		}
		if s.near[i] == nil {
			return fmt.Errorf("pivot %q has only %d distances to places that are known, wanted 3; measure more, or give its rough place", s.names[i], len(s.anchors(i)))
		}
		s.at[i] = *s.near[i]
	}
	for i := range s.placed {
		s.placed[i] = true
	}
	return nil
}

// trilaterate places pivot i by the three of its anchors that span the largest
// triangle.
func (s *survey) trilaterate(i int) error {
	as := s.anchors(i)
	tri := [3]line{as[0], as[1], as[2]}
	most := 0.0
	for a := range as {
		for b := range a {
			for c := range b {
				pa, pb, pc := s.at[as[a].other(i)], s.at[as[b].other(i)], s.at[as[c].other(i)]
				if area := pb.Sub(pa).Cross(pc.Sub(pa)).Len(); area > most {
					most, tri = area, [3]line{as[c], as[b], as[a]}
				}
			}
		}
	}
	o, p, q := s.at[tri[0].other(i)], s.at[tri[1].other(i)], s.at[tri[2].other(i)]
	span := max(p.Sub(o).Len(), q.Sub(o).Len(), q.Sub(p).Len())
	if most <= span*span*num.Angular {
		return fmt.Errorf("pivot %q is measured from places in one line only; measure it from a place beside that line too", s.names[i])
	}
	foot, up := spheres(o, p, q, tri[0].d, tri[1].d, tri[2].d)
	one, two := s.refine(i, foot.Add(up), as), s.refine(i, foot.Sub(up), as)
	e1, e2 := s.strain(i, one, as), s.strain(i, two, as)
	switch near := s.near[i]; {
	case one.Sub(two).Len() <= max(s.within, num.Coincident): // as good as one
		s.at[i] = one
	case near != nil && near.Sub(one).Len() <= near.Sub(two).Len():
		s.at[i] = one
	case near != nil:
		s.at[i] = two
	case math.Abs(e1-e2) <= max(e1, e2)/2 || num.Same(e1, e2): // no other distance tells them apart
		return fmt.Errorf("pivot %q could be at (%s) or at (%s): three distances leave both; give its rough place, or one more distance", s.names[i], place(one), place(two))
	case e1 < e2:
		s.at[i] = one
	default:
		s.at[i] = two
	}
	s.placed[i] = true
	return nil
}

// refine moves p to where it fits all its anchors best, from where it is.
func (s *survey) refine(i int, p Vec, as []line) Vec {
	if len(as) == 3 {
		return p
	}
	n := len(as)
	alone := survey{known: n, names: make([]string, n+1)}
	for k, l := range as {
		alone.at = append(alone.at, s.at[l.other(i)])
		alone.lines, alone.use = append(alone.lines, line{k, n, l.d}), append(alone.use, true)
	}
	alone.at = append(alone.at, p)
	alone.fit(alone.use)
	return alone.at[n]
}

// spheres gives the middle of the two places at distances a, b, c from o, p, q,
// and the way from it to one of them; that is nothing where the distances do not
// reach.
func spheres(o, p, q Vec, a, b, c float64) (foot, up Vec) {
	x := p.Sub(o).Unit()
	n := x.Cross(q.Sub(o)).Unit()
	y := n.Cross(x)
	d, i, j := p.Sub(o).Len(), q.Sub(o).Dot(x), q.Sub(o).Dot(y)
	px := (a*a - b*b + d*d) / (2 * d)
	py := (a*a - c*c + i*i + j*j - 2*i*px) / (2 * j)
	h := math.Sqrt(max(0, a*a-px*px-py*py))
	return o.Add(x.Mul(px)).Add(y.Mul(py)), n.Mul(h)
}

// strain is the largest residual of the anchors with pivot i at p.
func (s *survey) strain(i int, p Vec, as []line) float64 {
	worst := 0.0
	for _, l := range as {
		worst = max(worst, math.Abs(l.d-s.at[l.other(i)].Sub(p).Len()))
	}
	return worst
}

func place(p Vec) string {
	return num.Short(p.X, 1) + ", " + num.Short(p.Y, 1) + ", " + num.Short(p.Z, 1)
}

// fitSteps bounds the damped steps of a fit; a dozen are usual.
const fitSteps = 200

// fit moves the places found to where the squares of the residuals of the lines
// in use are least.
func (s *survey) fit(use []bool) {
	n := 3 * (len(s.at) - s.known)
	if n == 0 {
		return
	}
	damp := 1.0 / 1024
	sum := s.squares(use)
	for range fitSteps {
		jtj, jtr := s.normal(use)
		for i := range n {
			jtj.row(i)[i] += damp
		}
		b := takeApart(jtj)
		if b.rank < n {
			damp *= 8
			continue
		}
		step := b.solve(jtr)
		before := slices.Clone(s.at)
		far, size := 0.0, 0.0
		for i := range n {
			s.move(i, step[i])
			far += step[i] * step[i]
		}
		for _, l := range s.lines {
			size += l.d * l.d
		}
		next := s.squares(use)
		if next > sum {
			s.at = before
			damp *= 8
			if far <= num.SameSpring*size {
				return
			}
			continue
		}
		sum, damp = next, damp/8
		if far <= num.SameSpring*size {
			return
		}
	}
}

func (s *survey) move(i int, by float64) {
	p := &s.at[s.known+i/3]
	switch i % 3 {
	case 0:
		p.X += by
	case 1:
		p.Y += by
	default:
		p.Z += by
	}
}

func (s *survey) squares(use []bool) float64 {
	sum := 0.0
	for i, l := range s.lines {
		if use[i] {
			r := l.d - s.at[l.a].Sub(s.at[l.b]).Len()
			sum += r * r
		}
	}
	return sum
}

// normal gives JᵀJ and Jᵀr of the residuals.
func (s *survey) normal(use []bool) (matrix, []float64) {
	n := 3 * (len(s.at) - s.known)
	jtj, jtr := newMatrix(n, n), make([]float64, n)
	for i, l := range s.lines {
		if !use[i] {
			continue
		}
		d := s.at[l.b].Sub(s.at[l.a])
		dist := d.Len()
		if dist == 0 {
			continue
		}
		u := d.Mul(1 / dist)
		r := l.d - dist
		part := [2]int{3 * (l.a - s.known), 3 * (l.b - s.known)}
		dir := [2]Vec{u.Mul(-1), u}
		for e := range 2 {
			if part[e] < 0 {
				continue
			}
			de := [3]float64{dir[e].X, dir[e].Y, dir[e].Z}
			for k := range 3 {
				jtr[part[e]+k] += de[k] * r
			}
			for f := range 2 {
				if part[f] < 0 {
					continue
				}
				df := [3]float64{dir[f].X, dir[f].Y, dir[f].Z}
				for k := range 3 {
					for m := range 3 {
						jtj.row(part[e] + k)[part[f]+m] += de[k] * df[m]
					}
				}
			}
		}
	}
	return jtj, jtr
}

// report turns the work into a Survey.
func (s *survey) report(within float64) (*Survey, error) {
	out := &Survey{Spare: len(s.lines) - 3*(len(s.at)-s.known)}
	for i, n := range s.names {
		out.Pivots = append(out.Pivots, Pivot{n, s.at[i]})
	}
	sum := 0.0
	for i, l := range s.lines {
		off := l.d - s.at[l.a].Sub(s.at[l.b]).Len()
		out.Residuals = append(out.Residuals, Residual{s.given[i], off})
		out.Worst = max(out.Worst, math.Abs(off))
		sum += off * off
	}
	if len(s.lines) > 0 {
		out.RMS = math.Sqrt(sum / float64(len(s.lines)))
	}
	out.Spread = s.spread()
	if num.AtMost(out.Worst, within) {
		return out, nil
	}
	suspect, without := s.suspect()
	return nil, &SurveyError{Survey: out, Suspect: suspect, Without: without, Within: within}
}

// spread is the uncertainty of each place found for distances uncertain by 1,
// from the inverse of JᵀJ; infinite where they do not hold it.
func (s *survey) spread() []float64 {
	n := 3 * (len(s.at) - s.known)
	out := make([]float64, n/3)
	if n == 0 {
		return out
	}
	jtj, _ := s.normal(s.use)
	b := takeApart(jtj)
	if b.rank < n {
		for i := range out {
			out[i] = math.Inf(1)
		}
		return out
	}
	e := make([]float64, n)
	for i := range n {
		e[i] = 1
		out[i/3] += b.solve(e)[i]
		e[i] = 0
	}
	for i := range out {
		out[i] = math.Sqrt(max(0, out[i]))
	}
	return out
}

// suspect is the measure without which the rest agree best; of measures that
// cannot be spared none is left out.
func (s *survey) suspect() (Residual, float64) {
	keep := slices.Clone(s.at)
	type try struct {
		i    int
		rest float64
		off  float64
	}
	var tries []try
	for i := range s.lines {
		use := slices.Clone(s.use)
		use[i] = false
		copy(s.at, keep)
		s.fit(use)
		t := try{i: i}
		for j, l := range s.lines {
			off := l.d - s.at[l.a].Sub(s.at[l.b]).Len()
			if j == i {
				t.off = off
			} else {
				t.rest = max(t.rest, math.Abs(off))
			}
		}
		tries = append(tries, t)
	}
	copy(s.at, keep)
	// Of those that leave the rest equally well off the one farthest out: a
	// measure that hardly matters is not the one.
	sort.SliceStable(tries, func(a, b int) bool {
		ta, tb := tries[a], tries[b]
		if !num.Same(ta.rest, tb.rest) {
			return ta.rest < tb.rest
		}
		return math.Abs(ta.off) > math.Abs(tb.off)
	})
	t := tries[0]
	return Residual{s.given[t.i], t.off}, t.rest
}
