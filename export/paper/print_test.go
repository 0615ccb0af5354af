package paper_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

func print(t testing.TB, b *blank.Blank, fs []diag.Finding, o paper.Options) *paper.Set {
	t.Helper()
	s, err := paper.Print(b, fs, o)
	if err != nil {
		t.Fatalf("%s on %q: %v", b.Name, o.Page, err)
	}
	return s
}

var papers = []string{"", "letter", "legal", "tabloid", "A4", "A3", "roll 24 in", "roll 914 mm", "300 x 500 mm", "8.5x18in", "roll 190 mm", "180x300mm"}

// On any paper: every page has the size asked for, nothing covers anything, no
// label is lost, and every hole is on some page.
func TestPagesAreLegible(t *testing.T) {
	for _, b := range papertest.All() {
		for _, page := range papers {
			if b.Name == "deck plate" && page == "" { // the same as letter
				continue
			}
			for _, fs := range [][]diag.Finding{nil, findings(b, 3)} {
				o := paper.Options{Page: page}
				whole(t, b, print(t, b, fs, o), o)
			}
		}
	}
}

func TestRandomPagesAreLegible(t *testing.T) {
	for seed := range uint64(500) {
		b := random(seed)
		o := paper.Options{Page: papers[int(seed)%3*2]}
		if seed%5 == 0 {
			o.Measured = paper.Reading{X: 99.1, Y: 100.4}
			o.Note = "left side"
		}
		set := print(t, b, findings(b, int(seed%4)*int(seed%2)), o)
		whole(t, b, set, o)
		if t.Failed() {
			t.Fatalf("seed %d, %d holes, %d pages of %s", seed, len(b.Holes), len(set.Pages), set.Paper.Name)
		}
		set.Release()
	}
}

// whole reports what is wrong with a set of pages.
func whole(t *testing.T, b *blank.Blank, set *paper.Set, o paper.Options) {
	t.Helper()
	name := fmt.Sprintf("%s on %s", b.Name, set.Paper.Name)
	legible(t, set.Full, name+", full")
	names := map[string]bool{}
	tags := map[string]int{}
	for _, s := range set.Pages {
		legible(t, s, name+", "+s.Name)
		if names[s.Name] {
			t.Errorf("%s: two pages are called %q", name, s.Name)
		}
		names[s.Name] = true
		sizeAsAsked(t, s, set.Paper, o)
		for _, x := range append(s.Layers[paper.Tags].Texts, s.Layers[paper.SmallTags].Texts...) {
			tags[x.S]++
		}
	}
	if len(tags) > 0 {
		n := 0
		for _, x := range tags {
			n += x
		}
		if n < len(b.Holes) {
			t.Errorf("%s: %d letters at %d holes", name, n, len(b.Holes))
		}
	}
	straddled := map[string]bool{}
	for _, s := range set.Straddles {
		straddled[s.Hole] = true
	}
	for i := range b.Holes {
		h := &b.Holes[i]
		if n := shows(set.Pages, h); n == 0 && !straddled[h.Name] {
			t.Errorf("%s: hole %q is on no page as a whole", name, h.Name)
		}
	}
}

// sizeAsAsked reports a page that is not the paper asked for, either way up.
func sizeAsAsked(t *testing.T, s *paper.Sheet, p paper.Page, o paper.Options) {
	t.Helper()
	want := p
	if o.Page != "" {
		want, _ = paper.FindPage(o.Page)
	}
	w, h := s.Page.Width, s.Page.Height
	switch {
	case want.Roll:
		if w != want.Width && h != want.Width {
			t.Errorf("page %s of %s is %v x %v", s.Name, want.Name, w, h)
		}
	case !(w == want.Width && h == want.Height || h == want.Width && w == want.Height):
		t.Errorf("page %s of %s is %v x %v", s.Name, want.Name, w, h)
	}
	sx, sy := s.Scale()
	if !num.Same(s.Width*sx, w) || !num.Same(s.Height*sy, h) {
		t.Errorf("page %s: a drawing of %v x %v does not fill %v x %v", s.Name, s.Width, s.Height, w, h)
	}
}

// shows counts the pages on which the finished edge of a hole is whole, where
// the hole belongs.
func shows(pages []*paper.Sheet, h *blank.Hole) (n int) {
	for _, s := range pages {
		at := h.Centre.Add(s.Offset)
		var long float64
		for _, id := range []paper.LayerID{paper.Openings, paper.Drilled} {
			for _, c := range s.Layers[id].Circles {
				if c.C.Dist(at) < 1e-6 && h.Length == 0 {
					n++
				}
			}
			for _, g := range s.Layers[id].Segs {
				if g.Bounds().Centre().Dist(at) <= h.Length/2 {
					long += g.Length()
				}
			}
		}
		if h.Length > 0 && long >= h.Finished().Perimeter()-1e-6 {
			n++
		}
	}
	return n
}

