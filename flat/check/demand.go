package check

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"blankwright/flat/blank"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/strength"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// method is by what loads are held against resistances.
type method struct {
	eurocode bool
	aisc     strength.AISC
	en       strength.EN1993
	units    strength.Units
}

// methodOf is the design method that goes with the rules of a file: EN 1993 with
// its own distances, AISC 360 with all others, LRFD unless the file says ASD.
func methodOf(rules string, sys unit.System) method {
	m := method{eurocode: strings.HasPrefix(rules, "en "), units: strength.Metric}
	if sys == unit.Inch {
		m.units = strength.Inch
	}
	m.aisc.Units = m.units
	if strings.HasSuffix(rules, " asd") {
		m.aisc.Method = strength.ASD
	}
	return m
}

// String names the method.
func (m *method) String() string {
	switch {
	case m.eurocode:
		return "EN 1993-1-8:2005"
	case m.aisc.Method == strength.ASD:
		return "AISC 360-22 ASD"
	}
	return "AISC 360-22 LRFD"
}

// loadCase is what acts at one time.
type loadCase struct {
	name  string
	loads []*blank.Load
	all   strength.PlaneLoad // the sum of them
	seen  bool               // a rule weighed all of it: at a weld or a section
}

// demand is what one hole gets in one case.
type demand struct {
	o       *opening
	in      *loadCase
	force   geom.Point // on the plate, N
	size    float64    // its length
	pull    float64    // along the bolt, N
	planes  int
	threads bool
	pin     bool
	loads   int     // how many share in it
	offset  bool    // one of them misses the middle of its bolts
	lap     bool    // in single shear, by a load whose bolts stand in one row across it
	long    float64 // length of the longest joint that it is part of, along the force, mm
	seen    bool    // a rule weighed it

	clear float64 // metal ahead of the hole, along the force, mm
}

// group is a load that several holes share.
type group struct {
	load   *blank.Load
	in     *loadCase
	os     []*opening
	bolts  []geom.Point
	plane  strength.PlaneLoad
	centre strength.Centre      // AISC
	shared strength.GroupForces // EN 1993
	offset bool                 // the load misses the middle
	err    error
	pulls  []float64 // along each bolt, N, where the tension misses the middle
	pulled error     // why they could not be worked out
}

// forces are what each of its bolts gets of a load.
func (g *group) forces(eurocode bool) []geom.Point {
	switch {
	case !g.offset:
		each := make([]geom.Point, len(g.bolts))
		for i := range each {
			each[i] = g.load.Force.Mul(1 / float64(len(g.bolts)))
		}
		return each
	case eurocode:
		return g.shared.Forces
	}
	return g.centre.Forces
}

// bear works out what each hole gets, once for all rules.
func (c *Context) bear() {
	b := c.Blank
	if len(b.Loads) == 0 {
		return
	}
	index := make(map[string]int, len(c.openings))
	for i := range c.openings {
		index[c.openings[i].hole.Name] = i
	}
	c.holders = make(map[*blank.Load][]*opening, len(b.Loads))
	c.cases = make([]loadCase, 0, len(b.Loads))
	for i := range b.Loads {
		l := &b.Loads[i]
		k := slices.IndexFunc(c.cases, func(k loadCase) bool { return k.name == l.Case })
		if k < 0 {
			k = len(c.cases)
			c.cases = append(c.cases, loadCase{name: l.Case})
		}
		in := &c.cases[k]
		in.loads = append(in.loads, l)
		in.all.F = in.all.F.Add(l.Force)
		in.all.M += l.At.Cross(l.Force) + l.Moment
	}
	slot := make([]int, len(c.openings)) // where a hole's demand of the running case is, from 1
	for k := range c.cases {
		in := &c.cases[k]
		from := len(c.demands)
		for _, l := range in.loads {
			c.share(l, in, index, slot, from)
		}
		for i := range c.demands[from:] {
			slot[c.demands[from+i].o.i] = 0
		}
	}
	slices.SortStableFunc(c.demands, func(a, b demand) int { return cmp.Compare(a.o.i, b.o.i) })
	for i := range c.demands {
		d := &c.demands[i]
		d.size = d.force.Len()
		d.clear = math.Inf(1)
		if d.size > 0 && c.whole() {
			d.clear, _ = c.metalAhead(d.o, d.force.Mul(1/d.size))
		}
	}
}

