package fold

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/bend"
	"blankwright/flat/geom"
)

func flatten(t testing.TB, p *Part) *Flat {
	t.Helper()
	f, err := Flatten(p)
	require.NoError(t, err)
	return f
}

// holds checks that every dimension came back.
func holds(t testing.TB, f *Flat) *Folded {
	t.Helper()
	g := f.Fold()
	for _, d := range g.Dims() {
		assert.True(t, d.Holds(), "%s: wanted %v, got %v", d.Name, d.Want, d.Got)
	}
	return g
}

func hole(name string, x, y, d float64) Hole {
	return Hole{name, geom.CircleLoop(geom.Circle{C: geom.Point{X: x, Y: y}, R: d / 2})}
}

const inch = 25.4

// uHanger is the formed U hanger of Brackenholt Farm: 3/16 in plate, inside
// radius 3/16 in, K 0.42, 67.5 mm inside, legs 3 in outside, 80 mm long, a
// 17/32 in hole in each leg at a height over the outside of the base.
func uHanger(height float64) *Part {
	s := Section{T: 3.0 / 16 * inch, R: 3.0 / 16 * inch, Rule: bend.KFactor(0.42), Length: 80}
	p := U(s, Size{67.5, bend.Inside}, Size{V: 3 * inch}, Size{V: 3 * inch})
	p.Flanges[0].Holes = []Hole{hole("left", 40, height, 17.0/32*inch)}
	p.Flanges[1].Holes = []Hole{hole("right", 40, height, 17.0/32*inch)}
	p.InLine = []Pair{{"left", "right"}}
	return p
}

func TestUHanger(t *testing.T) {
	f := flatten(t, uHanger(20))
	assert.InDelta(t, 212.57, f.Outline.Bounds().Width(), 0.005, "the blank")
	assert.InDelta(t, 80, f.Outline.Bounds().Height(), 1e-9)
	for i := range f.Bends {
		b := &f.Bends[i]
		assert.InDelta(t, 8.427, b.Bend.Deduction(bend.Outside, b.Allowance.Length), 5e-4)
		assert.Equal(t, "K-factor 0.42", b.Allowance.By)
		assert.Equal(t, "up", b.Direction())
	}
	for _, h := range f.Holes {
		assert.InDelta(t, 3.7, h.Tangent, 0.05, "hole edge to tangent, under 2 T: it would draw oval")
	}
	g := holds(t, f)
	require.Len(t, g.InLine(), 1)
	assert.True(t, g.InLine()[0].Holds())
	assert.Empty(t, g.Collisions())

	// Mended: 28 mm up; 116.2 from hole to hole in the flat.
	f = flatten(t, uHanger(28))
	assert.InDelta(t, 116.2, f.Holes[0].At.Dist(f.Holes[1].At), 0.05)
	assert.InDelta(t, 3.7+8, f.Holes[0].Tangent, 0.05)
	holds(t, f)

	// Outside width 67.5 + 2 T, height 3 in, measured on the folded part.
	box := f.Fold().Box()
	assert.InDelta(t, 67.5+2*3.0/16*inch, box.Max.X-box.Min.X, 1e-9)
	assert.InDelta(t, 76.2, box.Max.Z-box.Min.Z, 1e-9)
}

