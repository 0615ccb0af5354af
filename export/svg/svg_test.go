package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"blankwright/export/paper"
	"blankwright/export/paper/papertest"
	"blankwright/export/svg"
	"blankwright/flat/blank"
	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

func write(t testing.TB, b *blank.Blank, fs []diag.Finding, o svg.Options) []byte {
	t.Helper()
	out, err := svg.Write(b, fs, o)
	if err != nil {
		t.Fatalf("%s: %v", b.Name, err)
	}
	return out
}

// someFindings are one that failed, one waived and one warning, with hostile
// words.
func someFindings() []diag.Finding {
	return []diag.Finding{
		{Rule: "edge-distance", Severity: diag.Error, Where: diag.Place{X: 5, Y: 5}, Message: "too near <the> \"edge\" & more"},
		{Rule: "least-web", Severity: diag.Error, Where: diag.Place{X: 1, Y: 9}, Message: "thin", Waived: "</text><script>x</script>"},
		{Rule: "smallest-hole", Severity: diag.Warning, Where: diag.Place{X: -3, Y: 2}, Message: "small\n]]>"},
	}
}

// Attributes that each element may have: SVG 1.1's, as far as sheets use them.
var allowed = map[string]string{
	"svg":    "width height viewBox preserveAspectRatio xmlns xlink",
	"title":  "",
	"desc":   "",
	"style":  "type",
	"g":      "id transform fill stroke stroke-width stroke-linejoin stroke-dasharray font-family font-size font-weight",
	"path":   "d",
	"circle": "cx cy r",
	"text":   "x y text-anchor transform",
}

var (
	pathData = regexp.MustCompile(`^(M-?[\d.]+ -?[\d.]+|L-?[\d.]+ -?[\d.]+|A[\d.]+ [\d.]+ 0 0 [01] -?[\d.]+ -?[\d.]+|Z)+$`)
	number   = regexp.MustCompile(`-?\d+(\.\d+)?`)
	minus0   = regexp.MustCompile(`-0(\.0*)?([^.\d]|$)`)
)

// Every file is well formed, has only the elements and attributes of the list,
// gives no id twice, and no number of it is -0, NaN or infinite.
func TestFilesHoldOnlyWhatIsAllowed(t *testing.T) {
	for _, b := range papertest.All() {
		for _, fs := range [][]diag.Finding{nil, someFindings()} {
			inspect(t, b.Name, write(t, b, fs, svg.Options{}))
		}
	}
}

func inspect(t *testing.T, name string, file []byte) {
	t.Helper()
	ids := map[string]bool{}
	d := xml.NewDecoder(bytes.NewReader(file))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("%s: not well formed: %v", name, err)
		}
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		names, known := allowed[el.Name.Local]
		if !known {
			t.Errorf("%s: element %s", name, el.Name.Local)
		}
		for _, a := range el.Attr {
			if !strings.Contains(" "+names+" ", " "+a.Name.Local+" ") {
				t.Errorf("%s: attribute %s of %s", name, a.Name.Local, el.Name.Local)
			}
			if a.Name.Local == "id" {
				if ids[a.Value] {
					t.Errorf("%s: id %q comes twice", name, a.Value)
				}
				ids[a.Value] = true
			}
			if minus0.MatchString(a.Value) || strings.Contains(a.Value, "NaN") || strings.Contains(a.Value, "Inf") {
				t.Errorf("%s: %s has a bad number: %q", name, a.Name.Local, a.Value)
			}
			if a.Name.Local == "d" && !pathData.MatchString(a.Value) {
				t.Errorf("%s: path data %q", name, a.Value)
			}
		}
	}
}

// The list above would see what must not be there.
func TestInspectionSees(t *testing.T) {
	for _, bad := range []string{`M1 -0L2 2`, `M1 -0.0000`, `x -0`, `-0 1`} {
		if !minus0.MatchString(bad) {
			t.Errorf("%q passed", bad)
		}
	}
	for _, good := range []string{`M1 -0.5`, `-0.0001 3`, `M10 20L-10 0`} {
		if minus0.MatchString(good) {
			t.Errorf("%q was caught", good)
		}
	}
	if pathData.MatchString(`M0 0H5`) || pathData.MatchString(`M0 0"><script>`) || !pathData.MatchString(`M0 0L1.5 -2A3 3 0 0 1 4 5Z`) {
		t.Error("path data is not told apart")
	}
}

