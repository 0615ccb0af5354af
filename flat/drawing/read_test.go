package drawing_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"blankwright/flat/diag"
	"blankwright/flat/drawing"
	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

func TestReadErrors(t *testing.T) {
	sound := string((&sheet{}).text())
	entity := func(body string) string {
		return "0\nSECTION\n2\nENTITIES\n" + body + "0\nENDSEC\n0\nEOF\n"
	}
	version := func(v string) string {
		return strings.Replace(sound, "AC1015", v, 1)
	}
	for _, c := range []struct{ why, text, want string }{
		{"nothing", "", "d.dxf: error: the file is empty"},
		{"blanks", " \r\n \x00\x1a", "the file is empty"},
		{"binary", "AutoCAD Binary DXF\r\n\x1a\x00\x00\x00SECTION", "binary DXF"},
		{"dxb", "AutoCAD DXB 1.0\r\n\x1a\x00", "DXB"},
		{"dwg", "AC1032\x00\x00\x00\x00", "DWG"},
		{"old dwg", "AC1.50\x00", "DWG"},
		{"pdf", "%PDF-1.7\n", "PDF"},
		{"packed", "PK\x03\x04\x14", "packed"},
		{"utf-16", "\xff\xfe0\x00\n\x00", "UTF-16"},
		{"svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>\n", "not a DXF drawing"},
		{"words", "hello\nworld\n", "not a DXF drawing"},
		{"json", "{\n}\n", "not a DXF drawing"},
		{"no section", "0\nLINE\n", "not a DXF drawing"},
		{"only a code", "0\n", "not a DXF drawing"},
		{"cut after a section", "0\nSECTION\n", "ends before its EOF"},
		{"cut in a value", strings.TrimSuffix(sound, "EOF\n"), "ends after a group code"},
		{"no EOF", strings.TrimSuffix(sound, "0\nEOF\n"), "ends before its EOF"},
		{"no end of section", "0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n0\nEOF\n", "ends before its EOF"},
		{"no end of block", "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nA\n0\nLINE\n0\nENDSEC\n0\nEOF\n", "ends before its EOF"},
		{"section in section", "0\nSECTION\n0\nSECTION\n", "ends before its EOF"},
		{"no entities", "0\nSECTION\n2\nHEADER\n0\nENDSEC\n0\nEOF\n", "no ENTITIES section"},
		{"nothing but EOF", "0\nEOF\n", "no ENTITIES section"},
		{"outside", "0\nSECTION\n2\nHEADER\n0\nENDSEC\n0\nLINE\n", "outside of any section"},
		{"bad code", entity("0\nLINE\n8\n0\nx1\n0.0\n"), `d.dxf:9:1: error: "x1" is not a group code`},
		{"long code", entity("0\nLINE\n123456\n0\n"), "not a group code"},
		{"empty code", entity("0\nLINE\n\n0\n"), "not a group code"},
		{"bad number", entity("0\nLINE\n10\n1,5\n"), `d.dxf:8:1: error: group 10 holds "1,5": wanted a number`},
		{"no number", entity("0\nCIRCLE\n40\n\n"), `group 40 holds ""`},
		{"not a number", entity("0\nCIRCLE\n40\nnan\n"), `group 40 holds "nan"`},
		{"infinite", entity("0\nCIRCLE\n40\ninf\n"), `group 40 holds "inf"`},
		{"too large", entity("0\nCIRCLE\n40\n1e999\n"), `group 40 holds "1e999"`},
		{"hex", entity("0\nCIRCLE\n40\n0x1p4\n"), `group 40 holds "0x1p4"`},
		{"long number", entity("0\nCIRCLE\n40\n" + strings.Repeat("1", 1000) + "\n"), `1"...: wanted a number`},
		{"escape in a message", entity("0\nCIRCLE\n40\n\x1b[31m\n"), `\x1b[31m`},
		{"old version", version("AC1006"), `version "AC1006" is not one that is read`},
		{"new version", version("AC1050"), `version "AC1050" is not one that is read`},
		{"itself", "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nA\n0\nINSERT\n2\na\n0\nENDBLK\n0\nENDSEC\n" +
			entity("0\nINSERT\n2\nA\n"), "inserts itself"},
		{"in a ring", "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nA\n0\nINSERT\n2\nB\n0\nENDBLK\n0\nBLOCK\n2\nB\n0\nINSERT\n2\nA\n0\nENDBLK\n0\nENDSEC\n" +
			entity("0\nINSERT\n2\nA\n"), "inserts itself"},
	} {
		t.Run(c.why, func(t *testing.T) {
			d, err := drawing.Read("d.dxf", []byte(c.text), drawing.Options{})
			require.Error(t, err)
			assert.Nil(t, d)
			assert.Contains(t, err.Error(), c.want)
			assert.Contains(t, err.Error(), "hint: ")
			var ps diag.Problems
			require.True(t, errors.As(err, &ps))
			assert.Equal(t, "d.dxf", ps[0].Pos.File)
			for _, r := range err.Error() {
				assert.True(t, r == '\n' || r >= ' ', "control character in %q", err.Error())
			}
		})
	}
}