// A flat pattern of a chain of legs has the length that the published figures
// give; each names its source.
func TestPublishedFlats(t *testing.T) {
	chain := func(t0, r float64, rule bend.Rule, by bend.Reference, angle float64, legs ...float64) *Part {
		p := &Part{T: t0, Rule: rule, Base: Rectangle(legs[0], 10)}
		on, edge := "", Right
		for i, l := range legs[1:] {
			name := "leg" + string(rune('a'+i))
			p.Flanges = append(p.Flanges, Flange{Name: name, On: on, Edge: edge, At: by, From: by, Height: l, Angle: deg(angle), Radius: r, Down: i%2 == 1})
			on, edge = name, EndEdge
		}
		return p
	}
	for _, c := range []struct {
		name      string
		part      *Part
		want, tol float64
	}{
		{"Sheet Metal Workbook, 6th ed., 90 Degree Bends, 2.973 in", chain(0.05, 0.032, bend.Aircraft{}, bend.Outside, 90, 0.74, 0.42, 1.05, 1.0), 2.973, 0.001},
		{"German teaching notes, gestreckte Laenge, example 2, half of 285.37 mm", chain(5, 20, bend.KFactor(0.5), bend.Tangent, 90, 25, 12, 35), 285.37 / 2, 0.005},
		{"FAA-H-8083-31, U-channel, by its formula", chain(0.04, 0.16, bend.Aircraft{}, bend.Outside, 90, 1, 2, 1), 3.75814, 5e-6},
		{"closed form, 90 degrees", chain(3, 3, bend.KFactor(0.44), bend.Apex, 90, 50, 80), 124.7858, 1e-4},
		{"closed form, 90 degrees", chain(6, 9, bend.KFactor(0.42), bend.Apex, 90, 75, 120), 183.0956, 1e-4},
		{"closed form, 45 degrees", chain(4, 6, bend.KFactor(0.4), bend.Apex, 45, 60, 60), 117.6848, 1e-4},
		{"closed form, 120 degrees", chain(5, 5, bend.KFactor(0.44), bend.Apex, 120, 70, 70), 120.4386, 1.1e-4},
		{"closed form, 30 degrees", chain(2, 2, bend.KFactor(0.33), bend.Apex, 30, 40, 25), 64.2492, 1e-4},
		{"DIN 6935, r 6, s 5, table 9.9", chain(5, 6, bend.DIN6935{}, bend.Outside, 90, 60, 40), 100 - 9.9, 0.05},
		{"DIN 6935, r 10, s 6, table 12.7", chain(6, 10, bend.DIN6935{}, bend.Outside, 90, 60, 40), 100 - 12.7, 0.05},
		{"DIN 6935, 60 degrees open, by its formula", chain(3, 3, bend.DIN6935{}, bend.Outside, 120, 60, 40), 100 - 3.675, 6e-4},
		{"DIN 6935, 120 degrees open, by its formula", chain(3, 3, bend.DIN6935{}, bend.Outside, 60, 60, 40), 100 - 2.766, 6e-4},
		{"DIN 6935, 135 degrees open, by its formula", chain(5, 8, bend.DIN6935{}, bend.Outside, 45, 60, 40), 100 - 3.01, 6e-4},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := flatten(t, c.part)
			assert.InDelta(t, c.want, f.Outline.Bounds().Width(), c.tol)
			assert.Len(t, f.Outline.Outer, 4, "a plain strip is four edges")
			holds(t, f)
		})
	}
}

func TestConstructors(t *testing.T) {
	s := Section{T: 3, R: 4, Rule: bend.KFactor(0.42), Length: 80}
	ba := math.Pi / 2 * (4 + 0.42*3)
	bd := 14 - ba
	for _, c := range []struct {
		name          string
		part          *Part
		width         float64 // of the flat
		wide, up, low float64 // of the folded part: width, reach over and under the base's middle
	}{
		{"L", L(s, Size{V: 50}, Size{V: 40}), 90 - bd, 50, 40 - 1.5, -1.5},
		{"U outside", U(s, Size{V: 70}, Size{V: 40}, Size{V: 30}), 140 - 2*bd, 70, 38.5, -1.5},
		{"U inside", U(s, Size{64, bend.Inside}, Size{37, bend.Inside}, Size{27, bend.Inside}), 140 - 2*bd, 70, 38.5, -1.5},
		{"Z", Z(s, Size{V: 50}, Size{V: 40}, Size{V: 30}), 120 - 2*bd, 80 - 3, 38.5, -1.5},
		{"hat", Hat(s, Size{V: 60}, Size{V: 40}, Size{V: 30}), 60 + 80 + 60 - 4*bd, 60 + 2*(30-3), 1.5, -38.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := flatten(t, c.part)
			assert.InDelta(t, c.width, f.Outline.Bounds().Width(), 1e-9)
			g := holds(t, f)
			assert.Empty(t, g.Collisions())
			b := g.Box()
			assert.InDelta(t, c.wide, b.Max.X-b.Min.X, 1e-9)
			assert.InDelta(t, c.up, b.Max.Z, 1e-9)
			assert.InDelta(t, c.low, b.Min.Z, 1e-9)
			assert.InDelta(t, 80, b.Max.Y-b.Min.Y, 1e-9)
			straight := f.Outline.Area() - float64(len(f.Bends))*ba*80
			assert.InDelta(t, 3*(straight+float64(len(f.Bends))*80*math.Pi/2*5.5), g.Solid(), 1e-6)
		})
	}
}

