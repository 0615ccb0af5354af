package describe

import (
	"fmt"
	"strings"
	"testing"
)

// dump writes a tree with every place, to compare two readers.
func dump(n *node) string {
	var b strings.Builder
	var walk func(n *node, indent string)
	walk = func(n *node, indent string) {
		fmt.Fprintf(&b, "%s%d:%d kind %d style %d %q kids %d\n", indent, n.line, n.col, n.kind, n.style, n.text, n.kids)
		for k := n.first; k != nil; k = k.next {
			walk(k, indent+"  ")
		}
	}
	walk(n, "")
	return b.String()
}

// sameTree fails where the quick reader takes a text and the library refuses it
// or reads another tree.
func sameTree(t *testing.T, text string) (quick bool) {
	t.Helper()
	s, ascii, bad := screen("t", []byte(text))
	if bad != nil {
		return false
	}
	got, ok := readQuick(s, ascii)
	if !ok {
		return false
	}
	want, problems := readFull("t", s)
	if want == nil || len(problems) > 0 {
		t.Fatalf("the quick reader takes what the library refuses\n%q\n%v\n%s", text, problems, dump(got))
	}
	if g, w := dump(got), dump(want); g != w {
		t.Fatalf("trees differ for %q\nquick:\n%slibrary:\n%s", text, g, w)
	}
	return true
}

// Each text is of the everyday kind: the quick reader must take it itself.
var everyday = []string{
	"a: 1\n",
	"a: 1",
	"a: 1\r\nb: 2\r\n",
	"# head\n\na: 1   # tail\n  # odd place\nb:\n  c: 2\n\n  d: 3\ne: 4\n",
	"a:\n- 1\n- 2\nb:\n  - 1\n  - x: 1\n    y: 2\n  -\n    z: 3\n",
	"a: {b: 1, c: [1, 2, -3-3/4], d: {e: f g}}\n",
	"a: [\n  1, 2, # two\n\n  3,\n]\nb: 2\n",
	"a: \"x # y\"\nb: 'x: y'\n",
	"a: 1 3/4\"\nb: 2'-3\"\n",
	"link plate: {through: [a, [0, 1]]}\n",
	"a:\nb: 1\nc:\n  d:\n  e: 1\n",
	"a: \n  - b: [1, 2]\n    c: 3\n  - [1, 2]\n",
	"größe: äöü # ü\nb: {ä: ö, ü: 1}\n",
	"- a\n- b: 1\n",
	"  a: 1\n  b: 2\n",
	"drill: #7\nx: 1\n",
	"a: -drop\nb: {c: -d}\n",
	"a: x:y#z\n",
	"a: {b: 1 # one\n  , c: 2}\n",
	"a: {b:\n  1, c: 2}\n",
	"a: []\nb: {}\n",
	"a: [b\n]\n",
	"a:\n  b: {c: 1,\n   d: 2\n }\n",
}

// Each text is beyond the quick reader: it must leave it alone.
var unusual = []string{
	"", "# nothing\n", "text\n", "[1, 2]\n", "a: 1\n...\n", "---\na: 1\n", "%YAML 1.2\n---\na: 1\n",
	"a: |\n  x\n", "a: >\n  x\n", "a: b\n  c\n", "a: &x 1\n", "a: *x\n", "a: !x 1\n", "? a\n: b\n", "a: \"x\\n\"\n",
	"a: 'it''s'\n", "\"a\": 1\n", "a: {b}\n", "a: {b: }\n", "a: [b: 1]\n", "a: [1\n", "a: {b: 1\n", "a:\tb\n", "a: 1\rb: 2\n",
	"a: 1\n b: 2\n", "a: b: c\n", "- - a\n", "a:\n  b: [1,\n 2]\n", "a: {b: 1}}\n", "a: @x\n", "a: `x\n", "a: %x\n",
	strings.Repeat("[", 20), "a: " + strings.Repeat("[", 20) + strings.Repeat("]", 20) + "\n",
}

func TestQuickReaderTakesEverydayText(t *testing.T) {
	for _, text := range everyday {
		if !sameTree(t, text) {
			t.Errorf("the quick reader leaves %q to the library", text)
		}
	}
}

func TestQuickReaderLeavesUnusualText(t *testing.T) {
	for _, text := range unusual {
		if sameTree(t, text) {
			t.Errorf("the quick reader takes %q", text)
		}
	}
}

func TestQuickReaderOnEveryPrefix(t *testing.T) {
	for _, text := range everyday {
		for i := range text {
			sameTree(t, text[:i])
			sameTree(t, text[:i]+" "+text[i:])
			sameTree(t, text[:i]+"\n"+text[i:])
			sameTree(t, text[:i]+"#"+text[i:])
			sameTree(t, text[:i]+":"+text[i:])
			sameTree(t, text[:i]+"-"+text[i:])
			sameTree(t, text[:i]+"\""+text[i:])
			sameTree(t, text[:i]+text[i+1:])
		}
	}
}

// FuzzQuickReader holds the quick reader against the YAML library: whatever it
// takes, the library takes, with the same tree and the same places.
func FuzzQuickReader(f *testing.F) {
	for _, text := range everyday {
		f.Add(text)
	}
	for _, text := range unusual {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 4096 {
			return
		}
		sameTree(t, text)
	})
}
