package paper

import (
	"strings"
	"unicode"
)

// Widths of the printable ASCII characters, from space to tilde, in thousandths
// of the font size: the advance widths that Adobe published in the Core 14 AFM
// files for Helvetica and Helvetica-Bold (C 32 to C 126 in AFM order, with the
// straight quote and the grave accent of the ISO Latin 1 encoding). Fonts made
// to replace Helvetica have the same.
var (
	plainWidths = [95]uint16{
		278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
		556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
		1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
		667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
		333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
		556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
	}
	boldWidths = [95]uint16{
		278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
		556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
		975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
		667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
		333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
		611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
	}
)

const (
	// latinWidth is taken for a letter beyond ASCII in the Latin, Greek and
	// Cyrillic blocks: one em, as wide as the widest of them (AE and OE).
	latinWidth = 1000
	// wideWidth is taken for every other character. Ideographs fill one em;
	// pictographs in common fonts reach 1.25 em.
	wideWidth = 1250
	// spare widens every estimate: viewers may pick another font of the same
	// kind, whose digits and small letters differ by a few per cent.
	spare = 1.05
	// The tallest capital, accents set aside, and the deepest tail as parts of
	// the font size (Helvetica AFM: CapHeight 718, Descender -207).
	capHeight = 0.72
	descent   = 0.21
)

// Width is the width in mm that text s takes in a style, on the generous side.
func Width(s string, st Style) float64 {
	t := &plainWidths
	if styles[st].Bold {
		t = &boldWidths
	}
	sum := 0
	for _, r := range s {
		switch {
		case r >= ' ' && r <= '~':
			sum += int(t[r-' '])
		case r < 0x0530:
			sum += latinWidth
		default:
			sum += wideWidth
		}
	}
	return float64(sum) * styles[st].Size * (spare / 1000)
}

// longest is how many bytes of a text are looked at: more than a sheet holds.
const longest = 2000

// clean makes foreign text fit for one line of a drawing: line breaks, tabs,
// control and direction characters become spaces, bytes that are no text become
// the replacement character, spaces at the ends go, and what is far too long is
// cut.
func clean(s string) string {
	if len(s) > longest {
		s = s[:longest] + "..."
	}
	plain := true
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' || s[i] > '~' {
			plain = false
			break
		}
	}
	if !plain {
		s = strings.Map(func(r rune) rune {
			if unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Cn) {
				return ' '
			}
			return r
		}, strings.ToValidUTF8(s, "\uFFFD"))
	}
	return strings.TrimSpace(s)
}

// fit shortens s with three dots so that it is no wider than w mm.
func fit(s string, st Style, w float64) string {
	if len(s) < 1<<10 && Width(s, st) <= w {
		return s
	}
	const dots = "..."
	room := w - Width(dots, st)
	used := 0.0
	for i, r := range s {
		used += Width(string(r), st)
		if used > room {
			return strings.TrimRight(s[:i], " ") + dots
		}
	}
	return s
}

// wrap breaks s at spaces into lines no wider than w mm. A word wider than a
// line is broken; past max lines the last one ends in three dots.
func wrap(s string, st Style, w float64, max int) []string {
	if len(s) < 1<<10 && Width(s, st) <= w {
		return []string{s}
	}
	var lines []string
	for s != "" {
		if len(lines) == max-1 {
			return append(lines, fit(s, st, w))
		}
		n := lineEnd(s, st, w)
		lines = append(lines, strings.TrimRight(s[:n], " "))
		s = strings.TrimLeft(s[n:], " ")
	}
	return lines
}

// lineEnd is how many bytes of s go on a line of w mm: up to the last space
// that fits, else as many characters as fit, at least one.
func lineEnd(s string, st Style, w float64) int {
	used, space := 0.0, 0
	for i, r := range s {
		used += Width(string(r), st)
		if used > w && r != ' ' && i > 0 {
			if space > 0 {
				return space
			}
			return i
		}
		if r == ' ' {
			space = i + 1
		}
	}
	return len(s)
}

// Fit makes foreign text fit for one line of w mm in a style: what cannot be
// printed becomes a space, what is too long ends in three dots.
func Fit(s string, st Style, w float64) string { return fit(clean(s), st, w) }