func TestBoxes(t *testing.T) {
	s := Section{T: 3, R: 4, Rule: bend.KFactor(0.42)}
	for _, by := range []bend.Reference{bend.Outside, bend.Inside, bend.Tangent} {
		for _, joint := range []Joint{Lapped, CornerToCorner} {
			for _, shape := range []Shape{Square, Round, None} {
				p := Box(s, Size{90, by}, Size{60, by}, Size{V: 30}, joint, 0.5)
				p.Corner.Shape = shape
				f := flatten(t, p)
				g := holds(t, f)
				assert.Empty(t, g.Collisions(), "%s %v %s", by, joint, shape)
				add := 2 * bend.Bend{T: 3, R: 4, A: deg(90)}.Convert(0, by, bend.Outside)
				b := g.Box()
				assert.InDelta(t, 90+add, b.Max.X-b.Min.X, 1e-9)
				assert.InDelta(t, 60+add, b.Max.Y-b.Min.Y, 1e-9)
				assert.InDelta(t, 30, b.Max.Z-b.Min.Z, 1e-9)
				require.Len(t, f.Bends, 4)
				want := map[Shape]int{Square: 4, Round: 4, None: 0}[shape]
				assert.Len(t, f.Reliefs, want)
				order, err := g.Order()
				assert.NoError(t, err)
				assert.Len(t, order, 4)
			}
		}
	}
	// Without the gap the lapped walls touch and do not collide.
	p := Box(s, Size{V: 90}, Size{V: 60}, Size{V: 30}, Lapped, 0)
	assert.Empty(t, flatten(t, p).Fold().Collisions())
	// A little too wide they do.
	p.Flanges[0].Left -= 0.01
	found := flatten(t, p).Fold().Collisions()
	require.NotEmpty(t, found)
	assert.Equal(t, Collision, found[0].Kind)
	assert.Contains(t, found.Error(), "folded, flange right runs into flange front")
	assert.Contains(t, found.Error(), "of the flat; make it shorter or narrower")
}

// A flange on part of an edge stands between two reliefs. The area of the flat
// by hand: the plate, less what of it turns into the bend, and the reliefs.
func TestReliefs(t *testing.T) {
	const (
		T, R, K = 3.0, 4.0, 0.42
		width   = 30.0
		height  = 25.0
	)
	part := func(r Relief) *Part {
		return &Part{T: T, Rule: bend.KFactor(K), Base: Rectangle(100, 60), Relief: r, Flanges: []Flange{{
			Name: "tab", Edge: Right, Height: height, Angle: deg(90), Radius: R, Left: 10, Right: 20,
		}}}
	}
	whole := 100*60 + width*(height-(R+T)) + width*(math.Pi/2*(R+K*T)-(R+T))
	for _, c := range []struct {
		relief      Relief
		width, past float64
	}{
		{Relief{}, T, T / 2},
		{Relief{Width: 4, Past: 2}, 4, 2},
		{Relief{Shape: Round}, T, T / 2},
		{Relief{Shape: Round, Width: 4, Past: 5}, 4, 5},
		{Relief{Shape: Round, Width: 8, Past: 1}, 8, 4}, // at least its radius deep
	} {
		f := flatten(t, part(c.relief))
		cut := c.width * (R + T + c.past)
		if c.relief.Shape == Round {
			cut -= (1 - math.Pi/4) * c.width * c.width / 2
		}
		assert.InDelta(t, whole-2*cut, f.Outline.Area(), 1e-9)
		require.Len(t, f.Reliefs, 2)
		for _, r := range f.Reliefs {
			assert.InDelta(t, cut, r.Loop.Area(), 1e-9)
			assert.False(t, r.Corner)
		}
		b := f.Bends[0]
		assert.InDelta(t, width, b.Line.Length(), 1e-12)
		// On the flange's side y runs up along the right edge of the base: its left
		// end is the upper one.
		assert.InDelta(t, 30-10, b.Line.A.Y, 1e-12)
		assert.InDelta(t, 50-(R+T)+b.Allowance.Length/2, b.Line.A.X, 1e-12, "the middle of the bend zone")
		holds(t, f)
		own := part(Relief{})
		own.Flanges[0].Relief = &c.relief
		assert.InDelta(t, f.Outline.Area(), flatten(t, own).Outline.Area(), 1e-9, "a flange's own relief goes first")
	}
	// A bend that begins at the edge needs no relief where none is wanted.
	none := part(Relief{Shape: None})
	none.Flanges[0].At = bend.Tangent
	f := flatten(t, none)
	assert.Empty(t, f.Reliefs)
	assert.InDelta(t, 100*60+width*(height-(R+T)+math.Pi/2*(R+K*T)), f.Outline.Area(), 1e-9)
}

