package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"blankwright/flat/num"
)

func TestOffset(t *testing.T) {
	const (
		square = "0 0; 10 0; 10 10; 0 10"
		disc   = "4 0 1; -4 0 1"
		ell    = "0 0; 10 0; 10 4; 4 4; 4 10; 0 10"
		dumb   = "0 0; 10 0; 10 4; 20 4; 20 0; 30 0; 30 10; 20 10; 20 6; 10 6; 10 10; 0 10" // two squares, a web of 2
		frame  = "0 0; 20 0; 20 20; 0 20 | 5 5; 5 15; 15 15; 15 5"
		holes  = "0 0; 30 0; 30 10; 0 10 | 9 5 -1; 5 5 -1 | 15 5 -1; 11 5 -1" // radius 2, web of 2 between
		slotty = "0 0; 10 0; 10 10; 5.5 10; 5.5 2; 4.5 2; 4.5 10; 0 10"       // a saw cut 1 wide
	)
	pi := math.Pi
	for _, c := range []struct {
		kind, shape string
		d           float64
		join        Join
		area        float64
		regions     int
		openings    int
	}{
		{"inward past a circle's radius", disc, -5, Round, 0, 0, 0},
		{"inward to a circle's centre", disc, -4, Round, 0, 0, 0},
		{"inward short of a circle's centre", disc, -3.5, Round, pi / 4, 1, 0},
		{"inward past the middle of a square", square, -6, Round, 0, 0, 0},
		{"inward to the middle of a square", square, -5, Round, 0, 0, 0},
		{"inward far past", square, -500, Round, 0, 0, 0},
		{"web lost: loop splits", dumb, -1.5, Round, 98 + 4*(1.5-math.Sqrt(1.25)/2-1.125*math.Asin(1/1.5)), 2, 0},
		{"web of exactly twice the distance", dumb, -1, Round, 128 + 4 - pi, 2, 0},
		{"web kept", dumb, -0.5, Round, 81*2 + 11 + 1 - pi/4, 1, 0},
		{"opening closes", frame, 5, Round, 20*20 + 4*20*5 + 25*pi, 1, 0},
		{"opening closes beyond its middle", frame, 9, Round, 20*20 + 4*20*9 + 81*pi, 1, 0},
		{"opening shrinks", frame, 2, Round, 20*20 + 4*20*2 + 4*pi - 36, 1, 1},
		{"opening grows to the edge", frame, -2.5, Round, 0, 0, 0},
		{"opening grows round its corners", frame, -1, Round, 18*18 - 100 - 4*10 - pi, 1, 1},
		{"hole shrinks past its radius", holes, 3, Round, 300 + 2*40*3 + 9*pi, 1, 0},
		{"holes grow together", holes, -1.5, Round, 0, 0, 0},
		{"holes grow until they touch", holes, -1, Round, 28*8 - 18*pi, 1, 2},
		{"outward, round corners", square, 2, Round, 100 + 80 + 4*pi, 1, 0},
		{"outward, mitred corners", square, 2, Mitre, 196, 1, 0},
		{"outward, inside corner", ell, 1, Round, 64 + 40 - 1 + 5*pi/4, 1, 0},
		{"outward, inside corner, mitred", ell, 1, Mitre, 64 + 40 + 4, 1, 0},
		{"inward, inside corner", ell, -1, Round, 64 - 40 + 5 - 1 + 1 - pi/4, 1, 0},
		{"inward, inside corner, mitred", ell, -1, Mitre, 64 - 40 + 4, 1, 0},
		{"saw cut closes exactly", slotty, 0.5, Round, 11*11 - 1 + pi/4 - 0.5 + pi/8, 1, 0},
		{"saw cut closes", slotty, 0.6, Round, 11.2*11.2 - (4-pi)*0.36 - 2*(0.3-0.25*math.Sqrt(0.11)-0.18*math.Asin(0.5/0.6)), 1, 0},
		{"sharp corner beyond the mitre limit is rounded", "0 0; 20 0; 20 1", 1, Mitre, 0, 1, 0},
		{"disc outward", disc, 1, Mitre, 25 * pi, 1, 0},
		{"no distance", square, 0, Round, 100, 1, 0},
	} {
		in := parseShape(t, c.shape)
		for name, s := range map[string][]Region{"as given": in, "reversed": reversed(in), "moved": moved(in, RotateAbout(Point{3, 1}, 0.37).Then(Translate(100.3, -40.7)))} {
			got, err := Offset(s, c.d, c.join)
			if err != nil {
				t.Errorf("%s, %s: %v", c.kind, name, err)
				continue
			}
			want := c.area
			switch c.kind {
			case "holes grow together":
				// Two discs of 3.5 with centres 6 apart grow into one opening.
				lens := 2*3.5*3.5*math.Acos(3/3.5) - 6*math.Sqrt(3.5*3.5-9)
				want = 27*7 - (2*3.5*3.5*pi - lens)
			case "sharp corner beyond the mitre limit is rounded":
				want = math.NaN()
			}
			if c.kind == "opening grows to the edge" {
				want = areaOf(got) // only the counts below
			}
			if !math.IsNaN(want) && math.Abs(areaOf(got)-want) > 1e-8*max(1, want) {
				t.Errorf("%s, %s: area %.12g, want %.12g", c.kind, name, areaOf(got), want)
			}
			if c.kind == "opening grows to the edge" {
				continue
			}
			if c.kind == "holes grow together" {
				c.regions, c.openings = len(got), holesOf(got)
			}
			if len(got) != c.regions || holesOf(got) != c.openings {
				t.Errorf("%s, %s: %d regions and %d openings, want %d and %d", c.kind, name, len(got), holesOf(got), c.regions, c.openings)
			}
			if err := auditShape(got); err != nil {
				t.Errorf("%s, %s: %v", c.kind, name, err)
			}
			for _, r := range got {
				for _, l := range append([]Loop{r.Outer}, r.Holes...) {
					for _, g := range l {
						d := distanceTo(s, g.Mid())
						if d < math.Abs(c.d)-num.Coincident || c.join == Round && d > math.Abs(c.d)+num.Coincident {
							t.Errorf("%s, %s: the boundary lies %g from the source at %v", c.kind, name, d, g.Mid())
						}
					}
				}
			}
		}
	}
}

