package svg_test

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
	"blankwright/export/svg"
	"blankwright/flat/blank"
	"blankwright/flat/describe"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/samples"
)

// missing skips the test where what it compares with is not installed; on CI
// that is a failure.
func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is not installed", what)
	}
	t.Skipf("%s is not installed", what)
}

func needs(t *testing.T, program string) {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		missing(t, program)
	}
}

// Every file is valid by the document type definition of SVG 1.1.
func TestValidByTheDTD(t *testing.T) {
	needs(t, "xmllint")
	dtds, _ := filepath.Glob("/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-*/svg11.dtd")
	if len(dtds) == 0 {
		missing(t, "the SVG 1.1 DTD (Debian: w3c-sgml-lib)")
	}
	dir := t.TempDir()
	args := []string{"--noout", "--nonet", "--dtdvalid", dtds[0]}
	for i, b := range append(papertest.All(), sampleParts(t)...) {
		for k, fs := range [][]diag.Finding{nil, someFindings()} {
			file := filepath.Join(dir, fmt.Sprintf("%d-%d.svg", i, k))
			if err := os.WriteFile(file, write(t, b, fs, svg.Options{}), 0o600); err != nil {
				t.Fatal(err)
			}
			args = append(args, file)
		}
	}
	if out, err := exec.Command("xmllint", args...).CombinedOutput(); err != nil {
		t.Errorf("xmllint: %v\n%s", err, out)
	}
	// It can fail: an element of no SVG.
	bad := filepath.Join(dir, "bad.svg")
	broken := bytes.Replace(write(t, papertest.Shim(), nil, svg.Options{}), []byte("<title>"), []byte("<foo/><title>"), 1)
	if err := os.WriteFile(bad, broken, 0o600); err != nil {
		t.Fatal(err)
	}
	if exec.Command("xmllint", "--noout", "--nonet", "--dtdvalid", dtds[0], bad).Run() == nil {
		t.Error("xmllint takes an element that SVG 1.1 does not have")
	}
}

// sampleParts are the mended samples with shapes joined and cut out: saddle, tabs
// and the slots for them.
func sampleParts(tb testing.TB) []*blank.Blank {
	tb.Helper()
	var all []*blank.Blank
	for _, s := range samples.List() {
		if s.Variant != samples.Mended {
			continue
		}
		p, err := describe.Parse(s.Path, s.Text)
		if err != nil {
			tb.Fatal(err)
		}
		bs, err := blank.Make(p)
		if err != nil {
			tb.Fatal(err)
		}
		for _, b := range bs {
			if len(b.Cutouts)+len(b.Edges) > 0 {
				all = append(all, b)
			}
		}
	}
	if len(all) < 3 {
		tb.Fatalf("%d samples have saddles, tabs or slots for them", len(all))
	}
	return all
}

// perMM is the resolution of the pictures that are measured: 10 pixels a
// millimetre is 254 dpi. Middles of lines are found to a part of a pixel.
const perMM = 10.0

// picture is a sheet as librsvg draws it, dark or light.
type picture struct{ img *image.Gray }

func draw(t *testing.T, s *paper.Sheet) *picture {
	t.Helper()
	cmd := exec.Command("rsvg-convert", "-d", "254", "-p", "254", "-b", "white")
	cmd.Stdin = bytes.NewReader(svg.Render(s))
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	size := img.Bounds()
	if w, h := s.Page.Width*perMM, s.Page.Height*perMM; math.Abs(float64(size.Dx())-w) > 0.6 || math.Abs(float64(size.Dy())-h) > 0.6 {
		t.Fatalf("the picture is %v pixels, want %v by %v", size.Max, w, h)
	}
	gray := image.NewGray(img.Bounds())
	rgba, ok := img.(*image.NRGBA)
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			if ok { // sheets are black and white
				gray.Pix[y*gray.Stride+x] = rgba.Pix[y*rgba.Stride+4*x]
			} else {
				gray.Set(x, y, img.At(x, y))
			}
		}
	}
	return &picture{gray}
}

