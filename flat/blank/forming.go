package blank

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/bend"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/profiles"
)

// Formed is what a blank with bends is folded to.
type Formed struct {
	Flat       *fold.Flat
	Pos        []diag.Pos // of the panels, as the file has them: the base first
	Grain      float64    // direction of rolling, rad from +x of the flat
	GrainKnown bool
	Reliefs    []fold.Relief // beside each bend, with the figures that were taken
}

// Panel is the place of a hole of a formed part: the panel it lies in, 0 for the
// base, and the motion from that panel's coordinates to the flat's.
func (f *Formed) Panel(h *Hole) (name string, toFlat geom.Motion) {
	p := &f.Flat.Panels[h.Panel]
	return p.Name, p.Motion
}

// mirrored is the image across the y axis, folded the same way up.
func (f *Formed) mirrored() *Formed {
	if f == nil {
		return nil
	}
	t := *f
	t.Flat = f.Flat.Transform(geom.MirrorY())
	t.Grain = acrossY.angle(f.Grain)
	return &t
}

// bent reports whether the part has bends.
func (m *maker) bent() bool { return m.part.Bent() }

// base draws the outline of the part, or the base of its form.
func (m *maker) base() (geom.Region, bool) {
	if m.part.Formed == nil {
		return m.draw(&m.part.Outline, "the outline")
	}
	p, ok := m.form0()
	if !ok {
		return geom.Region{}, false
	}
	return p.Base.Region, true
}

// form0 makes the part of a usual form, without what flanges add to it.
func (m *maker) form0() (*fold.Part, bool) {
	d := m.part.Formed
	s := fold.Section{T: m.thickness, Rule: m.rule(nil)}
	radius, ok := m.radius(describe.Length{}, d.Pos)
	if !ok || s.T == 0 {
		return nil, false
	}
	s.R = radius
	before := len(m.problems)
	size := func(l describe.Length, what string, by bend.Reference) fold.Size {
		v, _ := m.size(l, what, d.Pos)
		return fold.Size{V: v, By: by}
	}
	width := func(out, in describe.Length, what string) fold.Size {
		if in.Set {
			return size(in, "the inside "+what, bend.Inside)
		}
		return size(out, "the "+what, bend.Outside)
	}
	by := reference(d.Measured)
	if d.Length.Pos.Line > 0 {
		s.Length = size(d.Length, "the length", 0).V
	}
	var p *fold.Part
	switch d.Kind.Text {
	case "l":
		p = fold.L(s, size(d.Legs[0], "the first leg", by), size(d.Legs[1], "the second leg", by))
	case "u":
		p = fold.U(s, width(d.Width, d.InsideWidth, "width"), size(d.Legs[0], "the left leg", by), size(d.Legs[1], "the right leg", by))
	case "z":
		p = fold.Z(s, size(d.Legs[0], "the first foot", by), size(d.Web, "the web", by), size(d.Legs[1], "the second foot", by))
	case "hat":
		foot := size(d.Legs[0], "the left foot", by)
		p = fold.Hat(s, width(d.Width, d.InsideWidth, "width"), size(d.Web, "the web", by), foot)
		p.Flanges[3].Height = size(d.Legs[1], "the right foot", by).V
	case "box":
		joint := fold.Lapped
		if d.Joint.Text == "corner to corner" {
			joint = fold.CornerToCorner
		}
		gap := m.process.Kerf
		if d.Gap.Set {
			gap = size(d.Gap, "the gap", 0).V
		}
		p = fold.Box(s, width(d.Width, d.InsideWidth, "width"), width(d.Depth, d.InsideDepth, "depth"), size(d.Height, "the height", by), joint, gap)
	default:
		m.problems.Add(d.Pos, "the formed part has no form")
	}
	if len(m.problems) > before {
		return nil, false
	}
	for i := range p.Flanges {
		p.Flanges[i].Name = strings.ReplaceAll(p.Flanges[i].Name, " ", "-")
	}
	return p, true
}