// What fits on one page is on one, whichever way up; nothing else is said of
// pages then.
func TestOnePageWhereItFits(t *testing.T) {
	for _, c := range []struct {
		w, h  float64
		page  string
		pages int
	}{
		{100, 120, "A4", 1}, {120, 100, "A4", 1}, {230, 100, "A4", 1}, {230, 100, "letter", 1},
		{160, 210, "A4", 2}, {230, 250, "A3", 1}, {240, 300, "A4", 4}, {3000, 400, "roll 24 in", 1}, {400, 3000, "roll 24 in", 1},
		{9000, 300, "roll 24 in", 3}, {100, 100, "legal", 1}, {150, 250, "legal", 1}, {150, 270, "legal", 2},
	} {
		b := papertest.Part("plate", unit.Millimetre, 5)
		b.Outline = papertest.Rectangle(c.w, c.h, 5)
		set := print(t, b, nil, paper.Options{Page: c.page})
		if len(set.Pages) != c.pages {
			t.Errorf("%v x %v on %s takes %d pages, want %d", c.w, c.h, c.page, len(set.Pages), c.pages)
		}
		if one := set.Pages[0] == set.Full; one != (c.pages == 1) {
			t.Errorf("%v x %v on %s: is the full sheet the only page? %v", c.w, c.h, c.page, one)
		}
	}
}

// Neighbours share their marks: the same numbers, at the same places of the
// part, two at least on each long side.
func TestMarksAreShared(t *testing.T) {
	for _, b := range []*blank.Blank{papertest.BatteryTray(), papertest.DeckPlate(), papertest.DraughtBar()} {
		set := print(t, b, nil, paper.Options{})
		type seen struct {
			page string
			at   geom.Point // in the part's own coordinates
		}
		marks := map[int][]seen{}
		for _, s := range set.Pages {
			for _, m := range s.Marks {
				marks[m.Number] = append(marks[m.Number], seen{s.Name, m.At.Sub(s.Offset)})
				arms := 0
				for _, g := range s.Layers[paper.Crosses].Segs {
					if g.A.Dist(m.At) < 1e-6 && num.Same(g.Length(), 5) {
						arms++
					}
				}
				if arms != 4 {
					t.Errorf("%s, page %s: mark %d has %d arms", b.Name, s.Name, m.Number, arms)
				}
			}
		}
		shared := map[string]int{}
		for n, ss := range marks {
			if len(ss) != 2 { // nor towards a page that is not printed
				t.Errorf("%s: mark %d is on %d pages, want 2", b.Name, n, len(ss))
				continue
			}
			if d := ss[0].at.Dist(ss[1].at); d > 1e-6 {
				t.Errorf("%s: mark %d lies %v mm apart on %s and %s", b.Name, n, d, ss[0].page, ss[1].page)
			}
			shared[ss[0].page+ss[1].page]++
		}
		for pair, n := range shared {
			if n != 2 {
				t.Errorf("%s: %s share %d marks, want 2", b.Name, pair, n)
			}
		}
		if len(shared) < len(set.Pages)-2 {
			t.Errorf("%s: %d pairs of neighbours in %d pages", b.Name, len(shared), len(set.Pages))
		}
	}
}

// The pieces of the outline on all pages, put together, are the outline: every
// point of it is on a page, and no page has anything else.
func TestPagesShowAllOfTheOutline(t *testing.T) {
	for _, b := range []*blank.Blank{papertest.BatteryTray(), papertest.DeckPlate(), papertest.DraughtBar(), bigRing(), random(2), random(5)} {
		set := print(t, b, nil, paper.Options{Page: "letter"})
		if len(set.Pages) < 3 {
			t.Errorf("%s: only %d pages", b.Name, len(set.Pages))
		}
		for _, g := range b.Outline {
			for at := 0.005; at < 1; at += 0.01 {
				p := g.At(at)
				near := math.Inf(1)
				for _, s := range set.Pages {
					for _, c := range s.Layers[paper.Outline].Circles {
						near = min(near, math.Abs(p.Add(s.Offset).Dist(c.C)-c.R))
					}
					near = min(near, toSegs(p.Add(s.Offset), s.Layers[paper.Outline].Segs))
				}
				if near > 1e-6 {
					t.Fatalf("%s: %v is on no page: %v mm off", b.Name, p, near)
				}
			}
		}
		for _, s := range set.Pages {
			for _, g := range s.Layers[paper.Outline].Segs {
				for _, p := range pieces(g) {
					if d := geom.PointLoop(p.Sub(s.Offset), b.Outline).D; d > 1e-6 {
						t.Fatalf("%s, page %s: a piece of outline is %v mm off it", b.Name, s.Name, d)
					}
				}
			}
		}
	}
}

