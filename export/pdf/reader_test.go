package pdf_test

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"blankwright/flat/geom"
)

// A small, strict reader of the PDF files that this package writes: it takes
// nothing that they have no need of.

// document is a file taken apart.
type document struct {
	objects []string // bodies by number, from 1
	streams map[int]string
}

var (
	objectHead = regexp.MustCompile(`^(\d+) 0 obj\n`)
	lengthKey  = regexp.MustCompile(`/Length (\d+)>>stream\n`)
	xrefLine   = regexp.MustCompile(`^(\d{10}) 00000 n \n$`)
	trailerEnd = regexp.MustCompile(`^trailer\n<</Size (\d+)/Root 1 0 R/Info 3 0 R/ID\[<([0-9a-f]{32})><([0-9a-f]{32})>\]>>\nstartxref\n(\d+)\n%%EOF\n$`)
)

// readPDF checks the frame of a file: header, objects in order without anything
// between them, the table of their places, the lengths of streams, the trailer.
func readPDF(file []byte) (*document, error) {
	rest := string(file)
	const head = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"
	if !strings.HasPrefix(rest, head) {
		return nil, fmt.Errorf("begins with %.20q", rest)
	}
	at := len(head)
	d := &document{streams: map[int]string{}}
	var places []int
	for {
		m := objectHead.FindStringSubmatch(rest[at:])
		if m == nil {
			break
		}
		if n, _ := strconv.Atoi(m[1]); n != len(d.objects)+1 {
			return nil, fmt.Errorf("object %s comes as number %d", m[1], len(d.objects)+1)
		}
		places = append(places, at)
		at += len(m[0])
		body := rest[at:]
		end := strings.Index(body, "\nendobj\n")
		head := body[:max(0, end)]
		if i := strings.Index(head, "stream\n"); i >= 0 {
			head = head[:i+len("stream\n")]
		}
		if l := lengthKey.FindStringSubmatchIndex(head); l != nil {
			n, _ := strconv.Atoi(body[l[2]:l[3]])
			stream := l[1] + n
			if !strings.HasPrefix(body[min(stream, len(body)):], "\nendstream\nendobj\n") {
				return nil, fmt.Errorf("object %d: its stream is not %d bytes long", len(places), n)
			}
			d.streams[len(places)] = body[l[1]:stream]
			end = stream + len("\nendstream")
		}
		if end < 0 {
			return nil, fmt.Errorf("object %d does not end", len(places))
		}
		d.objects = append(d.objects, body[:end])
		at += end + len("\nendobj\n")
	}
	table := at
	want := fmt.Sprintf("xref\n0 %d\n0000000000 65535 f \n", len(places)+1)
	if !strings.HasPrefix(rest[at:], want) {
		return nil, fmt.Errorf("after %d objects comes %.40q", len(places), rest[at:])
	}
	at += len(want)
	for i, p := range places {
		m := xrefLine.FindStringSubmatch(rest[at:min(at+20, len(rest))])
		if m == nil {
			return nil, fmt.Errorf("line %d of the table is %.20q", i+1, rest[at:])
		}
		if n, _ := strconv.Atoi(m[1]); n != p {
			return nil, fmt.Errorf("object %d is said to be at %d, and is at %d", i+1, n, p)
		}
		at += 20
	}
	m := trailerEnd.FindStringSubmatch(rest[at:])
	if m == nil || m[1] != strconv.Itoa(len(places)+1) || m[2] != m[3] || m[4] != strconv.Itoa(table) {
		return nil, fmt.Errorf("the file ends with %q", rest[at:])
	}
	return d, nil
}

// pages gives the numbers of the pages' contents and their boxes, in order.
func (d *document) pages() (contents []int, boxes []string) {
	page := regexp.MustCompile(`^<</Type/Page/Parent 2 0 R/MediaBox\[0 0 ([\d.]+ [\d.]+)\]/Contents (\d+) 0 R>>$`)
	for _, body := range d.objects {
		if m := page.FindStringSubmatch(body); m != nil {
			n, _ := strconv.Atoi(m[2])
			contents = append(contents, n)
			boxes = append(boxes, m[1])
		}
	}
	return contents, boxes
}