// TestTruncated cuts a drawing after each byte: an error each time, but where
// only the end of the last line is missing.
func TestTruncated(t *testing.T) {
	s := &sheet{}
	s.loop("0", cradle())
	s.joined("0", rectangle(0, 100, 10, 10))
	s.blocks = "0\nBLOCK\n2\nA\n10\n0\n0\nCIRCLE\n40\n5\n0\nENDBLK\n"
	text := s.text()
	for n := range len(text) - 1 {
		_, err := drawing.Read("d.dxf", text[:n], drawing.Options{})
		require.Error(t, err, "cut after byte %d", n)
	}
	_, err := drawing.Read("d.dxf", text[:len(text)-1], drawing.Options{})
	assert.NoError(t, err)
}

// TestLineEnds reads the same drawing with all the ways to end a line.
func TestLineEnds(t *testing.T) {
	s := &sheet{}
	s.loop("0", cradle())
	text := string(s.text())
	for why, text := range map[string]string{
		"lf":            text,
		"crlf":          strings.ReplaceAll(text, "\n", "\r\n"),
		"cr":            strings.ReplaceAll(text, "\n", "\r"),
		"cr cr lf":      strings.ReplaceAll(text, "\n", "\r\r\n"),
		"blanks":        strings.ReplaceAll(text, "\n", " \t\n  "),
		"byte order":    "\xef\xbb\xbf" + text,
		"end of text":   text + "\x1a",
		"blank lines":   text + "\n\n",
		"after the EOF": text + "0\nSECTION\nx\n",
		"comments":      "999\nmade at the farm\n" + strings.ReplaceAll(text, "0\nLINE\n", "999\nnow a line\n0\nLINE\n999\ninside\n"),
	} {
		t.Run(why, func(t *testing.T) {
			d, err := drawing.Read("d.dxf", []byte(text), drawing.Options{})
			require.NoError(t, err)
			require.Len(t, d.Shapes, len(cradle()))
			assert.Equal(t, "R2000", d.Version)
		})
	}
}

