package stock

import (
	"math"

	"blankwright/flat/num"
)

// scale turns prices for a micrometre of cost into whole numbers: costs are under
// 2^30, so worths stay under 2^46.
const scale = 1 << 16

// pattern is one way to fill one kind of bar.
type pattern struct {
	kind   int // -1 for a column that is no bar
	pieces []int
}

// relaxed is the solution with fractions of bars, and what it proves.
type relaxed struct {
	patterns []pattern
	times    []float64
	// worth of each item and toll of each kind of limited count (a bar of it
	// stands for as much more), in 1/scale of a cost: no filling of any bar is
	// worth more than its cost and toll.
	worth []int64
	toll  []int64
	bound int64 // no plan costs less
}

// master is the linear program of columns: rows for the items, then for the
// kinds of limited count.
type master struct {
	p       *problem
	n, m    int
	limited []int // row - n of each such kind
	rowOf   []int // of each kind, or -1
	inv     [][]float64
	basis   []pattern
	cost    []float64
	x       []float64
	huge    float64 // cost of a piece that no bar gives

	low   float64   // the best bound so far
	worth []int64   // the whole-number prices that prove it
	toll  []int64   // and the tolls of limited kinds
	held  []float64 // the same as prices of items

	width []int64
	want  []int
}

// calm is how far the prices that bars are filled by are held back at the best
// ones so far: prices jump less, and the bound rises sooner (P. Wentges,
// "Weighted Dantzig-Wolfe decomposition for linear mixed-integer programming",
// International Transactions in Operational Research 4 (1997)).
const calm = 0.75

// relax solves the linear program by column generation, as far as it is of use:
// it stops when no plan cheaper than ceiling is left, or when the bound cannot
// rise over another cost.
func (p *problem) relax(ceiling int64) *relaxed {
	s := p.newMaster()
	step, below := float64(p.step()), float64(p.below(ceiling))
	s.fillAll(p.byLength(), s.prices(), 0, boundSteps)
	for range 12*s.m + 400 {
		y := s.prices()
		column, ok := s.priceOut(y)
		if !ok || s.low > below || math.Ceil(s.low/step) >= math.Ceil(s.value()/step*(1-num.BetterFill)) || !s.enter(column) {
			break
		}
	}
	return s.result()
}

// byLength are prices by length alone, from the bar that gives most length for
// its cost.
func (p *problem) byLength() []float64 {
	rate := math.Inf(1)
	for _, k := range p.kinds {
		if k.room > 0 && k.count < 0 {
			rate = min(rate, float64(k.cost)/float64(k.room))
		}
	}
	prices := make([]float64, len(p.items))
	for i := range prices {
		if !math.IsInf(rate, 1) {
			prices[i] = rate * float64(p.items[i].width)
		}
	}
	return prices
}

func (p *problem) newMaster() *master {
	s := &master{p: p, n: len(p.items), rowOf: make([]int, len(p.kinds)), width: p.widths(), want: p.wants()}
	s.worth, s.toll = make([]int64, s.n), make([]int64, len(p.kinds))
	dear := 0.0
	for k := range p.kinds {
		s.rowOf[k] = -1
		if p.kinds[k].count >= 0 {
			s.rowOf[k] = s.n + len(s.limited)
			s.limited = append(s.limited, k)
		}
		dear = max(dear, float64(p.kinds[k].cost))
	}
	s.m = s.n + len(s.limited)
	s.huge = 64 * max(dear, 1)
	s.inv = make([][]float64, s.m)
	for i := range s.inv {
		s.inv[i] = make([]float64, s.m)
	}
	s.basis, s.cost, s.x = make([]pattern, s.m), make([]float64, s.m), make([]float64, s.m)
	for i := range s.n {
		s.start(i)
	}
	for j, k := range s.limited {
		r := s.n + j
		s.inv[r][r], s.basis[r], s.x[r] = 1, pattern{kind: -1}, float64(p.kinds[k].count)
	}
	return s
}

// start puts a first column in the basis for item i: bars of the cheapest kind
// that is there without end, full of it, or else a makeshift.
func (s *master) start(i int) {
	best, rate := -1, math.Inf(1)
	n := 0
	for k := range s.p.kinds {
		b := &s.p.kinds[k]
		fits := int(min(b.room/s.p.items[i].width, int64(s.p.items[i].want)))
		if b.count < 0 && fits > 0 && float64(b.cost)/float64(fits) < rate {
			best, rate, n = k, float64(b.cost)/float64(fits), fits
		}
	}
	pieces := make([]int, s.n)
	if best < 0 {
		n = 1
	}
	pieces[i] = n
	s.basis[i] = pattern{best, pieces}
	s.inv[i][i] = 1 / float64(n)
	s.x[i] = float64(s.p.items[i].want) / float64(n)
	s.cost[i] = s.huge
	if best >= 0 {
		s.cost[i] = float64(s.p.kinds[best].cost)
	}
}

