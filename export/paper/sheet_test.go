package paper_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
	"blankwright/profiles"
)

func compose(t *testing.T, b *blank.Blank, fs []diag.Finding, o paper.Options) *paper.Sheet {
	t.Helper()
	s, err := paper.Compose(b, fs, o)
	if err != nil {
		t.Fatalf("%s: %v", b.Name, err)
	}
	return s
}

// words is all that is written on a sheet.
func words(s *paper.Sheet) string {
	var all []string
	for _, t := range s.Texts() {
		all = append(all, t.S)
	}
	return strings.Join(all, "\n")
}

// legible reports every text that runs off the printable page, or over another
// text, an edge of the part or of an opening, a leader or a dimension line.
func legible(t *testing.T, s *paper.Sheet, name string) {
	t.Helper()
	if len(s.Left) > 0 {
		t.Errorf("%s: no clear place for %q", name, s.Left)
	}
	uncovered(t, s, name)
}

// uncovered is legible of a sheet that may leave labels out.
func uncovered(t *testing.T, s *paper.Sheet, name string) {
	t.Helper()
	page := paper.Rect{X0: 9.9, Y0: 9.9, X1: s.Width - 9.9, Y1: s.Height - 9.9}
	texts := s.Texts()
	boxes := make([]paper.Rect, len(texts))
	for i := range texts {
		boxes[i] = texts[i].Box()
		if !page.Holds(boxes[i]) {
			t.Errorf("%s: %q runs off the page: %v", name, texts[i].S, boxes[i])
		}
		for j := range i {
			if boxes[i].Overlaps(boxes[j]) {
				t.Errorf("%s: %q lies over %q", name, texts[i].S, texts[j].S)
			}
		}
	}
	for _, id := range []paper.LayerID{
		paper.Outline, paper.Openings, paper.Drilled, paper.Bending, paper.Welding, paper.Centres, paper.Punches,
		paper.Extensions, paper.Dimensions, paper.Leaders, paper.Seams, paper.Crosses, paper.Frame, paper.Bars,
	} {
		for _, g := range s.Layers[id].Segs {
			over(t, name, id, texts, boxes, pieces(g))
		}
		for _, c := range s.Layers[id].Circles {
			for _, g := range geom.CircleLoop(c) {
				over(t, name, id, texts, boxes, pieces(g))
			}
		}
	}
	for _, id := range []paper.LayerID{paper.Bars, paper.Frame} {
		for _, g := range s.CheckBlock.Layers()[id].Segs {
			over(t, name, id, texts, boxes, []geom.Point{g.A.Add(s.Checks), g.B.Add(s.Checks)})
		}
	}
	for _, g := range s.Layers[paper.Arrows].Segs {
		over(t, name, paper.Arrows, texts, boxes, pieces(g))
	}
	for _, id := range []paper.LayerID{paper.Rings, paper.Discs} {
		for _, c := range s.Layers[id].Circles {
			for i := range boxes {
				if boxes[i].TouchesDisc(c) && !boxes[i].InsideDisc(c) {
					t.Errorf("%s: %q lies over a finding's number", name, texts[i].S)
				}
			}
		}
	}
}

func pieces(g geom.Seg) []geom.Point {
	n := 1
	if g.IsArc() {
		n = 60
	}
	ps := make([]geom.Point, n+1)
	for i := range ps {
		ps[i] = g.At(float64(i) / float64(n))
	}
	return ps
}

func over(t *testing.T, name string, id paper.LayerID, texts []paper.Text, boxes []paper.Rect, ps []geom.Point) {
	t.Helper()
	all := geom.BoxOf(ps...)
	for i := range boxes {
		b := &boxes[i]
		if all.Max.X < b.X0 || all.Min.X > b.X1 || all.Max.Y < b.Y0 || all.Min.Y > b.Y1 {
			continue
		}
		for k := 1; k < len(ps); k++ {
			if b.Crosses(ps[k-1], ps[k]) {
				t.Errorf("%s: %q lies over the %s", name, texts[i].S, id.Spec().Name)
				break
			}
		}
	}
}

