package blank

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/samples"
)

// FuzzMake: whatever the description, there are problems with places and no
// blank, or there are sound blanks and no problem; twins have one area.
func FuzzMake(f *testing.F) {
	for _, s := range samples.List() {
		f.Add(s.Text)
	}
	f.Add([]byte("part: x\nunits: mm\nplate: {thickness: 5, material: S275}\nprocess: waterjet\n" +
		"outline:\n  corners: [[0, 0], {at: [50, 0], radius: 9}, {at: [50, 40], chamfer: 5}, [0, 40]]\n" +
		"holes:\n  a: {at: [20, 20], mirror: both, diameter: 6, slot: {length: 15, angle: 30 deg}}\n"))
	f.Add([]byte(head + everyOpening))
	f.Add([]byte(head + rectangle + "add:\n  - ring: {at: [50, 0], outside: 40, inside: 20}\ncutouts:\n  - disc: {at: [-50, 0], diameter: 30}\n" +
		"  - rectangle: {at: [0, 0], width: 30, height: 20}\n  - disc: {at: [15, 0], diameter: 20}\n" +
		"tabs:\n  - {at: [0, -30], width: 20, relief: notch}\n  - {at: [22, -30], width: 20, angle: -80 deg}\n"))
	f.Add([]byte(head + "outline:\n  tangent:\n    - {at: [-60, 0], radius: 20, waist: 200}\n    - {at: [60, 0], radius: 20}\n    - {at: [0, 90], radius: 50, hollow: yes}\n"))
	f.Add([]byte(head + rectangle + "bends: {radius: 3, rule: din 6935}\nflanges:\n  a: {edge: left, height: 30, angle: 120 deg, offset: [5, 5], corners: {radius: 4}}\n  b: {on: a, edge: end, height: 20, turn: down, holes: {x: {at: [20, 12], diameter: 5}}}\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		p, err := describe.Parse("part.yaml", text)
		if err != nil {
			return
		}
		bs, err := Make(p)
		if err != nil {
			ps, ok := err.(diag.Problems)
			if !ok || len(ps) == 0 || bs != nil {
				t.Fatalf("Make gives %v and %d blanks", err, len(bs))
			}
			return
		}
		total := 0
		for _, b := range bs {
			checkSound(t, b)
			for _, h := range b.Holes {
				if !num.Finite(h.Centre.X, h.Centre.Y, h.Dia, h.CutDia, h.Length, h.Angle) || h.Dia <= 0 || h.CutDia < 0 || h.CutDia > h.Dia {
					t.Fatalf("hole %+v", h)
				}
				if err := h.Finished().Validate(); err != nil {
					t.Fatal(err)
				}
			}
			if a := bs[0].Outline.Area(); math.Abs(a-b.Outline.Area()) > num.Coincident*b.Outline.Perimeter() {
				t.Fatalf("twins have the areas %g and %g", a, b.Outline.Area())
			}
			if k := b.Process.Kerf; k > 0 {
				if c, err := Compensate(b, k); err == nil {
					checkSound(t, c)
				}
			}
			total += b.Quantity
			checkFileName(t, FileBase(b, p.Units))
		}
		if p.Quantity.Set && total != p.Quantity.N {
			t.Fatalf("%d pieces of %d", total, p.Quantity.N)
		}
	})
}

// Every gusset that is made is a simple loop whose boundary turns about its root
// in one direction only; none gets as far as the kernel's check and fails there.
func TestGussetsAreStarShaped(t *testing.T) {
	made := 0
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, least, most float64) describe.Length {
			return mm(rapid.Float64Range(least, most).Draw(t, name))
		}
		g := describe.Gusset{
			Legs:      [2]describe.Length{length("first leg", 1, 300), length("second leg", 1, 300)},
			Toes:      [2]describe.Length{length("first toe", 0, 60), length("second toe", 0, 60)},
			Angle:     deg(rapid.Float64Range(5, 175).Draw(t, "angle")),
			Snipe:     length("snipe", 0, 60),
			SnipeKind: word(rapid.SampledFrom([]string{"straight", "round"}).Draw(t, "kind")),
		}
		if rapid.Bool().Draw(t, "hollowed") {
			g.Hollow = length("hollow", 1, 1000)
		}
		m := &maker{part: &describe.Part{Units: unit.Millimetre}}
		l, ok := m.gusset(&g)
		if ok != (len(m.problems) == 0) {
			t.Fatalf("made %v, problems %v", ok, m.problems)
		}
		if !ok {
			return
		}
		made++
		if err := l.Validate(); err != nil {
			t.Fatalf("%v", err)
		}
		if l.Area() <= 0 {
			t.Fatalf("runs clockwise: %s", l)
		}
		snipe := geom.Circle{R: g.Snipe.MM}
		for _, s := range l {
			if s.IsArc() && s.Circle() == snipe {
				continue
			}
			for _, q := range [][2]geom.Point{{s.A, s.At(0.5)}, {s.At(0.5), s.B}} {
				onSnipe := g.Snipe.MM > 0 && s == l[len(l)-1]
				if turn := q[0].Cross(q[1]); !onSnipe && turn < -num.Coincident*(q[0].Len()+q[1].Len()) {
					t.Fatalf("edge %s turns back about the root", s)
				}
			}
		}
	})
	if made == 0 {
		t.Error("not one gusset was made")
	}
}
