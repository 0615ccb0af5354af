package job

import (
	"fmt"
	"math"

	"blankwright/flat/check"
	"blankwright/flat/cope"
	"blankwright/flat/diag"
	"blankwright/flat/link"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

var clashRule = &Rule{check.Check{
	ID: "job-clash", Severity: diag.Error,
	Title: "two tubes at one pivot run into each other",
	Meaning: "Tubes that come to one sleeve from near each other meet before they reach it. Cut for the sleeve alone, the second " +
		"does not go in. One of them is welded first, the other is cut to sit on both.",
	Formula: "overlap of the tubes within 3 mm of their ends <= within (0.5 mm)",
	Source:  "geometry of round tubes; common practice: half a millimetre",
	Limits:  "Of tubes whose ends meet the pivot's sleeve. Looked at every half degree round the tube; welds are not looked at.",
}, func(c *run) {
	for i := range c.j.Pivots {
		pivot := c.j.Pivots[i].Name
		ends := c.j.endsAt(pivot)
		for k := range ends {
			for l := range k {
				a, b := &ends[l], &ends[k]
				within := c.j.Desc.Within.MM
				deep := max(b.reachesInto(a, within), a.reachesInto(b, within))
				if num.AtMost(deep, within) {
					continue
				}
				c.report(diag.Finding{Pos: b.tube.Desc.Pos, Features: []string{a.tube.Name, b.tube.Name, pivot}, Got: deep, Want: within, Unit: "mm",
					Message: fmt.Sprintf("tubes %s and %s run into each other at pivot %s, by %s", a.tube.Name, b.tube.Name, pivot, c.j.text(deep)),
					Fix:     b.sitOn(a, c.j.Desc.Units)}, diag.Error)
			}
		}
	}
}}

// tubeEnd is the end of a tube at a pivot, as its file cuts it, in space.
type tubeEnd struct {
	tube  *Tube
	end   int
	cope  *cope.Cope
	frame cope.Frame // of the end, as its file counts its lines
}

// endsAt are the ends at a pivot that meet its sleeve.
func (j *Job) endsAt(pivot string) []tubeEnd {
	var out []tubeEnd
	p := j.described(pivot)
	for i := range j.Tubes {
		t := &j.Tubes[i]
		for end := range 2 {
			have, _, ok := t.mains(end)
			if !ok || t.pivotOf(end) != pivot {
				continue
			}
			into := j.at(t.pivotOf(1 - end)).Sub(j.at(pivot))
			_, f, err := link.MainAt(j.at(pivot), into, link.Sleeve{OD: p.Sleeve.Outside.MM, Axis: vec(p.Axis)})
			if err != nil {
				continue // told when the tube was worked out
			}
			f = f.Turned(t.heelApart(end) - have.Turn)
			out = append(out, tubeEnd{t, end, t.Hands[0].Cut.Ends[end], f})
		}
	}
	return out
}

// heelApart is how far (rad) the heel of an end as the file has it lies from that
// of the pivots: nothing, or half a turn where the sleeve is square, which has two.
func (t *Tube) heelApart(end int) float64 {
	a, wa, _ := t.mains(0)
	b, wb, ok := t.mains(1)
	_, want, _ := t.mains(end)
	square := t.nearlySquare(want)
	if !ok || !square || end == 0 && t.nearlySquare(wb) {
		return 0
	}
	p := t.Hands[0].Cut.Piece
	if off := math.Remainder(heels(&p, a, b)-heels(t.Wanted, wa, wb), 2*math.Pi); math.Abs(off) > math.Pi/2 {
		return math.Pi
	}
	return 0
}

// clashLooks is how many lines along a tube are looked at: one every half degree.
const clashLooks = 720

// pokes are how far behind its end (mm) a line is looked at: close to what it sits
// on, and beyond the bead of a weld.
var pokes = [...]float64{0.25, 1, 3}

// reachesInto is how far (mm) one tube reaches into another near its end; 0 where
// it would not with its radius less by within, so that a tube which sits on the
// other is none that reaches into it.
func (e *tubeEnd) reachesInto(o *tubeEnd, within float64) float64 {
	deep := 0.0
	own, other := max(0, e.cope.Tube.Outer()-within), o.cope.Tube.Outer()
	for i := range clashLooks {
		q := 2 * math.Pi * float64(i) / clashLooks
		s := e.cope.AtRadius(q, own)
		for _, behind := range pokes {
			p := o.frame.From(e.frame.To(cope.Point(q, own, s+behind)))
			r := math.Hypot(p.X, p.Y)
			if r < other && -p.Z > o.cope.AtRadius(math.Atan2(p.Y, p.X), r) {
				deep = max(deep, other-r+within)
			}
		}
	}
	return deep
}

// sitOn says how the file cuts this end for another tube as well.
func (e *tubeEnd) sitOn(o *tubeEnd, sys unit.System) string {
	od := o.cope.Tube.OD
	m, err := cope.MainAlong(od, cope.Vec{}, e.frame.DirFrom(o.frame.Z))
	if err != nil {
		return "spread the pivots, or give the tubes sleeves of their own"
	}
	turn := math.Remainder(m.Turn, 2*math.Pi)
	if e.tube.mirrored() {
		turn = -turn
	}
	beside := ""
	if e.cope.Tube.OD > od+num.Coincident {
		beside = ", beside: yes"
	}
	return fmt.Sprintf("weld %s first, and make %s of %s a list: what it meets now, and {name: %s, main: %s, angle: %s, turn: %s%s}",
		o.tube.Name, endWords[e.end], e.tube.Desc.File.Text, o.tube.Name, unit.Typed(od, sys), deg(m.Angle), deg(turn), beside)
}
