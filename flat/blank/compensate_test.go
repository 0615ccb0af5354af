package blank

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// everyOpening is a plate with openings of every kind, a saddle and a tab.
const everyOpening = `holes:
  bolt: {at: [-35, 0], bolt: M12}
  slot: {at: [-35, -20], diameter: 8, slot: {length: 20, angle: 30 deg}}
  bush: {at: [35, -15], bore: 20, allow: press}
  pin: {at: [35, 20], diameter: 3, how: drill}
outline: {rectangle: {width: 100, height: 80, radius: 5}}
cutouts:
  - {name: axle, saddle: {tube: 60, gap: 1, at: [0, 60]}}
  - {name: window, rectangle: {at: [0, 0], width: 20, height: 16, radius: 3}}
  - {name: eye, disc: {at: [0, -25], diameter: 12}}
tabs:
  - {name: left, at: [-50, 0], width: 20, relief: none}
tab slots:
  - {name: brace, at: [20, 5], angle: 90 deg, tab: 20, thickness: 6}
`

func compensated(t testing.TB, b *Blank, kerf float64) *Blank {
	t.Helper()
	c, err := Compensate(b, kerf)
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Region().Validate(); err != nil {
		t.Fatal(err)
	}
	return c
}

// Outside by half a kerf, openings smaller by one: by closed forms.
func TestCompensate(t *testing.T) {
	const k = 1.5
	b := described(t, everyOpening)
	before := *b
	holes := append([]Hole{}, b.Holes...)
	c := compensated(t, b, k)
	if c.Kerf != k || b.Kerf != 0 {
		t.Errorf("kerfs are %g and %g", c.Kerf, b.Kerf)
	}
	for i, h := range c.Holes {
		g := b.Holes[i]
		want := g.CutDia - k
		if g.CutDia == 0 {
			want = 0
		}
		if h.CutDia != want || h.Dia != g.Dia || h.Length != g.Length || h.Centre != g.Centre || h.Callout != g.Callout {
			t.Errorf("hole %q is %+v, was %+v", h.Name, h, g)
		}
		if l := h.AsCut(); h.Length == 0 && l != nil {
			if circle, ok := l.Circle(); !ok || circle != (geom.Circle{C: h.Centre, R: h.CutDia / 2}) {
				t.Errorf("hole %q is cut as %s", h.Name, l)
			}
		}
		if h.Finished().Area() != g.Finished().Area() {
			t.Errorf("hole %q has another finished size", h.Name)
		}
	}
	slot := c.Holes[1].AsCut()
	near(t, "slot", slot.Area(), 12*6.5+math.Pi*3.25*3.25, 1e-9)
	if len(slot) != 4 {
		t.Errorf("the slot has %d edges", len(slot))
	}
	near(t, "window", c.Cutouts[0].Loop.Area(), 18.5*14.5-(4-math.Pi)*2.25*2.25, 1e-9)
	if e, ok := c.Cutouts[1].Loop.Circle(); !ok || e != (geom.Circle{C: geom.Point{Y: -25}, R: 6 - k/2}) {
		t.Errorf("the eye is %s", c.Cutouts[1].Loop)
	}
	brace := c.Cutouts[2]
	near(t, "tab slot", brace.Loop.Bounds().Height(), 20.8-k+2*1.5*(1-1/math.Sqrt2), 1e-9)
	if brace.Slot.Width != 6.8 {
		t.Errorf("the tab slot's finished width is %g", brace.Slot.Width)
	}
	// The saddle's edge curves in: half a kerf outside the plate is nearer to the
	// tube.
	s := c.Edges[0].Saddle
	near(t, "saddle", s.Circle.R, 31-k/2, 1e-12)
	for _, i := range c.Edges[0].Segs {
		if g := c.Outline[i]; g.Circle() != s.Circle {
			t.Errorf("%s is no edge of the saddle", g)
		}
	}
	if len(c.Edges[0].Segs) == 0 || len(c.Edges[1].Segs) != 3 {
		t.Errorf("edges %+v", c.Edges)
	}
	near(t, "height", c.Outline.Bounds().Height(), 80+k, 1e-9)
	near(t, "width", c.Outline.Bounds().Width(), 106+k, 1e-9)
	if b.Outline[0] != before.Outline[0] || b.Cutouts[0].Loop[0] != before.Cutouts[0].Loop[0] {
		t.Error("the nominal blank was changed")
	}
	for i := range holes {
		if b.Holes[i].CutDia != holes[i].CutDia {
			t.Errorf("hole %q of the nominal blank was changed", holes[i].Name)
		}
	}
	if got, want := FileBase(c, unit.Millimetre), "test-plate-t6mm-kerf1.5mm"; got != want {
		t.Errorf("files are named %s, want %s", got, want)
	}
}

// Corners of the outline stay sharp, whatever their angle up to the limit of a
// mitre; a disc stays a disc.
func TestCompensateOutlines(t *testing.T) {
	c := compensated(t, described(t, rectangle), 2)
	near(t, "rectangle", c.Outline.Area(), 102*62, 1e-9)
	if len(c.Outline) != 4 {
		t.Errorf("the rectangle has %d edges", len(c.Outline))
	}
	c = compensated(t, described(t, "outline: {disc: {at: [3, 4], diameter: 100}}\n"), 2)
	if k, ok := c.Outline.Circle(); !ok || k != (geom.Circle{C: geom.Point{X: 3, Y: 4}, R: 51}) {
		t.Errorf("the disc is %s", c.Outline)
	}
	c = compensated(t, described(t, "outline: {ring: {outside: 100, inside: 40}}\n"), 2)
	near(t, "ring", c.Region().Area(), math.Pi*(51*51-19*19), 1e-9)
	mirrored := described(t, "hand: mirrored\n"+everyOpening)
	drawn := compensated(t, described(t, everyOpening), 1)
	near(t, "mirrored", compensated(t, mirrored, 1).Region().Area(), drawn.Region().Area(), 1e-8)
}

