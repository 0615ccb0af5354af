package dxf

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"

	"blankwright/export/stroke"
	"blankwright/flat/blank"
	"blankwright/flat/cutlist"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// readTol is how far (mm) what is read back may lie from the blank, and the ends
// of neighbours from each other: within what strict readers of drawings join,
// far above the rounding of nine decimals of an inch.
const readTol = 1e-6

// Verify reads a drawing back and holds it against the blank that it was made
// from: version and unit, extents, every line, arc and circle in its place, on its
// layer and in cutting order, every line of the cut closed, as many marks as there
// should be, every bend line in its place, nothing besides, and no line twice or
// within num.NearDouble of another all along. It shares nothing with Write but the
// order of the cuts, which is held against the blank as well: every opening and the
// outline once, with the blank's own size.
//
// Edges shorter than the process can follow are for the checks to tell: here it
// is only made sure that the drawing has none that the blank has not.
func Verify(data []byte, b *blank.Blank, o Options) error {
	if err := o.check(); err != nil {
		return err
	}
	v := verifiers.Get().(*verifier)
	defer v.putAway()
	v.start(data, layersOf(b), o)
	v.origin = b.Outline.Bounds().Min
	v.contours = slices.Grow(v.contours, len(b.Holes)+len(b.Cutouts)+1)
	err := v.read()
	if err == nil {
		err = v.compare(b)
	}
	if err != nil {
		return fmt.Errorf("drawing of %q, read back: %w", b.Name, err)
	}
	return nil
}

// element is what is read of one entity, in mm.
type element struct {
	kind     string // one of kinds, or as it stands
	layer    []byte
	a, b     geom.Point
	r        float64
	from, to float64 // rad
	closed   bool
	// Of a polyline: its places among the verifier's vertices.
	first, count int
}

// vertex is one place of a polyline with the bulge that follows it.
type vertex struct {
	p     geom.Point
	bulge float64
}

// contour is one closed line that was read.
type contour struct {
	layer       []byte
	round       bool
	circle      geom.Circle // where it is a whole circle
	first, past int         // else its place among the verifier's segments
	box         geom.Box
}

// verifier reads one drawing; it is kept and used again for its memory.
type verifier struct {
	r        groupReader
	o        Options
	layers   layerNames
	per      float64
	origin   geom.Point
	motion   geom.Motion // from the coordinates of the part that is compared
	version  []byte
	units    []byte
	min, max geom.Point // extents, mm from the lower left
	elements []element
	vertices []vertex
	segs     geom.Loop
	contours []contour
	order    []int
	seen     []bool
	marks    int
	bends    []geom.Seg
	box      geom.Box
}

var verifiers = sync.Pool{New: func() any { return new(verifier) }}

func (v *verifier) start(data []byte, layers layerNames, o Options) {
	*v = verifier{
		r: groupReader{text: data}, o: o, layers: layers, per: 1,
		elements: v.elements[:0], vertices: v.vertices[:0], segs: v.segs[:0], contours: v.contours[:0],
		order: v.order[:0], seen: v.seen[:0],
	}
	if o.Unit == unit.Inch {
		v.per = unit.MM
	}
	v.elements = slices.Grow(v.elements, len(data)/usualEntity)
}

// usualEntity is about how many bytes an entity takes.
const usualEntity = 120

// putAway keeps the verifier, without what belongs to its caller and unless it
// has grown with a huge part.
func (v *verifier) putAway() {
	if len(v.elements) > largestKept || len(v.vertices) > largestKept {
		return
	}
	clear(v.elements)
	clear(v.contours)
	v.r, v.o, v.version, v.units = groupReader{}, Options{}, nil, nil
	verifiers.Put(v)
}

// read takes the header's variables and the entities.
func (v *verifier) read() error {
	for {
		ok, err := v.r.next()
		switch {
		case err != nil:
			return err
		case !ok:
			return errors.New("it has no end of file")
		case v.r.is(0, "EOF"):
			if v.r.at < len(v.r.text) {
				return errors.New("something stands behind its end")
			}
			return v.gather()
		case v.r.is(0, "SECTION"):
			if err := v.section(); err != nil {
				return err
			}
		case v.r.code != commentCode:
			return fmt.Errorf("group %d, %q, stands outside of all sections", v.r.code, v.r.value)
		}
	}
}