func findings(b *blank.Blank, n int) []diag.Finding {
	var fs []diag.Finding
	for i := range b.Holes {
		if len(fs) == n {
			break
		}
		h := &b.Holes[i]
		f := diag.Finding{
			Rule: "edge-distance", Severity: diag.Error, Where: diag.Place{X: h.Centre.X, Y: h.Centre.Y - h.Dia/2},
			Message: "hole " + h.Name + " centre is 14.0 mm from the edge, needs 16.2 mm for its bolt",
		}
		switch i % 3 {
		case 1:
			f.Waived = "pull tested in the yard"
		case 2:
			f.Severity = diag.Warning
		}
		fs = append(fs, f)
	}
	return fs
}

func TestSheetsAreLegible(t *testing.T) {
	for _, b := range papertest.All() {
		legible(t, compose(t, b, nil, paper.Options{}), b.Name)
		legible(t, compose(t, b, findings(b, 3), paper.Options{}), b.Name+" with findings")
	}
}

// Parts made at random, of one hole to sixty, on one sheet: no text covers
// anything.
func TestRandomSheetsAreLegible(t *testing.T) {
	for seed := range uint64(500) {
		b := random(seed)
		fs := findings(b, int(seed%4)*int(seed%2))
		legible(t, compose(t, b, fs, paper.Options{}), fmt.Sprintf("seed %d, %d holes, %d findings", seed, len(b.Holes), len(fs)))
		if t.Failed() {
			return
		}
	}
}

// random is a rounded plate with holes that keep a web of 4 mm: one to twelve of
// them, and of every third plate up to sixty on a larger one.
func random(seed uint64) *blank.Blank {
	rnd := rand.New(rand.NewPCG(seed, 1))
	sys := unit.Millimetre
	callouts := []string{"13.5 mm for M12 10.9", "10.5 mm for M10 8.8", "drill 5 mm", "ream 25.4 mm (1 in), cut 23.5 mm", "6 mm"}
	if rnd.IntN(2) == 0 {
		sys = unit.Inch
		callouts = []string{
			"17/32 in (13.49 mm) for 1/2-13 grade 8", "13/32 in (10.32 mm) for 3/8-16 grade 5", "drill 0.197 in (5 mm), nearest drill #9 (4.98 mm)",
			"ream 1 in (25.4 mm), cut 0.925 in (23.5 mm)", "0.236 in (6 mm)",
		}
	}
	dias := []float64{13.5, 10.5, 5, 25.4, 6}
	b := papertest.Part(fmt.Sprintf("part %d", seed), sys, 6)
	w, h := 40+rnd.Float64()*220, 30+rnd.Float64()*150
	n := 1 + rnd.IntN(12)
	if seed%3 == 2 {
		w, h, n = 150+rnd.Float64()*350, 100+rnd.Float64()*300, 13+rnd.IntN(48)
	}
	b.Outline = papertest.Rectangle(w, h, 5+rnd.Float64()*8)
	for tries := 0; len(b.Holes) < n && tries < 400; tries++ {
		k := rnd.IntN(len(dias))
		r := dias[k] / 2
		p := geom.Point{X: (rnd.Float64() - 0.5) * (w - 2*r - 8), Y: (rnd.Float64() - 0.5) * (h - 2*r - 8)}
		clear := math.Abs(p.X) < w/2-r-3 && math.Abs(p.Y) < h/2-r-3
		for i := range b.Holes {
			clear = clear && b.Holes[i].Centre.Dist(p) > r+b.Holes[i].Dia/2+4
		}
		if !clear {
			continue
		}
		papertest.Round(b, fmt.Sprintf("h%d", len(b.Holes)+1), p.X, p.Y, dias[k], callouts[k])
		last := &b.Holes[len(b.Holes)-1]
		switch k {
		case 2:
			last.Method, last.CutDia = blank.Drill, 0
		case 3:
			last.Method, last.CutDia = blank.Ream, 23.5
		}
	}
	return b
}

