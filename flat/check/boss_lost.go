package check

import (
	"slices"
	"strconv"

	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

var bossLost = &Check{
	ID:       "boss-lost",
	Severity: diag.Warning,
	Title:    "a boss does nothing to the outline",
	Meaning: "A belt is pulled tight round all of its bosses: one that lies within it does not show, and its radius " +
		"may be any number without a change to the part. Mostly a place or a radius is mistyped.",
	Formula: "the belt has an arc about each boss",
	Source:  "common practice: geometry of the belt",
	Limits: "Looks at tangent outlines without hollow bosses and waists, and at link plates, before anything is " +
		"added or cut out.",
	Run: func(c *Context) {
		c.lostBosses(&c.part.Outline, 0)
		for i := range c.part.Add {
			c.lostBosses(&c.part.Add[i].Shape, i+1)
		}
	},
}

// lostBosses looks at the bosses of one shape.
func (c *Context) lostBosses(s *describe.Shape, item int) {
	list, link := s.Tangent, s.LinkPlate
	if link != nil {
		list = link.Through
	}
	if len(list) < 2 {
		return
	}
	var buf [8]geom.Circle
	circles := buf[:0]
	for i := range list {
		b := &list[i]
		k, ok := c.bossCircle(b, link, i)
		if !ok || b.Hollow.Yes || b.Waist.Set {
			return
		}
		circles = append(circles, k)
	}
	belt, err := geom.Hull(circles)
	if err != nil {
		c.reportCannot(diag.Finding{Pos: s.Pos, Where: at(circles[0].C)}, "which bosses the belt touches", err)
		return
	}
	for i, k := range circles {
		if !slices.ContainsFunc(belt, func(g geom.Seg) bool {
			return g.IsArc() && num.Same(g.Circle().R, k.R) && num.Zero(g.Circle().C.Dist(k.C))
		}) {
			c.reportLost(s, item, i, k, belt)
		}
	}
}

// bossCircle is where a boss lies, in the part as drawn.
func (c *Context) bossCircle(b *describe.Boss, link *describe.LinkPlate, i int) (geom.Circle, bool) {
	var k geom.Circle
	switch {
	case b.Radius.Set:
		k.R = b.Radius.MM
	case link != nil && len(link.Widths) == 1:
		k.R = link.Widths[0].MM / 2
	case link != nil && i < len(link.Widths):
		k.R = link.Widths[i].MM / 2
	}
	if b.At != nil {
		k.C = geom.Point{X: b.At.X.MM, Y: b.At.Y.MM}
		return k, k.R > 0
	}
	h := slices.IndexFunc(c.Blank.Holes, func(h blank.Hole) bool { return h.Name == b.Hole.Text })
	if h < 0 {
		return k, false
	}
	k.C = c.Blank.Holes[h].Centre
	if c.Blank.Hand == blank.Mirrored {
		k.C.X = -k.C.X
	}
	return k, k.R > 0
}

func (c *Context) reportLost(s *describe.Shape, item, i int, k geom.Circle, belt geom.Loop) {
	list := s.Tangent
	if s.LinkPlate != nil {
		list = s.LinkPlate.Through
	}
	b := &list[i]
	where := "at " + c.place(k.C)
	if b.Hole.Text != "" {
		where = "round " + quoted(b.Hole.Text)
	}
	to := c.up(geom.PointLoop(k.C, belt).D) + c.step()
	var changes []Change
	if s.Tangent != nil {
		changes = append(changes, Change{Kind: Rewrite, Key: keyBossRadius, Item: item, Sub: i, To: to,
			Text: "give it a radius of more than " + c.len(to-c.step())})
	}
	if len(list) > 2 {
		changes = append(changes, Change{Kind: Rewrite, Key: keyBossOut, Item: item, Sub: i, Text: "leave boss " + strconv.Itoa(i+1) + " out"})
	}
	at := at(k.C)
	if c.Blank.Hand == blank.Mirrored {
		at.X = -at.X
	}
	f := diag.Finding{
		Pos: b.Pos, Features: []string{b.Hole.Text}, Where: at, Got: k.R, Want: to, Unit: "mm",
		Message: "boss " + strconv.Itoa(i+1) + " " + where + " lies within the belt round the others: its radius of " + c.len(k.R) + " does nothing",
	}
	if b.Hole.Text == "" {
		f.Features = nil
	}
	if changes = c.firstThat(changes...); len(changes) == 0 {
		f.Fix = "make it larger, or leave it out"
	}
	c.Report(f, changes...)
}
