package describe

import (
	"fmt"
	"unicode/utf8"

	"blankwright/flat/diag"
)

// Limits that keep a hostile or mistaken file from taking memory or time. They
// lie far above what a part needs: a plate of a thousand single holes has
// about 60 kB and 8,000 marks of structure.
const (
	// MaxSize is the most bytes that a description may have.
	MaxSize      = 1 << 20
	maxStructure = 100_000 // signs and line ends that can begin a key, a value or a list item
	maxDepth     = 16      // mappings and lists inside each other
	maxProblems  = 200     // problems told of one file
	maxHoles     = 10_000  // holes of a part, patterns and mirroring counted out
	maxCount     = 1_000   // holes in a row, on a circle, columns or rows of a grid
	maxCopies    = 100_000 // quantity
	maxWord      = 200     // characters of a name, a material, a mark, a reason
	maxName      = 60      // characters of a hole's or a let name
)

// Classes of bytes for screen.
const (
	byteBad       = iota // never in a description
	bytePlain            // nothing special
	byteStructure        // may begin a node
	byteWide             // part of a character of more than one byte
)

var byteClass = func() (t [256]uint8) {
	for c := 0x20; c < 0x7f; c++ {
		t[c] = bytePlain
	}
	for c := 0x80; c < 0x100; c++ {
		t[c] = byteWide
	}
	t['\t'], t['\r'] = bytePlain, bytePlain
	for _, c := range "\n,:[{-?&*!" {
		t[c] = byteStructure
	}
	return t
}()

const byteOrderMark = "\ufeff"

// screen looks at the text as characters only: size, encoding, control
// characters. It gives the text without a byte order mark at its head, whether
// all of it is ASCII, and the first problem, if any.
func screen(file string, text []byte) (s string, ascii bool, bad *diag.Problem) {
	if len(text) > MaxSize {
		return "", false, &diag.Problem{
			Pos:     diag.Pos{File: file},
			Message: fmt.Sprintf("the description has more than %d bytes", MaxSize),
			Hint:    "is this the right file? a plate of a thousand single holes needs about 60,000",
		}
	}
	s = string(text)
	if len(s) >= 2 && (s[:2] == "\xff\xfe" || s[:2] == "\xfe\xff") {
		return "", false, &diag.Problem{
			Pos:     diag.Pos{File: file, Line: 1, Col: 1},
			Message: "the text is UTF-16, wanted UTF-8",
			Hint:    "save the file again as UTF-8",
		}
	}
	if len(s) >= len(byteOrderMark) && s[:len(byteOrderMark)] == byteOrderMark {
		s = s[len(byteOrderMark):]
	}
	ascii = true
	structure := 0
	for i := 0; i < len(s); {
		switch byteClass[s[i]] {
		case bytePlain:
			i++
			continue
		case byteStructure:
			structure++
			i++
			continue
		case byteWide:
			ascii = false
			r, n := utf8.DecodeRuneInString(s[i:])
			if r == utf8.RuneError && n == 1 {
				return "", false, badText(file, s, i, fmt.Sprintf("byte 0x%02x is not UTF-8 text", s[i]), "save the file again as UTF-8")
			}
			if !forbidden(r) {
				i += n
				continue
			}
			return "", false, badText(file, s, i, fmt.Sprintf("character U+%04X has no place in a description", r), "delete it; it may not show in the editor")
		}
		if s[i] == 0 {
			return "", false, badText(file, s, i, "this is not a text file: it holds a NUL byte", "save it again as UTF-8 text")
		}
		return "", false, badText(file, s, i, fmt.Sprintf("this is not a text file: it holds the control character U+%04X", s[i]), "save it again as plain text, or delete the character: it may not show in the editor")
	}
	if structure > maxStructure {
		return "", false, &diag.Problem{
			Pos:     diag.Pos{File: file},
			Message: fmt.Sprintf("the description has %d marks of structure (commas, colons, dashes, brackets, lines), at most %d are read", structure, maxStructure),
			Hint:    "use row, grid or circle for holes that repeat",
		}
	}
	return s, ascii, nil
}

// forbidden tells characters that a description never holds: C1 controls (one
// of them ends a line for some readers), line and paragraph separators, byte
// order marks inside the text, the signs that turn the reading direction
// (they can make a line show otherwise than it reads), and non-characters.
func forbidden(r rune) bool {
	switch {
	case r >= 0x80 && r < 0xa0:
		return true
	case r == 0x2028, r == 0x2029, r == 0xfeff:
		return true
	case r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
		return true
	case r&0xfffe == 0xfffe:
		return true
	}
	return false
}

func badText(file, s string, i int, message, hint string) *diag.Problem {
	line, bol := 1, 0
	for k := 0; k < i; k++ {
		if s[k] == '\n' {
			line, bol = line+1, k+1
		}
	}
	return &diag.Problem{
		Pos:     diag.Pos{File: file, Line: line, Col: 1 + utf8.RuneCountInString(s[bol:i])},
		Message: message,
		Hint:    hint,
	}
}