func TestCompensateRefuses(t *testing.T) {
	b := described(t, everyOpening)
	slit := described(t, rectangle+"cutouts:\n  - {name: slit, rectangle: {at: [0, 0], width: 1, height: 20}}\n")
	neck := described(t, rectangle+"cutouts:\n  - {name: dumb-bell, corners: [[-20, -8], [-10, -8], [-10, -0.4], [10, -0.4], [10, -8], [20, -8], [20, 8], [10, 8], [10, 0.4], [-10, 0.4], [-10, 8], [-20, 8]]}\n")
	mouth := described(t, rectangle+"cutouts:\n  - {rectangle: {at: [0, 25], width: 1, height: 20}}\n  - disc: {at: [0, 10], diameter: 14}\n")
	notch := described(t, rectangle+"cutouts:\n  - {rectangle: {at: [0, 25], width: 1, height: 20}}\n")
	small := described(t, "holes:\n  vent: {at: [0, 0], diameter: 1.2}\n"+rectangle)
	for _, c := range []struct {
		name string
		b    *Blank
		kerf float64
		want string
	}{
		{"no kerf", b, 0, "a kerf of 0 mm"},
		{"negative", b, -1, "a kerf of -1 mm"},
		{"no number", b, math.NaN(), "a kerf of NaN mm"},
		{"twice", compensated(t, b, 1), 1, "compensated for a kerf already"},
		{"hole", small, 1.5, `hole "vent" is 1.2 mm across as cut and vanishes at a kerf of 1.5 mm; mark it and drill it`},
		{"hole of just the kerf", small, 1.2, `hole "vent"`},
		{"cutout", slit, 1.5, `cutout "slit" vanishes at a kerf of 1.5 mm`},
		{"splits", neck, 1.5, `cutout "dumb-bell" falls apart into several openings at a kerf of 1.5 mm`},
		{"mouth", mouth, 1.5, "the outline closes over itself at a kerf of 1.5 mm"},
		{"notch", notch, 1.5, "a notch of the outline closes at x "},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Compensate(c.b, c.kerf)
			if err == nil {
				t.Fatalf("no error; the outline is %s", got.Outline)
			}
			if !strings.Contains(err.Error(), c.want) || got != nil {
				t.Errorf("says %q, want %q", err, c.want)
			}
		})
	}
	if _, err := Compensate(notch, 0.5); err != nil {
		t.Errorf("a notch wider than the kerf: %v", err)
	}
}

// Whatever the plate: every place of the compensated edges lies half a kerf from
// the nominal ones, but at corners that stay sharp, where it is farther; what the
// kerf leaves of the compensated metal is no more than the nominal part, and lacks
// only what a round cut cannot reach.
func TestCompensateProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(0.1, 3).Draw(t, "kerf")
		r := rapid.Float64Range(0, 9).Draw(t, "radius")
		x, y := rapid.Float64Range(-30, 30).Draw(t, "x"), rapid.Float64Range(-30, 30).Draw(t, "y")
		p := plate(describe.Shape{Rectangle: &describe.Rectangle{Pos: at(101), Width: mm(200), Height: mm(150), Radius: mm(r)}},
			hole("a", place(x, y), dia(rapid.Float64Range(4, 30).Draw(t, "dia"))))
		p.Add = []describe.Piece{{Pos: at(40), Shape: describe.Shape{Disc: &describe.Disc{At: xy(100, y), Diameter: mm(rapid.Float64Range(20, 90).Draw(t, "ear"))}}}}
		p.Cutouts = []describe.Piece{{Pos: at(50), Saddle: &describe.Saddle{Tube: mm(60), At: xy(x, 90)}},
			{Pos: at(51), Shape: describe.Shape{Rectangle: &describe.Rectangle{At: xy(-70, -45), Width: mm(20), Height: mm(30), Radius: mm(r)}}}}
		bs, err := Make(p)
		if err != nil {
			t.Fatal(err)
		}
		b := bs[0]
		c, err := Compensate(b, k)
		if err != nil {
			t.Fatal(err)
		}
		nominal, offset := b.Region(), c.Region()
		back, err := geom.Offset([]geom.Region{offset}, -k/2, geom.Round)
		if err != nil {
			t.Fatal(err)
		}
		more, err := geom.Difference(back, []geom.Region{nominal})
		if err != nil {
			t.Fatal(err)
		}
		less, err := geom.Difference([]geom.Region{nominal}, back)
		if err != nil {
			t.Fatal(err)
		}
		// Of an inside corner that turns by half a turn at most this much stays.
		most := 12 * k * k / 4 * (1 - math.Pi/4)
		if gained := total(more); gained > most+num.Coincident*nominal.Perimeter() {
			t.Fatalf("cut from the compensated edges the part has %g more", gained)
		}
		if lost := total(less); lost > num.Coincident*nominal.Perimeter() {
			t.Fatalf("cut from the compensated edges the part lacks %g", lost)
		}
	})
}
