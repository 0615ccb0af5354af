package drawing

import (
	"fmt"

	"blankwright/flat/num"
)

// kind is what sort of entity a raw one is.
type kind uint8

const (
	rawLine    kind = iota // x y z of both ends
	rawCircle              // centre x y z, radius
	rawArc                 // centre x y z, radius, start and end in degrees
	rawLight               // elevation; x, y, bulge of each vertex
	rawHeavy               // the same, from POLYLINE and VERTEX
	rawSpatial             // x y z of each vertex: POLYLINE in space
	rawEllipse             // centre, major axis, ratio, start and end parameter
	rawSpline              // see splineGroups.store
	rawInsert              // place, scales, rotation, columns, rows, their spacing; name is the block
	rawText                // place; name is its kind
	rawIgnored             // name is its kind
)

// raw is an entity as the file gives it: numbers in the file's unit, in the
// entity's own coordinate system.
type raw struct {
	kind    kind
	closed  bool
	wide    bool  // drawn with a width
	tilted  bool  // an extrusion direction follows its numbers
	hidden  bool  // not to be seen
	colour  int16 // colourByLayer, colourByBlock or an index
	trueRGB int32 // -1 for none
	layer   int32
	name    int32
	line    int32
	at, n   int32 // its numbers in document.vals
}

const (
	colourByBlock = 0
	colourByLayer = 256
)

// groups collects what simple entities are made of.
type groups struct {
	raw
	p      [4][3]float64 // 10 to 13
	r      [6]float64    // 40 to 45
	a      [2]float64    // 50, 51
	n      [6]int        // 70 to 75
	elev   float64       // 38
	ext    [3]float64    // 210
	paper  bool          // 67
	seen   uint32        // bit i for 40+i, bit 8 for 10, bit 9 for 11
	nameAs []byte
}

func (g *groups) has(bit int) bool { return g.seen&(1<<bit) != 0 }

// texts are the kinds whose place is kept.
var texts = map[string]bool{"TEXT": true, "MTEXT": true, "ATTRIB": true}

// plainIgnored are the kinds without lines of their own to cut; others that are
// not read may hold some.
var plainIgnored = map[string]bool{
	"TEXT": true, "MTEXT": true, "ATTRIB": true, "ATTDEF": true, "DIMENSION": true, "ARC_DIMENSION": true,
	"LARGE_RADIAL_DIMENSION": true, "LEADER": true, "MULTILEADER": true, "MLEADER": true, "TOLERANCE": true,
	"POINT": true, "VIEWPORT": true, "HATCH": true, "IMAGE": true, "WIPEOUT": true, "OLE2FRAME": true,
	"OLEFRAME": true, "LIGHT": true, "SUN": true, "SECTION": true, "ACAD_TABLE": true, "UNDERLAY": true,
	"PDFUNDERLAY": true, "DWFUNDERLAY": true, "DGNUNDERLAY": true, "XLINE": true, "RAY": true, "SHAPE": true,
	"RTEXT": true, "CAMERA": true, "GEOPOSITIONMARKER": true, "POSITIONMARKER": true,
}

// entity reads one entity; its group 0 is in hand, and the next group 0 is when
// it is done.
func (d *document) entity(into *block) bool {
	in := d.in
	var g groups
	g.line, g.at = int32(in.line), int32(len(d.vals))
	g.trueRGB, g.colour = -1, colourByLayer
	ok := true
	window := string(in.val) == "VIEWPORT"
	switch string(in.val) {
	case kindLine:
		ok = d.collect(&g, nil)
		d.line(&g)
	case kindCircle:
		ok = d.collect(&g, nil)
		g.kind = rawCircle
		d.store(&g, g.p[0][0], g.p[0][1], g.p[0][2], g.r[0])
	case kindArc:
		ok = d.collect(&g, nil)
		g.kind = rawArc
		d.store(&g, g.p[0][0], g.p[0][1], g.p[0][2], g.r[0], g.a[0], g.a[1])
	case kindLight:
		ok = d.light(&g)
	case kindHeavy:
		ok = d.heavy(&g)
	case kindEllipse:
		ok = d.collect(&g, nil)
		d.ellipse(&g)
	case kindSpline:
		ok = d.spline(&g)
	case kindInsert:
		ok = d.collect(&g, nil)
		d.insert(&g)
	case "SEQEND":
		return d.skipEntity()
	default:
		ok = d.ignored(&g, string(in.val))
	}
	if in.err != nil || window || g.paper && g.kind == rawText {
		return ok // every layout has a window onto the drawing
	}
	if g.paper {
		g.kind, g.name = rawIgnored, d.ignoredKind(paperSpace, false)
	}
	into.ents = append(into.ents, g.raw)
	d.count++
	return d.roomy() && ok
}

