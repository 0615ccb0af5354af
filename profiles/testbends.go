package profiles

import (
	"slices"

	"go.yaml.in/yaml/v4"
)

// TestBend is a strip that a shop bent and measured, from its profile: mm, and
// degrees turned through.
type TestBend struct {
	Name     string
	Material string // "" for any
	T, R     float64
	Angle    float64
	Flat     float64    // length of the strip before
	Legs     [2]float64 // after
	Measured string     // "outside", "inside", "apex", "tangent"
	Source   Source
}

// TestBends gives a shop's own test bends in the order of its profiles.
func (s *Set) TestBends() []TestBend { return s.orDefault().testBends }

// testBend reads one row over test bends.
func (r *profileReader) testBend(name string, k, n *yaml.Node) {
	row := TestBend{Name: name, Angle: 90, Measured: "outside", Source: r.source()}
	ok := r.keys(n, "a test bend",
		key{"material", func(n *yaml.Node) {
			m, err := r.set.FindMaterial(r.word(n))
			if err != nil {
				r.add(n, "", "%s", err)
			}
			row.Material = m.Name
		}},
		key{"thickness", func(n *yaml.Node) { r.number(n, aLength, &row.T) }},
		key{"radius", func(n *yaml.Node) { r.number(n, aLength, &row.R) }},
		key{"angle", func(n *yaml.Node) { r.number(n, figure{nil, 1, 180, false}, &row.Angle) }},
		key{"flat", func(n *yaml.Node) { r.number(n, aLength, &row.Flat) }},
		key{"legs", func(n *yaml.Node) {
			if n.Kind != yaml.SequenceNode || len(n.Content) != 2 {
				r.add(n, "", "wanted the two legs, like [54.2 mm, 54.2 mm]")
				return
			}
			r.number(n.Content[0], aLength, &row.Legs[0])
			r.number(n.Content[1], aLength, &row.Legs[1])
		}},
		key{"measured", func(n *yaml.Node) { row.Measured = r.oneOf(n, "outside", "inside", "apex", "tangent") }},
	)
	switch {
	case !ok:
		return
	case row.T <= 0 || row.Flat <= 0 || row.Legs[0] <= 0 || row.Legs[1] <= 0:
		r.add(k, "give thickness, radius, flat and legs", "test bend %q lacks a measurement", short40(name))
		return
	}
	if i := slices.IndexFunc(r.set.testBends, func(t TestBend) bool { return t.Name == name }); i >= 0 {
		r.set.testBends[i] = row
		return
	}
	r.set.testBends = append(r.set.testBends, row)
}

// testBendTable lists a shop's test bends; ok is false where it has none.
func (s *Set) testBendTable() (Table, bool) {
	t := Table{Name: "test-bends", Title: "the shop's own test bends, from which the flat length of its bends follows",
		Columns: []string{"name", "material", "thickness mm", "radius mm", "degrees", "flat mm", "leg mm", "leg mm", "measured", founded}, Source: Source{Text: "the shop's profile"}}
	for _, b := range s.orDefault().testBends {
		m := b.Material
		if m == "" {
			m = "any"
		}
		t.Rows = append(t.Rows, []string{b.Name, m, short(b.T, 3), short(b.R, 3), short(b.Angle, 2), short(b.Flat, 3), short(b.Legs[0], 3), short(b.Legs[1], 3), b.Measured, string(b.Source.Prov)})
	}
	return t, len(t.Rows) > 0
}