// share gives a load to its holes.
func (c *Context) share(l *blank.Load, in *loadCase, index map[string]int, slot []int, from int) {
	os := make([]*opening, 0, len(l.Holes))
	for _, name := range l.Holes {
		if i, ok := index[name]; ok {
			os = append(os, &c.openings[i])
		}
	}
	n := len(os)
	if n == 0 {
		return
	}
	c.holders[l] = os
	each := l.Force.Mul(1 / float64(n))
	var forces []geom.Point
	var pulls []float64
	lap, long := false, 0.0
	if size := l.Force.Len(); size > 0 {
		long = spread(os, l.Force.Mul(1/size))
		lap = l.Planes == 1 && long <= os[0].r
	}
	if n > 1 {
		g := group{load: l, in: in, os: os, plane: strength.PlaneLoad{F: l.Force, At: l.At, M: l.Moment}}
		g.bolts = make([]geom.Point, n)
		var mid geom.Point
		for i, o := range os {
			g.bolts[i] = o.at
			mid = mid.Add(o.at.Mul(1 / float64(n)))
		}
		if !l.Placed {
			g.plane.At = mid
		}
		if l.Tension != 0 && l.Placed && !num.Zero(l.At.Dist(mid)) {
			t, err := strength.TensionGroup(g.bolts, strength.SpaceLoad{Out: l.Tension, At: l.At}, nil)
			g.pulls, g.pulled = t.Forces, err
			pulls = t.Forces
		}
		if m := g.plane.About(mid); l.Moment != 0 || l.Placed && !num.Zero(m/l.Force.Len()) {
			g.offset = true
			if c.method.eurocode {
				g.shared, g.err = strength.ElasticGroup(g.bolts, g.plane, nil)
				forces = g.shared.Forces
			} else {
				g.centre, g.err = strength.InstantCentre(g.bolts, g.plane, nil)
				forces = g.centre.Forces
			}
		}
		c.groups = append(c.groups, g)
	}
	for i, o := range os {
		k := slot[o.i]
		if k == 0 {
			c.demands = append(c.demands, demand{o: o, in: in, planes: l.Planes})
			k = len(c.demands)
			slot[o.i] = k
		}
		d := &c.demands[k-1]
		if i < len(forces) {
			d.force = d.force.Add(forces[i])
			d.offset = true
		} else {
			d.force = d.force.Add(each)
		}
		d.loads++
		d.lap = d.lap || lap
		d.long = max(d.long, long)
		if i < len(pulls) {
			d.pull += max(0, pulls[i]) // what presses on the plate presses nowhere else
		} else {
			d.pull += l.Tension / float64(n)
		}
		d.planes = min(d.planes, l.Planes)
		d.threads = d.threads || l.Threads
		d.pin = d.pin || l.Pin
	}
}

// spread is how far holes reach along a unit vector, from the first centre to the last, mm.
func spread(os []*opening, u geom.Point) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, o := range os {
		v := u.Dot(o.at)
		low, high = min(low, v), max(high, v)
	}
	return high - low
}

// metalAhead is how much metal lies beyond a hole's edge along a unit vector, mm,
// and what ends it: another opening, or nil for the outline. It is +Inf where
// nothing does. The bolt or the pin is as wide as it is and may sit anywhere along a
// slot: the least counts of rays at the middle and both sides of it, from place to
// place along the slot no farther apart than half its diameter.
func (c *Context) metalAhead(o *opening, u geom.Point) (float64, *opening) {
	best, hit := math.Inf(1), (*opening)(nil)
	c.eachRay(o, u, func(d float64, k *opening) {
		if d < best {
			best, hit = d, k
		}
	})
	return best, hit
}

// apart is the metal ahead of a hole as far as the next bolt's hole, and as far as
// whatever else ends it: +Inf where there is no such thing.
func (c *Context) apart(o *opening, u geom.Point) (toBolt, toEdge float64, bolt *opening) {
	toBolt, toEdge = math.Inf(1), math.Inf(1)
	c.eachRay(o, u, func(d float64, k *opening) {
		if k == nil || !k.bolted() {
			toEdge = min(toEdge, d)
		} else if d < toBolt {
			toBolt, bolt = d, k
		}
	})
	return toBolt, toEdge, bolt
}

