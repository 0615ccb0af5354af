package check

import (
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

// aisc is AISC 360: Table J3.4 by bolt diameter, Table J3.5 for holes larger
// than standard and for slots, J3.3 for spacing.
var aisc = ruleSet{
	word:      "aisc 360",
	edge:      aiscEdge,
	edgeWords: aiscEdgeWords,
	spacing:   aiscSpacing,
}

// shearedEdges reports whether the file says that the plate's edges are sheared
// ones.
func (c *Context) shearedEdges() bool { return c.part.Edges.Text == "sheared" }

func aiscEdge(c *Context, o *opening) edgeAsk {
	b := o.hole.Bolt
	var a edgeAsk
	if c.shearedEdges() {
		a.want, a.source[0] = profiles.MinEdgeAISCSheared(b.D, b.Metric)
	} else {
		a.want, a.source[0] = profiles.MinEdgeAISC(b.D, b.Metric)
	}
	if o.half > 0 {
		a.half, a.source[1] = aiscTravel(o)
		return a
	}
	if aiscOversized(o) {
		var more float64
		more, a.source[1] = profiles.EdgeIncrementAISC(b.D, b.Metric, profiles.OversizedHole)
		a.want += more
	}
	return a
}

// aiscOversized reports whether a round hole is larger than the standard hole
// of Table J3.3. For bolts smaller than that table's the clearance of its first
// row counts: 1/16 in, 2 mm.
func aiscOversized(o *opening) bool {
	b := o.hole.Bolt
	standard := b.D + unit.MM/16
	if b.Metric {
		standard = b.D + 2
	}
	if k, err := profiles.ClearanceFor(*b, profiles.StandardAISC, ""); err == nil {
		standard = k.Dia
	}
	return !num.AtMost(o.hole.Dia, standard)
}

// aiscTravel is how far from the middle of a slot the bolt counts as sitting.
// Table J3.5 adds C2 to the distance from the middle of a slot square to the
// edge and nothing for one along it; both come out when the distance is
// measured from the nearest place within C2 of the middle along the slot, and
// so does every angle between. C2 of a long slot, 0.75 d less half of what the
// slot is shorter than 2.5 d, is half of what the slot is longer than the bolt;
// that also serves slots longer than the table's.
func aiscTravel(o *opening) (float64, profiles.Source) {
	b := o.hole.Bolt
	c2, src := profiles.EdgeIncrementAISC(b.D, b.Metric, profiles.ShortSlotAcross)
	if _, short, _, err := profiles.SlotFor(*b, "short"); err == nil && o.hole.Length < short {
		c2 -= (short - o.hole.Length) / 2
	}
	return max(0, c2, (o.hole.Length-b.D)/2), src
}

func aiscEdgeWords(c *Context, o *opening) string {
	b := o.hole.Bolt
	text := "for " + b.Size + " bolts"
	if c.shearedEdges() {
		text += ", sheared edge"
	}
	switch {
	case o.half > 0:
		text += ", from where the bolt sits up to " + c.len(o.edge.half) + " along the slot from its middle"
	case o.edge.source[1].Text != "":
		more, _ := profiles.EdgeIncrementAISC(b.D, b.Metric, profiles.OversizedHole)
		text += ", of it " + c.len(more) + " for the oversized hole"
	}
	return text
}

func aiscSpacing(a, b *opening) spacingAsk {
	s := profiles.AISCSpacing(a.hole.Bolt.Metric)
	d := wider(a, b)
	return spacingAsk{
		centres: s.Least * d, clear: s.Clear * d, prefer: s.Preferred * d,
		basis: "d", of: d, factor: [2]float64{s.Least, s.Preferred}, source: s.Source,
	}
}
