package profiles

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"
)

// LayerID is what the lines of a layer of a drawing are for.
type LayerID int

// The layers of a drawing.
const (
	LayerMarks   LayerID = iota // part marks, and places of holes to be drilled
	LayerHoles                  // round holes
	LayerSlots                  // straight slots
	LayerCutouts                // openings of any other shape
	LayerOutline
	LayerBends // bend lines of a formed part, not cut
	layerCount
)

// Layer is the name and the colour that a meaning has in a drawing.
type Layer struct {
	Key    string // as a profile names it
	Name   string // letters, digits, hyphen, underscore only: names are not escaped by all readers
	Colour int    // 1 to 255, the number of the drawing format
	Source Source
}

const (
	longestLayer = 31 // characters of a layer's name, DXF Reference, R12 (from memory)
	mostColour   = 255
)

var ourLayers = Source{"plain names by meaning", CommonPractice}

var layers = [layerCount]Layer{
	LayerMarks:   {"marks", "MARKS", 8, ourLayers},
	LayerHoles:   {"holes", "HOLES", 3, ourLayers},
	LayerSlots:   {"slots", "SLOTS", 4, ourLayers},
	LayerCutouts: {"cutouts", "CUTOUTS", 2, ourLayers},
	LayerOutline: {"outline", "OUTLINE", 7, ourLayers},
	LayerBends:   {"bends", "BENDS", 6, ourLayers},
}

// Layer is the layer of a meaning.
func (s *Set) Layer(id LayerID) Layer { return s.orDefault().layers[id] }

// layer reads the rows over the layers. Meanings keep layers of their own, so that
// a table can tell them apart.
func (r *profileReader) layer(n *yaml.Node) {
	known := make([]key, layerCount)
	for i := range known {
		l := &r.set.layers[i]
		known[i] = key{l.Key, func(n *yaml.Node) {
			r.keys(n, "a layer",
				key{"name", func(n *yaml.Node) { r.layerName(n, &l.Name) }},
				key{"colour", func(n *yaml.Node) { r.colour(n, &l.Colour) }},
			)
			l.Source = r.source()
		}}
	}
	if !r.keys(n, "layers", known...) {
		return
	}
	for i, a := range r.set.layers {
		for _, b := range r.set.layers[:i] {
			if strings.EqualFold(a.Name, b.Name) {
				r.add(n, "give each a name of its own", "%s and %s are both on layer %s", b.Key, a.Key, a.Name)
			}
		}
	}
}

func (r *profileReader) colour(n *yaml.Node, into *int) {
	v := float64(*into)
	r.number(n, figure{nil, 1, mostColour, true}, &v)
	*into = int(v)
}

// layerName reads a name that every reader of drawings takes.
func (r *profileReader) layerName(n *yaml.Node, into *string) {
	if n.Kind != yaml.ScalarNode || n.Value == "" || len(n.Value) > longestLayer || strings.ContainsFunc(n.Value, outOfLayer) {
		r.add(n, fmt.Sprintf("use letters, digits, - and _, at most %d", longestLayer), "layer name %q cannot be written to every drawing", short40(n.Value))
		return
	}
	if n.Value == "0" {
		r.add(n, "give it a name that tells what is on it", `layer "0" is there in every drawing and has no meaning`)
		return
	}
	*into = n.Value
}

func outOfLayer(c rune) bool {
	return !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_')
}

func (s *Set) layerTable() Table {
	t := Table{Name: "layers", Title: "layers of the drawing by meaning",
		Columns: []string{"meaning", "layer", "colour number", "source"}, Source: ourLayers}
	for _, l := range s.layers {
		t.Rows = append(t.Rows, []string{l.Key, l.Name, fmt.Sprint(l.Colour), l.Source.Text})
	}
	return t
}
