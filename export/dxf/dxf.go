// Package dxf writes a blank as a DXF drawing for the cutting table: lines, true
// arcs and circles on layers by meaning, in cutting order, in the unit the table
// works in, or a sheet with many of them (plate.go). No blocks, splines, ellipses, fonts, widths or extrusions; z is 0;
// the outline's lower left is 0,0. Edges are those of the blank: nominal, unless it
// was compensated for a kerf, which the head of the file then says.
//
// Format: DXF Reference (R2000, AC1015; R12, AC1009), ASCII form.
package dxf

import (
	"bytes"
	"errors"
	"fmt"

	"blankwright/export/stroke"
	"blankwright/flat/blank"
	"blankwright/flat/cutlist"
	"blankwright/flat/unit"
)

// Version is a version of the drawing format.
type Version int

const (
	// R2000 is AC1015: units in the header, LWPOLYLINE where joined.
	R2000 Version = iota
	// R12 is AC1009: what the oldest tables read. It has nowhere to say its unit
	// but in a comment; POLYLINE where joined.
	R12
)

// Options say how a drawing is written.
type Options struct {
	// Joined gives outline, slots and cutouts as closed polylines with bulges instead of
	// single lines and arcs in walking order. Whole circles stay CIRCLE.
	Joined bool
	// Unit of the coordinates: unit.Millimetre or unit.Inch. There is no
	// default: a drawing in the wrong unit is cut at the wrong size.
	Unit unit.System
	// Version of the format; R2000 where not given.
	Version Version
	// Marks are the part marks with their places, where stroke.Place was asked for
	// them already; nil lets Write ask.
	Marks []stroke.Mark
	// Cuts are the cuts of the blank in their order, where cutlist.Order was asked
	// for them already; nil lets Write and Verify ask.
	Cuts []cutlist.Cut
	// NoMarks leaves the part marks out; marks for holes to be drilled stay.
	NoMarks bool
	// BendEnds marks only the ends of the bend lines of a formed part, so that the
	// line itself is not scribed across the bend.
	BendEnds bool
	// Note goes into the comment at the head of the file, such as failed checks
	// that were accepted. It may have several lines.
	Note string
}

func (o Options) check() error {
	if o.Unit != unit.Millimetre && o.Unit != unit.Inch {
		return errors.New("no unit is chosen for the drawing: wanted millimetre or inch")
	}
	if o.Version < 0 || int(o.Version) >= len(newFrames) {
		return fmt.Errorf("drawing version %d is not known: wanted R2000 or R12", o.Version)
	}
	return nil
}

// Write gives the bytes of the drawing of b. The same blank and options give the
// same bytes, from any number of goroutines. b is not modified.
//
// It is an error, and no bytes are given, where the outline or a slot is not
// closed, a segment has no length, an arc contradicts its circle, a size is not
// more than nothing or any value is not a finite number.
func Write(b *blank.Blank, o Options) ([]byte, error) {
	if b == nil {
		return nil, errors.New("there is no blank to draw")
	}
	if err := o.check(); err != nil {
		return nil, err
	}
	if err := checkBlank(b); err != nil {
		return nil, fmt.Errorf("drawing of %q: %w", b.Name, err)
	}
	s := sheets.Get().(*sheet)
	defer s.putAway()
	s.start(frameOf(o.Version, layersOf(b).used(b.Formed != nil)), o.Unit, b.Outline.Bounds().Min)
	switch {
	case o.NoMarks:
	case o.Marks != nil:
		s.texts = o.Marks
	default:
		s.texts = stroke.Place(b)
	}
	s.cuts = o.Cuts
	if err := s.draw(b, o); err != nil {
		return nil, fmt.Errorf("drawing of %q: %w", b.Name, err)
	}
	s.finish(o, func() { s.comments(b, o) })
	if s.out.err != nil {
		return nil, fmt.Errorf("drawing of %q: %w", b.Name, s.out.err)
	}
	return bytes.Clone(s.out.buf), nil
}

// finish formats the sheet: comment, header, the frame's sections round the
// entities, end of file.
func (s *sheet) finish(o Options, comments func()) {
	next := s.frame.next
	s.all.SetHandle(&next)
	s.head.SetHandle(&next)
	fillHeader(s.head, s.frame, o.Unit, s.at(s.box.Min), s.at(s.box.Max))

	f := &s.out
	comments()
	writeHeader(f, s.head, s.frame)
	f.buf = append(f.buf, s.frame.before...)
	s.all.Format(f)
	f.buf = append(f.buf, s.frame.after...)
	f.WriteString(0, "EOF")
}
