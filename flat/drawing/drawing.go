// Package drawing reads drawings that others made, finds what a cutting table
// would refuse, and makes a clean copy.
//
// Read takes the text of a DXF drawing (ASCII, R12 to R2018) and gives its lines
// and true arcs in mm. Assemble joins them to outlines and openings and reports
// every fault with its place. Mend gives regions that are fit to be cut, and a
// sentence for each thing that it changed.
//
// Format: DXF Reference, R12 to R2018 (from memory; the tests hold it against
// drawings that ezdxf makes and its own reading of them).
package drawing

import "blankwright/flat/geom"

// Drawing is what a file shows: lines and arcs in mm, seen from above.
type Drawing struct {
	Name    string
	Version string // "R12" to "R2018"
	Unit    Unit   // of the coordinates in the file
	Layers  []Layer
	Shapes  []Shape // in the order of the file; inserted blocks in their place
	Texts   []Text
	Ignored []Ignored
	Faults  []Fault // found in reading

	// CurveError is how far, mm, arcs may lie from the ellipse or spline that
	// they stand for; Deviation bounds how far any of them does.
	CurveError float64
	Deviation  float64

	faults collector
}

// Layer is one layer of the drawing.
type Layer struct {
	Name   string
	Colour Colour
	Off    bool // switched off: what is on it is not seen
	Frozen bool // the same, and so is all of a block that is inserted on it
	Shapes int  // how many shapes lie on it

	// Marks says that the layer holds lines to be marked or bent, not cut: they
	// take no part in outlines. Read sets it from the layer's name (see
	// MarkLayer); the caller may know better and set it before Assemble.
	Marks bool
}

// Colour is a colour as the drawing gives it, after BYLAYER and BYBLOCK are
// looked up.
type Colour struct {
	Index int  // 1 to 255
	True  bool // RGB holds a true colour
	RGB   uint32
}

// Shape is one entity: a run of segments, each starting where the last ended.
type Shape struct {
	Kind   string // LINE, ARC, CIRCLE, LWPOLYLINE, POLYLINE, ELLIPSE, SPLINE
	Layer  int    // its place in Drawing.Layers
	Colour Colour
	Line   int  // where the entity begins in the file, counted from 1
	Closed bool // the drawing says so, or it is a whole circle or ellipse
	Segs   []geom.Seg

	// Deviation bounds how far, mm, the arcs lie from the ellipse
	// or spline that they stand for; 0 for other kinds.
	Deviation float64
}

// whole reports whether the shape is one whole circle.
func (s *Shape) whole() bool { return s.Kind == kindCircle && len(s.Segs) == 2 }

// written reports whether the ends of the shape's segments are coordinates in
// the file; else they are worked out.
func (s *Shape) written() bool {
	return s.Kind == kindLine || s.Kind == kindLight || s.Kind == kindHeavy
}

// Text is the place of a text, which no table can cut.
type Text struct {
	Kind  string // TEXT, MTEXT, ATTRIB
	Layer int
	Line  int
	At    geom.Point // mm
}

// Ignored counts entities of a kind that is not read.
type Ignored struct {
	Kind  string
	Count int
	Line  int  // of the first one
	Drawn bool // it may show lines that a table would have to cut
}

// The kinds of entity that are read, by their names in the file.
const (
	kindLine    = "LINE"
	kindArc     = "ARC"
	kindCircle  = "CIRCLE"
	kindLight   = "LWPOLYLINE"
	kindHeavy   = "POLYLINE"
	kindEllipse = "ELLIPSE"
	kindSpline  = "SPLINE"
	kindInsert  = "INSERT"
)

// Bounds is the smallest upright box that holds all shapes, mm.
func (d *Drawing) Bounds() geom.Box {
	var b geom.Box
	for i := range d.Shapes {
		for _, s := range d.Shapes[i].Segs {
			b = b.Union(s.Bounds())
		}
	}
	return b
}

// Keep is the drawing with only the layers that keep accepts; shapes are shared
// with d, which stays as it is.
func (d *Drawing) Keep(keep func(Layer) bool) *Drawing {
	k := *d
	k.Shapes, k.Texts = nil, nil
	k.Layers = append([]Layer(nil), d.Layers...)
	on := make([]bool, len(d.Layers))
	for i, l := range d.Layers {
		on[i] = keep(l)
		if !on[i] {
			k.Layers[i].Shapes = 0
		}
	}
	for _, s := range d.Shapes {
		if on[s.Layer] {
			k.Shapes = append(k.Shapes, s)
		}
	}
	for _, t := range d.Texts {
		if on[t.Layer] {
			k.Texts = append(k.Texts, t)
		}
	}
	return &k
}
