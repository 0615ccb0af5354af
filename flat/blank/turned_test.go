package blank

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blankwright/flat/describe"
	"blankwright/flat/fold"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

// bentPlate is a random bent part that can be written as it is, turned and shifted,
// or as its mirror image.
type bentPlate struct {
	head    string
	corners []geom.Point
	holes   []geom.Point // in the base
	flanges []ear
	grain   float64 // degrees
}

// ear is a flange on an edge of the base, perhaps with one on its end.
type ear struct {
	edge        int
	angle       float64 // degrees
	turn        string
	height      float64
	left, right float64 // offsets, mm
	tapers      [2]float64
	radii       [2]float64
	hole        geom.Point
	lip         float64 // height of the one on the end; 0 for none
}

func drawBentPlate(t *rapid.T) bentPlate {
	f := func(from, to float64, what string) float64 { return rapid.Float64Range(from, to).Draw(t, what) }
	tenths := func(what string) float64 { return float64(rapid.IntRange(0, 80).Draw(t, what)) / 10 }
	rule := rapid.SampledFrom([]string{"table", "k 0.38", "din 6935", "aircraft"}).Draw(t, "rule")
	b := bentPlate{
		head: fmt.Sprintf("part: a\nunits: mm\nplate: {thickness: %v, material: S355MC}\nprocess: fibre laser\n", f(1, 4, "thickness")),
		// A four-sided base whose sides are 150 mm and more and whose corners stay
		// open enough for a flange on each.
		corners: []geom.Point{{X: -100 + f(-15, 15, "x1"), Y: -90 + f(-15, 15, "y1")}, {X: 100 + f(-15, 15, "x2"), Y: -90 + f(-15, 15, "y2")},
			{X: 100 + f(-15, 15, "x3"), Y: 90 + f(-15, 15, "y3")}, {X: -100 + f(-15, 15, "x4"), Y: 90 + f(-15, 15, "y4")}},
		holes: []geom.Point{{X: f(-30, 30, "hole x"), Y: f(-30, 30, "hole y")}},
		grain: f(0, 179, "grain"),
	}
	b.head += fmt.Sprintf("bends: {radius: %v, rule: %s, grain: GRAIN deg}\n", f(1, 6, "radius"), rule)
	for edge := range b.corners {
		if edge > 0 && !rapid.Bool().Draw(t, "has") {
			continue
		}
		e := ear{edge: edge, angle: f(5, 110, "angle"), turn: rapid.SampledFrom([]string{"up", "down"}).Draw(t, "turn"), height: f(62, 80, "height"),
			left: f(35, 45, "left"), right: f(35, 45, "right"), tapers: [2]float64{tenths("taper"), tenths("taper")},
			radii: [2]float64{f(1, 8, "corner"), f(1, 8, "corner")}, hole: geom.Point{X: f(60, 80, "x"), Y: f(36, 38, "y")}}
		if rapid.Bool().Draw(t, "lip") {
			e.lip = f(30, 40, "lip")
		}
		b.flanges = append(b.flanges, e)
	}
	return b
}

// text writes the part with its base moved; with mirror as the image of that.
func (b *bentPlate) text(m geom.Motion, turned float64, mirror bool) string {
	var s strings.Builder
	s.WriteString(strings.Replace(b.head, "GRAIN", num.Short(math.Mod(b.grain+turned, 180), 9), 1))
	place := func(p geom.Point) string {
		p = m.Apply(p)
		return fmt.Sprintf("[%v, %v]", p.X, p.Y)
	}
	var corners, holes []string
	for _, c := range b.corners {
		corners = append(corners, place(c))
	}
	for i, h := range b.holes {
		holes = append(holes, fmt.Sprintf("h%d: {at: %s, diameter: 9}", i, place(h)))
	}
	fmt.Fprintf(&s, "outline: {corners: [%s]}\nholes: {%s}\nflanges:\n", strings.Join(corners, ", "), strings.Join(holes, ", "))
	n := len(b.corners)
	for _, e := range b.flanges {
		left, right, tapers, radii, hole := e.left, e.right, e.tapers, e.radii, e.hole
		if mirror {
			left, right = right, left
			tapers[0], tapers[1] = tapers[1], tapers[0]
			radii[0], radii[1] = radii[1], radii[0]
			hole.X = b.corners[e.edge].Dist(b.corners[(e.edge+1)%n]) - hole.X
		}
		fmt.Fprintf(&s, "  f%d: {edge: %d-%d, height: %v, angle: %v deg, turn: %s, offset: [%v, %v], taper: [%v deg, %v deg], holes: {g%d: {at: [%v, %v], diameter: 7}}",
			e.edge, e.edge+1, (e.edge+1)%n+1, e.height, e.angle, e.turn, left, right, tapers[0], tapers[1], e.edge, hole.X, hole.Y)
		if e.lip == 0 {
			fmt.Fprintf(&s, ", corners: [{radius: %v}, {radius: %v}]}\n", radii[0], radii[1])
			continue
		}
		fmt.Fprintf(&s, "}\n  lip%d: {on: f%d, edge: end, height: %v, corners: [{radius: %v}, {radius: %v}]}\n", e.edge, e.edge, e.lip, radii[0], radii[1])
	}
	return s.String()
}