// reference is what a length is measured to; outside where nothing is said.
func reference(w describe.Word) bend.Reference {
	r, err := bend.ParseReference(w.Text)
	if err != nil {
		return bend.Outside
	}
	return r
}

// radius is the inside radius of a bend: its own, or that of all bends.
func (m *maker) radius(own describe.Length, pos diag.Pos) (float64, bool) {
	if !own.Set && m.part.Bends != nil {
		own = m.part.Bends.Radius
	}
	if !own.Set {
		m.problems.AddHint(pos, "add bends: {radius: ...}", "nothing says what inside radius the bend has")
		return 0, false
	}
	return m.measure(own, "the radius of the bend", pos)
}

// rule is how much flat length a bend takes: by what the flange says, else what
// all bends say, else the shop's test bends and the table of the material.
func (m *maker) rule(own *describe.BendRule) bend.Rule {
	d := own
	if d == nil || d.Kind.Text == "" {
		if m.part.Bends == nil {
			d = &describe.BendRule{}
		} else {
			d = &m.part.Bends.Rule
		}
	}
	switch d.Kind.Text {
	case "k":
		return bend.KFactor(d.K)
	case "din 6935":
		return bend.DIN6935{}
	case "aircraft":
		return bend.Aircraft{}
	case "deduction":
		return bend.GivenDeduction{Length: d.Length.MM, To: bend.Outside}
	case "allowance":
		return bend.GivenAllowance(d.Length.MM)
	case "test bend":
		rows := m.set.TestBends()
		for i := range rows {
			if strings.EqualFold(rows[i].Name, d.Name) {
				return trial(&rows[i])
			}
		}
		hint := "the profile has none: add test bends: to it, see blankwright help bend"
		if len(rows) > 0 {
			names := make([]string, len(rows))
			for i := range rows {
				names[i] = rows[i].Name
			}
			hint = "the profile has " + strings.Join(names, ", ")
		}
		m.problems.AddHint(d.Kind.Pos, hint, "there is no test bend %q", d.Name)
		return nil
	}
	mat, _ := m.set.FindMaterial(m.part.Plate.Material.Text)
	r := usualRule{table: bend.For(bend.Family(mat.Group))}
	for _, row := range m.set.TestBends() {
		if row.Material == "" || strings.EqualFold(row.Material, mat.Name) {
			r.trials = append(r.trials, trial(&row))
		}
	}
	return r
}

// trial is a row of the profile as the rules of bends know it.
func trial(row *profiles.TestBend) bend.Trial {
	to, err := bend.ParseReference(row.Measured)
	if err != nil {
		to = bend.Outside
	}
	return bend.Trial{Name: row.Name, T: row.T, R: row.R, A: row.Angle * math.Pi / 180, Flat: row.Flat, LegA: row.Legs[0], LegB: row.Legs[1], To: to}
}

// usualRule takes the shop's own test bend where one fits, else the table of the
// material's family.
type usualRule struct {
	trials bend.Trials
	table  bend.FactorTable
}

func (r usualRule) Allowance(b bend.Bend) (bend.Allowance, error) {
	for _, t := range r.trials {
		if num.Same(t.T, b.T) && num.Same(t.R, b.R) {
			return r.trials.Allowance(b)
		}
	}
	return r.table.Allowance(b)
}

// relief is what is cut away beside a bend: where the file does not say, as wide
// as the plate is thick and as the process cuts.
func (m *maker) bendRelief(d *describe.BendRelief) fold.Relief {
	r := fold.Relief{Width: max(m.thickness, m.process.Kerf, m.process.LeastWeb(m.thickness)), Past: m.thickness / 2}
	if d == nil {
		return r
	}
	r.Shape = shapes[d.Shape.Text]
	if d.Width.Set {
		r.Width, _ = m.size(d.Width, "the width of the relief", d.Pos)
	}
	if d.Depth.Set {
		r.Past, _ = m.size(d.Depth, "the depth of the relief", d.Pos)
	}
	return r
}