// dark is the weight of ink at a pixel, 0 to 1. Rows count from the foot of the
// page.
func (p *picture) dark(x, y int) float64 {
	y = p.img.Rect.Dy() - 1 - y
	if !(image.Point{X: x, Y: y}).In(p.img.Rect) {
		return 0
	}
	return 1 - float64(p.img.GrayAt(x, y).Y)/255
}

// along gives the middles, in mm of page coordinates, of the lines that a level
// (or upright) scan at mm across meets between from and to.
func (p *picture) along(across, from, to float64, up bool) (mids []float64) {
	ink, moment := 0.0, 0.0
	for i := int(from * perMM); i <= int(to*perMM)+1; i++ {
		v := 0.0
		if up {
			v = p.dark(int(across*perMM), i)
		} else {
			v = p.dark(i, int(across*perMM))
		}
		if v > 0.1 && i <= int(to*perMM) {
			ink += v
			moment += v * (float64(i) + 0.5)
			continue
		}
		if ink > 0.5 {
			mids = append(mids, moment/ink/perMM)
		}
		ink, moment = 0, 0
	}
	return mids
}

func within(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 0.1 {
		t.Errorf("%s: %.3f mm, want %.3f within 0.1", what, got, want)
	}
}

// measured are sheets in both orientations and of both families of paper.
func measured() []*blank.Blank {
	return []*blank.Blank{papertest.Crossmember(), papertest.Shackle(), papertest.Gusset()}
}

func TestCheckBarsMeasureTrue(t *testing.T) {
	needs(t, "rsvg-convert")
	for _, b := range measured() {
		s, err := paper.Compose(b, nil, svg.Options{})
		if err != nil {
			t.Fatal(err)
		}
		p := draw(t, s)
		level, upright := barsOf(s)
		for _, c := range []struct {
			name   string
			bar    bar
			length float64
			ticks  int
		}{
			{"100 mm across", level[0], 100, 3}, {"4 in across", level[1], 101.6, 5},
			{"100 mm up", upright[0], 100, 3}, {"4 in up", upright[1], 101.6, 5},
		} {
			mids := p.along(c.bar.across, c.bar.from-2, c.bar.to+2, c.bar.up)
			if len(mids) != c.ticks {
				t.Errorf("%s, %s: %d long ticks at %v, want %d", b.Name, c.name, len(mids), mids, c.ticks)
				continue
			}
			within(t, b.Name+", "+c.name, mids[c.ticks-1]-mids[0], c.length)
			for i := 1; i < c.ticks; i++ {
				within(t, b.Name+", ticks of "+c.name, mids[i]-mids[i-1], c.length/float64(c.ticks-1))
			}
		}
	}
}

// bar tells where a scan meets the long ticks of a check bar alone.
type bar struct {
	across, from, to float64
	up               bool
}

// barsOf finds the scans over the bars: 4 mm off each base line, where only the
// long ticks reach.
func barsOf(s *paper.Sheet) (level, upright [2]bar) {
	for _, g := range s.CheckBlock.Layers()[paper.Bars].Segs {
		a, b := g.A.Add(s.Checks), g.B.Add(s.Checks)
		inches := 0
		if g.Length() > 101 {
			inches = 1
		}
		switch {
		case g.Length() < 90:
		case a.Y == b.Y:
			level[inches] = bar{a.Y + 4 - 8*float64(inches), a.X, b.X, false}
		default:
			upright[inches] = bar{a.X - 4 + 8*float64(inches), a.Y, b.Y, true}
		}
	}
	return level, upright
}

