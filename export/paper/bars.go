package paper

import (
	"sync"

	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// Check bars: what a person measures before trusting the paper.
const (
	barMM     = 100.0
	barInches = 4
	barGap    = 0.7 // from the middle of a pair of bars to each
	tickLong  = 4.5 // at its ends and whole numbers
	tickMid   = 3.0
	tickShort = 2.0
	barHalf   = barGap + tickLong + textGap + 2.8*capHeight // of the room across a pair
	// checkLimit is how far a 100 mm or 4 in bar may be off, mm (common
	// practice; paper itself moves 0.1 to 0.3 % with the air's moisture).
	checkLimit = "0.3 mm"
)

// bars draws the 100 mm bar and the 4 in bar from a common zero, to the right or
// upwards. Lengths are taken from the middle of the first tick to the middle of
// the last.
func (ls *Layers) bars(zero geom.Point, up bool) {
	at := func(along, across float64) geom.Point {
		if up {
			return geom.Point{X: zero.X - across, Y: zero.Y + along}
		}
		return geom.Point{X: zero.X + along, Y: zero.Y + across}
	}
	number := func(along, across float64, words string) {
		ls.text(Labels, Text{At: at(along, across), Anchor: Middle, Up: up, Style: LabelText, S: words})
	}
	ls.line(Bars, at(0, barGap), at(barMM, barGap))
	for i := 0; i <= 20; i++ {
		along, tick := float64(i)*barMM/20, tickShort
		switch {
		case i%10 == 0:
			tick = tickLong
		case i%2 == 0:
			tick = tickMid
		}
		ls.line(Bars, at(along, barGap), at(along, barGap+tick))
	}
	top := barGap + tickLong + textGap
	number(0, top, "0")
	number(barMM/2, top, "50")
	number(barMM, top, "100 mm")

	ls.line(Bars, at(0, -barGap), at(barInches*unit.MM, -barGap))
	for i := 0; i <= 8*barInches; i++ {
		along, tick := float64(i)*unit.MM/8, tickShort/2
		switch {
		case i%8 == 0:
			tick = tickLong
		case i%4 == 0:
			tick = tickMid
		case i%2 == 0:
			tick = tickShort
		}
		ls.line(Bars, at(along, -barGap), at(along, -barGap-tick))
	}
	bottom := -top - styles[LabelText].Size*capHeight
	for i, n := range [...]string{"0", "1", "2", "3", "4 in"} {
		number(float64(i)*unit.MM, bottom, n)
	}
}

// The block that holds the level bars and says what to do with them.
const (
	checkWidth  = 111.0
	checkHeight = 2*barHalf + 4*valuePitch + 5
	stripHeight = 2*barHalf + 2*valuePitch + 4.5
	valuePitch  = 4.7 // between base lines of running words
	// columnWidth is the room beside the drawing for the upright bars, and
	// columnHeight what they take of the page's height.
	columnWidth  = 2*barHalf + 2.5
	columnHeight = barInches*unit.MM + 10
)

// BlockID names a check block.
type BlockID uint8

// Check blocks: that of a whole sheet, and the lower one of a page that shows a
// piece of the part.
const (
	FullBlock BlockID = iota
	StripBlock
	NoBlock // of a page of words or a picture, where nothing is at true scale
	numBlocks
)

// Layers is the pair of bars to the right and the pair upwards, with the words
// that say what to do with them. It is the same on every sheet. Its origin is
// the upper left corner of the level pair's room; the upright pair stands above
// it. It must not be changed.
func (id BlockID) Layers() *Layers {
	if id >= numBlocks {
		return &noLayers
	}
	return checkBlocks()[id]
}

var noLayers Layers

var checkBlocks = sync.OnceValue(func() (all [numBlocks]*Layers) {
	full := twoPairs()
	y := -2*barHalf - 2.5 - valuePitch
	full.write(Strong, 0, y, "Measure the bars before you trust this sheet.")
	y -= valuePitch
	full.write(Values, 0, y, "100 mm and 4 in, across and up, each within "+checkLimit+".")
	y -= valuePitch
	full.write(Values, 0, y, "If not, print again at 100 %, actual size, no fitting.")
	full.blanks(y - valuePitch - 1)

	strip := twoPairs()
	y = -2*barHalf - 2 - valuePitch
	strip.write(Strong, 0, y, "Measure the four bars: each within "+checkLimit+".")
	strip.blanks(y - valuePitch - 0.5)
	return [numBlocks]*Layers{FullBlock: full, StripBlock: strip, NoBlock: new(Layers)}
})

func twoPairs() *Layers {
	ls := new(Layers)
	ls.bars(pt(barHalf+1, 4), true)
	ls.bars(pt(3, -barHalf-1.5), false)
	return ls
}

// blanks is the line where what was measured is written down.
func (ls *Layers) blanks(y float64) {
	x := 0.0
	for _, w := range [...]string{"100 mm bars read: across", "up"} {
		ls.write(Values, x, y, w)
		x += Width(w, ValueText) + 1
		ls.rule(Frame, x, y-0.6, x+17, y-0.6)
		ls.write(Values, x+18, y, "mm")
		x += 28
	}
}
