package dxf

import (
	"strings"

	"github.com/yofu/dxf/color"

	"blankwright/flat/blank"
	"blankwright/profiles"
)

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
	bends // bend lines of a formed part: drawn after the marks, not cut
	layerCount
)

// layerNames are the name and the colour number of each layer; a layer without a
// name is not in the drawing.
type layerNames [layerCount]struct {
	name   string
	colour color.ColorNumber
}

var meanings = [layerCount]profiles.LayerID{
	marks: profiles.LayerMarks, holes: profiles.LayerHoles, slots: profiles.LayerSlots,
	cutouts: profiles.LayerCutouts, outline: profiles.LayerOutline, bends: profiles.LayerBends,
}

// layersOf are the layers by the tables that the blank was made by.
func layersOf(b *blank.Blank) (n layerNames) {
	for i := range n {
		row := b.Profile.Layer(meanings[i])
		n[i].name, n[i].colour = row.Name, color.ColorNumber(row.Colour)
	}
	return n
}

// used leaves out the layer of bend lines where nothing is bent.
func (n layerNames) used(bent bool) layerNames {
	if !bent {
		n[bends].name = ""
	}
	return n
}

// inOrder names the layers in cutting order; bend lines are not cut.
func (n *layerNames) inOrder() string {
	names := make([]string, bends)
	for i := range names {
		names[i] = n[i].name
	}
	return "layers in cutting order: " + strings.Join(names, ", ")
}
