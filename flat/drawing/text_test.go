package drawing_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/flat/drawing"
	"blankwright/flat/geom"
)

// sheet is the text of a drawing in the making.
type sheet struct {
	header   string
	tables   string
	blocks   string
	entities strings.Builder
	places   int // decimals; 0 for all there are
}

// mmHeader is a header of R2000 in mm.
const mmHeader = "9\n$ACADVER\n1\nAC1015\n9\n$INSUNITS\n70\n4\n9\n$MEASUREMENT\n70\n1\n"

func (s *sheet) number(v float64) string {
	if s.places > 0 {
		return strconv.FormatFloat(v, 'f', s.places, 64)
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// add writes an entity of its kind, layer and groups: code, value, code, value.
func (s *sheet) add(kind, layer string, groups ...any) {
	fmt.Fprintf(&s.entities, "0\n%s\n8\n%s\n", kind, layer)
	for i := 0; i < len(groups); i += 2 {
		v := groups[i+1]
		if f, ok := v.(float64); ok {
			v = s.number(f)
		}
		fmt.Fprintf(&s.entities, "%v\n%v\n", groups[i], v)
	}
}

func (s *sheet) line(layer string, a, b geom.Point) {
	s.add("LINE", layer, 10, a.X, 20, a.Y, 30, 0.0, 11, b.X, 21, b.Y, 31, 0.0)
}

func (s *sheet) circle(layer string, c geom.Point, r float64) {
	s.add("CIRCLE", layer, 10, c.X, 20, c.Y, 40, r)
}

func (s *sheet) arc(layer string, c geom.Circle, a, b geom.Point, ccw bool) {
	if !ccw {
		a, b = b, a
	}
	deg := func(p geom.Point) float64 { return math.Atan2(p.Y-c.C.Y, p.X-c.C.X) * 180 / math.Pi }
	s.add("ARC", layer, 10, c.C.X, 20, c.C.Y, 40, c.R, 50, deg(a), 51, deg(b))
}

// seg writes a segment as LINE or ARC.
func (s *sheet) seg(layer string, g geom.Seg) {
	if g.IsArc() {
		s.arc(layer, g.Circle(), g.A, g.B, g.Bulge > 0)
	} else {
		s.line(layer, g.A, g.B)
	}
}

// loop writes a loop as single segments, or as a circle where it is one.
func (s *sheet) loop(layer string, l geom.Loop) {
	if c, ok := l.Circle(); ok {
		s.circle(layer, c.C, c.R)
		return
	}
	for _, g := range l {
		s.seg(layer, g)
	}
}

// joined writes a loop as a closed LWPOLYLINE.
func (s *sheet) joined(layer string, l geom.Loop) {
	groups := []any{90, len(l), 70, 1}
	for _, g := range l {
		groups = append(groups, 10, g.A.X, 20, g.A.Y, 42, g.Bulge)
	}
	s.add("LWPOLYLINE", layer, groups...)
}

func section(name, body string) string {
	if body == "" {
		return ""
	}
	return "0\nSECTION\n2\n" + name + "\n" + body + "0\nENDSEC\n"
}

func (s *sheet) text() []byte {
	h := s.header
	if h == "" {
		h = mmHeader
	}
	return []byte(section("HEADER", h) + section("TABLES", s.tables) + section("BLOCKS", s.blocks) +
		"0\nSECTION\n2\nENTITIES\n" + s.entities.String() + "0\nENDSEC\n0\nEOF\n")
}

func (s *sheet) read(tb testing.TB) *drawing.Drawing {
	tb.Helper()
	d, err := drawing.Read("drawing.dxf", s.text(), drawing.Options{})
	require.NoError(tb, err)
	return d
}

func rectangle(x, y, w, h float64) geom.Loop {
	return geom.Polygon(pt(x, y), pt(x+w, y), pt(x+w, y+h), pt(x, y+h))
}
