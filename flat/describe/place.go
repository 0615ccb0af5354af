package describe

import (
	"strings"
	"unicode/utf8"

	"blankwright/flat/diag"
)

// inside gives the place in the file of the character at offset (from 0) of a
// scalar's text, whether the scalar is plain, quoted with escapes, or runs over
// several lines.
func (r *reader) inside(n *node, offset int) diag.Pos {
	p := r.pos(n)
	if offset <= 0 && n.style == plainStyle {
		return p
	}
	w := walker{style: n.style, line: p.Line, col: p.Col}
	w.rest = afterCol(restFrom(r.text, p.Line), p.Col)
	switch n.style {
	case singleStyle, doubleStyle:
		w.skip(1)
	case blockStyle:
		w.enterBlock()
	}
	w.joinLines()
	for i := 0; i < offset && w.rest != ""; i++ {
		w.step()
		w.joinLines()
	}
	p.Line, p.Col = w.line, w.col
	return p
}

// restFrom gives the text from a line (from 1) on.
func restFrom(s string, line int) string {
	for ; line > 1; line-- {
		n := endLength(s)
		for n == 0 && s != "" {
			s = s[1:]
			n = endLength(s)
		}
		s = s[n:]
	}
	return s
}

// endLength is the length of the line end that s begins with, or 0.
func endLength(s string) int {
	switch {
	case strings.HasPrefix(s, "\r\n"):
		return 2
	case strings.HasPrefix(s, "\n"), strings.HasPrefix(s, "\r"):
		return 1
	}
	return 0
}

// walker steps through the source of a scalar, one character of its value at a
// time.
type walker struct {
	style     style
	rest      string
	line, col int
}

// skip passes n characters of the source on one line.
func (w *walker) skip(n int) {
	for ; n > 0 && w.rest != ""; n-- {
		_, size := utf8.DecodeRuneInString(w.rest)
		w.rest = w.rest[size:]
		w.col++
	}
}

// newLine passes a line end and the blanks that begin the next line.
func (w *walker) newLine() {
	w.rest = w.rest[endLength(w.rest):]
	w.line, w.col = w.line+1, 1
	w.blanks()
}

func (w *walker) blanks() {
	for w.rest != "" && (w.rest[0] == ' ' || w.rest[0] == '\t') {
		w.skip(1)
	}
}

// enterBlock goes from the | or > to the first line of the text.
func (w *walker) enterBlock() {
	for w.rest != "" && endLength(w.rest) == 0 {
		w.skip(1)
	}
	w.newLine()
}

// step passes the source of one character of the value.
func (w *walker) step() {
	switch {
	case endLength(w.rest) > 0:
		w.newLine()
	case w.style == singleStyle && strings.HasPrefix(w.rest, "''"):
		w.skip(2)
	case w.style == doubleStyle && w.rest[0] == '\\':
		w.escape()
	case w.style != blockStyle && w.foldsHere():
		w.blanks()
		w.newLine()
	default:
		w.skip(1)
	}
}

// foldsHere reports whether nothing but blanks stands before the line's end:
// blanks and line end make one character then.
func (w *walker) foldsHere() bool {
	if w.rest[0] != ' ' && w.rest[0] != '\t' {
		return false
	}
	return endLength(strings.TrimLeft(w.rest, " \t")) > 0
}

// joinLines passes line ends that a backslash takes away: they make no
// character.
func (w *walker) joinLines() {
	for w.style == doubleStyle && strings.HasPrefix(w.rest, "\\") && endLength(w.rest[1:]) > 0 {
		w.skip(1)
		w.newLine()
	}
}

// escape passes a backslash and what it makes: one character.
func (w *walker) escape() {
	w.skip(1)
	long := 1
	if w.rest != "" {
		switch w.rest[0] {
		case 'x':
			long = 3
		case 'u':
			long = 5
		case 'U':
			long = 9
		}
	}
	w.skip(long)
}