// Round corner reliefs are true arcs about the crossing of the tangent lines.
func TestRoundCornerRelief(t *testing.T) {
	s := Section{T: 3, R: 4, Rule: bend.KFactor(0.42)}
	p := Box(s, Size{V: 90}, Size{V: 60}, Size{V: 30}, Lapped, 0.5)
	p.Corner = Relief{Shape: Round, Past: 2.5}
	f := flatten(t, p)
	arcs := map[geom.Point]float64{}
	for _, g := range f.Outline.Outer {
		if g.IsArc() {
			assert.Equal(t, 2.5, g.Circle().R)
			arcs[g.Circle().C] += math.Abs(g.Sweep())
		}
	}
	require.Len(t, arcs, 4)
	for c, sweep := range arcs {
		assert.InDelta(t, 45-7, math.Abs(c.X), 1e-9)
		assert.InDelta(t, 30-7, math.Abs(c.Y), 1e-9)
		assert.InDelta(t, 3*math.Pi/2, sweep, 1e-9, "three quarters of the circle is metal taken")
	}
	for _, b := range f.Bends {
		want := 90.0
		if b.Name == Left || b.Name == Right {
			want = 60
		}
		assert.InDelta(t, want-14, b.Line.Length(), 1e-9, "the bend line, past the relief")
		assert.InDelta(t, want-14-5, b.Root.Length(), 1e-9)
	}
	// A relief wider than half the zone shortens the bend line.
	p.Corner.Past = 6
	f = flatten(t, p)
	h := f.Bends[0].Allowance.Length / 2
	assert.InDelta(t, 90-14-2*math.Sqrt(36-h*h), f.Bends[0].Line.Length(), 1e-9)
}

// A tab bent up out of an opening in the middle of a plate.
func TestTabOutOfAWindow(t *testing.T) {
	window := geom.Polygon(geom.Point{X: -20, Y: -15}, geom.Point{X: -20, Y: 15}, geom.Point{X: 20, Y: 15}, geom.Point{X: 20, Y: -15})
	p := &Part{T: 2, Rule: bend.KFactor(0.4), Base: Rectangle(100, 80)}
	p.Base.Region.Holes = []geom.Loop{window}
	p.Base.Edges = append(p.Base.Edges, Edge{"sill", geom.Point{X: 20, Y: -15}, geom.Point{X: -20, Y: -15}})
	p.Flanges = []Flange{{Name: "tab", Edge: "sill", At: bend.Tangent, Height: 20, Angle: deg(90), Radius: 2, Left: 5, Right: 5}}
	f := flatten(t, p)
	require.Len(t, f.Outline.Holes, 1)
	holds(t, f)
	assert.Empty(t, f.Fold().Collisions())
	p.Flanges[0].Height = 40
	_, err := Flatten(p)
	assert.ErrorContains(t, err, "the flat overlaps itself: base and flange tab need the same")
}

// Taper, corners of the free end, hem, offsets: the outline by hand.
func TestFlangeShapes(t *testing.T) {
	p := &Part{T: 2, Rule: bend.KFactor(0.5), Base: Rectangle(100, 60), Flanges: []Flange{
		{Name: "tapered", Edge: Back, From: bend.Tangent, Height: 30, Angle: deg(90), Radius: 3, TaperLeft: deg(30), TaperRight: deg(45)},
		{Name: "rounded", Edge: Front, From: bend.Tangent, Height: 30, Angle: deg(60), Radius: 3, CornerLeft: Corner{Radius: 10}, CornerRight: Corner{Chamfer: 8}},
		{Name: "hem", Edge: Left, From: bend.Tangent, Height: 12, Angle: deg(180), Radius: 0, Down: true},
	}}
	f := flatten(t, p)
	assert.InDelta(t, (100+100-30*math.Tan(deg(30))-30)/2*30, f.Panels[1].Region.Area(), 1e-9)
	assert.InDelta(t, 100*30-(1-math.Pi/4)*100-32, f.Panels[2].Region.Area(), 1e-9)
	g := holds(t, f)
	assert.Empty(t, g.Collisions())
	// The closed hem lies under the base: three faces touch, nothing overlaps.
	b := g.Box()
	assert.InDelta(t, -1-2, b.Min.Z, 1e-9)
	assert.InDelta(t, -50, b.Min.X, 1e-9, "the hem's outside is the edge")
	assert.Equal(t, "down", f.Bends[2].Direction())
}