func TestUnits(t *testing.T) {
	head := func(vars ...any) string {
		text := ""
		for i := 0; i < len(vars); i += 2 {
			text += fmt.Sprintf("9\n%v\n70\n%v\n", vars[i], vars[i+1])
		}
		if text == "" {
			text = "9\n$ACADVER\n1\nAC1009\n"
		}
		return text
	}
	for _, c := range []struct {
		why    string
		header string
		before string
		o      drawing.Options
		size   float64 // of the plate, in the file
		unit   string
		mm     float64
		from   drawing.UnitFrom
		doubt  string // "" for none
	}{
		{"tags agree, mm", head("$INSUNITS", 4, "$MEASUREMENT", 1), "", drawing.Options{}, 150, "mm", 1, drawing.ByTag, ""},
		{"tags agree, inch", head("$INSUNITS", 1, "$MEASUREMENT", 0), "", drawing.Options{}, 6, "in", 25.4, drawing.ByTag, ""},
		{"tag alone", head("$INSUNITS", 5), "", drawing.Options{}, 15, "cm", 10, drawing.ByTag, ""},
		{"metres", head("$INSUNITS", 6), "", drawing.Options{}, 0.15, "m", 1000, drawing.ByTag, ""},
		{"feet", head("$INSUNITS", 2), "", drawing.Options{}, 0.5, "ft", 304.8, drawing.ByTag, ""},
		{"tags disagree", head("$INSUNITS", 1, "$MEASUREMENT", 1), "", drawing.Options{}, 6, "in", 25.4, drawing.ByTag,
			"the drawing's units disagree: $INSUNITS says in, $MEASUREMENT says metric; read in in"},
		{"tags disagree the other way", head("$INSUNITS", 4, "$MEASUREMENT", 0), "", drawing.Options{}, 150, "mm", 1, drawing.ByTag,
			"the drawing's units disagree: $INSUNITS says mm, $MEASUREMENT says inches; read in mm"},
		{"no tag", head(), "", drawing.Options{}, 150, "mm", 1, drawing.Assumed, "the drawing does not say its unit: read in mm"},
		{"unitless", head("$INSUNITS", 0), "", drawing.Options{}, 150, "mm", 1, drawing.Assumed, "the drawing does not say its unit: read in mm"},
		{"measuring system alone", head("$MEASUREMENT", 0), "", drawing.Options{}, 6, "in", 25.4, drawing.ByMeasurement,
			"the drawing has no unit ($INSUNITS), only a measuring system ($MEASUREMENT): read in in"},
		{"unit of the heavens", head("$INSUNITS", 18, "$MEASUREMENT", 1), "", drawing.Options{}, 150, "mm", 1, drawing.ByMeasurement,
			"$INSUNITS is 18, which is no unit of a part; read in mm"},
		{"a comment", head(), "999\ncoordinates in inches: table must show 6 x 3 in\n", drawing.Options{}, 6, "in", 25.4, drawing.ByComment, ""},
		{"a comment against the tag", head("$INSUNITS", 4), "999\ncoordinates in inches\n", drawing.Options{}, 150, "mm", 1, drawing.ByTag,
			"the drawing's units disagree: $INSUNITS says mm, a comment says inches; read in mm"},
		{"the person's word", head("$INSUNITS", 4, "$MEASUREMENT", 0), "", drawing.Options{Unit: unit.Inch}, 6, "in", 25.4, drawing.ByCaller, ""},
		{"inches said to be mm", head("$INSUNITS", 4), "", drawing.Options{}, 6, "mm", 1, drawing.ByTag,
			"likely unit mistake: read in mm ($INSUNITS) everything fits into 6 mm; in in that would be 6 in (152.4 mm)"},
		{"mm said to be inches", head("$INSUNITS", 1), "", drawing.Options{}, 400, "in", 25.4, drawing.ByTag,
			"likely unit mistake: read in in ($INSUNITS) it is 400 in (10160 mm) long; in mm that would be 400 mm"},
		{"small mm said to be inches", head("$INSUNITS", 1), "", drawing.Options{}, 150, "in", 25.4, drawing.ByTag,
			"likely unit mistake: read in in ($INSUNITS) its smallest hole is 15 in (381 mm); in mm that would be 150 mm"},
		{"mm said to be metres", head("$INSUNITS", 6), "", drawing.Options{}, 90, "m", 1000, drawing.ByTag,
			"likely unit mistake: read in m ($INSUNITS) it is 90000 mm long; in mm that would be 90 mm"},
	} {
		t.Run(c.why, func(t *testing.T) {
			s := &sheet{header: c.header}
			s.loop("0", rectangle(0, 0, c.size, c.size/2))
			s.circle("0", pt(c.size/4, c.size/4), c.size/20)
			d, err := drawing.Read("d.dxf", append([]byte(c.before), s.text()...), c.o)
			require.NoError(t, err)
			assert.Equal(t, c.unit, d.Unit.Name)
			assert.InDelta(t, c.mm, d.Unit.MM, 1e-12)
			assert.Equal(t, c.from, d.Unit.From)
			assert.InDelta(t, c.size*c.mm, d.Bounds().Width(), 1e-9)
			var met []string
			for _, f := range d.Faults {
				assert.Equal(t, drawing.UnitDoubt, f.Kind)
				assert.NotEmpty(t, f.Fix)
				met = append(met, f.Message)
			}
			if c.doubt == "" {
				assert.Empty(t, met)
			} else {
				assert.Contains(t, met, c.doubt)
			}
		})
	}
}