// Where holes stand too close for letters, those without room are left out, the
// sheet says so and a table tells where every hole is.
func TestTightHolesLeaveLettersOut(t *testing.T) {
	for _, n := range []int{60, 199, 400} {
		b := papertest.Part("strainer", unit.Millimetre, 3)
		b.Outline = papertest.Rectangle(140, 120, 3)
		rnd := rand.New(rand.NewPCG(1, uint64(n)))
		for i := range n {
			papertest.Round(b, fmt.Sprint("h", i+1), -60+float64(i%20)*5+rnd.Float64(), -50+float64(i/20)*5+rnd.Float64(), 3, "3 mm")
		}
		set := print(t, b, findings(b, 3), paper.Options{})
		all := ""
		for _, s := range append(set.Pages, set.Full) {
			uncovered(t, s, fmt.Sprint(n, " holes, ", s.Name))
			all += words(s)
		}
		left := set.Pages[len(set.Pages)-1].Left
		if len(left) == 0 || len(set.Full.Left) == 0 {
			t.Errorf("%d holes: nothing is left out: the trial says little", n)
		}
		for _, want := range []string{"A hole without a letter had no room for it", "A" + fmt.Sprint(n)} {
			if !strings.Contains(words(set.Full), want) || !strings.Contains(all, want) {
				t.Errorf("%d holes: sheets do not say %q", n, want)
			}
		}
	}
}

func TestPaperIsTheSmallestThatTakesThePart(t *testing.T) {
	for _, c := range []struct {
		w, h float64
		sys  unit.System
		want string
	}{
		{60, 40, unit.Millimetre, "A4 297x210"},
		{40, 60, unit.Millimetre, "A4 210x297"},
		{140, 180, unit.Millimetre, "A4 210x297"},
		{240, 120, unit.Millimetre, "A4 297x210"},
		{240, 160, unit.Millimetre, "A3 420x297"},
		{30, 320, unit.Millimetre, "A3 297x420"},
		{450, 300, unit.Millimetre, "A2 594x420"},
		{700, 480, unit.Millimetre, "A1 841x594"},
		{1000, 700, unit.Millimetre, "A0 1189x841"},
		{60, 40, unit.Inch, "letter 279.4x215.9"},
		{140, 150, unit.Inch, "letter 215.9x279.4"},
		{240, 160, unit.Inch, "tabloid 431.8x279.4"},
		{380, 280, unit.Inch, "ANSI C 558.8x431.8"},
	} {
		b := papertest.Part("plate", c.sys, 5)
		b.Outline = papertest.Rectangle(c.w, c.h, 5)
		s := compose(t, b, nil, paper.Options{})
		if got := fmt.Sprintf("%s %gx%g", s.Page.Name, s.Page.Width, s.Page.Height); got != c.want {
			t.Errorf("%g x %g mm went on %s, want %s", c.w, c.h, got, c.want)
		}
		legible(t, s, fmt.Sprintf("%g x %g", c.w, c.h))
	}
}

func TestPartLargerThanAllPapersGetsItsOwn(t *testing.T) {
	for _, sys := range []unit.System{unit.Millimetre, unit.Inch} {
		for _, wh := range [][2]float64{{3000, 60}, {60, 3000}, {2500, 1250}} {
			b := papertest.Part("plate", sys, 5)
			b.Outline = papertest.Rectangle(wh[0], wh[1], 5)
			papertest.Row(b, "rim", geom.Point{X: -20, Y: -20}, geom.Point{X: 20, Y: 20}, 6, 5, "5 mm")
			s := compose(t, b, findings(b, 2), paper.Options{})
			step := 10.0
			if sys == unit.Inch {
				step = 12.7
			}
			if s.Page.Name != "custom" || s.Page.Inch != (sys == unit.Inch) {
				t.Errorf("%v went on %v", wh, s.Page)
			}
			for _, v := range []float64{s.Page.Width, s.Page.Height} {
				if k := v / step; math.Abs(k-math.Round(k)) > 1e-6 {
					t.Errorf("%v: side %v mm is no whole multiple of %v", wh, v, step)
				}
			}
			if s.Page.Width > wh[0]+460 || s.Page.Height > wh[1]+260 {
				t.Errorf("%v went on %v, more than it needs", wh, s.Page)
			}
			legible(t, s, fmt.Sprint(wh))
		}
	}
}

