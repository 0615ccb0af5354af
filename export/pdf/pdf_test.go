package pdf_test

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
	"blankwright/export/pdf"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

func write(t testing.TB, b *blank.Blank, fs []diag.Finding, o paper.Options) []byte {
	t.Helper()
	out, err := pdf.Write(b, fs, o)
	if err != nil {
		t.Fatalf("%s: %v", b.Name, err)
	}
	return out
}

// someFindings are one that failed, one waived and one warning, with hostile
// words.
func someFindings() []diag.Finding {
	return []diag.Finding{
		{Rule: "edge-distance", Severity: diag.Error, Where: diag.Place{X: 5, Y: 5}, Message: "too near (the \\edge) endstream"},
		{Rule: "least-web", Severity: diag.Error, Where: diag.Place{X: 1, Y: 9}, Message: "thin", Waived: ") Tj ET /JS (x) >> endobj"},
		{Rule: "smallest-hole", Severity: diag.Warning, Where: diag.Place{X: -3, Y: 2}, Message: "small\n)) Tj"},
	}
}

// inspect takes a file apart, with every content and form in it.
func inspect(t testing.TB, name string, file []byte) (d *document, pages [][]op) {
	t.Helper()
	d, err := readPDF(file)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	contents, _ := d.pages()
	if len(contents) == 0 {
		t.Fatalf("%s: no pages", name)
	}
	for n, s := range d.streams {
		if _, err := readContent(s); err != nil {
			t.Fatalf("%s, object %d: %v", name, n, err)
		}
	}
	for _, n := range contents {
		ops, _ := readContent(d.streams[n])
		pages = append(pages, ops)
	}
	return d, pages
}

// Every file is made of nothing but what a page needs, in the right order.
func TestFilesHoldOnlyWhatIsAllowed(t *testing.T) {
	for _, b := range papertest.All() {
		inspect(t, b.Name, write(t, b, nil, paper.Options{Page: "roll 24 in"}))
		inspect(t, b.Name, write(t, b, someFindings(), paper.Options{Page: "letter"}))
	}
}

// The file asks not to be scaled, names its pages, and says what it is.
func TestCatalogAndInfo(t *testing.T) {
	d, pages := inspect(t, "tray", write(t, papertest.BatteryTray(), nil, paper.Options{Page: "A4"}))
	for _, want := range []string{"/PrintScaling/None", "/Duplex/Simplex", "/PickTrayByPDFSize true", "/PageLabels<</Nums[0<</P(cover)>>1<</P(A1)>>2<</P(A2)>>"} {
		if !strings.Contains(d.objects[0], want) {
			t.Errorf("the catalog does not say %s: %s", want, d.objects[0])
		}
	}
	if n := strings.Count(d.objects[1], " 0 R"); !strings.Contains(d.objects[1], "/Count "+strconv.Itoa(len(pages))) || n < len(pages) {
		t.Errorf("%d pages in %s", len(pages), d.objects[1])
	}
	if got := d.info(t, "Title"); got != "battery tray floor, rev B" {
		t.Errorf("title is %q", got)
	}
	if got := d.info(t, "Subject"); got != "Flat part at true scale, 1:1. Print at 100 %, actual size." {
		t.Errorf("subject is %q", got)
	}
	d, _ = inspect(t, "tray", write(t, papertest.AxleTab(), nil, paper.Options{Measured: paper.Reading{X: 99, Y: 101}}))
	if got := d.info(t, "Subject"); !strings.Contains(got, "99 x 101") {
		t.Errorf("subject of a corrected file is %q", got)
	}
	if strings.Contains(d.objects[0], "PageLabels") {
		t.Error("a single page has a label")
	}
	d, _ = inspect(t, "foreign", write(t, papertest.Foreign(), nil, paper.Options{}))
	if got := d.info(t, "Title"); !strings.Contains(got, "軸受 ]]>") || !strings.HasPrefix(got, "Fräsplatte <b>&") {
		t.Errorf("title is %q", got)
	}
}

// Boxes are the paper's size, in points.
func TestBoxes(t *testing.T) {
	for page, want := range map[string][2]float64{
		"letter": {8.5 * 72, 11 * 72}, "legal": {8.5 * 72, 14 * 72}, "tabloid": {11 * 72, 17 * 72},
		"A4": {210 / 25.4 * 72, 297 / 25.4 * 72}, "A3": {297 / 25.4 * 72, 420 / 25.4 * 72}, "300 x 500 mm": {300 / 25.4 * 72, 500 / 25.4 * 72},
	} {
		for _, b := range []*blank.Blank{papertest.AxleTab(), papertest.BatteryTray()} {
			for _, r := range []paper.Reading{{}, {X: 98, Y: 101}} {
				d, _ := inspect(t, page, write(t, b, nil, paper.Options{Page: page, Measured: r}))
				_, boxes := d.pages()
				for _, box := range boxes {
					var w, h float64
					if _, err := fmt.Sscan(box, &w, &h); err != nil {
						t.Fatal(err)
					}
					w, h = min(w, h), max(w, h)
					if math.Abs(w-want[0]) > 1e-6 || math.Abs(h-want[1]) > 1e-6 {
						t.Errorf("%s: box %s, want %v", page, box, want)
					}
				}
			}
		}
	}
}