// eachRay gives the metal ahead of a hole on every ray that metalAhead looks along.
func (c *Context) eachRay(o *opening, u geom.Point, each func(float64, *opening)) {
	look := func(p geom.Point) { each(c.rayAhead(o, p, u)) }
	look(o.at)
	if o.cut != nil {
		return
	}
	side := u.Perp()
	half := min(pinOf(o)/2, o.r-2*num.Coincident)
	if half <= 0 {
		return
	}
	steps := 0
	if across := o.dir.Dot(side); o.half > 0 && math.Abs(across) > num.Angular {
		steps = int(math.Ceil(2 * o.half * math.Abs(across) / half))
	}
	if steps == 0 {
		look(o.at.Add(side.Mul(half)))
		look(o.at.Sub(side.Mul(half)))
		return
	}
	steps = min(steps, mostPlaces)
	for k := range steps + 1 {
		p := o.at.Add(o.dir.Mul(o.half * (2*float64(k)/float64(steps) - 1)))
		look(p)
		if k == 0 || k == steps {
			look(p.Add(side.Mul(half)))
			look(p.Sub(side.Mul(half)))
		}
	}
}

// mostPlaces bounds the places along one slot at which a bolt is taken to sit.
const mostPlaces = 200

// rayAhead is how much metal lies beyond a hole's edge on one ray that starts within
// the hole.
func (c *Context) rayAhead(o *opening, p, u geom.Point) (float64, *opening) {
	start := o.ray(p, u)
	if math.IsInf(start, 1) {
		start = 0 // along the side of the hole
	}
	far, _, ok := geom.RayLoop(p, u, c.outline.loop)
	if !ok {
		far = math.Inf(1)
	}
	best, hit := far, (*opening)(nil)
	if len(c.openings) > 1 {
		most := min(far, c.farthest(o)+start+o.half)
		for reach := 8 * (o.r + start); ; reach *= 4 {
			reach = min(reach, most)
			end := p.Add(u.Mul(reach))
			q := box{min(p.X, end.X), min(p.Y, end.Y), max(p.X, end.X), max(p.Y, end.Y)}
			c.places.find(q, func(j int) {
				if j == o.i {
					return
				}
				k := &c.openings[j]
				if t := k.ray(p, u); t >= start && t < best {
					best, hit = t, k
				}
			})
			if best <= reach || reach >= most {
				break
			}
		}
	}
	return max(0, best-start), hit
}

// ray is how far from a place along a unit vector the edge of the opening is met:
// from within its far edge, from outside the near one. +Inf where it is not met.
func (o *opening) ray(p, u geom.Point) float64 {
	if o.cut != nil || o.half > 0 {
		l := geom.Loop(nil)
		if o.cut != nil {
			l = o.cut.Loop
		} else {
			l = o.hole.Finished()
		}
		t, _, ok := geom.RayLoop(p, u, l)
		if !ok {
			return math.Inf(1)
		}
		return t
	}
	w := o.at.Sub(p)
	along, across := u.Dot(w), u.Cross(w)
	g := (o.r - across) * (o.r + across)
	if g < 0 {
		return math.Inf(1)
	}
	g = math.Sqrt(g)
	switch {
	case along-g > num.Coincident:
		return along - g
	case along+g > num.Coincident:
		return along + g
	}
	return math.Inf(1)
}

// steel reports whether the plate is of a steel that the standards are for.
func (c *Context) steel() bool {
	m := &c.Blank.Material
	return m.Group == profiles.CarbonSteel && m.Fy > 0 && m.Fu > 0 && c.Blank.Thickness > 0
}

// holeKind is the shape of a hole as it lies to a force along the unit vector u.
func (c *Context) holeKind(o *opening, u geom.Point) strength.HoleKind {
	b := o.hole.Bolt
	if o.half == 0 {
		switch {
		case b == nil:
		case c.method.eurocode && !num.AtMost(o.hole.Dia, strength.NormalHole(b.D)),
			!c.method.eurocode && aiscOversized(o):
			return strength.OversizedHole
		}
		return strength.RoundHole
	}
	along := math.Abs(o.dir.Dot(u)) > math.Sqrt2/2
	short := false
	if b != nil {
		_, length, _, err := profiles.SlotFor(*b, "short")
		short = err == nil && num.AtMost(o.hole.Length, length)
	}
	switch {
	case short && along:
		return strength.ShortSlotAlong
	case short:
		return strength.ShortSlotAcross
	case along:
		return strength.LongSlotAlong
	}
	return strength.LongSlotAcross
}