// Flanges on three sides of a flange, and on the flanges of that.
func TestFlangesOnFlanges(t *testing.T) {
	p := &Part{T: 2, Rule: bend.KFactor(0.42), Base: Rectangle(100, 60), Flanges: []Flange{
		{Name: "back", Edge: Back, Height: 50, Angle: deg(90), Radius: 2, Left: 20, Right: 20},
		{Name: "ear l", On: "back", Edge: LeftEdge, Height: 15, Angle: deg(90), Radius: 2, Left: 10, Right: 14, Down: true},
		{Name: "ear r", On: "back", Edge: RightEdge, Height: 15, Angle: deg(90), Radius: 2, Left: 14, Right: 10, Down: true},
		{Name: "lip", On: "back", Edge: EndEdge, Height: 12, Angle: deg(90), Radius: 2, Left: 8, Right: 8, Down: true},
		{Name: "hook", On: "lip", Edge: EndEdge, Height: 9, Angle: deg(45), Radius: 2, Down: true,
			Holes: []Hole{hole("eye", 22, 7, 2)}},
	}}
	f := flatten(t, p)
	g := holds(t, f)
	assert.Empty(t, g.Collisions())
	left, right := f.Panels[2].Region, f.Panels[3].Region
	assert.InDelta(t, left.Area(), right.Area(), 1e-9)
	assert.InDelta(t, -left.Centroid().X, right.Centroid().X, 1e-9)
	assert.Less(t, left.Centroid().X, 0.0, "left is left")
	h, ok := f.Hole("eye")
	require.True(t, ok)
	assert.Equal(t, "hook", f.Panels[h.Panel].Name)
	_, ok = f.Hole("ear")
	assert.False(t, ok)
	c, _ := h.Loop.Circle()
	assert.Equal(t, 1.0, c.R)
}

// Whichever way holes and edges run, the flat is the same.
func TestEitherWayRound(t *testing.T) {
	p := uHanger(28)
	want := flatten(t, p)
	for i := range p.Flanges {
		p.Flanges[i].Holes[0].Loop = p.Flanges[i].Holes[0].Loop.Reverse()
	}
	for i, e := range p.Base.Edges {
		p.Base.Edges[i].A, p.Base.Edges[i].B = e.B, e.A
	}
	got := flatten(t, p)
	sameFlat(t, want, got, 0)
	for i := range got.Holes {
		assert.Greater(t, got.Holes[i].Loop.Area(), 0.0)
	}
}

// A base without flanges is its own flat.
func TestNoFlanges(t *testing.T) {
	f := flatten(t, &Part{T: 2, Base: Rectangle(40, 20)})
	assert.InDelta(t, 800, f.Outline.Area(), 1e-9)
	g := f.Fold()
	assert.Empty(t, g.Dims())
	assert.Empty(t, g.Collisions())
	order, err := g.Order()
	assert.NoError(t, err)
	assert.Empty(t, order)
	assert.InDelta(t, 1600, g.Volume(), 1e-9)
}

// Every panel's motion carries the coordinates that its holes are given in to
// the flat, for whoever draws more than holes there.
func TestPanelMotion(t *testing.T) {
	f := flatten(t, uHanger(28))
	for _, h := range f.Holes {
		assert.Less(t, f.Panels[h.Panel].Motion.Apply(h.Given).Dist(h.At), 1e-12)
	}
	assert.Equal(t, geom.Point{X: 40, Y: 28}, f.Holes[0].Given)
}

// Holes that are out of line are told how to get in line.
func TestHolesOutOfLine(t *testing.T) {
	p := uHanger(28)
	p.Flanges[1].Holes[0] = hole("right", 41.5, 30, 13)
	g := holds(t, flatten(t, p))
	a := g.InLine()[0]
	assert.False(t, a.Holds())
	assert.InDelta(t, 2.5, a.Offset, 1e-9)
	assert.Zero(t, a.Tilt)
	// Moved by Shift it is in line: on the right flange of this base x runs along
	// -y of the flat, and up is +x.
	assert.InDelta(t, -2, a.Shift.X, 1e-9)
	assert.InDelta(t, 2.5*2.5, a.Shift.Dot(a.Shift), 1e-9)
	// Legs that are not parallel.
	p = uHanger(28)
	p.Flanges[1].Angle = deg(80)
	a = flatten(t, p).Fold().InLine()[0]
	assert.InDelta(t, deg(10), a.Tilt, 1e-12)
	assert.False(t, a.Holds())
	// Square to each other: the distance of a centre from the other's axis.
	l := L(Section{T: 3, R: 3, Rule: bend.KFactor(0.4), Length: 60}, Size{V: 50}, Size{V: 40})
	l.Base.Holes = []Hole{hole("a", 0, 4, 5)}
	l.Flanges[0].Holes = []Hole{hole("b", 30, 20, 5)}
	l.InLine = []Pair{{"a", "b"}}
	a = flatten(t, l).Fold().InLine()[0]
	assert.InDelta(t, deg(90), a.Tilt, 1e-12)
	assert.InDelta(t, math.Hypot(4, 25-1.5), a.Offset, 1e-9)
}