// TestLayersAndColours looks up colours by layer and by block, and layers of
// what is drawn on layer 0 of a block.
func TestLayersAndColours(t *testing.T) {
	s := &sheet{}
	s.tables = "0\nTABLE\n2\nLAYER\n70\n3\n" +
		"0\nLAYER\n2\nOUTLINE\n70\n0\n62\n3\n" +
		"0\nLAYER\n2\nGone\n70\n0\n62\n-5\n" +
		"0\nLAYER\n2\nFROST\n70\n1\n62\n5\n" +
		"0\nLAYER\n2\nTrue\n70\n0\n62\n4\n420\n1193046\n0\nENDTAB\n"
	s.blocks = "0\nBLOCK\n2\nB\n0\nLINE\n8\n0\n11\n50\n0\nLINE\n8\n0\n62\n0\n11\n50\n0\nLINE\n8\nTrue\n11\n50\n0\nENDBLK\n"
	s.add("LINE", "outline", 11, 40.0)
	s.add("LINE", "OUTLINE", 11, 40.0, 62, 1)
	s.add("LINE", "OUTLINE", 11, 40.0, 420, 255)
	s.add("LINE", "gone", 11, 40.0)
	s.add("LINE", "FROST", 11, 40.0)
	s.add("LINE", "OUTLINE", 11, 40.0, 60, 1)
	s.add("LINE", `N\U+00E4he`+"\xe4", 11, 40.0)
	s.add("INSERT", "OUTLINE", 2, "b", 62, 6)
	s.add("INSERT", "Gone", 2, "b")  // switched off: what has a layer of its own stays
	s.add("INSERT", "FROST", 2, "b") // frozen: all of it is gone
	s.add("LINE", "OUTLINE", 11, 40.0, 67, 1)
	d := s.read(t)
	var got []string
	for _, sh := range d.Shapes {
		c := fmt.Sprint(sh.Colour.Index)
		if sh.Colour.True {
			c = fmt.Sprintf("#%06x", sh.Colour.RGB)
		}
		got = append(got, d.Layers[sh.Layer].Name+" "+c)
	}
	assert.Equal(t, []string{"OUTLINE 3", "OUTLINE 1", "OUTLINE #0000ff", "Näheä 7", "OUTLINE 3", "OUTLINE 6", "True #123456", "True #123456"}, got)
	require.Len(t, d.Ignored, 1)
	assert.Equal(t, "entities in paper space", d.Ignored[0].Kind)
	var hidden []string
	for _, f := range d.Faults {
		if f.Kind == drawing.Hidden {
			hidden = append(hidden, f.Message)
		}
	}
	assert.Equal(t, []string{
		`1 shape on layer "OUTLINE" not to be seen and left out, but a table may cut what is there`,
		`3 shapes on layer "Gone" not to be seen and left out, but a table may cut what is there`,
		`3 shapes on layer "FROST" not to be seen and left out, but a table may cut what is there`,
		`1 shape on layer "True" not to be seen and left out, but a table may cut what is there`,
	}, hidden)

	kept := d.Keep(func(l drawing.Layer) bool { return l.Name == "True" })
	require.Len(t, kept.Shapes, 2)
	assert.Len(t, d.Shapes, 8)
}

// TestIgnored counts and names what is not read, and warns of what may hold
// lines.
func TestIgnored(t *testing.T) {
	s := &sheet{}
	s.line("0", pt(0, 0), pt(50, 0))
	for _, kind := range []string{"TEXT", "MTEXT", "DIMENSION", "HATCH", "POINT", "HATCH", "REGION", "MLINE", "ATTDEF", "ACAD_PROXY_ENTITY"} {
		s.add(kind, "0", 10, 1.0, 20, 2.0, 40, "x,y")
	}
	s.add("POLYLINE", "0", 66, 1, 70, 64)
	s.add("VERTEX", "0", 10, 1.0, 70, 192)
	s.add("SEQEND", "0")
	d := s.read(t)
	got := map[string]int{}
	for _, g := range d.Ignored {
		got[g.Kind] = g.Count
		assert.Positive(t, g.Line)
	}
	assert.Equal(t, map[string]int{"TEXT": 1, "MTEXT": 1, "DIMENSION": 1, "HATCH": 2, "POINT": 1, "REGION": 1, "MLINE": 1,
		"ATTDEF": 1, "ACAD_PROXY_ENTITY": 1, "POLYLINE mesh": 1}, got)
	require.Len(t, d.Texts, 2)
	var warned []string
	for _, f := range d.Faults {
		if f.Kind == drawing.NotRead {
			warned = append(warned, f.Message)
		}
	}
	assert.Equal(t, []string{
		"1 of the kind REGION are not read and may hold lines to cut",
		"1 of the kind MLINE are not read and may hold lines to cut",
		"1 of the kind ACAD_PROXY_ENTITY are not read and may hold lines to cut",
		"1 of the kind POLYLINE mesh are not read and may hold lines to cut",
	}, warned)
}

