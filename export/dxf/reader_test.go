package dxf_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"blankwright/flat/geom"
)

// The reader here knows the format from its reference, not from the writer, and
// forgives nothing: what it does not expect is an error.

// group is one code and its value.
type group struct {
	code  int
	value string
}

// object is what one group 0 begins, or a header variable (kind is its name).
type object struct {
	kind   string
	groups []group
}

// drawing is a file read back.
type drawing struct {
	comments []string
	header   map[string]object
	layers   []string
	entities []object
	handles  map[int]bool
}

// readGroups cuts a file into groups: pairs of lines, printable ASCII, each
// ended by CR LF.
func readGroups(data []byte) ([]group, error) {
	if !bytes.HasSuffix(data, []byte("\r\n")) {
		return nil, errors.New("the last line has no end")
	}
	lines := strings.Split(strings.TrimSuffix(string(data), "\r\n"), "\r\n")
	if len(lines)%2 != 0 {
		return nil, fmt.Errorf("%d lines: they come in pairs", len(lines))
	}
	var gs []group
	for i := 0; i < len(lines); i += 2 {
		for _, l := range lines[i : i+2] {
			if len(l) > 255 {
				return nil, fmt.Errorf("line %d has %d characters", i+1, len(l))
			}
			for _, c := range []byte(l) {
				if c < ' ' || c > '~' {
					return nil, fmt.Errorf("line %d or its pair holds byte %#x", i+1, c)
				}
			}
		}
		code, err := strconv.Atoi(strings.TrimLeft(lines[i], " "))
		if err != nil || len(lines[i]) < 3 || code < 0 {
			return nil, fmt.Errorf("line %d: group code %q", i+1, lines[i])
		}
		gs = append(gs, group{code, lines[i+1]})
	}
	return gs, nil
}

var sectionNames = map[bool]string{
	false: "HEADER CLASSES TABLES BLOCKS ENTITIES OBJECTS",
	true:  "HEADER TABLES ENTITIES",
}

// read reads a drawing of the given version whole.
func read(data []byte, old bool) (*drawing, error) {
	gs, err := readGroups(data)
	if err != nil {
		return nil, err
	}
	d := &drawing{handles: map[int]bool{}}
	for len(gs) > 0 && gs[0].code == 999 {
		d.comments = append(d.comments, gs[0].value)
		gs = gs[1:]
	}
	if n := len(gs); n == 0 || gs[n-1] != (group{0, "EOF"}) {
		return nil, errors.New("the last group is not EOF")
	}
	gs = gs[:len(gs)-1]
	var names []string
	var pointers []int
	for len(gs) > 0 {
		if len(gs) < 2 || gs[0] != (group{0, "SECTION"}) || gs[1].code != 2 {
			return nil, fmt.Errorf("met %v where a section was to begin", gs[0])
		}
		end := slices.Index(gs, group{0, "ENDSEC"})
		if end < 0 {
			return nil, errors.New("section without end")
		}
		name, body := gs[1].value, gs[2:end]
		gs = gs[end+1:]
		names = append(names, name)
		if err := d.section(name, body); err != nil {
			return nil, fmt.Errorf("section %s: %w", name, err)
		}
		for _, g := range body {
			switch {
			case g.code == 999:
				return nil, errors.New("comment outside the head of the file")
			case old && (g.code == 100 || g.code == 5 || g.code == 330):
				return nil, fmt.Errorf("group %v in an old drawing", g)
			case g.code == 330 || g.code == 340 || g.code == 350 || g.code == 390:
				h, err := strconv.ParseInt(g.value, 16, 32)
				if err != nil {
					return nil, err
				}
				pointers = append(pointers, int(h))
			}
		}
	}
	if got := strings.Join(names, " "); got != sectionNames[old] {
		return nil, fmt.Errorf("sections are %s", got)
	}
	for _, p := range pointers {
		if p != 0 && !d.handles[p] {
			return nil, fmt.Errorf("pointer to %X, which is nowhere", p)
		}
	}
	return d, d.checkSeed(old)
}

func (d *drawing) checkSeed(old bool) error {
	if old {
		return nil
	}
	seed, err := strconv.ParseInt(d.header["$HANDSEED"].groups[0].value, 16, 32)
	for h := range d.handles {
		if h >= int(seed) || h <= 0 {
			return fmt.Errorf("handle %X with seed %X", h, seed)
		}
	}
	return err
}

func (d *drawing) section(name string, body []group) error {
	if name == "HEADER" {
		d.header = map[string]object{}
		for _, o := range split(body, 9) {
			d.header[o.kind] = o
		}
		return nil
	}
	for _, o := range split(body, 0) {
		if name != "ENTITIES" && o.kind == "LAYER" {
			d.layers = append(d.layers, o.text(2))
		}
		if name == "ENTITIES" {
			if err := checkEntity(o, d.layers); err != nil {
				return fmt.Errorf("entity %d, %s: %w", len(d.entities)+1, o.kind, err)
			}
			d.entities = append(d.entities, o)
		}
		for _, g := range o.groups {
			if g.code == 5 || g.code == 105 {
				h, err := strconv.ParseInt(g.value, 16, 32)
				if err != nil || d.handles[int(h)] {
					return fmt.Errorf("handle %q is bad or there twice", g.value)
				}
				d.handles[int(h)] = true
			}
		}
	}
	return nil
}

