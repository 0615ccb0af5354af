package drawing_test

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"blankwright/export/dxf"
	"blankwright/flat/diag"
	"blankwright/flat/drawing"
	"blankwright/flat/geom"
	"blankwright/flat/num"
	"blankwright/flat/unit"
)

// fuzzLimits keep one run short, so that many are made.
var fuzzLimits = drawing.Limits{Bytes: 1 << 18, Pieces: 5000, Steps: 100_000, Faults: 50}

// FuzzRead: whatever the text, reading, assembling and mending come to an end
// without a panic; what is read can be drawn, regions are sound, and words hold
// nothing that a terminal might obey.
func FuzzRead(f *testing.F) {
	for _, b := range ownParts(f)[:2] {
		for _, o := range []dxf.Options{{Unit: unit.Inch}, {Unit: unit.Millimetre, Version: dxf.R12, Joined: true}} {
			text, err := dxf.Write(b, o)
			require.NoError(f, err)
			f.Add(text)
		}
	}
	for _, name := range []string{"curves", "blocks", "odd"} {
		f.Add(fuzzSeed(name))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		d, err := drawing.Read("f.dxf", text, drawing.Options{Limits: fuzzLimits})
		if err != nil {
			var ps diag.Problems
			require.True(t, errors.As(err, &ps))
			printable(t, err.Error())
			return
		}
		checkDrawing(t, d)
	})
}

func printable(t *testing.T, text string) {
	t.Helper()
	for _, r := range text {
		if r < ' ' && r != '\n' || r == 0x7f || r >= 0x80 && r < 0xa0 {
			t.Fatalf("control character in %q", text)
		}
	}
}

// checkDrawing holds a drawing and all that is made of it to their promises.
func checkDrawing(t *testing.T, d *drawing.Drawing) *drawing.Mended {
	t.Helper()
	for _, s := range d.Shapes {
		require.NotEmpty(t, s.Segs)
		for i, g := range s.Segs {
			require.True(t, num.Finite(g.A.X, g.A.Y, g.B.X, g.B.Y, g.Bulge))
			require.LessOrEqual(t, math.Abs(g.Bulge), 1.0)
			if i > 0 {
				require.Equal(t, s.Segs[i-1].B, g.A)
			}
		}
		if s.Deviation > d.CurveError {
			t.Fatalf("%s in line %d lies %g off its curve", s.Kind, s.Line, s.Deviation)
		}
	}
	a := drawing.Assemble(d, 0)
	for _, f := range a.Faults {
		printable(t, f.Message+f.Fix+f.Layer)
		require.NotEmpty(t, f.Message)
		require.True(t, num.Finite(f.At.X, f.At.Y, f.To.X, f.To.Y, f.Size), "%v", f)
	}
	m := drawing.Mend(a)
	for _, r := range m.Regions {
		require.NoError(t, r.Validate())
	}
	for _, c := range m.Changes {
		printable(t, c.Message)
	}
	if !serious(a.Faults) {
		for _, f := range m.Left {
			require.NotEqual(t, drawing.LeftOut, f.Kind, "nothing was found wrong, but %s", f.Message)
		}
		require.Len(t, m.Regions, len(a.Regions()))
	}
	return m
}

// serious reports whether any fault is an error.
func serious(fs []drawing.Fault) bool {
	for _, f := range fs {
		if f.Severity == diag.Error {
			return true
		}
	}
	return false
}

