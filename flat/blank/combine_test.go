package blank

import (
	"math"
	"strings"
	"testing"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
)

// head begins a description in mm; its process has a kerf of 1.5 mm.
const head = "part: test plate\nunits: mm\nplate: {thickness: 6, material: S355}\nprocess: air plasma\n"

// described makes the one blank of a description.
func described(t testing.TB, text string) *Blank {
	t.Helper()
	p, err := describe.Parse("part.yaml", []byte(head+text))
	if err != nil {
		t.Fatal(err)
	}
	b := made(t, p)
	if err := b.Region().Validate(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return b
}

// said gives the problems of a description that cannot be made, line by line:
// `7: message | hint`, lines counted behind the head.
func said(t testing.TB, text string) string {
	t.Helper()
	p, err := describe.Parse("part.yaml", []byte(head+text))
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Count(head, "\n")
	var b strings.Builder
	for _, q := range refused(t, p) {
		b.WriteString(string(rune('0'+q.Pos.Line-lines)) + ": " + q.Message)
		if q.Hint != "" {
			b.WriteString(" | " + q.Hint)
		}
		b.WriteByte('\n')
	}
	return strings.TrimSuffix(b.String(), "\n")
}

const rectangle = "outline: {rectangle: {width: 100, height: 60}}\n"

// segment is the area that a chord at distance d from the centre cuts off a disc
// of radius r, and the angle that it spans.
func segment(r, d float64) (area, angle float64) {
	half := math.Acos(d / r)
	return r * r * (half - math.Sin(half)*math.Cos(half)), 2 * half
}

// lens is the area that two discs of radii r and s at distance d have in common.
func lens(r, s, d float64) float64 {
	x := (d*d + r*r - s*s) / (2 * d)
	a, _ := segment(r, x)
	b, _ := segment(s, d-x)
	return a + b
}

// Areas of plates put together of shapes, by closed forms.
func TestCombinedAreas(t *testing.T) {
	cap30, _ := segment(30, 10)
	for _, c := range []struct {
		name, text string
		want       float64
		openings   int
	}{
		{"nothing added", "add: []\ncutouts:\n" + rectangle, 6000, 0},
		{"add a disc in the corner", rectangle + "add:\n  - disc: {at: [50, 30], diameter: 40}\n", 6000 + 0.75*math.Pi*400, 0},
		{"add a strip that shares an edge", rectangle + "add:\n  - rectangle: {at: [0, 40], width: 50, height: 20}\n", 7000, 0},
		{"add what is in the plate", rectangle + "add:\n  - disc: {diameter: 20}\n", 6000, 0},
		{"added shapes reach by way of each other", rectangle + "add:\n  - rectangle: {at: [0, 80], width: 10, height: 40}\n  - rectangle: {at: [0, 45], width: 10, height: 40}\n", 6700, 0},
		{"discs of one size", "outline: {disc: {diameter: 60}}\nadd:\n  - disc: {at: [20, 0], diameter: 60}\n", 2*math.Pi*900 - lens(30, 30, 20), 0},
		{"disc and smaller disc", "outline: {disc: {diameter: 60}}\ncutouts:\n  - disc: {at: [25, 0], diameter: 40}\n", math.Pi*900 - lens(30, 20, 25), 0},
		{"cut a step", rectangle + "cutouts:\n  - rectangle: {at: [50, 30], width: 40, height: 20}\n", 6000 - 20*10, 0},
		{"cut a half disc", rectangle + "cutouts:\n  - disc: {at: [0, 30], diameter: 40}\n", 6000 - math.Pi*200, 0},
		{"cut a cap", rectangle + "cutouts:\n  - disc: {at: [0, 40], diameter: 60}\n", 6000 - cap30, 0},
		{"cut a window", rectangle + "cutouts:\n  - rectangle: {width: 20, height: 10}\n", 5800, 1},
		{"cut two windows", rectangle + "cutouts:\n  - rectangle: {at: [-20, 0], width: 20, height: 10}\n  - disc: {at: [20, 0], diameter: 20}\n", 5800 - math.Pi*100, 2},
		{"windows on each other", rectangle + "cutouts:\n  - disc: {at: [-6, 0], diameter: 20}\n  - disc: {at: [6, 0], diameter: 20}\n", 6000 - 2*math.Pi*100 + lens(10, 10, 12), 1},
		{"one window in another", rectangle + "cutouts:\n  - disc: {diameter: 20}\n  - disc: {diameter: 10}\n", 6000 - math.Pi*100, 1},
		{"a window opens into a step", rectangle + "cutouts:\n  - rectangle: {at: [0, 15], width: 20, height: 10}\n  - rectangle: {at: [0, 25], width: 10, height: 20}\n", 6000 - 200 - 100, 0},
		{"added shape is cut", rectangle + "add:\n  - disc: {at: [50, 0], diameter: 40}\ncutouts:\n  - disc: {at: [50, 0], diameter: 20}\n", 6000 + math.Pi*200 - math.Pi*100, 1},
		{"added shapes enclose", rectangle + "add:\n  - rectangle: {at: [-20, 40], width: 10, height: 20}\n  - rectangle: {at: [20, 40], width: 10, height: 20}\n  - rectangle: {at: [0, 55], width: 50, height: 10}\n", 6000 + 400 + 500, 1},
		{"add a ring", rectangle + "add:\n  - ring: {at: [50, 0], outside: 40, inside: 20}\n", 6000 + math.Pi*200 - math.Pi*50, 1},
		{"cut a ring", rectangle + "cutouts:\n  - ring: {outside: 40, inside: 30}\n", -1, 0},
		{"ring", "outline: {ring: {outside: 100, inside: 60}}\nadd: []\n", math.Pi * 1600, 0},
		{"ring with an ear", "outline: {ring: {outside: 100, inside: 60}}\nadd:\n  - rectangle: {at: [60, 0], width: 40, height: 20}\n",
			math.Pi*1600 + 800 - strip(50, 40, 10), 0},
		{"ring with a key way", "outline: {ring: {outside: 100, inside: 60}}\ncutouts:\n  - rectangle: {at: [30, 0], width: 20, height: 10}\n",
			math.Pi*1600 - (200 - strip(30, 20, 5)), 1},
		{"ring filled", "outline: {ring: {outside: 100, inside: 60}}\nadd:\n  - disc: {diameter: 60}\n", math.Pi * 2500, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.want < 0 {
				if got := said(t, c.text); !strings.Contains(got, "cuts the plate into 2 pieces") {
					t.Error(got)
				}
				return
			}
			b := described(t, c.text)
			near(t, "area", b.Region().Area(), c.want, 1e-9*c.want)
			if len(b.Cutouts) != c.openings {
				t.Errorf("%d cutouts, want %d", len(b.Cutouts), c.openings)
			}
		})
	}
}

