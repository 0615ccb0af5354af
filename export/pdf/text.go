package pdf

import (
	"slices"
	"unicode/utf16"
	"unicode/utf8"

	"blankwright/export/paper"
	"blankwright/flat/geom"
)

// Advance widths of WinAnsi characters from space (32) on, in thousandths of the
// font size: those that Adobe published in the Core 14 AFM files for Helvetica
// and Helvetica-Bold. Codes that stand for nothing have the bullet's.
var (
	plainWidths = [224]uint16{
		278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
		556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
		1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
		667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
		333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
		556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584, 350,
		556, 350, 222, 556, 333, 1000, 556, 556, 333, 1000, 667, 333, 1000, 350, 611, 350,
		350, 222, 222, 333, 333, 350, 556, 1000, 333, 1000, 500, 333, 944, 350, 500, 667,
		278, 333, 556, 556, 556, 556, 260, 556, 333, 737, 370, 556, 584, 333, 737, 333,
		400, 584, 333, 333, 333, 556, 537, 278, 333, 333, 365, 556, 834, 834, 834, 611,
		667, 667, 667, 667, 667, 667, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278,
		722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611,
		556, 556, 556, 556, 556, 556, 889, 500, 556, 556, 556, 556, 278, 278, 278, 278,
		556, 556, 556, 556, 556, 556, 556, 584, 611, 556, 556, 556, 556, 500, 556, 500,
	}
	boldWidths = [224]uint16{
		278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
		556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
		975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
		667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
		333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
		611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584, 350,
		556, 350, 278, 556, 500, 1000, 556, 556, 333, 1000, 667, 333, 1000, 350, 611, 350,
		350, 278, 278, 500, 500, 350, 556, 1000, 333, 1000, 556, 333, 944, 350, 500, 667,
		278, 333, 556, 556, 556, 556, 280, 556, 333, 737, 370, 556, 584, 333, 737, 333,
		400, 584, 333, 333, 333, 611, 556, 278, 333, 333, 365, 556, 834, 834, 834, 611,
		722, 722, 722, 722, 722, 722, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278,
		722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611,
		556, 556, 556, 556, 556, 556, 889, 556, 556, 556, 556, 556, 278, 278, 278, 278,
		611, 611, 611, 611, 611, 611, 611, 584, 611, 611, 611, 611, 611, 556, 611, 556,
	}
)

// winAnsi are the characters of the codes 128 to 159 (ISO 32000-1:2008, Annex
// D.2); the others from 32 to 255 are those of Latin-1. 0 stands for none.
var winAnsi = [32]rune{
	'€', 0, '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', 0, 'Ž', 0,
	0, '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', 0, 'ž', 'Ÿ',
}

// alike are characters that WinAnsi does not have, with what says the same.
var alike = map[rune]string{
	'⌀': "Ø", '∅': "Ø", '−': "-", '‐': "-", '‑': "-", '‒': "-", '―': "—", '≤': "<=", '≥': ">=", '≈': "~",
	'′': "'", '″': "\"", '→': "->", '←': "<-", '∙': "·", '⋅': "·", '⁄': "/", '∕': "/", '\u2009': " ", '\u202f': " ", '\u2007': " ",
	'⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", 'μ': "µ", '☓': "x", '✕': "x",
}

// code is a character's place in WinAnsi, 0 where it has none.
func code(r rune) byte {
	switch {
	case r >= ' ' && r <= '~', r >= 0xa0 && r <= 0xff:
		return byte(r)
	case r > 0xff:
		if i := slices.Index(winAnsi[:], r); i >= 0 {
			return byte(128 + i)
		}
	}
	return 0
}

// texts writes lines of words in one face.
func (c *content) texts(f paper.Font, ts []paper.Text) {
	if f.White {
		c.add("1 g\n")
	}
	widths := &plainWidths
	if f.Bold {
		widths = &boldWidths
		c.add("BT /F2 ")
	} else {
		c.add("BT /F1 ")
	}
	c.out = appendFixed(c.out, int64(f.Size*1e4+0.5))
	c.add(" Tf\n")
	for i := range ts {
		c.line(&ts[i], f.Size, widths)
	}
	c.add("ET\n")
	if f.White {
		c.add("0 g\n")
	}
}

// line writes one line of words at its place. The words are written first, to
// know their width, and then put behind the place.
func (c *content) line(t *paper.Text, size float64, widths *[224]uint16) {
	var buf [256]byte
	words := c.encode(buf[:0], t.S)
	back := 0.0
	if t.Anchor != paper.Start {
		sum := 0
		for _, b := range words {
			sum += int(widths[b-' '])
		}
		back = float64(sum) * size / 1000
		if t.Anchor == paper.Middle {
			back /= 2
		}
	}
	at := t.At
	if t.Up {
		at = at.Sub(geom.Point{Y: back})
		c.add("0 1 -1 0 ")
	} else {
		at = at.Sub(geom.Point{X: back})
		c.add("1 0 0 1 ")
	}
	c.point(placeOf(at))
	c.add("Tm ")
	c.out = appendLiteral(c.out, words)
	c.add(" Tj\n")
}

// encode gives a text in WinAnsi and notes the characters that are not in it.
func (c *content) encode(b []byte, s string) []byte {
	for i := 0; i < len(s); {
		if s[i] >= ' ' && s[i] <= '~' {
			b = append(b, s[i])
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		i += n
		if k := code(r); k != 0 {
			b = append(b, k)
			continue
		}
		if other, ok := alike[r]; ok {
			for _, q := range other {
				b = append(b, code(q))
			}
			continue
		}
		b = append(b, '?')
		if !slices.Contains(c.lost, r) {
			c.lost = append(c.lost, r)
		}
	}
	return b
}

// appendLiteral writes a string in parentheses (ISO 32000-1:2008, 7.3.4.2):
// parentheses and backslashes behind a backslash, whatever is not printable
// ASCII as three octal digits.
func appendLiteral(b, s []byte) []byte {
	b = append(b, '(')
	for _, v := range s {
		switch {
		case v == '(' || v == ')' || v == '\\':
			b = append(b, '\\', v)
		case v < ' ' || v > '~':
			b = append(b, '\\', '0'+v>>6, '0'+v>>3&7, '0'+v&7)
		default:
			b = append(b, v)
		}
	}
	return append(b, ')')
}

// appendString writes a text that is not drawn: as it is where it is plain
// ASCII, else in UTF-16 with its mark (ISO 32000-1:2008, 7.9.2.2).
func appendString(b []byte, s string) []byte {
	plain := true
	for i := 0; i < len(s); i++ {
		plain = plain && s[i] >= ' ' && s[i] <= '~'
	}
	if plain {
		return appendLiteral(b, []byte(s))
	}
	const digits = "0123456789ABCDEF"
	b = append(b, "<FEFF"...)
	for _, u := range utf16.Encode([]rune(s)) {
		b = append(b, digits[u>>12], digits[u>>8&15], digits[u>>4&15], digits[u&15])
	}
	return append(b, '>')
}