func TestPartMeasuresTrue(t *testing.T) {
	needs(t, "rsvg-convert")
	b := papertest.Part("coupon", 1, 5)
	b.Outline = papertest.Rectangle(150, 90, 10)
	for _, h := range []struct{ x, y, d float64 }{{-60, -30, 13.5}, {60, -30, 10.5}, {0, 20, 34}, {40, 25, 5}} {
		papertest.Round(b, fmt.Sprint(h.x), h.x, h.y, h.d, "hole")
	}
	s, err := paper.Compose(b, nil, svg.Options{})
	if err != nil {
		t.Fatal(err)
	}
	p := draw(t, s)
	o := s.Offset
	// Both sides, both ends, clear of everything else.
	for _, off := range []float64{-12, 12} {
		within(t, "width", last(p.along(o.Y+off, o.X+74, o.X+76, false))-first(p.along(o.Y+off, o.X-76, o.X-74, false)), 150)
		within(t, "height", last(p.along(o.X+off+20, o.Y+44, o.Y+46, true))-first(p.along(o.X+off+20, o.Y-46, o.Y-44, true)), 90)
	}
	for i := range b.Holes {
		h := &b.Holes[i]
		c := h.Centre.Add(o)
		r := h.Dia / 2
		// A chord off the cross, between the edges.
		off := min(1, r/3)
		half := math.Sqrt(r*r - off*off)
		xs := p.along(c.Y+off, c.X-half-0.4, c.X+half+0.4, false)
		ys := p.along(c.X+off, c.Y-half-0.4, c.Y+half+0.4, true)
		if len(xs) < 2 || len(ys) < 2 {
			t.Errorf("hole %s: edges at %v and %v", h.Name, xs, ys)
			continue
		}
		within(t, "centre of "+h.Name+" in x", (first(xs)+last(xs))/2, c.X)
		within(t, "centre of "+h.Name+" in y", (first(ys)+last(ys))/2, c.Y)
		within(t, "chord of "+h.Name+" in x", last(xs)-first(xs), 2*half)
		within(t, "chord of "+h.Name+" in y", last(ys)-first(ys), 2*half)
		if p.dark(int(c.X*perMM), int(c.Y*perMM)) > 0.1 {
			t.Errorf("hole %s: the punch's place is not open", h.Name)
		}
		if arm := p.dark(int((c.X+1)*perMM), int(c.Y*perMM)); arm < 0.3 {
			t.Errorf("hole %s: no cross beside the centre", h.Name)
		}
	}
}

func first(v []float64) float64 {
	if len(v) == 0 {
		return math.NaN()
	}
	return v[0]
}

func last(v []float64) float64 {
	if len(v) == 0 {
		return math.NaN()
	}
	return v[len(v)-1]
}

// Wherever the part has an edge there is ink within 0.1 mm, and beside it there
// is none: lines, arcs of either hand, slots, whole circles.
func TestEdgesAreWhereTheyShouldBe(t *testing.T) {
	needs(t, "rsvg-convert")
	tried := 0
	for _, b := range append(sampleParts(t), papertest.Crossmember(), papertest.AxleTab(), papertest.FlangeRing(), papertest.Frame()) {
		s, err := paper.Compose(b, nil, svg.Options{})
		if err != nil {
			t.Fatal(err)
		}
		p := draw(t, s)
		loops := []geom.Loop{b.Outline}
		for i := range b.Holes {
			if l := b.Holes[i].AsCut(); l != nil {
				loops = append(loops, l)
			}
		}
		for i := range b.Cutouts {
			loops = append(loops, b.Cutouts[i].Loop)
		}
		for _, l := range loops {
			for _, g := range l {
				for _, at := range []float64{0.13, 0.37, 0.5, 0.71, 0.93} {
					q := g.At(at).Add(s.Offset)
					tried++
					if !p.inkNear(q, 0.1) {
						t.Errorf("%s: no ink at the edge at %v", b.Name, g.At(at))
					}
				}
			}
		}
	}
	if tried < 150 {
		t.Errorf("only %d points were tried", tried)
	}
}

// inkNear reports whether the heaviest ink across the edge is within d mm.
func (p *picture) inkNear(q geom.Point, d float64) bool {
	x, y := q.X*perMM, q.Y*perMM
	n := int(d * perMM)
	most := 0.0
	for dy := -n; dy <= n; dy++ {
		for dx := -n; dx <= n; dx++ {
			most = max(most, p.dark(int(x)+dx, int(y)+dy))
		}
	}
	return most > 0.6
}