var shapes = map[string]fold.Shape{"round": fold.Round, "none": fold.None}

// bends makes the flat of a part with bends from its base, and puts that into
// the blank: outline, openings and holes.
func (m *maker) bends(b *Blank) {
	if len(b.Outline) == 0 || m.thickness == 0 || len(m.problems) > 0 {
		return
	}
	p := &fold.Part{}
	if m.part.Formed != nil {
		made, ok := m.form0()
		if !ok {
			return
		}
		p = made
	} else {
		p.Base.Edges = m.baseEdges()
	}
	p.T, p.Rule = m.thickness, m.rule(nil)
	p.Relief, p.Corner = m.bendRelief(m.part.Relief), m.bendRelief(m.part.Corner)
	p.Corner.Width = 0
	f := &Formed{Pos: make([]diag.Pos, 1+len(p.Flanges), 1+len(p.Flanges)+len(m.part.Flanges))}
	for i := range f.Pos {
		f.Pos[i] = m.basePos()
	}
	if d := m.part.Bends; d != nil && d.Grain.Set {
		f.Grain, f.GrainKnown = d.Grain.Rad, true
	}
	p.Base.Region = geom.Region{Outer: b.Outline}
	for i := range b.Cutouts {
		p.Base.Region.Holes = append(p.Base.Region.Holes, b.Cutouts[i].Loop.Reverse())
	}
	at := make([][]int, 1, 1+fold.MaxBends) // the holes of each panel, by their number
	for i := range m.holes {
		h := &m.holes[i]
		if h.Purpose == RingOpening {
			p.Base.Region.Holes = append(p.Base.Region.Holes, h.Finished().Reverse())
			continue
		}
		p.Base.Holes = append(p.Base.Holes, fold.Hole{Name: h.Name, Loop: h.Finished()})
		at[0] = append(at[0], i)
	}
	m.flanges(p, f, &at)
	for i := range m.part.InLine {
		d := &m.part.InLine[i]
		p.InLine = append(p.InLine, fold.Pair{A: d.A.Text, B: d.B.Text})
	}
	if len(m.problems) > 0 {
		return
	}
	flat, err := fold.Flatten(p)
	if err != nil {
		m.cannotFold(err, p, f)
		return
	}
	f.Flat = flat
	for i := range p.Flanges {
		r := p.Relief
		if p.Flanges[i].Relief != nil {
			r = *p.Flanges[i].Relief
		}
		f.Reliefs = append(f.Reliefs, r)
	}
	m.unfold(b, f, at)
	m.bendNotes(b, f)
}

func (m *maker) basePos() diag.Pos {
	if m.part.Formed != nil {
		return m.part.Formed.Pos
	}
	return m.part.Outline.Pos
}

// baseEdges names the straight edges of the outline, from nominal corner to
// nominal corner.
func (m *maker) baseEdges() []fold.Edge {
	o := &m.part.Outline
	switch {
	case o.Rectangle != nil:
		q := o.Rectangle
		r := fold.Rectangle(q.Width.MM, q.Height.MM)
		for i := range r.Edges {
			e := &r.Edges[i]
			at := geom.Point{X: q.At.X.MM, Y: q.At.Y.MM}
			e.A, e.B = e.A.Add(at), e.B.Add(at)
		}
		return r.Edges
	case o.Corners != nil:
		n := len(o.Corners)
		edges := make([]fold.Edge, n)
		for i := range edges {
			a, c := o.Corners[i].At, o.Corners[(i+1)%n].At
			edges[i] = fold.Edge{Name: strconv.Itoa(i+1) + "-" + strconv.Itoa((i+1)%n+1),
				A: geom.Point{X: a.X.MM, Y: a.Y.MM}, B: geom.Point{X: c.X.MM, Y: c.Y.MM}}
		}
		return edges
	}
	m.problems.AddHint(o.Pos, "write it as rectangle, with the edges front, right, back and left, or as corners, with edges like 1-2; add what else it has",
		"flanges stand on the straight edges of a rectangle or of corners, and the outline is neither")
	return nil
}