func toSegs(p geom.Point, segs []geom.Seg) float64 {
	if len(segs) == 0 {
		return math.Inf(1)
	}
	return geom.PointLoop(p, geom.Loop(segs)).D
}

// bigRing is a ring of 500 mm with an opening larger than a page.
func bigRing() *blank.Blank {
	b := papertest.Part("ring", unit.Millimetre, 8)
	b.Outline = geom.CircleLoop(geom.Circle{R: 250})
	b.Holes = append(b.Holes, blank.Hole{Name: "ring", Purpose: blank.RingOpening, Dia: 420, CutDia: 420, Callout: "420 mm"})
	papertest.Ring(b, "bolts", geom.Circle{R: 230}, 16, 11, "11 mm for M10 8.8")
	return b
}

// Where a seam has to go through a hole, sheet and set say which, and pages say
// it where the hole is; elsewhere nothing is said.
func TestHolesAcrossSeamsAreTold(t *testing.T) {
	b := bigRing()
	set := print(t, b, nil, paper.Options{Page: "A4"})
	if len(set.Straddles) == 0 {
		t.Fatal("nothing is said of an opening larger than a page")
	}
	for _, s := range set.Straddles {
		if s.Hole != "ring" {
			t.Errorf("opening %q lies across a seam", s.Hole)
		}
		if want := fmt.Sprintf(`opening "ring" lies across the seam between %s and %s`, s.Between[0], s.Between[1]); s.String() != want {
			t.Errorf("straddle says %q, want %q", s, want)
		}
		for _, s2 := range set.Pages {
			if slices.Contains(s.Between[:], s2.Name) && !strings.Contains(words(s2), "Across a seam: ring") {
				t.Errorf("page %s does not say that the ring lies across its seam", s2.Name)
			}
		}
	}
	if !strings.Contains(words(set.Pages[0]), "Across a seam: ring") {
		t.Error("the cover does not say that the ring lies across seams")
	}
	set = print(t, papertest.BatteryTray(), nil, paper.Options{})
	if len(set.Straddles) > 0 {
		t.Errorf("%v, and the holes leave room for seams", set.Straddles)
	}
	for _, s := range set.Pages {
		if strings.Contains(words(s), "Across a seam") {
			t.Errorf("page %s speaks of a hole across a seam", s.Name)
		}
	}
}

// Each page of several says what part and hand it is, where it belongs and how
// it is joined; the cover has the rest.
func TestPagesSayWhatAPersonNeeds(t *testing.T) {
	b := papertest.BatteryTray()
	b.Hand = blank.Mirrored
	fs := findings(b, 3)
	set := print(t, b, fs, paper.Options{Page: "letter", Note: "for the left rail"})
	first := slices.IndexFunc(set.Pages, func(s *paper.Sheet) bool { return s.Name == "A1" })
	if set.Pages[0].Name != "cover" || first != 2 || set.Pages[1].Name != "cover 2" {
		t.Fatalf("pages begin with %q, %q; A1 is number %d", set.Pages[0].Name, set.Pages[1].Name, first)
	}
	for _, s := range set.Pages {
		all := "\n" + words(s) + "\n"
		for _, want := range []string{"battery tray floor", "mirrored", "A36", "rev B", "3.00 mm", "This side up.", "Measure the", "100 mm", "4 in", "Checks failed: do not cut or drill by this sheet.", "Note: for the left rail"} {
			if !strings.Contains(all, want) {
				t.Errorf("page %s does not say %q", s.Name, want)
			}
		}
		if !strings.HasPrefix(s.Name, "cover") && !strings.Contains(all, "\n"+s.Name+"\n") {
			t.Errorf("page %s does not bear its name", s.Name)
		}
		if !strings.HasSuffix(s.Title, s.Name) || s.Part != "battery tray floor, rev B, mirrored" {
			t.Errorf("page %s: title %q of part %q", s.Name, s.Title, s.Part)
		}
	}
	join := strings.ReplaceAll(words(set.Pages[first]), "\n", " ")
	for _, want := range []string{"Trim on the line at the right, lay over A2 so that lines and crosses meet.", "trim, lay on A2", "B1 ends here"} {
		if !strings.Contains(join, want) {
			t.Errorf("page A1 does not say %q", want)
		}
	}
	cover := words(set.Pages[0]) + words(set.Pages[1])
	for _, want := range []string{"4 pages, A1 to B2, show the part.", "what to do", "mm from left", "360.00 x 230.00 mm", "failed: hole"} {
		if !strings.Contains(cover, want) {
			t.Errorf("the cover does not say %q", want)
		}
	}
}

