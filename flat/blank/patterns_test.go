package blank

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"blankwright/flat/describe"
	"blankwright/flat/geom"
)

type boltCircles struct {
	Top           map[string][][2]float64 `json:"first at the top (start 90 deg)"`
	Astride       map[string][][2]float64 `json:"first pair astride the top (start 90 deg + half a step)"`
	Chord         map[string]float64      `json:"chord between neighbours sin(180/n)"`
	AcrossCorners map[string]float64      `json:"regular polygon across corners over across flats 1/cos(180/n)"`
}

func circleOf(count int, d, start float64) describe.Place {
	return describe.Place{Circle: &describe.BoltCircle{At: xy(0, 0), Diameter: mm(d), Count: n(count), Start: deg(start)}}
}

// Published coordinates of bolt circles, scaled to a diameter of 400 mm. The
// file names its source.
func TestBoltCircleTables(t *testing.T) {
	var table boltCircles
	load(t, "testdata/bolt-circles.json", &table)
	const d = 400
	rows := 0
	check := func(key string, want [][2]float64, start float64) {
		count, err := strconv.Atoi(key)
		if err != nil || len(want) != count {
			t.Fatalf("row %q has %d places", key, len(want))
		}
		b := made(t, plate(big(), hole("flange", circleOf(count, d, start), bolt("M10"))))
		if len(b.Holes) != count {
			t.Fatalf("%d holes, want %d", len(b.Holes), count)
		}
		for k, h := range b.Holes {
			nearPoint(t, fmt.Sprintf("hole %d of %d", k+1, count), h.Centre, [2]float64{want[k][0] * d, want[k][1] * d}, 6e-6*d)
			if want := "flange." + strconv.Itoa(k+1); h.Name != want {
				t.Errorf("hole is named %q, want %q", h.Name, want)
			}
		}
		if chord, ok := table.Chord[key]; ok {
			near(t, "chord", b.Holes[0].Centre.Dist(b.Holes[1].Centre), chord*d, 6e-7*d)
		}
		rows++
	}
	for key, want := range table.Top {
		check(key, want, 90)
	}
	for key, want := range table.Astride {
		count, _ := strconv.ParseFloat(key, 64)
		check(key, want, 90+180/count)
	}
	if rows != 11 {
		t.Errorf("%d rows of coordinates, want 11", rows)
	}
}

// A regular polygon with its corners on a bolt circle: across corners over
// across flats.
func TestRegularPolygons(t *testing.T) {
	var table boltCircles
	load(t, "testdata/bolt-circles.json", &table)
	if len(table.AcrossCorners) != 3 || len(table.Chord) != 6 {
		t.Fatal("rows are missing")
	}
	for key, want := range table.AcrossCorners {
		count, _ := strconv.Atoi(key)
		var cs []describe.Corner
		for k := range count {
			p := direction(math.Pi/2 + 2*math.Pi*float64(k)/float64(count)).Mul(100)
			cs = append(cs, describe.Corner{Pos: at(101 + k), At: xy(p.X, p.Y)})
		}
		l := made(t, plate(describe.Shape{Corners: cs})).Outline
		flats := 2 * geom.PointLoop(geom.Point{}, l).D
		near(t, "across corners over across flats", 200/flats, want, 6e-7)
	}
}

func TestBoltCircleQuartersAreExact(t *testing.T) {
	b := made(t, plate(big(), hole("f", circleOf(4, 200, 0), dia(10))))
	for k, want := range []geom.Point{{X: 100}, {Y: 100}, {X: -100}, {Y: -100}} {
		if b.Holes[k].Centre != want {
			t.Errorf("hole %d is at %v, want %v exactly", k+1, b.Holes[k].Centre, want)
		}
	}
}

func TestRow(t *testing.T) {
	b := made(t, plate(big(), hole("adjust", describe.Place{Row: &describe.Row{From: xy(-30, 5), To: xy(30, 45), Count: n(3)}}, dia(10))))
	for k, want := range []geom.Point{{X: -30, Y: 5}, {X: 0, Y: 25}, {X: 30, Y: 45}} {
		if b.Holes[k].Centre != want {
			t.Errorf("hole %d is at %v, want %v", k+1, b.Holes[k].Centre, want)
		}
	}
}

func TestGrid(t *testing.T) {
	b := made(t, plate(big(), hole("base", describe.Place{Grid: &describe.Grid{
		At: xy(10, 20), Columns: n(3), Rows: n(2), PitchX: mm(40), PitchY: mm(30)}}, dia(10))))
	want := []geom.Point{{X: -30, Y: 5}, {X: 10, Y: 5}, {X: 50, Y: 5}, {X: -30, Y: 35}, {X: 10, Y: 35}, {X: 50, Y: 35}}
	for k := range want {
		if b.Holes[k].Centre != want[k] {
			t.Errorf("hole %d is at %v, want %v", k+1, b.Holes[k].Centre, want[k])
		}
	}
	one := made(t, plate(big(), hole("base", describe.Place{Grid: &describe.Grid{At: xy(10, 20), Columns: n(1), Rows: n(1)}}, dia(10))))
	if one.Holes[0].Name != "base" {
		t.Errorf("the only hole of a grid is named %q, want base", one.Holes[0].Name)
	}
}