// op is one operator of a content stream with what stands before it.
type op struct {
	name string
	args []float64
	text string // of a string
}

// operators are all that contents may have, with their count of numbers.
var operators = map[string]int{
	"q": 0, "Q": 0, "cm": 6, "Do": 0, "w": 1, "d": -1, "j": 1, "g": 1,
	"m": 2, "l": 2, "c": 6, "h": 0, "S": 0, "B": 0, "f": 0,
	"BT": 0, "ET": 0, "Tf": 1, "Tm": 6, "Tj": 0,
}

// isNumber reports whether a word is a number as it is written here: digits,
// perhaps a sign before them and a point between them, no needless zeros behind.
func isNumber(s string) bool {
	s = strings.TrimPrefix(s, "-")
	whole, part, point := strings.Cut(s, ".")
	digits := func(s string) bool {
		for i := 0; i < len(s); i++ {
			if s[i] < '0' || s[i] > '9' {
				return false
			}
		}
		return s != ""
	}
	return digits(whole) && (!point || digits(part) && part[len(part)-1] != '0')
}

// readContent takes a content stream apart. It fails on anything that is not
// known, on numbers that are written in another way, and on operators out of
// their place: texts within BT and ET alone, paths begun before they go on and
// painted before anything else comes.
func readContent(s string) (ops []op, err error) {
	var args []float64
	text, hasText := "", false
	name, array := "", false
	inText, inPath := false, false
	for i := 0; i < len(s); {
		switch c := s[i]; {
		case c == ' ' || c == '\n':
			i++
			continue
		case c == '(':
			t, n, err := readLiteral(s[i:])
			if err != nil {
				return nil, err
			}
			text, hasText = t, true
			i += n
			continue
		case c == '[' || c == ']':
			array = true
			i++
			continue
		}
		j := i
		for j < len(s) && !strings.ContainsRune(" \n()[]<>", rune(s[j])) {
			j++
		}
		if j == i {
			return nil, fmt.Errorf("%q has no place in a content", s[i])
		}
		word := s[i:j]
		i = j
		if word[0] == '/' {
			name = word
			continue
		}
		if n, known := operators[word]; known {
			if n >= 0 && len(args) != n || word == "d" && (!array || len(args) != 1 && len(args) != 5) {
				return nil, fmt.Errorf("%s has %d numbers", word, len(args))
			}
			if (word == "Tj") != hasText || (word == "Do" || word == "Tf") != (name != "") || (word == "d") != array {
				return nil, fmt.Errorf("%s comes with the wrong things before it", word)
			}
			switch word {
			case "BT":
				if inText || inPath {
					return nil, fmt.Errorf("BT within something else")
				}
				inText = true
			case "ET":
				inText = false
			case "Tf", "Tm", "Tj":
				if !inText {
					return nil, fmt.Errorf("%s outside of a text", word)
				}
			case "m":
				inPath = true
			case "l", "c", "h", "S", "B", "f":
				if !inPath || inText {
					return nil, fmt.Errorf("%s without a path", word)
				}
				inPath = word == "l" || word == "c" || word == "h"
			default:
				if inPath {
					return nil, fmt.Errorf("%s within a path", word)
				}
			}
			if word == "Tf" || word == "Do" {
				text = name
			}
			ops = append(ops, op{word, args, text})
			args, text, name, hasText, array = nil, "", "", false, false
			continue
		}
		v, err := strconv.ParseFloat(word, 64)
		if err != nil || !isNumber(word) || word == "-0" {
			return nil, fmt.Errorf("%q is neither number nor operator", word)
		}
		args = append(args, v)
	}
	if inText || inPath || len(args) > 0 {
		return nil, fmt.Errorf("the content ends in the middle of something")
	}
	return ops, nil
}

