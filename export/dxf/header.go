package dxf

import (
	"bytes"
	"errors"

	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/header"
	"github.com/yofu/dxf/insunit"

	"blankwright/flat/geom"
	"blankwright/flat/unit"
)

// fillHeader gives the drawing's header its version, unit and extents (in
// drawing units).
func fillHeader(h *header.Header, fr *frame, sys unit.System, min, max geom.Point) {
	h.Version = fr.version
	h.InsUnit = insunit.Millimeters
	if sys == unit.Inch {
		h.InsUnit = insunit.Inches
	}
	h.ExtMin[0], h.ExtMin[1] = min.X, min.Y
	h.ExtMax[0], h.ExtMax[1] = max.X, max.Y
}

// writeHeader writes the HEADER section: the library's variables and, before
// its end, those it does not know.
func writeHeader(f *formatter, h *header.Header, fr *frame) {
	if fr.old {
		writeHeader12(f, h)
		return
	}
	h.Format(f)
	if !f.unwrite(endOfSection) {
		f.fail(errors.New("header section does not end as expected"))
		return
	}
	writeLimits(f, h)
	measurement := 1 // metric
	if h.InsUnit == insunit.Inches {
		measurement = 0 // English
	}
	f.WriteString(9, "$MEASUREMENT")
	f.WriteInt(70, measurement)
	f.WriteString(0, "ENDSEC")
}

// writeHeader12 is the whole HEADER section of R12, which knows neither units
// nor handles.
func writeHeader12(f *formatter, h *header.Header) {
	f.WriteString(0, "SECTION")
	f.WriteString(2, "HEADER")
	f.WriteString(9, "$ACADVER")
	f.WriteString(1, h.Version)
	writePoint(f, "$INSBASE", h.InsBase)
	writePoint(f, "$EXTMIN", h.ExtMin)
	writePoint(f, "$EXTMAX", h.ExtMax)
	writeLimits(f, h)
	f.WriteString(0, "ENDSEC")
}

// writeLimits writes the drawing limits, equal to the extents, and the code
// page. The text is ASCII throughout.
func writeLimits(f *formatter, h *header.Header) {
	writePoint(f, "$LIMMIN", h.ExtMin[:2])
	writePoint(f, "$LIMMAX", h.ExtMax[:2])
	f.WriteString(9, "$DWGCODEPAGE")
	f.WriteString(3, "ANSI_1252")
}

func writePoint(f format.Formatter, name string, p []float64) {
	f.WriteString(9, name)
	for i, v := range p {
		f.WriteFloat(10*(i+1), v)
	}
}

var endOfSection = []byte("  0" + lineEnd + "ENDSEC" + lineEnd)

// unwrite takes back the end of what was written, where that is as given.
func (f *formatter) unwrite(tail []byte) bool {
	if !bytes.HasSuffix(f.buf, tail) {
		return false
	}
	f.buf = f.buf[:len(f.buf)-len(tail)]
	return true
}

// fail notes the first error.
func (f *formatter) fail(err error) {
	if f.err == nil {
		f.err = err
	}
}
