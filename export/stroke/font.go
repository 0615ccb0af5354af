// Package stroke writes part marks in single strokes: lines and true arcs that a
// marker, a scribe or a pulse can follow, in letters of our own design. It also
// finds the place on a blank where a mark is clear of everything that is cut.
//
// Unit: mm; y up. The letters are A to Z, 0 to 9, hyphen, point, slash, plus and
// space; small letters are written as capitals.
package stroke

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blankwright/flat/geom"
)

// Glyphs are drawn on a grid on which a capital is capHeight high.
const (
	capHeight = 6.0
	// gap is the open width between two letters, a good third of their height, so
	// that a wide line does not close it (common practice).
	gap = 1.75
	// spaceWidth is how wide a space is, without the gaps at its sides.
	spaceWidth = 1.5
)

// quarter is the bulge of a quarter turn.
var quarter = math.Tan(math.Pi / 8)

// drawn holds the letters as they are written down. Points are x,y on the grid,
// joined in order; what stands before a point says how it is reached: nothing
// for a line, ( and ) for a quarter turn to the left and right, { and } for half
// a turn. A bar lifts the marker.
var drawn = map[byte]string{
	'A': "0,0 2,6 4,0|0.5,1.5 3.5,1.5",
	'B': "2.5,3 0,3 0,6 2.5,6 }2.5,3 }2.5,0 0,0 0,3",
	'C': "4,4 (2,6 (0,4 0,2 (2,0 (4,2",
	'D': "0,0 0,6 2,6 )4,4 4,2 )2,0 0,0",
	'E': "4,0 0,0 0,6 4,6|0,3 3,3",
	'F': "0,0 0,6 4,6|0,3 3,3",
	'G': "4,4 (2,6 (0,4 0,2 (2,0 (4,2 4,3 2,3",
	'H': "0,0 0,6|0,3 4,3|4,6 4,0",
	'I': "0,0 2,0|1,0 1,6|0,6 2,6",
	'J': "0,2 (2,0 (4,2 4,6",
	'K': "0,0 0,6|4,6 0,2|1,3 4,0",
	'L': "0,6 0,0 4,0",
	'M': "0,0 0,6 2,3 4,6 4,0",
	'N': "0,0 0,6 4,0 4,6",
	'O': "2,0 (4,2 4,4 (2,6 (0,4 0,2 (2,0",
	'P': "0,0 0,6 2.5,6 }2.5,3 0,3",
	'Q': "2,0 (4,2 4,4 (2,6 (0,4 0,2 (2,0|2.5,1.5 4,0",
	'R': "0,0 0,6 2.5,6 }2.5,3 0,3|2,3 4,0",
	'S': "4,4.5 (2.5,6 1.5,6 {1.5,3 2.5,3 }2.5,0 1.5,0 )0,1.5",
	'T': "0,6 4,6|2,6 2,0",
	'U': "0,6 0,2 (2,0 (4,2 4,6",
	'V': "0,6 2,0 4,6",
	'W': "0,6 1,0 2,4 3,0 4,6",
	'X': "0,0 4,6|4,0 0,6",
	'Y': "0,6 2,3 4,6|2,3 2,0",
	'Z': "0,6 4,6 0,0 4,0",
	// The zero is narrow and barred, so that nobody takes it for the letter.
	'0': "1.5,0 (3,1.5 3,4.5 (1.5,6 (0,4.5 0,1.5 (1.5,0|0.75,1.5 2.25,4.5",
	'1': "0,4.5 1.5,6 1.5,0|0,0 3,0",
	'2': "0,4 )2,6 )4,4 0,0 4,0",
	'3': "0,6 2.5,6 }2.5,3 1,3|2.5,3 }2.5,0 0,0",
	'4': "3,0 3,6 0,2 4,2",
	'5': "4,6 0,6 0,3.5 2.25,3.5 }2.25,0 0,0",
	'6': "3,6 2,6 (0,4 0,2 (2,0 (4,2 (2,4 (0,2",
	'7': "0,6 4,6 1,0",
	'8': "1.5,3 {1.5,0 {1.5,3 {1.5,6 {1.5,3",
	'9': "1,0 2,0 (4,2 4,4 (2,6 (0,4 (2,2 (4,4",
	'-': "0,3 3,3",
	'.': "0,0 0,1",
	'/': "0,0 3,6",
	'+': "0,3 4,3|2,1 2,5",
	' ': "",
}

