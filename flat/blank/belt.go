package blank

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
)

// hollowBelt is the outline that runs from boss to boss in the order given,
// either way round: with hollow bosses on its outer side, and hollow from boss to
// boss where a waist is asked for.
func (m *maker) hollowBelt(bosses []describe.Boss, circles []geom.Circle, pos diag.Pos) (geom.Loop, bool) {
	n := len(bosses)
	discs := make([]geom.BeltDisc, n)
	for i := range bosses {
		b := &bosses[i]
		waist, ok := m.measure(b.Waist, "the waist", b.Pos)
		if !ok {
			return nil, false
		}
		discs[i] = geom.BeltDisc{Circle: circles[i], Outside: b.Hollow.Yes, Waist: waist}
	}
	back := slices.Clone(discs)
	slices.Reverse(back)
	for i := range back { // a waist leads on to the next boss: now the one before
		back[i].Waist = discs[(2*n-2-i)%n].Waist
	}
	first, second := discs, back
	if clockwise(circles) {
		first, second = back, discs
	}
	l, err := geom.Belt(first)
	if err == nil {
		return l, true
	}
	if l, other := geom.Belt(second); other == nil {
		return l, true
	}
	m.noBelt(bosses, clockwise(circles), pos, err)
	return nil, false
}

// clockwise reports whether the centres run clockwise.
func clockwise(cs []geom.Circle) bool {
	twice := 0.0
	for i := range cs {
		a, b := cs[i].C.Sub(cs[0].C), cs[(i+1)%len(cs)].C.Sub(cs[0].C)
		twice += a.Cross(b)
	}
	return twice < 0
}

// noBelt says between which bosses the belt cannot run. The kernel counts them
// in the order that it was given.
func (m *maker) noBelt(bosses []describe.Boss, backward bool, pos diag.Pos, err error) {
	n := len(bosses)
	reason := strings.TrimPrefix(err.Error(), "belt: ")
	var i, j int
	if k, _ := fmt.Sscanf(reason, "disc %d to %d:", &i, &j); k == 2 && i >= 1 && i <= n && j >= 1 && j <= n {
		if backward {
			i, j = n+1-j, n+1-i
		}
		_, reason, _ = strings.Cut(reason, ": ")
		m.problems.AddHint(bosses[i-1].Pos, "look at the order of the bosses too: the belt runs from each to the next",
			"no belt runs from boss %d to boss %d: %s", i, j, reason)
		return
	}
	var bad *geom.InvalidError
	if errors.As(err, &bad) {
		reason = "the belt touches or crosses itself at " + m.whereText(bad.At)
	}
	m.problems.AddHint(pos, "look at the order of the bosses: the belt runs from each to the next", "the bosses make no outline: %s", reason)
}
