package blank

import (
	"blankwright/flat/diag"
	"blankwright/flat/geom"
)

// Cutout is an opening of any shape: a cutout that lies wholly inside the metal,
// what added shapes enclose, or the slot for a tab.
type Cutout struct {
	Name    string // as the file names it, or `cutout-2` by its place in the list
	Pos     diag.Pos
	Purpose Purpose
	Loop    geom.Loop // counter-clockwise. It may be shared: do not change it
	Slot    *SlotFit  // of a tab slot, else nil
	Fixed   bool      // made by more than one shape, or by what lies round it: it is not moved by itself

	cw *turned // made once by Make
}

// SlotFit is a tab slot with what goes into it, mm.
type SlotFit struct {
	Centre         geom.Point
	Angle          float64 // of the long side, rad
	Width, Length  float64 // of the slot without its reliefs
	Tab, Thickness float64 // width of the tab, thickness of its plate

	relief relief
}

// boundary is the slot's edge, counter-clockwise.
func (s *SlotFit) boundary() geom.Loop {
	l := slotWithReliefs(s.Length/2, s.Width/2, s.relief)
	return l.Transform(geom.Rotate(s.Angle).Then(geom.Translate(s.Centre.X, s.Centre.Y)))
}

// Moved is the opening elsewhere.
func (c Cutout) Moved(by geom.Point) Cutout {
	c.Loop = c.Loop.Transform(geom.Translate(by.X, by.Y))
	if c.Slot != nil {
		s := *c.Slot
		s.Centre = s.Centre.Add(by)
		c.Slot = &s
	}
	c.trace()
	return c
}

// Loosened is a tab slot with another allowance, mm; its reliefs keep their size
// where they fit.
func (c Cutout) Loosened(allow float64) Cutout {
	s := *c.Slot
	s.Width, s.Length = s.Thickness+allow, s.Tab+allow
	s.relief.radius = min(s.relief.radius, s.reliefRoom(s.relief.kind))
	c.Slot, c.Loop = &s, s.boundary()
	c.trace()
	return c
}

// Clearance is how much wider and longer the slot is than its tab.
func (s *SlotFit) Clearance() float64 { return min(s.Width-s.Thickness, s.Length-s.Tab) }

// turned is a loop run the other way round, and the loop that it was made from.
type turned struct{ of, loop geom.Loop }

// clockwise is the boundary as an opening of a region has it.
func (c *Cutout) clockwise() geom.Loop {
	if c.cw != nil && len(c.cw.of) == len(c.Loop) && len(c.Loop) > 0 && &c.cw.of[0] == &c.Loop[0] {
		return c.cw.loop
	}
	return c.Loop.Reverse()
}

// trace makes the reversed loop once, so that every later reader shares it.
func (c *Cutout) trace() {
	c.cw = &turned{c.Loop, c.Loop.Reverse()}
}

func (c Cutout) mirrored() Cutout {
	c.Loop = c.Loop.Transform(geom.MirrorY())
	if c.Slot != nil {
		s := *c.Slot
		s.Centre, s.Angle = acrossY.point(s.Centre), acrossY.angle(s.Angle)
		c.Slot = &s
	}
	c.trace()
	return c
}

// Role is what a stretch of the outline is for.
type Role int

// What a stretch of the outline is for.
const (
	FreeEdge   Role = iota
	SaddleEdge      // meets a round tube
	TabEdge         // goes into a slot of another plate
)

func (r Role) String() string {
	switch r {
	case SaddleEdge:
		return "saddle"
	case TabEdge:
		return "tab"
	}
	return "free edge"
}

// Edge is a stretch of the outline with a purpose of its own.
type Edge struct {
	Name   string // as the file names it, or `cutout-2`, `tab-1` by its place in the list
	Pos    diag.Pos
	Role   Role
	Segs   []int      // of the outline, in walking order
	Saddle *SaddleFit // of a saddle, else nil
}

// SaddleFit is how a plate sits on a round tube, mm and rad.
type SaddleFit struct {
	Tube   float64 // outside diameter
	Wall   float64 // of the tube; 0 where the file does not say
	Gap    float64
	Circle geom.Circle // that the edge lies on: radius of the tube and the gap
	Wrap   float64     // round the tube, from the edge's one end to its other
}

// EdgeAt gives the edge that a segment of the outline belongs to, nil where that
// has no purpose of its own.
func (b *Blank) EdgeAt(seg int) *Edge {
	for i := range b.Edges {
		for _, k := range b.Edges[i].Segs {
			if k == seg {
				return &b.Edges[i]
			}
		}
	}
	return nil
}

// mirrored is the edge on the mirror image of an outline of n segments, which
// runs through them backwards.
func (e Edge) mirrored(n int) Edge {
	segs := make([]int, len(e.Segs))
	for i, k := range e.Segs {
		segs[len(segs)-1-i] = n - 1 - k
	}
	e.Segs = segs
	if e.Saddle != nil {
		s := *e.Saddle
		s.Circle.C = acrossY.point(s.Circle.C)
		e.Saddle = &s
	}
	return e
}