// prices are the duals of the rows.
func (s *master) prices() []float64 {
	y := make([]float64, s.m)
	for r, c := range s.cost {
		if c == 0 {
			continue
		}
		for j, v := range s.inv[r] {
			y[j] += c * v
		}
	}
	return y
}

// value is the cost of the present solution with fractions.
func (s *master) value() float64 {
	v := 0.0
	for r, c := range s.cost {
		v += c * s.x[r]
	}
	return v
}

// column may come into the basis.
type column struct {
	pattern
	cost float64
	rows []float64
}

// priceOut looks for the column that gains most at prices y; false when there is
// none.
func (s *master) priceOut(y []float64) (column, bool) {
	dear := s.huge / 64
	least := -num.BetterFill * dear
	best := -1 // an item or limited row that is given up
	for i := range s.n {
		if y[i] < least { // more of an item than wanted costs nothing
			least, best = y[i], i
		}
	}
	for r := s.n; r < s.m; r++ {
		if -y[r] < least {
			least, best = -y[r], r
		}
	}
	prices := y[:s.n]
	if s.held != nil {
		prices = make([]float64, s.n)
		for i := range prices {
			prices[i] = calm*s.held[i] + (1-calm)*y[i]
		}
	}
	var pick pattern
	gain := least
	for _, try := range [3]struct {
		prices []float64
		steps  int
	}{{prices, planSteps}, {y[:s.n], planSteps}, {y[:s.n], boundSteps}} {
		pick, gain = s.fillAll(try.prices, y, least, try.steps)
		if pick.pieces != nil || best >= 0 {
			break
		}
	}
	switch {
	case pick.pieces != nil && gain < least:
		c := column{pick, float64(s.p.kinds[pick.kind].cost), make([]float64, s.m)}
		for i, n := range pick.pieces {
			c.rows[i] = float64(n)
		}
		if r := s.rowOf[pick.kind]; r >= 0 {
			c.rows[r] = 1
		}
		return c, true
	case best >= 0:
		c := column{pattern{kind: -1}, 0, make([]float64, s.m)}
		c.rows[best] = 1
		if best < s.n {
			c.rows[best] = -1
		}
		return c, true
	}
	return column{}, false
}

// fillAll fills a bar of every kind by the given prices of items, notes the
// bound that follows, and gives the filling that gains most, and more than least,
// by the prices y of all rows.
func (s *master) fillAll(prices, y []float64, least float64, steps int) (best pattern, gain float64) {
	worth := make([]int64, s.n)
	for i, v := range prices {
		worth[i] = int64(max(0, v) * scale)
	}
	gain = least
	bounds := make([]int64, len(s.p.kinds))
	for k := range s.p.kinds {
		b := &s.p.kinds[k]
		pick, _, bound := fill(s.width, worth, s.want, b.room, steps)
		bounds[k] = bound
		g := float64(b.cost)
		if r := s.rowOf[k]; r >= 0 {
			g -= y[r]
		}
		for i, n := range pick {
			g -= float64(n) * y[i]
		}
		if g < gain && b.count != 0 {
			gain, best = g, pattern{k, pick}
		}
	}
	s.prove(worth, bounds)
	return best, gain
}

// prove works out the bound that prices of items prove, given what fillings of
// each kind are worth at most: prices are brought down until no filling of a kind
// that is there without end is worth more than its cost; what a filling of a
// limited kind is worth more becomes its toll.
func (s *master) prove(worth, bounds []int64) {
	over := 1.0
	for k, b := range s.p.kinds {
		if c := b.cost * scale; b.count < 0 && bounds[k] > c {
			over = max(over, float64(bounds[k])/float64(c))
		}
	}
	fair := make([]int64, s.n)
	sum := 0.0
	for i, w := range worth {
		fair[i] = w
		if over > 1 { // one less than the share rounded down: no sum over a bar can pass
			fair[i] = max(0, int64(float64(w)/over)-1)
		}
		sum += float64(fair[i]) * float64(s.want[i])
	}
	toll := make([]int64, len(s.p.kinds))
	for k, b := range s.p.kinds {
		if b.count < 0 {
			continue
		}
		most := bounds[k]
		if over > 1 { // rounded up
			most = int64(float64(most)/over) + 1
		}
		toll[k] = max(0, most-b.cost*scale)
		sum -= float64(toll[k]) * float64(b.count)
	}
	sum = sum/scale - num.BoundShare*math.Abs(sum)/scale
	if s.held == nil || sum > s.low {
		s.low, s.worth, s.toll = sum, fair, toll
		s.held = make([]float64, s.n)
		for i, w := range fair {
			s.held[i] = float64(w) / scale
		}
	}
}

