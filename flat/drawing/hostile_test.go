package drawing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/drawing"
	"blankwright/flat/geom"
)

// hostiles are drawings made to cost time: each comes to an end soon, with no
// region that is not sound, and says where it gave up.
var hostiles = map[string]struct {
	make    func(s *sheet, n int)
	tangled bool
}{
	"lines that all cross": {func(s *sheet, n int) {
		for i := range n {
			a := float64(i) * math.Pi / float64(n)
			s.line("0", pt(0, 0).Polar(100, a), pt(1, 1).Polar(100, a+math.Pi))
		}
	}, true},
	"a grid": {func(s *sheet, n int) {
		for i := range n / 2 {
			v := float64(i) * 2000 / float64(n)
			s.line("0", pt(v, -1), pt(v, 2001))
			s.line("0", pt(-1, v), pt(2001, v))
		}
	}, true},
	"circles in circles": {func(s *sheet, n int) {
		for i := range n {
			s.circle("0", pt(0, 0), 20+float64(i)*0.03)
		}
	}, true},
	"one line again and again": {func(s *sheet, n int) {
		for i := range n {
			s.line("0", pt(0, 0), pt(100, float64(i%2)*20))
		}
	}, false},
	"one line again and again, never the same": {func(s *sheet, n int) {
		for i := range n {
			s.line("0", pt(0, float64(i)*1e-7), pt(100, 0))
		}
	}, true},
	"a star of lines": {func(s *sheet, n int) {
		for i := range n {
			a := float64(i) * 2 * math.Pi / float64(n)
			s.line("0", pt(0, 0), pt(0, 0).Polar(1000, a))
		}
	}, true},
	"dust": {func(s *sheet, n int) {
		r := rand.New(rand.NewPCG(1, 1))
		for range n {
			p := pt(r.Float64()/10, r.Float64()/10)
			s.line("0", p, p.Add(pt(r.Float64()/100, r.Float64()/100)))
		}
		s.loop("0", rectangle(0, 0, 50, 50))
	}, true},
	"stairs of loose ends": {func(s *sheet, n int) {
		for i := range n {
			x := float64(i) * 0.1
			s.line("0", pt(x, x), pt(x+0.09, x+0.02))
		}
	}, false},
	"a chain of one end": {func(s *sheet, n int) {
		for i := range n {
			s.line("0", pt(float64(i)*0.5, 0), pt(float64(i+1)*0.5, math.Sin(float64(i))/100))
		}
	}, false},
	"squares on corners": {func(s *sheet, n int) {
		for i := range n / 4 {
			x, y := float64(i%100)*10, float64(i/100)*10
			if (i%100+i/100)%2 == 0 {
				s.loop("0", rectangle(x, y, 10, 10))
			}
		}
	}, false},
	"one huge crinkled outline": {func(s *sheet, n int) {
		l := geom.Loop{}
		at := func(i int) geom.Point {
			return pt(0, 0).Polar(500+10*float64(i%2), float64(i)*2*math.Pi/float64(n))
		}
		n -= n % 2
		for i := range n {
			l = append(l, geom.Line(at(i), at((i+1)%n)))
		}
		s.joined("0", l)
		for i := range 300 {
			s.circle("0", pt(0, 0).Polar(400, float64(i)), 0.5)
		}
	}, false},
}

func TestHostile(t *testing.T) {
	const n = 20_000
	for name, h := range hostiles {
		t.Run(name, func(t *testing.T) {
			s := &sheet{}
			h.make(s, n)
			d := s.read(t)
			a := drawing.Assemble(d, 0)
			tangled := false
			for _, f := range a.Faults {
				tangled = tangled || f.Kind == drawing.Tangled
				assert.NotEmpty(t, f.Message)
			}
			m := drawing.Mend(a)
			for _, r := range m.Regions {
				require.NoError(t, r.Validate())
			}
			if tangled {
				assert.Empty(t, m.Regions)
			}
			t.Log(len(a.Contours), len(a.Open), len(a.Faults), len(m.Regions), len(m.Left))
			assert.Equal(t, h.tangled, tangled)
			assert.Less(t, len(a.Faults), 10_000)
		})
	}
}
