package blank

import (
	"math"
	"testing"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
)

// closedForms are areas, perimeters and centroids of shapes with arcs, mm. The
// file names its source.
type closedForms struct {
	Stadium []struct {
		Width      float64
		CentreDist float64 `json:"centre_dist"`
		Overall    float64
		Area       float64
		Perimeter  float64
	}
	TwoCircles []struct {
		R1, R2, L       float64
		Area, Perimeter float64
		Xbar            float64    `json:"xbar_from_R1_centre"`
		T1              [2]float64 `json:"tangent_point_R1"`
		T2              [2]float64 `json:"tangent_point_R2"`
	} `json:"two circles"`
	Link struct {
		Holes     [][3]float64
		T         float64 `json:"t_mm"`
		Density   float64
		NetArea   float64 `json:"net_area"`
		Xbar      float64
		MassKg    float64 `json:"mass_kg"`
		CutLength float64 `json:"cut_length"`
	} `json:"link plate with holes"`
	Lug []struct {
		R         float64
		H         float64 `json:"H_base_to_hole"`
		Hole      float64 `json:"hole_d"`
		Area      float64 `json:"outline_area"`
		Perimeter float64 `json:"outline_perimeter"`
		Ybar      float64 `json:"outline_ybar"`
		NetArea   float64 `json:"net_area"`
		NetYbar   float64 `json:"net_ybar"`
	}
	Rounded []struct{ A, B, R, Area, Perimeter float64 } `json:"rounded rectangle"`
	Gusset  []struct {
		A               float64 `json:"leg_a"`
		B               float64 `json:"leg_b"`
		Snipe           float64
		Kind            string
		Area, Perimeter float64
		Centroid        [2]float64
	}
	Three struct {
		Centres         [][2]float64
		R               float64
		Area, Perimeter float64
		Centroid        [2]float64
	} `json:"three circles"`
}

// printed is the rounding of a value printed with four decimals.
const printed = 6e-5

func forms(t testing.TB) *closedForms {
	var f closedForms
	load(t, "testdata/closed-forms.json", &f)
	if len(f.Stadium) != 2 || len(f.TwoCircles) != 2 || len(f.Gusset) != 2 || len(f.Three.Centres) != 3 {
		t.Fatal("rows are missing from the closed forms")
	}
	return &f
}

func boss(x, y, r float64) describe.Boss {
	p := xy(x, y)
	return describe.Boss{Pos: at(101), At: &p, Radius: mm(r)}
}

func through(hole string, line int) describe.Boss {
	return describe.Boss{Pos: at(line), Hole: wordAt(hole, line)}
}

func TestLinkPlateStadium(t *testing.T) {
	for _, row := range forms(t).Stadium {
		p := plate(describe.Shape{LinkPlate: &describe.LinkPlate{
			Through: []describe.Boss{through("a", 101), through("b", 102)}, Widths: []describe.Length{mm(row.Width)},
		}}, hole("a", place(5, 7), dia(3)), hole("b", place(5, 7+row.CentreDist), dia(3)))
		l := made(t, p).Outline
		near(t, "area", l.Area(), row.Area, printed)
		near(t, "perimeter", l.Perimeter(), row.Perimeter, printed)
		near(t, "overall", l.Bounds().Height(), row.Overall, 1e-9)
	}
}

func TestTangentTwoCircles(t *testing.T) {
	for _, row := range forms(t).TwoCircles {
		l := made(t, plate(describe.Shape{Tangent: []describe.Boss{boss(0, 0, row.R1), boss(row.L, 0, row.R2)}})).Outline
		near(t, "area", l.Area(), row.Area, printed)
		near(t, "perimeter", l.Perimeter(), row.Perimeter, printed)
		near(t, "centroid x", l.Centroid().X, row.Xbar, 6e-6)
		near(t, "centroid y", l.Centroid().Y, 0, 1e-9)
		for _, want := range [][2]float64{row.T1, row.T2, {row.T1[0], -row.T1[1]}, {row.T2[0], -row.T2[1]}} {
			if !hasCorner(l, want, 6e-6) {
				t.Errorf("no tangent point at %v in %s", want, l)
			}
		}
	}
}

