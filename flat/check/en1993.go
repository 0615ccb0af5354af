package check

import (
	"blankwright/flat/num"
	"blankwright/profiles"
)

// en1993 is EN 1993-1-8, 3.5, Table 3.3. Its distances are multiples of d0, the
// diameter of the hole and not of the bolt.
var en1993 = ruleSet{
	word:      "en 1993-1-8",
	edge:      enEdge,
	edgeWords: enEdgeWords,
	spacing:   enSpacing,
}

// enEdge: which of e1 and e2 an edge is depends on the load; both ask 1.2 d0. A
// slot's e3 and e4 are measured from its axis and from the centres of its ends.
func enEdge(_ *Context, o *opening) edgeAsk {
	s := profiles.EN1993Spacing()
	k := max(s.E1, s.E2)
	if o.half > 0 {
		k = max(s.E3, s.E4)
	}
	return edgeAsk{want: k * o.hole.Dia, half: o.half, source: [2]profiles.Source{s.Source}}
}

func enEdgeWords(c *Context, o *opening) string {
	k := num.Short(o.edge.want/o.hole.Dia, 2)
	if o.half > 0 {
		return k + " d0 from the slot's axis, d0 " + c.len(o.hole.Dia)
	}
	return k + " d0, d0 " + c.len(o.hole.Dia)
}

// enSpacing asks p2 everywhere: along the load p1 would do with 2.2 d0, but the
// direction of the load is not known here.
func enSpacing(a, b *opening) spacingAsk {
	s := profiles.EN1993Spacing()
	d0 := max(a.hole.Dia, b.hole.Dia)
	return spacingAsk{
		centres: s.P2 * d0, axes: true,
		basis: "d0", of: d0, factor: [2]float64{s.P2}, source: s.Source,
		why: num.Short(s.P1, 2) + " d0 would do along the load, whose direction is not known here",
	}
}