func TestMirror(t *testing.T) {
	row := &describe.Row{From: xy(0, 10), To: xy(40, 10), Count: n(3)}
	even := &describe.Row{From: xy(-30, 10), To: xy(30, 10), Count: n(4)}
	for _, c := range []struct {
		name   string
		place  describe.Place
		mirror string
		want   []geom.Point
	}{
		{"one hole, y", place(30, 10), "y", []geom.Point{{X: 30, Y: 10}, {X: -30, Y: 10}}},
		{"one hole, x", place(30, 10), "x", []geom.Point{{X: 30, Y: 10}, {X: 30, Y: -10}}},
		{"one hole, both", place(30, 10), "both", []geom.Point{{X: 30, Y: 10}, {X: -30, Y: 10}, {X: 30, Y: -10}, {X: -30, Y: -10}}},
		{"on the axis", place(0, 10), "y", []geom.Point{{X: 0, Y: 10}}},
		{"on one of two axes", place(0, 10), "both", []geom.Point{{X: 0, Y: 10}, {X: 0, Y: -10}}},
		{"at the origin", place(0, 0), "both", []geom.Point{{X: 0, Y: 0}}},
		{"row with one on the axis", describe.Place{Row: row}, "y", []geom.Point{{X: 0, Y: 10}, {X: 20, Y: 10}, {X: 40, Y: 10}, {X: -20, Y: 10}, {X: -40, Y: 10}}},
		{"row that is its own image", describe.Place{Row: even}, "y", []geom.Point{{X: -30, Y: 10}, {X: -10, Y: 10}, {X: 10, Y: 10}, {X: 30, Y: 10}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.place.Mirror = word(c.mirror)
			b := made(t, plate(big(), hole("h", c.place, dia(5))))
			if len(b.Holes) != len(c.want) {
				t.Fatalf("%d holes, want %d", len(b.Holes), len(c.want))
			}
			for k, h := range b.Holes {
				if h.Centre.Dist(c.want[k]) > 1e-12 {
					t.Errorf("hole %d is at %v, want %v", k+1, h.Centre, c.want[k])
				}
				if h.Name != memberName("h", k+1, len(c.want)) || h.Set != "h" {
					t.Errorf("hole %d is named %q of %q", k+1, h.Name, h.Set)
				}
			}
		})
	}
}

func TestMirroredSlots(t *testing.T) {
	slot := describe.Size{Diameter: mm(10), Slot: &describe.Slot{Pos: at(50), Length: mm(30), Angle: deg(30)}}
	p := place(40, 20)
	p.Mirror = word("both")
	b := made(t, plate(big(), hole("s", p, slot)))
	for k, want := range []float64{30, 150, 150, 30} {
		near(t, fmt.Sprintf("angle of slot %d", k+1), b.Holes[k].Angle*180/math.Pi, want, 1e-9)
	}
	if got, want := b.Holes[1].Callout, "slot 10 x 30 mm at 150 deg"; got != want {
		t.Errorf("callout is %q, want %q", got, want)
	}

	p = place(0, 20)
	p.Mirror = word("y")
	wantProblem(t, plate(big(), hole("s", p, slot)), 10, "cross its own mirror image")
	for _, a := range []float64{0, 90, 180, -90} {
		slot.Slot.Angle = deg(a)
		if b := made(t, plate(big(), hole("s", p, slot))); len(b.Holes) != 1 {
			t.Errorf("a slot at %g deg on the axis was doubled", a)
		}
	}
}

func TestPatternsThatCannotBe(t *testing.T) {
	for _, c := range []struct {
		name, want string
		place      describe.Place
	}{
		{"no place", "has no place", describe.Place{}},
		{"row to nowhere", "two places", describe.Place{Row: &describe.Row{From: xy(1, 1), To: xy(1, 1), Count: n(3)}}},
		{"row of one", "cannot reach", describe.Place{Row: &describe.Row{From: xy(1, 1), To: xy(9, 1), Count: n(1)}}},
		{"row of none", "wanted 1 to", describe.Place{Row: &describe.Row{From: xy(1, 1), To: xy(9, 1), Count: n(0)}}},
		{"grid too large", "wanted no more than", describe.Place{Grid: &describe.Grid{Columns: n(200), Rows: n(200), PitchX: mm(1), PitchY: mm(1)}}},
		{"grid without pitch", "pitch of the columns is missing", describe.Place{Grid: &describe.Grid{Columns: n(2), Rows: n(1)}}},
		{"circle without size", "more than nothing", describe.Place{Circle: &describe.BoltCircle{Diameter: mm(0), Count: n(3)}}},
		{"far away", "out of reach", place(1e9, 0)},
		{"nowhere", "out of reach", place(math.NaN(), 0)},
		{"endless turn", "no more than 10 turns", circleOf(3, 100, 1e9)},
		{"unknown mirror", "x, y, both", describe.Place{At: place(1, 1).At, Mirror: wordAt("z", 10)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			wantProblem(t, plate(big(), hole("h", c.place, dia(5))), 10, c.want)
		})
	}
}

func TestTooManyHoles(t *testing.T) {
	g := describe.Place{Grid: &describe.Grid{Columns: n(99), Rows: n(99), PitchX: mm(8), PitchY: mm(8)}}
	wantProblem(t, plate(big(), hole("a", g, dia(5)), hole("b", g, dia(5))), 11, "more than 10000 holes")
}
