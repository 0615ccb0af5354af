package describe

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"blankwright/flat/diag"
	"blankwright/flat/unit"
)

func parse(t *testing.T, text string) *Part {
	t.Helper()
	p, err := Parse("part.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// the example of the design: an axle tab of the orchard cart.
const axleTab = `part: axle tab                    # comment
quantity: 2
hand: pair
units: in
plate: {thickness: 1/4, material: A36}
process: air plasma
let: {drop: 3-3/4, nose: 1}

holes:
  pivot:  {at: [0, -drop], bolt: 1/2-13 grade 8, fit: normal}
  keeper: {at: [1-1/4, -1], diameter: 5 mm}
  adjust: {row: {from: [0, 0], to: [0, 4], count: 4}, bolt: 1/2}
  flange: {circle: {at: [0, 0], diameter: 4, count: 6, start: 30 deg}, bolt: 3/8}
  bore:   {at: [2, 0], bore: 1.375, allow: press}

outline:
  tangent:
    - {hole: pivot, radius: nose}
    - {at: [-1.75, 0], radius: 1/4}
    - {at: [ 1.75, 0], radius: 1/4}
marks:
  - {text: name, at: auto}
`

func TestAxleTab(t *testing.T) {
	p := parse(t, axleTab)
	pos := func(line, col int) diag.Pos { return diag.Pos{File: "part.yaml", Line: line, Col: col} }
	inch := 25.4 // a variable: multiplied as the program does
	check := func(what string, got, want any) {
		t.Helper()
		if got != want {
			t.Errorf("%s is %v, wanted %v", what, got, want)
		}
	}
	check("name", p.Name, Word{"axle tab", pos(1, 7), true})
	check("part", p.Pos, pos(1, 1))
	check("quantity", p.Quantity, Count{2, pos(2, 11), true})
	check("hand", p.Hand, Word{"pair", pos(3, 7), true})
	check("units", p.Units, unit.Inch)
	check("plate", p.Plate.Pos, pos(5, 8))
	check("thickness", p.Plate.Thickness, Length{6.35, pos(5, 20), true})
	check("material", p.Plate.Material, Word{"A36", pos(5, 35), true})
	check("rules", p.Rules, Word{Text: "aisc 360"})
	check("edges", p.Edges, Word{Text: "cut"})
	check("holes", len(p.Holes), 5)
	pivot := p.Holes[0]
	check("pivot", pivot.Name, Word{"pivot", pos(10, 3), true})
	check("pivot", pivot.Pos, pos(10, 11))
	check("pivot y", pivot.At.Y, Length{-95.25, pos(10, 20), true})
	check("pivot bolt", pivot.Bolt, Word{"1/2-13 grade 8", pos(10, 34), true})
	check("keeper x", p.Holes[1].At.X.MM, 31.75)
	check("keeper", p.Holes[1].Diameter, Length{5, pos(11, 39), true})
	check("row", p.Holes[2].Row.Count.N, 4)
	check("row to", p.Holes[2].Row.To.Y.MM, 101.6)
	check("row fit", p.Holes[2].Fit, Word{Text: "normal"})
	if a := p.Holes[3].Circle.Start.Rad; math.Abs(a-math.Pi/6) > 1e-15 {
		t.Errorf("start is %v rad, wanted 30 deg", a)
	}
	check("bore", p.Holes[4].Bore.MM, 1.375*inch)
	check("allow", p.Holes[4].Allow.Kind.Text, "press")
	check("how", p.Holes[4].How, Word{})
	check("bosses", len(p.Outline.Tangent), 3)
	check("nose", p.Outline.Tangent[0].Radius, Length{25.4, pos(18, 29), true})
	check("boss", p.Outline.Tangent[0].Hole, Word{"pivot", pos(18, 14), true})
	check("boss x", p.Outline.Tangent[2].At.X, Length{inch * 1.75, pos(20, 14), true})
	check("mark", p.Marks[0].Text.Text, "name")
	check("mark place", p.Marks[0].At == nil, true)
}

func TestWhatIsNotGiven(t *testing.T) {
	p := parse(t, "part: a\nplate: {thickness: 6 mm, material: S355}\nprocess: waterjet\nholes:\noutline: {gusset: {legs: 60 mm}}\n")
	if p.Quantity != (Count{N: 1}) || p.Hand != (Word{Text: "as drawn"}) || p.Units != unit.Unset || p.Holes != nil {
		t.Errorf("%+v", p)
	}
	g := p.Outline.Gusset
	if g.Angle != (Angle{Rad: math.Pi / 2}) || g.SnipeKind.Text != "straight" || g.Toes[0].MM != 0 || g.Legs[1].MM != 60 || g.At.X.MM != 0 {
		t.Errorf("%+v", g)
	}
}

func TestMost(t *testing.T) {
	head := "part: a\nunits: mm\nplate: {thickness: 6, material: S355}\nprocess: waterjet\noutline: {disc: {diameter: 900}}\nholes:\n  h: {diameter: 5, "
	for text, want := range map[string]int{
		"at: [1, 1]}":            1,
		"at: [1, 1], mirror: x}": 2,
		"row: {from: [0, 0], to: [9, 0], count: 3}, mirror: y}":                        6,
		"grid: {at: [0, 0], columns: 3, rows: 4, pitch: 20}, mirror: both}":            48,
		"circle: {at: [0, 0], diameter: 80, count: 2 * 3 + 1, start: -30 deg}}":        7,
		"grid: {at: [0, 0], columns: 100, rows: 100, pitch: [20, 10]}}":                10_000,
		"row: {from: [0, 0], to: [9, 0], count: 1000}, mirror: both}":                  4_000,
		"circle: {at: [0, 0], diameter: 80, count: (3 + 5) / 2}, mirror: both}":        16,
		"row: {from: [0, 0], to: [sqrt(16) * 1 mm, 0], count: 2 * sqrt(4)}, how: cut}": 4,
	} {
		if got := parse(t, head+text+"\n").Holes[0].Most(); got != want {
			t.Errorf("%s makes %d holes, wanted %d", text, got, want)
		}
	}
}

// Every way of writing the same text gives the same values.
func TestWaysOfWriting(t *testing.T) {
	want := string(Print(parse(t, axleTab)))
	for name, text := range map[string]string{
		"windows":   strings.ReplaceAll(axleTab, "\n", "\r\n"),
		"old mac":   strings.ReplaceAll(axleTab, "\n", "\r"),
		"mark":      "\ufeff" + axleTab,
		"start":     "---\n" + axleTab,
		"end":       axleTab + "...\n",
		"indent":    "  " + strings.ReplaceAll(strings.TrimSuffix(axleTab, "\n"), "\n", "\n  ") + "\n",
		"quotes":    strings.NewReplacer("axle tab", `"axle tab"`, "-drop", `"-drop"`, "1/2-13 grade 8", `'1/2-13 grade 8'`).Replace(axleTab),
		"quoted":    strings.NewReplacer("units:", `"units":`, "pivot:", `'pivot':`).Replace(axleTab),
		"folded":    strings.Replace(axleTab, "axle tab                    # comment", ">-\n   axle\n   tab", 1),
		"two lines": strings.Replace(axleTab, "axle tab ", "axle\n   tab ", 1),
		"escapes":   strings.Replace(axleTab, "axle tab", `"axl\x65 t\u0061b"`, 1),
		"capitals":  strings.Replace(strings.Replace(axleTab, "hand: pair", "hand: PAIR", 1), "units: in", "units: IN", 1),
	} {
		p, err := Parse("part.yaml", []byte(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
		} else if got := string(Print(p)); got != want {
			t.Errorf("%s: read as\n%s", name, got)
		}
	}
}

// Bytes and sizes that no file of testdata can hold well.
func TestTexts(t *testing.T) {
	const rest = "\nunits: mm\nplate: {thickness: 6, material: S355}\nprocess: waterjet\noutline: {disc: {diameter: 900}}\n"
	manyKeys := strings.Builder{}
	for i := range 1000 {
		fmt.Fprintf(&manyKeys, "nonsense%d: 1\n", i)
	}
	for _, c := range []struct{ name, text, want string }{
		{"nothing", "", "f:1:1: error: the file describes nothing, wanted a part\nf:1:1: hint: begin with a line like part: axle tab"},
		{"blank", "\n  \n# only a comment\n", "f:1:1: error: the file describes nothing, wanted a part"},
		{"null", "~\n", "f:1:1: error: the file describes nothing, wanted a part"},
		{"NUL", "part: a\x00b", "f:1:8: error: this is not a text file: it holds a NUL byte"},
		{"control", "part: a\n  é\x1bb", "f:2:4: error: this is not a text file: it holds the control character U+001B"},
		{"delete", "part: a\x7f", "f:1:8: error: this is not a text file: it holds the control character U+007F"},
		{"C1", "part: a\u0085b: c", "f:1:8: error: character U+0085 has no place in a description"},
		{"separator", "part: a\u2028b: c", "f:1:8: error: character U+2028 has no place in a description"},
		{"direction", "part: a\u202eb", "f:1:8: error: character U+202E has no place in a description"},
		{"mark inside", "part: a\ufeffb", "f:1:8: error: character U+FEFF has no place in a description"},
		{"non-character", "part: a\uffffb", "f:1:8: error: character U+FFFF has no place in a description"},
		{"UTF-8", "part: né\xe9", "f:1:9: error: byte 0xe9 is not UTF-8 text\nf:1:9: hint: save the file again as UTF-8"},
		{"cut UTF-8", "part: \xe2\x82", "f:1:7: error: byte 0xe2 is not UTF-8 text"},
		{"surrogate", "part: \xed\xa0\x80", "f:1:7: error: byte 0xed is not UTF-8 text"},
		{"UTF-16", "\xff\xfep\x00a\x00", "f:1:1: error: the text is UTF-16, wanted UTF-8"},
		{"UTF-16 turned", "\xfe\xff\x00p", "f:1:1: error: the text is UTF-16, wanted UTF-8"},
		{"size", "# " + strings.Repeat("x", MaxSize), "f: error: the description has more than 1048576 bytes"},
		{"structure", "a: [" + strings.Repeat("1,", maxStructure) + "]", "f: error: the description has 100002 marks of structure"},
		{"columns", "part: åäö\nplate: {thickness: å, material: S355}\n" + strings.Replace(rest, "\nplate: {thickness: 6, material: S355}", "", 1),
			"f:2:20: error: thickness: a value is wanted before \"å\""},
		{"columns in quotes", "part: a" + strings.Replace(rest, "6,", `"ä''", `, 1), ""},
		{"windows", "part: a\r\nplate: 5\r\nprocess: b\r\noutline: {disc: {diameter: 9 mm}}\r\n", "f:2:8: error: plate is \"5\""},
		{"old mac", "part: a\rplate: 5\rprocess: b\routline: {disc: {diameter: 9 mm}}\r", "f:2:8: error: plate is \"5\""},
		{"mark and column", "\ufeffpart: a\nplate: 5\nprocess: b\noutline: {disc: {diameter: 9 mm}}\n", "f:2:8: error: plate is \"5\""},
		{"folded value", "part: a" + strings.Replace(rest, "{diameter: 900}", "\n   {diameter: 900 +\n      oops}", 1), "f:7:7: error: diameter: unknown name \"oops\""},
		{"block value", "part: a\nlet:\n  x: |\n\n    1 +\n    oops\n" + rest, "f:6:5: error: x: unknown name \"oops\""},
		{"quoted lines", "part: a\nlet:\n  x: \"1 +\n    oops\"\n" + rest, "f:4:5: error: x: unknown name \"oops\""},
		{"joined lines", "part: a\nlet:\n  x: \"1 + \\\n    oops\"\n" + rest, "f:4:5: error: x: unknown name \"oops\""},
		{"many problems", manyKeys.String(), "f:1:1: error: unknown key \"nonsense0\" in the description"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Parse("f", []byte(c.text))
			if err == nil {
				t.Fatal("no error")
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("error is\n%v\nwanted\n%s", err, c.want)
			}
			if n := len(err.(diag.Problems)); n > maxProblems {
				t.Errorf("%d problems, wanted at most %d", n, maxProblems)
			}
		})
	}
}

// Names under let stand on each other in any order, however many.
func TestLetChain(t *testing.T) {
	chain := func(n int) string {
		var b strings.Builder
		b.WriteString("part: a\nunits: mm\nplate: {thickness: 6, material: S355}\nprocess: waterjet\noutline: {disc: {diameter: n0}}\nlet:\n")
		for i := range n {
			fmt.Fprintf(&b, "  n%d: n%d + 1\n", i, i+1)
		}
		fmt.Fprintf(&b, "  n%d: 1\n", n)
		return b.String()
	}
	if p := parse(t, chain(99)); p.Outline.Disc.Diameter.MM != 100 {
		t.Errorf("a chain of 99 gives %v", p.Outline.Disc.Diameter.MM)
	}
	_, err := Parse("f", []byte(chain(5000)))
	if err == nil || !strings.Contains(err.Error(), "stands on more than 100 others") {
		t.Errorf("a chain of 5000 gives %v", err)
	}
	if n := len(err.(diag.Problems)); n != 1 {
		t.Errorf("%d problems, wanted 1", n)
	}
}

// hostile are texts made to take memory or time. A reader that they hang shows
// by the test's own time limit.
func hostile() map[string]string {
	fill := func(s string) string { return strings.Repeat(s, MaxSize/len(s)) }
	return map[string]string{
		"spaces": fill(" "), "lines": fill("\n"), "comments": fill("#\n"), "comment": "#" + fill("x")[1:], "word": fill("x"),
		"words": fill("x "), "word lines": fill("x\n"), "keys": strings.Repeat("k: v\n", maxStructure/2-1),
		"quote": "\"" + fill("x")[1:], "quotes": fill("''"), "escapes": "a: \"" + strings.Repeat("\\x41", 1000),
		"brackets": strings.Repeat("[", maxStructure), "braces": strings.Repeat("{", maxStructure), "closers": fill("]"),
		"dashes": strings.Repeat("- ", maxStructure), "questions": strings.Repeat("? ", maxStructure), "colons": strings.Repeat(": ", maxStructure),
		"anchors": fill("&a "), "aliases": fill("*a "), "tags": fill("!a "), "directives": fill("%a\n"), "documents": strings.Repeat("---\n", maxStructure/4),
		"block": "a: |\n" + strings.Repeat(" \n", maxStructure-10), "wide": fill("é"), "list": "a: [" + strings.Repeat("1,", maxStructure-10) + "]",
		"deep blocks": func() string {
			var b strings.Builder
			for i := range 1000 {
				b.WriteString(strings.Repeat(" ", i) + "a:\n")
			}
			return b.String()
		}(),
		"holes":       "holes:\n" + strings.Repeat("  a: {at: [0, 0]}\n", 15000),
		"lets":        "let:\n" + strings.Repeat("  a: b + c\n", 15000),
		"nested":      "let: {a: \"" + strings.Repeat("(", 100_000) + "\"}\n",
		"corner":      "outline: {corners: [" + strings.Repeat("[a,b],", 25_000) + "]}\n",
		"keys in one": "plate: {" + strings.Repeat("x: 1, ", 30_000) + "}\n",
		"bomb":        "a: &a [x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n",
	}
}

func TestHostile(t *testing.T) {
	for name, text := range hostile() {
		p, err := Parse("f", []byte(text))
		if err == nil {
			t.Errorf("%s: no error, part %v", name, p)
			continue
		}
		if n := len(err.(diag.Problems)); n > maxProblems {
			t.Errorf("%s: %d problems, wanted at most %d", name, n, maxProblems)
		}
	}
}

// FuzzDescribe: any text ends in a part or in problems with places, never in a
// panic or a hang; a part prints as a text that reads back as the same values.
func FuzzDescribe(f *testing.F) {
	f.Add(axleTab)
	for _, o := range outlines {
		f.Add(everyKind + o + "\n")
	}
	f.Add(bentHead + "formed:\n  u: {inside width: 67.5 mm, legs: [3, 2-3/4], length: 80 mm}\nbends: {radius: 3/16, rule: k 0.42, grain: 30 deg}\nflanges:\n  left: {corners: [{radius: 1}, {chamfer: 1}], holes: {a: {at: [1, 1], bolt: 1/2}}}\nin line: [[a, a]]\n")
	f.Add(bentHead + "outline: {rectangle: {width: 4, height: 3}}\nrelief: {shape: round, width: 1/3}\nflanges:\n  a: {edge: left, height: 3, radius: 1, rule: deduction 8.4 mm, offset: [1/3, -1/3], taper: 5 deg, relief: {depth: 1}}\n")
	for _, s := range everyday {
		f.Add(s)
	}
	for _, s := range unusual {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<14 {
			return
		}
		p, err := Parse("fuzz", []byte(text))
		if err != nil {
			lines := 1 + strings.Count(text, "\n") + strings.Count(text, "\r")
			for _, q := range err.(diag.Problems) {
				if q.Pos.Line > lines || q.Pos.Line > 0 && (q.Pos.Col < 1 || q.Pos.Col > len(text)+1) {
					t.Errorf("%s lies outside the text", q.Pos)
				}
				if q.Message == "" || strings.ContainsAny(q.Message, "\n\r") {
					t.Errorf("message %q", q.Message)
				}
			}
			return
		}
		reprints(t, p)
	})
}