// strip is what a disc of radius r about 0,0 has in common with the strip of half
// the width h from x on to the right.
func strip(r, x, h float64) float64 {
	// The integral of sqrt(r2-y2)-x over y from -h to h.
	return h*math.Sqrt(r*r-h*h) + r*r*math.Asin(h/r) - 2*h*x
}

// A cutout inside the metal keeps the very loop that was drawn: a disc is its
// circle, and it is named and placed like its entry.
func TestCutoutsKeepTheirLoops(t *testing.T) {
	b := described(t, rectangle+`holes:
  cutout-3: {at: [-40, 20], diameter: 5}
cutouts:
  - {name: eye, disc: {at: [20, 5], diameter: 20}}
  - rectangle: {at: [-20, 0], width: 20, height: 10, radius: 3}
  - disc: {at: [0, -20], diameter: 6}
tab slots:
  - {at: [0, 20], tab: 20, thickness: 5}
`)
	var names []string
	for i, c := range b.Cutouts {
		names = append(names, c.Name)
		want := CutoutOpening
		if i == 3 {
			want = TabSlotOpening
		}
		if c.Purpose != want || c.Fixed || c.Pos.Line < 5 || c.Loop.Area() <= 0 {
			t.Errorf("%+v", c)
		}
	}
	if got := strings.Join(names, " "); got != "eye cutout-2 cutout-3-2 tab-slot-1" {
		t.Errorf("the cutouts are named %s", got)
	}
	if k, ok := b.Cutouts[0].Loop.Circle(); !ok || k != (geom.Circle{C: geom.Point{X: 20, Y: 5}, R: 10}) {
		t.Errorf("the eye is %s", b.Cutouts[0].Loop)
	}
	if n := len(b.Cutouts[1].Loop); n != 8 {
		t.Errorf("the window has %d edges, want 8", n)
	}
	if n := testing.AllocsPerRun(10, func() { b.Region() }); n > 1 {
		t.Errorf("the region takes %g allocations, want 1", n)
	}
}

// What is joined keeps the circles of what it was made of, to the last bit.
func TestCombinedArcsKeepTheirCircles(t *testing.T) {
	b := described(t, "outline: {rectangle: {width: 100.1, height: 60.3, radius: 7.7}}\nadd:\n  - disc: {at: [50.05, 0.1], diameter: 41.3}\n"+
		"cutouts:\n  - disc: {at: [50.05, 0.1], diameter: 13.7}\n  - disc: {at: [-50.2, 30.1], diameter: 33.3}\n")
	for _, want := range []geom.Circle{
		{C: geom.Point{X: 50.05, Y: 0.1}, R: 41.3 / 2}, {C: geom.Point{X: -50.2, Y: 30.1}, R: 33.3 / 2},
	} {
		found := false
		for _, s := range b.Outline {
			found = found || s.Circle() == want
		}
		if !found {
			t.Errorf("no edge of %s lies on %v", b.Outline, want)
		}
	}
	if k, ok := b.Cutouts[0].Loop.Circle(); !ok || k != (geom.Circle{C: geom.Point{X: 50.05, Y: 0.1}, R: 13.7 / 2}) {
		t.Errorf("the opening is %s", b.Cutouts[0].Loop)
	}
}

