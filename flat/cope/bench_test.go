package cope

import "testing"

// One end with its three lines and both as arcs: what a drawing needs.
func BenchmarkCope(b *testing.B) {
	cases := map[string][]Cutter{
		"square":    {Main{OD: 44.45, Angle: deg(90)}},
		"steep":     {Main{OD: 44.45, Angle: deg(10)}},
		"offset":    {Main{OD: 60.3, Angle: deg(60), Offset: 9}},
		"two mains": {Main{OD: 44.45, Angle: deg(90)}, Main{OD: 44.45, Angle: deg(40), Turn: deg(70)}},
	}
	for _, name := range []string{"square", "steep", "offset", "two mains"} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c, err := New(Tube{38.1, 4.78}, cases[name]...)
				if err != nil {
					b.Fatal(err)
				}
				t, err := c.Template(PlainPaper(), c.BestSeam())
				if err != nil {
					b.Fatal(err)
				}
				if t.Arcs(OD).Worst > 0.02 || t.Arcs(ID).Worst > 0.02 {
					b.Fatal("fit too loose")
				}
			}
		})
	}
}
