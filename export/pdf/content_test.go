package pdf

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"blankwright/flat/geom"
)

// Arcs of every size and sweep are drawn by curves that stray less than 0.01 mm
// from them, ends included: 0.003 by the choice of their number, the rest by
// decimals.
func TestArcsStrayLittle(t *testing.T) {
	worst := 0.0
	for seed := range uint64(1200) {
		rnd := rand.New(rand.NewPCG(seed, 5))
		r := math.Exp(rnd.Float64()*math.Log(50_000/0.3)) * 0.3
		k := geom.Circle{C: geom.Point{X: rnd.Float64() * 1000, Y: rnd.Float64() * 1000}, R: r}
		from := rnd.Float64() * 2 * math.Pi
		sweep := (rnd.Float64()*2 - 1) * math.Pi
		a, b := k.C.Polar(r, from), k.C.Polar(r, from+sweep)
		g := geom.Arc(k, a, b, sweep > 0)
		var c content
		c.path([]geom.Seg{g})
		worst = max(worst, strays(t, string(c.out), k))
		if n := strings.Count(string(c.out), "c\n"); n > 40 {
			t.Fatalf("radius %v, sweep %v: %d curves", r, sweep, n)
		}
		c.out = c.out[:0]
		c.circle(k)
		worst = max(worst, strays(t, string(c.out), k))
	}
	if worst > 0.004 || worst < 0.001 {
		t.Errorf("curves stray %v mm at most; looked for 0.003 and decimals", worst)
	}
}

// strays gives how far the curves of a path lie from a circle.
func strays(t *testing.T, path string, k geom.Circle) (worst float64) {
	t.Helper()
	var at geom.Point
	for _, line := range strings.Split(strings.TrimSpace(path), "\n") {
		var p [3]geom.Point
		switch {
		case strings.HasSuffix(line, " m"):
			if _, err := fmt.Sscan(line, &at.X, &at.Y); err != nil {
				t.Fatal(err)
			}
		case strings.HasSuffix(line, " c"):
			if _, err := fmt.Sscan(line, &p[0].X, &p[0].Y, &p[1].X, &p[1].Y, &p[2].X, &p[2].Y); err != nil {
				t.Fatal(err)
			}
			for i := 0; i <= 40; i++ {
				s := float64(i) / 40
				u := 1 - s
				q := at.Mul(u * u * u).Add(p[0].Mul(3 * u * u * s)).Add(p[1].Mul(3 * u * s * s)).Add(p[2].Mul(s * s * s))
				worst = max(worst, math.Abs(q.Dist(k.C)-k.R))
			}
			at = p[2]
		}
	}
	return worst
}

func TestLiteral(t *testing.T) {
	for in, want := range map[string]string{
		"plain":        "(plain)",
		`a(b)c\d`:      `(a\(b\)c\\d)`,
		"\n\r\t\x00":   `(\012\015\011\000)`,
		"\xe4\xff\x80": `(\344\377\200)`,
		"":             "()",
	} {
		if got := string(appendLiteral(nil, []byte(in))); got != want {
			t.Errorf("%q is written %s, want %s", in, got, want)
		}
	}
}

func TestEncode(t *testing.T) {
	for in, want := range map[string]string{
		"13.5 mm":    "13.5 mm",
		"½ × ⌀12 ±":  "\xbd \xd7 \xd812 \xb1",
		"€–’™Ÿ":      "\x80\x96\x92\x99\x9f",
		"≥5 −3 ⅜":    ">=5 -3 3/8",
		"Ω軸":         "??",
		"\xff\xfe":   "??",
		"\x01\u0085": "??",
	} {
		var c content
		if got := string(c.encode(nil, in)); got != want {
			t.Errorf("%q is %q in WinAnsi, want %q", in, got, want)
		}
	}
	for r := rune(0); r < 0x3000; r++ { // every code is one character's
		if k := code(r); k != 0 && (k < ' ' || k == 127) {
			t.Errorf("%q has code %d", r, k)
		}
	}
}