// TestFaultsOfReading looks for what is wrong with single entities.
func TestFaultsOfReading(t *testing.T) {
	for _, c := range []struct {
		why    string
		add    func(s *sheet)
		kind   drawing.Kind
		at     geom.Point
		shapes int
		text   string
	}{
		{"height", func(s *sheet) { s.add("CIRCLE", "0", 10, 5.0, 20, 6.0, 30, 2.5, 40, 20.0) }, drawing.NotLevel, pt(25, 6), 1,
			"CIRCLE lies at z = 2.5 mm, not 0; it is taken as seen from above at 25, 6"},
		{"elevation", func(s *sheet) {
			s.add("LWPOLYLINE", "0", 90, 2, 38, -1.0, 10, 1.0, 20, 2.0, 10, 50.0, 20, 2.0)
		}, drawing.NotLevel, pt(1, 2), 1, "LWPOLYLINE lies at z = -1 mm"},
		{"leaning", func(s *sheet) { s.add("CIRCLE", "0", 40, 20.0, 220, 1.0, 230, 1.0) }, drawing.Tilted, geom.Point{}, 1, "leans"},
		{"edge on", func(s *sheet) { s.add("CIRCLE", "0", 40, 20.0, 220, 1.0, 230, 0.0) }, drawing.Tilted, geom.Point{}, 1, "leans"},
		{"far out", func(s *sheet) { s.line("0", pt(0, 0), pt(200_000, 0)) }, drawing.OutOfRange, geom.Point{}, 0, "reaches farther than 100000 mm"},
		{"endless", func(s *sheet) { s.circle("0", pt(0, 0), 1e300) }, drawing.OutOfRange, geom.Point{}, 0, "is left out"},
		{"huge ellipse", func(s *sheet) { s.add("ELLIPSE", "0", 11, 1e8, 40, 0.5) }, drawing.OutOfRange, geom.Point{}, 0, "is left out"},
		{"huge bulge", func(s *sheet) {
			s.add("LWPOLYLINE", "0", 90, 2, 10, 0.0, 20, 0.0, 42, 1e200, 10, 50.0, 20, 0.0)
		}, drawing.OutOfRange, geom.Point{}, 0, "is left out"},
		{"huge fit point", func(s *sheet) {
			s.add("SPLINE", "0", 71, 3, 11, 1e200, 21, 0.0, 11, 5.0, 21, 5.0, 11, 9.0, 21, 0.0)
		}, drawing.OutOfRange, geom.Point{}, 0, "is left out"},
		{"huge control point", func(s *sheet) {
			s.add("SPLINE", "0", 71, 1, 40, 0, 40, 0, 40, 1, 40, 1, 10, 1e200, 20, 0.0, 10, 5.0, 20, 0.0)
		}, drawing.Unreadable, geom.Point{}, 0, "out of range"},
		{"wide", func(s *sheet) {
			s.add("LWPOLYLINE", "0", 90, 2, 43, 2.0, 10, 1.0, 20, 2.0, 10, 50.0, 20, 2.0)
		}, drawing.Wide, pt(1, 2), 1, "LWPOLYLINE has a width"},
		{"no such block", func(s *sheet) { s.add("INSERT", "0", 2, "NOWHERE", 10, 7.0, 20, 8.0) }, drawing.Unreadable, pt(7, 8), 0,
			`the block "NOWHERE" that is to be inserted is not in the drawing at 7, 8`},
		{"block elsewhere", func(s *sheet) {
			s.blocks = "0\nBLOCK\n2\nX\n70\n4\n1\nother.dwg\n0\nENDBLK\n"
			s.add("INSERT", "0", 2, "X")
		}, drawing.Unreadable, geom.Point{}, 0, "lies in another file"},
		{"spline without knots", func(s *sheet) {
			s.add("SPLINE", "0", 71, 3, 10, 3.0, 20, 4.0, 10, 1.0, 20, 0.0, 10, 2.0, 20, 0.0, 10, 3.0, 20, 0.0)
		}, drawing.Unreadable, pt(3, 4), 0, "the number of its knots does not fit"},
		{"spline with nothing", func(s *sheet) { s.add("SPLINE", "0", 71, 3) }, drawing.Unreadable, geom.Point{}, 0, "neither control points"},
		{"spline of degree 99", func(s *sheet) { s.add("SPLINE", "0", 71, 99, 10, 0.0, 20, 0.0) }, drawing.Unreadable, geom.Point{}, 0, "its degree"},
		{"spline with falling knots", func(s *sheet) {
			s.add("SPLINE", "0", 71, 1, 40, 0, 40, 1, 40, 0, 40, 1, 10, 0.0, 20, 0.0, 10, 5.0, 20, 0.0)
		}, drawing.Unreadable, geom.Point{}, 0, "its knots do not grow"},
		{"spline of no length", func(s *sheet) {
			s.add("SPLINE", "0", 71, 1, 40, 1, 40, 1, 40, 1, 40, 1, 10, 0.0, 20, 0.0, 10, 5.0, 20, 0.0)
		}, drawing.Unreadable, geom.Point{}, 0, "its knots leave it no length"},
		{"spline of no weight", func(s *sheet) {
			s.add("SPLINE", "0", 71, 1, 40, 0, 40, 0, 40, 1, 40, 1, 41, 1, 41, 0, 10, 0.0, 20, 0.0, 10, 5.0, 20, 0.0)
		}, drawing.Unreadable, geom.Point{}, 0, "a weight is not more than 0"},
		{"spline of too few weights", func(s *sheet) {
			s.add("SPLINE", "0", 71, 1, 40, 0, 40, 0, 40, 1, 40, 1, 41, 1, 10, 0.0, 20, 0.0, 10, 5.0, 20, 0.0)
		}, drawing.Unreadable, geom.Point{}, 0, "not one weight for each"},
	} {
		t.Run(c.why, func(t *testing.T) {
			s := &sheet{}
			s.line("0", pt(-100, 0), pt(-100, 50)) // a size that raises no doubt
			c.add(s)
			d := s.read(t)
			assert.Len(t, d.Shapes, 1+c.shapes)
			require.Len(t, d.Faults, 1)
			f := d.Faults[0]
			assert.Equal(t, c.kind, f.Kind, f.Message)
			assert.Contains(t, f.Message, c.text)
			assert.NotEmpty(t, f.Fix)
			if c.at != (geom.Point{}) {
				assert.InDelta(t, 0, f.At.Dist(c.at), 1e-9)
			}
			assert.Positive(t, f.Line)
		})
	}
}