// A description whose base is written turned and shifted gives the flat turned and
// shifted; one written as the mirror image gives the mirror image, which is also
// what `hand: mirrored` gives.
func TestTurnedAndMirroredDescriptions(t *testing.T) {
	made := func(t *rapid.T, text string) *Blank {
		p, err := describe.Parse("bent.yaml", []byte(text))
		if err != nil {
			t.Fatal(err, text)
		}
		bs, err := Make(p)
		if err != nil {
			t.Fatal(err, text)
		}
		return bs[0]
	}
	rapid.Check(t, func(t *rapid.T) {
		b := drawBentPlate(t)
		still := geom.Translate(0, 0)
		drawn := made(t, b.text(still, 0, false))
		angle := rapid.OneOf(rapid.SampledFrom([]float64{90, 180, 270}), rapid.Float64Range(0, 360)).Draw(t, "turned by")
		turn := geom.Rotate(angle * math.Pi / 180).Then(geom.Translate(rapid.Float64Range(-500, 500).Draw(t, "shifted"), 37))
		imageOf(t, drawn, made(t, b.text(turn, angle, false)), turn)

		b.grain = math.Mod(180-b.grain, 180)
		imageOf(t, drawn, made(t, b.text(geom.MirrorY(), 0, true)), geom.MirrorY())
		b.grain = math.Mod(180-b.grain, 180)
		imageOf(t, drawn, made(t, "hand: mirrored\n"+b.text(still, 0, false)), geom.MirrorY())
	})
}

// imageOf holds a blank against the image of another.
func imageOf(t *rapid.T, b, got *Blank, m geom.Motion) {
	t.Helper()
	const tol = 1e-7 // mm
	diff, err := geom.SymmetricDifference([]geom.Region{{Outer: b.Outline.Transform(m)}}, []geom.Region{{Outer: got.Outline}})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range diff {
		if r.Area() > num.OverlapArea {
			t.Fatalf("the flats differ by %v mm² at %v", r.Area(), r.Centroid())
		}
	}
	if len(b.Holes) != len(got.Holes) || len(b.Formed.Flat.Bends) != len(got.Formed.Flat.Bends) {
		t.Fatalf("%d holes and %d bends, want %d and %d", len(got.Holes), len(got.Formed.Flat.Bends), len(b.Holes), len(b.Formed.Flat.Bends))
	}
	for i := range b.Holes {
		if p, q := m.Apply(b.Holes[i].Centre), got.Holes[i].Centre; p.Dist(q) > tol || b.Holes[i].Dia != got.Holes[i].Dia {
			t.Fatalf("hole %s is at %v, want %v", got.Holes[i].Name, q, p)
		}
	}
	for i := range b.Formed.Flat.Bends {
		d, e := &b.Formed.Flat.Bends[i], &got.Formed.Flat.Bends[i]
		l := d.Line.Transform(m) // in a mirror left and right change sides
		straight, crossed := l.A.Dist(e.Line.A)+l.B.Dist(e.Line.B), l.A.Dist(e.Line.B)+l.B.Dist(e.Line.A)
		if min(straight, crossed) > tol || d.Down != e.Down || d.Bend != e.Bend || d.Allowance != e.Allowance {
			t.Fatalf("bend %s runs %v to %v, want %v to %v", e.Name, e.Line.A, e.Line.B, l.A, l.B)
		}
	}
	if want := m.Dir(direction(b.Formed.Grain)); math.Abs(want.Cross(direction(got.Formed.Grain))) > tol {
		t.Fatalf("the grain runs at %v, want %v", got.Formed.Grain, want)
	}
	same(t, b.Formed.Flat.Fold(), got.Formed.Flat.Fold())
}

// same asks that both folded parts have what was asked of them, and one volume.
func same(t *rapid.T, a, b *fold.Folded) {
	t.Helper()
	da, db := a.Dims(), b.Dims()
	if len(da) != len(db) {
		t.Fatalf("%d dimensions, want %d", len(db), len(da))
	}
	for i := range da {
		if !db[i].Holds() {
			t.Fatalf("%s is %v, want %v", db[i].Name, db[i].Got, db[i].Want)
		}
	}
	if v, w := a.Volume(), b.Volume(); math.Abs(v-w) > 1e-9*v {
		t.Fatalf("volume %v, want %v", w, v)
	}
}