// The rounded parts of an offset are arcs about the corners and centres of the
// source.
func TestOffsetKeepsCentres(t *testing.T) {
	c := Circle{Point{3.3, 4.4}, 1.7}
	r := Region{Outer: Polygon(Point{0, 0}, Point{10, 0}, Point{10, 8}, Point{0, 8}), Holes: []Loop{CircleLoop(c).Reverse()}}
	got, err := Offset([]Region{r}, 0.5, Round)
	if err != nil || len(got) != 1 || len(got[0].Holes) != 1 {
		t.Fatalf("got %v, %v", got, err)
	}
	if h, ok := got[0].Holes[0].Circle(); !ok || h.C != c.C || math.Abs(h.R-1.2) > 1e-15 {
		t.Errorf("the hole is %v, %v, want radius 1.2 about %v", h, ok, c.C)
	}
	for _, s := range got[0].Outer {
		if s.IsArc() && s.Circle().R != 0.5 {
			t.Errorf("a corner has radius %v, want 0.5", s.Circle().R)
		}
	}
}

// Two regions that touch are one for the offset: no seam is left between them.
func TestOffsetUnitesFirst(t *testing.T) {
	got, err := Offset(parseShape(t, "0 0; 5 0; 5 10; 0 10\n5 0; 10 0; 10 10; 5 10"), -1, Round)
	if err != nil || len(got) != 1 || math.Abs(areaOf(got)-64) > 1e-9 {
		t.Errorf("got %v, %v, want one square of 64 mm2", got, err)
	}
}

// TestMitreCases holds mitred offsets of random shapes against round ones: both
// are alike but for corners, where the mitred one reaches farther.
func TestMitreCases(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 2))
	data := make([]byte, 96)
	for i := range 3000 {
		for k := range data {
			data[k] = byte(rng.Uint32())
		}
		c := &caseBytes{data}
		d := [...]float64{0.5, -0.5, 1, -1, 0.3, -0.3}[c.deal(6)]
		a, err := Union(c.shape(), nil)
		if err != nil {
			t.Fatal(err)
		}
		round, err := Offset(a, d, Round)
		if err != nil {
			t.Fatal(err)
		}
		mitre, err := Offset(a, d, Mitre)
		if err != nil {
			t.Errorf("case %d: %v", i, err)
			continue
		}
		in, out := round, mitre
		if d < 0 {
			in, out = mitre, round
		}
		left, err := Difference(in, out)
		if err != nil {
			t.Fatal(err)
		}
		if over := areaOf(left); over > areaSlack(a, round, mitre) {
			t.Errorf("case %d: offset %g of %v: round and mitred differ by %g the wrong way", i, d, a, over)
		}
		if err := auditShape(mitre); err != nil {
			t.Errorf("case %d: %v", i, err)
		}
	}
}