// TestLimits refuses what goes beyond each limit, naming it.
func TestLimits(t *testing.T) {
	many := &sheet{}
	for i := range 50 {
		many.line("0", pt(float64(i), 0), pt(float64(i), 50))
	}
	bomb := &sheet{}
	for i := range 20 {
		in := fmt.Sprintf("0\nINSERT\n2\nB%d\n", i+1)
		bomb.blocks += fmt.Sprintf("0\nBLOCK\n2\nB%d\n", i) + strings.Repeat(in, 10) + "0\nENDBLK\n"
	}
	bomb.blocks += "0\nBLOCK\n2\nB20\n0\nLINE\n11\n9\n0\nENDBLK\n"
	bomb.add("INSERT", "0", 2, "B0")
	hollow := &sheet{blocks: strings.Replace(bomb.blocks, "0\nLINE\n11\n9\n", "", 1)}
	hollow.add("INSERT", "0", 2, "B0")
	array := &sheet{blocks: "0\nBLOCK\n2\nB\n0\nENDBLK\n"}
	array.add("INSERT", "0", 2, "B", 70, 2147483647, 71, 2147483647)
	texts := &sheet{blocks: "0\nBLOCK\n2\nB\n0\nTEXT\n0\nENDBLK\n"}
	texts.add("INSERT", "0", 2, "B", 70, 32000, 71, 32000)
	deep := &sheet{}
	for i := range 100 {
		deep.blocks += fmt.Sprintf("0\nBLOCK\n2\nB%d\n0\nINSERT\n2\nB%d\n0\nENDBLK\n", i, i+1)
	}
	deep.add("INSERT", "0", 2, "B0")
	layers, corners := &sheet{}, &sheet{}
	var groups, vertices []any
	for i := range 110_000 {
		groups = append(groups, 8, fmt.Sprint("L", i))
	}
	for i := range 2000 {
		vertices = append(vertices, 10, float64(i), 20, 1.0)
	}
	layers.add("LINE", "0", groups...)
	corners.add("LWPOLYLINE", "0", vertices...)
	knots := &sheet{}
	knots.add("SPLINE", "0", vertices...)
	for _, c := range []struct {
		why  string
		s    *sheet
		l    drawing.Limits
		want string
	}{
		{"layers", layers, drawing.Limits{}, "names more than 100000 layers"},
		{"corners", corners, drawing.Limits{Pieces: 300}, "too many corners"},
		{"corners of one line", corners, drawing.Limits{Pieces: 500}, "more than 500 lines and arcs"},
		{"a spline", knots, drawing.Limits{Pieces: 300}, "more numbers than a drawing may have"},
		{"bytes", many, drawing.Limits{Bytes: 100}, "larger than 100 bytes"},
		{"pieces", many, drawing.Limits{Pieces: 49}, "more than 49 entities"},
		{"steps", many, drawing.Limits{Steps: 49}, "takes too long"},
		{"blocks in blocks", bomb, drawing.Limits{}, "more than 500000 lines and arcs"},
		{"hollow blocks in blocks", hollow, drawing.Limits{}, "takes too long"},
		{"a huge array of nothing", array, drawing.Limits{}, "takes too long"},
		{"a huge array of texts", texts, drawing.Limits{}, "more than 500000 lines and arcs"},
		{"depth", deep, drawing.Limits{}, "more than 32 deep"},
	} {
		t.Run(c.why, func(t *testing.T) {
			_, err := drawing.Read("d.dxf", c.s.text(), drawing.Options{Limits: c.l})
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.want)
		})
	}
	_, err := drawing.Read("d.dxf", many.text(), drawing.Options{Limits: drawing.Limits{Pieces: 50, Steps: 50, Bytes: len(many.text())}})
	assert.NoError(t, err, "on the limit")
}

