package blank

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// A link of two ends with a hollow on each side. By radius or by the disc that
// the belt passes outside it is the same outline, whose area is that of the
// triangles between the centres less the sectors of the hollows, and the ends.
func TestHollowLink(t *testing.T) {
	const a, r, w = 60.0, 20.0, 200.0 // half the distance of the ends, their radius, radius of the hollows
	h := math.Sqrt((r+w)*(r+w) - a*a)
	at := math.Atan2(h, a) // of a hollow's centre, seen from an end
	end := math.Pi - at    // half of what an end's arc turns through
	want := 2*a*h - 2*w*w*(math.Pi/2-at) + 2*r*r*end
	waist := "outline:\n  tangent:\n    - {at: [-60, 0], radius: 20, waist: 200}\n    - {at: [60, 0], radius: 20, waist: 200}\n"
	hollow := "let: {h: sqrt(220 * 220 - 60 * 60) + 0.000001}\noutline:\n  tangent:\n    - {at: [-60, 0], radius: 20}\n    - {at: [0, -h], radius: 200, hollow: yes}\n" +
		"    - {at: [60, 0], radius: 20}\n    - {at: [0, h], radius: 200, hollow: yes}\n"
	back := "let: {h: sqrt(220 * 220 - 60 * 60) + 0.000001}\noutline:\n  tangent:\n    - {at: [-60, 0], radius: 20}\n    - {at: [0, h], radius: 200, hollow: yes}\n" +
		"    - {at: [60, 0], radius: 20}\n    - {at: [0, -h], radius: 200, hollow: yes}\n"
	for i, text := range []string{waist, hollow, back} {
		l := described(t, text).Outline
		tol := 1e-9
		if i > 0 {
			tol = 1e-3 // a millionth farther off, so that straight tangents are left
		}
		near(t, "area", l.Area(), want, tol)
		near(t, "width", l.Bounds().Width(), 160, 1e-9)
	}
}

// Every corner of a belt is tangent, and each arc lies on the circle of its boss.
func TestBeltsAreTangent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(t, "bosses")
		var bosses []describe.Boss
		circles := map[geom.Circle]bool{}
		hollows := 0
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			d := rapid.Float64Range(80, 120).Draw(t, "distance")
			r := rapid.Float64Range(5, 20).Draw(t, "radius")
			c := geom.Point{}.Polar(d, a)
			b := boss(c.X, c.Y, r)
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				c = geom.Point{}.Polar(d-60, a)
				b = boss(c.X, c.Y, r)
				b.Hollow = describe.Flag{Yes: true, Set: true}
				hollows++
			case 1:
				b.Waist = mm(rapid.Float64Range(60, 200).Draw(t, "waist"))
			}
			bosses = append(bosses, b)
			circles[geom.Circle{C: c, R: r}] = true
		}
		if rapid.Bool().Draw(t, "backwards") {
			for i, j := 0, n-1; i < j; i, j = i+1, j-1 {
				bosses[i], bosses[j] = bosses[j], bosses[i]
			}
		}
		bs, err := Make(plate(describe.Shape{Tangent: bosses}))
		if err != nil {
			return // not every ring of bosses has a belt
		}
		l := bs[0].Outline
		if l.Area() <= 0 {
			t.Fatal("runs clockwise")
		}
		for i, s := range l {
			before := l[(i+len(l)-1)%len(l)]
			if c := before.DirB().Cross(s.DirA()); math.Abs(c) > num.CuspSine*10 || before.DirB().Dot(s.DirA()) < 0 {
				t.Fatalf("%s and %s are not tangent: %g", before, s, c)
			}
			if s.IsArc() && s.Bulge > 0 && !circles[s.Circle()] {
				t.Fatalf("%s lies on no boss", s)
			}
		}
	})
}

func TestBeltProblems(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"boss in the hollow", "outline:\n  tangent:\n    - {at: [-60, 0], radius: 20}\n    - {at: [60, 0], radius: 20}\n    - {at: [50, 0], radius: 80, hollow: yes}\n",
			"4: no belt runs from boss 2 to boss 3: no straight line touches both: the discs overlap (centres 10 mm apart, radii 20 and 80) | look at the order of the bosses too: the belt runs from each to the next"},
		{"waist too small", "outline:\n  tangent:\n    - {at: [-60, 0], radius: 20, waist: 30}\n    - {at: [60, 0], radius: 20}\n",
			"3: no belt runs from boss 1 to boss 2: a waist of 30 mm does not reach both: the gap between the discs is 80 mm; make it larger | look at the order of the bosses too: the belt runs from each to the next"},
		{"waist too small, clockwise", "outline:\n  tangent:\n    - {at: [0, 50], radius: 20}\n    - {at: [60, 0], radius: 20}\n    - {at: [-60, 0], radius: 20, waist: 9}\n",
			"5: no belt runs from boss 3 to boss 1: a waist of 9 mm does not reach both: the gap between the discs is 38.1025 mm; make it larger | look at the order of the bosses too: the belt runs from each to the next"},
		{"hollows meet", "outline:\n  tangent:\n    - {at: [-60, 0], radius: 20, waist: 45}\n    - {at: [60, 0], radius: 20, waist: 45}\n",
			"2: the bosses make no outline: the belt touches or crosses itself at x -37.42 mm, y 0.00 mm | look at the order of the bosses: the belt runs from each to the next"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := said(t, c.text)
			if got != c.want {
				t.Errorf("said\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}