// Whatever a part is called, its file has the elements of a plainly named one,
// and the words come out as they were.
func TestHostileWordsStayWords(t *testing.T) {
	hostile := papertest.Foreign()
	plain := papertest.Foreign()
	plain.Name = strings.Repeat("plate with a long name ", 4)
	plain.Revision, plain.Material.Name, plain.Part.Note.Text = "9", strings.Repeat("S275 ", 12), "note"
	plain.Holes[0].Callout = "10 mm"
	plain.Marks[0].Text = "mark"
	count := func(b *blank.Blank) map[string]int {
		n := map[string]int{}
		d := xml.NewDecoder(bytes.NewReader(write(t, b, nil, svg.Options{})))
		for {
			tok, err := d.Token()
			if err != nil {
				if !errors.Is(err, io.EOF) {
					t.Fatal(err)
				}
				return n
			}
			if el, ok := tok.(xml.StartElement); ok && el.Name.Local != "text" {
				n[el.Name.Local]++
			}
		}
	}
	if h, p := fmt.Sprint(count(hostile)), fmt.Sprint(count(plain)); h != p {
		t.Errorf("elements are %s, of a plain part %s", h, p)
	}
	file := string(write(t, hostile, nil, svg.Options{}))
	for _, want := range []string{
		"&lt;script&gt;alert(1)&lt;/script&gt;", "&lt;&amp;&#34;&gt;", "軸受 ]]&gt;", "S355 &amp; &lt;S275&gt;",
		"&lt;!-- &#39; onload=&#39;x&#39; &#34; 9", "Note: &lt;/svg&gt;  &lt;rect width=&#39;9&#39;",
	} {
		if !strings.Contains(file, want) {
			t.Errorf("%q is not in the file", want)
		}
	}
	if strings.ContainsAny(file, "\x00\x01\r\u202e") {
		t.Error("control characters got into the file")
	}
}

func TestSizeViewBoxAndPageRuleAgree(t *testing.T) {
	for _, c := range []struct {
		b    *blank.Blank
		o    svg.Options
		want string
	}{
		{papertest.Gusset(), svg.Options{}, "210mm 297mm"},
		{papertest.Crossmember(), svg.Options{Page: "A3"}, "420mm 297mm"},
		{papertest.AxleTab(), svg.Options{}, "8.5in 11in"},
		{papertest.Hanger(), svg.Options{}, "17in 11in"},
		{papertest.DeckPlate(), svg.Options{}, "52.5in 33in"},
	} {
		file := string(write(t, c.b, nil, c.o))
		var w, h, x0, y0, vw, vh float64
		var u1, u2 string
		m := regexp.MustCompile(`width="([\d.]+)(mm|in)" height="([\d.]+)(mm|in)"\s+viewBox="(\S+) (\S+) (\S+) (\S+)"`).FindStringSubmatch(file)
		if m == nil {
			t.Fatalf("%s: no size", c.b.Name)
		}
		if _, err := fmt.Sscan(strings.Join([]string{m[1], m[2], m[3], m[4], m[5], m[6], m[7], m[8]}, " "),
			&w, &u1, &h, &u2, &x0, &y0, &vw, &vh); err != nil {
			t.Fatal(err)
		}
		k := 1.0
		if u1 == "in" {
			k = unit.MM
		}
		if u1 != u2 || x0 != 0 || y0 != 0 || math.Abs(w*k-vw) > 1e-9 || math.Abs(h*k-vh) > 1e-9 {
			t.Errorf("%s: %v%s by %v%s is not the viewBox %v %v %v %v", c.b.Name, w, u1, h, u2, x0, y0, vw, vh)
		}
		if want := "@page{size:" + c.want + ";margin:0}"; !strings.Contains(file, want) {
			t.Errorf("%s: no %q in the file", c.b.Name, want)
		}
	}
}

