package drawing

import (
	"fmt"

	"blankwright/flat/diag"
)

// document is what a file says, before blocks are inserted and units applied.
type document struct {
	in *scanner
	o  Options

	version     string
	insUnits    int // -1 where the file does not say
	measurement int // -1 where the file does not say
	comments    unitWords

	layers  names
	rows    []Layer // by layer, as its table gives it
	defined []bool  // the table has the layer

	blockNames names
	blocks     []block // by name
	model      block

	count int       // of entities
	vals  []float64 // numbers of all entities
	kinds names     // of entities that are not read
	drawn []bool    // by kind

	scratch splineGroups
}

// block is a named run of entities, or the drawing itself.
type block struct {
	known    bool
	external bool
	line     int
	base     [3]float64
	ents     []raw
}

func newDocument(name string, text []byte, o Options) *document {
	d := &document{in: newScanner(name, text), o: o, insUnits: -1, measurement: -1}
	d.layer([]byte("0"))
	return d
}

// read reads all sections.
func (d *document) read() {
	sections := map[string]func(){
		"HEADER": d.header, "TABLES": d.tables, "BLOCKS": d.blockSection, "ENTITIES": d.entitySection,
	}
	in := d.in
	drawn := false
	for in.next() {
		switch {
		case in.code == commentCode:
			d.comments.note(in.val)
		case in.is(0, "EOF"):
			if !drawn {
				in.fail(in.line, "the drawing has no ENTITIES section: there is nothing in it to cut", "save it again with its lines")
			}
			d.checkVersion()
			return
		case in.is(0, "SECTION"):
			line := in.line
			if !in.next() || in.code != 2 {
				d.truncated(line)
				return
			}
			name := string(in.val)
			drawn = drawn || name == "ENTITIES"
			if f := sections[name]; f != nil {
				f()
			} else {
				d.skipSection()
			}
		default:
			in.fail(in.line, fmt.Sprintf("group %d, %s outside of any section: wanted group 0, SECTION", in.code, quoted(in.val)),
				"the file is damaged: save it again")
		}
	}
	d.truncated(max(in.line, 1))
}

// truncated is for a text that ends before its EOF.
func (d *document) truncated(line int) {
	d.in.fail(line, "the file ends before its EOF: the rest of it is missing", "copy or save the file again")
}

// skipSection passes over a section that says nothing about lines.
func (d *document) skipSection() {
	line := d.in.line
	for d.in.next() {
		if d.in.is(0, "ENDSEC") {
			return
		}
	}
	d.truncated(line)
}

// versions are the formats that are read, by their numbers.
var versions = map[string]string{
	"AC1009": "R12", "AC1012": "R13", "AC1014": "R14", "AC1015": "R2000", "AC1018": "R2004",
	"AC1021": "R2007", "AC1024": "R2010", "AC1027": "R2013", "AC1032": "R2018",
}

func (d *document) checkVersion() {
	if d.version == "" {
		d.version = "AC1009" // a file that does not say is of the oldest kind
	}
	if versions[d.version] == "" && d.in.err == nil {
		d.in.err.AddHint(diag.Pos{File: d.in.file}, "save it as DXF R2000",
			"the drawing's version %s is not one that is read: wanted R12 to R2018", quoted([]byte(d.version)))
	}
}

// header reads the variables that matter.
func (d *document) header() {
	in := d.in
	line := in.line
	variable := ""
	for in.next() {
		switch {
		case in.is(0, "ENDSEC"):
			return
		case in.code == 9:
			variable = string(in.val)
		case variable == "$ACADVER" && in.code == 1:
			d.version = string(in.val)
		case variable == "$INSUNITS" && in.code == 70:
			d.insUnits = in.int()
		case variable == "$MEASUREMENT" && in.code == 70:
			d.measurement = in.int()
		}
	}
	d.truncated(line)
}

