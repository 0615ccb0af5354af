package blank

// marks gives the texts to be marked on the plate: the part's name where the
// description says nothing of marks. The word `name` stands for it there.
func (m *maker) marks() []MarkText {
	name := m.part.Name
	if m.part.Marks == nil {
		return []MarkText{{Pos: name.Pos, Text: name.Text, Auto: true}}
	}
	var marks []MarkText
	for _, d := range m.part.Marks {
		t := MarkText{Pos: d.Pos, Text: d.Text.Text, Auto: d.At == nil}
		if t.Text == "name" {
			t.Text = name.Text
		}
		if d.At != nil {
			t.At, _ = m.point(*d.At, "the place of the mark", d.Pos)
		}
		marks = append(marks, t)
	}
	return marks
}
