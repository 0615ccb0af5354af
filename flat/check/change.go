package check

import (
	"errors"
	"fmt"
	"slices"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/profiles"
)

// Kind is a kind of change to a part.
type Kind string

// The kinds of changes.
const (
	Move      Kind = "move"        // Hole goes by By
	Resize    Kind = "resize"      // Hole gets the diameter To; a slot the width To, its ends as far apart as before
	DrillIt   Kind = "drill"       // Hole is only marked on the table, and drilled
	LeaveOut  Kind = "leave out"   // Hole goes
	Reach     Kind = "reach"       // plate is added where it does not reach To from Hole, or from within Half of its middle along a slot
	Part      Kind = "part"        // Hole goes by By, and Other by as much the other way
	Spread    Kind = "spread"      // the holes of the pattern Hole go To times as far from their middle
	Redraw    Kind = "redraw"      // the outline becomes Outline
	Recut     Kind = "recut"       // the edge of the cutout Hole becomes Outline
	Loosen    Kind = "loosen"      // the tab slot Hole gets the allowance To
	Widen     Kind = "widen"       // the saddle Hole gets the gap To
	DropWaive Kind = "drop waiver" // the waiver numbered Waiver goes
	UseRules  Kind = "use rules"   // rules: becomes Word
	Thicken   Kind = "thicken"     // the plate becomes To thick, and no weld has a leg under Leg
	Rebolt    Kind = "rebolt"      // the holes of the set Hole take the bolt Word
	WeldLeg   Kind = "weld leg"    // the weld Hole, or every weld, gets the leg To; with the Word "both sides" on both sides
	WeldBoth  Kind = "weld both"   // the weld Hole runs on both sides
	Rewrite   Kind = "rewrite"     // Key of the description, of entry Item and of its part Sub, becomes To or Word, and the blank is made again
	WeldWhole Kind = "weld whole"  // the weld Hole runs along its whole edge
)

// Change is one small change to a part, in a form that a program can apply.
// Lengths are mm, in the coordinates of the blank it was found on.
type Change struct {
	Kind    Kind       `json:"kind"`
	Hole    string     `json:"hole,omitempty"`
	Other   string     `json:"other,omitempty"`
	By      diag.Place `json:"by,omitzero"`
	To      float64    `json:"to,omitempty"`
	Half    float64    `json:"half,omitempty"`
	Leg     float64    `json:"leg,omitempty"`
	Outline string     `json:"outline,omitempty"` // in the text form of geom.Loop
	Waiver  int        `json:"waiver,omitempty"`  // counted from 0 in the order of the file
	Word    string     `json:"word,omitempty"`
	Key     string     `json:"key,omitempty"`
	Item    int        `json:"item,omitempty"`
	Sub     int        `json:"sub,omitempty"`
	Text    string     `json:"text"` // the same for people, in the file's units
}

var (
	errApart    = errors.New("the plate added would not touch the outline")
	errCutApart = errors.New("the wider saddle would cut the plate apart")
)

// Apply gives a copy of the blank with the change made; b stays as it is. It is
// an error where the change does not fit the blank.
func (ch Change) Apply(b *blank.Blank) (*blank.Blank, error) {
	t := *b
	switch ch.Kind {
	case Redraw:
		l, err := geom.ParseLoop(ch.Outline)
		if err != nil {
			return nil, err
		}
		redraw(&t, l)
		return &t, l.Validate()
	case DropWaive, UseRules:
		return &t, ch.describe(&t)
	case Rewrite:
		return ch.rewrite(b)
	case Part:
		return ch.part(b)
	case Spread:
		return &t, ch.spread(&t)
	case Thicken:
		if !(ch.To > 0) {
			return nil, fmt.Errorf("a plate cannot be %g mm thick", ch.To)
		}
		t.Thickness = ch.To
		t.Welds = slices.Clone(t.Welds)
		for i := range t.Welds {
			if w := &t.Welds[i]; w.Leg < ch.Leg {
				*w = w.WithLeg(ch.Leg)
			}
		}
		return &t, nil
	case Rebolt:
		return &t, ch.rebolt(&t)
	case WeldLeg, WeldBoth, WeldWhole:
		return &t, ch.weld(&t)
	case Widen:
		return &t, ch.widen(&t)
	}
	if i := slices.IndexFunc(b.Holes, func(h blank.Hole) bool { return h.Name == ch.Hole }); i >= 0 {
		return &t, ch.hole(&t, i)
	}
	if i := slices.IndexFunc(b.Cutouts, func(c blank.Cutout) bool { return c.Name == ch.Hole }); i >= 0 {
		return &t, ch.cutout(&t, i)
	}
	return nil, fmt.Errorf("no hole is named %q", ch.Hole)
}

