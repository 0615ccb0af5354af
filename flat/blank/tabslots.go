package blank

import (
	"math"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// relief is what gives a cut room in an inside corner: a round bite.
type relief struct {
	kind   reliefKind
	radius float64
}

type reliefKind int

const (
	noRelief reliefKind = iota
	dogBone             // through the corner, centred on the line that halves it
	notch               // beside the corner, tangent to the side that has to stay straight
)

// reliefKinds by their words.
var reliefKinds = map[string]reliefKind{"": dogBone, "dog-bone": dogBone, "notch": notch, "none": noRelief}

// relief reads what is asked for. most is the largest radius that there is room
// for. Where no radius is asked for it is the kerf, so that the torch still
// follows an arc of half a kerf there, less where there is less room; under half a
// kerf it would be no relief.
func (m *maker) relief(d *describe.Relief, what string, most func(reliefKind) float64) (r relief, ok bool) {
	r.kind, ok = reliefKinds[d.Kind.Text]
	if !ok {
		m.problems.AddHint(d.Kind.Pos, "relief is one of: dog-bone, notch, none", "unknown relief %q", d.Kind.Text)
		return r, false
	}
	if r.kind == noRelief {
		return r, true
	}
	room := most(r.kind)
	if d.Radius.Set {
		if r.radius, ok = m.size(d.Radius, "the radius of the relief", d.Radius.Pos); !ok {
			return r, false
		}
		if r.radius > room && !num.Same(r.radius, room) {
			m.problems.AddHint(d.Radius.Pos, "make it "+m.text(room)+" or less", "a relief of radius %s does not fit %s", m.text(r.radius), what)
			return r, false
		}
		return r, true
	}
	least := m.process.Kerf / 2
	r.radius = min(m.process.Kerf, max(least, room*3/4))
	if room < least {
		m.problems.AddHint(d.Kind.Pos, "make it larger, leave more room beside it, or write relief: none and file the corners out",
			"%s has no room for a relief: radius %s at most, and the kerf of %s needs %s", what, m.text(room), m.process.Name, m.text(least))
		return r, false
	}
	return r, true
}

// tabSlots draws the slots for tabs.
func (m *maker) tabSlots() ([]Cutout, bool) {
	list := m.part.TabSlots
	all := true
	var slots []Cutout
	for i := range list {
		c, ok := m.tabSlot(&list[i], i)
		all = all && ok
		slots = append(slots, c)
	}
	return slots, all
}

func (m *maker) tabSlot(d *describe.TabSlot, i int) (Cutout, bool) {
	c := Cutout{Name: m.nameOf(d.Name, "tab-slot", i), Pos: d.Pos, Purpose: TabSlotOpening}
	at, ok := m.point(d.At, "the centre of the tab slot", d.Pos)
	angle, okAngle := m.angle(d.Angle, "the angle of the tab slot", d.Pos)
	tab, okTab := m.size(d.Tab, "the width of the tab", d.Pos)
	t, okT := m.size(d.Thickness, "the thickness of the tab", d.Pos)
	allow, okAllow := m.set.TabFitFor(m.process).Usual, true
	if d.Allowance.Set {
		allow, okAllow = m.measure(d.Allowance, "the allowance of the tab slot", d.Pos)
	}
	if !ok || !okAngle || !okTab || !okT || !okAllow {
		return c, false
	}
	fit := SlotFit{Centre: at, Angle: angle, Width: t + allow, Length: tab + allow, Tab: tab, Thickness: t}
	if d.Relief.Kind.Pos.Line == 0 {
		d.Relief.Kind.Pos = d.Pos
	}
	if fit.relief, ok = m.relief(&d.Relief, "tab slot "+quoted(c.Name), fit.reliefRoom); !ok {
		return c, false
	}
	c.Slot, c.Loop = &fit, fit.boundary()
	return c, true
}

// reliefRoom is the largest radius that a slot's reliefs have room for.
func (s *SlotFit) reliefRoom(k reliefKind) float64 {
	if k == notch {
		return s.Width / 4 // two of them beside each other on the end
	}
	return min(s.Width, s.Length) / (2 * math.Sqrt2)
}

// slotWithReliefs is a slot 2a long along x and 2b wide about the origin,
// counter-clockwise, with its four corners relieved. Each relief is half a
// circle: a dog-bone's passes through the corner and ends 1.414 radii from it on
// both sides, a notch's ends at the corner and two radii from it on the short
// side.
func slotWithReliefs(a, b float64, r relief) geom.Loop {
	corners := [4]geom.Point{{X: a, Y: -b}, {X: a, Y: b}, {X: -a, Y: b}, {X: -a, Y: -b}}
	along := [4]geom.Point{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}} // into corner i
	l := make(geom.Loop, 0, 8)
	var last, first geom.Point
	for i, c := range corners {
		in, out := along[i], along[(i+1)%4]
		from, to, centre := c, c, c
		switch k := r.radius; {
		case r.kind == dogBone:
			from, to = c.Sub(in.Mul(k*math.Sqrt2)), c.Add(out.Mul(k*math.Sqrt2))
			centre = c.Add(out.Sub(in).Mul(k / math.Sqrt2))
		case r.kind == notch && i%2 == 0: // the short side begins here
			to, centre = c.Add(out.Mul(2*k)), c.Add(out.Mul(k))
		case r.kind == notch:
			from, centre = c.Sub(in.Mul(2*k)), c.Sub(in.Mul(k))
		}
		if i == 0 {
			first = from
		} else if !num.Zero(last.Dist(from)) {
			l = append(l, geom.Line(last, from))
		} else if len(l) > 0 {
			from = last
		}
		if r.kind != noRelief {
			l = append(l, geom.Arc(geom.Circle{C: centre, R: r.radius}, from, to, true))
		}
		last = to
	}
	if num.Zero(last.Dist(first)) {
		end := &l[len(l)-1]
		*end = geom.Arc(end.Circle(), end.A, first, true)
		return l
	}
	return append(l, geom.Line(last, first))
}

// slotNote tells how large a tab slot is and why.
func (m *maker) slotNote(c *Cutout, d *describe.TabSlot) string {
	s := c.Slot
	text := "tab slot " + quoted(c.Name) + ": " + m.text(s.Width) + " by " + m.text(s.Length) + " for a tab " + m.text(s.Tab) +
		" wide of " + m.text(s.Thickness) + " plate, allowance " + m.text(s.Width-s.Thickness)
	if !d.Allowance.Set {
		text += " (" + m.set.TabFitFor(m.process).Source.Text + ")"
	}
	return text
}
