package paper

import (
	"errors"
	"fmt"
	"math"

	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// Options says how sheets are made. The zero value asks for usual paper and the
// file's own units.
type Options struct {
	Unit     unit.System // of dimensions and paper; Unset: the file's, millimetre where it has none
	Page     string      // the paper, as FindPage takes it; "": usual paper of the unit system
	Measured Reading     // of the printer, when the drawing is to make up for it
	Note     string      // a free line for the foot of the sheet
	Cautions []string    // printed after the one that every sheet carries
	Bends    []Bend      // where the part is bent
	Welds    []Weld      // which edges are welded
	Wrap     *Wrap       // of a template that is wrapped round a tube
}

// job is all that is known before a page is chosen.
type job struct {
	b        *blank.Blank
	sys      unit.System
	o        *Options
	bounds   geom.Box
	across   ordinates // figures below the part
	up       ordinates // and on its left
	located  bool      // the figures locate every hole
	rooms    Rect      // round the part on its four sides with all dimensions, mm
	groups   []group
	marks    []mark
	cautions []string
	notes    []string

	entriesFull, entriesBare []entry // kept by entries
}

// mostReach is the largest coordinate taken, mm: no plate and no roll of paper
// is longer than this (common practice).
const mostReach = 50_000

// Compose draws the blank on one page at scale 1:1, with the findings that
// failed, were waived or warn.
//
// The page is the paper asked for, upright or turned, where that takes the part
// with its dimensions, labels and title block; else the smallest usual paper of
// the unit system that does. A part too large for all of them gets a page of its
// own size. It is an error when the blank has no outline, when a coordinate is
// not a number or is out of reach, when the paper asked for is unknown, or when
// the printer's reading makes no sense.
func Compose(b *blank.Blank, findings []diag.Finding, o Options) (*Sheet, error) {
	j, err := newJob(b, findings, &o)
	if err != nil {
		return nil, err
	}
	usual := Pages(j.sys)
	if o.Page == "" {
		return j.onUsual(usual)
	}
	p, err := FindPage(o.Page)
	if err != nil {
		return nil, err
	}
	if s, _ := j.onPaper(p, j.kits()); s != nil {
		return s, nil
	}
	return j.onUsual(usual)
}

func newJob(b *blank.Blank, findings []diag.Finding, o *Options) (*job, error) {
	if err := drawable(b, o); err != nil {
		return nil, err
	}
	j := &job{b: b, o: o, sys: o.Unit, bounds: o.Wrap.covers(bounds(b))}
	if j.sys == unit.Unset && b.Part != nil {
		j.sys = b.Part.Units
	}
	if j.sys == unit.Unset {
		j.sys = unit.Millimetre
	}
	j.cautions, j.notes = cautions(o), j.allNotes()
	j.locate(true)
	j.groups = grouped(b, j.sys)
	j.marks = shown(findings)
	return j, nil
}

// onUsual draws the part on the first of the papers that takes it with every
// label in a clear place, else on the first that takes it at all, else on one of
// its own size.
func (j *job) onUsual(papers []Page) (*Sheet, error) {
	tight := false
	for _, p := range papers {
		s, left := j.onPaper(p, j.kits())
		if s != nil {
			return s, nil
		}
		tight = tight || left > 0
		if left > hopeless {
			break
		}
	}
	for _, p := range papers {
		if !tight {
			break
		}
		if s, _ := j.onPaper(p, j.lastKits()); s != nil {
			return s, nil
		}
	}
	return j.onOwnSize()
}

// bounds is what the part covers: its outline, and any opening that reaches
// beyond it.
func bounds(b *blank.Blank) geom.Box {
	r := b.Outline.Bounds()
	for i := range b.Holes {
		h := &b.Holes[i]
		sh := shapeOf(h, h.Dia)
		for _, p := range sh.ends(h.Centre) {
			r = r.Extend(pt(p.X-sh.r, p.Y-sh.r)).Extend(pt(p.X+sh.r, p.Y+sh.r))
		}
	}
	for i := range b.Cutouts {
		r = r.Union(b.Cutouts[i].Loop.Bounds())
	}
	return r
}

// drawable reports what is wrong with a blank that cannot be drawn.
func drawable(b *blank.Blank, o *Options) error {
	if b == nil || len(b.Outline) == 0 {
		return errors.New("blank has no outline to draw")
	}
	if k := beyond(b.Outline); k >= 0 {
		return fmt.Errorf("outline of %q: segment %d has a coordinate that is not a number or is over %d mm", b.Name, k+1, mostReach)
	}
	for i := range b.Cutouts {
		if k := beyond(b.Cutouts[i].Loop); k >= 0 {
			return fmt.Errorf("cutout %q: segment %d has a coordinate that is not a number or is over %d mm", b.Cutouts[i].Name, k+1, mostReach)
		}
	}
	for i := range b.Holes {
		h := &b.Holes[i]
		if !within(h.Centre.X, h.Centre.Y, h.Dia, h.CutDia, h.Length, h.Angle) {
			return fmt.Errorf("hole %q has a coordinate or size that is not a number or is over %d mm", h.Name, mostReach)
		}
		if h.Dia <= 0 || h.CutDia < 0 || h.Length < 0 {
			return fmt.Errorf("hole %q is %s mm across, wanted more than nothing", h.Name, num.Short(h.Dia, 3))
		}
	}
	for i := range b.Marks {
		if !within(b.Marks[i].At.X, b.Marks[i].At.Y) {
			return fmt.Errorf("mark %q has a coordinate that is not a number or is over %d mm", b.Marks[i].Text, mostReach)
		}
	}
	for i := range o.Bends {
		l := &o.Bends[i].Line
		if !within(l.A.X, l.A.Y, l.B.X, l.B.Y, o.Bends[i].Angle, o.Bends[i].Radius) || num.Zero(l.Length()) {
			return fmt.Errorf("bend line %d of %q has no length, or a coordinate that is not a number or is over %d mm", i+1, b.Name, mostReach)
		}
	}
	for i := range o.Welds {
		if beyond(o.Welds[i].Edge) != nobody {
			return fmt.Errorf("weld %d of %q has a coordinate that is not a number or is over %d mm", i+1, b.Name, mostReach)
		}
	}
	if !o.Wrap.reachable() {
		return fmt.Errorf("template %q has a coordinate that is not a number or is over %d mm", b.Name, mostReach)
	}
	return o.Measured.check()
}

// beyond is the first segment that cannot be drawn, or nobody.
func beyond(l geom.Loop) int {
	for i := range l {
		g := &l[i]
		c := g.Circle()
		if !within(g.A.X, g.A.Y, g.B.X, g.B.Y, g.Bulge, c.C.X, c.C.Y, c.R) {
			return i
		}
	}
	return nobody
}

func within(vs ...float64) bool {
	for _, v := range vs {
		if !(math.Abs(v) <= mostReach) {
			return false
		}
	}
	return true
}
