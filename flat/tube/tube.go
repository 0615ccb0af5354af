// Package tube turns the description of a tube into what a workshop needs of it:
// both cut ends with their wrap templates, the length to saw, what each end
// takes off, settings for a hole saw, a table for marking by hand, and findings.
//
// Make is the way in, Run the rules. Unit: mm, N, MPa; angles in radians. Which
// way turns are counted is told in flat/cope.
package tube

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/cope"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/link"
	"blankwright/flat/num"
	"blankwright/flat/stock"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// Tube is one hand of a tube, worked out.
type Tube struct {
	Desc     *describe.Tube
	Name     string
	Revision string
	Hand     blank.Hand
	Quantity int // of this hand
	Material profiles.Material
	Cut      *cope.Cut
	Line     cope.Kind // that is cut along: the outside line, or that which drops on
	Paper    cope.Paper
	Ends     [2]End
	Section  link.Section
	Mass     float64 // kg
	Plan     *stock.Plan
	PerBar   int // pieces of this tube alone that one bar gives; 0 where no saw is described
	Loads    []Load
}

// End is one end of a tube.
type End struct {
	Word     string         // "first", "second"
	Square   bool           // nothing but a square cut: it needs no template
	Template *cope.Template // nil of a square end
	Saws     []cope.SawSetting
	Two      *cope.TwoCuts // two straight cuts instead; nil where they do not stand for it
	Weld     *link.CopeWeld
	Sleeves  []Sleeve
}

// Sleeve is a sleeve that an end meets, its bore and length given. Its material
// is taken to be the tube's.
type Sleeve struct {
	link.SleeveWall // but for the force
	Name            string
	Pos             diag.Pos
}

// Stress is how a force along the tube, N, loads the sleeve's wall.
func (s *Sleeve) Stress(steel link.Steel, force float64) (link.SleeveStress, error) {
	w := s.SleeveWall
	w.Force = force
	return link.SleeveWallOf(w, steel)
}

// Load is a force along the tube, its factor put in; tension positive, N.
type Load struct {
	Pos      diag.Pos
	Name     string
	Case     string
	Force    float64
	Factor   float64
	Factored bool
	Assumed  []string
}

// degree is a degree in radians.
const degree = math.Pi / 180

// ElasticModulus of structural steel, MPa: AISC 360-22, Symbols and Table 1-1 of
// its manual, 29,000 ksi taken as 200,000 MPa, as the standard does.
const ElasticModulus = 200_000

// Steel is what the tube's material is worth; ok is false where the rules used
// here do not hold for it.
func (t *Tube) Steel() (s link.Steel, ok bool) {
	return link.Steel{E: ElasticModulus, Fy: t.Material.Fy, Fu: t.Material.Fu}, t.Material.Group == profiles.CarbonSteel
}

// Make works out the tubes that a description asks for, one for each hand, the
// one as drawn first. set holds a shop's own rows; nil for the embedded tables.
// The error is diag.Problems.
func Make(d *describe.Tube, set *profiles.Set) ([]*Tube, error) {
	m := &maker{d: d, set: set}
	t := m.tube()
	if err := m.problems.Err(); err != nil {
		return nil, err
	}
	hands := []blank.Hand{blank.AsDrawn}
	each := t.Quantity
	switch d.Hand.Text {
	case "mirrored":
		hands = []blank.Hand{blank.Mirrored}
	case "pair":
		hands = []blank.Hand{blank.AsDrawn, blank.Mirrored}
		if each /= 2; !d.Quantity.Set {
			each = 1
		}
	}
	out := make([]*Tube, 0, len(hands))
	piece := m.piece
	for _, h := range hands {
		u := *t
		u.Hand, u.Quantity = h, each
		p := piece
		if h == blank.Mirrored {
			p = piece.Mirror()
		}
		if err := m.finish(&u, p); err != nil {
			var told diag.Problems
			if errors.As(err, &told) {
				return nil, told
			}
			return nil, diag.Problems{{Pos: d.Pos, Message: m.words(err)}}
		}
		out = append(out, &u)
	}
	return out, nil
}

type maker struct {
	d        *describe.Tube
	set      *profiles.Set
	piece    cope.Piece
	problems diag.Problems
}

