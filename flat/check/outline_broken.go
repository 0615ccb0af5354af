package check

import (
	"errors"
	"slices"
	"strings"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var outlineBroken = &Check{
	ID:       "outline-broken",
	Severity: diag.Error,
	Firm:     true,
	Title:    "the outline does not close, or meets itself",
	Meaning: "The outer edge has to be one closed line that ends where it began, with no edge of no length, " +
		"no edge that runs back over the one before, and no two edges that touch or cross. Cutting tables " +
		"join edges end to end: they refuse a gap, and where edges cross they cut off what should stay. " +
		"Nothing is measured from a broken outline, so the rules on edges wait until it is mended.",
	Formula: "ends of following edges no farther apart than " + coincident + "; edges that do not follow each other " +
		"farther apart than " + coincident + "; enclosed area above nothing, counter-clockwise",
	Source: "common practice: what a cutting table's drawing reader needs",
	Limits: "Edges that follow each other may close up to a sharp point; whether such a point can be cut is " +
		"not looked at here.",
	Run: runOutlineBroken,
}

var coincident = num.Short(num.Coincident, 7) + " mm"

// outlineFault is what is wrong with an outline, and where.
type outlineFault struct {
	rule, reason string
	at           geom.Point
}

// validOutline looks at the outline as the rules of geom ask, and at the way
// it runs.
func validOutline(l geom.Loop) *outlineFault {
	if err := l.Validate(); err != nil {
		var e *geom.InvalidError
		if errors.As(err, &e) {
			return &outlineFault{e.Rule, e.Reason, e.At}
		}
		return &outlineFault{reason: err.Error()}
	}
	if l.Area() <= 0 {
		return &outlineFault{geom.RuleTurn, "the outline runs clockwise, wanted counter-clockwise", l[0].A}
	}
	return nil
}

func runOutlineBroken(c *Context) {
	f := c.invalid
	if f == nil {
		return
	}
	var changes []Change
	if l, how, ok := repair(c.Blank.Outline); ok {
		changes = []Change{{Kind: Redraw, Outline: l.String(), Text: how}}
	}
	finding := diag.Finding{
		Pos: c.part.Outline.Pos, Where: at(f.at),
		Message: "the outline is broken at x " + c.len(f.at.X) + ", y " + c.len(f.at.Y) + ": " + f.reason,
	}
	if changes == nil {
		finding.Fix = "no small change mends it: draw the outline again from that place on"
	}
	c.Report(finding, changes...)
}

const (
	// mostRepairs and mostRepaired bound the work on one broken outline: an
	// outline with more faults, or longer, is better drawn again.
	mostRepairs  = 40
	mostRepaired = 2000
)

// repair mends an outline one fault at a time by the smallest change for each,
// and tells what it did. ok is false where that leads to no valid outline.
func repair(l geom.Loop) (out geom.Loop, how string, ok bool) {
	if len(l) > mostRepaired {
		return nil, "", false
	}
	out = slices.Clone(l)
	var did []string
	for range mostRepairs {
		f := validOutline(out)
		if f == nil {
			return out, strings.Join(did, ", then "), true
		}
		var step string
		if out, step = repairOne(out, f); step == "" {
			return nil, "", false
		}
		if !slices.Contains(did, step) {
			did = append(did, step)
		}
	}
	return nil, "", false
}

// repairOne mends one fault; step is "" where it knows no way.
func repairOne(l geom.Loop, f *outlineFault) (out geom.Loop, step string) {
	switch f.rule {
	case geom.RuleClosed:
		return joinEnds(l)
	case geom.RuleLength:
		return dropNothings(l)
	case geom.RuleSpike:
		return cutSpike(l, f.at)
	case geom.RuleSimple:
		return uncross(l)
	case geom.RuleTurn:
		return l.Reverse(), "run the outline the other way round"
	}
	return nil, ""
}

// joinEnds lets every edge start where the one before it ends.
func joinEnds(l geom.Loop) (geom.Loop, string) {
	if len(l) < 2 {
		return nil, ""
	}
	for i := range l {
		if next := &l[(i+1)%len(l)]; next.A != l[i].B {
			*next = geom.BulgeSeg(l[i].B, next.B, next.Bulge)
		}
	}
	return l, "join the ends that lie apart"
}

// dropNothings takes out the edges without length.
func dropNothings(l geom.Loop) (geom.Loop, string) {
	kept := slices.DeleteFunc(l, func(s geom.Seg) bool { return s.A.Dist(s.B) <= num.Coincident })
	if len(kept) < 2 {
		return nil, ""
	}
	kept, _ = joinEnds(kept)
	return kept, "leave out the edge without length"
}

// cutSpike takes out the corner nearest to a place, so that the edge before it
// runs straight to where the edge after it ended.
func cutSpike(l geom.Loop, where geom.Point) (geom.Loop, string) {
	if len(l) < 4 {
		return nil, ""
	}
	i := 0
	for k := range l {
		if l[k].B.Dist(where) < l[i].B.Dist(where) {
			i = k
		}
	}
	next := (i + 1) % len(l)
	if l[i].IsArc() || l[next].IsArc() {
		return nil, ""
	}
	l[i] = geom.Line(l[i].A, l[next].B)
	return slices.Delete(l, next, next+1), "leave out the corner from which the outline runs back over itself"
}

// uncross takes the first two straight edges that cross and runs all between
// them the other way round. The outline gets shorter each time, so that this
// ends (J. van Leeuwen and A. A. Schoone, Untangling a traveling salesman tour
// in the plane, 1980).
func uncross(l geom.Loop) (geom.Loop, string) {
	n := len(l)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 || l[i].IsArc() || l[j].IsArc() {
				continue
			}
			if geom.SegSeg(l[i], l[j]).D > num.Coincident {
				continue
			}
			out := slices.Clone(l[:i])
			out = append(out, geom.Line(l[i].A, l[j].A))
			for k := j - 1; k > i; k-- {
				out = append(out, l[k].Reverse())
			}
			out = append(out, geom.Line(l[i].B, l[j].B))
			return append(out, l[j+1:]...), "take the corners between the edges that cross in the other order"
		}
	}
	return nil, ""
}