func TestBadParts(t *testing.T) {
	s := Section{T: 3, R: 4, Rule: bend.KFactor(0.42), Length: 80}
	l := func(change func(p *Part)) *Part {
		p := L(s, Size{V: 60}, Size{V: 40})
		change(p)
		return p
	}
	u := func(change func(p *Part)) *Part {
		p := U(s, Size{V: 60}, Size{V: 40}, Size{V: 40})
		change(p)
		return p
	}
	tab := func(change func(f *Flange)) *Part {
		return l(func(p *Part) {
			p.Flanges[0].Left, p.Flanges[0].Right = 20, 20
			change(&p.Flanges[0])
		})
	}
	elbow := func(height float64) *Part { // an L-shaped plate with flanges in its inner corner
		pts := []geom.Point{{}, {X: 100}, {X: 100, Y: 40}, {X: 40, Y: 40}, {X: 40, Y: 100}, {Y: 100}}
		return &Part{T: 3, Rule: s.Rule, Base: Base{
			Region: geom.Region{Outer: geom.Polygon(pts...)},
			Edges:  []Edge{{"low", pts[2], pts[3]}, {"high", pts[3], pts[4]}},
		}, Flanges: []Flange{
			{Name: "low", Edge: "low", At: bend.Tangent, Height: height, Angle: deg(90), Radius: 4, Left: 20},
			{Name: "high", Edge: "high", At: bend.Tangent, Height: height, Angle: deg(90), Radius: 4, Right: 20},
		}}
	}
	for name, c := range map[string]struct {
		part *Part
		kind Kind
		want string
	}{
		"thickness":    {l(func(p *Part) { p.T = 0 }), BadValue, "plate thickness is 0 mm, wanted more than nothing"},
		"radius":       {l(func(p *Part) { p.Flanges[0].Radius = -1 }), BadValue, "flange leg: inside radius is -1 mm, wanted 0 or more"},
		"angle":        {l(func(p *Part) { p.Flanges[0].Angle = deg(190) }), BadValue, "flange leg: bend angle is 190 degrees, wanted above 0 and at most 180 degrees"},
		"shop's angle": {l(func(p *Part) { p.MaxAngle = deg(135); p.Flanges[0].Angle = deg(150) }), BadValue, "flange leg: bend angle is 150 degrees, the shop bends at most 135 degrees"},
		"not finite":   {l(func(p *Part) { p.Flanges[0].Left = math.NaN() }), BadValue, "a number is not finite"},
		"no rule":      {l(func(p *Part) { p.Rule = nil }), BadValue, "nothing says how much flat length its bend takes"},
		"rule":         {l(func(p *Part) { p.Rule = bend.DIN6935{}; p.Flanges[0].Radius = 0 }), BadValue, "flange leg: DIN 6935 has no factor for inside radius 0 mm"},
		"taper":        {l(func(p *Part) { p.Flanges[0].TaperLeft = deg(90) }), BadValue, "taper is 90 degrees, wanted less than 90 degrees"},
		"relief value": {l(func(p *Part) { p.Relief.Width = -1 }), BadValue, "relief of base: width -1 mm"},
		"own relief":   {l(func(p *Part) { p.Flanges[0].Relief = &Relief{Past: -2} }), BadValue, "relief of leg: width 0 mm and depth -2 mm"},
		"name":         {u(func(p *Part) { p.Flanges[1].Name = "left" }), BadValue, `flange name "left" is empty or taken`},
		"no panel":     {l(func(p *Part) { p.Flanges[0].On = "roof" }), BadValue, `flange leg stands on "roof", which there is not`},
		"no edge":      {l(func(p *Part) { p.Flanges[0].Edge = "top" }), BadValue, "which there is not; edges of base: front, right, back, left"},
		"edge off":     {l(func(p *Part) { p.Base.Edges[1].B.X++ }), BadValue, `edge "right" of base runs along no straight part`},
		"base":         {l(func(p *Part) { p.Base.Region = geom.Region{} }), BadValue, "base has no outline"},
		"base crossed": {l(func(p *Part) { p.Base.Region.Outer[0].A.X = 99 }), BadValue, "outline of base: "},
		"too many":     {l(func(p *Part) { p.Flanges = make([]Flange, 9) }), BadValue, "9 bends, wanted at most 8"},
		"hem apex":     {l(func(p *Part) { p.Flanges[0].Angle, p.Flanges[0].From = math.Pi, bend.Apex }), BadValue, "its outer faces meet nowhere"},
		"corner":       {l(func(p *Part) { p.Flanges[0].CornerLeft.Radius = 90 }), BadValue, "flange leg, left corner of its free end: radius 90 takes"},
		"pair":         {l(func(p *Part) { p.InLine = []Pair{{"a", "b"}} }), BadValue, `hole "a" is to be in line with another, and there is none of that name`},
		"hole broken":  {l(func(p *Part) { p.Base.Holes = []Hole{{"h", geom.Loop{}}} }), HolePlace, "hole h of base has no sound outline"},
		"too low":      {l(func(p *Part) { p.Flanges[0].Height = 7 }), NoRoom, "flange leg is 7 mm high, of which the bend takes 7 mm: no straight part is left"},
		"too narrow":   {l(func(p *Part) { p.Flanges[0].Left = 80 }), NoRoom, "flange leg has no width left: its ends take 80 mm and 0 mm of an edge of 80 mm"},
		"sharp taper":  {l(func(p *Part) { p.Flanges[0].TaperLeft, p.Flanges[0].TaperRight = deg(60), deg(60) }), NoRoom, "its sides lean in so far that they meet"},
		"base too small": {u(func(p *Part) {
			p.Base.Region.Outer = Rectangle(13, 80).Region.Outer
			p.Base.Edges = Rectangle(13, 80).Edges
		}), NoRoom, "the bends of flanges left and right need the same metal of base"},
		"wider than base": {l(func(p *Part) { p.Flanges[0].Right = -3 }), NoRoom, "flange leg is wider than base at its bend: its right end reaches 3 mm beyond the metal"},
		"no metal":        {l(func(p *Part) { p.Flanges[0].Radius, p.Flanges[0].Height = 60, 100 }), NoRoom, "no metal of base is left where its bend begins, 63 mm in from the edge"},
		"no relief":       {tab(func(f *Flange) { f.Relief = &Relief{Shape: None} }), Cut, "flange leg has no relief at its left end, where base goes on beside its bend"},
		"relief cuts hole": {l(func(p *Part) {
			p.Flanges[0].Left = 20
			p.Base.Holes = []Hole{hole("h", 24, 25.5, 6)}
		}), Cut, "the relief at the left end of flange leg cuts hole h of base"},
		"corner relief cuts hole": {func() *Part {
			p := Box(s, Size{V: 90}, Size{V: 60}, Size{V: 30}, Lapped, 0.5)
			p.Base.Holes = []Hole{hole("h", 35.2, 20, 5)}
			return p
		}(), Cut, "the corner relief at the left end of flange right cuts hole h of base"},
		"hole in bend":       {l(func(p *Part) { p.Base.Holes = []Hole{hole("h", 21, 0, 5)} }), HolePlace, "hole h of base runs into the bend of flange leg"},
		"hole in own bend":   {l(func(p *Part) { p.Flanges[0].Holes = []Hole{hole("h", 40, 8, 5)} }), HolePlace, "hole h of leg runs into the bend that it hangs on"},
		"hole over edge":     {l(func(p *Part) { p.Flanges[0].Holes = []Hole{hole("h", 40, 38, 5)} }), HolePlace, "hole h of leg runs over the edge of the panel"},
		"hole off the panel": {l(func(p *Part) { p.Flanges[0].Holes = []Hole{hole("h", 40, 138, 5)} }), HolePlace, "hole h of leg runs over the edge of the panel"},
		"hole in hole":       {l(func(p *Part) { p.Base.Holes = []Hole{hole("h", 0, 0, 9), hole("k", 5, 0, 5)} }), HolePlace, "hole k runs into hole h"},
		"hole in opening": {l(func(p *Part) {
			p.Base.Region.Holes = []geom.Loop{geom.CircleLoop(geom.Circle{R: 9}).Reverse()}
			p.Base.Holes = []Hole{hole("h", 8, 0, 5)}
		}), HolePlace, "hole h of base runs over the edge"},
		"longer than room": {elbow(70), Overlap, "the flat overlaps itself: flange low and flange high need the same"},
		"touching":         {touching(s), Touch, "flange a and flange b touch in the flat: nothing parts them"},
		"corner relief large": {func() *Part {
			p := Box(s, Size{V: 90}, Size{V: 60}, Size{V: 30}, Lapped, 0.5)
			p.Corner = Relief{Shape: Round, Past: 9}
			return p
		}(), Cut, "the corner relief of 9 mm at the left end of flange front is larger than its bend"},
		"reliefs eat bend": {func() *Part {
			p := Box(s, Size{V: 90}, Size{V: 20}, Size{V: 30}, Lapped, 0.5)
			p.Corner.Past = 4
			return p
		}(), NoRoom, "has no width left between its reliefs"},
		"bend hangs free":     {sideLip(s), Cut, "hangs free of flange"},
		"relief at neighbour": {closeNeighbour(s), Cut, "hangs free of base"},
		"panel in two":        {strait(s), Cut, "bends and reliefs cut panel base into 3 pieces"},
	} {
		t.Run(name, func(t *testing.T) {
			f, err := Flatten(c.part)
			require.Error(t, err)
			assert.Nil(t, f)
			ps, ok := err.(Problems)
			require.True(t, ok)
			assert.Contains(t, err.Error(), c.want)
			i := 0
			for i < len(ps) && !strings.Contains(ps[i].Message+"; "+ps[i].Hint, c.want) {
				i++
			}
			require.Less(t, i, len(ps))
			assert.Equal(t, c.kind, ps[i].Kind)
			if c.kind != BadValue && name != "too low" && name != "sharp taper" && name != "hole broken" {
				assert.True(t, ps[i].Placed, "has a place")
			}
			assert.LessOrEqual(t, len(ps), 4, "few words: %s", err)
			assert.NotContains(t, err.Error(), "%!")
		})
	}
	require.NoError(t, flattenErr(elbow(15)))
}