// section goes through one section to its end.
func (v *verifier) section() error {
	if _, err := v.r.next(); err != nil {
		return err
	}
	take := func() error { return nil }
	switch string(v.r.value) {
	case "HEADER":
		take = v.header()
	case "ENTITIES":
		take = v.entity
	}
	for {
		ok, err := v.r.next()
		switch {
		case err != nil:
			return err
		case !ok:
			return errors.New("it has no end of file")
		case v.r.is(0, "ENDSEC"):
			return nil
		}
		if err := take(); err != nil {
			return err
		}
	}
}

// header takes the groups of the header one by one.
func (v *verifier) header() func() error {
	var at *geom.Point
	var text *[]byte
	return func() (err error) {
		switch {
		case v.r.code == 9:
			at, text = nil, nil
			switch string(v.r.value) {
			case "$ACADVER":
				text = &v.version
			case "$INSUNITS":
				text = &v.units
			case "$EXTMIN":
				at = &v.min
			case "$EXTMAX":
				at = &v.max
			}
		case text != nil:
			*text = v.r.value
		case at != nil && v.r.code == 10:
			at.X, err = v.length()
		case at != nil && v.r.code == 20:
			at.Y, err = v.length()
		}
		return err
	}
}

func (v *verifier) number() (float64, error) {
	x, ok := v.r.number()
	if !ok {
		return 0, fmt.Errorf("group %d is %q: no number", v.r.code, v.r.value)
	}
	return x, nil
}

// length is the group's number in mm.
func (v *verifier) length() (float64, error) {
	x, err := v.number()
	return x * v.per, err
}

// kinds are the entities that there may be: one word for each, so that reading
// makes none.
var kinds = [...]string{"LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE", "VERTEX", "SEQEND"}

func kindOf(value []byte) string {
	for _, k := range kinds {
		if string(value) == k {
			return k
		}
	}
	return string(value)
}

// entity takes one group of an entity into the last of v.elements.
func (v *verifier) entity() (err error) {
	if v.r.code == 0 {
		v.elements = append(v.elements, element{kind: kindOf(v.r.value), first: len(v.vertices)})
		return nil
	}
	if len(v.elements) == 0 {
		return fmt.Errorf("group %d stands before the first entity", v.r.code)
	}
	e := &v.elements[len(v.elements)-1]
	var x float64
	switch v.r.code {
	case 8:
		e.layer = v.r.value
	case 10:
		x, err = v.length()
		if e.kind == "LWPOLYLINE" {
			v.vertices = append(v.vertices, vertex{p: geom.Point{X: x}})
			e.count++
			return err
		}
		e.a.X = x
	case 20:
		x, err = v.length()
		if e.count > 0 {
			v.vertices[len(v.vertices)-1].p.Y = x
			return err
		}
		e.a.Y = x
	case 11:
		e.b.X, err = v.length()
	case 21:
		e.b.Y, err = v.length()
	case 30, 31, 38, 39:
		if x, err = v.number(); err == nil && x != 0 {
			err = fmt.Errorf("a height of %v", x)
		}
	case 40:
		e.r, err = v.length()
	case 42:
		x, err = v.number()
		if e.count > 0 {
			v.vertices[len(v.vertices)-1].bulge = x
		} else {
			e.r = x // of a VERTEX
		}
	case 50:
		e.from, err = v.number()
		e.from *= math.Pi / 180
	case 51:
		e.to, err = v.number()
		e.to *= math.Pi / 180
	case 70:
		e.closed = string(v.r.value) == "1"
	}
	return err
}

// seg is a line or an arc as drawn.
func (e *element) seg() (geom.Seg, error) {
	switch e.kind {
	case "LINE":
		return geom.Line(e.a, e.b), nil
	case "ARC":
		sweep := math.Mod(e.to-e.from, 2*math.Pi)
		if sweep < 0 {
			sweep += 2 * math.Pi
		}
		return geom.BulgeSeg(e.a.Polar(e.r, e.from), e.a.Polar(e.r, e.to), math.Tan(sweep/4)), nil
	}
	return geom.Seg{}, fmt.Errorf("it holds a %s", e.kind)
}

