package dxf

import (
	"sync"

	"github.com/yofu/dxf/block"
	"github.com/yofu/dxf/color"
	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/handle"
	"github.com/yofu/dxf/object"
	"github.com/yofu/dxf/table"
)

// frame is what all drawings of a version have in common: every section but
// HEADER and ENTITIES, and the layers and the owner that entities point to. It
// is made once through the library's types and only read afterwards.
type frame struct {
	version string
	drop    *groups        // groups that the version does not know
	before  []byte         // sections between HEADER and ENTITIES
	after   []byte         // sections after ENTITIES
	owner   handle.Handler // of entities
	layers  [layerCount]*table.Layer
	names   layerNames
	order   string       // the layers in cutting order, for people
	zero    *table.Layer // the layer that every drawing has, for the blocks
	next    int          // first handle that is free for entities
	old     bool         // R12: no units, no handles, no LWPOLYLINE
	err     error        // a value that could not be written
}

// section is one section of the file.
type section interface {
	Format(format.Formatter)
	SetHandle(*int)
}

// newFrames make the frame of each version.
var newFrames = [...]func(layerNames) *frame{R2000: newFrame2000, R12: newFrame12}

type frameKey struct {
	version Version
	layers  layerNames
}

// frames are those that were made, by version and layers.
var frames struct {
	sync.RWMutex
	made map[frameKey]*frame
}

// mostFrames is how many frames are kept: shops have one set of layers, but a
// folder of descriptions may name a profile each.
const mostFrames = 64

// frameOf is the frame of a version with layers of these names.
func frameOf(v Version, names layerNames) *frame {
	k := frameKey{v, names}
	frames.RLock()
	fr := frames.made[k]
	frames.RUnlock()
	if fr != nil {
		return fr
	}
	fr = newFrames[v](names)
	frames.Lock()
	defer frames.Unlock()
	if frames.made == nil || len(frames.made) >= mostFrames {
		frames.made = map[frameKey]*frame{}
	}
	frames.made[k] = fr
	return fr
}

// noExtrusion are the groups of an extrusion direction: everything lies in the
// plane z = 0 seen from above, which readers take for granted, while some turn
// arcs over where they meet these groups.
var noExtrusion = setOf(210, 220, 230)

// newFrame2000 has the tables, the two block records with their (empty) blocks
// and the dictionaries without which R2000 readers call a file incomplete.
func newFrame2000(names layerNames) *frame {
	root := &dictionary{}
	group := &dictionary{owner: root}
	styles, normal := object.NewAcDbDictionaryWDFLT(root)
	root.items = []item{{"ACAD_GROUP", group}, {"ACAD_PLOTSTYLENAME", styles}}
	objects := object.Objects{root, group, styles, normal}

	model := table.NewBlockRecord("*Model_Space")
	fr := &frame{version: "AC1015", drop: noExtrusion, owner: model, next: 1, names: names, order: names.inOrder()}
	tables := fr.tables(normal)
	tables = append(tables,
		newTable("DIMSTYLE", table.NewDimStyle("Standard")),
		newTable("BLOCK_RECORD", record{model}, record{table.NewBlockRecord("*Paper_Space")}))
	blocks := block.Blocks{block.NewBlock("*Model_Space", ""), block.NewBlock("*Paper_Space", "")}
	for _, b := range blocks {
		b.SetLayer(fr.zero)
	}
	for _, s := range []section{tables, blocks, objects} {
		s.SetHandle(&fr.next)
	}
	fr.before = fr.text(noClasses{}, tables, blocks)
	fr.after = fr.text(objects)
	return fr
}

// newFrame12 has the tables only. R12 has no handles here, no subclasses, no
// owners, no plot styles.
func newFrame12(names layerNames) *frame {
	fr := &frame{version: "AC1009", old: true, next: 1, names: names, order: names.inOrder(), drop: setOf(5, 100, 102, 105, 210, 220, 230, 330, 340, 350, 370, 390)}
	nothing := &dictionary{}
	fr.owner = nothing
	fr.before = fr.text(fr.tables(nothing))
	return fr
}

// tables makes the seven tables that both versions have, in their fixed order,
// with linetypes, text style and layers of its own.
func (fr *frame) tables(plot handle.Handler) table.Tables {
	solid, style := table.NewLineType("Continuous", "Solid line"), table.NewStyle("Standard")
	lines := newTable("LTYPE", table.NewLineType("ByLayer", ""), table.NewLineType("ByBlock", ""), solid)
	if fr.old {
		solid, style = table.NewLineType("CONTINUOUS", "Solid line"), table.NewStyle("STANDARD")
		lines = newTable("LTYPE", solid)
	}
	style.FontName, style.LastHeightUsed = "txt", 1
	sheet := newTable("LAYER")
	add := func(name string, colour color.ColorNumber) *table.Layer {
		l := table.NewLayer(name, colour, solid)
		l.SetPlotStyle(plot)
		sheet.Add(l)
		return l
	}
	fr.zero = add("0", color.White)
	for i, row := range fr.names {
		if row.name == "" {
			continue
		}
		fr.layers[i] = add(row.name, row.colour)
	}
	return table.Tables{
		newTable("VPORT"), lines, sheet, newTable("STYLE", style), newTable("VIEW"), newTable("UCS"),
		newTable("APPID", table.NewAppID("ACAD")),
	}
}

func newTable(name string, rows ...table.SymbolTable) *table.Table {
	t := table.NewTable(name)
	for _, r := range rows {
		t.Add(r)
	}
	return t
}

func (fr *frame) text(sections ...section) []byte {
	f := formatter{places: placesLength, drop: fr.drop}
	for _, s := range sections {
		s.Format(&f)
	}
	if fr.err == nil {
		fr.err = f.err
	}
	return f.buf
}

// noClasses is the empty CLASSES section.
type noClasses struct{}

// SetHandle is for the section interface; classes have no handles.
func (noClasses) SetHandle(*int) {}

// Format writes the section.
func (noClasses) Format(f format.Formatter) {
	f.WriteString(0, "SECTION")
	f.WriteString(2, "CLASSES")
	f.WriteString(0, "ENDSEC")
}

// record is a block record without the groups that came after R2000.
type record struct{ *table.BlockRecord }

// laterGroups came to BLOCK_RECORD with R2007.
var laterGroups = setOf(70, 280, 281)

// Format writes the record.
func (r record) Format(f format.Formatter) {
	own, ok := f.(*formatter)
	if !ok {
		r.BlockRecord.Format(f)
		return
	}
	kept := own.drop
	own.drop = laterGroups
	r.BlockRecord.Format(own)
	own.drop = kept
}
