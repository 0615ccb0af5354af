package geom

// Box is an upright rectangle, mm. The zero Box is empty. A box that is a
// single point or a flat line is not empty when it was made by BoxOf, Extend,
// Union or a Bounds method; one written as a literal needs a width or a height.
type Box struct {
	Min, Max Point
	some     bool // holds something, even where Min == Max
}

// BoxOf is the smallest box holding the points.
func BoxOf(pts ...Point) Box {
	var b Box
	for _, p := range pts {
		b = b.Extend(p)
	}
	return b
}

// Empty reports whether the box holds nothing.
func (b Box) Empty() bool {
	return !b.some && (b.Min == b.Max || b.Max.X < b.Min.X || b.Max.Y < b.Min.Y)
}

// Extend is the smallest box holding b and p.
func (b Box) Extend(p Point) Box {
	if b.Empty() {
		return Box{p, p, true}
	}
	if p.X < b.Min.X {
		b.Min.X = p.X
	}
	if p.X > b.Max.X {
		b.Max.X = p.X
	}
	if p.Y < b.Min.Y {
		b.Min.Y = p.Y
	}
	if p.Y > b.Max.Y {
		b.Max.Y = p.Y
	}
	b.some = true
	return b
}

// Union is the smallest box holding b and c.
func (b Box) Union(c Box) Box {
	if c.Empty() {
		return b
	}
	return b.Extend(c.Min).Extend(c.Max)
}

// Width is the size along x, mm; 0 when empty.
func (b Box) Width() float64 {
	if b.Empty() {
		return 0
	}
	return b.Max.X - b.Min.X
}

// Height is the size along y, mm; 0 when empty.
func (b Box) Height() float64 {
	if b.Empty() {
		return 0
	}
	return b.Max.Y - b.Min.Y
}

// Centre is the middle of the box; the origin when empty.
func (b Box) Centre() Point {
	return Point{b.Min.X + (b.Max.X-b.Min.X)/2, b.Min.Y + (b.Max.Y-b.Min.Y)/2}
}

// Grow is the box with every side moved out by d, mm; an empty box stays empty.
func (b Box) Grow(d float64) Box {
	if b.Empty() {
		return b
	}
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}, true}
}

// Holds reports whether p lies in the box or on its border.
func (b Box) Holds(p Point) bool {
	return !b.Empty() && p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// Meets reports whether the two boxes have a point in common.
func (b Box) Meets(c Box) bool {
	return !b.Empty() && !c.Empty() && b.overlaps(c)
}

// overlaps is Meets for two boxes known to hold something.
func (b *Box) overlaps(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// gap2 is the square of the distance between two boxes that hold something.
func (b *Box) gap2(c *Box) float64 {
	var dx, dy float64
	if d := c.Min.X - b.Max.X; d > 0 {
		dx = d
	} else if d := b.Min.X - c.Max.X; d > 0 {
		dx = d
	}
	if d := c.Min.Y - b.Max.Y; d > 0 {
		dy = d
	} else if d := b.Min.Y - c.Max.Y; d > 0 {
		dy = d
	}
	return dx*dx + dy*dy
}
