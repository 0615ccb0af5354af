package dxf

import "github.com/yofu/dxf/color"

// layer is what a line of the drawing is for.
type layer int

// The layers in cutting order: marks while the plate lies still, the holes, slots
// and cutouts while it is still held all round, the outline last (common
// practice).
const (
	marks layer = iota
	holes
	slots
	cutouts // openings of any other shape
	outline
	layerCount
)

// layerRows give each layer its name (letters, digits, hyphen, underscore only:
// names are not escaped by all readers) and a plain colour number.
var layerRows = [layerCount]struct {
	name   string
	colour color.ColorNumber
}{
	marks:   {"MARKS", color.Grey128},
	holes:   {"HOLES", color.Green},
	slots:   {"SLOTS", color.Cyan},
	cutouts: {"CUTOUTS", color.Yellow},
	outline: {"OUTLINE", color.White},
}

const layerOrder = "layers in cutting order: MARKS, HOLES, SLOTS, CUTOUTS, OUTLINE"