// gather makes closed lines of the entities.
func (v *verifier) gather() error {
	for i := 0; i < len(v.elements); {
		e := &v.elements[i]
		var err error
		n := 1
		switch {
		case string(e.layer) == v.layers[marks].name:
			var s geom.Seg
			s, err = e.seg()
			v.marks++
			if len(v.bends) > 0 {
				err = cmp.Or(err, fmt.Errorf("a line on %s stands behind the bend lines", e.layer))
			}
			v.box = v.box.Union(s.Bounds())
		case string(e.layer) == v.layers[bends].name:
			err = v.bendLine(e)
		case e.kind == "CIRCLE":
			v.keep(contour{layer: e.layer, round: true, circle: geom.Circle{C: e.a, R: e.r}, box: geom.Box{}.
				Extend(geom.Point{X: e.a.X - e.r, Y: e.a.Y - e.r}).Extend(geom.Point{X: e.a.X + e.r, Y: e.a.Y + e.r})})
		case e.kind == "LWPOLYLINE":
			err = v.polyline(e, v.vertices[e.first:e.first+e.count])
		case e.kind == "POLYLINE":
			n, err = v.heavy(i)
		default:
			n, err = v.chain(i)
		}
		if err != nil {
			return err
		}
		i += n
	}
	return nil
}

// bendLine takes one line of the layer of bend lines.
func (v *verifier) bendLine(e *element) error {
	if e.kind != "LINE" {
		return fmt.Errorf("a %s stands on %s", e.kind, e.layer)
	}
	if len(v.contours) > 0 {
		return fmt.Errorf("a bend line at %v, %v stands behind what is cut", e.a.X/v.per, e.a.Y/v.per)
	}
	v.bends = append(v.bends, geom.Line(e.a, e.b))
	return nil
}

func (v *verifier) keep(c contour) {
	v.box = v.box.Union(c.box)
	v.contours = append(v.contours, c)
}

// keepLoop keeps the segments from first on as a closed line.
func (v *verifier) keepLoop(layer []byte, first int) {
	v.keep(contour{layer: layer, first: first, past: len(v.segs), box: v.segs[first:].Bounds()})
}

func (v *verifier) polyline(e *element, path []vertex) error {
	if !e.closed || len(path) < 2 {
		return fmt.Errorf("a polyline of %d vertices on %s is not closed", len(path), e.layer)
	}
	first := len(v.segs)
	for i, p := range path {
		v.segs = append(v.segs, geom.BulgeSeg(p.p, path[(i+1)%len(path)].p, p.bulge))
	}
	v.keepLoop(e.layer, first)
	return nil
}

// heavy takes a POLYLINE with the VERTEX entities behind it.
func (v *verifier) heavy(i int) (n int, err error) {
	e := &v.elements[i]
	if e.a != (geom.Point{}) {
		return 1, fmt.Errorf("a polyline has a place of its own: %v", e.a)
	}
	first := len(v.vertices)
	for n = 1; i+n < len(v.elements); n++ {
		switch w := &v.elements[i+n]; w.kind {
		case "VERTEX":
			v.vertices = append(v.vertices, vertex{w.a, w.r})
		case "SEQEND":
			return n + 1, v.polyline(e, v.vertices[first:])
		default:
			return n, fmt.Errorf("a %s stands in a polyline", w.kind)
		}
	}
	return n, errors.New("a polyline has no end")
}

// chain joins lines and arcs from entity i on until they close.
func (v *verifier) chain(i int) (n int, err error) {
	first := len(v.segs)
	layer := v.elements[i].layer
	for ; i+n < len(v.elements) && string(v.elements[i+n].layer) == string(layer); n++ {
		s, err := v.elements[i+n].seg()
		if err != nil {
			return n, err
		}
		l := v.segs[first:]
		switch {
		case n == 0:
		case s.A.Dist(l[n-1].B) <= readTol:
		case s.B.Dist(l[n-1].B) <= readTol:
			s = s.Reverse()
		case n == 1 && s.A.Dist(l[0].A) <= readTol:
			l[0] = l[0].Reverse()
		case n == 1 && s.B.Dist(l[0].A) <= readTol:
			l[0], s = l[0].Reverse(), s.Reverse()
		default:
			return n, fmt.Errorf("the line on %s is open at %v, %v", layer, l[n-1].B.X/v.per, l[n-1].B.Y/v.per)
		}
		v.segs = append(v.segs, s)
		l = v.segs[first:]
		if n > 0 && s.B.Dist(l[0].A) <= readTol {
			if n == 1 && l.Area() < 0 { // two pieces meet either way round
				l[0], l[1] = l[0].Reverse(), l[1].Reverse()
			}
			v.keepLoop(layer, first)
			return n + 1, nil
		}
	}
	return n, fmt.Errorf("the line on %s does not close", layer)
}

