package blank

import (
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/num"
	"blankwright/profiles"
)

// Joint is what one bolt holds together, mm.
type Joint struct {
	Pos     diag.Pos
	Index   int    // in the file
	Hole    string // name of the hole
	Sleeve  *describe.Sleeve
	Gap     float64 // between the plates; 0 where the file does not say
	Bolted  bool    // the plates are bolted, not welded
	Spacer  float64 // on each side of the sleeve
	Stack   profiles.Stack
	Length  float64          // of the bolt as written; 0 where it is to be chosen
	Choice  profiles.BoltFit // the usual length that does, where there is one
	Washers int              // that it takes
	Chosen  bool             // there is one
}

// Coat is the coating of a finished part, mm on one face.
type Coat struct {
	Kind      string
	Thickness float64
	Source    profiles.Source
}

// joints works out what each bolt goes through, and which one it takes.
func (m *maker) joints(b *Blank) {
	for i := range m.part.Joints {
		if j, ok := m.joint(b, &m.part.Joints[i]); ok {
			j.Index = i
			b.Joints = append(b.Joints, j)
			b.Notes = append(b.Notes, m.jointNote(&j))
		}
	}
}

func (m *maker) joint(b *Blank, d *describe.Joint) (Joint, bool) {
	i, ok := m.named[d.Hole.Text]
	if !ok || i < 0 {
		m.problems.Add(firstPos(d.Hole, describe.Word{Pos: d.Pos, Set: true}), "no single hole is named %q", d.Hole.Text)
		return Joint{}, false
	}
	h := &m.holes[i]
	if h.Bolt == nil {
		if m.sized(h) {
			m.problems.AddHint(d.Hole.Pos, "give it bolt:", "a joint needs a bolt, and hole %q takes none", h.Name)
		}
		return Joint{}, false
	}
	j := Joint{Pos: d.Pos, Hole: h.Name, Sleeve: d.Sleeve, Bolted: d.Held.Text == "bolted"}
	all := true
	take := func(l describe.Length, what string) float64 {
		v, ok := m.measure(l, what, d.Pos)
		all = all && ok
		return v
	}
	j.Gap, j.Spacer, j.Length = take(d.Gap, "the gap"), take(d.Spacer, "the spacer"), take(d.Length, "the length of the bolt")
	j.Stack = profiles.Stack{Bolt: *h.Bolt, Last: b.Thickness, Washers: d.Washers.N,
		Threads: m.set.Limit(profiles.ThreadsPastNut), Out: d.Threads.Text == "out"}
	for k, kind := range profiles.NutKinds() {
		if kind == d.Nut.Text {
			j.Stack.Nut = profiles.NutKind(k)
		}
	}
	if len(d.Plies) > 0 {
		for _, l := range d.Plies {
			j.Stack.Grip += take(l, "a ply")
		}
		j.Stack.Last = d.Plies[len(d.Plies)-1].MM
	} else if d.Sleeve != nil {
		j.Stack.Grip = 2*b.Thickness + 2*j.Spacer + take(d.Sleeve.Width, "the width of the sleeve")
	}
	if !all || num.Zero(j.Stack.Grip) {
		return j, false
	}
	var err error
	if j.Choice, j.Washers, j.Chosen, err = j.Stack.Choose(); err != nil {
		m.problems.Add(d.Pos, "%s", err)
		return j, false
	}
	return j, true
}

// sized reports whether a hole got as far as having a size.
func (m *maker) sized(h *Hole) bool { return h.Dia > 0 }

// jointNote tells the bolt of a joint on paper.
func (m *maker) jointNote(j *Joint) string {
	text := "joint " + quoted(j.Hole) + ": grip " + m.text(j.Stack.Grip)
	switch {
	case j.Length > 0:
		return text + ", " + j.Stack.Bolt.Name + " bolt " + m.text(j.Length) + " long as described"
	case !j.Chosen:
		return text + ", no usual length of " + j.Stack.Bolt.Name + " bolt does"
	}
	text += ", " + j.Stack.Bolt.Name + " bolt " + m.text(j.Choice.Length) + " long, " + profiles.NutKinds()[j.Stack.Nut] + " nut"
	switch j.Washers {
	case 0:
	case 1:
		text += ", 1 washer under the nut"
	default:
		text += ", " + num.Short(float64(j.Washers), 0) + " washers, the first under the nut"
	}
	if j.Stack.Out {
		text += ", no thread in a shear plane"
	}
	return text
}

// coating works out the coating of the finished part.
func (m *maker) coating(b *Blank) {
	d := m.part.Coating
	if d == nil {
		return
	}
	row, ok := m.set.CoatingFor(d.Kind.Text, b.Thickness)
	if !ok {
		m.problems.Add(d.Pos, "unknown coating %q", d.Kind.Text)
		return
	}
	c := Coat{Kind: d.Kind.Text, Thickness: row.Mean, Source: row.Source}
	if d.Thickness.Set {
		t, ok := m.size(d.Thickness, "the thickness of the coating", d.Pos)
		if !ok {
			return
		}
		c.Thickness, c.Source = t, profiles.Source{Text: "as described"}
	}
	b.Coat = &c
}
