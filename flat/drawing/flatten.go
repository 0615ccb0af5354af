package drawing

import (
	"fmt"
	"math"

	"blankwright/flat/diag"
	"blankwright/flat/geom"
	"blankwright/flat/num"
)

const fullTurn = 2 * math.Pi

// drawing begins the drawing that the document tells of.
func (d *document) drawing() *Drawing {
	dr := &Drawing{
		Name: d.in.file, Version: versions[d.version], Unit: d.unit(), Layers: d.rows, CurveError: d.o.CurveError,
	}
	dr.faults.limit = d.o.Limits.Faults
	for i := range dr.Layers {
		dr.Layers[i].Marks = MarkLayer(dr.Layers[i].Name)
	}
	dr.disagree(d)
	return dr
}

// flattener inserts blocks in their places, and turns entities into lines and
// arcs in mm, seen from above.
type flattener struct {
	d     *Drawing
	doc   *document
	o     Options
	steps int // still allowed
	arena []geom.Seg

	pieces  int // still allowed
	stack   []int32
	ignored []Ignored // by kind
	hidden  []int     // shapes by layer

	// Of the shape in hand:
	segs   []geom.Seg
	height float64 // the z farthest from 0
	points []geom.Point
	fit    fitter
	nurbs  nurbs
}

// dress is what an entity takes from the INSERT that it comes with.
type dress struct {
	layer  int32
	colour Colour
	line   int32 // of the outermost INSERT, 0 without one
	hidden bool
}

func (fl *flattener) run() {
	fl.ignored = make([]Ignored, len(fl.doc.kinds.list))
	fl.hidden = make([]int, len(fl.d.Layers))
	fl.d.Shapes = make([]Shape, 0, len(fl.doc.model.ents))
	root := scaleFrame(fl.d.Unit.MM)
	fl.block(&fl.doc.model, &root, nil)
	for _, g := range fl.ignored {
		if g.Count > 0 {
			fl.d.Ignored = append(fl.d.Ignored, g)
		}
	}
	fl.tellHidden()
}

// block gives what a block holds; in is the INSERT that brings it.
func (fl *flattener) block(b *block, f *frame, in *dress) {
	for i := range b.ents {
		if !fl.spend(1, b.ents[i].line) {
			return
		}
		fl.entity(&b.ents[i], f, in)
	}
}

// spend takes steps off those that are left; false where too few are.
func (fl *flattener) spend(steps int, line int32) bool {
	fl.steps -= steps
	if fl.steps < 0 {
		fl.doc.in.fail(int(line), "the drawing takes too long: its blocks or curves unfold without end",
			"explode its blocks and save it again")
	}
	return fl.doc.in.err == nil
}

// dressed is the layer, colour and place in the file that an entity has in the
// end.
func (fl *flattener) dressed(r *raw, in *dress) dress {
	w := dress{layer: r.layer, line: r.line, hidden: r.hidden}
	if in != nil {
		if w.layer == 0 {
			w.layer = in.layer
		}
		w.line, w.hidden = in.line, w.hidden || in.hidden
	}
	row := &fl.d.Layers[w.layer]
	w.hidden = w.hidden || row.Frozen || row.Off && r.kind != rawInsert
	switch {
	case r.trueRGB >= 0:
		w.colour = Colour{Index: row.Colour.Index, True: true, RGB: uint32(r.trueRGB)}
	case r.colour == colourByLayer || r.colour == colourByBlock && in == nil:
		w.colour = row.Colour
	case r.colour == colourByBlock:
		w.colour = in.colour
	default:
		w.colour = Colour{Index: int(r.colour)}
	}
	return w
}

// entity gives one entity, seen through the frame.
func (fl *flattener) entity(r *raw, f *frame, in *dress) {
	vals := fl.doc.vals[r.at : r.at+r.n]
	own := *f
	normal := vector{0, 0, 1}
	if r.tilted {
		n := len(vals) - 3
		normal, vals = vector(vals[n:]), vals[:n]
		if r.kind != rawEllipse {
			own = f.in(ownSystem(normal))
		}
	}
	w := fl.dressed(r, in)
	if r.kind != rawInsert && w.hidden {
		if r.kind != rawIgnored && r.kind != rawText {
			fl.hidden[w.layer]++
		}
		return
	}
	switch r.kind {
	case rawIgnored:
		if in == nil || fl.doc.kinds.list[r.name] != "ATTDEF" { // in a block it is a form to be filled in
			fl.count(r)
		}
		return
	case rawText:
		fl.count(r)
		if !fl.room(1, w) {
			return
		}
		p := own.at(vector(vals))
		fl.d.Texts = append(fl.d.Texts, Text{fl.doc.kindName(r.name), int(w.layer), int(w.line), geom.Point{X: p[0], Y: p[1]}})
		return
	case rawInsert:
		fl.insert(r, vals, &own, w)
		return
	}
	fl.shape(r, vals, &own, normal, w)
}