// The same two-circle plate as a link plate by two widths, with its holes:
// what is left of the metal.
func TestLinkPlateWithHoles(t *testing.T) {
	f := forms(t)
	row := f.TwoCircles[0]
	var sets []describe.HoleSet
	for i, h := range f.Link.Holes {
		sets = append(sets, hole(string(rune('a'+i)), place(h[0], h[1]), dia(h[2])))
	}
	p := plate(describe.Shape{LinkPlate: &describe.LinkPlate{
		Through: []describe.Boss{through("a", 101), through("b", 102)},
		Widths:  []describe.Length{mm(2 * row.R1), mm(2 * row.R2)},
	}}, sets...)
	p.Plate.Thickness = mm(f.Link.T)
	b := made(t, p)
	r := b.Region()
	if err := r.Validate(); err != nil {
		t.Fatal(err)
	}
	near(t, "net area", r.Area(), f.Link.NetArea, printed)
	near(t, "centroid", r.Centroid().X, f.Link.Xbar, 6e-6)
	near(t, "cut length", r.Perimeter(), f.Link.CutLength, printed)
	near(t, "mass", r.Area()*b.Thickness*f.Link.Density*1e-9, f.Link.MassKg, 6e-6)
	if b.Material.Density != f.Link.Density {
		t.Errorf("A36 weighs %g kg/m3, want %g", b.Material.Density, f.Link.Density)
	}
}

func TestTangentThreeCircles(t *testing.T) {
	row := forms(t).Three
	var bosses []describe.Boss
	for _, c := range row.Centres {
		bosses = append(bosses, boss(c[0], c[1], row.R))
	}
	l := made(t, plate(describe.Shape{Tangent: bosses})).Outline
	near(t, "area", l.Area(), row.Area, printed)
	near(t, "perimeter", l.Perimeter(), row.Perimeter, printed)
	nearPoint(t, "centroid", l.Centroid(), row.Centroid, printed)
}

// A lug drawn by its corners: two of them rounded into one full-round end.
func TestCornersLug(t *testing.T) {
	for _, row := range forms(t).Lug {
		top := row.H + row.R
		p := plate(describe.Shape{Corners: []describe.Corner{
			{Pos: at(101), At: xy(-row.R, 0)}, {Pos: at(102), At: xy(row.R, 0)},
			{Pos: at(103), At: xy(row.R, top), Radius: mm(row.R)}, {Pos: at(104), At: xy(-row.R, top), Radius: mm(row.R)},
		}}, hole("pin", place(0, row.H), dia(row.Hole)))
		b := made(t, p)
		near(t, "outline area", b.Outline.Area(), row.Area, printed)
		near(t, "outline perimeter", b.Outline.Perimeter(), row.Perimeter, printed)
		near(t, "outline centroid", b.Outline.Centroid().Y, row.Ybar, 6e-6)
		near(t, "net area", b.Region().Area(), row.NetArea, printed)
		near(t, "net centroid", b.Region().Centroid().Y, row.NetYbar, 6e-6)
	}
}

func TestCornersEitherWayRound(t *testing.T) {
	cs := []describe.Corner{{At: xy(0, 0)}, {At: xy(0, 30), Chamfer: mm(4)}, {At: xy(50, 30), Radius: mm(5)}, {At: xy(50, 0)}}
	back := []describe.Corner{cs[3], cs[2], cs[1], cs[0]}
	a, b := made(t, plate(describe.Shape{Corners: cs})), made(t, plate(describe.Shape{Corners: back}))
	want := 50.0*30 - 4*4/2 - (1-math.Pi/4)*25
	near(t, "area", a.Outline.Area(), want, 1e-9)
	near(t, "area the other way", b.Outline.Area(), want, 1e-9)
}