// flanges adds those of the file to the part.
func (m *maker) flanges(p *fold.Part, f *Formed, at *[][]int) {
	for range p.Flanges {
		*at = append(*at, nil)
	}
	for i := range m.part.Flanges {
		d := &m.part.Flanges[i]
		k := slices.IndexFunc(p.Flanges, func(g fold.Flange) bool { return g.Name == d.Name.Text })
		if k < 0 {
			g, ok := m.flange(d, p)
			if !ok {
				continue
			}
			k = len(p.Flanges)
			p.Flanges = append(p.Flanges, g)
			f.Pos = append(f.Pos, d.Name.Pos)
			*at = append(*at, nil)
		} else {
			f.Pos[k+1] = d.Name.Pos
		}
		m.finishFlange(d, &p.Flanges[k])
		(*at)[k+1] = m.flangeHoles(d, &p.Flanges[k], k+1)
	}
}

// flange is a flange with what a form would give it.
func (m *maker) flange(d *describe.Flange, p *fold.Part) (fold.Flange, bool) {
	before := len(m.problems)
	g := fold.Flange{Name: d.Name.Text, On: d.On.Text, Edge: d.Edge.Text, At: reference(d.EdgeIs), From: reference(d.Measured),
		Angle: d.Angle.Rad, Down: d.Turn.Text == "down", Left: d.Offset[0].MM, Right: d.Offset[1].MM}
	g.Height, _ = m.size(d.Height, "the height of flange "+d.Name.Text, d.Pos)
	g.Radius, _ = m.radius(d.Radius, d.Pos)
	if g.On == fold.BaseName {
		g.On = ""
	}
	edges := []string{fold.EndEdge, fold.LeftEdge, fold.RightEdge}
	if g.On == "" {
		edges = nil
		for _, e := range p.Base.Edges {
			edges = append(edges, e.Name)
		}
	} else if !slices.ContainsFunc(p.Flanges, func(o fold.Flange) bool { return o.Name == g.On }) {
		m.problems.AddHint(d.On.Pos, "name a flange that stands before it in the list", "flange %s stands on %q, which there is not", g.Name, g.On)
		return g, false
	}
	if len(edges) > 0 && !slices.Contains(edges, g.Edge) {
		hint := "the edges there are " + strings.Join(edges, ", ")
		if near := diag.Nearest(g.Edge, edges); near != "" {
			hint = "write " + near
		}
		m.problems.AddHint(d.Edge.Pos, hint, "flange %s stands on edge %q, which there is not", g.Name, g.Edge)
	}
	if most := m.set.Limit(profiles.BendAngle); !num.AtMost(d.Angle.Rad*180/math.Pi, most) {
		pos := d.Angle.Pos
		if pos.Line == 0 {
			pos = d.Pos
		}
		m.problems.AddHint(pos, "bend it less; a shop that closes hems sets shop: {bend angle: 180} in its profile",
			"flange %s is bent by %s, the shop bends at most %s degrees", g.Name, bend.Degrees(d.Angle.Rad), num.Short(most, 1))
	}
	if len(p.Flanges) >= fold.MaxBends {
		m.problems.AddHint(d.Name.Pos, "make it of two parts", "the part has more than %d bends", fold.MaxBends)
	}
	return g, len(m.problems) == before
}

// finishFlange gives a flange what any may have.
func (m *maker) finishFlange(d *describe.Flange, g *fold.Flange) {
	g.TaperLeft, g.TaperRight = d.Taper[0].Rad, d.Taper[1].Rad
	g.CornerLeft, g.CornerRight = freeCorner(&d.Corners[0]), freeCorner(&d.Corners[1])
	if d.Radius.Set {
		g.Radius, _ = m.radius(d.Radius, d.Pos)
	}
	if d.Rule.Kind.Text != "" {
		g.Rule = m.rule(&d.Rule)
	}
	if d.Relief != nil {
		r := m.bendRelief(d.Relief)
		g.Relief = &r
	}
}

