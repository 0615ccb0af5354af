package fold

import (
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Folded is a flat pattern folded in space. It knows the flat pattern alone,
// not what was asked of it.
type Folded struct {
	Flat   *Flat
	places []plane // of the panels
	bends  []bow
}

// bow is a bend in space: part of a hollow cylinder.
type bow struct {
	axis    Vec // the axis over the left end of the root
	along   Vec // unit vectors: along the axis from left to right,
	out     Vec // away from the parent in its plane,
	in      Vec // from the parent's middle towards the axis
	length  float64
	angle   float64
	r, t    float64 // inside radius, thickness
	allow   float64 // flat length of the zone
	up      float64 // +1 where it turns up, -1 down
	root    geom.Point
	rootDir geom.Point
	outDir  geom.Point
}

// Fold bends the flat pattern at all its bend lines.
func (f *Flat) Fold() *Folded {
	g := &Folded{Flat: f, places: make([]plane, len(f.Panels)), bends: make([]bow, len(f.Bends))}
	g.pose(^uint(0), -1)
	return g
}

// pose lays everything in space with the bends of the set turned and the others
// flat; bend held, where there is one, only as far as the blade stays in it.
func (g *Folded) pose(turned uint, held int) {
	g.places[0] = plane{x: Vec{1, 0, 0}, y: Vec{0, 1, 0}, n: Vec{0, 0, 1}}
	for i := range g.Flat.Bends {
		b := &g.Flat.Bends[i]
		w := &g.bends[i]
		w.lay(b, g.Flat.T, &g.places[b.Parent])
		if turned>>uint(i)&1 == 1 {
			w.angle = b.Bend.A
			if i == held {
				w.angle = min(w.angle, BladeTurn)
			}
			g.places[b.Child] = w.turn(&g.places[b.Parent])
		} else {
			w.angle = 0
			g.places[b.Child] = g.places[b.Parent]
		}
	}
}

// lay puts the bend on its parent, from the two tangent lines of the flat.
func (w *bow) lay(b *Bend, t float64, p *plane) {
	w.root, w.rootDir, w.outDir = b.Root.A, b.Root.DirA(), b.Out
	w.length = b.Root.Length()
	w.r, w.t = b.Bend.R, t
	w.allow = b.Far.A.Sub(b.Root.A).Dot(b.Out)
	w.up = 1
	if b.Down {
		w.up = -1
	}
	w.along, w.out, w.in = p.dir(w.rootDir), p.dir(w.outDir), p.n.Mul(w.up)
	w.axis = p.at(w.root, w.up*(w.r+t/2))
}

// round is the place on the bend at a turn from its parent, at a radius from its
// axis and a distance along it.
func (w *bow) round(x, turn, radius float64) Vec {
	s, c := num.Sincos(turn)
	return w.axis.Add(w.along.Mul(x)).Add(w.out.Mul(s * radius)).Sub(w.in.Mul(c * radius))
}

// turn is the plane of the flange behind the bend.
func (w *bow) turn(p *plane) plane {
	s, c := num.Sincos(w.angle)
	y := w.out.Mul(c).Add(w.in.Mul(s))
	n := w.in.Mul(c).Sub(w.out.Mul(s)).Mul(w.up)
	ux, uy := w.rootDir, w.outDir
	q := plane{
		x: w.along.Mul(ux.X).Add(y.Mul(uy.X)),
		y: w.along.Mul(ux.Y).Add(y.Mul(uy.Y)),
		n: n,
	}
	start := w.root.Add(uy.Mul(w.allow)) // of the flange in the flat
	at := w.round(0, w.angle, w.r+w.t/2)
	q.o = at.Sub(q.x.Mul(start.X)).Sub(q.y.Mul(start.Y))
	return q
}

// At is the place in space of a point of the flat that lies on a panel, h mm over
// the middle of the plate towards its upper side.
func (g *Folded) At(panel int, p geom.Point, h float64) Vec { return g.places[panel].at(p, h) }

// Normal is the direction of a panel's upper side.
func (g *Folded) Normal(panel int) Vec { return g.places[panel].n }

// HoleAxis is the centre of a hole in the middle of the plate, and the direction
// of its axis.
func (g *Folded) HoleAxis(h *FlatHole) (at, dir Vec) {
	p := &g.places[h.Panel]
	return p.at(h.At, 0), p.n
}

// Box is the smallest upright box that holds the folded part, mm: exact for
// straight outlines, at most the bounds of the flat's arcs too large.
func (g *Folded) Box() Box3 {
	b := noBox()
	for i := range g.Flat.Panels {
		c := g.panelBox(i)
		b.extend(c.Min)
		b.extend(c.Max)
	}
	for i := range g.bends {
		c := g.bendBox(i)
		b.extend(c.Min)
		b.extend(c.Max)
	}
	return b
}

func (g *Folded) panelBox(i int) Box3 {
	b := noBox()
	p := &g.places[i]
	h := g.Flat.T / 2
	add := func(q geom.Point) {
		b.extend(p.at(q, h))
		b.extend(p.at(q, -h))
	}
	for _, s := range g.Flat.Panels[i].Region.Outer {
		add(s.A)
		if s.Bulge != 0 {
			c := s.Bounds()
			add(c.Min)
			add(c.Max)
			add(geom.Point{X: c.Min.X, Y: c.Max.Y})
			add(geom.Point{X: c.Max.X, Y: c.Min.Y})
		}
	}
	return b
}

func (g *Folded) bendBox(i int) Box3 {
	b := noBox()
	w := &g.bends[i]
	w.extremes(&b, w.r)
	w.extremes(&b, w.r+w.t)
	return b
}

// extremes extends a box by the bend at a radius: its two ends, and between them
// where the circle turns along each axis of space.
func (w *bow) extremes(b *Box3, radius float64) {
	add := func(turn float64) {
		b.extend(w.round(0, turn, radius))
		b.extend(w.round(w.length, turn, radius))
	}
	add(0)
	add(w.angle)
	for _, d := range [3][2]float64{{w.out.X, w.in.X}, {w.out.Y, w.in.Y}, {w.out.Z, w.in.Z}} {
		// out s - in c is stationary where out c + in s is nothing.
		for _, turn := range [2]float64{math.Atan2(-d[0], d[1]), math.Atan2(d[0], -d[1])} {
			if turn < 0 {
				turn += 2 * math.Pi
			}
			if turn < w.angle {
				add(turn)
			}
		}
	}
}

// Volume is the volume of metal, mm3, with every bend developed at its neutral
// line: what the flat pattern has.
func (g *Folded) Volume() float64 {
	v := 0.0
	for i := range g.Flat.Panels {
		v += g.Flat.Panels[i].Region.Area()
	}
	for i := range g.bends {
		b, w := &g.Flat.Bends[i], &g.bends[i]
		neutral := w.angle * (w.r + b.Allowance.K*w.t)
		v += b.Zone.Area() * neutral / w.allow
	}
	for _, h := range g.Flat.Holes {
		v -= h.Loop.Area()
	}
	return v * g.Flat.T
}

// Solid is the volume inside the faces of the folded part, mm3: the bends as
// parts of hollow cylinders. It differs from Volume as far as the neutral line
// is not in the middle, since a bend grows thinner.
func (g *Folded) Solid() float64 {
	v := 0.0
	for i := range g.Flat.Panels {
		v += g.Flat.Panels[i].Region.Area()
	}
	for i := range g.bends {
		w := &g.bends[i]
		v += g.Flat.Bends[i].Zone.Area() * w.angle * (w.r + w.t/2) / w.allow
	}
	for _, h := range g.Flat.Holes {
		v -= h.Loop.Area()
	}
	return v * g.Flat.T
}
