package blank

import (
	"math"
	"testing"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
)

func gusset(g describe.Gusset) describe.Shape {
	g.Pos = at(101)
	return describe.Shape{Gusset: &g}
}

func two(a, b float64) [2]describe.Length { return [2]describe.Length{mm(a), mm(b)} }

func TestGussetClosedForms(t *testing.T) {
	for _, row := range forms(t).Gusset {
		kind := row.Kind
		if kind == "arc" {
			kind = "round"
		}
		l := made(t, plate(gusset(describe.Gusset{Legs: two(row.A, row.B), Snipe: mm(row.Snipe), SnipeKind: word(kind)}))).Outline
		near(t, row.Kind+" area", l.Area(), row.Area, printed)
		near(t, row.Kind+" perimeter", l.Perimeter(), row.Perimeter, printed)
		nearPoint(t, row.Kind+" centroid", l.Centroid(), row.Centroid, 6e-6)
	}
}

func TestGussetToesAreSquareToTheirLegs(t *testing.T) {
	g := describe.Gusset{At: xy(10, 20), Legs: two(100, 80), Toes: two(8, 6), Angle: deg(70), Snipe: mm(12)}
	l := made(t, plate(gusset(g))).Outline
	u := geom.Point{X: math.Cos(70 * math.Pi / 180), Y: math.Sin(70 * math.Pi / 180)}
	in := geom.Point{X: u.Y, Y: -u.X}
	root := geom.Point{X: 10, Y: 20}
	for _, want := range []geom.Point{
		{X: 12}, {X: 100}, {X: 100, Y: 8}, u.Mul(80).Add(in.Mul(6)), u.Mul(80), u.Mul(12),
	} {
		want = want.Add(root)
		if !hasCorner(l, [2]float64{want.X, want.Y}, 1e-9) {
			t.Errorf("no corner at %v in %s", want, l)
		}
	}
	if len(l) != 6 {
		t.Errorf("the gusset has %d edges, want 6", len(l))
	}
}

// A hollow takes a circular segment off the straight gusset: area
// R²(θ - sin θ)/2 with the chord 2R sin(θ/2) (closed form).
func TestGussetHollow(t *testing.T) {
	for _, angle := range []float64{60, 90, 120} {
		g := describe.Gusset{Legs: two(120, 90), Toes: two(10, 10), Angle: deg(angle), Snipe: mm(15), SnipeKind: word("round")}
		straight := made(t, plate(gusset(g))).Outline
		g.Hollow = mm(200)
		hollow := made(t, plate(gusset(g))).Outline
		var arc geom.Seg
		for _, s := range hollow {
			if s.IsArc() && s.Circle().R == 200 {
				arc = s
			}
		}
		th := 2 * math.Asin(arc.A.Dist(arc.B)/400)
		near(t, "area taken off", straight.Area()-hollow.Area(), 200*200*(th-math.Sin(th))/2, 1e-6)
		if arc.Bulge >= 0 {
			t.Errorf("the free edge bulges outwards at %g deg", angle)
		}
	}
}

func TestGussetThatDoesNotFit(t *testing.T) {
	ok := describe.Gusset{Legs: two(100, 60), Toes: two(8, 8), Snipe: mm(12)}
	for _, c := range []struct {
		name, want string
		spoil      func(*describe.Gusset)
	}{
		{"snipe as long as a leg", "leaves nothing of a leg", func(g *describe.Gusset) { g.Snipe = mm(60) }},
		{"toes meet", "leave no free edge", func(g *describe.Gusset) { g.Toes = two(60, 100) }},
		{"toes cross", "leave no free edge", func(g *describe.Gusset) { g.Toes = two(90, 150) }},
		{"toe past the other leg", "leave no free edge", func(g *describe.Gusset) { g.Angle, g.Toes = deg(20), two(40, 0) }},
		{"hollow too small for the gap", "does not span", func(g *describe.Gusset) { g.Hollow = mm(40) }},
		{"hollow into the leg", "cuts into", func(g *describe.Gusset) { g.Toes, g.Hollow = two(0, 0), mm(60) }},
		{"hollow into the snipe", "reaches the free edge", func(g *describe.Gusset) { g.Legs, g.Snipe, g.Hollow = two(60, 60), mm(55), mm(60) }},
		{"round snipe through a flat corner", "reaches the free edge", func(g *describe.Gusset) {
			g.Angle, g.Legs, g.Toes, g.Snipe, g.SnipeKind = deg(170), two(100, 100), two(0, 0), mm(20), word("round")
		}},
		{"legs in one line", "less than 180", func(g *describe.Gusset) { g.Angle = deg(180) }},
		{"no leg", "leg of the gusset is missing", func(g *describe.Gusset) { g.Legs[1] = describe.Length{} }},
		{"unknown snipe", "straight, round", func(g *describe.Gusset) { g.SnipeKind = wordAt("curly", 101) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := ok
			g.Angle.Pos, g.Hollow.Pos, g.Snipe.Pos = at(101), at(101), at(101)
			c.spoil(&g)
			if g.Angle.Pos.Line == 0 {
				g.Angle.Pos = at(101)
			}
			wantProblem(t, plate(gusset(g)), 101, c.want)
		})
	}
	made(t, plate(gusset(ok)))
}