// redraw gives a blank another outline, of whose edges nothing is known.
func redraw(t *blank.Blank, l geom.Loop) {
	t.Outline = l
	t.Edges = slices.Clone(t.Edges)
	for i := range t.Edges {
		t.Edges[i].Segs = nil
	}
}

// hole applies a change to one hole.
func (ch Change) hole(t *blank.Blank, i int) error {
	t.Holes = slices.Clone(t.Holes)
	h := &t.Holes[i]
	switch ch.Kind {
	case Move:
		h.Centre = h.Centre.Add(geom.Point{X: ch.By.X, Y: ch.By.Y})
	case Resize:
		resize(h, ch.To)
	case DrillIt:
		h.Method, h.CutDia = blank.Drill, 0
	case LeaveOut:
		t.Holes = slices.Delete(t.Holes, i, i+1)
	case Reach:
		l, err := reach(t.Outline, newOpening(h, i), ch.Half, ch.To)
		if err != nil {
			return err
		}
		redraw(t, l)
	default:
		return fmt.Errorf("unknown kind of change %q to a hole", ch.Kind)
	}
	return nil
}

// cutout applies a change to one cutout.
func (ch Change) cutout(t *blank.Blank, i int) error {
	t.Cutouts = slices.Clone(t.Cutouts)
	c := &t.Cutouts[i]
	switch {
	case ch.Kind == Move:
		*c = c.Moved(geom.Point{X: ch.By.X, Y: ch.By.Y})
	case ch.Kind == LeaveOut:
		t.Cutouts = slices.Delete(t.Cutouts, i, i+1)
	case ch.Kind == Recut:
		l, err := geom.ParseLoop(ch.Outline)
		if err != nil {
			return err
		}
		c.Loop = l
		return l.Validate()
	case ch.Kind == Loosen && c.Slot != nil:
		*c = c.Loosened(ch.To)
	default:
		return fmt.Errorf("unknown kind of change %q to a cutout", ch.Kind)
	}
	return nil
}

// widen takes more off the edge of a saddle.
func (ch Change) widen(t *blank.Blank) error {
	i := slices.IndexFunc(t.Edges, func(e blank.Edge) bool { return e.Name == ch.Hole && e.Saddle != nil })
	if i < 0 {
		return fmt.Errorf("no saddle is named %q", ch.Hole)
	}
	s := *t.Edges[i].Saddle
	s.Gap, s.Circle.R = ch.To, s.Tube/2+ch.To
	left, err := geom.Difference([]geom.Region{{Outer: t.Outline}}, []geom.Region{{Outer: geom.CircleLoop(s.Circle)}})
	if err != nil {
		return err
	}
	if len(left) != 1 || len(left[0].Holes) > 0 {
		return errCutApart
	}
	redraw(t, left[0].Outer)
	t.Edges[i].Saddle = &s
	return nil
}

// describe applies a change that is to the description alone.
func (ch Change) describe(t *blank.Blank) error {
	p := describe.Part{}
	if t.Part != nil {
		p = *t.Part
	}
	t.Part = &p
	if ch.Kind == UseRules {
		p.Rules.Text = ch.Word
		return nil
	}
	if ch.Waiver < 0 || ch.Waiver >= len(p.Waivers) {
		return fmt.Errorf("no waiver numbered %d", ch.Waiver)
	}
	p.Waivers = slices.Delete(slices.Clone(p.Waivers), ch.Waiver, ch.Waiver+1)
	return nil
}

