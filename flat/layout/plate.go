package layout

import (
	"math"
	"slices"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// plate is a kind of sheet as the search sees it: a box, in which blocks stand
// where there is no plate. Coordinates are those of the sheet's region.
type plate struct {
	bin    bin
	blocks []block
}

// newPlate makes the plate of a sheet for polygons that hold half the gap round
// their piece, and adds its blocks to the model.
func (m *model) newPlate(s Sheet, o Options) (plate, error) {
	box := s.Region.Bounds()
	if upright(s.Region.Outer) {
		p := plate{bin: boxBin(box.Grow(o.grow() - o.Margin))}
		if p.bin.x1 <= p.bin.x0 || p.bin.y1 <= p.bin.y0 {
			return p, &InputError{Fault: MarginTooLarge, Name: s.Name, Got: o.Margin}
		}
		for _, h := range s.Region.Holes {
			if err := m.addBlock(&p, geom.Region{Outer: h.Reverse()}, o); err != nil {
				return p, err
			}
		}
		return p, nil
	}
	// A margin of less than half the gap is kept as half the gap: only along
	// straight outer edges could polygons reach out further.
	in := []geom.Region{s.Region}
	if d := o.Margin - o.Gap/2; d > 0 {
		var err error
		if in, err = geom.Offset(in, -d, geom.Round); err != nil {
			return plate{}, err
		}
	}
	if len(in) == 0 {
		return plate{}, &InputError{Fault: MarginTooLarge, Name: s.Name, Got: o.Margin}
	}
	inner := bounds(in)
	p := plate{bin: boxBin(inner)}
	// What is outside is drawn far out, so that the way out of it leads in.
	far := rectangle(inner.Grow(m.size + num.LayoutArc))
	rings := [][]geom.Point{outerPoints(far.Outer, num.LayoutArc)}
	for _, r := range in {
		rings = append(rings, blockRing(r.Outer.Reverse(), r.Area()))
		for _, h := range r.Holes {
			m.addRings(&p, [][]geom.Point{blockRing(h.Reverse(), math.Abs(h.Area()))})
		}
	}
	m.addRings(&p, rings)
	return p, nil
}

func blockRing(l geom.Loop, area float64) []geom.Point {
	return thin(outerPoints(l, num.LayoutArc), thinLittle*area, thinMore*area, 2*fewCorners)
}

// addBlock adds an opening of the sheet, as much larger as the margin asks.
func (m *model) addBlock(p *plate, r geom.Region, o Options) error {
	rs := []geom.Region{r}
	if d := o.Margin - o.Gap/2; d > 0 {
		var err error
		if rs, err = geom.Offset(rs, d, geom.Round); err != nil {
			return err
		}
	}
	for _, g := range rs {
		m.addRings(p, [][]geom.Point{blockRing(g.Outer, g.Area())})
	}
	return nil
}

// addRings adds a block; it is kept as an orient that no piece takes.
func (m *model) addRings(p *plate, rings [][]geom.Point) {
	o := newOrient(rings, 0)
	o.parts = convexParts(o.rings)
	p.blocks = append(p.blocks, block{len(m.orients), -o.off.X, -o.off.Y})
	m.orients = append(m.orients, o)
}

func boxBin(b geom.Box) bin { return bin{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y} }

// upright reports whether a loop is a rectangle along the axes.
func upright(l geom.Loop) bool {
	b := l.Bounds()
	return !slices.ContainsFunc(l, func(s geom.Seg) bool {
		return s.IsArc() || !(s.A.X == s.B.X && (s.A.X == b.Min.X || s.A.X == b.Max.X) || s.A.Y == s.B.Y && (s.A.Y == b.Min.Y || s.A.Y == b.Max.Y))
	})
}

// moved is the plate as a bin and its blocks, shifted by dx, dy.
func (p *plate) moved(dx, dy float64) (bin, []block) {
	b := bin{p.bin.x0 + dx, p.bin.y0 + dy, p.bin.x1 + dx, p.bin.y1 + dy}
	blocks := slices.Clone(p.blocks)
	for i := range blocks {
		blocks[i].x += dx
		blocks[i].y += dy
	}
	return b, blocks
}
