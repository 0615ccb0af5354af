package drawing

import (
	"bytes"
	"fmt"
	"io"

	"blankwright/flat/diag"
)

// Read reads the text of a drawing. name is the file's name for messages.
//
// It is an error (diag.Problems with file and line) where the text is no ASCII
// DXF of R12 to R2018, is cut short or damaged, holds a block that inserts
// itself, or goes beyond a limit. What can be read but not cut is no error here:
// it is among the drawing's faults.
func Read(name string, text []byte, o Options) (*Drawing, error) {
	o = o.filled()
	if len(text) > o.Limits.Bytes {
		return nil, tooLarge(name, o.Limits.Bytes)
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	if err := checkKind(name, text); err != nil {
		return nil, err
	}
	doc := newDocument(name, text, o)
	doc.read()
	if err := doc.in.err.Err(); err != nil {
		return nil, err
	}
	d := doc.drawing()
	fl := flattener{d: d, doc: doc, o: o, steps: o.Limits.Steps, pieces: o.Limits.Pieces}
	fl.run()
	if err := doc.in.err.Err(); err != nil {
		return nil, err
	}
	d.doubtUnit()
	d.tellIgnored()
	d.Faults = d.faults.list()
	return d, nil
}

// ReadFrom reads a drawing from r, no further than the limit of bytes.
func ReadFrom(name string, r io.Reader, o Options) (*Drawing, error) {
	limit := o.filled().Limits.Bytes
	text, err := io.ReadAll(io.LimitReader(r, int64(limit)+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return Read(name, text, o)
}

func tooLarge(name string, limit int) error {
	return refuse(name, fmt.Sprintf("the file is larger than %d bytes", limit), "a drawing of one job is far smaller: split it")
}

func refuse(name, message, hint string) error {
	var ps diag.Problems
	ps.AddHint(diag.Pos{File: name}, hint, "%s", message)
	return ps.Err()
}

// checkKind refuses by name the files that people take for a DXF drawing.
func checkKind(name string, text []byte) error {
	const asDXF = "save it as DXF (ASCII, R12 to R2018)"
	starts := func(s string) bool { return bytes.HasPrefix(text, []byte(s)) }
	switch {
	case len(bytes.Trim(text, "\x00\x1a \t\r\n")) == 0:
		return refuse(name, "the file is empty", "save the drawing again")
	case starts("AutoCAD Binary DXF"):
		return refuse(name, "this is a binary DXF drawing: only ASCII DXF is read", asDXF)
	case starts("AutoCAD DXB"):
		return refuse(name, "this is a DXB file, not a DXF drawing", asDXF)
	case starts("AC10") || starts("AC1.") || starts("AC2.") || starts("MC0."):
		return refuse(name, "this is a DWG drawing, not a DXF drawing", asDXF)
	case starts("%PDF"):
		return refuse(name, "this is a PDF, not a DXF drawing", "ask for the drawing itself as DXF")
	case starts("PK\x03\x04") || starts("\x1f\x8b"):
		return refuse(name, "this is a packed file, not a DXF drawing", "unpack it first")
	case starts("\xff\xfe") || starts("\xfe\xff"):
		return refuse(name, "the text is UTF-16: a DXF drawing is ASCII or UTF-8", asDXF)
	case !begins(text):
		return refuse(name, "this is not a DXF drawing: it does not begin with group 0, SECTION", asDXF)
	}
	return nil
}

// begins reports whether the first groups are those of a DXF drawing: comments,
// then a section.
func begins(text []byte) bool {
	s := newScanner("", text)
	for s.next() {
		if s.code != commentCode {
			return s.is(0, "SECTION") || s.is(0, "EOF")
		}
	}
	return false
}

// commentCode is the group of a comment.
const commentCode = 999