func flattenErr(p *Part) error {
	_, err := Flatten(p)
	return err
}

// touching has two flanges side by side on one edge without a gap.
func touching(s Section) *Part {
	p := L(s, Size{V: 60}, Size{V: 40})
	a, b := p.Flanges[0], p.Flanges[0]
	a.Name, a.Right, a.At = "a", 40, bend.Tangent
	b.Name, b.Left, b.At = "b", 40, bend.Tangent
	p.Flanges = []Flange{a, b}
	p.Relief.Shape = None
	return p
}

// sideLip has a lip on the side of a flange that begins right at its bend.
func sideLip(s Section) *Part {
	p := L(s, Size{V: 60}, Size{V: 60})
	p.Flanges = append(p.Flanges, Flange{Name: "lip", On: "leg", Edge: LeftEdge, Height: 15, Angle: deg(90), Radius: 4})
	return p
}

// closeNeighbour has a flange that ends a little off the bend of the next, so
// that its relief eats the root of that.
func closeNeighbour(s Section) *Part {
	p := Box(s, Size{V: 90}, Size{V: 60}, Size{V: 30}, Lapped, 0.5)
	p.Flanges = p.Flanges[:2]
	for i := range p.Flanges {
		p.Flanges[i].Left, p.Flanges[i].Right = 0, 0
	}
	p.Flanges[1].Right = 8 // the tangent line of the front lies 7 in
	return p
}

// strait is a base with a neck no wider than two reliefs.
func strait(s Section) *Part {
	pts := []geom.Point{{}, {X: 100}, {X: 100, Y: 60}, {X: 62, Y: 60}, {X: 62, Y: 56}, {X: 38, Y: 56}, {X: 38, Y: 60}, {Y: 60}}
	p := &Part{T: 3, Rule: s.Rule, Base: Base{
		Region: geom.Region{Outer: geom.Polygon(pts...)},
		Edges:  []Edge{{"low", pts[0], pts[1]}, {"notch", pts[4], pts[5]}},
	}}
	p.Flanges = []Flange{
		{Name: "low", Edge: "low", At: bend.Tangent, Height: 20, Angle: deg(90), Radius: 4, Left: 48, Right: 48, Relief: &Relief{Width: 2, Past: 30}},
		{Name: "notch", Edge: "notch", At: bend.Tangent, Height: 20, Angle: deg(90), Radius: 4, Left: 10, Right: 10, Relief: &Relief{Width: 4, Past: 30}},
	}
	return p
}