// numbersEach is how many numbers an entity may have on average.
const numbersEach = 16

// roomy reports whether the drawing is still within its limits.
func (d *document) roomy() bool {
	if n := d.o.Limits.Pieces; d.count > n || len(d.vals) > numbersEach*n {
		return d.in.fail(d.in.line, fmt.Sprintf("the drawing has more than %d entities, or too many corners", n),
			"split it: a drawing of one job has far fewer")
	}
	return true
}

// collect reads groups up to the next group 0. take has the first word on each;
// it reports whether it used it.
func (d *document) collect(g *groups, take func(code int) bool) bool {
	in := d.in
	for in.next() {
		c := in.code
		switch {
		case c == 0:
			return true
		case c == 102:
			if !d.skipBraces() {
				return in.code == 0 && in.err == nil
			}
		case c == 101:
			return d.skipEntity() // an object in the object: no groups of ours follow
		case c > 1000 || c == commentCode:
		case take != nil && take(c):
		default:
			d.common(g, c)
		}
	}
	return false
}

// common takes a group that means the same in most entities.
func (d *document) common(g *groups, c int) {
	in := d.in
	switch c {
	case 10, 11, 12, 13, 20, 21, 22, 23, 30, 31, 32, 33:
		g.p[c%10][c/10-1] = in.float()
		if c == 10 || c == 11 {
			g.seen |= 1 << (c - 2)
		}
	case 40, 41, 42, 43, 44, 45:
		g.r[c-40] = in.float()
		g.seen |= 1 << (c - 40)
	case 50, 51:
		g.a[c-50] = in.float()
	case 70, 71, 72, 73, 74, 75:
		g.n[c-70] = in.int()
	case 2:
		g.nameAs = in.val
	case 8:
		g.layer = d.layer(in.val)
	case 38:
		g.elev = in.float()
	case 60:
		g.hidden = in.int() == 1
	case 62:
		if n := in.int(); n >= 0 && n <= colourByLayer {
			g.colour = int16(n)
		}
	case 67:
		g.paper = in.int() == 1
	case 210, 220, 230:
		if c == 210 {
			g.ext = [3]float64{}
		}
		g.ext[(c-210)/10] = in.float()
		g.tilted = true
	case 420:
		g.trueRGB = int32(in.int()) & 0xFFFFFF
	}
}

// skipBraces passes over groups that a program keeps to itself, between 102 {...
// and 102 }.
func (d *document) skipBraces() bool {
	in := d.in
	if len(in.val) == 0 || in.val[0] != '{' {
		return true
	}
	for in.next() {
		if in.code == 0 {
			return false
		}
		if in.is(102, "}") {
			return true
		}
	}
	return false
}

// skipEntity passes over the rest of an entity.
func (d *document) skipEntity() bool {
	for d.in.next() {
		if d.in.code == 0 {
			return true
		}
	}
	return false
}

// store keeps the entity's numbers, and its extrusion direction where it has
// one that is not straight up.
func (d *document) store(g *groups, vs ...float64) {
	d.vals = append(d.vals, vs...)
	d.finish(g)
}

// finish closes the entity's numbers.
func (d *document) finish(g *groups) {
	if g.ext == [3]float64{0, 0, 1} || g.ext == [3]float64{} {
		g.tilted = false
	}
	if g.tilted {
		d.vals = append(d.vals, g.ext[:]...)
	}
	g.raw.n = int32(len(d.vals)) - g.at
}

func (d *document) line(g *groups) {
	g.kind = rawLine
	g.tilted = false // both ends are in the drawing's own system
	d.store(g, g.p[0][0], g.p[0][1], g.p[0][2], g.p[1][0], g.p[1][1], g.p[1][2])
}

func (d *document) ellipse(g *groups) {
	g.kind = rawEllipse
	if !g.has(1) && !g.has(2) {
		g.r[2] = fullTurn
	}
	d.store(g, g.p[0][0], g.p[0][1], g.p[0][2], g.p[1][0], g.p[1][1], g.p[1][2], g.r[0], g.r[1], g.r[2])
}