// split cuts groups into objects, each begun by the given code.
func split(gs []group, code int) []object {
	var os []object
	for _, g := range gs {
		if g.code == code {
			os = append(os, object{kind: g.value})
			continue
		}
		if len(os) == 0 {
			os = append(os, object{kind: "?"})
		}
		last := &os[len(os)-1]
		last.groups = append(last.groups, g)
	}
	return os
}

func (o object) text(code int) string {
	for _, g := range o.groups {
		if g.code == code {
			return g.value
		}
	}
	return ""
}

func (o object) number(code int) float64 {
	v, err := strconv.ParseFloat(o.text(code), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

func (o object) point(code int) geom.Point {
	return geom.Point{X: o.number(code), Y: o.number(code + 10)}
}

var common = []int{5, 330, 100, 8}

// allowed are the groups that each kind of entity may have.
var allowed = map[string][]int{
	"LINE":       {10, 20, 30, 11, 21, 31},
	"CIRCLE":     {10, 20, 30, 40},
	"ARC":        {10, 20, 30, 40, 50, 51},
	"LWPOLYLINE": {90, 70, 10, 20, 42},
	"POLYLINE":   {66, 10, 20, 30, 70},
	"VERTEX":     {10, 20, 30, 70, 42},
	"SEQEND":     {},
}

func checkEntity(o object, layers []string) error {
	codes, ok := allowed[o.kind]
	if !ok {
		return errors.New("not wanted on a table")
	}
	for _, g := range o.groups {
		if !slices.Contains(codes, g.code) && !slices.Contains(common, g.code) {
			return fmt.Errorf("group %v", g)
		}
		if g.code == 30 || g.code == 31 {
			if v, err := strconv.ParseFloat(g.value, 64); err != nil || v != 0 {
				return fmt.Errorf("z is %s", g.value)
			}
		}
		if g.code >= 10 && g.code <= 59 {
			v, err := strconv.ParseFloat(g.value, 64)
			if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || v == 0 && g.value[0] == '-' {
				return fmt.Errorf("group %v", g)
			}
		}
		if g.code == 50 || g.code == 51 {
			if v, _ := strconv.ParseFloat(g.value, 64); v < 0 || v >= 360 {
				return fmt.Errorf("angle %s", g.value)
			}
		}
	}
	if l := o.text(8); l == "0" || !slices.Contains(layers, l) {
		return fmt.Errorf("layer %q", l)
	}
	return nil
}

// piece is a line (r is 0) or an arc as drawn, sweep counter-clockwise positive.
type piece struct {
	a, b     geom.Point
	c        geom.Point
	r, sweep float64
}

// ring is a closed run of pieces on a layer; a whole circle is one piece.
type ring struct {
	layer  string
	pieces []piece
}

func (r ring) circle() bool { return len(r.pieces) == 1 }

// area is the area inside the ring, counter-clockwise positive: Green's
// theorem, chords and the circle segments on them.
func (r ring) area() float64 {
	if r.circle() {
		return math.Pi * r.pieces[0].r * r.pieces[0].r
	}
	o, sum := r.pieces[0].a, 0.0
	for _, p := range r.pieces {
		sum += p.a.Sub(o).Cross(p.b.Sub(o)) / 2
		sum += p.r * p.r * (p.sweep - math.Sin(p.sweep)) / 2
	}
	return sum
}

// gap is the largest distance between neighbours' ends.
func (r ring) gap() float64 {
	worst := 0.0
	for i, p := range r.pieces {
		worst = max(worst, p.b.Dist(r.pieces[(i+1)%len(r.pieces)].a))
	}
	return worst
}

// rings walks the entities in file order and joins those that meet within tol.
// The crosses on the marks layer are left out; see crosses.
func (d *drawing) rings(tol float64) ([]ring, error) {
	var rs []ring
	for i := 0; i < len(d.entities); {
		o := d.entities[i]
		switch {
		case o.text(8) == "MARKS" || o.text(8) == "BENDS":
			i++
		case o.kind == "CIRCLE":
			c := piece{c: o.point(10), r: o.number(40), sweep: 2 * math.Pi}
			rs = append(rs, ring{o.text(8), []piece{c}})
			i++
		case o.kind == "LWPOLYLINE":
			r, err := lightRing(o)
			if err != nil {
				return nil, err
			}
			rs = append(rs, r)
			i++
		case o.kind == "POLYLINE":
			r, n, err := heavyRing(d.entities[i:])
			if err != nil {
				return nil, err
			}
			rs = append(rs, r)
			i += n
		default:
			r, err := looseRing(d.entities[i:], tol)
			if err != nil {
				return nil, fmt.Errorf("from entity %d: %w", i+1, err)
			}
			rs = append(rs, r)
			i += len(r.pieces)
		}
	}
	return rs, nil
}

// crosses gives the four lines of each of the n punch marks, which come before
// the strokes of texts.
func (d *drawing) crosses(n int) [][]piece {
	var all []piece
	for _, o := range d.entities {
		if o.text(8) == "MARKS" && o.kind == "LINE" && len(all) < 4*n {
			all = append(all, pieceOf(o, false))
		}
	}
	return slices.Collect(slices.Chunk(all, 4))
}

func lightRing(o object) (ring, error) {
	var ps []geom.Point
	var bulges []float64
	for _, g := range o.groups {
		v, _ := strconv.ParseFloat(g.value, 64)
		switch g.code {
		case 10:
			ps, bulges = append(ps, geom.Point{X: v}), append(bulges, 0)
		case 20:
			ps[len(ps)-1].Y = v
		case 42:
			bulges[len(bulges)-1] = v
		}
	}
	if o.number(90) != float64(len(ps)) || o.text(70) != "1" {
		return ring{}, fmt.Errorf("polyline of %d vertices says %s, flag %s", len(ps), o.text(90), o.text(70))
	}
	return bulgeRing(o.text(8), ps, bulges), nil
}

func heavyRing(os []object) (ring, int, error) {
	if os[0].text(70) != "1" || os[0].text(66) != "1" {
		return ring{}, 0, errors.New("polyline is not a closed one with vertices")
	}
	var ps []geom.Point
	var bulges []float64
	for i, o := range os[1:] {
		if o.kind == "SEQEND" {
			return bulgeRing(os[0].text(8), ps, bulges), i + 2, nil
		}
		if o.kind != "VERTEX" || o.text(70) != "0" || o.text(8) != os[0].text(8) {
			return ring{}, 0, fmt.Errorf("met %v in a polyline", o)
		}
		b := 0.0
		if o.text(42) != "" {
			b = o.number(42)
		}
		ps, bulges = append(ps, o.point(10)), append(bulges, b)
	}
	return ring{}, 0, errors.New("polyline without end")
}

func bulgeRing(layer string, ps []geom.Point, bulges []float64) ring {
	r := ring{layer: layer}
	for i, a := range ps {
		b := ps[(i+1)%len(ps)]
		p := piece{a: a, b: b}
		if k := bulges[i]; k != 0 {
			p.sweep = 4 * math.Atan(k)
			p.r = a.Dist(b) / 2 / math.Abs(math.Sin(p.sweep/2))
			h := (1 - k*k) / (4 * k)
			d := b.Sub(a)
			p.c = a.Add(d.Mul(0.5)).Add(d.Perp().Mul(h))
		}
		r.pieces = append(r.pieces, p)
	}
	return r
}

// pieceOf reads a LINE or an ARC, the arc backwards where asked.
func pieceOf(o object, back bool) piece {
	if o.kind == "LINE" {
		return piece{a: o.point(10), b: o.point(11)}
	}
	p := piece{c: o.point(10), r: o.number(40)}
	from, to := o.number(50)*math.Pi/180, o.number(51)*math.Pi/180
	p.sweep = to - from
	if p.sweep <= 0 {
		p.sweep += 2 * math.Pi
	}
	p.a, p.b = p.c.Polar(p.r, from), p.c.Polar(p.r, to)
	if back {
		p.a, p.b, p.sweep = p.b, p.a, -p.sweep
	}
	return p
}

// looseRing joins single lines and arcs in file order. Lines run in walking
// order; an arc has lost its direction, which its neighbours tell, or where it
// has only one, that loops run counter-clockwise.
func looseRing(os []object, tol float64) (ring, error) {
	r, err := walk(os, false, tol)
	if os[0].kind == "ARC" && (err != nil || r.area() < 0) {
		return walk(os, true, tol)
	}
	return r, err
}

func walk(os []object, back bool, tol float64) (ring, error) {
	r := ring{layer: os[0].text(8), pieces: []piece{pieceOf(os[0], back)}}
	for _, o := range os[1:] {
		end := r.pieces[len(r.pieces)-1].b
		if o.text(8) != r.layer || o.kind != "LINE" && o.kind != "ARC" {
			return ring{}, fmt.Errorf("%s on %s before the loop is closed", o.kind, o.text(8))
		}
		p := pieceOf(o, false)
		if o.kind == "ARC" && p.a.Dist(end) > p.b.Dist(end) {
			p = pieceOf(o, true)
		}
		if d := p.a.Dist(end); d > tol {
			return ring{}, fmt.Errorf("gap of %g at %v", d, end)
		}
		r.pieces = append(r.pieces, p)
		if p.b.Dist(r.pieces[0].a) <= tol {
			return r, nil
		}
	}
	return ring{}, fmt.Errorf("never closes: %d pieces from %v", len(r.pieces), r.pieces[0].a)
}