// Openings that come of several shapes are named after the first of them, and
// cannot be moved by themselves.
func TestOpeningsOfSeveralShapes(t *testing.T) {
	b := described(t, rectangle+`add:
  - {name: left, rectangle: {at: [-20, 40], width: 10, height: 20}}
  - rectangle: {at: [20, 40], width: 10, height: 20}
  - rectangle: {at: [0, 55], width: 50, height: 10}
cutouts:
  - {name: a, disc: {at: [-30, 0], diameter: 20}}
  - {name: b, disc: {at: [-20, 0], diameter: 20}}
  - {name: c, disc: {at: [0, 0], diameter: 9}}
`)
	if len(b.Cutouts) != 3 {
		t.Fatalf("%d cutouts", len(b.Cutouts))
	}
	for i, want := range []struct {
		name  string
		fixed bool
		line  int
	}{{"left-opening", true, 7}, {"a", true, 11}, {"c", false, 13}} {
		c := b.Cutouts[i]
		if c.Name != want.name || c.Fixed != want.fixed || c.Pos.Line != want.line {
			t.Errorf("cutout %d is %q, fixed %v, line %d; want %+v", i+1, c.Name, c.Fixed, c.Pos.Line, want)
		}
	}
	b = described(t, "outline: {ring: {outside: 100, inside: 60}}\ncutouts:\n  - {name: key, rectangle: {at: [30, 0], width: 20, height: 10}}\n")
	if len(b.Holes) != 0 || len(b.Cutouts) != 1 || b.Cutouts[0].Name != "key" {
		t.Errorf("the ring with a key way has %d holes and %+v", len(b.Holes), b.Cutouts)
	}
	b = described(t, "outline: {ring: {outside: 100, inside: 60}}\ncutouts:\n  - {name: key, rectangle: {at: [50, 0], width: 20, height: 10}}\n")
	if len(b.Holes) != 1 || b.Holes[0].Purpose != RingOpening || b.Holes[0].Dia != 60 || len(b.Cutouts) != 0 {
		t.Errorf("the ring with a notch has %+v and %+v", b.Holes, b.Cutouts)
	}
}