func TestChosenPaper(t *testing.T) {
	b := papertest.AxleTab()
	s := compose(t, b, nil, paper.Options{Page: "A3"})
	if s.Page.Name != "A3" || s.Page.Inch {
		t.Errorf("page is %v", s.Page)
	}
	if !strings.Contains(words(s), "4.000 in (101.60 mm)") {
		t.Error("metric paper took the part's inches away")
	}
	s = compose(t, b, nil, paper.Options{Unit: unit.Millimetre})
	if s.Page.Name != "A4" || !strings.Contains("\n"+words(s), "\n101.60 mm\n") {
		t.Errorf("in millimetres: page %v", s.Page)
	}
	for page, want := range map[string]string{
		"A9":      "A9",
		"lettre":  `"letter"`,
		"foolcap": "foolcap",
	} {
		if _, err := paper.Compose(b, nil, paper.Options{Page: page}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("page %q: error %v, want one with %q", page, err, want)
		}
	}
	// Paper that is too small gives way to usual paper.
	for page, want := range map[string]string{"A5": "letter", "A4": "A4", "200 x 200 mm": "letter", "220 x 320 mm": "220 x 320 mm"} {
		if s := compose(t, b, nil, paper.Options{Page: page}); s.Page.Name != want {
			t.Errorf("on %q the whole part went on %q, want %q", page, s.Page.Name, want)
		}
	}
}