// tube is what both hands have in common.
func (m *maker) tube() *Tube {
	d := m.d
	t := &Tube{Desc: d, Name: d.Name.Text, Revision: d.Revision.Text, Quantity: d.Quantity.N, Line: cope.OD}
	if d.Cut.Text == "square" {
		t.Line = cope.DropOn
	}
	mat, err := m.set.FindMaterial(d.Section.Material.Text)
	if err != nil {
		m.problems.Add(d.Section.Material.Pos, "%s", err)
	}
	t.Material = mat
	m.piece.Tube = cope.Tube{OD: d.Section.Outside.MM, Wall: d.Section.Wall.MM}
	t.Section = link.SectionOf(m.piece.Tube)
	t.Paper = cope.PlainPaper()
	if p := d.Paper; p != nil {
		take(&t.Paper.Thickness, p.Thickness)
		take(&t.Paper.Tab, p.Tab)
		take(&t.Paper.Margin, p.Margin)
	}
	m.ends(t)
	m.loads(t)
	return t
}

func take(to *float64, l describe.Length) {
	if l.Set {
		*to = l.MM
	}
}

// ends works out what both ends meet and how far they are apart.
func (m *maker) ends(t *Tube) {
	d := m.d
	m.piece.First, m.piece.Second = cutters(&d.First), cutters(&d.Second)
	m.piece.Turn = d.Turn.Rad
	ears := 0.0
	for i, e := range [2]*describe.TubeEnd{&d.First, &d.Second} {
		c, err := cope.New(m.piece.Tube, [2][]cope.Cutter{m.piece.First, m.piece.Second}[i]...)
		var reach *cope.ReachError
		switch {
		case errors.As(err, &reach):
			m.problems.AddHint(e.Pos, "write beside: yes to have what stands beside it trimmed", "%s end: %s", endWords[i], m.words(err))
			continue
		case err != nil:
			m.problems.Add(e.Pos, "%s end: %s", endWords[i], m.words(err))
			continue
		}
		ears += c.Curve(t.Line).Ear().S
	}
	if len(m.problems) > 0 {
		return
	}
	m.piece.Centres = d.Centres.MM
	if d.Length.Set {
		m.piece.Centres = d.Length.MM + ears
	}
	if _, err := m.piece.Solve(); err != nil {
		pos := d.Centres.Pos
		if d.Length.Set {
			pos = d.Length.Pos
		}
		m.problems.Add(pos, "%s", m.words(err))
	}
}

// words are those of an error, in the units of the file.
func (m *maker) words(err error) string { return unit.Words(err.Error(), m.d.Units) }

var endWords = [2]string{"first", "second"}

// cutters are what an end meets, as cope takes it.
func cutters(e *describe.TubeEnd) []cope.Cutter {
	if e.Square {
		return []cope.Cutter{cope.Plate{Name: "the square cut", Angle: math.Pi / 2}}
	}
	out := make([]cope.Cutter, 0, len(e.Meets))
	for i := range e.Meets {
		m := &e.Meets[i]
		angle := math.Pi / 2
		if m.Angle.Set {
			angle = m.Angle.Rad
		}
		if m.Plate.Yes {
			out = append(out, cope.Plate{Name: m.Name.Text, Angle: angle, Turn: m.Turn.Rad, Station: m.At.MM})
			continue
		}
		out = append(out, cope.Main{Name: m.Name.Text, OD: m.Main.MM, Angle: angle, Offset: m.Offset.MM, Turn: m.Turn.Rad,
			Station: m.At.MM, Length: m.Long.MM, Middle: m.Middle.MM, Partial: m.Beside.Yes})
	}
	return out
}

func (m *maker) loads(t *Tube) {
	for i := range m.d.Loads {
		l := &m.d.Loads[i]
		f := Load{Pos: l.Pos, Name: fmt.Sprintf("load %d", i+1), Case: l.Case.Text, Factor: 1, Force: l.Tension.N - l.Compression.N}
		if l.Factor.Set {
			f.Factor, f.Factored = l.Factor.V, true
		}
		f.Force *= f.Factor
		t.Loads = append(t.Loads, f)
	}
}

// finish works out one hand.
func (m *maker) finish(t *Tube, p cope.Piece) error {
	c, err := p.Solve()
	if err != nil {
		return err
	}
	t.Cut = c
	for i := range t.Ends {
		if err := m.end(t, i); err != nil {
			return err
		}
	}
	v, err := c.Volume()
	if err != nil {
		return err
	}
	t.Mass = v * t.Material.Density * cubicMM
	return m.saw(t)
}

// cubicMM is a mm³ in m³.
const cubicMM = 1.0 / (1000 * 1000 * 1000)