// compare holds what was read against the blank.
func (v *verifier) compare(b *blank.Blank) error {
	if err := v.compareHead(); err != nil {
		return err
	}
	if want := v.marksOf(b); v.marks != want {
		return fmt.Errorf("%d lines on %s, wanted %d", v.marks, v.layers[marks].name, want)
	}
	cuts := v.o.Cuts
	if cuts == nil {
		cuts = cutlist.Order(b)
	}
	if err := v.complete(b, cuts); err != nil {
		return err
	}
	if err := v.compareBends(v.appendBends(nil, b)); err != nil {
		return err
	}
	if len(cuts) != len(v.contours) {
		return fmt.Errorf("%d closed lines, wanted %d", len(v.contours), len(cuts))
	}
	for i := range cuts {
		if err := v.compareCut(b, &cuts[i], &v.contours[i]); err != nil {
			return fmt.Errorf("%s %q: %w", cuts[i].Kind, cuts[i].Name, err)
		}
	}
	return v.noDoubles(cuts)
}

// complete asks that the cuts are those of the blank: the outline and every
// opening that is cut once.
func (v *verifier) complete(b *blank.Blank, cuts []cutlist.Cut) error {
	n := len(b.Holes) + len(b.Cutouts) + 1
	if cap(v.seen) < n {
		v.seen = make([]bool, n)
	}
	v.seen = v.seen[:n]
	clear(v.seen)
	wanted := 1 + len(b.Cutouts)
	for i := range b.Holes {
		if b.Holes[i].CutDia != 0 {
			wanted++
		}
	}
	for i := range cuts {
		c := &cuts[i]
		at, last := c.Index, len(b.Holes)
		switch c.Kind {
		case cutlist.Cutout:
			at, last = at+len(b.Holes), len(b.Holes)+len(b.Cutouts)
		case cutlist.Outline:
			at, last = n-1, n
		}
		if c.Index < 0 || at >= last || v.seen[at] {
			return fmt.Errorf("its cuts have %s %q twice, or one that the part has not", c.Kind, c.Name)
		}
		v.seen[at] = true
	}
	if len(cuts) != wanted {
		return fmt.Errorf("its cuts are %d, wanted %d", len(cuts), wanted)
	}
	return nil
}

func (v *verifier) compareHead() error {
	version, units := "AC1015", "4"
	if v.o.Unit == unit.Inch {
		units = "1"
	}
	if v.o.Version == R12 {
		version, units = "AC1009", ""
	}
	if string(v.version) != version || string(v.units) != units {
		return fmt.Errorf("version %q with unit %q, wanted %q with %q", v.version, v.units, version, units)
	}
	if v.box.Min.Dist(v.min) > readTol || v.box.Max.Dist(v.max) > readTol {
		return fmt.Errorf("it reaches from %v to %v mm and says %v to %v", v.box.Min, v.box.Max, v.min, v.max)
	}
	return nil
}

// marksOf is how many lines and arcs the marks of b have.
func (v *verifier) marksOf(b *blank.Blank) (n int) {
	n = punchLines(b)
	if v.o.NoMarks {
		return n
	}
	texts := v.o.Marks
	if texts == nil {
		texts = stroke.Place(b)
	}
	return n + markLines(texts)
}

// punchLines is how many lines the punch marks of b have.
func punchLines(b *blank.Blank) (n int) {
	for i := range b.Holes {
		if h := &b.Holes[i]; h.CutDia == 0 {
			n += 4
			if slotted(h) {
				n += 4
			}
		}
	}
	return n
}

// markLines is how many lines and arcs the texts have.
func markLines(texts []stroke.Mark) (n int) {
	for i := range texts {
		for _, l := range texts[i].Strokes {
			n += len(l)
		}
	}
	return n
}

// appendBends gives the bend lines of b, or their ends, where they should be.
func (v *verifier) appendBends(to []geom.Seg, b *blank.Blank) []geom.Seg {
	if b.Formed == nil {
		return to
	}
	for i := range b.Formed.Flat.Bends {
		l := b.Formed.Flat.Bends[i].Line
		l = geom.Line(v.place(l.A), v.place(l.B))
		if share := bendMark / l.Length(); v.o.BendEnds && 3*share < 1 {
			to = append(to, geom.Line(l.A, l.At(share)), geom.Line(l.At(1-share), l.B))
		} else {
			to = append(to, l)
		}
	}
	return to
}

