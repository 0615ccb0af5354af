package stroke_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"blankwright/export/stroke"
	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/samples"
)

const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-./+"

// Every letter has ink of its own, stays within the height of capitals and its
// own width, runs on without a gap inside a stroke and draws nothing twice.
func TestLetters(t *testing.T) {
	const h = 6
	seen := map[string]string{}
	for _, c := range letters {
		text := string(c)
		strokes, err := stroke.Write(text, h)
		if err != nil {
			t.Fatal(err)
		}
		var box geom.Box
		var all []geom.Seg
		shape := ""
		for _, s := range strokes {
			box = box.Union(s.Bounds())
			for i, g := range s {
				if i > 0 && s[i-1].B != g.A {
					t.Errorf("%s: a stroke is broken at %v", text, g.A)
				}
				if g.Length() < 0.5 {
					t.Errorf("%s: a segment of %v mm", text, g.Length())
				}
				for _, o := range all {
					if o.Mid().Dist(g.Mid()) < 0.02 && math.Min(o.A.Dist(g.A), o.A.Dist(g.B)) < 0.02 {
						t.Errorf("%s: drawn twice at %v", text, g.Mid())
					}
				}
				all = append(all, g)
			}
			shape += s.String() + "|"
		}
		if len(all) == 0 || box.Min.X < -1e-9 || box.Min.Y < -1e-9 || box.Max.Y > h+1e-9 || box.Max.X > stroke.Width(text, h)+1e-9 {
			t.Errorf("%s: ink %v, width %v", text, box, stroke.Width(text, h))
		}
		if letter := strings.Contains(letters[:36], text); letter && math.Abs(box.Height()-h) > 1e-9 {
			t.Errorf("%s is %v high", text, box.Height())
		}
		if other, ok := seen[shape]; ok {
			t.Errorf("%s and %s look alike", text, other)
		}
		seen[shape] = text
	}
}

// Arcs in letters meet what they are drawn to meet without a kink: the round
// letters are smooth all along.
func TestRoundLettersAreSmooth(t *testing.T) {
	for _, c := range "CJOSU0" {
		strokes, _ := stroke.Write(string(c), 6)
		for i := 1; i < len(strokes[0]); i++ {
			a, b := strokes[0][i-1].DirB(), strokes[0][i].DirA()
			if a.Dist(b) > 1e-9 {
				t.Errorf("%c: kink at %v", c, strokes[0][i].A)
			}
		}
	}
}

func TestTextsWithoutLetters(t *testing.T) {
	for _, text := range []string{"", "  ", "a\nb", "größe", "a_b", "\x00", strings.Repeat("A", 121)} {
		if _, err := stroke.Write(text, 6); err == nil {
			t.Errorf("%q was written", text)
		}
	}
	a, _ := stroke.Write("tab 1", 6)
	b, _ := stroke.Write("TAB 1", 6)
	for i := range b {
		if a[i].String() != b[i].String() {
			t.Errorf("small letters are not written as capitals")
		}
	}
	if got := stroke.Width("II", 6); math.Abs(got-5.75) > 1e-12 { // 2 + 1.75 + 2
		t.Errorf("width %v", got)
	}
}

