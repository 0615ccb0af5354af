package blank

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// The builders below write descriptions as the parser would leave them; lines
// count up so that every value has a place of its own.

func at(line int) diag.Pos { return diag.Pos{File: "part.yaml", Line: line, Col: 3} }

func mm(v float64) describe.Length { return describe.Length{MM: v, Set: true} }

func inch(v float64) describe.Length { return mm(v * unit.MM) }

func xy(x, y float64) describe.Point { return describe.Point{X: mm(x), Y: mm(y)} }

func place(x, y float64) describe.Place {
	p := xy(x, y)
	return describe.Place{At: &p}
}

func deg(v float64) describe.Angle { return describe.Angle{Rad: v * math.Pi / 180, Set: true} }

func n(v int) describe.Count { return describe.Count{N: v, Set: true} }

func word(s string) describe.Word { return describe.Word{Text: s, Set: true} }

func wordAt(s string, line int) describe.Word {
	return describe.Word{Text: s, Set: true, Pos: at(line)}
}

// plate is a part of 1/4 in A36 plate with the outline and the holes given.
func plate(s describe.Shape, holes ...describe.HoleSet) *describe.Part {
	if s.Pos.Line == 0 {
		s.Pos = at(100)
	}
	for i := range holes {
		if holes[i].Pos.Line == 0 {
			holes[i].Pos = at(10 + i)
			holes[i].Name.Pos = at(10 + i)
		}
	}
	return &describe.Part{
		File: "part.yaml", Pos: at(1), Name: word("axle tab"), Units: unit.Millimetre,
		Quantity: describe.Count{N: 1},
		Plate:    describe.Plate{Pos: at(2), Thickness: mm(6.35), Material: word("A36")},
		Process:  word("air plasma"),
		Outline:  s, Holes: holes,
	}
}

func hole(name string, p describe.Place, s describe.Size) describe.HoleSet {
	return describe.HoleSet{Name: word(name), Place: p, Size: s}
}

func dia(v float64) describe.Size { return describe.Size{Diameter: mm(v)} }

func bolt(s string) describe.Size { return describe.Size{Bolt: word(s)} }

func big() describe.Shape {
	return describe.Shape{Rectangle: &describe.Rectangle{Pos: at(101), Width: mm(1000), Height: mm(1000)}}
}

// made makes a part of one hand.
func made(t testing.TB, p *describe.Part) *Blank {
	t.Helper()
	bs, err := Make(p)
	if err != nil {
		t.Fatal(err)
	}
	if len(bs) != 1 {
		t.Fatalf("got %d blanks, want 1", len(bs))
	}
	checkSound(t, bs[0])
	return bs[0]
}

// checkSound holds what is promised of every blank.
func checkSound(t testing.TB, b *Blank) {
	t.Helper()
	if err := b.Outline.Validate(); err != nil {
		t.Fatal(err)
	}
	if b.Outline.Area() <= 0 {
		t.Fatalf("outline runs clockwise: %s", b.Outline)
	}
	names := map[string]bool{}
	for _, h := range b.Holes {
		if names[h.Name] {
			t.Fatalf("two holes are named %q", h.Name)
		}
		names[h.Name] = true
		if h.Callout == "" || h.Source == "" || h.Pos.Line == 0 {
			t.Fatalf("hole %q lacks callout, source or place: %+v", h.Name, h)
		}
	}
	for _, c := range b.Cutouts {
		if names[c.Name] || c.Name == "" || c.Pos.Line == 0 || (c.Slot != nil) != (c.Purpose == TabSlotOpening) {
			t.Fatalf("cutout %q: its name is taken, or it lacks its place or its slot: %+v", c.Name, c)
		}
		names[c.Name] = true
		if err := c.Loop.Validate(); err != nil {
			t.Fatalf("cutout %q: %v", c.Name, err)
		}
		if c.Loop.Area() <= 0 || c.clockwise().Area() >= 0 {
			t.Fatalf("cutout %q runs the wrong way", c.Name)
		}
	}
	for _, e := range b.Edges {
		if e.Role == FreeEdge || len(e.Segs) == 0 && e.Role == SaddleEdge {
			t.Fatalf("edge %q is nothing: %+v", e.Name, e)
		}
		for _, k := range e.Segs {
			if k < 0 || k >= len(b.Outline) {
				t.Fatalf("edge %q has segment %d of %d", e.Name, k, len(b.Outline))
			}
		}
	}
}

// refused gives the problems of a part that cannot be made.
func refused(t testing.TB, p *describe.Part) diag.Problems {
	t.Helper()
	bs, err := Make(p)
	if err == nil {
		t.Fatal("the part was made, want problems")
	}
	if bs != nil {
		t.Fatal("there are blanks beside the problems")
	}
	ps, ok := err.(diag.Problems)
	if !ok {
		t.Fatalf("the error is a %T, want diag.Problems", err)
	}
	for _, p := range ps {
		if p.Pos.Line == 0 {
			t.Errorf("problem without a place: %s", p.Message)
		}
		for _, s := range []string{p.Message, p.Hint} {
			if strings.HasSuffix(s, ".") || strings.Contains(strings.ToLower(s), "safe") {
				t.Errorf("message breaks the house rules: %q", s)
			}
		}
	}
	return ps
}

// wantProblem holds a part to one problem at a line, whose message or hint has
// the text.
func wantProblem(t *testing.T, p *describe.Part, line int, text string) {
	t.Helper()
	ps := refused(t, p)
	if len(ps) != 1 {
		t.Fatalf("got %d problems, want 1:\n%s", len(ps), ps)
	}
	if ps[0].Pos.Line != line {
		t.Errorf("problem is at line %d, want %d: %s", ps[0].Pos.Line, line, ps[0].Message)
	}
	if !strings.Contains(ps[0].Message+"\n"+ps[0].Hint, text) {
		t.Errorf("problem is\n%s\nwant it to say %q", ps, text)
	}
}

func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s is %.6f, want %.6f", what, got, want)
	}
}

func nearPoint(t testing.TB, what string, got geom.Point, want [2]float64, tol float64) {
	t.Helper()
	near(t, what+" x", got.X, want[0], tol)
	near(t, what+" y", got.Y, want[1], tol)
}

func load(t testing.TB, file string, into any) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatal(err)
	}
}