// The table on the cover gives every hole's place from the lower left extremes.
func TestPlacesAreRight(t *testing.T) {
	for _, c := range []struct {
		b    *blank.Blank
		want [][3]string
	}{
		{papertest.BatteryTray(), [][3]string{{"A1", "30", "35"}, {"A55", "330", "195"}, {"B3", "345", "15"}, {"C", "180", "13"}}},
		{papertest.Hanger(), [][3]string{{"A1", "3/4", "3/4"}, {"B3", "5", "2"}, {"D", "1", "2.2"}, {"E", "3-1/32", "2.9"}, {"E", "3-31/32", "2.9"}}},
	} {
		set := print(t, c.b, nil, paper.Options{Page: "A4"})
		var rows []string
		for _, s := range set.Pages {
			rows = append(rows, tableRows(s)...)
		}
		for _, w := range c.want {
			if !slices.Contains(rows, strings.Join(w[:], " ")) {
				t.Errorf("%s: no row %v in %q", c.b.Name, w, rows)
			}
		}
	}
}

// tableRows are the bold texts of a sheet, each with the plain ones that end at
// most 60 mm to the right of it on its line.
func tableRows(s *paper.Sheet) (rows []string) {
	for _, tag := range s.Layers[paper.Strong].Texts {
		row := tag.S
		for _, v := range s.Layers[paper.Values].Texts {
			if v.Anchor == paper.End && v.At.Y == tag.At.Y && v.At.X > tag.At.X && v.At.X < tag.At.X+60 && strings.Count(row, " ") < 2 {
				row += " " + v.S
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// A roll is cut as short as it can be, along the part or across it.
func TestRolls(t *testing.T) {
	for _, c := range []struct {
		w, h       float64
		roll, want string
	}{
		{700, 300, "roll 610 mm", "770 x 610"}, {300, 700, "roll 610 mm", "610 x 830"}, {2000, 200, "roll 914 mm", "2070 x 914"},
		{80, 60, "roll 24 in", "203.2 x 609.6"}, {150, 80, "roll:12in", "215.9 x 304.8"},
	} {
		b := papertest.Part("plate", unit.Millimetre, 5)
		b.Outline = papertest.Rectangle(c.w, c.h, 5)
		papertest.Round(b, "hole", 0, 0, 12, "12 mm")
		set := print(t, b, nil, paper.Options{Page: c.roll})
		p := set.Pages[0].Page
		if got := num.Short(p.Width, 2) + " x " + num.Short(p.Height, 2); len(set.Pages) != 1 || got != c.want {
			t.Errorf("%v x %v on %s: %d pages of %s, want one of %s", c.w, c.h, c.roll, len(set.Pages), got, c.want)
		}
	}
}

func TestPaperThatWillNotDo(t *testing.T) {
	b := papertest.DeckPlate()
	for page, want := range map[string]string{
		"A5":                     "takes no check bars",
		"100 x 900 mm":           "takes no check bars",
		"napkin":                 `unknown paper "napkin"`,
		"roll 24":                "no unit",
		"10x20":                  "no unit",
		"0 x 300 mm":             "its sides must be 50 to",
		"1 km x 300 mm":          "",
		"9 in roll x":            "write the roll's width",
		strings.Repeat("A", 200): "the paper's name has 200 letters",
	} {
		if _, err := paper.Print(b, nil, paper.Options{Page: page}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("paper %q: error %v, want one with %q", page, err, want)
		}
	}
	b.Outline = papertest.Rectangle(9000, 9000, 10)
	b.Holes = nil
	if _, err := paper.Print(b, nil, paper.Options{Page: "A4"}); !errors.Is(err, paper.ErrTooMany) || !strings.Contains(err.Error(), "more than 400 pages of A4") {
		t.Errorf("9 x 9 m on A4: error %v", err)
	}
	if _, err := paper.Print(nil, nil, paper.Options{}); err == nil {
		t.Error("nothing was printed")
	}
}

// Sheets on used memory are like those on new.
func TestReleasedSetsStartClean(t *testing.T) {
	b := papertest.BatteryTray()
	list := func() (all []string) {
		set := print(t, b, findings(b, 3), paper.Options{})
		for _, s := range set.Pages {
			all = append(all, s.Title, words(s), fmt.Sprint(s.Marks, s.Offset, s.Checks))
		}
		set.Release()
		return all
	}
	want := list()
	for range 3 {
		print(t, papertest.DraughtBar(), nil, paper.Options{}).Release()
		print(t, papertest.Shackle(), nil, paper.Options{}).Release()
		if got := list(); !slices.Equal(got, want) {
			t.Fatal("pages on used memory differ")
		}
	}
}