func freeCorner(c *describe.FlangeCorner) fold.Corner {
	return fold.Corner{Radius: c.Radius.MM, Chamfer: c.Chamfer.MM}
}

// flangeHoles makes the holes of a flange, still in its own coordinates, and
// gives their numbers.
func (m *maker) flangeHoles(d *describe.Flange, g *fold.Flange, panel int) []int {
	if len(d.Holes) == 0 {
		return nil
	}
	from := len(m.holes)
	m.punchSets(d.Holes)
	var at []int
	for i := from; i < len(m.holes); i++ {
		h := &m.holes[i]
		h.Panel = panel
		if h.Dia > 0 {
			g.Holes = append(g.Holes, fold.Hole{Name: h.Name, Loop: h.Finished()})
			at = append(at, i)
		}
	}
	return at
}

// cannotFold tells what makes the flat impossible, each at its place in the file.
func (m *maker) cannotFold(err error, p *fold.Part, f *Formed) {
	var ps fold.Problems
	if !errors.As(err, &ps) {
		m.problems.Add(m.basePos(), "%s", err.Error())
		return
	}
	overlaps := slices.ContainsFunc(ps, func(q fold.Problem) bool { return q.Kind == fold.Overlap })
	said := map[diag.Pos]bool{}
	for _, q := range ps {
		pos := m.basePos()
		for i := range p.Flanges {
			if p.Flanges[i].Name == q.Panel {
				pos = m.flangePos(f, i, q.Kind)
			}
		}
		if i, ok := m.named[q.Hole]; ok && q.Hole != "" && i >= 0 {
			pos = m.holes[i].Pos
		}
		// One word on an overlap says all: panels, their bends and what only touches
		// follow from it.
		if overlaps && q.Kind == fold.Touch || q.Kind == fold.Overlap && said[pos] {
			continue
		}
		said[pos] = q.Kind == fold.Overlap
		text := q.Message
		if q.Placed {
			text += ", at " + m.whereText(q.At) + " of the flat"
		}
		m.problems.AddHint(pos, q.Hint, "%s", text)
	}
}

// flangePos is the line that is at fault in a flange: that of its height or its
// offset where it has no room.
func (m *maker) flangePos(f *Formed, i int, k fold.Kind) diag.Pos {
	pos := f.Pos[i+1]
	for j := range m.part.Flanges {
		if d := &m.part.Flanges[j]; d.Name.Pos == pos && (k == fold.NoRoom || k == fold.Overlap) && d.Height.Set {
			return d.Height.Pos
		}
	}
	return pos
}

// unfold puts the flat into the blank.
func (m *maker) unfold(b *Blank, f *Formed, at [][]int) {
	old := b.Outline
	b.Formed, b.Outline = f, f.Flat.Outline.Outer
	k := 0
	for panel := range at {
		to := f.Flat.Panels[panel].Motion
		for _, i := range at[panel] {
			h := &m.holes[i]
			angle := h.Angle
			if panel > 0 {
				d := to.Dir(direction(angle))
				angle = math.Mod(math.Atan2(d.Y, d.X)+math.Pi, math.Pi)
			}
			h.move(f.Flat.Holes[k].At, angle)
			k++
		}
	}
	m.openings(b, f)
	for i := range b.Edges {
		b.Edges[i].Segs = along(b.Outline, old, b.Edges[i].Segs)
	}
}

// openings holds the openings of the base against those of the flat.
func (m *maker) openings(b *Blank, f *Formed) {
	whole := func(l geom.Loop) bool {
		c := l.Centroid()
		return slices.ContainsFunc(f.Flat.Outline.Holes, func(h geom.Loop) bool {
			return num.Zero(h.Centroid().Dist(c)) && math.Abs(math.Abs(h.Area())-math.Abs(l.Area())) <= num.OverlapArea
		})
	}
	for i := range b.Cutouts {
		if c := &b.Cutouts[i]; !whole(c.Loop) {
			m.problems.AddHint(c.Pos, "move it away from the bend", "%s %q runs into a bend or its relief", c.Purpose, c.Name)
		}
	}
	for i := range m.holes {
		if h := &m.holes[i]; h.Purpose == RingOpening && !whole(h.Finished()) {
			m.problems.Add(h.Pos, "the ring's opening runs into a bend or its relief")
		}
	}
}