// TestFaultLimit lists no more faults of a kind than the limit, and says how many
// there are.
func TestFaultLimit(t *testing.T) {
	s := &sheet{}
	for i := range 30 {
		s.add("LINE", "0", 10, float64(i), 30, 3.0, 11, float64(i), 21, 40.0, 31, 3.0)
	}
	d, err := drawing.Read("d.dxf", s.text(), drawing.Options{Limits: drawing.Limits{Faults: 10}})
	require.NoError(t, err)
	require.Len(t, d.Faults, 11)
	assert.Equal(t, drawing.More, d.Faults[10].Kind)
	assert.Equal(t, "20 more faults of the kind not-level are not listed", d.Faults[10].Message)
	a := drawing.Assemble(d, 0)
	strays := 0
	for _, f := range a.Faults {
		if f.Kind == drawing.Stray {
			strays++
		}
	}
	assert.Equal(t, 10, strays)
}

func TestReadFrom(t *testing.T) {
	s := &sheet{}
	s.circle("0", pt(0, 0), 20)
	d, err := drawing.ReadFrom("d.dxf", iotest.OneByteReader(strings.NewReader(string(s.text()))), drawing.Options{})
	require.NoError(t, err)
	assert.Len(t, d.Shapes, 1)
	_, err = drawing.ReadFrom("d.dxf", endless{}, drawing.Options{Limits: drawing.Limits{Bytes: 1000}})
	assert.ErrorContains(t, err, "larger than 1000 bytes")
	_, err = drawing.ReadFrom("d.dxf", iotest.ErrReader(errors.New("no disk")), drawing.Options{})
	assert.EqualError(t, err, "d.dxf: no disk")
}

type endless struct{}

func (endless) Read(p []byte) (int, error) { return len(p), nil }

// TestArcs reads arcs in all their turns.
func TestArcs(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		segs     int
		sweep    float64 // degrees
	}{
		{0, 90, 1, 90}, {90, 0, 2, 270}, {0, 180, 1, 180}, {350, 10, 1, 20}, {-10, 10, 1, 20}, {10, -10, 2, 340},
		{0, 360, 2, 360}, {-180, 180, 2, 360}, {720, 810, 1, 90}, {30, 30, 1, 0}, {1e6, 1e6 + 90, 1, 90}, {0, 181, 2, 181},
	} {
		s := &sheet{}
		s.add("ARC", "0", 10, 10.0, 20, 20.0, 40, 30.0, 50, c.from, 51, c.to)
		d := s.read(t)
		require.Len(t, d.Shapes, 1)
		segs := d.Shapes[0].Segs
		assert.Len(t, segs, c.segs, "%v", c)
		sweep := 0.0
		for _, g := range segs {
			sweep += g.Sweep() * 180 / math.Pi
			if g.IsArc() {
				assert.Equal(t, geom.Circle{C: pt(10, 20), R: 30}, g.Circle())
			}
		}
		assert.InDelta(t, c.sweep, sweep, 1e-7, "%v", c)
		if c.sweep < 360 {
			at := c.from * math.Pi / 180
			assert.InDelta(t, 0, segs[0].A.Dist(pt(10, 20).Polar(30, at)), 1e-8, "%v", c)
		}
		assert.Equal(t, c.sweep == 360, d.Shapes[0].Closed)
	}
}

