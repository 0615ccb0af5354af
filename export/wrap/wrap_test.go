package wrap_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/export/dxf"
	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
	"blankwright/export/pdf"
	"blankwright/export/wrap"
	"blankwright/flat/cope"
	"blankwright/flat/describe"
	"blankwright/flat/geom"
	"blankwright/flat/tube"
	"blankwright/flat/unit"
)

const head = "units: mm\nsection: {outside: 38.1, wall: 4.78, material: S355}\n"

// links are tubes of the orchard cart "Medlar" at Brackenholt Farm, and others
// that are harder to draw.
var links = []string{
	"tube: anti-wrap link\nrevision: B\n" + head + "centres: 640\nturn: 15 deg\nfirst: {main: 44.45, length: 60}\nsecond: {main: 44.45, length: 60}\n",
	"tube: equal tubes\n" + head + "centres: 300\nfirst: {main: 38.1}\nsecond: square\n",
	"tube: drop-on brace\ncut: square\n" + head + "centres: 400\nturn: -90 deg\nfirst: {main: 60.3, angle: 40 deg, offset: 5}\nsecond: {plate: yes, angle: 30 deg}\n",
	"tube: long saddle\n" + head + "centres: 900\nturn: 200 deg\nfirst: {main: 44.45, angle: 9 deg}\nsecond: [{main: 50, angle: 60 deg, turn: 40 deg}, {main: 44, angle: 70 deg, turn: 170 deg}]\n",
	"tube: small tube\nunits: in\nsection: {outside: 1/2, wall: 1/16, material: A36}\ncentres: 6\nturn: 3 deg\nfirst: {main: 3/4}\nsecond: {main: 3/4, angle: 45 deg}\n",
	"tube: large tube\nhand: mirrored\n" + strings.Replace(head, "38.1", "168.3", 1) + "centres: 900\nfirst: {main: 219.1, angle: 50 deg}\nsecond: {main: 219.1}\n",
}

func made(t testing.TB, text string) *tube.Tube {
	t.Helper()
	d, err := describe.ParseTube("tube.yaml", []byte(text))
	require.NoError(t, err)
	ts, err := tube.Make(d, nil)
	require.NoError(t, err)
	return ts[0]
}

// clear reports texts that lie over each other or off the page, and labels that
// found no place.
func clear(t *testing.T, s *paper.Sheet, name string) {
	t.Helper()
	require.Empty(t, s.Left, name)
	page := paper.Rect{X0: 9.9, Y0: 9.9, X1: s.Width - 9.9, Y1: s.Height - 9.9}
	texts := s.Texts()
	for i := range texts {
		b := texts[i].Box()
		require.True(t, page.Holds(b), "%s: %q runs off the page", name, texts[i].S)
		for j := range i {
			require.False(t, b.Overlaps(texts[j].Box()), "%s: %q lies over %q", name, texts[i].S, texts[j].S)
		}
	}
}

func sets(t *testing.T, tb *tube.Tube, page string) ([]wrap.Template, []*paper.Set) {
	t.Helper()
	var out []*paper.Set
	ks := wrap.Of(tb)
	for _, k := range ks {
		set, err := paper.Print(k.Blank, nil, paper.Options{Page: page, Wrap: k.Wrap})
		require.NoError(t, err)
		out = append(out, set)
	}
	return ks, out
}

// said are all words on some sheets, those of one callout joined.
func said(sheets ...*paper.Sheet) string {
	var b strings.Builder
	for _, s := range sheets {
		for _, x := range s.Texts() {
			b.WriteString(x.S + " ")
		}
	}
	return b.String()
}

// told reports what a fabricator has to find on a template and does not, on one
// page or another.
func told(t *testing.T, tb *tube.Tube, end int, name string, sheets ...*paper.Sheet) {
	t.Helper()
	all := said(sheets...)
	want := []string{"must meet itself", "to the " + tb.Ends[1-end].Word + " end", "seam: the edges meet", "top", "90 deg", "180 deg", "270 deg", "waste", "once round", "saw to", "Printed side out", "100 mm"}
	if !tb.Ends[1-end].Square {
		want = append(want, "turn +", tb.Ends[1-end].Word+" end's top")
	}
	if tb.Line == cope.OD {
		want = append(want, "cut: outside of the wall", "grind: inside of the wall")
	} else {
		want = append(want, "cut square through the wall")
	}
	if tb.Ends[end].Template.TabLoop() != nil {
		want = append(want, "glue tab")
	}
	for _, w := range want {
		require.Contains(t, all, w, name)
	}
}