// glyph is one letter on the grid.
type glyph struct {
	strokes []geom.Loop
	width   float64
	known   bool
}

var glyphs = readGlyphs()

func readGlyphs() *[128]glyph {
	var all [128]glyph
	for c, text := range drawn {
		g := glyph{known: true, width: spaceWidth}
		for _, s := range strings.Split(text, "|") {
			if s != "" {
				g.strokes = append(g.strokes, readStroke(s))
			}
		}
		if len(g.strokes) > 0 {
			g.width = boundsOf(g.strokes).Max.X
		}
		all[c] = g
		if 'A' <= c && c <= 'Z' {
			all[c-'A'+'a'] = g
		}
	}
	return &all
}

// readStroke reads one stroke of the table above, which is a constant.
func readStroke(text string) geom.Loop {
	var l geom.Loop
	var at geom.Point
	for i, word := range strings.Fields(text) {
		var bulge float64
		switch word[0] {
		case '(':
			bulge = quarter
		case ')':
			bulge = -quarter
		case '{':
			bulge = 1
		case '}':
			bulge = -1
		}
		x, y, _ := strings.Cut(strings.TrimLeft(word, "(){}"), ",")
		p := geom.Point{X: number(x), Y: number(y)}
		if i > 0 {
			l = append(l, geom.BulgeSeg(at, p, bulge))
		}
		at = p
	}
	return l
}

func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic("stroke: " + err.Error()) // the table is a constant
	}
	return v
}

func boundsOf(strokes []geom.Loop) geom.Box {
	var b geom.Box
	for _, s := range strokes {
		b = b.Union(s.Bounds())
	}
	return b
}

// LongestText is the most characters that a mark may have.
const LongestText = 120

// Check says why a text cannot be written in strokes, nil where it can.
func Check(text string) error {
	if strings.TrimSpace(text) == "" {
		return fmt.Errorf("there is nothing to write")
	}
	if len(text) > LongestText {
		return fmt.Errorf("it has more than %d characters", LongestText)
	}
	for _, r := range text {
		if r >= 128 || !glyphs[r].known {
			return fmt.Errorf("there is no stroke letter for %q: wanted A to Z, 0 to 9 and - . / +", r)
		}
	}
	return nil
}

// Width is how wide a text comes out at a height of capitals, both mm.
func Width(text string, height float64) float64 {
	var w float64
	for i := 0; i < len(text); i++ {
		if i > 0 {
			w += gap
		}
		w += glyphs[text[i]&127].width
	}
	return w * height / capHeight
}

// Write gives the strokes of a text whose base line begins at 0,0 and runs to
// the right, with capitals of a height in mm. Each stroke is a run of segments,
// not closed. Characters without a letter are an error.
func Write(text string, height float64) ([]geom.Loop, error) {
	if err := Check(text); err != nil {
		return nil, fmt.Errorf("mark %q: %w", text, err)
	}
	k, x := height/capHeight, 0.0
	var out []geom.Loop
	for i := 0; i < len(text); i++ {
		g := &glyphs[text[i]]
		for _, s := range g.strokes {
			out = append(out, scaled(s, k, geom.Point{X: x}))
		}
		x += g.width*k + gap*k
	}
	return out, nil
}

// scaled is a stroke k times as large, moved by d.
func scaled(l geom.Loop, k float64, d geom.Point) geom.Loop {
	out := make(geom.Loop, len(l))
	for i, s := range l {
		out[i] = geom.BulgeSeg(s.A.Mul(k).Add(d), s.B.Mul(k).Add(d), s.Bulge)
	}
	return out
}