func made(t *testing.T, text string) []*blank.Blank {
	t.Helper()
	p, err := describe.Parse("part.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	bs, err := blank.Make(p)
	if err != nil {
		t.Fatal(err)
	}
	return bs
}

// clear holds every stroke of the placed marks against every edge and opening,
// and every mark against the others.
func clear(t *testing.T, b *blank.Blank, marks []stroke.Mark) {
	t.Helper()
	least := stroke.Clear(b)
	loops := []geom.Loop{b.Outline}
	for _, h := range b.Holes {
		loops = append(loops, h.Finished())
	}
	for _, c := range b.Cutouts {
		loops = append(loops, c.Loop)
	}
	for i, m := range marks {
		if m.Err != nil {
			continue
		}
		if m.Height < 4 || m.Height > 6 || len(m.Strokes) == 0 {
			t.Errorf("%q is %v mm high", m.Text, m.Height)
		}
		for _, s := range m.Strokes {
			if b.Outline.Contains(s[0].A) != geom.Inside {
				t.Errorf("%q leaves the plate", m.Text)
			}
			for _, w := range b.Welds {
				if d := geom.LoopLoop(s, geom.Loop(w.Line)).D; d < least+w.Leg-1e-6 {
					t.Errorf("%q is %v mm from weld %q with a leg of %v", m.Text, d, w.Name, w.Leg)
				}
			}
			for j, l := range loops {
				if j > 0 && l.Contains(s[0].A) != geom.Outside {
					t.Errorf("%q stands in an opening", m.Text)
				}
				for _, g := range s {
					for _, e := range l {
						if d := geom.SegSeg(g, e).D; d < least-1e-6 {
							t.Fatalf("%q is %v mm from loop %d, wanted %v", m.Text, d, j, least)
						}
					}
				}
			}
			for _, o := range marks[:i] {
				for _, r := range o.Strokes {
					if d := geom.LoopLoop(s, r).D; d < least-1e-6 {
						t.Fatalf("%q is %v mm from %q", m.Text, d, o.Text)
					}
				}
			}
		}
	}
}

func TestSamplesHaveTheirMarks(t *testing.T) {
	placed := 0
	for _, s := range samples.List() {
		if s.Variant != samples.Mended {
			continue
		}
		for _, b := range made(t, string(s.Text)) {
			marks := stroke.Place(b)
			if len(marks) != len(b.Marks) {
				t.Fatalf("%s: %d marks of %d", s.Path, len(marks), len(b.Marks))
			}
			clear(t, b, marks)
			for _, m := range marks {
				if m.Err != nil {
					t.Logf("%s (%s): %v", s.Path, b.Hand, m.Err)
					continue
				}
				placed++
			}
		}
	}
	if placed < 5 {
		t.Errorf("%d marks have a place", placed)
	}
}

const pair = `part: side tab
quantity: 2
hand: pair
units: mm
plate: {thickness: 6, material: S235JR}
process: air plasma
holes:
  pin: {at: [30, 60], diameter: 14}
outline:
  corners: [[0, 0], [100, 0], [60, 100], [0, 100]]
marks:
  - {text: name}
  - {text: R-1, at: [20, 20]}
`

// Both hands have their marks on the same metal, and both can be read.
func TestMirroredMarks(t *testing.T) {
	bs := made(t, pair)
	a, b := stroke.Place(bs[0]), stroke.Place(bs[1])
	clear(t, bs[0], a)
	clear(t, bs[1], b)
	for i := range a {
		if a[i].Err != nil || b[i].Err != nil {
			t.Fatal(a[i].Err, b[i].Err)
		}
		var boxes [2]geom.Box
		for k, m := range []stroke.Mark{a[i], b[i]} {
			for _, s := range m.Strokes {
				boxes[k] = boxes[k].Union(s.Bounds())
			}
		}
		if math.Abs(boxes[0].Min.X+boxes[1].Max.X) > 1e-9 || math.Abs(boxes[0].Min.Y-boxes[1].Min.Y) > 1e-9 {
			t.Errorf("%q: %v is not the image of %v", a[i].Text, boxes[1], boxes[0])
		}
		// Not turned over: the same strokes, moved.
		d := b[i].Strokes[0][0].A.Sub(a[i].Strokes[0][0].A)
		for k, s := range a[i].Strokes {
			if s[0].B.Add(d).Dist(b[i].Strokes[k][0].B) > 1e-9 {
				t.Errorf("%q is turned over", a[i].Text)
			}
		}
	}
	if a[1].From.Dist(geom.Point{X: 20, Y: 20}) > 1e-9 {
		t.Errorf("a given place became %v", a[1].From)
	}
}

// Where there is no room at 6 mm the text is made smaller, then turned upright,
// then left to the hand with the reason.
func TestRoomRunsOut(t *testing.T) {
	plate := func(w, h, marks string) []stroke.Mark {
		bs := made(t, "part: t1\nunits: mm\nplate: {thickness: 3, material: S235JR}\nprocess: air plasma\noutline:\n  rectangle: {width: "+w+", height: "+h+"}\nmarks:\n"+marks)
		m := stroke.Place(bs[0])
		clear(t, bs[0], m)
		return m
	}
	for _, r := range []struct {
		w, h    string
		height  float64
		upright bool
	}{{"40", "20", 6, false}, {"40", "11.5", 5, false}, {"40", "10.1", 4, false}, {"12.5", "40", 6, true}, {"40", "9.9", 0, false}} {
		m := plate(r.w, r.h, "  - {text: TAB}\n")[0]
		if (m.Err != nil) != (r.height == 0) || m.Height != r.height || m.Upright != r.upright {
			t.Errorf("%s x %s: height %v, upright %v, %v; wanted %v, %v", r.w, r.h, m.Height, m.Upright, m.Err, r.height, r.upright)
		}
	}
	if m := plate("40", "40", "  - {text: TAB, at: [-19, -19]}\n")[0]; m.Err == nil || !strings.Contains(m.Err.Error(), "nearer than 3 mm") {
		t.Errorf("a mark on the edge: %v", m.Err)
	}
	// Two texts keep clear of each other.
	if m := plate("28", "12", "  - {text: TAB}\n  - {text: TAB}\n"); m[0].Err != nil || m[1].Err == nil {
		t.Errorf("two marks where one has room: %v, %v", m[0].Err, m[1].Err)
	}
}

// A mark keeps clear of the bead of a weld, on both hands; where the bead leaves no
// room it is left to the hand.
func TestMarksKeepOffWelds(t *testing.T) {
	tab := func(leg, marks string) (bs []*blank.Blank) {
		return made(t, "part: t1\nunits: mm\nhand: pair\nquantity: 2\nplate: {thickness: 6, material: S235JR}\nprocess: fibre laser\n"+
			"outline:\n  corners: [[0, 0], [60, 0], [60, 24], [0, 24]]\n"+
			"welds:\n  - {from: [0, 0], to: [60, 0], leg: "+leg+", both sides: true}\nmarks:\n"+marks)
	}
	low := map[string]float64{}
	for _, leg := range []string{"4", "6"} {
		for _, b := range tab(leg, "  - {text: TAB}\n") {
			if len(b.Welds) != 1 {
				t.Fatal("the tab has no weld")
			}
			marks := stroke.Place(b)
			clear(t, b, marks)
			if marks[0].Err != nil {
				t.Fatalf("leg %s: %v", leg, marks[0].Err)
			}
			low[leg] = marks[0].From.Y
		}
	}
	if low["6"] <= low["4"] {
		t.Errorf("a mark beside a leg of 6 stands at %v, beside one of 4 at %v", low["6"], low["4"])
	}
	for _, b := range tab("14", "  - {text: TAB}\n") {
		if m := stroke.Place(b)[0]; m.Err == nil || !strings.Contains(m.Err.Error(), "welds") {
			t.Errorf("a mark under the bead: %v", m.Err)
		}
	}
	for _, b := range tab("6", "  - {text: TAB, at: [20, 8]}\n") {
		if m := stroke.Place(b)[0]; m.Err == nil {
			t.Error("a mark placed by hand stands too near the bead")
		}
	}
}

const bent = `part: hat one
quantity: 2
hand: pair
units: mm
plate: {thickness: 3, material: S355MC}
process: fibre laser
formed: {hat: {width: 50, web: 30, feet: 24, length: 46}}
bends: {radius: 3, rule: k 0.42}
marks:
  - {text: name}
  - {text: R-1}
  - {text: CROWN, at: PLACE}
`

// No mark comes near metal that is bent, nor stands across it with a letter on
// either side.
func TestMarksKeepOffBends(t *testing.T) {
	at := func(place string) []*blank.Blank { return made(t, strings.Replace(bent, "PLACE", place, 1)) }
	for _, b := range at("[-12, 0]") {
		marks := stroke.Place(b)
		clear(t, b, marks)
		for _, m := range marks {
			if m.Err != nil {
				t.Fatalf("%s: %v", m.Text, m.Err)
			}
			var whole geom.Box
			for _, s := range m.Strokes {
				whole = whole.Union(s.Bounds())
			}
			for i := range b.Formed.Flat.Bends {
				zone := b.Formed.Flat.Bends[i].Zone.Outer
				z := zone.Bounds()
				if whole.Min.X < z.Max.X && z.Min.X < whole.Max.X && whole.Min.Y < z.Max.Y && z.Min.Y < whole.Max.Y {
					t.Errorf("%s: %q stands across a bend", b.Hand, m.Text)
				}
				for _, s := range m.Strokes {
					if d := geom.LoopLoop(s, zone).D; d < stroke.Clear(b)-1e-6 {
						t.Errorf("%s: %q is %v mm from a bend", b.Hand, m.Text, d)
					}
				}
			}
		}
	}
	b := at("[0, 0]")[0]
	zone := b.Formed.Flat.Bends[0].Zone.Outer.Bounds()
	// From within a bend, and from one side of it to the other.
	for _, x := range []float64{zone.Centre().X, zone.Min.X - 5.5, zone.Min.X - 16} {
		b := at(fmt.Sprintf("[%v, 0]", x))[0]
		if m := stroke.Place(b)[2]; m.Err == nil || !strings.Contains(m.Err.Error(), "a hole, a bend") {
			t.Errorf("from %v, with a bend from %v to %v: %v", x, zone.Min.X, zone.Max.X, m.Err)
		}
	}
}

func BenchmarkPlace(b *testing.B) {
	p, err := describe.Parse("part.yaml", []byte(pair))
	if err != nil {
		b.Fatal(err)
	}
	bs, err := blank.Make(p)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		stroke.Place(bs[0])
	}
}