func (m *maker) end(t *Tube, i int) error {
	d := [2]*describe.TubeEnd{&m.d.First, &m.d.Second}[i]
	c := t.Cut.Ends[i]
	e := &t.Ends[i]
	e.Word, e.Square = endWords[i], d.Square
	if !d.Square {
		seam := c.BestSeam()
		if p := m.d.Paper; p != nil && p.Seam.Set {
			seam = p.Seam.Rad
		}
		var err error
		if e.Template, err = c.Template(t.Paper, seam); err != nil {
			return fmt.Errorf("%s end: %w", e.Word, err)
		}
		e.Saws = c.HoleSaw(t.holeSaws(m.d.HoleSaws))
		if two, err := c.TwoStraightCuts(); err == nil {
			e.Two = &two
		}
	}
	if w := m.d.Weld; w != nil {
		weld, err := link.WeldOf(c, link.Weld{Leg: w.Leg.MM, FEXX: electrode(w.Electrode.Text)})
		if err != nil {
			return fmt.Errorf("%s end: %w", e.Word, err)
		}
		e.Weld = &weld
	}
	m.sleeves(t, d, e)
	return nil
}

// leastSawAngle is the angle between hole saw and tube that a jig holds where the
// file does not say, rad: 60 degrees off square (common practice).
const leastSawAngle = 30 * degree

func (t *Tube) holeSaws(h *describe.HoleSaws) cope.Saws {
	s := cope.Saws{LeastAngle: leastSawAngle, Text: t.text}
	if h == nil {
		return s
	}
	for _, l := range h.Diameters {
		s.Diameters = append(s.Diameters, l.MM)
	}
	s.Cup = h.Cup.MM
	if h.Least.Set {
		s.LeastAngle = h.Least.Rad
	}
	return s
}

// ksi in MPa: 1000 lbf/in2.
const ksi = 1000 * 4.4482216152605 / (unit.MM * unit.MM)

// electrode is a filler's strength by its name, MPa: `e70` has 70 ksi.
func electrode(name string) float64 {
	v := 0.0
	fmt.Sscanf(name, "e%g", &v)
	return v * ksi
}

// sleeves are the sleeves of known bore and length that an end meets.
func (m *maker) sleeves(t *Tube, d *describe.TubeEnd, e *End) {
	for i := range d.Meets {
		k := &d.Meets[i]
		if !k.Bore.Set || !k.Long.Set {
			continue
		}
		s := Sleeve{Name: k.Name.Text, Pos: k.Pos}
		s.OD, s.Bore, s.Length, s.Branch, s.Angle = k.Main.MM, k.Bore.MM, k.Long.MM, t.Cut.Piece.Tube, math.Pi/2
		if k.Angle.Set {
			s.Angle = k.Angle.Rad
		}
		if s.Name == "" {
			s.Name = "the sleeve of the " + e.Word + " end"
		}
		e.Sleeves = append(e.Sleeves, s)
	}
}

// saw plans the sawing of this hand.
func (m *maker) saw(t *Tube) error {
	s := m.d.Saw
	if s == nil {
		return nil
	}
	bar, saw := sawing(s)
	length := t.Blank()
	t.PerBar = int(math.Floor((bar.Length-saw.TrimStart+saw.Kerf)/(length+saw.Kerf) + num.LimitSlack))
	plan, err := stock.Best([]stock.Piece{{Name: t.Name, Length: length, Count: t.Quantity}}, []stock.Bar{bar}, saw)
	if err != nil {
		return diag.Problems{{Pos: s.Bar.Pos, Message: m.words(err)}}
	}
	t.Plan = plan
	return nil
}

func sawing(s *describe.Saw) (stock.Bar, stock.Saw) {
	return stock.Bar{Name: "bar", Length: s.Bar.MM}, stock.Saw{Kerf: s.Kerf.MM, TrimStart: s.Trim.MM, Keep: s.Keep.MM}
}

// Blank is the length to saw square before the ends are cut, by the longest
// points of both, mm.
func (t *Tube) Blank() float64 { return t.Cut.Blank(t.Line) }

// FileBase is the name of the tube's files without ending:
// `anti-wrap-link-rev-b-od38.1mm`, with `-mirrored` for the other hand.
func FileBase(t *Tube, sys unit.System) string {
	base := blank.SafeName(t.Name, 60)
	if t.Revision != "" {
		base += "-rev-" + blank.SafeName(t.Revision, 20)
	}
	od := t.Cut.Piece.Tube.OD
	if sys == unit.Inch {
		base += "-od" + num.Short(od/unit.MM, 4) + "in"
	} else {
		base += "-od" + num.Short(od, 3) + "mm"
	}
	if t.Hand == blank.Mirrored {
		base += "-mirrored"
	}
	return base
}

// System is the unit system that people read of the tube.
func (t *Tube) System() unit.System {
	if t.Desc.Units == unit.Unset {
		return unit.Millimetre
	}
	return t.Desc.Units
}