// enter pivots a column into the basis; false where nothing bounds it.
func (s *master) enter(c column) bool {
	d := make([]float64, s.m)
	for j, v := range c.rows {
		if v != 0 {
			for r := range d {
				d[r] += v * s.inv[r][j]
			}
		}
	}
	leave, least := -1, math.Inf(1)
	for r, v := range d {
		if v <= num.BetterFill {
			continue
		}
		q := s.x[r] / v
		if q < least-num.BetterFill || q <= least+num.BetterFill && (leave < 0 || v > d[leave]) {
			leave, least = r, min(q, least)
		}
	}
	if leave < 0 {
		return false
	}
	pivot := d[leave]
	row := s.inv[leave]
	for j := range row {
		row[j] /= pivot
	}
	s.x[leave] /= pivot
	for r := range s.inv {
		if r == leave || d[r] == 0 {
			continue
		}
		f, to := d[r], s.inv[r]
		for j, v := range row {
			to[j] -= f * v
		}
		s.x[r] -= f * s.x[leave]
	}
	s.basis[leave], s.cost[leave] = c.pattern, c.cost
	return true
}

func (p *problem) widths() []int64 {
	w := make([]int64, len(p.items))
	for i := range w {
		w[i] = p.items[i].width
	}
	return w
}

func (p *problem) wants() []int {
	w := make([]int, len(p.items))
	for i := range w {
		w[i] = p.items[i].want
	}
	return w
}

// result is what the linear program has come to.
func (s *master) result() *relaxed {
	r := &relaxed{worth: s.worth, toll: s.toll}
	r.bound = s.p.reachable(int64(math.Ceil(max(0, s.low))))
	for i, b := range s.basis {
		if b.kind >= 0 && s.x[i] > num.BetterFill {
			r.patterns, r.times = append(r.patterns, b), append(r.times, s.x[i])
		}
	}
	return r
}

// sums is how many costs are tried out to round a bound up.
const sums = 1 << 20

// step is the greatest common divisor of the costs; 1 where nothing costs.
func (p *problem) step() int64 {
	g := int64(0)
	for _, k := range p.kinds {
		a, b := g, k.cost
		for b != 0 {
			a, b = b, a%b
		}
		g = a
	}
	return max(g, 1)
}

// reachable rounds a bound up to the least cost that some number of bars has.
func (p *problem) reachable(bound int64) int64 {
	g := p.step()
	first := (bound + g - 1) / g
	ok, dear := p.costs(first)
	for i := first; i <= first+dear && ok != nil; i++ {
		if ok[i] {
			return i * g
		}
	}
	return first * g
}

// below is the greatest cost under ceiling that some number of bars has.
func (p *problem) below(ceiling int64) int64 {
	g := p.step()
	if ceiling > noPlan {
		return ceiling
	}
	first := (ceiling + g - 1) / g
	ok, _ := p.costs(first)
	for i := first - 1; i > 0 && ok != nil; i-- {
		if ok[i] {
			return i * g
		}
	}
	if ok != nil {
		return 0
	}
	return (first - 1) * g
}

// costs tells which multiples of the step some number of bars costs, up to first
// and the dearest bar more; nil where there are too many to try.
func (p *problem) costs(first int64) (ok []bool, dear int64) {
	g := p.step()
	for _, k := range p.kinds {
		dear = max(dear, k.cost/g)
	}
	if dear == 0 || first+dear > sums {
		return nil, dear
	}
	ok = make([]bool, first+dear+1)
	ok[0] = true
	for i := range ok {
		if !ok[i] {
			continue
		}
		for _, k := range p.kinds {
			if c := k.cost / g; c > 0 && i+int(c) < len(ok) {
				ok[i+int(c)] = true
			}
		}
	}
	return ok, dear
}