// What cannot be put together is told with its place, several at once.
func TestCombineProblems(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"added apart", rectangle + "add:\n  - {name: ear, disc: {at: [80, 0], diameter: 40}}\n  - disc: {at: [0, 100], diameter: 20}\n",
			"3: added shape \"ear\" does not touch the plate: it lies 10.00 mm from it, at x 60.00 mm, y 0.00 mm | move it, or add what joins them\n" +
				"4: added shape \"added-shape-2\" does not touch the plate: it lies 60.00 mm from it, at x 0.00 mm, y 90.00 mm | move it, or add what joins them"},
		{"added touches in a point", rectangle + "add:\n  - disc: {at: [70, 0], diameter: 40}\n", "3: added shape \"added-shape-1\" only touches the plate, at x 50.00 mm, y 0.00 mm | let it overlap the plate"},
		{"cutout outside", rectangle + "cutouts:\n  - {name: far, disc: {at: [80, 0], diameter: 40}}\n  - disc: {at: [0, 50], diameter: 20}\n",
			"3: cutout \"far\" takes nothing off the plate: it lies 10.00 mm from it, at x 60.00 mm, y 0.00 mm | move it onto the plate, or leave it out\n" +
				"4: cutout \"cutout-2\" takes nothing off the plate: it lies 10.00 mm from it, at x 0.00 mm, y 40.00 mm | move it onto the plate, or leave it out"},
		{"cutout touches", rectangle + "cutouts:\n  - rectangle: {at: [60, 0], width: 20, height: 10}\n",
			"3: cutout \"cutout-1\" takes nothing off the plate: it only touches it, at x 50.00 mm, y -5.00 mm | move it onto the plate, or leave it out"},
		{"one of two touches", rectangle + "cutouts:\n  - rectangle: {at: [60, 0], width: 20, height: 10}\n  - rectangle: {at: [-50, 0], width: 20, height: 10}\n",
			"3: cutout \"cutout-1\" takes nothing off the plate: it only touches it, at x 50.00 mm, y -5.00 mm | move it onto the plate, or leave it out"},
		{"swallowed", rectangle + "cutouts:\n  - {name: all, disc: {diameter: 400}}\n", "3: cutout \"all\" leaves nothing of the plate | make it smaller, or move it"},
		{"swallowed by two", rectangle + "cutouts:\n  - {name: a, rectangle: {at: [-30, 0], width: 70, height: 70}}\n  - {name: b, rectangle: {at: [30, 0], width: 70, height: 70}}\n",
			"4: cutout \"b\" leaves nothing of the plate | make it smaller, or move it"},
		{"in two", rectangle + "cutouts:\n  - {name: slit, rectangle: {at: [20, 0], width: 10, height: 100}}\n  - disc: {at: [-50, 0], diameter: 20}\n",
			"3: cutout \"slit\" cuts the plate into 2 pieces: one of 25.00 mm by 60.00 mm falls off at x 37.50 mm, y 0.00 mm | make it smaller, move it, or leave metal beside it"},
		{"two in two", rectangle + "cutouts:\n  - {name: a, rectangle: {at: [20, 0], width: 10, height: 100}}\n  - {name: b, rectangle: {at: [-20, 0], width: 10, height: 100}}\n",
			"3: cutout \"a\" cuts the plate into 2 pieces: one of 25.00 mm by 60.00 mm falls off at x 37.50 mm, y 0.00 mm | make it smaller, move it, or leave metal beside it\n" +
				"4: cutout \"b\" cuts the plate into 2 pieces: one of 25.00 mm by 60.00 mm falls off at x -37.50 mm, y 0.00 mm | make it smaller, move it, or leave metal beside it"},
		{"in two together", rectangle + "cutouts:\n  - {name: high, rectangle: {at: [20, 15], width: 10, height: 40}}\n  - {name: low, rectangle: {at: [20, -15], width: 10, height: 40}}\n",
			"4: cutout \"low\" cuts the plate into 2 pieces: one of 25.00 mm by 60.00 mm falls off at x 37.50 mm, y 0.00 mm | make it smaller, move it, or leave metal beside it"},
		{"shapes at fault", rectangle + "add:\n  - rectangle: {width: 10, height: 10, radius: 6}\ncutouts:\n  - corners: [[0, 0], [10, 10], [10, 0], [0, 10]]\n  - tangent: [{at: [0, 0], radius: 5}, {at: [50000, 0], radius: 5}]\n",
			"3: a corner radius of 6.00 mm does not fit a rectangle of 10.00 mm by 10.00 mm | make it 5.00 mm or less\n" +
				"5: the cutout \"cutout-1\" touches or crosses itself at 5.00 mm, 5.00 mm | look at the sides from corner 1 to 2 and from corner 3 to 4, and at the order of the corners\n" +
				"6: the place of the boss is out of reach: wanted no more than 20000.00 mm | check the units: a bare number takes those of the file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := said(t, c.text); got != c.want {
				t.Errorf("said\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

// A cutout that leaves two pieces touching in a point leaves no plate.
func TestPiecesThatTouch(t *testing.T) {
	got := said(t, rectangle+"cutouts:\n  - {name: bite, disc: {at: [0, 0], diameter: 60}}\n")
	if want := "3: cutout \"bite\" cuts the plate into 2 pieces: "; !strings.HasPrefix(got, want) {
		t.Error(got)
	}
}

// A part made by hand, without the reader's checks, is refused as well.
func TestNamesTakenTwice(t *testing.T) {
	p := plate(big(), hole("a", place(0, 0), dia(10)))
	disc := describe.Shape{Disc: &describe.Disc{At: xy(50, 0), Diameter: mm(10)}}
	p.Cutouts = []describe.Piece{{Pos: at(50), Name: wordAt("a", 50), Shape: disc}}
	wantProblem(t, p, 50, "two things are named \"a\"")
	p.Cutouts[0].Name = describe.Word{}
	if n := made(t, p).Cutouts[0].Name; n != "cutout-1" {
		t.Errorf("a cutout without a name is called %q", n)
	}
	p.Cutouts[0].Shape = describe.Shape{}
	wantProblem(t, p, 50, "the cutout \"cutout-1\" has no shape")
	p.Cutouts = nil
	p.Holes[0].For = wordAt("show", 10)
	wantProblem(t, p, 10, "for is one of: lightening")
	p.Holes[0].For = wordAt("lightening", 10)
	if h := made(t, p).Holes[0]; h.Purpose != Lightening || h.Purpose.String() != "lightening hole" || h.Bolt != nil || h.Callout != "lightening 10 mm" {
		t.Errorf("%+v", h)
	}
	p.Holes[0].Size = bolt("M12")
	wantProblem(t, p, 10, "lightening and for what goes through it")
}
