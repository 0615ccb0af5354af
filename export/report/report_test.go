package report_test

import (
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/export/paper"
	"blankwright/export/report"
	"blankwright/flat/describe"
	"blankwright/flat/job"
)

// files are a triangle of two braces over a post, as on a trailer of Brackenholt
// Farm: several tubes at one pivot, names that stand close, a bracket of two
// plates.
var files = map[string]string{
	"brace.yaml": "tube: brace <left> & \"right\"\nunits: mm\nsection: {outside: 38.1, wall: 3, material: S355}\ncentres: 500\nfirst: {main: 44.45}\nsecond: {main: 44.45}\nweld: {leg: 3}\n",
	"stay.yaml":  "tube: stay\nunits: mm\nsection: {outside: 30, wall: 3, material: S355}\ncentres: 300\nfirst: square\nsecond: square\n",
	"tab.yaml": "part: brace tab\nquantity: 2\nunits: mm\nplate: {thickness: 6, material: S355}\nprocess: fibre laser\nholes: {pivot: {at: [0, 0], bolt: M12 8.8}}\n" +
		"outline: {tangent: [{hole: pivot, radius: 25}, {at: [-20, 50], radius: 6}, {at: [20, 50], radius: 6}]}\n",
}

const trailer = `job: trailer braces
revision: C
quantity: 3
units: mm
note: for the low trailer
pivots:
  left:  {at: [0, 0, 0], axis: [0, 1, 0], sleeve: {outside: 44.45, bore: 31.75, length: 60}, bush: {outside: 31.75, bore: 12, length: 63}}
  right: {at: [500, 0, 0], axis: [0, 1, 0], sleeve: {outside: 44.45, bore: 31.75, length: 60}}
  top:   {at: [180, 0, 240]}
tubes:
  brace: {file: brace.yaml, from: left, to: right}
  stay:  {file: stay.yaml, from: left, to: top}
  prop:  {file: stay.yaml, from: top, to: right}
parts:
  tab: {file: tab.yaml, at: left, hole: pivot, right: [1, 0, 0], up: [0, 0, -1], joint: {gap: 64, nut: lock}}
supports:
  - {at: left}
  - {at: right, along: [[0, 1, 0], [0, 0, 1]]}
  - {at: top, along: [0, 1, 0]}
loads:
  - {at: top, force: 4 kN, direction: [0, 0, -1], factor: 1.5, case: "load & bounce"}
stock: {bars: [3 m], kerf: 2, trim: 5, keep: 200}
`

func made(t testing.TB) *job.Job {
	t.Helper()
	d, err := describe.ParseJob("job.yaml", []byte(trailer))
	require.NoError(t, err)
	j, err := job.Make(d, func(path string) ([]byte, error) {
		if text, ok := files[path]; ok {
			return []byte(text), nil
		}
		return nil, errors.New("no such file")
	}, nil)
	require.NoError(t, err)
	return j
}

func told(j *job.Job) []report.Told { return []report.Told{{Of: "job", Findings: job.Run(j)}} }

// what every traveller has to tell.
var told1 = []string{"3 sets", "for the low trailer", "Pivots", "Tubes", "Forces, factors put in", "Fits", "Bill of materials", "Cut list", "Plate list",
	"Findings", "How much of what they carry is used", "Taken for granted", "Not checked", "Cautions", "load & bounce", "M12 8.8", "compression", "tension",
	"each plate at pivot left takes half of its force", "from the right side", "from above"}

// The page is one file that needs nothing beside it: well-formed, no scripts, no
// links out, all signs escaped.
func TestHTML(t *testing.T) {
	j := made(t)
	h := report.NewHTML(j.Name + ", rev " + j.Revision)
	report.Job(h, j, told(j))
	h.Drawing([]byte("<svg/>"), "a <drawing>")
	page := string(h.Bytes())
	text := ""
	d := xml.NewDecoder(strings.NewReader(strings.Replace(page, "<!DOCTYPE html>", "", 1)))
	d.Strict, d.AutoClose, d.Entity = true, xml.HTMLAutoClose, xml.HTMLEntity
	for {
		k, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		switch k := k.(type) {
		case xml.CharData:
			text += string(k) + "\n"
		case xml.StartElement:
			require.NotEqual(t, "script", k.Name.Local)
			require.NotEqual(t, "link", k.Name.Local)
			for _, a := range k.Attr {
				if a.Name.Local == "src" {
					require.True(t, strings.HasPrefix(a.Value, "data:"), a.Value)
				}
				require.NotEqual(t, "href", a.Name.Local)
			}
		}
	}
	require.Empty(t, regexp.MustCompile(`https?://[^"]*`).FindAllString(strings.ReplaceAll(page, "http://www.w3.org/2000/svg", ""), -1))
	for _, w := range told1 {
		require.Contains(t, text, w)
	}
	require.Contains(t, text, `brace <left> & "right"`)
	require.NotContains(t, strings.ToLower(text), "safe")
}

// On paper nothing lies over anything else and nothing runs off.
func TestBook(t *testing.T) {
	j := made(t)
	for _, page := range []string{"A4", "letter"} {
		b := paper.Book{Title: j.Name, Page: page}
		report.Job(&b, j, told(j))
		sheets, err := b.Sheets()
		require.NoError(t, err)
		all := ""
		for _, s := range sheets {
			area := paper.Rect{X0: 9.9, Y0: 9.9, X1: s.Width - 9.9, Y1: s.Height - 9.9}
			texts := s.Texts()
			for i := range texts {
				box := texts[i].Box()
				all += texts[i].S + "\n"
				require.True(t, area.Holds(box), "%q runs off %s", texts[i].S, page)
				for k := range i {
					require.False(t, box.Overlaps(texts[k].Box()), "%q lies over %q", texts[i].S, texts[k].S)
				}
			}
		}
		require.Contains(t, all, "Bill of materials")
	}
}

// The views show every tube and both plates of the bracket, and words lie clear of
// each other.
func TestPictures(t *testing.T) {
	j := made(t)
	ps := report.Pictures(j)
	require.Len(t, ps, 2)
	for _, p := range ps {
		words := map[string]bool{}
		for i, w := range p.Words {
			words[w.S] = true
			for _, o := range p.Words[:i] {
				far := w.At.Y - o.At.Y
				wide := (paper.Width(w.S, paper.ValueText) + paper.Width(o.S, paper.ValueText)) / 2
				apart := far >= 3.2 || far <= -3.2 || w.At.X-o.At.X >= wide || o.At.X-w.At.X >= wide
				require.True(t, apart, "%q lies over %q", w.S, o.S)
			}
			require.GreaterOrEqual(t, w.At.Y, 0.0)
			require.LessOrEqual(t, w.At.Y, p.Height)
		}
		for _, w := range []string{"left", "right", "top", "brace, 500.00 mm", "stay, 300.00 mm", "prop, 400.00 mm"} {
			require.True(t, words[w], w)
		}
		require.NotEmpty(t, p.Thin)
	}
}