// Browsers shrink a whole print job when anything is wider than its page.
func TestNothingReachesBeyondThePage(t *testing.T) {
	for _, b := range papertest.All() {
		s, err := paper.Compose(b, someFindings(), svg.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(` d="([^"]*)"`).FindAllStringSubmatch(beforeChecks(string(svg.Render(s))), -1) {
			for _, cmd := range regexp.MustCompile(`[MLA][^MLAZ]*`).FindAllString(m[1], -1) {
				ns := number.FindAllString(cmd[1:], -1)
				x, _ := strconv.ParseFloat(ns[len(ns)-2], 64)
				y, _ := strconv.ParseFloat(ns[len(ns)-1], 64)
				if x < 9 || y < 9 || x > s.Page.Width-9 || y > s.Page.Height-9 {
					t.Errorf("%s: a line reaches %v, %v on %v", b.Name, x, y, s.Page)
				}
			}
		}
	}
}

func beforeChecks(file string) string { return file[:strings.Index(file, `<g id="checks"`)] }

// Arcs are arcs: the outline in the file, read back, is the outline.
func TestOutlineReadsBack(t *testing.T) {
	arcs := 0
	for _, b := range papertest.All() {
		s, err := paper.Compose(b, nil, svg.Options{})
		if err != nil {
			t.Fatal(err)
		}
		file := string(svg.Render(s))
		group := file[strings.Index(file, `<g id="outline"`):]
		group = group[:strings.Index(group, "</g>")]
		m := regexp.MustCompile(` d="([^"]*)"`).FindStringSubmatch(group)
		if m == nil { // a disc
			if _, ok := b.Outline.Circle(); !ok || !strings.Contains(group, "<circle") {
				t.Errorf("%s: no outline in the file", b.Name)
			}
			continue
		}
		arcs += strings.Count(m[1], "A")
		back := readPath(t, m[1], s.Page.Height)
		if d := math.Abs(back.Area() - b.Outline.Area()); d > 1e-3*math.Sqrt(b.Outline.Area()) {
			t.Errorf("%s: area read back is %v, was %v", b.Name, back.Area(), b.Outline.Area())
		}
		for _, g := range b.Outline {
			for _, at := range []float64{0, 0.25, 0.5, 0.75} {
				if d := geom.PointLoop(g.At(at).Add(s.Offset), back).D; d > 3e-4 {
					t.Errorf("%s: a point of the outline is %v mm off in the file", b.Name, d)
				}
			}
		}
	}
	if arcs < 30 {
		t.Errorf("only %d arcs were read: the trial says little", arcs)
	}
}

// readPath reads closed path data, turning y back. It is strict: the arc's
// centre follows from its ends, radius and sweep flag alone (SVG 1.1,
// implementation notes F.6.5).
func readPath(t *testing.T, d string, height float64) geom.Loop {
	t.Helper()
	var l geom.Loop
	var start, at geom.Point
	for _, cmd := range regexp.MustCompile(`[MLAZ][^MLAZ]*`).FindAllString(d, -1) {
		var n []float64
		for _, s := range number.FindAllString(cmd[1:], -1) {
			v, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			n = append(n, v)
		}
		to := start
		if len(n) >= 2 {
			to = geom.Point{X: n[len(n)-2], Y: height - n[len(n)-1]}
		}
		switch cmd[0] {
		case 'M':
			start = to
		case 'L':
			l = append(l, geom.Line(at, to))
		case 'A':
			half := at.Dist(to) / 2
			side := math.Sqrt(max(0, n[0]*n[0]-half*half))
			normal := to.Sub(at).Perp().Mul(1 / (2 * half))
			ccw := n[4] == 0
			if !ccw {
				side = -side
			}
			c := geom.Circle{C: at.Add(to).Mul(0.5).Add(normal.Mul(side)), R: n[0]}
			l = append(l, geom.Arc(c, at, to, ccw))
		case 'Z':
			if at != start {
				l = append(l, geom.Line(at, start))
			}
		}
		at = to
	}
	return l
}

func TestSameBytesEachTime(t *testing.T) {
	parts := papertest.All()
	want := make([][]byte, len(parts))
	for i, b := range parts {
		want[i] = write(t, b, someFindings(), svg.Options{})
	}
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for i, b := range parts {
				got, err := svg.Write(b, someFindings(), svg.Options{})
				if err != nil || !bytes.Equal(got, want[i]) {
					t.Errorf("%s: another writer's bytes differ (%v)", b.Name, err)
				}
			}
		})
	}
	wg.Wait()
	for _, b := range want {
		if regexp.MustCompile(`20\d\d-\d\d`).Match(b) {
			t.Error("a file bears a date")
		}
	}
}

func TestErrorsComeThrough(t *testing.T) {
	if out, err := svg.Write(nil, nil, svg.Options{}); err == nil || out != nil {
		t.Errorf("nothing to draw gave %d bytes, error %v", len(out), err)
	}
	if _, err := svg.Write(papertest.Shim(), nil, svg.Options{Page: "napkin"}); err == nil {
		t.Error("unknown paper was taken")
	}
}

// An outline of 24 segments with four holes.
func BenchmarkWrite(b *testing.B) {
	p := papertest.Crossmember()
	if len(p.Outline) != 24 || len(p.Holes) != 4 {
		b.Fatalf("%d segments and %d holes", len(p.Outline), len(p.Holes))
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := svg.Write(p, nil, svg.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWriteSixtyHoles(b *testing.B) {
	p := papertest.BatteryTray()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := svg.Write(p, nil, svg.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// Whatever is written in a description, the file is well formed and holds only
// what is allowed.
func FuzzWords(f *testing.F) {
	f.Add("axle tab", "17/32 in (13.49 mm) for 1/2-13 grade 8", "note")
	f.Add("<&>\"'\x00\xff\u202e", "for , at , for", "]]>--><!--")
	f.Add(strings.Repeat("W", 3000), strings.Repeat("a, ", 900), strings.Repeat(" ", 900))
	f.Fuzz(func(t *testing.T, name, callout, note string) {
		b := papertest.Shackle()
		b.Name, b.Revision, b.Material.Name, b.Process.Name = name, note, callout, name
		b.Part.Note.Text = note
		for i := range b.Holes {
			b.Holes[i].Callout = callout[min(i, len(callout)):]
		}
		b.Marks = []blank.MarkText{{Text: note, At: geom.Point{X: 1, Y: 30}}, {Text: name, Auto: true}}
		fs := []diag.Finding{{Rule: name, Severity: diag.Error, Message: callout, Waived: note}}
		inspect(t, "part", write(t, b, fs, svg.Options{Note: name, Cautions: []string{note, callout}}))
	})
}
