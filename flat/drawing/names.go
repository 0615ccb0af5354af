package drawing

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// names numbers names from 0 in the order met. Case does not count, as in all
// names of a drawing.
type names struct {
	byName map[string]int32 // as written, and in capitals
	list   []string
}

// id gives the number of a name, a new one where it is not known yet.
func (n *names) id(name []byte) int32 {
	if id, ok := n.byName[string(name)]; ok {
		return id
	}
	if n.byName == nil {
		n.byName = map[string]int32{}
	}
	key := strings.ToUpper(string(name))
	id, ok := n.byName[key]
	if !ok {
		id = int32(len(n.list))
		n.list = append(n.list, string(name))
		n.byName[key] = id
	}
	n.byName[string(name)] = id
	return id
}

// longestName is how many characters of a name are kept.
const longestName = 255

// decodeText turns a text of the file into text for people: \U+XXXX is a
// character of the Basic Multilingual Plane; bytes that are no UTF-8 are taken
// as Latin-1, which all Western code pages share but for a few signs. What does
// not print becomes a space.
func decodeText(b []byte) string {
	var out strings.Builder
	for n := 0; len(b) > 0 && n < longestName; n++ {
		r, size := decodeRune(b)
		if !unicode.IsPrint(r) {
			r = ' '
		}
		out.WriteRune(r)
		b = b[size:]
	}
	return out.String()
}

func decodeRune(b []byte) (rune, int) {
	if r, ok := escaped(b); ok {
		return r, len(`\U+XXXX`)
	}
	r, size := utf8.DecodeRune(b)
	if r == utf8.RuneError && size == 1 {
		r = rune(b[0])
	}
	return r, size
}

// escaped reads \U+XXXX.
func escaped(b []byte) (rune, bool) {
	if len(b) < 7 || b[0] != '\\' || b[1] != 'U' || b[2] != '+' {
		return 0, false
	}
	var r rune
	for _, c := range b[3:7] {
		switch {
		case c >= '0' && c <= '9':
			c -= '0'
		case c >= 'A' && c <= 'F':
			c -= 'A' - 10
		case c >= 'a' && c <= 'f':
			c -= 'a' - 10
		default:
			return 0, false
		}
		r = r<<4 | rune(c)
	}
	return r, true
}
