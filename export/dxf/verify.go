package dxf

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

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
// should be, nothing besides, and no line twice or within num.NearDouble of
// another all along. It shares nothing with Write but the order of the cuts.
//
// Edges shorter than the process can follow are for the checks to tell: here it
// is only made sure that the drawing has none that the blank has not.
func Verify(data []byte, b *blank.Blank, o Options) error {
	if err := o.check(); err != nil {
		return err
	}
	v := &verifier{elements: make([]element, 0, usualElements), r: groupReader{text: string(data)}, o: o, per: 1, origin: b.Outline.Bounds().Min}
	if o.Unit == unit.Inch {
		v.per = unit.MM
	}
	err := v.read()
	if err == nil {
		err = v.compare(b)
	}
	if err != nil {
		return fmt.Errorf("drawing of %q, read back: %w", b.Name, err)
	}
	return nil
}

// usualElements is room for the entities of an ordinary bracket.
const usualElements = 64

// groupReader goes through the groups of a drawing.
type groupReader struct {
	text  string
	code  int
	value string
}

// next takes the next group; false at the end of the file.
func (r *groupReader) next() (bool, error) {
	if r.text == "" {
		return false, nil
	}
	code, err := r.line()
	if err != nil {
		return false, err
	}
	for len(code) > 1 && code[0] == ' ' {
		code = code[1:]
	}
	n := 0
	for i := range len(code) {
		if code[i] < '0' || code[i] > '9' || i > 3 {
			return false, fmt.Errorf("group code %q", code)
		}
		n = 10*n + int(code[i]-'0')
	}
	r.code = n
	r.value, err = r.line()
	return true, err
}

func (r *groupReader) line() (string, error) {
	i := strings.IndexByte(r.text, '\n')
	if i < 1 || r.text[i-1] != '\r' {
		return "", errors.New("a line has no end")
	}
	l := r.text[:i-1]
	r.text = r.text[i+1:]
	return l, nil
}

func (r *groupReader) is(code int, value string) bool { return r.code == code && r.value == value }

// element is what is read of one entity, in mm.
type element struct {
	kind, layer string
	a, b        geom.Point
	r           float64
	from, to    float64 // rad
	closed      bool
	path        []geom.Point // of a polyline
	bulges      []float64
}

// contour is one closed line that was read.
type contour struct {
	layer  string
	circle geom.Circle // of a whole circle, else the zero Circle
	segs   geom.Loop
	box    geom.Box
}

type verifier struct {
	r        groupReader
	o        Options
	per      float64
	origin   geom.Point
	version  string
	units    string
	min, max geom.Point // extents, mm from the lower left
	elements []element
	contours []contour
	marks    int
	box      geom.Box
}

// read takes the header's variables and the entities.
func (v *verifier) read() error {
	variable, section := "", ""
	for {
		ok, err := v.r.next()
		switch {
		case err != nil:
			return err
		case !ok:
			return errors.New("it has no end of file")
		case v.r.is(0, "EOF"):
			if v.r.text != "" {
				return errors.New("something stands behind its end")
			}
			return v.gather()
		case v.r.is(0, "SECTION"):
			if _, err := v.r.next(); err != nil {
				return err
			}
			section = v.r.value
		case v.r.code == 9:
			variable = v.r.value
		case section == "HEADER":
			if err := v.header(variable); err != nil {
				return err
			}
		case section == "ENTITIES":
			if err := v.entity(); err != nil {
				return err
			}
		}
	}
}

func (v *verifier) header(variable string) error {
	var at *geom.Point
	switch variable {
	case "$ACADVER":
		v.version = v.r.value
	case "$INSUNITS":
		v.units = v.r.value
	case "$EXTMIN":
		at = &v.min
	case "$EXTMAX":
		at = &v.max
	}
	if at == nil || v.r.code != 10 && v.r.code != 20 {
		return nil
	}
	x, err := v.length()
	if v.r.code == 10 {
		at.X = x
	} else {
		at.Y = x
	}
	return err
}