func TestTemplatesAreLegible(t *testing.T) {
	for _, text := range links {
		tb := made(t, text)
		for _, page := range []string{"", "letter", "A3", "roll 610 mm"} {
			ks, all := sets(t, tb, page)
			for i, set := range all {
				clear(t, set.Full, tb.Name+", full")
				told(t, tb, ks[i].End, tb.Name+", full", set.Full)
				told(t, tb, ks[i].End, tb.Name+", pages of "+page, set.Pages...)
				for _, s := range set.Pages {
					clear(t, s, tb.Name+", "+s.Name+" of "+page)
				}
			}
		}
	}
}

func TestRandomTemplatesAreLegible(t *testing.T) {
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 1))
		od := 12 + r.Float64()*60
		main := od * (1 + r.Float64())
		text := fmt.Sprintf("tube: random %d\nunits: mm\nsection: {outside: %g, wall: %g, material: S355}\ncentres: 1500\nturn: %g deg\nfirst: {main: %g, angle: %g deg, turn: %g deg}\nsecond: {main: %g, offset: %g}\n",
			seed, od, od*(0.05+0.2*r.Float64()), r.Float64()*720-360, main, 15+75*r.Float64(), r.Float64()*360, main, (main-od)/2*r.Float64())
		tb := made(t, text)
		ks, all := sets(t, tb, "")
		for i, set := range all {
			clear(t, set.Full, text)
			told(t, tb, ks[i].End, text, set.Pages...)
			for _, s := range set.Pages {
				clear(t, s, text)
			}
			set.Release()
		}
	}
}

// The curve that is printed is the curve that was worked out, to 0.01 mm; its
// ends are at one height and one turn apart.
func TestOutlineIsTheCurve(t *testing.T) {
	for _, text := range links {
		tb := made(t, text)
		for _, k := range wrap.Of(tb) {
			require.NoError(t, k.Blank.Outline.Validate())
			tm := tb.Ends[k.End].Template
			left, right := 0.0, 0.0
			for _, g := range k.Blank.Outline {
				for _, f := range []float64{0, 0.3, 0.7} {
					p := g.At(f)
					q := tm.Q(p.X)
					if p.X == 0 {
						left = max(left, p.Y)
					} else if p.X == tm.Width {
						right = max(right, p.Y)
					} else if p.Y > 0 {
						require.Less(t, toCurve(tm, tb.Line, p, q), 0.0105)
					}
				}
			}
			require.InDelta(t, left, right, 1e-9)
			require.InDelta(t, math.Pi*(tb.Cut.Piece.Tube.OD+tb.Paper.Thickness), tm.Width, 1e-12)
		}
	}
}

// toCurve is the least distance of p from the curve near q.
func toCurve(k *cope.Template, kind cope.Kind, p geom.Point, q float64) float64 {
	best := math.Inf(1)
	for i := -400; i <= 400; i++ {
		v := q + float64(i)*1e-4
		best = min(best, p.Dist(geom.Point{X: p.X + (v-q)/(2*math.Pi)*k.Width, Y: k.Y(kind, v)}))
	}
	return best
}

// Templates are drawn by poppler and measured: the cut line all along, both seam
// edges, the straight edge, on every page of those that are tiled.
func TestMeasuredTemplates(t *testing.T) {
	papertest.Needs(t, "pdftoppm")
	const dpi = 600
	dir := t.TempDir()
	for _, text := range links[:4] {
		tb := made(t, text)
		ks, all := sets(t, tb, "A4")
		for i, k := range ks {
			name := fmt.Sprintf("%s %d", tb.Name, i)
			tm := tb.Ends[k.End].Template
			file, _ := pdf.Render(all[i].Pages)
			path := filepath.Join(dir, "wrap.pdf")
			require.NoError(t, os.WriteFile(path, file, 0o644))
			var found []papertest.Measured
			for n, s := range all[i].Pages {
				p, err := papertest.Draw(path, n+1, dpi)
				require.NoError(t, err)
				found = append(found, papertest.MeasureBars(p, s, 1, 1)...)
				if s.Name != "cover" {
					found = append(found, measured(p, s, tb, tm)...)
				}
			}
			counts := map[string]int{}
			for _, m := range found {
				counts[m.What]++
			}
			require.GreaterOrEqual(t, counts["cut line"], 25, name)
			require.GreaterOrEqual(t, counts["seam edge"], 2, name)
			require.GreaterOrEqual(t, counts["straight edge"], 4, name)
			papertest.Within(t, name, found, 0.1)
		}
	}
}

