package fold

import (
	"math"
	"math/rand/v2"
	"strconv"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
)

func deg(a float64) float64 { return a * math.Pi / 180 }

// chance draws random parts: a base of three to six sides, perhaps rounded, with
// flanges on some edges and flanges on those, holes in all of them.
type chance struct{ *rand.Rand }

func newChance(seed uint64) chance { return chance{rand.New(rand.NewPCG(seed, 7))} }

func (c chance) between(a, b float64) float64 { return a + (b-a)*c.Float64() }
func (c chance) one(in int) bool              { return c.IntN(in) == 0 }

// round gives a person's number: whole tenths most of the time.
func (c chance) round(a, b float64) float64 {
	v := c.between(a, b)
	if c.one(4) {
		return v
	}
	return math.Round(v*10) / 10
}

func (c chance) rule(t float64) bend.Rule {
	switch c.IntN(5) {
	case 0:
		return bend.DIN6935{}
	case 1:
		return bend.Aircraft{}
	case 2:
		return bend.For(bend.Steel)
	}
	return bend.KFactor(c.between(0.3, 0.5))
}

func (c chance) angle() float64 {
	switch c.IntN(8) {
	case 0:
		return deg(180)
	case 1, 2:
		return deg(c.round(1, 170))
	case 3:
		return deg(45)
	}
	return deg(90)
}

func (c chance) reference(angle float64) bend.Reference {
	r := bend.Reference(c.IntN(4))
	if r == bend.Apex && angle > deg(120) {
		return bend.Outside
	}
	return r
}

func (c chance) corner() Corner {
	switch c.IntN(4) {
	case 0:
		return Corner{Radius: c.round(2, 12)}
	case 1:
		return Corner{Chamfer: c.round(2, 12)}
	}
	return Corner{}
}

func (c chance) base() Base {
	if c.one(2) {
		return Rectangle(c.round(60, 200), c.round(60, 200))
	}
	n := 3 + c.IntN(4)
	var b Base
	corners := make([]geom.Corner, n)
	for i := range corners {
		a := 2 * math.Pi * (float64(i) + c.between(-0.2, 0.2)) / float64(n)
		corners[i].P = geom.Point{}.Polar(c.between(70, 120), a)
	}
	for i := range corners {
		b.Edges = append(b.Edges, Edge{"e" + strconv.Itoa(i), corners[i].P, corners[(i+1)%n].P})
	}
	if c.one(3) {
		corners[c.IntN(n)].Radius = 5
	}
	l, err := geom.Corners(corners)
	if err != nil {
		return Rectangle(100, 80)
	}
	b.Region.Outer = l
	if c.one(4) {
		b.Region.Holes = []geom.Loop{geom.CircleLoop(geom.Circle{R: 8}).Reverse()}
	}
	return b
}

func (c chance) part() *Part {
	t := c.round(1, 8)
	p := &Part{T: t, Rule: c.rule(t), Base: c.base()}
	p.Relief = Relief{Shape: Shape(c.IntN(2))}
	p.Corner = Relief{Shape: Shape(c.IntN(3))}
	for i, n := 0, 1+c.IntN(5); i < n; i++ {
		f := Flange{Name: "f" + strconv.Itoa(i)}
		if i > 0 && c.one(3) {
			f.On = p.Flanges[c.IntN(i)].Name
			f.Edge = []string{EndEdge, EndEdge, EndEdge, LeftEdge, RightEdge}[c.IntN(5)]
		} else {
			f.Edge = p.Base.Edges[c.IntN(len(p.Base.Edges))].Name
		}
		f.Angle, f.Radius, f.Down = c.angle(), c.round(0.2, 3)*t, c.one(3)
		f.At, f.From = c.reference(f.Angle), c.reference(f.Angle)
		f.Height = c.round(5, 60) + 3*f.Radius + t
		if f.From == bend.Apex {
			f.Height += 2 * (f.Radius + t) * math.Tan(f.Angle/2)
		}
		if c.one(2) {
			f.Left, f.Right = c.round(0, 25), c.round(0, 25)
		}
		if c.one(4) {
			f.TaperLeft, f.TaperRight = deg(c.round(-20, 40)), deg(c.round(-20, 40))
		}
		if c.one(2) {
			f.CornerLeft, f.CornerRight = c.corner(), c.corner()
		}
		if c.one(2) {
			f.Holes = c.holes(f.Name, f.Height)
		}
		p.Flanges = append(p.Flanges, f)
	}
	if c.one(2) {
		p.Base.Holes = []Hole{{"b", geom.CircleLoop(geom.Circle{C: geom.Point{X: c.round(-30, 30), Y: 15}, R: 3})}}
	}
	return p
}

func (c chance) holes(name string, height float64) []Hole {
	x, y, r := c.round(20, 60), c.between(0.5, 0.9)*height, c.round(1, 4)
	h := []Hole{{name + ".a", geom.CircleLoop(geom.Circle{C: geom.Point{X: x, Y: y}, R: r})}}
	if c.one(2) {
		q := geom.Point{X: x + 3*r, Y: y}
		h = append(h, Hole{name + ".slot", geom.Slot(q, q.Add(geom.Point{X: 6}), r)})
	}
	return h
}