// readLiteral reads a string in parentheses and gives its length in the file.
func readLiteral(s string) (text string, n int, err error) {
	var b strings.Builder
	for i := 1; i < len(s); i++ {
		switch c := s[i]; {
		case c == ')':
			return b.String(), i + 1, nil
		case c == '(' || c < ' ' || c > '~':
			return "", 0, fmt.Errorf("%q in a string is not escaped", c)
		case c == '\\':
			i++
			if i+2 < len(s) && s[i] >= '0' && s[i] <= '3' {
				v, err := strconv.ParseUint(s[i:i+3], 8, 8)
				if err != nil {
					return "", 0, err
				}
				b.WriteByte(byte(v))
				i += 2
				continue
			}
			if i >= len(s) || !strings.ContainsRune(`()\`, rune(s[i])) {
				return "", 0, fmt.Errorf("backslash before nothing known")
			}
			b.WriteByte(s[i])
		default:
			b.WriteByte(c)
		}
	}
	return "", 0, fmt.Errorf("a string does not end")
}

// readTitle gives a text of the info dictionary.
func (d *document) info(t *testing.T, key string) string {
	t.Helper()
	i := strings.Index(d.objects[2], "/"+key)
	if i < 0 {
		t.Fatalf("no %s in the info", key)
	}
	s := d.objects[2][i+1+len(key):]
	if s[0] == '(' {
		text, _, err := readLiteral(s)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	hex := strings.TrimPrefix(s[:strings.IndexByte(s, '>')], "<FEFF")
	var units []uint16
	for i := 0; i+4 <= len(hex); i += 4 {
		v, err := strconv.ParseUint(hex[i:i+4], 16, 16)
		if err != nil {
			t.Fatal(err)
		}
		units = append(units, uint16(v))
	}
	return string(utf16.Decode(units))
}

// curve is a piece of a path: a line where both handles are its ends.
type curve [4]geom.Point

// at is a point of the curve.
func (c curve) at(t float64) geom.Point {
	u := 1 - t
	return c[0].Mul(u * u * u).Add(c[1].Mul(3 * u * u * t)).Add(c[2].Mul(3 * u * t * t)).Add(c[3].Mul(t * t * t))
}

// curves gives the pieces of the paths of all operators.
func curves(ops []op) (all []curve) {
	var start, at geom.Point
	for _, o := range ops {
		a := o.args
		p := func(i int) geom.Point { return geom.Point{X: a[i], Y: a[i+1]} }
		switch o.name {
		case "m":
			start, at = p(0), p(0)
		case "l":
			all = append(all, curve{at, at, p(0), p(0)})
			at = p(0)
		case "c":
			all = append(all, curve{at, p(0), p(2), p(4)})
			at = p(4)
		case "h":
			if at != start {
				all = append(all, curve{at, at, start, start})
			}
			at = start
		}
	}
	return all
}

// The reader sees what must not be there.
func TestReaderSees(t *testing.T) {
	for _, bad := range []string{
		"1 2 l S", "BT (a(b) Tj ET", "BT (a\nb) Tj ET", "(a) Tj", "1 0 0 1 0 0 Tm", "1 2 m 3 4 l", "/JavaScript gs", "1e5 w", "-0 w", "0.10 w",
		"NaN w", "BT ET ET Tj", "<414243> Tj", "BT (abc\\q) Tj ET", "BT (abc", "1 2 m BT ET", "0 0 0 rg", "BI",
	} {
		if ops, err := readContent(bad); err == nil {
			t.Errorf("%q passed as %v", bad, ops)
		}
	}
	good := "1 j\n2.5 0 0 2.5 0 0 cm\n[2 0.8 2 0.8] 0 d\n1 2 m\n3 -4.5 l\n1 2 3 4 5 6 c\nh\nS\n[] 0 d\nBT /F1 4.2 Tf\n1 0 0 1 5 6 Tm (a\\)b\\\\\\344) Tj\nET\nq 1 0 0 1 3 4 cm /B0 Do Q\n"
	if _, err := readContent(good); err != nil {
		t.Errorf("a good content fails: %v", err)
	}
	for _, bad := range [][]byte{nil, []byte("%PDF-1.7\n"), bytes.Repeat([]byte("1 0 obj\n"), 3)} {
		if _, err := readPDF(bad); err == nil {
			t.Errorf("%q passed", bad)
		}
	}
}