// measured are the places of a template that one line alone crosses.
func measured(p *papertest.Picture, s *paper.Sheet, tb *tube.Tube, tm *cope.Template) (all []papertest.Measured) {
	page := paper.Rect{X0: 12, Y0: 12, X1: s.Width - 12, Y1: s.Height - 12}
	look := func(what string, at, u geom.Point) {
		q := at.Add(s.Offset)
		if !page.Has(q) {
			return
		}
		for _, id := range []paper.LayerID{paper.Leaders, paper.Arrows, paper.GrindLines, paper.Guides, paper.Hatching, paper.TabEdges, paper.Crosses, paper.Seams} {
			for _, g := range s.Layers[id].Segs {
				if geom.PointSeg(q, g).D < 0.7 {
					return // another line is too near
				}
			}
		}
		if off, ok := p.Across(q, u, 0.45); ok {
			all = append(all, papertest.Measured{What: what, Got: off, Want: 0})
		}
	}
	const n = 120
	for i := range n {
		x := tm.Width * (float64(i) + 0.5) / n
		a, b := geom.Point{X: x - 0.01, Y: tm.Y(tb.Line, tm.Q(x-0.01))}, geom.Point{X: x + 0.01, Y: tm.Y(tb.Line, tm.Q(x+0.01))}
		d := b.Sub(a)
		step := 0.5 / math.Hypot(1, d.Y/d.X)
		if u, v := slope(tm, tb.Line, x-step), slope(tm, tb.Line, x+step); math.Abs(math.Atan(u)-math.Atan(v)) > 0.1 {
			continue // a corner, where the stroke has none
		}
		look("cut line", geom.Point{X: x, Y: tm.Y(tb.Line, tm.Q(x))}, d.Perp().Mul(1/d.Len()))
		if i%10 == 3 {
			look("straight edge", geom.Point{X: x}, geom.Point{Y: 1})
		}
	}
	for _, y := range []float64{5, 9, 13, 20} {
		look("seam edge", geom.Point{Y: y}, geom.Point{X: 1})
		look("seam edge", geom.Point{X: tm.Width, Y: y}, geom.Point{X: 1})
	}
	return all
}

// slope is the curve's over a hundredth of a millimetre.
func slope(k *cope.Template, kind cope.Kind, x float64) float64 {
	return (k.Y(kind, k.Q(x+0.005)) - k.Y(kind, k.Q(x-0.005))) / 0.01
}

// The DXF of a template is its outline by arcs, closed and as large.
func TestOutlineDXF(t *testing.T) {
	for _, text := range links {
		tb := made(t, text)
		for _, k := range wrap.Of(tb) {
			b := wrap.Outline(tb, k.End)
			require.NoError(t, b.Outline.Validate())
			require.InDelta(t, k.Blank.Outline.Area(), b.Outline.Area(), 0.02*tb.Ends[k.End].Template.Width)
			o := dxf.Options{Unit: unit.Millimetre, NoMarks: true}
			data, err := dxf.Write(b, o)
			require.NoError(t, err)
			require.NoError(t, dxf.Verify(data, b, o))
		}
	}
}