func (v *verifier) number() (float64, error) {
	x, err := strconv.ParseFloat(v.r.value, 64)
	if err != nil || !num.Finite(x) {
		return 0, fmt.Errorf("group %d is %q: no number", v.r.code, v.r.value)
	}
	return x, nil
}

// length is the group's number in mm.
func (v *verifier) length() (float64, error) {
	x, err := v.number()
	return x * v.per, err
}

// entity takes one group of an entity into the last of v.elements.
func (v *verifier) entity() error {
	if v.r.code == 0 {
		if v.r.value != "ENDSEC" {
			v.elements = append(v.elements, element{kind: v.r.value})
		}
		return nil
	}
	if len(v.elements) == 0 {
		return fmt.Errorf("group %d stands before the first entity", v.r.code)
	}
	e := &v.elements[len(v.elements)-1]
	var err error
	var x float64
	switch v.r.code {
	case 8:
		e.layer = v.r.value
	case 10:
		if e.kind == "LWPOLYLINE" {
			x, err = v.length()
			e.path, e.bulges = append(e.path, geom.Point{X: x}), append(e.bulges, 0)
			return err
		}
		e.a.X, err = v.length()
	case 20:
		if n := len(e.path); n > 0 {
			e.path[n-1].Y, err = v.length()
			return err
		}
		e.a.Y, err = v.length()
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
		if n := len(e.bulges); n > 0 {
			e.bulges[n-1] = x
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
		e.closed = v.r.value == "1"
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
		case e.layer == layerRows[marks].name:
			var s geom.Seg
			s, err = e.seg()
			v.marks++
			v.box = v.box.Union(s.Bounds())
		case e.kind == "CIRCLE":
			v.keep(contour{layer: e.layer, circle: geom.Circle{C: e.a, R: e.r}, box: geom.Box{}.
				Extend(geom.Point{X: e.a.X - e.r, Y: e.a.Y - e.r}).Extend(geom.Point{X: e.a.X + e.r, Y: e.a.Y + e.r})})
		case e.kind == "LWPOLYLINE":
			err = v.polyline(e, e.path, e.bulges)
		case e.kind == "POLYLINE":
			n, err = v.vertices(i)
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

func (v *verifier) keep(c contour) {
	v.box = v.box.Union(c.box)
	v.contours = append(v.contours, c)
}

func (v *verifier) polyline(e *element, path []geom.Point, bulges []float64) error {
	if !e.closed || len(path) < 2 {
		return fmt.Errorf("a polyline of %d vertices on %s is not closed", len(path), e.layer)
	}
	l := make(geom.Loop, len(path))
	for i, p := range path {
		l[i] = geom.BulgeSeg(p, path[(i+1)%len(path)], bulges[i])
	}
	v.keep(contour{layer: e.layer, segs: l, box: l.Bounds()})
	return nil
}

// vertices takes a POLYLINE with the VERTEX entities behind it.
func (v *verifier) vertices(i int) (n int, err error) {
	e := &v.elements[i]
	if e.a != (geom.Point{}) {
		return 1, fmt.Errorf("a polyline has a place of its own: %v", e.a)
	}
	var path []geom.Point
	var bulges []float64
	for n = 1; i+n < len(v.elements); n++ {
		switch w := &v.elements[i+n]; w.kind {
		case "VERTEX":
			path, bulges = append(path, w.a), append(bulges, w.r)
		case "SEQEND":
			return n + 1, v.polyline(e, path, bulges)
		default:
			return n, fmt.Errorf("a %s stands in a polyline", w.kind)
		}
	}
	return n, errors.New("a polyline has no end")
}

// chain joins lines and arcs from entity i on until they close.
func (v *verifier) chain(i int) (n int, err error) {
	var l geom.Loop
	layer := v.elements[i].layer
	for ; i+n < len(v.elements) && v.elements[i+n].layer == layer; n++ {
		s, err := v.elements[i+n].seg()
		if err != nil {
			return n, err
		}
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
		l = append(l, s)
		if n > 0 && s.B.Dist(l[0].A) <= readTol {
			if n == 1 && l.Area() < 0 { // two pieces meet either way round
				l[0], l[1] = l[0].Reverse(), l[1].Reverse()
			}
			v.keep(contour{layer: layer, segs: l, box: l.Bounds()})
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
		return fmt.Errorf("%d lines on %s, wanted %d", v.marks, layerRows[marks].name, want)
	}
	cuts := cutlist.Order(b)
	if len(cuts) != len(v.contours) {
		return fmt.Errorf("%d closed lines, wanted %d", len(v.contours), len(cuts))
	}
	for i := range cuts {
		if err := v.compareCut(&cuts[i], &v.contours[i]); err != nil {
			return fmt.Errorf("%s %q: %w", cuts[i].Kind, cuts[i].Name, err)
		}
	}
	return v.noDoubles(cuts)
}

func (v *verifier) compareHead() error {
	version, units := "AC1015", "4"
	if v.o.Unit == unit.Inch {
		units = "1"
	}
	if v.o.Version == R12 {
		version, units = "AC1009", ""
	}
	if v.version != version || v.units != units {
		return fmt.Errorf("version %q with unit %q, wanted %q with %q", v.version, v.units, version, units)
	}
	if v.box.Min.Dist(v.min) > readTol || v.box.Max.Dist(v.max) > readTol {
		return fmt.Errorf("it reaches from %v to %v mm and says %v to %v", v.box.Min, v.box.Max, v.min, v.max)
	}
	return nil
}

// marksOf is how many lines and arcs the marks of b have.
func (v *verifier) marksOf(b *blank.Blank) (n int) {
	for i := range b.Holes {
		if h := &b.Holes[i]; h.CutDia == 0 {
			n += 4
			if slotted(h) {
				n += 4
			}
		}
	}
	if v.o.NoMarks {
		return n
	}
	texts := v.o.Marks
	if texts == nil {
		texts = stroke.Place(b)
	}
	for i := range texts {
		for _, l := range texts[i].Strokes {
			n += len(l)
		}
	}
	return n
}

func (v *verifier) compareCut(c *cutlist.Cut, got *contour) error {
	if want := layerRows[layerOf[c.Kind]].name; got.layer != want {
		return fmt.Errorf("it is on layer %s, wanted %s", got.layer, want)
	}
	if c.Round {
		if got.segs != nil || got.circle.C.Dist(c.Circle.C.Sub(v.origin)) > readTol || math.Abs(got.circle.R-c.Circle.R) > readTol {
			return fmt.Errorf("it is no circle of diameter %v mm in its place", 2*c.Circle.R)
		}
		return nil
	}
	if len(got.segs) != len(c.Loop) {
		return fmt.Errorf("it has %d pieces, wanted %d", len(got.segs), len(c.Loop))
	}
	for i := range c.Loop {
		w, g := &c.Loop[i], &got.segs[i]
		if w.IsArc() != g.IsArc() || w.A.Sub(v.origin).Dist(g.A) > readTol || w.Mid().Sub(v.origin).Dist(g.Mid()) > readTol {
			return fmt.Errorf("piece %d, from %v, is not where it should be", i+1, w.A.Sub(v.origin))
		}
	}
	if area := got.segs.Area(); math.Abs(area-c.Loop.Area()) > readTol*max(1, c.Loop.Perimeter()) {
		return fmt.Errorf("its area is %v mm², wanted %v", area, c.Loop.Area())
	}
	return nil
}

// noDoubles asks that no two closed lines run along each other.
func (v *verifier) noDoubles(cuts []cutlist.Cut) error {
	order := make([]int, len(v.contours))
	for i := range order {
		order[i] = i
	}
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
	if c := &v.contours[i]; c.segs == nil {
		return geom.CircleLoop(c.circle)
	}
	return v.contours[i].segs
}