func fuzzSeed(name string) []byte {
	s := &sheet{}
	switch name {
	case "curves":
		s.add("ELLIPSE", "0", 10, 50.0, 11, 40.0, 21, 3.0, 40, 0.5, 41, 1.0, 42, 4.0, 210, 0.0, 220, 0.0, 230, -1.0)
		s.add("SPLINE", "0", 70, 12, 71, 2, 40, 0, 40, 0, 40, 0, 40, 1, 40, 1, 40, 1, 41, 1, 41, 2, 41, 1,
			10, 0.0, 20, 0.0, 10, 50.0, 20, 30.0, 10, 90.0, 20, 0.0)
		s.add("SPLINE", "0", 70, 1, 71, 3, 11, 0.0, 21, 0.0, 11, 50.0, 21, 30.0, 11, 90.0, 21, 0.0, 11, 40.0, 21, -30.0)
		s.add("SPLINE", "0", 71, 3, 12, 1.0, 22, 0.0, 13, 0.0, 23, 1.0, 11, 0.0, 21, 0.0, 11, 50.0, 21, 30.0)
	case "blocks":
		s.tables = "0\nTABLE\n2\nLAYER\n0\nLAYER\n2\nA\n62\n-3\n70\n1\n0\nENDTAB\n"
		s.blocks = "0\nBLOCK\n2\nB\n10\n1\n20\n2\n0\nCIRCLE\n40\n9\n0\nLWPOLYLINE\n90\n2\n70\n1\n10\n0\n20\n0\n42\n0.5\n10\n30\n20\n0\n42\n2\n" +
			"0\nENDBLK\n0\nBLOCK\n2\nC\n0\nINSERT\n2\nB\n41\n-2\n50\n30\n70\n2\n71\n2\n44\n50\n45\n60\n0\nENDBLK\n"
		s.add("INSERT", "0", 2, "C", 10, 5.0, 41, 1.0, 42, 2.0, 43, 1.0, 50, 10.0)
		s.add("INSERT", "0", 2, "B", 230, -1.0)
	default:
		s.header = "9\n$ACADVER\n1\nAC1009\n9\n$INSUNITS\n70\n1\n9\n$MEASUREMENT\n70\n1\n"
		s.add("POLYLINE", "0", 66, 1, 70, 1, 30, 1.0)
		s.add("VERTEX", "0", 10, 0.0, 20, 0.0, 42, 1.0)
		s.add("VERTEX", "0", 10, 30.0, 20, 0.0, 42, 1.0)
		s.add("SEQEND", "0")
		s.add("TEXT", "0", 10, 15.0, 20, 0.0)
		s.add("ARC", "0", 40, 9.0, 50, 10.0, 51, 300.0, 67, 0)
		s.add("LINE", "MARKS", 102, "{X", 102, "}", 10, 5.0)
	}
	return s.text()
}

// FuzzAssemble draws lines, arcs and circles on a small grid, some nudged by one
// last digit, one tolerance or one distance of near doubles, so that ends meet,
// lines double and outlines touch all the time. Regions are sound, and a clean
// copy is clean: drawn and looked at again it stays as it is.
func FuzzAssemble(f *testing.F) {
	f.Add([]byte("\x00\x00\x05\x00\x00\x05\x05\x05\x00\x05\x00\x00"))
	f.Add([]byte{0, 0x00, 0x60, 0, 0, 0x60, 0x66, 0, 0, 0x66, 0x06, 1, 0, 0x06, 0x00, 0, 2, 0x33, 0x11, 0})
	f.Add([]byte{0, 0x00, 0x60, 0, 1, 0x60, 0x66, 3, 0, 0x66, 0x06, 5, 0, 0x06, 0x00, 0, 0, 0x10, 0x50, 4, 2, 0x33, 0x11, 0, 2, 0x33, 0x11, 2})
	f.Fuzz(func(t *testing.T, data []byte) {
		s := gridSheet(data)
		d := s.read(t)
		m := checkDrawing(t, d)
		again := &sheet{}
		for _, r := range m.Regions {
			if small(r) {
				return // within what counts as one place
			}
			again.loop("0", r.Outer)
			for _, h := range r.Holes {
				again.loop("0", h)
			}
		}
		n := drawing.Mend(drawing.Assemble(again.read(t), 0))
		require.Len(t, n.Regions, len(m.Regions), "%v", n.Left)
		for i, r := range n.Regions {
			require.InDelta(t, m.Regions[i].Area(), r.Area(), 1e-3*r.Perimeter())
		}
	})
}

// small reports whether a region has edges that a table stumbles over.
func small(r geom.Region) bool {
	for _, l := range append([]geom.Loop{r.Outer}, r.Holes...) {
		for _, g := range l {
			if g.Length() < num.TinyEdge {
				return true
			}
		}
	}
	return false
}

// gridSheet draws what the bytes say, four for each entity: kind, place, place,
// nudge.
func gridSheet(data []byte) *sheet {
	s := &sheet{}
	nudges := []float64{0, 0, 0, 1e-15, 1e-8, 2e-7, 1e-4, 0.004, 0.01, 0.019, 0.03, 0.049, 0.051, 0.3}
	for k := 0; len(data) >= 4 && k < 60; k++ {
		w := binary.LittleEndian.Uint32(data)
		data = data[4:]
		at := func(b uint32) geom.Point { return pt(float64(b>>4&15)*10, float64(b&15)*10) }
		p, q := at(w>>8), at(w>>16)
		off := nudges[int(w>>24&15)%len(nudges)]
		a := q.Add(geom.Point{}.Polar(off, float64(w>>28)))
		switch w % 5 {
		case 0, 1:
			s.line("0", p, a)
		case 2:
			s.circle("0", p, 1+float64(w>>16&7)*5+off)
		case 3:
			if p != a {
				g := geom.BulgeSeg(p, a, []float64{1, -1, 0.4142135623730951, -0.4142135623730951}[w>>4&3])
				s.seg("0", g)
			}
		case 4:
			s.joined("0", geom.Polygon(p, pt(a.X, p.Y), a, pt(p.X, a.Y)))
		}
	}
	s.line("frame", pt(-100, -100), pt(-50, -100))
	return s
}