// TestBulges holds polylines with bulges of all sizes against the definition:
// the arc's middle lies bulge times half the chord off the chord's, to the right
// of a positive one.
func TestBulges(t *testing.T) {
	for _, kind := range []string{"LWPOLYLINE", "POLYLINE"} {
		for _, b := range []float64{1e-4, 0.1, 0.5, 1, 1.5, 4, 50, -0.3, -1, -3} {
			s := &sheet{}
			p, q := pt(10, 5), pt(40, 25)
			if kind == "LWPOLYLINE" {
				s.add(kind, "0", 90, 2, 70, 0, 10, p.X, 20, p.Y, 42, b, 10, q.X, 20, q.Y)
			} else {
				s.add(kind, "0", 66, 1)
				s.add("VERTEX", "0", 10, p.X, 20, p.Y, 42, b)
				s.add("VERTEX", "0", 10, q.X, 20, q.Y)
				s.add("SEQEND", "0")
			}
			segs := s.read(t).Shapes[0].Segs
			w := q.Sub(p)
			mid := p.Add(q).Mul(0.5).Sub(w.Perp().Mul(b / 2))
			off := math.Inf(1)
			length := 0.0
			for _, g := range segs {
				off = math.Min(off, geom.PointSeg(mid, g).D)
				length += g.Length()
			}
			assert.InDelta(t, 0, off, 1e-9, "%s bulge %g", kind, b)
			r := w.Len() / 2 * (1 + b*b) / (2 * math.Abs(b))
			assert.InDelta(t, r*4*math.Atan(math.Abs(b)), length, 1e-7, "%s bulge %g", kind, b)
			assert.Equal(t, p, segs[0].A)
			assert.Equal(t, q, segs[len(segs)-1].B)
		}
	}
}

// TestSplineFrame leaves out the vertices that only steer a spline-fit polyline.
func TestSplineFrame(t *testing.T) {
	s := &sheet{}
	s.add("POLYLINE", "0", 66, 1, 70, 4)
	s.add("VERTEX", "0", 10, 0.0, 20, 0.0, 70, 8)
	s.add("VERTEX", "0", 10, 99.0, 20, 99.0, 70, 16)
	s.add("VERTEX", "0", 10, 50.0, 20, 0.0, 70, 8)
	s.add("SEQEND", "0")
	s.line("0", pt(0, 10), pt(50, 10)) // after SEQEND reading goes on
	d := s.read(t)
	require.Len(t, d.Shapes, 2)
	assert.Equal(t, []geom.Seg{geom.Line(pt(0, 0), pt(50, 0))}, d.Shapes[0].Segs)
}

// TestForeignGroups passes over what programs keep to themselves.
func TestForeignGroups(t *testing.T) {
	s := &sheet{}
	s.add("LINE", "0", 102, "{PRIVATE", 10, "x", 11, "y", 102, "}", 10, 1.0, 11, 50.0, 1001, "APP", 1010, 7.0)
	s.add("CIRCLE", "0", 10, 5.0, 40, 20.0, 101, "Embedded Object", 10, 99.0, 40, 99.0)
	d := s.read(t)
	require.Len(t, d.Shapes, 2)
	assert.Equal(t, pt(1, 0), d.Shapes[0].Segs[0].A)
	c, ok := geom.Loop(d.Shapes[1].Segs).Circle()
	assert.True(t, ok)
	assert.Equal(t, geom.Circle{C: pt(5, 0), R: 20}, c)
}

// TestManyKinds tells only so many kinds apart that are not read.
func TestManyKinds(t *testing.T) {
	s := &sheet{}
	s.line("0", pt(0, 0), pt(50, 0))
	for i := range 150 {
		s.add(fmt.Sprintf("THING%d", i), "0")
	}
	d := s.read(t)
	require.Len(t, d.Ignored, 101)
	assert.Equal(t, drawing.Ignored{Kind: "entities of other kinds", Count: 50, Line: d.Ignored[100].Line, Drawn: true}, d.Ignored[100])
}

// TestThinOvals reads ellipses that are lines, and bulges too flat to be arcs.
func TestThinOvals(t *testing.T) {
	s := &sheet{}
	s.add("ELLIPSE", "0", 11, 50.0, 40, 1e-12)
	s.add("ELLIPSE", "0", 11, 50.0, 40, 1e-12, 41, 0.0, 42, 1.5707963267948966)
	s.add("LWPOLYLINE", "0", 90, 2, 10, 0.0, 20, 0.0, 42, 1e-13, 10, 50.0, 20, 0.0)
	d := s.read(t)
	require.Len(t, d.Shapes, 3)
	for i, want := range []geom.Seg{geom.Line(pt(50, 0), pt(-50, 0)), geom.Line(pt(50, 0), pt(0, 0)), geom.Line(pt(0, 0), pt(50, 0))} {
		got := d.Shapes[i].Segs
		require.Len(t, got, 1)
		assert.False(t, got[0].IsArc())
		assert.InDelta(t, 0, got[0].A.Dist(want.A)+got[0].B.Dist(want.B), 1e-9)
	}
}