func TestTitleBlockSaysWhatAPersonNeeds(t *testing.T) {
	b := papertest.ShackleMirrored()
	b.Part.Note.Text = "grind the nose to 3 mm"
	s := compose(t, b, nil, paper.Options{Note: "for the left rail", Cautions: []string{"wear gloves"}})
	all := words(s)
	for _, want := range []string{
		"shackle plate", "rev B", "A36", "0.375 in (9.53 mm)", "2", "mirrored, of a pair", "air plasma",
		"This side up. Edge = centre of line.", "Scale 1:1. Figures: in from lower left.", "letter, 8.5 x 11 in", "drill by hand",
		"Measure the bars before you trust this sheet.", "100 mm", "4 in", "wear gloves",
		"Note: grind the nose to 3 mm", "Note: for the left rail",
	} {
		if !strings.Contains("\n"+all+"\n", "\n"+want+"\n") {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	if strings.Contains(strings.ToLower(all), "safe") {
		t.Error("the sheet says that something is safe")
	}
	if s.Title != "shackle plate, rev B, mirrored" {
		t.Errorf("title is %q", s.Title)
	}
}

func TestManyHolesShareATable(t *testing.T) {
	s := compose(t, papertest.Hanger(), nil, paper.Options{})
	tags := map[string]int{}
	for _, x := range s.Layers[paper.Tags].Texts {
		tags[x.S]++
	}
	if fmt.Sprint(tags) != "map[A:6 B:3 C:1 D:1 E:1]" {
		t.Errorf("letters are %v", tags)
	}
	if len(s.Layers[paper.Callouts].Texts) != 0 {
		t.Error("callouts stand beside the holes as well")
	}
	for _, want := range []string{"13/32 in (10.32 mm) for 3/8-16 grade 5", "slot 9/16 x 1-1/2 in (14.29 x 38.1 mm) for 1/2-13 grade 8", "what to do"} {
		if !strings.Contains(strings.ReplaceAll(words(s), "\n", " "), want) {
			t.Errorf("the table does not say %q", want)
		}
	}
	// Holes cut and holes drilled to one size are not alike.
	b := papertest.Part("plate", unit.Millimetre, 5)
	b.Outline = papertest.Rectangle(120, 60, 5)
	papertest.Row(b, "row", geom.Point{X: -45}, geom.Point{X: 45}, 6, 8, "8 mm")
	b.Holes[2].Method, b.Holes[2].CutDia = blank.Drill, 0
	if n := len(compose(t, b, nil, paper.Options{}).Layers[paper.Drilled].Circles); n != 1 {
		t.Errorf("%d dashed circles, want 1", n)
	}
	if !strings.Contains(words(compose(t, b, nil, paper.Options{})), "\nB\n") {
		t.Error("a hole to be drilled has the letter of those that are cut")
	}
}

func TestFewEqualHolesHaveOneCallout(t *testing.T) {
	b := papertest.Part("strap", unit.Millimetre, 5)
	b.Outline = papertest.Rectangle(120, 40, 5)
	papertest.Row(b, "ends", geom.Point{X: -45}, geom.Point{X: 45}, 2, 8, "")
	s := compose(t, b, nil, paper.Options{})
	var got []string
	for _, x := range s.Layers[paper.Callouts].Texts {
		got = append(got, x.S)
	}
	if want := "2 x 8.00 mm;|or 5/16 in drill,|pilot 3 mm (1/8 in)"; strings.Join(got, "|") != want {
		t.Errorf("the callout is %q, want %q", strings.Join(got, "|"), want)
	}
	legible(t, s, b.Name)
}

// A punch cross leaves 1 mm open at every centre, and no other line closes it.
func TestCentresStayOpenForThePunch(t *testing.T) {
	for _, b := range papertest.All() {
		s := compose(t, b, nil, paper.Options{})
		for i := range b.Holes {
			h := &b.Holes[i]
			c := h.Centre.Add(s.Offset)
			if h.Length-h.Dia >= 4 {
				c = c.Add(geom.Point{}.Polar((h.Length-h.Dia)/2, h.Angle))
			}
			arms := 0
			for id := paper.Outline; id < paper.Frame; id++ {
				for _, g := range s.Layers[id].Segs {
					near := math.Inf(1)
					for _, p := range pieces(g) {
						near = min(near, p.Dist(c))
					}
					if g.A.Dist(c) < 0.5-1e-9 || g.B.Dist(c) < 0.5-1e-9 || near < 0.5-1e-9 {
						t.Errorf("%s, %s: a line of %s comes within %.2f mm of the centre", b.Name, h.Name, id.Spec().Name, near)
					}
					if id == paper.Punches && math.Abs(near-0.5) < 1e-6 {
						arms++
					}
				}
			}
			if arms < 4 {
				t.Errorf("%s, %s: the cross has %d arms", b.Name, h.Name, arms)
			}
		}
	}
}

func TestMethodsAreDrawnApart(t *testing.T) {
	b := papertest.Part("plate", unit.Millimetre, 5)
	b.Outline = papertest.Rectangle(100, 60, 5)
	papertest.Round(b, "cut", -30, 0, 10, "10 mm")
	papertest.Round(b, "drill", 0, 0, 6, "drill 6 mm")
	b.Holes[1].Method, b.Holes[1].CutDia = blank.Drill, 0
	papertest.Round(b, "ream", 30, 0, 20, "ream 20 mm, cut 18 mm")
	b.Holes[2].Method, b.Holes[2].CutDia = blank.Ream, 18
	s := compose(t, b, nil, paper.Options{})
	radii := func(id paper.LayerID) (rs []float64) {
		for _, c := range s.Layers[id].Circles {
			rs = append(rs, c.R)
		}
		return rs
	}
	if got := fmt.Sprint(radii(paper.Openings), radii(paper.Drilled)); got != "[5 9] [3 10]" {
		t.Errorf("cut and dashed radii are %s, want [5 9] [3 10]", got)
	}
	if !strings.Contains(words(s), "drill, or ream to it") {
		t.Error("dashed edges are not explained")
	}
}

func TestFindingsAreMarkedAndListed(t *testing.T) {
	b := papertest.Crossmember()
	fs := findings(b, 3)
	fs = append(fs,
		diag.Finding{Rule: "odd", Severity: diag.Error, Where: diag.Place{X: 9e9, Y: math.NaN()}, Message: "far away"},
		diag.Finding{Rule: "aside", Severity: diag.Note, Message: "worth knowing"})
	s := compose(t, b, fs, paper.Options{})
	if d, r := len(s.Layers[paper.Discs].Circles), len(s.Layers[paper.Rings].Circles); d != 3 || r != 4 {
		t.Errorf("%d discs and %d rings on sheet and list, want 3 and 4", d, r)
	}
	all := strings.ReplaceAll(words(s), "\n", " ")
	for _, want := range []string{
		"Checks failed: do not cut or drill by this sheet.", "failed: hole low left centre is 14.0 mm",
		"waived because: pull tested in the yard", "warning: hole bush", "failed: far away (odd)",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("the list does not say %q", want)
		}
	}
	if strings.Contains(all, "worth knowing") {
		t.Error("a note was listed among the findings")
	}
	if s = compose(t, b, fs[1:2], paper.Options{}); strings.Contains(words(s), "failed") {
		t.Error("a waived finding alone says that checks failed")
	}
}

func TestManyFindingsAreCounted(t *testing.T) {
	b := papertest.DeckPlate()
	var fs []diag.Finding
	for range 300 {
		fs = append(fs, findings(b, 1)[0])
	}
	s := compose(t, b, fs, paper.Options{})
	if !strings.Contains(words(s), "280 more are not listed here.") {
		t.Error("findings beyond the list are not counted")
	}
}

// Bolt circles and rows of holes have centre-lines; from the holes lines lead to
// the figures at the edges.
func TestCentreLines(t *testing.T) {
	s := compose(t, papertest.FlangeRing(), nil, paper.Options{})
	arcs := 0
	for _, g := range s.Layers[paper.Centres].Segs {
		switch {
		case !g.IsArc():
			if !num.Same(g.A.X, g.B.X) && !num.Same(g.A.Y, g.B.Y) {
				t.Errorf("a centre-line slants from %v to %v", g.A, g.B)
			}
		case math.Abs(g.Circle().R-62.5) > 1e-9 || g.Circle().C.Dist(s.Offset) > 1e-9:
			t.Errorf("centre-line on %v, want the bolt circle", g.Circle())
		default:
			arcs++
		}
	}
	if arcs != 16 {
		t.Errorf("the bolt circle has %d arcs, want 16", arcs)
	}
	s = compose(t, papertest.Shackle(), nil, paper.Options{})
	between := 0
	for _, g := range s.Layers[paper.Centres].Segs {
		if num.Same(g.A.X, s.Offset.X) && num.Same(g.B.X, s.Offset.X) && min(g.A.Y, g.B.Y) > s.Offset.Y {
			between++
		}
	}
	if between != 2 {
		t.Errorf("the shackle's middle line has %d pieces between its holes, want 2", between)
	}
	// Four corners of a rectangle lie on a circle, and are no bolt circle.
	b := papertest.Part("plate", unit.Millimetre, 5)
	b.Outline = papertest.Rectangle(120, 80, 5)
	for _, p := range [][2]float64{{-40, -25}, {40, -25}, {40, 25}, {-40, 25}} {
		papertest.Round(b, "corner", p[0], p[1], 8, "8 mm")
		b.Holes[len(b.Holes)-1].Set = "corner"
	}
	for _, g := range compose(t, b, nil, paper.Options{}).Layers[paper.Centres].Segs {
		if g.IsArc() {
			t.Errorf("four corners got a centre-line on %v", g.Circle())
		}
	}
}

// Figures along the lower and the left edge tell where each hole is, from the
// outline's extremes; the overall sizes stand above and on the right.
func TestFiguresLocateHoles(t *testing.T) {
	b := papertest.Crossmember()
	s := compose(t, b, nil, paper.Options{Page: "A3"})
	part := b.Outline.Bounds()
	var below, left []string
	for _, x := range s.Layers[paper.Figures].Texts {
		p := x.At.Sub(s.Offset)
		switch {
		case x.S == "180.00 mm" && p.Y > part.Max.Y, x.S == "110.00 mm" && p.X > part.Max.X:
		case x.Up && p.Y < part.Min.Y:
			below = append(below, x.S)
			if d := nearestTo(b, x.S, p.X-1.51); d > 0.02 {
				t.Errorf("figure %q below stands %v mm beside its hole", x.S, d)
			}
		case !x.Up && p.X < part.Min.X:
			left = append(left, x.S)
		default:
			t.Errorf("figure %q stands at %v", x.S, p)
		}
	}
	if got := fmt.Sprint(below, left); got != "[0 25 45 113.53 136.47 155] [0 18 63.38 70 76.63]" {
		t.Errorf("figures are %s", got)
	}
}

// nearestTo is how far a figure stands from the place that it tells.
func nearestTo(b *blank.Blank, words string, at float64) float64 {
	var v float64
	if _, err := fmt.Sscan(words, &v); err != nil {
		return math.Inf(1)
	}
	return math.Abs(b.Outline.Bounds().Min.X + v - at)
}

// Where figures would stand too close, they move aside in order; where there is
// no end of them, a table takes their place.
func TestFiguresKeepApart(t *testing.T) {
	b := papertest.Part("plate", unit.Millimetre, 5)
	b.Outline = papertest.Rectangle(150, 60, 5)
	for i := range 6 {
		papertest.Round(b, fmt.Sprintf("h%d", i+1), -10+4*float64(i), -15+30*float64(i%2), 5, "5 mm")
	}
	s := compose(t, b, nil, paper.Options{})
	var xs []float64
	for _, x := range s.Layers[paper.Figures].Texts {
		if p := x.At.Sub(s.Offset); x.Up && p.Y < -30 {
			xs = append(xs, p.X)
		}
	}
	if len(xs) != 7 {
		t.Fatalf("%d figures below, want 7", len(xs))
	}
	for i := 1; i < len(xs); i++ {
		if xs[i]-xs[i-1] < 4.5 {
			t.Errorf("figures stand %v mm apart", xs[i]-xs[i-1])
		}
	}
	for i := range 40 {
		papertest.Round(b, fmt.Sprintf("k%d", i+1), -66+3.3*float64(i), -24+1.2*float64(i), 1, "1 mm")
	}
	s = compose(t, b, nil, paper.Options{})
	if !strings.Contains(words(s), "mm from below") || !strings.Contains(words(s), "B40") {
		t.Error("forty holes without figures have no table of their places")
	}
	legible(t, s, b.Name)
}

func TestOpeningBeyondTheOutlineStaysOnThePage(t *testing.T) {
	b := papertest.AxleTab()
	papertest.Round(b, "astray", 400, 50, 10, "10 mm")
	s := compose(t, b, nil, paper.Options{})
	c := s.Layers[paper.Openings].Circles[1]
	if c.C.X+c.R > s.Page.Width-10 {
		t.Errorf("the hole at %v lies off a page %v wide", c.C, s.Page.Width)
	}
}

func TestUndrawableBlanks(t *testing.T) {
	good := papertest.AxleTab
	for name, c := range map[string]struct {
		b    *blank.Blank
		want string
	}{
		"nil":        {nil, "no outline"},
		"no outline": {&blank.Blank{Name: "x"}, "no outline"},
		"nan corner": {func() *blank.Blank {
			b := good()
			b.Outline = append(geom.Loop(nil), b.Outline...)
			b.Outline[1].A.X = math.NaN()
			return b
		}(), "segment 2"},
		"far hole": {func() *blank.Blank { b := good(); b.Holes[0].Centre.Y = math.Inf(1); return b }(), `hole "pivot"`},
		"no size":  {func() *blank.Blank { b := good(); b.Holes[0].Dia = 0; return b }(), "wanted more than nothing"},
		"far mark": {func() *blank.Blank {
			b := good()
			b.Marks = []blank.MarkText{{Text: "m", At: geom.Point{X: 1e9}}}
			return b
		}(), `mark "m"`},
	} {
		if _, err := paper.Compose(c.b, nil, paper.Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", name, err, c.want)
		}
	}
}

// Without a description, material or process the sheet still says so.
func TestBareBlank(t *testing.T) {
	b := &blank.Blank{Outline: papertest.Rectangle(50, 30, 2), Quantity: 1, Thickness: 3, Process: profiles.Process{}}
	s := compose(t, b, nil, paper.Options{})
	for _, want := range []string{"part without a name", "not given", "3.00 mm", "50.00 mm"} {
		if !strings.Contains(words(s), want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	legible(t, s, "bare")
}

func TestReleasedSheetsStartClean(t *testing.T) {
	want := words(compose(t, papertest.Crossmember(), nil, paper.Options{}))
	for range 3 {
		for _, b := range papertest.All() {
			compose(t, b, findings(b, 2), paper.Options{}).Release()
		}
		s := compose(t, papertest.Crossmember(), nil, paper.Options{})
		if got := words(s); got != want {
			t.Fatalf("a sheet on used memory says\n%s\nwant\n%s", got, want)
		}
		s.Release()
	}
}

// A plate with very many holes takes little time for each of them.
func BenchmarkThousandHoles(b *testing.B) {
	p := plateOf(40, 25)
	b.ReportAllocs()
	for b.Loop() {
		s, err := paper.Compose(p, nil, paper.Options{})
		if err != nil {
			b.Fatal(err)
		}
		s.Release()
	}
}

func plateOf(cols, rows int) *blank.Blank {
	p := papertest.Part("screen", unit.Millimetre, 3)
	p.Outline = papertest.Rectangle(float64(cols)*20+20, float64(rows)*20+20, 10)
	for r := range rows {
		y := 20*float64(r) - 10*float64(rows-1)
		x := 10 * float64(cols-1)
		papertest.Row(p, fmt.Sprintf("row%d", r), geom.Point{X: -x, Y: y}, geom.Point{X: x, Y: y}, cols, 8, "8 mm")
	}
	return p
}

func TestThousandHoles(t *testing.T) {
	s := compose(t, plateOf(40, 25), nil, paper.Options{})
	if n := len(s.Layers[paper.Tags].Texts); n != 1000 || len(s.Left) != 0 {
		t.Errorf("%d letters, %d left out; want 1000 and none", n, len(s.Left))
	}
}

// Cutouts are drawn as openings, at true scale, each of their segments; what the
// blank notes stands at the foot, and of very many notes the first.
func TestCutouts(t *testing.T) {
	b := papertest.Frame()
	s := compose(t, b, nil, paper.Options{})
	legible(t, s, b.Name)
	if n := len(s.Layers[paper.Openings].Segs); n != len(b.Cutouts[0].Loop)+len(b.Cutouts[1].Loop) {
		t.Errorf("%d segments on the layer of openings", n)
	}
	if n := len(s.Layers[paper.Openings].Circles); n != 3 {
		t.Errorf("%d circles on the layer of openings, want the eye and two holes", n)
	}
	if c := s.Layers[paper.Openings].Circles[0]; c.R != 9 || c.C.Dist(geom.Point{X: -66}.Add(s.Offset)) > 1e-9 {
		t.Errorf("the eye is drawn as %v", c)
	}
	if !strings.Contains(words(s), "Note: tab slot \"tab\": 6.00 mm by 36.00 mm") {
		t.Errorf("the note is missing from\n%s", words(s))
	}
	for range 400 {
		b.Notes = append(b.Notes, "one more")
	}
	if w := words(compose(t, b, nil, paper.Options{})); !strings.Contains(w, "389 more notes stand at the head of the drawing") {
		t.Errorf("too many notes give\n%s", w)
	}
	b.Cutouts[1].Loop = append(geom.Loop{}, b.Cutouts[1].Loop...)
	b.Cutouts[1].Loop[2].A.X = math.NaN()
	if _, err := paper.Compose(b, nil, paper.Options{}); err == nil || !strings.Contains(err.Error(), `cutout "tab": segment 3`) {
		t.Errorf("a cutout that is not finite gives %v", err)
	}
}