// compareBends holds the bend lines against those that should be there.
func (v *verifier) compareBends(want []geom.Seg) error {
	if len(v.bends) != len(want) {
		return fmt.Errorf("%d lines on %s, wanted %d", len(v.bends), v.layers[bends].name, len(want))
	}
	for i, w := range want {
		if g := v.bends[i]; w.A.Dist(g.A) > readTol || w.B.Dist(g.B) > readTol {
			return fmt.Errorf("line %d on %s, from %v, is not where it should be", i+1, v.layers[bends].name, w.A)
		}
	}
	return nil
}

// compareCut holds a closed line against its cut, and its size against what the
// blank says.
func (v *verifier) compareCut(b *blank.Blank, c *cutlist.Cut, got *contour) error {
	if want := v.layers[layerOf[c.Kind]].name; string(got.layer) != want {
		return fmt.Errorf("it is on layer %s, wanted %s", got.layer, want)
	}
	if c.Round {
		circle := c.Circle
		if c.Kind == cutlist.Hole {
			h := &b.Holes[c.Index]
			circle = geom.Circle{C: h.Centre, R: h.CutDia / 2}
		}
		circle = circle.Transform(v.motion)
		if !got.round || got.circle.C.Dist(circle.C.Sub(v.origin)) > readTol || math.Abs(got.circle.R-circle.R) > readTol {
			return fmt.Errorf("it is no circle of diameter %v mm in its place", 2*circle.R)
		}
		return nil
	}
	segs := v.segs[got.first:got.past]
	if len(segs) != len(c.Loop) {
		return fmt.Errorf("it has %d pieces, wanted %d", len(segs), len(c.Loop))
	}
	for i := range c.Loop {
		w, g := &c.Loop[i], &segs[i]
		if a := v.place(w.A); w.IsArc() != g.IsArc() || a.Dist(g.A) > readTol || v.place(w.Mid()).Dist(g.Mid()) > readTol {
			return fmt.Errorf("piece %d, from %v, is not where it should be", i+1, a)
		}
	}
	own := b.Outline
	switch c.Kind {
	case cutlist.Slot:
		own = b.Holes[c.Index].AsCut()
	case cutlist.Cutout:
		own = b.Cutouts[c.Index].Loop
	}
	if area := segs.Area(); math.Abs(area-own.Area()) > readTol*max(1, own.Perimeter()) {
		return fmt.Errorf("its area is %v mm², wanted %v", area, own.Area())
	}
	return nil
}

// place is where a place of the part is drawn, mm.
func (v *verifier) place(p geom.Point) geom.Point { return v.motion.Apply(p).Sub(v.origin) }

// noDoubles asks that no two closed lines run along each other.
func (v *verifier) noDoubles(cuts []cutlist.Cut) error {
	order := v.order
	for i := range v.contours {
		order = append(order, i)
	}
	v.order = order[:0]
	at := func(i int) *geom.Box { return &v.contours[i].box }
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(at(i).Min.X, at(j).Min.X) })
	for k, i := range order {
		for _, j := range order[k+1:] {
			p, q := at(i), at(j)
			if q.Min.X-p.Min.X > num.NearDouble {
				break
			}
			if p.Min.Dist(q.Min) <= num.NearDouble && p.Max.Dist(q.Max) <= num.NearDouble && v.doubled(i, j) {
				return fmt.Errorf("%q and %q are cut along one line", cuts[i].Name, cuts[j].Name)
			}
		}
	}
	return nil
}

// doubled reports whether two closed lines that fill the same box are one.
func (v *verifier) doubled(i, j int) bool {
	a, b := v.loop(i), v.loop(j)
	for _, s := range a {
		if geom.PointLoop(s.A, b).D > num.NearDouble || geom.PointLoop(s.Mid(), b).D > num.NearDouble {
			return false
		}
	}
	return true
}

func (v *verifier) loop(i int) geom.Loop {
	c := &v.contours[i]
	if c.round {
		return geom.CircleLoop(c.circle)
	}
	return v.segs[c.first:c.past]
}
