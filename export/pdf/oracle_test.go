package pdf_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
	"blankwright/export/pdf"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// save writes pages to a file.
func save(t *testing.T, dir, name string, pages []*paper.Sheet) string {
	t.Helper()
	file, _ := pdf.Render(pages)
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func printed(t *testing.T, b *blank.Blank, fs []diag.Finding, o paper.Options) *paper.Set {
	t.Helper()
	set, err := paper.Print(b, fs, o)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// qpdf finds nothing wrong with any file, and finds it with a broken one.
func TestFilesPassQPDF(t *testing.T) {
	papertest.Needs(t, "qpdf")
	dir := t.TempDir()
	for i, b := range papertest.All() {
		for k, page := range []string{"letter", "roll 914 mm"} {
			path := save(t, dir, fmt.Sprintf("%d-%d.pdf", i, k), printed(t, b, someFindings(), paper.Options{Page: page}).Pages)
			out, err := exec.Command("qpdf", "--check", path).CombinedOutput()
			if err != nil || bytes.Contains(bytes.ToLower(out), []byte("warning")) {
				t.Errorf("%s on %s: %v\n%s", b.Name, page, err, out)
			}
		}
	}
	file := write(t, papertest.Shim(), nil, paper.Options{})
	broken := bytes.Replace(file, []byte("xref"), []byte("xxxxref"), 1)
	path := filepath.Join(dir, "broken.pdf")
	if err := os.WriteFile(path, broken, 0o600); err != nil {
		t.Fatal(err)
	}
	if exec.Command("qpdf", "--check", path).Run() == nil {
		t.Error("qpdf takes a file without a table of objects")
	}
}

// poppler gives every page the size of its paper, in all of its boxes.
func TestBoxesByPoppler(t *testing.T) {
	papertest.Needs(t, "pdfinfo")
	dir := t.TempDir()
	for page, size := range map[string]string{"letter": "612.00 792.00", "A4": "595.28 841.89", "tabloid": "792.00 1224.00"} {
		set := printed(t, papertest.BatteryTray(), nil, paper.Options{Page: page})
		path := save(t, dir, "boxes.pdf", set.Pages)
		out, err := exec.Command("pdfinfo", "-box", "-f", "1", "-l", "99", path).Output()
		if err != nil {
			t.Fatal(err)
		}
		sides := strings.Fields(size)
		boxes := 0
		for _, line := range strings.Split(string(out), "\n") {
			f := strings.Fields(line)
			if !strings.Contains(line, "Box:") {
				continue
			}
			boxes++
			n := len(f)
			upright, turned := f[n-2] == sides[0] && f[n-1] == sides[1], f[n-2] == sides[1] && f[n-1] == sides[0]
			if f[n-4] != "0.00" || f[n-3] != "0.00" || !upright && !turned {
				t.Errorf("%s: %s", page, line)
			}
		}
		if boxes != 5*len(set.Pages) {
			t.Errorf("%s: %d boxes of %d pages", page, boxes, len(set.Pages))
		}
	}
}

// Texts can be selected: poppler reads all words of each page back.
func TestTextsByPoppler(t *testing.T) {
	papertest.Needs(t, "pdftotext")
	dir := t.TempDir()
	for _, b := range []*blank.Blank{papertest.Crossmember(), papertest.BatteryTray(), papertest.Foreign()} {
		set := printed(t, b, someFindings(), paper.Options{})
		path := save(t, dir, "words.pdf", set.Pages)
		for i, s := range set.Pages {
			n := fmt.Sprint(i + 1)
			out, err := exec.Command("pdftotext", "-raw", "-f", n, "-l", n, path, "-").Output()
			if err != nil {
				t.Fatal(err)
			}
			have := strings.Join(strings.Fields(string(out)), " ")
			for _, x := range s.Texts() {
				for _, w := range strings.Fields(x.S) {
					if strings.ContainsAny(w, "軸受\ufffd") {
						continue
					}
					if !strings.Contains(have, w) {
						t.Errorf("%s, page %s: poppler does not read %q of %q", b.Name, s.Name, w, x.S)
					}
				}
			}
		}
	}
}

// dpi of the pictures that are measured: a pixel is 0.042 mm.
const dpi = 600

// On Letter and A4, as poppler draws them, bars, corners and holes are true
// within 0.1 mm, and those of a corrected file are longer by what the printer
// is short of.
func TestPrintedTrue(t *testing.T) {
	papertest.Needs(t, "pdftoppm")
	dir := t.TempDir()
	for _, c := range []struct {
		page string
		sys  unit.System
		r    paper.Reading
	}{{"letter", unit.Inch, paper.Reading{}}, {"A4", unit.Millimetre, paper.Reading{}}, {"A4", unit.Millimetre, paper.Reading{X: 99.4, Y: 101.2}}} {
		b := papertest.Coupon(c.sys)
		set := printed(t, b, nil, paper.Options{Page: c.page, Measured: c.r})
		s := set.Pages[0]
		p, err := papertest.Draw(save(t, dir, "coupon.pdf", set.Pages), 1, dpi)
		if err != nil {
			t.Fatal(err)
		}
		if w, h := p.Size(); math.Abs(w-s.Page.Width) > 0.1 || math.Abs(h-s.Page.Height) > 0.1 {
			t.Errorf("%s: the picture is %v x %v mm", c.page, w, h)
		}
		kx, ky := s.Scale()
		papertest.Within(t, c.page, papertest.MeasureBars(p, s, kx, ky), 0.1)
		if !c.r.Off() {
			papertest.Within(t, c.page, papertest.MeasureCoupon(p, s, b), 0.1)
		}
	}
}

// Pages of a part that is larger than its paper, joined by their alignment marks
// alone as poppler draws them, give the outline and the holes within 0.15 mm.
func TestJoinedPagesAreTrue(t *testing.T) {
	papertest.Needs(t, "pdftoppm")
	b := papertest.Part("crossmember", unit.Millimetre, 6)
	l, err := geom.Corners([]geom.Corner{
		{P: geom.Point{X: 0, Y: 0}, Radius: 25}, {P: geom.Point{X: 290, Y: 15}, Radius: 40},
		{P: geom.Point{X: 300, Y: 200}, Radius: 60}, {P: geom.Point{X: 160, Y: 150}, Radius: 50}, {P: geom.Point{X: 10, Y: 260}, Radius: 10},
	})
	if err != nil {
		t.Fatal(err)
	}
	b.Outline = l
	for i, h := range [...][3]float64{{40, 40, 13.5}, {250, 45, 13.5}, {230, 130, 30}, {50, 200, 10.5}, {120, 100, 50}} {
		papertest.Round(b, fmt.Sprint("h", i+1), h[0], h[1], h[2], "hole")
	}
	set := printed(t, b, nil, paper.Options{Page: "A4"})
	path := save(t, t.TempDir(), "joined.pdf", set.Pages)
	var pieces []*piece
	for i, s := range set.Pages {
		if len(s.Marks) == 0 {
			continue
		}
		p, err := papertest.Draw(path, i+1, dpi)
		if err != nil {
			t.Fatal(err)
		}
		pieces = append(pieces, findMarks(t, p, s))
	}
	if len(pieces) < 4 {
		t.Fatalf("only %d pages to join", len(pieces))
	}
	join(t, pieces)
	edges := append(geom.Loop(nil), b.Outline...)
	for i := range b.Holes {
		edges = append(edges, b.Holes[i].Finished()...)
	}
	// The part's own frame, from its outline as found on the first page.
	worst, found, tried := 0.0, 0, 0
	origin := pieces[0].s.Offset
	for _, g := range edges {
		for at := 0.02; at < 1; at += 0.02 {
			q := g.At(at)
			u := normal(&g, q)
			tried++
			for _, p := range pieces {
				off, ok := p.pic.Across(q.Add(p.s.Offset), u, 0.8)
				if !ok || !inside(p.s, q) {
					continue
				}
				found++
				joined := p.toFirst(q.Add(p.s.Offset).Add(u.Mul(off)))
				worst = max(worst, math.Abs(joined.Sub(origin).Sub(q).Dot(u)))
			}
		}
	}
	t.Logf("%d places found on %d pages, the farthest %.3f mm off", found, len(pieces), worst)
	if worst > 0.15 {
		t.Errorf("an edge of the joined part lies %.3f mm off", worst)
	}
	if found < tried*3/4 {
		t.Errorf("only %d of %d places were found: the trial says little", found, tried)
	}
}

// piece is a page with its marks as they were found on its picture, and how it
// lies on the first page once it is joined.
type piece struct {
	s     *paper.Sheet
	pic   *papertest.Picture
	marks map[int]geom.Point
	to    geom.Motion
	done  bool
}

func (p *piece) toFirst(q geom.Point) geom.Point { return p.to.Apply(q) }

// findMarks measures where the crosses are, by both of their arms.
func findMarks(t *testing.T, pic *papertest.Picture, s *paper.Sheet) *piece {
	t.Helper()
	p := &piece{s: s, pic: pic, marks: map[int]geom.Point{}}
	for _, m := range s.Marks {
		var sum geom.Point
		for _, side := range []float64{-3.7, 3.7} { // between the circle and the arms' ends
			x, okX := pic.Across(geom.Point{X: m.At.X, Y: m.At.Y + side}, geom.Point{X: 1}, 1)
			y, okY := pic.Across(geom.Point{X: m.At.X + side, Y: m.At.Y}, geom.Point{Y: 1}, 1)
			if !okX || !okY {
				t.Fatalf("page %s: mark %d is not found", s.Name, m.Number)
			}
			sum = sum.Add(geom.Point{X: x, Y: y})
		}
		p.marks[m.Number] = m.At.Add(sum.Mul(0.5))
	}
	return p
}

// join lays every page on those that are joined already, by the two marks that
// lie farthest apart of all they share.
func join(t *testing.T, ps []*piece) {
	t.Helper()
	ps[0].done = true
	for range ps {
		for _, p := range ps {
			if p.done {
				continue
			}
			var here, there []geom.Point
			for _, q := range ps {
				if !q.done {
					continue
				}
				for n, at := range q.marks {
					if m, ok := p.marks[n]; ok {
						here, there = append(here, m), append(there, q.toFirst(at))
					}
				}
			}
			if len(here) < 2 {
				continue
			}
			i, j := farthest(here)
			a, b := here[j].Sub(here[i]), there[j].Sub(there[i])
			turn := math.Atan2(a.Cross(b), a.Dot(b))
			mid, to := here[i].Add(here[j]).Mul(0.5), there[i].Add(there[j]).Mul(0.5)
			p.to = geom.Translate(-mid.X, -mid.Y).Then(geom.Rotate(turn)).Then(geom.Translate(to.X, to.Y))
			p.done = true
		}
	}
	for _, p := range ps {
		if !p.done {
			t.Fatalf("page %s shares no two marks with the others", p.s.Name)
		}
	}
}

func farthest(ps []geom.Point) (a, b int) {
	for i := range ps {
		for j := range i {
			if ps[i].Dist(ps[j]) > ps[a].Dist(ps[b]) {
				a, b = j, i
			}
		}
	}
	return a, b
}

// inside reports whether a place of the part lies well within what a page shows.
func inside(s *paper.Sheet, q geom.Point) bool {
	q = q.Add(s.Offset)
	return q.X > 30 && q.Y > 52 && q.X < s.Width-12 && q.Y < s.Height-12
}

func normal(g *geom.Seg, q geom.Point) geom.Point {
	u := g.B.Sub(g.A).Perp()
	if g.IsArc() {
		u = q.Sub(g.Circle().C)
	}
	return u.Mul(1 / u.Len())
}