func TestRectangle(t *testing.T) {
	for _, row := range forms(t).Rounded {
		p := plate(describe.Shape{Rectangle: &describe.Rectangle{Pos: at(101), At: xy(7, -3), Width: mm(row.A), Height: mm(row.B), Radius: mm(row.R)}})
		l := made(t, p).Outline
		near(t, "area", l.Area(), row.Area, printed)
		near(t, "perimeter", l.Perimeter(), row.Perimeter, printed)
		nearPoint(t, "centre", l.Centroid(), [2]float64{7, -3}, 1e-9)
	}
	p := plate(describe.Shape{Rectangle: &describe.Rectangle{Pos: at(101), Width: mm(80), Height: mm(40), Radius: mm(20)}})
	near(t, "full-round ends", made(t, p).Outline.Area(), 40*40+math.Pi*400, 1e-9)
	p = plate(describe.Shape{Rectangle: &describe.Rectangle{Pos: at(101), Width: mm(80), Height: mm(40), Chamfer: mm(10)}})
	near(t, "chamfered", made(t, p).Outline.Area(), 80*40-4*50, 1e-9)
}

func TestDiscAndRing(t *testing.T) {
	b := made(t, plate(describe.Shape{Disc: &describe.Disc{Pos: at(101), At: xy(3, 4), Diameter: mm(120)}}))
	if c, ok := b.Outline.Circle(); !ok || c != (geom.Circle{C: geom.Point{X: 3, Y: 4}, R: 60}) {
		t.Errorf("the disc's outline is %s", b.Outline)
	}

	b = made(t, plate(describe.Shape{Ring: &describe.Ring{Pos: at(101), Outside: mm(160), Inside: mm(90)}},
		hole("opening", place(60, 0), dia(10))))
	last := b.Holes[len(b.Holes)-1]
	if last.Purpose != RingOpening || last.Name != "opening-2" || last.Dia != 90 || last.CutDia != 90 || last.Set != "" {
		t.Errorf("the ring's opening is %+v", last)
	}
	near(t, "ring area", b.Region().Area(), math.Pi*(80*80-45*45-5*5), 1e-9)
}

func TestBossOnPatternHole(t *testing.T) {
	from, to := xy(0, 0), xy(90, 0)
	adjust := describe.HoleSet{Name: word("adjust"), Place: describe.Place{Row: &describe.Row{From: from, To: to, Count: n(4)}}, Size: dia(10)}
	b1, b2 := through("adjust.1", 101), through("adjust.4", 102)
	b1.Radius, b2.Radius = mm(20), mm(12)
	l := made(t, plate(describe.Shape{Tangent: []describe.Boss{b1, b2}}, adjust)).Outline
	if box := l.Bounds(); math.Abs(box.Min.X+20) > 1e-9 || math.Abs(box.Max.X-102) > 1e-9 {
		t.Errorf("the outline reaches from %g to %g, want -20 to 102", box.Min.X, box.Max.X)
	}
}

// A link plate may go through more than two holes; the inner ones only have to
// be in line.
func TestLinkPlateThroughThree(t *testing.T) {
	p := plate(describe.Shape{LinkPlate: &describe.LinkPlate{Pos: at(100), Widths: []describe.Length{mm(40)},
		Through: []describe.Boss{through("b", 101), through("a", 102), through("c", 103)}}},
		hole("a", place(0, 0), dia(10)), hole("b", place(30, 40), dia(10)), hole("c", place(60, 80), dia(10)))
	near(t, "area", made(t, p).Outline.Area(), 100*40+math.Pi*400, 1e-9)
	p.Holes[1].At.X.MM += 1
	wantProblem(t, p, 101, "out of line")
}

func hasCorner(l geom.Loop, p [2]float64, tol float64) bool {
	for _, s := range l {
		if math.Abs(s.A.X-p[0]) <= tol && math.Abs(s.A.Y-p[1]) <= tol {
			return true
		}
	}
	return false
}
