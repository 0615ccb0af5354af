package describe

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/flat/diag"
)

const everyTube = `tube: 'brace "2"'
revision: "#7"
quantity: 2 * n
hand: Pair
units: in
rules: AISC 360 ASD
profile: shop.yaml
let: {n: 3, tilt: 10 deg + 0.1 rad}
section: {outside: 38.1 mm, wall: 0.188, material: S355}
cut: Square
centres: 1/3 * 70
turn: -tilt
first:
  - {name: "post: a", main: 1-3/4, angle: 33.3 deg, offset: -1/3, turn: tilt, at: 1/7, length: 60 mm, middle: -2 mm, bore: 1-1/4, beside: yes}
  - {plate: yes, angle: 45 deg, turn: 180 deg}
second: square
paper: {thickness: 0.1 mm, tab: 0, margin: 1, seam: 90 deg}
saw: {kerf: 3 mm, bar: 6 m, trim: 5 mm, keep: 0.3 m}
hole saws: {diameters: [1-3/4, 2], cup: 1-5/8, least angle: 30 deg}
stations: 36
weld: {leg: 3/16, electrode: E80}
loads:
  - {compression: 17 kN, factor: 1.6, case: "a: b"}
  - {tension: 1/3 kip, case: c}
waive:
  - {rule: tube-inside, reason: "ground by hand: measured"}
note: "null"
`

// reprinted fails where what is printed is not read back as the same values.
func reprinted[T any](t *testing.T, p *T, print func(*T) []byte, parse func(string, []byte) (*T, error)) {
	t.Helper()
	text := print(p)
	q, err := parse("printed", text)
	require.NoError(t, err, "%s", text)
	if a, b := withoutPlaces(p), withoutPlaces(q); !reflect.DeepEqual(a, b) {
		t.Fatalf("the printed text has other values\n%s\n%+v\n%+v", text, a, b)
	}
	require.Equal(t, string(text), string(print(q)))
}

// otherKind reads an example of a tube or a job.
func otherKind(t *testing.T, text string) bool {
	t.Helper()
	switch KindOf([]byte(text)) {
	case TubeFile:
		p, err := ParseTube("example", []byte(text))
		if err != nil {
			t.Errorf("%v\n%s", err, text)
			return true
		}
		reprinted(t, p, PrintTube, ParseTube)
		return true
	case JobFile:
		p, err := ParseJob("example", []byte(text))
		if err != nil {
			t.Errorf("%v\n%s", err, text)
			return true
		}
		reprinted(t, p, PrintJob, ParseJob)
		return true
	}
	return false
}

func TestTubePrintReadsBack(t *testing.T) {
	p, err := ParseTube("tube.yaml", []byte(everyTube))
	require.NoError(t, err)
	reprinted(t, p, PrintTube, ParseTube)
	require.Equal(t, 6, p.Quantity.N)
	require.InDelta(t, 592.667, p.Centres.MM, 0.001)
	require.True(t, p.Second.Square)
	require.Len(t, p.First.Meets, 2)
}

func TestKindOf(t *testing.T) {
	for text, want := range map[string]Kind{
		"":                                PartFile,
		"part: a\ntube: b\n":              PartFile,
		"# tube: a\n\ntube: b\npart: c\n": TubeFile,
		"units: mm\r\ntube: b\r\n":        TubeFile,
		"\ufefftube: b":                   TubeFile,
		"  tube: b\njob: c":               JobFile,
		"note: tube\nplate: x":            PartFile,
	} {
		require.Equal(t, want, KindOf([]byte(text)), "%q", text)
	}
}

// Each row is a tube with one thing wrong, the place and what is said of it.
func TestTubeMessages(t *testing.T) {
	base := map[string]string{
		"tube": "brace", "section": "{outside: 38.1 mm, wall: 4.78 mm, material: S355}", "centres": "640 mm",
		"first": "{main: 44.45 mm}", "second": "square",
	}
	order := []string{"tube", "section", "centres", "length", "turn", "first", "second", "paper", "saw", "stations", "loads", "weld", "quantity", "hand", "od"}
	for _, row := range [][3]string{
		{"first", "{main: 44.45 mm, angle: 4 deg}", `angle is "4 deg", wanted 5 to 90 deg`},
		{"first", "{main: 44.45 mm, plate: yes}", "what a tube meets has both main and plate"},
		{"first", "{angle: 30 deg}", "what a tube meets has none of main, plate"},
		{"first", "{plate: yes, offset: 3 mm}", "what a tube meets has offset, which belongs to main"},
		{"first", "{main: 44.45 mm, bore: 50 mm}", "the bore is no smaller than the outside of the sleeve"},
		{"first", "[]", "first is a list of 0, wanted 1 or more mains and plates"},
		{"first", "sqare", `first is "sqare", wanted one of square`},
		{"second", "{main: 44.45}", "second: main: 44.45 has no unit"},
		{"section", "{outside: 38.1 mm, wall: 20 mm, material: S355}", `wall is "20 mm", more than half the outside diameter`},
		{"length", "600 mm", "a tube has both centres and length"},
		{"turn", "15", "turn: "},
		{"stations", "10", "stations is 10, wanted a multiple of 4"},
		{"loads", "[{tension: 1 kN, compression: 1 kN}]", "a tube's load has both tension and compression"},
		{"loads", "[{tension: 1 kN}, {tension: 2 kN}]", "a load has no case, and there are 2 loads"},
		{"od", "38 mm", `unknown key "od" in a tube`},
		{"saw", "{kerf: -1 mm, bar: 6 m}", `kerf is "-1 mm", wanted 0 or more`},
	} {
		var b strings.Builder
		for _, key := range order {
			if key == row[0] {
				fmt.Fprintf(&b, "%s: %s\n", key, row[1])
			} else if v, ok := base[key]; ok {
				fmt.Fprintf(&b, "%s: %s\n", key, v)
			}
		}
		p, err := ParseTube("t.yaml", []byte(b.String()))
		require.Nil(t, p, "%v", row)
		ps, ok := err.(diag.Problems)
		require.True(t, ok, "%v: %v", row, err)
		want := strings.TrimPrefix(row[2], "second: ")
		require.Contains(t, ps[0].Message, want, "%v", row)
		require.Positive(t, ps[0].Pos.Line)
	}
}

// All that is wrong is reported in one pass.
func TestTubeSeveralProblems(t *testing.T) {
	_, err := ParseTube("t.yaml", []byte("tube: a\nunits: mm\nsection: {outside: -3, wal: 3}\nfirst: {main: 3, angle: 1 deg}\nlength: nothing\n"))
	ps, ok := err.(diag.Problems)
	require.True(t, ok)
	require.GreaterOrEqual(t, len(ps), 6, "%v", ps)
	for i := range ps[1:] {
		require.False(t, ps[i+1].Pos.Before(ps[i].Pos))
	}
}

func FuzzParseTube(f *testing.F) {
	f.Add([]byte(everyTube))
	f.Add([]byte("tube: a\nunits: mm\nsection: {outside: 3, wall: 1, material: A36}\nlength: 9\nfirst: square\nsecond: [{plate: yes}]\n"))
	f.Add([]byte("tube: a\nfirst: {main: {}}\nloads: [1, {}]\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		p, err := ParseTube("f", text)
		if err != nil {
			if _, ok := err.(diag.Problems); !ok {
				t.Fatalf("the error is %T", err)
			}
			return
		}
		reprinted(t, p, PrintTube, ParseTube)
	})
}