func (fl *flattener) count(r *raw) {
	g := &fl.ignored[r.name]
	if g.Count == 0 {
		*g = Ignored{Kind: fl.doc.kindName(r.name), Line: int(r.line), Drawn: fl.doc.drawn[r.name]}
	}
	g.Count++
}

// insert gives the block of an INSERT, once for each row and column.
func (fl *flattener) insert(r *raw, vals []float64, f *frame, w dress) {
	doc := fl.doc
	place := vector(vals)
	b := &doc.blocks[r.name]
	name := quoted([]byte(doc.blockNames.list[r.name]))
	switch {
	case !b.known:
		fl.fault(Unreadable, diag.Error, w, f.seen(place), "the block "+name+" that is to be inserted is not in the drawing",
			"save the drawing again with its blocks", false)
		return
	case b.external:
		fl.fault(Unreadable, diag.Error, w, f.seen(place), "the block "+name+" lies in another file",
			"bind it into the drawing and save again", false)
		return
	case len(fl.stack) >= fl.o.Limits.Depth:
		doc.in.fail(int(r.line), fmt.Sprintf("blocks are inserted in blocks more than %d deep", fl.o.Limits.Depth), "explode them and save again")
		return
	}
	for _, open := range fl.stack {
		if open == r.name {
			doc.in.fail(int(r.line), "the block "+name+" inserts itself", "explode it and save the drawing again")
			return
		}
	}
	fl.stack = append(fl.stack, r.name)
	scale := vector(vals[3:])
	columns, rows := int(vals[7]), int(vals[8])
	for row := range rows {
		for column := range columns {
			if !fl.spend(1, r.line) {
				return
			}
			shift := geom.Point{X: float64(column) * vals[9], Y: float64(row) * vals[10]}
			g := f.in(insertFrame(b.base, place, scale, radians(vals[6]), shift))
			fl.block(b, &g, &w)
		}
	}
	fl.stack = fl.stack[:len(fl.stack)-1]
}

func radians(degrees float64) float64 { return degrees * (math.Pi / 180) }

// fault reports something wrong with an entity at a place (mm).
func (fl *flattener) fault(k Kind, s diag.Severity, w dress, at geom.Point, message, fix string, mends bool) {
	if fl.d.faults.full(k) {
		fl.d.faults.add(Fault{Kind: k})
		return
	}
	f := newFault(k, s, at)
	f.Layer, f.Line = fl.d.Layers[w.layer].Name, int(w.line)
	f.Message = message
	if num.Finite(at.X, at.Y) {
		f.Message += " at " + fl.d.Unit.Place(at)
	}
	f.Fix, f.Mends = fix, mends
	fl.d.faults.add(f)
}

// tellHidden reports layers with shapes that are not to be seen.
func (fl *flattener) tellHidden() {
	for i, n := range fl.hidden {
		if n == 0 {
			continue
		}
		f := newFault(Hidden, diag.Warning, geom.Point{})
		f.Layer = fl.d.Layers[i].Name
		f.Message = fmt.Sprintf("%s on layer %q not to be seen and left out, but a table may cut what is there", counted(n, "shape"), f.Layer)
		f.Fix = "delete them, or switch the layer on"
		fl.d.faults.add(f)
	}
}

// tellIgnored reports kinds of entity that may hold lines and are not read.
func (d *Drawing) tellIgnored() {
	for _, g := range d.Ignored {
		if texts[g.Kind] {
			continue // told of by their places
		}
		f := newFault(NotRead, diag.Warning, geom.Point{})
		f.Line = g.Line
		f.Message = fmt.Sprintf("%d of the kind %s are not read and may hold lines to cut", g.Count, g.Kind)
		f.Fix = "turn them into lines and arcs, or delete them"
		if !g.Drawn {
			f.Kind, f.Severity, f.Mends = NotCut, diag.Note, true
			f.Message = fmt.Sprintf("%d of the kind %s: nothing to cut, but some tables refuse them", g.Count, g.Kind)
			if g.Kind == paperSpace {
				f.Message = fmt.Sprintf("%s (%d) are not read: some tables cut them as well", g.Kind, g.Count)
			}
			f.Fix = "delete them"
		}
		d.faults.add(f)
	}
}