// spread applies a change to a whole pattern.
func (ch Change) spread(t *blank.Blank) error {
	t.Holes = slices.Clone(t.Holes)
	mid := middle(t.Holes, ch.Hole)
	found := false
	for i := range t.Holes {
		if h := &t.Holes[i]; h.Set == ch.Hole {
			h.Centre = mid.Add(h.Centre.Sub(mid).Mul(ch.To))
			found = true
		}
	}
	if !found {
		return fmt.Errorf("no pattern is named %q", ch.Hole)
	}
	return nil
}

// middle is the mean place of the holes of a pattern.
func middle(holes []blank.Hole, set string) geom.Point {
	var sum geom.Point
	n := 0
	for i := range holes {
		if holes[i].Set == set {
			sum = sum.Add(holes[i].Centre)
			n++
		}
	}
	if n == 0 {
		return sum
	}
	return sum.Mul(1 / float64(n))
}

// resize changes what is cut together with what it becomes, and a slot's length
// together with its width.
func resize(h *blank.Hole, to float64) {
	by := to - h.Dia
	h.Dia = to
	if h.CutDia > 0 {
		h.CutDia += by
	}
	if h.Length > 0 {
		h.Length += by
	}
}

// rebolt applies other bolts to the holes of a set.
func (ch Change) rebolt(t *blank.Blank) error {
	bolt, err := profiles.FindBolt(ch.Word)
	if err != nil {
		return err
	}
	var fit, standard string
	if t.Part != nil {
		for i := range t.Part.Holes {
			if s := &t.Part.Holes[i]; s.Name.Text == ch.Hole {
				fit, standard = s.Fit.Text, s.Standard.Text
			}
		}
	}
	k, err := profiles.ClearanceFor(bolt, standard, fit)
	if err != nil {
		return err
	}
	t.Holes = slices.Clone(t.Holes)
	found := false
	for i := range t.Holes {
		if h := &t.Holes[i]; h.Bolt != nil && (h.Set == ch.Hole || h.Name == ch.Hole) {
			size := h.Bolt.D != bolt.D
			h.Bolt, found = &bolt, true
			if size {
				resize(h, k.Dia)
			}
		}
	}
	if !found {
		return fmt.Errorf("no bolt holes are named %q", ch.Hole)
	}
	return nil
}

// bothSides is the word of a change of kind WeldLeg that also welds the other side.
const bothSides = "both sides"

// weld applies a change to one weld, or to all of them.
func (ch Change) weld(t *blank.Blank) error {
	t.Welds = slices.Clone(t.Welds)
	if ch.Hole == "" && ch.Kind == WeldLeg {
		for i := range t.Welds {
			one := ch
			one.Hole = t.Welds[i].Name
			if err := one.weld(t); err != nil {
				return err
			}
		}
		return nil
	}
	for i := range t.Welds {
		w := &t.Welds[i]
		switch {
		case w.Name != ch.Hole:
			continue
		case ch.Kind == WeldLeg && ch.To > 0:
			*w = w.WithLeg(ch.To)
			if ch.Word == bothSides {
				w.Sides = 2
			}
		case ch.Kind == WeldBoth:
			w.Sides = 2
		case ch.Kind == WeldWhole:
			*w = w.Whole()
		default:
			return fmt.Errorf("a weld cannot have the leg %g mm", ch.To)
		}
		return nil
	}
	return fmt.Errorf("no weld is named %q", ch.Hole)
}

// part moves two holes away from each other.
func (ch Change) part(b *blank.Blank) (*blank.Blank, error) {
	one := Change{Kind: Move, Hole: ch.Hole, By: ch.By}
	two := Change{Kind: Move, Hole: ch.Other, By: diag.Place{X: -ch.By.X, Y: -ch.By.Y}}
	t, err := one.Apply(b)
	if err != nil {
		return nil, err
	}
	return two.Apply(t)
}