// light reads an LWPOLYLINE.
func (d *document) light(g *groups) bool {
	in := d.in
	g.kind = rawLight
	d.vals = append(d.vals, 0) // the elevation, when it is known
	first := len(d.vals)
	ok := d.collect(g, func(c int) bool {
		switch c {
		case 10:
			d.vals = append(d.vals, in.float(), 0, 0)
			d.roomy()
		case 20, 42:
			n := len(d.vals)
			if n == first {
				return true // belongs to no vertex
			}
			if c == 20 {
				d.vals[n-2] = in.float()
			} else {
				d.vals[n-1] = in.float()
			}
		case 40, 41, 43:
			g.wide = g.wide || !num.Zero(in.float())
		case 30, 91:
		default:
			return false
		}
		return true
	})
	d.vals[first-1] = g.elev
	g.closed = g.n[0]&1 != 0
	d.finish(g)
	return ok
}

// Flags of POLYLINE and VERTEX, group 70.
const (
	flagClosed    = 1
	flagSpatial   = 8
	flagMesh      = 16 | 64
	flagFrame     = 16 // of a vertex: it steers a spline and is not on it
	flagFaceIndex = 128
)

// heavy reads a POLYLINE with its VERTEX entities.
func (d *document) heavy(g *groups) bool {
	ok := d.collect(g, nil)
	g.closed = g.n[0]&flagClosed != 0
	g.wide = !num.Zero(g.r[0]) || !num.Zero(g.r[1])
	spatial, mesh := g.n[0]&flagSpatial != 0, g.n[0]&flagMesh != 0
	g.kind = rawHeavy
	if spatial {
		g.kind, g.tilted = rawSpatial, false
	} else {
		d.vals = append(d.vals, g.p[0][2])
	}
	for ok && d.in.is(0, "VERTEX") && d.roomy() {
		var v groups
		ok = d.collect(&v, nil)
		switch {
		case mesh || v.n[0]&(flagFrame|flagFaceIndex) != 0:
		case spatial:
			d.vals = append(d.vals, v.p[0][:]...)
		default:
			d.vals = append(d.vals, v.p[0][0], v.p[0][1], v.r[2])
			g.wide = g.wide || !num.Zero(v.r[0]) || !num.Zero(v.r[1])
		}
	}
	if ok && d.in.is(0, "SEQEND") {
		ok = d.skipEntity()
	}
	if mesh {
		d.vals = d.vals[:g.at]
		g.kind, g.name, g.tilted = rawIgnored, d.ignoredKind("POLYLINE mesh", true), false
	}
	d.finish(g)
	return ok
}

// insert keeps an INSERT.
func (d *document) insert(g *groups) {
	g.kind = rawInsert
	g.name = d.blockNumber(g.nameAs)
	for i := 1; i <= 3; i++ {
		if !g.has(i) {
			g.r[i] = 1
		}
	}
	d.store(g, g.p[0][0], g.p[0][1], g.p[0][2], g.r[1], g.r[2], g.r[3], g.a[0],
		float64(max(1, g.n[0])), float64(max(1, g.n[1])), g.r[4], g.r[5])
}

// ignored counts an entity that is not read; of a text the place is kept.
func (d *document) ignored(g *groups, name string) bool {
	if !texts[name] {
		g.kind, g.name = rawIgnored, d.ignoredKind(name, !plainIgnored[name])
		return d.collect(g, func(c int) bool { return c != 8 && c != 60 && c != 67 })
	}
	g.kind, g.name = rawText, d.ignoredKind(name, false)
	ok := d.collect(g, func(c int) bool {
		switch c {
		case 8, 10, 20, 30, 60, 67, 210, 220, 230:
			return false
		}
		return true
	})
	if name == "MTEXT" {
		g.tilted = false // its place is in the drawing's own system
	}
	d.store(g, g.p[0][0], g.p[0][1], g.p[0][2])
	return ok
}

// paperSpace stands for the kinds of all that is drawn on a layout's paper.
const paperSpace = "entities in paper space"

// mostKinds is how many kinds of unknown entity are told apart.
const mostKinds = 100

// ignoredKind gives the number of a kind that is not read.
func (d *document) ignoredKind(name string, drawn bool) int32 {
	if _, known := d.kinds.byName[name]; !known && len(d.kinds.list) >= mostKinds {
		name, drawn = "entities of other kinds", true
	}
	id := d.kinds.id([]byte(name))
	if int(id) == len(d.drawn) {
		d.drawn = append(d.drawn, drawn)
	}
	return id
}

// kindName is the name of a kind that is not read, fit to be printed.
func (d *document) kindName(id int32) string { return decodeText([]byte(d.kinds.list[id])) }