// The contents are in mm: one unit is 72/25.4 points, or as much more as the
// printer is short of.
func TestScale(t *testing.T) {
	for _, c := range []struct {
		r    paper.Reading
		x, y float64
	}{{paper.Reading{}, 72 / 25.4, 72 / 25.4}, {paper.Reading{X: 99.4, Y: 100.2}, 72 / 25.4 / 0.994, 72 / 25.4 / 1.002}} {
		_, pages := inspect(t, "tab", write(t, papertest.AxleTab(), nil, paper.Options{Measured: c.r}))
		first := pages[0][1]
		if a := first.args; first.name != "cm" || math.Abs(a[0]-c.x) > 1e-8 || math.Abs(a[3]-c.y) > 1e-8 || a[1] != 0 || a[2] != 0 || a[4] != 0 || a[5] != 0 {
			t.Errorf("%v: the page begins with %v", c.r, first)
		}
	}
}

// The outline and the openings in the file, read back, are those of the part,
// within 0.004 mm.
func TestEdgesReadBack(t *testing.T) {
	parts := append(papertest.All(), disc(1500), disc(0.6))
	for _, b := range parts {
		s, err := paper.Compose(b, nil, paper.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, id := range []paper.LayerID{paper.Outline, paper.Openings, paper.Drilled, paper.Centres} {
			edges := geom.Loop(append([]geom.Seg(nil), s.Layers[id].Segs...))
			for _, c := range s.Layers[id].Circles {
				edges = append(edges, geom.CircleLoop(c)...)
			}
			if len(edges) == 0 {
				continue
			}
			alone := *s
			alone.Layers = paper.Layers{}
			alone.Layers[id] = s.Layers[id]
			file, _ := pdf.Render([]*paper.Sheet{&alone})
			_, pages := inspect(t, b.Name, file)
			long := 0.0
			for _, k := range curves(pages[0]) {
				last := k[0]
				for i := 0; i <= 12; i++ {
					p := k.at(float64(i) / 12)
					if d := geom.PointLoop(p, edges).D; d > 0.004 {
						t.Fatalf("%s, %s: the curve strays %v mm", b.Name, id.Spec().Name, d)
					}
					long += p.Dist(last)
					last = p
				}
			}
			want := 0.0
			for _, g := range edges {
				want += g.Length()
			}
			if math.Abs(long-want) > want*1e-3 {
				t.Errorf("%s, %s: %v mm in the file, want %v", b.Name, id.Spec().Name, long, want)
			}
		}
	}
}

func disc(r float64) *blank.Blank {
	b := papertest.Part(fmt.Sprint("disc ", r), unit.Millimetre, 5)
	b.Outline = geom.CircleLoop(geom.Circle{R: r})
	return b
}

// Texts stand where the sheet has them: the middle or the end of centred and
// right-hand words at their place, by the widths of Helvetica.
func TestTextsStandWhereTheyShould(t *testing.T) {
	s, err := paper.Compose(papertest.Crossmember(), nil, paper.Options{})
	if err != nil {
		t.Fatal(err)
	}
	file, _ := pdf.Render([]*paper.Sheet{s})
	_, pages := inspect(t, "crossmember", file)
	got := map[string]bool{}
	var m []float64
	for _, o := range pages[0] {
		switch o.name {
		case "Tm":
			m = o.args
		case "Tj":
			got[fmt.Sprintf("%s %.1f %.1f %.0f", o.text, m[4], m[5], m[1])] = true
		}
	}
	n := 0
	for i := range s.Layers {
		for _, x := range s.Layers[i].Texts {
			// The sheet's widths are 5 per cent on the wide side.
			back := paper.Width(x.S, x.Style) / 1.05
			switch x.Anchor {
			case paper.Start:
				back = 0
			case paper.Middle:
				back /= 2
			}
			key := fmt.Sprintf("%s %.1f %.1f 0", x.S, x.At.X-back, x.At.Y)
			if x.Up {
				key = fmt.Sprintf("%s %.1f %.1f 1", x.S, x.At.X, x.At.Y-back)
			}
			if !got[key] {
				t.Errorf("no text %q in the file", key)
			}
			n++
		}
	}
	if n < 20 {
		t.Errorf("only %d texts were looked for", n)
	}
}

// Whatever a part is called, its file has the operators of a plainly named one.
func TestHostileWordsStayWords(t *testing.T) {
	const evil = ") Tj ET Q endstream endobj 9 0 obj <</S/JavaScript/JS(app.alert\\(1\\))>> \\"
	count := func(name, callout string) map[string]int {
		b := papertest.Shackle()
		b.Name, b.Revision, b.Material.Name, b.Part.Note.Text = name, name, name, name
		for i := range b.Holes {
			b.Holes[i].Callout = callout
		}
		_, pages := inspect(t, "shackle", write(t, b, nil, paper.Options{Note: name}))
		n := map[string]int{}
		for _, p := range pages {
			for _, o := range p {
				n[o.name]++
			}
		}
		return n
	}
	plain := strings.Repeat("x", len(evil))
	h, p := count(evil, "10 mm)\\"), count(plain, "10 mm  ")
	delete(h, "Tj")
	delete(p, "Tj")
	delete(h, "Tm")
	delete(p, "Tm")
	delete(h, "m")
	delete(p, "m")
	delete(h, "l")
	delete(p, "l")
	if fmt.Sprint(h) != fmt.Sprint(p) {
		t.Errorf("operators are %v, of a plain part %v", h, p)
	}
	_, pages := inspect(t, "foreign", write(t, papertest.Foreign(), nil, paper.Options{}))
	var all []string
	for _, o := range pages[0] {
		if o.name == "Tj" {
			all = append(all, o.text)
		}
	}
	words := strings.Join(all, "\n")
	for _, want := range []string{"Fr\xe4splatte <b>&\"'", "</text><script>alert(1)</script>", "?? ]]> -->", "S355 & <S275>"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not in the file: %q", want, words)
		}
	}
}