// tables reads the layers.
func (d *document) tables() {
	in := d.in
	line := in.line
	for in.next() {
		if in.is(0, "ENDSEC") {
			return
		}
		for in.is(0, "LAYER") {
			if !d.layerRow() {
				break
			}
			if in.is(0, "ENDSEC") {
				return
			}
		}
	}
	d.truncated(line)
}

// layerRow reads one layer of the table up to the next group 0.
func (d *document) layerRow() bool {
	in := d.in
	row := Layer{Colour: Colour{Index: plainColour}}
	id := int32(-1)
	for in.next() {
		switch in.code {
		case 0:
			if id >= 0 && !d.defined[id] {
				row.Name = d.rows[id].Name
				d.rows[id], d.defined[id] = row, true
			}
			return true
		case 2:
			id = d.layer(in.val)
		case 62:
			n := in.int()
			if n < 0 {
				row.Off, n = true, -n
			}
			if n >= 1 && n <= 255 {
				row.Colour.Index = n
			}
		case 70:
			row.Frozen = in.int()&1 != 0
		case 420:
			row.Colour.True, row.Colour.RGB = true, uint32(in.int())&0xFFFFFF
		}
	}
	return false
}

// plainColour is the colour number of what has no colour of its own: black or
// white, whichever is seen.
const plainColour = 7

// mostNames is how many layers, or blocks, a drawing may name; real ones have
// some hundreds.
const mostNames = 100_000

// number gives the number of a name among names.
func (d *document) number(among *names, name []byte) int32 {
	id := among.id(name)
	if len(among.byName) > mostNames {
		d.in.fail(d.in.line, fmt.Sprintf("the drawing names more than %d layers or blocks", mostNames), "split it, or purge it of what is not used")
	}
	return id
}

// layer gives the number of the layer with this name.
func (d *document) layer(name []byte) int32 {
	id := d.number(&d.layers, name)
	if int(id) == len(d.rows) {
		d.rows = append(d.rows, Layer{Colour: Colour{Index: plainColour}})
		d.defined = append(d.defined, false)
		d.rows[id].Name = decodeText(name)
	}
	return id
}

// blockNumber gives the number of the block with this name.
func (d *document) blockNumber(name []byte) int32 {
	id := d.number(&d.blockNames, name)
	if int(id) == len(d.blocks) {
		d.blocks = append(d.blocks, block{})
	}
	return id
}

// blockSection reads the blocks.
func (d *document) blockSection() {
	in := d.in
	line := in.line
	ok := in.next()
	for ok {
		switch {
		case in.is(0, "ENDSEC"):
			return
		case in.is(0, "BLOCK"):
			ok = d.block()
		default:
			ok = in.next()
		}
	}
	d.truncated(line)
}

// block reads one block up to what follows its end.
func (d *document) block() bool {
	in := d.in
	b := block{known: true, line: in.line}
	id := int32(-1)
	ok := in.next()
	for ; ok && in.code != 0; ok = in.next() {
		switch in.code {
		case 2:
			id = d.blockNumber(in.val)
		case 10, 20, 30:
			b.base[in.code/10-1] = in.float()
		case 70:
			b.external = in.int()&(4|8|16) != 0
		}
	}
	ok = ok && d.entities(&b, "ENDBLK")
	if id >= 0 && !d.blocks[id].known {
		d.blocks[id] = b
	}
	return ok && in.next()
}

// entitySection reads the drawing itself.
func (d *document) entitySection() {
	line := d.in.line
	if !d.in.next() || !d.entities(&d.model, "ENDSEC") {
		d.truncated(line)
	}
}

// entities reads entities from the group in hand to the one that ends them.
func (d *document) entities(into *block, end string) bool {
	in := d.in
	for ok := true; ok; {
		switch {
		case in.code != 0:
			ok = in.next()
		case string(in.val) == end:
			return true
		case in.is(0, "EOF") || in.is(0, "ENDSEC"):
			d.truncated(in.line)
			return false
		default:
			ok = d.entity(into)
		}
	}
	return false
}
