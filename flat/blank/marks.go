package blank

// marks gives the texts to be marked on the plate. The word `name` stands for
// the part's name.
func (m *maker) marks() []MarkText {
	var marks []MarkText
	for _, d := range m.part.Marks {
		t := MarkText{Pos: d.Pos, Text: d.Text.Text, Auto: d.At == nil}
		if t.Text == "name" {
			t.Text = m.part.Name.Text
		}
		if d.At != nil {
			t.At, _ = m.point(*d.At, "the place of the mark", d.Pos)
		}
		marks = append(marks, t)
	}
	return marks
}