// Characters that Helvetica does not have are told.
func TestLostCharacters(t *testing.T) {
	for name, want := range map[string]string{
		"axle tab":                   "",
		"Öse ½ × 12 µm – “quoted” €": "",
		"⌀12 ≥ 5 −3 ″":               "",
		"軸受 tab 軸":                   "軸受",
		"Ωmega":                      "Ω",
	} {
		b := papertest.Shim()
		b.Name = name
		set, err := paper.Print(b, nil, paper.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if _, lost := pdf.Render(set.Pages); lost != want {
			t.Errorf("%q: lost are %q, want %q", name, lost, want)
		}
	}
}

func TestSameBytesEachTime(t *testing.T) {
	parts := papertest.All()
	want := make([][]byte, len(parts))
	for i, b := range parts {
		want[i] = write(t, b, someFindings(), paper.Options{})
	}
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			for i, b := range parts {
				got, err := pdf.Write(b, someFindings(), paper.Options{})
				if err != nil || !bytes.Equal(got, want[i]) {
					t.Errorf("%s: another writer's bytes differ (%v)", b.Name, err)
				}
			}
		})
	}
	wg.Wait()
	for _, b := range want {
		if regexp.MustCompile(`D:\d|Date`).Match(b) {
			t.Error("a file bears a date")
		}
	}
}

func TestErrorsComeThrough(t *testing.T) {
	if out, err := pdf.Write(nil, nil, paper.Options{}); err == nil || out != nil {
		t.Errorf("nothing to draw gave %d bytes, error %v", len(out), err)
	}
	if _, err := pdf.Write(papertest.Shim(), nil, paper.Options{Page: "napkin"}); err == nil {
		t.Error("unknown paper was taken")
	}
}

// An ordinary bracket: 24 segments, four holes.
func BenchmarkBracket(b *testing.B) {
	p := papertest.Crossmember()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := pdf.Write(p, nil, paper.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// A plate with 1,000 holes on twelve pages and a cover.
func BenchmarkThousandHolesTwelvePages(b *testing.B) {
	p := papertest.Screen(40, 25, 17)
	o := paper.Options{Page: "A4"}
	set, err := paper.Print(p, nil, o)
	if err != nil || len(p.Holes) != 1000 || len(set.Pages) != 13 {
		b.Fatalf("%d holes on %d pages, error %v", len(p.Holes), len(set.Pages), err)
	}
	b.ReportAllocs()
	for b.Loop() {
		out, err := pdf.Write(p, nil, o)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(out)), "bytes")
	}
}

// Whatever is written in a description, the file holds only what is allowed.
func FuzzWords(f *testing.F) {
	f.Add("axle tab", "17/32 in (13.49 mm) for 1/2-13 grade 8", "note")
	f.Add(") Tj ET\nendstream endobj", "(((\\", "\\)\\\\ \x00\xff\u202e Ω 軸")
	f.Add(strings.Repeat("W", 3000), strings.Repeat("a, ", 900), strings.Repeat(" ", 900))
	f.Fuzz(func(t *testing.T, name, callout, note string) {
		b := papertest.Shackle()
		b.Name, b.Revision, b.Material.Name, b.Process.Name = name, note, callout, name
		b.Part.Note.Text = note
		for i := range b.Holes {
			b.Holes[i].Name = name
			b.Holes[i].Callout = callout[min(i, len(callout)):]
		}
		b.Marks = []blank.MarkText{{Text: note, At: geom.Point{X: 1, Y: 30}}, {Text: name, Auto: true}}
		fs := []diag.Finding{{Rule: name, Severity: diag.Error, Message: callout, Waived: note}}
		for _, page := range []string{"", "200 x 200 mm"} {
			inspect(t, "part", write(t, b, fs, paper.Options{Page: page, Note: name, Cautions: []string{note, callout}}))
		}
	})
}