// along gives the segments of an outline that lie on some of another one's.
func along(l, old geom.Loop, segs []int) []int {
	var out []int
	for i := range l {
		for _, k := range segs {
			s := &old[k]
			if l[i].IsArc() != s.IsArc() || s.IsArc() && !num.Zero(l[i].Circle().C.Dist(s.Circle().C)) {
				continue
			}
			on := func(p geom.Point) bool { return num.Zero(geom.PointSeg(p, *s).D) }
			if on(l[i].A) && on(l[i].B) && on(l[i].Mid()) {
				out = append(out, i)
				break
			}
		}
	}
	return out
}

// bendNotes tells of each kind of bend what the shop has to know: direction,
// angle, radius, and by which rule it takes how much flat length.
func (m *maker) bendNotes(b *Blank, f *Formed) {
	type kind struct {
		words string
		names [2][]string // of flanges bent up, and down
	}
	var kinds []kind
	for i := range f.Flat.Bends {
		d := &f.Flat.Bends[i]
		w := bend.Degrees(d.Bend.A) + ", inside radius " + m.text(d.Bend.R) + ", takes " + m.text(d.Allowance.Length) +
			" of flat length by " + d.Allowance.By + " [" + bendSource(d.Allowance.Source) + "]"
		k := slices.IndexFunc(kinds, func(k kind) bool { return k.words == w })
		if k < 0 {
			k = len(kinds)
			kinds = append(kinds, kind{words: w})
		}
		way := 0
		if d.Down {
			way = 1
		}
		kinds[k].names[way] = append(kinds[k].names[way], d.Name)
	}
	for _, k := range kinds {
		what := "bend of flange "
		if len(k.names[0])+len(k.names[1]) > 1 {
			what = "bends of flanges "
		}
		up, down := strings.Join(k.names[0], ", "), strings.Join(k.names[1], ", ")
		switch {
		case down == "":
			what += up + ": up "
		case up == "":
			what += down + ": down "
		default:
			what += up + " up, " + down + " down: "
		}
		b.Notes = append(b.Notes, what+k.words)
	}
	if f.GrainKnown {
		b.Notes = append(b.Notes, f.grainNote())
	}
	box := f.Flat.Fold().Box()
	s := box.Max.Sub(box.Min)
	b.Notes = append(b.Notes, "folded it measures "+m.text(s.X)+" by "+m.text(s.Y)+" by "+m.text(s.Z)+
		"; flat "+m.text(b.Outline.Bounds().Width())+" by "+m.text(b.Outline.Bounds().Height()))
}

// grainNote says how the flat lies on the plate.
func (f *Formed) grainNote() string {
	a := f.Grain
	if a < 0 {
		a += math.Pi // the grain has no front end
	}
	if num.SameAngle(a, math.Pi) {
		a = 0
	}
	return "lay it so that the plate was rolled at " + bend.Degrees(a) + " to the x axis (0 is left to right, 90 upwards)"
}

func bendSource(s bend.Source) string {
	if s.Prov == bend.Published || s.Prov == "" || s.Prov == bend.Typed {
		return s.Text
	}
	return s.Text + " (" + string(s.Prov) + ")"
}

// flatLoads refuses what is computed on flat plates only.
func (m *maker) flatLoads() {
	if d := m.part.Loads; len(d) > 0 {
		m.problems.AddHint(d[0].Pos, "leave loads out: the report then lists strength among what was not checked; or describe the panel that they act on as a flat part of its own, with its loads",
			"the part is bent, and loads are held against flat plates only: a bend opens, and a flange gives way sideways, long before the plate in between is torn")
	}
}
