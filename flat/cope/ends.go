package cope

import (
	"fmt"
	"math"

	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// Piece is a tube with both its ends.
//
// Sign of the turn: look at the first end's open end from its joint, along the
// tube; counter-clockwise is positive, for the generators q of the first end and
// for Turn. Seen from the second end's joint everything runs the other way
// round, so the generator that the first end calls q is Turn - q there.
type Piece struct {
	Tube          Tube
	First, Second []Cutter
	Centres       float64 // between the working points, mm
	Turn          float64 // the first end's q of the second end's datum generator, rad
}

// Mirror is the piece of the other hand.
func (p Piece) Mirror() Piece {
	m := p
	m.Turn = -p.Turn
	m.First, m.Second = mirrored(p.First), mirrored(p.Second)
	return m
}

func mirrored(ks []Cutter) []Cutter {
	out := make([]Cutter, len(ks))
	for i, k := range ks {
		out[i] = k.mirror()
	}
	return out
}

func (m Main) mirror() Cutter {
	m.Offset, m.Turn = -m.Offset, -m.Turn
	return m
}

func (p Plate) mirror() Cutter {
	p.Turn = -p.Turn
	return p
}

// Cut is a piece worked out.
type Cut struct {
	Piece Piece
	Ends  [2]*Cope
}

// Deduction is what an end takes off the length between the working points, mm:
// to its longest point and to its shortest.
type Deduction struct{ Ear, Throat float64 }

// Solve works out both ends. Errors name the end; beside those of New there is
// one for cuts that run into each other.
func (p Piece) Solve() (*Cut, error) {
	if !num.Finite(p.Centres, p.Turn) || p.Centres <= 0 {
		return nil, fmt.Errorf("length between centres is %s mm, wanted more than 0", short(p.Centres))
	}
	c := &Cut{Piece: p}
	for i, ks := range [2][]Cutter{p.First, p.Second} {
		end, err := New(p.Tube, ks...)
		if err != nil {
			return nil, fmt.Errorf("%s end: %w", [2]string{"first", "second"}[i], err)
		}
		c.Ends[i] = end
	}
	for k := OD; k <= DropOn; k++ {
		if q, l := c.shortest(k); l <= num.Coincident {
			return nil, fmt.Errorf("%s cuts of both ends run into each other at %s degrees: %s mm between centres is %s mm too little there; move the pivots apart or take steeper angles",
				k, degrees(q), short(p.Centres), short(-l))
		}
	}
	return c, nil
}

// shortest is the shortest generator, the exact one unless the throats alone
// tell that there is enough.
func (c *Cut) shortest(k Kind) (q, l float64) {
	if l := c.Throats(k); l > num.Coincident {
		return c.Ends[0].curves[k].throat.Q, l
	}
	l = math.Inf(1)
	take := func(x float64) {
		if w := c.Wall(k, x); w < l {
			q, l = turned(x), w
		}
	}
	for i := range looks {
		take(float64(i) * fullTurn / looks)
	}
	take(c.Ends[0].curves[k].throat.Q)
	take(c.Piece.Turn - c.Ends[1].curves[k].throat.Q)
	return q, l
}

// SecondQ is the second end's name for the generator q of the first.
func (c *Cut) SecondQ(q float64) float64 { return turned(c.Piece.Turn - q) }

// Deduction is what end 0 or 1 takes off by the line of the given kind.
func (c *Cut) Deduction(end int, k Kind) Deduction {
	u := c.Ends[end].curves[k]
	return Deduction{Ear: u.ear.S, Throat: u.throat.S}
}

// Blank is the length to saw square before coping, by the longest points of both
// ends, mm. A cut made through the wall with the main's own curve needs it by
// OD; a tube cut square through its wall by DropOn.
func (c *Cut) Blank(k Kind) float64 {
	return c.Piece.Centres - c.Ends[0].curves[k].ear.S - c.Ends[1].curves[k].ear.S
}

// Throats is the length between the throats, mm: what is left to measure on the
// finished tube.
func (c *Cut) Throats(k Kind) float64 {
	return c.Piece.Centres - c.Ends[0].curves[k].throat.S - c.Ends[1].curves[k].throat.S
}

// Wall is the length of the tube along the generator q of the first end, mm.
func (c *Cut) Wall(k Kind, q float64) float64 {
	return c.Piece.Centres - c.Ends[0].curves[k].At(q) - c.Ends[1].curves[k].At(c.Piece.Turn-q)
}

// Clocking is how far round the tube's outside the second end's datum lies from
// the first's, mm, with the sign of Turn: angle/360 · π · OD.
func (c *Cut) Clocking() float64 { return c.Piece.Turn * c.Piece.Tube.OD / 2 }

// Volume is the metal of the finished tube, mm³.
func (c *Cut) Volume() (float64, error) {
	sum := 0.0
	for _, e := range c.Ends {
		v, err := e.Volume(c.Piece.Centres / 2)
		if err != nil {
			return 0, err
		}
		sum += v
	}
	return sum, nil
}

// EdgeGap is the distance along the tube between the straight edges of two
// templates of this piece's ends, mm: the datum of one to the datum of the
// other.
func (c *Cut) EdgeGap(first, second *Template) float64 {
	return c.Piece.Centres - first.EdgeAt - second.EdgeAt
}

// Strip is the whole tube unwrapped on one sheet, seen from outside, the first
// end up: for short tubes. y = 0 is the second end's working point, y = Centres
// the first's; x runs as on the first end's template.
type Strip struct {
	Width, Seam float64
	Middle      float64 // y of a line square to the axis that must meet itself
	First       []Mark  // quarter lines of the first end
	Second      []Mark  // quarter lines of the second end, Q as the second end counts
	cut         *Cut
}

// BestSeam is the quarter of the first end where a seam along the whole tube
// does least harm to both ends.
func (c *Cut) BestSeam() float64 {
	return bestQuarter(func(q float64) float64 {
		return max(c.Ends[0].harm(q), c.Ends[1].harm(c.Piece.Turn-q))
	})
}

// Strip lays out the whole tube on paper of the given thickness (mm) with its
// seam at the first end's q = seam.
func (c *Cut) Strip(thickness, seam float64) (*Strip, error) {
	if !num.Finite(thickness, seam) || thickness < 0 {
		return nil, fmt.Errorf("paper has thickness %s mm, wanted 0 or more", short(thickness))
	}
	s := &Strip{Width: math.Pi * (c.Piece.Tube.OD + thickness), Seam: turned(seam), cut: c}
	low, high := c.Ends[1].curves[OD].throat.S, c.Piece.Centres-c.Ends[0].curves[OD].throat.S
	s.Middle = (low + high) / 2
	s.First = quarterMarks(s.Seam, s.Width, func(q float64) float64 { return q })
	s.Second = quarterMarks(s.Seam, s.Width, func(q float64) float64 { return c.Piece.Turn - q })
	return s, nil
}

// Arcs are the lines of the first and of the second end, both from x = 0 to
// x = Width, within num.ArcFit.
func (s *Strip) Arcs(k Kind) (first, second Fit) {
	w, c := s.Width/fullTurn, s.cut
	first = c.Ends[0].curves[k].arcs(sheet{x0: -s.Seam * w, kx: w, y0: c.Piece.Centres, ky: -1, width: s.Width}, s.Seam)
	// x = w(q - seam) with q = Turn - q2, so a turn of q2 from Turn - seam on
	// runs from x = 0 to the left; shifted by one width, from Width to 0.
	start := turned(c.Piece.Turn - s.Seam)
	second = c.Ends[1].curves[k].arcs(sheet{x0: (start + fullTurn) * w, kx: -w, y0: 0, ky: 1, width: s.Width}, start)
	n := len(second.Segs)
	for i := range (n + 1) / 2 {
		j := n - 1 - i
		second.Segs[i], second.Segs[j] = second.Segs[j].Reverse(), second.Segs[i].Reverse()
	}
	return first, second
}

// Outline is the tube's wall unwrapped, counter-clockwise. The error is for ends
// that overlap when drawn as arcs, or that leave no seam.
func (s *Strip) Outline(k Kind) (geom.Loop, error) {
	first, second := s.Arcs(k)
	l := append(geom.Loop{}, second.Segs...)
	a, b := second.Segs[len(second.Segs)-1].B, first.Segs[len(first.Segs)-1].B
	l = append(l, geom.Line(a, b))
	for i := len(first.Segs) - 1; i >= 0; i-- {
		l = append(l, first.Segs[i].Reverse())
	}
	l = append(l, geom.Line(first.Segs[0].A, second.Segs[0].A))
	if err := l.Validate(); err != nil {
		return nil, err
	}
	return l, nil
}