// Every point of what is printed, and of what is cut by the DXF, is put back on the
// tube in space: it lies on the main's surface, within what the curves may be off.
// The surface is written down here on its own: the tube's axis is z, the heel at x,
// the main's axis runs through (0, -e, 0) along (-sin a, 0, cos a).
func TestTemplatesLieOnTheMain(t *testing.T) {
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 5))
		od := 15 + r.Float64()*60
		main := od * (1 + r.Float64())
		a, turn, e := 5+85*r.Float64(), r.Float64()*360, (main-od)/2*(2*r.Float64()-1)
		tb := made(t, fmt.Sprintf("tube: random\nunits: mm\nsection: {outside: %g, wall: %g, material: S355}\ncentres: 5000\nfirst: {main: %g, angle: %g deg, turn: %g deg, offset: %g}\nsecond: square\n",
			od, od*0.08, main, a, turn, e))
		k := wrap.Of(tb)[0]
		tm := tb.Ends[0].Template
		sin, cos := math.Sincos(a * math.Pi / 180)
		off := func(p geom.Point) float64 {
			q := tm.Q(p.X) - turn*math.Pi/180
			x, y, z := od/2*math.Cos(q), od/2*math.Sin(q)+e, tm.EdgeAt-p.Y
			along := -x*sin + z*cos
			return math.Abs(math.Sqrt(x*x+y*y+z*z-along*along) - main/2)
		}
		look := func(l geom.Loop, most float64, what string) {
			n := 0
			for _, g := range l {
				for _, f := range []float64{0, 0.2, 0.5, 0.8} {
					p := g.At(f)
					if p.X > 1e-9 && p.X < tm.Width-1e-9 && p.Y > 1e-9 {
						require.Less(t, off(p), most, "%s of seed %d at %v", what, seed, p)
						n++
					}
				}
			}
			require.Greater(t, n, 30)
		}
		look(k.Blank.Outline, 0.0105, "paper")
		look(wrap.Outline(tb, 0).Outline, 0.0205, "DXF")
	}
}

// The line that shows where the other end's top lies is off the top line by the
// turn, the way that the first end counts; seen from the second end it is the
// same side of the tube.
func TestTurnOnTemplates(t *testing.T) {
	tb := made(t, links[0])
	for _, k := range wrap.Of(tb) {
		var top, other float64
		for _, g := range k.Wrap.Guides {
			switch {
			case g.Name == "top":
				top = g.Line.A.X
			case strings.HasSuffix(g.Name, "end's top"):
				other = g.Line.A.X
			}
		}
		require.InDelta(t, 15.0/360*math.Pi*38.2, other-top, 1e-9)
	}
	arrows := []float64{}
	for _, k := range wrap.Of(tb) {
		for _, a := range k.Wrap.Arrows {
			if a.Words == "turn +" {
				arrows = append(arrows, a.Places[0].B.X-a.Places[0].A.X)
			}
		}
	}
	require.Len(t, arrows, 2)
	require.Positive(t, arrows[0])
	require.Negative(t, arrows[1])
}

// figures are all words of a tube's figures.
func figures(t *testing.T, tb *tube.Tube) string {
	t.Helper()
	b := paper.Book{Title: tb.Name}
	wrap.Figures(&b, tb, tube.Run(tb))
	pages, err := b.Sheets()
	require.NoError(t, err)
	all := ""
	for _, s := range pages {
		clear(t, s, tb.Name)
		for _, x := range s.Texts() {
			all += x.S + "\n"
		}
	}
	return all
}

func flowed(s string) string { return strings.Join(strings.Fields(s), " ") }

// What an end adds, which way an offset is, and why no hole saw does it: told so
// that nobody has to guess a sign. The branch stands to one side of its main, so
// the arbor stands to the other of the branch.
func TestFiguresTellWays(t *testing.T) {
	all := flowed(figures(t, made(t, "tube: a\n"+head+"centres: 400\n"+
		"first: {main: 60.3, angle: 60 deg, offset: 3, turn: 20 deg}\nsecond: {plate: yes, angle: 45 deg}\n")))
	require.Contains(t, all, "adds 19.05 mm to its longest point, takes off 19.05 mm to its shortest")
	require.Contains(t, all, "at 60 deg, offset 3.00 mm towards 110 deg, heel")
	require.Contains(t, all, "in the plane of the heel, offset 3.00 mm towards 290 deg, its axis")

	all = flowed(figures(t, made(t, "tube: a\nunits: in\nsection: {outside: 1-1/2, wall: 1/8, material: A36}\ncentres: 30\n"+
		"first: {main: 2, angle: 20 deg}\nsecond: square\nhole saws: {cup: 2}\n")))
	require.Contains(t, all, "No hole saw for the main: the arbor lies at 20 degrees to the tube, the jig holds 30 or more; it has to travel 4.386 in (111.40 mm), the cup cuts 2.000 in (50.80 mm) deep.")
	require.Contains(t, all, "round, in")
	require.NotContains(t, all, "round, mm")
	require.Contains(t, all, "6 90 1.178 ") // a quarter of pi x 1.5 in
}

func TestFigures(t *testing.T) {
	for _, text := range links {
		tb := made(t, text)
		all := figures(t, tb)
		require.Contains(t, all, "saw square to")
		require.Contains(t, all, "Not checked")
		require.NotContains(t, all, "safe")
	}
}
