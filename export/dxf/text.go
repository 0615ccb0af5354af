package dxf

import (
	"unicode"
	"unicode/utf8"
)

// A text value ends with its line, so a line break in a name would start a new
// group of the file. Only printable ASCII leaves this file as it is; nothing
// that a reader might turn back into a control character leaves it at all.
//
// DXF Reference (from memory): \U+XXXX stands for a character of the Basic
// Multilingual Plane, ^ begins a control character.

// plain reports whether the byte goes out as it is: printable ASCII but the two
// characters with which readers' escapes begin.
func plain(c byte) bool { return c >= ' ' && c <= '~' && c != '\\' && c != '^' }

// appendText appends s as one line of printable ASCII: letters beyond ASCII,
// backslash and caret as \U+XXXX, what cannot be printed as a space, what has
// no place in the Basic Multilingual Plane as a question mark.
func appendText(b []byte, s string) []byte {
	for i := 0; i < len(s); i++ {
		if !plain(s[i]) {
			b = append(b, s[:i]...)
			return appendHard(b, s[i:])
		}
	}
	return append(b, s...)
}

func appendHard(b []byte, s string) []byte {
	for _, r := range s {
		switch {
		case r < utf8.RuneSelf && plain(byte(r)):
			b = append(b, byte(r))
		case r == utf8.RuneError || r > 0xFFFF:
			b = append(b, '?')
		case !unicode.IsPrint(r):
			b = append(b, ' ')
		default:
			b = append(b, '\\', 'U', '+', hex[r>>12], hex[r>>8&15], hex[r>>4&15], hex[r&15])
		}
	}
	return b
}

const hex = "0123456789ABCDEF"

// lineWidth is the longest text that goes on one line of a comment, as written:
// R12 readers may stop at 255 characters.
const lineWidth = 200

// wrap cuts s where its text fills one line, at a space where there is one: the
// line and the rest.
func wrap(s string) (line, rest string) {
	width, space := 0, 0
	for i, r := range s {
		if r == ' ' && i > 0 {
			space = i
		}
		if r < utf8.RuneSelf && plain(byte(r)) {
			width++
		} else {
			width += len(`\U+0000`)
		}
		if width > lineWidth {
			if space > 0 {
				return s[:space], s[space+1:]
			}
			return s[:i], s[i:]
		}
	}
	return s, ""
}
